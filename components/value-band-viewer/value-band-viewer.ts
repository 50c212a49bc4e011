import { html } from 'lit';
import { TonewellElement } from '../shared/tonewell-element.js';

export class ValueBandViewer extends TonewellElement {
  static override readonly tag = 'value-band-viewer';

  override render() {
    return html`<slot></slot>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'value-band-viewer': ValueBandViewer;
  }
}
