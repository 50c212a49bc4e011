import { type nothing, type SVGTemplateResult, type TemplateResult } from 'lit';
import { regionAt, type Lightness, type Spot } from '../shared/core.js';
import { MassesInHand, type MassesState } from '../shared/masses-in-hand.js';
import type { TracingName } from './controls.js';
import { Following } from './following.js';
import { insideOf, massBeside } from './mass-facts.js';
import type { StageView } from './stage-tool.js';
import { drawnOver } from './tracing-drawings.js';
import { massInWords, tracingPanel } from './tracing-panel.js';
import type { TracingHost, TracingsShown } from './tracings-shown.js';

export { tracingsStyles } from './tracings.styles.js';
export { tracingsWords } from '../shared/words/tracings.js';

let copies = 0;

/**
 * Tracings: what the masses are, laid over the picture as lines, in any mix; and what is told of the mass that a person points at.
 * They come when the first one is asked for.
 */
export class Tracings implements TracingsShown {
  readonly host: TracingHost;
  readonly strokes: Following<'strokes'>;
  readonly passages: Following<'passages'>;
  readonly accents: Following<'accents'>;
  picked?: number;
  accent?: number | string;

  #masses?: MassesInHand;
  #release?: () => void;
  #status?: MassesState['status'];
  #map?: MassesState['map'];
  /** Where the mass in hand was pointed at: its number changes with the masses. */
  #pickedAt?: Spot;
  #plane?: { of: object; plane: Lightness };
  /** Names the patterns of this viewer apart from those of others. */
  readonly #ids = `light-${++copies}`;

  constructor(host: TracingHost) {
    this.host = host;
    const told = (): void => host.requestUpdate();
    this.strokes = new Following('strokes', told);
    this.passages = new Following('passages', told);
    this.accents = new Following('accents', told);
  }

  /** Bands of the masses as a plane of band numbers, for the state `masses`. */
  get plane(): Lightness | undefined {
    const { map } = this.state;
    if (!map) return undefined;
    if (this.#plane?.of !== map) {
      const { width, height, data } = map;
      this.#plane = { of: map, plane: { width, height, data } };
    }
    return this.#plane.plane;
  }

  get state(): MassesState {
    return MassesInHand.of(this.host.store).state;
  }

  /** Asks for what is to be shown, and lets go of what is not. */
  sync(): void {
    const { traced, massed, store } = this.host;
    const wanted = traced.length > 0 || massed;
    const masses = MassesInHand.of(store);
    if (this.#masses && (this.#masses !== masses || !wanted)) this.leave();
    if (wanted && !this.#masses) {
      this.#masses = masses;
      masses.addEventListener('masses', this.#onMasses);
      this.#release = masses.hold();
    }
    for (const name of ['strokes', 'passages', 'accents'] as const)
      if (traced.includes(name)) this[name].ask(store, this.state);
  }

  /** Lets go of everything, as when the viewer leaves the page. */
  leave(): void {
    this.#masses?.removeEventListener('masses', this.#onMasses);
    this.#release?.();
    this.#masses = this.#release = undefined;
    for (const each of [this.strokes, this.passages, this.accents]) each.letGo();
    this.#plane = this.#pickedAt = this.picked = this.accent = undefined;
  }

  /** Points at a mass in the picture. */
  pointAt(event: PointerEvent, view: StageView): void {
    const { work, plan } = this.state;
    if (!work || !plan || this.host.traced.length === 0) return;
    const at = view.toPhoto(event.clientX, event.clientY);
    const mass = regionAt(plan, work.masses, at);
    if (mass !== undefined) this.#take(mass === this.picked ? undefined : mass, at);
  }

  renderOverlay(view: StageView): SVGTemplateResult | typeof nothing {
    return drawnOver(this, view, this.#ids);
  }

  renderPanel(): TemplateResult {
    return tracingPanel(this, this.#ids);
  }

  toggle(name: TracingName): void {
    const { traced } = this.host;
    this.host.trace(
      traced.includes(name) ? traced.filter((each) => each !== name) : [...traced, name],
    );
  }

  pick(mass: number | undefined): void {
    this.#take(mass);
  }

  step(by: 1 | -1): void {
    const { work } = this.state;
    if (work) this.#take(massBeside(work.masses, this.picked, by));
  }

  chooseAccent(accent: number | string | undefined): void {
    this.accent = accent;
    this.host.requestUpdate();
  }

  stop(): void {
    this.#masses?.stop();
  }

  again(): void {
    for (const each of [this.strokes, this.passages, this.accents]) each.again();
    if (this.state.status !== 'ready') this.#masses?.again();
    this.sync();
    this.host.requestUpdate();
  }

  #take(mass: number | undefined, at?: Spot): void {
    const { work, plan } = this.state;
    if (!work || !plan) return;
    this.picked = mass;
    this.#pickedAt = mass === undefined ? undefined : (at ?? insideOf(plan, work.masses, mass));
    if (mass !== undefined) this.host.speak(massInWords(this, work, mass));
    this.host.requestUpdate();
  }

  #onMasses = (): void => {
    const { work, map, plan, status } = this.state;
    // While the masses of another limit are found, the last ones stay until there is something new to show.
    const news = map !== this.#map;
    if (work && status === 'working' && this.#status === 'working' && !news) return;
    this.#status = status;
    this.#map = map;
    const unmet = (status === 'ready' && work?.masses.unmet?.length) || 0;
    if (unmet > 0) this.host.speak(this.host.words('tracing.unmet', { changes: unmet }));
    if (!work || !plan) this.picked = this.#pickedAt = this.accent = undefined;
    else if (this.#pickedAt) this.picked = regionAt(plan, work.masses, this.#pickedAt);
    this.sync();
    this.host.requestUpdate();
  };
}
