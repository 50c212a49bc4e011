/** A part of the worker, self-contained as it is: checking a painting. */
import { checkHandlers } from './check-jobs.js';
import type { Part } from './parts.js';

export const handlers: Part<'check'>['handlers'] = checkHandlers;
