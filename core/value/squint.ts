import type { Lightness, Pixels } from '../base/types.js';
import { expectNumber, expectObject, expectRaster, outOfRange } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import { byteOfLinear, luminanceOfLightness } from '../colour/index.js';
import { expectPixels, lightnessKernel } from '../picture/lightness.js';
import { overWhite } from './alpha.js';
import { guidedKernel } from './guided.js';
import { histogramOf, medianOf } from './histogram.js';
import { medianKernel } from './median.js';
import { stage } from './stage.js';

export interface SquintOptions {
  /** How nearly shut the eye is: 0 leaves the picture as it is, 1 is the strongest. */
  amount: number;
  /** The brush's width in pixels of the picture, at least 0: detail under it is merged. */
  brushPx: number;
}

/** How far contrast is drawn toward the median at amount 1 (our own choice). */
const COMPRESSION = 0.35;
/** The standard deviation in a window, in codes, that amount 1 merges half (our own choice). */
const DETAIL = 32;
/** Half the window of the median at amount 1, in brush widths (our own choice). */
const MERGED = 0.25;

interface Settings {
  amount: number;
  /** Half the window of the guided filter. */
  radius: number;
  /** Half the window of the median. */
  merged: number;
  epsilon: number;
  /** What is left of the contrast. */
  keep: number;
}

function settingsOf(options: SquintOptions): Settings {
  expectObject('options', options);
  const amount = expectNumber('options.amount', options.amount, 0, 1);
  const brush = expectNumber('options.brushPx', options.brushPx, 0, 1e5);
  return {
    amount,
    radius: Math.max(1, Math.round(brush / 2)),
    merged: Math.round(MERGED * brush * amount),
    epsilon: Math.max(1e-6, (DETAIL * amount) ** 2),
    keep: 1 - COMPRESSION * amount,
  };
}

/**
 * The plane without detail that the brush cannot state (the guide), and the squint of the plane.
 */
interface Merged {
  guide: Uint8Array;
  squinted: Uint8Array;
}

/**
 * The median takes out what is smaller than about half the brush, however strong; the guided filter
 * with that as its own guide smooths what is weak and leaves strong edges. Both only ever take
 * means or members of what is there, so the codes stay within those of the plane.
 */
function* mergeKernel(plane: Lightness, settings: Settings): Kernel<Merged> {
  const { width, height } = plane;
  const { radius, merged, epsilon } = settings;
  const data = plane.data instanceof Uint8Array ? plane.data : new Uint8Array(plane.data);
  const guide = yield* stage(medianKernel(data, width, height, merged), 0, 0.6);
  const smooth = yield* stage(
    guidedKernel(guide, guide, width, height, radius, epsilon),
    0.6,
    0.95,
  );
  const drawn = drawnTo(medianOf(histogramOf(plane)), settings.keep);
  const squinted = new Uint8Array(width * height);
  yield* stage(
    byRows(height, width, (from, to) =>
      translate(smooth, drawn, squinted, from * width, to * width),
    ),
    0.95,
    1,
  );
  return { guide, squinted };
}

/** Each code drawn toward the median. */
function drawnTo(median: number, keep: number): Uint8Array {
  return Uint8Array.from({ length: 256 }, (_, code) => Math.round(median + keep * (code - median)));
}

/** Rounds to codes and looks them up. */
function translate(
  values: Float32Array,
  table: Uint8Array,
  out: Uint8Array,
  from: number,
  to: number,
): void {
  for (let i = from; i < to; i++) out[i] = table[(values[i] + 0.5) | 0];
}

/** {@link squint} in slices. */
export function* squintKernel(plane: Lightness, options: SquintOptions): Kernel<Lightness> {
  expectRaster('plane', plane, 1);
  const settings = settingsOf(options);
  const { width, height } = plane;
  if (settings.amount === 0) return { width, height, data: new Uint8Array(plane.data) };
  const { squinted } = yield* mergeKernel(plane, settings);
  return { width, height, data: squinted };
}

/**
 * What a squinting eye keeps of a plane: detail under the brush merges while the edges of larger
 * shapes keep their place, and contrast is drawn toward the median. No code outside those of the
 * plane arises; a flat plane stays as it is; amount 0 gives a copy.
 */
export function squint(plane: Lightness, options: SquintOptions): Lightness {
  return finish(squintKernel(plane, options));
}

/** The 8-bit grey of each code. */
function greys(): Uint8Array {
  return Uint8Array.from({ length: 256 }, (_, code) =>
    byteOfLinear(luminanceOfLightness((20 * code) / 51)),
  );
}

function writeChannel(
  values: Float32Array,
  channel: number,
  rgba: Uint8ClampedArray,
  from: number,
  to: number,
): void {
  for (let i = from, k = 4 * from + channel; i < to; i++, k += 4) rgba[k] = values[i];
}

/**
 * Moves each pixel by as much as a grey moves from the lightness it has to the one it shall have.
 */
function moveTo(
  rgba: Uint8ClampedArray,
  has: Uint8Array,
  wanted: Uint8Array,
  grey: Uint8Array,
  from: number,
  to: number,
): void {
  for (let i = from, k = 4 * from; i < to; i++, k += 4) {
    const move = grey[wanted[i]] - grey[has[i]];
    rgba[k] += move;
    rgba[k + 1] += move;
    rgba[k + 2] += move;
  }
}

/** {@link squintPixels} in slices. */
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
    return {
      pixels: { width, height, data: new Uint8ClampedArray(pixels.data) },
      plane: { width, height, data: new Uint8Array(plane.data) },
    };
  }
  const { guide, squinted } = yield* stage(mergeKernel(plane, settings), 0, 0.4);
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  const channel = new Uint8Array(width * height);
  for (let c = 0; c < 3; c++) {
    const start = 0.4 + 0.18 * c;
    yield* stage(
      byRows(height, width, (from, to) =>
        overWhite(pixels.data, c, channel, from * width, to * width),
      ),
      start,
      start + 0.02,
    );
    const values = yield* stage(
      guidedKernel(guide, channel, width, height, settings.radius, settings.epsilon),
      start + 0.02,
      start + 0.16,
    );
    yield* stage(
      byRows(height, width, (from, to) => writeChannel(values, c, data, from * width, to * width)),
      start + 0.16,
      start + 0.18,
    );
  }
  const seen = { width, height, data };
  const has = yield* stage(lightnessKernel(seen), 0.94, 0.98);
  const grey = greys();
  yield* stage(
    byRows(height, width, (from, to) =>
      moveTo(data, has.data, squinted, grey, from * width, to * width),
    ),
    0.98,
    1,
  );
  return { pixels: seen, plane: { width, height, data: squinted } };
}

/**
 * The squint of a colour picture and of its plane: each channel is merged by the guided filter with
 * the merged lightness as its guide, so that colours flow together where values do; then each pixel
 * is moved, all channels alike, to the lightness of the squinted plane (a strong colour comes near
 * it only).
 * @param plane the lightness of the picture, or the same with the painter's corrections; of the
 * picture's size
 * @returns an opaque picture (alpha is laid over white; amount 0 gives a copy as it is) and the
 * {@link squint} of the plane
 * @throws {RangeError} a plane of another size
 */
export function squintPixels(
  pixels: Pixels,
  plane: Lightness,
  options: SquintOptions,
): { pixels: Pixels; plane: Lightness } {
  return finish(squintPixelsKernel(pixels, plane, options));
}
