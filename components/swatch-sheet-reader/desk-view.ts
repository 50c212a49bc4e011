import { html, nothing, type TemplateResult } from 'lit';
import { icon } from '../shared/icons.js';
import { renderBoardPanel } from './board-panel.js';
import { renderCardPanel } from './card-panel.js';
import { renderDryingPanel } from './drying-panel.js';
import { renderList, renderPicked } from './list-view.js';
import { renderMemoryPanel } from './memory-panel.js';
import { PANELS, type SheetView } from './sheet-view.js';
import type { StageHand } from './stage-hand.js';
import { renderStage } from './stage-view.js';
import { renderTubePanel } from './tube-panel.js';
import { renderWarnings } from './warnings-view.js';

/** All that is shown once there is a photo, something to remember, or a panel that needs neither. */
export function renderDesk(view: SheetView, hand: StageHand): TemplateResult {
  const { state, picture } = view;
  const sheet = picture.handle !== undefined;
  return html`<div class="desk">
    ${renderFault(view)} ${renderProgress(view)}
    ${
      sheet
        ? html`<div class="work">
            <div class="left">
              ${renderStage(view, hand)} ${state && view.picked ? renderPicked(view) : nothing}
            </div>
            ${state ? html`<div class="right">${renderList(view)} ${renderWarnings(view)}</div>` : nothing}
          </div>`
        : nothing
    }
    ${renderPanels(view)}
  </div>`;
}

function renderFault(view: SheetView): TemplateResult | typeof nothing {
  if (!view.fault) return nothing;
  return html`<div class="fault" part="trouble" role="alert">
    <span>${view.fault}</span>
    <button type="button" class="quiet" @click=${() => view.forgive()}>
      ${icon('close')}<span>${view.say('picture.forgive')}</span>
    </button>
  </div>`;
}

function renderProgress(view: SheetView): TemplateResult | typeof nothing {
  const { say, progress } = view;
  if (progress === undefined) {
    if (view.state || !view.picture.handle || view.picture.status !== 'ready') return nothing;
    return html`<div class="acts">
      <button type="button" data-again @click=${() => void view.read()}>
        ${icon('spot')}<span>${say('reader.read-again')}</span>
      </button>
    </div>`;
  }
  return html`<div class="progress" part="progress">
    <span>${say('reader.reading')}</span>
    <progress aria-label=${say('reader.reading')} max="1" value=${progress}></progress>
    <button type="button" class="quiet" @click=${() => view.stop()}>
      ${icon('close')}<span>${say('progress.stop')}</span>
    </button>
  </div>`;
}

/** Without a sheet there are what is remembered and the card to print, when they are asked for. */
function renderPanels(view: SheetView): TemplateResult | typeof nothing {
  const { say, asked } = view;
  const isRead = view.state !== undefined;
  const panels = PANELS.filter((panel) => panel === 'memory' || panel === 'card' || isRead);
  const shown = panels.includes(view.panel) ? view.panel : 'memory';
  const remembered = view.dabs.length > 0 && !view.picture.handle;
  if (!isRead && !asked && !remembered) return nothing;
  return html`<section class="panels" part="panels">
    <div class="segments" role="group" aria-label=${say('reader.panels')}>
      ${panels.map(
        (panel) =>
          html`<button
            type="button"
            data-panel=${panel}
            aria-pressed=${panel === shown ? 'true' : 'false'}
            @click=${() => view.turnTo(panel)}
          >
            ${say(`reader.panel-${panel}`)}
          </button>`,
      )}
    </div>
    ${renderDone(view)}
    <div class="panel" part="panel" data-panel-of=${shown}>
      ${shown === 'board' ? renderBoardPanel(view) : nothing}
      ${shown === 'drying' ? renderDryingPanel(view) : nothing}
      ${shown === 'tube' ? renderTubePanel(view) : nothing}
      ${shown === 'card' ? renderCardPanel(view) : nothing}
      ${shown === 'memory' ? renderMemoryPanel(view) : nothing}
    </div>
  </section>`;
}

function renderDone(view: SheetView): TemplateResult | typeof nothing {
  if (!view.done) return nothing;
  return html`<p class="done" part="done">
    <span>${view.done}</span>
    ${
      view.canUndoPlan
        ? html`<button type="button" class="quiet" data-undo-plan @click=${() => view.undoPlan()}>
            ${icon('undo')}<span>${view.say('reader.undo-plan')}</span>
          </button>`
        : nothing
    }
  </p>`;
}
