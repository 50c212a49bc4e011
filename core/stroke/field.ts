import type { Lightness } from '../base/types.js';
import { expectNumber, expectObject, expectRaster, outOfRange, wrongType } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import { addContours } from './contour.js';
import { addTensors, CHANNELS, cellsFor, labelCells, smoothCells, type Cells } from './tensor.js';
import type { DirectionField } from './types.js';

/** Half a degree of the circle in radians: turns twice the angle into degrees. */
const HALF_DEGREES = 90 / Math.PI;

/** Coherence from which the picture alone decides; below it the contour takes over bit by bit (our own choice). */
export const MUTE = 0.3;

/** Contours are averaged over so many cells (standard deviation), enough that the steps of the raster even out (our own choice). */
const CONTOUR_CELLS = 4;

/** The labels of masses; a whole `Masses` fits. */
export interface Labelled {
  labels: Int32Array;
}

export interface DirectionOptions {
  /**
   * How broad a stretch of form one direction speaks for, in pixels, above 0: the brush's width, say. Gradients of all sizes up to
   * about this are taken, and averaged over a window of standard deviation half of it.
   */
  scalePx: number;
  /** Masses of the plane: nothing is taken across their borders. */
  masses?: Labelled;
}

interface Checked {
  scale: number;
  labels?: Int32Array;
}

export function expectLabels(
  name: string,
  masses: unknown,
  width: number,
  height: number,
): Int32Array {
  const { labels } = expectObject(name, masses) as { labels?: unknown };
  if (!(labels instanceof Int32Array)) throw wrongType(`${name}.labels`, labels, 'an Int32Array');
  if (labels.length !== width * height) {
    throw outOfRange(`${name}.labels`, labels, `${width} x ${height} = ${width * height} labels`);
  }
  return labels;
}

function checked(plane: Lightness, options: DirectionOptions): Checked {
  expectRaster('plane', plane, 1);
  expectObject('options', options);
  const scale = expectNumber('options.scalePx', options.scalePx, 0, 1e5);
  if (scale === 0) throw outOfRange('options.scalePx', scale, 'a number above 0');
  if (options.masses === undefined) return { scale };
  return {
    scale,
    labels: expectLabels('options.masses', options.masses, plane.width, plane.height),
  };
}

/** Directions on the cells: u, v of twice the angle along the form (any length) and the coherence. */
interface Grid {
  step: number;
  columns: number;
  rows: number;
  /** Three numbers a cell. */
  values: Float32Array;
  labels?: Int32Array;
}

function* tensors(plane: Lightness, { scale, labels }: Checked): Kernel<Cells> {
  const { width, height } = plane;
  const data = plane.data instanceof Uint8Array ? plane.data : new Uint8Array(plane.data);
  const cells = cellsFor(width, height, scale);
  if (labels !== undefined) yield* labelCells(cells, labels, width, height);
  yield* addTensors(data, width, height, scale, cells);
  yield* smoothCells(cells, scale / 2 / cells.step);
  return cells;
}

/** Smoothed structure tensors on a grid. */
export interface TensorGrid {
  /** Tensor (i, j) stands for the plane about the centre of pixel (i step, j step). */
  step: number;
  columns: number;
  rows: number;
  /**
   * Four numbers each: xx, xy, yy of the summed products of gradients, and the trace that rounding to codes alone would
   * give. Only their ratios mean anything.
   */
  tensors: Float32Array;
}

/** {@link structureTensor} in slices. */
export function* structureTensorKernel(
  plane: Lightness,
  options: DirectionOptions,
): Kernel<TensorGrid> {
  const { step, columns, rows, sums } = yield* tensors(plane, checked(plane, options));
  return { step, columns, rows, tensors: sums };
}

/**
 * The multi-scale structure tensor (Bigun & Granlund 1987, "Optimal orientation detection of linear symmetry"): products of
 * gradients at every octave up to the scale, averaged within masses by normalised convolution (Knutsson & Westin 1993).
 * Compact derivatives of eighth order (Lele 1992) make the direction of a grating right to a few hundredths of a degree.
 * @throws {TypeError | RangeError} see {@link directionField}
 */
export function structureTensor(plane: Lightness, options: DirectionOptions): TensorGrid {
  return finish(structureTensorKernel(plane, options));
}

/** Divides the tensors by their traces and turns them along the form; where they say little the contour is mixed in. */
function gridOf(cells: Cells, contours: Cells | undefined): Grid {
  const { step, columns, rows, sums, labels } = cells;
  const values = new Float32Array(3 * columns * rows);
  for (let k = 0, n = 0; k < sums.length; k += CHANNELS, n += 3) {
    const trace = sums[k] + sums[k + 2] + sums[k + 3];
    let u = 0;
    let v = 0;
    if (trace > 0) {
      u = (sums[k + 2] - sums[k]) / trace;
      v = (-2 * sums[k + 1]) / trace;
    }
    const coherence = Math.min(1, Math.hypot(u, v));
    if (contours !== undefined && coherence < MUTE && contours.sums[k + 3] > 0) {
      const part = ((1 - coherence / MUTE) * MUTE) / contours.sums[k + 3];
      u += part * (contours.sums[k + 2] - contours.sums[k]);
      v += part * -2 * contours.sums[k + 1];
    }
    values[n] = u;
    values[n + 1] = v;
    values[n + 2] = coherence;
  }
  return labels === undefined
    ? { step, columns, rows, values }
    : { step, columns, rows, values, labels };
}

