import { expectNumber, expectObject, expectRaster, outOfRange, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lightness, Spot } from '../base/types.js';
import { lengthOf } from '../geometry/length.js';
import { arcsKernel, OUTSIDE, scaledProgress, type Arc } from './borders.js';
import { expectMasses } from './check.js';
import type { Edge, EdgeOverrule, Masses } from './types.js';

/** Codes of a lightness plane in one L*. */
const CODES = 2.55;

/**
 * Below this difference of L* an edge counts as lost: a just noticeable difference in pictures, Mahy, Van Eycken & Oosterlinck 1994
 * ("Evaluation of uniform color spaces", 2.3 units of CIELAB; quoted from memory).
 */
export const LOST_BELOW = 2.3;

/** An edge whose step takes more than this on the paper counts as soft, mm. Our own choice: a pencil line stands for no more. */
export const SOFT_ABOVE_MM = 2;

/** The longer side of a sheet when no size is told, mm (A4). */
const SHEET_MM = 297;

/** Lens and sensor draw the sharpest edge over two or three pixels: below this nothing is called soft (common practice, no source). */
const LEAST_SOFT_PX = 3;

/** What {@link edgesOf} may be told. */
export interface EdgeOptions {
  /** Pixels of the plane in a millimetre of the paper, above 0. By default the longer side is {@link SHEET_MM}. */
  pxPerMm?: number;
}

/** The width in pixels above which an edge is soft. */
export function softAbovePx(width: number, height: number, pxPerMm?: number): number {
  const scale = pxPerMm ?? Math.max(width, height) / SHEET_MM;
  return Math.max(LEAST_SOFT_PX, SOFT_ABOVE_MM * scale);
}

/**
 * The edges between neighbouring masses, ordered by their regions (`regions[0] < regions[1]`): how broad and how strong the step of
 * lightness is in the picture, and so whether it is hard, soft or lost.
 *
 * Profiles are taken across the border and averaged in short stretches along it, each shifted to its steepest place near the border (as
 * ISO 12233 forms an edge spread function). A step ends where the profile stops rising (Marziliano, Dufaux, Winkler & Ebrahimi 2002; here:
 * where it rises by less than a twentieth of its steepest rise), or where a third mass begins. `contrast` is the difference of L* between
 * the ends, `widthPx` the distance in which it goes from 10 % to 90 % of it; both are medians over the stretches. A step from one
 * pixel to the next measures 0.8. Widths beyond the window of eight soft widths are told as no more than that.
 *
 * `lost`: contrast below {@link LOST_BELOW}; else `soft`: wider than {@link SOFT_ABOVE_MM} on the paper; else `hard`.
 *
 * @param plane the picture that the masses were made of
 * @returns one edge for each pair of regions that share a side; `lengthPx` is measured along the smoothed border
 * @throws TypeError, RangeError naming the argument
 */
export function edgesOf(masses: Masses, plane: Lightness, options: EdgeOptions = {}): Edge[] {
  return finish(edgesKernel(masses, plane, options));
}

/** {@link edgesOf} in slices. Masses and plane must not change until it is done. */
export function edgesKernel(
  masses: Masses,
  plane: Lightness,
  options: EdgeOptions = {},
): Kernel<Edge[]> {
  expectMasses('masses', masses);
  expectPlaneOf('plane', plane, masses);
  expectObject('options', options);
  if (options.pxPerMm !== undefined)
    expectNumber('options.pxPerMm', options.pxPerMm, Number.MIN_VALUE, 1e6);
  return edgeSlices(masses, plane, options.pxPerMm);
}

/** Refuses a plane of another size than the masses have. */
export function expectPlaneOf(name: string, plane: Lightness, { map }: Masses): void {
  expectRaster(name, plane, 1);
  if (plane.width !== map.width || plane.height !== map.height)
    throw outOfRange(
      name,
      `${plane.width} x ${plane.height}`,
      `the size of the masses, ${map.width} x ${map.height}`,
    );
}

