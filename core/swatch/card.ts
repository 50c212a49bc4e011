/**
 * The painter's own value card: a strip on which the limits between the bands are painted as greys, each with a hole punched in it. Once
 * the strip is certified for a plan, the eye can compare at the easel without a screen: what shows lighter through the hole lies above the limit.
 */
import { expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lab } from '../base/types.js';
import { lchOf } from '../colour/index.js';

/** What a strip's reading must give; a {@link SheetReading} does. */
export interface CardReading {
  swatches: { lab: Lab; spread: number; uncertainty: number }[];
}

/** How strict a card is taken. */
export interface CardOptions {
  /** A grey may be off by so much L* (0.5..10); 2 when absent: what an eye tells with care through a hole. Common practice, no source. */
  tolerance?: number;
  /** Chroma up to which a grey counts as neutral (0..50); 8 when absent. A coloured grey looks lighter than it is. Our own choice. */
  chroma?: number;
}

/** What one limit has on the strip. */
export interface CardStep {
  /** The limit, L* of dry paint. */
  limit: number;
  /** The place of its grey in the reading's swatches; absent when there is none. */
  swatch?: number;
  /** L* of that grey less the limit. */
  off?: number;
  /** `unsure`: the reading is too uncertain to say. */
  verdict: 'fits' | 'too-dark' | 'too-light' | 'unsure' | 'missing';
  /** Never empty. */
  reasons: Reason[];
}

/** The verdict on a strip. */
export interface CardVerdict {
  /** Whether the eye may rely on it: each limit has a grey that surely fits. */
  certified: boolean;
  /** One for each limit, in the order of the limits. */
  steps: CardStep[];
  /** Limits whose grey is to be painted anew, or for the first time. */
  repaint: number[];
  /** About the strip as a whole. */
  reasons: Reason[];
}

/**
 * Codes of a value card and their figures; lightness is L*.
 *
 * | code | figures | |
 * | --- | --- | --- |
 * | `card.fits` | `limit`, `lightness`, `off` | This grey may stand for the limit |
 * | `card.too-dark`, `card.too-light` | `limit`, `lightness`, `by` | To be painted anew, lighter or darker by so much |
 * | `card.unsure` | `limit`, `lightness`, `uncertainty` | The photo does not say surely enough: photograph it again in even light |
 * | `card.missing` | `limit` | No grey of the strip is for this limit |
 * | `card.coloured` | `limit`, `chroma` | This grey has so much colour that the eye takes it for lighter |
 * | `card.blotchy` | `limit`, `spread` | This grey differs within itself by so much (standard deviation) |
 * | `card.extra` | `count` | So many greys belong to no limit |
 * | `card.order` | | The greys do not go from dark to light (or back) along the strip |
 */
export const CARD_CODES = [
  'card.fits',
  'card.too-dark',
  'card.too-light',
  'card.unsure',
  'card.missing',
  'card.coloured',
  'card.blotchy',
  'card.extra',
  'card.order',
] as const;
export type CardCode = (typeof CARD_CODES)[number];

/**
 * Certifies a strip for a plan. Greys and limits are paired in the order of lightness so that the sum of their distances is least; a grey
 * fits when its whole range of uncertainty lies within the tolerance.
 *
 * @param reading of the strip, in the order in which it was read
 * @param limits L* between the bands in dry paint, ascending, 0..100 (a plan's `paintLimits`)
 * @throws TypeError, RangeError naming the argument
 */
