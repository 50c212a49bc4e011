/**
 * Dabs on a sheet whose light is known: what departs from paper, is broad enough to be a dab, and does not hang on the sheet's edge;
 * and the reading of each by a robust middle.
 */
import { byRows, type Kernel } from '../base/kernel.js';
import type { Lab } from '../base/types.js';
import {
  labOfLinear,
  lightnessOfLuminance,
  linearOfSrgb,
  LUMINANCE_OF_RGB,
  luminanceOfLightness,
  srgbOfLinear,
} from '../colour/index.js';
import { medianOf, NORMAL_MAD, tukeyWeight } from '../geometry/fit.js';
import { components, type Components, type LightPicture } from './sheet-find.js';
import { powers, rowLight, type SheetLight } from './sheet-light.js';

/** Reflectance as a share of the paper's, three planes interleaved; 0 outside the sheet. */
export type OverPaper = Float32Array;

/** Divides the picture by the light. */
export function* overPaper(picture: LightPicture, light: SheetLight): Kernel<OverPaper> {
  const { width, height } = picture;
  const out = new Float32Array(picture.light.length);
  yield* byRows(height, width, (from, to) => {
    for (let y = from; y < to; y++) {
      const [red, green, blue] = rowLight(light, (2 * (y + 0.5)) / height - 1);
      for (let x = 0, k = 3 * y * width; x < width; x++, k += 3) {
        const u = (2 * (x + 0.5)) / width - 1;
        out[k] = picture.light[k] / Math.max(1e-3, powers(red, u));
        out[k + 1] = picture.light[k + 1] / Math.max(1e-3, powers(green, u));
        out[k + 2] = picture.light[k + 2] / Math.max(1e-3, powers(blue, u));
      }
    }
  });
  return out;
}

/** The mean over (2 reach + 1)^2 pixels of interleaved planes; at the borders over those there are. */
export function* boxMean(
  planes: Float32Array,
  width: number,
  height: number,
  reach: number,
): Kernel<Float32Array> {
  const across = new Float32Array(planes.length);
  yield* byRows(height, width, (from, to) => {
    for (let y = from; y < to; y++) runningMean(planes, across, 3 * y * width, 3, width, reach);
  });
  const out = new Float32Array(planes.length);
  yield* byRows(width, height, (from, to) => {
    for (let x = from; x < to; x++) runningMean(across, out, 3 * x, 3 * width, height, reach);
  });
  return out;
}

function runningMean(
  source: Float32Array,
  target: Float32Array,
  start: number,
  step: number,
  count: number,
  reach: number,
): void {
  for (let c = 0; c < 3; c++) {
    let sum = 0;
    let n = 0;
    const from = start + c;
    for (let i = 0; i < Math.min(reach, count); i++, n++) sum += source[from + i * step];
    for (let i = 0; i < count; i++) {
      if (i + reach < count) {
        sum += source[from + (i + reach) * step];
        n++;
      }
      if (i - reach - 1 >= 0) {
        sum -= source[from + (i - reach - 1) * step];
        n--;
      }
      target[from + i * step] = sum / n;
    }
  }
}

/** Departures from paper, L* and chroma, of smoothed reflectance. */
export interface Departures {
  /** L* less that of the paper. */
  lightness: Float32Array;
  /** a*, b*: the paper's are 0. */
  a: Float32Array;
  b: Float32Array;
}

const chromaAt = ({ a, b }: Departures, i: number): number => Math.sqrt(a[i] * a[i] + b[i] * b[i]);

export function* departuresOf(
  smooth: OverPaper,
  width: number,
  height: number,
  paperY: number,
): Kernel<Departures> {
  const lightness = new Float32Array(width * height);
  const aPlane = new Float32Array(width * height);
  const bPlane = new Float32Array(width * height);
  const paperL = lightnessOfLuminance(paperY);
  yield* byRows(
    height,
    width,
    (from, to) => {
      for (let i = from * width, k = 3 * i; i < to * width; i++, k += 3) {
        const [L, a, b] = labOfLinear(
          paperY * smooth[k],
          paperY * smooth[k + 1],
          paperY * smooth[k + 2],
        );
        lightness[i] = L - paperL;
        aPlane[i] = a;
        bPlane[i] = b;
      }
    },
    1 << 16,
  );
  return { lightness, a: aPlane, b: bPlane };
}

/** What counts as departing from paper. */
export interface Thresholds {
  lightness: number;
  chroma: number;
}

