import { css } from 'lit';

/** Looks of a board of which nothing is seen yet: room for its buckets. */
export const boardFieldStyles = css`
  .coming {
    min-block-size: 26rem;
  }
`;
