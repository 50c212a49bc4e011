import { html, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from '../shared/property.js';
import {
  BoardError,
  CoreError,
  labOfHex,
  lacksBy,
  leanOf,
  reason,
  startedPlan,
  withBoard,
  type Board,
  type BoardSwatch,
  type BoardVerdict,
  type Lab,
  type Lack,
  type LeanName,
  type Lesson,
  type Reason,
} from '../shared/core.js';
import { KitErrorEvent } from '../shared/events/kit-error.js';
import { ReadyEvent } from '../shared/events/ready.js';
import { LaterPart } from '../shared/later-part.js';
import { NearViewport } from '../shared/near-viewport.js';
import { PlanStore, type StorePlanEvent } from '../shared/plan-store.js';
import { formatNumber } from '../shared/strings.js';
import { usualNames } from '../shared/usual-bands.js';
import { tokens } from '../shared/tokens.js';
import { TonewellElement } from '../shared/tonewell-element.js';
import { boardFieldWords } from '../shared/words/board-field.js';
import {
  bandsFromAttributes,
  limitsOf,
  ruledBoard,
  sameBoard,
  swatchesFromContent,
  withBands,
} from './board-data.js';
import { boardOfText, documentText, type BoardDocument } from './board-form.js';
import type { Place } from './board-moves.js';
import { labelOf } from './board-view.js';
import { writtenSwatches } from './content.js';
import type { BoardFacts, Judged } from './desk.js';
import type { BoardExchange, SwatchFormat } from './exchange-types.js';
import { BoardField } from './field.js';
import { rulesOf, type Rules, type RulesGiven } from './rules.js';
import { boardFieldStyles } from './field.styles.js';
import type { Judge } from './judge.js';
import type * as Later from './table.js';

type TablePart = typeof Later;

/** How long a board that is not near the viewport waits for what is seen of it, in milliseconds. */
const AFTER_MS = 2000;
/** L* of the bare paper of a board that stands alone. */
const PAPER = 95;
/** What is known of a board before the judge has come. */
const NOTHING_JUDGED: BoardVerdict = { swatches: [], overlaps: [], gaps: [] };

/**
 * @summary One bucket a band of value, from dark to light; swatches are laid into them and judged: does each belong? A ladder of greys
 * beside each bucket lets the eye check. Works alone or on a plan that other elements share.
 *
 * The board it starts with comes from the `board` attribute, else from its content: `<script type="application/json">` with a board, or
 * `<data value="#8a6f5c" data-bucket="1">name</data>` for each swatch (`data-bucket` is a band's number or name and may be left out;
 * `data-note`, `data-accent` and `data-wet` as wanted). Tied to a plan, that is laid in only when the plan's board is empty.
 *
 * In a form its value is JSON: `{ schema: 1, lesson, board, verdict, lacks, attempt, made }`: the lesson's title, the board with its
 * rules, what is judged of it, what its buckets lack (`bucket`, `lean` where it is one, `found`, `required`), the number of the attempt
 * and the time (ISO 8601) of the last change or of handing it in. It is invalid while a bucket has fewer swatches than `required` or
 * lacks one of `leans`; with `validate="require"` also while a swatch is too dark or too light, or not judged yet.
 *
 * What judges comes some moments after the element is on its page: until `ready`, which `updateComplete` waits for too, the verdict may
 * be empty. From then on `verdict`, `value` and what a form sends are those of the board as it is, whenever they are asked for. Of a
 * large board with many faults the page may show the verdict some frames later; `board-change` comes with it.
 *
 * A lesson is given by attributes (`bands`, `limits`, `required`, `leans`, `tolerance`, `reveal`) or as one JSON in `lesson`.
 *
 * @slot - The board to start with, as above; never shown once the element runs.
 * @slot caption - Words above the board, in place of the lesson's title and task.
 * @fires {BoardChangeEvent} board-change - A person changed the board.
 * @fires {ReadyEvent} ready - A board is shown for the first time, or the page gave another one.
 * @fires {KitErrorEvent} error - A board, bands or colours that the page gave cannot be used; the board in hand stays.
 * @csspart lesson - The lesson's title and task.
 * @csspart lack - What a bucket lacks.
 * @csspart toolbar - Undo, redo, greys and the summary.
 * @csspart undo - The button that takes back; a page whose plan has one of its own may leave it out.
 * @csspart redo - The button that does it again.
 * @csspart trouble - The sentence about what cannot be used.
 * @csspart board - All buckets with the gaps between them.
 * @csspart bucket - One bucket.
 * @csspart title - A bucket's name and range.
 * @csspart tray - The grey tray of a bucket.
 * @csspart ladder - The ladder of greys.
 * @csspart swatches - The list of a bucket's swatches.
 * @csspart swatch - One swatch.
 * @csspart dab - The dab of paint, by which a swatch is dragged.
 * @csspart verdict - The verdict's mark and word.
 * @csspart recipe - What a swatch is mixed from.
 * @csspart why - The sentences of the verdict.
 * @csspart accent - What an accent is among its neutrals, and where its hue comes again.
 * @csspart note - A swatch's note.
 * @csspart empty - What an empty bucket says.
 * @csspart add-button - Opens the form for a new colour.
 * @csspart complete-button - Looks for what a bucket lacks.
 * @csspart completion - Mixes for the leans that a bucket lacks.
 * @csspart colour-form - The form for a new colour.
 * @csspart swatch-form - The form of a swatch.
 * @csspart band-form - The form of a band.
 * @csspart gap - The distance between two buckets.
 * @csspart pairs - The swatches that cross.
 * @csspart exchange-button - Opens what carries swatches to other programs and back; a page may leave it out.
 * @csspart exchange - What carries swatches out and in.
 * @csspart exchange-preview - The swatches of a file before they come.
 * @csspart icon - A stroke drawing.
 * @cssproperty --tonewell-surround - The neutral grey that swatches lie on.
 * @cssproperty --tonewell-paper - The ground of the page.
 * @cssproperty --tonewell-sheet - The ground of forms and buttons.
 * @cssproperty --tonewell-ink - Text and strokes.
 * @cssproperty --tonewell-ink-soft - Lesser text.
 * @cssproperty --tonewell-line - Hairlines.
 * @cssproperty --tonewell-edge - Borders of controls.
 * @cssproperty --tonewell-press - A control under the pointer.
 * @cssproperty --tonewell-font - The typeface.
 * @cssstate empty - There are no swatches.
 * @cssstate faults - Some swatch is too dark or too light.
 * @cssstate complete - Every bucket has as many swatches as are asked for.
 * @cssstate told - The verdict is shown.
 */
export class SwatchBucketBoard extends TonewellElement {
  static override readonly tag = 'swatch-bucket-board';
  static override readonly words = boardFieldWords;
  static override readonly styles = [tokens, boardFieldStyles];
  /** Takes part in forms. */
  static readonly formAssociated = true;

  /** The field's name in its form. */
  @property({ reflect: true }) name = '';

  /** No changes, and no part in the form. */
  @property({ type: Boolean, reflect: true }) disabled = false;

  /** No changes, but a part in the form. */
  @property({ type: Boolean, reflect: true }) readonly = false;

  /** A teacher's lock on every band: no other name, no other limits, none added or taken away. Swatches stay free. */
  @property({ type: Boolean, reflect: true }) locked = false;

  /** The bands of a board that stands alone, dark to light: names parted by spaces or commas, or JSON (names, or bands). */
  @property() bands = '';

  /** L* between those bands, ascending: "36 66". */
  @property() limits = '';

  /** JSON of the board to start with, which a form's reset comes back to. */
  @property({ attribute: 'board' }) defaultBoard = '';

  /** How many swatches a bucket needs: one number, or one for each band. One each when missing; 0 for none. */
  @property() required: string | null = null;

  /** The leans that each bucket needs, dark to light, bands parted by bars: "blue orange | neutral | red". */
  @property() leans = '';

  /** A lesson (or its JSON), which goes before the attributes above and below; or the title of the lesson that they make. */
  @property() lesson: string | Lesson = '';

  /** Which time the board is handed in, from 1; set by the page. */
  @property({ type: Number }) attempt = 1;

  /** L* that a bucket may span where its band says nothing itself. */
  @property({ type: Number }) tolerance?: number;

  /** Whether faults make the board invalid: `report` (no) or `require` (yes). */
  @property() validate: 'report' | 'require' = 'report';

  /** When the verdict (and values) are shown: `always`, after a `submit`, or `never`. */
  @property() reveal: 'always' | 'submit' | 'never' = 'always';

  /** Shows each swatch as the grey of its value. */
  @property({ type: Boolean, reflect: true }) greys = false;

  @state() private trouble = '';
  @state() private fieldsetDisabled = false;
  /** The board whose verdict was asked for by a submit. */
  @state() private judged?: Board;

  readonly #internals = this.attachInternals();
  /** @internal What the helpers may use of the element. */
  readonly facts: BoardFacts = this.#makeFacts();
  readonly #field = new BoardField(this.#internals, this.facts);
  readonly #part = new LaterPart(
    this,
    () => import('./table.js'),
    (module) => this.#layTable(module),
  );
  #table?: Later.Table;
  readonly #judging = new LaterPart(
    this,
    () => import('./judge.js'),
    (module) => this.#takeJudge(module),
  );
  #judge?: Judge;
  /** How colours are read that are not written `#rrggbb`; it comes with the table. */
  #colours?: Pick<TablePart, 'labOf' | 'swatchLean'>;
  #pending?: Board;
  #content?: Board;
  #contentText = '';
  #given = false;
  #startedIn?: PlanStore;
  #readyDue = true;
  #form: HTMLFormElement | null = null;
  #memo?: Omit<Judged, 'verdict'> & { board: Board; rules: Rules };
  #text?: Omit<BoardDocument, 'schema'> & { text: string };
  #rulesTrouble = '';
  #rulesMemo?: { given: RulesGiven; rules: Rules };
  /** When the board was last changed or handed in. */
  #made = '';

  constructor() {
    super();
    new NearViewport(this, () => void this.#part.fetch(), '600px');
  }

  // The board

  /** The board as it is; a copy. Setting it (a board, or its JSON) replaces it: what cannot be used is told and changes nothing. */
  get board(): Board {
    return structuredClone(this.#pending ?? this.store.plan.board);
  }
  set board(value: Board | string) {
    const board = this.#read(value);
    if (!board) return;
    this.#given = true;
    if (this.isConnected) this.#lay(board);
    else this.#pending = board;
  }

  /**
   * What is judged of the board, whether or not it is shown. It always is that of the board as it is; only before the judge has come, some
   * moments after the element is on its page (`updateComplete` and `ready` wait for it), its lists are empty.
   */
  get verdict(): BoardVerdict {
    return structuredClone(this.#verdictAtOnce());
  }

  /** What the buckets lack in number and lean. */
  get lacks(): Lack[] {
    return structuredClone(this.#now().lacks);
  }

  /** Shows the verdict of the board as it is now, as a form's submit does; hidden again once the board changes. */
  judge(): void {
    const { reveal } = this.rules;
    if (reveal === 'never') return;
    this.judged = this.store.plan.board;
    if (reveal === 'submit') this.#table?.tellSum();
  }

  /**
   * The board as a file for other programs: `design-tokens` (JSON of the W3C community group's format; nothing of the board is lost when it
   * is brought back in), `css` (custom properties) or `svg` (a drawing at true size). The board must be on a page.
   */
  async swatchesAs(format: SwatchFormat): Promise<File> {
    return (await this.exchange()).fileOf(format);
  }

  /**
   * Lays the swatches of a file of design tokens or of CSS custom properties in, in one step of undo. Resolves with how many came; those
   * that lie there already do not come twice. Rejects with a `SwatchesError` when there are none to be had, and with an `AbortError` when
   * `signal` gives it up before they lie there; the board stays as it is.
   */
  async bringSwatches(
    file: string | Blob,
    { signal }: { signal?: AbortSignal } = {},
  ): Promise<number> {
    return (await this.exchange()).bring(file, signal);
  }

  // The form

  /** The form it belongs to. */
  get form(): HTMLFormElement | null {
    return this.#internals.form;
  }
  /** What a form receives, as JSON. Setting it takes that (its board alone), or a plain board. */
  get value(): string {
    return this.#document(this.#verdictAtOnce());
  }
  set value(text: string) {
    this.board = text;
  }
  /** The tag name in lower case, as form elements of the platform tell it. */
  get type(): string {
    return 'swatch-bucket-board';
  }
  /** Which rules the value breaks. */
  get validity(): ValidityState {
    return this.#internals.validity;
  }
  /** The sentence of the rule that is broken, or an empty one. */
  get validationMessage(): string {
    return this.#internals.validationMessage;
  }
  /** Whether the form will ask this element. */
  get willValidate(): boolean {
    return this.#internals.willValidate;
  }
  /** The labels of this element. */
  get labels(): NodeList {
    return this.#internals.labels;
  }
  /** Whether the value breaks no rule; fires `invalid` where it does. */
  checkValidity(): boolean {
    return this.#internals.checkValidity();
  }
  /** As {@link checkValidity}, and tells the person. */
  reportValidity(): boolean {
    return this.#internals.reportValidity();
  }

  formAssociatedCallback(form: HTMLFormElement | null): void {
    this.#form?.removeEventListener('submit', this.#onSubmit);
    this.#form?.removeEventListener('formdata', this.#onFormData);
    this.#form = form;
    form?.addEventListener('submit', this.#onSubmit);
    form?.addEventListener('formdata', this.#onFormData);
    this.requestUpdate();
  }

  formDisabledCallback(disabled: boolean): void {
    this.fieldsetDisabled = disabled;
  }

  /** Comes back to the board the page gave; can be undone. */
  formResetCallback(): void {
    const { board } = this.store.plan;
    const lesson = this.rules.bands !== undefined;
    const own = lesson || !this.tied ? this.#ownBands() : board.bands;
    const given = this.#startBoard();
    const start = given && !lesson ? given : withBands(given ?? { bands: own, swatches: [] }, own);
    this.#table?.close();
    this.trouble = '';
    this.judged = undefined;
    if (!sameBoard(start, board))
      this.store.change('board-reset', (plan) => withBoard(plan, start));
  }

  formStateRestoreCallback(state: unknown): void {
    const board = typeof state === 'string' ? this.#read(state) : undefined;
    if (!board) return;
    this.#given = true;
    if (this.isConnected) this.#lay(board);
    else this.#pending = board;
  }

  /** Gives the first control the focus. */
  override focus(options?: FocusOptions): void {
    this.renderRoot
      .querySelector<HTMLElement>('button.dab, .add, .head button:not(:disabled)')
      ?.focus(options);
  }

  // Life

  override connectedCallback(): void {
    super.connectedCallback();
    this.addEventListener('keydown', this.#onKey);
    this.addEventListener('invalid', this.#onInvalid);
    void this.#judging.fetch();
    if (!this.#pending) return;
    const board = this.#pending;
    this.#pending = undefined;
    this.#lay(board);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.removeEventListener('keydown', this.#onKey);
    this.removeEventListener('invalid', this.#onInvalid);
    this.#table?.leave();
  }

  protected override ownStore(): PlanStore {
    return new PlanStore(withBoard(startedPlan(), { bands: this.#ownBands(), swatches: [] }));
  }

  protected override planChanged(event?: StorePlanEvent): void {
    super.planChanged(event);
    this.#table?.changed();
    // Another plan was taken up; the same one comes back when the element is moved on its page.
    if (!event && this.hasUpdated && this.#startedIn !== this.store) this.#layStart();
    this.#field.sync(this);
  }

  protected override willUpdate(changes: PropertyValues<this>): void {
    super.willUpdate(changes);
    if (
      (changes.has('bands') || changes.has('limits')) &&
      !this.rules.bands &&
      !this.tied &&
      (this.hasUpdated || !this.#given)
    )
      this.#layBands();
    if (changes.has('lesson') && this.rules.bands) this.#layBands();
    if (!this.hasUpdated) this.#readContent();
    if (changes.has('defaultBoard') && this.defaultBoard !== '') {
      if (this.hasUpdated) {
        const board = this.#read(this.defaultBoard);
        if (board) this.#lay(board);
      } else this.#layStart();
    }
    if (changes.has('defaultBoard') && this.rules.bands) this.#layBands();
    if (changes.has('lesson') || changes.has('leans')) this.#readRules();
  }

  protected override firstUpdated(): void {
    this.#internals.role = 'group';
    // One further down comes too, once the page has come up: it may be printed.
    setTimeout(() => this.isConnected && void this.#part.fetch(), AFTER_MS);
  }

  protected override updated(): void {
    this.#internals.ariaLabel = this.say('buckets.label');
    this.#field.sync(this);
    this.#table?.settle();
    if (!this.#table || !this.#readyDue || this.isUpdatePending) return;
    this.#readyDue = false;
    this.dispatchEvent(new ReadyEvent());
  }

  protected override async getUpdateComplete(): Promise<boolean> {
    const done = await super.getUpdateComplete();
    await this.#table?.drawn;
    return (await super.getUpdateComplete()) && done;
  }

  /** Takes up all that is seen of the board. */
  #layTable(module: TablePart): void {
    this.adopt(module.boardWords, module.boardStyles);
    this.#colours = module;
    this.#memo = undefined;
    this.#takeJudge(module);
    this.#table = new module.Table(this);
  }

  #takeJudge(module: { Judge: typeof Judge }): void {
    this.#judge ??= new module.Judge(() => this.requestUpdate());
  }

  /** @internal What carries swatches out and in; it comes when it is first asked for. */
  async exchange(): Promise<BoardExchange> {
    if (!this.isConnected)
      throw new DOMException('The board is not on a page yet.', 'InvalidStateError');
    await this.#part.fetch();
    const { boardExchangeWords, Exchange, exchangeStyles, tubesWords } =
      await import('./exchange.js');
    const table = this.#table;
    if (!table) throw new CoreError('PartUnavailable', 'A part of the board could not be loaded.');
    if (!table.exchange) {
      this.adopt({ ...boardExchangeWords, ...tubesWords }, [exchangeStyles]);
      table.exchange = new Exchange(table.desk, table.acts);
    }
    return table.exchange;
  }

  // What the page gives

  /** A board of unknown shape, read; what cannot be used is told. */
  #read(value: unknown): Board | undefined {
    try {
      const board = boardOfText(value);
      if (board.bands.length === 0)
        throw new BoardError([reason('board.no-bands', { path: '$.bands' })]);
      this.trouble = '';
      return board;
    } catch (thrown) {
      this.#fail(thrown, 'BoardError');
      return undefined;
    }
  }

  #fail(
    thrown: unknown,
    code: 'BoardError' | 'BoardBands' | 'BoardColours' | 'BoardLeans' | 'LessonError',
    values: Record<string, string | number> = {},
  ): void {
    const faults = (thrown as { faults?: Reason[] } | undefined)?.faults ?? [];
    const first: Reason | undefined = faults[0];
    // A lesson's faults are those of its bands and lists: they are told in the same words.
    const fault = first ? this.say(first.code.replace(/^lesson\./, 'board.'), first.values) : '';
    const figures = {
      ...values,
      ...(first ? { path: first.values.path ?? '$', code: first.code } : {}),
      more: Math.max(0, faults.length - 1),
    };
    this.trouble = this.say(code, { ...figures, fault });
    this.dispatchEvent(new KitErrorEvent(this.trouble, { code, values: figures }));
  }

  #attributeBands(): Board['bands'] | undefined {
    if (!this.bands.trim() && !this.limits.trim()) return undefined;
    try {
      return bandsFromAttributes(this.bands, this.limits, PAPER);
    } catch (thrown) {
      this.#fail(thrown, 'BoardBands');
      return undefined;
    }
  }

  /** The bands of the lesson or the attributes, or the usual ones. */
  #ownBands(): Board['bands'] {
    const { bands } = this.rules;
    if (bands) return bands.map((band) => ({ ...band }));
    const usual = usualNames(3, (key, values) => this.say(key, values));
    try {
      return bandsFromAttributes(this.bands, this.limits, PAPER, usual);
    } catch {
      return bandsFromAttributes('', '', PAPER, usual);
    }
  }

  /** Tells what of the lesson or its leans cannot be used. */
  #readRules(): void {
    const { trouble, unknownLeans } = this.rules;
    if (this.trouble === this.#rulesTrouble) this.trouble = '';
    this.#rulesTrouble = '';
    if (trouble !== undefined) this.#fail(trouble, 'LessonError');
    else if (unknownLeans.length > 0)
      this.#fail(undefined, 'BoardLeans', { names: unknownLeans.join(', ') });
    else return;
    this.#rulesTrouble = this.trouble;
  }

  /** The attributes or the lesson name other bands: swatches stay in their buckets as far as there are any. */
  #layBands(): void {
    const lesson = this.rules.bands;
    const bands = lesson ?? this.#attributeBands();
    if (!bands) return;
    if (!lesson) this.trouble = '';
    this.#lay(withBands(this.store.plan.board, bands));
  }

  /** The board to start with, by attribute or content. */
  #startBoard(): Board | undefined {
    if (this.defaultBoard === '') return this.#content;
    try {
      return boardOfText(this.defaultBoard);
    } catch {
      return undefined;
    }
  }

  /** Lays in the board to start with, unless the page gave another one or a shared plan has swatches already. */
  #layStart(): void {
    this.#startedIn = this.store;
    if (this.#given || (this.tied && this.store.plan.board.swatches.length > 0)) return;
    const start = this.defaultBoard === '' ? this.#content : this.#read(this.defaultBoard);
    if (start) this.#lay(start);
  }

  #readContent = (): void => {
    const written = writtenSwatches(this);
    const text = JSON.stringify(written);
    if (text === this.#contentText) return;
    this.#contentText = text;
    if (written.json !== undefined) this.#content = this.#read(written.json);
    else if (written.swatches.length > 0) {
      const { bands } = this.store.plan.board;
      if (!this.#colours && written.swatches.some(({ css }) => !labOfHex(css))) {
        // Every other way to write a colour waits for the parser of them all.
        this.#contentText = '';
        void this.#part.fetch().then(() => this.#colours && this.#readContent());
        return;
      }
      const { swatches, unknown } = swatchesFromContent(written.swatches, bands, this.#labOf);
      this.#content = { bands, swatches };
      if (unknown.length > 0)
        this.#fail(undefined, 'BoardColours', { count: unknown.length, names: unknown.join(', ') });
    } else return;
    if (this.defaultBoard === '' && this.store.plan.board.swatches.length === 0) this.#layStart();
  };

  /** Puts a board that the page gives in place of the present one: no step of undo. */
  #lay(board: Board): void {
    if (sameBoard(board, this.store.plan.board)) return;
    this.#table?.close();
    this.judged = undefined;
    this.#readyDue = true;
    if (!this.tied) this.store.restore(withBoard(this.store.plan, board));
    else {
      this.store.amend('board', (plan) => withBoard(plan, board));
      // The photo must not propose other limits for the bands that the page gives.
      const limits = limitsOf(board.bands);
      if (limits.every((limit, i) => i === 0 || limit > limits[i - 1]))
        this.store.fixLimits(this.store.plan.photoLimits);
      this.store.amend('board', (plan) => (plan.board === board ? plan : { ...plan, board }));
    }
    this.requestUpdate();
  }

  // What is shown and judged

  get #open(): boolean {
    return !this.disabled && !this.fieldsetDisabled && !this.readonly;
  }

  get #told(): boolean {
    const { reveal } = this.rules;
    return reveal === 'always' || (reveal === 'submit' && this.judged === this.store.plan.board);
  }

  /** @internal */
  get attemptNow(): number {
    return Math.min(1000, Math.max(1, Math.floor(this.attempt) || 1));
  }

  /** @internal The rules that hold, by the lesson or by attributes. */
  get rules(): Rules {
    const { lesson, required, leans, tolerance, reveal, locked } = this;
    const given: RulesGiven = { lesson, required, leans, tolerance, reveal, locked };
    const old = this.#rulesMemo;
    const same =
      old &&
      (Object.keys(given) as (keyof RulesGiven)[]).every((key) => old.given[key] === given[key]);
    if (same) return old.rules;
    this.#rulesMemo = { given, rules: rulesOf(given) };
    return this.#rulesMemo.rules;
  }

  /** The present board under a teacher's rules, what it lacks, and its verdict where that is known. */
  #now(): Judged {
    const { ruled, lacks } = this.#ruledNow();
    return { ruled, lacks, verdict: this.#verdictOf(ruled) };
  }

  #ruledNow(): Omit<Judged, 'verdict'> {
    const { rules } = this;
    const board = this.#pending ?? this.store.plan.board;
    const old = this.#memo;
    if (old?.board === board && old.rules === rules) return old;
    if (old?.board !== board) this.#made = new Date().toISOString();
    const ruled = ruledBoard(board, rules);
    this.#memo = { board, rules, ruled, lacks: this.#lacksOf(ruled) };
    return this.#memo;
  }

  #verdictOf(board: Board): BoardVerdict | undefined {
    return this.#judge?.of(board, this.store.plan.paper.lightness);
  }

  #verdictAtOnce(): BoardVerdict {
    const { ruled } = this.#ruledNow();
    return this.#judge?.atOnce(ruled, this.store.plan.paper.lightness) ?? NOTHING_JUDGED;
  }

  /** Large boards make long texts: one is written anew only when something in it changes. */
  #document(verdict = NOTHING_JUDGED): string {
    const { ruled: board, lacks } = this.#ruledNow();
    const { title: lesson } = this.rules;
    const parts = { lesson, board, verdict, lacks, attempt: this.attemptNow, made: this.#made };
    const old = this.#text;
    const same =
      old && (Object.keys(parts) as (keyof typeof parts)[]).every((key) => old[key] === parts[key]);
    if (same) return old.text;
    this.#text = { ...parts, text: documentText(parts) };
    return this.#text.text;
  }

  #lacksOf(board: Board): Lack[] {
    return lacksBy(board, this.rules.needs(board.bands.length), this.#leanOf);
  }

  /** @internal The lacks that the board tells: of numbers only where the page says how many it wants. */
  lacksToTell(board: Board): Lack[] {
    const { counts } = this.rules;
    return this.#lacksOf(board).filter(({ lean }) => counts || lean !== undefined);
  }

  #leanOf = (swatch: BoardSwatch): LeanName | undefined => {
    if (this.#colours) return this.#colours.swatchLean(swatch);
    const lab = swatch.lab ?? labOfHex(swatch.css ?? '');
    return lab && leanOf(lab).name;
  };

  #labOf = (css: string): Lab => labOfHex(css) ?? this.#colours!.labOf(css);

  /** @internal */
  sentenceOf(reason: Reason): string {
    return this.tell(reason);
  }

  /** @internal */
  figure(value: number): string {
    return formatNumber(value, this.locale, 1);
  }

  #nameOf = (id: string): string => {
    const swatch = this.store.plan.board.swatches.find((each) => each.id === id);
    return labelOf(swatch, this.say('buckets.unnamed'));
  };

  // What a person does

  /** @internal A dragged swatch was let go. */
  dropped(id: string, to: Place): void {
    this.#table?.dropped(id, to);
  }

  #onKey = (event: KeyboardEvent): void => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || !this.#open || !this.#table) return;
    const key = event.key.toLowerCase();
    if (key !== 'z' && key !== 'y') return;
    const origin = event.composedPath()[0];
    if (origin instanceof HTMLInputElement || origin instanceof HTMLTextAreaElement) return;
    const what = key === 'y' || event.shiftKey ? 'redo' : 'undo';
    if (what === 'undo' ? !this.store.canUndo : !this.store.canRedo) return;
    event.preventDefault();
    this.#table.step(what);
  };

  #onSubmit = (): void => {
    this.#made = new Date().toISOString();
    this.judge();
    this.#field.sync(this);
  };

  /** A board that is still being judged is judged to the end when it is sent. */
  #onFormData = ({ formData }: FormDataEvent): void => {
    if (formData.has(this.name) && !this.#now().verdict) formData.set(this.name, this.value);
  };

  /** A form was refused for faults: they are shown. What only is incomplete is not judged yet. */
  #onInvalid = (): void => {
    if (this.validity.customError) this.judge();
  };

  #find(selector: string): HTMLElement | null {
    return this.hasUpdated ? this.renderRoot.querySelector<HTMLElement>(selector) : null;
  }

  #makeFacts(): BoardFacts {
    return {
      store: () => this.store,
      isOpen: () => this.#open,
      isTold: () => this.#told,
      now: () => this.#now(),
      verdictOf: (board) => this.#verdictOf(board),
      whenJudged: (board, tell) => this.#judge?.when(board, this.store.plan.paper.lightness, tell),
      document: (verdict) => this.#document(verdict),
      say: (key, values) => this.say(key, values),
      speak: (text) => this.announce(text),
      nameOf: (id) => this.#nameOf(id),
      title: () => this.rules.title || this.store.plan.title,
      fire: (event) => this.dispatchEvent(event),
      update: () => this.requestUpdate(),
      find: (selector) => this.#find(selector),
    };
  }

  // Rendering

  override render(): TemplateResult {
    const off = this.fieldsetDisabled || this.disabled;
    const seen = this.#table
      ? this.#table.render(off, this.trouble, () => (this.trouble = ''))
      : html`<div class="coming">${this.#part.renderFailure((key) => this.say(key))}</div>`;
    return html`${seen}<slot hidden @slotchange=${this.#readContent}></slot>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'swatch-bucket-board': SwatchBucketBoard;
  }
}
