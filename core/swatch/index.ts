/**
 * Boards: buckets of swatches, one a band of value, and whether each swatch belongs. Lightness is L* (0..100) of dry paint.
 */
export { judgeBoard, SWATCH_CODES, type SwatchCode } from './judge.js';
export { BoardError, parseBoard } from './parse.js';
export { BOARD_SCHEMA } from './schema.js';
export type {
  Board,
  BoardBand,
  BoardSwatch,
  BoardVerdict,
  SwatchVerdict,
  SwatchVerdictKind,
} from './types.js';
