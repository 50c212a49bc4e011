import { expectNumber, expectObject } from '../base/check.js';
import { CoreError, reason, type Reason } from '../base/reason.js';
import {
  documentFaults,
  faultLine,
  inKeyOrder,
  type FaultList,
  type Schema,
} from '../base/schema.js';
import { lightnessOf, type LeanName } from '../colour/index.js';
import { judgeBoard } from './judge.js';
import { readJson } from './json.js';
import type { Lack } from './lacks.js';
import {
  lacksOf,
  LEAN_NAMES,
  lessonBands,
  lessonNeeds,
  swatchLean,
  type Lesson,
} from './lesson.js';
import { addBoardFaults } from './parse.js';
import { BOARD_SCHEMA } from './schema.js';
import type { Board, BoardBand, BoardVerdict, SwatchVerdictKind } from './types.js';

/** A board as it was handed in: the value of a board in a form, with the student's name put in by the page. */
export interface Submission {
  schema: 1;
  /** The student's name or pseudonym, plain text; absent when the page put none in. */
  student?: string;
  /** The lesson's title; empty for a board without a lesson. */
  lesson?: string;
  board: Board;
  /** What the sender says was judged. Never trusted. */
  verdict?: unknown;
  /** What the sender says is lacking. Never trusted. */
  lacks?: unknown;
  /** 1 for the first time this student hands this lesson in; 1 when absent. */
  attempt?: number;
  /** When: an instant as `2026-01-31T12:00:00Z` (RFC 3339, UTC). */
  made?: string;
}

/**
 * The form of a submission as JSON (JSON Schema, draft 2020-12); beyond it the board's own rules. Fields of other names are let
 * pass and left aside.
 */
export const SUBMISSION_SCHEMA: Schema = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title: 'Board of swatches as handed in',
  type: 'object',
  required: ['schema', 'board'],
  properties: {
    schema: { type: 'integer', const: 1 },
    student: { type: 'string', maxLength: 120 },
    lesson: { type: 'string', maxLength: 300 },
    board: BOARD_SCHEMA,
    verdict: {},
    lacks: {},
    attempt: { type: 'integer', minimum: 1, maximum: 1000 },
    made: {
      type: 'string',
      pattern:
        '^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])T([01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9](\\.[0-9]{1,9})?Z$',
      description: 'an instant as 2026-01-31T12:00:00Z',
    },
  },
};

/**
 * The error of a submission that cannot be read. `name` is `SubmissionError`; `faults` lists every fault with its JSONPath
 * (`values.path`); `message` lists them in English for developers.
 *
 * Codes of faults: those of `documentFaults` under `submission.…`, `submission.not-json-text`, `submission.no-bands` (a board
 * without bands), and the board's own: `submission.ceiling-below-floor`, `.bands-disorder`, `.no-such-bucket`, `.duplicate-id`.
 */
export class SubmissionError extends CoreError {
  readonly faults: Reason[];

  constructor(faults: Reason[]) {
    super('SubmissionError', `The submission cannot be read: ${faults.map(faultLine).join('; ')}`, {
      count: faults.length,
    });
    this.faults = faults;
  }
}

/** Every finding about a submission, with the names of its figures. */
export const MARKING_CODES = {
  /** The verdict handed in says `said` of the swatch `swatch`; judged anew it is `found`. */
  'marking.verdict-differs': ['swatch', 'said', 'found'],
  /** No verdict was handed in for `count` swatches. */
  'marking.verdict-missing': ['count'],
  /** It names `count` swatches that are not on the board. */
  'marking.verdict-of-none': ['count'],
  /** What was handed in says that `said` things are lacking; `found` are. */
  'marking.lacks-differ': ['said', 'found'],
  /** The swatch `swatch` is handed in as L* `lightness`, but its colour is L* `shown`. */
  'marking.colour-differs': ['swatch', 'lightness', 'shown'],
  /** Handed in for the lesson `said`, marked as `found`. */
  'marking.other-lesson': ['said', 'found'],
  /** The bands are not those of the lesson; where there are as many of them, it is judged by the lesson's. */
  'marking.other-bands': ['found', 'expected'],
} as const satisfies Record<string, readonly string[]>;

/** A code of {@link MARKING_CODES}. */
export type MarkingCode = keyof typeof MARKING_CODES;

/** How a submission is marked. */
export interface MarkingOptions {
  /** The lesson: its bands and needs are what counts. Without one a board is judged by its own bands and lacks nothing. */
  lesson?: Lesson;
  /** L* (0..100) of the bare paper that wet swatches dry on, 95 when absent. */
  paper?: number;
}

