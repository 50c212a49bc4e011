import type { Mix, Recipe } from '../core.js';
import { KitEvent } from './kit-event.js';

/** A person changed the mix in the well. Type `mix-change`. */
export class MixChangeEvent extends KitEvent {
  constructor(
    /** The mix as it dries, on the paper or on the layer below; `undefined` while the well is empty. */
    readonly mix: Mix | undefined,
    /** The same as it is written down. */
    readonly recipe: Recipe | undefined,
    /** `false` while a slider is still being dragged. */
    readonly settled: boolean,
  ) {
    super('mix-change');
  }
}

declare global {
  interface HTMLElementEventMap {
    'mix-change': MixChangeEvent;
  }
}
