import { html, svg, type SVGTemplateResult, type TemplateResult } from 'lit';

/** Drawings of what elements show from the start; `icons.ts` has these and all others. */
export const FIRST = {
  open: svg`<path d="M3 15.5V5h5l1.5 2H17v8.5z"/>`,
  camera: svg`<path d="M3 6.5h3L7.5 4.5h5L14 6.5h3v9H3z"/><circle cx="10" cy="11" r="2.8"/>`,
  paste: svg`<path d="M6 4.5H4.5v12h11v-12H14M7.5 3h5v3h-5z"/>`,
  undo: svg`<path d="M7.5 5 4 8.5 7.5 12M4 8.5h7.5a4 4 0 0 1 0 8H8"/>`,
  redo: svg`<path d="M12.5 5 16 8.5 12.5 12M16 8.5H8.500a4 4 0 0 0 0 8H12"/>`,
  save: svg`<path d="M10 3v9.500M6.500 9.500 10 13l3.500-3.500M4 16.500h12"/>`,
  pen: svg`<path d="m4 16 1-4 8.500-8.500 3 3L8 15z"/>`,
  close: svg`<path d="m5 5 10 10M15 5 5 15"/>`,
  note: svg`<path d="M4 3.500h12v9L12 16.500H4zM16 12.500h-4v4"/>`,
  copy: svg`<path d="M7 7h9.500v9.500H7zM13 7V3.500H3.500V13H7"/>`,
  shelf: svg`<path d="M3.500 4h5v5h-5zM11.500 4h5v5h-5zM3.500 11.500h5v5h-5zM11.500 11.500h5v5h-5z"/>`,
  photos: svg`<path d="M3 6.500h11v10H3zM6 6.500v-3h11v10h-3M3 14l3.500-3.500 3 3 1.500-1.500 3 3"/>`,
  brief: svg`<path d="M5 3h10v14H5zM7.500 7h5M7.500 10h5M7.500 13h3"/>`,
} satisfies Record<string, SVGTemplateResult>;

export type FirstIconName = keyof typeof FIRST;

/** {@link drawn} by its name. */
export function icon(name: FirstIconName): TemplateResult {
  return drawn(FIRST[name]);
}

/** A stroke drawing on a field of 20 x 20, for the eye only: the word beside it is what is read out. */
export function drawn(drawing: SVGTemplateResult): TemplateResult {
  return html`<svg class="icon" part="icon" viewBox="0 0 20 20" aria-hidden="true">
    ${drawing}
  </svg>`;
}
