import type { ShelfTube } from '../core.js';
import { KitEvent } from './kit-event.js';

/** What a person did to the shelf. `sold`: whether the work will be sold; `fit`: the strength of a tube. */
export type ShelfAct = 'add' | 'remove' | 'fit' | 'sold' | 'undo';

/** A person changed the shelf. Type `shelf-change`. */
export class ShelfChangeEvent extends KitEvent {
  constructor(
    /** The shelf as it is now. */
    readonly shelf: readonly ShelfTube[],
    readonly what: ShelfAct,
    /** The tube that was added, removed or fitted; empty for the rest. */
    readonly tube = '',
  ) {
    super('shelf-change');
  }
}

declare global {
  interface HTMLElementEventMap {
    'shelf-change': ShelfChangeEvent;
  }
}
