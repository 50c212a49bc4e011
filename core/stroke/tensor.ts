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
function downColumns(level: Level, y: number, smooth: Float32Array, slope: Float32Array): void {
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
  smooth: Float32Array,
  slope: Float32Array,
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
  const smooth = new Float32Array(level.width);
  const slope = new Float32Array(level.width);
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
  const { columns, rows, sums, labels, room } = cells;
  const every = size / cells.step;
  const edge = Math.ceil(reach(size) / size);
  const count = width - 2 * edge;
  if (count < 1 || height - 2 * edge < 1) return;
  const coarse = new Float32Array(CHANNELS * width * height);
  const smooth = new Float32Array(width);
  const slope = new Float32Array(width);
  for (let y = edge; y < height - edge; y++) {
    downColumns(level, y, smooth, slope);
    addRow(smooth, slope, edge, 1, count, 1, coarse, y * width + edge, undefined, 0);
  }
  yield 0.5;
  const needed = reach(size);
  yield* byRows(rows, columns, (from, to) => {
    for (let j = from; j < to; j++) {
      for (let i = 0; i < columns; i++) {
        const at = j * columns + i;
        for (let corner = 0; corner < 4; corner++) {
          const x = Math.floor(i / every) + (corner & 1);
          const y = Math.floor(j / every) + (corner >> 1);
          if (x >= width || y >= height) continue;
          const weight = (1 - Math.abs(i / every - x)) * (1 - Math.abs(j / every - y));
          if (weight === 0) continue;
          if (room !== undefined && labels !== undefined) {
            const cell = y * every * columns + x * every;
            if (room[cell] < needed || labels[cell] !== labels[at]) continue;
          }
          const k = CHANNELS * (y * width + x);
          for (let c = 0; c < CHANNELS; c++) sums[CHANNELS * at + c] += weight * coarse[k + c];
        }
      }
    }
  });
}

/** One row of a level reduced to half: the columns' sums of five rows, 1 4 6 4 1. */
function halveRow(level: Level, y: number, column: Float32Array): void {
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
  const column = new Float32Array(level.width);
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

/** Sums over a window along a line of cells, cut where the label changes. */
function boxLine(
  sums: Float32Array,
  line: Float32Array,
  first: number,
  stride: number,
  count: number,
  radius: number,
  labels: Int32Array | undefined,
): void {
  for (let n = 0, k = CHANNELS * first, m = 0; n < count; n++, k += CHANNELS * stride, m += 4) {
    line[m] = sums[k];
    line[m + 1] = sums[k + 1];
    line[m + 2] = sums[k + 2];
    line[m + 3] = sums[k + 3];
  }
  for (let start = 0; start < count;) {
    let end = count;
    if (labels !== undefined) {
      const label = labels[first + start * stride];
      end = start + 1;
      while (end < count && labels[first + end * stride] === label) end++;
    }
    let xx = 0;
    let xy = 0;
    let yy = 0;
    let floor = 0;
    for (let m = 4 * start; m < 4 * Math.min(end, start + radius); m += 4) {
      xx += line[m];
      xy += line[m + 1];
      yy += line[m + 2];
      floor += line[m + 3];
    }
    for (let n = start, k = CHANNELS * (first + start * stride); n < end; n++, k += 4 * stride) {
      if (n + radius < end) {
        const m = 4 * (n + radius);
        xx += line[m];
        xy += line[m + 1];
        yy += line[m + 2];
        floor += line[m + 3];
      }
      if (n - radius - 1 >= start) {
        const m = 4 * (n - radius - 1);
        xx -= line[m];
        xy -= line[m + 1];
        yy -= line[m + 2];
        floor -= line[m + 3];
      }
      sums[k] = xx;
      sums[k + 1] = xy;
      sums[k + 2] = yy;
      sums[k + 3] = floor;
    }
    start = end;
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
  const line = new Float32Array(CHANNELS * Math.max(columns, rows));
  for (let pass = 0; pass < PASSES; pass++) {
    for (let j = 0; j < rows; j++) boxLine(sums, line, j * columns, 1, columns, radius, labels);
    yield (pass + 0.5) / PASSES;
    for (let i = 0; i < columns; i++) boxLine(sums, line, i, columns, rows, radius, labels);
    yield (pass + 1) / PASSES;
  }
}
