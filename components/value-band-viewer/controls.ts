import type { PictureView } from '../shared/events/view-change.js';

/** The states of a picture, in the order in which they are offered. */
export const VIEWS: readonly PictureView[] = ['photo', 'greys', 'bands'];

/** What may stand around the picture. */
export type Control =
  | 'views'
  | 'corner'
  | 'ladder'
  | 'squint'
  | 'step-back'
  | 'zoom'
  | 'save'
  | 'tools'
  | 'open'
  | 'undo';
