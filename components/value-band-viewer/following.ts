import { type Jobs, type Reason } from '../shared/core.js';
import { massesAsked, type MassesState, type MassWork } from '../shared/masses-in-hand.js';
import { reasonOf, type PlanStore } from '../shared/plan-store.js';

/** Jobs about masses that are only worked out while somebody looks at what they give. */
export type FollowingJob = 'strokes' | 'passages' | 'accents';

/** How long masses must rest before what follows from them is worked out: while a limit is dragged the masses go first, ms. */
const REST_MS = 250;

/** What follows from the masses in hand by one more job; the last that was found stays until the next is. */
export class Following<J extends FollowingJob> {
  /** What was found, and of which masses. */
  found?: { of: MassWork; out: Jobs[J]['out'] };
  error?: Reason;

  readonly #job: J;
  readonly #told: () => void;
  #of?: MassWork;
  #running?: AbortController;
  #timer?: ReturnType<typeof setTimeout>;

  constructor(job: J, told: () => void) {
    this.#job = job;
    this.#told = told;
  }

  /** Whether what was found is of these masses. */
  isOf(work: MassWork | undefined): boolean {
    return work !== undefined && this.found?.of === work;
  }

  /** Asks for what follows from the masses; does nothing while it is known or on its way. */
  ask(store: PlanStore, { work, plan, status }: MassesState): void {
    if (!work || !plan || status !== 'ready' || this.#of === work) return;
    this.#stop();
    this.#of = work;
    this.error = undefined;
    const running = (this.#running = new AbortController());
    const begin = (): void => {
      store
        .run<FollowingJob>(this.#job, massesAsked(plan), { signal: running.signal })
        .then((out) => {
          this.found = { of: work, out: out as Jobs[J]['out'] };
          this.#told();
        })
        .catch((thrown: unknown) => {
          if (running.signal.aborted) return;
          this.error = reasonOf(thrown);
          this.#told();
        });
    };
    if (this.found) this.#timer = setTimeout(begin, REST_MS);
    else begin();
  }

  /** After a fault: the next {@link ask} begins anew. */
  again(): void {
    this.#of = this.error = undefined;
  }

  /** Lets go of what was found and of the work under way. */
  letGo(): void {
    this.#stop();
    this.found = this.error = this.#of = undefined;
  }

  #stop(): void {
    clearTimeout(this.#timer);
    this.#running?.abort();
  }
}
