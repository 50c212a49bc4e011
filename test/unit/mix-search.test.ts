import { describe, expect, it } from 'vitest';
import type { Lab } from '../../core/base/types.js';
import { deltaE2000 } from '../../core/colour/index.js';
import {
  findMixes,
  gradeOf,
  mixOnPaper,
  paperReflectance,
  spectrumToLab,
  TUBES,
  whyOutOfReach,
  type Mix,
  type MixOptions,
  type Part,
  type Tube,
} from '../../core/paint/index.js';
import { Distance, FlatMixer } from '../../core/paint/flat.js';

/** Whole numbers below `below`, the same in each run (Park & Miller 1988). */
function dice(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state * 16807) % 2147483647;
    return Math.floor((state / 2147483647) * below);
  };
}

/** The tubes of most checks. */
const EARTHS = ['yellow-ochre', 'burnt-sienna', 'ultramarine', 'pyrrole-red', 'phthalo-green'];
const PRIMARIES = [
  'hansa-yellow',
  'quinacridone-magenta',
  'phthalo-blue',
  'titanium-white',
  'raw-umber',
];

/** Every ratio of up to three tubes, parts to a total of `total`. */
function* recipes(tubes: string[], total: number): Generator<Part[]> {
  const n = tubes.length;
  for (let i = 0; i < n; i++) {
    yield [{ tube: tubes[i], parts: 1 }];
    for (let j = i + 1; j < n; j++) {
      for (let p = 1; p < total; p++)
        for (let q = 1; p + q <= total; q++)
          yield [
            { tube: tubes[i], parts: p },
            { tube: tubes[j], parts: q },
          ];
      for (let k = j + 1; k < n; k++)
        for (let p = 1; p < total; p++)
          for (let q = 1; p + q < total; q++)
            for (let r = 1; p + q + r <= total; r++)
              yield [
                { tube: tubes[i], parts: p },
                { tube: tubes[j], parts: q },
                { tube: tubes[k], parts: r },
              ];
    }
  }
}

/** Saunderson's constants beside the K and S of Okumura 2005. */
const [K1, K2] = [0.0307805, 0.60602703];

/**
 * The colour of a layer as the textbook has it: R = (1 - Rg (a - b coth bSx)) / (a - Rg + b coth bSx), a = 1 + K / S, b^2 = a^2 - 1
 * (Kubelka 1948), surface after Saunderson 1942. A second way to what is searched, quick enough to try everything.
 */
function labOfLayer(K: number[], S: number[], thickness: number, ground: number[]): Lab {
  const reflectance = new Float64Array(36);
  for (let i = 0; i < 36; i++) {
    const a = 1 + K[i] / S[i];
    const b = Math.sqrt(a * a - 1);
    const coth = b / Math.tanh(b * S[i] * thickness);
    const inner = (1 - ground[i] * (a - coth)) / (a - ground[i] + coth);
    reflectance[i] = K1 + ((1 - K1) * (1 - K2) * inner) / (1 - K2 * inner);
  }
  return spectrumToLab(reflectance);
}

/** The least difference over all recipes, each at strengths in steps of a quarter and about the best of them in steps of a fiftieth. */
function exhaustive(
  lab: Lab,
  tubes: string[],
  total: number,
  maxStrength: number,
  ground: { paper?: Float64Array; over?: Mix[] } = {},
): number {
  const shelf = new Map(tubes.map((id) => [id, TUBES.find((tube) => tube.id === id)!]));
  // What lies below: bare of the mix itself.
  const bare = mixOnPaper([{ tube: tubes[0], parts: 1 }], { ...ground, strength: 0 }).reflectance;
  const inner = Array.from(bare, (R) => (R - K1) / ((1 - K1) * (1 - K2) + K2 * (R - K1)));
  let least = Infinity;
  for (const parts of recipes(tubes, total)) {
    const all = parts.reduce((sum, part) => sum + part.parts, 0);
    const mean = (of: (tube: Tube) => number): number =>
      parts.reduce((sum, part) => sum + (part.parts / all) * of(shelf.get(part.tube)!), 0);
    const K = Array.from({ length: 36 }, (_, i) => mean((tube) => tube.K[i]));
    const S = Array.from({ length: 36 }, (_, i) => mean((tube) => tube.S[i]));
    const load = mean((tube) => tube.fullLoad);
    const off = (strength: number): number =>
      deltaE2000(lab, labOfLayer(K, S, strength * load, inner));
    let here = Infinity;
    let best = maxStrength;
    for (let strength = maxStrength; strength > 0.01; strength /= 1.25) {
      const value = off(strength);
      if (value < here) [here, best] = [value, strength];
    }
    least = Math.min(least, here);
    if (here > least + 2) continue;
    const end = best / 1.25;
    for (let strength = Math.min(maxStrength, best * 1.25); strength > end; strength /= 1.02)
      least = Math.min(least, off(strength));
  }
  return least;
}

