import { html, nothing, type TemplateResult } from 'lit';
import {
  mixOnPaper,
  munsellValue,
  paperReflectance,
  TUBES,
  type Corners,
  type Dab,
  type Jobs,
  type Lab,
  type Loop,
  type Mix,
  type Part,
  type Plan,
  type PlacedSheet,
  type Progress,
  type Reason,
  type Recipe,
  type SheetPaper,
  type SheetReading,
  type Spot,
} from '../shared/core.js';
import { DabForgetEvent } from '../shared/events/dab-forget.js';
import { SheetChangeEvent, type SheetAct } from '../shared/events/sheet-change.js';
import { SheetReadEvent } from '../shared/events/sheet-read.js';
import { SheetSendEvent } from '../shared/events/sheet-send.js';
import { ShelfChangeEvent } from '../shared/events/shelf-change.js';
import { icon } from '../shared/icons.js';
import type { LengthUnit } from '../shared/measure.js';
import { paintSentence, recipeInWords, tubeName } from '../shared/paint-words.js';
import { reasonOf, type PictureState, type PlanStore } from '../shared/plan-store.js';
import { formatNumber } from '../shared/strings.js';
import { renderBoardPanel } from './board-panel.js';
import { renderCardPanel } from './card-panel.js';
import { renderDryingPanel } from './drying-panel.js';
import {
  columnAt,
  foundAgain,
  foundDab,
  inOrder,
  readingOf,
  wetOf,
  withDab,
  withDabs,
  type Read,
  type ReadDab,
  type SheetState,
  type Wet,
} from './dabs-state.js';
import {
  grown,
  heldCorner,
  loopBetween,
  middleOf,
  boxOf,
  movedBy,
  partedBy,
  soundCorners,
  type Line,
} from './geometry.js';
import { renderList, renderPicked } from './list-view.js';
import { foundDabs, renderMemoryPanel } from './memory-panel.js';
import { earlierSheets, onSheet, pairedByPlace, pairedInOrder } from './pairing.js';
import { fits, paperOf, sentOf, usualMapping, withSent, type Mapping } from './sending.js';
import { reasonFigures } from './sheet-reasons.js';
import {
  PANELS,
  type Doing,
  type MemoryAsked,
  type Panel,
  type SheetView,
  type TubeAsked,
  type Typing,
} from './sheet-view.js';
import { StageHand } from './stage-hand.js';
import { drawPicture, renderStage, showPicked } from './stage-view.js';
import { renderTubePanel, timesOf } from './tube-panel.js';
import { renderWarnings } from './warnings-view.js';

export { deskStyles } from './desk.styles.js';
export { paintWords } from '../shared/words/paint.js';
export { tubesWords } from '../shared/words/tubes.js';
export { sheetDeskWords } from '../shared/words/sheet-desk.js';

/** What the desk needs of its element. */
export interface DeskHost {
  readonly store: PlanStore;
  /** What holds the photo of the sheet. */
  readonly sheet: PlanStore;
  readonly language: string;
  readonly lengthUnit: LengthUnit;
  readonly shadowRoot: ShadowRoot | null;
  readonly updateComplete: Promise<boolean>;
  panel: string;
  requestUpdate(): void;
  words(key: string, values?: Readonly<Record<string, string | number>>): string;
  speak(text: string): void;
  fail(reason: Reason): void;
  /** A reading of the photo in hand has come to its end, well or not. */
  cameToEnd(): void;
  dispatchEvent(event: Event): boolean;
}

/** How long moves by keys, and corners, wait for the next one before the place is read, ms. */
const PAUSE = 350;
/** A dab shown smaller than this is brought nearer before it is parted, CSS pixels. */
const SMALL = 72;
/** A part of a recipe is at most so much. */
const MOST_PARTS = 1000;

interface Moving {
  id: string;
  loops: readonly Loop[];
}

/** All that the reader shows and does once there is a photo or something to remember. */
export class Desk implements SheetView {
  state?: SheetState;
  picked = '';
  doing: Doing = 'pick';
  line?: Line;
  nearer = false;
  shownCorners?: Corners;
  drawing?: Loop;
  progress?: number;
  busy = false;
  fault = '';
  done = '';
  typing?: Typing;
  tube: TubeAsked = { column: 0, tube: '', times: {}, busy: false, fault: '' };
  memory: MemoryAsked = { text: '', band: -1, tube: '', from: '', to: '', most: 30, proven: 0 };

