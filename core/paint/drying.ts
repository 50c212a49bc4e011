import { expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import type { Lab } from '../base/types.js';
import { lightnessOfLuminance, luminanceOfLightness } from '../colour/index.js';
import type { Recipe } from './types.js';

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

/** How wet a swatch is: it shines all over, it has lost its shine but not its wetness, it only feels cool. */
export type Wetness = 'shining' | 'satin' | 'damp';

/** The shift by wetness as a share of {@link DRYING_SHIFT}, which was measured on satin. The other two are ours, no source. */
const SHARE_BY_WETNESS = { shining: 1.5, satin: 1, damp: 0.5 } as const;

/** One swatch read wet and dry. */
export interface DryingPair {
  /** What swatch it is: pairs of one swatch bear the same. */
  swatch: string;
  /** L* (0..100) wet and dry. */
  wet: number;
  dry: number;
  /** How wet it was; satin when absent. */
  wetness?: Wetness;
  /** Id of the tube it is mostly made of. */
  tube?: string;
  /** L* (0..100) of the bare dry paper, 95 when absent. */
  paper?: number;
}

/** What the painter's own swatches say about drying at one wetness, for all paints or for one. */
export interface DryingRule {
  wetness: Wetness;
  tube?: string;
  /** The shift as a multiple of that of the published mean for satin. */
  scale: number;
  /** Half the width of the range, L*. */
  within: number;
  /** How many pairs it comes from. */
  pairs: number;
}

/** The painter's own drying: rules, the narrowest first. Empty as long as no swatch was read wet and dry twice. */
export interface OwnDrying {
  rules: DryingRule[];
}

/** What {@link driedLightness} and {@link wetLightness} may be told. */
export interface DryingOptions {
  /** L* (0..100) of the bare dry paper, 95 when absent. */
  paper?: number;
  /** How wet it is, satin when absent. */
  wetness?: Wetness;
  /** Id of the tube it is mostly made of: finds the painter's own rule for it. */
  tube?: string;
  /** The painter's own drying, from {@link dryingFromDabs}. */
  own?: OwnDrying;
}

/** A scale above this would have a wash near the paper dry to the paper. Ours: half of that. */
const MOST_SCALE = 0.5 / SHARE_NEAR_PAPER;

/** Two readings of one dab differ by about so much, L*. Ours. */
const READING = 1;

interface Drying {
  paper: number;
  scale: number;
  /** Half the range of the painter's own; absent for the published mean. */
  within?: number;
}

/** A wetness; satin when absent. */
export function expectWetness(name: string, value: unknown): Wetness {
  if (value === undefined) return 'satin';
  if (typeof value !== 'string' || !Object.hasOwn(SHARE_BY_WETNESS, value))
    throw outOfRange(name, value, "'shining', 'satin' or 'damp'");
  return value as Wetness;
}

function dryingOf(options: unknown): Drying {
  const { paper, wetness, tube, own } = expectObject('options', options);
  const at = expectWetness('options.wetness', wetness);
  const white = paper === undefined ? 95 : expectNumber('options.paper', paper, 0, 100);
  if (own !== undefined) {
    const { rules } = expectObject('options.own', own) as unknown as OwnDrying;
    const rule = rules.find(
      (each) => each.wetness === at && (each.tube === undefined || each.tube === tube),
    );
    if (rule) return { paper: white, scale: rule.scale, within: rule.within };
  }
  return { paper: white, scale: SHARE_BY_WETNESS[at] };
}

const shiftAt = (wet: number, paper: number, scale: number): number =>
  scale * Math.min(DRYING_SHIFT, SHARE_NEAR_PAPER * (paper - wet));

const driedAt = (wet: number, { paper, scale }: Drying): number =>
  wet >= paper ? wet : Math.min(paper, wet + shiftAt(wet, paper, scale));

function wetAt(dry: number, { paper, scale }: Drying): number {
  if (dry >= paper) return dry;
  const share = scale * SHARE_NEAR_PAPER;
  const nearPaper = (dry - share * paper) / (1 - share);
  return Math.min(dry, Math.max(0, dry - scale * DRYING_SHIFT, nearPaper));
}

/**
 * The lightness to which wet watercolour dries.
 *
 * The estimate for satin is {@link DRYING_SHIFT} lighter; within ten times that shift of the paper it is a tenth of what is left to the
 * paper, so that bare paper stays as it is. Shining it is half as much again, damp half as much (ours, no source). It never is darker
 * than the wet lightness, never lighter than the paper (a wet lightness already above the paper stays), and rises with the wet lightness.
 *
 * The range is wide, since single paints and very wet washes shift far more than the mean of masstones: `low` is the wet lightness itself,
 * `high` what it would be had a film of water alone darkened it (Lekner & Dorf 1988: an upper bound), at most the paper.
 *
 * The painter's own drying replaces estimate and range where it has a rule for this wetness and tube.
 *
 * @param wet - L* (0..100) of the wet paint, glare left out.
 * @param options - paper, wetness, tube, own drying: see {@link DryingOptions}.
 * @throws {TypeError | RangeError} when an argument is no such number.
 */
export function driedLightness(wet: number, options: DryingOptions = {}): LightnessRange {
  expectNumber('wet', wet, 0, 100);
  const drying = dryingOf(options);
  const { paper, within } = drying;
  if (wet >= paper) return { lightness: wet, low: wet, high: wet };
  const lightness = driedAt(wet, drying);
  if (within !== undefined) {
    const [low, high] = [Math.max(wet, lightness - within), Math.min(paper, lightness + within)];
    return { lightness, low, high };
  }
  return { lightness, low: wet, high: Math.min(paper, Math.max(lightness, withoutFilm(wet))) };
}

/**
 * The lightness at which watercolour has to look wet to dry to a wanted lightness: the inverse of {@link driedLightness}.
 *
 * The range holds every wet lightness whose dried range reaches `dry`. Below the lightness to which L* 0 dries, the estimate is 0.
 *
 * @param dry - L* (0..100) wanted when dry.
 * @param options - paper, wetness, tube, own drying: see {@link DryingOptions}.
 * @throws {TypeError | RangeError} when an argument is no such number.
 */
export function wetLightness(dry: number, options: DryingOptions = {}): LightnessRange {
  expectNumber('dry', dry, 0, 100);
  const drying = dryingOf(options);
  const { paper, within } = drying;
  if (dry >= paper) return { lightness: dry, low: dry, high: dry };
  const lightness = wetAt(dry, drying);
  if (within !== undefined) {
    const low = wetAt(Math.max(0, dry - within), drying);
    return { lightness, low, high: Math.min(dry, wetAt(Math.min(paper, dry + within), drying)) };
  }
  return { lightness, low: Math.min(lightness, underFilm(dry)), high: dry };
}

/**
 * The painter's own drying, from swatches that were read wet and dry.
 *
 * A rule is made for the pairs of each wetness, and for those of each wetness and tube, as soon as one swatch among them was read wet and
 * dry twice; nothing is said about another wetness. Its scale is fitted by least squares to the shape of the published mean ({@link driedLightness}), 0..5; its range is twice
 * the standard deviation of what is left, or of a reading (1 L*, ours) where that is more, widened for the number n of pairs by
 * sqrt(1 + 1/n).
 *
 * @param pairs - What was read. None is fine: no rules.
 * @throws {TypeError | RangeError} for a pair that is none.
 */
export function dryingFromDabs(pairs: readonly DryingPair[]): OwnDrying {
  if (!Array.isArray(pairs)) throw wrongType('pairs', pairs, 'an array of pairs');
  const read = pairs.map((pair: DryingPair, i) => {
    expectObject(`pairs[${i}]`, pair);
    if (typeof pair.swatch !== 'string')
      throw wrongType(`pairs[${i}].swatch`, pair.swatch, 'a text');
    expectNumber(`pairs[${i}].wet`, pair.wet, 0, 100);
    expectNumber(`pairs[${i}].dry`, pair.dry, 0, 100);
    const wetness = expectWetness(`pairs[${i}].wetness`, pair.wetness);
    const paper =
      pair.paper === undefined ? 95 : expectNumber(`pairs[${i}].paper`, pair.paper, 0, 100);
    return { ...pair, wetness, paper };
  });
  const wetnesses = [...new Set(read.map(({ wetness }) => wetness))];
  const tubes = [...new Set(read.map(({ tube }) => tube).filter((tube) => tube !== undefined))];
  const kinds: Pick<DryingRule, 'wetness' | 'tube'>[] = [
    ...tubes.flatMap((tube) => wetnesses.map((wetness) => ({ wetness, tube }))),
    ...wetnesses.map((wetness) => ({ wetness })),
  ];
  const rules = kinds.flatMap((kind) => {
    const group = read.filter(
      ({ wetness, tube }) =>
        wetness === kind.wetness && (kind.tube === undefined || tube === kind.tube),
    );
    return isReadTwice(group) ? [{ ...kind, ...fitOf(group) }] : [];
  });
  return { rules };
}

function isReadTwice(pairs: readonly DryingPair[]): boolean {
  const swatches = pairs.map(({ swatch }) => swatch);
  return new Set(swatches).size < swatches.length;
}

function fitOf(
  pairs: readonly (DryingPair & { paper: number })[],
): Pick<DryingRule, 'scale' | 'within' | 'pairs'> {
  let [along, square] = [0, 0];
  for (const { wet, dry, paper } of pairs) {
    const unit = Math.max(0, shiftAt(wet, paper, 1));
    along += unit * (dry - wet);
    square += unit * unit;
  }
  const scale = square > 0 ? Math.min(MOST_SCALE, Math.max(0, along / square)) : 1;
  const left = pairs.reduce(
    (sum, { wet, dry, paper }) => sum + (dry - driedAt(wet, { paper, scale })) ** 2,
    0,
  );
  const deviation = Math.sqrt(left / (pairs.length - 1));
  const within = 2 * Math.max(READING, deviation) * Math.sqrt(1 + 1 / pairs.length);
  return { scale, within, pairs: pairs.length };
}

/** A dab as a plan keeps it, as far as drying goes. */
export interface DabRead {
  id: string;
  lab: Lab;
  wet?: Wetness;
  /** The id of the same dab read in another state. */
  same?: string;
  recipe?: Recipe;
}

/**
 * The pairs for {@link dryingFromDabs} among a plan's dabs: dabs tied by `same` are one swatch, and its wet readings of a wetness are
 * paired with its dry ones in the order they stand. A recipe names the tube it has most of.
 */
export function dryingPairs(dabs: readonly DabRead[]): DryingPair[] {
  if (!Array.isArray(dabs)) throw wrongType('dabs', dabs, 'an array of dabs');
  const list: readonly DabRead[] = dabs;
  const swatchOf = new Map(list.map(({ id }) => [id, id]));
  const rootOf = (id: string): string => {
    let root = id;
    for (let next = swatchOf.get(root)!; next !== root; next = swatchOf.get(root)!) root = next;
    return root;
  };
  for (const { id, same } of list)
    if (same !== undefined && swatchOf.has(same)) swatchOf.set(rootOf(id), rootOf(same));
  const swatches = new Map<string, DabRead[]>();
  for (const dab of list) {
    const root = rootOf(dab.id);
    swatches.set(root, [...(swatches.get(root) ?? []), dab]);
  }
  const pairs: DryingPair[] = [];
  for (const [swatch, read] of swatches) {
    const dry = read.filter(({ wet }) => wet === undefined);
    const recipe = read.find((dab) => dab.recipe !== undefined)?.recipe;
    const tube = recipe?.parts.reduce((most, part) => (part.parts > most.parts ? part : most)).tube;
    for (const wetness of Object.keys(SHARE_BY_WETNESS) as Wetness[])
      read
        .filter(({ wet }) => wet === wetness)
        .slice(0, dry.length)
        .forEach(({ lab }, i) =>
          pairs.push({
            swatch,
            wet: Math.min(100, Math.max(0, lab[0])),
            dry: Math.min(100, Math.max(0, dry[i].lab[0])),
            wetness,
            ...(tube === undefined ? {} : { tube }),
          }),
        );
  }
  return pairs;
}