/** Least departures that are told from paper, whatever the noise: our choice, twice what an eye just sees side by side (about 0.5 L*, 1.5 in chroma). */
const LEAST: Thresholds = { lightness: 1, chroma: 3 };

/** Thresholds above the noise of the paper: five robust standard deviations of what is smoothed already. */
export function thresholdsOf(
  departures: Departures,
  width: number,
  blocks: Float64Array,
): Thresholds {
  const lightness: number[] = [];
  const chroma: number[] = [];
  for (let k = 0; k < blocks.length; k += 2) {
    const i = Math.floor(blocks[k + 1]) * width + Math.floor(blocks[k]);
    lightness.push(Math.abs(departures.lightness[i]));
    chroma.push(chromaAt(departures, i));
  }
  if (lightness.length === 0) return LEAST;
  return {
    lightness: Math.max(LEAST.lightness, (5 * medianOf(lightness)) / NORMAL_MAD),
    // A length of two normal numbers: its median is 1.1774 standard deviations.
    chroma: Math.max(LEAST.chroma, (5 * medianOf(chroma)) / 1.1774),
  };
}

/**
 * Distances to the nearest pixel outside a mask, in pixels, by the 5-7-11 chamfer (Borgefors 1986: within 2 %); what lies beyond the picture is outside.
 */
export function depthOf(mask: Uint8Array, width: number, height: number): Float32Array {
  // With two columns and rows about it that are outside.
  const w = width + 4;
  const d = new Int32Array(w * (height + 4));
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0, k = (y + 2) * w + 2; x < width; x++, i++, k++) if (mask[i]) d[k] = 1 << 28;
  for (let k = 2 * w; k < (height + 2) * w; k++) if (d[k] > 0) nearer(d, k, w);
  for (let k = (height + 2) * w - 1; k >= 2 * w; k--) if (d[k] > 0) nearer(d, k, -w);
  const out = new Float32Array(width * height);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0, k = (y + 2) * w + 2; x < width; x++, i++, k++) out[i] = d[k] / 5;
  return out;
}

/** Takes the least way over the neighbours that were seen before: those above and to the left for a positive row, else the others. */
function nearer(d: Int32Array, k: number, row: number): void {
  const step = row > 0 ? 1 : -1;
  const up = k - row;
  let best = d[k];
  let way = d[k - step] + 5;
  if (way < best) best = way;
  way = d[up] + 5;
  if (way < best) best = way;
  way = (d[up - 1] < d[up + 1] ? d[up - 1] : d[up + 1]) + 7;
  if (way < best) best = way;
  way = (d[up - 2] < d[up + 2] ? d[up - 2] : d[up + 2]) + 11;
  if (way < best) best = way;
  way = (d[up - row - 1] < d[up - row + 1] ? d[up - row - 1] : d[up - row + 1]) + 11;
  if (way < best) best = way;
  d[k] = best;
}

/** A shape that departs from paper. */
export interface Shape {
  /** Pixel indices. */
  pixels: Int32Array;
  /** For each of them the distance to the shape's border. */
  depth: Float32Array;
  deepest: number;
  /** The pixels that depart at least half as far as the typical one: the shape's own size, without what smoothing adds. */
  firm: Int32Array;
  /** Shapes that run into one another have the same number. */
  core: number;
  /** Whether it reaches the edge of the sheet. */
  atEdge: boolean;
  /** How broad the passage from paper to the shape's own colour is on average, pixels. */
  passage: number;
  /** How far it departs: the eightieth percentile, in L* and half as much in chroma. */
  departure: number;
  /** Median chroma of its departure. */
  chroma: number;
  /** Share of the inner pixels that are as good as paper when they are looked at singly: high for writing. */
  porous: number;
}

/** What {@link shapesOf} finds. */
export interface Shapes {
  /** Darker or more coloured than paper. */
  painted: Shape[];
  /** Lighter than paper: reflections, or body white. */
  lighter: Shape[];
}

/**
 * Shapes at least twice `radius` broad on the sheet. Lines and letters are thinner; where they touch a dab they are cut off.
 */
