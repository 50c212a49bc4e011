/** What a person brings a picture with (a file, the camera, the clipboard), and what is told of the one that is brought. */
import { html, nothing, type CSSResult, type TemplateResult } from 'lit';
import { reason, type Reason } from './core.js';
import { icon } from './first-icons.js';
import type { PlanStore } from './plan-store.js';
import type { Say } from './usual-bands.js';

export { pictureWords as words } from './words/picture.js';

/** Looks of its own that the part brings: none, elements have theirs. */
export const looks: readonly CSSResult[] = [];

/** Where pictures go, and who takes the one that a person gives. */
export interface Bringing {
  readonly store: PlanStore;
  given(file: Blob): Promise<void>;
}

/** Buttons that bring a picture: a file, the camera, the clipboard. */
export function renderButtons(bringing: Bringing, say: Say): TemplateResult {
  const onFile = (event: Event): void => {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    input.value = '';
    if (file) void bringing.given(file);
  };
  return html`
    <label class="button" part="open-button">
      ${icon('open')}<span>${say('picture.open')}</span>
      <input class="away" type="file" accept="image/*,.heic,.heif,.tif,.tiff" @change=${onFile} />
    </label>
    <label class="button" part="camera-button">
      ${icon('camera')}<span>${say('picture.camera')}</span>
      <input class="away" type="file" accept="image/*" capture="environment" @change=${onFile} />
    </label>
    ${
      typeof navigator !== 'undefined' && navigator.clipboard && 'read' in navigator.clipboard
        ? html`<button type="button" part="paste-button" @click=${() => paste(bringing)}>
            ${icon('paste')}<span>${say('picture.paste')}</span>
          </button>`
        : nothing
    }
  `;
}

/** The sentence of a fault, with the way on; nothing when all is well. */
export function renderTrouble(
  { store }: Bringing,
  tell: (reason: Reason) => string,
  say: Say,
): TemplateResult | typeof nothing {
  const { error } = store.picture;
  if (!error) return nothing;
  return html`<div class="trouble" part="trouble" role="alert">
    <span>${tell(error)}</span>
    <button type="button" class="quiet" @click=${() => store.forgive()}>
      ${icon('close')}<span>${say('picture.forgive')}</span>
    </button>
  </div>`;
}

/** How far the opening has come, with a way to give it up. */
export function renderProgress({ store }: Bringing, say: Say): TemplateResult {
  const { progress } = store.picture;
  return html`<div class="progress" part="progress">
    <span>${say(`progress.${progress?.stage ?? 'read'}`)}</span>
    <progress
      aria-label=${say('progress.label')}
      max="1"
      value=${progress?.stage === 'reduce' ? progress.done : nothing}
    ></progress>
    <button type="button" class="quiet" @click=${() => store.giveUp()}>
      ${icon('close')}<span>${say('progress.stop')}</span>
    </button>
  </div>`;
}

/** Opens the clipboard's picture where the platform lets a button do so. */
async function paste(bringing: Bringing): Promise<void> {
  const { store } = bringing;
  try {
    for (const item of await navigator.clipboard.read()) {
      const type = item.types.find((each) => each.startsWith('image/'));
      if (type) return await bringing.given(await item.getType(type));
    }
    store.fail(reason('picture.clipboard-empty'));
  } catch {
    store.fail(reason('picture.clipboard-closed'));
  }
}
