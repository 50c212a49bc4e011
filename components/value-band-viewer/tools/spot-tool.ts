import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import {
  lightnessOfMunsell,
  munsellValue,
  type DistrustedSpot,
  type Spot,
} from '../../shared/core.js';
import { icon } from '../../shared/icons.js';
import type { StageTool, StageView } from '../stage-tool.js';
import { numberField, rangeField } from './field.js';
import { arrowOf, growthOf, HandTool, isCommand } from './hand-tool.js';

/** Radii as fractions of the photo's longer side. */
const LEAST_RADIUS = 0.004;
const MOST_RADIUS = 0.25;
const FIRST_RADIUS = 0.03;
/** Steps of the crosshair, as fractions of the photo's longer side; with Shift. */
const STEP = 0.005;
const BIG_STEP = 0.05;
/** What + and − and a turn of the wheel multiply a radius by; with Shift. */
const GROWTH = 1.1;
const BIG_GROWTH = 1.5;
/** A pointer that moved less than this, CSS pixels, has tapped. */
const TAP = 5;
/** The own value proposed until what the photo says there is known. */
const FIRST_VALUE = 5;
const MOST_SPOTS = 1000;
const NOTE_LENGTH = 2000;

interface Press {
  pointer: number;
  /** Where it began: on the photo and in the viewport. */
  at: Spot;
  client: [x: number, y: number];
  /** The mark that was taken hold of; without one a new mark is made. */
  id?: string;
  moved: boolean;
  gesture: string;
}

/** Round places whose lightness the photo gets wrong, each with the painter's own value and a note. */
export class SpotTool extends HandTool implements StageTool {
  readonly name = 'distrusted';
  readonly word = 'tool.distrusted';
  readonly icon = 'spot';

  #chosen?: string;
  #cross?: Spot;
  #press?: Press;
  /** The mark that is being drawn out. */
  #draft?: { at: Spot; radius: number };
  #radius = FIRST_RADIUS;
  /** What the photo says at a mark, value 0..10. */
  #measured?: { id: string; key: string; value?: number };

  takenUp(): void {
    this.#measure();
  }

  laidDown(): void {
    this.#press = this.#draft = this.#cross = this.#measured = undefined;
    this.endSeries();
  }

  renderOverlay(view: StageView): SVGTemplateResult | typeof nothing {
    const draft = this.#draft;
    return svg`
      ${this.#spots.map((spot, i) => this.#renderMark(spot, i, view))}
      ${draft ? ring(view, draft.at, draft.radius) : nothing}
      ${this.#cross && !this.#press ? this.#renderCross(this.#cross, view) : nothing}`;
  }