describe('the flat colours of the search', () => {
  it('are those of mixOnPaper, with the slopes that differences have', () => {
    const roll = dice(11);
    const over = [mixOnPaper([{ tube: 'burnt-sienna', parts: 1 }], { strength: 0.2 })];
    const loads = { ultramarine: 2, 'raw-umber': 0.4 };
    for (const options of [{}, { over, paper: paperReflectance({ lightness: 90 }), loads }]) {
      const mixer = new FlatMixer(
        TUBES,
        options.paper ?? paperReflectance(),
        options.over ?? [],
        4,
        options.loads,
      );
      for (let trial = 0; trial < 400; trial++) {
        const tubes = Int32Array.from({ length: 1 + (trial % 4) }, () => roll(TUBES.length));
        const parts = Array.from(tubes, (i) => ({ tube: TUBES[i].id, parts: 1 + roll(12) }));
        const strength = 0.001 + roll(1000) / 900;
        const total = parts.reduce((sum, part) => sum + part.parts, 0);
        const load = parts.reduce((s, p, i) => s + (p.parts / total) * TUBES[tubes[i]].fullLoad, 0);
        const amounts = Float64Array.from(parts, (p) => (p.parts / total) * load * strength);
        const { lab } = mixOnPaper(parts, { ...options, strength });
        mixer.evaluate(tubes, amounts, tubes.length);
        expect(Math.abs(mixer.L - lab[0])).toBeLessThan(1e-9);
        expect(Math.abs(mixer.a - lab[1])).toBeLessThan(1e-9);
        expect(Math.abs(mixer.b - lab[2])).toBeLessThan(1e-9);
        mixer.differentiate(tubes, amounts, tubes.length);
        expect(Math.abs(mixer.L - lab[0])).toBeLessThan(1e-9);
        const slope = mixer.slopes[0] * amounts[0];
        const step = 1e-5;
        const beside = [1 - step, 1 + step].map((factor) => {
          const moved = amounts.slice();
          moved[0] *= factor;
          mixer.evaluate(tubes, moved, tubes.length);
          return mixer.L;
        });
        expect(Math.abs((beside[1] - beside[0]) / (2 * step) - slope)).toBeLessThan(1e-3);
      }
    }
  });

  it('has residuals whose length is CIEDE2000 near the target', () => {
    const roll = dice(5);
    for (let trial = 0; trial < 300; trial++) {
      const lab: Lab = [roll(100), roll(120) - 60, roll(120) - 60];
      const distance = new Distance({ lab });
      const near: Lab = [
        lab[0] + roll(9) / 4 - 1,
        lab[1] + roll(9) / 4 - 1,
        lab[2] + roll(9) / 4 - 1,
      ];
      distance.weigh(...near);
      const length = Math.hypot(...distance.residual);
      expect(distance.of(...near)).toBeCloseTo(deltaE2000(lab, near), 12);
      expect(Math.abs(length - deltaE2000(lab, near))).toBeLessThan(0.02 + 0.02 * length);
    }
  });
});

