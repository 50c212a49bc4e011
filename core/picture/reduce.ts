import { expectInteger, expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import { byRows, type Kernel } from '../base/kernel.js';
import { LINEAR_OF_SRGB, LUMINANCE_OF_RGB } from '../colour/index.js';
import type { Crop, Lightness, Pixels } from '../base/types.js';
import { FULL, STEPS_OF_LIGHTNESS, STEPS_OF_SRGB, stepOf, unitsOf } from './light.js';
import { LITTLE_ENDIAN, lightnessOfRun } from './lightness.js';

const [OF_RED, OF_GREEN, OF_BLUE] = LUMINANCE_OF_RGB;

/** An upright picture whose rows are had on demand, so that no one buffer holds it all. */
export interface RowSource {
  width: number;
  height: number;
  /** Straight-alpha sRGB RGBA of rows y0 up to, not including, y1: (y1 - y0) x width x 4 bytes. It is read before the next call. */
  rows(y0: number, y1: number): Uint8ClampedArray | Uint8Array;
}

/** A picture laid over white and reduced, with its lightness. */
export interface Reduced {
  /** Opaque sRGB. */
  pixels: Pixels;
  plane: Lightness;
}

interface Size {
  width: number;
  height: number;
}

/**
 * The size nearest to the same proportion that has at most `maxPixels` pixels; never larger than asked, each side at least 1.
 * The sides are rounded down, save that a side is never 0 (a strip 20000 x 1 with maxPixels 100 becomes 100 x 1).
 *
 * @param width,height whole pixels, 1..2^28
 * @param maxPixels 1 or more
 * @throws TypeError, RangeError naming the argument
 */
export function fitWithin(width: number, height: number, maxPixels: number): Size {
  expectInteger('width', width, 1, 2 ** 28);
  expectInteger('height', height, 1, 2 ** 28);
  expectNumber('maxPixels', maxPixels, 1);
  if (width * height <= maxPixels) return { width, height };
  const scale = Math.sqrt(maxPixels / (width * height));
  // A side that would be less than a pixel leaves the other all the pixels.
  if (width * scale < 1) return { width: 1, height: Math.min(height, Math.floor(maxPixels)) };
  if (height * scale < 1) return { width: Math.min(width, Math.floor(maxPixels)), height: 1 };
  return { width: Math.floor(width * scale), height: Math.floor(height * scale) };
}

/**
 * The whole pixels of a crop: its borders go to the nearest pixel border, at least one pixel is left.
 *
 * @param crop fractions of width and height, inside 0..1
 * @returns left, top, width, height in pixels
 * @throws TypeError, RangeError naming the argument
 */
export function cropPixels(
  width: number,
  height: number,
  crop: Crop = { x: 0, y: 0, width: 1, height: 1 },
): { x: number; y: number; width: number; height: number } {
  expectInteger('width', width, 1, 2 ** 28);
  expectInteger('height', height, 1, 2 ** 28);
  expectObject('crop', crop);
  expectNumber('crop.x', crop.x, 0, 1);
  expectNumber('crop.y', crop.y, 0, 1);
  // A sum of two fractions may miss 1 by the last digit.
  expectNumber('crop.width', crop.width, 0, 1 - crop.x + 1e-9);
  expectNumber('crop.height', crop.height, 0, 1 - crop.y + 1e-9);
  const [x, wide] = wholeStretch(crop.x, crop.width, width);
  const [y, high] = wholeStretch(crop.y, crop.height, height);
  return { x, y, width: wide, height: high };
}

function wholeStretch(from: number, length: number, size: number): [start: number, length: number] {
  const start = Math.min(size - 1, Math.round(from * size));
  const end = Math.min(size, Math.max(start + 1, Math.round((from + length) * size)));
  return [start, end - start];
}

/**
 * Reduces a picture by the true area average in linear light: each pixel of the result is the mean of what it covers, pixels
 * covered in part count by their part. Alpha is laid over white in linear light first. The lightness plane
 * is rounded from the averaged light itself, not from the result's bytes, so it may differ by a code from the lightness of `pixels`.
 * Where no side shrinks, pixels and plane are exactly those of the source (`lightnessPlane`).
 *
 * Never enlarges: a target side longer than the source's (or the crop's) is taken as that. Rows are asked for from top to
 * bottom, each once; only those of the crop.
 *
 * @param source where the rows come from; nothing of them is kept
 * @param target the size wanted, whole pixels, at least 1 each ({@link fitWithin})
 * @param crop the part to take, in fractions; its borders go to the nearest pixel ({@link cropPixels})
 * @throws TypeError, RangeError naming the argument, at once; when rows come in a wrong length, later
 */
export function reduceKernel(source: RowSource, target: Size, crop?: Crop): Kernel<Reduced> {
  const given = expectObject('source', source);
  expectInteger('source.width', given.width, 1, 2 ** 26);
  expectInteger('source.height', given.height, 1, 2 ** 26);
  if (typeof given.rows !== 'function') throw wrongType('source.rows', given.rows, 'a function');
  expectObject('target', target);
  expectInteger('target.width', target.width, 1, 2 ** 28);
  expectInteger('target.height', target.height, 1, 2 ** 28);
  const part = cropPixels(source.width, source.height, crop);
  const width = Math.min(target.width, part.width);
  const height = Math.min(target.height, part.height);
  if (width * height > 2 ** 28) {
    throw outOfRange('target', `${width} x ${height}`, 'at most 268435456 pixels');
  }
  return width === part.width && height === part.height
    ? copied(source, part)
    : averaged(source, part, width, height);
}

type Part = ReturnType<typeof cropPixels>;

/** Rows y0..y1 of the source, checked. */
function rowsOf(source: RowSource, y0: number, y1: number): Uint8ClampedArray | Uint8Array {
  const bytes = source.rows(y0, y1);
  if (!(bytes instanceof Uint8Array) && !(bytes instanceof Uint8ClampedArray)) {
    throw wrongType('source.rows()', bytes, 'a Uint8Array or Uint8ClampedArray');
  }
  const expected = 4 * source.width * (y1 - y0);
  if (bytes.length !== expected) throw outOfRange('source.rows()', bytes, `${expected} bytes`);
  return bytes;
}

/** RGBA bytes as little-endian words; copied when they do not lie on a 4-byte border. */
function wordsOf(bytes: Uint8ClampedArray | Uint8Array): Int32Array {
  const even = (bytes.byteOffset & 3) === 0 ? bytes : bytes.slice();
  const words = new Int32Array(even.buffer, even.byteOffset, even.length >> 2);
  return LITTLE_ENDIAN ? words : words.map(swapped);
}

function swapped(word: number): number {
  return (word << 24) | ((word & 0xff00) << 8) | ((word >> 8) & 0xff00) | (word >>> 24);
}

/** The part as it is, laid over white. */
function* copied(source: RowSource, part: Part): Kernel<Reduced> {
  const { x, y, width, height } = part;
  const data = new Uint8ClampedArray(4 * width * height);
  const codes = new Uint8Array(width * height);
  yield* byRows(height, source.width, (from, to) => {
    const rows = rowsOf(source, y + from, y + to);
    for (let row = from; row < to; row++) {
      const at = (row - from) * source.width + x;
      lightnessOfRun(rows, at, codes, row * width, width);
      data.set(rows.subarray(4 * at, 4 * (at + width)), 4 * row * width);
    }
    layOverWhite(data, 4 * from * width, 4 * to * width);
  });
  return {
    pixels: { width, height, data, colorSpace: 'srgb' },
    plane: { width, height, data: codes },
  };
}

function layOverWhite(data: Uint8ClampedArray, from: number, to: number): void {
  for (let i = from; i < to; i += 4) {
    if (data[i + 3] === 255) continue;
    const a = data[i + 3] / 255;
    for (let c = i; c < i + 3; c++) {
      data[c] = stepOf(STEPS_OF_SRGB, unitsOf(a * LINEAR_OF_SRGB[data[c]] + 1 - a));
    }
    data[i + 3] = 255;
  }
}

/**
 * How one side is shared out: `last[i]` is the last source pixel of which result pixel i has a part, `tail[i]` (above 0, at
 * most 1) that part; the rest of it belongs to i + 1. `last` has one entry more, past the end, which is never reached.
 */
interface Shares {
  last: Int32Array;
  tail: Float64Array;
}

function sharesOf(source: number, result: number): Shares {
  const last = new Int32Array(result + 1).fill(source);
  const tail = new Float64Array(result);
  for (let i = 0; i < result; i++) {
    // The border (i + 1) x source / result as a whole number and a remainder, so that no rounding moves it.
    const rest = ((i + 1) * source) % result;
    const whole = ((i + 1) * source - rest) / result;
    last[i] = rest === 0 ? whole - 1 : whole;
    tail[i] = rest === 0 ? 1 : rest / result;
  }
  return { last, tail };
}

function* averaged(source: RowSource, part: Part, width: number, height: number): Kernel<Reduced> {
  const pixels = {
    width,
    height,
    data: new Uint8ClampedArray(4 * width * height),
    colorSpace: 'srgb',
  };
  const plane = { width, height, data: new Uint8Array(width * height) };
  const across = sharesOf(part.width, width);
  const down = sharesOf(part.height, height);
  // Linear light in units of 1 / FULL, divided by the number of source pixels in one of the result: sums are means.
  const share = (FULL * width * height) / (part.width * part.height);
  const light = LINEAR_OF_SRGB.map((linear) => linear * share);
  const line = new Float64Array(3 * width);
  const sums = new Float64Array(3 * width);
  let at = 0;
  yield* byRows(part.height, source.width, (from, to) => {
    const words = wordsOf(rowsOf(source, part.y + from, part.y + to));
    for (let row = from; row < to; row++) {
      const start = (row - from) * source.width + part.x;
      if (row < down.last[at]) {
        sumAcross(words, start, part.width, across, light, 1, sums);
        continue;
      }
      sumAcross(words, start, part.width, across, light, 0, line);
      // The last row of which this row of the result has a part.
      writeRow(sums, line, down.tail[at], pixels.data, plane.data, at * width);
      at++;
    }
  });
  return { pixels, plane };
}

/**
 * The sums of one source row over the pixels of the result: red, green, blue; to each is added `keep` times what is in `line`.
 * All is done inside the one loop: code after it
 * makes V8 leave the optimised loop at each row's end and come back to it, at three times the cost.
 */
function sumAcross(
  words: Int32Array,
  from: number,
  count: number,
  { last, tail }: Shares,
  light: Float64Array,
  keep: number,
  line: Float64Array,
): void {
  const white = light[255];
  let red = 0;
  let green = 0;
  let blue = 0;
  let to = 0;
  let border = last[0];
  for (let i = 0; i < count; i++) {
    const word = words[from + i];
    let r = light[word & 255];
    let g = light[(word >>> 8) & 255];
    let b = light[(word >>> 16) & 255];
    if (word >>> 24 !== 255) {
      const a = (word >>> 24) / 255;
      r = a * r + (1 - a) * white;
      g = a * g + (1 - a) * white;
      b = a * b + (1 - a) * white;
    }
    if (i < border) {
      red += r;
      green += g;
      blue += b;
    } else {
      const here = tail[to];
      const k = 3 * to;
      line[k] = keep * line[k] + (red + here * r);
      line[k + 1] = keep * line[k + 1] + (green + here * g);
      line[k + 2] = keep * line[k + 2] + (blue + here * b);
      red = (1 - here) * r;
      green = (1 - here) * g;
      blue = (1 - here) * b;
      border = last[++to];
    }
  }
}

/** Ends a row of the result with `share` of the source row `line`, writes it, and begins the next with the rest of `line`. */
function writeRow(
  sums: Float64Array,
  line: Float64Array,
  share: number,
  data: Uint8ClampedArray,
  codes: Uint8Array,
  at: number,
): void {
  const rest = 1 - share;
  for (let k = 0, to = at; k < sums.length; k += 3, to++) {
    const red = sums[k] + share * line[k];
    const green = sums[k + 1] + share * line[k + 1];
    const blue = sums[k + 2] + share * line[k + 2];
    const luminance = OF_RED * red + OF_GREEN * green + OF_BLUE * blue;
    data[4 * to] = stepOf(STEPS_OF_SRGB, (red + 0.5) | 0);
    data[4 * to + 1] = stepOf(STEPS_OF_SRGB, (green + 0.5) | 0);
    data[4 * to + 2] = stepOf(STEPS_OF_SRGB, (blue + 0.5) | 0);
    data[4 * to + 3] = 255;
    codes[to] = stepOf(STEPS_OF_LIGHTNESS, (luminance + 0.5) | 0);
    sums[k] = rest * line[k];
    sums[k + 1] = rest * line[k + 1];
    sums[k + 2] = rest * line[k + 2];
  }
}