  readonly #host: DeskHost;
  readonly #hand: StageHand;
  #past: SheetState[] = [];
  #future: SheetState[] = [];
  #handleId = '';
  #sheetKey = '';
  #nextId = 0;
  #moving?: Moving;
  #timer?: ReturnType<typeof setTimeout>;
  #work?: AbortController;
  #queue: Promise<void> = Promise.resolve();
  #found?: Corners;
  #predicted = new WeakMap<Recipe, Lab | null>();
  #predictedFor?: Plan['shelf'];
  #mapped: Readonly<Record<number, number | undefined>> = {};
  /** Where the dabs that were sent lay on their sheet. */
  readonly #places = new Map<string, Spot>();
  #focusNext?: string;
  /** The plan that this desk changed last: only that change is offered to be taken back. */
  #made?: Plan;
  /** Whether the picked dab is brought to the middle at the next drawing. */
  #showNext = false;

  constructor(host: DeskHost) {
    this.#host = host;
    this.#hand = new StageHand(this);
    this.opened();
  }

  // What the views read

  get plan(): Plan {
    return this.#host.store.plan;
  }

  get picture(): PictureState {
    return this.#host.sheet.picture;
  }

  get dabs(): readonly Dab[] {
    return this.plan.dabs ?? [];
  }

  get panel(): Panel {
    const { panel } = this.#host;
    return (PANELS as readonly string[]).includes(panel) ? (panel as Panel) : 'board';
  }

  get printer(): SheetPaper {
    return this.#host.lengthUnit === 'in' ? 'letter' : 'A4';
  }

  get aspect(): number {
    const { handle } = this.picture;
    return handle ? handle.width / handle.height : 4 / 3;
  }

  get canUndo(): boolean {
    return this.#past.length > 0;
  }

  get canRedo(): boolean {
    return this.#future.length > 0;
  }

  get cornersFound(): boolean {
    const { corners } = this.state ?? {};
    return !corners || !this.#found || sameCorners(corners, this.#found);
  }

  get mapping(): Mapping {
    const { state } = this;
    if (!state) return [];
    return usualMapping(state, this.plan).map((usual, column) =>
      column in this.#mapped ? this.#mapped[column] : usual,
    );
  }

  /** What others get: the reading with the dabs as the painter has them. */
  get reading(): SheetReading | undefined {
    const { handle } = this.picture;
    return this.state && handle ? readingOf(this.state, handle) : undefined;
  }

  shownLoops({ id, loops }: ReadDab): readonly Loop[] {
    return this.#moving?.id === id ? this.#moving.loops : loops;
  }

  readonly say = (key: string, values: Record<string, string | number> = {}): string =>
    this.#host.words(key, values);

  tell(reason: Reason): string {
    const told = reasonFigures(reason, this.say, (id) => this.tubeName(id));
    return this.say(told.code, told.values);
  }

  paint(reason: Reason): string {
    return paintSentence(reason, this.say);
  }

