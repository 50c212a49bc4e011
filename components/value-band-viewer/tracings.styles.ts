import { css } from 'lit';

/** Looks of the tracings; adopted by the viewer with them. */
export const tracingsStyles = css`
  .traced {
    forced-color-adjust: none;
  }
  .traced path,
  .traced circle {
    vector-effect: non-scaling-stroke;
  }
  .trace,
  .trace-under {
    fill: none;
    stroke-linejoin: round;
    stroke-linecap: round;
  }
  .trace-under {
    stroke: #fff;
    stroke-width: 3.2;
    stroke-opacity: 0.72;
  }
  .trace {
    stroke: #141414;
    stroke-width: 1.3;
  }
  .trace-soft {
    stroke-dasharray: 5 5;
  }
  .trace-stroke {
    stroke-width: 1.8;
  }
  .trace-picked {
    stroke-width: 3.2;
  }
  .reserve-cast {
    fill: #fff;
    fill-opacity: 0.85;
  }
  .reserve-dot {
    fill: #141414;
  }
  .mark-light {
    fill: #fff;
    fill-opacity: 0.35;
  }
  .mark-dark {
    stroke-width: 2.4;
  }
  .tracings {
    display: grid;
    gap: 8px;
    margin-block-start: 8px;
  }
  .tracings p {
    margin: 0;
    text-wrap: pretty;
  }
  .tracings ul {
    margin: 0;
    padding-inline-start: 1.2em;
  }
  .mass-card {
    display: grid;
    gap: 8px;
    padding: 12px;
    border: 1px solid var(--_line);
    background: var(--_sheet);
  }
`;
