import { css } from 'lit';

export const styles = css`
  :host {
    container-type: inline-size;
  }
  [hidden] {
    display: none !important;
  }
  p,
  ol {
    margin: 0;
  }
  .frame {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 16px;
  }
  .says ol {
    display: grid;
    gap: 8px;
    padding-inline-start: 1.5em;
  }
  .bring {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
  }
  .trouble,
  .progress {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 12px;
    align-items: center;
  }
  .trouble {
    padding: 8px 12px;
    border: 1px solid var(--_edge);
    border-inline-start-width: 4px;
    background: var(--_sheet);
  }
  .trouble > span {
    flex: 1 1 16rem;
  }
  progress {
    flex: 1 1 96px;
    min-inline-size: 64px;
    max-inline-size: 240px;
    block-size: 6px;
    accent-color: var(--_ink);
  }
`;
