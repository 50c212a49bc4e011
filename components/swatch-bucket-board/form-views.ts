import { html, nothing, type TemplateResult } from 'lit';
import {
  cssOfLab,
  labOf,
  leanOf,
  lightnessOf,
  munsellValue,
  type BoardSwatch,
} from '../shared/core.js';
import { icon } from '../shared/icons.js';
import type { BoardView } from './board-view.js';
import { dab, greyOf } from './dabs.js';
import { tenth } from './verdict-words.js';

type Field = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;
const fieldOf = (event: Event): Field => event.target as Field;

const MIDDLE_GREY = '#808080';

/** What a CSS colour would be on the board; nothing for a text that is none. */
function previewOf(css: string): { hex: string; lightness: number } | undefined {
  try {
    return { hex: cssOfLab(labOf(css)).css, lightness: lightnessOf(css) };
  } catch {
    return undefined;
  }
}

/** The form that lays a colour into a bucket. */
export function renderColourForm(view: BoardView, bucket: number): TemplateResult {
  const { colour, say } = view;
  const preview = previewOf(colour.css);
  const submit = (event: Event): void => {
    event.preventDefault();
    view.addColour(bucket);
  };
  return html`<form
    class="small-form"
    part="colour-form"
    novalidate
    @submit=${submit}
    @keydown=${closeOnEscape(view)}
  >
    <div class="mixing">
      <svg class="dab" viewBox="0 0 120 76" preserveAspectRatio="none" aria-hidden="true">
        ${preview ? dab('new', view.greys ? greyOf(preview.lightness) : preview.hex) : dab('new', 'none')}
      </svg>
      <span class="figures"
        >${preview && view.verdict ? say('add.preview', { value: munsellValue(preview.lightness) }) : nothing}</span
      >
    </div>
    <label>
      <span>${say('add.css')}</span>
      <input
        data-first
        type="text"
        spellcheck="false"
        autocomplete="off"
        autocapitalize="off"
        maxlength="200"
        placeholder=${say('add.css-hint')}
        .value=${colour.css}
        aria-invalid=${colour.fault !== ''}
        aria-describedby="colour-fault"
        @input=${(event: Event) => view.setColour({ css: fieldOf(event).value, fault: '' })}
      />
    </label>
    <p class="fault" id="colour-fault" role="alert">${colour.fault}</p>
    <label class="beside">
      <input
        type="color"
        .value=${preview?.hex ?? MIDDLE_GREY}
        @input=${(event: Event) => view.setColour({ css: fieldOf(event).value, fault: '' })}
      />
      <span>${say('add.pick')}</span>
    </label>
    <label>
      <span>${say('add.name')}</span>
      <input
        type="text"
        maxlength="120"
        autocomplete="off"
        .value=${colour.name}
        @input=${(event: Event) => view.setColour({ name: fieldOf(event).value })}
      />
    </label>
    <div class="row">
      <button type="submit">${icon('check')}<span>${say('add.lay')}</span></button>
      <button type="button" class="quiet" @click=${() => view.show(undefined)}>
        ${icon('close')}<span>${say('add.cancel')}</span>
      </button>
    </div>
  </form>`;
}

