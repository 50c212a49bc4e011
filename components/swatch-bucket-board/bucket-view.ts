import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { repeat } from 'lit/directives/repeat.js';
import { munsellValue, type BoardBand, type BoardSwatch } from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { swatchesIn } from './board-moves.js';
import type { BoardView } from './board-view.js';
import { renderCard, shownBy } from './card-view.js';
import { dab, greyOf, paintOf } from './dabs.js';
import { renderBandForm, renderColourForm } from './form-views.js';
import { lackWords } from './lack-words.js';
import { ladderOf } from './ladder.js';
import { dryLightness, gapInValue } from './verdict-words.js';

/** One bucket: its band's name and range, the ladder of greys, the swatches, and a way to add one. */
export function renderBucket(view: BoardView, bucket: number): TemplateResult {
  const { board, form, drag } = view;
  const band = board.bands[bucket];
  const swatches = swatchesIn(board, bucket);
  const may = view.bandMay(bucket);
  const changing = form?.kind === 'band' && form.bucket === bucket;
  const adding = form?.kind === 'add' && form.bucket === bucket;
  const target = drag?.over?.bucket === bucket;
  return html`<div class="bucket" part="bucket" role="group" aria-labelledby="band-${bucket}">
    <div class="title" part="title">
      <span class="band" id="band-${bucket}">${band.name}</span>
      ${band.locked ? html`<span class="fixed small">${icon('lock')}<span>${view.say('bucket.locked')}</span></span>` : nothing}
      ${
        view.open && (may.name || may.limit || may.split || may.remove)
          ? html`<button
              type="button"
              class="quiet tool"
              data-band=${bucket}
              aria-expanded=${changing}
              aria-label="${view.say('band.change')}: ${band.name}"
              @click=${() => view.show(changing ? undefined : { kind: 'band', bucket })}
            >
              ${icon('pen')}<span>${view.say('dab.change')}</span>
            </button>`
          : nothing
      }
      <span
        class="range"
        title=${view.say('bucket.range-detail', { floor: band.floor, ceiling: band.ceiling })}
        >${rangeOf(view, bucket)}</span
      >
    </div>
    <div class=${`tray${target ? ' target' : ''}`} part="tray" data-bucket=${bucket}>
      ${changing ? renderBandForm(view, bucket, may) : nothing} ${ladderBeside(view, bucket)}
      <div class="lying">
        <ul class="cards" part="swatches">
          ${listed(view, bucket)}
        </ul>
        ${swatches.length === 0 && !adding ? renderEmpty(view, bucket) : nothing}
        ${renderLacks(view, bucket)}
        ${
          adding
            ? renderColourForm(view, bucket)
            : view.open
              ? html`<button
                  type="button"
                  class="quiet add"
                  part="add-button"
                  data-add=${bucket}
                  @click=${() => view.show({ kind: 'add', bucket })}
                >
                  ${icon('plus')}<span>${view.say('add.open')}</span
                  ><span class="away">: ${band.name}</span>
                </button>`
              : nothing
        }
        ${view.mixes?.renderComplete(view, bucket) ?? nothing}
      </div>
    </div>
  </div>`;
}

/** The cards in order, with a line where a dragged swatch would be laid. Keyed, so that the dab in hand stays the same node. */
function listed(view: BoardView, bucket: number): unknown {
  const { board, drag, drawn } = view;
  const items: (BoardSwatch | 'here')[] = swatchesIn(board, bucket).filter(({ id }) =>
    drawn.has(id),
  );
  if (drag?.over?.bucket === bucket) {
    const others = swatchesIn(board, bucket).filter(({ id }) => id !== drag.id);
    const before = others[drag.over.place];
    const at = before ? items.indexOf(before) : -1;
    items.splice(at < 0 ? items.length : at, 0, 'here');
  }
  return repeat(
    items,
    (item) => (item === 'here' ? ' here' : `=${item.id}`),
    (item) =>
      item === 'here'
        ? html`<li class="here" aria-hidden="true"></li>`
        : guard(shownBy(view, item), () => renderCard(view, item)),
  );
}

