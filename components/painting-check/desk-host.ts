import type { Corners, Reason, WhiteInput } from '../shared/core.js';
import type { LengthUnit } from '../shared/measure.js';
import type { PictureIntake } from '../shared/picture-intake.js';
import type { PlanStore } from '../shared/plan-store.js';
import type { DeliveryLayout } from '../shared/events/delivery.js';

/** What is asked of a picture to hand over. */
export interface DeliveryAsked {
  /** The painting alone (default), beside the photo, or beside photo and planned bands. */
  layout?: DeliveryLayout;
  /** Pixels of the painting's width, at most; as fine as the photo when absent. */
  width?: number;
  /** `image/jpeg` (default) or `image/png`. */
  type?: 'image/jpeg' | 'image/png';
}

/** What the desk needs of its element. */
export interface DeskHost extends HTMLElement {
  readonly store: PlanStore;
  /** The photo of the painting. */
  readonly painting: PlanStore;
  readonly intake: PictureIntake;
  readonly language: string;
  readonly lengthUnit: LengthUnit;
  readonly updateComplete: Promise<boolean>;
  /** Corners that the page gives, in fractions of the photo. */
  readonly givenCorners: Corners | null;
  white: WhiteInput;
  upToStep: number | null;
  distance: number;
  requestUpdate(): void;
  words(key: string, values?: Readonly<Record<string, string | number>>): string;
  lengthOf(mm: number): string;
  speak(text: string): void;
  faulted(reason: Reason): void;
}
