import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import {
  areaOf,
  foldOf,
  pointsText,
  type Point,
} from '../../components/value-band-viewer/corner.js';

const distance = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

describe('the lifted corner', () => {
  it('folds half a square along its diagonal when the corner meets the opposite one', () => {
    const { flat, open, flap } = foldOf(100, 100, [100, 100], [0, 0]);
    expect(areaOf(flat)).toBeCloseTo(5000, 9);
    expect(areaOf(open)).toBeCloseTo(5000, 9);
    expect(areaOf(flap)).toBeCloseTo(5000, 9);
  });

  it('turns over the triangle of a small lift', () => {
    // Corner to (80, 80): the crease is x + y = 180, a right triangle with legs of 20.
    const { open, flap, crease } = foldOf(100, 100, [100, 100], [80, 80]);
    expect(areaOf(open)).toBeCloseTo(200, 9);
    expect(flap.some((p) => distance(p, [80, 80]) < 1e-9)).toBe(true);
    for (const [x, y] of crease!) expect(x + y).toBeCloseTo(180, 9);
  });

  it('folds the sheet upright for a straight pull', () => {
    const { open } = foldOf(100, 60, [100, 60], [40, 60]);
    expect(areaOf(open)).toBeCloseTo(30 * 60, 9);
  });

  it('leaves the sheet flat when the corner is in its place', () => {
    const { flat, open, flap, crease } = foldOf(100, 60, [100, 60], [100, 60]);
    expect(areaOf(flat)).toBe(6000);
    expect([open, flap, crease]).toEqual([[], [], undefined]);
  });

  it('uncovers all when the corner is carried over the far end', () => {
    const { flat, open, crease } = foldOf(100, 60, [100, 60], [-101, -61]);
    expect(flat.length < 3 || areaOf(flat) < 1e-9).toBe(true);
    expect(areaOf(open)).toBeCloseTo(6000, 6);
    expect(crease).toBeUndefined();
  });

  it('divides the sheet by nearness to the corner and to where it was brought, and keeps the paper whole', () => {
    const size = fc.double({ min: 20, max: 2000, noNaN: true });
    const part = fc.double({ min: -0.9, max: 1, noNaN: true });
    fc.assert(
      fc.property(size, size, part, part, fc.boolean(), (width, height, a, b, left) => {
        const corner: Point = [left ? 0 : width, height];
        const to: Point = [a * width, b * height];
        fc.pre(distance(corner, to) > 1);
        const { flat, open, flap } = foldOf(width, height, corner, to);
        const scale = width * height;
        expect((areaOf(flat) + areaOf(open)) / scale).toBeCloseTo(1, 9);
        expect(areaOf(flap) / scale).toBeCloseTo(areaOf(open) / scale, 9);
        for (const p of open)
          expect(distance(p, corner)).toBeLessThanOrEqual(distance(p, to) + 1e-6);
        for (const p of flat)
          expect(distance(p, to)).toBeLessThanOrEqual(distance(p, corner) + 1e-6);
        // A reflection keeps distances: the flap's points lie from `to` as the open ones from the corner.
        flap.forEach((p, i) => expect(distance(p, to)).toBeCloseTo(distance(open[i], corner), 6));
      }),
    );
  });

  it('writes points for SVG and for CSS', () => {
    const points: Point[] = [
      [0, 1],
      [2.345, 6],
    ];
    expect(pointsText(points)).toBe('0.00 1.00 2.35 6.00');
    expect(pointsText(points, 'px')).toBe('0.00px 1.00px, 2.35px 6.00px');
  });
});
