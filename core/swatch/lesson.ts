import { labOf, leanOf, type LeanName } from '../colour/index.js';
import { CoreError, type Reason } from '../base/reason.js';
import {
  documentFaults,
  faultLine,
  inKeyOrder,
  pathTo,
  type FaultList,
  type Schema,
} from '../base/schema.js';
import { readJson } from './json.js';
import { lacksBy, type Lack, type LessonNeeds } from './lacks.js';
import { addBoardFaults } from './parse.js';
import type { Board, BoardBand, BoardSwatch } from './types.js';

/** Every lean that a lesson may ask for: the names of `leanOf`. */
export const LEAN_NAMES = [
  'neutral',
  'red',
  'orange',
  'yellow',
  'yellow-green',
  'green',
  'blue-green',
  'blue',
  'violet',
  'red-violet',
] as const satisfies readonly LeanName[];

/** A task about a board, as a teacher writes it. All text is plain text. */
export interface Lesson {
  schema: 1;
  title: string;
  /** What is to be done, plain text. */
  task: string;
  /** Address of a picture that the page may show: relative, http(s), blob or a data URL of an image. */
  picture?: string;
  /** Dark to light; 1 to 9. */
  bands: Pick<BoardBand, 'name' | 'floor' | 'ceiling'>[];
  /** Swatches that a bucket needs (0..100): one number for all, or one for each band. One each when absent. */
  required?: number | number[];
  /** For each band the leans wanted in its bucket; a lean named twice is wanted twice. None when absent. */
  leans?: LeanName[][];
  /** L* that a bucket may span (0..100); no rule when absent. */
  tolerance?: number;
  /** When the verdict is shown: `always`, after a `submit` (when absent), or `never`. */
  reveal?: 'always' | 'submit' | 'never';
}

const MOST_ASKED = 100;
const COUNT: Schema = { type: 'integer', minimum: 0, maximum: MOST_ASKED };
const LIGHTNESS: Schema = { type: 'number', minimum: 0, maximum: 100 };

/**
 * The form of a lesson as JSON (JSON Schema, draft 2020-12). Beyond it: `required` is a whole number or a list with one for each
 * band; `leans` has one list for each band; a band's ceiling is not below its floor; bands ascend.
 */
export const LESSON_SCHEMA: Schema = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title: 'Lesson about a board of swatches',
  type: 'object',
  additionalProperties: false,
  required: ['schema', 'title', 'task', 'bands'],
  properties: {
    schema: { type: 'integer', const: 1 },
    title: { type: 'string', minLength: 1, maxLength: 300 },
    task: { type: 'string', maxLength: 10_000 },
    picture: {
      type: 'string',
      minLength: 1,
      maxLength: 4000,
      pattern: '^(?:https?:|blob:|data:image/|(?![A-Za-z][A-Za-z0-9+.-]*:))[^\\u0000-\\u0020]*$',
      description: 'an address of a picture: relative, http, https, blob or data:image',
    },
    bands: {
      type: 'array',
      minItems: 1,
      maxItems: 9,
      items: {
        type: 'object',
        additionalProperties: false,
        required: ['name', 'floor', 'ceiling'],
        properties: {
          name: { type: 'string', minLength: 1, maxLength: 120 },
          floor: LIGHTNESS,
          ceiling: LIGHTNESS,
        },
      },
    },
    required: {
      description: 'a whole number for all buckets, or a list with one for each band',
      minimum: 0,
      maximum: MOST_ASKED,
      maxItems: 9,
      items: COUNT,
    },
    leans: {
      type: 'array',
      maxItems: 9,
      items: {
        type: 'array',
        maxItems: MOST_ASKED,
        items: { type: 'string', enum: LEAN_NAMES },
      },
    },
    tolerance: LIGHTNESS,
    reveal: { type: 'string', enum: ['always', 'submit', 'never'] },
  },
};

