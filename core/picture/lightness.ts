import { expectRaster, outOfRange, wrongType } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import { LINEAR_OF_SRGB, LUMINANCE_OF_RGB } from '../colour/index.js';
import type { Lightness, Pixels } from '../base/types.js';
import {
  LIGHT_OF_BLUE,
  LIGHT_OF_GREEN,
  LIGHT_OF_RED,
  STEPS_OF_LIGHTNESS,
  stepOf,
  unitsOf,
} from './light.js';

const [OF_RED, OF_GREEN, OF_BLUE] = LUMINANCE_OF_RGB;

/** Refuses what is not straight-alpha sRGB pixels. */
export function expectPixels(name: string, pixels: unknown): asserts pixels is Pixels {
  expectRaster(name, pixels, 4);
  const { colorSpace } = pixels as Pixels;
  if (colorSpace === undefined) return;
  if (typeof colorSpace !== 'string') throw wrongType(`${name}.colorSpace`, colorSpace, "'srgb'");
  if (colorSpace !== 'srgb') throw outOfRange(`${name}.colorSpace`, colorSpace, "'srgb'");
}

/**
 * The lightness plane of a picture: for each pixel code = floor(2.55 L* + 0.5), 0..255.
 *
 * L* (CIE 15, constants 216/24389 and 24389/27) of the relative luminance
 * Y = 0.2126390058715103 R + 0.7151686787677559 G + 0.07219231536073371 B of linear sRGB (IEC 61966-2-1, threshold 0.04045). For
 * opaque pixels the codes are exact: the same as in double precision for each of the 2^24 colours. Alpha is laid
 * over white in linear light: c' = a c + (1 - a).
 *
 * @param pixels straight-alpha RGBA, 8 bit, row-major, sRGB
 * @throws TypeError, RangeError naming the argument (a colorSpace other than 'srgb' too)
 */
export function lightnessPlane(pixels: Pixels): Lightness {
  return finish(lightnessKernel(pixels));
}

/** {@link lightnessPlane} in slices. The pixels must not change until it is done. */
export function lightnessKernel(pixels: Pixels): Kernel<Lightness> {
  expectPixels('pixels', pixels);
  return lightnessSlices(pixels);
}

function* lightnessSlices({ width, height, data }: Pixels): Kernel<Lightness> {
  const codes = new Uint8Array(width * height);
  yield* byRows(height, width, (from, to) => {
    lightnessOfRun(data, from * width, codes, from * width, (to - from) * width);
  });
  return { width, height, data: codes };
}

/** Whether the first byte of a word is its lowest (so on every machine in common use). */
export const LITTLE_ENDIAN = new Uint8Array(Uint32Array.of(1).buffer)[0] === 1;

/** Writes the lightness codes of `count` RGBA pixels of `source`, from pixel `at` on, into `codes` from `to` on. */
export function lightnessOfRun(
  source: Uint8Array | Uint8ClampedArray,
  at: number,
  codes: Uint8Array,
  to: number,
  count: number,
): void {
  const sourceByte = source.byteOffset + 4 * at;
  // The first codes up to a 4-byte border of the result, and the last, go one by one.
  const head = Math.min(count, -(codes.byteOffset + to) & 3);
  const quadCount = LITTLE_ENDIAN && (sourceByte & 3) === 0 ? (count - head) >> 2 : 0;
  lightnessOneByOne(source, at, codes, to, head);
  if (quadCount > 0) {
    const words = new Int32Array(source.buffer, sourceByte + 4 * head, 4 * quadCount);
    const quads = new Int32Array(codes.buffer, codes.byteOffset + to + head, quadCount);
    for (let quad = 0; quad < quadCount; quad++) {
      quad = lightnessOfOpaque(words, quads, quad);
      if (quad < quadCount)
        lightnessOneByOne(source, at + head + 4 * quad, codes, to + head + 4 * quad, 4);
    }
  }
  const done = head + 4 * quadCount;
  lightnessOneByOne(source, at + done, codes, to + done, count - done);
}

function lightnessOneByOne(
  source: Uint8Array | Uint8ClampedArray,
  at: number,
  codes: Uint8Array,
  to: number,
  count: number,
): void {
  for (let i = 0, byte = 4 * at; i < count; i++, byte += 4) {
    const red = source[byte];
    const green = source[byte + 1];
    const blue = source[byte + 2];
    const alpha = source[byte + 3];
    codes[to + i] =
      alpha === 255
        ? stepOf(
            STEPS_OF_LIGHTNESS,
            LIGHT_OF_RED[red] + LIGHT_OF_GREEN[green] + LIGHT_OF_BLUE[blue],
          )
        : stepOf(STEPS_OF_LIGHTNESS, unitsOf(luminanceOverWhite(red, green, blue, alpha)));
  }
}

/** Relative luminance 0..1 of an sRGB colour of alpha 0..255 laid over white in linear light. */
function luminanceOverWhite(red: number, green: number, blue: number, alpha: number): number {
  const a = alpha / 255;
  return (
    OF_RED * (a * LINEAR_OF_SRGB[red] + 1 - a) +
    OF_GREEN * (a * LINEAR_OF_SRGB[green] + 1 - a) +
    OF_BLUE * (a * LINEAR_OF_SRGB[blue] + 1 - a)
  );
}

/**
 * The fast path: four opaque pixels (little-endian RGBA words) to one word of four codes. Starts at quad `from`; returns
 * the first quad that has a pixel that is not opaque, else the number of quads. Red and green share one table of
 * 65 536, of which a photo uses a small part at a time. Tables held in a closure are known to the compiler as constants.
 */
const lightnessOfOpaque = ((): ((words: Int32Array, quads: Int32Array, from: number) => number) => {
  const redGreen = new Int32Array(65536).map(
    (_, pair) => LIGHT_OF_RED[pair & 255] + LIGHT_OF_GREEN[pair >> 8],
  );
  const blue = LIGHT_OF_BLUE.slice();
  const steps = STEPS_OF_LIGHTNESS.slice();
  return (words, quads, from) => {
    const count = quads.length;
    for (let i = from, j = 4 * from; i < count; i++, j += 4) {
      const a = words[j];
      const b = words[j + 1];
      const c = words[j + 2];
      const d = words[j + 3];
      if ((a & b & c & d) >>> 24 !== 255) return i;
      const ya = redGreen[a & 0xffff] + blue[(a >>> 16) & 255];
      const yb = redGreen[b & 0xffff] + blue[(b >>> 16) & 255];
      const yc = redGreen[c & 0xffff] + blue[(c >>> 16) & 255];
      const yd = redGreen[d & 0xffff] + blue[(d >>> 16) & 255];
      quads[i] =
        ((steps[ya >>> 18] + (ya & 0x3ffff)) >>> 18) |
        (((steps[yb >>> 18] + (yb & 0x3ffff)) >>> 18) << 8) |
        (((steps[yc >>> 18] + (yc & 0x3ffff)) >>> 18) << 16) |
        (((steps[yd >>> 18] + (yd & 0x3ffff)) >>> 18) << 24);
    }
    return count;
  };
})();
