/** From the cells of a picture to parts that a brush can state, for limits between bands. */
import type { Kernel } from '../base/kernel.js';
import { stage } from '../value/stage.js';
import { componentsOf, fillRun, runPartsOf, type RunParts } from '../geometry/components.js';
import { lengthOf } from '../geometry/length.js';
import { ALONG_EDGE, borderCost, type MassTree } from './grid.js';
import { BorderTable, PartGraph, type Parts } from './graph.js';
import type { Region } from './types.js';
import { discWithin, holdsDisc, roomiest } from './room.js';

/** Crack length of a border over its true length, the mean over all directions: 4 / pi. */
const STAIRS = 4 / Math.PI;
/** How often the borders of parts are moved to where they cost least. */
const SWEEPS = 8;
/** How many times its usual cost a border has while it is moved: gentle slopes of light get round borders (our own choice). */
const STRAIGHTEN = 3;
/** What belonging to the same part as the cells around is worth at full size, in L*. */
const BELONGING = 8;

/** The parts of a plane: a label 0.. for each pixel, and what each part is. */
export interface Segments {
  labels: Int32Array;
  regions: Region[];
}

/** The area and half a disc's width that a brush asks of a mass, in pixels. */
const leastArea = (brushPx: number): number => Math.floor((Math.PI / 4) * brushPx * brushPx);
const leastRadius = (brushPx: number): number => Math.floor(brushPx / 4);

/** Which brush a part is judged by: the smaller one when at least half of it lies in the focus. */
export function brushOf(tree: MassTree, area: number, fine: number): number {
  return tree.focus && 2 * fine >= area ? tree.focus.brushPx : tree.brushPx;
}

function tooSmall(tree: MassTree, graph: PartGraph): (part: number) => boolean {
  return (part) => graph.area[part] < leastArea(brushOf(tree, graph.area[part], graph.fine[part]));
}

/** Pixels of each cell, all alike but for the last of a row or column. */
function cellAreas(tree: MassTree): (column: number, row: number) => number {
  const { side, columns, rows, plane } = tree;
  const lastWide = plane.width - (columns - 1) * side;
  const lastHigh = plane.height - (rows - 1) * side;
  return (column, row) =>
    (column === columns - 1 ? lastWide : side) * (row === rows - 1 ? lastHigh : side);
}

/** The graph of labelled cells. */
function cellGraph(
  tree: MassTree,
  labels: Int32Array,
  count: number,
  limits: readonly number[],
): PartGraph {
  const { columns, rows, codes, fine, across, down, side } = tree;
  const areaOf = cellAreas(tree);
  const parts: Parts = {
    count,
    area: new Float64Array(count),
    sum: new Float64Array(count),
    fine: new Float64Array(count),
  };
  const borders = new BorderTable();
  const length = side / STAIRS;
  for (let row = 0, i = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, i++) {
      const label = labels[i];
      const area = areaOf(column, row);
      parts.area[label] += area;
      parts.sum[label] += area * codes[i];
      if (fine !== undefined && fine[i] !== 0) parts.fine[label] += area;
      if (column + 1 < columns && labels[i + 1] !== label)
        borders.add(label, labels[i + 1], length * across[i]);
      if (row + 1 < rows && labels[i + columns] !== label)
        borders.add(label, labels[i + columns], length * down[i]);
    }
  }
  return new PartGraph(parts, borders, limits);
}

/**
 * Merges cells' parts until each is large enough and holds its disc. At cells larger than a pixel both are asked for with a
 * little to spare, since borders still move by less than a cell.
 */
function* settleCells(
  tree: MassTree,
  labels: Int32Array,
  count: number,
  limits: readonly number[],
): Kernel<{ graph: PartGraph; at: Int32Array }> {
  const { columns, rows, side } = tree;
  const spare = side > 1 ? 1 : 0;
  const graph = cellGraph(tree, labels, count, limits);
  yield 0.4;
  yield* stage(graph.joinEqual(), 0.4, 0.5);
  yield* stage(graph.settle(tooSmall(tree, graph)), 0.5, 0.8);
  const widest = Math.max(tree.brushPx, tree.focus?.brushPx ?? 0);
  const farthest = Math.ceil(lengthOf(columns, rows));
  const cap = Math.min(Math.ceil(leastRadius(widest) / side) + spare, farthest);
  const cramped = (part: number) => {
    const brush = brushOf(tree, graph.area[part], graph.fine[part]);
    return graph.room[part] <= (leastRadius(brush) / side + spare) ** 2;
  };
  for (;;) {
    const { of, roots } = graph.numbered();
    const now = new Int32Array(labels.length);
    for (let i = 0; i < now.length; i++) now[i] = of[labels[i]];
    const { at, squared } = roomiest(now, roots.length, columns, rows, cap);
    roots.forEach((root, i) => (graph.room[root] = squared[i]));
    if (roots.length === 1 || !roots.some(cramped)) return { graph, at };
    graph.settleOnce(cramped);
    yield* stage(graph.settle(tooSmall(tree, graph)), 0.8, 1);
  }
}

