import { breathe } from '../../core/worker/slices.js';
import type { Board } from '../shared/core.js';

/** As many cards are drawn within a frame, about. */
const AT_ONCE = 36;

/**
 * Lets the cards of a large board come some at a time, from the top of every bucket, so that the page never stands still. What is drawn
 * stays drawn.
 */
export class CardsToCome {
  readonly #update: () => void;
  #drawn = new Set<string>();
  #more = false;
  #going = false;
  #done: Promise<void> = Promise.resolve();
  #settle?: () => void;

  /** @param update - has the board shown anew */
  constructor(update: () => void) {
    this.#update = update;
  }

  /** Settles once all are drawn. */
  get done(): Promise<void> {
    return this.#done;
  }

  /** The ids of the swatches to draw now: those that are drawn, and as many others as a frame has room for. */
  next({ bands, swatches }: Board): ReadonlySet<string> {
    const fresh = swatches.filter(({ id }) => !this.#drawn.has(id));
    const room = bands.map(() => Math.ceil(AT_ONCE / bands.length));
    const coming =
      fresh.length <= AT_ONCE ? fresh : fresh.filter(({ bucket }) => room[bucket]-- > 0);
    const left = new Set(swatches.map(({ id }) => id));
    this.#drawn = new Set([...this.#drawn].filter((id) => left.has(id)));
    for (const { id } of coming) this.#drawn.add(id);
    this.#more = coming.length < fresh.length;
    if (this.#more && !this.#settle) this.#done = new Promise((done) => (this.#settle = done));
    return this.#drawn;
  }

  /** After each update: has the next ones drawn as soon as the page has had its turn. */
  goOn(): void {
    if (!this.#more) {
      this.#settle?.();
      this.#settle = undefined;
    } else if (!this.#going) {
      this.#going = true;
      void breathe().then(() => {
        this.#going = false;
        this.#update();
      });
    }
  }
}
