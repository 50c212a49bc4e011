export type { BandMap, Lightness } from '../base/types.js';
export { bandsKernel, bandsOf, sharesOf } from './bands.js';
export { countOf, histogramOf, keyOf, medianOf, paperThreshold, type Key } from './histogram.js';
export {
  bandPalette,
  defaultTones,
  greyPalette,
  recolour,
  type BandPaletteOptions,
  type Rgb,
  type Tone,
} from './palette.js';
export {
  squint,
  squintKernel,
  squintPixels,
  squintPixelsKernel,
  type SquintOptions,
} from './squint.js';
export {
  stepBack,
  stepBackKernel,
  stepBackPixels,
  stepBackPixelsKernel,
  type StepBackOptions,
} from './step-back.js';
export {
  designThresholds,
  proposeLimits,
  sharesOfHistogram,
  suggestThresholds,
  type Proposal,
  type ProposalKind,
} from './thresholds.js';
export {
  COMPRESSED_BELOW,
  compressedIn,
  DARKEST_PAINT,
  IDENTITY_MAP,
  LEAST_RANGE,
  photoRangeOf,
  rangeMap,
  rangeReasons,
  type Compressed,
  type LightnessSpan,
  type RangeMap,
} from './range.js';
