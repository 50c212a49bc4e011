/** Where a painting lies on its sheet, and pictures put side by side: both laid out by hand. */
import { describe, expect, it } from 'vitest';
import { picturesBeside, paintedPartOf } from '../../core/check/index.js';
import { SAME_PLACE } from '../../core/geometry/index.js';
import type { Lightness, Pixels } from '../../core/base/types.js';
import { codeOf, paintingOf, SHAPE_BANDS, SHAPE_TARGETS, shapeMasses } from './check-synthetic.js';

describe('paintedPartOf', () => {
  const masses = shapeMasses(240, 180);
  const planned = paintingOf(
    masses,
    SHAPE_BANDS.map((band) => SHAPE_TARGETS[band]),
    SAME_PLACE,
  );
  const painting = paintingOf(masses, [88, 66, 38, 50, 35], SAME_PLACE, 3, 9);

  /** A sheet of 400 x 300 with the painting between these margins (shares). */
  function sheetWith(x0: number, y0: number): Lightness {
    const data = new Uint8Array(400 * 300).fill(codeOf(95));
    for (let y = 0; y < 300; y++)
      for (let x = 0; x < 400; x++) {
        const u = ((x + 0.5) / 400 - x0) / (1 - 2 * x0);
        const v = ((y + 0.5) / 300 - y0) / (1 - 2 * y0);
        if (u < 0 || v < 0 || u >= 1 || v >= 1) continue;
        data[y * 400 + x] = painting.data[Math.floor(v * 180) * 240 + Math.floor(u * 240)];
      }
    return { width: 400, height: 300, data };
  }

  it.each([
    [0, 0],
    [0.05, 0.05],
    [0.08, 0.1],
    [0.15, 0.14],
  ])('finds margins of %d and %d within two hundredths', (x, y) => {
    const { box, correlation } = paintedPartOf(planned, sheetWith(x, y));
    [x, y, 1 - x, 1 - y].forEach((side, i) =>
      expect(Math.abs(box[i] - side)).toBeLessThanOrEqual(0.02),
    );
    expect(correlation).toBeGreaterThan(0.8);
  });

  it('says that nothing fits a bare sheet, or one of other proportions', () => {
    const bare = { width: 40, height: 30, data: new Uint8Array(1200).fill(242) };
    expect(paintedPartOf(planned, bare).correlation).toBe(0);
    expect(paintedPartOf(planned, bare, 5)).toEqual({ box: [0, 0, 1, 1], correlation: 0 });
    const dot = { width: 1, height: 1, data: Uint8Array.of(7) };
    expect(paintedPartOf(dot, dot).correlation).toBe(0);
  });
});

describe('picturesBeside', () => {
  const of = (width: number, height: number, red: number): Pixels => ({
    width,
    height,
    data: Uint8ClampedArray.from(
      { length: 4 * width * height },
      (_, i) => [red, 40, 60, 255][i & 3],
    ),
  });

  it('puts pictures of one height side by side on neutral ground', () => {
    const whole = picturesBeside([of(6, 4, 10), of(3, 4, 200)], { gap: 2, ground: 120 });
    expect([whole.width, whole.height]).toEqual([2 + 6 + 2 + 3 + 2, 8]);
    const at = (x: number, y: number): number[] => [
      ...whole.data.subarray(4 * (y * whole.width + x), 4 * (y * whole.width + x) + 4),
    ];
    expect(at(0, 0)).toEqual([120, 120, 120, 255]);
    expect(at(2, 2)).toEqual([10, 40, 60, 255]);
    expect(at(7, 5)).toEqual([10, 40, 60, 255]);
    expect(at(8, 3)).toEqual([120, 120, 120, 255]);
    expect(at(10, 2)).toEqual([200, 40, 60, 255]);
    expect(at(12, 5)).toEqual([200, 40, 60, 255]);
    expect(at(13, 5)).toEqual([120, 120, 120, 255]);
  });

  it('makes taller ones smaller and never enlarges', () => {
    const whole = picturesBeside([of(6, 12, 10), of(2, 2, 200)], { height: 4, gap: 0 });
    expect([whole.width, whole.height]).toEqual([2 + 2, 4]);
    expect(whole.data[0]).toBe(10);
    // The small one is centred.
    expect(whole.data[4 * 2]).toBe(230);
    expect(whole.data[4 * (4 + 2)]).toBe(200);
  });

  it('refuses nothing at all', () => {
    expect(() => picturesBeside([])).toThrow(/^pictures/);
    expect(() => picturesBeside([of(2, 2, 3)], { gap: -1 })).toThrow(/^options\.gap/);
  });
});
