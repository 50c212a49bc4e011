import { expectNumber, expectObject, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import { arcsKernel, directionOf, OUTSIDE, scaledProgress, type Arc } from './borders.js';
import { expectMasses } from './check.js';
import { GRID, SideGrid, sideLeftOf, sidesClash, type Sides } from './planar.js';
import { LEAST_SMOOTH, roomOf, SmoothBorder, type Room } from './smooth-border.js';
import type { Masses, Outline } from './types.js';

/** How far a smoothed border may lie from the exact one at least, pixels, unless told otherwise. */
export const OUTLINE_TOLERANCE_PX = 1.5;

/** The same as a share of the picture's longer side: on a sheet of A4 0.3 mm, less than the line of a pencil. */
const OUTLINE_TOLERANCE_SHARE = 1 / 1000;

/** Farthest an outline may be asked to lie from the exact border, pixels. */
const MOST_TOLERANCE = 100;

/** Least share of its area that a ring keeps. */
const LEAST_KEPT = 0.25;

/** What {@link outlinesOf} may be told. */
export interface OutlineOptions {
  /**
   * Farthest an outline may lie from the exact border of the pixels, and that from the outline (Hausdorff distance): pixels, 0..100. By
   * default a thousandth of the longer side, but no less than {@link OUTLINE_TOLERANCE_PX}. Below 0.6 outlines stay on the pixels' corners.
   */
  tolerancePx?: number;
}

/**
 * The outlines of all regions, in the order of their ids, smooth enough to trace.
 *
 * Every border is cut once: between two junctions (corners where three or four borders meet, and the corners of the picture) it is one
 * line that both neighbours share vertex for vertex, so the outlines cover the picture without gap or overlap. A line runs through the
 * middles of pixel sides, is drawn tight within a tube about them, and loses the points the tolerance can spare (Douglas & Peucker
 * 1973). Where lines would touch, or a small region would come to lie on the wrong side of a line, they are held nearer to the exact
 * border until the drawing divides the plane as the exact one does; the last resort, the exact middles, always does. The picture's frame
 * stays straight and keeps its corners.
 *
 * Rings: the one that goes round the region first, clockwise as seen on the screen (y down); holes the other way. Coordinates are whole
 * hundredths of a pixel.
 *
 * @throws TypeError, RangeError naming the argument
 */
export function outlinesOf(masses: Masses, options: OutlineOptions = {}): Outline[] {
  return finish(outlinesKernel(masses, options));
}

/** {@link outlinesOf} in slices. The masses must not change until it is done. */
export function outlinesKernel(masses: Masses, options: OutlineOptions = {}): Kernel<Outline[]> {
  expectMasses('masses', masses);
  expectObject('options', options);
  const { width, height } = masses.map;
  const usual = Math.max(OUTLINE_TOLERANCE_PX, OUTLINE_TOLERANCE_SHARE * Math.max(width, height));
  const tolerance = expectNumber(
    'options.tolerancePx',
    options.tolerancePx ?? Math.min(usual, MOST_TOLERANCE),
    0,
    MOST_TOLERANCE,
  );
  return outlineSlices(masses, tolerance);
}

function* outlineSlices(masses: Masses, tolerance: number): Kernel<Outline[]> {
  const { width, height } = masses.map;
  const arcs = yield* scaledProgress(arcsKernel(masses.labels, width, height), 0, 0.4);
  const chains = chainsOf(arcs, width + 1);
  yield 0.45;
  const lines =
    tolerance < LEAST_SMOOTH
      ? arcs.map((arc) => exactLine(arc, width + 1))
      : yield* scaledProgress(
          smoothLines(arcs, chains, width, height, roomOf(tolerance)),
          0.45,
          0.95,
        );
  return ringsOf(arcs, lines, chains, masses.regions.length);
}

/** The points of one border in whole hundredths of a pixel; a closed one does not repeat its first. */
interface Line {
  x: Int32Array;
  y: Int32Array;
}

/** A border as it is, without the corners that it passes straight. */
function exactLine({ corners, closed }: Arc, row: number): Line {
  const xs: number[] = [];
  const ys: number[] = [];
  const steps = corners.length - 1;
  for (let i = 0; i < (closed ? steps : steps + 1); i++) {
    const before = i > 0 ? corners[i - 1] : corners[steps - 1];
    const after = i < steps ? corners[i + 1] : -1;
    const isEnd = !closed && (i === 0 || i === steps);
    if (!isEnd && corners[i] - before === after - corners[i]) continue;
    const x = corners[i] % row;
    xs.push(x * GRID);
    ys.push(((corners[i] - x) / row) * GRID);
  }
  return { x: Int32Array.from(xs), y: Int32Array.from(ys) };
}

/** Smooth lines for all borders that divide the plane as the exact ones do. */
function* smoothLines(
  arcs: Arc[],
  chains: Chain[],
  width: number,
  height: number,
  room: Room,
): Kernel<Line[]> {
  const row = width + 1;
  const drawing = new Drawing(arcs, chains, width, height, room);
  for (let i = 0; i < arcs.length; i++) {
    drawing.draw(i);
    if ((i & 63) === 63) yield (0.6 * i) / arcs.length;
  }
  let changed: Set<number> | undefined;
  for (let round = 0; ; round++) {
    const sides = drawing.sides();
    yield 0.65;
    const grid = new SideGrid(sides, width, height);
    yield 0.7;
    let next = yield* drawing.holdClashes(grid, changed);
    if (next.size === 0) next = drawing.holdTurned(row);
    if (next.size === 0) next = drawing.holdCollapsed();
    if (next.size === 0) next = drawing.holdStrayed(grid);
    if (next.size === 0) break;
    for (const arc of next) drawing.draw(arc);
    changed = next;
    yield 1 - 0.3 / (round + 2);
  }
  return drawing.lines;
}

/** All borders while they are being smoothed. */
class Drawing {
  readonly lines: Line[];
  /** Undefined for the picture's frame, which is straight as it is. */
  readonly #borders: (SmoothBorder | undefined)[];
  #islands: Island[] | undefined;
  /** Twice the area of each chain as it is. */
  readonly #exactSums: Float64Array;

  constructor(
    readonly arcs: Arc[],
    readonly chains: Chain[],
    readonly width: number,
    readonly height: number,
    readonly room: Room,
  ) {
    const row = width + 1;
    this.#borders = arcs.map((arc) =>
      arc.left === OUTSIDE || arc.right === OUTSIDE ? undefined : new SmoothBorder(arc, row),
    );
    this.lines = arcs.map((arc) => exactLine(arc, row));
    const sums = Float64Array.from(this.lines, (line, arc) => crossSum(line, arcs[arc].closed));
    this.#exactSums = Float64Array.from(chains, (chain) => chainSum(chain, sums));
  }

  /** Makes one line anew. */
  draw(arc: number): void {
    const border = this.#borders[arc];
    if (border === undefined) return;
    border.draw(this.room);
    this.lines[arc] = { x: border.x, y: border.y };
  }

  /** The sides of all lines; vertices of junctions have the corner's number, others follow. */
  sides(): Sides {
    let count = 0;
    this.lines.forEach((line, arc) => {
      count += line.x.length - (this.arcs[arc].closed ? 0 : 1);
    });
    const sides: Sides = {
      count,
      x0: new Int32Array(count),
      y0: new Int32Array(count),
      x1: new Int32Array(count),
      y1: new Int32Array(count),
      from: new Int32Array(count),
      to: new Int32Array(count),
      arc: new Int32Array(count),
    };
    let vertex = (this.width + 1) * (this.height + 1);
    let side = 0;
    this.#firstSide = new Int32Array(this.arcs.length);
    this.lines.forEach(({ x, y }, arc) => {
      const { corners, closed } = this.arcs[arc];
      const points = x.length;
      const last = closed ? points : points - 1;
      const firstVertex = vertex;
      this.#firstSide[arc] = side;
      for (let i = 0; i < last; i++, side++) {
        const j = (i + 1) % points;
        sides.x0[side] = x[i];
        sides.y0[side] = y[i];
        sides.x1[side] = x[j];
        sides.y1[side] = y[j];
        sides.from[side] = !closed && i === 0 ? corners[0] : firstVertex + i;
        sides.to[side] = !closed && i + 1 === last ? corners[corners.length - 1] : firstVertex + j;
        sides.arc[side] = arc;
      }
      vertex += points;
    });
    return sides;
  }

  #firstSide = new Int32Array(0);

  /** Takes freedom from what touches; only pairs with a line in `changed` are looked at. @returns the lines to draw anew */
  *holdClashes(grid: SideGrid, changed?: Set<number>): Kernel<Set<number>> {
    const held = new Set<number>();
    const { sides, rows, columns } = grid;
    for (let cell = 0; cell < rows * columns; cell++) {
      const members = grid.members(cell);
      for (let i = 1; i < members.length; i++) {
        const a = members[i];
        const aChanged = changed === undefined || changed.has(sides.arc[a]);
        for (let j = 0; j < i; j++) {
          const b = members[j];
          if (!aChanged && !changed.has(sides.arc[b])) continue;
          if (!sidesClash(sides, a, b)) continue;
          if (this.#holdSide(sides, a)) held.add(sides.arc[a]);
          if (this.#holdSide(sides, b)) held.add(sides.arc[b]);
        }
      }
      if ((cell & 4095) === 4095) yield 0.75;
    }
    return held;
  }

  /**
   * Takes freedom from rings that have lost most of what they hold, or hold it the other way round: lines that do not touch and leave
   * their junctions in turn may still be turned inside out.
   */
  holdCollapsed(): Set<number> {
    const held = new Set<number>();
    const sums = Float64Array.from(this.lines, (line, arc) =>
      crossSum(line, this.arcs[arc].closed),
    );
    this.chains.forEach((chain, i) => {
      if (chainSum(chain, sums) / this.#exactSums[i] >= LEAST_KEPT) return;
      for (const half of chain.halves) {
        const arc = half >> 1;
        if (this.#hold(arc, 0, (this.#borders[arc]?.count ?? 1) - 1)) held.add(arc);
      }
    });
    return held;
  }

  /** Takes freedom from the points about junctions that borders no longer leave in their turn. */
  holdTurned(row: number): Set<number> {
    const held = new Set<number>();
    const spokes = new Map<
      number,
      { arc: number; start: boolean; exact: number; drawn: number }[]
    >();
    this.arcs.forEach(({ corners, closed }, arc) => {
      if (closed) return;
      const { x, y } = this.lines[arc];
      const end = corners.length - 1;
      const last = x.length - 1;
      for (const start of [true, false]) {
        const corner = start ? corners[0] : corners[end];
        const next = start ? corners[1] : corners[end - 1];
        const [i, j] = start ? [0, 1] : [last, last - 1];
        const list = spokes.get(corner) ?? [];
        list.push({
          arc,
          start,
          exact: directionOf(corner, next, row),
          drawn: Math.atan2(y[j] - y[i], x[j] - x[i]),
        });
        spokes.set(corner, list);
      }
    });
    for (const list of spokes.values()) {
      list.sort((a, b) => a.exact - b.exact);
      let falls = 0;
      for (let i = 0; i < list.length; i++)
        if (list[(i + 1) % list.length].drawn <= list[i].drawn) falls++;
      if (falls <= 1) continue;
      for (const { arc, start } of list) {
        const at = start ? 0 : (this.#borders[arc]?.count ?? 1) - 1;
        if (this.#hold(arc, at - 3, at + 3)) held.add(arc);
      }
    }
    return held;
  }

  /** Holds entirely what has let an island slip into another region, and the island. */
  holdStrayed(grid: SideGrid): Set<number> {
    const held = new Set<number>();
    this.#islands ??= findIslands(this.arcs, this.width + 1);
    for (const island of this.#islands) {
      const [x, y] = this.#leftmost(island);
      const side = sideLeftOf(grid, x, y, (arc) => island.arcs.has(arc));
      if (side >= 0) {
        const { y0, y1, arc } = grid.sides;
        const { left, right } = this.arcs[arc[side]];
        if ((y1[side] > y0[side] ? left : right) === island.within) continue;
      }
      this.#holdAbout(island, held);
    }
    return held;
  }

  #leftmost({ arcs }: Island): [x: number, y: number] {
    let bestX = Infinity;
    let bestY = Infinity;
    for (const arc of arcs) {
      const { x, y } = this.lines[arc];
      for (let i = 0; i < x.length; i++) {
        if (x[i] < bestX || (x[i] === bestX && y[i] < bestY)) [bestX, bestY] = [x[i], y[i]];
      }
    }
    return [bestX, bestY];
  }

  #holdAbout(island: Island, held: Set<number>): void {
    const reach = 2 * (this.room.tube + this.room.drop) + 3;
    const { bounds } = island;
    this.#borders.forEach((border, arc) => {
      if (border === undefined) return;
      const own = island.arcs.has(arc);
      for (let i = 0; i < border.count; i++) {
        const [x, y] = border.startOf(i);
        const near =
          x >= bounds[0] - reach &&
          x <= bounds[2] + reach &&
          y >= bounds[1] - reach &&
          y <= bounds[3] + reach;
        if ((own || near) && border.hold(i, i, true)) held.add(arc);
      }
    });
  }

  #holdSide(sides: Sides, side: number): boolean {
    const arc = sides.arc[side];
    const border = this.#borders[arc];
    if (border === undefined) return false;
    const i = side - this.#firstSide[arc];
    return this.#hold(arc, border.pointOf(i), border.pointOf(i + 1));
  }

  #hold(arc: number, from: number, to: number): boolean {
    return this.#borders[arc]?.hold(from, to) ?? false;
  }
}