  renderPanel(): TemplateResult {
    const spots = this.#spots;
    return html`<div class="tool">
      <p class="tool-lead">${this.say('tool.distrusted.lead')}</p>
      ${
        spots.length === 0
          ? html`<p>${this.say('tool.distrusted.none')}</p>`
          : html`<ol class="tool-list">
              ${spots.map((spot, i) => this.#renderRow(spot, i))}
            </ol>`
      }
      <p class="tool-note">${this.say('tool.distrusted.keys')}</p>
    </div>`;
  }

  pointerDown(event: PointerEvent, view: StageView): boolean {
    if (!this.photo || event.button !== 0 || this.#press) return false;
    const at = view.toPhoto(event.clientX, event.clientY);
    const known = this.#spotAt(at, view);
    if (!known && !isOnPhoto(at)) return false;
    this.#cross = undefined;
    this.#press = {
      pointer: event.pointerId,
      at,
      client: [event.clientX, event.clientY],
      id: known?.id,
      moved: false,
      gesture: this.newGesture(),
    };
    if (known) this.#choose(known.id);
    return true;
  }

  pointerMove(event: PointerEvent, view: StageView): boolean {
    const press = this.#press;
    if (press?.pointer !== event.pointerId) return false;
    const [x, y] = press.client;
    const away = Math.hypot(event.clientX - x, event.clientY - y);
    if (away > TAP) press.moved = true;
    if (!press.moved) return true;
    const to = view.toPhoto(event.clientX, event.clientY);
    if (press.id !== undefined) {
      const spot = this.#spots.find(({ id }) => id === press.id);
      if (spot) {
        const at: Spot = [spot.at[0] + to[0] - press.at[0], spot.at[1] + to[1] - press.at[1]];
        press.at = to;
        this.#edit(spot.id, { at: at.map(within01) as Spot }, press.gesture);
      }
    } else {
      this.#draft = { at: press.at, radius: clampRadius(away / view.toStageLength(1)) };
      this.host.requestUpdate();
    }
    return true;
  }

  pointerUp(event: PointerEvent): boolean {
    const press = this.#press;
    if (press?.pointer !== event.pointerId) return false;
    const draft = this.#draft;
    this.#press = this.#draft = undefined;
    this.host.requestUpdate();
    if (event.type === 'pointercancel') return true;
    if (press.id === undefined) this.#place(press.at, draft?.radius ?? this.#radius);
    else if (press.moved) this.#measure();
    return true;
  }

  keyDown(event: KeyboardEvent, view: StageView): boolean {
    const { photo } = this;
    if (!photo || isCommand(event)) return false;
    if (event.key === 'Escape' && (this.#draft || this.#cross)) {
      this.#press = this.#draft = this.#cross = undefined;
      this.host.requestUpdate();
      return true;
    }
    const arrow = arrowOf(event.key);
    const growth = growthOf(event.key);
    const chosen = this.#spots.find(({ id }) => id === this.#chosen);
    if (arrow) {
      const longer = Math.max(photo.width, photo.height);
      const step = (event.shiftKey ? BIG_STEP : STEP) * longer;
      const [x, y] = this.#cross ?? chosen?.at ?? this.#middle;
      this.#cross = [
        within01(x + (arrow[0] * step) / photo.width),
        within01(y + (arrow[1] * step) / photo.height),
      ];
      this.host.speak(this.#placeWords(this.#cross));
    } else if (event.key === 'Enter' || event.key === ' ') {
      const at = this.#cross ?? chosen?.at ?? this.#middle;
      const known = this.#spotAt(at, view);
      if (known) this.#choose(known.id);
      else this.#place(at, this.#radius);
      this.#cross = undefined;
    } else if (growth !== 0) {
      const by = (event.shiftKey ? BIG_GROWTH : GROWTH) ** growth;
      if (chosen) this.#resize(chosen, by);
      else this.#radius = clampRadius(this.#radius * by);
    } else if ((event.key === 'Delete' || event.key === 'Backspace') && chosen) {
      this.#remove(chosen.id);
    } else return false;
    this.host.requestUpdate();
    return true;
  }

  get #spots(): readonly DistrustedSpot[] {
    return this.plan.distrusted ?? [];
  }

  get #middle(): Spot {
    const { x, y, width, height } = this.plan.crop ?? { x: 0, y: 0, width: 1, height: 1 };
    return [x + width / 2, y + height / 2];
  }

  /** The uppermost mark at a place; a small one can be taken hold of around it. */
  #spotAt(at: Spot, view: StageView): DistrustedSpot | undefined {
    const [x, y] = view.toStage(at);
    return this.#spots.findLast((spot) => {
      const [cx, cy] = view.toStage(spot.at);
      return Math.hypot(x - cx, y - cy) <= Math.max(12, view.toStageLength(spot.radius));
    });
  }

  #choose(id: string | undefined): void {
    this.#chosen = id;
    const index = this.#spots.findIndex((spot) => spot.id === id);
    if (index >= 0) this.host.speak(this.#spotWords(this.#spots[index], index));
    this.#measure();
    this.host.requestUpdate();
  }

  #place(at: Spot, radius: number): void {
    const spots = this.#spots;
    if (spots.length >= MOST_SPOTS) return this.host.speak(this.say('tool.distrusted.full'));
    const spot: DistrustedSpot = {
      id: freshId(spots),
      at: at.map(within01) as Spot,
      radius: clampRadius(radius),
      lightness: lightnessOfMunsell(this.#valueSeen(at) ?? FIRST_VALUE),
      note: '',
    };
    this.#radius = spot.radius;
    this.store.change('distrusted', (plan) => ({
      ...plan,
      distrusted: [...(plan.distrusted ?? []), spot],
    }));
    this.#choose(spot.id);
  }

  #edit(id: string, part: Partial<DistrustedSpot>, gesture?: string): void {
    this.store.change(
      'distrusted',
      (plan) => ({
        ...plan,
        distrusted: (plan.distrusted ?? []).map((spot) =>
          spot.id === id ? { ...spot, ...part } : spot,
        ),
      }),
      gesture,
    );
    this.host.requestUpdate();
  }

  #resize(spot: DistrustedSpot, by: number): void {
    this.#radius = clampRadius(spot.radius * by);
    this.#edit(spot.id, { radius: this.#radius }, this.series(`size ${spot.id}`));
    this.host.speak(this.say('tool.distrusted.size-said', { percent: 200 * this.#radius }));
  }

  #remove(id: string): void {
    const index = this.#spots.findIndex((spot) => spot.id === id);
    this.store.change('distrusted', (plan) => {
      const left = (plan.distrusted ?? []).filter((spot) => spot.id !== id);
      const { distrusted: _distrusted, ...rest } = plan;
      return left.length > 0 ? { ...rest, distrusted: left } : rest;
    });
    if (this.#chosen === id) this.#chosen = undefined;
    this.host.speak(this.say('tool.distrusted.removed', { number: index + 1 }));
    this.host.requestUpdate();
  }

  /** The value that the working copy shows at a place, to the nearest half; undefined outside it. */
  #valueSeen([x, y]: Spot): number | undefined {
    const { plane, exact } = this.store.picture;
    const { crop } = this.plan;
    if (!plane || (crop && !exact)) return undefined;
    const part = crop ?? { x: 0, y: 0, width: 1, height: 1 };
    const column = Math.floor(((x - part.x) / part.width) * plane.width);
    const row = Math.floor(((y - part.y) / part.height) * plane.height);
    if (column < 0 || row < 0 || column >= plane.width || row >= plane.height) return undefined;
    return Math.round(2 * munsellValue(plane.data[row * plane.width + column] / 2.55)) / 2;
  }

  /** Asks what the photo itself says at the chosen mark. */
  #measure(): void {
    const spot = this.#spots.find(({ id }) => id === this.#chosen);
    if (!spot || !this.photo) return;
    const key = `${spot.at.join()} ${spot.radius}`;
    if (this.#measured?.id === spot.id && this.#measured.key === key) return;
    const asked = (this.#measured = { id: spot.id, key, value: undefined as number | undefined });
    this.store
      .run('reading', { at: spot.at, radius: spot.radius }, { key: 'distrusted' })
      .then((reading) => {
        asked.value = munsellValue(reading.distrusted?.measured ?? reading.lightness);
        this.host.requestUpdate();
      })
      // The line that tells it is left out; the mark works without.
      .catch(() => undefined);
  }

  #settled = (): void => {
    this.endSeries();
    this.#measure();
  };

  #placeWords([x, y]: Spot): string {
    return this.say('tool.distrusted.place', { across: 100 * x, down: 100 * y });
  }

  #spotWords(spot: DistrustedSpot, index: number): string {
    return this.say(spot.note ? 'tool.distrusted.row-note' : 'tool.distrusted.row', {
      number: index + 1,
      value: munsellValue(spot.lightness),
      note: spot.note,
    });
  }

  #renderMark(spot: DistrustedSpot, index: number, view: StageView): SVGTemplateResult {
    const [x, y] = view.toStage(spot.at);
    const radius = view.toStageLength(spot.radius);
    const chosen = spot.id === this.#chosen;
    // The number stands on the ring, below where it would leave the stage above.
    const tagY = y - radius < 12 ? y + radius : y - radius;
    const turned = (event: WheelEvent): void => {
      if (event.ctrlKey || event.deltaY === 0) return;
      event.preventDefault();
      event.stopPropagation();
      this.#resize(spot, event.deltaY < 0 ? GROWTH : 1 / GROWTH);
    };
    return svg`<g class=${chosen ? 'tool-spot tool-chosen' : 'tool-spot'}>
      ${ring(view, spot.at, spot.radius)}
      ${chosen ? svg`<circle class="tool-hold tool-move" cx=${x} cy=${y} r=${Math.max(12, radius)} @wheel=${turned}/>` : nothing}
      <circle class="tool-tag" cx=${x} cy=${tagY} r="11"/>
      <text class="tool-number" x=${x} y=${tagY}>${index + 1}</text>
    </g>`;
  }

  #renderCross(at: Spot, view: StageView): SVGTemplateResult {
    const [x, y] = view.toStage(at);
    const d = `M${x - 18} ${y}h14M${x + 4} ${y}h14M${x} ${y - 18}v14M${x} ${y + 4}v14`;
    return svg`${ring(view, at, this.#radius)}<path class="tool-under" d=${d}/><path class="tool-line" d=${d}/>`;
  }

  #renderRow(spot: DistrustedSpot, index: number): TemplateResult {
    const chosen = spot.id === this.#chosen;
    const words = this.#spotWords(spot, index);
    return html`<li class="tool-item">
      <div class="tool-row">
        <button
          type="button"
          class="quiet tool-grow"
          aria-expanded=${chosen}
          @click=${() => this.#choose(chosen ? undefined : spot.id)}
        >
          ${icon('pen')}<span>${words}</span>
        </button>
        <button
          type="button"
          class="quiet"
          aria-label=${this.say('tool.distrusted.remove-long', { number: index + 1 })}
          @click=${() => this.#remove(spot.id)}
        >
          ${icon('bin')}<span>${this.say('tool.distrusted.remove')}</span>
        </button>
      </div>
      ${chosen ? this.#renderEditor(spot) : nothing}
    </li>`;
  }

  #renderEditor(spot: DistrustedSpot): TemplateResult {
    const measured = this.#measured?.id === spot.id ? this.#measured.value : undefined;
    const percent = 200 * spot.radius;
    return html`<div class="tool-pair">
        ${numberField({
          label: this.say('tool.distrusted.value'),
          value: Math.round(100 * munsellValue(spot.lightness)) / 100,
          low: 0,
          high: 10,
          step: 0,
          onGiven: (value) => {
            this.#edit(spot.id, { lightness: lightnessOfMunsell(value) });
            this.host.speak(this.say('tool.distrusted.value-said', { value }));
          },
          onRefused: () => this.host.speak(this.say('tool.distrusted.value-refused')),
        })}
        ${rangeField({
          label: this.say('tool.distrusted.size'),
          value: Math.round(percent * 10) / 10,
          low: 200 * LEAST_RADIUS,
          high: 200 * MOST_RADIUS,
          step: 0.1,
          text: this.say('tool.percent', { percent }),
          onMoved: (to) => {
            this.#radius = clampRadius(to / 200);
            this.#edit(spot.id, { radius: this.#radius }, this.series(`slider ${spot.id}`));
          },
          onSettled: this.#settled,
        })}
      </div>
      <label class="tool-field">
        <span>${this.say('tool.distrusted.note')}</span>
        <input
          type="text"
          maxlength=${NOTE_LENGTH}
          .value=${spot.note}
          @change=${(event: Event) => this.#edit(spot.id, { note: (event.target as HTMLInputElement).value })}
        />
      </label>
      ${
        measured === undefined
          ? nothing
          : html`<p class="tool-note">
              ${this.say('tool.distrusted.measured', { value: measured })}
            </p>`
      }`;
  }
}

function ring(view: StageView, at: Spot, radius: number): SVGTemplateResult {
  const [x, y] = view.toStage(at);
  const r = view.toStageLength(radius);
  return svg`<circle class="tool-under" cx=${x} cy=${y} r=${r}/><circle class="tool-line tool-ring" cx=${x} cy=${y} r=${r}/>`;
}

const within01 = (value: number): number => Math.min(1, Math.max(0, value));
const clampRadius = (radius: number): number =>
  Math.min(MOST_RADIUS, Math.max(LEAST_RADIUS, radius));
const isOnPhoto = ([x, y]: Spot): boolean => x >= 0 && x <= 1 && y >= 0 && y <= 1;

/** An id that no other mark of the plan has. */
function freshId(spots: readonly DistrustedSpot[]): string {
  const used = new Set(spots.map(({ id }) => id));
  let number = spots.length + 1;
  while (used.has(`spot-${number}`)) number++;
  return `spot-${number}`;
}