/**
 * The error of a lesson that cannot be read. `name` is `LessonError`; `faults` lists every fault with its JSONPath
 * (`values.path`); `message` lists them in English for developers.
 *
 * Codes of faults: those of `documentFaults` under `lesson.…`, and `lesson.not-json-text`, `lesson.ceiling-below-floor`,
 * `lesson.bands-disorder`, `lesson.other-count` (a list that has not one entry for each band).
 */
export class LessonError extends CoreError {
  readonly faults: Reason[];

  constructor(faults: Reason[]) {
    super('LessonError', `The lesson cannot be read: ${faults.map(faultLine).join('; ')}`, {
      count: faults.length,
    });
    this.faults = faults;
  }
}

/** Adds what the schema of a lesson cannot express; the lesson may still be of any shape. */
function addLessonFaults(lesson: unknown, faults: FaultList): void {
  const { bands, required, leans } = (lesson ?? {}) as Record<string, unknown>;
  addBoardFaults({ bands }, '$', faults);
  const count = Array.isArray(bands) ? bands.length : undefined;
  const perBand = (key: string, list: unknown): void => {
    if (Array.isArray(list) && count !== undefined && list.length !== count)
      faults.add('other-count', pathTo('$', key), { found: list.length, bands: count });
  };
  perBand('required', required);
  perBand('leans', leans);
  if (required === undefined || Array.isArray(required) || Number.isInteger(required)) return;
  faults.add('wrong-type', pathTo('$', 'required'), {
    found: typeof required === 'number' ? required : required === null ? 'null' : typeof required,
    expected: 'a whole number or a list of them',
  });
}

/**
 * Reads a lesson from JSON text or from a value of unknown shape.
 *
 * @param value - JSON text of at most 4 000 000 characters, or what `JSON.parse` gave.
 * @returns A lesson that shares nothing with `value`; keys in the order of {@link LESSON_SCHEMA}.
 * @throws {LessonError} listing every fault. Text is never taken for markup.
 */
export function parseLesson(value: unknown): Lesson {
  const { parsed, fault } = readJson(value, 'lesson');
  if (fault) throw new LessonError([fault]);
  const faults = documentFaults(LESSON_SCHEMA, parsed, 'lesson');
  addLessonFaults(parsed, faults);
  if (!faults.empty) throw new LessonError(faults.list());
  return inKeyOrder(LESSON_SCHEMA, parsed) as Lesson;
}

/** The board's bands as a lesson sets them: its tolerance as their spread, and locked. */
export function lessonBands({ bands, tolerance }: Lesson): BoardBand[] {
  return bands.map(({ name, floor, ceiling }) => ({
    name,
    floor,
    ceiling,
    ...(tolerance === undefined ? {} : { spread: tolerance }),
    locked: true,
  }));
}

/** What a lesson asks of each bucket. */
export function lessonNeeds({ bands, required = 1, leans = [] }: Lesson): LessonNeeds {
  const counts = bands.map((_, i) => (Array.isArray(required) ? (required[i] ?? 0) : required));
  return { required: counts, leans: bands.map((_, i) => [...(leans[i] ?? [])]) };
}

/** The lean of a swatch by its Lab, else by its CSS colour; `undefined` when neither is known. */
export function swatchLean({ lab, css }: Pick<BoardSwatch, 'lab' | 'css'>): LeanName | undefined {
  if (lab !== undefined) return leanOf(lab).name;
  if (css === undefined) return undefined;
  try {
    return leanOf(labOf(css)).name;
  } catch {
    return undefined; // no colour that CSS knows
  }
}

/**
 * What the buckets of a board lack, dark to light; in each the number first, then leans in the order in which they are asked for.
 * A swatch counts for one lean, its own. Accents count for the number alone: they sit out on purpose.
 */
export function lacksOf(board: Board, needs: LessonNeeds): Lack[] {
  return lacksBy(board, needs, swatchLean);
}
