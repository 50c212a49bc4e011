import {
  regionAt,
  spotOfPixel,
  type Jobs,
  type Mark,
  type MassOverrule,
  type Overrule,
  type PassageBorder,
  type Plan,
  type Reason,
  type Spot,
} from '../../shared/core.js';
import {
  massesAsked,
  MassesInHand,
  type MassesState,
  type MassWork,
} from '../../shared/masses-in-hand.js';
import { Following } from '../following.js';
import { factsOf, insideOf, massBeside, placeOf } from '../mass-facts.js';
import { HandTool } from './hand-tool.js';
import type { ToolHost } from '../stage-tool.js';
import { lockOf, withChange, withoutChange, wordOnMark } from './shape-changes.js';

export type Ground = NonNullable<Plan['background']>;
export const GROUNDS: readonly Ground[] = ['as-photo', 'paper', 'wash', 'dark'];
export const EDGES = ['hard', 'soft', 'lost'] as const;
export const METHODS = ['bare', 'tint', 'mask', 'paint'] as const;
export const RUNS = ['let-run', 'keep-apart'] as const;

/** How long a stroke given by keys is, as a fraction of the photo. */
const STROKE = 0.08;
/** Radius of a mark that is pinned, of the photo's longer side. */
const PIN = 0.008;

export const withinPhoto = (value: number): number => Math.min(1, Math.max(0, value));

/** Masses in the hand of a painter: one is taken up, and the plan is changed about it, each change one step of undo. */
export class ShapesHand extends HandTool {
  /** The mass in hand, and where it was pointed at: its number changes with the masses. */
  picked?: number;
  pickedAt?: Spot;
  /** Why the last act was refused, in words. */
  said = '';
  /** How each choice of ground stands against the sitter. */
  grounds?: { of: object; choices: Jobs['grounds']['out']['choices'] };
  readonly passages: Following<'passages'>;

  #release?: () => void;
  #asking?: AbortController;
  #passagesWanted = false;

  constructor(host: ToolHost) {
    super(host);
    this.passages = new Following('passages', () => host.requestUpdate());
  }

  get masses(): MassesInHand {
    return MassesInHand.of(this.store);
  }

  get state(): MassesState {
    return this.masses.state;
  }

  override get plan(): Plan {
    return super.plan;
  }

  override say(key: string, values?: Readonly<Record<string, string | number>>): string {
    return super.say(key, values);
  }

  get viewer(): ToolHost {
    return this.host;
  }

