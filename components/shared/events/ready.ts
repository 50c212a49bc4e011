import { KitEvent } from './kit-event.js';

/** An element shows its picture (or its board) for the first time, or anew after another one was opened. Type `ready`. */
export class ReadyEvent extends KitEvent {
  constructor() {
    super('ready');
  }
}

declare global {
  interface HTMLElementEventMap {
    ready: ReadyEvent;
  }
}
