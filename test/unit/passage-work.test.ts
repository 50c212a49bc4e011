/**
 * Passages with their swatches, in the order of work and on the page. How passages are ordered is common practice, no source; what is
 * tested is what is promised, by made masses whose answers can be counted by hand. CIEDE2000: culori 4.0.2.
 */
import { differenceCiede2000 } from 'culori';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Lab } from '../../core/base/types.js';
import type { PassageBorder, Passages } from '../../core/mass/index.js';
import type { Masses } from '../../core/mass/types.js';
import {
  checkedSteps,
  mixSign,
  orderOfWork,
  passageSign,
  passageWork,
  planSheet,
  planSheets,
  SHEET_STRINGS,
  type Plan,
  type WorkStep,
} from '../../core/plan/index.js';
import { anyWork, edge, massesFrom, planOf } from './order-masses.js';

/** Passages from rows of letters: each letter is one, in the order of its first pixel; `labs` are their colours, `apart` pairs of letters. */
function passagesFrom(
  masses: Masses,
  rows: readonly string[],
  labs: Readonly<Record<string, Lab>>,
  apart: readonly string[] = [],
): Passages {
  const { width } = masses.map;
  const signs = [...new Set(rows.join(''))];
  const labels = Int32Array.from(rows.join(''), (sign) => signs.indexOf(sign));
  const borders = new Map<string, PassageBorder>();
  const meet = (i: number, j: number): void => {
    const pair = [labels[i], labels[j]].sort((a, b) => a - b) as [number, number];
    if (pair[0] === pair[1] || masses.labels[i] !== masses.labels[j]) return;
    const run = apart.includes(pair.map((id) => signs[id]).join('')) ? 'keep-apart' : 'let-run';
    borders.set(pair.join(), { passages: pair, run, deltaE: 20, lengthPx: 1 });
  };
  labels.forEach((_, i) => {
    if ((i + 1) % width !== 0) meet(i, i + 1);
    if (i + width < labels.length) meet(i, i + width);
  });
  return {
    labels,
    passages: signs.map((sign, id) => {
      const first = labels.indexOf(id);
      return {
        id,
        region: masses.labels[first],
        area: labels.filter((label) => label === id).length,
        lab: labs[sign] ?? [50, 0, 0],
        bounds: [0, 0, 1, 1],
        at: [(first % width) + 0.5, Math.floor(first / width) + 0.5],
      };
    }),
    borders: [...borders.values()],
  };
}

const RED: Lab = [40, 55, 40];
const GREEN: Lab = [40, -45, 30];
const BLUE: Lab = [40, 5, -45];

/** A dark mass to the left of a light one; a ribbon `b` of one pixel across a sleeve of `a` and `c`, the light in one passage. */
const masses = massesFrom(['0000011', '0000011', '0000011', '0000011']);
const rows = ['aabccdd', 'aabccdd', 'aabccdd', 'aabccdd'];
const found = passagesFrom(masses, rows, { a: GREEN, b: RED, c: GREEN, d: [80, 2, 8] }, [
  'ab',
  'bc',
]);
const swatches: Plan['board']['swatches'] = [
  { id: 'warm', bucket: 0, lightness: 28, lab: [28, 50, 38] },
  { id: 'cool', bucket: 0, lightness: 28, lab: [28, -40, 25] },
  { id: 'spare', bucket: 0, lightness: 28, lab: [28, 0, -50] },
  { id: 'wet', bucket: 0, lightness: 28, lab: [28, -45, 30], wet: true },
  { id: 'pale', bucket: 1, lightness: 80, lab: [80, 1, 9] },
];
/** 7 pixels on 70 mm: a pixel is 1 cm². */
function plan(part: Partial<Plan> = {}): Plan {
  const made = planOf(2, false, { paper: { widthMm: 70, heightMm: 40, lightness: 95 }, ...part });
  return { ...made, board: { ...made.board, swatches } };
}

