import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from '../shared/property.js';
import { reason, type Plan, type Reason } from '../shared/core.js';
import { PlanChangeEvent } from '../shared/events/plan-change.js';
import { PlanOpenEvent } from '../shared/events/plan-open.js';
import { PlanSavedEvent } from '../shared/events/plan-saved.js';
import { ReadyEvent } from '../shared/events/ready.js';
import { icon, type FirstIconName } from '../shared/first-icons.js';
import { LaterPart } from '../shared/later-part.js';
import { keepUnit, keptUnit, type LengthUnit } from '../shared/measure.js';
import { PictureIntake } from '../shared/picture-intake.js';
import { PlanProviderEvent, type PlanRequestEvent, PLAN_CONTEXT } from '../shared/plan-context.js';
import { freshPlan, PlanStore, type StorePlanEvent } from '../shared/plan-store.js';
import type { Words } from '../shared/strings.js';
import { controls, tokens } from '../shared/tokens.js';
import { TonewellElement } from '../shared/tonewell-element.js';
import { planBarWords } from '../shared/words/plan-bar.js';
import { titleOf, type Desk } from './desk.js';
import { PlanKeeper } from './keeper.js';
import { styles } from './painting-plan.styles.js';
import type * as Panels from './panels.js';
import type { Found } from './storage.js';

/** What can be opened below the bar. */
type PanelName = 'shelf' | 'photos' | 'brief' | 'file';

/** A plan with its photo, laid away. */
interface Laid {
  plan: Plan;
  source?: Blob;
  name: string;
}

interface Panel {
  render(): TemplateResult;
  refresh(): Promise<void>;
  close(): void;
}

const PANELS: Readonly<Record<PanelName, { icon: FirstIconName; title: string }>> = {
  shelf: { icon: 'shelf', title: 'plan.shelf-title' },
  photos: { icon: 'photos', title: 'plan.photos-title' },
  brief: { icon: 'brief', title: 'plan.brief-title' },
  file: { icon: 'save', title: 'plan.file-title' },
};

/** Changes that nobody made by hand: the photo, its own proposal, a plan taken up. */
const NOT_BY_HAND = ['picture', 'photo', 'limits-proposed', 'range-proposed'];

/**
 * Holds one plan and ties the elements inside it (or those that name it by `plan="its-id"`): they share the photo, the
 * limits, the readings and the board. Keeps plan and photos in the browser and takes them up again on return; lists the
 * plans on this device; writes and reads them as one file.
 *
 * @summary The plan that ties the elements together and is never lost.
 * @slot - The elements that work on this plan, in any layout.
 * @fires {PlanChangeEvent} plan-change - A person changed the plan.
 * @fires {PlanOpenEvent} plan-open - A person took up another plan; `name` is its key.
 * @fires {PlanSavedEvent} plan-saved - The plan was kept in the browser.
 * @fires {ReadyEvent} ready - A kept plan was taken up, or there was none.
 * @fires {KitErrorEvent} error - The plan could not be kept or read; the plan in hand stays usable.
 * @csspart bar - The line with title, undo, redo and when the plan was last kept.
 * @csspart panel - What is opened below the bar: the plans on this device, photos, brief, file.
 * @csspart plans - The list of plans.
 * @csspart trouble - The sentence about a fault.
 * @cssproperty --tonewell-ink - Text colour.
 * @cssproperty --tonewell-sheet - Background of fields and buttons.
 */
export class PaintingPlan extends TonewellElement {
  static override readonly tag = 'painting-plan';
  static override readonly words: Words = planBarWords;
  static override styles = [tokens, controls, styles];

