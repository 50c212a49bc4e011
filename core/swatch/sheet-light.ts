/**
 * The light on a sheet: for each channel of linear light a polynomial in the picture's coordinates, fitted to bare paper. What is not
 * bare paper is forgotten by Tukey's biweight; all channels share the weights, since paint may leave one of them as it is.
 */
import type { Kernel } from '../base/kernel.js';
import { medianOf, NORMAL_MAD, tukeyWeight, weightedLeastSquares } from '../geometry/fit.js';
import type { LightPicture } from './sheet-find.js';

/** Terms of a polynomial in two variables up to a degree. */
export const termsOf = (degree: number): number => ((degree + 1) * (degree + 2)) / 2;

/**
 * Paper as photographed, linear light 0..1: a polynomial a channel over u = 2 x / width - 1, v = 2 y / height - 1 of the picture; terms
 * u^(d - j) v^j, by d = 0..degree, then by j = 0..d. It holds for any copy of the picture, whatever its size.
 */
export interface SheetLight {
  degree: number;
  /** Red, green, blue. */
  channels: [Float64Array, Float64Array, Float64Array];
  /** Robust standard deviation of paper about the light, as a share of it. */
  residual: number;
}

/** A fitted light and how well paper follows it. */
export interface FittedLight {
  light: SheetLight;
  /** Standard deviation of single pixels within the paper's blocks, as a share of their light. */
  grain: number;
  /** Share of the sheet's blocks that were taken for bare paper. */
  share: number;
  /** Mean paper over light, a channel; 1 when all is well. */
  paper: [number, number, number];
  /** Middles of the paper's blocks, x and y by turns. */
  blocks: Float64Array;
}

/** Blocks that the fit works on, about. */
const BLOCKS = 9000;
/** Paper may depart from the light by so much at most (share) while the scale is being found. */
const FIRST_SCALE = 0.03;
/** Smallest scale: rounding to 8 bits alone moves a block's mean by about this much. */
const LEAST_SCALE = 0.0015;
const HIGHEST_DEGREE = 4;

interface Blocks {
  count: number;
  /** u, v of the middles. */
  at: Float64Array;
  /** Mean light, a channel. */
  values: [Float64Array, Float64Array, Float64Array];
  /** Standard deviation of the light within, as a share of it. */
  inner: Float64Array;
}

/**
 * Fits the light over the part of a picture that `inside` marks (non-zero). Undefined when there are too few blocks to say anything.
 */
export function* fitLight(
  picture: LightPicture,
  inside: Uint8Array,
): Kernel<FittedLight | undefined> {
  const blocks = yield* blocksOf(picture, inside);
  if (blocks.count < 40) return undefined;
  let fit = yield* upperFit(blocks);
  fit = yield* biweightFit(blocks, fit, 0.4);
  for (let degree = 3; degree <= HIGHEST_DEGREE; degree++) {
    if (!spreadOut(blocks, fit.weights)) break;
    const finer = yield* biweightFit(blocks, raised(fit, degree), 0.6 + 0.1 * (degree - 3));
    // A finer light must be worth its terms: paper follows it better, and no paper is lost to it.
    if (finer.scale > 0.93 * fit.scale || finer.share < 0.97 * fit.share) continue;
    fit = finer;
  }
  return summary(picture, blocks, fit);
}

interface Fit {
  degree: number;
  channels: Float64Array[];
  weights: Float64Array;
  scale: number;
  share: number;
}

function* blocksOf({ width, height, light }: LightPicture, inside: Uint8Array): Kernel<Blocks> {
  let area = 0;
  for (let i = 0; i < inside.length; i++) if (inside[i]) area++;
  const side = Math.max(1, Math.round(Math.sqrt(area / BLOCKS)));
  const columns = Math.floor(width / side);
  const rows = Math.floor(height / side);
  const at: number[] = [];
  const values: [number[], number[], number[]] = [[], [], []];
  const inner: number[] = [];
  const n = side * side;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const corner = row * side * width + column * side;
      const last = corner + (side - 1) * (width + 1);
      if (
        !inside[corner] ||
        !inside[last] ||
        !inside[corner + side - 1] ||
        !inside[last - side + 1]
      )
        continue;
      let r = 0;
      let g = 0;
      let b = 0;
      let squares = 0;
      for (let j = 0; j < side; j++) {
        for (let i = 0, k = 3 * (corner + j * width); i < side; i++, k += 3) {
          r += light[k];
          g += light[k + 1];
          b += light[k + 2];
          squares += light[k + 1] * light[k + 1];
        }
      }
      // A channel without light cannot be divided by.
      if (Math.min(r, g, b) <= 1e-4 * n) continue;
      at.push((2 * (column + 0.5) * side) / width - 1, (2 * (row + 0.5) * side) / height - 1);
      values[0].push(r / n);
      values[1].push(g / n);
      values[2].push(b / n);
      inner.push(Math.sqrt(Math.max(0, squares / n - (g / n) ** 2)) / (g / n));
    }
    if (row % 32 === 31) yield (0.3 * row) / rows;
  }
  return {
    count: inner.length,
    at: Float64Array.from(at),
    values: values.map((list) => Float64Array.from(list)) as Blocks['values'],
    inner: Float64Array.from(inner),
  };
}

