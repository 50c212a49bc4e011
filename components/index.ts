/** The package's `tonewell`: every class, nothing registered. */
export { PaintingPlan } from './painting-plan/painting-plan.js';
export { ValueBandViewer } from './value-band-viewer/value-band-viewer.js';
export { SwatchBucketBoard } from './swatch-bucket-board/swatch-bucket-board.js';
export type { SwatchFormat } from './swatch-bucket-board/exchange-types.js';
export { MixingWell } from './mixing-well/mixing-well.js';
export { LightnessPicker } from './lightness-picker/lightness-picker.js';
export { SwatchSheetReader } from './swatch-sheet-reader/swatch-sheet-reader.js';
export { PaintingCheck } from './painting-check/painting-check.js';
export { PlanSheet } from './plan-sheet/plan-sheet.js';
export { defineAll, elements } from './define-all.js';
export { PlanStore, StorePlanEvent, type PictureState } from './shared/plan-store.js';
export {
  configureCore,
  sharedCore,
  startCore,
  type Core,
  type CoreMode,
  type CoreOptions,
  type PictureHandle,
} from './shared/core.js';
export { planLayers, type PlanLayer, type PlanLayersOptions } from './host/plan-layers.js';
export { setWords, type Words } from './shared/strings.js';
export * from './shared/events/index.js';
