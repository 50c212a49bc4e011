import type { Dab } from '../core.js';
import { KitEvent } from './kit-event.js';

/** A person had a remembered dab forgotten. Type `dab-forget`. */
export class DabForgetEvent extends KitEvent {
  constructor(
    /** The dab that was forgotten. */
    readonly dab: Dab,
    /** What the plan still remembers. */
    readonly dabs: readonly Dab[],
  ) {
    super('dab-forget');
  }
}

declare global {
  interface HTMLElementEventMap {
    'dab-forget': DabForgetEvent;
  }
}
