import type { Service } from './service.js';

/**
 * The whole core as one function, in builds of a single file: called in the page it gives the core, and its source text
 * makes the worker. In builds of many files there is none and the worker lies beside the bundle.
 */
export const embeddedCore: (() => { Service: new () => Service; serve(): void }) | undefined =
  undefined;
