import type { Lightness, Pixels } from '../base/types.js';
import { expectNumber, expectObject, expectRaster } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import {
  byteOfLinear,
  LINEAR_OF_SRGB,
  lightnessOfLuminance,
  luminanceOfLightness,
} from '../colour/index.js';
import { expectPixels } from '../picture/lightness.js';
import { codeOfLightness, smallestSeenMm } from '../units/index.js';
import { overWhite } from './alpha.js';
import { stage } from './stage.js';

export interface StepBackOptions {
  /** Pixels of the picture for each millimetre of the paper, more than 0. */
  pxPerMm: number;
  /** From the eye to the paper, in metres, at least 0. */
  distance: number;
  /** Decimal acuity (ISO 8596), 0.01..10; 1 by default. */
  acuity?: number;
}

/**
 * A box of odd length whose two outermost samples count in part; three of them in a row stand for a
 * Gaussian.
 */
interface Box {
  radius: number;
  /** Weight of each of the `2 radius + 1` inner samples. */
  inner: number;
  /** Weight of each of the two outer ones. */
  outer: number;
}

/** Full width at half maximum of a Gaussian, in standard deviations: 2 sqrt(2 ln 2). */
const FWHM = 2 * Math.sqrt(2 * Math.LN2);

/**
 * The extended box (Gwosdek, Grewenig, Bruhn & Weickert 2011, "Theoretical foundations of Gaussian
 * convolution by extended box filtering") of a third of the variance, so that three in a row have
 * exactly the wanted one.
 */
function boxOf(sigma: number): Box {
  const variance = (sigma * sigma) / 3;
  const radius = Math.floor((Math.sqrt(12 * variance + 1) - 1) / 2);
  const length = 2 * radius + 1;
  const part =
    (length * (radius * (radius + 1) - 3 * variance)) /
    (6 * (variance - (radius + 1) * (radius + 1)));
  const inner = 1 / (length + 2 * part);
  return { radius, inner, outer: part * inner };
}

/**
 * One pass over a row that has `radius + 1` samples of margin on either side; the margin repeats
 * the border.
 */
function boxRow(source: Float64Array, target: Float64Array, width: number, box: Box): void {
  const { radius, inner, outer } = box;
  const margin = radius + 1;
  source.fill(source[margin], 0, margin);
  source.fill(source[margin + width - 1], margin + width, width + 2 * margin);
  let sum = 0;
  for (let k = 1; k < 2 * margin; k++) sum += source[k];
  const reach = 2 * margin;
  for (let x = 0; x < width; x++) {
    target[margin + x] = inner * sum + outer * (source[x] + source[x + reach]);
    sum += source[x + reach] - source[x + 1];
  }
}

/**
 * Rows of one block that are turned together, so that the turned picture is written in short runs.
 */
const BLOCK = 16;

/** Blurs the rows `from..to` and writes them as columns of `target` (`height` wide). */
function blurTurned(
  source: Float32Array,
  target: Float32Array,
  width: number,
  height: number,
  from: number,
  to: number,
  box: Box,
): void {
  const margin = box.radius + 1;
  const one = new Float64Array(width + 2 * margin);
  const two = new Float64Array(width + 2 * margin);
  const block = new Float32Array(BLOCK * width);
  for (let top = from; top < to; top += BLOCK) {
    const rows = Math.min(BLOCK, to - top);
    for (let r = 0; r < rows; r++) {
      const start = (top + r) * width;
      for (let x = 0; x < width; x++) one[margin + x] = source[start + x];
      boxRow(one, two, width, box);
      boxRow(two, one, width, box);
      boxRow(one, two, width, box);
      for (let x = 0; x < width; x++) block[r * width + x] = two[margin + x];
    }
    for (let x = 0; x < width; x++) {
      for (let r = 0; r < rows; r++) target[x * height + top + r] = block[r * width + x];
    }
  }
}

/** The Gaussian blur of a plane, in place; the border is repeated outward. */
function* blurKernel(values: Float32Array, width: number, height: number, box: Box): Kernel<void> {
  const turned = new Float32Array(values.length);
  yield* stage(
    byRows(height, width, (a, b) => blurTurned(values, turned, width, height, a, b, box)),
    0,
    0.5,
  );
  yield* stage(
    byRows(width, height, (a, b) => blurTurned(turned, values, height, width, a, b, box)),
    0.5,
    1,
  );
}

