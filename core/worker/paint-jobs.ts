import {
  completeBucketKernel,
  fitTube,
  findMixesKernel,
  mixFamilyKernel,
  shelfRangeKernel,
  whyOutOfReach,
  type Bucket,
  type CompleteOptions,
  type Completion,
  type FamilyOptions,
  type FoundMix,
  type Mix,
  type MixOptions,
  type MixTarget,
  type ShelfOptions,
  type ShelfRange,
  type TintReading,
  type TubeFit,
} from '../paint/index.js';
import type { Reason } from '../base/reason.js';
import { sliced } from './slices.js';
import type { Handlers } from './workshop.js';

/** Jobs about mixes and families. */
export interface PaintJobs {
  /** Mixes for a colour or a lightness, best first, and why the nearest does not come close (empty when it does). Needs no picture. */
  mixes: {
    in: { target: MixTarget; options: MixOptions & { spread?: number } };
    out: { mixes: FoundMix[]; why: Reason[] };
  };
  /** Mixes of equal value whose leans are as far apart as the shelf allows. Needs no picture. */
  family: { in: FamilyOptions; out: Mix[] };
  /** The leans a bucket lacks, and mixes for them. Needs no picture. */
  complete: { in: { bucket: Bucket; tubes: string[]; options?: CompleteOptions }; out: Completion };
  /** How strong the painter's own tube is, from dabs of it alone. Needs no picture. */
  fit: { in: { tube: string; readings: TintReading[]; paper?: Float64Array }; out: TubeFit };
  /** What a shelf reaches: its darkest mix and the palest wash that tells from the paper. Needs no picture. */
  shelf: { in: { tubes: string[]; options?: ShelfOptions }; out: ShelfRange };
}

export function paintHandlers(): Handlers<PaintJobs> {
  return {
    mixes: async ({ target, options }, watch) => {
      const mixes = await sliced(findMixesKernel(target, options), watch, 'mixes');
      const { spread } = options;
      return {
        mixes,
        why: whyOutOfReach(target, mixes[0], spread === undefined ? {} : { spread }),
      };
    },

    family: async (options, watch) => sliced(mixFamilyKernel(options), watch, 'family'),

    complete: async ({ bucket, tubes, options }, watch) =>
      sliced(completeBucketKernel(bucket, tubes, options), watch, 'complete'),

    fit: async ({ tube, readings, paper }) => fitTube(tube, readings, { paper }),

    shelf: async ({ tubes, options }, watch) =>
      sliced(shelfRangeKernel(tubes, options), watch, 'shelf'),
  };
}
