import {
  driedLightness,
  munsellValue,
  type Board,
  type BoardSwatch,
  type BoardVerdict,
  type Reason,
  type SwatchVerdict,
} from '../shared/core.js';
import type { Mark } from './dabs.js';

/** Figures of a reason that are places on the L* scale. */
const PLACES: ReadonlySet<string> = new Set([
  'lightness',
  'otherLightness',
  'ceiling',
  'floor',
  'next',
  'low',
  'high',
  'otherLow',
  'otherHigh',
  'wet',
  'dried',
  'limit',
]);
/** Figures of a reason that are distances in L*. */
const DISTANCES: ReadonlySet<string> = new Set(['by', 'margin', 'spread', 'allowed']);

/**
 * A distance of value (Munsell) for a distance of L* about a place on the scale: the difference of the two ends.
 *
 * @param at - L* of the middle.
 * @param distance - L*; its sign stays.
 */
export function valueDistance(at: number, distance: number): number {
  const half = Math.abs(distance) / 2;
  const low = Math.max(0, Math.min(at, 100) - half);
  const high = Math.min(100, Math.max(at, 0) + half);
  return Math.sign(distance) * (munsellValue(high) - munsellValue(low));
}

/** One decimal, as values are told; no negative zero. */
export const tenth = (value: number): number => Math.round(value * 10) / 10 + 0;

/**
 * A reason as a painter reads it: places as Munsell values, distances as differences of value about `at`, both to a tenth; `other`
 * as the name of that swatch.
 *
 * @param at - L* about which distances are taken.
 */
export function reasonInValues(
  { code, values }: Reason,
  at: number,
  nameOf: (id: string) => string,
): Reason {
  const told: Record<string, string | number> = {};
  for (const [key, figure] of Object.entries(values)) {
    if (typeof figure === 'string') told[key] = key === 'other' ? nameOf(figure) : figure;
    else if (PLACES.has(key)) told[key] = tenth(munsellValue(figure));
    else if (DISTANCES.has(key)) told[key] = tenth(valueDistance(at, figure));
    else told[key] = figure;
  }
  return { code, values: told };
}

/** The lightness L* of a swatch once it is dry. */
export function dryLightness({ lightness, wet }: BoardSwatch, paper: number): number {
  return wet ? driedLightness(lightness, { paper }).lightness : lightness;
}

/** The word that a swatch gets: that of its verdict, but an accent is called so. */
export function markOf(swatch: BoardSwatch, { verdict }: SwatchVerdict): Mark {
  return swatch.accent ? 'accent' : verdict;
}

/** Whether two verdicts on a swatch say the same. */
export function sameVerdict(a: SwatchVerdict, b: SwatchVerdict): boolean {
  if (a.verdict !== b.verdict || a.margin !== b.margin || a.reasons.length !== b.reasons.length)
    return false;
  return a.reasons.every(({ code, values }, i) => {
    const other = b.reasons[i];
    return (
      code === other.code && Object.keys(values).every((key) => values[key] === other.values[key])
    );
  });
}

/** How many swatches are at fault and how many are open (at the edge, or not sure). */
export function countsOf({ swatches }: BoardVerdict): { faults: number; open: number } {
  const count = (...kinds: string[]): number =>
    swatches.filter(({ verdict }) => kinds.includes(verdict)).length;
  return { faults: count('too-dark', 'too-light'), open: count('between', 'unsure') };
}

/**
 * The gap between a bucket and the next lighter one as a difference of value: from the lightest dry swatch of the darker bucket to
 * the darkest of the lighter one, accents aside; the ceiling and the floor stand for empty buckets. Negative where they cross.
 */
export function gapInValue(board: Board, darker: number, paper: number): number {
  const valuesIn = (bucket: number): number[] =>
    board.swatches
      .filter((swatch) => swatch.bucket === bucket && !swatch.accent)
      .map((swatch) => munsellValue(dryLightness(swatch, paper)));
  const from = valuesIn(darker);
  const to = valuesIn(darker + 1);
  const end = from.length > 0 ? Math.max(...from) : munsellValue(board.bands[darker].ceiling);
  const start = to.length > 0 ? Math.min(...to) : munsellValue(board.bands[darker + 1].floor);
  return tenth(start - end);
}
