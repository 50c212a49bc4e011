import { html, type TemplateResult } from 'lit';

export interface NumberField {
  label: string;
  value: number;
  low: number;
  high: number;
  step?: number;
  /** What the figure is of, after it. */
  unit?: string;
  disabled?: boolean;
  /** Hears a figure within `low..high` when it is given. */
  onGiven(value: number): void;
  /** Hears of a figure that is missing or outside. */
  onRefused?(): void;
}

/** A labelled figure that is taken when the field is left or Enter is pressed; the field then shows what was made of it. */
export function numberField(field: NumberField): TemplateResult {
  const { label, value, low, high, step = 1, unit, disabled = false } = field;
  const shown = String(value);
  const take = (event: Event): void => {
    const input = event.target as HTMLInputElement;
    const given = input.valueAsNumber;
    // What is rendered next differs from this only if the figure was taken.
    input.value = shown;
    if (given >= low && given <= high) field.onGiven(given);
    else field.onRefused?.();
  };
  return html`<label class="tool-field">
    <span>${label}</span>
    <span class="tool-figure">
      <input
        type="number"
        .value=${shown}
        min=${low}
        max=${high}
        step=${step === 1 ? 1 : 'any'}
        ?disabled=${disabled}
        @change=${take}
      />
      ${unit ? html`<span class="soft">${unit}</span>` : ''}
    </span>
  </label>`;
}

export interface RangeField {
  label: string;
  value: number;
  low: number;
  high: number;
  step: number;
  /** What is read out and shown for the value. */
  text: string;
  onMoved(value: number): void;
  onSettled(): void;
}

/** A labelled slider with its value in words. */
export function rangeField(field: RangeField): TemplateResult {
  return html`<label class="tool-field">
    <span>${field.label}</span>
    <span class="tool-figure">
      <input
        type="range"
        min=${field.low}
        max=${field.high}
        step=${field.step}
        .value=${String(field.value)}
        aria-valuetext=${field.text}
        @input=${(event: Event) => field.onMoved((event.target as HTMLInputElement).valueAsNumber)}
        @change=${field.onSettled}
      />
      <output class="tool-output" aria-live="off">${field.text}</output>
    </span>
  </label>`;
}
