import { css } from 'lit';

/** What can be opened: a chevron of ours goes before its words and turns down once it is open. */
export const disclosure = css`
  details > summary {
    display: flex;
    gap: 8px;
    inline-size: fit-content;
    min-block-size: var(--_target);
    padding-block: calc((var(--_target) - 1lh) / 2);
    padding-inline-end: 12px;
    cursor: pointer;
    list-style: none;
  }
  details > summary::-webkit-details-marker {
    display: none;
  }
  details > summary::before {
    content: '';
    flex: none;
    inline-size: 7px;
    block-size: 7px;
    margin-block-start: calc((1lh - 9px) / 2);
    margin-inline: 3px;
    border-block-end: 1.5px solid;
    border-inline-end: 1.5px solid;
    transform: rotate(-45deg);
  }
  details > summary:dir(rtl)::before {
    transform: rotate(135deg);
  }
  details[open] > summary::before {
    transform: rotate(45deg);
  }
`;
