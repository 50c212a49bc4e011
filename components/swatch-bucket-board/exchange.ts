import { html, nothing, type TemplateResult } from 'lit';
import { sliced, type Watch } from '../../core/worker/slices.js';
import {
  abortError,
  boardWithSwatches,
  customPropertiesOf,
  DESIGN_TOKENS_TYPE,
  designTokensOf,
  munsellValue,
  reason,
  SwatchesError,
  swatchesFromCssKernel,
  swatchesFromTokensKernel,
  swatchesSvg,
  withBoard,
  type Board,
  type BoardSwatch,
  type JoinedBoard,
  type Reason,
  type ReadSwatches,
} from '../shared/core.js';
import { handOver, walledOff } from '../shared/files.js';
import { icon } from '../shared/icons.js';
import { recipeInWords } from '../shared/paint-words.js';
import type { BoardActs } from './acts.js';
import type { BoardView } from './board-view.js';
import { dab, paintOf } from './dabs.js';
import type { Desk } from './desk.js';
import type { BoardExchange, SwatchFormat } from './exchange-types.js';

export { boardExchangeWords } from '../shared/words/board-exchange.js';
export { tubesWords } from '../shared/words/tubes.js';
export { exchangeStyles } from './exchange.styles.js';

/** Formats with their media types and the endings of file names. */
const FORMATS: Readonly<Record<SwatchFormat, { type: string; ending: string }>> = {
  'design-tokens': { type: DESIGN_TOKENS_TYPE, ending: '.tokens.json' },
  css: { type: 'text/css', ending: '.css' },
  svg: { type: 'image/svg+xml', ending: '.svg' },
};
const FORMAT_NAMES = Object.keys(FORMATS) as SwatchFormat[];

/** Bytes of a file that is opened at all: four for each character that is read. */
const MOST_BYTES = 16_000_000;
/** Longer texts do not stand in the field: laying one out would take longer than reading it. */
const MOST_TYPED = 20_000;
/** How long reading may take before it is told, ms. */
const PATIENCE_MS = 200;
/** Swatches of one bucket, and things found, that are shown one by one. */
const MOST_SHOWN = 24;
const MOST_FINDINGS = 5;

/** A file that is being read. */
interface Reading {
  readonly stop: AbortController;
  /** How much of it is read, 0..1. */
  done: number;
  /** Whether it is told by now. */
  told: boolean;
}

/** Carries the swatches of a board to other programs and back. It comes when it is asked for. */
export class Exchange implements BoardExchange {
  readonly #desk: Desk;
  readonly #acts: BoardActs;
  #format: SwatchFormat = 'design-tokens';
  #done = '';
  #byHand = '';
  #pasted = '';
  #reading?: Reading;
  #read?: ReadSwatches;
  #faults: readonly Reason[] = [];
  #memo?: { read: ReadSwatches; board: Board; joined: JoinedBoard };

  constructor(desk: Desk, acts: BoardActs) {
    this.#desk = desk;
    this.#acts = acts;
  }

  fileOf(format: SwatchFormat): File {
    const { type, ending } = FORMATS[format];
    const name = this.#desk.title().replace(/[\s\\/:*?"<>|\u0000-\u001f]+/g, ' ');
    return new File([this.#textAs(format)], `${name.trim().slice(0, 100) || 'swatches'}${ending}`, {
      type,
    });
  }

  async bring(file: string | Blob, signal?: AbortSignal): Promise<number> {
    const read = await swatchesOf(file, signal);
    const store = this.#desk.store();
    const { board, added } = boardWithSwatches(store.plan.board, read);
    if (added.length > 0) store.change('board-add', (plan) => withBoard(plan, board));
    return added.length;
  }

  render(view: BoardView, close: () => void): TemplateResult {
    const { say } = view;
    return html`<section
      class="exchange"
      part="exchange"
      aria-label=${say('buckets.exchange')}
      @keydown=${(event: KeyboardEvent) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        close();
      }}
    >
      ${this.#renderOut(view)} ${view.open ? this.#renderIn(view) : nothing}
      <button type="button" class="quiet shut" @click=${close}>
        ${icon('close')}<span>${say('exchange.close')}</span>
      </button>
    </section>`;
  }

