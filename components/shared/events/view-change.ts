import { KitEvent } from './kit-event.js';

/** One of the states of a picture: `masses` are the bands in shapes that the brush can state. */
export type PictureView = 'photo' | 'greys' | 'bands' | 'masses';

/** A person looks at another state of the picture, or at one band alone. Type `view-change`. */
export class ViewChangeEvent extends KitEvent {
  constructor(
    /** What lies above. */
    readonly view: PictureView,
    /** What shows where the corner is lifted; `undefined` while the sheet lies flat. */
    readonly under: PictureView | undefined,
    /** The band that is seen alone (0 is the darkest; the number of bands means bare paper); `undefined` when all are. */
    readonly only: number | undefined,
  ) {
    super('view-change');
  }
}

declare global {
  interface HTMLElementEventMap {
    'view-change': ViewChangeEvent;
  }
}
