import type { Lab } from '../base/types.js';
import { expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import { labOfXyz, luminanceOfLightness, type Xyz } from '../colour/index.js';

/** Bands of a spectrum: 380..730 nm by 10. */
export const BANDS = 36;

// ASTM E2022 weights for illuminant D65 and the 2 degree observer at 10 nm (CIE 15 data at 5 nm or finer, Lagrange interpolation),
// 360..780 nm. As ASTM E308 has it, the weights of bands that were not measured (360, 370; 740..780) are added to those of the end bands.
const X_WEIGHTS =
  '7888 22104 100651 375602 1199914 2396094 3417763 3698684 3227319 2148836 1042435 332729 45462 98024 636705 1666530 2883623 4250441 5625908 6987731 8213575 8729789 9014742 8491545 7050375 5124142 3515839 2167299 1252077 678377 340676 153399 75791 39584 17685 17520';
const Y_WEIGHTS =
  '230 631 2778 10050 35500 98365 226091 417325 664154 997985 1501289 2163698 3352106 5129035 7076321 8707589 9473620 9751853 9419082 8721693 7801705 6441864 5351117 4262541 3145167 2112575 1373223 817523 462982 248271 123805 55462 27365 14294 6386 6327';
const Z_WEIGHTS =
  '37084 104355 476702 1788267 5765440 11697550 17150194 19505710 18520320 14136565 8849834 4855922 2802351 1601905 791306 419705 202300 85586 36552 19254 14353 9822 6732 3181 1398 435 138 17 -3 0 0 0 0 0 0 0';

const millionths = (text: string): number[] => text.split(' ').map((word) => Number(word) / 1e6);
const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

const [rawX, rawY, rawZ] = [X_WEIGHTS, Y_WEIGHTS, Z_WEIGHTS].map(millionths);
const total = sum(rawY);

/** What a reflectance of each band adds to X, Y and Z; the Y of a perfect white is 1. */
export const WEIGHTS: Readonly<Record<'x' | 'y' | 'z', Float64Array>> = {
  x: Float64Array.from(rawX, (w) => w / total),
  y: Float64Array.from(rawY, (w) => w / total),
  z: Float64Array.from(rawZ, (w) => w / total),
};

/** XYZ of the perfect white under {@link WEIGHTS}, so that an even spectrum is exactly neutral. */
export const WEIGHTS_WHITE: Readonly<Xyz> = [sum(rawX) / total, 1, sum(rawZ) / total];

/** A spectrum: a Float64Array of {@link BANDS} finite numbers within `low..high`. */
export function expectSpectrum(name: string, value: unknown, low = 0, high = 1): Float64Array {
  if (!(value instanceof Float64Array)) throw wrongType(name, value, 'a Float64Array');
  if (value.length !== BANDS) throw outOfRange(name, value, `${BANDS} bands, 380..730 nm by 10`);
  for (let i = 0; i < BANDS; i++) expectNumber(`${name}[${i}]`, value[i], low, high);
  return value;
}

/** {@link spectrumToLab} without its checks. */
export function labOfReflectance(reflectance: Float64Array): Lab {
  let [x, y, z] = [0, 0, 0];
  for (let i = 0; i < BANDS; i++) {
    const r = reflectance[i];
    x += WEIGHTS.x[i] * r;
    y += WEIGHTS.y[i] * r;
    z += WEIGHTS.z[i] * r;
  }
  return labOfXyz([x, y, z], WEIGHTS_WHITE);
}

/**
 * CIELAB (D65, 2 degree observer) of a reflectance: ASTM E308 with the E2022 weights at 10 nm, the weights of the bands outside
 * 380..730 nm added to those of the end bands. The white is that of the same weights, so an even spectrum has a* = b* = 0.
 *
 * @param reflectance - 36 numbers 0..1, 380..730 nm by 10.
 * @throws {TypeError | RangeError} when it is no such spectrum.
 */
export function spectrumToLab(reflectance: Float64Array): Lab {
  return labOfReflectance(expectSpectrum('reflectance', reflectance));
}

/** L* of paper when nothing else is known. An assumption: measured white papers lie about there. */
export const PAPER_LIGHTNESS = 95;

/**
 * The reflectance of a bare dry paper of this lightness: the same in all 36 bands, so a neutral of exactly that L*. (Real papers are a
 * little warm, or blue from brighteners; read the paper from a photo of the sheet where that matters.)
 *
 * @param options - `lightness`: L* (0..100), 95 when absent.
 * @throws {TypeError | RangeError} when the lightness is no such number.
 */
export function paperReflectance(options: { lightness?: number } = {}): Float64Array {
  const { lightness = PAPER_LIGHTNESS } = expectObject('options', options);
  expectNumber('options.lightness', lightness, 0, 100);
  return new Float64Array(BANDS).fill(luminanceOfLightness(lightness as number));
}
