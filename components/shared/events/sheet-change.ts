import type { SheetReading } from '../core.js';
import { KitEvent } from './kit-event.js';

/** What a person did to the dabs of a sheet. `note`: name, recipe, wetness or pair of a dab; `wet`: the wetness of the sheet. */
export type SheetAct =
  'move' | 'join' | 'part' | 'drop' | 'add' | 'column' | 'note' | 'wet' | 'undo' | 'redo';

/** A person put right what was read from a test sheet. Type `sheet-change`. */
export class SheetChangeEvent extends KitEvent {
  constructor(
    /** The reading with the dabs as the person has them; places in pixels of the upright photo. */
    readonly reading: SheetReading,
    readonly what: SheetAct,
  ) {
    super('sheet-change');
  }
}

declare global {
  interface HTMLElementEventMap {
    'sheet-change': SheetChangeEvent;
  }
}
