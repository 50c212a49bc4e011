import { html, nothing, type TemplateResult } from 'lit';
import {
  bandAt,
  leanOf,
  munsellValue,
  type Plan,
  type Reading,
  type Reason,
} from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { bandName, colourOf, leanStrength, remarksOn, spreadName } from './judgement.js';
import { ladder } from './ladder.js';
import { put } from '../shared/put.js';

type Say = (key: string, values?: Record<string, string | number>) => string;

export interface PanelView {
  plan: Plan;
  say: Say;
  /** A value with one decimal, in the reader's way of writing. */
  figure: (value: number) => string;
  disabled: boolean;
  /** What was read; missing before, and while its value is to be guessed. */
  reading?: Reading;
  /** Where the hole is, in words. */
  place: string;
  details: boolean;
  /** Whether values are guessed first; `hidden` until one is stated; `waiting` until the spot is read. */
  guess: boolean;
  hidden: boolean;
  waiting: boolean;
  guessing: number;
  /** What became of the stated guess. */
  verdict: string;
  /** What was just done, and whether it can be taken back. */
  done: string;
  undoable: boolean;
  keep: () => void;
  send: () => void;
  undo: () => void;
  choose: (value: number) => void;
  state: () => void;
  setGuess: (on: boolean) => void;
  setDetails: (open: boolean) => void;
}

/** The reading: the spot alone, its value, its place on the ladder, and what can be done with it. */
export function readingPanel(view: PanelView): TemplateResult {
  const { plan, say, figure, reading, hidden, disabled } = view;
  const value = reading && munsellValue(reading.lightness);
  const shown = hidden ? figure(view.guessing) : value === undefined ? '–' : figure(value);
  const remarks = reading ? remarksOn(reading) : [];
  const bare = reading !== undefined && bandAt(plan, reading.lightness) >= plan.board.bands.length;
  return html`<div class="panel" part="panel">
    <div class="seen">
      <canvas class="spot" part="spot" role="img" aria-label=${say('picker.spot')}></canvas>
      <div>
        <div class="word">${say(hidden ? 'picker.guess-yours' : 'picker.value')}</div>
        <div class="value ${reading ? '' : 'unread'}" part="value">${shown}</div>
        <div class="band" part="band">
          ${reading ? bandName(plan, reading.lightness, say('picker.paper')) : nothing}
        </div>
      </div>
    </div>
    ${hidden ? html`<p>${say('picker.guess-ask')}</p>` : nothing}
    ${ladder({
      plan,
      say,
      label:
        value === undefined
          ? say('picker.ladder-hidden')
          : say('picker.ladder', { value: figure(value) }),
      marked: hidden ? view.guessing : value,
      choose: hidden ? view.choose : undefined,
      state: view.state,
      disabled,
    })}
    ${
      hidden
        ? html`<button
            type="button"
            class="state"
            ?disabled=${disabled || view.waiting}
            @click=${view.state}
          >
            ${icon('check')}<span>${say('picker.guess-say')}</span>
          </button>`
        : nothing
    }
    ${
      view.verdict
        ? html`<p>${view.verdict} <span class="soft">${say('picker.guess-next')}</span></p>`
        : nothing
    }
    ${
      remarks.length > 0
        ? html`<ul class="remarks" part="remarks">
            ${remarks.map((remark) => html`<li>${sentenceOf(remark, say, figure)}</li>`)}
          </ul>`
        : nothing
    }
    ${
      hidden
        ? nothing
        : html`<div class="acts">
            <button
              type="button"
              class="keep"
              ?disabled=${disabled || !reading}
              @click=${view.keep}
            >
              ${icon('plus')}<span>${say('picker.keep')}</span>
            </button>
            <button
              type="button"
              class="send"
              ?disabled=${disabled || !reading || bare}
              @click=${view.send}
            >
              ${icon('send')}<span>${say('picker.send')}</span>
            </button>
          </div>`
    }
    ${bare ? html`<p class="soft small">${say('picker.no-bucket')}</p>` : nothing}
    ${
      view.done
        ? html`<p class="done">
            <span>${view.done}</span>
            ${
              view.undoable
                ? html`<button
                    type="button"
                    class="quiet"
                    ?disabled=${disabled}
                    @click=${view.undo}
                  >
                    ${icon('undo')}<span>${say('picker.undo')}</span>
                  </button>`
                : nothing
            }
          </p>`
        : nothing
    }
    <label class="check">
      <input
        type="checkbox"
        ?disabled=${disabled}
        .checked=${view.guess}
        @change=${(event: Event) => view.setGuess((event.target as HTMLInputElement).checked)}
      />
      <span>
        ${say('picker.guess-first')}<span class="hint soft small"
          >${say('picker.guess-first-hint')}</span
        >
      </span>
    </label>
    ${detailsOf(view)}
  </div>`;
}

/** The lean of a reading, in words: which way, and how strongly. */
export function leanInWords(reading: Reading, say: Say): string {
  const lean = leanOf(reading.lab);
  return say(`lean-strength.${leanStrength(lean)}`, { lean: say(`lean.${lean.name}`) });
}

/** What can be known of the reading beyond its value. */
function detailsOf({
  reading,
  hidden,
  place,
  say,
  figure,
  details,
  setDetails,
}: PanelView): TemplateResult {
  const unknown = hidden ? say('picker.guess-hidden') : '–';
  const rows: [key: string, text: string | TemplateResult][] = [
    ['lightness', reading ? figure(reading.lightness) : unknown],
    ['lean', reading ? leanInWords(reading, say) : unknown],
    ['spread', reading ? say(`spread.${spreadName(reading.spread)}`) : unknown],
    ['colour', reading ? dabOf(colourOf(reading).css) : unknown],
    ['place', place],
  ];
  return html`<details
    part="details"
    ?open=${details}
    @toggle=${(event: Event) => setDetails((event.target as HTMLDetailsElement).open)}
  >
    <summary>${say('picker.details')}</summary>
    <dl>
      ${rows.map(
        ([key, text]) =>
          html`<dt>${say(`picker.${key}`)}</dt>
            <dd>${text}</dd>`,
      )}
    </dl>
  </details>`;
}

/** A colour as a dab on neutral grey, and as CSS writes it. */
function dabOf(css: string): TemplateResult {
  return html`<span class="spot-dab" aria-hidden="true" ${put({ '--_c': css })}></span
    ><span>${css}</span>`;
}

/** A remark in words, its values written as values are. */
function sentenceOf({ code, values }: Reason, say: Say, figure: (value: number) => string): string {
  const told = { ...values };
  for (const key of ['value', 'measured']) {
    if (typeof told[key] === 'number') told[key] = figure(told[key]);
  }
  if (told.lean) told.lean = say(`lean.${told.lean}`);
  return say(code, told);
}
