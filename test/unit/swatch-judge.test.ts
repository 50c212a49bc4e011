import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { driedLightness } from '../../core/paint/index.js';
import {
  judgeBoard,
  judgeBoardKernel,
  SWATCH_CODES,
  type Board,
  type BoardSwatch,
  type BoardVerdict,
} from '../../core/swatch/index.js';
import munsell from '../reference/munsell-value.json' with { type: 'json' };

/** Three bands that meet at L* 35 and 65, bare paper at 95. */
const three = (): Board['bands'] => [
  { name: 'dark', floor: 0, ceiling: 35 },
  { name: 'middle', floor: 35, ceiling: 65 },
  { name: 'light', floor: 65, ceiling: 95 },
];

type Short = [id: string, bucket: number, lightness: number, more?: Partial<BoardSwatch>];

const boardOf = (swatches: Short[], bands = three()): Board => ({
  bands,
  swatches: swatches.map(([id, bucket, lightness, more]) => ({ id, bucket, lightness, ...more })),
});

const verdicts = (verdict: BoardVerdict): Record<string, string> =>
  Object.fromEntries(verdict.swatches.map((s) => [s.id, s.verdict]));
const one = (verdict: BoardVerdict, id: string) => verdict.swatches.find((s) => s.id === id)!;
const codes = (verdict: BoardVerdict, id: string): string[] =>
  one(verdict, id).reasons.map(({ code }) => code);

describe('a board in order', () => {
  const verdict = judgeBoard(
    boardOf([
      ['d1', 0, 20],
      ['d2', 0, 30],
      ['m1', 1, 45],
      ['m2', 1, 55],
      ['l1', 2, 75],
    ]),
  );

  it('fits all through, without overlaps', () => {
    expect(verdicts(verdict)).toEqual({
      d1: 'fits',
      d2: 'fits',
      m1: 'fits',
      m2: 'fits',
      l1: 'fits',
    });
    expect(verdict.overlaps).toEqual([]);
  });

  // lightest dark 30 to darkest middle 45; lightest middle 55 to darkest light 75
  it('has the gaps 15 and 20', () => expect(verdict.gaps).toEqual([15, 20]));

  // d2 at 30 meets the middle at 45; m1 at 45 meets the dark at 30; m2 at 55 meets the light at 75 and the dark at 30: the nearer is 20;
  // d1 meets floor 0 after 20, the middle after 25; l1 at 75 meets the middle at 55 and the ceiling 95: 20 both ways.
  it('tells the way to the nearest fault', () => {
    expect(verdict.swatches.map(({ margin }) => margin)).toEqual([20, 15, 15, 20, 20]);
  });
});

