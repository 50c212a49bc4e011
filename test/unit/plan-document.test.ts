import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CoreError } from '../../core/base/reason.js';
import {
  bandsFromLimits,
  checkPlan,
  newPlan,
  parsePlan,
  PLAN_SCHEMA,
  planFaults,
  PlanError,
  serialisePlan,
  type Plan,
} from '../../core/plan/index.js';
import { migrated } from '../../core/plan/plan.js';
import { BOARD_SCHEMA } from '../../core/swatch/index.js';

/** A plan with every field set. */
const full = (): Plan => ({
  schema: 1,
  id: 'plan-1',
  changed: '2026-03-01T08:30:00.125Z',
  title: 'Jug <script>alert(1)</script> & cloth',
  tubesEdition: '2026-1',
  paper: { name: 'quarter sheet', widthMm: 381, heightMm: 279.4, lightness: 94.5 },
  brushes: [{ name: 'round 8', tipMm: 0.8, pressedMm: 10 }],
  photo: { sha256: 'ab'.repeat(32), name: 'jug.jpg', width: 4000, height: 3000, note: 'window' },
  photos: [{ sha256: 'cd'.repeat(32), name: 'handle.jpg', width: 3000, height: 4000 }],
  crop: { x: 0.1, y: 0, width: 0.9, height: 1 },
  sitter: [
    [0.1, 0.1],
    [0.9, 0.2],
    [0.5, 0.8],
  ],
  distrusted: [{ id: 'd1', at: [0.5, 0.5], radius: 0.02, lightness: 40, note: 'lamp' }],
  readings: [
    {
      id: 'r1',
      at: [0.25, 0.75],
      holeMm: 6,
      lightness: 51.2,
      lab: [51.2, -4, 10.5],
      css: '#777',
      spread: 2.5,
      guess: 60,
      note: 'jug',
    },
  ],
  landmarks: [
    { id: 'mark-1', at: [0.4, 0.3], name: 'lip of the jug' },
    { id: 'mark-2', at: [0.6, 0.8] },
  ],
  marks: {
    ['cd'.repeat(32)]: {
      crop: { x: 0, y: 0.5, width: 1, height: 0.5 },
      readings: [
        {
          id: 'r1',
          at: [0, 1],
          holeMm: 4,
          lightness: 20,
          lab: [20, 0, 0],
          css: 'rgb(48 48 48)',
          spread: 0,
        },
      ],
    },
  },
  borrowed: [{ id: 'b1', photo: 'cd'.repeat(32), at: [0.4, 0.6], radius: 0.1, note: 'the handle' }],
  brief: {
    widthMm: 300,
    heightMm: 200,
    deadline: '2026-02-28',
    markings: [{ id: 'm1', text: 'chip in the rim', done: false }],
    permission: 'given',
    permissionNote: 'by letter, for one painting',
    client: 'the neighbour',
  },
  range: { low: 8, high: 97, holding: -0.5, darkest: 26 },
  photoLimits: [36, 66],
  paintLimits: [46, 72],
  paperLimit: 92,
  brush: 0,
  focus: [
    {
      id: 'f1',
      loop: [
        [0.4, 0.4],
        [0.6, 0.4],
        [0.5, 0.6],
      ],
      brush: 0,
    },
  ],
  background: 'wash',
  way: 'light-to-dark',
  overrules: [{ kind: 'join', regions: [3, 4], why: { deep: [true, null, 'x'] } }],
  board: {
    bands: [
      { name: 'dark', floor: 0, ceiling: 36, spread: 20, locked: false },
      { name: 'middle', floor: 36, ceiling: 66 },
      { name: 'light', floor: 66, ceiling: 94.5 },
    ],
    swatches: [
      {
        id: 's1',
        bucket: 1,
        lightness: 50,
        css: 'red',
        from: 'typed',
        recipe: { parts: [{ tube: 'burnt-sienna', parts: 2 }], strength: 0.5 },
      },
    ],
  },
  shelf: [{ tube: 'burnt-sienna', load: 1.2, loadLow: 1, loadHigh: 1.5 }],
  sold: true,
  dabs: [
    {
      id: 'b1',
      date: '2026-02-20',
      lab: [48, 12, 20],
      spread: 1.5,
      uncertainty: 2,
      recipe: {
        parts: [{ tube: 'burnt-sienna', parts: 1 }],
        strength: 0.4,
        over: [{ parts: [{ tube: 'yellow-ochre', parts: 1 }], strength: 0.1 }],
      },
      wet: 'damp',
      same: 'b0',
      band: 1,
      note: 'second from the left',
    },
  ],
  checks: [
    {
      id: 'c1',
      date: '2026-02-27T10:00:00Z',
      photo: 'ef'.repeat(32),
      upToStep: 0,
      agreement: 0.8,
      kappa: 0.7,
      lostReserves: 1,
      islands: 2,
      note: 'handle too dark',
    },
  ],
  steps: [{ id: 'first wash', bands: [2], note: 'wet in wet' }],
  notes: 'Start with the light.\nLeave the handle.',
  extensions: { 'other.program': { zebra: 1, apple: [1, 2, { b: 1, a: 2 }] } },
});

