import { expectNumber, expectObject } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import { expectMasses } from './check.js';
import { narrowestKernel } from './narrowest.js';
import { scaledProgress } from './borders.js';
import type { Masses, Reserve } from './types.js';

/** What {@link reservesOf} is told. */
export interface ReserveOptions {
  /** Width of the stroke of the brush that paints around, pixels of the plane, above 0. */
  brushPx: number;
}

/**
 * The lights that stay paper: every region of the lightest band (`masses.map.bands - 1`), ids rising.
 *
 * `narrowestPx` is the width at the narrowest waist or bridge of the region, or of the largest disc in it where it has none; tips that
 * taper out do not count, and the frame of the picture counts as border. It is exact on half pixels for regions whose bounds hold up
 * to 262 144 pixels, beyond within half a pixel. `mask`: narrower than the stroke of the brush, so that a stroke on either
 * side would close over it (common practice, no source).
 *
 * @throws TypeError, RangeError naming the argument
 */
export function reservesOf(masses: Masses, options: ReserveOptions): Reserve[] {
  return finish(reservesKernel(masses, options));
}

/** {@link reservesOf} in slices. The masses must not change until it is done. */
export function reservesKernel(masses: Masses, options: ReserveOptions): Kernel<Reserve[]> {
  expectMasses('masses', masses);
  expectObject('options', options);
  expectNumber('options.brushPx', options.brushPx, Number.MIN_VALUE, 2 ** 28);
  return reserveSlices(masses, options.brushPx);
}

function* reserveSlices(masses: Masses, brushPx: number): Kernel<Reserve[]> {
  const lights = masses.regions.filter(({ band }) => band === masses.map.bands - 1);
  const reserves: Reserve[] = [];
  for (const region of lights) {
    const done = reserves.length / lights.length;
    const narrowestPx = yield* scaledProgress(
      narrowestKernel(masses, region, brushPx),
      done,
      done + 1 / lights.length,
    );
    const { id, area } = region;
    reserves.push({ region: id, area, narrowestPx, mask: narrowestPx < brushPx });
  }
  return reserves;
}
