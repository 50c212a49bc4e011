import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { loopArea, loopBounds, type Loop, type Spot } from '../../shared/core.js';
import { icon } from '../../shared/icons.js';
import type { StageTool, StageView } from '../stage-tool.js';
import { rangeField } from './field.js';
import { arrowOf, growthOf, HandTool, isCommand } from './hand-tool.js';
import { closedLoop, LEAST_LOOP, movedLoop, ovalLoop, scaledLoop } from './loop-geometry.js';

/** Steps of the arrow keys, as fractions of the photo; with Shift. */
const STEP = 0.01;
const BIG_STEP = 0.05;
/** What + and − multiply by; with Shift. */
const GROWTH = 1.05;
const BIG_GROWTH = 1.25;
/** Points of a drawn line are at least this far apart, CSS pixels; the loop keeps to the line within it. */
const FINENESS = 2;

/** A loose loop about the subject: limits and figures are then taken inside it. */
export class SitterTool extends HandTool implements StageTool {
  readonly name = 'sitter';
  readonly word = 'tool.sitter';
  readonly icon = 'loop';

  #pointer?: number;
  #line: Spot[] = [];
  #said?: string;

  laidDown(): void {
    this.#pointer = undefined;
    this.#line = [];
    this.#said = undefined;
    this.endSeries();
  }

  renderOverlay(view: StageView): SVGTemplateResult | typeof nothing {
    const drawing = this.#pointer !== undefined && this.#line.length > 1;
    const loop = drawing ? this.#line : this.plan.sitter;
    if (!loop) return nothing;
    const d = `M${loop.map((spot) => view.toStage(spot).map(rounded).join(' ')).join('L')}${drawing ? '' : 'Z'}`;
    return svg`<path class="tool-under" d=${d}/><path class="tool-line tool-loop" d=${d}/>`;
  }

  renderPanel(): TemplateResult {
    const { sitter } = this.plan;
    return html`<div class="tool">
      <p class="tool-lead">${this.say('tool.sitter.lead')}</p>
      ${sitter ? this.#renderLoop(sitter) : html`<p>${this.say('tool.sitter.none')}</p>`}
      ${this.#said ? html`<p class="tool-refused" role="alert">${this.say(this.#said)}</p>` : nothing}
      <div class="tool-row">
        <button type="button" ?disabled=${!this.photo} @click=${() => this.#placeOval()}>
          ${icon('loop')}<span
            >${this.say(sitter ? 'tool.sitter.oval-again' : 'tool.sitter.oval')}</span
          >
        </button>
        <button type="button" ?disabled=${!sitter} @click=${() => this.#remove()}>
          ${icon('bin')}<span>${this.say('tool.sitter.remove')}</span>
        </button>
      </div>
      <p class="tool-note">${this.say('tool.sitter.keys')}</p>
    </div>`;
  }

  pointerDown(event: PointerEvent, view: StageView): boolean {
    if (!this.photo || event.button !== 0 || this.#pointer !== undefined) return false;
    this.#pointer = event.pointerId;
    this.#said = undefined;
    this.#line = [view.toPhoto(event.clientX, event.clientY).map(inside) as Spot];
    return true;
  }

  pointerMove(event: PointerEvent, view: StageView): boolean {
    if (this.#pointer !== event.pointerId) return false;
    const at = view.toPhoto(event.clientX, event.clientY).map(inside) as Spot;
    const [x, y] = view.toStage(at);
    const [lastX, lastY] = view.toStage(this.#line.at(-1)!);
    if (Math.hypot(x - lastX, y - lastY) < FINENESS) return true;
    this.#line.push(at);
    this.host.requestUpdate();
    return true;
  }

  pointerUp(event: PointerEvent, view: StageView): boolean {
    const { photo } = this;
    if (this.#pointer !== event.pointerId) return false;
    const line = this.#line;
    this.#pointer = undefined;
    this.#line = [];
    this.host.requestUpdate();
    if (!photo || event.type === 'pointercancel') return true;
    const perPixel = Math.max(photo.width, photo.height) / view.toStageLength(1);
    const loop = closedLoop(line, photo, FINENESS * perPixel);
    if (loop) this.#take(loop);
    else this.#said = 'tool.sitter.small';
    return true;
  }

  keyDown(event: KeyboardEvent): boolean {
    if (isCommand(event)) return false;
    if (event.key === 'Escape' && this.#pointer !== undefined) {
      this.#pointer = undefined;
      this.#line = [];
      this.host.requestUpdate();
      return true;
    }
    const { sitter } = this.plan;
    const arrow = arrowOf(event.key);
    const growth = growthOf(event.key);
    if (!sitter) {
      if (!this.photo || (event.key !== 'Enter' && !arrow && growth === 0)) return false;
      this.#placeOval();
      return true;
    }
    if (event.key === 'Delete' || event.key === 'Backspace') {
      this.#remove();
    } else if (arrow) {
      const step = event.shiftKey ? BIG_STEP : STEP;
      this.#take(movedLoop(sitter, arrow[0] * step, arrow[1] * step), this.series('move'));
    } else if (growth !== 0) {
      const by = (event.shiftKey ? BIG_GROWTH : GROWTH) ** growth;
      this.#take(scaledLoop(sitter, by, by), this.series('size'));
    } else return false;
    return true;
  }

  #take(loop: Loop, gesture?: string): void {
    this.#said = undefined;
    this.store.change('sitter', (plan) => ({ ...plan, sitter: loop }), gesture);
    this.host.speak(this.say('tool.sitter.said', { percent: 100 * loopArea(loop) }));
    this.host.requestUpdate();
  }

  #placeOval(): void {
    const { x, y, width, height } = this.plan.crop ?? { x: 0, y: 0, width: 1, height: 1 };
    this.#take(ovalLoop(x + width / 4, y + height / 4, width / 2, height / 2));
  }

  #remove(): void {
    this.#said = undefined;
    this.store.change('sitter', (plan) => {
      if (!plan.sitter) return plan;
      const { sitter: _sitter, ...rest } = plan;
      return rest;
    });
    this.host.speak(this.say('tool.sitter.removed'));
    this.host.requestUpdate();
  }

  #renderLoop(sitter: Loop): TemplateResult {
    const box = loopBounds(sitter);
    const side = (label: string, size: number, scaled: (by: number) => Loop): TemplateResult => {
      const percent = Math.round(100 * size);
      return rangeField({
        label: this.say(label),
        value: percent,
        low: 100 * LEAST_LOOP,
        high: 100,
        step: 1,
        text: this.say('tool.percent', { percent }),
        onMoved: (to) => this.#take(scaled(to / 100 / size), this.series(label)),
        onSettled: this.endSeries,
      });
    };
    const { crop } = this.plan;
    const apart =
      crop !== undefined &&
      (box.x >= crop.x + crop.width ||
        box.y >= crop.y + crop.height ||
        box.x + box.width <= crop.x ||
        box.y + box.height <= crop.y);
    return html`<p>${this.say('tool.sitter.holds', { percent: 100 * loopArea(sitter) })}</p>
      ${apart ? html`<p class="tool-refused">${this.say('tool.sitter.outside')}</p>` : nothing}
      <div class="tool-pair">
        ${side('tool.sitter.width', box.width, (by) => scaledLoop(sitter, by, 1))}
        ${side('tool.sitter.height', box.height, (by) => scaledLoop(sitter, 1, by))}
      </div>`;
  }
}

const inside = (value: number): number => Math.min(1, Math.max(0, value));
const rounded = (value: number): number => Math.round(value * 10) / 10;
