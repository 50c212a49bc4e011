/** What the painter changes by hand: masses joined, cut, moved to another band, locked. */
import { expectInteger, expectNumber, expectObject, wrongType } from '../base/check.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lightness, Spot } from '../base/types.js';
import { componentsOf } from '../geometry/components.js';
import { loopMask } from '../geometry/index.js';
import { lengthOf } from '../geometry/length.js';
import { discWithin } from './room.js';
import type { Segments } from './segment.js';
import type {
  BandOverrule,
  JoinOverrule,
  LockOverrule,
  Masses,
  Region,
  SplitOverrule,
} from './types.js';

type Box = [x: number, y: number, w: number, h: number];

/** A mass while overrules change it. */
interface Shape {
  band: number;
  area: number;
  /** Sum of codes. */
  sum: number;
  bounds: Box;
  /** Locked by the painter: nothing joins it but by a join of the painter's. */
  locked: boolean;
  /** Masses that a cut of the painter's keeps apart from it, whatever their bands. */
  apart: Set<number>;
}

const united = (a: Box, b: Box): Box => {
  const x = Math.min(a[0], b[0]);
  const y = Math.min(a[1], b[1]);
  return [x, y, Math.max(a[0] + a[2], b[0] + b[2]) - x, Math.max(a[1] + a[3], b[1] + b[3]) - y];
};

function expectSpot(name: string, value: unknown): Spot {
  if (!Array.isArray(value) || value.length !== 2) throw wrongType(name, value, 'a spot [x, y]');
  expectNumber(`${name}[0]`, value[0]);
  expectNumber(`${name}[1]`, value[1]);
  return value as Spot;
}

function expectSpots(name: string, value: unknown): Spot[] {
  if (!Array.isArray(value)) throw wrongType(name, value, 'an array of spots [x, y]');
  return value.map((spot: unknown, i) => expectSpot(`${name}[${i}]`, spot));
}

/** The pixel under a spot; -1 outside the picture. */
export function pixelAt(spot: Spot, width: number, height: number): number {
  const [x, y] = spot;
  if (!(x >= 0 && x <= 1 && y >= 0 && y <= 1)) return -1;
  const column = Math.min(width - 1, Math.floor(x * width));
  const row = Math.min(height - 1, Math.floor(y * height));
  return row * width + column;
}

/** Masses while they are changed. */
class Shapes {
  readonly labels: Int32Array;
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
  readonly shapes: (Shape | undefined)[];

  constructor(plane: Lightness, segments: Segments) {
    this.labels = segments.labels;
    this.width = plane.width;
    this.height = plane.height;
    this.data = plane.data;
    this.shapes = segments.regions.map(({ band, area, mean, bounds }) => ({
      band,
      area,
      sum: mean * 2.55 * area,
      bounds: [...bounds],
      locked: false,
      apart: new Set<number>(),
    }));
  }

  at(spot: Spot): number {
    const pixel = pixelAt(spot, this.width, this.height);
    return pixel < 0 ? -1 : this.labels[pixel];
  }

  shape(id: number): Shape {
    return this.shapes[id]!;
  }

  /** Calls `use` with each pixel of a mass. */
  each(id: number, use: (at: number, x: number, y: number) => void): void {
    const [left, top, w, h] = this.shape(id).bounds;
    for (let y = top; y < top + h; y++) {
      for (let x = left; x < left + w; x++) {
        const at = y * this.width + x;
        if (this.labels[at] === id) use(at, x, y);
      }
    }
  }

  /** Neighbours of a mass and the length of the border with each, pixels. */
  around(id: number): Map<number, number> {
    const lengths = new Map<number, number>();
    const { labels, width, height } = this;
    const meet = (other: number) => {
      if (other !== id) lengths.set(other, (lengths.get(other) ?? 0) + 1);
    };
    this.each(id, (at, x, y) => {
      if (x > 0) meet(labels[at - 1]);
      if (x + 1 < width) meet(labels[at + 1]);
      if (y > 0) meet(labels[at - width]);
      if (y + 1 < height) meet(labels[at + width]);
    });
    return lengths;
  }

