import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { areaOf, foldOf, pointsText, type Fold, type Point } from './corner.js';
import { put } from '../shared/put.js';

/** What the turned corner needs of its stage. */
export interface CornerHost {
  requestUpdate(): void;
  /** Size of the stage in CSS pixels. */
  readonly stageWidth: number;
  readonly stageHeight: number;
  /** Whether the page reads from right to left: the corner then is the left one. */
  readonly mirrored: boolean;
  words(key: string, values?: Readonly<Record<string, string | number>>): string;
  /** What lies above and below, in words. */
  readonly aboveBelow: { above: string; under: string };
  /** The corner was lifted or laid flat by a person. */
  cornerMoved(): void;
}

/** How far the corner is turned over at rest, CSS pixels: enough to be found. */
const EAR = 24;
/** Below this the corner falls back. */
const LEAST = 34;
/** Where the button lifts it to, in fractions of the sheet. */
const LIFTED: Point = [0.62, 0.62];

/** The lower corner of the sheet, which can be lifted to see what lies under it. */
export class TurnedCorner {
  /** How far the corner was brought from its place, in fractions of width and height, inward positive; missing while flat. */
  #away?: Point;
  #host: CornerHost;
  #held?: { pointer: number; dx: number; dy: number };

  constructor(host: CornerHost) {
    this.#host = host;
  }

  get lifted(): boolean {
    return this.#away !== undefined;
  }

  /** Lifts the corner half-way, or lays it flat. */
  toggle(): void {
    this.#away = this.#away ? undefined : [...LIFTED];
    this.#host.cornerMoved();
  }

  /** The fold on the stage now; the ear at rest. */
  fold(): Fold {
    const { stageWidth: width, stageHeight: height } = this.#host;
    return foldOf(width, height, this.#corner(), this.#tip());
  }

  /** What is left of the upper layer, for `clip-path`; `none` while flat. */
  clip(fold: Fold): string {
    if (fold.open.length < 3) return 'none';
    return fold.flat.length < 3 ? 'inset(50%)' : `polygon(${pointsText(fold.flat, 'px')})`;
  }

  /** The turned-over paper with its shades. */
  renderFlap(fold: Fold): SVGTemplateResult | typeof nothing {
    if (fold.open.length < 3) return nothing;
    const [cx, cy] = this.#corner();
    const [tx, ty] = this.#tip();
    const [mx, my] = [(cx + tx) / 2, (cy + ty) / 2];
    const length = Math.hypot(cx - tx, cy - ty) || 1;
    const cast = Math.min(56, length / 2);
    const [ex, ey] = [mx + ((cx - tx) / length) * cast, my + ((cy - ty) / length) * cast];
    return svg`
      <defs>
        <linearGradient id="turned-back" gradientUnits="userSpaceOnUse" x1=${mx} y1=${my} x2=${tx} y2=${ty}>
          <stop offset="0" class="back-0" /><stop offset="0.08" class="back-1" /><stop offset="0.3" class="back-2" /><stop offset="1" class="back-3" />
        </linearGradient>
        <linearGradient id="turned-cast" gradientUnits="userSpaceOnUse" x1=${mx} y1=${my} x2=${ex} y2=${ey}>
          <stop offset="0" class="cast-0" /><stop offset="1" class="cast-1" />
        </linearGradient>
      </defs>
      <polygon points=${pointsText(fold.open)} fill="url(#turned-cast)" />
      <polygon class="flap" points=${pointsText(fold.flap)} fill="url(#turned-back)" />`;
  }

  /** Where the corner is taken hold of. */
  renderGrip(fold: Fold): TemplateResult {
    const { stageWidth: width, stageHeight: height } = this.#host;
    const [x, y] = this.#tip();
    const part = this.lifted ? (100 * areaOf(fold.open)) / Math.max(1, width * height) : 0;
    const { above, under } = this.#host.aboveBelow;
    const kept = (v: number, most: number): number => Math.min(most, Math.max(0, v));
    return html`<div
      class="grip"
      part="corner"
      role="slider"
      tabindex="0"
      aria-label=${this.#host.words('corner.label')}
      aria-valuemin="0"
      aria-valuemax="100"
      aria-valuenow=${Math.round(part)}
      aria-valuetext=${this.#host.words(this.lifted ? 'corner.lifted' : 'corner.at-rest', { above, under, share: part })}
      ${put({ '--_x': `${kept(x, width)}px`, '--_y': `${kept(y, height)}px` })}
      @pointerdown=${this.#grip}
      @pointermove=${this.#drag}
      @pointerup=${this.#letGo}
      @pointercancel=${this.#letGo}
      @keydown=${this.#key}
    ></div>`;
  }

  #corner(): Point {
    const { stageWidth, stageHeight, mirrored } = this.#host;
    return [mirrored ? 0 : stageWidth, stageHeight];
  }

