import { expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lab } from '../base/types.js';
import { deltaE2000, expectLab } from '../colour/index.js';
import { expectGround, finishedMix, LEAST_LOAD, MOST_LOAD } from './mix.js';
import { tubeOf } from './tubes.js';

/** A dab of one tube on bare paper, read when dry. */
export interface TintReading {
  /** How strong it was mixed: 1 the heaviest wash, a half when that was let down to half, and so on. Above 0. */
  strength: number;
  /** CIELAB, D65, 2 degree observer. */
  lab: Lab;
}

/** How strong the painter's own tube is. */
export interface TubeFit {
  tube: string;
  /** Factor on the tube's full load, to two digits. */
  load: number;
  /** The range in which it lies with 95 % confidence; the bounds 0.05 and 20 where the readings set none. */
  low: number;
  high: number;
  /** Mean difference of the readings from the prediction, CIEDE2000: with load 1, with this load. */
  before: number;
  after: number;
  /** Codes `paint.fit-...`: see {@link fitTube}. */
  reasons: Reason[];
}

/** Two dabs of one mix differ by about so much, CIEDE2000. Ours, no source. */
const REPEAT = 1;

/** Above this mean difference the painter's tube has another hue than the data. Ours, no source. */
const ANOTHER_HUE = 6;

/** 97.5 % points of Student's distribution for 1..10 degrees of freedom; beyond, 1.96 + 2.7 / degrees is within 0.02. */
const STUDENT = [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228];
const student = (degrees: number): number => STUDENT[degrees - 1] ?? 1.96 + 2.7 / degrees;

const STEPS = 120;
const [FROM, TO] = [Math.log(LEAST_LOAD), Math.log(MOST_LOAD)];

/**
 * How strong the painter's own tube is, from dabs of it alone: one figure, the factor on its full load, since readings of washes warrant
 * no more (hue and opacity stay those of the data).
 *
 * The factor makes the sum of squared CIEDE2000 least. The range is that of all factors whose sum is not above the least by more than
 * t^2 s^2, where s^2 is the mean square of what is left and t Student's 97.5 % point, and at least (2 x 1)^2: two dabs of one mix are not
 * the same either.
 *
 * Reasons: `paint.fit-as-data` (1 lies in the range: leave the tube as it is), `paint.fit-differs` (`load`, `low`, `high`),
 * `paint.fit-one-reading` (one dab says little), `paint.fit-open` (the readings do not bound it on one side, as masstones alone),
 * `paint.fit-another-hue` (`deltaE`: even the best factor leaves that much).
 *
 * @param tube - Id of the tube.
 * @param readings - At least one; masstone and two or three tints are best.
 * @param options - `paper`: reflectance of the bare paper, 36 bands.
 * @throws {TypeError | RangeError} for an unknown tube, no readings, wrong strengths or colours.
 */
export function fitTube(
  tube: string,
  readings: readonly TintReading[],
  options: { paper?: Float64Array } = {},
): TubeFit {
  tubeOf(tube);
  if (!Array.isArray(readings)) throw wrongType('readings', readings, 'an array of readings');
  if (readings.length === 0) throw outOfRange('readings', readings, 'at least one reading');
  readings.forEach((entry: unknown, i) => {
    const { strength, lab } = expectObject(`readings[${i}]`, entry);
    if (!(expectNumber(`readings[${i}].strength`, strength) > 0))
      throw outOfRange(`readings[${i}].strength`, strength, 'a number above 0');
    expectLab(`readings[${i}].lab`, lab);
  });
  const list: readonly TintReading[] = readings;
  const { paper } = expectGround({ paper: expectObject('options', options).paper });
  const differences = (load: number): number[] =>
    list.map(({ strength, lab }) => {
      const predicted = finishedMix([{ tube, parts: 1 }], strength * load, paper, []);
      return deltaE2000(predicted.lab, lab);
    });
  const sumAt = (log: number): number =>
    differences(Math.exp(log)).reduce((sum, d) => sum + d * d, 0);

  const sums = Array.from({ length: STEPS + 1 }, (_, i) => sumAt(FROM + ((TO - FROM) * i) / STEPS));
  const place = sums.indexOf(Math.min(...sums));
  const logOf = (i: number): number =>
    FROM + ((TO - FROM) * Math.min(STEPS, Math.max(0, i))) / STEPS;
  const best = leastBetween(sumAt, logOf(place - 1), logOf(place + 1));
  const least = sumAt(best);
  const degrees = list.length - 1;
  const allowed =
    least +
    Math.max((2 * REPEAT) ** 2, degrees > 0 ? (student(degrees) ** 2 * least) / degrees : 0);
  const bound = (step: -1 | 1): number => {
    let i = place;
    while (i >= 0 && i <= STEPS && (i === place || sums[i] <= allowed)) i += step;
    if (i < 0 || i > STEPS) return step < 0 ? FROM : TO;
    let [within, without] = [i - step === place ? best : logOf(i - step), logOf(i)];
    for (let n = 0; n < 40; n++) {
      const middle = (within + without) / 2;
      if (sumAt(middle) <= allowed) within = middle;
      else without = middle;
    }
    return within;
  };
  const load = Number(Math.exp(best).toPrecision(2));
  const [low, high] = [Math.exp(bound(-1)), Math.exp(bound(1))];
  const mean = (numbers: readonly number[]): number =>
    numbers.reduce((sum, d) => sum + d, 0) / numbers.length;
  const [before, after] = [mean(differences(1)), mean(differences(load))];

  const reasons = [
    low <= 1 && high >= 1
      ? reason('paint.fit-as-data', { load, low, high })
      : reason('paint.fit-differs', { load, low, high }),
  ];
  if (list.length === 1) reasons.push(reason('paint.fit-one-reading'));
  if (low <= LEAST_LOAD * 1.0001 || high >= MOST_LOAD * 0.9999)
    reasons.push(reason('paint.fit-open', { low, high }));
  if (after > ANOTHER_HUE) reasons.push(reason('paint.fit-another-hue', { deltaE: after }));
  return { tube, load, low, high, before, after, reasons };
}

/** Where a function of one least value between `low` and `high` has it, by golden section. */
function leastBetween(f: (x: number) => number, low: number, high: number): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [low, high];
  let [c, d] = [b - ratio * (b - a), a + ratio * (b - a)];
  let [fc, fd] = [f(c), f(d)];
  while (b - a > 1e-6) {
    if (fc < fd) {
      [b, d, fd] = [d, c, fc];
      c = b - ratio * (b - a);
      fc = f(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + ratio * (b - a);
      fd = f(d);
    }
  }
  return (a + b) / 2;
}
