/**
 * One border from pixel steps to a line that a hand can trace: through the middles of the pixel sides, drawn tight within a tube about
 * them, then with no more points than the tolerance needs (Douglas & Peucker 1973).
 */
import { GRID } from './planar.js';
import type { Arc } from './borders.js';

/** Farthest the line through the middles of pixel sides lies from their corners: it cuts them at sqrt(1/8). */
const CORNER_CUT = Math.SQRT1_2 / 2;

/** Rounding to whole hundredths moves a point this far at most. */
const ROUNDING = Math.SQRT1_2 / GRID;

/** Below this there is no room to smooth; borders then stay on the pixels' corners. */
export const LEAST_SMOOTH = 0.6;

/** How freely a point may move, of full: it is lowered where borders would touch. */
const FREEDOM = [0, 0.25, 0.5, 1] as const;
export const FREE = FREEDOM.length - 1;

/** Corners of a line show where points are dropped more freely than this, pixels. */
const MOST_DROP = 0.35;

/** How a tolerance is shared out, in pixels. */
export interface Room {
  /** Radius of the tube. */
  tube: number;
  /** For dropping points. */
  drop: number;
}

/**
 * The middles move by at most `tube`, dropped points lie within `drop`, the middles themselves within {@link CORNER_CUT} of the exact
 * border: together no more than the tolerance.
 */
export function roomOf(tolerance: number): Room {
  const room = tolerance - CORNER_CUT - ROUNDING;
  const drop = Math.min(0.3 * room, MOST_DROP);
  return { tube: room - drop, drop };
}

/** A border on its way to a line. */
export class SmoothBorder {
  /** The points it starts from, x and y: middles of pixel sides, and the junctions at the ends of an open one. */
  readonly #px: Float64Array;
  readonly #py: Float64Array;
  /** Index into {@link FREEDOM} for each point. */
  readonly #freedom: Uint8Array;
  /** The points that are kept, ascending, and where they came to lie, in whole hundredths. */
  kept: Int32Array = new Int32Array(0);
  x: Int32Array = new Int32Array(0);
  y: Int32Array = new Int32Array(0);

  constructor(
    readonly arc: Arc,
    cornersOfRow: number,
  ) {
    const { corners, closed } = arc;
    const steps = corners.length - 1;
    const count = closed ? steps : steps + 2;
    const px = new Float64Array(count);
    const py = new Float64Array(count);
    const first = closed ? 0 : 1;
    for (let i = 0; i < steps; i++) {
      const xa = corners[i] % cornersOfRow;
      const xb = corners[i + 1] % cornersOfRow;
      px[first + i] = (xa + xb) / 2;
      py[first + i] = ((corners[i] - xa) / cornersOfRow + (corners[i + 1] - xb) / cornersOfRow) / 2;
    }
    if (!closed) {
      px[0] = corners[0] % cornersOfRow;
      py[0] = (corners[0] - px[0]) / cornersOfRow;
      px[count - 1] = corners[steps] % cornersOfRow;
      py[count - 1] = (corners[steps] - px[count - 1]) / cornersOfRow;
    }
    this.#px = px;
    this.#py = py;
    this.#freedom = new Uint8Array(count).fill(FREE);
  }

  get count(): number {
    return this.#px.length;
  }

