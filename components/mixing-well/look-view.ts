import { html, nothing, svg, type TemplateResult } from 'lit';
import {
  cssOfLab,
  leanOf,
  lightnessOfMunsell,
  munsellValue,
  predictionReasons,
  wetLightness,
  type BoardBand,
} from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { put } from '../shared/put.js';
import { atLightness, bandOf, canMix, isFugitive, lasts } from './mixture.js';
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

/** The puddle laid on paper and over a dried layer. */
export function renderScene(view: WellView): TemplateResult {
  const { now, say, under, figure } = view;
  const { mix, overMix, below } = now;
  const stripe = below.at(-1)?.css;
  const most = mix && [...mix.parts].sort((p, q) => q.parts - p.parts)[0].tube;
  const wet =
    mix &&
    wetLightness(clamped(mix.lab[0]), {
      paper: view.plan.paper.lightness,
      tube: most,
      own: view.drying,
    });
  const wetCss = mix && wet ? atLightness(mix.lab, wet.lightness) : undefined;
  const label = mix
    ? say(overMix ? 'well.scene-over' : 'well.scene', {
        value: figure(valueOf(mix.lab[0])),
        over: overMix ? figure(valueOf(overMix.lab[0])) : '',
        below: under?.label ?? '',
      })
    : say('well.scene-empty');
  return html`<figure class="scene-box" part="look">
    <svg class="scene" part="puddle" viewBox="0 0 360 180" role="img" aria-label=${label}>
      <clipPath id="wash"><path d=${WASH}></path></clipPath>
      <clipPath id="stripe"><path d=${STRIPE}></path></clipPath>
      <rect width="360" height="180" fill=${now.ground.paperCss}></rect>
      ${stripe ? svg`<path d=${STRIPE} fill=${stripe}></path>` : nothing}
      ${
        mix
          ? svg`<path d=${WASH} fill=${mix.css}></path>
              <g clip-path="url(#wash)">
                <path d=${WET} fill=${wetCss!}></path>
                ${overMix ? svg`<path d=${STRIPE} fill=${overMix.css}></path>` : nothing}
              </g>`
          : svg`<path class="ghost" d=${WASH}></path>`
      }
    </svg>
    ${
      mix && wet
        ? html`<figcaption class="legend">
            <span class="seen">
              <span class="key" ${put({ background: wetCss! })}></span>
              <span
                ><b>${say('well.wet')}</b>
                <span
                  >${say('well.wet-value', {
                    value: valueOf(wet.lightness),
                    low: valueOf(wet.low),
                    high: valueOf(wet.high),
                  })}</span
                ></span
              >
            </span>
            <span class="seen">
              <span class="key" ${put({ background: mix.css })}></span>
              <span
                ><b>${say('well.dry')}</b>
                <span>${say('well.dry-value', { value: valueOf(mix.lab[0]) })}</span></span
              >
            </span>
            ${
              overMix
                ? html`<span class="seen">
                    <span class="key" ${put({ background: overMix.css })}></span>
                    <span
                      ><b>${say('well.over')}</b>
                      <span
                        >${say('well.dry-value', { value: valueOf(overMix.lab[0]) })}</span
                      ></span
                    >
                  </span>`
                : nothing
            }
          </figcaption>`
        : nothing
    }
    ${renderUnder(view)}
  </figure>`;
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
            <span class="small">${say('well.under')}</span>
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
  const most = [...parts].sort((p, q) => q.parts - p.parts)[0];
  return {
    label: say('well.dried', { tube: name(most.tube) }),
    recipe: { parts, strength, ...(over.length > 0 ? { over } : {}) },
  };
}

/** Value, band and lean; the ladder; how far off it may be; the way to the board. */
export function renderFacts(view: WellView): TemplateResult | typeof nothing {
  const { now, say, figure, plan } = view;
  const mix = now.judged;
  if (!mix) return nothing;
  const [L] = mix.lab;
  const value = valueOf(L);
  const band = bandOf(plan.board.bands, clamped(L));
  const lean = leanOf(mix.lab);
  const fading = mix.parts
    .map(({ tube }) => tube)
    .filter((id) => (plan.sold ? !lasts(id) : isFugitive(id)));
  const { paper, loads } = now.ground;
  const [films, ...more] = predictionReasons(mix.parts, {
    strength: mix.strength,
    paper,
    over: now.judgedOver,
    loads,
  });
  return html`<section class="facts" part="facts" aria-label=${say('well.look')}>
    <div class="reading">
      <div class="word soft small">${say(view.onLayer ? 'well.value-over' : 'well.value')}</div>
      <div class="value" part="value">${figure(value)}</div>
      <div>
        <div class="band" part="band">${view.bandName(band)}</div>
        <div class="lean">${say(`swatch.lean.${lean.name}`)}</div>
      </div>
    </div>
    ${renderLadder(view, value)}
    ${
      fading.length > 0
        ? html`<p class="fades" part="fading">
            ${say(plan.sold ? 'well.mix-fades' : 'well.mix-fades-some', { tubes: fading.map(view.name).join(', ') })}
          </p>`
        : nothing
    }
    <details class="doubt" part="prediction">
      <summary><span>${view.paint(films)}</span></summary>
      <ul class="remarks">
        <li>${say('well.films-why')}</li>
        ${more.map((reason) => html`<li>${view.paint(reason)}</li>`)}
        <li>${say('well.figures', { lightness: L, chroma: lean.chroma, css: mix.css })}</li>
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
        <span class="small">${say('well.bucket')}</span>
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
  </section>`;
}

/** The greys of values 0 to 10. */
const GREYS = Array.from(
  { length: 11 },
  (_, value) => cssOfLab([lightnessOfMunsell(value), 0, 0]).css,
);

/** Where a value stands on the ladder, percent of its length: each dab is one value wide, the value in its middle. */
const placeOnLadder = (value: number): number =>
  ((Math.min(10, Math.max(0, value)) + 0.5) / 11) * 100;

function renderLadder(view: WellView, value: number): TemplateResult {
  const { say, plan, figure } = view;
  const { bands } = plan.board;
  const limits = bands.slice(1).map(({ floor }: BoardBand) => placeOnLadder(munsellValue(floor)));
  const borders = [0, ...limits, 100];
  return html`<div class="ladder" part="ladder">
    <div class="dabs" role="img" aria-label=${say('well.ladder', { value: figure(value) })}>
      ${GREYS.map((grey) => html`<span ${put({ background: grey })}></span>`)}
    </div>
    <div class="marks" aria-hidden="true">
      <svg class="mark" viewBox="0 0 12 8" ${put({ '--_at': `${placeOnLadder(value)}%` })}>
        <path d="M6 0 12 8H0z" />
      </svg>
    </div>
    <div class="spans" aria-hidden="true">
      ${bands.map(
        ({ name }, i) =>
          html`<span
            class="span"
            title=${name}
            ${put({ '--_from': `${borders[i]}%`, '--_wide': `${borders[i + 1] - borders[i]}%` })}
            >${name}</span
          >`,
      )}
    </div>
  </div>`;
}
