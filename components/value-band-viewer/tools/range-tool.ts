import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import {
  compressedIn,
  DARKEST_PAINT,
  lightnessOfMunsell,
  munsellValue,
  rangeMapOf,
  withRange,
  type PlanRange,
  type RangeMap,
} from '../../shared/core.js';
import { icon } from '../../shared/icons.js';
import { dabOutline, smoothPath } from '../puddle.js';
import { spread } from '../rungs.js';
import type { StageTool } from '../stage-tool.js';
import { numberField } from './field.js';
import { HandTool } from './hand-tool.js';

/** The lightest L* that a darkest paint may be given. */
const LIGHTEST_DARKEST = 60;

/** Measures of the two ladders, in CSS pixels. */
const WIDTH = 288;
const RUNG = 24;
const TOP = 40;
const HEIGHT = TOP + 10 * RUNG + 16;
/** The middle of each ladder. */
const PHOTO_X = 80;
const PAINT_X = WIDTH - PHOTO_X;
const DAB = 36;
/** The room a figure needs. */
const FIGURE = 16;

const dabs = Array.from({ length: 11 }, (_, value) => smoothPath(dabOutline(DAB, 14, value + 3)));

/** How the values of the photo are brought into those that paint reaches: what is held, and what runs together for it. */
export class RangeTool extends HandTool implements StageTool {
  readonly name = 'range';
  readonly word = 'tool.range';
  readonly icon = 'reach';

  /** The gesture of the slider under way. */
  #moving?: string;
  #refused = '';

  laidDown(): void {
    this.#moving = undefined;
    this.#refused = '';
  }

  renderPanel(): TemplateResult {
    const { range } = this.plan;
    const lead = html`<p class="tool-lead">${this.say('tool.range.lead')}</p>`;
    if (!range)
      return html`<div class="tool">
        ${lead}
        <p>${this.say('tool.range.none')}</p>
      </div>`;
    const map = rangeMapOf(this.plan);
    return html`<div class="tool">
      ${lead} ${this.#renderHold(range, map)}
      <p class="tool-found">${this.#found(map)}</p>
      ${this.#renderLadders(map)} ${this.#renderLimits(map)} ${this.#renderDarkest(range)}
    </div>`;
  }