/** A marked submission. */
export interface Marked {
  /** Empty when it bears no name. */
  student: string;
  attempt: number;
  /** The lesson's title as handed in. */
  lesson: string;
  made?: string;
  /** The board as judged: with the lesson's bands where it has as many. */
  board: Board;
  /** Judged anew. */
  verdict: BoardVerdict;
  /** Counted anew; empty without a lesson. */
  lacks: Lack[];
  /** Swatches too dark or too light. */
  faults: number;
  /** What in the submission does not hold: codes of {@link MARKING_CODES}. */
  findings: Reason[];
}

const found = (code: MarkingCode, values: Record<string, string | number>): Reason =>
  reason(code, values);

/** L* by which a swatch's lightness may differ from that of its colour: a colour of 8 bits is within half a step of L*. */
const COLOUR_TOLERANCE = 1;

/**
 * Reads a submission from JSON text or from a value of unknown shape.
 *
 * @param value - JSON text of at most 4 000 000 characters, or what `JSON.parse` gave.
 * @returns A submission that shares nothing with `value`.
 * @throws {SubmissionError} listing every fault. Text is never taken for markup.
 */
export function parseSubmission(value: unknown): Submission {
  const { parsed, fault } = readJson(value, 'submission');
  if (fault) throw new SubmissionError([fault]);
  const faults = documentFaults(SUBMISSION_SCHEMA, parsed, 'submission');
  addSubmissionFaults(parsed, faults);
  if (!faults.empty) throw new SubmissionError(faults.list());
  const all = inKeyOrder(SUBMISSION_SCHEMA, parsed) as Record<string, unknown>;
  const known = Object.keys(SUBMISSION_SCHEMA.properties!).filter((key) => key in all);
  return Object.fromEntries(known.map((key) => [key, all[key]])) as unknown as Submission;
}

function addSubmissionFaults(submission: unknown, faults: FaultList): void {
  const { board } = (submission ?? {}) as { board?: unknown };
  addBoardFaults(board, '$.board', faults);
  const { bands } = (board ?? {}) as { bands?: unknown };
  if (Array.isArray(bands) && bands.length === 0) faults.add('no-bands', '$.board.bands');
}

/**
 * Marks a submission: the board is judged anew, and everything that the sender said of it is compared with that.
 *
 * @param json - JSON text, or what `JSON.parse` gave.
 * @throws {SubmissionError} when it cannot be read.
 * @throws {RangeError | TypeError} when `options.paper` is no L*.
 */
export function markSubmission(json: unknown, options: MarkingOptions = {}): Marked {
  expectObject('options', options);
  const { lesson, paper = 95 } = options;
  expectNumber('options.paper', paper, 0, 100);
  const submission = parseSubmission(json);
  const board = lesson ? underLesson(submission.board, lesson) : submission.board;
  const verdict = judgeBoard(board, { paper });
  const lacks = lesson ? lacksOf(board, lessonNeeds(lesson)) : [];
  return {
    student: (submission.student ?? '').normalize('NFC').trim(),
    attempt: submission.attempt ?? 1,
    lesson: submission.lesson ?? '',
    ...(submission.made === undefined ? {} : { made: submission.made }),
    board,
    verdict,
    lacks,
    faults: verdict.swatches.filter((each) => isFault(each.verdict)).length,
    findings: [
      ...(lesson ? lessonFindings(submission, lesson, lacks) : []),
      ...verdictFindings(submission.verdict, verdict),
      ...colourFindings(board),
    ],
  };
}

const isFault = (verdict: SwatchVerdictKind): boolean =>
  verdict === 'too-dark' || verdict === 'too-light';

/** The board by the lesson's bands; by its own where there are fewer or more of them. */
function underLesson(board: Board, lesson: Lesson): Board {
  const bands = lessonBands(lesson);
  return bands.length === board.bands.length ? { ...board, bands } : board;
}

function lessonFindings(
  { lesson: title = '', board, lacks: said }: Submission,
  lesson: Lesson,
  lacks: readonly Lack[],
): Reason[] {
  const findings: Reason[] = [];
  if (title !== lesson.title)
    findings.push(found('marking.other-lesson', { said: title, found: lesson.title }));
  if (!sameBands(board.bands, lessonBands(lesson))) {
    const values = { found: board.bands.length, expected: lesson.bands.length };
    findings.push(found('marking.other-bands', values));
  }
  if (said !== undefined && (!Array.isArray(said) || !sameLacks(said, lacks))) {
    const count = Array.isArray(said) ? said.length : 0;
    findings.push(found('marking.lacks-differ', { said: count, found: lacks.length }));
  }
  return findings;
}

function sameBands(a: readonly BoardBand[], b: readonly BoardBand[]): boolean {
  const told = (bands: readonly BoardBand[]): string =>
    JSON.stringify(bands.map(({ name, floor, ceiling }) => [name, floor, ceiling]));
  return told(a) === told(b);
}