export function* shapesOf(
  departures: Departures,
  relative: OverPaper,
  inside: Uint8Array,
  width: number,
  height: number,
  thresholds: Thresholds,
  radius: number,
): Kernel<Shapes> {
  const { lightness } = departures;
  const painted = new Uint8Array(width * height);
  const lighter = new Uint8Array(width * height);
  for (let i = 0; i < painted.length; i++) {
    if (!inside[i]) continue;
    if (lightness[i] > thresholds.lightness) lighter[i] = 1;
    else if (lightness[i] < -thresholds.lightness || chromaAt(departures, i) > thresholds.chroma)
      painted[i] = 1;
  }
  yield 0.05;
  const ground: Ground = {
    departures,
    relative,
    inside,
    edge: edgeOf(inside, width, height),
    width,
    height,
  };
  return {
    painted: yield* shapesIn(painted, ground, radius),
    lighter: yield* shapesIn(lighter, ground, radius),
  };
}

/** What shapes are looked for on. */
interface Ground {
  departures: Departures;
  relative: OverPaper;
  inside: Uint8Array;
  edge: Uint8Array;
  width: number;
  height: number;
}

function* shapesIn(mask: Uint8Array, ground: Ground, radius: number): Kernel<Shape[]> {
  const { width, height, inside } = ground;
  if (!mask.includes(1)) return [];
  yield* fillHoles(mask, inside, width, height, (4 * radius) ** 2);
  yield 0.3;
  const depth = depthOf(mask, width, height);
  yield 0.5;
  // Smoothing has made everything about a pixel broader.
  const core = new Uint8Array(depth.length);
  for (let i = 0; i < core.length; i++) if (depth[i] > radius + 1) core[i] = 1;
  const { labels, areas } = yield* components(core, width, height);
  yield 0.7;
  const { count, origin } = yield* parted({ labels, areas }, mask, ground, radius);
  const reach = Math.ceil(1.3 * radius) + (count > areas.length ? 2 * EDGE : 0);
  const colours = coloursOf(labels, count, ground);
  const members = grown(labels, count, mask, width, height, reach);
  const shapes: Shape[] = [];
  for (const { pixels, core } of joined(members, labels, origin, colours, ground)) {
    yield 0.9;
    shapes.push({ ...shapeOf(pixels, ground), core });
  }
  return shapes;
}

/** A step of colour inside a shape that is steeper than this, per pixel of what was smoothed, may be where two dabs meet. */
const STEEP = 1.2;
/** Smoothing makes a step so broad on either side, pixels. */
const EDGE = 3;
/** Neighbours that differ by less are one dab: a run, a backrun, a dried edge. */
const ALIKE = 4;

/**
 * Parts cores where dabs that differ meet without paper between them. Labels are written anew in place; a core that falls into no two parts
 * stays whole.
 * @returns how many labels there are, and for each the core it came from
 */
function* parted(
  { labels, areas }: Components,
  mask: Uint8Array,
  { departures, width, height }: Ground,
  radius: number,
): Kernel<{ count: number; origin: number[] }> {
  const origin = areas.map((_, i) => i);
  const planes = [departures.lightness, departures.a, departures.b];
  const smooth = mask.slice();
  for (let y = 1, i = width; y + 1 < height; y++, i += width) {
    for (let k = i + 1; k < i + width - 1; k++) {
      if (!mask[k]) continue;
      let squares = 0;
      for (const plane of planes)
        squares += (plane[k + 1] - plane[k - 1]) ** 2 + (plane[k + width] - plane[k - width]) ** 2;
      if (squares > 4 * STEEP * STEEP) smooth[k] = 0;
    }
    if (y % 64 === 0) yield 0.72;
  }
  const depth = depthOf(smooth, width, height);
  yield 0.75;
  const part = new Uint8Array(depth.length);
  for (let k = 0; k < part.length; k++)
    if (depth[k] > Math.max(1, 0.7 * radius) && labels[k] >= 0) part[k] = 1;
  const parts = yield* components(part, width, height);
  const from = new Int32Array(parts.areas.length);
  for (let k = 0; k < labels.length; k++)
    if (parts.labels[k] >= 0) from[parts.labels[k]] = labels[k];
  const pieces = areas.map(() => [] as number[]);
  parts.areas.forEach((area, id) => {
    if (area > radius * radius) pieces[from[id]].push(id);
  });
  const renamed = new Int32Array(parts.areas.length).fill(-1);
  let count = areas.length;
  pieces.forEach((own, label) => {
    if (own.length < 2) return;
    own.forEach((id, n) => {
      renamed[id] = n === 0 ? label : count++;
      if (n > 0) origin.push(label);
    });
  });
  for (let k = 0; k < labels.length; k++) {
    const label = labels[k];
    if (label < 0 || pieces[label].length < 2) continue;
    const id = parts.labels[k];
    labels[k] = id < 0 ? -1 : renamed[id];
  }
  return { count, origin };
}

