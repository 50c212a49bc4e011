import {
  abortError,
  reason,
  type CheckInput,
  type CheckReport,
  type Corners,
  type Masses,
  type MassesInput,
  type Plan,
  type Reason,
  type WhiteInput,
  type WorkStep,
} from '../shared/core.js';
import { massesAsked, MassesInHand, type MassWork } from '../shared/masses-in-hand.js';
import type { PlanStore } from '../shared/plan-store.js';
import { faultOf } from './faults.js';
import { laidOf, lastDone, loadsOf, reservesIn, targetsOf } from './planned.js';

/** What a check is made with. */
export interface Asked {
  corners: Corners;
  white: WhiteInput;
  /** `null`: the last step that is ticked off. */
  upToStep: number | null;
  /** Metres. */
  distance: number;
}

/** A check that was made, with what it was made of. */
export interface Made {
  report: CheckReport;
  asked: Asked;
  plan: Plan;
  steps: readonly WorkStep[];
  /** The step that was taken for the last one done. */
  upToStep: number;
  targets: number[];
  masses: Masses;
  /** SVG paths of the masses' outlines. */
  outlines: readonly string[];
  work: MassWork;
  pxPerMm: number;
  /** Key of what it answers. */
  key: string;
  /** What the worker was asked, for another distance. */
  input: CheckInput;
  photo: { width: number; height: number };
}

export interface CheckState {
  status: 'none' | 'working' | 'ready' | 'failed' | 'stopped';
  stage: string;
  done: number;
  made?: Made;
  error?: Reason;
}

const NONE: CheckState = { status: 'none', stage: '', done: 0 };

/** Everything that a check depends on, as one text. */
export function keyOfCheck(store: PlanStore, painting: PlanStore, asked: Asked): string {
  const { plan, picture } = store;
  const { crop, sitter, distrusted, board, shelf, range, paper, steps, way, background } = plan;
  const { distance: _distance, ...rest } = asked;
  const parts = [crop, sitter, distrusted, board, shelf, range, paper, steps, way, background];
  const photos = [picture.handle?.id, painting.picture.handle?.id];
  return JSON.stringify([photos, massesAsked(plan), parts, rest]);
}

/** The check as far as it has come: the plan's masses and order of work, then the job in the worker. */
export class Checking {
  state = NONE;
  readonly #told: () => void;
  #running?: AbortController;

  constructor(told: () => void) {
    this.#told = told;
  }

