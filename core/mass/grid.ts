import type { Kernel } from '../base/kernel.js';
import type { Lightness } from '../base/types.js';
import { guidedKernel } from '../value/guided.js';
import { stage } from '../value/stage.js';

/** A smaller brush in a part of the picture. */
export interface Focus {
  /** Non-zero where the smaller brush is used. */
  mask: Uint8Array;
  brushPx: number;
}

/**
 * What masses need of a picture, a brush and a focus, whatever the limits are: cells of `side` x `side` pixels with
 * their mean lightness, that plane smoothed at the brush's scale, and what each side between cells costs as a border.
 */
export interface MassTree {
  plane: Lightness;
  brushPx: number;
  focus?: Focus;
  /** Pixels along a cell's side; the last cells of rows and columns may be smaller. */
  side: number;
  /** Cells in a row, and rows of them. */
  columns: number;
  rows: number;
  /** Mean code of each cell, unsmoothed. */
  codes: Float32Array;
  /** Codes of the cells smoothed at the brush's scale, edges kept. */
  smooth: Uint8Array;
  /** Non-zero where at least half a cell lies in the focus. */
  fine?: Uint8Array;
  /** What a pixel's length of border costs between a cell and the next of its row, and the one below it (L* x pixels). */
  across: Float32Array;
  down: Float32Array;
}

/** Cells that are enough for the shapes of a brush; more only cost time (our own choice, by the bench). */
const CELLS = 300_000;
/** The fewest cells across a brush, else its discs become too coarse. */
const CELLS_A_BRUSH = 8;

/**
 * L* by which a dab as wide as the brush must differ from its surroundings to be worth its border. A round dab of width b
 * and contrast c spares `c pi/4 b^2` of error and has a border of `pi b`, so it stays when `c > 4 lambda / b`: lambda is
 * `WORTH b / 4`. Two L* is about what a painter can lay side by side on purpose and see (our own choice).
 */
const WORTH = 2;

/** What a pixel's length of border costs at a brush, in L* x pixels, where the picture has no edge. */
export const borderCost = (brushPx: number): number => (WORTH * brushPx) / 4;

/** L* of a step between neighbouring cells at which a border along it costs half. */
const EDGE = 2;

/** The part of its cost that is left of a border along a step of so many codes. */
export const ALONG_EDGE = Float32Array.from(
  { length: 256 },
  (_, step) => 1 / (1 + (step / 2.55 / EDGE) ** 2),
);

/** Half the window of the guided filter in brush widths, and the deviation in it that counts as detail, in codes. */
const WINDOW = 0.25;
const DETAIL = 5;

/** Pixels along a cell's side. */
export function cellSide(width: number, height: number, brushPx: number): number {
  const wanted = Math.ceil(Math.sqrt((width * height) / CELLS));
  const finest = Math.floor(brushPx / CELLS_A_BRUSH);
  return Math.max(1, Math.min(wanted, finest));
}

/** Means over cells. */
function meansOf(
  data: Uint8Array,
  width: number,
  height: number,
  side: number,
  columns: number,
  from: number,
  to: number,
  out: Float32Array,
): void {
  const sums = new Float64Array(columns);
  for (let row = from; row < to; row++) {
    const last = Math.min(height, (row + 1) * side);
    sums.fill(0);
    for (let y = row * side; y < last; y++) {
      let at = y * width;
      for (let column = 0; column < columns; column++) {
        const end = Math.min((y + 1) * width, at + side);
        let sum = 0;
        for (; at < end; at++) sum += data[at];
        sums[column] += sum;
      }
    }
    const high = last - row * side;
    for (let column = 0; column < columns; column++) {
      const wide = Math.min(width, (column + 1) * side) - column * side;
      out[row * columns + column] = sums[column] / (wide * high);
    }
  }
}

function* smoothKernel(
  codes: Uint8Array,
  columns: number,
  rows: number,
  brush: number,
): Kernel<Uint8Array> {
  const radius = Math.max(1, Math.round(WINDOW * brush));
  const smooth = yield* guidedKernel(codes, codes, columns, rows, radius, DETAIL * DETAIL);
  const out = new Uint8Array(smooth.length);
  for (let i = 0; i < out.length; i++) out[i] = smooth[i] + 0.5;
  return out;
}

/** What sides between cells cost: less along a step of the smoothed picture, where an eye expects a border. */
function borderCosts(tree: MassTree): void {
  const { columns, rows, smooth, fine, across, down, focus } = tree;
  const usual = borderCost(tree.brushPx);
  const finer = focus ? borderCost(focus.brushPx) : usual;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const at = row * columns + column;
      const cost = fine !== undefined && fine[at] !== 0 ? finer : usual;
      const code = smooth[at];
      if (column + 1 < columns) across[at] = cost * ALONG_EDGE[Math.abs(code - smooth[at + 1])];
      if (row + 1 < rows) down[at] = cost * ALONG_EDGE[Math.abs(code - smooth[at + columns])];
    }
  }
}

/**
 * Cells, smoothing and border costs of a picture for a brush: all that does not depend on the limits.
 * The plane is kept by reference and never written to.
 */
export function* gridKernel(plane: Lightness, brushPx: number, focus?: Focus): Kernel<MassTree> {
  const { width, height } = plane;
  const finest = focus ? Math.min(brushPx, focus.brushPx) : brushPx;
  const side = cellSide(width, height, finest);
  const columns = Math.ceil(width / side);
  const rows = Math.ceil(height / side);
  const codes = new Float32Array(columns * rows);
  const step = Math.max(1, Math.floor(500_000 / (width * side)));
  for (let row = 0; row < rows; row += step) {
    const to = Math.min(rows, row + step);
    meansOf(plane.data, width, height, side, columns, row, to, codes);
    yield (0.2 * to) / rows;
  }
  const rounded = new Uint8Array(codes.length);
  for (let i = 0; i < codes.length; i++) rounded[i] = codes[i] + 0.5;
  const smooth = yield* stage(smoothKernel(rounded, columns, rows, brushPx / side), 0.2, 0.6);
  let fine: Uint8Array | undefined;
  if (focus) {
    const shares = new Float32Array(columns * rows);
    const inside = Uint8Array.from(focus.mask, (value) => (value === 0 ? 0 : 1));
    meansOf(inside, width, height, side, columns, 0, rows, shares);
    fine = Uint8Array.from(shares, (share) => (share >= 0.5 ? 1 : 0));
    const finer = yield* stage(
      smoothKernel(rounded, columns, rows, focus.brushPx / side),
      0.6,
      0.95,
    );
    for (let i = 0; i < smooth.length; i++) if (fine[i] !== 0) smooth[i] = finer[i];
  }
  const across = new Float32Array(columns * rows);
  const down = new Float32Array(columns * rows);
  const tree = { plane, brushPx, focus, side, columns, rows, codes, smooth, fine, across, down };
  borderCosts(tree);
  return tree;
}
