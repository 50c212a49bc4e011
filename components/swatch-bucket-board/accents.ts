import {
  accentPlan,
  labOf,
  munsellValue,
  type AccentPlan,
  type AccentsFound,
  type Board,
  type BoardSwatch,
  type Lab,
  type PlannedAccent,
} from '../shared/core.js';
import { massesAsked } from '../shared/masses-in-hand.js';
import type { PlanStore } from '../shared/plan-store.js';
import type { BoardAccents, BoardView } from './board-view.js';
import { dryLightness, tenth } from './verdict-words.js';

export { boardAccentsWords } from '../shared/words/board-accents.js';

/** How long plan and picture must rest before the photo is asked: while a limit is dragged other work goes first, ms. */
const REST_MS = 600;

/** What was found in the photo, and in pixels of what size. */
interface InPhoto {
  found: AccentsFound;
  size: { width: number; height: number; brushPx: number };
}

/** What is told of accents: among their neutrals, on the board, and in the plan's photo. It comes once a board has an accent. */
export class Accents implements BoardAccents {
  readonly #update: () => void;
  #store?: PlanStore;
  #photo?: InPhoto;
  /** What the photo was asked last. */
  #asked = '';
  #timer?: ReturnType<typeof setTimeout>;
  #running?: AbortController;
  #plan?: { board: Board; photo?: InPhoto; paper: number; plan: AccentPlan };

  /** @param update - has the board shown anew. */
  constructor(update: () => void) {
    this.#update = update;
  }

  /** The plan changed, or another one was taken up. */
  follow(store: PlanStore): void {
    if (store !== this.#store) {
      this.stop();
      this.#store = store;
      store.addEventListener('picture', this.#look);
    }
    this.#look();
  }

  /** Lets go of the plan and of the work under way. */
  stop(): void {
    this.#store?.removeEventListener('picture', this.#look);
    this.#store = undefined;
    this.#forget();
  }

  told({ board, paper, say, nameOf }: BoardView, { id }: BoardSwatch): string[] {
    const accent = this.#planned(board, paper).planned.find(({ swatch }) => swatch === id);
    if (!accent) return [];
    const { echoes, uses, mightRepeat, seemsLighter, lab } = accent;
    const seems = valuesApart(lab[0], lab[0] + seemsLighter);
    const used = say(uses.length > 0 ? 'accents.used' : 'accents.not-used', { times: uses.length });
    const vivid = [
      ...amongNeutrals(accent, say),
      ...(seems >= 0.1 ? [say('accents.seems', { by: seems })] : []),
    ];
    const again = [
      echoes.length > 0
        ? say('accents.echoed', {
            count: echoes.length,
            swatches: echoes.map(nameOf).join(', '),
          })
        : say('accents.not-echoed'),
      ...(this.#photo ? [say('accents.places', { used, places: mightRepeat.length })] : []),
    ];
    return [vivid.join(' '), again.join(' ')];
  }

  /** Worked out once for all cards. */
  #planned(board: Board, paper: number): AccentPlan {
    const old = this.#plan;
    const photo = this.#photo;
    if (old?.board === board && old.photo === photo && old.paper === paper) return old.plan;
    const swatches = board.swatches.map((swatch) => dried(swatch, paper));
    const plan = accentPlan({ ...board, swatches }, photo?.found, photo?.size);
    this.#plan = { board, photo, paper, plan };
    return plan;
  }

  readonly #look = (): void => {
    const store = this.#store;
    if (!store) return;
    const { picture, plan } = store;
    const { handle, plane, exact } = picture;
    if (!handle) return this.#forget();
    if (!exact || !plane) return;
    const input = massesAsked(plan);
    const asked = JSON.stringify([handle.id, input, plan.crop, plan.distrusted]);
    if (asked === this.#asked) return;
    this.#cancel();
    this.#asked = asked;
    const { width, height } = plane;
    const size = { width, height, brushPx: (input.brushMm * width) / input.paperWidthMm };
    const running = (this.#running = new AbortController());
    const ask = async (): Promise<void> => {
      try {
        const found = await store.run('accents', input, { signal: running.signal });
        if (running.signal.aborted) return;
        this.#photo = { found, size };
        this.#update();
      } catch {
        // What the photo has is left untold; whatever changes next asks again.
        if (!running.signal.aborted) this.#asked = '';
      }
    };
    this.#timer = setTimeout(() => void ask(), REST_MS);
  };

  #forget(): void {
    this.#cancel();
    this.#asked = '';
    if (!this.#photo) return;
    this.#photo = undefined;
    this.#update();
  }

  #cancel(): void {
    clearTimeout(this.#timer);
    this.#running?.abort();
  }
}

/** A swatch as it will have dried, its colour read where it is only written. */
function dried(swatch: BoardSwatch, paper: number): BoardSwatch {
  const lab = swatch.lab ?? written(swatch.css);
  if (!lab) return swatch;
  return { ...swatch, lab: swatch.wet ? [dryLightness(swatch, paper), lab[1], lab[2]] : lab };
}

function written(css: string | undefined): Lab | undefined {
  try {
    return css === undefined ? undefined : labOf(css);
  } catch {
    return undefined;
  }
}

/** How much lighter in value (Munsell) the second L* is than the first, to a tenth. */
function valuesApart(from: number, to: number): number {
  const value = (lightness: number): number => munsellValue(Math.min(100, Math.max(0, lightness)));
  return tenth(value(to) - value(from));
}

function amongNeutrals({ among, chroma, lab }: PlannedAccent, say: BoardView['say']): string[] {
  if (!among) return [say('accents.alone')];
  const cost = valuesApart(lab[0] - among.valueCost, lab[0]);
  const way = cost === 0 ? 'even' : cost > 0 ? 'lighter' : 'darker';
  return [
    say('accents.among', { chroma, surround: among.chroma }),
    say(`accents.${way}`, { cost: Math.abs(cost) }),
  ];
}
