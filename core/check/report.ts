import { reason, type Reason } from '../base/reason.js';
import type { Comparison } from './types.js';
import type { Island } from './islands.js';
import type { FromAfar } from './similarity.js';

/**
 * The whole painting in one finding, for the head of a check: `check.as-planned` { agreement }, `check.differs` { agreement, masses } or
 * `check.far-off` { agreement, masses }, agreement in percent of the compared area, masses that are off by a step that shows;
 * `check.nothing-yet`: no mass is meant to be done. Then, where there are any: `check.lost-reserves` { count },
 * `check.islands` { count, now, later } (how many a unifying glaze would take in now or later),
 * `check.reads` { similarity } / `check.reads-nearly` { similarity } / `check.reads-not` { similarity } (percent).
 */
export function summaryOf(
  comparison: Comparison,
  islands: readonly Island[],
  afar?: FromAfar,
): Reason[] {
  const { agreement, kappa, compared, corrections, lostReserves } = comparison;
  const percent = (share: number): number => Math.round(100 * share);
  const masses = corrections.filter(({ shift }) => Math.abs(shift) >= SHOWS).length;
  const figures = { agreement: percent(agreement), masses };
  const found: Reason[] = [];
  if (compared === 0) found.push(reason('check.nothing-yet'));
  else if (masses === 0 && kappa >= SUBSTANTIAL)
    found.push(reason('check.as-planned', { agreement: figures.agreement }));
  else found.push(reason(kappa >= MODERATE ? 'check.differs' : 'check.far-off', figures));
  if (lostReserves.length > 0)
    found.push(reason('check.lost-reserves', { count: lostReserves.length }));
  if (islands.length > 0)
    found.push(
      reason('check.islands', {
        count: islands.length,
        now: islands.filter(({ glaze }) => glaze === 'now').length,
        later: islands.filter(({ glaze }) => glaze === 'later').length,
      }),
    );
  if (afar) {
    const code = { well: 'check.reads', nearly: 'check.reads-nearly', not: 'check.reads-not' };
    found.push(reason(code[afar.reads], { similarity: percent(afar.similarity) }));
  }
  return found;
}

/** Shift from which a mass counts as off, L*; as in the advice. */
const SHOWS = 3;
/** Landis & Koch 1977, "The measurement of observer agreement for categorical data": kappa above .60 substantial, above .40 moderate. */
const SUBSTANTIAL = 0.6;
const MODERATE = 0.4;
