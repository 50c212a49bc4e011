import { html, type TemplateResult } from 'lit';
import { handOver } from '../shared/files.js';
import { icon } from '../shared/icons.js';
import { drawingOf } from '../shared/page-drawing.js';
import { printPages } from '../shared/printing.js';
import { valueCardOf } from '../shared/value-card.js';
import type { SheetView } from './sheet-view.js';

/** The strip of this plan's value card as a page: to look at, to print and to save. */
export function renderCardPage(view: SheetView): TemplateResult {
  const { say, plan, printer } = view;
  const page = valueCardOf(plan, printer, say);
  const save = (): void => {
    const name = `${say('reader.card-page-file')}.svg`;
    handOver(new Blob([page], { type: 'image/svg+xml' }), name);
    view.report(say('reader.card-page-saved', { name }));
  };
  return html`<section class="card-page" aria-labelledby="card-page-title">
    <h4 id="card-page-title">${say('reader.card-page-title')}</h4>
    <p class="soft small">${say('reader.card-page-hint')}</p>
    <div class="page" part="card-page" role="img" aria-label=${say('reader.card-page-title')}>
      ${drawingOf(page, document)}
    </div>
    <div class="acts">
      <button
        type="button"
        data-print-card
        @click=${() => void printPages([page], printer, document)}
      >
        ${icon('note')}<span>${say('reader.card-page-print')}</span>
      </button>
      <button type="button" class="quiet" data-save-card @click=${save}>
        ${icon('save')}<span>${say('reader.card-page-save')}</span>
      </button>
    </div>
  </section>`;
}
