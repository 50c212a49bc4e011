/** The painting against the plan. */
export type * from './types.js';
export { cornersOf, rectify, rectifyKernel } from './rectify.js';
