import type { CSSResult, ReactiveControllerHost } from 'lit';
import { html, nothing, type TemplateResult } from 'lit';
import {
  keyOf,
  munsellValue,
  sameLimits,
  smallestSeenMm,
  type Crop,
  type Lightness,
  type Plan,
  type Reason,
} from '../shared/core.js';
import { controls } from '../shared/controls.styles.js';
import { BandsChangeEvent } from '../shared/events/bands-change.js';
import { LimitsChangeEvent } from '../shared/events/limits-change.js';
import { ViewChangeEvent, type PictureView } from '../shared/events/view-change.js';
import { icon } from '../shared/icons.js';
import { feetOf } from '../shared/measure.js';
import type { PictureIntake } from '../shared/picture-intake.js';
import type { Words } from '../shared/strings.js';
import { unitsFilesWords } from '../shared/words/units-files.js';
import { deskWords as words } from '../shared/words/viewer-desk.js';
import { capital } from './capital.js';
import { deskStyles } from './desk.styles.js';
import type { Fold } from './corner.js';
import { cutOf, palettePerBand } from './cut.js';
import { Gestures, NEARER, type GestureHost } from './gestures.js';
import { Ladder, type LadderHost } from './ladder.js';
import type { Wanted } from './layers.js';
import { Looking, type Seen } from './looking.js';
import { put } from '../shared/put.js';
import { handOver, walledOff } from '../shared/files.js';
import { fileNameOf } from './save.js';
import { NEAREST, WHOLE_SIGHT, zoomedAt, type Box, type Sight } from './stage.js';
import { stageViewOf } from './stage-view.js';
import type { StageTool, StageView } from './stage-tool.js';
import type { Tracings } from './tracings.js';
import type { TracingHost } from './tracings-shown.js';
import { TurnedCorner, type CornerHost } from './turned-corner.js';
import { VIEWS, type Control } from './controls.js';

/** What the desk needs of its viewer. */
export interface DeskHost extends TracingHost, ReactiveControllerHost {
  requestUpdate(): void;
  readonly intake: Pick<PictureIntake, 'renderButtons'>;
  readonly tied: boolean;
  readonly updateComplete: Promise<boolean>;
  view: PictureView;
  only: string;
  readonly alone: number | undefined;
  readonly controls: string | null;
  readonly stage: HTMLElement | null;
  readonly box: Box;
  /** The part of the photo that the plane in hand is of. */
  readonly crop: Crop;
  /** Whether there is a picture in sight. */
  readonly showing: boolean;
  offers(control: Control): boolean;
  toBlob(): Promise<Blob>;
  outlinesToBlob(): Promise<Blob>;
  fireError(reason: Reason): void;
  /** Takes up words and looks that came later. */
  adopt(words: Words, styles: readonly CSSResult[]): void;
}

export const deskLooks = [controls, deskStyles];
export const deskWords: Words = { ...unitsFilesWords, ...words };

const WHOLE: Crop = { x: 0, y: 0, width: 1, height: 1 };

/**
 * All that a person works the picture with: the choice of states, the corner, zoom, the ladder, ways of looking, tools, saving,
 * undo. It comes when the viewer first needs it; a bare figure does without.
 */
export class Desk implements LadderHost, CornerHost, GestureHost {
  under: PictureView = 'photo';

  #host: DeskHost;
  #looking: Looking;
  #ladder: Ladder;
  #corner: TurnedCorner;
  #gestures: Gestures;
  #size?: ResizeObserver;
  #handle?: unknown;
  #unsettled?: string;
  #wasLifted = false;
  #saveFailed = false;
  #saved = false;
  #hand: string | null = null;
  #toolBar: 'shut' | 'loading' | 'open' | 'failed' = 'shut';
  #tools?: StageTool[];
  #tracings?: Tracings;
  #tracingBar: 'shut' | 'loading' | 'open' | 'failed' = 'shut';
  #tracingsComing = false;
  #toolPointers = new Set<number>();
  /** How the corner of the upper layer is turned over. */
  #fold?: Fold;
  #massPalette?: { of: Uint32Array; palette: Uint32Array };
  #pressed?: [x: number, y: number];

