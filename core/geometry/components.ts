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

/** The connected parts of a raster, told by runs of equal pixels. */
export interface RunParts {
  /** The pixel where each run begins, row-major, and the number of pixels at the end; no run goes on into the next row. */
  begin: Int32Array;
  /** The part of each run: 0.. in the order of their first pixels; -1 for the background. */
  part: Int32Array;
  /** How many runs there are. */
  runs: number;
  /** How many parts there are. */
  count: number;
}

/** {@link componentsOf} without the labels of single pixels. */
export function runPartsOf(
  data: Uint8Array | Uint8ClampedArray | Int32Array,
  width: number,
  height: number,
  options: ComponentOptions = {},
): RunParts {
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
  const words =
    data.BYTES_PER_ELEMENT === 1 && data.byteOffset % 4 === 0
      ? new Uint32Array(data.buffer, data.byteOffset, data.length >>> 2)
      : undefined;
  for (let y = 0; y < height; y++) {
    const first = runs;
    const row = y * width;
    const end = row + width;
    if (runs + width + 1 > begin.length) {
      const room = Math.max(2 * begin.length, runs + width + 1);
      begin = longer(begin, room);
      parent = longer(parent, room);
    }
    runs = scanRow(data, words, row, end, begin, runs);
    begin[runs] = end;
    for (let run = first; run < runs; run++) parent[run] = run;
    if (y > 0) joinRows(data, begin, parent, above, first, runs, width, reach, background);
    above = first;
  }
  // Roots come before the runs they stand for, so theirs are numbered already.
  let count = 0;
  for (let run = 0; run < runs; run++) {
    if (data[begin[run]] === background) parent[run] = -1;
    else parent[run] = parent[run] === run ? count++ : parent[parent[run]];
  }
  return { begin, part: parent, runs, count };
}

/** Notes where the runs of the pixels row..end begin; returns the count of runs so far. `words` are the data four at once. */
function scanRow(
  data: Uint8Array | Uint8ClampedArray | Int32Array,
  words: Uint32Array | undefined,
  row: number,
  end: number,
  begin: Int32Array,
  runs: number,
): number {
  let at = row;
  while (at < end) {
    const value = data[at];
    begin[runs++] = at;
    at++;
    if (words) {
      while ((at & 3) !== 0 && at < end && data[at] === value) at++;
      if ((at & 3) === 0) {
        const four = Math.imul(value, 0x01010101) >>> 0;
        while (at + 4 <= end && words[at >>> 2] === four) at += 4;
      }
    }
    while (at < end && data[at] === value) at++;
  }
  return runs;
}

/** Joins the runs `first..runs` of a row with those of the row above, `above..first`. */
function joinRows(
  data: Uint8Array | Uint8ClampedArray | Int32Array,
  begin: Int32Array,
  parent: Int32Array,
  above: number,
  first: number,
  runs: number,
  width: number,
  reach: number,
  background: number | undefined,
): void {
  let upper = above;
  for (let run = first; run < runs; run++) {
    const from = begin[run];
    const value = data[from];
    if (value === background) continue;
    const low = from - width - reach;
    const high = begin[run + 1] - width + reach;
    while (upper + 1 < first && begin[upper + 1] <= low) upper++;
    let root = run;
    for (let other = upper; other < first && begin[other] < high; other++) {
      if (data[begin[other]] !== value) continue;
      const higher = rootOf(parent, other);
      if (higher < root) {
        parent[root] = higher;
        root = higher;
      } else if (higher > root) parent[higher] = root;
    }
  }
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
  const { begin, part, runs, count } = runPartsOf(data, width, height, options);
  const labels = new Int32Array(width * height);
  for (let run = 0; run < runs; run++) fillRun(labels, part[run], begin[run], begin[run + 1]);
  return { labels, count };
}

/** Sets the values from..to (to excluded); short runs are quicker by hand. */
export function fillRun(out: Int32Array, value: number, from: number, to: number): void {
  if (to - from < 24) for (let at = from; at < to; at++) out[at] = value;
  else out.fill(value, from, to);
}
