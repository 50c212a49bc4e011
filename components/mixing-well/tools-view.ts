import { html, nothing, type TemplateResult } from 'lit';
import {
  CLOSE,
  cssOfLab,
  leanOf,
  munsellValue,
  predictionReasons,
  puddleFor,
  SPOONFUL_ML,
  type FoundMix,
  type Mix,
  type Puddle,
  type Wetness,
} from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { MM_IN_INCH } from '../shared/measure.js';
import { recipeOf } from '../shared/mix-swatch.js';
import { partsInWords, recipeInWords, waterInWords } from '../shared/paint-words.js';
import { put } from '../shared/put.js';
import { renderDone } from './done-view.js';
import { bandOf, canMix, lasts, mixable, searched, standInOf, steadinessOf } from './mixture.js';
import type { FamilyFound, Running, Tool, WellView } from './well-view.js';

const clamped = (lightness: number): number => Math.min(100, Math.max(0, lightness));
const textOf = (event: Event): string => (event.target as HTMLInputElement).value;
const numberOf = (event: Event): number => (event.target as HTMLInputElement).valueAsNumber;

const TOOLS: readonly Tool[] = ['find', 'family', 'amount', 'reach'];
const ICONS = { find: 'eye', family: 'fan', amount: 'drop', reach: 'reach' } as const;
const MOST_TUBES = [1, 2, 3] as const;
const FAMILY_SIZES = [3, 4, 5, 6, 8] as const;
const WETNESSES: readonly Wetness[] = ['shining', 'satin', 'damp'];

/** Asking for mixes, for a family, for how much to mix. */
export function renderTools(view: WellView): TemplateResult {
  const { say, tool } = view;
  const running = view.finding.running ?? view.family.running ?? view.reach.running;
  return html`<section
    class="tools"
    part="tools"
    aria-labelledby="tools-title"
    @keydown=${(event: KeyboardEvent) => {
      if (event.key === 'Escape') running?.stop();
    }}
  >
    <h3 id="tools-title" class="away">${say('well.tools')}</h3>
    <div class="segments" role="group" aria-label=${say('well.tools')}>
      ${TOOLS.map(
        (each) =>
          html`<button
            type="button"
            data-tool=${each}
            aria-pressed=${each === tool ? 'true' : 'false'}
            @click=${() => view.turnTo(each)}
          >
            ${icon(ICONS[each])}<span>${say(`well.tool-${each}`)}</span>
          </button>`,
      )}
    </div>
    <div class="tool">${renderTool(view)}</div>
  </section>`;
}

function renderTool(view: WellView): TemplateResult {
  switch (view.tool) {
    case 'find':
      return renderFind(view);
    case 'family':
      return renderFamily(view);
    case 'amount':
      return renderAmount(view);
    case 'reach':
      return renderReach(view);
  }
}

/** The darkest mix of the shelf and the palest wash that tells from the paper; the plan's darks may end there. */
function renderReach(view: WellView): TemplateResult {
  const { say, reach, plan } = view;
  const { found, running } = reach;
  const lack = shelfLacks(view);
  const planned = plan.range?.darkest;
  const row = (mix: Mix, key: string): TemplateResult => {
    const words = spoonsInWords(view, mix);
    return html`<li class="mix" part="mix">
      <span class="pair alone" aria-hidden="true"
        ><span ${put({ background: mix.css })}></span
      ></span>
      <span class="mix-words">
        <span class="grade">${say(key, { value: munsellValue(clamped(mix.lab[0])) })}</span>
        <span>${words}</span>
        ${renderStandIns(view, mix)}
      </span>
      ${renderMixActs(view, mix, words)}
    </li>`;
  };
  return html`<form
      class="ask"
      part="reach"
      novalidate
      @submit=${(event: Event) => {
        event.preventDefault();
        view.findReach();
      }}
    >
      <button type="submit" class="go" ?disabled=${lack !== ''}>
        ${icon('reach')}<span>${say('well.reach-find')}</span>
      </button>
    </form>
    <p class="soft small">${say('well.reach-hint')}</p>
    ${renderState(view, reach)}
    ${
      found && !running
        ? html`<ul class="found" part="found">
              ${row(found.darkest, 'well.darkest')} ${row(found.lightest, 'well.lightest')}
            </ul>
            ${renderFilms(view, [found.darkest, found.lightest])}
            ${
              plan.range === undefined
                ? html`<p class="soft small">${say('well.reach-no-photo')}</p>`
                : planned !== undefined && Math.abs(planned - found.low) < 0.1
                  ? view.done?.by === 'reach'
                    ? nothing
                    : html`<p class="soft">
                        ${say('well.reach-planned', { value: munsellValue(planned) })}
                      </p>`
                  : html`<div class="acts">
                      <button type="button" data-plan-reach @click=${() => view.planReach()}>
                        ${icon('check')}<span>${say('well.reach-plan')}</span>
                      </button>
                    </div>`
            }
            ${renderDone(view, 'reach')}`
        : nothing
    }`;
}

