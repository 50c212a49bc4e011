import { html, nothing, type TemplateResult } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { munsellValue, type BoardSwatch } from '../shared/core.js';
import { icon } from '../shared/icons.js';
import type { BoardView } from './board-view.js';
import { dab, mark, paintOf } from './dabs.js';
import { renderSwatchForm } from './form-views.js';
import { dryLightness, markOf, reasonInValues, tenth, valueDistance } from './verdict-words.js';

/**
 * Everything that a card shows: as long as it stays the same, the card is left as it is. On a board of hundreds most cards do, whatever a
 * person does to one. A card whose form is open is always drawn anew.
 */
export function shownBy(view: BoardView, swatch: BoardSwatch): unknown[] {
  const { id } = swatch;
  return [
    ...toldBy(view, swatch),
    view.lifted === id,
    view.drag?.id === id,
    view.pointed === id,
    view.greys,
  ];
}

/** Everything that is told of a swatch in words, and its form: where that stays, only the dab is drawn anew. */
function toldBy(view: BoardView, swatch: BoardSwatch): unknown[] {
  const { id } = swatch;
  const said = view.verdicts.get(id);
  const others = said?.reasons.map(({ values: { other } }) =>
    typeof other === 'string' ? view.nameOf(other) : '',
  );
  return [
    view.form?.kind === 'swatch' && view.form.id === id ? {} : '',
    swatch,
    said,
    others?.join('\n'),
    view.verdict === undefined,
    view.paper,
    view.open,
    view.mixes,
    toldOfAccent(view, swatch).join(),
    view.words,
  ];
}

/** One swatch: the dab, its name and value, the verdict in words, and its form when that is open. */
export function renderCard(view: BoardView, swatch: BoardSwatch): TemplateResult {
  const { id } = swatch;
  const lifted = view.lifted === id;
  const dragged = view.drag?.id === id;
  return html`<li
    class=${`card${lifted ? ' lifted' : ''}${dragged ? ' dragged' : ''}${view.pointed === id ? ' pointed' : ''}`}
    part="swatch"
    data-id=${id}
    @pointerenter=${() => view.point(id)}
    @pointerleave=${() => view.point(undefined)}
  >
    ${renderDab(view, swatch, lifted)}
    ${guard(toldBy(view, swatch), () => renderTold(view, swatch))}
  </li>`;
}

/** What stands beside and below the dab. */
function renderTold(view: BoardView, swatch: BoardSwatch): TemplateResult {
  const { id } = swatch;
  const open = view.form?.kind === 'swatch' && view.form.id === id;
  const name = view.nameOf(id);
  return html`<div class="said">
      <span class="name">${name}</span>
      ${renderFigures(view, swatch)}
    </div>
    ${view.mixes?.renderRecipe(swatch) ?? nothing} ${renderWhy(view, swatch)}
    ${renderAccent(view, swatch)}
    ${swatch.note ? html`<p class="note" part="note">${swatch.note}</p>` : nothing}
    ${view.open || view.verdict ? renderOpener(view, id, name, open) : nothing}
    ${open ? renderSwatchForm(view, swatch) : nothing}`;
}

/** Opens the form of a swatch, or its figures where it cannot be changed. */
function renderOpener(view: BoardView, id: string, name: string, open: boolean): TemplateResult {
  const word = view.say(view.open ? 'dab.change' : 'dab.details');
  return html`<button
    type="button"
    class="quiet tool"
    aria-expanded=${open}
    aria-label="${word}: ${name}"
    @click=${() => view.show(open ? undefined : { kind: 'swatch', id })}
  >
    ${icon(view.open ? 'pen' : 'more')}<span>${word}</span>
  </button>`;
}

