import { expectInteger, expectNumber, expectObject } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import { NEUTRAL_CHROMA } from '../colour/index.js';
import { FlatMixer } from './flat.js';
import { expectGround, expectLoads, finishedMix, type Loads } from './mix.js';
import { expectMaxStrength, expectShelf, ratiosOf } from './search.js';
import type { Mix, Tube } from './types.js';

export interface FamilyOptions {
  /** Ids of the tubes on the shelf. */
  tubes: string[];
  /** L* of every mix, 0..100. */
  lightness: number;
  /** How far the L* of a mix may be off, above 0, at most 20; 0.5 when absent. */
  tolerance?: number;
  /** How many mixes, 1..24; 5 when absent. */
  count?: number;
  /** The greatest chroma C*ab, above 3 (below that no lean is seen), at most 200; 20 when absent. */
  maxChroma?: number;
  /** Above 0, at most 20; 1 when absent. */
  maxStrength?: number;
  /** How strong the painter's own tubes are, by id (0.05..20, 1 when absent). */
  loads?: Loads;
  /** Reflectance of the paper, 36 bands; that of L* 95 when absent. */
  paper?: Float64Array;
}

/** How far the L* of a family's mixes may be off when nothing else is said. */
export const TOLERANCE = 0.5;
/** The largest total of whole parts of two tubes, and of three. A family is dosed by the spoon, so three tubes stay simple. */
const PARTS_OF_TWO = 12;
const PARTS_OF_THREE = 6;
/** Mixes whose hues lie this near, degrees, are of one lean: the simplest stands for them. */
const SAME_LEAN = 0.5;
/** Leans of a family are at least this far apart, degrees; else there are fewer of them. */
const LEAST_APART = 2;

/** A mix on the way into a family. */
export interface Candidate {
  tubes: Int32Array;
  parts: readonly number[];
  strength: number;
  /** CIELAB hue, degrees. */
  hue: number;
  chroma: number;
  /** Less is easier to dose: tubes first, then spoonfuls. */
  trouble: number;
}

/** Finds the thickness at which a mix has a lightness. */
class Leveller {
  readonly mixer: FlatMixer;
  readonly #amounts = new Float64Array(3);

  constructor(
    mixer: FlatMixer,
    readonly lightness: number,
    readonly tolerance: number,
    readonly maxStrength: number,
  ) {
    this.mixer = mixer;
  }

  #at(tubes: Int32Array, shares: number[], thickness: number): number {
    for (let i = 0; i < shares.length; i++) this.#amounts[i] = thickness * shares[i];
    this.mixer.evaluate(tubes, this.#amounts, shares.length);
    return this.mixer.L;
  }

  /**
   * The weakest strength at which L* is met, by false position on the logarithm of the thickness (Illinois variant: Dowell & Jarratt
   * 1971); undefined when L* stays more than the tolerance off. The colour stands in `mixer`.
   */
  strength(tubes: Int32Array, parts: readonly number[]): number | undefined {
    const total = parts.reduce((sum, amount) => sum + amount, 0);
    const shares = parts.map((amount) => amount / total);
    let load = 0;
    for (let i = 0; i < shares.length; i++) load += shares[i] * this.mixer.fullLoads[tubes[i]];
    let high = Math.log(this.maxStrength * load);
    let over = this.#at(tubes, shares, Math.exp(high)) - this.lightness;
    if (Math.abs(over) < 1e-4) return this.maxStrength;
    let low = high - 9;
    let under = this.#at(tubes, shares, Math.exp(low)) - this.lightness;
    if (over * under > 0) {
      // Not between bare paper and full strength: the nearer end counts if it is near enough.
      const end = Math.abs(over) < Math.abs(under) ? high : low;
      const off = this.#at(tubes, shares, Math.exp(end)) - this.lightness;
      return Math.abs(off) <= this.tolerance ? Math.exp(end) / load : undefined;
    }
    for (let round = 0; round < 40; round++) {
      const log = (low * over - high * under) / (over - under);
      const off = this.#at(tubes, shares, Math.exp(log)) - this.lightness;
      if (Math.abs(off) < 1e-4) return Math.exp(log) / load;
      if (off * over > 0) {
        [high, over] = [log, off];
        under /= 2;
      } else {
        [low, under] = [log, off];
        over /= 2;
      }
    }
    return Math.exp(low) / load;
  }
}

