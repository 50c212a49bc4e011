import { html, nothing, type TemplateResult } from 'lit';
import {
  isLasting,
  munsellValue,
  paperReflectance,
  TUBES,
  type BoardSwatch,
  type Completion,
  type Mix,
  type Progress,
} from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { freeId, swatchOf } from '../shared/mix-swatch.js';
import { recipeInWords, tubeName } from '../shared/paint-words.js';
import type { BoardActs } from './acts.js';
import { swatchesIn } from './board-moves.js';
import type { BoardMixes, BoardView } from './board-view.js';
import { dab } from './dabs.js';
import type { Desk } from './desk.js';
import { dryLightness } from './verdict-words.js';

export { boardMixesWords } from '../shared/words/board-mixes.js';
export { tubesWords } from '../shared/words/tubes.js';

const PREDICTED: ReadonlySet<string> = new Set(TUBES.map(({ id }) => id));
const LASTING: ReadonlySet<string> = new Set(TUBES.filter(isLasting).map(({ id }) => id));

/** What is asked for one bucket. */
interface Asked {
  bucket: number;
  progress?: number;
  fault?: string;
  found?: Completion;
  /** Tubes that are not mixed from, since they do not last and the work will be sold. */
  left?: readonly string[];
}

/** Recipes of swatches in words, and mixes of the plan's tubes for the leans that a bucket lacks. It comes once a plan has either. */
export class Mixes implements BoardMixes {
  readonly #desk: Desk;
  readonly #acts: BoardActs;
  #asked?: Asked;
  #work?: AbortController;

  constructor(desk: Desk, acts: BoardActs) {
    this.#desk = desk;
    this.#acts = acts;
  }

  renderRecipe({ recipe }: BoardSwatch): TemplateResult | typeof nothing {
    if (!recipe) return nothing;
    const words = recipeInWords(recipe, (key, values) => this.#desk.say(key, values));
    return html`<p class="recipe" part="recipe">
      ${this.#desk.say('mixes.recipe', { recipe: words })}
    </p>`;
  }

  renderComplete(view: BoardView, bucket: number): TemplateResult | typeof nothing {
    const shelf = this.#desk.store().plan.shelf ?? [];
    if (!view.open || shelf.length === 0) return nothing;
    if (view.form?.kind === 'complete' && view.form.bucket === bucket)
      return this.#renderFound(view, bucket);
    return html`<button
      type="button"
      class="quiet add"
      part="complete-button"
      data-complete=${bucket}
      @click=${() => this.#begin(view, bucket)}
    >
      ${icon('fan')}<span>${view.say('mixes.complete')}</span
      ><span class="away">: ${view.board.bands[bucket].name}</span>
    </button>`;
  }

  /** Gives up what is looked for. */
  stop(): void {
    this.#work?.abort();
    this.#work = undefined;
    this.#asked = undefined;
  }

  #begin(view: BoardView, bucket: number): void {
    this.stop();
    view.show({ kind: 'complete', bucket });
    void this.#look(bucket);
  }

  async #look(bucket: number): Promise<void> {
    const desk = this.#desk;
    const { plan } = desk.store();
    const all = (plan.shelf ?? []).map(({ tube }) => tube).filter((id) => PREDICTED.has(id));
    const tubes = plan.sold ? all.filter((id) => LASTING.has(id)) : all;
    const left = all.filter((id) => !tubes.includes(id));
    if (tubes.length === 0) {
      const fault = desk.say(left.length > 0 ? 'mixes.no-lasting' : 'mixes.no-tubes');
      this.#asked = { bucket, fault };
      return desk.update();
    }
    const work = (this.#work = new AbortController());
    this.#asked = { bucket, progress: 0 };
    desk.update();
    const { floor, ceiling } = plan.board.bands[bucket];
    const swatches = swatchesIn(plan.board, bucket).map((swatch) => ({
      lightness: dryLightness(swatch, plan.paper.lightness),
      ...(swatch.lab ? { lab: swatch.lab } : {}),
      ...(swatch.accent ? { accent: true } : {}),
    }));
    const input = { bucket: { floor, ceiling, swatches }, tubes, options: this.#ground };
    try {
      const core = await desk.store().core();
      const onProgress = ({ done }: Progress): void => {
        if (work.signal.aborted) return;
        this.#asked = { bucket, progress: done };
        desk.update();
      };
      const found = await core.run('complete', input, { signal: work.signal, onProgress });
      if (work.signal.aborted) return;
      this.#asked = { bucket, found, left };
      desk.focusLater(() => desk.find('[data-lay], [data-shut]'));
    } catch {
      if (work.signal.aborted) return;
      this.#asked = { bucket, fault: desk.say('mixes.failed') };
    }
    desk.update();
  }

  /** What mixes are laid on and of: the plan's paper, and how strong the painter's own tubes are. */
  get #ground(): { paper: Float64Array; loads: Record<string, number> } {
    const { paper, shelf = [] } = this.#desk.store().plan;
    const loads = shelf.flatMap(({ tube, load }) =>
      load === undefined || !PREDICTED.has(tube) ? [] : [[tube, load] as const],
    );
    return {
      paper: paperReflectance({ lightness: paper.lightness }),
      loads: Object.fromEntries(loads),
    };
  }

