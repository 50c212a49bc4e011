import { html } from 'lit';
import { TonewellElement } from '../shared/tonewell-element.js';

export class PaintingPlan extends TonewellElement {
  static override readonly tag = 'painting-plan';

  override render() {
    return html`<slot></slot>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'painting-plan': PaintingPlan;
  }
}
