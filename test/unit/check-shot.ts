/** A photo of a plan, and photographs of paintings of it with known faults by the tests' camera (test/synthetic/camera.ts). */
import type { Corners, Pixels } from '../../core/base/types.js';
import {
  blankScene,
  onQuad,
  photograph,
  type CameraOptions,
  type Quad,
} from '../synthetic/camera.js';
import { shapeAt, SHAPE_BANDS, SHAPE_TARGETS } from './check-synthetic.js';

export const yOf = (lightness: number): number =>
  lightness > 8 ? ((lightness + 16) / 116) ** 3 : lightness / (24389 / 27);
const byteOf = (y: number): number =>
  Math.round(255 * (y <= 0.0031308 ? 12.92 * y : 1.055 * y ** (1 / 2.4) - 0.055));

export const WIDTH = 600;
export const HEIGHT = 450;
const MARGIN = 0.08;
export const [ACROSS, DOWN] = [640, 492];
export const QUAD: Quad = [
  [53, 40],
  [604, 63],
  [580, 458],
  [37, 436],
];
export const PAINTED = [
  [MARGIN, MARGIN],
  [1 - MARGIN, MARGIN],
  [1 - MARGIN, 1 - MARGIN],
  [MARGIN, 1 - MARGIN],
].map(([u, v]) => onQuad(QUAD, u, v)) as Corners;
export const fractions = (corners: Corners): Corners =>
  corners.map(([x, y]) => [x / ACROSS, y / DOWN]) as Corners;

export const photoOfPlan: Pixels = {
  width: WIDTH,
  height: HEIGHT,
  data: Uint8ClampedArray.from({ length: 4 * WIDTH * HEIGHT }, (_, i) => {
    const k = i >> 2;
    const tone =
      SHAPE_TARGETS[
        SHAPE_BANDS[shapeAt(((k % WIDTH) + 0.5) / WIDTH, (Math.floor(k / WIDTH) + 0.5) / HEIGHT)]
      ];
    return (i & 3) === 3 ? 255 : byteOf(yOf(tone));
  }),
};

/** A photograph of a sheet with a margin, its masses in these tones (or each place in one of its own). */
export function shot(
  tones: readonly number[] | ((shape: number, u: number, v: number) => number),
  camera: Partial<CameraOptions> = {},
  mirror = false,
): Pixels {
  const sheet = blankScene(600, 466, [yOf(95), yOf(95), yOf(95)]);
  for (let y = 0; y < 466; y++)
    for (let x = 0; x < 600; x++) {
      // At the pixel's middle: at its corner the whole painting would lie half a pixel off.
      const u = ((x + 0.5) / 600 - MARGIN) / (1 - 2 * MARGIN);
      const v = ((y + 0.5) / 466 - MARGIN) / (1 - 2 * MARGIN);
      if (u < 0 || u >= 1 || v < 0 || v >= 1) continue;
      const at = 3 * (y * 600 + x);
      const shape = shapeAt(mirror ? 1 - u : u, v);
      const tone = typeof tones === 'function' ? tones(shape, u, v) : tones[shape];
      sheet.light.fill(yOf(tone), at, at + 3);
    }
  return photograph(sheet, {
    seed: 5,
    width: ACROSS,
    height: DOWN,
    corners: QUAD,
    table: [0.1, 0.08, 0.06],
    exposure: 0.85,
    cast: [1, 0.86, 0.68],
    falloff: [0.2, 0.1],
    noise: { electrons: 5000, read: 4 },
    jpeg: 88,
    ...camera,
  });
}
