import { html, nothing, type TemplateResult } from 'lit';
import { icon } from '../shared/icons.js';
import { columnsOf, type ReadDab } from './dabs-state.js';
import { chip, TIMES, timesOptions, tubeOptions, valueOf } from './list-view.js';
import type { SheetView } from './sheet-view.js';

/** The dabs of one tube, darkest first, with how far each was let down. */
export function timesOf({ state, tubes }: SheetView): { dab: ReadDab; times: number }[] {
  const { column, times } = tubes.asked;
  const dabs = state?.dabs ?? [];
  return dabs
    .filter((dab) => column < 0 || dab.column === column)
    .sort((a, b) => a.lab[0] - b.lab[0])
    .map((dab, i) => ({ dab, times: times[dab.id] ?? TIMES[Math.min(i, TIMES.length - 1)] }))
    .filter(({ times: let_ }) => let_ > 0);
}

/** One tube from masstone to pale: how strong the painter's own is. */
export function renderTubePanel(view: SheetView): TemplateResult {
  const { say, state, plan } = view;
  const tube = view.tubes.asked;
  const columns = columnsOf(state!.dabs);
  const dabs = timesOf(view);
  const load = plan.shelf?.find((each) => each.tube === tube.tube)?.load;
  return html`<h3>${say('reader.tube-title')}</h3>
    <p class="soft small">${say('reader.tube-hint')}</p>
    <div class="fields">
      <label class="field">
        <span class="small soft">${say('reader.tube-dabs')}</span>
        <select
          data-tube-column
          @change=${(event: Event) => view.tubes.ask({ column: Number(valueOf(event)), times: {} })}
        >
          ${columns.map(
            (_, i) =>
              html`<option value=${i} .selected=${i === tube.column}>
                ${say('reader.column', { column: i + 1 })}
              </option>`,
          )}
          <option value="-1" .selected=${tube.column < 0}>${say('reader.tube-dabs-all')}</option>
        </select>
      </label>
      <label class="field">
        <span class="small soft">${say('reader.tube')}</span>
        <select data-tube @change=${(event: Event) => view.tubes.ask({ tube: valueOf(event) })}>
          ${tubeOptions(view, tube.tube)}
        </select>
      </label>
    </div>
    <ol class="pairs">
      ${dabs.map(
        ({ dab, times }) =>
          html`<li>
            <span class="number">${view.numberOf(dab.id)}</span>
            ${chip(dab.lab)}
            <span class="small">${view.value(dab.lab[0])}</span>
            <select
              data-times=${dab.id}
              aria-label=${say('reader.times-of', { number: view.numberOf(dab.id) })}
              @change=${(event: Event) =>
                view.tubes.ask({ times: { ...tube.times, [dab.id]: Number(valueOf(event)) } })}
            >
              ${timesOptions(view, times)}
              <option value="0">${say('reader.leave-out')}</option>
            </select>
          </li>`,
      )}
    </ol>
    ${
      Object.values(tube.times).includes(0)
        ? html`<div class="acts">
            <button type="button" class="quiet" @click=${() => view.tubes.ask({ times: {} })}>
              ${icon('undo')}<span>${say('reader.times-reset')}</span>
            </button>
          </div>`
        : nothing
    }
    ${tube.fault ? html`<p class="fault" role="alert">${tube.fault}</p>` : nothing}
    <div class="acts">
      <button type="button" data-fit ?disabled=${tube.busy} @click=${() => view.tubes.fit()}>
        ${icon('steps')}<span>${say('reader.fit')}</span>
      </button>
      ${load === undefined ? nothing : html`<span class="soft small">${say('reader.load', { load })}</span>`}
    </div>
    ${
      tube.fit
        ? html`<ul class="remarks" part="fit-result">
              ${tube.fit.reasons.map(
                (reason) => html`<li data-code=${reason.code}>${view.paint(reason)}</li>`,
              )}
              <li>${say('reader.fit-gain', { before: tube.fit.before, after: tube.fit.after })}</li>
            </ul>
            <div class="acts">
              <button type="button" data-keep-fit @click=${() => view.tubes.keep()}>
                ${icon('check')}<span>${say('reader.fit-keep')}</span>
              </button>
            </div>`
        : nothing
    }`;
}
