/** Invented plans and paintings for tests of checks: shapes by formula, tones and homographies that are known. */
import { applyHomography, invertHomography, type Homography } from '../../core/geometry/index.js';
import type { Lightness } from '../../core/base/types.js';
import type { Masses } from '../../core/mass/types.js';

export const codeOf = (lightness: number): number =>
  Math.min(255, Math.max(0, Math.floor(2.55 * lightness + 0.5)));

/** A head-like round, a body, a shadow, a patch of light on a ground; fractions of width and height to a region. */
export function shapeAt(u: number, v: number): number {
  if (Math.hypot((u - 0.62) / 0.05, (v - 0.3) / 0.07) < 1) return 4;
  if (Math.hypot((u - 0.55) / 0.2, (v - 0.33) / 0.22) < 1) return 1;
  if (u > 0.2 && u < 0.5 && v > 0.5 + 0.2 * (u - 0.2) && v < 0.85) return 2;
  if (v > 0.72 + 0.05 * Math.sin(6 * u)) return 3;
  return 0;
}

/** Bands of the regions of {@link shapeAt}: ground, head, body, table, eye. */
export const SHAPE_BANDS = [2, 1, 0, 1, 0];
export const SHAPE_TARGETS = [28, 58, 92];

export function shapeMasses(width: number, height: number): Masses {
  const labels = Int32Array.from({ length: width * height }, (_, k) =>
    shapeAt(((k % width) + 0.5) / width, (Math.floor(k / width) + 0.5) / height),
  );
  return {
    map: { width, height, bands: 3, data: Uint8Array.from(labels, (label) => SHAPE_BANDS[label]) },
    labels,
    regions: SHAPE_BANDS.map((band, id) => ({
      id,
      band,
      area: labels.filter((label) => label === id).length,
      mean: SHAPE_TARGETS[band],
      bounds: [0, 0, width, height],
      neighbours: [],
    })),
    marks: [],
  };
}

export function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/**
 * The masses as they lie in their raster, in these tones, moved by a homography (plan to painting pixels): each pixel the mean of
 * 4 x 4 places, with noise; beyond the plan its border is repeated.
 */
export function paintingOf(
  { map: { width, height }, labels }: Masses,
  tones: readonly number[],
  map: Homography,
  noise = 0,
  seed = 1,
): Lightness {
  const back = invertHomography(map);
  const random = numbers(seed);
  const data = new Uint8Array(width * height);
  const within = (at: number, size: number): number =>
    Math.min(size - 1, Math.max(0, Math.floor(at)));
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      let sum = 0;
      for (let j = 0; j < 4; j++)
        for (let i = 0; i < 4; i++) {
          const [u, v] = applyHomography(back, [x + (i + 0.5) / 4, y + (j + 0.5) / 4]);
          sum += tones[labels[within(v, height) * width + within(u, width)]];
        }
      data[y * width + x] = codeOf(
        sum / 16 + noise * (random() + random() + random() + random() - 2) * Math.sqrt(3),
      );
    }
  return { width, height, data };
}
