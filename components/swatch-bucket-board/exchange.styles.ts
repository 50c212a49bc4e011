import { css } from 'lit';

/** Looks of what carries swatches out and in; adopted by the board with it. */
export const exchangeStyles = css`
  .exchange {
    display: grid;
    gap: 24px;
    padding: 16px;
    border: 1px solid var(--_line);
    border-radius: var(--_radius);
    background: var(--_sheet);
  }
  @container all (min-width: 40rem) {
    .exchange {
      grid-template-columns: minmax(0, 20rem) minmax(0, 1fr);
      column-gap: 32px;
    }
  }
  .exchange fieldset {
    display: grid;
    align-content: start;
    gap: 12px;
    min-inline-size: 0;
    margin: 0;
    padding: 0;
    border: 0;
  }
  .exchange legend {
    padding: 0;
    margin-block-end: 8px;
    font-size: 1.125rem;
    font-weight: 600;
    line-height: 1.3;
  }
  .exchange .shut {
    grid-column: 1 / -1;
    justify-self: start;
    margin-inline-start: -12px;
  }
  .exchange [role='status']:empty {
    display: none;
  }
  .formats {
    display: grid;
  }
  .formats label {
    display: grid;
    grid-template-columns: 18px minmax(0, 1fr);
    align-items: center;
    column-gap: 12px;
    min-block-size: var(--_target);
    padding-block: 6px;
  }
  .formats .soft {
    grid-column: 2;
  }
  .exchange .text {
    display: grid;
    gap: 4px;
  }
  .exchange textarea {
    inline-size: 100%;
    resize: vertical;
    font-family: ui-monospace, monospace;
    font-size: 0.8125rem;
  }
  .arriving {
    display: grid;
    gap: 12px;
  }
  .arriving progress {
    inline-size: 100%;
    accent-color: var(--_ink);
  }
  .chips {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 10.5rem), 1fr));
    gap: 8px 12px;
    padding: 12px;
    border-radius: var(--_radius);
    background: var(--_surround);
  }
  .chips li {
    display: flex;
    align-items: center;
    gap: 8px;
    min-inline-size: 0;
    font-size: 0.8125rem;
    line-height: 1.3;
  }
  .chips .dab {
    flex: none;
    inline-size: 48px;
    block-size: 32px;
  }
  .chips li > span {
    min-inline-size: 0;
    overflow-wrap: anywhere;
  }
  .chips span span {
    display: block;
  }
  .chips .soft {
    color: var(--_quiet);
  }
  .exchange .fault {
    display: grid;
    gap: 4px;
    max-inline-size: 40rem;
  }
  .exchange .fault ul {
    display: grid;
    gap: 4px;
  }
  @media print {
    .exchange {
      display: none;
    }
  }
`;
