import { describe, expect, it } from 'vitest';
import { labOfSrgb, type Lab } from '../../core/colour/index.js';
import { assignSwatches, rehearse, upperTail } from '../../core/plan/rehearsal.js';

const at = (data: ArrayLike<number>, i: number): Lab =>
  labOfSrgb(data[4 * i], data[4 * i + 1], data[4 * i + 2]);

/** Two halves, 0 to the left of the middle. */
const halves = (width: number, height = 1): Int32Array =>
  Int32Array.from({ length: width * height }, (_, i) => (i % width < width / 2 ? 0 : 1));

describe('the normal distribution', () => {
  it('agrees with the table in Abramowitz & Stegun 1964, 26.1 (upper tails of 0, 1, 1.2815516, 2)', () => {
    for (const [z, tail] of [
      [0, 0.5],
      [1, 0.1586552539],
      [1.2815515655, 0.1],
      [2, 0.0227501319],
    ])
      expect(upperTail(z)).toBeCloseTo(tail, 6);
  });
});

describe('rehearse', () => {
  const parts = [
    { id: 0, region: 0, lab: [30, 0, 0] as Lab },
    { id: 1, region: 1, lab: [80, 0, 0] as Lab },
  ];

  it('fills every part flatly with its colour', () => {
    const { data } = rehearse({ width: 8, height: 2, labels: halves(8, 2), parts });
    for (let i = 0; i < 16; i++) {
      // An 8-bit sRGB grey is at most 0.25 L* from the wanted one here.
      expect(at(data, i)[0]).toBeCloseTo(i % 8 < 4 ? 30 : 80, 0);
      expect(data[4 * i + 3]).toBe(255);
    }
  });

  it('leaves bare paper where the steps have not come to', () => {
    const steps = [
      { id: 'a', regions: [0] },
      { id: 'b', regions: [1] },
    ];
    const shown = (upToStep: number): number[] => {
      const { data } = rehearse({ width: 2, height: 1, labels: halves(2), parts, steps, upToStep });
      return [at(data, 0)[0], at(data, 1)[0]].map(Math.round);
    };
    expect(shown(-1)).toEqual([95, 95]);
    expect(shown(0)).toEqual([30, 95]);
    expect(shown(1)).toEqual([30, 80]);
  });

  it('passes through a soft border from 10 to 90 % of the light over its width', () => {
    const width = 81;
    const labels = Int32Array.from({ length: width }, (_, i) => (i < 40 ? 0 : 1));
    const widthPx = 16;
    const { data } = rehearse({
      width,
      height: 1,
      labels,
      parts,
      soft: [{ parts: [0, 1], widthPx }],
    });
    const luminance = (i: number): number => {
      const [L] = at(data, i);
      return ((L + 16) / 116) ** 3; // CIE L* above 8
    };
    const [dark, light] = [luminance(0), luminance(80)];
    const share = (i: number): number => (luminance(i) - dark) / (light - dark);
    // The border lies at x = 40; pixel centres at -7.5, +7.5 of it. Normal distribution: Phi(7.5 * 2.563 / 16) = Phi(1.2014) = 0.8852.
    expect(share(32)).toBeCloseTo(0.1148, 1.7);
    expect(share(47)).toBeCloseTo(0.8852, 1.7);
    for (let i = 1; i < width; i++)
      expect(luminance(i)).toBeGreaterThanOrEqual(luminance(i - 1) - 1e-9);
    expect(share(10)).toBe(0);
  });

  it('keeps light marks as paper from the start and puts dark ones on last', () => {
    const steps = [
      { id: 'a', regions: [0, 1] },
      { id: 'marks', regions: [] },
    ];
    const marks = [
      { x: 2.5, y: 2.5, area: 5, lab: [95, 0, 0] as Lab, kept: true },
      { x: 9.5, y: 2.5, area: 5, lab: [10, 0, 0] as Lab, kept: false },
    ];
    const base = { width: 12, height: 5, labels: halves(12, 5), parts, marks, steps };
    const before = rehearse({ ...base, upToStep: 0 });
    const after = rehearse({ ...base, upToStep: 1 });
    expect(Math.round(at(before.data, 2 * 12 + 2)[0])).toBe(95);
    expect(Math.round(at(before.data, 2 * 12 + 9)[0])).toBe(80);
    expect(Math.round(at(after.data, 2 * 12 + 9)[0])).toBe(10);
  });

  it('refuses labels without a part, and sizes that do not fit', () => {
    const labels = Int32Array.of(0, 7);
    expect(() => rehearse({ width: 2, height: 1, labels, parts })).toThrow(RangeError);
    expect(() => rehearse({ width: 3, height: 1, labels: halves(2), parts })).toThrow(/labels/);
    expect(() => rehearse({ width: 0, height: 1, labels: new Int32Array(0), parts })).toThrow(
      /width/,
    );
  });
});

describe('assignSwatches', () => {
  const board = {
    bands: [
      { name: 'dark', floor: 0, ceiling: 40 },
      { name: 'light', floor: 40, ceiling: 95 },
    ],
    swatches: [
      { id: 'warm', bucket: 0, lightness: 30, lab: [30, 20, 20] as Lab },
      { id: 'cool', bucket: 0, lightness: 30, lab: [30, -5, -20] as Lab },
      { id: 'wet', bucket: 0, lightness: 30, lab: [30, 40, 40] as Lab, wet: true },
      { id: 'accent', bucket: 0, lightness: 50, lab: [50, 40, 40] as Lab, accent: true },
    ],
  };

  it('takes the swatch of the bucket whose lean is nearest, whatever the value in the photo', () => {
    const wanted = [
      { id: 0, band: 0, lab: [10, 30, 30] as Lab },
      { id: 1, band: 0, lab: [39, 0, -30] as Lab },
    ];
    expect(assignSwatches(board, wanted).map(({ swatch }) => swatch)).toEqual(['warm', 'cool']);
  });

  it('gives a grey of the band where the bucket is empty, and paper beyond the board', () => {
    const wanted = [
      { id: 0, band: 1, lab: [60, 9, 9] as Lab },
      { id: 1, band: 2, lab: [99, 0, 0] as Lab },
    ];
    expect(assignSwatches(board, wanted)).toEqual([
      { id: 0, lab: [67.5, 0, 0] },
      { id: 1, lab: [95, 0, 0] },
    ]);
  });
});
