/** Lengths in millimetres and inches. An inch is 25.4 mm, a foot 0.3048 m (international yard and pound agreement, 1959). */
import { describe, expect, it } from 'vitest';
import {
  feetOf,
  figureOf,
  inMm,
  inUnit,
  isUnit,
  unitOfLocale,
} from '../../components/shared/measure.js';

describe('lengths', () => {
  it('are told in inches in the United States, else in millimetres', () => {
    expect(unitOfLocale('en-US')).toBe('in');
    for (const locale of ['en', 'en-GB', 'de', 'de-CH', 'fr-CA', 'not a tag'])
      expect(unitOfLocale(locale), locale).toBe('mm');
    expect(isUnit('in') && isUnit('mm')).toBe(true);
    expect(isUnit('cm') || isUnit('')).toBe(false);
  });

  it('in inches are written as a ruler shows them', () => {
    // Sizes of the trade's sheets and blocks, and sixteenths by hand: 25.4 / 16 = 1.5875 mm.
    expect(figureOf(11 * 25.4, 'in', 'en-US')).toBe('11');
    expect(figureOf(7.5 * 25.4, 'in', 'en-US')).toBe('7½');
    expect(figureOf(9.525, 'in', 'en-US')).toBe('⅜');
    expect(figureOf(4.7625, 'in', 'en-US')).toBe('3/16');
    expect(figureOf(1.0625 * 25.4, 'in', 'en-US')).toBe('1 1/16');
    expect(figureOf(25.4, 'in', 'en-US')).toBe('1');
    expect(figureOf(24 * 25.4, 'in', 'en-US')).toBe('24');
  });

  it('that no sixteenth comes near to are written with two decimals', () => {
    // 210 mm (A4) is 8.268 in: a quarter and 0.45 mm away. 0.5 mm is 0.0197 in.
    expect(figureOf(210, 'in', 'en-US')).toBe('8.27');
    expect(figureOf(0.5, 'in', 'en-US')).toBe('0.02');
    expect(figureOf(210, 'in', 'de')).toBe('8,27');
  });

  it('in millimetres have one decimal at most, in the reader’s way of writing', () => {
    expect(figureOf(12, 'mm', 'en')).toBe('12');
    expect(figureOf(279.4, 'mm', 'en')).toBe('279.4');
    expect(figureOf(279.4, 'mm', 'de')).toBe('279,4');
  });

  it('come back from their figure', () => {
    for (const mm of [1, 12.7, 279.4, 381]) expect(inMm(inUnit(mm, 'in'), 'in')).toBeCloseTo(mm, 0);
    expect(inUnit(381, 'in')).toBe(15);
    expect(inMm(15, 'mm')).toBe(15);
  });

  it('from afar are told in whole feet', () => {
    expect(feetOf(3.048)).toBe(10);
    expect(feetOf(1)).toBe(3); // 3.28
    expect(feetOf(0.5)).toBe(2); // 1.64
  });
});