function renderRunning({ say }: WellView, { progress, stop }: Running): TemplateResult {
  return html`<div class="running" part="progress">
    <span>${say('well.looking')}</span>
    <progress max="1" .value=${progress} aria-label=${say('well.looking')}></progress>
    <button type="button" class="stop" @click=${stop}>
      ${icon('close')}<span>${say('well.stop')}</span>
    </button>
  </div>`;
}

/** Why nothing can be looked for; nothing when it can. */
function shelfLacks({ plan, shelf, say }: WellView): string {
  if (mixable(shelf).length === 0) return say('well.no-tubes');
  return searched(plan).tubes.length === 0 ? say('well.no-lasting') : '';
}

/** What stands below a question: why it cannot be asked, what was wrong, what is left out, how far the search is. */
function renderState(
  view: WellView,
  { running, fault }: { running?: Running; fault: string },
): TemplateResult {
  const { plan, say, name } = view;
  const lack = shelfLacks(view);
  const { left } = searched(plan);
  return html`${lack ? html`<p class="soft">${lack}</p>` : nothing}
  ${
    !lack && left.length > 0
      ? html`<p class="soft small" data-left-out>
          ${say('well.left-out', { tubes: left.map(name).join(', ') })}
        </p>`
      : nothing
  }
  ${fault ? html`<p class="fault" role="alert">${fault}</p>` : nothing}
  ${running ? renderRunning(view, running) : nothing}`;
}

/** How far off what was found may be: the farthest that one of the mixes may dry from its value. */
function renderFilms({ say, now }: WellView, mixes: readonly Mix[]): TemplateResult {
  const { paper, loads } = now.ground;
  const off = mixes.map(({ parts, strength, lab }) => {
    const [{ values }] = predictionReasons(parts, { strength, paper, loads });
    const value = munsellValue(clamped(lab[0]));
    const ends = [values.low, values.high].map((end) => munsellValue(clamped(Number(end))));
    return Math.max(...ends.map((end) => Math.abs(end - value)));
  });
  return html`<p class="soft small" part="prediction">
    ${say('well.films-list', { off: Math.max(...off) })}
  </p>`;
}

