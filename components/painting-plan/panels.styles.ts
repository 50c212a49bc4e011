import { css } from 'lit';

/** Looks of what the panels hold. */
export const panelStyles = css`
  .row {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px 16px;
  }
  .button.file {
    position: relative;
  }
  .button:focus-within {
    outline: 2px solid var(--_ink);
    outline-offset: 2px;
  }
  .plans,
  .photos,
  .markings {
    margin: 16px 0;
    padding: 0;
    list-style: none;
  }
  .plans {
    display: grid;
    gap: 8px;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 20rem), 1fr));
  }
  .plan {
    display: flex;
    flex-direction: column;
    min-inline-size: 0;
    border: 1px solid var(--_line);
    border-radius: var(--_radius);
  }
  .plan.gone {
    flex-flow: row wrap;
    align-items: center;
    justify-content: space-between;
    gap: 8px 16px;
    padding: 12px;
    border-style: dashed;
  }
  .face {
    flex: 1;
    justify-content: flex-start;
    gap: 12px;
    padding: 8px;
    border: 0;
    text-align: start;
  }
  .picture {
    display: grid;
    flex: none;
    place-items: center;
    inline-size: 72px;
    block-size: 72px;
    border: 1px solid var(--_line);
    background: var(--_paper);
  }
  canvas {
    display: block;
    max-inline-size: 100%;
    max-block-size: 70px;
  }
  .names {
    display: flex;
    flex-direction: column;
    align-items: flex-start;
    gap: 2px;
    min-inline-size: 0;
    overflow-wrap: anywhere;
  }
  .names .name {
    font-weight: 600;
  }
  .mark {
    padding: 0 6px;
    border: 1px solid var(--_edge);
    border-radius: var(--_radius);
  }
  .acts {
    display: flex;
    flex-wrap: wrap;
    border-block-start: 1px solid var(--_line);
  }
  .choice {
    display: inline-flex;
    align-items: center;
    gap: 8px;
    min-block-size: var(--_target);
  }
  .choice + p {
    margin-block-start: 0;
  }
  .photos {
    display: grid;
    align-items: start;
    gap: 8px;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 26rem), 1fr));
  }
  .photo {
    display: flex;
    flex-wrap: wrap;
    align-items: flex-start;
    align-content: flex-start;
    gap: 8px 12px;
    min-inline-size: 0;
    padding: 8px;
    border: 1px solid var(--_line);
    border-radius: var(--_radius);
  }
  .photo .names {
    flex: 1 1 11rem;
    gap: 4px;
  }
  .photo .mark {
    margin-inline-end: 4px;
  }
  .photo .note {
    inline-size: 100%;
  }
  .plate {
    position: relative;
    flex: none;
    max-inline-size: 100%;
    outline: 1px solid var(--_line);
    cursor: crosshair;
    touch-action: none;
    user-select: none;
  }
  .plate canvas {
    inline-size: 100%;
    block-size: 100%;
    max-block-size: none;
  }
  .rings {
    position: absolute;
    inset: 0;
    inline-size: 100%;
    block-size: 100%;
    overflow: hidden;
    pointer-events: none;
  }
  /* Light on dark in either scheme: the photo below has any tone. */
  .rings circle {
    fill: none;
    vector-effect: non-scaling-stroke;
  }
  .rings .under {
    stroke: #1c1c1c;
    stroke-width: 3.5px;
  }
  .rings .over {
    stroke: #ffffff;
    stroke-width: 1.5px;
  }
  .rings .chosen .under {
    stroke-width: 6px;
  }
  .rings .chosen .over {
    stroke-width: 3px;
  }
  .rings text {
    fill: #ffffff;
    stroke: #1c1c1c;
    stroke-width: 3.5px;
    stroke-linejoin: round;
    paint-order: stroke;
    font-size: 14px;
    font-weight: 600;
  }
  .borrowed {
    flex: 1 1 100%;
    min-inline-size: 0;
    padding-block-start: 8px;
    border-block-start: 1px solid var(--_line);
  }
  .borrowed h4,
  .borrowed p {
    margin: 0 0 4px;
  }
  .details {
    margin: 8px 0;
    padding: 0;
    list-style: none;
  }
  .detail,
  .more {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 4px 8px;
  }
  .delete {
    margin-inline-start: auto;
  }
  .detail + .detail {
    margin-block-start: 8px;
  }
  .place {
    display: inline-flex;
    align-items: center;
    gap: 6px;
    min-block-size: var(--_target);
    padding: 4px 8px;
    border: 1px solid var(--_line);
    border-radius: var(--_radius);
    cursor: pointer;
  }
  .place.chosen {
    border-color: var(--_ink);
    box-shadow: inset 0 0 0 1px var(--_ink);
  }
  .number {
    min-inline-size: 1.5rem;
    text-align: center;
  }
  .fields {
    display: grid;
    gap: 8px 24px;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 16rem), 1fr));
  }
  .field {
    display: flex;
    flex-direction: column;
    gap: 4px;
    min-inline-size: 0;
  }
  .field input,
  .field select {
    inline-size: 100%;
    min-inline-size: 0;
  }
  .pair {
    display: flex;
    align-items: center;
    gap: 8px;
  }
  h4 {
    margin: 16px 0 4px;
    font-size: 0.9375rem;
    font-weight: 600;
  }
  .markings {
    margin: 0 0 8px;
  }
  .marking {
    display: flex;
    align-items: center;
    gap: 8px;
    min-block-size: var(--_target);
  }
  .marking .choice {
    flex: 1;
    min-inline-size: 0;
    overflow-wrap: anywhere;
  }
  .wide {
    flex: 1 1 12rem;
    min-inline-size: 0;
  }
`;
