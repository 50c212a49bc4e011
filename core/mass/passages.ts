import { expectNumber, expectObject, expectRaster, outOfRange, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lab, Pixels, Spot } from '../base/types.js';
import { ciede2000, labOfXyz, xyzOfLab } from '../colour/index.js';
import { stage } from '../value/stage.js';
import { lengthOf } from '../geometry/length.js';
import { cellsKernel, labAt, meetingsKernel, type Cells } from './cells.js';
import { expectMasses } from './check.js';
import { Heap } from './graph.js';
import { roomiest } from './room.js';
import type { Masses, PassageOverrule } from './types.js';

/** A part of a mass with a lean of its own, at least as big as the brush can state. */
export interface Passage {
  /** Its place in {@link Passages.passages}, and its label. */
  id: number;
  /** The mass it is part of. */
  region: number;
  /** Pixels. */
  area: number;
  /** Mean colour (the mean of the light), CIELAB D65. */
  lab: Lab;
  /** Smallest upright rectangle, pixels. */
  bounds: [x: number, y: number, w: number, h: number];
  /** A place well inside it, pixel coordinates (a pixel's centre is at .5). */
  at: [x: number, y: number];
}

/** The border of two passages of one mass. */
export interface PassageBorder {
  /** Ids, the smaller first. */
  passages: [number, number];
  /** Whether their washes may run into each other. */
  run: 'let-run' | 'keep-apart';
  /** CIEDE2000 of the two passages. */
  deltaE: number;
  /** Pixels. */
  lengthPx: number;
}

/** Masses divided by colour. */
export interface Passages {
  /** The passage of each pixel, row-major. */
  labels: Int32Array;
  /** `passages[i].id === i`; in the order in which they first appear. */
  passages: Passage[];
  /** Borders inside masses; what lies between two masses is an edge. */
  borders: PassageBorder[];
  /** Overrules about passages that no longer make sense here, by their place in the list, and why. */
  unmet?: { overrule: number; reason: Reason }[];
}

export interface PassageOptions {
  /** Pressed width of the brush in pixels, above 0. */
  brushPx: number;
  /** Those of the kind `passage` are applied, others left alone. */
  overrules?: { kind: string }[];
}

/** Cells across a brush: a ribbon of an eighth of the brush is still seen. */
const CELLS_A_BRUSH = 8;
/** The most cells; more only cost time. */
const CELLS = 60_000;
/** How much a difference of L* counts beside one of lean: a mass is of one value already. Ours. */
const LIGHTNESS_COUNTS = 0.3;
/**
 * By how much the lean of a dab as wide as the brush must differ to be worth a passage (units of {@link lean}, about CIEDE2000). A dab of
 * width b spares `pi/4 b^2 d^2` and has a border of `pi b`. Ours: about what is told apart at a step back.
 */
const WORTH = 5;
/** CIEDE2000 from which a sudden change of colour is kept apart. Ours: beyond it two colours are seen, not two shades of one. */
const APART = 10;
/** Of the whole difference, the share that lies in the step at the border where the change is sudden. Ours. */
const SUDDEN = 0.5;

/**
 * The plane in which leans are compared: a*, b* with the chroma brought to equal steps, C' = ln(1 + 0.045 C) / 0.045, the integral of the
 * chroma weight 1 + 0.045 C of CIE94 and CIEDE2000; and a share of L*.
 */
function lean([L, a, b]: Lab): Lab {
  const C = lengthOf(a, b);
  const factor = C > 0 ? Math.log(1 + 0.045 * C) / 0.045 / C : 1;
  return [LIGHTNESS_COUNTS * L, a * factor, b * factor];
}

/** The parts of the masses while they are merged. */
class LeanGraph {
  readonly #parent: Int32Array;
  /** Border lengths to neighbours in the same mass. */
  readonly #near: Map<number, number>[];
  readonly area: Float64Array;
  readonly #sums: Float64Array;
  readonly #border: number;