  constructor(host: DeskHost) {
    this.#host = host;
    this.#looking = new Looking(host);
    this.#ladder = new Ladder(this);
    this.#corner = new TurnedCorner(this);
    this.#gestures = new Gestures(this);
    this.#size =
      typeof ResizeObserver === 'undefined'
        ? undefined
        : new ResizeObserver(() => host.requestUpdate());
    if (host.stage) this.#hear(host.stage);
    this.toolsAsked();
    this.tracingsAsked();
  }

  /** How near the picture is looked at. */
  get sight(): Sight {
    return this.#sight;
  }
  set sight(sight: Sight) {
    if (sight === this.#sight) return;
    this.#sight = sight;
    this.requestUpdate();
  }
  #sight: Sight = WHOLE_SIGHT;

  get box(): Box {
    return this.#host.box;
  }

  get store(): DeskHost['store'] {
    return this.#host.store;
  }

  /** What is seen by squinting or from a distance. */
  get seen(): Seen | undefined {
    return this.#looking.seen;
  }

  /** Whether the tool in hand wants the whole photo. */
  get whole(): boolean {
    return this.#tool?.whole ?? false;
  }

  get lifted(): boolean {
    return this.#corner.lifted && this.#cornered;
  }

  get counts(): Uint32Array | undefined {
    return this.#looking.seen?.histogram ?? this.store.picture.histogram;
  }

  get alone(): number | undefined {
    return this.#host.alone;
  }

  get canZoom(): boolean {
    return this.#host.offers('zoom') && this.#host.showing;
  }

  get stageWidth(): number {
    return this.#host.stage?.clientWidth ?? 0;
  }

  get stageHeight(): number {
    return this.#host.stage?.clientHeight ?? 0;
  }

  get mirrored(): boolean {
    return getComputedStyle(this.#host).direction === 'rtl';
  }

  get aboveBelow(): { above: string; under: string } {
    return {
      above: this.words(`view.name-${this.#host.view}`),
      under: this.words(`view.name-${this.under}`),
    };
  }

  /** The stage can be worked by keys. */
  get operable(): boolean {
    return this.#host.showing && (this.canZoom || this.#tool !== undefined);
  }

  /** Classes of the stage. */
  get stageClasses(): string {
    return [
      this.sight.zoom > 1 ? 'near' : '',
      this.#gestures.panning ? 'panning' : '',
      this.#tool ? 'in-hand' : '',
    ]
      .filter(Boolean)
      .join(' ');
  }

  get #cornered(): boolean {
    return this.#host.showing && this.#host.offers('corner') && !this.#tool;
  }

  get #tool(): StageTool | undefined {
    return this.#hand === null ? undefined : this.#tools?.find(({ name }) => name === this.#hand);
  }

  words(key: string, values?: Readonly<Record<string, string | number>>): string {
    return this.#host.words(key, values);
  }

  speak(text: string): void {
    this.#host.speak(text);
  }

  requestUpdate(): void {
    this.#host.requestUpdate();
  }

