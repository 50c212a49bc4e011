import { expectInteger, outOfRange, wrongType } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';

/** What {@link squaredDistances} gives where no pixel of the raster is 0. */
export const NO_DISTANCE = 0x7fffffff;

/**
 * For each pixel the squared Euclidean distance of its centre from the centre of the nearest pixel that is 0, an exact whole number: 0
 * on those pixels themselves. What lies outside the raster is not looked at; without any 0 all is {@link NO_DISTANCE}.
 *
 * Meijster, Roerdink & Hesselink 2000, "A general algorithm for computing distance transforms in linear time": first the distance
 * within the column, then for each row the lower envelope of the parabolas that stand on it (as in Felzenszwalb & Huttenlocher
 * 2012), in whole numbers throughout.
 *
 * @param mask width x height bytes, row-major
 * @param width pixels of a row, 1..32767
 * @param height rows, 1..32767
 * @throws TypeError, RangeError naming the argument
 */
export function squaredDistances(
  mask: Uint8Array | Uint8ClampedArray,
  width: number,
  height: number,
): Int32Array {
  return finish(squaredDistancesKernel(mask, width, height));
}

/** {@link squaredDistances} in slices. The mask must not change until it is done. */
export function squaredDistancesKernel(
  mask: Uint8Array | Uint8ClampedArray,
  width: number,
  height: number,
): Kernel<Int32Array> {
  // Up to here the square of the longest distance stays below 2^31.
  expectInteger('width', width, 1, 32767);
  expectInteger('height', height, 1, 32767);
  if (!(mask instanceof Uint8Array) && !(mask instanceof Uint8ClampedArray))
    throw wrongType('mask', mask, 'a Uint8Array');
  if (mask.length !== width * height)
    throw outOfRange('mask', mask, `${width} x ${height} = ${width * height} bytes`);
  return distanceSlices(mask, width, height);
}

function* distanceSlices(
  mask: Uint8Array | Uint8ClampedArray,
  width: number,
  height: number,
): Kernel<Int32Array> {
  const out = new Int32Array(width * height);
  // Farther than any pixel of the raster, small enough that its square is still whole in a double.
  const far = width + height;
  for (const done of byRows(height, width, (from, to) => downward(mask, out, width, far, from, to)))
    yield done / 3;
  for (const done of byRows(height, width, (from, to) =>
    upward(out, width, height - to, height - from),
  ))
    yield (1 + done) / 3;
  const envelope = new Envelope(width);
  for (const done of byRows(height, width, (from, to) => {
    for (let y = from; y < to; y++) envelope.alongRow(out, y * width, far);
  }))
    yield (2 + done) / 3;
  return out;
}

/** Distance from the nearest 0 at or above, in the column. */
function downward(
  mask: Uint8Array | Uint8ClampedArray,
  out: Int32Array,
  width: number,
  far: number,
  from: number,
  to: number,
): void {
  let at = from * width;
  if (from === 0) {
    for (; at < width; at++) out[at] = mask[at] === 0 ? 0 : far;
  }
  for (const end = to * width; at < end; at++)
    out[at] = mask[at] === 0 ? 0 : Math.min(far, out[at - width] + 1);
}

/** The smaller of it and the distance from the nearest 0 below. */
function upward(out: Int32Array, width: number, from: number, to: number): void {
  const last = out.length - width;
  for (let at = Math.min(to * width, last) - 1; at >= from * width; at--) {
    const below = out[at + width] + 1;
    if (below < out[at]) out[at] = below;
  }
}

/** The lower envelope of a row's parabolas, with its working space. */
class Envelope {
  /** Column of the foot of each parabola that shows, and its height there. */
  readonly #feet: Int32Array;
  readonly #heights: Int32Array;
  /** First column at which each of them is the lowest. */
  readonly #starts: Int32Array;

  constructor(readonly width: number) {
    this.#feet = new Int32Array(width);
    this.#heights = new Int32Array(width);
    this.#starts = new Int32Array(width);
  }

  /** Turns a row of column distances into squared distances, in place. Nothing beyond a 0 is nearer than it. */
  alongRow(out: Int32Array, row: number, far: number): void {
    const { width } = this;
    for (let x = 0; x < width; x++) {
      if (out[row + x] === 0) continue;
      const from = x;
      do x++;
      while (x < width && out[row + x] !== 0);
      this.#alongRun(out, row, from, x, far);
    }
  }

  /** The columns `from..to`, none of them 0, between two zeros or the ends of the row. */
  #alongRun(out: Int32Array, row: number, from: number, to: number, far: number): void {
    const feet = this.#feet;
    const heights = this.#heights;
    const starts = this.#starts;
    const last = to < this.width ? to : to - 1;
    let top = -1;
    for (let x = from > 0 ? from - 1 : from; x <= last; x++) {
      const g = out[row + x];
      if (g >= far) continue;
      const height = g * g;
      // Parabolas that the new one is not above where they begin to be the lowest no longer show.
      while (top >= 0) {
        const own = starts[top] - x;
        const other = starts[top] - feet[top];
        if (own * own + height > other * other + heights[top]) break;
        top--;
      }
      let start = from;
      if (top >= 0) {
        const foot = feet[top];
        // The first column at which the new parabola is the lower one.
        const rise = (x - foot) * (x + foot) + height - heights[top];
        start = Math.floor(rise / (2 * (x - foot))) + 1;
        if (start >= to) continue;
      }
      top++;
      feet[top] = x;
      heights[top] = height;
      starts[top] = start;
    }
    if (top < 0) {
      out.fill(NO_DISTANCE, row + from, row + to);
      return;
    }
    let end = to;
    for (; top >= 0; top--) {
      const foot = feet[top];
      const height = heights[top];
      const start = starts[top];
      for (let x = start; x < end; x++) out[row + x] = (x - foot) * (x - foot) + height;
      end = start;
    }
  }
}
