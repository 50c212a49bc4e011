import { html, type nothing, type TemplateResult } from 'lit';
import { leanOf, type PassageBorder } from '../../shared/core.js';
import { icon } from '../../shared/icons.js';
import type { MassWork } from '../../shared/masses-in-hand.js';
import { dab } from '../dab.js';
import { pxPerMmOf } from '../mass-facts.js';
import { axisOf } from './shape-changes.js';
import { EDGES, METHODS, RUNS, type ShapesHand } from './shapes-hand.js';

/** Neighbours, and borders of passages, that are offered: the longest. */
const MOST_BORDERS = 8;

/** Ways a stroke may run, image y down. */
const WAYS: readonly (readonly [string, number, number])[] = [
  ['up', 0, -1],
  ['right', 1, 0],
  ['down', 0, 1],
  ['left', -1, 0],
];

const valueOf = (event: Event): string => (event.target as HTMLSelectElement).value;

/** The mass in hand, and all that can be changed about it. */
export function massPanel(hand: ShapesHand, work: MassWork): TemplateResult {
  const region = hand.picked === undefined ? undefined : work.masses.regions[hand.picked];
  return html`<fieldset class="tool-group">
    <legend>${hand.say('tool.shapes.mass')}</legend>
    <div class="tool-row">
      <button type="button" @click=${() => hand.step(-1)}>${hand.say('tool.shapes.larger')}</button>
      <button type="button" @click=${() => hand.step(1)}>${hand.say('tool.shapes.smaller')}</button>
    </div>
    ${
      region === undefined
        ? html`<p>${hand.say('tool.shapes.none')}</p>`
        : html`<p>${hand.massInWords(work, region.id)}</p>
            ${bands(hand, work, region.id)} ${keeping(hand, work, region.id)}
            ${shaping(hand, work, region.id)} ${strokes(hand, work, region.id)}
            ${neighbours(hand, work, region.id)} ${passages(hand, work, region.id)}`
    }
  </fieldset>`;
}

function bands(hand: ShapesHand, work: MassWork, id: number): TemplateResult {
  const { band: now } = work.masses.regions[id];
  return html`<div class="tool-part" role="group" aria-label=${hand.say('tool.shapes.band')}>
    <span class="tool-note" aria-hidden="true">${hand.say('tool.shapes.band')}</span>
    <div class="segments">
      ${hand
        .bandNames(work.masses.map.bands)
        .map(
          (name, band) =>
            html`<button
              type="button"
              aria-pressed=${band === now ? 'true' : 'false'}
              @click=${() => hand.toBand(work, id, band)}
            >
              ${name}
            </button>`,
        )}
    </div>
  </div>`;
}

function keeping(hand: ShapesHand, work: MassWork, id: number): TemplateResult {
  const place = hand.changeOf('reserve', id);
  const method = place === undefined ? '' : String(hand.plan.overrules[place].method);
  return html`<label class="tool-field">
    <span>${hand.say('tool.shapes.keep')}</span>
    <select @change=${(event: Event) => hand.keep(work, id, valueOf(event))}>
      <option value="" ?selected=${method === ''}>${hand.say('tool.shapes.keep-found')}</option>
      ${METHODS.map(
        (each) =>
          html`<option value=${each} ?selected=${each === method}>
            ${hand.say(`tool.shapes.keep-${each}`)}
          </option>`,
      )}
    </select>
  </label>`;
}

function shaping(hand: ShapesHand, work: MassWork, id: number): TemplateResult {
  const { plan } = hand;
  const locked = hand.changeOf('lock', id) !== undefined;
  return html`<div class="tool-row">
    <button type="button" @click=${() => hand.cut(axisOf(plan, work.masses, id, true))}>
      ${icon('cut')}<span>${hand.say('tool.shapes.cut-across')}</span>
    </button>
    <button type="button" @click=${() => hand.cut(axisOf(plan, work.masses, id, false))}>
      ${icon('cut')}<span>${hand.say('tool.shapes.cut-along')}</span>
    </button>
    <button
      type="button"
      aria-pressed=${locked ? 'true' : 'false'}
      @click=${() => hand.lock(work, id)}
    >
      ${icon('lock')}<span>${hand.say('tool.shapes.lock')}</span>
    </button>
    <button type="button" @click=${() => hand.finerAbout(work, id)}>
      ${icon('loop')}<span>${hand.say('tool.shapes.finer-about')}</span>
    </button>
  </div>`;
}

