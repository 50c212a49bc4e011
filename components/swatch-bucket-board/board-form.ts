import {
  LEAN_NAMES,
  parseBoard,
  type Board,
  type BoardVerdict,
  type Lack,
  type LeanName,
} from '../shared/core.js';

/** What a form receives. */
export interface BoardDocument {
  schema: 1;
  /** The lesson's title; empty without a lesson. */
  lesson: string;
  /** The board under the lesson's (or the attributes') rules. */
  board: Board;
  /** What was judged of it, whether or not it was shown. */
  verdict: BoardVerdict;
  /** What its buckets lack in number and lean. */
  lacks: Lack[];
  /** 1 for the first time that this board is handed in. */
  attempt: number;
  /** When it was last changed or handed in: an instant as `2026-01-31T12:00:00.000Z`. */
  made: string;
}

/** The text that a form receives. */
export function documentText(document: Omit<BoardDocument, 'schema'>): string {
  const { lesson, board, verdict, lacks, attempt, made } = document;
  return JSON.stringify({
    schema: 1,
    lesson,
    board,
    verdict,
    lacks,
    attempt,
    made,
  } satisfies BoardDocument);
}

/**
 * The board in a text that a form (or a page) gives back: a document with the verdict, which is left aside and judged anew, or a
 * plain board.
 *
 * @throws {BoardError} when there is no sound board in it.
 */
export function boardOfText(value: unknown): Board {
  let parsed = value;
  if (typeof value === 'string') {
    try {
      parsed = JSON.parse(value);
    } catch {
      return parseBoard(value); // tells why the text cannot be read
    }
  }
  const inside =
    typeof parsed === 'object' && parsed !== null && 'board' in parsed
      ? (parsed as { board: unknown }).board
      : parsed;
  return parseBoard(inside);
}

/**
 * How many swatches each bucket needs: one number for all, or one for each band from dark to light (the last goes on for the rest).
 * One where nothing sensible is written.
 */
export function requiredCounts(text: string | null, bands: number): number[] {
  const numbers = (text ?? '')
    .split(/[\s,]+/)
    .filter((part) => part !== '')
    .map((part) => Math.max(0, Math.floor(Number(part))));
  const counts = numbers.length > 0 && numbers.every(Number.isFinite) ? numbers : [1];
  return Array.from({ length: bands }, (_, i) => counts[Math.min(i, counts.length - 1)]);
}

/**
 * The leans that an attribute asks for, `blue orange | neutral | red blue`: for each band, dark to light, names parted by spaces or
 * commas, bands parted by bars.
 *
 * @returns a list for each band that is written, and the names that are no leans (left out).
 */
export function leansOf(text: string): { leans: LeanName[][]; unknown: string[] } {
  const unknown: string[] = [];
  const known = (name: string): name is LeanName => {
    const is = (LEAN_NAMES as readonly string[]).includes(name);
    if (!is) unknown.push(name);
    return is;
  };
  const leans =
    text.trim() === ''
      ? []
      : text.split('|').map((part) =>
          part
            .split(/[\s,]+/)
            .filter((name) => name !== '')
            .filter(known),
        );
  return { leans, unknown };
}

/** The swatches that are at fault, in the board's order. */
export function faultsOf(verdict: BoardVerdict): string[] {
  return verdict.swatches
    .filter((each) => each.verdict === 'too-dark' || each.verdict === 'too-light')
    .map(({ id }) => id);
}
