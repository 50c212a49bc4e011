/**
 * What all the dabs so far tell: mixes that are proven, the painter's habits, how paint dries, and a search. Dabs were read from paper;
 * their colour is on paper of L* 95.
 */
import { expectNumber, expectObject, wrongType } from '../base/check.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lab } from '../base/types.js';
import {
  deltaE2000,
  expectLab,
  labOfLinear,
  lchOf,
  linearOfLab,
  luminanceOfLightness,
} from '../colour/index.js';
import { medianOf } from '../geometry/fit.js';
import { dryingPairs } from '../paint/drying.js';
import type { Recipe } from '../paint/types.js';
import type { SheetSwatch } from './sheet-types.js';
import type { Dab } from './types.js';

/** The paper that dabs are kept on. */
const KEPT_PAPER = 95;

/**
 * A dab to keep, from what was read. Its colour is carried to paper of L* 95: the same share of the paper's light.
 * @param about id, date and whatever else is known; `paperLightness` is the L* that the sheet was read with (95 when absent)
 */
export function dabOf(
  swatch: Pick<SheetSwatch, 'lab' | 'spread' | 'uncertainty'>,
  about: Omit<Dab, 'lab' | 'spread' | 'uncertainty'> & { paperLightness?: number },
): Dab {
  const { paperLightness = KEPT_PAPER, ...rest } = about;
  expectLab('swatch.lab', swatch.lab);
  expectNumber('about.paperLightness', paperLightness, 50, 100);
  const share = luminanceOfLightness(KEPT_PAPER) / luminanceOfLightness(paperLightness);
  const [r, g, b] = linearOfLab(swatch.lab);
  const lab: Lab =
    paperLightness === KEPT_PAPER ? [...swatch.lab] : labOfLinear(share * r, share * g, share * b);
  const { spread, uncertainty } = swatch;
  return { ...rest, lab, spread, uncertainty };
}

/** A recipe that was painted, dried and read. */
export interface ProvenMix {
  recipe: Recipe;
  /** Mean of its dabs. */
  lab: Lab;
  /** CIEDE2000 to the target, or |L*| when only a lightness was asked for. */
  deltaE: number;
  /** How often it was painted. */
  times: number;
  /** The farthest of its dabs from their mean, CIEDE2000: how surely it comes out. */
  scatter: number;
  /** Ids of its dabs, newest first. */
  dabs: string[];
  /** The newest date. */
  last: string;
}

/**
 * Mixes from dried dabs near a target, best first: propose them before predicted ones. Dabs of one recipe (the same parts to a hundredth,
 * strength to a twentieth, the same layers below) are taken together; wet dabs prove nothing yet.
 *
 * @param target `lab` (CIELAB, D65, on paper of L* 95), else `lightness` (L*)
 * @param options.within largest difference to the target (default 5); options.count at most so many (default 8)
 * @throws TypeError, RangeError naming the argument
 */
export function provenMixes(
  dabs: readonly Dab[],
  target: { lab?: Lab; lightness?: number },
  options: { within?: number; count?: number } = {},
): ProvenMix[] {
  expectDabs(dabs);
  expectObject('target', target);
  const { lab, lightness } = target;
  if (lab !== undefined) expectLab('target.lab', lab);
  else expectNumber('target.lightness', lightness, 0, 100);
  const within = expectNumber('options.within', options.within ?? 5, 0, 200);
  const count = expectNumber('options.count', options.count ?? 8, 0);
  const byRecipe = new Map<string, Dab[]>();
  for (const dab of dabs) {
    if (dab.wet !== undefined || dab.recipe === undefined) continue;
    const key = recipeKey(dab.recipe);
    byRecipe.set(key, [...(byRecipe.get(key) ?? []), dab]);
  }
  return [...byRecipe.values()]
    .map((same) =>
      provenOf(same, (mean) => (lab ? deltaE2000(mean, lab) : Math.abs(mean[0] - lightness!))),
    )
    .filter(({ deltaE }) => deltaE <= within)
    .sort((a, b) => a.deltaE - b.deltaE || b.times - a.times)
    .slice(0, count);
}

