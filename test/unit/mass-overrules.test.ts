import { describe, expect, it } from 'vitest';
import { massesOf, type Masses, type MassOverrule } from '../../core/index.js';
import { planeOf } from './mass-helper.js';

/** Three upright stripes: dark, middle, light, with a dark disc in the light one. */
const WIDTH = 300;
const HEIGHT = 200;
const plane = planeOf(WIDTH, HEIGHT, (x, y) => {
  if (Math.hypot(x - 250, y - 100) < 25) return 40;
  return x < 100 ? 40 : x < 200 ? 120 : 220;
});
const thresholds = [80, 170];

const masses = (overrules: MassOverrule[], limits = thresholds) =>
  massesOf(plane, { thresholds: limits, brushPx: 20, overrules });

/** Spots of the picture's parts. */
const dark: [number, number] = [0.1, 0.5];
const middle: [number, number] = [0.5, 0.5];
const light: [number, number] = [0.7, 0.1];
const disc: [number, number] = [250 / 300, 0.5];

const at = ({ labels, regions }: Masses, [x, y]: [number, number]) =>
  regions[labels[Math.floor(y * HEIGHT) * WIDTH + Math.floor(x * WIDTH)]];

/** What holds whatever the painter does: numbers, areas, map and neighbours fit together; each mass is connected. */
function expectConsistent({ map, labels, regions }: Masses): void {
  const area = regions.map(() => 0);
  labels.forEach((label, i) => {
    area[label]++;
    if (map.data[i] !== regions[label].band) throw new Error('map and band differ');
  });
  const near = regions.map(() => new Set<number>());
  for (let i = 0; i < labels.length; i++) {
    for (const j of [
      (i + 1) % WIDTH === 0 ? i : i + 1,
      i + WIDTH < labels.length ? i + WIDTH : i,
    ]) {
      if (labels[j] === labels[i]) continue;
      near[labels[i]].add(labels[j]);
      near[labels[j]].add(labels[i]);
    }
  }
  regions.forEach((region, id) => {
    expect(region.id).toBe(id);
    expect(region.area).toBe(area[id]);
    expect(region.neighbours).toEqual([...near[id]].sort((a, b) => a - b));
  });
}

describe('without overrules', () => {
  it('there are four masses', () => {
    expect(masses([]).regions.map(({ band }) => band)).toEqual([0, 1, 2, 0]);
  });
});

describe('join', () => {
  it('makes one mass of the band of the first', () => {
    const made = masses([{ kind: 'join', from: middle, to: light }]);
    expectConsistent(made);
    expect(made.regions).toHaveLength(3);
    expect(at(made, light)).toBe(at(made, middle));
    expect(at(made, light).band).toBe(1);
    expect(made.unmet).toBeUndefined();
  });

  it('brings along a neighbour of that band', () => {
    const made = masses([{ kind: 'join', from: disc, to: light }]);
    expectConsistent(made);
    expect(at(made, light).band).toBe(0);
    expect(made.regions).toHaveLength(3);
  });

  it('tells why it is not met', () => {
    const { unmet, regions } = masses([
      { kind: 'join', from: dark, to: [0.2, 0.9] },
      { kind: 'join', from: dark, to: disc },
      { kind: 'join', from: dark, to: [1.2, 0.5] },
    ]);
    expect(regions).toHaveLength(4);
    expect(unmet).toEqual([
      { overrule: 0, reason: { code: 'mass.join-same', values: {} } },
      { overrule: 1, reason: { code: 'mass.join-not-neighbours', values: {} } },
      { overrule: 2, reason: { code: 'mass.join-outside', values: {} } },
    ]);
  });
});

