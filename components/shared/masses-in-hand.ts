import {
  reason,
  thresholdOfLimit,
  type BandMap,
  type MassesInput,
  type MassWork,
  type Plan,
  type Reason,
} from './core.js';
import type { PlanStore } from './plan-store.js';

export type { MassWork } from './core.js';
/** What the job is asked, beside the picture. */
export type MassesAsked = Omit<
  MassesInput,
  'picture' | 'crop' | 'sitter' | 'distrusted' | 'maxPixels'
>;

/** The masses of a store's photo as far as they are known. */
export interface MassesState {
  /** `none` while nobody asks or there is no photo. */
  status: 'none' | 'working' | 'ready' | 'failed' | 'stopped';
  /** 0..1 while they are worked out. */
  progress: number;
  /** The last ones worked out; they may be of the plan as it was a moment ago. */
  work?: MassWork;
  /** The bands of the newest masses: they are known before the rest of `work` is. */
  map?: BandMap;
  /** The plan that `work` is of. */
  plan?: Plan;
  error?: Reason;
}

const NONE: MassesState = { status: 'none', progress: 0 };
const known = new WeakMap<PlanStore, MassesInHand>();

/**
 * The masses of a plan's photo, worked out once for all elements that are tied to the plan, and only while one of them
 * holds them ({@link hold}). One piece of work at a time: while a limit is dragged the newest plan follows as soon as the work
 * before it is done. Fires `masses` (plain Event; read {@link state}).
 */
export class MassesInHand extends EventTarget {
  readonly #store: PlanStore;
  #state = NONE;
  #holders = 0;
  #running?: AbortController;
  /** What `#state.work` or the work under way answers. */
  #asked = '';
  #of?: unknown;

  private constructor(store: PlanStore) {
    super();
    this.#store = store;
  }

  /** Those of a store. */
  static of(store: PlanStore): MassesInHand {
    let masses = known.get(store);
    if (!masses) known.set(store, (masses = new MassesInHand(store)));
    return masses;
  }

  get state(): MassesState {
    return this.#state;
  }

  /** Asks for the masses from now on; call what it returns when they are no longer needed. */
  hold(): () => void {
    if (this.#holders++ === 0) {
      this.#store.addEventListener('plan', this.#look);
      this.#store.addEventListener('picture', this.#look);
    }
    this.#look();
    let held = true;
    return () => {
      if (!held) return;
      held = false;
      if (--this.#holders > 0) return;
      this.#store.removeEventListener('plan', this.#look);
      this.#store.removeEventListener('picture', this.#look);
      this.#running?.abort();
    };
  }

  /** Gives up the work under way; it is not begun again until something changes or {@link again} is called. */
  stop(): void {
    if (!this.#running) return;
    this.#running.abort();
    this.#running = undefined;
    this.#set({ ...this.#state, status: 'stopped', progress: 0 });
  }

  /** Begins anew after a fault or a stop. */
  again(): void {
    this.#asked = '';
    this.#look();
  }

  #set(state: MassesState): void {
    this.#state = state;
    this.dispatchEvent(new Event('masses'));
  }

  #look = (): void => {
    const { picture, plan } = this.#store;
    if (!picture.exact || !picture.plane) {
      if (this.#state.status !== 'none' && picture.handle !== this.#of) this.#drop();
      return;
    }
    const rest = massesAsked(plan);
    const { crop, distrusted, sitter } = plan;
    const asked = JSON.stringify([rest, crop, distrusted, rest.background && sitter]);
    if (picture.handle === this.#of && asked === this.#asked) return;
    if (picture.handle !== this.#of) this.#drop();
    // The work under way is let come to its end: its tree serves the next one too.
    if (this.#running) return;
    this.#of = picture.handle;
    this.#asked = asked;
    void this.#work(rest, plan);
  };

  #drop(): void {
    this.#running?.abort();
    this.#running = undefined;
    this.#of = undefined;
    this.#asked = '';
    if (this.#state !== NONE) this.#set(NONE);
  }

  async #work(rest: MassesAsked, plan: Plan): Promise<void> {
    const running = (this.#running = new AbortController());
    const { signal } = running;
    this.#set({ ...this.#state, status: 'working', progress: 0, error: undefined });
    let next: MassesState;
    try {
      const onProgress = ({ done }: { done: number }): void => {
        if (!signal.aborted) this.#set({ ...this.#state, progress: done });
      };
      const { map } = await this.#store.run('massMap', rest, { signal, onProgress });
      if (!signal.aborted) this.#set({ ...this.#state, map });
      const work = await this.#store.run('masses', rest, { signal, onProgress });
      next = { status: 'ready', progress: 1, work, map: work.masses.map, plan };
    } catch (thrown) {
      const { name, message, reason: told } = thrown as Error & { reason?: Reason };
      const error = told ?? reason(name, { message });
      next = { ...this.#state, status: 'failed', progress: 0, error };
    }
    if (this.#running !== running) return;
    this.#running = undefined;
    if (signal.aborted) {
      this.#asked = '';
      return;
    }
    this.#set(next);
    this.#look();
  }
}

/** What is asked of the job `masses` for a plan: its limits (that of bare paper is the last), brush, focus and overrules. */
export function massesAsked(plan: Plan): MassesAsked {
  const { photoLimits, paperLimit, brushes, brush = 0, focus = [], overrules, paper } = plan;
  const { background, sitter } = plan;
  const limits = paperLimit === undefined ? photoLimits : [...photoLimits, paperLimit];
  const thresholds = [...new Set(limits.map(thresholdOfLimit))];
  const widthOf = (place: number): number =>
    (brushes[place] ?? brushes[0])?.pressedMm ?? paper.widthMm / 25;
  const loops = focus.map((area) => ({ loop: area.loop, brushMm: widthOf(area.brush) }));
  return {
    thresholds,
    brushMm: widthOf(brush),
    paperWidthMm: paper.widthMm,
    ...(loops.length > 0 ? { focus: loops } : {}),
    ...(overrules.length > 0 ? { overrules } : {}),
    ...(background && sitter ? { background } : {}),
    bare: paperLimit !== undefined,
  };
}
