/** A plan laid on a painting: paintings warped by homographies that are known must give them back within a pixel. */
import { describe, expect, it } from 'vitest';
import { alignToPlan } from '../../core/check/index.js';
import {
  applyHomography,
  homographyOf,
  SAME_PLACE,
  type Homography,
} from '../../core/geometry/index.js';
import type { Corners, Spot } from '../../core/base/types.js';
import { paintingOf, SHAPE_BANDS, SHAPE_TARGETS, shapeMasses } from './check-synthetic.js';

const WIDTH = 600;
const HEIGHT = 450;
const WHOLE: Corners = [
  [0, 0],
  [WIDTH, 0],
  [WIDTH, HEIGHT],
  [0, HEIGHT],
];
const masses = shapeMasses(WIDTH, HEIGHT);
const planned = SHAPE_BANDS.map((band) => SHAPE_TARGETS[band]);

/** The worst distance between two maps over a grid of the plan, pixels. */
function apart(a: Homography, b: Homography): number {
  let worst = 0;
  for (let j = 0; j <= 10; j++)
    for (let i = 0; i <= 10; i++) {
      const spot: Spot = [(WIDTH * i) / 10, (HEIGHT * j) / 10];
      const [x, y] = applyHomography(a, spot);
      const [u, v] = applyHomography(b, spot);
      worst = Math.max(worst, Math.hypot(x - u, y - v));
    }
  return worst;
}

const moved = (moves: number[]): Homography =>
  homographyOf(
    WHOLE,
    WHOLE.map(([x, y], i) => [x + moves[2 * i], y + moves[2 * i + 1]]) as Corners,
  );

describe('alignToPlan', { timeout: 60_000 }, () => {
  it.each([
    ['nothing', [0, 0, 0, 0, 0, 0, 0, 0]],
    ['a shift', [7.4, -4.6, 7.4, -4.6, 7.4, -4.6, 7.4, -4.6]],
    ['a stretch', [-9, -6, 9, -6, 9, 6, -9, 6]],
    ['a turn', [5, -8, 6, 9, -5, 8, -6, -9]],
    ['a slant', [12, 8, -3, -5, 6, 4, -10, 9]],
  ])('finds %s within a pixel, whatever tones were painted', (_, moves) => {
    const truth = moved(moves);
    // Tones up to 15 L* off, and noise of 3 L*.
    const tones = planned.map((tone, i) => tone + [-4, 9, 12, -8, 15][i]);
    const painting = paintingOf(masses, tones, truth, 3, 7);
    const found = alignToPlan(masses, painting, { expected: planned });
    expect(found.found).toBe(true);
    expect(apart(found.map, truth)).toBeLessThan(1);
    expect(found.share).toBeGreaterThan(0.8);
    const corners = Math.max(...[0, 2, 4, 6].map((i) => Math.hypot(moves[i], moves[i + 1])));
    expect(found.moved).toBeCloseTo(corners, -0.3);
  });

  it('uses only borders that are painted by now', () => {
    // Head, eye and table are still paper: their borders with the ground do not show.
    const tones = [95, 95, 30, 95, 95];
    const truth = moved([4, 3, 4, 3, 4, 3, 4, 3]);
    const painting = paintingOf(masses, tones, truth, 2, 3);
    const found = alignToPlan(masses, painting, { expected: [95, 95, 28, 95, 95] });
    expect(found.found).toBe(true);
    // One shape cannot tell the far corners: it is right where the shape is.
    for (const spot of [
      [120, 225],
      [300, 240],
      [300, 380],
      [120, 380],
    ] as Spot[]) {
      const [x, y] = applyHomography(found.map, spot);
      const [u, v] = applyHomography(truth, spot);
      expect(Math.hypot(x - u, y - v)).toBeLessThan(1);
    }
  });

  it('moves nothing for another painting, a bare sheet, or a plan of one mass', () => {
    const other = paintingOf(masses, planned, moved([0, 0, 0, 0, 0, 0, 0, 0]), 2, 5);
    other.data.reverse();
    const bare = paintingOf(masses, [95, 95, 95, 95, 95], SAME_PLACE, 1, 5);
    for (const painting of [other, bare]) {
      const found = alignToPlan(masses, painting, { expected: planned });
      expect(found.found).toBe(false);
      expect(found.map).toEqual(SAME_PLACE);
      expect(found.moved).toBe(0);
    }
    const one = alignToPlan(masses, bare, { expected: planned.map(() => 95) });
    expect(one).toEqual({ map: SAME_PLACE, found: false, share: 0, moved: 0, slack: 0 });
  });

  it('holds for a picture of one pixel', () => {
    const dot = shapeMasses(1, 1);
    const painting = { width: 1, height: 1, data: Uint8Array.of(20) };
    expect(alignToPlan(dot, painting, { expected: planned }).found).toBe(false);
  });

  it('refuses what does not fit, naming it', () => {
    const painting = paintingOf(masses, planned, SAME_PLACE);
    expect(() => alignToPlan(masses, painting, { expected: [1] })).toThrow(/^options\.expected/);
    expect(() =>
      alignToPlan(masses, { ...painting, width: 450, height: 600 }, { expected: planned }),
    ).toThrow(/^painting/);
    expect(() => alignToPlan(masses, painting, { expected: planned, reach: 2 })).toThrow(
      RangeError,
    );
  });
});