  constructor(
    cells: Cells,
    meetings: { a: number; b: number; length: number }[],
    region: Int32Array,
    brushPx: number,
  ) {
    const { count } = cells;
    this.#parent = Int32Array.from({ length: count }, (_, i) => i);
    this.area = cells.area.slice();
    this.#sums = new Float64Array(3 * count);
    this.#border = (WORTH * WORTH * brushPx) / 4;
    for (let i = 0; i < count; i++) {
      const at = lean(labAt(cells.lab, i));
      for (let c = 0; c < 3; c++) this.#sums[3 * i + c] = at[c] * this.area[i];
    }
    this.#near = Array.from({ length: count }, () => new Map());
    for (const { a, b, length } of meetings) {
      if (region[a] !== region[b]) continue;
      this.#near[a].set(b, length);
      this.#near[b].set(a, length);
    }
  }

  find(part: number): number {
    const parent = this.#parent;
    while (parent[part] !== part) {
      parent[part] = parent[parent[part]];
      part = parent[part];
    }
    return part;
  }

  isRoot(part: number): boolean {
    return this.#parent[part] === part;
  }

  #squared(a: number, b: number): number {
    let sum = 0;
    for (let c = 0; c < 3; c++)
      sum += (this.#sums[3 * a + c] / this.area[a] - this.#sums[3 * b + c] / this.area[b]) ** 2;
    return sum;
  }

