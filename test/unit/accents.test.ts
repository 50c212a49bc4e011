import { readFileSync } from 'node:fs';
import jpeg from 'jpeg-js';
import { describe, expect, it } from 'vitest';
import { accentsOf, massesOf, type Accent } from '../../core/mass/index.js';
import { lightnessPlane } from '../../core/picture/index.js';
import type { Pixels } from '../../core/base/types.js';

type Colour = [r: number, g: number, b: number];

function picture(width: number, height: number, colour: (x: number, y: number) => Colour): Pixels {
  const data = new Uint8ClampedArray(4 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) data.set([...colour(x, y), 255], 4 * (y * width + x));
  return { width, height, data };
}

// CIELAB (culori 4.0.2, lab65): GREY 53.6 0 0; PALE 90.2 -0.4 2.1; RED 46.5 55.7 33.1; ROSE 56.6 7.9 4.7; BLUE 49.8 6.5 -50.7.
const GREY: Colour = [128, 128, 128];
const PALE: Colour = [228, 227, 223];
const RED: Colour = [200, 58, 58];
const ROSE: Colour = [153, 131, 128];
const BLUE: Colour = [40, 120, 205];

const THRESHOLDS = [100, 180];
const BRUSH = 16;

function accents(pixels: Pixels): Accent[] {
  const options = { thresholds: THRESHOLDS, brushPx: BRUSH };
  return accentsOf(pixels, massesOf(lightnessPlane(pixels), options), options);
}

const disc = (x: number, y: number, cx: number, cy: number, r: number): boolean =>
  Math.hypot(x + 0.5 - cx, y + 0.5 - cy) < r;

describe('accentsOf', () => {
  it('finds a red spot among greys, with its band and what it costs', () => {
    const pixels = picture(240, 160, (x, y) =>
      disc(x, y, 180, 80, 8) ? RED : x < 120 ? GREY : PALE,
    );
    const [accent, ...others] = accents(pixels);
    expect(others).toEqual([]);
    expect(Math.hypot(accent.at[0] - 180, accent.at[1] - 80)).toBeLessThan(3);
    expect(accent.area).toBeGreaterThan(0.8 * Math.PI * 64);
    expect(accent.area).toBeLessThan(1.2 * Math.PI * 64);
    // RED has the code floor(2.55 x 46.46 + 0.5) = 118: the middle band, though it lies in the light mass.
    expect(accent.band).toBe(1);
    expect(accent.lab[0]).toBeCloseTo(46.46, 1);
    expect(accent.vividness.chroma).toBeCloseTo(Math.hypot(55.74, 33.13), 1);
    expect(accent.vividness.surround).toBeLessThan(3);
    expect(accent.vividness.deltaE).toBeGreaterThan(30);
    expect(accent.valueCost).toBeLessThan(-40);
    expect(accent.repeats).toEqual([]);
    expect(accent.mightRepeat).toEqual([]);
  });

  it('tells where a hue is repeated and where it might be', () => {
    const pixels = picture(320, 200, (x, y) => {
      if (disc(x, y, 60, 60, 8) || disc(x, y, 250, 60, 6)) return RED;
      if (disc(x, y, 160, 150, 7)) return BLUE;
      if (x > 220 && y > 120) return ROSE;
      return GREY;
    });
    const found = accents(pixels);
    expect(found.map(({ id }) => id)).toEqual([0, 1, 2]);
    const reds = found.filter(({ lab }) => lab[1] > 30);
    const [blue] = found.filter(({ lab }) => lab[2] < -20);
    expect(reds).toHaveLength(2);
    expect(reds[0].repeats).toEqual([reds[1].id]);
    expect(reds[1].repeats).toEqual([reds[0].id]);
    expect(blue.repeats).toEqual([]);
    const [hint] = reds[0].mightRepeat;
    expect(hint.at[0]).toBeGreaterThan(220);
    expect(hint.at[1]).toBeGreaterThan(120);
  });

  it('passes over large shapes, colour among colours, and greys', () => {
    expect(accents(picture(200, 150, () => GREY))).toEqual([]);
    const large = picture(200, 150, (x, y) => (disc(x, y, 100, 75, 60) ? RED : GREY));
    expect(accents(large)).toEqual([]);
    const gay = picture(200, 150, (x, y) => (disc(x, y, 100, 75, 7) ? RED : BLUE));
    expect(accents(gay)).toEqual([]);
  });

  // The rendered scene of the demo: two cherries on white cloth, their middles by eye at (244, 1054) and (277, 1094).
  it('sees the cherries on the cloth', { timeout: 30_000 }, () => {
    const file = new URL('../../demo/pictures/clay-dog-900.jpg', import.meta.url);
    const { width, height, data } = jpeg.decode(readFileSync(file), { useTArray: true });
    const pixels = { width, height, data: new Uint8ClampedArray(data) };
    const options = { thresholds: THRESHOLDS, brushPx: 30 };
    const found = accentsOf(pixels, massesOf(lightnessPlane(pixels), options), options);
    const [left, top, w, h] = found[0].bounds;
    for (const [x, y] of [
      [244, 1054],
      [277, 1094],
    ])
      expect(x > left && x < left + w && y > top && y < top + h).toBe(true);
    expect(found[0].lab[1]).toBeGreaterThan(40);
    expect(found[0].valueCost).toBeLessThan(-15);
    // Neither the pear nor the jug is a spot.
    for (const { at } of found)
      expect(at[0] > 20 && at[0] < 260 && at[1] > 690 && at[1] < 1000).toBe(false);
  });

  it('takes a single pixel and refuses what is not', () => {
    const one = picture(1, 1, () => RED);
    expect(accents(one)).toEqual([]);
    const masses = massesOf(lightnessPlane(one), { thresholds: THRESHOLDS, brushPx: 1 });
    expect(() => accentsOf(one, masses, { thresholds: THRESHOLDS, brushPx: 0 })).toThrow(
      /options\.brushPx/,
    );
    expect(() => accentsOf(one, masses, { thresholds: [9, 3], brushPx: 1 })).toThrow(RangeError);
  });
});
