/**
 * How wide a region is where it is narrowest.
 *
 * Take the distance of each point of the region from its border, and lower a water level from the deepest point: what stands above a
 * level s is where a disc of radius s has its centre when it fits in. Parts rise one by one. Where two parts that both swell well
 * beyond s meet, the region has a waist 2 s wide; where a part meets itself round a hole, the bridge there is 2 s wide. The narrowest
 * width is the least of these, and without any it is the width of the largest disc that fits in. Tips and corners only taper: no part
 * swells behind them, so they do not count.
 *
 * The levels and the order in which parts meet are those of the persistent homology of the distance function (Edelsbrunner, Letscher &
 * Zomorodian 2002, as used for shapes); the distance is exact (`squaredDistances`). Parts hang together through sides, what lies
 * beneath the level through corners too: from every point a way of falling distance leads to the border, so a ring that closes goes
 * round a hole and never round a mere dip.
 */
import { squaredDistancesKernel } from '../geometry/index.js';
import { scaledProgress } from './borders.js';
import type { Kernel } from '../base/kernel.js';
import type { Masses, Region } from './types.js';

/** A part swells beyond a waist when its largest disc is so much wider than the waist ... */
const SWELLS = 1.25;
/** ... and its radius so many pixels larger, which steps of pixels are not. */
const SWELLS_PX = 0.75;
/** Parts whose largest disc is smaller than this share of the region's, and than the brush can state, are tips. */
const LEAST_PART = 0.25;

/** Up to so many pixels of its bounds a region is measured on half pixels, exactly; beyond on whole ones, within half a pixel. */
const FINE_PIXELS = 1 << 18;

/** A raster of points inside and outside of a region, 1 and 0. */
interface Points {
  inside: Uint8Array;
  width: number;
  height: number;
  /** Width in pixels of a disc about a point at this distance. */
  widthOf: (distance: number) => number;
  /** Points in a pixel's side. */
  finer: number;
}

/** Corners, middles of sides and centres of pixels; those on the border are outside, so distances to the border are exact. */
function finePoints({ labels, map }: Masses, { id, bounds: [left, top, w, h] }: Region): Points {
  const width = 2 * w + 1;
  const height = 2 * h + 1;
  const inside = new Uint8Array(width * height);
  const has = (x: number, y: number): boolean => labels[(top + y) * map.width + left + x] === id;
  for (let y = 0; y < h; y++) {
    for (let x = 0; x < w; x++) {
      if (!has(x, y)) continue;
      const at = (2 * y + 1) * width + 2 * x + 1;
      inside[at] = 1;
      const right = x + 1 < w && has(x + 1, y);
      const below = y + 1 < h && has(x, y + 1);
      if (right) inside[at + 1] = 1;
      if (below) inside[at + width] = 1;
      if (right && below && has(x + 1, y + 1)) inside[at + width + 1] = 1;
    }
  }
  return { inside, width, height, widthOf: (distance) => distance, finer: 2 };
}

/** Centres of pixels, with a rim of outside about them. */
function coarsePoints({ labels, map }: Masses, { id, bounds: [left, top, w, h] }: Region): Points {
  const width = w + 2;
  const inside = new Uint8Array(width * (h + 2));
  for (let y = 0; y < h; y++) {
    for (let x = 0; x < w; x++)
      if (labels[(top + y) * map.width + left + x] === id) inside[(y + 1) * width + x + 1] = 1;
  }
  // A strip of odd width n has distance (n + 1) / 2 in its middle, one of even width n / 2.
  return { inside, width, height: h + 2, widthOf: (distance) => 2 * distance - 0.5, finer: 1 };
}

/** Narrowest width of a region in pixels; see above. The picture's frame counts as border. */
export function* narrowestKernel(masses: Masses, region: Region, brushPx: number): Kernel<number> {
  const [, , w, h] = region.bounds;
  const points = w * h <= FINE_PIXELS ? finePoints(masses, region) : coarsePoints(masses, region);
  const { inside, width, height, widthOf, finer } = points;
  const squared = yield* scaledProgress(squaredDistancesKernel(inside, width, height), 0, 0.4);
  const order = yield* scaledProgress(deepestFirst(squared), 0.4, 0.6);
  if (order.length === 0) return 0;
  const deepest = Math.sqrt(squared[order[0]]);
  const leastPart = Math.min(LEAST_PART * deepest, (brushPx / 4) * finer);
  const rise = new Rise(squared, width, leastPart, finer);
  const slice = 1 << 15;
  for (let from = 0; from < order.length; from += slice) {
    const level = rise.through(order, from, Math.min(order.length, from + slice));
    if (level > 0) return widthOf(level);
    yield 0.6 + (0.4 * from) / order.length;
  }
  return widthOf(deepest);
}

