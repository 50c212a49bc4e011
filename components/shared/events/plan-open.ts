import type { Plan } from '../core.js';
import { KitEvent } from './kit-event.js';

/** A person took up another plan: from the list, a new one, or one from a file. Type `plan-open`. */
export class PlanOpenEvent extends KitEvent {
  constructor(
    /** The key it is kept under, now the element's `name`. */
    readonly key: string,
    readonly plan: Plan,
  ) {
    super('plan-open');
  }
}

declare global {
  interface HTMLElementEventMap {
    'plan-open': PlanOpenEvent;
  }
}
