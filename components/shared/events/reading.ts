import type { Reading, Spot } from '../core.js';
import { KitEvent } from './kit-event.js';

/** A person took a reading: the hole came to rest, or a guess was stated. Type `reading`. */
export class ReadingEvent extends KitEvent {
  constructor(
    /** Lightness L*, colour, spread and what else was seen through the hole. */
    readonly reading: Reading,
    /** The middle of the hole, in fractions of the upright photo. */
    readonly at: Spot,
    /** The number of the band of the plan, 0 is the darkest; as many as there are bands means bare paper. */
    readonly band: number,
    /** The Munsell value, 0 to 10. */
    readonly value: number,
    /** Diameter of the hole on the paper, mm. */
    readonly holeMm: number,
    /** The value that was guessed before it was shown, if one was. */
    readonly guess?: number,
  ) {
    super('reading');
  }
}

declare global {
  interface HTMLElementEventMap {
    reading: ReadingEvent;
  }
}
