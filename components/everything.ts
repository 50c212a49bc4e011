/** The whole kit in one file with nothing beside it: every class and the core's functions, every element defined under its usual tag. */
import { defineAll } from './define-all.js';

export * from './index.js';
export * from './shared/core.js';

defineAll();
