/** Places and sizes of the hole card. All expected numbers are worked by hand from the sizes named beside them. */
import { describe, expect, it } from 'vitest';
import {
  aspectOf,
  cardSide,
  holeOnStage,
  holeSize,
  keptOn,
  loupeCorner,
  middleOf,
  nextHole,
  onStage,
  percentsOf,
  radiusOf,
  spotAt,
  steppedFrom,
  WHOLE,
  type Sheet,
} from '../../components/lightness-picker/geometry.js';

const lying: Sheet = { photo: { width: 4000, height: 3000 }, crop: WHOLE, paperWidthMm: 400 };
const standing: Sheet = { photo: { width: 3000, height: 4000 }, crop: WHOLE, paperWidthMm: 300 };
const middleHalf = { x: 0.25, y: 0, width: 0.5, height: 1 };

describe('the hole on the photo', () => {
  it('has its size on the paper: 20 mm at 10 px a millimetre is a radius of 100 px', () => {
    expect(radiusOf(20, lying)).toBeCloseTo(100 / 4000, 12);
    // The radius is a fraction of the longer side, which stands upright here.
    expect(radiusOf(20, standing)).toBeCloseTo(100 / 4000, 12);
  });

  it('covers fewer pixels when only a part of the photo fills the paper', () => {
    // 2000 px on 400 mm are 5 px a millimetre.
    expect(radiusOf(20, { ...lying, crop: middleHalf })).toBeCloseTo(50 / 4000, 12);
  });

  it('is drawn at its size on the stage: 20 of 400 mm on 800 px are 40 px', () => {
    expect(holeOnStage(20, 400, { width: 800, height: 600 })).toBe(40);
  });

  it('keeps to sizes that can be used', () => {
    expect(holeSize(8)).toBe(8);
    expect(holeSize(0.1)).toBe(0.5);
    expect(holeSize(1000)).toBe(200);
    for (const wrong of [Number.NaN, Number.POSITIVE_INFINITY, 0, -3])
      expect(holeSize(wrong)).toBe(12);
  });

  it('steps to the neighbouring size, from between sizes too, and stops at the ends', () => {
    expect(nextHole(12, 1)).toBe(15);
    expect(nextHole(12, -1)).toBe(10);
    expect(nextHole(13.5, 1)).toBe(15);
    expect(nextHole(13.5, -1)).toBe(12);
    expect(nextHole(200, 1)).toBe(200);
    expect(nextHole(0.5, -1)).toBe(0.5);
  });
});

describe('places', () => {
  const stage = { width: 400, height: 300 };

  it('go from the stage to the photo and back', () => {
    expect(spotAt(100, 150, stage, WHOLE)).toEqual([0.25, 0.5]);
    expect(spotAt(100, 150, stage, middleHalf)).toEqual([0.375, 0.5]);
    expect(onStage([0.375, 0.5], stage, middleHalf)).toEqual([100, 150]);
  });

  it('stay on the painted part', () => {
    expect(spotAt(-50, 900, stage, middleHalf)).toEqual([0.25, 1]);
    expect(keptOn([0.9, -1], middleHalf)).toEqual([0.75, 0]);
    expect(middleOf(middleHalf)).toEqual([0.5, 0.5]);
  });

  it('step as far down as across: one two-hundredth of the longer side, ten times that with Shift', () => {
    const sheet: Sheet = { photo: { width: 4000, height: 2000 }, crop: WHOLE, paperWidthMm: 400 };
    const [right] = steppedFrom([0.5, 0.5], 1, 0, false, sheet);
    const [, down] = steppedFrom([0.5, 0.5], 0, 1, false, sheet);
    expect((right - 0.5) * 4000).toBeCloseTo(20, 9);
    expect((down - 0.5) * 2000).toBeCloseTo(20, 9);
    expect((steppedFrom([0.5, 0.5], -1, 0, true, sheet)[0] - 0.5) * 4000).toBeCloseTo(-200, 9);
    expect(steppedFrom([0.999, 0.5], 1, 0, true, sheet)).toEqual([1, 0.5]);
  });

  it('are told in percents of the painted part', () => {
    expect(percentsOf([0.375, 0.5], middleHalf)).toEqual({ across: 25, down: 50 });
  });
});

describe('card and loupe', () => {
  it('follow the shape of the painted part', () => {
    expect(aspectOf(lying)).toBeCloseTo(4 / 3, 12);
    expect(aspectOf({ ...lying, crop: middleHalf })).toBeCloseTo(2 / 3, 12);
  });

  it('leave grey about the hole, whatever its size', () => {
    for (const hole of [1, 20, 100, 400]) {
      for (const width of [200, 360, 1440])
        expect(cardSide(hole, { width, height: width * 0.7 })).toBeGreaterThan(2 * hole);
    }
  });

  it('show the enlarged hole far from the finger', () => {
    expect(loupeCorner(10, { width: 300, height: 200 })).toBe('right');
    expect(loupeCorner(290, { width: 300, height: 200 })).toBe('left');
  });
});
