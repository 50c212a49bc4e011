/**
 * Homographies: the maps between two planes that a camera without lens faults makes. Points are [x, y] in whatever
 * coordinates the caller uses; pictures of this package use pixel coordinates whose pixel (i, j) covers i..i+1.
 *
 * Sources: Hartley & Zisserman, "Multiple View Geometry in Computer Vision" (2nd ed., 2004), section 4.1 (direct linear
 * transform), 4.4 (normalisation: Hartley 1997, "In defense of the eight-point algorithm") and 4.5 (least squares
 * of the transfer error); Heckbert 1989, "Fundamentals of texture mapping and image warping", section 2.2.3.
 */
import { expectNumber, outOfRange, wrongType } from '../base/check.js';
import type { Corners, Spot } from '../base/types.js';

/** Row-major 3 x 3. Its scale is free; the last element is 1 unless the origin goes (nearly) to infinity. */
export type Homography = readonly [
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
];

/** Two points that belong together. */
export interface PointPair {
  from: Spot;
  to: Spot;
  /** How much the pair counts, 0 or more; 1 when absent. */
  weight?: number;
}

/** Coordinates farther out than this are refused. */
const FARTHEST = 1e9;

/** Triangles of three corners smaller than this share of the square of the longest side are taken as lying on one line. */
const FLATTEST = 1e-9;

function expectSpot(name: string, value: unknown): void {
  if (!Array.isArray(value) || value.length !== 2) throw wrongType(name, value, 'a point [x, y]');
  expectNumber(`${name}[0]`, value[0], -FARTHEST, FARTHEST);
  expectNumber(`${name}[1]`, value[1], -FARTHEST, FARTHEST);
}

/**
 * Refuses what are not four corners of a convex quadrilateral, in order around it (either way round: a mirrored sheet is
 * one as well). What a camera makes of a sheet in front of it always is.
 *
 * @throws TypeError for a wrong shape; RangeError `<name> is crossed, ...`, `... on one line ...` or `... dented ...`
 */
export function expectCorners(name: string, corners: unknown): asserts corners is Corners {
  if (!Array.isArray(corners) || corners.length !== 4)
    throw wrongType(
      name,
      corners,
      'four corners [x, y]: top left, top right, bottom right, bottom left',
    );
  corners.forEach((corner: unknown, i) => expectSpot(`${name}[${i}]`, corner));
  const quad = corners as Corners;
  const turns = quad.map((corner, i) => turnOf(corner, quad[(i + 1) % 4], quad[(i + 2) % 4]));
  const longest2 = Math.max(
    ...quad.flatMap((a, i) =>
      quad.slice(i + 1).map((b) => (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2),
    ),
  );
  if (turns.some((turn) => !(Math.abs(turn) > FLATTEST * longest2)))
    throw outOfRange(name, corners, 'corners of which no three lie on one line');
  const clockwise = turns.filter((turn) => turn > 0).length;
  if (clockwise === 2)
    throw outOfRange(name, corners, 'corners in order around the sheet (these are crossed)');
  if (clockwise === 1 || clockwise === 3)
    throw outOfRange(name, corners, 'corners of a sheet without a dent (one lies inside)');
}

/** Twice the area of the triangle a, b, c; above 0 when it turns clockwise (y down). */
function turnOf(a: Spot, b: Spot, c: Spot): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
}

/** Whether four corners go round the other way than a sheet seen from its front. */
export function mirroredCorners(corners: Corners): boolean {
  expectCorners('corners', corners);
  return turnOf(corners[0], corners[1], corners[2]) < 0;
}

/**
 * The homography that takes four corners exactly to four others.
 *
 * Both are brought to Hartley's normal form (middle at 0, mean distance the square root of 2), each is the picture of the
 * unit square under Heckbert's closed solution, and the two are chained.
 *
 * @param from,to corners of convex quadrilaterals, in order around them
 * @throws TypeError, RangeError naming the argument: crossed corners, three on one line, a dent
 */
