import { expectNumber, expectObject } from '../base/check.js';
import { lightnessOfLuminance, luminanceOfLightness } from '../colour/index.js';

/** A lightness L* with the range in which it may well lie. */
export interface LightnessRange {
  /** The best estimate, L*. */
  lightness: number;
  /** The darkest it may be, L*. */
  low: number;
  /** The lightest it may be, L*. */
  high: number;
}

/**
 * Mean shift from satin wet to dry, L*: 75 watercolour paints and mixtures, masstone on paper, spectrophotometer, wet against one hour
 * dry, mean of two samples (a published drying-shift table, read in stored copies at two addresses).
 */
export const DRYING_SHIFT = 2.3;

/**
 * Near the paper the shift is this share of what is left to the paper, so that bare paper does not move. Ours: the table above has no
 * pale washes. (That a wash dries 10 to 30 percent lighter than it looked wet is common practice, no source.)
 */
const SHARE_NEAR_PAPER = 0.1;

// A water film over an unchanged matte surface (Lekner & Dorf 1988, Applied Optics 27, 1278; formulas from memory, n = 1.333):
// light that enters past the outer surface (reflectance R_l at normal incidence) is thrown back at the inner one with probability p.
const OUTER_REFLECTANCE = 0.020373187841971414;
const INNER_REFLECTANCE = 0.47459057081397804;

const wetAlbedo = (dry: number): number =>
  ((1 - OUTER_REFLECTANCE) * (1 - INNER_REFLECTANCE) * dry) / (1 - INNER_REFLECTANCE * dry);

const dryAlbedo = (wet: number): number =>
  wet / ((1 - OUTER_REFLECTANCE) * (1 - INNER_REFLECTANCE) + INNER_REFLECTANCE * wet);

/** L* of a surface once the water film on it is gone, if the film were all that darkened it. */
const withoutFilm = (wet: number): number =>
  lightnessOfLuminance(dryAlbedo(luminanceOfLightness(wet)));

/** L* of a surface under a water film, without the glare of the film. */
const underFilm = (dry: number): number =>
  lightnessOfLuminance(wetAlbedo(luminanceOfLightness(dry)));

function paperOf(options: unknown): number {
  const { paper } = expectObject('options', options);
  return paper === undefined ? 95 : expectNumber('options.paper', paper, 0, 100);
}

/**
 * The lightness to which wet watercolour dries.
 *
 * The estimate is {@link DRYING_SHIFT} lighter; within ten times that shift of the paper it is a tenth of what is left to the paper, so
 * that bare paper stays as it is. It never is darker than the wet lightness, never lighter than the paper (a wet lightness already
 * above the paper stays), and rises with the wet lightness.
 *
 * The range is wide, since single paints and very wet washes shift far more than the mean of masstones: `low` is the wet lightness itself,
 * `high` what it would be had a film of water alone darkened it (Lekner & Dorf 1988: an upper bound), at most the paper.
 *
 * @param wet - L* (0..100) of the wet paint, glare left out.
 * @param options - `paper`: L* (0..100) of the bare dry paper, 95 when absent.
 * @throws {TypeError | RangeError} when an argument is no such number.
 */
export function driedLightness(wet: number, options: { paper?: number } = {}): LightnessRange {
  expectNumber('wet', wet, 0, 100);
  const paper = paperOf(options);
  if (wet >= paper) return { lightness: wet, low: wet, high: wet };
  const lightness = Math.min(paper, wet + Math.min(DRYING_SHIFT, SHARE_NEAR_PAPER * (paper - wet)));
  return { lightness, low: wet, high: Math.min(paper, Math.max(lightness, withoutFilm(wet))) };
}

/**
 * The lightness at which watercolour has to look wet to dry to a wanted lightness: the inverse of {@link driedLightness}.
 *
 * The range holds every wet lightness whose dried range reaches `dry`. Below the lightness to which L* 0 dries, the estimate is 0.
 *
 * @param dry - L* (0..100) wanted when dry.
 * @param options - `paper`: L* (0..100) of the bare dry paper, 95 when absent.
 * @throws {TypeError | RangeError} when an argument is no such number.
 */
export function wetLightness(dry: number, options: { paper?: number } = {}): LightnessRange {
  expectNumber('dry', dry, 0, 100);
  const paper = paperOf(options);
  if (dry >= paper) return { lightness: dry, low: dry, high: dry };
  const nearPaper = (dry - SHARE_NEAR_PAPER * paper) / (1 - SHARE_NEAR_PAPER);
  const lightness = Math.max(0, dry - DRYING_SHIFT, nearPaper);
  return { lightness, low: Math.min(lightness, underFilm(dry)), high: dry };
}
