import type { ReactiveController, ReactiveControllerHost } from 'lit';
import {
  histogramOf,
  loopMask,
  type Crop,
  type Display,
  type Lightness,
  type Reason,
} from '../shared/core.js';
import { reasonOf, type PlanStore } from '../shared/plan-store.js';

/** How the painter looks: with open eyes close by, squinting, or from some steps back. */
export type Way = 'open' | 'squint' | 'back';

/** What the looking needs of its element. */
export interface LookingHost extends ReactiveControllerHost {
  readonly store: PlanStore;
  /** A look could not be made. */
  fireError(reason: Reason): void;
}

/** What is seen, and the counts of it. */
export interface Seen extends Display {
  histogram: Uint32Array;
}

/** How long a control must rest before the work starts. */
const REST_MS = 140;

/**
 * Looks at the picture in hand in another way: squinted, or from a distance. The work is done in the core; until it is ready what was seen before stays.
 */
export class Looking implements ReactiveController {
  /** How nearly shut the eyes are: 0 (open) to 1. */
  amount = 0;
  /** Metres from the picture; 0 is close by. */
  distance = 0;
  /** What is seen, once it is ready; missing with open eyes. */
  seen?: Seen;
  /** Whether another look is being made, and how far it is, 0..1. */
  busy = false;
  done = 0;
  fault?: Reason;

  #host: LookingHost;
  #timer?: ReturnType<typeof setTimeout>;
  #running?: AbortController;
  #plane?: Lightness;
  #ground = '';

  constructor(host: LookingHost) {
    this.#host = host;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.#stop();
  }

  get way(): Way {
    if (this.amount > 0) return 'squint';
    return this.distance > 0 ? 'back' : 'open';
  }

  /** Squints (0 opens the eyes); steps up close again. */
  squint(amount: number): void {
    this.#look(amount, 0);
  }

  /** Steps back so many metres (0 is close by), with open eyes. */
  stepBack(distance: number): void {
    this.#look(0, distance);
  }

  /** The picture, or what the way of looking depends on, may have changed. */
  refresh(): void {
    const { plan, picture } = this.#host.store;
    const ground = `${plan.paper.widthMm} ${plan.brushes[0]?.pressedMm}`;
    const fresh = picture.plane !== this.#plane;
    const moved = fresh || ground !== this.#ground;
    this.#plane = picture.plane;
    this.#ground = ground;
    if (!moved || this.way === 'open') return;
    if (fresh) this.#drop();
    this.#soon(0);
  }

  #look(amount: number, distance: number): void {
    if (amount === this.amount && distance === this.distance) return;
    this.amount = amount;
    this.distance = distance;
    this.fault = undefined;
    if (this.way === 'open') {
      this.#stop();
      this.#drop();
    } else this.#soon(REST_MS);
    this.#host.requestUpdate();
  }

  #soon(after: number): void {
    clearTimeout(this.#timer);
    if (!this.#host.store.picture.exact) return; // comes again with the exact copy
    this.busy = true;
    this.#timer = setTimeout(() => void this.#make(), after);
  }

  async #make(): Promise<void> {
    this.#running?.abort();
    const running = (this.#running = new AbortController());
    const { store } = this.#host;
    const { plan, picture } = store;
    if (!picture.plane) return;
    this.busy = true;
    this.done = 0;
    const { amount, distance } = this;
    const paperWidthMm = plan.paper.widthMm;
    const options = {
      signal: running.signal,
      onProgress: ({ done }: { done: number }): void => {
        if (running.signal.aborted) return;
        this.done = done;
        this.#host.requestUpdate();
      },
    };
    try {
      const brushMm = plan.brushes[0]?.pressedMm ?? 15;
      const display =
        amount > 0
          ? await store.run(
              'squint',
              { amount, brushPx: (brushMm / paperWidthMm) * picture.plane.width, colour: true },
              { ...options, key: 'squint' },
            )
          : await store.run(
              'stepBack',
              { distance, paperWidthMm, colour: true },
              { ...options, key: 'stepBack' },
            );
      if (running.signal.aborted) return display.bitmap?.close();
      this.#drop();
      const { sitter, crop } = plan;
      this.seen = {
        ...display,
        histogram: histogramOf(display.plane, sitter && maskOf(sitter, crop, display.plane)),
      };
      this.busy = false;
    } catch (thrown) {
      if (running.signal.aborted || (thrown as Error).name === 'AbortError') return;
      this.busy = false;
      this.fault = reasonOf(thrown);
      this.#host.fireError(this.fault);
    }
    this.#host.requestUpdate();
  }

  #stop(): void {
    clearTimeout(this.#timer);
    this.#running?.abort();
    this.#running = undefined;
    this.busy = false;
  }

  #drop(): void {
    this.seen?.bitmap?.close();
    this.seen = undefined;
  }
}

/** The sitter's loop as a mask of the plane; missing when it holds no pixel. */
function maskOf(
  sitter: readonly [number, number][],
  crop: Crop = { x: 0, y: 0, width: 1, height: 1 },
  { width, height }: Lightness,
): Uint8Array | undefined {
  const loop = sitter.map(([x, y]): [number, number] => [
    ((x - crop.x) / crop.width) * width,
    ((y - crop.y) / crop.height) * height,
  ]);
  const mask = loopMask(loop, width, height);
  return mask.includes(1) ? mask : undefined;
}
