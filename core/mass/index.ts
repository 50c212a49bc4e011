/** Brush-sized masses, their marks, outlines, edges and reserves. */
export type * from './types.js';
export {
  OUTLINE_TOLERANCE_PX,
  outlinesKernel,
  outlinesOf,
  pathOf,
  type OutlineOptions,
} from './outlines.js';
export { outlinesSvg, outlinesSvgKernel, type OutlinesSvgOptions } from './outlines-svg.js';
export {
  massesFromTree,
  massesFromTreeKernel,
  massesKernel,
  massesOf,
  massTreeKernel,
  type MassTree,
} from './masses.js';
export { reservesKernel, reservesOf, type ReserveOptions } from './reserves.js';
export {
  edgesKernel,
  edgesOf,
  edgesWithOverrules,
  LOST_BELOW,
  SOFT_ABOVE_MM,
  softAbovePx,
  type EdgeOptions,
  type Unmet,
} from './edges.js';
export {
  backgroundBand,
  backgroundContrast,
  backgroundKernel,
  shareInside,
  withBackground,
  type Background,
  type BackgroundContrast,
  type BackgroundMasses,
  type BackgroundOptions,
} from './background.js';
export {
  reserveAdvice,
  type KeptLight,
  type ReserveAdvice,
  type ReserveAdviceOptions,
} from './reserve-advice.js';
export {
  passagesKernel,
  passagesOf,
  type Passage,
  type PassageBorder,
  type PassageOptions,
  type Passages,
} from './passages.js';
export {
  accentsKernel,
  accentsOf,
  type Accent,
  type AccentOptions,
  type AccentsFound,
  type HuePlace,
} from './accents.js';
