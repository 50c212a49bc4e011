import { expectNumber } from '../base/check.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lab } from '../base/types.js';
import { deltaE2000, lchOf } from '../colour/index.js';
import { CLOSE } from './grade.js';
import { BERNS_SCALE, tubeOf, TUBES } from './tubes.js';
import { inside, outside } from './layers.js';
import {
  expectGround,
  expectLoads,
  expectParts,
  layerOf,
  layOver,
  mixOnPaper,
  type Layer,
  type Loads,
} from './mix.js';
import { labOfReflectance } from './spectra.js';
import type { Mix, Part, Tube } from './types.js';

/** Whether a tube lasts: lightfastness I or II. */
export const isLasting = (tube: Tube): boolean =>
  tube.lightfastness === 'I' || tube.lightfastness === 'II';

/** The washes in which a tube is compared with others, as strengths of the heaviest of each. Ours. */
const COMPARED_AT = { weak: 0.1, middle: 0.3, strong: 1 } as const;
type Wash = keyof typeof COMPARED_AT;
const WASHES = Object.keys(COMPARED_AT) as Wash[];

/** A lasting tube in place of another. */
export interface Lasting {
  tube: string;
  /** How far off it is, CIEDE2000: the mean of its weak, middle and strong washes. */
  deltaE: number;
  /** The same of each wash. */
  washes: Record<Wash, number>;
  /**
   * What differs, one reason: `paint.lasting-same-data` when the two share their data, so that nothing is known of a difference;
   * `paint.lasting-alike` (`deltaE`, of the wash that is furthest off) when no wash is further off than {@link CLOSE}; else of the wash that
   * is furthest off (`wash`: weak, middle or strong; `deltaE`) what makes most of it: `paint.lasting-lighter`, `-darker`, `-purer`, `-duller`
   * or `-hue` (`hue`, degrees: where its own hue lies).
   */
  differs: Reason;
}

/**
 * The lasting tube (lightfastness I or II) whose washes look most like those of `id`: strengths 0.1, 0.3 and 1 on paper of L* 95, the mean
 * of three CIEDE2000.
 *
 * @param id - Id of a tube.
 * @param among - Ids to choose from; all tubes with data of their own when absent. Tubes that do not last are passed over.
 * @returns the tube, how far off it is and what differs, or `undefined` when none of them lasts.
 * @throws {TypeError | RangeError} for an unknown tube.
 */
export function lastingFor(id: string, among?: readonly string[]): Lasting | undefined {
  const own = tubeOf(id, 'id');
  const washesOf = (tube: string): Lab[] =>
    WASHES.map((wash) => mixOnPaper([{ tube, parts: 1 }], { strength: COMPARED_AT[wash] }).lab);
  const wanted = washesOf(id);
  const others = among
    ? among.map((each, i) => tubeOf(each, `among[${i}]`))
    : TUBES.filter(({ standIn }) => standIn === undefined);
  let best: { tube: Tube; labs: Lab[]; off: number[]; deltaE: number } | undefined;
  for (const tube of others) {
    if (tube.id === id || !isLasting(tube)) continue;
    const labs = washesOf(tube.id);
    const off = labs.map((lab, i) => deltaE2000(wanted[i], lab));
    const deltaE = off.reduce((sum, each) => sum + each, 0) / off.length;
    if (!best || deltaE < best.deltaE) best = { tube, labs, off, deltaE };
  }
  if (!best) return undefined;
  const { tube, labs, off, deltaE } = best;
  const most = off.indexOf(Math.max(...off));
  return {
    tube: tube.id,
    deltaE,
    washes: { weak: off[0], middle: off[1], strong: off[2] },
    differs:
      tube.K === own.K
        ? reason('paint.lasting-same-data')
        : off[most] <= CLOSE
          ? reason('paint.lasting-alike', { deltaE: off[most] })
          : differenceOf(wanted[most], labs[most], WASHES[most]),
  };
}

/** What makes most of the difference of two washes. */
function differenceOf(wanted: Lab, lab: Lab, wash: Wash): Reason {
  const [from, to] = [lchOf(wanted), lchOf(lab)];
  const turned = (chroma: number, hue: number): Lab => {
    const angle = (hue * Math.PI) / 180;
    return [wanted[0], chroma * Math.cos(angle), chroma * Math.sin(angle)];
  };
  const causes: [number, string][] = [
    [deltaE2000([lab[0], wanted[1], wanted[2]], wanted), lab[0] > wanted[0] ? 'lighter' : 'darker'],
    [deltaE2000(turned(to.C, from.h), wanted), to.C > from.C ? 'purer' : 'duller'],
    [deltaE2000(turned(from.C, to.h), wanted), 'hue'],
  ];
  const [[, what]] = causes.sort(([p], [q]) => q - p);
  const values = { wash, deltaE: deltaE2000(wanted, lab) };
  return reason(`paint.lasting-${what}`, what === 'hue' ? { ...values, hue: to.h } : values);
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
 * stronger than the data, and those of each dried layer below so for themselves: no bound, what the two published sets differ by in the
 * middle) and `deltaE` (the largest difference of these from the mix as predicted, CIEDE2000). Layers are taken at their worst together,
 * since nothing is known of how their errors go with each other (JCGM 100:2008, 5.2.2; from memory). Then, where they apply: `paint.across-sets` (`low`, `high`: the ratio of strengths of one pigment in the two
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
  const layers = [...over, { parts, strength }].map((each) => ({
    ...layerOf(each.parts, loads),
    strength: each.strength,
  }));
  const { predicted, off } = farthestOff(paper, layers);
  const reasons = [
    reason('paint.acrylic-films', {
      low: off[0][0],
      high: off.at(-1)![0],
      deltaE: Math.max(...off.map((lab) => deltaE2000(predicted, lab))),
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

/** A layer at its strength. */
type Laid = Layer & { strength: number };

/** Reflectance under the surface, and the colour outside. */
interface Ground {
  inner: Float64Array;
  lab: Lab;
}

/** What the paints of one layer may make of it: weaker than the data, as the data have them, stronger. */
const FACTORS = [1 / STRENGTH_APART.median, 1, STRENGTH_APART.median];

/**
 * The colour of layers on paper, lowest first: as predicted, and what may become of it (the darkest first) where the paints of each layer are
 * weaker or stronger. What a layer shows rises with what lies below it (Kubelka and Munk), so of each layer the darkest and the lightest
 * are gone on with: the work grows with the layers, not with all their combinations.
 */
function farthestOff(paper: Float64Array, layers: readonly Laid[]): { predicted: Lab; off: Lab[] } {
  const bare: Ground = { inner: Float64Array.from(paper, inside), lab: labOfReflectance(paper) };
  let predicted = bare;
  let off = [bare];
  for (const layer of layers) {
    predicted = laidOn(predicted, layer, 1);
    const grounds = new Set([off[0], off.at(-1)!]);
    off = [...grounds].flatMap((ground) => FACTORS.map((factor) => laidOn(ground, layer, factor)));
    off.sort((a, b) => a.lab[0] - b.lab[0]);
  }
  return { predicted: predicted.lab, off: off.map(({ lab }) => lab) };
}

function laidOn(ground: Ground, layer: Laid, factor: number): Ground {
  const inner = ground.inner.slice();
  layOver(inner, layer, layer.strength * factor);
  return { inner, lab: labOfReflectance(inner.map(outside)) };
}
