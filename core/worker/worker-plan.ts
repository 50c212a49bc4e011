/** A part of the worker, self-contained as it is: passages, strokes, the order of work, the rehearsal, printed pages. */
import { pageHandlers } from './page-jobs.js';
import { passageHandlers } from './passage-jobs.js';
import { rehearsalHandlers } from './rehearsal-jobs.js';
import { strokeHandlers } from './stroke-jobs.js';
import type { Part } from './parts.js';

export const handlers: Part<'plan'>['handlers'] = (workshop) => ({
  ...passageHandlers(workshop),
  ...strokeHandlers(workshop),
  ...rehearsalHandlers(workshop),
  ...pageHandlers(workshop),
});
