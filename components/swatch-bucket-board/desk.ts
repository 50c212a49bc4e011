import type { Board, BoardVerdict, Lack } from '../shared/core.js';
import type { PlanStore } from '../shared/plan-store.js';
import type { OpenForm } from './open-form.js';

/** The present board under a teacher's rules, what it lacks, and what is judged of it: missing while that is not known. */
export interface Judged {
  ruled: Board;
  lacks: Lack[];
  verdict?: BoardVerdict;
}

/** What the helpers of a board ask of the element they work for. */
export interface BoardFacts {
  store(): PlanStore;
  /** Whether a person may change the board. */
  isOpen(): boolean;
  /** Whether the verdict is shown. */
  isTold(): boolean;
  now(): Judged;
  /** The verdict on another board; `undefined` while it is being worked out. */
  verdictOf(board: Board): BoardVerdict | undefined;
  /** Hands on the verdict on a board as soon as it is known. */
  whenJudged(board: Board, tell: (verdict: BoardVerdict) => void): void;
  /** The text that a form receives. */
  document(verdict?: BoardVerdict): string;
  say(key: string, values?: Readonly<Record<string, string | number>>): string;
  /** Lets screen readers hear a sentence. */
  speak(text: string): void;
  nameOf(id: string): string;
  /** What the board is called: the lesson's title, else the plan's. */
  title(): string;
  fire(event: Event): void;
  update(): void;
  find(selector: string): HTMLElement | null;
}

/** What they ask of the table beside it. */
export interface Desk extends BoardFacts {
  /** The sentence about the whole board. */
  sum(): string;
  /** Opens one of the small forms, or closes the open one. */
  show(form: OpenForm | undefined): void;
  /** Closes forms and lets go of what is picked up or dragged. */
  close(): void;
  dabOf(id: string): HTMLElement | null;
  /** Where the focus goes once the change is on the page. */
  focusLater(find: () => HTMLElement | null): void;
}
