import type { Reason } from '../shared/core.js';
import type { LengthUnit } from '../shared/measure.js';
import type { PlanStore } from '../shared/plan-store.js';
import type { PlanKeeper } from './keeper.js';

/** What the panels of the plan have of their element. */
export interface Desk {
  readonly store: PlanStore;
  readonly keeper: PlanKeeper;
  readonly locale: string;
  /** What lengths are told in. */
  readonly unit: LengthUnit;
  say(key: string, values?: Readonly<Record<string, string | number>>): string;
  tell(reason: Reason): string;
  announce(text: string): void;
  /** Shows the panel again. */
  update(): void;
  /** Settles once it is shown. */
  shown(): Promise<unknown>;
  /** Takes up the plan under a key, as a person asked to; tells when it could not. */
  open(key: string): Promise<boolean>;
  /** Begins a new plan beside the others. */
  fresh(): Promise<boolean>;
  /** Takes up a plan file that a person gave. */
  openFile(file: File): Promise<void>;
  /** Shows the plan as a text to copy, where a file may not reach the person. */
  offerText(text: string, name: string): void;
  /** The element's own root, to move the focus. */
  root(): ShadowRoot | null;
}

/** An id for something new in a plan. */
export function freshId(): string {
  return globalThis.crypto?.randomUUID?.() ?? `${Date.now()}-${Math.random()}`;
}

/** A title to speak of, for a plan that has none yet. */
export function titleOf(desk: Desk, title: string): string {
  return title || desk.say('plan.untitled');
}
