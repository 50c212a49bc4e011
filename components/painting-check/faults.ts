import { reason, type Reason } from '../shared/core.js';
import { reasonOf } from '../shared/plan-store.js';

/** What was thrown as a reason, with its message where it has no words of its own. */
export function faultOf(thrown: unknown): Reason {
  const found = reasonOf(thrown);
  return found.values.message === undefined && thrown instanceof Error
    ? reason(found.code, { ...found.values, message: thrown.message })
    : found;
}