  number(value: number, digits: number, sign = false): string {
    return formatNumber(value, this.#host.language, digits, sign);
  }

  value(lightness: number): string {
    const value = munsellValue(Math.min(100, Math.max(0, lightness)));
    return formatNumber(value, this.#host.language, 1, false, true);
  }

  bandName(band: number): string {
    return this.plan.board.bands[band]?.name ?? String(band + 1);
  }

  tubeName(id: string): string {
    return tubeName(id, this.say);
  }

  recipe(recipe: Recipe): string {
    return recipeInWords(recipe, this.say);
  }

  day(date: string): string {
    const day = new Date(`${date}T12:00:00`);
    if (Number.isNaN(day.getTime())) return date;
    return new Intl.DateTimeFormat(this.#host.language, {
      day: 'numeric',
      month: 'short',
      year: 'numeric',
    }).format(day);
  }

  numberOf(id: string): number {
    return (this.state?.dabs.findIndex((dab) => dab.id === id) ?? -1) + 1;
  }

  // Life

  /** The photo in hand may have changed. */
  opened(): void {
    const { handle, status } = this.picture;
    if (!handle || status !== 'ready' || handle.id === this.#handleId) return;
    this.#handleId = handle.id;
    this.#sheetKey = `sheet-${Date.now().toString(36)}`;
    this.#nextId = 0;
    this.#clear();
    void this.read();
  }

  #clear(): void {
    this.#halt();
    this.state = undefined;
    this.#past = [];
    this.#future = [];
    this.picked = '';
    this.doing = 'pick';
    this.line = undefined;
    this.shownCorners = undefined;
    this.#moving = undefined;
    this.#found = undefined;
    this.#mapped = {};
    this.typing = undefined;
    this.fault = '';
    this.done = '';
    this.tube = { ...this.tube, times: {}, fault: '', fit: undefined };
  }

  /** Ends what is under way. */
  #halt(): void {
    clearTimeout(this.#timer);
    this.#work?.abort();
    this.#work = undefined;
    this.progress = undefined;
  }

  /** The plan is another one: its paper may be too. */
  planChanged(): void {
    const { state } = this;
    if (!state || this.progress !== undefined || state.paper === paperOf(this.plan)) return;
    void this.read(state.corners);
  }

  left(): void {
    this.#halt();
    if (!this.state) this.#handleId = '';
    this.shownCorners = undefined;
    this.#moving = undefined;
  }

  /** After each drawing of the element. */
  settle(): void {
    drawPicture(this, this.#host.shadowRoot);
    if (this.#showNext) showPicked(this, this.#host.shadowRoot);
    this.#showNext = false;
    const next = this.#focusNext;
    this.#focusNext = undefined;
    if (next) this.#host.shadowRoot?.querySelector<HTMLElement>(next)?.focus();
  }

  #update(): void {
    this.#host.requestUpdate();
  }

  #speak(text: string): void {
    this.#host.speak(text);
  }

  // Reading

  /** Reads the sheet: with the corners given, else finding them. Settles when the reading has come to its end. */
  async read(corners?: Corners): Promise<void> {
    const { handle } = this.picture;
    if (!handle) return;
    this.#halt();
    const work = (this.#work = new AbortController());
    this.progress = 0;
    this.fault = '';
    this.#update();
    const onProgress = ({ done }: Progress): void => {
      if (work.signal.aborted) return;
      this.progress = done;
      this.#update();
    };
    const paperLightness = paperOf(this.plan);
    try {
      const core = await this.#host.store.core();
      const input = { picture: handle.id, paperLightness, ...(corners && { corners }) };
      const reading = await core.run('sheet', input, { signal: work.signal, onProgress });
      const before = this.state;
      const found = reading.swatches.map((swatch) => foundDab(swatch, this.#newId()));
      const again = before ? foundAgain(found, before) : found;
      const byHand = before ? await this.#readAgain(before, reading, work.signal) : [];
      if (work.signal.aborted) return;
      this.#found ??= corners ? undefined : reading.at;
      const read: SheetState = {
        corners: reading.at,
        reading,
        dabs: inOrder([...again, ...byHand]),
        wet: before?.wet ?? 'dry',
        gone: before?.gone ?? [],
        paper: paperLightness,
      };
      this.#enter(read);
      this.shownCorners = undefined;
      const { length } = read.dabs;
      this.#speak(this.say('reader.read', { count: length }));
      this.#host.dispatchEvent(new SheetReadEvent(this.reading!));
    } catch (thrown) {
      if (work.signal.aborted) return;
      this.shownCorners = undefined;
      this.#failed('reader.read-failed', thrown);
    } finally {
      if (this.#work === work) {
        this.#work = undefined;
        this.progress = undefined;
        this.#update();
        this.#host.cameToEnd();
      }
    }
  }

  /** The dabs that the painter placed, read anew by another light. */
  async #readAgain(
    before: SheetState,
    reading: PlacedSheet,
    signal: AbortSignal,
  ): Promise<ReadDab[]> {
    const out: ReadDab[] = [];
    for (const dab of before.dabs.filter(({ hand }) => hand)) {
      if (signal.aborted || !reading.light) return before.dabs.filter(({ hand }) => hand);
      out.push({ ...dab, ...(await this.#readPlace(dab.loops, reading.light)) });
    }
    return out;
  }

  async #readPlace(
    loops: readonly Loop[],
    light: NonNullable<PlacedSheet['light']>,
  ): Promise<Read> {
    const core = await this.#host.store.core();
    const input: Jobs['sheetDab']['in'] = {
      picture: this.#handleId,
      light,
      loops: loops.map((loop) => loop.map(([x, y]): Spot => [x, y])),
      paperLightness: paperOf(this.plan),
    };
    const { lab, spread, uncertainty, reasons } = await core.run('sheetDab', input);
    return { lab, spread, uncertainty, reasons };
  }

  #failed(key: string, thrown: unknown): void {
    const { code, values } = reasonOf(thrown);
    this.fault = this.say(key);
    this.#host.fail({ code: key, values: { ...values, name: code } });
    this.#update();
  }

  /** Gives up the reading under way; what was read before stays. */
  stop(): void {
    this.#halt();
    this.shownCorners = undefined;
    this.#speak(this.say('reader.stopped'));
    this.#focusNext = this.state ? '.stage [data-corner]' : '[data-again]';
    this.#update();
    this.#host.cameToEnd();
  }

  forgive(): void {
    this.fault = '';
    this.#update();
  }

  #newId(): string {
    return `${this.#sheetKey}-${++this.#nextId}`;
  }

  // States and undo

  /** Takes up another state as one step of undo. */
  #enter(next: SheetState): void {
    if (this.state) this.#past.push(this.state);
    this.#future = [];
    this.state = next;
    this.#moving = undefined;
    this.fault = '';
    if (!next.dabs.some(({ id }) => id === this.picked)) this.picked = '';
    this.tube = { ...this.tube, fit: undefined };
    this.#update();
  }

  #changed(what: SheetAct, said = ''): void {
    if (said) this.#speak(said);
    this.#host.dispatchEvent(new SheetChangeEvent(this.reading!, what));
  }

  #act(what: SheetAct, make: (state: SheetState) => SheetState, said = ''): void {
    const { state } = this;
    if (!state) return;
    const next = make(state);
    if (next === state) return;
    this.#enter(next);
    this.#changed(what, said);
  }

