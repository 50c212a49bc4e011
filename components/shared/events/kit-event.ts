/** An event of this kit: bubbles and crosses shadow roots, like what a person does in a native control. */
export class KitEvent extends Event {
  constructor(type: string, init: EventInit = {}) {
    super(type, { bubbles: true, composed: true, cancelable: false, ...init });
  }
}
