import type { CSSResult } from 'lit';

/** Gives an element looks that come with a later part; what it has already stays where it stands. */
export function adopt({ shadowRoot }: Element, ...looks: readonly CSSResult[]): void {
  const sheets = shadowRoot?.adoptedStyleSheets;
  for (const { styleSheet } of looks)
    if (styleSheet && !sheets?.includes(styleSheet)) sheets?.push(styleSheet);
}
