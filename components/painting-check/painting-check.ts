import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from '../shared/property.js';
import type { CheckReport, Corners, Reason, WhiteInput } from '../shared/core.js';
import { emptyState } from '../shared/empty.styles.js';
import { ReadyEvent } from '../shared/events/ready.js';
import { NearViewport } from '../shared/near-viewport.js';
import { PictureIntake, type PictureLike } from '../shared/picture-intake.js';
import { PlanStore, type StorePlanEvent } from '../shared/plan-store.js';
import type { Words } from '../shared/strings.js';
import { controls, tokens } from '../shared/tokens.js';
import { TonewellElement } from '../shared/tonewell-element.js';
import { checkWords } from '../shared/words/check.js';
import type { DeliveryAsked } from './desk-host.js';
import type { Desk } from './desk.js';
import { styles } from './painting-check.styles.js';

/**
 * @summary A photo of the painting in its present state against the plan: drawing first, then lost reserves, then masses by what they
 * matter, each with what to do in paint; a row of checks from the first wash to the last; the finished painting as one picture file.
 *
 * The photo of the painting is the element's own; the plan's photo stays the plan's. The bare paper about the painted part is the measure of
 * white. Masses of steps that are still ahead are to come, no faults. A check that is kept goes into the plan as figures and a note, one
 * step of undo; small pictures of it stay in the browser. Tied to a plan it uses that plan's photo; alone it has a plan of its own and
 * asks for its photo first.
 *
 * @tag painting-check
 *
 * @slot - What is shown before the element is ready or without script.
 *
 * @fires {CheckMadeEvent} check-made - A check that a person asked for is done.
 * @fires {CheckKeepEvent} check-keep - A person kept a check with the plan, wrote its note, had it forgotten, or took that back.
 * @fires {DeliveryEvent} delivery - A person had the painting made into a picture file.
 * @fires {PictureChangeEvent} picture-change - A person opened another picture.
 * @fires {ReadyEvent} ready - A photo of the painting can be worked with for the first time.
 * @fires {KitErrorEvent} error - A picture could not be opened, or a check failed; `message` is the sentence that is shown.
 *
 * @csspart frame - All of the element.
 * @csspart empty - What is shown while there is no plan or no painting.
 * @csspart views - The choice of parts.
 * @csspart stage - A picture with what is laid over it.
 * @csspart handle - A corner, the ring for white, or a landmark.
 * @csspart loupe - What lies under the handle in hand, larger.
 * @csspart setting - Corners, white and step.
 * @csspart check-button - Has the painting checked.
 * @csspart working - How far a check has come.
 * @csspart warning - What is amiss with the photo, and what to do.
 * @csspart findings - All that was found.
 * @csspart correction - One mass, island, reserve or edge.
 * @csspart advice - What to do about it in paint.
 * @csspart drawing - Landmarks.
 * @csspart keep - Keeping the check, with its note.
 * @csspart checks - The checks so far.
 * @csspart check - One of them.
 * @csspart undo - The button that takes back; a page whose plan has one of its own may leave it out.
 * @csspart redo - The button that does it again.
 * @csspart delivery - The picture to hand over.
 * @csspart open-button - Opens a file.
 * @csspart camera-button - Takes a photo.
 * @csspart paste-button - Pastes a picture.
 * @csspart trouble - The sentence of a fault.
 * @csspart progress - How far the opening has come.
 * @csspart icon - A drawing beside a word.
 *
 * @cssproperty --tonewell-paper - Background of the page.
 * @cssproperty --tonewell-sheet - Background of controls.
 * @cssproperty --tonewell-ink - Text.
 * @cssproperty --tonewell-ink-soft - Lesser text.
 * @cssproperty --tonewell-line - Hairlines.
 * @cssproperty --tonewell-edge - Borders of controls.
 * @cssproperty --tonewell-press - Background of a control under the pointer.
 * @cssproperty --tonewell-surround - Neutral grey about pictures.
 * @cssproperty --tonewell-font - Typeface.
 */
