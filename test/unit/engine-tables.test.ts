/**
 * Powers are rounded otherwise from engine to engine (ECMA-262 leaves `Math.pow` "implementation-approximated"). Tables of whole numbers that are
 * made with them must come out alike: what is rounded in making them has to lie further from a tie than any engine may err. `FAR` is a
 * hundred times the error of a power that is off by one unit in the last place.
 */
import { describe, expect, it } from 'vitest';
import { LINEAR_OF_SRGB, linearOfSrgb, LUMINANCE_OF_RGB, srgbOfLinear } from '../../core/index.js';
import { luminanceOfLightness } from '../../core/colour/index.js';
import { FULL } from '../../core/picture/light.js';

const FAR = 100 * Number.EPSILON;
const CODES = Array.from({ length: 256 }, (_, code) => code);
/** How far a value lies from the nearest whole number, as a part of the value. */
const fromWhole = (value: number): number => Math.abs(value - Math.round(value)) / value;
/** How far it lies from the nearest half, as a part of the value. */
const fromHalf = (value: number): number => fromWhole(2 * value);
/** Parts of an sRGB code that are straight lines in the standard: no power is taken. */
const curved = (code: number): boolean => code / 255 > 0.04045;

describe('tables are the same in every engine', () => {
  it('light of red, green and blue: rounded far from halves', () => {
    for (const share of LUMINANCE_OF_RGB)
      for (const code of CODES.slice(1, 255).filter(curved)) {
        const value = LINEAR_OF_SRGB[code] * share * FULL;
        // Only a neighbour of an odd multiple of a half could be rounded the other way.
        if (Math.round(2 * value) % 2 === 1)
          expect(fromHalf(value), `code ${code}`).toBeGreaterThan(FAR);
      }
  });

  it('steps of sRGB codes: rounded up far from whole numbers', () => {
    for (const code of CODES.slice(1).filter((each) => curved(each - 0.5)))
      expect(fromWhole(linearOfSrgb((code - 0.5) / 255) * FULL), `code ${code}`).toBeGreaterThan(
        FAR,
      );
  });

  it('greys of lightness codes: rounded far from halves', () => {
    for (const code of CODES.slice(1, 255)) {
      const value = 255 * srgbOfLinear(luminanceOfLightness((20 * code) / 51)) + 0.5;
      expect(fromWhole(value), `code ${code}`).toBeGreaterThan(FAR);
    }
  });
});