describe('split', () => {
  it('cuts a mass along a line whose ends are carried on to its border', () => {
    const made = masses([
      {
        kind: 'split',
        line: [
          [0.4, 0.45],
          [0.6, 0.55],
        ],
      },
    ]);
    expectConsistent(made);
    expect(made.regions).toHaveLength(5);
    const [upper, lower] = [at(made, [0.5, 0.1]), at(made, [0.5, 0.9])];
    expect(upper).not.toBe(lower);
    expect([upper.band, lower.band]).toEqual([1, 1]);
    expect(Math.abs(upper.area - lower.area)).toBeLessThan(300);
    expect(upper.area + lower.area).toBe(100 * HEIGHT);
    // The border is the line, from x 100 to 200: y = 0.45 H at 0.4 W, 0.55 H at 0.6 W.
    const { labels } = made;
    for (let x = 101; x < 199; x++) {
      let y = 0;
      while (labels[y * WIDTH + x] === upper.id) y++;
      expect(Math.abs(y - (100 + ((x - 150) / 60) * 20))).toBeLessThan(2);
    }
  });

  it('makes pieces that can move to other bands, and then join what they meet', () => {
    const made = masses([
      {
        kind: 'split',
        line: [
          [0.35, 0.5],
          [0.65, 0.5],
        ],
      },
      { kind: 'band', at: [0.5, 0.9], band: 2 },
    ]);
    expectConsistent(made);
    expect(made.regions).toHaveLength(4);
    expect(at(made, [0.5, 0.9])).toBe(at(made, light));
    expect(at(made, [0.5, 0.1]).band).toBe(1);
  });

  it('takes each piece into the band of its own mean', () => {
    const slope = planeOf(WIDTH, HEIGHT, (x) => (x < 150 ? 100 : 160));
    // One mass, since the brush is as broad as the picture.
    const made = massesOf(slope, {
      thresholds: [125],
      brushPx: 400,
      overrules: [
        {
          kind: 'split',
          line: [
            [0.5, 0.2],
            [0.5, 0.8],
          ],
        } as MassOverrule,
      ],
    });
    expectConsistent(made);
    expect(made.regions.map(({ band }) => band)).toEqual([0, 1]);
  });

  it('tells why it is not met', () => {
    const { unmet } = masses([
      {
        kind: 'split',
        line: [
          [1.1, 0.2],
          [1.4, 0.8],
        ],
      },
      { kind: 'split', line: [[0.5, 0.5]] },
    ]);
    expect(unmet?.map(({ reason }) => reason.code)).toEqual([
      'mass.split-outside',
      'mass.split-outside',
    ]);
    const bent = masses([
      {
        kind: 'split',
        line: [
          [0.45, 0.5],
          [0.45, 0.5],
        ],
      },
    ]);
    expect(bent.unmet?.map(({ reason }) => reason.code)).toEqual(['mass.split-no-cut']);
    expect(bent.regions).toHaveLength(4);
  });
});

describe('band', () => {
  it('moves a mass, which joins its neighbours of that band', () => {
    const made = masses([{ kind: 'band', at: middle, band: 0 }]);
    expectConsistent(made);
    expect(made.regions).toHaveLength(3);
    expect(at(made, middle)).toBe(at(made, dark));
  });

  it('keeps the mean of the picture', () => {
    const made = masses([{ kind: 'band', at: disc, band: 1 }]);
    expect(at(made, disc).band).toBe(1);
    expect(at(made, disc).mean).toBeCloseTo(40 / 2.55, 1);
  });

  it('tells why it is not met, as when there are fewer bands now', () => {
    const overrules: MassOverrule[] = [
      { kind: 'band', at: disc, band: 2 },
      { kind: 'band', at: dark, band: 0 },
      { kind: 'band', at: [0.5, -0.1], band: 0 },
    ];
    expect(masses(overrules, [128]).unmet).toEqual([
      { overrule: 0, reason: { code: 'mass.band-unknown', values: { band: 2, bands: 2 } } },
      { overrule: 1, reason: { code: 'mass.band-same', values: { band: 0 } } },
      { overrule: 2, reason: { code: 'mass.band-outside', values: {} } },
    ]);
  });
});