const faultsOf = (read: () => unknown): [string, unknown][] => {
  try {
    read();
  } catch (error) {
    expect(error).toBeInstanceOf(PlanError);
    return (error as PlanError).faults.map(({ code, values }) => [code, values.path]);
  }
  return [];
};

describe('newPlan', () => {
  it('is a sound plan on a quarter sheet in three bands', () => {
    const plan = newPlan();
    expect(planFaults(plan)).toEqual([]);
    // 15 x 11 in = 381 x 279.4 mm, a quarter sheet
    expect(plan.paper).toEqual({ widthMm: 15 * 25.4, heightMm: 11 * 25.4, lightness: 95 });
    expect(plan.board).toEqual({
      bands: [
        { name: 'dark', floor: 0, ceiling: 36 },
        { name: 'middle', floor: 36, ceiling: 66 },
        { name: 'light', floor: 66, ceiling: 95 },
      ],
      swatches: [],
    });
    expect(plan.photoLimits).toEqual([36, 66]);
    expect(plan.paintLimits).toEqual([36, 66]);
    expect(plan).not.toHaveProperty('photo');
    expect(Object.values(plan)).not.toContain(undefined);
  });

  it('takes what it is given, without keeping hold of it', () => {
    const given = {
      title: 'Boats',
      photoLimits: [40],
      paper: { widthMm: 100, heightMm: 80, lightness: 90 },
    };
    const plan = newPlan(given);
    expect(plan.title).toBe('Boats');
    expect(plan.paintLimits).toEqual([40]);
    expect(plan.board.bands).toEqual([
      { name: 'dark', floor: 0, ceiling: 40 },
      { name: 'light', floor: 40, ceiling: 90 },
    ]);
    plan.photoLimits.push(50);
    plan.paper.widthMm = 1;
    expect(given).toEqual({
      title: 'Boats',
      photoLimits: [40],
      paper: { widthMm: 100, heightMm: 80, lightness: 90 },
    });
  });

  it('follows a given board', () => {
    const board = { bands: bandsFromLimits(['a', 'b'], [50]), swatches: [] };
    expect(newPlan({ board })).toMatchObject({ board, photoLimits: [50], paintLimits: [50] });
    expect(newPlan({ title: undefined }).title).toBe('');
  });

  it('draws a band in to the paper when a limit in the photo is lighter', () => {
    const plan = newPlan({ photoLimits: [50, 97] });
    expect(plan.photoLimits).toEqual([50, 97]);
    expect(plan.board.bands[2]).toEqual({ name: 'light', floor: 95, ceiling: 95 });
  });

  it.each<[string, unknown]>([
    ['title', 5],
    ['photoLimits', [66, 36]],
    ['photoLimits', ['a']],
    ['photoLimits', 'none'],
    ['photoLimits', [1, 2, 3, 4, 5, 6, 7, 8, 9]],
    ['paintLimits', null],
    ['paper', null],
    ['paper', { widthMm: 10 }],
    ['board', null],
    ['board', { bands: [null, null] }],
    ['mood', 'good'],
  ])('refuses what makes no plan: %s %j', (field, value) => {
    expect(() => newPlan({ [field]: value })).toThrow(PlanError);
  });
});

