import { css } from 'lit';

export const styles = css`
  :host {
    container-type: inline-size;
  }
  [hidden] {
    display: none !important;
  }
  h3 {
    margin: 0;
    font-size: 0.9375rem;
    font-weight: 600;
  }
  p {
    margin: 0;
  }
  .frame {
    display: grid;
    gap: 16px;
    min-inline-size: 0;
  }
  .empty {
    display: grid;
    gap: 12px;
    justify-items: start;
    padding: 24px 16px;
    border: 1px dashed var(--_edge);
    border-radius: var(--_radius);
    max-inline-size: 44rem;
  }
  .empty.over {
    border-style: solid;
    background: var(--_press);
  }
  .lead {
    font-weight: 600;
  }
  .buttons {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    align-items: center;
  }
  .working {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 12px;
    align-items: center;
  }
  progress {
    flex: 1 1 96px;
    min-inline-size: 64px;
    max-inline-size: 240px;
    block-size: 6px;
    accent-color: var(--_ink);
  }
  .trouble,
  .progress {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 12px;
    align-items: center;
  }
  /* Until looks have come: about the height of what is to come, a usual order of work beside the page or under it. */
  .room {
    min-block-size: 70rem;
  }
  @container (max-width: 719px) {
    .room {
      min-block-size: 160rem;
    }
  }
`;
