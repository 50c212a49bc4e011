import { expectNumber, expectObject } from '../base/check.js';

/** How near a mix comes. */
export type Grade = 'close' | 'near' | 'out-of-reach';

/**
 * CIEDE2000 up to which half of observers accept two samples side by side as the same (Paravina et al. 2015, Journal of Esthetic and
 * Restorative Dentistry 27, S1; in ISO/TR 28642:2016; figure from memory, found on samples of teeth).
 */
export const CLOSE = 1.8;
/**
 * Up to which a colour is still seen as a variant of the other; beyond, two colours are seen (Mokrzycki & Tatol 2011, Machine Graphics and
 * Vision 20, 383; from memory, stated there for the Euclidean difference in CIELAB).
 */
export const NEAR = 5;

/**
 * How near a difference is.
 * @param deltaE - CIEDE2000, at least 0.
 * @param options - `spread`: how far the painter's own dabs of one recipe lie apart, CIEDE2000, once it is known: nothing within it is
 *   told apart, so it counts as close.
 */
export function gradeOf(deltaE: number, options: { spread?: number } = {}): Grade {
  expectNumber('deltaE', deltaE, 0);
  const { spread = 0 } = expectObject('options', options);
  const own = expectNumber('options.spread', spread, 0);
  if (deltaE <= Math.max(CLOSE, own)) return 'close';
  return deltaE <= Math.max(NEAR, own) ? 'near' : 'out-of-reach';
}
