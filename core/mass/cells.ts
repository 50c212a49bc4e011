import type { Kernel } from '../base/kernel.js';
import type { Lab, Pixels } from '../base/types.js';
import { labOfLinear, LINEAR_OF_SRGB } from '../colour/index.js';

/** Pieces of a picture that colours are compared by: connected pixels of one mass within a cell. */
export interface Cells {
  /** The piece of each pixel. */
  of: Int32Array;
  count: number;
  /** Pixels of each. */
  area: Float64Array;
  /** Mean colour of each, three values: the mean of the light, as CIELAB. */
  lab: Float64Array;
}

/** A Lab from three values of a flat list. */
export const labAt = (list: ArrayLike<number>, at: number): Lab => [
  list[3 * at],
  list[3 * at + 1],
  list[3 * at + 2],
];

/** {@link Cells} of a picture: cells of `side` pixels, cut by the masses' borders. */
export function* cellsKernel(pixels: Pixels, labels: Int32Array, side: number): Kernel<Cells> {
  const { width, height, data } = pixels;
  const size = width * height;
  // Union of pixels with their neighbours to the left and above, in the same cell and mass.
  const parent = new Int32Array(size);
  const find = (at: number): number => {
    let root = at;
    while (parent[root] !== root) root = parent[root];
    while (parent[at] !== root) [parent[at], at] = [root, parent[at]];
    return root;
  };
  const slice = Math.max(1, Math.floor((1 << 17) / width));
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = y * width + x;
      parent[at] = at;
      const left = x % side > 0 && labels[at - 1] === labels[at];
      const up = y % side > 0 && labels[at - width] === labels[at];
      if (left) parent[at] = find(at - 1);
      if (up) {
        const root = find(at - width);
        const own = find(at);
        // The earlier pixel is the root, so that numbers rise with the place.
        parent[Math.max(root, own)] = Math.min(root, own);
      }
    }
    if (y % slice === 0) yield (0.4 * y) / height;
  }
  const of = new Int32Array(size);
  let count = 0;
  for (let at = 0; at < size; at++) {
    const root = find(at);
    of[at] = root === at ? count++ : of[root];
  }
  yield 0.5;
  const area = new Float64Array(count);
  const light = new Float64Array(3 * count);
  for (let y = 0; y < height; y++) {
    for (let at = y * width; at < (y + 1) * width; at++) {
      const cell = 3 * of[at];
      const alpha = data[4 * at + 3] / 255;
      area[of[at]]++;
      for (let c = 0; c < 3; c++)
        light[cell + c] += alpha * LINEAR_OF_SRGB[data[4 * at + c]] + (1 - alpha);
    }
    if (y % slice === 0) yield 0.5 + (0.5 * y) / height;
  }
  const lab = light;
  for (let cell = 0; cell < count; cell++) {
    const n = area[cell];
    lab.set(
      labOfLinear(light[3 * cell] / n, light[3 * cell + 1] / n, light[3 * cell + 2] / n),
      3 * cell,
    );
  }
  return { of, count, area, lab };
}

/** Pairs of neighbouring pieces with the pixels' sides between them, in the order of their first meeting. */
export function* meetingsKernel(
  of: Int32Array,
  width: number,
  height: number,
): Kernel<{ a: number; b: number; length: number }[]> {
  const list: { a: number; b: number; length: number }[] = [];
  const known = new Map<number, number>();
  const meet = (p: number, q: number): void => {
    const [a, b] = p < q ? [p, q] : [q, p];
    const key = a * 2 ** 26 + b;
    const at = known.get(key);
    if (at === undefined) {
      known.set(key, list.length);
      list.push({ a, b, length: 1 });
    } else list[at].length++;
  };
  const slice = Math.max(1, Math.floor((1 << 17) / width));
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = y * width + x;
      if (x + 1 < width && of[at] !== of[at + 1]) meet(of[at], of[at + 1]);
      if (y + 1 < height && of[at] !== of[at + width]) meet(of[at], of[at + width]);
    }
    if (y % slice === 0) yield y / height;
  }
  return list;
}
