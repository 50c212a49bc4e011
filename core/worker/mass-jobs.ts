import type { Handlers, Workshop } from './workshop.js';

/** Jobs about masses, their outlines, edges, reserves and strokes. */
// eslint-disable-next-line @typescript-eslint/no-empty-object-type
export interface MassJobs {}

export function massHandlers(_workshop: Workshop): Handlers<MassJobs> {
  return {};
}
