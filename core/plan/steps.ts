import { expectInteger, outOfRange } from '../base/check.js';
import type { Reason } from '../base/reason.js';
import type { Spot, Step } from '../base/types.js';
import type { StepPassage } from './passage-types.js';

/**
 * What is done in a step. `keep`: masses that stay paper are drawn and left; `mask`: masking is laid; `tint`: lights are tinted pale;
 * `ground`: the ground is washed in; `lay`: masses get their value; `unmask`: masking comes off; `marks`: the last small marks;
 * `own`: a step of the painter's own.
 */
export type StepKind = 'keep' | 'mask' | 'tint' | 'ground' | 'lay' | 'unmask' | 'marks' | 'own';

/** What the band of a step is in the order. */
export type StepRole = 'darkest' | 'middles' | 'second-darks' | 'lights';

/** A step of the order of work. Plain data that may be kept in a plan. */
export interface WorkStep extends Step {
  /** By what is done, not by when: `mask`, `lay-0` (the first step of band 0), `lay-0-2` (its second), and so on. */
  id: string;
  kind: StepKind;
  /** The masses it lays for good. Each mass is laid in one step or is a reserve. */
  regions: number[];
  /** One spot inside each of `regions`, fractions of the upright photo. */
  at: Spot[];
  /** The reserves it leaves, covers or uncovers. */
  keeps: number[];
  /** Numbers of the marks it keeps or paints ({@link KeptMark.number}). */
  marks: number[];
  /** The band it lays, 0 the darkest. */
  band?: number;
  role?: StepRole;
  /** Pairs of masses that run into each other: the one of this step is laid while the other is wet. */
  soft: [number, number][];
  /** Steps with the same number are painted without drying between them. */
  session: number;
  /** What has to be waited for before it: codes `order.wait-...`. */
  waits: Reason[];
  /** What to see to while doing it: codes `order.hint-...`. */
  hints: Reason[];
  /** What goes wrong when it is done at this place: codes `order.warn-...`. */
  warnings: Reason[];
  /** The passages of its masses in painting order; absent while no passages are known. */
  passages?: StepPassage[];
  done?: boolean;
  /** The painter has moved it. */
  moved?: boolean;
  /** What the painter wrote, for steps of kind `own`. */
  text?: string;
}

/**
 * The steps with one of them at another place.
 *
 * @param to - The place it has afterwards, 0 for the first.
 * @throws {RangeError} when there is no such step or place.
 */
export function withStepMoved<S extends Step>(steps: readonly S[], id: string, to: number): S[] {
  const from = placeOf(steps, id);
  expectInteger('to', to, 0, steps.length - 1);
  const next = steps.slice();
  if (from === to) return next;
  const [step] = next.splice(from, 1);
  next.splice(to, 0, { ...step, moved: true });
  return next;
}

/**
 * The steps with one of them ticked off, or not.
 *
 * @throws {RangeError} when there is no such step.
 */
export function withStepDone<S extends Step>(steps: readonly S[], id: string, done: boolean): S[] {
  const at = placeOf(steps, id);
  const next = steps.slice();
  const { done: _done, ...step } = next[at];
  next[at] = (done ? { ...step, done: true } : step) as S;
  return next;
}

/**
 * Fresh steps with what the painter made of the old ones: ticks stay with their step's id; while a step that the painter moved is among
 * them the old order stays too, new steps standing behind the one they follow in the fresh order. The painter's own steps stay behind the step they
 * stood behind. Steps that are no longer needed go.
 */
export function reconcileSteps(old: readonly Step[], fresh: readonly WorkStep[]): WorkStep[] {
  const before = old.map(asWorkStep);
  const known = new Map(before.map((step) => [step.id, step]));
  const renewed = fresh.map((step): WorkStep => {
    const was = known.get(step.id);
    if (!was || was.kind === 'own') return step;
    return {
      ...step,
      ...(was.done ? { done: true } : {}),
      ...(was.moved ? { moved: true } : {}),
    };
  });
  const byId = new Map(renewed.map((step) => [step.id, step]));
  const left = before
    .filter(({ id, kind }) => kind === 'own' || byId.has(id))
    .map((step) => byId.get(step.id) ?? step);
  return left.some(({ moved }) => moved === true)
    ? inserted(left, renewed)
    : inserted(renewed, left, ({ kind }) => kind === 'own');
}

/** `list` with the steps of `others` that it lacks, each behind the one that it follows there. */
function inserted(
  list: readonly WorkStep[],
  others: readonly WorkStep[],
  which: (step: WorkStep) => boolean = () => true,
): WorkStep[] {
  const next = list.slice();
  others.forEach((step, i) => {
    if (!which(step) || next.some(({ id }) => id === step.id)) return;
    const behind = i === 0 ? -1 : next.findIndex(({ id }) => id === others[i - 1].id);
    next.splice(behind + 1, 0, step);
  });
  return next;
}

function placeOf(steps: readonly Step[], id: string): number {
  const at = steps.findIndex((step) => step.id === id);
  if (at < 0) throw outOfRange('id', id, 'the id of a step');
  return at;
}

const KINDS: readonly unknown[] = [
  'keep',
  'mask',
  'tint',
  'ground',
  'lay',
  'unmask',
  'marks',
] satisfies StepKind[];

/** A step of unknown make as one of ours; what it lacks is empty. */
export function asWorkStep(step: Step): WorkStep {
  const list = <T>(value: unknown): T[] => (Array.isArray(value) ? (value as T[]) : []);
  return {
    ...step,
    kind: KINDS.includes(step.kind) ? (step.kind as StepKind) : 'own',
    regions: list(step.regions),
    at: list(step.at),
    keeps: list(step.keeps),
    marks: list(step.marks),
    soft: list(step.soft),
    session: typeof step.session === 'number' ? step.session : 0,
    waits: list(step.waits),
    hints: list(step.hints),
    warnings: list(step.warnings),
  };
}

/** A step without findings. */
export function bareStep(id: string, kind: StepKind, part: Partial<WorkStep> = {}): WorkStep {
  return {
    id,
    kind,
    regions: [],
    at: [],
    keeps: [],
    marks: [],
    soft: [],
    session: 0,
    waits: [],
    hints: [],
    warnings: [],
    ...part,
  };
}
