import type { Handlers, Workshop } from './workshop.js';

/** Jobs about test sheets. */
// eslint-disable-next-line @typescript-eslint/no-empty-object-type
export interface SheetJobs {}

export function sheetHandlers(_workshop: Workshop): Handlers<SheetJobs> {
  return {};
}
