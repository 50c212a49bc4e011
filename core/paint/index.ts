/**
 * Paint: what watercolour does between brush and dry paper. Lightness is L* (0..100).
 */
export { DRYING_SHIFT, driedLightness, wetLightness, type LightnessRange } from './drying.js';
export type * from './types.js';
