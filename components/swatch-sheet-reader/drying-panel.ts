import { html, nothing, type TemplateResult } from 'lit';
import { wetOf } from './dabs-state.js';
import { chip, valueOf } from './list-view.js';
import { dryingOf, earlierSheets } from './pairing.js';
import { rememberedDab, today } from './sending.js';
import type { SheetView } from './sheet-view.js';

/** The dabs of this sheet tied to those of an earlier one, and what that says about drying. */
export function renderDryingPanel(view: SheetView): TemplateResult {
  const { say, state, plan } = view;
  const { dabs, wet } = state!;
  const ids = new Set(dabs.map(({ id }) => id));
  const sheets = earlierSheets(view.dabs, ids);
  const earlier = sheets.flatMap((sheet) => sheet.dabs);
  const pairs = dabs.filter(({ same }) => earlier.some(({ id }) => id === same));
  const chosen = sheets.find((sheet) => sheet.dabs.some(({ id }) => id === pairs[0]?.same));
  const date = today();
  const all = [
    ...(plan.dabs ?? []).filter(({ id }) => !ids.has(id)),
    ...dabs.map((dab) => rememberedDab(dab, state!, { date })),
  ];
  const drying = dryingOf(all);
  return html`<h3 class="away">${say('reader.drying-title')}</h3>
    <p class="soft small">${say('reader.drying-hint', { wet: say(`reader.wet-${wet}`) })}</p>
    ${
      sheets.length === 0
        ? html`<p>${say('reader.drying-none')}</p>`
        : html`<label class="field">
              <span class="small soft">${say('reader.pair-sheet')}</span>
              <select
                data-pair-sheet
                @change=${(event: Event) => view.boarding.pairAll(valueOf(event))}
              >
                <option value="" .selected=${!chosen}>${say('reader.pair-no-sheet')}</option>
                ${sheets.map(
                  (sheet) =>
                    html`<option value=${sheet.key} .selected=${sheet === chosen}>
                      ${say('reader.earlier-sheet', {
                        date: view.day(sheet.date),
                        wet: say(`reader.wet-${sheet.wet}`),
                        count: sheet.dabs.length,
                      })}
                    </option>`,
                )}
              </select>
            </label>
            ${
              chosen
                ? html`<ol class="pairs">
                    ${dabs.map((dab) => {
                      const partner = earlier.find(({ id }) => id === dab.same);
                      return html`<li>
                        <span class="number">${view.numberOf(dab.id)}</span>
                        ${chip(dab.lab)}
                        <span class="small"
                          >${view.value(dab.lab[0])},
                          ${say(`reader.wet-${wetOf(dab, state!)}`)}</span
                        >
                        ${partner ? chip(partner.lab) : html`<span class="chip none"></span>`}
                        <select
                          data-pair=${dab.id}
                          aria-label=${say('reader.pair-of', { number: view.numberOf(dab.id) })}
                          @change=${(event: Event) => view.boarding.pair(dab.id, valueOf(event))}
                        >
                          <option value="" .selected=${!partner}>${say('reader.pair-none')}</option>
                          ${chosen.dabs.map(
                            (each, i) =>
                              html`<option value=${each.id} .selected=${each === partner}>
                                ${say('reader.earlier-dab', {
                                  number: i + 1,
                                  value: view.value(each.lab[0]),
                                  wet: say(`reader.wet-${each.wet ?? 'dry'}`),
                                })}
                              </option>`,
                          )}
                        </select>
                      </li>`;
                    })}
                  </ol>`
                : nothing
            }`
    }
    ${drying.map(
      ({ wetness, pairs: count, by, rule }) =>
        html`<div class="told" data-drying=${wetness}>
          <p>
            <strong
              >${say(by < 0 ? 'reader.dries-darker' : 'reader.dries', {
                by: Math.abs(by),
                wet: say(`reader.wet-${wetness}`),
                count,
              })}</strong
            >
          </p>
          <p class="soft small">
            ${rule ? say('reader.drying-rule', { within: rule.within }) : say('reader.drying-once')}
          </p>
        </div>`,
    )}
    ${
      pairs.length > 0 && !dabs.every(({ id }) => plan.dabs?.some((kept) => kept.id === id))
        ? html`<p class="soft small">${say('reader.drying-send')}</p>`
        : nothing
    }`;
}
