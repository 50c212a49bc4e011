import { expectInteger, expectNumber, outOfRange, wrongType } from '../base/check.js';
import { byteOfLinear, luminanceOfLightness } from '../colour/index.js';
import { limitOfThreshold } from '../units/index.js';
import { expectThresholds } from './histogram.js';

/** 8-bit sRGB components. */
export type Rgb = [r: number, g: number, b: number];

/** How a band is shown: a lightness L* (a neutral grey of it) or a colour. */
export type Tone = number | Rgb;

export interface BandPaletteOptions {
  /**
   * Shows this band alone and lays the rest aside. `tones.length` is the bare paper's, where a
   * `paperThreshold` is given.
   */
  only?: number;
  /** A code 0..254 above which the paper is bare. */
  paperThreshold?: number;
  /** The colour of the bare paper; white by default. */
  paper?: Rgb;
}

/**
 * What a band laid aside fades to, and how far: a pale neutral that still lets the picture be
 * found.
 */
const ASIDE = 244;
const FADE = 0.86;

/** An opaque RGBA word as a little-endian machine stores it: red in the lowest byte. */
function wordOf(r: number, g: number, b: number): number {
  return (0xff000000 | (b << 16) | (g << 8) | r) >>> 0;
}

/** The 8-bit neutral sRGB grey whose L* is nearest. */
function greyOf(lightness: number): number {
  return byteOfLinear(luminanceOfLightness(lightness));
}

function expectRgb(name: string, value: unknown): Rgb {
  if (!Array.isArray(value) || value.length !== 3)
    throw wrongType(name, value, 'a lightness or [r, g, b]');
  for (let i = 0; i < 3; i++) expectInteger(`${name}[${i}]`, value[i], 0, 255);
  return value as Rgb;
}

function rgbOf(name: string, tone: unknown): Rgb {
  if (typeof tone !== 'number') return expectRgb(name, tone);
  const grey = greyOf(expectNumber(name, tone, 0, 100));
  return [grey, grey, grey];
}

/** The word of a band laid aside: nearly paper, a trace of the tone left. */
function asideWord(rgb: Rgb): number {
  const fade = (v: number): number => Math.round(ASIDE * FADE + v * (1 - FADE));
  return wordOf(fade(rgb[0]), fade(rgb[1]), fade(rgb[2]));
}

/**
 * The greys of the codes, for {@link recolour}.
 * @returns 256 opaque RGBA words (red in the lowest byte): the neutral sRGB grey of L* = code /
 * 2.55
 */
export function greyPalette(): Uint32Array {
  return Uint32Array.from({ length: 256 }, (_, code) => {
    const grey = greyOf((20 * code) / 51);
    return wordOf(grey, grey, grey);
  });
}

/**
 * The colours of the codes when each band is one tone, for {@link recolour}.
 * @param thresholds 1..254 codes, strictly rising
 * @param tones one a band, darkest first: L* 0..100 or [r, g, b]
 * @returns 256 opaque RGBA words (red in the lowest byte)
 * @throws {RangeError} tones that are not one more than the thresholds, an `only` that is no band
 */
export function bandPalette(
  thresholds: number[],
  tones: readonly Tone[],
  options: BandPaletteOptions = {},
): Uint32Array {
  expectThresholds(thresholds);
  if (!Array.isArray(tones)) throw wrongType('tones', tones, 'an array of tones');
  if (tones.length !== thresholds.length + 1)
    throw outOfRange('tones', tones, `${thresholds.length + 1} tones, one a band`);
  const colours = tones.map((tone, band) => rgbOf(`tones[${band}]`, tone));
  const { only, paperThreshold, paper } = options;
  const bare =
    paperThreshold === undefined ? 255 : expectInteger('paperThreshold', paperThreshold, 0, 254);
  colours.push(paper === undefined ? [255, 255, 255] : expectRgb('paper', paper));
  if (only !== undefined)
    expectInteger('only', only, 0, bare < 255 ? tones.length : tones.length - 1);

  const palette = new Uint32Array(256);
  let band = 0;
  for (let code = 0; code < 256; code++) {
    while (band < thresholds.length && code > thresholds[band]) band++;
    const shown = code > bare ? tones.length : band;
    const rgb = colours[shown];
    palette[code] = only === undefined || only === shown ? wordOf(...rgb) : asideWord(rgb);
  }
  return palette;
}

/**
 * The lightness each band is shown at when nothing else is set: the middle of its interval.
 * @param thresholds 1..254 codes, strictly rising
 * @returns `thresholds.length + 1` L*, darkest first
 */
export function defaultTones(thresholds: number[]): number[] {
  const limits = [0, ...expectThresholds(thresholds).map(limitOfThreshold), 100];
  return limits.slice(1).map((limit, band) => (limits[band] + limit) / 2);
}

/**
 * Colours a plane of codes by a palette: `out[i] = palette[plane[i]]`. Unguarded but for the
 * lengths, since it runs at every move of a limit.
 * @param plane codes
 * @param palette 256 words
 * @param out as long as the plane; the words of an ImageData of its size
 */
export function recolour(
  plane: Uint8Array | Uint8ClampedArray,
  palette: Uint32Array,
  out: Uint32Array,
): void {
  if (palette.length !== 256) throw outOfRange('palette', palette, '256 words');
  if (out.length !== plane.length)
    throw outOfRange('out', out, `${plane.length} words, one a pixel`);
  for (let i = 0; i < out.length; i++) out[i] = palette[plane[i]];
}
