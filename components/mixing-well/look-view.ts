import { html, nothing, svg, type TemplateResult } from 'lit';
import { leanOf, munsellValue, predictionReasons, wetLightness, type Mix } from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { LADDER_GREYS, ladderMark, placeOnLadder, stretches } from '../shared/ladder.js';
import { put } from '../shared/put.js';
import { renderDone } from './done-view.js';
import {
  atLightness,
  bandOf,
  canMix,
  isFugitive,
  lasts,
  mostOf,
  nearestLasting,
} from './mixture.js';
import type { Below, WellView } from './well-view.js';

const clamped = (lightness: number): number => Math.min(100, Math.max(0, lightness));
const valueOf = (lightness: number): number => munsellValue(clamped(lightness));

/** The brushed wash on a field of 360 x 180; its left end is drawn wet. */
const WASH =
  'M22 92C19 72 24 46 40 40C68 33 98 38 132 34C180 30 224 37 270 32C300 29 326 31 335 46C343 60 341 98 337 118C333 138 308 139 286 141C244 145 206 139 164 143C124 147 82 146 50 141C30 137 24 116 22 92Z';
/** The dried stripe that it crosses. */
const STRIPE =
  'M222 8C236 5 262 6 280 9C284 36 281 62 283 92C285 122 281 146 282 172C264 176 240 175 223 172C220 144 224 120 221 92C219 62 223 36 222 8Z';
/** Where the wash is still wet. */
const WET = 'M0 20H92C96 52 88 84 93 116C95 134 92 150 90 160H0Z';

/** The wash while it is wet: its range of L*, by the tube that it has most of, and its colour. */
function wetOf({ now, plan, drying }: WellView): { css: string; value: number[] } | undefined {
  const { mix } = now;
  if (!mix) return undefined;
  const { lightness, low, high } = wetLightness(clamped(mix.lab[0]), {
    paper: plan.paper.lightness,
    tube: mostOf(mix).tube,
    own: drying,
  });
  return { css: atLightness(mix.lab, lightness), value: [lightness, low, high].map(valueOf) };
}

/** The puddle laid on paper and over a dried layer, and what is known of it: on a small screen it stays in sight while the well is worked. */
export function renderPuddle(view: WellView): TemplateResult {
  const { now, say, under, figure } = view;
  const { mix, overMix, below } = now;
  const stripe = below.at(-1)?.css;
  const label = mix
    ? say(overMix ? 'well.scene-over' : 'well.scene', {
        value: figure(valueOf(mix.lab[0])),
        over: overMix ? figure(valueOf(overMix.lab[0])) : '',
        below: under?.label ?? '',
      })
    : say('well.scene-empty');
  return html`<section class="mat" part="look" aria-label=${say('well.look')}>
    <svg class="scene" part="puddle" viewBox="0 0 360 180" role="img" aria-label=${label}>
      <clipPath id="wash"><path d=${WASH}></path></clipPath>
      <rect width="360" height="180" fill=${now.ground.paperCss}></rect>
      ${stripe ? svg`<path d=${STRIPE} fill=${stripe}></path>` : nothing}
      ${
        mix
          ? svg`<path d=${WASH} fill=${mix.css}></path>
              <g clip-path="url(#wash)">
                <path d=${WET} fill=${wetOf(view)!.css}></path>
                ${overMix ? svg`<path d=${STRIPE} fill=${overMix.css}></path>` : nothing}
              </g>`
          : svg`<path class="ghost" d=${WASH}></path>`
      }
    </svg>
    ${renderFacts(view)}
  </section>`;
}

