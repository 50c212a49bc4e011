import { html, nothing, type TemplateResult } from 'lit';
import { cssOfLab, leanOf, munsellValue, TUBES, type Lab, type Recipe } from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { put } from '../shared/put.js';
import { columnsOf, wetOf, type ReadDab, type Wet } from './dabs-state.js';
import { middleOf } from './geometry.js';
import type { SheetView, Typing } from './sheet-view.js';

const WETS: readonly Wet[] = ['dry', 'damp', 'satin', 'shining'];

export const valueOf = (event: Event): string =>
  (event.target as HTMLInputElement | HTMLSelectElement).value;

export const paintOf = (lab: Lab): string => cssOfLab(lab).css;

/** A small dab of a colour. */
export const chip = (lab: Lab): TemplateResult =>
  html`<span class="chip" ${put({ background: paintOf(lab) })}></span>`;

/** How even a dab is, by the standard deviation of its L*. Limits are ours. */
function evenness(spread: number): 'even' | 'lively' | 'blotchy' {
  if (spread <= 1.2) return 'even';
  return spread <= 3 ? 'lively' : 'blotchy';
}

/** How sure a reading is, by half the width of its L* range: a tenth of a value is about 1 L*. Limits are ours. */
function sureness(uncertainty: number): 'sure' | 'fair' | 'rough' {
  if (uncertainty <= 1) return 'sure';
  return uncertainty <= 2.5 ? 'fair' : 'rough';
}

/** How wet the sheet is, and its dabs by column. */
export function renderList(view: SheetView): TemplateResult {
  const { say, state } = view;
  const { dabs, wet } = state!;
  const columns = columnsOf(dabs);
  return html`<section class="list" part="list" aria-labelledby="list-title">
    <h3 id="list-title">${say('reader.dabs', { count: dabs.length })}</h3>
    <div class="field">
      <span class="small soft" id="wet-label">${say('reader.sheet-is')}</span>
      <div class="segments" role="group" aria-labelledby="wet-label">
        ${WETS.map(
          (each) =>
            html`<button
              type="button"
              data-wet=${each}
              aria-pressed=${wet === each ? 'true' : 'false'}
              @click=${() => view.wettenAll(each)}
            >
              ${say(`reader.wet-${each}`)}
            </button>`,
        )}
      </div>
    </div>
    <div class="columns" part="columns">
      ${columns.map(
        (column, i) =>
          html`<section class="column" aria-labelledby=${`column-${i}`}>
            <h4 id=${`column-${i}`}>${say('reader.column', { column: i + 1 })}</h4>
            <ol>
              ${column.map((dab) => renderRow(view, dab))}
            </ol>
          </section>`,
      )}
    </div>
  </section>`;
}

function renderRow(view: SheetView, dab: ReadDab): TemplateResult {
  const { say, state } = view;
  const number = view.numberOf(dab.id);
  const wet = wetOf(dab, state!);
  const notes = [
    say(`reader.${sureness(dab.uncertainty)}`),
    ...(evenness(dab.spread) === 'even' ? [] : [say(`reader.${evenness(dab.spread)}`)]),
    ...(wet === 'dry' ? [] : [say(`reader.wet-${wet}`)]),
    ...(dab.recipe ? [say('reader.with-recipe')] : []),
    ...(dab.reasons?.length ? [say('reader.doubtful')] : []),
  ];
  return html`<li>
    <button
      type="button"
      class="row"
      part="dab"
      data-dab=${dab.id}
      aria-pressed=${dab.id === view.picked ? 'true' : 'false'}
      @click=${() => view.pick(dab.id === view.picked ? '' : dab.id)}
    >
      ${chip(dab.lab)}
      <span class="what">
        <span class="main"
          ><span class="number">${number}</span>
          <strong>${say('reader.value', { value: view.value(dab.lab[0]) })}</strong>
          ${dab.name ? html`<span class="name">${dab.name}</span>` : nothing}</span
        >
        <span class="small notes">${notes.join(' · ')}</span>
      </span>
    </button>
  </li>`;
}

