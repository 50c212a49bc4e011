import type { Lightness, Pixels } from '../base/types.js';
import { expectNumber, expectObject, expectRaster, outOfRange } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import { byteOfLinear, luminanceOfLightness } from '../colour/index.js';
import { expectPixels } from '../picture/lightness.js';
import { histogramOf, medianOf } from './histogram.js';
import { overWhite } from './alpha.js';
import { stage } from './stage.js';

export interface SquintOptions {
  /** How nearly shut the eye is: 0 leaves the picture as it is, 1 is the strongest. */
  amount: number;
  /** The brush's width in pixels of the picture, at least 0: detail under it is merged. */
  brushPx: number;
}

/** How far contrast is drawn toward the median at amount 1 (our own choice). */
const COMPRESSION = 0.35;
/** The standard deviation inside the window, in codes, that amount 1 takes for detail and merges half (our own choice). */
const DETAIL = 40;

interface Settings {
  radius: number;
  epsilon: number;
  keep: number;
}

function settingsOf(options: SquintOptions): Settings & { amount: number } {
  expectObject('options', options);
  const amount = expectNumber('options.amount', options.amount, 0, 1);
  const brush = expectNumber('options.brushPx', options.brushPx, 0, 1e5);
  return {
    amount,
    radius: Math.max(1, Math.round(brush / 2)),
    epsilon: Math.max(1e-6, (DETAIL * amount) ** 2),
    keep: 1 - COMPRESSION * amount,
  };
}

/** Adds a row to the column sums of the guide, its square, the channel and their product, or takes it away (sign -1). */
function addRow(
  guide: Uint8Array,
  channel: Uint8Array,
  start: number,
  width: number,
  sign: number,
  sums: Float64Array,
): void {
  for (let x = 0, k = 0; x < width; x++, k += 4) {
    const i = sign * guide[start + x];
    const p = channel[start + x];
    sums[k] += i;
    sums[k + 1] += i * guide[start + x];
    sums[k + 2] += sign * p;
    sums[k + 3] += i * p;
  }
}

/** The same for the plane that guides itself: its sum and its square's. */
function addOwnRow(
  guide: Uint8Array,
  start: number,
  width: number,
  sign: number,
  sums: Float64Array,
): void {
  for (let x = 0, k = 0; x < width; x++, k += 2) {
    const i = guide[start + x];
    sums[k] += sign * i;
    sums[k + 1] += sign * i * i;
  }
}

/** One row of the line `a I + b` that fits the channel to the guide in each window. */
function fitRow(
  sums: Float64Array,
  width: number,
  radius: number,
  rows: number,
  epsilon: number,
  start: number,
  slope: Float32Array,
  offset: Float32Array,
): void {
  let si = 0;
  let sii = 0;
  let sp = 0;
  let sip = 0;
  for (let x = 0; x < Math.min(radius, width); x++) {
    si += sums[4 * x];
    sii += sums[4 * x + 1];
    sp += sums[4 * x + 2];
    sip += sums[4 * x + 3];
  }
  for (let x = 0; x < width; x++) {
    const enter = x + radius;
    if (enter < width) {
      si += sums[4 * enter];
      sii += sums[4 * enter + 1];
      sp += sums[4 * enter + 2];
      sip += sums[4 * enter + 3];
    }
    const leave = x - radius - 1;
    if (leave >= 0) {
      si -= sums[4 * leave];
      sii -= sums[4 * leave + 1];
      sp -= sums[4 * leave + 2];
      sip -= sums[4 * leave + 3];
    }
    const n = rows * ((enter < width ? enter : width - 1) - (leave < 0 ? 0 : leave + 1) + 1);
    const meanI = si / n;
    const meanP = sp / n;
    const a = (sip / n - meanI * meanP) / (sii / n - meanI * meanI + epsilon);
    slope[start + x] = a;
    offset[start + x] = meanP - a * meanI;
  }
}

