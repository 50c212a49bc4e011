import { certifyCard, type CardStep } from '../shared/core.js';
import { html, nothing, type TemplateResult } from 'lit';
import { icon } from '../shared/icons.js';
import { put } from '../shared/put.js';
import { renderCardPage } from './card-page.js';
import { wetOf, type SheetState } from './dabs-state.js';
import { chip, paintOf } from './list-view.js';
import type { SheetView } from './sheet-view.js';

/** The painter's own value card: whether its greys may stand for the plan's limits, and what to paint anew. */
export function renderCardPanel(view: SheetView): TemplateResult {
  const { say, state } = view;
  return html`<h3>${say('reader.card-title')}</h3>
    <p class="soft small">${say('reader.card-hint')}</p>
    ${state ? renderVerdict(view, state) : nothing} ${renderCardPage(view)}`;
}

function renderVerdict(view: SheetView, state: SheetState): TemplateResult {
  const { say, plan } = view;
  const { dabs } = state;
  const dry = dabs.every((dab) => wetOf(dab, state) === 'dry');
  const verdict = certifyCard({ swatches: dabs.slice() }, plan.paintLimits);
  const certified = verdict.certified && dry;
  return html`<p class="verdict" data-certified=${certified ? 'yes' : 'no'} part="card-verdict">
      ${icon(certified ? 'check' : 'pen')}
      <strong
        >${say(
          !dry
            ? 'reader.card-wet'
            : certified
              ? 'reader.card-certified'
              : verdict.repaint.length > 0
                ? 'reader.card-repaint'
                : 'reader.card-unsure',
          { count: verdict.repaint.length },
        )}</strong
      >
    </p>
    <ol class="card">
      ${verdict.steps.map((step, i) => renderStep(view, step, i))}
    </ol>
    ${
      verdict.reasons.length > 0
        ? html`<ul class="remarks">
            ${verdict.reasons.map((reason) => html`<li data-code=${reason.code}>${view.tell(reason)}</li>`)}
          </ul>`
        : nothing
    }
    ${
      certified
        ? html`<div class="told" part="card-holes">
            <h4>${say('reader.card-holes-title')}</h4>
            <p>${say('reader.card-holes')}</p>
            <p>${say('reader.card-use')}</p>
          </div>`
        : nothing
    }`;
}

function renderStep(view: SheetView, step: CardStep, place: number): TemplateResult {
  const { say, state } = view;
  const dab = step.swatch === undefined ? undefined : state!.dabs[step.swatch];
  return html`<li data-verdict=${step.verdict}>
    <span class="chips">
      <span class="chip" ${put({ background: paintOf([step.limit, 0, 0]) })}></span>
      ${dab ? chip(dab.lab) : html`<span class="chip none"></span>`}
    </span>
    <div>
      <p>
        <strong
          >${say('reader.card-limit', {
            darker: view.bandName(place),
            lighter: view.bandName(place + 1),
            value: view.value(step.limit),
          })}</strong
        >
        ${dab ? html`<span class="soft">${say('reader.dab', { number: view.numberOf(dab.id) })}</span>` : nothing}
      </p>
      ${step.reasons.map((reason) => html`<p data-code=${reason.code}>${view.tell(reason)}</p>`)}
    </div>
  </li>`;
}