/** What is known of the picked dab, and all that can be done to it. */
export function renderPicked(view: SheetView): TemplateResult | typeof nothing {
  const { say, state, picked } = view;
  const dab = state!.dabs.find(({ id }) => id === picked);
  if (!dab) return nothing;
  const number = view.numberOf(picked);
  const [L, a, b] = dab.lab;
  const { name: lean, chroma } = leanOf(dab.lab);
  const columns = columnsOf(state!.dabs).length;
  const [x, y] = middleOf(dab.loops);
  const others = state!.dabs
    .filter(({ id }) => id !== picked)
    .map((other) => {
      const [ox, oy] = middleOf(other.loops);
      return { other, far: Math.hypot((ox - x) * view.aspect, oy - y) };
    })
    .sort((p, q) => p.far - q.far)
    .map(({ other }) => other);
  return html`<section class="picked" part="picked" aria-labelledby="picked-title">
    <div class="head">
      ${chip(dab.lab)}
      <div>
        <h3 id="picked-title">${say('reader.dab', { number })}</h3>
        <p>
          <strong>${say('reader.value', { value: view.value(L) })}</strong>,
          ${say('reader.within', { by: view.number(withinOf(dab), 1) })}
        </p>
      </div>
      <span class="spring"></span>
      <button type="button" class="quiet" @click=${() => view.pick('')}>
        ${icon('close')}<span>${say('reader.close')}</span>
      </button>
    </div>
    <p class="small soft">
      ${say('reader.facts', {
        lightness: view.number(L, 1),
        a: view.number(a, 1),
        b: view.number(b, 1),
        uncertainty: view.number(dab.uncertainty, 1),
        spread: view.number(dab.spread, 1),
      })}
      ${chroma > 0 ? say('reader.leans', { lean: say(`lean.${lean}`) }) : nothing}
    </p>
    <p>
      ${say(`reader.told-${sureness(dab.uncertainty)}`)}
      ${say(`reader.told-${evenness(dab.spread)}`)}
    </p>
    ${dab.reasons?.map((reason) => html`<p data-code=${reason.code}>${view.tell(reason)}</p>`) ?? nothing}
    <div class="fields">
      <label class="field">
        <span class="small soft">${say('reader.name')}</span>
        <input
          type="text"
          data-name
          maxlength="120"
          .value=${dab.name}
          @change=${(event: Event) => view.name(picked, valueOf(event))}
        />
      </label>
      <label class="field">
        <span class="small soft">${say('reader.in')}</span>
        <select
          data-column
          @change=${(event: Event) => view.putInColumn(picked, Number(valueOf(event)))}
        >
          ${Array.from({ length: columns }, (_, i) => i).map(
            (i) =>
              html`<option value=${i} .selected=${i === dab.column}>
                ${say('reader.column', { column: i + 1 })}
              </option>`,
          )}
          <option value=${columns}>${say('reader.column-new')}</option>
        </select>
      </label>
      <label class="field">
        <span class="small soft">${say('reader.dab-is')}</span>
        <select
          data-wetness
          @change=${(event: Event) => view.wetten(picked, valueOf(event) as Wet)}
        >
          ${WETS.map(
            (each) =>
              html`<option value=${each} .selected=${each === wetOf(dab, state!)}>
                ${say(`reader.wet-${each}`)}
              </option>`,
          )}
        </select>
      </label>
    </div>
    ${renderRecipe(view, dab)}
    <div class="acts">
      ${
        others.length === 0
          ? nothing
          : html`<select
              data-join
              aria-label=${say('reader.join-label', { number })}
              @change=${(event: Event) => {
                const other = valueOf(event);
                (event.target as HTMLSelectElement).value = '';
                if (other) view.shaping.join(picked, other);
              }}
            >
              <option value="">${say('reader.join')}</option>
              ${others.map(
                (other) =>
                  html`<option value=${other.id}>
                    ${say('reader.join-with', { number: view.numberOf(other.id), value: view.value(other.lab[0]) })}
                  </option>`,
              )}
            </select>`
      }
      <button
        type="button"
        data-part
        aria-pressed=${view.shaping.doing === 'part' ? 'true' : 'false'}
        @click=${() => view.shaping.do(view.shaping.doing === 'part' ? 'pick' : 'part')}
      >
        ${icon('cut')}<span>${say('reader.part')}</span>
      </button>
      <button type="button" data-drop @click=${() => view.shaping.drop(picked)}>
        ${icon('bin')}<span>${say('reader.drop')}</span>
      </button>
    </div>
  </section>`;
}

/** Half the range of a dab's value, Munsell: the difference of its ends. */
function withinOf({ lab: [L], uncertainty }: ReadDab): number {
  const end = (lightness: number): number => munsellValue(Math.min(100, Math.max(0, lightness)));
  return (end(L + uncertainty) - end(L - uncertainty)) / 2;
}

/** Strengths as a painter says them: the heaviest wash, and let down with water. */
export const TIMES = [1, 2, 4, 8, 16, 32] as const;

