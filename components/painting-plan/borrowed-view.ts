import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { repeat } from 'lit/directives/repeat.js';
import type { BorrowedDetail, Plan, PlanPhoto } from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { put } from '../shared/put.js';
import { freshId, type Desk } from './desk.js';

/** The longer side of the picture that places are marked on, in CSS pixels. */
const SIDE = 176;
/** Radius of a detail as it is added, as a fraction of the photo's longer side. */
const RADIUS = 0.08;
/** The plan holds no more. */
const MOST = 1000;
/** How far from a ring a press still takes hold of it, in CSS pixels: half a target. */
const REACH = 22;
/** A step by arrow key, and one with Shift, as fractions of the photo's side. */
const STEP = 0.01;
const LONG_STEP = 0.1;
const NOTE_LENGTH = 2000;

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** A ring that a pointer holds. */
interface Held {
  pointer: number;
  id: string;
  /** From the pointer to the middle of the ring, in CSS pixels: a ring taken beside its middle does not jump. */
  dx: number;
  dy: number;
}

/** What is painted after photos that do not lead: in words, and the place on each. */
export class BorrowedView {
  #desk: Desk;
  #drafts = new Map<string, string>();
  /** The detail that a press on the picture places, by photo; else the last of its list. */
  #chosen = new Map<string, string>();
  #held?: Held;
  /** A drag, or arrow keys pressed in one go, are one step of undo. */
  #series = 0;

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  close(): void {
    this.#drafts.clear();
    this.#chosen.clear();
    this.#held = undefined;
  }

