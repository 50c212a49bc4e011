import { describe, expect, it } from 'vitest';
import { CLOSE, dosesOf, gradeOf, letDown, NEAR } from '../../core/paint/index.js';

const parts = (...amounts: number[]) =>
  ['ultramarine', 'burnt-sienna', 'yellow-ochre'].slice(0, amounts.length).map((tube, i) => ({
    tube,
    parts: amounts[i],
  }));

describe('dosesOf', () => {
  it('keeps whole parts, in lowest terms, the largest first', () => {
    const doses = dosesOf({ parts: parts(2, 6, 4), strength: 1 });
    expect(doses.paint).toEqual([
      { tube: 'burnt-sienna', spoons: 3 },
      { tube: 'yellow-ochre', spoons: 2 },
      { tube: 'ultramarine', spoons: 1 },
    ]);
    expect(doses.total).toBe(6);
    expect(doses.rounding).toBe(0);
  });

  // The heaviest wash: one spoon of water to one of paint (common practice, no source); half the strength is the paint in twice the liquid.
  it('doubles the liquid for half the strength', () => {
    const at = (strength: number) => dosesOf({ parts: parts(3, 1), strength });
    expect(at(1)).toMatchObject({ total: 4, water: 4, doublings: 0 });
    expect(at(0.5)).toMatchObject({ water: 12, doublings: 1 });
    expect(at(0.25)).toMatchObject({ water: 28, doublings: 2 });
    expect(at(4)).toMatchObject({ water: 0, doublings: -2 });
  });

  it('rounds real parts to what can be dosed, no tube lost', () => {
    const doses = dosesOf({ parts: parts(0.334, 0.333, 0.333), strength: 0.5 });
    expect(doses.paint.map(({ spoons }) => spoons)).toEqual([1, 1, 1]);
    expect(doses.rounding).toBeLessThan(0.001);
    const rare = dosesOf({ parts: parts(0.001, 0.999), strength: 0.5 });
    expect(rare.paint).toEqual([
      { tube: 'burnt-sienna', spoons: 11 },
      { tube: 'ultramarine', spoons: 1 },
    ]);
    expect(rare.rounding).toBeCloseTo(1 / 12 - 0.001, 9);
    const few = dosesOf({ parts: parts(5, 4, 2), strength: 1 }, { most: 5 });
    expect(few.total).toBeLessThanOrEqual(5);
    expect(few.paint.every(({ spoons }) => spoons >= 1)).toBe(true);
  });

  it('refuses parts and strengths that are none', () => {
    expect(() => dosesOf({ parts: [], strength: 1 })).toThrow(/mix\.parts/);
    expect(() => dosesOf({ parts: parts(1, -1), strength: 1 })).toThrow(/mix\.parts\[1\]\.parts/);
    expect(() => dosesOf({ parts: parts(1, NaN), strength: 1 })).toThrow(RangeError);
    expect(() => dosesOf({ parts: parts(1), strength: 0 })).toThrow(/mix\.strength/);
    expect(() => dosesOf({ parts: [{ tube: 'mud', parts: 1 }], strength: 1 })).toThrow(/"mud"/);
  });
});

describe('letDown', () => {
  it('takes one puddle where its water can be counted', () => {
    expect(letDown(1, 1)).toEqual([{ spoons: 1, water: 1 }]);
    expect(letDown(3, 0.5)).toEqual([{ spoons: 3, water: 9 }]);
    expect(letDown(2, 4)).toEqual([{ spoons: 2, water: 0 }]);
  });

  // Worked by hand: 12 paint in 12 water, 1 of it in 9 water is a tenth of the heaviest wash; 12 paint would ask for 228 water at once.
  it('lets a little of a first puddle down where the wash is weak', () => {
    expect(letDown(12, 0.1)).toEqual([
      { spoons: 12, water: 12 },
      { spoons: 1, water: 9 },
    ]);
  });

  // Of what is diluted the concentration times the volume stays (c1 V1 = c2 V2, any handbook of chemistry).
  it('keeps the paint in the liquid, whatever the parts and the strength', () => {
    for (let total = 1; total <= 12; total++) {
      for (let strength = 1.2; strength > 1e-4; strength /= 1.13) {
        const puddles = letDown(total, strength);
        let share = 1;
        for (const { spoons, water } of puddles) {
          expect(Number.isInteger(2 * water)).toBe(true);
          expect(water).toBeLessThanOrEqual(24);
          share *= spoons / (spoons + water);
        }
        expect(puddles[0].spoons).toBe(total);
        // The heaviest wash is half paint. To a half spoonful of the first puddle, else to some hundredths.
        const exact = strength / 2;
        const step = puddles.length === 1 ? 0.25 / (total / exact) : 0;
        expect(Math.abs(Math.log(share / exact))).toBeLessThan(0.045 + step);
      }
    }
  });

  it('refuses paint and strength of none', () => {
    expect(() => letDown(0, 1)).toThrow(/spoonfuls/);
    expect(() => letDown(NaN, 1)).toThrow(/spoonfuls/);
    expect(() => letDown(1, -1)).toThrow(/strength/);
  });
});

describe('grades', () => {
  // 1.8: half of observers accept it (Paravina et al. 2015, ISO/TR 28642:2016; from memory). 5: two colours are seen (Mokrzycki & Tatol 2011; from memory).
  it('are told as close, near, out of reach', () => {
    expect([CLOSE, NEAR]).toEqual([1.8, 5]);
    expect([0, 1.8, 1.9, 5, 5.1].map((deltaE) => gradeOf(deltaE))).toEqual([
      'close',
      'close',
      'near',
      'near',
      'out-of-reach',
    ]);
  });

  it('follow the spread of the painter’s own dabs', () => {
    expect(gradeOf(3, { spread: 3.5 })).toBe('close');
    expect(gradeOf(1.5, { spread: 0.2 })).toBe('close');
    expect(gradeOf(7, { spread: 8 })).toBe('close');
    expect(() => gradeOf(-1)).toThrow(RangeError);
    expect(() => gradeOf(1, { spread: NaN })).toThrow(RangeError);
  });
});
