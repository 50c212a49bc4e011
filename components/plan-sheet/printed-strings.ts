import { SHEET_STRINGS } from '../shared/core.js';

/** The words of the pages in the language of an element: each pattern with its figures left open. */
export function printedStrings(
  say: (key: string, values: Record<string, string>) => string,
): Record<string, string> {
  const strings: Record<string, string> = {};
  for (const [key, pattern] of Object.entries(SHEET_STRINGS)) {
    const open = [...pattern.matchAll(/\{([a-zA-Z0-9]+)\}/g)].map(([whole, name]) => [name, whole]);
    strings[key] = say(key, Object.fromEntries(open));
  }
  return strings;
}
