import { munsellValue, type Reason } from '../shared/core.js';
import { tubeName } from '../shared/paint-words.js';
import type { Say } from '../shared/usual-bands.js';

/** A difference of L* in steps of value: Munsell value is a tenth of L* within a few percent. */
export const stepsOf = (difference: number): number => Math.abs(difference) / 10;

export const valueOf = (lightness: number): number =>
  munsellValue(Math.min(100, Math.max(0, lightness)));

/** A finding of the check in words: differences as steps of value, tubes by their names, widths as lengths. */
export function checkSentence(
  { code, values }: Reason,
  say: Say,
  lengthOfPx: (px: number) => string,
): string {
  const told: Record<string, string | number> = { ...values };
  if (typeof told.tube === 'string') told.tube = tubeName(told.tube, say);
  if (typeof told.staining === 'string') told.staining = say(`staining.${told.staining}`);
  for (const name of ['shift', 'short'])
    if (typeof told[name] === 'number') told[name] = stepsOf(told[name]);
  if (typeof told.to === 'number') told.to = valueOf(told.to);
  if (typeof told.width === 'number') told.width = lengthOfPx(told.width);
  return say(code, told);
}

/** Landis & Koch 1977, "The measurement of observer agreement for categorical data": their words for kappa. */
export function kappaWord(kappa: number): string {
  if (kappa < 0) return 'poor';
  if (kappa <= 0.2) return 'slight';
  if (kappa <= 0.4) return 'fair';
  if (kappa <= 0.6) return 'moderate';
  return kappa <= 0.8 ? 'substantial' : 'perfect';
}