  /** Gives up the check under way; what was found before stays. */
  stop(): void {
    if (!this.#running) return;
    this.#running.abort();
    this.#running = undefined;
    this.#set({ ...this.state, status: 'stopped' });
  }

  /** Another painting: nothing is known of it. */
  drop(): void {
    this.#running?.abort();
    this.#running = undefined;
    if (this.state !== NONE) this.#set(NONE);
  }

  /** Puts a fault aside. */
  forgive(): void {
    const { made } = this.state;
    this.#set({ ...this.state, status: made ? 'ready' : 'none', error: undefined });
  }

  /** Checks; `undefined` when it was stopped, failed, or another check took its place. */
  async check(store: PlanStore, painting: PlanStore, asked: Asked): Promise<Made | undefined> {
    this.#running?.abort();
    const running = (this.#running = new AbortController());
    this.#set({ ...this.state, status: 'working', stage: '', done: 0, error: undefined });
    let next: CheckState;
    try {
      const made = await this.#work(store, painting, asked, running.signal);
      next = { status: 'ready', stage: '', done: 1, made };
    } catch (thrown) {
      next = { ...this.state, status: 'failed', error: faultOf(thrown) };
    }
    if (this.#running !== running) {
      next.made?.report.rectified.bitmap?.close();
      return undefined;
    }
    this.#running = undefined;
    if (next.made !== this.state.made) this.state.made?.report.rectified.bitmap?.close();
    this.#set(next);
    return next.status === 'ready' ? next.made : undefined;
  }

  /** The check at hand as it reads from another distance; the rest of it stays. `undefined` when another one took its place. */
  async stepBack(painting: PlanStore, distance: number): Promise<Made | undefined> {
    const { made } = this.state;
    if (!made || this.#running) return undefined;
    const input = { ...made.input, distance };
    const core = await painting.core();
    const afar = await core.run('checkAfar', input, { key: 'step back of the check' });
    if (this.state.made !== made) return undefined;
    const { report, asked } = made;
    const next: Made = {
      ...made,
      input,
      asked: { ...asked, distance },
      report: { ...report, afar, summary: summaryFrom(report.summary, afar) },
    };
    this.#set({ ...this.state, made: next });
    return next;
  }

  async #work(
    store: PlanStore,
    painting: PlanStore,
    asked: Asked,
    signal: AbortSignal,
  ): Promise<Made> {
    const { plan } = store;
    const { handle } = painting.picture;
    if (!store.picture.handle || !handle) throw abortError();
    const key = keyOfCheck(store, painting, asked);
    const onProgress = ({ stage, done }: { stage: string; done: number }): void => {
      if (!signal.aborted) this.#set({ ...this.state, stage, done });
    };
    onProgress({ stage: 'masses', done: 0 });
    const planned = await plannedFor(store, asked.upToStep, signal, (done) =>
      onProgress({ stage: 'masses', done }),
    );
    const { work, steps, upToStep, targets, input: planInput } = planned;
    const { masses } = work;
    const { paper, shelf = [], board } = plan;
    const core = await painting.core();
    const input: CheckInput = {
      picture: handle.id,
      corners: asked.corners,
      white: asked.white,
      paperLightness: paper.lightness,
      plan: planInput,
      targets,
      reserves: reservesIn(masses, steps),
      order: [...steps],
      upToStep,
      distance: asked.distance,
      paperHeightMm: paper.heightMm,
      tubes: shelf.map(({ tube }) => tube),
      laid: laidOf(plan, masses.map.bands),
      loads: loadsOf(plan),
      board,
    };
    const report = await core.run('check', input, { signal, onProgress });
    return {
      report,
      asked,
      plan,
      steps,
      upToStep,
      targets,
      masses,
      outlines: work.lines.outlines,
      work,
      pxPerMm: masses.map.width / paper.widthMm,
      key,
      input,
      photo: { width: handle.width, height: handle.height },
    };
  }

  #set(state: CheckState): void {
    this.state = state;
    this.#told();
  }
}

/** A summary whose word on the distance is another one. */
function summaryFrom(
  summary: readonly Reason[],
  { reads, similarity }: CheckReport['afar'],
): Reason[] {
  const told = reason(AFAR[reads], { similarity: Math.round(100 * similarity) });
  const codes: string[] = Object.values(AFAR);
  return summary.map((each) => (codes.includes(each.code) ? told : each));
}

/** The codes that say how a painting reads from afar. */
export const AFAR = {
  well: 'check.reads',
  nearly: 'check.reads-nearly',
  not: 'check.reads-not',
} as const;

/** What of the plan a check needs. */
export interface PlannedWork {
  work: MassWork;
  steps: readonly WorkStep[];
  upToStep: number;
  targets: number[];
  /** What gives the masses, for jobs. */
  input: MassesInput;
}

/** The masses, order of work and targets of a plan as it is now; somebody must hold the masses. */
export async function plannedFor(
  store: PlanStore,
  chosen: number | null,
  signal: AbortSignal,
  progress: (done: number) => void = () => undefined,
): Promise<PlannedWork> {
  const { plan, picture } = store;
  const { crop, sitter, distrusted } = plan;
  const work = await massesOf(store, signal, progress);
  const asked = massesAsked(plan);
  const { steps } = await store.run('order', { ...asked, plan }, { signal });
  return {
    work,
    steps,
    upToStep: Math.min(chosen ?? lastDone(steps), steps.length - 1),
    targets: targetsOf(plan, work.masses),
    input: { picture: picture.handle!.id, crop, sitter, distrusted, ...asked },
  };
}

/** The masses of the plan's photo as the plan is now; somebody must hold them. */
function massesOf(
  store: PlanStore,
  signal: AbortSignal,
  progress: (done: number) => void,
): Promise<MassWork> {
  const hand = MassesInHand.of(store);
  return new Promise((resolve, reject) => {
    const leave = (): void => {
      hand.removeEventListener('masses', look);
      signal.removeEventListener('abort', abort);
    };
    const abort = (): void => {
      leave();
      reject(abortError());
    };
    const look = (): void => {
      const { status, work, error, progress: done } = hand.state;
      if (status === 'ready' && work) {
        leave();
        resolve(work);
      } else if (status === 'failed') {
        leave();
        reject(Object.assign(new Error(error?.code ?? ''), { name: error?.code ?? 'Error' }));
      } else if (status === 'stopped') hand.again();
      else progress(done);
    };
    hand.addEventListener('masses', look);
    signal.addEventListener('abort', abort);
    if (hand.state.status === 'failed') hand.again();
    look();
  });
}
