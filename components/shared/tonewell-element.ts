import { LitElement, type CSSResult, type PropertyValues } from 'lit';
import { property } from './property.js';
import { adopt } from './adopt.js';
import { announce } from './announcer.js';
import type { Reason } from './core.js';
import { KitErrorEvent } from './events/kit-error.js';
import { PlanRequestEvent, storeOf, type PlanOwner } from './plan-context.js';
import { PlanStore, type StorePlanEvent } from './plan-store.js';
import { tellOwnForms } from './own-forms.js';
import { localeOf, nearest, watchLanguage } from './locale.js';
import { figureOf, isUnit, unitOfLocale, type LengthUnit } from './measure.js';
import { onWords, sentence, type Words } from './strings.js';
import { commonWords } from './words/common.js';

/**
 * What all elements of the kit share: how they find their plan, speak, and are defined under a name.
 * An element finds its plan by its `plan` property, else by `plan="id"` in the same root, else by asking its ancestors
 * (context protocol); without one it keeps a plan of its own.
 */
export abstract class TonewellElement extends LitElement {
  /** The usual tag. */
  static readonly tag: string = '';

  /** The element's own words, English; replaced ones (`setWords`) go before. */
  static readonly words: Words = {};

  /** Registers the element; does nothing without a registry (a server) or when the name is taken by the same kit. */
  static define(
    tag = this.tag,
    registry: CustomElementRegistry | undefined = globalThis.customElements,
  ): void {
    if (!registry || registry.get(tag)) return;
    const known = this as unknown as CustomElementConstructor;
    // One class can carry one name: a second name gets a class of its own.
    const used = Object.hasOwn(known, 'defined');
    const Named = used ? class extends known {} : known;
    if (!used) Object.defineProperty(known, 'defined', { value: true });
    registry.define(tag, Named);
  }

  #store?: PlanStore;
  #own?: PlanStore;
  #tied?: PlanStore;
  #stopWords?: () => void;
  #laterWords: Words[] = [];
  #coming: Promise<unknown> = Promise.resolve();

  /** The id of a plan element in the same root. */
  @property({ attribute: 'plan' }) planId = '';

  /** A plan (a store or an element that holds one), set by script; goes before `plan="id"` and ancestors. */
  @property({ attribute: false })
  get plan(): PlanStore | PlanOwner | null {
    return this.#given ?? null;
  }
  set plan(plan: PlanStore | PlanOwner | null) {
    const old = this.#given;
    this.#given = plan ?? undefined;
    this.requestUpdate('plan', old);
    if (this.isConnected) this.#tie();
  }
  #given?: PlanStore | PlanOwner;

  /**
   * What lengths are told in: `mm` or `in`. Where it is not given the `units` of the nearest ancestor or of the plan element
   * counts, else the region of the language: inches in the United States, else millimetres. A person's own choice goes first.
   */
  @property() units: LengthUnit | '' = '';

