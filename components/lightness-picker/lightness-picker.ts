import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { query } from 'lit/decorators.js';
import {
  bandAt,
  leanOf,
  munsellValue,
  type BoardSwatch,
  type Crop,
  type Reading,
  type SavedReading,
  type Spot,
} from '../shared/core.js';
import { ReadingEvent } from '../shared/events/reading.js';
import { ReadingSendEvent } from '../shared/events/reading-send.js';
import { ReadyEvent } from '../shared/events/ready.js';
import { PictureIntake, type PictureLike } from '../shared/picture-intake.js';
import { reasonOf, type StorePlanEvent } from '../shared/plan-store.js';
import { LaterPart } from '../shared/later-part.js';
import { formatNumber, type Words } from '../shared/strings.js';
import { controls, tokens } from '../shared/tokens.js';
import { pickerFirstWords } from '../shared/words/picker-first.js';
import { GREYS, type CardGrey } from './greys.js';
import { ColourControl } from './colour-control.js';
import {
  aspectOf,
  cardSide,
  HOLE_MM,
  holeOnStage,
  holeSize,
  keptOn,
  middleOf,
  onStage,
  percentsOf,
  radiusOf,
  WHOLE,
  type Box,
  type Sheet,
} from './geometry.js';
import type { HandView, HoleHand } from './hole-hand.js';
import { bandName, colourOf } from './judgement.js';
import { LatestReading, type Ask } from './latest-reading.js';
import { styles } from './lightness-picker.styles.js';
import { NearViewport } from '../shared/near-viewport.js';
import {
  freshId,
  savedReading,
  swatchOf,
  withNote,
  withoutGuesses,
  withoutReading,
  withReading,
  withSwatch,
} from './readings.js';
import { property, state } from '../shared/property.js';
import { put } from '../shared/put.js';
import { guessAsLightness, guessVerdict, type Guess } from './training.js';
import type * as Work from './work.js';

let count = 0;

/**
 * @summary A neutral card with a hole, moved over a photo: the value of one spot alone, its band and its lean, and a list of readings.
 *
 * The hole has its size on the paper, so it reads what a brush would state. Tied to a plan it shows the plan's photo, keeps its
 * readings with the plan and sends them to the plan's board; alone it has a plan of its own. As a form control its value is
 * the CSS colour of the last reading that a person took.
 *
 * @tag lightness-picker
 *
 * @slot - What is shown before the element is ready or without script; the first `<img>` in it is the picture when there is no `src` and no plan.
 *
 * @fires {Event} input - The hole moved by a person and was read; follows the hole.
 * @fires {Event} change - A person took a reading; `value` is its colour.
 * @fires {ReadingEvent} reading - The same, with the reading itself.
 * @fires {ReadingSendEvent} reading-send - A person sent a reading to the board.
 * @fires {PictureChangeEvent} picture-change - A person opened another picture.
 * @fires {ReadyEvent} ready - A picture can be read at its full resolution.
 * @fires {KitErrorEvent} error - A picture could not be opened or read; `message` is the sentence that is shown.
 *
 * @csspart frame - All of the element.
 * @csspart stage - The photo with the card on it.
 * @csspart card - The card.
 * @csspart hole - The hole, which takes the keys.
 * @csspart loupe - The enlarged hole beside a finger.
 * @csspart panel - The reading.
 * @csspart tools - What can be set about hole and card.
 * @csspart spot - The spot alone, enlarged.
 * @csspart value - The value, one number.
 * @csspart band - The name of its band.
 * @csspart ladder - The ladder of grey dabs.
 * @csspart dab - A dab of it.
 * @csspart remarks - What should be known of the reading.
 * @csspart details - Lightness, lean, spread, colour and place.
 * @csspart readings - The kept readings.
 * @csspart kept - One of them.
 * @csspart training - What the guesses tell.
 * @csspart empty - What is shown while there is no picture.
 * @csspart open-button - Opens a file.
 * @csspart camera-button - Takes a photo.
 * @csspart paste-button - Pastes a picture.
 * @csspart trouble - The sentence of a fault.
 * @csspart progress - How far the opening has come.
 * @csspart icon - A drawing beside a word.
 *
 * @cssproperty [--tonewell-picker-height=min(70vh, 640px)] - The greatest height of the photo.
 * @cssproperty --tonewell-paper - Background of the page.
 * @cssproperty --tonewell-sheet - Background of controls.
 * @cssproperty --tonewell-ink - Text.
 * @cssproperty --tonewell-ink-soft - Lesser text.
 * @cssproperty --tonewell-line - Hairlines.
 * @cssproperty --tonewell-edge - Borders of controls.
 * @cssproperty --tonewell-press - Background of a control under the pointer.
 * @cssproperty --tonewell-surround - Neutral grey about the photo.
 * @cssproperty --tonewell-font - Typeface.
 *
 * @cssstate ready - A picture is shown.
 * @cssstate moving - The hole is being dragged.
 * @cssstate guessing - A value is to be said before it is shown.
 */