/**
 * Degrees 0 <= angle < 180 of the doubled direction (u, v); 0 for none. The arc tangent is the polynomial 4.4.47 of
 * Abramowitz & Stegun 1964 (within 1e-5, i.e. 0.0003 degree here).
 */
function degreesOf(u: number, v: number): number {
  const a = Math.abs(u);
  const b = Math.abs(v);
  const steep = b > a;
  const most = steep ? b : a;
  if (!(most > 0)) return 0;
  const t = (steep ? a : b) / most;
  const s = t * t;
  let turn = t * (0.999866 + s * (-0.3302995 + s * (0.180141 + s * (-0.085133 + s * 0.0208351))));
  if (steep) turn = Math.PI / 2 - turn;
  if (u < 0) turn = Math.PI - turn;
  if (v < 0) turn = 2 * Math.PI - turn;
  const degrees = turn * HALF_DEGREES;
  // The largest number of single precision below 180.
  return degrees < 179.99998 ? degrees : 0;
}

/** One row of pixels between two rows of cells, without masses. */
function spreadRow(
  grid: Grid,
  y: number,
  width: number,
  angle: Float32Array,
  coherence: Float32Array,
): void {
  const { step, columns, rows, values } = grid;
  const j = Math.floor(y / step);
  const low = (y - j * step) / step;
  const high = 1 - low;
  let a = 3 * j * columns;
  let b = j + 1 < rows ? a + 3 * columns : a;
  const part = 1 / step;
  let at = y * width;
  let u = high * values[a] + low * values[b];
  let v = high * values[a + 1] + low * values[b + 1];
  let c = high * values[a + 2] + low * values[b + 2];
  for (let x = 0; x < width; x += step) {
    a += x + step < step * columns ? 3 : 0;
    b += x + step < step * columns ? 3 : 0;
    const nextU = high * values[a] + low * values[b];
    const nextV = high * values[a + 1] + low * values[b + 1];
    const nextC = high * values[a + 2] + low * values[b + 2];
    const du = (nextU - u) * part;
    const dv = (nextV - v) * part;
    const dc = (nextC - c) * part;
    const end = Math.min(step, width - x);
    for (let n = 0; n < end; n++, at++) {
      angle[at] = degreesOf(u, v);
      coherence[at] = c;
      u += du;
      v += dv;
      c += dc;
    }
    u = nextU;
    v = nextV;
    c = nextC;
  }
}

/** Whether any of the four corners of (i, j) has another label than the pixels of its block. */
function blockIsOne(
  grid: Grid,
  i: number,
  j: number,
  pixels: Int32Array,
  width: number,
  height: number,
): boolean {
  const { step, columns, rows } = grid;
  const labels = grid.labels!;
  const at = j * columns + i;
  const label = labels[at];
  const right = i + 1 < columns ? 1 : 0;
  const down = j + 1 < rows ? columns : 0;
  if (
    labels[at + right] !== label ||
    labels[at + down] !== label ||
    labels[at + down + right] !== label
  )
    return false;
  const bottom = Math.min(height, (j + 1) * step);
  const end = Math.min(width, (i + 1) * step);
  for (let y = j * step; y < bottom; y++) {
    for (let k = y * width + i * step; k < y * width + end; k++) {
      if (pixels[k] !== label) return false;
    }
  }
  return true;
}

/** Sums of the cells of each mass that is asked for, for pixels that no cell of their mass is near. */
class MassMeans {
  #sums?: Map<number, [number, number, number, number]>;

  constructor(readonly grid: Grid) {}

  of(label: number): [u: number, v: number, coherence: number] {
    if (!this.#sums) {
      this.#sums = new Map();
      const labels = this.grid.labels!;
      for (let at = 0; at < labels.length; at++) {
        let sum = this.#sums.get(labels[at]);
        if (!sum) this.#sums.set(labels[at], (sum = [0, 0, 0, 0]));
        for (let c = 0; c < 3; c++) sum[c] += this.grid.values[3 * at + c];
        sum[3]++;
      }
    }
    const sum = this.#sums.get(label);
    return sum ? [sum[0] / sum[3], sum[1] / sum[3], sum[2] / sum[3]] : [0, 0, 0];
  }
}