/** The water level as it falls. */
class Rise {
  readonly #parts: Parts;
  /** The eight neighbours in turn, the sides at even places. */
  readonly #ring: Int32Array;

  constructor(
    readonly squared: Int32Array,
    width: number,
    readonly leastPart: number,
    readonly finer: number,
  ) {
    this.#parts = new Parts(squared.length);
    this.#ring = Int32Array.of(-width, -width + 1, 1, width + 1, width, width - 1, -1, -width - 1);
  }

  /** Lets the points `from..to` of the order rise. @returns the level of the first waist or bridge; 0 when there is none yet */
  through(order: Int32Array, from: number, to: number): number {
    const parts = this.#parts;
    for (let i = from; i < to; i++) {
      const at = order[i];
      const level = Math.sqrt(this.squared[at]);
      parts.add(at, level);
      if (this.#closes(at, level)) return level;
    }
    return 0;
  }

  /** Joins a point to the parts at its sides. Sides that hang together about it count once. */
  #closes(at: number, level: number): boolean {
    const parts = this.#parts;
    const ring = this.#ring;
    let apart = false;
    for (let side = 0; side < 8; side += 2) {
      const neighbour = at + ring[side];
      if (!parts.has(neighbour)) continue;
      const hangsTogether =
        parts.has(at + ring[(side + 6) & 7]) && parts.has(at + ring[(side + 7) & 7]);
      if (hangsTogether) continue;
      apart = true;
      const own = parts.rootOf(at);
      const other = parts.rootOf(neighbour);
      if (own === other) return true;
      const swell = Math.min(parts.peakOf(own), parts.peakOf(other));
      const isWaist =
        swell >= SWELLS * level &&
        swell - level >= SWELLS_PX * this.finer &&
        swell >= this.leastPart;
      if (isWaist) return true;
      parts.join(own, other);
    }
    // All sides at once hang together with each other: any of them will do.
    if (!apart && parts.has(at + 1)) parts.join(at, at + 1);
    return false;
  }
}

/** The points inside, those farthest from the border first. */
function* deepestFirst(squared: Int32Array): Kernel<Int32Array> {
  let most = 0;
  let count = 0;
  for (let at = 0; at < squared.length; at++) {
    if (squared[at] === 0) continue;
    count++;
    if (squared[at] > most) most = squared[at];
  }
  yield 0.3;
  const starts = new Int32Array(most + 2);
  for (let at = 0; at < squared.length; at++) if (squared[at] > 0) starts[most - squared[at] + 1]++;
  for (let i = 0; i <= most; i++) starts[i + 1] += starts[i];
  yield 0.6;
  const order = new Int32Array(count);
  for (let at = 0; at < squared.length; at++)
    if (squared[at] > 0) order[starts[most - squared[at]]++] = at;
  return order;
}

/** Points above the level, by the part they belong to (union by peak, halving of paths). */
class Parts {
  /** One more than the parent; 0 where a point is not above the level. */
  readonly #parents: Int32Array;
  readonly #peaks: Float32Array;

  constructor(count: number) {
    this.#parents = new Int32Array(count);
    this.#peaks = new Float32Array(count);
  }

  add(at: number, peak: number): void {
    this.#parents[at] = at + 1;
    this.#peaks[at] = peak;
  }

  has(at: number): boolean {
    return this.#parents[at] !== 0;
  }

  rootOf(at: number): number {
    const parents = this.#parents;
    while (parents[at] !== at + 1) {
      parents[at] = parents[parents[at] - 1];
      at = parents[at] - 1;
    }
    return at;
  }

  peakOf(root: number): number {
    return this.#peaks[root];
  }

  join(a: number, b: number): void {
    const rootA = this.rootOf(a);
    const rootB = this.rootOf(b);
    if (rootA === rootB) return;
    if (this.#peaks[rootA] >= this.#peaks[rootB]) this.#parents[rootB] = rootA + 1;
    else this.#parents[rootA] = rootB + 1;
  }
}
