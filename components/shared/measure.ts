import { formatNumber } from './strings.js';

/** What lengths are told in: millimetres or inches. */
export type LengthUnit = 'mm' | 'in';

/** Millimetres in an inch, by definition (international yard and pound agreement of 1959). */
export const MM_IN_INCH = 25.4;
/** Metres in a foot, by the same. */
const M_IN_FOOT = 0.3048;

/** The unit of lengths where a language tag names the region: inches in the United States, else millimetres. */
export function unitOfLocale(locale: string): LengthUnit {
  try {
    return new Intl.Locale(locale).region === 'US' ? 'in' : 'mm';
  } catch {
    return 'mm';
  }
}

/** What the choice of a person is kept under in the browser's storage. */
const KEPT = 'tonewell lengths';

/** The unit that a person chose on an earlier visit; empty while none was chosen, or where storage is closed. */
export function keptUnit(): LengthUnit | '' {
  try {
    const text = localStorage.getItem(KEPT) ?? '';
    return isUnit(text) ? text : '';
  } catch {
    return '';
  }
}

/** Keeps the unit that a person chose for the next visit; where storage is closed it holds for this one. */
export function keepUnit(unit: LengthUnit): void {
  try {
    localStorage.setItem(KEPT, unit);
  } catch {
    // Nothing is lost but the choice.
  }
}

/** Whether a text names a unit. */
export function isUnit(text: string | undefined): text is LengthUnit {
  return text === 'mm' || text === 'in';
}

/** Millimetres in a unit, rounded as one would write it: tenths of a millimetre, hundredths of an inch. */
export function inUnit(mm: number, unit: LengthUnit): number {
  return unit === 'mm' ? Math.round(mm * 10) / 10 : Math.round((mm / MM_IN_INCH) * 100) / 100;
}

/** A figure in a unit as millimetres. */
export function inMm(figure: number, unit: LengthUnit): number {
  return unit === 'mm' ? figure : figure * MM_IN_INCH;
}

/** Signs for the fractions of an inch that rulers show, in sixteenths; others are written out. */
const SIGNS: Readonly<Record<number, string>> = {
  2: '⅛',
  4: '¼',
  6: '⅜',
  8: '½',
  10: '⅝',
  12: '¾',
  14: '⅞',
};

/**
 * A length as a figure without its unit: millimetres with at most one decimal; inches as a ruler shows them, to the nearest
 * sixteenth (`7½`, `⅜`, `3/16`), where that is within two hundredths of the length or a quarter millimetre, else with two decimals.
 */
export function figureOf(mm: number, unit: LengthUnit, locale: string): string {
  if (unit === 'mm') return formatNumber(mm, locale, 1);
  const inches = mm / MM_IN_INCH;
  const sixteenths = Math.round(inches * 16);
  const off = Math.abs(sixteenths / 16 - inches) * MM_IN_INCH;
  if (sixteenths === 0 || off > Math.min(0.25, 0.02 * mm)) return formatNumber(inches, locale, 2);
  const whole = Math.floor(sixteenths / 16);
  const rest = sixteenths % 16;
  if (rest === 0) return formatNumber(whole, locale, 0);
  const fraction = SIGNS[rest] ?? `${rest}/16`;
  const before = whole === 0 ? '' : formatNumber(whole, locale, 0);
  return SIGNS[rest] || !before ? `${before}${fraction}` : `${before} ${fraction}`;
}

/** Metres as whole feet. */
export function feetOf(metres: number): number {
  return Math.round(metres / M_IN_FOOT);
}
