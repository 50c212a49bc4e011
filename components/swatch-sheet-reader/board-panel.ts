import { html, nothing, type TemplateResult } from 'lit';
import { icon } from '../shared/icons.js';
import { columnsOf } from './dabs-state.js';
import { chip, valueOf } from './list-view.js';
import { sentOf } from './sending.js';
import type { SheetView } from './sheet-view.js';

/** Which bucket each column goes to, and the button that sends them. */
export function renderBoardPanel(view: SheetView): TemplateResult {
  const { say, state, plan } = view;
  const { mapping } = view.boarding;
  const columns = columnsOf(state!.dabs);
  if (columns.length === 0)
    return html`<h3 class="away">${say('reader.board-title')}</h3>
      <p>${say('reader.board-none')}</p>`;
  const { swatches, dabs } = sentOf(state!, plan, mapping);
  const ids = new Set(dabs.map(({ id }) => id));
  const again = plan.dabs?.some(({ id }) => ids.has(id)) ?? false;
  const bands = plan.board.bands.map((_, band) => band).reverse();
  return html`<h3 class="away">${say('reader.board-title')}</h3>
    <p class="soft small">${say('reader.board-hint')}</p>
    <ul class="mapping">
      ${columns.map((column, i) => {
        const bucket = mapping[i];
        return html`<li>
          <span class="chips">${column.map(({ lab }) => chip(lab))}</span>
          <label class="field">
            <span class="small soft"
              >${say('reader.column-of', { column: i + 1, count: column.length })}</span
            >
            <select
              data-map=${i}
              @change=${(event: Event) => {
                const chosen = valueOf(event);
                view.boarding.map(i, chosen === '' ? undefined : Number(chosen));
              }}
            >
              ${bands.map(
                (band) =>
                  html`<option value=${band} .selected=${band === bucket}>
                    ${view.bandName(band)}
                  </option>`,
              )}
              <option value="" .selected=${bucket === undefined}>
                ${say('reader.only-remember')}
              </option>
            </select>
          </label>
        </li>`;
      })}
    </ul>
    <div class="acts">
      <button type="button" data-send part="send-button" @click=${() => view.boarding.send()}>
        ${icon('send')}<span
          >${say(again ? 'reader.send-again' : 'reader.send', { count: swatches.length })}</span
        >
      </button>
    </div>
    ${again ? html`<p class="soft small">${say('reader.send-again-hint')}</p>` : nothing}`;
}