  /** The details borrowed from a photo, in the order they were added. */
  of(sha256: string): BorrowedDetail[] {
    return (this.#desk.store.plan.borrowed ?? []).filter(({ photo }) => photo === sha256);
  }

  /** The photo's picture, large enough to press on, with a ring and a number at each place. */
  plate({ sha256, width, height }: PlanPhoto, picture: TemplateResult): TemplateResult {
    const scale = SIDE / Math.max(width, height);
    const [w, h] = [width, height].map((side) => Math.max(1, Math.round(side * scale)));
    const chosen = this.#chosenOf(sha256);
    return html`<span
      class="plate"
      data-photo=${sha256}
      ${put({ 'inline-size': `${w}px`, 'block-size': `${h}px` })}
      @pointerdown=${(event: PointerEvent) => this.#press(event, sha256)}
      @pointermove=${this.#drag}
      @pointerup=${this.#letGo}
      @pointercancel=${this.#letGo}
      >${picture}<svg class="rings" viewBox=${`0 0 ${w} ${h}`} aria-hidden="true">
        ${this.of(sha256).map((detail, i) => ring(detail, i + 1, w, h, detail.id === chosen))}
      </svg></span
    >`;
  }

  /** The list of what is borrowed, and the field for more unless the photo leads. */
  list({ sha256 }: PlanPhoto, name: string, placed: boolean, leads: boolean): TemplateResult {
    const { say, store } = this.#desk;
    const details = this.of(sha256);
    const full = (store.plan.borrowed?.length ?? 0) >= MOST;
    return html`<div class="borrowed" role="group" aria-labelledby=${`borrowed-${sha256}`}>
      <h4 id=${`borrowed-${sha256}`}>${say('plan.borrowed')}</h4>
      ${
        details.length === 0 || placed
          ? html`<p class="soft small">
              ${say(details.length === 0 ? 'plan.borrowed-empty' : 'plan.borrowed-hint')}
            </p>`
          : nothing
      }
      ${
        details.length > 0
          ? html`<ol class="details">
              ${repeat(
                details,
                ({ id }) => id,
                (detail, i) => this.#row(detail, i + 1, placed),
              )}
            </ol>`
          : nothing
      }
      ${
        leads || full
          ? nothing
          : html`<form
              class="more"
              @submit=${(event: Event) => void this.#add(event, sha256, placed)}
            >
              <input
                class="wide"
                maxlength=${NOTE_LENGTH}
                aria-label=${say('plan.borrowed-new-of', { name })}
                placeholder=${say('plan.borrowed-example')}
                .value=${live(this.#drafts.get(sha256) ?? '')}
                @input=${(event: Event) => this.#drafts.set(sha256, fieldOf(event).value)}
              />
              <button type="submit" aria-label=${say('plan.borrowed-add-of', { name })}>
                ${icon('plus')}<span>${say('plan.borrowed-add')}</span>
              </button>
            </form>`
      }
    </div>`;
  }

  #row(detail: BorrowedDetail, number: number, placed: boolean): TemplateResult {
    const { say } = this.#desk;
    const { id, photo, at, note } = detail;
    const chosen = placed && this.#chosenOf(photo) === id;
    return html`<li class="detail" data-detail=${id}>
      ${
        placed
          ? html`<span
              class=${chosen ? 'place chosen' : 'place'}
              role="slider"
              tabindex="0"
              aria-label=${say('plan.borrowed-place-of', { number, note })}
              aria-valuemin="0"
              aria-valuemax="100"
              aria-valuenow=${Math.round(100 * at[0])}
              aria-valuetext=${this.#where(detail)}
              @focus=${() => this.#choose(photo, id)}
              @blur=${() => this.#series++}
              @keydown=${(event: KeyboardEvent) => this.#key(event, id)}
              ><b>${number}</b>${icon('move')}<span>${say('plan.borrowed-place')}</span></span
            >`
          : html`<b class="number">${number}</b>`
      }
      <input
        class="wide"
        maxlength=${NOTE_LENGTH}
        aria-label=${say('plan.borrowed-note', { number })}
        .value=${note}
        @focus=${() => this.#choose(photo, id)}
        @change=${(event: Event) => this.#note(id, fieldOf(event))}
      />
      <button
        type="button"
        class="quiet delete"
        aria-label=${say('plan.borrowed-delete-of', { note })}
        @click=${() => void this.#delete(detail)}
      >
        ${icon('bin')}<span>${say('plan.borrowed-delete')}</span>
      </button>
    </li>`;
  }

  #chosenOf(sha256: string): string | undefined {
    const details = this.of(sha256);
    const chosen = this.#chosen.get(sha256);
    return details.some(({ id }) => id === chosen) ? chosen : details.at(-1)?.id;
  }

  #choose(photo: string, id: string): void {
    if (this.#chosen.get(photo) === id) return;
    this.#chosen.set(photo, id);
    this.#desk.update();
  }

  #where({ at: [x, y] }: BorrowedDetail): string {
    return this.#desk.say('plan.borrowed-where', { across: 100 * x, down: 100 * y });
  }

  #detail(id: string): BorrowedDetail | undefined {
    return this.#desk.store.plan.borrowed?.find((each) => each.id === id);
  }

  #set(label: string, id: string, change: Partial<BorrowedDetail>, gesture?: string): void {
    const set = (plan: Plan): Plan => ({
      ...plan,
      borrowed: plan.borrowed?.map((each) => (each.id === id ? { ...each, ...change } : each)),
    });
    this.#desk.store.change(label, (plan) => (this.#detail(id) ? set(plan) : plan), gesture);
  }

  #place(id: string, x: number, y: number): void {
    const at: [number, number] = [fraction(x), fraction(y)];
    const before = this.#detail(id)?.at;
    if (!before || (before[0] === at[0] && before[1] === at[1])) return;
    this.#set('place-borrowed', id, { at }, `place-borrowed ${id} ${this.#series}`);
  }

  async #add(event: Event, photo: string, placed: boolean): Promise<void> {
    event.preventDefault();
    const note = this.#drafts.get(photo)?.trim();
    if (!note) {
      (event.target as HTMLFormElement).querySelector('input')?.focus();
      return;
    }
    const { store, announce, say, shown } = this.#desk;
    const detail: BorrowedDetail = { id: freshId(), photo, at: [0.5, 0.5], radius: RADIUS, note };
    this.#drafts.delete(photo);
    this.#chosen.set(photo, detail.id);
    store.change('add-borrowed', (plan) => ({
      ...plan,
      borrowed: [...(plan.borrowed ?? []), detail],
    }));
    announce(say(placed ? 'plan.borrowed-added' : 'plan.borrowed-added-only', { note }));
    await shown();
    if (placed) this.#find(`[data-detail="${CSS.escape(detail.id)}"] .place`)?.focus();
  }

  #note(id: string, field: HTMLInputElement): void {
    const before = this.#detail(id)?.note ?? '';
    const note = field.value.trim() || before;
    // What was written may differ from what is kept by blanks alone.
    field.value = note;
    if (note !== before) this.#set('note-borrowed', id, { note });
  }

  /** Deletes a detail; the focus goes on to the next one, or to the field for more. */
  async #delete({ id, photo, note }: BorrowedDetail): Promise<void> {
    const { store, announce, say, shown } = this.#desk;
    const details = this.of(photo);
    const place = details.findIndex((each) => each.id === id);
    const next = details[place + 1] ?? details[place - 1];
    store.change('delete-borrowed', ({ borrowed = [], ...plan }) => {
      const left = borrowed.filter((each) => each.id !== id);
      return left.length > 0 ? { ...plan, borrowed: left } : plan;
    });
    announce(say('plan.borrowed-deleted', { note }));
    await shown();
    const row = next && this.#find(`[data-detail="${CSS.escape(next.id)}"] .delete`);
    (row ?? this.#find(`[data-of="${photo}"] .more input`))?.focus();
  }

  #find(selector: string): HTMLElement | null {
    return this.#desk.root()?.querySelector<HTMLElement>(selector) ?? null;
  }