/**
 * Moves the borders of parts to where they cost least: each cell at a border takes the part, of those around it, that
 * has the least of L* outside the part's band and border cost (iterated conditional modes, Besag 1986). Lengths of borders
 * count by the cuts of eight directions (Boykov & Kolmogorov 2003), so slanted ones cost what they measure.
 */
function* sweepBorders(tree: MassTree, labels: Int32Array, outside: Float32Array[]): Kernel<void> {
  const sweepOnce = sweeper(tree, labels, outside);
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    const moved = sweepOnce(sweep % 2 === 1);
    yield (sweep + 1) / SWEEPS;
    if (moved === 0) return;
  }
}

/** One sweep over all cells, downward or upward; it tells how many changed their part. */
function sweeper(
  tree: MassTree,
  labels: Int32Array,
  outside: Float32Array[],
): (upward: boolean) => number {
  const { columns, rows, smooth, fine, side, brushPx, focus } = tree;
  const usual = STRAIGHTEN * borderCost(brushPx);
  const finer = focus ? STRAIGHTEN * borderCost(focus.brushPx) : usual;
  const straight = (Math.PI / 8) * side;
  const slanted = straight / Math.SQRT2;
  const steps = [-1, 1, -columns, columns, -columns - 1, -columns + 1, columns - 1, columns + 1];
  const candidates = new Int32Array(9);
  const spared = new Float64Array(9);
  // Cells whose surroundings changed since they were looked at.
  const restless = new Uint8Array(labels.length).fill(1);
  return (upward) => {
    let moved = 0;
    for (let k = 0; k < rows; k++) {
      const row = upward ? rows - 1 - k : k;
      for (let column = 0; column < columns; column++) {
        const i = row * columns + column;
        if (restless[i] === 0) continue;
        restless[i] = 0;
        const label = labels[i];
        const left = column > 0;
        const right = column + 1 < columns;
        const top = row > 0;
        const bottom = row + 1 < rows;
        if (
          (!left || labels[i - 1] === label) &&
          (!right || labels[i + 1] === label) &&
          (!top || labels[i - columns] === label) &&
          (!bottom || labels[i + columns] === label)
        )
          continue;
        const code = smooth[i];
        const cost = fine !== undefined && fine[i] !== 0 ? finer : usual;
        let count = 0;
        for (let d = 0; d < 8; d++) {
          const step = steps[d];
          if (!left && (d === 0 || d === 4 || d === 6)) continue;
          if (!right && (d === 1 || d === 5 || d === 7)) continue;
          if (!top && (d === 2 || d === 4 || d === 5)) continue;
          if (!bottom && (d === 3 || d === 6 || d === 7)) continue;
          const other = labels[i + step];
          const worth =
            cost * ALONG_EDGE[Math.abs(code - smooth[i + step])] * (d < 4 ? straight : slanted);
          let c = 0;
          while (c < count && candidates[c] !== other) c++;
          if (c === count) {
            candidates[count] = other;
            spared[count++] = 0;
          }
          spared[c] += worth;
        }
        let best = -1;
        let least = Infinity;
        for (let c = 0; c < count; c++) {
          const total = side * side * outside[candidates[c]][code] - spared[c];
          if (total < least) {
            least = total;
            best = candidates[c];
          }
        }
        let stay = side * side * outside[label][code];
        for (let c = 0; c < count; c++) if (candidates[c] === label) stay -= spared[c];
        if (best >= 0 && least < stay - 1e-9) {
          labels[i] = best;
          moved++;
          for (let d = 0; d < 8; d++) {
            const near = i + steps[d];
            if (near >= 0 && near < restless.length) restless[near] = 1;
          }
        }
      }
    }
    return moved;
  };
}

