import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from '../shared/property.js';
import type { Corners, Reason, SheetReading } from '../shared/core.js';
import { emptyState } from '../shared/empty.styles.js';
import { ReadyEvent } from '../shared/events/ready.js';
import { icon } from '../shared/first-icons.js';
import { NearViewport } from '../shared/near-viewport.js';
import { PictureIntake, type PictureLike } from '../shared/picture-intake.js';
import { PlanStore, type StorePlanEvent } from '../shared/plan-store.js';
import type { Words } from '../shared/strings.js';
import { controls, tokens } from '../shared/tokens.js';
import { TonewellElement } from '../shared/tonewell-element.js';
import { sheetReaderWords } from '../shared/words/sheet-reader.js';
import type { Desk } from './desk.js';
import { styles } from './swatch-sheet-reader.styles.js';

/**
 * @summary Reads a photographed test sheet: the dabs on it become measured swatches on the board, and are remembered with their recipes.
 *
 * The bare paper in the photo is the white reference. Corners and dabs are found, shown in place, and can be put right by mouse, touch and
 * keys. The same sheet read wet and dry tells how the painter's paint dries, one tube from masstone to pale how strong it is, a strip of
 * greys becomes the painter's own value card. Tied to a plan it works on that plan's board, dabs and shelf, never on its photo: the photo
 * of the sheet is the element's own, and nothing is sent anywhere.
 *
 * @tag swatch-sheet-reader
 *
 * @slot - What is shown without script, and while the photo that the page gives is on its way.
 *
 * @fires {SheetReadEvent} sheet-read - A sheet was read: after it was opened, or anew after its corners were moved.
 * @fires {SheetChangeEvent} sheet-change - A person put right what was read.
 * @fires {SheetSendEvent} sheet-send - A person sent the dabs to the board and to the plan's memory.
 * @fires {DabForgetEvent} dab-forget - A person had a remembered dab forgotten.
 * @fires {ShelfChangeEvent} shelf-change - A person took up the strength of a tube that was fitted from dabs.
 * @fires {PictureChangeEvent} picture-change - A person opened a photo of a sheet.
 * @fires {ReadyEvent} ready - The photo of a sheet is shown and was read for the first time.
 * @fires {KitErrorEvent} error - A photo could not be opened or read, or a dab could not be read; `message` is the sentence shown.
 *
 * @csspart frame - All of the element.
 * @csspart empty - What is shown while there is no photo.
 * @csspart sheet - The photo with its buttons.
 * @csspart mat - The grey about the photo.
 * @csspart picture - The photo.
 * @csspart corner - The handle of a corner.
 * @csspart undo - The button that takes back what was put right on the sheet.
 * @csspart redo - The button that does it again.
 * @csspart picked - What is told of the picked dab, and what can be done to it.
 * @csspart recipe - Its recipe.
 * @csspart list - The dabs by column.
 * @csspart columns - The columns.
 * @csspart dab - A dab in the list.
 * @csspart warnings - What is wrong with the photo.
 * @csspart warning - One of these.
 * @csspart limits - What a photo of paper cannot tell.
 * @csspart panels - What is done with the dabs.
 * @csspart panel - The part of it that is shown.
 * @csspart send-button - Sends the dabs to the board.
 * @csspart fit-result - What dabs tell of a tube's strength.
 * @csspart card-verdict - Whether the value card may be relied on.
 * @csspart card-holes - How to punch and use a certified card.
 * @csspart card-page - The page of the value card.
 * @csspart memory - Remembered dabs.
 * @csspart habits - The painter's habits.
 * @csspart proven - Proven mixes.
 * @csspart done - What was just done.
 * @csspart open-button - Opens a file.
 * @csspart camera-button - Takes a photo.
 * @csspart paste-button - Pastes a picture.
 * @csspart trouble - The sentence of a fault.
 * @csspart progress - How far opening or reading has come.
 * @csspart icon - A drawing beside a word.
 *
 * @cssproperty --tonewell-paper - Background of the page.
 * @cssproperty --tonewell-sheet - Background of controls.
 * @cssproperty --tonewell-ink - Text.
 * @cssproperty --tonewell-ink-soft - Lesser text.
 * @cssproperty --tonewell-line - Hairlines.
 * @cssproperty --tonewell-edge - Borders of controls.
 * @cssproperty --tonewell-press - Background of a control under the pointer.
 * @cssproperty --tonewell-surround - Neutral grey about the photo and about dabs.
 * @cssproperty --tonewell-font - Typeface.
 *
 * @cssstate ready - A sheet was read.
 * @cssstate empty - There is no photo of a sheet.
 */