  #key(event: KeyboardEvent, id: string): void {
    const arrow = ARROWS[event.key];
    const detail = this.#detail(id);
    if (!arrow || !detail || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    const step = event.shiftKey ? LONG_STEP : STEP;
    this.#place(id, detail.at[0] + step * arrow[0], detail.at[1] + step * arrow[1]);
  }

  /** Takes hold of the ring that is near; a press elsewhere brings the chosen one there. */
  #press(event: PointerEvent, photo: string): void {
    const chosen = this.#chosenOf(photo);
    if (event.button !== 0 || !chosen || this.#held) return;
    event.preventDefault();
    const plate = event.currentTarget as HTMLElement;
    const { left, top, width, height } = plate.getBoundingClientRect();
    const offsets = this.of(photo).map(({ id, at }) => {
      const dx = left + at[0] * width - event.clientX;
      const dy = top + at[1] * height - event.clientY;
      // Of rings in one place the chosen one is meant.
      return { id, dx, dy, far: Math.hypot(dx, dy) - (id === chosen ? 0.5 : 0) };
    });
    const near = offsets.sort((a, b) => a.far - b.far)[0];
    const { id, dx, dy } = near.far <= REACH ? near : { id: chosen, dx: 0, dy: 0 };
    this.#find(`[data-detail="${CSS.escape(id)}"] .place`)?.focus({ preventScroll: true });
    this.#held = { pointer: event.pointerId, id, dx, dy };
    this.#series++;
    try {
      plate.setPointerCapture(event.pointerId);
    } catch {
      // A pointer that is gone already cannot be held.
    }
    this.#choose(photo, id);
    this.#drag(event);
  }

  #drag = (event: PointerEvent): void => {
    const held = this.#held;
    if (held?.pointer !== event.pointerId) return;
    const { left, top, width, height } = (
      event.currentTarget as HTMLElement
    ).getBoundingClientRect();
    const x = (event.clientX + held.dx - left) / width;
    const y = (event.clientY + held.dy - top) / height;
    this.#place(held.id, x, y);
  };

  #letGo = (event: PointerEvent): void => {
    const held = this.#held;
    if (held?.pointer !== event.pointerId) return;
    this.#held = undefined;
    this.#series++;
    const detail = this.#detail(held.id);
    if (!detail) return;
    const { announce, say } = this.#desk;
    announce(say('plan.borrowed-placed', { note: detail.note, where: this.#where(detail) }));
  };
}

/** A ring with its number beside, on the side that has room. */
function ring(
  { at, radius }: BorrowedDetail,
  number: number,
  width: number,
  height: number,
  chosen: boolean,
): SVGTemplateResult {
  const [x, y] = [at[0] * width, at[1] * height];
  const r = Math.max(4, radius * Math.max(width, height));
  const start = x + r + 20 > width;
  return svg`<g class=${chosen ? 'chosen' : ''}>
    <circle class="under" cx=${x} cy=${y} r=${r} />
    <circle class="over" cx=${x} cy=${y} r=${r} />
    <text
      x=${start ? x - r - 4 : x + r + 4}
      y=${Math.min(height - 4, Math.max(14, y + 5))}
      text-anchor=${start ? 'end' : 'start'}
    >${number}</text>
  </g>`;
}

/** Kept to a ten-thousandth: steps by key add up without a tail of digits. */
function fraction(value: number): number {
  return Math.min(1, Math.max(0, Math.round(value * 10_000) / 10_000));
}

function fieldOf(event: Event): HTMLInputElement {
  return event.target as HTMLInputElement;
}