  #set(change: Partial<PlanRange>, gesture?: string): void {
    this.store.change(
      'range',
      (plan) => (plan.range ? withRange(plan, { ...plan.range, ...change }) : plan),
      gesture,
    );
    this.host.requestUpdate();
  }

  #hold = (event: Event): void => {
    this.#moving ??= this.series('hold');
    this.#set({ holding: (event.target as HTMLInputElement).valueAsNumber / 100 }, this.#moving);
  };

  #held = (): void => {
    this.#moving = undefined;
    this.host.speak(this.#found(rangeMapOf(this.plan)));
  };

  #darken(lightness: number | undefined): void {
    this.#refused = '';
    this.store.change('range', (plan) => {
      if (!plan.range) return plan;
      const { darkest: _darkest, ...rest } = plan.range;
      return withRange(plan, lightness === undefined ? rest : { ...rest, darkest: lightness });
    });
    this.host.requestUpdate();
  }

  #refuse(least: number, most: number): void {
    this.#refused = this.say('tool.range.refused', { least, most });
    this.host.requestUpdate();
  }

  /** What is held, in words. */
  #holdingWords(holding: number): string {
    if (holding === 0) return this.say('tool.range.share');
    const side = holding < 0 ? 'darks' : 'lights';
    return Math.abs(holding) === 1
      ? this.say(`tool.range.${side}`)
      : this.say(`tool.range.to-${side}`, { percent: 100 * Math.abs(holding) });
  }

  /** What comes closer together, in a sentence. */
  #found(map: RangeMap): string {
    const [lost] = compressedIn(map);
    if (!lost) return this.say(isIdentity(map) ? 'tool.range.whole' : 'tool.range.kept');
    const [from, to] = [munsellValue(lost.from), munsellValue(lost.to)];
    const left = paintValue(map, lost.to) - paintValue(map, lost.from);
    return this.say('tool.range.compressed', { from, to, steps: to - from, left });
  }

  #renderHold({ holding }: PlanRange, map: RangeMap): TemplateResult {
    const text = this.#holdingWords(holding);
    return html`<div class="tool-field">
      <label for="tool-hold">${this.say('tool.range.hold')}</label>
      <input
        id="tool-hold"
        type="range"
        min="-100"
        max="100"
        step="5"
        .value=${String(Math.round(100 * holding))}
        aria-valuetext=${text}
        ?disabled=${isIdentity(map)}
        @pointerdown=${this.endSeries}
        @input=${this.#hold}
        @change=${this.#held}
      />
      <div class="tool-hold-words" aria-hidden="true">
        <span>${this.say('tool.range.darks')}</span>
        <span>${this.say('tool.range.share')}</span>
        <span>${this.say('tool.range.lights')}</span>
      </div>
    </div>`;
  }

  /** Photo and paint side by side; what is compressed is where the lines run together. */
  #renderLadders(map: RangeMap): TemplateResult {
    const { low, high } = map.photo;
    const whole = dabs.map((_, value) => lightnessOfMunsell(value));
    const shown = whole.filter((lightness) => lightness > low + 1 && lightness < high - 1);
    const tones = [low, ...shown, high];
    const limits = this.#limits.map(({ lightness }) => lightness);
    const lines = tones.map((tone) => this.#line(map, tone, ''));
    const marked = limits.map((limit) => this.#line(map, limit, 'tool-reach-line'));
    return html`<svg
      class="tool-reach"
      viewBox="0 0 ${WIDTH} ${HEIGHT}"
      width=${WIDTH}
      height=${HEIGHT}
      aria-hidden="true"
    >
      <text x=${PHOTO_X} y="13" text-anchor="middle">${this.say('tool.range.photo')}</text>
      <text x=${PAINT_X} y="13" text-anchor="middle">${this.say('tool.range.paint')}</text>
      ${lines} ${marked} ${tones.map((tone) => dab(PHOTO_X, munsellValue(tone), tone))}
      ${tones.map((tone) => dab(PAINT_X, paintValue(map, tone), map.toPaint(tone)))}
      ${this.#figures(
        PHOTO_X - DAB / 2 - 8,
        'end',
        [low, high].map(munsellValue),
        limits.map(munsellValue),
      )}
      ${this.#figures(
        PAINT_X + DAB / 2 + 8,
        'start',
        [low, high].map((tone) => paintValue(map, tone)),
        limits.map((limit) => paintValue(map, limit)),
      )}
    </svg>`;
  }

  #line(map: RangeMap, tone: number, kind: string): SVGTemplateResult {
    const [left, right] = [heightOf(munsellValue(tone)), heightOf(paintValue(map, tone))];
    const [from, to] = [PHOTO_X + DAB / 2, PAINT_X - DAB / 2];
    return svg`<path class=${kind} d="M${from} ${left}L${to} ${right}" />`;
  }

  /** Figures beside a ladder, apart from one another. */
  #figures(
    x: number,
    anchor: string,
    ends: readonly number[],
    limits: readonly number[],
  ): SVGTemplateResult[] {
    const all = [
      ...ends.map((value) => ({ value, kind: '' })),
      ...limits.map((value) => ({ value, kind: 'tool-reach-limit' })),
    ].sort((a, b) => b.value - a.value);
    const rows = spread(
      all.map(({ value }) => heightOf(value)),
      all.map(() => FIGURE),
      TOP - FIGURE,
      HEIGHT,
    );
    return all.map(
      ({ value, kind }, i) =>
        svg`<text class=${kind} x=${x} y=${rows[i] + 4.5} text-anchor=${anchor}>${this.say('tool.range.figure', { value })}</text>`,
    );
  }

  /** The limits of the plan with their names, dark to light. */
  get #limits(): { name: string; lightness: number }[] {
    const { photoLimits, paperLimit, board } = this.plan;
    const limits = photoLimits.map((lightness, i) => ({
      name: this.say('tool.range.between', {
        dark: board.bands[i].name,
        light: board.bands[i + 1].name,
      }),
      lightness,
    }));
    return paperLimit === undefined
      ? limits
      : [...limits, { name: this.say('tool.range.bare'), lightness: paperLimit }];
  }

  #renderLimits(map: RangeMap): TemplateResult | typeof nothing {
    const limits = this.#limits;
    if (limits.length === 0) return nothing;
    return html`<fieldset class="tool-group">
      <legend>${this.say('tool.range.limits')}</legend>
      <dl class="tool-tellings">
        ${limits.map(
          ({ name, lightness }) =>
            html`<div>
              <dt>${name}</dt>
              <dd>
                ${this.say('tool.range.limit', {
                  photo: munsellValue(lightness),
                  paint: paintValue(map, lightness),
                })}
              </dd>
            </div>`,
        )}
      </dl>
    </fieldset>`;
  }

  #renderDarkest({ darkest = DARKEST_PAINT }: PlanRange): TemplateResult {
    const paper = this.plan.paper.lightness;
    const most = Math.max(0, Math.min(LIGHTEST_DARKEST, Math.floor(paper) - 1));
    const mostValue = Math.floor(10 * munsellValue(most)) / 10;
    return html`<fieldset class="tool-group">
      <legend>${this.say('tool.range.darkest')}</legend>
      <div class="tool-pair">
        ${numberField({
          label: this.say('tool.range.value'),
          value: Math.round(10 * munsellValue(darkest)) / 10,
          low: 0,
          high: mostValue,
          step: 0.1,
          onGiven: (value) => this.#darken(lightnessOfMunsell(value)),
          onRefused: () => this.#refuse(0, mostValue),
        })}
        ${numberField({
          label: this.say('tool.range.lightness'),
          value: Math.round(10 * darkest) / 10,
          low: 0,
          high: most,
          step: 0.1,
          onGiven: (lightness) => this.#darken(lightness),
          onRefused: () => this.#refuse(0, most),
        })}
      </div>
      ${
        darkest === DARKEST_PAINT
          ? nothing
          : html`<div class="tool-row">
              <button type="button" @click=${() => this.#darken(undefined)}>
                ${icon('undo')}<span
                  >${this.say('tool.range.usual', { usual: DARKEST_PAINT })}</span
                >
              </button>
            </div>`
      }
      ${this.#refused ? html`<p class="tool-refused" role="alert">${this.#refused}</p>` : nothing}
      <p class="tool-note">
        ${this.say('tool.range.source')}
        ${this.say('tool.range.paper', { lightness: paper, value: munsellValue(paper) })}
      </p>
    </fieldset>`;
  }
}

/** The value 0..10 in paint for an L* of the photo. */
const paintValue = (map: RangeMap, lightness: number): number =>
  munsellValue(map.toPaint(lightness));

/** The height of a value on the ladders. */
const heightOf = (value: number): number => TOP + (10 - value) * RUNG;

const isIdentity = ({ photo, paint }: RangeMap): boolean =>
  photo.low === paint.low && photo.high === paint.high;

function dab(x: number, value: number, lightness: number): SVGTemplateResult {
  return svg`<g transform="translate(${x} ${heightOf(value)})"><path class="tool-reach-dab" d=${dabs[Math.round(value)]} fill=${`lab(${lightness} 0 0)`} /></g>`;
}
