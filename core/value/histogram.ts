import type { Lightness } from '../base/types.js';
import { expectInteger, expectRaster, outOfRange, wrongType } from '../base/check.js';
import { lightnessOfCode } from '../units/index.js';

/** A histogram of 256 counts; any array of 256 counts will do. */
export function expectHistogram(histogram: unknown): Uint32Array {
  const counts = histogram as Uint32Array;
  if (!ArrayBuffer.isView(histogram) && !Array.isArray(histogram)) {
    throw wrongType('histogram', histogram, 'a Uint32Array of 256 counts');
  }
  if (counts.length !== 256) throw outOfRange('histogram', histogram, '256 counts');
  for (let i = 0; i < 256; i++) {
    if (!Number.isFinite(counts[i]) || counts[i] < 0) {
      throw outOfRange(`histogram[${i}]`, counts[i], 'a count of at least 0');
    }
  }
  return counts;
}

/** Thresholds: whole numbers 0..254, rising strictly, at least one. */
export function expectThresholds(thresholds: unknown): number[] {
  if (!Array.isArray(thresholds)) throw wrongType('thresholds', thresholds, 'an array of codes');
  if (thresholds.length === 0) throw outOfRange('thresholds', thresholds, 'at least one code');
  for (let i = 0; i < thresholds.length; i++) {
    expectInteger(`thresholds[${i}]`, thresholds[i], 0, 254);
    if (i > 0 && thresholds[i] <= thresholds[i - 1]) {
      throw outOfRange('thresholds', thresholds, 'codes that rise strictly');
    }
  }
  return thresholds as number[];
}

/**
 * Counts four pixels a turn into four tables, so that equal neighbours do not wait for one another.
 */
function countAll(
  data: Uint8Array,
  h0: Uint32Array,
  h1: Uint32Array,
  h2: Uint32Array,
  h3: Uint32Array,
): void {
  const whole = data.length & ~3;
  for (let i = 0; i < whole; i += 4) {
    h0[data[i]]++;
    h1[data[i + 1]]++;
    h2[data[i + 2]]++;
    h3[data[i + 3]]++;
  }
  for (let i = whole; i < data.length; i++) h0[data[i]]++;
}

/** The same from whole words, which is quicker where the data allow it. */
function countWords(
  words: Uint32Array,
  h0: Uint32Array,
  h1: Uint32Array,
  h2: Uint32Array,
  h3: Uint32Array,
): void {
  for (let i = 0; i < words.length; i++) {
    const word = words[i];
    h0[word & 255]++;
    h1[(word >>> 8) & 255]++;
    h2[(word >>> 16) & 255]++;
    h3[word >>> 24]++;
  }
}

function countWhere(data: Uint8Array, where: Uint8Array, h0: Uint32Array): void {
  for (let i = 0; i < data.length; i++) if (where[i] !== 0) h0[data[i]]++;
}

/**
 * The histogram of a plane of lightness codes.
 * @param where a mask of the plane's size; only pixels whose mask is not 0 count
 * @returns 256 counts
 * @throws {TypeError | RangeError} a plane or mask of the wrong shape
 */
export function histogramOf(plane: Lightness, where?: Uint8Array): Uint32Array {
  expectRaster('plane', plane, 1);
  const { data } = plane;
  const total = new Uint32Array(256);
  if (where !== undefined) {
    if (!(where instanceof Uint8Array) && !((where as unknown) instanceof Uint8ClampedArray)) {
      throw wrongType('where', where, 'a Uint8Array');
    }
    if (where.length !== data.length)
      throw outOfRange('where', where, `${data.length} values, one a pixel`);
    countWhere(data, where, total);
    return total;
  }
  const h1 = new Uint32Array(256);
  const h2 = new Uint32Array(256);
  const h3 = new Uint32Array(256);
  if (data.byteOffset % 4 === 0) {
    const words = data.length >>> 2;
    countWords(new Uint32Array(data.buffer, data.byteOffset, words), total, h1, h2, h3);
    for (let i = words * 4; i < data.length; i++) total[data[i]]++;
  } else {
    countAll(data, total, h1, h2, h3);
  }
  for (let i = 0; i < 256; i++) total[i] += h1[i] + h2[i] + h3[i];
  return total;
}

