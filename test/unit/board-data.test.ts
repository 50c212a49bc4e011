import { readFileSync } from 'node:fs';
import { converter } from 'culori';
import { describe, expect, it } from 'vitest';
import {
  BoardError,
  labOf,
  newPlan,
  parsePlan,
  serialisePlan,
  withBoard,
} from '../../core/entry.js';
import type { Board } from '../../core/swatch/index.js';
import {
  bandsFromAttributes,
  bandsMeet,
  bucketAt,
  ruledBoard,
  swatchesFromContent,
  swatchOfCss,
  withBands,
} from '../../components/swatch-bucket-board/board-data.js';
import {
  boardOfText,
  documentText,
  faultsOf,
  leansOf,
  requiredCounts,
} from '../../components/swatch-bucket-board/board-form.js';
import { bandMay, withLocksKept } from '../../components/swatch-bucket-board/band-rules.js';
import { ladderOf } from '../../components/swatch-bucket-board/ladder.js';

const culoriLab = converter('lab65');
const [dark, middle, light] = [
  { name: 'dark', floor: 0, ceiling: 36 },
  { name: 'middle', floor: 36, ceiling: 66 },
  { name: 'light', floor: 66, ceiling: 95 },
];

describe('bands from attributes', () => {
  it('names by spaces, by commas, by JSON', () => {
    expect(bandsFromAttributes('dark middle light', '36 66', 95)).toEqual([dark, middle, light]);
    expect(
      bandsFromAttributes('deep, half light', '50', 95).map(({ name, floor, ceiling }) => [
        name,
        floor,
        ceiling,
      ]),
    ).toEqual([
      ['deep', 0, 50],
      ['half light', 50, 95],
    ]);
    expect(bandsFromAttributes('["a b","c"]', '40', 90)[1]).toEqual({
      name: 'c',
      floor: 40,
      ceiling: 90,
    });
    expect(
      bandsFromAttributes('[{"name":"low","floor":5,"ceiling":30,"locked":true}]', '', 95),
    ).toEqual([{ name: 'low', floor: 5, ceiling: 30, locked: true }]);
  });

  it('without limits the nine painter’s steps are parted evenly: values 3.5 and 6.5 of ASTM D1535 for three bands', () => {
    // test/reference/munsell-value.json (ASTM D1535): value 3.5 is L* 35.554, 6.5 is L* 65.979; rounded.
    expect(bandsFromAttributes('', '', 95)).toEqual([dark, middle, light]);
    // Two bands part at value 5, L* 51.004.
    expect(bandsFromAttributes('low high', '', 95)[0].ceiling).toBe(51);
  });

  it('what makes no bands throws', () => {
    expect(() => bandsFromAttributes('a b', '66 36', 95)).toThrow(RangeError);
    expect(() => bandsFromAttributes('a b c', '66 36', 95)).toThrow(RangeError);
    expect(() => bandsFromAttributes('a b', 'grey', 95)).toThrow();
    expect(() => bandsFromAttributes('[1]', '', 95)).toThrow(BoardError);
    expect(() => bandsFromAttributes('[', '', 95)).toThrow(SyntaxError);
  });
});

describe('swatches from what is written', () => {
  it('any colour of CSS; L* and Lab agree with culori', () => {
    for (const css of [
      '#8a6f5c',
      'tan',
      'oklch(0.55 0.03 60)',
      'hsl(200 20% 40%)',
      'lab(50% 10 -20)',
    ]) {
      const { lightness, lab } = swatchOfCss(css, { id: 'a', bucket: 0 }, labOf);
      const expected = culoriLab(css)!;
      expect(lightness).toBeCloseTo(expected.l, 2);
      expect(lab![1]).toBeCloseTo(expected.a, 2);
      expect(lab![2]).toBeCloseTo(expected.b, 2);
    }
    expect(() => swatchOfCss('greyish', { id: 'a', bucket: 0 }, labOf)).toThrow(RangeError);
  });

  it('bucket by number, by name, by lightness; what cannot be understood is named and left out', () => {
    const bands = [dark, middle, light];
    const { swatches, unknown } = swatchesFromContent(
      [
        { css: '#777', name: 'one', bucket: '0' }, // L* 50, where it does not belong: the painter's choice stands
        { css: '#777', name: 'two', bucket: 'light', note: 'n', accent: true },
        { css: '#777', name: 'three' },
        { css: '#fff', name: '' },
        { css: 'nope', name: 'four', bucket: '1' },
        { css: 'red', name: 'five', bucket: '7' },
        { css: 'nope', name: '' },
      ],
      bands,
      labOf,
    );
    expect(swatches.map(({ bucket }) => bucket)).toEqual([0, 2, 1, 2]);
    expect(swatches[1]).toMatchObject({ name: 'two', note: 'n', accent: true, from: 'data' });
    expect('name' in swatches[3]).toBe(false);
    expect(new Set(swatches.map(({ id }) => id)).size).toBe(4);
    expect(unknown).toEqual(['four', 'five', 'nope']);
    expect([10, 36, 65.9, 66, 99].map((lightness) => bucketAt(bands, lightness))).toEqual([
      0, 1, 1, 2, 2,
    ]);
  });
});

