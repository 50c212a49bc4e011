import { paperReflectance } from '../shared/core.js';
import { ShelfChangeEvent } from '../shared/events/shelf-change.js';
import { reasonOf } from '../shared/plan-store.js';
import type { Bench } from './bench.js';
import { wetOf } from './dabs-state.js';
import { paperOf } from './sending.js';
import type { TubeAsked } from './sheet-view.js';
import { timesOf } from './tube-panel.js';

/** How strong one tube is, fitted from its dabs, and taken up on the shelf. */
export class TubeFitting {
  asked: TubeAsked = { column: 0, tube: '', times: {}, busy: false, fault: '' };
  readonly #bench: Bench;

  constructor(bench: Bench) {
    this.#bench = bench;
  }

  /** Another sheet: what was asked of the last one's dabs is gone. */
  clear(): void {
    this.asked = { ...this.asked, times: {}, fault: '', fit: undefined };
  }

  /** Dabs have changed: a fit no longer stands. */
  outdate(): void {
    this.asked = { ...this.asked, fit: undefined };
  }

  ask(change: Partial<TubeAsked>): void {
    this.asked = { ...this.asked, fault: '', fit: undefined, ...change };
    this.#bench.update();
  }

  fit(): void {
    const { state } = this.#bench;
    const tube = this.asked;
    if (!state) return;
    const strengths = timesOf(this.#bench);
    if (!tube.tube) return this.ask({ fault: this.#bench.say('reader.tube-missing') });
    if (strengths.length === 0) return this.ask({ fault: this.#bench.say('reader.tube-no-dabs') });
    if (strengths.some(({ dab }) => wetOf(dab, state) !== 'dry'))
      return this.ask({ fault: this.#bench.say('reader.tube-wet') });
    const readings = strengths.map(({ dab, times }) => ({ lab: dab.lab, strength: 1 / times }));
    this.ask({ busy: true });
    void (async () => {
      const asked = this.asked;
      try {
        const core = await this.#bench.host.store.core();
        const paper = paperReflectance({ lightness: paperOf(this.#bench.plan) });
        const fit = await core.run('fit', { tube: tube.tube, readings, paper });
        if (this.asked !== asked) return;
        this.asked = { ...asked, busy: false, fit };
        this.#bench.focusNext = '[data-keep-fit]';
        this.#bench.speak(fit.reasons.map((reason) => this.#bench.paint(reason)).join(' '));
      } catch (thrown) {
        if (this.asked !== asked) return;
        this.asked = { ...asked, busy: false, fault: this.#bench.say('reader.fit-failed') };
        this.#bench.host.fail({
          code: 'reader.fit-failed',
          values: { name: reasonOf(thrown).code },
        });
      }
      this.#bench.update();
    })();
  }

  keep(): void {
    const { fit } = this.asked;
    if (!fit) return;
    const own = { tube: fit.tube, load: fit.load, loadLow: fit.low, loadHigh: fit.high };
    this.#bench.host.store.change('shelf-fit', (plan) => {
      const shelf = plan.shelf ?? [];
      const on = shelf.some(({ tube }) => tube === fit.tube);
      return {
        ...plan,
        shelf: on
          ? shelf.map((each) => (each.tube === fit.tube ? { ...each, ...own } : each))
          : [...shelf, own],
      };
    });
    const strengths = timesOf(this.#bench);
    this.#bench.act('note', (state) => ({
      ...state,
      dabs: state.dabs.map((dab) => {
        const of = strengths.find((each) => each.dab.id === dab.id);
        if (!of || dab.recipe) return dab;
        const strength = Number((1 / of.times).toFixed(4));
        return { ...dab, recipe: { parts: [{ tube: fit.tube, parts: 1 }], strength } };
      }),
    }));
    this.#bench.host.dispatchEvent(
      new ShelfChangeEvent(this.#bench.plan.shelf ?? [], 'fit', fit.tube),
    );
    this.asked = { ...this.asked, fit: undefined };
    this.#bench.report(
      this.#bench.say('reader.fit-kept', { tube: this.#bench.tubeName(fit.tube) }),
      true,
    );
  }
}