/** {@link fitRow} for the plane that guides itself. */
function fitOwnRow(
  sums: Float64Array,
  width: number,
  radius: number,
  rows: number,
  epsilon: number,
  start: number,
  slope: Float32Array,
  offset: Float32Array,
): void {
  let si = 0;
  let sii = 0;
  for (let x = 0; x < Math.min(radius, width); x++) {
    si += sums[2 * x];
    sii += sums[2 * x + 1];
  }
  for (let x = 0; x < width; x++) {
    const enter = x + radius;
    if (enter < width) {
      si += sums[2 * enter];
      sii += sums[2 * enter + 1];
    }
    const leave = x - radius - 1;
    if (leave >= 0) {
      si -= sums[2 * leave];
      sii -= sums[2 * leave + 1];
    }
    const n = rows * ((enter < width ? enter : width - 1) - (leave < 0 ? 0 : leave + 1) + 1);
    const mean = si / n;
    const variance = Math.max(0, sii / n - mean * mean);
    const a = variance / (variance + epsilon);
    slope[start + x] = a;
    offset[start + x] = (1 - a) * mean;
  }
}

/** Adds a row of the fitted lines to the column sums. */
function addLines(
  slope: Float32Array,
  offset: Float32Array,
  start: number,
  width: number,
  sign: number,
  sums: Float64Array,
): void {
  for (let x = 0, k = 0; x < width; x++, k += 2) {
    sums[k] += sign * slope[start + x];
    sums[k + 1] += sign * offset[start + x];
  }
}

/** One row of the result: the mean line of the windows around each pixel, at the guide's code. */
function lineRow(
  sums: Float64Array,
  guide: Uint8Array,
  width: number,
  radius: number,
  rows: number,
  start: number,
  out: Float32Array,
): void {
  let sa = 0;
  let sb = 0;
  for (let x = 0; x < Math.min(radius, width); x++) {
    sa += sums[2 * x];
    sb += sums[2 * x + 1];
  }
  for (let x = 0; x < width; x++) {
    const enter = x + radius;
    if (enter < width) {
      sa += sums[2 * enter];
      sb += sums[2 * enter + 1];
    }
    const leave = x - radius - 1;
    if (leave >= 0) {
      sa -= sums[2 * leave];
      sb -= sums[2 * leave + 1];
    }
    const n = rows * ((enter < width ? enter : width - 1) - (leave < 0 ? 0 : leave + 1) + 1);
    out[start + x] = (sa * guide[start + x] + sb) / n;
  }
}

/**
 * The guided filter (He, Sun & Tang 2010, "Guided image filtering"): in each window the channel is fitted by a line of the guide,
 * `a = cov(I, p) / (var(I) + epsilon)`, `b = mean(p) - a mean(I)`; a pixel takes the mean line of the windows it lies in. Windows are cut
 * at the picture's border. Running sums: the time does not grow with the radius.
 * @param channel the plane to smooth; the guide itself when left out
 */
function* guidedKernel(
  guide: Uint8Array,
  channel: Uint8Array | undefined,
  width: number,
  height: number,
  { radius, epsilon }: Settings,
): Kernel<Float32Array> {
  const slope = new Float32Array(width * height);
  const offset = new Float32Array(width * height);
  const out = new Float32Array(width * height);
  const sums = new Float64Array(width * (channel ? 4 : 2));
  const add = (y: number, sign: number): void => {
    if (channel) addRow(guide, channel, y * width, width, sign, sums);
    else addOwnRow(guide, y * width, width, sign, sums);
  };
  const fit = channel ? fitRow : fitOwnRow;
  const top = Math.min(radius, height);
  for (let y = 0; y < top; y++) add(y, 1);
  yield* stage(
    byRows(height, width, (from, to) => {
      for (let y = from; y < to; y++) {
        if (y + radius < height) add(y + radius, 1);
        if (y - radius - 1 >= 0) add(y - radius - 1, -1);
        const rows = Math.min(height - 1, y + radius) - Math.max(0, y - radius) + 1;
        fit(sums, width, radius, rows, epsilon, y * width, slope, offset);
      }
    }),
    0,
    0.6,
  );
  const lines = new Float64Array(width * 2);
  for (let y = 0; y < top; y++) addLines(slope, offset, y * width, width, 1, lines);
  yield* stage(
    byRows(height, width, (from, to) => {
      for (let y = from; y < to; y++) {
        const enter = y + radius;
        const leave = y - radius - 1;
        if (enter < height) addLines(slope, offset, enter * width, width, 1, lines);
        if (leave >= 0) addLines(slope, offset, leave * width, width, -1, lines);
        const rows = Math.min(height - 1, enter) - Math.max(0, leave + 1) + 1;
        lineRow(lines, guide, width, radius, rows, y * width, out);
      }
    }),
    0.6,
    1,
  );
  return out;
}