/** The median L*, a*, b* of each label's pixels, before they have grown over their borders. */
function coloursOf(labels: Int32Array, count: number, { departures }: Ground): number[][] {
  const pixels = Array.from({ length: count }, () => [] as number[]);
  for (let i = 0; i < labels.length; i++) if (labels[i] >= 0) pixels[labels[i]].push(i);
  return pixels.map((own) =>
    [departures.lightness, departures.a, departures.b].map((plane) =>
      own.length === 0 ? 0 : medianOf(Float64Array.from(own, (i) => plane[i])),
    ),
  );
}

/** Joins parts of one core again that are alike where they touch, or of which one lies all inside the other. */
function joined(
  members: Int32Array[],
  labels: Int32Array,
  origin: number[],
  colours: number[][],
  { width, height }: Ground,
): { pixels: Int32Array; core: number }[] {
  if (members.length === new Set(origin).size)
    return members.map((pixels, core) => ({ pixels, core }));
  const shared = new Map<string, number>();
  const open = new Uint32Array(members.length);
  const touch = (label: number, other: number): void => {
    if (other === label) return;
    if (other < 0) open[label]++;
    else {
      const key = `${Math.min(label, other)} ${Math.max(label, other)}`;
      shared.set(key, (shared.get(key) ?? 0) + 1);
    }
  };
  members.forEach((pixels, label) => {
    for (const i of pixels) {
      const x = i % width;
      touch(label, x > 0 ? labels[i - 1] : -1);
      touch(label, x + 1 < width ? labels[i + 1] : -1);
      touch(label, i >= width ? labels[i - width] : -1);
      touch(label, i + width < width * height ? labels[i + width] : -1);
    }
  });
  const root = members.map((_, i) => i);
  const rootOf = (i: number): number => (root[i] === i ? i : (root[i] = rootOf(root[i])));
  for (const key of shared.keys()) {
    const [one, other] = key.split(' ').map(Number);
    if (origin[one] !== origin[other]) continue;
    const apart = Math.hypot(...colours[one].map((value, c) => value - colours[other][c]));
    if (apart < ALIKE || open[one] === 0 || open[other] === 0) root[rootOf(one)] = rootOf(other);
  }
  const out = new Map<number, number[]>();
  members.forEach((pixels, label) => {
    const list = out.get(rootOf(label)) ?? [];
    for (const i of pixels) list.push(i);
    out.set(rootOf(label), list);
  });
  return [...out].map(([label, list]) => ({
    pixels: Int32Array.from(list),
    core: origin[label],
  }));
}

/** Fills holes up to an area: reflections, pinholes, punched holes. */
function* fillHoles(
  mask: Uint8Array,
  inside: Uint8Array,
  width: number,
  height: number,
  most: number,
): Kernel<void> {
  const free = mask.map((on) => 1 - on);
  const { labels, areas } = yield* components(free, width, height);
  for (let i = 0; i < mask.length; i++)
    if (!mask[i] && inside[i] && areas[labels[i]] <= most) mask[i] = 1;
}

/** Pixels inside the sheet that have a neighbour outside. */
function edgeOf(inside: Uint8Array, width: number, height: number): Uint8Array {
  const edge = new Uint8Array(width * height);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++) {
      if (!inside[i]) continue;
      const open =
        x === 0 ||
        y === 0 ||
        x + 1 === width ||
        y + 1 === height ||
        !inside[i - 1] ||
        !inside[i + 1] ||
        !inside[i - width] ||
        !inside[i + width];
      if (open) edge[i] = 1;
    }
  return edge;
}

/** Grows labelled cores within a mask by `reach` steps (4- and 8-neighbours by turns), each pixel going to the core that is there first. */
function grown(
  labels: Int32Array,
  count: number,
  mask: Uint8Array,
  width: number,
  height: number,
  reach: number,
): Int32Array[] {
  let front: number[] = [];
  const members: number[][] = Array.from({ length: count }, () => []);
  for (let i = 0; i < labels.length; i++) {
    if (labels[i] < 0) continue;
    members[labels[i]].push(i);
    front.push(i);
  }
  for (let step = 0; step < reach; step++) {
    const next: number[] = [];
    const take = (from: number, to: number): void => {
      if (!mask[to] || labels[to] >= 0) return;
      labels[to] = labels[from];
      members[labels[to]].push(to);
      next.push(to);
    };
    for (const i of front) {
      const x = i % width;
      const y = (i - x) / width;
      for (let dy = -1; dy <= 1; dy++) {
        for (let dx = -1; dx <= 1; dx++) {
          if (step % 2 === 0 && dx !== 0 && dy !== 0) continue;
          if (x + dx < 0 || x + dx >= width || y + dy < 0 || y + dy >= height) continue;
          take(i, i + dy * width + dx);
        }
      }
    }
    front = next;
  }
  return members.map((list) => Int32Array.from(list));
}