/** L* by which each code lies outside a band. */
function outsideOf(band: number, limits: readonly number[]): Float32Array {
  const low = band > 0 ? limits[band - 1] + 0.5 : -Infinity;
  const high = band < limits.length ? limits[band] + 0.5 : Infinity;
  return Float32Array.from(
    { length: 256 },
    (_, code) => Math.max(0, low - code, code - high) / 2.55,
  );
}

/** Whether a cell and the eight around it have one label. */
function plain(
  cells: Int32Array,
  columns: number,
  label: number,
  above: number,
  here: number,
  below: number,
  column: number,
): boolean {
  const before = column > 0 ? column - 1 : 0;
  const after = column + 1 < columns ? column + 1 : column;
  return (
    cells[here + column] === label &&
    cells[above + column] === label &&
    cells[below + column] === label &&
    cells[here + before] === label &&
    cells[here + after] === label &&
    cells[above + before] === label &&
    cells[above + after] === label &&
    cells[below + before] === label &&
    cells[below + after] === label
  );
}

/**
 * The labels of cells at full size: within a cell's reach of a border each pixel takes the part that it belongs to by the
 * cells around (quadratic B-spline weights, so borders come out round, not in steps) and by its own lightness, smoothed
 * over 3 x 3 pixels.
 */
function* enlarge(tree: MassTree, cells: Int32Array, outside: Float32Array[]): Kernel<Int32Array> {
  const labels = new Int32Array(tree.plane.data.length);
  const enlargeRow = enlarger(tree, cells, outside, labels);
  for (let row = 0; row < tree.rows; row++) {
    enlargeRow(row);
    if (row % 32 === 31) yield row / tree.rows;
  }
  return labels;
}

/** Enlarges a row of cells. */
function enlarger(
  tree: MassTree,
  cells: Int32Array,
  outside: Float32Array[],
  labels: Int32Array,
): (row: number) => void {
  const { side, columns, rows, plane } = tree;
  const { width, height, data } = plane;
  // Weights of the cells before, at and behind for each pixel of a cell.
  const weights = new Float64Array(3 * side);
  for (let k = 0; k < side; k++) {
    const t = (k + 0.5) / side - 0.5;
    weights[3 * k] = 0.5 * (0.5 - t) ** 2;
    weights[3 * k + 1] = 0.75 - t * t;
    weights[3 * k + 2] = 0.5 * (0.5 + t) ** 2;
  }
  const around = new Int32Array(9);
  const names = new Int32Array(9);
  const which = new Int32Array(9);
  const shares = new Float64Array(27);
  return (row) => {
    const y0 = row * side;
    const y1 = Math.min(height, y0 + side);
    const above = Math.max(0, row - 1) * columns;
    const here = row * columns;
    const below = Math.min(rows - 1, row + 1) * columns;
    for (let column = 0; column < columns; column++) {
      const label = cells[here + column];
      let last = column;
      while (last < columns && plain(cells, columns, label, above, here, below, last)) last++;
      if (last > column) {
        const x0 = column * side;
        const x1 = Math.min(width, last * side);
        for (let y = y0; y < y1; y++) fillRun(labels, label, y * width + x0, y * width + x1);
        column = last - 1;
        continue;
      }
      const before = Math.max(0, column - 1);
      const after = Math.min(columns - 1, column + 1);
      around[0] = cells[above + before];
      around[1] = cells[above + column];
      around[2] = cells[above + after];
      around[3] = cells[here + before];
      around[4] = label;
      around[5] = cells[here + after];
      around[6] = cells[below + before];
      around[7] = cells[below + column];
      around[8] = cells[below + after];
      let count = 0;
      for (let k = 0; k < 9; k++) {
        let c = 0;
        while (c < count && names[c] !== around[k]) c++;
        if (c === count) names[count++] = around[k];
        which[k] = c;
      }
      const x0 = column * side;
      const x1 = Math.min(width, x0 + side);
      for (let y = y0; y < y1; y++) {
        // What each label has of the three columns of cells, on this row of pixels.
        for (let c = 0; c < 3 * count; c++) shares[c] = 0;
        const wy = 3 * (y - y0);
        for (let k = 0; k < 9; k++) shares[3 * which[k] + (k % 3)] += weights[wy + ((k / 3) | 0)];
        const up = y > 0 ? -width : 0;
        const down = y + 1 < height ? width : 0;
        for (let x = x0; x < x1; x++) {
          const at = y * width + x;
          const wx = 3 * (x - x0);
          const l = x > 0 ? -1 : 0;
          const r = x + 1 < width ? 1 : 0;
          const sum =
            data[at + up + l] +
            data[at + up] +
            data[at + up + r] +
            data[at + l] +
            data[at] +
            data[at + r] +
            data[at + down + l] +
            data[at + down] +
            data[at + down + r];
          const code = (sum / 9 + 0.5) | 0;
          let best = 0;
          let most = -Infinity;
          for (let c = 0; c < count; c++) {
            const share =
              weights[wx] * shares[3 * c] +
              weights[wx + 1] * shares[3 * c + 1] +
              weights[wx + 2] * shares[3 * c + 2];
            const worth = BELONGING * share - outside[names[c]][code];
            if (worth > most) {
              most = worth;
              best = names[c];
            }
          }
          labels[at] = best;
        }
      }
    }
  };
}

