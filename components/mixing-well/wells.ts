import { html, nothing, type TemplateResult } from 'lit';
import { letDown, munsellValue, type Part } from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { stretches } from '../shared/ladder.js';
import { put } from '../shared/put.js';
import { renderDone } from './done-view.js';
import { bandOf, canMix, dabOf, MOST_SPOONS, placeOf, strengthAt, stretchesOf } from './mixture.js';
import type { WellView } from './well-view.js';

const fieldOf = (event: Event): HTMLInputElement => event.target as HTMLInputElement;

/** Steps of the slider of water along its whole length. */
const STEPS = 240;
/** A press on less or more water: a quarter of a doubling. */
const TURN = 2 ** 0.25;

/** Spoonfuls of each tube, and water. */
export function renderWells(view: WellView): TemplateResult {
  const { say, parts, now } = view;
  return html`<section class="wells" part="wells" aria-labelledby="wells-title">
    <div class="head">
      <h3 id="wells-title">${say('well.well')}</h3>
      <span class="spring"></span>
      ${
        parts.length > 0
          ? html`<button type="button" class="quiet" data-empty @click=${() => view.empty()}>
              ${icon('close')}<span>${say('well.empty')}</span>
            </button>`
          : nothing
      }
    </div>
    ${renderDone(view, 'well')} ${renderFromBoard(view)}
    ${
      parts.length === 0
        ? html`<p class="soft hint">${say('well.empty-well')}</p>`
        : html`<ul class="spoons">
              ${parts.map((part) => renderSpoons(view, part))}
            </ul>
            ${now.strip ? renderWater(view) : nothing}`
    }
  </section>`;
}

const clamped = (lightness: number): number => Math.min(100, Math.max(0, lightness));

/** Recipes of the plan's board, to go on from. */
function renderFromBoard(view: WellView): TemplateResult | typeof nothing {
  const { say, plan } = view;
  const swatches = plan.board.swatches.filter(({ recipe }) => recipe && canMix(recipe));
  if (swatches.length === 0) return nothing;
  return html`<label class="field from-board">
    <span class="small">${say('well.from-board')}</span>
    <select
      data-from-board
      @change=${(event: Event) => {
        const field = event.target as HTMLSelectElement;
        const swatch = swatches.find(({ id }) => id === field.value);
        field.value = '';
        if (swatch) view.takeUp(swatch.recipe!);
      }}
    >
      <option value="">${say('well.from-board-none')}</option>
      ${swatches.map(
        ({ id, name, css, bucket }) =>
          html`<option value=${id}>${name || css || id} (${view.bandName(bucket)})</option>`,
      )}
    </select>
  </label>`;
}

/** What a screen reader hears beside a figure: what it makes of the mix. */
function madeWords({ say, figure, now, bandName, plan }: WellView): string {
  const { judged } = now;
  if (!judged) return '';
  const value = figure(munsellValue(clamped(judged.lab[0])));
  return say('well.made', { value, band: bandName(bandOf(plan.board.bands, judged.lab[0])) });
}

function renderSpoons(view: WellView, { tube, parts: spoons }: Part): TemplateResult {
  const { say, now } = view;
  const name = view.name(tube);
  const figure = say('well.spoons', { spoons });
  const most = Math.max(MOST_SPOONS, Math.ceil(spoons));
  return html`<li class="spoon" part="spoon" data-spoon=${tube}>
    <span class="dab" ${put({ background: dabOf(tube, now.ground) })}></span>
    <span class="spoon-name">${name}</span>
    <span class="spoon-figure">${figure}</span>
    <div class="measure">
      <button
        type="button"
        class="step"
        aria-label="${say('well.less')}: ${name}"
        ?disabled=${spoons <= 0}
        @click=${() => view.dose(tube, -1)}
      >
        ${icon('minus')}<span>${say('well.less')}</span>
      </button>
      <input
        type="range"
        min="0"
        max=${most}
        step="1"
        aria-label=${name}
        aria-valuetext=${`${figure}. ${madeWords(view)}`}
        .value=${String(spoons)}
        @input=${(event: Event) => view.spoon(tube, fieldOf(event).valueAsNumber, false)}
        @change=${(event: Event) => view.spoon(tube, fieldOf(event).valueAsNumber)}
      />
      <button
        type="button"
        class="step"
        aria-label="${say('well.more')}: ${name}"
        ?disabled=${spoons >= most}
        @click=${() => view.dose(tube, 1)}
      >
        ${icon('plus')}<span>${say('well.more')}</span>
      </button>
    </div>
  </li>`;
}

