import { html, nothing, type TemplateResult } from 'lit';
import {
  checkDrawing,
  type CheckReport,
  type Corners,
  type DrawingCheck,
  type Landmark,
  type Reason,
  type SavedCheck,
  type Spot,
  type WorkStep,
} from '../shared/core.js';
import { CheckKeepEvent, type CheckAct } from '../shared/events/check-keep.js';
import { CheckMadeEvent } from '../shared/events/check-made.js';
import { DeliveryEvent, type DeliveryLayout } from '../shared/events/delivery.js';
import { icon } from '../shared/icons.js';
import { massesAsked, MassesInHand } from '../shared/masses-in-hand.js';
import { reasonOf, type PlanStore, type StorePlanEvent } from '../shared/plan-store.js';
import type { Say } from '../shared/usual-bands.js';
import type { Words } from '../shared/strings.js';
import { checkDeskWords } from '../shared/words/check-desk.js';
import { paintWords } from '../shared/words/paint.js';
import { passagesWorkWords } from '../shared/words/passages-work.js';
import { printedWords } from '../shared/words/printed.js';
import { unitsFilesWords } from '../shared/words/units-files.js';
import { tubesWords } from '../shared/words/tubes.js';
import { Checking, keyOfCheck, plannedFor, type Asked, type Made } from './checking.js';
import { handOver, walledOff } from '../shared/files.js';
import { compose, fileOf, nameOf } from './delivering.js';
import { clamped, INSET, inOrder, inPainting, onPhoto, paintedPart } from './geometry.js';
import type { DeliveryAsked, DeskHost } from './desk-host.js';
import { faultOf } from './faults.js';
import { Landmarks } from './landmarks.js';
import { lastDone } from './planned.js';
import { drawLifted, fromAfar, greyLayer, layerOf, paintedGreys, type Layer } from './pictures.js';
import { checkSentence } from './sentences.js';
import { CheckPictures, digestOf } from './small-pictures.js';

export { deskStyles } from './desk.styles.js';
export const deskWords: Words = {
  ...unitsFilesWords,
  ...printedWords,
  ...tubesWords,
  ...passagesWorkWords,
  ...paintWords,
  ...checkDeskWords,
};

export type View = 'photo' | 'findings' | 'drawing' | 'checks' | 'delivery';
/** What each view shows. */
export type Panels = Readonly<Record<View, (desk: Desk) => TemplateResult | typeof nothing>>;
const VIEWS: readonly View[] = ['photo', 'findings', 'drawing', 'checks', 'delivery'];

/** The longer side of a canvas on screen, pixels. */
const SCREEN = 1400;
/** The most pixels a side of what is handed over. */
const FINEST = 4096;
/** Magnification of the loupe and its size, CSS pixels. */
const LOUPE = 4;
const pictures = new CheckPictures();

/** What is worked with once there is a painting: its photo, what was found, landmarks, checks so far, the picture to hand over. */
export class Desk {
  readonly host: DeskHost;
  readonly #panels: Panels;
  readonly checking = new Checking(() => this.host.requestUpdate());
  view: View = 'photo';
  corners: Corners | undefined;
  /** How looking for the sheet came out. */
  found: 'no' | 'looking' | 'found' | 'not-found' = 'no';
  /** The handle in hand. */
  held: string | undefined;
  /** What is shown in the picture: `mass-3`, `island-0`, `edge-2`. */
  selected: string | undefined;
  bands = false;
  lifted = 0;
  traced = true;
  far = false;
  figures = false;
  allMasses = false;
  allEdges = false;
  /** Findings of a painting that does not fit are shown all the same. */
  anyway = false;
  readonly landmarks = new Landmarks(
    () => this.host.store,
    (key, values) => this.host.words(key, values),
  );
  note = '';
  done = '';
  keptOf: Made | undefined;
  layout: DeliveryLayout = 'alone';
  width = 2400;
  type: 'image/jpeg' | 'image/png' = 'image/jpeg';
  fileName = '';
  delivering = false;
  deliveryFault: Reason | undefined;

