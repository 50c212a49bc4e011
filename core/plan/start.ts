import { expectNumber, outOfRange, wrongType } from '../base/check.js';
import type { Board, BoardBand } from '../swatch/types.js';
import type { Plan, PlanPaper } from './types.js';

/** Values 3.5 and 6.5 in ASTM D1535, which part a nine-step scale into three threes (L* 35.6 and 66.0, rounded). */
export const STARTING_LIMITS: readonly number[] = [36, 66];
/** A quarter sheet lying (15 x 11 in), of dry white paper. */
export const STARTING_PAPER: Readonly<PlanPaper> = { widthMm: 381, heightMm: 279.4, lightness: 95 };

/**
 * The plan that a painter starts from, sound by construction: it needs no check and brings none along. The figures and their
 * sources are those of `newPlan`.
 *
 * @param limits - L* between the bands in the photo and in the paint, ascending, inside 0..95.
 * @throws {RangeError} when the limits do not ascend.
 */
export function startedPlan(limits: readonly number[] = STARTING_LIMITS): Plan {
  return {
    schema: 1,
    tubesEdition: '',
    title: '',
    paper: { ...STARTING_PAPER },
    brushes: [
      { name: 'round 12', tipMm: 1.2, pressedMm: 15 },
      { name: 'round 8', tipMm: 0.8, pressedMm: 10 },
      { name: 'round 4', tipMm: 0.5, pressedMm: 5 },
    ],
    photoLimits: [...limits],
    paintLimits: [...limits],
    overrules: [],
    board: {
      bands: bandsFromLimits(bandNames(limits.length + 1), limits, STARTING_PAPER.lightness),
      swatches: [],
    },
    steps: [],
    notes: '',
  };
}

/**
 * Bands that meet at the given limits: the darkest from L* 0, the lightest up to the paper.
 *
 * @param names - One for each band, dark to light.
 * @param limits - L* between the bands, ascending, inside 0..`paper`; one fewer than `names`.
 * @param paper - L* of the bare paper (0..100).
 * @throws {RangeError} when the counts differ or the limits do not ascend.
 */
export function bandsFromLimits(
  names: readonly string[],
  limits: readonly number[],
  paper = 95,
): BoardBand[] {
  expectNumber('paper', paper, 0, 100);
  if (!Array.isArray(names)) throw wrongType('names', names, 'a list of names');
  if (!Array.isArray(limits)) throw wrongType('limits', limits, 'a list of numbers');
  if (names.length !== limits.length + 1)
    throw outOfRange('names', names, `${limits.length + 1} names for ${limits.length} limits`);
  limits.forEach((limit, i) => expectNumber(`limits[${i}]`, limit, limits[i - 1] ?? 0, paper));
  names.forEach((name, i) => {
    if (typeof name !== 'string') throw wrongType(`names[${i}]`, name, 'a string');
  });
  return bandsBetween(names, limits, paper);
}

function bandsBetween(
  names: readonly string[],
  limits: readonly number[],
  paper: number,
): BoardBand[] {
  const borders = [0, ...limits, paper];
  return names.map((name, i) => ({ name, floor: borders[i], ceiling: borders[i + 1] }));
}

/** An empty board whose bands meet at the limits; a limit beyond the paper is drawn in to it. */
export function standardBoard(limits: number[], paper: number): Board {
  const within = limits.map((limit) => Math.min(limit, paper));
  return { bands: bandsBetween(bandNames(limits.length + 1), within, paper), swatches: [] };
}

/** Plain names for 1..5 bands, dark to light; beyond that they are numbered. */
function bandNames(count: number): string[] {
  const names: Record<number, string[]> = {
    1: ['all'],
    2: ['dark', 'light'],
    3: ['dark', 'middle', 'light'],
    4: ['dark', 'dark middle', 'light middle', 'light'],
    5: ['dark', 'dark middle', 'middle', 'light middle', 'light'],
  };
  return names[count] ?? Array.from({ length: count }, (_, i) => `band ${i + 1}`);
}
