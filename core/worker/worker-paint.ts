/** A part of the worker, self-contained as it is: mixes and test sheets. */
import { paintHandlers } from './paint-jobs.js';
import { sheetHandlers } from './sheet-jobs.js';
import type { Part } from './parts.js';

export const handlers: Part<'paint'>['handlers'] = (workshop) => ({
  ...paintHandlers(),
  ...sheetHandlers(workshop),
});
