/**
 * A painting against its plan. Kappa: the worked example of Cohen 1960, "A coefficient of agreement for nominal scales",
 * Educational and Psychological Measurement 20, table 2 (as counts of 200), and scikit-learn 1.9.1
 * (sklearn.metrics.cohen_kappa_score). The plans are laid out by hand, so what is wrong in them is known.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { comparePainting, kappaOf, LEAST_SHIFT, LOST_RESERVE } from '../../core/check/index.js';
import type { Lightness } from '../../core/base/types.js';
import type { Masses } from '../../core/mass/types.js';

const COHEN_1960 = [
  [88, 14, 18],
  [10, 40, 10],
  [2, 6, 12],
];

const code = (lightness: number): number => Math.floor(2.55 * lightness + 0.5);

/** Masses of a map of region numbers; `bands[i]` is the band of region i. */
function massesOfMap(
  width: number,
  labels: readonly number[],
  bandOf: readonly number[],
  bands: number,
): Masses {
  const height = labels.length / width;
  return {
    map: { width, height, bands, data: Uint8Array.from(labels, (label) => bandOf[label]) },
    labels: Int32Array.from(labels),
    regions: bandOf.map((band, id) => ({
      id,
      band,
      area: labels.filter((label) => label === id).length,
      mean: 50,
      bounds: [0, 0, width, height],
      neighbours: [],
    })),
    marks: [],
  };
}

/** Upright stripes of 20 x 40 pixels, one a region. */
function stripes(bandOf: readonly number[], bands: number): Masses {
  const width = 20 * bandOf.length;
  return massesOfMap(
    width,
    Array.from({ length: width * 40 }, (_, k) => Math.floor((k % width) / 20)),
    bandOf,
    bands,
  );
}

/** Each region in one lightness. */
function filled({ map, labels }: Masses, lightness: readonly number[]): Lightness {
  const { width, height } = map;
  return { width, height, data: Uint8Array.from(labels, (label) => code(lightness[label])) };
}

const TARGETS = [25, 55, 90];

describe('kappaOf', () => {
  it('has the worked example of Cohen 1960: po .70, pe .41, kappa .492', () => {
    expect(kappaOf(COHEN_1960)).toBeCloseTo(0.29 / 0.59, 12);
    expect(kappaOf(COHEN_1960).toFixed(3)).toBe('0.492');
  });

  it('has the value of scikit-learn for four categories', () => {
    const table = [
      [310, 22, 5, 0],
      [41, 280, 60, 3],
      [2, 35, 190, 77],
      [0, 1, 30, 44],
    ];
    expect(kappaOf(table)).toBeCloseTo(0.6491418652570706, 12);
  });

  it('is 1 for full agreement, 0 for what chance would do, below 0 for less', () => {
    expect(
      kappaOf([
        [5, 0],
        [0, 9],
      ]),
    ).toBe(1);
    expect(
      kappaOf([
        [9, 0],
        [0, 0],
      ]),
    ).toBe(1);
    expect(
      kappaOf([
        [4, 4],
        [4, 4],
      ]),
    ).toBe(0);
    expect(
      kappaOf([
        [0, 5],
        [5, 0],
      ]),
    ).toBe(-1);
    expect(
      kappaOf([
        [0, 9],
        [0, 0],
      ]),
    ).toBe(0);
    expect(kappaOf([])).toBe(1);
    expect(() => kappaOf([[1, 2]])).toThrow(TypeError);
  });
});

