import type { BandMap, Lightness } from '../base/types.js';
import { expectInteger, expectRaster } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import { expectThresholds } from './histogram.js';

/** The band of every code: the number of thresholds below it. */
function bandTable(thresholds: readonly number[]): Uint8Array {
  const table = new Uint8Array(256);
  let band = 0;
  for (let code = 0; code < 256; code++) {
    while (band < thresholds.length && code > thresholds[band]) band++;
    table[code] = band;
  }
  return table;
}

/** Four pixels a word: one load and one store for four looks into the table. */
function translateWords(
  codes: Uint32Array,
  table: Uint8Array,
  out: Uint32Array,
  from: number,
  to: number,
): void {
  for (let i = from; i < to; i++) {
    const word = codes[i];
    out[i] =
      table[word & 255] |
      (table[(word >>> 8) & 255] << 8) |
      (table[(word >>> 16) & 255] << 16) |
      (table[word >>> 24] << 24);
  }
}

function translate(
  codes: Uint8Array | Uint8ClampedArray,
  table: Uint8Array,
  out: Uint8Array,
  from: number,
  to: number,
): void {
  let i = from;
  if (codes.byteOffset % 4 === 0) {
    for (; i < to && i % 4 !== 0; i++) out[i] = table[codes[i]];
    const words = new Uint32Array(codes.buffer, codes.byteOffset, codes.length >>> 2);
    const target = new Uint32Array(out.buffer, out.byteOffset, out.length >>> 2);
    const end = Math.max(i, to & ~3);
    translateWords(words, table, target, i >>> 2, end >>> 2);
    i = end;
  }
  for (; i < to; i++) out[i] = table[codes[i]];
}

/**
 * {@link bandsOf} in slices.
 * @returns the band map; progress between runs of rows
 */
export function* bandsKernel(plane: Lightness, thresholds: number[]): Kernel<BandMap> {
  expectRaster('plane', plane, 1);
  const table = bandTable(expectThresholds(thresholds));
  const { width, height, data } = plane;
  const out = new Uint8Array(width * height);
  yield* byRows(
    height,
    width,
    (from, to) => translate(data, table, out, from * width, to * width),
    1 << 20,
  );
  return { width, height, bands: thresholds.length + 1, data: out };
}

/**
 * The band of every pixel: the number of thresholds t with code > t.
 * @param thresholds 1..254 codes, whole, 0..254, strictly rising
 * @returns a map of `thresholds.length + 1` bands, 0 the darkest
 * @throws {RangeError} thresholds that do not rise or lie outside 0..254
 */
export function bandsOf(plane: Lightness, thresholds: number[]): BandMap {
  return finish(bandsKernel(plane, thresholds));
}

/**
 * The share of each band in a map.
 * @returns `map.bands` fractions, darkest first, sum 1
 */
export function sharesOf(map: BandMap): number[] {
  expectRaster('map', map, 1);
  const bands = expectInteger('map.bands', map.bands, 1, 255);
  const counts = new Uint32Array(256);
  const { data } = map;
  for (let i = 0; i < data.length; i++) counts[data[i]]++;
  const shares = new Array<number>(bands);
  for (let band = 0; band < bands; band++) shares[band] = counts[band] / data.length;
  for (let band = bands; band < 256; band++) {
    if (counts[band] > 0) expectInteger('map.data', band, 0, bands - 1);
  }
  return shares;
}