function shapeOf(pixels: Int32Array, ground: Ground): Omit<Shape, 'core'> {
  const { departures, relative, edge, width, height } = ground;
  // The shape in a raster of its own, with a border of one pixel.
  let left = width;
  let right = 0;
  let top = height;
  let bottom = 0;
  let onEdge = 0;
  for (const i of pixels) {
    const x = i % width;
    const y = (i - x) / width;
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
    onEdge += edge[i];
  }
  const w = right - left + 3;
  const own = new Uint8Array(w * (bottom - top + 3));
  const place = (i: number): number => {
    const x = i % width;
    return ((i - x) / width - top + 1) * w + x - left + 1;
  };
  for (const i of pixels) own[place(i)] = 1;
  const depths = depthOf(own, w, bottom - top + 3);
  const depth = new Float32Array(pixels.length);
  const sizes = new Float64Array(pixels.length);
  const chromas = new Float64Array(pixels.length);
  for (let k = 0; k < pixels.length; k++) {
    depth[k] = depths[place(pixels[k])];
    sizes[k] = sizeAt(departures, pixels[k]);
    chromas[k] = chromaAt(departures, pixels[k]);
  }
  const deepest = depth.reduce((a, b) => Math.max(a, b), 0);
  const ordered = sizes.slice().sort();
  const departure = ordered[Math.floor(0.8 * (ordered.length - 1))];
  const typical = ordered[ordered.length >> 1];
  let border = 0;
  let passage = 0;
  let inner = 0;
  let paper = 0;
  // Single pixels against the middle colour, in the channel where the shape is farthest from paper.
  const channel = farthestChannel(relative, pixels);
  const mean = meanOf(relative, pixels, channel);
  for (let k = 0; k < pixels.length; k++) {
    if (depth[k] < 1.5) border++;
    if (sizes[k] > 0.15 * departure && sizes[k] < 0.85 * departure && depth[k] < 0.5 * deepest)
      passage++;
    if (depth[k] <= 0.4 * deepest) continue;
    inner++;
    const value = relative[3 * pixels[k] + channel];
    if (Math.abs(value - 1) < 0.35 * Math.abs(mean - 1)) paper++;
  }
  return {
    pixels,
    depth,
    deepest,
    firm: pixels.filter((_, k) => sizes[k] >= typical / 2),
    atEdge: onEdge > 2,
    passage: passage / Math.max(1, border),
    departure,
    chroma: medianOf(chromas),
    porous: inner > 0 ? paper / inner : 0,
  };
}

function meanOf(relative: OverPaper, pixels: Int32Array, channel: number): number {
  let sum = 0;
  for (const i of pixels) sum += relative[3 * i + channel];
  return sum / pixels.length;
}

function farthestChannel(relative: OverPaper, pixels: Int32Array): number {
  const far = [0, 1, 2].map((channel) => Math.abs(meanOf(relative, pixels, channel) - 1));
  return far.indexOf(Math.max(...far));
}

const sizeAt = (departures: Departures, i: number): number =>
  Math.hypot(departures.lightness[i], 0.5 * chromaAt(departures, i));

/** What was read of one shape. */
export interface MiddleReading {
  lab: Lab;
  /** Standard deviation of L* over the pixels that count. */
  spread: number;
  /** Pixels that count. */
  count: number;
  /** Share of the middle that lies far above it in lightness: reflections, sparkle. */
  bright: number;
}

/**
 * The robust middle of a set of pixels: luminance over paper is held against its median by Tukey's biweight (three rounds), and the
 * colour is the weighted mean of light, as an eye sees it from afar. Neither a rim nor a reflection has a say.
 */
