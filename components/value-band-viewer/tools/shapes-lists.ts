import { html, nothing, type TemplateResult } from 'lit';
import { MOST_MARKS, type Mark } from '../../shared/core.js';
import { icon } from '../../shared/icons.js';
import type { MassWork } from '../../shared/masses-in-hand.js';
import { pxPerMmOf } from '../mass-facts.js';
import { wordOnMark } from './shape-changes.js';
import { GROUNDS, type Ground, type ShapesHand } from './shapes-hand.js';

const valueOf = (event: Event): string => (event.target as HTMLSelectElement).value;

/** The small marks that are proposed, each to be kept or dropped, and tied to the brief. */
export function marksPanel(hand: ShapesHand, work: MassWork): TemplateResult {
  const marks = work.masses.marks.slice(0, MOST_MARKS);
  return html`<fieldset class="tool-group">
    <legend>${hand.say('tool.shapes.marks')}</legend>
    <p class="tool-note">
      ${hand.say(marks.length > 0 ? 'tool.shapes.marks-lead' : 'tool.shapes.marks-none')}
    </p>
    ${
      marks.length > 0
        ? html`<details class="tool-more">
            <summary>${hand.say('tool.shapes.marks-each', { marks: marks.length })}</summary>
            <ul class="tool-list">
              ${marks.map((mark) => markItem(hand, work, mark))}
            </ul>
          </details>`
        : nothing
    }
  </fieldset>`;
}

function markItem(hand: ShapesHand, work: MassWork, mark: Mark): TemplateResult {
  const { plan } = hand;
  const { masses } = work;
  const markings = plan.brief?.markings ?? [];
  const word = wordOnMark(plan, masses, mark);
  const keep = word?.keep !== false;
  const number = work.marks.find(({ x, y }) => x === mark.x && y === mark.y)?.number;
  const name = hand.say(
    `tool.shapes.mark-${mark.contrast > 0 ? 'light' : 'dark'}${number === undefined ? '-dropped' : ''}`,
    {
      number: number ?? 0,
      size: hand.viewer.lengthOf((2 * Math.sqrt(mark.area / Math.PI)) / pxPerMmOf(plan, masses)),
      contrast: Math.abs(mark.contrast),
    },
  );
  return html`<li class="tool-item">
    <div class="tool-row">
      <label class="tool-grow tool-check">
        <input
          type="checkbox"
          .checked=${keep}
          @change=${(event: Event) => hand.mark(work, mark, (event.target as HTMLInputElement).checked)}
        />
        <span>${name}</span>
      </label>
      ${
        markings.length > 0
          ? html`<select
              aria-label=${hand.say('tool.shapes.marking-of', { mark: name })}
              @change=${(event: Event) => hand.mark(work, mark, true, valueOf(event))}
            >
              <option value="">${hand.say('tool.shapes.marking-none')}</option>
              ${markings.map(
                ({ id, text }) =>
                  html`<option value=${id} ?selected=${word?.marking === id}>${text}</option>`,
              )}
            </select>`
          : nothing
      }
    </div>
  </li>`;
}

/** What becomes of the ground about the sitter. */
export function groundPanel(hand: ShapesHand): TemplateResult {
  const { sitter, background = 'as-photo' } = hand.plan;
  const contrast = (choice: Ground): string => {
    const found = hand.grounds?.choices.find((each) => each.choice === choice);
    return found && found.lengthPx > 0
      ? hand.say('tool.shapes.ground-contrast', { mean: found.mean, lost: 100 * found.lostShare })
      : '';
  };
  return html`<fieldset class="tool-group">
    <legend>${hand.say('tool.shapes.ground')}</legend>
    ${
      sitter
        ? html`<div class="tool-list">
            ${GROUNDS.map(
              (choice) =>
                html`<label class="tool-check">
                  <input
                    type="radio"
                    name="ground"
                    .checked=${choice === background}
                    @change=${() => hand.ground(choice)}
                  />
                  <span
                    >${hand.say(`tool.shapes.ground-${choice}`)}
                    <span class="tool-note">${contrast(choice)}</span></span
                  >
                </label>`,
            )}
          </div>`
        : html`<p class="tool-note">${hand.say('tool.shapes.ground-no-sitter')}</p>`
    }
  </fieldset>`;
}

/** The parts that a smaller brush states. */
export function finerPanel(hand: ShapesHand): TemplateResult | typeof nothing {
  const { focus = [], brushes } = hand.plan;
  if (focus.length === 0) return nothing;
  return html`<fieldset class="tool-group">
    <legend>${hand.say('tool.shapes.finer-parts')}</legend>
    <ul class="tool-list">
      ${focus.map(
        ({ id, brush }, i) =>
          html`<li class="tool-item">
            <div class="tool-row">
              <label class="tool-grow tool-row"
                ><span>${hand.say('tool.shapes.finer-name', { number: i + 1 })}</span>
                <select @change=${(event: Event) => hand.focusBrush(id, Number(valueOf(event)))}>
                  ${brushes.map(({ name }, n) => html`<option value=${n} ?selected=${n === brush}>${name}</option>`)}
                </select></label
              >
              <button
                type="button"
                aria-label=${hand.say('tool.shapes.finer-remove', { number: i + 1 })}
                @click=${() => hand.dropFocus(id)}
              >
                ${icon('bin')}<span>${hand.say('tool.shapes.remove')}</span>
              </button>
            </div>
          </li>`,
      )}
    </ul>
  </fieldset>`;
}

/** All that was changed by hand, and what of it no longer fits. */
export function changesPanel(hand: ShapesHand, work: MassWork): TemplateResult | typeof nothing {
  const { overrules } = hand.plan;
  if (overrules.length === 0) return nothing;
  const ofPassages = hand.passages.isOf(work) ? hand.passages.found?.out.unmet : undefined;
  const all = [...(work.masses.unmet ?? []), ...(ofPassages ?? [])];
  const unmet = new Map(all.map(({ overrule, reason }) => [overrule, reason]));
  return html`<fieldset class="tool-group">
    <legend>${hand.say('tool.shapes.changes')}</legend>
    <ul class="tool-list">
      ${overrules.map((overrule, i) => {
        const why = unmet.get(i);
        return html`<li class="tool-item">
          <div class="tool-row">
            <span class="tool-grow">
              ${i + 1}. ${hand.changeInWords(overrule)}
              ${why ? html`<span class="tool-refused tool-unmet">${hand.why(why)}</span>` : nothing}
            </span>
            <button
              type="button"
              aria-label=${hand.say('tool.shapes.change-remove', { number: i + 1 })}
              @click=${() => hand.takeOut(i)}
            >
              ${icon('bin')}<span>${hand.say('tool.shapes.remove')}</span>
            </button>
          </div>
        </li>`;
      })}
    </ul>
  </fieldset>`;
}
