import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, query, state } from 'lit/decorators.js';
import {
  keyOf,
  lightnessOfMunsell,
  munsellValue,
  newPlan,
  reason,
  sameLimits,
  smallestSeenMm,
  withBandNamed,
  withLimits,
  type Crop,
  type Plan,
  type Reason,
  type Spot,
} from '../shared/core.js';
import { BandsChangeEvent } from '../shared/events/bands-change.js';
import { LimitsChangeEvent } from '../shared/events/limits-change.js';
import { ReadyEvent } from '../shared/events/ready.js';
import { ViewChangeEvent, type PictureView } from '../shared/events/view-change.js';
import { icon } from '../shared/icons.js';
import { PictureIntake, type PictureLike } from '../shared/picture-intake.js';
import type { StorePlanEvent } from '../shared/plan-store.js';
import { sentence, type Words } from '../shared/strings.js';
import { controls, tokens } from '../shared/tokens.js';
import { TonewellElement } from '../shared/tonewell-element.js';
import { pictureWords } from '../shared/words/picture.js';
import { viewerWords } from '../shared/words/viewer.js';
import { cutOf, paletteOf, sameCut, type Cut } from './cut.js';
import { Gestures, NEARER } from './gestures.js';
import { Ladder } from './ladder.js';
import { Layers, type Sight as Shown, type Wanted } from './layers.js';
import { Looking } from './looking.js';
import { put } from './put.js';
import { fileNameOf, fileOf, handOver } from './save.js';
import {
  boxOf,
  fromPicture,
  NEAREST,
  stageRatio,
  toPicture,
  WHOLE_SIGHT,
  zoomedAt,
  type Box,
  type Sight,
} from './stage.js';
import type { StageTool, StageView, ToolHost } from './stage-tool.js';
import { TurnedCorner } from './turned-corner.js';
import { viewerStyles } from './value-band-viewer.styles.js';

const VIEWS: readonly PictureView[] = ['photo', 'greys', 'bands'];
const WHOLE: Crop = { x: 0, y: 0, width: 1, height: 1 };

/** What may stand around the picture. */
const CONTROLS = [
  'views',
  'corner',
  'ladder',
  'squint',
  'step-back',
  'zoom',
  'save',
  'tools',
  'open',
  'undo',
] as const;
type Control = (typeof CONTROLS)[number];

/** What {@link ValueBandViewer.toBlob} may be told. */
export interface PictureFileOptions {
  /** Which state; the one in sight when missing. */
  view?: PictureView;
  /** A file type that the browser's canvas writes; PNG when missing. */
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
export class ValueBandViewer extends TonewellElement implements ToolHost {
  static override readonly tag = 'value-band-viewer';
  static override readonly words: Words = { ...pictureWords, ...viewerWords };
  static override readonly styles = [tokens, controls, viewerStyles];

  #intake = new PictureIntake(this);
  #layers = new Layers();
  #looking = new Looking(this);
  #ladder = new Ladder(this);
  #corner = new TurnedCorner(this);
  #gestures = new Gestures(this);
  #internals?: ElementInternals;

  #given: PictureLike | null = null;
  #limitsGiven: number[] | null = null;
  #awake = false;
  #nearness?: IntersectionObserver;
  #size?: ResizeObserver;
  #farewell?: ReturnType<typeof setTimeout>;
  #frame = 0;
  /** The plane in hand, and the part of the photo it is of. */
  #plane?: unknown;
  #crop: Crop = WHOLE;
  #handle?: unknown;
  #readyFor?: unknown;
  #error?: Reason;
  #memo?: { cut: Cut; only: number | undefined; palette: Uint32Array };
  #unsettled?: string;
  #wasLifted = false;
  #tools?: StageTool[];
  #toolWords: Words = {};
  #toolPointers = new Set<number>();

  @query('canvas.top') private topCanvas!: HTMLCanvasElement | null;
  @query('canvas.under') private underCanvas!: HTMLCanvasElement | null;
  @query('.stage') private stage!: HTMLElement | null;

  @state() private under: PictureView = 'photo';
  @state() private hand: string | null = null;
  @state() private toolBar: 'shut' | 'loading' | 'open' | 'failed' = 'shut';
  @state() private filled = false;
  @state() private saveFailed = false;

  /** Address of the picture. */
  @property() src = '';

