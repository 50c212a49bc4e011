import type { BoardActs } from './acts.js';
import { placeWords } from './acts.js';
import { placeOf, stepped, swatchesIn, withSwatchMoved, type Place } from './board-moves.js';
import type { Desk } from './desk.js';
import { stepOfKey } from './keys.js';

/**
 * Moves swatches by keys: Space or Enter picks one up and lays it down, arrows, Home and End move it, Escape (or leaving it) puts
 * it back. Until it is laid down only the picture of the board changes. Without one in hand the arrows walk from dab to dab.
 */
export class KeyLift {
  /** The swatch that is picked up, and where it would be laid. */
  now?: { readonly id: string; readonly to: Place };
  #desk: Desk;
  #acts: BoardActs;

  constructor(desk: Desk, acts: BoardActs) {
    this.#desk = desk;
    this.#acts = acts;
  }

  /** Lets go without a word. */
  drop(): void {
    this.now = undefined;
  }

  /** A key on a dab. */
  key(event: KeyboardEvent, id: string, rtl: boolean): void {
    const { key } = event;
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const lifted = this.now?.id === id;
    const step = stepOfKey(key, rtl);
    if (key === ' ' || key === 'Enter') {
      if (lifted) this.#putDown();
      else this.#pickUp(id);
    } else if (key === 'Escape' && lifted) {
      event.stopPropagation();
      this.#putBack();
      this.#desk.focusLater(() => this.#desk.dabOf(id));
    } else if (key === 'Delete' || key === 'Backspace') this.#acts.remove(id);
    else if (step && lifted) this.#move(step);
    else if (step) this.#walk(id, step);
    else return;
    event.preventDefault();
  }

  /** The focus left a dab: what is picked up goes back, unless the dab only moved on the page. */
  async left(id: string, shown: Promise<unknown>): Promise<void> {
    if (this.now?.id !== id) return;
    await shown;
    if (this.now?.id !== id || this.#desk.dabOf(id)?.matches(':focus')) return;
    this.#putBack();
  }

  #pickUp(id: string): void {
    const desk = this.#desk;
    const at = placeOf(desk.store().plan.board, id);
    if (!at) return;
    desk.close();
    this.now = { id, to: at };
    desk.speak(desk.say('dab.lifted', { name: desk.nameOf(id) }));
    desk.update();
  }

  #move(step: Parameters<typeof stepped>[2]): void {
    const desk = this.#desk;
    if (!this.now) return;
    const { id, to } = this.now;
    const { board } = desk.store().plan;
    const next = stepped(withSwatchMoved(board, id, to), to, step);
    this.now = { id, to: next };
    desk.focusLater(() => desk.dabOf(id));
    desk.speak(desk.say('dab.at', placeWords(desk, withSwatchMoved(board, id, next), id)));
    desk.update();
  }

  #walk(id: string, step: Parameters<typeof stepped>[2]): void {
    const { board } = this.#desk.store().plan;
    const at = placeOf(board, id);
    if (!at) return;
    const { bucket, place } = stepped(board, at, step);
    const list = swatchesIn(board, bucket);
    const next = list[Math.min(place, list.length - 1)];
    if (next) this.#desk.dabOf(next.id)?.focus();
  }

  #putDown(): void {
    if (!this.now) return;
    const { id, to } = this.now;
    this.now = undefined;
    this.#acts.move(id, to);
    this.#desk.update();
  }

  #putBack(): void {
    const desk = this.#desk;
    if (!this.now) return;
    const { name, band } = placeWords(desk, desk.store().plan.board, this.now.id);
    this.now = undefined;
    desk.speak(desk.say('dab.back', { name, band }));
    desk.update();
  }
}
