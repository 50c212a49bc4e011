import { html, type nothing, type TemplateResult } from 'lit';
import { munsellValue, type PhotoReport, type PlanBrush, type Reason } from '../../shared/core.js';
import { icon } from '../../shared/icons.js';
import { inMm, inUnit } from '../../shared/measure.js';
import { reasonOf, type PlanStore } from '../../shared/plan-store.js';
import type { StageTool } from '../stage-tool.js';
import { numberField } from './field.js';
import { HandTool } from './hand-tool.js';

type State =
  | { kind: 'waiting' }
  | { kind: 'running'; done: number }
  | { kind: 'stopped' }
  | { kind: 'failed'; error: Reason }
  | { kind: 'told'; report: PhotoReport };

/** A brush to begin with, where the plan has none (typical widths, from memory). */
const FIRST_BRUSH = { tipMm: 1, pressedMm: 10 };
const LEAST_WIDTH = 0.1;
const MOST_WIDTH = 1000;
/** Values of a telling that are names of leans, which have words of their own. */
const LEAN_VALUES: Readonly<Record<string, readonly string[]>> = {
  'photo.cast': ['lean'],
  'photo.cast-unsure': ['whole', 'lights'],
};

/** Values of a telling that are L*; a painter reads them as values 0..10. */
const VALUE_VALUES: Readonly<Record<string, readonly string[]>> = {
  'photo.range-narrow': ['low', 'high'],
  'photo.range-full': ['low', 'high'],
};

/** What the photo can tell, as a sentence each on what it means for the painting. */
export class ReportTool extends HandTool implements StageTool {
  readonly name = 'report';
  readonly word = 'tool.report';
  readonly icon = 'note';

  #state: State = { kind: 'waiting' };
  #brush = 0;
  /** What the report in hand (or under way) was asked for. */
  #asked = '';
  #asking?: AbortController;
  #heard?: PlanStore;

  takenUp(): void {
    this.#hear(this.store);
    this.#look();
  }

  laidDown(): void {
    this.#hear(undefined);
    if (this.#state.kind !== 'running') return;
    this.#asking?.abort();
    this.#state = { kind: 'waiting' };
    this.#asked = '';
  }

  renderPanel(): TemplateResult {
    return html`<div class="tool">
      <p class="tool-lead">${this.say('tool.report.lead')}</p>
      ${this.#renderBrush()} ${this.#renderState()}
    </div>`;
  }

  get #held(): PlanBrush | undefined {
    const { brushes } = this.plan;
    return brushes[Math.min(this.#brush, brushes.length - 1)];
  }

  #hear(store: PlanStore | undefined): void {
    if (store === this.#heard) return;
    for (const type of ['plan', 'picture']) {
      this.#heard?.removeEventListener(type, this.#onNews);
      store?.addEventListener(type, this.#onNews);
    }
    this.#heard = store;
  }

  #onNews = (): void => {
    if (this.store !== this.#heard) this.#hear(this.store);
    this.#look();
  };

  /** Looks at the photo, unless that was done (or given up, or failed) for the same question. */
  #look(again = false): void {
    const { handle, exact } = this.store.picture;
    const { crop, sitter, distrusted, paper } = this.plan;
    if (!handle || !exact) return;
    const brushMm = (this.#held ?? FIRST_BRUSH).pressedMm;
    const asked = JSON.stringify([handle.id, crop, sitter, distrusted, paper.widthMm, brushMm]);
    if (asked === this.#asked && !again) return;
    this.#asked = asked;
    this.#asking?.abort();
    const asking = (this.#asking = new AbortController());
    const { signal } = asking;
    this.#set({ kind: 'running', done: 0 });
    this.store
      .run(
        'report',
        { paperWidthMm: paper.widthMm, brushMm },
        {
          key: 'report',
          signal,
          onProgress: ({ stage, done }) => {
            if (!signal.aborted)
              this.#set({ kind: 'running', done: stage === 'report' ? done : 0 });
          },
        },
      )
      .then(
        (report) => {
          if (signal.aborted) return;
          this.#set({ kind: 'told', report });
          this.host.speak(this.say('tool.report.said', { count: report.tellings.length }));
        },
        (thrown: unknown) => {
          if (signal.aborted) return;
          // Superseded: another element has asked about the same photo meanwhile.
          const given = (thrown as Error)?.name === 'AbortError';
          this.#set(given ? { kind: 'stopped' } : { kind: 'failed', error: reasonOf(thrown) });
        },
      );
  }

  #set(state: State): void {
    this.#state = state;
    this.host.requestUpdate();
  }

  #stop = (): void => {
    this.#asking?.abort();
    this.#set({ kind: 'stopped' });
    this.host.speak(this.say('tool.report.stopped'));
  };

  #again = (): void => this.#look(true);

  #pressed(mm: number): void {
    const held = this.#held;
    const pressedMm = Math.min(MOST_WIDTH, Math.max(LEAST_WIDTH, mm));
    this.store.change('brushes', (plan) => {
      if (!held || held.pressedMm === pressedMm) return plan;
      const brushes = plan.brushes.map((brush) =>
        brush === held ? { ...brush, pressedMm, tipMm: Math.min(brush.tipMm, pressedMm) } : brush,
      );
      return { ...plan, brushes };
    });
    this.host.requestUpdate();
  }

  #addBrush = (): void => {
    const name = this.say('tool.report.brush-new');
    this.store.change('brushes', (plan) => ({
      ...plan,
      brushes: [...plan.brushes, { name, ...FIRST_BRUSH }],
    }));
    this.host.requestUpdate();
  };

  #pick = (event: Event): void => {
    this.#brush = Number((event.target as HTMLSelectElement).value);
    this.host.requestUpdate();
    this.#look();
  };

