import { css, html, type TemplateResult } from 'lit';
import { cssOfLab, lightnessOfMunsell } from './core.js';
import { put } from './put.js';

/** The greys of values 0 to 10. */
export const LADDER_GREYS: readonly string[] = Array.from(
  { length: 11 },
  (_, value) => cssOfLab([lightnessOfMunsell(value), 0, 0]).css,
);

/** Where a value stands on the ladder, as a percentage of its length: each dab is one value wide, the value in its middle. */
export function placeOnLadder(value: number): number {
  return ((Math.min(10, Math.max(0, value)) + 0.5) / 11) * 100;
}

/** The mark at a value, below the dabs. */
export function ladderMark(value: number): TemplateResult {
  return html`<svg class="mark" viewBox="0 0 12 8" ${put({ '--_at': `${placeOnLadder(value)}%` })}>
    <path d="M6 0 12 8H0z" />
  </svg>`;
}

/** Names below a strip: each as wide as it reaches, by borders in percent from 0 to 100. */
export function stretches(names: readonly string[], borders: readonly number[]): TemplateResult {
  return html`<div class="spans" aria-hidden="true">
    ${names.map(
      (name, i) =>
        html`<span
          class="span"
          title=${name}
          ${put({ '--_from': `${borders[i]}%`, '--_wide': `${borders[i + 1] - borders[i]}%` })}
          >${name}</span
        >`,
    )}
  </div>`;
}

/** Looks of the ladder of grey dabs. */
export const ladderStyles = css`
  .dabs {
    display: grid;
    grid-template-columns: repeat(11, minmax(0, 1fr));
    border: 1px solid var(--_edge);
    forced-color-adjust: none;
  }
  .marks {
    position: relative;
    block-size: 12px;
  }
  .mark {
    position: absolute;
    inset-block-start: 3px;
    inset-inline-start: var(--_at);
    inline-size: 12px;
    block-size: 8px;
    margin-inline-start: -6px;
    fill: currentColor;
  }
  .spans {
    position: relative;
    block-size: 22px;
    font-size: 0.75rem;
    line-height: 20px;
    color: var(--_ink-soft);
  }
  .span {
    position: absolute;
    inset-inline-start: var(--_from);
    inline-size: var(--_wide);
    padding-inline: 4px;
    border-inline-start: 1px solid var(--_edge);
    overflow: hidden;
    text-overflow: ellipsis;
    white-space: nowrap;
  }
  .span:first-child {
    border-inline-start: 0;
    padding-inline-start: 0;
  }
`;