  #of?: unknown;
  #release?: () => void;
  #finding?: AbortController;
  #layers?: { of: unknown; painting: Layer; painted: Layer; planned: Layer };
  #drawn = new WeakMap<HTMLCanvasElement, string>();
  #numbers = new WeakMap<object, number>();
  #count = 0;

  constructor(host: DeskHost, panels: Panels) {
    this.#panels = panels;
    this.host = host;
    if (host.givenCorners) this.corners = host.givenCorners;
  }

  readonly say: Say = (key, values) => this.host.words(key, values);

  get store(): PlanStore {
    return this.host.store;
  }

  get made(): Made | undefined {
    return this.checking.state.made;
  }

  get report(): CheckReport | undefined {
    return this.made?.report;
  }

  get checks(): readonly SavedCheck[] {
    return this.store.plan.checks ?? [];
  }

  get asked(): Asked {
    const { white, upToStep, distance } = this.host;
    return { corners: this.corners ?? INSET, white, upToStep, distance };
  }

  /** Whether something that the check depends on has changed since. */
  get stale(): boolean {
    return this.made !== undefined && this.made.key !== this.#key();
  }

  /** Whether the photo is of another painting or lies the wrong way, so that the findings mean nothing. */
  get refused(): boolean {
    const { report } = this;
    if (!report || this.anyway) return false;
    return (
      report.match.best !== 'straight' ||
      report.warnings.some(({ code }) => code === 'check.other-painting')
    );
  }

  /** The order of work as far as it is known. */
  steps: readonly WorkStep[] = [];
  /** Why there is none, when it could not be made. */
  stepsFault: Reason | undefined;
  #stepsOf = '';

  /** The step that counts as the last one done. */
  get stepChosen(): number {
    return Math.min(this.host.upToStep ?? lastDone(this.steps), this.steps.length - 1);
  }

