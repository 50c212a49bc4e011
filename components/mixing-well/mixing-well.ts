import { css, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from '../shared/property.js';
import type { Mix, Plan, Reason, Recipe } from '../shared/core.js';
import { emptyState } from '../shared/empty.styles.js';
import { ReadyEvent } from '../shared/events/ready.js';
import { NearViewport } from '../shared/near-viewport.js';
import type { StorePlanEvent } from '../shared/plan-store.js';
import type { Words } from '../shared/strings.js';
import { controls, tokens } from '../shared/tokens.js';
import { TonewellElement } from '../shared/tonewell-element.js';
import { wellWords } from '../shared/words/well.js';
import type { Desk } from './desk.js';

/** Until the desk has come: about the height of a shelf that is still empty. */
const room = css`
  .coming {
    min-block-size: 18rem;
  }
`;

/**
 * @summary The painter's own tubes as pans, a well for spoonfuls of them and of water, and the puddle as it will dry: on paper, over a
 * dried layer, on the ladder of values.
 *
 * Mixes are predicted from measured paints (Kubelka-Munk on 36 bands). Mixes can be asked for by a colour or a value, families of equal
 * value for a band, and how much to mix for an area; each can be sent to a bucket of the board with its recipe. Tied to a plan it works
 * on that plan's shelf, readings, board and dabs; alone it has a plan of its own.
 *
 * @tag mixing-well
 *
 * @slot - What is shown before the element is ready or without script.
 *
 * @fires {MixChangeEvent} mix-change - A person changed the mix in the well; follows a drag.
 * @fires {MixSendEvent} mix-send - A person sent a mix or a family to the board.
 * @fires {ShelfChangeEvent} shelf-change - A person changed the shelf, the strength of a tube, or whether the work will be sold.
 * @fires {ReadyEvent} ready - The well can be worked with.
 * @fires {KitErrorEvent} error - Tubes, a colour or a band that the page gave cannot be used, or a search failed.
 *
 * @csspart frame - All of the element.
 * @csspart shelf - The shelf.
 * @csspart pans - The pans on it.
 * @csspart pan - One pan.
 * @csspart about - What is told about a tube.
 * @csspart cautions - What to know of its health and how it lasts.
 * @csspart fit - The painter's own tube.
 * @csspart fit-result - What dabs tell of its strength.
 * @csspart chooser - The list that tubes are chosen from.
 * @csspart empty - What an empty shelf says.
 * @csspart done - What was just done.
 * @csspart wells - Spoonfuls and water.
 * @csspart spoon - The spoonfuls of one tube.
 * @csspart water - Water.
 * @csspart then - How a weak wash is let down further, puddle by puddle.
 * @csspart strip - The same parts from weak to strong.
 * @csspart look - The puddle with what is known of it.
 * @csspart puddle - The puddle on paper and over a dried layer.
 * @csspart facts - Value, band, lean, ladder.
 * @csspart value - The value, one number.
 * @csspart band - The name of its band.
 * @csspart ladder - The ladder of grey dabs.
 * @csspart fading - What in the mix does not last.
 * @csspart prediction - How far off the prediction may be.
 * @csspart send-button - Sends the mix to a bucket.
 * @csspart tools - Asking for mixes, families, amounts.
 * @csspart find - The question for mixes.
 * @csspart family - The question for a family.
 * @csspart amount - The question for how much.
 * @csspart reach - The question for what the shelf reaches.
 * @csspart puddle-amount - How much to mix.
 * @csspart puddle-then - How a first puddle is let down where a part is too small to measure.
 * @csspart progress - How far a search has come.
 * @csspart why - Why nothing comes closer.
 * @csspart proven - Mixes that were painted before and come near.
 * @csspart found - The mixes found.
 * @csspart mix - One of them.
 * @csspart trouble - The sentence of a fault.
 * @csspart icon - A drawing beside a word.
 *
 * @cssproperty --tonewell-paper - Background of the page.
 * @cssproperty --tonewell-sheet - Background of controls.
 * @cssproperty --tonewell-ink - Text.
 * @cssproperty --tonewell-ink-soft - Lesser text.
 * @cssproperty --tonewell-line - Hairlines.
 * @cssproperty --tonewell-edge - Borders of controls.
 * @cssproperty --tonewell-press - Background of a control under the pointer.
 * @cssproperty --tonewell-surround - Neutral grey about paints.
 * @cssproperty --tonewell-font - Typeface.
 *
 * @cssstate ready - The well can be worked with.
 * @cssstate empty - There is nothing on the shelf.
 */
export class MixingWell extends TonewellElement {
  static override readonly tag = 'mixing-well';
  static override readonly words: Words = wellWords;
  static override readonly styles = [tokens, controls, emptyState, room];

  #internals?: ElementInternals;
  #recipe: Recipe | null = null;
  #laidIn?: unknown;

  @state() private desk?: Desk;
  @state() private failed = false;

  /** Ids of tubes to begin with, parted by spaces, where the plan has no shelf yet. */
  @property() tubes = '';

  /** The band that a family is asked for and mixes are sent to: its name or its number (0 is the darkest). */
  @property() band = '';

  /** A CSS colour to look for. */
  @property() target = '';

  constructor() {
    super();
    new NearViewport(this, () => void this.#fetchDesk());
    try {
      this.#internals = this.attachInternals();
    } catch {
      // Custom states are then missing; all else works.
    }
  }

  /** The mix in the well as it dries, on the paper or on the layer below; `undefined` while the well is empty or not ready. */
  get mix(): Mix | undefined {
    return this.desk && structuredClone(this.desk.now.judged);
  }

  /** The mix as it is written down; setting it fills the well, `null` empties it. */
  get recipe(): Recipe | null {
    return this.desk ? (this.desk.recipe ?? null) : this.#recipe;
  }
  set recipe(recipe: Recipe | null) {
    this.#recipe = recipe;
    this.#fill();
    this.requestUpdate();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.desk?.left();
  }

  protected override willUpdate(changes: PropertyValues<this>): void {
    super.willUpdate(changes);
    if (changes.has('tubes')) this.#laidIn = undefined;
    this.#layTubes();
    if (changes.has('band')) this.#aim();
    if (changes.has('target')) this.#seek();
  }

  protected override updated(): void {
    this.desk?.settle();
    this.#setState('ready', this.desk !== undefined);
    this.#setState('empty', (this.store.plan.shelf?.length ?? 0) === 0);
  }

  protected override planChanged(event?: StorePlanEvent): void {
    super.planChanged(event);
    if (!event) this.desk?.taken();
    else if (event.plan.shelf !== event.previous.shelf || event.plan.board !== event.previous.board)
      this.desk?.changed();
  }

  /** @internal */
  get language(): string {
    return this.locale;
  }

  /** @internal */
  words(key: string, values: Readonly<Record<string, string | number>> = {}): string {
    return this.say(key, values);
  }

  /** @internal */
  speak(text: string): void {
    this.announce(text);
  }

  /** @internal */
  fail(reason: Reason): void {
    this.fireError(reason);
  }

  /** Gives the first control the focus. */
  override focus(options?: FocusOptions): void {
    this.shadowRoot?.querySelector<HTMLElement>('.place > [tabindex="0"], .begin')?.focus(options);
  }

  override render(): TemplateResult {
    const coming = !this.desk && !this.failed;
    return html`<div
      class=${coming ? 'frame coming' : 'frame'}
      part="frame"
      @input=${stop}
      @change=${stop}
    >
      ${
        this.desk
          ? this.desk.render()
          : this.failed
            ? html`<div class="trouble" part="trouble" role="alert">
                <span>${this.say('part.failed')}</span>
                <button type="button" @click=${() => this.#fetchDesk()}>
                  ${this.say('part.again')}
                </button>
              </div>`
            : nothing
      }
      <div ?hidden=${this.desk !== undefined}><slot></slot></div>
    </div>`;
  }

  /** Brings what the well is worked with, and the tubes. */
  async #fetchDesk(): Promise<void> {
    try {
      const { Desk, deskStyles, paintWords, tubesWords, wellDeskWords } = await import('./desk.js');
      if (this.desk) return;
      this.adopt({ ...tubesWords, ...paintWords, ...wellDeskWords }, deskStyles);
      this.desk = new Desk(this);
      this.failed = false;
      this.#aim();
      this.#seek();
      this.#fill();
      await this.updateComplete;
      this.dispatchEvent(new ReadyEvent());
    } catch {
      this.failed = true;
    }
  }

  /** Puts the tubes that the page names on a shelf that has none. */
  #layTubes(): void {
    const ids = [...new Set(this.tubes.split(/[\s,]+/).filter(Boolean))];
    if (ids.length === 0 || this.#laidIn === this.store) return;
    const { store } = this;
    this.#laidIn = store;
    const shelf = ids.slice(0, 100).map((tube) => ({ tube }));
    const lay = (plan: Plan): Plan => ({ ...plan, shelf });
    if (!this.tied) return store.amend('shelf', lay);
    // A kept plan that is still being looked for may have a shelf of its own.
    void store.settled.then(() => {
      if (this.store !== store || this.#laidIn !== store) return;
      if ((store.plan.shelf?.length ?? 0) === 0) store.amend('shelf', lay);
    });
  }

  #fill(): void {
    const { desk } = this;
    if (!desk || !this.isConnected) return;
    try {
      desk.fill(this.#recipe);
    } catch {
      this.fireError({ code: 'well.recipe', values: {} });
    }
  }

  #aim(): void {
    const { desk, band } = this;
    if (!desk || band === '') return;
    const { bands } = this.store.plan.board;
    const named = bands.findIndex(({ name }) => name === band);
    const number = named >= 0 ? named : Number(band);
    if (!Number.isInteger(number) || number < 0 || number >= bands.length)
      return this.fireError({ code: 'well.band', values: { band } });
    desk.aimAt(number);
    desk.bucket = number;
  }

  #seek(): void {
    if (!this.desk || this.target === '') return;
    this.desk.finding = { ...this.desk.finding, source: 'css', css: this.target, fault: '' };
  }

  #setState(name: string, on: boolean): void {
    try {
      this.#internals?.states[on ? 'add' : 'delete'](name);
    } catch {
      // An engine that spells custom states in another way; they are an extra.
    }
  }
}

/** Keeps what the inner controls tell inside: outside it would be taken for the element's own. */
function stop(event: Event): void {
  event.stopPropagation();
}

declare global {
  interface HTMLElementTagNameMap {
    'mixing-well': MixingWell;
  }
}
