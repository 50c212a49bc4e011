import { css } from 'lit';

export const styles = css`
  :host(:focus) {
    outline: none;
  }
  .top {
    container-type: inline-size;
    padding-block: 8px;
  }
  .top.over {
    outline: 2px dashed var(--_edge);
    outline-offset: 2px;
  }
  .bar {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px 16px;
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
  .standing {
    display: flex;
    flex: 0 1 auto;
    align-items: center;
    justify-content: flex-end;
    gap: 8px 16px;
    min-inline-size: 0;
  }
  .steps {
    display: flex;
    flex: none;
    gap: 8px;
  }
  /* Text at 200 % on a phone. */
  @container (inline-size < 16rem) {
    .standing {
      flex-wrap: wrap;
      justify-content: flex-start;
    }
  }
  .what {
    display: none;
    max-inline-size: 14rem;
    overflow: hidden;
    text-overflow: ellipsis;
    white-space: nowrap;
  }
  .tabs {
    display: flex;
    flex-wrap: wrap;
    gap: 0 4px;
    margin-inline-start: -4px;
  }
  .tab {
    padding-inline: 8px;
    color: var(--_ink-soft);
  }
  .tab:hover,
  .tab[aria-expanded='true'] {
    color: var(--_ink);
  }
  .tab[aria-expanded='true'] span {
    text-decoration: underline;
    text-underline-offset: 5px;
  }
  .panel {
    margin-block-start: 8px;
    padding: 8px 16px 16px;
    border: 1px solid var(--_line);
    border-radius: var(--_radius);
    background: var(--_sheet);
  }
  .head {
    flex-wrap: wrap;
    display: flex;
    align-items: center;
    justify-content: space-between;
    gap: 16px;
    margin-block-end: 8px;
  }
  .head button {
    margin-inline-end: -12px;
  }
  h3 {
    margin: 0;
    font-size: 1rem;
    font-weight: 600;
  }
  p {
    max-inline-size: 44rem;
    margin: 8px 0;
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
  .trouble > span,
  .trouble > .as-text,
  .trouble > div {
    flex: 1 1 20rem;
    min-inline-size: 0;
    overflow-wrap: anywhere;
  }
  .trouble p {
    margin: 0;
  }
  .as-text {
    display: grid;
    gap: 4px;
  }
  .trouble ul {
    margin: 4px 0 0;
    padding-inline-start: 20px;
  }
  @container (min-width: 60rem) {
    .what {
      display: inline;
    }
    .act.brief {
      display: none;
    }
  }
  @container (max-width: 40rem) {
    .title {
      flex-basis: 100%;
    }
    .standing {
      flex: 1 1 100%;
      /* Long words for undo and redo go below. */
      flex-wrap: wrap;
      justify-content: space-between;
    }
    .standing > span:first-child {
      flex: 1 1 5.5rem;
      padding-inline-start: 8px;
    }
    .tabs {
      display: grid;
      grid-template-columns: repeat(auto-fit, minmax(4.5rem, 1fr));
      margin-block-start: 4px;
    }
    .tab {
      flex-direction: column;
      gap: 2px;
      padding-inline: 2px;
      font-size: 0.8125rem;
    }
    .panel {
      padding-inline: 8px;
    }
    .head button {
      margin-inline-end: -8px;
    }
  }
`;
