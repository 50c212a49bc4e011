import { wrongType } from '../base/check.js';
import { CoreError, reason, type Reason } from '../base/reason.js';
import {
  DOCUMENT_LIMITS,
  documentFaults,
  faultLine,
  inKeyOrder,
  pathTo,
  type FaultList,
} from '../base/schema.js';
import { addBoardFaults } from '../swatch/parse.js';
import type { Board, BoardBand } from '../swatch/types.js';
import { LEAST_RANGE } from '../value/index.js';
import { withLimits } from './bands.js';
import { standardBoard, startedPlan, STARTING_LIMITS, STARTING_PAPER } from './start.js';
import { PLAN_SCHEMA, PLAN_SCHEMA_NUMBER } from './schema.js';
import type { Plan } from './types.js';

/**
 * The error of a plan that cannot be read or written. `name` is `PlanError`; `faults` lists every fault with its JSONPath
 * (`values.path`); `message` lists them in English for developers.
 *
 * Codes of faults: those of `documentFaults` under `plan.…`, those of a board that `BoardError` names (also under `plan.…`), and
 * `plan.not-json-text`, `plan.schema-newer` (figures `found`, `known`: the plan was made by a later edition of this package),
 * `plan.schema-unknown`, `plan.limits-count` (one fewer than the bands), `plan.limits-disorder`, `plan.paper-limit-below` (the last
 * photo limit), `plan.duplicate-id`, `plan.pressed-below-tip`, `plan.crop-outside`, `plan.duplicate-photo`, `plan.no-such-day`,
 * `plan.range-too-narrow`.
 */
export class PlanError extends CoreError {
  readonly faults: Reason[];

  constructor(faults: Reason[]) {
    super('PlanError', `The plan cannot be read: ${faults.map(faultLine).join('; ')}`, {
      count: faults.length,
    });
    this.faults = faults;
  }
}

/** Turns a plan of one schema number into the next. Takes and gives plain JSON; must not change what it is given. */
export type Migration = (plan: Record<string, unknown>) => Record<string, unknown>;

/** The steps from older forms: the entry under n makes n + 1 of n. Form 1 is the first, so there is none yet. */
export const MIGRATIONS: Readonly<Record<number, Migration>> = {};

/** Brings a plan of an older form up to date; throws a {@link PlanError} when its form is newer than known, or unknown. */
export function migrated(
  value: unknown,
  migrations: Readonly<Record<number, Migration>> = MIGRATIONS,
  newest = PLAN_SCHEMA_NUMBER,
): unknown {
  if (value === null || typeof value !== 'object' || Array.isArray(value)) return value;
  let plan = value as Record<string, unknown>;
  const found = Object.hasOwn(plan, 'schema') ? plan.schema : undefined;
  if (typeof found !== 'number' || !Number.isInteger(found)) return plan;
  if (found > newest)
    throw new PlanError([reason('plan.schema-newer', { path: '$.schema', found, known: newest })]);
  for (let form = found; form < newest; form += 1) {
    const step = Object.hasOwn(migrations, form) ? migrations[form] : undefined;
    if (step === undefined)
      throw new PlanError([
        reason('plan.schema-unknown', { path: '$.schema', found, known: newest }),
      ]);
    plan = step(plan);
  }
  return plan;
}

const listOf = (value: unknown): unknown[] => (Array.isArray(value) ? value : []);
const fieldsOf = (value: unknown): Record<string, unknown> =>
  value !== null && typeof value === 'object' ? (value as Record<string, unknown>) : {};

function addLimitFaults(
  limits: unknown,
  bands: number | undefined,
  path: string,
  faults: FaultList,
): void {
  if (!Array.isArray(limits)) return;
  const expected = bands === undefined ? undefined : Math.max(0, bands - 1);
  if (expected !== undefined && limits.length !== expected)
    faults.add('limits-count', path, { found: limits.length, expected });
  limits.forEach((limit: unknown, i) => {
    const before: unknown = limits[i - 1];
    if (typeof limit === 'number' && typeof before === 'number' && limit <= before)
      faults.add('limits-disorder', pathTo(path, i), { found: limit, before });
  });
}