function* edgeSlices(masses: Masses, plane: Lightness, pxPerMm?: number): Kernel<Edge[]> {
  const { width, height } = plane;
  const arcs = yield* scaledProgress(arcsKernel(masses.labels, width, height), 0, 0.3);
  const pairs = new Map<number, Walk[]>();
  const regions = masses.regions.length;
  for (const arc of arcs) {
    if (arc.left === OUTSIDE || arc.right === OUTSIDE) continue;
    const key = Math.min(arc.left, arc.right) * regions + Math.max(arc.left, arc.right);
    const walks = pairs.get(key);
    if (walks === undefined) pairs.set(key, [new Walk(arc, width + 1)]);
    else walks.push(new Walk(arc, width + 1));
  }
  yield 0.35;
  const soft = softAbovePx(width, height, pxPerMm);
  const gauge = new Gauge(masses, plane, soft);
  const edges: Edge[] = [];
  const keys = [...pairs.keys()].sort((a, b) => a - b);
  for (const key of keys) {
    const walks = pairs.get(key)!;
    const between: [number, number] = [Math.floor(key / regions), key % regions];
    const { widthPx, contrast } = gauge.measure(walks, between);
    const lengthPx = walks.reduce((sum, walk) => sum + walk.length, 0);
    const kind = contrast < LOST_BELOW ? 'lost' : widthPx > soft ? 'soft' : 'hard';
    edges.push({ regions: between, kind, widthPx, contrast, lengthPx });
    yield 0.35 + (0.65 * edges.length) / keys.length;
  }
  return edges;
}

/** Pixels to either side over which a border is smoothed for its direction and length. */
const SMOOTHING = 4;

/** A border as a smoothed line through the middles of its pixel sides. */
export class Walk {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly length: number;

  constructor(
    readonly arc: Arc,
    cornersOfRow: number,
  ) {
    const { corners, closed } = arc;
    const steps = corners.length - 1;
    const count = closed ? steps : steps + 2;
    const px = new Float64Array(count);
    const py = new Float64Array(count);
    const put = (i: number, a: number, b: number): void => {
      const xa = a % cornersOfRow;
      const xb = b % cornersOfRow;
      px[i] = (xa + xb) / 2;
      py[i] = ((a - xa) / cornersOfRow + (b - xb) / cornersOfRow) / 2;
    };
    for (let i = 0; i < steps; i++) put(closed ? i : i + 1, corners[i], corners[i + 1]);
    if (!closed) {
      put(0, corners[0], corners[0]);
      put(count - 1, corners[steps], corners[steps]);
    }
    this.x = smoothed(px, closed);
    this.y = smoothed(py, closed);
    let length = 0;
    for (let i = closed ? 0 : 1; i < count; i++) {
      const before = i > 0 ? i - 1 : count - 1;
      length += lengthOf(this.x[i] - this.x[before], this.y[i] - this.y[before]);
    }
    this.length = length;
  }

  /** Unit vector along the line at a point of it. */
  along(i: number): [x: number, y: number] {
    const { closed } = this.arc;
    const count = this.x.length;
    const reach = closed ? Math.min(SMOOTHING, count >> 2) : SMOOTHING;
    const at = (j: number): number =>
      closed ? (j + count) % count : Math.max(0, Math.min(count - 1, j));
    const dx = this.x[at(i + reach)] - this.x[at(i - reach)];
    const dy = this.y[at(i + reach)] - this.y[at(i - reach)];
    const length = lengthOf(dx, dy) || 1;
    return [dx / length, dy / length];
  }
}

function smoothed(q: Float64Array, closed: boolean): Float64Array {
  const count = q.length;
  return q.map((_, i) => {
    const radius = closed
      ? Math.min(SMOOTHING, (count - 1) >> 2)
      : Math.min(SMOOTHING, i, count - 1 - i);
    let sum = 0;
    for (let j = i - radius; j <= i + radius; j++) sum += q[(j + count) % count];
    return sum / (2 * radius + 1);
  });
}

