import type { BoardSwatch } from '../core.js';
import { KitEvent } from './kit-event.js';

/** A person sent a reading to the board, which has it now as a swatch of its band. Type `reading-send`. */
export class ReadingSendEvent extends KitEvent {
  constructor(
    /** The swatch as it was put on the plan's board. */
    readonly swatch: BoardSwatch,
  ) {
    super('reading-send');
  }
}

declare global {
  interface HTMLElementEventMap {
    'reading-send': ReadingSendEvent;
  }
}
