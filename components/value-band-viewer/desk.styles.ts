import { css } from 'lit';

/** Looks of what stands around and over the picture. */
export const deskStyles = css`
  p {
    margin: 0;
  }
  .ways,
  .foot {
    min-inline-size: 0;
  }
  .group,
  .bar {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px;
  }
  .bar {
    justify-content: space-between;
    margin-block-start: 8px;
  }
  .stage {
    touch-action: pan-x pan-y;
    user-select: none;
    -webkit-user-select: none;
    outline-offset: 3px;
  }
  .stage.near {
    touch-action: none;
    cursor: grab;
  }
  .stage.near.panning {
    cursor: grabbing;
  }
  .stage.in-hand {
    touch-action: none;
    cursor: crosshair;
  }
  canvas {
    transform-origin: 0 0;
  }
  .stage > svg {
    position: absolute;
    inset: 0;
    inline-size: 100%;
    block-size: 100%;
    overflow: hidden;
    pointer-events: none;
  }
  .back-0 {
    stop-color: #9c9c9c;
  }
  .back-1 {
    stop-color: #d4d4d4;
  }
  .back-2 {
    stop-color: #efefef;
  }
  .back-3 {
    stop-color: #f7f7f7;
  }
  .cast-0 {
    stop-color: #000;
    stop-opacity: 0.32;
  }
  .cast-1 {
    stop-color: #000;
    stop-opacity: 0;
  }
  .flap {
    filter: drop-shadow(0 1px 5px rgb(0 0 0 / 0.35));
  }
  .grip {
    position: absolute;
    inset-block-start: calc(var(--_y) - 22px);
    left: calc(var(--_x) - 22px);
    inline-size: 44px;
    block-size: 44px;
    border-radius: 50%;
    cursor: grab;
    touch-action: none;
    outline-offset: -6px;
  }
  .grip:active {
    cursor: grabbing;
  }
  .grip:focus-visible {
    outline: 2px solid #fff;
    box-shadow: inset 0 0 0 9px rgb(0 0 0 / 0.55);
  }
  .told {
    margin-block-start: 8px;
    min-block-size: 1.5em;
  }
  .panel {
    margin-block-start: 8px;
    padding: 12px;
    border: 1px solid var(--_line);
    background: var(--_sheet);
  }
  /* The ladder */
  .ladder {
    max-inline-size: 23em;
    margin-inline: auto;
  }
  .rail {
    position: relative;
    block-size: var(--_rail);
  }
  .rows {
    list-style: none;
    margin: 0;
    padding: 0;
  }
  .row {
    position: absolute;
    inset-block-start: var(--_y);
    inset-inline: 0 128px;
    display: grid;
    /* Where there is little room names go before the empty sides of the puddles. */
    grid-template-columns: minmax(5em, 1fr) minmax(28px, 100px);
    align-items: center;
    transform: translateY(-50%);
    pointer-events: none;
  }
  .row > * {
    pointer-events: auto;
  }
  .row.aside {
    color: var(--_ink-soft);
  }
  .row.aside .pool {
    opacity: 0.3;
  }
  .name {
    position: relative;
    z-index: 1;
    display: grid;
    min-inline-size: 0;
  }
  .name input,
  .paper-name {
    min-block-size: 28px;
    inline-size: 100%;
    padding: 0 6px;
    margin-inline-start: -7px;
    border: 1px solid transparent;
    background: transparent;
    color: inherit;
    font-weight: 600;
    text-overflow: ellipsis;
    white-space: nowrap;
    line-height: 1.3;
  }
  .paper-name {
    padding-inline: 7px;
    border: 0;
    line-height: 28px;
  }
  .name input:hover:not(:read-only) {
    border-color: var(--_line);
  }
  .name input:focus {
    border-color: var(--_edge);
    background: var(--_sheet);
  }
  @media (pointer: coarse) {
    .name input {
      min-block-size: 44px;
      margin-block: -8px;
    }
  }
  .share {
    min-block-size: 20px;
    font-size: 0.8125rem;
    line-height: 1.5;
    color: var(--_ink-soft);
  }
  button.puddle {
    position: relative;
    inline-size: 100%;
    min-inline-size: 0;
    block-size: 52px;
    min-block-size: 0;
    padding: 0;
    border: 0;
    border-radius: 8px;
    background: transparent;
    overflow: visible;
  }
  button.puddle:hover:not(:disabled),
  button.puddle:active:not(:disabled),
  button.puddle[aria-pressed='true'] {
    background: transparent;
  }
  .puddle svg {
    position: absolute;
    inset-block-start: -24px;
    inset-inline-end: 0;
    inline-size: 100px;
    block-size: 100px;
    overflow: visible;
    pointer-events: none;
    forced-color-adjust: none;
  }
  .pool {
    stroke: light-dark(#0003, #fff4);
    stroke-width: 1;
    pointer-events: auto;
  }
  .puddle:hover:not(:disabled) .pool {
    stroke: var(--_ink);
  }
  .puddle[aria-pressed='true'] .pool {
    stroke: var(--_ink);
    stroke-width: 2;
  }
  .dry {
    fill: none;
    stroke: var(--_edge);
  }
  .rail > svg {
    position: absolute;
    inset-block-start: 0;
    pointer-events: none;
    overflow: visible;
    forced-color-adjust: none;
  }
  .rail > .leads {
    inset-inline-end: 108px;
    fill: none;
    stroke: var(--_edge);
    stroke-width: 1;
    opacity: 0.75;
  }
  .rail > .dabs {
    inset-inline-end: 64px;
  }
  .dabs path {
    stroke: light-dark(#0002, #fff2);
    stroke-width: 1;
  }
  .dabs text {
    paint-order: stroke;
    stroke-width: 3.5px;
    stroke-linejoin: round;
    font: 600 12px/1 var(--_font);
    text-anchor: middle;
    fill: #1c1c1c;
  }
  .dabs .on-dark {
    fill: #f4f4f4;
  }
  .rail > .pins {
    inset-inline-end: 52px;
    fill: none;
    stroke-linejoin: round;
  }
  .halo {
    stroke: var(--_sheet);
    stroke-width: 4;
  }
  .pin {
    stroke: var(--_ink);
    stroke-width: 1.5;
  }
  :host(:dir(rtl)) .leads,
  :host(:dir(rtl)) .pins {
    transform: scaleX(-1);
  }
  .peg {
    position: absolute;
    inset-block-start: var(--_y);
    inset-inline-end: 0;
    inline-size: 108px;
    block-size: 44px;
    transform: translateY(-50%);
    display: flex;
    align-items: center;
    justify-content: flex-end;
    cursor: ns-resize;
    touch-action: none;
    user-select: none;
    -webkit-user-select: none;
    outline: none;
  }
  .knob {
    display: grid;
    place-items: center;
    inline-size: max(52px, 2.1em);
    block-size: max(30px, 1.6em);
    border: 1.5px solid var(--_ink);
    border-radius: 4px 15px 15px 4px;
    background: var(--_sheet);
    font-weight: 600;
    line-height: 1;
  }
  :host(:dir(rtl)) .knob {
    border-radius: 15px 4px 4px 15px;
  }
  .peg:hover .knob {
    background: var(--_press);
  }
  .peg.held .knob {
    background: var(--_ink);
    color: var(--_sheet);
  }
  .peg:focus-visible .knob {
    outline: 2px solid var(--_ink);
    outline-offset: 2px;
  }
  .card {
    display: grid;
    align-content: start;
    gap: 8px;
    min-block-size: 104px;
    margin-block-start: 8px;
    padding-block-start: 12px;
    border-block-start: 1px solid var(--_line);
  }
  .card p {
    min-block-size: 3em;
    color: var(--_ink-soft);
    font-size: 0.875rem;
  }

  .card p + p {
    min-block-size: 0;
  }

  /* Ways of looking */
  .ways {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 8px 24px;
  }
  .look {
    display: grid;
    grid-template-columns: 1fr auto;
    column-gap: 8px;
    align-items: baseline;
  }
  .look label {
    font-weight: 600;
  }
  .look output {
    color: var(--_ink-soft);
    font-size: 0.875rem;
  }
  .look input {
    grid-column: 1 / -1;
    inline-size: 100%;
    margin: 0;
  }
  .tool-bar {
    margin-block-start: 8px;
  }
  .ways p {
    grid-column: 1 / -1;
    min-block-size: 1.5em;
  }
  .foot {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    padding-block-start: 12px;
    border-block-start: 1px solid var(--_line);
  }
  .end {
    margin-inline-start: auto;
  }
  /* Large text on a small screen: names end before the dabs, more of them is seen, and puddles leave them room. */
  @container (inline-size < 9em) {
    .row {
      grid-template-columns: minmax(0, 1fr) 28px;
    }
    .name input,
    .paper-name {
      font-size: min(1em, 9cqi);
      overflow: hidden;
    }
    .puddle svg {
      inset-block-start: -2px;
      inline-size: 56px;
      block-size: 56px;
    }
  }
  @container (40em <= inline-size < 48em) {
    .ladder {
      display: grid;
      grid-template-columns: 23em minmax(0, 1fr);
      gap: 32px;
      max-inline-size: none;
    }
    .card {
      margin: 0;
      padding: 0;
      border: 0;
      align-content: center;
    }
  }
  @container (32em <= inline-size < 48em) {
    .ways {
      grid-template-columns: 1fr 1fr;
    }
  }
  @container (inline-size >= 48em) {
    /* Beside the picture: what they do is seen while they are moved. */
    .laddered .ways {
      grid-column: 2;
      grid-row: 2;
      align-content: start;
    }
    .laddered .foot {
      grid-column: 1 / -1;
    }
  }
  @container (inline-size < 72em) {
    .doings {
      order: 1;
      inline-size: 100%;
    }
  }
  /* On a phone the buttons flow on, and the tools stand in two columns. */
  @container (inline-size < 28em) {
    .doings {
      display: contents;
    }
    .sheet > .bar {
      justify-content: start;
    }
    .tool-bar {
      display: grid;
      /* Two columns on a phone, one with large text. */
      grid-template-columns: repeat(auto-fill, minmax(min(100%, 8.5em), 1fr));
    }
    .tool-bar > button {
      justify-content: start;
      padding-inline: 8px;
      text-align: start;
    }
  }
  button[aria-expanded='true'] {
    background: var(--_press);
  }
  @media (forced-colors: active) {
    .knob,
    .stage {
      border-color: CanvasText;
    }
    .halo {
      stroke: Canvas;
    }
    .pin,
    .leads {
      stroke: CanvasText;
    }
    .peg.held .knob {
      background: Highlight;
      color: HighlightText;
    }
  }
  /* Small fields of a colour, in tracings and tools. */
  .dab {
    flex: none;
    inline-size: 20px;
    block-size: 20px;
    border: 1px solid var(--_edge);
    vertical-align: -5px;
    forced-color-adjust: none;
  }
  .dab-none {
    stroke: var(--_edge);
  }
  .dabs {
    display: inline-flex;
    margin-inline-end: 8px;
  }
  .dabs > .dab + .dab {
    margin-inline-start: -1px;
  }
  /* On paper the picture and its ladder; nothing to press. */
  @media print {
    .sheet > .bar,
    .tool-bar,
    .told,
    .ways,
    .foot,
    .grip {
      display: none;
    }
  }
`;