export class PaintingCheck extends TonewellElement {
  static override readonly tag = 'painting-check';
  static override readonly words: Words = checkWords;
  static override readonly styles = [tokens, controls, emptyState, styles];

  /** The photo of the painting: never the plan's. */
  readonly #painting = new PlanStore();
  readonly #intake = new PictureIntake(this, () => (this.planned ? this.#painting : this.store));
  readonly #viewport = new NearViewport(this, () => this.#near());

  @state() private desk?: Desk;
  @state() private failed = false;

  #fetching = false;
  #begun?: string | PictureLike;
  #readyTold = false;
  #corners: Corners | null = null;

  /** Address of the photo of the painting. */
  @property() src = '';

  /** The photo of the painting itself: a Blob or File, an ImageBitmap, ImageData, a canvas or an image; goes before `src`. */
  @property({ attribute: false }) picture: PictureLike | null = null;

  /** Where bare paper is seen in that photo: by default in the margin about the corners. */
  @property({ attribute: false }) white: WhiteInput = { from: 'margin' };

  /** The last step that is done, its place in the order of work from 0, -1 for none; the last one ticked off when `null`. */
  @property({ type: Number, attribute: 'up-to-step' }) upToStep: number | null = null;

  /** From the eye to the paper, metres: 0.5 to 10. */
  @property({ type: Number }) distance = 2;

  /** Corners of the painted part in fractions of the photo: top left, top right, bottom right, bottom left. `null` has them found. */
  @property({ attribute: false })
  get corners(): Corners | null {
    return this.desk?.corners ?? this.#corners;
  }
  set corners(corners: Corners | null) {
    const old = this.#corners;
    this.#corners = corners;
    if (corners) this.desk?.setCorners(corners);
    this.requestUpdate('corners', old);
  }

  constructor() {
    super();
    this.#painting.addEventListener('picture', () => this.pictureChanged());
  }

  /** What the last check found; `null` before the first one and once another photo was opened. */
  get report(): CheckReport | null {
    return this.desk?.report ?? null;
  }

  /** @internal The photo of the painting. */
  get painting(): PlanStore {
    return this.#painting;
  }

  /** @internal Whether there is a plan with a photo. */
  get planned(): boolean {
    return this.store.picture.handle !== undefined;
  }

  /** @internal */
  get intake(): PictureIntake {
    return this.#intake;
  }

  /** @internal */
  get language(): string {
    return this.locale;
  }

  /** @internal The corners that the page gave. */
  get givenCorners(): Corners | null {
    return this.#corners;
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.desk?.left();
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.requestUpdate();
  }