export function middleOf(
  relative: OverPaper,
  pixels: ArrayLike<number>,
  paperY: number,
): MiddleReading {
  const n = pixels.length;
  const [R, G, B] = LUMINANCE_OF_RGB;
  const Y = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const at = 3 * pixels[k];
    Y[k] = R * relative[at] + G * relative[at + 1] + B * relative[at + 2];
  }
  let centre = medianOf(Y);
  const scale = Math.max(0.004, medianOf(Y.map((value) => Math.abs(value - centre))) / NORMAL_MAD);
  const sums = [0, 0, 0];
  let total = 0;
  for (let round = 0; round < 3; round++) {
    sums.fill(0);
    total = 0;
    for (let k = 0; k < n; k++) {
      const weight = tukeyWeight((Y[k] - centre) / scale);
      if (weight === 0) continue;
      total += weight;
      const at = 3 * pixels[k];
      for (let c = 0; c < 3; c++) sums[c] += weight * relative[at + c];
    }
    if (total === 0) break;
    centre = (R * sums[0] + G * sums[1] + B * sums[2]) / total;
  }
  const lab = labOfLinear(
    (paperY * sums[0]) / total,
    (paperY * sums[1]) / total,
    (paperY * sums[2]) / total,
  );
  let count = 0;
  let sum = 0;
  let squares = 0;
  let bright = 0;
  for (let k = 0; k < n; k++) {
    const L = lightnessOfLuminance(Math.max(0, paperY * Y[k]));
    if (L > lab[0] + 10 && Y[k] > centre + 6 * scale) bright++;
    if (Math.abs(Y[k] - centre) >= 4.685 * scale) continue;
    count++;
    sum += L;
    squares += L * L;
  }
  return {
    lab,
    spread: count > 0 ? Math.sqrt(Math.max(0, squares / count - (sum / count) ** 2)) : 0,
    count,
    bright: bright / n,
  };
}

/** Change of L* for a relative change of light, at a lightness: dL / d ln Y = (L + 16) / 3, or L itself on the straight part. */
export const steepness = (lightness: number): number =>
  lightness > 8 ? (lightness + 16) / 3 : lightness;

/**
 * Half the width of the L* range, coverage factor 2 (JCGM 100:2008, 5.1.2 and 6.2): the root of the summed squares of what the light
 * leaves open (the paper's residual, carried to this lightness), of the spread over independent patches (16 pixels each), of
 * rounding to 8 bits and by JPEG (a rectangle two codes broad, or as broad as the file's own step), and of what a camera cut off at the
 * edge of sRGB.
 *
 * @param coarse how coarsely the file keeps tones, sRGB codes
 * @param cut the most luminance that may be cut off, as a share of the dab's own (a rectangle)
 */
export function uncertaintyOf(
  { lab, spread, count }: MiddleReading,
  light: SheetLight,
  paperLightness: number,
  lightHere: number,
  coarse = 0,
  cut = 0,
): number {
  const L = Math.max(0, lab[0]);
  const steep = Math.max(1, steepness(L));
  const fromLight = steep * light.residual;
  const fromSpread = spread / Math.sqrt(Math.max(1, count / 16));
  const seen = Math.max(
    1e-4,
    (lightHere * luminanceOfLightness(L)) / luminanceOfLightness(paperLightness),
  );
  const code = srgbOfLinear(Math.min(1, seen));
  const step = (linearOfSrgb(code + 1 / 255) - linearOfSrgb(code - 1 / 255)) / seen;
  const fromRounding = (steep * step * Math.max(1, coarse / 2)) / Math.sqrt(12);
  const fromCut = (steep * cut) / Math.sqrt(3);
  return 2 * Math.hypot(fromLight, fromSpread, fromRounding, fromCut);
}

/** A channel with less than this share of the strongest one's light is as good as cut off at the edge of sRGB. */
const NO_LIGHT = 0.015;
/** Colours of paint lie beyond sRGB by at most so much of their strongest channel. No source: the widest of the published 24 patches has a twelfth. */
const BEYOND = 0.1;

/** The most luminance that a camera can have cut off from a dab's colour, as a share of it: 0 for a colour well inside sRGB. */
export function cutOffBySrgb(relative: OverPaper, inner: ArrayLike<number>): number {
  const sums = [0, 0, 0];
  for (let k = 0; k < inner.length; k++)
    for (let c = 0; c < 3; c++) sums[c] += relative[3 * inner[k] + c];
  const most = Math.max(...sums);
  const all = sums.reduce((sum, light, c) => sum + LUMINANCE_OF_RGB[c] * light, 0);
  const cut = sums.reduce(
    (sum, light, c) => (light < NO_LIGHT * most ? sum + LUMINANCE_OF_RGB[c] * BEYOND * most : sum),
    0,
  );
  return all > 0 ? cut / all : 0;
}
