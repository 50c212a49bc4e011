import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { SavedCheck } from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { put } from '../shared/put.js';
import type { Desk } from './desk.js';
import { greyOf } from './greys.js';
import { kappaWord } from './sentences.js';

/** A change of agreement that is named, in percent. */
const NAMED = 2;

/** All checks that are kept, from the first wash to the last. */
export function renderChecks(desk: Desk): TemplateResult {
  const { say, checks, store } = desk;
  const undo = store.undoLabel === 'checks';
  const redo = store.redoLabel === 'checks';
  return html`<section class="checks" part="checks">
    ${
      checks.length === 0
        ? html`<p class="soft">${say('checking.checks-none')}</p>`
        : html`<p class="soft small">${say('checking.checks-hint')}</p>
            ${checks.length > 1 ? html`<p class="lead">${trend(desk)}</p>` : nothing}
            <ol class="strip">
              ${repeat(
                checks,
                ({ id }) => id,
                (check, i) => renderCheck(desk, check, i),
              )}
            </ol>`
    }
    ${desk.done ? html`<p class="soft">${desk.done}</p>` : nothing}
    ${
      undo || redo
        ? html`<div class="buttons">
            <button
              type="button"
              part="undo"
              data-undo
              ?disabled=${!undo}
              @click=${() => desk.undo()}
            >
              ${icon('undo')}<span>${say('checking.undo')}</span>
            </button>
            <button
              type="button"
              part="redo"
              data-redo
              ?disabled=${!redo}
              @click=${() => desk.undo(true)}
            >
              ${icon('redo')}<span>${say('checking.redo')}</span>
            </button>
          </div>`
        : nothing
    }
  </section>`;
}

const percent = (share: number): number => Math.round(100 * share);

function trend({ say, checks }: Desk): string {
  const [first, last] = [checks[0], checks.at(-1)!].map(({ agreement }) => percent(agreement));
  const way = last - first >= NAMED ? 'up' : first - last >= NAMED ? 'down' : 'even';
  return say(`checking.trend-${way}`, { first, last, count: checks.length });
}

function renderCheck(desk: Desk, check: SavedCheck, place: number): TemplateResult {
  const { say, host } = desk;
  const { id, date, photo, upToStep, agreement, kappa, lostReserves, islands, note = '' } = check;
  const day = new Date(date);
  const when = Number.isNaN(day.getTime())
    ? date
    : new Intl.DateTimeFormat(host.language, { dateStyle: 'medium', timeStyle: 'short' }).format(
        day,
      );
  const words = say(`checking.kappa-${kappaWord(kappa)}`);
  const onSave = (event: Event): void => {
    const field = (event.currentTarget as HTMLElement)
      .closest('li')!
      .querySelector<HTMLTextAreaElement>('textarea')!;
    desk.noteOn(id, field.value);
  };
  return html`<li class="kept" part="check" data-check-id=${id}>
    <div class="kept-head">
      <span class="number">${place + 1}</span>
      <span
        class="dab"
        ${put({ '--_tone': greyOf(100 - 70 * Math.max(0, agreement)) })}
        aria-hidden="true"
      ></span>
      <strong
        >${upToStep === undefined ? say('checking.row-whole') : say('checking.row-step', { number: upToStep + 1 })}</strong
      >
    </div>
    ${photo ? html`<canvas data-small=${photo} role="img" aria-label=${say('checking.row-picture')}></canvas>` : nothing}
    <time class="soft small" datetime=${date}>${when}</time>
    <p>${say('checking.row-agreement', { agreement: percent(agreement) })}</p>
    <p class="soft small">${say('checking.row-kappa', { words, kappa })}</p>
    <p class="soft small">
      ${say('checking.row-reserves', { count: lostReserves })}${islands === undefined ? nothing : html` · ${say('checking.row-islands', { count: islands })}`}
    </p>
    <label class="field">
      <span>${say('checking.keep-note')}</span>
      <textarea rows="2" maxlength="2000" .value=${note}></textarea>
    </label>
    <div class="buttons">
      <button type="button" data-save-note @click=${onSave}>${say('checking.row-save')}</button>
      <button type="button" class="quiet" data-forget @click=${() => desk.forget(id)}>
        ${icon('bin')}<span>${say('checking.row-remove')}</span>
      </button>
    </div>
  </li>`;
}
