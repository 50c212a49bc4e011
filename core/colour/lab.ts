import type { Lab } from '../base/types.js';
import { expectInteger, expectNumber, wrongType } from '../base/check.js';
import { byteOfLinear, LINEAR_OF_SRGB } from './srgb.js';

/** XYZ, the white's Y being 1. */
export type Xyz = [X: number, Y: number, Z: number];

/**
 * Hue and chroma of CIELAB: `h` in degrees, 0..360, measured from +a* toward +b* (0 for a neutral).
 */
export interface Lch {
  L: number;
  C: number;
  h: number;
}

/** XYZ of the D65 white of sRGB (x 0.3127, y 0.3290; IEC 61966-2-1), Y = 1. */
export const WHITE_D65: Readonly<Xyz> = [0.3127 / 0.329, 1, (1 - 0.3127 - 0.329) / 0.329];

/**
 * CIE constants as exact fractions: the cube root gives way to a straight line below Y = 216/24389.
 */
const EPSILON = 216 / 24389;
const KAPPA = 24389 / 27;

/** Linear sRGB to XYZ (D65), from the primaries of IEC 61966-2-1. */
const XYZ_OF_RGB = [
  [0.4123907992659594, 0.35758433938387796, 0.1804807884018343],
  [0.2126390058715103, 0.7151686787677559, 0.07219231536073371],
  [0.019330818715591825, 0.11919477979462596, 0.9505321522496607],
] as const;

/** Its inverse. */
const RGB_OF_XYZ = [
  [3.2409699419045213, -1.5373831775700932, -0.4986107602930032],
  [-0.9692436362808794, 1.8759675015077202, 0.04155505740717556],
  [0.055630079696993594, -0.20397695888897646, 1.0569715142428784],
] as const;

/** Three finite numbers, as an array. */
export function expectLab(name: string, value: unknown): Lab {
  if (!Array.isArray(value) || value.length !== 3)
    throw wrongType(name, value, 'a Lab: [L*, a*, b*]');
  for (let i = 0; i < 3; i++) expectNumber(`${name}[${i}]`, value[i]);
  return value as Lab;
}

/**
 * CIE L* of a relative luminance (CIE 15, constants 216/24389 and 24389/27).
 * @param luminance Y with white = 1, at least 0
 * @returns L*: 0 at Y = 0, 100 at Y = 1
 */
export function lightnessOfLuminance(luminance: number): number {
  expectNumber('luminance', luminance, 0);
  return luminance > EPSILON ? 116 * Math.cbrt(luminance) - 16 : KAPPA * luminance;
}

/**
 * The relative luminance Y (white = 1) of a CIE L*: the inverse of {@link lightnessOfLuminance}.
 * @param lightness L*, at least 0
 */
export function luminanceOfLightness(lightness: number): number {
  expectNumber('lightness', lightness, 0);
  if (lightness <= 8) return lightness / KAPPA;
  const root = (lightness + 16) / 116;
  return root * root * root;
}

function labRoot(t: number): number {
  return t > EPSILON ? Math.cbrt(t) : (KAPPA * t + 16) / 116;
}

function labCube(f: number): number {
  const cube = f * f * f;
  return cube > EPSILON ? cube : (116 * f - 16) / KAPPA;
}

/**
 * CIELAB of XYZ (CIE 15).
 * @param xyz relative XYZ, white Y = 1
 * @param white XYZ of the white; D65 by default
 */
