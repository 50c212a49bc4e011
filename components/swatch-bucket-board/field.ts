import { documentText, faultsOf, lacksOf, requiredCounts } from './board-form.js';
import type { Desk } from './desk.js';

/** The rules a page sets for a board in a form. */
export interface FieldRules {
  required: string | null;
  validate: 'report' | 'require';
  readonly: boolean;
}

/** Keeps the board's value, validity and states in the form up to date. */
export class BoardField {
  #internals: ElementInternals;
  #desk: Desk;

  constructor(internals: ElementInternals, desk: Desk) {
    this.#internals = internals;
    this.#desk = desk;
  }

  sync({ required, validate, readonly }: FieldRules): void {
    const { ruled, verdict } = this.#desk.now();
    const { say, nameOf } = this.#desk;
    const lacks = lacksOf(ruled, requiredCounts(required, ruled.bands.length));
    const faults = faultsOf(verdict);
    this.#internals.setFormValue(
      documentText(ruled, verdict),
      JSON.stringify(this.#desk.store().plan.board),
    );
    this.#state('empty', ruled.swatches.length === 0);
    this.#state('faults', faults.length > 0);
    this.#state('complete', lacks.length === 0);
    this.#state('told', this.#desk.isTold());
    if (!readonly && lacks.length > 0) {
      const { bucket, found, required: asked } = lacks[0];
      const text = say('validity.lack', { band: ruled.bands[bucket].name, missing: asked - found });
      this.#invalid({ valueMissing: true }, text, bucket);
    } else if (!readonly && validate === 'require' && faults.length > 0) {
      const [id] = faults;
      const { verdict: kind } = verdict.swatches.find((each) => each.id === id)!;
      const { bucket } = ruled.swatches.find((each) => each.id === id)!;
      const values = { swatch: nameOf(id), verdict: say(`verdict.${kind}`) };
      const text = say('validity.fault', { ...values, count: faults.length - 1 });
      this.#invalid({ customError: true }, text, bucket);
    } else this.#internals.setValidity({});
  }

  #invalid(flags: ValidityStateFlags, text: string, bucket: number): void {
    this.#internals.setValidity(
      flags,
      text,
      this.#desk.find(`[data-add="${bucket}"]`) ?? undefined,
    );
  }

  #state(name: string, on: boolean): void {
    try {
      if (on) this.#internals.states.add(name);
      else this.#internals.states.delete(name);
    } catch {
      // An engine without custom states, or one that still wants dashes: the element works without them.
    }
  }
}
