import type { PlanStore } from '../../shared/plan-store.js';
import type { Plan } from '../../shared/core.js';
import type { ToolHost } from '../stage-tool.js';
import type { PhotoSize } from './crop-geometry.js';

let gestures = 0;
/** Keys pressed within this time of one another are one gesture. */
const SERIES_MS = 1000;

/** What the tools share: their words, the plan, and steps of undo. */
export abstract class HandTool {
  protected readonly host: ToolHost;
  #gesture = '';
  #kind = '';
  #last = 0;

  constructor(host: ToolHost) {
    this.host = host;
  }

  protected get store(): PlanStore {
    return this.host.store;
  }

  protected get plan(): Plan {
    return this.host.store.plan;
  }

  /** Size of the upright photo in pixels; undefined while there is none. */
  protected get photo(): PhotoSize | undefined {
    const { handle } = this.host.store.picture;
    return handle && { width: handle.width, height: handle.height };
  }

  protected say(key: string, values?: Readonly<Record<string, string | number>>): string {
    return this.host.words(key, values);
  }

  /** A name under which changes become one step of undo. */
  protected newGesture(): string {
    return `tool ${++gestures}`;
  }

  /** The gesture of a quick series (held or repeated keys, a slider under way): a pause or another kind begins a new one. */
  protected series(kind: string): string {
    const now = performance.now();
    if (kind !== this.#kind || now - this.#last > SERIES_MS) this.#gesture = this.newGesture();
    this.#kind = kind;
    this.#last = now;
    return this.#gesture;
  }

  /** Ends the series: the next change is a step of its own. */
  protected endSeries = (): void => {
    this.#kind = '';
  };
}

/** The way an arrow key points, image y down; undefined for other keys. */
export function arrowOf(key: string): [dx: number, dy: number] | undefined {
  switch (key) {
    case 'ArrowLeft':
      return [-1, 0];
    case 'ArrowRight':
      return [1, 0];
    case 'ArrowUp':
      return [0, -1];
    case 'ArrowDown':
      return [0, 1];
    default:
      return undefined;
  }
}

/** 1 for keys that make larger, -1 for those that make smaller, 0 for others. */
export function growthOf(key: string): -1 | 0 | 1 {
  if (key === '+' || key === '=') return 1;
  return key === '-' || key === '_' || key === '−' ? -1 : 0;
}

/** Whether a key is held together with one that makes it a command of the browser or the page. */
export function isCommand(event: KeyboardEvent): boolean {
  return event.ctrlKey || event.metaKey || event.altKey;
}