  #begun = false;
  /** Whether it is known what is kept under the name. */
  #looked = false;
  #intake = new PictureIntake(this);
  /** SHA-256 of the photo in hand, once it is known. */
  #photo = '';
  #told?: Reason;
  #keeper = new PlanKeeper(this.#keeperHost());
  #desk = this.#makeDesk();
  readonly #part = new LaterPart(
    this,
    () => import('./panels.js'),
    (later) => this.#takePart(later),
  );
  #later?: typeof Panels;
  #panels?: Readonly<Record<PanelName, Panel>>;

  /** What gave place to another plan where nothing is kept: at hand while the page is open. */
  @state() private laid?: Laid;
  @state() private panel?: PanelName;
  @state() private refused?: readonly Reason[];
  @state() private said = '';
  @state() private over = false;
  /** The plan as a text to copy, and the file that it belongs into. */
  @state() private text?: { text: string; name: string };

  /**
   * The key that the plan in hand is kept under in this browser; empty: kept only while the page is open. Taking up another
   * plan sets it. The plan last in hand under the name that the page began with is taken up again on return.
   */
  @property({ reflect: true }) name = '';

  /** The address of the photo to begin with when no plan was kept. */
  @property() src = '';

  /** Leaves out the bar with title, undo, redo and the panels: the page brings its own. */
  @property({ type: Boolean, reflect: true }) bare = false;

  override connectedCallback(): void {
    super.connectedCallback();
    this.addEventListener('context-request', this.#onRequest);
    this.addEventListener('keydown', this.#onKey);
    this.ownerDocument.addEventListener('pointerdown', this.#onPointer, true);
    this.ownerDocument.addEventListener('keydown', this.#onFreeKey);
    this.ownerDocument.addEventListener('visibilitychange', this.#onHidden);
    globalThis.addEventListener?.('pagehide', this.#onGone);
    this.#keeper.connect();
    if (!this.#begun) {
      this.#begun = true;
      this.#keepUnit();
      this.store.keep = () => this.#keeper.kept();
      this.store.settled = this.#begin();
    }
    this.dispatchEvent(new PlanProviderEvent(this));
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.removeEventListener('context-request', this.#onRequest);
    this.removeEventListener('keydown', this.#onKey);
    this.ownerDocument.removeEventListener('pointerdown', this.#onPointer, true);
    this.ownerDocument.removeEventListener('keydown', this.#onFreeKey);
    this.ownerDocument.removeEventListener('visibilitychange', this.#onHidden);
    globalThis.removeEventListener?.('pagehide', this.#onGone);
    void this.save().then(() => this.isConnected || this.#keeper.disconnect());
  }

  /** The plan itself, immutable. Setting another one takes it up: undo starts anew. */
  get document(): Plan {
    return this.store.plan;
  }
  set document(plan: Plan) {
    this.store.restore(plan);
    this.#keeper.touch();
  }

  /** Takes the last step back. */
  undo(): void {
    this.#step('undo');
  }

  /** Makes a step that was taken back again. */
  redo(): void {
    this.#step('redo');
  }

  /** Keeps the plan now; resolves once it is kept (or could not be: see the `error` event). */
  async save(): Promise<void> {
    await this.#keeper.save();
  }

  /** Takes up the plan kept under a key, after keeping the one in hand; tells whether it could (else see `error`). */
  openPlan(key: string): Promise<boolean> {
    return this.#open(key);
  }

  /**
   * Begins a new plan beside the others; tells whether the one in hand could be kept first. Where nothing is kept the one in hand stays at
   * hand while the page is open, and a sentence says so.
   */
  newPlan(): Promise<boolean> {
    return this.#fresh();
  }

  /** Takes up a plan file (JSON, or ZIP with photos) beside the plan in hand; a refused one is told in a sentence. */
  openFile(file: File): Promise<void> {
    return this.#openFile(file);
  }

  /** The plan as a JSON file for the person to keep, without its photos. */
  download(): void {
    void this.#part.fetch().then(() => this.#later?.saveAsFile(this.#desk, []));
  }

  /** A plan holds itself: it asks nobody for another one. */
  protected override seeksPlan(): boolean {
    return false;
  }

  protected override ownStore(): PlanStore {
    const store = new PlanStore(undefined, (key, values) => this.say(key, values));
    store.addEventListener('source', () => void this.#keepPhoto());
    return store;
  }

  protected override planChanged(event?: StorePlanEvent): void {
    super.planChanged(event);
    if (!event || event.label === 'restore') return;
    this.#keeper.touch();
    if (NOT_BY_HAND.includes(event.label)) return;
    void this.#keeper.askToLast();
    this.dispatchEvent(new PlanChangeEvent(event.plan, event.label));
    void this.#followPhoto();
  }

  protected override pictureChanged(): void {
    super.pictureChanged();
    if (this.hasUpdated) void this.#keeper.keepPicture();
  }

  #takePart(later: typeof Panels): void {
    const { panelStyles, pictureWords, planWords, unitsFilesWords } = later;
    this.adopt({ ...unitsFilesWords, ...pictureWords, ...planWords }, [panelStyles]);
    this.#later = later;
    this.#panels = {
      shelf: new later.ShelfView(this.#desk),
      photos: new later.PhotosView(this.#desk),
      brief: new later.BriefView(this.#desk),
      file: new later.FileView(this.#desk),
    };
  }

  protected override updated(changes: PropertyValues): void {
    const { trouble } = this.#keeper;
    if (trouble !== this.#told) {
      this.#told = trouble;
      if (trouble) this.fireError(trouble);
    }
    // The page names another plan.
    if (changes.has('name') && this.#looked && this.name !== this.#keeper.key) void this.#rename();
  }

  override render(): TemplateResult {
    return html`${this.bare ? nothing : this.#renderBar()}${this.#renderTrouble()}<slot></slot>`;
  }

  #renderBar(): TemplateResult {
    const { plan, canUndo, canRedo, undoLabel, redoLabel } = this.store;
    return html`<div
      class=${this.over ? 'top over' : 'top'}
      part="bar"
      @dragover=${this.#onDragOver}
      @dragleave=${() => (this.over = false)}
      @drop=${this.#onDrop}
    >
      <div class="bar">
        <input
          class="title"
          maxlength="200"
          aria-label=${this.say('plan.title')}
          placeholder=${this.say('plan.untitled')}
          .value=${plan.title}
          @change=${this.#onTitle}
        />
        <div class="standing">
          <span class="soft small">${this.#standing()}</span>
          <span class="steps">
            ${this.#renderStep('undo', canUndo, undoLabel)}
            ${this.#renderStep('redo', canRedo, redoLabel)}
          </span>
        </div>
      </div>
      <div class="tabs">
        ${(Object.keys(PANELS) as PanelName[]).map((name) => this.#renderTab(name))}
      </div>
      ${this.panel ? this.#renderPanel(this.panel) : nothing}
    </div>`;
  }

  #renderStep(step: 'undo' | 'redo', possible: boolean, label?: string): TemplateResult {
    const words = this.say(`plan.${step}`);
    const what = possible ? this.#did(label) : '';
    const whole = what && this.say(`plan.${step}-what`, { what });
    return html`<button
      type="button"
      aria-label=${whole || words}
      title=${what || nothing}
      ?disabled=${!possible}
      @click=${() => this.#step(step)}
    >
      ${icon(step)}<span class=${whole ? 'act brief' : 'act'}>${words}</span
      >${whole ? html`<span class="what">${whole}</span>` : nothing}
    </button>`;
  }

  #renderTab(name: PanelName): TemplateResult | typeof nothing {
    if (name === 'shelf' && !this.name) return nothing;
    return html`<button
      type="button"
      class="quiet tab"
      id=${`tab-${name}`}
      aria-expanded=${this.panel === name ? 'true' : 'false'}
      aria-controls=${this.panel === name ? 'panel' : nothing}
      @click=${() => void this.#show(this.panel === name ? undefined : name)}
    >
      ${icon(PANELS[name].icon)}<span>${this.say(`plan.${name}`)}</span>
    </button>`;
  }

  #renderPanel(name: PanelName): TemplateResult {
    return html`<section
      class="panel"
      id="panel"
      part="panel"
      aria-labelledby="panel-title"
      @keydown=${this.#onPanelKey}
    >
      <div class="head">
        <h3 id="panel-title">${this.say(PANELS[name].title)}</h3>
        <button type="button" class="quiet" @click=${() => void this.#show()}>
          ${icon('close')}<span>${this.say('plan.close')}</span>
        </button>
      </div>
      ${this.#panels?.[name].render() ?? this.#part.renderFailure((key) => this.say(key))}
    </section>`;
  }

  #renderTrouble(): TemplateResult {
    const { trouble, newer } = this.#keeper;
    return html`${this.laid ? this.#renderUnkept(this.laid) : nothing}${
      trouble && !(this.laid && this.#keeper.closed)
        ? html`<div class="trouble" part="trouble" role="alert">
            <span>${this.tell(trouble)}</span>
            <button type="button" @click=${this.download}>
              ${icon('save')}<span>${this.say('plan.export')}</span>
            </button>
            ${this.#renderForgive(() => this.#keeper.forgive())}
          </div>`
        : nothing
    }${
      newer
        ? html`<div class="trouble" part="trouble" role="alert">
            <span>${this.say('plan.newer')}</span>
            <button type="button" @click=${() => void this.#takeNewer()}>
              ${icon('open')}<span>${this.say('plan.take-newer')}</span>
            </button>
            <button type="button" @click=${() => void this.#keepCopy()}>
              ${icon('copy')}<span>${this.say('plan.keep-copy')}</span>
            </button>
          </div>`
        : nothing
    }${
      this.refused
        ? this.#later?.refusalOf(this.#desk, this.refused, () => (this.refused = undefined))
        : nothing
    }${
      this.said
        ? html`<div class="trouble" part="trouble">
            <span>${this.said}</span>${this.#renderForgive(() => (this.said = ''))}
          </div>`
        : nothing
    }${this.text ? this.#renderText(this.text) : nothing}`;
  }

  /** Neither the plan in hand nor the one before is kept. */
  #renderUnkept(laid: Laid): TemplateResult {
    return html`<div class="trouble" part="trouble" role="alert">
      <span>${this.say('plan.new-unkept')}</span>
      <button type="button" @click=${this.download}>
        ${icon('save')}<span>${this.say('plan.export')}</span>
      </button>
      <button type="button" data-before @click=${() => this.#layBefore(laid)}>
        ${icon('open')}<span>${this.say('plan.take-before')}</span>
      </button>
    </div>`;
  }

  #renderText({ text, name }: { text: string; name: string }): TemplateResult {
    return html`<div class="trouble" part="trouble">
      <label class="as-text">
        <span>${this.say('plan.as-text', { name })}</span>
        <textarea
          readonly
          rows="4"
          spellcheck="false"
          .value=${text}
          @focus=${(event: Event) => (event.target as HTMLTextAreaElement).select()}
        ></textarea>
      </label>
      ${this.#renderForgive(() => (this.text = undefined))}
    </div>`;
  }

  #renderForgive(act: () => void): TemplateResult {
    return html`<button type="button" class="quiet" @click=${act}>
      ${icon('close')}<span>${this.say('plan.close')}</span>
    </button>`;
  }

  #standing(): string {
    const { busy, saved } = this.#keeper;
    if (!this.name) return this.say('plan.memory');
    if (busy) return this.say('plan.saving');
    if (!saved) return this.say('plan.unsaved');
    const today = saved.toDateString() === new Date().toDateString();
    const dateStyle = today ? undefined : 'medium';
    const format = new Intl.DateTimeFormat(this.locale, { dateStyle, timeStyle: 'short' });
    const time = format.format(saved);
    return this.say('plan.saved', { time });
  }

  /** What a change was, in words. */
  #did(label = 'change'): string {
    const key = `plan.did.${label}`;
    const words = this.say(key);
    return words === key ? this.say('plan.did.change') : words;
  }

  #step(step: 'undo' | 'redo'): void {
    const { store } = this;
    const what = step === 'undo' ? store.undoLabel : store.redoLabel;
    if (!what) return;
    if (step === 'undo') store.undo();
    else store.redo();
    this.announce(this.say(`plan.${step}-what`, { what: this.#did(what) }));
  }

  /** Opens a panel below the bar, or closes it; the focus goes where the person goes on. */
  async #show(panel?: PanelName): Promise<void> {
    const before = this.panel;
    if (before) this.#panels?.[before].close();
    this.panel = panel;
    if (panel) {
      await this.#part.fetch();
      await this.#panels?.[panel].refresh();
    }
    await this.updateComplete;
    if (before && !panel) this.renderRoot.querySelector<HTMLElement>(`#tab-${before}`)?.focus();
  }

  /** Lengths are told as the person chose, on this visit and, where plans are kept, on the next. */
  #keepUnit(): void {
    const { store } = this;
    if (this.name) store.chosenUnit ||= keptUnit();
    store.addEventListener('units', () => {
      if (this.name && store.chosenUnit) keepUnit(store.chosenUnit);
    });
  }

  /** Looks for a kept plan, else opens the page's own picture. */
  async #begin(): Promise<void> {
    let taken: Found | undefined;
    const { name } = this;
    const { plan } = this.store;
    let meant = name;
    await this.#keeper.begin(name, (found) => {
      meant = this.name;
      taken = found;
      this.#looked = true;
      if (found) this.store.restore(found.plan);
    });
    if (taken) {
      this.store.restored = taken.plan.photo !== undefined;
      const date = new Intl.DateTimeFormat(this.locale, {
        dateStyle: 'medium',
        timeStyle: 'short',
      }).format(taken.saved);
      this.announce(this.say('plan.restored', { date }));
    } else if (this.store.plan !== plan) this.#keeper.touch();
    if (meant !== name) this.name = meant; // the page has named another one meanwhile
    this.dispatchEvent(new ReadyEvent());
    if (taken?.plan.photo) this.#openPhoto(taken);
    else if (this.src) void this.#intake.load(this.src, taken !== undefined);
  }

  /** Opens the leading photo of a plan that was taken up, or says that it is not here. */
  #openPhoto({ plan, photo }: Found): void {
    this.#photo = plan.photo?.sha256 ?? '';
    if (photo) void this.store.open(photo.blob, { name: photo.name, keepPlan: true });
    else if (plan.photo) this.#keeper.say(reason('plan.photo-missing', { name: plan.photo.name }));
  }

  /** Puts another kept plan in place of the one in hand. */
  #takeUp(found: Found): void {
    this.store.takeUp(found.plan);
    this.#openPhoto(found);
    this.#opened();
  }

  #opened(): void {
    const { plan } = this.store;
    this.#onKeeper();
    this.announce(this.say('plan.opened', { title: titleOf(this.#desk, plan.title) }));
    this.dispatchEvent(new PlanOpenEvent(this.#keeper.key, plan));
  }

  async #open(key: string): Promise<boolean> {
    try {
      return await this.#keeper.take(key, (found) => this.#takeUp(found));
    } catch (thrown) {
      await this.#keeper.tell(thrown);
      return false;
    }
  }

  async #fresh(): Promise<boolean> {
    const plan = freshPlan(this.#desk.say);
    const swap = (): void => {
      this.#photo = '';
      this.store.takeUp(plan, true);
      this.#opened();
    };
    if (this.#keeper.keeps) {
      try {
        if (await this.#keeper.begun(plan, swap)) return true;
      } catch (thrown) {
        await this.#keeper.tell(thrown);
      }
      if (this.#keeper.keeps) return false;
    }
    this.#layAside(swap);
    return true;
  }

  /** Puts another plan in place of the one in hand, which nobody keeps. */
  #layAside(swap: () => void): void {
    const { plan, source, picture } = this.store;
    this.laid = { plan, source, name: picture.name };
    this.#keeper.begunUnkept(swap);
    this.announce(this.say('plan.new-unkept'));
  }

  #layBefore({ plan, source, name }: Laid): void {
    this.#layAside(() => {
      this.#photo = plan.photo?.sha256 ?? '';
      this.store.takeUp(plan);
      if (source) void this.store.open(source, { name, keepPlan: true });
      this.#opened();
    });
  }

  /** Takes up a plan file as a plan beside the present one; where nothing is kept, in its place, as a step of undo. */
  async #openFile(file: File): Promise<void> {
    this.refused = undefined;
    this.said = '';
    await this.#part.fetch();
    const later = this.#later;
    if (!later) {
      this.said = this.say('part.failed');
      return;
    }
    try {
      const { plan, photos } = await later.readPlanFile(file);
      const missing = plan.photo !== undefined && photos.length === 0;
      if (this.#keeper.key && !this.#keeper.closed) {
        for (const { blob, name } of photos) await this.#keeper.storage.keepPhoto(blob, name);
        const { photo } = plan;
        const leading = photo && (await this.#keeper.storage.photo(photo.sha256));
        const found = { plan, photo: leading, revision: 1, saved: new Date() };
        if (!(await this.#keeper.begun(plan, () => this.#takeUp(found)))) return;
      } else {
        this.store.change('file', () => plan);
        const [leading] = photos;
        if (leading) await this.store.open(leading.blob, { name: leading.name, keepPlan: true });
      }
      this.said = later.takenUp(this.#desk, plan.title, missing);
      this.announce(this.said);
      if (this.panel) await this.#panels?.[this.panel].refresh();
    } catch (thrown) {
      if (thrown instanceof later.PlanFileError) this.refused = thrown.faults;
      else await this.#keeper.tell(thrown);
    }
  }

  /** The page names another plan; without a name the one in hand is kept only while the page is open. */
  async #rename(): Promise<void> {
    const { name } = this;
    await this.#keeper.begin(name, (found) => {
      if (found) this.#takeUp(found);
      else if (name) {
        this.#photo = '';
        this.store.takeUp(freshPlan(this.#desk.say), true);
      }
    });
    this.#onKeeper();
  }

  async #takeNewer(): Promise<void> {
    try {
      await this.#keeper.takeNewer((found) => this.#takeUp(found));
    } catch (thrown) {
      await this.#keeper.tell(thrown);
    }
  }

  async #keepCopy(): Promise<void> {
    await this.#keeper.keepCopy();
    if (this.#keeper.dirty) return;
    this.#keeper.forgive();
    this.said = this.say('plan.copy-kept');
    this.announce(this.said);
  }

  async #keepPhoto(): Promise<void> {
    const { source, picture } = this.store;
    const { handle } = picture;
    if (!source || !handle) return;
    const leading = this.#photo;
    const sha256 = await this.#keeper.keepPhoto(source, picture.name);
    // Another photo may have come, or been made to lead, meanwhile.
    if (!sha256 || this.store.source !== source || this.#photo !== leading) return;
    this.#photo = sha256;
    if (this.store.plan.photo?.sha256 === sha256) return;
    const { width, height } = handle;
    this.store.notePhoto({ sha256, name: picture.name, width, height });
  }

  /** Another photo leads now (by a choice, or since that was taken back): it comes into hand. */
  async #followPhoto(): Promise<void> {
    const { photo } = this.store.plan;
    if (!photo || !this.#photo || photo.sha256 === this.#photo) return;
    this.#photo = photo.sha256;
    const kept = await this.#keeper.storage.photo(photo.sha256).catch(() => undefined);
    if (this.#photo !== photo.sha256) return;
    if (kept) await this.store.open(kept.blob, { name: photo.name, keepPlan: true });
    else this.#keeper.say(reason('plan.photo-missing', { name: photo.name }));
  }

  #keeperHost(): ConstructorParameters<typeof PlanKeeper>[0] {
    const store = (): PlanStore => this.store;
    return {
      get store() {
        return store();
      },
      keeperChanged: () => this.#onKeeper(),
      planKept: (saved, key) => {
        this.#onKeeper();
        this.dispatchEvent(new PlanSavedEvent(saved, key));
        void this.#keeper.keepPicture();
        if (this.panel) void this.#panels?.[this.panel].refresh();
      },
    };
  }

  #makeDesk(): Desk {
    const store = (): PlanStore => this.store;
    const locale = (): string => this.locale;
    const unit = (): LengthUnit => this.lengthUnit;
    return {
      get store() {
        return store();
      },
      get locale() {
        return locale();
      },
      get unit() {
        return unit();
      },
      keeper: this.#keeper,
      say: (key, values) => this.say(key, values),
      tell: (each) => this.tell(each),
      announce: (text) => this.announce(text),
      update: () => this.requestUpdate(),
      shown: () => this.updateComplete,
      open: (key) => this.#open(key),
      fresh: () => this.#fresh(),
      openFile: (file) => this.#openFile(file),
      offerText: (text, name) => (this.text = { text, name }),
      root: () => this.shadowRoot,
    };
  }

  #onKeeper(): void {
    if (this.#looked && this.name !== this.#keeper.key) this.name = this.#keeper.key;
    this.requestUpdate();
  }

  #onTitle = (event: Event): void => {
    const title = (event.target as HTMLInputElement).value.trim();
    this.store.change('title', (plan) => ({ ...plan, title }));
  };

  #onRequest = (event: Event): void => {
    const request = event as PlanRequestEvent;
    if (request.context !== PLAN_CONTEXT || request.contextTarget === this) return;
    event.stopPropagation();
    request.callback(this.store);
  };

  #onKey = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || !(event.ctrlKey || event.metaKey) || event.altKey) return;
    const [target] = event.composedPath();
    if (target instanceof HTMLTextAreaElement) return;
    // Fields with text take back their own; pegs and boxes have none.
    if (target instanceof HTMLInputElement && !/^(range|checkbox|radio|file)$/.test(target.type))
      return;
    const key = event.key.toLowerCase();
    if (key === 'y' || (key === 'z' && event.shiftKey)) this.redo();
    else if (key === 'z') this.undo();
    else return;
    event.preventDefault();
  };

  /** Whether the last press of a pointer was inside: keys that nothing has the focus for are then the plan's. */
  #pressed = false;

  #onPointer = (event: Event): void => {
    this.#pressed = event.composedPath().includes(this);
  };

  /**
   * Undo by keyboard after a click on what takes no focus. The host itself takes none: one that a script can focus
   * (`tabindex="-1"`) would keep the Tab key out of all it holds.
   */
  #onFreeKey = (event: KeyboardEvent): void => {
    if (this.#pressed && event.target === this.ownerDocument.body) this.#onKey(event);
  };

  #onPanelKey = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || event.defaultPrevented) return;
    event.preventDefault();
    void this.#show();
  };

  #onDragOver = (event: DragEvent): void => {
    if (!event.dataTransfer?.types.includes('Files')) return;
    event.preventDefault();
    event.stopPropagation();
    event.dataTransfer.dropEffect = 'copy';
    this.over = true;
  };

  /** A plan file dropped on the bar; a picture goes the way of pictures. */
  #onDrop = (event: DragEvent): void => {
    this.over = false;
    const file = event.dataTransfer?.files[0];
    if (!file || file.type.startsWith('image/')) return;
    event.preventDefault();
    event.stopPropagation();
    void this.#openFile(file);
  };

  #onHidden = (): void => {
    if (this.#keeper.dirty && this.ownerDocument.visibilityState === 'hidden') void this.save();
  };

  #onGone = (): void => {
    void this.save();
    this.#panels?.shelf.close();
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'painting-plan': PaintingPlan;
  }
}