  /** One mass becomes part of another. */
  absorb(gone: number, into: number): void {
    const from = this.shape(gone);
    const to = this.shape(into);
    this.each(gone, (at) => (this.labels[at] = into));
    to.area += from.area;
    to.sum += from.sum;
    to.bounds = united(to.bounds, from.bounds);
    for (const other of from.apart) {
      const cut = this.shapes[other];
      cut?.apart.delete(gone);
      if (other !== into) {
        cut?.apart.add(into);
        to.apart.add(other);
      }
    }
    to.apart.delete(gone);
    this.shapes[gone] = undefined;
  }

  /** Neighbours of a mass's own band join it, but for locked ones and those that a cut keeps apart. */
  joinAlike(id: number): void {
    const shape = this.shape(id);
    if (shape.locked) return;
    for (;;) {
      let joined = false;
      for (const other of this.around(id).keys()) {
        const { band, locked } = this.shape(other);
        if (band !== shape.band || locked || shape.apart.has(other)) continue;
        this.absorb(other, id);
        joined = true;
      }
      if (!joined) return;
    }
  }

  add(shape: Pick<Shape, 'band' | 'locked'>): number {
    this.shapes.push({ area: 0, sum: 0, bounds: [0, 0, 0, 0], apart: new Set(), ...shape });
    return this.shapes.length - 1;
  }

  /** Measures a mass again after pixels were given to it or taken from it; true when some are left. */
  measure(id: number, within: Box): boolean {
    const shape = this.shape(id);
    let [left, top, right, bottom] = [Infinity, Infinity, -1, -1];
    shape.area = 0;
    shape.sum = 0;
    shape.bounds = within;
    this.each(id, (at, x, y) => {
      shape.area++;
      shape.sum += this.data[at];
      left = Math.min(left, x);
      top = Math.min(top, y);
      right = Math.max(right, x);
      bottom = Math.max(bottom, y);
    });
    if (shape.area === 0) {
      this.shapes[id] = undefined;
      for (const other of shape.apart) this.shapes[other]?.apart.delete(id);
      return false;
    }
    shape.bounds = [left, top, right - left + 1, bottom - top + 1];
    return true;
  }

  /** The connected parts of those pixels of a mass that `keep` names: labels in the mass's rectangle, and their sizes. */
  partsOf(
    id: number,
    keep: (at: number) => boolean,
  ): { box: Box; labels: Int32Array; sizes: number[] } {
    const box = this.shape(id).bounds;
    const [left, top, w, h] = box;
    const mask = new Uint8Array(w * h);
    this.each(id, (at, x, y) => {
      if (keep(at)) mask[(y - top) * w + x - left] = 1;
    });
    const { labels, count } = componentsOf(mask, w, h, { background: 0 });
    const sizes = new Array<number>(count).fill(0);
    for (const label of labels) if (label >= 0) sizes[label]++;
    return { box, labels, sizes };
  }

  regions(): Segments {
    const ids = new Int32Array(this.shapes.length).fill(-1);
    const alive: number[] = [];
    this.shapes.forEach((shape, id) => {
      if (shape) ids[id] = alive.push(id) - 1;
    });
    const near = alive.map(() => new Set<number>());
    const { labels, width } = this;
    for (let i = 0; i < labels.length; i++) labels[i] = ids[labels[i]];
    for (let i = 0; i < labels.length; i++) {
      const a = labels[i];
      if ((i + 1) % width !== 0 && labels[i + 1] !== a) {
        near[a].add(labels[i + 1]);
        near[labels[i + 1]].add(a);
      }
      if (i + width < labels.length && labels[i + width] !== a) {
        near[a].add(labels[i + width]);
        near[labels[i + width]].add(a);
      }
    }
    const regions = alive.map((old, id): Region => {
      const { band, area, sum, bounds } = this.shape(old);
      return {
        id,
        band,
        area,
        mean: sum / area / 2.55,
        bounds,
        neighbours: [...near[id]].sort((a, b) => a - b),
      };
    });
    return { labels, regions };
  }
}