/** Angle between two hues, 0..180. */
export const apart = (p: number, q: number): number => {
  const turn = Math.abs(p - q) % 360;
  return Math.min(turn, 360 - turn);
};

/**
 * Of candidates in order of hue, `count` whose least distance along the circle is as great as can be: for a distance, going round from
 * every start and taking the next that is far enough is exact; the distance is found by bisection.
 */
function spreadOut(sorted: Candidate[], count: number): Candidate[] {
  const round = (first: number, distance: number): Candidate[] | undefined => {
    const chosen = [sorted[first]];
    let last = sorted[first].hue;
    for (let i = 1; i < sorted.length && chosen.length < count; i++) {
      const next = sorted[(first + i) % sorted.length];
      const hue = next.hue + (first + i >= sorted.length ? 360 : 0);
      if (hue - last < distance || sorted[first].hue + 360 - hue < distance) continue;
      chosen.push(next);
      last = hue;
    }
    return chosen.length === count ? chosen : undefined;
  };
  const any = (distance: number): Candidate[] | undefined => {
    for (let first = 0; first < sorted.length; first++) {
      const chosen = round(first, distance);
      if (chosen) return chosen;
    }
    return undefined;
  };
  let best = any(LEAST_APART);
  if (!best) return [];
  let low = LEAST_APART;
  let high = 360 / count;
  while (high - low > 0.05) {
    const middle = (low + high) / 2;
    const chosen = any(middle);
    if (chosen) [best, low] = [chosen, middle];
    else high = middle;
  }
  return best;
}

/** What mixes may stand for a lean. */
export interface LeanOptions {
  lightness: number;
  tolerance: number;
  /** Chroma C*ab from and to. */
  leastChroma: number;
  maxChroma: number;
  maxStrength: number;
  loads: Loads;
  paper: Float64Array;
}

/** For every lean that a shelf reaches at a lightness its simplest mix, in the order of hue. */
export function* leansKernel(
  shelf: readonly Tube[],
  { lightness, tolerance, leastChroma, maxChroma, maxStrength, loads, paper }: LeanOptions,
): Kernel<Candidate[]> {
  const mixer = new FlatMixer(shelf, paper, [], 3, loads);
  const leveller = new Leveller(mixer, lightness, tolerance, maxStrength);
  const byLean = new Map<number, Candidate>();
  const consider = (tubes: Int32Array, parts: readonly number[]): void => {
    const strength = leveller.strength(tubes, parts);
    if (strength === undefined) return;
    const chroma = Math.hypot(mixer.a, mixer.b);
    if (chroma > maxChroma || chroma < leastChroma) return;
    const hue = ((Math.atan2(mixer.b, mixer.a) * 180) / Math.PI + 360) % 360;
    const trouble = 100 * parts.length + parts.reduce((sum, amount) => sum + amount, 0);
    const lean = Math.floor(hue / SAME_LEAN);
    const other = byLean.get(lean);
    if (!other || trouble < other.trouble || (trouble === other.trouble && chroma > other.chroma))
      byLean.set(lean, { tubes, parts, strength, hue, chroma, trouble });
  };
  const n = shelf.length;
  const [one, two, three] = [[1], ratiosOf(2, PARTS_OF_TWO), ratiosOf(3, PARTS_OF_THREE)];
  for (let i = 0; i < n; i++) {
    consider(Int32Array.of(i), one);
    for (let j = i + 1; j < n; j++) {
      for (const parts of two) consider(Int32Array.of(i, j), parts);
      yield (i + (j - i) / n) / n;
      for (let k = j + 1; k < n; k++) {
        for (const parts of three) consider(Int32Array.of(i, j, k), parts);
        yield (i + (j - i) / n) / n;
      }
    }
  }
  return [...byLean.values()].sort((p, q) => p.hue - q.hue);
}

