import type { Region } from '../mass/index.js';
import { middleOf, type Nodes } from './sense.js';
import { directionAt, grow, halved, TEST, type Neighbourhood } from './streamlines.js';
import type { DirectionField } from './types.js';

/** The fewest and the most arrows of a mass. */
const FEWEST = 3;
const MOST = 7;

/** Brush-widths squared of a mass that one arrow speaks for (our own choice). */
const SHARE = 6;

/** Length of an arrow: this many times the geometric mean of the brush's width and the mass's (our own choice). */
const LENGTH = 1.5;

/** How often a mass is gone over again for its fewest arrows, each time with half the room and length asked for. */
const ROUNDS = 5;

/** An arrow turns by at most 75 degrees to either side of its seed (our own choice). */
const BEND = Math.cos((75 * Math.PI) / 180);

/** About the most places of a mass that are weighed as seeds. */
const MOST_SEEDS = 2000;

/** With fewer nodes than this a mass is looked at pixel by pixel. */
const FEW_NODES = 24;

/** How many seeds are tried in each. */
const TRIES = 24;

/** Points along a straight line, at most one pixel apart, both ends with it. */
export function along(line: Float32Array): Float32Array {
  const [x0, y0, x1, y1] = line;
  const count = Math.max(1, Math.ceil(Math.hypot(x1 - x0, y1 - y0)));
  const points = new Float32Array(2 * (count + 1));
  for (let n = 0; n <= count; n++) {
    points[2 * n] = x0 + ((x1 - x0) * n) / count;
    points[2 * n + 1] = y0 + ((y1 - y0) * n) / count;
  }
  return points;
}

/** What placing the arrows of a mass needs. */
export interface Ground {
  field: DirectionField;
  labels: Int32Array;
  nodes: Nodes;
  /** Distance of each node from the border of its mass, pixels. */
  room: Float32Array;
  brush: number;
  taken: Neighbourhood;
  own: Neighbourhood;
}

/** Middle of a node's pixel. */
export function nodePoint(ground: Ground, node: number): [x: number, y: number] {
  const { nodes, field } = ground;
  const i = node % nodes.columns;
  const j = (node - i) / nodes.columns;
  return [middleOf(i, nodes.step, field.width) + 0.5, middleOf(j, nodes.step, field.height) + 0.5];
}

/** The calm direction at a point of a mass, from the mass's own nodes about it (else from the field). */
function lookIn(ground: Ground, region: number, x: number, y: number, out: Float64Array): boolean {
  const { nodes, field, labels } = ground;
  const { step, columns, rows, cos, sin } = nodes;
  if (!(x >= 0 && y >= 0 && x < field.width && y < field.height)) return false;
  if (labels[Math.floor(y) * field.width + Math.floor(x)] !== region) return false;
  const half = (step >> 1) + 0.5;
  const fi = Math.min(columns - 1, Math.max(0, (x - half) / step));
  const fj = Math.min(rows - 1, Math.max(0, (y - half) / step));
  let u = 0;
  let v = 0;
  for (let corner = 0; corner < 4; corner++) {
    const i = Math.floor(fi) + (corner & 1);
    const j = Math.floor(fj) + (corner >> 1);
    if (i >= columns || j >= rows) continue;
    const at = j * columns + i;
    if (nodes.labels[at] !== region) continue;
    const weight = (1 - Math.abs(fi - i)) * (1 - Math.abs(fj - j));
    u += weight * (cos[at] * cos[at] - sin[at] * sin[at]);
    v += weight * 2 * sin[at] * cos[at];
  }
  return halved(u, v, out) || directionAt(field, x, y, out, (pixel) => labels[pixel] === region);
}

/** Whether the straight piece between two points lies in a mass, looked at sixteen times a pixel. */
function straightWithin(
  ground: Ground,
  region: number,
  line: number[],
  from: number,
  to: number,
): boolean {
  const { labels, field } = ground;
  const dx = line[to] - line[from];
  const dy = line[to + 1] - line[from + 1];
  const count = Math.ceil(16 * Math.hypot(dx, dy));
  for (let n = 1; n < count; n++) {
    const x = Math.floor(line[from] + (dx * n) / count);
    const y = Math.floor(line[from + 1] + (dy * n) / count);
    if (labels[y * field.width + x] !== region) return false;
  }
  return true;
}

/** A line cut about its seed: to so many points, and to where it stays in its mass between them too. */
function trimmed(
  ground: Ground,
  region: number,
  line: number[],
  x: number,
  y: number,
  points: number,
): number[] {
  const end = line.length - 2;
  let seed = 0;
  while (seed < end && (line[seed] !== x || line[seed + 1] !== y)) seed += 2;
  let first = seed;
  while (first > 0 && straightWithin(ground, region, line, first, first - 2)) first -= 2;
  let last = seed;
  while (last < end && straightWithin(ground, region, line, last, last + 2)) last += 2;
  const spare = (last - first) / 2 + 1 - points;
  if (spare > 0) {
    first = Math.max(first, Math.min(seed - 2 * (points >> 1), first + 2 * spare));
    last = first + 2 * (points - 1);
  }
  return line.slice(first, last + 2);
}