/** How many pixels a histogram counts. */
export function countOf(histogram: Uint32Array): number {
  let count = 0;
  for (let i = 0; i < 256; i++) count += histogram[i];
  return count;
}

/** The smallest code at or below which at least `part` (0..1) of the pixels lie. */
function percentileOf(histogram: Uint32Array, count: number, part: number): number {
  const wanted = part * count;
  let below = 0;
  for (let code = 0; code < 256; code++) {
    below += histogram[code];
    if (histogram[code] > 0 && below >= wanted) return code;
  }
  return 255;
}

/** The key and contrast of a picture. */
export interface Key {
  /** Where the middle of the picture's values lies: dark (low), middle or light (high). */
  key: 'low' | 'middle' | 'high';
  /** How far apart its darks and lights lie. */
  contrast: 'close' | 'moderate' | 'strong';
  /** L* that 5 % of the pixels reach from below. */
  low: number;
  /** The median L*. */
  middle: number;
  /** L* that 95 % of the pixels do not pass. */
  high: number;
}

/**
 * Median L* below which a picture is in a low key, and above which it is in a high key: our own
 * choice.
 */
const LOW_KEY = 40;
const HIGH_KEY = 65;
/**
 * L* between the 5th and 95th percentile below which contrast is close, and from which it is
 * strong: our own choice.
 */
const CLOSE = 35;
const STRONG = 65;

/**
 * Key and contrast from the percentiles 5, 50 and 95 of a histogram. The borders (median L* 40 and
 * 65; spread 35 and 65) are our own choice.
 * @throws {RangeError} an empty histogram
 */
export function keyOf(histogram: Uint32Array): Key {
  expectHistogram(histogram);
  const count = countOf(histogram);
  if (count === 0) throw outOfRange('histogram', histogram, 'at least one pixel');
  const low = lightnessOfCode(percentileOf(histogram, count, 0.05));
  const middle = lightnessOfCode(percentileOf(histogram, count, 0.5));
  const high = lightnessOfCode(percentileOf(histogram, count, 0.95));
  const spread = high - low;
  return {
    key: middle < LOW_KEY ? 'low' : middle > HIGH_KEY ? 'high' : 'middle',
    contrast: spread < CLOSE ? 'close' : spread < STRONG ? 'moderate' : 'strong',
    low,
    middle,
    high,
  };
}

/** The code of the median. @throws {RangeError} an empty histogram */
export function medianOf(histogram: Uint32Array): number {
  const count = countOf(expectHistogram(histogram));
  if (count === 0) throw outOfRange('histogram', histogram, 'at least one pixel');
  return percentileOf(histogram, count, 0.5);
}

/** The first code that may be left as bare paper: L* 85 (2.55 x 85 = 216.75). */
const PAPER_CODE = 217;
/** The most of a picture that is proposed as bare paper, unless a single code holds more. */
const PAPER_SHARE = 0.05;

/**
 * A threshold above which the paper may be left bare. A rule of our own: the lightest twentieth of
 * the picture, never darker than L* 85; when the lightest code alone holds more than that (a white
 * ground, a burnt-out sky), that code.
 * @returns a code 216..254, or null when no pixel is as light as L* 85
 */
export function paperThreshold(histogram: Uint32Array): number | null {
  expectHistogram(histogram);
  const most = PAPER_SHARE * countOf(histogram);
  let lightest = 255;
  while (lightest >= PAPER_CODE && histogram[lightest] === 0) lightest--;
  if (lightest < PAPER_CODE) return null;
  let above = histogram[lightest];
  let threshold = lightest - 1;
  while (threshold >= PAPER_CODE && above + histogram[threshold] <= most) {
    above += histogram[threshold];
    threshold--;
  }
  return threshold;
}
