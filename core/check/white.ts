import { expectNumber, expectObject, wrongType } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import type { Corners, Pixels, Spot } from '../base/types.js';
import { LINEAR_OF_SRGB, LUMINANCE_OF_RGB, luminanceOfLightness } from '../colour/index.js';
import { medianOf, robustFit, weightedLeastSquares } from '../geometry/fit.js';
import {
  applyHomography,
  expectCorners,
  homographyOf,
  type Homography,
} from '../geometry/index.js';
import { FULL, STEPS_OF_SRGB, stepOf } from '../picture/light.js';
import { expectPixels } from '../picture/lightness.js';

/** Where bare paper is seen: about the painting, or at a spot that was picked. */
export type PaperPlace =
  | {
      /** Corners of the painted part, pixels. */
      painting: Corners;
      /** How broad the bare margin about it is, as a share of its sides (default 0.06, at most 0.5). */
      margin?: number;
    }
  | {
      /** Middle of the spot, pixels. */
      spot: Spot;
      /** Pixels, above 0. */
      radius: number;
    };

/** The light on bare paper, over a whole photo. */
export interface PaperWhite {
  /**
   * For red, green, blue: linear light (white 1) as a sum over 1, x, y, x^2, x y, y^2, where x and y go from -1 to 1 over the photo.
   */
  light: [Float64Array, Float64Array, Float64Array];
  /** Robust standard deviation of the paper's light about it, as a share (0 for a spot of one tone). */
  residual: number;
  /** Share of the looked-at places that are taken for bare paper (0..1). */
  share: number;
  warnings: Reason[];
}

/** Places along each side of the margin and across it. */
const ALONG = 48;
const ACROSS = 6;
/** A place darker than this share of the brighter ones is no paper, whatever the light. */
const DARK = 0.6;
/** Below this share of the margin there is not enough paper to go by. */
const LEAST_PAPER = 0.25;
/** A code from here on is taken as clipped. */
const CLIPPED = 254;

/**
 * The light on bare paper. From a margin it is fitted robustly (Tukey's weights: tape, pencil, a shadow are outliers) as a
 * quadratic of place, for each channel in linear light; from a spot it is the median and the same everywhere.
 *
 * Warnings: `check.no-margin` { percent }: too little bare paper is seen about the painting, `check.white-uneven` { percent }: paper differs
 * by that much (one standard deviation) from an even light, `check.shadow` { percent, dark }: so much of the margin lies in a shadow that
 * takes so much of the light (the fit leaves it out, so the painting in it reads too dark), `check.white-clipped` { percent }: that share of the paper is overexposed,
 * `check.white-dark` { percent }: the paper has so little light (of 100) that darks drown in noise.
 *
 * @throws TypeError, RangeError naming the argument
 */
export function paperWhite(pixels: Pixels, place: PaperPlace): PaperWhite {
  expectPixels('pixels', pixels);
  expectObject('place', place);
  if ('spot' in place) return whiteOfSpot(pixels, place.spot, place.radius);
  expectCorners('place.painting', place.painting);
  return whiteOfMargin(
    pixels,
    place.painting,
    expectNumber('place.margin', place.margin ?? 0.06, 0.001, 0.5),
  );
}

/** Mean linear light of a few pixels and how many of them are clipped. */
interface Look {
  x: number;
  y: number;
  rgb: [number, number, number];
  clipped: number;
  /** Which of the rings about the painting it lies in, from the inside; 0 in a spot. */
  ring: number;
}

function lookAt(
  { width, height, data }: Pixels,
  [px, py]: Spot,
  radius: number,
  ring: number,
): Look | undefined {
  const left = Math.floor(px) - radius;
  const top = Math.floor(py) - radius;
  if (left < 0 || top < 0 || left + 2 * radius >= width || top + 2 * radius >= height)
    return undefined;
  const rgb: [number, number, number] = [0, 0, 0];
  let clipped = 0;
  const count = (2 * radius + 1) ** 2;
  for (let y = top; y <= top + 2 * radius; y++)
    for (let x = left; x <= left + 2 * radius; x++) {
      const k = 4 * (y * width + x);
      const alpha = data[k + 3] / 255;
      for (let c = 0; c < 3; c++)
        rgb[c] += (alpha * LINEAR_OF_SRGB[data[k + c]] + 1 - alpha) / count;
      if (Math.max(data[k], data[k + 1], data[k + 2]) >= CLIPPED) clipped += 1 / count;
    }
  return { x: (2 * px) / width - 1, y: (2 * py) / height - 1, rgb, clipped, ring };
}

const luminance = ([r, g, b]: readonly number[]): number =>
  LUMINANCE_OF_RGB[0] * r + LUMINANCE_OF_RGB[1] * g + LUMINANCE_OF_RGB[2] * b;

