import { css } from 'lit';

/**
 * An element that has nothing to work on yet: a drawing (`.sketch`), and beside it, below it where there is little room, what to do
 * (`.says` with a `.lead`); `.over` is a file held over it. Then how far it has come with a file, and what went wrong.
 */
export const emptyState = css`
  :host {
    container-type: inline-size;
  }
  [hidden] {
    display: none !important;
  }
  .empty {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 16px 32px;
    align-items: center;
    padding: 24px 16px;
    border: 1px dashed var(--_edge);
    border-radius: var(--_radius);
  }
  .empty.over {
    border-style: solid;
    background: var(--_press);
  }
  .says {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 12px;
    justify-items: start;
    max-inline-size: 60ch;
  }
  .says > .lead {
    font-size: 1.0625rem;
    font-weight: 600;
  }
  .says > div {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
  }
  .sketch {
    inline-size: min(100%, 240px);
    fill: none;
    stroke: var(--_edge);
    stroke-width: 1.5;
    stroke-linejoin: round;
  }
  .sketch .paper {
    fill: light-dark(#fff, #e6e6e6);
  }
  .sketch .ray {
    stroke-dasharray: 2 4;
  }
  .sketch .dabs {
    stroke: none;
  }
  .sketch .d1 {
    fill: #d4d4d4;
  }
  .sketch .d2 {
    fill: #aaa;
  }
  .sketch .d3 {
    fill: #808080;
  }
  .sketch .d4 {
    fill: #565656;
  }
  .sketch .d5 {
    fill: #303030;
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
  @container (min-width: 640px) {
    .empty {
      grid-template-columns: 240px minmax(0, 1fr);
      padding: 32px;
    }
  }
`;
