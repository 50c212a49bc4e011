import { html, nothing, svg, type TemplateResult } from 'lit';
import { icon } from '../shared/icons.js';
import { put } from '../shared/put.js';
import { boxOf, pointsOf } from './geometry.js';
import type { SheetView } from './sheet-view.js';
import type { StageHand } from './stage-hand.js';

const CORNERS = ['top-left', 'top-right', 'bottom-right', 'bottom-left'] as const;

const percent = (share: number): string => `${(100 * share).toFixed(3)}%`;

/** The picture with the sheet's corners and the dabs drawn in place. */
export function renderStage(view: SheetView, hand: StageHand): TemplateResult {
  const { say, state, picture, aspect } = view;
  const { doing } = view.shaping;
  const corners = view.shownCorners ?? state?.corners;
  const read = state !== undefined && picture.handle !== undefined;
  return html`<section class="sheet" part="sheet" aria-label=${say('reader.sheet')}>
    <div class="bar">
      ${
        read
          ? html`<button
                type="button"
                class="quiet"
                data-undo
                part="undo"
                ?disabled=${!view.canUndo}
                @click=${() => view.undo()}
              >
                ${icon('undo')}<span>${say('reader.undo')}</span>
              </button>
              <button
                type="button"
                class="quiet"
                data-redo
                part="redo"
                ?disabled=${!view.canRedo}
                @click=${() => view.redo()}
              >
                ${icon('redo')}<span>${say('reader.redo')}</span>
              </button>
              <button
                type="button"
                class="quiet"
                data-add
                aria-pressed=${doing === 'add' ? 'true' : 'false'}
                @click=${() => view.shaping.do(doing === 'add' ? 'pick' : 'add')}
              >
                ${icon('plus')}<span>${say('reader.add')}</span>
              </button>
              <button
                type="button"
                class="quiet"
                data-nearer
                aria-pressed=${view.nearer ? 'true' : 'false'}
                @click=${() => view.setNearer(!view.nearer)}
              >
                ${icon('eye')}<span>${say('reader.nearer')}</span>
              </button>
              ${
                view.cornersFound
                  ? nothing
                  : html`<button
                      type="button"
                      class="quiet"
                      data-reset
                      @click=${() => view.resetCorners()}
                    >
                      ${icon('corner')}<span>${say('reader.corners-reset')}</span>
                    </button>`
              }`
          : nothing
      }
    </div>
    ${
      doing === 'add'
        ? html`<div class="hint">
            <span>${say('reader.add-hint')}</span>
            <button type="button" data-middle @click=${() => view.shaping.layInMiddle()}>
              ${icon('spot')}<span>${say('reader.add-middle')}</span>
            </button>
          </div>`
        : nothing
    }
    ${
      doing === 'part'
        ? html`<div class="hint">
            <span>${say('reader.part-hint')}</span>
            <button type="button" data-part-here @click=${() => view.shaping.part(view.picked)}>
              ${icon('cut')}<span>${say('reader.part-here')}</span>
            </button>
            <button type="button" class="quiet" @click=${() => view.shaping.turnLine()}>
              ${icon('redo')}<span>${say('reader.line-turn')}</span>
            </button>
            <button type="button" class="quiet" @click=${() => view.shaping.do('pick')}>
              ${icon('close')}<span>${say('reader.leave')}</span>
            </button>
          </div>`
        : nothing
    }
    <div class=${view.nearer ? 'mat near' : 'mat'} part="mat">
      <div
        class=${`stage ${doing}${view.busy ? ' busy' : ''}`}
        part="picture"
        ${put({ 'aspect-ratio': String(aspect), '--_aspect': String(aspect) })}
        role="group"
        aria-label=${say('reader.picture', { count: state?.dabs.length ?? 0 })}
        @pointerdown=${(event: PointerEvent) => hand.press(event)}
        @click=${(event: MouseEvent) => hand.click(event)}
        @keydown=${(event: KeyboardEvent) => hand.key(event)}
      >
        <canvas aria-hidden="true"></canvas>
        ${
          read && corners
            ? html`<svg
                  class="over"
                  viewBox="0 0 1 1"
                  preserveAspectRatio="none"
                  aria-hidden="true"
                >
                  <polygon class="edge under" points=${pointsOf(corners)}></polygon>
                  <polygon class="edge" points=${pointsOf(corners)}></polygon>
                  ${state.dabs.map((dab) => {
                    const kind = dab.id === view.picked ? ' picked' : '';
                    return svg`${view.shaping.shownLoops(dab).map(
                      (loop) =>
                        svg`<polygon class=${`dab under${kind}`} points=${pointsOf(loop)}></polygon>
                          <polygon class=${`dab${kind}`} points=${pointsOf(loop)}></polygon>`,
                    )}`;
                  })}
                  ${
                    view.shaping.drawing
                      ? svg`<polygon class="dab under picked" points=${pointsOf(view.shaping.drawing)}></polygon>
                          <polygon class="dab picked" points=${pointsOf(view.shaping.drawing)}></polygon>`
                      : nothing
                  }
                  ${
                    view.shaping.line
                      ? svg`<polyline class="cut under" points=${pointsOf(view.shaping.line)}></polyline>
                          <polyline class="cut" points=${pointsOf(view.shaping.line)}></polyline>`
                      : nothing
                  }
                </svg>
                ${state.dabs.map((dab, i) => {
                  const { x, y } = boxOf(view.shaping.shownLoops(dab));
                  return html`<span
                    class=${dab.id === view.picked ? 'label picked' : 'label'}
                    aria-hidden="true"
                    ${put({ left: percent(x), top: percent(y) })}
                    >${i + 1}<span class="label-value"> · ${view.value(dab.lab[0])}</span></span
                  >`;
                })}
                ${doing === 'part' ? renderEnds(view) : doing === 'add' ? nothing : renderBox(view)}
                ${
                  doing === 'pick'
                    ? CORNERS.map((name, i) => {
                        const [x, y] = corners[i];
                        const place = {
                          x: view.number(100 * x, 1),
                          y: view.number(100 * y, 1),
                        };
                        return html`<button
                          type="button"
                          class="corner"
                          part="corner"
                          data-corner=${i}
                          aria-label=${say('reader.corner', { corner: say(`reader.${name}`), ...place })}
                          title=${say(`reader.${name}`)}
                          ${put({ '--_x': percent(x), '--_y': percent(y) })}
                        ></button>`;
                      })
                    : nothing
                }`
            : nothing
        }
      </div>
    </div>
    ${read ? html`<p class="soft small">${say('reader.keys')}</p>` : nothing}
  </section>`;
}

