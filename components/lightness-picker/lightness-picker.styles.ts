import { css } from 'lit';

export const styles = css`
  :host {
    container-type: inline-size;
    --_stage-height: var(--tonewell-picker-height, min(70vh, 640px));
  }
  h3 {
    margin: 0;
    font-size: 0.9375rem;
    font-weight: 600;
  }
  p {
    margin: 0;
  }
  [hidden] {
    display: none !important;
  }
  .frame {
    position: relative;
    display: grid;
    gap: 16px;
    min-inline-size: 0;
  }
  /* Over the photo's upper edge: nothing moves when it comes and goes. */
  .frame:has(> .work) > .progress {
    position: absolute;
    inset-block-start: 0;
    inset-inline: 0;
    z-index: 1;
  }
  .coming {
    min-block-size: var(--_stage-height);
  }

  /* Nothing to read yet. */
  .empty {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 16px;
    justify-items: center;
    padding: 32px 24px;
    border: 1px dashed var(--_edge);
    text-align: center;
  }
  .over .empty {
    border-style: solid;
    background: var(--_press);
  }
  .empty p {
    max-inline-size: 44ch;
  }
  .empty .sample {
    inline-size: 112px;
    block-size: 84px;
    forced-color-adjust: none;
  }
  .bring {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    justify-content: center;
    position: relative;
  }
  label.button:focus-within {
    outline: 2px solid var(--_ink);
    outline-offset: 2px;
  }
  .trouble,
  .progress {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 16px;
    align-items: center;
    justify-content: space-between;
    padding: 8px 12px;
    border: 1px solid var(--_edge);
    background: var(--_sheet);
  }
  .progress progress {
    flex: 1;
    min-inline-size: 96px;
    accent-color: var(--_ink);
  }
`;
