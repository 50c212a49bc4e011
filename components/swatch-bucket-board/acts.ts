import {
  labOf,
  lightnessOfMunsell,
  withBandAdded,
  withBandNamed,
  withBandRemoved,
  withLimitMoved,
  type Board,
  type BoardSwatch,
  type Plan,
} from '../shared/core.js';
import { BoardChangeEvent, type BoardAct } from '../shared/events/board-change.js';
import { freeName } from '../shared/usual-bands.js';
import { withLocksKept } from './band-rules.js';
import { swatchOfCss } from './board-data.js';
import {
  freeId,
  placeOf,
  swatchesIn,
  withSwatchAdded,
  withSwatchChanged,
  withSwatchMoved,
  withSwatchRemoved,
  type Place,
  type SwatchPatch,
} from './board-moves.js';
import type { NewColour } from './open-form.js';
import type { Desk } from './desk.js';
import { markOf, tenth } from './verdict-words.js';

/** As many as a board may hold. */
const MOST_SWATCHES = 1000;

/** Where a swatch lies, in words. */
export function placeWords(
  desk: Desk,
  board: Board,
  id: string,
): { name: string; band: string; place: number; count: number } {
  const at = placeOf(board, id) ?? { bucket: 0, place: 0 };
  return {
    name: desk.nameOf(id),
    band: board.bands[at.bucket]?.name ?? '',
    place: at.place + 1,
    count: swatchesIn(board, at.bucket).length,
  };
}

