/**
 * Finding a sheet in a photograph: smooth or bright areas are tried as the paper, each with the quadrilateral that fits its convex hull,
 * and the one whose sides part it best from what lies about it is taken; its sides are then drawn through the strongest edges near them.
 */
import type { Corners, Lightness, Spot } from '../base/types.js';
import type { Kernel } from '../base/kernel.js';
import { labOfLinear } from '../colour/index.js';
import { medianOf, robustFit } from '../geometry/fit.js';
import { loopArea } from '../geometry/index.js';

/** Linear light, three planes interleaved. */
export interface LightPicture {
  width: number;
  height: number;
  light: Float32Array;
}

/** A sheet as found. */
export interface FoundSheet {
  corners: Corners;
  /** False when nothing stood out and the whole picture was taken. */
  found: boolean;
  /** For each side (top, right, bottom, left) whether it is the picture's own border. */
  onBorder: [boolean, boolean, boolean, boolean];
}

const SMALL_PIXELS = 60_000;
/** A candidate must hold this share of the picture. */
const LEAST_SHARE = 0.06;
/** The score of a paper that fills the picture: a sheet with clear sides scores more, anything else less. */
const FULL_SCORE = 0.35;
const LEAST_SCORE = 0.3;

interface Lab3 {
  width: number;
  height: number;
  lab: Float32Array;
  step: number;
}

interface Candidate {
  quad: Corners;
  full: boolean;
  score: number;
}

/** Finds the sheet in a picture of linear light and its lightness plane (same size). */
export function* findSheet(picture: LightPicture, plane: Lightness): Kernel<FoundSheet> {
  const frame = frameOf(picture);
  const whole: FoundSheet = { corners: frame, found: false, onBorder: [true, true, true, true] };
  if (picture.width < 16 || picture.height < 16) return whole;
  const small = shrunk(picture);
  yield 0.2;
  const candidates: Candidate[] = [];
  for (const maskOf of [smoothMask, brightMask]) {
    const mask = maskOf(small);
    yield 0.4;
    const found = yield* components(mask, small.width, small.height);
    candidates.push(...candidatesOf(found, small));
    yield 0.5;
  }
  candidates.sort((a, b) => b.score - a.score);
  const best = candidates[0];
  if (!best || best.score < LEAST_SCORE) return whole;
  if (best.full) return { ...whole, found: true };
  const scaled = best.quad.map(([x, y]) => [x * small.step, y * small.step]) as Corners;
  yield 0.8;
  return refined(scaled, picture, plane, small.step);
}

export function frameOf({ width, height }: { width: number; height: number }): Corners {
  return [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ];
}

/** A copy of at most about 60 000 pixels by whole blocks, in Lab. */
function shrunk({ width, height, light }: LightPicture): Lab3 {
  const step = Math.max(1, Math.ceil(Math.sqrt((width * height) / SMALL_PIXELS)));
  const w = Math.floor(width / step);
  const h = Math.floor(height / step);
  const lab = new Float32Array(3 * w * h);
  for (let y = 0, to = 0; y < h; y++) {
    for (let x = 0; x < w; x++, to += 3) {
      let r = 0;
      let g = 0;
      let b = 0;
      for (let j = 0; j < step; j++) {
        for (let i = 0, at = 3 * ((y * step + j) * width + x * step); i < step; i++, at += 3) {
          r += light[at];
          g += light[at + 1];
          b += light[at + 2];
        }
      }
      const n = step * step;
      lab.set(labOfLinear(r / n, g / n, b / n), to);
    }
  }
  return { width: w, height: h, lab, step };
}

/** Where the colour hardly changes from pixel to pixel: Sobel's gradient in Lab, against what noise makes of it. */
function smoothMask({ width, height, lab }: Lab3): Uint8Array {
  const gradient = new Float32Array(width * height);
  for (let y = 1; y + 1 < height; y++) {
    for (let x = 1; x + 1 < width; x++) {
      let squares = 0;
      for (let c = 0; c < 3; c++) {
        const k = 3 * (y * width + x) + c;
        const up = k - 3 * width;
        const down = k + 3 * width;
        const falling = lab[down + 3] - lab[up - 3];
        const rising = lab[up + 3] - lab[down - 3];
        const gx = falling + rising + 2 * (lab[k + 3] - lab[k - 3]);
        const gy = falling - rising + 2 * (lab[down] - lab[up]);
        // Hue noise is larger than lightness noise and says less.
        squares += (c === 0 ? 1 : 0.25) * (gx * gx + gy * gy);
      }
      gradient[y * width + x] = Math.sqrt(squares) / 8;
    }
  }
  const sorted = gradient.slice().sort();
  const limit = Math.min(2.5, Math.max(0.7, 3.5 * sorted[sorted.length >> 2]));
  const mask = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      // The border has no gradient of its own.
      const inner =
        Math.min(height - 2, Math.max(1, y)) * width + Math.min(width - 2, Math.max(1, x));
      mask[y * width + x] = gradient[inner] < limit ? 1 : 0;
    }
  }
  return mask;
}

