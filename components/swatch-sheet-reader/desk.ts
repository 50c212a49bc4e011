import type { TemplateResult } from 'lit';
import {
  munsellValue,
  type Corners,
  type Dab,
  type Jobs,
  type Loop,
  type Part,
  type PlacedSheet,
  type Plan,
  type Progress,
  type Reason,
  type Recipe,
  type SheetPaper,
  type SheetReading,
  type Spot,
} from '../shared/core.js';
import { SheetChangeEvent, type SheetAct } from '../shared/events/sheet-change.js';
import { SheetReadEvent } from '../shared/events/sheet-read.js';
import { paintSentence, recipeInWords, tubeName } from '../shared/paint-words.js';
import { reasonOf, type PictureState } from '../shared/plan-store.js';
import { formatNumber } from '../shared/strings.js';
import type { Bench, DeskHost } from './bench.js';
import { BoardWork } from './board-work.js';
import { DabMemory } from './dab-memory.js';
import { DabShaping } from './dab-shaping.js';
import {
  foundAgain,
  foundDab,
  inOrder,
  readingOf,
  withDab,
  type Read,
  type ReadDab,
  type SheetState,
  type Wet,
} from './dabs-state.js';
import { renderDesk } from './desk-view.js';
import { heldCorner, soundCorners } from './geometry.js';
import { paperOf } from './sending.js';
import { reasonFigures } from './sheet-reasons.js';
import { PANELS, type Panel, type Typing } from './sheet-view.js';
import { StageHand } from './stage-hand.js';
import { drawPicture, showPicked } from './stage-view.js';
import { TubeFitting } from './tube-fitting.js';

export { deskStyles } from './desk.styles.js';
export { paintWords } from '../shared/words/paint.js';
export { tubesWords } from '../shared/words/tubes.js';
export { sheetDeskWords } from '../shared/words/sheet-desk.js';

/** How long corners wait for the next one before the place is read, ms. */
const PAUSE = 350;
/** A part of a recipe is at most so much. */
const MOST_PARTS = 1000;

/** All that the reader shows and does once there is a photo or something to remember. */
export class Desk implements Bench {
  state?: SheetState;
  picked = '';
  nearer = false;
  shownCorners?: Corners;
  progress?: number;
  busy = false;
  fault = '';
  done = '';
  typing?: Typing;

  readonly host: DeskHost;
  readonly shaping: DabShaping = new DabShaping(this);
  readonly boarding: BoardWork = new BoardWork(this);
  readonly tubes: TubeFitting = new TubeFitting(this);
  readonly memory: DabMemory = new DabMemory(this);
  readonly #hand: StageHand;
  #past: SheetState[] = [];
  #future: SheetState[] = [];
  #handleId = '';
  #sheetKey = '';
  #nextId = 0;
  #timer?: ReturnType<typeof setTimeout>;
  #work?: AbortController;
  #queue: Promise<void> = Promise.resolve();
  #found?: Corners;
  focusNext?: string;
  /** The plan that this desk changed last: only that change is offered to be taken back. */
  #made?: Plan;
  /** Whether the picked dab is brought to the middle at the next drawing. */
  #showNext = false;

  constructor(host: DeskHost) {
    this.host = host;
    this.#hand = new StageHand(this);
    this.opened();
  }

  // What the views read

  get plan(): Plan {
    return this.host.store.plan;
  }

  get picture(): PictureState {
    return this.host.sheet.picture;
  }

  get dabs(): readonly Dab[] {
    return this.plan.dabs ?? [];
  }

  get panel(): Panel {
    const { panel } = this.host;
    return (PANELS as readonly string[]).includes(panel) ? (panel as Panel) : 'board';
  }

  get asked(): boolean {
    return this.host.panel === 'memory' || this.host.panel === 'card';
  }

  get canUndoPlan(): boolean {
    return this.#made === this.plan && this.host.store.canUndo;
  }

