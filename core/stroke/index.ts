/**
 * Which way the brush goes: direction of the form, streamlines, arrows.
 *
 * Reason codes of strokes that could not be followed, none with figures: `stroke-too-short` (less than a
 * pixel long), `stroke-outside` (no part of it in the picture), `stroke-across-the-form` (it crosses the
 * form more steeply than 60 degrees all along: it stays drawn, but gives its mass no sense).
 */
export {
  directionField,
  directionKernel,
  structureTensor,
  structureTensorKernel,
  type DirectionOptions,
  type TensorGrid,
} from './field.js';
export { streamlines, streamlinesKernel, type StreamlineOptions } from './streamlines.js';
export {
  strokesKernel,
  strokesOf,
  type StrokeOptions,
  type Strokes,
  type UnmetStroke,
} from './strokes.js';
export type * from './types.js';
