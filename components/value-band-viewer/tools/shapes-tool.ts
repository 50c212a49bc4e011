import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import type { Plan, Spot } from '../../shared/core.js';
import { icon, type IconName } from '../../shared/icons.js';
import type { MassWork } from '../../shared/masses-in-hand.js';
import type { StageTool, StageView, ToolHost } from '../stage-tool.js';
import { placed } from '../tracing-drawings.js';
import { HandTool, isCommand } from './hand-tool.js';
import { closedLoop } from './loop-geometry.js';
import { ShapesHand, withinPhoto } from './shapes-hand.js';
import { changesPanel, finerPanel, groundPanel, marksPanel } from './shapes-lists.js';
import { massPanel } from './shapes-mass-panel.js';

/** What the hand does in the picture. */
type Doing = 'point' | 'cut' | 'finer' | 'stroke' | 'pin';
const DOINGS: readonly (readonly [Doing, IconName])[] = [
  ['point', 'spot'],
  ['cut', 'cut'],
  ['finer', 'loop'],
  ['stroke', 'brush'],
  ['pin', 'plus'],
];

/** What was found is changed by hand: masses, edges, reserves, marks, strokes, finer parts, the ground. */
export class ShapesTool extends HandTool implements StageTool {
  readonly name = 'shapes';
  readonly word = 'tool.shapes';
  readonly icon = 'shapes';

  readonly #hand: ShapesHand;
  #doing: Doing = 'point';
  #pointer?: number;
  #line: Spot[] = [];

  constructor(host: ToolHost) {
    super(host);
    this.#hand = new ShapesHand(host);
  }

  takenUp(): void {
    this.#hand.takeUp();
  }

  laidDown(): void {
    this.#hand.layDown();
    this.#pointer = undefined;
    this.#line = [];
    this.#doing = 'point';
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
      ${work && plan ? this.#renderPicked(work, plan, view) : nothing}
      ${focus ? svg`<path class="tool-under" d=${focus}/><path class="tool-line tool-dashed" d=${focus}/>` : nothing}
      ${cuts ? svg`<path class="tool-under" d=${cuts}/><path class="tool-line" d=${cuts}/>` : nothing}
      ${drawing ? svg`<path class="tool-under" d=${drawing}/><path class="tool-line" d=${drawing}/>` : nothing}`;
  }

  #renderPicked(work: MassWork, plan: Plan, view: StageView): SVGTemplateResult | typeof nothing {
    const d = this.#hand.picked === undefined ? '' : work.lines.outlines[this.#hand.picked];
    if (!d) return nothing;
    const { left, top, sx, sy } = placed(plan, work, view);
    return svg`<g transform=${`matrix(${sx} 0 0 ${sy} ${left} ${top})`} class="tool-mass">
      <path class="tool-under" d=${d}/><path class="tool-line" d=${d}/>
    </g>`;
  }

  renderPanel(): TemplateResult {
    const hand = this.#hand;
    const { work, status, progress, error } = hand.state;
    return html`<div class="tool">
      <p class="tool-lead">${this.say('tool.shapes.lead')}</p>
      ${this.#renderBrush()}
      ${
        error
          ? html`<div class="trouble" role="alert">
              <span>${this.host.sentenceOf(error)}</span>
              <button type="button" @click=${() => hand.masses.again()}>
                ${this.say('tool.shapes.again')}
              </button>
            </div>`
          : nothing
      }
      ${
        work
          ? html`${this.#renderDoings()} ${massPanel(hand, work)} ${marksPanel(hand, work)}
            ${groundPanel(hand)} ${finerPanel(hand)} ${changesPanel(hand, work)}`
          : error
            ? nothing
            : html`<p class="tool-note">
                ${this.say(this.photo ? 'tool.shapes.working' : 'tool.shapes.no-photo', { done: 100 * (status === 'working' ? progress : 0) })}
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
        @change=${(event: Event) => this.#hand.useBrush(Number((event.target as HTMLSelectElement).value))}
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
    const { said } = this.#hand;
    return html`<div class="tool-part">
      <div class="tool-row" role="group" aria-label=${this.say('tool.shapes.doing')}>
        ${DOINGS.map(
          ([doing, drawing]) =>
            html`<button
              type="button"
              aria-pressed=${doing === this.#doing ? 'true' : 'false'}
              @click=${() => this.#do(doing)}
            >
              ${icon(drawing)}<span>${this.say(`tool.shapes.${doing}`)}</span>
            </button>`,
        )}
      </div>
      <p class="tool-note">${this.say(`tool.shapes.${this.#doing}-hint`)}</p>
      ${said ? html`<p class="tool-refused" role="alert">${said}</p>` : nothing}
    </div>`;
  }

  #do(doing: Doing): void {
    this.#doing = doing;
    this.#hand.said = '';
    this.host.requestUpdate();
  }

  pointerDown(event: PointerEvent, view: StageView): boolean {
    if (!this.#hand.state.work || event.button !== 0 || this.#pointer !== undefined) return false;
    this.#pointer = event.pointerId;
    this.#line = [spotUnder(event, view)];
    this.#hand.said = '';
    return true;
  }

  pointerMove(event: PointerEvent, view: StageView): boolean {
    if (this.#pointer !== event.pointerId) return false;
    if (this.#doing === 'point' || this.#doing === 'pin') return true;
    const at = spotUnder(event, view);
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
    const { work } = this.#hand.state;
    if (event.type === 'pointercancel' || !work) return true;
    if (this.#doing === 'point') this.#hand.pickAt(line[0]);
    else if (this.#doing === 'pin') this.#hand.pin(work, line[0]);
    else if (this.#doing === 'finer') this.#loop(line, view);
    else if (line.length < 2) this.#hand.refuse('tool.shapes.draw-longer');
    else if (this.#doing === 'cut') this.#hand.cut(line);
    else this.#hand.change({ kind: 'stroke', from: line[0], to: line.at(-1)! });
    return true;
  }

  keyDown(event: KeyboardEvent): boolean {
    if (isCommand(event) || !this.#hand.state.work) return false;
    const held = this.#pointer !== undefined || this.#hand.picked !== undefined;
    if (event.key === 'Escape' && held) {
      this.#pointer = undefined;
      this.#line = [];
      this.#hand.pick(undefined);
      return true;
    }
    if (event.key === 'ArrowRight' || event.key === 'ArrowDown') this.#hand.step(1);
    else if (event.key === 'ArrowLeft' || event.key === 'ArrowUp') this.#hand.step(-1);
    else return false;
    return true;
  }

  #loop(line: Spot[], view: StageView): void {
    const { photo } = this;
    if (!photo) return;
    const perPixel = Math.max(photo.width, photo.height) / view.toStageLength(1);
    const loop = closedLoop(line, photo, 2 * perPixel);
    if (loop) this.#hand.focusOn(loop);
    else this.#hand.refuse('tool.shapes.loop-small');
  }
}

const spotUnder = (event: PointerEvent, view: StageView): Spot =>
  view.toPhoto(event.clientX, event.clientY).map(withinPhoto) as Spot;

const short = (value: number): number => Math.round(value * 10) / 10;

function pathThrough(spots: readonly Spot[], view: StageView): string {
  return `M${spots.map((spot) => view.toStage(spot).map(short).join(' ')).join('L')}`;
}