/** Borders that hang together but not with the picture's frame. */
interface Island {
  arcs: Set<number>;
  /** The region it lies in. */
  within: number;
  /** Left, top, right, bottom in pixels. */
  bounds: [number, number, number, number];
}

function findIslands(arcs: Arc[], row: number): Island[] {
  const parents = arcs.map((_, arc) => arc);
  const rootOf = (arc: number): number => {
    while (parents[arc] !== arc) {
      parents[arc] = parents[parents[arc]];
      arc = parents[arc];
    }
    return arc;
  };
  const seen = new Map<number, number>();
  let frame = -1;
  arcs.forEach(({ corners, closed, left, right }, arc) => {
    if (!closed) {
      for (const corner of [corners[0], corners[corners.length - 1]]) {
        const other = seen.get(corner);
        if (other === undefined) seen.set(corner, arc);
        else parents[rootOf(arc)] = rootOf(other);
      }
    }
    if (left === OUTSIDE || right === OUTSIDE) frame = arc;
  });
  const islands = new Map<number, Island>();
  const lefts = new Map<number, number>();
  arcs.forEach(({ corners, left, right }, arc) => {
    const root = rootOf(arc);
    if (root === rootOf(frame)) return;
    let island = islands.get(root);
    if (island === undefined) {
      island = { arcs: new Set(), within: OUTSIDE, bounds: [Infinity, Infinity, -1, -1] };
      islands.set(root, island);
      lefts.set(root, Infinity);
    }
    island.arcs.add(arc);
    const { bounds } = island;
    for (let i = 0; i < corners.length; i++) {
      const x = corners[i] % row;
      const y = (corners[i] - x) / row;
      bounds[0] = Math.min(bounds[0], x);
      bounds[1] = Math.min(bounds[1], y);
      bounds[2] = Math.max(bounds[2], x);
      bounds[3] = Math.max(bounds[3], y);
      if (i === 0) continue;
      // A step up or down at the far left has the surrounding region on its left in the picture.
      const upDown = corners[i] - corners[i - 1];
      if (Math.abs(upDown) !== row || x >= lefts.get(root)!) continue;
      lefts.set(root, x);
      island.within = upDown > 0 ? right : left;
    }
  });
  return [...islands.values()];
}