describe('who is at fault when two buckets overlap', () => {
  // A dark at 50 among middles at 40 and 48: it is 15 above its ceiling, they are inside their limits. It has to go below 40: 10 down.
  it('is the one farther outside its limits: a dark too light', () => {
    const verdict = judgeBoard(
      boardOf([
        ['d', 0, 20],
        ['x', 0, 50],
        ['m1', 1, 40],
        ['m2', 1, 48],
      ]),
    );
    expect(verdicts(verdict)).toEqual({ d: 'fits', x: 'too-light', m1: 'fits', m2: 'fits' });
    expect(verdict.overlaps).toEqual([
      ['x', 'm1'],
      ['x', 'm2'],
    ]);
    expect(one(verdict, 'x').margin).toBe(-10);
    expect(one(verdict, 'x').reasons[0]).toEqual({
      code: 'swatch.not-darker',
      values: {
        band: 'dark',
        lightness: 50,
        other: 'm1',
        otherBand: 'middle',
        otherLightness: 40,
        by: 10,
        count: 2,
      },
    });
    expect(codes(verdict, 'm1')).toEqual(['swatch.fits', 'swatch.passed']);
    // x no longer counts: m1 meets the dark at 20, and the light band's floor at 65
    expect(one(verdict, 'm1').margin).toBe(20);
    expect(verdict.gaps).toEqual([-10, 17]); // 40 - 50; the empty light bucket is stood for by its floor: 65 - 48
  });

  // A light at 60 under a middle at 62: the light is 5 below its floor, the middle inside. It has to rise by 2.
  it('is the one farther outside its limits: a light too dark', () => {
    const verdict = judgeBoard(
      boardOf([
        ['m', 1, 62],
        ['l', 2, 60],
      ]),
    );
    expect(verdicts(verdict)).toEqual({ m: 'fits', l: 'too-dark' });
    expect(one(verdict, 'l').margin).toBe(-2);
    expect(codes(verdict, 'l')).toEqual(['swatch.not-lighter']);
  });

  // Dark 38 (3 above its ceiling), middle 32 (3 below its floor): equally far.
  it('is both when they are equally far out', () => {
    const verdict = judgeBoard(
      boardOf([
        ['d', 0, 38],
        ['m', 1, 32],
      ]),
    );
    expect(verdicts(verdict)).toEqual({ d: 'too-light', m: 'too-dark' });
    expect(verdict.overlaps).toEqual([['d', 'm']]);
    expect(verdict.swatches.map(({ margin }) => margin)).toEqual([-6, -6]);
  });

  // The same lightness on the common limit: no order between them, and the limits do not say which is wrong.
  it('is both when they are equally light on the limit', () => {
    const verdict = judgeBoard(
      boardOf([
        ['d', 0, 35],
        ['m', 1, 35],
      ]),
    );
    expect(verdicts(verdict)).toEqual({ d: 'too-light', m: 'too-dark' });
    expect(verdict.overlaps).toEqual([['d', 'm']]);
    expect(verdict.swatches.map(({ margin }) => margin)).toEqual([0, 0]);
    expect(verdict.gaps[0]).toBe(0);
  });

  // Dark 60 and middle 20 have changed places: dark 25 above its ceiling, middle 15 below its floor. The dark is at fault for
  // crossing; it no longer counts, so the middle stands against the dark band's limit, under which it lies: at fault too.
  it('is both when two have changed places', () => {
    expect(
      verdicts(
        judgeBoard(
          boardOf([
            ['d', 0, 60],
            ['m', 1, 20],
          ]),
        ),
      ),
    ).toEqual({ d: 'too-light', m: 'too-dark' });
  });

  it('compares buckets that are no neighbours', () => {
    const verdict = judgeBoard(
      boardOf([
        ['d', 0, 80],
        ['l', 2, 75],
      ]),
    );
    expect(verdict.overlaps).toEqual([['d', 'l']]);
    expect(verdicts(verdict)).toEqual({ d: 'too-light', l: 'fits' });
  });
});

