/**
 * What `worker.js` holds anyway and lends to its parts, so that none of them carries it again: the build of a part takes these names from
 * `tonewellLent`, which `worker.ts` lays out. In the page and in Node parts are ordinary modules and import them as they stand.
 */
export {
  expectInteger,
  expectNumber,
  expectObject,
  expectRaster,
  outOfRange,
  wrongType,
} from '../base/check.js';
export { byRows } from '../base/kernel.js';
export { CoreError, reason } from '../base/reason.js';
export { leanOf, NEUTRAL_CHROMA } from '../colour/appearance.js';
export {
  cssOfLab,
  expectLab,
  labOfLinear,
  labOfXyz,
  lchOf,
  lightnessOfLuminance,
  linearOfLab,
  luminanceOfLightness,
  WHITE_D65,
  xyzOfLab,
} from '../colour/lab.js';
export {
  byteOfLinear,
  linearOfSrgb,
  LINEAR_OF_SRGB,
  LUMINANCE_OF_RGB,
  srgbOfLinear,
} from '../colour/srgb.js';
export { NO_DISTANCE, squaredDistancesKernel } from '../geometry/distance.js';
export { discRuns, loopMask } from '../geometry/index.js';
export { lengthOf } from '../geometry/length.js';
export { expectMasses } from '../mass/check.js';
export { edgesKernel, softAbovePx } from '../mass/edges.js';
export { Heap } from '../mass/graph.js';
export { outlinesKernel } from '../mass/outlines.js';
export { reservesKernel } from '../mass/reserves.js';
export { roomiest } from '../mass/room.js';
export { FULL, STEPS_OF_SRGB, stepOf } from '../picture/light.js';
export { expectPixels, lightnessKernel, LITTLE_ENDIAN } from '../picture/lightness.js';
export { fitWithin, reduceKernel } from '../picture/reduce.js';
export { keptMarks, overrulesOf, pixelOfSpot, regionAt } from '../plan/kept-marks.js';
export { bordersOf } from '../plan/sheet-draw.js';
export { codeOfLightness, lightnessOfCode, smallestSeenMm } from '../units/index.js';
export { expectThresholds } from '../value/histogram.js';
export { medianKernel } from '../value/median.js';
export { stage } from '../value/stage.js';
export { stepBackKernel, stepBackPixelsKernel } from '../value/step-back.js';
export { bitmapOf, coloursOf, readable } from './raster.js';
export { sliced } from './slices.js';