function strokes(hand: ShapesHand, work: MassWork, id: number): TemplateResult {
  return html`<div class="tool-part" role="group" aria-label=${hand.say('tool.shapes.way')}>
    <span class="tool-note" aria-hidden="true">${hand.say('tool.shapes.way')}</span>
    <div class="segments">
      ${WAYS.map(
        ([way, dx, dy]) =>
          html`<button type="button" @click=${() => hand.strokeFrom(work, id, dx, dy)}>
            ${hand.say(`tool.shapes.way-${way}`)}
          </button>`,
      )}
    </div>
  </div>`;
}

function neighbours(hand: ShapesHand, work: MassWork, id: number): TemplateResult {
  const beside = work.edges
    .filter(({ regions }) => regions.includes(id))
    .sort((a, b) => b.lengthPx - a.lengthPx);
  const scale = pxPerMmOf(hand.plan, work.masses);
  return html`<ul class="tool-list">
    ${beside.slice(0, MOST_BORDERS).map(({ regions, kind, lengthPx }) => {
      const other = regions[0] === id ? regions[1] : regions[0];
      const name = hand.shortName(work, other);
      const length = hand.viewer.lengthOf(Math.round(lengthPx / scale));
      return html`<li class="tool-item">
        <div class="tool-row">
          <button type="button" class="quiet tool-wide" @click=${() => hand.pick(other)}>
            <span>
              ${hand.say('tool.shapes.beside', { mass: name, length })}
              <span class="away">${hand.say('tool.shapes.go-to', { mass: name })}</span>
            </span>
          </button>
          <select
            aria-label=${hand.say('tool.shapes.edge-to', { mass: name })}
            @change=${(event: Event) => hand.edge(work, id, other, valueOf(event))}
          >
            ${EDGES.map(
              (edge) =>
                html`<option value=${edge} ?selected=${edge === kind}>
                  ${hand.say(`tool.shapes.edge-${edge}`)}
                </option>`,
            )}
          </select>
          <button
            type="button"
            aria-label=${hand.say('tool.shapes.join-to', { mass: name })}
            @click=${() => hand.join(work, id, other)}
          >
            ${hand.say('tool.shapes.join')}
          </button>
        </div>
      </li>`;
    })}
  </ul>`;
}

/** How the passages of the mass meet; looked for when the list is opened. */
function passages(hand: ShapesHand, work: MassWork, id: number): TemplateResult {
  return html`<details
    class="tool-more"
    @toggle=${(event: Event) => hand.wantPassages((event.target as HTMLDetailsElement).open)}
  >
    <summary>${hand.say('tool.shapes.passages')}</summary>
    ${passageBorders(hand, work, id)}
  </details>`;
}

function passageBorders(
  hand: ShapesHand,
  work: MassWork,
  id: number,
): TemplateResult | typeof nothing {
  const { error, found } = hand.passages;
  if (error) return html`<p role="alert">${hand.viewer.sentenceOf(error)}</p>`;
  if (!found || !hand.passages.isOf(work))
    return html`<p class="tool-note">${hand.say('tool.shapes.passages-working')}</p>`;
  const { passages: parts, borders } = found.out;
  const inside = borders
    .filter(({ passages: [a] }) => parts[a].region === id)
    .sort((a, b) => b.lengthPx - a.lengthPx)
    .slice(0, MOST_BORDERS);
  if (inside.length === 0)
    return html`<p class="tool-note">${hand.say('tool.shapes.passages-one')}</p>`;
  return html`<ul class="tool-list">
    ${inside.map((border) => passageBorder(hand, work, border, found.out))}
  </ul>`;
}

function passageBorder(
  hand: ShapesHand,
  work: MassWork,
  border: PassageBorder,
  { passages: parts }: NonNullable<ShapesHand['passages']['found']>['out'],
): TemplateResult {
  const [a, b] = border.passages.map((id) => parts[id].lab);
  const figures = {
    one: hand.say(`lean.${leanOf(a).name}`),
    other: hand.say(`lean.${leanOf(b).name}`),
    length: hand.viewer.lengthOf(Math.round(border.lengthPx / pxPerMmOf(hand.plan, work.masses))),
  };
  return html`<li class="tool-item">
    <div class="tool-row">
      <span class="dabs">${dab(a)}${dab(b)}</span>
      <span class="tool-grow">${hand.say('tool.shapes.passage', figures)}</span>
      <select
        aria-label=${hand.say('tool.shapes.passage-run', figures)}
        @change=${(event: Event) => hand.run(work, border, valueOf(event))}
      >
        ${RUNS.map(
          (run) =>
            html`<option value=${run} ?selected=${run === border.run}>
              ${hand.say(`tool.shapes.run-${run}`)}
            </option>`,
        )}
      </select>
    </div>
  </li>`;
}
