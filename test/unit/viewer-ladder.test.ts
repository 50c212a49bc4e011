import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { newPlan, sharesOfHistogram, withLimits } from '../../core/index.js';
import { areaOf } from '../../components/value-band-viewer/corner.js';
import { cutOf, paletteOf, sharesOfCut, tonesOf } from '../../components/value-band-viewer/cut.js';
import { puddleOutline, smoothPath } from '../../components/value-band-viewer/puddle.js';
import {
  heightOf,
  heightOfValue,
  LADDER_HEIGHT,
  lightnessAt,
  spread,
  steppedValue,
  valueOfHeight,
} from '../../components/value-band-viewer/rungs.js';
import { fileNameOf } from '../../components/value-band-viewer/save.js';
import munsell from '../reference/munsell-value.json' with { type: 'json' };

describe('the ladder', () => {
  it('stands values at even heights, white at the head', () => {
    expect(heightOfValue(0) - heightOfValue(10)).toBe(10 * (heightOfValue(0) - heightOfValue(1)));
    expect(heightOfValue(10)).toBeGreaterThan(0);
    expect(heightOfValue(0)).toBeLessThan(LADDER_HEIGHT);
    expect(valueOfHeight(-100)).toBe(10);
    expect(valueOfHeight(9999)).toBe(0);
  });

  it('stands a lightness where ASTM D1535 puts its value', () => {
    // V and L* of the table in test/reference/munsell-value.json (ASTM D1535-08).
    for (const [value, , lightness] of munsell.rows) {
      expect(heightOf(lightness)).toBeCloseTo(heightOfValue(value), 3);
      expect(lightnessAt(value)).toBeCloseTo(lightness, 1);
    }
  });

  it('steps by tenths of a value from wherever it stands', () => {
    expect(steppedValue(3.52, 1)).toBe(3.6);
    expect(steppedValue(3.52, -1)).toBe(3.4);
    expect(steppedValue(9.7, 10)).toBe(10);
    expect(steppedValue(0.2, -10)).toBe(0);
  });

  it('parts what would overlap and leaves the rest where it belongs', () => {
    expect(spread([10, 100, 200], [20, 20, 20], 0, 300)).toEqual([10, 100, 200]);
    expect(spread([100, 100], [20, 20], 0, 300)).toEqual([90, 110]);
    expect(spread([0, 0], [20, 20], 0, 300)).toEqual([10, 30]);
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 400 }), fc.integer({ min: 1, max: 60 })), {
          minLength: 1,
          maxLength: 6,
        }),
        (things) => {
          const centres = things.map(([c]) => c).sort((a, b) => a - b);
          const sizes = things.map(([, s]) => s);
          const placed = spread(centres, sizes, 0, 400);
          placed.forEach((centre, i) => {
            if (i > 0)
              expect(centre - placed[i - 1]).toBeGreaterThanOrEqual(
                (sizes[i - 1] + sizes[i]) / 2 - 1e-9,
              );
          });
          expect(placed[0]).toBeGreaterThanOrEqual(sizes[0] / 2 - 1e-9);
          expect(placed.at(-1)!).toBeLessThanOrEqual(400 - sizes.at(-1)! / 2 + 1e-9);
        },
      ),
    );
  });
});

describe('puddles', () => {
  it('have the area they are asked for, by the shoelace formula', () => {
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const [large, small] = [areaOf(puddleOutline(9000, seed)), areaOf(puddleOutline(900, seed))];
      // 28 corners inscribe slightly less than the smooth outline.
      expect(large).toBeGreaterThan(9000 * 0.97);
      expect(large).toBeLessThan(9000 * 1.01);
      expect(large / small).toBeCloseTo(10, 6);
    }
  });

  it('differ from band to band and are no circles', () => {
    const radii = (seed: number): number[] =>
      puddleOutline(1000, seed).map(([x, y]) => Math.hypot(x, y));
    expect(Math.max(...radii(1)) / Math.min(...radii(1))).toBeGreaterThan(1.08);
    expect(radii(1)).not.toEqual(radii(2));
  });

  it('are written as one closed path', () => {
    expect(smoothPath(puddleOutline(100, 1))).toMatch(/^M-?[\d.]+ -?[\d.]+(C(-?[\d.]+ ?){6})+Z$/);
  });
});

describe('the plan as a cut through the codes', () => {
  const counts = Uint32Array.from({ length: 256 }, (_, code) => (code * 37) % 101);

  it('gives the shares that the core gives, bare paper as one more band', () => {
    const plan = withLimits(newPlan(), [30, 60], 90);
    const cut = cutOf(plan);
    expect(cut).toEqual({ thresholds: [76, 153], paper: 229 }); // round(2.55 L* - 0.5)
    const shares = sharesOfCut(counts, cut);
    sharesOfHistogram(counts, [76, 153, 229]).forEach((share, i) =>
      expect(shares[i]).toBeCloseTo(share, 12),
    );
    expect(sharesOfCut(undefined, cut)).toEqual([0, 0, 0, 0]);
  });

  it('parts limits that fall on one code', () => {
    const plan = withLimits(newPlan(), [50, 50.01], undefined);
    const { thresholds } = cutOf(plan);
    expect(thresholds[1]).toBe(thresholds[0] + 1);
    const top = cutOf(withLimits(newPlan(), [99.98, 99.99], 100));
    expect(top.thresholds).toEqual([253, 254]);
    expect(paletteOf(top)).toHaveLength(256);
  });

  it('shows a single band, too', () => {
    const one = { thresholds: [] };
    expect(new Set(paletteOf(one)).size).toBe(1);
    expect(tonesOf(one)).toEqual([50]);
  });

  it('shows one band alone or the bare paper alone, and none that is missing', () => {
    const cut = { thresholds: [76, 153], paper: 229 };
    const all = paletteOf(cut);
    const middle = paletteOf(cut, 1);
    expect(middle[100]).toBe(all[100]);
    expect(middle[10]).not.toBe(all[10]);
    expect(paletteOf(cut, 3)[240]).toBe(all[240]);
    expect(paletteOf(cut, 7)).toEqual(all);
  });
});

describe('file names', () => {
  it('are made of the picture and the state, without signs that file systems refuse', () => {
    expect(fileNameOf('clay dog.jpg', ['bands', ''])).toBe('clay dog - bands.png');
    expect(fileNameOf('a/b:c*.png', ['dark?'])).toBe('a b c - dark.png');
    expect(fileNameOf('', [])).toBe('picture.png');
  });
});