function rangeOf({ board, say }: BoardView, bucket: number): string {
  const { floor, ceiling } = board.bands[bucket];
  const from = munsellValue(floor);
  const to = munsellValue(ceiling);
  if (board.bands.length === 1) return say('bucket.range-one');
  if (bucket === 0) return say('bucket.range-first', { to });
  if (bucket === board.bands.length - 1) return say('bucket.range-last', { from });
  return say('bucket.range', { from, to });
}

/** What a bucket still lacks, where the page asks for something. */
function renderLacks({ board, lacks, say }: BoardView, bucket: number): unknown {
  return lacks
    .filter((lack) => lack.bucket === bucket)
    .map((lack) => lackWords(say, 'bucket', lack, board.bands[bucket].name))
    .map((words) => html`<p class="lack" part="lack">${words}</p>`);
}

/** What an empty bucket is for. */
function renderEmpty(view: BoardView, bucket: number): TemplateResult {
  const { bands } = view.board;
  const { floor, ceiling }: BoardBand = bands[bucket];
  const key =
    bucket === 0
      ? 'bucket.empty-first'
      : bucket === bands.length - 1
        ? 'bucket.empty-last'
        : 'bucket.empty';
  return html`<div class="empty" part="empty">
    <svg class="outline" viewBox="0 0 120 76" aria-hidden="true">
      ${dab(`empty-${bucket}`, 'none')}
    </svg>
    <p>${view.say(key, { from: munsellValue(floor), to: munsellValue(ceiling) })}</p>
    ${view.open ? html`<p>${view.say(view.tied ? 'bucket.empty-how-tied' : 'bucket.empty-how')}</p>` : nothing}
  </div>`;
}

const LANES = ['50%', '21%', '79%'];
const percent = (fraction: number): string => `${Math.round(fraction * 1000) / 10}%`;

/** The ladder, drawn anew when something on it changes. */
function ladderBeside(view: BoardView, bucket: number): unknown {
  const { board, paper, greys, words, drawn } = view;
  const swatches = swatchesIn(board, bucket).filter(({ id }) => drawn.has(id));
  const { floor, ceiling } = board.bands[bucket];
  const marked = swatches.find(({ id }) => id === (view.lifted ?? view.pointed))?.id;
  const told = view.verdict !== undefined;
  return guard([floor, ceiling, paper, greys, words, told, marked, ...swatches], () =>
    renderLadder(view, bucket, swatches, marked),
  );
}

/** The greys of the band, lightest on top, with a touch of each swatch at its value; the eye compares. */
function renderLadder(
  view: BoardView,
  bucket: number,
  swatches: readonly BoardSwatch[],
  marked: string | undefined,
): TemplateResult {
  const { board, paper, greys, number } = view;
  const told = view.verdict !== undefined;
  const byId = new Map(swatches.map((swatch) => [swatch.id, swatch]));
  const dry = swatches.map((swatch) => ({ id: swatch.id, lightness: dryLightness(swatch, paper) }));
  const { rungs, touches, edges, low, high } = ladderOf(board.bands[bucket], told ? dry : []);
  const ordered = [...touches].sort((a, b) => Number(a.id === marked) - Number(b.id === marked));
  return html`<div class="rail" part="ladder" aria-hidden="true">
    <span class="end">${number(munsellValue(high))}</span>
    <svg class="ladder">
      ${rungs.map(
        (
          { lightness, top, height, inside },
          i,
        ) => svg`<svg x=${inside ? '0' : '16%'} width=${inside ? '100%' : '68%'} y=${percent(top)} height=${percent(height)} viewBox="0 0 120 76" preserveAspectRatio="none">
          ${dab(`rung-${bucket}-${i}`, greyOf(lightness))}
        </svg>`,
      )}
      ${edges.map((edge) => svg`<line class="edge" x1="0" x2="100%" y1=${percent(edge)} y2=${percent(edge)}></line>`)}
      ${repeat(
        ordered,
        ({ id }) => id,
        ({ id, at, lane }): SVGTemplateResult => {
          const swatch = byId.get(id)!;
          const strong = id === marked;
          return svg`<svg class="touch" x=${LANES[lane]} y=${percent(at)} overflow="visible">
          <ellipse class=${`${swatch.lightness < 55 ? 'deep' : 'pale'}${strong ? ' strong' : ''}`} rx=${strong ? 11 : 8} ry=${strong ? 9 : 6} fill=${paintOf(swatch, greys)}></ellipse>
        </svg>`;
        },
      )}
    </svg>
    <span class="end">${number(munsellValue(low))}</span>
  </div>`;
}

