import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, query, state } from 'lit/decorators.js';
import {
  bandAt,
  leanOf,
  lightnessOf,
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
import { icon } from '../shared/icons.js';
import { PictureIntake, type PictureLike } from '../shared/picture-intake.js';
import { reasonOf, type StorePlanEvent } from '../shared/plan-store.js';
import { controls, tokens } from '../shared/tokens.js';
import { TonewellElement } from '../shared/tonewell-element.js';
import { pickerWords } from '../shared/words/picker.js';
import { pictureWords } from '../shared/words/picture.js';
import {
  cardLightness,
  drawCard,
  drawPhoto,
  drawRim,
  drawSpot,
  greyOf,
  type CardGrey,
} from './card.js';
import {
  aspectOf,
  cardSide,
  HOLE_MM,
  holeOnStage,
  holeSize,
  keptOn,
  loupeCorner,
  middleOf,
  nextHole,
  onStage,
  percentsOf,
  radiusOf,
  spotAt,
  steppedFrom,
  WHOLE,
  type Box,
  type Sheet,
} from './geometry.js';
import { bandName, colourOf, leanStrength, remarksOn, spreadName } from './judgement.js';
import { ladder } from './ladder.js';
import { LatestReading, type Ask } from './latest-reading.js';
import { styles } from './lightness-picker.styles.js';
import { readingsList } from './readings-list.js';
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
import { setVars } from './set-vars.js';
import { allGuesses, errorsByHue, guessAsLightness, type Guess } from './training.js';
import { trainingTable } from './training-table.js';

const GREYS = ['light', 'middle', 'dark', 'same'] as const satisfies readonly CardGrey[];
let count = 0;

/**
 * @summary A neutral card with a hole, moved over a photo: the value of one spot alone, its band and its lean, and a list of readings.
 *
 * The hole has its size on the paper, so it reads what a brush would state. Tied to a plan it shows the plan's photo, keeps its
 * readings with the plan and sends them to the plan's board; alone it has a plan of its own. As a form control its value is
 * the CSS colour of the last reading that a person took.
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
export class LightnessPicker extends TonewellElement {
  static override readonly tag = 'lightness-picker';
  static override readonly words = { ...pictureWords, ...pickerWords };
  static override styles = [tokens, controls, styles];
  /** Takes part in forms. */
  static readonly formAssociated = true;

  readonly #internals = this.attachInternals();
  readonly #intake = new PictureIntake(this);
  readonly #key = `reading ${++count}`;
  readonly #reader = new LatestReading(
    (ask) => this.#run(ask),
    (reading, ask) => this.#got(reading, ask),
    (thrown) => this.store.fail(reasonOf(thrown)),
  );

  @query('.photo') private photoCanvas?: HTMLCanvasElement;
  @query('.card') private cardElement?: HTMLElement;
  @query('.card > canvas') private cardCanvas?: HTMLCanvasElement;
  @query('.hole') private holeElement?: HTMLElement;
  @query('.stage') private stageElement?: HTMLElement;
  @query('.spot') private spotCanvas?: HTMLCanvasElement;
  @query('.loupe') private loupeCanvas?: HTMLCanvasElement;

  /** The middle of the hole. */
  @state() private spot: Spot = [0.5, 0.5];
  /** The last reading, and where it was taken. */
  @state() private last?: { reading: Reading; ask: Ask };
  @state() private stage: Box = { width: 0, height: 0 };
  /** The corner in which the hole is enlarged while a finger covers it. */
  @state() private loupe: 'left' | 'right' | '' = '';
  /** The guess being made, and the one that was stated for the spot. */
  @state() private guessing = 5;
  @state() private stated?: number;
  @state() private made: readonly Guess[] = [];
  @state() private hasContent = false;
  @state() private formDisabled = false;
  /** What was just done, in a sentence, and whether it can be taken back. */
  @state() private done = '';
  @state() private undoable = false;
  /** Whether a person has moved the hole: the hint on how is then no longer shown. */
  @state() private handled = false;

  #value = '';
  #valueLightness = Number.NaN;
  #dirty = false;
  #customMessage = '';
  #grey: CardGrey = 'middle';
  #take = false;
  #person = false;
  #drag?: { pointer: number; dx: number; dy: number };
  #tap?: { pointer: number; x: number; y: number };
  #near = false;
  #watch?: IntersectionObserver;
  #sizes?: ResizeObserver;
  #measured?: HTMLElement;
  #bitmap?: ImageBitmap;
  #bitmapCrop: Crop = WHOLE;
  #drawn?: ImageBitmap;
  #handle?: unknown;
  #readyFor?: unknown;
  #told?: unknown;
  #begun?: string | PictureLike;

  /** Address of the picture. */
  @property() src = '';

  /** The picture itself: a Blob or File, an ImageBitmap, ImageData, a canvas or an image; goes before `src`. */
  @property({ attribute: false }) picture: PictureLike | null = null;

  /** What the photo shows, for those who do not see it. */
  @property() alt = '';

  /** Name in a form. */
  @property({ reflect: true }) name = '';

  /** Whether a form needs a reading. */
  @property({ type: Boolean, reflect: true }) required = false;

  /** Whether nothing can be moved, taken or sent. */
  @property({ type: Boolean, reflect: true }) disabled = false;

  /** Diameter of the hole on the paper, mm: 0.5 to 200. */
  @property({ type: Number }) hole: number = HOLE_MM.usual;

  /** Whether the value has to be guessed before it is shown. */
  @property({ type: Boolean, reflect: true }) guess = false;

  /** Whether lightness, lean, spread, colour and place are shown. */
  @property({ type: Boolean, reflect: true }) details = false;

  /** The card's grey: `light`, `middle`, `dark`, `same` (that of the value read), or `away` (turned away). */
  @property({ reflect: true }) card: CardGrey | 'away' = 'middle';

  /** The value that a form's reset goes back to: a CSS colour. */
  @property({ attribute: 'value' }) defaultValue = '';

  /** The CSS colour of the last reading that was taken; empty before. Anything that is no CSS colour empties it. */
  @property({ attribute: false })
  get value(): string {
    return this.#value;
  }
  set value(css: string) {
    this.#dirty = true;
    this.#setValue(css);
  }

  /** The lightness L* of the last reading that was taken, NaN before. */
  get valueAsLightness(): number {
    return this.#valueLightness;
  }

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

  get form(): HTMLFormElement | null {
    return this.#internals.form;
  }

  get type(): string {
    return 'lightness-picker';
  }

  get labels(): NodeList {
    return this.#internals.labels;
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

  override connectedCallback(): void {
    super.connectedCallback();
    this.addEventListener('click', this.#onHostClick);
    if (typeof IntersectionObserver === 'undefined') this.#near = true;
    else if (!this.#near) {
      this.#watch = new IntersectionObserver(
        (entries) => {
          if (!entries.some(({ isIntersecting }) => isIntersecting)) return;
          this.#near = true;
          this.#watch?.disconnect();
          this.#begin();
        },
        { rootMargin: '240px' },
      );
      this.#watch.observe(this);
    }
    this.#measured = undefined;
    this.requestUpdate();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.removeEventListener('click', this.#onHostClick);
    this.#watch?.disconnect();
    this.#sizes?.disconnect();
    this.#reader.drop();
  }

  protected override willUpdate(changes: PropertyValues<this>): void {
    super.willUpdate(changes);
    if (changes.has('defaultValue') && !this.#dirty) this.#setValue(this.defaultValue);
    if (changes.has('card')) {
      if ((GREYS as readonly string[]).includes(this.card)) this.#grey = this.card as CardGrey;
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
    this.#validate();
    this.#mark('ready', this.#bitmap !== undefined);
    this.#mark('guessing', this.#hidden);
  }

  protected override planChanged(event?: StorePlanEvent): void {
    super.planChanged(event);
    if (event) {
      const { plan, previous } = event;
      this.done = '';
      if (plan.crop !== previous.crop) this.spot = keptOn(this.spot, plan.crop ?? WHOLE);
      else if (
        plan.distrusted === previous.distrusted &&
        plan.paper.widthMm === previous.paper.widthMm
      )
        return;
    }
    this.#ask();
  }

  protected override pictureChanged(): void {
    super.pictureChanged();
    const { handle, bitmap, exact, status, error } = this.store.picture;
    if (bitmap !== this.#bitmap) {
      this.#bitmap = bitmap;
      this.#bitmapCrop = (exact && this.store.plan.crop) || WHOLE;
    }
    if (handle !== this.#handle) {
      this.#handle = handle;
      this.#reader.drop();
      this.last = undefined;
      this.stated = undefined;
      this.done = '';
      this.spot = middleOf(this.store.plan.crop ?? WHOLE);
      this.#ask();
    }
    if (status === 'ready' && exact && handle && handle !== this.#readyFor) {
      this.#readyFor = handle;
      void this.updateComplete.then(() => this.dispatchEvent(new ReadyEvent()));
    }
    if (error && error !== this.#told) this.fireError(error);
    this.#told = error;
  }

  /** Called by the browser when the form is reset. */
  formResetCallback(): void {
    this.#dirty = false;
    this.stated = undefined;
    this.#setValue(this.defaultValue);
  }

  /** Called by the browser when the element or a fieldset about it is disabled. */
  formDisabledCallback(disabled: boolean): void {
    this.formDisabled = disabled;
  }

  /** Called by the browser when it fills the form in again. */
  formStateRestoreCallback(state: string | File | FormData | null): void {
    if (typeof state === 'string') this.value = state;
  }

  get #inert(): boolean {
    return this.disabled || this.formDisabled;
  }

  /** Whether the value must not be seen yet. */
  get #hidden(): boolean {
    return this.guess && this.stated === undefined;
  }

  get #sheet(): Sheet | undefined {
    const { handle } = this.store.picture;
    if (!handle) return undefined;
    const { crop = WHOLE, paper } = this.store.plan;
    return {
      photo: { width: handle.width, height: handle.height },
      crop,
      paperWidthMm: paper.widthMm,
    };
  }

  /** Opens what the page gives, once the element is near the viewport. */
  #begin(): void {
    if (!this.#near) return;
    const keepPlan = this.store.picture.handle === undefined;
    const wanted = this.picture ?? (this.src || undefined);
    if (wanted !== undefined) {
      if (wanted === this.#begun) return;
      this.#begun = wanted;
      void (typeof wanted === 'string'
        ? this.#intake.load(wanted, keepPlan)
        : this.#intake.take(wanted, undefined, keepPlan));
      return;
    }
    const image = this.querySelector('img');
    const address = image?.currentSrc || image?.src;
    if (!address || this.tied || this.#begun === address || this.store.picture.status !== 'empty')
      return;
    this.#begun = address;
    void this.#intake.load(address, keepPlan);
  }

  async #run({ at, holeMm }: Ask): Promise<Reading> {
    const sheet = this.#sheet;
    if (!sheet) throw new DOMException('The picture was put aside.', 'AbortError');
    return this.store.run('reading', { at, radius: radiusOf(holeMm, sheet) }, { key: this.#key });
  }

  #ask(): void {
    if (this.#sheet && this.isConnected)
      this.#reader.ask({ at: this.spot, holeMm: holeSize(this.hole) });
  }

  #got(reading: Reading, ask: Ask): void {
    if (!this.#sheet) return;
    this.last = { reading, ask };
    if (this.#person) this.dispatchEvent(new Event('input', { bubbles: true, composed: true }));
    if (this.#drag || this.#reader.pending) return;
    this.#person = false;
    if (this.#take) this.#takeNow();
  }

  /** Makes the reading under the hole the value; waits for it, and for the guess when one is due. */
  #takeNow(): void {
    if (this.#reader.pending) {
      this.#take = true;
      return;
    }
    const { last } = this;
    if (!last || this.#hidden) return;
    this.#take = false;
    const { css, lightness } = colourOf(last.reading);
    this.#dirty = true;
    this.#setValue(css, lightness);
    this.dispatchEvent(new Event('change', { bubbles: true, composed: true }));
    const { reading, ask } = last;
    const [x, y] = ask.at;
    const band = bandAt(this.store.plan, lightness);
    this.dispatchEvent(
      new ReadingEvent(reading, [x, y], band, munsellValue(lightness), ask.holeMm, this.stated),
    );
  }

  /** Moves the hole by a person's act; the reading is taken when it comes to rest. */
  #moved(spot: Spot): void {
    this.#person = true;
    this.handled = true;
    this.done = '';
    if (this.guess) {
      this.stated = undefined;
      this.#take = false;
    }
    this.spot = spot;
    this.#place();
    this.#ask();
  }

  #rest(): void {
    this.#take = true;
    if (!this.#reader.pending) {
      this.#person = false;
      this.#takeNow();
    }
  }

  #resize(mm: number): void {
    this.hole = holeSize(mm);
    this.#moved(this.spot);
    this.#rest();
  }

  #setValue(css: string, lightness?: number): void {
    const old = this.#value;
    this.#value = isColour(css) ? String(css).trim() : '';
    this.#valueLightness = this.#value ? (lightness ?? lightnessOf(this.#value)) : Number.NaN;
    this.#internals.setFormValue(this.#value || null, this.#value);
    this.#validate();
    this.requestUpdate('value', old);
  }

  #validate(): void {
    const anchor = this.holeElement ?? undefined;
    if (this.#customMessage)
      this.#internals.setValidity({ customError: true }, this.#customMessage, anchor);
    else if (this.required && !this.#value) {
      this.#internals.setValidity(
        { valueMissing: true },
        this.say(this.guess ? 'picker.required-guess' : 'picker.required'),
        anchor,
      );
    } else this.#internals.setValidity({});
  }

  #mark(name: string, on: boolean): void {
    if (on) this.#internals.states.add(name);
    else this.#internals.states.delete(name);
  }

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

  #draw(): void {
    const { stage, photoCanvas, cardCanvas, spotCanvas, loupeCanvas } = this;
    const bitmap = this.#bitmap;
    if (!bitmap || bitmap.width === 0 || !photoCanvas || stage.width === 0) return;
    const sized = photoCanvas.dataset.size === `${stage.width} ${stage.height}`;
    if (bitmap !== this.#drawn || !sized) {
      drawPhoto(photoCanvas, bitmap, stage.width, stage.height);
      photoCanvas.dataset.size = `${stage.width} ${stage.height}`;
      this.#drawn = bitmap;
    }
    const hole = holeOnStage(this.hole, this.store.plan.paper.widthMm, stage);
    const side = cardSide(hole, stage);
    const lightness = cardLightness(
      this.#grey,
      this.#hidden ? undefined : this.last?.reading.lightness,
    );
    this.cardElement?.style.setProperty('--_side', `${side}px`);
    this.cardElement?.style.setProperty('--_hole', `${hole}px`);
    if (cardCanvas) {
      if (this.card === 'away') drawRim(cardCanvas, side, hole);
      else
        drawCard(
          cardCanvas,
          side,
          hole,
          lightness,
          this.say('picker.mm', { mm: this.#figure(this.hole, 0) }),
        );
    }
    const crop = this.#bitmapCrop;
    const at = {
      x: (this.spot[0] - crop.x) / crop.width,
      y: (this.spot[1] - crop.y) / crop.height,
      diameter: hole / stage.width,
    };
    if (spotCanvas) drawSpot(spotCanvas, 120, bitmap, at, lightness);
    if (loupeCanvas && this.loupe) drawSpot(loupeCanvas, 128, bitmap, at, lightness);
    this.#place();
  }

  /** Puts the card where the hole is. */
  #place(): void {
    const { cardElement: card, stage } = this;
    if (!card || stage.width === 0) return;
    const [x, y] = onStage(this.spot, stage, this.#bitmapCrop);
    const half = cardSide(holeOnStage(this.hole, this.store.plan.paper.widthMm, stage), stage) / 2;
    card.style.setProperty('transform', `translate(${x - half}px, ${y - half}px)`);
  }

  /** A value with one decimal; a length with as many as it needs. */
  #figure = (value: number, digits: number): string =>
    new Intl.NumberFormat(this.locale, {
      minimumFractionDigits: digits,
      maximumFractionDigits: 1,
    }).format(value);
  #valueFigure = (value: number): string => this.#figure(value, 1);

  #leanInWords(reading: Reading): string {
    const lean = leanOf(reading.lab);
    return this.say(`lean-strength.${leanStrength(lean)}`, { lean: this.say(`lean.${lean.name}`) });
  }

  #spoken(): string {
    const { across, down } = percentsOf(this.spot, this.#sheet?.crop ?? WHOLE);
    const at = this.say('picker.at', { across, down });
    if (this.#hidden) return this.say('picker.spoken-hidden', { at });
    const { last } = this;
    if (!last || last.ask.at !== this.spot) return this.say('picker.spoken-wait', { at });
    const { lightness } = last.reading;
    return this.say('picker.spoken', {
      at,
      value: this.#valueFigure(munsellValue(lightness)),
      band: bandName(this.store.plan, lightness, this.say('picker.paper')),
      lean: this.#leanInWords(last.reading),
    });
  }

  #onHostClick = (event: MouseEvent): void => {
    // A click on the element's label arrives here without a place inside.
    if (event.composedPath()[0] === this) this.holeElement?.focus();
  };

  #placeOf(event: PointerEvent): [x: number, y: number] {
    const { left, top } = this.stageElement!.getBoundingClientRect();
    return [event.clientX - left, event.clientY - top];
  }

  #onPointerDown = (event: PointerEvent): void => {
    if (this.#inert || event.button !== 0 || this.#drag) return;
    const [x, y] = this.#placeOf(event);
    const [hx, hy] = onStage(this.spot, this.stage, this.#bitmapCrop);
    const held = event.composedPath().includes(this.cardElement!);
    if (!held && event.pointerType === 'touch') {
      this.#tap = { pointer: event.pointerId, x, y };
      return;
    }
    event.preventDefault();
    this.stageElement!.setPointerCapture(event.pointerId);
    this.#drag = held
      ? { pointer: event.pointerId, dx: hx - x, dy: hy - y }
      : { pointer: event.pointerId, dx: 0, dy: 0 };
    this.#mark('moving', true);
    this.holeElement?.focus({ preventScroll: true });
    if (event.pointerType === 'touch') this.loupe = loupeCorner(x, this.stage);
    if (!held) this.#moved(spotAt(x, y, this.stage, this.#bitmapCrop));
  };

  #onPointerMove = (event: PointerEvent): void => {
    const drag = this.#drag;
    if (!drag || drag.pointer !== event.pointerId) return;
    const [x, y] = this.#placeOf(event);
    const spot = spotAt(x + drag.dx, y + drag.dy, this.stage, this.#bitmapCrop);
    if (spot[0] === this.spot[0] && spot[1] === this.spot[1]) return;
    if (this.loupe) this.loupe = loupeCorner(x, this.stage);
    this.#moved(spot);
  };

  #onPointerUp = (event: PointerEvent): void => {
    const tap = this.#tap;
    if (tap?.pointer === event.pointerId) {
      this.#tap = undefined;
      const [x, y] = this.#placeOf(event);
      if (Math.hypot(x - tap.x, y - tap.y) > 10) return;
      this.holeElement?.focus({ preventScroll: true });
      this.#moved(spotAt(x, y, this.stage, this.#bitmapCrop));
      this.#rest();
    }
    if (this.#drag?.pointer !== event.pointerId) return;
    this.#endDrag();
    this.#rest();
  };

  #onPointerCancel = (event: PointerEvent): void => {
    if (this.#tap?.pointer === event.pointerId) this.#tap = undefined;
    if (this.#drag?.pointer === event.pointerId) this.#endDrag();
  };

  #endDrag(): void {
    this.#drag = undefined;
    this.loupe = '';
    this.#mark('moving', false);
  }

  #onKeyDown = (event: KeyboardEvent): void => {
    if (this.#inert || event.ctrlKey || event.metaKey || event.altKey) return;
    const arrow = ARROWS[event.key];
    const sheet = this.#sheet;
    if (arrow && sheet) {
      this.#moved(steppedFrom(this.spot, arrow[0], arrow[1], event.shiftKey, sheet));
      this.#rest();
    } else if (event.key === '[' || event.key === ']')
      this.#resize(nextHole(this.hole, event.key === ']' ? 1 : -1));
    else if (event.key === 'Enter' || event.key === ' ') this.#rest();
    else if (event.key === 'c' || event.key === 'C') this.#turn();
    else return;
    event.preventDefault();
  };

  #turn(): void {
    this.card = this.card === 'away' ? this.#grey : 'away';
  }

  #say = (key: string, values?: Record<string, string | number>): string => this.say(key, values);

  #report(sentence: string, undoable = true): void {
    this.done = sentence;
    this.undoable = undoable;
    this.announce(sentence);
  }

  #state = (): void => {
    const { last, guessing } = this;
    if (!last || this.#reader.pending) return;
    this.stated = guessing;
    const value = munsellValue(last.reading.lightness);
    if (!last.reading.distrusted)
      this.made = [...this.made, { guess: guessing, value, lean: leanOf(last.reading.lab).name }];
    this.announce(this.#verdict());
    this.#takeNow();
  };

  /** What became of the stated guess, in a sentence. */
  #verdict(): string {
    const { last, stated } = this;
    if (!last || stated === undefined) return '';
    const value = munsellValue(last.reading.lightness);
    const error = stated - value;
    const kind = Math.abs(error) < 0.25 ? 'right' : error > 0 ? 'light' : 'dark';
    const sentence = this.say(`picker.guess-${kind}`, {
      guess: this.#valueFigure(stated),
      value: this.#valueFigure(value),
      error: this.#valueFigure(Math.abs(error)),
    });
    return last.reading.distrusted ? `${sentence} ${this.say('picker.guess-untrusted')}` : sentence;
  }

  #goTo = ({ at, holeMm }: SavedReading): void => {
    this.hole = holeSize(holeMm);
    this.#moved(keptOn(at, this.#sheet?.crop ?? WHOLE));
    this.#rest();
    this.holeElement?.focus();
  };

  #remove = ({ id }: SavedReading): void => {
    this.store.change('delete-reading', (plan) => withoutReading(plan, id));
    this.#report(this.say('picker.deleted'));
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

  #startAnew = (): void => {
    this.made = [];
    this.store.change('forget-guesses', withoutGuesses);
  };

  /** Puts the hole on a place of the photo (fractions of the upright photo), as a script does: no event follows. */
  moveTo(at: Spot): void {
    if (!Array.isArray(at) || !at.every(Number.isFinite))
      throw new TypeError('at: expected a place as [x, y], fractions of the photo');
    if (this.guess) this.stated = undefined;
    this.spot = keptOn([at[0], at[1]], this.#sheet?.crop ?? WHOLE);
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
    const { last } = this;
    if (!last || this.#hidden || this.#reader.pending) return undefined;
    const { reading, ask } = last;
    const guess = this.stated === undefined ? undefined : guessAsLightness(this.stated);
    const saved = savedReading(
      { reading, ...ask, guess: reading.distrusted ? undefined : guess },
      freshId('reading', this.store.plan.readings ?? []),
    );
    if (saved.guess !== undefined)
      this.made = this.made.map((each, i) =>
        i === this.made.length - 1 ? { ...each, keptAs: saved.id } : each,
      );
    this.store.change('keep-reading', (plan) => withReading(plan, saved));
    this.#report(
      this.say('picker.kept', {
        value: this.#valueFigure(munsellValue(saved.lightness)),
        band: bandName(this.store.plan, saved.lightness, this.say('picker.paper')),
      }),
    );
    return saved;
  }

  /** Puts the reading under the hole on the plan's board; `undefined` when there is none, or when it is left as bare paper. */
  sendToBoard(): BoardSwatch | undefined {
    const { last } = this;
    if (!last || this.#hidden || this.#reader.pending) return undefined;
    return this.#send(colourOf(last.reading));
  }

  checkValidity(): boolean {
    return this.#internals.checkValidity();
  }

  reportValidity(): boolean {
    return this.#internals.reportValidity();
  }

  setCustomValidity(message: string): void {
    this.#customMessage = message;
    this.#validate();
  }

  override focus(options?: FocusOptions): void {
    if (this.holeElement) this.holeElement.focus(options);
    else super.focus(options);
  }

  override render(): TemplateResult {
    const shown = this.#bitmap !== undefined;
    const { status } = this.store.picture;
    const empty = !shown && !this.hasContent && status !== 'opening';
    const classes = ['frame', this.#intake.over ? 'over' : '', this.#inert ? 'disabled' : ''].join(
      ' ',
    );
    return html`<div class=${classes} part="frame" @input=${stop} @change=${stop}>
      <div ?hidden=${shown}><slot @slotchange=${this.#onSlot}></slot></div>
      ${empty ? this.#renderEmpty() : nothing} ${this.#intake.renderProgress(this.#say)}
      ${this.#intake.renderTrouble((reason) => this.tell(reason), this.#say)}
      ${shown ? this.#renderWork() : nothing}
    </div>`;
  }

  #onSlot = (event: Event): void => {
    const nodes = (event.target as HTMLSlotElement).assignedNodes({ flatten: true });
    this.hasContent = nodes.some(
      (node) => node.nodeType === Node.ELEMENT_NODE || node.textContent?.trim(),
    );
    this.#begin();
  };

  #renderEmpty(): TemplateResult {
    return html`<div class="empty" part="empty">
      <svg class="sample" viewBox="0 0 112 84" aria-hidden="true">
        <rect width="112" height="84" fill="#b9b9b9" />
        <rect x="0" y="0" width="44" height="84" fill="#e4e4e4" />
        <rect x="84" y="0" width="28" height="84" fill="#3c3c3c" />
        <path
          d="M28 14h56v56H28zM65 42a9 9 0 1 0-18 0 9 9 0 1 0 18 0z"
          fill="#777777"
          fill-rule="evenodd"
          stroke="#4a4a4a"
        />
      </svg>
      <h3>${this.say('picker.empty-title')}</h3>
      <p class="soft">${this.#intake.over ? this.say('picker.drop') : this.say('picker.empty')}</p>
      <div class="bring">${this.#intake.renderButtons(this.#say)}</div>
    </div>`;
  }

  #renderWork(): TemplateResult {
    const { plan } = this.store;
    const errors = errorsByHue(allGuesses(this.made, plan.readings));
    return html`<div class="work">
      ${this.#renderStage()}
      <div class="panel" part="panel">${this.#renderReading()}</div>
      <div class="tools" part="tools">${this.#renderTools()}</div>
      <div class="below">
        ${readingsList({
          plan,
          say: this.#say,
          figure: this.#valueFigure,
          disabled: this.#inert,
          goTo: this.#goTo,
          send: this.#send,
          remove: this.#remove,
          annotate: this.#annotate,
        })}
        ${
          errors.length > 0
            ? trainingTable({
                errors,
                say: this.#say,
                figure: this.#valueFigure,
                disabled: this.#inert,
                startAnew: this.#startAnew,
              })
            : nothing
        }
      </div>
    </div>`;
  }

  #renderStage(): TemplateResult {
    const { width, height } = this.store.picture.bitmap ?? { width: 1, height: 1 };
    const sheet = this.#sheet;
    const aspect = sheet ? aspectOf({ ...sheet, crop: this.#bitmapCrop }) : width / height;
    const { across } = percentsOf(this.spot, sheet?.crop ?? WHOLE);
    const away = this.card === 'away';
    return html`<div class="mat">
      <div
        class="stage"
        part="stage"
        ${setVars({ '--_aspect': aspect })}
        @pointerdown=${this.#onPointerDown}
        @pointermove=${this.#onPointerMove}
        @pointerup=${this.#onPointerUp}
        @pointercancel=${this.#onPointerCancel}
      >
        <canvas
          class="photo"
          role="img"
          aria-label=${this.alt || this.querySelector('img')?.alt || this.say('picker.photo')}
        ></canvas>
        <div class=${away ? 'card turned' : 'card'} part="card">
          <canvas aria-hidden="true"></canvas>
          <div
            class="hole"
            part="hole"
            role="slider"
            tabindex=${this.#inert ? -1 : 0}
            aria-label=${this.say('picker.hole')}
            aria-describedby="hole-keys"
            aria-disabled=${this.#inert ? 'true' : 'false'}
            aria-valuemin="0"
            aria-valuemax="100"
            aria-valuenow=${across}
            aria-valuetext=${this.#spoken()}
            @keydown=${this.#onKeyDown}
          ></div>
        </div>
        ${this.loupe ? html`<canvas class="loupe ${this.loupe}" part="loupe" aria-hidden="true"></canvas>` : nothing}
        <span id="hole-keys" hidden>${this.say('picker.hole-keys')}</span>
      </div>
    </div>`;
  }

  #renderTools(): TemplateResult {
    const inert = this.#inert;
    const away = this.card === 'away';
    const read = this.#hidden ? undefined : this.last?.reading.lightness;
    return html`${this.handled ? nothing : html`<p class="soft hint">${this.say('picker.move-hint')}</p>`}
      <div class="setting">
        <label class="label" for="size">${this.say('picker.hole-size')}</label>
        <div class="size">
          <input
            id="size"
            type="range"
            min="1"
            max="60"
            step="0.5"
            ?disabled=${inert}
            .value=${String(this.hole)}
            @input=${this.#onSize}
          />
          <input
            type="number"
            min=${HOLE_MM.least}
            max=${HOLE_MM.most}
            step="0.5"
            aria-label=${this.say('picker.hole-size-number')}
            ?disabled=${inert}
            .value=${String(this.hole)}
            @change=${this.#onSize}
          />
        </div>
      </div>
      <div class="setting">
        <span class="label" id="card-label">${this.say('picker.card')}</span>
        <div class="card-choice">
          <div class="segments" role="group" aria-labelledby="card-label">
            ${GREYS.map(
              (grey) =>
                html`<button
                  type="button"
                  ?disabled=${inert}
                  aria-pressed=${this.card === grey ? 'true' : 'false'}
                  @click=${() => (this.card = grey)}
                >
                  <span
                    class="grey"
                    aria-hidden="true"
                    ${setVars({ '--_grey': greyOf(cardLightness(grey, read)) })}
                  ></span
                  ><span>${this.say(`picker.card-${grey}`)}</span>
                </button>`,
            )}
          </div>
          <button
            type="button"
            class="turn"
            ?disabled=${inert}
            aria-pressed=${away ? 'true' : 'false'}
            @click=${this.#turn}
          >
            ${icon('eye')}<span>${this.say('picker.card-away')}</span>
          </button>
        </div>
      </div>
      ${this.card === 'same' && !this.#hidden ? html`<p class="soft small hint">${this.say('picker.same-hint')}</p>` : nothing}
      ${this.tied ? nothing : html`<div class="bring">${this.#intake.renderButtons(this.#say)}</div>`}`;
  }

  #onSize = (event: Event): void => {
    const mm = (event.target as HTMLInputElement).valueAsNumber;
    if (Number.isFinite(mm)) this.#resize(mm);
  };

  #renderReading(): TemplateResult {
    const { last, stated } = this;
    const { plan } = this.store;
    const reading = this.#hidden ? undefined : last?.reading;
    const value = reading && munsellValue(reading.lightness);
    const inert = this.#inert;
    const remarks = reading ? remarksOn(reading) : [];
    const figure = this.#hidden
      ? this.#valueFigure(this.guessing)
      : value === undefined
        ? '–'
        : this.#valueFigure(value);
    const bare =
      reading !== undefined && bandAt(plan, reading.lightness) >= plan.board.bands.length;
    return html`
      <div class="seen">
        <canvas class="spot" part="spot" role="img" aria-label=${this.say('picker.spot')}></canvas>
        <div>
          <div class="word">${this.say(this.#hidden ? 'picker.guess-yours' : 'picker.value')}</div>
          <div class="value ${reading ? '' : 'unread'}" part="value">${figure}</div>
          <div class="band" part="band">
            ${reading ? bandName(plan, reading.lightness, this.say('picker.paper')) : nothing}
          </div>
        </div>
      </div>
      ${this.#hidden ? html`<p>${this.say('picker.guess-ask')}</p>` : nothing}
      ${ladder({
        plan,
        say: this.#say,
        label:
          value === undefined
            ? this.say('picker.ladder-hidden')
            : this.say('picker.ladder', { value: this.#valueFigure(value) }),
        marked: this.#hidden ? this.guessing : value,
        choose: this.#hidden ? (guess) => (this.guessing = guess) : undefined,
        disabled: inert,
      })}
      ${
        this.#hidden
          ? html`<button
              type="button"
              class="state"
              ?disabled=${inert || !last}
              @click=${this.#state}
            >
              ${icon('check')}<span>${this.say('picker.guess-say')}</span>
            </button>`
          : nothing
      }
      ${
        this.guess && stated !== undefined
          ? html`<p>
              ${this.#verdict()} <span class="soft">${this.say('picker.guess-next')}</span>
            </p>`
          : nothing
      }
      ${
        remarks.length > 0
          ? html`<ul class="remarks" part="remarks">
              ${remarks.map((remark) => html`<li>${this.#remark(remark)}</li>`)}
            </ul>`
          : nothing
      }
      ${
        this.#hidden
          ? nothing
          : html`<div class="acts">
              <button
                type="button"
                class="keep"
                ?disabled=${inert || !reading}
                @click=${() => this.keep()}
              >
                ${icon('plus')}<span>${this.say('picker.keep')}</span>
              </button>
              <button
                type="button"
                class="send"
                ?disabled=${inert || !reading || bare}
                @click=${() => this.sendToBoard()}
              >
                ${icon('send')}<span>${this.say('picker.send')}</span>
              </button>
            </div>`
      }
      ${bare ? html`<p class="soft small">${this.say('picker.no-bucket')}</p>` : nothing}
      ${
        this.done
          ? html`<p class="done">
              <span>${this.done}</span>
              ${this.undoable ? html`<button type="button" class="quiet" ?disabled=${inert} @click=${this.#undo}>${icon('undo')}<span>${this.say('picker.undo')}</span></button>` : nothing}
            </p>`
          : nothing
      }
      <label class="check">
        <input
          type="checkbox"
          ?disabled=${inert}
          .checked=${this.guess}
          @change=${(event: Event) => (this.guess = (event.target as HTMLInputElement).checked)}
        />
        <span
          >${this.say('picker.guess-first')}<span class="hint soft small"
            >${this.say('picker.guess-first-hint')}</span
          ></span
        >
      </label>
      ${this.#renderDetails(reading)}
    `;
  }

  #remark({ code, values }: { code: string; values: Record<string, string | number> }): string {
    const told = { ...values };
    for (const key of ['value', 'measured'])
      if (typeof told[key] === 'number') told[key] = this.#valueFigure(told[key]);
    if (told.lean) told.lean = this.say(`lean.${told.lean}`);
    return this.say(code, told);
  }

  #renderDetails(reading?: Reading): TemplateResult {
    const { across, down } = percentsOf(this.spot, this.#sheet?.crop ?? WHOLE);
    const hidden = this.say('picker.guess-hidden');
    const rows: [string, string | TemplateResult][] = reading
      ? [
          ['lightness', this.#valueFigure(reading.lightness)],
          ['lean', this.#leanInWords(reading)],
          ['spread', this.say(`spread.${spreadName(reading.spread)}`)],
          ['colour', colourOf(reading).css],
        ]
      : (['lightness', 'lean', 'spread', 'colour'] as const).map((key) => [
          key,
          this.#hidden ? hidden : '–',
        ]);
    return html`<details
      part="details"
      ?open=${this.details}
      @toggle=${(event: Event) => (this.details = (event.target as HTMLDetailsElement).open)}
    >
      <summary>${this.say('picker.details')}</summary>
      <dl>
        ${rows.map(
          ([key, text]) =>
            html`<dt>${this.say(`picker.${key}`)}</dt>
              <dd>${text}</dd>`,
        )}
        <dt>${this.say('picker.place')}</dt>
        <dd>${this.say('picker.at', { across, down })}</dd>
      </dl>
    </details>`;
  }
}

/** How far right and down an arrow key goes. */
const ARROWS: Readonly<Record<string, readonly [right: number, down: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** Keeps what the inner controls tell inside: outside it would be taken for the element's own. */
function stop(event: Event): void {
  event.stopPropagation();
}

function isColour(css: unknown): boolean {
  if (typeof css !== 'string' || css.trim() === '') return false;
  try {
    lightnessOf(css);
    return true;
  } catch {
    return false;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'lightness-picker': LightnessPicker;
  }
}