describe('passages with their swatches', () => {
  const work = passageWork(plan(), masses, found);

  it('each has a number, a place, an area and the swatch whose lean is nearest', () => {
    expect(work.passages.map(({ number }) => number)).toEqual([1, 2, 3, 4]);
    // 8 of 28 pixels each for a, c and d, 4 for b; darks first, of one mass the larger washes first.
    expect(work.passages.map(({ passage, cm2 }) => [passage, cm2])).toEqual([
      [0, expect.closeTo(8)],
      [2, expect.closeTo(8)],
      [1, expect.closeTo(4)],
      [3, expect.closeTo(8)],
    ]);
    const swatchOf = (i: number): string => work.mixes[work.passages[i].mix! - 1].swatch;
    expect([0, 1, 2, 3].map(swatchOf)).toEqual(['cool', 'cool', 'warm', 'pale']);
    expect(
      work.mixes.map(({ number, swatch, passages, cm2 }) => [number, swatch, passages, cm2]),
    ).toEqual([
      [1, 'cool', [1, 2], expect.closeTo(16)],
      [2, 'warm', [3], expect.closeTo(4)],
      [3, 'pale', [4], expect.closeTo(8)],
    ]);
    // The middle of the first pixel of b: 2.5 of 7 and 0.5 of 4.
    expect(work.passages[2].at).toEqual([2.5 / 7, 0.5 / 4]);
    expect(work.passages.map(({ beside }) => beside)).toEqual([[], [1], [], [0]]);
  });

  it('tells leans at equal L*, by CIEDE2000', () => {
    const lab = ([, a, b]: Lab): { mode: 'lab65'; l: number; a: number; b: number } => ({
      mode: 'lab65',
      l: 50,
      a,
      b,
    });
    const difference = differenceCiede2000();
    expect(work.passages[0].deltaE).toBeCloseTo(difference(lab(GREEN), lab([28, -40, 25])), 3);
    expect(work.passages[2].deltaE).toBeCloseTo(difference(lab(RED), lab([28, 50, 38])), 3);
  });

  it('tells which run and which are kept apart', () => {
    expect(work.apart).toEqual([
      [1, 3],
      [2, 3],
    ]);
    expect(work.run).toEqual([]);
  });

  it('tells what board and passages lack of each other, by band', () => {
    const [dark, light] = work.bands;
    expect(dark.unused).toEqual(['spare']);
    expect(dark.reasons.map(({ code }) => code)).toEqual(['passages.swatch-unused']);
    expect(light).toEqual({ band: 1, unused: [], far: [], reasons: [] });
    const blue = passageWork(
      plan(),
      masses,
      passagesFrom(masses, rows, { a: GREEN, b: [40, 30, -60], c: BLUE, d: [80, 40, 40] }, ['ab']),
    );
    const far = blue.bands
      .flatMap(({ reasons }) => reasons)
      .filter((r) => r.code === 'passages.swatch-far');
    // Violet is far from the blue, the light orange from the pale grey.
    expect(far.map(({ values }) => values.swatch)).toEqual(['spare', 'pale']);
    expect(far[1].values.hue).toBeCloseTo(45);
    expect(far[1].values.chroma).toBeCloseTo(40 * Math.SQRT2);
    for (const { values } of far) expect(values.deltaE).toBeGreaterThan(5);
  });

  it('tells of a bucket without colours, and of two kept apart that share a swatch', () => {
    const one = plan();
    one.board.swatches = [swatches[1]];
    const told = passageWork(one, masses, found);
    expect(told.passages[3]).not.toHaveProperty('mix');
    expect(told.bands[1].reasons).toEqual([
      { code: 'passages.no-swatch', values: { band: 1, passages: 1 } },
    ]);
    expect(told.bands[1].far).toEqual([4]);
    expect(told.bands[0].reasons.filter(({ code }) => code === 'passages.one-mix')).toEqual([
      { code: 'passages.one-mix', values: { first: 1, second: 3, swatch: 'cool' } },
      { code: 'passages.one-mix', values: { first: 2, second: 3, swatch: 'cool' } },
    ]);
  });

  it('what stays paper has no number', () => {
    const bare = passageWork(
      plan({ overrules: [{ kind: 'reserve', at: [0.9, 0.5], method: 'bare' }] }),
      masses,
      found,
    );
    expect(bare.passages.map(({ passage }) => passage)).toEqual([0, 2, 1]);
  });

  it('names what is wrong with its arguments', () => {
    const short = { ...found, labels: found.labels.slice(1) };
    expect(() => passageWork(plan(), masses, short)).toThrow(/^passages\.labels/);
    expect(() => passageWork(plan(), masses, null as never)).toThrow(/^passages is null/);
    const strange = {
      ...found,
      passages: found.passages.map((each) => ({ ...each, region: 9 })),
    };
    expect(() => passageWork(plan(), masses, strange)).toThrow(/^passages\.passages\[0\]\.region/);
  });
});