  /** Forgets what was looked at; what is being read is given up. */
  clear(): void {
    this.#reading?.stop.abort();
    this.#reading = undefined;
    this.#done = this.#byHand = this.#pasted = '';
    this.#read = undefined;
    this.#faults = [];
  }

  // Out

  #renderOut({ say }: BoardView): TemplateResult {
    return html`<fieldset>
      <legend>${say('exchange.out')}</legend>
      <div class="formats">
        ${FORMAT_NAMES.map(
          (format) =>
            html`<label>
              <input
                type="radio"
                name="format"
                value=${format}
                ?data-exchange=${format === this.#format}
                .checked=${format === this.#format}
                @change=${() => this.#choose(format)}
              />
              <span>${say(`exchange.${format}`)}</span>
              <span class="soft small">${say(`exchange.${format}-about`)}</span>
            </label>`,
        )}
      </div>
      <div class="row">
        <button type="button" data-save @click=${this.#save}>
          ${icon('save')}<span>${say('exchange.save')}</span>
        </button>
        <button type="button" data-copy @click=${this.#copy}>
          ${icon('copy')}<span>${say('exchange.copy')}</span>
        </button>
      </div>
      <p class="soft small" role="status">${this.#done}</p>
      ${
        this.#byHand === ''
          ? nothing
          : html`<textarea
              readonly
              rows="6"
              aria-label=${say('exchange.text')}
              .value=${this.#byHand}
            ></textarea>`
      }
    </fieldset>`;
  }

  #choose(format: SwatchFormat): void {
    this.#format = format;
    this.#done = this.#byHand = '';
    this.#desk.update();
  }

  #save = (): void => {
    const file = this.fileOf(this.#format);
    handOver(file, file.name);
    this.#tell(this.#desk.say('exchange.saved', { name: file.name }), walledOff());
  };

  #copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(this.#textAs(this.#format));
      this.#tell(this.#desk.say('exchange.copied'), false);
    } catch {
      this.#tell('', true); // no clipboard here, or the page may not use it
    }
  };

