import { expectNumber } from '../base/check.js';
import { lightnessOfLuminance, luminanceOfLightness } from './lab.js';

/** Y in percent of the perfect diffuser: c1 V + c2 V^2 + .. + c5 V^5 (ASTM D1535-08). */
const C1 = 1.1914;
const C2 = -0.22533;
const C3 = 0.23352;
const C4 = -0.020484;
const C5 = 0.00081939;

/** How far past its ends the rounding of colour conversions may carry a lightness. */
const ROUNDING = 1e-6;

function percentOf(value: number): number {
  return value * (C1 + value * (C2 + value * (C3 + value * (C4 + value * C5))));
}

function slopeOf(value: number): number {
  return C1 + value * (2 * C2 + value * (3 * C3 + value * (4 * C4 + value * 5 * C5)));
}

/**
 * The Munsell value of a lightness: the quintic of ASTM D1535 (Y of the perfect diffuser = 100)
 * solved for V by Newton's steps kept inside a shrinking bracket, to the last bits of a double.
 * @param lightness CIE L*, 0..100
 * @returns Munsell value, 0..10
 * @throws {TypeError} not a number · {RangeError} outside 0..100
 */
export function munsellValue(lightness: number): number {
  if (typeof lightness === 'number' && Math.abs(lightness - 50) < 50 + ROUNDING) {
    lightness = Math.min(100, Math.max(0, lightness));
  }
  expectNumber('lightness', lightness, 0, 100);
  const percent = 100 * luminanceOfLightness(lightness);
  if (percent <= 0) return 0;
  if (percent >= 100) return 10;
  let low = 0;
  let high = 10;
  let value = lightness / 10;
  for (let i = 0; i < 60; i++) {
    const error = percentOf(value) - percent;
    if (error === 0) break;
    if (error > 0) high = value;
    else low = value;
    const newton = value - error / slopeOf(value);
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (next === value) break;
    value = next;
  }
  return value;
}

/**
 * L* of a Munsell value (ASTM D1535, then CIE L*): the inverse of {@link munsellValue}.
 * @param value Munsell value, 0..10
 * @returns CIE L*, 0..100
 */
export function lightnessOfMunsell(value: number): number {
  expectNumber('value', value, 0, 10);
  return Math.min(100, lightnessOfLuminance(percentOf(value) / 100));
}
