import type { TemplateResult } from 'lit';
import type { Board, BoardSwatch, BoardVerdict, Reason, SwatchVerdict } from '../shared/core.js';
import type { SwatchPatch } from './board-moves.js';
import type { Drag, DragController } from './drag-controller.js';

/** Which of the small forms is open; at most one at a time. */
export type OpenForm =
  | { kind: 'add'; bucket: number }
  | { kind: 'swatch'; id: string }
  | { kind: 'band'; bucket: number };

/** What a colour form holds. */
export interface NewColour {
  css: string;
  name: string;
  /** Why it cannot be laid in; empty when nothing is wrong. */
  fault: string;
}

/** Everything that the parts of a board show, and what they ask for. */
export interface BoardView {
  /** The board as shown: under a teacher's rules, a picked-up swatch at its place of the moment. */
  readonly board: Board;
  /** Missing while the verdict is not shown. */
  readonly verdict?: BoardVerdict;
  readonly verdicts: ReadonlyMap<string, SwatchVerdict>;
  /** L* of the bare paper. */
  readonly paper: number;
  readonly greys: boolean;
  /** Whether a person may change the board. */
  readonly open: boolean;
  readonly form?: OpenForm;
  readonly colour: NewColour;
  /** Swatches asked for in each bucket; missing when the page asks for none in particular. */
  readonly required?: readonly number[];
  readonly lifted?: string;
  readonly pointed?: string;
  readonly drag?: Drag;
  readonly dragging: DragController;

  say(key: string, values?: Readonly<Record<string, string | number>>): string;
  tell(reason: Reason): string;
  /** A number with at most one decimal, in the reader's way of writing. */
  number(value: number): string;
  nameOf(id: string): string;

  show(form: OpenForm | undefined): void;
  point(id: string | undefined): void;
  keyOnDab(event: KeyboardEvent, id: string): void;
  leaveDab(id: string): void;
  setColour(change: Partial<NewColour>): void;
  addColour(bucket: number): void;
  edit(id: string, patch: SwatchPatch): void;
  move(id: string, bucket: number): void;
  remove(id: string): void;
  nameBand(bucket: number, name: string): void;
  limitBand(bucket: number, value: number): void;
  splitBand(bucket: number): void;
  removeBand(bucket: number): void;
  /** What may be done to a band. */
  bandMay(bucket: number): { name: boolean; limit: boolean; split: boolean; remove: boolean };
}

/** A part of the view. */
export type Part = TemplateResult | string | symbol;

/** What to call a swatch: its name, else its colour as written, else nothing but its value. */
export function labelOf(swatch: BoardSwatch | undefined, unnamed: string): string {
  return swatch?.name || swatch?.css || unnamed;
}
