/** Loops about the subject. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loopArea, loopBounds, type Spot } from '../../core/index.js';
import {
  closedLoop,
  LEAST_LOOP,
  movedLoop,
  ovalLoop,
  scaledLoop,
} from '../../components/value-band-viewer/tools/loop-geometry.js';

const photo = { width: 1000, height: 500 };

const isInside = (loop: readonly Spot[]): boolean =>
  loop.every(([x, y]) => x >= 0 && x <= 1 && y >= 0 && y <= 1);

describe('a drawn line', () => {
  it('becomes a loop with few points that keeps its corners', () => {
    // A square walked in steps of a pixel: only its corners are needed.
    const line: Spot[] = [];
    for (let i = 0; i <= 100; i++) line.push([(200 + i) / 1000, 100 / 500]);
    for (let i = 1; i <= 100; i++) line.push([300 / 1000, (100 + i) / 500]);
    for (let i = 1; i <= 100; i++) line.push([(300 - i) / 1000, 200 / 500]);
    for (let i = 1; i < 100; i++) line.push([200 / 1000, (200 - i) / 500]);
    const loop = closedLoop(line, photo, 0.5)!;
    expect(loop).toHaveLength(4);
    // 100 x 100 pixels of 1000 x 500 are a fiftieth
    expect(loopArea(loop)).toBeCloseTo(0.02, 9);
  });

  it('is kept on the photo where it was drawn past it', () => {
    const loop = closedLoop(
      [
        [-0.3, -0.2],
        [1.4, 0.1],
        [0.5, 1.7],
      ],
      photo,
      1,
    )!;
    expect(loop).toEqual([
      [0, 0],
      [1, 0.1],
      [0.5, 1],
    ]);
  });

  it('is none when it encloses next to nothing', () => {
    expect(closedLoop([[0.5, 0.5]], photo, 1)).toBeUndefined();
    expect(
      closedLoop(
        [
          [0.5, 0.5],
          [0.51, 0.5],
          [0.5, 0.51],
        ],
        photo,
        1,
      ),
    ).toBeUndefined();
    expect(
      closedLoop(
        [
          [0.1, 0.5],
          [0.5, 0.5],
          [0.9, 0.5],
        ],
        photo,
        1,
      ),
    ).toBeUndefined();
  });

  it('stays inside, closed and short for any scribble', () => {
    const spot = fc.tuple(
      fc.double({ min: -1, max: 2, noNaN: true }),
      fc.double({ min: -1, max: 2, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(spot, { maxLength: 900 }), (line) => {
        const loop = closedLoop(line as Spot[], photo, 1);
        if (!loop) return;
        expect(loop.length).toBeGreaterThanOrEqual(3);
        expect(loop.length).toBeLessThanOrEqual(400);
        expect(isInside(loop)).toBe(true);
      }),
      { numRuns: 40 },
    );
  });
});

describe('an oval', () => {
  it('has the area of an ellipse but for its corners', () => {
    // An inscribed polygon of n corners has n/2 sin(2 pi / n) r^2 instead of pi r^2 (elementary geometry).
    const loop = ovalLoop(0.25, 0.25, 0.5, 0.25, 48);
    const polygon = 24 * Math.sin((2 * Math.PI) / 48) * 0.25 * 0.125;
    expect(loopArea(loop)).toBeCloseTo(polygon, 9);
    expect(loopBounds(loop)).toMatchObject({ x: 0.25, y: 0.25, width: 0.5, height: 0.25 });
  });
});

describe('a loop moved and scaled', () => {
  const loop = ovalLoop(0.4, 0.4, 0.2, 0.2);

  it('moves as far as the photo reaches', () => {
    expect(loopBounds(movedLoop(loop, 0.1, -0.1)).x).toBeCloseTo(0.5, 9);
    const corner = loopBounds(movedLoop(loop, 9, 9));
    expect(corner.x + corner.width).toBeCloseTo(1, 9);
    expect(corner.y + corner.height).toBeCloseTo(1, 9);
    expect(corner.width).toBeCloseTo(0.2, 9);
  });

  it('scales about its middle', () => {
    const wide = loopBounds(scaledLoop(loop, 2, 1));
    expect(wide.width).toBeCloseTo(0.4, 9);
    expect(wide.height).toBeCloseTo(0.2, 9);
    expect(wide.x).toBeCloseTo(0.3, 9);
  });

  it('neither leaves the photo nor vanishes', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 100, noNaN: true }),
        fc.double({ min: 0.001, max: 100, noNaN: true }),
        fc.double({ min: -2, max: 2, noNaN: true }),
        (across, down, dx) => {
          const next = movedLoop(scaledLoop(loop, across, down), dx, -dx);
          expect(isInside(next)).toBe(true);
          expect(loopBounds(next).width).toBeGreaterThanOrEqual(LEAST_LOOP - 1e-9);
          expect(loopBounds(next).height).toBeGreaterThanOrEqual(LEAST_LOOP - 1e-9);
        },
      ),
    );
  });
});
