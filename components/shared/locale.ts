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

/** A language tag in its canonical form; undefined when it is malformed or empty. */
export function soundTag(tag: string | undefined): string | undefined {
  // Some systems tell their locale instead of a language, e.g. `en-US@posix`.
  const [language] = (tag ?? '').split('@');
  try {
    return Intl.getCanonicalLocales(language)[0];
  } catch {
    return undefined;
  }
}

/** The language tag of an element: that of the nearest `lang`, else the page's, else the reader's. */
export function localeOf(element: Element): string {
  const page = typeof document === 'undefined' ? '' : document.documentElement.lang;
  const own = typeof navigator === 'undefined' ? '' : navigator.language;
  return soundTag(nearest(element, 'lang') || page) ?? soundTag(own) ?? 'en';
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