  /** Has the order of work made, for the choice of the step. */
  async askSteps(): Promise<void> {
    const { picture, plan } = this.store;
    if (!picture.exact || !picture.handle || !this.host.painting.picture.handle) return;
    const { crop, steps, board, way, background, overrules, brushes } = plan;
    const asked = [picture.handle.id, massesAsked(plan), crop, steps, way, background, overrules];
    const key = JSON.stringify([asked, board.bands, brushes]);
    if (key === this.#stepsOf) return;
    this.#stepsOf = key;
    if (this.stepsFault) {
      this.stepsFault = undefined;
      this.host.requestUpdate();
    }
    try {
      const { steps: made } = await this.store.run(
        'order',
        { ...massesAsked(plan), plan },
        { key: 'steps of the check' },
      );
      if (key !== this.#stepsOf) return;
      this.steps = made;
    } catch (thrown) {
      if (key !== this.#stepsOf || (thrown as Error).name === 'AbortError') return;
      this.steps = [];
      this.stepsFault = faultOf(thrown);
    }
    this.host.requestUpdate();
  }

  /** Once more, after it could not be made. */
  askStepsAgain(): void {
    this.#stepsOf = '';
    void this.askSteps();
  }

  get aspect(): number {
    const { map } = this.made?.masses ?? {};
    if (map) return map.width / map.height;
    const { handle } = this.store.picture;
    const { width = 1, height = 1 } = this.store.plan.crop ?? {};
    return handle ? (handle.width * width) / (handle.height * height) : 1;
  }

  /** A finding in words. */
  tell(finding: Reason): string {
    const { made } = this;
    return checkSentence(finding, this.say, (px) =>
      this.host.lengthOf(made ? px / made.pxPerMm : px),
    );
  }

  /** A fault in its own words, else in those of `otherwise` with its message. */
  tellFault({ code, values }: Reason, otherwise: string): string {
    const own = this.say(code, values);
    return own === code || ['TypeError', 'RangeError', 'Error'].includes(code)
      ? this.say(otherwise, { message: values.message ?? code })
      : own;
  }

  get drawing(): DrawingCheck | undefined {
    const { made } = this;
    if (!made) return undefined;
    const landmarks = this.landmarks.marks.flatMap(({ id, planned, painted }): Landmark[] => {
      if (!painted) return [];
      const [x, y] = inPainting(made.asked.corners, painted);
      return [{ name: id, planned, painted: [clamped(x, -1, 2), clamped(y, -1, 2)] }];
    });
    return landmarks.length > 0 ? checkDrawing(landmarks, made.plan.paper) : undefined;
  }

  // What happens to it

  left(): void {
    this.checking.stop();
    this.#finding?.abort();
    this.#release?.();
    this.#release = undefined;
  }

  planChanged(event?: StorePlanEvent): void {
    if (!event) {
      this.#release?.();
      this.#release = undefined;
    }
  }

  pictureChanged(): void {
    const { handle, status } = this.host.painting.picture;
    if (!handle) return;
    this.#hold();
    if (handle === this.#of || status !== 'ready') return;
    const first = this.#of === undefined;
    this.#of = handle;
    this.checking.drop();
    this.keptOf = undefined;
    this.anyway = false;
    this.selected = undefined;
    this.landmarks.anotherPainting();
    this.view = 'photo';
    const given = this.host.givenCorners;
    if (given && first) {
      this.corners = given;
      return;
    }
    this.corners = INSET;
    void this.findSheet();
  }

  setCorners(corners: Corners): void {
    this.#finding?.abort();
    this.found = 'no';
    this.corners = corners;
    this.host.requestUpdate();
  }

  /** The masses are kept ready while there is a painting. */
  #hold(): void {
    if (!this.#release && this.host.isConnected) this.#release = MassesInHand.of(this.store).hold();
  }

  #key(): string {
    return keyOfCheck(this.store, this.host.painting, this.asked);
  }

  /** Looks for the sheet in the photo, and on it for the painted part. */
  async findSheet(): Promise<void> {
    const { handle } = this.host.painting.picture;
    if (!handle) return;
    this.#finding?.abort();
    const finding = (this.#finding = new AbortController());
    const { signal } = finding;
    this.found = 'looking';
    this.host.requestUpdate();
    let corners: Corners | undefined;
    try {
      const { plan } = this.store;
      const core = await this.host.painting.core();
      const { steps, upToStep, targets, input } = await plannedFor(
        this.store,
        this.host.upToStep,
        signal,
      );
      const found = await core.run(
        'paintingCorners',
        {
          picture: handle.id,
          plan: input,
          targets,
          order: [...steps],
          upToStep,
          paperLightness: plan.paper.lightness,
        },
        { signal },
      );
      if (found.how === 'borders' || found.how === 'tones') corners = found.corners;
      else if (found.how === 'sheet') {
        // Not as far as was said, or the wrong way round: what is painted at all.
        const upright = await core.run(
          'rectified',
          {
            picture: handle.id,
            corners: found.sheet,
            white: { from: 'none' },
            aspect: this.aspect,
            width: 240,
          },
          { signal },
        );
        upright.bitmap?.close();
        const part = paintedPart(upright.plane, plan.paper);
        corners = part && (part.map((spot) => onPhoto(found.sheet, spot)) as Corners);
      }
    } catch {
      // Not found: the painter sets them.
    }
    if (signal.aborted || this.#finding !== finding) return;
    this.found = corners ? 'found' : 'not-found';
    this.host.speak(this.say(`checking.${this.found}`));
    if (corners) this.corners = corners;
    this.host.requestUpdate();
  }

  async check(byPerson: boolean): Promise<CheckReport | undefined> {
    this.#finding?.abort();
    if (this.found === 'looking') this.found = 'no';
    this.#hold();
    const { asked } = this;
    const made = await this.checking.check(this.store, this.host.painting, asked);
    if (!made) {
      const { status, error } = this.checking.state;
      if (status === 'failed' && error) this.host.faulted(error);
      return undefined;
    }
    this.keptOf = undefined;
    this.anyway = false;
    this.selected = undefined;
    this.done = '';
    if (this.view === 'photo') this.view = 'findings';
    const summary = this.tell(made.report.summary[0]);
    this.host.speak(this.say('checking.ready', { summary }));
    this.host.requestUpdate();
    if (byPerson) {
      await this.host.updateComplete;
      this.host.dispatchEvent(new CheckMadeEvent(made.report));
    }
    return made.report;
  }

  /** Gives up the check under way. */
  stop(): void {
    this.checking.stop();
    this.host.speak(this.say('checking.stopped'));
  }

  /** The check at hand from the distance that was chosen. */
  async stepBack(): Promise<void> {
    const { made: before } = this;
    try {
      const made = await this.checking.stepBack(this.host.painting, this.host.distance);
      if (made && this.keptOf === before) this.keptOf = made;
    } catch (thrown) {
      if ((thrown as Error).name !== 'AbortError') this.host.faulted(reasonOf(thrown));
    }
    this.host.requestUpdate();
  }

  show(view: View): void {
    this.view = view;
    this.done = '';
    this.host.requestUpdate();
  }

  select(id: string | undefined, what = ''): void {
    this.selected = id === this.selected ? undefined : id;
    if (this.selected && what) this.host.speak(this.say('checking.shown', { what }));
    this.host.requestUpdate();
    const stage = this.host.shadowRoot?.querySelector('[data-stage=findings]');
    if (this.selected) stage?.scrollIntoView({ block: 'nearest' });
  }

  /** Takes up a change of the desk's own state. */
  set(change: Partial<Desk>): void {
    Object.assign(this, change);
    this.host.requestUpdate();
  }

  // Keeping

  async keep(): Promise<void> {
    const { made } = this;
    if (!made || this.refused) return;
    const { comparison, islands, rectified } = made.report;
    const source = this.host.painting.source;
    const photo = source && (await digestOf(source));
    if (photo) {
      try {
        await pictures.keep(photo, layerOf(rectified));
      } catch {
        // The check is kept without its small picture.
      }
    }
    if (this.made !== made) return;
    const round = (value: number): number => Math.round(value * 1e4) / 1e4;
    const note = this.note.trim();
    const kept: SavedCheck = {
      id: freeCheckId(this.checks),
      date: new Date().toISOString(),
      ...(photo ? { photo } : {}),
      ...(made.upToStep >= 0 ? { upToStep: made.upToStep } : {}),
      agreement: round(comparison.agreement),
      kappa: round(comparison.kappa),
      lostReserves: comparison.lostReserves.length,
      islands: islands.length,
      ...(note ? { note } : {}),
    };
    this.keptOf = made;
    this.note = '';
    this.#change('keep', [...this.checks, kept], kept.id);
    this.#say('checking.kept');
  }

  noteOn(id: string, text: string): void {
    const note = text.trim();
    const next = this.checks.map((check): SavedCheck => {
      if (check.id !== id) return check;
      const { note: _note, ...rest } = check;
      return note ? { ...rest, note } : rest;
    });
    this.#change('note', next, id);
    this.#say('checking.row-noted');
  }

  forget(id: string): void {
    const next = this.checks.filter((check) => check.id !== id);
    this.#change('forget', next, id);
    this.#say('checking.row-removed');
  }

  undo(redo = false): void {
    if (redo) this.store.redo();
    else this.store.undo();
    this.host.dispatchEvent(new CheckKeepEvent(redo ? 'redo' : 'undo', this.checks));
  }

  #change(what: CheckAct, checks: SavedCheck[], id: string): void {
    this.store.change('checks', (plan) => {
      const { checks: _checks, ...rest } = plan;
      return checks.length > 0 ? { ...rest, checks } : rest;
    });
    this.host.dispatchEvent(new CheckKeepEvent(what, this.checks, id));
  }

  #say(key: string): void {
    this.done = this.say(key);
    this.host.speak(this.done);
    this.host.requestUpdate();
  }

  // Handing over

  async deliver({
    layout = 'alone',
    width,
    type = 'image/jpeg',
  }: DeliveryAsked = {}): Promise<Blob> {
    const { painting } = this.host;
    const { handle } = painting.picture;
    if (!handle)
      throw Object.assign(new Error('There is no photo of the painting.'), {
        name: 'PictureMissing',
      });
    this.#hold();
    const core = await painting.core();
    const { plan } = this.store;
    const input = {
      picture: handle.id,
      corners: this.report?.corners ?? this.asked.corners,
      white: this.host.white,
      paperLightness: plan.paper.lightness,
    };
    const { aspect } = this;
    if (layout === 'alone') {
      const upright = await core.run('rectified', { ...input, aspect, width: width ?? FINEST });
      if (type === 'image/png' && upright.file) {
        upright.bitmap?.close();
        return upright.file;
      }
      return fileOf(upright, type);
    }
    const planned = await plannedFor(this.store, this.host.upToStep, new AbortController().signal);
    const made = await core.run('delivery', {
      ...input,
      plan: planned.input,
      targets: planned.targets,
      parts: layout === 'photo' ? ['photo', 'painting'] : ['photo', 'plan', 'painting'],
      height: Math.min(FINEST, Math.max(1, Math.round((width ?? FINEST) / aspect))),
      type,
    });
    if (!made.file) return fileOf(made, type);
    made.bitmap?.close();
    return made.file;
  }

  async handOver(): Promise<void> {
    const { layout, width, type } = this;
    this.set({ delivering: true, deliveryFault: undefined, done: '' });
    this.host.speak(this.say('checking.delivery-working'));
    try {
      const file = await this.deliver({ layout, width: width || undefined, type });
      const name = nameOf(this.deliveryName, type);
      handOver(file, name);
      this.delivering = false;
      this.done = this.say('checking.delivery-saved', { name });
      if (walledOff()) this.done += ` ${this.say('files.walled')}`;
      this.host.speak(this.done);
      this.host.dispatchEvent(new DeliveryEvent(file, name, layout));
    } catch (thrown) {
      this.deliveryFault = reasonOf(thrown);
      this.host.faulted(this.deliveryFault);
    }
    this.set({ delivering: false });
  }

  get deliveryName(): string {
    const title = this.store.plan.title || this.say('checking.delivery-untitled');
    return this.fileName || `${title} - ${this.say('checking.delivery-file')}`;
  }

  // Pictures

  /** The plan's photo, its crop. */
  get photoLayer(): Layer | undefined {
    const { bitmap, exact } = this.store.picture;
    return exact && bitmap?.width ? bitmap : undefined;
  }

  /** What is drawn of the check. */
  get layers(): { painting: Layer; painted: Layer; planned: Layer } | undefined {
    const { made } = this;
    if (!made) return undefined;
    const { rectified } = made.report;
    if (this.#layers?.of !== rectified) {
      this.#layers = {
        of: rectified,
        painting: layerOf(rectified),
        painted: greyLayer(rectified.plane, paintedGreys(made.targets)),
        planned: greyLayer(made.masses.map, made.targets),
      };
    }
    return this.#layers;
  }

  /** Draws the canvases that are on the page. */
  settle(): void {
    void this.askSteps();
    const root = this.host.shadowRoot;
    for (const canvas of root?.querySelectorAll<HTMLCanvasElement>('canvas[data-canvas]') ?? [])
      this.#draw(canvas, canvas.dataset.canvas!);
    for (const canvas of root?.querySelectorAll<HTMLCanvasElement>('canvas[data-small]') ?? [])
      void this.#drawSmall(canvas, canvas.dataset.small!);
  }

  #draw(canvas: HTMLCanvasElement, what: string): void {
    const { bitmap } = this.host.painting.picture;
    const fresh = (...parts: unknown[]): boolean => {
      const key = parts
        .map((part) =>
          typeof part === 'object' && part !== null ? this.#numberOf(part) : String(part),
        )
        .join(' ');
      if (this.#drawn.get(canvas) === key) return false;
      this.#drawn.set(canvas, key);
      return true;
    };
    if (what === 'photo') {
      if (bitmap?.width && fresh(bitmap)) drawWhole(canvas, bitmap);
    } else if (what === 'loupe') {
      if (bitmap?.width) this.#drawLoupe(canvas, bitmap);
    } else if (what === 'planned') {
      const photo = this.photoLayer;
      if (photo && fresh(photo)) drawWhole(canvas, photo);
    } else if (what === 'painting') {
      const { layers } = this;
      if (layers && fresh(layers)) drawWhole(canvas, layers.painting);
    } else if (what === 'findings') this.#drawFindings(canvas, fresh);
    else if (what === 'delivery') {
      const { layers, layout } = this;
      const photo = this.photoLayer;
      if (layers && fresh(layers, layout, photo))
        compose(canvas, { painting: layers.painting, photo, bands: layers.planned }, layout, 480);
    }
  }

  #drawFindings(canvas: HTMLCanvasElement, fresh: (...parts: unknown[]) => boolean): void {
    const { layers, made, bands, far, lifted } = this;
    const { distance } = this.host;
    const photo = this.photoLayer;
    if (!layers || !made || !fresh(layers, photo, bands, far, lifted, far && distance)) return;
    const { widthMm } = made.plan.paper;
    const seen = (layer: Layer | undefined): Layer | undefined =>
      far && layer ? fromAfar(layer, widthMm, distance) : layer;
    sized(canvas, layers.painting);
    const below = bands ? layers.planned : photo;
    drawLifted(canvas, seen(bands ? layers.painted : layers.painting)!, seen(below), lifted);
  }

  #drawLoupe(canvas: HTMLCanvasElement, bitmap: ImageBitmap): void {
    const at = this.heldSpot;
    if (!at) return;
    const ratio = globalThis.devicePixelRatio || 1;
    const size = Math.round(112 * ratio);
    canvas.width = canvas.height = size;
    const shown = this.host.shadowRoot?.querySelector('[data-stage=photo]')?.clientWidth ?? 400;
    const scale = (LOUPE * shown * ratio) / bitmap.width;
    const context = canvas.getContext('2d')!;
    context.fillStyle = '#808080';
    context.fillRect(0, 0, size, size);
    const [x, y] = [at[0] * bitmap.width * scale, at[1] * bitmap.height * scale];
    const part = size / scale;
    context.drawImage(
      bitmap,
      x / scale - part / 2,
      y / scale - part / 2,
      part,
      part,
      0,
      0,
      size,
      size,
    );
    for (const [colour, broad] of [
      ['#fff', 3],
      ['#141414', 1],
    ] as const) {
      context.strokeStyle = colour;
      context.lineWidth = broad * ratio;
      context.beginPath();
      context.moveTo(size / 2, size * 0.3);
      context.lineTo(size / 2, size * 0.7);
      context.moveTo(size * 0.3, size / 2);
      context.lineTo(size * 0.7, size / 2);
      context.stroke();
    }
  }

