import { css } from 'lit';

/** Looks of the element while there is nothing to check. */
export const styles = css`
  :host {
    container-type: inline-size;
  }
  [hidden] {
    display: none !important;
  }
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
  .trouble,
  .progress {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 12px;
    align-items: center;
  }
  progress {
    flex: 1 1 96px;
    min-inline-size: 64px;
    max-inline-size: 240px;
    block-size: 6px;
    accent-color: var(--_ink);
  }
`;
