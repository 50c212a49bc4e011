import { expectNumber, expectObject, expectRaster, outOfRange } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import type { Lightness } from '../base/types.js';
import { stepBackKernel } from '../value/index.js';
import { smallestSeenMm } from '../units/index.js';
import { shrunkKernel } from './planes.js';

/** Constants of Wang, Bovik, Sheikh & Simoncelli 2004; codes go from 0 to 255. */
const C1 = (0.01 * 255) ** 2;
const C2 = (0.03 * 255) ** 2;

/** Their window: Gaussian weights of standard deviation 1.5 on 11 x 11 pixels. */
const RADIUS = 5;
const WEIGHTS = (() => {
  const bell = Array.from({ length: 2 * RADIUS + 1 }, (_, i) =>
    Math.exp(-((i - RADIUS) ** 2) / (2 * 1.5 ** 2)),
  );
  const sum = bell.reduce((all, weight) => all + weight, 0);
  return Float64Array.from(bell, (weight) => weight / sum);
})();

/**
 * The mean structural similarity of two planes (Wang, Bovik, Sheikh & Simoncelli 2004, "Image quality assessment: from error
 * visibility to structural similarity"): 1 for equal planes, about 0 for planes that have nothing to do with one another, below 0
 * for one that is the other's reverse. Means, variances and covariance are Gaussian-weighted over 11 x 11 pixels; pixels
 * nearer than 5 to the border do not count, save in planes under 11 pixels a side, where the border is mirrored.
 *
 * @throws TypeError, RangeError naming the argument, planes of different size too
 */
export function structuralSimilarity(a: Lightness, b: Lightness): number {
  return finish(structuralSimilarityKernel(a, b));
}

/** {@link structuralSimilarity} in slices. */
export function* structuralSimilarityKernel(a: Lightness, b: Lightness): Kernel<number> {
  expectRaster('a', a, 1);
  expectRaster('b', b, 1);
  if (a.width !== b.width || a.height !== b.height)
    throw outOfRange('b', `${b.width} x ${b.height}`, `the size of a, ${a.width} x ${a.height}`);
  const { width, height } = a;
  const inset = Math.min(width, height) > 2 * RADIUS ? RADIUS : 0;
  // Five weighted means a row: of a, b, their squares and their product; rows are kept while the window needs them.
  const lines = 2 * RADIUS + 1;
  const across = Array.from({ length: lines }, () => new Float64Array(5 * width));
  let ready = -1;
  let sum = 0;
  yield* byRows(height - 2 * inset, 12 * width, (from, to) => {
    for (let y = from + inset; y < to + inset; y++) {
      for (
        let row = Math.max(ready + 1, y - RADIUS);
        row <= Math.min(height - 1, y + RADIUS);
        row++
      ) {
        weighRow(a.data, b.data, width, row, across[row % lines]);
        ready = row;
      }
      const window = Array.from(
        { length: lines },
        (_, i) => across[mirrored(y + i - RADIUS, height) % lines],
      );
      sum += sumOfRow(window, width, inset);
    }
  });
  return sum / ((width - 2 * inset) * (height - 2 * inset));
}

/** A place beyond the border, mirrored back: -1 is 0, `size` is `size - 1`. */
function mirrored(at: number, size: number): number {
  const round = ((at % (2 * size)) + 2 * size) % (2 * size);
  return round < size ? round : 2 * size - 1 - round;
}

function weighRow(
  a: Uint8Array,
  b: Uint8Array,
  width: number,
  row: number,
  out: Float64Array,
): void {
  const start = row * width;
  for (let x = 0, k = 0; x < width; x++, k += 5) {
    let ma = 0;
    let mb = 0;
    let aa = 0;
    let bb = 0;
    let ab = 0;
    const inside = x >= RADIUS && x < width - RADIUS;
    for (let i = 0; i <= 2 * RADIUS; i++) {
      const at = start + (inside ? x + i - RADIUS : mirrored(x + i - RADIUS, width));
      const p = a[at];
      const q = b[at];
      const weight = WEIGHTS[i];
      const wp = weight * p;
      const wq = weight * q;
      ma += wp;
      mb += wq;
      aa += wp * p;
      bb += wq * q;
      ab += wp * q;
    }
    out[k] = ma;
    out[k + 1] = mb;
    out[k + 2] = aa;
    out[k + 3] = bb;
    out[k + 4] = ab;
  }
}