function whiteOfSpot(pixels: Pixels, spot: Spot, radius: number): PaperWhite {
  if (!Array.isArray(spot)) throw wrongType('place.spot', spot, 'a point [x, y]');
  const cx = expectNumber('place.spot[0]', spot[0], 0, pixels.width);
  const cy = expectNumber('place.spot[1]', spot[1], 0, pixels.height);
  const reach = expectNumber('place.radius', radius, Number.MIN_VALUE, 1e5);
  const looks: Look[] = [];
  for (let y = Math.max(0, Math.floor(cy - reach)); y < Math.min(pixels.height, cy + reach); y++)
    for (let x = Math.max(0, Math.floor(cx - reach)); x < Math.min(pixels.width, cx + reach); x++)
      if (Math.hypot(x + 0.5 - cx, y + 0.5 - cy) <= Math.max(reach, 0.75)) {
        const look = lookAt(pixels, [x + 0.5, y + 0.5], 0, 0);
        if (look) looks.push(look);
      }
  const middle = [0, 1, 2].map((c) => medianOf(looks.map(({ rgb }) => rgb[c])));
  const light = middle.map((value) => Float64Array.of(value, 0, 0, 0, 0, 0)) as PaperWhite['light'];
  const centre = luminance(middle);
  const residual =
    medianOf(looks.map(({ rgb }) => Math.abs(luminance(rgb) - centre))) / 0.6745 / centre;
  return told(light, residual, 1, looks);
}

function whiteOfMargin(pixels: Pixels, painting: Corners, margin: number): PaperWhite {
  const map = homographyOf(
    [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ],
    painting,
  );
  const looks: Look[] = [];
  const sides = [0, 0, 0, 0];
  let places = 0;
  const radius = Math.min(pixels.width, pixels.height) > 300 ? 1 : 0;
  for (let side = 0; side < 4; side++)
    for (let j = 0; j < ACROSS; j++)
      for (let i = 0; i < ALONG; i++) {
        // From a fifth of the margin outward: a brush slips over the border now and then.
        const out = margin * (0.2 + (0.8 * (j + 0.5)) / ACROSS);
        const along = -margin + ((1 + 2 * margin) * (i + 0.5)) / ALONG;
        const spot: Spot =
          side === 0
            ? [along, -out]
            : side === 1
              ? [1 + out, along]
              : side === 2
                ? [along, 1 + out]
                : [-out, along];
        places++;
        const look = lookAt(
          pixels,
          applyHomography(map, spot),
          radius,
          along < 0 || along > 1 ? ACROSS : j,
        );
        if (!look) continue;
        looks.push(look);
        sides[side]++;
      }
  const brightness = looks.map(({ rgb }) => luminance(rgb));
  // No paint is lighter than its paper: where the rim is far darker than the painting's own lights, it is a table or a mat.
  const bright = Math.max(shareOf(brightness, 0.8), shareOf(lightsWithin(pixels, map), 0.9));
  const paper = looks.filter((_, i) => brightness[i] >= DARK * bright && brightness[i] > 0);
  const share = paper.length / places;
  const seen = sides.filter((count) => count > ALONG).length;
  // A quadratic is held by paper on all sides, a plane by three, else the light is taken as even.
  const columns = paper.length < 40 ? 1 : seen === 4 ? 6 : seen === 3 ? 3 : 1;
  if (paper.length === 0) {
    const none: PaperWhite['light'] = [lit(1), lit(1), lit(1)];
    return {
      light: none,
      residual: 0,
      share: 0,
      warnings: [reason('check.no-margin', { percent: 0 })],
    };
  }
  const design = new Float64Array(columns * paper.length);
  paper.forEach(({ x, y }, i) =>
    design.set([1, x, y, x * x, x * y, y * y].slice(0, columns), columns * i),
  );
  const values = Float64Array.from(paper, ({ rgb }) => luminance(rgb));
  const middle = medianOf([...values]);
  const start = new Float64Array(columns);
  start[0] = middle;
  const held = robustFit(design, columns, values, { weight: 'huber', start, leastScale: 1e-4 });
  const fit = robustFit(design, columns, values, {
    weight: 'tukey',
    start: held.coefficients,
    leastScale: 1e-4,
  });
  const channels = [0, 1, 2].map((c) => Float64Array.from(paper, ({ rgb }) => rgb[c]));
  const light = weightedLeastSquares(design, columns, channels, fit.weights).map((found) => {
    const all = new Float64Array(6);
    all.set(found);
    return all;
  }) as PaperWhite['light'];
  const counted = paper.filter((_, i) => fit.weights[i] > 0);
  const white = told(light, fit.scale / middle, share * (counted.length / paper.length), counted);
  // Near the painting only: farther out there may be a table or a board.
  const near = looks.filter(({ ring }) => ring < 2);
  const shaded = near.map((look) => shadeAt(look, light)).filter((shade) => shade > 0);
  if (shaded.length > SHADED * near.length)
    white.warnings.push(
      reason('check.shadow', {
        percent: Math.round((100 * shaded.length) / near.length),
        dark: Math.round(100 * medianOf(shaded)),
      }),
    );
  return white;
}

