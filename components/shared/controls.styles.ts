import { css } from 'lit';

/** Buttons, fields and the rest of the controls, the same in every element, and the tones of what is written and drawn about them. */
export const controls = css`
  :host {
    --_ink-soft: var(--tonewell-ink-soft, light-dark(#5a5a5a, #aeaeae));
    --_line: var(--tonewell-line, light-dark(#d0d0d0, #444444));
    --_edge: var(--tonewell-edge, light-dark(#7a7a7a, #8a8a8a));
    --_press: var(--tonewell-press, light-dark(#e6e6e6, #363636));
    --_radius: 3px;
    --_target: var(--tonewell-target, 36px);
  }
  @media (pointer: coarse) {
    :host {
      --_target: var(--tonewell-target, 44px);
    }
  }
  button,
  .button {
    appearance: none;
    display: inline-flex;
    align-items: center;
    justify-content: center;
    gap: 8px;
    min-block-size: var(--_target);
    min-inline-size: var(--_target);
    margin: 0;
    padding: 4px 12px;
    border: 1px solid var(--_edge);
    border-radius: var(--_radius);
    background: var(--_sheet);
    color: var(--_ink);
    font: inherit;
    line-height: 1.25;
    text-align: center;
    text-decoration: none;
    cursor: pointer;
    touch-action: manipulation;
  }
  button:hover:not(
      :disabled,
      [aria-disabled='true'],
      [aria-pressed='true'],
      [aria-checked='true'],
      [aria-selected='true']
    ) {
    background: var(--_press);
  }
  button:active:not(
      :disabled,
      [aria-pressed='true'],
      [aria-checked='true'],
      [aria-selected='true']
    ) {
    background: var(--_line);
  }
  button[aria-pressed='true'],
  button[aria-checked='true'],
  button[aria-selected='true'] {
    background: var(--_ink);
    border-color: var(--_ink);
    color: var(--_sheet);
  }
  button:disabled {
    color: var(--_ink-soft);
    border-color: var(--_line);
    cursor: default;
  }
  button.quiet {
    border-color: transparent;
    background: transparent;
  }
  button.quiet:hover:not(:disabled) {
    background: var(--_press);
  }
  input,
  select,
  textarea {
    min-block-size: var(--_target);
    padding: 4px 8px;
    border: 1px solid var(--_edge);
    border-radius: var(--_radius);
    background: var(--_sheet);
    color: var(--_ink);
    font: inherit;
    accent-color: var(--_ink);
  }
  /* Engines differ: WebKit's is too pale to be read, Firefox's lets the ground through. */
  ::placeholder {
    color: var(--_ink-soft);
    opacity: 1;
  }
  /* WebKit lets words that a narrow select cuts off widen the page. */
  select {
    contain: paint;
  }
  input[type='range'] {
    padding: 0;
    border: 0;
    background: none;
  }
  input[type='checkbox'],
  input[type='radio'] {
    min-block-size: 0;
    inline-size: 18px;
    block-size: 18px;
    margin: 0;
  }
  :focus-visible {
    outline: 2px solid var(--_ink);
    outline-offset: 2px;
  }
  /* A file field is hidden in its label, which shows the focus for it. */
  .button:has(:focus-visible) {
    outline: 2px solid var(--_ink);
    outline-offset: 2px;
  }
  /* Borders are shared, within a row and between rows. */
  .segments {
    display: inline-flex;
    flex-wrap: wrap;
    padding-block-start: 1px;
    padding-inline-start: 1px;
  }
  .segments > button {
    margin-block-start: -1px;
    margin-inline-start: -1px;
    border-radius: 0;
  }
  .segments > button:first-child {
    border-start-start-radius: var(--_radius);
    border-end-start-radius: var(--_radius);
  }
  .segments > button:last-child {
    border-start-end-radius: var(--_radius);
    border-end-end-radius: var(--_radius);
  }
  /* The room of the buttons that bring a picture, until these come: the first one, and the others. */
  .bringing:empty::before,
  .bringing:empty::after {
    content: '';
    inline-size: 10.4em;
    block-size: var(--_target);
  }
  .bringing:empty::after {
    inline-size: 16.8em;
  }
  .soft {
    color: var(--_ink-soft);
  }
  .small {
    font-size: 0.8125rem;
  }
  .away {
    position: absolute;
    inline-size: 1px;
    block-size: 1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
  svg.icon {
    flex: none;
    inline-size: 20px;
    block-size: 20px;
    fill: none;
    stroke: currentColor;
    stroke-width: 1.5;
    stroke-linecap: round;
    stroke-linejoin: round;
  }
  @media (forced-colors: active) {
    button[aria-pressed='true'],
    button[aria-checked='true'],
    button[aria-selected='true'] {
      forced-color-adjust: none;
      background: Highlight;
      color: HighlightText;
      border-color: Highlight;
    }
  }
  @media (prefers-reduced-motion: reduce) {
    *,
    *::before,
    *::after {
      animation-duration: 0.01ms !important;
      transition-duration: 0.01ms !important;
    }
  }
`;