  #renderFound(view: BoardView, bucket: number): TemplateResult {
    const { say } = view;
    const asked = this.#asked?.bucket === bucket ? this.#asked : undefined;
    const found = asked?.found;
    const close = (): void => {
      this.stop();
      view.show(undefined);
    };
    return html`<div
      class="small-form completing"
      part="completion"
      role="group"
      aria-label=${say('mixes.complete')}
      @keydown=${(event: KeyboardEvent) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        close();
      }}
    >
      ${
        asked?.progress === undefined
          ? nothing
          : html`<p>${say('mixes.looking')}</p>
              <progress
                max="1"
                .value=${asked.progress}
                aria-label=${say('mixes.looking')}
              ></progress>`
      }
      ${asked?.fault ? html`<p class="fault" role="alert">${asked.fault}</p>` : nothing}
      ${found ? this.#renderMissing(view, bucket, found) : nothing}
      ${
        asked?.left?.length
          ? html`<p class="details">
              ${say('mixes.left-out', { tubes: asked.left.map((id) => tubeName(id, say)).join(', ') })}
            </p>`
          : nothing
      }
      <div class="row">
        <button type="button" class="quiet" data-first data-shut @click=${close}>
          ${icon('close')}<span
            >${say(asked?.progress === undefined ? 'mixes.close' : 'mixes.stop')}</span
          >
        </button>
      </div>
    </div>`;
  }

  #renderMissing(view: BoardView, bucket: number, found: Completion): TemplateResult {
    const { say } = view;
    const { missing, beyond, lightness } = found;
    return html`${
        missing.length > 0
          ? html`<p>${say('mixes.at', { value: munsellValue(lightness) })}</p>`
          : beyond.length === 0
            ? html`<p>${say('mixes.none')}</p>`
            : nothing
      }
      <ul class="missing">
        ${missing.map(({ lean, mix }, i) => {
          const words = recipeInWords(mix, say);
          return html`<li>
            <svg class="dab" viewBox="0 0 120 76" preserveAspectRatio="none" aria-hidden="true">
              ${dab(`missing-${i}`, mix.css)}
            </svg>
            <span class="said"><b>${say(`swatch.lean.${lean}`)}</b> <span>${words}</span></span>
            <button
              type="button"
              data-lay
              aria-label="${say('mixes.lay')}: ${words}"
              @click=${() => this.#lay(view, bucket, [mix], found)}
            >
              ${icon('plus')}<span>${say('mixes.lay')}</span>
            </button>
          </li>`;
        })}
      </ul>
      ${
        missing.length > 1
          ? html`<div class="row">
              <button
                type="button"
                data-lay-all
                @click=${() =>
                  this.#lay(
                    view,
                    bucket,
                    missing.map(({ mix }) => mix),
                    found,
                  )}
              >
                ${icon('check')}<span>${say('mixes.lay-all', { count: missing.length })}</span>
              </button>
            </div>`
          : nothing
      }
      ${[...new Set(beyond.map(({ lean }) => lean))].map(
        (lean) =>
          html`<p class="details">${say('mixes.beyond', { lean: say(`lean.${lean}`) })}</p>`,
      )}`;
  }

  /** Lays mixes into the bucket as swatches with their recipes. */
  #lay(view: BoardView, bucket: number, mixes: readonly Mix[], found: Completion): void {
    const desk = this.#desk;
    const { plan } = desk.store();
    const ground = this.#ground;
    const swatches: BoardSwatch[] = [];
    for (const mix of mixes) {
      const id = freeId([...plan.board.swatches, ...swatches]);
      const name = [...mix.parts]
        .sort((p, q) => q.parts - p.parts)
        .map(({ tube }) => tubeName(tube, view.say))
        .join(' + ');
      swatches.push(swatchOf(mix, [], { id, bucket, name }, ground));
    }
    const rest = found.missing.filter(({ mix }) => !mixes.includes(mix));
    this.#asked = { ...this.#asked, bucket, found: { ...found, missing: rest } };
    if (rest.length === 0) {
      this.stop();
      view.show(undefined);
    } else desk.focusLater(() => desk.find('[data-lay]'));
    this.#acts.addMixes(swatches, bucket);
  }
}