/** Profiles in a stretch, at most. */
const STRETCH = 8;
/** Profiles between two masses, about, at most. */
const MOST_PROFILES = 64;
/** Samples in a pixel of a profile. */
const FINE = 2;
/** A step ends where the profile rises by less than this part of its steepest rise. */
const END_OF_RISE = 0.05;
/** The levels at the ends of a step are means over so many pixels. */
const LEVEL_PX = 4;
/** A profile is shifted only for a rise that is steeper by so many codes. */
const WORTH_SHIFTING = 1;
/** So far from the border, in pixels, the other mass's pixels still count as the border's. */
const BORDER_PX = 2;

/** Measures steps; keeps its working space. */
class Gauge {
  /** Samples to either side of the border, and how far a profile may be shifted. */
  readonly #reach: number;
  readonly #shift: number;
  readonly #size: number;
  readonly #profiles: Float32Array[];
  readonly #from: Int32Array;
  readonly #to: Int32Array;

  constructor(
    readonly masses: Masses,
    readonly plane: Lightness,
    soft: number,
  ) {
    const window = Math.ceil(Math.max(12, Math.min(128, 4 * soft)));
    this.#reach = FINE * window;
    this.#shift = FINE * Math.ceil(Math.max(2, Math.min(window / 3, soft / 2)));
    this.#size = 2 * this.#reach + 1;
    this.#profiles = Array.from({ length: STRETCH }, () => new Float32Array(this.#size));
    this.#from = new Int32Array(STRETCH);
    this.#to = new Int32Array(STRETCH);
  }

  measure(walks: Walk[], [a, b]: [number, number]): { widthPx: number; contrast: number } {
    const total = walks.reduce((sum, { x }) => sum + x.length, 0);
    const spacing = Math.max(2, Math.ceil(total / MOST_PROFILES));
    const contrasts: number[] = [];
    const widths: number[] = [];
    const clear: number[] = [];
    for (const walk of walks) {
      // What lies at the ends is a third mass's border too.
      const margin = walk.arc.closed || walk.x.length < 16 ? 0 : 4;
      const last = walk.x.length - margin;
      let count = 0;
      for (let i = margin + (((last - margin - 1) % spacing) >> 1); i < last; i += spacing) {
        if (this.#read(walk, i, a, b, count)) count++;
        if (count === STRETCH || (count > 0 && i + spacing >= last)) {
          const step = this.#stepOf(count);
          contrasts.push(step.contrast);
          widths.push(step.widthPx);
          if (Math.abs(step.contrast) >= LOST_BELOW) clear.push(step.widthPx);
          count = 0;
        }
      }
    }
    return {
      contrast: Math.abs(median(contrasts)),
      widthPx: median(2 * clear.length >= widths.length ? clear : widths),
    };
  }

  /** Reads the profile across one point of a border, from region `a` to region `b`. */
  #read(walk: Walk, i: number, a: number, b: number, slot: number): boolean {
    const { width, height, data } = this.plane;
    const { labels } = this.masses;
    const [ax, ay] = walk.along(i);
    const sign = walk.arc.right === b ? 1 : -1;
    const nx = -ay * sign;
    const ny = ax * sign;
    const profile = this.#profiles[slot];
    const reach = this.#reach;
    const ends = [0, 0];
    for (const side of [-1, 1]) {
      const own = side < 0 ? a : b;
      const stepX = (side * nx) / FINE;
      const stepY = (side * ny) / FINE;
      for (let k = side < 0 ? 1 : 0; k <= reach; k++) {
        const x = walk.x[i] + k * stepX;
        const y = walk.y[i] + k * stepY;
        if (x < 0 || y < 0 || x >= width || y >= height) break;
        const label = labels[(y | 0) * width + (x | 0)];
        if (label !== own && (k > BORDER_PX * FINE || (label !== a && label !== b))) break;
        profile[reach + side * k] = between(data, width, height, x - 0.5, y - 0.5);
        ends[side < 0 ? 0 : 1] = k;
      }
    }
    this.#from[slot] = reach - ends[0];
    this.#to[slot] = reach + ends[1];
    return ends[0] > 0 && ends[1] > 0;
  }

  /** The step in the mean of the first `count` profiles, contrast from `a` to `b`. */
  #stepOf(count: number): { widthPx: number; contrast: number } {
    const reach = this.#reach;
    const plain = this.#mean(count, new Int32Array(count));
    const sign = riseOf(plain, reach) < 0 ? -1 : 1;
    const shifts = new Int32Array(count);
    for (let slot = 0; slot < count; slot++) shifts[slot] = this.#steepest(slot, sign);
    const mean = this.#mean(count, shifts);
    return stepIn(mean, reach, this.#shift, sign);
  }