describe('limits only guide', () => {
  // Everything is painted 10 lighter than the limits say, but in order: dark 40 before middle 50, middle 72 before light 85.
  it('a board keyed lighter than its limits has no fault', () => {
    const verdict = judgeBoard(
      boardOf([
        ['d', 0, 40],
        ['m1', 1, 50],
        ['m2', 1, 72],
        ['l', 2, 85],
      ]),
    );
    expect(verdicts(verdict)).toEqual({ d: 'between', m1: 'fits', m2: 'between', l: 'fits' });
    expect(verdict.overlaps).toEqual([]);
    expect(one(verdict, 'd').margin).toBe(10);
    expect(one(verdict, 'd').reasons[0]).toEqual({
      code: 'swatch.between-lighter',
      values: { band: 'dark', lightness: 40, ceiling: 35, by: 5, otherBand: 'middle', next: 50 },
    });
  });

  it('a board keyed darker likewise', () => {
    const verdict = judgeBoard(
      boardOf([
        ['d', 0, 10],
        ['m', 1, 25],
        ['l', 2, 58],
      ]),
    );
    expect(verdicts(verdict)).toEqual({ d: 'fits', m: 'between', l: 'between' });
    expect(one(verdict, 'm').reasons[0]).toEqual({
      code: 'swatch.between-darker',
      values: { band: 'middle', lightness: 25, floor: 35, by: 10, otherBand: 'dark', next: 10 },
    });
  });

  // With nothing beside it, a dark at 60 can only be read by the limits: 25 too light.
  it('they decide where there is nothing to compare with', () => {
    const verdict = judgeBoard(boardOf([['d', 0, 60]]));
    expect(verdicts(verdict)).toEqual({ d: 'too-light' });
    expect(one(verdict, 'd')).toMatchObject({
      margin: -25,
      reasons: [{ code: 'swatch.above-ceiling', values: { ceiling: 35, by: 25 } }],
    });
  });

  // An empty middle does not lend its room to the dark: 60 is darker than the light at 80, but lies where the middle belongs.
  it('and stand for an empty bucket', () => {
    const verdict = judgeBoard(
      boardOf([
        ['d', 0, 60],
        ['l', 2, 80],
      ]),
    );
    expect(verdicts(verdict)).toEqual({ d: 'too-light', l: 'fits' });
    expect(verdict.gaps).toEqual([-25, 15]); // 35 (the middle's floor) - 60; 80 - 65 (the middle's ceiling)
  });

  // Limits that leave 30..40 between two bands: 35 is between, 30 fits, 40 is in the other band.
  it('a space between two bands is between', () => {
    const bands = [
      { name: 'dark', floor: 0, ceiling: 30 },
      { name: 'light', floor: 40, ceiling: 95 },
    ];
    const verdict = judgeBoard(
      boardOf(
        [
          ['a', 0, 30],
          ['b', 0, 35],
          ['c', 0, 40],
        ],
        bands,
      ),
    );
    expect(verdicts(verdict)).toEqual({ a: 'fits', b: 'between', c: 'too-light' });
    expect(verdict.swatches.map(({ margin }) => margin)).toEqual([10, 5, 0]);
    expect(
      verdicts(
        judgeBoard(
          boardOf(
            [
              ['a', 1, 40],
              ['b', 1, 35],
              ['c', 1, 30],
            ],
            bands,
          ),
        ),
      ),
    ).toEqual({ a: 'fits', b: 'between', c: 'too-dark' });
  });

  // The light at 30 is at fault against the limits (no middle shows that it is right), so the dark's way up ends at its own ceiling, 35,
  // and not at 30. Where limits overlap, a light at 45 is in its place, and the dark's way up ends there, short of its ceiling.
  it('one at fault by the limits does not count for the others', () => {
    const verdict = judgeBoard(
      boardOf([
        ['d', 0, 20],
        ['l', 2, 30],
      ]),
    );
    expect(verdicts(verdict)).toEqual({ d: 'fits', l: 'too-dark' });
    expect(one(verdict, 'd').margin).toBe(15);
    const bands = [
      { name: 'dark', floor: 0, ceiling: 50 },
      { name: 'middle', floor: 30, ceiling: 60 },
      { name: 'light', floor: 40, ceiling: 95 },
    ];
    const other = judgeBoard(
      boardOf(
        [
          ['d', 0, 40],
          ['l', 2, 45],
        ],
        bands,
      ),
    );
    expect(verdicts(other)).toEqual({ d: 'fits', l: 'fits' });
    expect(one(other, 'd').margin).toBe(5);
    const mirrored = judgeBoard(
      boardOf(
        [
          ['d', 0, 45],
          ['l', 2, 50],
        ],
        bands,
      ),
    );
    expect(one(mirrored, 'l').margin).toBe(5);
  });

  it('the outer ends are limits too', () => {
    const bands = [
      { name: 'dark', floor: 15, ceiling: 50 },
      { name: 'light', floor: 50, ceiling: 90 },
    ];
    expect(
      verdicts(
        judgeBoard(
          boardOf(
            [
              ['d', 0, 10],
              ['l', 1, 93],
            ],
            bands,
          ),
        ),
      ),
    ).toEqual({ d: 'too-dark', l: 'too-light' });
  });

  // ASTM D1535: L* of neutral steps. Parted at values 3.5 and 6.5 (L* 36 and 66), three steps fall into each band.
  it('parts the neutral value steps in threes', () => {
    const bands = [
      { name: 'dark', floor: 0, ceiling: 36 },
      { name: 'middle', floor: 36, ceiling: 66 },
      { name: 'light', floor: 66, ceiling: 95 },
    ];
    const steps = munsell.rows.filter(([V]) => Number.isInteger(V) && V >= 1 && V <= 9);
    expect(steps).toHaveLength(9);
    const verdict = judgeBoard(
      boardOf(
        steps.map(([V, , L]) => [`N${V}`, Math.floor((V - 1) / 3), L]),
        bands,
      ),
    );
    expect(new Set(Object.values(verdicts(verdict)))).toEqual(new Set(['fits']));
  });
});

