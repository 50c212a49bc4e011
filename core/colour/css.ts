import {
  converter,
  modeA98,
  modeHsl,
  modeHwb,
  modeLab,
  modeLch,
  modeLrgb,
  modeOklab,
  modeOklch,
  modeP3,
  modeProphoto,
  modeRec2020,
  modeRgb,
  modeXyz50,
  modeXyz65,
  parse,
  useMode,
} from 'culori/fn';
import type { Lab } from '../base/types.js';
import { outOfRange, wrongType } from '../base/check.js';
import { labOfXyz, WHITE_D65, type Xyz } from './lab.js';

// Every mode CSS can write must be registered: culori's small entry answers `undefined` for a mode
// it does not know.
useMode(modeRgb);
useMode(modeHsl);
useMode(modeHwb);
useMode(modeLab);
useMode(modeLch);
useMode(modeOklab);
useMode(modeOklch);
useMode(modeLrgb);
useMode(modeP3);
useMode(modeA98);
useMode(modeProphoto);
useMode(modeRec2020);
useMode(modeXyz50);
useMode(modeXyz65);
const toXyz = converter('xyz65');

/**
 * What culori reads and CSS does not write: digits without their hash, and colour spaces that no
 * style sheet knows.
 */
const NOT_CSS = /^[0-9a-f]+$|^color\(\s*--/i;

/**
 * XYZ (D65, white Y = 1) of a CSS colour laid over white by its alpha in linear light.
 * @throws {TypeError} not a string · {RangeError} not a CSS colour (nor are `currentcolor` and
 * system colours: they have no value outside a page)
 */
export function xyzOfCss(css: string): Xyz {
  if (typeof css !== 'string') throw wrongType('css', css, 'a CSS colour');
  const text = css.trim();
  const colour = NOT_CSS.test(text) ? undefined : parse(text);
  const xyz = colour && toXyz(colour);
  if (!colour || !xyz)
    throw outOfRange(
      'css',
      css,
      'a CSS colour, as #7a5c3e, rgb(122 92 62), oklch(0.5 0.06 60) or tan',
    );
  const alpha = Math.min(1, Math.max(0, colour.alpha ?? 1));
  const over = (value: number | undefined, white: number): number =>
    alpha * (value ?? 0) + (1 - alpha) * white;
  return [over(xyz.x, WHITE_D65[0]), over(xyz.y, WHITE_D65[1]), over(xyz.z, WHITE_D65[2])];
}

/**
 * CIELAB (D65) of a CSS colour; alpha is laid over white in linear light. CSS `lab()` and `lch()`
 * are D50 and are adapted (Bradford, as CSS Color 4 has it).
 * @throws {TypeError} not a string · {RangeError} not a CSS colour
 */
export function labOf(css: string): Lab {
  return labOfXyz(xyzOfCss(css));
}

/**
 * L* of a CSS colour, 0..100; alpha is laid over white in linear light.
 * @throws {TypeError} not a string · {RangeError} not a CSS colour
 */
export function lightnessOf(css: string): number {
  return Math.min(100, Math.max(0, labOf(css)[0]));
}
