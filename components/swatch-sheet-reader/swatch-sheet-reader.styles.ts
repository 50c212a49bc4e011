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
  .empty {
    display: grid;
    gap: 16px;
    justify-items: start;
    padding: 24px 16px;
    border: 1px dashed var(--_edge);
    border-radius: var(--_radius);
  }
  .over {
    border-style: solid;
    background: var(--_press);
  }
  .lead {
    font-size: 1.0625rem;
    font-weight: 600;
  }
  .teach {
    display: grid;
    gap: 16px 32px;
    align-items: center;
  }
  .teach ol {
    display: grid;
    gap: 8px;
    padding-inline-start: 1.5em;
    max-inline-size: 56ch;
  }
  .sketch {
    inline-size: min(100%, 264px);
    fill: none;
    stroke: var(--_edge);
    stroke-width: 1.5;
    stroke-linejoin: round;
  }
  .sketch .ray {
    stroke-dasharray: 2 4;
  }
  .sketch .paper {
    fill: light-dark(#fff, #e6e6e6);
    stroke: var(--_edge);
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
  @container (min-width: 640px) {
    .empty {
      padding: 32px;
    }
    .teach {
      grid-template-columns: 264px minmax(0, 1fr);
    }
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
