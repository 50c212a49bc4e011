import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import {
  pathOf,
  type Jobs,
  type Mark,
  type MassOverrule,
  type Masses,
  type Overrule,
  type Plan,
  type Reason,
  type Spot,
} from '../../shared/core.js';
import { icon, type IconName } from '../../shared/icons.js';
import { massesAsked, MassesInHand, type MassWork } from '../../shared/masses-in-hand.js';
import { bySize, factsOf, pxPerMmOf } from '../mass-facts.js';
import type { StageTool, StageView } from '../stage-tool.js';
import { HandTool, isCommand } from './hand-tool.js';
import { closedLoop } from './loop-geometry.js';
import {
  axisOf,
  insideOf,
  lockOf,
  regionUnder,
  spotOf,
  withChange,
  withoutChange,
  wordOnMark,
} from './shape-changes.js';

/** What the hand does in the picture. */
type Doing = 'point' | 'cut' | 'finer' | 'stroke' | 'pin';
const DOINGS: readonly (readonly [Doing, IconName])[] = [
  ['point', 'spot'],
  ['cut', 'cut'],
  ['finer', 'loop'],
  ['stroke', 'brush'],
  ['pin', 'plus'],
];

type Ground = NonNullable<Plan['background']>;
const GROUNDS: readonly Ground[] = ['as-photo', 'paper', 'wash', 'dark'];
const EDGES = ['hard', 'soft', 'lost'] as const;
const METHODS = ['bare', 'tint', 'mask', 'paint'] as const;
/** Ways a stroke may run, image y down. */
const WAYS: readonly (readonly [string, number, number])[] = [
  ['up', 0, -1],
  ['right', 1, 0],
  ['down', 0, 1],
  ['left', -1, 0],
];
/** How long a stroke given by keys is, as a fraction of the photo. */
const STROKE = 0.08;
/** Radius of a mark that is pinned, of the photo's longer side. */
const PIN = 0.008;
/** Marks offered in the list. */
const MOST_MARKS = 12;
/** Neighbours offered in the list. */
const MOST_NEIGHBOURS = 8;

/** What was found is changed by hand: masses, edges, reserves, marks, strokes, finer parts, the ground. */
export class ShapesTool extends HandTool implements StageTool {
  readonly name = 'shapes';
  readonly word = 'tool.shapes';
  readonly icon = 'tracing';

  #release?: () => void;
  #picked?: number;
  #pickedAt?: Spot;
  #doing: Doing = 'point';
  #pointer?: number;
  #line: Spot[] = [];
  #said = '';
  #grounds?: { of: Masses; choices: Jobs['grounds']['out']['choices'] };
  #asking?: AbortController;
  #path?: { of: MassWork; region: number; d: string };