  #tip(): Point {
    const { stageWidth, stageHeight, mirrored } = this.#host;
    const [cx, cy] = this.#corner();
    const inward = mirrored ? 1 : -1;
    if (!this.#away) return [cx + inward * EAR, cy - EAR];
    return [cx + inward * this.#away[0] * stageWidth, cy - this.#away[1] * stageHeight];
  }

  /** Brings the corner to a point of the stage. */
  #bring(x: number, y: number): void {
    const { stageWidth, stageHeight, mirrored } = this.#host;
    const [cx, cy] = this.#corner();
    const kept = (v: number): number => Math.min(1.98, Math.max(0, v));
    this.#away = [
      kept(((x - cx) * (mirrored ? 1 : -1)) / stageWidth),
      kept((cy - y) / stageHeight),
    ];
    this.#host.cornerMoved();
  }

  #settle(): void {
    const { stageWidth, stageHeight } = this.#host;
    if (this.#away && Math.hypot(this.#away[0] * stageWidth, this.#away[1] * stageHeight) < LEAST)
      this.#away = undefined;
    this.#host.cornerMoved();
  }

  #grip = (event: PointerEvent): void => {
    if (event.button !== 0) return;
    event.stopPropagation();
    event.preventDefault();
    const grip = event.currentTarget as HTMLElement;
    grip.focus({ preventScroll: true });
    grip.setPointerCapture(event.pointerId);
    const [x, y] = this.#tip();
    this.#held = { pointer: event.pointerId, dx: x - event.clientX, dy: y - event.clientY };
  };

  #drag = (event: PointerEvent): void => {
    if (this.#held?.pointer !== event.pointerId) return;
    event.stopPropagation();
    this.#bring(event.clientX + this.#held.dx, event.clientY + this.#held.dy);
  };

  #letGo = (event: PointerEvent): void => {
    if (this.#held?.pointer !== event.pointerId) return;
    event.stopPropagation();
    this.#held = undefined;
    this.#settle();
  };

  #key = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const { stageWidth: width, stageHeight: height, mirrored } = this.#host;
    const inward = mirrored ? 1 : -1;
    const [x, y] = this.#tip();
    const step = 0.04 * Math.max(width, height);
    const [cx, cy] = this.#corner();
    const ways: Record<string, Point | undefined> = {
      ArrowUp: [x, y - step],
      ArrowDown: [x, y + step],
      ArrowLeft: [x - step, y],
      ArrowRight: [x + step, y],
      PageUp: [x + inward * 4 * step, y - 4 * step],
      PageDown: [x - inward * 4 * step, y + 4 * step],
      Home: [cx, cy],
      End: [cx + inward * 1.98 * width, cy - 1.98 * height],
    };
    const to = ways[event.key];
    if (event.key === 'Escape' && this.lifted) {
      this.#away = undefined;
      this.#host.cornerMoved();
    } else if (to) {
      this.#bring(...to);
      this.#settle();
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };
}