  /** How far the steepest rise of a profile lies from the border, in samples. */
  #steepest(slot: number, sign: number): number {
    const profile = this.#profiles[slot];
    const from = this.#from[slot];
    const to = this.#to[slot];
    const half = 2 * FINE;
    const rise = (at: number): number => {
      let sum = 0;
      for (let k = 1; k <= half; k++)
        sum += profile[Math.min(to, at + k)] - profile[Math.max(from, at - k)];
      return (sign * sum) / half;
    };
    let best = 0;
    let most = rise(this.#reach);
    for (let k = 1; k <= this.#shift; k++) {
      for (const at of [this.#reach - k, this.#reach + k]) {
        if (at <= from || at >= to || rise(at) <= most + WORTH_SHIFTING) continue;
        most = rise(at);
        best = at - this.#reach;
      }
    }
    return best;
  }

  /** The mean of shifted profiles where at least half of them reach; the middle is at `at`. */
  #mean(count: number, shifts: Int32Array): Mean {
    const size = this.#size;
    const values = new Float64Array(size);
    const counts = new Uint8Array(size);
    for (let slot = 0; slot < count; slot++) {
      const profile = this.#profiles[slot];
      const shift = shifts[slot];
      const from = Math.max(0, this.#from[slot] - shift);
      const to = Math.min(size - 1, this.#to[slot] - shift);
      for (let i = from; i <= to; i++) {
        values[i] += profile[i + shift];
        counts[i]++;
      }
    }
    const middle = this.#reach;
    let from = middle;
    let to = middle;
    while (from > 0 && 2 * counts[from - 1] >= count) from--;
    while (to + 1 < size && 2 * counts[to + 1] >= count) to++;
    for (let i = from; i <= to; i++) values[i] /= Math.max(1, counts[i]);
    return { values, from, to };
  }
}

/** The plane between four pixels, straight in both directions; beyond the outermost centres as there. */
function between(data: Uint8Array, width: number, height: number, u: number, v: number): number {
  if (u < 0) u = 0;
  if (v < 0) v = 0;
  const column = u | 0;
  const row = v | 0;
  const at = row * width + column;
  const right = column + 1 < width ? at + 1 : at;
  const down = row + 1 < height ? width : 0;
  const fu = u - column;
  const top = data[at] + fu * (data[right] - data[at]);
  const low = data[at + down] + fu * (data[right + down] - data[at + down]);
  return top + (v - row) * (low - top);
}

interface Mean {
  values: Float64Array;
  from: number;
  to: number;
}

/** Difference of the means right and left of the middle. */
function riseOf({ values, from, to }: Mean, middle: number): number {
  let left = 0;
  let right = 0;
  for (let i = from; i < middle; i++) left += values[i];
  for (let i = middle + 1; i <= to; i++) right += values[i];
  return right / Math.max(1, to - middle) - left / Math.max(1, middle - from);
}

/** The step about the middle of a mean profile. */
function stepIn(
  { values, from, to }: Mean,
  middle: number,
  shift: number,
  sign: number,
): { widthPx: number; contrast: number } {
  const value = (i: number): number => sign * values[Math.max(from, Math.min(to, i))];
  // Steepest rise over a pixel.
  let steepest = middle;
  let most = 0;
  for (let k = 0; k <= shift; k++) {
    for (const i of [middle - k, middle + k]) {
      const rise = value(i + 1) - value(i - 1);
      if (i < from || i > to || rise <= most + 1e-9) continue;
      most = rise;
      steepest = i;
    }
  }
  // Where it stops rising, looking two pixels ahead so that grain does not stop it.
  const ahead = 2 * FINE;
  const least = END_OF_RISE * most * 2;
  let end = steepest;
  while (end < to && value(end + ahead) - value(end) > least) end++;
  let start = steepest;
  while (start > from && value(start) - value(start - ahead) > least) start--;
  const beyond = LEVEL_PX * FINE;
  const high = meanOf(value, end, Math.min(to, end + beyond));
  const low = meanOf(value, Math.max(from, start - beyond), start);
  const contrast = high - low;
  const upper = low + 0.9 * contrast;
  const lower = low + 0.1 * contrast;
  let right = steepest;
  while (right < end && value(right) < upper) right++;
  let left = steepest;
  while (left > start && value(left) > lower) left--;
  const rightAt = crossing(value(right - 1), value(right), upper, right - 1);
  const leftAt = crossing(value(left), value(left + 1), lower, left);
  return {
    widthPx: Math.max(0, rightAt - leftAt) / FINE,
    contrast: (sign * contrast) / CODES,
  };
}

/** Where the straight line from `a` at `at` to `b` one further passes a level. */
function crossing(a: number, b: number, level: number, at: number): number {
  return b === a ? at : at + Math.max(0, Math.min(1, (level - a) / (b - a)));
}

function meanOf(value: (i: number) => number, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i <= to; i++) sum += value(i);
  return sum / (to - from + 1);
}

function median(numbers: number[]): number {
  if (numbers.length === 0) return 0;
  const sorted = [...numbers].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

/** The region at a fraction of the picture; -1 outside. */
export function regionAt({ labels, map: { width, height } }: Masses, [x, y]: Spot): number {
  if (!(x >= 0 && x <= 1 && y >= 0 && y <= 1)) return -1;
  const column = Math.min(width - 1, Math.floor(x * width));
  const row = Math.min(height - 1, Math.floor(y * height));
  return labels[row * width + column];
}

/** An overrule that cannot be met, by its place in the list. */
export interface Unmet {
  overrule: number;
  reason: Reason;
}

/** Whether a value is two finite numbers. */
export const isSpot = (value: unknown): value is Spot =>
  Array.isArray(value) && value.length === 2 && value.every((part) => Number.isFinite(part));

const isEdgeOverrule = (overrule: { kind: string }): overrule is EdgeOverrule => {
  const { kind, between, edge } = overrule as Partial<EdgeOverrule>;
  return (
    kind === 'edge' &&
    Array.isArray(between) &&
    between.length === 2 &&
    between.every(isSpot) &&
    (edge === 'hard' || edge === 'soft' || edge === 'lost')
  );
};

/**
 * Edges as the painter wants them: `kind` replaced for each overrule of the kind `edge`; the last one about an edge counts. Width and
 * contrast stay what was measured.
 *
 * @param overrules those of other kinds or forms are left alone; spots are fractions of the picture
 * @returns the edges, copied, and the overrules that no longer make sense: `edge.same-mass` (both spots lie in one mass now: `region`),
 *   `edge.no-neighbours` (their masses do not touch: `from`, `to`), `edge.outside` (a spot lies outside the picture)
 * @throws TypeError naming the argument
 */
export function edgesWithOverrules(
  edges: Edge[],
  masses: Masses,
  overrules: { kind: string }[],
): { edges: Edge[]; unmet: Unmet[] } {
  if (!Array.isArray(edges)) throw wrongType('edges', edges, 'an array');
  expectMasses('masses', masses);
  if (!Array.isArray(overrules)) throw wrongType('overrules', overrules, 'an array');
  const result = edges.map((edge): Edge => ({ ...edge, regions: [...edge.regions] }));
  const unmet: Unmet[] = [];
  overrules.forEach((overrule, i) => {
    if (!isEdgeOverrule(overrule)) return;
    const [from, to] = overrule.between.map((spot) => regionAt(masses, spot));
    const edge = result.find(
      ({ regions: [a, b] }) => a === Math.min(from, to) && b === Math.max(from, to),
    );
    if (edge !== undefined) edge.kind = overrule.edge;
    else if (from < 0 || to < 0) unmet.push({ overrule: i, reason: reason('edge.outside') });
    else if (from === to)
      unmet.push({ overrule: i, reason: reason('edge.same-mass', { region: from }) });
    else unmet.push({ overrule: i, reason: reason('edge.no-neighbours', { from, to }) });
  });
  return { edges: result, unmet };
}