/** The mix of a candidate, on paper. */
export function mixOfCandidate(
  shelf: readonly Tube[],
  { tubes, parts, strength }: Candidate,
  { maxStrength, loads, paper }: Pick<LeanOptions, 'maxStrength' | 'loads' | 'paper'>,
): Mix {
  return finishedMix(
    parts.map((amount, i) => ({ tube: shelf[tubes[i]].id, parts: amount })),
    Math.min(maxStrength, strength),
    paper,
    [],
    loads,
  );
}

/** {@link mixFamily} in slices. */
export function* mixFamilyKernel(options: FamilyOptions): Kernel<Mix[]> {
  const given = expectObject('options', options);
  const loads = expectLoads('options.loads', given.loads);
  const shelf = expectShelf('options.tubes', given.tubes, loads);
  const lightness = expectNumber('options.lightness', given.lightness, 0, 100);
  const tolerance = expectNumber('options.tolerance', given.tolerance ?? TOLERANCE, 1e-3, 20);
  const count = expectInteger('options.count', given.count ?? 5, 1, 24);
  const maxChroma = expectNumber('options.maxChroma', given.maxChroma ?? 20, NEUTRAL_CHROMA, 200);
  const maxStrength = expectMaxStrength('options.maxStrength', given.maxStrength);
  const { paper } = expectGround({ paper: given.paper });
  const about = {
    lightness,
    tolerance,
    leastChroma: NEUTRAL_CHROMA,
    maxChroma,
    maxStrength,
    loads,
    paper,
  };
  const leans = yield* leansKernel(shelf, about);
  let chosen: Candidate[] = [];
  for (let many = Math.min(count, leans.length); many > 0 && chosen.length === 0; many--) {
    chosen = many === 1 ? [simplest(leans)] : spreadOut(leans, many);
    yield 0.99;
  }
  return chosen
    .sort((p, q) => p.hue - q.hue)
    .map((candidate) => mixOfCandidate(shelf, candidate, about));
}

const simplest = (list: Candidate[]): Candidate =>
  list.reduce((best, next) => (next.trouble < best.trouble ? next : best));

/**
 * A family: mixes of one lightness whose leans lie as far apart as the shelf allows.
 *
 * Each mix is of whole parts (two tubes to a total of 12, three to a total of 6) at the strength that has the asked L*, to 1e-4 where
 * bare paper and `maxStrength` lie on both sides of it, else within the tolerance. Its chroma lies between 3, below which no lean is
 * seen, and `maxChroma`. Of all such mixes those are chosen whose least difference of CIELAB hue is greatest (to half a degree, the
 * simplest mix standing for hues that near), in the order of hue. There are fewer than `count` when the leans would come nearer than 2
 * degrees, and none when the shelf has no such mix at all.
 *
 * @throws {TypeError | RangeError} for no tubes, unknown tubes, options out of range.
 */
export function mixFamily(options: FamilyOptions): Mix[] {
  return finish(mixFamilyKernel(options));
}

/** The least difference of CIELAB hue among mixes, degrees 0..180; 180 for fewer than two. */
export function leastApart(mixes: readonly Mix[]): number {
  let least = 180;
  mixes.forEach(({ lab: p }, i) => {
    for (const { lab: q } of mixes.slice(i + 1)) {
      const hues = [p, q].map(([, a, b]) => (Math.atan2(b, a) * 180) / Math.PI);
      least = Math.min(least, apart(hues[0], hues[1]));
    }
  });
  return least;
}
