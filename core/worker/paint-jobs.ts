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
import { accentsKernel, passagesKernel, type Accent, type Passages } from '../mass/index.js';
import { massesFor, type MassesInput } from './mass-jobs.js';
import { passageLinesKernel, type PassageLines } from './mass-lines.js';
import { sliced } from './slices.js';
import type { Handlers, Workshop } from './workshop.js';

/** Jobs about mixes, families, passages. */
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
  /** The masses' passages, and their borders as they are drawn; pixels are of the working copy of the crop. */
  passages: { in: MassesInput; out: Passages & { lines: PassageLines } };
  /** Accents, in the pixels of the masses. */
  accents: { in: MassesInput; out: Accent[] };
  /** How strong the painter's own tube is, from dabs of it alone. Needs no picture. */
  fit: { in: { tube: string; readings: TintReading[]; paper?: Float64Array }; out: TubeFit };
  /** What a shelf reaches: its darkest mix and the palest wash that tells from the paper. Needs no picture. */
  shelf: { in: { tubes: string[]; options?: ShelfOptions }; out: ShelfRange };
}

export function paintHandlers(workshop: Workshop): Handlers<PaintJobs> {
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

    passages: async (input, watch) => {
      const { masses, overrules, pxPerMm } = await massesFor(input, workshop, watch);
      const { pixels } = await workshop.working(input, watch);
      const brushPx = input.brushMm * pxPerMm;
      const kernel = passagesKernel(pixels, masses, { brushPx, overrules });
      const passages = await sliced(kernel, watch, 'passages');
      const lines = await sliced(passageLinesKernel(masses, passages, brushPx), watch, 'passages');
      return { ...passages, lines };
    },

    accents: async (input, watch) => {
      const { masses, pxPerMm } = await massesFor(input, workshop, watch);
      const { pixels } = await workshop.working(input, watch);
      const options = { thresholds: input.thresholds, brushPx: input.brushMm * pxPerMm };
      return sliced(accentsKernel(pixels, masses, options), watch, 'accents');
    },

    fit: async ({ tube, readings, paper }) => fitTube(tube, readings, { paper }),

    shelf: async ({ tubes, options }, watch) =>
      sliced(shelfRangeKernel(tubes, options), watch, 'shelf'),
  };
}