  #renderBrush(): TemplateResult {
    const { brushes, paper } = this.plan;
    const held = this.#held;
    if (!held) {
      return html`<div class="tool-row">
        <p class="tool-grow">
          ${this.say('tool.report.no-brush', {
            width: this.host.lengthOf(FIRST_BRUSH.pressedMm),
          })}
        </p>
        <button type="button" @click=${this.#addBrush}>
          ${icon('plus')}<span>${this.say('tool.report.brush-add')}</span>
        </button>
      </div>`;
    }
    const { lengthUnit } = this.host;
    const unit = this.say(`unit.${lengthUnit}`);
    const [least, most] = [inUnit(LEAST_WIDTH, lengthUnit), inUnit(MOST_WIDTH, lengthUnit)];
    return html`<fieldset class="tool-group">
      <legend>${this.say('tool.report.brush')}</legend>
      <div class="tool-pair">
        <label class="tool-field">
          <span>${this.say('tool.report.brush-which')}</span>
          <select @change=${this.#pick}>
            ${brushes.map(
              (brush, i) =>
                html`<option value=${i} .selected=${brush === held}>
                  ${brush.name || this.say('tool.report.brush-unnamed', { number: i + 1 })}
                </option>`,
            )}
          </select>
        </label>
        ${numberField({
          label: this.say('tool.report.brush-width'),
          value: inUnit(held.pressedMm, lengthUnit),
          low: least,
          high: most,
          step: 0,
          unit,
          onGiven: (figure) => this.#pressed(inMm(figure, lengthUnit)),
          onRefused: () =>
            this.host.speak(this.say('tool.report.brush-refused', { least, most, unit })),
        })}
      </div>
      <p class="tool-note">
        ${this.say('tool.report.paper', { width: this.host.lengthOf(paper.widthMm) })}
      </p>
    </fieldset>`;
  }

  #renderState(): TemplateResult | typeof nothing {
    const state = this.#state;
    switch (state.kind) {
      case 'waiting': {
        const { status } = this.store.picture;
        const empty = status === 'empty' || status === 'failed';
        return html`<p>${this.say(empty ? 'tool.report.no-photo' : 'tool.report.waiting')}</p>`;
      }
      case 'running':
        return html`<div class="tool-row">
          <span>${this.say('tool.report.running', { percent: 100 * state.done })}</span>
          <progress
            class="tool-grow"
            max="1"
            .value=${state.done}
            aria-label=${this.say('tool.report')}
          ></progress>
          <button type="button" @click=${this.#stop}>
            ${icon('close')}<span>${this.say('tool.report.stop')}</span>
          </button>
        </div>`;
      case 'stopped':
        return html`<div class="tool-row">
          <p class="tool-grow">${this.say('tool.report.stopped')}</p>
          <button type="button" @click=${this.#again}>
            ${icon('note')}<span>${this.say('tool.report.again')}</span>
          </button>
        </div>`;
      case 'failed':
        return html`<div class="tool-row" role="alert">
          <p class="tool-grow">
            ${this.say('tool.report.failed')} ${this.host.sentenceOf(state.error)}
          </p>
          <button type="button" @click=${this.#again}>
            ${icon('note')}<span>${this.say('tool.report.again')}</span>
          </button>
        </div>`;
      case 'told':
        return this.#renderReport(state.report);
    }
  }

  #renderReport({ tellings }: PhotoReport): TemplateResult {
    const { sitter, crop } = this.plan;
    const where = sitter ? 'sitter' : crop ? 'crop' : 'whole';
    return html`<p class="tool-note">${this.say(`tool.report.where-${where}`)}</p>
      <dl class="tool-tellings">
        ${tellings.map(
          (telling) =>
            html`<div>
              <dt>${this.say(topicOf(telling.code))}</dt>
              <dd>${this.#sentence(telling)}</dd>
            </div>`,
        )}
      </dl>`;
  }

  #sentence({ code, values }: Reason): string {
    const worded = { ...values };
    for (const key of LEAN_VALUES[code] ?? []) worded[key] = this.say(`photo.lean.${values[key]}`);
    for (const key of VALUE_VALUES[code] ?? []) worded[key] = munsellValue(Number(values[key]));
    return this.say(code, worded);
  }
}

/** The key of the word for what a telling is about: `photo.darks-clipped` is about `photo.topic.darks`. */
function topicOf(code: string): string {
  const topic = code.replace(/^photo\./, '').split('-')[0];
  return `photo.topic.${topic === 'soft' || topic === 'sharp' ? 'sharpness' : topic}`;
}