  /** Where the handle in hand is on the photo of the painting. */
  get heldSpot(): Spot | undefined {
    if (this.held === undefined) return undefined;
    const { white } = this.host;
    if (this.held === 'white') return white.from === 'spot' ? white.at : undefined;
    return this.corners?.[Number(this.held.slice(7))];
  }

  async #drawSmall(canvas: HTMLCanvasElement, sha256: string): Promise<void> {
    if (this.#drawn.get(canvas) === sha256) return;
    this.#drawn.set(canvas, sha256);
    const blob = await pictures.of(sha256);
    canvas.hidden = !blob;
    if (!blob) return;
    try {
      const bitmap = await createImageBitmap(blob);
      canvas.width = bitmap.width;
      canvas.height = bitmap.height;
      canvas.getContext('2d')!.drawImage(bitmap, 0, 0);
      bitmap.close();
    } catch {
      canvas.hidden = true;
    }
  }

  #numberOf(thing: object): number {
    let number = this.#numbers.get(thing);
    if (!number) this.#numbers.set(thing, (number = ++this.#count));
    return number;
  }

  // The page

  render(inHand: boolean): TemplateResult {
    const { say } = this;
    const offered = VIEWS.filter((view) => this.#offers(view, inHand));
    const view = offered.includes(this.view) ? this.view : offered[0];
    return html`<div class="desk">
      <div class="top">
        <div class="segments" role="group" aria-label=${say('checking.views')} part="views">
          ${offered.map(
            (each) =>
              html`<button
                type="button"
                data-view=${each}
                aria-pressed=${each === view ? 'true' : 'false'}
                @click=${() => this.show(each)}
              >
                ${say(`checking.view-${each}`)}
              </button>`,
          )}
        </div>
        ${
          inHand
            ? html`<details class="another">
                <summary>${say('checking.another')}</summary>
                <div class="buttons">${this.host.intake.renderButtons(say)}</div>
              </details>`
            : nothing
        }
      </div>
      ${view ? this.#panels[view](this) : nothing}
    </div>`;
  }

  #offers(view: View, inHand: boolean): boolean {
    if (view === 'checks') return true;
    if (!inHand) return false;
    if (view === 'findings' || view === 'drawing') return this.made !== undefined;
    return true;
  }

  /** How far a check has come, or why there is none. */
  renderStatus(): TemplateResult | typeof nothing {
    const { say } = this;
    const { status, stage, done, error } = this.checking.state;
    if (status === 'working') {
      const known = `checking.stage-${stage}`;
      const words = say(known) === known ? say('checking.stage') : say(known);
      return html`<div class="working" part="working">
        <span class="soft">${say('checking.working', { stage: words })}</span>
        <progress aria-label=${words} max="1" .value=${done}></progress>
        <button type="button" class="quiet" data-stop @click=${() => this.stop()}>
          ${icon('close')}<span>${say('checking.stop')}</span>
        </button>
      </div>`;
    }
    if (status === 'stopped') return html`<p class="soft">${say('checking.stopped')}</p>`;
    if (status === 'failed' && error) {
      const crossed = error.code === 'CornersUnusable';
      const words = this.tellFault(error, 'checking.fault');
      return html`<div class="working" role="alert" data-fault=${error.code}>
        <span>${words}</span>
        ${
          crossed
            ? html`<button type="button" data-order @click=${() => this.orderCorners()}>
                ${say('checking.order-corners')}
              </button>`
            : nothing
        }
      </div>`;
    }
    return nothing;
  }

  orderCorners(): void {
    if (this.corners) this.setCorners(inOrder(this.corners));
    this.checking.forgive();
  }
}

function sized(canvas: HTMLCanvasElement, { width, height }: { width: number; height: number }) {
  const scale = Math.min(1, SCREEN / Math.max(width, height));
  canvas.width = Math.max(1, Math.round(width * scale));
  canvas.height = Math.max(1, Math.round(height * scale));
}

function drawWhole(canvas: HTMLCanvasElement, layer: Layer): void {
  sized(canvas, layer);
  const context = canvas.getContext('2d')!;
  context.imageSmoothingQuality = 'high';
  context.drawImage(layer, 0, 0, canvas.width, canvas.height);
}

/** A name that none of the checks has. */
function freeCheckId(checks: readonly SavedCheck[]): string {
  const taken = new Set(checks.map(({ id }) => id));
  let number = checks.length + 1;
  while (taken.has(`check-${number}`)) number++;
  return `check-${number}`;
}
