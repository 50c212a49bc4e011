import { html, nothing, type TemplateResult } from 'lit';
import {
  isLasting,
  lastingFor,
  TUBES,
  TUBES_WITHOUT_DATA,
  type Lasting,
  type Reason,
  type ShelfTube,
  type Tube,
  type TubeWithoutData,
} from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { breakableName } from '../shared/paint-words.js';
import { put } from '../shared/put.js';
import { renderFit } from './fit-view.js';
import { known, mixable, nearestLasting, washOf } from './mixture.js';
import type { WellView } from './well-view.js';

/**
 * A shelf to begin with: two yellows, an earth, two reds, two blues and a green that all last and of which no hazard is noted here.
 * Common practice, no source.
 */
export const USUAL_SHELF = [
  'hansa-yellow',
  'yellow-ochre',
  'burnt-sienna',
  'pyrrole-red',
  'quinacridone-rose',
  'ultramarine',
  'phthalo-blue',
  'phthalo-green',
] as const;

/** Cautions that are not about health. */
const NO_HAZARDS: ReadonlySet<string> = new Set([
  'paint.fades',
  'paint.fades-or-darkens',
  'paint.rated-apart',
  'paint.blend',
  'paint.stand-in',
  'paint.no-data',
]);

/** Whether a caution is about health. */
const isHazard = ({ code }: Reason): boolean => !NO_HAZARDS.has(code);

type AnyTube = Tube | TubeWithoutData;

const withTube = ({ code, values }: Reason, paint: string): Reason => ({
  code,
  values: { ...values, paint },
});

/** The shelf: its pans, what is told about one of them, and the list that tubes are chosen from. */
export function renderShelf(view: WellView): TemplateResult {
  const { shelf, say, choosing, plan } = view;
  const empty = shelf.length === 0;
  return html`<section
    class="shelf"
    part="shelf"
    aria-labelledby="shelf-title"
    @keydown=${(event: KeyboardEvent) => leave(view, event)}
  >
    <div class="head">
      <h3 id="shelf-title">${say('well.shelf')}</h3>
      ${empty ? nothing : html`<span class="soft small">${say('well.tubes', { count: shelf.length })}</span>`}
      <span class="spring"></span>
      ${
        empty
          ? nothing
          : html`<label class="tick">
                <input
                  type="checkbox"
                  .checked=${plan.sold ?? false}
                  @change=${(event: Event) => view.sell((event.target as HTMLInputElement).checked)}
                />
                <span>${say('well.sold')}</span>
              </label>
              <button
                type="button"
                class="quiet choose"
                aria-expanded=${choosing ? 'true' : 'false'}
                @click=${() => view.choose(!choosing)}
              >
                ${icon(choosing ? 'check' : 'shelf')}<span
                  >${say(choosing ? 'well.chosen' : 'well.choose')}</span
                >
              </button>`
      }
    </div>
    ${empty && !choosing ? renderEmptyShelf(view) : nothing}
    ${choosing ? renderChooser(view) : nothing}
    ${
      empty
        ? nothing
        : html`<ul class="pans" part="pans" @keydown=${moveAmongPans}>
            ${shelf.map((tube) => renderPan(view, tube))}
          </ul>`
    }
  </section>`;
}

/** Escape closes what was opened last. */
function leave(view: WellView, event: KeyboardEvent): void {
  if (event.key !== 'Escape' || !(view.about || view.choosing)) return;
  event.preventDefault();
  if (view.about) view.tell('');
  else view.choose(false);
}

/** The pans are one stop of the tab key: arrows, Home and End go from one to the next. */
function moveAmongPans(event: KeyboardEvent): void {
  const from = (event.target as Element).closest<HTMLElement>('.place > button');
  if (!from) return;
  const kind = from.classList.contains('pan') ? 'button.pan' : '.about';
  const list = event.currentTarget as Element;
  // Of a paint without data there is no pan to press, only what is told of it.
  const places = [...list.querySelectorAll<HTMLElement>(`.place:has(> ${kind})`)];
  const at = places.indexOf(from.parentElement!);
  const onward = from.matches(':dir(rtl)') ? -1 : 1;
  const to = {
    ArrowRight: places[at + onward],
    ArrowLeft: places[at - onward],
    ArrowDown: underneath(places.slice(at + 1), places[at]),
    ArrowUp: underneath(places.slice(0, at).reverse(), places[at]),
    Home: places[0],
    End: places.at(-1),
  }[event.key];
  if (!to) return;
  event.preventDefault();
  to.querySelector<HTMLElement>(kind)!.focus();
}

/** Of the places that follow the first one in the same column. */
function underneath(places: HTMLElement[], { offsetLeft }: HTMLElement): HTMLElement | undefined {
  return places.find((place) => Math.abs(place.offsetLeft - offsetLeft) < 1);
}

