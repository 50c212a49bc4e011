import { wrongType } from '../base/check.js';
import { reason, type Reason } from '../base/reason.js';
import type { Step } from '../base/types.js';
import type { Masses, Region } from '../mass/types.js';
import {
  decided,
  expectWork,
  pairsLaid,
  wetGroups,
  type Decided,
  type WorkFacts,
} from './decided.js';
import { passagesOfStep, type PassagesOfStep } from './passage-steps.js';
import { asWorkStep, type WorkStep } from './steps.js';
import type { Plan } from './types.js';

/** A wet session larger than this is hard to keep wet; common practice, no source: about 160 mm square. */
const LARGE_SESSION_CM2 = 256;

/**
 * The steps in the order they stand, with waits, hints, warnings and sessions found anew: after a step was moved, after masses have
 * changed. Steps of other programs are taken for the painter's own.
 *
 * @throws {TypeError} when an argument is no such thing.
 */
export function checkedSteps(
  steps: readonly Step[],
  plan: Plan,
  masses: Masses,
  facts: WorkFacts = {},
): WorkStep[] {
  expectWork(plan, masses);
  if (!Array.isArray(steps)) throw wrongType('steps', steps, 'a list of steps');
  return checked(steps.map(asWorkStep), masses, decided(plan, masses, facts));
}

/** The warnings of each step as the steps stand, by step id. */
export function stepWarnings(
  steps: readonly Step[],
  plan: Plan,
  masses: Masses,
  facts: WorkFacts = {},
): Map<string, Reason[]> {
  return new Map(
    checkedSteps(steps, plan, masses, facts).map(({ id, warnings }) => [id, warnings]),
  );
}

/** The steps with what is found about each at its place. */
export function checked(steps: readonly WorkStep[], masses: Masses, said: Decided): WorkStep[] {
  const easel = new Easel(steps, masses.regions, said);
  const results = steps.map((_, place) => easel.take(place));
  const lastMask = results.findLast(({ kind }) => kind === 'mask');
  if (lastMask && easel.stillMasked) lastMask.warnings.push(reason('order.warn-still-masked'));
  return results;
}

/** The painting as it stands while the steps are gone through. */
class Easel {
  readonly #steps: readonly WorkStep[];
  readonly #regions: readonly Region[];
  readonly #said: Decided;
  /** The group of masses that are wet together, by mass. */
  readonly #group: Int32Array;
  readonly #soft: number[][];
  readonly #hard: number[][];
  /** What some step masks. */
  readonly #toMask: ReadonlySet<number>;
  readonly #marksToMask: ReadonlySet<number>;
  readonly #masked = new Set<number>();
  readonly #maskedMarks = new Set<number>();
  readonly #everMasked = new Set<number>();
  readonly #marksEverMasked = new Set<number>();
  readonly #laid = new Set<number>();
  readonly #marksPainted = new Set<number>();
  #wet = new Set<number>();
  #wetFirst: 'mask' | 'tint' | undefined;
  #session = 0;
  #wetCm2 = 0;

  constructor(steps: readonly WorkStep[], regions: readonly Region[], said: Decided) {
    this.#steps = steps;
    this.#regions = regions;
    this.#said = said;
    const soft = pairsLaid(said.soft, said);
    this.#group = wetGroups(regions.length, soft);
    this.#soft = partners(regions.length, soft);
    this.#hard = partners(regions.length, said.hard);
    const masking = steps.filter(({ kind }) => kind === 'mask');
    this.#toMask = new Set(masking.flatMap(({ keeps }) => keeps));
    this.#marksToMask = new Set(masking.flatMap(({ marks }) => marks));
  }

  get stillMasked(): boolean {
    return this.#masked.size + this.#maskedMarks.size > 0;
  }

  /** The step at a place with its findings; the painting is one step further then. */
  take(place: number): WorkStep {
    const step = this.#steps[place];
    const lays = this.#laysOf(step);
    const waits = this.#waits(place, lays);
    const soft = this.#softPairs(lays);
    const warnings = [
      ...this.#edgeWarnings(lays),
      ...this.#reserveWarnings(lays),
      ...this.#markWarnings(step, lays),
    ];
    const hints = this.#hints(step, lays, soft);
    const inside = this.#passages(lays);
    this.#do(step, lays);
    const { passages: _passages, ...part } = step;
    return {
      ...part,
      soft,
      session: this.#session,
      waits,
      hints: [...hints, ...(inside?.hints ?? [])],
      warnings: [...warnings, ...(inside?.warnings ?? [])],
      ...(inside && inside.passages.length > 0 ? { passages: inside.passages } : {}),
    };
  }

