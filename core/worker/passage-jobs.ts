import { accentsKernel, passagesKernel, type AccentsFound, type Passages } from '../mass/index.js';
import type { MassesFound, MassesInput } from './mass-inputs.js';
import { passageLinesKernel, type PassageLines } from './mass-lines.js';
import { sliced, type Watch } from './slices.js';
import type { Handlers, Workshop } from './workshop.js';

/** Jobs about colours inside masses. */
export interface PassageJobs {
  /** The masses' passages, and their borders as they are drawn; pixels are of the working copy of the crop. */
  passages: { in: MassesInput; out: Passages & { lines: PassageLines } };
  /** Accents and the places that carry hues, in the pixels of the masses. */
  accents: { in: MassesInput; out: AccentsFound };
}

export function passageHandlers(workshop: Workshop): Handlers<PassageJobs> {
  return {
    passages: async (input, watch) => {
      const { masses, overrules, pxPerMm } = await workshop.masses(input, watch);
      const { pixels } = await workshop.working(input, watch);
      const brushPx = input.brushMm * pxPerMm;
      const kernel = passagesKernel(pixels, masses, { brushPx, overrules });
      const passages = await sliced(kernel, watch, 'passages');
      const lines = await sliced(passageLinesKernel(masses, passages, brushPx), watch, 'passages');
      return { ...passages, lines };
    },

    accents: async (input, watch) =>
      accentsFor(input, await workshop.masses(input, watch), workshop, watch),
  };
}

/** The accents of a picture under an input's limits and brush. */
export async function accentsFor(
  input: MassesInput,
  { masses, pxPerMm }: MassesFound,
  workshop: Workshop,
  watch: Watch,
): Promise<AccentsFound> {
  const { pixels } = await workshop.working(input, watch);
  const options = { thresholds: input.thresholds, brushPx: input.brushMm * pxPerMm };
  return sliced(accentsKernel(pixels, masses, options), watch, 'accents');
}
