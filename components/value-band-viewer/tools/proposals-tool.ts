import { html, nothing, type TemplateResult } from 'lit';
import { ref, type RefOrCallback } from 'lit/directives/ref.js';
import {
  bandPalette,
  defaultTones,
  keyOf,
  LEAST_STEP,
  munsellValue,
  proposeLimits,
  recolour,
  sharesOfHistogram,
  thresholdOfLimit,
  withLimits,
  type Lightness,
  type Plan,
  type Proposal,
} from '../../shared/core.js';
import { LimitsChangeEvent } from '../../shared/events/limits-change.js';
import type { StageTool } from '../stage-tool.js';
import { HandTool } from './hand-tool.js';
import { smallPlane } from './small-plane.js';

/** The longer side of a small picture, pixels. */
const SIDE = 160;

interface Choice extends Proposal {
  /** The paper's limit that goes with the limits; undefined when no paper is left bare. */
  paperLimit?: number;
  /** Shares darkest first, bare paper last where it is left. */
  shown: number[];
  draw: RefOrCallback;
}

/** Limits to choose from, as small pictures with the share of each band in words. */
export class ProposalsTool extends HandTool implements StageTool {
  readonly name = 'proposals';
  readonly word = 'tool.proposals';
  readonly icon = 'steps';

  #choices: Choice[] = [];
  #small?: Lightness;
  /** What the choices were made from. */
  #made: { plane?: Lightness; histogram?: Uint32Array; bands: number; paper?: number } = {
    bands: 0,
  };

  renderPanel(): TemplateResult {
    const { histogram, plane } = this.store.picture;
    if (!histogram || !plane || !histogram.some((count) => count > 0)) {
      return html`<div class="tool">
        <p class="tool-lead">${this.say('tool.proposals.lead')}</p>
        <p>${this.say('tool.proposals.none')}</p>
      </div>`;
    }
    this.#prepare(plane, histogram);
    const chosen = this.#choices.findIndex((choice) => isChosen(this.plan, choice));
    return html`<div class="tool">
      <p class="tool-lead">${this.say('tool.proposals.lead')}</p>
      <p>${this.#keyWords(histogram)}</p>
      <div
        class="tool-choices"
        role="radiogroup"
        aria-label=${this.say('tool.proposals.group')}
        @keydown=${this.#onKey}
      >
        ${this.#choices.map((choice, i) => this.#renderChoice(choice, i === chosen, i === Math.max(0, chosen)))}
      </div>
      ${chosen < 0 ? html`<p class="tool-note">${this.say('tool.proposals.own')}</p>` : nothing}
      <p class="tool-note">
        ${this.say(this.plan.sitter ? 'tool.proposals.sitter' : 'tool.proposals.note')}
      </p>
    </div>`;
  }

  #prepare(plane: Lightness, histogram: Uint32Array): void {
    const bands = this.plan.photoLimits.length + 1;
    const paper = this.plan.paperLimit;
    const made = this.#made;
    if (made.plane !== plane || !this.#small) this.#small = smallPlane(plane, SIDE);
    else if (made.histogram === histogram && made.bands === bands && made.paper === paper) return;
    this.#made = { plane, histogram, bands, paper };
    const small = this.#small;
    this.#choices = proposeLimits(histogram, bands).map((proposal) => {
      const paperLimit = paperAbove(paper, proposal.limits);
      const { thresholds } = proposal;
      const bare = bareThreshold(paperLimit, thresholds);
      const shown = sharesOfHistogram(
        histogram,
        bare === undefined ? thresholds : [...thresholds, bare],
      );
      const palette = bandPalette(thresholds, defaultTones(thresholds), { paperThreshold: bare });
      const draw = (element?: Element): void => drawSmall(element, small, palette);
      return { ...proposal, paperLimit, shown, draw };
    });
  }

  #choose(choice: Choice): void {
    const before = this.plan;
    this.store.change('limits', (plan) => withLimits(plan, choice.limits, choice.paperLimit));
    const { photoLimits, paperLimit } = this.plan;
    if (this.plan !== before)
      this.host.dispatchEvent(new LimitsChangeEvent(photoLimits, paperLimit, true));
    this.host.speak(
      this.say('tool.proposals.said', {
        name: this.say(`tool.proposals.${choice.kind}`),
        shares: this.#shareWords(choice).join(this.say('tool.proposals.between')),
      }),
    );
    this.host.requestUpdate();
  }

  #onKey = (event: KeyboardEvent): void => {
    const group = event.currentTarget as HTMLElement;
    const buttons = [...group.querySelectorAll<HTMLElement>('[role="radio"]')];
    const at = buttons.indexOf(
      (event.target as HTMLElement).closest<HTMLElement>('[role="radio"]')!,
    );
    const rightwards = getComputedStyle(group).direction === 'rtl' ? -1 : 1;
    const steps: Record<string, number> = {
      ArrowDown: 1,
      ArrowUp: -1,
      ArrowRight: rightwards,
      ArrowLeft: -rightwards,
    };
    const step = steps[event.key];
    if (at < 0 || step === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    const next = (at + step + buttons.length) % buttons.length;
    buttons[next].focus();
    this.#choose(this.#choices[next]);
  };

  #keyWords(histogram: Uint32Array): string {
    const { key, contrast, low, middle, high } = keyOf(histogram);
    return this.say('tool.proposals.key', {
      key: this.say(`tool.key.${key}`),
      contrast: this.say(`tool.contrast.${contrast}`),
      low: munsellValue(low),
      middle: munsellValue(middle),
      high: munsellValue(high),
    });
  }

  #shareWords({ shown }: Choice): string[] {
    const { bands } = this.plan.board;
    return shown.map((share, i) =>
      this.say('tool.proposals.share', {
        name: bands[i]?.name ?? this.say('tool.proposals.paper'),
        percent: 100 * share,
      }),
    );
  }

  #renderChoice(choice: Choice, checked: boolean, reachable: boolean): TemplateResult {
    const { width, height } = this.#small!;
    return html`<button
      type="button"
      class="tool-choice"
      role="radio"
      aria-checked=${checked}
      tabindex=${reachable ? 0 : -1}
      @click=${() => this.#choose(choice)}
    >
      <canvas width=${width} height=${height} aria-hidden="true" ${ref(choice.draw)}></canvas>
      <span class="tool-choice-name">${this.say(`tool.proposals.${choice.kind}`)}</span>
      <span class="tool-choice-shares">
        ${this.#shareWords(choice).map((words) => html`<span>${words}</span>`)}
      </span>
    </button>`;
  }
}

/** The paper's limit of the plan, raised where it would not lie above the limits. */
function paperAbove(paper: number | undefined, limits: readonly number[]): number | undefined {
  return paper === undefined
    ? undefined
    : Math.min(100, Math.max(paper, limits.at(-1)! + LEAST_STEP));
}

/** The code above which the paper is bare; undefined where none is left above the lightest band. */
function bareThreshold(
  paperLimit: number | undefined,
  thresholds: readonly number[],
): number | undefined {
  if (paperLimit === undefined) return undefined;
  const bare = thresholdOfLimit(paperLimit);
  return bare > thresholds.at(-1)! ? bare : undefined;
}

/** Whether the plan's limits are those of a choice. */
function isChosen(plan: Plan, { limits }: Choice): boolean {
  return plan.photoLimits.every((limit, i) => Math.abs(limit - limits[i]) < 1e-6);
}

function drawSmall(element: Element | undefined, small: Lightness, palette: Uint32Array): void {
  const canvas = element as HTMLCanvasElement | undefined;
  const context = canvas?.getContext('2d');
  if (!canvas || !context) return;
  const image = new ImageData(small.width, small.height);
  recolour(small.data, palette, new Uint32Array(image.data.buffer));
  context.putImageData(image, 0, 0);
}
