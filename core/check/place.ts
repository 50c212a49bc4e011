import { expectNumber, expectRaster } from '../base/check.js';
import type { Lightness, Spot } from '../base/types.js';
import { correlationOf } from './match.js';

/** Where on a sheet its painted part is taken to lie. */
export interface PaintedPart {
  /** Left, top, right, bottom in fractions of the sheet. */
  box: [left: number, top: number, right: number, bottom: number];
  /** Correlation of plan and painting there (-1..1). */
  correlation: number;
}

/** Cells a side on which plan and painting are compared. */
const CELLS = 32;
/** The broadest margin looked at, as a share of the sheet, and the step. */
const WIDEST = 0.2;
const STEP = 0.01;
/** How far the proportions may be from those of the plan. */
const ASPECT = 0.08;

/**
 * Where on an upright sheet the painting of a plan lies: of the boxes with even margins (left as right, top as bottom) and about the plan's
 * proportions the one whose tones go best with the plan's.
 *
 * @param planned the plan as it should look now
 * @param sheet lightness of the whole sheet, upright
 * @param aspect width of the sheet by its height; that of the plane when absent
 * @throws TypeError, RangeError naming the argument
 */
export function paintedPartOf(planned: Lightness, sheet: Lightness, aspect?: number): PaintedPart {
  expectRaster('planned', planned, 1);
  expectRaster('sheet', sheet, 1);
  const broad = expectNumber('aspect', aspect ?? sheet.width / sheet.height, 1e-3, 1e3);
  const wanted = planned.width / planned.height;
  const sums = sumsOf(sheet);
  const plan = cellsIn(planned, sumsOf(planned), [0, 0, 1, 1]);
  let best: PaintedPart = { box: [0, 0, 1, 1], correlation: -2 };
  for (let x = 0; x <= WIDEST + 1e-9; x += STEP)
    for (let y = 0; y <= WIDEST + 1e-9; y += STEP) {
      const is = (broad * (1 - 2 * x)) / (1 - 2 * y);
      if (Math.abs(Math.log(is / wanted)) > ASPECT) continue;
      const box: PaintedPart['box'] = [x, y, 1 - x, 1 - y];
      const correlation = correlationOf(plan, cellsIn(sheet, sums, box));
      if (correlation > best.correlation) best = { box, correlation };
    }
  return best.correlation === -2 ? { box: [0, 0, 1, 1], correlation: 0 } : best;
}

/** The corners of a box, in fractions. */
export function cornersOfBox([left, top, right, bottom]: PaintedPart['box']): [
  Spot,
  Spot,
  Spot,
  Spot,
] {
  return [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
}

/** Sums of all codes above and to the left (Crow 1984, "Summed-area tables for texture mapping"). */
function sumsOf({ width, height, data }: Lightness): Float64Array {
  const sums = new Float64Array((width + 1) * (height + 1));
  for (let y = 0; y < height; y++) {
    let row = 0;
    for (let x = 0; x < width; x++) {
      row += data[y * width + x];
      sums[(y + 1) * (width + 1) + x + 1] = sums[y * (width + 1) + x + 1] + row;
    }
  }
  return sums;
}

/** Mean codes of even cells of a box. */
function cellsIn(
  { width, height }: Lightness,
  sums: Float64Array,
  [left, top, right, bottom]: PaintedPart['box'],
): Float64Array {
  const column = (i: number): number =>
    Math.min(width - 1, Math.floor((left + ((right - left) * i) / CELLS) * width));
  const row = (j: number): number =>
    Math.min(height - 1, Math.floor((top + ((bottom - top) * j) / CELLS) * height));
  const across = width + 1;
  const out = new Float64Array(CELLS * CELLS);
  for (let j = 0; j < CELLS; j++)
    for (let i = 0; i < CELLS; i++) {
      const x0 = column(i);
      const y0 = row(j);
      const x1 = Math.max(x0 + 1, column(i + 1));
      const y1 = Math.max(y0 + 1, row(j + 1));
      const sum =
        sums[y1 * across + x1] -
        sums[y0 * across + x1] -
        sums[y1 * across + x0] +
        sums[y0 * across + x0];
      out[j * CELLS + i] = sum / ((x1 - x0) * (y1 - y0));
    }
  return out;
}