describe('what is not known exactly', () => {
  // 34 give or take 3 may be 31 or 37: inside the dark band or above its ceiling.
  it('is unsure near a limit', () => {
    const verdict = judgeBoard(boardOf([['d', 0, 34, { uncertainty: 3 }]]));
    expect(verdicts(verdict)).toEqual({ d: 'unsure' });
    expect(one(verdict, 'd')).toMatchObject({
      margin: 1,
      reasons: [{ code: 'swatch.unsure-limit', values: { low: 31, high: 37, limit: 35 } }],
    });
  });

  it('is sure away from it', () => {
    expect(
      verdicts(
        judgeBoard(
          boardOf([
            ['d', 0, 30, { uncertainty: 3 }],
            ['m', 1, 45, { uncertainty: 3 }],
          ]),
        ),
      ),
    ).toEqual({ d: 'fits', m: 'fits' });
    expect(verdicts(judgeBoard(boardOf([['d', 0, 60, { uncertainty: 3 }]])))).toEqual({
      d: 'too-light',
    });
  });

  // Dark 36..40 against middle 37..41: which is the darker cannot be told, so there is no proved overlap.
  it('is unsure when the order cannot be told', () => {
    const verdict = judgeBoard(
      boardOf([
        ['d', 0, 38, { uncertainty: 2 }],
        ['m', 1, 39, { uncertainty: 2 }],
      ]),
    );
    expect(verdicts(verdict).d).toBe('unsure');
    expect(codes(verdict, 'd')).toEqual(['swatch.unsure-order']);
    expect(verdict.overlaps).toEqual([]);
  });

  // Dark 48..52 against middle 43..47: crossed for sure, the dark outside and the middle inside for sure.
  it('is sure of a fault beyond its range', () => {
    const verdict = judgeBoard(
      boardOf([
        ['d', 0, 50, { uncertainty: 2 }],
        ['m', 1, 45, { uncertainty: 2 }],
      ]),
    );
    expect(verdicts(verdict)).toEqual({ d: 'too-light', m: 'fits' });
    expect(verdict.overlaps).toEqual([['d', 'm']]);
  });

  it('taking uncertainty away never makes a sure verdict another', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            bucket: fc.nat(2),
            lightness: fc.integer({ min: 0, max: 100 }),
            uncertainty: fc.nat(8),
          }),
          { maxLength: 7 },
        ),
        (list) => {
          const board = (exact: boolean): Board => ({
            bands: three(),
            swatches: list.map((s, i) => ({
              ...s,
              id: `${i}`,
              uncertainty: exact ? 0 : s.uncertainty,
            })),
          });
          const vague = judgeBoard(board(false));
          const exact = judgeBoard(board(true));
          vague.swatches.forEach(({ verdict }, i) => {
            if (verdict === 'too-dark' || verdict === 'too-light')
              expect(exact.swatches[i].verdict).toBe(verdict);
          });
          for (const pair of vague.overlaps) expect(exact.overlaps).toContainEqual(pair);
        },
      ),
    );
  });
});

describe('wet swatches', () => {
  // A wet 40 dries to 42.3 (mean shift) and at most to about 51 (film bound): inside 35..65 all the way.
  it('fit when the whole range they may dry to fits', () => {
    const verdict = judgeBoard(boardOf([['m', 1, 40, { wet: true }]]));
    expect(verdicts(verdict)).toEqual({ m: 'fits' });
    expect(codes(verdict, 'm')).toEqual(['swatch.fits', 'swatch.wet']);
    const { dried, low, high } = one(verdict, 'm').reasons[1].values as Record<string, number>;
    expect([dried, low, high]).toEqual([
      driedLightness(40).lightness,
      driedLightness(40).low,
      driedLightness(40).high,
    ]);
    expect(dried).toBeCloseTo(42.3, 10);
  });

  // Wet 33 in the dark bucket looks inside, but may dry to 43.
  it('are unsure when it straddles a limit', () => {
    expect(verdicts(judgeBoard(boardOf([['d', 0, 33, { wet: true }]])))).toEqual({ d: 'unsure' });
  });

  // Wet 42 (dries to 42..54) against a dry middle at 43: order unknown, though the wet one looks darker.
  it('are compared dry against dry', () => {
    const verdict = judgeBoard(
      boardOf([
        ['w', 0, 42, { wet: true }],
        ['m', 1, 43],
      ]),
    );
    expect(verdicts(verdict).w).toBe('unsure');
    expect(verdict.gaps[0]).toBeCloseTo(43 - 44.3, 10);
  });

  it('are wrong when no drying can put them right', () => {
    expect(verdicts(judgeBoard(boardOf([['w', 0, 50, { wet: true }]])))).toEqual({
      w: 'too-light',
    });
  });

  it('dry no lighter than the paper they are told to lie on', () => {
    const [swatch] = judgeBoard(boardOf([['w', 2, 78, { wet: true }]]), { paper: 80 }).swatches;
    expect(swatch.reasons[1].values.high).toBe(80);
  });
});

