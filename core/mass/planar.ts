/**
 * Whether simplified borders still divide the plane as the exact ones do: no two touch but at a common end, the borders leave each
 * junction in the same turn, and no part of the drawing that hangs together has changed the region it lies in.
 *
 * Coordinates are whole hundredths of a pixel, so that every test is exact.
 */

/** Hundredths in a pixel. */
export const GRID = 100;

/** Sides of simplified borders, one after the other. */
export interface Sides {
  count: number;
  /** Ends, whole hundredths of a pixel. */
  x0: Int32Array;
  y0: Int32Array;
  x1: Int32Array;
  y1: Int32Array;
  /** A number for each vertex, the same where borders share one. */
  from: Int32Array;
  to: Int32Array;
  /** The border a side belongs to. */
  arc: Int32Array;
}

/** Sides by the cells of a grid that they pass. */
export class SideGrid {
  readonly columns: number;
  readonly rows: number;
  readonly #starts: Int32Array;
  readonly #members: Int32Array;

  /**
   * @param width,height of the picture, pixels
   * @param cell side of a cell, hundredths of a pixel
   */
  constructor(
    readonly sides: Sides,
    width: number,
    height: number,
    readonly cell = 8 * GRID,
  ) {
    this.columns = Math.floor((width * GRID) / cell) + 1;
    this.rows = Math.floor((height * GRID) / cell) + 1;
    const starts = new Int32Array(this.columns * this.rows + 1);
    this.#eachCell((cellAt) => starts[cellAt + 1]++);
    for (let i = 0; i + 1 < starts.length; i++) starts[i + 1] += starts[i];
    const filled = starts.slice();
    const members = new Int32Array(starts[starts.length - 1]);
    this.#eachCell((cellAt, side) => {
      members[filled[cellAt]++] = side;
    });
    this.#starts = starts;
    this.#members = members;
  }

  /** The sides that pass a cell. */
  members(cellAt: number): Int32Array {
    return this.#members.subarray(this.#starts[cellAt], this.#starts[cellAt + 1]);
  }

  #eachCell(use: (cellAt: number, side: number) => void): void {
    const { cell, columns, sides } = this;
    for (let side = 0; side < sides.count; side++) {
      const down = sides.y1[side] >= sides.y0[side];
      const xa = down ? sides.x0[side] : sides.x1[side];
      const ya = down ? sides.y0[side] : sides.y1[side];
      const xb = down ? sides.x1[side] : sides.x0[side];
      const yb = down ? sides.y1[side] : sides.y0[side];
      const firstRow = Math.floor(ya / cell);
      const lastRow = Math.floor(yb / cell);
      for (let row = firstRow; row <= lastRow; row++) {
        let enter = xa;
        let leave = xb;
        if (firstRow !== lastRow) {
          const slope = (xb - xa) / (yb - ya);
          if (row > firstRow) enter = xa + (row * cell - ya) * slope;
          if (row < lastRow) leave = xa + ((row + 1) * cell - ya) * slope;
        }
        // A hundredth to either side makes up for the rounding of the crossing.
        const left = Math.max(0, Math.floor((Math.min(enter, leave) - 1) / cell));
        const right = Math.min(columns - 1, Math.floor((Math.max(enter, leave) + 1) / cell));
        for (let column = left; column <= right; column++) use(row * columns + column, side);
      }
    }
  }
}

/** Which side of the line a-b the point c lies on: > 0, 0 or < 0. */
function turn(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number {
  return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
}

/** Whether two sides meet anywhere but at a vertex that both share, or lie on each other there. */
export function sidesClash(s: Sides, a: number, b: number): boolean {
  const ax0 = s.x0[a];
  const ay0 = s.y0[a];
  const ax1 = s.x1[a];
  const ay1 = s.y1[a];
  const bx0 = s.x0[b];
  const by0 = s.y0[b];
  const bx1 = s.x1[b];
  const by1 = s.y1[b];
  if (
    Math.max(ax0, ax1) < Math.min(bx0, bx1) ||
    Math.max(bx0, bx1) < Math.min(ax0, ax1) ||
    Math.max(ay0, ay1) < Math.min(by0, by1) ||
    Math.max(by0, by1) < Math.min(ay0, ay1)
  )
    return false;
  const startShared = s.from[a] === s.from[b] || s.from[a] === s.to[b];
  const endShared = s.to[a] === s.from[b] || s.to[a] === s.to[b];
  if (startShared && endShared) return true;
  if (startShared || endShared) {
    const x = startShared ? ax0 : ax1;
    const y = startShared ? ay0 : ay1;
    const ux = (startShared ? ax1 : ax0) - x;
    const uy = (startShared ? ay1 : ay0) - y;
    const fromB = startShared ? s.from[a] === s.from[b] : s.to[a] === s.from[b];
    const vx = (fromB ? bx1 : bx0) - x;
    const vy = (fromB ? by1 : by0) - y;
    return ux * vy - uy * vx === 0 && ux * vx + uy * vy > 0;
  }
  const a0 = turn(bx0, by0, bx1, by1, ax0, ay0);
  const a1 = turn(bx0, by0, bx1, by1, ax1, ay1);
  if ((a0 > 0 && a1 > 0) || (a0 < 0 && a1 < 0)) return false;
  const b0 = turn(ax0, ay0, ax1, ay1, bx0, by0);
  const b1 = turn(ax0, ay0, ax1, ay1, bx1, by1);
  // Sides on one line whose rectangles meet do meet.
  return !((b0 > 0 && b1 > 0) || (b0 < 0 && b1 < 0));
}

/**
 * The nearest side to the left of a point, looking along -x just below it (y down).
 * @param ignored arcs that are looked through
 * @returns the side, or -1
 */
export function sideLeftOf(
  grid: SideGrid,
  x: number,
  y: number,
  ignored: (arc: number) => boolean,
): number {
  const { sides, cell, columns } = grid;
  const row = Math.min(grid.rows - 1, Math.floor(y / cell));
  let best = -1;
  let bestX = -Infinity;
  let bestSlope = 0;
  for (let column = Math.min(columns - 1, Math.floor(x / cell)); column >= 0; column--) {
    for (const side of grid.members(row * columns + column)) {
      const ya = sides.y0[side];
      const yb = sides.y1[side];
      if (Math.min(ya, yb) > y || Math.max(ya, yb) <= y || ignored(sides.arc[side])) continue;
      const slope = (sides.x1[side] - sides.x0[side]) / (yb - ya);
      const crossing = sides.x0[side] + (y - ya) * slope;
      if (crossing > x) continue;
      // Sides that leave one vertex downward: the one that leans more to the right is nearer.
      if (crossing > bestX + 1e-6 || (crossing > bestX - 1e-6 && slope > bestSlope)) {
        best = side;
        bestX = crossing;
        bestSlope = slope;
      }
    }
    if (bestX >= column * cell) break;
  }
  return best;
}
