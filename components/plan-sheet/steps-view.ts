import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { mixSign, passageList, type Plan, type Reason, type WorkStep } from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { recipeInWords } from '../shared/paint-words.js';
import { stepName } from '../shared/step-name.js';

type Say = (key: string, values?: Record<string, string | number>) => string;

/** What the list of steps needs of its element. */
export interface StepsHost {
  readonly steps: readonly WorkStep[];
  readonly plan: Plan;
  readonly drag?: { id: string; to: number };
  say: Say;
  lengthOf(mm: number): string;
  tick(id: string, done: boolean): void;
  move(id: string, to: number): void;
  grip(event: PointerEvent, id: string): void;
  /** The pointer or the focus is on a step; on none without it. */
  point(step?: WorkStep): void;
}

/** The steps as a list: ticked, moved by buttons or by the number, with waits, hints and warnings. */
export function renderSteps(host: StepsHost): TemplateResult {
  const { steps, drag } = host;
  const dragged = drag && steps.findIndex(({ id }) => id === drag.id);
  const lineAt = (place: number): string => {
    if (!drag || dragged === undefined) return '';
    const others = place > dragged ? place - 1 : place;
    if (place === dragged) return ' dragged';
    if (others === drag.to) return ' drop-before';
    return drag.to === steps.length - 1 && others === drag.to - 1 ? ' drop-after' : '';
  };
  return html`<ol class="steps" part="steps">
    ${repeat(
      steps,
      ({ id }) => id,
      (step, place) => renderStep(host, step, place, lineAt(place)),
    )}
  </ol>`;
}

function renderStep(host: StepsHost, step: WorkStep, place: number, line: string): TemplateResult {
  const { steps, plan, say } = host;
  const name = stepName(step, plan, say);
  const told = (reason: Reason): string => {
    const { widthMm, brushMm } = reason.values;
    return say(reason.code, {
      ...reason.values,
      ...(typeof widthMm === 'number' ? { widthMm: Math.round(10 * widthMm) / 10 } : {}),
      ...(typeof brushMm === 'number' ? { brushMm: Math.round(10 * brushMm) / 10 } : {}),
    });
  };
  const what = [
    step.regions.length > 0 ? say('steps.masses', { count: step.regions.length }) : '',
    step.keeps.length > 0 ? say('steps.reserves', { count: step.keeps.length }) : '',
    step.marks.length > 0
      ? say('steps.marks', { count: step.marks.length, numbers: step.marks.join(', ') })
      : '',
    step.passages
      ? say('steps.passages', {
          count: step.passages.length,
          passages: passageList(step.passages),
        })
      : '',
  ].filter(Boolean);
  const wet = place > 0 && step.session === steps[place - 1].session && step.soft.length > 0;
  const hints = step.hints.filter(({ code }) => !wet || code !== 'order.hint-wet-together');
  return html`<li
    class=${`step${step.done ? ' done' : ''}${line}`}
    part="step"
    data-step=${step.id}
    @pointerenter=${() => host.point(step)}
    @pointerleave=${() => host.point()}
    @focusin=${() => host.point(step)}
    @focusout=${() => host.point()}
  >
    ${step.waits.map((wait) => html`<p class="wait" part="wait">${told(wait)}</p>`)}
    ${wet ? html`<p class="wait" part="wait">${say('steps.wet')}</p>` : nothing}
    <div class="row">
      <span
        class="number"
        part="number"
        title=${say('steps.number', { number: place + 1 })}
        @pointerdown=${(event: PointerEvent) => host.grip(event, step.id)}
        >${place + 1}</span
      >
      <label class="tick">
        <input
          type="checkbox"
          .checked=${step.done === true}
          aria-label=${say('steps.done', { step: name })}
          @change=${(event: Event) =>
            host.tick(step.id, (event.target as HTMLInputElement).checked)}
        />
        <span class="name">${name}</span>
      </label>
      <span class="moves">
        <button
          type="button"
          class="quiet small"
          data-earlier=${step.id}
          ?disabled=${place === 0}
          aria-label=${say('steps.earlier-of', { step: name })}
          @click=${() => host.move(step.id, place - 1)}
        >
          ${say('steps.earlier')}
        </button>
        <button
          type="button"
          class="quiet small"
          data-later=${step.id}
          ?disabled=${place === steps.length - 1}
          aria-label=${say('steps.later-of', { step: name })}
          @click=${() => host.move(step.id, place + 1)}
        >
          ${say('steps.later')}
        </button>
      </span>
    </div>
    ${what.length > 0 ? html`<p class="what soft small">${what.join(' · ')}</p>` : nothing}
    ${mixesOf(step, plan, say).map((mix) => html`<p class="what soft small">${mix}</p>`)}
    ${hints.map((hint) => html`<p class="hint soft small">${told(hint)}</p>`)}
    ${step.warnings.map(
      (warning) =>
        html`<p class="warning small" part="warning">
          ${icon('spot')}<span>${told(warning)}</span>
        </p>`,
    )}
  </li>`;
}

/** The mixes of a step's passages under the letters that the page gives them, each once. */
function mixesOf({ passages = [] }: WorkStep, { board }: Plan, say: Say): string[] {
  const swatches = new Map(passages.map(({ mix, swatch }) => [mix, swatch]));
  return [...swatches]
    .filter(([mix]) => mix !== undefined)
    .sort(([a = 0], [b = 0]) => a - b)
    .flatMap(([number = 0, id]) => {
      const swatch = board.swatches.find((each) => each.id === id);
      const mix = swatch?.recipe ? recipeInWords(swatch.recipe, say) : swatch?.name;
      return mix ? [say('steps.mix', { sign: mixSign(number), mix })] : [];
    });
}