function sumOfRow(window: Float64Array[], width: number, inset: number): number {
  let sum = 0;
  for (let x = inset, k = 5 * inset; x < width - inset; x++, k += 5) {
    let ma = 0;
    let mb = 0;
    let aa = 0;
    let bb = 0;
    let ab = 0;
    for (let i = 0; i <= 2 * RADIUS; i++) {
      const line = window[i];
      const weight = WEIGHTS[i];
      ma += weight * line[k];
      mb += weight * line[k + 1];
      aa += weight * line[k + 2];
      bb += weight * line[k + 3];
      ab += weight * line[k + 4];
    }
    const va = aa - ma * ma;
    const vb = bb - mb * mb;
    const vab = ab - ma * mb;
    sum += ((2 * ma * mb + C1) * (2 * vab + C2)) / ((ma * ma + mb * mb + C1) * (va + vb + C2));
  }
  return sum;
}

/** From which structural similarity at step-back distance a painting is said to read as its plan, and as nearly so. No source. */
export const READS_FROM_AFAR = { well: 0.8, nearly: 0.6 };

export interface AfarOptions {
  /** Pixels of the planes for each millimetre of the paper, more than 0. */
  pxPerMm: number;
  /** From the eye to the paper, metres, at least 0. */
  distance: number;
  /** Decimal acuity (ISO 8596), 0.01..10; 1 by default. */
  acuity?: number;
}

/** How a painting reads beside its plan from some steps away. */
export interface FromAfar {
  /** Structural similarity of what is seen of both. */
  similarity: number;
  reads: 'well' | 'nearly' | 'not';
}

/** The most pixels a side on which similarity is taken: the window of 11 then spans masses (a tenth of the painting), not grain. */
const SIDE = 128;

/**
 * Whether a painting reads as its plan from some steps away: both planes as the eye sees them from there
 * (`stepBack`), brought to samples no finer than the smallest gap seen and at most 128 a side, and their
 * {@link structuralSimilarity}.
 *
 * @param planned,painting of one size
 * @throws TypeError, RangeError naming the argument
 */
export function readsFromAfar(
  planned: Lightness,
  painting: Lightness,
  options: AfarOptions,
): FromAfar {
  return finish(readsFromAfarKernel(planned, painting, options));
}

/** {@link readsFromAfar} in slices. */
export function* readsFromAfarKernel(
  planned: Lightness,
  painting: Lightness,
  options: AfarOptions,
): Kernel<FromAfar> {
  expectRaster('planned', planned, 1);
  expectRaster('painting', painting, 1);
  if (planned.width !== painting.width || planned.height !== painting.height)
    throw outOfRange('painting', `${painting.width} x ${painting.height}`, 'the size of planned');
  expectObject('options', options);
  expectNumber('options.pxPerMm', options.pxPerMm, Number.MIN_VALUE);
  const seen: Lightness[] = [];
  // Four times as fine as what is compared in the end is fine enough for the blur.
  const gap = smallestSeenMm(options.distance, options.acuity ?? 1) * options.pxPerMm;
  const longer = Math.max(planned.width, planned.height);
  const first = Math.max(1, Math.ceil(longer / (4 * SIDE)));
  const then = Math.max(1, Math.floor(gap / first / 2), Math.ceil(longer / first / SIDE));
  for (const plane of [planned, painting]) {
    const near = yield* shrunkKernel(plane, first);
    const afar = yield* stepBackKernel(near, { ...options, pxPerMm: options.pxPerMm / first });
    seen.push(yield* shrunkKernel(afar, then));
  }
  const similarity = yield* structuralSimilarityKernel(seen[0], seen[1]);
  const reads =
    similarity >= READS_FROM_AFAR.well
      ? 'well'
      : similarity >= READS_FROM_AFAR.nearly
        ? 'nearly'
        : 'not';
  return { similarity, reads };
}
