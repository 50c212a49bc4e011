import { expectInteger, expectNumber } from '../base/check.js';

// 2.55 is written 51/20 below: 2.55 has no exact double, and 50 would miss its tie while 255 would
// give more than 100.

/**
 * The code of a lightness: `floor(2.55 L* + 0.5)`, kept within 0..255.
 * @param lightness CIE L*; any finite number (below 0 gives 0, above 100 gives 255)
 * @throws {TypeError} not a number · {RangeError} not finite
 */
export function codeOfLightness(lightness: number): number {
  expectNumber('lightness', lightness);
  return Math.min(255, Math.max(0, Math.floor((51 * lightness) / 20 + 0.5)));
}

/**
 * The lightness L* at the middle of a code: `code / 2.55`.
 * @param code 0..255 (fractions allowed: a mean of codes has a lightness too)
 * @returns L*, 0..100
 */
export function lightnessOfCode(code: number): number {
  return (20 * expectNumber('code', code, 0, 255)) / 51;
}

/**
 * The lightness L* at which the band above a threshold begins. A pixel is above threshold `t` when
 * its code is greater than `t`, and code `t + 1` begins at L* = (t + 0.5) / 2.55.
 * @param threshold whole number 0..254
 * @returns L*, 0.196..99.804
 */
export function limitOfThreshold(threshold: number): number {
  return (20 * (expectInteger('threshold', threshold, 0, 254) + 0.5)) / 51;
}

/**
 * The threshold whose limit lies nearest a lightness: the inverse of {@link limitOfThreshold}.
 * @param lightness CIE L*; any finite number
 * @returns whole number, kept within 0..254
 */
export function thresholdOfLimit(lightness: number): number {
  expectNumber('lightness', lightness);
  return Math.min(254, Math.max(0, Math.round((51 * lightness) / 20 - 0.5)));
}

/** Millimetres to inches (1 inch is 25.4 mm exactly). */
export function inchesOfMm(mm: number): number {
  return expectNumber('mm', mm) / 25.4;
}

/** Inches to millimetres (1 inch is 25.4 mm exactly). */
export function mmOfInches(inches: number): number {
  return expectNumber('inches', inches) * 25.4;
}

/**
 * The smallest gap an eye sees: decimal acuity is the reciprocal of the gap of the Landolt ring, in
 * minutes of arc, that is just recognised (ISO 8596), so the gap is `2 d tan(1' / (2 acuity))`.
 * @param distanceMetres from the eye to the paper, 0..100000
 * @param acuity decimal acuity, 0.01..10; 1 is the standard eye
 * @returns millimetres on the paper
 */
export function smallestSeenMm(distanceMetres: number, acuity = 1): number {
  expectNumber('distanceMetres', distanceMetres, 0, 1e5);
  expectNumber('acuity', acuity, 0.01, 10);
  const minute = Math.PI / (180 * 60);
  return 2000 * distanceMetres * Math.tan(minute / (2 * acuity));
}

/**
 * Pixels of a picture for each millimetre of the paper it is painted on, the picture filling the
 * paper's width.
 * @param pictureWidthPx more than 0
 * @param paperWidthMm more than 0
 */
export function pxPerMm(pictureWidthPx: number, paperWidthMm: number): number {
  expectNumber('pictureWidthPx', pictureWidthPx, Number.MIN_VALUE);
  expectNumber('paperWidthMm', paperWidthMm, Number.MIN_VALUE);
  return pictureWidthPx / paperWidthMm;
}
