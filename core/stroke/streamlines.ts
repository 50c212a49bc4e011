import { expectInteger, expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import type { DirectionField } from './types.js';

const RADIANS = Math.PI / 180;

/** Closest spacing that lines are laid at, in pixels: nearer together they would be a tint. */
const CLOSEST = 2;

/** How near a growing line may come to another, as a part of the spacing (Jobard & Lefer's d_test = 0.5 d_sep). */
export const TEST = 0.5;

/** A line ends where its direction turns by more than this in one step (cosine): a singular point. */
const SHARPEST = Math.cos(60 * RADIANS);

/** Points of lines, found by place. Cells of the grid are as wide as the largest distance asked for. */
export class Neighbourhood {
  readonly #columns: number;
  readonly #rows: number;
  readonly #heads: Int32Array;
  #next = new Int32Array(256);
  #x = new Float64Array(256);
  #y = new Float64Array(256);
  #mark = new Int32Array(256);
  #count = 0;

  constructor(
    readonly width: number,
    readonly height: number,
    readonly cell: number,
  ) {
    this.#columns = Math.floor(width / cell) + 1;
    this.#rows = Math.floor(height / cell) + 1;
    this.#heads = new Int32Array(this.#columns * this.#rows).fill(-1);
  }

  #cellOf(position: number, count: number): number {
    return Math.max(0, Math.min(count - 1, Math.floor(position / this.cell)));
  }

  #cellAt(x: number, y: number): number {
    return this.#cellOf(y, this.#rows) * this.#columns + this.#cellOf(x, this.#columns);
  }

  /** Adds a point with a mark of 0 or more: the number of its line, say. */
  add(x: number, y: number, mark: number): void {
    const n = this.#count++;
    if (n === this.#x.length) this.#grow();
    this.#x[n] = x;
    this.#y[n] = y;
    this.#mark[n] = mark;
    const at = this.#cellAt(x, y);
    this.#next[n] = this.#heads[at];
    this.#heads[at] = n;
  }

  #grow(): void {
    const twice = 2 * this.#x.length;
    const wider = <T extends Float64Array | Int32Array>(old: T, fresh: T): T => {
      fresh.set(old);
      return fresh;
    };
    this.#next = wider(this.#next, new Int32Array(twice));
    this.#x = wider(this.#x, new Float64Array(twice));
    this.#y = wider(this.#y, new Float64Array(twice));
    this.#mark = wider(this.#mark, new Int32Array(twice));
  }

  /**
   * Whether a point is nearer than `distance` (at most the cell's width); points whose mark differs
   * from `mark` by no more than `within` do not count.
   */
  near(x: number, y: number, distance: number, mark = -1, within = 0): boolean {
    const i = this.#cellOf(x, this.#columns);
    const j = this.#cellOf(y, this.#rows);
    const squared = distance * distance;
    for (let row = Math.max(0, j - 1); row <= Math.min(this.#rows - 1, j + 1); row++) {
      for (
        let column = Math.max(0, i - 1);
        column <= Math.min(this.#columns - 1, i + 1);
        column++
      ) {
        for (let n = this.#heads[row * this.#columns + column]; n >= 0; n = this.#next[n]) {
          const dx = this.#x[n] - x;
          const dy = this.#y[n] - y;
          if (dx * dx + dy * dy < squared && Math.abs(this.#mark[n] - mark) > within) return true;
        }
      }
    }
    return false;
  }

  /** Takes all points out, at the cost of their number. */
  clear(): void {
    for (let n = 0; n < this.#count; n++) this.#heads[this.#cellAt(this.#x[n], this.#y[n])] = -1;
    this.#count = 0;
  }
}

/** A direction looked up at a point; false where there is none. `out` is a unit vector of either sense. */
export function directionAt(
  field: DirectionField,
  x: number,
  y: number,
  out: Float64Array,
  allowed: (pixel: number) => boolean,
): boolean {
  const { width, height, angle } = field;
  if (!(x >= 0 && y >= 0 && x <= width && y <= height)) return false;
  const px = Math.min(width - 1, Math.floor(x));
  const py = Math.min(height - 1, Math.floor(y));
  if (!allowed(py * width + px)) return false;
  const fx = Math.min(width - 1, Math.max(0, x - 0.5));
  const fy = Math.min(height - 1, Math.max(0, y - 0.5));
  const left = Math.floor(fx);
  const top = Math.floor(fy);
  let u = 0;
  let v = 0;
  for (let corner = 0; corner < 4; corner++) {
    const cx = left + (corner & 1);
    const cy = top + (corner >> 1);
    if (cx >= width || cy >= height) continue;
    const at = cy * width + cx;
    const weight = (1 - Math.abs(fx - cx)) * (1 - Math.abs(fy - cy));
    if (weight === 0 || !allowed(at)) continue;
    const twice = 2 * RADIANS * angle[at];
    u += weight * Math.cos(twice);
    v += weight * Math.sin(twice);
  }
  return halved(u, v, out);
}

/** Half the angle of (u, v) as a unit vector; false where there is none. */
export function halved(u: number, v: number, out: Float64Array): boolean {
  const length = Math.hypot(u, v);
  if (length < 1e-3) return false;
  const sin = Math.sqrt(Math.max(0, (1 - u / length) / 2));
  out[0] = Math.sqrt(Math.max(0, (1 + u / length) / 2));
  out[1] = v < 0 ? -sin : sin;
  return true;
}

/** How a line may grow. */
export interface Growth {
  /** Writes the direction at a point to `out`, a unit vector of either sense; false where there is none. */
  look: (x: number, y: number, out: Float64Array) => boolean;
  /** Length of a step, pixels. */
  step: number;
  /** Whether the line may go on to a point. */
  free: (x: number, y: number) => boolean;
  /** How near a line may come to itself. */
  apart: number;
  /** Where its own points are kept as it grows; its cells are at least `apart` wide. */
  own: Neighbourhood;
  /** The most steps to either side. */
  steps: number;
  /** How far a side may turn from the direction at the seed, as the cosine; it may turn round when missing. */
  bend?: number;
}

/** More than any line has points: marks of one side start here and rise, those of the other fall. */
const SEED = 2 ** 30;

/**
 * One side of a line, from its seed on (the seed is not part of it): midpoint rule, the sense
 * carried on from step to step, since the field has none.
 */
function oneSide(growth: Growth, x0: number, y0: number, sense: number): number[] {
  const { look, step, free, apart, own, steps, bend = -1 } = growth;
  const direction = new Float64Array(2);
  const side: number[] = [];
  if (!look(x0, y0, direction)) return side;
  let x = x0;
  let y = y0;
  let dx = sense * direction[0];
  let dy = sense * direction[1];
  const [ux, uy] = [dx, dy];
  // A line comes back to itself only after a turn: points nearer along it than half a circle of that
  // distance do not count.
  const turn = Math.ceil((Math.PI * apart) / step);
  for (let n = 1; n <= steps; n++) {
    if (!look(x + (step / 2) * dx, y + (step / 2) * dy, direction)) break;
    const along = direction[0] * dx + direction[1] * dy;
    if (Math.abs(along) < SHARPEST) break;
    dx = Math.sign(along) * direction[0];
    dy = Math.sign(along) * direction[1];
    if (dx * ux + dy * uy < bend) break;
    x += step * dx;
    y += step * dy;
    const mark = SEED + sense * n;
    if (!look(x, y, direction) || !free(x, y)) break;
    if (own.near(x, y, apart, mark, turn)) break;
    own.add(x, y, mark);
    side.push(x, y);
  }
  return side;
}

/** A line through a seed, x and y in turn, from one end to the other. */
export function grow(growth: Growth, x: number, y: number): number[] {
  growth.own.add(x, y, SEED);
  const ahead = oneSide(growth, x, y, 1);
  const behind = oneSide(growth, x, y, -1);
  growth.own.clear();
  const line: number[] = [];
  for (let n = behind.length - 2; n >= 0; n -= 2) line.push(behind[n], behind[n + 1]);
  line.push(x, y);
  for (const value of ahead) line.push(value);
  return line;
}

export function expectField(name: string, value: unknown): void {
  const field = expectObject(name, value) as {
    width?: unknown;
    height?: unknown;
    angle?: unknown;
    coherence?: unknown;
  };
  const width = expectInteger(`${name}.width`, field.width, 1, 2 ** 28);
  const height = expectInteger(`${name}.height`, field.height, 1, 2 ** 28);
  for (const part of ['angle', 'coherence'] as const) {
    const plane = field[part];
    if (!(plane instanceof Float32Array))
      throw wrongType(`${name}.${part}`, plane, 'a Float32Array');
    if (plane.length !== width * height)
      throw outOfRange(`${name}.${part}`, plane, `${width} x ${height} numbers`);
  }
}

export interface StreamlineOptions {
  /** Distance between neighbouring lines in pixels, at least 2. */
  spacingPx: number;
}

/** {@link streamlines} in slices. */
export function* streamlinesKernel(
  field: DirectionField,
  options: StreamlineOptions,
): Kernel<Float32Array[]> {
  expectField('field', field);
  expectObject('options', options);
  const spacing = expectNumber('options.spacingPx', options.spacingPx, CLOSEST, 1e6);
  const { width, height, coherence } = field;
  const step = Math.min(2, (TEST * spacing) / 2);
  // Between two points a line may come nearer to another's point than at its own: by so much more the points stay away.
  const test = Math.hypot(TEST * spacing, step / 2);
  const cell = Math.min(spacing, Math.hypot(width, height) + 1);
  const taken = new Neighbourhood(width, height, cell);
  const limited = (distance: number): number => Math.min(distance, cell);
  const allowed = (pixel: number): boolean => coherence[pixel] > 0;
  const growth: Growth = {
    look: (x, y, out) => directionAt(field, x, y, out, allowed),
    step,
    free: (x, y) => !taken.near(x, y, limited(test)),
    apart: limited(test),
    own: new Neighbourhood(width, height, cell),
    steps: Math.ceil((4 * width * height) / (spacing * step)),
  };
  const lines: Float32Array[] = [];
  const valid = (x: number, y: number): boolean =>
    x >= 0 &&
    y >= 0 &&
    x <= width &&
    y <= height &&
    allowed(Math.min(height - 1, Math.floor(y)) * width + Math.min(width - 1, Math.floor(x))) &&
    !taken.near(x, y, limited(spacing));

  const lay = (x: number, y: number): boolean => {
    const line = grow(growth, x, y);
    if (line.length < 4) return false;
    for (let n = 0; n < line.length; n += 2) taken.add(line[n], line[n + 1], lines.length);
    lines.push(Float32Array.from(line));
    return true;
  };

  /** Seeds at the spacing from a line, to both sides of each of its points. */
  function* beside(line: Float32Array, progress: number): Kernel<void> {
    for (let n = 0; n < line.length; n += 2) {
      const back = Math.max(0, n - 2);
      const on = Math.min(line.length - 2, n + 2);
      const dx = line[on] - line[back];
      const dy = line[on + 1] - line[back + 1];
      const length = Math.hypot(dx, dy);
      if (!(length > 0)) continue;
      // A hair farther, so that rounding does not put the seed inside the distance.
      const out = (1.0001 * spacing) / length;
      for (const sense of [1, -1]) {
        const x = line[n] - sense * out * dy;
        const y = line[n + 1] + sense * out * dx;
        if (valid(x, y) && lay(x, y)) yield progress;
      }
    }
  }

  // From the middle, then from places that no line is near, row by row over the picture, so that
  // every coherent part gets its lines; from each line its neighbours, and theirs, in the order in
  // which they were laid.
  const apart = Math.max(1, Math.min(spacing / 2, Math.max(width, height) / 16));
  let done = 0;
  lay(width / 2, height / 2);
  while (done < lines.length) yield* beside(lines[done++], 0);
  for (let y = 0.5; y < height; y += apart) {
    for (let x = 0.5; x < width; x += apart) {
      if (!valid(x, y) || !lay(x, y)) continue;
      while (done < lines.length) yield* beside(lines[done++], y / height);
    }
    yield y / height;
  }
  return lines;
}

/**
 * Evenly spaced streamlines of a direction field (Jobard & Lefer 1997, "Creating evenly-spaced streamlines of arbitrary
 * density"). A new line starts at the spacing d_sep = `spacingPx` beside a point of an earlier one and grows both ways until it
 * comes to d_test = 0.5 d_sep of another line or of itself, to a place without direction (coherence 0), to a sharp turn, or to
 * the picture's edge. So lines are at least d_test apart everywhere, their seeds d_sep from all lines before them, and no
 * directed place that a line can start from is farther than about d_sep from one. The first line starts in the middle of the picture, that of a part which no line has come
 * near at its first free place in reading order. The same field always gives the same lines.
 *
 * @param field the directions have no sense: a line keeps its own
 * @returns x, y pairs of each line in pixel-corner coordinates (a pixel's centre is at .5), at most 2 pixels apart
 * @throws {RangeError} a spacing below 2 pixels
 */
export function streamlines(field: DirectionField, options: StreamlineOptions): Float32Array[] {
  return finish(streamlinesKernel(field, options));
}
