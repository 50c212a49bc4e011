import { parseBoard, type Board, type BoardVerdict } from '../shared/core.js';

/** What a form receives: the board and what was judged of it. */
export interface BoardDocument {
  board: Board;
  verdict: BoardVerdict;
}

/** A bucket with fewer swatches than are asked for. */
export interface Lack {
  bucket: number;
  found: number;
  required: number;
}

/** The text that a form receives. */
export function documentText(board: Board, verdict: BoardVerdict): string {
  return JSON.stringify({ board, verdict } satisfies BoardDocument);
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

/** The buckets that hold too few swatches. */
export function lacksOf(board: Board, required: readonly number[]): Lack[] {
  return board.bands.flatMap((_, bucket) => {
    const found = board.swatches.filter((swatch) => swatch.bucket === bucket).length;
    return found < required[bucket] ? [{ bucket, found, required: required[bucket] }] : [];
  });
}

/** The swatches that are at fault, in the board's order. */
export function faultsOf(verdict: BoardVerdict): string[] {
  return verdict.swatches
    .filter((each) => each.verdict === 'too-dark' || each.verdict === 'too-light')
    .map(({ id }) => id);
}
