import { byRows, type Kernel } from '../base/kernel.js';

// The derivative of a row f and the smoothing across it are a compact scheme of eighth order (Lele
// 1992, "Compact finite difference schemes with spectral-like resolution", pentadiagonal, c = 0:
// alpha 4/9, beta 1/36, a 40/27, b 25/54), both sides taken as filters and divided by 35/18. The
// slope of the smoothed row is then what the slope filter gives, so that the direction of a wave is
// right for every wave longer than about 3 pixels: gx / gy = kx / ky.
const SMOOTH_0 = 18 / 35;
const SMOOTH_1 = 8 / 35;
const SMOOTH_2 = 1 / 70;
const SLOPE_1 = 8 / 21;
const SLOPE_2 = 5 / 84;

/**
 * What rounding to whole codes alone gives to the trace of a tensor: the variance of rounding, 1/12,
 * times the sums of the squared weights of both filters, for each of the two derivatives.
 */
export const ROUNDING =
  (2 / 12) *
  2 *
  (SLOPE_1 ** 2 + SLOPE_2 ** 2) *
  (SMOOTH_0 ** 2 + 2 * SMOOTH_1 ** 2 + 2 * SMOOTH_2 ** 2);

/** The coarsest level of the pyramid: one of its pixels is 2^4 of the plane's. */
const COARSEST = 4;

/** Channels of a cell: xx, xy, yy of the tensor, and the trace that rounding alone would give. */
export const CHANNELS = 4;

/**
 * Tensors on a grid: cell (i, j) stands for the plane about the centre of pixel (i step, j step). The
 * last column and row may lie beyond the plane.
 */
export interface Cells {
  step: number;
  columns: number;
  rows: number;
  /** {@link CHANNELS} numbers a cell. */
  sums: Float32Array;
  /** Label under each cell, when there are masses. */
  labels?: Int32Array;
  /** For each cell half the side of a square about it (in pixels) that lies in one mass; -1: none. */
  room?: Int32Array;
}

/** An image of the pyramid: one pixel is `size` pixels of the plane, pixel 0 has the same centre. */
interface Level {
  data: Uint8Array | Float32Array;
  width: number;
  height: number;
  size: number;
}

/** The grid that is fine enough for a scale: a quarter of it, at most 4 pixels. */
export function cellsFor(width: number, height: number, scalePx: number): Cells {
  const fits = Math.min(scalePx / 4, Math.min(width, height) / 8);
  const step = fits >= 4 ? 4 : fits >= 2 ? 2 : 1;
  const columns = Math.ceil((width - 1) / step) + 1;
  const rows = Math.ceil((height - 1) / step) + 1;
  return { step, columns, rows, sums: new Float32Array(CHANNELS * columns * rows) };
}

/** How far from a sample the pixels lie that it depends on, in pixels of the plane. */
const reach = (size: number): number => 4 * size - 2;

/** Whether the (2 half + 1)-square of pixels about (x, y), cut at the plane's border, has one label. */
function uniform(
  labels: Int32Array,
  width: number,
  height: number,
  x: number,
  y: number,
  half: number,
): boolean {
  const left = Math.max(0, x - half);
  const right = Math.min(width - 1, x + half);
  const bottom = Math.min(height - 1, y + half);
  const label = labels[y * width + x];
  for (let row = Math.max(0, y - half); row <= bottom; row++) {
    for (let k = row * width + left; k <= row * width + right; k++) {
      if (labels[k] !== label) return false;
    }
  }
  return true;
}

/** Chessboard distances in cells to the nearest cell of 0; two passes. `far` holds 0 or a large number. */
function* chessboard(far: Int32Array, columns: number, rows: number): Kernel<void> {
  const relax = (at: number, i: number, j: number, back: number): void => {
    let least = far[at];
    if (least === 0) return;
    const up = back * columns;
    const inRow = back < 0 ? i > 0 : i < columns - 1;
    const inColumn = back < 0 ? j > 0 : j < rows - 1;
    if (inRow) least = Math.min(least, far[at + back] + 1);
    if (inColumn) {
      least = Math.min(least, far[at + up] + 1);
      if (i > 0) least = Math.min(least, far[at + up - 1] + 1);
      if (i < columns - 1) least = Math.min(least, far[at + up + 1] + 1);
    }
    far[at] = least;
  };
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) relax(j * columns + i, i, j, -1);
  }
  yield 0.5;
  for (let j = rows - 1; j >= 0; j--) {
    for (let i = columns - 1; i >= 0; i--) relax(j * columns + i, i, j, 1);
  }
}