/** What can be changed in a swatch, and its figures. */
export function renderSwatchForm(view: BoardView, swatch: BoardSwatch): TemplateResult {
  const { say, board } = view;
  const { id } = swatch;
  const details = html`<p class="details">${detailOf(view, swatch)}</p>`;
  if (!view.open) return html`<div class="small-form">${view.verdict ? details : nothing}</div>`;
  return html`<form
    class="small-form"
    part="swatch-form"
    novalidate
    @submit=${closing(view)}
    @keydown=${closeOnEscape(view)}
  >
    ${view.verdict ? details : nothing}
    <label>
      <span>${say('dab.name')}</span>
      <input
        data-first
        type="text"
        maxlength="120"
        autocomplete="off"
        .value=${swatch.name ?? ''}
        @change=${(event: Event) => view.acts.edit(id, { name: fieldOf(event).value.trim() })}
      />
    </label>
    <label>
      <span>${say('dab.note')}</span>
      <textarea
        rows="2"
        maxlength="2000"
        .value=${swatch.note ?? ''}
        @change=${(event: Event) => view.acts.edit(id, { note: fieldOf(event).value.trim() })}
      ></textarea>
    </label>
    <label>
      <span>${say('dab.bucket')}</span>
      <select
        data-move
        @change=${(event: Event) => view.acts.moveInto(id, Number(fieldOf(event).value))}
      >
        ${board.bands.map(({ name }, i) => html`<option value=${i} .selected=${i === swatch.bucket}>${name}</option>`)}
      </select>
    </label>
    <label class="beside">
      <input
        type="checkbox"
        data-accent
        .checked=${swatch.accent ?? false}
        @change=${(event: Event) => view.acts.edit(id, { accent: (event.target as HTMLInputElement).checked })}
      />
      <span>${say('dab.accent')}</span>
    </label>
    <label class="beside">
      <input
        type="checkbox"
        data-wet
        .checked=${swatch.wet ?? false}
        @change=${(event: Event) => view.acts.edit(id, { wet: (event.target as HTMLInputElement).checked })}
      />
      <span>${say('dab.wet')}</span>
    </label>
    <div class="row">
      <button type="submit">${icon('check')}<span>${say('dab.done')}</span></button>
      <button type="button" class="quiet" data-delete @click=${() => view.acts.remove(id)}>
        ${icon('bin')}<span>${say('dab.delete')}</span>
      </button>
    </div>
  </form>`;
}

/** The figures behind a swatch's value. */
function detailOf({ say }: BoardView, { css, lab, lightness, uncertainty }: BoardSwatch): string {
  let known = lab;
  try {
    if (!known && css !== undefined) known = labOf(css);
  } catch {
    known = undefined;
  }
  const lean = known && leanOf(known);
  const figures = lean
    ? say('dab.detail', { lightness, lean: say(`swatch.lean.${lean.name}`), chroma: lean.chroma })
    : say('dab.detail-plain', { lightness });
  return `${figures}${uncertainty ? say('dab.within', { uncertainty }) : ''}`;
}

/** What can be changed in a band. */
export function renderBandForm(
  view: BoardView,
  bucket: number,
  may: ReturnType<BoardView['bandMay']>,
): TemplateResult {
  const { say, board } = view;
  const { name, ceiling } = board.bands[bucket];
  return html`<form
    class="small-form whole"
    part="band-form"
    novalidate
    @submit=${closing(view)}
    @keydown=${closeOnEscape(view)}
  >
    ${
      may.name
        ? html`<label>
            <span>${say('band.name')}</span>
            <input
              data-first
              type="text"
              maxlength="120"
              autocomplete="off"
              .value=${name}
              @change=${(event: Event) => view.acts.nameBand(bucket, fieldOf(event).value.trim())}
            />
          </label>`
        : nothing
    }
    ${
      may.limit
        ? html`<label>
            <span>${say('band.upto')}</span>
            <input
              type="number"
              data-limit
              min="0"
              max="10"
              step="0.1"
              inputmode="decimal"
              .value=${String(tenth(munsellValue(ceiling)))}
              @change=${(event: Event) => view.acts.limitBand(bucket, (event.target as HTMLInputElement).valueAsNumber)}
            />
          </label>`
        : nothing
    }
    <div class="row">
      <button type="submit">${icon('check')}<span>${say('band.done')}</span></button>
      ${may.split ? html`<button type="button" class="quiet" @click=${() => view.acts.splitBand(bucket)}>${icon('steps')}<span>${say('band.split')}</span></button>` : nothing}
      ${
        may.remove
          ? html`<button
              type="button"
              class="quiet"
              title=${say('band.remove-hint')}
              @click=${() => view.acts.removeBand(bucket)}
            >
              ${icon('bin')}<span>${say('band.remove')}</span>
            </button>`
          : nothing
      }
    </div>
  </form>`;
}

const closing = (view: BoardView) => (event: Event) => {
  event.preventDefault();
  view.show(undefined);
};

const closeOnEscape = (view: BoardView) => (event: KeyboardEvent) => {
  if (event.key !== 'Escape') return;
  event.stopPropagation();
  view.show(undefined);
};