describe('accents', () => {
  it('are no fault, push nobody out and say how far they sit out', () => {
    const verdict = judgeBoard(
      boardOf([
        ['d', 0, 20],
        ['a', 0, 70, { accent: true }],
        ['m', 1, 50],
        ['l', 2, 80],
      ]),
    );
    expect(verdicts(verdict)).toEqual({ d: 'fits', a: 'fits', m: 'fits', l: 'fits' });
    expect(verdict.overlaps).toEqual([]);
    expect(verdict.gaps).toEqual([30, 30]);
    // 35 above the ceiling, 20 above the middle swatch: 35
    expect(one(verdict, 'a').reasons).toEqual([
      { code: 'swatch.accent-lighter', values: { band: 'dark', lightness: 70, by: 35 } },
    ]);
    expect(one(verdict, 'a').margin).toBe(-20);
  });

  it('are told when they are inside, or too dark', () => {
    const verdict = judgeBoard(
      boardOf([
        ['a', 1, 50, { accent: true }],
        ['b', 2, 40, { accent: true }],
      ]),
    );
    expect(codes(verdict, 'a')).toEqual(['swatch.accent-inside']);
    expect(one(verdict, 'b').reasons).toEqual([
      { code: 'swatch.accent-darker', values: { band: 'light', lightness: 40, by: 25 } },
    ]);
  });
});

describe('the spread of a bucket', () => {
  const bands = three();
  bands[1] = { ...bands[1], spread: 10 };

  it('gives a reason at both ends when it is too wide', () => {
    const verdict = judgeBoard(
      boardOf(
        [
          ['a', 1, 40],
          ['b', 1, 45],
          ['c', 1, 52],
        ],
        bands,
      ),
    );
    expect(verdicts(verdict)).toEqual({ a: 'fits', b: 'fits', c: 'fits' });
    expect(one(verdict, 'a').reasons[1]).toEqual({
      code: 'swatch.bucket-wide',
      values: { band: 'middle', spread: 12, allowed: 10, other: 'c' },
    });
    expect(codes(verdict, 'b')).toEqual(['swatch.fits']);
    expect(codes(verdict, 'c')).toEqual(['swatch.fits', 'swatch.bucket-wide']);
  });

  it('gives none at the allowed width, for an accent, or when it is not sure', () => {
    for (const last of [
      ['c', 1, 50],
      ['c', 1, 60, { accent: true }],
      ['c', 1, 52, { uncertainty: 3 }],
    ] as Short[]) {
      expect(codes(judgeBoard(boardOf([['a', 1, 40], last], bands)), 'a')).toEqual(['swatch.fits']);
    }
  });
});

