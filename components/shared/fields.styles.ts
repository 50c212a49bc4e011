import { css } from 'lit';

/** A field under its label, a box that is ticked before its words, and the words over a group of them. */
export const fields = css`
  legend {
    padding: 0;
    margin-block-end: 4px;
    color: var(--_ink-soft);
    font-size: 0.8125rem;
  }
  .check {
    display: flex;
    gap: 8px;
    align-items: center;
    min-block-size: var(--_target);
    cursor: pointer;
  }
  .field {
    display: grid;
    gap: 4px;
    align-content: start;
    min-inline-size: 0;
  }
  .field > span {
    color: var(--_ink-soft);
    font-size: 0.8125rem;
  }
`;
