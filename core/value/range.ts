import { expectNumber, expectObject, outOfRange } from '../base/check.js';
import { reason, type Reason } from '../base/reason.js';
import { lightnessOfCode } from '../units/index.js';
import { countOf, expectHistogram } from './histogram.js';

/** A stretch of lightness, L* (0..100), `low` at least {@link LEAST_RANGE} below `high`. */
export interface LightnessSpan {
  low: number;
  high: number;
}

/** What brings the lightness of a photo into what paint and paper reach. */
export interface RangeMap {
  /** The photo's range as given. */
  readonly photo: Readonly<LightnessSpan>;
  /** Where the ends of the photo's range come to lie in paint. */
  readonly paint: Readonly<LightnessSpan>;
  /** L* in paint for L* in the photo (0..100 each). Rises strictly. */
  toPaint(lightness: number): number;
  /** The inverse of {@link toPaint}, in closed form; 0 or 100 for what no L* of the photo gives. */
  toPhoto(lightness: number): number;
  /** How much of a small difference at this L* of the photo is left in paint: 1 all, 0 none. Never more than 1. */
  slopeAt(lightness: number): number;
}

/**
 * L* of the darkest dry paint when no shelf of paints says better. Measured masstones of dark pigments lie at L* 23.2 to 29.8
 * (PB15, PV23, PG7, PBk7, PR122; D65): Okumura 2005, RIT MSc thesis, measured masstones. Those are films of acrylic; a wash of
 * watercolour is seldom darker.
 */
export const DARKEST_PAINT = 25;

/** The least width of a range, L*. */
export const LEAST_RANGE = 1;

/**
 * The slope below which the differences of a photo count as compressed: a fifth of them is lost. Our choice, no source.
 */
export const COMPRESSED_BELOW = 0.8;

/** What is left at least of a range that lies outside what paint reaches. Our choice, no source. */
const LEAST_LEFT = 0.5;

/**
 * The map from the lightness of a photo to that of paint.
 *
 * The ends of the photo's range go to the ends of the paint's; an end that paint reaches stays where it is, so that nothing is ever
 * stretched, and a range that lies within the paint's is mapped by identity. (A photo that lies wholly, or nearly, outside what paint
 * reaches is moved inside: half of its range is kept, or half of the paint's where that is less.)
 *
 * Between the ends, with t = (L - low) / (high - low) of the photo, u of the paint likewise, mean slope D = ratio of the widths (at
 * most 1) and k = D^holding:
 *
 *     u = k t / (1 + (k - 1) t)       t = u / (u + k (1 - u))       slope = D k / (1 + (k - 1) t)^2
 *
 * It is the rational quadratic of Gregory and Delbourgo (1982, IMA Journal of Numerical Analysis 2, 123-130) on one interval whose end
 * slopes D k and D / k have the product D^2; that interpolant rises strictly for any positive end slopes, where a cubic would have to
 * keep them within 3 D (Fritsch and Carlson 1980, SIAM Journal on Numerical Analysis 17, 238-246). The held end always keeps slope
 * 1: `holding` -1 gives 1 at the dark end and D^2 at the light one, 0 a straight line, 1 the reverse. The slope rises or falls all the
 * way. Beyond the ends the map runs on straight with the slope of the end (less steep only where it would leave 0..100), so it is
 * smooth at the ends; paint does not reach there.
 *
 * @param options.photo - L* range of the photo, as `photoRangeOf` gives it.
 * @param options.paint - L* range of paint on the paper; {@link DARKEST_PAINT} to the paper's L*.
 * @param options.holding - -1 holds the darks, 0 shares the loss, 1 holds the lights.
 * @throws {TypeError | RangeError} naming what is wrong.
 */
export function rangeMap(options: {
  photo: LightnessSpan;
  paint: LightnessSpan;
  holding: number;
}): RangeMap {
  const { photo: given, paint: reach, holding } = expectObject('options', options);
  const photo = expectRange('photo', given);
  const paint = withinReach(photo, expectRange('paint', reach));
  expectNumber('holding', holding, -1, 1);
  if (paint.low === photo.low && paint.high === photo.high) return identity(photo);
  const width = photo.high - photo.low;
  const mean = (paint.high - paint.low) / width;
  const bend = mean ** (holding as number);
  const lowSlope = tail(mean * bend, paint.low, photo.low);
  const highSlope = tail(mean / bend, 100 - paint.high, 100 - photo.high);

  const toPaint = (lightness: number): number => {
    expectNumber('lightness', lightness, 0, 100);
    if (lightness < photo.low) return Math.max(0, paint.low - lowSlope * (photo.low - lightness));
    if (lightness > photo.high)
      return Math.min(100, paint.high + highSlope * (lightness - photo.high));
    const t = (lightness - photo.low) / width;
    return blend(paint, (bend * t) / (1 + (bend - 1) * t));
  };
  const toPhoto = (lightness: number): number => {
    expectNumber('lightness', lightness, 0, 100);
    if (lightness < paint.low) return Math.max(0, photo.low - (paint.low - lightness) / lowSlope);
    if (lightness > paint.high)
      return Math.min(100, photo.high + (lightness - paint.high) / highSlope);
    const u = (lightness - paint.low) / (paint.high - paint.low);
    return blend(photo, u / (u + bend * (1 - u)));
  };
  const slopeAt = (lightness: number): number => {
    expectNumber('lightness', lightness, 0, 100);
    if (lightness < photo.low) return lowSlope;
    if (lightness > photo.high) return highSlope;
    const t = (lightness - photo.low) / width;
    return (mean * bend) / (1 + (bend - 1) * t) ** 2;
  };
  return { photo, paint, toPaint, toPhoto, slopeAt };
}

