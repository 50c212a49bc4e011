import type { BoardSwatch, Dab } from '../core.js';
import { KitEvent } from './kit-event.js';

/** A person sent what was read from a test sheet to the plan, which has it now. Type `sheet-send`. */
export class SheetSendEvent extends KitEvent {
  constructor(
    /** The swatches as they were put on the plan's board. */
    readonly swatches: readonly BoardSwatch[],
    /** The dabs as the plan remembers them. */
    readonly dabs: readonly Dab[],
  ) {
    super('sheet-send');
  }
}

declare global {
  interface HTMLElementEventMap {
    'sheet-send': SheetSendEvent;
  }
}