/** What a person does to a board: each act is one step of undo, is told to screen readers, and fires `board-change`. */
export class BoardActs {
  #desk: Desk;

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  /** Lays a swatch at a place. */
  move(id: string, to: Place): void {
    const desk = this.#desk;
    if (!desk.isOpen()) return;
    desk.focusLater(() => desk.dabOf(id));
    this.#change('move', (board) => withSwatchMoved(board, id, to), {
      said: (board) => desk.say('dab.laid', placeWords(desk, board, id)),
      swatch: id,
    });
  }

  /** Lays a swatch last into a bucket, by the list in its form. */
  moveInto(id: string, bucket: number): void {
    const desk = this.#desk;
    const { board } = desk.store().plan;
    if (placeOf(board, id)?.bucket === bucket) return;
    this.move(id, { bucket, place: swatchesIn(board, bucket).length });
    desk.focusLater(() => desk.find('[data-move]'));
  }

  edit(id: string, patch: SwatchPatch): void {
    const desk = this.#desk;
    this.#change('edit', (board) => withSwatchChanged(board, id, patch), {
      said: () => desk.say('dab.edited', { name: desk.nameOf(id) }),
      swatch: id,
    });
  }

  remove(id: string): void {
    const desk = this.#desk;
    const { board } = desk.store().plan;
    const at = placeOf(board, id);
    if (!at || !desk.isOpen()) return;
    const name = desk.nameOf(id);
    const rest = swatchesIn(board, at.bucket).filter((swatch) => swatch.id !== id);
    const near = rest[Math.min(at.place, rest.length - 1)]?.id;
    desk.close();
    desk.focusLater(() =>
      near === undefined ? desk.find(`[data-add="${at.bucket}"]`) : desk.dabOf(near),
    );
    this.#change('remove', (each) => withSwatchRemoved(each, id), {
      said: () => desk.say('dab.deleted', { name }),
      swatch: id,
    });
  }

  /**
   * Lays a colour into a bucket.
   *
   * @returns why it cannot be laid in, as a sentence; empty when it was.
   */
  add({ css, name }: NewColour, bucket: number): string {
    const desk = this.#desk;
    const { swatches } = desk.store().plan.board;
    if (css.trim() === '') return desk.say('add.missing');
    if (swatches.length >= MOST_SWATCHES) return desk.say('add.full');
    const id = freeId(swatches);
    let swatch: BoardSwatch;
    try {
      swatch = swatchOfCss(css, { id, bucket, name: name.trim(), from: 'typed' }, labOf);
    } catch {
      return desk.say('add.unknown', { css: css.trim() });
    }
    this.#change('add', (board) => withSwatchAdded(board, swatch), {
      said: (board) => desk.say('dab.added', placeWords(desk, board, id)),
      swatch: id,
    });
    return '';
  }

  /** Lays mixes into a bucket, all in one step. */
  addMixes(swatches: readonly BoardSwatch[], bucket: number): void {
    const desk = this.#desk;
    const { board } = desk.store().plan;
    const room = Math.max(0, MOST_SWATCHES - board.swatches.length);
    if (swatches.length > room) return desk.speak(desk.say('add.full'));
    const band = board.bands[bucket]?.name ?? '';
    this.lay(swatches, desk.say('mixes.laid', { count: swatches.length, band }));
  }

  /** Lays swatches in as they are, all in one step. */
  lay(swatches: readonly BoardSwatch[], said: string): void {
    this.#act(
      'add',
      (plan) => ({
        ...plan,
        board: { ...plan.board, swatches: [...plan.board.swatches, ...swatches] },
      }),
      { said: () => said, swatch: swatches.at(-1)?.id ?? '' },
    );
  }

  nameBand(bucket: number, name: string): void {
    if (name === '') return this.#desk.update();
    this.#changeBands(
      (plan) => withBandNamed(plan, bucket, name),
      this.#desk.say('band.renamed', { name }),
    );
  }

  /** Moves a band's limit to the next lighter one to a Munsell value. */
  limitBand(bucket: number, value: number): void {
    if (!Number.isFinite(value)) return this.#desk.update();
    const lightness = Math.round(lightnessOfMunsell(Math.min(10, Math.max(0, value))) * 100) / 100;
    const { name } = this.#desk.store().plan.board.bands[bucket];
    this.#changeBands(
      (plan) => withLimitMoved(plan, bucket, lightness),
      this.#desk.say('band.moved', { name, to: tenth(value) }),
    );
  }

  splitBand(bucket: number): void {
    const { bands } = this.#desk.store().plan.board;
    const { name, floor, ceiling } = bands[bucket];
    const fresh = freeName(this.#desk.say('band.fresh', { name }).slice(0, 116), bands);
    this.#changeBands(
      (plan) => withBandAdded(plan, bucket, fresh, (floor + ceiling) / 2),
      this.#desk.say('band.splitted', { name }),
    );
  }

  removeBand(bucket: number): void {
    const desk = this.#desk;
    const { name } = desk.store().plan.board.bands[bucket];
    desk.close();
    desk.focusLater(() => desk.find('.head button:not(:disabled)'));
    this.#changeBands((plan) => withBandRemoved(plan, bucket), desk.say('band.removed', { name }));
  }

  /** Takes the latest change of the plan back, or makes it again. */
  step(what: 'undo' | 'redo', focused: Element | null): void {
    const desk = this.#desk;
    const { board } = desk.store().plan;
    const id = focused instanceof HTMLElement ? focused.dataset.dab : undefined;
    desk.close();
    if (what === 'undo') desk.store().undo();
    else desk.store().redo();
    // The focus stays on a dab that has moved; from a button that has had its day it goes to the next.
    const near = (): HTMLElement | null => desk.find('.head button:not(:disabled)');
    if (id !== undefined) desk.focusLater(() => desk.dabOf(id) ?? near());
    else if (focused instanceof HTMLButtonElement) {
      desk.focusLater(() => (focused.disabled || !focused.isConnected ? near() : focused));
    }
    const changed = desk.store().plan.board !== board;
    const { ruled } = desk.now();
    desk.whenJudged(ruled, (verdict) => {
      const sum = desk.isTold() ? ` ${desk.sum()}` : '';
      desk.speak(`${desk.say(what === 'undo' ? 'dab.undone' : 'dab.redone')}${sum}`);
      if (changed) desk.fire(new BoardChangeEvent(ruled, verdict, what));
    });
  }

  #change(
    what: BoardAct,
    make: (board: Board) => Board,
    told: { said: (board: Board) => string; swatch: string },
  ): void {
    const inPlan = (plan: Plan): Plan => {
      const board = make(plan.board);
      return board === plan.board ? plan : { ...plan, board };
    };
    this.#act(what, inPlan, told);
  }

  #changeBands(make: (plan: Plan) => Plan, said: string): void {
    this.#act('band', (plan) => withLocksKept(plan, make(plan)), { said: () => said, swatch: '' });
    this.#desk.update(); // a field may show what was refused
  }

  #act(
    what: BoardAct,
    make: (plan: Plan) => Plan,
    { said, swatch }: { said: (board: Board) => string; swatch: string },
  ): void {
    const desk = this.#desk;
    const before = desk.store().plan;
    desk.store().change(`board-${what}`, make);
    if (desk.store().plan === before) return;
    const { ruled } = desk.now();
    const sentence = said(ruled);
    desk.whenJudged(ruled, (verdict) => {
      const judged = verdict.swatches.find(({ id }) => id === swatch);
      const laid = ruled.swatches.find(({ id }) => id === swatch);
      const verdictWord = judged && laid && desk.say(`verdict.${markOf(laid, judged)}`);
      const word = verdictWord ? ` ${desk.say('verdict.said', { verdict: verdictWord })}` : '';
      desk.speak(`${sentence}${desk.isTold() ? `${word} ${desk.sum()}` : ''}`);
      desk.fire(new BoardChangeEvent(ruled, verdict, what, swatch));
    });
  }
}