  get printer(): SheetPaper {
    return this.host.lengthUnit === 'in' ? 'letter' : 'A4';
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

  /** What others get: the reading with the dabs as the painter has them. */
  get reading(): SheetReading | undefined {
    const { handle } = this.picture;
    return this.state && handle ? readingOf(this.state, handle) : undefined;
  }

  readonly say = (key: string, values: Record<string, string | number> = {}): string =>
    this.host.words(key, values);

  tell(reason: Reason): string {
    const told = reasonFigures(reason, this.say, (id) => this.tubeName(id));
    return this.say(told.code, told.values);
  }

  paint(reason: Reason): string {
    return paintSentence(reason, this.say);
  }

  number(value: number, digits: number, sign = false): string {
    return formatNumber(value, this.host.language, digits, sign);
  }

  value(lightness: number): string {
    const value = munsellValue(Math.min(100, Math.max(0, lightness)));
    return formatNumber(value, this.host.language, 1, false, true);
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
    return new Intl.DateTimeFormat(this.host.language, {
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
    this.shaping.endDoing();
    this.shownCorners = undefined;
    this.shaping.still();
    this.#found = undefined;
    this.typing = undefined;
    this.fault = '';
    this.done = '';
    this.boarding.clear();
    this.tubes.clear();
  }

  /** Ends what is under way. */
  #halt(): void {
    clearTimeout(this.#timer);
    this.shaping.halt();
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
    this.shaping.still();
  }

  /** After each drawing of the element. */
  settle(): void {
    drawPicture(this, this.host.shadowRoot);
    if (this.#showNext) showPicked(this, this.host.shadowRoot);
    this.#showNext = false;
    const next = this.focusNext;
    this.focusNext = undefined;
    if (next) this.host.shadowRoot?.querySelector<HTMLElement>(next)?.focus();
  }

  update(): void {
    this.host.requestUpdate();
  }

  speak(text: string): void {
    this.host.speak(text);
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
    this.update();
    const onProgress = ({ done }: Progress): void => {
      if (work.signal.aborted) return;
      this.progress = done;
      this.update();
    };
    const paperLightness = paperOf(this.plan);
    try {
      const core = await this.host.store.core();
      const input = { picture: handle.id, paperLightness, ...(corners && { corners }) };
      const reading = await core.run('sheet', input, { signal: work.signal, onProgress });
      const before = this.state;
      const found = reading.swatches.map((swatch) => foundDab(swatch, this.newId()));
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
      this.enter(read);
      this.shownCorners = undefined;
      const { length } = read.dabs;
      this.speak(this.say('reader.read', { count: length }));
      this.host.dispatchEvent(new SheetReadEvent(this.reading!));
    } catch (thrown) {
      if (work.signal.aborted) return;
      this.shownCorners = undefined;
      this.#failed('reader.read-failed', thrown);
    } finally {
      if (this.#work === work) {
        this.#work = undefined;
        this.progress = undefined;
        this.update();
        this.host.cameToEnd();
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
      out.push({ ...dab, ...(await this.readPlace(dab.loops, reading.light)) });
    }
    return out;
  }

  async readPlace(loops: readonly Loop[], light: NonNullable<PlacedSheet['light']>): Promise<Read> {
    const core = await this.host.store.core();
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
    this.host.fail({ code: key, values: { ...values, name: code } });
    this.update();
  }

  /** Gives up the reading under way; what was read before stays. */
  stop(): void {
    this.#halt();
    this.shownCorners = undefined;
    this.speak(this.say('reader.stopped'));
    this.focusNext = this.state ? '.stage [data-corner]' : '[data-again]';
    this.update();
    this.host.cameToEnd();
  }

  forgive(): void {
    this.fault = '';
    this.update();
  }

  newId(): string {
    return `${this.#sheetKey}-${++this.#nextId}`;
  }

  // States and undo

  /** Takes up another state as one step of undo. */
  enter(next: SheetState): void {
    if (this.state) this.#past.push(this.state);
    this.#future = [];
    this.state = next;
    this.shaping.still();
    this.fault = '';
    if (!next.dabs.some(({ id }) => id === this.picked)) this.picked = '';
    this.tubes.outdate();
    this.update();
  }

  #changed(what: SheetAct, said = ''): void {
    if (said) this.speak(said);
    this.host.dispatchEvent(new SheetChangeEvent(this.reading!, what));
  }

  act(what: SheetAct, make: (state: SheetState) => SheetState, said = ''): void {
    const { state } = this;
    if (!state) return;
    const next = make(state);
    if (next === state) return;
    this.enter(next);
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
    this.shaping.still();
    this.shaping.endDoing();
    to.push(this.state);
    this.state = next;
    if (!next.dabs.some(({ id }) => id === this.picked)) this.picked = '';
    if (from.length === 0) this.focusNext = what === 'undo' ? '[data-redo]' : '[data-undo]';
    this.update();
    this.#changed(what, this.say(what === 'undo' ? 'reader.undone' : 'reader.redone'));
  }

  undoPlan(): void {
    this.host.store.undo();
    this.#made = undefined;
    this.done = this.say('reader.undone');
    this.speak(this.done);
    this.update();
  }

  report(text: string, planUndo = false): void {
    this.done = text;
    this.#made = planUndo ? this.plan : undefined;
    this.speak(text);
    this.update();
  }

  // Picking and doing

  turnTo(panel: Panel): void {
    this.host.panel = panel;
    this.done = '';
    this.update();
  }

  pick(id: string, focus = false): void {
    this.picked = id;
    this.typing = undefined;
    this.shaping.endDoing();
    if (focus) this.focusNext = id ? '[data-box]' : undefined;
    this.update();
  }

  setNearer(on: boolean): void {
    this.nearer = on;
    this.#showNext = on;
    this.update();
  }

  // Corners

  dragCorner(corner: number, to: Spot, settled: boolean): void {
    const shown = this.shownCorners ?? this.state?.corners;
    if (!shown) return;
    this.shownCorners = shown.map((spot, i) => (i === corner ? heldCorner(to) : spot)) as Corners;
    this.update();
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
      this.speak(this.fault);
      return this.update();
    }
    this.fault = '';
    this.#timer = setTimeout(() => void this.read(corners), PAUSE);
  }

  resetCorners(): void {
    this.shownCorners = this.#found;
    this.update();
    void this.read(this.#found);
  }

  /** Puts the corners back that are being moved. */
  stillCorners(): void {
    this.shownCorners = undefined;
  }

  // What is known of dabs

  /** Runs what needs the light, one after the other. */
  later(run: (light: NonNullable<PlacedSheet['light']>) => Promise<void>): void {
    const photo = this.#handleId;
    this.#queue = this.#queue.then(async () => {
      const light = this.state?.reading.light;
      if (photo !== this.#handleId) return;
      if (!light) {
        this.shaping.still();
        this.fault = this.say('reader.no-light');
        return this.update();
      }
      this.busy = true;
      this.update();
      try {
        await run(light);
      } catch (thrown) {
        this.shaping.still();
        this.#failed('reader.dab-failed', thrown);
      } finally {
        this.busy = false;
        this.update();
      }
    });
  }

  dab(id: string): ReadDab | undefined {
    return this.state?.dabs.find((dab) => dab.id === id);
  }

  told(id: string): string {
    const dab = this.dab(id);
    if (!dab) return '';
    return this.say('reader.dab-said', {
      number: this.numberOf(id),
      value: this.value(dab.lab[0]),
    });
  }

  putInColumn(id: string, column: number): void {
    this.act(
      'column',
      (state) => withDab(state, id, { column }),
      this.say('reader.in-column', { column: column + 1 }),
    );
  }

  name(id: string, name: string): void {
    this.act('note', (state) => withDab(state, id, { name: name.trim() }));
  }

  wetten(id: string, wet: Wet | undefined): void {
    this.act('note', (state) => withDab(state, id, { wet: wet === state.wet ? undefined : wet }));
  }

  wettenAll(wet: Wet): void {
    this.act(
      'wet',
      (state) => ({ ...state, wet, dabs: state.dabs.map((dab) => ({ ...dab, wet: undefined })) }),
      this.say('reader.sheet-wet', { wet: this.say(`reader.wet-${wet}`) }),
    );
  }

  takeRecipe(id: string, recipe: Recipe | undefined): void {
    this.typing = undefined;
    this.act('note', (state) => withDab(state, id, { recipe }), recipe ? this.recipe(recipe) : '');
  }

  type(typing: Typing | undefined): void {
    if (typing && !this.typing) this.focusNext = '.typed select';
    this.typing = typing;
    this.update();
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
      return this.update();
    }
    this.takeRecipe(id, { parts, strength: Number((1 / typing.times).toFixed(4)) });
    this.focusNext = '[data-recipe]';
  }

  render(): TemplateResult {
    return renderDesk(this, this.#hand);
  }
}

const sameCorners = (a: Corners, b: Corners): boolean =>
  a.every(([x, y], i) => Math.abs(x - b[i][0]) < 1e-6 && Math.abs(y - b[i][1]) < 1e-6);