/** Luminance at a grid of places in the painting. */
function lightsWithin(pixels: Pixels, map: Homography): number[] {
  return Array.from({ length: WITHIN ** 2 }, (_, i): number => {
    const spot: Spot = [((i % WITHIN) + 0.5) / WITHIN, (Math.floor(i / WITHIN) + 0.5) / WITHIN];
    const look = lookAt(pixels, applyHomography(map, spot), 0, 0);
    return look ? luminance(look.rgb) : 0;
  });
}

/** Places along each side of that grid. */
const WITHIN = 24;

/** The value that this share of the values does not pass; 0 of none. */
const shareOf = (values: number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.floor(share * (values.length - 1))] ?? 0;

/** Of the margin more than this share must lie in it to be told as a shadow. */
const SHADED = 0.06;

/** The share of light that a place lacks as in a shadow: all channels alike (tape and table have colours of their own); else 0. */
function shadeAt({ x, y, rgb }: Look, light: PaperWhite['light']): number {
  const shares = rgb.map((value, c) => {
    const [one, ofX, ofY, ofXX, ofXY, ofYY] = light[c];
    return (
      value / Math.max(1e-3, one + ofX * x + ofY * y + ofXX * x * x + ofXY * x * y + ofYY * y * y)
    );
  });
  const mean = (shares[0] + shares[1] + shares[2]) / 3;
  const even = shares.every((value) => Math.abs(value / mean - 1) < 0.08);
  return even && mean > 0.25 && mean < 0.94 ? 1 - mean : 0;
}

const lit = (value: number): Float64Array => Float64Array.of(value, 0, 0, 0, 0, 0);

function told(
  light: PaperWhite['light'],
  residual: number,
  share: number,
  looks: Look[],
): PaperWhite {
  const warnings: Reason[] = [];
  const percent = (value: number): number => Math.round(100 * value);
  if (share < LEAST_PAPER) warnings.push(reason('check.no-margin', { percent: percent(share) }));
  if (residual > 0.04) warnings.push(reason('check.white-uneven', { percent: percent(residual) }));
  const clipped = looks.reduce((sum, look) => sum + look.clipped, 0) / Math.max(1, looks.length);
  if (clipped > 0.05) warnings.push(reason('check.white-clipped', { percent: percent(clipped) }));
  const centre = luminance(light.map(([constant]) => constant));
  if (centre < 0.15) warnings.push(reason('check.white-dark', { percent: percent(centre) }));
  return { light, residual, share, warnings };
}

/**
 * The photo as if its paper were evenly lit by a neutral light: each pixel's linear light over that of bare paper there,
 * times the luminance of the paper.
 *
 * @param paperLightness L* of the bare paper (default 95), 1..100
 * @returns opaque sRGB
 * @throws TypeError, RangeError naming the argument
 */
export function whiteBalanced(pixels: Pixels, white: PaperWhite, paperLightness = 95): Pixels {
  return finish(whiteBalancedKernel(pixels, white, paperLightness));
}

/** Pixels of a row that are taken to lie in the same light. */
const RUN = 8;

/** {@link whiteBalanced} in slices. */
export function* whiteBalancedKernel(
  pixels: Pixels,
  white: PaperWhite,
  paperLightness = 95,
): Kernel<Pixels> {
  expectPixels('pixels', pixels);
  const { light } = expectObject('white', white) as unknown as PaperWhite;
  const paper = luminanceOfLightness(expectNumber('paperLightness', paperLightness, 1, 100)) * FULL;
  const { width, height, data } = pixels;
  const out = new Uint8ClampedArray(data.length);
  yield* byRows(height, 2 * width, (from, to) => {
    for (let row = from; row < to; row++) {
      const y = (2 * (row + 0.5)) / height - 1;
      for (let c = 0; c < 3; c++) {
        const [one, ofX, ofY, ofXX, ofXY, ofYY] = light[c];
        const a = one + ofY * y + ofYY * y * y;
        const b = ofX + ofXY * y;
        // The light changes too little within a few pixels to show.
        for (let first = 0; first < width; first += RUN) {
          const end = Math.min(width, first + RUN);
          const x = (first + end) / width - 1;
          const gain = paper / Math.max(1e-3, a + x * (b + x * ofXX));
          for (let column = first, k = 4 * (row * width + first); column < end; column++, k += 4) {
            const alpha = data[k + 3];
            let linear = LINEAR_OF_SRGB[data[k + c]];
            if (alpha !== 255) linear = (alpha / 255) * linear + 1 - alpha / 255;
            const lit = linear * gain + 0.5;
            out[k + c] = stepOf(STEPS_OF_SRGB, lit >= FULL ? FULL : lit | 0);
            out[k + 3] = 255;
          }
        }
      }
    }
  });
  return { width, height, data: out, colorSpace: 'srgb' };
}
