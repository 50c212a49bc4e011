import type { ReactiveController, ReactiveControllerHost } from 'lit';

interface DragHost extends ReactiveControllerHost, HTMLElement {
  readonly renderRoot: HTMLElement | DocumentFragment;
  /** The step was let go at a place, counted without itself. */
  dropped(id: string, to: number): void;
}

/** How far a pointer moves before a press becomes a drag, CSS pixels. */
const SLACK = 4;

/** Drags a step of the list by its number. It reads `[data-step]` rows in the element's shadow root. Escape gives it up. */
export class StepDrag implements ReactiveController {
  /** The step that is dragged, and where it would come to stand. */
  now?: { id: string; to: number };
  readonly #host: DragHost;
  #press?: { id: string; y: number; grip: HTMLElement };

  constructor(host: DragHost) {
    this.#host = host;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.#end();
  }

  down(event: PointerEvent, id: string): void {
    if (event.button !== 0 || !event.isPrimary || this.#press) return;
    const grip = event.currentTarget as HTMLElement;
    this.#press = { id, y: event.clientY, grip };
    try {
      grip.setPointerCapture(event.pointerId);
    } catch {
      // A pointer made by a script is not captured: its events reach the number while it is under the pointer.
    }
    grip.addEventListener('pointermove', this.#onMove);
    grip.addEventListener('pointerup', this.#onUp);
    grip.addEventListener('pointercancel', this.#onCancel);
    grip.ownerDocument.addEventListener('keydown', this.#onKey, true);
    event.preventDefault();
  }

  #onMove = ({ clientY }: PointerEvent): void => {
    if (!this.#press) return;
    if (!this.now && Math.abs(clientY - this.#press.y) < SLACK) return;
    const to = this.#placeAt(clientY);
    if (this.now?.to === to) return;
    this.now = { id: this.#press.id, to };
    this.#host.requestUpdate();
  };

  #onUp = (): void => {
    const { now } = this;
    this.#end();
    if (now) this.#host.dropped(now.id, now.to);
  };

  #onCancel = (): void => this.#end();

  #onKey = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || !this.now) return;
    event.preventDefault();
    event.stopPropagation();
    this.#end();
  };

  /** How many other rows have their middle above a height. */
  #placeAt(y: number): number {
    const rows = [...this.#host.renderRoot.querySelectorAll<HTMLElement>('[data-step]')];
    return rows.filter((row) => {
      const { top, height } = row.getBoundingClientRect();
      return row.dataset.step !== this.#press?.id && top + height / 2 < y;
    }).length;
  }

  #end(): void {
    const press = this.#press;
    if (!press) return;
    press.grip.removeEventListener('pointermove', this.#onMove);
    press.grip.removeEventListener('pointerup', this.#onUp);
    press.grip.removeEventListener('pointercancel', this.#onCancel);
    press.grip.ownerDocument.removeEventListener('keydown', this.#onKey, true);
    this.#press = undefined;
    if (!this.now) return;
    this.now = undefined;
    this.#host.requestUpdate();
  }
}
