import {
  applyHomography,
  deltaE2000,
  dryingFromDabs,
  dryingPairs,
  homographyOf,
  type Corners,
  type Dab,
  type DryingRule,
  type Lab,
  type Spot,
  type Wetness,
} from '../shared/core.js';
import type { Wet } from './dabs-state.js';

/** Dabs of a plan that were read from one sheet. */
export interface EarlierSheet {
  key: string;
  date: string;
  /** Its wetness; `mixed` when its dabs differ. */
  wet: Wet | 'mixed';
  dabs: Dab[];
}

/** The part of an id that all dabs of one sheet share; the date for dabs from elsewhere. */
const sheetOf = ({ id, date }: Dab): string => /^(sheet-[0-9a-z]+)-\d+$/.exec(id)?.[1] ?? date;

/** The sheets that a plan's dabs come from, newest first. */
export function earlierSheets(dabs: readonly Dab[], leaveOut: ReadonlySet<string>): EarlierSheet[] {
  const sheets = new Map<string, Dab[]>();
  for (const dab of dabs) {
    if (leaveOut.has(dab.id)) continue;
    const key = sheetOf(dab);
    sheets.set(key, [...(sheets.get(key) ?? []), dab]);
  }
  return [...sheets]
    .map(([key, own]): EarlierSheet => {
      const states = new Set(own.map(({ wet }): Wet => wet ?? 'dry'));
      const [wet] = states;
      return { key, date: own[0].date, wet: states.size === 1 ? wet : 'mixed', dabs: own };
    })
    .reverse();
}

/** What it costs to leave a dab without a partner, CIEDE2000. Ours. */
const ALONE = 12;

/**
 * For each dab of now the place of the earlier one that is the same: both lists in the order of their sheets, the sum of colour
 * differences least, dabs of either side may stay alone (dynamic programming). Lists of one length are taken one by one.
 */
export function pairedInOrder(
  now: readonly Lab[],
  earlier: readonly Lab[],
): (number | undefined)[] {
  if (now.length === earlier.length) return now.map((_, i) => i);
  const [n, m] = [now.length, earlier.length];
  const far = now.map((lab) => earlier.map((other) => Math.min(deltaE2000(lab, other), 2 * ALONE)));
  const cost = Array.from({ length: n + 1 }, (_, i) =>
    Float64Array.from({ length: m + 1 }, (__, j) => ALONE * (i + j)),
  );
  for (let i = 1; i <= n; i++)
    for (let j = 1; j <= m; j++)
      cost[i][j] = Math.min(
        cost[i - 1][j - 1] + far[i - 1][j - 1],
        cost[i - 1][j] + ALONE,
        cost[i][j - 1] + ALONE,
      );
  const out = new Array<number | undefined>(n).fill(undefined);
  for (let i = n, j = m; i > 0 && j > 0;) {
    if (cost[i][j] === cost[i - 1][j - 1] + far[i - 1][j - 1]) out[--i] = --j;
    else if (cost[i][j] === cost[i - 1][j] + ALONE) i--;
    else j--;
  }
  return out;
}

const UNIT: Corners = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
];

/** A place on the photo as a place on the sheet, fractions of its sides. */
export function onSheet(corners: Corners, spot: Spot): Spot {
  return applyHomography(homographyOf(corners, UNIT), spot);
}

/** Dabs farther apart than this on two photos of one sheet are not the same. Ours. */
const SAME_PLACE = 0.06;

/** For each place of now the earlier one at the same place of the sheet, each once. */
export function pairedByPlace(
  now: readonly Spot[],
  earlier: readonly (Spot | undefined)[],
): (number | undefined)[] {
  const pairs = now.flatMap(([x, y], i) =>
    earlier.flatMap((spot, j) => {
      const far = spot ? Math.hypot(spot[0] - x, spot[1] - y) : Infinity;
      return far <= SAME_PLACE ? [{ i, j, far }] : [];
    }),
  );
  const out = new Array<number | undefined>(now.length).fill(undefined);
  const taken = new Set<number>();
  for (const { i, j } of pairs.sort((a, b) => a.far - b.far)) {
    if (out[i] !== undefined || taken.has(j)) continue;
    out[i] = j;
    taken.add(j);
  }
  return out;
}

/** What pairs of wet and dry readings say at one wetness. */
export interface Drying {
  wetness: Wetness;
  pairs: number;
  /** Mean of dry less wet, L*. */
  by: number;
  /** What predictions go by, once there is enough. */
  rule?: DryingRule;
}

/** What a plan's dabs say about drying. */
export function dryingOf(dabs: readonly Dab[]): Drying[] {
  const pairs = dryingPairs(dabs);
  const { rules } = dryingFromDabs(pairs);
  return (['shining', 'satin', 'damp'] as const).flatMap((wetness) => {
    const own = pairs.filter((pair) => pair.wetness === wetness);
    if (own.length === 0) return [];
    const by = own.reduce((sum, { wet, dry }) => sum + dry - wet, 0) / own.length;
    const rule = rules.find((each) => each.wetness === wetness && each.tube === undefined);
    return [{ wetness, pairs: own.length, by, ...(rule && { rule }) }];
  });
}
