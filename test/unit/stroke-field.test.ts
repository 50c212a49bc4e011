import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Lightness } from '../../core/base/types.js';
import { directionField, directionKernel, structureTensor } from '../../core/stroke/index.js';
import type { DirectionField } from '../../core/stroke/index.js';

// Outside truth: the direction of a grating and of rings is known from the formula they are made by.

const WIDTH = 160;
const HEIGHT = 120;
const RADIANS = Math.PI / 180;

const made = (
  code: (x: number, y: number) => number,
  width = WIDTH,
  height = HEIGHT,
): Lightness => ({
  width,
  height,
  data: Uint8Array.from({ length: width * height }, (_, i) =>
    Math.round(code((i % width) + 0.5, Math.floor(i / width) + 0.5)),
  ),
});

/** Stripes that run at `angle` degrees clockwise from +x, y down; one period is `wave` pixels. */
const stripes =
  (angle: number, wave: number, swing = 100, middle = 127.5) =>
  (x: number, y: number): number =>
    middle +
    swing *
      Math.sin(
        (2 * Math.PI * (y * Math.cos(angle * RADIANS) - x * Math.sin(angle * RADIANS))) / wave +
          0.4,
      );

/** Difference of two directions, degrees 0..90. */
const apart = (a: number, b: number): number => {
  const turn = Math.abs(a - b) % 180;
  return Math.min(turn, 180 - turn);
};

const worst = (field: DirectionField, truth: (x: number, y: number) => number | undefined) => {
  let most = 0;
  for (let i = 0; i < field.angle.length; i++) {
    const angle = truth((i % field.width) + 0.5, Math.floor(i / field.width) + 0.5);
    if (angle !== undefined) most = Math.max(most, apart(field.angle[i], angle));
  }
  return most;
};

const fits = ({ angle, coherence }: DirectionField): boolean =>
  angle.every((a) => a >= 0 && a < 180) && coherence.every((c) => c >= 0 && c <= 1);

