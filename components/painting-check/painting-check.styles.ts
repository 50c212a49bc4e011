import { css } from 'lit';

/** Looks of the element while there is nothing to check. */
export const styles = css`
  p {
    margin: 0;
    text-wrap: pretty;
  }
  .frame {
    display: grid;
    gap: 16px;
    min-inline-size: 0;
  }
  .lead {
    font-weight: 600;
  }
  .buttons {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    align-items: center;
  }
`;
