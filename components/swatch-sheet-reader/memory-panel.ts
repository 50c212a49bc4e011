import { html, nothing, type TemplateResult } from 'lit';
import {
  habitsOf,
  lightnessOfMunsell,
  provenMixes,
  searchDabs,
  type Dab,
  type DabSearch,
} from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { chip, tubeOptions, valueOf } from './list-view.js';
import type { MemoryAsked, SheetView } from './sheet-view.js';

/** Habits are told from the newest so many dabs, so that the work stays short. */
const MOST_TOLD = 300;

/** A typed value as L*; the bound itself when nothing sound was typed. */
function boundOf(text: string, bound: number): number {
  const value = Number(text.trim().replace(',', '.'));
  if (text.trim() === '' || !(value >= 0 && value <= 10)) return bound;
  return lightnessOfMunsell(value);
}

/** What is looked for. A typed tenth stands for all that is told as that tenth. */
function searchOf(view: SheetView, asked: MemoryAsked): DabSearch {
  const { text, band, tube, from, to } = asked;
  const near = 0.5;
  const names = Object.fromEntries(
    view.dabs
      .flatMap(({ recipe }) => recipe?.parts ?? [])
      .map(({ tube: id }) => [id, view.tubeName(id)]),
  );
  return {
    text,
    names,
    lightness: [boundOf(from, 0) - near, boundOf(to, 100) + near],
    ...(band >= 0 && { band }),
    ...(tube && { tube }),
  };
}

/** The remembered dabs that are looked for. */
export const foundDabs = (view: SheetView): Dab[] =>
  searchDabs(view.dabs, searchOf(view, view.memory.asked));

/** All dabs that were ever read for this plan: looked through, with habits and proven mixes. */
export function renderMemoryPanel(view: SheetView): TemplateResult {
  const { say, dabs, plan } = view;
  const memory = view.memory.asked;
  if (dabs.length === 0)
    return html`<h3 class="away">${say('reader.memory-title')}</h3>
      <p>${say('reader.memory-none')}</p>`;
  const found = foundDabs(view);
  const habits = habitsOf(dabs.slice(-MOST_TOLD), (dab) => view.memory.predicted(dab));
  const bands = plan.board.bands;
  return html`<h3 class="away">${say('reader.memory-title')}</h3>
    <div class="fields" role="search" aria-label=${say('reader.memory-title')}>
      <label class="field">
        <span class="small soft">${say('reader.memory-text')}</span>
        <input
          type="search"
          data-text
          maxlength="120"
          .value=${memory.text}
          @input=${(event: Event) => view.memory.ask({ text: valueOf(event) })}
        />
      </label>
      <label class="field">
        <span class="small soft">${say('reader.memory-band')}</span>
        <select
          data-band
          @change=${(event: Event) => view.memory.ask({ band: Number(valueOf(event)) })}
        >
          <option value="-1" .selected=${memory.band < 0}>${say('reader.memory-any')}</option>
          ${bands.map(
            (_, band) =>
              html`<option value=${band} .selected=${band === memory.band}>
                ${view.bandName(band)}
              </option>`,
          )}
        </select>
      </label>
      <label class="field">
        <span class="small soft">${say('reader.tube')}</span>
        <select
          data-memory-tube
          @change=${(event: Event) => view.memory.ask({ tube: valueOf(event) })}
        >
          ${tubeOptions(view, memory.tube, 'any')}
        </select>
      </label>
      ${(['from', 'to'] as const).map(
        (end) =>
          html`<label class="field narrow">
            <span class="small soft">${say(`reader.memory-${end}`)}</span>
            <input
              type="text"
              inputmode="decimal"
              data-bound=${end}
              maxlength="5"
              .value=${memory[end]}
              @input=${(event: Event) => view.memory.ask({ [end]: valueOf(event) })}
            />
          </label>`,
      )}
    </div>
    <p class="soft small">
      ${say('reader.memory-found', { count: found.length, all: dabs.length })}
    </p>
    <ul class="memory" part="memory">
      ${found.slice(0, memory.most).map((dab) => renderDab(view, dab))}
    </ul>
    ${
      found.length > memory.most
        ? html`<div class="acts">
            <button
              type="button"
              data-more
              @click=${() => view.memory.ask({ most: memory.most + 60 })}
            >
              ${icon('more')}<span
                >${say('reader.memory-more', { count: found.length - memory.most })}</span
              >
            </button>
          </div>`
        : nothing
    }
    <h4>${say('reader.habits')}</h4>
    ${
      habits.length > 0
        ? html`<ul class="remarks" part="habits">
            ${habits.map((habit) => html`<li data-code=${habit.code}>${view.tell(habit)}</li>`)}
          </ul>`
        : html`<p class="soft small">${say('reader.habits-none')}</p>`
    }
    ${renderProven(view)}`;
}

function renderDab(view: SheetView, dab: Dab): TemplateResult {
  const { say } = view;
  const value = view.value(dab.lab[0]);
  const date = view.day(dab.date);
  const facts = [
    date,
    say(`reader.wet-${dab.wet ?? 'dry'}`),
    ...(dab.band === undefined ? [] : [view.bandName(dab.band)]),
  ];
  return html`<li data-kept=${dab.id}>
    ${chip(dab.lab)}
    <div class="what">
      <p>
        <strong>${say('reader.value', { value })}</strong>
        ${dab.note ?? ''}
      </p>
      ${dab.recipe ? html`<p class="small">${view.recipe(dab.recipe)}</p>` : nothing}
      <p class="soft small">${facts.join(' · ')}</p>
    </div>
    <button
      type="button"
      class="quiet"
      data-forget=${dab.id}
      aria-label=${say('reader.forget-of', { value, date })}
      @click=${() => view.memory.forget(dab.id)}
    >
      ${icon('bin')}<span>${say('reader.forget')}</span>
    </button>
  </li>`;
}

/** Mixes that were painted, dried and read, near the middle of a band. */
function renderProven(view: SheetView): TemplateResult {
  const { say, dabs, plan } = view;
  const memory = view.memory.asked;
  const bands = plan.board.bands;
  const band = Math.min(memory.proven, bands.length - 1);
  const { floor, ceiling } = bands[band];
  const top = Math.min(ceiling, plan.paper.lightness);
  const lightness = (floor + Math.max(floor, top)) / 2;
  const proven = provenMixes(dabs, { lightness }, { within: Math.max(5, (top - floor) / 2) });
  return html`<h4>${say('reader.proven')}</h4>
    <label class="field">
      <span class="small soft">${say('reader.proven-for')}</span>
      <select
        data-proven
        @change=${(event: Event) => view.memory.ask({ proven: Number(valueOf(event)), most: memory.most })}
      >
        ${bands.map(
          (_, each) =>
            html`<option value=${each} .selected=${each === band}>${view.bandName(each)}</option>`,
        )}
      </select>
    </label>
    ${
      proven.length > 0
        ? html`<ul class="memory" part="proven">
            ${proven.map(
              ({ recipe, lab, times, scatter, last }) =>
                html`<li>
                  ${chip(lab)}
                  <div class="what">
                    <p>
                      <strong>${say('reader.value', { value: view.value(lab[0]) })}</strong>
                      ${view.recipe(recipe)}
                    </p>
                    <p class="soft small">
                      ${say('reader.proven-times', { times, date: view.day(last) })}
                      ${times > 1 ? say('reader.proven-scatter', { scatter }) : nothing}
                    </p>
                  </div>
                </li>`,
            )}
          </ul>`
        : html`<p class="soft small">${say('reader.proven-none')}</p>`
    }`;
}
