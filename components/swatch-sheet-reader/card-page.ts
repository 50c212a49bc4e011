import { html, type TemplateResult } from 'lit';
import { valueCardPage, type SheetPaper } from '../shared/core.js';
import { handOver } from '../shared/files.js';
import { icon } from '../shared/icons.js';
import { drawingOf } from '../shared/page-drawing.js';
import { printPages } from '../shared/printing.js';
import type { SheetView } from './sheet-view.js';

/** The strip of this plan's value card as a page: to look at, to print and to save. */
export function renderCardPage(view: SheetView): TemplateResult {
  const { say } = view;
  const page = pageOf(view);
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
        @click=${() => void printPages([page], view.printer, document)}
      >
        ${icon('note')}<span>${say('reader.card-page-print')}</span>
      </button>
      <button type="button" class="quiet" data-save-card @click=${save}>
        ${icon('save')}<span>${say('reader.card-page-save')}</span>
      </button>
    </div>
  </section>`;
}

/** The page for the plan's limits, in the reader's language. */
function pageOf(view: SheetView): string {
  const { say, plan } = view;
  const paper: SheetPaper = view.printer;
  const fields = plan.paintLimits.map((limit, place) => ({
    limit,
    label: say('reader.card-page-value', { value: view.value(limit) }),
    note: say('reader.card-page-between', {
      darker: view.bandName(place),
      lighter: view.bandName(place + 1),
      lightness: view.number(limit, 0),
    }),
  }));
  return valueCardPage(fields, {
    paper,
    title: say('reader.card-page-heading', { title: plan.title || say('reader.card-title') }),
    how: ['paint', 'read', 'punch', 'use'].map((step) => say(`reader.card-page-${step}`)),
    scale: say('reader.card-page-scale'),
  });
}
