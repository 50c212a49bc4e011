/**
 * The file that a page includes: every element defined under its usual tag, the worker inside, and the viewer's desk at hand. What comes
 * later lies beside it, in `later/` and in the worker's parts.
 */
import { defineAll } from './define-all.js';
import './shared/photo-in-plan.js';
import './value-band-viewer/bringing.js';
import './value-band-viewer/desk.js';
import '../core/worker/client.js';

export * from './index.js';

defineAll();