  /** What is known of the passages of these masses; nothing while no passages are. */
  #passages(lays: ReadonlySet<number>): PassagesOfStep | undefined {
    const { passages } = this.#said;
    if (!passages || lays.size === 0) return undefined;
    // A soft neighbour that has dried already need not be waited for.
    const keptWet = (region: number, other: number): boolean =>
      this.#soft[region].includes(other) && (!this.#laid.has(other) || this.#wet.has(other));
    return passagesOfStep(passages, lays, keptWet);
  }

  #laysOf({ regions }: WorkStep): Set<number> {
    return new Set(regions.filter((id) => id in this.#regions));
  }

  /** What has to dry before the step; afterwards it has. */
  #waits(place: number, lays: ReadonlySet<number>): Reason[] {
    const { kind } = this.#steps[place];
    const paints = lays.size > 0 || kind === 'marks';
    const wetAtAll = this.#wet.size > 0 || this.#wetFirst !== undefined;
    let wait: Reason | undefined;
    if (this.#wetFirst === 'mask' && (paints || kind === 'unmask'))
      wait = reason('order.wait-masking-dry');
    else if (kind === 'mask' && wetAtAll && this.#wetFirst !== 'mask')
      wait = reason('order.wait-before-mask');
    else if (kind === 'unmask' && wetAtAll) wait = reason('order.wait-before-unmask');
    else if (kind === 'marks' && wetAtAll) wait = reason('order.wait-before-marks');
    else if (this.#wetFirst === 'tint' && kind !== 'tint' && paints)
      wait = reason('order.wait-tint-dry');
    else {
      const edges = this.#hardWhileWet(this.#openedBy(place, lays), false);
      if (edges > 0) wait = reason('order.wait-hard-edges', { edges });
    }
    if (!wait) return [];
    this.#wet = new Set();
    this.#wetFirst = undefined;
    this.#wetCm2 = 0;
    this.#session += 1;
    return [wait];
  }

  /**
   * What will be laid without drying once this step is begun: its masses and, where nothing wet waits for more, those of the steps
   * until everything begun is complete.
   */
  #openedBy(place: number, lays: ReadonlySet<number>): ReadonlySet<number> {
    const all = new Set(lays);
    const open = (laid: Iterable<number>): boolean => {
      const groups = new Set([...laid].map((id) => this.#group[id]));
      return this.#steps
        .slice(place + 1)
        .some((step) => step.regions.some((id) => groups.has(this.#group[id]) && !all.has(id)));
    };
    if (open(this.#wet)) return all;
    for (let next = place + 1; next < this.#steps.length && open(all); next++)
      for (const id of this.#laysOf(this.#steps[next])) all.add(id);
    return all;
  }

  /** Hard edges of these masses with wet ones, of the same wet group or of others. */
  #hardWhileWet(lays: ReadonlySet<number>, sameGroup: boolean): number {
    let edges = 0;
    for (const id of lays)
      for (const other of this.#hard[id])
        if (this.#wet.has(other) && (this.#group[other] === this.#group[id]) === sameGroup)
          edges += 1;
    return edges;
  }

  /** Soft edges to masses that are wet still. */
  #softPairs(lays: ReadonlySet<number>): [number, number][] {
    const pairs: [number, number][] = [];
    for (const id of lays)
      for (const other of this.#soft[id]) if (this.#wet.has(other)) pairs.push([other, id]);
    return pairs;
  }

  #hints(step: WorkStep, lays: ReadonlySet<number>, soft: readonly unknown[]): Reason[] {
    const hints: Reason[] = [];
    if (step.kind === 'mask') hints.push(reason('order.hint-masking'));
    if (step.kind === 'tint') hints.push(reason('order.hint-tint-below', { masses: lays.size }));
    const hard = this.#hardWhileWet(lays, true);
    if (soft.length > 0) hints.push(reason('order.hint-wet-together', { edges: soft.length }));
    if (hard > 0) hints.push(reason('order.hint-hard-while-wet', { edges: hard }));
    const cm2 = this.#wetCm2 + this.#mm2(lays) / 100;
    if (soft.length > 0 && cm2 > LARGE_SESSION_CM2)
      hints.push(reason('order.hint-large-session', { cm2: Math.round(cm2) }));
    return hints;
  }

  /** Soft edges whose other side has dried. */
  #edgeWarnings(lays: ReadonlySet<number>): Reason[] {
    let edges = 0;
    for (const id of lays)
      for (const other of this.#soft[id])
        if (this.#laid.has(other) && !this.#wet.has(other)) edges += 1;
    return edges > 0 ? [reason('order.warn-soft-dried', { edges })] : [];
  }

  #reserveWarnings(lays: ReadonlySet<number>): Reason[] {
    if (lays.size === 0) return [];
    const { reserves } = this.#said;
    const warnings: Reason[] = [];
    const covered = [...lays].filter((id) => ['bare', 'mask'].includes(reserves.get(id) ?? ''));
    if (covered.length > 0)
      warnings.push(
        reason('order.warn-covers-reserve', {
          masses: covered.length,
          mm2: Math.round(this.#mm2(covered)),
        }),
      );
    const onMasking = [...lays].filter((id) => this.#masked.has(id)).length;
    if (onMasking > 0) warnings.push(reason('order.warn-on-masking', { masses: onMasking }));
    const beside = new Set([...lays].flatMap((id) => this.#regions[id].neighbours));
    for (const id of lays) beside.delete(id);
    const early = [...beside].filter((id) => this.#toMask.has(id) && !this.#everMasked.has(id));
    const late = [...beside].filter(
      (id) => this.#everMasked.has(id) && !this.#masked.has(id) && reserves.get(id) === 'mask',
    );
    const marks = this.#said.marks.filter(({ region }) => lays.has(region));
    const earlyMarks = marks.filter(
      ({ number }) => this.#marksToMask.has(number) && !this.#marksEverMasked.has(number),
    );
    const lateMarks = marks.filter(
      ({ number }) => this.#marksEverMasked.has(number) && !this.#maskedMarks.has(number),
    );
    const told = (code: string, masses: readonly number[], lost: readonly unknown[]): void => {
      if (masses.length + lost.length > 0)
        warnings.push(reason(code, { masses: masses.length, marks: lost.length }));
    };
    told('order.warn-before-masking', early, earlyMarks);
    told('order.warn-after-unmasking', late, lateMarks);
    return [...warnings, ...this.#narrowWarnings(beside)];
  }

  /** Reserves left bare beside what is laid, narrower than the brush. */
  #narrowWarnings(beside: ReadonlySet<number>): Reason[] {
    const { brush, narrowestMm, reserves } = this.#said;
    if (!brush) return [];
    const widths = [...beside]
      .filter((id) => reserves.get(id) === 'bare')
      .map((id) => narrowestMm.get(id) ?? Infinity)
      .filter((width) => width < brush.pressedMm);
    if (widths.length === 0) return [];
    return [
      reason('order.warn-narrow-reserve', {
        masses: widths.length,
        widthMm: Math.min(...widths),
        brushMm: brush.pressedMm,
      }),
    ];
  }

  #markWarnings({ kind }: WorkStep, lays: ReadonlySet<number>): Reason[] {
    const warnings: Reason[] = [];
    if (kind === 'tint') {
      const beside = new Set([...lays].flatMap((id) => this.#regions[id].neighbours));
      const masses = [...beside].filter((id) => this.#laid.has(id) && !lays.has(id)).length;
      if (masses > 0) warnings.push(reason('order.warn-tint-after-paint', { masses }));
    }
    const marks = this.#said.marks.filter(
      ({ number, region }) => lays.has(region) && this.#marksPainted.has(number),
    ).length;
    if (marks > 0) warnings.push(reason('order.warn-covers-marks', { marks }));
    return warnings;
  }

  #do({ kind, keeps, marks }: WorkStep, lays: ReadonlySet<number>): void {
    for (const id of lays) {
      this.#laid.add(id);
      this.#wet.add(id);
    }
    this.#wetCm2 += this.#mm2(lays) / 100;
    if (kind === 'tint' || kind === 'mask') this.#wetFirst = kind;
    if (kind === 'mask') {
      for (const id of keeps) {
        this.#masked.add(id);
        this.#everMasked.add(id);
      }
      for (const mark of marks) {
        this.#maskedMarks.add(mark);
        this.#marksEverMasked.add(mark);
      }
    } else if (kind === 'unmask') {
      for (const id of keeps) this.#masked.delete(id);
      for (const mark of marks) this.#maskedMarks.delete(mark);
    } else if (kind === 'marks') for (const mark of marks) this.#marksPainted.add(mark);
  }

  #mm2(ids: Iterable<number>): number {
    let pixels = 0;
    for (const id of ids) pixels += this.#regions[id].area;
    return pixels / this.#said.pxPerMm ** 2;
  }
}

/** The other ends of each mass's pairs. */
function partners(count: number, pairs: readonly [number, number][]): number[][] {
  const lists: number[][] = Array.from({ length: count }, () => []);
  for (const [a, b] of pairs) {
    lists[a].push(b);
    lists[b].push(a);
  }
  return lists;
}
