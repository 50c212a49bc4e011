import { css } from 'lit';

export const styles = css`
  :host {
    container-type: inline-size;
  }
  [hidden] {
    display: none !important;
  }
  .trouble {
    padding: 8px 12px;
    border: 1px solid var(--_edge);
    background: var(--_sheet);
  }
`;
