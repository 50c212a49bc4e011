/**
 * The package's `tonewell/host`: an editor and a panel of the kit, over one MessagePort. It loads nothing else of the kit. The
 * protocol itself is written down in `protocol.ts`.
 */
export { joinFrame, awaitHost } from './frame-adapter.js';
export type { FrameHost, FrameOffer, HostWanted, HostWatch } from './frame-adapter.js';
export { hostOn } from './host.js';
export type { Asking, HostOffer, HostSession } from './host.js';
export { panelOn } from './panel.js';
export type { PanelOptions, PanelSession } from './panel.js';
export { imageOfLayer, pictureOfCanvas } from './canvas-adapter.js';
export type { CanvasFacts } from './canvas-adapter.js';
export type { CallOptions } from './wire.js';
export { BridgeError, LAYER_KINDS, LIMITS, VERSIONS } from './protocol.js';
export type {
  Layer,
  LayerKind,
  Limits,
  OfferedPicture,
  PanelProgress,
  Peer,
  PhysicalSize,
  PictureAsked,
  PixelBuffer,
  Rect,
  Selection,
  SpotReading,
  SwatchBand,
  SwatchColour,
  Swatches,
  Taking,
} from './protocol.js';
