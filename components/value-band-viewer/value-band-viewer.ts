import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from '../shared/property.js';
import { reason, type Crop, type Reason } from '../shared/core.js';
import { ReadyEvent } from '../shared/events/ready.js';
import type { PictureView } from '../shared/events/view-change.js';
import { LaterPart } from '../shared/later-part.js';
import { PictureIntake, type PictureLike } from '../shared/picture-intake.js';
import type { StorePlanEvent } from '../shared/plan-store.js';
import type { Words } from '../shared/strings.js';
import { tokens } from '../shared/tokens.js';
import { TonewellElement } from '../shared/tonewell-element.js';
import type { Say } from '../shared/usual-bands.js';
import { viewerWords } from '../shared/words/viewer.js';
import { capital } from './capital.js';
import { tracingsIn, VIEWS, type Control, type TracingName } from './controls.js';
import { cutOf, paletteOf, sameCut, type Cut } from './cut.js';
import type { Desk } from './desk.js';
import { dressed } from './dress.js';
import { Layers, type Sight as Shown, type Wanted } from './layers.js';
import { boxOf, stageRatio, type Box } from './stage.js';
import { viewerStyles } from './value-band-viewer.styles.js';

const WHOLE: Crop = { x: 0, y: 0, width: 1, height: 1 };
/** How long after it was taken off the page an element keeps its picture, ms. */
const FAREWELL_MS = 5000;

/** What {@link ValueBandViewer.toBlob} may be told. */
export interface PictureFileOptions {
  /** Which state; the one in sight when missing. */
  view?: PictureView;
  /** A file type that the browser's canvas writes; PNG when missing or when the browser does not write it (Safari and WebP). */
  type?: string;
  /** 0..1, for file types that lose detail. */
  quality?: number;
}

const numbers = {
  fromAttribute: (text: string | null): number[] | null =>
    text === null
      ? null
      : text
          .split(/[\s,]+/)
          .filter(Boolean)
          .map(Number),
};

/**
 * A photo, its greys and its value bands as three states of one picture. Limits between the bands are pegs on a ladder of grey
 * dabs, each band's share of the picture is a puddle.
 *
 * Alone it keeps a plan of its own; inside or tied to a `<painting-plan>` it works on that one, and `limits`, `paper-limit`,
 * `bands`, `band-names` are the plan's own.
 *
 * @summary Photo, greys and value bands of a picture, with limits that can be moved.
 *
 * @slot - What shows before the picture is ready and without script, as a rule an `<img>`; without `src` the first `<img>` gives the picture.
 * @slot caption - The figure's caption.
 *
 * @fires {LimitsChangeEvent} limits-change - A person moved a limit (`settled` is false while it is held).
 * @fires {BandsChangeEvent} bands-change - A person added, took out or renamed a band.
 * @fires {ViewChangeEvent} view-change - A person looks at another state, or at one band alone.
 * @fires {PictureChangeEvent} picture-change - A person opened another picture.
 * @fires {ReadyEvent} ready - The picture is in sight, at its full working size.
 * @fires {KitErrorEvent} error - A picture could not be opened or worked on; the sentence stands in the element too.
 *
 * @csspart mount - The neutral ground about the picture.
 * @csspart stage - The picture.
 * @csspart corner - The grip of the corner that can be lifted.
 * @csspart ladder - The ladder with pegs, puddles and names.
 * @csspart dabs - The grey dabs.
 * @csspart peg - A peg (a slider).
 * @csspart puddle - A puddle (a button that lays the rest aside).
 * @csspart band-name - The field of a band's name.
 * @csspart views - The choice of state.
 * @csspart tracings - The choice of tracings, what each of them tells, and what is told of the mass in hand.
 * @csspart tools - The bar of tools.
 * @csspart panel - What the tool in hand shows.
 * @csspart open-button - The file chooser's button.
 * @csspart camera-button - The camera's button.
 * @csspart paste-button - The clipboard's button.
 * @csspart trouble - The sentence of a fault.
 * @csspart progress - How far the opening has come.
 * @csspart icon - A drawing in a button.
 *
 * @cssproperty --tonewell-surround - The neutral ground about the picture.
 * @cssproperty --tonewell-mount - How broad that ground is (12px).
 * @cssproperty --tonewell-picture-height - The most height the picture takes (76svh).
 * @cssproperty --tonewell-picture-ratio - Width by height of the room kept for a picture given by `src`, until it is known (1.5).
 * @cssproperty --tonewell-paper - The ground of the controls.
 * @cssproperty --tonewell-sheet - The ground of buttons and fields.
 * @cssproperty --tonewell-ink - Text and strokes.
 * @cssproperty --tonewell-ink-soft - Quiet text.
 * @cssproperty --tonewell-line - Hairlines.
 * @cssproperty --tonewell-edge - Borders of buttons and fields.
 * @cssproperty --tonewell-press - Buttons under the pointer.
 * @cssproperty --tonewell-font - The typeface.
 *
 * @cssstate ready - A picture is in sight.
 * @cssstate opening - A picture is being opened.
 * @cssstate lifted - The corner is lifted.
 * @cssstate near - The picture is looked at from nearer than whole.
 */