/** The borders about one region, or about one of its holes, in the order in which they are walked. */
interface Chain {
  region: number;
  /** 2 * arc has the region at its right hand, 2 * arc + 1 is walked the other way. */
  halves: number[];
}

/** All rings as chains of borders, regions at the right hand. */
function chainsOf(arcs: Arc[], row: number): Chain[] {
  const leaving = new Map<number, number>();
  const exits = new Uint8Array(2 * arcs.length);
  arcs.forEach(({ corners, closed }, arc) => {
    if (closed) return;
    const end = corners.length - 1;
    const first = directionOf(corners[0], corners[1], row);
    const last = directionOf(corners[end - 1], corners[end], row);
    leaving.set(4 * corners[0] + first, 2 * arc);
    leaving.set(4 * corners[end] + ((last + 2) & 3), 2 * arc + 1);
    exits[2 * arc] = last;
    exits[2 * arc + 1] = (first + 2) & 3;
  });
  const chains: Chain[] = [];
  const used = new Uint8Array(2 * arcs.length);
  for (let start = 0; start < used.length; start++) {
    const { left, right } = arcs[start >> 1];
    const region = start & 1 ? left : right;
    if (used[start] || region === OUTSIDE) continue;
    const halves: number[] = [];
    let half = start;
    do {
      used[half] = 1;
      halves.push(half);
      half = nextHalf(arcs[half >> 1], half, leaving, exits[half]);
    } while (half !== start);
    chains.push({ region, halves });
  }
  return chains;
}