  #tell(done: string, byHand: boolean): void {
    this.#byHand = byHand ? this.#textAs(this.#format) : '';
    this.#done = byHand ? this.#desk.say('exchange.by-hand') : done;
    this.#desk.update();
  }

  #textAs(format: SwatchFormat): string {
    const { board } = this.#desk.store().plan;
    const title = this.#desk.title();
    const options = { title, describe: (swatch: BoardSwatch) => this.#described(swatch) };
    if (format === 'css') return customPropertiesOf(board, options);
    if (format === 'svg') return swatchesSvg(board, options);
    return `${JSON.stringify(designTokensOf(board, options), null, 2)}\n`;
  }

  /** What a file says of a swatch: its value and lightness, how it was read, what it is mixed from, the painter's note. */
  #described(swatch: BoardSwatch): string {
    const { say } = this.#desk;
    const { lightness, uncertainty: about = 0, wet, accent, recipe, note } = swatch;
    const value = munsellValue(lightness);
    const words = [
      say(about > 0 ? 'exchange.value-about' : 'exchange.value', { value, lightness, about }),
      ...(wet ? [say('exchange.wet')] : []),
      ...(accent ? [say('exchange.accent')] : []),
      ...(recipe ? [say('exchange.recipe', { recipe: recipeInWords(recipe, say) })] : []),
      ...(note ? [note] : []),
    ];
    return words.join(' · ');
  }

  // In

  #renderIn({ say }: BoardView): TemplateResult {
    const coming = this.#coming();
    return html`<fieldset>
      <legend>${say('exchange.in')}</legend>
      <p class="soft small" id="exchange-in">${say('exchange.in-about')}</p>
      <div class="row">
        <label class="button">
          ${icon('open')}<span>${say('exchange.open')}</span>
          <input
            class="away"
            data-file
            type="file"
            accept=".tokens,.json,.css"
            @change=${this.#open}
          />
        </label>
      </div>
      <label class="text">
        <span>${say('exchange.paste')}</span>
        <textarea
          data-paste
          rows="3"
          spellcheck="false"
          autocomplete="off"
          aria-describedby="exchange-in"
          .value=${this.#pasted}
          @beforeinput=${this.#beforePaste}
          @input=${this.#paste}
        ></textarea>
      </label>
      <div role="status">
        ${this.#reading?.told ? this.#renderReading(this.#reading) : nothing}
        ${coming ? this.#renderComing(coming, this.#read?.findings ?? []) : nothing}
      </div>
      ${
        this.#faults.length === 0
          ? nothing
          : html`<div class="fault" role="alert">${this.#renderReasons(this.#faults)}</div>`
      }
    </fieldset>`;
  }

  #open = async (event: Event): Promise<void> => {
    const field = event.target as HTMLInputElement;
    const file = field.files?.[0];
    field.value = '';
    if (!file) return;
    this.#pasted = '';
    void this.#look(file);
  };

  /** A long text that is pasted or dropped is read without being laid into the field. */
  #beforePaste = (event: InputEvent): void => {
    const text = event.data ?? event.dataTransfer?.getData('text/plain') ?? '';
    if (text.length <= MOST_TYPED) return;
    event.preventDefault();
    this.#pasted = '';
    void this.#look(text);
  };

  #paste = (event: Event): void => {
    this.#pasted = (event.target as HTMLTextAreaElement).value;
    if (this.#pasted.trim() === '') this.#putAside();
    else void this.#look(this.#pasted);
  };

  /** Reads a file or a text and shows what would come; the board stays as it is. What was being read before is given up. */
  async #look(file: string | Blob): Promise<void> {
    this.#reading?.stop.abort();
    const reading: Reading = { stop: new AbortController(), done: 0, told: false };
    this.#reading = reading;
    this.#read = undefined;
    this.#faults = [];
    const tell = (): void => {
      reading.told = true;
      this.#desk.update();
    };
    const late = setTimeout(tell, PATIENCE_MS);
    const onProgress = (done: number): void => {
      reading.done = done;
      if (reading.told) tell();
    };
    try {
      const read = await swatchesOf(file, reading.stop.signal, onProgress);
      if (this.#reading === reading) this.#read = read;
    } catch (fault) {
      if (this.#reading === reading) this.#refuse(fault);
    }
    clearTimeout(late);
    if (this.#reading !== reading) return; // given up meanwhile
    this.#reading = undefined;
    this.#desk.update();
  }

  #renderReading({ done }: Reading): TemplateResult {
    const { say } = this.#desk;
    return html`<div class="arriving">
      <p>${say('exchange.reading')}</p>
      <progress max="1" .value=${done} aria-label=${say('exchange.reading')}></progress>
      <div class="row">
        <button type="button" class="quiet" data-stop @click=${() => this.#putAside()}>
          ${icon('close')}<span>${say('exchange.stop')}</span>
        </button>
      </div>
    </div>`;
  }

  #putAside(): void {
    this.clear();
    this.#desk.focusLater(() => this.#desk.find('[data-paste]'));
    this.#desk.update();
  }

  #refuse(fault: unknown): void {
    this.#read = undefined;
    this.#faults = fault instanceof SwatchesError ? fault.faults : [reason('exchange.unreadable')];
    this.#desk.update();
  }

  /** The present board with what was read on it; what keeps it from coming is told. */
  #coming(): JoinedBoard | undefined {
    const { board } = this.#desk.store().plan;
    const read = this.#read;
    if (!read || (this.#memo?.read === read && this.#memo.board === board))
      return read && this.#memo?.joined;
    try {
      const joined = boardWithSwatches(board, read);
      this.#memo = { read, board, joined };
      return joined;
    } catch (fault) {
      this.#refuse(fault);
      return undefined;
    }
  }

  #renderComing(
    { board, added, present }: JoinedBoard,
    findings: readonly Reason[],
  ): TemplateResult {
    const { say } = this.#desk;
    return html`<div class="arriving" part="exchange-preview">
      <p>
        ${say('exchange.coming', { count: added.length })}
        ${present > 0 ? say('exchange.present', { count: present }) : nothing}
      </p>
      ${board.bands.map(({ name }, bucket) =>
        this.#renderBucket(
          name,
          added.filter((swatch) => swatch.bucket === bucket),
        ),
      )}
      ${
        findings.length === 0
          ? nothing
          : html`<div class="fault">
              <p>${say('exchange.left')}</p>
              ${this.#renderReasons(findings)}
            </div>`
      }
      <div class="row">
        ${
          added.length === 0
            ? nothing
            : html`<button type="button" data-lay @click=${this.#lay}>
                ${icon('check')}<span>${say('exchange.lay')}</span>
              </button>`
        }
        <button type="button" class="quiet" @click=${() => this.#putAside()}>
          ${icon('close')}<span>${say('exchange.put-aside')}</span>
        </button>
      </div>
    </div>`;
  }

  #renderBucket(name: string, swatches: readonly BoardSwatch[]): TemplateResult | typeof nothing {
    if (swatches.length === 0) return nothing;
    const { say } = this.#desk;
    const more = swatches.length - MOST_SHOWN;
    return html`<div>
      <p class="small">${name}</p>
      <ul class="chips">
        ${swatches.slice(0, MOST_SHOWN).map(
          (swatch) =>
            html`<li>
              <svg class="dab" viewBox="0 0 120 76" preserveAspectRatio="none" aria-hidden="true">
                ${dab(swatch.id, paintOf(swatch))}
              </svg>
              <span>
                <span>${swatch.name || swatch.css || say('buckets.unnamed')}</span>
                <span class="soft"
                  >${say('dab.value', { value: munsellValue(swatch.lightness) })}</span
                >
              </span>
            </li>`,
        )}
        ${more > 0 ? html`<li>${say('exchange.more', { count: more })}</li>` : nothing}
      </ul>
    </div>`;
  }

  #renderReasons(reasons: readonly Reason[]): TemplateResult {
    const { say } = this.#desk;
    const more = reasons.length - MOST_FINDINGS;
    return html`<ul>
      ${reasons.slice(0, MOST_FINDINGS).map(({ code, values }) => html`<li>${say(code, values)}</li>`)}
      ${more > 0 ? html`<li>${say('swatches.more', { count: more })}</li>` : nothing}
    </ul>`;
  }

  #lay = (): void => {
    const added = this.#coming()?.added;
    if (!added) return;
    this.clear();
    this.#desk.focusLater(() => this.#desk.find('[data-paste]'));
    this.#acts.lay(added, this.#desk.say('exchange.laid', { count: added.length }));
  };
}

/** A file's text. @throws {SwatchesError} for one that is larger than any file of swatches */
async function textOf(file: string | Blob): Promise<string> {
  if (typeof file === 'string') return file;
  if (file.size <= MOST_BYTES) return file.text();
  const values = { path: '$', found: file.size, limit: MOST_BYTES };
  throw new SwatchesError([reason('swatches.too-large', values)]);
}

/**
 * Reads a file, in slices: design tokens when the text is JSON, else CSS.
 *
 * @throws {SwatchesError} by rejecting, and `AbortError` once it was given up
 */
async function swatchesOf(
  file: string | Blob,
  signal?: AbortSignal,
  onProgress?: (done: number) => void,
): Promise<ReadSwatches> {
  const watch: Watch = {
    check: () => {
      if (signal?.aborted) throw abortError();
    },
    tell: (_, done) => onProgress?.(done),
  };
  const text = (await textOf(file)).replace(/^\ufeff/, '');
  watch.check();
  const isJson = /^\s*[[{"]/.test(text);
  return sliced(isJson ? swatchesFromTokensKernel(text) : swatchesFromCssKernel(text), watch, '');
}
