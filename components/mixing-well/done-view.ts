import { html, nothing, type TemplateResult } from 'lit';
import { icon } from '../shared/icons.js';
import type { DoneBy, WellView } from './well-view.js';

/** What was just done, told beside what did it, with the way back. */
export function renderDone(
  view: Pick<WellView, 'done' | 'canUndo' | 'say' | 'undo'>,
  by: DoneBy,
): TemplateResult | typeof nothing {
  const { done, canUndo, say } = view;
  if (done?.by !== by) return nothing;
  return html`<p class="done" part="done">
    <span>${done.words}</span>
    ${
      done.undoable && canUndo
        ? html`<button type="button" class="quiet" data-undo @click=${() => view.undo()}>
            ${icon('undo')}<span>${say('well.undo')}</span>
          </button>`
        : nothing
    }
  </p>`;
}
