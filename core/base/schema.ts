/**
 * A small part of JSON Schema (draft 2020-12), enough for the documents of this package: no references, no code made at
 * run time. A schema here is a plain object that may be published as it stands; any validator of that draft reads it the
 * same way. One schema serves three purposes: finding faults ({@link documentFaults}), copying in a fixed key order
 * ({@link inKeyOrder}) and telling others what a document may hold.
 *
 * Source of the keywords: JSON Schema Core and Validation, draft 2020-12. Paths in faults: JSONPath, RFC 9535.
 */
import { reason, type Reason } from './reason.js';

/** The keywords understood; anything else in a schema is text for people (`$schema`, `title`, `description`). */
export interface Schema {
  readonly $schema?: string;
  readonly $id?: string;
  readonly title?: string;
  readonly description?: string;
  readonly type?: 'object' | 'array' | 'string' | 'number' | 'integer' | 'boolean';
  readonly const?: string | number | boolean;
  readonly enum?: readonly (string | number)[];
  readonly properties?: Readonly<Record<string, Schema>>;
  /** By a pattern for the whole key; keys named in `properties` are not looked up here. */
  readonly patternProperties?: Readonly<Record<string, Schema>>;
  readonly maxProperties?: number;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean;
  readonly items?: Schema | false;
  readonly prefixItems?: readonly Schema[];
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly pattern?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
}

/** Bounds that hold for every document, whatever its schema says. */
export const DOCUMENT_LIMITS = {
  /** Characters of JSON text. */
  characters: 4_000_000,
  /** Levels of objects and lists inside one another. */
  depth: 32,
  /** Objects, lists and simple values together. */
  parts: 400_000,
  /** Faults listed; what is beyond is counted in one last fault `….more`. */
  faults: 1000,
} as const;

/** Keys that reach the machinery of JavaScript objects; refused everywhere in a document. */
const FORBIDDEN_KEYS: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

const PLAIN_NAME = /^[A-Za-z_][A-Za-z0-9_]*$/;

const short = (text: string): string => (text.length > 60 ? `${text.slice(0, 60)}…` : text);

/** A child's JSONPath. */
export function pathTo(parent: string, key: string | number): string {
  if (typeof key === 'number') return `${parent}[${key}]`;
  return PLAIN_NAME.test(key) && key.length <= 60
    ? `${parent}.${key}`
    : `${parent}[${JSON.stringify(short(key))}]`;
}

const shown = (value: unknown): string => {
  if (typeof value === 'string') return JSON.stringify(short(value));
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (value !== null && typeof value === 'object') return 'an object';
  return String(value);
};

const isRecord = (value: unknown): value is Record<string, unknown> =>
  value !== null && typeof value === 'object' && !Array.isArray(value);

/** Collects faults under one prefix, up to the limit, and counts the rest. */
export class FaultList {
  readonly #prefix: string;
  readonly #faults: Reason[] = [];
  #beyond = 0;

  constructor(prefix: string) {
    this.#prefix = prefix;
  }