/** What the picked dab is moved and sized by. */
function renderBox(view: SheetView): TemplateResult | typeof nothing {
  const dab = view.state?.dabs.find(({ id }) => id === view.picked);
  if (!dab) return nothing;
  const { x, y, width, height } = boxOf(view.shaping.shownLoops(dab));
  const number = view.numberOf(dab.id);
  return html`<button
      type="button"
      class="box"
      data-box
      aria-label=${view.say('reader.box', { number, value: view.value(dab.lab[0]) })}
      ${put({
        left: percent(x + width / 2),
        top: percent(y + height / 2),
        width: percent(width),
        height: percent(height),
      })}
    ></button>
    <button
      type="button"
      class="size"
      data-size
      aria-label=${view.say('reader.size', { number })}
      title=${view.say('reader.size', { number })}
      ${put({ left: percent(x + width), top: percent(y + height) })}
    ></button>`;
}

/** The ends of the line that parts a dab. */
function renderEnds(view: SheetView): TemplateResult[] {
  return (view.shaping.line ?? []).map(
    ([x, y], i) =>
      html`<button
        type="button"
        class="corner end"
        data-end=${i}
        aria-label=${view.say('reader.line-end', {
          number: i + 1,
          x: view.number(100 * x, 1),
          y: view.number(100 * y, 1),
        })}
        ${put({ '--_x': percent(x), '--_y': percent(y) })}
      ></button>`,
  );
}

/** Longest side of the picture as it is drawn, pixels. */
const MOST = 1600;

const drawn = new WeakMap<HTMLCanvasElement, ImageBitmap>();

/** Draws the photo, once for each. */
export function drawPicture({ picture }: SheetView, root: ShadowRoot | null): void {
  const canvas = root?.querySelector<HTMLCanvasElement>('.stage canvas');
  const bitmap = picture.bitmap ?? picture.handle?.preview.bitmap;
  if (!canvas || !bitmap || bitmap.width === 0 || drawn.get(canvas) === bitmap) return;
  const scale = Math.min(1, MOST / Math.max(bitmap.width, bitmap.height));
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  const context = canvas.getContext('2d');
  if (!context) return;
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  drawn.set(canvas, bitmap);
}

/** Brings the picked dab to the middle of what is seen of the photo. */
export function showPicked({ state, picked }: SheetView, root: ShadowRoot | null): void {
  const mat = root?.querySelector<HTMLElement>('.mat.near');
  const stage = root?.querySelector<HTMLElement>('.stage');
  const dab = state?.dabs.find(({ id }) => id === picked);
  if (!mat || !stage || !dab) return;
  const { x, y, width, height } = boxOf(dab.loops);
  mat.scrollLeft = stage.offsetLeft + (x + width / 2) * stage.clientWidth - mat.clientWidth / 2;
  mat.scrollTop = stage.offsetTop + (y + height / 2) * stage.clientHeight - mat.clientHeight / 2;
}
