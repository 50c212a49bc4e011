import { expectNumber, expectObject, outOfRange } from '../base/check.js';
import { reason, type Reason } from '../base/reason.js';
import { expectWetness, type Wetness } from './drying.js';
import { expectParts } from './mix.js';
import type { Part } from './types.js';

/**
 * How much liquid a wash leaves on paper, ml for each mm^2: the thickness of the wet film in m. From memory and common practice, no
 * source: about 1 ml on a hand's breadth squared (100 cm^2) laid satin, twice that where it is to shine, half for a damp brush.
 */
const ML_BY_WETNESS = { shining: 2e-4, satin: 1e-4, damp: 5e-5 } as const;

/** What stays in the well and in the brush, ml. Common practice, no source. */
const LEFT_IN_BRUSH = 1;

/** Spare, as a share of what the paper takes. Common practice, no source: mix more than you think, a wash cannot be matched. */
export const SPARE = 1 / 3;

/** Tube paint in the heaviest wash: as much paint as water. Common practice, no source. */
const PAINT_IN_FULL = 0.5;

/** A spoonful, ml: the small spoon that the wells are measured by. Ours. */
export const SPOONFUL_ML = 0.25;

/** What to put in the well for a mass. */
export interface Puddle {
  /** All of it, with spare, ml. */
  ml: number;
  /** What the paper takes, ml. */
  taken: number;
  /** Tube paint, ml, and in spoonfuls by tube. */
  paintMl: number;
  spoonfuls: { tube: string; spoonfuls: number }[];
  /** Water, ml and spoonfuls. */
  waterMl: number;
  waterSpoonfuls: number;
  /** Where a part is less than can be measured (`paint.puddle-touch`): a first puddle, of which a little makes the wash. */
  first?: FirstPuddle;
  /**
   * `paint.puddle-guess` always; `paint.puddle-more` (`ml`, `needed`) when whole quarters of a spoonful make more than is needed;
   * `paint.puddle-touch` (`spoonfuls` of the smallest part) when they would make far too much, so that a part is less than can be measured.
   */
  reasons: Reason[];
}

/** A puddle as strong as the heaviest wash, of which some is let down. */
export interface FirstPuddle {
  /** Paint by tube, in whole quarters of a spoonful where the parts are whole. */
  spoonfuls: { tube: string; spoonfuls: number }[];
  /** Water to it, spoonfuls. */
  waterSpoonfuls: number;
  /** How much of it is taken for the wash, in quarters of a spoonful, rounded up. */
  taken: number;
  /** Water to what is taken, ml. */
  waterMl: number;
  /** The wash, ml: at least what is needed. */
  ml: number;
}

/** A puddle may be this many times what is needed so that its parts can be measured by the spoon. Ours. */
const MOST_MORE = 4;

/** The smallest amount that can be dosed, spoonfuls. */
const LEAST_SPOONFUL = 0.25;

const commonDivisor = (a: number, b: number): number => (b === 0 ? a : commonDivisor(b, a % b));

/** So many spoonfuls of paint, at least `wanted`, that each part can be dosed. */
function dosed(wanted: number, parts: readonly Part[], total: number): number {
  if (parts.every((part) => Number.isInteger(part.parts))) {
    const once = (LEAST_SPOONFUL * total) / parts.map((part) => part.parts).reduce(commonDivisor);
    return once * Math.max(1, Math.ceil(wanted / once - 1e-9));
  }
  const smallest = Math.min(...parts.map((part) => part.parts));
  return Math.max(wanted, (LEAST_SPOONFUL * total) / smallest);
}

/** Spoonfuls of paint together, by tube. */
const byTube = (spoons: number, parts: readonly Part[], total: number): Puddle['spoonfuls'] =>
  parts.map((part) => ({ tube: part.tube, spoonfuls: (spoons * part.parts) / total }));

