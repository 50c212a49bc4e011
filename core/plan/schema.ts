import type { Schema } from '../base/schema.js';
import { BOARD_SCHEMA, LAB_SCHEMA, RECIPE_SCHEMA } from '../swatch/schema.js';
import { MOST_PHOTOS } from './photos.js';

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

const SHA256: Schema = {
  type: 'string',
  pattern: '^[0-9a-f]{64}$',
  description: '64 lower-case hexadecimal digits',
};
const DATE = '[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])';
const RADIUS: Schema = { ...FRACTION, exclusiveMinimum: 0 };
const PHOTO: Schema = {
  type: 'object',
  additionalProperties: false,
  required: ['sha256', 'name', 'width', 'height'],
  properties: {
    sha256: SHA256,
    name: { type: 'string', maxLength: 300 },
    width: PIXELS,
    height: PIXELS,
    note: NOTE,
  },
};
/** What is drawn on a photo: fields of the plan for the leading one, under `marks` for the others. */
const MARKS: Readonly<Record<string, Schema>> = {
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
        radius: RADIUS,
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
  landmarks: {
    type: 'array',
    maxItems: 200,
    items: {
      type: 'object',
      additionalProperties: false,
      required: ['id', 'at'],
      properties: { id: ID, at: SPOT, name: NAME },
    },
  },
};
const BORROWED: Schema = {
  type: 'object',
  additionalProperties: false,
  required: ['id', 'photo', 'at', 'radius', 'note'],
  properties: { id: ID, photo: SHA256, at: SPOT, radius: RADIUS, note: NOTE },
};
const BRIEF: Schema = {
  type: 'object',
  additionalProperties: false,
  properties: {
    widthMm: millimetres(5000),
    heightMm: millimetres(5000),
    deadline: { type: 'string', pattern: `^${DATE}$`, description: 'a day as 2026-01-31' },
    markings: {
      type: 'array',
      maxItems: 500,
      items: {
        type: 'object',
        additionalProperties: false,
        required: ['id', 'text'],
        properties: { id: ID, text: NOTE, done: { type: 'boolean' } },
      },
    },
    permission: { type: 'string', enum: ['asked', 'given', 'refused', 'own'] },
    permissionNote: NOTE,
    client: { type: 'string', maxLength: 300 },
  },
};
const RANGE: Schema = {
  type: 'object',
  additionalProperties: false,
  required: ['low', 'high', 'holding'],
  properties: {
    low: LIGHTNESS,
    high: LIGHTNESS,
    holding: { type: 'number', minimum: -1, maximum: 1 },
    darkest: LIGHTNESS,
  },
};

const FOCUS: Schema = {
  type: 'object',
  additionalProperties: false,
  required: ['id', 'loop', 'brush'],
  properties: {
    id: ID,
    loop: { type: 'array', minItems: 3, maxItems: 5000, items: SPOT },
    brush: { type: 'integer', minimum: 0, maximum: 49 },
  },
};
const FOCUS_AREAS: Schema = { type: 'array', maxItems: 100, items: FOCUS };
const OVERRULES: Schema = {
  type: 'array',
  maxItems: 5000,
  items: { type: 'object', required: ['kind'], properties: { kind: ID } },
};
const LOAD: Schema = { type: 'number', minimum: 0.05, maximum: 20 };
const SHELF_TUBE: Schema = {
  type: 'object',
  additionalProperties: false,
  required: ['tube'],
  properties: { tube: ID, load: LOAD, loadLow: LOAD, loadHigh: LOAD },
};
const DAB: Schema = {
  type: 'object',
  additionalProperties: false,
  required: ['id', 'date', 'lab', 'spread', 'uncertainty'],
  properties: {
    id: ID,
    date: { type: 'string', pattern: `^${DATE}$`, description: 'a day as 2026-01-31' },
    lab: LAB_SCHEMA,
    spread: LIGHTNESS,
    uncertainty: LIGHTNESS,
    recipe: RECIPE_SCHEMA,
    wet: { type: 'string', enum: ['shining', 'satin', 'damp'] },
    same: ID,
    band: { type: 'integer', minimum: 0, maximum: 8 },
    note: NOTE,
  },
};
const INSTANT: Schema = {
  type: 'string',
  pattern: `^${DATE}T([01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9](\\.[0-9]{1,9})?Z$`,
  description: 'an instant as 2026-01-31T12:00:00Z',
};
const CHECK: Schema = {
  type: 'object',
  additionalProperties: false,
  required: ['id', 'date', 'agreement', 'kappa', 'lostReserves'],
  properties: {
    id: ID,
    date: INSTANT,
    photo: SHA256,
    upToStep: { type: 'integer', minimum: 0, maximum: 1000 },
    agreement: FRACTION,
    kappa: { type: 'number', minimum: -1, maximum: 1 },
    lostReserves: { type: 'integer', minimum: 0, maximum: 1_000_000 },
    islands: { type: 'integer', minimum: 0, maximum: 1_000_000 },
    note: NOTE,
  },
};

/** The newest form of a plan that this package reads and writes. */
export const PLAN_SCHEMA_NUMBER = 1;

/**
 * The form of a plan as JSON (JSON Schema, draft 2020-12), key order as written by this package. Beyond it: the board's own
 * rules; one limit fewer than the board has bands (none without bands), ascending; as many paint limits as photo limits; the
 * paper's limit is not below them; ids
 * differ within a list, and so do the digests of the other photos; `pressedMm` is not below `tipMm`; a crop stays inside its
 * photo; the deadline is a day of the calendar; a range is at least 1 L* wide.
 */
export const PLAN_SCHEMA: Schema = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: 'urn:tonewell:plan:1',
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
    changed: INSTANT,
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
    photo: PHOTO,
    photos: { type: 'array', maxItems: MOST_PHOTOS - 1, items: PHOTO },
    ...MARKS,
    marks: {
      type: 'object',
      additionalProperties: false,
      maxProperties: 100,
      patternProperties: {
        '^[0-9a-f]{64}$': {
          type: 'object',
          additionalProperties: false,
          properties: { ...MARKS, focus: FOCUS_AREAS, overrules: OVERRULES },
        },
      },
    },
    borrowed: { type: 'array', maxItems: 1000, items: BORROWED },
    brief: BRIEF,
    range: RANGE,
    photoLimits: LIMITS,
    paintLimits: LIMITS,
    paperLimit: LIGHTNESS,
    brush: { type: 'integer', minimum: 0, maximum: 49 },
    focus: FOCUS_AREAS,
    background: { type: 'string', enum: ['as-photo', 'paper', 'wash', 'dark'] },
    way: { type: 'string', enum: ['direct', 'light-to-dark'] },
    overrules: OVERRULES,
    board: BOARD_SCHEMA,
    shelf: { type: 'array', maxItems: 100, items: SHELF_TUBE },
    sold: { type: 'boolean' },
    dabs: { type: 'array', maxItems: 5000, items: DAB },
    checks: { type: 'array', maxItems: 500, items: CHECK },
    steps: {
      type: 'array',
      maxItems: 1000,
      items: { type: 'object', required: ['id'], properties: { id: ID } },
    },
    notes: { type: 'string', maxLength: 50_000 },
    extensions: { type: 'object' },
  },
};