  /** Which state of the picture lies above: `photo`, `greys` or `bands`. */
  @property() view: PictureView = 'bands';

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
   * What stands around the picture, parted by spaces: `views corner ladder squint step-back zoom save tools open undo`, or `none`.
   * When missing: all but `tools` (which a shared plan brings), and `open` only where the page gives no picture.
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
    if (picture && this.#awake) void this.#intake.take(picture);
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
    if (this.loading === 'eager' || typeof IntersectionObserver === 'undefined') {
      void this.updateComplete.then(() => this.#wake());
      return;
    }
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
    this.#size?.disconnect();
    this.#size = undefined;
    cancelAnimationFrame(this.#frame);
    this.#frame = 0;
    // Moved within the page it comes back at once; else its picture is let go.
    this.#farewell = setTimeout(() => this.#leave(), 5000);
  }

  protected override willUpdate(changes: PropertyValues): void {
    super.willUpdate(changes);
    if (!this.hasUpdated) this.#lookForContent();
    const own =
      changes.has('bands') ||
      changes.has('bandNames') ||
      changes.has('limits') ||
      changes.has('paperLimit');
    if (own && (!this.tied || this.hasUpdated))
      this.#dress(changes.has('bands') || changes.has('bandNames'));
    if (!VIEWS.includes(this.view)) this.view = 'bands';
    if (this.under === this.view) this.under = this.view === 'photo' ? 'bands' : 'photo';
  }

  protected override updated(changes: PropertyValues): void {
    if (changes.has('src') && this.#awake && this.src && changes.get('src') !== undefined)
      void this.#intake.load(this.src);
    if (changes.has('controls') && this.#awake) this.#toolsAsked();
    if (!this.#size && this.stage && typeof ResizeObserver !== 'undefined') {
      this.#size = new ResizeObserver(() => this.requestUpdate());
      this.#size.observe(this.stage);
    }
    this.#setState('ready', this.store.picture.status === 'ready');
    this.#setState('opening', this.store.picture.status === 'opening');
    this.#setState('lifted', this.#corner.lifted);
    this.#setState('near', this.sight.zoom > 1);
    this.#paintSoon();
  }

  protected override planChanged(event?: StorePlanEvent): void {
    super.planChanged(event);
    this.#looking.refresh();
  }

  protected override pictureChanged(): void {
    super.pictureChanged();
    const { plane, exact, handle, error } = this.store.picture;
    if (plane !== this.#plane) {
      this.#plane = plane;
      this.#crop = (exact && this.store.plan.crop) || WHOLE;
    }
    if (handle !== this.#handle) {
      this.#handle = handle;
      this.sight = WHOLE_SIGHT;
    }
    this.#looking.refresh();
    if (error && error !== this.#error) this.fireError(error);
    this.#error = error;
  }

  protected override say(
    key: string,
    values: Readonly<Record<string, string | number>> = {},
  ): string {
    return sentence(key, values, this.locale, ValueBandViewer.words, this.#toolWords);
  }

  /** @internal How near the picture is looked at. */
  get sight(): Sight {
    return this.#sight;
  }
  set sight(sight: Sight) {
    if (sight === this.#sight) return;
    this.#sight = sight;
    this.requestUpdate();
  }
  #sight: Sight = WHOLE_SIGHT;

  /** @internal Where the whole picture lies on the stage. */
  get box(): Box {
    const ratio = this.#ratio();
    return boxOf(ratio, stageRatio(ratio));
  }

  /** @internal */
  get canZoom(): boolean {
    return this.#has('zoom') && this.#shown() !== undefined;
  }

  /** @internal */
  stageRect(): DOMRect {
    return this.stage!.getBoundingClientRect();
  }

  /** @internal */
  get stageWidth(): number {
    return this.stage?.clientWidth ?? 0;
  }

  /** @internal */
  get stageHeight(): number {
    return this.stage?.clientHeight ?? 0;
  }

  /** @internal */
  get mirrored(): boolean {
    return getComputedStyle(this).direction === 'rtl';
  }

  /** @internal */
  get aboveBelow(): { above: string; under: string } {
    return {
      above: this.say(`view.name-${this.view}`),
      under: this.say(`view.name-${this.under}`),
    };
  }

  /** @internal */
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
  get counts(): Uint32Array | undefined {
    return this.#looking.seen?.histogram ?? this.store.picture.histogram;
  }

  /** @internal */
  cornerMoved(): void {
    this.requestUpdate();
    const { lifted } = this.#corner;
    if (lifted === this.#wasLifted) return;
    this.#wasLifted = lifted;
    this.#tellView();
  }

  /** @internal */
  lookFailed(reason: Reason): void {
    this.fireError(reason);
  }

  /** @internal Changes the plan on behalf of the person. */
  act(label: string, make: (plan: Plan) => Plan, gesture?: string, settled = true): void {
    const before = this.store.plan;
    this.store.change(label, make, gesture);
    this.#tell(before, gesture, settled);
  }

  /** @internal */
  seeAlone(band: number | undefined): void {
    if (band === this.alone) return;
    this.only =
      band === undefined
        ? ''
        : band === this.store.plan.board.bands.length
          ? 'paper'
          : String(band);
    if (band !== undefined) this.#showBands();
    const name =
      band === undefined ? '' : this.store.plan.board.bands[band]?.name || this.say('band.paper');
    this.announce(
      band === undefined ? this.say('band.now-all') : this.say('band.now-alone', { band: name }),
    );
    this.#tellView();
  }

  /** @internal */
  words(key: string, values?: Readonly<Record<string, string | number>>): string {
    return this.say(key, values);
  }

  /** @internal */
  sentenceOf(reason: Reason): string {
    return this.tell(reason);
  }

  /** @internal */
  speak(text: string): void {
    this.announce(text);
  }

  /** @internal */
  takeUp(tool: string | null): void {
    const before = this.#tool();
    if (before?.name === tool) return;
    before?.laidDown?.();
    this.hand = tool;
    this.#toolPointers.clear();
    this.sight = WHOLE_SIGHT;
    this.#tool()?.takenUp?.();
  }

  /**
   * The picture as it is seen (state, band alone, squint or distance) as a file at its working size.
   * @throws DOMException `InvalidStateError` while there is no picture, `EncodingError` when it cannot be written
   */
  async toBlob({ view = this.view, type, quality }: PictureFileOptions = {}): Promise<Blob> {
    const wanted = this.#wanted(view);
    if (!wanted) throw new DOMException('There is no picture yet.', 'InvalidStateError');
    return fileOf(wanted, type, quality);
  }

  override render(): TemplateResult {
    const laddered = this.#has('ladder');
    const bare = this.controls?.trim() === 'none';
    return html`<figure class=${this.#intake.over ? 'over' : ''}>
      <div class="desk ${laddered ? 'laddered' : ''} ${bare ? 'bare' : ''}">
        <div class="sheet">${this.#renderMount()} ${this.#renderUnder()}</div>
        ${laddered ? html`<div class="side">${this.#ladder.render()}</div>` : nothing}
        ${this.#renderWays()} ${this.#renderFoot()}
      </div>
      <figcaption><slot name="caption"></slot></figcaption>
    </figure>`;
  }

  #renderMount(): TemplateResult {
    const shown = this.#shown();
    const ratio = stageRatio(this.#ratio());
    const { zoom, x, y } = this.sight;
    const tool = this.#tool();
    const cornered = shown && this.#has('corner') && !tool;
    const fold = cornered ? this.#corner.fold() : undefined;
    const lifted = fold !== undefined && this.#corner.lifted;
    const transform = zoom === 1 ? 'none' : `translate(${x * 100}%, ${y * 100}%) scale(${zoom})`;
    const operable = shown && (this.canZoom || tool);
    const classes = [
      'stage',
      shown ? '' : 'waiting',
      zoom > 1 ? 'near' : '',
      this.#gestures.panning ? 'panning' : '',
      tool ? 'in-hand' : '',
    ]
      .filter(Boolean)
      .join(' ');
    const view = tool?.renderOverlay && shown ? this.#stageView() : undefined;
    return html`<div class="mount" part="mount">
      <div
        class=${classes}
        part="stage"
        role=${operable ? 'group' : nothing}
        tabindex=${operable ? 0 : nothing}
        aria-label=${operable ? this.say('stage.label') : nothing}
        aria-describedby=${operable ? 'keys' : nothing}
        ${put({ '--_ratio': String(ratio) })}
        @pointerdown=${this.#onDown}
        @pointermove=${this.#onMove}
        @pointerup=${this.#onUp}
        @pointercancel=${this.#onUp}
        @keydown=${this.#onKey}
        @wheel=${this.#onWheel}
        @touchstart=${this.#onTouch}
        @touchmove=${this.#onTouch}
      >
        ${operable ? html`<span id="keys" class="away">${this.say('stage.keys')}</span>` : nothing}
        <slot ?hidden=${shown !== undefined} @slotchange=${this.#onContent}></slot>
        ${
          shown
            ? html`
                <div class="layer" ?hidden=${!lifted}>
                  <canvas class="under" aria-hidden="true" ${put({ transform })}></canvas>
                </div>
                <div class="layer" ${put({ 'clip-path': fold ? this.#corner.clip(fold) : 'none' })}>
                  <canvas
                    class="top"
                    role="img"
                    aria-label=${this.#pictureLabel()}
                    ${put({ transform })}
                  ></canvas>
                </div>
                ${fold ? html`<svg class="turned" aria-hidden="true">${this.#corner.renderFlap(fold)}</svg>${this.#corner.renderGrip(fold)}` : nothing}
                ${view ? html`<svg class="overlay">${tool!.renderOverlay!(view)}</svg>` : nothing}
              `
            : this.#renderEmpty()
        }
      </div>
      ${this.#intake.over && shown ? html`<div class="dropping">${this.say('empty.drop')}</div>` : nothing}
    </div>`;
  }

  #renderEmpty(): TemplateResult | typeof nothing {
    const coming = this.src || this.#given || this.store.picture.status === 'opening';
    if (this.filled || (coming && !this.store.picture.error) || !this.#has('open')) return nothing;
    return html`<div class="empty">
      <p>
        <strong>${this.#intake.over ? this.say('empty.drop') : this.say('empty.title')}</strong>
        <span class="soft">${this.say('empty.text')}</span>
      </p>
      <div class="group">${this.#intake.renderButtons((key, values) => this.say(key, values))}</div>
    </div>`;
  }

  /** What stands right under the picture: faults and progress, the tool in hand, the states, the key. */
  #renderUnder(): TemplateResult {
    const say = (key: string, values?: Record<string, string | number>): string =>
      this.say(key, values);
    const shown = this.#shown() !== undefined;
    const tool = this.#tool();
    return html`
      ${this.#intake.renderTrouble((reason) => this.tell(reason), say)}
      ${this.#intake.renderProgress(say)}
      ${shown && (this.#has('views') || this.#has('zoom')) ? this.#renderBar() : nothing}
      ${this.#renderTools()}
      ${tool?.renderPanel ? html`<div class="panel" part="panel">${tool.renderPanel()}</div>` : nothing}
    `;
  }

  #renderBar(): TemplateResult {
    const cornered = this.#has('corner') && !this.#tool();
    const { lifted } = this.#corner;
    return html`
      <div class="bar">
        ${this.#has('views') ? this.#renderViews('view.label', this.view, (view) => this.#setView(view)) : nothing}
        ${this.#has('zoom') ? this.#renderZoom() : nothing}
      </div>
      ${
        cornered
          ? html`<div class="bar">
              <button type="button" @click=${() => this.#corner.toggle()}>
                ${icon('corner')}<span>${this.say(lifted ? 'corner.flat' : 'corner.lift')}</span>
              </button>
              ${lifted ? this.#renderViews('corner.under', this.under, (view) => this.#setUnder(view), this.view) : nothing}
            </div>`
          : nothing
      }
      ${this.#has('views') ? html`<p class="told small soft">${this.#told()}</p>` : nothing}
    `;
  }

  /** Only what can be done: a whole picture can only be looked at from nearer. */
  #renderZoom(): TemplateResult {
    const { zoom } = this.sight;
    return html`<div class="segments end" role="group" aria-label=${this.say('zoom.label')}>
      ${
        zoom > 1
          ? html`<button type="button" @click=${() => this.#zoom(1 / NEARER)}>
                ${icon('minus')}<span>${this.say('zoom.out')}</span>
              </button>
              <button type="button" @click=${() => this.#zoom(0)}>${this.say('zoom.fit')}</button>`
          : nothing
      }
      <button type="button" ?disabled=${zoom >= NEAREST} @click=${() => this.#zoom(NEARER)}>
        ${icon('plus')}<span>${this.say('zoom.in')}</span>
      </button>
    </div>`;
  }

  #renderViews(
    label: string,
    chosen: PictureView,
    choose: (view: PictureView) => void,
    barred?: PictureView,
  ): TemplateResult {
    return html`<div class="segments" part="views" role="group" aria-label=${this.say(label)}>
      ${VIEWS.map(
        (view) =>
          html`<button
            type="button"
            aria-pressed=${view === chosen ? 'true' : 'false'}
            ?disabled=${view === barred}
            @click=${() => choose(view)}
          >
            ${this.say(`view.${view}`)}
          </button>`,
      )}
    </div>`;
  }

  #renderTools(): TemplateResult | typeof nothing {
    if (this.toolBar === 'loading')
      return html`<p class="told small soft">${this.say('tools.loading')}</p>`;
    if (this.toolBar === 'failed')
      return html`<div class="trouble" role="alert"><span>${this.say('tools.failed')}</span></div>`;
    if (this.toolBar !== 'open' || !this.#tools || !this.#shown()) return nothing;
    return html`<div
      class="bar tools"
      part="tools"
      role="group"
      aria-label=${this.say('tools.label')}
    >
      <div class="group">
        ${this.#tools.map(
          (tool) =>
            html`<button
              type="button"
              aria-pressed=${tool.name === this.hand ? 'true' : 'false'}
              @click=${() => this.takeUp(tool.name === this.hand ? null : tool.name)}
            >
              ${icon(tool.icon)}<span>${this.say(tool.word)}</span>
            </button>`,
        )}
      </div>
    </div>`;
  }

  /** Squint and step back, each one control. */
  #renderWays(): TemplateResult | typeof nothing {
    const squint = this.#has('squint');
    const back = this.#has('step-back');
    if (!this.#shown() || !(squint || back)) return nothing;
    const { amount, distance, busy, done, fault } = this.#looking;
    const shut =
      amount > 0 ? this.say('look.shut', { amount: 100 * amount }) : this.say('look.open');
    const metres = distance > 0 ? this.say('look.metres', { distance }) : this.say('look.near');
    const at = busy
      ? this.say(amount > 0 ? 'look.squinting' : 'look.stepping', { done: 100 * done })
      : '';
    const exact = this.store.picture.exact;
    return html`<div class="ways" role="group" aria-label=${this.say('look.label')}>
      ${
        squint
          ? html`<div class="look">
              <label for="squint">${this.say('look.squint')}</label
              ><output for="squint">${amount > 0 && at ? at : shut}</output>
              <input
                id="squint"
                type="range"
                min="0"
                max="100"
                step="5"
                ?disabled=${!exact}
                .value=${String(Math.round(100 * amount))}
                aria-valuetext=${shut}
                @input=${this.#onSquint}
              />
            </div>`
          : nothing
      }
      ${
        back
          ? html`<div class="look">
              <label for="back">${this.say('look.back')}</label
              ><output for="back">${distance > 0 && at ? at : metres}</output>
              <input
                id="back"
                type="range"
                min="0"
                max="10"
                step="0.5"
                ?disabled=${!exact}
                .value=${String(distance)}
                aria-valuetext=${metres}
                @input=${this.#onBack}
              />
            </div>`
          : nothing
      }
      ${
        fault
          ? html`<p class="small" role="alert">${this.tell(fault)}</p>`
          : distance > 0
            ? html`<p class="small soft">
                ${this.say('look.gap', { distance, gap: smallestSeenMm(distance) })}
              </p>`
            : nothing
      }
    </div>`;
  }

  #renderFoot(): TemplateResult | typeof nothing {
    const shown = this.#shown() !== undefined;
    const { canUndo, canRedo } = this.store;
    const open = this.#has('open') && shown;
    const save = this.#has('save') && shown;
    const tools = this.#has('tools') && shown;
    const undo = this.#has('undo') && (shown || canUndo || canRedo);
    if (!open && !save && !tools && !undo) return nothing;
    return html`<div class="foot">
      ${
        undo
          ? html`<button type="button" ?disabled=${!canUndo} @click=${() => this.#undo()}>
                ${icon('undo')}<span>${this.say('undo.undo')}</span>
              </button>
              <button type="button" ?disabled=${!canRedo} @click=${() => this.#redo()}>
                ${icon('redo')}<span>${this.say('undo.redo')}</span>
              </button>`
          : nothing
      }
      ${
        tools
          ? html`<button
              type="button"
              aria-expanded=${this.toolBar === 'open' ? 'true' : 'false'}
              @click=${() => this.#toggleTools()}
            >
              ${icon('pen')}<span>${this.say('tools.open')}</span>
            </button>`
          : nothing
      }
      ${save ? html`<button type="button" @click=${() => this.#save()}>${icon('save')}<span>${this.say('save.png')}</span></button>` : nothing}
      ${open ? this.#intake.renderButtons((key, values) => this.say(key, values)) : nothing}
      ${this.saveFailed ? html`<p class="small" role="alert">${this.say('save.failed')}</p>` : nothing}
    </div>`;
  }

  /** What lies above and below; or key and contrast. */
  #told(): string {
    if (this.#corner.lifted && this.#has('corner'))
      return capital(this.say('corner.words', this.aboveBelow));
    const { counts } = this;
    if (!counts?.some((count) => count > 0)) return '';
    const { key, contrast, low, high } = keyOf(counts);
    return this.say('key.words', {
      key: this.say(`key.${key}`),
      contrast: this.say(`contrast.${contrast}`),
      low: munsellValue(low),
      high: munsellValue(high),
    });
  }

  #pictureLabel(): string {
    const { alone } = this;
    const view = this.say(`view.${this.view}`);
    const band =
      alone === undefined || this.view !== 'bands'
        ? ''
        : this.store.plan.board.bands[alone]?.name || this.say('band.paper');
    const key = `picture.label${this.alt ? '-named' : ''}${band ? '-alone' : ''}`;
    return this.say(key, { view, band, alt: this.alt });
  }

  #has(control: Control): boolean {
    if (this.controls !== null) return this.controls.split(/\s+/).includes(control);
    if (control === 'tools') return this.tied;
    if (control === 'open') return this.tied || !(this.src || this.#given || this.#contentImage());
    return true;
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
    if (this.#tool()?.whole && handle) return handle.preview;
    return this.#looking.seen ?? (plane ? { plane, bitmap } : undefined);
  }

  #wanted(view: PictureView): Wanted | undefined {
    const shown = this.#shown();
    return shown && { plane: shown.plane, bitmap: shown.bitmap, view, palette: this.#palette() };
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
    const { topCanvas, underCanvas } = this;
    const wanted = this.#wanted(this.view);
    if (!topCanvas || !underCanvas || !wanted) return;
    this.#layers.paint(topCanvas, wanted);
    if (this.#corner.lifted) this.#layers.paint(underCanvas, { ...wanted, view: this.under });
    else this.#layers.clear(underCanvas);
    const { status, handle } = this.store.picture;
    if (status === 'ready' && handle !== this.#readyFor) {
      this.#readyFor = handle;
      this.dispatchEvent(new ReadyEvent());
    }
  }

  /** Starts the work: the element is near the viewport. */
  #wake(): void {
    if (this.#awake || !this.isConnected) return;
    this.#awake = true;
    this.#nearness?.disconnect();
    this.requestUpdate();
    this.#start();
    this.#toolsAsked();
  }

  #start(): void {
    if (this.#given) void this.#intake.take(this.#given);
    else if (this.tied && this.store.picture.status !== 'empty') return;
    else if (this.src) void this.#intake.load(this.src);
    else {
      const image = this.#contentImage();
      if (image) void this.#intake.load(image.currentSrc || image.src);
    }
  }

  /** Lets go of the picture after the element was taken off the page; it is opened again if the element comes back. */
  #leave(): void {
    this.#layers.release();
    if (this.tied || !this.#awake) return;
    this.#given ??= this.store.source ?? null;
    this.store.dispose();
    this.#awake = false;
    this.#readyFor = undefined;
  }

  #contentImage(): HTMLImageElement | null {
    return (
      [...this.children].find(
        (child): child is HTMLImageElement =>
          child.localName === 'img' && !child.slot && child instanceof HTMLImageElement,
      ) ?? null
    );
  }

  #lookForContent(): void {
    this.filled = [...this.childNodes].some((node) =>
      node instanceof Element ? !node.slot : Boolean(node.textContent?.trim()),
    );
  }

  #onContent = (): void => {
    this.#lookForContent();
    if (!this.#awake || this.src || this.#given || this.store.picture.status !== 'empty') return;
    const image = this.#contentImage();
    if (image) void this.#intake.load(image.currentSrc || image.src);
  };

  /** Gives an own plan the bands and limits that the page asks for. */
  #dress(bands: boolean): void {
    const names = this.bandNames
      .split(',')
      .map((name) => name.trim())
      .filter(Boolean);
    const given = this.#limitsGiven;
    const count = given ? given.length + 1 : bands ? (this.bands ?? (names.length || null)) : null;
    const { store } = this;
    try {
      if (count !== null && count !== store.plan.board.bands.length) {
        if (!Number.isInteger(count) || count < 2 || count > 5)
          throw new RangeError(`bands is ${count}; expected 2 to 5`);
        store.amend('bands', (plan) => withCount(plan, count));
        if (!given) store.freeLimits();
      }
      if (bands)
        names
          .slice(0, store.plan.board.bands.length)
          .forEach((name, band) => store.amend('bands', (plan) => withBandNamed(plan, band, name)));
      if (given) store.fixLimits(given, this.paperLimit ?? undefined);
    } catch (thrown) {
      this.fireError(reason('viewer.limits', { message: (thrown as Error).message }));
    }
  }

  /** Tells what a person's act changed. */
  #tell(before: Plan, gesture?: string, settled = true): void {
    const { plan } = this.store;
    const names = plan.board.bands.map(({ name }) => name);
    const old = before.board.bands.map(({ name }) => name);
    if (names.length !== old.length || names.some((name, i) => name !== old[i]))
      this.dispatchEvent(new BandsChangeEvent(names));
    const moved = !sameLimits(plan, before);
    if (moved && this.view !== 'bands' && !(this.#corner.lifted && this.under === 'bands'))
      this.#showBands();
    if (!moved && !(settled && gesture !== undefined && gesture === this.#unsettled)) return;
    this.#unsettled = settled ? undefined : gesture;
    this.dispatchEvent(new LimitsChangeEvent(plan.photoLimits, plan.paperLimit, settled));
  }

  #tellView(): void {
    const lifted = this.#corner.lifted && this.#has('corner');
    this.dispatchEvent(new ViewChangeEvent(this.view, lifted ? this.under : undefined, this.alone));
  }

  #showBands(): void {
    if (this.view === 'bands') return;
    if (this.under === 'bands') this.under = this.view;
    this.view = 'bands';
  }

  #setView(view: PictureView): void {
    if (view === this.view) return;
    if (view === this.under) this.under = this.view;
    this.view = view;
    this.#tellView();
  }

  #setUnder(view: PictureView): void {
    this.under = view;
    this.#tellView();
  }

  #undo(): void {
    const before = this.store.plan;
    this.store.undo();
    this.#tell(before);
  }

  #redo(): void {
    const before = this.store.plan;
    this.store.redo();
    this.#tell(before);
  }

  /** Looks nearer or further off from the middle; 0 shows the whole picture. */
  #zoom(factor: number): void {
    this.sight = zoomedAt(this.sight, factor, 0.5, 0.5, this.box);
    // The button that was pressed goes when the whole picture shows: the focus goes to the picture then.
    if (this.sight.zoom === 1) this.stage?.focus({ preventScroll: true });
  }

  async #save(): Promise<void> {
    this.saveFailed = false;
    const { alone, store } = this;
    const band =
      alone === undefined || this.view !== 'bands'
        ? ''
        : store.plan.board.bands[alone]?.name || this.say('band.paper');
    try {
      handOver(
        await this.toBlob(),
        fileNameOf(store.picture.name, [this.say(`view.${this.view}`), band]),
      );
    } catch {
      this.saveFailed = true;
    }
  }

  #setState(name: string, on: boolean): void {
    const states = this.#internals?.states;
    try {
      if (on) states?.add(name);
      else states?.delete(name);
    } catch {
      // An engine that wants another spelling of states; they are an extra.
    }
  }

  #onSquint = (event: Event): void =>
    this.#looking.squint(Number((event.target as HTMLInputElement).value) / 100);

  #onBack = (event: Event): void =>
    this.#looking.stepBack(Number((event.target as HTMLInputElement).value));

  #tool(): StageTool | undefined {
    return this.hand === null ? undefined : this.#tools?.find(({ name }) => name === this.hand);
  }

  #toolsAsked(): void {
    if (this.controls !== null && this.#has('tools') && this.toolBar === 'shut')
      void this.#fetchTools();
  }

  #toggleTools(): void {
    if (this.toolBar === 'loading') return;
    if (this.toolBar !== 'open') return void this.#fetchTools();
    this.takeUp(null);
    this.toolBar = 'shut';
  }

  async #fetchTools(): Promise<void> {
    try {
      if (!this.#tools) {
        this.toolBar = 'loading';
        const { makeTools, toolsStyles, toolsWords } = await import('./tools/index.js');
        this.#toolWords = toolsWords;
        const { styleSheet } = toolsStyles;
        if (styleSheet) this.shadowRoot!.adoptedStyleSheets.push(styleSheet);
        this.#tools = makeTools(this);
      }
      this.toolBar = 'open';
    } catch {
      this.toolBar = 'failed';
    }
  }

  #stageView(): StageView {
    const rect = this.stageRect();
    const { sight, box } = this;
    const { handle } = this.store.picture;
    const crop = this.#tool()?.whole ? WHOLE : this.#crop;
    const [width, height] = [rect.width, rect.height];
    const longer = Math.max(handle?.width ?? 1, handle?.height ?? 1);
    return {
      width,
      height,
      toPhoto: (clientX, clientY): Spot => {
        const [u, v] = toPicture(
          sight,
          box,
          (clientX - rect.left) / width,
          (clientY - rect.top) / height,
        );
        return [crop.x + u * crop.width, crop.y + v * crop.height];
      },
      toStage: ([x, y]) => {
        const [px, py] = fromPicture(
          sight,
          box,
          (x - crop.x) / crop.width,
          (y - crop.y) / crop.height,
        );
        return [px * width, py * height];
      },
      toStageLength: (fraction) =>
        (fraction * longer * box.width * sight.zoom * width) / (crop.width * (handle?.width ?? 1)),
    };
  }

  #onDown = (event: PointerEvent): void => {
    const tool = this.#tool();
    if (tool?.pointerDown && event.button === 0 && tool.pointerDown(event, this.#stageView())) {
      this.#toolPointers.add(event.pointerId);
      this.stage!.setPointerCapture(event.pointerId);
      this.requestUpdate();
      return;
    }
    this.#gestures.down(event);
    if (this.sight.zoom > 1) this.requestUpdate();
  };

  #onMove = (event: PointerEvent): void => {
    const tool = this.#tool();
    if (tool?.pointerMove?.(event, this.#stageView())) this.requestUpdate();
    else if (!this.#toolPointers.has(event.pointerId)) this.#gestures.move(event);
  };

  #onUp = (event: PointerEvent): void => {
    if (this.#toolPointers.delete(event.pointerId))
      this.#tool()?.pointerUp?.(event, this.#stageView());
    else this.#gestures.up(event);
    this.requestUpdate();
  };

  #onKey = (event: KeyboardEvent): void => {
    if (event.target !== event.currentTarget && !this.#tool()) return;
    const tool = this.#tool();
    if (tool?.keyDown?.(event, this.#stageView())) {
      event.preventDefault();
      this.requestUpdate();
    } else if (tool && event.key === 'Escape') this.takeUp(null);
    else if (this.#gestures.key(event)) event.preventDefault();
  };

  #onWheel = {
    handleEvent: (event: WheelEvent): void => this.#gestures.wheel(event),
    passive: false,
  };

  #onTouch = {
    handleEvent: (event: TouchEvent): void => this.#gestures.touch(event),
    passive: false,
  };
}

/** The plan with so many bands of even width in value, with plain names. */
function withCount(plan: Plan, count: number): Plan {
  const even = Array.from({ length: count - 1 }, (_, i) =>
    lightnessOfMunsell((10 * (i + 1)) / count),
  );
  const { board, photoLimits, paintLimits } = newPlan({ photoLimits: even });
  return withLimits(
    { ...plan, photoLimits, paintLimits, board: { ...plan.board, bands: board.bands } },
    even,
  );
}

/** A sentence with a capital first letter. */
function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

declare global {
  interface HTMLElementTagNameMap {
    'value-band-viewer': ValueBandViewer;
  }
}
