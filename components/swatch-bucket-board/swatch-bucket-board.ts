import { html, nothing, type PropertyValues } from 'lit';
import { property, state } from 'lit/decorators.js';
import {
  BoardError,
  judgeBoard,
  lightnessOfMunsell,
  munsellValue,
  newPlan,
  reason,
  withBandAdded,
  withBandNamed,
  withBandRemoved,
  withLimitMoved,
  MOST_BANDS,
  type Board,
  type BoardVerdict,
  type Plan,
  type Reason,
} from '../shared/core.js';
import { BoardChangeEvent, type BoardAct } from '../shared/events/board-change.js';
import { KitErrorEvent } from '../shared/events/kit-error.js';
import { ReadyEvent } from '../shared/events/ready.js';
import { icon } from '../shared/icons.js';
import { PlanStore, type StorePlanEvent } from '../shared/plan-store.js';
import { formatNumber } from '../shared/strings.js';
import { controls, tokens } from '../shared/tokens.js';
import { TonewellElement } from '../shared/tonewell-element.js';
import { boardWords } from '../shared/words/board.js';
import {
  bandsFromAttributes,
  bandsMeet,
  limitsOf,
  planWithBoard,
  ruledBoard,
  swatchesFromContent,
  swatchOfCss,
} from './board-data.js';
import { boardOfText, documentText, faultsOf, lacksOf, requiredCounts } from './board-form.js';
import {
  freeId,
  placeOf,
  stepped,
  swatchesIn,
  withSwatchAdded,
  withSwatchChanged,
  withSwatchMoved,
  withSwatchRemoved,
  type Place,
  type SwatchPatch,
} from './board-moves.js';
import { labelOf, type BoardView, type NewColour, type OpenForm } from './board-view.js';
import { renderBucket, renderGap, renderPairs } from './bucket-view.js';
import { writtenSwatches } from './content.js';
import { dab, paintOf } from './dabs.js';
import { DragController, type DragHost } from './drag-controller.js';
import { stepOfKey } from './keys.js';
import { boardStyles } from './swatch-bucket-board.styles.js';
import { countsOf, markOf, tenth } from './verdict-words.js';

const NO_COLOUR: NewColour = { css: '', name: '', fault: '' };
/** As many as a board may hold. */
const MOST_SWATCHES = 1000;
/** Dark to light, as the board is without attributes. */
const PAPER = 95;