describe('boards of any size', () => {
  it('an empty board', () => {
    expect(judgeBoard({ bands: [], swatches: [] })).toEqual({
      swatches: [],
      overlaps: [],
      gaps: [],
    });
    expect(judgeBoard({ bands: three(), swatches: [] })).toEqual({
      swatches: [],
      overlaps: [],
      gaps: [0, 0],
    });
  });

  it('one band', () => {
    const verdict = judgeBoard(
      boardOf(
        [
          ['a', 0, 50],
          ['b', 0, 96],
        ],
        [{ name: 'all', floor: 0, ceiling: 95 }],
      ),
    );
    expect(verdicts(verdict)).toEqual({ a: 'fits', b: 'too-light' });
    expect(verdict.gaps).toEqual([]);
  });

  it('five bands with one stray', () => {
    const bands = [0, 20, 40, 60, 80].map((floor, i) => ({
      name: `${i}`,
      floor,
      ceiling: Math.min(95, floor + 20),
    }));
    const verdict = judgeBoard(
      boardOf(
        [
          ['0', 0, 10],
          ['1', 1, 30],
          ['x', 1, 75],
          ['2', 2, 50],
          ['3', 3, 70],
          ['4', 4, 88],
        ],
        bands,
      ),
    );
    expect(verdicts(verdict)).toEqual({
      0: 'fits',
      1: 'fits',
      x: 'too-light',
      2: 'fits',
      3: 'fits',
      4: 'fits',
    });
    expect(verdict.overlaps).toEqual([
      ['x', '2'],
      ['x', '3'],
    ]);
    expect(one(verdict, 'x').margin).toBe(-25);
  });

  it('a thousand swatches within two seconds', () => {
    const board = boardOf(
      Array.from({ length: 1000 }, (_, i): Short => [`${i}`, i % 3, (i * 37) % 101]),
    );
    const start = performance.now();
    judgeBoard(board);
    expect(performance.now() - start).toBeLessThan(2000);
  });

  // By hand: lightness goes up by 0.09 and the buckets end below 35 and 65, so that all are in order; but the darkest of all lies in the
  // light bucket, under the 722 of the other two, and is the one at fault (it is 65 below its floor, the others keep their limits).
  it('can be paused all along, and says the same', () => {
    const swatches = Array.from({ length: 1000 }, (_, i): Short => {
      const lightness = (9 * i) / 100;
      return [`${i}`, i === 0 || lightness >= 65 ? 2 : lightness >= 35 ? 1 : 0, lightness];
    });
    const told: number[] = [];
    const judging = judgeBoardKernel(boardOf(swatches));
    let step = judging.next();
    for (; !step.done; step = judging.next()) told.push(step.value);
    expect(told.length).toBeGreaterThan(30);
    expect(told).toEqual([...told].sort((a, b) => a - b));
    expect(told.every((each) => each >= 0 && each <= 1)).toBe(true);
    const verdict = step.value;
    const faults = verdict.swatches.filter((each) => each.verdict.startsWith('too-'));
    expect(faults.map(({ id, verdict: kind }) => [id, kind])).toEqual([['0', 'too-dark']]);
    expect(verdict.overlaps).toHaveLength(722); // 1..388 of dark (below 35), 389..722 of middle (below 65)
    expect(verdict).toEqual(judgeBoard(boardOf(swatches)));
  });
});

