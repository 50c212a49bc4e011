import { nothing, type TemplateResult, html } from 'lit';
import {
  gradeOf,
  labInPaint,
  labOf,
  lightnessOfMunsell,
  mixOnPaper,
  munsellValue,
  provenMixes,
  TUBES,
  TUBES_EDITION,
  cssOfLab,
  dryingFromDabs,
  dryingPairs,
  withRange,
  type BoardSwatch,
  type Grade,
  type Jobs,
  type Lab,
  type Mix,
  type MixTarget,
  type OwnDrying,
  type Part,
  type Plan,
  type Progress,
  type Reason,
  type Recipe,
  type ShelfTube,
  type TintReading,
  type TubeFit,
} from '../shared/core.js';
import { MixChangeEvent } from '../shared/events/mix-change.js';
import { MixSendEvent } from '../shared/events/mix-send.js';
import { ShelfChangeEvent, type ShelfAct } from '../shared/events/shelf-change.js';
import { MassesInHand, type MassesState } from '../shared/masses-in-hand.js';
import type { LengthUnit } from '../shared/measure.js';
import { freeId, recipeOf, swatchOf } from '../shared/mix-swatch.js';
import { paintSentence, tubeName } from '../shared/paint-words.js';
import { reasonOf, type PlanStore } from '../shared/plan-store.js';
import { formatNumber } from '../shared/strings.js';
import { renderDone } from './done-view.js';
import { renderLayers, renderOutlook, renderPuddle } from './look-view.js';
import {
  bandOf,
  canMix,
  driedOf,
  groundOf,
  mixOf,
  searched,
  spreadOf,
  strengthAt,
  washOf,
  stripOf,
  type Ground,
} from './mixture.js';
import { renderShelf, USUAL_SHELF } from './shelf-view.js';
import { renderTools } from './tools-view.js';
import type {
  AmountAsked,
  Below,
  Done,
  DoneBy,
  FamilyAsked,
  FamilyFound,
  Finding,
  Fitting,
  Now,
  ReachAsked,
  Tool,
  TypedReading,
  WellView,
} from './well-view.js';
import { renderWells } from './wells.js';

export { deskStyles } from './desk.styles.js';
export { paintWords } from '../shared/words/paint.js';
export { tubesWords } from '../shared/words/tubes.js';
export { wellDeskWords } from '../shared/words/well-desk.js';

/** What the desk needs of its element. */
export interface DeskHost {
  readonly store: PlanStore;
  readonly tied: boolean;
  readonly language: string;
  readonly lengthUnit: LengthUnit;
  readonly updateComplete: Promise<boolean>;
  readonly shadowRoot: ShadowRoot | null;
  requestUpdate(): void;
  words(key: string, values?: Readonly<Record<string, string | number>>): string;
  speak(text: string): void;
  fail(reason: Reason): void;
  dispatchEvent(event: Event): boolean;
}

const clamped = (lightness: number): number => Math.min(100, Math.max(0, lightness));
const valueOf = (lightness: number): number => munsellValue(clamped(lightness));
/** Calls back when the page has nothing else to do, or soon where the engine cannot tell. */
const later = (call: () => void): void => {
  if ('requestIdleCallback' in globalThis) requestIdleCallback(call, { timeout: 500 });
  else setTimeout(call, 20);
};
const NO_PARTS: readonly Part[] = [];
const EMPTY_SHELF: readonly ShelfTube[] = [];
/** Where the tab key comes to the pans. */
const FIRST_PAN = '.place > [tabindex="0"]';
/** As many as a board may hold. */
const MOST_SWATCHES = 1000;

/** All that the well shows and does; it comes once the element nears the viewport. */
export class Desk implements WellView {
  parts: readonly Part[] = NO_PARTS;
  strength = 0.4;
  under?: Below;
  onLayer = false;
  about = '';
  choosing = false;
  tool: Tool = 'find';
  finding: Finding = { source: 'css', css: '', value: 5, most: 3, fault: '' };
  family: FamilyAsked = { band: 0, value: 3, count: 5, fault: '' };
  amount: AmountAsked = { area: '', wetness: 'satin', masses: false, region: -1 };
  reach: ReachAsked = { fault: '' };
  fitting?: Fitting;
  /** The bucket that is aimed at; below 0: the one that the mix's value belongs to. */
  bucket = -1;
  done?: Done;