/** Value, band and lean, one figure large enough for an arm's length, and where it stands on the ladder. */
function renderFacts(view: WellView): TemplateResult | typeof nothing {
  const { now, say, figure, plan } = view;
  if (!now.judged) return nothing;
  const { lab } = now.judged;
  const value = valueOf(lab[0]);
  return html`<div class="facts" part="facts">
    <div class="reading">
      <div class="small word">${say(view.onLayer ? 'well.value-over' : 'well.value')}</div>
      <div class="value" part="value">${figure(value)}</div>
      <div>
        <div class="band" part="band">
          ${view.bandName(bandOf(plan.board.bands, clamped(lab[0])))}
        </div>
        <div class="lean">${say(`swatch.lean.${leanOf(lab).name}`)}</div>
      </div>
    </div>
    ${renderLadder(view, value)}
  </div>`;
}

/** The puddle's colours with their values, and the dried layer below it. */
export function renderLayers(view: WellView): TemplateResult | typeof nothing {
  const { now, say } = view;
  const { mix, overMix } = now;
  const key = (css: string, word: string, told: string): TemplateResult =>
    html`<span class="seen">
      <span class="key" ${put({ background: css })}></span>
      <span><b>${say(word)}</b> ${told}</span>
    </span>`;
  const dry = ({ lab }: Mix): string => say('well.dry-value', { value: valueOf(lab[0]) });
  const wet = wetOf(view);
  const under = renderUnder(view);
  if (!mix && under === nothing) return nothing;
  return html`<div class="layers">
    ${
      mix && wet
        ? html`<div class="legend">
            ${key(
              wet.css,
              'well.wet',
              say('well.wet-value', {
                value: wet.value[0],
                low: wet.value[1],
                high: wet.value[2],
              }),
            )}
            ${key(mix.css, 'well.dry', dry(mix))}
            ${overMix ? key(overMix.css, 'well.over', dry(overMix)) : nothing}
          </div>`
        : nothing
    }
    ${under}
  </div>`;
}

/** Which dried layer lies below. */
function renderUnder(view: WellView): TemplateResult | typeof nothing {
  const { say, plan, under, now } = view;
  const swatches = plan.board.swatches.filter(({ recipe }) => recipe && canMix(recipe));
  const chosen = swatches.find(({ recipe }) => recipe === under?.recipe)?.id;
  const labelOf = (id: string): string => {
    const swatch = swatches.find((each) => each.id === id)!;
    return swatch.name || swatch.css || swatch.id;
  };
  if (swatches.length === 0 && !under && !now.mix) return nothing;
  return html`<div class="under">
    ${
      swatches.length > 0 || under
        ? html`<label class="field">
            <span>${say('well.under')}</span>
            <select
              data-under
              @change=${(event: Event) => {
                const { value } = event.target as HTMLSelectElement;
                const swatch = swatches.find(({ id }) => id === value);
                if (swatch) view.lay({ label: labelOf(swatch.id), recipe: swatch.recipe! });
                else if (value === '') view.lay(undefined);
              }}
            >
              <option value="" .selected=${under === undefined}>${say('well.under-paper')}</option>
              ${swatches.map(({ id }) => html`<option value=${id} .selected=${id === chosen}>${labelOf(id)}</option>`)}
              ${under && !chosen ? html`<option value=" own" .selected=${true}>${under.label}</option>` : nothing}
            </select>
          </label>`
        : nothing
    }
    ${
      now.mix
        ? html`<button type="button" data-dry @click=${() => view.lay(driedHere(view))}>
            ${icon('steps')}<span>${say('well.let-dry')}</span>
          </button>`
        : nothing
    }
    ${
      now.overMix
        ? html`<div class="segments" role="group" aria-label=${say('well.judge')}>
            <button
              type="button"
              aria-pressed=${view.onLayer ? 'false' : 'true'}
              @click=${() => view.judgeOver(false)}
            >
              ${say('well.judge-paper')}
            </button>
            <button
              type="button"
              data-over
              aria-pressed=${view.onLayer ? 'true' : 'false'}
              @click=${() => view.judgeOver(true)}
            >
              ${say('well.judge-over')}
            </button>
          </div>`
        : nothing
    }
  </div>`;
}