function sameLacks(said: readonly unknown[], lacks: readonly Lack[]): boolean {
  const told = (each: unknown): string => {
    const { bucket, lean, found, required } = (each ?? {}) as Record<string, unknown>;
    return JSON.stringify([bucket, lean, found, required]);
  };
  return JSON.stringify(said.map(told)) === JSON.stringify(lacks.map(told));
}

/** What a verdict that was handed in says otherwise than the one judged anew. */
function verdictFindings(said: unknown, verdict: BoardVerdict): Reason[] {
  const list = (said as { swatches?: unknown } | null | undefined)?.swatches;
  const told = new Map<unknown, unknown>();
  for (const each of Array.isArray(list) ? list : []) {
    const { id, verdict: kind } = (each ?? {}) as { id?: unknown; verdict?: unknown };
    told.set(id, kind);
  }
  const missing = verdict.swatches.filter(({ id }) => !told.has(id)).length;
  const known = new Set<unknown>(verdict.swatches.map(({ id }) => id));
  const ofNone = [...told.keys()].filter((id) => !known.has(id)).length;
  return [
    ...verdict.swatches
      .filter(({ id, verdict: kind }) => told.has(id) && told.get(id) !== kind)
      .map(({ id, verdict: kind }) =>
        found('marking.verdict-differs', { swatch: id, said: short(told.get(id)), found: kind }),
      ),
    ...(missing > 0 ? [found('marking.verdict-missing', { count: missing })] : []),
    ...(ofNone > 0 ? [found('marking.verdict-of-none', { count: ofNone })] : []),
  ];
}

const short = (value: unknown): string => (typeof value === 'string' ? value.slice(0, 40) : '?');

/** Swatches whose lightness is not that of their own colour. The colour of a mix may lie outside what CSS shows: left aside. */
function colourFindings({ swatches }: Board): Reason[] {
  return swatches.flatMap(({ id, css, lightness, uncertainty = 0, from }) => {
    if (css === undefined || from === 'mix') return [];
    try {
      const shown = lightnessOf(css);
      return Math.abs(shown - lightness) > COLOUR_TOLERANCE + uncertainty
        ? [found('marking.colour-differs', { swatch: id, lightness, shown })]
        : [];
    } catch {
      return []; // no colour that CSS knows: there is nothing to compare with
    }
  });
}

/** A student's attempts in order, and what became better from the first to the last. */
export interface StudentReport {
  student: string;
  /** By `attempt`, ascending. */
  attempts: Marked[];
  /** Swatches at fault in the first and in the last attempt; absent with one attempt. */
  improvement?: { before: number; after: number };
}

/** A swatch at fault, with whose it is. */
export interface MistakenSwatch {
  student: string;
  id: string;
  name?: string;
  css?: string;
  /** L* as handed in. */
  lightness: number;
  /** L* that it has to move to be in order, 0 or more. */
  off: number;
}

/** Swatches of one band and lean that are wrong in the same way. */
export interface CommonMistake {
  bucket: number;
  /** The band's name. */
  band: string;
  /** `unknown`: the swatch has neither Lab nor a CSS colour. */
  lean: LeanName | 'unknown';
  verdict: 'too-dark' | 'too-light';
  /** Swatches in the students' first attempts. */
  count: number;
  /** Students who made it in their first attempt. */
  students: number;
  /** Swatches in the last attempts: what still stands. */
  left: number;
  /** Mean of `off` over those of the first attempts (of the last ones where the first have none). */
  meanOff: number;
  /** Those of the first attempts (of the last ones where the first have none), the farthest off first. */
  swatches: MistakenSwatch[];
}

/** What a class handed in. */
export interface ClassReport {
  /** By name, numbers in names by size. */
  perStudent: StudentReport[];
  /** The most frequent first. */
  commonMistakes: CommonMistake[];
  /** Students with more than one attempt: their swatches at fault in the first and in the last, and how many got better. */
  improvement: {
    students: number;
    before: number;
    after: number;
    better: number;
    same: number;
    worse: number;
  };
  /** Submissions left aside: the same student and attempt, made earlier than the one that counts. */
  repeated: Marked[];
}

/**
 * Brings a class's submissions together.
 *
 * Of two with the same student and attempt the one made last counts (without `made`: the later one in the list). Common mistakes
 * are counted over first attempts, so that nobody counts twice; `left` counts the last attempts (of one attempt: the same one).
 *
 * @param submissions - What {@link markSubmission} gave, or submissions to be marked.
 * @param options - As for {@link markSubmission}; not used for what is marked already.
 * @throws {SubmissionError} when a submission that is yet to be marked cannot be read.
 */
