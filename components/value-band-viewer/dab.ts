import { html, svg, type TemplateResult } from 'lit';
import { cssOfLab, type Lab } from '../shared/core.js';

/** A small field of a colour; crossed out where there is none. */
export function dab(lab: Lab | undefined): TemplateResult {
  return html`<svg class="dab" viewBox="0 0 20 20" aria-hidden="true">
    ${
      lab
        ? svg`<rect width="20" height="20" fill=${cssOfLab(lab).css}/>`
        : svg`<path class="dab-none" d="M3 17 17 3"/>`
    }
  </svg>`;
}
