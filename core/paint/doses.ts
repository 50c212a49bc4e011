import { expectNumber, expectObject, outOfRange } from '../base/check.js';
import { expectParts } from './mix.js';
import type { Part } from './types.js';

/** A puddle that is let down with water. */
export interface LetDown {
  /** Spoonfuls: of paint in the first puddle, of the puddle before in every other. */
  spoons: number;
  /** Spoonfuls of water to them: to a half up to ten, whole ones above. */
  water: number;
}

/** A mix as it is measured out. */
export interface Doses {
  /** Whole spoonfuls of each tube, largest first; the same spoon for all. */
  paint: { tube: string; spoons: number }[];
  /** Spoonfuls of paint together. */
  total: number;
  /** Water to them, in the same spoonfuls, to a half: all of it at once. */
  water: number;
  /** The same in puddles that can be counted out: see {@link letDown}. */
  puddles: LetDown[];
  /** How often the water doubles from that of the heaviest wash, to a half; below 0 for paint that is thicker. */
  doublings: number;
  /** The worst share of a tube that rounding moved, 0..1; 0 when the parts were whole. */
  rounding: number;
}

/** Spoonfuls of water to one of paint in the heaviest wash (strength 1). Common practice, no source; paints and painters differ. */
const WATER_AT_FULL = 1;

/** More spoonfuls of water than this nobody counts into one puddle: then a little of the puddle is let down once more. Ours. */
const MOST_WATER = 24;
/** At most so many spoonfuls are taken over into the next puddle, and so near should the strength come for fewer of them. Ours. */
const MOST_TAKEN = 5;
const NEAR_ENOUGH = 0.02;

const half = (value: number): number => Math.round(2 * value) / 2;
/** Halves up to ten, whole ones above. */
const countable = (water: number): number => (water <= 10 ? half(water) : Math.round(water));

/**
 * Spoonfuls of water to so many of paint, to a half; 0 where the paint is thicker than the heaviest wash with its water.
 *
 * @param spoonfuls - Of paint together, at least 0.
 * @param strength - Of the mix, above 0: half the strength is the same paint in twice the liquid.
 * @throws {TypeError | RangeError} for a number that is none of these.
 */
export function waterTo(spoonfuls: number, strength: number): number {
  expectNumber('spoonfuls', spoonfuls, 0);
  if (!(expectNumber('strength', strength) > 0))
    throw outOfRange('strength', strength, 'a number above 0');
  return Math.max(0, half((spoonfuls * (1 + WATER_AT_FULL)) / strength - spoonfuls));
}

/**
 * The puddles in which so much paint is let down to a strength, as it can be counted out by the spoon.
 *
 * One puddle where its water is at most 24 spoonfuls. Else the paint is first made up as the heaviest wash, as much water as paint, and of
 * that some spoonfuls are let down once more, or oftener where it is very weak: after each the strength is that of the puddle before times `spoons / (spoons +
 * water)`. The strength asked for is met to about a fiftieth, but for what one spoon of water more or less makes of it.
 *
 * @param spoonfuls - Of paint together, above 0.
 * @param strength - Of the mix, above 0.
 * @returns one puddle or more, the last being the wash.
 * @throws {TypeError | RangeError} for a number that is none of these.
 */
export function letDown(spoonfuls: number, strength: number): LetDown[] {
  if (!(expectNumber('spoonfuls', spoonfuls) > 0))
    throw outOfRange('spoonfuls', spoonfuls, 'a number above 0');
  const atOnce = waterTo(spoonfuls, strength);
  if (atOnce <= MOST_WATER) return [{ spoons: spoonfuls, water: countable(atOnce) }];
  const first = { spoons: spoonfuls, water: countable(spoonfuls * WATER_AT_FULL) };
  let times = (spoonfuls * (1 + WATER_AT_FULL)) / strength / (first.spoons + first.water);
  const puddles = [first];
  for (let left = Math.ceil(Math.log(times) / Math.log(1 + MOST_WATER)); left > 0; left--) {
    const next = taken(times ** (1 / left));
    times /= (next.spoons + next.water) / next.spoons;
    puddles.push(next);
  }
  return puddles;
}