  /** The plan or the picture changed. */
  changed(): void {
    const { handle } = this.store.picture;
    if (handle !== this.#handle) this.sight = WHOLE_SIGHT;
    this.#handle = handle;
    this.#looking.refresh();
    this.#tracings?.sync();
  }

  /** The two states differ: the lower one gives way. */
  part(): void {
    if (this.under === this.#host.view)
      this.under = this.#host.view === 'photo' ? 'bands' : 'photo';
  }

  /** A page that asks for tools has them at hand; else the button fetches them. */
  toolsAsked(): void {
    const { controls } = this.#host;
    const offered = this.#host.offers('tools');
    if (controls !== null && offered && this.#toolBar === 'shut') void this.#fetchTools();
    else if (!offered && this.#toolBar === 'open') this.#toggleTools();
  }

  /** Bands of the masses, once they are found. */
  get massPlane(): Lightness | undefined {
    return this.#tracings?.plane;
  }

  /**
   * The masses as they are painted, once they are found.
   * @param of - the palette of the bands that they follow.
   */
  massLayer(of: Uint32Array): Wanted | undefined {
    const plane = this.massPlane;
    if (!plane) return undefined;
    if (this.#massPalette?.of !== of)
      this.#massPalette = { of, palette: palettePerBand(cutOf(this.store.plan), this.alone) };
    return { plane, view: 'masses', palette: this.#massPalette.palette };
  }

  /** Whether masses are looked at, as the picture's state or as a tracing. */
  get #massed(): boolean {
    return this.#host.massed || this.#host.traced.includes('masses');
  }

  /** Other tracings, or masses as the picture's state, are asked for. */
  tracingsAsked(): void {
    if (this.#tracings) this.#tracings.sync();
    else if (this.#host.traced.length > 0 || this.#host.massed) void this.#fetchTracings();
  }

  /** The viewer left the page. */
  left(): void {
    this.#tracings?.leave();
  }

  stageRect(): DOMRect {
    return this.#host.stage!.getBoundingClientRect();
  }

  /** Changes the plan on behalf of the person. */
  act(label: string, make: (plan: Plan) => Plan, gesture?: string, settled = true): void {
    const before = this.store.plan;
    this.store.change(label, make, gesture);
    this.#tell(before, gesture, settled);
  }

  seeAlone(band: number | undefined): void {
    if (band === this.alone) return;
    const { bands } = this.store.plan.board;
    this.#host.only = band === undefined ? '' : band === bands.length ? 'paper' : String(band);
    if (band !== undefined) this.#showBands();
    this.speak(
      band === undefined
        ? this.words('band.now-all')
        : this.words('band.now-alone', { band: this.#nameOf(band) }),
    );
    this.#tellView();
  }

  cornerMoved(): void {
    this.requestUpdate();
    const { lifted } = this.#corner;
    if (lifted === this.#wasLifted) return;
    this.#wasLifted = lifted;
    this.tracingsAsked();
    this.#tellView();
  }

  /** Takes a tool up, in place of the one in hand; null puts that aside. */
  takeUp(tool: string | null): void {
    const before = this.#tool;
    if ((before?.name ?? null) === tool) return;
    before?.laidDown?.();
    this.#hand = tool;
    this.#toolPointers.clear();
    this.sight = WHOLE_SIGHT;
    this.#tool?.takenUp?.();
    this.requestUpdate();
  }

  /** What the upper layer is cut to. */
  /** The turned corner and what a tool draws. */
  renderOver(): TemplateResult {
    const fold = (this.#fold = this.#cornered ? this.#corner.fold() : undefined);
    const tool = this.#tool;
    const traced = this.#tracings && this.#host.traced.length > 0 && this.#tracings;
    return html`
      ${traced ? html`<svg class="overlay" aria-hidden="true">${traced.renderOverlay(this.#view())}</svg>` : nothing}
      ${fold ? html`<svg class="turned" aria-hidden="true">${this.#corner.renderFlap(fold)}</svg>${this.#corner.renderGrip(fold)}` : nothing}
      ${tool?.renderOverlay ? html`<svg class="overlay">${tool.renderOverlay(this.#view())}</svg>` : nothing}
    `;
  }

  renderLadder(): TemplateResult {
    return this.#ladder.render();
  }

  /** What stands right under the picture: states, corner, zoom; key and contrast; the tools and what the one in hand shows. */
  renderUnder(): TemplateResult | typeof nothing {
    if (!this.#host.showing) return nothing;
    const tool = this.#tool;
    const views = this.#host.offers('views');
    return html`
      <div class="bar">
        ${views ? this.#renderViews('view.label', this.#host.view, (view) => this.#setView(view)) : nothing}
        ${this.#renderDoings()} ${this.#host.offers('zoom') ? this.#renderZoom() : nothing}
      </div>
      ${views ? html`<p class="told small soft">${this.#told()}</p>` : nothing}
      ${this.#renderTracings()} ${this.#renderTools()}
      ${tool?.renderPanel ? html`<div class="panel" part="panel">${tool.renderPanel()}</div>` : nothing}
    `;
  }

  #renderViews(
    label: string,
    chosen: PictureView,
    choose: (view: PictureView) => void,
    barred?: PictureView,
  ): TemplateResult {
    return html`<div class="segments" part="views" role="group" aria-label=${this.words(label)}>
      ${VIEWS.map(
        (view) =>
          html`<button
            type="button"
            aria-pressed=${view === chosen ? 'true' : 'false'}
            ?disabled=${view === barred}
            @click=${() => choose(view)}
          >
            ${this.words(`view.${view}`)}
          </button>`,
      )}
    </div>`;
  }

  /** What can be done with the sheet: lift its corner, take up a tool. */
  #renderDoings(): TemplateResult | typeof nothing {
    const cornered = this.#cornered;
    const tools = this.#host.offers('tools');
    const tracings = this.#host.offers('tracings');
    if (!cornered && !tools && !tracings) return nothing;
    const { lifted } = this.#corner;
    return html`<div class="group doings">
      ${
        cornered
          ? html`<button type="button" @click=${() => this.#corner.toggle()}>
              ${icon('corner')}<span>${this.words(lifted ? 'corner.flat' : 'corner.lift')}</span>
            </button>`
          : nothing
      }
      ${
        tracings
          ? html`<button
              type="button"
              aria-expanded=${this.#tracingBar === 'open' ? 'true' : 'false'}
              @click=${() => this.#toggleTracings()}
            >
              ${icon('tracing')}<span>${this.words('tracing.open')}</span>
            </button>`
          : nothing
      }
      ${
        tools
          ? html`<button
              type="button"
              aria-expanded=${this.#toolBar === 'open' ? 'true' : 'false'}
              @click=${() => this.#toggleTools()}
            >
              ${icon('pen')}<span>${this.words('tools.open')}</span>
            </button>`
          : nothing
      }
      ${cornered && lifted ? this.#renderViews('corner.under', this.under, (view) => this.#setUnder(view), this.#host.view) : nothing}
    </div>`;
  }

  /** Only what can be done: a whole picture can only be looked at from nearer. */
  #renderZoom(): TemplateResult {
    const { zoom } = this.sight;
    return html`<div class="segments end" role="group" aria-label=${this.words('zoom.label')}>
      ${
        zoom > 1
          ? html`<button type="button" @click=${() => this.#zoom(1 / NEARER)}>
                ${icon('minus')}<span>${this.words('zoom.out')}</span>
              </button>
              <button type="button" @click=${() => this.#zoom(0)}>
                ${this.words('zoom.fit')}
              </button>`
          : nothing
      }
      <button type="button" ?disabled=${zoom >= NEAREST} @click=${() => this.#zoom(NEARER)}>
        ${icon('plus')}<span>${this.words('zoom.in')}</span>
      </button>
    </div>`;
  }

  #renderTracings(): TemplateResult | typeof nothing {
    if (this.#tracingBar === 'loading')
      return html`<p class="told small soft">${this.words('tools.loading')}</p>`;
    if (this.#tracingBar === 'failed')
      return html`<div class="trouble" role="alert">
        <span>${this.words('tracing.failed')}</span>
      </div>`;
    return (this.#tracingBar === 'open' && this.#tracings?.renderPanel()) || nothing;
  }

  #renderTools(): TemplateResult | typeof nothing {
    if (this.#toolBar === 'loading')
      return html`<p class="told small soft">${this.words('tools.loading')}</p>`;
    if (this.#toolBar === 'failed')
      return html`<div class="trouble" role="alert">
        <span>${this.words('tools.failed')}</span>
      </div>`;
    if (this.#toolBar !== 'open' || !this.#tools) return nothing;
    return html`<div
      class="group tool-bar"
      part="tools"
      role="group"
      aria-label=${this.words('tools.label')}
    >
      ${this.#tools.map(
        (tool) =>
          html`<button
            type="button"
            aria-pressed=${tool.name === this.#hand ? 'true' : 'false'}
            @click=${() => this.takeUp(tool.name === this.#hand ? null : tool.name)}
          >
            ${icon(tool.icon)}<span>${this.words(tool.word)}</span>
          </button>`,
      )}
    </div>`;
  }

  /** Squint and step back, each one control. */
  renderWays(): TemplateResult | typeof nothing {
    const squint = this.#host.offers('squint');
    const back = this.#host.offers('step-back');
    if (!this.#host.showing || !(squint || back)) return nothing;
    const { amount, distance, busy, done, fault } = this.#looking;
    const shut =
      amount > 0 ? this.words('look.shut', { amount: 100 * amount }) : this.words('look.open');
    const away = distance > 0 ? this.#away(distance) : this.words('look.near');
    const told = fault
      ? this.#host.sentenceOf(fault)
      : busy
        ? this.words(amount > 0 ? 'look.squinting' : 'look.stepping', { done: 100 * done })
        : distance > 0
          ? this.words('look.gap', {
              distance: this.#away(distance),
              gap: this.#host.lengthOf(smallestSeenMm(distance)),
            })
          : amount > 0
            ? this.words('look.squinted')
            : this.words('look.hint');
    return html`<div class="ways" role="group" aria-label=${this.words('look.label')}>
      ${squint ? this.#renderWay('squint', 'look.squint', shut, 100, 5, Math.round(100 * amount), (value) => this.#looking.squint(value / 100)) : nothing}
      ${back ? this.#renderWay('step-back', 'look.back', away, 10, 0.5, distance, (value) => this.#looking.stepBack(value)) : nothing}
      <p class="small soft" role=${fault ? 'alert' : nothing}>${told}</p>
    </div>`;
  }

  /** A distance from the picture in words: metres, or feet where lengths are told in inches. */
  #away(metres: number): string {
    return this.#host.lengthUnit === 'mm'
      ? this.words('look.metres', { distance: metres })
      : this.words('look.feet', { distance: feetOf(metres) });
  }

  #renderWay(
    id: string,
    label: string,
    told: string,
    max: number,
    step: number,
    value: number,
    set: (value: number) => void,
  ): TemplateResult {
    return html`<div class="look">
      <label for=${id}>${this.words(label)}</label>
      <output for=${id} aria-live="off">${told}</output>
      <input
        id=${id}
        type="range"
        min="0"
        max=${max}
        step=${step}
        ?disabled=${!this.store.picture.exact}
        .value=${String(value)}
        aria-valuetext=${told}
        @input=${(event: Event) => set(Number((event.target as HTMLInputElement).value))}
      />
    </div>`;
  }

  renderFoot(): TemplateResult | typeof nothing {
    const { showing } = this.#host;
    const { canUndo, canRedo } = this.store;
    const offers = (control: Control): boolean => showing && this.#host.offers(control);
    if (!['open', 'save', 'undo'].some((control) => offers(control as Control))) return nothing;
    return html`<div class="foot">
      ${
        offers('undo')
          ? html`<button type="button" ?disabled=${!canUndo} @click=${() => this.#step('undo')}>
                ${icon('undo')}<span>${this.words('undo.undo')}</span>
              </button>
              <button type="button" ?disabled=${!canRedo} @click=${() => this.#step('redo')}>
                ${icon('redo')}<span>${this.words('undo.redo')}</span>
              </button>`
          : nothing
      }
      ${offers('save') ? html`<button type="button" @click=${() => this.#save()}>${icon('save')}<span>${this.words('save.png')}</span></button>` : nothing}
      ${offers('save') && this.#massed ? html`<button type="button" data-save-outlines ?disabled=${!this.massPlane} @click=${() => this.#saveOutlines()}>${icon('tracing')}<span>${this.words('save.outlines')}</span></button>` : nothing}
      ${offers('open') ? this.#host.intake.renderButtons((key, values) => this.words(key, values)) : nothing}
      ${this.#saveFailed ? html`<p class="small" role="alert">${this.words('save.failed')}</p>` : nothing}
      ${this.#saved && walledOff() ? html`<p class="small" role="status">${this.words('files.walled')}</p>` : nothing}
    </div>`;
  }

  /** What lies above and below; or key and contrast. */
  #told(): string {
    if (this.#host.view === 'masses' && !this.massPlane) return this.words('view.masses-coming');
    if (this.lifted) return capital(this.words('corner.words', this.aboveBelow));
    const { counts } = this;
    if (!counts?.some((count) => count > 0)) return '';
    const { key, contrast, low, high } = keyOf(counts);
    if (high - low < 1) return this.words('key.flat', { value: munsellValue((low + high) / 2) });
    return this.words('key.words', {
      key: this.words(`key.${key}`),
      contrast: this.words(`contrast.${contrast}`),
      low: munsellValue(low),
      high: munsellValue(high),
    });
  }

  #nameOf(band: number): string {
    return this.store.plan.board.bands[band]?.name || this.words('band.paper');
  }

  /** Tells what a person's act changed. */
  #tell(before: Plan, gesture?: string, settled = true): void {
    const { plan } = this.store;
    const names = plan.board.bands.map(({ name }) => name);
    const old = before.board.bands.map(({ name }) => name);
    const host = this.#host;
    if (names.length !== old.length || names.some((name, i) => name !== old[i]))
      host.dispatchEvent(new BandsChangeEvent(names));
    const moved = !sameLimits(plan, before);
    // Who moves a limit wants to see what it does.
    if (moved && !(this.lifted && this.under === 'bands')) this.#showBands();
    if (!moved && !(settled && gesture !== undefined && gesture === this.#unsettled)) return;
    this.#unsettled = settled ? undefined : gesture;
    host.dispatchEvent(new LimitsChangeEvent(plan.photoLimits, plan.paperLimit, settled));
  }

  #tellView(): void {
    this.#host.dispatchEvent(
      new ViewChangeEvent(this.#host.view, this.lifted ? this.under : undefined, this.alone),
    );
  }

  #showBands(): void {
    const host = this.#host;
    if (host.view === 'bands') return;
    if (this.under === 'bands') this.under = host.view;
    host.view = 'bands';
  }

  #setView(view: PictureView): void {
    const host = this.#host;
    if (view === host.view) return;
    if (view === this.under) this.under = host.view;
    host.view = view;
    this.#tellView();
  }

  #setUnder(view: PictureView): void {
    this.under = view;
    this.tracingsAsked();
    this.requestUpdate();
    this.#tellView();
  }

  #step(way: 'undo' | 'redo'): void {
    const before = this.store.plan;
    this.store[way]();
    this.#tell(before);
  }

  /** Looks nearer or further off from the middle; 0 shows the whole picture. */
  #zoom(factor: number): void {
    this.sight = zoomedAt(this.sight, factor, 0.5, 0.5, this.box);
    // The button that was pressed goes when the whole picture shows: the focus goes to the picture then.
    if (this.sight.zoom === 1) this.#host.stage?.focus({ preventScroll: true });
  }

  #save(): Promise<void> {
    const { alone } = this;
    const { view } = this.#host;
    const band = alone === undefined || view !== 'bands' ? '' : this.#nameOf(alone);
    return this.#handOver(this.#host.toBlob(), [this.words(`view.${view}`), band]);
  }

  #saveOutlines(): Promise<void> {
    return this.#handOver(this.#host.outlinesToBlob(), [this.words('save.outlines-name')], 'svg');
  }

  async #handOver(file: Promise<Blob>, parts: readonly string[], ending?: string): Promise<void> {
    this.#saveFailed = this.#saved = false;
    try {
      handOver(await file, fileNameOf(this.store.picture.name, parts, ending));
      this.#saved = true;
    } catch {
      this.#saveFailed = true;
    }
    this.requestUpdate();
  }

  #toggleTools(): void {
    if (this.#toolBar === 'loading') return;
    if (this.#toolBar !== 'open') return void this.#fetchTools();
    this.takeUp(null);
    this.#toolBar = 'shut';
    this.requestUpdate();
  }

  #toggleTracings(): void {
    if (this.#tracingBar === 'loading') return;
    if (this.#tracingBar !== 'open') {
      this.#tracingBar = this.#tracings ? 'open' : 'loading';
      if (!this.#tracings) void this.#fetchTracings();
    } else this.#tracingBar = 'shut';
    this.requestUpdate();
  }

  async #fetchTracings(): Promise<void> {
    if (this.#tracingsComing) return;
    this.#tracingsComing = true;
    try {
      const { Tracings, tracingsStyles, tracingsWords } = await import('./tracings.js');
      this.#host.adopt(tracingsWords, tracingsStyles);
      this.#tracings = new Tracings(this.#host);
      this.#tracings.sync();
      if (this.#tracingBar === 'loading') this.#tracingBar = 'open';
    } catch {
      this.#tracingBar = 'failed';
    }
    this.#tracingsComing = false;
    this.requestUpdate();
  }

  async #fetchTools(): Promise<void> {
    try {
      if (!this.#tools) {
        this.#toolBar = 'loading';
        this.requestUpdate();
        const { makeTools, toolsStyles, toolsWords } = await import('./tools/index.js');
        this.#host.adopt(toolsWords, toolsStyles);
        this.#tools = makeTools(this.#host);
      }
      this.#toolBar = 'open';
    } catch {
      this.#toolBar = 'failed';
    }
    this.requestUpdate();
  }

  #view(): StageView {
    const { box, crop } = this.#host;
    const { width = 1, height = 1 } = this.store.picture.handle ?? {};
    return stageViewOf({
      rect: this.stageRect(),
      sight: this.sight,
      box,
      crop: this.whole ? WHOLE : crop,
      photo: { width, height },
    });
  }

  /** After each update: the upper layer is cut where the corner is lifted, and shown as near as it is looked at. */
  settle(): void {
    const top = this.#host.stage?.querySelector<HTMLElement>('.top');
    if (!top) return;
    top.style.setProperty('transform', this.#transform);
    const clip = this.#fold ? this.#corner.clip(this.#fold) : 'none';
    top.parentElement!.style.setProperty('clip-path', clip);
  }

  /** Follows the stage's size, and what a person does on it. */
  #hear(stage: HTMLElement): void {
    this.#size?.observe(stage);
    stage.addEventListener('pointerdown', this.#onDown);
    stage.addEventListener('pointermove', this.#onMove);
    stage.addEventListener('pointerup', this.#onUp);
    stage.addEventListener('pointercancel', this.#onUp);
    stage.addEventListener('keydown', this.#onKey);
    const active = { passive: false };
    stage.addEventListener('wheel', (event) => this.#gestures.wheel(event), active);
    for (const type of ['touchstart', 'touchmove'] as const)
      stage.addEventListener(type, (event) => this.#gestures.touch(event), active);
  }

  #onDown = (event: PointerEvent): void => {
    if (event.button === 0 && this.#tool?.pointerDown?.(event, this.#view())) {
      this.#toolPointers.add(event.pointerId);
      this.#host.stage!.setPointerCapture(event.pointerId);
      this.requestUpdate();
      return;
    }
    this.#pressed = event.button === 0 && !this.#tool ? [event.clientX, event.clientY] : undefined;
    this.#gestures.down(event);
    if (this.sight.zoom > 1) this.requestUpdate();
  };

  #onMove = (event: PointerEvent): void => {
    const tool = this.#tool;
    if (tool?.pointerMove?.(event, this.#view())) this.requestUpdate();
    else if (!this.#toolPointers.has(event.pointerId)) this.#gestures.move(event);
  };

  #onUp = (event: PointerEvent): void => {
    const [x, y] = this.#pressed ?? [NaN, NaN];
    this.#pressed = undefined;
    // A press that did not move points at a mass.
    if (event.type === 'pointerup' && Math.hypot(event.clientX - x, event.clientY - y) < 5)
      this.#tracings?.pointAt(event, this.#view());
    if (this.#toolPointers.delete(event.pointerId)) this.#tool?.pointerUp?.(event, this.#view());
    else this.#gestures.up(event);
    if (this.#tool || this.sight.zoom > 1) this.requestUpdate();
  };

  #onKey = (event: KeyboardEvent): void => {
    const tool = this.#tool;
    if (event.target !== event.currentTarget && !tool) return;
    if (tool?.keyDown?.(event, this.#view())) {
      event.preventDefault();
      this.requestUpdate();
    } else if (tool && event.key === 'Escape') this.takeUp(null);
    else if (this.#gestures.key(event)) event.preventDefault();
  };

  get #transform(): string {
    const { zoom, x, y } = this.sight;
    return zoom === 1 ? 'none' : `translate(${x * 100}%, ${y * 100}%) scale(${zoom})`;
  }

  /** The layer under the corner. */
  renderBelow(): TemplateResult {
    return html`<div class="layer" ?hidden=${!this.lifted}>
      <canvas class="under" aria-hidden="true" ${put({ transform: this.#transform })}></canvas>
    </div>`;
  }
}
