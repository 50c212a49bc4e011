import type { Schema } from '../base/schema.js';

const LIGHTNESS: Schema = { type: 'number', minimum: 0, maximum: 100 };
const NAME: Schema = { type: 'string', maxLength: 120 };
const ID: Schema = { type: 'string', minLength: 1, maxLength: 120 };

/** CIELAB, D65, 2 degree observer. */
export const LAB_SCHEMA: Schema = {
  type: 'array',
  prefixItems: [
    LIGHTNESS,
    { type: 'number', minimum: -300, maximum: 300 },
    { type: 'number', minimum: -300, maximum: 300 },
  ],
  items: false,
  minItems: 3,
};

const PARTS: Schema = {
  type: 'array',
  minItems: 1,
  maxItems: 12,
  items: {
    type: 'object',
    additionalProperties: false,
    required: ['tube', 'parts'],
    properties: { tube: ID, parts: { type: 'number', exclusiveMinimum: 0, maximum: 1e6 } },
  },
};
const STRENGTH: Schema = { type: 'number', exclusiveMinimum: 0, maximum: 100 };

/** A mix written down. */
export const RECIPE_SCHEMA: Schema = {
  type: 'object',
  additionalProperties: false,
  required: ['parts', 'strength'],
  properties: {
    parts: PARTS,
    strength: STRENGTH,
    over: {
      type: 'array',
      maxItems: 20,
      items: {
        type: 'object',
        additionalProperties: false,
        required: ['parts', 'strength'],
        properties: { parts: PARTS, strength: STRENGTH },
      },
    },
  },
};

/** One swatch of a board. */
export const SWATCH_SCHEMA: Schema = {
  type: 'object',
  additionalProperties: false,
  required: ['id', 'bucket', 'lightness'],
  properties: {
    id: ID,
    bucket: { type: 'integer', minimum: 0, maximum: 8 },
    lightness: LIGHTNESS,
    uncertainty: LIGHTNESS,
    wet: { type: 'boolean' },
    accent: { type: 'boolean' },
    css: { type: 'string', minLength: 1, maxLength: 200 },
    name: NAME,
    note: { type: 'string', maxLength: 2000 },
    lab: LAB_SCHEMA,
    from: { type: 'string', enum: ['typed', 'reading', 'data', 'sheet', 'mix'] },
    recipe: RECIPE_SCHEMA,
  },
};

/**
 * The form of a board as JSON (JSON Schema, draft 2020-12), key order as written by this package. Beyond it: a band's
 * ceiling is not below its floor, bands ascend, swatch ids differ, every bucket is the number of a band.
 */
export const BOARD_SCHEMA: Schema = {
  type: 'object',
  additionalProperties: false,
  required: ['bands', 'swatches'],
  properties: {
    bands: {
      type: 'array',
      maxItems: 9,
      items: {
        type: 'object',
        additionalProperties: false,
        required: ['name', 'floor', 'ceiling'],
        properties: {
          name: NAME,
          floor: LIGHTNESS,
          ceiling: LIGHTNESS,
          spread: LIGHTNESS,
          locked: { type: 'boolean' },
        },
      },
    },
    swatches: {
      type: 'array',
      maxItems: 1000,
      items: SWATCH_SCHEMA,
    },
  },
};
