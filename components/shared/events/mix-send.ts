import type { BoardSwatch } from '../core.js';
import { KitEvent } from './kit-event.js';

/** A person sent one mix or a whole family to the board, which has them now as swatches. Type `mix-send`. */
export class MixSendEvent extends KitEvent {
  constructor(
    /** The swatches as they were put on the plan's board, each with its recipe. */
    readonly swatches: readonly BoardSwatch[],
  ) {
    super('mix-send');
  }
}

declare global {
  interface HTMLElementEventMap {
    'mix-send': MixSendEvent;
  }
}
