import { KitEvent } from './kit-event.js';

/** The plan was kept in the browser. Type `plan-saved`. */
export class PlanSavedEvent extends KitEvent {
  constructor(
    /** When. */
    readonly saved: Date,
    /** The key it is kept under: another one than asked for when two pages had changed the same plan. */
    readonly key: string,
  ) {
    super('plan-saved');
  }
}

declare global {
  interface HTMLElementEventMap {
    'plan-saved': PlanSavedEvent;
  }
}
