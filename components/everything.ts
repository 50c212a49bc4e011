/** The single-file build: every class and the core's functions, every element defined under its usual tag. */
import { defineAll } from './define-all.js';

export * from './index.js';
export * from './shared/core.js';

defineAll();