  get #hand(): MassesInHand {
    return MassesInHand.of(this.store);
  }

  takenUp(): void {
    this.#release = this.#hand.hold();
    this.#hand.addEventListener('masses', this.#onMasses);
    this.#onMasses();
  }

  laidDown(): void {
    this.#hand.removeEventListener('masses', this.#onMasses);
    this.#release?.();
    this.#asking?.abort();
    this.#picked = this.#pickedAt = this.#pointer = undefined;
    this.#line = [];
    this.#said = '';
    this.#doing = 'point';
    this.#path = undefined;
  }

  renderOverlay(view: StageView): SVGTemplateResult | typeof nothing {
    const { work, plan } = this.#hand.state;
    const drawing = this.#line.length > 1 ? pathThrough(this.#line, view) : '';
    const focus = (this.plan.focus ?? []).map(({ loop }) => `${pathThrough(loop, view)}Z`).join('');
    const cuts = this.plan.overrules
      .filter(({ kind, line }) => kind === 'split' && Array.isArray(line))
      .map(({ line }) => pathThrough(line as Spot[], view))
      .join('');
    return svg`
      ${work && plan && this.#picked !== undefined ? this.#renderPicked(work, plan, view) : nothing}
      ${focus ? svg`<path class="tool-under" d=${focus}/><path class="tool-line tool-dashed" d=${focus}/>` : nothing}
      ${cuts ? svg`<path class="tool-under" d=${cuts}/><path class="tool-line" d=${cuts}/>` : nothing}
      ${drawing ? svg`<path class="tool-under" d=${drawing}/><path class="tool-line" d=${drawing}/>` : nothing}`;
  }

  #renderPicked(work: MassWork, plan: Plan, view: StageView): SVGTemplateResult | typeof nothing {
    const region = this.#picked!;
    const outline = work.outlines[region];
    if (!outline) return nothing;
    if (this.#path?.of !== work || this.#path.region !== region)
      this.#path = { of: work, region, d: pathOf(outline) };
    const { width, height } = work.masses.map;
    const [left, top] = view.toStage(spotOf(plan, work.masses, 0, 0));
    const [right, bottom] = view.toStage(spotOf(plan, work.masses, width, height));
    const place = `matrix(${(right - left) / width} 0 0 ${(bottom - top) / height} ${left} ${top})`;
    return svg`<g transform=${place} class="tool-mass">
      <path class="tool-under" d=${this.#path.d}/><path class="tool-line" d=${this.#path.d}/>
    </g>`;
  }

  renderPanel(): TemplateResult {
    const { work, status, progress, error } = this.#hand.state;
    return html`<div class="tool">
      <p class="tool-lead">${this.say('tool.shapes.lead')}</p>
      ${this.#renderBrush()}
      ${
        error
          ? html`<div class="trouble" role="alert">
              <span>${this.host.sentenceOf(error)}</span>
              <button type="button" @click=${() => this.#hand.again()}>
                ${this.say('tool.shapes.again')}
              </button>
            </div>`
          : nothing
      }
      ${
        work
          ? html`${this.#renderDoings()} ${this.#renderMass(work)} ${this.#renderMarks(work)}
            ${this.#renderGround()} ${this.#renderFocus()} ${this.#renderChanges(work)}`
          : html`<p class="tool-note" role="status">
              ${this.say(status === 'working' ? 'tool.shapes.working' : 'tool.shapes.no-photo', { done: 100 * progress })}
            </p>`
      }
      <p class="tool-note">${this.say('tool.shapes.keys')}</p>
    </div>`;
  }

  #renderBrush(): TemplateResult | typeof nothing {
    const { brushes, brush = 0 } = this.plan;
    if (brushes.length < 2) return nothing;
    return html`<label class="tool-field">
      <span>${this.say('tool.shapes.brush')}</span>
      <select
        @change=${(event: Event) => {
          const to = Number((event.target as HTMLSelectElement).value);
          this.store.change('brush', (plan) => ({ ...plan, brush: to }));
        }}
      >
        ${brushes.map(
          ({ name, pressedMm }, i) =>
            html`<option value=${i} ?selected=${i === brush}>
              ${name} · ${this.host.lengthOf(pressedMm)}
            </option>`,
        )}
      </select>
    </label>`;
  }

  #renderDoings(): TemplateResult {
    return html`<div class="tool-row" role="group" aria-label=${this.say('tool.shapes.doing')}>
        ${DOINGS.map(
          ([doing, drawing]) =>
            html`<button
              type="button"
              aria-pressed=${doing === this.#doing ? 'true' : 'false'}
              @click=${() => {
                this.#doing = doing;
                this.#said = '';
                this.host.requestUpdate();
              }}
            >
              ${icon(drawing)}<span>${this.say(`tool.shapes.${doing}`)}</span>
            </button>`,
        )}
      </div>
      <p class="tool-note">${this.say(`tool.shapes.${this.#doing}-hint`)}</p>
      ${this.#said ? html`<p class="tool-refused" role="alert">${this.#said}</p>` : nothing}`;
  }

  #renderMass(work: MassWork): TemplateResult {
    const region = this.#picked === undefined ? undefined : work.masses.regions[this.#picked];
    return html`<fieldset class="tool-group">
      <legend>${this.say('tool.shapes.mass')}</legend>
      <div class="tool-row">
        <button type="button" @click=${() => this.#step(-1)}>
          ${this.say('tool.shapes.larger')}
        </button>
        <button type="button" @click=${() => this.#step(1)}>
          ${this.say('tool.shapes.smaller')}
        </button>
      </div>
      ${region === undefined ? html`<p>${this.say('tool.shapes.none')}</p>` : this.#renderPickedMass(work, region.id)}
    </fieldset>`;
  }

  #renderPickedMass(work: MassWork, id: number): TemplateResult {
    const { masses } = work;
    const region = masses.regions[id];
    const names = this.#bandNames(masses.map.bands);
    const locked = this.#changeOf('lock', id);
    const kept = this.#changeOf('reserve', id);
    const method = kept === undefined ? '' : String(this.plan.overrules[kept].method);
    return html`<p>${this.#massInWords(work, id)}</p>
      <div class="tool-row" role="group" aria-label=${this.say('tool.shapes.band')}>
        ${names.map(
          (name, band) =>
            html`<button
              type="button"
              aria-pressed=${band === region.band ? 'true' : 'false'}
              @click=${() => this.#toBand(id, band)}
            >
              ${name}
            </button>`,
        )}
      </div>
      <label class="tool-field">
        <span>${this.say('tool.shapes.keep')}</span>
        <select
          @change=${(event: Event) => this.#keep(id, (event.target as HTMLSelectElement).value)}
        >
          <option value="" ?selected=${method === ''}>${this.say('tool.shapes.keep-found')}</option>
          ${METHODS.map(
            (each) =>
              html`<option value=${each} ?selected=${each === method}>
                ${this.say(`tool.shapes.keep-${each}`)}
              </option>`,
          )}
        </select>
      </label>
      <div class="tool-row">
        <button type="button" @click=${() => this.#cut(axisOf(this.plan, masses, id, true))}>
          ${icon('cut')}<span>${this.say('tool.shapes.cut-across')}</span>
        </button>
        <button type="button" @click=${() => this.#cut(axisOf(this.plan, masses, id, false))}>
          ${icon('cut')}<span>${this.say('tool.shapes.cut-along')}</span>
        </button>
        <button
          type="button"
          aria-pressed=${locked === undefined ? 'false' : 'true'}
          @click=${() => this.#lock(work, id, locked)}
        >
          ${icon('lock')}<span>${this.say('tool.shapes.lock')}</span>
        </button>
        <button type="button" @click=${() => this.#finerAbout(work, id)}>
          ${icon('loop')}<span>${this.say('tool.shapes.finer-about')}</span>
        </button>
      </div>
      <div class="tool-row" role="group" aria-label=${this.say('tool.shapes.way')}>
        <span>${this.say('tool.shapes.way')}</span>
        ${WAYS.map(
          ([way, dx, dy]) =>
            html`<button type="button" @click=${() => this.#strokeFrom(id, dx, dy)}>
              ${this.say(`tool.shapes.way-${way}`)}
            </button>`,
        )}
      </div>
      ${this.#renderNeighbours(work, id)}`;
  }

  #renderNeighbours(work: MassWork, id: number): TemplateResult {
    const { masses, edges } = work;
    const beside = edges
      .filter(({ regions }) => regions.includes(id))
      .sort((a, b) => b.lengthPx - a.lengthPx);
    return html`<ul class="tool-list">
      ${beside.slice(0, MOST_NEIGHBOURS).map(({ regions, kind, lengthPx }) => {
        const other = regions[0] === id ? regions[1] : regions[0];
        const name = this.#shortName(work, other);
        const mm = lengthPx / pxPerMmOf(this.plan, masses);
        return html`<li class="tool-item">
          <div class="tool-row">
            <span class="tool-grow">
              ${this.say('tool.shapes.beside', { mass: name, length: this.host.lengthOf(mm) })}
            </span>
            <select
              aria-label=${this.say('tool.shapes.edge-to', { mass: name })}
              @change=${(event: Event) => this.#edge(id, other, (event.target as HTMLSelectElement).value)}
            >
              ${EDGES.map(
                (edge) =>
                  html`<option value=${edge} ?selected=${edge === kind}>
                    ${this.say(`tool.shapes.edge-${edge}`)}
                  </option>`,
              )}
            </select>
            <button
              type="button"
              aria-label=${this.say('tool.shapes.join-to', { mass: name })}
              @click=${() => this.#join(id, other)}
            >
              ${this.say('tool.shapes.join')}
            </button>
            <button
              type="button"
              class="quiet"
              aria-label=${this.say('tool.shapes.go-to', { mass: name })}
              @click=${() => this.#pick(other)}
            >
              ${this.say('tool.shapes.go')}
            </button>
          </div>
        </li>`;
      })}
    </ul>`;
  }

  #renderMarks({ masses }: MassWork): TemplateResult {
    const marks = masses.marks.slice(0, MOST_MARKS);
    const markings = this.plan.brief?.markings ?? [];
    return html`<fieldset class="tool-group">
      <legend>${this.say('tool.shapes.marks')}</legend>
      <p class="tool-note">
        ${this.say(marks.length > 0 ? 'tool.shapes.marks-lead' : 'tool.shapes.marks-none')}
      </p>
      <ul class="tool-list">
        ${marks.map((mark, i) => {
          const word = wordOnMark(this.plan, masses, mark);
          const keep = word?.keep !== false;
          const size = (2 * Math.sqrt(mark.area / Math.PI)) / pxPerMmOf(this.plan, masses);
          const name = this.say(
            mark.contrast > 0 ? 'tool.shapes.mark-light' : 'tool.shapes.mark-dark',
            {
              number: i + 1,
              size: this.host.lengthOf(size),
              contrast: Math.abs(mark.contrast),
            },
          );
          return html`<li class="tool-item">
            <div class="tool-row">
              <label class="tool-grow">
                <input
                  type="checkbox"
                  .checked=${keep}
                  @change=${(event: Event) => this.#mark(masses, mark, (event.target as HTMLInputElement).checked)}
                />
                ${name}
              </label>
              ${
                markings.length > 0
                  ? html`<select
                      aria-label=${this.say('tool.shapes.marking-of', { mark: name })}
                      @change=${(event: Event) => this.#mark(masses, mark, true, (event.target as HTMLSelectElement).value)}
                    >
                      <option value="">${this.say('tool.shapes.marking-none')}</option>
                      ${markings.map(
                        ({ id, text }) =>
                          html`<option value=${id} ?selected=${word?.marking === id}>
                            ${text}
                          </option>`,
                      )}
                    </select>`
                  : nothing
              }
            </div>
          </li>`;
        })}
      </ul>
    </fieldset>`;
  }

  #renderGround(): TemplateResult {
    const { sitter, background = 'as-photo' } = this.plan;
    const contrast = (choice: Ground): string => {
      const found = this.#grounds?.choices.find((each) => each.choice === choice);
      return found && found.lengthPx > 0
        ? this.say('tool.shapes.ground-contrast', { mean: found.mean, lost: 100 * found.lostShare })
        : '';
    };
    return html`<fieldset class="tool-group">
      <legend>${this.say('tool.shapes.ground')}</legend>
      ${
        sitter
          ? html`${GROUNDS.map(
              (choice) =>
                html`<label class="tool-row">
                  <input
                    type="radio"
                    name="ground"
                    .checked=${choice === background}
                    @change=${() => this.#ground(choice)}
                  />
                  <span>${this.say(`tool.shapes.ground-${choice}`)}</span>
                  <span class="soft">${contrast(choice)}</span>
                </label>`,
            )}`
          : html`<p>${this.say('tool.shapes.ground-no-sitter')}</p>`
      }
    </fieldset>`;
  }

  #renderFocus(): TemplateResult | typeof nothing {
    const { focus = [], brushes } = this.plan;
    if (focus.length === 0) return nothing;
    return html`<fieldset class="tool-group">
      <legend>${this.say('tool.shapes.finer-parts')}</legend>
      <ul class="tool-list">
        ${focus.map(
          ({ id, brush }, i) =>
            html`<li class="tool-item">
              <div class="tool-row">
                <label class="tool-grow"
                  >${this.say('tool.shapes.finer-name', { number: i + 1 })}
                  <select
                    @change=${(event: Event) => this.#focusBrush(id, Number((event.target as HTMLSelectElement).value))}
                  >
                    ${brushes.map(({ name }, n) => html`<option value=${n} ?selected=${n === brush}>${name}</option>`)}
                  </select></label
                >
                <button
                  type="button"
                  aria-label=${this.say('tool.shapes.finer-remove', { number: i + 1 })}
                  @click=${() => this.#dropFocus(id)}
                >
                  ${icon('bin')}<span>${this.say('tool.shapes.remove')}</span>
                </button>
              </div>
            </li>`,
        )}
      </ul>
    </fieldset>`;
  }

  #renderChanges({ masses }: MassWork): TemplateResult | typeof nothing {
    const { overrules } = this.plan;
    if (overrules.length === 0) return nothing;
    const unmet = new Map((masses.unmet ?? []).map(({ overrule, reason }) => [overrule, reason]));
    return html`<fieldset class="tool-group">
      <legend>${this.say('tool.shapes.changes')}</legend>
      <ul class="tool-list">
        ${overrules.map(
          (overrule, i) =>
            html`<li class="tool-item">
              <div class="tool-row">
                <span class="tool-grow">
                  ${i + 1}. ${this.#changeInWords(overrule)}
                  ${unmet.has(i) ? html`<span class="tool-refused">${this.#why(unmet.get(i)!)}</span>` : nothing}
                </span>
                <button
                  type="button"
                  aria-label=${this.say('tool.shapes.change-remove', { number: i + 1 })}
                  @click=${() => this.store.change('shapes', (plan) => withoutChange(plan, i))}
                >
                  ${icon('bin')}<span>${this.say('tool.shapes.remove')}</span>
                </button>
              </div>
            </li>`,
        )}
      </ul>
    </fieldset>`;
  }

  pointerDown(event: PointerEvent, view: StageView): boolean {
    if (!this.#hand.state.work || event.button !== 0 || this.#pointer !== undefined) return false;
    this.#pointer = event.pointerId;
    this.#line = [view.toPhoto(event.clientX, event.clientY).map(inside) as Spot];
    this.#said = '';
    return true;
  }

  pointerMove(event: PointerEvent, view: StageView): boolean {
    if (this.#pointer !== event.pointerId) return false;
    if (this.#doing === 'point' || this.#doing === 'pin') return true;
    const at = view.toPhoto(event.clientX, event.clientY).map(inside) as Spot;
    const [x, y] = view.toStage(at);
    const [lastX, lastY] = view.toStage(this.#line.at(-1)!);
    if (Math.hypot(x - lastX, y - lastY) >= 3) this.#line.push(at);
    return true;
  }

  pointerUp(event: PointerEvent, view: StageView): boolean {
    if (this.#pointer !== event.pointerId) return false;
    const line = this.#line;
    this.#pointer = undefined;
    this.#line = [];
    this.host.requestUpdate();
    if (event.type === 'pointercancel') return true;
    const { work } = this.#hand.state;
    if (!work) return true;
    if (this.#doing === 'point') this.#pickAt(line[0]);
    else if (this.#doing === 'pin') this.#pin(work.masses, line[0]);
    else if (this.#doing === 'finer') this.#loop(line, view);
    else if (line.length < 2) this.#refuse('tool.shapes.draw-longer');
    else if (this.#doing === 'cut') this.#cut(line);
    else this.#change({ kind: 'stroke', from: line[0], to: line.at(-1)! });
    return true;
  }

  keyDown(event: KeyboardEvent): boolean {
    if (isCommand(event) || !this.#hand.state.work) return false;
    if (event.key === 'Escape' && (this.#pointer !== undefined || this.#picked !== undefined)) {
      this.#pointer = undefined;
      this.#line = [];
      this.#pick(undefined);
      return true;
    }
    if (event.key === 'ArrowRight' || event.key === 'ArrowDown') this.#step(1);
    else if (event.key === 'ArrowLeft' || event.key === 'ArrowUp') this.#step(-1);
    else return false;
    return true;
  }

  #bandNames(bands: number): string[] {
    const { board } = this.plan;
    return Array.from(
      { length: bands },
      (_, band) => board.bands[band]?.name || this.say('band.paper'),
    );
  }

  #shortName(work: MassWork, id: number): string {
    const facts = factsOf(this.plan, work, id);
    if (!facts) return '';
    return this.say('tool.shapes.short', {
      place: facts.place,
      band: this.#bandNames(work.masses.map.bands)[facts.band],
    });
  }

  #massInWords(work: MassWork, id: number): string {
    const facts = factsOf(this.plan, work, id)!;
    return this.say('tool.shapes.facts', {
      place: facts.place,
      count: facts.count,
      band: this.#bandNames(work.masses.map.bands)[facts.band],
      share: 100 * facts.share,
      widths: facts.brushWidths,
    });
  }

  #changeInWords(overrule: Overrule): string {
    const { kind } = overrule;
    if (kind === 'band') {
      const band = Number(overrule.band);
      return this.say('tool.shapes.did-band', {
        band: this.plan.board.bands[band]?.name || this.say('band.paper'),
      });
    }
    if (kind === 'edge') {
      const edge = EDGES.find((each) => each === overrule.edge) ?? 'hard';
      return this.say('tool.shapes.did-edge', { edge: this.say(`tool.shapes.edge-${edge}`) });
    }
    if (kind === 'reserve') {
      const method = METHODS.find((each) => each === overrule.method) ?? 'bare';
      return this.say('tool.shapes.did-reserve', { how: this.say(`tool.shapes.keep-${method}`) });
    }
    if (kind === 'mark')
      return this.say(
        overrule.light === undefined
          ? overrule.keep === false
            ? 'tool.shapes.did-drop'
            : 'tool.shapes.did-keep'
          : 'tool.shapes.did-pin',
      );
    const known = ['join', 'split', 'lock', 'stroke', 'passage'];
    return this.say(known.includes(kind) ? `tool.shapes.did-${kind}` : 'tool.shapes.did-other');
  }

  #why(reason: Reason): string {
    return `${this.say('tool.shapes.unmet')} ${this.host.sentenceOf(reason)}`;
  }

  /** The place of the last change of a kind about a mass. */
  #changeOf(kind: string, id: number): number | undefined {
    const { work, plan } = this.#hand.state;
    if (!work || !plan) return undefined;
    const found = this.plan.overrules.findLastIndex(
      (overrule) =>
        overrule.kind === kind &&
        Array.isArray(overrule.at) &&
        regionUnder(plan, work.masses, overrule.at as Spot) === id,
    );
    return found < 0 ? undefined : found;
  }

  #change(change: MassOverrule, replaces?: (overrule: Overrule) => boolean): void {
    this.store.change('shapes', (plan) => withChange(plan, change, replaces));
    this.host.speak(this.#changeInWords({ ...change }));
    this.host.requestUpdate();
  }

  /** Changes of this kind about this mass give way to the new one. */
  #about(kind: string, id: number): (overrule: Overrule) => boolean {
    const place = this.#changeOf(kind, id);
    const before = place === undefined ? undefined : this.plan.overrules[place];
    return (overrule) => overrule === before;
  }

  #toBand(id: number, band: number): void {
    const { work } = this.#hand.state;
    if (!work || work.masses.regions[id].band === band) return;
    this.#change({ kind: 'band', at: this.#at(work, id), band }, this.#about('band', id));
  }

  #keep(id: number, method: string): void {
    const { work } = this.#hand.state;
    if (!work) return;
    const how = METHODS.find((each) => each === method);
    if (how) {
      const change: MassOverrule = { kind: 'reserve', at: this.#at(work, id), method: how };
      return this.#change(change, this.#about('reserve', id));
    }
    const place = this.#changeOf('reserve', id);
    if (place !== undefined) this.store.change('shapes', (plan) => withoutChange(plan, place));
  }

  #lock(work: MassWork, id: number, locked: number | undefined): void {
    if (locked !== undefined) this.store.change('shapes', (plan) => withoutChange(plan, locked));
    else if (work.outlines[id]) this.#change(lockOf(this.plan, work.masses, work.outlines[id]));
    this.host.requestUpdate();
  }

  #cut(line: Spot[]): void {
    this.#change({ kind: 'split', line: line.map(([x, y]) => [x, y]) });
  }

  #join(id: number, other: number): void {
    const { work } = this.#hand.state;
    if (work) this.#change({ kind: 'join', from: this.#at(work, id), to: this.#at(work, other) });
  }

  #edge(id: number, other: number, value: string): void {
    const { work } = this.#hand.state;
    const edge = EDGES.find((each) => each === value);
    if (!work || !edge) return;
    const between: [Spot, Spot] = [this.#at(work, id), this.#at(work, other)];
    this.#change({ kind: 'edge', between, edge });
  }

  #strokeFrom(id: number, dx: number, dy: number): void {
    const { work } = this.#hand.state;
    if (!work) return;
    const [x, y] = this.#at(work, id);
    const half = STROKE / 2;
    this.#change({
      kind: 'stroke',
      from: [inside(x - dx * half), inside(y - dy * half)],
      to: [inside(x + dx * half), inside(y + dy * half)],
    });
  }

  #mark(masses: Masses, mark: Mark, keep: boolean, marking?: string): void {
    const before = wordOnMark(this.plan, masses, mark);
    const at = spotOf(this.plan, masses, mark.x, mark.y);
    const light = before?.light;
    const radius = before?.radius;
    this.#change(
      {
        kind: 'mark',
        at,
        keep,
        ...(marking ? { marking } : {}),
        ...(typeof light === 'boolean' ? { light } : {}),
        ...(typeof radius === 'number' ? { radius } : {}),
      },
      (overrule) => overrule === before,
    );
  }

  /** A mark where the brief or the eye wants one; whether it is a light is told by its surround. */
  #pin(masses: Masses, at: Spot): void {
    const { plane } = this.store.picture;
    const region = regionUnder(this.plan, masses, at);
    if (region === undefined || !plane) return this.#refuse('tool.shapes.pin-outside');
    const { crop = { x: 0, y: 0, width: 1, height: 1 } } = this.plan;
    const x = Math.min(plane.width - 1, Math.floor(((at[0] - crop.x) / crop.width) * plane.width));
    const y = Math.min(
      plane.height - 1,
      Math.floor(((at[1] - crop.y) / crop.height) * plane.height),
    );
    const lightness = plane.data[y * plane.width + x] / 2.55;
    const light = lightness > masses.regions[region].mean;
    this.#change({ kind: 'mark', at, keep: true, light, radius: PIN });
  }

  #loop(line: Spot[], view: StageView): void {
    const { photo } = this;
    if (!photo) return;
    const perPixel = Math.max(photo.width, photo.height) / view.toStageLength(1);
    const loop = closedLoop(line, photo, 2 * perPixel);
    if (loop) this.#focusOn(loop);
    else this.#refuse('tool.shapes.loop-small');
  }

  #finerAbout(work: MassWork, id: number): void {
    const [x, y, w, h] = work.masses.regions[id].bounds;
    const corner = (px: number, py: number): Spot => spotOf(this.plan, work.masses, px, py);
    this.#focusOn([corner(x, y), corner(x + w, y), corner(x + w, y + h), corner(x, y + h)]);
  }

  #focusOn(loop: Spot[]): void {
    this.store.change('focus', (plan) => {
      const finest = plan.brushes.reduce(
        (best, { pressedMm }, i) => (pressedMm < plan.brushes[best].pressedMm ? i : best),
        0,
      );
      const used = new Set((plan.focus ?? []).map(({ id }) => id));
      let number = used.size + 1;
      while (used.has(`finer-${number}`)) number++;
      const area = { id: `finer-${number}`, loop, brush: finest };
      return { ...plan, focus: [...(plan.focus ?? []), area] };
    });
    this.host.speak(this.say('tool.shapes.finer-said'));
  }

  #focusBrush(id: string, brush: number): void {
    this.store.change('focus', (plan) => ({
      ...plan,
      focus: (plan.focus ?? []).map((area) => (area.id === id ? { ...area, brush } : area)),
    }));
  }

  #dropFocus(id: string): void {
    this.store.change('focus', (plan) => {
      const { focus = [], ...rest } = plan;
      const left = focus.filter((area) => area.id !== id);
      return left.length > 0 ? { ...rest, focus: left } : rest;
    });
  }

  #ground(choice: Ground): void {
    this.store.change('background', (plan) => {
      const { background: _before, ...rest } = plan;
      return choice === 'as-photo' ? rest : { ...rest, background: choice };
    });
  }

  #at(work: MassWork, id: number): Spot {
    return this.#pickedAt && id === this.#picked
      ? this.#pickedAt
      : insideOf(this.plan, work.masses, id);
  }

  #pickAt(at: Spot): void {
    const { work, plan } = this.#hand.state;
    const id = work && plan && regionUnder(plan, work.masses, at);
    this.#pick(id, id === undefined ? undefined : at);
  }

  #pick(id: number | undefined, at?: Spot): void {
    const { work } = this.#hand.state;
    this.#picked = id;
    this.#pickedAt = id === undefined ? undefined : (at ?? insideOf(this.plan, work!.masses, id));
    if (id !== undefined && work) this.host.speak(this.#massInWords(work, id));
    this.host.requestUpdate();
  }

  #step(by: 1 | -1): void {
    const { work } = this.#hand.state;
    if (!work) return;
    const order = bySize(work.masses);
    const at = order.findIndex(({ id }) => id === this.#picked);
    const next = at < 0 ? (by > 0 ? 0 : order.length - 1) : (at + by + order.length) % order.length;
    this.#pick(order[next]?.id);
  }

  #refuse(key: string): void {
    this.#said = this.say(key);
    this.host.requestUpdate();
  }

  #onMasses = (): void => {
    const { work, plan, status } = this.#hand.state;
    // The mass in hand is where it was pointed at, whatever its number is now.
    if (work && plan && this.#pickedAt)
      this.#picked = regionUnder(plan, work.masses, this.#pickedAt);
    if (work && status === 'ready') void this.#askGrounds(work);
    this.host.requestUpdate();
  };

  async #askGrounds({ masses }: MassWork): Promise<void> {
    if (!this.plan.sitter || this.#grounds?.of === masses) return;
    this.#asking?.abort();
    const asking = (this.#asking = new AbortController());
    try {
      const { choices } = await this.store.run('grounds', massesAsked(this.plan), {
        signal: asking.signal,
      });
      this.#grounds = { of: masses, choices };
    } catch {
      // The choice is then made without figures.
    }
    this.host.requestUpdate();
  }
}

const inside = (value: number): number => Math.min(1, Math.max(0, value));
const short = (value: number): number => Math.round(value * 10) / 10;

function pathThrough(spots: readonly Spot[], view: StageView): string {
  return `M${spots.map((spot) => view.toStage(spot).map(short).join(' ')).join('L')}`;
}