function provenOf(same: Dab[], distance: (mean: Lab) => number): ProvenMix {
  const newest = same.slice().sort(byDate);
  const lab = [0, 1, 2].map(
    (i) => same.reduce((sum, dab) => sum + dab.lab[i], 0) / same.length,
  ) as Lab;
  return {
    recipe: newest[0].recipe!,
    lab,
    deltaE: distance(lab),
    times: same.length,
    scatter: Math.max(...same.map((dab) => deltaE2000(dab.lab, lab))),
    dabs: newest.map(({ id }) => id),
    last: newest[0].date,
  };
}

/** Newest first. */
const byDate = (a: Dab, b: Dab): number => (a.date < b.date ? 1 : a.date > b.date ? -1 : 0);

/** Recipes that are the same to a painter have the same key. */
function recipeKey({ parts, strength, over = [] }: Recipe): string {
  const layer = (of: Recipe['parts'], strong: number): string => {
    const total = of.reduce((sum, part) => sum + part.parts, 0);
    const shares = of
      .map(({ tube, parts: amount }) => `${tube}:${Math.round((100 * amount) / total)}`)
      .sort();
    return `${shares.join('+')}@${Math.round(20 * strong)}`;
  };
  return [layer(parts, strength), ...over.map((below) => layer(below.parts, below.strength))].join(
    ' over ',
  );
}

/**
 * Codes of habits and their figures: `by` is the median departure of what was painted from what was meant, `count` the dabs that say so.
 *
 * | code | figures | |
 * | --- | --- | --- |
 * | `habit.lighter`, `habit.darker` | `range`, `by`, `count` | The painter's `darks`, `middles` or `lights` end lighter or darker than meant, L* |
 * | `habit.tube-weaker`, `habit.tube-stronger` | `tube`, `by`, `count` | Mixes led by this tube end lighter or darker than meant, L* |
 * | `habit.duller`, `habit.more-colourful` | `by`, `count` | Colours end with less or more chroma than meant |
 * | `habit.dries-lighter`, `habit.dries-darker` | `wet`, `by`, `count` | From this wetness to dry, L* |
 */
export const HABIT_CODES = [
  'habit.lighter',
  'habit.darker',
  'habit.tube-weaker',
  'habit.tube-stronger',
  'habit.duller',
  'habit.more-colourful',
  'habit.dries-lighter',
  'habit.dries-darker',
] as const;
export type HabitCode = (typeof HABIT_CODES)[number];

/** Darks, middles and lights by what was meant; the thirds between a full dark and paper. */
const RANGES = [
  { range: 'darks', from: -Infinity, to: 45 },
  { range: 'middles', from: 45, to: 70 },
  { range: 'lights', from: 70, to: Infinity },
] as const;
/** So many dabs make a habit. */
const HABIT_COUNT = 4;
/** Departures below this are not worth a word, L* or chroma. */
const HABIT_LEAST = 2;

/**
 * The painter's habits: how dried dabs depart from what was meant. A habit is told when at least four dabs show it, its median is at least
 * 2, and at least three quarters of them go the same way.
 *
 * @param predicted what a dab was meant to be (its recipe's prediction, its band's target); undefined when nothing is known of it
 * @returns largest first
 */
