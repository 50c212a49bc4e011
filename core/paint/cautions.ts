import { expectNumber } from '../base/check.js';
import { reason, type Reason } from '../base/reason.js';
import { deltaE2000 } from '../colour/index.js';
import { BERNS_SCALE, tubeOf, TUBES } from './tubes.js';
import { expectGround, expectLoads, expectParts, finishedMix, type Loads } from './mix.js';
import type { Mix, Part, Tube } from './types.js';

/** Whether a tube lasts: lightfastness I or II. */
export const isLasting = (tube: Tube): boolean =>
  tube.lightfastness === 'I' || tube.lightfastness === 'II';

/** The wash in which a tube is compared with others. */
const COMPARED_AT = 0.3;

/**
 * The lasting tube (lightfastness I or II) whose middle wash looks most like that of `id`: strength 0.3 on paper of L* 95, CIEDE2000.
 *
 * @param id - Id of a tube.
 * @param among - Ids to choose from; all tubes with data of their own when absent. Tubes that do not last are passed over.
 * @returns the tube and how far off it is, or `undefined` when none of them lasts.
 * @throws {TypeError | RangeError} for an unknown tube.
 */
export function lastingFor(
  id: string,
  among?: readonly string[],
): { tube: string; deltaE: number } | undefined {
  const wash = (tube: string): Mix => {
    const parts = expectParts('parts', [{ tube, parts: 1 }]);
    return finishedMix(parts, COMPARED_AT, expectGround({}).paper, []);
  };
  const { lab } = wash(tubeOf(id, 'id').id);
  const others = among
    ? among.map((each, i) => tubeOf(each, `among[${i}]`))
    : TUBES.filter(({ standIn }) => standIn === undefined);
  let best: { tube: string; deltaE: number } | undefined;
  for (const other of others) {
    if (other.id === id || !isLasting(other)) continue;
    const deltaE = deltaE2000(lab, wash(other.id).lab);
    if (!best || deltaE < best.deltaE) best = { tube: other.id, deltaE };
  }
  return best;
}

/** The cautions of the tubes of a mix, each with the tube's id, without repeats. For tubes that do not last see {@link lastingFor}. */
export function cautionsOf(parts: readonly Part[]): Reason[] {
  const ids = [...new Set(expectParts('parts', parts).map(({ tube }) => tube))];
  return ids.flatMap((id) =>
    tubeOf(id).cautions.map(({ code, values }) => reason(code, { ...values, paint: id })),
  );
}

/**
 * By how much two published sets of the same eleven pigments differ in strength, Okumura 2005 over Berns 2016: least, median, most.
 */
export const STRENGTH_APART = { low: 0.791, median: BERNS_SCALE, high: 2.244 } as const;

/**
 * How far off the prediction of a mix may be, for the elements to show beside it.
 *
 * Always: `paint.acrylic-films` with `low` and `high` (L* of the mix were its paints {@link STRENGTH_APART}.median times weaker or
 * stronger than the data: no bound, what the two published sets differ by in the middle) and `deltaE` (the larger of the two
 * differences, CIEDE2000). Then, where they apply: `paint.across-sets` (`low`, `high`: the ratio of strengths of one pigment in the two
 * sets), `paint.stand-in` (`paint`, `tube`), `paint.granulates` (`paint`), `paint.re-wets` (`layers`: how many dried layers below),
 * `paint.opaque` (`paint`: an opaque paint, whose thin wash depends most on how it is laid).
 *
 * @param parts - As in `mixOnPaper`.
 * @param options - As in `mixOnPaper`.
 * @throws {TypeError | RangeError} as `mixOnPaper`.
 */
export function predictionReasons(
  parts: Part[],
  options: { strength?: number; paper?: Float64Array; over?: Mix[]; loads?: Loads } = {},
): Reason[] {
  expectParts('parts', parts);
  const strength =
    options.strength === undefined ? 1 : expectNumber('options.strength', options.strength, 0);
  const { paper, over } = expectGround(options);
  const loads = expectLoads('options.loads', options.loads);
  const at = (factor: number): Mix => finishedMix(parts, strength * factor, paper, over, loads);
  const [weak, middle, strong] = [1 / STRENGTH_APART.median, 1, STRENGTH_APART.median].map(at);
  const lightness = [weak.lab[0], middle.lab[0], strong.lab[0]];
  const reasons = [
    reason('paint.acrylic-films', {
      low: Math.min(...lightness),
      high: Math.max(...lightness),
      deltaE: Math.max(deltaE2000(middle.lab, weak.lab), deltaE2000(middle.lab, strong.lab)),
    }),
  ];
  const tubes = [...new Set(parts.map(({ tube }) => tube))].map((id) => tubeOf(id));
  if (new Set(tubes.map(({ source }) => source)).size > 1)
    reasons.push(
      reason('paint.across-sets', { low: STRENGTH_APART.low, high: STRENGTH_APART.high }),
    );
  for (const tube of tubes) {
    if (tube.standIn !== undefined)
      reasons.push(reason('paint.stand-in', { paint: tube.id, tube: tube.standIn }));
    if (tube.granulation === 'strong') reasons.push(reason('paint.granulates', { paint: tube.id }));
    if (tube.transparency === 'opaque') reasons.push(reason('paint.opaque', { paint: tube.id }));
  }
  if (over.length > 0) reasons.push(reason('paint.re-wets', { layers: over.length }));
  return reasons;
}
