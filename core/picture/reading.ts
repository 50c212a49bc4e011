import { expectNumber, expectObject, outOfRange } from '../base/check.js';
import type { Lab, Pixels } from '../base/types.js';
import { byteOfLinear, LINEAR_OF_SRGB, labOfLinear } from '../colour/index.js';
import { discRuns } from '../geometry/index.js';
import { lightnessOfCode } from '../units/index.js';
import { expectPixels, lightnessOfRun } from './lightness.js';

/** A channel at or above this counts as clipped light: the next step up could not have been recorded. */
export const LIGHT_CLIPPED_FROM = 254;
/** A pixel with all channels at or below this counts as clipped dark. */
export const DARK_CLIPPED_TO = 2;

/** What is seen through a round hole. */
export interface SpotReading {
  /** CIELAB (D65) of the mean linear light in the hole. */
  lab: Lab;
  /** L* of it, 0..100. */
  lightness: number;
  /** Standard deviation of L* over the pixels in the hole (counted in codes, so in steps of 1 / 2.55). */
  spread: number;
  /** L* that at least 5 % of the pixels do not exceed (in steps of 1 / 2.55). */
  low: number;
  /** L* that at least 95 % of the pixels do not exceed. */
  high: number;
  /** The fraction of pixels with any channel at 254 or 255: their true light is at least this, or lost. */
  clippedLight: number;
  /** The fraction of pixels with all channels at 2 or less. */
  clippedDark: number;
  /** Pixels in the hole, at least 1. */
  count: number;
  /** The mean as `#rrggbb`. */
  css: string;
}

/**
 * Reads a picture through a round hole: the pixels whose centres lie in it, and the one under its middle always. Colour
 * is averaged as light (linear), as an eye would at a distance. Alpha is laid over white.
 *
 * @param pixels straight-alpha RGBA, sRGB
 * @param hole middle in pixel coordinates (0..width, 0..height; pixel i spans i..i+1) and radius in pixels, 0 or more
 * @throws TypeError; RangeError when the middle lies outside the picture
 */
export function readingOf(
  pixels: Pixels,
  hole: { x: number; y: number; radius: number },
): SpotReading {
  expectPixels('pixels', pixels);
  expectObject('hole', hole);
  const { width, height, data } = pixels;
  expectNumber('hole.x', hole.x, 0, width);
  expectNumber('hole.y', hole.y, 0, height);
  expectNumber('hole.radius', hole.radius, 0, 1e9);
  const runs = discRuns(hole.x, hole.y, hole.radius, width, height);
  const histogram = new Uint32Array(256);
  const codes = new Uint8Array(width);
  let count = 0;
  let red = 0;
  let green = 0;
  let blue = 0;
  let lights = 0;
  let darks = 0;
  for (let run = 0; run < runs.length; run += 3) {
    const from = runs[run] * width + runs[run + 1];
    const length = runs[run + 2] - runs[run + 1];
    lightnessOfRun(data, from, codes, 0, length);
    for (let i = 0; i < length; i++) histogram[codes[i]]++;
    for (let k = 4 * from; k < 4 * (from + length); k += 4) {
      const alpha = data[k + 3] / 255;
      red += alpha * LINEAR_OF_SRGB[data[k]] + 1 - alpha;
      green += alpha * LINEAR_OF_SRGB[data[k + 1]] + 1 - alpha;
      blue += alpha * LINEAR_OF_SRGB[data[k + 2]] + 1 - alpha;
      const clip = clippedAt(data, k);
      if (clip > 0) lights++;
      if (clip < 0) darks++;
    }
    count += length;
  }
  const mean = [red / count, green / count, blue / count] as const;
  const lab = labOfLinear(...mean);
  return {
    lab,
    lightness: lab[0],
    spread: spreadOf(histogram, count),
    low: lightnessOfCode(percentile(histogram, count, 0.05)),
    high: lightnessOfCode(percentile(histogram, count, 0.95)),
    clippedLight: lights / count,
    clippedDark: darks / count,
    count,
    css: '#' + mean.map((light) => byteOfLinear(light).toString(16).padStart(2, '0')).join(''),
  };
}

/** 1 for a clipped light, -1 for a clipped dark, 0 for neither; pixels that let white through are neither. */
export function clippedAt(data: Uint8Array | Uint8ClampedArray, at: number): number {
  if (data[at + 3] !== 255) return 0;
  const red = data[at];
  const green = data[at + 1];
  const blue = data[at + 2];
  if (red >= LIGHT_CLIPPED_FROM || green >= LIGHT_CLIPPED_FROM || blue >= LIGHT_CLIPPED_FROM)
    return 1;
  return red <= DARK_CLIPPED_TO && green <= DARK_CLIPPED_TO && blue <= DARK_CLIPPED_TO ? -1 : 0;
}

/** The least code that at least `share` of the counted pixels do not exceed. */
export function percentile(histogram: Uint32Array, count: number, share: number): number {
  let seen = 0;
  for (let code = 0; code < 256; code++) {
    seen += histogram[code];
    if (seen > 0 && seen >= share * count) return code;
  }
  throw outOfRange('histogram', histogram, 'at least one count');
}

/** The standard deviation (of the pixels as they are, not of a sample), in L*. */
function spreadOf(histogram: Uint32Array, count: number): number {
  let sum = 0;
  let squares = 0;
  histogram.forEach((n, code) => {
    sum += n * code;
    squares += n * code * code;
  });
  return lightnessOfCode(Math.sqrt(Math.max(0, squares / count - (sum / count) ** 2)));
}