  /** The plan that the element works on. */
  get store(): PlanStore {
    return (this.#store ??= this.#own ??= this.ownStore());
  }

  /** Whether the plan is shared with other elements (else it is the element's own). */
  get tied(): boolean {
    return this.#tied !== undefined;
  }

  /** What lengths are told in now. */
  get lengthUnit(): LengthUnit {
    const given = [
      this.store.chosenUnit,
      this.units,
      nearest(this, 'units'),
      this.#planElement?.getAttribute('units') ?? '',
    ];
    return given.find(isUnit) ?? unitOfLocale(this.locale);
  }

  /** Chooses what lengths are told in, on behalf of the person, for all elements of the plan. */
  chooseUnit(unit: LengthUnit): void {
    this.store.chosenUnit = unit;
  }

  /** A length in words: `12 mm`, `7½ in`. */
  lengthOf(mm: number): string {
    const unit = this.lengthUnit;
    return this.say(`length.${unit}`, { figure: figureOf(mm, unit, this.locale) });
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.#stopWords = onWords(() => this.requestUpdate());
    watchLanguage();
    this.ownerDocument.addEventListener('context-provider', this.#onProvider);
    this.#tie();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#stopWords?.();
    this.ownerDocument.removeEventListener('context-provider', this.#onProvider);
    this.#leave();
  }

  protected override createRenderRoot(): HTMLElement | DocumentFragment {
    const root = super.createRenderRoot();
    tellOwnForms(root);
    return root;
  }

  /** `updateComplete` waits for parts that are under way. */
  protected override async getUpdateComplete(): Promise<boolean> {
    const done = await super.getUpdateComplete();
    await this.#coming;
    return (await super.getUpdateComplete()) && done;
  }

  /** @internal A part is under way. */
  comes(part: Promise<void>): void {
    this.#coming = Promise.all([this.#coming, part]);
  }

  /** @internal Takes up words and looks that came later. */
  adopt(words: Words, looks: readonly CSSResult[]): void {
    this.#laterWords.push(words);
    adopt(this, ...looks);
  }

  protected override willUpdate(changes: PropertyValues): void {
    if (changes.has('planId') && this.isConnected) this.#tie();
  }

  /** Makes the plan of an element that stands alone. */
  protected ownStore(): PlanStore {
    return new PlanStore(undefined, (key, values) => this.say(key, values));
  }

  /** Whether the element asks its ancestors for a plan. */
  protected seeksPlan(): boolean {
    return true;
  }

  /** The plan changed (or another plan was taken up: then `event` is missing). */
  protected planChanged(_event?: StorePlanEvent): void {
    this.requestUpdate();
  }

  /** The picture in hand changed. */
  protected pictureChanged(): void {
    this.requestUpdate();
  }

  /** The language of the nearest `lang`, else the page's, else the reader's. */
  protected get locale(): string {
    return localeOf(this);
  }

  /** The element's own tables of words. */
  protected get tables(): readonly Words[] {
    return [(this.constructor as typeof TonewellElement).words, ...this.#laterWords];
  }

  /** A sentence in words of the element. */
  protected say(key: string, values: Readonly<Record<string, string | number>> = {}): string {
    return sentence(key, values, this.locale, ...this.tables, commonWords);
  }

  /** A finding in words. */
  protected tell(reason: Reason): string {
    return this.say(reason.code, reason.values);
  }

  /** Lets screen readers hear a sentence. */
  protected announce(text: string): void {
    announce(text);
  }

  /** @internal Fires the `error` event with the sentence that the element shows: the finding's own unless it is told in other words. */
  fireError(reason: Reason, words = reason): void {
    this.dispatchEvent(new KitErrorEvent(this.tell(words), reason));
  }

  #onProvider = (): void => {
    if (!this.#tied) this.#tie();
  };

  /** The element that `plan="id"` names. */
  get #planElement(): Element | null {
    if (!this.planId) return null;
    return (this.getRootNode() as Document | ShadowRoot).getElementById?.(this.planId) ?? null;
  }

  #tie(): void {
    let found = storeOf(this.#given);
    if (!found && this.planId) {
      found = storeOf(this.#planElement as unknown as PlanOwner | null);
      found = found instanceof PlanStore ? found : undefined;
    }
    if (!found && !this.planId && this.seeksPlan())
      this.dispatchEvent(new PlanRequestEvent(this, (store) => (found = store)));
    this.#tied = found;
    const store = found ?? (this.#own ??= this.ownStore());
    if (store === this.#store && this.#listening) return;
    this.#leave();
    this.#store = store;
    store.addEventListener('plan', this.#onPlan);
    store.addEventListener('picture', this.#onPicture);
    store.addEventListener('units', this.#onUnits);
    this.#listening = true;
    this.planChanged();
    this.pictureChanged();
  }
  #listening = false;

  #leave(): void {
    this.#store?.removeEventListener('plan', this.#onPlan);
    this.#store?.removeEventListener('picture', this.#onPicture);
    this.#store?.removeEventListener('units', this.#onUnits);
    this.#listening = false;
  }

  #onPlan = (event: Event): void => this.planChanged(event as StorePlanEvent);
  #onPicture = (): void => this.pictureChanged();
  #onUnits = (): void => this.requestUpdate();
}
