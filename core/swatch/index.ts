/**
 * Boards: buckets of swatches, one a band of value, and whether each swatch belongs; lessons about them and the marking of what is
 * handed in. Photographed test sheets read, the painter's own value card, and what all the dabs so far tell. Lightness is L* (0..100)
 * of dry paint.
 */
export {
  CARD_CODES,
  certifyCard,
  type CardCode,
  type CardOptions,
  type CardReading,
  type CardStep,
  type CardVerdict,
} from './card.js';
export { swatchesFromCss, swatchesFromCssKernel } from './css-read.js';
export { customPropertiesOf, type CustomPropertiesOptions } from './css-properties.js';
export {
  dabOf,
  HABIT_CODES,
  habitsOf,
  provenMixes,
  searchDabs,
  type DabSearch,
  type HabitCode,
  type ProvenMix,
} from './dabs.js';
export {
  boardWithSwatches,
  SWATCH_FILE_CODES,
  SwatchesError,
  type JoinedBoard,
  type ReadSwatch,
  type ReadSwatches,
  type SwatchFileCode,
  type SwatchFileOptions,
} from './exchange.js';
export { judgeBoard, judgeBoardKernel, SWATCH_CODES, type SwatchCode } from './judge.js';
export {
  lacksOf,
  LEAN_NAMES,
  LESSON_SCHEMA,
  lessonBands,
  LessonError,
  lessonNeeds,
  parseLesson,
  swatchLean,
  type Lesson,
} from './lesson.js';
export { lacksBy, type Lack, type LessonNeeds } from './lacks.js';
export {
  classReport,
  MARKING_CODES,
  markSubmission,
  parseSubmission,
  SUBMISSION_SCHEMA,
  SubmissionError,
  type ClassReport,
  type CommonMistake,
  type Marked,
  type MarkingCode,
  type MarkingOptions,
  type MistakenSwatch,
  type StudentReport,
  type Submission,
} from './marking.js';
export { BoardError, parseBoard } from './parse.js';
export { BOARD_SCHEMA } from './schema.js';
export { readSheet, sheetKernel, type SheetAndLight } from './sheet.js';
export { readSwatch } from './sheet-again.js';
export type { SheetLight } from './sheet-light.js';
export {
  SHEET_CODES,
  SHEET_DOUBTS,
  SHEET_LIMITS,
  type SheetCode,
  type SheetDoubt,
  type SheetLimit,
  type SheetReadingOptions,
  type SheetReading,
  type SheetSwatch,
} from './sheet-types.js';
export { swatchesSvg } from './swatches-svg.js';
export { DESIGN_TOKENS_TYPE, designTokensOf, type DesignTokens } from './tokens.js';
export { swatchesFromTokens, swatchesFromTokensKernel } from './tokens-read.js';
export type {
  Board,
  BoardBand,
  BoardSwatch,
  BoardVerdict,
  SwatchVerdict,
  SwatchVerdictKind,
} from './types.js';