/** The lighter of two classes of lightness (Otsu 1979). */
function brightMask({ width, height, lab }: Lab3): Uint8Array {
  const bins = new Float64Array(101);
  for (let i = 0; i < width * height; i++)
    bins[Math.min(100, Math.max(0, Math.round(lab[3 * i])))]++;
  let total = 0;
  let all = 0;
  bins.forEach((n, L) => ((total += n), (all += n * L)));
  let best = 0;
  let limit = 50;
  for (let t = 0, n = 0, sum = 0; t < 100; t++) {
    n += bins[t];
    sum += t * bins[t];
    if (n === 0 || n === total) continue;
    const between = (sum / n - (all - sum) / (total - n)) ** 2 * n * (total - n);
    if (between > best) [best, limit] = [between, t];
  }
  const mask = new Uint8Array(width * height);
  for (let i = 0; i < mask.length; i++) if (lab[3 * i] > limit + 0.5) mask[i] = 1;
  return mask;
}

function candidatesOf({ labels, areas }: Components, small: Lab3): Candidate[] {
  const { width, height } = small;
  const out: Candidate[] = [];
  areas.forEach((area, label) => {
    if (area < 0.4 * LEAST_SHARE * width * height) return;
    const hull = hullOf(labels, label, width, height);
    const hullArea = hull.length < 3 ? 0 : loopArea(hull);
    if (hullArea < LEAST_SHARE * width * height) return;
    const quad = quadAround(hull);
    if (!quad || hullArea < 0.85 * loopArea(quad)) return;
    const full = hullArea > 0.93 * width * height;
    // The area of a frame about something else is no sheet.
    const score = full
      ? FULL_SCORE * Math.min(1, (2 * area) / (width * height))
      : scoreOf(quad, small);
    out.push({ quad, full, score });
  });
  return out;
}

/** Labels of 4-connected components: one for each pixel (-1 outside the mask), and their areas. */
export interface Components {
  labels: Int32Array;
  areas: number[];
}

/** 4-connected components of a mask. */
export function* components(mask: Uint8Array, width: number, height: number): Kernel<Components> {
  const labels = new Int32Array(width * height).fill(-1);
  const areas: number[] = [];
  const queue = new Int32Array(width * height);
  let done = 0;
  let pause = 1 << 16;
  for (let seed = 0; seed < mask.length; seed++) {
    if (!mask[seed] || labels[seed] >= 0) continue;
    const label = areas.length;
    let tail = 0;
    queue[tail++] = seed;
    labels[seed] = label;
    for (let head = 0; head < tail; head++) {
      const at = queue[head];
      const x = at % width;
      if (x > 0 && mask[at - 1] && labels[at - 1] < 0) labels[(queue[tail++] = at - 1)] = label;
      if (x + 1 < width && mask[at + 1] && labels[at + 1] < 0)
        labels[(queue[tail++] = at + 1)] = label;
      if (at >= width && mask[at - width] && labels[at - width] < 0)
        labels[(queue[tail++] = at - width)] = label;
      if (at + width < mask.length && mask[at + width] && labels[at + width] < 0)
        labels[(queue[tail++] = at + width)] = label;
      if (++done === pause) {
        pause += 1 << 16;
        yield done / mask.length;
      }
    }
    areas.push(tail);
  }
  return { labels, areas };
}

