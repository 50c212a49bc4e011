import { expectInteger, expectNumber, expectObject, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import type { Lab } from '../base/types.js';
import { expectLab, lchOf, leanOf, NEUTRAL_CHROMA, type LeanName } from '../colour/index.js';
import { apart, leansKernel, mixOfCandidate, TOLERANCE, type Candidate } from './family.js';
import { expectGround, expectLoads, type Loads } from './mix.js';
import { expectMaxStrength, expectShelf } from './search.js';
import type { Mix } from './types.js';

/** A bucket of a board, as far as its leans matter. */
export interface Bucket {
  /** Where the bucket is meant to lie, L*. */
  floor: number;
  ceiling: number;
  /** Swatches without `lab` count for nothing but their lightness; accents for nothing at all. */
  swatches: { lightness: number; lab?: Lab; accent?: boolean }[];
}

export interface CompleteOptions {
  /** The most mixes that are proposed, 1..12; 3 when absent. */
  count?: number;
  /** A lean is missing where no swatch lies within this many degrees of it, 5..180; 40 when absent. */
  gap?: number;
  /** The greatest chroma of a proposed mix; 20 when absent. */
  maxChroma?: number;
  /** How far the L* of a mix may be off when the shelf reaches no nearer; 0.5 when absent. */
  tolerance?: number;
  /** How far the painter's own dabs of one recipe lie apart in L*, once known; it widens the tolerance. */
  spread?: number;
  maxStrength?: number;
  /** How strong the painter's own tubes are, by id (0.05..20, 1 when absent). */
  loads?: Loads;
  /** Reflectance of the paper, 36 bands; that of L* 95 when absent. */
  paper?: Float64Array;
}

/** What a bucket lacks. */
export interface Completion {
  /** The lightness L* that is filled up: the median of the swatches, else the middle of the bucket. */
  lightness: number;
  /** Leans of the swatches: CIELAB hue in degrees, and its name. Neutral ones are left out. */
  present: { hue: number; lean: LeanName }[];
  /** The leans that are missing and that the shelf has, greatest gap first. `gap`: degrees to the nearest lean there is. */
  missing: { hue: number; lean: LeanName; gap: number; mix: Mix }[];
  /** The middles of the gaps that stay, degrees: the shelf has no mix of such a lean at this lightness. */
  beyond: { hue: number; lean: LeanName; gap: number }[];
}

const median = (numbers: number[]): number => {
  const sorted = [...numbers].sort((p, q) => p - q);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
};

/** A lean's name, told from its hue. */
const nameOf = (hue: number): LeanName => {
  const angle = (hue * Math.PI) / 180;
  return leanOf([50, 20 * Math.cos(angle), 20 * Math.sin(angle)]).name;
};

/** The middles of the gaps between hues that are wider than twice `gap`. */
function gapsOf(hues: number[], gap: number): { hue: number; lean: LeanName; gap: number }[] {
  if (hues.length === 0) return [];
  const sorted = [...hues].sort((p, q) => p - q);
  return sorted
    .map((hue, i) => {
      const next = i + 1 < sorted.length ? sorted[i + 1] : sorted[0] + 360;
      const middle = ((hue + next) / 2) % 360;
      return { hue: middle, lean: nameOf(middle), gap: (next - hue) / 2 };
    })
    .filter((each) => each.gap > gap)
    .sort((p, q) => q.gap - p.gap);
}

/** {@link completeBucket} in slices. */
export function* completeBucketKernel(
  bucket: Bucket,
  tubes: string[],
  options: CompleteOptions = {},
): Kernel<Completion> {
  const given = expectObject('bucket', bucket);
  const floor = expectNumber('bucket.floor', given.floor, 0, 100);
  const ceiling = expectNumber('bucket.ceiling', given.ceiling, floor, 100);
  if (!Array.isArray(given.swatches))
    throw wrongType('bucket.swatches', given.swatches, 'an array of swatches');
  const swatches = (given.swatches as Bucket['swatches']).filter((swatch, i) => {
    expectObject(`bucket.swatches[${i}]`, swatch);
    expectNumber(`bucket.swatches[${i}].lightness`, swatch.lightness, 0, 100);
    if (swatch.lab !== undefined) expectLab(`bucket.swatches[${i}].lab`, swatch.lab);
    return swatch.accent !== true;
  });
  const chosen = expectObject('options', options) as CompleteOptions;
  const loads = expectLoads('options.loads', chosen.loads);
  const shelf = expectShelf('tubes', tubes, loads);
  const count = expectInteger('options.count', chosen.count ?? 3, 1, 12);
  const gap = expectNumber('options.gap', chosen.gap ?? 40, 5, 180);
  const maxChroma = expectNumber('options.maxChroma', chosen.maxChroma ?? 20, NEUTRAL_CHROMA, 200);
  const tolerance = Math.max(
    expectNumber('options.tolerance', chosen.tolerance ?? TOLERANCE, 1e-3, 20),
    expectNumber('options.spread', chosen.spread ?? 0, 0, 20),
  );
  const maxStrength = expectMaxStrength('options.maxStrength', chosen.maxStrength);
  const { paper } = expectGround({ paper: chosen.paper });

  const lightness =
    swatches.length > 0
      ? median(swatches.map((swatch) => swatch.lightness))
      : (floor + ceiling) / 2;
  const present = swatches
    .filter((swatch) => swatch.lab !== undefined && lchOf(swatch.lab).C >= NEUTRAL_CHROMA)
    .map((swatch) => ({ hue: lchOf(swatch.lab!).h, lean: leanOf(swatch.lab!).name }));
  const about = {
    lightness,
    tolerance,
    leastChroma: NEUTRAL_CHROMA,
    maxChroma,
    maxStrength,
    loads,
    paper,
  };
  const leans = yield* leansKernel(shelf, about);
  const hues = present.map((each) => each.hue);
  const missing: Completion['missing'] = [];
  while (missing.length < count && leans.length > 0) {
    let best: Candidate | undefined;
    let far = -1;
    for (const candidate of leans) {
      // With nothing there yet, the simplest mix makes the beginning.
      const least =
        hues.length === 0
          ? 180 - candidate.trouble / 1e4
          : Math.min(...hues.map((hue) => apart(hue, candidate.hue)));
      if (least > far) [best, far] = [candidate, least];
    }
    if (!best || far < gap) break;
    missing.push({
      hue: best.hue,
      lean: nameOf(best.hue),
      gap: Math.min(180, far),
      mix: mixOfCandidate(shelf, best, about),
    });
    hues.push(best.hue);
  }
  return {
    lightness,
    present,
    missing,
    beyond: missing.length < count ? gapsOf(hues, gap) : [],
  };
}

/**
 * Which leans a bucket lacks, and mixes of the shelf that fill them.
 *
 * A lean is missing where no swatch's hue lies near. Mixes are taken one after the other, each as far in hue from all that is there as
 * the shelf allows, until the count is reached or nothing is `gap` degrees away. They have the lightness of the bucket's swatches (their
 * median) on the paper, so that they belong beside them.
 *
 * @throws {TypeError | RangeError} for no bucket, no tubes, unknown tubes, options out of range.
 */
export function completeBucket(
  bucket: Bucket,
  tubes: string[],
  options: CompleteOptions = {},
): Completion {
  return finish(completeBucketKernel(bucket, tubes, options));
}
