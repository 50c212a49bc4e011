import {
  changed,
  canRedo,
  canUndo,
  redoLabel,
  redone,
  sameLimits,
  startedPlan,
  startHistory,
  undoLabel,
  undone,
  withLimits,
  withRange,
  CoreError,
  type History,
  type Lightness,
  type Plan,
  type PlanPhoto,
  type Reason,
} from './core.js';
import type { LengthUnit } from './measure.js';
import type * as PhotoPart from './photo-in-plan.js';
import { inWords, type Say } from './usual-bands.js';
import type { Jobs, PictureSource, Progress } from './core.js';
import { partOf, renewCore, sharedCore, type Core, type PictureHandle } from './core.js';

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
type JobRest<K extends PictureJob> = Omit<
  Jobs[K]['in'],
  'picture' | 'crop' | 'sitter' | 'distrusted'
>;

/**
 * One plan and its photo, shared by the elements tied to it; an element that stands alone has one of its own.
 * The plan is immutable: {@link change} puts a new one in its place, as one step of undo (or as part of a gesture).
 * Fires `plan` ({@link StorePlanEvent}) and `picture` (plain Event; read {@link picture}).
 */
export class PlanStore extends EventTarget {
  #history: History;
  #picture: PictureState = EMPTY;
  #source?: Blob;
  #autoLimits: boolean;
  /** The opening under way. */
  #opening?: AbortController;
  /** What an opening under way has put aside, to come back to if it fails or is given up. */
  #aside?: Aside;
  /** The working copy being made. */
  #pass?: AbortController;
  /** The plan whose crop, sitter and corrections the tones in hand follow. */
  #tonesOf?: Plan;
  #turn = 0;

