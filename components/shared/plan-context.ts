import type { PlanStore } from './plan-store.js';

/** The key under which a plan is asked for, by the web components community's context protocol. */
export const PLAN_CONTEXT = 'tonewell-plan';

/** Something that holds a plan, such as `<painting-plan>`. */
export interface PlanOwner extends EventTarget {
  readonly store: PlanStore;
}

/** The request for a plan, in the shape of the context protocol. */
export class PlanRequestEvent extends Event {
  readonly context = PLAN_CONTEXT;

  constructor(
    readonly contextTarget: Element,
    readonly callback: (store: PlanStore) => void,
    readonly subscribe = false,
  ) {
    super('context-request', { bubbles: true, composed: true });
  }
}

/** A holder of a plan has come into the page: whoever has no plan yet may ask again. */
export class PlanProviderEvent extends Event {
  readonly context = PLAN_CONTEXT;

  constructor(readonly contextTarget: Element) {
    super('context-provider', { bubbles: true, composed: true });
  }
}

/** The store of a plan or of its holder. */
export function storeOf(plan: PlanStore | PlanOwner | null | undefined): PlanStore | undefined {
  if (!plan) return undefined;
  return 'store' in plan ? plan.store : plan;
}
