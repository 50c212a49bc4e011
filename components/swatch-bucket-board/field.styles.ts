import { css } from 'lit';

/** Looks of a board of which nothing is seen yet: room for its buckets, and what is told when they cannot be had. */
export const boardFieldStyles = css`
  .coming {
    min-block-size: 26rem;
  }
  .coming .trouble {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px 16px;
    padding: 8px 16px;
    border: 1px solid;
    border-inline-start-width: 4px;
  }
  .coming span {
    flex: 1 1 16em;
  }
  .coming button {
    min-block-size: 44px;
    padding: 4px 12px;
    border: 1px solid;
    border-radius: 3px;
    background: none;
    color: inherit;
    font: inherit;
  }
`;
