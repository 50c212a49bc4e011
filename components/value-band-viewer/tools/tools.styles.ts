import { css } from 'lit';
import { disclosure } from '../../shared/disclosure.styles.js';

/** Looks of the tools' panels and of what they draw over the picture; adopted by the viewer beside its own. */
const tools = css`
  .tool {
    display: grid;
    gap: 16px;
    max-inline-size: 44rem;
  }
  .tool-mass path {
    vector-effect: non-scaling-stroke;
  }
  .tool-dashed {
    stroke-dasharray: 6 5;
  }
  .rehearsal {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(100%, 7.5rem), 1fr));
    gap: 12px;
  }
  .rehearsal figure {
    margin: 0;
  }
  .rehearsal canvas {
    display: block;
    inline-size: 100%;
    block-size: auto;
    background: var(--tonewell-surround, #c8c8c8);
  }
  .tool p {
    margin: 0;
    text-wrap: pretty;
  }
  .tool-note,
  .tool-choice-shares {
    color: var(--_ink-soft);
    font-size: 0.8125rem;
  }
  .tool-refused {
    padding-inline-start: 12px;
    border-inline-start: 3px solid var(--_ink);
  }
  .tool-group {
    display: grid;
    gap: 12px;
    min-inline-size: 0;
    margin: 0;
    padding: 12px 0 0;
    border: 0;
    border-block-start: 1px solid var(--_line);
  }
  .tool-group > legend {
    float: inline-start;
    inline-size: 100%;
    padding: 0;
    font-weight: 600;
  }
  .tool-pair {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(100%, 8rem), 1fr));
    gap: 12px 16px;
  }
  .tool-field {
    display: grid;
    gap: 4px;
    align-content: end;
    min-inline-size: 0;
  }
  .tool-field > span:first-child {
    font-size: 0.8125rem;
  }
  .tool-figure {
    display: flex;
    align-items: center;
    gap: 8px;
  }
  .tool-field input,
  .tool-field select {
    flex: 1;
    inline-size: 100%;
    min-inline-size: 0;
    margin: 0;
  }
  .tool-output {
    min-inline-size: 3.5em;
    text-align: end;
  }
  .tool-row {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px;
  }
  .tool-grow {
    flex: 1;
    min-inline-size: 8rem;
  }
  button.tool-grow {
    justify-content: start;
    text-align: start;
    overflow-wrap: anywhere;
  }
  .tool-part {
    display: grid;
    gap: 8px;
    justify-items: start;
  }
  .tool-check {
    display: flex;
    align-items: center;
    gap: 12px;
    min-block-size: var(--_target);
  }
  .tool-check .tool-note {
    display: block;
  }
  .tool-wide {
    position: relative;
    flex: 1 1 14rem;
    justify-content: start;
    text-align: start;
  }
  .tool-unmet {
    display: block;
    margin-block-start: 4px;
  }
  .tool-list {
    display: grid;
    margin: 0;
    padding: 0;
    list-style: none;
  }
  .tool-item {
    display: grid;
    gap: 12px;
    padding-block: 4px;
    border-block-start: 1px solid var(--_line);
  }
  .tool-item button {
    padding-inline: 8px;
  }
  .tool-item > .tool-pair,
  .tool-item > .tool-field {
    padding-inline: 8px;
  }
  .tool-item > .tool-note {
    padding-inline: 8px;
    padding-block-end: 12px;
  }
  .tool-tellings {
    display: grid;
    margin: 0;
  }
  .tool-tellings > div {
    display: flex;
    flex-wrap: wrap;
    gap: 4px 16px;
    padding-block: 8px;
    border-block-start: 1px solid var(--_line);
  }
  .tool-tellings dt {
    flex: 1 0 5.5rem;
    color: var(--_ink-soft);
  }
  .tool-tellings dd {
    flex: 5 1 14rem;
    min-inline-size: min-content;
    margin: 0;
    text-wrap: pretty;
  }
  .tool-choices {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 8rem), 1fr));
    gap: 8px;
  }
  button.tool-choice {
    display: flex;
    flex-direction: column;
    align-items: start;
    justify-content: start;
    gap: 4px;
    padding: 8px;
    border-color: var(--_line);
    text-align: start;
  }
  button.tool-choice[aria-checked='true'] {
    background: var(--_sheet);
    border-color: var(--_ink);
    color: var(--_ink);
    box-shadow: inset 0 0 0 2px var(--_ink);
  }
  .tool-choice canvas {
    max-inline-size: 100%;
    block-size: auto;
    margin-block-end: 4px;
  }
  .tool-choice-name {
    font-weight: 600;
  }
  .tool-choice-shares > span {
    display: block;
  }
  @media (forced-colors: active) {
    button.tool-choice[aria-checked='true'] {
      forced-color-adjust: auto;
      border: 3px solid Highlight;
    }
  }
  .tool-reach {
    display: block;
    inline-size: 288px;
    max-inline-size: 100%;
    block-size: auto;
    overflow: visible;
    direction: ltr;
  }
  .tool-reach text {
    fill: var(--_ink);
    font: 400 13px/1 var(--_font);
  }
  .tool-reach .tool-reach-limit {
    font-weight: 600;
  }
  .tool-reach path {
    stroke: var(--_edge);
  }
  .tool-reach .tool-reach-line {
    stroke: var(--_ink);
    stroke-width: 2;
  }
  .tool-hold-words {
    display: grid;
    grid-template-columns: 1fr 1fr 1fr;
    gap: 8px;
    font-size: 0.8125rem;
  }
  .tool-hold-words > :nth-child(2) {
    text-align: center;
  }
  .tool-hold-words > :last-child {
    text-align: end;
  }

  .tool-shade {
    fill: #808080;
    fill-opacity: 0.72;
    pointer-events: none;
  }
  .tool-under,
  .tool-line {
    fill: none;
    pointer-events: none;
    vector-effect: non-scaling-stroke;
    stroke-linejoin: round;
  }
  .tool-under {
    stroke: #000;
    stroke-opacity: 0.65;
    stroke-width: 3.5;
  }
  .tool-line {
    stroke: #fff;
    stroke-width: 1.5;
  }
  .tool-loop,
  .tool-ring {
    stroke-dasharray: 6 4;
  }
  .tool-chosen .tool-line {
    stroke-width: 2.5;
  }
  .tool-hold {
    fill: transparent;
    stroke: none;
    pointer-events: all;
  }
  .tool-move {
    cursor: move;
  }
  .tool-grip {
    outline: none;
  }
  .tool-grip-mark {
    fill: #fff;
    stroke: #000;
    stroke-width: 1.5;
    pointer-events: none;
  }
  .tool-grip:focus-visible .tool-grip-mark {
    fill: #000;
    stroke: #fff;
    stroke-width: 3;
  }
  .tool-grip-nw,
  .tool-grip-se {
    cursor: nwse-resize;
  }
  .tool-grip-ne,
  .tool-grip-sw {
    cursor: nesw-resize;
  }
  .tool-grip-n,
  .tool-grip-s {
    cursor: ns-resize;
  }
  .tool-grip-e,
  .tool-grip-w {
    cursor: ew-resize;
  }
  .tool-tag {
    fill: #fff;
    stroke: #000;
    stroke-width: 1.5;
    pointer-events: none;
  }
  .tool-number {
    fill: #000;
    font: 600 12px/1 var(--_font);
    text-anchor: middle;
    dominant-baseline: central;
    pointer-events: none;
  }
  .tool-chosen .tool-tag {
    fill: #000;
    stroke: #fff;
  }
  .tool-chosen .tool-number {
    fill: #fff;
  }
`;

export const toolsStyles = [disclosure, tools];
