import type { Crop, Plan, PlanLandmark, Spot } from '../shared/core.js';
import type { PlanStore } from '../shared/plan-store.js';
import type { Say } from '../shared/usual-bands.js';

/** A landmark as it is worked with. */
export interface Mark {
  id: string;
  name: string;
  /** Fractions of the plan's picture (its crop). */
  planned: Spot;
  /** Fractions of the photo of the painting; until the painter puts it there it lies where it was planned and says nothing. */
  painted?: Spot;
}

const WHOLE: Crop = { x: 0, y: 0, width: 1, height: 1 };

/**
 * The places by which the drawing is checked. Where they lie on the plan's photo is kept with the plan, so that the check of the next
 * stage begins with them; where they lie on the painting belongs to the photo of the painting in hand.
 */
export class Landmarks {
  readonly #storeOf: () => PlanStore;
  readonly #say: Say;
  #painted = new Map<string, Spot>();
  #gesture = 0;

  constructor(storeOf: () => PlanStore, say: Say) {
    this.#storeOf = storeOf;
    this.#say = say;
  }

  /** Those inside the plan's crop, in the order in which they were set. */
  get marks(): readonly Mark[] {
    const { landmarks = [], crop = WHOLE } = this.#storeOf().plan;
    return landmarks.flatMap(({ id, at: [x, y], name }, i): Mark[] => {
      const planned: Spot = [(x - crop.x) / crop.width, (y - crop.y) / crop.height];
      if (planned.some((part) => part < 0 || part > 1)) return [];
      return [
        {
          id,
          name: name ?? this.#say('checking.drawing-landmark', { number: i + 1 }),
          planned,
          painted: this.#painted.get(id),
        },
      ];
    });
  }

  /** Another photo of the painting: nothing is known of where they lie in it. */
  anotherPainting(): void {
    this.#painted = new Map();
  }

  add(planned: Spot): void {
    this.#change((landmarks, plan) => [
      ...landmarks,
      { id: freeId(landmarks), at: onPhoto(plan, planned) },
    ]);
  }

  /** Moves one on the plan's photo; with `end` the move has come to its end and the next is a step of undo of its own. */
  plan(id: string, planned: Spot, end: boolean): void {
    this.#change(
      (landmarks, plan) =>
        landmarks.map((each) => (each.id === id ? { ...each, at: onPhoto(plan, planned) } : each)),
      `landmark ${id} ${this.#gesture}`,
    );
    if (end) this.#gesture++;
  }

  /** Puts its twin on the photo of the painting. */
  paint(id: string, painted: Spot): void {
    this.#painted.set(id, painted);
  }

  /** An empty name gives it its number back. */
  rename(id: string, text: string): void {
    const name = text.trim();
    this.#change((landmarks) =>
      landmarks.map((each) => {
        if (each.id !== id) return each;
        const { name: _name, ...rest } = each;
        return name ? { ...rest, name } : rest;
      }),
    );
  }

  remove(id: string): void {
    this.#change((landmarks) => landmarks.filter((each) => each.id !== id));
  }

  #change(
    make: (landmarks: readonly PlanLandmark[], plan: Plan) => PlanLandmark[],
    gesture?: string,
  ): void {
    this.#storeOf().change(
      'landmarks',
      (plan) => {
        const { landmarks = [], ...rest } = plan;
        const next = make(landmarks, plan);
        return next.length > 0 ? { ...rest, landmarks: next } : rest;
      },
      gesture,
    );
  }
}

function onPhoto({ crop = WHOLE }: Plan, [x, y]: Spot): Spot {
  return [crop.x + x * crop.width, crop.y + y * crop.height];
}

/** A name that none of them has. */
function freeId(landmarks: readonly PlanLandmark[]): string {
  const taken = new Set(landmarks.map(({ id }) => id));
  let number = landmarks.length + 1;
  while (taken.has(`mark-${number}`)) number++;
  return `mark-${number}`;
}
