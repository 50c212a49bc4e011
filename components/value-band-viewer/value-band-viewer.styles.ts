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
  .stage.coming {
    --_ratio: var(--tonewell-picture-ratio, 1.5) !important;
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
  .mount > .progress {
    position: absolute;
    inset-block-end: 0;
    inset-inline: 0;
    margin: 0;
    border-width: 1px 0 0;
  }
  .trouble {
    border: 1px solid var(--_ink);
    padding-block: 8px;
  }
  .trouble > span {
    flex: 1 1 16rem;
  }
  /* The bar stays where it is while the words before it change. */
  .progress > span {
    flex: 0 1 12em;
  }
  progress {
    flex: 1 1 96px;
    accent-color: var(--_ink);
  }

  .side {
    min-block-size: 512px;
  }
  @container (40em <= inline-size < 48em) {
    .side {
      min-block-size: 376px;
    }
  }
  @container (inline-size >= 48em) {
    .desk.laddered {
      grid-template-columns: minmax(0, 1fr) 23em;
      grid-template-rows: auto 1fr auto;
      column-gap: 32px;
    }
    .laddered .sheet {
      grid-column: 1;
      grid-row: 1 / span 2;
    }
    .laddered .side {
      grid-column: 2;
      grid-row: 1;
    }
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
  @container (inline-size < 32em) {
    .mount {
      padding: var(--tonewell-mount, 8px);
    }
  }
`;