  /**
   * @param plan - a plan to take up; its limits stay as they are.
   * @param say - the words for bands and brushes of a new plan; English without.
   */
  constructor(plan?: Plan, say?: Say) {
    super();
    this.#history = startHistory(plan ?? freshPlan(say));
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

  /** The label of the change that {@link undo} would take back. */
  get undoLabel(): string | undefined {
    return undoLabel(this.#history);
  }

  /** The label of the change that {@link redo} would make again. */
  get redoLabel(): string | undefined {
    return redoLabel(this.#history);
  }

  /** Settles when a kept plan has been looked for; at once for a plan that nobody keeps. */
  settled: Promise<void> = Promise.resolve();

  /** Keeps the plan now and tells whether it is kept; there is none where nobody keeps it. @internal */
  keep?: () => Promise<boolean>;

  /** Whether a kept plan with its photo was taken up, so that a page's own first picture is not wanted. */
  restored = false;

  /** Whether a plan was taken up that has no photo yet: a picture that the page shows meanwhile is not its own. */
  blank = false;

  /** What the person chose to have lengths told in; empty while nothing was chosen. Fires `units` (plain Event). */
  get chosenUnit(): LengthUnit | '' {
    return this.#chosenUnit;
  }
  set chosenUnit(unit: LengthUnit | '') {
    if (unit === this.#chosenUnit) return;
    this.#chosenUnit = unit;
    this.dispatchEvent(new Event('units'));
  }
  #chosenUnit: LengthUnit | '' = '';

  /** The core that the elements share. */
  core(): Promise<Core> {
    return sharedCore();
  }

  /**
   * Puts a new plan in place of the present one. Changes with the same `gesture` (a drag) become one step of undo.
   * Limits that a person has set are no longer proposed by the photo. Other paper gives another range of paint.
   */
  change(label: string, make: (plan: Plan) => Plan, gesture?: string): void {
    const previous = this.plan;
    const plan = onItsPaper(make(previous), previous);
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

  /** Notes which photo is in hand (one was opened), in the present plan and in those that undo and redo come to. */
  notePhoto(photo: PlanPhoto): void {
    const previous = this.plan;
    this.#history = photoPart!.withPhotoNoted(this.#history, photo);
    this.#told(previous, 'photo');
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
    if (this.#aside) this.#aside = { ...this.#aside, history: this.#history, autoLimits: false };
    this.#told(previous, 'restore');
  }

  /**
   * Lays this plan and its picture away and takes up another plan, whose photo is opened afterwards: undo starts anew.
   * @param proposed - whether its photo may propose the limits (a new plan).
   */
  takeUp(plan: Plan, proposed = false): void {
    this.dispose();
    this.#source = undefined;
    this.#tonesOf = undefined;
    this.blank = !plan.photo;
    this.dispatchEvent(new Event('picture'));
    this.restore(plan);
    this.#autoLimits = proposed;
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

  /** Begins to fetch what opening takes, before the picture itself is there. */
  prepare(): void {
    // A fault is told by the opening.
    this.#means().catch(() => undefined);
  }

  /** What opening takes: the core, and what brings photo and plan together. */
  #means(): Promise<[Core, void]> {
    return Promise.all([this.core(), fetchPhotoPart()]);
  }

  /**
   * Opens a picture in place of the one in hand, which stays (with the plan) when the new one cannot be opened or is given
   * up. What was drawn on the old photo (crop, sitter, spots, readings) is let go unless `keepPlan`; a first photo finds
   * the plan as it was handed in, and turns the paper of an untouched one to its own way up. Of several openings the last
   * one counts. Never throws: `picture.error` tells.
   * @returns whether the picture is now in hand.
   */
  async open(
    source: PictureSource,
    { name = '', keepPlan = false }: { name?: string; keepPlan?: boolean } = {},
  ): Promise<boolean> {
    this.#stop();
    const opening = (this.#opening = new AbortController());
    const { signal } = opening;
    this.#set({ status: 'opening', progress: undefined, error: undefined });
    const onProgress = (progress: Progress): void => {
      if (!signal.aborted) this.#set({ progress });
    };
    let core: Core | undefined;
    try {
      [core] = await this.#means();
      const handle = await core.open(source, { signal, onProgress });
      if (signal.aborted) {
        handle.close();
        return false;
      }
      this.#putAside();
      this.#source = source instanceof Blob ? source : undefined;
      this.#picture = {
        ...EMPTY,
        status: 'opening',
        name,
        handle,
        warnings: handle.warnings,
        error: this.#picture.error,
      };
      if (!keepPlan) this.#freshPlan(handle);
      const { plane, bitmap } = handle.preview;
      const whole = !this.plan.crop;
      this.#set(whole ? { plane, bitmap, histogram: photoPart!.countsOf(plane) } : {});
      if (whole) this.#propose();
      await this.#work(signal, onProgress);
      if (signal.aborted) return false;
      this.#opening = undefined;
      letGo(this.#aside?.picture);
      this.#aside = undefined;
      this.#set({ status: 'ready', progress: undefined });
      if (this.#source) this.dispatchEvent(new Event('source'));
      else void this.#fetchSource(core, handle);
      return true;
    } catch (thrown) {
      if ((thrown as Error).name === 'CoreLost') renewCore(core);
      if (signal.aborted) return false;
      this.#stop();
      const status = this.#picture.plane ? 'ready' : 'failed';
      this.#set({ status, progress: undefined, error: reasonOf(thrown) });
      return false;
    }
  }

  /** Tells a fault that came before the core saw anything (an address that cannot be read); the picture in hand stays. */
  fail(error: Reason): void {
    const status = this.#opening ? 'opening' : this.#picture.plane ? 'ready' : 'failed';
    this.#set({ status, error });
  }

  /** Puts the last fault aside. */
  forgive(): void {
    if (!this.#picture.error) return;
    const status = this.#opening ? 'opening' : this.#picture.plane ? 'ready' : 'empty';
    this.#set({ status, error: undefined });
  }

  /** Gives up the opening under way: picture and plan are again those before it. */
  giveUp(): void {
    if (!this.#opening) return;
    this.#stop();
    this.#set({ status: this.#picture.plane ? 'ready' : 'empty', progress: undefined });
  }

  /** Runs a job on the picture in hand, with its crop, sitter and distrusted spots. Rejects as {@link Core.run} does. */
  async run<K extends PictureJob>(
    job: K,
    rest: JobRest<K>,
    options: { key?: string; signal?: AbortSignal; onProgress?: (p: Progress) => void } = {},
  ): Promise<Jobs[K]['out']> {
    const { handle } = this.#picture;
    if (!handle)
      throw new CoreError('PictureMissing', 'There is no picture yet; open one first.', {});
    const { crop, sitter, distrusted } = this.plan;
    const core = await this.core();
    const input = {
      picture: handle.id,
      crop,
      sitter,
      distrusted,
      ...rest,
    } as unknown as Jobs[K]['in'];
    const key = options.key && `${handle.id} ${options.key}`;
    return core.run(job, input, { ...options, key });
  }

  /** Lets go of the picture and what was under way. */
  dispose(): void {
    this.#opening?.abort();
    this.#opening = undefined;
    this.#pass?.abort();
    this.#pass = undefined;
    this.#turn++;
    letGo(this.#aside?.picture);
    this.#aside = undefined;
    letGo(this.#picture);
    this.#picture = EMPTY;
  }

  /** Ends the opening under way and goes back to what it has put aside. */
  #stop(): void {
    this.#opening?.abort();
    this.#opening = undefined;
    const aside = this.#aside;
    if (!aside) return;
    this.#aside = undefined;
    this.#pass = undefined;
    const { picture, plan: previous } = this;
    this.#history = aside.history;
    this.#autoLimits = aside.autoLimits;
    this.#source = aside.source;
    this.#picture = { ...EMPTY, error: picture.error };
    if (this.plan !== previous) this.#told(previous, 'picture');
    this.#tonesOf = aside.tonesOf;
    this.#set(aside.picture);
    letGo(picture);
    if (aside.tonesOf) this.#follow(aside.tonesOf);
  }

  /** Keeps the picture in hand, and the plan as it is now, until the next one is in hand. */
  #putAside(): void {
    this.#turn++;
    this.#pass?.abort();
    this.#pass = undefined;
    const { error: _error, progress: _progress, ...picture } = this.#picture;
    const status = picture.plane ? 'ready' : 'empty';
    this.#aside = {
      picture: { ...picture, status },
      history: this.#history,
      source: this.#source,
      autoLimits: this.#autoLimits,
      tonesOf: this.#tonesOf,
    };
    this.#tonesOf = undefined;
  }

  /**
   * The plan without what was drawn on the photo that is put aside; undo does not bring it back either. Where there was no
   * photo the plan stays, its paper turned as the picture is if nothing was done to it yet.
   */
  #freshPlan(picture: { width: number; height: number }): void {
    const previous = this.plan;
    const { photo } = previous;
    // A kept plan that lost its photo finds it again by its size; another one does not fit what was drawn.
    const other = photo && (photo.width !== picture.width || photo.height !== picture.height);
    if (this.#aside?.picture.handle || other) {
      this.#history = photoPart!.withoutPhotoIn(this.#history);
      this.#autoLimits = true;
    } else if (!this.canUndo && !this.canRedo)
      this.#history = { ...this.#history, present: photoPart!.turnedAs(previous, picture) };
    if (this.plan !== previous) this.#told(previous, 'picture');
  }

  /** A picture that came as pixels has a file only once the core has written one. */
  async #fetchSource(core: Core, handle: PictureHandle): Promise<void> {
    try {
      const blob = await core.run('original', { picture: handle.id });
      if (this.#picture.handle !== handle) return;
      this.#source = blob;
      this.dispatchEvent(new Event('source'));
    } catch {
      // The plan is then kept without its photo.
    }
  }

  /** Makes the exact copy, again if crop, sitter or corrections change meanwhile. */
  async #work(signal?: AbortSignal, onProgress?: (progress: Progress) => void): Promise<void> {
    const turn = ++this.#turn;
    const { handle } = this.#picture;
    for (;;) {
      const { plan } = this;
      const pass = (this.#pass = new AbortController());
      const onAbort = (): void => pass.abort();
      signal?.addEventListener('abort', onAbort);
      let made: Jobs['working']['out'] | undefined;
      try {
        made = await this.run('working', {}, { key: 'working', signal: pass.signal, onProgress });
      } catch (thrown) {
        const changedMeanwhile = pass.signal.aborted && !signal?.aborted && turn === this.#turn;
        if (!changedMeanwhile) throw thrown;
      } finally {
        signal?.removeEventListener('abort', onAbort);
        if (this.#pass === pass) this.#pass = undefined;
      }
      if (turn !== this.#turn || handle !== this.#picture.handle || signal?.aborted) {
        made?.bitmap?.close();
        return;
      }
      if (!made || !sameTones(plan, this.plan)) {
        made?.bitmap?.close();
        continue;
      }
      const { plane, bitmap, histogram } = made;
      const old = this.#picture.bitmap;
      this.#tonesOf = plan;
      this.#set({ plane, bitmap, histogram, exact: true });
      // The quick copy of the whole photo stays: tools that work on the whole photo show it.
      if (old !== bitmap && old !== handle?.preview.bitmap) old?.close();
      this.#matchRange();
      this.#propose();
      return;
    }
  }

  async #retone(): Promise<void> {
    const turn = ++this.#turn;
    const { plan } = this;
    const { handle } = this.#picture;
    try {
      const { plane, histogram } = await this.run('tones', {}, { key: 'tones' });
      if (turn !== this.#turn || handle !== this.#picture.handle) return;
      this.#tonesOf = plan;
      this.#set({ plane, histogram });
      this.#matchRange();
      this.#propose();
    } catch (thrown) {
      if (turn === this.#turn) this.#trouble(thrown);
    }
  }

  #propose(): void {
    const { histogram } = this.#picture;
    if (!this.#autoLimits || !histogram) return;
    this.amend('limits-proposed', (plan) => photoPart!.withLimitsProposed(plan, histogram));
  }

  /** Lets the plan's range follow the photo's tones. */
  #matchRange(): void {
    const { histogram, exact } = this.#picture;
    if (!histogram || !exact || !this.#tonesOf || !sameTones(this.#tonesOf, this.plan)) return;
    this.amend('range-proposed', (plan) => photoPart!.withRangeMatched(plan, histogram));
  }

  #told(previous: Plan, label: string): void {
    const { plan } = this;
    this.dispatchEvent(new StorePlanEvent(plan, previous, label));
    this.#follow(previous);
  }

  /** Makes tones that follow the present plan, where those of the plan before do not. */
  #follow(previous: Plan): void {
    const { plan } = this;
    if (sameTones(plan, previous)) {
      this.#matchRange();
      return;
    }
    if (this.#pass)
      this.#pass.abort(); // the copy under way begins anew, of the plan as it is now
    else if (!this.#picture.exact) return;
    else if (plan.crop !== previous.crop)
      void this.#work().catch((thrown: unknown) => this.#trouble(thrown));
    else void this.#retone();
  }

  #trouble(thrown: unknown): void {
    if ((thrown as Error).name === 'AbortError') return;
    this.#set({ error: reasonOf(thrown) });
  }

  /** Changes what is known of the picture, and tells so. */
  #set(changes: Partial<PictureState>): void {
    this.#picture = { ...this.#picture, ...changes };
    this.dispatchEvent(new Event('picture'));
  }
}

/** What an opened photo does to the plan; here once a picture was opened. */
let photoPart: typeof PhotoPart | undefined;

async function fetchPhotoPart(): Promise<void> {
  photoPart ??= await partOf(import('./photo-in-plan.js'));
}

/** A new plan; its bands and brushes are named in the words given, else in English. */
export function freshPlan(say?: Say): Plan {
  return say ? inWords(startedPlan(), say) : startedPlan();
}

/** No picture. */
const EMPTY: PictureState = { status: 'empty', name: '', exact: false, warnings: [] };

/** A picture and the plan that belongs to it, while another picture is being opened. */
interface Aside {
  picture: PictureState;
  history: History;
  source?: Blob;
  autoLimits: boolean;
  tonesOf?: Plan;
}

/** Frees what a state holds. */
function letGo(picture: PictureState | undefined): void {
  picture?.bitmap?.close();
  picture?.handle?.preview.bitmap?.close();
  picture?.handle?.close();
}

/** Whether the tones of the photo are the same under both plans. */
function sameTones(a: Plan, b: Plan): boolean {
  return a.crop === b.crop && a.sitter === b.sitter && a.distrusted === b.distrusted;
}

/** The plan with limits and board brought onto its paper, where that is lighter or darker than the one before. */
function onItsPaper(plan: Plan, { paper }: Plan): Plan {
  const same = plan.paper.lightness === paper.lightness;
  return same || !plan.range ? plan : withRange(plan, plan.range);
}

/** The finding behind an error; an unknown one keeps its name and message. */
export function reasonOf(thrown: unknown): Reason {
  if (thrown instanceof CoreError) return thrown.reason;
  const { name = 'Error', message = String(thrown) } = (thrown ?? {}) as {
    name?: string;
    message?: string;
  };
  return { code: name, values: { message } };
}