describe('a board in a plan and under rules', () => {
  it('limits follow the bands, so that the plan stays sound', () => {
    const plan = newPlan({ paperLimit: 90 });
    const board: Board = {
      bands: [
        { name: 'a', floor: 0, ceiling: 20 },
        { name: 'b', floor: 25, ceiling: 91 },
        { name: 'c', floor: 91, ceiling: 95 },
      ],
      swatches: [],
    };
    const next = withBoard(plan, board);
    expect(next.photoLimits).toEqual([25, 91]);
    expect(next.paintLimits).toEqual([25, 91]);
    expect(next.paperLimit).toBeUndefined();
    expect(parsePlan(serialisePlan(next)).board).toEqual(board);
    expect(withBoard(plan, { ...plan.board, swatches: [] }).photoLimits).toBe(plan.photoLimits);
    expect(bandsMeet(board.bands)).toBe(false);
    expect(bandsMeet(plan.board.bands)).toBe(true);
  });

  it('other bands: what lay beyond the last lies in the last', () => {
    const board: Board = {
      bands: [dark, middle, light],
      swatches: [
        { id: 'a', bucket: 0, lightness: 20 },
        { id: 'b', bucket: 2, lightness: 80 },
      ],
    };
    const next = withBands(board, [dark, middle]);
    expect(next.bands).toEqual([dark, middle]);
    expect(next.swatches.map(({ bucket }) => bucket)).toEqual([0, 1]);
    expect(board.swatches[1].bucket).toBe(2);
  });

  it('a teacher’s tolerance and lock; a band’s own spread goes before', () => {
    const board: Board = { bands: [dark, { ...middle, spread: 4 }], swatches: [] };
    const ruled = ruledBoard(board, { tolerance: 10, locked: true });
    expect(ruled.bands.map(({ spread, locked }) => [spread, locked])).toEqual([
      [10, true],
      [4, true],
    ]);
    expect(ruledBoard(board, { locked: false })).toBe(board);
    expect('spread' in board.bands[0]).toBe(false);
  });
});

describe('what may be done to a band', () => {
  const locked = { ...dark, locked: true };

  it('nothing to a locked one, nor to the limit it shares', () => {
    expect(bandMay([locked, middle, light], 0)).toEqual({
      name: false,
      limit: false,
      split: false,
      remove: false,
    });
    expect(bandMay([dark, { ...middle, locked: true }, light], 0)).toEqual({
      name: true,
      limit: false,
      split: true,
      remove: false,
    });
    expect(bandMay([dark, middle, light], 2)).toEqual({
      name: true,
      limit: false,
      split: true,
      remove: true,
    });
  });

  it('two bands are the fewest, five the most, and bands that do not meet keep their limits', () => {
    expect(bandMay([dark, middle], 0).remove).toBe(false);
    const five = [0, 1, 2, 3, 4].map((i) => ({
      name: `${i}`,
      floor: i * 20,
      ceiling: (i + 1) * 20,
    }));
    expect(bandMay(five, 1)).toEqual({ name: true, limit: true, split: false, remove: true });
    expect(bandMay([dark, { ...light, floor: 50 }, light], 0)).toEqual({
      name: true,
      limit: false,
      split: false,
      remove: false,
    });
  });

  it('a change that would touch a locked band is none', () => {
    const plan = newPlan({
      board: { bands: [{ ...locked, floor: 4 }, middle, light], swatches: [] },
    });
    const moved = {
      ...plan,
      board: { ...plan.board, bands: [{ ...locked, floor: 0 }, middle, light] },
    };
    expect(withLocksKept(plan, moved)).toBe(plan);
    const renamed = {
      ...plan,
      board: { ...plan.board, bands: [{ ...locked, floor: 4 }, { ...middle, name: 'x' }, light] },
    };
    expect(withLocksKept(plan, renamed)).toBe(renamed);
  });
});

