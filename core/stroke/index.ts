/** Which way the brush goes: direction of the form, streamlines, arrows. */
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
