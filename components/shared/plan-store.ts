import {
  changed,
  canRedo,
  canUndo,
  newPlan,
  redone,
  sameLimits,
  startHistory,
  suggestThresholds,
  limitOfThreshold,
  lightnessOfCode,
  paperThreshold,
  undone,
  withLimits,
  withoutPhoto,
  CoreError,
  type History,
  type Lightness,
  type Plan,
  type Reason,
} from './core.js';
import type { Display, Jobs, PictureSource, Progress } from './core.js';
import { renewCore, sharedCore, type Core, type PictureHandle } from './core.js';

/** What the elements know of the photo in hand. */
export interface PictureState {
  status: 'empty' | 'opening' | 'ready' | 'failed';
  /** The file's name, or an empty string. */
  name: string;
  progress?: Progress;
  handle?: PictureHandle;
  /** Lightness of the working copy of the crop, the painter's corrections applied; of the quick preview until `exact`. */
  plane?: Lightness;
  /** Colours of the same size as the plane (whole photo while not `exact`). */
  bitmap?: ImageBitmap;
  /** Counts inside the sitter's loop, if one is drawn. */
  histogram?: Uint32Array;
  /** Whether plane, colours and counts are those of the exact working copy. */
  exact: boolean;
  /** Why the last picture could not be opened; the one before stays in hand. */
  error?: Reason;
  warnings: readonly Reason[];
}

/** The plan changed: by `label` ('undo', 'redo', 'restore' or a change's own name). */
export class StorePlanEvent extends Event {
  constructor(
    readonly plan: Plan,
    readonly previous: Plan,
    readonly label: string,
  ) {
    super('plan');
  }
}

type PictureJob = Exclude<keyof Jobs, 'original'>;
type JobRest<K extends PictureJob> = Omit<Jobs[K]['in'], 'picture' | 'crop' | 'sitter' | 'distrusted'>;

/**
 * One plan and its photo, shared by the elements tied to it; an element that stands alone has one of its own.
 * The plan is immutable: {@link change} puts a new one in its place, as one step of undo (or as part of a gesture).
 * Fires `plan` ({@link StorePlanEvent}) and `picture` (plain Event; read {@link picture}).
 */
export class PlanStore extends EventTarget {
  #history: History;
  #picture: PictureState = { status: 'empty', name: '', exact: false, warnings: [] };
  #source?: Blob;
  #autoLimits: boolean;
  #opening?: AbortController;
  #turn = 0;

  constructor(plan?: Plan) {
    super();
    this.#history = startHistory(plan ?? newPlan());
    this.#autoLimits = plan === undefined;
  }

  get plan(): Plan {
    return this.#history.present;
  }

  get picture(): PictureState {
    return this.#picture;
  }

  /** The file in hand, for keeping it with the plan. */
  get source(): Blob | undefined {
    return this.#source;
  }