function addIdFaults(list: unknown, path: string, faults: FaultList): void {
  const seen = new Set<string>();
  listOf(list).forEach((item, i) => {
    const { id } = fieldsOf(item);
    if (typeof id !== 'string') return;
    if (seen.has(id))
      faults.add('duplicate-id', pathTo(pathTo(path, i), 'id'), { id: id.slice(0, 120) });
    seen.add(id);
  });
}

/** What is drawn on one photo: at `path` of the plan for the leading one, under its digest for another. */
function addMarkFaults(marks: Record<string, unknown>, path: string, faults: FaultList): void {
  for (const list of ['distrusted', 'readings', 'focus', 'landmarks'])
    addIdFaults(marks[list], pathTo(path, list), faults);
  const { x, y, width, height } = fieldsOf(marks.crop) as Record<string, number>;
  if (x + width > 1 + 1e-9 || y + height > 1 + 1e-9)
    faults.add('crop-outside', pathTo(path, 'crop'), { x, y, width, height });
}

function addPhotoFaults(photos: unknown, faults: FaultList): void {
  const seen = new Set<unknown>();
  listOf(photos).forEach((photo, i) => {
    const { sha256 } = fieldsOf(photo);
    if (typeof sha256 !== 'string') return;
    if (seen.has(sha256))
      faults.add('duplicate-photo', pathTo('$.photos', i), { found: sha256.slice(0, 64) });
    seen.add(sha256);
  });
}

function addDayFaults(deadline: unknown, faults: FaultList): void {
  if (typeof deadline !== 'string' || !/^\d{4}-\d\d-\d\d$/.test(deadline)) return;
  const [year, month, day] = deadline.split('-').map(Number);
  if (month < 1 || month > 12 || day < 1) return;
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1];
  if (day > days && day <= 31) faults.add('no-such-day', '$.brief.deadline', { found: deadline });
}

function addRangeFaults(range: unknown, faults: FaultList): void {
  const { low, high } = fieldsOf(range);
  if (typeof low === 'number' && typeof high === 'number' && high - low < LEAST_RANGE)
    faults.add('range-too-narrow', '$.range', { low, high });
}

/** The faults of a plan in the newest form; empty when it is sound. */
export function planFaults(value: unknown): Reason[] {
  const faults = documentFaults(PLAN_SCHEMA, value, 'plan');
  const plan = fieldsOf(value);
  const { bands } = fieldsOf(plan.board);
  addBoardFaults(plan.board, '$.board', faults);
  const count = Array.isArray(bands) ? bands.length : undefined;
  addLimitFaults(plan.photoLimits, count, '$.photoLimits', faults);
  addLimitFaults(plan.paintLimits, count, '$.paintLimits', faults);
  const last: unknown = listOf(plan.photoLimits).at(-1);
  if (typeof plan.paperLimit === 'number' && typeof last === 'number' && plan.paperLimit < last) {
    faults.add('paper-limit-below', '$.paperLimit', { found: plan.paperLimit, limit: last });
  }
  for (const list of ['steps', 'borrowed', 'dabs', 'checks'])
    addIdFaults(plan[list], `$.${list}`, faults);
  addIdFaults(fieldsOf(plan.brief).markings, '$.brief.markings', faults);
  addMarkFaults(plan, '$', faults);
  for (const [photo, marks] of Object.entries(fieldsOf(plan.marks)))
    addMarkFaults(fieldsOf(marks), pathTo('$.marks', photo), faults);
  addPhotoFaults(plan.photos, faults);
  addDayFaults(fieldsOf(plan.brief).deadline, faults);
  addRangeFaults(plan.range, faults);
  listOf(plan.brushes).forEach((brush, i) => {
    const { tipMm, pressedMm } = fieldsOf(brush);
    if (typeof tipMm === 'number' && typeof pressedMm === 'number' && pressedMm < tipMm) {
      faults.add('pressed-below-tip', pathTo('$.brushes', i), { tipMm, pressedMm });
    }
  });
  return faults.list();
}

/**
 * Checks a value of unknown shape (as restored from storage) and copies it.
 *
 * @returns A plan that shares nothing with `value`; keys in the order of {@link PLAN_SCHEMA}. Older forms are brought up to date.
 * @throws {PlanError} listing every fault.
 */
