import { css } from 'lit';

export const styles = css`
  .bar {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px 16px;
    padding-block: 8px;
  }
  .title {
    flex: 1 1 14rem;
    min-inline-size: 0;
    border-color: transparent;
    background: transparent;
    font-size: 1.125rem;
    text-overflow: ellipsis;
  }
  .title:hover,
  .title:focus {
    border-color: var(--_edge);
    background: var(--_sheet);
  }
  .trouble {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px 16px;
    margin-block-end: 8px;
    padding: 8px 12px;
    border: 1px solid var(--_edge);
    border-radius: var(--_radius);
    background: var(--_sheet);
  }
  .trouble span {
    flex: 1 1 20rem;
  }
`;
