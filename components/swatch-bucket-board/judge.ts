import { breathe, SLICE_MS } from '../../core/worker/slices.js';
import { judgeBoardKernel, type Board, type BoardVerdict } from '../shared/core.js';

/** A board whose verdict is known or being worked out. */
interface Case {
  readonly board: Board;
  /** L* of the bare paper. */
  readonly paper: number;
  readonly work: ReturnType<typeof judgeBoardKernel>;
  verdict?: BoardVerdict;
  coming?: Promise<BoardVerdict>;
}

/** Boards at hand: as it is, as it would be with the swatch in hand laid down here and there, and some that are waited for. */
const MOST_CASES = 6;

/**
 * Judges boards. Most are judged at once; one that takes longer than a slice goes on between the frames of the page. It comes as soon as
 * the element is on a page. Boards never change once they are made, so each is judged once.
 */
export class Judge {
  readonly #told: () => void;
  #cases: Case[] = [];

  /** @param told - called when a verdict is known that was not known at once. */
  constructor(told: () => void) {
    this.#told = told;
  }

  /** The verdict on a board; `undefined` while it is being worked out. */
  of(board: Board, paper: number): BoardVerdict | undefined {
    const each = this.#caseOf(board, paper);
    if (!each.verdict && !each.coming) {
      this.#advance(each, performance.now() + SLICE_MS);
      if (!each.verdict) each.coming = this.#later(each);
    }
    return each.verdict;
  }

  /** The verdict on a board, however long it takes. */
  atOnce(board: Board, paper: number): BoardVerdict {
    return this.#advance(this.#caseOf(board, paper), Infinity)!;
  }

  /** Hands on the verdict: at once where it is known, else when it is. */
  when(board: Board, paper: number, tell: (verdict: BoardVerdict) => void): void {
    const verdict = this.of(board, paper);
    if (verdict) tell(verdict);
    else void this.#caseOf(board, paper).coming!.then(tell);
  }

  #caseOf(board: Board, paper: number): Case {
    const old = this.#cases.find((each) => each.board === board && each.paper === paper);
    if (old) return old;
    const fresh: Case = { board, paper, work: judgeBoardKernel(board, { paper }) };
    this.#cases = [fresh, ...this.#cases.slice(0, MOST_CASES - 1)];
    return fresh;
  }

  /** Goes on with a case up to a point in time. One that cannot be judged is put away with its error, and begun anew when asked again. */
  #advance(each: Case, until: number): BoardVerdict | undefined {
    try {
      while (!each.verdict) {
        const step = each.work.next();
        if (step.done) each.verdict = step.value;
        else if (performance.now() >= until) break;
      }
    } catch (fault) {
      this.#cases = this.#cases.filter((other) => other !== each);
      throw fault;
    }
    return each.verdict;
  }

  async #later(each: Case): Promise<BoardVerdict> {
    for (;;) {
      await breathe();
      const verdict = this.#advance(each, performance.now() + SLICE_MS);
      if (!verdict) continue;
      this.#told();
      return verdict;
    }
  }
}

/** What the old verdict still says of another board: that of swatches which are as they were. */
export function keptVerdict(
  { swatches, overlaps, gaps }: BoardVerdict,
  old: Board,
  board: Board,
): BoardVerdict {
  const there = new Set(board.swatches);
  const same = new Set(old.swatches.filter((swatch) => there.has(swatch)).map(({ id }) => id));
  return {
    swatches: swatches.filter(({ id }) => same.has(id)),
    overlaps: overlaps.filter((pair) => pair.every((id) => same.has(id))),
    gaps: old.bands.length === board.bands.length ? gaps : [],
  };
}
