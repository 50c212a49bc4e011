import type { SheetReading } from '../core.js';
import { KitEvent } from './kit-event.js';

/** A photographed test sheet was read: after it was opened, or anew after a person moved its corners. Type `sheet-read`. */
export class SheetReadEvent extends KitEvent {
  constructor(
    /** Corners, dabs, warnings; places in pixels of the upright photo. */
    readonly reading: SheetReading,
  ) {
    super('sheet-read');
  }
}

declare global {
  interface HTMLElementEventMap {
    'sheet-read': SheetReadEvent;
  }
}