function designOf({ count, at }: Blocks, degree: number): Float64Array {
  const terms = termsOf(degree);
  const design = new Float64Array(count * terms);
  for (let i = 0; i < count; i++) {
    const u = at[2 * i];
    const v = at[2 * i + 1];
    // Each degree is the one before times u, and its last term times v.
    let to = i * terms;
    design[to++] = 1;
    for (let d = 1; d <= degree; d++) {
      for (let j = 0; j < d; j++, to++) design[to] = design[to - d] * u;
      design[to] = design[to - d - 1] * v;
      to++;
    }
  }
  return design;
}

function fitted(design: Float64Array, coefficients: Float64Array): Float64Array {
  const terms = coefficients.length;
  return Float64Array.from({ length: design.length / terms }, (_, i) => {
    let sum = 0;
    for (let k = 0, at = i * terms; k < terms; k++, at++) sum += design[at] * coefficients[k];
    return sum;
  });
}

/** How far a value lies from the light, as a share of it; light that is not positive fits nothing. */
const departure = (value: number, light: number): number => (light > 1e-4 ? value / light - 1 : 9);

/**
 * The start: a light that lies on the upper side of what is there. Paper is lighter than the paint on it, so blocks that lie below the
 * light lose weight fast; blocks of one even tone count more than those with an edge inside.
 */
function* upperFit(blocks: Blocks): Kernel<Fit> {
  const { count, values, inner } = blocks;
  const even = medianOf(inner) * 2 + 0.004;
  let best: Fit | undefined;
  for (const degree of [1, 2]) {
    const design = designOf(blocks, degree);
    const weights = Float64Array.from({ length: count }, (_, i) => (inner[i] <= even ? 1 : 0.05));
    const own = weights.slice();
    let channels = best
      ? best.channels.map((channel) => padded(channel, degree))
      : weightedLeastSquares(design, termsOf(degree), values, weights);
    for (let round = 0; round < 12; round++) {
      const lights = channels.map((channel) => fitted(design, channel));
      for (let i = 0; i < count; i++) {
        const r = departure(values[1][i], lights[1][i]);
        // Below: fades over a few percent. Above: held, so that reflections do not lift the light.
        weights[i] = own[i] * (r < 0 ? Math.exp(r / 0.04) + 1e-4 : Math.min(1, 0.05 / (r + 1e-9)));
      }
      channels = weightedLeastSquares(design, termsOf(degree), values, weights);
      yield 0.3;
    }
    best = { degree, channels, weights, scale: FIRST_SCALE, share: 0 };
  }
  return best!;
}

const padded = (coefficients: Float64Array, degree: number): Float64Array => {
  const out = new Float64Array(termsOf(degree));
  out.set(coefficients);
  return out;
};

const raised = (fit: Fit, degree: number): Fit => ({
  ...fit,
  degree,
  channels: fit.channels.map((channel) => padded(channel, degree)),
  scale: Math.min(FIRST_SCALE, 3 * fit.scale),
});

/**
 * Iteratively reweighted least squares by Tukey's biweight of the largest departure of the three channels. The scale is the median absolute
 * departure (over 0.6745) of the blocks that are paper for all one knows, and never grows.
 */
