import type { WorkStep } from '../core.js';
import { KitEvent } from './kit-event.js';

/** What a person did to the order of work. `order`: the proposed order was taken again. */
export type StepAct = 'done' | 'not-done' | 'move' | 'order' | 'undo' | 'redo';

/** A person ticked off a step or changed the order of work. Type `step-change`. */
export class StepChangeEvent extends KitEvent {
  constructor(
    /** The steps as they stand now. */
    readonly steps: readonly WorkStep[],
    readonly what: StepAct,
    /** The step that was ticked or moved; empty for the rest. */
    readonly step = '',
  ) {
    super('step-change');
  }
}

declare global {
  interface HTMLElementEventMap {
    'step-change': StepChangeEvent;
  }
}
