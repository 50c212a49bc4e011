import { panned, WHOLE_SIGHT, zoomedAt, type Box, type Sight } from './stage.js';

/** What the hand needs of the stage. */
export interface GestureHost {
  sight: Sight;
  readonly box: Box;
  /** Whether nearer looks are offered. */
  readonly canZoom: boolean;
  /** The stage on the screen. */
  stageRect(): DOMRect;
}

/** Two presses this near one another, in ms and CSS pixels, are a double tap. */
const TWICE_MS = 320;
const TWICE_PX = 24;
/** How much nearer one press of a key or button looks. */
export const NEARER = 1.5;

/**
 * Zoom and pan by wheel, pinch, drag and double tap. While the whole picture shows, a finger's drag and a plain wheel are left to the page.
 */
export class Gestures {
  #host: GestureHost;
  #points = new Map<number, { x: number; y: number }>();
  #start?: { x: number; y: number; time: number };
  #tap?: { x: number; y: number; time: number };

  constructor(host: GestureHost) {
    this.#host = host;
  }

  /** Whether the picture is being moved. */
  get panning(): boolean {
    return this.#points.size > 0 && this.#host.sight.zoom > 1;
  }

  down(event: PointerEvent): void {
    if (!this.#host.canZoom || event.button !== 0) return;
    const at = { x: event.clientX, y: event.clientY };
    this.#points.set(event.pointerId, at);
    this.#start = this.#points.size === 1 ? { ...at, time: event.timeStamp } : undefined;
    if (this.#host.sight.zoom > 1 || this.#points.size > 1) {
      for (const id of this.#points.keys())
        (event.currentTarget as HTMLElement).setPointerCapture(id);
    }
  }

  move(event: PointerEvent): void {
    const before = this.#points.get(event.pointerId);
    if (!before) return;
    const { host, rect } = { host: this.#host, rect: this.#host.stageRect() };
    const now = { x: event.clientX, y: event.clientY };
    const others = [...this.#points].filter(([id]) => id !== event.pointerId);
    if (others.length === 1) {
      const [, other] = others[0];
      const was = Math.hypot(before.x - other.x, before.y - other.y);
      const is = Math.hypot(now.x - other.x, now.y - other.y);
      const middle = { x: (now.x + other.x) / 2, y: (now.y + other.y) / 2 };
      const moved = panned(
        host.sight,
        (now.x - before.x) / 2 / rect.width,
        (now.y - before.y) / 2 / rect.height,
        host.box,
      );
      const at = this.#at(middle, rect);
      host.sight = zoomedAt(moved, was > 0 ? is / was : 1, at[0], at[1], host.box);
    } else if (others.length === 0 && host.sight.zoom > 1) {
      host.sight = panned(
        host.sight,
        (now.x - before.x) / rect.width,
        (now.y - before.y) / rect.height,
        host.box,
      );
    }
    this.#points.set(event.pointerId, now);
  }

  up(event: PointerEvent): void {
    if (!this.#points.delete(event.pointerId) || event.type === 'pointercancel') {
      this.#start = undefined;
      return;
    }
    const start = this.#start;
    this.#start = undefined;
    const now = { x: event.clientX, y: event.clientY, time: event.timeStamp };
    if (
      !start ||
      Math.hypot(now.x - start.x, now.y - start.y) > 8 ||
      now.time - start.time > TWICE_MS
    )
      return;
    const tap = this.#tap;
    this.#tap = now;
    if (
      !tap ||
      now.time - tap.time > TWICE_MS ||
      Math.hypot(now.x - tap.x, now.y - tap.y) > TWICE_PX
    )
      return;
    this.#tap = undefined;
    const { sight, box } = this.#host;
    const [px, py] = this.#at(now, this.#host.stageRect());
    this.#host.sight = sight.zoom > 1 ? WHOLE_SIGHT : zoomedAt(sight, 3, px, py, box);
  }

  /** A wheel with Ctrl or ⌘ (so a trackpad's pinch too) looks nearer; a plain one is the page's. */
  wheel(event: WheelEvent): void {
    if (!this.#host.canZoom || !(event.ctrlKey || event.metaKey)) return;
    event.preventDefault();
    const unit = event.deltaMode === 1 ? 16 : 1;
    const [px, py] = this.#at({ x: event.clientX, y: event.clientY }, this.#host.stageRect());
    const factor = Math.exp(-Math.max(-60, Math.min(60, event.deltaY * unit)) * 0.01);
    this.#host.sight = zoomedAt(this.#host.sight, factor, px, py, this.#host.box);
  }

  /** Two fingers on the stage are a pinch on the picture, not on the page. */
  touch(event: TouchEvent): void {
    if (this.#host.canZoom && event.touches.length > 1 && event.cancelable) event.preventDefault();
  }

  /** @returns whether the key was one of ours. */
  key(event: KeyboardEvent): boolean {
    if (!this.#host.canZoom || event.ctrlKey || event.metaKey || event.altKey) return false;
    const { sight, box } = this.#host;
    const step = 0.1;
    const ways: Record<string, () => Sight> = {
      '+': () => zoomedAt(sight, NEARER, 0.5, 0.5, box),
      '=': () => zoomedAt(sight, NEARER, 0.5, 0.5, box),
      '-': () => zoomedAt(sight, 1 / NEARER, 0.5, 0.5, box),
      '0': () => WHOLE_SIGHT,
    };
    const pans: Record<string, () => Sight> = {
      ArrowLeft: () => panned(sight, step, 0, box),
      ArrowRight: () => panned(sight, -step, 0, box),
      ArrowUp: () => panned(sight, 0, step, box),
      ArrowDown: () => panned(sight, 0, -step, box),
    };
    const way = ways[event.key] ?? (sight.zoom > 1 ? pans[event.key] : undefined);
    if (!way) return false;
    this.#host.sight = way();
    return true;
  }

  #at(point: { x: number; y: number }, rect: DOMRect): [number, number] {
    return [(point.x - rect.left) / rect.width, (point.y - rect.top) / rect.height];
  }
}
