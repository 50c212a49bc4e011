import type { PictureView } from '../shared/events/view-change.js';

/** The states of a picture, in the order in which they are offered. */
export const VIEWS: readonly PictureView[] = ['photo', 'greys', 'bands', 'masses'];

/** What may be laid over the picture as tracings, in the order in which a painter comes to them. */
export const TRACINGS = [
  'masses',
  'edges',
  'reserves',
  'marks',
  'strokes',
  'passages',
  'accents',
] as const;
export type TracingName = (typeof TRACINGS)[number];

/** The tracings named in a text (parted by spaces); other words are left out. */
export function tracingsIn(text: string): TracingName[] {
  const names = new Set(text.split(/\s+/));
  return TRACINGS.filter((name) => names.has(name));
}

/** What may stand around the picture. */
export type Control =
  | 'views'
  | 'corner'
  | 'ladder'
  | 'squint'
  | 'step-back'
  | 'zoom'
  | 'save'
  | 'tracings'
  | 'tools'
  | 'open'
  | 'undo';