function identity(photo: LightnessSpan): RangeMap {
  const same = (lightness: number): number => expectNumber('lightness', lightness, 0, 100);
  const slopeAt = (lightness: number): number => {
    same(lightness);
    return 1;
  };
  return { photo, paint: { ...photo }, toPaint: same, toPhoto: same, slopeAt };
}

/** The map of a photo that needs none. */
export const IDENTITY_MAP: RangeMap = identity({ low: 0, high: 100 });

/** A stretch of the photo's L* whose differences paint cannot keep. */
export interface Compressed {
  /** L* in the photo. */
  from: number;
  /** L* in the photo. */
  to: number;
  /** How many L* of the stretch are lost: its width in the photo less that in paint. */
  loss: number;
}

/**
 * The stretches of the photo's range in which a map leaves less than {@link COMPRESSED_BELOW} of the differences, dark to light;
 * empty when there are none. (A map of {@link rangeMap} has at most one, since its slope rises or falls all the way.)
 */
export function compressedIn(map: RangeMap): Compressed[] {
  const { low, high } = map.photo;
  const isLost = (lightness: number): boolean => map.slopeAt(lightness) < COMPRESSED_BELOW;
  const [dark, light] = [isLost(low), isLost(high)];
  if (!dark && !light) return [];
  let [from, to] = [low, high];
  if (dark !== light) {
    let [near, far] = [low, high];
    for (let i = 0; i < 60; i++) {
      const middle = (near + far) / 2;
      if (isLost(middle) === dark) near = middle;
      else far = middle;
    }
    if (dark) to = near;
    else from = far;
  }
  return [{ from, to, loss: to - from - (map.toPaint(to) - map.toPaint(from)) }];
}

/** {@link compressedIn} as reasons `range.compressed` with the figures `from`, `to`, `loss` (L*) and `left` (0..1 of the stretch). */
export function rangeReasons(map: RangeMap): Reason[] {
  return compressedIn(map).map(({ from, to, loss }) =>
    reason('range.compressed', { from, to, loss, left: to > from ? 1 - loss / (to - from) : 1 }),
  );
}

/**
 * The L* range of a photo: from the lightness that 1 % of the pixels do not exceed to the one that 99 % do not. At least
 * {@link LEAST_RANGE} wide, about its middle, for a photo of one tone.
 *
 * @param histogram - 256 counts of lightness codes. Without any pixels the range is 0..100.
 */
export function photoRangeOf(histogram: Uint32Array): LightnessSpan {
  const counts = expectHistogram(histogram);
  const count = countOf(counts);
  if (count === 0) return { low: 0, high: 100 };
  const low = lightnessOfCode(codeBelow(counts, 0.01 * count));
  const high = lightnessOfCode(codeBelow(counts, 0.99 * count));
  if (high - low >= LEAST_RANGE) return { low, high };
  const start = Math.min(100 - LEAST_RANGE, Math.max(0, (low + high - LEAST_RANGE) / 2));
  return { low: start, high: start + LEAST_RANGE };
}

/** The smallest code at or below which at least `wanted` pixels lie. */
function codeBelow(counts: Uint32Array, wanted: number): number {
  let below = 0;
  let code = -1;
  do {
    code += 1;
    below += counts[code];
  } while (code < 255 && (below < wanted || below === 0));
  return code;
}

function expectRange(name: string, value: unknown): LightnessSpan {
  const { low, high } = expectObject(name, value) as Partial<LightnessSpan>;
  expectNumber(`${name}.low`, low, 0, 100);
  expectNumber(`${name}.high`, high, 0, 100);
  if (high! - low! < LEAST_RANGE)
    throw outOfRange(name, `${low}..${high}`, `a range at least ${LEAST_RANGE} wide`);
  return { low: low!, high: high! };
}

/** Where the photo's range comes to lie: inside the paint's, never wider than it was. */
function withinReach(photo: LightnessSpan, reach: LightnessSpan): LightnessSpan {
  let low = Math.max(photo.low, reach.low);
  let high = Math.min(photo.high, reach.high);
  const kept = LEAST_LEFT * (photo.high - photo.low);
  if (photo.low < reach.low) high = Math.max(high, low + Math.min(kept, (reach.high - low) / 2));
  if (photo.high > reach.high) low = Math.min(low, high - Math.min(kept, (high - reach.low) / 2));
  return { low, high };
}

/** The slope beyond an end: that of the end, as long as the map stays inside 0..100. */
const tail = (slope: number, paintLeft: number, photoLeft: number): number =>
  photoLeft > 0 ? Math.min(slope, paintLeft / photoLeft) : slope;

/** The point of a range at the fraction `t`; exact at both ends. */
const blend = ({ low, high }: LightnessSpan, t: number): number => low * (1 - t) + high * t;
