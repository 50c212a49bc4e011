import { KitEvent } from './kit-event.js';

/** A person moved a limit between bands. Type `limits-change`. */
export class LimitsChangeEvent extends KitEvent {
  constructor(
    /** L* in the photo, ascending, one fewer than there are bands. */
    readonly limits: readonly number[],
    /** L* from which the paper is left bare; `undefined` when none is. */
    readonly paperLimit: number | undefined,
    /** False while the limit is still held. */
    readonly settled: boolean,
  ) {
    super('limits-change');
  }
}

declare global {
  interface HTMLElementEventMap {
    'limits-change': LimitsChangeEvent;
  }
}