function renderDab(view: BoardView, swatch: BoardSwatch, lifted: boolean): TemplateResult {
  const { id } = swatch;
  const label = guard(toldBy(view, swatch), () => labelOfDab(view, swatch));
  const drawing = html`<svg viewBox="0 0 120 76" preserveAspectRatio="none" aria-hidden="true">
    ${dab(id, paintOf(swatch, view.greys))}
  </svg>`;
  if (!view.open)
    return html`<span class="dab" part="dab" role="img" aria-label=${label}>${drawing}</span>`;
  return html`<button
    type="button"
    class="dab"
    part="dab"
    data-dab=${id}
    aria-label=${label}
    aria-describedby="hint"
    aria-pressed=${lifted}
    @pointerdown=${(event: PointerEvent) => view.dragging.down(event, id)}
    @touchmove=${view.dragging.onTouchMove}
    @contextmenu=${(event: Event) => view.dragging.now && event.preventDefault()}
    @keydown=${(event: KeyboardEvent) => view.keyOnDab(event, id)}
    @keyup=${(event: KeyboardEvent) => event.key === ' ' && event.preventDefault()}
    @focus=${() => view.point(id)}
    @blur=${() => view.leaveDab(id)}
    @click=${() => view.dragging.swallowsClick() || view.show({ kind: 'swatch', id })}
  >
    ${drawing}
  </button>`;
}

function labelOfDab(view: BoardView, swatch: BoardSwatch): string {
  const said = view.verdicts.get(swatch.id);
  const name = view.nameOf(swatch.id);
  if (!said) return view.say('dab.label-plain', { name });
  const verdict = view.say(`verdict.${markOf(swatch, said)}`);
  return view.say('dab.label', { name, value: munsellValue(swatch.lightness), verdict });
}

function renderFigures(view: BoardView, swatch: BoardSwatch): TemplateResult | typeof nothing {
  const said = view.verdicts.get(swatch.id);
  if (!said && swatch.accent)
    return html`<span class="verdict">${view.say('verdict.accent')}</span>`;
  if (!said)
    return view.verdict
      ? html`<span class="verdict judging" part="verdict">${view.say('verdict.judging')}</span>`
      : nothing;
  const kind = markOf(swatch, said);
  const by = tenth(valueDistance(dryLightness(swatch, view.paper), said.margin));
  // What fits says so in its sentence; of an accent and of what is not sure no margin can be asked.
  const margin =
    kind === 'fits' || kind === 'accent' || kind === 'unsure' || by === 0
      ? ''
      : view.say(by < 0 ? 'dab.margin-out' : 'dab.margin-in', { by: Math.abs(by) });
  return html`<span class="verdict ${kind}" part="verdict"
      ><svg class="mark" viewBox="0 0 24 24" aria-hidden="true">${mark(kind)}</svg
      ><b>${view.say(`verdict.${kind}`)}</b></span
    >
    <span class="figures"
      >${view.say(swatch.wet ? 'dab.value-wet' : 'dab.value', { value: munsellValue(swatch.lightness) })}${margin ? html`<span class="margin">${margin}</span>` : nothing}</span
    >`;
}

/** What an accent is among its neutrals; its figures would tell a verdict that is hidden. */
function toldOfAccent(view: BoardView, swatch: BoardSwatch): string[] {
  return swatch.accent && view.verdict ? (view.accents?.told(view, swatch) ?? []) : [];
}

function renderAccent(view: BoardView, swatch: BoardSwatch): TemplateResult | typeof nothing {
  const told = toldOfAccent(view, swatch);
  if (told.length === 0) return nothing;
  return html`<div class="why" part="accent">${told.map((each) => html`<p>${each}</p>`)}</div>`;
}

/** A sentence for each reason. */
function renderWhy(view: BoardView, swatch: BoardSwatch): TemplateResult | typeof nothing {
  const said = view.verdicts.get(swatch.id);
  if (!said) return nothing;
  const at = dryLightness(swatch, view.paper);
  return html`<div class="why" part="why">
    ${said.reasons.map((reason) => html`<p>${view.tell(reasonInValues(reason, at, view.nameOf))}</p>`)}
  </div>`;
}
