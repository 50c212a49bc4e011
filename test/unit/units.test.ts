import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  codeOfLightness,
  inchesOfMm,
  lightnessOfCode,
  limitOfThreshold,
  mmOfInches,
  pxPerMm,
  smallestSeenMm,
  thresholdOfLimit,
} from '../../core/units/index.js';

describe('codes of lightness', () => {
  it('rounds half up, by hand', () => {
    // 2.55 x 50 = 127.5, + 0.5 = 128; 2.55 x 33.3 = 84.915, + 0.5 = 85.415; 2.55 x 99.7 = 254.235,
    // + 0.5 = 254.735
    expect(codeOfLightness(50)).toBe(128);
    expect(codeOfLightness(33.3)).toBe(85);
    expect(codeOfLightness(99.7)).toBe(254);
    expect(codeOfLightness(0)).toBe(0);
    expect(codeOfLightness(100)).toBe(255);
    expect(lightnessOfCode(255)).toBe(100);
    expect(lightnessOfCode(51)).toBe(20);
  });

  it('keeps within 0..255', () => {
    expect(codeOfLightness(-20)).toBe(0);
    expect(codeOfLightness(140)).toBe(255);
  });

  it('every code comes back from its lightness', () => {
    for (let code = 0; code <= 255; code++)
      expect(codeOfLightness(lightnessOfCode(code))).toBe(code);
  });

  it('refuses what is no lightness, naming it', () => {
    expect(() => codeOfLightness(NaN)).toThrow(RangeError);
    expect(() => codeOfLightness('50' as unknown as number)).toThrow(/lightness is "50"/);
    expect(() => lightnessOfCode(256)).toThrow(/code is 256/);
  });
});

describe('limits and thresholds', () => {
  it('a code is above the threshold exactly when its lightness is above the limit', () => {
    for (let t = 0; t <= 254; t++) {
      const limit = limitOfThreshold(t);
      expect(codeOfLightness(limit - 1e-9)).toBe(t);
      expect(codeOfLightness(limit + 1e-9)).toBe(t + 1);
      expect(thresholdOfLimit(limit)).toBe(t);
    }
  });

  it('the nearest limit is found', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100, noNaN: true }), (lightness) => {
        const found = Math.abs(limitOfThreshold(thresholdOfLimit(lightness)) - lightness);
        for (let t = 0; t <= 254; t++) {
          expect(found).toBeLessThanOrEqual(Math.abs(limitOfThreshold(t) - lightness) + 1e-9);
        }
      }),
      { numRuns: 50 },
    );
  });

  it('keeps within 0..254 and refuses the rest', () => {
    expect(thresholdOfLimit(-5)).toBe(0);
    expect(thresholdOfLimit(200)).toBe(254);
    expect(() => limitOfThreshold(255)).toThrow(RangeError);
    expect(() => limitOfThreshold(1.5)).toThrow(RangeError);
    expect(() => thresholdOfLimit(Infinity)).toThrow(RangeError);
  });
});

describe('lengths', () => {
  it('an inch is 25.4 mm', () => {
    expect(mmOfInches(1)).toBe(25.4);
    expect(inchesOfMm(25.4)).toBe(1);
    expect(inchesOfMm(mmOfInches(22))).toBeCloseTo(22, 12);
  });

  it('pixels a millimetre', () => {
    expect(pxPerMm(2000, 400)).toBe(5);
    expect(() => pxPerMm(0, 400)).toThrow(RangeError);
    expect(() => pxPerMm(2000, 0)).toThrow(/paperWidthMm is 0/);
  });
});

describe('acuity (ISO 8596: the gap of the ring subtends 1 minute of arc at decimal acuity 1)', () => {
  it('the letter of 8.73 mm for 6 m has strokes of a fifth, 1.745 mm', () => {
    expect(smallestSeenMm(6)).toBeCloseTo(1.745, 3);
    expect(5 * smallestSeenMm(6)).toBeCloseTo(8.73, 2);
  });

  it('acuity 0.5 needs twice the gap, twice the distance needs twice the gap', () => {
    expect(smallestSeenMm(6, 0.5) / smallestSeenMm(6)).toBeCloseTo(2, 6);
    expect(smallestSeenMm(12) / smallestSeenMm(6)).toBeCloseTo(2, 12);
    expect(smallestSeenMm(0)).toBe(0);
  });

  it('refuses an eye or a distance that cannot be', () => {
    expect(() => smallestSeenMm(-1)).toThrow(/distanceMetres is -1/);
    expect(() => smallestSeenMm(1, 0)).toThrow(/acuity is 0/);
  });
});
