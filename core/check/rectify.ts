import { expectInteger, expectNumber, expectObject, outOfRange } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import { LINEAR_OF_SRGB } from '../colour/index.js';
import { expectCorners, homographyOf, type Homography } from '../geometry/index.js';
import { FULL, STEPS_OF_SRGB, stepOf } from '../picture/light.js';
import { expectPixels, LITTLE_ENDIAN } from '../picture/lightness.js';
import type { Corners, Pixels } from '../base/types.js';

interface Size {
  width: number;
  height: number;
}

/** The corners of a whole raster. */
export function cornersOf({ width, height }: Size): Corners {
  return [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ];
}

/**
 * A sheet seen at a slant, brought upright: what lies between the corners fills a picture of the size asked for.
 *
 * Light is averaged linearly (IEC 61966-2-1 undone and done again). Where the result is about as fine as the source or finer,
 * each pixel is read at its middle between the four nearest (bilinear); where it is coarser, it is the
 * mean of a grid of such readings, about one for each source pixel it covers. Alpha is laid over white first. Beyond
 * the picture its border is repeated.
 *
 * Corners are pixel coordinates whose pixel (i, j) covers i..i+1: those of the whole picture are
 * (0, 0), (width, 0), (width, height), (0, height), and then the same size gives the same picture. Corners in order the other
 * way round give the sheet mirrored.
 *
 * @param corners top left, top right, bottom right, bottom left of the sheet as it is read; each at most the picture's
 *   longer side outside the picture
 * @param size whole pixels, 1..16384 each, together at most 2^26
 * @returns opaque sRGB
 * @throws TypeError, RangeError naming the argument: crossed corners, three on one line, a dent
 */
export function rectify(pixels: Pixels, corners: Corners, size: Size): Pixels {
  return finish(rectifyKernel(pixels, corners, size));
}

/** {@link rectify} in slices. The pixels must not change until it is done. */
export function rectifyKernel(pixels: Pixels, corners: Corners, size: Size): Kernel<Pixels> {
  expectPixels('pixels', pixels);
  expectCorners('corners', corners);
  expectObject('size', size);
  const width = expectInteger('size.width', size.width, 1, 16384);
  const height = expectInteger('size.height', size.height, 1, 16384);
  if (width * height > 2 ** 26)
    throw outOfRange('size', `${width} x ${height}`, 'at most 67108864 pixels');
  const reach = Math.max(pixels.width, pixels.height);
  corners.forEach(([x, y], i) => {
    expectNumber(`corners[${i}][0]`, x, -reach, pixels.width + reach);
    expectNumber(`corners[${i}][1]`, y, -reach, pixels.height + reach);
  });
  return warpKernel(pixels, homographyOf(cornersOf({ width, height }), corners), { width, height });
}

/** How much coarser a pixel may be than the source and still be read once, at its middle. */
const ONCE = 1.25;

/** A picture each of whose pixels is read where `map` takes it in the source; see {@link rectify}. */
export function* warpKernel(pixels: Pixels, map: Homography, size: Size): Kernel<Pixels> {
  const { width, height } = size;
  const data = new Uint8ClampedArray(4 * width * height);
  const words = wordsOf(pixels.data);
  yield* byRows(
    height,
    Math.max(width, (pixels.width * pixels.height) / height),
    (from, to) => warpRows(pixels, words, map, width, data, from, to),
    1 << 17,
  );
  return { width, height, data, colorSpace: 'srgb' };
}

/** Pixels of a row for which one look at the map's scale will do. */
const RUN = 16;

function warpRows(
  source: Size,
  words: Uint32Array,
  map: Homography,
  width: number,
  out: Uint8ClampedArray,
  from: number,
  to: number,
): void {
  const [a, b, c, d, e, f, g, h, i] = map;
  const longest = Math.max(source.width, source.height);
  for (let y = from; y < to; y++)
    for (let x = 0; x < width; x += RUN) {
      const end = Math.min(width, x + RUN);
      // How far the source goes on for one pixel to the right and one down, in the middle of the run.
      const u = (x + end) / 2;
      const v = y + 0.5;
      const w = 1 / (g * u + h * v + i);
      const sx = (a * u + b * v + c) * w;
      const sy = (d * u + e * v + f) * w;
      const stepX = Math.hypot((a - g * sx) * w, (d - g * sy) * w);
      const stepY = Math.hypot((b - h * sx) * w, (e - h * sy) * w);
      const nx = stepX <= ONCE ? 1 : Math.min(longest, Math.ceil(stepX));
      const ny = stepY <= ONCE ? 1 : Math.min(longest, Math.ceil(stepY));
      warpRun(source, words, map, out, 4 * width * y, x, end, y, nx, ny);
    }
}

