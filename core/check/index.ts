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
export {
  readsFromAfar,
  readsFromAfarKernel,
  READS,
  structuralSimilarity,
  structuralSimilarityKernel,
  type AfarOptions,
  type FromAfar,
} from './similarity.js';
export { alignToPlan, alignToPlanKernel, type AlignOptions, type Alignment } from './align.js';