function renderEmptyShelf(view: WellView): TemplateResult {
  const { say, now } = view;
  return html`<div class="empty" part="empty">
    <div class="sketch" aria-hidden="true">
      ${USUAL_SHELF.map((id) => html`<span class="wash" ${put({ background: washOf(id, now.ground) })}></span>`)}
    </div>
    <div class="says">
      <p class="lead">${say('well.empty-shelf')}</p>
      <p class="soft">${say('well.empty-shelf-how')}</p>
      <div>
        <button type="button" class="begin" @click=${() => view.begin()}>
          ${icon('plus')}<span>${say('well.begin')}</span>
        </button>
        <button
          type="button"
          class="choose"
          aria-expanded="false"
          @click=${() => view.choose(true)}
        >
          ${icon('shelf')}<span>${say('well.choose-all')}</span>
        </button>
      </div>
      <p class="soft small">
        ${say('well.empty-shelf-eight', { tubes: USUAL_SHELF.map((id) => view.name(id)).join(', ') })}
      </p>
    </div>
  </div>`;
}

/** One pan, and below the row what is told about it. */
function renderPan(view: WellView, { tube: id }: ShelfTube): TemplateResult {
  const { say, now, parts, about, here } = view;
  const what = known(id);
  const stop = (at: string): string => (at === id ? '0' : '-1');
  const spoons = parts.find(({ tube }) => tube === id)?.parts ?? 0;
  const open = about === id;
  const paint = what.kind === 'tube' ? washOf(id, now.ground) : undefined;
  const notes = what.kind === 'unknown' ? [] : notesOf(view, what.tube);
  const standIn = what.kind === 'tube' ? standInWords(view, what.tube) : '';
  const name = view.name(id);
  const indices = what.kind === 'unknown' ? '' : what.tube.colourIndex.join(' ');
  const inside = html`
    <span class=${paint ? 'wash' : 'wash none'} ${put(paint ? { background: paint } : {})}>
      ${paint ? nothing : html`<span class="none-word small">${say('well.no-data')}</span>`}
      ${
        spoons > 0
          ? html`<span class="count"
              >${view.number(spoons, 2)}<span class="away">
                ${say('well.pan-spoons', { spoons })}</span
              ></span
            >`
          : nothing
      }
    </span>
    <span class="pan-name">${breakableName(id, say)}</span>
    <span class="soft tiny">${indices}</span>
    ${notes.map((note) => html`<span class="note tiny">${note}</span>`)}
    ${standIn ? html`<span class="tiny told">${standIn}</span>` : nothing}
  `;
  return html`<li class="place" @focusin=${() => view.stand(id)}>
      ${
        what.kind === 'tube'
          ? html`<button
              type="button"
              class="pan"
              part="pan"
              data-tube=${id}
              tabindex=${stop(known(here).kind === 'tube' ? here : mixable(view.shelf)[0])}
              @click=${() => view.add(id)}
            >
              ${inside}
            </button>`
          : html`<div class="pan still" part="pan" data-tube=${id}>${inside}</div>`
      }
      <button
        type="button"
        class="quiet about"
        data-about=${id}
        tabindex=${stop(here)}
        aria-expanded=${open ? 'true' : 'false'}
        aria-label="${say('well.about')}: ${name}"
        @click=${() => view.tell(open ? '' : id)}
      >
        ${icon('more')}<span>${say('well.about')}</span>
      </button>
    </li>
    ${open ? html`<li class="card" part="about">${renderAbout(view, id)}</li>` : nothing}`;
}

/** What must be seen at the pan itself, in a few words. */
function notesOf({ plan, say }: WellView, tube: AnyTube): string[] {
  const notes: string[] = [];
  if (tube.lightfastness === 'fugitive') notes.push(say('lasting.fugitive'));
  else if (!isLasting(tube as Tube) && plan.sold) notes.push(say('lasting.doubtful'));
  return notes;
}

/** Whose data stand for those of a tube that has none of its own. */
function standInWords({ say, name }: WellView, { standIn }: Tube): string {
  return standIn === undefined ? '' : say('well.stand-in', { tube: name(standIn) });
}

/** The nearest tube that lasts: among the painter's own if it has one that is near, else among all. */
function lastingNear({ shelf }: WellView, id: string): Lasting | undefined {
  const own = lastingFor(id, mixable(shelf));
  const any = nearestLasting(id);
  return own && any && own.deltaE <= any.deltaE + 2 ? own : any;
}

