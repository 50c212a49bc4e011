import { describe, expect, it } from 'vitest';
import type { Dab } from '../../core/plan/index.js';
import { dabOf, habitsOf, provenMixes, searchDabs } from '../../core/swatch/index.js';
import type { Lab } from '../../core/base/types.js';

let next = 0;
const dab = (lab: Lab, more: Partial<Dab> = {}): Dab => ({
  id: `d${next++}`,
  date: '2026-03-01',
  lab,
  spread: 0.5,
  uncertainty: 0.4,
  ...more,
});
const mix = (blue: number, brown: number, strength = 0.6): Dab['recipe'] => ({
  parts: [
    { tube: 'blue', parts: blue },
    { tube: 'brown', parts: brown },
  ],
  strength,
});

describe('a dab to keep', () => {
  // CIE 15: Y of L* 90 is ((90 + 16) / 116)^3 = 0.76303, of L* 95 0.87617; a neutral dab of Y 0.2 on the one is Y 0.22965 on the other,
  // L* 116 cbrt(0.22965) - 16 = 55.038.
  it('is carried to paper of L* 95', () => {
    const read = { lab: [51.837, 0, 0] as Lab, spread: 1, uncertainty: 0.5 };
    const kept = dabOf(read, { id: 'a', date: '2026-03-01', paperLightness: 90 });
    expect(kept.lab[0]).toBeCloseTo(55.038, 2);
    expect(Math.hypot(kept.lab[1], kept.lab[2])).toBeLessThan(0.01);
    expect(kept).not.toHaveProperty('paperLightness');
    expect(dabOf(read, { id: 'a', date: '2026-03-01' }).lab).toEqual(read.lab);
  });
});

describe('proven mixes', () => {
  const dabs = [
    dab([50, 0, 0], { recipe: mix(1, 1), date: '2026-01-01' }),
    dab([52, 0, 0], { recipe: mix(2, 2), date: '2026-02-01' }),
    dab([60, 0, 0], { recipe: mix(1, 3) }),
    dab([50, 0, 0], { recipe: mix(3, 1), wet: 'satin' }),
    dab([50, 0, 0]),
  ];

  it('take dabs of one recipe together and rank by distance', () => {
    const found = provenMixes(dabs, { lightness: 52 }, { within: 20 });
    expect(found.map(({ times, deltaE }) => [times, deltaE])).toEqual([
      [2, 1],
      [1, 8],
    ]);
    expect(found[0].lab).toEqual([51, 0, 0]);
    expect(found[0].last).toBe('2026-02-01');
    expect(found[0].dabs).toEqual([dabs[1].id, dabs[0].id]);
    expect(found[0].scatter).toBeGreaterThan(0.5);
  });

  it('leave out what is wet, has no recipe, or lies too far', () => {
    expect(provenMixes(dabs, { lab: [50, 0, 0] })).toHaveLength(1);
    expect(provenMixes(dabs, { lab: [10, 0, 0] })).toEqual([]);
    expect(provenMixes([], { lightness: 50 })).toEqual([]);
  });

  it('refuse a target that says nothing', () => {
    expect(() => provenMixes(dabs, {})).toThrow(/target\.lightness/);
  });
});

describe('habits', () => {
  const meant: Record<string, number> = {};
  const painted = (target: number, off: number, more: Partial<Dab> = {}): Dab => {
    const made = dab([target + off, 0, 0], more);
    meant[made.id] = target;
    return made;
  };
  const predicted = ({ id }: Dab): Lab | undefined =>
    meant[id] === undefined ? undefined : [meant[id], 0, 0];

  it('your darks end 4 L* light', () => {
    const dabs = [
      painted(20, 4),
      painted(25, 5),
      painted(30, 3),
      painted(40, 4),
      painted(60, 0.5),
      painted(60, -0.5),
      painted(65, 0.2),
      painted(62, 0.1),
      dab([90, 0, 0]),
    ];
    expect(habitsOf(dabs, predicted)).toEqual([
      { code: 'habit.lighter', values: { range: 'darks', by: 4, count: 4 } },
    ]);
  });

  it('three dabs make no habit, nor do dabs that go both ways', () => {
    expect(habitsOf([painted(20, 6), painted(20, 6), painted(20, 6)], predicted)).toEqual([]);
    expect(
      habitsOf([painted(20, 6), painted(20, 6), painted(20, -6), painted(20, -6)], predicted),
    ).toEqual([]);
  });

  it('tells of a tube and of drying', () => {
    const recipe = mix(3, 1);
    const dabs = [-3, -4, -5, -4].map((off, i) => painted([30, 50, 60, 80][i], off, { recipe }));
    expect(habitsOf(dabs, predicted)).toEqual([
      { code: 'habit.tube-stronger', values: { tube: 'blue', by: 4, count: 4 } },
    ]);
    const pairs = [30, 40, 50, 60].flatMap((L) => {
      const dry = dab([L + 3, 0, 0]);
      return [dry, dab([L, 0, 0], { wet: 'satin', same: dry.id })];
    });
    expect(habitsOf(pairs, () => undefined)).toEqual([
      { code: 'habit.dries-lighter', values: { wet: 'satin', by: 3, count: 4 } },
    ]);
  });
});

describe('the search', () => {
  const dabs = [
    dab([30, 0, 0], { note: 'Shadow of the jug', date: '2026-01-05', recipe: mix(1, 1), band: 0 }),
    dab([70, 5, 20], { note: 'wall, warm', date: '2026-02-05' }),
    dab([72, 0, 0], { date: '2026-03-05', wet: 'damp', recipe: mix(1, 2) }),
  ];
  const ids = (found: Dab[]): number[] => found.map((hit) => dabs.indexOf(hit));

  it('finds by words, tubes and their names, value, wetness, date, band', () => {
    expect(ids(searchDabs(dabs))).toEqual([2, 1, 0]);
    expect(ids(searchDabs(dabs, { text: 'JUG shadow' }))).toEqual([0]);
    expect(ids(searchDabs(dabs, { text: 'earth', names: { brown: 'Brown earth' } }))).toEqual([
      2, 0,
    ]);
    expect(ids(searchDabs(dabs, { tube: 'blue', wet: false }))).toEqual([0]);
    expect(ids(searchDabs(dabs, { lightness: [60, 80] }))).toEqual([2, 1]);
    expect(ids(searchDabs(dabs, { dates: ['2026-02-01', '2026-02-28'] }))).toEqual([1]);
    expect(ids(searchDabs(dabs, { band: 0 }))).toEqual([0]);
  });

  it('puts the nearest first when a colour is given', () => {
    expect(ids(searchDabs(dabs, { near: [71, 5, 19] }))).toEqual([1, 2, 0]);
    expect(ids(searchDabs(dabs, { near: [71, 5, 19], within: 3 }))).toEqual([1]);
  });
});