/** Twice the area under an open line: of a ring's lines together, twice what it holds. */
function crossSum({ x, y }: Line, closed: boolean): number {
  let sum = closed ? x[x.length - 1] * y[0] - x[0] * y[x.length - 1] : 0;
  for (let i = 1; i < x.length; i++) sum += x[i - 1] * y[i] - x[i] * y[i - 1];
  return sum;
}

/** Twice the area of a chain, above 0 where it is walked clockwise as seen on the screen. */
const chainSum = ({ halves }: Chain, sums: Float64Array): number =>
  halves.reduce((sum, half) => sum + (half & 1 ? -sums[half >> 1] : sums[half >> 1]), 0);

/** The outlines of the regions, ids rising; what goes round a region before its holes. */
function ringsOf(arcs: Arc[], lines: Line[], chains: Chain[], regions: number): Outline[] {
  const sums = Float64Array.from(lines, (line, arc) => crossSum(line, arcs[arc].closed));
  const found = Array.from({ length: regions }, (): { ring: Float32Array; sum: number }[] => []);
  for (const chain of chains) {
    const ring = ringOf(chain.halves, arcs, lines);
    found[chain.region]?.push({ ring, sum: chainSum(chain, sums) });
  }
  return found.map((rings, region) => ({
    region,
    rings: rings.sort((a, b) => b.sum - a.sum).map(({ ring }) => ring),
  }));
}

