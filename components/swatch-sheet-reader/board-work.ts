import type { Spot } from '../shared/core.js';
import { SheetSendEvent } from '../shared/events/sheet-send.js';
import type { Bench } from './bench.js';
import { middleOf } from './geometry.js';
import { earlierSheets, onSheet, pairedByPlace, pairedInOrder } from './pairing.js';
import { fits, sentOf, usualMapping, withSent, type Mapping } from './sending.js';

/** From the sheet to the plan: columns to buckets, dabs to board and memory, and wet dabs to the same ones dry. */
export class BoardWork {
  readonly #bench: Bench;
  #mapped: Readonly<Record<number, number | undefined>> = {};
  /** Where the dabs that were sent lay on their sheet. */
  readonly #places = new Map<string, Spot>();

  constructor(bench: Bench) {
    this.#bench = bench;
  }

  /** Another sheet: its columns are mapped anew. */
  clear(): void {
    this.#mapped = {};
  }

  get mapping(): Mapping {
    const { state } = this.#bench;
    if (!state) return [];
    return usualMapping(state, this.#bench.plan).map((usual, column) =>
      column in this.#mapped ? this.#mapped[column] : usual,
    );
  }

  map(column: number, bucket: number | undefined): void {
    this.#mapped = { ...this.#mapped, [column]: bucket };
    this.#bench.update();
  }

  send(): void {
    const { state, plan } = this.#bench;
    if (!state || state.dabs.length === 0) return;
    const sent = sentOf(state, plan, this.mapping);
    if (!fits(plan, sent)) {
      this.#bench.fault = this.#bench.say('reader.board-full');
      this.#bench.speak(this.#bench.fault);
      return this.#bench.update();
    }
    this.#bench.host.store.change('sheet', (now) => withSent(now, sent));
    for (const { id, loops } of state.dabs)
      this.#places.set(id, onSheet(state.corners, middleOf(loops)));
    this.#bench.host.dispatchEvent(
      new SheetSendEvent(structuredClone(sent.swatches), structuredClone(sent.dabs)),
    );
    this.#bench.report(
      this.#bench.say('reader.sent', { count: sent.swatches.length, dabs: sent.dabs.length }),
      true,
    );
  }

  pair(id: string, earlier: string): void {
    this.#bench.act('note', (state) => ({
      ...state,
      dabs: state.dabs.map((dab) => {
        if (dab.id === id) return { ...dab, same: earlier || undefined };
        // An earlier dab has one partner.
        return earlier && dab.same === earlier ? { ...dab, same: undefined } : dab;
      }),
    }));
  }

  pairAll(key: string): void {
    const { state } = this.#bench;
    if (!state) return;
    const sheet = earlierSheets(this.#bench.dabs, new Set(state.dabs.map(({ id }) => id))).find(
      (each) => each.key === key,
    );
    const earlier = sheet?.dabs ?? [];
    const places = earlier.map(({ id }) => this.#places.get(id));
    const pairs = places.some((spot) => spot)
      ? pairedByPlace(
          state.dabs.map(({ loops }) => onSheet(state.corners, middleOf(loops))),
          places,
        )
      : pairedInOrder(
          state.dabs.map(({ lab }) => lab),
          earlier.map(({ lab }) => lab),
        );
    const count = pairs.filter((pair) => pair !== undefined).length;
    this.#bench.act(
      'note',
      (now) => ({
        ...now,
        dabs: now.dabs.map((dab, i) => {
          const pair = pairs[i];
          return { ...dab, same: pair === undefined ? undefined : earlier[pair].id };
        }),
      }),
      this.#bench.say(key ? 'reader.paired' : 'reader.unpaired', { count }),
    );
  }
}