/** Puts the masses under the cells: `labels` and `room`. */
export function* labelCells(
  cells: Cells,
  labels: Int32Array,
  width: number,
  height: number,
): Kernel<void> {
  const { step, columns, rows } = cells;
  // Wide enough for the finest samples of a cell.
  const half = step === 4 ? 3 : 2;
  const under = new Int32Array(columns * rows);
  const room = new Int32Array(columns * rows);
  yield* byRows(rows, columns * (2 * half + 1) ** 2, (from, to) => {
    for (let j = from; j < to; j++) {
      const y = Math.min(height - 1, j * step);
      for (let i = 0; i < columns; i++) {
        const x = Math.min(width - 1, i * step);
        under[j * columns + i] = labels[y * width + x];
        room[j * columns + i] = uniform(labels, width, height, x, y, half) ? 1 << 20 : 0;
      }
    }
  });
  yield* chessboard(room, columns, rows);
  for (let at = 0; at < room.length; at++) {
    room[at] = room[at] === 0 ? -1 : step * (room[at] - 1) + half;
  }
  cells.labels = under;
  cells.room = room;
}

/** Smoothed and slope down the columns, for one row; rows y - 2 .. y + 2 must exist. */
function downColumns(level: Level, y: number, smooth: Float64Array, slope: Float64Array): void {
  const { data, width } = level;
  let a = (y - 2) * width;
  let b = a + width;
  let c = b + width;
  let d = c + width;
  let e = d + width;
  for (let x = 0; x < width; x++, a++, b++, c++, d++, e++) {
    const up2 = data[a];
    const up = data[b];
    const down = data[d];
    const down2 = data[e];
    smooth[x] = SMOOTH_0 * data[c] + SMOOTH_1 * (up + down) + SMOOTH_2 * (up2 + down2);
    slope[x] = SLOPE_1 * (down - up) + SLOPE_2 * (down2 - up2);
  }
}

/**
 * Adds `weight` times the tensors of a row's samples, `across` pixels of the level apart from
 * `first` on, to `out` (a cell each).
 */
function addRow(
  smooth: Float64Array,
  slope: Float64Array,
  first: number,
  across: number,
  count: number,
  weight: number,
  out: Float32Array,
  cell: number,
  room: Int32Array | undefined,
  needed: number,
): void {
  const floor = weight * ROUNDING;
  for (let n = 0, x = first, at = CHANNELS * cell; n < count; n++, x += across, at += CHANNELS) {
    if (room !== undefined && room[cell + n] < needed) continue;
    const gx =
      SLOPE_1 * (smooth[x + 1] - smooth[x - 1]) + SLOPE_2 * (smooth[x + 2] - smooth[x - 2]);
    const gy =
      SMOOTH_0 * slope[x] +
      SMOOTH_1 * (slope[x - 1] + slope[x + 1]) +
      SMOOTH_2 * (slope[x - 2] + slope[x + 2]);
    out[at] += weight * gx * gx;
    out[at + 1] += weight * gx * gy;
    out[at + 2] += weight * gy * gy;
    out[at + 3] += floor;
  }
}

/**
 * Adds the samples of a level whose pixels are no larger than the cells: one in the middle of each
 * cell, or the four about it where a cell is four pixels wide.
 */
function* addFine(level: Level, cells: Cells): Kernel<void> {
  const { step, columns, rows, sums, room } = cells;
  const across = step / level.size;
  const offsets = across === 4 ? [-1, 1] : [0];
  const weight = 1 / offsets.length ** 2;
  const margin = 2 + offsets[offsets.length - 1];
  const edge = reach(level.size) / level.size;
  const span = (length: number, count: number): [number, number] => [
    Math.ceil(Math.max(margin, edge) / across),
    Math.min(count - 1, Math.floor((length - 1 - Math.max(margin, Math.ceil(edge))) / across)),
  ];
  const [left, right] = span(level.width, columns);
  const [top, bottom] = span(level.height, rows);
  if (right < left || bottom < top) return;
  const smooth = new Float64Array(level.width);
  const slope = new Float64Array(level.width);
  const needed = across === 4 ? 3 : reach(level.size);
  yield* byRows(bottom - top + 1, level.width * offsets.length, (from, to) => {
    for (let j = top + from; j < top + to; j++) {
      for (const down of offsets) {
        downColumns(level, j * across + down, smooth, slope);
        for (const right1 of offsets) {
          addRow(
            smooth,
            slope,
            left * across + right1,
            across,
            right - left + 1,
            weight,
            sums,
            j * columns + left,
            room,
            needed,
          );
        }
      }
    }
  });
}

