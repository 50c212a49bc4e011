import { expectInteger, expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import type { Lightness } from '../base/types.js';
import { componentsOf } from '../geometry/components.js';
import { arcsKernel, OUTSIDE, scaledProgress } from './borders.js';
import { expectMasses } from './check.js';
import { expectPlaneOf, LOST_BELOW, Walk } from './edges.js';
import type { Masses, Region } from './types.js';

/** What becomes of the ground about the sitter: as in the photo, bare paper, one wash of a middle value, or a dark. */
export type Background = 'as-photo' | 'paper' | 'wash' | 'dark';

const CODES = 2.55;

/** L* of bare paper when none is told. */
const PAPER = 95;

/** How a choice of ground stands against the sitter. */
export interface BackgroundContrast {
  choice: Background;
  /** L* of the ground, alike everywhere; absent for the photo's own. */
  lightness?: number;
  /** Mean difference of L* across the silhouette, by its length; 0 without a silhouette. */
  mean: number;
  /** Share of the silhouette with a difference below {@link LOST_BELOW} (0..1), where the sitter would be lost in the ground. */
  lostShare: number;
  /** Length of the silhouette in pixels; 0 when all masses are the sitter's, or none is. */
  lengthPx: number;
}

/** L* of the grounds that can be chosen. */
export interface BackgroundOptions {
  /** Bare paper, 0..100; 95 by default. */
  paper?: number;
  /** The wash, 0..100; by default the mean of the masses of the middle band. */
  wash?: number;
  /** The dark, 0..100; by default the mean of the masses of the darkest band. */
  dark?: number;
}

/**
 * Which masses are the sitter's: those with at least half of their pixels inside the sitter's loop, which is drawn loosely about the
 * sitter. Of them what lies inside the loop is the sitter; everything else is ground.
 *
 * @param sitter width x height bytes, row-major; non-zero inside the loop
 * @returns for each region the share of its pixels inside (0..1)
 * @throws TypeError, RangeError naming the argument
 */
export function shareInside(masses: Masses, sitter: Uint8Array): Float64Array {
  expectMasses('masses', masses);
  if (!(sitter instanceof Uint8Array)) throw wrongType('sitter', sitter, 'a Uint8Array');
  const { labels, regions } = masses;
  if (sitter.length !== labels.length)
    throw outOfRange('sitter', sitter, `one byte a pixel: ${labels.length}`);
  const inside = new Float64Array(regions.length);
  const areas = new Float64Array(regions.length);
  for (let at = 0; at < labels.length; at++) {
    areas[labels[at]]++;
    if (sitter[at] !== 0) inside[labels[at]]++;
  }
  return inside.map((count, id) => (areas[id] > 0 ? count / areas[id] : 0));
}

const isSitters = (share: number): boolean => share >= 0.5;

/** Sitter and ground as a label map. */
interface Parting {
  labels: Int32Array;
  /** For each label the mass that it is a part of; {@link GROUND} for the ground. */
  ofMass: Int32Array;
  areas: Int32Array;
}

const GROUND = -1;

/** Parts of a mass that the loop leaves on its inside count from this share of the mass on, its largest part always. */
const LEAST_PART = 0.05;

function parting(masses: Masses, sitter: Uint8Array, shares: Float64Array): Parting {
  const { labels, regions, map } = masses;
  const none = regions.length;
  const marked = labels.map((label, at) =>
    sitter[at] !== 0 && isSitters(shares[label]) ? label : none,
  );
  const first = partsOf(marked, map.width, map.height, none);
  const largest = new Int32Array(none);
  first.ofMass.forEach((mass, part) => {
    if (mass !== GROUND) largest[mass] = Math.max(largest[mass], first.areas[part]);
  });
  const isSliver = first.areas.map((area, part) => {
    const mass = first.ofMass[part];
    return Number(
      mass !== GROUND && area < largest[mass] && area < LEAST_PART * regions[mass].area,
    );
  });
  if (!isSliver.includes(1)) return first;
  for (let at = 0; at < marked.length; at++) if (isSliver[first.labels[at]]) marked[at] = none;
  return partsOf(marked, map.width, map.height, none);
}

function partsOf(marked: Int32Array, width: number, height: number, none: number): Parting {
  const { labels, count } = componentsOf(marked, width, height);
  const ofMass = new Int32Array(count);
  const areas = new Int32Array(count);
  for (let at = 0; at < labels.length; at++) {
    ofMass[labels[at]] = marked[at] === none ? GROUND : marked[at];
    areas[labels[at]]++;
  }
  return { labels, ofMass, areas };
}

/** Mean L* of the masses of a band by area; without any, the place of the band between black and paper. */
function bandLightness({ regions, map: { bands } }: Masses, band: number): number {
  let area = 0;
  let sum = 0;
  for (const region of regions) {
    if (region.band !== band) continue;
    area += region.area;
    sum += region.area * region.mean;
  }
  return area > 0 ? sum / area : (PAPER * (band + 0.5)) / bands;
}

/** The band that stands for a choice of ground: paper the lightest, a wash the middle one, a dark the darkest. */
export function backgroundBand(choice: Exclude<Background, 'as-photo'>, bands: number): number {
  if (choice === 'paper') return bands - 1;
  return choice === 'wash' ? Math.floor(bands / 2) : 0;
}

/**
 * How well each choice of ground sets the sitter off: the difference of L* along the silhouette, which is the border between
 * the sitter ({@link shareInside}) and the ground. The sitter's lightness is the picture's just inside its mass, beyond the step
 * itself; so is the photo's own ground on the other side.
 *
 * @param plane the picture that the masses were made of
 * @param sitter width x height bytes, row-major; non-zero inside the loop about the sitter
 * @returns `as-photo`, `paper`, `wash`, `dark`, in this order
 * @throws TypeError, RangeError naming the argument
 */
export function backgroundContrast(
  masses: Masses,
  plane: Lightness,
  sitter: Uint8Array,
  options: BackgroundOptions = {},
): BackgroundContrast[] {
  return finish(backgroundKernel(masses, plane, sitter, options));
}

/** {@link backgroundContrast} in slices. */
export function backgroundKernel(
  masses: Masses,
  plane: Lightness,
  sitter: Uint8Array,
  options: BackgroundOptions = {},
): Kernel<BackgroundContrast[]> {
  const shares = shareInside(masses, sitter);
  expectPlaneOf('plane', plane, masses);
  expectObject('options', options);
  const { bands } = masses.map;
  const grounds: [Background, number | undefined][] = [
    ['as-photo', undefined],
    ['paper', options.paper ?? PAPER],
    ['wash', options.wash ?? bandLightness(masses, backgroundBand('wash', bands))],
    ['dark', options.dark ?? bandLightness(masses, backgroundBand('dark', bands))],
  ];
  for (const [choice, lightness] of grounds)
    if (lightness !== undefined) expectNumber(`options.${choice}`, lightness, 0, 100);
  return contrastSlices(plane, parting(masses, sitter, shares), grounds);
}

/** Pixels between two places of the silhouette that are looked at. */
const SPACING = 2;
/** Pixels next to the border that belong to the step. */
const STEP_PX = 2;

function* contrastSlices(
  plane: Lightness,
  { labels, ofMass }: Parting,
  grounds: [Background, number | undefined][],
): Kernel<BackgroundContrast[]> {
  const { width, height } = plane;
  const arcs = yield* scaledProgress(arcsKernel(labels, width, height), 0, 0.6);
  const depth = Math.max(3, Math.round(Math.max(width, height) / 200));
  const sums = grounds.map(() => ({ contrast: 0, lost: 0 }));
  let length = 0;
  for (const arc of arcs) {
    if (arc.left === OUTSIDE || arc.right === OUTSIDE) continue;
    if ((ofMass[arc.left] === GROUND) === (ofMass[arc.right] === GROUND)) continue;
    const walk = new Walk(arc, width + 1);
    const side = ofMass[arc.left] === GROUND ? 1 : -1;
    const places: number[] = [];
    for (let i = SPACING >> 1; i < walk.x.length; i += SPACING) places.push(i);
    const weight = walk.length / Math.max(1, places.length);
    for (const i of places) {
      const within = beside(labels, plane, walk, i, side, depth);
      const beyond = beside(labels, plane, walk, i, -side, depth);
      length += weight;
      grounds.forEach(([, lightness], choice) => {
        const difference = Math.abs(within - (lightness ?? beyond));
        sums[choice].contrast += weight * difference;
        if (difference < LOST_BELOW) sums[choice].lost += weight;
      });
    }
    yield 0.8;
  }
  return grounds.map(([choice, lightness], i) => ({
    choice,
    ...(lightness === undefined ? {} : { lightness }),
    mean: length > 0 ? sums[i].contrast / length : 0,
    lostShare: length > 0 ? sums[i].lost / length : 0,
    lengthPx: length,
  }));
}

/** Mean L* beside a border, right (1) or left (-1) of who walks along it: beyond the step where the mass is wide enough. */
function beside(
  labels: Int32Array,
  { width, height, data }: Lightness,
  walk: Walk,
  i: number,
  side: number,
  depth: number,
): number {
  const [ax, ay] = walk.along(i);
  const own = side > 0 ? walk.arc.right : walk.arc.left;
  let near = -1;
  let sum = 0;
  let count = 0;
  for (let k = 0; k < STEP_PX + depth; k++) {
    const x = Math.floor(walk.x[i] - ay * side * (k + 0.5));
    const y = Math.floor(walk.y[i] + ax * side * (k + 0.5));
    if (x < 0 || y < 0 || x >= width || y >= height) break;
    const at = y * width + x;
    if (labels[at] !== own) {
      if (near >= 0) break;
      continue;
    }
    near = data[at];
    if (k < STEP_PX) continue;
    sum += data[at];
    count++;
  }
  if (count > 0) return sum / count / CODES;
  return near >= 0 ? near / CODES : nearestOwn(labels, data, width, height, walk, i, own) / CODES;
}

/** The code of a pixel of the mass at this place of its border, where the border's direction misses it. */
function nearestOwn(
  labels: Int32Array,
  data: Uint8Array,
  width: number,
  height: number,
  walk: Walk,
  i: number,
  own: number,
): number {
  let best = Infinity;
  let code = 0;
  const reach = 5;
  const column = Math.floor(walk.x[i]);
  const row = Math.floor(walk.y[i]);
  for (let y = Math.max(0, row - reach); y <= Math.min(height - 1, row + reach); y++) {
    for (let x = Math.max(0, column - reach); x <= Math.min(width - 1, column + reach); x++) {
      const distance = (x + 0.5 - walk.x[i]) ** 2 + (y + 0.5 - walk.y[i]) ** 2;
      if (labels[y * width + x] !== own || distance >= best) continue;
      best = distance;
      code = data[y * width + x];
    }
  }
  return code;
}

/** Masses with the ground as it was chosen. */
export interface BackgroundMasses {
  masses: Masses;
  /** For each region of the masses before, the region now that has most of it. */
  regionNow: Int32Array;
  /** Regions now that are ground; none for the photo's own. */
  ground: number[];
  /**
   * Regions before that the loop cuts through, largest part on the wrong side first: `outside` is the share beyond the loop (0..1). The
   * sitter and the ground share a band there, and the loop itself has become the silhouette: drawn closer, or with the mass cut along the
   * sitter, it comes right.
   */
  straddling: { region: number; outside: number }[];
}

/** Share beyond the loop from which a mass of the sitter's counts as cut by it: the sitter should lie within. */
const SITTER_OUTSIDE = 0.1;
/** Share within the loop from which the ground counts as cut by it: a loose loop always takes some in. */
const GROUND_INSIDE = 0.25;

/**
 * The masses with the ground of one band: what is not the sitter's ({@link shareInside}) becomes one mass where it hangs together, in
 * the band of the choice ({@link backgroundBand}). The sitter's masses keep their bands, also beside a ground of their own band: the
 * silhouette stays a border. What the loop cuts off of them is ground. Marks in the ground go with it. Means are those of the masses
 * that a region is made of, by area. `as-photo` gives the masses as they are, copied.
 *
 * @param sitter width x height bytes, row-major; non-zero inside the loop
 * @param band the band of the ground instead of the choice's own
 * @throws TypeError, RangeError naming the argument
 */
export function withBackground(
  masses: Masses,
  sitter: Uint8Array,
  choice: Background,
  band?: number,
): BackgroundMasses {
  const shares = shareInside(masses, sitter);
  if (!['as-photo', 'paper', 'wash', 'dark'].includes(choice))
    throw outOfRange('choice', choice, "'as-photo', 'paper', 'wash' or 'dark'");
  const { bands } = masses.map;
  if (band !== undefined) expectInteger('band', band, 0, bands - 1);
  const straddling = masses.regions
    .map(({ id }) => ({ region: id, outside: 1 - shares[id] }))
    .filter(({ outside }) =>
      isSitters(1 - outside) ? outside >= SITTER_OUTSIDE : 1 - outside >= GROUND_INSIDE,
    )
    .sort((a, b) => wrongSide(b.outside) - wrongSide(a.outside));
  if (choice === 'as-photo') {
    const regionNow = Int32Array.from(masses.regions, ({ id }) => id);
    return { masses: structuredCopy(masses), regionNow, ground: [], straddling };
  }
  const parts = parting(masses, sitter, shares);
  const ground: number[] = [];
  parts.ofMass.forEach((mass, part) => {
    if (mass === GROUND) ground.push(part);
  });
  return { ...laid(masses, parts, band ?? backgroundBand(choice, bands)), ground, straddling };
}

const wrongSide = (outside: number): number => Math.min(outside, 1 - outside);

function structuredCopy(masses: Masses): Masses {
  const { map, labels, regions, marks } = masses;
  return {
    ...masses,
    map: { ...map, data: map.data.slice() },
    labels: labels.slice(),
    regions: regions.map((region): Region => ({
      ...region,
      bounds: [...region.bounds],
      neighbours: [...region.neighbours],
    })),
    marks: marks.map((mark) => ({ ...mark })),
  };
}

/** Masses of a parting, with the ground in one band. */
function laid(
  masses: Masses,
  { labels, ofMass, areas }: Parting,
  band: number,
): { masses: Masses; regionNow: Int32Array } {
  const { width, height, bands } = masses.map;
  const data = new Uint8Array(labels.length);
  const sums = new Float64Array(areas.length);
  const bounds = Array.from(areas, () => [width, height, 0, 0]);
  const neighbours = Array.from(areas, () => new Set<number>());
  const meet = (a: number, b: number): void => {
    if (a === b) return;
    neighbours[a].add(b);
    neighbours[b].add(a);
  };
  // How many pixels of a mass lie in a part, under mass * parts + part.
  const shared = new Map<number, number>();
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at++) {
      const part = labels[at];
      const before = masses.labels[at];
      const box = bounds[part];
      if (x < box[0]) box[0] = x;
      if (y < box[1]) box[1] = y;
      if (x > box[2]) box[2] = x;
      box[3] = y;
      sums[part] += masses.regions[before].mean;
      data[at] = ofMass[part] === GROUND ? band : masses.regions[before].band;
      const key = before * areas.length + part;
      shared.set(key, (shared.get(key) ?? 0) + 1);
      if (x > 0) meet(part, labels[at - 1]);
      if (y > 0) meet(part, labels[at - width]);
    }
  }
  const regions = Array.from(areas, (area, id): Region => {
    const [left, top, right, bottom] = bounds[id];
    return {
      id,
      band: ofMass[id] === GROUND ? band : masses.regions[ofMass[id]].band,
      area,
      mean: sums[id] / area,
      bounds: [left, top, right + 1 - left, bottom + 1 - top],
      neighbours: [...neighbours[id]].sort((a, b) => a - b),
    };
  });
  const marks = masses.marks
    .map((mark) => {
      const column = Math.min(width - 1, Math.max(0, Math.floor(mark.x)));
      const row = Math.min(height - 1, Math.max(0, Math.floor(mark.y)));
      return { ...mark, region: labels[row * width + column] };
    })
    .filter(({ region }) => ofMass[region] !== GROUND);
  return {
    masses: { ...masses, map: { width, height, bands, data }, labels, regions, marks },
    regionNow: mostShared(shared, masses.regions.length, areas.length),
  };
}

/** The part that has most of each mass. */
function mostShared(shared: Map<number, number>, masses: number, parts: number): Int32Array {
  const now = new Int32Array(masses);
  const most = new Int32Array(masses);
  for (const [key, count] of shared) {
    const mass = Math.floor(key / parts);
    if (count <= most[mass]) continue;
    most[mass] = count;
    now[mass] = key % parts;
  }
  return now;
}