describe('bandsFromLimits', () => {
  it('lets bands meet at the limits, from black to the paper', () => {
    expect(bandsFromLimits(['d', 'm', 'l'], [30, 60], 93)).toEqual([
      { name: 'd', floor: 0, ceiling: 30 },
      { name: 'm', floor: 30, ceiling: 60 },
      { name: 'l', floor: 60, ceiling: 93 },
    ]);
    expect(bandsFromLimits(['all'], [])).toEqual([{ name: 'all', floor: 0, ceiling: 95 }]);
  });

  it('names what is wrong', () => {
    expect(() => bandsFromLimits(['a'], [50])).toThrow(
      /names is \["a"\]; expected 2 names for 1 limits/,
    );
    expect(() => bandsFromLimits(['a', 'b', 'c'], [60, 30])).toThrow(/limits\[1\] is 30/);
    expect(() => bandsFromLimits(['a', 'b'], [96])).toThrow(/limits\[0\] is 96/);
    expect(() => bandsFromLimits(['a', 'b'], [Number.NaN])).toThrow(RangeError);
    expect(() => bandsFromLimits([1 as never], [])).toThrow(TypeError);
    expect(() => bandsFromLimits('ab' as never, [50])).toThrow(TypeError);
    expect(() => bandsFromLimits(['a'], [], 101)).toThrow(/paper is 101/);
  });
});

describe('parsePlan and serialisePlan', () => {
  it('carry every field there and back', () => {
    expect(parsePlan(serialisePlan(full()))).toEqual(full());
    expect(parsePlan(JSON.stringify(full()))).toEqual(full());
    expect(parsePlan(serialisePlan(newPlan()))).toEqual(newPlan());
  });

  it('write one text for one plan, whatever the order of its keys', () => {
    const backwards = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(backwards);
      if (value === null || typeof value !== 'object') return value;
      return Object.fromEntries(
        Object.entries(value)
          .reverse()
          .map(([key, part]) => [key, backwards(part)]),
      );
    };
    const text = serialisePlan(full());
    expect(serialisePlan(backwards(full()) as Plan)).toBe(text);
    expect(serialisePlan(parsePlan(text))).toBe(text);
    expect(Object.keys(JSON.parse(text) as object)).toEqual(Object.keys(PLAN_SCHEMA.properties!));
    expect(text.endsWith('}\n')).toBe(true);
  });

  it('leave absent fields absent', () => {
    expect(Object.keys(parsePlan(serialisePlan(newPlan()))).sort()).toEqual(
      [...PLAN_SCHEMA.required!].sort(),
    );
    expect(serialisePlan({ ...newPlan(), photo: undefined })).toBe(serialisePlan(newPlan()));
  });

  it('keep markup as plain text', () => {
    expect(parsePlan(serialisePlan(full())).title).toBe('Jug <script>alert(1)</script> & cloth');
  });

  it('change nothing they are given', () => {
    const plan = full();
    serialisePlan(plan);
    expect(plan).toEqual(full());
  });

  it('hold for texts and data of any kind', () => {
    // The generator likes names of the object machinery, which are refused at any depth.
    const json = fc
      .jsonValue({ maxDepth: 4 })
      .filter((value) => !/"(__proto__|constructor|prototype)":/.test(JSON.stringify(value)));
    const safe = fc.dictionary(
      fc
        .string({ maxLength: 20 })
        .filter((key) => !['__proto__', 'constructor', 'prototype'].includes(key)),
      json,
      { maxKeys: 4 },
    );
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 100 }),
        fc.string({ unit: 'binary', maxLength: 300 }),
        safe,
        (title, notes, extensions) => {
          const plan = newPlan({ title, notes, extensions });
          const text = serialisePlan(plan);
          const again = parsePlan(text);
          expect(serialisePlan(again)).toBe(text);
          expect(again.title).toBe(title);
          expect(again.notes).toBe(notes);
          expect(again.extensions).toEqual(JSON.parse(JSON.stringify(extensions)));
        },
      ),
    );
  });
});

