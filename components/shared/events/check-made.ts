import type { CheckReport } from '../core.js';
import { KitEvent } from './kit-event.js';

/** A person had the painting checked, and it was done. Type `check-made`. */
export class CheckMadeEvent extends KitEvent {
  constructor(
    /** What was found. */
    readonly report: CheckReport,
  ) {
    super('check-made');
  }
}

declare global {
  interface HTMLElementEventMap {
    'check-made': CheckMadeEvent;
  }
}
