import type { Reading, Spot } from '../shared/core.js';

/** Where and how large the hole is. */
export interface Ask {
  at: Spot;
  holeMm: number;
}

/**
 * Reads the spot under a moving hole: at most one reading a frame and one under way; in between only the latest place is
 * remembered, so that a slow reading is never starved by the next.
 */
export class LatestReading {
  #want?: Ask;
  #frame = 0;
  #busy = false;
  #turn = 0;
  #waiting: (() => void)[] = [];

  constructor(
    private readonly run: (ask: Ask) => Promise<Reading>,
    private readonly got: (reading: Reading, ask: Ask) => void,
    private readonly failed: (thrown: unknown) => void,
  ) {}

  /** Whether a place has still to be read. */
  get pending(): boolean {
    return this.#want !== undefined || this.#busy;
  }

  /** Asks for a place; an earlier one that was not begun is forgotten. */
  ask(ask: Ask): void {
    this.#want = ask;
    this.#plan();
  }

  /** Forgets what was asked for; nothing more is told of a reading under way. */
  drop(): void {
    this.#turn++;
    this.#want = undefined;
    if (this.#frame) cancelAnimationFrame(this.#frame);
    this.#frame = 0;
    if (!this.#busy) this.#rest();
  }

  /** Resolves when nothing is left to read. */
  idle(): Promise<void> {
    return this.pending ? new Promise((resolve) => this.#waiting.push(resolve)) : Promise.resolve();
  }

  #plan(): void {
    if (this.#busy || this.#frame) return;
    this.#frame = requestAnimationFrame(() => {
      this.#frame = 0;
      void this.#next();
    });
  }

  async #next(): Promise<void> {
    const ask = this.#want;
    if (!ask) return;
    const turn = this.#turn;
    this.#want = undefined;
    this.#busy = true;
    try {
      const reading = await this.run(ask);
      this.#busy = false;
      if (turn === this.#turn) this.got(reading, ask);
    } catch (thrown) {
      this.#busy = false;
      if (turn === this.#turn && (thrown as Error).name !== 'AbortError') this.failed(thrown);
    }
    if (this.#want) this.#plan();
    else this.#rest();
  }

  #rest(): void {
    const waiting = this.#waiting;
    this.#waiting = [];
    for (const resolve of waiting) resolve();
  }
}