describe('laws', () => {
  const swatch = fc.record({
    bucket: fc.nat(3),
    lightness: fc.integer({ min: 10, max: 85 }),
    accent: fc.boolean(),
    wet: fc.boolean(),
    uncertainty: fc.constantFrom(0, 0, 2),
  });
  const four = (): Board['bands'] =>
    [0, 30, 50, 70].map((floor, i) => ({
      name: `b${i}`,
      floor,
      ceiling: [30, 50, 70, 95][i],
      spread: 12,
    }));
  const boards = fc.array(swatch, { maxLength: 9 }).map((list): Board => ({
    bands: four(),
    swatches: list.map((s, i) => ({ ...s, id: `s${i}` })),
  }));
  const exact = fc
    .array(fc.record({ bucket: fc.nat(3), lightness: fc.integer({ min: 10, max: 85 }) }), {
      maxLength: 9,
    })
    .map((list): Board => ({
      bands: four(),
      swatches: list.map((s, i) => ({ ...s, id: `s${i}` })),
    }));
  const rank = { fits: 0, unsure: 1, between: 1, 'too-dark': 2, 'too-light': 2 };

  it('every verdict has known reasons with their figures, all finite', () => {
    fc.assert(
      fc.property(boards, (board) => {
        const verdict = judgeBoard(board);
        expect(verdict.gaps).toHaveLength(3);
        expect(verdict.gaps.every(Number.isFinite)).toBe(true);
        for (const s of verdict.swatches) {
          expect(Number.isFinite(s.margin)).toBe(true);
          expect(s.reasons.length).toBeGreaterThan(0);
          for (const { code, values } of s.reasons) {
            expect(Object.keys(values).sort()).toEqual(
              [...SWATCH_CODES[code as keyof typeof SWATCH_CODES]].sort(),
            );
            for (const figure of Object.values(values))
              expect(typeof figure === 'string' || Number.isFinite(figure)).toBe(true);
          }
        }
        expect(JSON.parse(JSON.stringify(verdict))).toEqual(verdict);
      }),
    );
  });

  it('does not depend on the order of the swatches', () => {
    fc.assert(
      fc.property(boards, fc.infiniteStream(fc.nat()), (board, keys) => {
        const drawn = board.swatches.map((s) => ({ s, key: keys.next().value as number }));
        const shuffled = {
          ...board,
          swatches: drawn.sort((a, b) => a.key - b.key).map(({ s }) => s),
        };
        const [a, b] = [judgeBoard(board), judgeBoard(shuffled)];
        const plain = (v: BoardVerdict) =>
          new Map(v.swatches.map(({ id, verdict, margin }) => [id, `${verdict} ${margin}`]));
        for (const [id, told] of plain(a)) expect(plain(b).get(id)).toBe(told);
        expect(new Set(a.overlaps.map(String))).toEqual(new Set(b.overlaps.map(String)));
        expect(a.gaps).toEqual(b.gaps);
      }),
    );
  });

  it('finds overlaps exactly where a sorted walk through the buckets does', () => {
    fc.assert(
      fc.property(exact, (board) => {
        const buckets = [0, 1, 2, 3].map((b) =>
          board.swatches
            .filter((s) => s.bucket === b)
            .map((s) => s.lightness)
            .sort((x, y) => x - y),
        );
        const filled = buckets.filter((list) => list.length > 0);
        const ordered = filled
          .slice(1)
          .every((list, i) => filled[i][filled[i].length - 1] < list[0]);
        const verdict = judgeBoard(board);
        expect(verdict.overlaps.length === 0).toBe(ordered);
        const atFault = new Set(
          verdict.swatches.filter((s) => s.verdict.startsWith('too-')).map((s) => s.id),
        );
        for (const [darker, lighter] of verdict.overlaps)
          expect(atFault.has(darker) || atFault.has(lighter)).toBe(true);
      }),
    );
  });

  it('taking every swatch at fault away leaves no overlap', () => {
    fc.assert(
      fc.property(exact, (board) => {
        const kept = judgeBoard(board)
          .swatches.filter((s) => !s.verdict.startsWith('too-'))
          .map((s) => s.id);
        expect(
          judgeBoard({ ...board, swatches: board.swatches.filter((s) => kept.includes(s.id)) })
            .overlaps,
        ).toEqual([]);
      }),
    );
  });

  it('keeps order and gaps when all lightnesses shift together', () => {
    fc.assert(
      fc.property(exact, fc.integer({ min: -10, max: 15 }), (board, shift) => {
        const shifted = {
          ...board,
          swatches: board.swatches.map((s) => ({ ...s, lightness: s.lightness + shift })),
        };
        const [a, b] = [judgeBoard(board), judgeBoard(shifted)];
        expect(a.overlaps).toEqual(b.overlaps);
        a.gaps.forEach((gap, i) => {
          const both = [i, i + 1].every((bucket) =>
            board.swatches.some((s) => s.bucket === bucket),
          );
          if (both) expect(b.gaps[i]).toBe(gap);
        });
      }),
    );
  });

  it('an accent never is at fault and changes no other verdict', () => {
    fc.assert(
      fc.property(boards, (board) => {
        const verdict = judgeBoard(board);
        const without = judgeBoard({ ...board, swatches: board.swatches.filter((s) => !s.accent) });
        for (const s of board.swatches) {
          if (s.accent) expect(one(verdict, s.id).verdict).toBe('fits');
          else expect(one(without, s.id)).toEqual(one(verdict, s.id));
        }
      }),
    );
  });

  it('margins are positive inside and negative outside', () => {
    fc.assert(
      fc.property(exact, (board) => {
        for (const { verdict, margin } of judgeBoard(board).swatches) {
          if (verdict.startsWith('too-')) expect(margin).toBeLessThanOrEqual(0);
          else expect(margin).toBeGreaterThanOrEqual(0);
        }
      }),
    );
  });

  it('taking a swatch away never makes another worse while its bucket keeps one that counts', () => {
    fc.assert(
      fc.property(exact, (board) => {
        const before = judgeBoard(board);
        const counts = (v: BoardVerdict, b: Board, bucket: number) =>
          b.swatches.filter((s) => s.bucket === bucket && !one(v, s.id).verdict.startsWith('too-'))
            .length;
        for (const gone of board.swatches) {
          const rest = { ...board, swatches: board.swatches.filter((s) => s !== gone) };
          const after = judgeBoard(rest);
          if (counts(before, board, gone.bucket) > 0 && counts(after, rest, gone.bucket) === 0)
            continue;
          for (const s of after.swatches)
            expect(rank[s.verdict]).toBeLessThanOrEqual(rank[one(before, s.id).verdict]);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('changes nothing it is given', () => {
    fc.assert(
      fc.property(boards, (board) => {
        const copy = structuredClone(board);
        board.swatches.forEach(Object.freeze);
        board.bands.forEach(Object.freeze);
        Object.freeze(board.swatches);
        judgeBoard(Object.freeze(board));
        expect(board).toEqual(copy);
      }),
    );
  });
});

describe('wrong boards', () => {
  const bad = (change: (board: Board) => void): (() => unknown) => {
    const board = boardOf([
      ['a', 0, 20],
      ['b', 1, 50],
    ]);
    change(board);
    return () => judgeBoard(board);
  };

  it.each<[string, (board: Board) => void, typeof RangeError | typeof TypeError, RegExp]>([
    [
      'bucket beyond the bands',
      (b) => (b.swatches[1].bucket = 3),
      RangeError,
      /board\.swatches\[1\]\.bucket is 3; expected a whole number from 0 to 2/,
    ],
    [
      'bucket between two',
      (b) => (b.swatches[1].bucket = 0.5),
      RangeError,
      /swatches\[1\]\.bucket is 0\.5/,
    ],
    ['a swatch without bands', (b) => (b.bands = []), RangeError, /swatches\[0\]\.bucket/],
    [
      'lightness NaN',
      (b) => (b.swatches[0].lightness = Number.NaN),
      RangeError,
      /board\.swatches\[0\]\.lightness is NaN/,
    ],
    [
      'lightness Infinity',
      (b) => (b.swatches[0].lightness = Infinity),
      RangeError,
      /lightness is Infinity/,
    ],
    [
      'lightness as text',
      (b) => (b.swatches[0].lightness = '20' as never),
      TypeError,
      /lightness is "20"/,
    ],
    [
      'lightness missing',
      (b) => delete (b.swatches[0] as Partial<BoardSwatch>).lightness,
      TypeError,
      /lightness is undefined/,
    ],
    [
      'negative uncertainty',
      (b) => (b.swatches[0].uncertainty = -1),
      RangeError,
      /uncertainty is -1/,
    ],
    ['repeated id', (b) => (b.swatches[1].id = 'a'), RangeError, /board\.swatches\[1\]\.id is "a"/],
    ['empty id', (b) => (b.swatches[0].id = ''), RangeError, /swatches\[0\]\.id/],
    ['id as number', (b) => (b.swatches[0].id = 1 as never), TypeError, /swatches\[0\]\.id is 1/],
    ['wet as text', (b) => (b.swatches[0].wet = 'no' as never), TypeError, /swatches\[0\]\.wet/],
    [
      'accent as number',
      (b) => (b.swatches[0].accent = 1 as never),
      TypeError,
      /swatches\[0\]\.accent/,
    ],
    [
      'ceiling below floor',
      (b) => (b.bands[1].ceiling = 30),
      RangeError,
      /board\.bands\[1\]\.ceiling is 30/,
    ],
    ['bands light to dark', (b) => b.bands.reverse(), RangeError, /board\.bands\[1\]\.floor/],
    ['floor NaN', (b) => (b.bands[0].floor = Number.NaN), RangeError, /bands\[0\]\.floor is NaN/],
    ['negative spread', (b) => (b.bands[0].spread = -1), RangeError, /bands\[0\]\.spread/],
    [
      'no name',
      (b) => delete (b.bands[0] as Partial<Board['bands'][0]>).name,
      TypeError,
      /bands\[0\]\.name/,
    ],
    ['no bands', (b) => delete (b as Partial<Board>).bands, TypeError, /board\.bands is undefined/],
    ['no swatches', (b) => (b.swatches = {} as never), TypeError, /board\.swatches is an object/],
    ['a hole', (b) => (b.swatches[0] = null as never), TypeError, /board\.swatches\[0\] is null/],
  ])('%s', (_, change, type, message) => {
    expect(bad(change)).toThrow(type);
    expect(bad(change)).toThrow(message);
  });

  it('no board, or wrong options', () => {
    expect(() => judgeBoard(null as never)).toThrow(TypeError);
    expect(() => judgeBoard({ bands: [], swatches: [] }, { paper: Number.NaN })).toThrow(
      /options\.paper is NaN/,
    );
  });
});