  /** The rise of `sum of squared differences from the mean + border` when two parts become one. */
  #rise(a: number, b: number, length: number): number {
    const [n, m] = [this.area[a], this.area[b]];
    return ((n * m) / (n + m)) * this.#squared(a, b) - length * this.#border;
  }

  /** Merges two neighbours; gives the part under which both are found. */
  #merge(a: number, b: number): number {
    const root = this.#near[a].size >= this.#near[b].size ? a : b;
    const gone = root === a ? b : a;
    this.#parent[gone] = root;
    this.area[root] += this.area[gone];
    for (let c = 0; c < 3; c++) this.#sums[3 * root + c] += this.#sums[3 * gone + c];
    const near = this.#near[root];
    near.delete(gone);
    for (const [other, length] of this.#near[gone]) {
      if (other === root) continue;
      near.set(other, (near.get(other) ?? 0) + length);
      const back = this.#near[other];
      back.delete(gone);
      back.set(root, near.get(other)!);
    }
    this.#near[gone] = new Map();
    return root;
  }

  /**
   * Merges neighbours, by least rise, as long as that lowers the sum. A rise is looked at again when its turn comes, and all that are left
   * once more at the end of a round.
   */
  *economise(): Kernel<void> {
    for (let merged = true; merged;) {
      merged = false;
      const heap = new Heap();
      const pairs: number[] = [];
      for (let a = 0; a < this.#near.length; a++) {
        for (const [b, length] of this.#near[a]) {
          if (b < a) continue;
          const rise = this.#rise(a, b, length);
          if (rise >= 0) continue;
          heap.push(rise, pairs.length);
          pairs.push(a, b);
        }
      }
      for (let turn = 1; heap.size > 0; turn++) {
        if (turn % 512 === 0) yield turn / (turn + heap.size);
        const key = heap.least;
        const pair = heap.pop();
        const a = this.find(pairs[pair]);
        const b = this.find(pairs[pair + 1]);
        if (a === b) continue;
        const rise = this.#rise(a, b, this.#near[a].get(b)!);
        if (rise >= 0) continue;
        if (rise > key && rise > heap.least) {
          heap.push(rise, pair);
          continue;
        }
        this.#merge(a, b);
        merged = true;
      }
    }
  }

  /** Merges every part that is smaller than `least` into the neighbour whose lean is most like its own. */
  settle(least: number): void {
    const small = new Heap();
    const offer = (part: number): void => {
      if (this.area[part] < least && this.#near[part].size > 0) small.push(this.area[part], part);
    };
    for (let part = 0; part < this.#parent.length; part++) if (this.isRoot(part)) offer(part);
    while (small.size > 0) {
      const key = small.least;
      const part = small.pop();
      if (!this.isRoot(part) || this.area[part] !== key) continue;
      let best = -1;
      let nearest = Infinity;
      for (const other of this.#near[part].keys()) {
        const squared = this.#squared(part, other);
        if (squared < nearest || (squared === nearest && other < best))
          [best, nearest] = [other, squared];
      }
      if (best >= 0) offer(this.#merge(part, best));
    }
  }
}

const isPassageOverrule = (overrule: { kind: string }): overrule is PassageOverrule =>
  overrule.kind === 'passage';

/** {@link passagesOf} in slices. */
export function* passagesKernel(
  pixels: Pixels,
  masses: Masses,
  options: PassageOptions,
): Kernel<Passages> {
  expectRaster('pixels', pixels, 4);
  expectMasses('masses', masses);
  const { width, height } = pixels;
  if (masses.map.width !== width || masses.map.height !== height)
    throw outOfRange(
      'masses.map',
      `${masses.map.width} x ${masses.map.height}`,
      `${width} x ${height}`,
    );
  const given = expectObject('options', options) as Partial<PassageOptions>;
  const brushPx = expectNumber('options.brushPx', given.brushPx, 0, 1e6);
  if (brushPx === 0) throw outOfRange('options.brushPx', brushPx, 'a width above 0');
  const { overrules = [] } = given;
  if (!Array.isArray(overrules)) throw wrongType('options.overrules', overrules, 'an array');

  const side = Math.max(
    1,
    Math.min(Math.floor(brushPx / CELLS_A_BRUSH), 64),
    Math.ceil(Math.sqrt((width * height) / CELLS)),
  );
  const cells = yield* stage(cellsKernel(pixels, masses.labels, side), 0, 0.3);
  const meetings = yield* stage(meetingsKernel(cells.of, width, height), 0.3, 0.5);
  const region = new Int32Array(cells.count);
  for (let at = 0; at < cells.of.length; at++) region[cells.of[at]] = masses.labels[at];
  const graph = new LeanGraph(cells, meetings, region, brushPx);
  yield 0.55;
  yield* stage(graph.economise(), 0.55, 0.9);
  graph.settle(Math.floor((Math.PI / 4) * brushPx * brushPx));

  const number = new Int32Array(cells.count).fill(-1);
  const ofCell = new Int32Array(cells.count);
  const passages: Passage[] = [];
  const light: number[] = [];
  for (let cell = 0; cell < cells.count; cell++) {
    const root = graph.find(cell);
    if (number[root] < 0) {
      number[root] = passages.length;
      passages.push({
        id: passages.length,
        region: region[cell],
        area: 0,
        lab: [0, 0, 0],
        bounds: [width, height, 0, 0],
        at: [0, 0],
      });
      light.push(0, 0, 0);
    }
    const id = number[root];
    ofCell[cell] = id;
    passages[id].area += cells.area[cell];
    const xyz = xyzOfLab(labAt(cells.lab, cell));
    for (let c = 0; c < 3; c++) light[3 * id + c] += xyz[c] * cells.area[cell];
  }
  for (const passage of passages) {
    const mean = (c: number): number => light[3 * passage.id + c] / passage.area;
    passage.lab = labOfXyz([mean(0), mean(1), mean(2)]);
  }
  const labels = new Int32Array(width * height);
  const slice = Math.max(1, Math.floor((1 << 17) / width));
  const right = new Int32Array(passages.length);
  const bottom = new Int32Array(passages.length);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const id = ofCell[cells.of[y * width + x]];
      labels[y * width + x] = id;
      const { bounds } = passages[id];
      if (x < bounds[0]) bounds[0] = x;
      if (y < bounds[1]) bounds[1] = y;
      if (x > right[id]) right[id] = x;
      if (y > bottom[id]) bottom[id] = y;
    }
    if (y % slice === 0) yield 0.9 + (0.05 * y) / height;
  }
  yield 0.95;
  const cap = Math.max(1, Math.min(64, Math.floor(brushPx)));
  const { at } = roomiest(labels, passages.length, width, height, cap);
  for (const passage of passages) {
    const [left, top] = passage.bounds;
    passage.bounds = [left, top, right[passage.id] + 1 - left, bottom[passage.id] + 1 - top];
    const inside = at[passage.id];
    passage.at = [(inside % width) + 0.5, Math.floor(inside / width) + 0.5];
  }

  const borders = bordersOf(meetings, cells, ofCell, passages);
  const unmet: NonNullable<Passages['unmet']> = [];
  overrules.forEach((overrule, i) => {
    if (!isPassageOverrule(overrule)) return;
    const [from, to] = overrule.between.map(([x, y]: Spot): number => {
      const column = Math.floor(x * width);
      const row = Math.floor(y * height);
      const inside = column >= 0 && row >= 0 && column < width && row < height;
      return inside ? labels[row * width + column] : -1;
    });
    const border = borders.find(
      ({ passages: [a, b] }) => a === Math.min(from, to) && b === Math.max(from, to),
    );
    if (border) border.run = overrule.run;
    else if (from < 0 || to < 0) unmet.push({ overrule: i, reason: reason('passage.outside') });
    else if (from === to)
      unmet.push({ overrule: i, reason: reason('passage.same', { passage: from }) });
    else unmet.push({ overrule: i, reason: reason('passage.no-neighbours', { from, to }) });
  });
  return unmet.length > 0 ? { labels, passages, borders, unmet } : { labels, passages, borders };
}

