import type { Plan } from './types.js';

/** How many changes can be taken back. */
export const HISTORY_LIMIT = 200;

/** One change that can be taken back or made again. */
export interface Change {
  /** What was done, as the caller names it. */
  readonly label: string;
  /** The gesture it belongs to; changes of one gesture are one step. */
  readonly gesture?: string;
  /** The plan on the other side of the change: before it in `past`, after it in `future`. */
  readonly plan: Plan;
}

/** A plan with what came before it and what was taken back. Immutable; plans are shared, never copied. */
export interface History {
  readonly present: Plan;
  /** Oldest first, at most {@link HISTORY_LIMIT}. */
  readonly past: readonly Change[];
  /** The next to be made again comes last. */
  readonly future: readonly Change[];
}

/** A history without changes. */
export function startHistory(plan: Plan): History {
  return { present: plan, past: [], future: [] };
}

/**
 * The history after a change.
 *
 * A change with the `gesture` of the latest change joins that step (a drag is one step), unless something was taken back
 * since. A plan that is the present one (the same object) changes nothing and returns the same history. A change
 * forgets what was taken back. Beyond {@link HISTORY_LIMIT} steps the oldest is forgotten.
 */
export function changed(
  history: History,
  plan: Plan,
  change: { label: string; gesture?: string },
): History {
  if (plan === history.present) return history;
  const latest = history.past[history.past.length - 1];
  if (
    change.gesture !== undefined &&
    latest?.gesture === change.gesture &&
    history.future.length === 0
  ) {
    return { present: plan, past: history.past, future: history.future };
  }
  const step: Change = {
    label: change.label,
    plan: history.present,
    ...(change.gesture === undefined ? {} : { gesture: change.gesture }),
  };
  return { present: plan, past: [...history.past, step].slice(-HISTORY_LIMIT), future: [] };
}

/** The history with its latest change taken back; the same history when there is none. */
export function undone(history: History): History {
  const latest = history.past[history.past.length - 1];
  if (latest === undefined) return history;
  return {
    present: latest.plan,
    past: history.past.slice(0, -1),
    future: [...history.future, { ...latest, plan: history.present }],
  };
}

/** The history with the change last taken back made again; the same history when there is none. */
export function redone(history: History): History {
  const next = history.future[history.future.length - 1];
  if (next === undefined) return history;
  return {
    present: next.plan,
    past: [...history.past, { ...next, plan: history.present }],
    future: history.future.slice(0, -1),
  };
}

export function canUndo(history: History): boolean {
  return history.past.length > 0;
}

export function canRedo(history: History): boolean {
  return history.future.length > 0;
}

/** The label of the change that {@link undone} would take back. */
export function undoLabel(history: History): string | undefined {
  return history.past[history.past.length - 1]?.label;
}

/** The label of the change that {@link redone} would make again. */
export function redoLabel(history: History): string | undefined {
  return history.future[history.future.length - 1]?.label;
}
