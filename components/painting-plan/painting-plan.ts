import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { reason, serialisePlan, type Plan, type Reason } from '../shared/core.js';
import { PlanChangeEvent } from '../shared/events/plan-change.js';
import { PlanSavedEvent } from '../shared/events/plan-saved.js';
import { ReadyEvent } from '../shared/events/ready.js';
import { icon } from '../shared/icons.js';
import { PictureIntake } from '../shared/picture-intake.js';
import { PlanProviderEvent, type PlanRequestEvent, PLAN_CONTEXT } from '../shared/plan-context.js';
import { PlanStore, type StorePlanEvent } from '../shared/plan-store.js';
import { controls, tokens } from '../shared/tokens.js';
import { TonewellElement } from '../shared/tonewell-element.js';
import { pictureWords } from '../shared/words/picture.js';
import { planWords } from '../shared/words/plan.js';
import { styles } from './painting-plan.styles.js';
import { PlanStorage, type Found } from './storage.js';

/** How long after the last change the plan is kept, in milliseconds. */
const SAVE_AFTER_MS = 400;

/**
 * Holds one plan and ties the elements inside it (or those that name it by `plan="its-id"`): they share the photo, the
 * limits, the readings and the board. Keeps plan and photo in the browser and takes them up again on return.
 *
 * @summary The plan that ties the elements together and is never lost.
 * @slot - The elements that work on this plan, in any layout.
 * @fires {PlanChangeEvent} plan-change - A person changed the plan.
 * @fires {PlanSavedEvent} plan-saved - The plan was kept in the browser.
 * @fires {ReadyEvent} ready - A kept plan was taken up, or there was none.
 * @fires {KitErrorEvent} error - The plan could not be kept or read; the plan in hand stays usable.
 * @csspart bar - The line with title, undo, redo and when the plan was last kept.
 * @csspart trouble - The sentence about a fault.
 * @cssproperty --tonewell-ink - Text colour.
 * @cssproperty --tonewell-sheet - Background of fields and buttons.
 */
export class PaintingPlan extends TonewellElement {
  static override readonly tag = 'painting-plan';
  static override readonly words = { ...pictureWords, ...planWords };
  static override styles = [tokens, controls, styles];

  #storage?: PlanStorage;
  #revision = 0;
  #timer?: ReturnType<typeof setTimeout>;
  #saving?: Promise<void>;
  #dirty = false;
  #begun = false;
  #intake = new PictureIntake(this);

  @state() private saved?: Date;
  @state() private busy = false;
  @state() private trouble?: Reason;

  /** The key that the plan is kept under in this browser; empty: kept only while the page is open. */
  @property({ reflect: true }) name = '';

  /** The address of the photo to begin with when no plan was kept. */
  @property() src = '';

  /** Leaves out the line with title, undo and redo: the page brings its own. */
  @property({ type: Boolean, reflect: true }) bare = false;

