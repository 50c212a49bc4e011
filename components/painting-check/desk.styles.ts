import { css } from 'lit';
import { disclosure } from '../shared/disclosure.styles.js';
import { fields } from '../shared/fields.styles.js';

/** Looks of the check at work; adopted by the element with it. */
const desk = css`
  .desk,
  .seen,
  .setting,
  .findings,
  .drawing,
  .checks,
  .head,
  .part {
    display: grid;
    gap: 12px;
    align-content: start;
    min-inline-size: 0;
    grid-template-columns: minmax(0, 1fr);
  }
  .desk,
  .findings {
    gap: 16px;
  }
  h3 {
    margin: 0;
    font-size: 0.9375rem;
    font-weight: 600;
  }
  .top {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 16px;
    align-items: start;
    justify-content: space-between;
  }
  .two {
    display: grid;
    gap: 24px;
    grid-template-columns: minmax(0, 1fr);
    align-items: start;
  }
  @container (min-width: 700px) {
    .two {
      grid-template-columns: minmax(0, 5fr) minmax(280px, 4fr);
    }
    .follows {
      position: sticky;
      inset-block-start: 8px;
    }
  }
  @container (min-width: 1100px) {
    .two {
      grid-template-columns: minmax(0, 4fr) minmax(0, 5fr);
    }
  }
  .stage {
    position: relative;
    inline-size: min(100%, calc(68vh * var(--_ratio, 1)));
    margin-inline: auto;
    background: var(--_surround);
    forced-color-adjust: none;
    user-select: none;
    -webkit-user-select: none;
    direction: ltr;
  }
  .stage > canvas:not(.loupe),
  .sheet > canvas,
  .strip canvas {
    display: block;
    inline-size: 100%;
    block-size: auto;
  }
  [data-stage='planned'] {
    cursor: crosshair;
  }
  .sheet {
    padding: 12px;
    background: var(--_surround);
    forced-color-adjust: none;
  }
  .over {
    position: absolute;
    inset: 0;
    inline-size: 100%;
    block-size: 100%;
    pointer-events: none;
    overflow: visible;
  }
  .over path {
    vector-effect: non-scaling-stroke;
  }
  .line,
  .line-under {
    fill: none;
    stroke-linejoin: round;
    stroke-linecap: round;
  }
  .line-under {
    stroke: #fff;
    stroke-width: 3.2;
    stroke-opacity: 0.8;
  }
  .line {
    stroke: #141414;
    stroke-width: 1.3;
  }
  .line-under.strong {
    stroke-width: 5.5;
    stroke-opacity: 0.9;
  }
  .line.strong {
    stroke-width: 2.8;
  }
  .cast {
    fill: #fff;
    fill-opacity: 0.7;
  }
  .dot {
    fill: #141414;
    fill-opacity: 0.8;
  }
  .handle {
    position: absolute;
    inset-block-start: var(--_y);
    left: var(--_x);
    translate: -50% -50%;
    display: grid;
    place-items: center;
    inline-size: 44px;
    block-size: 44px;
    padding: 0;
    border: 0;
    border-radius: 50%;
    background: none;
    cursor: grab;
    touch-action: none;
  }
  .handle:hover:not(:disabled),
  .handle:active:not(:disabled) {
    background: none;
  }
  .handle:active {
    cursor: grabbing;
  }
  .knob {
    display: grid;
    place-items: center;
    inline-size: 22px;
    block-size: 22px;
    border: 2px solid #141414;
    border-radius: 50%;
    outline: 2px solid #fff;
    color: #141414;
    font-size: 0.75rem;
    line-height: 1;
  }
  .ring .knob {
    inline-size: 30px;
    block-size: 30px;
    border-style: dashed;
  }
  .handle.mark .knob {
    inline-size: 14px;
    block-size: 14px;
    border-width: 1.5px;
    outline-width: 1.5px;
  }
  input[type='range'] {
    margin: 0;
  }

  .sign {
    position: absolute;
    top: -2px;
    right: 0;
    display: grid;
    place-items: center;
    min-inline-size: 18px;
    block-size: 18px;
    padding-inline: 3px;
    border: 1px solid #141414;
    border-radius: 9px;
    background: #fff;
    color: #141414;
    font-size: 0.75rem;
    line-height: 1;
  }
  .handle:focus-visible {
    outline: 3px solid #141414;
    outline-offset: -3px;
    box-shadow: 0 0 0 3px #fff;
  }
  .loupe {
    position: absolute;
    inset-block-start: 8px;
    left: 8px;
    inline-size: 112px;
    block-size: 112px;
    border: 2px solid #fff;
    outline: 1px solid #141414;
    pointer-events: none;
  }
  .loupe.after {
    left: auto;
    right: 8px;
  }
  .tag {
    position: absolute;
    inset-block-start: var(--_y);
    left: var(--_x);
    translate: -50% -50%;
    display: grid;
    place-items: center;
    min-inline-size: 22px;
    block-size: 22px;
    padding-inline: 4px;
    border: 1px solid #141414;
    border-radius: 11px;
    background: #fff;
    color: #141414;
    font-size: 0.75rem;
    line-height: 1;
    pointer-events: none;
  }
  .tag.selected {
    background: #141414;
    color: #fff;
    outline: 1px solid #fff;
  }
  .looks {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
  }
  fieldset {
    display: grid;
    gap: 4px;
    margin: 0;
    padding: 0;
    border: 0;
    min-inline-size: 0;
  }
  .field > input,
  .field > select,
  .field > textarea {
    inline-size: 100%;
    min-inline-size: 0;
  }
  textarea {
    resize: vertical;
  }
  .main {
    border-width: 2px;
    font-weight: 600;
  }
  .working {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 12px;
    align-items: center;
  }
  .warning {
    padding-inline-start: 12px;
    border-inline-start: 3px solid var(--_ink);
  }
  .part {
    gap: 8px;
    justify-items: start;
    padding-block-start: 12px;
    border-block-start: 1px solid var(--_line);
  }
  .part > .field {
    justify-self: stretch;
  }
  .list {
    list-style: none;
    margin: 0;
    padding: 0;
    inline-size: 100%;
    display: grid;
    gap: 16px 24px;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 288px), 1fr));
  }
  .list.marks {
    gap: 0;
    grid-template-columns: minmax(0, 1fr);
  }
  .finding {
    display: grid;
    gap: 4px;
    align-content: start;
    min-inline-size: 0;
  }
  .place {
    display: flex;
    gap: 8px;
    inline-size: 100%;
    justify-content: flex-start;
    text-align: start;
  }
  .where {
    flex: 1 1 auto;
    min-inline-size: 0;
    overflow-wrap: anywhere;
    font-weight: 600;
  }
  .number {
    flex: none;
    display: inline-grid;
    place-items: center;
    min-inline-size: 22px;
    block-size: 22px;
    padding-inline: 4px;
    border: 1px solid currentColor;
    border-radius: 11px;
    font-size: 0.75rem;
    line-height: 1;
  }
  .tones {
    flex: none;
    display: inline-flex;
    border: 1px solid var(--_edge);
    forced-color-adjust: none;
  }
  .tone {
    inline-size: 22px;
    block-size: 22px;
    background: var(--_tone);
  }
  .dab {
    flex: none;
    inline-size: 22px;
    block-size: 22px;
    border: 1px solid var(--_edge);
    border-radius: 50%;
    background: var(--_tone);
    forced-color-adjust: none;
  }
  .off {
    display: flex;
    flex-wrap: wrap;
    gap: 0 12px;
    justify-content: space-between;
  }
  .advice {
    display: grid;
    gap: 4px;
    padding-inline-start: 12px;
    border-inline-start: 1px solid var(--_edge);
  }
  .advice p {
    font-size: 0.875rem;
  }
  .mix {
    display: flex;
    gap: 8px;
    align-items: center;
  }
  .pair {
    display: grid;
    gap: 16px;
    grid-template-columns: minmax(0, 1fr);
  }
  @container (min-width: 640px) {
    .pair {
      grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    }
  }
  figure {
    margin: 0;
    display: grid;
    gap: 4px;
    align-content: start;
  }
  figcaption {
    color: var(--_ink-soft);
    font-size: 0.8125rem;
  }
  .list.marks {
    max-inline-size: 44rem;
  }
  li.mark {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 12px;
    align-items: center;
    padding-block: 8px;
    border-block-start: 1px solid var(--_line);
  }
  li.mark p {
    flex: 1 1 14rem;
  }
  .keep {
    display: grid;
    gap: 8px;
    padding-block-start: 12px;
    border-block-start: 1px solid var(--_line);
  }
  .strip {
    list-style: none;
    margin: 0;
    padding: 0;
    display: grid;
    gap: 16px;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 208px), 1fr));
  }
  .kept {
    display: grid;
    gap: 4px;
    align-content: start;
    padding: 12px;
    border: 1px solid var(--_line);
    background: var(--_sheet);
    min-inline-size: 0;
  }
  .strip canvas {
    max-inline-size: 192px;
  }
  .kept-head {
    display: flex;
    gap: 8px;
    align-items: center;
  }
  @media (forced-colors: active) {
    .finding.selected {
      outline: 2px solid Highlight;
    }
  }
`;

export const deskStyles = [disclosure, fields, desk];