function* biweightFit(blocks: Blocks, start: Fit, done: number): Kernel<Fit> {
  const { count, values } = blocks;
  const terms = termsOf(start.degree);
  const design = designOf(blocks, start.degree);
  let channels = start.channels;
  let scale = start.scale;
  const weights = new Float64Array(count);
  const size = new Float64Array(count);
  for (let round = 0; round < 20; round++) {
    const lights = channels.map((channel) => fitted(design, channel));
    const near: number[] = [];
    for (let i = 0; i < count; i++) {
      let largest = 0;
      for (let c = 0; c < 3; c++)
        largest = Math.max(largest, Math.abs(departure(values[c][i], lights[c][i])));
      size[i] = largest;
      if (largest < 3 * scale) near.push(largest);
    }
    if (near.length < 2 * terms) break;
    const next = Math.max(LEAST_SCALE, Math.min(scale, medianOf(near) / NORMAL_MAD));
    const settled = round > 3 && next > 0.99 * scale;
    scale = next;
    // Relative departures: a block counts by the inverse square of its light.
    for (let i = 0; i < count; i++) {
      const weight = tukeyWeight(size[i] / scale);
      weights[i] = weight / Math.max(1e-4, lights[1][i]) ** 2;
    }
    try {
      channels = weightedLeastSquares(design, terms, values, weights);
    } catch {
      break;
    }
    yield done;
    if (settled) break;
  }
  const share = countWithin(size, 4.685 * scale) / count;
  return { degree: start.degree, channels, weights, scale, share };
}

function countWithin(size: Float64Array, limit: number): number {
  let count = 0;
  for (let i = 0; i < size.length; i++) if (size[i] < limit) count++;
  return count;
}

/** Whether paper was seen in most parts of the sheet, so that a finer polynomial is held everywhere. */
function spreadOut({ count, at }: Blocks, weights: Float64Array): boolean {
  const cells = 6;
  let low = [1, 1];
  let high = [-1, -1];
  for (let i = 0; i < count; i++) {
    low = low.map((value, axis) => Math.min(value, at[2 * i + axis]));
    high = high.map((value, axis) => Math.max(value, at[2 * i + axis]));
  }
  const seen = new Uint8Array(cells * cells);
  const there = new Uint8Array(cells * cells);
  for (let i = 0; i < count; i++) {
    const [x, y] = [0, 1].map((axis) =>
      Math.min(
        cells - 1,
        Math.floor((cells * (at[2 * i + axis] - low[axis])) / (high[axis] - low[axis] + 1e-9)),
      ),
    );
    there[y * cells + x] = 1;
    if (weights[i] > 0) seen[y * cells + x] = 1;
  }
  return seen.reduce((a, b) => a + b, 0) >= 0.8 * there.reduce((a, b) => a + b, 0);
}

function summary({ width, height }: LightPicture, blocks: Blocks, fit: Fit): FittedLight {
  const { count, values, at } = blocks;
  const design = designOf(blocks, fit.degree);
  const lights = fit.channels.map((channel) => fitted(design, channel));
  const sums = [0, 0, 0];
  const middles: number[] = [];
  const departures: number[] = [];
  const grains: number[] = [];
  let total = 0;
  for (let i = 0; i < count; i++) {
    const weight = fit.weights[i] * Math.max(1e-4, lights[1][i]) ** 2;
    if (!(weight > 0)) continue;
    total += weight;
    for (let c = 0; c < 3; c++) sums[c] += (weight * values[c][i]) / lights[c][i];
    departures.push(Math.abs(departure(values[1][i], lights[1][i])));
    grains.push(blocks.inner[i]);
    middles.push(((at[2 * i] + 1) * width) / 2, ((at[2 * i + 1] + 1) * height) / 2);
  }
  return {
    light: {
      degree: fit.degree,
      channels: fit.channels as SheetLight['channels'],
      residual: departures.length > 0 ? medianOf(departures) / NORMAL_MAD : 1,
    },
    grain: grains.length > 0 ? medianOf(grains) : 0,
    share: fit.share,
    paper: sums.map((sum) => (total > 0 ? sum / total : 1)) as [number, number, number],
    blocks: Float64Array.from(middles),
  };
}

/** The light on a row of pixels: each channel's polynomial in u alone, lowest power first. */
export function rowLight({ degree, channels }: SheetLight, v: number): Float64Array[] {
  return channels.map((coefficients) => {
    const row = new Float64Array(degree + 1);
    let at = 0;
    for (let d = 0; d <= degree; d++)
      for (let j = 0; j <= d; j++) row[d - j] += coefficients[at++] * v ** j;
    return row;
  });
}

/** The light at a point, given in fractions of the picture; never below a thousandth. */
export function lightAt(light: SheetLight, x: number, y: number): [number, number, number] {
  return rowLight(light, 2 * y - 1).map((row) => Math.max(1e-3, powers(row, 2 * x - 1))) as [
    number,
    number,
    number,
  ];
}

/** A polynomial by Horner's rule. */
export function powers(row: Float64Array, u: number): number {
  let value = 0;
  for (let k = row.length - 1; k >= 0; k--) value = value * u + row[k];
  return value;
}
