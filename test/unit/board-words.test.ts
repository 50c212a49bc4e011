import { describe, expect, it } from 'vitest';
import {
  judgeBoard,
  LEAN_NAMES,
  munsellValue,
  SWATCH_CODES,
  type Board,
} from '../../core/entry.js';
import { sentence } from '../../components/shared/strings.js';
import { boardWords } from '../../components/shared/words/board.js';
import { pickerWords } from '../../components/shared/words/picker.js';
import { lackWords } from '../../components/swatch-bucket-board/lack-words.js';
import {
  countsOf,
  dryLightness,
  gapInValue,
  markOf,
  reasonInValues,
  tenth,
  valueDistance,
} from '../../components/swatch-bucket-board/verdict-words.js';

const say = (key: string, values: Record<string, string | number> = {}): string =>
  sentence(key, values, 'en', boardWords);
const nameOf = (id: string): string => `<${id}>`;

/** The figures that a sentence asks for: `{name}`, `{name, 1}`, `{name, plural, …}`; a choice such as `other {…}` is none. */
const asked = (pattern: string): string[] =>
  [...pattern.matchAll(/(?<!(?:one|other|=\d) )\{(\w+)(?=[,}])/g)].map(([, name]) => name);

describe('sentences of the verdict', () => {
  it('there is one for every code, and it asks for no figure that the code does not carry', () => {
    expect(asked(boardWords['swatch.wet'])).toEqual(['wet', 'dried', 'low', 'high']);
    for (const [code, figures] of Object.entries(SWATCH_CODES)) {
      expect(boardWords[code], code).toBeTruthy();
      for (const name of asked(boardWords[code]))
        expect(figures as readonly string[], code).toContain(name);
    }
  });

  it('no sentence is left without a code', () => {
    const codes = Object.keys(boardWords).filter(
      (key) => key.startsWith('swatch.') && !key.startsWith('swatch.lean.'),
    );
    expect(codes.sort()).toEqual(Object.keys(SWATCH_CODES).sort());
  });

  it('there is a word for every verdict and a sentence for every fault of a board', () => {
    for (const kind of ['fits', 'too-dark', 'too-light', 'between', 'unsure', 'accent'])
      expect(boardWords[`verdict.${kind}`], kind).toBeTruthy();
    const faults = [
      'missing',
      'unknown-key',
      'wrong-type',
      'out-of-range',
      'too-long',
      'too-short',
      'wrong-form',
      'too-many',
      'too-few',
      'not-allowed',
      'not-finite',
      'not-json',
      'forbidden-key',
      'too-deep',
      'too-large',
      'more',
      'not-json-text',
      'ceiling-below-floor',
      'bands-disorder',
      'no-such-bucket',
      'duplicate-id',
      'other-count',
    ];
    for (const fault of faults) expect(boardWords[`board.${fault}`], fault).toBeTruthy();
  });

  it('there are words for every lean: as a name, the same as the hole card’s, and as what a swatch does', () => {
    for (const lean of LEAN_NAMES) {
      expect(boardWords[`lean.${lean}`], lean).toBe(pickerWords[`lean.${lean}`]);
      expect(boardWords[`swatch.lean.${lean}`], lean).toBe(
        lean === 'neutral' ? 'neutral' : `leans ${lean}`,
      );
    }
  });

  it('what is lacking, one or several, in number or lean', () => {
    const lack = { bucket: 0, found: 0, required: 1 };
    const two = { bucket: 0, found: 1, required: 3 };
    expect(lackWords(say, 'bucket', lack, 'dark')).toBe('One more is asked for here.');
    expect(lackWords(say, 'bucket', { ...lack, lean: 'blue' }, 'dark')).toBe(
      'One that leans blue is missing.',
    );
    expect(lackWords(say, 'bucket', { ...two, lean: 'blue' }, 'dark')).toBe(
      '2 that lean blue are missing.',
    );
    expect(lackWords(say, 'bucket', { ...lack, lean: 'neutral' }, 'dark')).toBe(
      'A neutral one is missing.',
    );
    expect(lackWords(say, 'validity', lack, 'dark')).toBe('dark needs one more swatch.');
    expect(lackWords(say, 'validity', { ...lack, lean: 'red-violet' }, 'dark')).toBe(
      'dark lacks a swatch that leans red-violet.',
    );
    expect(lackWords(say, 'validity', { ...two, lean: 'neutral' }, 'dark')).toBe(
      'dark lacks 2 neutral swatches.',
    );
  });

  it('told in values: 5 is L* 51.003745 and 6 is L* 61.046496 (ASTM D1535, test/reference/munsell-value.json)', () => {
    const values = {
      band: 'dark',
      lightness: 61.046496,
      other: 's1',
      otherBand: 'middle',
      otherLightness: 51.003745,
      by: 10.042751,
      count: 1,
    };
    const told = reasonInValues({ code: 'swatch.not-darker', values }, 56.02512, nameOf);
    expect(told.values).toEqual({
      band: 'dark',
      lightness: 6,
      other: '<s1>',
      otherBand: 'middle',
      otherLightness: 5,
      by: 1,
      count: 1,
    });
    expect(say(told.code, told.values)).toBe(
      'Lighter by 1 than “<s1>”, which lies in middle. Mix it darker or move it.',
    );
  });

  it('distances are differences of value and keep their sign', () => {
    expect(valueDistance(50, 10)).toBeCloseTo(munsellValue(55) - munsellValue(45), 12);
    expect(valueDistance(50, -10)).toBeCloseTo(-(munsellValue(55) - munsellValue(45)), 12);
    expect(valueDistance(0, 0)).toBe(0);
    expect(valueDistance(99, 10)).toBeCloseTo(10 - munsellValue(94), 12);
    expect(tenth(-0.04)).toBe(0);
    expect(Object.is(tenth(-0.04), 0)).toBe(true);
  });

  it('every sentence of a whole judged board reads without holes', () => {
    const board: Board = {
      bands: [
        { name: 'dark', floor: 0, ceiling: 36, spread: 5 },
        { name: 'middle', floor: 36, ceiling: 66 },
        { name: 'light', floor: 66, ceiling: 95 },
      ],
      swatches: [
        { id: 'a', bucket: 0, lightness: 10 },
        { id: 'b', bucket: 0, lightness: 55 },
        { id: 'c', bucket: 1, lightness: 50 },
        { id: 'd', bucket: 1, lightness: 64, uncertainty: 5 },
        { id: 'e', bucket: 2, lightness: 80, wet: true },
        { id: 'f', bucket: 2, lightness: 40, accent: true },
        { id: 'g', bucket: 0, lightness: 90, accent: true },
        { id: 'h', bucket: 2, lightness: 64 },
      ],
    };
    const verdict = judgeBoard(board);
    const sentences = verdict.swatches.flatMap(({ id, reasons }) => {
      const swatch = board.swatches.find((each) => each.id === id)!;
      return reasons.map((reason) => {
        const told = reasonInValues(reason, dryLightness(swatch, 95), nameOf);
        return say(told.code, told.values);
      });
    });
    expect(sentences.length).toBeGreaterThanOrEqual(board.swatches.length);
    for (const text of sentences) expect(text).not.toMatch(/[{}#]|undefined|NaN|swatch\./);
    // By hand: b (55) stands in dark above c (50) of middle, 19 past its limit where c is not past its own: b is at fault.
    expect(verdict.swatches[1].verdict).toBe('too-light');
    expect(verdict.overlaps).toEqual([['b', 'c']]);
    expect(markOf(board.swatches[5], verdict.swatches[5])).toBe('accent');
    expect(markOf(board.swatches[1], verdict.swatches[1])).toBe('too-light');
    expect(countsOf(verdict).faults).toBe(1);
  });

  it('a gap is the distance of the nearest two, accents aside', () => {
    const board: Board = {
      bands: [
        { name: 'dark', floor: 0, ceiling: 36 },
        { name: 'light', floor: 60, ceiling: 95 },
      ],
      swatches: [
        { id: 'a', bucket: 0, lightness: 20 },
        { id: 'b', bucket: 0, lightness: 30 },
        { id: 'c', bucket: 1, lightness: 70 },
        { id: 'd', bucket: 1, lightness: 25, accent: true },
      ],
    };
    expect(gapInValue(board, 0, 95)).toBe(tenth(munsellValue(70) - munsellValue(30)));
    expect(gapInValue({ ...board, swatches: [] }, 0, 95)).toBe(
      tenth(munsellValue(60) - munsellValue(36)),
    );
    expect(
      gapInValue(
        {
          ...board,
          swatches: [
            { id: 'a', bucket: 0, lightness: 80 },
            { id: 'c', bucket: 1, lightness: 70 },
          ],
        },
        0,
        95,
      ),
    ).toBeLessThan(0);
  });
});
