import { css } from 'lit';

export const styles = css`
  :host(:focus) {
    outline: none;
  }
  .top {
    container-type: inline-size;
    padding-block: 8px;
  }
  .top.over {
    outline: 2px dashed var(--_edge);
    outline-offset: 2px;
  }
  .bar {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px 16px;
  }
  .title {
    flex: 1 1 14rem;
    min-inline-size: 0;
    border-color: transparent;
    background: transparent;
    font-size: 1.125rem;
    text-overflow: ellipsis;
  }
  .title:hover,
  .title:focus {
    border-color: var(--_edge);
    background: var(--_sheet);
  }
  .standing {
    display: flex;
    flex: 0 1 auto;
    align-items: center;
    justify-content: flex-end;
    gap: 8px 16px;
    min-inline-size: 0;
  }
  .steps {
    display: flex;
    flex: none;
    gap: 8px;
  }
  /* Text at 200 % on a phone. */
  @container (inline-size < 16rem) {
    .standing {
      flex-wrap: wrap;
      justify-content: flex-start;
    }
  }
  .what {
    display: none;
    max-inline-size: 14rem;
    overflow: hidden;
    text-overflow: ellipsis;
    white-space: nowrap;
  }
  .tabs {
    display: flex;
    flex-wrap: wrap;
    gap: 0 4px;
    margin-inline-start: -4px;
  }
  .tab {
    padding-inline: 8px;
    color: var(--_ink-soft);
  }
  .tab:hover,
  .tab[aria-expanded='true'] {
    color: var(--_ink);
  }
  .tab[aria-expanded='true'] span {
    text-decoration: underline;
    text-underline-offset: 5px;
  }
  .panel {
    margin-block-start: 8px;
    padding: 8px 16px 16px;
    border: 1px solid var(--_line);
    border-radius: var(--_radius);
    background: var(--_sheet);
  }
  .head {
    flex-wrap: wrap;
    display: flex;
    align-items: center;
    justify-content: space-between;
    gap: 16px;
    margin-block-end: 8px;
  }
  .head button {
    margin-inline-end: -12px;
  }
  h3 {
    margin: 0;
    font-size: 1rem;
    font-weight: 600;
  }
  p {
    max-inline-size: 44rem;
    margin: 8px 0;
  }
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
  .trouble {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px 16px;
    margin-block-end: 8px;
    padding: 8px 12px;
    border: 1px solid var(--_edge);
    border-radius: var(--_radius);
    background: var(--_sheet);
  }
  .trouble > span,
  .trouble > .as-text,
  .trouble > div {
    flex: 1 1 20rem;
    min-inline-size: 0;
    overflow-wrap: anywhere;
  }
  .trouble p {
    margin: 0;
  }
  .as-text {
    display: grid;
    gap: 4px;
  }
  .trouble ul {
    margin: 4px 0 0;
    padding-inline-start: 20px;
  }
  @container (min-width: 60rem) {
    .what {
      display: inline;
    }
    .act.brief {
      display: none;
    }
  }
  @container (max-width: 40rem) {
    .title {
      flex-basis: 100%;
    }
    .standing {
      flex: 1 1 100%;
      /* Long words for undo and redo go below. */
      flex-wrap: wrap;
      justify-content: space-between;
    }
    .standing > span:first-child {
      flex: 1 1 5.5rem;
      padding-inline-start: 8px;
    }
    .tabs {
      display: grid;
      grid-template-columns: repeat(auto-fit, minmax(4.5rem, 1fr));
      margin-block-start: 4px;
    }
    .tab {
      flex-direction: column;
      gap: 2px;
      padding-inline: 2px;
      font-size: 0.8125rem;
    }
    .panel {
      padding-inline: 8px;
    }
    .head button {
      margin-inline-end: -8px;
    }
  }
`;