describe('direction of the form', () => {
  it.each([12, 16, 32])(
    'stripes of 4 to 40 pixels come out within 0.2 degree at every angle and pixel, scale %d',
    (scalePx) => {
      for (const wave of [4, 5, 6, 8, 10, 16, 24, 40]) {
        for (let angle = 0; angle < 180; angle += 11.25) {
          const field = directionField(made(stripes(angle, wave)), { scalePx });
          expect(
            worst(field, () => angle),
            `${angle} ${wave}`,
          ).toBeLessThan(0.2);
        }
      }
    },
    60_000,
  );

  it.each([6, 8])(
    'fine scales do it for waves up to about three times the scale, scale %d',
    (scalePx) => {
      for (const wave of [4, 6, 10, 16]) {
        for (let angle = 3; angle < 180; angle += 25) {
          const field = directionField(made(stripes(angle, wave)), { scalePx });
          expect(
            worst(field, () => angle),
            `${angle} ${wave}`,
          ).toBeLessThan(0.2);
        }
      }
    },
    60_000,
  );

  it('stripes are coherent, a flat plane is not, grain is hardly', () => {
    const striped = directionField(made(stripes(30, 9)), { scalePx: 16 });
    expect(Math.min(...striped.coherence)).toBeGreaterThan(0.95);
    const flat = directionField(
      made(() => 99),
      { scalePx: 16 },
    );
    expect(flat.coherence.every((c) => c === 0)).toBe(true);
    expect(flat.angle.every((a) => a === 0)).toBe(true);
    let g = 1;
    const grain = directionField(
      made(() => {
        g = (Math.imul(g, 1664525) + 1013904223) | 0;
        return g >>> 24;
      }),
      { scalePx: 32 },
    );
    // Of n independent samples the anisotropy is about 1 / sqrt(n): a window of 16 pixels' deviation holds hundreds (the bound is our own choice).
    const mean = grain.coherence.reduce((sum, c) => sum + c, 0) / grain.coherence.length;
    expect(mean).toBeLessThan(0.15);
  });

  it('rings run round their middle (the tangent is known) within 0.5 degree (our own choice)', () => {
    const rings = made(
      (x, y) => 127.5 + 100 * Math.sin(Math.hypot(x - 100, y - 100) / 2),
      200,
      200,
    );
    const field = directionField(rings, { scalePx: 8 });
    const error = worst(field, (x, y) => {
      const r = Math.hypot(x - 100, y - 100);
      return r > 30 && r < 95 ? Math.atan2(y - 100, x - 100) / RADIANS + 90 : undefined;
    });
    expect(error).toBeLessThan(0.5);
  });

  it('nothing leaks across a border of masses, up to the border itself', () => {
    const side = (x: number, y: number): number => (x + 0.4 * y < 95 ? 0 : 1);
    const plane = made((x, y) =>
      // The faint side would drown in the strong one.
      side(x, y) === 0 ? stripes(115, 11, 10, 80)(x, y) : stripes(30, 9, 75, 175)(x, y),
    );
    const labels = Int32Array.from({ length: WIDTH * HEIGHT }, (_, i) =>
      side((i % WIDTH) + 0.5, Math.floor(i / WIDTH) + 0.5),
    );
    for (const scalePx of [16, 32]) {
      const field = directionField(plane, { scalePx, masses: { labels } });
      expect(worst(field, (x, y) => (side(x, y) === 0 ? 115 : 30))).toBeLessThan(0.2);
    }
    const without = directionField(plane, { scalePx: 32 });
    expect(worst(without, (x, y) => (side(x, y) === 0 ? 115 : 30))).toBeGreaterThan(20);
  });

  it('a mute mass follows its contour: round a disc, along a slanted strip', () => {
    const disc = Int32Array.from({ length: 200 * 200 }, (_, i) =>
      Math.hypot((i % 200) + 0.5 - 100, Math.floor(i / 200) + 0.5 - 100) < 80 ? 1 : 0,
    );
    const flat = made(() => 120, 200, 200);
    const round = directionField(flat, { scalePx: 16, masses: { labels: disc } });
    expect(round.coherence.every((c) => c === 0)).toBe(true);
    const off = worst(round, (x, y) => {
      const r = Math.hypot(x - 100, y - 100);
      return r > 20 && r < 78 ? Math.atan2(y - 100, x - 100) / RADIANS + 90 : undefined;
    });
    // On a raster the border itself has steps: a few degrees are its own (10 is our own choice).
    expect(off).toBeLessThan(10);
    const strip = Int32Array.from({ length: 200 * 200 }, (_, i) =>
      Math.abs(
        ((i % 200) - 100) * Math.sin(25 * RADIANS) -
          (Math.floor(i / 200) - 100) * Math.cos(25 * RADIANS),
      ) < 25
        ? 1
        : 0,
    );
    const along = directionField(flat, { scalePx: 16, masses: { labels: strip } });
    expect(
      worst(along, (x, y) => {
        const far = Math.abs(
          (x - 100) * Math.sin(25 * RADIANS) - (y - 100) * Math.cos(25 * RADIANS),
        );
        return far < 22 && x > 40 && x < 160 ? 25 : undefined;
      }),
    ).toBeLessThan(10);
  });

  it('what the picture says outweighs the contour', () => {
    const labels = new Int32Array(WIDTH * HEIGHT).map((_, i) => (i % WIDTH < 50 ? 0 : 1));
    const field = directionField(made(stripes(20, 8)), { scalePx: 16, masses: { labels } });
    expect(worst(field, () => 20)).toBeLessThan(0.2);
  });

  it('any plane, scale and masses give finite directions', () => {
    const small = fc.integer({ min: 1, max: 20 });
    fc.assert(
      fc.property(
        small,
        small,
        fc.double({ min: 0.01, max: 300, noNaN: true }),
        fc.boolean(),
        fc.infiniteStream(fc.integer({ min: 0, max: 255 })),
        (width, height, scalePx, withMasses, stream) => {
          const values = [...stream.take(width * height)];
          const plane = { width, height, data: Uint8Array.from(values) };
          const labels = Int32Array.from(values, (value) => value % 3);
          const field = directionField(
            plane,
            withMasses ? { scalePx, masses: { labels } } : { scalePx },
          );
          expect(field.angle.length).toBe(width * height);
          expect(fits(field)).toBe(true);
          if (width === 1 && height === 1) expect(field.coherence[0]).toBe(0);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('the plane is not changed; the same in slices; the tensors are finite', () => {
    const plane = made(stripes(70, 7));
    const copy = plane.data.slice();
    const field = directionField(plane, { scalePx: 20 });
    expect(plane.data).toEqual(copy);
    const kernel = directionKernel(plane, { scalePx: 20 });
    let step = kernel.next();
    while (!step.done) {
      expect(step.value).toBeGreaterThanOrEqual(0);
      expect(step.value).toBeLessThanOrEqual(1);
      step = kernel.next();
    }
    expect(step.value).toEqual(field);
    const grid = structureTensor(plane, { scalePx: 20 });
    expect(grid.tensors.length).toBe(4 * grid.columns * grid.rows);
    expect(grid.tensors.every(Number.isFinite)).toBe(true);
  });

  it('refuses what it cannot use', () => {
    const plane = made(() => 1, 4, 4);
    expect(() => directionField(plane, { scalePx: 0 })).toThrow(/options\.scalePx/);
    expect(() => directionField(plane, { scalePx: NaN })).toThrow(RangeError);
    expect(() => directionField(plane, {} as never)).toThrow(TypeError);
    expect(() =>
      directionField(plane, { scalePx: 4, masses: { labels: new Int32Array(3) } }),
    ).toThrow(/options\.masses\.labels/);
    expect(() => directionField({ ...plane, width: 5 }, { scalePx: 4 })).toThrow(RangeError);
  });
});
