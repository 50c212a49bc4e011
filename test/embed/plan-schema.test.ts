/** The JSON Schema of a plan as a file of the package: another validator reads it and agrees on kept plans. */
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { root } from './site.js';

const read = (file: string): unknown => JSON.parse(readFileSync(file, 'utf8'));
const plans = `${root}test/reference/plans/`;

describe('tonewell/plan.schema.json', () => {
  const schema = read(createRequire(`${root}package.json`).resolve('tonewell/plan.schema.json'));
  const validate = new Ajv2020({ strict: true, strictTuples: false }).compile(schema as object);

  it('has a name of its own', () => {
    expect(schema).toMatchObject({
      $schema: 'https://json-schema.org/draft/2020-12/schema',
      $id: 'urn:tonewell:plan:1',
    });
  });

  it.each(readdirSync(plans))('takes %s and refuses it without a title', (name) => {
    const plan = read(plans + name) as Record<string, unknown>;
    expect([validate(plan), validate.errors]).toEqual([true, null]);
    expect(validate({ ...plan, title: undefined })).toBe(false);
    expect(validate({ ...plan, mood: 'good' })).toBe(false);
  });
});
