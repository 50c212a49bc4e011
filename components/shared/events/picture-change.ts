import { KitEvent } from './kit-event.js';

/** A person opened another picture (by file, drop, paste or camera). Type `picture-change`. */
export class PictureChangeEvent extends KitEvent {
  constructor(
    /** The file's name, or an empty string. */
    readonly name: string,
    /** What was opened. */
    readonly picture: Blob,
  ) {
    super('picture-change');
  }
}

declare global {
  interface HTMLElementEventMap {
    'picture-change': PictureChangeEvent;
  }
}
