import { css } from 'lit';

export const styles = css`
  :host {
    container-type: inline-size;
  }
  [hidden] {
    display: none !important;
  }
  .trouble {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 12px;
    align-items: center;
    justify-content: space-between;
    padding: 8px 12px;
    border: 1px solid var(--_edge);
    border-inline-start-width: 4px;
    background: var(--_sheet);
  }
`;