export function certifyCard(
  reading: CardReading,
  limits: readonly number[],
  options: CardOptions = {},
): CardVerdict {
  expectObject('reading', reading);
  if (!Array.isArray(reading.swatches))
    throw wrongType('reading.swatches', reading.swatches, 'an array of swatches');
  if (!Array.isArray(limits)) throw wrongType('limits', limits, 'an array of L*');
  limits.forEach((limit: number, i) => {
    expectNumber(`limits[${i}]`, limit, 0, 100);
    if (i > 0 && limit < limits[i - 1])
      throw outOfRange('limits', limits, 'limits in ascending order');
  });
  const tolerance = expectNumber('options.tolerance', options.tolerance ?? 2, 0.5, 10);
  const chroma = expectNumber('options.chroma', options.chroma ?? 8, 0, 50);
  const pairs = paired(
    reading.swatches.map(({ lab }) => lab[0]),
    limits,
  );
  const steps = limits.map((limit, i) => stepOf(limit, pairs[i], reading, tolerance, chroma));
  const reasons: Reason[] = [];
  const extra = reading.swatches.length - pairs.filter((swatch) => swatch !== undefined).length;
  if (extra > 0) reasons.push(reason('card.extra', { count: extra }));
  if (!inOrder(pairs.filter((swatch) => swatch !== undefined))) reasons.push(reason('card.order'));
  return {
    certified: limits.length > 0 && steps.every(({ verdict }) => verdict === 'fits'),
    steps,
    repaint: steps
      .filter(({ verdict }) => verdict !== 'fits' && verdict !== 'unsure')
      .map(({ limit }) => limit),
    reasons,
  };
}

/** What it costs to leave a limit or a grey without a partner: greys farther than twice this from a limit were not meant for it, L*. Our own choice. */
const ALONE = 8;

/** For each limit the place of its grey: ascending greys against ascending limits at the least sum of distances (dynamic programming). */
function paired(lightness: number[], limits: readonly number[]): (number | undefined)[] {
  const order = lightness.map((_, i) => i).sort((a, b) => lightness[a] - lightness[b]);
  const [n, m] = [order.length, limits.length];
  const distance = (i: number, j: number): number =>
    Math.abs(lightness[order[i - 1]] - limits[j - 1]);
  // cost[i][j]: the least sum for the first i greys and the first j limits.
  const cost = Array.from({ length: n + 1 }, (_, i) =>
    Float64Array.from({ length: m + 1 }, (__, j) => ALONE * (i + j)),
  );
  for (let i = 1; i <= n; i++)
    for (let j = 1; j <= m; j++)
      cost[i][j] = Math.min(
        cost[i - 1][j - 1] + distance(i, j),
        cost[i - 1][j] + ALONE,
        cost[i][j - 1] + ALONE,
      );
  const out = new Array<number | undefined>(m).fill(undefined);
  for (let i = n, j = m; i > 0 && j > 0;) {
    if (cost[i][j] === cost[i - 1][j - 1] + distance(i, j)) out[--j] = order[--i];
    else if (cost[i][j] === cost[i - 1][j] + ALONE) i--;
    else j--;
  }
  return out;
}

function stepOf(
  limit: number,
  swatch: number | undefined,
  reading: CardReading,
  tolerance: number,
  mostChroma: number,
): CardStep {
  if (swatch === undefined)
    return { limit, verdict: 'missing', reasons: [reason('card.missing', { limit })] };
  const { lab, spread, uncertainty } = reading.swatches[swatch];
  const lightness = rounded(lab[0]);
  const off = lab[0] - limit;
  const reasons: Reason[] = [];
  let verdict: CardStep['verdict'];
  if (Math.abs(off) + uncertainty <= tolerance) {
    verdict = 'fits';
    reasons.push(reason('card.fits', { limit, lightness, off: rounded(off) }));
  } else if (Math.abs(off) - uncertainty <= tolerance) {
    verdict = 'unsure';
    reasons.push(reason('card.unsure', { limit, lightness, uncertainty: rounded(uncertainty) }));
  } else {
    verdict = off < 0 ? 'too-dark' : 'too-light';
    reasons.push(reason(`card.${verdict}`, { limit, lightness, by: rounded(Math.abs(off)) }));
  }
  const { C } = lchOf(lab);
  if (C > mostChroma) reasons.push(reason('card.coloured', { limit, chroma: rounded(C) }));
  if (spread > tolerance) reasons.push(reason('card.blotchy', { limit, spread: rounded(spread) }));
  return { limit, swatch, off, verdict, reasons };
}

const rounded = (value: number): number => Math.round(10 * value) / 10;

/** Whether places only rise or only fall. */
function inOrder(places: number[]): boolean {
  const steps = places.slice(1).map((place, i) => Math.sign(place - places[i]));
  return steps.every((step) => step === steps[0]);
}
