import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bandAt,
  labInPaint,
  newPlan,
  paintLightness,
  photoLightness,
  planFaults,
  rangeMapOf,
  withBandAdded,
  withBoard,
  withLimitMoved,
  withLimits,
  withRange,
  type Plan,
} from '../../core/plan/index.js';

/** Photo 0..100 in paint 25..95, shared: L* of paint = 25 + 0.7 L* of the photo. */
const shared = { low: 0, high: 100, holding: 0 };

describe('a plan with a range', () => {
  it('keeps the limits of the photo; those of paint and the board follow', () => {
    const plan = withRange(newPlan(), shared);
    expect(plan.photoLimits).toEqual([36, 66]);
    // 25 + 0.7 * 36 = 50.2, 25 + 0.7 * 66 = 71.2
    expect(plan.paintLimits[0]).toBeCloseTo(50.2, 12);
    expect(plan.paintLimits[1]).toBeCloseTo(71.2, 12);
    const [low, high] = plan.paintLimits;
    expect(plan.board.bands).toEqual([
      { name: 'dark', floor: 0, ceiling: low },
      { name: 'middle', floor: low, ceiling: high },
      { name: 'light', floor: high, ceiling: 95 },
    ]);
    expect(planFaults(plan)).toEqual([]);
    expect(withRange(plan, { ...shared })).toBe(plan);
    expect(withRange(plan, undefined)).toEqual(newPlan());
  });

  it('moves limits in the photo and floors in paint', () => {
    const plan = withRange(newPlan(), shared);
    const moved = withLimitMoved(plan, 0, 50);
    expect(moved.photoLimits).toEqual([50, 66]);
    expect(moved.paintLimits[0]).toBeCloseTo(60, 12); // 25 + 35
    expect(moved.board.bands[0].ceiling).toBe(moved.paintLimits[0]);
    expect(withLimits(moved, [50, 66])).toBe(moved);
  });

  it('swatches stay; a new limit sends them to the side that their paint lies on', () => {
    const swatches = [
      { id: 'a', bucket: 0, lightness: 38 },
      { id: 'b', bucket: 0, lightness: 36 },
    ];
    const board = { ...newPlan().board, swatches };
    const plan = withRange(newPlan({ board }), shared);
    expect(plan.board.swatches).toEqual(swatches);
    // Split at L* 18 of the photo: 25 + 0.7 * 18 = 37.6 in paint.
    const split = withBandAdded(plan, 0, 'darkest', 18);
    expect(split.board.bands[0].ceiling).toBeCloseTo(37.6, 12);
    expect(split.board.swatches.map(({ bucket }) => bucket)).toEqual([1, 0]);
  });

  it('without one nothing differs between photo and paint', () => {
    const plan = newPlan();
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100, noNaN: true }), (l) => {
        expect(paintLightness(plan, l)).toBe(l);
        expect(photoLightness(plan, l)).toBe(l);
      }),
    );
    expect(withLimits(plan, [20, 40]).paintLimits).toEqual([20, 40]);
  });

  it('a photo that paint reaches is not changed', () => {
    const plan = withRange(newPlan(), { low: 30, high: 90, holding: -1 });
    expect(plan.paintLimits).toEqual([36, 66]);
  });

  it('goes by the darkest paint and the paper', () => {
    const paper = { widthMm: 100, heightMm: 100, lightness: 90 };
    const plan = newPlan({ paper, range: { ...shared, darkest: 40 }, photoLimits: [20] });
    // 40 + 0.5 * 20
    expect(plan.paintLimits).toEqual([50]);
    expect(plan.board.bands[1]).toEqual({ name: 'light', floor: 50, ceiling: 90 });
    const dark = withRange({ ...plan, paper: { ...paper, lightness: 30 } }, plan.range);
    expect(rangeMapOf(dark).paint).toEqual({ low: 29, high: 30 });
    expect(planFaults(dark)).toEqual([]);
    const black = withRange({ ...plan, paper: { ...paper, lightness: 0 } }, plan.range);
    expect(planFaults(black)).toEqual([]);
  });

  it('a board is paint: limits in the photo are what comes to lie at its floors', () => {
    const plan = withRange(newPlan({ paperLimit: 97 }), shared);
    const bands = [
      { name: 'a', floor: 0, ceiling: 60 },
      { name: 'b', floor: 60, ceiling: 81 },
      { name: 'c', floor: 81, ceiling: 95 },
    ];
    const next = withBoard(plan, { bands, swatches: [] });
    expect(next.board.bands).toEqual(bands);
    expect(next.paintLimits).toEqual([60, 81]);
    // (60 - 25) / 0.7 = 50, (81 - 25) / 0.7 = 80
    expect(next.photoLimits[0]).toBeCloseTo(50, 12);
    expect(next.photoLimits[1]).toBeCloseTo(80, 12);
    expect(next.paperLimit).toBe(97);
    expect(withBoard(next, next.board).photoLimits).toBe(next.photoLimits);
    const wider = withBoard(plan, { ...next.board, bands: bands.slice(1) });
    expect(wider.photoLimits).toHaveLength(1);
  });

  it('floors that the photo does not reach leave the plan sound', () => {
    const plan = withRange(newPlan({ paperLimit: 97 }), shared);
    for (const floors of [
      [5, 10, 20, 24],
      [10, 50, 96, 97],
      [96, 97, 98, 99],
      [0, 99, 99.5, 100],
    ]) {
      const bands = [0, ...floors].map((floor, i) => ({
        name: `${i}`,
        floor,
        ceiling: floors[i] ?? 100,
      }));
      const next = withBoard(plan, { bands, swatches: [] });
      expect(planFaults(next)).toEqual([]);
      expect(next.paintLimits).toEqual(floors);
    }
  });

  it('a reading of the photo goes to the board by its lightness; a* and b* are kept', () => {
    const plan = withRange(newPlan(), shared);
    const [l, a, b] = labInPaint(plan, [50, 12, -30]);
    expect(l).toBeCloseTo(60, 12);
    expect([a, b]).toEqual([12, -30]);
    expect(photoLightness(plan, 60)).toBeCloseTo(50, 12);
    expect(() => labInPaint(plan, [50, 12] as never)).toThrow(TypeError);
    expect(() => paintLightness(plan, 101)).toThrow(RangeError);
  });

  it('a reading lies in paint in the band that it lies in in the photo', () => {
    const ranges = fc
      .record({
        low: fc.double({ min: 0, max: 60, noNaN: true }),
        high: fc.double({ min: 62, max: 100, noNaN: true }),
        holding: fc.double({ min: -1, max: 1, noNaN: true }),
      })
      .map((range) => withRange(newPlan(), range));
    fc.assert(
      fc.property(ranges, fc.double({ min: 0, max: 100, noNaN: true }), (plan: Plan, l) => {
        expect(planFaults(plan)).toEqual([]);
        const inPaint = paintLightness(plan, l);
        // Nearer to a limit than arithmetic tells, either side will do.
        if (plan.photoLimits.some((limit) => Math.abs(limit - l) < 1e-9)) return;
        expect(plan.paintLimits.filter((limit) => inPaint >= limit).length).toBe(bandAt(plan, l));
      }),
    );
  });

  it('refuses a range that is none', () => {
    expect(() => withRange(newPlan(), { low: 50, high: 50, holding: 0 })).toThrow(/^photo is/);
    expect(() => withRange(newPlan(), { low: 5, high: 50, holding: 2 })).toThrow(/^holding is 2/);
    expect(() => withRange(newPlan(), null as never)).toThrow(/^range is null/);
  });
});