export function labOfXyz(xyz: Readonly<Xyz>, white: Readonly<Xyz> = WHITE_D65): Lab {
  const fx = labRoot(xyz[0] / white[0]);
  const fy = labRoot(xyz[1] / white[1]);
  const fz = labRoot(xyz[2] / white[2]);
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

/** XYZ (white Y = 1) of CIELAB: the inverse of {@link labOfXyz}. */
export function xyzOfLab(lab: Readonly<Lab>, white: Readonly<Xyz> = WHITE_D65): Xyz {
  const fy = (lab[0] + 16) / 116;
  return [
    white[0] * labCube(fy + lab[1] / 500),
    white[1] * labCube(fy),
    white[2] * labCube(fy - lab[2] / 200),
  ];
}

/** Lab (D65) of linear sRGB components (0..1; values outside are colours outside sRGB). */
export function labOfLinear(r: number, g: number, b: number): Lab {
  const m = XYZ_OF_RGB;
  return labOfXyz([
    m[0][0] * r + m[0][1] * g + m[0][2] * b,
    m[1][0] * r + m[1][1] * g + m[1][2] * b,
    m[2][0] * r + m[2][1] * g + m[2][2] * b,
  ]);
}

/** Linear sRGB of a Lab (D65); components outside 0..1 are colours outside sRGB. */
export function linearOfLab(lab: Readonly<Lab>): [r: number, g: number, b: number] {
  const [x, y, z] = xyzOfLab(lab);
  const m = RGB_OF_XYZ;
  return [
    m[0][0] * x + m[0][1] * y + m[0][2] * z,
    m[1][0] * x + m[1][1] * y + m[1][2] * z,
    m[2][0] * x + m[2][1] * y + m[2][2] * z,
  ];
}

/**
 * Lab (D65) of 8-bit sRGB components.
 * @param r whole number 0..255
 * @param g whole number 0..255
 * @param b whole number 0..255
 */
export function labOfSrgb(r: number, g: number, b: number): Lab {
  expectInteger('r', r, 0, 255);
  expectInteger('g', g, 0, 255);
  expectInteger('b', b, 0, 255);
  return labOfLinear(LINEAR_OF_SRGB[r], LINEAR_OF_SRGB[g], LINEAR_OF_SRGB[b]);
}

/** Lightness, chroma and hue of a Lab. A chroma below 1e-9 counts as neutral and has hue 0. */
export function lchOf(lab: Readonly<Lab>): Lch {
  const [L, a, b] = expectLab('lab', lab);
  const C = Math.hypot(a, b);
  if (C < 1e-9) return { L, C: 0, h: 0 };
  const h = (Math.atan2(b, a) * 180) / Math.PI;
  return { L, C, h: h < 0 ? h + 360 : h };
}

/**
 * Half a step of 8 bits at the dark end, in linear light: nearer to the gamut's face than this is
 * on it.
 */
const GAMUT_SLACK = 1 / (2 * 255 * 12.92);

function insideSrgb(rgb: readonly number[]): boolean {
  return rgb.every((v) => v >= -GAMUT_SLACK && v <= 1 + GAMUT_SLACK);
}

/** `#rrggbb` of linear sRGB; components outside 0..1 are cut. */
function hexOfLinear(rgb: readonly number[]): string {
  return '#' + rgb.map((v) => byteOfLinear(v).toString(16).padStart(2, '0')).join('');
}

/**
 * A Lab as a CSS colour of sRGB. A colour that sRGB cannot show keeps its lightness and hue and
 * loses chroma until it fits (a value tool must not move the value); `outOfGamut` says that this
 * happened. L* is kept within 0..100.
 * @returns css: `#rrggbb`
 */
export function cssOfLab(lab: Readonly<Lab>): { css: string; outOfGamut: boolean } {
  const [L, a, b] = expectLab('lab', lab);
  const lightness = Math.min(100, Math.max(0, L));
  const whole = linearOfLab([lightness, a, b]);
  if (insideSrgb(whole) && lightness === L) return { css: hexOfLinear(whole), outOfGamut: false };
  let low = 0;
  let high = 1;
  for (let i = 0; i < 24; i++) {
    const kept = (low + high) / 2;
    if (insideSrgb(linearOfLab([lightness, a * kept, b * kept]))) low = kept;
    else high = kept;
  }
  return { css: hexOfLinear(linearOfLab([lightness, a * low, b * low])), outOfGamut: true };
}
