/**
 * Dabs on a sheet whose light is known: what departs from paper, is broad enough to be a dab, and does not hang on the sheet's edge;
 * and the reading of each by a robust middle.
 */
import { byRows, type Kernel } from '../base/kernel.js';
import type { Lab } from '../base/types.js';
import { labOfLinear, lightnessOfLuminance, LUMINANCE_OF_RGB } from '../colour/index.js';
import { medianOf, NORMAL_MAD, tukeyWeight } from '../geometry/fit.js';
import { components, type LightPicture } from './sheet-find.js';
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
  /** Length of the difference in a*, b*. */
  chroma: Float32Array;
}

export function* departuresOf(
  smooth: OverPaper,
  width: number,
  height: number,
  paperY: number,
): Kernel<Departures> {
  const lightness = new Float32Array(width * height);
  const chroma = new Float32Array(width * height);
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
        chroma[i] = Math.sqrt(a * a + b * b);
      }
    },
    1 << 16,
  );
  return { lightness, chroma };
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
    chroma.push(departures.chroma[i]);
  }
  if (lightness.length === 0) return LEAST;
  return {
    lightness: Math.max(LEAST.lightness, (5 * medianOf(lightness)) / NORMAL_MAD),
    // A length of two normal numbers: its median is 1.1774 standard deviations.
    chroma: Math.max(LEAST.chroma, (5 * medianOf(chroma)) / 1.1774),
  };
}

/** Distances to the nearest pixel outside a mask, in pixels, by the 5-7-11 chamfer (Borgefors 1986: within 2 %); the picture's border is outside. */
export function depthOf(mask: Uint8Array, width: number, height: number): Float32Array {
  const far = 1 << 28;
  const d = new Int32Array(width * height);
  const least = (i: number, x: number, y: number, s: 1 | -1): number => {
    let best = d[i];
    const row = i - s * width;
    const has = s === 1 ? y > 0 : y + 1 < height;
    const side = s === 1 ? x > 0 : x + 1 < width;
    best = Math.min(best, (side ? d[i - s] : 0) + 5, (has ? d[row] : 0) + 5);
    best = Math.min(best, (has && x > 0 ? d[row - 1] : 0) + 7);
    best = Math.min(best, (has && x + 1 < width ? d[row + 1] : 0) + 7);
    if (!has) return best;
    best = Math.min(best, (x > 1 ? d[row - 2] : 0) + 11, (x + 2 < width ? d[row + 2] : 0) + 11);
    const has2 = s === 1 ? y > 1 : y + 2 < height;
    const row2 = row - s * width;
    if (!has2) return best;
    return Math.min(best, (x > 0 ? d[row2 - 1] : 0) + 11, (x + 1 < width ? d[row2 + 1] : 0) + 11);
  };
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++)
      if (mask[i]) {
        d[i] = far;
        d[i] = least(i, x, y, 1);
      }
  for (let y = height - 1, i = width * height - 1; y >= 0; y--)
    for (let x = width - 1; x >= 0; x--, i--) if (mask[i]) d[i] = least(i, x, y, -1);
  return Float32Array.from(d, (distance) => distance / 5);
}

/** A painted shape. */
export interface Shape {
  /** Pixel indices. */
  pixels: Int32Array;
  /** For each of them the distance to the shape's border. */
  depth: Float32Array;
  deepest: number;
  /** The pixels that depart at least half as far as the typical one: the shape's own size, without what smoothing adds. */
  firm: Int32Array;
  /** Whether it reaches the edge of the sheet. */
  atEdge: boolean;
  /** How sharp its border is: the step of lightness (or colour) across it as a share of the shape's own departure, 0..1 or so. */
  sharpness: number;
  /** Median departure in lightness, L*. */
  lightness: number;
}

/**
 * Shapes at least twice `radius` broad on the sheet. Lines and letters are thinner; where they touch a dab they are cut off.
 */
