import { KitEvent } from './kit-event.js';

/** A person added, took out or renamed a band. Type `bands-change`. */
export class BandsChangeEvent extends KitEvent {
  constructor(
    /** The names, darkest first. */
    readonly names: readonly string[],
  ) {
    super('bands-change');
  }
}

declare global {
  interface HTMLElementEventMap {
    'bands-change': BandsChangeEvent;
  }
}
