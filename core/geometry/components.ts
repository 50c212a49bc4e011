/** Connected parts of a raster. */
import { expectInteger, outOfRange } from '../base/check.js';

/** The connected parts of a raster. */
export interface Components {
  /** The part of each pixel, row-major: 0.. in the order of their first pixels; -1 for the background. */
  labels: Int32Array;
  /** How many parts there are. */
  count: number;
}

export interface ComponentOptions {
  /** Pixels that share a side (4, the default), or a corner too (8). */
  connectivity?: 4 | 8;
  /** Pixels of this value belong to no part. */
  background?: number;
}

/** The root of a run, halving the way to it. */
function rootOf(parent: Int32Array, run: number): number {
  while (parent[run] !== run) {
    parent[run] = parent[parent[run]];
    run = parent[run];
  }
  return run;
}

function longer(array: Int32Array, length: number): Int32Array {
  const copy = new Int32Array(length);
  copy.set(array);
  return copy;
}

/**
 * The connected parts of equal value: runs of equal pixels in each row, joined with those of the row above by union-find
 * (He, Chao & Suzuki 2008, "A run-based two-scan labeling algorithm"). Time grows with the runs, not with their shapes.
 * @param data width x height values, row-major
 * @throws {RangeError} sizes that do not fit the data, or a connectivity other than 4 and 8
 */
export function componentsOf(
  data: Uint8Array | Uint8ClampedArray | Int32Array,
  width: number,
  height: number,
  options: ComponentOptions = {},
): Components {
  expectInteger('width', width, 1, 2 ** 28);
  expectInteger('height', height, 1, 2 ** 28);
  if (data.length !== width * height)
    throw outOfRange('data', data, `${width} x ${height} = ${width * height} values`);
  const { connectivity = 4, background } = options;
  if (connectivity !== 4 && connectivity !== 8)
    throw outOfRange('options.connectivity', connectivity, '4 or 8');
  const reach = connectivity === 8 ? 1 : 0;

  // Of each run: where it begins, and an earlier run of its part (its own number for the first).
  let begin: Int32Array = new Int32Array(Math.max(64, (width * height) >> 4));
  let parent: Int32Array = new Int32Array(begin.length);
  let runs = 0;
  let above = 0;
  for (let y = 0; y < height; y++) {
    const first = runs;
    const row = y * width;
    const end = row + width;
    if (runs + width > begin.length) {
      const room = Math.max(2 * begin.length, runs + width);
      begin = longer(begin, room);
      parent = longer(parent, room);
    }
    for (let at = row; at < end;) {
      const value = data[at];
      begin[runs] = at;
      parent[runs] = runs;
      runs++;
      do at++;
      while (at < end && data[at] === value);
    }
    if (y > 0) {
      // Both rows' runs side by side; ends are where the next run begins.
      let upper = above;
      for (let run = first; run < runs; run++) {
        const from = begin[run];
        const to = run + 1 < runs ? begin[run + 1] : end;
        const value = data[from];
        if (value === background) continue;
        const low = from - width - reach;
        const high = to - width + reach;
        while (upper + 1 < first && begin[upper + 1] <= low) upper++;
        for (let other = upper; other < first && begin[other] < high; other++) {
          if (data[begin[other]] !== value) continue;
          const a = rootOf(parent, other);
          const b = rootOf(parent, run);
          if (a < b) parent[b] = a;
          else if (b < a) parent[a] = b;
        }
      }
    }
    above = first;
  }

  const labels = new Int32Array(width * height);
  let count = 0;
  for (let run = 0; run < runs; run++) {
    const from = begin[run];
    const to = run + 1 < runs ? begin[run + 1] : labels.length;
    // Roots come before the runs they stand for, so theirs are numbered already (as ~label, below 0).
    let label: number;
    if (data[from] === background) {
      label = -1;
      parent[run] = ~0;
    } else {
      const up = parent[run];
      label = up === run ? count++ : ~parent[up];
      parent[run] = ~label;
    }
    if (to - from < 16) for (let at = from; at < to; at++) labels[at] = label;
    else labels.fill(label, from, to);
  }
  return { labels, count };
}