export function checkPlan(value: unknown): Plan {
  const plan = migrated(value);
  const faults = planFaults(plan);
  if (faults.length > 0) throw new PlanError(faults);
  return inKeyOrder(PLAN_SCHEMA, plan) as Plan;
}

/**
 * Reads a plan from JSON text.
 *
 * @param json - At most 4 000 000 characters. Unknown keys are faults, except inside `extensions`, `overrules` and `steps`,
 * which are kept as they are. Texts stay plain text.
 * @throws {TypeError} when `json` is no string; {PlanError} listing every fault.
 */
export function parsePlan(json: string): Plan {
  if (typeof json !== 'string') throw wrongType('json', json, 'JSON text');
  if (json.length > DOCUMENT_LIMITS.characters) {
    throw new PlanError([
      reason('plan.too-large', {
        path: '$',
        found: json.length,
        limit: DOCUMENT_LIMITS.characters,
      }),
    ]);
  }
  let value: unknown;
  try {
    value = JSON.parse(json);
  } catch (cause) {
    const found = cause instanceof Error ? cause.message.slice(0, 200) : 'unreadable';
    throw new PlanError([reason('plan.not-json-text', { path: '$', found })]);
  }
  return checkPlan(value);
}

/**
 * Writes a plan as JSON text: keys in the order of {@link PLAN_SCHEMA}, others by code unit, two spaces of indent, a line feed at
 * the end. The same plan always gives the same text, and `serialisePlan(parsePlan(text)) === text` for every text it wrote.
 *
 * @throws {PlanError} when the plan has faults or the text would be longer than {@link parsePlan} accepts.
 */
export function serialisePlan(plan: Plan): string {
  const text = `${JSON.stringify(checkPlan(plan), null, 2)}\n`;
  if (text.length > DOCUMENT_LIMITS.characters) {
    throw new PlanError([
      reason('plan.too-large', {
        path: '$',
        found: text.length,
        limit: DOCUMENT_LIMITS.characters,
      }),
    ]);
  }
  return text;
}

/**
 * A new plan with what a painter would start from; fields of `partial` replace the defaults.
 *
 * Defaults: a quarter sheet lying (381 x 279.4 mm, 15 x 11 in) of L* 95; rounds 12, 8 and 4; three bands, dark, middle and
 * light, with limits at L* 36 and 66. When `partial` gives limits but no board, the board's bands follow `paintLimits`; when it
 * gives only one of the two lists of limits, the other is a copy of it; where it gives a `range` but neither paint limits nor a board,
 * both follow the photo's limits through the range.
 *
 * Sources: sheet size, common trade size. Stroke widths of the brushes: typical values from memory (no standard fixes the width of a
 * brush number). Limits: values 3.5 and 6.5 in ASTM D1535, which part a nine-step scale into three threes (L* 35.6 and 66.0,
 * rounded); parting it so is common practice, no source. L* of dry white paper about 93..97: from memory.
 *
 * The names are English; a page in another language passes a board and brushes of its own.
 *
 * @throws {PlanError} when the result has faults.
 */
export function newPlan(partial: Partial<Plan> = {}): Plan {
  const given = Object.fromEntries(
    Object.entries(partial).filter(([, value]) => value !== undefined),
  ) as Partial<Plan>;
  const { photoLimits = given.board === undefined ? undefined : floorsOf(given.board) } = given;
  const { paintLimits = photoLimits ?? [...STARTING_LIMITS] } = given;
  const { paper = { ...STARTING_PAPER } } = given;
  const plan = checkPlan({
    ...startedPlan(),
    photoLimits: given.photoLimits === undefined ? paintLimits : photoLimits,
    board: standardBoard(listOf(paintLimits) as number[], paper?.lightness),
    ...given,
    paper,
    paintLimits,
  });
  const follows = given.range && !given.paintLimits && !given.board;
  return follows ? withLimits(plan, plan.photoLimits, plan.paperLimit) : plan;
}

/** The floors of all bands but the darkest: the limits of a board that was given without any. */
function floorsOf(board: Board): number[] {
  return (listOf(board?.bands) as BoardBand[]).slice(1).map((band) => band?.floor);
}