function renderFind(view: WellView): TemplateResult {
  const { say, finding, plan } = view;
  const { source, css, value, most, running, fault, found } = finding;
  const lack = shelfLacks(view);
  const readings = plan.readings ?? [];
  const swatches = plan.board.swatches.filter(({ lab }) => lab);
  return html`<form
      class="ask"
      part="find"
      novalidate
      @submit=${(event: Event) => {
        event.preventDefault();
        view.find();
      }}
    >
      <label class="field">
        <span>${say('well.target')}</span>
        <select
          data-source
          @change=${(event: Event) => view.setFinding({ source: textOf(event), fault: '' })}
        >
          <option value="css" .selected=${source === 'css'}>${say('well.target-css')}</option>
          <option value="value" .selected=${source === 'value'}>${say('well.target-value')}</option>
          ${
            readings.length > 0
              ? html`<optgroup label=${say('well.target-readings')}>
                  ${readings.map(
                    (reading) =>
                      html`<option
                        value="reading ${reading.id}"
                        .selected=${source === `reading ${reading.id}`}
                      >
                        ${say('well.target-reading', {
                          value: munsellValue(clamped(reading.lightness)),
                          note: reading.note || reading.css,
                        })}
                      </option>`,
                  )}
                </optgroup>`
              : nothing
          }
          ${
            swatches.length > 0
              ? html`<optgroup label=${say('well.target-swatches')}>
                  ${swatches.map(
                    ({ id, name, css: colour, bucket }) =>
                      html`<option value="swatch ${id}" .selected=${source === `swatch ${id}`}>
                        ${name || colour || id} (${view.bandName(bucket)})
                      </option>`,
                  )}
                </optgroup>`
              : nothing
          }
        </select>
      </label>
      ${
        source === 'css'
          ? html`<label class="field">
                <span class="small">${say('well.css')}</span>
                <input
                  type="text"
                  data-css
                  spellcheck="false"
                  autocomplete="off"
                  autocapitalize="off"
                  maxlength="200"
                  placeholder="tan, #8a6f5c"
                  .value=${css}
                  aria-invalid=${fault ? 'true' : 'false'}
                  @input=${(event: Event) => view.setFinding({ css: textOf(event), fault: '' })}
                />
              </label>
              <label class="field eye">
                <span class="small">${say('well.by-eye')}</span>
                <input
                  type="color"
                  .value=${/^#[0-9a-f]{6}$/i.test(css) ? css : '#808080'}
                  @input=${(event: Event) => view.setFinding({ css: textOf(event), fault: '' })}
                />
              </label>`
          : nothing
      }
      ${
        source === 'value'
          ? html`<label class="field number">
              <span class="small">${say('well.value-asked')}</span>
              <input
                type="number"
                data-value
                min="0"
                max="10"
                step="0.1"
                inputmode="decimal"
                .value=${String(value)}
                @change=${(event: Event) => view.setFinding({ value: numberOf(event), fault: '' })}
              />
            </label>`
          : nothing
      }
      <label class="field">
        <span>${say('well.most')}</span>
        <select
          data-most
          @change=${(event: Event) => view.setFinding({ most: Number(textOf(event)) })}
        >
          ${MOST_TUBES.map((count) => html`<option value=${count} .selected=${count === most}>${say('well.most-tubes', { count })}</option>`)}
        </select>
      </label>
      <button type="submit" class="go" ?disabled=${lack !== ''}>
        ${icon('eye')}<span>${say('well.find')}</span>
      </button>
    </form>
    ${renderState(view, finding)}
    ${
      found && !running
        ? html`${
              found.why.length > 0
                ? html`<ul class="remarks" part="why">
                    ${found.why.map((reason) => html`<li>${view.paint(reason)}</li>`)}
                  </ul>`
                : nothing
            }
            ${renderProven(view)}
            <ul class="found" part="found">
              ${found.mixes.map((mix) => renderFound(view, mix, found.lab ? found.css : undefined))}
            </ul>
            ${found.mixes.length > 0 ? renderFilms(view, found.mixes) : nothing}
            ${
              view.spread !== undefined && view.spread > CLOSE
                ? html`<p class="soft small">${say('well.own-spread', { spread: view.spread })}</p>`
                : nothing
            }`
        : nothing
    }`;
}

/** What was painted before and comes near: proven on paper, so it goes before what is predicted. */
function renderProven(view: WellView): TemplateResult | typeof nothing {
  const { say, finding } = view;
  const { proven, lab, css } = finding.found!;
  if (proven.length === 0) return nothing;
  return html`<h4 class="small-title">${say('well.proven')}</h4>
    <ul class="found" part="proven">
      ${proven.map((mix) => {
        const words = recipeInWords(mix.recipe, say);
        return html`<li class="mix" part="mix">
          <span class=${lab ? 'pair' : 'pair alone'} aria-hidden="true">
            ${lab ? html`<span ${put({ background: css })}></span>` : nothing}
            <span ${put({ background: cssOfLab(mix.lab).css })}></span>
          </span>
          <span class="mix-words">
            <span class="grade">${say(`grade.${view.grade(mix)}`)}</span>
            <span>${words}</span>
            <span class="soft small"
              >${say('well.mix-value', { value: munsellValue(clamped(mix.lab[0])) })} ·
              ${say('well.proven-times', { times: mix.times, date: view.day(mix.last) })}</span
            >
          </span>
          <span class="acts">
            <button
              type="button"
              data-take-proven
              aria-label="${say('well.take-up')}: ${words}"
              ?disabled=${!canMix(mix.recipe)}
              @click=${() => view.takeUp(mix.recipe)}
            >
              ${icon('save')}<span>${say('well.take-up')}</span>
            </button>
          </span>
        </li>`;
      })}
    </ul>
    <h4 class="small-title">${say('well.predicted')}</h4>`;
}

/** What in a mix does not last, where the work will be sold. */
function fadingWords({ plan, say, name }: WellView, { parts }: Mix): string {
  if (!plan.sold) return '';
  const fading = parts.map(({ tube }) => tube).filter((id) => !lasts(id));
  return fading.length > 0 ? say('well.mix-fades', { tubes: fading.map(name).join(', ') }) : '';
}

/** Whose data stand for those of tubes in a mix. */
function renderStandIns({ say, name }: WellView, { parts }: Mix): TemplateResult[] {
  return parts.flatMap(({ tube }) => {
    const near = standInOf(tube);
    const words = near && say('well.stand-in-of', { name: name(tube), tube: name(near) });
    return words ? [html`<span class="soft small told">${words}</span>`] : [];
  });
}

/** Spoonfuls of a mix and its water, in words. */
function spoonsInWords({ say }: WellView, { parts, strength }: Mix): string {
  const total = parts.reduce((sum, part) => sum + part.parts, 0);
  return `${partsInWords(parts, say)}, ${waterInWords(total, strength, say)}`;
}

/** A found mix: its dab against the colour that was asked for, how near, how steady, and what can be done with it. */
function renderFound(view: WellView, mix: FoundMix, target: string | undefined): TemplateResult {
  const { say } = view;
  const words = spoonsInWords(view, mix);
  const fades = fadingWords(view, mix);
  return html`<li class="mix" part="mix">
    <span class=${target ? 'pair' : 'pair alone'} aria-hidden="true">
      ${target ? html`<span ${put({ background: target })}></span>` : nothing}
      <span ${put({ background: mix.css })}></span>
    </span>
    <span class="mix-words">
      <span class="grade">${say(`grade.${view.grade(mix)}`)}</span>
      <span>${words}</span>
      <span class="soft small"
        >${say('well.mix-value', { value: munsellValue(clamped(mix.lab[0])) })} ·
        ${say(`steadiness.${steadinessOf(mix.steadiness)}`)}</span
      >
      ${renderStandIns(view, mix)}
      ${fades ? html`<span class="small fades">${fades}</span>` : nothing}
    </span>
    ${renderMixActs(view, mix, words)}
  </li>`;
}

function renderMixActs(view: WellView, mix: Mix, words: string): TemplateResult {
  const { say } = view;
  return html`<span class="acts">
      <button
        type="button"
        data-take
        aria-label="${say('well.take-up')}: ${words}"
        @click=${() => view.takeUp(recipeOf(mix.parts, mix.strength))}
      >
        ${icon('save')}<span>${say('well.take-up')}</span>
      </button>
      <button
        type="button"
        class="quiet"
        data-send
        aria-label="${say('well.send-one')}: ${words}"
        @click=${() => view.sendMixes(mix)}
      >
        ${icon('send')}<span>${say('well.send-one')}</span>
      </button>
    </span>
    ${renderDone(view, mix)}`;
}

function renderFamily(view: WellView): TemplateResult {
  const { say, family, plan } = view;
  const { band, value, count, running, fault, found } = family;
  const lack = shelfLacks(view);
  return html`<form
      class="ask"
      part="family"
      novalidate
      @submit=${(event: Event) => {
        event.preventDefault();
        view.findFamily();
      }}
    >
      <label class="field">
        <span>${say('well.family-band')}</span>
        <select
          data-family-band
          @change=${(event: Event) => view.setFamily({ band: Number(textOf(event)) })}
        >
          ${plan.board.bands.map(({ name }, i) => html`<option value=${i} .selected=${i === band}>${name}</option>`)}
        </select>
      </label>
      <label class="field number">
        <span class="small">${say('well.family-value')}</span>
        <input
          type="number"
          min="0"
          max="10"
          step="0.1"
          inputmode="decimal"
          data-family-value
          aria-invalid=${fault ? 'true' : 'false'}
          .value=${Number.isFinite(value) ? String(Math.round(value * 10) / 10) : ''}
          @change=${(event: Event) => view.setFamily({ value: numberOf(event), fault: '' })}
        />
      </label>
      <label class="field">
        <span>${say('well.family-count')}</span>
        <select @change=${(event: Event) => view.setFamily({ count: Number(textOf(event)) })}>
          ${FAMILY_SIZES.map((each) => html`<option value=${each} .selected=${each === count}>${view.number(each, 0)}</option>`)}
        </select>
      </label>
      <button type="submit" class="go" ?disabled=${lack !== ''}>
        ${icon('fan')}<span>${say('well.family-find')}</span>
      </button>
    </form>
    <p class="soft small">${say('well.family-hint')}</p>
    ${renderState(view, family)} ${found && !running ? renderFamilyFound(view, found) : nothing}`;
}

function renderFamilyFound(view: WellView, { mixes, value, asked }: FamilyFound): TemplateResult {
  const { say, family, plan } = view;
  if (mixes.length === 0)
    return html`<p>${say('well.family-none', { value: view.figure(value) })}</p>`;
  // Each goes to the bucket of its value, whatever band was asked for.
  const lies = bandOf(plan.board.bands, clamped(mixes[0].lab[0]));
  return html`${
      asked === undefined
        ? nothing
        : html`<p part="why">
            ${say(asked < value ? 'well.family-darker' : 'well.family-lighter', { asked, value })}
          </p>`
    }
    <div class="fan" aria-hidden="true">
      ${mixes.map(({ css }) => html`<span ${put({ background: css })}></span>`)}
    </div>
    ${
      mixes.length < family.count
        ? html`<p class="soft">${say('well.family-fewer', { count: mixes.length })}</p>`
        : nothing
    }
    <ul class="found" part="found">
      ${mixes.map((mix) => {
        const words = spoonsInWords(view, mix);
        return html`<li class="mix" part="mix">
          <span class="pair alone" aria-hidden="true"
            ><span ${put({ background: mix.css })}></span
          ></span>
          <span class="mix-words">
            <span class="grade">${say(`swatch.lean.${leanOf(mix.lab).name}`)}</span>
            <span>${words}</span>
            <span class="soft small"
              >${say('well.mix-value', { value: munsellValue(clamped(mix.lab[0])) })}</span
            >
            ${renderStandIns(view, mix)}
          </span>
          ${renderMixActs(view, mix, words)}
        </li>`;
      })}
    </ul>
    ${renderFilms(view, mixes)}
    <div class="acts">
      <button type="button" data-send-all @click=${() => view.sendMixes(mixes)}>
        ${icon('send')}<span
          >${say('well.send-all', { count: mixes.length, band: view.bandName(lies) })}</span
        >
      </button>
    </div>
    ${renderDone(view, mixes)}`;
}

/** Square millimetres of the area as it is typed; nothing for what is none. */
function areaMm2({ amount, unit }: WellView): number | undefined {
  const typed = Number(amount.area.replace(',', '.'));
  if (!Number.isFinite(typed) || typed <= 0) return undefined;
  const mm2 = unit === 'in' ? typed * MM_IN_INCH ** 2 : typed * 100;
  return mm2 <= 1e8 ? mm2 : undefined;
}

function renderAmount(view: WellView): TemplateResult {
  const { say, amount, now, unit } = view;
  const mm2 = areaMm2(view);
  const wrong = amount.area.trim() !== '' && mm2 === undefined;
  return html`<form
      class="ask"
      part="amount"
      novalidate
      @submit=${(event: Event) => event.preventDefault()}
    >
      <label class="field number">
        <span class="small">${say(`well.area-${unit}`)}</span>
        <input
          type="text"
          data-area
          inputmode="decimal"
          autocomplete="off"
          maxlength="12"
          .value=${amount.area}
          aria-invalid=${wrong ? 'true' : 'false'}
          @input=${(event: Event) => view.setAmount({ area: textOf(event), region: -1 })}
        />
      </label>
      <label class="field">
        <span>${say('well.wetness')}</span>
        <select
          data-wetness
          @change=${(event: Event) => view.setAmount({ wetness: textOf(event) as Wetness })}
        >
          ${WETNESSES.map((each) => html`<option value=${each} .selected=${each === amount.wetness}>${say(`well.wetness-${each}`)}</option>`)}
        </select>
      </label>
      ${renderMasses(view)}
    </form>
    ${wrong ? html`<p class="fault" role="alert">${say('well.area-wrong')}</p>` : nothing}
    ${
      now.parts.length === 0
        ? html`<p class="soft">${say('well.amount-empty')}</p>`
        : mm2 === undefined
          ? wrong
            ? nothing
            : html`<p class="soft">${say('well.amount-hint')}</p>`
          : renderPuddle(view, mm2)
    }`;
}

function renderPuddle(view: WellView, mm2: number): TemplateResult {
  const { say, now, strength, amount } = view;
  const puddle = puddleFor(mm2, { strength, wetness: amount.wetness, parts: now.parts });
  const { first } = puddle;
  return html`<div class="puddle" part="puddle-amount">
    <p class="big">${say('well.puddle', { ml: (first ?? puddle).ml })}</p>
    ${first ? html`<p>${say('well.puddle-first')}</p>` : nothing}
    ${renderDoses(view, first ?? puddle)}
    ${
      first
        ? html`<p part="puddle-then">
            ${say('well.puddle-then', { spoons: first.taken, ml: first.waterMl })}
          </p>`
        : nothing
    }
    <p class="soft small">${say('well.spoon-size')}</p>
    <ul class="remarks">
      ${puddle.reasons.map((reason) => html`<li>${view.paint(reason)}</li>`)}
    </ul>
  </div>`;
}

/** More spoonfuls of water than this are told in millilitres. */
const MOST_COUNTED = 24;

/** Spoonfuls of paint, and their water. */
function renderDoses(
  view: WellView,
  { spoonfuls, waterSpoonfuls }: Pick<Puddle, 'spoonfuls' | 'waterSpoonfuls'>,
): TemplateResult {
  const spoons = Math.round(4 * waterSpoonfuls) / 4;
  return html`<ul class="doses">
    ${spoonfuls.map(
      (dose) =>
        html`<li>
          <b>${view.number(dose.spoonfuls, 2)}</b>
          <span>${view.name(dose.tube)}</span>
        </li>`,
    )}
    <li>
      ${
        spoons > MOST_COUNTED
          ? html`<span>${view.say('well.water-ml', { ml: spoons * SPOONFUL_ML })}</span>`
          : html`<b>${view.number(spoons, 2)}</b> <span>${view.say('well.water')}</span>`
      }
    </li>
  </ul>`;
}

/** The greatest masses of the photo, to take an area from. */
function renderMasses(view: WellView): TemplateResult | typeof nothing {
  const { say, tied, masses, amount } = view;
  if (!tied || masses.status === 'none')
    return tied && !amount.masses
      ? html`<button
          type="button"
          class="quiet"
          data-masses
          @click=${() => view.setAmount({ masses: true })}
        >
          ${icon('tracing')}<span>${say('well.from-mass')}</span>
        </button>`
      : tied
        ? html`<span class="soft small">${say('well.no-photo')}</span>`
        : nothing;
  const { work, status, progress } = masses;
  if (!work)
    return status === 'working'
      ? html`<span class="running"
          ><progress max="1" .value=${progress} aria-label=${say('well.masses-working')}></progress
          ><span class="small">${say('well.masses-working')}</span></span
        >`
      : html`<span class="soft small">${say('well.masses-failed')}</span>`;
  const { map, regions } = work.masses;
  const mmPerPixel = view.plan.paper.widthMm / map.width;
  const greatest = [...regions].sort((a, b) => b.area - a.area).slice(0, 12);
  const areaOf = (pixels: number): number => {
    const mm2 = pixels * mmPerPixel ** 2;
    return Number((view.unit === 'in' ? mm2 / MM_IN_INCH ** 2 : mm2 / 100).toPrecision(2));
  };
  return html`<label class="field">
    <span class="small">${say('well.from-mass')}</span>
    <select
      data-mass
      @change=${(event: Event) => {
        const region = greatest.find(({ id }) => String(id) === textOf(event));
        if (region) view.setAmount({ area: String(areaOf(region.area)), region: region.id });
      }}
    >
      <option value="" .selected=${amount.region < 0}>${say('well.mass-none')}</option>
      ${greatest.map(({ id, band, area, bounds: [x, y, w, h] }) => {
        const across = Math.min(2, Math.floor((3 * (x + w / 2)) / map.width));
        const down = Math.min(2, Math.floor((3 * (y + h / 2)) / map.height));
        return html`<option value=${id} .selected=${id === amount.region}>
          ${say(`well.mass-${view.unit}`, {
            band: view.bandName(band),
            place: say(`well.place-${down}-${across}`),
            area: areaOf(area),
          })}
        </option>`;
      })}
    </select>
  </label>`;
}