/** The graph of a plane's parts, and their rectangles: left, top, right, bottom of each. */
function pixelGraph(
  tree: MassTree,
  { begin, part, runs, count }: RunParts,
  limits: readonly number[],
): { graph: PartGraph; bounds: Int32Array } {
  const { plane, focus, brushPx } = tree;
  const { width, height, data } = plane;
  const parts: Parts = {
    count,
    area: new Float64Array(count),
    sum: new Float64Array(count),
    fine: new Float64Array(count),
  };
  const bounds = new Int32Array(4 * count);
  for (let i = 0; i < count; i++) bounds.set([width, height, -1, -1], 4 * i);
  const borders = new BorderTable();
  const usual = borderCost(brushPx) / STAIRS;
  const finer = focus ? borderCost(focus.brushPx) / STAIRS : usual;
  const costAt = (pixel: number) => (focus && focus.mask[pixel] !== 0 ? finer : usual);
  let above = 0;
  let first = 0;
  for (let y = 0; first < runs; y++) {
    const row = y * width;
    let run = first;
    let upper = above;
    for (; run < runs && begin[run] < row + width; run++) {
      const label = part[run];
      const from = begin[run];
      const to = begin[run + 1];
      let sum = 0;
      for (let at = from; at < to; at++) sum += data[at];
      parts.area[label] += to - from;
      parts.sum[label] += sum;
      if (focus) {
        let fine = 0;
        for (let at = from; at < to; at++) if (focus.mask[at] !== 0) fine++;
        parts.fine[label] += fine;
      }
      if (run > first) borders.add(label, part[run - 1], costAt(from));
      // What of the row above lies over this run; a border's cost is taken at the middle of what they share.
      for (; y > 0 && upper < first; upper++) {
        const left = Math.max(from, begin[upper] + width);
        const right = Math.min(to, begin[upper + 1] + width);
        if (right > left && part[upper] !== label)
          borders.add(label, part[upper], (right - left) * costAt((left + right) >> 1));
        if (begin[upper + 1] + width > to) break;
      }
      const b = 4 * label;
      if (from - row < bounds[b]) bounds[b] = from - row;
      if (to - 1 - row > bounds[b + 2]) bounds[b + 2] = to - 1 - row;
      if (y < bounds[b + 1]) bounds[b + 1] = y;
      bounds[b + 3] = y;
    }
    above = first;
    first = run;
  }
  return { graph: new PartGraph(parts, borders, limits), bounds };
}

/**
 * Merges pixels' parts until each is large enough and holds its disc, exactly.
 * @param hints pixels that may be the middle of a disc; whatever they are, the answer is the same, only sooner
 */
function* settlePixels(
  tree: MassTree,
  given: Int32Array,
  limits: readonly number[],
  hints: readonly number[],
): Kernel<Segments> {
  const { width, height } = tree.plane;
  const parts = runPartsOf(given, width, height);
  yield 0.2;
  const { graph, bounds } = pixelGraph(tree, parts, limits);
  yield 0.5;
  yield* stage(graph.joinEqual(), 0.5, 0.55);
  const small = tooSmall(tree, graph);
  yield* stage(graph.settle(small), 0.55, 0.7);
  const radiusOf = (part: number) => leastRadius(brushOf(tree, graph.area[part], graph.fine[part]));
  const cramped = (part: number) => graph.room[part] <= radiusOf(part) ** 2;
  const labels = new Int32Array(given.length);
  for (;;) {
    const { of, roots } = graph.numbered();
    paintRuns(parts, of, labels);
    if (roots.length === 1) return segmentsOf(labels, graph, of, roots, bounds);
    yield 0.8;
    const found = (at: number): boolean => {
      const root = roots[labels[at]];
      const radius = radiusOf(root);
      if (!holdsDisc(labels, width, height, at % width, Math.floor(at / width), radius))
        return false;
      graph.room[root] = Math.max(graph.room[root], radius * radius + 1);
      return true;
    };
    for (const at of hints) if (cramped(roots[labels[at]])) found(at);
    const boxes = boxesOf(of, roots, bounds);
    roots.forEach((root, i) => {
      if (!cramped(root)) return;
      const at = discWithin(labels, width, height, i, boxes[i], radiusOf(root));
      if (at >= 0) found(at);
    });
    if (!roots.some(cramped)) return segmentsOf(labels, graph, of, roots, bounds);
    graph.settleOnce(cramped);
    yield* stage(graph.settle(small), 0.8, 1);
  }
}

