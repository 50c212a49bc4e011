import { expectInteger, expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import type { Board, BoardBand } from '../swatch/types.js';
import { rangeMapOf } from './range.js';
import type { Plan, PlanRange } from './types.js';

/** The most bands that the elements offer; the core itself takes up to nine. */
export const MOST_BANDS = 5;
/** The least L* between two limits. */
export const LEAST_STEP = 1;

/** Whether two plans have the same limits, bare paper included. */
export function sameLimits(a: Plan, b: Plan): boolean {
  const same = (p: readonly number[], q: readonly number[]): boolean =>
    p === q || (p.length === q.length && p.every((limit, i) => limit === q[i]));
  return same(a.photoLimits, b.photoLimits) && a.paperLimit === b.paperLimit;
}

/**
 * The plan with other limits in the photo; those of the paint follow by the plan's `range` (without one they are equal) and so do
 * the floors and ceilings of the board's bands, which are paint, inside 0..L* of the paper. The names of the bands stay.
 *
 * @param limits - L* ascending, one fewer than the board has bands.
 * @param paperLimit - L* in the photo from which bare paper is left; above the last limit. `undefined`: none is left.
 * @throws {RangeError} when the count differs or the limits do not ascend.
 */
export function withLimits(plan: Plan, limits: readonly number[], paperLimit?: number): Plan {
  const { bands } = plan.board;
  if (!Array.isArray(limits)) throw wrongType('limits', limits, 'a list of L*');
  if (limits.length !== bands.length - 1)
    throw outOfRange('limits', limits, `${bands.length - 1} limits for ${bands.length} bands`);
  limits.forEach((limit, i) => {
    expectNumber(`limits[${i}]`, limit, 0, 100);
    if (i > 0 && limit <= limits[i - 1]) throw outOfRange('limits', limits, 'limits that ascend');
  });
  if (paperLimit !== undefined) expectNumber('paperLimit', paperLimit, limits.at(-1) ?? 0, 100);
  const { toPaint } = rangeMapOf(plan);
  const paintLimits = limits.map(toPaint);
  const next: Plan = {
    ...plan,
    photoLimits: [...limits],
    paintLimits,
    board: { ...plan.board, bands: fitted(bands, paintLimits, plan.paper.lightness) },
  };
  if (paperLimit === undefined) delete next.paperLimit;
  else next.paperLimit = paperLimit;
  return sameLimits(plan, next) &&
    paintLimits.every((limit, i) => limit === plan.paintLimits[i]) &&
    bands.every(
      (band, i) =>
        band.floor === next.board.bands[i].floor && band.ceiling === next.board.bands[i].ceiling,
    )
    ? plan
    : next;
}

/**
 * The plan with another range (or none): paint limits and the floors and ceilings of the board's bands follow. Swatches are paint and
 * stay as they are. Call it with the plan's own range after its paper has changed.
 *
 * @throws {RangeError} when the range is less than 1 L* wide in the photo, or a figure is out of its range.
 */
export function withRange(plan: Plan, range: PlanRange | undefined): Plan {
  const { range: before, ...rest } = plan;
  if (range !== undefined) expectObject('range', range);
  const same =
    range === before ||
    (range !== undefined &&
      before !== undefined &&
      range.low === before.low &&
      range.high === before.high &&
      range.holding === before.holding &&
      range.darkest === before.darkest);
  const next = same ? plan : range === undefined ? rest : { ...rest, range: { ...range } };
  return withLimits(next, plan.photoLimits, plan.paperLimit);
}

/**
 * The plan with another board, which is paint: its limits in paint are the floors of the board's bands, those in the photo what comes
 * to lie there. Floors that nothing in the photo comes to leave {@link LEAST_STEP} between the photo's limits at that end. A limit of
 * the paper that is not above the others goes.
 */
export function withBoard(plan: Plan, board: Board): Plan {
  const floors = board.bands.slice(1).map(({ floor }) => floor);
  const { paintLimits, paper } = plan;
  const same =
    paintLimits.length === floors.length &&
    paintLimits.every((limit, i) => Math.min(limit, paper.lightness) === floors[i]);
  if (same) return { ...plan, board };
  const photoLimits = floors.map(rangeMapOf(plan).toPhoto);
  for (let i = 1; i < photoLimits.length; i++)
    if (photoLimits[i] <= photoLimits[i - 1]) photoLimits[i] = photoLimits[i - 1] + LEAST_STEP;
  let above = 100 + LEAST_STEP;
  for (let i = photoLimits.length - 1; i >= 0; i--) {
    if (photoLimits[i] >= above || photoLimits[i] > 100) photoLimits[i] = above - LEAST_STEP;
    above = photoLimits[i];
  }
  const next: Plan = { ...plan, board, photoLimits, paintLimits: floors };
  if (next.paperLimit !== undefined && next.paperLimit <= (photoLimits.at(-1) ?? 0))
    delete next.paperLimit;
  return next;
}

/** The plan with one limit (or, at the index after the last, the paper's) moved as far as its neighbours allow. */
export function withLimitMoved(plan: Plan, index: number, lightness: number): Plan {
  const { photoLimits, paperLimit } = plan;
  expectInteger('index', index, 0, photoLimits.length);
  const low = index === 0 ? 0 : photoLimits[index - 1] + LEAST_STEP;
  if (index === photoLimits.length)
    return withLimits(plan, photoLimits, clamp(lightness, low, 100));
  const high = (photoLimits[index + 1] ?? paperLimit ?? 101) - LEAST_STEP;
  const limits = photoLimits.slice();
  limits[index] = clamp(lightness, Math.min(low, high), Math.min(high, 100));
  return withLimits(plan, limits, paperLimit);
}

/**
 * The plan with a band split in two at `lightness` of the photo (the middle of the band when missing). Its swatches go to the half
 * that they lie in; the new band is the darker half.
 *
 * @throws {RangeError} when there are {@link MOST_BANDS} already or the band is too narrow to split.
 */
export function withBandAdded(plan: Plan, band: number, name: string, lightness?: number): Plan {
  const { photoLimits, board } = plan;
  if (board.bands.length >= MOST_BANDS)
    throw outOfRange('bands', board.bands.length + 1, `at most ${MOST_BANDS} bands`);
  expectInteger('band', band, 0, board.bands.length - 1);
  const low = photoLimits[band - 1] ?? 0;
  const high = photoLimits[band] ?? plan.paperLimit ?? 100;
  if (high - low < 2 * LEAST_STEP)
    throw outOfRange('band', band, `a band at least ${2 * LEAST_STEP} L* wide`);
  const at = clamp(lightness ?? (low + high) / 2, low + LEAST_STEP, high - LEAST_STEP);
  const limits = [...photoLimits.slice(0, band), at, ...photoLimits.slice(band)];
  const inPaint = rangeMapOf(plan).toPaint(at);
  const fresh: BoardBand = { name, floor: low, ceiling: at };
  const bands = [...board.bands.slice(0, band), fresh, ...board.bands.slice(band)];
  const swatches = board.swatches.map((swatch) => {
    const stays = swatch.bucket < band || (swatch.bucket === band && swatch.lightness < inPaint);
    return stays ? swatch : { ...swatch, bucket: swatch.bucket + 1 };
  });
  return withLimits({ ...plan, board: { ...board, bands, swatches } }, limits, plan.paperLimit);
}

/**
 * The plan without a band: it joins the lighter neighbour (the darker one when it is the lightest), with its swatches.
 *
 * @throws {RangeError} when only two bands are left.
 */
export function withBandRemoved(plan: Plan, band: number): Plan {
  const { photoLimits, board } = plan;
  if (board.bands.length <= 2)
    throw outOfRange('bands', board.bands.length - 1, 'at least 2 bands');
  expectInteger('band', band, 0, board.bands.length - 1);
  const limit = band === board.bands.length - 1 ? band - 1 : band;
  const limits = photoLimits.filter((_, i) => i !== limit);
  const bands = board.bands.filter((_, i) => i !== band);
  const swatches = board.swatches.map((swatch) =>
    swatch.bucket > limit ? { ...swatch, bucket: swatch.bucket - 1 } : swatch,
  );
  return withLimits({ ...plan, board: { ...board, bands, swatches } }, limits, plan.paperLimit);
}

/** The plan with another name for a band. */
export function withBandNamed(plan: Plan, band: number, name: string): Plan {
  expectInteger('band', band, 0, plan.board.bands.length - 1);
  if (plan.board.bands[band].name === name) return plan;
  const bands = plan.board.bands.map((each, i) => (i === band ? { ...each, name } : each));
  return { ...plan, board: { ...plan.board, bands } };
}

/** The band (0 is the darkest) that a lightness of the photo falls in; `bands` means bare paper. */
export function bandAt(plan: Plan, lightness: number): number {
  if (plan.paperLimit !== undefined && lightness >= plan.paperLimit) return plan.board.bands.length;
  return plan.photoLimits.filter((limit) => lightness >= limit).length;
}

/** Bands with floors and ceilings that meet at the limits, inside 0..paper. */
function fitted(
  bands: readonly BoardBand[],
  limits: readonly number[],
  paper: number,
): BoardBand[] {
  const borders = [0, ...limits.map((limit) => Math.min(limit, paper)), paper];
  return bands.map((band, i) =>
    band.floor === borders[i] && band.ceiling === borders[i + 1]
      ? band
      : { ...band, floor: borders[i], ceiling: borders[i + 1] },
  );
}

const clamp = (value: number, low: number, high: number): number =>
  Math.min(high, Math.max(low, value));
