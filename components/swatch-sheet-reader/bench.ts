import type { Loop, PlacedSheet, Reason } from '../shared/core.js';
import type { SheetAct } from '../shared/events/sheet-change.js';
import type { LengthUnit } from '../shared/measure.js';
import type { PlanStore } from '../shared/plan-store.js';
import type { Read, ReadDab, SheetState } from './dabs-state.js';
import type { SheetView } from './sheet-view.js';

/** What the desk needs of its element. */
export interface DeskHost {
  readonly store: PlanStore;
  /** What holds the photo of the sheet. */
  readonly sheet: PlanStore;
  readonly language: string;
  readonly lengthUnit: LengthUnit;
  readonly shadowRoot: ShadowRoot | null;
  readonly updateComplete: Promise<boolean>;
  panel: string;
  requestUpdate(): void;
  words(key: string, values?: Readonly<Record<string, string | number>>): string;
  speak(text: string): void;
  fail(reason: Reason): void;
  /** A reading of the photo in hand has come to its end, well or not. */
  cameToEnd(): void;
  dispatchEvent(event: Event): boolean;
}

/** What the parts of the desk share: the state with its undo, the light to read by, and ways to say what happens. */
export interface Bench extends SheetView {
  readonly host: DeskHost;
  fault: string;
  picked: string;
  /** What has the focus after the next drawing: a selector. */
  focusNext?: string;
  update(): void;
  speak(text: string): void;
  /** Puts the corners back that are being moved. */
  stillCorners(): void;
  dab(id: string): ReadDab | undefined;
  newId(): string;
  /** A dab's number and value in words. */
  told(id: string): string;
  /** Changes the state as one step of undo and tells the page of it; nothing when it stays the same. */
  act(what: SheetAct, make: (state: SheetState) => SheetState, said?: string): void;
  /** Runs what needs the light, one after the other. */
  later(run: (light: NonNullable<PlacedSheet['light']>) => Promise<void>): void;
  readPlace(loops: readonly Loop[], light: NonNullable<PlacedSheet['light']>): Promise<Read>;
}
