import { expectInteger, expectObject, wrongType } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import type { Lightness } from '../base/types.js';
import {
  depthFor,
  depthsKernel,
  expectFitting,
  expectMasses,
  expectTargets,
  regionTonesKernel,
  stillToCome,
  paintedBands,
} from './regions.js';
import type { Comparison, Correction, PlannedPainting, CompareOptions } from './types.js';

/** The least shift that is told as a correction, L*: about what a photo of paper can tell and an eye sees. No source. */
export const LEAST_SHIFT = 1;

/**
 * How much darker than the lightest target a reserve must be to count as painted over, L*: what a pale wash takes away. Common
 * practice, no source. Where the next target is nearer than twice that, half the way to it counts.
 */
export const LOST_RESERVE = 8;

/** Depth from which pixels count for a region's middle: this share of the picture's longer side, at least 2 pixels. */
export const BORDER_SHARE = 0.01;

/**
 * Cohen's kappa of a table of counts (rows one judge, columns the other; square): (po - pe) / (1 - pe), po the share on the
 * diagonal, pe what chance would put there (Cohen 1960, "A coefficient of agreement for nominal scales"). Where chance
 * alone would agree fully (both use one and the same category), it is 1. An empty table gives 1.
 *
 * @param counts square, finite, 0 or more
 * @throws TypeError, RangeError naming the argument
 */
export function kappaOf(counts: readonly (readonly number[])[]): number {
  if (!Array.isArray(counts)) throw wrongType('counts', counts, 'a square table of counts');
  const size = counts.length;
  const all = counts.flat().reduce((sum, count) => sum + count, 0);
  if (counts.some((row) => row.length !== size) || !Number.isFinite(all))
    throw wrongType('counts', counts, 'a square table of counts');
  if (all === 0) return 1;
  let diagonal = 0;
  let chance = 0;
  for (let i = 0; i < size; i++) {
    const row = counts[i].reduce((sum: number, count: number) => sum + count, 0);
    const column = counts.reduce((sum: number, line: readonly number[]) => sum + line[i], 0);
    diagonal += counts[i][i] / all;
    chance += (row / all) * (column / all);
  }
  return chance >= 1 ? 1 : (diagonal - chance) / (1 - chance);
}

/**
 * A painting against its plan, or against what the plan should have come to after a step.
 *
 * A pixel is painted in the band whose target is nearest to its lightness. Agreement and kappa are taken over the pixels
 * of all regions that are not to come. A correction is told for a region whose middle (the median of its inner pixels) is
 * {@link LEAST_SHIFT} or more from its band's target. A reserve is lost when its middle is {@link LOST_RESERVE}
 * darker than the lightest target, whether its step is to come or not: what is painted over does not come back by itself.
 *
 * @param plan masses, and L* of each band when dry
 * @param painting lightness of the painting, upright, filled and of the size of the masses (`rectify`, `lightnessPlane`)
 * @param options how far the work has come; finished when absent
 * @throws TypeError, RangeError naming the argument, a painting of another size too
 */
export function comparePainting(
  plan: PlannedPainting,
  painting: Lightness,
  options: CompareOptions = {},
): Comparison {
  return finish(comparePaintingKernel(plan, painting, options));
}

/** {@link comparePainting} in slices; `depths` as `depthsKernel` gives them, where they are known already. */
export function* comparePaintingKernel(
  plan: PlannedPainting,
  painting: Lightness,
  options: CompareOptions = {},
  depths?: Uint8Array,
): Kernel<Comparison> {
  expectObject('plan', plan);
  const { masses, targets } = plan;
  expectMasses('plan.masses', masses);
  const { map, labels, regions } = masses;
  expectTargets('plan.targets', targets, map.bands);
  expectFitting('painting', painting, masses);
  expectObject('options', options);
  const ahead = stillToCome(options, regions.length);
  const reserves = reservesOfPlan(plan);

  const { width, height } = painting;
  const margin = borderMargin(width, height);
  const slack = expectInteger('options.slackPx', options.slackPx ?? 0, 0, 120);
  const depth = depths ?? (yield* depthsKernel(masses, depthFor(Math.max(margin, slack))));
  const tones = yield* regionTonesKernel(masses, painting, margin, depth);
  const border = Uint8Array.from(tones, ({ deepest }) => Math.min(slack, deepest >> 1));
  const bandOf = paintedBands(targets);

  const { bands } = map;
  const { data } = painting;
  const planned = Uint8Array.from(regions, ({ band }) => band);
  const table = new Float64Array(bands * bands);
  yield* byRows(height, width, (from, to) => {
    for (let k = from * width; k < to * width; k++) {
      const label = labels[k];
      if (ahead[label] === 0 && depth[k] > border[label])
        table[planned[label] * bands + bandOf[data[k]]]++;
    }
  });
  const rows = Array.from({ length: bands }, (_, i) => [
    ...table.subarray(i * bands, (i + 1) * bands),
  ]);
  const compared = table.reduce((sum, count) => sum + count, 0);
  const right = rows.reduce((sum, row, i) => sum + row[i], 0);

  const corrections: Correction[] = [];
  const toCome: number[] = [];
  const lostReserves: number[] = [];
  const lost = lostBelow(targets);
  tones.forEach(({ middle, area }, region) => {
    if (reserves.has(region) && middle < lost) lostReserves.push(region);
    if (ahead[region] === 1) {
      toCome.push(region);
      return;
    }
    const shift = targets[regions[region].band] - middle;
    if (Math.abs(shift) >= LEAST_SHIFT)
      corrections.push({ region, shift, area, effect: Math.abs(shift) * area });
  });
  corrections.sort((a, b) => b.effect - a.effect || a.region - b.region);
  return {
    agreement: compared === 0 ? 1 : right / compared,
    kappa: kappaOf(rows),
    corrections,
    toCome,
    lostReserves,
    compared,
  };
}

/** Pixels beside a region's border that do not count for its middle. */
export function borderMargin(width: number, height: number): number {
  return Math.min(120, Math.max(2, Math.round(BORDER_SHARE * Math.max(width, height))));
}

/** A reserve darker than this L* was painted over. */
export function lostBelow(targets: readonly number[]): number {
  const top = targets[targets.length - 1];
  const gap = targets.length > 1 ? (top - targets[targets.length - 2]) / 2 : Infinity;
  return top - Math.min(LOST_RESERVE, gap);
}

/** The regions that are to stay paper. */
export function reservesOfPlan({ masses, reserves }: PlannedPainting): Set<number> {
  const { regions, map } = masses;
  if (reserves === undefined)
    return new Set(regions.flatMap(({ band }, i) => (band === map.bands - 1 ? [i] : [])));
  if (!Array.isArray(reserves)) throw wrongType('plan.reserves', reserves, 'an array of regions');
  reserves.forEach((region: unknown, i) =>
    expectInteger(`plan.reserves[${i}]`, region, 0, Math.max(0, regions.length - 1)),
  );
  return new Set(reserves);
}
