import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import type { Plan, PlanPaper } from '../../shared/core.js';
import { icon } from '../../shared/icons.js';
import { inMm, inUnit, MM_IN_INCH } from '../../shared/measure.js';
import type { StageTool, StageView } from '../stage-tool.js';
import {
  cropOf,
  draggedWidth,
  frameOf,
  GRIPS,
  gripAt,
  hasAspect,
  largestFrame,
  moved,
  refitted,
  resized,
  type Frame,
  type Grip,
  type PhotoSize,
} from './crop-geometry.js';
import { numberField } from './field.js';
import { arrowOf, growthOf, HandTool, isCommand } from './hand-tool.js';
import { sheetOf, SHEETS } from './sheets.js';

/** Steps of the keys, as parts of the photo's longer side; with Shift. */
const STEP = 0.005;
const BIG_STEP = 0.05;
/** How near a grip is taken hold of, CSS pixels: by a finger, by anything finer. */
const FINGER = 28;
const FINE = 16;
/** Sizes of paper that can be entered, mm. */
const LEAST_PAPER = 10;
const MOST_PAPER = 5000;

interface Drag {
  pointer: number;
  grip?: Grip;
  from: [x: number, y: number];
  start: Frame;
}

/** The part of the photo that is painted, in the paper's proportion; and the paper itself. */
export class CropTool extends HandTool implements StageTool {
  readonly name = 'crop';
  readonly word = 'tool.crop';
  readonly icon = 'crop';
  readonly whole = true;

  #drag?: Drag;
  /** The frame while it is dragged; the plan takes it when it is let go. */
  #draft?: Frame;
  #refused = false;

  laidDown(): void {
    this.#drag = this.#draft = undefined;
    this.#refused = false;
    this.endSeries();
  }

  renderOverlay(view: StageView): SVGTemplateResult | typeof nothing {
    const { photo } = this;
    if (!photo) return nothing;
    const frame = this.#frame(photo);
    const box = boxOn(frame, photo, view);
    const [left, top] = view.toStage([0, 0]);
    const [right, bottom] = view.toStage([1, 1]);
    const { x, y, width, height } = box;
    return svg`
      <path class="tool-shade" fill-rule="evenodd"
        d=${`M${left} ${top}H${right}V${bottom}H${left}ZM${x} ${y}h${width}v${height}h${-width}Z`}/>
      <rect class="tool-under" x=${x} y=${y} width=${width} height=${height}/>
      <rect class="tool-line" x=${x} y=${y} width=${width} height=${height}/>
      <rect class="tool-hold tool-move" x=${x} y=${y} width=${width} height=${height}/>
      ${(Object.keys(GRIPS) as Grip[]).map((grip) => this.#renderGrip(grip, box, frame, photo, view))}`;
  }

  renderPanel(): TemplateResult {
    const { photo } = this;
    return html`<div class="tool">
      <p class="tool-lead">${this.say('tool.crop.lead')}</p>
      ${this.#renderPaper()} ${photo ? this.#renderPart(photo) : nothing}
    </div>`;
  }

