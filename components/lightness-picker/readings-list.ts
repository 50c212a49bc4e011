import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { bandAt, munsellValue, type Plan, type SavedReading } from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { bandName } from './judgement.js';
import { put } from '../shared/put.js';

export interface ReadingsView {
  plan: Plan;
  say: (key: string, values?: Record<string, string | number>) => string;
  /** A value with one decimal, in the reader's way of writing. */
  figure: (value: number) => string;
  disabled: boolean;
  goTo: (reading: SavedReading) => void;
  send: (reading: SavedReading) => void;
  remove: (reading: SavedReading) => void;
  annotate: (reading: SavedReading, note: string) => void;
}

/** The readings that were kept, each with what can be done with it. */
export function readingsList(view: ReadingsView): TemplateResult {
  const { plan, say } = view;
  const readings = plan.readings ?? [];
  return html`<section class="readings" part="readings" aria-labelledby="readings-title">
    <h3 id="readings-title">${say('picker.readings')}</h3>
    ${
      readings.length === 0
        ? html`<p class="soft">${say('picker.readings-empty')}</p>`
        : html`<ol>
            ${repeat(
              readings,
              ({ id }) => id,
              (reading, i) => row(view, reading, i + 1),
            )}
          </ol>`
    }
  </section>`;
}

function row(view: ReadingsView, reading: SavedReading, number: number): TemplateResult {
  const { plan, say, figure, disabled } = view;
  const { lightness, css, note = '', guess } = reading;
  const band = bandName(plan, lightness, say('picker.paper'));
  const bare = bandAt(plan, lightness) >= plan.board.bands.length;
  return html`<li class="reading" part="kept">
    <span class="spot-dab" aria-hidden="true" ${put({ '--_c': css })}></span>
    <span class="facts">
      <b class="figure">${figure(munsellValue(lightness))}</b>
      <span>${band}</span>
      ${guess === undefined ? nothing : html`<span class="soft small">${say('picker.guessed', { value: figure(munsellValue(guess)) })}</span>`}
    </span>
    <input
      class="note"
      type="text"
      maxlength="500"
      placeholder=${say('picker.note-hint')}
      aria-label=${say('picker.note-of', { number })}
      ?disabled=${disabled}
      .value=${note}
      @change=${(event: Event) => view.annotate(reading, (event.target as HTMLInputElement).value.trim())}
    />
    <span class="acts">
      <button
        type="button"
        class="quiet"
        ?disabled=${disabled}
        aria-label=${say('picker.go-to-of', { number })}
        @click=${() => view.goTo(reading)}
      >
        ${icon('hole')}<span>${say('picker.go-to')}</span>
      </button>
      <button
        type="button"
        class="quiet"
        ?disabled=${disabled || bare}
        title=${bare ? say('picker.no-bucket') : nothing}
        aria-label=${say('picker.send-of', { number })}
        @click=${() => view.send(reading)}
      >
        ${icon('send')}<span>${say('picker.send-short')}</span>
      </button>
      <button
        type="button"
        class="quiet"
        ?disabled=${disabled}
        aria-label=${say('picker.delete-of', { number })}
        @click=${() => view.remove(reading)}
      >
        ${icon('bin')}<span>${say('picker.delete')}</span>
      </button>
    </span>
  </li>`;
}
