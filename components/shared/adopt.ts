import type { CSSResult } from 'lit';

/** Gives an element looks that come with a later part. */
export function adopt({ shadowRoot }: Element, ...styles: readonly CSSResult[]): void {
  for (const { styleSheet } of styles)
    if (styleSheet) shadowRoot?.adoptedStyleSheets.push(styleSheet);
}