  pointerDown(event: PointerEvent, view: StageView): boolean {
    const { photo } = this;
    if (!photo || event.button !== 0 || this.#drag) return false;
    const at = view.toPhoto(event.clientX, event.clientY);
    const [x, y] = view.toStage(at);
    const frame = this.#frame(photo);
    const box = boxOn(frame, photo, view);
    const grip = gripAt(box, x, y, event.pointerType === 'touch' ? FINGER : FINE);
    const within = x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height;
    if (!grip && !within) return false;
    const start = refitted(frame, photo, this.#aspect);
    this.#drag = {
      pointer: event.pointerId,
      grip,
      from: [at[0] * photo.width, at[1] * photo.height],
      start,
    };
    return true;
  }

  pointerMove(event: PointerEvent, view: StageView): boolean {
    const { photo } = this;
    const drag = this.#drag;
    if (!photo || drag?.pointer !== event.pointerId) return false;
    const at = view.toPhoto(event.clientX, event.clientY);
    const dx = at[0] * photo.width - drag.from[0];
    const dy = at[1] * photo.height - drag.from[1];
    const { start, grip } = drag;
    this.#draft = grip
      ? resized(start, draggedWidth(start, grip, dx, dy, this.#aspect), photo, this.#aspect, grip)
      : moved(start, dx, dy, photo);
    this.host.requestUpdate();
    return true;
  }

  pointerUp(event: PointerEvent): boolean {
    const { photo } = this;
    if (!photo || this.#drag?.pointer !== event.pointerId) return false;
    const draft = this.#draft;
    this.#drag = this.#draft = undefined;
    if (draft && event.type !== 'pointercancel') this.#take(draft, photo);
    this.host.requestUpdate();
    return true;
  }

  keyDown(event: KeyboardEvent): boolean {
    if (event.key === 'Escape' && this.#drag) {
      this.#drag = this.#draft = undefined;
      this.host.requestUpdate();
      return true;
    }
    return this.#key(event);
  }

  get #aspect(): number {
    const { widthMm, heightMm } = this.plan.paper;
    return widthMm / heightMm;
  }

  #frame(photo: PhotoSize): Frame {
    return this.#draft ?? frameOf(this.plan.crop, photo);
  }

  #key(event: KeyboardEvent, grip?: Grip): boolean {
    const { photo } = this;
    if (!photo || isCommand(event)) return false;
    const arrow = arrowOf(event.key);
    const growth = growthOf(event.key);
    if (!arrow && growth === 0) return false;
    const start = refitted(frameOf(this.plan.crop, photo), photo, this.#aspect);
    const step = Math.max(photo.width, photo.height) * (event.shiftKey ? BIG_STEP : STEP);
    let next: Frame;
    if (growth !== 0)
      next = resized(start, start.width + 2 * growth * step, photo, this.#aspect, grip);
    else if (grip) {
      const [x, y] = GRIPS[grip];
      const out =
        (x - 0.5) * 2 * arrow![0] * step + (y - 0.5) * 2 * arrow![1] * step * this.#aspect;
      next = resized(start, start.width + out, photo, this.#aspect, grip);
    } else next = moved(start, arrow![0] * step, arrow![1] * step, photo);
    this.#take(next, photo, this.series(`crop ${grip ?? ''} ${growth === 0 ? 'arrow' : 'size'}`));
    return true;
  }

  #take(frame: Frame, photo: PhotoSize, gesture?: string): void {
    const crop = cropOf(frame, photo);
    const old = this.plan.crop;
    const same =
      old?.x === crop.x &&
      old.y === crop.y &&
      old.width === crop.width &&
      old.height === crop.height;
    if (!same) this.store.change('crop', (plan) => ({ ...plan, crop }), gesture);
    this.host.speak(this.say('tool.crop.said', figuresOf(frame)));
    this.host.requestUpdate();
  }

  #takeWhole = (): void => {
    this.store.change('crop', (plan) => {
      if (!plan.crop) return plan;
      const { crop: _crop, ...rest } = plan;
      return rest;
    });
    this.host.speak(this.say('tool.crop.whole-said'));
    this.host.requestUpdate();
  };

  #takePaper(widthMm: number, heightMm: number): void {
    const { photo } = this;
    this.#refused = false;
    this.store.change('paper', (plan) => {
      const { paper } = plan;
      if (paper.widthMm === widthMm && paper.heightMm === heightMm) return plan;
      return withPaper(plan, { ...paper, widthMm, heightMm }, photo);
    });
    const { lengthUnit: unit } = this.host;
    this.host.speak(
      this.say('tool.paper.said', {
        width: inUnit(widthMm, unit),
        height: inUnit(heightMm, unit),
        unit: this.say(`unit.${unit}`),
      }),
    );
    this.host.requestUpdate();
  }

  #refuse = (): void => {
    this.#refused = true;
    this.host.requestUpdate();
  };