export function homographyOf(from: Corners, to: Corners): Homography {
  expectCorners('from', from);
  expectCorners('to', to);
  const a = normalForm(from);
  const b = normalForm(to);
  const map = chain(
    squareTo(from.map((spot) => applied(a.map, spot)) as Corners, true),
    squareTo(to.map((spot) => applied(b.map, spot)) as Corners, false),
  );
  return scaled(chain(chain(a.map, map), b.back));
}

/**
 * A point through a homography. Points on the line that goes to infinity give infinities.
 * @returns [x, y]
 */
export function applyHomography(map: Homography, spot: Spot): Spot {
  return applied(map, spot);
}

/**
 * The homography back.
 * @throws RangeError when there is none (all points go to one line)
 */
export function invertHomography(map: Homography): Homography {
  const back = adjugate(map);
  const determinant = map[0] * back[0] + map[1] * back[3] + map[2] * back[6];
  // What is left of the six products of the determinant, whatever the units of the two planes.
  const [a, b, c, d, e, f, g, h, i] = map.map(Math.abs);
  const products = a * (e * i + f * h) + b * (d * i + f * g) + c * (d * h + e * g);
  if (!(Math.abs(determinant) > 1e-14 * products))
    throw outOfRange('map', map, 'a homography that can be undone');
  return scaled(back);
}

/** First `first`, then `second`. */
export function chainHomographies(first: Homography, second: Homography): Homography {
  return scaled(chain(first, second));
}

/**
 * The homography that takes points nearest to their partners: the least sum of weight x squared distance, measured in the
 * plane of `to`. It starts from the normalised direct linear transform and is refined by Gauss-Newton steps with the damping of
 * Levenberg and Marquardt until it moves no more.
 *
 * @param pairs at least four that count (weight above 0), no three of some four of them on one line
 * @throws TypeError, RangeError naming the argument; RangeError when the points do not say one map
 */
export function homographyFit(pairs: readonly PointPair[]): Homography {
  if (!Array.isArray(pairs)) throw wrongType('pairs', pairs, 'an array of pairs { from, to }');
  pairs.forEach((pair: PointPair, i) => {
    expectSpot(`pairs[${i}].from`, pair?.from);
    expectSpot(`pairs[${i}].to`, pair?.to);
    if (pair.weight !== undefined) expectNumber(`pairs[${i}].weight`, pair.weight, 0);
  });
  const counted = pairs.filter(({ weight = 1 }) => weight > 0);
  if (counted.length < 4) throw outOfRange('pairs', counted.length, 'at least 4 pairs that count');
  const a = normalForm(counted.map(({ from }) => from));
  const b = normalForm(counted.map(({ to }) => to));
  const normal = counted.map(({ from, to, weight = 1 }) => ({
    from: applied(a.map, from),
    to: applied(b.map, to),
    weight,
  }));
  const start = directLinear(normal);
  const fitted = refined(start, normal);
  return scaled(chain(chain(a.map, fitted), b.back));
}

/** The homography that leaves every point where it is. */
export const SAME_PLACE: Homography = [1, 0, 0, 0, 1, 0, 0, 0, 1];

function applied(m: Homography, [x, y]: Spot): Spot {
  const w = m[6] * x + m[7] * y + m[8];
  return [(m[0] * x + m[1] * y + m[2]) / w, (m[3] * x + m[4] * y + m[5]) / w];
}

/** `second` times `first`, scale as it comes. */
function chain(f: Homography, s: Homography): Homography {
  const at = (row: number, column: number): number =>
    s[3 * row] * f[column] + s[3 * row + 1] * f[3 + column] + s[3 * row + 2] * f[6 + column];
  return [at(0, 0), at(0, 1), at(0, 2), at(1, 0), at(1, 1), at(1, 2), at(2, 0), at(2, 1), at(2, 2)];
}

function adjugate([a, b, c, d, e, f, g, h, i]: Homography): Homography {
  return [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ];
}

function scaled(m: Homography): Homography {
  const size = Math.hypot(...m);
  const by = Math.abs(m[8]) > 1e-12 * size ? m[8] : size;
  return m.map((value) => value / by) as unknown as Homography;
}

