import type { Board, BoardVerdict } from '../shared/core.js';
import { faultsOf } from './board-form.js';
import type { BoardFacts } from './desk.js';
import { lackWords } from './lack-words.js';

/** The rules a page sets for a board in a form. */
export interface FieldRules {
  validate: 'report' | 'require';
  readonly: boolean;
}

/** Keeps the board's value, validity and states in the form up to date. */
export class BoardField {
  #internals: ElementInternals;
  #facts: BoardFacts;
  #text?: string;
  #board?: Board;

  constructor(internals: ElementInternals, facts: BoardFacts) {
    this.#internals = internals;
    this.#facts = facts;
  }

  sync({ validate, readonly }: FieldRules): void {
    const { ruled, verdict, lacks } = this.#facts.now();
    const { say, nameOf } = this.#facts;
    const faults = verdict ? faultsOf(verdict) : [];
    this.#setValue(verdict);
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
      const { verdict: kind } = verdict!.swatches.find((each) => each.id === id)!;
      const { bucket } = ruled.swatches.find((each) => each.id === id)!;
      const values = { swatch: nameOf(id), verdict: say(`verdict.${kind}`) };
      const text = say('validity.fault', { ...values, count: faults.length - 1 });
      this.#invalid({ customError: true }, text, bucket);
    } else if (!readonly && validate === 'require' && !verdict)
      this.#invalid({ customError: true }, say('validity.judging'), 0);
    else this.#internals.setValidity({});
  }

  #setValue(verdict: BoardVerdict | undefined): void {
    const { board } = this.#facts.store().plan;
    const text = this.#facts.document(verdict);
    if (text === this.#text && board === this.#board) return;
    this.#text = text;
    this.#board = board;
    this.#internals.setFormValue(text, JSON.stringify(board));
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
