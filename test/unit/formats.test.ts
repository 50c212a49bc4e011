/** Swatches as design tokens, CSS custom properties and SVG, and the first two read back. */
import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { converter, formatHex } from 'culori';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  boardWithSwatches,
  customPropertiesOf,
  DESIGN_TOKENS_TYPE,
  designTokensOf,
  parseBoard,
  SWATCH_FILE_CODES,
  SwatchesError,
  swatchesFromCss,
  swatchesFromTokens,
  swatchesSvg,
  type Board,
  type BoardSwatch,
  type DesignTokens,
  type ReadSwatches,
} from '../../core/entry.js';

interface Reference {
  mediaType: string;
  schema: object;
  examples: { hex: string; values: { colorSpace: string; components: number[] }[] };
  valid: { id: string; file: unknown; tokens: string[] }[];
  invalid: { id: string; file: unknown }[];
}

/** Rules, worked examples and cases of the Design Tokens Community Group, 2025.10; its sources stand in the file. */
const GROUP = JSON.parse(
  readFileSync(new URL('../reference/design-tokens.json', import.meta.url), 'utf8'),
) as Reference;
const validate = new Ajv({ allErrors: true, strict: false }).compile(GROUP.schema);
const faultsOf = (file: unknown): unknown[] => (validate(file) ? [] : (validate.errors ?? []));

const bands = [
  { name: 'dark', floor: 0, ceiling: 36 },
  { name: 'middle {1}. band', floor: 36, ceiling: 66, spread: 20 },
  { name: 'light', floor: 66, ceiling: 95, locked: true },
];
const board: Board = {
  bands,
  swatches: [
    { id: 'a', bucket: 0, lightness: 20.3, css: '#3a2f2b', name: 'Warm shadow' },
    {
      id: 'b',
      bucket: 1,
      lightness: 50,
      uncertainty: 2,
      wet: true,
      accent: true,
      name: '1',
      note: 'ends a comment */ and a tag </title> & more',
      lab: [50, 3, -8],
      from: 'sheet',
    },
    { id: 'c', bucket: 1, lightness: 52, name: '1' },
    {
      id: 'd',
      bucket: 2,
      lightness: 70,
      name: 'Grün, «ß» 日本',
      lab: [70, 90, 80],
      from: 'mix',
      recipe: {
        parts: [
          { tube: 'py150', parts: 2 },
          { tube: 'pr254', parts: 1.5 },
        ],
        strength: 0.5,
        over: [{ parts: [{ tube: 'pb29', parts: 1 }], strength: 0.2 }],
      },
    },
    { id: 'e', bucket: 0, lightness: 10, name: '$__proto__.' },
    { id: 'f', bucket: 0, lightness: 11, name: '__proto__' },
    { id: 'g', bucket: 0, lightness: 30, css: 'currentcolor', name: 'WARM SHADOW' },
  ],
};
const EMPTY: Board = { bands: [], swatches: [] };
const bare: Board = { bands, swatches: [] };

const codesOf = ({ findings }: ReadSwatches): string[] => findings.map(({ code }) => code);
const refusal = (read: () => unknown): SwatchesError => {
  try {
    read();
  } catch (error) {
    expect(error).toBeInstanceOf(SwatchesError);
    return error as SwatchesError;
  }
  throw new Error('nothing was refused');
};

interface ColourToken {
  $type: string;
  $value: { colorSpace: string; components: number[]; alpha: number; hex: string };
  $description: string;
}
/** Tokens of a file by the id of their swatch. */
function tokensOf(file: DesignTokens): Map<string, ColourToken> {
  const groups = Object.entries(file).filter(([key]) => !key.startsWith('$'));
  const tokens = groups.flatMap(([, group]) => Object.values(group as object)) as ColourToken[];
  return new Map(
    tokens.map((token) => [
      (token as unknown as { $extensions: { tonewell: { swatch: BoardSwatch } } }).$extensions
        .tonewell.swatch.id,
      token,
    ]),
  );
}

const lab65 = converter('lab65');
const rgb = converter('rgb');
const lab50 = converter('lab');