/** One pixel near a border: from the cells of its own mass among the sixteen about it, the nearer the more. */
function ownPixel(
  grid: Grid,
  x: number,
  y: number,
  label: number,
  means: MassMeans,
  out: Float64Array,
): void {
  const { step, columns, rows, values } = grid;
  const labels = grid.labels!;
  const i0 = Math.floor(x / step);
  const j0 = Math.floor(y / step);
  let total = 0;
  out.fill(0);
  for (let j = Math.max(0, j0 - 1); j <= Math.min(rows - 1, j0 + 2); j++) {
    for (let i = Math.max(0, i0 - 1); i <= Math.min(columns - 1, i0 + 2); i++) {
      if (labels[j * columns + i] !== label) continue;
      const apart = Math.max(Math.abs(x / step - i), Math.abs(y / step - j));
      const weight =
        (apart < 1 ? 1 : 0) * (1 - Math.abs(x / step - i)) * (1 - Math.abs(y / step - j)) +
        1e-6 / (1 + apart);
      const k = 3 * (j * columns + i);
      out[0] += weight * values[k];
      out[1] += weight * values[k + 1];
      out[2] += weight * values[k + 2];
      total += weight;
    }
  }
  if (total === 0) out.set(means.of(label));
  else for (let c = 0; c < 3; c++) out[c] /= total;
}

/** One row of cells' worth of pixels, each from cells of its own mass only. */
function spreadWithin(
  grid: Grid,
  j: number,
  pixels: Int32Array,
  width: number,
  height: number,
  means: MassMeans,
  angle: Float32Array,
  coherence: Float32Array,
): void {
  const { step, columns, rows, values } = grid;
  const own = new Float64Array(3);
  const bottom = Math.min(height, (j + 1) * step);
  for (let i = 0; i * step < width; i++) {
    const one = blockIsOne(grid, i, j, pixels, width, height);
    const end = Math.min(width, (i + 1) * step);
    const a = 3 * (j * columns + i);
    const b = i + 1 < columns ? a + 3 : a;
    const below = j + 1 < rows ? 3 * columns : 0;
    for (let y = j * step; y < bottom; y++) {
      const low = (y - j * step) / step;
      for (let x = i * step; x < end; x++) {
        const at = y * width + x;
        if (!one) {
          ownPixel(grid, x, y, pixels[at], means, own);
          angle[at] = degreesOf(own[0], own[1]);
          coherence[at] = own[2];
          continue;
        }
        const right = (x - i * step) / step;
        const wa = (1 - right) * (1 - low);
        const wb = right * (1 - low);
        const wc = (1 - right) * low;
        const wd = right * low;
        angle[at] = degreesOf(
          wa * values[a] + wb * values[b] + wc * values[a + below] + wd * values[b + below],
          wa * values[a + 1] +
            wb * values[b + 1] +
            wc * values[a + below + 1] +
            wd * values[b + below + 1],
        );
        coherence[at] =
          wa * values[a + 2] +
          wb * values[b + 2] +
          wc * values[a + below + 2] +
          wd * values[b + below + 2];
      }
    }
  }
}

/** {@link directionField} in slices. */
export function* directionKernel(
  plane: Lightness,
  options: DirectionOptions,
): Kernel<DirectionField> {
  const settings = checked(plane, options);
  const { width, height } = plane;
  const cells = yield* tensors(plane, settings);
  let contours: Cells | undefined;
  if (cells.labels !== undefined) {
    contours = { ...cells, sums: new Float32Array(cells.sums.length) };
    yield* addContours(contours, cells.labels);
    yield* smoothCells(contours, CONTOUR_CELLS);
  }
  const grid = gridOf(cells, contours);
  const angle = new Float32Array(width * height);
  const coherence = new Float32Array(width * height);
  const { labels } = settings;
  if (labels === undefined) {
    yield* byRows(height, width, (from, to) => {
      for (let y = from; y < to; y++) spreadRow(grid, y, width, angle, coherence);
    });
  } else {
    const means = new MassMeans(grid);
    yield* byRows(Math.ceil(height / grid.step), width * grid.step, (from, to) => {
      for (let j = from; j < to; j++)
        spreadWithin(grid, j, labels, width, height, means, angle, coherence);
    });
  }
  return { width, height, angle, coherence };
}

/**
 * Which way the form runs at each pixel: along stripes, hairs, folds, across the gradient.
 *
 * The {@link structureTensor} gives the direction and the coherence, the difference of its eigenvalues over their sum (with
 * what rounding to codes adds by chance). With masses nothing is taken across their borders, and where
 * the picture is mute inside a mass (coherence below 0.3) the direction turns to that of the
 * mass's contour, the lines of equal distance from its border; the frame of the picture is no contour. Coherence always
 * speaks of the picture alone. The work does not grow with the scale.
 *
 * @returns planes of the plane's size: degrees clockwise from +x (y down), 0 <= angle < 180, and coherence 0 (mute) .. 1. A
 * flat or tiny plane has coherence 0 and, without masses, angle 0.
 * @throws {TypeError | RangeError} a scale that is not above 0 and at most 1e5, masses of another size
 */
export function directionField(plane: Lightness, options: DirectionOptions): DirectionField {
  return finish(directionKernel(plane, options));
}
