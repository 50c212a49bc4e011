/**
 * Paint: what watercolour does between brush and dry paper. Lightness is L* (0..100).
 */
export { DRYING_SHIFT, driedLightness, wetLightness, type LightnessRange } from './drying.js';
export { layerReflectance } from './layers.js';
export { mixOnPaper } from './mix.js';
export { paperReflectance, spectrumToLab } from './spectra.js';
export {
  BERNS_SCALE,
  tubeOf,
  TUBES,
  TUBES_EDITION,
  TUBES_WITHOUT_DATA,
  type TubeWithoutData,
} from './tubes.js';
export type * from './types.js';
