/** Small helps on planes of lightness codes. */
import { byRows, type Kernel } from '../base/kernel.js';
import type { Lightness } from '../base/types.js';
import type { Masses } from '../mass/types.js';
import { codeOfLightness } from '../units/index.js';

/** A plane made smaller by a whole number: the mean code of blocks of `by` x `by` pixels; what is left over at the end is cut, save where that would leave nothing. */
export function* shrunkKernel(plane: Lightness, by: number): Kernel<Lightness> {
  if (by <= 1) return plane;
  const width = Math.max(1, Math.floor(plane.width / by));
  const height = Math.max(1, Math.floor(plane.height / by));
  const blockWidth = Math.min(by, plane.width);
  const blockHeight = Math.min(by, plane.height);
  const share = 1 / (blockWidth * blockHeight);
  const data = new Uint8Array(width * height);
  const sums = new Float64Array(width);
  yield* byRows(height, plane.width * blockHeight, (from, to) => {
    for (let y = from; y < to; y++) {
      sums.fill(0);
      for (let row = y * by; row < y * by + blockHeight; row++)
        for (let x = 0, k = row * plane.width; x < width; x++)
          for (let i = 0; i < blockWidth; i++) sums[x] += plane.data[k++];
      for (let x = 0; x < width; x++) data[y * width + x] = Math.floor(sums[x] * share + 0.5);
    }
  });
  return { width, height, data };
}

/** The plane that has one L* for each region. */
export function* tonePlaneKernel(
  { map, labels }: Masses,
  lightness: readonly number[],
): Kernel<Lightness> {
  const { width, height } = map;
  const codes = Uint8Array.from(lightness, codeOfLightness);
  const data = new Uint8Array(width * height);
  yield* byRows(height, width, (from, to) => {
    for (let k = from * width; k < to * width; k++) data[k] = codes[labels[k]];
  });
  return { width, height, data };
}
