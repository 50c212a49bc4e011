/** Every finding that the core or an element can tell has its sentence, and every sentence can be filled. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { boardWords } from '../../components/shared/words/board.js';
import { pickerWords } from '../../components/shared/words/picker.js';
import { pictureWords } from '../../components/shared/words/picture.js';
import { planWords } from '../../components/shared/words/plan.js';
import { toolsWords } from '../../components/shared/words/tools.js';
import { ENGLISH } from '../../components/shared/words/index.js';
import { sentence } from '../../components/shared/strings.js';
import { SWATCH_CODES } from '../../core/index.js';

const root = new URL('../../', import.meta.url).pathname;
const sources = (folder: string): string =>
  readdirSync(root + folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.ts'))
    .map((path) => readFileSync(`${root}${folder}/${path}`, 'utf8'))
    .join('\n');
const core = sources('core');
const intake = ['picture-intake', 'picture-hands', 'shown-pictures', 'core']
  .map((name) => readFileSync(`${root}components/shared/${name}.ts`, 'utf8'))
  .join('\n');
const plan = sources('components/painting-plan');
const picker = sources('components/lightness-picker');

/** All that a pattern's group finds in a text, once each. */
const found = (text: string, pattern: RegExp): string[] =>
  [...new Set([...text.matchAll(pattern)].map((match) => match[1]))].sort();

/** One of each value that a sentence names, so that a gap would show. */
const filled = (text: string): string => {
  const values = Object.fromEntries(found(text, /\{(\w+)/g).map((name) => [name, 2]));
  return sentence('key', values, 'en', { key: text });
};

describe('words', () => {
  it('has a sentence for every error of pictures and of the core, and it says what to do', () => {
    const names = found(core + intake, /\bCoreError\(\s*'(\w+)'/g).filter(
      (name) => name !== 'JobUnknown', // only a program can bring it about
    );
    expect(names).toEqual(
      expect.arrayContaining(['CoreLost', 'PictureEmpty', 'PictureForbidden', 'PictureTooLarge']),
    );
    for (const name of [...names, 'TypeError', 'RangeError']) {
      expect(pictureWords, name).toHaveProperty([name]);
      const said = filled(pictureWords[name]);
      expect(said, name).toMatch(/^[A-Z].*\.$/);
      // An order to the reader: what to do next.
      expect(said, name).toMatch(/\b(Ask|Save|Make|Check|Open|Reload|Choose|open the photo)\b/);
    }
  });

  it('has a sentence for every warning about a picture', () => {
    const codes = found(core + intake, /\breason\(\s*'(picture\.[\w-]+)'/g);
    expect(codes).toContain('picture.animated');
    for (const code of codes) expect(pictureWords, code).toHaveProperty([code]);
  });

  it('names the stages of the work while a picture opens', () => {
    for (const stage of ['read', 'decode', 'reduce'])
      expect(pictureWords).toHaveProperty([`progress.${stage}`]);
  });

  it('has a sentence for all that a photo can tell', () => {
    const plain = found(sources('core/picture'), /'(photo\.[\w-]+)'/g);
    // Codes that are put together: darks and lights clipped or kept, soft or sharp.
    const made = ['darks', 'lights'].flatMap((kind) => [
      `photo.${kind}-clipped`,
      `photo.${kind}-kept`,
    ]);
    expect(core).toContain('reason(`photo.${kind}-${');
    expect(core).toContain('reason(`photo.${sharpness.verdict}`');
    for (const code of [...plain, ...made, 'photo.soft', 'photo.sharp'])
      expect(toolsWords, code).toHaveProperty([code]);
  });

  it('has a sentence for every verdict on a swatch, of figures that the verdict brings', () => {
    for (const [code, figures] of Object.entries(SWATCH_CODES)) {
      expect(boardWords, code).toHaveProperty([code]);
      for (const name of found(boardWords[code], /\{([a-z]\w*)(?=\}|, (?:\d|plural|sign))/g))
        expect(figures, `${code} {${name}}`).toContain(name);
    }
  });

  it('has a sentence for all that a plan element and a reading remark', () => {
    // `plan.json` is a file's name.
    const codes = found(plan, /(?<!startsWith\()'(plan\.[\w-]+)'/g).filter(
      (code) => code !== 'plan.json',
    );
    expect(codes.length).toBeGreaterThan(5);
    for (const code of codes) expect(planWords, code).toHaveProperty([code]);
    const remarks = found(picker, /\breason\(\s*'(reading\.[\w-]+)'/g);
    expect(remarks.length).toBeGreaterThan(2);
    for (const code of remarks) expect(pickerWords, code).toHaveProperty([code]);
  });

  it('has a sentence for every key that the elements say', () => {
    const keys = found(sources('components'), /\b(?:say|words)\(\s*'([\w.-]+)'/g);
    expect(keys.length).toBeGreaterThan(300);
    for (const key of keys) expect(ENGLISH, key).toHaveProperty([key]);
  });

  it('fills every sentence without leaving a brace or a gap', () => {
    for (const [key, text] of Object.entries(ENGLISH)) {
      const said = filled(text);
      expect(said.trim(), key).not.toBe('');
      expect(said, key).not.toMatch(/[{}]|undefined|NaN| {2}/);
    }
  });
});
