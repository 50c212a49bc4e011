import {
  lightnessOfMunsell,
  startedPlan,
  withBandNamed,
  withLimits,
  type Plan,
} from '../shared/core.js';
import type { PlanStore } from '../shared/plan-store.js';
import { inWords, type Say } from '../shared/usual-bands.js';

/** The bands and limits that a page asks for. */
export interface Dress {
  /** How many bands, 2..5. */
  count: number | null;
  /** Their names, darkest first. */
  names: readonly string[];
  /** L* between them, ascending. */
  limits: number[] | null;
  /** L* from which the paper is left bare. */
  paperLimit: number | null;
}

/**
 * Gives a plan the bands and limits that the page asks for.
 * @param say - words for bands that the page does not name.
 * @throws RangeError | TypeError for limits that do not ascend, do not fit the bands, or bands beyond 2..5
 */
export function dressed(
  store: PlanStore,
  { count, names, limits, paperLimit }: Dress,
  say: Say,
): void {
  const wanted = limits ? limits.length + 1 : (count ?? (names.length || null));
  if (wanted !== null && wanted !== store.plan.board.bands.length) {
    if (!Number.isInteger(wanted) || wanted < 2 || wanted > 5)
      throw new RangeError(`bands is ${wanted}; expected 2 to 5`);
    store.amend('bands', (plan) => withCount(plan, wanted, say));
    if (!limits) store.freeLimits();
  }
  names
    .slice(0, store.plan.board.bands.length)
    .forEach((name, band) => store.amend('bands', (plan) => withBandNamed(plan, band, name)));
  if (limits) store.fixLimits(limits, paperLimit ?? undefined);
}

/** The plan with so many bands of even width in value, with plain names. */
function withCount(plan: Plan, count: number, say: Say): Plan {
  const even = Array.from({ length: count - 1 }, (_, i) =>
    lightnessOfMunsell((10 * (i + 1)) / count),
  );
  const { board, photoLimits, paintLimits } = inWords(startedPlan(even), say);
  return withLimits(
    { ...plan, photoLimits, paintLimits, board: { ...plan.board, bands: board.bands } },
    even,
  );
}