/** Adds the samples of a level whose pixels are larger than the cells, spread linearly over them. */
function* addCoarse(level: Level, cells: Cells): Kernel<void> {
  const { width, height, size } = level;
  const { columns, rows, sums, room } = cells;
  const every = size / cells.step;
  const edge = Math.ceil(reach(size) / size);
  const count = width - 2 * edge;
  if (count < 1 || height - 2 * edge < 1) return;
  const coarse = new Float32Array(CHANNELS * width * height);
  const smooth = new Float64Array(width);
  const slope = new Float64Array(width);
  for (let y = edge; y < height - edge; y++) {
    downColumns(level, y, smooth, slope);
    addRow(smooth, slope, edge, 1, count, 1, coarse, y * width + edge, undefined, 0);
  }
  if (room !== undefined) {
    // Cells that a sample is spread over are nearer to it than what it depends on, so in its mass too.
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        if (room[y * every * columns + x * every] >= reach(size)) continue;
        const k = CHANNELS * (y * width + x);
        coarse.fill(0, k, k + CHANNELS);
      }
    }
  }
  yield 0.5;
  const between = new Float64Array(CHANNELS * (width + 1));
  yield* byRows(rows, columns, (from, to) => {
    for (let j = from; j < to; j++)
      spreadRow(coarse, width, height, j / every, every, between, sums, j * columns, columns);
  });
}

/** Adds a row between the rows of coarse samples to a row of cells, linearly. */
function spreadRow(
  coarse: Float32Array,
  width: number,
  height: number,
  y: number,
  every: number,
  between: Float64Array,
  sums: Float32Array,
  cell: number,
  columns: number,
): void {
  const top = Math.floor(y);
  if (top >= height) return;
  const low = top + 1 < height ? y - top : 0;
  const high = 1 - (y - top);
  const a = CHANNELS * top * width;
  const b = top + 1 < height ? a + CHANNELS * width : a;
  for (let k = 0; k < CHANNELS * width; k++)
    between[k] = high * coarse[a + k] + low * coarse[b + k];
  for (let i = 0, at = CHANNELS * cell; i < columns; i++, at += CHANNELS) {
    const x = Math.floor(i / every);
    if (x >= width) return;
    const right = i / every - x;
    const left = 1 - right;
    const k = CHANNELS * x;
    sums[at] += left * between[k] + right * between[k + 4];
    sums[at + 1] += left * between[k + 1] + right * between[k + 5];
    sums[at + 2] += left * between[k + 2] + right * between[k + 6];
    sums[at + 3] += left * between[k + 3] + right * between[k + 7];
  }
}

/** One row of a level reduced to half: the columns' sums of five rows, 1 4 6 4 1. */
function halveRow(level: Level, y: number, column: Float64Array): void {
  const { data, width, height } = level;
  const row = (k: number): number => Math.min(height - 1, Math.max(0, k)) * width;
  let a = row(y - 2);
  let b = row(y - 1);
  let c = row(y);
  let d = row(y + 1);
  let e = row(y + 2);
  for (let x = 0; x < width; x++, a++, b++, c++, d++, e++) {
    column[x] = data[a] + data[e] + 4 * (data[b] + data[d]) + 6 * data[c];
  }
}

/** The next level: smoothed by the binomial 1 4 6 4 1 both ways, every second pixel. */
function* halved(level: Level): Kernel<Level> {
  const width = Math.ceil(level.width / 2);
  const height = Math.ceil(level.height / 2);
  const data = new Float32Array(width * height);
  const column = new Float64Array(level.width);
  const last = level.width - 1;
  const clamped = (x: number): number => column[x < 0 ? 0 : x > last ? last : x];
  yield* byRows(height, level.width, (from, to) => {
    for (let y = from; y < to; y++) {
      halveRow(level, 2 * y, column);
      const start = y * width;
      const inner = Math.min(width, Math.floor((last - 2) / 2) + 1);
      for (let x = 1; x < inner; x++) {
        const k = 2 * x;
        data[start + x] =
          (column[k - 2] + column[k + 2] + 4 * (column[k - 1] + column[k + 1]) + 6 * column[k]) /
          256;
      }
      for (let x = 0; x < width; x = x === 0 && inner > 1 ? inner : x + 1) {
        const k = 2 * x;
        data[start + x] =
          (clamped(k - 2) +
            clamped(k + 2) +
            4 * (clamped(k - 1) + clamped(k + 1)) +
            6 * clamped(k)) /
          256;
      }
    }
  });
  return { data, width, height, size: 2 * level.size };
}

/**
 * Adds the tensors g g^T of the gradients of all levels whose pixels are at most a quarter of the
 * scale (half of it up to 4 pixels, where rounding would drown long waves), each gradient in codes a
 * pixel of its own level, so that no level outweighs the others by its size. A sample counts only
 * where all the pixels it depends on are inside the plane and, with masses, inside one mass.
 */
