import { colorsNamed } from 'culori/fn';
import type { Lab } from '../base/types.js';
import { labOfHex } from './hex.js';

/** CIELAB (D65) of a colour that CSS knows by its name, as `tan`; `undefined` for any other text. */
export function labOfName(css: string): Lab | undefined {
  const name = css.trim().toLowerCase();
  if (!Object.hasOwn(colorsNamed, name)) return undefined;
  const number = colorsNamed[name as keyof typeof colorsNamed];
  return labOfHex(`#${number.toString(16).padStart(6, '0')}`);
}
