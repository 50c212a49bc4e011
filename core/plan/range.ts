import type { Lab } from '../base/types.js';
import { expectLab } from '../colour/index.js';
import {
  DARKEST_PAINT,
  IDENTITY_MAP,
  LEAST_RANGE,
  rangeMap,
  type RangeMap,
} from '../value/index.js';
import type { Plan } from './types.js';

/**
 * The map from the photo's lightness to that of paint that a plan goes by: from its `range` to what lies between the darkest paint
 * and the paper; identity without a `range`. A paper that is darker than the darkest paint leaves 1 L* between them.
 *
 * @throws {RangeError} when the range is less than 1 L* wide in the photo, or a figure is out of its range.
 */
export function rangeMapOf({ range, paper }: Pick<Plan, 'range' | 'paper'>): RangeMap {
  if (range === undefined) return IDENTITY_MAP;
  const { low, high, holding, darkest = DARKEST_PAINT } = range;
  const white = Math.max(LEAST_RANGE, paper.lightness);
  const paint = { low: Math.min(darkest, white - LEAST_RANGE), high: white };
  return rangeMap({ photo: { low, high }, paint, holding });
}

/**
 * The L* in paint for an L* of the photo. It rises strictly, so a reading stays in its band; beyond the photo's range it may lie
 * outside what paint reaches.
 */
export function paintLightness(
  plan: Pick<Plan, 'range' | 'paper'>,
  photoLightness: number,
): number {
  return rangeMapOf(plan).toPaint(photoLightness);
}

/** The L* of the photo that comes to lie at an L* in paint: the inverse of {@link paintLightness}. */
export function photoLightness(plan: Pick<Plan, 'range' | 'paper'>, lightness: number): number {
  return rangeMapOf(plan).toPhoto(lightness);
}

/**
 * The colour in paint for a colour of the photo (CIELAB, D65, 2 degree observer): the lightness, kept within 0..100, goes through the plan's map, a* and
 * b* are kept. So hue and chroma stay, and colours of one lightness stay as far apart as they were; whether paint reaches the chroma
 * at the new lightness is for the paints to say. (Scaling a* and b* with the lightness would make the darks that are lifted far more
 * colourful than the photo.)
 */
export function labInPaint(plan: Pick<Plan, 'range' | 'paper'>, lab: Lab): Lab {
  const [lightness, a, b] = expectLab('lab', lab);
  return [paintLightness(plan, Math.min(100, Math.max(0, lightness))), a, b];
}