/** The mix itself as the layer that is painted on next. */
function driedHere({ now, say, name }: WellView): Below {
  const { judged, judgedOver } = now;
  const { parts, strength } = judged!;
  const over = judgedOver.map((layer) => ({ parts: layer.parts, strength: layer.strength }));
  return {
    label: say('well.dried', { tube: name(mostOf({ parts }).tube) }),
    recipe: { parts, strength, ...(over.length > 0 ? { over } : {}) },
  };
}

/** What does not last in the mix, whose data stand for others', how far off all of it may be, and the way to the board. */
export function renderOutlook(view: WellView): TemplateResult | typeof nothing {
  const { now, say, plan } = view;
  const mix = now.judged;
  if (!mix) return nothing;
  const band = bandOf(plan.board.bands, clamped(mix.lab[0]));
  const { paper, loads } = now.ground;
  const [films, ...more] = predictionReasons(mix.parts, {
    strength: mix.strength,
    paper,
    over: now.judgedOver,
    loads,
  });
  const { chroma } = leanOf(mix.lab);
  const standIns = more.filter(({ code }) => code === 'paint.stand-in');
  return html`<div class="outlook">
    ${renderFading(view, mix)}
    ${standIns.map((reason) => html`<p class="small told">${view.paint(reason)}</p>`)}
    <details class="doubt" part="prediction">
      <summary><span>${view.paint(films)}</span></summary>
      <ul class="remarks">
        <li>${say('well.films-why')}</li>
        ${more
          .filter((reason) => !standIns.includes(reason))
          .map((reason) => html`<li>${view.paint(reason)}</li>`)}
        <li>${say('well.figures', { lightness: mix.lab[0], chroma, css: mix.css })}</li>
        ${mix.outOfGamut ? html`<li>${say('well.out-of-gamut')}</li>` : nothing}
      </ul>
    </details>
    <form
      class="send"
      @submit=${(event: Event) => {
        event.preventDefault();
        view.send();
      }}
    >
      <label class="field">
        <span>${say('well.bucket')}</span>
        <select
          data-bucket
          @change=${(event: Event) => view.aim(Number((event.target as HTMLSelectElement).value))}
        >
          ${plan.board.bands.map((each, i) => html`<option value=${i} .selected=${i === (view.bucket < 0 ? band : view.bucket)}>${each.name}</option>`)}
        </select>
      </label>
      <button type="submit" class="send-button" part="send-button">
        ${icon('send')}<span>${say('well.send')}</span>
      </button>
    </form>
    ${renderDone(view, 'send')}
  </div>`;
}

/** What fades in the mix; for work that will be sold all that does not last, with the nearest paints that do. */
function renderFading({ plan, say, name }: WellView, { parts }: Mix): unknown {
  const ids = parts.map(({ tube }) => tube);
  const fading = ids.filter((id) => (plan.sold ? !lasts(id) : isFugitive(id)));
  if (fading.length === 0) return nothing;
  const near = plan.sold
    ? [...new Set(fading.map((id) => nearestLasting(id)?.tube))].filter((id) => id !== undefined)
    : [];
  return html`<p class="fades" part="fading">
    ${say(plan.sold ? 'well.mix-fades' : 'well.mix-fades-some', { tubes: fading.map(name).join(', ') })}
    ${
      near.length > 0
        ? html`<span class="plain"
            >${say('paint.lasting-near', { tube: near.map(name).join(', ') })}</span
          >`
        : nothing
    }
  </p>`;
}

function renderLadder({ say, plan, figure }: WellView, value: number): TemplateResult {
  const { bands } = plan.board;
  const limits = bands.slice(1).map(({ floor }) => placeOnLadder(munsellValue(floor)));
  return html`<div class="ladder" part="ladder">
    <div class="dabs" role="img" aria-label=${say('well.ladder', { value: figure(value) })}>
      ${LADDER_GREYS.map((grey) => html`<span ${put({ background: grey })}></span>`)}
    </div>
    <div class="marks" aria-hidden="true">${ladderMark(value)}</div>
    ${stretches(
      bands.map(({ name }) => name),
      [0, ...limits, 100],
    )}
  </div>`;
}