describe('findMixes', () => {
  const targets: [Lab, string[], number][] = [
    [[50, 8, 18], EARTHS, 1],
    [[35, 0, 0], EARTHS, 1],
    [[80, 5, 50], EARTHS, 1],
    [[25, 12, -20], EARTHS, 1],
    [[62, 20, 10], PRIMARIES, 1],
    [[45, -30, 5], PRIMARIES, 0.6],
    // Out of reach: the nearest counts.
    [[15, 5, 5], EARTHS, 1],
    [[55, 70, 60], PRIMARIES, 1],
    [[60, 10, -60], EARTHS, 0.5],
  ];

  // Outside truth: trying everything.
  it('is within 0.1 of trying every whole part at fine strengths', { timeout: 120_000 }, () => {
    for (const [lab, tubes, maxStrength] of targets) {
      const found = findMixes({ lab }, { tubes, maxStrength });
      expect(found[0].deltaE).toBeLessThan(exhaustive(lab, tubes, 12, maxStrength) + 0.1);
    }
  });

  it('is so for any shelf and colour, most of them out of reach', { timeout: 240_000 }, () => {
    const roll = dice(20);
    const own = TUBES.filter(({ standIn }) => standIn === undefined).map(({ id }) => id);
    for (let trial = 0; trial < 60; trial++) {
      const left = [...own];
      const tubes = Array.from(
        { length: 3 + (trial % 2) },
        () => left.splice(roll(left.length), 1)[0],
      );
      const lab: Lab = [5 + roll(91), roll(160) - 80, roll(180) - 90];
      const [best] = findMixes({ lab }, { tubes, wholeParts: 8 });
      const least = exhaustive(lab, tubes, 8, 1);
      expect(best.deltaE, `${lab.join()} of ${tubes.join()}`).toBeLessThan(least + 0.1);
    }
  });

  // Far from all mixes CIEDE2000 has edges: the nearest lies in a narrow valley beside that of fewer tubes.
  it('finds narrow valleys far out of reach', { timeout: 120_000 }, () => {
    const umbers = ['burnt-umber', 'ultramarine', 'raw-sienna', 'chromium-oxide-green'];
    for (const lab of [
      [41.1, 27.7, -8.9],
      [7.2, 75, 30.8],
      [10, 60, 0],
      [20, 50, -10],
    ] as Lab[]) {
      const [best] = findMixes({ lab }, { tubes: umbers });
      expect(best.deltaE).toBeLessThan(exhaustive(lab, umbers, 12, 1) + 0.1);
    }
  });

  // Mixes that an exhaustive search of its own found (every ratio, strengths in steps of a twelfth, then of a 60th) and this search once missed.
  it('finds what it once missed, by where it lay', () => {
    const over = (tube: string, strength: number): Mix[] => [
      mixOnPaper([{ tube, parts: 1 }], { strength }),
    ];
    const missed: [string, Lab, string, string, number, Partial<MixOptions>?][] = [
      [
        'a pair beside the edge of the opposite hue, real parts',
        [28.01, 81.22, 15.45],
        'ultramarine yellow-ochre bismuth-yellow',
        '11 9',
        0.9711,
        { wholeParts: false },
      ],
      [
        'the same of three',
        [11.83, 108.27, 30.06],
        'ultramarine yellow-ochre burnt-umber',
        '10 4 5',
        0.8065,
        { wholeParts: false },
      ],
      [
        'three with much white, real parts that a coarse sweep passes over',
        [70.99, -19.04, -57.94],
        'titanium-white pyrrole-red chromium-oxide-green',
        '19 1 4',
        1,
        { wholeParts: false },
      ],
      [
        'a weak wash of a black and an earth',
        [29.09, 106.59, 16.62],
        'carbon-black raw-sienna burnt-sienna',
        '2 9',
        0.098,
        { wholeParts: 16 },
      ],
      [
        'a valley narrower than a quarter of the strength',
        [6.17, 58.3, 18.75],
        'phthalo-blue-red-shade cadmium-orange green-gold',
        '1 1',
        0.7138,
        { wholeParts: 5, loads: { 'green-gold': 0.5 } },
      ],
      [
        'another such',
        [59.64, 99.31, 4.52],
        'quinacridone-rose chromium-oxide-green ivory-black',
        '1 5',
        0.5085,
        {
          wholeParts: 8,
          maxStrength: 2,
          over: over('phthalo-blue', 0.5),
          loads: { 'ivory-black': 0.3 },
        },
      ],
      [
        'three over a dried layer, real parts',
        [14.17, 108.01, 47.09],
        'cadmium-red dioxazine-violet phthalo-green-yellow-shade',
        '4 2 17',
        0.2225,
        { wholeParts: false, maxStrength: 0.4, over: over('phthalo-green', 0.3) },
      ],
      [
        'a pair with white over a dried layer',
        [67.41, 68.53, -61.8],
        'phthalo-green-yellow-shade titanium-white ultramarine',
        '1 8',
        0.0626,
        { over: over('quinacridone-magenta', 0.1) },
      ],
      [
        'a pale pair in reach, followed from thick starts',
        [87.8, 13.3, 13.52],
        'hansa-yellow pyrrole-orange phthalo-blue-red-shade',
        '1 2',
        0.021,
        { loads: { 'phthalo-blue-red-shade': 0.3 } },
      ],
      [
        'three in reach of few parts',
        [76.56, 33.78, 5.55],
        'diarylide-yellow pyrrole-red quinacridone-rose raw-umber phthalo-green-yellow-shade cobalt-blue',
        '1 1 4',
        0.0371,
        { wholeParts: 8 },
      ],
      [
        'three in reach, real parts, a load of its own',
        [40.89, 3.31, 12.99],
        'yellow-ochre chromium-oxide-green pyrrole-red',
        '1 17 4',
        0.7942,
        {
          wholeParts: false,
          maxStrength: 2,
          paper: paperReflectance({ lightness: 87 }),
          loads: { 'yellow-ochre': 2 },
        },
      ],
    ];
    for (const [name, lab, ids, amounts, strength, options] of missed) {
      const tubes = ids.split(' ');
      const parts = amounts.split(' ').map((amount, i) => ({ tube: tubes[i], parts: +amount }));
      const { lab: possible } = mixOnPaper(parts, { ...options, strength });
      const [best] = findMixes({ lab }, { ...options, tubes });
      expect(best.deltaE, name).toBeLessThan(deltaE2000(lab, possible) + 0.1);
    }
  });

  it('is so far beyond what three tubes reach', { timeout: 120_000 }, () => {
    const roll = dice(5);
    const own = TUBES.filter(({ standIn }) => standIn === undefined).map(({ id }) => id);
    for (let trial = 0; trial < 40; trial++) {
      const left = [...own];
      const tubes = Array.from({ length: 3 }, () => left.splice(roll(left.length), 1)[0]);
      const lab: Lab = [2 + roll(97), roll(220) - 110, roll(240) - 120];
      const [best] = findMixes({ lab }, { tubes });
      const least = exhaustive(lab, tubes, 12, 1);
      expect(best.deltaE, `${lab.join()} of ${tubes.join()}`).toBeLessThan(least + 0.1);
    }
  });

  it('with real parts is no further than a finer grid of parts', { timeout: 120_000 }, () => {
    for (const [lab, tubes, maxStrength] of targets.slice(0, 4)) {
      const [best] = findMixes(
        { lab },
        { tubes: tubes.slice(0, 4), maxStrength, wholeParts: false },
      );
      const least = exhaustive(lab, tubes.slice(0, 4), 24, maxStrength);
      expect(best.deltaE).toBeLessThan(least + 0.1);
    }
  });

  it('over a dried layer and on another paper', { timeout: 120_000 }, () => {
    const paper = paperReflectance({ lightness: 88 });
    const over = [mixOnPaper([{ tube: 'yellow-ochre', parts: 1 }], { strength: 0.3, paper })];
    const lab: Lab = [48, -4, 12];
    const tubes = EARTHS.slice(1);
    const [best] = findMixes({ lab }, { tubes, paper, over });
    expect(best.deltaE).toBeLessThan(exhaustive(lab, tubes, 12, 1, { paper, over }) + 0.1);
    expect(mixOnPaper(best.parts, { strength: best.strength, paper, over }).lab).toEqual(best.lab);
  });

  it('finds a mix again that was made from the shelf', () => {
    const roll = dice(3);
    for (let trial = 0; trial < 40; trial++) {
      const parts = [0, 1, 2].map((i) => ({ tube: EARTHS[(trial + i) % 5], parts: 1 + roll(4) }));
      const { lab } = mixOnPaper(parts, { strength: 0.05 + roll(90) / 100 });
      expect(findMixes({ lab }, { tubes: EARTHS })[0].deltaE).toBeLessThan(0.1);
    }
  });

  it('tells figures of the parts that it returns', () => {
    const lab: Lab = [52, 6, -9];
    const mixes = findMixes({ lab }, { tubes: EARTHS, count: 5, wholeParts: 9, maxStrength: 0.8 });
    expect(mixes).toHaveLength(5);
    for (const mix of mixes) {
      const total = mix.parts.reduce((sum, part) => sum + part.parts, 0);
      expect(mix.parts.every(({ parts }) => Number.isInteger(parts) && parts > 0)).toBe(true);
      expect(total).toBeLessThanOrEqual(9);
      expect(mix.strength).toBeGreaterThan(0);
      expect(mix.strength).toBeLessThanOrEqual(0.8);
      expect(mix.lab).toEqual(mixOnPaper(mix.parts, { strength: mix.strength }).lab);
      expect(mix.deltaE).toBe(deltaE2000(lab, mix.lab));
      const worst = mix.parts.flatMap((_, i) =>
        [0.9, 1.1].map((factor) => {
          const off = mix.parts.map((p, j) => (i === j ? { ...p, parts: p.parts * factor } : p));
          return deltaE2000(mix.lab, mixOnPaper(off, { strength: mix.strength }).lab);
        }),
      );
      if (mix.parts.length > 1) expect(mix.steadiness).toBeCloseTo(Math.max(...worst), 9);
      else expect(mix.steadiness).toBe(0);
    }
    const sets = mixes.map(({ parts }) => parts.map(({ tube }) => tube).join());
    expect(new Set(sets).size).toBe(5);
    // Best first; within 0.05 fewer tubes come first.
    for (let i = 1; i < mixes.length; i++)
      expect(mixes[i].deltaE).toBeGreaterThan(mixes[i - 1].deltaE - 0.05 - 1e-9);
  });

  it('takes fewer tubes among equals, and any colour of a lightness', () => {
    const mixes = findMixes({ lightness: 60 }, { tubes: EARTHS });
    for (const mix of mixes) expect(mix.deltaE).toBeLessThan(0.01);
    expect(mixes[0].parts).toHaveLength(1);
    const alone = mixOnPaper([{ tube: 'phthalo-green', parts: 1 }], { strength: 0.37 });
    const [best] = findMixes({ lab: alone.lab }, { tubes: EARTHS });
    expect(best.parts).toEqual([{ tube: 'phthalo-green', parts: 1 }]);
    expect(best.strength).toBeCloseTo(0.37, 3);
  });

  it('keeps to maxTubes, and adds a fourth tube when told', () => {
    const lab: Lab = [47, 3, 6];
    for (const maxTubes of [1, 2]) {
      const mixes = findMixes({ lab }, { tubes: EARTHS, maxTubes });
      expect(mixes.every(({ parts }) => parts.length <= maxTubes)).toBe(true);
    }
    const [three] = findMixes({ lab }, { tubes: EARTHS });
    const four = findMixes({ lab }, { tubes: EARTHS, maxTubes: 4 });
    expect(Math.min(...four.map((mix) => mix.deltaE))).toBeLessThanOrEqual(three.deltaE + 1e-9);
  });

  // Trade fact, common practice, no source: a blue, a red and an earth neutralise each other.
  it('makes a grey of a blue, a red and an earth', () => {
    const tubes = ['ultramarine', 'pyrrole-red', 'yellow-ochre'];
    const [grey] = findMixes({ lab: [45, 0, 0] }, { tubes, wholeParts: false });
    expect(grey.deltaE).toBeLessThan(0.01);
    expect(grey.parts).toHaveLength(3);
    expect(gradeOf(grey.deltaE)).toBe('close');
  });

  it('says why a target is out of reach, with the nearest', () => {
    const codes = (lab: Lab, tubes: string[]): string[] => {
      const [nearest] = findMixes({ lab }, { tubes });
      return whyOutOfReach({ lab }, nearest).map(({ code }) => code);
    };
    expect(codes([3, 0, 0], EARTHS)[0]).toBe('mix.too-dark');
    expect(codes([100, 0, 0], ['ultramarine'])[0]).toBe('mix.too-light');
    expect(codes([60, 90, 70], EARTHS)[0]).toBe('mix.too-chromatic');
    expect(codes([70, 25, 60], ['hansa-yellow', 'phthalo-green'])[0]).toBe('mix.hue-missing');
    expect(codes([50, 8, 18], EARTHS)).toEqual([]);
    const [dark] = findMixes({ lightness: 2 }, { tubes: EARTHS });
    expect(whyOutOfReach({ lightness: 2 }, dark)[0]).toEqual({
      code: 'mix.too-dark',
      values: { lightness: 2, reached: dark.lab[0] },
    });
  });

  it('takes tubes as strong as the painter found them', () => {
    const loads = { ultramarine: 3, 'burnt-sienna': 0.5 };
    const parts = [
      { tube: 'ultramarine', parts: 1 },
      { tube: 'burnt-sienna', parts: 4 },
    ];
    const { lab } = mixOnPaper(parts, { strength: 0.4, loads });
    const [best] = findMixes({ lab }, { tubes: EARTHS, loads });
    expect(best.deltaE).toBeLessThan(0.1);
    expect(best.lab).toEqual(mixOnPaper(best.parts, { strength: best.strength, loads }).lab);
  });

  it('refuses what is no shelf, target or setting by name', () => {
    const run = (target: unknown, options: unknown) => () =>
      findMixes(target as { lab: Lab }, options as { tubes: string[] });
    const lab = [50, 0, 0];
    expect(run({ lab }, { tubes: [] })).toThrow(/options\.tubes .* at least one tube/);
    expect(run({ lab }, { tubes: ['mud'] })).toThrow(/options\.tubes\[0\] is "mud"/);
    expect(run({ lab }, { tubes: ['prussian-blue'] })).toThrow(RangeError);
    expect(run({ lab }, {})).toThrow(TypeError);
    expect(run({}, { tubes: EARTHS })).toThrow(/target/);
    expect(run({ lab: [NaN, 0, 0] }, { tubes: EARTHS })).toThrow(/target\.lab\[0\]/);
    expect(run({ lab: [120, 0, 0] }, { tubes: EARTHS })).toThrow(RangeError);
    expect(run({ lightness: -1 }, { tubes: EARTHS })).toThrow(/target\.lightness/);
    for (const [name, value] of [
      ['maxTubes', 0],
      ['count', 0.5],
      ['maxStrength', 0],
      ['maxStrength', -1],
      ['maxStrength', NaN],
      ['wholeParts', 0],
      ['wholeParts', true],
      ['paper', [1]],
      ['over', {}],
    ] as const)
      expect(run({ lab }, { tubes: EARTHS, [name]: value })).toThrow(`options.${name}`);
  });

  it('works with one part, one tube and repeated tubes', () => {
    const lab: Lab = [50, 0, 0];
    const ones = findMixes({ lab }, { tubes: EARTHS, wholeParts: 1 });
    expect(ones.every(({ parts }) => parts.length === 1)).toBe(true);
    const [single] = findMixes({ lab }, { tubes: ['ultramarine', 'ultramarine'] });
    expect(single.parts).toEqual([{ tube: 'ultramarine', parts: 1 }]);
  });
});