export class ValueBandViewer extends TonewellElement {
  static override readonly tag = 'value-band-viewer';
  static override readonly words: Words = viewerWords;
  static override readonly styles = [tokens, viewerStyles];

  /** @internal */
  readonly intake = new PictureIntake(this, undefined, () => import('./bringing.js'));

  readonly #deskPart = new LaterPart(
    this,
    () => import('./desk.js'),
    ({ Desk, deskLooks, deskWords }) => {
      this.adopt(deskWords, deskLooks);
      this.desk = new Desk(this);
      this.desk.changed();
    },
  );
  #layers = new Layers();
  #internals?: ElementInternals;
  #given: PictureLike | null = null;
  #limitsGiven: number[] | null = null;
  #awake = false;
  #nearness?: IntersectionObserver;
  #farewell?: ReturnType<typeof setTimeout>;
  #frame = 0;
  /** The plane in hand, and the part of the photo that it is of. */
  #plane?: unknown;
  /** The plane that was painted as soon as it came. */
  #first?: unknown;
  #crop: Crop = WHOLE;
  #readyFor?: unknown;
  #memo?: { cut: Cut; only: number | undefined; palette: Uint32Array };

  @state() private desk?: Desk;
  @state() private filled = false;
  @state() private starting = false;

  /** Address of the picture. */
  @property() src = '';

  /** Which state of the picture lies above: `photo`, `greys`, `bands` or `masses` (bands until these are found). */
  @property() view: PictureView = 'bands';

  /** Tracings over the picture, parted by spaces: `masses edges reserves marks strokes passages accents`. */
  @property({ reflect: true }) tracings = '';

  /** What the picture shows, in words, for those who cannot see it. */
  @property() alt = '';

  /** `lazy` starts the work when the element comes near the viewport, `eager` at once. */
  @property() loading: 'lazy' | 'eager' = 'lazy';

  /** How many bands an element that stands alone has, 2..5. */
  @property({ type: Number }) bands: number | null = null;

  /** The names of the bands of an element that stands alone, darkest first, parted by commas. */
  @property({ attribute: 'band-names' }) bandNames = '';

  /** L* from which the paper is left bare, together with `limits`. */
  @property({ attribute: 'paper-limit', type: Number }) paperLimit: number | null = null;

  /** The band to see alone: its name, its number (0 is the darkest) or `paper`. */
  @property() only = '';

  /**
   * What stands around the picture, parted by spaces: `views corner ladder squint step-back zoom save tracings tools open undo`, or `none`.
   * When missing: all but `tracings` and `tools` (which a shared plan brings), and `open` only where the page gives no picture.
   */
  @property() controls: string | null = null;

  /** The picture: a Blob, File, ImageBitmap, ImageData, canvas, `<img>` or pixels. */
  @property({ attribute: false })
  get picture(): PictureLike | null {
    return this.#given;
  }
  set picture(picture: PictureLike | null) {
    const before = this.#given;
    this.#given = picture;
    this.requestUpdate('picture', before);
    if (picture && this.#awake) void this.intake.take(picture);
  }

  /** L* between the bands, ascending (attribute: `"36 66"`). Setting them fixes them: the photo proposes none. */
  @property({ converter: numbers })
  get limits(): number[] {
    return this.store.plan.photoLimits;
  }
  set limits(limits: number[] | null) {
    this.#limitsGiven = limits;
    this.requestUpdate('limits');
  }

  constructor() {
    super();
    try {
      this.#internals = this.attachInternals();
    } catch {
      // Custom states are then missing; all else works.
    }
  }

  override connectedCallback(): void {
    super.connectedCallback();
    clearTimeout(this.#farewell);
    if (this.#awake) return;
    if (this.#eager()) return this.requestUpdate();
    this.#nearness = new IntersectionObserver(
      (entries) => {
        if (entries.some(({ isIntersecting }) => isIntersecting)) this.#wake();
      },
      { rootMargin: '600px' },
    );
    this.#nearness.observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#nearness?.disconnect();
    cancelAnimationFrame(this.#frame);
    this.#frame = 0;
    // Moved within the page it comes back at once; else its picture is let go.
    this.#farewell = setTimeout(() => this.#leave(), FAREWELL_MS);
  }

  protected override willUpdate(changes: PropertyValues): void {
    super.willUpdate(changes);
    if (!this.hasUpdated) this.#lookForContent();
    if (!VIEWS.includes(this.view)) this.view = 'bands';
    const bands = changes.has('bands') || changes.has('bandNames');
    const own = bands || changes.has('limits') || changes.has('paperLimit');
    if (own && (!this.tied || this.hasUpdated)) this.#dress(bands);
    this.desk?.part();
  }

  protected override updated(changes: PropertyValues): void {
    if (!this.#awake && this.#eager()) queueMicrotask(() => this.#wake());
    const another = changes.has('src') && changes.get('src') !== undefined;
    if (another && this.#awake && this.src) void this.intake.load(this.src);
    if (changes.has('controls') && this.#awake) {
      if (this.desk) this.desk.toolsAsked();
      else this.#fetchDesk();
    }
    if (changes.has('tracings') || changes.has('view')) this.desk?.tracingsAsked();
    this.stage!.style.setProperty('--_ratio', String(stageRatio(this.#ratio())));
    this.desk?.settle();
    const { status } = this.store.picture;
    this.#setState('ready', status === 'ready');
    this.#setState('opening', status === 'opening');
    this.#setState('lifted', this.desk?.lifted ?? false);
    this.#setState('near', (this.desk?.sight.zoom ?? 1) > 1);
    // The quick first copy is small: it is in sight a frame sooner when it does not wait for one.
    if (status === 'opening' && this.#plane && this.#plane !== this.#first) {
      this.#first = this.#plane;
      this.#paint();
    } else this.#paintSoon();
  }

  protected override planChanged(event?: StorePlanEvent): void {
    super.planChanged(event);
    this.desk?.changed();
  }

  protected override pictureChanged(): void {
    super.pictureChanged();
    const { plane, exact } = this.store.picture;
    if (plane !== this.#plane) {
      this.#plane = plane;
      this.#crop = (exact && this.store.plan.crop) || WHOLE;
    }
    this.desk?.changed();
    void this.intake.tellFault(this.store.picture);
  }

  /** @internal */
  get stage(): HTMLElement | null {
    return this.renderRoot.querySelector('.stage');
  }

  /** @internal */
  get crop(): Crop {
    return this.#crop;
  }

  /** @internal Where the whole picture lies on the stage. */
  get box(): Box {
    const ratio = this.#ratio();
    return boxOf(ratio, stageRatio(ratio));
  }

  /** @internal */
  get showing(): boolean {
    return this.#shown() !== undefined;
  }

  /** @internal The band that is seen alone. */
  get alone(): number | undefined {
    const { bands } = this.store.plan.board;
    const name = this.only.trim();
    if (!name) return undefined;
    const paper = this.store.plan.paperLimit === undefined ? undefined : bands.length;
    if (name === 'paper') return paper;
    const named = bands.findIndex((band) => band.name === name);
    if (named >= 0) return named;
    const number = Number(name);
    return Number.isInteger(number) && number >= 0 && number <= (paper ?? bands.length - 1)
      ? number
      : undefined;
  }

  /** @internal */
  readonly words: Say = (key, values) => this.say(key, values);

  /** @internal */
  sentenceOf(reason: Reason): string {
    return this.tell(reason);
  }

  /** @internal */
  speak(text: string): void {
    this.announce(text);
  }

  /** @internal The tracings that lie over the picture. */
  get traced(): readonly TracingName[] {
    return tracingsIn(this.tracings);
  }

  /** @internal */
  get massed(): boolean {
    return this.view === 'masses' || (this.desk?.lifted === true && this.desk.under === 'masses');
  }

  /** @internal */
  trace(names: readonly TracingName[]): void {
    this.tracings = names.join(' ');
  }

  /** @internal */
  takeUp(tool: string | null): void {
    this.desk?.takeUp(tool);
  }

  /** @internal Whether a control is wanted. */
  offers(control: Control): boolean {
    if (this.controls !== null) return this.controls.split(/\s+/).includes(control);
    if (control === 'tools' || control === 'tracings') return this.tied;
    if (control === 'open') return this.tied || !(this.src || this.#given || this.#contentImage());
    return true;
  }

  /**
   * The picture as it is seen (state, band alone, squint or distance) as a file at its working size. A PNG tells its size on the plan's
   * paper (pHYs).
   * @throws DOMException `InvalidStateError` while there is no picture, `EncodingError` when it cannot be written
   */
  async toBlob({ view = this.view, type, quality }: PictureFileOptions = {}): Promise<Blob> {
    const wanted = this.#wanted(view);
    const { paper, crop } = this.store.plan;
    // A tool may show more of the photo than is painted.
    const painted = (this.desk?.whole && crop?.width) || 1;
    const { fileOf } = await import('./save.js');
    return fileOf(wanted, { type, quality, widthMm: paper.widthMm / painted });
  }

  /**
   * The outlines of the masses as an SVG file in mm, as wide as the plan's paper: a path a mass, in groups by band, neighbours sharing
   * their borders point for point.
   * @throws DOMException `InvalidStateError` while there is no picture; an error of the core when masses cannot be found
   */
  async outlinesToBlob(): Promise<Blob> {
    const { outlinesFile } = await import('./save.js');
    return outlinesFile(this.store, this.say('band.paper'));
  }

  override render(): TemplateResult {
    const laddered = this.offers('ladder');
    const { desk, intake, words } = this;
    return html`<figure class=${intake.over ? 'over' : ''}>
      <div class="desk ${laddered ? 'laddered' : ''} ${this.#bare() ? 'bare' : ''}">
        <div class="sheet">
          ${this.#renderMount()} ${intake.renderTrouble((reason) => this.tell(reason), words)}
          ${this.#deskPart.renderFailure(words)} ${desk?.renderUnder()}
        </div>
        ${laddered ? html`<div class="side">${desk?.renderLadder()}</div>` : nothing}
        ${desk?.renderWays()} ${desk?.renderFoot()}
      </div>
      <figcaption><slot name="caption"></slot></figcaption>
    </figure>`;
  }

  #renderMount(): TemplateResult {
    const { desk, intake, words } = this;
    const shown = this.showing;
    const vacant = !shown && this.#vacant();
    const operable = desk?.operable;
    return html`<div class="mount" part="mount">
      <div
        class="stage ${shown ? '' : this.#coming() && !this.filled ? 'coming' : 'waiting'} ${vacant ? 'vacant' : ''} ${desk?.stageClasses ?? ''}"
        part="stage"
        role=${operable ? 'group' : nothing}
        tabindex=${operable ? 0 : nothing}
        aria-label=${operable ? words('stage.label') : nothing}
        aria-describedby=${operable ? 'keys' : nothing}
      >
        ${operable ? html`<span id="keys" class="away">${words('stage.keys')}</span>` : nothing}
        <slot ?hidden=${shown || this.store.blank} @slotchange=${this.#onContent}></slot>
        ${
          shown
            ? html`${desk?.renderBelow()}
                <div class="layer">
                  <canvas class="top" role="img" aria-label=${this.#pictureLabel()}></canvas>
                </div>
                ${desk?.renderOver()}`
            : nothing
        }
        ${vacant ? intake.part?.renderEmpty(intake, words) : nothing}
      </div>
      ${intake.renderProgress(words)}
      ${intake.over && shown ? intake.part?.renderDropping(words) : nothing}
    </div>`;
  }

  /** Whether there is nothing in its place, and nothing to come. */
  #vacant(): boolean {
    return !((this.filled && !this.store.blank) || this.#coming() || this.#bare());
  }

  /** Whether a picture is on its way, or waits for the element to come near the viewport. */
  #coming(): boolean {
    const { status } = this.store.picture;
    if (this.starting || status === 'opening') return true;
    return !this.#awake && Boolean(this.src || this.#given);
  }

  #bare(): boolean {
    return this.controls?.trim() === 'none';
  }

  #pictureLabel(): string {
    const { alone } = this;
    const view = this.say(`view.${this.view}`);
    const band =
      alone === undefined || this.view === 'photo' || this.view === 'greys'
        ? ''
        : this.store.plan.board.bands[alone]?.name || this.say('band.paper');
    const key = `picture.label${this.alt ? '-named' : ''}${band ? '-alone' : ''}`;
    return capital(this.say(key, { view, band, alt: this.alt }));
  }

  /** Width by height of what is shown. */
  #ratio(): number {
    const plane = this.#shown()?.plane;
    return plane ? plane.width / plane.height : 1.5;
  }

  /** What there is to show: the whole photo for a tool that wants it, else what is seen. */
  #shown(): Shown | undefined {
    const { handle, plane, bitmap } = this.store.picture;
    if (!this.#awake) return undefined;
    if (this.desk?.whole && handle) return handle.preview;
    return this.desk?.seen ?? (plane ? { plane, bitmap } : undefined);
  }

  #wanted(view: PictureView): Wanted | undefined {
    const shown = this.#shown();
    if (!shown) return undefined;
    const palette = this.#palette();
    if (view !== 'masses') return { ...shown, view, palette };
    return this.desk?.massLayer(palette) ?? { ...shown, view: 'bands', palette };
  }

  #palette(): Uint32Array {
    const cut = cutOf(this.store.plan);
    const only = this.alone;
    if (!this.#memo || this.#memo.only !== only || !sameCut(this.#memo.cut, cut))
      this.#memo = { cut, only, palette: paletteOf(cut, only) };
    return this.#memo.palette;
  }

  #paintSoon(): void {
    this.#frame ||= requestAnimationFrame(() => {
      this.#frame = 0;
      this.#paint();
    });
  }

  #paint(): void {
    const { desk, renderRoot } = this;
    const top = renderRoot.querySelector<HTMLCanvasElement>('.top');
    const wanted = this.#wanted(this.view);
    if (!top || !wanted) return;
    if (this.#layers.prepare(wanted)) return this.#paintSoon();
    this.#layers.paint(top, wanted);
    const below = renderRoot.querySelector<HTMLCanvasElement>('.under');
    if (below && desk?.lifted) this.#layers.paint(below, { ...wanted, view: desk.under });
    else if (below) this.#layers.clear(below);
    const { status, handle } = this.store.picture;
    const complete = desk !== undefined || this.#bare() || this.#deskPart.failed;
    if (status !== 'ready' || !complete || handle === this.#readyFor) return;
    this.#readyFor = handle;
    this.dispatchEvent(new ReadyEvent());
  }

  /** Whether it does not wait until it comes near the viewport. */
  #eager(): boolean {
    return this.loading === 'eager' || typeof IntersectionObserver === 'undefined';
  }

  /** Starts the work: the element is near the viewport. */
  #wake(): void {
    if (this.#awake || !this.isConnected) return;
    this.#awake = true;
    this.#nearness?.disconnect();
    this.requestUpdate();
    this.#fetchDesk();
    void this.#start();
  }

  /** Opens the picture that the page gives. */
  async #start(): Promise<void> {
    const image = this.#contentImage();
    const src = this.src || image?.currentSrc || image?.src;
    if (!this.#given && (!src || (this.tied && this.store.picture.status !== 'empty'))) return;
    this.starting = true;
    await (this.#given ? this.intake.take(this.#given) : this.intake.load(src!));
    this.starting = false;
  }

  /** Brings what the picture is worked with; a bare figure does without. */
  #fetchDesk(): void {
    if (!this.#bare()) void this.#deskPart.fetch();
  }

  /** Lets go of the picture after the element was taken off the page; it is opened again if the element comes back. */
  #leave(): void {
    this.desk?.left();
    this.#layers.release();
    if (this.tied || !this.#awake) return;
    this.#given ??= this.store.source ?? null;
    this.store.dispose();
    this.#awake = false;
    this.#readyFor = undefined;
  }

  #contentImage(): HTMLImageElement | undefined {
    return [...this.children].find(
      (child): child is HTMLImageElement => child instanceof HTMLImageElement && !child.slot,
    );
  }

  #lookForContent(): void {
    this.filled = [...this.childNodes].some((node) =>
      node instanceof Element ? !node.slot : node instanceof Text && node.data.trim() !== '',
    );
  }

  #onContent = (): void => {
    this.#lookForContent();
    if (this.#awake && this.store.picture.status === 'empty' && !this.starting) void this.#start();
  };

  /** Gives the plan the bands and limits that the page asks for. */
  #dress(bands: boolean): void {
    const names = this.bandNames.split(',').map((name) => name.trim());
    try {
      const dress = {
        count: bands ? this.bands : null,
        names: bands ? names.filter(Boolean) : [],
        limits: this.#limitsGiven,
        paperLimit: this.paperLimit,
      };
      dressed(this.store, dress, this.words);
    } catch (thrown) {
      this.fireError(reason('viewer.limits', { message: (thrown as Error).message }));
    }
  }

  #setState(name: string, on: boolean): void {
    try {
      this.#internals?.states[on ? 'add' : 'delete'](name);
    } catch {
      // An engine that spells custom states in another way; they are an extra.
    }
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'value-band-viewer': ValueBandViewer;
  }
}