describe('comparePainting', () => {
  it('counts pixels as Cohen’s two judges counted cases', () => {
    // 200 pixels: the plan’s regions are the first judge, the painted bands the second.
    const labels = COHEN_1960.flatMap((row, i) =>
      new Array<number>(row[0] + row[1] + row[2]).fill(i),
    );
    const painted = COHEN_1960.flatMap((row) =>
      row.flatMap((count, band) => new Array<number>(count).fill(code(TARGETS[band]))),
    );
    const masses = massesOfMap(20, labels, [0, 1, 2], 3);
    const found = comparePainting(
      { masses, targets: TARGETS },
      { width: 20, height: 10, data: Uint8Array.from(painted) },
    );
    expect(found.agreement).toBeCloseTo(0.7, 12);
    expect(found.kappa.toFixed(3)).toBe('0.492');
    expect(found.compared).toBe(200);
  });

  it('finds nothing in a painting that is the plan', () => {
    const masses = stripes([0, 1, 2, 1], 3);
    const found = comparePainting({ masses, targets: TARGETS }, filled(masses, [25, 55, 90, 55]));
    expect(found).toEqual({
      agreement: 1,
      kappa: 1,
      corrections: [],
      toCome: [],
      lostReserves: [],
      compared: 3200,
    });
  });

  it('tells how much too dark or light, largest effect first', () => {
    const masses = stripes([0, 1, 2, 1], 3);
    // The first is 10 too light, the second 6 too dark, the third 15 too dark, the last right.
    const found = comparePainting({ masses, targets: TARGETS }, filled(masses, [35, 49, 75, 55]));
    expect(found.corrections.map(({ region }) => region)).toEqual([2, 0, 1]);
    const shifts = found.corrections.map(({ shift }) => shift);
    [15, -10, 6].forEach((shift, i) => expect(shifts[i]).toBeCloseTo(shift, 0));
    for (const { shift, area, effect } of found.corrections) {
      expect(area).toBe(800);
      expect(effect).toBe(Math.abs(shift) * 800);
    }
    expect(found.lostReserves).toEqual([2]);
    // 35 is nearer to 25, 49 to 55, 75 to 90.
    expect(found.agreement).toBe(1);
  });

  it('bounds painted bands halfway between targets', () => {
    const masses = stripes([0, 1], 2);
    const at = (lightness: number): number =>
      comparePainting({ masses, targets: [20, 60] }, filled(masses, [lightness, 60])).agreement;
    expect(at(39)).toBe(1);
    expect(at(41)).toBe(0.5);
  });

  it('takes the middle of a region: neither a soft border nor a spot moves it', () => {
    const masses = stripes([0, 1, 2], 3);
    const painting = filled(masses, [25, 55, 90]);
    for (let y = 0; y < 40; y++)
      for (const x of [18, 19, 20, 21, 38, 39, 40, 41]) painting.data[y * 60 + x] = code(70);
    for (let y = 15; y < 22; y++)
      for (let x = 25; x < 33; x++) painting.data[y * 60 + x] = code(10);
    const found = comparePainting({ masses, targets: TARGETS }, painting);
    expect(found.corrections).toEqual([]);
    expect(found.agreement).toBeLessThan(0.95);
  });

  it('leaves out what is to come, and says so', () => {
    const masses = stripes([0, 1, 2, 1], 3);
    const order = [
      { id: 'lights', regions: [2] },
      { id: 'middle', regions: [1, 3] },
      { id: 'darks', regions: [0] },
      { id: 'look' },
    ];
    const painting = filled(masses, [95, 95, 90, 45]);
    const after = (upToStep: number) =>
      comparePainting({ masses, targets: TARGETS }, painting, { upToStep, order });
    expect(after(-1).toCome).toEqual([0, 1, 2, 3]);
    expect(after(-1).corrections).toEqual([]);
    expect(after(-1).compared).toBe(0);
    expect(after(0)).toMatchObject({ toCome: [0, 1, 3], corrections: [], agreement: 1 });
    expect(after(1).toCome).toEqual([0]);
    expect(after(1).corrections.map(({ region }) => region)).toEqual([1, 3]);
    for (const done of [2, 3, 99]) expect(after(done).toCome).toEqual([]);
    // The first 70 too light, the second 40, the last 10 too dark.
    expect(after(3).corrections.map(({ region }) => region)).toEqual([0, 1, 3]);
    // The agreement is of what is compared: the stripe of light alone, then two of three.
    expect(after(1).agreement).toBeCloseTo(2 / 3, 12);
  });

  it('keeps a region to come until the last step that names it', () => {
    const masses = stripes([0, 2], 3);
    const order = [
      { id: 'first wash', regions: [0, 1] },
      { id: 'glaze', regions: [0] },
    ];
    const painting = filled(masses, [60, 90]);
    const after = (upToStep: number) =>
      comparePainting({ masses, targets: TARGETS }, painting, { upToStep, order });
    expect(after(0).toCome).toEqual([0]);
    expect(after(1).corrections.map(({ region }) => region)).toEqual([0]);
  });

  it('finds reserves that were painted over, done or to come', () => {
    const masses = stripes([0, 2, 2, 2], 3);
    const painting = filled(masses, [25, 90 - LOST_RESERVE - 1, 90 - LOST_RESERVE + 1, 95]);
    const plan = { masses, targets: TARGETS };
    expect(comparePainting(plan, painting).lostReserves).toEqual([1]);
    expect(comparePainting({ ...plan, reserves: [2, 3] }, painting).lostReserves).toEqual([]);
    const order = [
      { id: 'darks', regions: [0] },
      { id: 'a pale tint', regions: [1, 2, 3] },
    ];
    expect(comparePainting(plan, painting, { upToStep: 0, order }).lostReserves).toEqual([1]);
  });

  it('allows drawn borders some slack', () => {
    const masses = stripes([0, 1, 2], 3);
    const painting = filled(masses, [25, 55, 90]);
    // Both borders are drawn 3 pixels to the right.
    for (let y = 0; y < 40; y++)
      for (const [from, lightness] of [
        [20, 25],
        [40, 55],
      ])
        painting.data.fill(code(lightness), y * 60 + from, y * 60 + from + 3);
    const plan = { masses, targets: TARGETS };
    expect(comparePainting(plan, painting).agreement).toBeCloseTo(54 / 60, 12);
    expect(comparePainting(plan, painting, { slackPx: 2 }).agreement).toBeLessThan(1);
    const slack = comparePainting(plan, painting, { slackPx: 3 });
    expect(slack.agreement).toBe(1);
    // Three pixels are left out about each stripe of 20 x 40.
    expect(slack.compared).toBe(3 * 14 * 34);
    expect(slack.corrections).toEqual([]);
    // A region nowhere deeper keeps its deeper half: all depths 1 to 10 above 5.
    expect(comparePainting(plan, painting, { slackPx: 60 }).compared).toBe(3 * 10 * 30);
    expect(() => comparePainting(plan, painting, { slackPx: -1 })).toThrow(/^options\.slackPx/);
  });

  it('tells no correction under what a photo can tell', () => {
    const masses = stripes([1], 3);
    for (const off of [-2, -0.5, 0.5, 2]) {
      const found = comparePainting({ masses, targets: TARGETS }, filled(masses, [55 + off]));
      expect(found.corrections.length).toBe(Math.abs(off) > LEAST_SHIFT ? 1 : 0);
    }
  });

  it('compares one pixel, and one band', () => {
    const dot = massesOfMap(1, [0], [0], 1);
    const found = comparePainting(
      { masses: dot, targets: [50] },
      { width: 1, height: 1, data: Uint8Array.of(code(70)) },
    );
    expect(found).toMatchObject({ agreement: 1, kappa: 1, toCome: [] });
    expect(found.corrections[0].shift).toBeCloseTo(-20, 0);
  });

  it(
    'keeps its figures in range and its inputs as they were, whatever is painted',
    { timeout: 30_000 },
    () => {
      const masses = stripes([0, 1, 2, 1, 0], 3);
      const before = masses.labels.slice();
      fc.assert(
        fc.property(
          fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 5, maxLength: 5 }),
          fc.integer({ min: -1, max: 4 }),
          (lightness, upToStep) => {
            const painting = filled(masses, lightness);
            const copy = painting.data.slice();
            const order = [0, 1, 2, 3, 4].map((region) => ({ id: `${region}`, regions: [region] }));
            const found = comparePainting({ masses, targets: TARGETS }, painting, {
              upToStep,
              order,
            });
            expect(found.agreement).toBeGreaterThanOrEqual(0);
            expect(found.agreement).toBeLessThanOrEqual(1);
            expect(found.kappa).toBeLessThanOrEqual(1);
            expect(found.toCome).toEqual([0, 1, 2, 3, 4].filter((region) => region > upToStep));
            for (const { region, shift } of found.corrections) {
              expect(found.toCome).not.toContain(region);
              const wanted = TARGETS[masses.regions[region].band] - lightness[region];
              expect(Math.abs(shift - wanted)).toBeLessThan(0.21);
            }
            const effects = found.corrections.map(({ effect }) => effect);
            expect(effects).toEqual([...effects].sort((a, b) => b - a));
            expect(Buffer.compare(painting.data, copy)).toBe(0);
          },
        ),
        { numRuns: 60 },
      );
      expect(masses.labels).toEqual(before);
    },
  );

  it('refuses what does not fit, naming it', () => {
    const masses = stripes([0, 1], 2);
    const painting = filled(masses, [20, 60]);
    const plan = { masses, targets: [20, 60] };
    expect(() => comparePainting({ masses, targets: [20] }, painting)).toThrow(/^plan\.targets is/);
    expect(() => comparePainting({ masses, targets: [60, 20] }, painting)).toThrow(RangeError);
    expect(() => comparePainting({ masses, targets: [20, 200] }, painting)).toThrow(RangeError);
    expect(() => comparePainting(plan, { width: 1, height: 1, data: new Uint8Array(1) })).toThrow(
      /^painting is "1 x 1"; expected the size of the masses, 40 x 40/,
    );
    expect(() => comparePainting(plan, painting, { upToStep: 0 })).toThrow(/^options\.order/);
    expect(() => comparePainting(plan, painting, { upToStep: 0.5, order: [] })).toThrow(RangeError);
    expect(() => comparePainting({ ...plan, reserves: [2] }, painting)).toThrow(/^plan\.reserves/);
    expect(() =>
      comparePainting(null as unknown as { masses: Masses; targets: number[] }, painting),
    ).toThrow(TypeError);
  });
});
