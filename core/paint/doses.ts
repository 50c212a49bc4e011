import { expectNumber, expectObject, outOfRange } from '../base/check.js';
import { expectParts } from './mix.js';
import type { Part } from './types.js';

/** A mix as it is measured out. */
export interface Doses {
  /** Whole spoonfuls of each tube, largest first; the same spoon for all. */
  paint: { tube: string; spoons: number }[];
  /** Spoonfuls of paint together. */
  total: number;
  /** Water to them, in the same spoonfuls, to a half. */
  water: number;
  /** How often the water doubles from that of the heaviest wash, to a half; below 0 for paint that is thicker. */
  doublings: number;
  /** The worst share of a tube that rounding moved, 0..1; 0 when the parts were whole. */
  rounding: number;
}

/** Spoonfuls of water to one of paint in the heaviest wash (strength 1). Common practice, no source; paints and painters differ. */
const WATER_AT_FULL = 1;

const half = (value: number): number => Math.round(2 * value) / 2;

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
