import type { SVGTemplateResult, TemplateResult, nothing } from 'lit';
import type { Reason, Spot } from '../shared/core.js';
import type { IconName } from '../shared/icons.js';
import type { LengthUnit } from '../shared/measure.js';
import type { PlanStore } from '../shared/plan-store.js';

/** How the stage shows the photo now: from places on the photo to places on the stage and back. */
export interface StageView {
  /** Size of the stage in CSS pixels. */
  readonly width: number;
  readonly height: number;
  /** From viewport coordinates (a pointer's clientX, clientY) to fractions of the upright photo; may lie outside 0..1. */
  toPhoto(clientX: number, clientY: number): Spot;
  /** From fractions of the upright photo to CSS pixels on the stage. */
  toStage(spot: Spot): [x: number, y: number];
  /** From a fraction of the upright photo's longer side to CSS pixels on the stage. */
  toStageLength(fraction: number): number;
}

/** What a tool may ask of the viewer. */
export interface ToolHost extends HTMLElement {
  readonly store: PlanStore;
  requestUpdate(): void;
  /** The viewer's words and numbers. */
  words(key: string, values?: Readonly<Record<string, string | number>>): string;
  /** A finding in words. */
  sentenceOf(reason: Reason): string;
  /** Lets screen readers hear a sentence. */
  speak(text: string): void;
  /** What lengths are told in. */
  readonly lengthUnit: LengthUnit;
  chooseUnit(unit: LengthUnit): void;
  /** A length in words. */
  lengthOf(mm: number): string;
  /** Puts the tool in hand aside (or takes another one up). */
  takeUp(tool: string | null): void;
}

/**
 * A tool that works on the photo: one is in hand at a time. It draws over the stage, hears the pointer and the keys while the
 * stage has focus, and shows a panel below the picture.
 */
export interface StageTool {
  readonly name: string;
  /** Key of its word on the button. */
  readonly word: string;
  readonly icon: IconName;
  /** Whether the whole photo (not only its crop) is to be shown while the tool is in hand. */
  readonly whole?: boolean;
  takenUp?(): void;
  laidDown?(): void;
  /** Drawn in an `<svg>` over the stage, in its CSS pixels. */
  renderOverlay?(view: StageView): SVGTemplateResult | typeof nothing;
  renderPanel?(): TemplateResult | typeof nothing;
  /** Each returns true when the tool used the event (the stage then does not pan). */
  pointerDown?(event: PointerEvent, view: StageView): boolean;
  pointerMove?(event: PointerEvent, view: StageView): boolean;
  pointerUp?(event: PointerEvent, view: StageView): boolean;
  keyDown?(event: KeyboardEvent, view: StageView): boolean;
}