export function* shapesOf(
  departures: Departures,
  inside: Uint8Array,
  width: number,
  height: number,
  thresholds: Thresholds,
  radius: number,
): Kernel<Shape[]> {
  const { lightness, chroma } = departures;
  const mask = new Uint8Array(width * height);
  for (let i = 0; i < mask.length; i++) {
    if (!inside[i]) continue;
    if (Math.abs(lightness[i]) > thresholds.lightness || chroma[i] > thresholds.chroma) mask[i] = 1;
  }
  yield 0.1;
  fillHoles(mask, inside, width, height, (4 * radius) ** 2);
  yield 0.3;
  const depth = depthOf(mask, width, height);
  yield 0.5;
  const core = new Uint8Array(width * height);
  for (let i = 0; i < core.length; i++) if (depth[i] > radius) core[i] = 1;
  const { labels, areas } = components(core, width, height);
  yield 0.7;
  const reach = Math.ceil(1.3 * radius);
  const members = grown(labels, areas.length, mask, width, height, reach);
  yield 0.9;
  const shapes: Shape[] = [];
  const edge = edgeOf(inside, width, height);
  for (const pixels of members) {
    shapes.push(shapeOf(pixels, departures, inside, edge, width, height, radius));
    yield 0.95;
  }
  return shapes;
}

/** Fills holes up to an area: reflections, pinholes, punched holes. */
function fillHoles(
  mask: Uint8Array,
  inside: Uint8Array,
  width: number,
  height: number,
  most: number,
): void {
  const free = Uint8Array.from(mask, (on) => (on ? 0 : 1));
  const { labels, areas } = components(free, width, height);
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

function shapeOf(
  pixels: Int32Array,
  departures: Departures,
  inside: Uint8Array,
  edge: Uint8Array,
  width: number,
  height: number,
  radius: number,
): Shape {
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
  const h = bottom - top + 3;
  const own = new Uint8Array(w * h);
  const place = (i: number): number => {
    const x = i % width;
    return ((i - x) / width - top + 1) * w + x - left + 1;
  };
  for (const i of pixels) own[place(i)] = 1;
  const depths = depthOf(own, w, h);
  const depth = Float32Array.from(pixels, (i) => depths[place(i)]);
  const deepest = depth.reduce((a, b) => Math.max(a, b), 0);
  const sizes = Array.from(pixels, (i) => sizeAt(departures, i));
  const typical = medianOf(sizes);
  // Across the border: just inside against the same distance outside, along the way the depth rises.
  const gap = Math.max(2, Math.round(radius / 2));
  let steps = 0;
  let total = 0;
  pixels.forEach((i, k) => {
    if (depth[k] < gap || depth[k] >= gap + 1) return;
    const x = i % width;
    const y = (i - x) / width;
    const p = place(i);
    const gx = depths[p + 1] - depths[p - 1];
    const gy = depths[p + w] - depths[p - w];
    const length = Math.hypot(gx, gy);
    if (length < 0.5) return;
    const ox = Math.round(x - (2 * gap * gx) / length);
    const oy = Math.round(y - (2 * gap * gy) / length);
    if (ox < 0 || oy < 0 || ox >= width || oy >= height) return;
    const o = oy * width + ox;
    if (!inside[o]) return;
    steps++;
    total += Math.min(1.5, (sizes[k] - sizeAt(departures, o)) / typical);
  });
  const lightness = medianOf(Array.from(pixels, (i) => departures.lightness[i]));
  return {
    pixels,
    depth,
    deepest,
    firm: pixels.filter((_, k) => sizes[k] >= typical / 2),
    atEdge: onEdge > 2,
    sharpness: steps > 0 ? total / steps : 0,
    lightness,
  };
}

const sizeAt = ({ lightness, chroma }: Departures, i: number): number =>
  Math.hypot(lightness[i], 0.5 * chroma[i]);

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