/** Steps of linear light in the tables back to 8 bits: 19 a code where codes lie closest. */
const STEPS = 65535;

function tableOf(value: (linear: number) => number): Uint8Array {
  const table = new Uint8Array(STEPS + 1);
  for (let i = 0; i <= STEPS; i++) table[i] = value(i / STEPS);
  return table;
}

function lookUp(
  source: Uint8Array | Uint8ClampedArray,
  table: Float64Array,
  out: Float32Array,
  from: number,
  to: number,
): void {
  for (let i = from; i < to; i++) out[i] = table[source[i]];
}

/** Writes values as bytes, `step` apart, the first at `first`. */
function writeBack(
  values: Float32Array,
  table: Uint8Array,
  out: Uint8Array | Uint8ClampedArray,
  first: number,
  step: number,
  from: number,
  to: number,
): void {
  for (let i = from, k = first + step * from; i < to; i++, k += step) {
    out[k] = table[Math.min(STEPS, (values[i] * STEPS + 0.5) | 0)];
  }
}

/** The box for the options, or null when the eye resolves every pixel. */
function boxFor(options: StepBackOptions): Box | null {
  expectObject('options', options);
  const scale = expectNumber('options.pxPerMm', options.pxPerMm, Number.MIN_VALUE);
  const gap = smallestSeenMm(options.distance, options.acuity ?? 1) * scale;
  return gap < 1 ? null : boxOf(Math.min(gap, 1e5) / FWHM);
}

/** {@link stepBack} in slices. */
export function* stepBackKernel(plane: Lightness, options: StepBackOptions): Kernel<Lightness> {
  expectRaster('plane', plane, 1);
  const box = boxFor(options);
  const { width, height } = plane;
  if (box === null) return { width, height, data: plane.data.slice() };
  const light = Float64Array.from({ length: 256 }, (_, code) =>
    luminanceOfLightness((20 * code) / 51),
  );
  const values = new Float32Array(width * height);
  const table = tableOf((y) => codeOfLightness(lightnessOfLuminance(y)));
  yield* stage(
    byRows(height, width, (a, b) => lookUp(plane.data, light, values, a * width, b * width)),
    0,
    0.1,
  );
  yield* stage(blurKernel(values, width, height, box), 0.1, 0.9);
  const data = new Uint8Array(width * height);
  yield* stage(
    byRows(height, width, (a, b) => writeBack(values, table, data, 0, 1, a * width, b * width)),
    0.9,
    1,
  );
  return { width, height, data };
}

/**
 * What an eye resolves of a plane from a distance: a Gaussian blur in linear light whose full width
 * at half maximum is the smallest gap seen (ISO 8596, {@link smallestSeenMm}); three extended boxes
 * stand for the Gaussian. A gap under a pixel leaves the plane as it is.
 */
export function stepBack(plane: Lightness, options: StepBackOptions): Lightness {
  return finish(stepBackKernel(plane, options));
}

/** {@link stepBackPixels} in slices. */
export function* stepBackPixelsKernel(pixels: Pixels, options: StepBackOptions): Kernel<Pixels> {
  expectPixels('pixels', pixels);
  const box = boxFor(options);
  const { width, height } = pixels;
  if (box === null) return { width, height, data: new Uint8ClampedArray(pixels.data) };
  const table = tableOf(byteOfLinear);
  const bytes = new Uint8Array(width * height);
  const values = new Float32Array(width * height);
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let channel = 0; channel < 3; channel++) {
    const start = channel / 3;
    yield* stage(
      byRows(height, width, (a, b) => {
        overWhite(pixels.data, channel, bytes, a * width, b * width);
        lookUp(bytes, LINEAR_OF_SRGB, values, a * width, b * width);
      }),
      start,
      start + 0.04,
    );
    yield* stage(blurKernel(values, width, height, box), start + 0.04, start + 0.3);
    yield* stage(
      byRows(height, width, (a, b) =>
        writeBack(values, table, data, channel, 4, a * width, b * width),
      ),
      start + 0.3,
      (channel + 1) / 3,
    );
  }
  return { width, height, data };
}

/**
 * {@link stepBack} of a colour picture, each channel in linear light.
 * @returns an opaque picture (alpha is laid over white); a copy when the gap is under a pixel
 */
export function stepBackPixels(pixels: Pixels, options: StepBackOptions): Pixels {
  return finish(stepBackPixelsKernel(pixels, options));
}