describe('design tokens', () => {
  const file = designTokensOf(board, { title: 'My board' });

  it('keep the rules of the community group', () => {
    expect(DESIGN_TOKENS_TYPE).toBe(GROUP.mediaType);
    expect(faultsOf(file)).toEqual([]);
    expect(faultsOf(designTokensOf(bare))).toEqual([]);
    expect(faultsOf({ 'a.b': { $type: 'color', $value: 1 } })).not.toEqual([]);
  });

  it('come with what a reader sees first: title, groups from dark to light, descriptions', () => {
    expect(file.$description).toBe('My board');
    expect(Object.keys(file).filter((key) => !key.startsWith('$'))).toEqual([
      'dark',
      'middle 1 band',
      'light',
    ]);
    expect(tokensOf(file).get('b')?.$description).toBe(
      'L* 50 ± 2 · ends a comment */ and a tag </title> & more',
    );
    const said = designTokensOf(board, { describe: ({ id }) => `swatch ${id}` });
    expect(tokensOf(said).get('b')?.$description).toBe('swatch b');
  });

  // culori has its own tables of sRGB, and CSS lab() of the D50 white by Bradford.
  it('tell the colour as culori does: sRGB with its hex, and lab (D50) beyond sRGB', () => {
    const tokens = tokensOf(file);
    const a = tokens.get('a')!.$value;
    expect(a).toMatchObject({ colorSpace: 'srgb', alpha: 1, hex: '#3a2f2b' });
    for (const [i, byte] of [0x3a, 0x2f, 0x2b].entries())
      expect(a.components[i]).toBeCloseTo(byte / 255, 4);
    const b = tokens.get('b')!.$value;
    const measured = { mode: 'lab65', l: 50, a: 3, b: -8 } as const;
    expect(b.hex).toBe(formatHex(measured));
    expect(b.components[2]).toBeCloseTo(rgb(measured).b, 4);
    const d = tokens.get('d')!.$value;
    const vivid = lab50({ mode: 'lab65', l: 70, a: 90, b: 80 });
    expect(d.colorSpace).toBe('lab');
    expect(d.components[0]).toBeCloseTo(vivid.l, 2);
    expect(d.components[1]).toBeCloseTo(vivid.a, 2);
    expect(d.components[2]).toBeCloseTo(vivid.b, 2);
    expect(lab65(d.hex)!.l).toBeCloseTo(70, 0);
    expect(tokens.get('g')!.$value.hex).toBe(formatHex({ mode: 'lab65', l: 30, a: 0, b: 0 }));
  });

  it('lose nothing of a board on the way out and back', () => {
    const {
      board: back,
      added,
      present,
    } = boardWithSwatches(EMPTY, swatchesFromTokens(JSON.stringify(file)));
    expect(back).toEqual(board);
    expect(added).toHaveLength(7);
    expect(present).toBe(0);
    expect(parseBoard(back)).toEqual(board);
    expect(boardWithSwatches(board, swatchesFromTokens(file))).toMatchObject({
      board,
      added: [],
      present: 7,
    });
  });

  it('do so for any board', () => {
    const text = fc.string({ unit: 'grapheme', maxLength: 20 });
    const figure = (min: number, max: number) =>
      fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
    const swatch = fc.record(
      {
        bucket: fc.integer({ min: 0, max: 2 }),
        lightness: figure(0, 100),
        uncertainty: figure(0, 100),
        wet: fc.boolean(),
        accent: fc.boolean(),
        css: fc.constantFrom('#123', 'rgb(1 2 3 / 50%)', 'oklch(0.7 0.3 150)', 'no colour', 'tan'),
        name: text,
        note: text,
        lab: fc.tuple(figure(0, 100), figure(-120, 120), figure(-120, 120)),
      },
      { requiredKeys: ['bucket', 'lightness'] },
    );
    const any = fc.array(swatch, { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(any, (swatches) => {
        const one = parseBoard({
          bands,
          swatches: swatches.map((each, i) => ({ ...each, id: `s${i}` })),
        });
        const written = designTokensOf(one);
        expect(faultsOf(written)).toEqual([]);
        const read = swatchesFromTokens(JSON.stringify(written));
        expect(read.findings).toEqual([]);
        // As text, where -0 has no sign.
        expect(JSON.stringify(boardWithSwatches(EMPTY, read).board)).toBe(JSON.stringify(one));
      }),
      { numRuns: 200 },
    );
  });

  it.each(GROUP.examples.values)('are read as the group says: $colorSpace', (value) => {
    const { swatches } = swatchesFromTokens({ one: { $type: 'color', $value: value } });
    const expected = lab65(GROUP.examples.hex)!;
    const [L, a, b] = swatches[0].lab!;
    // The components are given to three or four figures.
    expect(L).toBeCloseTo(expected.l, 0);
    expect(Math.hypot(a - expected.a, b - expected.b)).toBeLessThan(0.5);
    expect(swatches[0].lightness).toBe(L);
  });

  const modes = {
    srgb: ['rgb', 'r', 'g', 'b'],
    'srgb-linear': ['lrgb', 'r', 'g', 'b'],
    'display-p3': ['p3', 'r', 'g', 'b'],
    'a98-rgb': ['a98', 'r', 'g', 'b'],
    'prophoto-rgb': ['prophoto', 'r', 'g', 'b'],
    rec2020: ['rec2020', 'r', 'g', 'b'],
    'xyz-d65': ['xyz65', 'x', 'y', 'z'],
    'xyz-d50': ['xyz50', 'x', 'y', 'z'],
    hsl: ['hsl', 'h', 's', 'l'],
    hwb: ['hwb', 'h', 'w', 'b'],
    lab: ['lab', 'l', 'a', 'b'],
    lch: ['lch', 'l', 'c', 'h'],
    oklab: ['oklab', 'l', 'a', 'b'],
    oklch: ['oklch', 'l', 'c', 'h'],
  } as const;
  it.each(Object.keys(modes) as (keyof typeof modes)[])(
    'are read as culori reads them: %s',
    (space) => {
      const found = GROUP.valid.find(({ id }) => id === `color-${space}`)!;
      const { components } = (found.file as { token: { $value: { components: number[] } } }).token
        .$value;
      const [mode, ...channels] = modes[space];
      const percent = space === 'hsl' || space === 'hwb' ? [1, 100, 100] : [1, 1, 1];
      const colour = { mode } as Record<string, unknown>;
      channels.forEach((channel, i) => (colour[channel] = components[i] / percent[i]));
      const expected = lab65(colour as never) as unknown as { l: number; a: number; b: number };
      const [swatch] = swatchesFromTokens(found.file).swatches;
      expect(swatch.lab![0]).toBeCloseTo(expected.l, 3);
      expect(swatch.lab![1]).toBeCloseTo(expected.a, 3);
      expect(swatch.lab![2]).toBeCloseTo(expected.b, 3);
    },
  );

  it.each(GROUP.valid)('are read where the group calls them valid: $id', ({ file, tokens }) => {
    const read = swatchesFromTokens(file);
    expect(read.findings).toEqual([]);
    const names = tokens.map((path) =>
      path
        .split('.')
        .filter((part) => part !== '$root')
        .join(' '),
    );
    expect(read.swatches.map(({ name }) => name)).toEqual(names);
  });

  it.each(GROUP.invalid)('are refused where the group calls them invalid: $id', ({ file }) => {
    const { faults } = refusal(() => swatchesFromTokens(file));
    expect(faults[0].code).toBe('swatches.empty');
    for (const { code } of faults.slice(1)) expect(SWATCH_FILE_CODES).toContain(code);
  });

  it('give references the colour they end at', () => {
    const { swatches } = swatchesFromTokens(
      GROUP.valid.find(({ id }) => id === 'reference-chained-reference')!.file,
    );
    expect(new Set(swatches.map(({ css }) => css)).size).toBe(1);
  });

  it('keep what can be read when one colour of a file cannot', () => {
    const black = { colorSpace: 'srgb', components: [0, 0, 0] };
    const read = swatchesFromTokens({
      colours: {
        $type: 'color',
        good: { $value: black },
        round: { $value: '{colours.round}' },
        clear: { $value: { ...black, alpha: 0 } },
        far: { $value: { colorSpace: 'later-space', components: [1, 2], hex: '#808080' } },
        older: { $value: '#0F0' },
        size: { $type: 'dimension', $value: { value: 2, unit: 'px' } },
      },
    });
    expect(read.swatches.map(({ name }) => name)).toEqual([
      'colours good',
      'colours far',
      'colours older',
    ]);
    expect(codesOf(read)).toEqual(['swatches.reference-circle', 'swatches.transparent']);
    expect(read.findings[0].values.name).toBe('colours.round');
  });

  it('are taken as they are now when another program changed them', () => {
    const changed = structuredClone(file) as Record<string, Record<string, ColourToken>>;
    changed.dark['Warm shadow'].$value = {
      colorSpace: 'srgb',
      components: [1, 1, 1],
      alpha: 1,
      hex: '#ffffff',
    };
    changed.light['Leaf'] = changed.light['Grün, «ß» 日本'];
    delete changed.light['Grün, «ß» 日本'];
    const read = swatchesFromTokens(changed);
    expect(codesOf(read)).toEqual(['swatches.own-notes']);
    const { board: back } = boardWithSwatches(EMPTY, read);
    const bright = back.swatches.find(({ name }) => name === 'Warm shadow')!;
    expect(bright).toMatchObject({ bucket: 2, from: 'data' });
    expect(bright.lightness).toBeCloseTo(100, 3);
    const leaf = back.swatches.find(({ name }) => name === 'Leaf')!;
    expect(leaf.recipe).toEqual(board.swatches[3].recipe);
  });

  it('rounded by another program to three decimals keep their notes', () => {
    const rounded = structuredClone(file) as Record<string, Record<string, ColourToken>>;
    const { $value } = rounded.dark['Warm shadow'];
    $value.components = $value.components.map((each) => Math.round(1000 * each) / 1000);
    expect(boardWithSwatches(EMPTY, swatchesFromTokens(rounded)).board).toEqual(board);
  });

  it('refuse documents that are none, with what is wrong', () => {
    const codes = (value: unknown): string[] =>
      refusal(() => swatchesFromTokens(value)).faults.map(({ code }) => code);
    expect(codes('{')).toEqual(['swatches.not-json-text']);
    expect(codes('[]')).toEqual(['swatches.wrong-type']);
    expect(codes('null')).toEqual(['swatches.wrong-type']);
    expect(codes('{}')).toEqual(['swatches.empty']);
    expect(codes('{"__proto__": {}}')).toEqual(['swatches.forbidden-key']);
    expect(codes(`"${'x'.repeat(4_000_001)}"`)).toEqual(['swatches.too-large']);
    expect(codes('{"a":'.repeat(40) + '1' + '}'.repeat(40))).toEqual(['swatches.too-deep']);
    const one = { $type: 'color', $value: '#123456' };
    const many = Object.fromEntries(Array.from({ length: 1001 }, (_, i) => [`t${i}`, one]));
    expect(codes(many)).toEqual(['swatches.too-many']);
  });

  it('do not let a small file unfold into a large one', () => {
    const groups: Record<string, unknown> = { g0: { t: { $type: 'color', $value: '#123456' } } };
    for (let i = 1; i < 40; i++)
      groups[`g${i}`] = { x: { $extends: `{g${i - 1}}` }, y: { $extends: `{g${i - 1}}` } };
    const { faults } = refusal(() => swatchesFromTokens(groups));
    expect(faults[0].code).toMatch(/swatches\.too-(large|deep|many)/);
    const chain = Object.fromEntries(
      Array.from({ length: 5000 }, (_, i) => [`t${i}`, { $value: `{t${i + 1}}` }]),
    );
    expect(refusal(() => swatchesFromTokens(chain)).faults[1].code).toMatch(
      /reference-(far|missing)/,
    );
  });
});

describe('CSS custom properties', () => {
  const css = customPropertiesOf(board, { title: 'My board */ }' });
  /** Name and value of each declaration, read by a pattern that knows only what is written here. */
  const declared = (text: string): [string, string][] =>
    [...text.matchAll(/^ {2}(--\S+): ([^;]+);/gm)].map(([, name, value]) => [name, value]);

  it('are one a swatch, darkest bucket first, with names that differ', () => {
    const names = declared(css).map(([name]) => name);
    expect(names).toEqual([
      '--dark-warm-shadow',
      '--dark-proto',
      '--dark-proto-2',
      '--dark-warm-shadow-2',
      '--middle-1-band-1',
      '--middle-1-band-1-2',
      '--light-grun-ß-日本',
    ]);
  });

  it('keep their names when a swatch comes behind them', () => {
    const more = { ...board, swatches: [...board.swatches, { ...board.swatches[0], id: 'z' }] };
    const names = declared(customPropertiesOf(more)).map(([name]) => name);
    expect(names).toEqual(expect.arrayContaining(declared(css).map(([name]) => name)));
  });

  it('bear the prefix that was asked for', () => {
    expect(customPropertiesOf(board, { prefix: 'My Kit' })).toContain('--my-kit-dark-warm-shadow:');
  });

  it('are the colours of the swatches', () => {
    const values = declared(css).map(([, value]) => value);
    expect(values[0]).toBe('#3a2f2b');
    const vivid = lab65(values.at(-1)!)!;
    expect(vivid.l).toBeCloseTo(70, 2);
    expect(vivid.a).toBeCloseTo(90, 2);
    expect(vivid.b).toBeCloseTo(80, 2);
  });

  it('come back as swatches of the same colours', () => {
    const { swatches, findings } = swatchesFromCss(css);
    expect(findings).toEqual([]);
    expect(swatches).toHaveLength(7);
    expect(swatches[0]).toMatchObject({ css: '#3a2f2b', name: 'dark warm shadow', from: 'data' });
    expect(boardWithSwatches(bare, swatchesFromCss(css)).board.swatches).toHaveLength(7);
  });

  it('are read wherever they stand, and all else is passed over', () => {
    const { swatches, findings } = swatchesFromCss(`
      @charset "utf-8"; @import url("a;b.css");
      /* --in-comment: red; } */
      :root, .theme { --gap: 8px; color: red; --one: #ABCDEF; --two : rgb( 1 2 3 / 100% ) !important }
      @media (min-width: 30em) { .card:hover { --three: hsl(120deg 50% 50%); & b { --four: tan } } }
      .x { --shape: { --not: red; }; --text: "--nor: blue;"; --pic: url(data:image/png;base64,AAA=); }
      .y { --shadow: 0 0 2px black; --font: serif; --digits: 123; --empty:; }
      --bare: oklch(0.5 0.1 30); --f\\fc r: Blue; --a\\:b: #12345678`);
    expect(swatches.map(({ name, css }) => [name, css])).toEqual([
      ['one', '#ABCDEF'],
      ['two', 'rgb( 1 2 3 / 100% )'],
      ['three', 'hsl(120deg 50% 50%)'],
      ['four', 'tan'],
      ['bare', 'oklch(0.5 0.1 30)'],
      ['für', 'Blue'],
      ['a:b', '#12345678'],
    ]);
    expect(findings).toEqual([]);
  });

  it('follow var(), in any order, with fallbacks', () => {
    const { swatches, findings } = swatchesFromCss(`:root {
      --late: var(--red); --red: #f00; --nested: rgb(var(--r), var(--none, 0) , var( --none , var(--b)));
      --r: 10; --b: 30; --fallback: var(--none, teal);
      --lost: var(--none); --me: var(--me); --you: var(--i); --i: var(--you, red); --size: var(--none) 1px; }`);
    expect(swatches.map(({ name, css }) => [name, css])).toEqual([
      ['late', '#f00'],
      ['red', '#f00'],
      ['nested', 'rgb(10, 0 , 30)'],
      ['fallback', 'teal'],
    ]);
    expect(findings.map(({ code, values }) => [code, values.name])).toEqual([
      ['swatches.reference-missing', '--lost'],
      ['swatches.reference-circle', '--me'],
      ['swatches.reference-circle', '--you'],
      ['swatches.reference-circle', '--i'],
      ['swatches.reference-missing', '--size'],
    ]);
  });

  it('tell of colours that cannot be read, and of a second theme', () => {
    const read = swatchesFromCss(`:root { --a: red; --a: #00f; --x: color-mix(in srgb, red, blue);
      --t: transparent; } .dark { --a: white; --b: black; } @media print { .dark { --b: black } }`);
    expect(read.swatches.map(({ name, css }) => [name, css])).toEqual([
      ['a', '#00f'],
      ['b', 'black'],
    ]);
    expect(read.findings.map(({ code, values }) => [code, values.name])).toEqual([
      ['swatches.again', '--a'],
      ['swatches.colour-unreadable', '--x'],
      ['swatches.transparent', '--t'],
    ]);
  });

  it('refuse what holds no colours, and what is too much', () => {
    const codes = (text: unknown): string[] =>
      refusal(() => swatchesFromCss(text as string)).faults.map(({ code }) => code);
    expect(codes('')).toEqual(['swatches.empty']);
    expect(codes('a { color: red }')).toEqual(['swatches.empty']);
    expect(codes('/* --a: red;')).toEqual(['swatches.empty']);
    expect(codes(7)).toEqual(['swatches.wrong-type']);
    expect(codes(' '.repeat(4_000_001))).toEqual(['swatches.too-large']);
    expect(codes(Array.from({ length: 1001 }, (_, i) => `--a${i}: red;`).join(''))).toEqual([
      'swatches.too-many',
    ]);
  });

  it('do not let references double without end', () => {
    const doubling = Array.from(
      { length: 60 },
      (_, i) => `--a${i + 1}: var(--a${i}) var(--a${i});`,
    );
    const empty = `--a0:; ${doubling.join('')} --ok: red`;
    const full = `--a0: red; ${doubling.join('')}`;
    expect(swatchesFromCss(empty).swatches).toHaveLength(1);
    expect(swatchesFromCss(full).swatches).toHaveLength(1);
  });

  it('never fail in another way, whatever the text', () => {
    const sign = fc.constantFrom(
      ...'-{}();:,"\'\\/*#ar \n@',
      '--',
      'var(',
      'red',
      '/*',
      '*/',
      'ü',
      '😀',
    );
    fc.assert(
      fc.property(fc.array(sign, { maxLength: 60 }), (signs) => {
        try {
          swatchesFromCss(signs.join(''));
        } catch (error) {
          expect(error).toBeInstanceOf(SwatchesError);
        }
      }),
      { numRuns: 2000 },
    );
  });
});

describe('swatches that come to a board', () => {
  const grey = (id: string | undefined, lightness: number, bucket?: number) => ({
    ...(id === undefined ? {} : { id }),
    ...(bucket === undefined ? {} : { bucket }),
    lightness,
  });
  it('lie where their lightness lies, unless the board they come from had as many buckets', () => {
    const read: ReadSwatches = { swatches: [grey('x', 90, 0), grey(undefined, 50)], findings: [] };
    expect(boardWithSwatches(bare, read).added.map(({ bucket }) => bucket)).toEqual([2, 1]);
    const own = boardWithSwatches(bare, { ...read, bands });
    expect(own.added.map(({ bucket }) => bucket)).toEqual([0, 1]);
  });

  it('get ids that are free, and what is there is not changed', () => {
    const before = structuredClone(board);
    const read: ReadSwatches = { swatches: [grey('a', 1), grey(undefined, 2)], findings: [] };
    const joined = boardWithSwatches(board, read);
    expect(board).toEqual(before);
    expect(joined.board.swatches.slice(0, 7)).toEqual(board.swatches);
    expect(new Set(joined.board.swatches.map(({ id }) => id)).size).toBe(9);
    expect(parseBoard(joined.board)).toEqual(joined.board);
  });

  it('are refused when there are too many or nowhere to lay them', () => {
    const read: ReadSwatches = { swatches: [grey(undefined, 1)], findings: [] };
    expect(refusal(() => boardWithSwatches(EMPTY, read)).faults[0].code).toBe(
      'swatches.no-buckets',
    );
    const full: Board = {
      bands,
      swatches: Array.from({ length: 1000 }, (_, i) => ({ id: `s${i}`, bucket: 0, lightness: 9 })),
    };
    expect(refusal(() => boardWithSwatches(full, read)).faults[0]).toMatchObject({
      code: 'swatches.too-many',
      values: { found: 1001, limit: 1000 },
    });
  });
});

describe('swatches as a drawing', () => {
  const svg = swatchesSvg(board, { title: 'A & B' });
  it('are a rectangle each, in a group a bucket, with titles', () => {
    expect(svg.match(/<g id="band-\d"/g)).toEqual([
      '<g id="band-0"',
      '<g id="band-1"',
      '<g id="band-2"',
    ]);
    expect(
      [...svg.matchAll(/<rect id="swatch-(\d)"[^>]*fill="([^"]+)"/g)].map((m) => m.slice(1)).sort(),
    ).toEqual(
      board.swatches.map((swatch, i) => [
        String(i),
        tokensOf(designTokensOf(board)).get(swatch.id)!.$value.hex,
      ]),
    );
    expect(svg.startsWith('<svg xmlns="http://www.w3.org/2000/svg"')).toBe(true);
    expect(svg).toContain('<title>A &#38; B</title>');
    expect(svg).not.toMatch(/<script|style=|href/);
  });
});
