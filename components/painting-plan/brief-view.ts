import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { repeat } from 'lit/directives/repeat.js';
import type { Marking, PlanBrief } from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { MM_IN_INCH } from '../shared/measure.js';
import { freshId, type Desk } from './desk.js';

const PERMISSIONS = ['asked', 'given', 'refused', 'own'] as const;
/** mm in what sizes of pictures are spoken of in: centimetres, or inches; and the most of it that can be entered, mm. */
const MM_IN = { mm: 10, in: MM_IN_INCH } as const;
const MOST_MM = 5000;

/** What was agreed on with whoever asked for the painting. */
export class BriefView {
  #desk: Desk;
  #draft = '';

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  async refresh(): Promise<void> {
    this.#desk.update();
  }

  close(): void {
    this.#draft = '';
  }

  render(): TemplateResult {
    const { say } = this.#desk;
    const unit = say(this.#desk.unit === 'mm' ? 'unit.cm' : 'unit.in');
    const { client, deadline, permission = '', permissionNote, markings = [] } = this.#brief;
    return html`
      <p class="soft small">${say('plan.brief-lead')}</p>
      <div class="fields">
        <label class="field">
          <span>${say('plan.brief-client')}</span>
          <input
            maxlength="120"
            autocomplete="off"
            .value=${client ?? ''}
            @change=${(event: Event) => this.#set('client', textOf(event) || undefined)}
          />
        </label>
        <label class="field">
          <span>${say('plan.brief-deadline')}</span>
          <input
            type="date"
            .value=${deadline ?? ''}
            @change=${(event: Event) => this.#set('deadline', textOf(event) || undefined)}
          />
        </label>
        <div class="field" role="group" aria-label=${say('plan.brief-size', { unit })}>
          <span aria-hidden="true">${say('plan.brief-size', { unit })}</span>
          <span class="pair">
            ${this.#length('widthMm', say('plan.brief-width', { unit }))}<span aria-hidden="true"
              >×</span
            >${this.#length('heightMm', say('plan.brief-height', { unit }))}
          </span>
        </div>
        <label class="field">
          <span>${say('plan.brief-permission')}</span>
          <select @change=${this.#onPermission}>
            ${['', ...PERMISSIONS].map(
              (each) =>
                html`<option value=${each} .selected=${each === permission}>
                  ${say(`plan.brief-permission-${each || 'unsaid'}`)}
                </option>`,
            )}
          </select>
        </label>
        <label class="field">
          <span>${say('plan.brief-permission-note')}</span>
          <input
            maxlength="2000"
            .value=${permissionNote ?? ''}
            @change=${(event: Event) => this.#set('permissionNote', textOf(event) || undefined)}
          />
        </label>
      </div>
      <h4 id="markings-title">${say('plan.brief-markings')}</h4>
      ${
        markings.length === 0
          ? html`<p class="soft small">${say('plan.brief-markings-empty')}</p>`
          : nothing
      }
      <ul class="markings" aria-labelledby="markings-title">
        ${repeat(
          markings,
          ({ id }) => id,
          (marking) => this.#marking(marking),
        )}
      </ul>
      <form class="row" @submit=${this.#add}>
        <input
          class="wide"
          maxlength="2000"
          aria-label=${say('plan.brief-marking')}
          placeholder=${say('plan.brief-marking-example')}
          .value=${live(this.#draft)}
          @input=${(event: Event) => (this.#draft = (event.target as HTMLInputElement).value)}
        />
        <button type="submit">${icon('plus')}<span>${say('plan.brief-add')}</span></button>
      </form>
    `;
  }

  get #brief(): PlanBrief {
    return this.#desk.store.plan.brief ?? {};
  }

  #length(key: 'widthMm' | 'heightMm', words: string): TemplateResult {
    const mm = this.#brief[key];
    const mmIn = MM_IN[this.#desk.unit];
    return html`<input
      type="number"
      min="0.1"
      max=${Math.floor(MOST_MM / mmIn)}
      step="any"
      inputmode="decimal"
      aria-label=${words}
      .value=${mm === undefined ? '' : String(Math.round((mm / mmIn) * 100) / 100)}
      @change=${(event: Event) => {
        const given = (event.target as HTMLInputElement).valueAsNumber * mmIn;
        this.#set(key, given > 0 && given <= MOST_MM ? given : undefined);
      }}
    />`;
  }

  #marking({ id, text, done = false }: Marking): TemplateResult {
    const { say } = this.#desk;
    return html`<li class="marking">
      <label class="choice">
        <input
          type="checkbox"
          .checked=${done}
          @change=${(event: Event) =>
            this.#mark(id, { id, text, done: (event.target as HTMLInputElement).checked })}
        /><span>${text}</span>
      </label>
      <button
        type="button"
        class="quiet"
        aria-label=${say('plan.brief-remove-of', { text })}
        @click=${() => this.#mark(id)}
      >
        ${icon('bin')}<span>${say('plan.brief-remove')}</span>
      </button>
    </li>`;
  }

  #set<K extends keyof PlanBrief>(key: K, value: PlanBrief[K]): void {
    if (this.#brief[key] === value) return this.#desk.update();
    const { [key]: _old, ...rest } = this.#brief;
    this.#put(value === undefined ? rest : { ...rest, [key]: value });
  }

  #put(brief: PlanBrief): void {
    this.#desk.store.change('brief', ({ brief: _brief, ...plan }) =>
      Object.keys(brief).length > 0 ? { ...plan, brief } : plan,
    );
  }

  #mark(id: string, marking?: Marking): void {
    const markings = (this.#brief.markings ?? []).flatMap((each) =>
      each.id !== id ? [each] : marking ? [marking] : [],
    );
    this.#set('markings', markings.length > 0 ? markings : undefined);
  }

  #onPermission = (event: Event): void => {
    const value = (event.target as HTMLSelectElement).value;
    this.#set(
      'permission',
      PERMISSIONS.find((each) => each === value),
    );
  };

  #add = (event: Event): void => {
    event.preventDefault();
    const text = this.#draft.trim();
    if (!text) return;
    this.#draft = '';
    this.#set('markings', [...(this.#brief.markings ?? []), { id: freshId(), text }]);
  };
}

function textOf(event: Event): string {
  return (event.target as HTMLInputElement).value.trim();
}