/** The smallest puddle of the heaviest wash whose parts can be dosed, and what of it makes a wash with so much paint in it. */
function firstPuddle(wanted: number, share: number, parts: readonly Part[]): FirstPuddle {
  const total = parts.reduce((sum, part) => sum + part.parts, 0);
  const spoons = dosed(wanted, parts, total);
  const taken = Math.ceil(wanted / PAINT_IN_FULL / LEAST_SPOONFUL - 1e-9) * LEAST_SPOONFUL;
  const ml = (taken * PAINT_IN_FULL * SPOONFUL_ML) / share;
  return {
    spoonfuls: byTube(spoons, parts, total),
    waterSpoonfuls: spoons / PAINT_IN_FULL - spoons,
    taken,
    waterMl: ml - taken * SPOONFUL_ML,
    ml,
  };
}

/**
 * How large a puddle to mix for an area so that it does not run out in the middle of the wash, and what goes into it.
 *
 * Coverage and dilution are common practice, no source: a guess of the right size, told by `paint.puddle-guess` with its `low` and `high`
 * (ml: half and twice what the paper takes, with the same spare).
 *
 * @param areaMm2 - Area of the mass on the paper, mm^2, above 0.
 * @param options - `strength` of the mix (0..1 of the heaviest wash; 1 when absent, more counts as 1), `wetness` in which it is laid
 *   (satin), `spare` as a share of what the paper takes (1/3), `parts` of the mix for its spoonfuls. Ratios are kept exactly; whole parts
 *   come out as whole quarters of a spoonful, others as at least a quarter each, unless the puddle would be over four times too large.
 * @throws {TypeError | RangeError} for a wrong area, option or part.
 */
export function puddleFor(
  areaMm2: number,
  options: { strength?: number; wetness?: Wetness; spare?: number; parts?: Part[] } = {},
): Puddle {
  if (expectNumber('areaMm2', areaMm2, 0, 1e9) === 0)
    throw outOfRange('areaMm2', areaMm2, 'an area above 0');
  const given = expectObject('options', options);
  const strength =
    given.strength === undefined ? 1 : expectNumber('options.strength', given.strength, 0);
  const spare =
    given.spare === undefined ? SPARE : expectNumber('options.spare', given.spare, 0, 10);
  const wetness = expectWetness('options.wetness', given.wetness);
  const parts = given.parts === undefined ? [] : expectParts('options.parts', given.parts);
  const taken = areaMm2 * ML_BY_WETNESS[wetness];
  const withSpare = (ml: number): number => ml * (1 + spare) + LEFT_IN_BRUSH;
  const needed = withSpare(taken);
  const share = PAINT_IN_FULL * Math.min(1, strength);
  const wanted = (needed * share) / SPOONFUL_ML;
  const total = parts.reduce((sum, part) => sum + part.parts, 0);
  const measured = parts.length > 0 && wanted > 0 ? dosed(wanted, parts, total) : wanted;
  const isMeasured = measured <= MOST_MORE * wanted;
  const spoons = isMeasured ? measured : wanted;
  const ml = isMeasured && wanted > 0 ? needed * (measured / wanted) : needed;
  const reasons = [
    reason('paint.puddle-guess', { low: withSpare(taken / 2), high: withSpare(taken * 2) }),
  ];
  if (!isMeasured) {
    const smallest = Math.min(...parts.map((part) => part.parts));
    reasons.push(reason('paint.puddle-touch', { spoonfuls: (spoons * smallest) / total }));
  } else if (ml > needed * 1.001) reasons.push(reason('paint.puddle-more', { ml, needed }));
  return {
    ml,
    taken,
    paintMl: ml * share,
    spoonfuls: byTube(spoons, parts, total),
    waterMl: ml * (1 - share),
    waterSpoonfuls: (ml * (1 - share)) / SPOONFUL_ML,
    ...(isMeasured ? {} : { first: firstPuddle(wanted, share, parts) }),
    reasons,
  };
}
