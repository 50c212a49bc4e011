/**
 * The plan: one immutable document with everything a painter has decided, its form as JSON, and undo.
 *
 * Units: lightness L* 0..100, lengths mm, places fractions of the upright photo.
 */
export type {
  BorrowedDetail,
  Dab,
  FocusArea,
  Marking,
  PhotoMarks,
  Plan,
  PlanBrief,
  PlanBrush,
  PlanLandmark,
  PlanPaper,
  PlanPhoto,
  PlanRange,
  SavedCheck,
  SavedReading,
  ShelfTube,
} from './types.js';
export { PLAN_SCHEMA, PLAN_SCHEMA_NUMBER } from './schema.js';
export { checkPlan, newPlan, parsePlan, planFaults, PlanError, serialisePlan } from './plan.js';
export { bandsFromLimits, startedPlan } from './start.js';
export {
  canRedo,
  canUndo,
  changed,
  HISTORY_LIMIT,
  redoLabel,
  redone,
  startHistory,
  undoLabel,
  undone,
} from './history.js';
export type { Change, History } from './history.js';
export {
  bandAt,
  LEAST_STEP,
  MOST_BANDS,
  sameLimits,
  withBandAdded,
  withBandNamed,
  withBandRemoved,
  withBoard,
  withLimitMoved,
  withLimits,
  withRange,
} from './bands.js';
export {
  MOST_PHOTOS,
  photosOf,
  withoutPhoto,
  withPhotoAdded,
  withPhotoInHand,
  withPhotoLeading,
  withPhotoRemoved,
} from './photos.js';
export { labInPaint, paintLightness, photoLightness, rangeMapOf } from './range.js';
export { orderKernel, orderOfWork } from './order.js';
export { checkedSteps, stepWarnings } from './findings.js';
export { reconcileSteps, withStepDone, withStepMoved } from './steps.js';
export type { StepKind, StepRole, WorkStep } from './steps.js';
export type { ReserveMethod, WorkFacts } from './decided.js';
export {
  keptMarks,
  MOST_MARKS,
  pixelOfSpot,
  regionAt,
  spotOfPixel,
  type KeptMark,
} from './kept-marks.js';
export { passageWork, passageWorkKernel } from './passage-work.js';
export {
  accentPlan,
  type AccentPlace,
  type AccentPlan,
  type PlannedAccent,
} from './planned-accents.js';
export { mixSign, numberRanges, passageList, passageSign } from './passage-types.js';
export type {
  BandOfPassages,
  MixToPaint,
  PassageToPaint,
  PassageWork,
  StepPassage,
} from './passage-types.js';
export { planSheet, planSheets, planSheetsKernel, SHEET_SIZES, TILE_OVERLAP_MM } from './sheet.js';
export type { SheetOptions as PlanSheetOptions, SheetPaper } from './sheet.js';
export type { SheetParts } from './sheet-picture.js';
export { PAINT_STRINGS, SHEET_STRINGS } from './sheet-strings.js';
export { bordersOf, type BorderLines } from './sheet-draw.js';
export { passageBordersKernel } from './sheet-passages.js';
export {
  assignSwatches,
  rehearse,
  rehearseKernel,
  type AssignedColour,
  type RehearsedMark,
  type RehearsedPart,
  type Rehearsal,
  type SoftBorder,
  type WantedColour,
} from './rehearsal.js';
export {
  CARD_FIELD_MM,
  CARD_HOLE_MM,
  CARD_SCALE_MM,
  valueCardPage,
  type CardField,
  type CardPageOptions,
} from './card-page.js';
