import type { Lab } from '../base/types.js';
import { labOfSrgb } from './lab.js';

/**
 * CIELAB (D65) of a colour written `#rgb` or `#rrggbb`: what most pages write, read without the parser of all CSS colours.
 * @returns `undefined` for any other text, a colour or not
 */
export function labOfHex(css: string): Lab | undefined {
  const digits = /^\s*#(?:([0-9a-f]{3})|([0-9a-f]{6}))\s*$/i.exec(css);
  if (!digits) return undefined;
  const [, short, long] = digits;
  const [r, g, b] = short ? [...short].map((digit) => digit + digit) : long.match(/../g)!;
  return labOfSrgb(parseInt(r, 16), parseInt(g, 16), parseInt(b, 16));
}