/** The similarity that brings points to Hartley's normal form, and the way back. */
function normalForm(points: readonly Spot[]): { map: Homography; back: Homography } {
  const count = points.length;
  const x = points.reduce((sum, point) => sum + point[0], 0) / count;
  const y = points.reduce((sum, point) => sum + point[1], 0) / count;
  const mean = points.reduce((sum, p) => sum + Math.hypot(p[0] - x, p[1] - y), 0) / count;
  const scale = mean > 0 ? Math.SQRT2 / mean : 1;
  return {
    map: [scale, 0, -scale * x, 0, scale, -scale * y, 0, 0, 1],
    back: [1 / scale, 0, x, 0, 1 / scale, y, 0, 0, 1],
  };
}

/** The map from the unit square (0,0 1,0 1,1 0,1) to a quadrilateral, or back. */
function squareTo([p, q, r, s]: Corners, back: boolean): Homography {
  const dx1 = q[0] - r[0];
  const dx2 = s[0] - r[0];
  const dx3 = p[0] - q[0] + r[0] - s[0];
  const dy1 = q[1] - r[1];
  const dy2 = s[1] - r[1];
  const dy3 = p[1] - q[1] + r[1] - s[1];
  const determinant = dx1 * dy2 - dx2 * dy1;
  const g = (dx3 * dy2 - dx2 * dy3) / determinant;
  const h = (dx1 * dy3 - dx3 * dy1) / determinant;
  const map: Homography = [
    q[0] - p[0] + g * q[0],
    s[0] - p[0] + h * s[0],
    p[0],
    q[1] - p[1] + g * q[1],
    s[1] - p[1] + h * s[1],
    p[1],
    g,
    h,
    1,
  ];
  return back ? adjugate(map) : map;
}

type Weighted = Required<PointPair>;

/** The direct linear transform: the unit vector h with the least |A h|, by the eigenvectors of A'A. */
function directLinear(pairs: readonly Weighted[]): Homography {
  const normal = Array.from({ length: 9 }, () => new Float64Array(9));
  for (const { from, to, weight } of pairs) {
    const [x, y] = from;
    const [u, v] = to;
    const rows = [
      [-x, -y, -1, 0, 0, 0, u * x, u * y, u],
      [0, 0, 0, -x, -y, -1, v * x, v * y, v],
    ];
    for (const row of rows)
      for (let i = 0; i < 9; i++)
        for (let j = 0; j < 9; j++) normal[i][j] += weight * row[i] * row[j];
  }
  const { values, vectors } = eigenOfSymmetric(normal);
  const order = [...values.keys()].sort((i, j) => values[i] - values[j]);
  // Two vectors that fit alike: points on one line, or fewer than four different ones.
  if (!(values[order[1]] > 1e-10 * values[order[8]]))
    throw outOfRange(
      'pairs',
      pairs.length,
      'pairs that say one map: four points, no three on one line',
    );
  return vectors.map((row) => row[order[0]]) as unknown as Homography;
}

/** Eigenvalues and eigenvectors (columns) of a symmetric matrix, by cyclic Jacobi rotations (Golub & Van Loan, 8.5). */
function eigenOfSymmetric(matrix: Float64Array[]): { values: number[]; vectors: number[][] } {
  const size = matrix.length;
  const a = matrix.map((row) => [...row]);
  const v = a.map((_, i) => a.map((__, j): number => (i === j ? 1 : 0)));
  for (let sweep = 0; sweep < 60; sweep++) {
    let off = 0;
    let all = 0;
    for (let i = 0; i < size; i++)
      for (let j = 0; j < size; j++) {
        all += a[i][j] ** 2;
        if (i !== j) off += a[i][j] ** 2;
      }
    if (off <= 1e-30 * all) break;
    for (let p = 0; p < size; p++)
      for (let q = p + 1; q < size; q++) {
        if (a[p][q] === 0) continue;
        const theta = (a[q][q] - a[p][p]) / (2 * a[p][q]);
        const t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.hypot(theta, 1));
        const c = 1 / Math.hypot(t, 1);
        const s = t * c;
        for (let k = 0; k < size; k++) {
          const x = a[k][p];
          const y = a[k][q];
          a[k][p] = c * x - s * y;
          a[k][q] = s * x + c * y;
        }
        for (let k = 0; k < size; k++) {
          const x = a[p][k];
          const y = a[q][k];
          a[p][k] = c * x - s * y;
          a[q][k] = s * x + c * y;
          const z = v[k][p];
          v[k][p] = c * z - s * v[k][q];
          v[k][q] = s * z + c * v[k][q];
        }
      }
  }
  return { values: a.map((row, i) => row[i]), vectors: v };
}

