/** The core's public face: pure functions and types that run unchanged in Node, a page and a worker. */
export { abortError, CoreError, reason, type Reason } from './base/reason.js';
export type {
  BandMap,
  Corners,
  Crop,
  DistrustedSpot,
  Lab,
  Lightness,
  Loop,
  Overrule,
  Pixels,
  Spot,
  Step,
} from './base/types.js';
export * from './units/index.js';
export * from './colour/index.js';
export * from './geometry/index.js';
export * from './picture/index.js';
export * from './value/index.js';
export * from './mass/index.js';
export * from './stroke/index.js';
export * from './paint/index.js';
export * from './swatch/index.js';
export * from './check/index.js';
export * from './plan/index.js';
export type {
  Display,
  Jobs,
  PictureInfo,
  PictureInput,
  Progress,
  Reading,
  Tones,
  TonesInput,
  WorkingCopy,
} from './worker/jobs.js';
export type { PlacedSheet, PlacedSwatch } from './worker/sheet-jobs.js';
export type { MassesInput } from './worker/mass-inputs.js';
export type { MassWork } from './worker/mass-jobs.js';
export type { RehearsalInput } from './worker/rehearsal-jobs.js';
export type { CheckInput, CheckReport, WhiteInput } from './worker/check-jobs.js';
export type { PictureSource } from './worker/first-service.js';
