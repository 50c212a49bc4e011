import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Place } from './board-moves.js';

/** What the drag needs of its element. */
export interface DragHost extends ReactiveControllerHost, HTMLElement {
  readonly renderRoot: HTMLElement | DocumentFragment;
  /** The swatch was let go over a place. */
  dropped(id: string, to: Place): void;
}

/** A drag under way. */
export interface Drag {
  readonly id: string;
  /** Where it would be laid; missing outside the buckets. */
  readonly over?: Place;
}

/** How far a mouse or a pen moves before a press becomes a drag, CSS pixels. */
const SLACK = 5;
/** How long a finger rests on a dab before it is picked up, ms; until then the page may scroll. */
const HOLD = 350;
/** Width of the strip at the top and bottom of the window in which the page scrolls along, CSS pixels. */
const MARGIN = 56;

/**
 * Drags a swatch by mouse, pen or finger (after a short rest). It reads `[data-bucket]` trays and `[data-id]` cards in the element's
 * shadow root, moves `.ghost` along, and tells its host once, when the swatch is let go over a bucket. Escape gives it up.
 */
export class DragController implements ReactiveController {
  /** The drag under way, if there is one. */
  now?: Drag;
  #host: DragHost;
  #press?: {
    id: string;
    pointer: number;
    x: number;
    y: number;
    handle: HTMLElement;
    touch: boolean;
    timer?: ReturnType<typeof setTimeout>;
  };
  #point = { x: 0, y: 0 };
  #frame = 0;
  #clickToSwallow = false;

  constructor(host: DragHost) {
    this.#host = host;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.giveUp();
  }

  hostUpdated(): void {
    if (this.now) this.#showGhost();
  }

  /** Listeners of a dab; the touch listener is not passive, or the page would scroll away under the finger. */
  readonly onTouchMove = {
    handleEvent: (event: Event): void => {
      if (this.now && event.cancelable) event.preventDefault();
    },
    passive: false,
  };

  /** A press on a dab. */
  down(event: PointerEvent, id: string): void {
    if (event.button !== 0 || this.#press || !event.isPrimary) return;
    this.#clickToSwallow = false;
    const handle = event.currentTarget as HTMLElement;
    const touch = event.pointerType === 'touch';
    this.#point = { x: event.clientX, y: event.clientY };
    this.#press = {
      id,
      pointer: event.pointerId,
      x: event.clientX,
      y: event.clientY,
      handle,
      touch,
    };
    if (touch) this.#press.timer = setTimeout(() => this.#begin(), HOLD);
    else capture(handle, event.pointerId); // a finger is captured by the browser itself
    handle.addEventListener('pointermove', this.#onMove);
    handle.addEventListener('pointerup', this.#onUp);
    handle.addEventListener('pointercancel', this.#onCancel);
    handle.ownerDocument.addEventListener('keydown', this.#onKey, true);
  }

  /** Whether the click that follows a drag is to be passed over. */
  swallowsClick(): boolean {
    const swallow = this.#clickToSwallow;
    this.#clickToSwallow = false;
    return swallow;
  }

  /** Ends the drag; the swatch stays where it was. */
  giveUp(): void {
    const press = this.#press;
    if (!press) return;
    clearTimeout(press.timer);
    cancelAnimationFrame(this.#frame);
    this.#frame = 0;
    press.handle.removeEventListener('pointermove', this.#onMove);
    press.handle.removeEventListener('pointerup', this.#onUp);
    press.handle.removeEventListener('pointercancel', this.#onCancel);
    press.handle.ownerDocument.removeEventListener('keydown', this.#onKey, true);
    this.#press = undefined;
    if (!this.now) return;
    this.now = undefined;
    this.#host.requestUpdate();
  }

  #begin(): void {
    const press = this.#press;
    if (!press || this.now) return;
    clearTimeout(press.timer);
    this.#clickToSwallow = true;
    this.now = { id: press.id, over: this.#placeAt() };
    this.#host.requestUpdate();
  }

  #onMove = (event: PointerEvent): void => {
    const press = this.#press;
    if (!press || event.pointerId !== press.pointer) return;
    this.#point = { x: event.clientX, y: event.clientY };
    const far =
      Math.hypot(event.clientX - press.x, event.clientY - press.y) >
      (press.touch ? 2 * SLACK : SLACK);
    if (!this.now) {
      if (!far) return;
      if (press.touch) return this.giveUp(); // the finger scrolls the page
      this.#begin();
    }
    this.#follow();
    this.#scrollAlong();
  };

  #onUp = (event: PointerEvent): void => {
    if (event.pointerId !== this.#press?.pointer) return;
    this.#point = { x: event.clientX, y: event.clientY };
    const id = this.now?.id;
    const over = this.now && this.#placeAt();
    this.giveUp();
    if (id !== undefined && over) this.#host.dropped(id, over);
  };

  #onCancel = (event: PointerEvent): void => {
    if (event.pointerId === this.#press?.pointer) this.giveUp();
  };

  #onKey = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || !this.now) return;
    event.preventDefault();
    event.stopPropagation();
    this.giveUp();
  };

  #follow(): void {
    if (!this.now) return;
    const over = this.#placeAt();
    const old = this.now.over;
    if (over?.bucket !== old?.bucket || over?.place !== old?.place) {
      this.now = { id: this.now.id, over };
      this.#host.requestUpdate();
    }
    this.#showGhost();
  }

  /** The place under the pointer: in the tray that holds it, after the cards whose middle is above it. */
  #placeAt(): Place | undefined {
    const { x, y } = this.#point;
    for (const tray of this.#host.renderRoot.querySelectorAll<HTMLElement>('[data-bucket]')) {
      const box = tray.getBoundingClientRect();
      if (x < box.left || x > box.right || y < box.top || y > box.bottom) continue;
      const others = [...tray.querySelectorAll<HTMLElement>('[data-id]')].filter(
        (card) => card.dataset.id !== this.#press?.id,
      );
      const above = others.filter((card) => {
        const { top, height } = card.getBoundingClientRect();
        return top + height / 2 < y;
      });
      return { bucket: Number(tray.dataset.bucket), place: above.length };
    }
    return undefined;
  }

  #showGhost(): void {
    const ghost = this.#host.renderRoot.querySelector<HTMLElement>('.ghost');
    if (!ghost) return;
    // Measured at rest, because an ancestor of the page may move what is fixed.
    ghost.style.setProperty('transform', 'none');
    const { left, top } = ghost.getBoundingClientRect();
    ghost.style.setProperty(
      'transform',
      `translate(${this.#point.x - left}px, ${this.#point.y - top}px) translate(-50%, -60%)`,
    );
  }

  /** Near the window's top or bottom the page scrolls along, frame by frame. */
  #scrollAlong(): void {
    cancelAnimationFrame(this.#frame);
    this.#frame = 0;
    const { y } = this.#point;
    const depth = y < MARGIN ? y - MARGIN : Math.max(0, y - (innerHeight - MARGIN));
    if (!this.now || depth === 0) return;
    this.#frame = requestAnimationFrame(() => {
      scrollBy({ top: depth / 4, behavior: 'instant' });
      this.#follow();
      this.#scrollAlong();
    });
  }
}

function capture(handle: HTMLElement, pointer: number): void {
  try {
    handle.setPointerCapture(pointer);
  } catch {
    // A pointer that is gone, or made by a script: its events reach the dab only while it is under the pointer.
  }
}
