import type { Board, BoardVerdict } from '../core.js';
import { KitEvent } from './kit-event.js';

/** What a person did to a board. `band`: its bands (a name, a limit, one more, one fewer). */
export type BoardAct = 'add' | 'move' | 'edit' | 'remove' | 'band' | 'undo' | 'redo';

/** A person changed the board. Type `board-change`. */
export class BoardChangeEvent extends KitEvent {
  #board: Board;
  #verdict: BoardVerdict;
  #copies: { board?: Board; verdict?: BoardVerdict } = {};

  constructor(
    board: Board,
    verdict: BoardVerdict,
    readonly what: BoardAct,
    /** The swatch that was added, moved, edited or removed; empty for the rest. */
    readonly swatch = '',
  ) {
    super('board-change');
    this.#board = board;
    this.#verdict = verdict;
  }

  /** The board as it is now, a teacher's rules laid over its bands; a copy, made when it is first asked for. */
  get board(): Board {
    return (this.#copies.board ??= structuredClone(this.#board));
  }

  /** What is judged of it, whether or not it is shown; a copy, made when it is first asked for. */
  get verdict(): BoardVerdict {
    return (this.#copies.verdict ??= structuredClone(this.#verdict));
  }
}

declare global {
  interface HTMLElementEventMap {
    'board-change': BoardChangeEvent;
  }
}
