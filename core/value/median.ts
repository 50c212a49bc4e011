import { byRows, type Kernel } from '../base/kernel.js';

/**
 * The most rows of a window that are counted on either side of its middle; of a higher window every
 * second, third .. row.
 */
const ROWS = 16;

/**
 * One row of medians: the window slides over the columns, a histogram and the count below the
 * median go with it.
 */
function medianRow(
  bytes: Uint8Array,
  width: number,
  height: number,
  y: number,
  radius: number,
  step: number,
  counts: Int32Array,
  out: Uint8Array,
): void {
  let top = y - Math.floor(radius / step) * step;
  if (top < 0) top += Math.ceil(-top / step) * step;
  const bottom = Math.min(height - 1, y + radius);
  const rows = Math.floor((bottom - top) / step) + 1;
  const first = top * width;
  const end = first + rows * step * width;
  const stride = step * width;
  counts.fill(0);
  for (let x = 0; x < Math.min(radius, width); x++) {
    for (let k = first + x; k < end; k += stride) counts[bytes[k]]++;
  }
  let count = rows * Math.min(radius, width);
  let median = 0;
  let below = 0;
  for (let x = 0; x < width; x++) {
    const enter = x + radius;
    if (enter < width) {
      for (let k = first + enter; k < end; k += stride) {
        const code = bytes[k];
        counts[code]++;
        below += (code - median) >>> 31;
      }
      count += rows;
    }
    const leave = x - radius - 1;
    if (leave >= 0) {
      for (let k = first + leave; k < end; k += stride) {
        const code = bytes[k];
        counts[code]--;
        below -= (code - median) >>> 31;
      }
      count -= rows;
    }
    const half = (count - 1) >> 1;
    while (below > half) below -= counts[--median];
    while (below + counts[median] <= half) below += counts[median++];
    out[y * width + x] = median;
  }
}

/**
 * The median (of two middle ones the darker) of the window of `2 radius + 1` pixels a side around
 * each pixel, cut at the picture's border: a running histogram (Huang, Yang & Tang 1979, "A fast
 * two-dimensional median filtering algorithm"). It takes out what is smaller than half the window
 * and leaves straight edges where they are. Windows above 33 rows count evenly spaced rows of
 * themselves.
 */
export function* medianKernel(
  bytes: Uint8Array,
  width: number,
  height: number,
  radius: number,
): Kernel<Uint8Array> {
  if (radius === 0) return bytes;
  const out = new Uint8Array(width * height);
  const counts = new Int32Array(256);
  const step = Math.ceil(radius / ROWS);
  yield* byRows(
    height,
    width,
    (from, to) => {
      for (let y = from; y < to; y++) {
        medianRow(bytes, width, height, y, radius, step, counts, out);
      }
    },
    1 << 15,
  );
  return out;
}
