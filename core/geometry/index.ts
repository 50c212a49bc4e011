/**
 * Plane geometry on rasters: loops drawn by hand, discs, areas. Pure functions, no picture data.
 *
 * Coordinates are pixel coordinates of a raster: x to the right, y down, pixel (i, j) covers i..i+1 by j..j+1, its
 * centre is (i + 0.5, j + 0.5), the raster covers 0..width by 0..height. Fractions of a photo become pixel
 * coordinates by multiplying with the raster's width and height.
 */
import { expectInteger, expectNumber, outOfRange, wrongType } from '../base/check.js';
import type { Spot } from '../base/types.js';

export { componentsOf, type ComponentOptions, type Components } from './components.js';
export { NO_DISTANCE, squaredDistances, squaredDistancesKernel } from './distance.js';
export {
  applyHomography,
  chainHomographies,
  expectCorners,
  homographyFit,
  homographyOf,
  invertHomography,
  mirroredCorners,
  SAME_PLACE,
  type Homography,
  type PointPair,
} from './homography.js';

/** Coordinates farther out than this are refused, so that differences and products stay exact enough. */
const FARTHEST = 1e9;

/** An upright rectangle in pixel coordinates. */
export interface Bounds {
  x: number;
  y: number;
  width: number;
  height: number;
}

function expectLoop(loop: unknown): void {
  if (!Array.isArray(loop)) throw wrongType('loop', loop, 'an array of points [x, y]');
  loop.forEach((point: unknown, i) => {
    if (!Array.isArray(point) || point.length !== 2)
      throw wrongType(`loop[${i}]`, point, 'a point [x, y]');
    expectNumber(`loop[${i}][0]`, point[0], -FARTHEST, FARTHEST);
    expectNumber(`loop[${i}][1]`, point[1], -FARTHEST, FARTHEST);
  });
}

function expectSize(width: unknown, height: unknown): void {
  const w = expectInteger('width', width, 1, 2 ** 28);
  const h = expectInteger('height', height, 1, 2 ** 28);
  if (w * h > 2 ** 28) throw outOfRange('width x height', w * h, 'at most 268435456 pixels');
}

/** The first pixel whose centre lies at or beyond `position`. */
const firstCentre = (position: number): number => Math.ceil(position - 0.5);

/**
 * The pixels whose centres lie inside a closed loop: 1 inside, 0 outside.
 *
 * Non-zero winding (Sunday 2001, "Inclusion of a point in a polygon"): a loop drawn by hand usually runs past its own
 * start, and what it goes round twice is still inside. For a loop that does not cross itself this is the even-odd rule
 * (Franklin, pnpoly). A centre exactly on the border belongs to the side to its right or below, so that loops that
 * share a border share no pixel. Fewer than 3 points enclose nothing: the mask is all 0. The loop may reach beyond the raster.
 *
 * @param loop points in pixel coordinates, each within ±1e9; the last joins the first
 * @param width pixels of a row, at least 1
 * @param height rows, at least 1; width x height at most 2^28
 * @returns width x height bytes, row-major
 * @throws TypeError, RangeError naming the argument
 */
export function loopMask(loop: Spot[], width: number, height: number): Uint8Array {
  expectLoop(loop);
  expectSize(width, height);
  const mask = new Uint8Array(width * height);
  const count = loop.length;
  if (count < 3) return mask;

  // Rows first..last whose centre line each edge crosses, half-open: an end on a centre line belongs to the edge below it.
  const first = new Int32Array(count);
  const last = new Int32Array(count);
  const starts = new Uint32Array(height + 1);
  for (let i = 0; i < count; i++) {
    const ya = loop[i][1];
    const yb = loop[(i + 1) % count][1];
    first[i] = Math.min(height, Math.max(0, firstCentre(Math.min(ya, yb))));
    last[i] = Math.min(height, Math.max(0, firstCentre(Math.max(ya, yb)))) - 1;
    for (let row = first[i]; row <= last[i]; row++) starts[row + 1]++;
  }
  for (let row = 0; row < height; row++) starts[row + 1] += starts[row];

  // The crossings of all rows, each row's in ascending x (insertion sort: a row has few).
  const crossings = new Float64Array(starts[height]);
  const turns = new Int8Array(starts[height]);
  const filled = new Uint32Array(height);
  for (let i = 0; i < count; i++) {
    const [xa, ya] = loop[i];
    const [xb, yb] = loop[(i + 1) % count];
    const turn = yb > ya ? 1 : -1;
    for (let row = first[i]; row <= last[i]; row++) {
      const x = xa + ((row + 0.5 - ya) * (xb - xa)) / (yb - ya);
      let at = starts[row] + filled[row]++;
      for (; at > starts[row] && crossings[at - 1] > x; at--) {
        crossings[at] = crossings[at - 1];
        turns[at] = turns[at - 1];
      }
      crossings[at] = x;
      turns[at] = turn;
    }
  }

  for (let row = 0; row < height; row++) {
    let winding = 0;
    for (let at = starts[row]; at < starts[row + 1]; at++) {
      winding += turns[at];
      if (winding === 0) continue;
      const from = Math.min(width, Math.max(0, firstCentre(crossings[at])));
      const to = Math.min(width, Math.max(0, firstCentre(crossings[at + 1])));
      mask.fill(1, row * width + from, row * width + to);
    }
  }
  return mask;
}

/**
 * The pixels whose centres lie in a disc, as runs: [row, from, to) three numbers a run, rows ascending. The pixel under
 * the middle belongs to it always (if it is inside the raster), however small the radius.
 *
 * @param x,y middle in pixel coordinates, within ±1e9; it may lie outside the raster
 * @param radius pixels, 0..1e9; a centre at exactly this distance is inside
 * @throws TypeError, RangeError naming the argument
 */
