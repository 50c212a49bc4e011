/**
 * Least squares that outliers cannot pull: M-estimates by iteratively reweighted least squares.
 *
 * Sources: Huber 1964, "Robust estimation of a location parameter" (weights 1 up to k, then k / |u|; k = 1.345); Beaton & Tukey 1974,
 * "The fitting of power series" (biweight (1 - (u / c)^2)^2, 0 from c on; c = 4.685). Both constants give 95 % of the efficiency of plain
 * least squares when all errors are normal. Scale: the median of the absolute residuals over 0.6745 (so that it is the standard
 * deviation of normal errors), taken anew in each round: Huber & Ronchetti 2009, "Robust Statistics", section 7.8.
 */
import { expectNumber, outOfRange, wrongType } from '../base/check.js';

/** Constants for 95 % efficiency at normal errors. */
export const HUBER_K = 1.345;
export const TUKEY_C = 4.685;
/** Median of the absolute value of a standard normal number: the normal quantile of 0.75. */
export const NORMAL_MAD = 0.6744897501960817;

/** Huber's weight of a residual of `u` scales. */
export function huberWeight(u: number, k = HUBER_K): number {
  const size = Math.abs(u);
  return size <= k ? 1 : k / size;
}

/** Tukey's biweight of a residual of `u` scales. */
export function tukeyWeight(u: number, c = TUKEY_C): number {
  const share = u / c;
  return Math.abs(share) >= 1 ? 0 : (1 - share * share) ** 2;
}

/**
 * The median; of an even count the mean of the two in the middle.
 * @param values at least one; they are not changed
 */
