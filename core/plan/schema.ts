import type { Schema } from '../base/schema.js';
import { BOARD_SCHEMA, LAB_SCHEMA } from '../swatch/schema.js';

const LIGHTNESS: Schema = { type: 'number', minimum: 0, maximum: 100 };
const FRACTION: Schema = { type: 'number', minimum: 0, maximum: 1 };
const NAME: Schema = { type: 'string', maxLength: 120 };
const ID: Schema = { type: 'string', minLength: 1, maxLength: 120 };
const NOTE: Schema = { type: 'string', maxLength: 2000 };
const LIMITS: Schema = { type: 'array', maxItems: 8, items: LIGHTNESS };
const SPOT: Schema = {
  type: 'array',
  prefixItems: [FRACTION, FRACTION],
  items: false,
  minItems: 2,
};
const PIXELS: Schema = { type: 'integer', minimum: 1, maximum: 1_000_000 };
const millimetres = (maximum: number): Schema => ({ type: 'number', exclusiveMinimum: 0, maximum });

/** The newest form of a plan that this package reads and writes. */
export const PLAN_SCHEMA_NUMBER = 1;

/**
 * The form of a plan as JSON (JSON Schema, draft 2020-12), key order as written by this package. Beyond it: the board's own
 * rules; one limit fewer than the board has bands (none without bands), ascending; as many paint limits as photo limits; the
 * paper's limit is not below them; ids
 * differ within a list; `pressedMm` is not below `tipMm`; a crop stays inside the photo.
 */
export const PLAN_SCHEMA: Schema = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title: 'Painting plan',
  type: 'object',
  additionalProperties: false,
  required: [
    'schema',
    'tubesEdition',
    'title',
    'paper',
    'brushes',
    'photoLimits',
    'paintLimits',
    'overrules',
    'board',
    'steps',
    'notes',
  ],
  properties: {
    schema: { type: 'integer', const: PLAN_SCHEMA_NUMBER },
    id: ID,
    changed: {
      type: 'string',
      pattern:
        '^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])T([01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9](\\.[0-9]{1,9})?Z$',
      description: 'an instant as 2026-01-31T12:00:00Z',
    },
    title: { type: 'string', maxLength: 300 },
    tubesEdition: NAME,
    paper: {
      type: 'object',
      additionalProperties: false,
      required: ['widthMm', 'heightMm', 'lightness'],
      properties: {
        name: NAME,
        widthMm: millimetres(5000),
        heightMm: millimetres(5000),
        lightness: LIGHTNESS,
      },
    },
    brushes: {
      type: 'array',
      maxItems: 50,
      items: {
        type: 'object',
        additionalProperties: false,
        required: ['name', 'tipMm', 'pressedMm'],
        properties: { name: NAME, tipMm: millimetres(1000), pressedMm: millimetres(1000) },
      },
    },
    photo: {
      type: 'object',
      additionalProperties: false,
      required: ['sha256', 'name', 'width', 'height'],
      properties: {
        sha256: {
          type: 'string',
          pattern: '^[0-9a-f]{64}$',
          description: '64 lower-case hexadecimal digits',
        },
        name: { type: 'string', maxLength: 300 },
        width: PIXELS,
        height: PIXELS,
      },
    },
    crop: {
      type: 'object',
      additionalProperties: false,
      required: ['x', 'y', 'width', 'height'],
      properties: {
        x: FRACTION,
        y: FRACTION,
        width: { ...FRACTION, exclusiveMinimum: 0 },
        height: { ...FRACTION, exclusiveMinimum: 0 },
      },
    },
    sitter: { type: 'array', minItems: 3, maxItems: 5000, items: SPOT },
    distrusted: {
      type: 'array',
      maxItems: 1000,
      items: {
        type: 'object',
        additionalProperties: false,
        required: ['id', 'at', 'radius', 'lightness', 'note'],
        properties: {
          id: ID,
          at: SPOT,
          radius: { ...FRACTION, exclusiveMinimum: 0 },
          lightness: LIGHTNESS,
          note: NOTE,
        },
      },
    },
    readings: {
      type: 'array',
      maxItems: 2000,
      items: {
        type: 'object',
        additionalProperties: false,
        required: ['id', 'at', 'holeMm', 'lightness', 'lab', 'css', 'spread'],
        properties: {
          id: ID,
          at: SPOT,
          holeMm: millimetres(5000),
          lightness: LIGHTNESS,
          lab: LAB_SCHEMA,
          css: { type: 'string', minLength: 1, maxLength: 200 },
          spread: LIGHTNESS,
          guess: LIGHTNESS,
          note: NOTE,
        },
      },
    },
    photoLimits: LIMITS,
    paintLimits: LIMITS,
    paperLimit: LIGHTNESS,
    overrules: {
      type: 'array',
      maxItems: 5000,
      items: { type: 'object', required: ['kind'], properties: { kind: ID } },
    },
    board: BOARD_SCHEMA,
    steps: {
      type: 'array',
      maxItems: 1000,
      items: { type: 'object', required: ['id'], properties: { id: ID } },
    },
    notes: { type: 'string', maxLength: 50_000 },
    extensions: { type: 'object' },
  },
};
