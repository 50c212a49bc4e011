import type { Crop, Spot } from '../shared/core.js';
import {
  loupeCorner,
  nextHole,
  onStage,
  spotAt,
  steppedFrom,
  type Box,
  type Sheet,
} from './geometry.js';

/** What a hand finds when it acts. */
export interface HandView {
  stage: HTMLElement;
  card: HTMLElement;
  hole: HTMLElement;
  locked: boolean;
  /** Size of the stage, and the part of the photo that it shows. */
  box: Box;
  crop: Crop;
  sheet?: Sheet;
  spot: Spot;
  holeMm: number;
}

/** Whom a hand asks and tells. */
export interface HandHost {
  look(): HandView | undefined;
  /** A person moves the hole. */
  moved(spot: Spot): void;
  /** It has come to rest. */
  rested(): void;
  resized(mm: number): void;
  /** Enter was pressed on the hole. */
  entered(): void;
  /** The card is to be turned away, or back. */
  turned(): void;
  /** What is told by `dragging` and `loupe` changed. */
  changed(): void;
}

/** How far a finger may stray and still tap, CSS pixels. */
const TAP_PX = 10;

const ARROWS: Readonly<Record<string, readonly [right: number, down: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/**
 * Moves the hole by mouse, pen, finger and keys. The card is dragged as it is taken; a press beside it brings the hole
 * there. A finger beside the card may scroll the page, so there only a tap counts.
 */
export class HoleHand {
  /** Whether the card is being dragged. */
  dragging = false;
  /** The corner in which the hole is to be enlarged, since a finger covers it. */
  loupe: 'left' | 'right' | '' = '';
  #drag?: { pointer: number; dx: number; dy: number };
  #tap?: { pointer: number; x: number; y: number };

  constructor(private readonly host: HandHost) {}

  readonly pointerDown = (event: PointerEvent): void => {
    const { host } = this;
    const view = host.look();
    if (!view || view.locked || event.button !== 0 || this.#drag) return;
    const [x, y] = placeOn(view.stage, event);
    const pointer = event.pointerId;
    const held = event.composedPath().includes(view.card);
    if (!held && event.pointerType === 'touch') {
      this.#tap = { pointer, x, y };
      return;
    }
    event.preventDefault();
    view.stage.setPointerCapture(pointer);
    view.hole.focus({ preventScroll: true });
    const [hx, hy] = onStage(view.spot, view.box, view.crop);
    this.#drag = { pointer, dx: held ? hx - x : 0, dy: held ? hy - y : 0 };
    this.dragging = true;
    if (event.pointerType === 'touch') this.loupe = loupeCorner(x, view.box);
    host.changed();
    if (!held) host.moved(spotAt(x, y, view.box, view.crop));
  };

  readonly pointerMove = (event: PointerEvent): void => {
    const drag = this.#drag;
    const view = this.host.look();
    if (!view || drag?.pointer !== event.pointerId) return;
    const [x, y] = placeOn(view.stage, event);
    const spot = spotAt(x + drag.dx, y + drag.dy, view.box, view.crop);
    if (spot[0] === view.spot[0] && spot[1] === view.spot[1]) return;
    if (this.loupe) this.loupe = loupeCorner(x, view.box);
    this.host.moved(spot);
  };

  readonly pointerUp = (event: PointerEvent): void => {
    const tap = this.#tap;
    if (tap?.pointer === event.pointerId) {
      this.#tap = undefined;
      this.#tapped(event, tap);
    }
    this.pointerCancel(event);
  };

  readonly pointerCancel = (event: PointerEvent): void => {
    if (this.#tap?.pointer === event.pointerId) this.#tap = undefined;
    if (this.#drag?.pointer !== event.pointerId) return;
    this.#drag = undefined;
    this.dragging = false;
    this.loupe = '';
    this.host.changed();
    this.host.rested();
  };

  readonly keyDown = (event: KeyboardEvent): void => {
    const { host } = this;
    const view = host.look();
    if (!view || view.locked || event.ctrlKey || event.metaKey || event.altKey) return;
    const { key } = event;
    const arrow = ARROWS[key];
    if (arrow && view.sheet) {
      host.moved(steppedFrom(view.spot, arrow[0], arrow[1], event.shiftKey, view.sheet));
      host.rested();
    } else if (key === '[') host.resized(nextHole(view.holeMm, -1));
    else if (key === ']') host.resized(nextHole(view.holeMm, 1));
    else if (key === 'Enter' || key === ' ') host.entered();
    else if (key === 'c' || key === 'C') host.turned();
    else return;
    event.preventDefault();
  };

  #tapped(event: PointerEvent, from: { x: number; y: number }): void {
    const view = this.host.look();
    if (!view) return;
    const [x, y] = placeOn(view.stage, event);
    if (Math.hypot(x - from.x, y - from.y) > TAP_PX) return;
    view.hole.focus({ preventScroll: true });
    this.host.moved(spotAt(x, y, view.box, view.crop));
    this.host.rested();
  }
}

function placeOn(stage: HTMLElement, event: PointerEvent): [x: number, y: number] {
  const { left, top } = stage.getBoundingClientRect();
  return [event.clientX - left, event.clientY - top];
}
