import { css } from 'lit';

export const styles = css`
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
`;
