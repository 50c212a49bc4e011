/** The core's public face: pure functions and types that run unchanged in Node, a page and a worker. */
export { abortError, CoreError, reason, type Reason } from './base/reason.js';
export type {
  BandMap,
  Crop,
  DistrustedSpot,
  Lab,
  Lightness,
  Loop,
  Pixels,
  Spot,
} from './base/types.js';
export * from './units/index.js';
export * from './colour/index.js';
export * from './geometry/index.js';
export * from './picture/index.js';
export * from './value/index.js';
export * from './paint/index.js';
export * from './swatch/index.js';
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
export type { PictureSource } from './worker/service.js';
