import type { Loop, Spot } from '../shared/core.js';
import { dabAt } from './dabs-state.js';
import { boxOf, grown, loopBetween, movedBy } from './geometry.js';
import type { SheetView } from './sheet-view.js';

/** Steps of keys: a share of the picture's width or height, and with Shift. */
const STEP = 0.001;
const LARGE = 10 * STEP;

const ARROWS: Readonly<Record<string, Spot>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** What a key moves by; nothing for other keys. Places on the picture do not turn with the reading direction. */
function stepOf(event: KeyboardEvent): Spot | undefined {
  const arrow = ARROWS[event.key];
  if (!arrow || event.ctrlKey || event.metaKey || event.altKey) return undefined;
  const by = event.shiftKey ? LARGE : STEP;
  return [arrow[0] * by, arrow[1] * by];
}

/** Pointers and keys on the picture. */
export class StageHand {
  readonly #view: SheetView;
  #stage?: HTMLElement;
  #drag?: { pointer: number; from: Spot; move: (to: Spot, settled: boolean) => void };
  #dragged = false;

  constructor(view: SheetView) {
    this.#view = view;
  }

  /** A press on the picture, or on something that lies on it. */
  press(event: PointerEvent): void {
    this.#dragged = false;
    if (event.button !== 0 || this.#drag) return;
    const stage = (event.currentTarget as HTMLElement).closest<HTMLElement>('.stage')!;
    this.#stage = stage;
    const target = (event.target as Element).closest<HTMLElement>(
      '[data-corner], [data-box], [data-size], [data-end]',
    );
    const move = this.#moveOf(target, this.#spotOf(event));
    if (!move) return;
    event.preventDefault();
    target?.focus();
    const holder = target ?? stage;
    holder.setPointerCapture(event.pointerId);
    this.#drag = { pointer: event.pointerId, from: this.#spotOf(event), move };
    const onMove = (next: PointerEvent): void => {
      if (next.pointerId !== this.#drag?.pointer) return;
      this.#dragged = true;
      this.#drag.move(this.#spotOf(next), false);
    };
    const end = (): void => {
      holder.removeEventListener('pointermove', onMove);
      holder.removeEventListener('pointerup', onUp);
      holder.removeEventListener('pointercancel', onCancel);
      this.#drag = undefined;
    };
    const onUp = (next: PointerEvent): void => {
      if (next.pointerId !== this.#drag?.pointer) return;
      const { move: last } = this.#drag;
      end();
      if (this.#dragged) last(this.#spotOf(next), true);
    };
    const onCancel = (): void => {
      end();
      this.#view.shaping.revert();
    };
    holder.addEventListener('pointermove', onMove);
    holder.addEventListener('pointerup', onUp);
    holder.addEventListener('pointercancel', onCancel);
  }

  /** A click on the picture picks what lies there. */
  click(event: MouseEvent): void {
    const view = this.#view;
    if (this.#dragged || view.shaping.doing !== 'pick' || !view.state) return;
    if ((event.target as Element).closest('button')) return;
    this.#stage = event.currentTarget as HTMLElement;
    const found = dabAt(view.state.dabs, this.#spotOf(event));
    view.pick(found?.id ?? '', found !== undefined);
  }

  #moveOf(
    target: HTMLElement | null,
    from: Spot,
  ): ((to: Spot, settled: boolean) => void) | undefined {
    const view = this.#view;
    const { corner, end } = target?.dataset ?? {};
    if (corner !== undefined) {
      const [x, y] = (view.shownCorners ?? view.state!.corners)[Number(corner)];
      return (to, settled) =>
        view.dragCorner(Number(corner), [x + to[0] - from[0], y + to[1] - from[1]], settled);
    }
    if (end !== undefined && view.shaping.line) {
      const [a, b] = view.shaping.line;
      return (to) => view.shaping.setLine(end === '0' ? [to, b] : [a, to]);
    }
    const dab = view.state?.dabs.find(({ id }) => id === view.picked);
    if (target?.dataset.box !== undefined && dab) {
      const loops = view.shaping.shownLoops(dab);
      return (to, settled) =>
        view.shaping.placeDab(dab.id, movedBy(loops, [to[0] - from[0], to[1] - from[1]]), settled);
    }
    if (target?.dataset.size !== undefined && dab) {
      const loops = view.shaping.shownLoops(dab);
      const { width, height } = boxOf(loops);
      // The corner that is held follows the pointer, the middle stays.
      return (to, settled) =>
        view.shaping.placeDab(
          dab.id,
          grown(
            loops,
            Math.max(0.05, 1 + (2 * (to[0] - from[0])) / width),
            Math.max(0.05, 1 + (2 * (to[1] - from[1])) / height),
          ),
          settled,
        );
    }
    if (!target && view.shaping.doing === 'add') {
      return (to, settled) => view.shaping.draw(loopBetween(from, to) satisfies Loop, settled);
    }
    return undefined;
  }

  /** Keys on a corner, a dab, an end of the line. */
  key(event: KeyboardEvent): void {
    const view = this.#view;
    const target = event.target as HTMLElement;
    const { corner, end } = target.dataset;
    if (event.key === 'Escape') {
      if (view.shaping.doing !== 'pick') view.shaping.do('pick');
      else view.shaping.revert();
      return;
    }
    const step = stepOf(event);
    if (corner !== undefined && step) {
      event.preventDefault();
      return view.stepCorner(Number(corner), step);
    }
    if (end !== undefined && view.shaping.line && step) {
      event.preventDefault();
      const moved = view.shaping.line.map(([x, y], i): Spot =>
        String(i) === end ? [x + step[0], y + step[1]] : [x, y],
      );
      return view.shaping.setLine([moved[0], moved[1]]);
    }
    if (target.dataset.box === undefined && target.dataset.size === undefined) return;
    if (step && target.dataset.box !== undefined) {
      event.preventDefault();
      return view.shaping.stepDab(view.picked, step);
    }
    if (step) {
      event.preventDefault();
      return view.shaping.growDab(view.picked, 1 + 2 * (step[0] - step[1]) * 5);
    }
    if (event.key === '+' || event.key === '-') {
      event.preventDefault();
      return view.shaping.growDab(view.picked, event.key === '+' ? 1.05 : 1 / 1.05);
    }
    if (event.key === 'Delete' || event.key === 'Backspace') {
      event.preventDefault();
      return view.shaping.drop(view.picked);
    }
    if (event.key === 'PageDown' || event.key === 'PageUp') {
      const { dabs } = view.state!;
      const at = dabs.findIndex(({ id }) => id === view.picked);
      const next = dabs[at + (event.key === 'PageDown' ? 1 : -1)];
      event.preventDefault();
      if (next) view.pick(next.id, true);
    }
  }

  #spotOf({ clientX, clientY }: MouseEvent): Spot {
    const { left, top, width, height } = this.#stage!.getBoundingClientRect();
    return [(clientX - left) / width, (clientY - top) / height];
  }
}