function join(shapes: Shapes, { from, to }: JoinOverrule, name: string): Reason | undefined {
  const a = shapes.at(expectSpot(`${name}.from`, from));
  const b = shapes.at(expectSpot(`${name}.to`, to));
  if (a < 0 || b < 0) return reason('mass.join-outside');
  if (a === b) return reason('mass.join-same');
  if (!shapes.around(a).has(b)) return reason('mass.join-not-neighbours');
  shapes.shape(a).locked ||= shapes.shape(b).locked;
  shapes.absorb(b, a);
  shapes.joinAlike(a);
  return undefined;
}

function changeBand(
  shapes: Shapes,
  { at, band }: BandOverrule,
  bands: number,
  name: string,
): Reason | undefined {
  expectInteger(`${name}.band`, band, 0, 254);
  const id = shapes.at(expectSpot(`${name}.at`, at));
  if (id < 0) return reason('mass.band-outside');
  if (band >= bands) return reason('mass.band-unknown', { band, bands });
  const shape = shapes.shape(id);
  if (shape.band === band) return reason('mass.band-same', { band });
  shape.band = band;
  shapes.joinAlike(id);
  return undefined;
}

/** Pixels from (ax, ay) to (bx, by), both in pixel coordinates, half a pixel apart at most. */
function walk(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  use: (x: number, y: number) => boolean,
) {
  const steps = Math.max(1, Math.ceil(2 * lengthOf(bx - ax, by - ay)));
  for (let k = 0; k <= steps; k++) {
    const x = ax + ((bx - ax) * k) / steps;
    const y = ay + ((by - ay) * k) / steps;
    if (!use(Math.floor(x), Math.floor(y))) return;
  }
}

