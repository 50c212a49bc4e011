import { expectNumber, expectObject, expectRaster, wrongType } from '../base/check.js';
import type { Lightness } from '../base/types.js';
import { discRuns } from '../geometry/index.js';
import { codeOfLightness } from '../units/index.js';
import { percentile } from './reading.js';

/** A round place of a plane with the painter's own lightness for it. */
export interface TrustedSpot {
  /** Middle, in pixel coordinates of the plane; may lie outside. */
  x: number;
  y: number;
  /** Pixels, 0 or more. */
  radius: number;
  /** L*, 0..100. */
  lightness: number;
}

/**
 * A plane in which the painter's own values stand where the photo is not trusted. Inside each disc every code is shifted
 * by the same amount, so that the disc's median (of an even count the lower one) takes the painter's lightness and its modelling stays;
 * codes are kept within 0..255. Shifts are taken from the plane as given, so where discs overlap the later spot stands alone.
 * A disc wholly outside changes nothing.
 *
 * @returns a new plane; the input is left as it is
 * @throws TypeError, RangeError naming the argument
 */
export function trustedPlane(plane: Lightness, spots: TrustedSpot[]): Lightness {
  expectRaster('plane', plane, 1);
  if (!Array.isArray(spots)) throw wrongType('spots', spots, 'an array of spots');
  const { width, height } = plane;
  const data = Uint8Array.from(plane.data);
  spots.forEach((spot, i) => {
    expectObject(`spots[${i}]`, spot);
    expectNumber(`spots[${i}].x`, spot.x, -1e9, 1e9);
    expectNumber(`spots[${i}].y`, spot.y, -1e9, 1e9);
    expectNumber(`spots[${i}].radius`, spot.radius, 0, 1e9);
    expectNumber(`spots[${i}].lightness`, spot.lightness, 0, 100);
    shiftDisc(plane, data, discRuns(spot.x, spot.y, spot.radius, width, height), spot.lightness);
  });
  return { width, height, data };
}

function shiftDisc(plane: Lightness, data: Uint8Array, runs: Int32Array, lightness: number): void {
  const histogram = new Uint32Array(256);
  let count = 0;
  for (let run = 0; run < runs.length; run += 3) {
    const row = runs[run] * plane.width;
    for (let i = row + runs[run + 1]; i < row + runs[run + 2]; i++) histogram[plane.data[i]]++;
    count += runs[run + 2] - runs[run + 1];
  }
  if (count === 0) return;
  const shift = codeOfLightness(lightness) - percentile(histogram, count, 0.5);
  for (let run = 0; run < runs.length; run += 3) {
    const row = runs[run] * plane.width;
    for (let i = row + runs[run + 1]; i < row + runs[run + 2]; i++) {
      data[i] = Math.min(255, Math.max(0, plane.data[i] + shift));
    }
  }
}
