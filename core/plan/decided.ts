import { expectInteger, expectObject, outOfRange, wrongType } from '../base/check.js';
import { byRows, type Kernel } from '../base/kernel.js';
import type { Spot } from '../base/types.js';
import { loopMask } from '../geometry/index.js';
import type { Edge, Masses, Reserve } from '../mass/types.js';
import {
  keptMarks,
  overrulesOf,
  pixelOfSpot,
  regionAt,
  spotOfPixel,
  type KeptMark,
} from './kept-marks.js';
import type { PassageWork } from './passage-types.js';
import type { Plan, PlanBrush } from './types.js';

/** What is known about the masses beside the masses; each field may be left out. */
export interface WorkFacts {
  /** Edges between neighbours; a pair that is not listed is hard. Without the list every border is hard. */
  edges?: readonly Edge[];
  /** Lights that may stay paper, with their narrowest width. Without it: the masses of bare paper, width unknown. */
  reserves?: readonly Reserve[];
  /** The masses of the ground about the sitter. Without it: those outside the sitter's loop. */
  ground?: readonly number[];
  /** The masses' passages with their swatches, as `passageWork` gives them. */
  passages?: PassageWork;
}

/** What is decided about one mass that does not get its value in the usual way. */
export type ReserveMethod = 'bare' | 'tint' | 'mask';

/** What plan, masses and facts say together. */
export interface Decided {
  /** Pixels of the masses for each mm of the paper. */
  pxPerMm: number;
  /** The brush that states the masses. */
  brush?: PlanBrush;
  /** Masses that stay paper (`bare`, `mask`) or are tinted pale first. */
  reserves: Map<number, ReserveMethod>;
  /** Narrow lights that are masked while their neighbours are laid, and laid after. */
  shielded: Set<number>;
  /** Narrowest width of a reserve, mm, where it is known. */
  narrowestMm: Map<number, number>;
  /** Neighbours that run into each other (soft or lost), `a < b`. */
  soft: [number, number][];
  /** Neighbours that stay apart, `a < b`. */
  hard: [number, number][];
  marks: KeptMark[];
  /** Masses of the ground, empty while the ground is painted as in the photo. */
  ground: Set<number>;
  passages?: PassageWork;
}

/**
 * How many bands of the masses are painted: all, or, where the plan leaves bare paper and the masses have a band beyond the board's,
 * all but the lightest.
 */
export function paintedBands(plan: Plan, masses: Masses): number {
  const { bands } = masses.map;
  return plan.paperLimit !== undefined && bands > plan.board.bands.length ? bands - 1 : bands;
}

/** Everything the painter and the picture decide about the masses. */
export function decided(plan: Plan, masses: Masses, facts: WorkFacts = {}): Decided {
  const pxPerMm = masses.map.width / plan.paper.widthMm;
  const marks = keptMarks(plan, masses);
  const pairs = edgePairs(plan, masses, facts);
  const ground = groundOf(plan, masses, facts);
  const softened = new Set(pairs.soft.flat());
  const reserves = new Map<number, ReserveMethod>();
  const shielded = new Set<number>();
  const narrowestMm = new Map<number, number>();
  const paints = paintedBands(plan, masses);
  const direct = plan.way !== 'light-to-dark';
  for (const { region, narrowestPx, mask } of facts.reserves ?? []) {
    if (!(region in masses.regions)) continue;
    narrowestMm.set(region, narrowestPx / pxPerMm);
    const { band } = masses.regions[region];
    if (band >= paints) reserves.set(region, mask ? 'mask' : 'bare');
    else if (mask && direct && band === paints - 1 && !softened.has(region)) shielded.add(region);
  }
  for (const { id, band } of masses.regions)
    if (band >= paints && !reserves.has(id)) reserves.set(id, 'bare');
  if (plan.background === 'paper') for (const id of ground) reserves.set(id, 'bare');
  for (const overrule of overrulesOf(plan, 'reserve')) {
    const region = regionAt(plan, masses, overrule.at);
    if (region === undefined || markAt(plan, masses, marks, overrule.at)) continue;
    shielded.delete(region);
    if (overrule.method === 'paint') reserves.delete(region);
    else reserves.set(region, overrule.method);
  }
  // Masking serves where paint comes beside it.
  for (const id of shielded)
    if (masses.regions[id].neighbours.every((other) => reserves.has(other))) shielded.delete(id);
  // A ground that is laid by itself is one wash: its masses run into each other.
  const washed =
    plan.background === 'wash' || plan.background === 'dark' ? ground : new Set<number>();
  const inGround = ([a, b]: [number, number]): boolean => washed.has(a) && washed.has(b);
  return {
    pxPerMm,
    brush: plan.brushes[plan.brush ?? 0],
    reserves,
    shielded,
    narrowestMm,
    soft: [...pairs.soft, ...pairs.hard.filter(inGround)],
    hard: pairs.hard.filter((pair) => !inGround(pair)),
    marks,
    ground: washed,
    ...(facts.passages ? { passages: facts.passages } : {}),
  };
}

function markAt(plan: Plan, masses: Masses, marks: readonly KeptMark[], spot: Spot): boolean {
  const [x, y] = pixelOfSpot(plan, masses, spot);
  return marks.some(
    (mark) =>
      mark.light &&
      Math.hypot(mark.x - x, mark.y - y) <= Math.max(Math.sqrt(mark.area / Math.PI), 1),
  );
}

