import { css, unsafeCSS } from 'lit';
import { controls } from '../shared/controls.styles.js';

/** Width from which so many buckets stand side by side; below it they lie one under the other. */
const side = (bands: number): number => bands * 196 + (bands - 1) * 68;

const sideBySide = unsafeCSS(
  [2, 3, 4, 5, 6, 7, 8, 9]
    .map(
      (bands) => `
  @container all (min-width: ${side(bands) / 16}rem) {
    .of-${bands} { flex-direction: row; }
    .of-${bands} > .bucket { flex: 1 1 0; }
    .of-${bands} > .gap { flex: 0 0 68px; flex-direction: column; padding-block-start: 88px; padding-inline: 0; }
  }`,
    )
    .join(''),
);

const looks = css`
  :host {
    --_quiet: light-dark(#444444, #bdbdbd);
    --_rule: light-dark(#a9a9a9, #565656);
    /* The ground is painted too: a page may be white while the reader's scheme is dark. */
    background: var(--_paper);
    box-shadow: 0 0 0 8px var(--_paper);
  }
  .all {
    container: all / inline-size;
    display: grid;
    gap: 16px;
  }
  p {
    margin: 0;
  }
  ul {
    margin: 0;
    padding: 0;
    list-style: none;
  }
  ::slotted([slot='caption']) {
    margin: 0;
  }
  .head {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    align-items: center;
  }
  .head .sum {
    flex: 1 1 14em;
    text-align: end;
    color: var(--_ink-soft);
  }
  @container all (max-width: 560px) {
    .head .sum {
      flex-basis: 100%;
      text-align: start;
    }
  }
  .trouble {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    justify-content: space-between;
    gap: 8px 16px;
    padding: 8px 16px;
    border: 1px solid var(--_edge);
    border-inline-start-width: 4px;
    background: var(--_sheet);
    overflow-wrap: anywhere;
  }
  .trouble > span {
    flex: 1 1 16em;
  }

  /* buckets */
  .board {
    display: flex;
    flex-direction: column;
    align-items: stretch;
  }
  .bucket {
    display: flex;
    flex-direction: column;
    min-inline-size: 0;
  }
  .title {
    display: grid;
    grid-template-columns: minmax(0, 1fr) auto;
    align-items: end;
    column-gap: 8px;
    min-block-size: 64px;
    padding-block-end: 8px;
  }
  .title > .tool {
    margin-inline-end: -8px;
    align-self: center;
  }
  .band {
    display: block;
    font-size: 1.125rem;
    font-weight: 600;
    line-height: 1.3;
    overflow-wrap: anywhere;
    align-self: center;
  }
  .range {
    grid-column: 1 / -1;
  }
  .range,
  .fixed {
    color: var(--_ink-soft);
    font-size: 0.8125rem;
  }
  .fixed {
    display: inline-flex;
    align-items: center;
    gap: 4px;
    align-self: center;
  }
  .fixed .icon {
    inline-size: 16px;
    block-size: 16px;
  }
  .tool {
    gap: 4px;
    padding: 4px 8px;
    font-size: 0.8125rem;
  }
  .tool .icon {
    inline-size: 16px;
    block-size: 16px;
  }
  .tray {
    flex: 1;
    container: tray / inline-size;
    display: grid;
    grid-template: auto 1fr / 40px minmax(0, 1fr);
    gap: 0 12px;
    min-block-size: 264px;
    padding: 12px;
    border: 1px solid transparent;
    border-radius: var(--_radius);
    background: var(--_surround);
  }
  .tray.target {
    border-color: var(--_ink);
  }
  .whole {
    grid-column: 1 / -1;
    margin-block-end: 16px;
  }
  .lying {
    grid-column: 2;
    display: flex;
    flex-direction: column;
    min-inline-size: 0;
  }

  /* the ladder of greys */
  .rail {
    grid-column: 1;
    display: flex;
    flex-direction: column;
    gap: 4px;
    max-block-size: 560px;
    min-block-size: 216px;
    position: sticky;
    inset-block-start: 16px;
  }
  .rail .end {
    text-align: center;
    font-size: 0.75rem;
    line-height: 1;
    color: var(--_quiet);
  }
  .ladder {
    flex: 1;
    inline-size: 100%;
    min-block-size: 0;
    overflow: visible;
  }
  .ladder .edge {
    stroke: var(--_ink);
    stroke-width: 1;
    stroke-dasharray: 2 3;
  }
  .touch {
    overflow: visible;
  }
  .touch ellipse {
    stroke-width: 1;
    transition:
      rx 120ms,
      ry 120ms;
  }
  .touch .deep {
    stroke: #d8d8d8;
  }
  .touch .pale {
    stroke: #3c3c3c;
  }
  .touch .strong {
    stroke-width: 2;
  }

  /* swatches */
  .card {
    display: grid;
    grid-template-columns: minmax(0, 42%) minmax(0, 1fr);
    gap: 4px 12px;
    align-items: center;
    padding-block: 12px;
    border-block-end: 1px solid var(--_rule);
  }
  .cards:last-child > .card:last-child {
    border: 0;
    padding-block-end: 0;
  }
  /* Cards out of sight are not laid out, where an engine can leave room for focus rings: what is painted within is cut off around them. */
  @media screen {
    @supports (overflow-clip-margin: 16px) {
      .many .card {
        content-visibility: auto;
        contain-intrinsic-block-size: auto 190px;
        overflow-clip-margin: 16px;
      }
    }
  }
  .card:first-child {
    padding-block-start: 0;
  }
  .card > :not(.dab, .said) {
    grid-column: 1 / -1;
  }
  .card > .tool {
    justify-self: start;
    margin-inline-start: -8px;
  }
  .card.dragged {
    opacity: 0.35;
  }
  .dab {
    display: block;
    inline-size: 100%;
    block-size: 76px;
    padding: 0;
    border: 0;
    background: none;
    border-radius: 12px;
    overflow: visible;
  }
  button.dab {
    cursor: grab;
    touch-action: manipulation;
    user-select: none;
    -webkit-user-select: none;
    -webkit-touch-callout: none;
  }
  button.dab:hover:not(:disabled),
  button.dab:active:not(:disabled),
  button.dab[aria-pressed='true'] {
    background: none;
  }
  .dab svg,
  svg.dab {
    display: block;
    inline-size: 100%;
    block-size: 100%;
    overflow: visible;
    pointer-events: none;
  }
  .paint {
    stroke: light-dark(rgb(0 0 0 / 0.28), rgb(255 255 255 / 0.32));
    stroke-width: 1;
    vector-effect: non-scaling-stroke;
  }
  .ladder .paint {
    stroke: light-dark(rgb(0 0 0 / 0.12), rgb(255 255 255 / 0.14));
  }
  .lifted > .dab {
    outline: 2px dashed var(--_ink);
    outline-offset: 4px;
  }
  .said {
    display: flex;
    flex-direction: column;
    align-items: start;
    min-inline-size: 0;
    line-height: 1.35;
  }
  .name {
    font-weight: 600;
    overflow-wrap: anywhere;
    display: -webkit-box;
    -webkit-box-orient: vertical;
    -webkit-line-clamp: 3;
    overflow: hidden;
  }
  .figures {
    color: var(--_quiet);
    font-size: 0.8125rem;
  }
  .margin::before {
    content: ' · ';
  }
  .verdict {
    display: inline-flex;
    align-items: center;
    gap: 6px;
  }
  .verdict.judging {
    color: var(--_quiet);
  }
  .verdict b {
    font-weight: 400;
  }
  .verdict.too-dark b,
  .verdict.too-light b {
    font-weight: 600;
    text-decoration: underline;
    text-decoration-thickness: 1px;
    text-underline-offset: 3px;
  }
  .mark {
    flex: none;
    inline-size: 22px;
    block-size: 22px;
    margin-inline-start: -2px;
    fill: none;
    stroke: currentColor;
    stroke-width: 1.4;
    stroke-linecap: round;
    stroke-linejoin: round;
  }
  .mark .full {
    fill: currentColor;
  }
  .mark .broken {
    stroke-dasharray: 1.6 2;
  }
  .why {
    font-size: 0.8125rem;
    line-height: 1.45;
    color: var(--_quiet);
  }
  .note {
    padding-inline-start: 8px;
    border-inline-start: 2px solid var(--_rule);
    font-size: 0.8125rem;
    white-space: pre-line;
    overflow-wrap: anywhere;
  }
  .recipe {
    font-size: 0.8125rem;
    overflow-wrap: anywhere;
  }
  .completing progress {
    inline-size: 100%;
    accent-color: var(--_ink);
  }
  .missing {
    display: grid;
    gap: 8px;
  }
  .missing li {
    display: grid;
    grid-template-columns: 56px minmax(0, 1fr);
    gap: 4px 8px;
    align-items: center;
    font-size: 0.8125rem;
    overflow-wrap: anywhere;
  }
  .missing .dab {
    inline-size: 56px;
    block-size: 36px;
  }
  /* The lean beside its dab, the recipe below both: a column may be narrow. */
  .missing .said {
    display: contents;
  }
  .missing .said > span {
    grid-column: 1 / -1;
  }
  .missing b::first-letter {
    text-transform: uppercase;
  }
  .missing button {
    grid-column: 1 / -1;
    justify-self: start;
  }
  .here {
    block-size: 0;
    margin-block: -1px;
    border-block-start: 2px solid var(--_ink);
  }
  .lesson {
    display: grid;
    gap: 4px;
    max-inline-size: 44rem;
  }
  .lesson-title {
    font-weight: 600;
  }
  .lesson-title span {
    margin-inline-start: 8px;
    font-weight: 400;
    color: var(--_ink-soft);
  }
  .task {
    white-space: pre-line;
    overflow-wrap: anywhere;
  }
  .lack {
    margin-block-start: 12px;
    font-size: 0.8125rem;
    color: var(--_quiet);
  }
  .lack + .lack {
    margin-block-start: 4px;
  }
  .add {
    align-self: start;
    margin-block-start: 8px;
    margin-inline-start: -12px;
    text-align: start;
  }
  .empty {
    display: grid;
    gap: 8px;
    font-size: 0.875rem;
    color: var(--_quiet);
  }
  .outline {
    inline-size: 96px;
    block-size: 60px;
    overflow: visible;
  }
  .outline .paint,
  .mixing .paint[fill='none'] {
    stroke: var(--_quiet);
    stroke-dasharray: 3 4;
  }
  .tray button.quiet:hover:not(:disabled) {
    background: light-dark(#b9b9b9, #4a4a4a);
  }
  @container tray (min-width: 340px) {
    .card {
      grid-template-columns: 128px minmax(0, 1fr) auto;
    }
    .card > .said {
      grid-column: 2 / -1;
    }
    .card > .why {
      grid-column: 1 / 3;
    }
    .card > .tool {
      grid-area: 2 / 3;
      align-self: end;
      margin-inline: 0 -8px;
    }
  }
  @container all (min-width: 1000px) {
    .tray {
      grid-template-columns: 56px minmax(0, 1fr);
      gap: 0 16px;
      padding: 16px;
    }
  }

  /* small forms */
  .small-form {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 8px;
    padding: 12px;
    border: 1px solid var(--_line);
    border-radius: var(--_radius);
    background: var(--_sheet);
  }
  .small-form label {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 4px;
    font-size: 0.8125rem;
  }
  .small-form label > :is(input, textarea, select):not([type='checkbox'], [type='color']) {
    inline-size: 100%;
    font-size: 0.9375rem;
  }
  .small-form textarea {
    resize: vertical;
  }
  .small-form .beside {
    display: flex;
    align-items: center;
    gap: 8px;
    min-block-size: var(--_target);
  }
  .beside input {
    flex: none;
  }
  .small-form input[type='color'] {
    inline-size: 56px;
    padding: 2px;
  }
  .small-form input[type='number'] {
    max-inline-size: 96px;
  }
  .row {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
  }
  .mixing {
    display: flex;
    align-items: center;
    gap: 12px;
    margin: -12px -12px 0;
    padding: 12px;
    background: var(--_surround);
    border-radius: var(--_radius) var(--_radius) 0 0;
  }
  .mixing .dab {
    flex: 0 1 112px;
    block-size: 64px;
  }
  .fault {
    padding-inline-start: 8px;
    border-inline-start: 3px solid var(--_ink);
    font-size: 0.8125rem;
    line-height: 1.4;
    overflow-wrap: anywhere;
  }
  .fault:empty {
    display: none;
  }
  .details {
    font-size: 0.8125rem;
    color: var(--_ink-soft);
  }
  .lying > .small-form {
    margin-block-start: 12px;
  }

  @container tray (max-width: 240px) {
    .card {
      grid-template-columns: minmax(0, 1fr);
    }
    .card > .dab {
      block-size: 64px;
    }
    .small-form {
      padding: 8px;
    }
    .mixing {
      margin: -8px -8px 0;
      padding: 8px;
      flex-wrap: wrap;
    }
    .row button {
      padding-inline: 8px;
      gap: 4px;
    }
    .small-form input[type='color'] {
      inline-size: 40px;
    }
  }

  /* between the buckets */
  .gap {
    display: flex;
    align-items: center;
    gap: 4px 12px;
    min-block-size: 24px;
    padding: 8px 16px;
    font-size: 0.8125rem;
    color: var(--_ink-soft);
    text-align: center;
    line-height: 1.25;
  }
  .gap svg {
    inline-size: 48px;
    block-size: 24px;
    flex: none;
    fill: none;
    stroke: currentColor;
    stroke-width: 1.25;
    stroke-linecap: round;
    stroke-linejoin: round;
  }
  .gap.crossed {
    color: var(--_ink);
    font-weight: 600;
  }
  .pairs {
    display: grid;
    gap: 8px;
    padding: 16px;
    border-radius: var(--_radius);
    background: var(--_surround);
  }
  .pairs .heading {
    font-weight: 600;
  }
  .pairs ul {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 300px), 1fr));
    gap: 8px 24px;
  }
  .pairs li {
    display: flex;
    align-items: center;
    gap: 12px;
    font-size: 0.875rem;
  }
  .pairs li > svg {
    flex: none;
    inline-size: 96px;
    block-size: 44px;
  }

  .opener {
    margin-inline-start: -12px;
  }

  .ghost {
    position: fixed;
    inset: 0 auto auto 0;
    z-index: 10;
    display: grid;
    justify-items: center;
    gap: 4px;
    pointer-events: none;
  }
  .ghost svg.dab {
    inline-size: 120px;
    block-size: 76px;
    filter: drop-shadow(0 3px 6px rgb(0 0 0 / 0.3));
  }
  .ghost span {
    padding: 2px 8px;
    border-radius: var(--_radius);
    background: var(--_ink);
    color: var(--_sheet);
    font-size: 0.8125rem;
  }
  /* What is off is told by its text: the swatches keep their colours. */
  .off :is(.head, .title, .said, .why) {
    opacity: 0.7;
  }
  @media print {
    .head button,
    .tool,
    .opener,
    .add {
      display: none;
    }
    .tray,
    .pairs,
    svg {
      print-color-adjust: exact;
      -webkit-print-color-adjust: exact;
    }
    .card {
      break-inside: avoid;
    }
  }
  @media (forced-colors: active) {
    .paint,
    .touch ellipse {
      forced-color-adjust: none;
    }
    .tray,
    .pairs {
      border: 1px solid CanvasText;
    }
    .tool,
    .add {
      margin-inline: 0 !important;
    }
  }
`;

/** Looks of the table: controls as everywhere, all that is fixed, then what depends on the number of bands, so that the build makes the first small. */
export const boardStyles = [controls, looks, sideBySide];
