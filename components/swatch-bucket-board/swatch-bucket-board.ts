import { html } from 'lit';
import { TonewellElement } from '../shared/tonewell-element.js';

export class SwatchBucketBoard extends TonewellElement {
  static override readonly tag = 'swatch-bucket-board';

  override render() {
    return html`<slot></slot>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'swatch-bucket-board': SwatchBucketBoard;
  }
}
