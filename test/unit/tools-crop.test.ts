/** The part of a photo that is painted: frames by hand and by property. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cropOf,
  draggedWidth,
  frameOf,
  gripAt,
  GRIPS,
  hasAspect,
  largestFrame,
  moved,
  refitted,
  resized,
  type Frame,
  type Grip,
  type PhotoSize,
} from '../../components/value-band-viewer/tools/crop-geometry.js';

const photo: PhotoSize = { width: 1200, height: 900 };
const frame: Frame = { x: 200, y: 150, width: 600, height: 400 };

/** Sizes of photos, proportions of paper, and frames of that proportion inside the photo. */
const cases = fc
  .record({
    width: fc.integer({ min: 40, max: 6000 }),
    height: fc.integer({ min: 40, max: 6000 }),
    aspect: fc.double({ min: 0.3, max: 3, noNaN: true }),
    size: fc.double({ min: 0.1, max: 1, noNaN: true }),
    x: fc.double({ min: 0, max: 1, noNaN: true }),
    y: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  .map(({ width, height, aspect, size, x, y }) => {
    const most = Math.min(width, height * aspect);
    const w = most * size;
    const h = w / aspect;
    return {
      photo: { width, height },
      aspect,
      frame: { x: x * (width - w), y: y * (height - h), width: w, height: h },
    };
  });

const isInside = ({ x, y, width, height }: Frame, size: PhotoSize): boolean =>
  x >= -1e-6 && y >= -1e-6 && x + width <= size.width + 1e-6 && y + height <= size.height + 1e-6;

describe('a crop and its frame', () => {
  it('are the same place, in fractions and in pixels', () => {
    const crop = { x: 0.25, y: 0.5, width: 0.5, height: 0.25 };
    expect(frameOf(crop, photo)).toEqual({ x: 300, y: 450, width: 600, height: 225 });
    expect(cropOf(frameOf(crop, photo), photo)).toEqual(crop);
    expect(frameOf(undefined, photo)).toEqual({ x: 0, y: 0, width: 1200, height: 900 });
  });

  it('never reach past the photo, however the figures are rounded', () => {
    fc.assert(
      fc.property(cases, ({ photo: size, frame: each }) => {
        const { x, y, width, height } = cropOf(each, size);
        expect(x + width).toBeLessThanOrEqual(1);
        expect(y + height).toBeLessThanOrEqual(1);
        expect(width).toBeGreaterThan(0);
        expect(height).toBeGreaterThan(0);
      }),
    );
  });
});

describe('the largest part', () => {
  it('touches two opposite borders and lies in the middle', () => {
    expect(largestFrame(photo, 1)).toEqual({ x: 150, y: 0, width: 900, height: 900 });
    expect(largestFrame(photo, 2)).toEqual({ x: 0, y: 150, width: 1200, height: 600 });
    expect(largestFrame(photo, 4 / 3)).toEqual({ x: 0, y: 0, width: 1200, height: 900 });
  });
});

describe('fitting to another proportion', () => {
  it('keeps middle and area where there is room', () => {
    // 600 x 400 is 240000 square pixels; a square of that has sides of sqrt(240000) = 489.898
    const square = refitted(frame, photo, 1);
    expect(square.width).toBeCloseTo(489.898, 3);
    expect(square.height).toBeCloseTo(489.898, 3);
    expect(square.x + square.width / 2).toBeCloseTo(500, 6);
    expect(square.y + square.height / 2).toBeCloseTo(350, 6);
  });

  it('leaves a frame alone that has the proportion', () => {
    expect(refitted(frame, photo, 1.5)).toBe(frame);
  });

  it('stays inside the photo with the proportion asked for', () => {
    fc.assert(
      fc.property(cases, fc.double({ min: 0.3, max: 3, noNaN: true }), (one, aspect) => {
        const next = refitted(one.frame, one.photo, aspect);
        expect(isInside(next, one.photo)).toBe(true);
        expect(hasAspect(next, aspect)).toBe(true);
      }),
    );
  });
});

describe('moving', () => {
  it('stops at the borders', () => {
    expect(moved(frame, 50, -20, photo)).toEqual({ ...frame, x: 250, y: 130 });
    expect(moved(frame, 5000, -5000, photo)).toEqual({ ...frame, x: 600, y: 0 });
  });
});

describe('resizing', () => {
  it('keeps the opposite corner', () => {
    // aspect 1.5: 300 wide is 200 high; the corner at (800, 550) stays
    expect(resized(frame, 300, photo, 1.5, 'nw')).toEqual({
      x: 500,
      y: 350,
      width: 300,
      height: 200,
    });
    expect(resized(frame, 300, photo, 1.5, 'se')).toEqual({
      x: 200,
      y: 150,
      width: 300,
      height: 200,
    });
  });

  it('keeps the opposite side and grows evenly across it', () => {
    expect(resized(frame, 300, photo, 1.5, 'e')).toEqual({
      x: 200,
      y: 250,
      width: 300,
      height: 200,
    });
    expect(resized(frame, 300, photo, 1.5, 'n')).toEqual({
      x: 350,
      y: 350,
      width: 300,
      height: 200,
    });
  });

  it('grows about the middle without a grip', () => {
    expect(resized(frame, 300, photo, 1.5)).toEqual({ x: 350, y: 250, width: 300, height: 200 });
  });

  it('ends where the photo ends', () => {
    // from the corner (200, 150) there are 1000 across and 750 down; 1000 / 1.5 = 666.7 fits
    expect(resized(frame, 9999, photo, 1.5, 'se').width).toBe(1000);
    // from the corner (800, 550) there are 800 across and 550 down; 550 * 1.5 = 825 does not bind
    expect(resized(frame, 9999, photo, 1.5, 'nw').width).toBe(800);
  });

  it('holds for every grip: inside, in proportion, opposite side unmoved', () => {
    fc.assert(
      fc.property(
        cases,
        fc.constantFrom(...(Object.keys(GRIPS) as Grip[])),
        fc.double({ min: -8000, max: 8000, noNaN: true }),
        (one, grip, width) => {
          const next = resized(one.frame, width, one.photo, one.aspect, grip);
          expect(isInside(next, one.photo)).toBe(true);
          expect(next.width / next.height).toBeCloseTo(one.aspect, 6);
          expect(next.width).toBeGreaterThan(0);
          const [gx, gy] = GRIPS[grip];
          if (gx !== 0.5) {
            const side = (each: Frame): number => each.x + (1 - gx) * each.width;
            expect(side(next)).toBeCloseTo(side(one.frame), 4);
          }
          if (gy !== 0.5) {
            const side = (each: Frame): number => each.y + (1 - gy) * each.height;
            expect(side(next)).toBeCloseTo(side(one.frame), 4);
          }
        },
      ),
    );
  });
});

describe('dragging', () => {
  it('follows the pointer along the diagonal exactly', () => {
    expect(draggedWidth(frame, 'se', 150, 100, 1.5)).toBe(750);
    expect(draggedWidth(frame, 'nw', 150, 100, 1.5)).toBe(450);
    expect(draggedWidth(frame, 'ne', 150, -100, 1.5)).toBe(750);
  });

  it('follows one axis at a side', () => {
    expect(draggedWidth(frame, 'e', 150, 77, 1.5)).toBe(750);
    expect(draggedWidth(frame, 's', 77, 100, 1.5)).toBe(750);
  });
});

describe('taking hold', () => {
  it('finds the nearest grip within reach, else none', () => {
    expect(gripAt(frame, 203, 148, 16)).toBe('nw');
    expect(gripAt(frame, 805, 352, 16)).toBe('e');
    expect(gripAt(frame, 500, 350, 16)).toBeUndefined();
  });

  it('leaves the inside of a small frame free', () => {
    const small: Frame = { x: 100, y: 100, width: 60, height: 40 };
    expect(gripAt(small, 130, 105, 16)).toBeUndefined();
    expect(gripAt(small, 101, 101, 16)).toBe('nw');
  });
});
