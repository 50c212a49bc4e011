import { describe, expect, it } from 'vitest';
import { accentPlan } from '../../core/plan/index.js';
import { accentsKernel, massesOf } from '../../core/mass/index.js';
import { finish } from '../../core/base/kernel.js';
import { lightnessPlane } from '../../core/picture/index.js';
import type { Lab, Pixels } from '../../core/base/types.js';
import type { Board, BoardSwatch } from '../../core/swatch/index.js';

type Colour = [r: number, g: number, b: number];

// CIELAB (culori 4.0.2, lab65): GREY 53.6 0 0; PALE 90.2 -0.4 2.1; RED 46.5 55.7 33.1; ROSE 56.6 7.9 4.7; DUSK 24.8 10.5 5.5; BLUE 49.8 6.5 -50.7.
const GREY: Colour = [128, 128, 128];
const RED: Colour = [200, 58, 58];
const ROSE: Colour = [153, 131, 128];
const DUSK: Colour = [77, 53, 51];
const BLUE: Colour = [40, 120, 205];
const RED_LAB: Lab = [46.46, 55.74, 33.13];

const THRESHOLDS = [100, 180];
const BRUSH = 16;
const SIZE = { width: 320, height: 200, brushPx: BRUSH };

const disc = (x: number, y: number, cx: number, cy: number, r: number): boolean =>
  Math.hypot(x + 0.5 - cx, y + 0.5 - cy) < r;

function found(colour: (x: number, y: number) => Colour) {
  const { width, height } = SIZE;
  const data = new Uint8ClampedArray(4 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) data.set([...colour(x, y), 255], 4 * (y * width + x));
  const pixels: Pixels = { width, height, data };
  const options = { thresholds: THRESHOLDS, brushPx: BRUSH };
  return finish(accentsKernel(pixels, massesOf(lightnessPlane(pixels), options), options));
}

// Limits of the codes 100 and 180 in L*.
const BANDS = [
  { name: 'dark', floor: 0, ceiling: 39 },
  { name: 'middle', floor: 39, ceiling: 71 },
  { name: 'light', floor: 71, ceiling: 100 },
];

const swatch = (id: string, bucket: number, lab: Lab, accent = false): BoardSwatch => ({
  id,
  bucket,
  lightness: lab[0],
  lab,
  ...(accent ? { accent } : {}),
});

const board = (...swatches: BoardSwatch[]): Board => ({ bands: BANDS, swatches });

describe('accentPlan', () => {
  it('tells band, vividness and the cost in value against the bucket’s other swatches', () => {
    const { planned, swatches } = accentPlan(
      board(
        swatch('wall', 2, [80, 2, 4]),
        swatch('cloth', 2, [84, -2, 0]),
        swatch('poppy', 2, RED_LAB, true),
        swatch('no colour', 1, [50, 0, 0]),
      ),
    );
    expect(swatches).toEqual([]);
    expect(planned).toHaveLength(1);
    const [poppy] = planned;
    expect(poppy).toMatchObject({ swatch: 'poppy', bucket: 2, band: 1, uses: [], echoes: [] });
    expect(poppy.mightRepeat).toEqual([]);
    // The mean of the two is 82, 0, 2.
    expect(poppy.among!.chroma).toBeCloseTo(2, 9);
    expect(poppy.among!.valueCost).toBeCloseTo(46.46 - 82, 9);
    expect(poppy.chroma).toBeCloseTo(Math.hypot(55.74, 33.13), 9);
    // Fairchild & Pirrotta 1991, worked by hand: h = 30.73; 0.116 sin(29.63) + 0.085 = 0.1424; (2.5 - 1.1615) 0.1424 64.84 = 12.35.
    expect(poppy.seemsLighter).toBeCloseTo(12.35, 1);
  });

  it('has nothing to compare with while the bucket is empty', () => {
    const [poppy] = accentPlan(board(swatch('poppy', 1, RED_LAB, true))).planned;
    expect(poppy.among).toBe(undefined);
    expect(poppy.band).toBe(1);
  });

  it('finds where the photo uses it, and the swatches that carry its hue on', () => {
    const photo = found((x, y) =>
      disc(x, y, 60, 60, 8) || disc(x, y, 250, 60, 6) ? RED : disc(x, y, 160, 150, 7) ? BLUE : GREY,
    );
    const { planned, swatches } = accentPlan(
      board(
        swatch('poppy', 1, RED_LAB, true),
        swatch('brick', 0, [30, 30, 20]),
        swatch('grey', 1, [50, 3, 2]),
        swatch('leaf', 0, [35, -30, 20], true),
      ),
      photo,
      SIZE,
    );
    const [poppy, leaf] = planned;
    expect(poppy.uses).toHaveLength(2);
    for (const id of poppy.uses) expect(photo.accents[id].lab[1]).toBeGreaterThan(40);
    // The brick has its hue and chroma 36; the grey has the hue too, but chroma 3.6.
    expect(poppy.echoes).toEqual(['brick']);
    expect(leaf.uses).toEqual([]);
    expect(leaf.echoes).toEqual([]);
    expect(leaf.mightRepeat).toEqual([]);
    const blue = photo.accents.findIndex(({ lab }) => lab[2] < -20);
    expect(swatches[blue]).toBe(undefined);
    for (const id of poppy.uses) expect(swatches[id]).toBe('poppy');
  });

  it('proposes places of its hue: in its band first, then across the picture, away from its use', () => {
    // Hints: rose (L* 56.6, the accent's own band) near by and across, dusk (L* 24.8, the dark band) across.
    const photo = found((x, y) => {
      if (disc(x, y, 40, 40, 8)) return RED;
      if (x > 60 && x < 100 && y > 120) return ROSE;
      if (x > 270 && y < 60) return ROSE;
      if (x > 270 && y > 140) return DUSK;
      return GREY;
    });
    const { planned } = accentPlan(board(swatch('poppy', 1, RED_LAB, true)), photo, SIZE);
    const [{ uses, mightRepeat }] = planned;
    expect(uses).toHaveLength(1);
    expect(mightRepeat).toHaveLength(3);
    const [first] = mightRepeat;
    expect(first).toMatchObject({ inBand: true, across: true, band: 1 });
    expect(first.at[0]).toBeGreaterThan(270);
    expect(first.at[1]).toBeLessThan(60);
    for (const { at } of mightRepeat)
      expect(Math.hypot(at[0] - 40, at[1] - 40)).toBeGreaterThan(3 * BRUSH);
    expect(mightRepeat.map(({ inBand }) => inBand)).toEqual(
      [...mightRepeat.map(({ inBand }) => inBand)].sort((p, q) => Number(q) - Number(p)),
    );
    // Where only another value carries the hue it is told so.
    const dusk = found((x, y) => (disc(x, y, 40, 40, 8) ? RED : x > 270 && y > 140 ? DUSK : GREY));
    const [only] = accentPlan(board(swatch('poppy', 1, RED_LAB, true)), dusk, SIZE).planned;
    expect(only.mightRepeat.length).toBeGreaterThan(0);
    for (const place of only.mightRepeat) expect(place).toMatchObject({ inBand: false, band: 0 });
  });

  it('refuses a size that is none', () => {
    const run = (options: object) => () => accentPlan(board(), undefined, options);
    expect(run({ width: 0 })).toThrow(/options\.width/);
    expect(run({ height: Number.NaN })).toThrow(/options\.height/);
    expect(run({ brushPx: -1 })).toThrow(/options\.brushPx/);
  });
});