/** The pixels `x..end` of a row, each the mean of nx x ny readings. */
function warpRun(
  { width: across, height: down }: Size,
  words: Uint32Array,
  map: Homography,
  out: Uint8ClampedArray,
  start: number,
  first: number,
  end: number,
  y: number,
  nx: number,
  ny: number,
): void {
  const light = LIGHT;
  const [a, b, c, d, e, f, g, h, i] = map;
  const right = across - 1;
  const bottom = down - 1;
  const share = 1 / (nx * ny);
  for (let x = first, k = start + 4 * first; x < end; x++, k += 4) {
    let red = 0;
    let green = 0;
    let blue = 0;
    for (let q = 0; q < ny; q++) {
      const v = y + (q + 0.5) / ny;
      for (let p = 0; p < nx; p++) {
        const u = x + (p + 0.5) / nx;
        const w = 1 / (g * u + h * v + i);
        let px = (a * u + b * v + c) * w - 0.5;
        let py = (d * u + e * v + f) * w - 0.5;
        px = px < 0 ? 0 : px > right ? right : px;
        py = py < 0 ? 0 : py > bottom ? bottom : py;
        const x0 = px | 0;
        const y0 = py | 0;
        const fx = px - x0;
        const fy = py - y0;
        const at = y0 * across + x0;
        const beside = x0 < right ? 1 : 0;
        const below = y0 < bottom ? across : 0;
        const p00 = words[at];
        const p01 = words[at + beside];
        const p10 = words[at + below];
        const p11 = words[at + below + beside];
        const w11 = fx * fy;
        const w01 = fx - w11;
        const w10 = fy - w11;
        const w00 = 1 - fx - w10;
        if ((p00 & p01 & p10 & p11) >>> 24 === 255) {
          red +=
            w00 * light[p00 & 255] +
            w01 * light[p01 & 255] +
            w10 * light[p10 & 255] +
            w11 * light[p11 & 255];
          green +=
            w00 * light[(p00 >>> 8) & 255] +
            w01 * light[(p01 >>> 8) & 255] +
            w10 * light[(p10 >>> 8) & 255] +
            w11 * light[(p11 >>> 8) & 255];
          blue +=
            w00 * light[(p00 >>> 16) & 255] +
            w01 * light[(p01 >>> 16) & 255] +
            w10 * light[(p10 >>> 16) & 255] +
            w11 * light[(p11 >>> 16) & 255];
        } else {
          red += overWhite(p00, p01, p10, p11, fx, fy, 0);
          green += overWhite(p00, p01, p10, p11, fx, fy, 8);
          blue += overWhite(p00, p01, p10, p11, fx, fy, 16);
        }
      }
    }
    out[k] = stepOf(STEPS_OF_SRGB, Math.min(FULL, (red * share + 0.5) | 0));
    out[k + 1] = stepOf(STEPS_OF_SRGB, Math.min(FULL, (green * share + 0.5) | 0));
    out[k + 2] = stepOf(STEPS_OF_SRGB, Math.min(FULL, (blue * share + 0.5) | 0));
    out[k + 3] = 255;
  }
}

/** Linear light of each byte, white being FULL. */
const LIGHT = LINEAR_OF_SRGB.map((linear) => linear * FULL);

/** RGBA bytes as words whose lowest byte is red. */
function wordsOf(bytes: Uint8ClampedArray | Uint8Array): Uint32Array {
  const even = (bytes.byteOffset & 3) === 0 ? bytes : bytes.slice();
  const words = new Uint32Array(even.buffer, even.byteOffset, even.length >> 2);
  if (LITTLE_ENDIAN) return words;
  return words.map(
    (word) => (word << 24) | ((word & 0xff00) << 8) | ((word >> 8) & 0xff00) | (word >>> 24),
  );
}

/** Light of a channel (its first bit in the words) between four pixels, alpha laid over white. */
function overWhite(
  p00: number,
  p01: number,
  p10: number,
  p11: number,
  fx: number,
  fy: number,
  bit: number,
): number {
  const lit = (word: number): number => {
    const alpha = (word >>> 24) / 255;
    return alpha * LIGHT[(word >>> bit) & 255] + (1 - alpha) * FULL;
  };
  return (
    (1 - fy) * ((1 - fx) * lit(p00) + fx * lit(p01)) + fy * ((1 - fx) * lit(p10) + fx * lit(p11))
  );
}
