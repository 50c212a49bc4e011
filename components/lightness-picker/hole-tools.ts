import { html, nothing, type TemplateResult } from 'lit';
import { icon } from '../shared/icons.js';
import { inMm, inUnit, type LengthUnit } from '../shared/measure.js';
import { cardLightness, greyOf } from './card.js';
import { GREYS, type CardGrey } from './greys.js';
import { HOLE_MM } from './geometry.js';
import { put } from '../shared/put.js';

export interface ToolsView {
  say: (key: string, values?: Record<string, string | number>) => string;
  disabled: boolean;
  holeMm: number;
  /** What lengths are told in, and the hole's in words. */
  unit: LengthUnit;
  length: string;
  card: CardGrey | 'away';
  /** The lightness that is read; missing while it must not be seen. */
  lightness?: number;
  /** Whether to say how the hole is moved. */
  hint: boolean;
  /** Buttons that bring another picture, if it is not a plan's. */
  bring: TemplateResult | typeof nothing;
  resize: (mm: number) => void;
  choose: (card: CardGrey) => void;
  turn: () => void;
}

/** What can be set about hole and card. */
export function holeTools(view: ToolsView): TemplateResult {
  const { say, disabled, holeMm, unit, card, lightness } = view;
  const given = (event: Event): number => (event.target as HTMLInputElement).valueAsNumber;
  const resize = (mm: number): void => {
    if (Number.isFinite(mm)) view.resize(mm);
  };
  const unitWord = say(`unit.${unit}`);
  return html`<div class="tools" part="tools">
    ${view.hint ? html`<p class="soft hint">${say('picker.move-hint')}</p>` : nothing}
    <div class="setting">
      <label class="label" for="size">${say('picker.hole-size', { unit: unitWord })}</label>
      <div class="size">
        <input
          id="size"
          type="range"
          min="1"
          max="60"
          step="0.5"
          ?disabled=${disabled}
          .value=${String(holeMm)}
          aria-valuetext=${view.length}
          @input=${(event: Event) => resize(given(event))}
        />
        <input
          type="number"
          min=${inUnit(HOLE_MM.least, unit)}
          max=${inUnit(HOLE_MM.most, unit)}
          step=${unit === 'mm' ? 0.5 : 'any'}
          aria-label=${say('picker.hole-size-number', { unit: unitWord })}
          ?disabled=${disabled}
          .value=${String(inUnit(holeMm, unit))}
          @change=${(event: Event) => resize(inMm(given(event), unit))}
        />
      </div>
    </div>
    <div class="setting">
      <span class="label" id="card-label">${say('picker.card')}</span>
      <div class="card-choice">
        <div class="segments" role="group" aria-labelledby="card-label">
          ${GREYS.map(
            (grey) =>
              html`<button
                type="button"
                ?disabled=${disabled}
                aria-pressed=${card === grey ? 'true' : 'false'}
                @click=${() => view.choose(grey)}
              >
                <span
                  class="grey"
                  aria-hidden="true"
                  ${put({ '--_grey': greyOf(cardLightness(grey, lightness)) })}
                ></span
                ><span>${say(`picker.card-${grey}`)}</span>
              </button>`,
          )}
        </div>
        <button
          type="button"
          class="turn"
          ?disabled=${disabled}
          aria-pressed=${card === 'away' ? 'true' : 'false'}
          @click=${view.turn}
        >
          ${icon('eye')}<span>${say('picker.card-away')}</span>
        </button>
      </div>
    </div>
    ${
      card === 'same' && lightness !== undefined
        ? html`<p class="soft small hint">${say('picker.same-hint')}</p>`
        : nothing
    }
    ${view.bring === nothing ? nothing : html`<div class="bring">${view.bring}</div>`}
  </div>`;
}
