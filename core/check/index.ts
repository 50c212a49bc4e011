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
export { checkDrawing, type Displacement, type DrawingCheck, type Landmark } from './drawing.js';
export { islandsKernel, islandsOf, type Island, type IslandOptions } from './islands.js';
export { matchOf, type Lie, type Match } from './match.js';
export { balanced, balancedKernel, paperWhite, type PaperPlace, type PaperWhite } from './white.js';
export {
  adviceKernel,
  adviceOn,
  LEAVE_UNDER,
  LIFTS,
  MANY_LAYERS,
  type Action,
  type Advice,
  type AdviceOptions,
} from './advice.js';
export { edgeFindings, type EdgeFinding } from './edges.js';
