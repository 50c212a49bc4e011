import type { Overrule, Spot } from '../base/types.js';
import { expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import { expectMasses } from '../mass/check.js';
import type { Masses } from '../mass/index.js';
import { along, arrowsIn, nodePoint, type Ground } from './arrows.js';
import { borderDistanceKernel } from './contour.js';
import { stage } from '../value/stage.js';
import { ACROSS, nodesKernel, senseKernel, type Known, type Nodes } from './sense.js';
import { expectField, Neighbourhood } from './streamlines.js';
import type { Arrow, DirectionField } from './types.js';

/** The most nodes of the grid that arrows are placed on. */
const NODES = 250_000;

export interface StrokeOptions {
  /** Pressed width of the brush in pixels of the masses, above 0. */
  brushPx: number;
  /** Those of the kind `stroke` count, {@link StrokeOverrule}; others are left alone. */
  overrules?: Overrule[] | { kind: string }[];
}

/** An overrule that could not be followed, by its place in the list, and why. */
export interface UnmetStroke {
  overrule: number;
  reason: Reason;
}

/** Arrows, and the strokes of the painter's own that could not be followed. */
export interface Strokes {
  arrows: Arrow[];
  unmet: UnmetStroke[];
}

/** A stroke of the painter's own, placed. */
interface OwnStroke {
  overrule: number;
  region: number;
  line: Float32Array;
}

function isSpot(value: unknown): value is Spot {
  return Array.isArray(value) && value.length === 2 && value.every((part) => Number.isFinite(part));
}

/** The region that most of a line lies in (of equals the lowest id), or undefined outside the picture. */
function regionUnder(
  points: Float32Array,
  labels: Int32Array,
  width: number,
  height: number,
): number | undefined {
  const counts = new Map<number, number>();
  let most: number | undefined;
  for (let n = 0; n < points.length; n += 2) {
    const x = Math.floor(points[n]);
    const y = Math.floor(points[n + 1]);
    if (x < 0 || y < 0 || x >= width || y >= height) continue;
    const label = labels[y * width + x];
    counts.set(label, (counts.get(label) ?? 0) + 1);
  }
  for (const [label, count] of counts) {
    const best = most === undefined ? 0 : counts.get(most)!;
    if (count > best || (count === best && label < most!)) most = label;
  }
  return most;
}

/** Strokes of the painter's own, on the masses they run through. */
function placed(
  overrules: readonly { kind: string }[],
  labels: Int32Array,
  width: number,
  height: number,
  unmet: UnmetStroke[],
): OwnStroke[] {
  const strokes: OwnStroke[] = [];
  overrules.forEach((overrule, index) => {
    if (overrule.kind !== 'stroke') return;
    const { from, to } = overrule as { from?: unknown; to?: unknown };
    if (!isSpot(from) || !isSpot(to)) {
      throw wrongType(
        `options.overrules[${index}]`,
        overrule,
        'a stroke from one spot [x, y] to another',
      );
    }
    // Spots are bounded so that a line far outside has no more points than a long one inside.
    const inside = (part: number): number => Math.min(2, Math.max(-1, part));
    const line = Float32Array.of(
      inside(from[0]) * width,
      inside(from[1]) * height,
      inside(to[0]) * width,
      inside(to[1]) * height,
    );
    if (Math.hypot(line[2] - line[0], line[3] - line[1]) < 1) {
      unmet.push({ overrule: index, reason: reason('stroke-too-short') });
      return;
    }
    const region = regionUnder(along(line), labels, width, height);
    if (region === undefined) unmet.push({ overrule: index, reason: reason('stroke-outside') });
    else strokes.push({ overrule: index, region, line });
  });
  return strokes;
}

/** Where strokes of the painter's own say which way the form runs; those that run across it are unmet. */
function knownFrom(
  strokes: OwnStroke[],
  nodes: Nodes,
  unmet: UnmetStroke[],
): { known: Known[]; ruled: Set<number> } {
  const { step, columns, rows, labels, cos, sin } = nodes;
  const known: Known[] = [];
  const ruled = new Set<number>();
  for (const { overrule, region, line } of strokes) {
    const dx = line[2] - line[0];
    const dy = line[3] - line[1];
    const length = Math.hypot(dx, dy);
    const told: Known[] = [];
    const points = along(line);
    for (let n = 0; n < points.length; n += 2) {
      const i = Math.floor(points[n] / step);
      const j = Math.floor(points[n + 1] / step);
      if (i < 0 || j < 0 || i >= columns || j >= rows) continue;
      const node = j * columns + i;
      if (labels[node] !== region || told[told.length - 1]?.node === node) continue;
      const agree = (cos[node] * dx + sin[node] * dy) / length;
      if (Math.abs(agree) >= ACROSS) told.push({ node, sense: Math.sign(agree) });
    }
    if (told.length === 0) unmet.push({ overrule, reason: reason('stroke-across-the-form') });
    else ruled.add(region);
    known.push(...told);
  }
  return { known, ruled };
}

/** Turns a line so that it runs from root to tip; false where nothing says which way. */
function turned(
  line: Float32Array,
  region: number,
  ground: Ground,
  sense: Int8Array,
  told: Int32Array,
): boolean {
  const { nodes } = ground;
  const { step, columns, rows, cos, sin } = nodes;
  const vote = (node: number, dx: number, dy: number): number =>
    sense[node] * (cos[node] * dx + sin[node] * dy);
  let sum = 0;
  for (let n = 0; n + 3 < line.length; n += 2) {
    const i = Math.min(columns - 1, Math.floor(line[n] / step));
    const j = Math.min(rows - 1, Math.floor(line[n + 1] / step));
    const node = j * columns + i;
    if (nodes.labels[node] !== region || sense[node] === 0) continue;
    sum += vote(node, line[n + 2] - line[n], line[n + 3] - line[n + 1]);
  }
  if (sum === 0) {
    // Cut off from the rest of its mass on the grid: as the nearest node of the mass that knows.
    const half = 2 * (line.length >> 2);
    const x = line[half];
    const y = line[half + 1];
    let nearest = Infinity;
    let found = -1;
    for (const node of told) {
      const [px, py] = nodePoint(ground, node);
      const apart = Math.hypot(px - x, py - y);
      if (apart < nearest) {
        nearest = apart;
        found = node;
      }
    }
    if (found < 0) return false;
    const back = Math.min(half, line.length - 4);
    sum = vote(found, line[back + 2] - line[back], line[back + 3] - line[back + 1]);
    if (sum === 0) return false;
  }
  if (sum < 0) {
    for (let a = 0, b = line.length - 2; a < b; a += 2, b -= 2) {
      [line[a], line[b]] = [line[b], line[a]];
      [line[a + 1], line[b + 1]] = [line[b + 1], line[a + 1]];
    }
  }
  return true;
}

/** Nodes of each region, region by region, ascending. */
function membersOf(labels: Int32Array, regions: number): Int32Array[] {
  const counts = new Int32Array(regions);
  for (const label of labels) if (label >= 0 && label < regions) counts[label]++;
  const members = Array.from(counts, (count) => new Int32Array(count));
  counts.fill(0);
  labels.forEach((label, node) => {
    if (label >= 0 && label < regions) members[label][counts[label]++] = node;
  });
  return members;
}

/** {@link strokesOf} in slices; what could not be followed is listed with the arrows. */
export function* strokesKernel(
  masses: Masses,
  field: DirectionField,
  options: StrokeOptions,
): Kernel<Strokes> {
  expectMasses('masses', masses);
  expectField('field', field);
  const { width, height } = masses.map;
  if (field.width !== width || field.height !== height) {
    throw outOfRange(
      'field',
      `${field.width} x ${field.height}`,
      `the masses' ${width} x ${height}`,
    );
  }
  expectObject('options', options);
  const brush = expectNumber('options.brushPx', options.brushPx, 0, 1e5);
  if (brush === 0) throw outOfRange('options.brushPx', brush, 'a number above 0');
  const { overrules = [] } = options;
  if (!Array.isArray(overrules)) throw wrongType('options.overrules', overrules, 'an array');

  const { labels, regions } = masses;
  const smallest = Math.sqrt(regions.reduce((least, { area }) => Math.min(least, area), Infinity));
  const fine = Math.floor(Math.min(brush / 8, Math.min(width, height) / 16, smallest / 4));
  const step = Math.max(1, fine, Math.ceil(Math.sqrt((width * height) / NODES)));
  const nodes = yield* stage(nodesKernel(labels, field, step, brush), 0, 0.2);
  const unmet: UnmetStroke[] = [];
  const strokes = placed(overrules, labels, width, height, unmet);
  const { known, ruled } = knownFrom(strokes, nodes, unmet);
  const sense = yield* stage(senseKernel(nodes, known, ruled), 0.2, 0.3);
  const squared = yield* stage(
    borderDistanceKernel(nodes.labels, nodes.columns, nodes.rows),
    0.3,
    0.4,
  );
  const room = squared
    ? Float32Array.from(squared, (value) => step * Math.sqrt(value))
    : new Float32Array(nodes.labels.length).fill(Math.max(width, height));
  const cell = Math.hypot(width, height);
  const ground: Ground = {
    field,
    labels,
    nodes,
    room,
    brush,
    taken: new Neighbourhood(width, height, cell),
    own: new Neighbourhood(width, height, cell),
  };
  const arrows: Arrow[] = [];
  const members = membersOf(nodes.labels, regions.length);
  for (const region of regions) {
    const { id } = region;
    const own = strokes.filter((stroke) => stroke.region === id);
    for (const { line } of own) arrows.push({ region: id, line, sensed: true });
    const told = members[id].filter((node) => sense[node] !== 0);
    const lines = arrowsIn(
      ground,
      region,
      members[id],
      own.map(({ line }) => line),
    );
    for (const line of lines) {
      arrows.push({ region: id, line, sensed: turned(line, id, ground, sense, told) });
    }
    yield 0.4 + (0.6 * (id + 1)) / regions.length;
  }
  unmet.sort((a, b) => a.overrule - b.overrule);
  return { arrows, unmet };
}

/**
 * The few strokes that show how the brush goes over each mass: three to seven arrows a mass (fewer only where it has no room for
 * three; more only where the painter drew more), the more the larger the mass against the brush. Each is a
 * streamline of the field within its mass, longer on larger masses and with broader brushes (1.5 times the geometric mean of the
 * brush's width and the square root of the mass's area), and stays away from the border and from the others: the next one
 * starts at the place farthest from all before it.
 *
 * A field has no sense. A stroke that the painter draws (`{ kind: 'stroke', from, to }`, root to tip) is taken as it is as the
 * first arrow of the mass that most of it runs through and says which way that mass runs, round all its turns. From there the sense goes on into
 * neighbouring masses where both sides of the border run alike (within 30 degrees) and the
 * picture speaks there, but not into masses with strokes of their own. Arrows that no stroke reaches are not `sensed`: draw
 * them without a head.
 *
 * @param field of the masses' size: `directionField(plane, { scalePx: brushPx, masses })`
 * @throws {TypeError | RangeError} a field of another size, a brush that is not above 0, a stroke without two spots
 */
export function strokesOf(masses: Masses, field: DirectionField, options: StrokeOptions): Arrow[] {
  return finish(strokesKernel(masses, field, options)).arrows;
}
