import { cssOfLab } from '../shared/core.js';

/** The CSS colour of a neutral of this L*. */
export const greyOf = (lightness: number): string =>
  cssOfLab([Math.min(100, Math.max(0, lightness)), 0, 0]).css;

/** The sRGB byte of a neutral of this L* (CIE 15 for Y, IEC 61966-2-1 for the byte). */
export function codeOfGrey(lightness: number): number {
  const y = lightness > 8 ? ((lightness + 16) / 116) ** 3 : lightness / (24389 / 27);
  return Math.round(255 * (y <= 0.0031308 ? 12.92 * y : 1.055 * y ** (1 / 2.4) - 0.055));
}
