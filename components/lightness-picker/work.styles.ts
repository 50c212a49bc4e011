import { css } from 'lit';
import { disclosure } from '../shared/disclosure.styles.js';
import { ladderStyles } from '../shared/ladder.js';

/** Looks of the work with a photo: the card on it, the reading, the list. */
const work = css`
  .work {
    display: grid;
    grid-template: 'stage' 'panel' 'tools' 'below' / minmax(0, 1fr);
    gap: 16px 24px;
    min-inline-size: 0;
  }
  .mat {
    grid-area: stage;
  }
  .panel {
    grid-area: panel;
  }
  .tools {
    grid-area: tools;
  }
  .below {
    grid-area: below;
  }
  @container (min-width: 640px) {
    .work {
      grid-template:
        'stage panel' auto
        'tools panel' 1fr
        'below below' auto / minmax(0, 1fr) minmax(280px, 336px);
      align-items: start;
    }
  }
  @container (min-width: 1120px) {
    .work {
      grid-template:
        'stage panel below' auto
        'tools panel below' 1fr / minmax(0, 1fr) 320px minmax(300px, 344px);
    }
  }

  /* The photo and the card on it. Places are physical: a photo does not turn with the direction of writing. */
  .mat {
    display: grid;
    justify-items: center;
    padding: 8px;
    background: var(--_surround);
  }
  .stage {
    position: relative;
    inline-size: min(100%, calc(var(--_stage-height) * var(--_aspect, 1)));
    aspect-ratio: var(--_aspect, 1);
    overflow: clip;
    direction: ltr;
    touch-action: manipulation;
    user-select: none;
    -webkit-user-select: none;
    -webkit-touch-callout: none;
    cursor: crosshair;
  }
  .photo {
    position: absolute;
    inset: 0;
    inline-size: 100%;
    block-size: 100%;
  }
  .card {
    position: absolute;
    left: 0;
    top: 0;
    inline-size: var(--_side);
    block-size: var(--_side);
    touch-action: none;
    cursor: grab;
    box-shadow: 0 1px 3px rgb(0 0 0 / 0.4);
    will-change: transform;
  }
  .card.turned {
    pointer-events: none;
    box-shadow: none;
  }
  .card:active {
    cursor: grabbing;
  }
  .card > canvas {
    position: absolute;
    inset: 0;
    inline-size: 100%;
    block-size: 100%;
    pointer-events: none;
  }
  .hole {
    position: absolute;
    left: 50%;
    top: 50%;
    inline-size: max(32px, var(--_hole));
    block-size: max(32px, var(--_hole));
    border-radius: 50%;
    transform: translate(-50%, -50%);
    pointer-events: auto;
    touch-action: none;
    cursor: inherit;
  }
  @media (pointer: coarse) {
    .hole {
      inline-size: max(44px, var(--_hole));
      block-size: max(44px, var(--_hole));
    }
  }
  /* What tells the focus stands at the card's edge, so that nothing but grey lies beside the spot. */
  .hole:focus-visible {
    outline: none;
  }
  .card:has(.hole:focus-visible) {
    outline: 2px solid #fff;
    box-shadow: 0 0 0 5px #111;
  }
  .card.turned:has(.hole:focus-visible) {
    outline: none;
    box-shadow: none;
  }
  .card.turned .hole:focus-visible {
    outline: 2px solid #fff;
    outline-offset: 2px;
    box-shadow:
      0 0 0 2px #111,
      0 0 0 6px #111;
  }
  .loupe {
    position: absolute;
    top: 8px;
    inline-size: 128px;
    block-size: 128px;
    border: 1px solid #111;
    outline: 1px solid #fff;
    pointer-events: none;
  }
  .loupe.left {
    left: 8px;
  }
  .loupe.right {
    right: 8px;
  }
  .frame.over .stage::after {
    content: '';
    position: absolute;
    inset: 0;
    outline: 2px dashed #fff;
    outline-offset: -8px;
    box-shadow: inset 0 0 0 12px rgb(0 0 0 / 0.4);
    pointer-events: none;
  }
  .locked .stage,
  .locked .card {
    cursor: default;
  }

  /* What can be set about hole and card. */
  .tools {
    display: flex;
    flex-wrap: wrap;
    gap: 12px 24px;
    align-items: end;
  }
  .setting {
    display: grid;
    gap: 4px;
    min-inline-size: 0;
  }
  .setting > .label {
    font-size: 0.8125rem;
    color: var(--_ink-soft);
  }
  .size {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px;
  }
  .size input[type='range'] {
    inline-size: clamp(96px, 24cqi, 160px);
  }
  .size input[type='number'] {
    inline-size: 9ch;
  }
  .card-choice {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
  }
  .segments button {
    gap: 6px;
    padding: 4px 7px;
  }
  @container (max-width: 380px) {
    .segments .grey {
      display: none;
    }
  }
  .tools > .hint,
  .tools > .bring {
    flex-basis: 100%;
  }
  .grey {
    flex: none;
    inline-size: 16px;
    block-size: 16px;
    border: 1px solid var(--_edge);
    background: var(--_grey);
    forced-color-adjust: none;
  }

  /* The reading. */
  .panel {
    display: grid;
    gap: 16px;
    min-inline-size: 0;
  }
  .seen {
    display: grid;
    grid-template-columns: 120px minmax(0, 1fr);
    gap: 16px;
    align-items: center;
  }
  .spot {
    inline-size: 120px;
    block-size: 120px;
    border: 1px solid var(--_line);
    forced-color-adjust: none;
  }
  .word {
    font-size: 0.8125rem;
    color: var(--_ink-soft);
  }
  .value {
    font-size: min(3.5rem, 22cqi);
    font-weight: 300;
    line-height: 1;
    letter-spacing: -0.02em;
  }
  .value.unread {
    color: var(--_ink-soft);
  }
  .band {
    font-size: 1.0625rem;
    overflow-wrap: anywhere;
  }
  .ladder {
    display: grid;
    min-inline-size: 0;
  }
  .dab,
  button.dab {
    display: block;
    min-inline-size: 0;
    min-block-size: 0;
    block-size: 32px;
    padding: 0;
    border: 0;
    border-radius: 0;
    background: var(--_grey);
  }
  button.dab {
    block-size: max(40px, var(--_target));
  }
  button.dab:hover:not(:disabled),
  button.dab:active:not(:disabled),
  button.dab[aria-pressed='true'] {
    background: var(--_grey);
  }
  button.dab:hover:not(:disabled) {
    outline: 1px solid var(--_ink);
    outline-offset: 0;
    z-index: 1;
  }
  button.dab:focus-visible {
    outline: 2px solid var(--_ink);
    outline-offset: 2px;
    z-index: 1;
  }
  .spans {
    block-size: 24px;
  }
  .remarks {
    display: grid;
    gap: 8px;
    margin: 0;
    padding: 0;
    list-style: none;
  }
  .remarks li {
    padding-inline-start: 12px;
    border-inline-start: 3px solid var(--_edge);
  }
  /* The slider's thumb (16 px) stands under the middle of the dab that it means. */
  .ladder input {
    --_in: calc(100% / 22 - 8px);
    inline-size: calc(100% - 2 * var(--_in));
    min-block-size: 32px;
    margin-block: 4px;
    margin-inline: var(--_in);
  }
  .acts {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
  }
  dl {
    display: grid;
    grid-template-columns: fit-content(45%) minmax(min-content, 1fr);
    gap: 4px 16px;
    margin: 0;
  }
  dt {
    overflow-wrap: anywhere;
    color: var(--_ink-soft);
  }
  dd {
    margin: 0;
    display: flex;
    flex-wrap: wrap;
    gap: 0 8px;
    align-items: center;
  }
  .panel > .acts > button {
    flex: 1 1 auto;
  }
  .done {
    display: flex;
    flex-wrap: wrap;
    gap: 0 8px;
    align-items: center;
    justify-content: space-between;
    color: var(--_ink-soft);
  }
  .check {
    display: grid;
    grid-template-columns: auto minmax(0, 1fr);
    gap: 8px;
    min-block-size: var(--_target);
    padding-block-start: 12px;
    border-block-start: 1px solid var(--_line);
  }
  .check input {
    margin-block-start: 2px;
  }
  .check .hint {
    display: block;
  }

  /* Kept readings and what guesses tell. */
  .below {
    display: grid;
    gap: 24px;
    padding-block-start: 16px;
    border-block-start: 1px solid var(--_line);
  }
  @container (min-width: 1120px) {
    .below {
      padding-block-start: 0;
      border-block-start: 0;
    }
  }
  .readings,
  .training {
    display: grid;
    gap: 8px;
    min-inline-size: 0;
    justify-items: start;
    align-content: start;
    container-type: inline-size;
  }
  ol {
    inline-size: 100%;
    margin: 0;
    padding: 0;
    list-style: none;
    border-block-start: 1px solid var(--_line);
  }
  .reading {
    display: grid;
    grid-template-columns: 40px minmax(0, 1fr);
    gap: 4px 12px;
    align-items: center;
    padding-block: 8px;
    border-block-end: 1px solid var(--_line);
  }
  .spot-dab {
    inline-size: 40px;
    block-size: 40px;
    border: 10px solid #777;
    background: var(--_c);
    forced-color-adjust: none;
  }
  dd .spot-dab {
    inline-size: 24px;
    block-size: 24px;
    border-width: 6px;
  }
  .facts {
    display: flex;
    flex-wrap: wrap;
    gap: 0 10px;
    align-items: baseline;
  }
  .figure {
    font-size: 1.25rem;
    font-weight: 400;
  }
  .reading .note,
  .reading .acts {
    grid-column: 1 / -1;
    min-inline-size: 0;
  }
  .reading .note {
    inline-size: 100%;
  }
  .reading .acts {
    gap: 0;
    margin-inline-start: -8px;
  }
  .reading .acts button {
    padding-inline: 8px;
  }
  .training > button {
    margin-inline-start: -12px;
  }
  @container (min-width: 600px) {
    .reading {
      grid-template-columns: 40px minmax(128px, 200px) minmax(0, 1fr) auto;
    }
    .reading .note,
    .reading .acts {
      grid-column: auto;
    }
  }
  table {
    border-collapse: collapse;
  }
  th,
  td {
    padding-block: 6px;
    padding-inline: 0 24px;
    border-block-end: 1px solid var(--_line);
    font-weight: 400;
    text-align: start;
  }
  thead th {
    color: var(--_ink-soft);
    font-size: 0.8125rem;
  }
  .number {
    text-align: end;
    padding-inline-end: 0;
  }

  .tools .bring {
    justify-content: start;
  }
  @media (forced-colors: active) {
    .reading .acts {
      gap: 4px;
    }
    .reading .acts,
    .training > button {
      margin-inline-start: 0;
    }
  }
`;

export const workStyles = [disclosure, ladderStyles, work];