describe('signs', () => {
  it('of mixes are letters, as columns are lettered: z is followed by aa', () => {
    expect([1, 2, 26, 27, 52, 53, 702, 703].map(mixSign)).toEqual([
      'a',
      'b',
      'z',
      'aa',
      'az',
      'ba',
      'zz',
      'aaa',
    ]);
    expect(passageSign({ number: 7, mix: 2 })).toBe('7b');
    expect(passageSign({ number: 7 })).toBe('7');
  });
});

describe('the order of work with passages', () => {
  const facts = (kind: 'hard' | 'soft') => {
    const edges = [edge([0, 1], kind)];
    return { edges, passages: passageWork(plan(), masses, found, { edges }) };
  };
  const stepWith = (steps: readonly WorkStep[], region: number): WorkStep =>
    steps.find(({ regions }) => regions.includes(region))!;
  const codes = (reasons: readonly { code: string }[]): string[] => reasons.map(({ code }) => code);

  it('a step lists its passages with their swatches in painting order', () => {
    const steps = orderOfWork(plan(), masses, facts('hard'));
    expect(stepWith(steps, 0).passages).toEqual([
      { number: 1, region: 0, mix: 1, swatch: 'cool' },
      { number: 2, region: 0, mix: 1, swatch: 'cool' },
      { number: 3, region: 0, mix: 2, swatch: 'warm' },
    ]);
    expect(stepWith(steps, 1).passages).toEqual([{ number: 4, region: 1, mix: 3, swatch: 'pale' }]);
  });

  it('what is kept apart dries between; what runs is laid wet', () => {
    const [dark] = orderOfWork(plan(), masses, facts('hard'));
    expect(dark.hints).toContainEqual({
      code: 'order.hint-passages-apart',
      values: { count: 2, passages: '1/3; 2/3' },
    });
    const running = passageWork(plan(), masses, passagesFrom(masses, rows, { a: GREEN, b: RED }));
    const [wet] = orderOfWork(plan(), masses, { passages: running });
    // One wash: from the largest on, each beside the one before, so the ribbon between lies between.
    expect(wet.passages!.map(({ number }) => running.passages[number - 1].passage)).toEqual([
      0, 1, 2,
    ]);
    expect(wet.hints).toContainEqual({
      code: 'order.hint-passages-run',
      values: { count: 1, passages: '1–3' },
    });
    expect(codes(wet.hints)).not.toContain('order.hint-passages-apart');
  });

  it('lets nothing dry that must be wet with its neighbours: the conflict is told', () => {
    // Only the passage at the right meets the soft neighbour: it comes first, the others may wait until all is dry.
    const steps = orderOfWork(plan(), masses, facts('soft'));
    const dark = stepWith(steps, 0);
    expect(dark.passages![0].number).toBe(1);
    expect(facts('soft').passages.passages[0].passage).toBe(2);
    expect(codes(dark.warnings)).not.toContain('order.warn-passages-wet');
    // Both meet it: there is no time to dry.
    const wide = massesFrom(['00000', '00000', '11111']);
    const both = passagesFrom(wide, ['aabbb', 'aabbb', 'ddddd'], { a: GREEN, b: RED }, ['ab']);
    const edges = [edge([0, 1], 'soft')];
    const given = planOf(2, false);
    const told = orderOfWork(given, wide, {
      edges,
      passages: passageWork(given, wide, both, { edges }),
    });
    expect(stepWith(told, 0).warnings).toContainEqual({
      code: 'order.warn-passages-wet',
      values: { count: 1, passages: '1/2' },
    });
    expect(codes(stepWith(told, 0).hints)).not.toContain('order.hint-passages-apart');
    // The wet session stands: nothing dries between the two soft masses.
    expect(new Set(told.map(({ session }) => session)).size).toBe(1);
    expect(told.flatMap(({ waits }) => waits)).toEqual([]);
  });

  it('changes nothing of the steps themselves, whatever the masses; each painted passage stands in one step', () => {
    fc.assert(
      fc.property(anyWork, fc.nat(), ({ plan: given, masses: any, edges, reserves }, seed) => {
        const signs = 'abc';
        // Passages by mass and by a stripe: each mass in up to three.
        const rowsOf = Array.from({ length: any.map.height }, (_, y) =>
          Array.from({ length: any.map.width }, (_, x) => {
            const label = any.labels[y * any.map.width + x];
            return String.fromCharCode(0x100 + 3 * label + ((x + seed) % signs.length));
          }).join(''),
        );
        const passages = passagesFrom(any, rowsOf, {});
        const plain = orderOfWork(given, any, { edges, reserves });
        const work = passageWork(given, any, passages, { edges, reserves });
        const steps = orderOfWork(given, any, { edges, reserves, passages: work });
        const bare = (list: readonly WorkStep[]): unknown =>
          list.map(({ id, kind, regions, at, keeps, soft, session, waits }) => ({
            id,
            kind,
            regions,
            at,
            keeps,
            soft,
            session,
            waits,
          }));
        expect(bare(steps)).toEqual(bare(plain));
        const laid = steps.flatMap((step) => step.passages ?? []).map(({ number }) => number);
        const kept = new Set(
          steps.flatMap(({ kind, keeps, regions }) =>
            kind === 'tint' ? regions : kind === 'mask' || kind === 'keep' ? keeps : [],
          ),
        );
        expect([...laid].sort((a, b) => a - b)).toEqual(work.passages.map(({ number }) => number));
        const numbered = new Set(work.passages.map(({ passage }) => passage));
        passages.passages.forEach(({ id, region }) => {
          if (!kept.has(region)) expect(numbered.has(id)).toBe(true);
        });
        // Found anew without passages: none are left over.
        for (const step of checkedSteps(steps, given, any, { edges, reserves }))
          expect(step).not.toHaveProperty('passages');
      }),
      { numRuns: 100 },
    );
  });
});

