import { KitEvent } from './kit-event.js';

/** What is on a picture that is handed over: the painting, beside the photo, or beside photo and planned bands. */
export type DeliveryLayout = 'alone' | 'photo' | 'bands';

/** A person had the finished painting made into a picture file. Type `delivery`. */
export class DeliveryEvent extends KitEvent {
  constructor(
    /** A JPEG or PNG without any data about place or camera. */
    readonly file: Blob,
    /** Its file name. */
    readonly name: string,
    readonly layout: DeliveryLayout,
  ) {
    super('delivery');
  }
}

declare global {
  interface HTMLElementEventMap {
    delivery: DeliveryEvent;
  }
}
