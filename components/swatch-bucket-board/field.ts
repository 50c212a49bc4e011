import { faultsOf } from './board-form.js';
import type { BoardFacts } from './desk.js';
import { lackWords } from './lack-words.js';

/** The rules a page sets for a board in a form. */
export interface FieldRules {
  validate: 'report' | 'require';
  readonly: boolean;
  /** The text that the form receives. */
  value: string;
}

/** Keeps the board's value, validity and states in the form up to date. */
export class BoardField {
  #internals: ElementInternals;
  #facts: BoardFacts;

  constructor(internals: ElementInternals, facts: BoardFacts) {
    this.#internals = internals;
    this.#facts = facts;
  }

  sync({ validate, readonly, value }: FieldRules): void {
    const { ruled, verdict, lacks } = this.#facts.now();
    const { say, nameOf } = this.#facts;
    const faults = faultsOf(verdict);
    this.#internals.setFormValue(value, JSON.stringify(this.#facts.store().plan.board));
    this.#state('empty', ruled.swatches.length === 0);
    this.#state('faults', faults.length > 0);
    this.#state('complete', lacks.length === 0);
    this.#state('told', this.#facts.isTold());
    if (!readonly && lacks.length > 0) {
      const [lack] = lacks;
      const text = lackWords(say, 'validity', lack, ruled.bands[lack.bucket].name);
      this.#invalid({ valueMissing: true }, text, lack.bucket);
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
      this.#facts.find(`[data-add="${bucket}"]`) ?? undefined,
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
