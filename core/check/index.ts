/**
 * The painting against the plan: brought upright, in its paper's white, laid on the plan, compared, advised on. Lightness is L* (0..100).
 *
 * Reason codes, with their figures (percentages and L* are numbers as they are shown):
 *
 * In short (`summaryOf`): `check.as-planned` { agreement }, `check.differs` { agreement, masses }, `check.far-off` { agreement, masses },
 * `check.nothing-yet`, `check.lost-reserves` { count }, `check.islands` { count, now, later }, `check.reads` { similarity },
 * `check.reads-nearly` { similarity }, `check.reads-not` { similarity }
 *
 * The photo (`matchOf`, `paperWhite`, job `check`): `check.mirrored` { straight, mirrored }, `check.upside-down` { straight, turned },
 * `check.other-painting` { correlation }, `check.too-early`, `check.no-margin` { percent }, `check.white-uneven` { percent },
 * `check.shadow` { percent, dark }, `check.white-clipped` { percent }, `check.white-dark` { percent }, `check.no-white` (nothing told
 * what is white: tones are the camera's), `check.cut-off` { percent }, `check.glare` { percent }, `check.shadow-on-painting` { percent, dark },
 * `check.blur` { width } (pixels of the plan)
 *
 * Advice (`adviceOn`): `check.small-step` { shift }, `check.too-light` { shift, area }, `check.too-dark` { shift, area },
 * `check.accent` { shift }, `check.accent-opaque` { shift }, `check.reserve-lost` { shift }, `check.glaze` { to, strength },
 * `check.glaze-short` { short }, `check.glaze-unknown`, `check.glaze-opaque` { tube }, `check.re-wets` { tube }, `check.no-shelf`,
 * `check.layers` { layers }, `check.lift` { percent, staining }, `check.lift-short` { short }, `check.lift-unknown`,
 * `check.cannot-lift` { short, area }, `check.in-shadow` { shift }
 *
 * Islands (`islandsOf`): `check.island-lighter` { shift }, `check.island-darker` { shift }, `check.glaze-after` { steps }
 *
 * Passages (`passageFindings`): `check.passage-lean` { passage, deltaE, hue, painted }, `check.passage-greyer` { passage, deltaE, chroma,
 * painted }, `check.passage-purer` { passage, deltaE, chroma, painted }, `check.passage-vanished` { first, second, deltaE, planned }
 *
 * Edges (`edgeFindings`): `check.edge-too-hard` { width }, `check.edge-too-soft` { width } (pixels)
 *
 * Errors of the jobs: `CornersUnusable` (crossed, on one line, dented, far outside the photo).
 */
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
  READS_FROM_AFAR,
  structuralSimilarity,
  structuralSimilarityKernel,
  type AfarOptions,
  type FromAfar,
} from './similarity.js';
export { alignToPlan, alignToPlanKernel, type AlignOptions, type Alignment } from './align.js';
export { checkDrawing, type Displacement, type DrawingCheck, type Landmark } from './drawing.js';
export { islandsKernel, islandsOf, type Island, type IslandOptions } from './islands.js';
export { matchOf, type PictureLie, type PaintingMatch } from './match.js';
export {
  whiteBalanced,
  whiteBalancedKernel,
  paperWhite,
  type PaperPlace,
  type PaperWhite,
} from './white.js';
export {
  adviceKernel,
  adviceOn,
  LEAVE_UNDER,
  LIFTS,
  MANY_LAYERS,
  type CheckAction,
  type Advice,
  type AdviceOptions,
} from './advice.js';
export { edgeFindings, type EdgeFinding } from './edges.js';
export {
  LEAN_SHOWS,
  passageFindings,
  passageFindingsKernel,
  type PassageFinding,
  type PlannedPassages,
} from './passages.js';
export { summaryOf } from './report.js';
export { picturesBeside, picturesBesideKernel, type BesideOptions } from './beside.js';
export { paintedPartOf, type PaintedPart } from './place.js';
