import { directionKernel, strokesKernel, type Strokes } from '../stroke/index.js';
import type { MassesInput } from './mass-inputs.js';
import { sliced } from './slices.js';
import type { Handlers, Workshop } from './workshop.js';

/** The job about strokes. */
export interface StrokeJobs {
  /** Arrows along the form over those masses, in pixels of their plane of that width and height. */
  strokes: { in: MassesInput; out: Strokes & { width: number; height: number } };
}

export function strokeHandlers(workshop: Workshop): Handlers<StrokeJobs> {
  return {
    strokes: async (input, watch) => {
      const { tree, masses, overrules, pxPerMm } = await workshop.masses(input, watch);
      const brushPx = input.brushMm * pxPerMm;
      const options = { scalePx: brushPx, masses };
      const field = await sliced(directionKernel(tree.plane, options), watch, 'strokes');
      const kernel = strokesKernel(masses, field, { brushPx, overrules });
      const strokes = await sliced(kernel, watch, 'strokes');
      return { ...strokes, width: tree.plane.width, height: tree.plane.height };
    },
  };
}
