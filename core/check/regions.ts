/** What is read of the regions of a plan in a picture of the same size. */
import {
  expectInteger,
  expectNumber,
  expectObject,
  expectRaster,
  outOfRange,
  wrongType,
} from '../base/check.js';
import { byRows, type Kernel } from '../base/kernel.js';
import type { Lightness, Step } from '../base/types.js';
import type { Masses } from '../mass/types.js';
import { lightnessOfCode } from '../units/index.js';
import type { Progressed } from './types.js';

/** Refuses masses that do not hang together. */
export function expectMasses(name: string, masses: unknown): asserts masses is Masses {
  const { map, labels, regions } = expectObject(name, masses) as unknown as Masses;
  expectRaster(`${name}.map`, map, 1);
  expectInteger(`${name}.map.bands`, map.bands, 1, 255);
  if (!(labels instanceof Int32Array)) throw wrongType(`${name}.labels`, labels, 'an Int32Array');
  if (labels.length !== map.width * map.height)
    throw outOfRange(`${name}.labels`, labels, `${map.width * map.height} labels`);
  if (!Array.isArray(regions)) throw wrongType(`${name}.regions`, regions, 'an array of regions');
  regions.forEach((region: unknown, i) => {
    expectObject(`${name}.regions[${i}]`, region);
    expectInteger(`${name}.regions[${i}].band`, regions[i].band, 0, map.bands - 1);
  });
}

/** Refuses a plane of another size than the masses. */
export function expectFitting(name: string, plane: unknown, { map }: Masses): void {
  expectRaster(name, plane, 1);
  const { width, height } = plane as Lightness;
  if (width !== map.width || height !== map.height)
    throw outOfRange(
      name,
      `${width} x ${height}`,
      `the size of the masses, ${map.width} x ${map.height}`,
    );
}

/** Refuses targets that are not one L* a band, ascending. */
export function expectTargets(name: string, targets: unknown, bands: number): void {
  if (!Array.isArray(targets)) throw wrongType(name, targets, 'an array of L*, one a band');
  if (targets.length !== bands) throw outOfRange(name, targets, `${bands} L*, one a band`);
  targets.forEach((target: unknown, i) => {
    expectNumber(`${name}[${i}]`, target, 0, 100);
    if (i > 0 && !(targets[i] > targets[i - 1])) throw outOfRange(name, targets, 'ascending L*');
  });
}

/** The band each code is painted in: the one whose target is nearest; halfway between two it is the darker. */
export function paintedBands(targets: readonly number[]): Uint8Array {
  let band = 0;
  return Uint8Array.from({ length: 256 }, (_, code) => {
    const lightness = lightnessOfCode(code);
    while (band + 1 < targets.length && lightness > (targets[band] + targets[band + 1]) / 2) band++;
    return band;
  });
}

/**
 * Which regions are still to come: 1 while a step that names them lies ahead.
 * @throws TypeError, RangeError naming the argument
 */
export function stillToCome({ upToStep, order }: Progressed, regions: number): Uint8Array {
  const ahead = new Uint8Array(regions);
  if (upToStep === undefined) return ahead;
  const done = expectInteger('options.upToStep', upToStep, -1, 2 ** 31);
  if (!Array.isArray(order))
    throw wrongType('options.order', order, 'the steps that options.upToStep counts');
  order.forEach((step: Step, i) => {
    expectObject(`options.order[${i}]`, step);
    if (i <= done) return;
    for (const region of step.regions ?? []) if (region >= 0 && region < regions) ahead[region] = 1;
  });
  return ahead;
}

/**
 * How deep each pixel lies in its region, in pixels by the chessboard distance: 1 beside a pixel of another region (corners
 * count) or the picture's border; no more than `most` (1..255) is told.
 */
