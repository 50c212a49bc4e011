import { readdirSync, readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import {
  checkPlan,
  parsePlan,
  PLAN_SCHEMA,
  PLAN_SCHEMA_NUMBER,
  planFaults,
  PlanError,
  serialisePlan,
  withRange,
} from '../../core/plan/index.js';
import { migrated, MIGRATIONS, type Migration } from '../../core/plan/plan.js';
import type { Schema } from '../../core/base/schema.js';

/**
 * Plans as they were kept. `bare` (the required fields alone) and `first` (before there were several photos, a brief and a range) were
 * written by the edition of that time; `full` (as it was before masses, shelf, dabs and checks) and `masses` (what those brought) and
 * `landmarks` (what the checks of the drawing brought) were written by hand. They stay as they are: whatever is changed, they must be read.
 */
const folder = new URL('../reference/plans/', import.meta.url);
const files = readdirSync(folder);
const textOf = (name: string): string => readFileSync(new URL(name, folder), 'utf8');
const jsonOf = (name: string): Record<string, unknown> =>
  JSON.parse(textOf(name)) as Record<string, unknown>;

describe('kept plans', () => {
  it('are there, one of each form at least', () => {
    for (const name of ['bare', 'first', 'full', 'masses', 'landmarks'])
      expect(files).toContain(`schema-1-${name}.json`);
    const forms = new Set(files.map((name) => jsonOf(name).schema));
    for (let form = 1; form <= PLAN_SCHEMA_NUMBER; form += 1) expect(forms).toContain(form);
  });

  it.each(files)('%s is read and written as it was', (name) => {
    const text = textOf(name);
    const plan = parsePlan(text);
    expect(serialisePlan(plan)).toBe(text);
    expect(plan).toEqual(JSON.parse(text));
    expect(checkPlan(JSON.parse(text))).toEqual(plan);
  });

  it.each(files)('%s is valid for another validator of the published schema', (name) => {
    const validate = new Ajv2020({ strict: true, strictTuples: false }).compile(
      PLAN_SCHEMA as object,
    );
    expect([validate(jsonOf(name)), validate.errors]).toEqual([true, null]);
  });

  it('the bare one has the required fields alone, the full ones together have every field', () => {
    expect(Object.keys(jsonOf('schema-1-bare.json')).sort()).toEqual(
      [...PLAN_SCHEMA.required!].sort(),
    );
    const missing: string[] = [];
    const visit = (schema: Schema, found: unknown[], path: string): void => {
      const parts = found.flat() as Record<string, unknown>[];
      for (const [key, of] of Object.entries(schema.properties ?? {})) {
        const values = parts.filter((part) => Object.hasOwn(part, key)).map((part) => part[key]);
        if (values.length > 0) visit(of.items || of, values, `${path}.${key}`);
        else missing.push(`${path}.${key}`);
      }
      for (const of of Object.values(schema.patternProperties ?? {}))
        visit(
          of,
          parts.flatMap((part) => Object.values(part)),
          `${path}.*`,
        );
    };
    const full = ['full', 'masses', 'landmarks'].map((name) => jsonOf(`schema-1-${name}.json`));
    visit(PLAN_SCHEMA, full, '$');
    expect(missing).toEqual([]);
  });

  it('the limits in paint of the full one follow its range', () => {
    // 25 + (95 - 25) * L* / 100: 30 gives 46, 60 gives 67.
    const plan = parsePlan(textOf('schema-1-full.json'));
    expect(plan.paintLimits).toEqual([46, 67]);
    expect(withRange(plan, plan.range)).toBe(plan);
  });

  it('what other programs put in is kept', () => {
    const { extensions } = parsePlan(textOf('schema-1-first.json'));
    expect(extensions).toEqual({
      'org.example.easel': { zebra: 1, apple: [1, 2, { b: 1, a: 2 }] },
    });
  });
});

/**
 * A form that never was, to show how an older one would be read: the sheet in inches, one list of limits, no overrules or steps.
 */
const INVENTED = {
  schema: 0,
  name: 'Two boats',
  sheetInches: [15, 11],
  limits: [36, 66],
  board: { bands: [], swatches: [] },
};
const fromInvented: Migration = ({ name, sheetInches, limits, board }) => {
  const [width, height] = sheetInches as [number, number];
  const borders = [0, ...(limits as number[]), 95];
  const bands = borders
    .slice(1)
    .map((ceiling, i) => ({ name: `${i}`, floor: borders[i], ceiling }));
  return {
    schema: 1,
    title: name,
    tubesEdition: '',
    paper: { widthMm: 25.4 * width, heightMm: 25.4 * height, lightness: 95 },
    brushes: [],
    photoLimits: limits,
    paintLimits: limits,
    overrules: [],
    board: { ...(board as object), bands },
    steps: [],
    notes: '',
  };
};

describe('an older form', () => {
  it('is brought up to date and is then a sound plan', () => {
    const before = structuredClone(INVENTED);
    const plan = migrated(INVENTED, { 0: fromInvented });
    expect(INVENTED).toEqual(before);
    expect(planFaults(plan)).toEqual([]);
    // 15 x 11 in are 381 x 279.4 mm.
    expect(checkPlan(plan)).toMatchObject({
      title: 'Two boats',
      paper: { widthMm: 381, heightMm: 279.4 },
      paintLimits: [36, 66],
    });
  });

  it('is refused while nothing leads on from it, and so is a later one', () => {
    expect(Object.keys(MIGRATIONS)).toHaveLength(PLAN_SCHEMA_NUMBER - 1);
    expect(() => checkPlan(INVENTED)).toThrow(PlanError);
    const later = { ...jsonOf('schema-1-full.json'), schema: PLAN_SCHEMA_NUMBER + 1 };
    try {
      checkPlan(later);
      expect.unreachable();
    } catch (error) {
      expect((error as PlanError).faults).toEqual([
        {
          code: 'plan.schema-newer',
          values: { path: '$.schema', found: PLAN_SCHEMA_NUMBER + 1, known: PLAN_SCHEMA_NUMBER },
        },
      ]);
    }
  });
});
