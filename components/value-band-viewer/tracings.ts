import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { bordersOf, pathOf, type Arrow, type Lightness, type Reason } from '../shared/core.js';
import { icon } from '../shared/icons.js';
import { massesAsked, MassesInHand, type MassWork } from '../shared/masses-in-hand.js';
import { reasonOf } from '../shared/plan-store.js';
import { TRACINGS, type TracingName } from './controls.js';
import { bySize, factsOf, massAt } from './mass-facts.js';
import type { StageView, ToolHost } from './stage-tool.js';

export { tracingsStyles } from './tracings.styles.js';
export { tracingsWords } from '../shared/words/tracings.js';

/** What the tracings need of their viewer. */
export interface TracingHost extends ToolHost {
  /** The tracings that are laid over the picture. */
  readonly traced: readonly TracingName[];
  /** Whether the picture is shown as masses. */
  readonly massed: boolean;
  trace(names: readonly TracingName[]): void;
}

/** The drawings of one piece of work, in pixels of the masses. */
interface Drawn {
  of: MassWork;
  outlines: string[];
  edges: Record<'hard' | 'soft', string>;
  reserves: { d: string; region: number }[];
}

/** A mark is drawn at least this large, CSS pixels. */
const LEAST_MARK = 5;
let copies = 0;

/**
 * Tracings: what the masses are, laid over the picture as lines, in any mix; and what is told of the mass that a person points at.
 * They come when the first one is asked for.
 */
export class Tracings {
  #host: TracingHost;
  #masses?: MassesInHand;
  #release?: () => void;
  #drawn?: Drawn;
  #arrows?: { of: MassWork; lines: string; heads: string };
  #strokes?: { of: MassWork; running: AbortController };
  #fault?: Reason;
  #picked?: number;
  #plane?: { of: MassWork; plane: Lightness };
  readonly #pattern = `reserve-${++copies}`;

  constructor(host: TracingHost) {
    this.#host = host;
  }

  /** Bands of the masses as a plane of band numbers, for the state `masses`. */
  get plane(): Lightness | undefined {
    const { work } = this.#state;
    if (!work) return undefined;
    if (this.#plane?.of !== work) {
      const { width, height, data } = work.masses.map;
      this.#plane = { of: work, plane: { width, height, data } };
    }
    return this.#plane.plane;
  }

  get #state() {
    return MassesInHand.of(this.#host.store).state;
  }

