import { css } from 'lit';

/** Looks of a board of which nothing is seen yet: room for its buckets, and what is told when they cannot be had. */
export const boardFieldStyles = css`
  .coming {
    min-block-size: 26rem;
  }
  .coming button {
    min-block-size: 44px;
    margin-inline-start: 8px;
    padding: 4px 12px;
    border: 1px solid;
    border-radius: 3px;
    background: none;
    color: inherit;
    font: inherit;
  }
`;
