import type { Plan } from '../core.js';
import { KitEvent } from './kit-event.js';

/** A person changed the plan, in whichever element. Type `plan-change`. */
export class PlanChangeEvent extends KitEvent {
  constructor(
    /** The plan as it is now; immutable. */
    readonly plan: Plan,
    /** What was done: a change's own name, `undo` or `redo`. */
    readonly what: string,
  ) {
    super('plan-change');
  }
}

declare global {
  interface HTMLElementEventMap {
    'plan-change': PlanChangeEvent;
  }
}
