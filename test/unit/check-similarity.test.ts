/**
 * Structural similarity, against scikit-image 0.26.0: skimage.metrics.structural_similarity(a, b, data_range=255,
 * gaussian_weights=True, sigma=1.5, use_sample_covariance=False) on planes given by formula.
 */
import { describe, expect, it } from 'vitest';
import { readsFromAfar, structuralSimilarity } from '../../core/check/index.js';
import type { Lightness } from '../../core/base/types.js';

function plane(at: (x: number, y: number) => number, width = 64, height = 48): Lightness {
  const data = Uint8Array.from({ length: width * height }, (_, k) =>
    at(k % width, Math.floor(k / width)),
  );
  return { width, height, data };
}

const checker = (light: number, dark: number, shift = 0) =>
  plane((x, y) => ((Math.floor((x - shift) / 8) + Math.floor(y / 8)) % 2 === 0 ? light : dark));

const a = plane((x, y) => (3 * x + 2 * y) % 256);
const b = checker(200, 60);
const c = checker(170, 90);
const d = checker(200, 60, 2);
const e = plane((x, y) => (x * x + 7 * y) % 251);
const f = plane((x, y) => 255 - b.data[y * 64 + x]);

describe('structuralSimilarity', () => {
  it.each([
    ['a ramp and a checker', a, b, 0.020099098786155966],
    ['a checker and itself', b, b, 1],
    ['a checker of less contrast', b, c, 0.8540904346301305],
    ['a checker moved by 2', b, d, 0.39168034026552034],
    ['a ramp and noise', a, e, 0.039358096951880514],
    ['a checker and its reverse', b, f, -0.8141480925639392],
  ])('%s: as scikit-image', (_, one, other, value) => {
    expect(structuralSimilarity(one, other)).toBeCloseTo(value, 9);
    expect(structuralSimilarity(other, one)).toBeCloseTo(value, 9);
  });

  it('holds for planes smaller than its window', () => {
    for (const [width, height] of [
      [1, 1],
      [3, 40],
      [40, 2],
      [10, 10],
      [11, 11],
    ]) {
      const small = plane((x, y) => (37 * x + 91 * y) % 256, width, height);
      expect(structuralSimilarity(small, small)).toBeCloseTo(1, 12);
    }
  });

  it('refuses planes of different size', () => {
    expect(() =>
      structuralSimilarity(
        a,
        plane(() => 0, 48, 64),
      ),
    ).toThrow(/^b is "48 x 64"; expected the size of a, 64 x 48/);
  });
});

describe('readsFromAfar', () => {
  const options = { pxPerMm: 1, distance: 3 };

  it('reads what differs in grain only, and does not read what differs in its masses', () => {
    const planned = plane((x, y) => (x < 60 ? 60 : y < 60 ? 200 : 130), 160, 120);
    const grainy = plane(
      (x, y) => planned.data[y * 160 + x] + ((x * 7 + y * 13) % 21) - 10,
      160,
      120,
    );
    const other = plane((x, y) => (y < 60 ? 60 : x < 60 ? 200 : 130), 160, 120);
    expect(readsFromAfar(planned, planned, options)).toEqual({ similarity: 1, reads: 'well' });
    expect(readsFromAfar(planned, grainy, { pxPerMm: 4, distance: 10 }).reads).toBe('well');
    expect(readsFromAfar(planned, other, options).reads).toBe('not');
  });

  it('forgives from afar what shows from near', () => {
    const planned = plane(() => 128, 200, 150);
    const spotted = plane((x, y) => (((x >> 1) + (y >> 1)) % 2 === 0 ? 110 : 146), 200, 150);
    const near = readsFromAfar(planned, spotted, { pxPerMm: 5, distance: 0 });
    const far = readsFromAfar(planned, spotted, { pxPerMm: 5, distance: 6 });
    expect(far.similarity).toBeGreaterThan(near.similarity);
    expect(far.reads).toBe('well');
  });
});