  protected override updated(changes: PropertyValues<this>): void {
    super.updated(changes);
    // After this update: what is opened is told at once.
    queueMicrotask(() => this.#begin());
    this.desk?.settle();
  }

  protected override planChanged(event?: StorePlanEvent): void {
    super.planChanged(event);
    this.#fetchDesk();
    this.desk?.planChanged(event);
  }

  protected override pictureChanged(): void {
    super.pictureChanged();
    for (const { picture } of [this.store, this.#painting]) void this.#intake.tellFault(picture);
    this.#begin();
    this.#fetchDesk();
    this.desk?.pictureChanged();
    if (this.desk && !this.#readyTold && this.#painting.picture.status === 'ready') {
      this.#readyTold = true;
      void this.updateComplete.then(() => this.dispatchEvent(new ReadyEvent()));
    }
  }

  /**
   * Checks the painting in hand with the corners, white and step as they stand.
   * @returns what was found; `null` when there is no painting, or the check was stopped or failed (`error` tells).
   */
  async check(): Promise<CheckReport | null> {
    await this.#load();
    return (await this.desk?.check(false)) ?? null;
  }

  /**
   * The painting upright, in its paper's white, as one new picture file without data of the photo.
   * @throws Error `PictureMissing` without a painting, else as the core does.
   */
  async deliver(asked: DeliveryAsked = {}): Promise<Blob> {
    await this.#load();
    if (!this.desk) throw new Error('The element could not be loaded.');
    return this.desk.deliver(asked);
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
  faulted(reason: Reason): void {
    this.fireError(reason);
  }

  override render(): TemplateResult {
    const say = this.#words;
    const painting = this.#painting.picture;
    const inHand = this.planned && painting.plane !== undefined;
    const kept = (this.store.plan.checks?.length ?? 0) > 0;
    return html`<div class="frame" part="frame" role="group" aria-label=${say('checking.label')}>
      ${this.#intake.renderTrouble((reason) => this.tell(reason), say)}
      ${this.#intake.renderProgress(say)} ${inHand ? nothing : this.#renderEmpty()}
      ${this.desk && (inHand || (this.planned && kept)) ? this.desk.render(inHand) : nothing}
      ${
        this.failed
          ? html`<div class="trouble" role="alert">
              <span>${say('checking.failed')}</span>
              <button type="button" @click=${() => this.#fetchDesk()}>
                ${say('checking.again')}
              </button>
            </div>`
          : nothing
      }
    </div>`;
  }

  readonly #words = (key: string, values?: Record<string, string | number>): string =>
    this.say(key, values);

  #renderEmpty(): TemplateResult | typeof nothing {
    const say = this.#words;
    const store = this.planned ? this.#painting : this.store;
    if (store.picture.status === 'opening') return nothing;
    const key = this.planned ? 'checking.no-painting' : 'checking.no-plan';
    return html`<div class=${`empty${this.#intake.over ? ' over' : ''}`} part="empty">
      <svg class="sketch" viewBox="0 0 200 132" aria-hidden="true">
        <path class="paper" d="M8 12h80v108H8zM112 12h80v108h-80z" />
        <g class="dabs">
          <path class="d1" d="M8 12h80v52c-20 9-50-8-80 5zM112 12h80v52c-20 9-50-8-80 5z" />
          <path class="d4" d="M26 98c-4-27 6-44 22-44s25 17 21 44z" />
          <path class="d2" d="M130 98c-4-27 6-44 22-44s25 17 21 44z" />
        </g>
        <path class="ray" d="M120 76c0-22 14-34 32-34s32 12 32 34-14 34-32 34-32-12-32-34z" />
      </svg>
      <div class="says">
        <p class="lead">${say(key)}</p>
        <p class="soft">${say(`${key}-how`)}</p>
        <div class="bringing">${this.#intake.renderButtons(say)}</div>
      </div>
    </div>`;
  }

  #near(): void {
    this.#begin();
    this.#fetchDesk();
  }

  /** Opens what the page gives, once the element is near the viewport and there is a plan to check against. */
  #begin(): void {
    if (!this.#viewport.near || !this.planned) return;
    const wanted = this.picture ?? this.src;
    if (!wanted || wanted === this.#begun) return;
    this.#begun = wanted;
    if (typeof wanted === 'string') void this.#intake.load(wanted, true);
    else void this.#intake.take(wanted, undefined, true);
  }

  /** The rest comes once there is something to work with. */
  #fetchDesk(): void {
    const kept = (this.store.plan.checks?.length ?? 0) > 0;
    const wanted = this.planned && (kept || this.#painting.picture.status !== 'empty');
    if (this.#viewport.near && wanted) void this.#load();
  }

  async #load(): Promise<void> {
    if (this.desk || this.#fetching) return;
    this.#fetching = true;
    try {
      const { Desk, deskStyles, deskWords, PANELS } = await import('./panels.js');
      this.adopt(deskWords, deskStyles);
      this.desk = new Desk(this, PANELS);
      this.failed = false;
      this.pictureChanged();
      await this.updateComplete;
    } catch {
      this.failed = true;
    } finally {
      this.#fetching = false;
    }
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'painting-check': PaintingCheck;
  }
}