  takeUp(): void {
    this.#release = this.masses.hold();
    this.masses.addEventListener('masses', this.#onMasses);
    this.#onMasses();
  }

  layDown(): void {
    this.masses.removeEventListener('masses', this.#onMasses);
    this.#release?.();
    this.#asking?.abort();
    this.passages.letGo();
    this.#passagesWanted = false;
    this.picked = this.pickedAt = undefined;
    this.said = '';
  }

  bandNames(bands: number): string[] {
    const { board } = this.plan;
    return Array.from(
      { length: bands },
      (_, band) => board.bands[band]?.name || this.say('band.paper'),
    );
  }

  shortName({ masses }: MassWork, id: number): string {
    const region = masses.regions[id];
    if (!region) return '';
    return this.say('tool.shapes.short', {
      place: placeOf(masses, id),
      band: this.bandNames(masses.map.bands)[region.band],
    });
  }

  massInWords(work: MassWork, id: number): string {
    const facts = factsOf(this.plan, work, id);
    if (!facts) return '';
    return this.say('tool.shapes.facts', {
      place: facts.place,
      count: facts.count,
      band: this.bandNames(work.masses.map.bands)[facts.band],
      share: 100 * facts.share,
      widths: facts.brushWidths,
    });
  }

  changeInWords(overrule: Overrule): string {
    const { kind } = overrule;
    if (kind === 'band') {
      const band = Number(overrule.band);
      return this.say('tool.shapes.did-band', {
        band: this.plan.board.bands[band]?.name || this.say('band.paper'),
      });
    }
    if (kind === 'edge') {
      const edge = EDGES.find((each) => each === overrule.edge) ?? 'hard';
      return this.say('tool.shapes.did-edge', { edge: this.say(`tool.shapes.edge-${edge}`) });
    }
    if (kind === 'reserve') {
      const method = METHODS.find((each) => each === overrule.method) ?? 'bare';
      return this.say('tool.shapes.did-reserve', { how: this.say(`tool.shapes.keep-${method}`) });
    }
    if (kind === 'passage') {
      const run = RUNS.find((each) => each === overrule.run) ?? 'let-run';
      return this.say('tool.shapes.did-passage', { run: this.say(`tool.shapes.run-${run}`) });
    }
    if (kind === 'mark' && overrule.light !== undefined) return this.say('tool.shapes.did-pin');
    if (kind === 'mark')
      return this.say(overrule.keep === false ? 'tool.shapes.did-drop' : 'tool.shapes.did-keep');
    const known = ['join', 'split', 'lock', 'stroke'];
    return this.say(known.includes(kind) ? `tool.shapes.did-${kind}` : 'tool.shapes.did-other');
  }

  why(reason: Reason): string {
    return `${this.say('tool.shapes.unmet')} ${this.host.sentenceOf(reason)}`;
  }

  /** The place of the last change of a kind about a mass. */
  changeOf(kind: string, id: number): number | undefined {
    const { work, plan } = this.state;
    if (!work || !plan) return undefined;
    const found = this.plan.overrules.findLastIndex(
      (overrule) =>
        overrule.kind === kind &&
        isSpot(overrule.at) &&
        regionAt(plan, work.masses, overrule.at) === id,
    );
    return found < 0 ? undefined : found;
  }

  change(change: MassOverrule, replaces?: (overrule: Overrule) => boolean): void {
    this.said = '';
    this.store.change('shapes', (plan) => withChange(plan, change, replaces));
    this.host.speak(this.changeInWords({ ...change }));
    this.host.requestUpdate();
  }

  takeOut(place: number): void {
    this.store.change('shapes', (plan) => withoutChange(plan, place));
  }

  /** Changes of this kind about this mass give way to the new one. */
  #about(kind: string, id: number): (overrule: Overrule) => boolean {
    const place = this.changeOf(kind, id);
    const before = place === undefined ? undefined : this.plan.overrules[place];
    return (overrule) => overrule === before;
  }

  toBand(work: MassWork, id: number, band: number): void {
    if (work.masses.regions[id].band === band) return;
    this.change({ kind: 'band', at: this.#at(work, id), band }, this.#about('band', id));
  }

  keep(work: MassWork, id: number, method: string): void {
    const how = METHODS.find((each) => each === method);
    if (how) {
      const change: MassOverrule = { kind: 'reserve', at: this.#at(work, id), method: how };
      return this.change(change, this.#about('reserve', id));
    }
    const place = this.changeOf('reserve', id);
    if (place !== undefined) this.takeOut(place);
  }

  lock(work: MassWork, id: number): void {
    const locked = this.changeOf('lock', id);
    if (locked !== undefined) this.takeOut(locked);
    else if (work.outlines[id]) this.change(lockOf(this.plan, work.masses, work.outlines[id]));
  }

  cut(line: Spot[]): void {
    this.change({ kind: 'split', line: line.map(([x, y]) => [x, y]) });
  }

  join(work: MassWork, id: number, other: number): void {
    this.change({ kind: 'join', from: this.#at(work, id), to: this.#at(work, other) });
  }

  edge(work: MassWork, id: number, other: number, value: string): void {
    const edge = EDGES.find((each) => each === value);
    if (!edge) return;
    const between: [Spot, Spot] = [this.#at(work, id), this.#at(work, other)];
    const pair = (spots: readonly Spot[]): string => {
      const regions = spots.map((spot) => regionAt(this.plan, work.masses, spot) ?? -1);
      return regions.sort((a, b) => a - b).join();
    };
    const same = pair(between);
    this.change(
      { kind: 'edge', between, edge },
      (before) => before.kind === 'edge' && isPair(before.between) && pair(before.between) === same,
    );
  }

  /** Whether two passages may run into each other. */
  run(work: MassWork, { passages: pair }: PassageBorder, value: string): void {
    const run = RUNS.find((each) => each === value);
    const found = this.passages.found?.out;
    if (!run || !found) return;
    const { masses } = work;
    const { width, height } = masses.map;
    const { crop = { x: 0, y: 0, width: 1, height: 1 } } = this.plan;
    const passageAt = ([x, y]: Spot): number => {
      const column = Math.floor(((x - crop.x) / crop.width) * width);
      const row = Math.floor(((y - crop.y) / crop.height) * height);
      const inside = column >= 0 && row >= 0 && column < width && row < height;
      return inside ? found.labels[row * width + column] : -1;
    };
    const between = pair.map((id) => {
      const [x, y] = found.passages[id].at;
      return spotOfPixel(this.plan, masses, x, y);
    }) as [Spot, Spot];
    const same = (spots: [Spot, Spot]): boolean => {
      const ids = spots.map(passageAt);
      return ids.includes(pair[0]) && ids.includes(pair[1]);
    };
    this.change(
      { kind: 'passage', between, run },
      (before) => before.kind === 'passage' && isPair(before.between) && same(before.between),
    );
  }

  strokeFrom(work: MassWork, id: number, dx: number, dy: number): void {
    const [x, y] = this.#at(work, id);
    const half = STROKE / 2;
    this.change({
      kind: 'stroke',
      from: [withinPhoto(x - dx * half), withinPhoto(y - dy * half)],
      to: [withinPhoto(x + dx * half), withinPhoto(y + dy * half)],
    });
  }

  mark({ masses }: MassWork, mark: Mark, keep: boolean, marking?: string): void {
    const before = wordOnMark(this.plan, masses, mark);
    const at = spotOfPixel(this.plan, masses, mark.x, mark.y);
    const light = before?.light;
    const radius = before?.radius;
    this.change(
      {
        kind: 'mark',
        at,
        keep,
        ...(marking ? { marking } : {}),
        ...(typeof light === 'boolean' ? { light } : {}),
        ...(typeof radius === 'number' ? { radius } : {}),
      },
      (overrule) => overrule === before,
    );
  }

  /** A mark where the brief or the eye wants one; whether it is a light is told by its surround. */
  pin({ masses }: MassWork, at: Spot): void {
    const { plane } = this.store.picture;
    const region = regionAt(this.plan, masses, at);
    if (region === undefined || !plane) return this.refuse('tool.shapes.pin-outside');
    const { crop = { x: 0, y: 0, width: 1, height: 1 } } = this.plan;
    const place = (spot: number, from: number, span: number, size: number): number =>
      Math.min(size - 1, Math.floor(((spot - from) / span) * size));
    const x = place(at[0], crop.x, crop.width, plane.width);
    const y = place(at[1], crop.y, crop.height, plane.height);
    const lightness = plane.data[y * plane.width + x] / 2.55;
    const light = lightness > masses.regions[region].mean;
    this.change({ kind: 'mark', at, keep: true, light, radius: PIN });
  }

  finerAbout({ masses }: MassWork, id: number): void {
    const [x, y, w, h] = masses.regions[id].bounds;
    const corner = (px: number, py: number): Spot => spotOfPixel(this.plan, masses, px, py);
    this.focusOn([corner(x, y), corner(x + w, y), corner(x + w, y + h), corner(x, y + h)]);
  }

  /** A part that the smallest brush states. */
  focusOn(loop: Spot[]): void {
    this.said = '';
    this.store.change('focus', (plan) => {
      const finest = plan.brushes.reduce(
        (best, { pressedMm }, i) => (pressedMm < plan.brushes[best].pressedMm ? i : best),
        0,
      );
      const used = new Set((plan.focus ?? []).map(({ id }) => id));
      let number = used.size + 1;
      while (used.has(`finer-${number}`)) number++;
      const area = { id: `finer-${number}`, loop, brush: finest };
      return { ...plan, focus: [...(plan.focus ?? []), area] };
    });
    this.host.speak(this.say('tool.shapes.finer-said'));
  }

  focusBrush(id: string, brush: number): void {
    this.store.change('focus', (plan) => ({
      ...plan,
      focus: (plan.focus ?? []).map((area) => (area.id === id ? { ...area, brush } : area)),
    }));
  }

  dropFocus(id: string): void {
    this.store.change('focus', (plan) => {
      const { focus = [], ...rest } = plan;
      const left = focus.filter((area) => area.id !== id);
      return left.length > 0 ? { ...rest, focus: left } : rest;
    });
  }

  useBrush(brush: number): void {
    this.store.change('brush', (plan) => ({ ...plan, brush }));
  }

  ground(choice: Ground): void {
    this.store.change('background', (plan) => {
      const { background: _before, ...rest } = plan;
      return choice === 'as-photo' ? rest : { ...rest, background: choice };
    });
  }

  pickAt(at: Spot): void {
    const { work, plan } = this.state;
    const id = work && plan && regionAt(plan, work.masses, at);
    this.pick(id, at);
  }

  pick(id: number | undefined, at?: Spot): void {
    const { work } = this.state;
    if (!work) return;
    this.picked = id;
    this.pickedAt = id === undefined ? undefined : (at ?? insideOf(this.plan, work.masses, id));
    if (id !== undefined) this.host.speak(this.massInWords(work, id));
    this.host.requestUpdate();
  }

  step(by: 1 | -1): void {
    const { work } = this.state;
    if (work) this.pick(massBeside(work.masses, this.picked, by));
  }

  refuse(key: string): void {
    this.said = this.say(key);
    this.host.requestUpdate();
  }

  /** The passages are looked at, or no longer. */
  wantPassages(wanted: boolean): void {
    this.#passagesWanted = wanted;
    if (wanted) this.passages.ask(this.store, this.state);
    this.host.requestUpdate();
  }

  /** A spot of a mass: where it was pointed at, else well inside. */
  #at(work: MassWork, id: number): Spot {
    return this.pickedAt && id === this.picked
      ? this.pickedAt
      : insideOf(this.plan, work.masses, id);
  }

  #onMasses = (): void => {
    const { work, plan, status } = this.state;
    if (work && plan && this.pickedAt) this.picked = regionAt(plan, work.masses, this.pickedAt);
    else this.picked = undefined;
    if (work && status === 'ready') void this.#askGrounds(work);
    if (this.#passagesWanted) this.passages.ask(this.store, this.state);
    this.host.requestUpdate();
  };

  async #askGrounds({ masses }: MassWork): Promise<void> {
    if (!this.plan.sitter || this.grounds?.of === masses) return;
    this.#asking?.abort();
    const asking = (this.#asking = new AbortController());
    try {
      const { choices } = await this.store.run('grounds', massesAsked(this.plan), {
        signal: asking.signal,
      });
      this.grounds = { of: masses, choices };
    } catch {
      // The choice is then made without figures.
    }
    this.host.requestUpdate();
  }
}

const isSpot = (value: unknown): value is Spot =>
  Array.isArray(value) && value.length === 2 && value.every((each) => Number.isFinite(each));

const isPair = (value: unknown): value is [Spot, Spot] =>
  Array.isArray(value) && value.length === 2 && value.every(isSpot);
