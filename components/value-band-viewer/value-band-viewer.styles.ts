import { css } from 'lit';

export const viewerStyles = css`
  :host {
    container-type: inline-size;
    --_gap: 16px;
  }
  figure {
    margin: 0;
  }
  figcaption ::slotted(*) {
    margin-block: 8px 0;
  }
  .desk {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: var(--_gap);
  }
  .sheet,
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
  p {
    margin: 0;
  }

  /* The picture on its mount */
  .mount {
    position: relative;
    padding: var(--tonewell-mount, 12px);
    background: var(--_surround);
  }
  .bare .mount {
    padding: 0;
    background: none;
  }
  .stage {
    position: relative;
    overflow: hidden;
    inline-size: min(100%, var(--_high) * var(--_ratio));
    --_high: var(--tonewell-picture-height, 76svh);
    aspect-ratio: var(--_ratio);
    margin-inline: auto;
    touch-action: pan-x pan-y;
    user-select: none;
    -webkit-user-select: none;
    outline-offset: 3px;
  }
  .stage.waiting {
    inline-size: 100%;
    aspect-ratio: auto;
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
  .layer {
    position: absolute;
    inset: 0;
    overflow: hidden;
  }
  canvas {
    display: block;
    inline-size: 100%;
    block-size: 100%;
    object-fit: contain;
    image-rendering: auto;
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
  slot:not([name]) {
    display: block;
  }
  slot[hidden] {
    display: none;
  }
  ::slotted(img) {
    display: block;
    inline-size: 100%;
    block-size: auto;
    max-block-size: var(--_high);
    object-fit: contain;
  }

  /* Nothing yet */
  .empty {
    display: flex;
    flex-direction: column;
    align-items: center;
    justify-content: center;
    gap: 16px;
    min-block-size: 264px;
    padding: 24px 16px;
    border: 1px dashed var(--_edge);
    background: var(--_sheet);
    text-align: center;
    text-wrap: balance;
  }
  .empty strong {
    display: block;
    font-size: 1.0625rem;
    font-weight: 600;
  }
  .empty .group {
    justify-content: center;
  }
  .over .empty {
    border-style: solid;
    background: var(--_press);
  }
  .dropping {
    position: absolute;
    inset: 0;
    display: grid;
    place-items: center;
    border: 2px solid var(--_ink);
    background: color-mix(in srgb, var(--_sheet) 86%, transparent);
    font-weight: 600;
    pointer-events: none;
  }
  .progress,
  .trouble {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px 12px;
    margin-block-start: 8px;
    padding: 4px 12px;
    border: 1px solid var(--_line);
    background: var(--_sheet);
  }
  .trouble {
    border: 1px solid var(--_ink);
    padding-block: 8px;
  }
  .trouble > span {
    flex: 1 1 16rem;
  }
  progress {
    flex: 1 1 96px;
    accent-color: var(--_ink);
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
    max-inline-size: 344px;
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
    grid-template-columns: minmax(0, 1fr) 100px;
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
    line-height: 26px;
  }
  .name input:hover:not(:read-only) {
    border-color: var(--_line);
  }
  .name input:focus {
    border-color: var(--_edge);
    background: var(--_sheet);
  }
  .share {
    min-block-size: 20px;
    line-height: 20px;
    font-size: 0.8125rem;
    color: var(--_ink-soft);
  }
  button.puddle {
    position: relative;
    inline-size: 100px;
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
    inset-inline-start: 0;
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
    inline-size: 52px;
    block-size: 30px;
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

  /* Ways of looking */
  .ways {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(100%, 232px), 1fr));
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
  .ways p {
    grid-column: 1 / -1;
  }
  .foot {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    padding-block-start: 12px;
    border-block-start: 1px solid var(--_line);
  }
  .foot:empty {
    display: none;
  }
  .end {
    margin-inline-start: auto;
  }
  button[aria-expanded='true'] {
    background: var(--_press);
  }

  @container (inline-size >= 720px) {
    .desk.laddered {
      grid-template-columns: minmax(0, 1fr) 320px;
      grid-template-rows: auto 1fr auto;
      column-gap: 32px;
    }
    .laddered .sheet {
      grid-column: 1;
      grid-row: 1;
    }
    .laddered .side {
      grid-column: 2;
      grid-row: 1 / span 2;
    }
    .laddered .ways {
      grid-column: 1;
      grid-row: 2;
      align-content: start;
    }
    .laddered .foot {
      grid-column: 1 / -1;
    }
  }
  @container (inline-size < 480px) {
    .mount {
      padding: var(--tonewell-mount, 8px);
    }
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
`;