/**
 * @summary One bucket a band of value, from dark to light; swatches are laid into them and judged: does each belong? A ladder of greys
 * beside each bucket lets the eye check. Works alone or on a plan that other elements share.
 *
 * The board it starts with comes from the `board` attribute, else from its content: `<script type="application/json">` with a board, or
 * `<data value="#8a6f5c" data-bucket="1">name</data>` for each swatch (`data-bucket` is a band's number or name and may be left out;
 * `data-note`, `data-accent` and `data-wet` as wanted). Tied to a plan, that is laid in only when the plan's board is empty.
 *
 * In a form its value is JSON: `{ board, verdict }`. It is invalid while a bucket has fewer swatches than `required`; with
 * `validate="require"` also while a swatch is too dark or too light.
 *
 * @slot - The board to start with, as above; never shown once the element runs.
 * @slot caption - Words above the board, e.g. a task.
 * @fires {BoardChangeEvent} board-change - A person changed the board.
 * @fires {ReadyEvent} ready - A board is shown for the first time, or the page gave another one.
 * @fires {KitErrorEvent} error - A board, bands or colours that the page gave cannot be used; the board in hand stays.
 * @csspart toolbar - Undo, redo, greys and the summary.
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
 * @csspart why - The sentences of the verdict.
 * @csspart note - A swatch's note.
 * @csspart empty - What an empty bucket says.
 * @csspart add-button - Opens the form for a new colour.
 * @csspart colour-form - The form for a new colour.
 * @csspart swatch-form - The form of a swatch.
 * @csspart band-form - The form of a band.
 * @csspart gap - The distance between two buckets.
 * @csspart pairs - The swatches that cross.
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
export class SwatchBucketBoard extends TonewellElement implements DragHost {
  static override readonly tag = 'swatch-bucket-board';
  static override readonly words = boardWords;
  static override readonly styles = [tokens, controls, boardStyles];
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

  /** L* that a bucket may span where its band says nothing itself. */
  @property({ type: Number }) tolerance?: number;

  /** Whether faults make the board invalid: `report` (no) or `require` (yes). */
  @property() validate: 'report' | 'require' = 'report';

  /** When the verdict (and values) are shown: `always`, after a `submit`, or `never`. */
  @property() reveal: 'always' | 'submit' | 'never' = 'always';

  /** Shows each swatch as the grey of its value. */
  @property({ type: Boolean, reflect: true }) greys = false;

  @state() private openForm?: OpenForm;
  @state() private colour: NewColour = NO_COLOUR;
  @state() private lift?: { id: string; to: Place };
  @state() private pointed?: string;
  @state() private trouble = '';
  @state() private fieldsetDisabled = false;
  /** The board whose verdict was asked for by a submit. */
  @state() private judged?: Board;

  readonly #internals = this.attachInternals();
  readonly #drag = new DragController(this);
  #pending?: Board;
  #content?: Board;
  #contentText = '';
  #given = false;
  #readyDue = true;
  #form: HTMLFormElement | null = null;
  #memo?: {
    board: Board;
    tolerance?: number;
    locked: boolean;
    paper: number;
    ruled: Board;
    verdict: BoardVerdict;
  };
  #focusNext?: () => HTMLElement | null;

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

  /** What is judged of the board, whether or not it is shown. */
  get verdict(): BoardVerdict {
    return structuredClone(this.#now().verdict);
  }

  /** Shows the verdict of the board as it is now, as a form's submit does; hidden again once the board changes. */
  judge(): void {
    if (this.reveal === 'never') return;
    this.judged = this.store.plan.board;
    if (this.reveal === 'submit') this.announce(this.#sum());
  }

  // The form

  /** The form it belongs to. */
  get form(): HTMLFormElement | null {
    return this.#internals.form;
  }
  /** `{ board, verdict }` as JSON. Setting it takes that, or a plain board. */
  get value(): string {
    const { ruled, verdict } = this.#now();
    return documentText(ruled, verdict);
  }
  set value(text: string) {
    this.board = text;
  }
  get type(): string {
    return 'swatch-bucket-board';
  }
  get validity(): ValidityState {
    return this.#internals.validity;
  }
  get validationMessage(): string {
    return this.#internals.validationMessage;
  }
  get willValidate(): boolean {
    return this.#internals.willValidate;
  }
  get labels(): NodeList {
    return this.#internals.labels;
  }
  checkValidity(): boolean {
    return this.#internals.checkValidity();
  }
  reportValidity(): boolean {
    return this.#internals.reportValidity();
  }

  formAssociatedCallback(form: HTMLFormElement | null): void {
    this.#form?.removeEventListener('submit', this.#onSubmit);
    this.#form = form;
    form?.addEventListener('submit', this.#onSubmit);
    this.requestUpdate();
  }

  formDisabledCallback(disabled: boolean): void {
    this.fieldsetDisabled = disabled;
  }

  /** Comes back to the board the page gave; can be undone. */
  formResetCallback(): void {
    const { board } = this.store.plan;
    const start = this.#startBoard() ?? {
      bands: this.tied ? board.bands : this.#ownBands(),
      swatches: [],
    };
    this.#closeAll();
    this.trouble = '';
    this.judged = undefined;
    if (JSON.stringify(start) !== JSON.stringify(board))
      this.store.change('board-reset', (plan) => planWithBoard(plan, start));
  }

  formStateRestoreCallback(state: unknown): void {
    const board = typeof state === 'string' ? this.#read(state) : undefined;
    if (!board) return;
    this.#given = true;
    if (this.isConnected) this.#lay(board);
    else this.#pending = board;
  }

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
    if (!this.#pending) return;
    const board = this.#pending;
    this.#pending = undefined;
    this.#lay(board);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.removeEventListener('keydown', this.#onKey);
    this.removeEventListener('invalid', this.#onInvalid);
  }

  protected override ownStore(): PlanStore {
    return new PlanStore(newPlan({ board: { bands: this.#ownBands(), swatches: [] } }));
  }

  protected override planChanged(event?: StorePlanEvent): void {
    super.planChanged(event);
    const { board } = this.store.plan;
    if (this.lift && !board.swatches.some(({ id }) => id === this.lift?.id)) this.lift = undefined;
    if (this.openForm?.kind === 'swatch' && !placeOf(board, this.openForm.id))
      this.openForm = undefined;
    if (
      this.openForm &&
      this.openForm.kind !== 'swatch' &&
      this.openForm.bucket >= board.bands.length
    )
      this.openForm = undefined;
    if (!event && this.hasUpdated) this.#layStart(); // another plan was taken up
    this.#syncForm();
  }

  protected override willUpdate(changes: PropertyValues<this>): void {
    super.willUpdate(changes);
    if (
      (changes.has('bands') || changes.has('limits')) &&
      !this.tied &&
      (this.hasUpdated || !this.#given)
    )
      this.#layBands();
    if (!this.hasUpdated) this.#readContent();
    if (changes.has('defaultBoard') && this.defaultBoard !== '') {
      if (this.hasUpdated) {
        const board = this.#read(this.defaultBoard);
        if (board) this.#lay(board);
      } else this.#layStart();
    }
  }

  protected override firstUpdated(): void {
    this.#internals.role = 'group';
  }

  protected override updated(): void {
    this.#internals.ariaLabel = this.say('buckets.label');
    this.#syncForm();
    this.#focusNext?.()?.focus();
    this.#focusNext = undefined;
    if (!this.#readyDue || this.isUpdatePending) return;
    this.#readyDue = false;
    this.dispatchEvent(new ReadyEvent());
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
    code: 'BoardError' | 'BoardBands' | 'BoardColours',
    values: Record<string, string | number> = {},
  ): void {
    const faults = (thrown as { faults?: Reason[] } | undefined)?.faults ?? [];
    const first: Reason | undefined = faults[0];
    const fault = first ? this.tell(first) : '';
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

  /** The bands of the attributes, or the usual ones. */
  #ownBands(): Board['bands'] {
    try {
      return bandsFromAttributes(this.bands, this.limits, PAPER);
    } catch {
      return bandsFromAttributes('', '', PAPER);
    }
  }

  /** The attributes name other bands: swatches stay in their buckets as far as there are any. */
  #layBands(): void {
    const bands = this.#attributeBands();
    if (!bands) return;
    this.trouble = '';
    const { swatches } = this.store.plan.board;
    this.#lay({
      bands,
      swatches: swatches.map((swatch) => ({
        ...swatch,
        bucket: Math.min(swatch.bucket, bands.length - 1),
      })),
    });
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
      const { swatches, unknown } = swatchesFromContent(written.swatches, bands);
      this.#content = { bands, swatches };
      if (unknown.length > 0)
        this.#fail(undefined, 'BoardColours', { count: unknown.length, names: unknown.join(', ') });
    } else return;
    if (this.defaultBoard === '' && this.store.plan.board.swatches.length === 0) this.#layStart();
  };

  /** Puts a board that the page gives in place of the present one: no step of undo. */
  #lay(board: Board): void {
    if (JSON.stringify(board) === JSON.stringify(this.store.plan.board)) return;
    this.#closeAll();
    this.judged = undefined;
    this.#readyDue = true;
    if (!this.tied) this.store.restore(planWithBoard(this.store.plan, board));
    else {
      this.store.amend('board', (plan) => planWithBoard(plan, board));
      // The photo must not propose other limits for the bands that the page gives.
      this.store.fixLimits(limitsOf(board.bands));
      this.store.amend('board', (plan) => (plan.board === board ? plan : { ...plan, board }));
    }
    this.requestUpdate();
  }

  // What is shown and judged

  get #open(): boolean {
    return !this.disabled && !this.fieldsetDisabled && !this.readonly;
  }

  get #told(): boolean {
    return (
      this.reveal === 'always' ||
      (this.reveal === 'submit' && this.judged === this.store.plan.board)
    );
  }

  /** The present board under a teacher's rules, and its verdict. */
  #now(): { ruled: Board; verdict: BoardVerdict } {
    const { tolerance, locked } = this;
    const board = this.#pending ?? this.store.plan.board;
    const paper = this.store.plan.paper.lightness;
    const old = this.#memo;
    if (
      old &&
      old.board === board &&
      old.tolerance === tolerance &&
      old.locked === locked &&
      old.paper === paper
    )
      return old;
    const allowed =
      tolerance !== undefined && tolerance >= 0 && tolerance <= 100 ? tolerance : undefined;
    const ruled = ruledBoard(board, { tolerance: allowed, locked });
    this.#memo = { board, tolerance, locked, paper, ruled, verdict: judgeBoard(ruled, { paper }) };
    return this.#memo;
  }

  #syncForm(): void {
    const { ruled, verdict } = this.#now();
    this.#internals.setFormValue(
      documentText(ruled, verdict),
      JSON.stringify(this.store.plan.board),
    );
    const lacks = lacksOf(ruled, requiredCounts(this.required, ruled.bands.length));
    const faults = faultsOf(verdict);
    this.#setState('empty', ruled.swatches.length === 0);
    this.#setState('faults', faults.length > 0);
    this.#setState('complete', lacks.length === 0);
    this.#setState('told', this.#told);
    const at = (bucket: number): HTMLElement | undefined =>
      this.hasUpdated
        ? (this.renderRoot.querySelector<HTMLElement>(`[data-add="${bucket}"]`) ?? undefined)
        : undefined;
    if (this.readonly) this.#internals.setValidity({});
    else if (lacks.length > 0) {
      const { bucket, found, required } = lacks[0];
      this.#internals.setValidity(
        { valueMissing: true },
        this.say('validity.lack', { band: ruled.bands[bucket].name, missing: required - found }),
        at(bucket),
      );
    } else if (this.validate === 'require' && faults.length > 0) {
      const id = faults[0];
      const said = verdict.swatches.find((each) => each.id === id)!;
      const text = this.say('validity.fault', {
        swatch: this.#nameOf(id),
        verdict: this.say(`verdict.${said.verdict}`),
        count: faults.length - 1,
      });
      this.#internals.setValidity(
        { customError: true },
        text,
        at(ruled.swatches.find((each) => each.id === id)!.bucket),
      );
    } else this.#internals.setValidity({});
  }

  #setState(name: string, on: boolean): void {
    try {
      if (on) this.#internals.states.add(name);
      else this.#internals.states.delete(name);
    } catch {
      // An engine without custom states, or one that still wants dashes: the element works without them.
    }
  }

  #nameOf = (id: string): string => {
    const swatch = this.store.plan.board.swatches.find((each) => each.id === id);
    return labelOf(swatch, this.say('buckets.unnamed'));
  };

  #sum(): string {
    const { ruled, verdict } = this.#now();
    const count = ruled.swatches.length;
    const lacks =
      this.required === null
        ? 0
        : lacksOf(ruled, requiredCounts(this.required, ruled.bands.length)).length;
    const lack = lacks > 0 ? ` ${this.say('buckets.sum-lack', { count: lacks })}` : '';
    if (count === 0) return this.say('buckets.sum-none') + lack;
    if (!this.#told)
      return (
        this.say(this.reveal === 'never' ? 'buckets.sum-hidden' : 'buckets.sum-submit', { count }) +
        lack
      );
    const { faults, open } = countsOf(verdict);
    return (
      this.say(faults + open === 0 ? 'buckets.sum-fine' : 'buckets.sum', { count, faults, open }) +
      lack
    );
  }

  // What a person does

  /** Changes the board as one step of undo, tells screen readers, and fires `board-change`. */
  #act(
    what: BoardAct,
    make: (plan: Plan) => Plan,
    { said, swatch = '' }: { said: (board: Board) => string; swatch?: string },
  ): void {
    const before = this.store.plan;
    this.store.change(`board-${what}`, make);
    if (this.store.plan === before) return;
    const { ruled, verdict } = this.#now();
    const told = verdict.swatches.find(({ id }) => id === swatch);
    const on = ruled.swatches.find(({ id }) => id === swatch);
    const word = this.#told && told && on ? ` ${this.say(`verdict.${markOf(on, told)}`)}.` : '';
    this.announce(`${said(ruled)}${word}${this.#told ? ` ${this.#sum()}` : ''}`);
    this.#fire(what, swatch);
  }

  #fire(what: BoardAct, swatch = ''): void {
    const { ruled, verdict } = this.#now();
    this.dispatchEvent(
      new BoardChangeEvent(structuredClone(ruled), structuredClone(verdict), what, swatch),
    );
  }

  #changeBoard(
    what: BoardAct,
    make: (board: Board) => Board,
    told: { said: (board: Board) => string; swatch?: string },
  ): void {
    this.#act(
      what,
      (plan) => {
        const board = make(plan.board);
        return board === plan.board ? plan : { ...plan, board };
      },
      told,
    );
  }

  #placeWords(
    board: Board,
    id: string,
  ): { name: string; band: string; place: number; count: number } {
    const at = placeOf(board, id) ?? { bucket: 0, place: 0 };
    return {
      name: this.#nameOf(id),
      band: board.bands[at.bucket]?.name ?? '',
      place: at.place + 1,
      count: swatchesIn(board, at.bucket).length,
    };
  }

  /** A dragged swatch was let go. */
  dropped(id: string, to: Place): void {
    if (!this.#open) return;
    this.#focusNext ??= () => this.#dabOf(id);
    this.#changeBoard('move', (board) => withSwatchMoved(board, id, to), {
      said: (board) => this.say('dab.laid', this.#placeWords(board, id)),
      swatch: id,
    });
  }

  #moveTo(id: string, bucket: number): void {
    const { board } = this.store.plan;
    if (placeOf(board, id)?.bucket === bucket) return;
    this.#focusNext = () =>
      this.#dabOf(id)?.closest('.card')?.querySelector<HTMLElement>('[data-move]') ?? null;
    this.dropped(id, { bucket, place: swatchesIn(board, bucket).length });
  }

  #edit(id: string, patch: SwatchPatch): void {
    this.#changeBoard('edit', (board) => withSwatchChanged(board, id, patch), {
      said: () => this.say('dab.edited', { name: this.#nameOf(id) }),
      swatch: id,
    });
  }

  #remove(id: string): void {
    const { board } = this.store.plan;
    const at = placeOf(board, id);
    if (!at || !this.#open) return;
    const name = this.#nameOf(id);
    const next = swatchesIn(board, at.bucket).filter((swatch) => swatch.id !== id);
    const near = next[Math.min(at.place, next.length - 1)]?.id;
    if (this.openForm?.kind === 'swatch') this.openForm = undefined;
    this.lift = undefined;
    this.#focusNext = () =>
      near === undefined
        ? this.renderRoot.querySelector<HTMLElement>(`[data-add="${at.bucket}"]`)
        : this.#dabOf(near);
    this.#changeBoard('remove', (each) => withSwatchRemoved(each, id), {
      said: () => this.say('dab.deleted', { name }),
      swatch: id,
    });
  }

  #addColour(bucket: number): void {
    const { css, name } = this.colour;
    const { board } = this.store.plan;
    if (css.trim() === '') return this.#refuse('add.missing');
    if (board.swatches.length >= MOST_SWATCHES) return this.#refuse('add.full');
    const id = freeId(board.swatches);
    let swatch: ReturnType<typeof swatchOfCss>;
    try {
      swatch = swatchOfCss(css, { id, bucket, name: name.trim(), from: 'typed' });
    } catch {
      return this.#refuse('add.unknown', { css: css.trim() });
    }
    this.colour = NO_COLOUR;
    this.#focusNext = () => this.renderRoot.querySelector<HTMLElement>('[data-first]');
    this.#changeBoard('add', (each) => withSwatchAdded(each, swatch), {
      said: (each) => this.say('dab.added', this.#placeWords(each, id)),
      swatch: id,
    });
  }

  #refuse(key: string, values: Record<string, string> = {}): void {
    this.colour = { ...this.colour, fault: this.say(key, values) };
    this.#focusNext = () => this.renderRoot.querySelector<HTMLElement>('[data-first]');
  }

  #show(form: OpenForm | undefined): void {
    const before = this.openForm;
    this.openForm = form;
    this.colour = NO_COLOUR;
    if (form)
      this.#focusNext = () =>
        this.renderRoot.querySelector<HTMLElement>('[data-first], [data-limit]');
    else if (before?.kind === 'add')
      this.#focusNext = () =>
        this.renderRoot.querySelector<HTMLElement>(`[data-add="${before.bucket}"]`);
    else if (before?.kind === 'swatch') this.#focusNext = () => this.#dabOf(before.id);
  }

  #closeAll(): void {
    this.openForm = undefined;
    this.lift = undefined;
    this.#drag.giveUp();
  }

  // Bands

  #bandMay = (
    bucket: number,
  ): { name: boolean; limit: boolean; split: boolean; remove: boolean } => {
    const { bands } = this.#now().ruled;
    const free = (each: number): boolean => bands[each] !== undefined && !bands[each].locked;
    const neighbour = bucket === bands.length - 1 ? bucket - 1 : bucket + 1;
    const meet = bandsMeet(bands);
    return {
      name: free(bucket),
      limit: meet && free(bucket) && free(bucket + 1),
      split:
        meet &&
        free(bucket) &&
        bands.length < MOST_BANDS &&
        bands[bucket].ceiling - bands[bucket].floor >= 4,
      remove: meet && bands.length > 2 && free(bucket) && free(neighbour),
    };
  };

  #changeBands(make: (plan: Plan) => Plan, said: string): void {
    this.#act('band', make, { said: () => said });
  }

  #nameBand(bucket: number, name: string): void {
    if (name !== '')
      this.#changeBands(
        (plan) => withBandNamed(plan, bucket, name),
        this.say('band.renamed', { name }),
      );
    else this.requestUpdate();
  }

  #limitBand(bucket: number, value: number): void {
    if (!Number.isFinite(value)) return this.requestUpdate();
    const lightness = Math.round(lightnessOfMunsell(Math.min(10, Math.max(0, value))) * 100) / 100;
    const { bands } = this.store.plan.board;
    this.#changeBands(
      (plan) => withLimitMoved(plan, bucket, lightness),
      this.say('band.moved', { name: bands[bucket].name, to: tenth(value) }),
    );
  }

  #splitBand(bucket: number): void {
    const { bands } = this.store.plan.board;
    const { name, floor, ceiling } = bands[bucket];
    const fresh = this.say('band.fresh', { name }).slice(0, 120);
    this.#changeBands(
      (plan) => withBandAdded(plan, bucket, fresh, (floor + ceiling) / 2),
      this.say('band.splitted', { name }),
    );
  }

  #removeBand(bucket: number): void {
    const { name } = this.store.plan.board.bands[bucket];
    this.openForm = undefined;
    this.#focusNext = () =>
      this.renderRoot.querySelector<HTMLElement>('.head button:not(:disabled)');
    this.#changeBands((plan) => withBandRemoved(plan, bucket), this.say('band.removed', { name }));
  }

  // Undo, keys

  #step(what: 'undo' | 'redo'): void {
    const { board } = this.store.plan;
    const focused = this.shadowRoot?.activeElement;
    const id = focused instanceof HTMLElement ? focused.dataset.dab : undefined;
    this.#closeAll();
    if (what === 'undo') this.store.undo();
    else this.store.redo();
    // The focus stays on a dab that has moved; of a button that has had its day it goes to the other one.
    const near = (): HTMLElement | null =>
      this.renderRoot.querySelector<HTMLElement>('.head button:not(:disabled)');
    if (id !== undefined) this.#focusNext = () => this.#dabOf(id) ?? near();
    else if (focused instanceof HTMLButtonElement)
      this.#focusNext = () => (focused.disabled || !focused.isConnected ? near() : focused);
    this.announce(
      `${this.say(what === 'undo' ? 'dab.undone' : 'dab.redone')}${this.#told ? ` ${this.#sum()}` : ''}`,
    );
    if (this.store.plan.board !== board) this.#fire(what);
  }

  #onKey = (event: KeyboardEvent): void => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || !this.#open) return;
    const key = event.key.toLowerCase();
    if (key !== 'z' && key !== 'y') return;
    const origin = event.composedPath()[0];
    if (origin instanceof HTMLInputElement || origin instanceof HTMLTextAreaElement) return;
    const what = key === 'y' || event.shiftKey ? 'redo' : 'undo';
    if (what === 'undo' ? !this.store.canUndo : !this.store.canRedo) return;
    event.preventDefault();
    this.#step(what);
  };

  #keyOnDab(event: KeyboardEvent, id: string): void {
    const { key } = event;
    if (event.ctrlKey || event.metaKey || event.altKey || this.#drag.now) return;
    const lifted = this.lift?.id === id;
    if (key === ' ' || key === 'Enter') {
      event.preventDefault();
      if (lifted) this.#putDown();
      else this.#pickUp(id);
    } else if (key === 'Escape' && lifted) {
      event.preventDefault();
      event.stopPropagation();
      this.#putBack();
    } else if (key === 'Delete' || key === 'Backspace') {
      event.preventDefault();
      this.#remove(id);
    } else {
      const step = stepOfKey(key, getComputedStyle(this).direction === 'rtl');
      if (!step) return;
      event.preventDefault();
      this.#stepFrom(id, step);
    }
  }

  /** A picked-up swatch goes a step; else the focus goes to the next dab that way. */
  #stepFrom(id: string, step: Parameters<typeof stepped>[2]): void {
    const { board } = this.store.plan;
    if (this.lift?.id === id) {
      const shown = withSwatchMoved(board, id, this.lift.to);
      const to = stepped(shown, placeOf(shown, id)!, step);
      this.lift = { id, to };
      this.#focusNext = () => this.#dabOf(id);
      this.announce(this.say('dab.at', this.#placeWords(withSwatchMoved(board, id, to), id)));
      return;
    }
    const { bucket, place } = stepped(board, placeOf(board, id)!, step);
    const list = swatchesIn(board, bucket);
    const next = list[Math.min(place, list.length - 1)];
    if (next) this.#dabOf(next.id)?.focus();
  }

  #pickUp(id: string): void {
    this.openForm = undefined;
    this.lift = { id, to: placeOf(this.store.plan.board, id)! };
    this.announce(this.say('dab.lifted', { name: this.#nameOf(id) }));
  }

  #putDown(): void {
    if (!this.lift) return;
    const { id, to } = this.lift;
    this.lift = undefined;
    this.#focusNext = () => this.#dabOf(id);
    this.dropped(id, to);
  }

  #putBack(): void {
    if (!this.lift) return;
    const { id } = this.lift;
    this.lift = undefined;
    this.#focusNext = () => this.#dabOf(id);
    const { name, band } = this.#placeWords(this.store.plan.board, id);
    this.announce(this.say('dab.back', { name, band }));
  }

  /** The focus left a dab: a picked-up one goes back, unless it only moved on the page. */
  #leaveDab(id: string): void {
    if (this.pointed === id) this.pointed = undefined;
    if (this.lift?.id !== id) return;
    void this.updateComplete.then(() => {
      const focused = this.shadowRoot?.activeElement;
      if (this.lift?.id !== id || (focused instanceof HTMLElement && focused.dataset.dab === id))
        return;
      this.lift = undefined;
      const { name, band } = this.#placeWords(this.store.plan.board, id);
      this.announce(this.say('dab.back', { name, band }));
    });
  }

  #dabOf(id: string): HTMLElement | null {
    return (
      [...this.renderRoot.querySelectorAll<HTMLElement>('[data-dab]')].find(
        ({ dataset }) => dataset.dab === id,
      ) ?? null
    );
  }

  #onSubmit = (): void => this.judge();
  #onInvalid = (): void => this.judge();

  // Rendering

  #view(): BoardView {
    const { ruled, verdict: judgedNow } = this.#now();
    const paper = this.store.plan.paper.lightness;
    const { now: drag } = this.#drag;
    const board = this.lift ? withSwatchMoved(ruled, this.lift.id, this.lift.to) : ruled;
    const verdict = this.#told
      ? board === ruled
        ? judgedNow
        : judgeBoard(board, { paper })
      : undefined;
    return {
      board,
      verdict,
      verdicts: new Map(verdict?.swatches.map((each) => [each.id, each])),
      paper,
      greys: this.greys,
      open: this.#open,
      form: this.#open || this.openForm?.kind === 'swatch' ? this.openForm : undefined,
      colour: this.colour,
      required:
        this.required === null ? undefined : requiredCounts(this.required, board.bands.length),
      lifted: this.lift?.id,
      pointed: this.pointed,
      drag,
      dragging: this.#drag,
      say: (key, values) => this.say(key, values),
      tell: (reason) => this.tell(reason),
      number: (value) => formatNumber(value, this.locale, 1),
      nameOf: this.#nameOf,
      show: (form) => this.#show(form),
      point: (id) => (this.pointed = id),
      keyOnDab: (event, id) => this.#keyOnDab(event, id),
      leaveDab: (id) => this.#leaveDab(id),
      setColour: (change) => (this.colour = { ...this.colour, ...change }),
      addColour: (bucket) => this.#addColour(bucket),
      edit: (id, patch) => this.#edit(id, patch),
      move: (id, bucket) => this.#moveTo(id, bucket),
      remove: (id) => this.#remove(id),
      nameBand: (bucket, name) => this.#nameBand(bucket, name),
      limitBand: (bucket, value) => this.#limitBand(bucket, value),
      splitBand: (bucket) => this.#splitBand(bucket),
      removeBand: (bucket) => this.#removeBand(bucket),
      bandMay: this.#bandMay,
    };
  }

  override render() {
    const view = this.#view();
    const { bands } = view.board;
    return html`<div class=${`all${this.fieldsetDisabled || this.disabled ? ' off' : ''}`}>
        <slot name="caption"></slot>
        ${this.#renderHead(view)} ${this.#renderTrouble()}
        <div class="board of-${bands.length}" part="board">
          ${bands.map((_, bucket) => html`${bucket > 0 ? renderGap(view, bucket - 1) : nothing}${renderBucket(view, bucket)}`)}
        </div>
        ${renderPairs(view)}
        <p class="away" id="hint">${this.say('dab.hint')}</p>
      </div>
      <slot hidden @slotchange=${this.#readContent}></slot>
      ${this.#renderGhost(view)}`;
  }

  #renderHead(view: BoardView) {
    const asks =
      this.reveal === 'submit' && !this.form && !this.#told && view.board.swatches.length > 0;
    return html`<div class="head" part="toolbar">
      ${
        view.open
          ? html`<button
                type="button"
                data-undo
                ?disabled=${!this.store.canUndo}
                @click=${() => this.#step('undo')}
              >
                ${icon('undo')}<span>${this.say('buckets.undo')}</span>
              </button>
              <button
                type="button"
                data-redo
                ?disabled=${!this.store.canRedo}
                @click=${() => this.#step('redo')}
              >
                ${icon('redo')}<span>${this.say('buckets.redo')}</span>
              </button>`
          : nothing
      }
      <button
        type="button"
        data-greys
        aria-pressed=${this.greys}
        @click=${() => (this.greys = !this.greys)}
      >
        ${icon('eye')}<span>${this.say('buckets.greys')}</span>
      </button>
      ${asks ? html`<button type="button" @click=${() => this.judge()}>${icon('check')}<span>${this.say('buckets.judge')}</span></button>` : nothing}
      <p class="sum">${this.#sum()}</p>
    </div>`;
  }

  #renderTrouble() {
    if (this.trouble === '') return nothing;
    return html`<div class="trouble" part="trouble" role="alert">
      <span>${this.trouble}</span>
      <button type="button" class="quiet" @click=${() => (this.trouble = '')}>
        ${icon('close')}<span>${this.say('buckets.forgive')}</span>
      </button>
    </div>`;
  }

  /** The dab under the pointer, with the verdict it would get there. */
  #renderGhost({ drag, board, paper, greys, verdict }: BoardView) {
    const swatch = drag && board.swatches.find(({ id }) => id === drag.id);
    if (!drag || !swatch) return nothing;
    const would = drag.over && withSwatchMoved(board, drag.id, drag.over);
    const said =
      verdict && would && judgeBoard(would, { paper }).swatches.find(({ id }) => id === drag.id);
    return html`<div class="ghost" aria-hidden="true">
      <svg class="dab" viewBox="0 0 120 76" preserveAspectRatio="none">
        ${dab(swatch.id, paintOf(swatch, greys))}
      </svg>
      ${said ? html`<span>${this.say('dab.value', { value: munsellValue(swatch.lightness) })}, ${this.say(`verdict.${markOf(swatch, said)}`)}</span>` : nothing}
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'swatch-bucket-board': SwatchBucketBoard;
  }
}
