import type { nothing, TemplateResult } from 'lit';
import type {
  Board,
  BoardSwatch,
  BoardVerdict,
  Lack,
  Reason,
  SwatchVerdict,
} from '../shared/core.js';
import type { BoardActs } from './acts.js';
import type { NewColour, OpenForm } from './open-form.js';
import type { BandMay } from './band-rules.js';
import type { Drag, DragController } from './drag-controller.js';

/** What is told of mixes: recipes of swatches, and what would complete a bucket. */
export interface BoardMixes {
  renderRecipe(swatch: BoardSwatch): TemplateResult | typeof nothing;
  renderComplete(view: BoardView, bucket: number): TemplateResult | typeof nothing;
}

/** What is told of accents. */
export interface BoardAccents {
  /** An accent's vividness and its cost in value, then where its hue comes again: sentences of one paragraph each; none for what is none. */
  told(view: BoardView, swatch: BoardSwatch): string[];
}

/** Everything that the parts of a board show, and what they ask for. */
export interface BoardView {
  /** The board as shown: under a teacher's rules, a picked-up swatch at its place of the moment. */
  readonly board: Board;
  /** Missing while the verdict is not shown; while a board is being judged, of those swatches that are as they were. */
  readonly verdict?: BoardVerdict;
  /** The same object for a swatch as long as the same is said of it. */
  readonly verdicts: ReadonlyMap<string, SwatchVerdict>;
  /** The ids of the swatches that are drawn; those of a large board come some at a time. */
  readonly drawn: ReadonlySet<string>;
  /** L* of the bare paper. */
  readonly paper: number;
  readonly greys: boolean;
  /** Whether the plan is shared, so that others may send swatches. */
  readonly tied: boolean;
  /** Whether a person may change the board. */
  readonly open: boolean;
  readonly form?: OpenForm;
  readonly colour: NewColour;
  /** What the page asks for and buckets still lack. */
  readonly lacks: readonly Lack[];
  readonly lifted?: string;
  readonly pointed?: string;
  readonly drag?: Drag;
  readonly dragging: DragController;
  /** Another object whenever the same would be said in other words. */
  readonly words: object;

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
  readonly acts: BoardActs;
  /** Missing until a recipe or a shelf makes it come. */
  readonly mixes?: BoardMixes;
  /** Missing until an accent makes it come. */
  readonly accents?: BoardAccents;
  bandMay(bucket: number): BandMay;
}

/** What to call a swatch: its name, else its colour as written, else nothing but its value. */
export function labelOf(swatch: BoardSwatch | undefined, unnamed: string): string {
  return swatch?.name || swatch?.css || unnamed;
}