describe('faults', () => {
  it('are listed all at once', () => {
    const plan = {
      ...full(),
      title: undefined,
      changed: 'yesterday',
      paper: { ...full().paper, widthMm: 0, colour: 'cream' },
      brushes: [...full().brushes, { name: 'flat', tipMm: 10, pressedMm: 4 }],
      photo: { ...full().photo, sha256: 'XYZ' },
      crop: { ...full().crop, x: 0.2 },
      sitter: full().sitter?.slice(1),
      distrusted: [{ ...full().distrusted?.[0], at: [0.5, 1.5] }],
      readings: [full().readings?.[0], { ...full().readings?.[0], lab: [1, 2, 3, 4] }],
      photoLimits: [66, 36],
      paintLimits: [50],
      overrules: [{ of: 'nothing' }],
      board: { ...full().board, swatches: [{ ...full().board.swatches[0], bucket: 3 }] },
      steps: [...full().steps, ...full().steps],
      paperLimit: 30,
      mood: 'good',
    };
    expect(faultsOf(() => checkPlan(plan)).sort()).toEqual(
      [
        ['plan.missing', '$.title'],
        ['plan.out-of-range', '$.paper.widthMm'],
        ['plan.unknown-key', '$.paper.colour'],
        ['plan.pressed-below-tip', '$.brushes[1]'],
        ['plan.wrong-form', '$.photo.sha256'],
        ['plan.crop-outside', '$.crop'],
        ['plan.too-few', '$.sitter'],
        ['plan.out-of-range', '$.distrusted[0].at[1]'],
        ['plan.too-many', '$.readings[1].lab'],
        ['plan.duplicate-id', '$.readings[1].id'],
        ['plan.limits-disorder', '$.photoLimits[1]'],
        ['plan.limits-count', '$.paintLimits'],
        ['plan.paper-limit-below', '$.paperLimit'],
        ['plan.missing', '$.overrules[0].kind'],
        ['plan.no-such-bucket', '$.board.swatches[0].bucket'],
        ['plan.duplicate-id', '$.steps[1].id'],
        ['plan.wrong-form', '$.changed'],
        ['plan.unknown-key', '$.mood'],
      ].sort(),
    );
  });

  it('two equal limits leave no band between them', () => {
    const plan = { ...full(), photoLimits: [50, 50] };
    expect(faultsOf(() => checkPlan(plan))).toEqual([['plan.limits-disorder', '$.photoLimits[1]']]);
  });

  it('the error has a stable name, a reason and words', () => {
    let error: unknown;
    try {
      parsePlan('{}');
    } catch (caught) {
      error = caught;
    }
    expect(error).toBeInstanceOf(CoreError);
    expect(error).toMatchObject({
      name: 'PlanError',
      reason: { code: 'PlanError', values: { count: PLAN_SCHEMA.required!.length } },
    });
    expect((error as PlanError).message).toContain('$.paper missing');
  });

  it('a plan of a later edition is told by its number alone', () => {
    expect(faultsOf(() => parsePlan('{"schema":2,"unknown":true}'))).toEqual([
      ['plan.schema-newer', '$.schema'],
    ]);
    expect(faultsOf(() => parsePlan('{"schema":0}'))).toEqual([
      ['plan.schema-unknown', '$.schema'],
    ]);
    expect(faultsOf(() => parsePlan(JSON.stringify({ ...full(), schema: '1' })))).toEqual([
      ['plan.wrong-type', '$.schema'],
    ]);
    expect(faultsOf(() => parsePlan(JSON.stringify({ ...full(), schema: 1.5 })))).toEqual([
      ['plan.wrong-type', '$.schema'],
    ]);
  });

  it.each(['', '{', '[', 'undefined', '{"schema":1', "{'schema':1}"])(
    'text that is no JSON: %j',
    (text) => {
      expect(faultsOf(() => parsePlan(text))).toEqual([['plan.not-json-text', '$']]);
    },
  );

  it.each(['null', '5', '"plan"', '[]', 'true'])('JSON that is no plan: %s', (text) => {
    expect(faultsOf(() => parsePlan(text))).toEqual([['plan.wrong-type', '$']]);
  });

  it('a plan given as anything but text is a TypeError', () => {
    expect(() => parsePlan(full() as never)).toThrow(/json is an object; expected JSON text/);
  });

  it('a plan that could not be read again is not written', () => {
    expect(() => serialisePlan({ ...full(), notes: 5 as never })).toThrow(PlanError);
    expect(() => serialisePlan({ ...full(), paperLimit: Number.NaN })).toThrow(
      /\$\.paperLimit not-finite/,
    );
    expect(() => serialisePlan({ ...full(), extensions: { run: (() => 1) as never } })).toThrow(
      /\$\.extensions\.run not-json/,
    );
    expect(() => serialisePlan(null as never)).toThrow(PlanError);
    const half = 'x'.repeat(2_100_000);
    expect(faultsOf(() => serialisePlan({ ...full(), extensions: { a: half, b: half } }))).toEqual([
      ['plan.too-large', '$'],
    ]);
  });
});