export function* depthsKernel({ map, labels }: Masses, most: number): Kernel<Uint8Array> {
  const { width, height } = map;
  const depth = new Uint8Array(width * height);
  const right = width - 1;
  for (const done of byRows(height, width, (from, to) => {
    for (let y = from; y < to; y++)
      for (let x = 0, k = y * width; x < width; x++, k++) {
        if (y === 0 || x === 0 || x === right) {
          depth[k] = 1;
          continue;
        }
        const label = labels[k];
        const up = k - width;
        let least = most - 1;
        if (
          labels[k - 1] !== label ||
          labels[up - 1] !== label ||
          labels[up] !== label ||
          labels[up + 1] !== label
        )
          least = 0;
        else {
          if (depth[k - 1] < least) least = depth[k - 1];
          if (depth[up - 1] < least) least = depth[up - 1];
          if (depth[up] < least) least = depth[up];
          if (depth[up + 1] < least) least = depth[up + 1];
        }
        depth[k] = least + 1;
      }
  }))
    yield done / 2;
  for (const done of byRows(height, width, (from, to) => {
    for (let y = height - 1 - from; y >= height - to; y--)
      for (let x = right, k = y * width + right; x >= 0; x--, k--) {
        if (depth[k] === 1) continue;
        if (y === height - 1 || x === 0 || x === right) {
          depth[k] = 1;
          continue;
        }
        const label = labels[k];
        const down = k + width;
        let least = depth[k] - 1;
        if (
          labels[k + 1] !== label ||
          labels[down - 1] !== label ||
          labels[down] !== label ||
          labels[down + 1] !== label
        )
          least = 0;
        else {
          if (depth[k + 1] < least) least = depth[k + 1];
          if (depth[down - 1] < least) least = depth[down - 1];
          if (depth[down] < least) least = depth[down];
          if (depth[down + 1] < least) least = depth[down + 1];
        }
        depth[k] = least + 1;
      }
  }))
    yield (1 + done) / 2;
  return depth;
}

/** The depth up to which {@link regionTonesKernel} needs to know. */
export function depthFor(margin: number): number {
  return Math.min(255, 2 * margin + 1);
}

/** What a region is in a picture. */
export interface RegionTone {
  /** L* of the median of its inner pixels. */
  middle: number;
  /** L* between the quartiles of its inner pixels. */
  spread: number;
  /** Pixels of the whole region. */
  area: number;
  /** Depth of its deepest pixel, as far as depths are known. */
  deepest: number;
}

/**
 * The robust middle of each region: the median of the pixels that lie deeper than half as deep as its deepest, or than `margin`
 * pixels where that is less (`depths`, where they are known already, go at least to {@link depthFor} it). So a border that is soft, or a pixel or two off, does not count.
 */
export function* regionTonesKernel(
  masses: Masses,
  plane: Lightness,
  margin: number,
  depths?: Uint8Array,
): Kernel<RegionTone[]> {
  const { labels, regions, map } = masses;
  const { width, height } = map;
  const depth = depths ?? (yield* depthsKernel(masses, depthFor(margin)));
  const deepest = new Uint8Array(regions.length);
  const area = new Float64Array(regions.length);
  yield* byRows(height, width, (from, to) => {
    for (let k = from * width; k < to * width; k++) {
      const label = labels[k];
      if (!(label >= 0 && label < regions.length))
        throw outOfRange('masses.labels', label, `a region, 0 to ${regions.length - 1}`);
      area[label]++;
      if (depth[k] > deepest[label]) deepest[label] = depth[k];
    }
  });
  const least = deepest.map((deep) => Math.min(margin, deep >> 1));
  const counts = new Uint32Array(256 * regions.length);
  yield* byRows(height, width, (from, to) => {
    for (let k = from * width; k < to * width; k++) {
      const label = labels[k];
      if (depth[k] > least[label]) counts[256 * label + plane.data[k]]++;
    }
  });
  return regions.map((_, i) => ({
    ...middleOf(counts, 256 * i),
    area: area[i],
    deepest: deepest[i],
  }));
}

function middleOf(counts: Uint32Array, from: number): { middle: number; spread: number } {
  let all = 0;
  for (let code = 0; code < 256; code++) all += counts[from + code];
  if (all === 0) return { middle: NaN, spread: NaN };
  const low = quantile(counts, from, all / 4);
  const high = quantile(counts, from, (3 * all) / 4);
  return {
    middle: lightnessOfCode(quantile(counts, from, all / 2)),
    spread: lightnessOfCode(Math.max(0, high - low)),
  };
}

/** The code below which `below` of the pixels lie; halfway to the next when the count ends just there. */
function quantile(counts: Uint32Array, from: number, below: number): number {
  let sum = 0;
  for (let code = 0; code < 256; code++) {
    sum += counts[from + code];
    if (sum > below) return code;
    if (sum === below) {
      let next = code + 1;
      while (next < 255 && counts[from + next] === 0) next++;
      return counts[from + next] === 0 ? code : (code + next) / 2;
    }
  }
  return 255;
}