/** So many spoonfuls of a puddle, as few as can be, and the water that makes so many times the liquid of them. */
function taken(times: number): LetDown {
  let best = { spoons: 1, water: countable(times - 1) };
  const off = ({ spoons, water }: LetDown): number =>
    Math.abs(Math.log((spoons + water) / spoons / times));
  for (let spoons = 2; spoons <= MOST_TAKEN && off(best) > NEAR_ENOUGH; spoons++) {
    const other = { spoons, water: countable(spoons * (times - 1)) };
    if (other.water <= MOST_WATER && off(other) < off(best)) best = other;
  }
  return best;
}

/**
 * Spoonfuls of a mix and its water.
 *
 * Whole parts stay as they are, divided by what they have in common; real parts are rounded to the total of at most `most` that moves the
 * shares least (of equal ones the smallest). Water: a wash dries to a thickness in proportion to the paint in it, so half the strength
 * is the same paint in twice the liquid; that the heaviest wash has one spoon of water to one of paint is a starting point to be tried out.
 *
 * @param mix - `parts` and `strength` (above 0) of a mix or a recipe.
 * @param options - `most`: the largest total of spoonfuls, 1..100, at least one a tube; 12 when absent.
 * @throws {TypeError | RangeError} for unknown tubes, parts that are not above 0, a strength that is not.
 */
export function dosesOf(
  mix: { parts: readonly Part[]; strength: number },
  options: { most?: number } = {},
): Doses {
  const given = expectObject('mix', mix);
  const parts = expectParts('mix.parts', given.parts);
  const strength = expectNumber('mix.strength', given.strength);
  if (!(strength > 0)) throw outOfRange('mix.strength', strength, 'a number above 0');
  const { most = 12 } = expectObject('options', options);
  const largest = Math.max(parts.length, expectNumber('options.most', most, 1, 100));
  const sum = parts.reduce((total, part) => total + part.parts, 0);
  const shares = parts.map((part) => part.parts / sum);
  let best = { spoons: parts.map(() => 1), rounding: Infinity };
  for (let total = parts.length; total <= largest; total++) {
    const spoons = apportioned(shares, total);
    const rounding = Math.max(...spoons.map((amount, i) => Math.abs(amount / total - shares[i])));
    if (rounding < best.rounding - 1e-9) best = { spoons, rounding };
  }
  const total = best.spoons.reduce((all, amount) => all + amount, 0);
  return {
    paint: parts
      .map((part, i) => ({ tube: part.tube, spoons: best.spoons[i] }))
      .sort((p, q) => q.spoons - p.spoons),
    total,
    water: waterTo(total, strength),
    puddles: letDown(total, strength),
    doublings: half(Math.log2(1 / strength)),
    rounding: best.rounding < 1e-9 ? 0 : best.rounding,
  };
}

/** Whole numbers of at least 1 with this sum, in proportion to the shares: by largest remainders. */
function apportioned(shares: readonly number[], total: number): number[] {
  const free = total - shares.length;
  const ideal = shares.map((share) => Math.max(0, share * total - 1));
  const scale =
    free /
    Math.max(
      1e-12,
      ideal.reduce((sum, value) => sum + value, 0),
    );
  const spoons = ideal.map((value) => 1 + Math.floor(value * scale + 1e-9));
  const order = shares
    .map((_, i) => i)
    .sort((p, q) => ((ideal[q] * scale) % 1) - ((ideal[p] * scale) % 1) || p - q);
  let left = total - spoons.reduce((sum, value) => sum + value, 0);
  for (const i of order) if (left-- > 0) spoons[i] += 1;
  return spoons;
}