describe('lock', () => {
  const square: MassOverrule = {
    kind: 'lock',
    at: [0.2, 0.5],
    band: 1,
    rings: [
      [
        [0.1, 0.3],
        [0.3, 0.3],
        [0.3, 0.7],
        [0.1, 0.7],
      ],
      [
        [0.15, 0.45],
        [0.15, 0.55],
        [0.25, 0.55],
        [0.25, 0.45],
      ],
    ],
  };

  it('keeps a shape and its band whatever the limits are', () => {
    for (const limits of [thresholds, [128], [30, 230]]) {
      const made = masses([square], limits);
      expectConsistent(made);
      const locked = at(made, [0.12, 0.5]);
      expect(locked.band).toBe(1);
      expect(locked.area).toBe(60 * 80 - 30 * 20);
      expect(locked.bounds).toEqual([30, 60, 60, 80]);
      expect(at(made, [0.2, 0.5])).not.toBe(locked);
    }
  });

  it('is not joined by a neighbour that takes its band, but by a join', () => {
    const apart = masses([square, { kind: 'band', at: dark, band: 1 }]);
    expectConsistent(apart);
    expect(at(apart, [0.12, 0.5])).not.toBe(at(apart, [0.05, 0.5]));
    const joined = masses([square, { kind: 'join', from: [0.12, 0.5], to: [0.05, 0.5] }]);
    expectConsistent(joined);
    expect(at(joined, [0.12, 0.5])).toBe(at(joined, [0.05, 0.5]));
  });

  it('leaves no slivers of what it covers', () => {
    // It covers the disc but for a rim 3 pixels wide.
    const rings = [
      Array.from({ length: 60 }, (_, k): [number, number] => [
        (250.5 + 22 * Math.cos((k * Math.PI) / 30)) / WIDTH,
        (100.5 + 22 * Math.sin((k * Math.PI) / 30)) / HEIGHT,
      ]),
    ];
    const made = masses([{ kind: 'lock', at: disc, band: 1, rings }]);
    expectConsistent(made);
    expect(made.regions).toHaveLength(4);
    expect(at(made, [(250 + 24) / WIDTH, 0.5])).toBe(at(made, light));
  });

  it('tells why it is not met', () => {
    const away = (square.rings as [number, number][][]).map((ring) =>
      ring.map(([x, y]): [number, number] => [x + 2, y]),
    );
    const { unmet } = masses([
      { ...square, rings: away },
      { ...square, band: 5 },
    ]);
    expect(unmet?.map(({ reason }) => reason.code)).toEqual([
      'mass.lock-outside',
      'mass.band-unknown',
    ]);
  });
});

describe('the list', () => {
  it('is applied in its order, and other kinds are left alone', () => {
    const made = masses([
      { kind: 'edge', between: [dark, middle], edge: 'lost' },
      { kind: 'band', at: disc, band: 1 },
      { kind: 'band', at: disc, band: 0 },
      { kind: 'reserve', at: light, method: 'tint' },
      { kind: 'stroke', from: dark, to: middle },
    ]);
    expectConsistent(made);
    expect(at(made, disc).band).toBe(0);
    expect(made.unmet).toBeUndefined();
  });

  it('refuses what is malformed, by name', () => {
    const wrong = (overrule: unknown) => () => masses([overrule as MassOverrule]);
    expect(wrong(null)).toThrow(TypeError);
    expect(wrong({ kind: 'join', from: dark })).toThrow(/options.overrules\[0\].to/);
    expect(wrong({ kind: 'join', from: [0.1, NaN], to: dark })).toThrow(RangeError);
    expect(wrong({ kind: 'band', at: dark, band: 0.5 })).toThrow(RangeError);
    expect(wrong({ kind: 'split', line: 'x' })).toThrow(TypeError);
    expect(wrong({ kind: 'lock', at: dark, band: 1 })).toThrow(/rings/);
  });
});