/** Kind of the edge of neighbours, under `a b` with a < b; the painter's word goes before the picture's. A pair that is not listed is hard. */
export function edgeKinds(
  plan: Plan,
  masses: Masses,
  { edges = [] }: WorkFacts,
): Map<string, Edge['kind']> {
  const key = (a: number, b: number): string => (a < b ? `${a} ${b}` : `${b} ${a}`);
  const kinds = new Map<string, Edge['kind']>();
  for (const { regions, kind } of edges) kinds.set(key(...regions), kind);
  for (const overrule of overrulesOf(plan, 'edge')) {
    const [a, b] = overrule.between.map((spot) => regionAt(plan, masses, spot));
    if (a !== undefined && b !== undefined && a !== b) kinds.set(key(a, b), overrule.edge);
  }
  return kinds;
}

/** Neighbours by whether they run into each other. */
function edgePairs(
  plan: Plan,
  masses: Masses,
  facts: WorkFacts,
): { soft: [number, number][]; hard: [number, number][] } {
  const kinds = edgeKinds(plan, masses, facts);
  const soft: [number, number][] = [];
  const hard: [number, number][] = [];
  for (const { id, neighbours } of masses.regions)
    for (const other of neighbours)
      if (id < other)
        ((kinds.get(`${id} ${other}`) ?? 'hard') === 'hard' ? hard : soft).push([id, other]);
  return { soft, hard };
}

/** The masses that lie outside the sitter's loop for the greater part; none without a loop. */
function groundOf(plan: Plan, masses: Masses, { ground }: WorkFacts): Set<number> {
  if (ground) return new Set(ground.filter((id) => id in masses.regions));
  const { sitter, background = 'as-photo' } = plan;
  if (!sitter || background === 'as-photo') return new Set();
  const { width, height } = masses.map;
  const loop = sitter.map((spot): Spot => pixelOfSpot(plan, masses, spot));
  const inside = loopMask(loop, width, height);
  const counts = new Float64Array(masses.regions.length);
  for (let i = 0; i < inside.length; i++) if (inside[i] !== 0) counts[masses.labels[i]]++;
  return new Set(
    masses.regions.filter(({ id, area }) => 2 * counts[id] < area).map(({ id }) => id),
  );
}

/**
 * One spot well inside each mass (or of so many other parts, where `labels` are theirs): the first pixel that lies deepest, by the least number of steps to a pixel of another mass or out of
 * the picture (city-block distance in two passes, Rosenfeld & Pfaltz 1966).
 */
export function* spotsKernel(
  plan: Plan,
  masses: Masses,
  parts = masses.regions.length,
): Kernel<Spot[]> {
  const { width, height } = masses.map;
  const { labels } = masses;
  const depth = new Uint16Array(labels.length);
  yield* byRows(height, width, (from, to) => {
    for (let y = from; y < to; y++)
      for (let x = 0, i = y * width; x < width; x++, i++) {
        const up = y > 0 && labels[i - width] === labels[i] ? depth[i - width] : 0;
        const left = x > 0 && labels[i - 1] === labels[i] ? depth[i - 1] : 0;
        depth[i] = Math.min(up, left, 65534) + 1;
      }
  });
  const deepest = new Int32Array(parts);
  const most = new Uint16Array(parts);
  yield* byRows(height, width, (from, to) => {
    for (let y = height - 1 - from; y >= height - to; y--)
      for (let x = width - 1, i = y * width + x; x >= 0; x--, i--) {
        const label = labels[i];
        const down = y + 1 < height && labels[i + width] === label ? depth[i + width] : 0;
        const right = x + 1 < width && labels[i + 1] === label ? depth[i + 1] : 0;
        depth[i] = Math.min(depth[i], Math.min(down, right, 65534) + 1);
        if (depth[i] < most[label]) continue;
        most[label] = depth[i];
        deepest[label] = i;
      }
  });
  return Array.from(deepest, (at) =>
    spotOfPixel(plan, masses, (at % width) + 0.5, Math.floor(at / width) + 0.5),
  );
}

/** Plan and masses, as far as an order needs them. */
export function expectWork(plan: unknown, masses: unknown): void {
  const { board, paper, overrules, brushes } = expectObject('plan', plan);
  expectObject('plan.board', board);
  expectObject('plan.paper', paper);
  if (!Array.isArray(overrules)) throw wrongType('plan.overrules', overrules, 'a list');
  if (!Array.isArray(brushes)) throw wrongType('plan.brushes', brushes, 'a list');
  const { map, labels, regions, marks } = expectObject('masses', masses);
  const { width, height } = expectObject('masses.map', map);
  expectInteger('masses.map.width', width, 1, 2 ** 28);
  expectInteger('masses.map.height', height, 1, 2 ** 28);
  if (!(labels instanceof Int32Array)) throw wrongType('masses.labels', labels, 'an Int32Array');
  if (labels.length !== (width as number) * (height as number))
    throw outOfRange('masses.labels', labels, `${String(width)} x ${String(height)} labels`);
  if (!Array.isArray(regions)) throw wrongType('masses.regions', regions, 'a list');
  if (!Array.isArray(marks)) throw wrongType('masses.marks', marks, 'a list');
}

/** The masses that must be wet together, as the smallest id of each such group by mass. */
export function wetGroups(count: number, pairs: readonly [number, number][]): Int32Array {
  const parent = Int32Array.from({ length: count }, (_, i) => i);
  const root = (i: number): number => {
    while (parent[i] !== i) {
      parent[i] = parent[parent[i]];
      i = parent[i];
    }
    return i;
  };
  for (const [a, b] of pairs) {
    const [low, high] = [root(a), root(b)].sort((p, q) => p - q);
    parent[high] = low;
  }
  return parent.map((_, i) => root(i));
}

/** Pairs of which both sides are laid in the usual way. */
export function pairsLaid(
  pairs: readonly [number, number][],
  { reserves }: Decided,
): [number, number][] {
  return pairs.filter(([a, b]) => !reserves.has(a) && !reserves.has(b));
}