function renderRecipe(view: SheetView, dab: ReadDab): TemplateResult {
  const { say, plan, typing } = view;
  const known = plan.board.swatches.filter(({ recipe }) => recipe !== undefined);
  const same = (recipe: Recipe): boolean => JSON.stringify(recipe) === JSON.stringify(dab.recipe);
  const onBoard = known.find(({ recipe }) => same(recipe!))?.id;
  return html`<div class="recipe" part="recipe">
    <label class="field">
      <span class="small soft">${say('reader.recipe')}</span>
      <select
        data-recipe
        @change=${(event: Event) => {
          const chosen = valueOf(event);
          if (chosen === 'type')
            view.type({
              rows: (dab.recipe?.parts ?? [{ tube: '', parts: 1 }]).map(({ tube, parts }) => ({
                tube,
                parts: String(parts),
              })),
              times: 1,
              fault: '',
            });
          else if (chosen !== 'own')
            view.takeRecipe(dab.id, known.find(({ id }) => id === chosen)?.recipe);
        }}
      >
        <option value="" .selected=${!dab.recipe && !typing}>${say('reader.recipe-none')}</option>
        ${
          dab.recipe && !onBoard
            ? html`<option value="own" .selected=${!typing}>${view.recipe(dab.recipe)}</option>`
            : nothing
        }
        ${known.map(
          ({ id, name, recipe }) =>
            html`<option value=${id} .selected=${id === onBoard && !typing}>
              ${name ? `${name}: ` : ''}${view.recipe(recipe!)}
            </option>`,
        )}
        <option value="type" .selected=${typing !== undefined}>${say('reader.recipe-type')}</option>
      </select>
    </label>
    ${typing ? renderTyping(view, dab) : nothing}
  </div>`;
}

/** A field for a tube: those of the shelf first. */
export function tubeOptions(
  view: SheetView,
  chosen: string,
  none: 'choose' | 'any' = 'choose',
): TemplateResult {
  const own = (view.plan.shelf ?? [])
    .map(({ tube }) => tube)
    .filter((id) => TUBES.some((t) => t.id === id));
  const rest = TUBES.map(({ id }) => id).filter((id) => !own.includes(id));
  const option = (id: string): TemplateResult =>
    html`<option value=${id} .selected=${id === chosen}>${view.tubeName(id)}</option>`;
  return html`<option value="" .selected=${chosen === ''}>
      ${view.say(`reader.tube-${none}`)}
    </option>
    ${
      own.length > 0
        ? html`<optgroup label=${view.say('reader.tubes-own')}>${own.map(option)}</optgroup>`
        : nothing
    }
    <optgroup label=${view.say('reader.tubes-all')}>${rest.map(option)}</optgroup>`;
}

/** Times let down with water. */
export function timesOptions(view: SheetView, chosen: number): TemplateResult[] {
  const all = [...new Set<number>([...TIMES, chosen])].sort((a, b) => a - b);
  return all.map(
    (times) =>
      html`<option value=${times} .selected=${times === chosen}>
        ${view.say('reader.let-down', { times })}
      </option>`,
  );
}

function renderTyping(view: SheetView, dab: ReadDab): TemplateResult {
  const { say, typing } = view;
  const { rows, times, fault } = typing!;
  const change = (next: Partial<Typing>): void => {
    if (view.typing) view.type({ ...view.typing, ...next });
  };
  const set = (place: number, to: Partial<(typeof rows)[number]>): void =>
    change({
      rows: view.typing?.rows.map((row, i) => (i === place ? { ...row, ...to } : row)),
      fault: '',
    });
  return html`<form
    class="typed"
    novalidate
    @submit=${(event: Event) => {
      event.preventDefault();
      view.typed(dab.id);
    }}
  >
    ${rows.map(
      ({ tube, parts }, i) =>
        html`<div class="fields">
          <label class="field">
            <span class="small soft">${say('reader.tube-of', { number: i + 1 })}</span>
            <select @change=${(event: Event) => set(i, { tube: valueOf(event) })}>
              ${tubeOptions(view, tube)}
            </select>
          </label>
          <label class="field narrow">
            <span class="small soft">${say('reader.parts')}</span>
            <input
              type="text"
              inputmode="decimal"
              maxlength="8"
              .value=${parts}
              @input=${(event: Event) => set(i, { parts: valueOf(event) })}
            />
          </label>
        </div>`,
    )}
    <label class="field">
      <span class="small soft">${say('reader.strength')}</span>
      <select @change=${(event: Event) => change({ times: Number(valueOf(event)) })}>
        ${timesOptions(view, times)}
      </select>
    </label>
    ${fault ? html`<p class="fault" role="alert">${fault}</p>` : nothing}
    <div class="acts">
      <button type="submit">${icon('check')}<span>${say('reader.recipe-keep')}</span></button>
      ${
        rows.length < 5
          ? html`<button
              type="button"
              class="quiet"
              @click=${() => change({ rows: [...rows, { tube: '', parts: '1' }] })}
            >
              ${icon('plus')}<span>${say('reader.tube-more')}</span>
            </button>`
          : nothing
      }
      <button type="button" class="quiet" @click=${() => view.type(undefined)}>
        ${icon('close')}<span>${say('reader.leave')}</span>
      </button>
    </div>
  </form>`;
}
