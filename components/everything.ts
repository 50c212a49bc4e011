/** The single-file build: every class, every element defined under its usual tag. */
import { defineAll } from './define-all.js';

export * from './index.js';

defineAll();