/** Water: the strip of the same parts from weak to strong, with the slider under it and the bands it runs through. */
function renderWater(view: WellView): TemplateResult {
  const { say, strength, now, plan, bandName } = view;
  const strip = now.strip!;
  const total = now.parts.reduce((sum, part) => sum + part.parts, 0);
  const [{ water }, ...more] = letDown(total, strength);
  const figure = say('well.water-figure', { water });
  const then = more.map((puddle) =>
    say('well.water-then', { spoons: puddle.spoons, water: puddle.water }),
  );
  const runs = stretchesOf(strip, plan.board.bands);
  const percent = (place: number): string => `${(place * 100).toFixed(2)}%`;
  const told = runs
    .map(({ band, to }) => say('well.stretch', { band: bandName(band), to: strengthAt(to) }))
    .join(', ');
  const place = placeOf(strength);
  return html`<div class="spoon water" part="water">
    <svg class="dab drop" viewBox="0 0 20 20" aria-hidden="true">
      <path
        d="M10 2.500c3.500 4.300 5.300 6.600 5.300 9.200a5.300 5.300 0 0 1-10.600 0c0-2.600 1.800-4.900 5.300-9.200z"
      />
    </svg>
    <span class="spoon-name">${say('well.water')}</span>
    <span class="spoon-figure">${figure}</span>
    ${then.map((words) => html`<p class="then" part="then">${words}</p>`)}
    <div class="weak-strong">
      <div class="strip-box">
        <div
          class="strip"
          part="strip"
          role="img"
          aria-label=${say('well.strip', { stretches: told })}
          ${put({ background: `linear-gradient(to right, ${strip.css.join(', ')})` })}
        ></div>
        ${runs
          .slice(0, -1)
          .map(({ to }) => html`<span class="limit" ${put({ '--_at': percent(to) })}></span>`)}
      </div>
      <input
        type="range"
        class="strength"
        min="0"
        max=${STEPS}
        step="1"
        aria-label=${say('well.strength')}
        aria-valuetext=${`${[figure, ...then].join(' ')}, ${say('well.strength-figure', { percent: 100 * strength })}. ${madeWords(view)}`}
        .value=${String(Math.round(place * STEPS))}
        @input=${(event: Event) => view.water(strengthAt(fieldOf(event).valueAsNumber / STEPS), false)}
        @change=${(event: Event) => view.water(strengthAt(fieldOf(event).valueAsNumber / STEPS))}
      />
      ${stretches(
        runs.map(({ band }) => bandName(band)),
        [0, ...runs.map(({ to }) => 100 * to)],
      )}
    </div>
    <div class="steps">
      <button
        type="button"
        class="step"
        data-water="more"
        ?disabled=${place <= 0}
        @click=${() => view.thin(TURN)}
      >
        ${icon('plus')}<span>${say('well.more-water')}</span>
      </button>
      <p class="soft small strength-told">
        ${say('well.strength-told', { percent: 100 * strength })}
      </p>
      <button
        type="button"
        class="step"
        data-water="less"
        ?disabled=${place >= 1}
        @click=${() => view.thin(1 / TURN)}
      >
        ${icon('minus')}<span>${say('well.less-water')}</span>
      </button>
    </div>
  </div>`;
}
