import { html, nothing, type TemplateResult } from 'lit';
import type { TracingName } from './controls.js';
import type { ToolHost } from './stage-tool.js';

/** The name of a band of the board; beyond them, bare paper. */
export const bandName = (host: ToolHost, band: number): string =>
  host.store.plan.board.bands[band]?.name || host.words('band.paper');

/** One tracing's words under its name; more of it in a list that opens. */
export function part(
  host: ToolHost,
  name: TracingName,
  words: string | TemplateResult,
  more?: { label: string; items: unknown[]; key?: TemplateResult },
): TemplateResult {
  return html`<div class="tracing">
    <p><strong>${host.words(`tracing.${name}`)}</strong> ${words}</p>
    ${more?.key ?? nothing}
    ${
      more && more.items.length > 0
        ? html`<details>
            <summary>${more.label}</summary>
            <ol class="traced-list">
              ${more.items.map((item) => html`<li>${item}</li>`)}
            </ol>
          </details>`
        : nothing
    }
  </div>`;
}