export class SwatchSheetReader extends TonewellElement {
  static override readonly tag = 'swatch-sheet-reader';
  static override readonly words: Words = sheetReaderWords;
  static override readonly styles = [tokens, controls, emptyState, styles];

  /** @internal What holds the photo of the sheet: a store without a plan that anyone sees. */
  readonly sheet = new PlanStore();

  readonly #intake = new PictureIntake(this, () => this.sheet);
  readonly #viewport = new NearViewport(this, () => this.#begin());
  #internals?: ElementInternals;
  #begun?: string | PictureLike;
  #readyFor = '';
  #coming?: Promise<void>;
  /** Whether a photo that the page gives is being fetched and opened. */
  #bringing = false;

  @state() private desk?: Desk;
  @state() private failed = false;

  /** Address of the photo of a sheet. */
  @property() src = '';

  /** The photo itself: a Blob or File, an ImageBitmap, ImageData, a canvas or an image; goes before `src`. */
  @property({ attribute: false }) picture: PictureLike | null = null;

  /** What is worked at below the photo: `board`, `drying`, `tube`, `card` or `memory`; the board when it is not given. */
  @property({ reflect: true }) panel = '';

  constructor() {
    super();
    this.sheet.addEventListener('picture', this.#onSheet);
    try {
      this.#internals = this.attachInternals();
    } catch {
      // Custom states are then missing; all else works.
    }
  }

  /** The sheet as it was read, with the dabs as the painter has them; `undefined` while none was read. Places are pixels of the photo. */
  get reading(): SheetReading | undefined {
    return this.desk?.reading;
  }

  /** Reads the sheet again: with the corners given (pixels of the photo), else with those that are found. */
  async read(corners?: Corners): Promise<void> {
    const { handle } = this.sheet.picture;
    if (!handle) return;
    await this.#fetchDesk();
    await this.desk?.read(
      corners?.map(([x, y]) => [x / handle.width, y / handle.height]) as Corners | undefined,
    );
  }

  /** Sends the dabs to the board and to the plan's memory, as the button does. */
  send(): void {
    this.desk?.boarding.send();
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.desk?.opened();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.desk?.left();
  }

  protected override willUpdate(changes: PropertyValues<this>): void {
    super.willUpdate(changes);
    if (this.panel && this.#viewport.near) void this.#fetchDesk();
  }

  protected override planChanged(event?: StorePlanEvent): void {
    super.planChanged(event);
    this.desk?.planChanged();
  }

  protected override updated(changes: PropertyValues<this>): void {
    super.updated(changes);
    if (changes.has('src') || changes.has('picture')) this.#begin();
    this.desk?.settle();
    this.#setState('ready', this.desk?.state !== undefined);
    this.#setState('empty', this.sheet.picture.handle === undefined);
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

  /** @internal */
  cameToEnd(): void {
    const id = this.sheet.picture.handle?.id ?? '';
    if (!this.desk?.state || id === this.#readyFor) return;
    this.#readyFor = id;
    void this.updateComplete.then(() => this.dispatchEvent(new ReadyEvent()));
  }

  override render(): TemplateResult {
    const say = this.#say;
    const { handle } = this.sheet.picture;
    // A photo that the page gives is on its way: the content stands in for it.
    const given = this.picture ?? this.src;
    const coming = Boolean(given) && !handle && (this.#begun !== given || this.#bringing);
    return html`<div class="frame" part="frame">
      ${this.#intake.renderTrouble((reason) => this.tell(reason), say)}
      ${this.#intake.renderProgress(say)}
      ${handle ? this.#renderBar() : coming ? nothing : this.#renderEmpty()}
      <div ?hidden=${!coming}><slot></slot></div>
      ${
        this.failed
          ? html`<div class="trouble" part="trouble" role="alert">
              ${say('reader.desk-failed')}
            </div>`
          : this.desk && (handle || this.panel || this.store.plan.dabs?.length)
            ? this.desk.render()
            : nothing
      }
    </div>`;
  }

  readonly #say = (key: string, values?: Record<string, string | number>): string =>
    this.say(key, values);

  /** Another sheet, by the same ways as the first. */
  #renderBar(): TemplateResult {
    return html`<div class=${this.#intake.over ? 'bring over' : 'bring'}>
      ${this.#intake.renderButtons(this.#say)}
    </div>`;
  }

  #renderEmpty(): TemplateResult {
    const say = this.#say;
    const { status } = this.sheet.picture;
    const dabs = this.store.plan.dabs?.length ?? 0;
    return html`<div class=${this.#intake.over ? 'empty over' : 'empty'} part="empty">
      <svg class="sketch" viewBox="0 0 200 132" aria-hidden="true">
        <path class="window" d="M6 18h22v60H6zM6 48h22M17 18v60" />
        <path class="ray" d="M34 40l34 12M34 56l30 14M34 24l38 14" />
        <path class="paper" d="M76 34l104-10 12 84-112 12z" />
        <g class="dabs">
          <ellipse cx="100" cy="50" rx="9" ry="8" class="d1" />
          <ellipse cx="99" cy="74" rx="9" ry="8" class="d2" />
          <ellipse cx="101" cy="98" rx="9" ry="8" class="d3" />
          <ellipse cx="132" cy="47" rx="9" ry="8" class="d2" />
          <ellipse cx="133" cy="71" rx="9" ry="8" class="d3" />
          <ellipse cx="135" cy="95" rx="9" ry="8" class="d4" />
          <ellipse cx="163" cy="44" rx="9" ry="8" class="d3" />
          <ellipse cx="166" cy="68" rx="9" ry="8" class="d4" />
          <ellipse cx="168" cy="92" rx="9" ry="8" class="d5" />
        </g>
      </svg>
      <div class="says">
        <p class="lead">${say('reader.empty')}</p>
        <ol>
          ${(['paint', 'dry', 'light', 'frame'] as const).map(
            (step) => html`<li>${say(`reader.teach-${step}`)}</li>`,
          )}
        </ol>
        <div class="bringing">${this.#intake.renderButtons(say)}</div>
        ${
          dabs > 0 && !this.desk && status !== 'opening'
            ? html`<button
                type="button"
                class="quiet"
                data-memory
                @click=${() => (this.panel = 'memory')}
              >
                ${icon('note')}<span>${say('reader.look-through', { count: dabs })}</span>
              </button>`
            : nothing
        }
        ${
          this.panel !== 'card' && status !== 'opening'
            ? html`<button
                type="button"
                class="quiet"
                data-card
                @click=${() => (this.panel = 'card')}
              >
                ${icon('pen')}<span>${say('reader.card-page-offer')}</span>
              </button>`
            : nothing
        }
        <p class="soft small">${say('reader.stays-here')}</p>
      </div>
    </div>`;
  }

  /** Opens what the page gives, once the element is near the viewport. */
  #begin(): void {
    if (!this.#viewport.near) return;
    if (this.panel) void this.#fetchDesk();
    const wanted = this.picture ?? this.src;
    if (!wanted || wanted === this.#begun) return;
    this.#begun = wanted;
    this.#bringing = true;
    const opening =
      typeof wanted === 'string' ? this.#intake.load(wanted) : this.#intake.take(wanted);
    void opening.finally(() => {
      if (this.#begun === wanted) this.#bringing = false;
      this.requestUpdate();
    });
  }

  readonly #onSheet = (): void => {
    void this.#intake.tellFault(this.sheet.picture);
    if (this.sheet.picture.handle) void this.#fetchDesk();
    this.desk?.opened();
    this.requestUpdate();
  };

  /** Brings what a sheet is worked with. */
  #fetchDesk(): Promise<void> {
    return (this.#coming ??= this.#bringDesk());
  }

  async #bringDesk(): Promise<void> {
    try {
      const { Desk, deskStyles, paintWords, sheetDeskWords, tubesWords } =
        await import('./desk.js');
      this.adopt({ ...tubesWords, ...paintWords, ...sheetDeskWords }, deskStyles);
      this.desk = new Desk(this);
      this.failed = false;
    } catch {
      this.failed = true;
      this.#coming = undefined;
    }
  }

  #setState(name: string, on: boolean): void {
    try {
      this.#internals?.states[on ? 'add' : 'delete'](name);
    } catch {
      // An engine that spells custom states in another way; they are an extra.
    }
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'swatch-sheet-reader': SwatchSheetReader;
  }
}