  /** Where a point started, pixels. */
  startOf(i: number): [x: number, y: number] {
    return [this.#px[i], this.#py[i]];
  }

  /** The point of the border that the kept vertex `i` came from; that after the last of a closed one is its first again. */
  pointOf(i: number): number {
    return i < this.kept.length ? this.kept[i] : this.count + this.kept[0];
  }

  /** Takes freedom from the points `from..to` and some beyond (they may run round a closed border). @returns whether any had some */
  hold(from: number, to: number, entirely = false): boolean {
    const { count } = this;
    const margin = 3;
    let changed = false;
    for (let i = from - margin; i <= to + margin; i++) {
      const at = this.arc.closed ? ((i % count) + count) % count : i;
      if (at < 0 || at >= count || this.#freedom[at] === 0) continue;
      this.#freedom[at] = entirely ? 0 : this.#freedom[at] - 1;
      changed = true;
    }
    return changed;
  }

  /** Makes the line anew. */
  draw(room: Room): void {
    const qx = this.#px.slice();
    const qy = this.#py.slice();
    this.#tighten(qx, qy, room.tube);
    this.#drop(qx, qy, room.drop);
  }

  /** Means over ever shorter stretches, each time drawn back into the tube about the start. */
  #tighten(qx: Float64Array, qy: Float64Array, tube: number): void {
    const { count } = this;
    const reach = Math.ceil(6 * tube) + 4;
    const sums = { x: new Float64Array(count + 1), y: new Float64Array(count + 1) };
    for (let radius = reach; radius >= 1; radius = Math.floor(radius / 1.6)) {
      this.#mean(qx, sums.x, radius);
      this.#mean(qy, sums.y, radius);
      this.#intoTube(qx, qy, tube);
      this.#mean(qx, sums.x, Math.max(1, radius >> 1));
      this.#mean(qy, sums.y, Math.max(1, radius >> 1));
      this.#intoTube(qx, qy, tube);
    }
  }

  #mean(q: Float64Array, sums: Float64Array, radius: number): void {
    const { count } = this;
    for (let i = 0; i < count; i++) sums[i + 1] = sums[i] + q[i];
    if (this.arc.closed) {
      const r = Math.min(radius, count >> 3);
      const width = 2 * r + 1;
      for (let i = 0; i < count; i++) {
        const from = i - r;
        const to = i + r + 1;
        let sum = sums[Math.min(count, to)] - sums[Math.max(0, from)];
        if (from < 0) sum += sums[count] - sums[count + from];
        if (to > count) sum += sums[to - count];
        q[i] = sum / width;
      }
      return;
    }
    for (let i = 1; i + 1 < count; i++) {
      const r = Math.min(radius, i, count - 1 - i);
      q[i] = (sums[i + r + 1] - sums[i - r]) / (2 * r + 1);
    }
  }

  #intoTube(qx: Float64Array, qy: Float64Array, tube: number): void {
    const freedom = this.#freedom;
    for (let i = 0; i < qx.length; i++) {
      const most = tube * FREEDOM[freedom[i]];
      const dx = qx[i] - this.#px[i];
      const dy = qy[i] - this.#py[i];
      const distance2 = dx * dx + dy * dy;
      if (distance2 <= most * most) continue;
      const part = most / Math.sqrt(distance2);
      qx[i] = this.#px[i] + part * dx;
      qy[i] = this.#py[i] + part * dy;
    }
  }

  #drop(qx: Float64Array, qy: Float64Array, tolerance: number): void {
    const { count } = this;
    const { closed } = this.arc;
    const keep = new Uint8Array(count);
    keep[0] = 1;
    const open: [number, number][] = [];
    if (closed) {
      let far = 0;
      let most = -1;
      for (let i = 1; i < count; i++) {
        const distance = (qx[i] - qx[0]) ** 2 + (qy[i] - qy[0]) ** 2;
        if (distance > most) {
          most = distance;
          far = i;
        }
      }
      keep[far] = 1;
      open.push([0, far], [far, count]);
    } else {
      keep[count - 1] = 1;
      open.push([0, count - 1]);
    }
    const freedom = this.#freedom;
    for (let stretch = open.pop(); stretch; stretch = open.pop()) {
      const [from, to] = stretch;
      const ax = qx[from];
      const ay = qy[from];
      const dx = qx[to % count] - ax;
      const dy = qy[to % count] - ay;
      const length2 = dx * dx + dy * dy;
      let worst = -1;
      let most = 1;
      for (let i = from + 1; i < to; i++) {
        const px = qx[i] - ax;
        const py = qy[i] - ay;
        const along = length2 === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy) / length2));
        const ex = px - along * dx;
        const ey = py - along * dy;
        const allowed = Math.max(1e-9, tolerance * FREEDOM[freedom[i]]);
        const excess = (ex * ex + ey * ey) / (allowed * allowed);
        if (excess > most) {
          most = excess;
          worst = i;
        }
      }
      if (worst < 0) continue;
      keep[worst] = 1;
      open.push([from, worst], [worst, to]);
    }
    const kept: number[] = [];
    const xs: number[] = [];
    const ys: number[] = [];
    for (let i = 0; i < count; i++) {
      if (keep[i] === 0) continue;
      const x = Math.round(qx[i] * GRID);
      const y = Math.round(qy[i] * GRID);
      const last = xs.length - 1;
      const again = last >= 0 && xs[last] === x && ys[last] === y;
      if (again && (closed || i < count - 1)) continue;
      // The junction at the end stays; the point that fell on it goes.
      if (again && last > 0) {
        kept.pop();
        xs.pop();
        ys.pop();
      }
      kept.push(i);
      xs.push(x);
      ys.push(y);
    }
    if (closed && xs.length > 1 && xs[0] === xs[xs.length - 1] && ys[0] === ys[ys.length - 1]) {
      kept.pop();
      xs.pop();
      ys.pop();
    }
    this.kept = Int32Array.from(kept);
    this.x = Int32Array.from(xs);
    this.y = Int32Array.from(ys);
  }
}