/** Places of a mass that an arrow may start from: x, y and room, three numbers each. */
export function seedsIn(ground: Ground, region: Region, members: Int32Array): Float32Array {
  const { labels, field, room } = ground;
  const seeds: number[] = [];
  if (members.length >= FEW_NODES) {
    const stride = Math.ceil(members.length / MOST_SEEDS);
    for (let n = 0; n < members.length; n += stride) {
      const [x, y] = nodePoint(ground, members[n]);
      // A stroke that starts at the picture's frame has nowhere to go to one side.
      const frame = Math.min(x, y, field.width - x, field.height - y);
      seeds.push(x, y, Math.min(room[members[n]], frame));
    }
    return Float32Array.from(seeds);
  }
  // The mass slips through the grid: its pixels.
  const [left, top, w, h] = region.bounds;
  const every = Math.max(1, Math.floor(Math.sqrt((w * h) / MOST_SEEDS)));
  for (let y = top; y < top + h; y += every) {
    for (let x = left; x < left + w; x += every) {
      if (labels[y * field.width + x] === region.id) seeds.push(x + 0.5, y + 0.5, 0.5);
    }
  }
  return Float32Array.from(seeds);
}

/**
 * Arrows of one mass: each new one starts at the place farthest from all before it (the first where
 * there is most room), grows as a streamline to both sides within the mass, and keeps its distance.
 * @param given lines from one point to another that are there already
 */
export function arrowsIn(
  ground: Ground,
  region: Region,
  members: Int32Array,
  given: Float32Array[],
): Float32Array[] {
  const { brush, taken, own } = ground;
  const { area } = region;
  const wanted = Math.max(FEWEST, Math.min(MOST, Math.round(area / (SHARE * brush * brush))));
  const seeds = seedsIn(ground, region, members);
  const count = seeds.length / 3;
  const lines: Float32Array[] = [];
  const away = new Float32Array(count).fill(Infinity);
  const keepFrom = (points: ArrayLike<number>): void => {
    for (let m = 0; m < count; m++) {
      const x = seeds[3 * m];
      const y = seeds[3 * m + 1];
      for (let n = 0; n < points.length; n += 2) {
        const dx = points[n] - x;
        const dy = points[n + 1] - y;
        away[m] = Math.min(away[m], dx * dx + dy * dy);
      }
    }
  };
  for (const line of given) {
    const points = along(line);
    for (let n = 0; n < points.length; n += 2) taken.add(points[n], points[n + 1], 0);
    keepFrom(points);
  }
  let most = 0;
  for (let m = 0; m < count; m++) most = Math.max(most, seeds[3 * m + 2]);
  let margin = Math.min(brush / 4, most / 2);
  let apart = TEST * Math.sqrt(area / wanted);
  let length = LENGTH * Math.sqrt(brush * Math.sqrt(area));
  let step = Math.min(4, Math.max(0.25, brush / 8));
  let enough = wanted;
  for (let round = 0; round < ROUNDS && given.length + lines.length < enough; round++) {
    const tried = new Uint8Array(count);
    for (let attempt = 0; attempt < TRIES && given.length + lines.length < enough; attempt++) {
      let best = -1;
      let score = 0;
      for (let m = 0; m < count; m++) {
        if (tried[m] !== 0) continue;
        const far = Math.sqrt(away[m]);
        const free = Math.min(far, 3 * seeds[3 * m + 2] + 0.5);
        if (far >= apart && free > score) {
          score = free;
          best = m;
        }
      }
      if (best < 0) break;
      const x = seeds[3 * best];
      const y = seeds[3 * best + 1];
      const line = trimmed(
        ground,
        region.id,
        grow(
          {
            look: (px, py, out) => lookIn(ground, region.id, px, py, out),
            step,
            free: (px, py) => roomAt(ground, px, py) >= margin && !taken.near(px, py, apart),
            apart,
            own,
            steps: Math.ceil(length / step),
            bend: BEND,
          },
          x,
          y,
        ),
        x,
        y,
        Math.ceil(length / step) + 1,
      );
      if ((line.length / 2 - 1) * step < length / 4 || line.length < 4) {
        // What fails here fails close by.
        for (let m = 0; m < count; m++) {
          if (Math.hypot(seeds[3 * m] - x, seeds[3 * m + 1] - y) < apart / 4) tried[m] = 1;
        }
        tried[best] = 1;
        continue;
      }
      for (let n = 0; n < line.length; n += 2) taken.add(line[n], line[n + 1], 0);
      keepFrom(line);
      lines.push(Float32Array.from(line));
    }
    enough = FEWEST;
    margin = round === ROUNDS - 2 ? 0 : margin / 2;
    apart /= 2;
    length /= 2;
    step = Math.max(0.125, step / 2);
  }
  taken.clear();
  return lines;
}

function roomAt(ground: Ground, x: number, y: number): number {
  const { nodes, room } = ground;
  const i = Math.min(nodes.columns - 1, Math.floor(x / nodes.step));
  const j = Math.min(nodes.rows - 1, Math.floor(y / nodes.step));
  return room[j * nodes.columns + i];
}