  /** Adds the fault `prefix.code` at a path. */
  add(code: string, path: string, values: Record<string, string | number> = {}): void {
    if (this.#faults.length >= DOCUMENT_LIMITS.faults) this.#beyond += 1;
    else this.#faults.push(reason(`${this.#prefix}.${code}`, { path, ...values }));
  }

  get empty(): boolean {
    return this.#faults.length === 0;
  }

  /** The faults found so far; the last one tells how many more there are, if any. */
  list(): Reason[] {
    if (this.#beyond === 0) return [...this.#faults];
    return [...this.#faults, reason(`${this.#prefix}.more`, { path: '$', count: this.#beyond })];
  }
}

/**
 * Faults that hold for any document: not JSON, too deep, too large, or with a forbidden key. False when the document is not to be
 * looked at any closer.
 */
function plainFaults(root: unknown, faults: FaultList): boolean {
  let parts = 0;
  let sound = true;
  const waiting: { value: unknown; path: string; depth: number }[] = [
    { value: root, path: '$', depth: 0 },
  ];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { value, path, depth } = next;
    parts += 1;
    if (parts > DOCUMENT_LIMITS.parts) {
      faults.add('too-large', '$', { limit: DOCUMENT_LIMITS.parts });
      return false;
    }
    if (value === null || typeof value === 'string' || typeof value === 'boolean') continue;
    if (typeof value === 'number') {
      if (!Number.isFinite(value)) faults.add('not-finite', path, { found: String(value) });
      continue;
    }
    if (typeof value !== 'object') {
      faults.add('not-json', path, { found: typeof value });
      sound = false;
      continue;
    }
    if (depth >= DOCUMENT_LIMITS.depth) {
      faults.add('too-deep', path, { limit: DOCUMENT_LIMITS.depth });
      sound = false;
      continue;
    }
    if (Array.isArray(value)) {
      if (value.length > DOCUMENT_LIMITS.parts) {
        faults.add('too-large', path, { limit: DOCUMENT_LIMITS.parts });
        return false;
      }
      for (let i = value.length - 1; i >= 0; i -= 1)
        waiting.push({ value: value[i], path: pathTo(path, i), depth: depth + 1 });
      continue;
    }
    const keys = Object.keys(value).reverse();
    for (const key of keys) {
      const child = (value as Record<string, unknown>)[key];
      if (FORBIDDEN_KEYS.has(key)) faults.add('forbidden-key', path, { key });
      else if (child !== undefined)
        waiting.push({ value: child, path: pathTo(path, key), depth: depth + 1 });
    }
  }
  return sound;
}

const typeFits = (type: NonNullable<Schema['type']>, value: unknown): boolean => {
  switch (type) {
    case 'object':
      return isRecord(value);
    case 'array':
      return Array.isArray(value);
    case 'integer':
      return Number.isInteger(value);
    default:
      return typeof value === type;
  }
};

const TYPE_WORDS: Record<NonNullable<Schema['type']>, string> = {
  object: 'an object',
  array: 'a list',
  string: 'a text',
  number: 'a number',
  integer: 'a whole number',
  boolean: 'true or false',
};

const rangeWords = (schema: Schema): string => {
  const words: string[] = [];
  if (schema.exclusiveMinimum !== undefined) words.push(`more than ${schema.exclusiveMinimum}`);
  if (schema.minimum !== undefined) words.push(`at least ${schema.minimum}`);
  if (schema.maximum !== undefined) words.push(`at most ${schema.maximum}`);
  return words.join(' and ');
};

/** Whether a text has more than `limit` code points, which is how JSON Schema counts. */
const longer = (text: string, limit: number): boolean =>
  text.length > 2 * limit || (text.length > limit && [...text].length > limit);

function numberFaults(schema: Schema, value: number, path: string, faults: FaultList): void {
  if (!Number.isFinite(value)) return;
  const below =
    (schema.minimum !== undefined && value < schema.minimum) ||
    (schema.exclusiveMinimum !== undefined && value <= schema.exclusiveMinimum);
  if (below || (schema.maximum !== undefined && value > schema.maximum)) {
    faults.add('out-of-range', path, { found: value, expected: rangeWords(schema) });
  }
}

function textFaults(schema: Schema, value: string, path: string, faults: FaultList): void {
  if (schema.maxLength !== undefined && longer(value, schema.maxLength)) {
    faults.add('too-long', path, { found: value.length, limit: schema.maxLength });
    return;
  }
  if (schema.minLength !== undefined && !longer(value, schema.minLength - 1))
    faults.add('too-short', path, { found: shown(value), limit: schema.minLength });
  if (schema.pattern !== undefined && !new RegExp(schema.pattern, 'u').test(value)) {
    faults.add('wrong-form', path, {
      found: shown(value),
      expected: schema.description ?? schema.pattern,
    });
  }
}

function listFaults(schema: Schema, value: unknown[], path: string, faults: FaultList): void {
  if (schema.maxItems !== undefined && value.length > schema.maxItems) {
    faults.add('too-many', path, { found: value.length, limit: schema.maxItems });
    return;
  }
  if (schema.minItems !== undefined && value.length < schema.minItems)
    faults.add('too-few', path, { found: value.length, limit: schema.minItems });
  value.forEach((item, i) => {
    const of = schema.prefixItems?.[i] ?? schema.items;
    if (of === false)
      faults.add('too-many', path, { found: value.length, limit: schema.prefixItems?.length ?? 0 });
    else if (of !== undefined) partFaults(of, item, pathTo(path, i), faults);
  });
}

/** The schema of one field, by its name or by the first pattern that fits it. */
function fieldSchema(schema: Schema, key: string): Schema | undefined {
  if (schema.properties !== undefined && Object.hasOwn(schema.properties, key))
    return schema.properties[key];
  return Object.entries(schema.patternProperties ?? {}).find(([pattern]) =>
    new RegExp(pattern, 'u').test(key),
  )?.[1];
}

function recordFaults(
  schema: Schema,
  value: Record<string, unknown>,
  path: string,
  faults: FaultList,
): void {
  const count = Object.values(value).filter((field) => field !== undefined).length;
  if (schema.maxProperties !== undefined && count > schema.maxProperties) {
    faults.add('too-many', path, { found: count, limit: schema.maxProperties });
    return;
  }
  for (const key of schema.required ?? []) {
    if (!Object.hasOwn(value, key) || value[key] === undefined)
      faults.add('missing', pathTo(path, key));
  }
  for (const key of Object.keys(value)) {
    if (value[key] === undefined || FORBIDDEN_KEYS.has(key)) continue;
    const of = fieldSchema(schema, key);
    if (of !== undefined) partFaults(of, value[key], pathTo(path, key), faults);
    else if (schema.additionalProperties === false) faults.add('unknown-key', pathTo(path, key));
  }
}

function partFaults(schema: Schema, value: unknown, path: string, faults: FaultList): void {
  if (schema.type !== undefined && !typeFits(schema.type, value)) {
    faults.add('wrong-type', path, { found: shown(value), expected: TYPE_WORDS[schema.type] });
    return;
  }
  if (schema.const !== undefined && value !== schema.const)
    faults.add('not-allowed', path, { found: shown(value), expected: shown(schema.const) });
  if (schema.enum !== undefined && !schema.enum.includes(value as string)) {
    faults.add('not-allowed', path, {
      found: shown(value),
      expected: schema.enum.map(shown).join(' or '),
    });
  }
  if (typeof value === 'number') numberFaults(schema, value, path, faults);
  else if (typeof value === 'string') textFaults(schema, value, path, faults);
  else if (Array.isArray(value)) listFaults(schema, value, path, faults);
  else if (isRecord(value)) recordFaults(schema, value, path, faults);
}

/**
 * Looks for every fault of `value` against `schema`.
 *
 * @param schema - What the document may hold.
 * @param value - Any value, trusted or not. A property whose value is `undefined` counts as absent.
 * @param prefix - The first part of the fault codes: `prefix.missing`, `.unknown-key`, `.wrong-type`, `.out-of-range`,
 * `.too-long`, `.too-short`, `.wrong-form`, `.too-many`, `.too-few`, `.not-allowed`, `.not-finite`, `.not-json`,
 * `.forbidden-key`, `.too-deep`, `.too-large`, `.more`. The figures are `path` (JSONPath) and, where they apply, `found`,
 * `expected`, `limit`, `key`, `count`.
 * @returns A list to which checks that a schema cannot express may be added.
 */
export function documentFaults(schema: Schema, value: unknown, prefix: string): FaultList {
  const faults = new FaultList(prefix);
  if (plainFaults(value, faults)) partFaults(schema, value, '$', faults);
  return faults;
}

/**
 * A copy of a faultless document: keys in the order of the schema's `properties`, then any others by code unit; absent
 * fields stay absent. The copy shares nothing with `value`.
 */
export function inKeyOrder(schema: Schema, value: unknown): unknown {
  if (Array.isArray(value)) {
    return value.map((item, i) =>
      inKeyOrder(schema.prefixItems?.[i] ?? (schema.items || {}), item),
    );
  }
  if (!isRecord(value)) return value;
  const copy: Record<string, unknown> = {};
  const named = Object.keys(schema.properties ?? {});
  const others = Object.keys(value)
    .filter((key) => !named.includes(key))
    .sort();
  for (const key of [...named, ...others]) {
    if (Object.hasOwn(value, key) && value[key] !== undefined)
      copy[key] = inKeyOrder(fieldSchema(schema, key) ?? {}, value[key]);
  }
  return copy;
}

/** A fault as a line for a developer's error message. */
export function faultLine({ code, values }: Reason): string {
  const { path, ...figures } = values;
  const told = Object.entries(figures).map(([name, figure]) => `${name} ${figure}`);
  return `${path ?? '$'} ${code.slice(code.indexOf('.') + 1)}${told.length > 0 ? ` (${told.join(', ')})` : ''}`;
}
