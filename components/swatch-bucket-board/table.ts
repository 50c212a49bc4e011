import {
  html,
  nothing,
  type CSSResult,
  type ReactiveController,
  type ReactiveControllerHost,
  type TemplateResult,
} from 'lit';
import {
  munsellValue,
  type Board,
  type BoardVerdict,
  type Lack,
  type Reason,
  type SwatchVerdict,
} from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { onWords, type Words } from '../shared/strings.js';
import type { Accents } from './accents.js';
import { BoardActs } from './acts.js';
import { bandMay } from './band-rules.js';
import { placeOf, withSwatchMoved, type Place } from './board-moves.js';
import { labelOf, type BoardView } from './board-view.js';
import { renderBucket, renderGap, renderPairs } from './bucket-view.js';
import { dab, paintOf } from './dabs.js';
import type { BoardFacts, Desk } from './desk.js';
import { DragController, type DragHost } from './drag-controller.js';
import { CardsToCome } from './cards-to-come.js';
import type { BoardExchange } from './exchange-types.js';
import { keptVerdict } from './judge.js';
import { KeyLift } from './lift.js';
import type { Mixes } from './mixes.js';
import type { NewColour, OpenForm } from './open-form.js';
import type { Rules } from './rules.js';
import { countsOf, markOf, sameVerdict } from './verdict-words.js';

export { Judge } from './judge.js';
export { labOf, swatchLean } from '../shared/core.js';
export { boardWords } from '../shared/words/board.js';
export { boardStyles } from './swatch-bucket-board.styles.js';

/** What the table needs of its board. */
export interface TableHost extends DragHost, ReactiveControllerHost {
  readonly facts: BoardFacts;
  readonly rules: Rules;
  readonly tied: boolean;
  readonly form: HTMLFormElement | null;
  greys: boolean;
  /** Which time the board is handed in. */
  readonly attemptNow: number;
  /** What the page asks for and the buckets of a board still lack. */
  lacksToTell(board: Board): Lack[];
  sentenceOf(reason: Reason): string;
  /** A number with at most one decimal. */
  figure(value: number): string;
  judge(): void;
  /** Takes up words and looks that came later. */
  adopt(words: Words, looks: readonly CSSResult[]): void;
  /** Brings what carries swatches out and in. */
  exchange(): Promise<BoardExchange>;
}

const NO_COLOUR: NewColour = { css: '', name: '', fault: '' };
const NOT_JUDGED: BoardVerdict = { swatches: [], overlaps: [], gaps: [] };
const NO_VERDICTS: ReadonlyMap<string, SwatchVerdict> = new Map();
/** From so many swatches on those out of sight are not laid out. */
const MANY = 60;

/** What is told of a board. */
interface Told {
  board: Board;
  verdict: BoardVerdict;
  each: ReadonlyMap<string, SwatchVerdict>;
}

/** All that is seen of a board and done on it: buckets, swatches, forms, moves by hand and by keys. It comes when the board nears the viewport. */
export class Table {
  readonly acts: BoardActs;
  mixes?: Mixes;
  accents?: Accents;
  exchange?: BoardExchange;
  #exchanging: 'no' | 'yes' | 'failed' = 'no';
  #host: TableHost;
  #desk: Desk;
  #lift: KeyLift;
  #drag: DragController;
  #openForm?: OpenForm;
  #colour: NewColour = NO_COLOUR;
  #pointed?: string;
  #focusNext?: () => HTMLElement | null;
  #words = {};
  /** What is shown of verdicts: the last that was known. */
  #judged?: Told;
  /** A board that differs from the present one by the place of one swatch. */
  #moved?: { from: Board; id: string; to: Place; board: Board };
  readonly #coming: CardsToCome;
  /** Parts that have come or are on their way. */
  readonly #brought = new Set<string>();

