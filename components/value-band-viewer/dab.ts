import { css, html, svg, type TemplateResult } from 'lit';
import { cssOfLab, type Lab } from '../shared/core.js';

/** Looks of small fields of a colour. */
export const dabStyles = css`
  .dab {
    flex: none;
    inline-size: 20px;
    block-size: 20px;
    border: 1px solid var(--_edge);
    vertical-align: -5px;
    forced-color-adjust: none;
  }
  .dab-none {
    stroke: var(--_edge);
  }
  .dabs {
    display: inline-flex;
    margin-inline-end: 8px;
  }
  .dabs > .dab + .dab {
    margin-inline-start: -1px;
  }
`;

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