export function medianOf(values: ArrayLike<number>): number {
  if (values.length === 0) throw outOfRange('values', [], 'at least one number');
  const sorted = Float64Array.from(values).sort();
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

/** How {@link robustFit} weighs. */
export interface RobustOptions {
  /** `'tukey'` forgets outliers and needs a start that is nearly right; `'huber'` only holds them. */
  weight: 'huber' | 'tukey';
  /** Where to start; plain least squares when absent. */
  start?: ArrayLike<number>;
  /** Rounds at most (default 50). */
  rounds?: number;
  /** Ends when the residuals change by less than this share of their size (default 1e-4, at least 1e-12). */
  tolerance?: number;
  /** The scale is not taken smaller than this (default 0). */
  leastScale?: number;
}

/** What {@link robustFit} finds. */
export interface RobustFit {
  coefficients: Float64Array;
  /** Robust standard deviation of the residuals. */
  scale: number;
  /** One for each value, 0..1. */
  weights: Float64Array;
  rounds: number;
}

/**
 * Fits `values` by a linear model, robustly.
 *
 * @param design one row of `columns` numbers a value, row-major (a column of ones is the caller's)
 * @param values as many as the design has rows, at least as many as columns
 * @throws TypeError, RangeError naming the argument; RangeError when the design does not say all coefficients
 */
export function robustFit(
  design: Float64Array,
  columns: number,
  values: Float64Array,
  options: RobustOptions,
): RobustFit {
  const { rounds, tolerance, leastScale } = expectFit(design, columns, values, options);
  const weightOf = options.weight === 'huber' ? huberWeight : tukeyWeight;
  const count = values.length;
  const weights = new Float64Array(count).fill(1);
  let coefficients = options.start
    ? Float64Array.from(options.start)
    : weightedLeastSquares(design, columns, [values], weights)[0];
  let residuals = residualsOf(design, columns, values, coefficients);
  let round = 0;
  let scale = 0;
  for (; round < rounds; round++) {
    scale = Math.max(leastScale, scaleOf(residuals));
    if (scale === 0) break;
    for (let i = 0; i < count; i++) weights[i] = weightOf(residuals[i] / scale);
    coefficients = weightedLeastSquares(design, columns, [values], weights)[0];
    const next = residualsOf(design, columns, values, coefficients);
    const change = changeOf(residuals, next);
    residuals = next;
    if (change <= tolerance) break;
  }
  return { coefficients, scale, weights, rounds: round };
}

function expectFit(
  design: Float64Array,
  columns: number,
  values: Float64Array,
  options: RobustOptions,
): { rounds: number; tolerance: number; leastScale: number } {
  if (!(design instanceof Float64Array)) throw wrongType('design', design, 'a Float64Array');
  if (!(values instanceof Float64Array)) throw wrongType('values', values, 'a Float64Array');
  if (!Number.isInteger(columns) || columns < 1 || design.length !== columns * values.length)
    throw outOfRange('columns', columns, `${design.length} / ${values.length}, a whole number`);
  if (values.length < columns)
    throw outOfRange('values', values, `at least ${columns} values, as many as coefficients`);
  if (options.weight !== 'huber' && options.weight !== 'tukey')
    throw outOfRange('options.weight', options.weight, "'huber' or 'tukey'");
  return {
    rounds: expectNumber('options.rounds', options.rounds ?? 50, 0, 1000),
    tolerance: expectNumber('options.tolerance', options.tolerance ?? 1e-4, 1e-12, 1),
    leastScale: expectNumber('options.leastScale', options.leastScale ?? 0, 0),
  };
}

/** Robust standard deviation of residuals about 0. */
export function scaleOf(residuals: ArrayLike<number>): number {
  return medianOf(Float64Array.from(residuals, Math.abs)) / NORMAL_MAD;
}

function changeOf(before: Float64Array, after: Float64Array): number {
  let change = 0;
  let size = 0;
  for (let i = 0; i < before.length; i++) {
    change += (before[i] - after[i]) ** 2;
    size += before[i] ** 2;
  }
  return Math.sqrt(change / Math.max(1e-300, size));
}

function residualsOf(
  design: Float64Array,
  columns: number,
  values: Float64Array,
  coefficients: Float64Array,
): Float64Array {
  return values.map((value, i) => {
    let fitted = 0;
    for (let j = 0; j < columns; j++) fitted += design[i * columns + j] * coefficients[j];
    return value - fitted;
  });
}

/**
 * Weighted least squares of several sets of values over one design, by the normal equations and Cholesky's decomposition. Columns
 * are scaled to the same length first.
 *
 * @returns the coefficients of each set
 * @throws RangeError when the weighted design does not say all coefficients
 */
export function weightedLeastSquares(
  design: Float64Array,
  columns: number,
  sets: readonly Float64Array[],
  weights: Float64Array,
): Float64Array[] {
  const n = columns;
  const normal = new Float64Array(n * n);
  const right = sets.map(() => new Float64Array(n));
  for (let i = 0, at = 0; i < weights.length; i++, at += n) {
    const weight = weights[i];
    if (weight === 0) continue;
    for (let j = 0; j < n; j++) {
      const wx = weight * design[at + j];
      for (let k = 0; k <= j; k++) normal[j * n + k] += wx * design[at + k];
      for (let s = 0; s < sets.length; s++) right[s][j] += wx * sets[s][i];
    }
  }
  const size = Float64Array.from({ length: n }, (_, j) => Math.sqrt(normal[j * n + j]) || 1);
  // Cholesky, in place: normal = L L'.
  for (let j = 0; j < n; j++) {
    for (let k = 0; k <= j; k++) {
      let sum = normal[j * n + k] / (size[j] * size[k]);
      for (let m = 0; m < k; m++) sum -= normal[j * n + m] * normal[k * n + m];
      if (j > k) normal[j * n + k] = sum / normal[k * n + k];
      else {
        if (!(sum > 1e-12))
          throw outOfRange('design', design, `rows that say all ${n} coefficients`);
        normal[j * n + j] = Math.sqrt(sum);
      }
    }
  }
  return right.map((b) => {
    const x = b.map((value, j) => value / size[j]);
    for (let j = 0; j < n; j++) {
      for (let k = 0; k < j; k++) x[j] -= normal[j * n + k] * x[k];
      x[j] /= normal[j * n + j];
    }
    for (let j = n - 1; j >= 0; j--) {
      for (let k = j + 1; k < n; k++) x[j] -= normal[k * n + j] * x[k];
      x[j] /= normal[j * n + j];
    }
    return x.map((value, j) => value / size[j]);
  });
}
