import { css } from 'lit';
import { disclosure } from '../shared/disclosure.styles.js';

/** Looks of the tracings and of their panel; adopted by the viewer with them. */
const tracings = css`
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
  .trace-faint {
    stroke: #808080;
    stroke-width: 1;
  }
  .trace-soft {
    stroke-dasharray: 5 5;
  }
  .trace-apart {
    stroke-width: 1;
  }
  .trace-run {
    stroke-width: 2;
    stroke-dasharray: 0.1 5;
  }
  .trace-stroke {
    stroke-width: 1.8;
  }
  .trace-picked,
  .trace-chosen {
    stroke-width: 3.2;
  }
  .trace-repeat {
    stroke-width: 2.2;
  }
  .trace-hint {
    stroke-dasharray: 3 3;
  }
  /* Patterns scale with the picture: their lines too. */
  path.light-cast,
  path.light-line {
    vector-effect: none;
    fill: none;
    stroke-linecap: square;
  }
  .light-cast {
    stroke: #fff;
    stroke-opacity: 0.85;
  }
  .light-line {
    stroke: #141414;
  }
  .light-cast-dot {
    fill: #fff;
    fill-opacity: 0.85;
  }
  .light-dot {
    fill: #141414;
  }
  .mark-light {
    fill: #fff;
    fill-opacity: 0.35;
  }
  .mark-dark {
    stroke-width: 2.4;
  }
  .trace-number {
    font: 600 12px/1 var(--_font);
    font-variant-numeric: tabular-nums;
    dominant-baseline: central;
    fill: #141414;
    stroke: #fff;
    stroke-width: 3.5px;
    stroke-linejoin: round;
    paint-order: stroke;
  }
  .trace-number.before {
    text-anchor: end;
  }
  .tracings {
    display: grid;
    gap: 12px;
    margin-block-start: 8px;
  }
  .tracings p {
    margin: 0;
    max-inline-size: 44rem;
    text-wrap: pretty;
  }
  .tracings ul,
  .traced-list {
    margin: 0;
    padding-inline-start: 1.8em;
  }
  .traced-list {
    columns: 22rem auto;
    column-gap: 48px;
  }
  .traced-list > li {
    max-inline-size: 42rem;
    padding-block: 2px;
    break-inside: avoid;
    text-wrap: pretty;
  }
  .tracing {
    display: grid;
    gap: 4px;
    padding-block-start: 8px;
    border-block-start: 1px solid var(--_line);
    font-size: 0.875rem;
  }
  .tracings .light-keys {
    display: flex;
    flex-wrap: wrap;
    gap: 4px 16px;
    font-size: 0.875rem;
  }
  .light-key .dab {
    background: #8c8c8c;
  }
  .light-key {
    display: inline-flex;
    align-items: center;
    gap: 8px;
  }
  button.accent {
    padding-inline: 4px 12px;
  }
  button.accent[aria-pressed='true'] {
    background: var(--_ink);
  }
  .mass-card {
    display: grid;
    gap: 8px;
    padding: 12px;
    border: 1px solid var(--_line);
    background: var(--_sheet);
  }
`;

export const tracingsStyles = [disclosure, tracings];