  constructor(host: TableHost) {
    this.#host = host;
    host.addController(this.#wordsWatch());
    this.#desk = {
      ...host.facts,
      sum: () => this.sum(),
      show: (form) => this.#show(form),
      close: () => this.close(),
      dabOf: (id) => this.#dabOf(id),
      focusLater: (find) => (this.#focusNext = find),
    };
    this.acts = new BoardActs(this.#desk);
    this.#lift = new KeyLift(this.#desk, this.acts);
    this.#drag = new DragController(host);
    this.#coming = new CardsToCome(() => this.#update());
    this.#bringWhatIsNeeded();
  }

  get desk(): Desk {
    return this.#desk;
  }

  /** Settles once every swatch is drawn. */
  get drawn(): Promise<void> {
    return this.#coming.done;
  }

  /** The plan changed: what is open or in hand may be gone. */
  changed(): void {
    this.#bringWhatIsNeeded();
    this.accents?.follow(this.#desk.store());
    const { board } = this.#desk.store().plan;
    const form = this.#openForm;
    const lift = this.#lift.now;
    if (lift && !placeOf(board, lift.id)) this.#lift.drop();
    if (form?.kind === 'swatch' ? !placeOf(board, form.id) : form && !board.bands[form.bucket])
      this.#openForm = undefined;
  }

  /** The board leaves the page: searches under way are given up. */
  leave(): void {
    this.mixes?.stop();
    this.accents?.stop();
  }

  /**
   * Brings words of recipes and the search for missing leans once the plan has either recipes or a shelf, and what is told of accents once
   * the board has one.
   */
  #bringWhatIsNeeded(): void {
    const { board, shelf = [] } = this.#desk.store().plan;
    if (shelf.length > 0 || board.swatches.some(({ recipe }) => recipe))
      void this.#bring('mixes', async () => {
        const { boardMixesWords, Mixes, tubesWords } = await import('./mixes.js');
        this.#host.adopt({ ...boardMixesWords, ...tubesWords }, []);
        this.mixes = new Mixes(this.#desk, this.acts);
      });
    if (board.swatches.some(({ accent }) => accent))
      void this.#bring('accents', async () => {
        const { Accents, boardAccentsWords } = await import('./accents.js');
        this.#host.adopt(boardAccentsWords, []);
        this.accents = new Accents(() => this.#update());
        if (this.#host.isConnected) this.accents.follow(this.#desk.store());
      });
  }

  /** Brings a part once. One that cannot be had is asked for again with the next change of the plan. */
  async #bring(name: string, part: () => Promise<void>): Promise<void> {
    if (this.#brought.has(name)) return;
    this.#brought.add(name);
    try {
      await part();
      this.#update();
    } catch {
      this.#brought.delete(name);
    }
  }

  /** Closes forms and lets go of what is picked up or dragged. */
  close(): void {
    this.#openForm = undefined;
    this.#lift.drop();
    this.#drag.giveUp();
  }

  /** Puts the focus where the last act wanted it; called after each update. */
  settle(): void {
    this.#focusNext?.()?.focus();
    this.#focusNext = undefined;
    this.#coming.goOn();
  }

  /** Takes the latest change back, or makes it again. */
  step(what: 'undo' | 'redo'): void {
    this.acts.step(what, this.#host.shadowRoot?.activeElement ?? null);
  }

  /** Lets the sentence about the whole board be heard once it is judged. */
  tellSum(): void {
    const { now, speak, whenJudged } = this.#desk;
    whenJudged(now().ruled, () => speak(this.sum()));
  }

  /** The sentence about the whole board. */
  sum(): string {
    const { say, now, isTold } = this.#desk;
    const { ruled, verdict } = now();
    const count = ruled.swatches.length;
    const lacks = new Set(this.#host.lacksToTell(ruled).map(({ bucket }) => bucket)).size;
    const lack = lacks > 0 ? ` ${say('buckets.sum-lack', { count: lacks })}` : '';
    if (count === 0) return say('buckets.sum-none') + lack;
    if (!isTold()) {
      const key = this.#host.rules.reveal === 'never' ? 'buckets.sum-hidden' : 'buckets.sum-submit';
      return say(key, { count }) + lack;
    }
    if (!verdict) return say('buckets.sum-judging') + lack;
    const { faults, open } = countsOf(verdict);
    const key = faults + open === 0 ? 'buckets.sum-fine' : 'buckets.sum';
    return say(key, { count, faults, open }) + lack;
  }

  /** @param off - whether the board is disabled */
  render(off: boolean, trouble: string, forgive: () => void): TemplateResult {
    const view = this.#view();
    const { bands } = view.board;
    return html`<div class=${`all${off ? ' off' : ''}`}>
        <slot name="caption">${this.#renderLesson()}</slot>
        ${this.#renderHead(view)} ${this.#renderTrouble(trouble, forgive)}
        <div
          class=${`board of-${bands.length}${view.board.swatches.length > MANY ? ' many' : ''}`}
          part="board"
        >
          ${bands.map((_, bucket) => html`${bucket > 0 ? renderGap(view, bucket - 1) : nothing}${renderBucket(view, bucket)}`)}
        </div>
        ${renderPairs(view)} ${this.#renderExchange(view)}
        <p class="away" id="hint">${view.say('dab.hint')}</p>
      </div>
      ${this.#renderGhost(view)}`;
  }

  /** Tells one way of saying things from the next: other words were given, or the board was moved to a page of another language. */
  #wordsWatch(): ReactiveController {
    const other = (): void => void (this.#words = {});
    let stop: (() => void) | undefined;
    return {
      hostConnected: () => {
        other();
        stop = onWords(other);
      },
      hostDisconnected: () => stop?.(),
    };
  }

  #update(): void {
    this.#host.requestUpdate();
  }

  #addColour(bucket: number): void {
    const fault = this.acts.add(this.#colour, bucket);
    this.#colour = fault === '' ? NO_COLOUR : { ...this.#colour, fault };
    this.#focusNext = () => this.#desk.find('[data-first]');
    this.#update();
  }

  #show(form: OpenForm | undefined): void {
    const before = this.#openForm;
    this.#openForm = form;
    this.#colour = NO_COLOUR;
    if (form) this.#focusNext = () => this.#desk.find('[data-first], [data-limit]');
    else if (before?.kind === 'swatch') this.#focusNext = () => this.#dabOf(before.id);
    else if (before) {
      const from = { add: 'data-add', band: 'data-band', complete: 'data-complete' }[before.kind];
      this.#focusNext = () => this.#desk.find(`[${from}="${before.bucket}"]`);
    }
    this.#update();
  }

  #point(id: string | undefined): void {
    this.#pointed = id;
    this.#update();
  }

