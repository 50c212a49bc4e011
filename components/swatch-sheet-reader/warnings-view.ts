import { html, nothing, type TemplateResult } from 'lit';
import { icon } from '../shared/icons.js';
import type { Reason } from '../shared/core.js';
import type { SheetView } from './sheet-view.js';

/** What is wrong with the photo and what to do; what no photo can tell. */
export function renderWarnings(view: SheetView): TemplateResult {
  const { say } = view;
  const { reading } = view.state!;
  // Without a rim the corners are the painter's to look at: not a thing to be folded away.
  const isOpen = ({ code }: Reason): boolean => code === 'sheet.no-rim' && view.cornersFound;
  const warnings = [...reading.limits.filter(isOpen), ...reading.warnings];
  const limits = reading.limits.filter((limit) => !isOpen(limit));
  return html`${
      warnings.length === 0
        ? nothing
        : html`<section class="warnings" part="warnings" aria-labelledby="warnings-title">
            <h3 id="warnings-title">${say('reader.warnings')}</h3>
            <ul class="remarks">
              ${warnings.map(
                (warning) =>
                  html`<li part="warning" data-code=${warning.code}>
                    ${icon('spot')}<span>${view.tell(warning)}</span>
                  </li>`,
              )}
            </ul>
          </section>`
    }
    <details class="limits" part="limits">
      <summary>${say('reader.limits')}</summary>
      <ul class="plain small">
        ${limits.map((limit) => html`<li data-code=${limit.code}>${view.tell(limit)}</li>`)}
      </ul>
    </details>`;
}