/** The border that goes on about the same region: as far to the right hand as there is one, so that diagonals stay apart. */
function nextHalf(
  { corners, closed }: Arc,
  half: number,
  leaving: Map<number, number>,
  direction: number,
): number {
  if (closed) return half;
  const corner = half & 1 ? corners[0] : corners[corners.length - 1];
  for (const turn of [1, 0, 3]) {
    const next = leaving.get(4 * corner + ((direction + turn) & 3));
    if (next !== undefined) return next;
  }
  throw new Error('A border ends nowhere');
}

function ringOf(chain: number[], arcs: Arc[], lines: Line[]): Float32Array {
  let count = 0;
  for (const half of chain) count += lines[half >> 1].x.length - (arcs[half >> 1].closed ? 0 : 1);
  const ring = new Float32Array(2 * count);
  let at = 0;
  for (const half of chain) {
    const { x, y } = lines[half >> 1];
    const points = x.length - (arcs[half >> 1].closed ? 0 : 1);
    for (let i = 0; i < points; i++) {
      const from = half & 1 ? x.length - 1 - i : i;
      ring[at++] = x[from] / GRID;
      ring[at++] = y[from] / GRID;
    }
  }
  return ring;
}

/**
 * An outline as the data of an SVG path: absolute commands M, L, H, V and Z only, at most two decimals. Fill it by either rule. An
 * outline without rings is the empty text.
 *
 * @throws TypeError, RangeError naming the argument
 */
export function pathOf(outline: Outline): string {
  const { rings } = expectObject('outline', outline) as { rings?: unknown };
  if (!Array.isArray(rings)) throw wrongType('outline.rings', rings, 'an array of Float32Array');
  return rings.map((ring: unknown, i) => ringPath(`outline.rings[${i}]`, ring)).join('');
}

function ringPath(name: string, ring: unknown): string {
  if (!(ring instanceof Float32Array)) throw wrongType(name, ring, 'a Float32Array');
  let path = '';
  let lastX = '';
  let lastY = '';
  for (let i = 0; i + 1 < ring.length; i += 2) {
    const x = shortNumber(expectNumber(`${name}[${i}]`, ring[i]));
    const y = shortNumber(expectNumber(`${name}[${i + 1}]`, ring[i + 1]));
    if (i === 0) path += `M${x} ${y}`;
    else if (x === lastX && y === lastY) continue;
    else if (y === lastY) path += `H${x}`;
    else if (x === lastX) path += `V${y}`;
    else path += `L${x} ${y}`;
    lastX = x;
    lastY = y;
  }
  return path === '' ? '' : `${path}Z`;
}

/** At most two decimals, no trailing zeros, no -0. */
function shortNumber(value: number): string {
  return String(Math.round(value * 100) / 100 || 0);
}
