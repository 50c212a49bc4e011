import { css } from 'lit';

export { controls } from './controls.styles.js';

/**
 * The ground of the kit's looks, light or dark after the page's own `color-scheme`: true neutral greys (colour is judged against neutral
 * grey), an 8-px rhythm, the system's typeface. Each `--tonewell-*` property may be set by the page.
 */
export const tokens = css`
  :host {
    --_paper: var(--tonewell-paper, light-dark(#f5f5f5, #1b1b1b));
    --_sheet: var(--tonewell-sheet, light-dark(#ffffff, #262626));
    --_ink: var(--tonewell-ink, light-dark(#1c1c1c, #ececec));
    --_surround: var(--tonewell-surround, light-dark(#c6c6c6, #3a3a3a));
    --_font: var(--tonewell-font, system-ui, sans-serif);
    display: block;
    box-sizing: border-box;
    color: var(--_ink);
    font: 400 0.9375rem/1.5 var(--_font);
    font-variant-numeric: tabular-nums;
    text-align: start;
  }
  :host([hidden]) {
    display: none;
  }
  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }
`;