/** Borders of passages, told by the difference of the two and by how much of it lies at the border. */
function bordersOf(
  meetings: { a: number; b: number; length: number }[],
  cells: Cells,
  ofCell: Int32Array,
  passages: Passage[],
): PassageBorder[] {
  const found = new Map<string, PassageBorder & { step: number }>();
  for (const { a, b, length } of meetings) {
    const [p, q] = [ofCell[a], ofCell[b]].sort((one, other) => one - other);
    if (p === q || passages[p].region !== passages[q].region) continue;
    const key = `${p} ${q}`;
    let border = found.get(key);
    if (!border) {
      const deltaE = ciede2000(...passages[p].lab, ...passages[q].lab);
      border = { passages: [p, q], run: 'let-run', deltaE, lengthPx: 0, step: 0 };
      found.set(key, border);
    }
    border.lengthPx += length;
    border.step += length * ciede2000(...labAt(cells.lab, a), ...labAt(cells.lab, b));
  }
  return [...found.values()]
    .sort(
      (one, other) => one.passages[0] - other.passages[0] || one.passages[1] - other.passages[1],
    )
    .map(({ passages: pair, deltaE, lengthPx, step }) => ({
      passages: pair,
      run: deltaE >= APART && step / lengthPx >= SUDDEN * deltaE ? 'keep-apart' : 'let-run',
      deltaE,
      lengthPx,
    }));
}

/**
 * Each mass divided into passages: parts of different lean that a brush can state.
 *
 * The picture is taken in cells of an eighth of the brush or less, cut by the masses' borders; neighbours of one mass are merged as a
 * graph, each time where `sum of squared differences of lean + lambda x border length` rises least (after Koepfler, Lopez & Morel 1994,
 * "A multiscale algorithm for image segmentation by variational method"), until no border costs more than it spares. A dab of the brush
 * must differ by 5 to be worth its border; a narrow ribbon of strong colour is worth its own however thin, if a cell is filled by it and
 * all of it is as large as a dab. Leans are compared in a*, b* with the chroma in equal steps, L* counts three tenths.
 *
 * Every passage is 4-connected, lies in one mass, and has an area of at least `floor(pi/4 brushPx^2)`, but for masses smaller than that,
 * which are one passage. The same picture gives the same passages.
 *
 * A border is to be kept apart where the two differ by CIEDE2000 10 or more and at least half of that is a step at the border; else the
 * washes may run into each other. Overrules of the kind `passage` have the last word; those that make no sense are in `unmet`:
 * `passage.outside`, `passage.same` { passage }, `passage.no-neighbours` { from, to }.
 *
 * @throws {TypeError | RangeError} naming the argument: masses of another size, a brush of no width.
 */
export function passagesOf(pixels: Pixels, masses: Masses, options: PassageOptions): Passages {
  return finish(passagesKernel(pixels, masses, options));
}
