import {
  reason,
  type Jobs,
  type Plan,
  type PlanSheetOptions,
  type Reason,
  type WorkStep,
} from '../shared/core.js';
import { massesAsked } from '../shared/masses-in-hand.js';
import type { PlanStore } from '../shared/plan-store.js';

export type PagesAsked = Jobs['pages']['in']['options'];

/** Pages that are asked for. */
export interface Asked {
  store: PlanStore;
  options: PagesAsked;
  strokes: boolean;
  passages: boolean;
}

/** The pages as far as they are made. */
export interface PagesState {
  status: 'none' | 'working' | 'ready' | 'failed' | 'stopped';
  stage: string;
  done: number;
  /** The last ones made; they may be of the plan as it was a moment ago. */
  pages: readonly string[];
  steps: readonly WorkStep[];
  paper: NonNullable<PlanSheetOptions['paper']>;
  error?: Reason;
}

const NONE: PagesState = {
  status: 'none',
  stage: '',
  done: 0,
  pages: [],
  steps: [],
  paper: 'A4',
};

/**
 * The pages of a plan, made in the worker: one piece of work at a time, the newest plan follows as soon as the work before it is done, so
 * that a limit being dragged does not keep the page from ever being made.
 */
export class PagesInHand {
  state = NONE;
  readonly #told: () => void;
  #running?: AbortController;
  #asked = '';
  #of?: unknown;
  #ask?: () => Asked;

  constructor(told: () => void) {
    this.#told = told;
  }

  /** Asks for the pages of a plan as it is now; nothing happens while they are the same. */
  ask(ask: () => Asked): void {
    this.#ask = ask;
    this.#look();
  }

  /** Gives up the work under way; it is not begun again until something changes or {@link again} is called. */
  stop(): void {
    if (!this.#running) return;
    this.#running.abort();
    this.#running = undefined;
    this.#set({ ...this.state, status: 'stopped' });
  }

  /** Begins anew after a fault or a stop. */
  again(): void {
    this.#asked = '';
    this.#look();
  }

  /** Lets go of everything. */
  leave(): void {
    this.#running?.abort();
    this.#running = undefined;
    this.#asked = '';
  }

  #set(state: PagesState): void {
    this.state = state;
    this.#told();
  }

  #look(): void {
    if (!this.#ask) return;
    const { store, options, strokes, passages } = this.#ask();
    const { picture, plan } = store;
    if (picture.handle !== this.#of || !picture.exact) {
      this.#running?.abort();
      this.#running = undefined;
      this.#asked = '';
      this.#of = picture.handle;
      if (this.state !== NONE) this.#set(NONE);
    }
    if (!picture.exact || !picture.handle || this.#running) return;
    const printed = printedPart(plan);
    const accents = plan.board.swatches.some(({ accent, lab }) => accent && lab !== undefined);
    const input = { ...massesAsked(plan), plan: printed, options, strokes, passages, accents };
    const asked = JSON.stringify([input, plan.crop, plan.distrusted]);
    if (asked === this.#asked) return;
    this.#asked = asked;
    void this.#work(store, input);
  }

  async #work(store: PlanStore, input: Parameters<typeof store.run<'pages'>>[1]): Promise<void> {
    const running = (this.#running = new AbortController());
    const { signal } = running;
    this.#set({ ...this.state, status: 'working', stage: '', done: 0, error: undefined });
    let next: PagesState;
    try {
      const { pages, steps } = await store.run('pages', input, {
        signal,
        onProgress: ({ stage, done }) => {
          if (!signal.aborted) this.#set({ ...this.state, stage, done });
        },
      });
      const paper = input.options.paper ?? 'A4';
      next = { status: 'ready', stage: '', done: 1, pages, steps, paper };
    } catch (thrown) {
      const { name, message, reason: told } = thrown as Error & { reason?: Reason };
      next = { ...this.state, status: 'failed', error: told ?? reason(name, { message }) };
    }
    if (this.#running !== running) return;
    this.#running = undefined;
    this.state = next;
    this.#look();
    // Where the plan has moved on meanwhile, the next piece of work has told already.
    if (this.state === next) this.#told();
  }
}

const NOT_PRINTED = [
  'readings',
  'distrusted',
  'photos',
  'marks',
  'borrowed',
  'brief',
  'dabs',
  'checks',
  'changed',
  'extensions',
] as const satisfies (keyof Plan)[];

/** What of a plan comes on its pages: what is not printed does not have them made again. */
function printedPart(plan: Plan): Plan {
  const printed: Plan = { ...plan, notes: '' };
  for (const field of NOT_PRINTED) delete printed[field];
  return printed;
}
