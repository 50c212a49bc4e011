import { expectInteger, outOfRange, wrongType } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import type { Pixels } from '../base/types.js';
import { reduceKernel, type RowSource } from '../picture/index.js';
import { expectPixels } from '../picture/lightness.js';

export interface BesideOptions {
  /** Height of every picture, pixels (default the least of theirs); smaller ones are not enlarged but centred. */
  height?: number;
  /** Pixels between and around them (default a fortieth of the height). */
  gap?: number;
  /** sRGB byte of the neutral ground (default 230). */
  ground?: number;
}

/**
 * Pictures side by side on neutral ground, all of one height: a painting, its plan and its photo as one picture. Reduced by area in
 * linear light.
 *
 * @param pictures at least one
 * @returns opaque sRGB
 * @throws TypeError, RangeError naming the argument; together at most 2^26 pixels
 */
export function picturesBeside(pictures: readonly Pixels[], options: BesideOptions = {}): Pixels {
  return finish(picturesBesideKernel(pictures, options));
}

/** {@link picturesBeside} in slices. */
export function* picturesBesideKernel(
  pictures: readonly Pixels[],
  options: BesideOptions = {},
): Kernel<Pixels> {
  if (!Array.isArray(pictures)) throw wrongType('pictures', pictures, 'an array of pictures');
  if (pictures.length === 0) throw outOfRange('pictures', pictures, 'at least one picture');
  pictures.forEach((picture, i) => expectPixels(`pictures[${i}]`, picture));
  const least = Math.min(...pictures.map((picture: Pixels) => picture.height));
  const height = expectInteger('options.height', options.height ?? least, 1, 16384);
  const gap = expectInteger('options.gap', options.gap ?? Math.round(height / 40), 0, 4096);
  const ground = expectInteger('options.ground', options.ground ?? 230, 0, 255);

  const parts: Pixels[] = [];
  for (const [i, picture] of (pictures as readonly Pixels[]).entries()) {
    const scale = Math.min(1, height / picture.height);
    const size = {
      width: Math.max(1, Math.round(picture.width * scale)),
      height: Math.max(1, Math.round(picture.height * scale)),
    };
    const kernel = reduceKernel(rowsOf(picture), size);
    for (;;) {
      const step = kernel.next();
      if (step.done) {
        parts.push(step.value.pixels);
        break;
      }
      yield (0.9 * (i + step.value)) / pictures.length;
    }
  }
  const width = parts.reduce((sum, part) => sum + part.width + gap, gap);
  const tall = height + 2 * gap;
  if (width * tall > 2 ** 26)
    throw outOfRange('pictures', `${width} x ${tall} together`, 'at most 67108864 pixels');
  const data = new Uint8ClampedArray(4 * width * tall).fill(ground);
  for (let k = 3; k < data.length; k += 4) data[k] = 255;
  let left = gap;
  for (const part of parts) {
    const top = gap + Math.floor((height - part.height) / 2);
    yield* byRows(part.height, part.width, (from, to) => {
      for (let y = from; y < to; y++)
        data.set(
          part.data.subarray(4 * y * part.width, 4 * (y + 1) * part.width),
          4 * ((top + y) * width + left),
        );
    });
    left += part.width + gap;
  }
  return { width, height: tall, data, colorSpace: 'srgb' };
}

/** Rows of a picture that is in memory. */
function rowsOf({ width, height, data }: Pixels): RowSource {
  return { width, height, rows: (y0, y1) => data.subarray(4 * width * y0, 4 * width * y1) };
}
