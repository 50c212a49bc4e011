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
  .sheet {
    min-inline-size: 0;
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
  }
  .stage.coming {
    --_ratio: var(--tonewell-picture-ratio, 1.5) !important;
  }
  .stage.waiting {
    inline-size: 100%;
    aspect-ratio: auto;
  }
  /* The room of what an empty one shows. */
  .stage.vacant {
    min-block-size: 264px;
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
  }
  @container (inline-size < 32em) {
    .mount {
      padding: var(--tonewell-mount, 8px);
    }
  }
`;
