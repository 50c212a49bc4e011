import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CoreError } from '../../core/base/reason.js';
import {
  BOARD_SCHEMA,
  BoardError,
  judgeBoard,
  parseBoard,
  type Board,
} from '../../core/swatch/index.js';

const board = (): Board => ({
  bands: [
    { name: 'dark', floor: 0, ceiling: 36, spread: 20, locked: true },
    { name: 'light', floor: 36, ceiling: 95 },
  ],
  swatches: [
    {
      id: 'a',
      bucket: 0,
      lightness: 20,
      uncertainty: 1.5,
      wet: false,
      accent: true,
      css: 'rgb(20 30 40)',
      name: 'dark blue <b>',
      note: 'two spoons',
      lab: [20, -3, -10.5],
      from: 'mix',
    },
    { id: 'b', bucket: 1, lightness: 60 },
  ],
});

const faultsOf = (value: unknown): [string, unknown][] => {
  try {
    parseBoard(value);
  } catch (error) {
    expect(error).toBeInstanceOf(BoardError);
    return (error as BoardError).faults.map(({ code, values }) => [code, values.path]);
  }
  return [];
};

describe('parseBoard', () => {
  it('reads text and values alike, every field kept', () => {
    expect(parseBoard(JSON.stringify(board()))).toEqual(board());
    expect(parseBoard(board())).toEqual(board());
  });

  it('gives a copy in one key order and changes nothing', () => {
    const given = {
      swatches: [{ lightness: 5, bucket: 0, id: 'x' }],
      bands: [{ ceiling: 50, floor: 0, name: 'all' }],
    };
    const kept = structuredClone(given);
    const parsed = parseBoard(given);
    expect(JSON.stringify(parsed)).toBe(
      '{"bands":[{"name":"all","floor":0,"ceiling":50}],"swatches":[{"id":"x","bucket":0,"lightness":5}]}',
    );
    parsed.swatches[0].lightness = 7;
    expect(given).toEqual(kept);
  });

  it('what it reads can be judged', () => {
    expect(judgeBoard(parseBoard(board())).swatches).toHaveLength(2);
    expect(parseBoard('{"bands":[],"swatches":[]}')).toEqual({ bands: [], swatches: [] });
  });

  it('takes a field set to undefined for an absent one', () => {
    expect(
      parseBoard({ bands: [{ name: '', floor: 0, ceiling: 1, spread: undefined }], swatches: [] })
        .bands[0],
    ).toEqual({ name: '', floor: 0, ceiling: 1 });
    expect(faultsOf({ bands: undefined, swatches: [] })).toEqual([['board.missing', '$.bands']]);
  });

  it('lists every fault at once, with its path', () => {
    const value = {
      bands: [
        { name: 5, floor: 50, ceiling: 20 },
        { name: 'b', floor: 10, ceiling: 200, colour: 'red' },
      ],
      swatches: [
        { id: 'a', bucket: 2, lightness: 20 },
        { id: 'a', bucket: 0.5, lightness: '20' },
        { bucket: 0, lightness: Number.NaN, from: 'elsewhere', lab: [1, 2], wet: 'yes' },
        null,
      ],
      extra: 1,
    };
    expect(faultsOf(value).sort()).toEqual(
      [
        ['board.not-finite', '$.swatches[2].lightness'],
        ['board.wrong-type', '$.bands[0].name'],
        ['board.ceiling-below-floor', '$.bands[0]'],
        ['board.out-of-range', '$.bands[1].ceiling'],
        ['board.unknown-key', '$.bands[1].colour'],
        ['board.bands-disorder', '$.bands[1]'],
        ['board.no-such-bucket', '$.swatches[0].bucket'],
        ['board.duplicate-id', '$.swatches[1].id'],
        ['board.wrong-type', '$.swatches[1].bucket'],
        ['board.wrong-type', '$.swatches[1].lightness'],
        ['board.missing', '$.swatches[2].id'],
        ['board.not-allowed', '$.swatches[2].from'],
        ['board.too-few', '$.swatches[2].lab'],
        ['board.wrong-type', '$.swatches[2].wet'],
        ['board.wrong-type', '$.swatches[3]'],
        ['board.unknown-key', '$.extra'],
      ].sort(),
    );
  });

  it('its error has a stable name and tells the faults in words', () => {
    let error: unknown;
    try {
      parseBoard({ bands: [{ name: 'a', floor: 0, ceiling: 120 }] });
    } catch (caught) {
      error = caught;
    }
    expect(error).toBeInstanceOf(CoreError);
    expect((error as BoardError).name).toBe('BoardError');
    expect((error as BoardError).message).toBe(
      'The board cannot be read: $.swatches missing; $.bands[0].ceiling out-of-range (found 120, expected at least 0 and at most 100)',
    );
  });

  it.each([
    ['', '$'],
    ['{', '$'],
    ['{"bands":[', '$'],
    ['nonsense', '$'],
  ])('text that is no JSON: %j', (text, path) => {
    expect(faultsOf(text)).toEqual([['board.not-json-text', path]]);
  });

  it.each([[null], [undefined], [5], [[]], [true], ['"a"'], ['null']])(
    'a value that is no board: %j',
    (value) => {
      expect(faultsOf(value).map(([, path]) => path)).toEqual(['$']);
    },
  );

  it('refuses keys that reach into objects, deep nesting, and masses of data', () => {
    expect(faultsOf('{"bands":[],"swatches":[],"__proto__":{"x":1}}')).toEqual([
      ['board.forbidden-key', '$'],
    ]);
    expect(faultsOf(`{"bands":${'['.repeat(5000)}${']'.repeat(5000)},"swatches":[]}`)[0][0]).toBe(
      'board.too-deep',
    );
    expect(faultsOf('x'.repeat(4_000_001))).toEqual([['board.too-large', '$']]);
    expect(faultsOf({ bands: [], swatches: new Array(500_000).fill(0) })).toContainEqual([
      'board.too-large',
      '$.swatches',
    ]);
    expect(
      faultsOf({
        bands: [],
        swatches: Array.from({ length: 1001 }, (_, i) => ({ id: `${i}`, bucket: 0, lightness: 1 })),
      }),
    ).toContainEqual(['board.too-many', '$.swatches']);
    const cycle: Record<string, unknown> = { bands: [], swatches: [] };
    cycle.self = cycle;
    expect(faultsOf(cycle)[0][0]).toBe('board.too-deep');
  });

  it('counts faults beyond the first thousand', () => {
    const swatches = Array.from({ length: 900 }, () => ({ id: 'a', bucket: 'x', lightness: 'y' }));
    const faults = faultsOf({ bands: [], swatches });
    expect(faults).toHaveLength(1001);
    expect(faults[1000]).toEqual(['board.more', '$']);
  });

  it('either reads a value or throws a BoardError, whatever the value', () => {
    const anything = fc.anything({
      withBigInt: true,
      withDate: true,
      withMap: true,
      withNullPrototype: true,
      withSparseArray: true,
      withTypedArray: true,
    });
    const like = fc.record(
      { bands: fc.array(fc.oneof(anything, fc.constant(board().bands[0]))), swatches: anything },
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(fc.oneof(anything, like, fc.json(), fc.string()), (value) => {
        try {
          const parsed = parseBoard(value);
          expect(Array.isArray(parsed.bands) && Array.isArray(parsed.swatches)).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(BoardError);
          expect((error as BoardError).faults.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 500 },
    );
  });

  it('its schema is plain data', () => {
    expect(JSON.parse(JSON.stringify(BOARD_SCHEMA))).toEqual(BOARD_SCHEMA);
  });
});
