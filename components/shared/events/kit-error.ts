import type { Reason } from '../core.js';

/**
 * What went wrong in an element: a sentence in `message`, the finding behind it in `reason`. Type `error`. Like the
 * platform's own error events of pictures it does not bubble: at the window it would count as a fault of the script.
 */
export class KitErrorEvent extends Event {
  constructor(
    /** The sentence that the element shows. */
    readonly message: string,
    /** The finding, e.g. `{ code: 'PictureUnsupported', values: { format: 'HEIC' } }`. */
    readonly reason: Reason,
  ) {
    super('error', { composed: true });
  }
}