export function classReport(
  submissions: readonly (Marked | Submission)[],
  options: MarkingOptions = {},
): ClassReport {
  const marked = submissions.map((each) =>
    'findings' in each ? each : markSubmission(each, options),
  );
  const { counted, repeated } = lastMade(marked);
  const names = [...new Set(counted.map(({ student }) => student))].sort(byName);
  const perStudent = names.map((student): StudentReport => {
    const attempts = counted
      .filter((each) => each.student === student)
      .sort((a, b) => a.attempt - b.attempt);
    if (attempts.length < 2) return { student, attempts };
    const improvement = { before: attempts[0].faults, after: attempts.at(-1)!.faults };
    return { student, attempts, improvement };
  });
  return {
    perStudent,
    commonMistakes: commonMistakes(perStudent),
    improvement: improvementOf(perStudent),
    repeated,
  };
}

function byName(a: string, b: string): number {
  return a.localeCompare(b, 'en', { numeric: true }) || (a < b ? -1 : 1);
}

function lastMade(marked: readonly Marked[]): { counted: Marked[]; repeated: Marked[] } {
  const last = new Map<string, Marked>();
  const repeated: Marked[] = [];
  for (const each of marked) {
    const key = JSON.stringify([each.student, each.attempt]);
    const other = last.get(key);
    const older = other !== undefined && instant(each) < instant(other);
    if (other !== undefined) repeated.push(older ? each : other);
    if (!older) last.set(key, each);
  }
  return { counted: [...last.values()], repeated };
}

/** Milliseconds; what bears no time, or an impossible one, is the oldest. */
function instant({ made }: Marked): number {
  const time = made === undefined ? NaN : Date.parse(made);
  return Number.isNaN(time) ? -Infinity : time;
}

function improvementOf(perStudent: readonly StudentReport[]): ClassReport['improvement'] {
  const pairs = perStudent.flatMap(({ improvement }) => (improvement ? [improvement] : []));
  const sum = (key: 'before' | 'after'): number =>
    pairs.reduce((total, pair) => total + pair[key], 0);
  return {
    students: pairs.length,
    before: sum('before'),
    after: sum('after'),
    better: pairs.filter(({ before, after }) => after < before).length,
    same: pairs.filter(({ before, after }) => after === before).length,
    worse: pairs.filter(({ before, after }) => after > before).length,
  };
}

/** A swatch at fault, with the group that it belongs to. */
interface Mistake extends MistakenSwatch {
  key: string;
  bucket: number;
  band: string;
  lean: LeanName | 'unknown';
  verdict: 'too-dark' | 'too-light';
}

function mistakesOf({ student, board, verdict }: Marked): Mistake[] {
  return board.swatches.flatMap((swatch, i): Mistake[] => {
    const { verdict: kind, margin } = verdict.swatches[i];
    if (kind !== 'too-dark' && kind !== 'too-light') return [];
    const { id, bucket, lightness, name, css } = swatch;
    const band = board.bands[bucket].name;
    const lean = swatchLean(swatch) ?? 'unknown';
    return [
      {
        key: JSON.stringify([bucket, band, lean, kind]),
        bucket,
        band,
        lean,
        verdict: kind,
        student,
        id,
        ...(name === undefined ? {} : { name }),
        ...(css === undefined ? {} : { css }),
        lightness,
        off: Math.max(0, -margin),
      },
    ];
  });
}

const LEAN_ORDER: readonly string[] = [...LEAN_NAMES, 'unknown'];

function commonMistakes(perStudent: readonly StudentReport[]): CommonMistake[] {
  const first = perStudent.flatMap(({ attempts }) => mistakesOf(attempts[0]));
  const last = perStudent.flatMap(({ attempts }) => mistakesOf(attempts.at(-1)!));
  const keys = [...new Set([...first, ...last].map(({ key }) => key))];
  return keys
    .map((key): CommonMistake => {
      const inFirst = first.filter((each) => each.key === key);
      const inLast = last.filter((each) => each.key === key);
      const shown = inFirst.length > 0 ? inFirst : inLast;
      const { bucket, band, lean, verdict } = shown[0];
      return {
        bucket,
        band,
        lean,
        verdict,
        count: inFirst.length,
        students: new Set(inFirst.map(({ student }) => student)).size,
        left: inLast.length,
        meanOff: shown.reduce((sum, { off }) => sum + off, 0) / shown.length,
        swatches: [...shown].sort((a, b) => b.off - a.off).map(swatchOf),
      };
    })
    .sort(
      (a, b) =>
        b.count - a.count ||
        b.left - a.left ||
        a.bucket - b.bucket ||
        LEAN_ORDER.indexOf(a.lean) - LEAN_ORDER.indexOf(b.lean) ||
        (a.verdict < b.verdict ? -1 : 1),
    );
}

function swatchOf({ student, id, name, css, lightness, off }: Mistake): MistakenSwatch {
  return {
    student,
    id,
    ...(name === undefined ? {} : { name }),
    ...(css === undefined ? {} : { css }),
    lightness,
    off,
  };
}
