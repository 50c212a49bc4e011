/**
 * A table of words: key to sentence. A sentence may hold `{name}` (a figure or text), `{name, 1}` (a number with at most one
 * decimal) and `{name, plural, one {…} other {…}}` (chosen by the language's plural rules; `#` is the number itself).
 */
export type Words = Readonly<Record<string, string>>;

let replaced: Words = {};
const listeners = new Set<() => void>();

/** Replaces words for the whole page, e.g. by a translation; keys that are missing stay English. Elements update at once. */
export function setWords(words: Words): void {
  replaced = words;
  for (const listener of listeners) listener();
}

/** Calls `listener` whenever words were replaced; returns what ends that. */
export function onWords(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

type Values = Readonly<Record<string, string | number>>;

/** The sentence of a key, from the replaced words, else from the given tables, else the key itself. */
export function sentence(key: string, values: Values, locale: string, ...tables: Words[]): string {
  const pattern = replaced[key] ?? tables.find((table) => key in table)?.[key] ?? key;
  return fill(pattern, values, locale);
}

function fill(pattern: string, values: Values, locale: string): string {
  let out = '';
  let at = 0;
  while (at < pattern.length) {
    const open = pattern.indexOf('{', at);
    if (open < 0) return out + pattern.slice(at);
    const close = closing(pattern, open);
    if (close < 0) return out + pattern.slice(at);
    out += pattern.slice(at, open) + argument(pattern.slice(open + 1, close), values, locale);
    at = close + 1;
  }
  return out;
}

function closing(pattern: string, open: number): number {
  let depth = 0;
  for (let i = open; i < pattern.length; i++) {
    if (pattern[i] === '{') depth++;
    else if (pattern[i] === '}' && --depth === 0) return i;
  }
  return -1;
}

function argument(text: string, values: Values, locale: string): string {
  const [name, kind = '', ...rest] = text.split(',').map((part) => part.trim());
  const value = values[name] ?? '';
  if (kind === 'plural')
    return plural(text.slice(text.indexOf('plural') + 6), value, values, locale);
  if (typeof value === 'string') return value;
  const digits = kind === '' ? 20 : Number(kind);
  return formatNumber(value, locale, digits, rest.includes('sign'));
}

function plural(choices: string, value: string | number, values: Values, locale: string): string {
  const category = pluralRules(locale).select(Number(value));
  const found: Record<string, string> = {};
  const name = /\s*,?\s*([\w=]+)\s*\{/y;
  let at = 0;
  for (;;) {
    name.lastIndex = at;
    const match = name.exec(choices);
    if (!match) break;
    const open = name.lastIndex - 1;
    const close = closing(choices, open);
    if (close < 0) break;
    found[match[1]] = choices.slice(open + 1, close);
    at = close + 1;
  }
  const chosen = found[`=${value}`] ?? found[category] ?? found.other ?? '';
  return fill(
    chosen.replaceAll('#', typeof value === 'number' ? formatNumber(value, locale, 20) : value),
    values,
    locale,
  );
}

/** A number in the reader's way of writing, with a true minus sign. */
export function formatNumber(value: number, locale: string, digits = 1, sign = false): string {
  const rounded = Math.abs(value) < 0.5 * 10 ** -digits ? 0 : value;
  return numberFormat(locale, digits, sign).format(rounded).replace('-', '−');
}

const rules = new Map<string, Intl.PluralRules>();
const formats = new Map<string, Intl.NumberFormat>();

/** Making one of the platform's formatters costs far more than using it: each is kept. */
function pluralRules(locale: string): Intl.PluralRules {
  let kept = rules.get(locale);
  if (!kept) rules.set(locale, (kept = new Intl.PluralRules(locale)));
  return kept;
}

function numberFormat(locale: string, digits: number, sign: boolean): Intl.NumberFormat {
  const key = `${locale} ${digits} ${sign}`;
  let kept = formats.get(key);
  if (!kept) {
    const signDisplay = sign ? 'exceptZero' : 'auto';
    kept = new Intl.NumberFormat(locale, { maximumFractionDigits: digits, signDisplay });
    formats.set(key, kept);
  }
  return kept;
}
