import { css } from 'lit';

/** Looks of what pictures are brought with, and of what is told of them. */
export const bringingStyles = css`
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
  .empty p {
    margin: 0;
  }
  .empty strong {
    display: block;
    font-size: 1.0625rem;
    font-weight: 600;
  }
  .empty > div {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    justify-content: center;
    gap: 8px;
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
`;