export function* addTensors(
  data: Uint8Array,
  width: number,
  height: number,
  scalePx: number,
  cells: Cells,
): Kernel<void> {
  const largest = Math.max(scalePx / 4, Math.min(4, scalePx / 2));
  let level: Level = { data, width, height, size: 1 };
  for (let depth = 0; ; depth++) {
    yield* level.size <= cells.step ? addFine(level, cells) : addCoarse(level, cells);
    const next = 2 * level.size;
    if (depth === COARSEST || next > largest) return;
    if (2 * reach(next) >= Math.min(width, height)) return;
    level = yield* halved(level);
  }
}

/**
 * Sums over a window along a row of cells, cut where the label changes: differences of running
 * totals, which `totals` has room for (one cell more than the row).
 */
function boxRow(
  sums: Float32Array,
  totals: Float64Array,
  first: number,
  columns: number,
  radius: number,
  labels: Int32Array | undefined,
): void {
  const from = CHANNELS * first;
  for (let k = 0; k < CHANNELS * columns; k++) totals[k + CHANNELS] = totals[k] + sums[from + k];
  for (let start = 0; start < columns;) {
    let end = columns;
    if (labels !== undefined) {
      const label = labels[first + start];
      end = start + 1;
      while (end < columns && labels[first + end] === label) end++;
    }
    for (let n = start, k = from + CHANNELS * start; n < end; n++, k += CHANNELS) {
      const a = CHANNELS * (n - radius < start ? start : n - radius);
      const b = CHANNELS * (n + radius + 1 > end ? end : n + radius + 1);
      sums[k] = totals[b] - totals[a];
      sums[k + 1] = totals[b + 1] - totals[a + 1];
      sums[k + 2] = totals[b + 2] - totals[a + 2];
      sums[k + 3] = totals[b + 3] - totals[a + 3];
    }
    start = end;
  }
}

/** Columns that are gone down together, so that memory is read along its lines. */
const STRIP = 8;

/** The same down a strip of columns from `left` on. */
function boxColumns(
  cells: Cells,
  totals: Float64Array,
  left: number,
  radius: number,
  starts: Int32Array,
  ends: Int32Array,
): void {
  const { columns, rows, sums, labels } = cells;
  const wide = Math.min(STRIP, columns - left);
  const strip = CHANNELS * wide;
  for (let j = 0; j < rows; j++) {
    const from = CHANNELS * (j * columns + left);
    const above = strip * j;
    for (let k = 0; k < strip; k++) totals[above + strip + k] = totals[above + k] + sums[from + k];
  }
  starts.fill(0);
  ends.fill(labels === undefined ? rows : 0);
  for (let j = 0; j < rows; j++) {
    for (let c = 0; c < wide; c++) {
      if (labels !== undefined && ends[c] === j) {
        const label = labels[j * columns + left + c];
        let end = j + 1;
        while (end < rows && labels[end * columns + left + c] === label) end++;
        starts[c] = j;
        ends[c] = end;
      }
      const a = strip * (j - radius < starts[c] ? starts[c] : j - radius) + CHANNELS * c;
      const b = strip * (j + radius + 1 > ends[c] ? ends[c] : j + radius + 1) + CHANNELS * c;
      const k = CHANNELS * (j * columns + left + c);
      sums[k] = totals[b] - totals[a];
      sums[k + 1] = totals[b + 1] - totals[a + 1];
      sums[k + 2] = totals[b + 2] - totals[a + 2];
      sums[k + 3] = totals[b + 3] - totals[a + 3];
    }
  }
}

/** How often the window is passed over the cells; three boxes come near a Gaussian. */
const PASSES = 3;

/**
 * Smooths tensors within masses: sums over a window near a Gaussian of standard deviation `sigma` (in cells), cut at
 * the borders of the masses. Only ratios of the channels mean anything afterwards, so what is cut
 * off is missing from all alike (normalised convolution, Knutsson & Westin 1993).
 */
export function* smoothCells(cells: Cells, sigma: number): Kernel<void> {
  const { columns, rows, sums, labels } = cells;
  const wide = Math.round((Math.sqrt((12 * sigma * sigma) / PASSES + 1) - 1) / 2);
  const radius = Math.min(wide, Math.max(columns, rows));
  if (radius === 0) return;
  const totals = new Float64Array(CHANNELS * Math.max(columns + 1, STRIP * (rows + 1)));
  const starts = new Int32Array(STRIP);
  const ends = new Int32Array(STRIP);
  for (let pass = 0; pass < PASSES; pass++) {
    totals.fill(0, 0, CHANNELS);
    for (let j = 0; j < rows; j++) boxRow(sums, totals, j * columns, columns, radius, labels);
    yield (pass + 0.5) / PASSES;
    totals.fill(0, 0, CHANNELS * STRIP);
    for (let left = 0; left < columns; left += STRIP)
      boxColumns(cells, totals, left, radius, starts, ends);
    yield (pass + 1) / PASSES;
  }
}
