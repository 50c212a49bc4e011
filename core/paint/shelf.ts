import { expectInteger, expectObject, outOfRange, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import { deltaE2000 } from '../colour/index.js';
import { layer, outside } from './layers.js';
import { expectGround, expectLoads, finishedMix, groundOf, layerOf, type Loads } from './mix.js';
import { BANDS, labOfReflectance, WEIGHTS } from './spectra.js';
import { tubeOf } from './tubes.js';
import type { Mix, Part } from './types.js';

/** What {@link shelfRange} may be told. */
export interface ShelfOptions {
  /** Reflectance of the bare paper, 36 bands; that of L* 95 when absent. */
  paper?: Float64Array;
  /** Tubes in the darkest mix at most, 1..3; 3 when absent. */
  maxTubes?: number;
  /** How strong the painter's own tubes are, as in `mixOnPaper`. */
  loads?: Loads;
}

/** What a shelf of tubes reaches on a paper. */
export interface ShelfRange {
  /** The darkest mix found at strength 1. */
  darkest: Mix;
  /** The palest wash that still tells from the bare paper. */
  lightest: Mix;
  /** L* of the two. */
  low: number;
  high: number;
}

/** Colour difference, CIEDE2000, at which a wash tells from bare paper beside it. Our choice, no source. */
export const TELLS_FROM_PAPER = 3;

/** Parts of the mixes that are tried add up to this. */
const PARTS = 12;

/** So many of the darkest pairs are tried with every third tube. */
const PAIRS_KEPT = 12;

/**
 * What the tubes of a shelf reach, dry.
 *
 * `darkest`: of all mixes of one, two or three tubes in twelfths at strength 1, the one of lowest L*: every tube and every pair is tried,
 * then every third tube with the {@link PAIRS_KEPT} darkest pairs. Its L* is what a plan's `range.darkest` may be set to. `lightest`: for
 * each tube the strength at which its wash differs from the bare paper by {@link TELLS_FROM_PAPER} is found by bisection; of these the one
 * of highest L* is given. (A white on white paper, which does not get so far at strength 1, is left out unless there is nothing else.)
 *
 * @param tubes - Ids, at least one; repeats count once.
 * @param options - See {@link ShelfOptions}.
 * @throws {TypeError | RangeError} for no tubes, an unknown tube or a wrong option.
 */
export function shelfRange(tubes: readonly string[], options: ShelfOptions = {}): ShelfRange {
  return finish(shelfRangeKernel(tubes, options));
}

/** {@link shelfRange} in slices. */
export function* shelfRangeKernel(
  tubes: readonly string[],
  options: ShelfOptions = {},
): Kernel<ShelfRange> {
  if (!Array.isArray(tubes)) throw wrongType('tubes', tubes, 'an array of ids');
  if (tubes.length === 0) throw outOfRange('tubes', tubes, 'at least one tube');
  const ids = [...new Set(tubes.map((id, i) => tubeOf(id as string, `tubes[${i}]`).id))];
  const given = expectObject('options', options);
  const { paper } = expectGround({ paper: given.paper });
  const loads = expectLoads('options.loads', given.loads);
  const maxTubes =
    given.maxTubes === undefined ? 3 : expectInteger('options.maxTubes', given.maxTubes, 1, 3);
  const parts = yield* darkestParts(ids, paper, loads, maxTubes);
  const darkest = finishedMix(parts, 1, paper, [], loads);
  const washes: Mix[] = [];
  for (const id of ids) {
    washes.push(palestWash(id, paper, loads));
    yield 0.7 + (0.3 * washes.length) / ids.length;
  }
  const telling = washes.filter(({ strength }) => strength < 1);
  const lightest = (telling.length > 0 ? telling : washes).reduce((best, wash) =>
    wash.lab[0] > best.lab[0] ? wash : best,
  );
  return { darkest, lightest, low: darkest.lab[0], high: lightest.lab[0] };
}

/** A mix that was tried: places of tubes, amounts that add up to {@link PARTS} (the third may be 0). */
interface Tried {
  tubes: readonly [number, number, number];
  amounts: readonly [number, number, number];
  luminance: number;
}

function* darkestParts(
  ids: readonly string[],
  paper: Float64Array,
  loads: Loads,
  maxTubes: number,
): Kernel<Part[]> {
  const ground = groundOf(paper, []);
  const layers = ids.map((tube) => layerOf([{ tube, parts: 1 }], loads));
  const tried = (
    tubes: readonly [number, number, number],
    amounts: readonly [number, number, number],
  ): Tried => {
    const [a, b, c] = tubes.map((tube) => layers[tube]);
    const [p, q, r] = amounts.map((amount) => amount / PARTS);
    const thickness = p * a.fullLoad + q * b.fullLoad + r * c.fullLoad;
    let luminance = 0;
    for (let i = 0; i < BANDS; i++) {
      const K = p * a.K[i] + q * b.K[i] + r * c.K[i];
      const S = p * a.S[i] + q * b.S[i] + r * c.S[i];
      luminance += WEIGHTS.y[i] * outside(layer(K, S, thickness, ground[i]));
    }
    return { tubes, amounts, luminance };
  };
  const darker = (one: Tried, two: Tried): Tried => (two.luminance < one.luminance ? two : one);
  let best = ids.map((_, t) => tried([t, t, t], [PARTS, 0, 0])).reduce(darker);
  const pairs: Tried[] = [];
  for (let a = 0; maxTubes > 1 && a < ids.length; a++)
    for (let b = a + 1; b < ids.length; b++) {
      let pair = tried([a, b, b], [1, PARTS - 1, 0]);
      for (let n = 2; n < PARTS; n++) pair = darker(pair, tried([a, b, b], [n, PARTS - n, 0]));
      pairs.push(pair);
    }
  yield 0.1;
  best = pairs.reduce(darker, best);
  pairs.sort((one, two) => one.luminance - two.luminance);
  for (const [place, { tubes }] of (maxTubes > 2 ? pairs.slice(0, PAIRS_KEPT) : []).entries())
    for (let c = 0; c < ids.length; c++) {
      const [a, b] = tubes;
      if (c === a || c === b) continue;
      for (let n = 1; n < PARTS - 1; n++)
        for (let m = 1; n + m < PARTS; m++)
          best = darker(best, tried([a, b, c], [n, m, PARTS - n - m]));
      yield 0.1 + (0.6 * (place + c / ids.length)) / PAIRS_KEPT;
    }
  const divisor = best.amounts.reduce(commonDivisor);
  return best.tubes
    .map((t, i) => ({ tube: ids[t], parts: best.amounts[i] / divisor }))
    .filter(({ parts }) => parts > 0);
}

const commonDivisor = (a: number, b: number): number => (b === 0 ? a : commonDivisor(b, a % b));

function palestWash(tube: string, paper: Float64Array, loads: Loads): Mix {
  const bare = labOfReflectance(paper);
  const wash = (strength: number): Mix =>
    finishedMix([{ tube, parts: 1 }], strength, paper, [], loads);
  let [low, high] = [0, 1];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (deltaE2000(bare, wash(middle).lab) < TELLS_FROM_PAPER) low = middle;
    else high = middle;
  }
  return wash(high);
}
