import type { Handlers, Workshop } from './workshop.js';

/** Jobs about the painting against the plan. */
// eslint-disable-next-line @typescript-eslint/no-empty-object-type
export interface CheckJobs {}

export function checkHandlers(_workshop: Workshop): Handlers<CheckJobs> {
  return {};
}
