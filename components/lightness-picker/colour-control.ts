import type { PropertyValues } from 'lit';
import { property, state } from '../shared/property.js';
import { labOfHex, labOfName } from '../shared/core.js';
import { TonewellElement } from '../shared/tonewell-element.js';

/** Reads the lightness L* of any CSS colour; throws where a text is none. */
export type ReadLightness = (css: string) => number;

/** The ways to write a colour that have a value of their own, whatever the page. */
const SPELT = /^\s*(?:#|transparent\s*$|(?:rgba?|hsla?|hwb|(?:ok)?l(?:ab|ch)|color)\()/i;

/** A form control whose value is a CSS colour, or empty. */
export abstract class ColourControl extends TonewellElement {
  /** Takes part in forms. */
  static readonly formAssociated = true;

  readonly #internals = this.attachInternals();
  #value = '';
  #lightness = Number.NaN;
  /** Whether the value was set since the last reset: then the `value` attribute no longer sets it. */
  #dirty = false;
  #customMessage = '';
  #lightnessOf?: ReadLightness;

  /** Whether a fieldset about the element is disabled, or the element itself. */
  @state() private formDisabled = false;

  /** Name in a form. */
  @property({ reflect: true }) name = '';

  /** Whether a form needs a reading. */
  @property({ type: Boolean, reflect: true }) required = false;

  /** Whether nothing can be moved, taken or sent. */
  @property({ type: Boolean, reflect: true }) disabled = false;

  /** The value that a form's reset goes back to: a CSS colour. */
  @property({ attribute: 'value' }) defaultValue = '';

  /** The CSS colour of the last reading that was taken; empty before. Anything that is no CSS colour empties it. */
  @property({ attribute: false })
  get value(): string {
    return this.#value;
  }
  set value(css: string) {
    this.#dirty = true;
    this.#set(css);
  }

  /**
   * The lightness L* of the value, NaN while it is empty; of a colour that is neither `#rrggbb` nor a name it is known a moment later,
   * when the parser of all CSS colours has come.
   */
  get valueAsLightness(): number {
    return this.#lightness;
  }

  /** The form it belongs to, if any. */
  get form(): HTMLFormElement | null {
    return this.#internals.form;
  }

  /** What kind of control it is, as native ones tell. */
  get type(): string {
    return 'lightness-picker';
  }

  /** The labels that name it. */
  get labels(): NodeList {
    return this.#internals.labels;
  }

  /** What its validity is made of. */
  get validity(): ValidityState {
    return this.#internals.validity;
  }

  /** What a form says of it; empty while it is valid. */
  get validationMessage(): string {
    return this.#internals.validationMessage;
  }

  /** Whether a form checks it: not while it is disabled. */
  get willValidate(): boolean {
    return this.#internals.willValidate;
  }

  protected override willUpdate(changes: PropertyValues): void {
    super.willUpdate(changes);
    if (changes.has('defaultValue') && !this.#dirty) this.#set(this.defaultValue);
  }

  protected override updated(changes: PropertyValues): void {
    super.updated(changes);
    this.#validate();
  }

  /** Called by the browser when the form is reset. */
  formResetCallback(): void {
    this.#dirty = false;
    this.#set(this.defaultValue);
  }

  /** Called by the browser when the element or a fieldset about it is disabled. */
  formDisabledCallback(disabled: boolean): void {
    this.formDisabled = disabled;
  }

  /** Called by the browser when it fills the form in again. */
  formStateRestoreCallback(state: string | File | FormData | null): void {
    if (typeof state === 'string') this.value = state;
  }

  /** Whether it is valid; fires `invalid` when it is not. */
  checkValidity(): boolean {
    return this.#internals.checkValidity();
  }

  /** The same, and shows the person why not. */
  reportValidity(): boolean {
    return this.#internals.reportValidity();
  }

  /** Makes the element invalid for a reason of the page's own; an empty message ends that. */
  setCustomValidity(message: string): void {
    this.#customMessage = message;
    this.#validate();
  }

  /** What a form says while a value is missing. */
  protected abstract get missingMessage(): string;

  /** The part of the element that the browser's message points at. */
  protected abstract get anchor(): HTMLElement | null | undefined;

  /** Whether a person must not do anything here. */
  protected get locked(): boolean {
    return this.disabled || this.formDisabled;
  }

  /** Makes a colour the value, by a person's act, and says so. */
  protected takeColour(css: string, lightness: number): void {
    this.#dirty = true;
    this.#set(css, lightness);
    this.dispatchEvent(new Event('change', { bubbles: true, composed: true }));
  }

  /** Sets a state that style sheets see as `:state(name)`. */
  protected mark(name: string, on: boolean): void {
    if (on) this.#internals.states.add(name);
    else this.#internals.states.delete(name);
  }

  /** Asks for a reader of every CSS colour; it comes by {@link readBy}. */
  protected abstract needReader(): void;

  /** Takes up a reader of every CSS colour. */
  protected readBy(lightnessOf: ReadLightness): void {
    this.#lightnessOf = lightnessOf;
    if (this.#value && Number.isNaN(this.#lightness)) this.#set(this.#value);
  }

  #set(css: string, lightness = this.#lightnessIn(css)): void {
    const old = this.#value;
    this.#value = lightness === undefined ? '' : css.trim();
    this.#lightness = lightness ?? Number.NaN;
    if (this.#value && Number.isNaN(this.#lightness)) this.needReader();
    this.#internals.setFormValue(this.#value || null, this.#value);
    this.#validate();
    this.requestUpdate('value', old);
  }

  /** L* of a text; NaN while only the engine knows that it is a colour, `undefined` when it is none. */
  #lightnessIn(css: unknown): number | undefined {
    if (typeof css !== 'string') return undefined;
    const lab = labOfHex(css) ?? labOfName(css);
    if (lab) return Math.min(100, Math.max(0, lab[0]));
    if (!this.#lightnessOf) return SPELT.test(css) && CSS.supports('color', css) ? NaN : undefined;
    try {
      return this.#lightnessOf(css);
    } catch {
      return undefined;
    }
  }

  #validate(): void {
    const anchor = this.anchor ?? undefined;
    const internals = this.#internals;
    if (this.#customMessage) {
      internals.setValidity({ customError: true }, this.#customMessage, anchor);
    } else if (this.required && !this.#value) {
      internals.setValidity({ valueMissing: true }, this.missingMessage, anchor);
    } else internals.setValidity({});
  }
}
