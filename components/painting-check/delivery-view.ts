import { html, nothing, type TemplateResult } from 'lit';
import type { DeliveryLayout } from '../shared/events/delivery.js';
import { icon } from '../shared/icons.js';
import type { Desk } from './desk.js';

const LAYOUTS: readonly DeliveryLayout[] = ['alone', 'photo', 'bands'];
/** Widths of the painting that are offered, pixels; 0 is as fine as the photo. */
const WIDTHS = [1200, 2400, 0];
const TYPES = ['image/jpeg', 'image/png'] as const;

/** The finished painting as one picture file. */
export function renderDelivery(desk: Desk): TemplateResult {
  const { say, made, layout, width, type } = desk;
  return html`<div class="two" part="delivery">
    <section class="seen">
      ${
        made
          ? html`<div class="sheet">
              <canvas
                data-canvas="delivery"
                role="img"
                aria-label=${say('checking.delivery-alt')}
              ></canvas>
            </div>`
          : html`<p class="soft">${say('checking.first')}</p>`
      }
    </section>
    <section class="setting">
      <p class="soft">${say('checking.delivery-hint')}</p>
      <fieldset>
        <legend>${say('checking.delivery-with')}</legend>
        ${LAYOUTS.map(
          (each) =>
            html`<label class="check">
              <input
                type="radio"
                name="layout"
                data-layout=${each}
                .checked=${layout === each}
                @change=${() => desk.set({ layout: each })}
              />
              <span>${say(`checking.delivery-${each}`)}</span>
            </label>`,
        )}
      </fieldset>
      <label class="field">
        <span>${say('checking.delivery-size')}</span>
        <select
          data-width
          @change=${(event: Event) =>
            desk.set({ width: Number((event.target as HTMLSelectElement).value) })}
        >
          ${WIDTHS.map(
            (each) =>
              html`<option value=${each} ?selected=${each === width}>
                ${each === 0 ? say('checking.delivery-finest') : say('checking.delivery-pixels', { pixels: each })}
              </option>`,
          )}
        </select>
      </label>
      <label class="field">
        <span>${say('checking.delivery-type')}</span>
        <select
          data-type
          @change=${(event: Event) =>
            desk.set({ type: (event.target as HTMLSelectElement).value as Desk['type'] })}
        >
          ${TYPES.map((each) => html`<option value=${each} ?selected=${each === type}>${each === 'image/png' ? 'PNG' : 'JPEG'}</option>`)}
        </select>
      </label>
      <label class="field">
        <span>${say('checking.delivery-name')}</span>
        <input
          type="text"
          maxlength="120"
          data-name
          .value=${desk.deliveryName}
          @change=${(event: Event) =>
            desk.set({ fileName: (event.target as HTMLInputElement).value })}
        />
      </label>
      <div class="buttons">
        <button
          type="button"
          class="main"
          data-deliver
          ?disabled=${desk.delivering}
          @click=${() => desk.handOver()}
        >
          ${icon('save')}<span>${say('checking.delivery-save')}</span>
        </button>
      </div>
      ${desk.delivering ? html`<p class="soft">${say('checking.delivery-working')}</p>` : nothing}
      ${desk.done ? html`<p class="soft" data-said>${desk.done}</p>` : nothing}
      ${desk.deliveryFault ? html`<p role="alert">${faultIn(desk)}</p>` : nothing}
    </section>
  </div>`;
}

function faultIn({ say, deliveryFault }: Desk): string {
  if (!deliveryFault) return '';
  const own = say(deliveryFault.code, deliveryFault.values);
  const { message = deliveryFault.code } = deliveryFault.values;
  return own === deliveryFault.code ? say('checking.fault', { message }) : own;
}