  undo(): void {
    this.#step('undo', this.#past, this.#future);
  }

  redo(): void {
    this.#step('redo', this.#future, this.#past);
  }

  #step(what: 'undo' | 'redo', from: SheetState[], to: SheetState[]): void {
    const next = from.pop();
    if (!next || !this.state) return;
    this.#halt();
    this.shownCorners = undefined;
    this.#moving = undefined;
    this.#endDoing();
    to.push(this.state);
    this.state = next;
    if (!next.dabs.some(({ id }) => id === this.picked)) this.picked = '';
    if (from.length === 0) this.#focusNext = what === 'undo' ? '[data-redo]' : '[data-undo]';
    this.#update();
    this.#changed(what, this.say(what === 'undo' ? 'reader.undone' : 'reader.redone'));
  }

  undoPlan(): void {
    this.#host.store.undo();
    this.#made = undefined;
    this.done = this.say('reader.undone');
    this.#speak(this.done);
    this.#update();
  }

  report(text: string, planUndo = false): void {
    this.done = text;
    this.#made = planUndo ? this.plan : undefined;
    this.#speak(text);
    this.#update();
  }

  // Picking and doing

  turnTo(panel: Panel): void {
    this.#host.panel = panel;
    this.done = '';
    this.#update();
  }

  pick(id: string, focus = false): void {
    this.picked = id;
    this.typing = undefined;
    this.#endDoing();
    if (focus) this.#focusNext = id ? '[data-box]' : undefined;
    this.#update();
  }

  do(what: Doing): void {
    this.#endDoing();
    this.doing = what;
    if (what === 'part') {
      this.#lineThrough();
      this.#comeNearer();
    }
    this.#focusNext = what === 'add' ? '[data-middle]' : what === 'part' ? '[data-end="0"]' : '';
    this.#update();
  }

  /** Shows a dab that is too small to work on larger. */
  #comeNearer(): void {
    const dab = this.#dab(this.picked);
    const stage = this.#host.shadowRoot?.querySelector<HTMLElement>('.stage');
    if (!dab || !stage) return;
    const { width, height } = boxOf(dab.loops);
    const shown = Math.min(width * stage.clientWidth, height * stage.clientHeight);
    if (shown < SMALL) this.nearer = true;
    this.#showNext = this.nearer;
  }

  #endDoing(): void {
    this.doing = 'pick';
    this.line = undefined;
    this.drawing = undefined;
  }

  setNearer(on: boolean): void {
    this.nearer = on;
    this.#showNext = on;
    this.#update();
  }

  // Corners

  dragCorner(corner: number, to: Spot, settled: boolean): void {
    const shown = this.shownCorners ?? this.state?.corners;
    if (!shown) return;
    this.shownCorners = shown.map((spot, i) => (i === corner ? heldCorner(to) : spot)) as Corners;
    this.#update();
    if (settled) this.#cornersSet();
    else this.#halt();
  }

  stepCorner(corner: number, [dx, dy]: Spot): void {
    const shown = this.shownCorners ?? this.state?.corners;
    if (!shown) return;
    const [x, y] = shown[corner];
    this.dragCorner(corner, [x + dx, y + dy], true);
  }

  #cornersSet(): void {
    const corners = this.shownCorners;
    this.#halt();
    if (!corners) return;
    if (!soundCorners(corners)) {
      this.fault = this.say('reader.corners-crossed');
      this.#speak(this.fault);
      return this.#update();
    }
    this.fault = '';
    this.#timer = setTimeout(() => void this.read(corners), PAUSE);
  }

  resetCorners(): void {
    this.shownCorners = this.#found;
    this.#update();
    void this.read(this.#found);
  }

  // Dabs

  placeDab(id: string, loops: readonly Loop[], settled: boolean): void {
    this.#moving = { id, loops };
    clearTimeout(this.#timer);
    this.#update();
    if (settled) this.#readMoved();
  }

  stepDab(id: string, by: Spot): void {
    const dab = this.#dab(id);
    if (!dab) return;
    this.#moving = { id, loops: movedBy(this.shownLoops(dab), by) };
    this.#readSoon();
  }

  growDab(id: string, by: number): void {
    const dab = this.#dab(id);
    if (!dab) return;
    this.#moving = { id, loops: grown(this.shownLoops(dab), by) };
    this.#readSoon();
  }

  #readSoon(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#readMoved(), PAUSE);
    this.#update();
  }

  /** Puts a dab that is being moved back. */
  revert(): void {
    clearTimeout(this.#timer);
    this.#moving = undefined;
    this.shownCorners = undefined;
    this.drawing = undefined;
    this.#update();
  }

  #readMoved(): void {
    const moving = this.#moving;
    if (!moving) return;
    const { id, loops } = moving;
    this.#later(async (light) => {
      const read = await this.#readPlace(loops, light);
      if (!this.#dab(id)) return;
      this.#act('move', (state) => withDab(state, id, { ...read, loops, hand: true }));
      this.#speak(this.#told(id));
    });
  }

  /** Runs what needs the light, one after the other. */
  #later(run: (light: NonNullable<PlacedSheet['light']>) => Promise<void>): void {
    const photo = this.#handleId;
    this.#queue = this.#queue.then(async () => {
      const light = this.state?.reading.light;
      if (photo !== this.#handleId) return;
      if (!light) {
        this.#moving = undefined;
        this.fault = this.say('reader.no-light');
        return this.#update();
      }
      this.busy = true;
      this.#update();
      try {
        await run(light);
      } catch (thrown) {
        this.#moving = undefined;
        this.#failed('reader.dab-failed', thrown);
      } finally {
        this.busy = false;
        this.#update();
      }
    });
  }

  #dab(id: string): ReadDab | undefined {
    return this.state?.dabs.find((dab) => dab.id === id);
  }

  #told(id: string): string {
    const dab = this.#dab(id);
    if (!dab) return '';
    return this.say('reader.dab-said', {
      number: this.numberOf(id),
      value: this.value(dab.lab[0]),
    });
  }

  draw(loop: Loop | undefined, settled: boolean): void {
    this.drawing = loop;
    this.#update();
    if (!settled || !loop) return;
    const { width, height } = boxOf([loop]);
    if (Math.min(width, height) < 0.006) {
      this.drawing = undefined;
      return;
    }
    this.#add(loop);
  }

  layInMiddle(): void {
    const { dabs = [] } = this.state ?? {};
    const sides = dabs.map(({ loops }) => boxOf(loops));
    const typical = (key: 'width' | 'height', usual: number): number => {
      const sorted = sides.map((box) => box[key]).sort((a, b) => a - b);
      return sorted[Math.floor(sorted.length / 2)] ?? usual;
    };
    const [w, h] = [typical('width', 0.08), typical('height', 0.08 * this.aspect)];
    this.#add(loopBetween([0.5 - w / 2, 0.5 - h / 2], [0.5 + w / 2, 0.5 + h / 2]));
  }

  #add(loop: Loop): void {
    this.#endDoing();
    this.#later(async (light) => {
      const read = await this.#readPlace([loop], light);
      const id = this.#newId();
      this.#act('add', (state) => {
        const column = columnAt(state.dabs, middleOf([loop]));
        const dab = { id, loops: [loop], column, ...read, hand: true, name: '' };
        return withDabs(state, [...state.dabs, dab]);
      });
      this.pick(id, true);
      this.#speak(this.#told(id));
    });
  }

  drop(id: string): void {
    const dab = this.#dab(id);
    if (!dab) return;
    const number = this.numberOf(id);
    this.#act(
      'drop',
      (state) => ({
        ...withDabs(
          state,
          state.dabs.filter((each) => each !== dab),
        ),
        gone: dab.hand ? state.gone : [...state.gone, middleOf(dab.loops)],
      }),
      this.say('reader.dropped', { number }),
    );
    this.#focusNext = '[data-undo]';
  }

  join(id: string, other: string): void {
    const [one, two] = [this.#dab(id), this.#dab(other)];
    if (!one || !two || one === two) return;
    const loops = [...one.loops, ...two.loops];
    const number = this.numberOf(other);
    this.#later(async (light) => {
      const read = await this.#readPlace(loops, light);
      this.#act('join', (state) =>
        withDabs(
          state,
          state.dabs
            .filter((dab) => dab.id !== other)
            .map((dab) => (dab.id === id ? { ...dab, ...read, loops, hand: true } : dab)),
        ),
      );
      this.#speak(`${this.say('reader.joined', { number })} ${this.#told(id)}`);
    });
  }

  #lineThrough(): void {
    const dab = this.#dab(this.picked);
    if (!dab) return;
    const { x, y, width, height } = boxOf(dab.loops);
    this.line =
      width * this.aspect >= height
        ? [
            [x + width / 2, y - 0.4 * height],
            [x + width / 2, y + 1.4 * height],
          ]
        : [
            [x - 0.4 * width, y + height / 2],
            [x + 1.4 * width, y + height / 2],
          ];
  }

  setLine(line: Line): void {
    this.line = line;
    this.#update();
  }

  turnLine(): void {
    const dab = this.#dab(this.picked);
    if (!dab || !this.line) return;
    const { x, y, width, height } = boxOf(dab.loops);
    const [[x0, y0], [x1, y1]] = this.line;
    const upright = Math.abs(x1 - x0) * this.aspect < Math.abs(y1 - y0);
    this.setLine(
      upright
        ? [
            [x - 0.4 * width, y + height / 2],
            [x + 1.4 * width, y + height / 2],
          ]
        : [
            [x + width / 2, y - 0.4 * height],
            [x + width / 2, y + 1.4 * height],
          ],
    );
  }

  part(id: string): void {
    const dab = this.#dab(id);
    const parts = dab && this.line && partedBy(dab.loops, this.line);
    if (!dab || !parts) {
      this.fault = this.say('reader.line-misses');
      this.#speak(this.fault);
      return this.#update();
    }
    this.#endDoing();
    this.#later(async (light) => {
      const [one, two] = [
        await this.#readPlace(parts[0], light),
        await this.#readPlace(parts[1], light),
      ];
      const other = this.#newId();
      this.#act('part', (state) =>
        withDabs(
          state,
          state.dabs.flatMap((each) =>
            each.id === id
              ? [
                  { ...each, ...one, loops: parts[0], hand: true },
                  { ...each, ...two, id: other, loops: parts[1], hand: true, same: undefined },
                ]
              : [each],
          ),
        ),
      );
      this.#focusNext = '[data-box]';
      this.#speak(`${this.#told(id)} ${this.#told(other)}`);
    });
  }

  putInColumn(id: string, column: number): void {
    this.#act(
      'column',
      (state) => withDab(state, id, { column }),
      this.say('reader.in-column', { column: column + 1 }),
    );
  }

  name(id: string, name: string): void {
    this.#act('note', (state) => withDab(state, id, { name: name.trim() }));
  }

  wetten(id: string, wet: Wet | undefined): void {
    this.#act('note', (state) => withDab(state, id, { wet: wet === state.wet ? undefined : wet }));
  }

  wettenAll(wet: Wet): void {
    this.#act(
      'wet',
      (state) => ({ ...state, wet, dabs: state.dabs.map((dab) => ({ ...dab, wet: undefined })) }),
      this.say('reader.sheet-wet', { wet: this.say(`reader.wet-${wet}`) }),
    );
  }

  takeRecipe(id: string, recipe: Recipe | undefined): void {
    this.typing = undefined;
    this.#act('note', (state) => withDab(state, id, { recipe }), recipe ? this.recipe(recipe) : '');
  }

  type(typing: Typing | undefined): void {
    if (typing && !this.typing) this.#focusNext = '.typed select';
    this.typing = typing;
    this.#update();
  }

  typed(id: string): void {
    const { typing } = this;
    if (!typing) return;
    const parts: Part[] = typing.rows
      .map(({ tube, parts: text }) => ({ tube, parts: Number(text.trim().replace(',', '.')) }))
      .filter(({ tube }) => tube !== '');
    const sound = parts.every((part) => part.parts > 0 && part.parts <= MOST_PARTS);
    if (parts.length === 0 || !sound) {
      this.typing = { ...typing, fault: this.say('reader.parts-wrong') };
      return this.#update();
    }
    this.takeRecipe(id, { parts, strength: Number((1 / typing.times).toFixed(4)) });
    this.#focusNext = '[data-recipe]';
  }

  // To the board

  map(column: number, bucket: number | undefined): void {
    this.#mapped = { ...this.#mapped, [column]: bucket };
    this.#update();
  }

  send(): void {
    const { state, plan } = this;
    if (!state || state.dabs.length === 0) return;
    const sent = sentOf(state, plan, this.mapping);
    if (!fits(plan, sent)) {
      this.fault = this.say('reader.board-full');
      this.#speak(this.fault);
      return this.#update();
    }
    this.#host.store.change('sheet', (now) => withSent(now, sent));
    for (const { id, loops } of state.dabs)
      this.#places.set(id, onSheet(state.corners, middleOf(loops)));
    this.#host.dispatchEvent(
      new SheetSendEvent(structuredClone(sent.swatches), structuredClone(sent.dabs)),
    );
    this.report(
      this.say('reader.sent', { count: sent.swatches.length, dabs: sent.dabs.length }),
      true,
    );
  }

  // Wet and dry

  pair(id: string, earlier: string): void {
    this.#act('note', (state) => ({
      ...state,
      dabs: state.dabs.map((dab) => {
        if (dab.id === id) return { ...dab, same: earlier || undefined };
        // An earlier dab has one partner.
        return earlier && dab.same === earlier ? { ...dab, same: undefined } : dab;
      }),
    }));
  }

  pairAll(key: string): void {
    const { state } = this;
    if (!state) return;
    const sheet = earlierSheets(this.dabs, new Set(state.dabs.map(({ id }) => id))).find(
      (each) => each.key === key,
    );
    const earlier = sheet?.dabs ?? [];
    const places = earlier.map(({ id }) => this.#places.get(id));
    const pairs = places.some((spot) => spot)
      ? pairedByPlace(
          state.dabs.map(({ loops }) => onSheet(state.corners, middleOf(loops))),
          places,
        )
      : pairedInOrder(
          state.dabs.map(({ lab }) => lab),
          earlier.map(({ lab }) => lab),
        );
    const count = pairs.filter((pair) => pair !== undefined).length;
    this.#act(
      'note',
      (now) => ({
        ...now,
        dabs: now.dabs.map((dab, i) => {
          const pair = pairs[i];
          return { ...dab, same: pair === undefined ? undefined : earlier[pair].id };
        }),
      }),
      this.say(key ? 'reader.paired' : 'reader.unpaired', { count }),
    );
  }

  // One tube

  askTube(change: Partial<TubeAsked>): void {
    this.tube = { ...this.tube, fault: '', fit: undefined, ...change };
    this.#update();
  }

  fitTube(): void {
    const { state, tube } = this;
    if (!state) return;
    const strengths = timesOf(this);
    if (!tube.tube) return this.askTube({ fault: this.say('reader.tube-missing') });
    if (strengths.length === 0) return this.askTube({ fault: this.say('reader.tube-no-dabs') });
    if (strengths.some(({ dab }) => wetOf(dab, state) !== 'dry'))
      return this.askTube({ fault: this.say('reader.tube-wet') });
    const readings = strengths.map(({ dab, times }) => ({ lab: dab.lab, strength: 1 / times }));
    this.askTube({ busy: true });
    void (async () => {
      const asked = this.tube;
      try {
        const core = await this.#host.store.core();
        const paper = paperReflectance({ lightness: paperOf(this.plan) });
        const fit = await core.run('fit', { tube: tube.tube, readings, paper });
        if (this.tube !== asked) return;
        this.tube = { ...asked, busy: false, fit };
        this.#focusNext = '[data-keep-fit]';
        this.#speak(fit.reasons.map((reason) => this.paint(reason)).join(' '));
      } catch (thrown) {
        if (this.tube !== asked) return;
        this.tube = { ...asked, busy: false, fault: this.say('reader.fit-failed') };
        this.#host.fail({ code: 'reader.fit-failed', values: { name: reasonOf(thrown).code } });
      }
      this.#update();
    })();
  }

  keepFit(): void {
    const { fit } = this.tube;
    if (!fit) return;
    const own = { tube: fit.tube, load: fit.load, loadLow: fit.low, loadHigh: fit.high };
    this.#host.store.change('shelf-fit', (plan) => {
      const shelf = plan.shelf ?? [];
      const on = shelf.some(({ tube }) => tube === fit.tube);
      return {
        ...plan,
        shelf: on
          ? shelf.map((each) => (each.tube === fit.tube ? { ...each, ...own } : each))
          : [...shelf, own],
      };
    });
    const strengths = timesOf(this);
    this.#act('note', (state) => ({
      ...state,
      dabs: state.dabs.map((dab) => {
        const of = strengths.find((each) => each.dab.id === dab.id);
        if (!of || dab.recipe) return dab;
        const strength = Number((1 / of.times).toFixed(4));
        return { ...dab, recipe: { parts: [{ tube: fit.tube, parts: 1 }], strength } };
      }),
    }));
    this.#host.dispatchEvent(new ShelfChangeEvent(this.plan.shelf ?? [], 'fit', fit.tube));
    this.tube = { ...this.tube, fit: undefined };
    this.report(this.say('reader.fit-kept', { tube: this.tubeName(fit.tube) }), true);
  }

  // Memory

  askMemory(change: Partial<MemoryAsked>): void {
    this.memory = { ...this.memory, most: 30, ...change };
    if (change.proven === undefined) {
      const { length } = foundDabs(this);
      this.#speak(this.say('reader.memory-found', { count: length, all: this.dabs.length }));
    }
    this.#update();
  }

  forget(id: string): void {
    const dab = this.dabs.find((each) => each.id === id);
    if (!dab) return;
    this.#host.store.change('dab-forget', (plan) => ({
      ...plan,
      dabs: (plan.dabs ?? []).filter((each) => each.id !== id),
    }));
    this.#focusNext = '[data-undo-plan]';
    this.#host.dispatchEvent(new DabForgetEvent(structuredClone(dab), this.dabs.slice()));
    this.report(this.say('reader.forgotten'), true);
  }

  /** What a remembered dab was meant to be: its recipe as predicted on paper of L* 95. */
  predicted({ recipe }: Dab): Lab | undefined {
    if (!recipe) return undefined;
    const { shelf } = this.plan;
    if (this.#predictedFor !== shelf) this.#predicted = new WeakMap();
    this.#predictedFor = shelf;
    const known = this.#predicted.get(recipe);
    if (known !== undefined) return known ?? undefined;
    const lab = this.#predict(recipe);
    this.#predicted.set(recipe, lab ?? null);
    return lab;
  }

  #predict(recipe: Recipe): Lab | undefined {
    const layers = [...(recipe.over ?? []), recipe];
    const known = layers.every(({ parts }) => parts.every(({ tube }) => KNOWN.has(tube)));
    if (!known) return undefined;
    const loads = Object.fromEntries(
      (this.plan.shelf ?? []).flatMap(({ tube, load }) =>
        load === undefined || !KNOWN.has(tube) ? [] : [[tube, load]],
      ),
    );
    const below: Mix[] = [];
    for (const { parts, strength } of layers)
      below.push(mixOnPaper(parts, { strength, over: below.slice(), loads }));
    return below.at(-1)!.lab;
  }

  // Rendering

  render(): TemplateResult {
    const { state, picture } = this;
    const sheet = picture.handle !== undefined;
    return html`<div class="desk">
      ${this.#renderFault()} ${this.#renderProgress()}
      ${
        sheet
          ? html`<div class="work">
              <div class="left">
                ${renderStage(this, this.#hand)}
                ${state && this.picked ? renderPicked(this) : nothing}
              </div>
              ${state ? html`<div class="right">${renderList(this)} ${renderWarnings(this)}</div>` : nothing}
            </div>`
          : nothing
      }
      ${this.#renderPanels(state !== undefined)}
    </div>`;
  }

  #renderFault(): TemplateResult | typeof nothing {
    if (!this.fault) return nothing;
    return html`<div class="fault" part="trouble" role="alert">
      <span>${this.fault}</span>
      <button type="button" class="quiet" @click=${() => this.forgive()}>
        ${icon('close')}<span>${this.say('picture.forgive')}</span>
      </button>
    </div>`;
  }

  #renderProgress(): TemplateResult | typeof nothing {
    if (this.progress === undefined) {
      if (this.state || !this.picture.handle || this.picture.status !== 'ready') return nothing;
      return html`<div class="acts">
        <button type="button" data-again @click=${() => void this.read()}>
          ${icon('spot')}<span>${this.say('reader.read-again')}</span>
        </button>
      </div>`;
    }
    return html`<div class="progress" part="progress">
      <span>${this.say('reader.reading')}</span>
      <progress aria-label=${this.say('reader.reading')} max="1" value=${this.progress}></progress>
      <button type="button" class="quiet" @click=${() => this.stop()}>
        ${icon('close')}<span>${this.say('progress.stop')}</span>
      </button>
    </div>`;
  }

  #renderPanels(read: boolean): TemplateResult | typeof nothing {
    const panels = PANELS.filter((panel) => panel === 'memory' || panel === 'card' || read);
    const shown = panels.includes(this.panel) ? this.panel : 'memory';
    const asked =
      this.#host.panel === 'memory' ||
      this.#host.panel === 'card' ||
      (this.dabs.length > 0 && !this.picture.handle);
    if (!read && !asked) return nothing;
    return html`<section class="panels" part="panels">
      ${
        panels.length > 1
          ? html`<div class="segments" role="group" aria-label=${this.say('reader.panels')}>
              ${panels.map(
                (panel) =>
                  html`<button
                    type="button"
                    data-panel=${panel}
                    aria-pressed=${panel === shown ? 'true' : 'false'}
                    @click=${() => this.turnTo(panel)}
                  >
                    ${this.say(`reader.panel-${panel}`)}
                  </button>`,
              )}
            </div>`
          : nothing
      }
      ${this.#renderDone()}
      <div class="panel" part="panel" data-panel-of=${shown}>
        ${shown === 'board' ? renderBoardPanel(this) : nothing}
        ${shown === 'drying' ? renderDryingPanel(this) : nothing}
        ${shown === 'tube' ? renderTubePanel(this) : nothing}
        ${shown === 'card' ? renderCardPanel(this) : nothing}
        ${shown === 'memory' ? renderMemoryPanel(this) : nothing}
      </div>
    </section>`;
  }

  #renderDone(): TemplateResult | typeof nothing {
    if (!this.done) return nothing;
    return html`<p class="done" part="done">
      <span>${this.done}</span>
      ${
        this.#made === this.plan && this.#host.store.canUndo
          ? html`<button type="button" class="quiet" data-undo-plan @click=${() => this.undoPlan()}>
              ${icon('undo')}<span>${this.say('reader.undo-plan')}</span>
            </button>`
          : nothing
      }
    </p>`;
  }
}

/** Tubes that can be predicted. */
const KNOWN: ReadonlySet<string> = new Set(TUBES.map(({ id }) => id));

const sameCorners = (a: Corners, b: Corners): boolean =>
  a.every(([x, y], i) => Math.abs(x - b[i][0]) < 1e-6 && Math.abs(y - b[i][1]) < 1e-6);
