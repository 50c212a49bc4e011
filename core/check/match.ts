import { expectNumber, expectRaster, outOfRange } from '../base/check.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lightness } from '../base/types.js';

/** How a picture lies that may be the painting. */
export type PictureLie = 'straight' | 'mirrored' | 'upside-down' | 'mirrored-upside-down';

/** What {@link matchOf} finds. */
export interface PaintingMatch {
  /** Pearson's correlation of plan and painting, as they lie (-1..1); 0 where one of them is of one tone. */
  correlation: number;
  /** The way it lies that has the highest correlation. */
  best: PictureLie;
  /** That correlation. */
  bestCorrelation: number;
  reasons: Reason[];
}

/** Cells a side on which pictures are compared: masses count, not their borders. */
const CELLS = 24;
/** Another way to lie must be so much better to be named. */
const CLEARLY = 0.15;
/** Below this correlation of the best way it is taken for another painting. */
const OTHER = 0.3;
/** Standard deviation of a plan, codes, under which there is too little to tell. */
const FLAT = 4;

/**
 * Whether a painting is that of the plan and lies the right way: correlations of mean codes over 24 x 24 cells.
 *
 * Reasons: `check.mirrored` { straight, mirrored }, `check.upside-down` { straight, turned }, `check.other-painting`
 * { correlation }: nothing in it lies as in the plan (percent, as all of them), `check.too-early` : the plan is still so even that this cannot be told.
 *
 * @param planned,painting of one size
 * @throws TypeError, RangeError naming the argument
 */
export function matchOf(planned: Lightness, painting: Lightness): PaintingMatch {
  expectRaster('planned', planned, 1);
  expectRaster('painting', painting, 1);
  if (planned.width !== painting.width || planned.height !== painting.height)
    throw outOfRange('painting', `${painting.width} x ${painting.height}`, 'the size of planned');
  const plan = cellsOf(planned);
  const cells = cellsOf(painting);
  const columns = Math.min(CELLS, planned.width);
  const rows = Math.min(CELLS, planned.height);
  const lies: Record<PictureLie, number> = {
    straight: correlationOf(plan, cells),
    mirrored: correlationOf(plan, turned(cells, columns, rows, true, false)),
    'upside-down': correlationOf(plan, turned(cells, columns, rows, true, true)),
    'mirrored-upside-down': correlationOf(plan, turned(cells, columns, rows, false, true)),
  };
  let best: PictureLie = 'straight';
  for (const lie of Object.keys(lies) as PictureLie[])
    if (lies[lie] > lies[best] + (best === 'straight' ? CLEARLY : 0)) best = lie;
  const percent = (value: number): number => Math.round(100 * value);
  const straight = percent(lies.straight);
  const reasons: Reason[] = [];
  if (deviationOf(plan) < FLAT) reasons.push(reason('check.too-early'));
  else if (lies[best] < OTHER)
    reasons.push(reason('check.other-painting', { correlation: percent(lies[best]) }));
  else if (best === 'mirrored' || best === 'mirrored-upside-down')
    reasons.push(reason('check.mirrored', { straight, mirrored: percent(lies[best]) }));
  else if (best === 'upside-down')
    reasons.push(reason('check.upside-down', { straight, turned: percent(lies[best]) }));
  return { correlation: lies.straight, best, bestCorrelation: lies[best], reasons };
}

/** Mean codes of a grid of cells, row by row. */
function cellsOf({ width, height, data }: Lightness): Float64Array {
  const columns = Math.min(CELLS, width);
  const rows = Math.min(CELLS, height);
  const out = new Float64Array(columns * rows);
  for (let j = 0; j < rows; j++) {
    const top = Math.floor((j * height) / rows);
    const end = Math.floor(((j + 1) * height) / rows);
    for (let i = 0; i < columns; i++) {
      const left = Math.floor((i * width) / columns);
      const right = Math.floor(((i + 1) * width) / columns);
      // In large cells every few rows will do.
      const step = Math.max(1, Math.floor((end - top) / 16));
      let sum = 0;
      let count = 0;
      for (let y = top; y < end; y += step)
        for (let x = left; x < right; x++, count++) sum += data[y * width + x];
      out[j * columns + i] = sum / count;
    }
  }
  return out;
}

function turned(
  cells: Float64Array,
  columns: number,
  rows: number,
  across: boolean,
  down: boolean,
): Float64Array {
  return cells.map(
    (_, k) =>
      cells[
        (down ? rows - 1 - Math.floor(k / columns) : Math.floor(k / columns)) * columns +
          (across ? columns - 1 - (k % columns) : k % columns)
      ],
  );
}

const meanOf = (values: Float64Array): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

function deviationOf(values: Float64Array): number {
  const mean = meanOf(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
}

/** Pearson's correlation coefficient; 0 when one of the two is of one tone. */
export function correlationOf(a: Float64Array, b: Float64Array): number {
  expectNumber('b.length', b.length, a.length, a.length);
  const ma = meanOf(a);
  const mb = meanOf(b);
  let aa = 0;
  let bb = 0;
  let ab = 0;
  for (let i = 0; i < a.length; i++) {
    aa += (a[i] - ma) ** 2;
    bb += (b[i] - mb) ** 2;
    ab += (a[i] - ma) * (b[i] - mb);
  }
  return aa > 1e-9 && bb > 1e-9 ? ab / Math.sqrt(aa * bb) : 0;
}
