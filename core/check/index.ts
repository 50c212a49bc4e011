/** The painting against the plan. */
export type * from './types.js';
export {
  comparePainting,
  comparePaintingKernel,
  kappaOf,
  LEAST_SHIFT,
  LOST_RESERVE,
} from './compare.js';
export { cornersOf, rectify, rectifyKernel } from './rectify.js';