export function discRuns(
  x: number,
  y: number,
  radius: number,
  width: number,
  height: number,
): Int32Array {
  expectNumber('x', x, -FARTHEST, FARTHEST);
  expectNumber('y', y, -FARTHEST, FARTHEST);
  expectNumber('radius', radius, 0, FARTHEST);
  expectSize(width, height);
  const middleRow = middlePixel(y, height);
  const middleColumn = middlePixel(x, width);
  const firstRow = Math.max(0, Math.min(middleRow, firstCentre(y - radius)));
  const lastRow = Math.min(height - 1, Math.max(middleRow, Math.floor(y + radius - 0.5)));
  const runs: number[] = [];
  for (let row = firstRow; row <= lastRow; row++) {
    const up = row + 0.5 - y;
    const half2 = radius * radius - up * up;
    const half = half2 < 0 ? -1 : Math.sqrt(half2);
    let from = half < 0 ? width : Math.max(0, firstCentre(x - half));
    let to = half < 0 ? 0 : Math.min(width, Math.floor(x + half - 0.5) + 1);
    if (row === middleRow && middleColumn >= 0 && middleColumn < width) {
      from = Math.min(from, middleColumn);
      to = Math.max(to, middleColumn + 1);
    }
    if (from < to) runs.push(row, from, to);
  }
  return Int32Array.from(runs);
}

/** The pixel a coordinate lies in; the far border of the raster still belongs to its last pixel. */
function middlePixel(position: number, size: number): number {
  return position === size ? size - 1 : Math.floor(position);
}

/**
 * The pixels whose centres lie in a disc: 1 inside, 0 outside; see {@link discRuns} for the rules.
 * @returns width x height bytes, row-major
 */
export function discMask(
  x: number,
  y: number,
  radius: number,
  width: number,
  height: number,
): Uint8Array {
  const runs = discRuns(x, y, radius, width, height);
  const mask = new Uint8Array(width * height);
  for (let i = 0; i < runs.length; i += 3)
    mask.fill(1, runs[i] * width + runs[i + 1], runs[i] * width + runs[i + 2]);
  return mask;
}

/**
 * The area of a closed loop by the shoelace formula, in square pixels, never negative. Meant for loops that do not
 * cross themselves (parts wound the other way are taken off). Fewer than 3 points: 0.
 * @throws TypeError, RangeError naming the argument
 */
export function loopArea(loop: Spot[]): number {
  expectLoop(loop);
  if (loop.length < 3) return 0;
  // Taken from the first point, so that a far-away loop loses no digits.
  const [x0, y0] = loop[0];
  let twice = 0;
  for (let i = 1; i + 1 < loop.length; i++) {
    twice += (loop[i][0] - x0) * (loop[i + 1][1] - y0) - (loop[i + 1][0] - x0) * (loop[i][1] - y0);
  }
  return Math.abs(twice) / 2;
}

/**
 * The smallest upright rectangle that holds all points of a loop.
 * @throws RangeError for an empty loop; TypeError, RangeError naming the argument
 */
export function loopBounds(loop: Spot[]): Bounds {
  expectLoop(loop);
  if (loop.length === 0) throw outOfRange('loop', loop, 'at least one point');
  let [left, top] = loop[0];
  let [right, bottom] = loop[0];
  for (const [x, y] of loop) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  }
  return { x: left, y: top, width: right - left, height: bottom - top };
}

/**
 * A closed loop with fewer points: no dropped point lies farther than `tolerance` from the side that replaces it
 * (Douglas & Peucker 1973). The points kept are those of the loop, in their order; the first and the one farthest from
 * it are always kept. Loops of 3 points or fewer come back as they are (copied).
 *
 * @param tolerance distance in the loop's own unit, 0 or more
 * @throws TypeError, RangeError naming the argument
 */
export function simplifyLoop(loop: Spot[], tolerance: number): Spot[] {
  expectLoop(loop);
  expectNumber('tolerance', tolerance, 0, FARTHEST);
  const count = loop.length;
  if (count <= 3) return loop.map(([x, y]) => [x, y]);
  const at = (i: number): Spot => loop[i % count];
  const keep = new Uint8Array(count + 1);
  let far = 0;
  for (let i = 1; i < count; i++) if (apart(at(i), at(0)) > apart(at(far), at(0))) far = i;
  keep[0] = keep[far] = keep[count] = 1;
  const open: [number, number][] = [
    [0, far],
    [far, count],
  ];
  for (let stretch = open.pop(); stretch; stretch = open.pop()) {
    const [from, to] = stretch;
    let worst = -1;
    let most = tolerance;
    for (let i = from + 1; i < to; i++) {
      const distance = distanceToSide(at(i), at(from), at(to));
      if (distance > most) {
        most = distance;
        worst = i;
      }
    }
    if (worst < 0) continue;
    keep[worst] = 1;
    open.push([from, worst], [worst, to]);
  }
  return loop.filter((_, i) => keep[i] === 1).map(([x, y]) => [x, y]);
}

const apart = (a: Spot, b: Spot): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Distance of `point` from the side `a`-`b` (the stretch, not the endless line). */
function distanceToSide(point: Spot, a: Spot, b: Spot): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const length2 = dx * dx + dy * dy;
  const along = length2 === 0 ? 0 : ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / length2;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(point[0] - a[0] - t * dx, point[1] - a[1] - t * dy);
}