  readonly #host: DeskHost;
  #ground?: { paper: number; shelf: unknown; ground: Ground };
  #now?: {
    ground: Ground;
    parts: unknown;
    strength: number;
    under: unknown;
    on: boolean;
    now: Now;
  };
  #drying?: { dabs: unknown; drying: OwnDrying };
  #spread?: { dabs: unknown; spread: number | undefined };
  #work?: AbortController;
  #masses?: MassesInHand;
  #letMassesGo?: () => void;
  #focusNext?: string;
  #here = '';
  #gone = false;

  constructor(host: DeskHost) {
    this.#host = host;
    this.aimAt(0);
    this.#warm(TUBES.map(({ id }) => id));
  }

  /** Works out the washes of all tubes while nothing else is to be done, so that the list opens at once. */
  #warm(ids: string[]): void {
    const next = (): void => {
      const id = ids.shift();
      if (id === undefined || this.#gone) return;
      washOf(id, this.#groundNow());
      later(next);
    };
    later(next);
  }

  get plan(): Plan {
    return this.#host.store.plan;
  }

  get shelf(): readonly ShelfTube[] {
    return this.plan.shelf ?? EMPTY_SHELF;
  }

  get tied(): boolean {
    return this.#host.tied;
  }

  get unit(): LengthUnit {
    return this.#host.lengthUnit;
  }

  get masses(): MassesState {
    return this.#masses?.state ?? { status: 'none', progress: 0 };
  }

  get drying(): OwnDrying {
    const { dabs = [] } = this.plan;
    if (this.#drying?.dabs !== dabs)
      this.#drying = { dabs, drying: dryingFromDabs(dryingPairs(dabs)) };
    return this.#drying.drying;
  }

  get spread(): number | undefined {
    const { dabs = [] } = this.plan;
    if (this.#spread?.dabs !== dabs) this.#spread = { dabs, spread: spreadOf(dabs) };
    return this.#spread.spread;
  }

  /** What is in the well, worked out anew when something of it changed. */
  get now(): Now {
    const { parts, strength, under, onLayer } = this;
    const ground = this.#groundNow();
    const old = this.#now;
    if (
      old?.ground === ground &&
      old.parts === parts &&
      old.strength === strength &&
      old.under === under &&
      old.on === onLayer
    )
      return old.now;
    const now = this.#worked(ground);
    this.#now = { ground, parts, strength, under, on: onLayer, now };
    return now;
  }

  #groundNow(): Ground {
    const { paper, shelf } = this.plan;
    if (this.#ground?.paper !== paper.lightness || this.#ground.shelf !== shelf)
      this.#ground = { paper: paper.lightness, shelf, ground: groundOf(this.plan) };
    return this.#ground.ground;
  }

  #worked(ground: Ground): Now {
    const { strength, under, onLayer } = this;
    const { paper, loads } = ground;
    const parts = this.parts.filter((part) => part.parts > 0);
    const below = under && canMix(under.recipe) ? driedOf(under.recipe, ground) : [];
    if (parts.length === 0) return { ground, parts, below, judgedOver: [] };
    const mix = mixOnPaper(parts, { strength, paper, loads });
    const overMix =
      below.length > 0 ? mixOnPaper(parts, { strength, paper, over: below, loads }) : undefined;
    const over = onLayer && overMix ? below : [];
    const strip = stripOf(parts, ground, over);
    const judged = over.length > 0 ? overMix : mix;
    return { ground, parts, mix, overMix, below, judged, judgedOver: over, strip };
  }

  /** The mix as it is written down. */
  get recipe(): Recipe | undefined {
    const { judged, judgedOver } = this.now;
    return judged && recipeOf(judged.parts, this.strength, judgedOver);
  }

  // Words

  say = (key: string, values?: Record<string, string | number>): string =>
    this.#host.words(key, values);

  paint = (reason: Reason): string => paintSentence(reason, this.say);

  figure = (value: number): string => formatNumber(value, this.#host.language, 1, false, true);

  number = (value: number, digits: number): string =>
    formatNumber(value, this.#host.language, digits);

  day = (date: string): string => {
    const time = new Date(`${date}T12:00:00Z`);
    if (Number.isNaN(time.getTime())) return date;
    return new Intl.DateTimeFormat(this.#host.language, { dateStyle: 'medium' }).format(time);
  };

  name = (tube: string): string => tubeName(tube, this.say);

  bandName = (band: number): string => this.plan.board.bands[band]?.name ?? this.say('well.bare');

  grade(mix: { deltaE: number }): Grade {
    return gradeOf(mix.deltaE, this.spread === undefined ? {} : { spread: this.spread });
  }

  // What the element tells the desk

  /** The plan changed, or another one was taken up. */
  changed(): void {
    const { bands } = this.plan.board;
    if (this.bucket >= bands.length) this.bucket = -1;
    if (this.family.band >= bands.length) this.aimAt(0);
    if (this.about && !this.shelf.some(({ tube }) => tube === this.about)) this.about = '';
    // A paint that was taken off the shelf is no longer in the well.
    if (this.shelf.length > 0) {
      const left = this.parts.filter((part) => this.shelf.some(({ tube }) => tube === part.tube));
      if (left.length < this.parts.length) this.parts = left;
    }
    this.done = undefined;
  }

  /** Another plan: what was asked of the one before is dropped. */
  taken(): void {
    this.stop();
    this.#dropMasses();
    this.amount = { ...this.amount, masses: false, region: -1 };
    this.finding = { ...this.finding, found: undefined, running: undefined };
    this.family = { ...this.family, found: undefined, running: undefined };
    this.reach = { fault: '' };
    this.changed();
  }

  /** The element left the page. */
  left(): void {
    this.#gone = true;
    this.stop();
    this.#dropMasses();
    this.amount = { ...this.amount, masses: false };
  }

  /** Gives up what is looked for. */
  stop(): void {
    this.#work?.abort();
    this.#work = undefined;
    this.finding = { ...this.finding, running: undefined };
    this.family = { ...this.family, running: undefined };
    this.reach = { ...this.reach, running: undefined };
  }

  /** Aims at a band: it is the one that a family is made for. */
  aimAt(band: number): void {
    const { floor, ceiling } = this.plan.board.bands[band] ?? { floor: 0, ceiling: 100 };
    const middle = Math.round(valueOf((floor + ceiling) / 2) * 10) / 10;
    this.family = { ...this.family, band, value: middle, found: undefined, fault: '' };
  }

  /**
   * Fills the well by script: nothing is told.
   * @throws {TypeError | RangeError} for a recipe that cannot be mixed.
   */
  fill(recipe: Recipe | null): void {
    if (recipe) mixOf(recipe, this.#groundNow());
    this.parts = recipe?.parts.map((part) => ({ ...part })) ?? NO_PARTS;
    if (!recipe) return;
    this.strength = recipe.strength;
    this.under = undefined;
    this.onLayer = false;
    this.#layBelow(recipe);
  }

  /** A recipe's own dried layers come to lie below; without any, what lies there stays. */
  #layBelow({ over = [] }: Recipe): void {
    const top = over.at(-1);
    if (!top) return;
    this.under = {
      label: this.say('well.dried', { tube: this.name(top.parts[0].tube) }),
      recipe: { ...top, ...(over.length > 1 ? { over: over.slice(0, -1) } : {}) },
    };
    this.onLayer = true;
  }

  /** Puts the focus where an act has left it without a place. */
  settle(): void {
    const selector = this.#focusNext;
    this.#focusNext = undefined;
    if (selector) this.#host.shadowRoot?.querySelector<HTMLElement>(selector)?.focus();
  }

  #update(): void {
    this.#host.requestUpdate();
  }

  #report(words: string, by: DoneBy, undoable = true): void {
    this.done = { words, by, undoable };
    this.#host.speak(words);
    this.#update();
  }

  // The shelf

  #changeShelf(what: ShelfAct, tube: string, label: string, make: (plan: Plan) => Plan): void {
    const before = this.plan;
    this.#host.store.change(label, (plan) => {
      const next = make(plan);
      return next === plan || next.tubesEdition === TUBES_EDITION
        ? next
        : { ...next, tubesEdition: TUBES_EDITION };
    });
    if (this.plan === before) return;
    if (what !== 'sold') this.reach = { fault: '' };
    this.#host.dispatchEvent(new ShelfChangeEvent(structuredClone(this.shelf), what, tube));
  }

  begin(): void {
    this.#changeShelf('add', '', 'shelf-begin', (plan) => ({
      ...plan,
      shelf: USUAL_SHELF.map((tube) => ({ tube })),
    }));
    this.choosing = false;
    this.#focusNext = FIRST_PAN;
    this.#report(this.say('well.begun', { count: USUAL_SHELF.length }), 'shelf');
  }

  choose(open: boolean): void {
    this.choosing = open;
    this.about = '';
    this.#focusNext = open ? '.chooser input' : '.choose';
    this.#update();
  }

  get here(): string {
    const { shelf } = this;
    return (shelf.find(({ tube }) => tube === this.#here) ?? shelf[0])?.tube ?? '';
  }

  stand(tube: string): void {
    if (this.#here === tube) return;
    this.#here = tube;
    this.#update();
  }

  tell(tube: string): void {
    const before = this.about;
    this.about = tube;
    this.fitting = undefined;
    if (!tube) this.#focusNext = `[data-about="${before}"]`;
    this.#update();
  }

  put(tube: string): void {
    this.#changeShelf('add', tube, 'shelf-add', (plan) =>
      (plan.shelf ?? []).some((each) => each.tube === tube)
        ? plan
        : { ...plan, shelf: [...(plan.shelf ?? []), { tube }] },
    );
    this.#report(this.say('well.put', { tube: this.name(tube) }), 'shelf');
  }

  take(tube: string): void {
    const place = this.shelf.findIndex((each) => each.tube === tube);
    const name = this.name(tube);
    this.#changeShelf('remove', tube, 'shelf-remove', (plan) => {
      const shelf = (plan.shelf ?? []).filter((each) => each.tube !== tube);
      if (shelf.length > 0) return { ...plan, shelf };
      const { shelf: _none, ...rest } = plan;
      return rest;
    });
    if (!this.choosing) {
      const next = this.shelf[Math.min(place, this.shelf.length - 1)];
      this.#focusNext = next ? `[data-about="${next.tube}"]` : '.begin';
    }
    this.#report(this.say('well.taken', { tube: name }), 'shelf');
  }

  sell(sold: boolean): void {
    this.#changeShelf('sold', '', 'sold', (plan) => {
      const { sold: _before, ...rest } = plan;
      return sold ? { ...rest, sold } : rest;
    });
    this.#update();
  }

  // The well

  #mixed(settled: boolean): void {
    this.#update();
    const { judged } = this.now;
    this.#host.dispatchEvent(
      new MixChangeEvent(judged && structuredClone(judged), this.recipe, settled),
    );
  }

  add(tube: string): void {
    const before = this.parts.find((part) => part.tube === tube)?.parts ?? 0;
    const others = this.parts.filter((part) => part.parts > 0 || part.tube === tube);
    const spoons = Math.floor(before) + 1;
    this.parts = others.some((part) => part.tube === tube)
      ? others.map((part) => (part.tube === tube ? { tube, parts: spoons } : part))
      : [...others, { tube, parts: spoons }];
    this.done = undefined;
    this.#mixed(true);
    const { judged } = this.now;
    this.#host.speak(
      this.say('well.added', {
        tube: this.name(tube),
        spoons,
        value: judged ? this.figure(valueOf(judged.lab[0])) : '',
      }),
    );
  }

  spoon(tube: string, spoons: number, settled = true): void {
    if (!Number.isFinite(spoons)) return;
    this.parts = this.parts.map((part) =>
      part.tube === tube ? { tube, parts: Math.max(0, spoons) } : part,
    );
    this.#mixed(settled);
  }

  water(strength: number, settled = true): void {
    if (!Number.isFinite(strength)) return;
    this.strength = strength;
    this.#mixed(settled);
  }

  dose(tube: string, by: 1 | -1): void {
    const spoons = this.parts.find((part) => part.tube === tube)?.parts ?? 0;
    this.spoon(tube, by < 0 ? Math.ceil(spoons) - 1 : Math.floor(spoons) + 1);
  }

  thin(times: number): void {
    const [weakest, strongest] = [strengthAt(0), strengthAt(1)];
    this.water(Math.min(strongest, Math.max(weakest, this.strength / times)));
  }

  empty(): void {
    this.parts = NO_PARTS;
    this.#focusNext = FIRST_PAN;
    this.#host.speak(this.say('well.emptied'));
    this.#mixed(true);
  }

  lay(under: Below | undefined): void {
    this.under = under;
    this.onLayer = under !== undefined && this.onLayer;
    if (under) this.#host.speak(this.say('well.lies', { layer: under.label }));
    this.#mixed(true);
  }

  judgeOver(on: boolean): void {
    this.onLayer = on;
    this.#mixed(true);
  }

  aim(bucket: number): void {
    this.bucket = bucket;
    this.#update();
  }

  /** Sends what is in the well to the bucket aimed at, or to the one its value belongs to. */
  send(): void {
    const { judged, judgedOver } = this.now;
    if (!judged) return;
    this.#sendAll([{ mix: judged, over: judgedOver }], 'send', this.bucket);
  }

  sendMixes(sent: Mix | readonly Mix[]): BoardSwatch[] {
    const mixes = 'parts' in sent ? [sent] : sent;
    return this.#sendAll(
      mixes.map((mix) => ({ mix, over: [] })),
      sent,
    );
  }

  #sendAll(mixes: readonly { mix: Mix; over: Mix[] }[], by: DoneBy, bucket = -1): BoardSwatch[] {
    const { board } = this.plan;
    if (board.swatches.length + mixes.length > MOST_SWATCHES) {
      this.#report(this.say('well.board-full'), by, false);
      return [];
    }
    const ground = this.#groundNow();
    const swatches: BoardSwatch[] = [];
    for (const { mix, over } of mixes) {
      const at = bucket >= 0 ? bucket : bandOf(board.bands, clamped(mix.lab[0]));
      const id = freeId([...board.swatches, ...swatches]);
      swatches.push(swatchOf(mix, over, { id, bucket: at, name: this.#nameOf(mix) }, ground));
    }
    this.#host.store.change('send-mix', (plan) => ({
      ...plan,
      tubesEdition: TUBES_EDITION,
      board: { ...plan.board, swatches: [...plan.board.swatches, ...swatches] },
    }));
    const names = [...new Set(swatches.map((each) => this.bandName(each.bucket)))].join(', ');
    this.#report(this.say('well.sent', { count: swatches.length, band: names }), by);
    this.#host.dispatchEvent(new MixSendEvent(structuredClone(swatches)));
    return swatches;
  }

  /** A mix by the tubes that it has most of. */
  #nameOf({ parts }: Mix): string {
    return [...parts]
      .sort((p, q) => q.parts - p.parts)
      .map(({ tube }) => this.name(tube))
      .join(' + ');
  }

  get canUndo(): boolean {
    return this.#host.store.canUndo;
  }

  undo(): void {
    const by = this.done?.by;
    this.#host.store.undo();
    this.#host.dispatchEvent(new ShelfChangeEvent(structuredClone(this.shelf), 'undo'));
    this.#focusNext =
      by === 'shelf' ? `${FIRST_PAN}, .begin` : by === 'send' ? '.send-button' : '.go';
    this.#host.speak(this.say('well.undone'));
    this.#update();
  }

  // Asking

  turnTo(tool: Tool): void {
    this.tool = tool;
    this.#update();
  }

  setFinding(change: Partial<Finding>): void {
    this.finding = { ...this.finding, ...change };
    this.#update();
  }

  /** The colour that is asked for, in paint. */
  #target(): { target: MixTarget; lab?: Lab; css: string } | undefined {
    const { source, css, value } = this.finding;
    if (source === 'css') {
      try {
        const [L, a, b] = labOf(css);
        const lab: Lab = [clamped(L), a, b];
        return { target: { lab }, lab, css: cssOfLab(lab).css };
      } catch {
        return undefined;
      }
    }
    if (source === 'value') {
      if (!Number.isFinite(value) || value < 0 || value > 10) return undefined;
      const lightness = lightnessOfMunsell(value);
      return { target: { lightness }, css: cssOfLab([lightness, 0, 0]).css };
    }
    const [kind, id] = [
      source.slice(0, source.indexOf(' ')),
      source.slice(source.indexOf(' ') + 1),
    ];
    const found =
      kind === 'reading'
        ? this.plan.readings?.find((each) => each.id === id)
        : this.plan.board.swatches.find((each) => each.id === id);
    if (!found?.lab) return undefined;
    const [L, a, b] = kind === 'reading' ? labInPaint(this.plan, found.lab) : found.lab;
    const lab: Lab = [clamped(L), a, b];
    return { target: { lab }, lab, css: cssOfLab(lab).css };
  }

  find(): void {
    const asked = this.#target();
    if (!asked) {
      const { source, css } = this.finding;
      const key = source === 'css' ? (css.trim() ? 'css-wrong' : 'css-missing') : 'target-gone';
      this.#focusNext = { css: '[data-css]', value: '[data-value]' }[source] ?? '[data-source]';
      return this.setFinding({
        fault: this.say(source === 'value' ? 'well.value-wrong' : `well.${key}`, { css }),
      });
    }
    const { paper, loads } = this.#groundNow();
    const options = {
      tubes: searched(this.plan).tubes,
      maxTubes: this.finding.most,
      count: 5,
      paper,
      loads,
      ...(this.spread === undefined ? {} : { spread: this.spread }),
    };
    void this.#run('mixes', { target: asked.target, options }, 'finding').then((found) => {
      if (!found) return;
      this.finding = {
        ...this.finding,
        found: {
          ...found,
          lab: asked.lab,
          css: asked.css,
          proven: provenMixes(this.plan.dabs ?? [], asked.target, { count: 3 }),
        },
      };
      const [best] = found.mixes;
      this.#host.speak(
        best
          ? this.say('well.found', {
              count: found.mixes.length,
              grade: this.say(`grade.${this.grade(best)}`),
            })
          : this.say('well.found-none'),
      );
      this.#update();
    });
  }

  setFamily(change: Partial<FamilyAsked>): void {
    if (change.band !== undefined) this.aimAt(change.band);
    this.family = { ...this.family, ...change };
    this.#update();
  }

  findFamily(): void {
    const { value } = this.family;
    if (!Number.isFinite(value) || value < 0 || value > 10) {
      this.#focusNext = '[data-family-value]';
      return this.setFamily({ fault: this.say('well.value-wrong') });
    }
    void this.#familyNear().then((found) => {
      if (!found) return;
      this.family = { ...this.family, found };
      this.#host.speak(this.say('well.family-found', { count: found.mixes.length }));
      this.#update();
    });
  }

  /** The family of the value that is asked for or, where the tubes do not go so far, of the nearest one that they reach. */
  async #familyNear(): Promise<FamilyFound | undefined> {
    const { value, count } = this.family;
    const { tubes } = searched(this.plan);
    const { paper, loads } = this.#groundNow();
    const at = (value: number): Promise<Mix[] | undefined> => {
      const lightness = lightnessOfMunsell(value);
      return this.#run('family', { tubes, lightness, count, loads, paper }, 'family');
    };
    const mixes = await at(value);
    if (!mixes || mixes.length > 0) return mixes && { value, mixes };
    const range = await this.#run('shelf', { tubes, options: { paper, loads } }, 'family');
    if (!range) return undefined;
    // In tenths, as the value is told, and within what was reached.
    const darkest = Math.ceil(10 * valueOf(range.low)) / 10;
    const lightest = Math.floor(10 * valueOf(range.high)) / 10;
    const near = Math.min(lightest, Math.max(darkest, value));
    if (near === value) return { value, mixes };
    const nearest = await at(near);
    if (!nearest) return undefined;
    return nearest.length > 0 ? { value: near, asked: value, mixes: nearest } : { value, mixes };
  }

  findReach(): void {
    const { paper, loads } = this.#groundNow();
    const input = { tubes: searched(this.plan).tubes, options: { paper, loads } };
    void this.#run('shelf', input, 'reach').then((found) => {
      if (!found) return;
      this.reach = { ...this.reach, found };
      this.#host.speak(
        this.say('well.reaches', { low: valueOf(found.low), high: valueOf(found.high) }),
      );
      this.#update();
    });
  }

  /** Lets the plan's darks end where the shelf's darkest mix does. */
  planReach(): void {
    const darkest = this.reach.found && Math.round(this.reach.found.low * 10) / 10;
    if (darkest === undefined || !this.plan.range) return;
    this.#host.store.change('range', (plan) =>
      plan.range ? withRange(plan, { ...plan.range, darkest }) : plan,
    );
    this.#report(this.say('well.reach-planned', { value: valueOf(darkest) }), 'reach');
  }

  /** Runs one search at a time; nothing when it was given up or failed. */
  async #run<K extends 'mixes' | 'family' | 'shelf'>(
    job: K,
    input: Jobs[K]['in'],
    where: 'finding' | 'family' | 'reach',
  ): Promise<Jobs[K]['out'] | undefined> {
    this.stop();
    const work = (this.#work = new AbortController());
    const set = (progress: number | undefined, fault = ''): void => {
      const running =
        progress === undefined
          ? undefined
          : {
              progress,
              stop: () => {
                this.stop();
                this.#focusNext = '.go';
                this.#host.speak(this.say('well.stopped'));
                this.#update();
              },
            };
      if (where === 'finding') this.finding = { ...this.finding, running, fault };
      else if (where === 'family') this.family = { ...this.family, running, fault };
      else this.reach = { ...this.reach, running, fault };
      this.#update();
    };
    set(0);
    try {
      const core = await this.#host.store.core();
      const onProgress = ({ done }: Progress): void => {
        if (!work.signal.aborted) set(done);
      };
      const out = await core.run(job, input, { signal: work.signal, onProgress });
      if (work.signal.aborted) return undefined;
      set(undefined);
      return out;
    } catch (thrown) {
      if (work.signal.aborted) return undefined;
      const reason = reasonOf(thrown);
      set(undefined, this.say('well.job-failed'));
      this.#host.fail({ code: 'well.job-failed', values: { ...reason.values, name: reason.code } });
      return undefined;
    } finally {
      if (this.#work === work) this.#work = undefined;
    }
  }

  takeUp(recipe: Recipe): void {
    this.parts = recipe.parts.map((part) => ({ ...part }));
    this.strength = recipe.strength;
    this.#layBelow(recipe);
    this.bucket = -1;
    this.#focusNext = '.spoons input';
    this.#report(this.say('well.taken-up'), 'well', false);
    this.#mixed(true);
  }

  setAmount(change: Partial<AmountAsked>): void {
    this.amount = { ...this.amount, ...change };
    if (change.masses) this.#holdMasses();
    this.#update();
  }

  #holdMasses(): void {
    if (this.#masses) return;
    this.#masses = MassesInHand.of(this.#host.store);
    this.#masses.addEventListener('masses', this.#onMasses);
    this.#letMassesGo = this.#masses.hold();
  }

  #dropMasses(): void {
    this.#letMassesGo?.();
    this.#masses?.removeEventListener('masses', this.#onMasses);
    this.#masses = undefined;
    this.#letMassesGo = undefined;
  }

  #onMasses = (): void => this.#update();

  // A tube's own strength

  openFit(tube: string): void {
    const typing = !(this.fitting?.tube === tube && this.fitting.typing);
    const rows = [
      { css: '', strength: 1 },
      { css: '', strength: 0.25 },
    ];
    this.fitting = { tube, rows, typing, fault: '', busy: false };
    if (typing) this.#focusNext = '.typed input';
    this.#update();
  }

  setReading(place: number, change: Partial<TypedReading>): void {
    if (!this.fitting) return;
    const rows = [...this.fitting.rows];
    rows[place] = { ...(rows[place] ?? { css: '', strength: 1 }), ...change };
    this.fitting = { ...this.fitting, rows, fault: '' };
    this.#update();
  }

  fit(readings: TintReading[] | 'typed'): void {
    const tube = this.about;
    const before = this.fitting?.tube === tube ? this.fitting : undefined;
    const fitting: Fitting = before ?? { tube, rows: [], typing: false, fault: '', busy: false };
    let list: TintReading[];
    if (readings === 'typed') {
      list = [];
      for (const { css, strength } of fitting.rows) {
        if (css.trim() === '') continue;
        try {
          list.push({ lab: labOf(css), strength });
        } catch {
          this.fitting = { ...fitting, fault: this.say('well.css-wrong', { css }) };
          return this.#update();
        }
      }
      if (list.length === 0) {
        this.fitting = { ...fitting, fault: this.say('well.css-missing') };
        return this.#update();
      }
    } else list = readings;
    this.fitting = { ...fitting, fault: '', busy: true, fit: undefined };
    this.#update();
    void this.#fitted(tube, list);
  }

  async #fitted(tube: string, readings: TintReading[]): Promise<void> {
    const mine = (): boolean => this.fitting?.tube === tube && this.fitting.busy;
    try {
      const core = await this.#host.store.core();
      const { paper } = this.#groundNow();
      const fit = await core.run('fit', { tube, readings, paper });
      if (!mine()) return;
      this.fitting = { ...this.fitting!, busy: false, fit };
      this.#focusNext = '[data-keep-fit]';
      this.#host.speak(fit.reasons.map((reason) => this.paint(reason)).join(' '));
    } catch {
      if (!mine()) return;
      this.fitting = { ...this.fitting!, busy: false, fault: this.say('well.job-failed') };
    }
    this.#update();
  }

  keepFit(fit: TubeFit | undefined): void {
    const tube = this.about;
    this.#changeShelf('fit', tube, 'shelf-fit', (plan) => ({
      ...plan,
      shelf: (plan.shelf ?? []).map((each) =>
        each.tube !== tube
          ? each
          : fit
            ? { tube, load: fit.load, loadLow: fit.low, loadHigh: fit.high }
            : { tube },
      ),
    }));
    this.fitting = undefined;
    this.#focusNext = `[data-about="${tube}"]`;
    const key = fit ? 'well.fit-kept' : 'well.fit-forgotten';
    this.#report(this.say(key, { tube: this.name(tube) }), 'shelf');
  }

  // Rendering

  render(): TemplateResult {
    return html`<div class="desk">
      ${renderShelf(this)} ${renderDone(this, 'shelf')}
      ${
        this.shelf.length === 0 && this.parts.length === 0
          ? nothing
          : html`<div class=${this.now.mix ? 'work' : 'work blank'}>
                ${renderPuddle(this)} ${renderWells(this)} ${renderLayers(this)}
                ${renderOutlook(this)}
              </div>
              ${renderTools(this)}`
      }
    </div>`;
  }
}