/** The distance between a bucket and the next lighter one, drawn between them. */
export function renderGap(view: BoardView, darker: number): TemplateResult {
  const { board, verdict, say } = view;
  const filled = (bucket: number): boolean =>
    board.swatches.some((swatch) => swatch.bucket === bucket && !swatch.accent);
  if (!verdict || !filled(darker) || !filled(darker + 1))
    return html`<div class="gap" part="gap"></div>`;
  const by = gapInValue(board, darker, view.paper);
  const crossed = by < 0 || verdict.gaps[darker] < 0;
  const distance = crossed
    ? say('bucket.gap-crossed', { by: Math.abs(by) })
    : by === 0
      ? say('bucket.gap-none')
      : say('bucket.gap', { by });
  const label = say('bucket.gap-label', {
    darker: board.bands[darker].name,
    lighter: board.bands[darker + 1].name,
    distance,
  });
  return html`<div
    class=${`gap${crossed ? ' crossed' : ''}`}
    part="gap"
    role="img"
    aria-label=${label}
  >
    <svg viewBox="0 0 56 28" aria-hidden="true">
      ${
        crossed
          ? svg`<path d="M8 5v18M48 5v18"></path><path d="M36 9 20 9M20 9l4-3.500M20 9l4 3.500M20 19h16M36 19l-4-3.500M36 19l-4 3.500"></path>`
          : svg`<path d="M8 5v18M48 5v18M10 14h36M10 14l4.500-4M10 14l4.500 4M46 14l-4.500-4M46 14l-4.500 4"></path>`
      }
    </svg>
    <span class="measure" aria-hidden="true">${distance}</span>
  </div>`;
}

const MOST_PAIRS = 6;

/** Which two swatches cross, drawn as two dabs over each other. */
export function renderPairs(view: BoardView): TemplateResult | typeof nothing {
  const { board, verdict, greys, say, nameOf } = view;
  if (!verdict || verdict.overlaps.length === 0) return nothing;
  const of = (id: string) => board.swatches.find((swatch) => swatch.id === id)!;
  const pairs = verdict.overlaps.slice(0, MOST_PAIRS);
  const rest = verdict.overlaps.length - pairs.length;
  return html`<div class="pairs" part="pairs">
    <span class="heading" id="pairs">${say('bucket.pairs')}</span>
    <ul aria-labelledby="pairs">
      ${pairs.map(([darker, lighter]) => {
        const [a, b] = [of(darker), of(lighter)];
        return html`<li
          @pointerenter=${() => view.point(darker)}
          @pointerleave=${() => view.point(undefined)}
        >
          <svg viewBox="0 0 96 44" aria-hidden="true">
            <svg x="0" y="0" width="56" height="36" viewBox="0 0 120 76">
              ${dab(darker, paintOf(a, greys))}
            </svg>
            <svg x="38" y="8" width="56" height="36" viewBox="0 0 120 76">
              ${dab(lighter, paintOf(b, greys))}
            </svg>
          </svg>
          <span
            >${say('bucket.pair', { darker: nameOf(darker), darkerBand: board.bands[a.bucket].name, lighter: nameOf(lighter), lighterBand: board.bands[b.bucket].name })}</span
          >
        </li>`;
      })}
      ${rest > 0 ? html`<li class="soft">${say('bucket.pair-more', { count: rest })}</li>` : nothing}
    </ul>
  </div>`;
}
