import { expectNumber, expectObject } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lightness, Spot } from '../base/types.js';
import { lightnessOfCode } from '../units/index.js';
import { medianKernel } from '../value/median.js';
import {
  depthsKernel,
  expectFitting,
  expectMasses,
  expectTargets,
  paintedBands,
  stillToCome,
} from './regions.js';
import type { PlannedPainting, Progressed } from './types.js';

/** A patch inside a mass that was painted in another band. */
export interface Island {
  /** The region it lies in. */
  region: number;
  /** The band it was painted in. */
  band: number;
  /** Its middle, pixel coordinates. */
  at: Spot;
  /** Pixels. */
  area: number;
  /** Its mean L*. */
  lightness: number;
  /**
   * What a unifying glaze over the mass can do: `now` it can be laid, `later` (other steps first), `none`: the island is
   * darker than its mass, and no glaze lightens.
   */
  glaze: 'now' | 'later' | 'none';
  reasons: Reason[];
}

export interface IslandOptions extends Progressed {
  /** Pressed width of the brush, pixels, above 0. */
  brushPx: number;
}

/** Radius of the largest median, pixels: 81 pixels are enough against grain. */
const SMOOTHED = 4;

/** Of a region that is another band in more than this share, the whole is off, and a correction tells it. */
const WHOLE = 0.5;

/**
 * Value islands that are not in the plan: connected patches of another band inside a mass, as big as a brush can state (area at least
 * pi/4 brush^2, and somewhere deeper than a quarter of the brush, so that a border a little off is none). The painting is smoothed by a small median
 * first, so that granulation makes none. Largest first.
 *
 * When a unifying glaze belongs: common practice, no source: after the last step that lays the mass and those beside it, so
 * that neighbours are judged together.
 *
 * Reasons: `check.island-lighter` { shift }, `check.island-darker` { shift } (L* off the target),
 * `check.glaze-after` { steps }: so many steps that touch the mass or its neighbours are still ahead.
 *
 * @throws TypeError, RangeError naming the argument
 */
export function islandsOf(
  plan: PlannedPainting,
  painting: Lightness,
  options: IslandOptions,
): Island[] {
  return finish(islandsKernel(plan, painting, options));
}

/** {@link islandsOf} in slices; `depths` as `depthsKernel` gives them, where they are known already (deeper than a quarter of the brush). */
export function* islandsKernel(
  plan: PlannedPainting,
  painting: Lightness,
  options: IslandOptions,
  depths?: Uint8Array,
): Kernel<Island[]> {
  expectObject('plan', plan);
  const { masses, targets } = plan;
  expectMasses('plan.masses', masses);
  expectTargets('plan.targets', targets, masses.map.bands);
  expectFitting('painting', painting, masses);
  expectObject('options', options);
  const brush = expectNumber('options.brushPx', options.brushPx, Number.MIN_VALUE, 1e6);
  const { labels, regions, map } = masses;
  const { width, height } = map;
  const ahead = stillToCome(options, regions.length);
  const bandOf = paintedBands(targets);
  const planned = Uint8Array.from(regions, ({ band }) => band);
  const radius = Math.min(SMOOTHED, Math.floor(brush / 8));
  const smooth = yield* medianKernel(painting.data, width, height, radius);

  // The painted band plus 1 where it is not the planned one, else 0.
  const off = new Uint8Array(width * height);
  const offArea = new Float64Array(regions.length * map.bands);
  const area = new Float64Array(regions.length);
  yield* byRows(height, width, (from, to) => {
    for (let k = from * width; k < to * width; k++) {
      const label = labels[k];
      area[label]++;
      if (ahead[label] === 1) continue;
      const band = bandOf[smooth[k]];
      if (band === planned[label]) continue;
      off[k] = band + 1;
      offArea[label * map.bands + band]++;
    }
  });
  const deep = Math.min(250, Math.max(1, Math.floor(brush / 4)));
  const depth = depths ?? (yield* depthsKernel(masses, Math.min(255, deep + 2)));
  const least = (Math.PI / 4) * brush * brush;
  const islands: Island[] = [];
  const waiting: number[] = [];
  for (let seed = 0; seed < off.length; seed++) {
    const kind = off[seed];
    if (kind === 0) continue;
    const label = labels[seed];
    let count = 0;
    let sum = 0;
    let sumX = 0;
    let sumY = 0;
    let deepest = 0;
    off[seed] = 0;
    waiting.push(seed);
    while (waiting.length > 0) {
      const k = waiting.pop()!;
      const x = k % width;
      count++;
      sum += painting.data[k];
      sumX += x + 0.5;
      sumY += (k - x) / width + 0.5;
      if (depth[k] > deepest) deepest = depth[k];
      if (x > 0 && off[k - 1] === kind && labels[k - 1] === label) take(k - 1);
      if (x < width - 1 && off[k + 1] === kind && labels[k + 1] === label) take(k + 1);
      if (k >= width && off[k - width] === kind && labels[k - width] === label) take(k - width);
      if (k + width < off.length && off[k + width] === kind && labels[k + width] === label)
        take(k + width);
    }
    if (seed % width === 0) yield seed / off.length;
    const band = kind - 1;
    if (count < least || deepest <= deep) continue;
    if (offArea[label * map.bands + band] > WHOLE * area[label]) continue;
    islands.push(
      islandOf(plan, options, label, band, [sumX / count, sumY / count], count, sum / count),
    );
  }
  return islands.sort((a, b) => b.area - a.area || a.region - b.region);

  function take(k: number): void {
    off[k] = 0;
    waiting.push(k);
  }
}

function islandOf(
  { masses, targets }: PlannedPainting,
  { order, upToStep }: IslandOptions,
  region: number,
  band: number,
  at: Spot,
  area: number,
  code: number,
): Island {
  const { regions } = masses;
  const lightness = lightnessOfCode(code);
  const shift = Math.round(10 * (targets[regions[region].band] - lightness)) / 10;
  if (band < regions[region].band)
    return {
      region,
      band,
      at,
      area,
      lightness,
      glaze: 'none',
      reasons: [reason('check.island-darker', { shift })],
    };
  const near = new Set([region, ...regions[region].neighbours]);
  const steps =
    upToStep === undefined
      ? 0
      : (order ?? []).slice(upToStep + 1).filter((step) => step.regions?.some((id) => near.has(id)))
          .length;
  const reasons = [reason('check.island-lighter', { shift })];
  if (steps > 0) reasons.push(reason('check.glaze-after', { steps }));
  return { region, band, at, area, lightness, glaze: steps > 0 ? 'later' : 'now', reasons };
}