  #pickSheet = (event: Event): void => {
    const key = (event.target as HTMLSelectElement).value;
    const sheet = SHEETS.find((each) => each.key === key);
    if (!sheet) return;
    const { widthMm, heightMm } = this.plan.paper;
    if (widthMm >= heightMm) this.#takePaper(sheet.long, sheet.short);
    else this.#takePaper(sheet.short, sheet.long);
  };

  #renderPaper(): TemplateResult {
    const { widthMm, heightMm } = this.plan.paper;
    const { lengthUnit: unit } = this.host;
    const sheet = sheetOf(widthMm, heightMm);
    const side = (label: string, mm: number, take: (mm: number) => void): TemplateResult =>
      numberField({
        label: this.say(label),
        value: inUnit(mm, unit),
        low: inUnit(LEAST_PAPER, unit),
        high: inUnit(MOST_PAPER, unit),
        step: 0,
        unit: this.say(`unit.${unit}`),
        onGiven: (figure) => take(Math.min(MOST_PAPER, inMm(figure, unit))),
        onRefused: this.#refuse,
      });
    return html`<fieldset class="tool-group">
      <legend>${this.say('tool.paper')}</legend>
      <label class="tool-field">
        <span>${this.say('tool.paper.sheet')}</span>
        <select @change=${this.#pickSheet}>
          <option value="" .selected=${!sheet} ?disabled=${sheet !== undefined}>
            ${this.say('sheet.own')}
          </option>
          ${SHEETS.map(
            (each) =>
              html`<option value=${each.key} .selected=${each === sheet}>
                ${this.say(`sheet.${each.key}`)}
              </option>`,
          )}
        </select>
      </label>
      <div class="tool-pair">
        ${side('tool.paper.width', widthMm, (mm) => this.#takePaper(mm, heightMm))}
        ${side('tool.paper.height', heightMm, (mm) => this.#takePaper(widthMm, mm))}
      </div>
      ${
        this.#refused
          ? html`<p class="tool-refused" role="alert">
              ${this.say('tool.paper.refused', {
                least: inUnit(LEAST_PAPER, unit),
                most: inUnit(MOST_PAPER, unit),
                unit: this.say(`unit.${unit}`),
              })}
            </p>`
          : nothing
      }
      <div class="tool-row">
        <button type="button" @click=${() => this.#takePaper(heightMm, widthMm)}>
          ${icon('redo')}<span>${this.say('tool.paper.turn')}</span>
        </button>
        <div class="segments" role="group" aria-label=${this.say('tool.paper.unit')}>
          ${(['mm', 'in'] as const).map(
            (each) =>
              html`<button
                type="button"
                aria-pressed=${each === unit ? 'true' : 'false'}
                @click=${() => {
                  this.host.chooseUnit(each);
                  this.#refused = false;
                  this.host.requestUpdate();
                }}
              >
                ${this.say(`unit.${each}-long`)}
              </button>`,
          )}
        </div>
      </div>
      <p class="tool-note">${this.say(`sheet.source.${sheet?.source ?? 'own'}`)}</p>
    </fieldset>`;
  }

  #renderPart(photo: PhotoSize): TemplateResult {
    const frame = this.#frame(photo);
    const figures = figuresOf(frame);
    const fitted = (): Frame => refitted(frameOf(this.plan.crop, photo), photo, this.#aspect);
    const figure = (
      label: string,
      value: number,
      low: number,
      high: number,
      take: (value: number) => Frame,
    ): TemplateResult =>
      numberField({
        label: this.say(label),
        value,
        low,
        high,
        unit: this.say('unit.px'),
        onGiven: (given) => this.#take(take(given), photo),
        onRefused: () => this.host.speak(this.say('tool.crop.refused', { least: low, most: high })),
      });
    return html`<fieldset class="tool-group">
      <legend>${this.say('tool.crop.part')}</legend>
      <p class="tool-note">
        ${this.say('tool.crop.photo', { width: photo.width, height: photo.height })}
      </p>
      <div class="tool-pair">
        ${figure('tool.crop.left', figures.x, 0, photo.width, (x) => {
          const start = fitted();
          return moved(start, x - start.x, 0, photo);
        })}
        ${figure('tool.crop.top', figures.y, 0, photo.height, (y) => {
          const start = fitted();
          return moved(start, 0, y - start.y, photo);
        })}
        ${figure('tool.crop.width', figures.width, 1, photo.width, (width) =>
          this.#sized(fitted(), width, photo),
        )}
        ${figure('tool.crop.height', figures.height, 1, photo.height, (height) =>
          this.#sized(fitted(), height * this.#aspect, photo),
        )}
      </div>
      <p class="tool-note">${this.#meaning(frame, photo)}</p>
      <div class="tool-row">
        <button type="button" @click=${() => this.#take(largestFrame(photo, this.#aspect), photo)}>
          ${icon('crop')}<span>${this.say('tool.crop.largest')}</span>
        </button>
        <button type="button" ?disabled=${!this.plan.crop} @click=${this.#takeWhole}>
          ${icon('open')}<span>${this.say('tool.crop.whole')}</span>
        </button>
      </div>
      <p class="tool-note">${this.say('tool.crop.keys')}</p>
    </fieldset>`;
  }

  /** Another width with the left upper corner where it is, as far as the photo allows. */
  #sized(start: Frame, width: number, photo: PhotoSize): Frame {
    const next = resized(start, width, photo, this.#aspect);
    return moved(next, start.x - next.x, start.y - next.y, photo);
  }

  /** What the part means on the paper. */
  #meaning(frame: Frame, photo: PhotoSize): string {
    const { widthMm, heightMm } = this.plan.paper;
    const { lengthUnit } = this.host;
    if (!hasAspect(frame, this.#aspect)) {
      return this.say('tool.crop.unlike', {
        height: inUnit((widthMm * photo.height) / photo.width, lengthUnit),
        paper: inUnit(heightMm, lengthUnit),
        unit: this.say(`unit.${lengthUnit}`),
      });
    }
    const pixels = frame.width / widthMm;
    return lengthUnit === 'mm'
      ? this.say('tool.crop.scale', { pixels })
      : this.say('tool.crop.scale-in', { pixels: pixels * MM_IN_INCH });
  }

  #renderGrip(
    grip: Grip,
    box: Frame,
    frame: Frame,
    photo: PhotoSize,
    view: StageView,
  ): SVGTemplateResult | typeof nothing {
    const [gx, gy] = GRIPS[grip];
    const corner = gx !== 0.5 && gy !== 0.5;
    if (!corner && Math.min(box.width, box.height) < 4 * FINE) return nothing;
    const [w, h] = corner ? [12, 12] : gx === 0.5 ? [20, 6] : [6, 20];
    // At the border of the stage a grip stays whole.
    const x = within(box.x + gx * box.width, w / 2 + 1, view.width - w / 2 - 1);
    const y = within(box.y + gy * box.height, h / 2 + 1, view.height - h / 2 - 1);
    const mark = svg`
      <rect class="tool-hold" x=${x - FINE} y=${y - FINE} width=${2 * FINE} height=${2 * FINE}/>
      <rect class="tool-grip-mark" x=${x - w / 2} y=${y - h / 2} width=${w} height=${h}/>`;
    if (!corner) return svg`<g class=${`tool-grip tool-grip-${grip}`}>${mark}</g>`;
    const { width, height } = figuresOf(frame);
    return svg`<g class=${`tool-grip tool-grip-${grip}`} tabindex="0" role="slider"
      aria-label=${this.say(`tool.crop.grip-${grip}`)}
      aria-valuemin="1" aria-valuemax=${photo.width} aria-valuenow=${width}
      aria-valuetext=${this.say('tool.crop.size', { width, height })}
      @keydown=${(event: KeyboardEvent) => this.#gripKey(event, grip)}>${mark}</g>`;
  }

  #gripKey(event: KeyboardEvent, grip: Grip): void {
    if (!this.#key(event, grip)) return;
    event.preventDefault();
    event.stopPropagation();
  }
}

const within = (value: number, low: number, high: number): number =>
  Math.min(high, Math.max(low, value));

/** The plan on another paper: the part of the photo that is painted is fitted to its proportion. */
function withPaper(plan: Plan, paper: PlanPaper, photo: PhotoSize | undefined): Plan {
  if (!plan.crop || !photo) return { ...plan, paper };
  const frame = frameOf(plan.crop, photo);
  const next = refitted(frame, photo, paper.widthMm / paper.heightMm);
  return next === frame ? { ...plan, paper } : { ...plan, paper, crop: cropOf(next, photo) };
}

function boxOn(frame: Frame, photo: PhotoSize, view: StageView): Frame {
  const [x, y] = view.toStage([frame.x / photo.width, frame.y / photo.height]);
  const [right, bottom] = view.toStage([
    (frame.x + frame.width) / photo.width,
    (frame.y + frame.height) / photo.height,
  ]);
  return { x, y, width: right - x, height: bottom - y };
}

function figuresOf(frame: Frame): Record<keyof Frame, number> {
  return {
    x: Math.round(frame.x),
    y: Math.round(frame.y),
    width: Math.round(frame.width),
    height: Math.round(frame.height),
  };
}
