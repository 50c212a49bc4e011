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
  type Color,
  type Xyz65,
} from 'culori/fn';
import type { Lab } from '../base/types.js';
import { outOfRange, wrongType } from '../base/check.js';
import { labOfXyz, WHITE_D65, xyzOfLab, type Xyz } from './lab.js';

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
const toCssLab = converter('lab');

/**
 * What culori reads and CSS does not write: digits without their hash, and colour spaces that no
 * style sheet knows.
 */
const NOT_CSS = /^[0-9a-f]+$|^color\(\s*--/i;

/** @throws {TypeError} not a string · {RangeError} not a CSS colour */
function readCss(css: string): { colour: Color; xyz: Xyz65 } {
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
  return { colour, xyz };
}

const alphaOf = ({ alpha = 1 }: Color): number => Math.min(1, Math.max(0, alpha));

/**
 * XYZ (D65, white Y = 1) of a CSS colour laid over white by its alpha in linear light.
 * @throws {TypeError} not a string · {RangeError} not a CSS colour (nor are `currentcolor` and
 * system colours: they have no value outside a page)
 */
export function xyzOfCss(css: string): Xyz {
  const { colour, xyz } = readCss(css);
  const alpha = alphaOf(colour);
  const over = (value: number | undefined, white: number): number =>
    alpha * (value ?? 0) + (1 - alpha) * white;
  return [over(xyz.x, WHITE_D65[0]), over(xyz.y, WHITE_D65[1]), over(xyz.z, WHITE_D65[2])];
}

/**
 * How far a CSS colour covers what is under it, 0..1.
 * @throws {TypeError} not a string · {RangeError} not a CSS colour
 */
export function alphaOfCss(css: string): number {
  return alphaOf(readCss(css).colour);
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

/**
 * The figures that CSS `lab()` writes for a colour: CIELAB of the D50 white, adapted by Bradford as CSS Color 4 has it.
 * @param lab CIELAB, D65
 */
export function cssLabOf(lab: Readonly<Lab>): Lab {
  const [x, y, z] = xyzOfLab(lab);
  const { l, a, b } = toCssLab({ mode: 'xyz65', x, y, z });
  return [l, a, b];
}
