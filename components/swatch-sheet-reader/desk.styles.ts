import { css } from 'lit';
import { disclosure } from '../shared/disclosure.styles.js';
import { fields } from '../shared/fields.styles.js';

const desk = css`
  h3,
  h4,
  p,
  ul,
  ol {
    margin: 0;
    padding: 0;
  }
  h3 {
    font-size: 1rem;
    font-weight: 600;
  }
  h4 {
    font-size: 0.8125rem;
    font-weight: 600;
  }
  .desk ul,
  .desk ol {
    list-style: none;
  }
  .desk {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 24px;
  }
  .work {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 24px;
    align-items: start;
  }
  .left,
  .right,
  .panels,
  .panel,
  .sheet,
  .list,
  .warnings {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 12px;
    align-content: start;
  }
  .left,
  .right {
    gap: 24px;
  }
  @container (min-width: 840px) {
    .work {
      grid-template-columns: minmax(0, 3fr) minmax(320px, 2fr);
    }
  }
  .bar,
  .hint,
  .acts {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    align-items: center;
  }
  .sheet {
    gap: 8px;
  }
  .bar {
    gap: 0 4px;
  }
  .bar button.quiet[aria-pressed='true'] {
    background: var(--_ink);
    border-color: var(--_ink);
  }
  .spring {
    flex: 1;
  }
  .fault {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 12px;
    align-items: center;
    padding: 8px 12px;
    border: 1px solid var(--_edge);
    border-inline-start-width: 4px;
    background: var(--_sheet);
  }

  /* The photo on neutral grey; places on it do not turn with the reading direction. */
  .mat {
    direction: ltr;
    overflow: hidden;
    padding: 24px;
    background: var(--_surround);
  }
  .mat.near {
    overflow: auto;
    max-block-size: min(80vh, 720px);
  }
  .stage {
    position: relative;
    inline-size: min(100%, calc(70vh * var(--_aspect)));
    min-inline-size: min(100%, 220px);
    margin-inline: auto;
    user-select: none;
    -webkit-user-select: none;
  }
  .near .stage {
    inline-size: 220%;
  }
  .stage.add {
    cursor: crosshair;
    touch-action: none;
  }
  .stage.busy {
    cursor: progress;
  }
  .stage canvas,
  .over {
    position: absolute;
    inset: 0;
    inline-size: 100%;
    block-size: 100%;
  }
  .over {
    overflow: visible;
    pointer-events: none;
    forced-color-adjust: none;
    border: 0;
    background: none;
  }
  .over polygon,
  .over polyline {
    fill: none;
    stroke: #111;
    stroke-width: 1.25;
    vector-effect: non-scaling-stroke;
    stroke-linejoin: round;
  }
  .over .under {
    stroke: #fff;
    stroke-width: 3.5;
    stroke-opacity: 0.85;
  }
  .over .edge {
    stroke-dasharray: 6 5;
  }
  .over .edge.under {
    stroke-dasharray: none;
    stroke-width: 3;
    stroke-opacity: 0.6;
  }
  .over .picked {
    stroke-width: 3;
  }
  .over .picked.under {
    stroke-width: 6.5;
    stroke-opacity: 1;
  }
  .over .cut {
    stroke-width: 2;
  }
  .over .cut.under {
    stroke-width: 5;
  }
  .label {
    position: absolute;
    transform: translate(-4px, -60%);
    padding: 0 4px;
    border-radius: 2px;
    background: #fff;
    color: #111;
    font-size: 0.6875rem;
    line-height: 1.35;
    white-space: nowrap;
    pointer-events: none;
    forced-color-adjust: none;
  }
  .label.picked {
    background: #111;
    color: #fff;
    font-weight: 600;
    z-index: 1;
  }
  .label-value {
    display: none;
  }
  @container (min-width: 560px) {
    .label-value {
      display: inline;
    }
    .label {
      font-size: 0.75rem;
    }
  }
  .near .label-value {
    display: inline;
  }
  .corner,
  .size,
  .box {
    position: absolute;
    min-block-size: 0;
    min-inline-size: 0;
    padding: 0;
    border: 0;
    border-radius: 0;
    background: none;
    touch-action: none;
    cursor: move;
    translate: -50% -50%;
  }
  button.corner:hover:not(:disabled),
  button.size:hover:not(:disabled),
  button.box:hover:not(:disabled),
  button.corner:active:not(:disabled),
  button.size:active:not(:disabled),
  button.box:active:not(:disabled) {
    background: none;
  }
  .corner {
    left: clamp(-22px, var(--_x), calc(100% + 22px));
    top: clamp(-22px, var(--_y), calc(100% + 22px));
    inline-size: var(--_target);
    block-size: var(--_target);
    z-index: 3;
  }
  .corner::before,
  .size::before {
    content: '';
    position: absolute;
    inset: 50%;
    inline-size: 16px;
    block-size: 16px;
    margin: -8px;
    border: 2px solid #111;
    border-radius: 50%;
    background: #fff;
    box-shadow: 0 0 0 1.5px #fff;
    forced-color-adjust: none;
  }
  .corner:focus-visible::before {
    background: #111;
  }
  .size {
    inline-size: var(--_target);
    block-size: var(--_target);
    cursor: nwse-resize;
    z-index: 2;
  }
  .size::before {
    inline-size: 12px;
    block-size: 12px;
    margin: -6px;
    border-radius: 0;
  }
  .box {
    min-inline-size: 24px;
    min-block-size: 24px;
    z-index: 1;
  }
  .box:focus-visible {
    outline: 2px dashed #111;
    outline-offset: 3px;
    box-shadow: 0 0 0 6px #fff9;
  }
  .end::before {
    border-radius: 2px;
    rotate: 45deg;
  }

  .chip {
    flex: none;
    display: inline-block;
    inline-size: 40px;
    block-size: 32px;
    border-radius: 45% 55% 48% 52% / 55% 48% 52% 45%;
    box-shadow: inset 0 0 0 1px light-dark(rgb(0 0 0 / 0.2), rgb(255 255 255 / 0.35));
    forced-color-adjust: none;
  }
  .chip.none {
    border: 1px dashed var(--_edge);
    box-shadow: none;
  }
  .chips {
    display: flex;
    flex-wrap: wrap;
    gap: 4px;
  }
  .chips .chip {
    inline-size: 28px;
    block-size: 24px;
  }
  .number {
    display: inline-block;
    min-inline-size: 1.5em;
    color: var(--_ink-soft);
  }
  .columns {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 160px), 1fr));
    gap: 16px;
  }
  @container (min-width: 840px) {
    .columns {
      grid-template-columns: repeat(auto-fill, minmax(min(100%, 184px), 1fr));
    }
  }
  .column {
    display: grid;
    gap: 4px;
    align-content: start;
    min-inline-size: 0;
  }
  .column ol {
    border-block-start: 1px solid var(--_line);
  }
  .column li {
    border-block-end: 1px solid var(--_line);
  }
  button.row {
    display: flex;
    gap: 8px;
    justify-content: start;
    inline-size: 100%;
    min-block-size: 48px;
    padding: 6px 8px;
    border: 0;
    border-radius: 0;
    background: none;
    text-align: start;
  }
  button.row[aria-pressed='true'] {
    background: var(--_press);
    color: var(--_ink);
    box-shadow: inset 3px 0 0 var(--_ink);
  }
  :host(:dir(rtl)) button.row[aria-pressed='true'] {
    box-shadow: inset -3px 0 0 var(--_ink);
  }
  .row .chip {
    inline-size: 36px;
  }
  .row .what {
    display: grid;
    min-inline-size: 0;
  }
  .row .main {
    display: flex;
    flex-wrap: wrap;
    gap: 0 8px;
  }
  .row .number {
    min-inline-size: 1.25em;
  }
  .notes {
    color: var(--_ink-soft);
  }
  .name {
    overflow-wrap: anywhere;
  }

  .picked:is(section) {
    display: grid;
    gap: 12px;
    padding: 16px;
    border: 1px solid var(--_line);
    border-radius: var(--_radius);
    background: var(--_sheet);
  }
  .head {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 12px;
    align-items: center;
  }
  .head .chip {
    inline-size: 64px;
    block-size: 48px;
  }
  .fields {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 12px;
    align-items: end;
  }
  .field {
    flex: 1 1 136px;
  }
  .field.narrow {
    flex: 0 1 88px;
  }
  .list > .field,
  .panel > .field {
    flex: none;
    justify-items: start;
  }
  .field select,
  .field input {
    inline-size: 100%;
    min-inline-size: 0;
  }
  .panel > .field select {
    inline-size: auto;
    max-inline-size: 100%;
  }
  .recipe,
  .typed {
    display: grid;
    gap: 8px;
  }
  .typed {
    padding-inline-start: 12px;
    border-inline-start: 3px solid var(--_line);
  }
  .acts select {
    max-inline-size: 100%;
  }

  .remarks,
  .plain {
    display: grid;
    gap: 8px;
  }
  .remarks li {
    display: flex;
    gap: 8px;
    align-items: start;
    padding-inline-start: 12px;
    border-inline-start: 3px solid var(--_edge);
    max-inline-size: 68ch;
  }
  .limits summary {
    color: var(--_ink-soft);
  }
  .plain li {
    max-inline-size: 68ch;
    color: var(--_ink-soft);
  }

  .panels {
    gap: 16px;
    padding-block-start: 24px;
    border-block-start: 1px solid var(--_line);
  }
  .panel > p {
    max-inline-size: 68ch;
  }
  .done {
    display: flex;
    flex-wrap: wrap;
    gap: 0 8px;
    align-items: center;
    padding-inline-start: 12px;
    border-inline-start: 3px solid var(--_edge);
  }
  .card-page {
    display: grid;
    gap: 8px;
    margin-block-start: 16px;
  }

  .card-page .page {
    max-inline-size: 420px;
    border: 1px solid var(--_line);
    /* What is printed is black on white. */
    background: #fff;
    forced-color-adjust: none;
  }

  .card-page .page svg {
    display: block;
    inline-size: 100%;
    block-size: auto;
  }

  .mapping,
  .pairs,
  .memory,
  .card {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 0;
  }
  .mapping {
    grid-template-columns: repeat(auto-fill, minmax(min(100%, 240px), 1fr));
    gap: 16px;
  }
  .mapping li {
    display: grid;
    gap: 8px;
    align-content: start;
  }
  .pairs li,
  .memory li,
  .card li {
    display: flex;
    gap: 8px 12px;
    align-items: center;
    padding-block: 6px;
    border-block-end: 1px solid var(--_line);
  }
  .pairs li {
    flex-wrap: wrap;
  }
  .pairs select {
    flex: 0 1 18rem;
    min-inline-size: 0;
    max-inline-size: 100%;
  }
  .pairs .small {
    min-inline-size: 5.5em;
  }
  .memory {
    max-inline-size: 56rem;
  }
  .memory .what,
  .card li > div {
    flex: 1;
    min-inline-size: 0;
    overflow-wrap: anywhere;
  }
  .card li {
    align-items: start;
  }
  .card .chips {
    flex: none;
    gap: 0;
    padding: 8px;
    background: var(--_surround);
  }
  .card .chips .chip {
    border-radius: 0;
    inline-size: 36px;
    block-size: 36px;
  }
  .card .chips .chip.none {
    background: var(--_sheet);
  }
  .verdict {
    display: flex;
    gap: 8px;
    align-items: center;
  }
  .told {
    display: grid;
    gap: 8px;
    max-inline-size: 68ch;
    padding-inline-start: 12px;
    border-inline-start: 3px solid var(--_edge);
  }
  @container (max-width: 479px) {
    .mat {
      padding: 20px;
    }
    .panels > .segments {
      display: grid;
      grid-template-columns: 1fr 1fr;
      gap: 4px;
    }
    .panels > .segments > button {
      margin: 0;
      border-radius: var(--_radius);
    }
  }
  @media (forced-colors: active) {
    button.row[aria-pressed='true'] {
      forced-color-adjust: none;
      background: Highlight;
      color: HighlightText;
    }
    button.row[aria-pressed='true'] .notes,
    button.row[aria-pressed='true'] .number {
      color: HighlightText;
    }
    .box:focus-visible {
      outline-color: Highlight;
    }
  }
`;

export const deskStyles = [disclosure, fields, desk];
