import { expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import type { Lightness } from '../base/types.js';
import {
  applyHomography,
  chainHomographies,
  SAME_PLACE,
  type Homography,
} from '../geometry/index.js';
import { robustFit } from '../geometry/fit.js';
import type { Masses } from '../mass/types.js';
import { expectFitting, expectMasses } from './regions.js';
import { shrunkKernel, tonePlaneKernel } from './planes.js';
import { cornersOf } from './rectify.js';

export interface AlignOptions {
  /** L* of each region as it should look now (paper where nothing is laid yet). */
  expected: readonly number[];
  /** The farthest that borders are looked for, as a share of the longer side (default 0.03, at most 0.1). */
  reach?: number;
}

/** How a plan lies on a painting. */
export interface Alignment {
  /** From plan pixels to pixels of the painting. */
  map: Homography;
  /** Whether enough borders were found; if not, `map` leaves all where it is. */
  found: boolean;
  /** Share of the looked-for places on mass borders at which the painting has the border (0..1). */
  share: number;
  /** The farthest a corner of the plan moves, pixels. */
  moved: number;
  /** Robust standard deviation of the distance between painted and planned borders after it, pixels: slack of the drawing. */
  slack: number;
}

/** Steps of fewer L* are no borders to look for. */
const LEAST_STEP = 6;
/** Places looked at on one level. */
const PLACES = 3000;
/** The painted step must be at least this share of the planned one. */
const STEP_SHARE = 0.25;
/** Below this share of found places, or with fewer places than 40, nothing is moved. */
const LEAST_SHARE = 0.4;
const LEAST_PLACES = 40;
/** Longer side of the coarsest level. */
const COARSE = 200;
/** Longer side of the finest level: borders are told to a tenth of its pixels. */
export const FINE = 1200;
/** How many places' worth of weight speaks for leaving all as it is: it decides only what no border tells. */
const STILL = 2;

/**
 * Lays the plan on the painting by the borders of its masses: at places along them the painting is searched across the border for its
 * step from dark to light, and the homography that brings plan to painting is the one with the least robust sum of squared distances
 * across the borders (iterated closest points with point-to-line distances, Chen & Medioni 1992; Tukey's
 * weights), from a coarse to a fine size. What one tone was painted in does not matter, only which side is lighter.
 *
 * @param painting of the size of the masses, already brought upright as far as its corners tell
 * @throws TypeError, RangeError naming the argument
 */
export function alignToPlan(masses: Masses, painting: Lightness, options: AlignOptions): Alignment {
  return finish(alignToPlanKernel(masses, painting, options));
}

/** {@link alignToPlan} in slices. */
export function* alignToPlanKernel(
  masses: Masses,
  painting: Lightness,
  options: AlignOptions,
): Kernel<Alignment> {
  expectMasses('masses', masses);
  expectFitting('painting', painting, masses);
  expectObject('options', options);
  const { expected } = options;
  if (!Array.isArray(expected)) throw wrongType('options.expected', expected, 'L* of each region');
  if (expected.length !== masses.regions.length)
    throw outOfRange('options.expected', expected, `${masses.regions.length} L*`);
  expected.forEach((tone, i) => expectNumber(`options.expected[${i}]`, tone, 0, 100));
  const reach = expectNumber('options.reach', options.reach ?? 0.03, 0, 0.1);

  return yield* alignPlanesKernel(yield* tonePlaneKernel(masses, expected), painting, reach);
}

/** The same for a plane that shows each mass in one tone (as large as the painting's, and no finer than need be). */
export function* alignPlanesKernel(
  planned: Lightness,
  painting: Lightness,
  reach: number,
): Kernel<Alignment> {
  const longer = Math.max(planned.width, planned.height);
  const factors: number[] = [];
  for (let by = 2 ** Math.max(0, Math.ceil(Math.log2(longer / FINE))); ; by *= 2) {
    factors.unshift(by);
    if (longer / (2 * by) < COARSE) break;
  }
  let map: Homography = SAME_PLACE;
  let share = 0;
  let slack = 0;
  let places = 0;
  for (const [level, by] of factors.entries()) {
    const plan = smoothed(yield* shrunkKernel(planned, by));
    const paint = smoothed(yield* shrunkKernel(painting, by));
    const borders = bordersOf(plan);
    places = borders.count;
    if (places < LEAST_PLACES) continue;
    const widest = level === 0 ? Math.max(3, (reach * longer) / by) : 4;
    const narrowest = 2;
    const rounds = level === 0 ? 10 : 5;
    for (let round = 0; round < rounds; round++) {
      const window = Math.max(narrowest, widest * 0.75 ** round);
      const found = searched(plan, paint, borders, map, by, window);
      share = found.count / places;
      if (found.count < LEAST_PLACES) break;
      const step = stepOf(found, by, longer);
      slack = step.scale * by;
      map = chainHomographies(step.map, map);
      yield (level + (round + 1) / rounds) / factors.length;
    }
  }
  const moved = Math.max(
    ...cornersOf(planned).map((corner) => {
      const [x, y] = applyHomography(map, corner);
      return Math.hypot(x - corner[0], y - corner[1]);
    }),
  );
  if (places < LEAST_PLACES || share < LEAST_SHARE || !(moved <= 2 * Math.max(3, reach * longer)))
    return { map: SAME_PLACE, found: false, share, moved: 0, slack: 0 };
  return { map, found: true, share, moved, slack };
}

/** A plane of fractions of codes. */
interface Soft {
  width: number;
  height: number;
  data: Float32Array;
}

/** Binomial weights 1 4 6 4 1 across and down: a step becomes a slope whose steepest place can be told to a part of a pixel. */
function smoothed({ width, height, data }: Lightness): Soft {
  const across = new Float32Array(width * height);
  const out = new Float32Array(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0, k = y * width; x < width; x++, k++) {
      const a = x > 1 ? k - 2 : y * width;
      const b = x > 0 ? k - 1 : k;
      const c = x < width - 1 ? k + 1 : k;
      const d = x < width - 2 ? k + 2 : (y + 1) * width - 1;
      across[k] = (data[a] + 4 * data[b] + 6 * data[k] + 4 * data[c] + data[d]) / 16;
    }
  for (let y = 0; y < height; y++) {
    const a = Math.max(0, y - 2) * width;
    const b = Math.max(0, y - 1) * width;
    const m = y * width;
    const c = Math.min(height - 1, y + 1) * width;
    const d = Math.min(height - 1, y + 2) * width;
    for (let x = 0; x < width; x++)
      out[m + x] =
        (across[a + x] +
          4 * across[b + x] +
          6 * across[m + x] +
          4 * across[c + x] +
          across[d + x]) /
        16;
  }
  return { width, height, data: out };
}

/** The code at a place in pixel coordinates, between the four nearest; the border is repeated. */
function codeAt({ width, height, data }: Soft, x: number, y: number): number {
  const px = Math.min(width - 1, Math.max(0, x - 0.5));
  const py = Math.min(height - 1, Math.max(0, y - 0.5));
  const x0 = Math.min(width - 1, px | 0);
  const y0 = Math.min(height - 1, py | 0);
  const right = x0 < width - 1 ? 1 : 0;
  const below = y0 < height - 1 ? width : 0;
  const k = y0 * width + x0;
  const fx = px - x0;
  const fy = py - y0;
  return (
    (1 - fy) * ((1 - fx) * data[k] + fx * data[k + right]) +
    fy * ((1 - fx) * data[k + below] + fx * data[k + below + right])
  );
}

/** Places on borders: where they lie, the direction across them towards the lighter side, the step in codes. */
interface Borders {
  count: number;
  x: Float64Array;
  y: Float64Array;
  nx: Float64Array;
  ny: Float64Array;
  step: Float64Array;
}

/** Places on the steepest ridge of the plan's slopes, evenly thinned out. */
function bordersOf(plan: Soft): Borders {
  const { width, height, data } = plan;
  const least = (LEAST_STEP * 2.55) / 4;
  const places: number[] = [];
  // Four times the square of the slope.
  const steep = (k: number): number => {
    const gx = data[k + 1] - data[k - 1];
    const gy = data[k + width] - data[k - width];
    return gx * gx + gy * gy;
  };
  for (let y = 3; y < height - 3; y++)
    for (let x = 3, k = y * width + 3; x < width - 3; x++, k++) {
      const gx = data[k + 1] - data[k - 1];
      const gy = data[k + width] - data[k - width];
      const size2 = gx * gx + gy * gy;
      if (size2 < 4 * least * least) continue;
      // The steepest of the three across the border.
      const size = Math.sqrt(size2);
      const across = Math.round(gx / size) + Math.round(gy / size) * width;
      if (size2 >= steep(k + across) && size2 > steep(k - across)) places.push(k);
    }
  const every = Math.max(1, places.length / PLACES);
  const count = Math.floor(places.length / every);
  const borders: Borders = {
    count,
    x: new Float64Array(count),
    y: new Float64Array(count),
    nx: new Float64Array(count),
    ny: new Float64Array(count),
    step: new Float64Array(count),
  };
  for (let i = 0; i < count; i++) {
    const k = places[Math.floor(i * every)];
    const gx = (data[k + 1] - data[k - 1]) / 2;
    const gy = (data[k + width] - data[k - width]) / 2;
    const size = Math.hypot(gx, gy);
    borders.x[i] = (k % width) + 0.5;
    borders.y[i] = Math.floor(k / width) + 0.5;
    borders.nx[i] = gx / size;
    borders.ny[i] = gy / size;
    borders.step[i] = size;
  }
  return borders;
}

interface Found {
  count: number;
  /** Plan pixels of the level. */
  x: Float64Array;
  y: Float64Array;
  nx: Float64Array;
  ny: Float64Array;
  /** How far across the border, towards the lighter side, the painting has it. */
  offset: Float64Array;
}

/** Distance between the readings across a border, pixels of the level. */
const STRIDE = 0.5;

function searched(
  plan: Soft,
  paint: Soft,
  borders: Borders,
  map: Homography,
  by: number,
  window: number,
): Found {
  const { count } = borders;
  const found: Found = {
    count: 0,
    x: new Float64Array(count),
    y: new Float64Array(count),
    nx: new Float64Array(count),
    ny: new Float64Array(count),
    offset: new Float64Array(count),
  };
  // The map in pixels of this level.
  const [a, b, c, d, e, f, g, h, w] = map;
  const [la, lb, lc, ld, le, lf, lg, lh] = [a, b, c / by, d, e, f / by, g * by, h * by];
  const reach = Math.ceil(window / STRIDE);
  const slopes = new Float64Array(2 * reach + 1);
  const codes = new Float64Array(2 * reach + 5);
  for (let i = 0; i < count; i++) {
    const x = borders.x[i];
    const y = borders.y[i];
    const nx = borders.nx[i];
    const ny = borders.ny[i];
    const at = (t: number): number => {
      const u = x + t * nx;
      const v = y + t * ny;
      const q = 1 / (lg * u + lh * v + w);
      return codeAt(paint, (la * u + lb * v + lc) * q, (ld * u + le * v + lf) * q);
    };
    // Readings a stride apart serve every slope they belong to: a slope spans two pixels, four strides.
    for (let s = -reach - 2; s <= reach + 2; s++) codes[s + reach + 2] = at(s * STRIDE);
    let best = 0;
    let steepest = 0;
    for (let s = -reach; s <= reach; s++) {
      const slope = (codes[s + reach + 4] - codes[s + reach]) / 2;
      slopes[s + reach] = slope;
      // Of two alike the nearer.
      const worth = slope * (1 - (0.5 * Math.abs(s)) / reach);
      if (worth > steepest) {
        steepest = worth;
        best = s;
      }
    }
    const top = slopes[best + reach];
    if (Math.abs(best) === reach || !(top >= STEP_SHARE * borders.step[i])) continue;
    const own = middleOf((t) => slopeAt(plan, x, y, nx, ny, t), 0);
    const theirs = middleOf((t) => (at(t + 1) - at(t - 1)) / 2, best * STRIDE);
    const k = found.count++;
    found.x[k] = x;
    found.y[k] = y;
    found.nx[k] = nx;
    found.ny[k] = ny;
    found.offset[k] = theirs - own;
  }
  return found;
}

function slopeAt(plan: Soft, x: number, y: number, nx: number, ny: number, t: number): number {
  return (
    (codeAt(plan, x + (t + 1) * nx, y + (t + 1) * ny) -
      codeAt(plan, x + (t - 1) * nx, y + (t - 1) * ny)) /
    2
  );
}

/** Half the width of the stretch in which the middle of a border is taken, pixels of the level. */
const HALF_STRETCH = 3;

/** The middle of a border near `from`: the mean place of its slope, in two rounds. */
function middleOf(slope: (t: number) => number, from: number): number {
  let middle = from;
  for (let round = 0; round < 2; round++) {
    let sum = 0;
    let moment = 0;
    for (let t = -HALF_STRETCH; t <= HALF_STRETCH; t += STRIDE) {
      const value = Math.max(0, slope(middle + t));
      sum += value;
      moment += t * value;
    }
    if (sum > 0) middle += moment / sum;
  }
  return middle;
}

/** The small homography, in full pixels of the plan, whose moves across the borders are nearest to those found. */
function stepOf(found: Found, by: number, longer: number): { map: Homography; scale: number } {
  // Coordinates about -1..1, so that all eight unknowns are lengths of the level.
  const half = longer / by / 2;
  const { count } = found;
  const rows = count + 8;
  const design = new Float64Array(8 * rows);
  const values = new Float64Array(rows);
  for (let i = 0; i < count; i++) {
    const x = (found.x[i] - half) / half;
    const y = (found.y[i] - half) / half;
    const nx = found.nx[i];
    const ny = found.ny[i];
    const out = nx * x + ny * y;
    design.set([nx * x, nx * y, nx, ny * x, ny * y, ny, -x * out, -y * out], 8 * i);
    values[i] = found.offset[i];
  }
  // What no border tells stays as it is.
  const still = Math.sqrt(STILL);
  for (let i = 0; i < 8; i++) design[8 * (count + i) + i] = still;
  const { coefficients, scale } = robustFit(design, 8, values, {
    weight: 'tukey',
    start: new Float64Array(8),
    leastScale: 0.25,
    rounds: 20,
  });
  const [a, b, c, d, e, f, g, h] = coefficients.map((move) => move / half);
  const full = half * by;
  const centred: Homography = [1 + a, b, c, d, 1 + e, f, g, h, 1];
  const into: Homography = [1 / full, 0, -1, 0, 1 / full, -1, 0, 0, 1];
  const back: Homography = [full, 0, full, 0, full, full, 0, 0, 1];
  return { map: chainHomographies(chainHomographies(into, centred), back), scale };
}
