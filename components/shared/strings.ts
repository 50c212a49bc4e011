/**
 * A table of words: key to sentence. A sentence may hold `{name}` (a figure or text), `{name, 1}` (a number with at most one
 * decimal), `{name, 1, fixed}` (exactly one), `{name, 1, sign}` and `{name, plural, one {…} other {…}}` (chosen by the language's
 * plural rules; `#` is the number itself).
 */
export type Words = Readonly<Record<string, string>>;

/** The language that the elements' own tables are in. */
const OWN = 'en';

/** Words that a page gave: for all languages under the empty key, else under a language's tag. */
const given = new Map<string, Words>();
const listeners = new Set<() => void>();

/**
 * Gives words to the whole page. Keys that are missing stay English. Elements update at once.
 * @param words - e.g. `GERMAN` of `tonewell/words/de`; an empty table takes back what was given.
 * @param language - a language tag: the words then serve the elements whose nearest `lang` is of that language (`de` serves
 * `de-CH` too). Without it they serve every element.
 */
export function setWords(words: Words, language = ''): void {
  given.set(language.toLowerCase(), words);
  tellOfWords();
}

/** Calls `listener` whenever words were given or the page's language changed; returns what ends that. */
export function onWords(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Lets all elements speak anew. */
export function tellOfWords(): void {
  for (const listener of listeners) listener();
}

type Values = Readonly<Record<string, string | number>>;

/**
 * The sentence of a key: from the words given for the language, else from those given for all, else from the tables (English),
 * else the key itself. Numbers are written as the locale does.
 */
export function sentence(key: string, values: Values, locale: string, ...tables: Words[]): string {
  const pattern = givenPattern(key, locale) ?? given.get('')?.[key];
  if (pattern !== undefined) return fill(pattern, values, { locale, language: locale });
  const own = tables.find((table) => key in table)?.[key] ?? key;
  return fill(own, values, { locale, language: OWN });
}

/** The pattern given for a language tag, or for the same without its last parts (`de-CH`, `de`). */
function givenPattern(key: string, locale: string): string | undefined {
  for (
    let tag = locale.toLowerCase();
    tag !== '';
    tag = tag.slice(0, tag.lastIndexOf('-') + 1).slice(0, -1)
  ) {
    const found = given.get(tag)?.[key];
    if (found !== undefined) return found;
  }
  return undefined;
}

/** Whose way of writing numbers, and whose plural rules. */
interface Tongue {
  locale: string;
  language: string;
}

function fill(pattern: string, values: Values, tongue: Tongue): string {
  let out = '';
  let at = 0;
  while (at < pattern.length) {
    const open = pattern.indexOf('{', at);
    if (open < 0) return out + pattern.slice(at);
    const close = closing(pattern, open);
    if (close < 0) return out + pattern.slice(at);
    out += pattern.slice(at, open) + argument(pattern.slice(open + 1, close), values, tongue);
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

function argument(text: string, values: Values, tongue: Tongue): string {
  const [name, kind = '', ...rest] = text.split(',').map((part) => part.trim());
  const value = values[name] ?? '';
  if (kind === 'plural')
    return plural(text.slice(text.indexOf('plural') + 6), value, values, tongue);
  if (typeof value === 'string') return value;
  const digits = kind === '' ? 20 : Number(kind);
  return formatNumber(value, tongue.locale, digits, rest.includes('sign'), rest.includes('fixed'));
}

function plural(choices: string, value: string | number, values: Values, tongue: Tongue): string {
  const category = pluralRules(tongue.language).select(Number(value));
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
    chosen.replaceAll(
      '#',
      typeof value === 'number' ? formatNumber(value, tongue.locale, 20) : value,
    ),
    values,
    tongue,
  );
}

/**
 * A number in the reader's way of writing, with a true minus sign.
 * @param digits - decimals at most; with `fixed` exactly so many.
 * @param sign - whether a plus sign is written too.
 */
export function formatNumber(
  value: number,
  locale: string,
  digits = 1,
  sign = false,
  fixed = false,
): string {
  const rounded = Math.abs(value) < 0.5 * 10 ** -digits ? 0 : value;
  return numberFormat(locale, digits, sign, fixed).format(rounded).replace('-', '−');
}

const rules = new Map<string, Intl.PluralRules>();
const formats = new Map<string, Intl.NumberFormat>();

/** Making one of the platform's formatters costs far more than using it: each is kept. */
function pluralRules(locale: string): Intl.PluralRules {
  let kept = rules.get(locale);
  if (!kept) rules.set(locale, (kept = new Intl.PluralRules(locale)));
  return kept;
}

function numberFormat(
  locale: string,
  digits: number,
  sign: boolean,
  fixed: boolean,
): Intl.NumberFormat {
  const key = `${locale} ${digits} ${sign} ${fixed}`;
  let kept = formats.get(key);
  if (!kept) {
    kept = new Intl.NumberFormat(locale, {
      maximumFractionDigits: digits,
      minimumFractionDigits: fixed ? digits : 0,
      signDisplay: sign ? 'exceptZero' : 'auto',
    });
    formats.set(key, kept);
  }
  return kept;
}
