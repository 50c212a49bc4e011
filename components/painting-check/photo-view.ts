import { html, nothing, type TemplateResult } from 'lit';
import type { Spot, WhiteInput } from '../shared/core.js';
import { put } from '../shared/put.js';
import { stepName } from '../shared/step-name.js';
import type { Desk } from './desk.js';
import { INSET, mirrored, onPhoto, turned } from './geometry.js';
import { renderHandles, type Handle } from './handles.js';

const WHITES = ['margin', 'spot', 'none'] as const;

/** The photo of the painting with its corners, where white is taken from, and the step that is done. */
export function renderPhoto(desk: Desk): TemplateResult {
  const { host, say, corners = INSET } = desk;
  const { handle, bitmap } = host.painting.picture;
  const ratio = handle ? handle.width / handle.height : 1;
  const { white } = host;
  const handles: Handle[] = corners.map((at, i) => ({
    id: `corner-${i}`,
    at,
    name: say(`checking.corner-${i}`),
    kind: 'corner',
  }));
  if (white.from === 'spot')
    handles.push({ id: 'white', at: white.at, name: say('checking.white-spot'), kind: 'ring' });
  const moved = (id: string, to: Spot): void => {
    if (id === 'white') host.white = { from: 'spot', at: to };
    else {
      const next = [...corners] as typeof corners;
      next[Number(id.slice(7))] = to;
      desk.setCorners(next);
    }
  };
  const held = desk.heldSpot;
  return html`<div class="two">
    <section class="seen">
      <div
        class="stage"
        part="stage"
        data-stage="photo"
        role="group"
        aria-label=${say('checking.photo-alt')}
        ${put({ '--_ratio': String(ratio) })}
      >
        ${bitmap ? html`<canvas data-canvas="photo" role="img" aria-label=${say('checking.photo-alt')}></canvas>` : nothing}
        <svg class="over" viewBox="0 0 1000 1000" preserveAspectRatio="none" aria-hidden="true">
          <path class="line-under" d=${frame(corners)} />
          <path class="line" d=${frame(corners)} />
        </svg>
        ${renderHandles(handles, say, moved, (id) => desk.set({ held: id }))}
        ${
          held
            ? html`<canvas
                class=${`loupe${held[0] < 0.5 ? ' after' : ''}`}
                part="loupe"
                data-canvas="loupe"
                aria-hidden="true"
              ></canvas>`
            : nothing
        }
      </div>
      <p class="soft small">${say('checking.photo-hint')}</p>
      ${desk.found === 'no' ? nothing : html`<p>${say(`checking.${FOUND[desk.found]}`)}</p>`}
      <div class="buttons">
        <button
          type="button"
          data-find
          ?disabled=${desk.found === 'looking'}
          @click=${() => desk.findSheet()}
        >
          ${say('checking.find')}
        </button>
        <button type="button" data-turn @click=${() => desk.setCorners(turned(corners))}>
          ${say('checking.turn')}
        </button>
        <button type="button" data-mirror @click=${() => desk.setCorners(mirrored(corners))}>
          ${say('checking.mirror')}
        </button>
      </div>
    </section>
    <section class="setting" part="setting">
      <fieldset>
        <legend>${say('checking.white')}</legend>
        ${WHITES.map(
          (from) =>
            html`<label class="check">
              <input
                type="radio"
                name="white"
                data-white=${from}
                .checked=${white.from === from}
                @change=${() => (host.white = whiteOf(from, corners))}
              />
              <span
                >${say(from === 'spot' ? 'checking.white-from-spot' : `checking.white-${from}`)}</span
              >
            </label>`,
        )}
        <p class="soft small">${say(`checking.white-hint-${white.from}`)}</p>
      </fieldset>
      ${renderStepChoice(desk)}
      <div class="buttons">
        <button
          type="button"
          class="main"
          part="check-button"
          data-check
          ?disabled=${desk.checking.state.status === 'working'}
          @click=${() => desk.check(true)}
        >
          ${say(desk.made ? 'checking.check-again' : 'checking.check')}
        </button>
      </div>
      ${desk.renderStatus()}
    </section>
  </div>`;
}

const FOUND = { looking: 'finding', found: 'found', 'not-found': 'not-found' } as const;

/** A ring for white begins on the rim, beside the upper border of the painted part. */
function whiteOf(from: (typeof WHITES)[number], corners: typeof INSET): WhiteInput {
  if (from !== 'spot') return { from };
  const [x, y] = onPhoto(corners, [0.5, -0.03]);
  return { from, at: [Math.min(0.98, Math.max(0.02, x)), Math.min(0.98, Math.max(0.02, y))] };
}

function frame(corners: typeof INSET): string {
  return `M${corners.map(([x, y]) => `${1000 * x} ${1000 * y}`).join('L')}Z`;
}

/** The step that was done last. */
function renderStepChoice(desk: Desk): TemplateResult {
  const { host, say } = desk;
  const steps = desk.steps;
  const chosen = desk.stepChosen;
  const onChange = (event: Event): void => {
    host.upToStep = Number((event.target as HTMLSelectElement).value);
  };
  if (desk.stepsFault)
    return html`<div class="working" role="alert" data-steps-fault=${desk.stepsFault.code}>
      <span>${desk.tellFault(desk.stepsFault, 'checking.step-failed')}</span>
      <button type="button" data-steps-again @click=${() => desk.askStepsAgain()}>
        ${say('checking.again')}
      </button>
    </div>`;
  if (steps.length === 0) return html`<p class="soft">${say('checking.step-wait')}</p>`;
  return html`<label class="field">
      <span>${say('checking.step')}</span>
      <select data-step @change=${onChange}>
        <option value="-1" ?selected=${chosen === -1}>${say('checking.step-before')}</option>
        ${steps.map(
          (step, i) =>
            html`<option value=${i} ?selected=${chosen === i}>
              ${say('checking.step-of', {
                number: i + 1,
                step: stepName(step, host.store.plan, say),
              })}
            </option>`,
        )}
      </select>
    </label>
    <p class="soft small">${say('checking.step-hint')}</p>`;
}