  override connectedCallback(): void {
    super.connectedCallback();
    this.addEventListener('context-request', this.#onRequest);
    this.addEventListener('keydown', this.#onKey);
    this.ownerDocument.addEventListener('visibilitychange', this.#onHidden);
    globalThis.addEventListener?.('pagehide', this.#onHidden);
    if (!this.#begun) {
      this.#begun = true;
      this.store.settled = this.#begin();
    }
    this.dispatchEvent(new PlanProviderEvent(this));
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.removeEventListener('context-request', this.#onRequest);
    this.removeEventListener('keydown', this.#onKey);
    this.ownerDocument.removeEventListener('visibilitychange', this.#onHidden);
    globalThis.removeEventListener?.('pagehide', this.#onHidden);
    void this.save();
  }

  /** The plan itself, immutable. Setting another one takes it up: undo starts anew. */
  get document(): Plan {
    return this.store.plan;
  }
  set document(plan: Plan) {
    this.store.restore(plan);
    this.#touch();
  }

  undo(): void {
    this.store.undo();
  }

  redo(): void {
    this.store.redo();
  }

  /** Keeps the plan now; resolves once it is kept (or could not be: see the `error` event). */
  async save(): Promise<void> {
    clearTimeout(this.#timer);
    await this.#saving;
    if (!this.#storage || !this.#dirty) return;
    this.#saving = this.#keep();
    await this.#saving;
  }

  /** The plan as a JSON file for the person to keep. */
  download(): void {
    const link = this.ownerDocument.createElement('a');
    link.href = URL.createObjectURL(
      new Blob([serialisePlan(this.store.plan)], { type: 'application/json' }),
    );
    link.download = `${this.store.plan.title || this.name || 'plan'}.json`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
  }

  /** A plan holds itself: it asks nobody for another one. */
  protected override seeksPlan(): boolean {
    return false;
  }

  protected override ownStore(): PlanStore {
    const store = new PlanStore();
    store.addEventListener('source', () => void this.#keepPhoto());
    return store;
  }

  protected override planChanged(event?: StorePlanEvent): void {
    super.planChanged(event);
    if (!event || event.label === 'restore') return;
    this.#touch();
    if (!['picture', 'photo', 'limits-proposed'].includes(event.label))
      this.dispatchEvent(new PlanChangeEvent(event.plan, event.label));
  }

  protected override updated(changes: PropertyValues): void {
    if (changes.has('trouble') && this.trouble) this.fireError(this.trouble);
  }

  override render(): TemplateResult {
    return html`${this.bare ? nothing : this.#renderBar()}${this.#renderTrouble()}<slot></slot>`;
  }

  #renderBar(): TemplateResult {
    const { plan, canUndo, canRedo } = this.store;
    return html`<div class="bar" part="bar">
      <input
        class="title"
        maxlength="200"
        aria-label=${this.say('plan.title')}
        placeholder=${this.say('plan.untitled')}
        .value=${plan.title}
        @change=${this.#onTitle}
      />
      <span class="soft small">${this.#standing()}</span>
      <button type="button" ?disabled=${!canUndo} @click=${this.undo}>
        ${icon('undo')}<span>${this.say('plan.undo')}</span>
      </button>
      <button type="button" ?disabled=${!canRedo} @click=${this.redo}>
        ${icon('redo')}<span>${this.say('plan.redo')}</span>
      </button>
    </div>`;
  }

  #renderTrouble(): TemplateResult | typeof nothing {
    if (!this.trouble) return nothing;
    return html`<div class="trouble" part="trouble" role="alert">
      <span>${this.tell(this.trouble)}</span>
      <button type="button" @click=${this.download}>
        ${icon('save')}<span>${this.say('plan.export')}</span>
      </button>
      <button type="button" class="quiet" @click=${() => (this.trouble = undefined)}>
        ${icon('close')}<span>${this.say('picture.forgive')}</span>
      </button>
    </div>`;
  }

  #standing(): string {
    if (!this.name) return this.say('plan.memory');
    if (this.busy) return this.say('plan.saving');
    if (!this.saved) return this.say('plan.unsaved');
    const time = new Intl.DateTimeFormat(this.locale, { timeStyle: 'short' }).format(this.saved);
    return this.say('plan.saved', { time });
  }

  /** Looks for a kept plan, else opens the page's own picture. */
  async #begin(): Promise<void> {
    let found: Found | undefined;
    if (this.name) {
      this.#storage = new PlanStorage();
      try {
        found = await this.#storage.load(this.name);
      } catch (thrown) {
        this.trouble = reason(
          (thrown as Error).name === 'PlanError' ? 'plan.unreadable' : storageTrouble(thrown),
        );
        // What cannot be read stays as it is: this plan is kept beside it.
        this.#revision = -1;
      }
    }
    if (found) {
      this.#revision = found.revision;
      this.saved = found.saved;
      this.store.restore(found.plan);
      this.store.restored = found.photo !== undefined;
      const date = new Intl.DateTimeFormat(this.locale, {
        dateStyle: 'medium',
        timeStyle: 'short',
      }).format(found.saved);
      this.announce(this.say('plan.restored', { date }));
    }
    this.dispatchEvent(new ReadyEvent());
    if (found?.photo)
      void this.store.open(found.photo.blob, { name: found.photo.name, keepPlan: true });
    else if (this.src) void this.#intake.load(this.src, found !== undefined);
  }

  #touch(): void {
    if (!this.#storage) return;
    this.#dirty = true;
    this.busy = true;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.save(), SAVE_AFTER_MS);
  }

  async #keep(): Promise<void> {
    this.#dirty = false;
    const { plan } = this.store;
    try {
      const { key, revision, saved, forked } = await this.#storage!.save(
        this.name,
        plan,
        this.#revision,
      );
      this.#revision = revision;
      this.saved = saved;
      if (forked) {
        this.name = key;
        this.trouble = reason('plan.forked');
      } else if (this.trouble?.code.startsWith('plan.storage')) this.trouble = undefined;
      this.dispatchEvent(new PlanSavedEvent(saved, key));
    } catch (thrown) {
      this.#dirty = true;
      this.saved = undefined;
      this.trouble = reason(storageTrouble(thrown));
    } finally {
      this.busy = false;
    }
  }

  async #keepPhoto(): Promise<void> {
    const { source, picture } = this.store;
    const { handle } = picture;
    if (!this.#storage || !source || !handle) return;
    if (!globalThis.crypto?.subtle) {
      this.trouble = reason('plan.photo-not-kept');
      return;
    }
    try {
      const sha256 = await this.#storage.keepPhoto(source, picture.name);
      if (this.store.source !== source || this.store.plan.photo?.sha256 === sha256) return;
      const { width, height } = handle;
      this.store.amend('photo', (plan) => ({
        ...plan,
        photo: { sha256, name: picture.name, width, height },
      }));
    } catch (thrown) {
      this.trouble = reason(storageTrouble(thrown));
    }
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
    if (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement) return;
    const key = event.key.toLowerCase();
    if (key === 'y' || (key === 'z' && event.shiftKey)) this.redo();
    else if (key === 'z') this.undo();
    else return;
    event.preventDefault();
  };

  #onHidden = (): void => {
    if (this.#dirty && this.ownerDocument.visibilityState === 'hidden') void this.save();
  };
}

function storageTrouble(thrown: unknown): string {
  return (thrown as Error)?.name === 'QuotaExceededError'
    ? 'plan.storage-full'
    : 'plan.storage-closed';
}

declare global {
  interface HTMLElementTagNameMap {
    'painting-plan': PaintingPlan;
  }
}