/** Gives the pixels of each run the number of its part. */
function paintRuns({ begin, part, runs }: RunParts, of: Int32Array, labels: Int32Array): void {
  for (let run = 0; run < runs; run++) fillRun(labels, of[part[run]], begin[run], begin[run + 1]);
}

/** The rectangles of roots from those of their parts. */
function boxesOf(
  of: Int32Array,
  roots: readonly number[],
  bounds: Int32Array,
): [x: number, y: number, w: number, h: number][] {
  const ends = roots.map(() => [Infinity, Infinity, -1, -1]);
  for (let part = 0; part < of.length; part++) {
    const end = ends[of[part]];
    end[0] = Math.min(end[0], bounds[4 * part]);
    end[1] = Math.min(end[1], bounds[4 * part + 1]);
    end[2] = Math.max(end[2], bounds[4 * part + 2]);
    end[3] = Math.max(end[3], bounds[4 * part + 3]);
  }
  return ends.map(([x, y, right, bottom]) => [x, y, right - x + 1, bottom - y + 1]);
}

function segmentsOf(
  labels: Int32Array,
  graph: PartGraph,
  of: Int32Array,
  roots: readonly number[],
  bounds: Int32Array,
): Segments {
  const boxes = boxesOf(of, roots, bounds);
  const regions = roots.map((root, id): Region => {
    graph.look(root);
    return {
      id,
      band: graph.band[root],
      area: graph.area[root],
      mean: graph.sum[root] / graph.area[root] / 2.55,
      bounds: boxes[id],
      neighbours: graph.near.map((part) => of[part]).sort((a, b) => a - b),
    };
  });
  return { labels, regions };
}

/** Bands of the smoothed cells, merged, their borders moved, enlarged, and merged again to hold what a brush asks, exactly. */
export function* segmentKernel(tree: MassTree, limits: readonly number[]): Kernel<Segments> {
  const { columns, rows, smooth, side, plane } = tree;
  const bands = new Uint8Array(smooth.length);
  for (let i = 0; i < bands.length; i++) {
    let band = 0;
    while (band < limits.length && smooth[i] > limits[band]) band++;
    bands[i] = band;
  }
  let { labels, count } = componentsOf(bands, columns, rows);
  yield 0.05;
  const first = yield* stage(settleCells(tree, labels, count, limits), 0.05, 0.18);
  yield* stage(first.graph.economise(), 0.18, 0.2);
  const outside = Array.from({ length: limits.length + 1 }, (_, band) => outsideOf(band, limits));
  let { of, roots } = first.graph.numbered();
  for (let i = 0; i < labels.length; i++) labels[i] = of[labels[i]];
  let costs = roots.map((root) => outside[first.graph.band[root]]);
  yield* stage(sweepBorders(tree, labels, costs), 0.2, 0.35);
  ({ labels, count } = componentsOf(labels, columns, rows));
  const second = yield* stage(settleCells(tree, labels, count, limits), 0.35, 0.39);
  yield* stage(second.graph.economise(), 0.39, 0.4);
  ({ of, roots } = second.graph.numbered());
  for (let i = 0; i < labels.length; i++) labels[i] = of[labels[i]];
  const hints = second.at.map((at) => {
    const x = (at % columns) * side + (side >> 1);
    const y = Math.floor(at / columns) * side + (side >> 1);
    return Math.min(plane.height - 1, y) * plane.width + Math.min(plane.width - 1, x);
  });
  yield 0.4;
  if (side > 1) {
    costs = roots.map((root) => outside[second.graph.band[root]]);
    labels = yield* stage(enlarge(tree, labels, costs), 0.4, 0.6);
  }
  return yield* stage(settlePixels(tree, labels, limits, Array.from(hints)), 0.6, 1);
}
