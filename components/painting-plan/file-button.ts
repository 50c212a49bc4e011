import { html, type TemplateResult } from 'lit';
import { icon } from '../shared/first-icons.js';

/** A button that asks for a file; by keyboard too, since the field itself takes the focus. */
export function fileButton(
  words: string,
  given: (file: File) => void,
  accept = '.json,.zip,application/json,application/zip',
): TemplateResult {
  const onChange = (event: Event): void => {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    input.value = '';
    if (file) given(file);
  };
  return html`<label class="button file">
    ${icon('open')}<span>${words}</span>
    <input class="away" type="file" accept=${accept} @change=${onChange} />
  </label>`;
}
