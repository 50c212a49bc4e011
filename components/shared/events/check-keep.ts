import type { SavedCheck } from '../core.js';
import { KitEvent } from './kit-event.js';

/** What a person did to the checks that are kept with the plan. */
export type CheckAct = 'keep' | 'note' | 'forget' | 'undo' | 'redo';

/** A person kept a check with the plan, wrote its note or had it forgotten. Type `check-keep`. */
export class CheckKeepEvent extends KitEvent {
  constructor(
    readonly what: CheckAct,
    /** All checks as they stand now, first wash to last. */
    readonly checks: readonly SavedCheck[],
    /** The id of the check that was kept, noted or forgotten; empty for the rest. */
    readonly check = '',
  ) {
    super('check-keep');
  }
}

declare global {
  interface HTMLElementEventMap {
    'check-keep': CheckKeepEvent;
  }
}