function split(
  shapes: Shapes,
  { line }: SplitOverrule,
  least: (area: number) => number,
  bandOf: (mean: number) => number,
  name: string,
): Reason | undefined {
  const { width, height, labels } = shapes;
  const points = expectSpots(`${name}.line`, line).map(
    ([x, y]) =>
      [Math.min(2, Math.max(-1, x)) * width, Math.min(2, Math.max(-1, y)) * height] as const,
  );
  const inside = (x: number, y: number) => x >= 0 && y >= 0 && x < width && y < height;
  const runs = new Map<number, number>();
  const count = (x: number, y: number) => {
    if (inside(x, y)) runs.set(labels[y * width + x], (runs.get(labels[y * width + x]) ?? 0) + 1);
    return true;
  };
  for (let k = 0; k + 1 < points.length; k++) walk(...points[k], ...points[k + 1], count);
  if (runs.size === 0) return reason('mass.split-outside');
  const [id] = [...runs].reduce((most, run) => (run[1] > most[1] ? run : most));

  const barrier = new Set<number>();
  const lay = (x: number, y: number) => {
    if (inside(x, y) && labels[y * width + x] === id) barrier.add(y * width + x);
    return true;
  };
  for (let k = 0; k + 1 < points.length; k++) walk(...points[k], ...points[k + 1], lay);
  // Both ends go on straight until they leave the mass.
  const longest = width + height;
  const goOn = (from: readonly [number, number], to: readonly [number, number]) => {
    const length = lengthOf(to[0] - from[0], to[1] - from[1]);
    if (length === 0) return;
    const far = longest / length;
    walk(...to, to[0] + far * (to[0] - from[0]), to[1] + far * (to[1] - from[1]), (x, y) => {
      if (!inside(x, y) || labels[y * width + x] !== id) return false;
      barrier.add(y * width + x);
      return true;
    });
  };
  const last = points.length - 1;
  if (last >= 1) {
    goOn(points[1], points[0]);
    goOn(points[last - 1], points[last]);
  }
  const { box, labels: parts, sizes } = shapes.partsOf(id, (at) => !barrier.has(at));
  // Crumbs between the line and the border stay with what they lie beside.
  const whole = shapes.shape(id).area;
  const real = sizes.map((size) => size >= least(whole));
  if (real.filter(Boolean).length < 2) return reason('mass.split-no-cut');

  // What is left of the mass, and the line itself, goes to the nearest real part.
  const [left, top, w, h] = box;
  const owner = new Int32Array(w * h).fill(-2);
  let front: number[] = [];
  shapes.each(id, (_, x, y) => {
    const k = (y - top) * w + x - left;
    owner[k] = parts[k] >= 0 && real[parts[k]] ? parts[k] : -1;
    if (owner[k] >= 0) front.push(k);
  });
  while (front.length > 0) {
    const next: number[] = [];
    for (const k of front) {
      const give = (to: number) => {
        if (owner[to] !== -1) return;
        owner[to] = owner[k];
        next.push(to);
      };
      if (k % w > 0) give(k - 1);
      if (k % w < w - 1) give(k + 1);
      if (k >= w) give(k - w);
      if (k < w * (h - 1)) give(k + w);
    }
    front = next;
  }
  const { band, locked } = shapes.shape(id);
  const ids = new Map<number, number>();
  shapes.each(id, (at, x, y) => {
    const part = owner[(y - top) * w + x - left];
    if (!ids.has(part)) ids.set(part, ids.size === 0 ? id : shapes.add({ band, locked }));
    labels[at] = ids.get(part)!;
  });
  const pieces = [...ids.values()];
  const before = [...shapes.shape(id).apart];
  for (const piece of pieces) {
    shapes.measure(piece, box);
    const shape = shapes.shape(piece);
    if (!locked) shape.band = bandOf(shape.sum / shape.area);
    for (const other of [...before, ...pieces]) {
      if (other === piece) continue;
      shape.apart.add(other);
      shapes.shapes[other]?.apart.add(piece);
    }
    // A piece whose mean lies in a neighbour's band stays beside it: a cut makes masses, it joins none.
    for (const [other] of shapes.around(piece)) {
      if (shapes.shape(other).band !== shape.band) continue;
      shape.apart.add(other);
      shapes.shape(other).apart.add(piece);
    }
  }
  return undefined;
}

function lock(
  shapes: Shapes,
  { at, band, rings }: LockOverrule,
  bands: number,
  brushPx: number,
  name: string,
): Reason | undefined {
  const { width, height, labels } = shapes;
  const leastArea = Math.floor((Math.PI / 4) * brushPx * brushPx);
  expectSpot(`${name}.at`, at);
  expectInteger(`${name}.band`, band, 0, 254);
  if (!Array.isArray(rings)) throw wrongType(`${name}.rings`, rings, 'an array of rings');
  const loops = rings.map((ring: unknown, i) => expectSpots(`${name}.rings[${i}]`, ring));
  if (band >= bands) return reason('mass.band-unknown', { band, bands });
  const mask = new Uint8Array(width * height);
  for (const loop of loops) {
    const inside = loopMask(
      loop.map(([x, y]) => [x * width, y * height] as Spot),
      width,
      height,
    );
    for (let i = 0; i < mask.length; i++) mask[i] ^= inside[i];
  }
  if (!mask.includes(1)) return reason('mass.lock-outside');
  const parts = componentsOf(mask, width, height, { background: 0 });
  const robbed = new Set<number>();
  const ids = Array.from({ length: parts.count }, () => shapes.add({ band, locked: true }));
  for (let i = 0; i < mask.length; i++) {
    if (parts.labels[i] < 0) continue;
    robbed.add(labels[i]);
    labels[i] = ids[parts.labels[i]];
  }
  const all: Box = [0, 0, width, height];
  for (const id of ids) shapes.measure(id, all);
  for (const id of robbed) {
    if (!shapes.measure(id, shapes.shape(id).bounds)) continue;
    const { band: old, locked } = shapes.shape(id);
    const { box, labels: of, sizes } = shapes.partsOf(id, () => true);
    const largest = sizes.indexOf(Math.max(...sizes));
    const pieces = sizes.map((_, part) =>
      part === largest ? id : shapes.add({ band: old, locked }),
    );
    if (pieces.length > 1) {
      const [left, top, w] = box;
      shapes.each(id, (pixel, x, y) => {
        labels[pixel] = pieces[of[(y - top) * w + x - left]];
      });
      for (const piece of pieces) shapes.measure(piece, box);
    }
    // Slivers beside the lock go to a neighbour, that of the longest border.
    for (const piece of pieces) {
      const shape = shapes.shape(piece);
      if (shape.locked) continue;
      const room = discWithin(labels, width, height, piece, shape.bounds, Math.floor(brushPx / 4));
      if (shape.area >= leastArea && room >= 0) continue;
      let into = -1;
      let most = 0;
      for (const [other, length] of shapes.around(piece)) {
        if (shapes.shape(other).locked || length <= most) continue;
        most = length;
        into = other;
      }
      if (into >= 0) {
        shapes.absorb(piece, into);
        shapes.joinAlike(into);
      }
    }
  }
  return undefined;
}