export function habitsOf(dabs: readonly Dab[], predicted: (dab: Dab) => Lab | undefined): Reason[] {
  expectDabs(dabs);
  if (typeof predicted !== 'function') throw wrongType('predicted', predicted, 'a function');
  const seen = dabs
    .filter((dab) => dab.wet === undefined)
    .flatMap((dab) => {
      const meant = predicted(dab);
      return meant ? [{ dab, meant, off: dab.lab[0] - meant[0] }] : [];
    });
  const found: { code: HabitCode; size: number; values: Record<string, string | number> }[] = [];
  const tell = (
    departures: number[],
    more: HabitCode,
    less: HabitCode,
    values: Record<string, string | number>,
  ): void => {
    if (departures.length < HABIT_COUNT) return;
    const by = medianOf(departures);
    const alike = departures.filter((off) => off * by > 0).length;
    if (Math.abs(by) < HABIT_LEAST || alike < 0.75 * departures.length) return;
    const size = Math.round(10 * Math.abs(by)) / 10;
    found.push({
      code: by > 0 ? more : less,
      size,
      values: { ...values, by: size, count: departures.length },
    });
  };
  for (const { range, from, to } of RANGES) {
    const own = seen.filter(({ meant }) => meant[0] >= from && meant[0] < to);
    tell(
      own.map(({ off }) => off),
      'habit.lighter',
      'habit.darker',
      { range },
    );
  }
  const leading = new Map<string, number[]>();
  for (const { dab, off } of seen) {
    const tube = leadingTube(dab);
    if (tube !== undefined) leading.set(tube, [...(leading.get(tube) ?? []), off]);
  }
  for (const [tube, departures] of leading)
    tell(departures, 'habit.tube-weaker', 'habit.tube-stronger', { tube });
  const coloured = seen.filter(({ meant }) => lchOf(meant).C >= 10);
  tell(
    coloured.map(({ dab, meant }) => lchOf(dab.lab).C - lchOf(meant).C),
    'habit.more-colourful',
    'habit.duller',
    {},
  );
  const pairs = dryingPairs(dabs);
  for (const wet of ['shining', 'satin', 'damp'] as const) {
    const shifts = pairs
      .filter(({ wetness }) => wetness === wet)
      .map((pair) => pair.dry - pair.wet);
    tell(shifts, 'habit.dries-lighter', 'habit.dries-darker', { wet });
  }
  return found.sort((a, b) => b.size - a.size).map(({ code, values }) => reason(code, values));
}

/** The tube that makes at least half of a dab's mix. */
function leadingTube({ recipe }: Dab): string | undefined {
  if (!recipe) return undefined;
  const total = recipe.parts.reduce((sum, { parts }) => sum + parts, 0);
  return recipe.parts.find(({ parts }) => parts >= total / 2)?.tube;
}

/** What {@link searchDabs} looks for; everything that is given must hold. */
export interface DabSearch {
  /** Words that all stand in the note, the date, a tube's id or its name, in any case. */
  text?: string;
  /** Names of tubes by their ids, for `text`. */
  names?: Readonly<Record<string, string>>;
  /** A tube that must be in the mix. */
  tube?: string;
  /** L* from, to. */
  lightness?: [low: number, high: number];
  /** A colour: nearest first. */
  near?: Lab;
  /** CIEDE2000 to `near` at most. */
  within?: number;
  band?: number;
  /** Only wet or only dry ones. */
  wet?: boolean;
  /** Dates from, to, both included: `2026-01-31`. */
  dates?: [from: string, to: string];
}

/** Dabs that fit, newest first; nearest first when a colour is given. */
export function searchDabs(dabs: readonly Dab[], search: DabSearch = {}): Dab[] {
  expectDabs(dabs);
  expectObject('search', search);
  const { near, within = Infinity, lightness, dates } = search;
  if (near !== undefined) expectLab('search.near', near);
  const words = (search.text ?? '').toLowerCase().split(/\s+/u).filter(Boolean);
  const fits = (dab: Dab): boolean => {
    const tubes = tubesOf(dab);
    const text = [
      dab.note ?? '',
      dab.date,
      ...tubes,
      ...tubes.map((id) => search.names?.[id] ?? ''),
    ]
      .join(' ')
      .toLowerCase();
    return (
      words.every((word) => text.includes(word)) &&
      (search.tube === undefined || tubes.includes(search.tube)) &&
      (!lightness || (dab.lab[0] >= lightness[0] && dab.lab[0] <= lightness[1])) &&
      (!near || deltaE2000(dab.lab, near) <= within) &&
      (search.band === undefined || dab.band === search.band) &&
      (search.wet === undefined || (dab.wet !== undefined) === search.wet) &&
      (!dates || (dab.date >= dates[0] && dab.date <= dates[1]))
    );
  };
  const found = dabs.filter(fits).sort(byDate);
  return near ? found.sort((a, b) => deltaE2000(a.lab, near) - deltaE2000(b.lab, near)) : found;
}

/** Tubes of a dab's mix and of the layers below it. */
function tubesOf({ recipe }: Dab): string[] {
  if (!recipe) return [];
  return [...recipe.parts, ...(recipe.over ?? []).flatMap(({ parts }) => parts)].map(
    ({ tube }) => tube,
  );
}

function expectDabs(dabs: unknown): void {
  if (!Array.isArray(dabs)) throw wrongType('dabs', dabs, 'an array of dabs');
}
