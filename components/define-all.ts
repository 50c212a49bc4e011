import { PaintingPlan } from './painting-plan/painting-plan.js';
import { ValueBandViewer } from './value-band-viewer/value-band-viewer.js';
import { SwatchBucketBoard } from './swatch-bucket-board/swatch-bucket-board.js';
import { LightnessPicker } from './lightness-picker/lightness-picker.js';
import { MixingWell } from './mixing-well/mixing-well.js';
import { SwatchSheetReader } from './swatch-sheet-reader/swatch-sheet-reader.js';
import { PlanSheet } from './plan-sheet/plan-sheet.js';
import { PaintingCheck } from './painting-check/painting-check.js';

/** Every element of the kit. */
export const elements = [
  PaintingPlan,
  ValueBandViewer,
  SwatchBucketBoard,
  LightnessPicker,
  MixingWell,
  SwatchSheetReader,
  PlanSheet,
  PaintingCheck,
] as const;

/**
 * Registers every element: under its usual tag, or with a prefix (`defineAll({ prefix: 'my' })` gives
 * `my-value-band-viewer`). Names that are taken already are left as they are.
 */
export function defineAll({
  prefix = '',
  registry = globalThis.customElements,
}: { prefix?: string; registry?: CustomElementRegistry } = {}): void {
  for (const element of elements)
    element.define(prefix ? `${prefix}-${element.tag}` : element.tag, registry);
}
