import { html, nothing, svg, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import {
  lightnessOfMunsell,
  MOST_BANDS,
  munsellValue,
  withBandAdded,
  withBandNamed,
  withBandRemoved,
  withLimitMoved,
  withLimits,
  LEAST_STEP,
  type Plan,
} from '../shared/core.js';
import { icon } from '../shared/icons.js';
import type { PlanStore } from '../shared/plan-store.js';
import { freeName } from '../shared/usual-bands.js';
import { capital } from './capital.js';
import { cutOf, sharesOfCut, tonesOf } from './cut.js';
import { dabOutline, puddleOutline, smoothPath } from './puddle.js';
import { put } from '../shared/put.js';
import {
  heightOf,
  heightOfValue,
  LADDER_HEIGHT,
  lightnessAt,
  RUNG,
  spread,
  steppedValue,
  valueOfHeight,
} from './rungs.js';

/** What the ladder needs of its element. */
export interface LadderHost {
  requestUpdate(): void;
  readonly store: PlanStore;
  /** The band that is seen alone. */
  readonly alone: number | undefined;
  /** Counts of what is seen. */
  readonly counts: Uint32Array | undefined;
  words(key: string, values?: Readonly<Record<string, string | number>>): string;
  speak(text: string): void;
  /** Changes the plan on behalf of the person. */
  act(label: string, make: (plan: Plan) => Plan, gesture?: string, settled?: boolean): void;
  /** Sees a band alone, or all of them. */
  seeAlone(band: number | undefined): void;
}

/** Sizes in CSS pixels. */
const DAB = 44;
const LEAD = 20;
const REACH = 12;
const PEG = 44;
const ROW = 52;
/** The least room of a name with its share, and of a knob, at the usual size of text. */
const NAME = 40;
const KNOB = 26;
/** The area of the puddle that is the whole picture: 104 px across. */
const WHOLE_PUDDLE = Math.PI * 52 * 52;
/** The column of the puddles. */
const POOL = 100;

const dabs = Array.from({ length: 11 }, (_, value) =>
  smoothPath(dabOutline(DAB - 2, RUNG - 6, value + 3)),
);

/** The page's size of text, CSS pixels. */
function textSize(): number {
  return parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
}

/** The neutral CSS colour of a lightness. */
function greyOf(lightness: number): string {
  return `lab(${lightness} 0 0)`;
}

/** The upright ladder of grey dabs: pegs for the limits, a puddle for the share of each band. */
export class Ladder {
  #host: LadderHost;
  #held?: { peg: number; pointer: number; gesture: string; grip: number };
  #focused?: number;
  #gestures = 0;
  /** How much larger than usual the page's text is. */
  #text = textSize() / 16;
  /** How much longer than usual the ladder is, so that all names have room in large text. */
  #stretch = 1;

  constructor(host: LadderHost) {
    this.#host = host;
  }

  render(): TemplateResult {
    const { plan } = this.#host.store;
    const limits = limitsOf(plan);
    const shares = sharesOfCut(this.#host.counts, cutOf(plan));
    this.#stretch = Math.max(1, (shares.length * NAME * this.#text) / LADDER_HEIGHT);
    const length = this.#length;
    const heights = limits.map((limit) => heightOf(limit) * this.#stretch);
    const knobs = spread(
      heights.toReversed(),
      heights.map(() => Math.max(PEG, KNOB * this.#text)),
      0,
      length,
    ).toReversed();
    const borders = [length - 4, ...heights, 4];
    const middles = shares.map((_, i) => (borders[i] + borders[i + 1]) / 2);
    const least = Math.max(ROW, Math.min(ROW * this.#text, length / shares.length));
    const sizes = shares.map((share) =>
      Math.max(least, 2 * Math.sqrt((share * WHOLE_PUDDLE) / Math.PI) + 6),
    );
    const rows = spread(middles.toReversed(), sizes.toReversed(), 0, length).toReversed();
    const bands = shares.map((_, i) => i).reverse();
    return html`<div
      class="ladder"
      part="ladder"
      role="group"
      aria-label=${this.#say('ladder.label')}
    >
      <div class="rail" ${put({ '--_rail': `${length}px` })}>
        <ul class="rows" aria-label=${this.#say('ladder.bands')}>
          ${repeat(
            bands,
            (band) => band,
            (band) => this.#row(band, shares[band], rows[band]),
          )}
        </ul>
        ${this.#leads(borders, rows, shares)} ${this.#dabs()} ${this.#lines(heights, knobs)}
        ${this.#numerals()}
        ${repeat(
          limits.map((_, i) => i).reverse(),
          (peg) => peg,
          (peg) => this.#peg(peg, limits, knobs[peg]),
        )}
      </div>
      ${this.#card(shares)}
    </div>`;
  }

  get #length(): number {
    return LADDER_HEIGHT * this.#stretch;
  }

  #say(key: string, values?: Readonly<Record<string, string | number>>): string {
    return this.#host.words(key, values);
  }

  /** The name of a band; the one above all is the bare paper. */
  #name(band: number): string {
    return this.#host.store.plan.board.bands[band]?.name || this.#say('band.paper');
  }

  #share(share: number): string {
    if (!this.#host.counts) return '';
    if (share === 0) return this.#say('band.none');
    return share < 0.01 ? this.#say('band.trace') : this.#say('band.share', { share: 100 * share });
  }

  #limitName(peg: number): string {
    const { bands } = this.#host.store.plan.board;
    if (peg === bands.length - 1) return this.#say('ladder.paper-limit');
    return this.#say('ladder.limit', { darker: bands[peg].name, lighter: bands[peg + 1].name });
  }

  #row(band: number, share: number, middle: number): TemplateResult {
    const { plan } = this.#host.store;
    const own = plan.board.bands[band];
    const alone = this.#host.alone === band;
    const told = this.#share(share);
    const tone = tonesOf(cutOf(plan))[band];
    return html`<li
      class="row ${this.#host.alone !== undefined && !alone ? 'aside' : ''}"
      ${put({ '--_y': `${middle}px` })}
    >
      <div class="name">
        ${
          own
            ? html`<input
                part="band-name"
                aria-label=${this.#say('band.name-of', { place: band + 1 })}
                .value=${own.name}
                maxlength="60"
                autocomplete="off"
                spellcheck="false"
                ?readonly=${own.locked ?? false}
                @change=${(event: Event) => this.#rename(band, event.target as HTMLInputElement)}
                @keydown=${this.#nameKey}
              />`
            : html`<span class="paper-name">${this.#say('band.paper')}</span>`
        }
        ${told ? html`<span class="share">${told}</span>` : nothing}
      </div>
      <button
        type="button"
        class="puddle"
        part="puddle"
        aria-pressed=${alone ? 'true' : 'false'}
        aria-label=${this.#say('band.alone', { band: this.#name(band), share: told })}
        ?disabled=${!this.#host.counts}
        @click=${() => this.#host.seeAlone(alone ? undefined : band)}
      >
        <svg viewBox="-50 -50 100 100" aria-hidden="true">
          ${
            share > 0
              ? svg`<path class="pool" d=${smoothPath(puddleOutline(share * WHOLE_PUDDLE, band + 1))} fill=${greyOf(tone)} />`
              : svg`<circle class="dry" r="3" />`
          }
        </svg>
      </button>
    </li>`;
  }

  /** Hairlines from the stretch of the ladder that a band takes to its puddle. */
  #leads(
    borders: readonly number[],
    rows: readonly number[],
    shares: readonly number[],
  ): TemplateResult {
    const x = LEAD - 5;
    return html`<svg class="leads" width=${LEAD} height=${this.#length} aria-hidden="true">
      ${rows.map((row, band) => {
        const [foot, top] = [borders[band] - 3, borders[band + 1] + 3];
        if (foot - top < 1) return nothing;
        const middle = (foot + top) / 2;
        return svg`<path d="M${x + 3} ${top}H${x}V${foot}H${x + 3}M${x} ${middle}L0 ${row}H${Math.sqrt((shares[band] * WHOLE_PUDDLE) / Math.PI) * 1.16 + 6 - POOL / 2}" />`;
      })}
    </svg>`;
  }

  #dabs(): TemplateResult {
    return html`<svg
      class="dabs"
      part="dabs"
      width=${DAB}
      height=${this.#length}
      aria-hidden="true"
    >
      ${dabs.map(
        (path, value) =>
          svg`<g transform="translate(${DAB / 2} ${heightOfValue(value) * this.#stretch}) scale(1 ${this.#stretch})"><path d=${path} fill=${greyOf(lightnessOfMunsell(value))} /></g>`,
      )}
    </svg>`;
  }

  /** The values, over the pins; each has a rim of its dab's grey, so that a pin does not strike it out. */
  #numerals(): TemplateResult {
    return html`<svg class="dabs" width=${DAB} height=${this.#length} aria-hidden="true">
      ${dabs.map(
        (_, value) =>
          svg`<text class=${value < 5 ? 'on-dark' : ''} x=${DAB / 2} y=${heightOfValue(value) * this.#stretch + 4.5} stroke=${greyOf(lightnessOfMunsell(value))}>${value}</text>`,
      )}
    </svg>`;
  }

  /** The pegs' pins over the dabs. */
  #lines(heights: readonly number[], knobs: readonly number[]): TemplateResult {
    return html`<svg class="pins" width=${DAB + REACH} height=${this.#length} aria-hidden="true">
      ${heights.map((y, i) => {
        const d = `M0 ${y}H${DAB + 3}L${DAB + REACH} ${knobs[i]}`;
        return svg`<path class="halo" d=${d} /><path class="pin" d=${d} />`;
      })}
    </svg>`;
  }

  #peg(peg: number, limits: readonly number[], y: number): TemplateResult {
    const value = munsellValue(limits[peg]);
    const low = peg === 0 ? 0 : munsellValue(Math.min(100, limits[peg - 1] + LEAST_STEP));
    const high =
      peg === limits.length - 1 ? 10 : munsellValue(Math.max(0, limits[peg + 1] - LEAST_STEP));
    return html`<div
      class="peg ${this.#held?.peg === peg ? 'held' : ''}"
      part="peg"
      role="slider"
      tabindex="0"
      aria-orientation="vertical"
      aria-label=${this.#limitName(peg)}
      aria-valuemin=${low.toFixed(1)}
      aria-valuemax=${high.toFixed(1)}
      aria-valuenow=${value.toFixed(1)}
      aria-valuetext=${this.#say('ladder.value', { value, lightness: limits[peg] })}
      ${put({ '--_y': `${y}px` })}
      @pointerdown=${(event: PointerEvent) => this.#grip(event, peg)}
      @pointermove=${this.#drag}
      @pointerup=${this.#letGo}
      @pointercancel=${this.#letGo}
      @lostpointercapture=${this.#letGo}
      @keydown=${(event: KeyboardEvent) => this.#key(event, peg, low, high)}
      @focus=${() => this.#focus(peg)}
      @blur=${() => this.#focus(undefined)}
    >
      <span class="knob">${this.#say('ladder.knob', { value })}</span>
    </div>`;
  }

  /** What is known of the band that is seen alone, and what can be done with it; else how to go on. */
  #card(shares: readonly number[]): TemplateResult {
    const { plan } = this.#host.store;
    const { bands } = plan.board;
    const { alone } = this.#host;
    const limits = limitsOf(plan);
    if (alone === undefined) {
      const told =
        this.#focused !== undefined && this.#focused < limits.length
          ? this.#say('ladder.detail', {
              limit: this.#limitName(this.#focused),
              value: munsellValue(limits[this.#focused]),
              lightness: limits[this.#focused],
            })
          : this.#say(this.#host.counts ? 'band.hint' : 'band.waiting');
      const locked = bands.some((band) => band.locked);
      return html`<div class="card">
        <p>${told}</p>
        ${this.#inPaint()}
        <div class="group">
          <button
            type="button"
            ?disabled=${locked || bands.length >= MOST_BANDS}
            @click=${() => this.#add(this.#largest(shares))}
          >
            ${icon('plus')}<span>${this.#say('band.add')}</span>
          </button>
          ${this.#paperButton()}
        </div>
      </div>`;
    }
    const [low, high] = [limits[alone - 1] ?? 0, limits[alone] ?? 100];
    const locked = bands[alone]?.locked ?? false;
    return html`<div class="card">
      <p>
        ${capital(
          this.#say('band.card', {
            band: this.#name(alone),
            low: munsellValue(low),
            high: munsellValue(high),
            lowL: low,
            highL: high,
            share: this.#share(shares[alone] ?? 0),
          }),
        )}
      </p>
      <div class="group">
        ${
          alone < bands.length
            ? html`<button
                  type="button"
                  ?disabled=${locked || bands.length >= MOST_BANDS || !splittable(plan, alone)}
                  @click=${() => this.#add(alone)}
                >
                  ${icon('plus')}<span>${this.#say('band.split')}</span>
                </button>
                <button
                  type="button"
                  ?disabled=${locked || bands.length <= 2}
                  @click=${() => this.#remove(alone)}
                >
                  ${icon('minus')}<span>${this.#say('band.take-out')}</span>
                </button>`
            : this.#paperButton()
        }
        <button type="button" @click=${() => this.#host.seeAlone(undefined)}>
          ${icon('eye')}<span>${this.#say('band.all')}</span>
        </button>
      </div>
    </div>`;
  }

  /** Where the limits lie in dry paint, when the range of the paint moves them. */
  #inPaint(): TemplateResult | typeof nothing {
    const { photoLimits, paintLimits } = this.#host.store.plan;
    if (photoLimits.every((limit, i) => Math.abs(limit - paintLimits[i]) < 0.5)) return nothing;
    const limits = paintLimits.map((limit) =>
      this.#say('ladder.paint-value', { value: munsellValue(limit) }),
    );
    return html`<p>${this.#say('ladder.paint', { limits: limits.join('\u00a0· ') })}</p>`;
  }

  #paperButton(): TemplateResult {
    const { paperLimit } = this.#host.store.plan;
    return paperLimit === undefined
      ? html`<button type="button" @click=${this.#leavePaper}>
          ${icon('plus')}<span>${this.#say('paper.leave')}</span>
        </button>`
      : html`<button type="button" @click=${this.#coverPaper}>
          ${icon('minus')}<span>${this.#say('paper.none')}</span>
        </button>`;
  }

  #focus(peg: number | undefined): void {
    this.#focused = peg;
    this.#host.requestUpdate();
  }

  #grip(event: PointerEvent, peg: number): void {
    if (event.button !== 0 || this.#held) return;
    const element = event.currentTarget as HTMLElement;
    element.setPointerCapture(event.pointerId);
    element.focus({ preventScroll: true });
    event.preventDefault();
    const top = element.parentElement!.getBoundingClientRect().top;
    const y = heightOf(limitsOf(this.#host.store.plan)[peg]) * this.#stretch;
    this.#held = {
      peg,
      pointer: event.pointerId,
      gesture: this.#gesture(),
      grip: event.clientY - top - y,
    };
    this.#host.requestUpdate();
  }

  #drag = (event: PointerEvent): void => {
    const held = this.#held;
    if (held?.pointer !== event.pointerId) return;
    const top = (event.currentTarget as HTMLElement).parentElement!.getBoundingClientRect().top;
    const lightness = lightnessAt(valueOfHeight((event.clientY - top - held.grip) / this.#stretch));
    this.#host.act(
      'limits',
      (plan) => withLimitMoved(plan, held.peg, lightness),
      held.gesture,
      false,
    );
  };

  #letGo = (event: PointerEvent): void => {
    const held = this.#held;
    if (held?.pointer !== event.pointerId) return;
    this.#held = undefined;
    this.#host.act('limits', (plan) => plan, held.gesture, true);
    this.#host.requestUpdate();
  };

  #key(event: KeyboardEvent, peg: number, low: number, high: number): void {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const value = munsellValue(limitsOf(this.#host.store.plan)[peg]);
    const steps: Record<string, number> = {
      ArrowUp: 1,
      ArrowRight: 1,
      ArrowDown: -1,
      ArrowLeft: -1,
      PageUp: 10,
      PageDown: -10,
    };
    let to: number;
    if (event.key in steps) to = steppedValue(value, steps[event.key]);
    else if (event.key === 'Home') to = low;
    else if (event.key === 'End') to = high;
    else return;
    event.preventDefault();
    // A key held down is one step of undo.
    if (!event.repeat) this.#gesture();
    this.#host.act(
      'limits',
      (plan) => withLimitMoved(plan, peg, lightnessAt(to)),
      `peg ${this.#gestures}`,
      true,
    );
  }

  #gesture(): string {
    return `peg ${++this.#gestures}`;
  }

  #rename(band: number, input: HTMLInputElement): void {
    const name = input.value.trim().slice(0, 60);
    const before = this.#host.store.plan.board.bands[band].name;
    if (!name) input.value = before;
    else this.#host.act('bands', (plan) => withBandNamed(plan, band, name));
  }

  #nameKey = (event: KeyboardEvent): void => {
    const input = event.currentTarget as HTMLInputElement;
    if (event.key === 'Enter') input.blur();
    event.stopPropagation();
  };

  /** The band that takes most of the picture and can be split. */
  #largest(shares: readonly number[]): number {
    const { plan } = this.#host.store;
    const able = plan.board.bands.map((_, band) => band).filter((band) => splittable(plan, band));
    const width = (band: number): number =>
      (plan.photoLimits[band] ?? 100) - (plan.photoLimits[band - 1] ?? 0);
    const size = (band: number): number => (this.#host.counts ? shares[band] : width(band));
    return able.reduce((best, band) => (size(band) > size(best) ? band : best), able[0] ?? 0);
  }

  #add(band: number): void {
    const name = this.#name(band);
    if (!splittable(this.#host.store.plan, band)) return;
    this.#host.seeAlone(undefined);
    this.#host.act('bands', (plan) =>
      withBandAdded(
        plan,
        band,
        freeName(this.#say('band.darker', { band: name }), plan.board.bands),
      ),
    );
    this.#host.speak(this.#say('band.added', { band: name }));
  }

  #remove(band: number): void {
    const name = this.#name(band);
    this.#host.seeAlone(undefined);
    this.#host.act('bands', (plan) => withBandRemoved(plan, band));
    this.#host.speak(this.#say('band.taken-out', { band: name }));
  }

  #leavePaper = (): void => {
    this.#host.act('limits', (plan) => {
      const last = plan.photoLimits.at(-1) ?? 0;
      return withLimits(
        plan,
        plan.photoLimits,
        Math.min(100, Math.max(last + LEAST_STEP, (last + 100) / 2, 90)),
      );
    });
  };

  #coverPaper = (): void => {
    if (this.#host.alone === this.#host.store.plan.board.bands.length)
      this.#host.seeAlone(undefined);
    this.#host.act('limits', (plan) => withLimits(plan, plan.photoLimits, undefined));
  };
}

/** All limits of a plan, the bare paper's last. */
function limitsOf({ photoLimits, paperLimit }: Plan): number[] {
  return paperLimit === undefined ? photoLimits : [...photoLimits, paperLimit];
}

/** Whether a band is wide enough for two. */
function splittable({ photoLimits, paperLimit }: Plan, band: number): boolean {
  return (photoLimits[band] ?? paperLimit ?? 100) - (photoLimits[band - 1] ?? 0) >= 2 * LEAST_STEP;
}
