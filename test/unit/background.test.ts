import { describe, expect, it } from 'vitest';
import {
  backgroundBand,
  backgroundContrast,
  outlinesOf,
  shareInside,
  withBackground,
  type Lightness,
  type Masses,
} from '../../core/index.js';
import { massesOfLabels } from './masses-helper.js';

const [WIDTH, HEIGHT] = [80, 60];

/**
 * A square sitter of 40 x 40 pixels, codes 100, in a ground that is 100 to its left, 151 to its right and above and below of it: a quarter
 * of the silhouette is lost, three quarters have (151 - 100) / 2.55 = 20 L*. The loop runs 4 pixels about it.
 */
function madePicture(): { masses: Masses; plane: Lightness; sitter: Uint8Array } {
  const data = new Uint8Array(WIDTH * HEIGHT);
  const sitter = new Uint8Array(WIDTH * HEIGHT);
  const drawn = new Uint8Array(WIDTH * HEIGHT);
  for (let at = 0; at < data.length; at++) {
    const x = at % WIDTH;
    const y = Math.floor(at / WIDTH);
    const inside = x >= 20 && x < 60 && y >= 10 && y < 50;
    const left = x < 20 && y >= 10 && y < 50;
    data[at] = inside || left ? 100 : 151;
    drawn[at] = inside ? 1 : left ? 0 : 2;
    sitter[at] = x >= 16 && x < 64 && y >= 6 && y < 54 ? 255 : 0;
  }
  const masses = massesOfLabels(
    drawn,
    WIDTH,
    HEIGHT,
    (label) => label,
    (label) => (label === 2 ? 151 : 100) / 2.55,
  );
  return { masses, plane: { width: WIDTH, height: HEIGHT, data }, sitter };
}

describe('backgroundContrast', () => {
  it('is the difference along the silhouette, by length', () => {
    const { masses, plane, sitter } = madePicture();
    const inside = 100 / 2.55;
    const found = backgroundContrast(masses, plane, sitter, { paper: 92, wash: 40, dark: 21 });
    expect(found.map(({ choice }) => choice)).toEqual(['as-photo', 'paper', 'wash', 'dark']);
    const [photo, paper, wash, dark] = found;
    // A quarter of the silhouette has no difference; a corner's worth of it may fall to either side.
    expect(photo.lostShare).toBeCloseTo(0.25, 1);
    expect(Math.abs(photo.mean - 15)).toBeLessThanOrEqual(0.6);
    expect(photo.lightness).toBeUndefined();
    expect(paper.mean).toBeCloseTo(92 - inside, 6);
    expect(paper.lostShare).toBe(0);
    expect(wash.mean).toBeCloseTo(40 - inside, 6);
    expect(wash.lostShare).toBeCloseTo(1, 9);
    expect(dark.mean).toBeCloseTo(inside - 21, 6);
    for (const { lengthPx } of found)
      expect(Math.abs(lengthPx / 160 - 1)).toBeLessThanOrEqual(0.05);
  });

  it('takes paper of 95 and the means of the bands when no lightness is told', () => {
    const { masses, plane, sitter } = madePicture();
    const [, paper, wash, dark] = backgroundContrast(masses, plane, sitter);
    expect(paper.lightness).toBe(95);
    expect(wash.lightness).toBeCloseTo(100 / 2.55, 9);
    expect(dark.lightness).toBeCloseTo(100 / 2.55, 9);
  });

  it('has no silhouette when all is sitter or none', () => {
    const { masses, plane } = madePicture();
    for (const byte of [0, 1]) {
      const sitter = new Uint8Array(WIDTH * HEIGHT).fill(byte);
      for (const found of backgroundContrast(masses, plane, sitter))
        expect(found).toMatchObject({ mean: 0, lostShare: 0, lengthPx: 0 });
    }
  });

  it('names a wrong argument', () => {
    const { masses, plane, sitter } = madePicture();
    expect(() => backgroundContrast(masses, plane, new Uint8Array(3))).toThrow(/sitter/);
    expect(() => backgroundContrast(masses, plane, sitter, { paper: 101 })).toThrow(
      /options.paper/,
    );
    expect(() => withBackground(masses, sitter, 'sky' as never)).toThrow(/choice is "sky"/);
    expect(() => withBackground(masses, sitter, 'wash', 3)).toThrow(/band is 3/);
  });
});

