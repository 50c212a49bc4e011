/** The mixing well's plain helpers: the strip, bands along it, recipes, swatches. Expected values are worked out by hand. */
import { describe, expect, it } from 'vitest';
import {
  bandOf,
  canMix,
  groundOf,
  known,
  loadsOf,
  mixable,
  placeOf,
  steadinessOf,
  strengthAt,
  stretchesOf,
  STRONGEST,
  WEAKEST,
} from '../../components/mixing-well/mixture.js';
import { USUAL_SHELF } from '../../components/mixing-well/shelf-view.js';
import { freeId, recipeOf, swatchOf } from '../../components/shared/mix-swatch.js';
import { isLasting, mixOnPaper, newPlan, tubeOf } from '../../core/index.js';

const BANDS = [
  { name: 'dark', floor: 0, ceiling: 30 },
  { name: 'middle', floor: 30, ceiling: 60 },
  { name: 'light', floor: 60, ceiling: 95 },
];

describe('the strip from weak to strong', () => {
  it('runs from the weakest to the strongest, a doubling of the water being one length', () => {
    expect(strengthAt(0)).toBeCloseTo(WEAKEST, 12);
    expect(strengthAt(1)).toBeCloseTo(STRONGEST, 12);
    expect(placeOf(0.4) - placeOf(0.2)).toBeCloseTo(placeOf(0.8) - placeOf(0.4), 12);
    for (const strength of [0.03, 0.2, 0.7, 1.1])
      expect(strengthAt(placeOf(strength))).toBeCloseTo(strength, 12);
    expect(placeOf(1e-9)).toBe(0);
    expect(placeOf(50)).toBe(1);
  });

  it('is parted where the lightness crosses a floor, in proportion between two samples', () => {
    const strip = { css: [], lightness: [90, 70, 50, 20, 10] };
    // 60 lies half way from 70 to 50: place (1 + 1/2) / 4. 30 lies two thirds of the way from 50 to 20: (2 + 2/3) / 4.
    expect(stretchesOf(strip, BANDS)).toEqual([
      { band: 2, from: 0, to: 0.375 },
      { band: 1, from: 0.375, to: expect.closeTo(8 / 12, 12) as number },
      { band: 0, from: expect.closeTo(8 / 12, 12) as number, to: 1 },
    ]);
  });

  it('passes over a band that lies between two samples', () => {
    const strip = { css: [], lightness: [90, 10] };
    const stretches = stretchesOf(strip, BANDS);
    expect(stretches.map(({ band }) => band)).toEqual([2, 1, 0]);
    expect(stretches[0].to).toBeCloseTo(30 / 80, 12);
    expect(stretches[1].to).toBeCloseTo(60 / 80, 12);
  });

  it('is one stretch where nothing is crossed', () => {
    expect(stretchesOf({ css: [], lightness: [80, 70] }, BANDS)).toEqual([
      { band: 2, from: 0, to: 1 },
    ]);
  });

  it('puts a lightness in the band by its floor', () => {
    expect([0, 29.9, 30, 60, 99].map((L) => bandOf(BANDS, L))).toEqual([0, 0, 1, 2, 2]);
  });
});

describe('the shelf', () => {
  it('tells tubes, tubes without data and unknown ones', () => {
    expect(known('ultramarine').kind).toBe('tube');
    expect(known('viridian').kind).toBe('no-data');
    expect(known('of-tomorrow').kind).toBe('unknown');
    const shelf = [{ tube: 'ultramarine', load: 2 }, { tube: 'viridian', load: 3 }, { tube: 'x' }];
    expect(mixable(shelf)).toEqual(['ultramarine']);
    expect(loadsOf(shelf)).toEqual({ ultramarine: 2 });
    expect(canMix({ parts: [{ tube: 'viridian', parts: 1 }], strength: 1 })).toBe(false);
    expect(
      canMix({
        parts: [{ tube: 'ultramarine', parts: 1 }],
        strength: 1,
        over: [{ parts: [{ tube: 'x', parts: 1 }], strength: 1 }],
      }),
    ).toBe(false);
  });

  it('begins with tubes that last and of which no hazard is noted', () => {
    expect(new Set(USUAL_SHELF).size).toBe(8);
    for (const id of USUAL_SHELF) {
      expect(isLasting(tubeOf(id)), id).toBe(true);
      expect(tubeOf(id).cautions, id).toEqual([]);
    }
  });

  it('calls a mix steady, careful or touchy', () => {
    expect([0.2, 1, 1.01, 2.5, 2.6].map(steadinessOf)).toEqual([
      'steady',
      'steady',
      'careful',
      'careful',
      'touchy',
    ]);
  });
});

describe('a mix written down', () => {
  it('keeps its parts and layers, and a strength above 0', () => {
    const parts = [{ tube: 'ultramarine', parts: 1 / 3 }];
    expect(recipeOf(parts, 1e-9)).toEqual({
      parts: [{ tube: 'ultramarine', parts: 0.3333 }],
      strength: 1e-4,
    });
    expect(recipeOf(parts, 0.5, [{ parts, strength: 0.25 }]).over).toEqual([
      { parts: [{ tube: 'ultramarine', parts: 0.3333 }], strength: 0.25 },
    ]);
  });

  it('becomes a swatch whose uncertainty is half of what the prediction may be off', () => {
    const ground = groundOf(newPlan({ shelf: [{ tube: 'ultramarine' }] }));
    const mix = mixOnPaper([{ tube: 'ultramarine', parts: 1 }], { strength: 0.3 });
    const swatch = swatchOf(mix, [], { id: 'mix-1', bucket: 1, name: 'n'.repeat(200) }, ground);
    // The data's strength may be off by the median ratio of two published sets, 1.349 (see the tubes).
    const at = (factor: number): number =>
      mixOnPaper([{ tube: 'ultramarine', parts: 1 }], { strength: 0.3 * factor }).lab[0];
    expect(swatch.uncertainty).toBeCloseTo((at(1 / 1.349) - at(1.349)) / 2, 1);
    expect(swatch.lightness).toBeCloseTo(mix.lab[0], 2);
    expect(swatch.name).toHaveLength(120);
    expect(swatch).toMatchObject({ id: 'mix-1', bucket: 1, from: 'mix', css: mix.css });
  });

  it('gets a name of its own', () => {
    expect(freeId([])).toBe('mix-1');
    expect(freeId([{ id: 'mix-2' }])).toBe('mix-3');
  });
});