  get canUndo(): boolean {
    return canUndo(this.#history);
  }

  get canRedo(): boolean {
    return canRedo(this.#history);
  }

  /** Settles when a kept plan has been looked for; at once for a plan that nobody keeps. */
  settled: Promise<void> = Promise.resolve();

  /** Whether a kept plan with its photo was taken up, so that a page's own first picture is not wanted. */
  restored = false;

  /** The core that the elements share. */
  core(): Promise<Core> {
    return sharedCore();
  }

  /**
   * Puts a new plan in place of the present one. Changes with the same `gesture` (a drag) become one step of undo.
   * Limits that a person has set are no longer proposed by the photo.
   */
  change(label: string, make: (plan: Plan) => Plan, gesture?: string): void {
    const previous = this.plan;
    const plan = make(previous);
    if (plan === previous) return;
    this.#history = changed(this.#history, plan, { label, gesture });
    if (!sameLimits(plan, previous)) this.#autoLimits = false;
    this.#told(previous, label);
  }

  /** Changes the present plan without a step of undo: what the photo or the page sets, not a person. */
  amend(label: string, make: (plan: Plan) => Plan): void {
    const previous = this.plan;
    const plan = make(previous);
    if (plan === previous) return;
    this.#history = { ...this.#history, present: plan };
    this.#told(previous, label);
  }

  undo(): void {
    const previous = this.plan;
    this.#history = undone(this.#history);
    if (this.plan !== previous) this.#told(previous, 'undo');
  }

  redo(): void {
    const previous = this.plan;
    this.#history = redone(this.#history);
    if (this.plan !== previous) this.#told(previous, 'redo');
  }

  /** Takes up a kept plan: undo starts anew, its limits stay as they are. */
  restore(plan: Plan): void {
    const previous = this.plan;
    this.#history = startHistory(plan);
    this.#autoLimits = false;
    this.#told(previous, 'restore');
  }

  /** Fixes the limits as the page gives them: no longer proposed by the photo, no step of undo. */
  fixLimits(limits: number[], paperLimit?: number): void {
    this.#autoLimits = false;
    this.amend('limits', (plan) => withLimits(plan, limits, paperLimit ?? plan.paperLimit));
  }

  /** Lets the photo propose the limits (again). */
  freeLimits(): void {
    this.#autoLimits = true;
    this.#propose();
  }

  /**
   * Opens a picture in place of the one in hand, which stays when the new one cannot be opened. What was drawn on the old
   * photo (crop, sitter, spots, readings) is let go unless `keepPlan`. Never throws: `picture.error` tells.
   * @returns whether the picture is now in hand.
   */
  async open(source: PictureSource, { name = '', keepPlan = false }: { name?: string; keepPlan?: boolean } = {}): Promise<boolean> {
    this.#opening?.abort();
    const opening = (this.#opening = new AbortController());
    const { signal } = opening;
    const before = this.#picture;
    this.#set({ ...before, status: 'opening', progress: undefined, error: undefined });
    const onProgress = (progress: Progress): void => {
      if (!signal.aborted) this.#set({ ...this.#picture, progress });
    };
    try {
      const core = await this.core();
      const handle = await core.open(source, { signal, onProgress });
      if (signal.aborted) {
        handle.close();
        return false;
      }
      before.handle?.preview.bitmap?.close();
      before.handle?.close();
      this.#source = source instanceof Blob ? source : undefined;
      if (!keepPlan) {
        const fresh = before.handle !== undefined;
        this.amend('picture', withoutPhoto);
        if (fresh) this.#autoLimits = true;
      }
      const { plane, bitmap } = handle.preview;
      const whole = !this.plan.crop;
      this.#set({
        status: 'opening',
        name,
        handle,
        warnings: handle.warnings,
        exact: false,
        ...(whole ? { plane, bitmap, histogram: countsOf(plane) } : {}),
      });
      if (whole) this.#propose();
      await this.#work(onProgress);
      if (!this.#source && !signal.aborted) {
        core.run('original', { picture: handle.id }).then(
          (blob) => {
            if (this.#picture.handle !== handle) return;
            this.#source = blob;
            this.dispatchEvent(new Event('source'));
          },
          () => undefined,
        );
      } else if (!signal.aborted) this.dispatchEvent(new Event('source'));
      return !signal.aborted;
    } catch (thrown) {
      if (signal.aborted) return false;
      if ((thrown as Error).name === 'CoreLost') renewCore();
      const { handle } = this.#picture;
      const usable = handle !== undefined && handle === before.handle && before.exact;
      this.#set({ ...this.#picture, status: usable ? 'ready' : 'failed', progress: undefined, error: reasonOf(thrown) });
      return false;
    }
  }

  /** Tells a fault that came before the core saw anything (an address that cannot be read); the picture in hand stays. */
  fail(error: Reason): void {
    this.#set({ ...this.#picture, status: this.#picture.plane ? 'ready' : 'failed', error });
  }

  /** Puts the last fault aside. */
  forgive(): void {
    if (this.#picture.error) this.#set({ ...this.#picture, status: this.#picture.plane ? 'ready' : 'empty', error: undefined });
  }

  /** Gives up the opening under way. */
  giveUp(): void {
    this.#opening?.abort();
    const { plane } = this.#picture;
    this.#set({ ...this.#picture, status: plane ? 'ready' : 'empty', progress: undefined });
  }

  /** Runs a job on the picture in hand, with its crop, sitter and distrusted spots. Rejects as {@link Core.run} does. */
  async run<K extends PictureJob>(job: K, rest: JobRest<K>, options: { key?: string; signal?: AbortSignal; onProgress?: (p: Progress) => void } = {}): Promise<Jobs[K]['out']> {
    const { handle } = this.#picture;
    if (!handle) throw new CoreError('PictureMissing', 'There is no picture yet; open one first.', {});
    const { crop, sitter, distrusted } = this.plan;
    const core = await this.core();
    const input = { picture: handle.id, crop, sitter, distrusted, ...rest } as unknown as Jobs[K]['in'];
    const key = options.key && `${handle.id} ${options.key}`;
    return core.run(job, input, { ...options, key });
  }

  /** Lets go of the picture and what was under way. */
  dispose(): void {
    this.#opening?.abort();
    this.#picture.handle?.preview.bitmap?.close();
    this.#picture.handle?.close();
    this.#picture.bitmap?.close();
    this.#picture = { status: 'empty', name: '', exact: false, warnings: [] };
  }

  async #work(onProgress?: (progress: Progress) => void): Promise<void> {
    const turn = ++this.#turn;
    const { handle } = this.#picture;
    const made = await this.run('working', {}, { key: 'working', signal: this.#opening?.signal, onProgress });
    if (turn !== this.#turn || handle !== this.#picture.handle) {
      made.bitmap?.close();
      return;
    }
    const { plane, bitmap, histogram } = made;
    const old = this.#picture.bitmap;
    this.#set({ ...this.#picture, status: 'ready', progress: undefined, plane, bitmap, histogram, exact: true });
    // The quick copy of the whole photo stays: tools that work on the whole photo show it.
    if (old !== bitmap && old !== handle?.preview.bitmap) old?.close();
    this.#propose();
  }

  async #retone(): Promise<void> {
    try {
      const tones = await this.run('tones', {}, { key: 'tones' });
      this.#set({ ...this.#picture, ...tones });
      this.#propose();
    } catch (thrown) {
      this.#trouble(thrown);
    }
  }

  #propose(): void {
    const { histogram } = this.#picture;
    if (!this.#autoLimits || !histogram) return;
    const limits = suggestThresholds(histogram, this.plan.photoLimits.length + 1).map(limitOfThreshold);
    const paper = paperThreshold(histogram);
    const paperLimit = paper === null ? undefined : Math.max(limitOfThreshold(paper), limits.at(-1)! + lightnessOfCode(2));
    this.amend('limits-proposed', (plan) => withLimits(plan, limits, paperLimit));
  }

  #told(previous: Plan, label: string): void {
    const { plan } = this;
    this.dispatchEvent(new StorePlanEvent(plan, previous, label));
    if (!this.#picture.exact) return;
    if (plan.crop !== previous.crop) void this.#work().catch((thrown: unknown) => this.#trouble(thrown));
    else if (plan.sitter !== previous.sitter || plan.distrusted !== previous.distrusted) void this.#retone();
  }

  #trouble(thrown: unknown): void {
    if ((thrown as Error).name === 'AbortError') return;
    this.#set({ ...this.#picture, error: reasonOf(thrown) });
  }

  #set(picture: PictureState): void {
    this.#picture = picture;
    this.dispatchEvent(new Event('picture'));
  }
}

function countsOf({ data }: Lightness): Uint32Array {
  const counts = new Uint32Array(256);
  for (let i = 0; i < data.length; i++) counts[data[i]]++;
  return counts;
}

/** The finding behind an error; an unknown one keeps its name and message. */
export function reasonOf(thrown: unknown): Reason {
  if (thrown instanceof CoreError) return thrown.reason;
  const { name = 'Error', message = String(thrown) } = (thrown ?? {}) as { name?: string; message?: string };
  return { code: name, values: { message } };
}

export type { Display };