describe('a board in a form', () => {
  const board: Board = { bands: [dark, middle], swatches: [{ id: 'a', bucket: 0, lightness: 20 }] };

  it('a document comes back as its board, its verdict left aside; a plain board is taken too', () => {
    const rest = {
      lesson: 'Greys',
      board,
      verdict: { swatches: [], overlaps: [], gaps: [] },
      lacks: [{ bucket: 1, found: 0, required: 1 }],
      attempt: 2,
      made: '2026-03-02T09:00:00.000Z',
    };
    const text = documentText(rest);
    expect(JSON.parse(text)).toEqual({ schema: 1, ...rest });
    expect(boardOfText(text)).toEqual(board);
    expect(boardOfText(JSON.stringify(board))).toEqual(board);
    expect(boardOfText(board)).toEqual(board);
    for (const bad of [
      '',
      '{',
      '[]',
      'null',
      '{"board":{"bands":[1],"swatches":[]}}',
      '{"bands":[],"swatches":[{"id":"a","bucket":0,"lightness":20}]}',
    ]) {
      expect(() => boardOfText(bad), bad).toThrow(BoardError);
    }
  });

  it('how many are asked for', () => {
    expect(requiredCounts(null, 3)).toEqual([1, 1, 1]);
    expect(requiredCounts('', 2)).toEqual([1, 1]);
    expect(requiredCounts('2', 3)).toEqual([2, 2, 2]);
    expect(requiredCounts('1, 3', 3)).toEqual([1, 3, 3]);
    expect(requiredCounts('0', 1)).toEqual([0]);
    expect(requiredCounts('many', 2)).toEqual([1, 1]);
  });

  it('which leans are asked for', () => {
    expect(leansOf('')).toEqual({ leans: [], unknown: [] });
    expect(leansOf('blue orange | neutral |red-violet, blue')).toEqual({
      leans: [['blue', 'orange'], ['neutral'], ['red-violet', 'blue']],
      unknown: [],
    });
    expect(leansOf('| warm blue')).toEqual({ leans: [[], ['blue']], unknown: ['warm'] });
  });

  it('faults are too dark and too light, nothing else', () => {
    const kinds = ['fits', 'too-dark', 'between', 'too-light', 'unsure'] as const;
    const swatches = kinds.map((verdict) => ({ id: verdict, verdict, margin: 0, reasons: [] }));
    expect(faultsOf({ swatches, overlaps: [], gaps: [] })).toEqual(['too-dark', 'too-light']);
  });
});

describe('the ladder beside a bucket', () => {
  it('spans the band evenly, lightest on top', () => {
    const { rungs, low, high, edges } = ladderOf(middle, []);
    expect([low, high]).toEqual([36, 66]);
    expect(rungs.map(({ lightness }) => lightness)).toEqual([63.5, 58.5, 53.5, 48.5, 43.5, 38.5]); // 30 in steps of 5, by hand
    expect(rungs.every(({ inside }) => inside)).toBe(true);
    expect(edges).toEqual([]);
  });

  it('goes on to a swatch outside and shows where the band ends', () => {
    const { low, high, edges, touches, rungs } = ladderOf(middle, [
      { id: 'a', lightness: 75 },
      { id: 'b', lightness: 51 },
    ]);
    expect([low, high]).toEqual([36, 76]);
    expect(edges).toEqual([0.25]); // (76 - 66) / 40
    expect(touches).toEqual([
      { id: 'a', at: 0.025, lane: 0 },
      { id: 'b', at: 0.625, lane: 0 },
    ]);
    expect(rungs.filter(({ inside }) => !inside).map(({ lightness }) => lightness)).toEqual([
      73.5, 68.5,
    ]);
  });

  it('touches that would cover each other stand side by side', () => {
    const { touches } = ladderOf(
      middle,
      ['a', 'b', 'c', 'd'].map((id) => ({ id, lightness: 50 })),
    );
    expect(new Set(touches.slice(0, 3).map(({ lane }) => lane)).size).toBe(3);
    expect(touches.every(({ at }) => at === touches[0].at)).toBe(true);
  });

  it('a band without width still has a ladder', () => {
    const { rungs, low, high } = ladderOf({ name: 'x', floor: 50, ceiling: 50 }, []);
    expect(high).toBeGreaterThan(low);
    expect(rungs.length).toBeGreaterThan(1);
  });
});

it('the element’s folder renders no style attributes and no markup from data', () => {
  for (const file of [
    'bucket-view',
    'card-view',
    'form-views',
    'swatch-bucket-board',
    'table',
    'dabs',
  ]) {
    const text = readFileSync(
      new URL(`../../components/swatch-bucket-board/${file}.ts`, import.meta.url),
      'utf8',
    );
    expect(text).not.toMatch(/style=|styleMap|innerHTML|unsafeHTML/);
  }
});