  #dabOf(id: string): HTMLElement | null {
    return this.#host.renderRoot.querySelector<HTMLElement>(`[data-dab="${CSS.escape(id)}"]`);
  }

  #view(): BoardView {
    const host = this.#host;
    const desk = this.#desk;
    const { ruled } = desk.now();
    const paper = desk.store().plan.paper.lightness;
    const drag = this.#drag.now;
    const lift = this.#lift.now;
    const board = lift ? this.#with(ruled, lift.id, lift.to) : ruled;
    const judged = desk.isTold() ? this.#judgedOf(board) : undefined;
    const open = desk.isOpen();
    const byId = new Map(board.swatches.map((swatch) => [swatch.id, swatch]));
    const unnamed = desk.say('buckets.unnamed');
    return {
      board,
      verdict: judged?.verdict,
      verdicts: judged?.each ?? NO_VERDICTS,
      drawn: this.#coming.next(board),
      paper,
      greys: host.greys,
      tied: host.tied,
      open,
      form: open || this.#openForm?.kind === 'swatch' ? this.#openForm : undefined,
      colour: this.#colour,
      lacks: host.lacksToTell(board),
      lifted: lift?.id,
      pointed: this.#pointed,
      drag,
      dragging: this.#drag,
      words: this.#words,
      say: desk.say,
      tell: (reason) => host.sentenceOf(reason),
      number: (value) => host.figure(value),
      nameOf: (id) => labelOf(byId.get(id), unnamed),
      show: (form) => this.#show(form),
      point: (id) => this.#point(id),
      keyOnDab: (event, id) => {
        if (!this.#drag.now) this.#lift.key(event, id, getComputedStyle(host).direction === 'rtl');
      },
      leaveDab: (id) => {
        if (this.#pointed === id) this.#point(undefined);
        void this.#lift.left(id, host.updateComplete);
      },
      setColour: (change) => {
        this.#colour = { ...this.#colour, ...change };
        this.#update();
      },
      addColour: (bucket) => this.#addColour(bucket),
      acts: this.acts,
      mixes: this.mixes,
      accents: this.accents,
      bandMay: (bucket) => bandMay(ruled.bands, bucket),
    };
  }

  /** The board with a swatch at another place; the same one as long as it is asked for the same. */
  #with(from: Board, id: string, to: Place): Board {
    const old = this.#moved;
    const same =
      old?.from === from &&
      old.id === id &&
      old.to.bucket === to.bucket &&
      old.to.place === to.place;
    if (!same) this.#moved = { from, id, to, board: withSwatchMoved(from, id, to) };
    return this.#moved!.board;
  }

  /** What is told of a board: while it is being judged, what is still known of the swatches that are as they were. */
  #judgedOf(board: Board): Told {
    const old = this.#judged;
    const known = this.#desk.verdictOf(board);
    if (known && known === old?.verdict) return old;
    const verdict = known ?? (old ? keptVerdict(old.verdict, old.board, board) : NOT_JUDGED);
    const each = new Map(
      verdict.swatches.map((said) => {
        const before = old?.each.get(said.id);
        // The same verdict stays the same object, so that its card is left as it is.
        return [said.id, before && sameVerdict(before, said) ? before : said];
      }),
    );
    const judged = { board, verdict, each };
    if (known) this.#judged = judged;
    return judged;
  }

  #renderLesson(): TemplateResult | typeof nothing {
    const { rules, attemptNow: attempt } = this.#host;
    const { title, task } = rules;
    if (title === '' && task === '' && attempt === 1) return nothing;
    const again = attempt > 1 ? this.#desk.say('lesson.attempt', { attempt }) : '';
    return html`<div class="lesson" part="lesson">
      <p class="lesson-title">${title}${again ? html` <span>${again}</span>` : nothing}</p>
      ${task === '' ? nothing : html`<p class="task">${task}</p>`}
    </div>`;
  }

  #renderHead(view: BoardView): TemplateResult {
    const host = this.#host;
    const { say } = view;
    const store = this.#desk.store();
    const asks =
      host.rules.reveal === 'submit' &&
      !host.form &&
      !this.#desk.isTold() &&
      view.board.swatches.length > 0;
    return html`<div class="head" part="toolbar">
      ${
        view.open
          ? html`<button
                type="button"
                part="undo"
                data-undo
                ?disabled=${!store.canUndo}
                @click=${() => this.step('undo')}
              >
                ${icon('undo')}<span>${say('buckets.undo')}</span>
              </button>
              <button
                type="button"
                part="redo"
                data-redo
                ?disabled=${!store.canRedo}
                @click=${() => this.step('redo')}
              >
                ${icon('redo')}<span>${say('buckets.redo')}</span>
              </button>`
          : nothing
      }
      <button
        type="button"
        data-greys
        aria-pressed=${host.greys}
        @click=${() => (host.greys = !host.greys)}
      >
        ${icon('eye')}<span>${say('buckets.greys')}</span>
      </button>
      ${asks ? html`<button type="button" @click=${() => host.judge()}>${icon('check')}<span>${say('buckets.judge')}</span></button>` : nothing}
      <p class="sum">${this.sum()}</p>
    </div>`;
  }

  #renderTrouble(trouble: string, forgive: () => void): TemplateResult | typeof nothing {
    if (trouble === '') return nothing;
    return html`<div class="trouble" part="trouble" role="alert">
      <span>${trouble}</span>
      <button type="button" class="quiet" @click=${forgive}>
        ${icon('close')}<span>${this.#desk.say('buckets.forgive')}</span>
      </button>
    </div>`;
  }

  /** Out and in; not while the verdict is hidden, since files tell values. */
  #renderExchange(view: BoardView): TemplateResult | typeof nothing {
    const { say } = view;
    if (!view.verdict) return nothing;
    if (this.exchange && this.#exchanging === 'yes')
      return this.exchange.render(view, () => this.#showExchange('no'));
    return html`<div class="row">
      <button
        type="button"
        class="quiet opener"
        part="exchange-button"
        data-exchange
        aria-expanded="false"
        @click=${this.#openExchange}
      >
        ${icon('send')}<span>${say('buckets.exchange')}</span>
      </button>
      ${this.#exchanging === 'failed' ? html`<p role="alert">${say('part.failed')}</p>` : nothing}
    </div>`;
  }

  #openExchange = async (): Promise<void> => {
    try {
      await this.#host.exchange();
      this.#showExchange('yes');
    } catch {
      this.#showExchange('failed');
    }
  };

  #showExchange(now: 'no' | 'yes' | 'failed'): void {
    if (now === 'no') this.exchange?.clear();
    this.#exchanging = now;
    this.#focusNext = () => this.#desk.find('[data-exchange]');
    this.#update();
  }

  /** The dab under the pointer, with the verdict it would get there. */
  #renderGhost({ drag, board, greys, verdict, say }: BoardView): TemplateResult | typeof nothing {
    const swatch = drag && board.swatches.find(({ id }) => id === drag.id);
    if (!drag || !swatch) return nothing;
    const would = verdict && drag.over && this.#with(board, drag.id, drag.over);
    const judged = would && this.#desk.verdictOf(would);
    const said = judged?.swatches.find(({ id }) => id === drag.id);
    return html`<div class="ghost" aria-hidden="true">
      <svg class="dab" viewBox="0 0 120 76" preserveAspectRatio="none">
        ${dab(swatch.id, paintOf(swatch, greys))}
      </svg>
      ${said ? html`<span>${say('dab.value', { value: munsellValue(swatch.lightness) })}, ${say(`verdict.${markOf(swatch, said)}`)}</span>` : nothing}
    </div>`;
  }

  /** A dragged swatch was let go. */
  dropped(id: string, to: Place): void {
    this.acts.move(id, to);
  }
}
