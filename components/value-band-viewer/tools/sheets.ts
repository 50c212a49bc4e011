/** Common sheet sizes. */
import { MM_IN_INCH } from '../../shared/measure.js';

/** How sure a size is: fixed by a standard, or what sheets and blocks are usually sold as. */
export type SheetSource = 'iso' | 'trade' | 'memory';

export interface Sheet {
  /** Its word is `sheet.` and this key. */
  key: string;
  /** The longer and the shorter side, mm. */
  long: number;
  short: number;
  source: SheetSource;
}

const inches = (long: number, short: number): Pick<Sheet, 'long' | 'short'> => ({
  long: long * MM_IN_INCH,
  short: short * MM_IN_INCH,
});

/**
 * Sheets to choose from. A sizes: ISO 216. The parts of the full sheet and the blocks: common trade sizes (makers differ by
 * some millimetres); those marked `memory` are from memory.
 */
export const SHEETS: readonly Sheet[] = [
  { key: 'eighth', ...inches(11, 7.5), source: 'trade' },
  { key: 'quarter', ...inches(15, 11), source: 'trade' },
  { key: 'half', ...inches(22, 15), source: 'trade' },
  { key: 'full', ...inches(30, 22), source: 'trade' },
  { key: 'block-10-7', ...inches(10, 7), source: 'memory' },
  { key: 'block-12-9', ...inches(12, 9), source: 'trade' },
  { key: 'block-14-10', ...inches(14, 10), source: 'memory' },
  { key: 'block-16-12', ...inches(16, 12), source: 'memory' },
  { key: 'block-20-14', ...inches(20, 14), source: 'memory' },
  { key: 'block-24-18', ...inches(24, 18), source: 'trade' },
  { key: 'a5', long: 210, short: 148, source: 'iso' },
  { key: 'a4', long: 297, short: 210, source: 'iso' },
  { key: 'a3', long: 420, short: 297, source: 'iso' },
  { key: 'a2', long: 594, short: 420, source: 'iso' },
];

/** The sheet of a size, whichever way it lies, to within half a millimetre. */
export function sheetOf(widthMm: number, heightMm: number): Sheet | undefined {
  const long = Math.max(widthMm, heightMm);
  const short = Math.min(widthMm, heightMm);
  return SHEETS.find(
    (sheet) => Math.abs(sheet.long - long) < 0.5 && Math.abs(sheet.short - short) < 0.5,
  );
}