/**
 * Applies overrules in the order of the list; kinds that change no shapes are passed over.
 *
 * - `join`: both become one mass of the band of `from`.
 * - `split`: the pieces take the band of their own mean, and stay apart from one another and from all that they touch,
 *   whatever the bands.
 * - `band`: the mass takes the band and keeps its shape, but masses of one band that meet are one mass: neighbours of that
 *   band join it, unless a cut or a lock lies between.
 * - `lock`: the rings become a mass of that band that nothing joins but a `join`; what is left beside it and
 *   too small for the brush goes to the neighbour of the longest border.
 *
 * Reasons of what is not met: `mass.join-outside`, `mass.join-same`, `mass.join-not-neighbours`, `mass.split-outside`,
 * `mass.split-no-cut`, `mass.band-outside`, `mass.band-unknown` {band, bands}, `mass.band-same` {band}, `mass.lock-outside`.
 * @param segments is changed; use what is returned
 */
export function overruled(
  plane: Lightness,
  segments: Segments,
  overrules: readonly { kind: string }[],
  limits: readonly number[],
  brushPx: number,
): Segments & { unmet: NonNullable<Masses['unmet']> } {
  const bands = limits.length + 1;
  const shapes = new Shapes(plane, segments);
  const unmet: NonNullable<Masses['unmet']> = [];
  const area = Math.floor((Math.PI / 4) * brushPx * brushPx);
  // A piece is real from a quarter of the brush's area or a tenth of the mass on, whichever is less.
  const least = (whole: number) => Math.max(1, Math.min(area / 4, whole / 10));
  const bandOf = (mean: number) => limits.filter((limit) => mean >= limit + 0.5).length;
  overrules.forEach((overrule: unknown, i) => {
    const name = `options.overrules[${i}]`;
    const { kind } = expectObject(name, overrule);
    let why: Reason | undefined;
    if (kind === 'join') why = join(shapes, overrule as JoinOverrule, name);
    else if (kind === 'split') why = split(shapes, overrule as SplitOverrule, least, bandOf, name);
    else if (kind === 'band') why = changeBand(shapes, overrule as BandOverrule, bands, name);
    else if (kind === 'lock') why = lock(shapes, overrule as LockOverrule, bands, brushPx, name);
    if (why) unmet.push({ overrule: i, reason: why });
  });
  return { ...shapes.regions(), unmet };
}

/** Whether a list holds overrules that change shapes. */
export const changesShapes = (overrules: readonly { kind: string }[]): boolean =>
  overrules.some(({ kind }) => ['join', 'split', 'band', 'lock'].includes(kind));
