import { html } from 'lit';
import { TonewellElement } from '../shared/tonewell-element.js';

export class LightnessPicker extends TonewellElement {
  static override readonly tag = 'lightness-picker';

  override render() {
    return html`<slot></slot>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'lightness-picker': LightnessPicker;
  }
}