/** Draws codes toward the median and rounds them. */
function compress(smooth: Float32Array, median: number, keep: number, out: Uint8Array): void {
  const shift = median * (1 - keep) + 0.5;
  for (let i = 0; i < smooth.length; i++) {
    const code = keep * smooth[i] + shift;
    out[i] = code <= 0 ? 0 : code >= 255 ? 255 : code;
  }
}

/** {@link squint} in slices. */
export function* squintKernel(plane: Lightness, options: SquintOptions): Kernel<Lightness> {
  expectRaster('plane', plane, 1);
  const settings = settingsOf(options);
  const { width, height } = plane;
  if (settings.amount === 0) return { width, height, data: plane.data.slice() };
  const median = medianOf(histogramOf(plane));
  const smooth = yield* guidedKernel(plane.data, undefined, width, height, settings);
  const data = new Uint8Array(width * height);
  compress(smooth, median, settings.keep, data);
  return { width, height, data };
}

/**
 * What a squinting eye keeps of a plane: detail under the brush merges while strong edges stay in their place (the guided filter with
 * the plane as its own guide, its window as wide as the brush), and contrast is drawn toward the median. No new extremes
 * arise; a flat plane stays as it is; amount 0 gives a copy.
 */
export function squint(plane: Lightness, options: SquintOptions): Lightness {
  return finish(squintKernel(plane, options));
}

/** The grey byte of each code. */
function greyBytes(): Uint8Array {
  return Uint8Array.from({ length: 256 }, (_, code) =>
    byteOfLinear(luminanceOfLightness((20 * code) / 51)),
  );
}

/** Writes a smoothed channel, moved by as much as the grey of its pixel moves when contrast is drawn to the median. */
function writeChannel(
  smooth: Float32Array,
  codes: Float32Array,
  moves: Float32Array,
  offset: number,
  out: Uint8ClampedArray,
): void {
  for (let i = 0, k = offset; i < smooth.length; i++, k += 4) {
    out[k] = smooth[i] + moves[(codes[i] + 0.5) | 0];
  }
}

/**
 * {@link squintPixels} in slices.
 * @throws {RangeError} a plane that is not of the picture's size
 */
export function* squintPixelsKernel(
  pixels: Pixels,
  plane: Lightness,
  options: SquintOptions,
): Kernel<{ pixels: Pixels; plane: Lightness }> {
  expectPixels('pixels', pixels);
  expectRaster('plane', plane, 1);
  const settings = settingsOf(options);
  const { width, height } = pixels;
  if (plane.width !== width || plane.height !== height) {
    throw outOfRange(
      'plane',
      `${plane.width} x ${plane.height}`,
      `the picture's ${width} x ${height}`,
    );
  }
  if (settings.amount === 0) {
    const data = new Uint8ClampedArray(pixels.data);
    return { pixels: { width, height, data }, plane: { width, height, data: plane.data.slice() } };
  }
  const median = medianOf(histogramOf(plane));
  const codes = yield* stage(guidedKernel(plane.data, undefined, width, height, settings), 0, 0.2);
  const data = new Uint8Array(width * height);
  compress(codes, median, settings.keep, data);

  const greys = greyBytes();
  const moves = new Float32Array(256);
  for (let code = 0; code < 256; code++) {
    moves[code] = greys[Math.floor(median + settings.keep * (code - median) + 0.5)] - greys[code];
  }
  const out = new Uint8ClampedArray(width * height * 4).fill(255);
  const channel = new Uint8Array(width * height);
  for (let c = 0; c < 3; c++) {
    overWhite(pixels.data, c, channel);
    const smooth = yield* stage(
      guidedKernel(plane.data, channel, width, height, settings),
      0.2 + 0.8 * (c / 3),
      0.2 + 0.8 * ((c + 1) / 3),
    );
    writeChannel(smooth, codes, moves, c, out);
  }
  return { pixels: { width, height, data: out }, plane: { width, height, data } };
}

/**
 * The squint of a colour picture and of its plane: each channel is merged by the guided filter with the lightness as its guide, so
 * that colours flow together where values do, and moves with its grey when contrast is drawn to the median.
 * @param plane the lightness of the picture, or the same with the painter's corrections
 * @returns an opaque picture (alpha is laid over white) and the squint of the plane
 */
export function squintPixels(
  pixels: Pixels,
  plane: Lightness,
  options: SquintOptions,
): { pixels: Pixels; plane: Lightness } {
  return finish(squintPixelsKernel(pixels, plane, options));
}