/** Sum of weight x squared distance after the map; points behind the horizon make it infinite. */
function transferError(map: Homography, pairs: readonly Weighted[]): number {
  let sum = 0;
  let side = 0;
  for (const { from, to, weight } of pairs) {
    const w = map[6] * from[0] + map[7] * from[1] + map[8];
    if (side === 0) side = Math.sign(w);
    if (w * side <= 0) return Infinity;
    const [u, v] = applied(map, from);
    sum += weight * ((u - to[0]) ** 2 + (v - to[1]) ** 2);
  }
  return sum;
}

/** Levenberg-Marquardt on the eight free elements; the last one is held (points in normal form: it is never near 0). */
function refined(start: Homography, pairs: readonly Weighted[]): Homography {
  let best = scaled(start);
  let error = transferError(best, pairs);
  if (error === Infinity)
    throw outOfRange('pairs', pairs.length, 'points that all lie on one side of the horizon');
  let damping = 1e-3;
  for (let round = 0; round < 50 && error > 0; round++) {
    const normal = Array.from({ length: 8 }, () => new Array<number>(9).fill(0));
    for (const { from, to, weight } of pairs) {
      const [x, y] = from;
      const w = best[6] * x + best[7] * y + best[8];
      const [u, v] = applied(best, from);
      const rows = [
        [x / w, y / w, 1 / w, 0, 0, 0, (-u * x) / w, (-u * y) / w, to[0] - u],
        [0, 0, 0, x / w, y / w, 1 / w, (-v * x) / w, (-v * y) / w, to[1] - v],
      ];
      for (const row of rows)
        for (let i = 0; i < 8; i++)
          for (let j = 0; j < 9; j++) normal[i][j] += weight * row[i] * row[j];
    }
    let moved = false;
    for (let attempt = 0; attempt < 12 && !moved; attempt++) {
      const damped = normal.map((row, i) =>
        row.map((value, j) => (i === j ? value * (1 + damping) + 1e-300 : value)),
      );
      const step = solved(damped);
      const next =
        step && ([...best.slice(0, 8).map((h, i) => h + step[i]), 1] as unknown as Homography);
      const nextError = next ? transferError(next, pairs) : Infinity;
      if (next && nextError < error) {
        moved = error - nextError > 1e-14 * error;
        best = next;
        error = nextError;
        damping /= 10;
        if (!moved) return best;
      } else damping *= 10;
    }
    if (!moved) break;
  }
  return best;
}

/** Solves rows [A | b] by Gaussian elimination with partial pivoting; nothing when A is singular. */
function solved(rows: number[][]): number[] | undefined {
  const size = rows.length;
  for (let column = 0; column < size; column++) {
    let pivot = column;
    for (let i = column + 1; i < size; i++)
      if (Math.abs(rows[i][column]) > Math.abs(rows[pivot][column])) pivot = i;
    if (rows[pivot][column] === 0) return undefined;
    [rows[column], rows[pivot]] = [rows[pivot], rows[column]];
    for (let i = column + 1; i < size; i++) {
      const factor = rows[i][column] / rows[column][column];
      for (let j = column; j <= size; j++) rows[i][j] -= factor * rows[column][j];
    }
  }
  const out = new Array<number>(size).fill(0);
  for (let i = size - 1; i >= 0; i--) {
    let value = rows[i][size];
    for (let j = i + 1; j < size; j++) value -= rows[i][j] * out[j];
    out[i] = value / rows[i][i];
  }
  return out;
}