  /** Asks for what is to be shown, and lets go of what is not. */
  sync(): void {
    const wanted = this.#host.traced.length > 0 || this.#host.massed;
    const masses = MassesInHand.of(this.#host.store);
    if (this.#masses && (this.#masses !== masses || !wanted)) this.#letGo();
    if (wanted && !this.#masses) {
      this.#masses = masses;
      masses.addEventListener('masses', this.#onMasses);
      this.#release = masses.hold();
    }
    if (this.#host.traced.includes('strokes')) this.#askStrokes();
  }

  /** The viewer leaves the page. */
  leave(): void {
    this.#letGo();
  }

  /** Points at a mass; true when one is there. */
  pick(event: PointerEvent, view: StageView): boolean {
    const { work } = this.#state;
    if (!work || !this.#host.traced.includes('masses')) return false;
    const [x, y] = view.toPhoto(event.clientX, event.clientY);
    const { crop } = this.#host.store.plan;
    const id = crop
      ? massAt(work.masses, (x - crop.x) / crop.width, (y - crop.y) / crop.height)
      : massAt(work.masses, x, y);
    if (id === undefined) return false;
    this.#pick(id === this.#picked ? undefined : id);
    return true;
  }

  renderOverlay(view: StageView): SVGTemplateResult | typeof nothing {
    const { work } = this.#state;
    const traced = this.#host.traced;
    if (!work || traced.length === 0) return nothing;
    const drawn = this.#draw(work);
    const { crop = { x: 0, y: 0, width: 1, height: 1 } } = this.#host.store.plan;
    const { width, height } = work.masses.map;
    const [left, top] = view.toStage([crop.x, crop.y]);
    const [right, bottom] = view.toStage([crop.x + crop.width, crop.y + crop.height]);
    const [sx, sy] = [(right - left) / width, (bottom - top) / height];
    if (!(sx > 0 && sy > 0)) return nothing; // not laid out yet
    const place = `matrix(${sx} 0 0 ${sy} ${left} ${top})`;
    const has = (name: TracingName): boolean => traced.includes(name);
    const { edges } = drawn;
    return svg`<g class="traced" transform=${place}>
      ${has('reserves') ? this.#renderReserves(drawn, 6 / sx) : nothing}
      ${has('masses') && !has('edges') ? twice(drawn.outlines.join(''), 'trace') : nothing}
      ${has('edges') ? svg`${twice(edges.hard, 'trace')}${twice(edges.soft, 'trace trace-soft')}` : nothing}
      ${has('strokes') && this.#arrows?.of === work ? svg`${twice(this.#arrows.lines, 'trace trace-stroke')}${twice(this.#arrows.heads, 'trace trace-stroke')}` : nothing}
      ${has('masses') && this.#picked !== undefined && drawn.outlines[this.#picked] ? twice(drawn.outlines[this.#picked], 'trace trace-picked') : nothing}
    </g>
    ${has('marks') ? this.#renderMarks(work, view, sx) : nothing}`;
  }

  /** The choice of tracings, how far the work is, and what is told of the mass in hand. */
  renderPanel(): TemplateResult {
    const { traced } = this.#host;
    const say = (key: string): string => this.#host.words(key);
    return html`<div class="tracings" part="tracings">
      <div class="group" role="group" aria-label=${say('tracing.label')}>
        ${TRACINGS.map(
          (name) =>
            html`<button
              type="button"
              aria-pressed=${traced.includes(name) ? 'true' : 'false'}
              @click=${() => this.#toggle(name)}
            >
              ${say(`tracing.${name}`)}
            </button>`,
        )}
      </div>
      ${this.#renderTold()} ${traced.includes('masses') ? this.#renderCard() : nothing}
    </div>`;
  }

  #renderTold(): TemplateResult | typeof nothing {
    const { traced, massed } = this.#host;
    const { status, progress, work, error } = this.#state;
    const say = (key: string, values?: Record<string, string | number>): string =>
      this.#host.words(key, values);
    if (traced.length === 0 && !massed) return html`<p class="soft">${say('tracing.hint')}</p>`;
    const fault = error ?? this.#fault;
    if (fault)
      return html`<div class="trouble" role="alert">
        <span>${this.#host.sentenceOf(fault)}</span>
        <button type="button" @click=${this.#again}>${say('tracing.again')}</button>
      </div>`;
    if (status === 'stopped')
      return html`<div class="group">
        <span class="soft">${say('tracing.stopped')}</span>
        <button type="button" @click=${this.#again}>${say('tracing.again')}</button>
      </div>`;
    if (!work)
      return html`<div class="group">
        <span class="soft" aria-live="off"
          >${say('tracing.working', { brush: this.#brushName, done: 100 * progress })}</span
        >
        ${status === 'working' ? html`<button type="button" @click=${() => this.#masses?.stop()}>${say('tracing.stop')}</button>` : nothing}
      </div>`;
    const { regions, unmet = [] } = work.masses;
    const keys = [
      say('tracing.count', { masses: regions.length, brush: this.#brushName }),
      traced.includes('edges') ? say('tracing.edges-key') : '',
      traced.includes('reserves')
        ? say(work.reserves.length > 0 ? 'tracing.reserves-key' : 'tracing.reserves-none')
        : '',
      traced.includes('marks')
        ? say(work.masses.marks.length > 0 ? 'tracing.marks-key' : 'tracing.marks-none')
        : '',
      traced.includes('strokes')
        ? say(this.#arrows?.of === work ? 'tracing.strokes-key' : 'tracing.strokes-working')
        : '',
      unmet.length > 0 ? say('tracing.unmet', { changes: unmet.length }) : '',
    ];
    return html`<p class="soft" role="status">${keys.filter(Boolean).join(' ')}</p>
      ${
        unmet.length > 0
          ? html`<ul class="small">
              ${unmet.map(({ reason }) => html`<li>${this.#host.sentenceOf(reason)}</li>`)}
            </ul>`
          : nothing
      }`;
  }

  #renderCard(): TemplateResult | typeof nothing {
    const { work, plan } = this.#state;
    if (!work || !plan) return nothing;
    const say = (key: string, values?: Record<string, string | number>): string =>
      this.#host.words(key, values);
    const steps = html`<div class="group">
      <button type="button" @click=${() => this.#step(-1)}>${say('mass.previous')}</button>
      <button type="button" @click=${() => this.#step(1)}>${say('mass.next')}</button>
      ${this.#picked === undefined ? nothing : html`<button type="button" class="quiet" @click=${() => this.#pick(undefined)}>${icon('close')}<span>${say('mass.leave')}</span></button>`}
    </div>`;
    return html`<div class="mass-card" role="group" aria-label=${say('mass.label')}>
      <p>${this.#picked === undefined ? say('mass.hint') : this.#told(work)}</p>
      ${steps}
    </div>`;
  }

  /** A mass in words. */
  #told(work: MassWork): string {
    const { plan } = this.#host.store;
    const facts = this.#picked === undefined ? undefined : factsOf(plan, work, this.#picked);
    if (!facts) return this.#host.words('mass.hint');
    const { areaCm2, share, brushWidths, edges, reserve, place, count } = facts;
    const band = plan.board.bands[facts.band]?.name || this.#host.words('band.paper');
    const inch = this.#host.lengthUnit !== 'mm';
    const parts = [
      this.#host.words(inch ? 'mass.facts-in' : 'mass.facts', {
        band,
        place,
        count,
        area: inch ? areaCm2 / 6.4516 : areaCm2,
        share: 100 * share,
        widths: brushWidths,
        brush: this.#brushName,
      }),
      this.#host.words('mass.edges', edges),
      reserve
        ? this.#host.words(reserve.mask ? 'mass.reserve-mask' : 'mass.reserve', {
            width: this.#host.lengthOf(reserve.narrowestMm),
          })
        : '',
    ];
    return parts.filter(Boolean).join(' ');
  }

  get #brushName(): string {
    const { brushes, brush = 0 } = this.#host.store.plan;
    return (brushes[brush] ?? brushes[0])?.name ?? '';
  }

  #renderReserves({ reserves }: Drawn, step: number): SVGTemplateResult {
    return svg`<defs><pattern id=${this.#pattern} patternUnits="userSpaceOnUse" width=${step} height=${step}>
        <circle class="reserve-cast" cx=${step / 2} cy=${step / 2} r=${step / 4.5}/>
        <circle class="reserve-dot" cx=${step / 2} cy=${step / 2} r=${step / 8}/>
      </pattern></defs>
      ${reserves.map(({ d }) => svg`<path d=${d} fill="url(#${this.#pattern})"/>${twice(d, 'trace')}`)}`;
  }

  #renderMarks(work: MassWork, view: StageView, scale: number): SVGTemplateResult {
    const { crop = { x: 0, y: 0, width: 1, height: 1 } } = this.#host.store.plan;
    const { width, height } = work.masses.map;
    return svg`<g class="traced">${work.masses.marks.map(({ x, y, area, contrast }) => {
      const [cx, cy] = view.toStage([
        crop.x + (crop.width * x) / width,
        crop.y + (crop.height * y) / height,
      ]);
      const r = Math.max(LEAST_MARK, Math.sqrt(area / Math.PI) * scale + 2);
      return svg`<circle class="trace-under" cx=${cx} cy=${cy} r=${r}/><circle class="trace ${contrast > 0 ? 'mark-light' : 'mark-dark'}" cx=${cx} cy=${cy} r=${r}/>`;
    })}</g>`;
  }

  #draw(work: MassWork): Drawn {
    if (this.#drawn?.of === work) return this.#drawn;
    const outlines: string[] = [];
    for (const outline of work.outlines) outlines[outline.region] = pathOf(outline);
    const kinds = new Map(work.edges.map(({ regions, kind }) => [regions.join(' '), kind]));
    const edges = { hard: '', soft: '' };
    for (const { regions, lines } of bordersOf(work.outlines)) {
      const kind = kinds.get(regions.join(' ')) ?? 'hard';
      if (kind !== 'lost') edges[kind] += lines.map(lineOf).join('');
    }
    const reserves = work.reserves.map(({ region }) => ({ region, d: outlines[region] ?? '' }));
    this.#drawn = { of: work, outlines, edges, reserves };
    return this.#drawn;
  }

  #toggle(name: TracingName): void {
    const { traced } = this.#host;
    this.#host.trace(
      traced.includes(name) ? traced.filter((each) => each !== name) : [...traced, name],
    );
  }

  #pick(id: number | undefined): void {
    this.#picked = id;
    const { work } = this.#state;
    if (id !== undefined && work) this.#host.speak(this.#told(work));
    this.#host.requestUpdate();
  }

  #step(by: 1 | -1): void {
    const { work } = this.#state;
    if (!work) return;
    const order = bySize(work.masses);
    const at = order.findIndex(({ id }) => id === this.#picked);
    const next = at < 0 ? (by > 0 ? 0 : order.length - 1) : (at + by + order.length) % order.length;
    this.#pick(order[next]?.id);
  }

  #again = (): void => {
    this.#fault = undefined;
    this.#strokes = undefined;
    this.#masses?.again();
    this.sync();
  };

  #onMasses = (): void => {
    const { work, status } = this.#state;
    if (status === 'ready' && work && !work.masses.regions[this.#picked ?? 0])
      this.#picked = undefined;
    this.sync();
    this.#host.requestUpdate();
  };

  #askStrokes(): void {
    const { work, status, plan } = this.#state;
    if (!work || !plan || status !== 'ready' || this.#strokes?.of === work) return;
    this.#strokes?.running.abort();
    const running = new AbortController();
    this.#strokes = { of: work, running };
    this.#fault = undefined;
    this.#host.store
      .run('strokes', massesAsked(plan), { signal: running.signal })
      .then(({ arrows }) => {
        this.#arrows = { of: work, ...arrowPaths(arrows) };
        this.#host.requestUpdate();
      })
      .catch((thrown: unknown) => {
        if (running.signal.aborted) return;
        this.#fault = reasonOf(thrown);
        this.#host.requestUpdate();
      });
  }

  #letGo(): void {
    this.#masses?.removeEventListener('masses', this.#onMasses);
    this.#release?.();
    this.#masses = this.#release = undefined;
    this.#strokes?.running.abort();
    this.#strokes = this.#arrows = this.#drawn = this.#plane = undefined;
    this.#picked = undefined;
  }
}

/** A line that is seen on any ground: a light one under a dark one. */
function twice(d: string, kind: string): SVGTemplateResult {
  return svg`<path class="trace-under" d=${d}/><path class=${kind} d=${d}/>`;
}

const short = (value: number): number => Math.round(value * 10) / 10;

/** Points x, y, … as a path. */
function lineOf(points: ArrayLike<number>): string {
  let d = '';
  for (let i = 0; i < points.length; i += 2)
    d += `${i === 0 ? 'M' : 'L'}${short(points[i])} ${short(points[i + 1])}`;
  return d;
}

/** Half the opening of an arrow's head, and its length against the stroke's. */
const HEAD_ANGLE = 0.45;

/** Arrows as two paths: the lines, and heads for those whose sense is known. */
function arrowPaths(arrows: readonly Arrow[]): { lines: string; heads: string } {
  let lines = '';
  let heads = '';
  for (const { line, sensed } of arrows) {
    lines += lineOf(line);
    const n = line.length;
    if (!sensed || n < 4) continue;
    const back = Math.max(0, n - 8);
    const angle = Math.atan2(line[n - 1] - line[back + 1], line[n - 2] - line[back]);
    let long = 0;
    for (let i = 2; i < n; i += 2)
      long += Math.hypot(line[i] - line[i - 2], line[i + 1] - line[i - 1]);
    const size = long * 0.16;
    const barb = (turn: number): string =>
      `${short(line[n - 2] - size * Math.cos(angle + turn))} ${short(line[n - 1] - size * Math.sin(angle + turn))}`;
    heads += `M${barb(HEAD_ANGLE)}L${short(line[n - 2])} ${short(line[n - 1])}L${barb(-HEAD_ANGLE)}`;
  }
  return { lines, heads };
}
