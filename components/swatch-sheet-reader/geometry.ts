import type { Corners, Loop, Spot } from '../shared/core.js';

/** A line across a dab, from one end to the other, fractions of the photo. */
export type Line = [from: Spot, to: Spot];

/** The upright box about loops. */
export interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

export function boxOf(loops: readonly Loop[]): Box {
  const spots = loops.flat();
  const xs = spots.map(([x]) => x);
  const ys = spots.map(([, y]) => y);
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}

/** The middle of the box about loops. */
export function middleOf(loops: readonly Loop[]): Spot {
  const { x, y, width, height } = boxOf(loops);
  return [x + width / 2, y + height / 2];
}

/** Whether a spot lies inside a loop (even-odd rule). */
export function inLoop([x, y]: Spot, loop: Loop): boolean {
  let inside = false;
  for (let i = 0, j = loop.length - 1; i < loop.length; j = i++) {
    const [xi, yi] = loop[i];
    const [xj, yj] = loop[j];
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside;
  }
  return inside;
}

export const inLoops = (spot: Spot, loops: readonly Loop[]): boolean =>
  loops.some((loop) => inLoop(spot, loop));

/** Loops moved by a step, held so that their middle stays on the picture. */
export function movedBy(loops: readonly Loop[], [dx, dy]: Spot): Loop[] {
  const [x, y] = middleOf(loops);
  const mx = Math.min(1, Math.max(0, x + dx)) - x;
  const my = Math.min(1, Math.max(0, y + dy)) - y;
  return loops.map((loop) => loop.map(([px, py]): Spot => [px + mx, py + my]));
}

/** The smallest side of a box, as a fraction of the photo. */
const LEAST_SIDE = 0.006;

/** Loops made larger or smaller about their middle. */
export function grown(loops: readonly Loop[], bx: number, by = bx): Loop[] {
  const { width, height } = boxOf(loops);
  const [x, y] = middleOf(loops);
  const fx = Math.max(bx, LEAST_SIDE / Math.max(width, 1e-9));
  const fy = Math.max(by, LEAST_SIDE / Math.max(height, 1e-9));
  return loops.map((loop) => loop.map(([px, py]): Spot => [x + fx * (px - x), y + fy * (py - y)]));
}

/** An upright box between two spots as a loop. */
export function loopBetween([x0, y0]: Spot, [x1, y1]: Spot): Loop {
  const [l, r] = x0 < x1 ? [x0, x1] : [x1, x0];
  const [t, b] = y0 < y1 ? [y0, y1] : [y1, y0];
  return [
    [l, t],
    [r, t],
    [r, b],
    [l, b],
  ];
}

/** On which side of a line a spot lies: above 0, below 0, or 0 on it. */
function sideOf([[x0, y0], [x1, y1]]: Line, [x, y]: Spot): number {
  return (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0);
}

/** The part of a loop on one side of an endless line (Sutherland & Hodgman 1974). */
function clipped(loop: Loop, line: Line, sign: 1 | -1): Loop {
  const out: Loop = [];
  loop.forEach((to, i) => {
    const from = loop[(i + loop.length - 1) % loop.length];
    const [a, b] = [sign * sideOf(line, from), sign * sideOf(line, to)];
    if (a >= 0 !== b >= 0) {
      const t = a / (a - b);
      out.push([from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])]);
    }
    if (b >= 0) out.push(to);
  });
  return out;
}

/** Twice the area of a loop, without sign. */
function areaOf(loop: Loop): number {
  return Math.abs(
    loop.reduce((sum, [x, y], i) => {
      const [nx, ny] = loop[(i + 1) % loop.length];
      return sum + x * ny - nx * y;
    }, 0),
  );
}

/** A dab's loops on the two sides of a line; undefined when one side has next to nothing. */
export function partedBy(loops: readonly Loop[], line: Line): [Loop[], Loop[]] | undefined {
  const whole = loops.reduce((sum, loop) => sum + areaOf(loop), 0);
  const [one, other] = ([1, -1] as const).map((sign) =>
    loops.map((loop) => clipped(loop, line, sign)).filter((loop) => loop.length > 2),
  );
  const least = Math.min(
    ...[one, other].map((part) => part.reduce((sum, loop) => sum + areaOf(loop), 0)),
  );
  return least > 0.02 * whole ? [one, other] : undefined;
}

/** Corners as a polygon's points on a field of 1 x 1. */
export const pointsOf = (loop: Loop | Corners): string =>
  loop.map(([x, y]) => `${x.toFixed(5)},${y.toFixed(5)}`).join(' ');

/** How far corners may lie outside the picture. */
const OUTSIDE = 0.25;

/** A corner where it can be set. */
export const heldCorner = ([x, y]: Spot): Spot => [
  Math.min(1 + OUTSIDE, Math.max(-OUTSIDE, x)),
  Math.min(1 + OUTSIDE, Math.max(-OUTSIDE, y)),
];

/** Whether corners go round a sheet without crossing or dents. */
export function soundCorners(corners: Corners): boolean {
  const turns = corners.map((a, i) => {
    const [b, c] = [corners[(i + 1) % 4], corners[(i + 2) % 4]];
    return (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
  });
  return turns.every((turn) => turn > 1e-6) || turns.every((turn) => turn < -1e-6);
}