function renderAbout(view: WellView, id: string): TemplateResult {
  const { say, shelf, plan, now } = view;
  const what = known(id);
  const close = html`<button type="button" class="quiet" @click=${() => view.tell('')}>
    ${icon('close')}<span>${say('well.close')}</span>
  </button>`;
  const remove = html`<button type="button" data-remove=${id} @click=${() => view.take(id)}>
    ${icon('bin')}<span>${say('well.take-off')}</span>
  </button>`;
  const title = html`<div class="title">
    <div>
      <h4>${view.name(id)}</h4>
      ${
        what.kind === 'unknown'
          ? nothing
          : html`<span class="soft small">${what.tube.colourIndex.join(' ')}</span>`
      }
    </div>
    ${close}
  </div>`;
  if (what.kind === 'unknown')
    return html`${title}
      <p>${say('well.unknown-tube', { id })}</p>
      <div class="acts">${remove}</div>`;
  const { tube } = what;
  const lasts = isLasting(tube as Tube);
  const lasting = what.kind === 'tube' && !lasts ? lastingNear(view, id) : undefined;
  const near = what.kind === 'no-data' ? what.tube.near : lasting ? [lasting.tube] : [];
  const others = near.filter((each) => !onShelf(shelf, each));
  return html`${title}
    <div class="about-body">
      ${
        what.kind === 'tube'
          ? html`<div
              class="strip still"
              role="img"
              aria-label=${say('well.wash-of', { name: view.name(id) })}
              ${put({ background: washOf(id, now.ground).replace('to bottom', 'to right') })}
            ></div>`
          : nothing
      }
      <ul class="traits">
        <li>${say(`transparency.${tube.transparency}`)}</li>
        <li>${say(`staining.${tube.staining}`)}</li>
        <li>${say(`granulation.${tube.granulation}`)}</li>
        <li>${say(`lasting.${tube.lightfastness}`)}</li>
      </ul>
      ${
        tube.cautions.length > 0 || (!lasts && plan.sold)
          ? html`<ul class="remarks" part="cautions">
              ${tube.cautions.map((caution) => html`<li>${view.paint(withTube(caution, id))}</li>`)}
              ${
                !lasts
                  ? html`<li>
                      ${plan.sold ? html`<b>${say('well.not-for-sale')}</b> ` : nothing}
                      ${
                        lasting
                          ? `${say('paint.lasting-near', { tube: view.name(lasting.tube) })} ${view.paint(lasting.differs)}`
                          : nothing
                      }
                    </li>`
                  : nothing
              }
            </ul>`
          : nothing
      }
      <p class="soft small">${say('well.traits-source')}</p>
      ${what.kind === 'tube' ? renderFit(view, id) : nothing}
    </div>
    <div class="acts">
      ${others.map(
        (each) =>
          html`<button type="button" data-put=${each} @click=${() => view.put(each)}>
            ${icon('plus')}<span>${say('well.put-near', { name: view.name(each) })}</span>
          </button>`,
      )}
      ${remove}
    </div>`;
}

const onShelf = (shelf: readonly ShelfTube[], id: string): boolean =>
  shelf.some(({ tube }) => tube === id);

/** All tubes, with what has to be known before one is bought or used. */
function renderChooser(view: WellView): TemplateResult {
  const { say, shelf } = view;
  return html`<div class="chooser" part="chooser">
    <p class="small">${say('well.choose-hint')}</p>
    <div class="acts">
      <button type="button" @click=${() => view.choose(false)}>
        ${icon('check')}<span>${say('well.chosen')}</span>
      </button>
      <span class="soft small">${say('well.tubes', { count: shelf.length })}</span>
    </div>
    <ul class="tubes">
      ${[...TUBES, ...TUBES_WITHOUT_DATA].map((tube) => renderTube(view, tube))}
    </ul>
  </div>`;
}

function renderTube(view: WellView, tube: AnyTube): TemplateResult {
  const { say, shelf, now } = view;
  const { id } = tube;
  const paint = 'K' in tube ? washOf(id, now.ground) : undefined;
  const checked = onShelf(shelf, id);
  const hazards = tube.cautions.filter(isHazard);
  const told = [
    ...notesOf(view, tube),
    ...hazards.map(({ code }) => say(`well.hazard-${code.replace('paint.', '')}`)),
  ];
  const data = 'K' in tube ? standInWords(view, tube) : say('well.no-data');
  return html`<li>
    <label class="tube">
      <input
        type="checkbox"
        data-choose=${id}
        .checked=${checked}
        @change=${() => (checked ? view.take(id) : view.put(id))}
      />
      <span class=${paint ? 'chip' : 'chip none'} ${put(paint ? { background: paint } : {})}></span>
      <span class="tube-words">
        <span class="tube-name">${view.name(id)}</span>
        <span class="soft small">${tube.colourIndex.join(' ')}</span>
        ${data ? html`<span class="small told">${data}</span>` : nothing}
        ${told.length > 0 ? html`<span class="small note">${told.join(' · ')}</span>` : nothing}
        ${
          checked
            ? [...hazards, ...tube.cautions.filter(({ code }) => code === 'paint.no-data')].map(
                (caution) => html`<span class="small">${view.paint(withTube(caution, id))}</span>`,
              )
            : nothing
        }
      </span>
    </label>
  </li>`;
}
