import { html, nothing, type TemplateResult } from 'lit';
import type { TintReading } from '../shared/core.js';
import { icon } from '../shared/icons.js';
import type { WellView } from './well-view.js';

/** Dabs of one tube alone on bare paper, read when dry: the newest six, so that the work stays short. */
export function dabsOf({ plan }: Pick<WellView, 'plan'>, tube: string): TintReading[] {
  return (plan.dabs ?? [])
    .filter(({ recipe, wet }) => {
      if (!recipe || wet || recipe.over?.length) return false;
      return recipe.parts.length === 1 && recipe.parts[0].tube === tube;
    })
    .slice(-6)
    .map(({ lab, recipe }) => ({ lab, strength: recipe!.strength }));
}

/** Strengths that a dab is typed in with: the heaviest wash, and let down to a half, a quarter, an eighth. */
const LET_DOWN = [1, 0.5, 0.25, 0.125] as const;

/** The first strength that no dab has yet. */
const nextOf = (rows: readonly { strength: number }[]): number =>
  LET_DOWN.find((each) => rows.every(({ strength }) => strength !== each)) ?? 0.125;

/** How strong the painter's own tube is: what is known, and the ways to find out. */
export function renderFit(view: WellView, tube: string): TemplateResult {
  const { say, shelf, fitting } = view;
  const { load, loadLow, loadHigh } = shelf.find((each) => each.tube === tube) ?? { tube };
  const dabs = dabsOf(view, tube);
  const mine = fitting?.tube === tube ? fitting : undefined;
  const known =
    load === undefined
      ? say('well.load-none')
      : loadLow !== undefined && loadHigh !== undefined
        ? say('well.load-range', { load, low: loadLow, high: loadHigh })
        : say('well.load', { load });
  return html`<div class="fit" part="fit">
    <h5>${say('well.own-tube')}</h5>
    <p>${known}</p>
    <div class="acts">
      ${
        dabs.length >= 2
          ? html`<button
              type="button"
              data-fit
              ?disabled=${mine?.busy ?? false}
              @click=${() => view.fit(dabs)}
            >
              ${icon('steps')}<span>${say('well.fit-dabs', { count: dabs.length })}</span>
            </button>`
          : html`<p class="soft small">${say('well.fit-few', { count: dabs.length })}</p>`
      }
      <button
        type="button"
        class="quiet"
        data-type
        aria-expanded=${mine?.typing ? 'true' : 'false'}
        @click=${() => view.openFit(tube)}
      >
        ${icon('pen')}<span>${say('well.fit-type')}</span>
      </button>
      ${
        load === undefined
          ? nothing
          : html`<button type="button" class="quiet" @click=${() => view.keepFit(undefined)}>
              ${icon('undo')}<span>${say('well.fit-forget')}</span>
            </button>`
      }
    </div>
    ${mine?.typing ? renderTyped(view) : nothing}
    ${
      mine?.fit
        ? html`<ul class="remarks" part="fit-result">
              ${mine.fit.reasons.map((reason) => html`<li>${view.paint(reason)}</li>`)}
              <li>${say('well.fit-gain', { before: mine.fit.before, after: mine.fit.after })}</li>
            </ul>
            <div class="acts">
              <button type="button" data-keep-fit @click=${() => view.keepFit(mine.fit)}>
                ${icon('check')}<span>${say('well.fit-keep')}</span>
              </button>
            </div>`
        : nothing
    }
  </div>`;
}

function renderTyped(view: WellView): TemplateResult {
  const { say, fitting } = view;
  const { rows, fault, busy } = fitting!;
  return html`<form
    class="typed"
    novalidate
    @submit=${(event: Event) => {
      event.preventDefault();
      view.fit('typed');
    }}
  >
    <p class="small soft">${say('well.fit-type-hint')}</p>
    ${rows.map(
      ({ css, strength }, i) =>
        html`<div class="row">
          <label>
            <span class="small">${say('well.fit-colour', { number: i + 1 })}</span>
            <input
              type="text"
              spellcheck="false"
              autocomplete="off"
              autocapitalize="off"
              maxlength="200"
              .value=${css}
              @input=${(event: Event) => view.setReading(i, { css: (event.target as HTMLInputElement).value })}
            />
          </label>
          <label>
            <span class="small">${say('well.fit-strength')}</span>
            <select
              @change=${(event: Event) => view.setReading(i, { strength: Number((event.target as HTMLSelectElement).value) })}
            >
              ${LET_DOWN.map(
                (each) =>
                  html`<option value=${each} .selected=${each === strength}>
                    ${say('well.let-down', { times: 1 / each })}
                  </option>`,
              )}
            </select>
          </label>
        </div>`,
    )}
    ${fault ? html`<p class="fault" role="alert">${fault}</p>` : nothing}
    <div class="acts">
      <button type="submit" ?disabled=${busy}>
        ${icon('steps')}<span>${say('well.fit-typed')}</span>
      </button>
      ${
        rows.length < 6
          ? html`<button
              type="button"
              class="quiet"
              @click=${() => view.setReading(rows.length, { strength: nextOf(rows) })}
            >
              ${icon('plus')}<span>${say('well.fit-more')}</span>
            </button>`
          : nothing
      }
    </div>
  </form>`;
}