describe('withBackground', () => {
  it('makes the ground one mass of the band of the choice', () => {
    const { masses, plane, sitter } = madePicture();
    const copy = structuredClone(masses);
    const { masses: laid, regionNow, ground, straddling } = withBackground(masses, sitter, 'paper');
    expect(masses).toEqual(copy);
    expect(straddling.map(({ region }) => region)).toEqual([]);
    expect(ground).toEqual([0]);
    expect(laid.regions.map(({ band, area, neighbours }) => ({ band, area, neighbours }))).toEqual([
      { band: 2, area: WIDTH * HEIGHT - 1600, neighbours: [1] },
      { band: 1, area: 1600, neighbours: [0] },
    ]);
    expect(laid.regions[0].bounds).toEqual([0, 0, WIDTH, HEIGHT]);
    // The mean over all its pixels.
    let sum = 0;
    plane.data.forEach((code, at) => {
      if (laid.labels[at] === 0) sum += code / 2.55;
    });
    expect(laid.regions[0].mean).toBeCloseTo(sum / laid.regions[0].area, 9);
    masses.labels.forEach((label, at) => expect(laid.labels[at]).toBe(regionNow[label]));
    laid.map.data.forEach((band, at) => expect(band).toBe(laid.regions[laid.labels[at]].band));
    expect(outlinesOf(laid)).toHaveLength(2);
  });

  it('keeps the silhouette beside a ground of the same band, and parts of ground that do not touch', () => {
    const masses = massesOfLabels([0, 0, 1, 1, 2, 2], 6, 1);
    masses.marks.push(
      { x: 0.5, y: 0.5, area: 1, band: 2, contrast: 20, region: 0 },
      { x: 2.5, y: 0.5, area: 1, band: 2, contrast: 20, region: 1 },
    );
    const sitter = Uint8Array.of(0, 0, 1, 1, 0, 0);
    const { masses: laid, ground } = withBackground(masses, sitter, 'wash');
    expect(laid.regions.map(({ band }) => band)).toEqual([1, 1, 1]);
    expect(ground).toEqual([0, 2]);
    expect(laid.marks).toEqual([{ ...masses.marks[1], region: 1 }]);
  });

  it('leaves the photo as it is, as a copy', () => {
    const { masses, sitter } = madePicture();
    const { masses: same, ground } = withBackground(masses, sitter, 'as-photo');
    expect(same).toEqual(masses);
    expect(same.labels).not.toBe(masses.labels);
    expect(ground).toEqual([]);
  });

  it('tells which masses the loop cuts through', () => {
    const masses = massesOfLabels([0, 0, 0, 0, 0, 1, 1, 1, 1, 1], 10, 1);
    const sitter = Uint8Array.of(0, 0, 1, 1, 1, 1, 1, 0, 0, 0);
    expect([...shareInside(masses, sitter)]).toEqual([0.6, 0.4]);
    const { masses: laid, regionNow, ground, straddling } = withBackground(masses, sitter, 'dark');
    // What is beyond the loop is ground, what is inside of the sitter's own mass is not.
    expect([...laid.labels]).toEqual([0, 0, 1, 1, 1, 2, 2, 2, 2, 2]);
    expect(ground).toEqual([0, 2]);
    expect([...regionNow]).toEqual([1, 2]);
    expect(laid.regions.map(({ area, bounds }) => [area, bounds])).toEqual([
      [2, [0, 0, 2, 1]],
      [3, [2, 0, 3, 1]],
      [5, [5, 0, 5, 1]],
    ]);
    expect(straddling).toEqual([
      { region: 0, outside: 0.4 },
      { region: 1, outside: 0.6 },
    ]);
  });

  it('takes the lightest, the middle and the darkest band', () => {
    expect([1, 2, 3, 5].map((bands) => backgroundBand('paper', bands))).toEqual([0, 1, 2, 4]);
    expect([1, 2, 3, 5].map((bands) => backgroundBand('wash', bands))).toEqual([0, 1, 1, 2]);
    expect(backgroundBand('dark', 5)).toBe(0);
  });
});
