import { css } from 'lit';
import { fields } from '../shared/fields.styles.js';

/** Looks of the page, the order of work and the choices. */
const work = css`
  .work {
    display: grid;
    grid-template: 'preview' 'steps' 'choices' / minmax(0, 1fr);
    gap: 24px;
    min-inline-size: 0;
  }
  .preview {
    grid-area: preview;
  }
  .order {
    grid-area: steps;
  }
  .choices {
    grid-area: choices;
  }
  @container (min-width: 720px) {
    .work {
      grid-template:
        'preview steps' auto
        'choices steps' 1fr / minmax(0, 1fr) minmax(0, 1fr);
      align-items: start;
    }
  }
  @container (min-width: 1120px) {
    .work {
      grid-template: 'preview steps choices' auto / minmax(0, 3fr) minmax(320px, 2fr) 256px;
    }
  }
  .preview,
  .order,
  .choices {
    display: grid;
    gap: 12px;
    align-content: start;
    min-inline-size: 0;
  }
  .pager {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    align-items: center;
  }
  .pager .of {
    min-inline-size: 7em;
    text-align: center;
  }
  .mat {
    padding: 8px;
    background: var(--_surround);
  }
  /* Paper is white whatever the scheme. */
  .page {
    background: #fff;
    color-scheme: light;
    forced-color-adjust: none;
    text-transform: none;
    word-spacing: normal;
  }
  .page svg:not(.icon) {
    display: block;
    inline-size: 100%;
    block-size: auto;
  }
  .page.blank {
    display: grid;
    place-content: center;
    aspect-ratio: 210 / 297;
    padding: 16px;
    color: #1c1c1c;
  }
  .page.letter {
    aspect-ratio: 8.5 / 11;
  }
  .page.blank .working {
    justify-content: center;
  }
  .buttons.coming,
  .pager.coming {
    min-block-size: var(--_target);
  }
  /* A usual order of work. */
  .steps.coming {
    min-block-size: 60rem;
  }
  @container (max-width: 479px) {
    .buttons.coming {
      min-block-size: calc(3 * var(--_target) + 16px);
    }
    .steps.coming {
      min-block-size: 96rem;
    }
  }
  .mat.stale .page {
    opacity: 0.6;
  }
  .status {
    display: grid;
    gap: 8px;
    min-block-size: 2.25rem;
  }
  fieldset {
    display: grid;
    gap: 4px;
    margin: 0;
    padding: 0;
    border: 0;
    min-inline-size: 0;
  }
  /* Columns where all of it stands below the page. */
  @container (480px <= inline-size < 720px) {
    fieldset {
      grid-template-columns: repeat(auto-fill, minmax(12rem, 1fr));
      column-gap: 16px;
    }
  }
  select {
    inline-size: 100%;
    min-inline-size: 0;
  }
  .steps {
    list-style: none;
    margin: 0;
    padding: 0;
    border-block-end: 1px solid var(--_line);
  }
  .step {
    display: grid;
    gap: 2px;
    padding-block: 6px;
    border-block-start: 1px solid var(--_line);
  }
  .step.done .name {
    color: var(--_ink-soft);
    text-decoration: line-through;
  }
  .step.dragged {
    opacity: 0.5;
  }
  .step.drop-before {
    box-shadow: 0 -2px 0 var(--_ink);
  }
  .step.drop-after {
    box-shadow: 0 2px 0 var(--_ink);
  }
  .row {
    display: flex;
    gap: 8px;
    align-items: center;
  }
  .number {
    flex: none;
    display: inline-grid;
    place-items: center;
    inline-size: 28px;
    min-block-size: var(--_target);
    border: 1px solid var(--_line);
    border-radius: var(--_radius);
    color: var(--_ink-soft);
    cursor: grab;
    touch-action: none;
    user-select: none;
    -webkit-user-select: none;
  }
  .tick {
    flex: 1 1 auto;
    display: flex;
    gap: 8px;
    align-items: center;
    min-block-size: var(--_target);
    min-inline-size: 0;
    cursor: pointer;
  }
  .tick input {
    flex: none;
  }
  .name {
    min-inline-size: 0;
    overflow-wrap: anywhere;
  }
  .moves {
    flex: none;
    display: flex;
  }
  .moves button {
    padding-inline: 8px;
  }
  .wait,
  .what,
  .hint,
  .warning {
    padding-inline-start: 36px;
  }
  .wait {
    font-style: italic;
  }
  .warning {
    display: flex;
    gap: 8px;
    align-items: flex-start;
    font-weight: 600;
  }
  @container (max-width: 479px) {
    .row {
      flex-wrap: wrap;
    }
    .tick {
      flex-basis: calc(100% - 48px);
    }
    .moves {
      margin-inline-start: 28px;
    }
  }
  @media (forced-colors: active) {
    .step.drop-before {
      border-block-start: 3px solid Highlight;
    }
    .step.drop-after {
      border-block-end: 3px solid Highlight;
    }
  }
`;

export const workStyles = [fields, work];
