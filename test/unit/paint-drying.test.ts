import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { driedLightness, DRYING_SHIFT, wetLightness } from '../../core/paint/index.js';
import film from '../reference/water-film.json' with { type: 'json' };

const lightness = fc.double({ min: 0, max: 100, noNaN: true });
const papers = fc.double({ min: 60, max: 100, noNaN: true });

/** CIE L* and Y as CIE 15 defines them, written out here so that the check does not lean on the code it checks. */
const lightnessOf = (Y: number): number =>
  Y > 216 / 24389 ? 116 * Math.cbrt(Y) - 16 : (24389 / 27) * Y;
const luminanceOf = (L: number): number => (L > 8 ? ((L + 16) / 116) ** 3 : (L * 27) / 24389);

describe('the mean drying shift', () => {
  // Published drying-shift table of 75 watercolour paints and mixtures: satin wet to dry, mean +2.3 L* (read in stored copies).
  it('is the published +2.3 L* for masstones', () => {
    for (const wet of [18, 25, 30, 45, 60])
      expect(driedLightness(wet).lightness - wet).toBeCloseTo(2.3, 10);
    expect(DRYING_SHIFT).toBe(2.3);
  });

  // Bare paper does not shift by drying paint; the default paper is L* 95.
  it('vanishes at the bare paper and shrinks toward it', () => {
    expect(driedLightness(95)).toEqual({ lightness: 95, low: 95, high: 95 });
    expect(driedLightness(94.9).lightness).toBeLessThan(95);
    const shifts = [75, 80, 85, 90, 94].map((wet) => driedLightness(wet).lightness - wet);
    expect(shifts).toEqual([...shifts].sort((a, b) => b - a));
    expect(driedLightness(80, { paper: 80 }).lightness).toBe(80);
    expect(driedLightness(97).lightness).toBe(97);
  });
});

describe('the film bound', () => {
  it('is the top of the range, as tabled', () => {
    for (const { wet, dry } of film.rows)
      expect(Math.abs(driedLightness(wet, { paper: 100 }).high - dry)).toBeLessThan(0.002);
  });

  it('is the bottom of the inverse range, as tabled', () => {
    for (const { wet, dry } of film.rows)
      expect(Math.abs(wetLightness(dry, { paper: 100 }).low - wet)).toBeLessThan(0.002);
  });

  // Fresnel's equations: n = 1.333; light inside the film meets its surface diffusely (Lambert), the part 1 - (1 - R) / n^2 comes back,
  // R being the diffuse reflectance from outside, integrated here over the half space.
  it('follows from the Fresnel equations', () => {
    const n = 1.333;
    const fresnel = (t: number): number => {
      const c = Math.cos(t);
      const k = Math.sqrt(n * n - Math.sin(t) ** 2);
      return (((c - k) / (c + k)) ** 2 + ((n * n * c - k) / (n * n * c + k)) ** 2) / 2;
    };
    const steps = 20000;
    let outside = 0;
    for (let i = 0; i < steps; i += 1) {
      const t = ((i + 0.5) / steps) * (Math.PI / 2);
      outside += fresnel(t) * Math.sin(2 * t) * (Math.PI / 2 / steps);
    }
    const back = 1 - (1 - outside) / (n * n);
    for (const dry of [20, 50, 80, 94]) {
      const albedo = luminanceOf(dry);
      const wet = ((1 - fresnel(0)) * (1 - back) * albedo) / (1 - back * albedo);
      expect(wetLightness(dry).low).toBeCloseTo(lightnessOf(wet), 4);
    }
  });
});

describe('driedLightness and wetLightness', () => {
  it('never darken, never pass the paper, and keep the estimate inside the range', () => {
    fc.assert(
      fc.property(lightness, papers, (wet, paper) => {
        const dried = driedLightness(wet, { paper });
        expect(dried.lightness).toBeGreaterThanOrEqual(wet);
        expect(dried.lightness).toBeLessThanOrEqual(Math.max(wet, paper));
        expect(dried.low).toBeLessThanOrEqual(dried.lightness);
        expect(dried.high).toBeGreaterThanOrEqual(dried.lightness);
        expect(dried.high).toBeLessThanOrEqual(Math.max(wet, paper));
      }),
    );
  });

  it('rise with the lightness', () => {
    fc.assert(
      fc.property(lightness, lightness, papers, (one, two, paper) => {
        const [dark, light] = [Math.min(one, two), Math.max(one, two)];
        for (const part of ['lightness', 'low', 'high'] as const) {
          expect(driedLightness(dark, { paper })[part]).toBeLessThanOrEqual(
            driedLightness(light, { paper })[part] + 1e-9,
          );
          expect(wetLightness(dark, { paper })[part]).toBeLessThanOrEqual(
            wetLightness(light, { paper })[part] + 1e-9,
          );
        }
      }),
    );
  });

  it('undo each other to a millionth', () => {
    fc.assert(
      fc.property(lightness, papers, (wet, paper) => {
        expect(
          Math.abs(
            wetLightness(driedLightness(wet, { paper }).lightness, { paper }).lightness - wet,
          ),
        ).toBeLessThan(1e-6);
      }),
    );
  });

  it('agree on what may dry to what', () => {
    fc.assert(
      fc.property(lightness, papers, (wet, paper) => {
        const { low, high } = driedLightness(wet, { paper });
        for (const dry of [low, high, (low + high) / 2]) {
          if (dry >= paper) continue; // at the paper itself the range of what may dry to it is not told
          const back = wetLightness(dry, { paper });
          expect(back.low).toBeLessThanOrEqual(wet + 1e-6);
          expect(back.high).toBeGreaterThanOrEqual(wet - 1e-6);
        }
      }),
    );
  });

  it('refuse what is no lightness, naming it', () => {
    expect(() => driedLightness(Number.NaN)).toThrow(
      /wet is NaN; expected a finite number from 0 to 100/,
    );
    expect(() => driedLightness(101)).toThrow(RangeError);
    expect(() => driedLightness('50' as never)).toThrow(TypeError);
    expect(() => wetLightness(-1)).toThrow(/dry is -1/);
    expect(() => driedLightness(50, { paper: 120 })).toThrow(/options\.paper is 120/);
    expect(() => driedLightness(50, null as never)).toThrow(/options is null/);
  });
});
