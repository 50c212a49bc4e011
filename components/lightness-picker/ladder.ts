import { html, nothing, type TemplateResult } from 'lit';
import { munsellValue, type Plan } from '../shared/core.js';
import { LADDER_GREYS, ladderMark, placeOnLadder, stretches } from '../shared/ladder.js';
import { put } from '../shared/put.js';

type Say = (key: string, values?: Record<string, string | number>) => string;

export interface LadderView {
  plan: Plan;
  say: Say;
  /** What a screen reader hears of it. */
  label: string;
  /** The value that the mark stands at, if any. */
  marked?: number;
  /** When given, the dabs are buttons, and a slider in half steps stands in for the mark. */
  choose?: (value: number) => void;
  /** Called when Enter is pressed on the slider. */
  state?: () => void;
  disabled?: boolean;
}

/** Eleven grey dabs from black to white, a mark at a value, and below it the bands of the plan. */
export function ladder({
  plan,
  say,
  label,
  marked,
  choose,
  state,
  disabled = false,
}: LadderView): TemplateResult {
  const dabs = LADDER_GREYS.map((grey, value) =>
    choose
      ? html`<button
          type="button"
          class="dab"
          part="dab"
          ?disabled=${disabled}
          aria-label=${say('picker.guess-dab', { value })}
          aria-pressed=${marked === value ? 'true' : 'false'}
          @click=${() => choose(value)}
          ${put({ '--_grey': grey })}
        ></button>`
      : html`<span class="dab" part="dab" ${put({ '--_grey': grey })}></span>`,
  );
  return html`<div class="ladder" part="ladder">
    ${
      choose
        ? html`<div class="dabs" role="group" aria-label=${label}>${dabs}</div>`
        : html`<div class="dabs" role="img" aria-label=${label}>${dabs}</div>`
    }
    ${
      choose
        ? html`<input
            type="range"
            min="0"
            max="10"
            step="0.5"
            aria-label=${say('picker.guess-label')}
            ?disabled=${disabled}
            .value=${String(marked ?? 5)}
            @input=${(event: Event) => choose((event.target as HTMLInputElement).valueAsNumber)}
            @keydown=${(event: KeyboardEvent) => {
              if (event.key === 'Enter') state?.();
            }}
          />`
        : html`<div class="marks" aria-hidden="true">
            ${marked === undefined ? nothing : ladderMark(marked)}
          </div>`
    }
    ${spansOf(plan, say('picker.paper-short'))}
  </div>`;
}

/** The bands below the ladder: each as wide as its values, the first and last to the ladder's ends. */
function spansOf(plan: Plan, paper: string): TemplateResult {
  const { photoLimits, paperLimit, board } = plan;
  const limits = paperLimit === undefined ? photoLimits : [...photoLimits, paperLimit];
  const names = board.bands.map(({ name }) => name);
  if (paperLimit !== undefined) names.push(paper);
  const borders = [0, ...limits.map((limit) => placeOnLadder(munsellValue(limit))), 100];
  return stretches(names, borders);
}