export class LightnessPicker extends ColourControl {
  static override readonly tag = 'lightness-picker';
  static override readonly words: Words = pickerFirstWords;
  static override styles = [tokens, controls, styles];

  readonly #intake = new PictureIntake(this);
  readonly #viewport = new NearViewport(this, () => {
    this.#begin();
    void this.#part.fetch();
  });
  readonly #part = new LaterPart(
    this,
    () => import('./work.js'),
    (work) => this.#takeUp(work),
  );
  readonly #key = `reading ${++count}`;
  readonly #reader = new LatestReading(
    (ask) => this.#run(ask),
    (reading, ask) => this.#got(reading, ask),
    (thrown) => this.store.fail(reasonOf(thrown)),
  );
  @query('.photo') private photoCanvas!: HTMLCanvasElement | null;
  @query('.stage') private stageElement!: HTMLElement | null;
  @query('.card') private cardElement!: HTMLElement | null;
  @query('.card > canvas') private cardCanvas!: HTMLCanvasElement | null;
  @query('.hole') private holeElement!: HTMLElement | null;
  @query('.spot') private spotCanvas!: HTMLCanvasElement | null;
  @query('.loupe') private loupeCanvas!: HTMLCanvasElement | null;

  /** The middle of the hole. */
  @state() private spot: Spot = [0.5, 0.5];
  /** The last reading, and where it was taken. */
  @state() private last?: { reading: Reading; ask: Ask };
  @state() private stage: Box = { width: 0, height: 0 };
  /** The guess being made, the one that was stated for the spot, and all of this visit. */
  @state() private guessing = 5;
  @state() private stated?: number;
  @state() private made: readonly Guess[] = [];
  @state() private hasContent = false;
  /** What was just done, in a sentence, and whether it can be taken back. */
  @state() private done = '';
  @state() private undoable = false;
  /** Whether a person has moved the hole: the hint on how is then no longer shown. */
  @state() private handled = false;

  /** What a photo is read with, and the hand on its card; both come later. */
  #work?: typeof Work;
  #hand?: HoleHand;

  #grey: CardGrey = 'middle';
  /** Whether the next reading is due to a person's act, and whether it is to be taken. */
  #person = false;
  #take = false;
  #sizes?: ResizeObserver;
  #measured?: HTMLElement;
  /** The photo as it is shown, the part of it that this is, and what was last drawn. */
  #bitmap?: ImageBitmap;
  #bitmapCrop: Crop = WHOLE;
  #drawn: readonly unknown[] = [];
  /** The picture in hand, the one told by `ready`, and what the page gave last. */
  #handle?: unknown;
  #readyFor?: unknown;
  #begun?: string | PictureLike;

  /** Address of the picture. */
  @property() src = '';

  /** The picture itself: a Blob or File, an ImageBitmap, ImageData, a canvas or an image; goes before `src`. */
  @property({ attribute: false }) picture: PictureLike | null = null;

  /** What the photo shows, for those who do not see it. */
  @property() alt = '';

  /** Diameter of the hole on the paper, mm: 0.5 to 200. */
  @property({ type: Number }) hole: number = HOLE_MM.usual;

  /** Whether the value has to be guessed before it is shown. */
  @property({ type: Boolean, reflect: true }) guess = false;

  /** Whether lightness, lean, spread, colour and place are shown. */
  @property({ type: Boolean, reflect: true }) details = false;

  /** The card's grey: `light`, `middle`, `dark`, `same` (that of the value read), or `away` (turned away). */
  @property({ reflect: true }) card: CardGrey | 'away' = 'middle';

  /** The middle of the hole, in fractions of the upright photo. */
  get at(): Spot {
    return [this.spot[0], this.spot[1]];
  }
  set at(at: Spot) {
    this.moveTo(at);
  }

  /** The reading under the hole; missing before one is made and while a guess is awaited. */
  get reading(): Reading | undefined {
    return this.#hidden ? undefined : this.last?.reading;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.addEventListener('click', this.#onHostClick);
    this.#measured = undefined;
    this.requestUpdate();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.removeEventListener('click', this.#onHostClick);
    this.#sizes?.disconnect();
    this.#reader.drop();
  }

  protected override willUpdate(changes: PropertyValues<this>): void {
    super.willUpdate(changes);
    if (changes.has('card')) {
      const grey = GREYS.find((each) => each === this.card);
      if (grey) this.#grey = grey;
      else if (this.card !== 'away') this.card = 'middle';
    }
    if (changes.has('hole')) {
      this.hole = holeSize(this.hole);
      if (this.last && this.last.ask.holeMm !== this.hole) this.#ask();
    }
    if (changes.has('guess')) this.stated = undefined;
  }

  protected override updated(changes: PropertyValues<this>): void {
    super.updated(changes);
    if (changes.has('src') || changes.has('picture')) this.#begin();
    this.#measure();
    this.#draw();
    this.mark('ready', this.#work !== undefined && this.#bitmap !== undefined);
    this.mark('guessing', this.#hidden);
  }

  protected override planChanged(event?: StorePlanEvent): void {
    super.planChanged(event);
    if (event) {
      const { plan, previous } = event;
      this.done = '';
      const cropped = plan.crop !== previous.crop;
      const resized = plan.paper.widthMm !== previous.paper.widthMm;
      if (cropped) this.spot = keptOn(this.spot, plan.crop ?? WHOLE);
      if (!cropped && !resized && plan.distrusted === previous.distrusted) return;
    }
    this.#ask();
  }

  protected override pictureChanged(): void {
    super.pictureChanged();
    const { handle, bitmap, exact } = this.store.picture;
    if (bitmap !== this.#bitmap) {
      this.#bitmap = bitmap;
      this.#bitmapCrop = (exact && this.store.plan.crop) || WHOLE;
    }
    if (handle !== this.#handle) {
      this.#handle = handle;
      this.#reader.drop();
      this.#person = false;
      this.#take = false;
      this.last = undefined;
      this.stated = undefined;
      this.done = '';
      this.spot = middleOf(this.store.plan.crop ?? WHOLE);
      this.#ask();
    }
    this.#tellReady();
    void this.#intake.tellFault(this.store.picture);
  }

  protected override needReader(): void {
    void this.#part.fetch();
  }

  override formResetCallback(): void {
    this.stated = undefined;
    super.formResetCallback();
  }

  protected override get missingMessage(): string {
    return this.say(this.guess ? 'picker.required-guess' : 'picker.required');
  }

  protected override get anchor(): HTMLElement | null {
    return this.holeElement;
  }

  /** Whether the value must not be seen yet. */
  get #hidden(): boolean {
    return this.guess && this.stated === undefined;
  }

  get #crop(): Crop {
    return this.store.plan.crop ?? WHOLE;
  }

  get #sheet(): Sheet | undefined {
    const { handle } = this.store.picture;
    if (!handle) return undefined;
    const photo = { width: handle.width, height: handle.height };
    return { photo, crop: this.#crop, paperWidthMm: this.store.plan.paper.widthMm };
  }

  #takeUp(work: typeof Work): void {
    this.adopt({ ...work.unitsFilesWords, ...work.pickerWords }, work.workStyles);
    this.#work = work;
    this.#hand = new work.HoleHand({
      look: () => this.#look(),
      moved: (spot) => this.#moved(spot),
      rested: () => this.#rested(),
      resized: (mm) => this.#resized(mm),
      entered: () => this.#entered(),
      turned: () => this.#turn(),
      changed: () => {
        this.mark('moving', this.#hand!.dragging);
        this.requestUpdate();
      },
    });
    this.readBy(work.lightnessOf);
    this.#tellReady();
  }

  /** Tells once a picture that it is shown and can be read. */
  #tellReady(): void {
    const { handle, exact, status } = this.store.picture;
    if (!this.#work || status !== 'ready' || !exact || !handle || handle === this.#readyFor) return;
    this.#readyFor = handle;
    void this.updateComplete.then(() => this.dispatchEvent(new ReadyEvent()));
  }

  /** Opens what the page gives, once the element is near the viewport. */
  #begin(): void {
    if (!this.#viewport.near) return;
    const keepPlan = this.store.picture.handle === undefined;
    const image =
      this.tied || this.store.picture.status !== 'empty' ? null : this.querySelector('img');
    const wanted = this.picture ?? (this.src || image?.currentSrc || image?.src);
    if (!wanted || wanted === this.#begun) return;
    this.#begun = wanted;
    if (typeof wanted === 'string') void this.#intake.load(wanted, keepPlan);
    else void this.#intake.take(wanted, undefined, keepPlan);
  }

  async #run({ at, holeMm }: Ask): Promise<Reading> {
    const sheet = this.#sheet;
    if (!sheet) throw new DOMException('The picture was put aside.', 'AbortError');
    return this.store.run('reading', { at, radius: radiusOf(holeMm, sheet) }, { key: this.#key });
  }

  #ask(): void {
    if (!this.#sheet || !this.isConnected) return;
    this.#reader.ask({ at: this.spot, holeMm: holeSize(this.hole) });
  }

  #got(reading: Reading, ask: Ask): void {
    this.last = { reading, ask };
    if (this.#person) this.dispatchEvent(new Event('input', { bubbles: true, composed: true }));
    if (this.#hand?.dragging || this.#reader.pending) return;
    this.#person = false;
    if (this.#take) this.#takeReading();
  }

  /** Makes the reading under the hole the value, unless its guess is still due. */
  #takeReading(): void {
    const { last } = this;
    this.#take = false;
    if (!last || this.#hidden) return;
    const { reading, ask } = last;
    const { css, lightness } = colourOf(reading);
    this.takeColour(css, lightness);
    const at: Spot = [ask.at[0], ask.at[1]];
    const band = bandAt(this.store.plan, lightness);
    const value = munsellValue(lightness);
    this.dispatchEvent(new ReadingEvent(reading, at, band, value, ask.holeMm, this.stated));
  }

  #look(): HandView | undefined {
    const { stageElement, cardElement, holeElement, stage, spot, hole } = this;
    if (!stageElement || !cardElement || !holeElement || stage.width === 0) return undefined;
    return {
      stage: stageElement,
      card: cardElement,
      hole: holeElement,
      locked: this.locked,
      box: stage,
      crop: this.#bitmapCrop,
      sheet: this.#sheet,
      spot,
      holeMm: hole,
    };
  }

  /** Moves the hole by a person's act; the reading is taken when it comes to rest. */
  #moved(spot: Spot): void {
    this.#person = true;
    this.#take = false;
    this.handled = true;
    this.done = '';
    this.stated = undefined;
    this.spot = spot;
    this.#place();
    this.#ask();
  }

  #rested(): void {
    this.#take = true;
    if (this.#reader.pending) return;
    this.#person = false;
    this.#takeReading();
  }

  #resized(mm: number): void {
    this.hole = holeSize(mm);
    this.#moved(this.spot);
    this.#rested();
  }

  /** Enter on the hole: takes the reading, or goes on to the guess. */
  #entered(): void {
    if (this.#hidden) this.renderRoot.querySelector<HTMLElement>('.ladder input')?.focus();
    else this.#rested();
  }

  #turn = (): void => {
    this.card = this.card === 'away' ? this.#grey : 'away';
  };

  #measure(): void {
    const stage = this.stageElement;
    if (!stage || stage === this.#measured || typeof ResizeObserver === 'undefined') return;
    this.#measured = stage;
    this.#sizes?.disconnect();
    this.#sizes = new ResizeObserver(([{ contentRect }]) => {
      const { width, height } = contentRect;
      if (width !== this.stage.width || height !== this.stage.height)
        this.stage = { width, height };
    });
    this.#sizes.observe(stage);
  }

  get #holePx(): number {
    return holeOnStage(this.hole, this.store.plan.paper.widthMm, this.stage);
  }

  #draw(): void {
    const { stage, photoCanvas, cardCanvas, spotCanvas, loupeCanvas, spot } = this;
    const bitmap = this.#bitmap;
    const work = this.#work;
    if (!work || !bitmap || bitmap.width === 0 || !photoCanvas || stage.width === 0) return;
    const wanted = [photoCanvas, bitmap, stage.width, stage.height];
    if (wanted.some((each, i) => each !== this.#drawn[i])) {
      work.drawPhoto(photoCanvas, bitmap, stage.width, stage.height);
      this.#drawn = wanted;
    }
    const hole = this.#holePx;
    const side = cardSide(hole, stage);
    const grey = work.cardLightness(this.#grey, this.reading?.lightness);
    this.cardElement?.style.setProperty('--_side', `${side}px`);
    this.cardElement?.style.setProperty('--_hole', `${hole}px`);
    if (cardCanvas && this.card === 'away') work.drawRim(cardCanvas, side, hole);
    else if (cardCanvas) work.drawCard(cardCanvas, side, hole, grey, this.lengthOf(this.hole));
    const { x, y, width, height } = this.#bitmapCrop;
    const seen = {
      x: (spot[0] - x) / width,
      y: (spot[1] - y) / height,
      diameter: hole / stage.width,
    };
    if (spotCanvas) work.drawSpot(spotCanvas, 120, bitmap, seen, grey);
    if (loupeCanvas) work.drawSpot(loupeCanvas, 128, bitmap, seen, grey);
    this.#place();
  }

  /** Puts the card where the hole is. */
  #place(): void {
    const { cardElement, stage } = this;
    if (!cardElement || stage.width === 0) return;
    const [x, y] = onStage(this.spot, stage, this.#bitmapCrop);
    const half = cardSide(this.#holePx, stage) / 2;
    cardElement.style.setProperty('transform', `translate(${x - half}px, ${y - half}px)`);
  }

  #say = (key: string, values?: Record<string, string | number>): string => this.say(key, values);

  /** A value with one decimal, in the reader's way of writing. */
  #figure = (value: number): string => formatNumber(value, this.locale, 1, false, true);

  #placeInWords(): string {
    return this.say('picker.at', percentsOf(this.spot, this.#crop));
  }

  /** Place and reading as a screen reader says them. */
  #spoken(): string {
    const at = this.#placeInWords();
    if (this.#hidden) return this.say('picker.spoken-hidden', { at });
    const { last } = this;
    if (!this.#work || !last || last.ask.at !== this.spot) return at;
    const { lightness } = last.reading;
    return this.say('picker.spoken', {
      at,
      value: this.#figure(munsellValue(lightness)),
      band: bandName(this.store.plan, lightness, this.say('picker.paper')),
      lean: this.#work.leanInWords(last.reading, this.#say),
    });
  }

  #onHostClick = (event: MouseEvent): void => {
    // A click on the element's label arrives here without a place inside.
    if (event.composedPath()[0] === this) this.holeElement?.focus();
  };

  #onSlot = (event: Event): void => {
    const nodes = (event.target as HTMLSlotElement).assignedNodes({ flatten: true });
    this.hasContent = nodes.some(
      (node) => node.nodeType === Node.ELEMENT_NODE || node.textContent?.trim(),
    );
    this.#begin();
  };

  #report(sentence: string, undoable = true): void {
    this.done = sentence;
    this.undoable = undoable;
    this.announce(sentence);
  }

  /** The guess is stated: the value is shown, and the reading is taken. */
  #state = (): void => {
    const { last, guessing } = this;
    if (!last || this.locked || this.#reader.pending) return;
    this.stated = guessing;
    const { lightness, lab, distrusted } = last.reading;
    if (!distrusted) {
      this.made = [
        ...this.made,
        { guess: guessing, value: munsellValue(lightness), lean: leanOf(lab).name },
      ];
    }
    this.announce(this.#verdict());
    this.holeElement?.focus({ preventScroll: true });
    this.#takeReading();
  };

  /** What became of the stated guess, in a sentence; empty when none was. */
  #verdict(): string {
    const { last, stated } = this;
    if (!last || stated === undefined) return '';
    const value = munsellValue(last.reading.lightness);
    const sentence = this.say(`picker.guess-${guessVerdict(stated, value)}`, {
      guess: this.#figure(stated),
      value: this.#figure(value),
      error: this.#figure(Math.abs(stated - value)),
    });
    return last.reading.distrusted ? `${sentence} ${this.say('picker.guess-untrusted')}` : sentence;
  }

  #goTo = ({ at, holeMm }: SavedReading): void => {
    this.hole = holeSize(holeMm);
    this.#moved(keptOn(at, this.#crop));
    this.#rested();
    this.holeElement?.focus();
  };

  #remove = async ({ id }: SavedReading): Promise<void> => {
    const index = this.store.plan.readings?.findIndex((reading) => reading.id === id) ?? -1;
    this.store.change('delete-reading', (plan) => withoutReading(plan, id));
    this.#report(this.say('picker.deleted'));
    await this.updateComplete;
    // The button that had focus is gone: that of the next reading takes it, else the hole.
    const rows = this.renderRoot.querySelectorAll('.reading');
    const row = rows[Math.min(index, rows.length - 1)];
    (row?.querySelector<HTMLElement>('.acts button:last-child') ?? this.holeElement)?.focus();
  };

  #annotate = ({ id }: SavedReading, note: string): void => {
    this.store.change('note-reading', (plan) => withNote(plan, id, note));
  };

  #send = (
    reading: Pick<SavedReading, 'lightness' | 'lab' | 'css' | 'note'>,
  ): BoardSwatch | undefined => {
    const { plan } = this.store;
    const swatch = swatchOf(plan, reading);
    if (!swatch) {
      this.#report(this.say('picker.no-bucket'), false);
      return undefined;
    }
    this.store.change('send-reading', (before) => withSwatch(before, swatch));
    this.#report(this.say('picker.sent', { band: plan.board.bands[swatch.bucket].name }));
    this.dispatchEvent(new ReadingSendEvent(swatch));
    return swatch;
  };

  #undo = (): void => {
    this.store.undo();
    this.holeElement?.focus({ preventScroll: true });
  };

  /** Acts on the reading under the hole, once it is there: a quick hand presses before. */
  #onceRead(act: () => void): void {
    if (this.#reader.pending) void this.read().then(act);
    else act();
  }

  #startAnew = (): void => {
    this.made = [];
    this.store.change('forget-guesses', withoutGuesses);
  };

  /** Puts the hole on a place of the photo (fractions of the upright photo), as a script does: no event follows. */
  moveTo(at: Spot): void {
    if (!Array.isArray(at) || at.length !== 2 || !at.every(Number.isFinite)) {
      throw new TypeError('at: expected a place as [x, y], fractions of the photo');
    }
    this.stated = undefined;
    this.spot = keptOn([at[0], at[1]], this.#crop);
    this.#place();
    this.#ask();
  }

  /** The reading where the hole is now, once it is made; `undefined` without a picture or while a guess is awaited. */
  async read(): Promise<Reading | undefined> {
    await this.#reader.idle();
    return this.reading;
  }

  /** Keeps the reading under the hole in the plan's list; `undefined` when there is none to keep. */
  keep(): SavedReading | undefined {
    const { last, stated } = this;
    if (!last || this.#hidden || this.#reader.pending) return undefined;
    const { reading, ask } = last;
    const counts = stated !== undefined && !reading.distrusted;
    const guess = counts ? guessAsLightness(stated) : undefined;
    const id = freshId('reading', this.store.plan.readings ?? []);
    const saved = savedReading({ reading, ...ask, guess }, id);
    if (counts)
      this.made = this.made.map((each, i, all) =>
        i === all.length - 1 ? { ...each, keptAs: id } : each,
      );
    this.store.change('keep-reading', (plan) => withReading(plan, saved));
    const value = this.#figure(munsellValue(saved.lightness));
    const band = bandName(this.store.plan, saved.lightness, this.say('picker.paper'));
    this.#report(this.say('picker.kept', { value, band }));
    return saved;
  }

  /** Puts the reading under the hole on the plan's board; `undefined` when there is none, or when it is left as bare paper. */
  sendToBoard(): BoardSwatch | undefined {
    const { last } = this;
    if (!last || this.#hidden || this.#reader.pending) return undefined;
    return this.#send(colourOf(last.reading));
  }

  /** Gives the first control the focus. */
  override focus(options?: FocusOptions): void {
    if (this.holeElement) this.holeElement.focus(options);
    else super.focus(options);
  }

  override render(): TemplateResult {
    const opened = this.#bitmap !== undefined;
    const shown = opened && this.#work !== undefined;
    const empty = !opened && !this.hasContent && this.store.picture.status !== 'opening';
    const classes = ['frame', this.#intake.over ? 'over' : '', this.locked ? 'locked' : ''];
    return html`<div class=${classes.join(' ')} part="frame" @input=${stop} @change=${stop}>
      <div ?hidden=${shown}><slot @slotchange=${this.#onSlot}></slot></div>
      ${empty ? this.#renderEmpty() : nothing} ${this.#intake.renderProgress(this.#say)}
      ${this.#intake.renderTrouble((reason) => this.tell(reason), this.#say)}
      ${this.#part.renderFailure(this.#say)}
      ${shown ? this.#renderWork(this.#work!, this.#hand!) : nothing}
      ${opened && !shown ? html`<div class="coming"></div>` : nothing}
    </div>`;
  }

  #renderEmpty(): TemplateResult {
    return html`<div class="empty" part="empty">
      <svg class="sample" viewBox="0 0 112 84" aria-hidden="true">
        <rect width="112" height="84" fill="#b9b9b9" />
        <rect width="44" height="84" fill="#e4e4e4" />
        <rect x="84" width="28" height="84" fill="#3c3c3c" />
        <path
          d="M28 14h56v56H28zM65 42a9 9 0 1 0-18 0 9 9 0 1 0 18 0z"
          fill="#777777"
          fill-rule="evenodd"
          stroke="#4a4a4a"
        />
      </svg>
      <h3>${this.say('picker.empty-title')}</h3>
      <p class="soft">${this.say(this.#intake.over ? 'picker.drop' : 'picker.empty')}</p>
      <div class="bring bringing">${this.#intake.renderButtons(this.#say)}</div>
    </div>`;
  }

  #renderWork(work: typeof Work, hand: HoleHand): TemplateResult {
    return html`<div class="work">
      ${this.#renderStage(hand)} ${this.#renderPanel(work)}
      ${work.holeTools({
        say: this.#say,
        disabled: this.locked,
        holeMm: this.hole,
        unit: this.lengthUnit,
        length: this.lengthOf(this.hole),
        card: this.card,
        lightness: this.reading?.lightness,
        hint: !this.handled,
        bring: this.tied ? nothing : this.#intake.renderButtons(this.#say),
        resize: (mm) => this.#resized(mm),
        choose: (card) => (this.card = card),
        turn: this.#turn,
      })}
      ${this.#renderBelow(work)}
    </div>`;
  }

  #renderStage(hand: HoleHand): TemplateResult {
    const sheet = this.#sheet;
    const aspect = sheet ? aspectOf({ ...sheet, crop: this.#bitmapCrop }) : 1;
    const { loupe } = hand;
    return html`<div class="mat">
      <div
        class="stage"
        part="stage"
        ${put({ '--_aspect': String(aspect) })}
        @pointerdown=${hand.pointerDown}
        @pointermove=${hand.pointerMove}
        @pointerup=${hand.pointerUp}
        @pointercancel=${hand.pointerCancel}
      >
        <canvas
          class="photo"
          role="img"
          aria-label=${this.alt || this.querySelector('img')?.alt || this.say('picker.photo')}
        ></canvas>
        <div class=${this.card === 'away' ? 'card turned' : 'card'} part="card">
          <canvas aria-hidden="true"></canvas>
          <div
            class="hole"
            part="hole"
            role="slider"
            tabindex=${this.locked ? -1 : 0}
            aria-label=${this.say('picker.hole')}
            aria-describedby="hole-keys"
            aria-disabled=${this.locked ? 'true' : 'false'}
            aria-valuemin="0"
            aria-valuemax="100"
            aria-valuenow=${percentsOf(this.spot, this.#crop).across}
            aria-valuetext=${this.#spoken()}
            @keydown=${hand.keyDown}
          ></div>
        </div>
        ${loupe ? html`<canvas class="loupe ${loupe}" part="loupe" aria-hidden="true"></canvas>` : nothing}
        <span id="hole-keys" hidden>${this.say('picker.hole-keys')}</span>
      </div>
    </div>`;
  }

  #renderPanel(work: typeof Work): TemplateResult {
    return work.readingPanel({
      plan: this.store.plan,
      say: this.#say,
      figure: this.#figure,
      disabled: this.locked,
      reading: this.reading,
      place: this.#placeInWords(),
      details: this.details,
      guess: this.guess,
      hidden: this.#hidden,
      waiting: !this.last,
      guessing: this.guessing,
      verdict: this.#verdict(),
      done: this.done,
      undoable: this.undoable,
      keep: () => this.#onceRead(() => this.keep()),
      send: () => this.#onceRead(() => this.sendToBoard()),
      undo: this.#undo,
      choose: (value) => (this.guessing = value),
      state: this.#state,
      setGuess: (on) => (this.guess = on),
      setDetails: (open) => (this.details = open),
    });
  }

  #renderBelow(work: typeof Work): TemplateResult {
    const { plan } = this.store;
    const common = { say: this.#say, figure: this.#figure, disabled: this.locked };
    const errors = work.errorsByHue(work.allGuesses(this.made, plan.readings));
    return html`<div class="below">
      ${work.readingsList({
        ...common,
        plan,
        goTo: this.#goTo,
        send: this.#send,
        remove: (reading) => void this.#remove(reading),
        annotate: this.#annotate,
      })}
      ${errors.length > 0 ? work.trainingTable({ ...common, errors, startAnew: this.#startAnew }) : nothing}
    </div>`;
  }
}

/** Keeps what the inner controls tell inside: outside it would be taken for the element's own. */
function stop(event: Event): void {
  event.stopPropagation();
}

declare global {
  interface HTMLElementTagNameMap {
    'lightness-picker': LightnessPicker;
  }
}
