import { tellOfWords } from './strings.js';

/** The value of an attribute on the nearest element that gives it, outwards through the hosts of shadow trees. */
export function nearest(element: Element, attribute: string): string {
  let at: Element | null = element;
  while (at) {
    const found: Element | null = at.closest(`[${attribute}]:not([${attribute}=""])`);
    if (found) return found.getAttribute(attribute)!;
    const root: Node = at.getRootNode();
    at = 'host' in root ? (root as ShadowRoot).host : null;
  }
  return '';
}

/** The language tag of an element: that of the nearest `lang`, else the page's, else the reader's. */
export function localeOf(element: Element): string {
  const page = typeof document === 'undefined' ? '' : document.documentElement.lang;
  const named = nearest(element, 'lang') || page;
  if (named) {
    try {
      return Intl.getCanonicalLocales(named)[0];
    } catch {
      // A malformed tag: the reader's own.
    }
  }
  return typeof navigator === 'undefined' ? 'en' : navigator.language;
}

let watched = false;

/** Lets the elements speak anew when a `lang`, `dir` or `units` of the page changes. */
export function watchLanguage(): void {
  if (watched || typeof MutationObserver === 'undefined') return;
  watched = true;
  new MutationObserver(tellOfWords).observe(document.documentElement, {
    subtree: true,
    attributeFilter: ['lang', 'dir', 'units'],
  });
}
