/** A translation of the words: the same keys, the same figures, plural forms as the language has them; chosen by language. */
import { afterEach, describe, expect, it } from 'vitest';
import { sentence, setWords, type Words } from '../../components/shared/strings.js';
import { GERMAN } from '../../components/shared/words/de/index.js';
import { ENGLISH, TABLES } from '../../components/shared/words/index.js';

/** A figure as a sentence takes it up: its name, and for a plural its choices. */
interface Figure {
  name: string;
  /** `plural`, the number of decimals, or nothing. */
  kind: string;
  choices: Record<string, string>;
}

/** The figures of a pattern, those inside the choices of a plural too. */
function figuresOf(pattern: string): Figure[] {
  const figures: Figure[] = [];
  let at = 0;
  for (;;) {
    const open = pattern.indexOf('{', at);
    if (open < 0) break;
    const close = closing(pattern, open);
    const inner = pattern.slice(open + 1, close);
    const [name, kind = ''] = inner.split(',').map((part) => part.trim());
    const choices: Record<string, string> = {};
    if (kind === 'plural') {
      let from = inner.indexOf('plural') + 'plural'.length;
      for (;;) {
        const start = inner.indexOf('{', from);
        if (start < 0) break;
        const end = closing(inner, start);
        choices[inner.slice(from, start).replace(',', '').trim()] = inner.slice(start + 1, end);
        from = end + 1;
      }
    }
    figures.push({ name, kind, choices }, ...Object.values(choices).flatMap(figuresOf));
    at = close + 1;
  }
  return figures;
}

function closing(text: string, open: number): number {
  let depth = 0;
  for (let i = open; i < text.length; i++) {
    if (text[i] === '{') depth++;
    if (text[i] === '}' && --depth === 0) return i;
  }
  throw new Error(`a brace is left open: ${text}`);
}

/** Names and kinds, once each: a translation may name a figure twice, but none that is not given. */
const asked = (pattern: string): string[] =>
  [...new Set(figuresOf(pattern).map(({ name, kind }) => `${name} ${kind}`))].sort();

describe('words in one table', () => {
  it('mean one thing under one key', () => {
    for (const [i, table] of TABLES.entries())
      for (const other of TABLES.slice(i + 1))
        for (const key of Object.keys(table))
          if (key in other) expect(other[key], key).toBe(table[key]);
  });

  it('hold every key of every part', () => {
    for (const table of TABLES)
      for (const [key, text] of Object.entries(table)) expect(ENGLISH[key]).toBe(text);
  });
});

describe('German', () => {
  it('has exactly the keys of English', () => {
    expect(Object.keys(GERMAN).sort()).toEqual(Object.keys(ENGLISH).sort());
  });

  it('asks for exactly the same figures in every sentence', () => {
    for (const [key, text] of Object.entries(ENGLISH))
      expect(asked(GERMAN[key] ?? ''), key).toEqual(asked(text));
  });

  it('has no empty sentence', () => {
    for (const [key, text] of Object.entries(GERMAN)) expect(text.trim(), key).not.toBe('');
  });

  it('has the plural forms of its language, and `other` in each choice', () => {
    // Unicode CLDR: German and English have `one` and `other`.
    for (const [locale, words] of [
      ['de', GERMAN],
      ['en', ENGLISH],
    ] as const) {
      const forms = new Intl.PluralRules(locale).resolvedOptions().pluralCategories;
      for (const [key, text] of Object.entries(words))
        for (const { kind, choices } of figuresOf(text)) {
          if (kind !== 'plural') continue;
          expect(choices, `${locale} ${key}`).toHaveProperty('other');
          for (const form of Object.keys(choices))
            if (!/^=\d+$/.test(form)) expect(forms, `${locale} ${key}`).toContain(form);
        }
    }
  });

  it('is not left in English but where both languages write the same', () => {
    const same = Object.keys(ENGLISH).filter((key) => GERMAN[key] === ENGLISH[key]);
    // Figures and signs alone, and words that both languages share.
    const shared = /^(Photo|neutral|Name|Orange|Version|PNG|CSS|L\*|mm|px|m|cm)$/i;
    const bare = (text: string): string => text.replace(/\{[^{}]*\}/g, '').replace(/[\W\d_]+/g, '');
    const left = same.filter((key) => {
      const rest = bare(ENGLISH[key]);
      return rest !== '' && !shared.test(rest) && !/^(sheet\.a\d|add\.css-hint)$/.test(key);
    });
    expect(left).toEqual([]);
  });

  it('fills every sentence without leaving a brace or a gap', () => {
    setWords(GERMAN, 'de');
    for (const [key, text] of Object.entries(GERMAN))
      for (const count of [0, 1, 2]) {
        const values = Object.fromEntries(figuresOf(text).map(({ name }) => [name, count]));
        const said = sentence(key, values, 'de', ENGLISH);
        expect(said.trim(), key).not.toBe('');
        expect(said, key).not.toMatch(/[{}]|undefined|NaN| {2}/);
      }
  });
});

describe('words by language', () => {
  const own: Words = { greeting: '{count, plural, one {# dab} other {# dabs}}', only: 'left' };
  const say = (key: string, locale: string, count = 1): string =>
    sentence(key, { count }, locale, own);

  afterEach(() => {
    setWords({});
    setWords({}, 'de');
    setWords({}, 'fr');
  });

  it('are chosen by the language, its parts falling away, and else are English', () => {
    setWords({ greeting: '{count, plural, one {# Klecks} other {# Kleckse}}' }, 'de');
    expect(say('greeting', 'de', 1)).toBe('1 Klecks');
    expect(say('greeting', 'de-CH', 2)).toBe('2 Kleckse');
    expect(say('greeting', 'de-Latn-AT', 2)).toBe('2 Kleckse');
    expect(say('greeting', 'en-GB', 2)).toBe('2 dabs');
    expect(say('only', 'de')).toBe('left');
  });

  it('given for no language serve all, those of the language before them', () => {
    setWords({ greeting: 'for all', only: 'for all' });
    setWords({ greeting: 'für Deutsche' }, 'de');
    expect(say('greeting', 'de')).toBe('für Deutsche');
    expect(say('only', 'de')).toBe('for all');
    expect(say('greeting', 'fr')).toBe('for all');
  });

  it('that are English keep English plural forms in a page of another language', () => {
    // Unicode CLDR: French counts 0 as `one`, English as `other`.
    expect(new Intl.PluralRules('fr').select(0)).toBe('one');
    expect(say('greeting', 'fr', 0)).toBe('0 dabs');
    setWords({ greeting: '{count, plural, one {# touche} other {# touches}}' }, 'fr');
    expect(say('greeting', 'fr', 0)).toBe('0 touche');
  });

  it('write numbers as the language does', () => {
    const words = { value: '{value, 1, fixed}', share: '{value, 1}' };
    expect(sentence('value', { value: 3 }, 'en', words)).toBe('3.0');
    // Unicode CLDR: a decimal comma in German.
    expect(sentence('value', { value: 3.25 }, 'de', words)).toBe('3,3');
    expect(sentence('share', { value: 1234.5 }, 'de', words)).toBe('1.234,5');
    expect(sentence('share', { value: -2 }, 'en', words)).toBe('−2');
  });
});
