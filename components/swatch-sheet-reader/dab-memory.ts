import {
  mixOnPaper,
  TUBES,
  type Dab,
  type Lab,
  type Mix,
  type Plan,
  type Recipe,
} from '../shared/core.js';
import { DabForgetEvent } from '../shared/events/dab-forget.js';
import type { Bench } from './bench.js';
import { foundDabs } from './memory-panel.js';
import type { MemoryAsked } from './sheet-view.js';

/** Tubes that can be predicted. */
const KNOWN: ReadonlySet<string> = new Set(TUBES.map(({ id }) => id));

/** Remembered dabs: looked through, forgotten, and held against what was predicted of them. */
export class DabMemory {
  asked: MemoryAsked = { text: '', band: -1, tube: '', from: '', to: '', most: 30, proven: 0 };
  readonly #bench: Bench;
  #predicted = new WeakMap<Recipe, Lab | null>();
  #predictedFor?: Plan['shelf'];

  constructor(bench: Bench) {
    this.#bench = bench;
  }

  ask(change: Partial<MemoryAsked>): void {
    this.asked = { ...this.asked, most: 30, ...change };
    if (change.proven === undefined) {
      const { length } = foundDabs(this.#bench);
      this.#bench.speak(
        this.#bench.say('reader.memory-found', { count: length, all: this.#bench.dabs.length }),
      );
    }
    this.#bench.update();
  }

  forget(id: string): void {
    const dab = this.#bench.dabs.find((each) => each.id === id);
    if (!dab) return;
    this.#bench.host.store.change('dab-forget', (plan) => ({
      ...plan,
      dabs: (plan.dabs ?? []).filter((each) => each.id !== id),
    }));
    this.#bench.focusNext = '[data-undo-plan]';
    this.#bench.host.dispatchEvent(
      new DabForgetEvent(structuredClone(dab), this.#bench.dabs.slice()),
    );
    this.#bench.report(this.#bench.say('reader.forgotten'), true);
  }

  /** What a remembered dab was meant to be: its recipe as predicted on paper of L* 95. */
  predicted({ recipe }: Dab): Lab | undefined {
    if (!recipe) return undefined;
    const { shelf } = this.#bench.plan;
    if (this.#predictedFor !== shelf) this.#predicted = new WeakMap();
    this.#predictedFor = shelf;
    const known = this.#predicted.get(recipe);
    if (known !== undefined) return known ?? undefined;
    const lab = this.#predict(recipe);
    this.#predicted.set(recipe, lab ?? null);
    return lab;
  }

  #predict(recipe: Recipe): Lab | undefined {
    const layers = [...(recipe.over ?? []), recipe];
    const known = layers.every(({ parts }) => parts.every(({ tube }) => KNOWN.has(tube)));
    if (!known) return undefined;
    const loads = Object.fromEntries(
      (this.#bench.plan.shelf ?? []).flatMap(({ tube, load }) =>
        load === undefined || !KNOWN.has(tube) ? [] : [[tube, load]],
      ),
    );
    const below: Mix[] = [];
    for (const { parts, strength } of layers)
      below.push(mixOnPaper(parts, { strength, over: below.slice(), loads }));
    return below.at(-1)!.lab;
  }
}
