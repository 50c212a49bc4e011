import type { Handlers, Workshop } from './workshop.js';

/** Jobs about mixes, families, passages. */
// eslint-disable-next-line @typescript-eslint/no-empty-object-type
export interface PaintJobs {}

export function paintHandlers(_workshop: Workshop): Handlers<PaintJobs> {
  return {};
}