describe('the page with passages', () => {
  const mix = (tubes: readonly [string, number][], strength: number) => ({
    parts: tubes.map(([tube, parts]) => ({ tube, parts })),
    strength,
  });
  const recipes = [
    mix([['cadmium-red', 3]], 0.5),
    mix(
      [
        ['phthalo-green', 4],
        ['burnt-sienna', 2],
      ],
      1,
    ),
    mix([['ultramarine', 1]], 0.5),
    undefined,
    mix([['alizarin-crimson', 2]], 0.25),
  ];
  /** The plan with a recipe for each swatch but the wet one. */
  function painted(part: Partial<Plan> = {}): Plan {
    const made = plan(part);
    made.board.swatches = swatches.map((swatch, i) => ({ ...swatch, recipe: recipes[i] }));
    return made;
  }
  const texts = (page: string): string[] =>
    [...page.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map(([, words]) => words);
  const page = planSheet(painted(), masses, { passages: found });
  const words = texts(page);

  it('numbers each passage, inside itself, with the letter of its mix, in place of the steps', () => {
    const frame = /id="page-1-frame" x="([\d.]+)" y="([\d.]+)" width="([\d.]+)"/
      .exec(page)!
      .slice(1)
      .map(Number);
    const scale = frame[2] / 7;
    for (const [sign, id] of [
      ['1a', 0],
      ['2a', 2],
      ['3b', 1],
      ['4c', 3],
    ] as const) {
      const [, x, y] = new RegExp(`<text x="([\\d.]+)" y="([\\d.]+)" [^>]*>${sign}</text>`).exec(
        page,
      )!;
      const column = Math.floor((Number(x) - frame[0]) / scale);
      const row = Math.floor((Number(y) - frame[1]) / scale);
      expect([sign, found.labels[row * 7 + column]]).toEqual([sign, id]);
    }
    expect(words.filter((each) => /^\d$/.test(each))).toEqual([]);
  });

  it('draws a thin line where passages are kept apart and a dotted one where they run', () => {
    const apart = /<path d="([^"]*)"[^>]*stroke-width="0.15"/;
    const run = /<path d="([^"]*)"[^>]*stroke-dasharray="0.01 0.7"/;
    const picture = (given: Passages): string =>
      /<g id="page-1-picture">(.*?)<\/g><g|<g id="page-1-picture">(.*)/s.exec(
        planSheet(painted(), masses, { passages: given, show: { hatching: false } }),
      )![0];
    const kept = picture(found);
    // Two borders of the ribbon, at 2 and 3 of 7 pixels: all their points lie there within a third of a pixel.
    const frame = /x="([\d.]+)" y="[\d.]+" width="([\d.]+)"/.exec(
      /id="page-1-frame"[^>]*/.exec(page)![0],
    )!;
    const columns = [...apart.exec(kept)![1].matchAll(/[ML]([\d.]+) /g)].map(
      ([, x]) => ((Number(x) - Number(frame[1])) / Number(frame[2])) * 7,
    );
    expect(columns.length).toBeGreaterThan(3);
    for (const column of columns)
      expect(Math.min(Math.abs(column - 2), Math.abs(column - 3))).toBeLessThan(0.34);
    expect(run.test(kept)).toBe(false);
    const running = picture(passagesFrom(masses, rows, {}));
    expect(apart.test(running)).toBe(false);
    expect(run.test(running)).toBe(true);
    const none = planSheet(painted(), masses);
    expect([apart.test(none), run.test(none)]).toEqual([false, false]);
  });

  it('tells all recipes in spoonfuls with their water, several in a band', () => {
    const all = words.join(' ');
    // Whole parts without what they have in common; as much water as paint at full strength, three times at half, seven at a quarter: half
    // the strength is the same paint in twice the liquid.
    expect(all).toContain('a = 2 Phthalo green + 1 Burnt sienna + 3 water · 16 cm²');
    expect(all).toContain('b = 1 Cadmium red + 3 water · 4 cm²');
    expect(all).toContain('c = 1 Alizarin crimson + 7 water · 8 cm²');
    // Not used by a passage: told all the same, without a letter.
    expect(all).toMatch(/(?<!= )1 Ultramarine \+ 3 water/);
    const plain = texts(planSheet(painted(), masses)).join(' ');
    for (const each of [
      '2 Phthalo green + 1 Burnt sienna',
      '1 Cadmium red',
      '1 Ultramarine',
      '1 Alizarin',
    ])
      expect(plain).toContain(each);
    expect(plain).not.toContain('a = ');
  });

  it('tells in the order of work which passages and how they meet', () => {
    const all = words.join(' ');
    expect(all).toContain('passages: 1–2a, 3b');
    expect(all).toContain('passages: 4c');
    expect(all).toContain('the first dry before the second: 1/3; 2/3.');
  });

  it('what has no room beside the values stands on a page of mixes, and none is lost', () => {
    const made = painted();
    made.board.swatches = Array.from({ length: 60 }, (_, i) => ({
      ...swatches[0],
      id: `m${i}`,
      lab: [28, 60 * Math.cos(i), 60 * Math.sin(i)] as Lab,
      recipe: mix(
        [
          ['ultramarine', 1],
          ['burnt-sienna', 1],
        ],
        1 / (i + 1),
      ),
      name: `own name ${i}.`,
    }));
    const pages = planSheets(made, masses, { passages: found });
    const told = pages.map((each) => texts(each));
    expect(told[0].join(' ')).toContain(
      SHEET_STRINGS['page.mixes-more'].split(' ').slice(-2).join(' '),
    );
    const mixes = told.slice(1).filter(([head]) => head.endsWith(SHEET_STRINGS['page.mixes']));
    expect(mixes.length).toBeGreaterThan(0);
    for (let i = 0; i < 60; i++) expect(mixes.flat().join('\n')).toContain(`own name ${i}.`);
  });

  it('hazards and what fades are told for the tubes that are used, deferring to label and local rules', () => {
    const cautions = words.slice(words.indexOf(SHEET_STRINGS['page.cautions'])).join(' ');
    expect(cautions).toContain(
      'Cadmium red: Contains compounds of cadmium. The tube’s label (ASTM D4236) and local rules',
    );
    expect(cautions).toContain('Alizarin crimson: It fades in light');
    expect(cautions).toContain('labels and local rules say comes first');
    expect(cautions).not.toContain('For work that is sold');
    const sold = texts(planSheet(painted({ sold: true }), masses, { passages: found })).join(' ');
    // A crimson of quinacridone lasts (lightfastness I or II, ASTM D4303, from memory) and is sold as the lasting stand-in for alizarin.
    expect(sold).toContain(
      'instead of Alizarin crimson the nearest that lasts is Crimson (quinacridone)',
    );
    expect(sold.match(/For work that is sold/g)).toHaveLength(1);
    const shelf = texts(planSheet({ ...plan(), shelf: [{ tube: 'cadmium-yellow' }] }, masses)).join(
      ' ',
    );
    expect(shelf).toContain('Cadmium yellow: Contains compounds of cadmium');
  });

  it('takes any masses in passages', () => {
    fc.assert(
      fc.property(anyWork, ({ plan: given, masses: any, edges, reserves }) => {
        const rowsOf = Array.from({ length: any.map.height }, (_, y) =>
          Array.from({ length: any.map.width }, (_, x) =>
            String.fromCharCode(0x100 + 2 * any.labels[y * any.map.width + x] + (y % 2)),
          ).join(''),
        );
        const passages = passagesFrom(any, rowsOf, {});
        const pages = planSheets(given, any, { edges, reserves, passages });
        for (const each of pages) expect(each).not.toMatch(/NaN|undefined|Infinity/);
      }),
      { numRuns: 40 },
    );
  });
});
