/** The package's `tonewell/core`: pure functions and types, and the worker core that runs them. */
export * from './index.js';
export { startCore } from './worker/client.js';
export type { Core, CoreMode, CoreOptions, JobOptions, PictureHandle } from './worker/client.js';