/** The convex hull of a component's pixels (their corners), clockwise on the screen (Andrew 1979, monotone chain). */
function hullOf(labels: Int32Array, label: number, width: number, height: number): Spot[] {
  const points: Spot[] = [];
  for (let y = 0; y < height; y++) {
    let first = -1;
    let last = -1;
    for (let x = 0; x < width; x++) {
      if (labels[y * width + x] !== label) continue;
      if (first < 0) first = x;
      last = x;
    }
    if (first >= 0) points.push([first, y], [first, y + 1], [last + 1, y], [last + 1, y + 1]);
  }
  points.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (list: Spot[]): Spot[] => {
    const chain: Spot[] = [];
    for (const point of list) {
      while (chain.length > 1 && turn(chain[chain.length - 2], chain[chain.length - 1], point) <= 0)
        chain.pop();
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  return [...half(points), ...half(points.slice().reverse())];
}

const turn = (a: Spot, b: Spot, c: Spot): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Where the lines a-b and c-d meet. */
function meeting(a: Spot, b: Spot, c: Spot, d: Spot): Spot | undefined {
  const rx = b[0] - a[0];
  const ry = b[1] - a[1];
  const sx = d[0] - c[0];
  const sy = d[1] - c[1];
  const cross = rx * sy - ry * sx;
  if (Math.abs(cross) < 1e-9 * Math.hypot(rx, ry) * Math.hypot(sx, sy)) return undefined;
  const t = ((c[0] - a[0]) * sy - (c[1] - a[1]) * sx) / cross;
  return [a[0] + t * rx, a[1] + t * ry];
}

/** A quadrilateral around a convex polygon: sides are given up one by one, each time the one whose loss adds least area. */
function quadAround(hull: Spot[]): Corners | undefined {
  const polygon = hull.slice();
  while (polygon.length > 4) {
    const n = polygon.length;
    let least = Infinity;
    let which = -1;
    let apex: Spot | undefined;
    for (let i = 0; i < n; i++) {
      const [a, b, c, d] = [0, 1, 2, 3].map((k) => polygon[(i + k) % n]);
      const met = meeting(a, b, d, c);
      // The neighbours must meet beyond the side that is given up.
      if (!met || turn(b, c, met) >= 0) continue;
      const added = Math.abs(turn(b, c, met));
      if (added < least) [least, which, apex] = [added, i, met];
    }
    if (which < 0 || !apex) return undefined;
    polygon.splice((which + 1) % n, 1, apex);
    polygon.splice((which + 2) % n, 1);
  }
  return polygon.length === 4 ? fromTopLeft(polygon) : undefined;
}

/** Four points that go round, from the one nearest the top left, clockwise on the screen. */
function fromTopLeft(points: Spot[]): Corners {
  const clockwise = turn(points[0], points[1], points[2]) > 0 ? points : points.slice().reverse();
  let first = 0;
  clockwise.forEach(([x, y], i) => {
    if (x + y < clockwise[first][0] + clockwise[first][1]) first = i;
  });
  return [0, 1, 2, 3].map((i) => clockwise[(first + i) % 4]) as Corners;
}

/** How well the sides of a quadrilateral part its inside from its outside, 0..1; lighter inside counts more. */
function scoreOf(quad: Corners, { width, height, lab }: Lab3): number {
  const reach = 3;
  let sides = 0;
  let support = 0;
  let lighter = 0;
  let counted = 0;
  let weakest = 1;
  quad.forEach((a, i) => {
    const b = quad[(i + 1) % 4];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const nx = -(b[1] - a[1]) / length;
    const ny = (b[0] - a[0]) / length;
    let parted = 0;
    let tried = 0;
    for (let k = 0; k < 40; k++) {
      const t = 0.05 + (0.9 * k) / 39;
      const x = a[0] + t * (b[0] - a[0]);
      const y = a[1] + t * (b[1] - a[1]);
      const inside = pixelAt(x + reach * nx, y + reach * ny, width, height);
      const outside = pixelAt(x - reach * nx, y - reach * ny, width, height);
      if (inside < 0 || outside < 0) continue;
      tried++;
      const dL = lab[3 * inside] - lab[3 * outside];
      const da = lab[3 * inside + 1] - lab[3 * outside + 1];
      const db = lab[3 * inside + 2] - lab[3 * outside + 2];
      if (Math.hypot(dL, da, db) > 4) parted++;
      if (dL > 0) lighter++;
    }
    counted += tried;
    if (tried < 8) return;
    sides++;
    support += parted / tried;
    weakest = Math.min(weakest, parted / tried);
  });
  if (sides === 0) return 0;
  const area = Math.min(1, loopArea(quad) / (width * height));
  const clear = 0.5 * (support / sides) + 0.5 * weakest;
  return clear * (0.2 + 0.8 * (lighter / counted)) * (0.6 + 0.4 * area) * (sides / 4) ** 0.25;
}

function pixelAt(x: number, y: number, width: number, height: number): number {
  const i = Math.floor(x);
  const j = Math.floor(y);
  return i < 0 || j < 0 || i >= width || j >= height ? -1 : j * width + i;
}

/** Draws each side through the strongest edges near it and takes the corners where the sides meet. */
function refined(quad: Corners, picture: LightPicture, plane: Lightness, step: number): FoundSheet {
  const { width, height } = picture;
  const slack = 2 * step;
  const onBorder = quad.map((a, i) => {
    const b = quad[(i + 1) % 4];
    const along = (axis: 0 | 1, at: number): boolean =>
      Math.abs(a[axis] - at) <= slack && Math.abs(b[axis] - at) <= slack;
    return along(0, 0) || along(0, width) || along(1, 0) || along(1, height);
  }) as FoundSheet['onBorder'];
  const lines = quad.map((a, i) => {
    const b = quad[(i + 1) % 4];
    return onBorder[i] ? borderLine(a, b, width, height, slack) : edgeLine(a, b, plane, 5 * step);
  });
  const corners = lines.map((line, i) => {
    const before = lines[(i + 3) % 4];
    const met = meeting(before[0], before[1], line[0], line[1]);
    return met && Math.hypot(met[0] - quad[i][0], met[1] - quad[i][1]) < 12 * step ? met : quad[i];
  }) as Corners;
  return { corners, found: true, onBorder };
}

function borderLine(a: Spot, b: Spot, width: number, height: number, slack: number): [Spot, Spot] {
  const snap = (value: number, size: number, other: number): number =>
    Math.abs(value) <= slack && Math.abs(other) <= slack
      ? 0
      : Math.abs(value - size) <= slack && Math.abs(other - size) <= slack
        ? size
        : value;
  return [
    [snap(a[0], width, b[0]), snap(a[1], height, b[1])],
    [snap(b[0], width, a[0]), snap(b[1], height, a[1])],
  ];
}

/** A straight line through the strongest steps of lightness within `reach` pixels of a side. */
function edgeLine(a: Spot, b: Spot, plane: Lightness, reach: number): [Spot, Spot] {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const dx = (b[0] - a[0]) / length;
  const dy = (b[1] - a[1]) / length;
  const along: number[] = [];
  const offsets: number[] = [];
  const strengths: number[] = [];
  const count = 2 * reach + 1;
  const profile = new Float64Array(count);
  const rows = Math.min(120, Math.max(20, Math.floor(length / 3)));
  for (let k = 0; k < rows; k++) {
    const s = length * (0.06 + (0.88 * k) / (rows - 1));
    for (let i = 0; i < count; i++) {
      let sum = 0;
      for (let t = -1; t <= 1; t++) {
        const x = a[0] + (s + t) * dx - (i - reach) * dy;
        const y = a[1] + (s + t) * dy + (i - reach) * dx;
        sum += codeAt(plane, x, y);
      }
      profile[i] = sum / 3;
    }
    let best = 0;
    let where = -1;
    const slope = (i: number): number =>
      profile[i + 1] + profile[i] - profile[i - 1] - profile[i - 2];
    for (let i = 3; i + 2 < count; i++) {
      // Lighter inside (the right-hand side of a clockwise side has larger i): that is what a sheet's border does.
      const step = slope(i);
      if (step > best) [best, where] = [step, i];
    }
    if (where < 0 || best < 8) continue;
    const [l, m, r] = [slope(where - 1), best, where + 3 < count ? slope(where + 1) : 0];
    const bend = l - 2 * m + r;
    const shift = bend < 0 ? Math.min(0.5, Math.max(-0.5, (0.5 * (l - r)) / bend)) : 0;
    along.push(s / length);
    // The step lies between the two inner samples, half a pixel before `where`.
    offsets.push(where + shift - 0.5 - reach);
    strengths.push(best);
  }
  if (along.length < rows / 4) return [a, b];
  const least = 0.3 * medianOf(strengths);
  const kept = along.map((_, i) => i).filter((i) => strengths[i] >= least);
  const design = Float64Array.from(kept.flatMap((i) => [1, along[i]]));
  const values = Float64Array.from(kept, (i) => offsets[i]);
  const { coefficients: start } = robustFit(design, 2, values, {
    weight: 'huber',
    leastScale: 0.05,
  });
  const [c0, c1] = robustFit(design, 2, values, {
    weight: 'tukey',
    start,
    leastScale: 0.05,
  }).coefficients;
  const shifted = (point: Spot, by: number): Spot => [point[0] - by * dy, point[1] + by * dx];
  return [shifted(a, c0), shifted(b, c0 + c1)];
}

/** The lightness code at a point, bilinear between pixel centres; the border pixels go on outside. */
function codeAt({ width, height, data }: Lightness, x: number, y: number): number {
  const u = Math.min(width - 1, Math.max(0, x - 0.5));
  const v = Math.min(height - 1, Math.max(0, y - 0.5));
  const i = Math.floor(u);
  const j = Math.floor(v);
  const i1 = Math.min(width - 1, i + 1);
  const j1 = Math.min(height - 1, j + 1);
  const fx = u - i;
  const fy = v - j;
  return (
    (1 - fy) * ((1 - fx) * data[j * width + i] + fx * data[j * width + i1]) +
    fy * ((1 - fx) * data[j1 * width + i] + fx * data[j1 * width + i1])
  );
}