describe('hostile text', () => {
  const withText = (text: string): string =>
    JSON.stringify(full()).replace('"schema":1', `"schema":1,${text}`);

  it.each(['__proto__', 'constructor', 'prototype'])(
    'the key %s is refused, at any depth',
    (key) => {
      expect(faultsOf(() => parsePlan(withText(`"${key}":{"polluted":true}`)))).toEqual([
        ['plan.forbidden-key', '$'],
      ]);
      const inside = JSON.stringify(full()).replace(
        '"zebra":1',
        `"zebra":{"${key}":{"polluted":true}}`,
      );
      expect(faultsOf(() => parsePlan(inside))).toEqual([
        ['plan.forbidden-key', '$.extensions["other.program"].zebra'],
      ]);
      expect(({} as Record<string, unknown>).polluted).toBeUndefined();
    },
  );

  it('other names of the object machinery are plain keys', () => {
    const extensions = { toString: 'a', hasOwnProperty: 1, valueOf: null };
    expect(parsePlan(serialisePlan({ ...full(), extensions })).extensions).toEqual(extensions);
    expect(faultsOf(() => parsePlan(withText('"toString":1')))).toEqual([
      ['plan.unknown-key', '$.toString'],
    ]);
  });

  it('long texts, deep nesting, masses of parts and huge numbers', () => {
    expect(faultsOf(() => parsePlan(`{"title":"${'a'.repeat(10_000_000)}"}`))).toEqual([
      ['plan.too-large', '$'],
    ]);
    expect(
      faultsOf(() => parsePlan(JSON.stringify({ ...full(), title: 'a'.repeat(3_000_000) }))),
    ).toEqual([['plan.too-long', '$.title']]);
    const deep = withText('"extensions":{"a":1}').replace(
      /"extensions":\{"other.*$/,
      `"extensions":{"a":${'['.repeat(100_000)}${']'.repeat(100_000)}}}`,
    );
    expect(faultsOf(() => parsePlan(deep)).map(([code]) => code)).toEqual(['plan.too-deep']);
    expect(
      faultsOf(() => parsePlan(`{"extensions":{"a":[${'0,'.repeat(450_000)}0]}}`)).map(
        ([code]) => code,
      ),
    ).toContain('plan.too-large');
    const huge = JSON.stringify(full()).replace('"zebra":1', '"zebra":1e999');
    expect(faultsOf(() => parsePlan(huge))).toEqual([
      ['plan.not-finite', '$.extensions["other.program"].zebra'],
    ]);
  });

  it('a long key is cut short in the path', () => {
    const [[, path]] = faultsOf(() => parsePlan(withText(`"${'k'.repeat(100_000)}":1`)));
    expect(String(path).length).toBeLessThan(100);
  });

  it('text of any kind is read or refused, never anything else', () => {
    const mutated = fc.tuple(fc.nat(), fc.string({ maxLength: 5 })).map(([at, text]) => {
      const json = JSON.stringify(full());
      const i = at % json.length;
      return json.slice(0, i) + text + json.slice(i + text.length);
    });
    fc.assert(
      fc.property(fc.oneof(mutated, fc.json(), fc.string()), (text) => {
        try {
          const plan = parsePlan(text);
          expect(parsePlan(serialisePlan(plan))).toEqual(plan);
        } catch (error) {
          expect(error).toBeInstanceOf(PlanError);
        }
      }),
      { numRuns: 500 },
    );
  });
});

describe('older plans', () => {
  const steps = {
    1: (plan: Record<string, unknown>) => ({ ...plan, schema: 2, title: plan.name }),
    2: (plan: Record<string, unknown>) => ({ ...plan, schema: 3, title: `${String(plan.title)}!` }),
  };

  it('are brought up step by step', () => {
    const old = { schema: 1, name: 'Boats' };
    expect(migrated(old, steps, 3)).toEqual({ schema: 3, name: 'Boats', title: 'Boats!' });
    expect(migrated({ schema: 2, title: 'Boats' }, steps, 3)).toEqual({
      schema: 3,
      title: 'Boats!',
    });
    expect(migrated({ schema: 3, title: 'Boats' }, steps, 3)).toEqual({
      schema: 3,
      title: 'Boats',
    });
    expect(old).toEqual({ schema: 1, name: 'Boats' });
  });

  it('are refused when a step is missing, or they come from the future', () => {
    expect(faultsOf(() => migrated({ schema: -1 }, steps, 3))).toEqual([
      ['plan.schema-unknown', '$.schema'],
    ]);
    expect(faultsOf(() => migrated({ schema: 4 }, steps, 3))).toEqual([
      ['plan.schema-newer', '$.schema'],
    ]);
  });
});

// The schemas are read by another validator of draft 2020-12 (ajv), which also checks them against the draft's own schema.
describe('the published schema, read by another validator', () => {
  const ajv = new Ajv2020({ allErrors: true, strict: true, strictTuples: false });
  const validate = ajv.compile(PLAN_SCHEMA as object);
  /** Faults that go beyond the schema. */
  const beyond =
    /limits-|paper-limit-|no-such-bucket|duplicate-id|bands-disorder|ceiling-below|pressed-below|crop-outside|duplicate-photo|no-such-day|range-too/;
  const soundHere = (plan: unknown): boolean =>
    planFaults(plan).every(({ code }) => beyond.test(code));

  it('is a schema of the draft', () => {
    expect(ajv.validateSchema(PLAN_SCHEMA as object)).toBe(true);
    expect(ajv.validateSchema(BOARD_SCHEMA as object)).toBe(true);
  });

  it('takes every plan that is written here', () => {
    for (const plan of [full(), newPlan(), newPlan({ photoLimits: [] })])
      expect(validate(JSON.parse(serialisePlan(plan)))).toBe(true);
  });

  it('agrees on plans with one thing wrong', () => {
    const values: unknown[] = [
      null,
      true,
      -1,
      0,
      0.5,
      1,
      7,
      101,
      5000.5,
      '',
      'x',
      'y'.repeat(301),
      '\u{1F58C}'.repeat(120),
      [],
      [1],
      [0.1, 0.2, 0.3, 0.4],
      {},
      { id: 'a' },
    ];
    let wrong = 0;
    let right = 0;
    const visit = (node: unknown, keys: (string | number)[]): void => {
      if (node === null || typeof node !== 'object') return;
      for (const key of [...Object.keys(node), 'added']) {
        const path = [...keys, key];
        if (path[0] === 'extensions' && path.length > 1) continue;
        for (const value of [...values, undefined]) {
          const plan = structuredClone(full()) as unknown as Record<string, unknown>;
          const parent = keys.reduce<unknown>(
            (part, k) => (part as Record<string, unknown>)[k],
            plan,
          ) as Record<string, unknown>;
          if (Array.isArray(parent) && (key === 'added' || value === undefined)) continue;
          if (value === undefined) delete parent[key];
          else parent[key] = value;
          const agreed = soundHere(plan);
          expect([path.join('.'), value, agreed]).toEqual([path.join('.'), value, validate(plan)]);
          if (agreed) right += 1;
          else wrong += 1;
        }
        visit((node as Record<string, unknown>)[key], path);
      }
    };
    visit(full(), []);
    expect(wrong).toBeGreaterThan(500);
    expect(right).toBeGreaterThan(100);
  }, 30_000);
});
