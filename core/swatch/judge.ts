import { expectInteger, expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import { driedLightness } from '../paint/index.js';
import type { Board, BoardBand, BoardVerdict, SwatchVerdict, SwatchVerdictKind } from './types.js';

/**
 * Every reason code of a board's verdict with the names of its figures. `band` is the name of the swatch's own band; `other` is
 * the id of another swatch and `otherBand` the name of its band; `by` is an L* distance, 0 or more; the rest is L*.
 */
export const SWATCH_CODES = {
  /** In its place; `margin` as in the verdict. */
  'swatch.fits': ['band', 'margin'],
  /** Not darker than `count` swatches of lighter bands, and farther from its own limits than they; `other` is the worst. */
  'swatch.not-darker': ['band', 'lightness', 'other', 'otherBand', 'otherLightness', 'by', 'count'],
  /** Not lighter than `count` swatches of darker bands, and farther from its own limits than they; `other` is the worst. */
  'swatch.not-lighter': [
    'band',
    'lightness',
    'other',
    'otherBand',
    'otherLightness',
    'by',
    'count',
  ],
  /** Some swatch of another band has come past it, but that one is at fault; `other` is the worst. */
  'swatch.passed': ['band', 'lightness', 'other', 'otherBand', 'otherLightness', 'by', 'count'],
  /** Lighter than its band's ceiling, and nothing in the next lighter bucket shows that this is right. */
  'swatch.above-ceiling': ['band', 'lightness', 'ceiling', 'by'],
  /** Darker than its band's floor, and nothing in the next darker bucket shows that this is right. */
  'swatch.below-floor': ['band', 'lightness', 'floor', 'by'],
  /** Lighter than its band's ceiling, but still darker than the next lighter band as it is, which begins at `next`. */
  'swatch.between-lighter': ['band', 'lightness', 'ceiling', 'by', 'otherBand', 'next'],
  /** Darker than its band's floor, but still lighter than the next darker band as it is, which ends at `next`. */
  'swatch.between-darker': ['band', 'lightness', 'floor', 'by', 'otherBand', 'next'],
  /** May or may not be in order with `other`: their ranges overlap. */
  'swatch.unsure-order': ['band', 'low', 'high', 'other', 'otherBand', 'otherLow', 'otherHigh'],
  /** May or may not be past its band's ceiling or floor (`limit`). */
  'swatch.unsure-limit': ['band', 'low', 'high', 'limit'],
  /** Wet: seen at `wet`, it will dry to about `dried`, from `low` to `high`. */
  'swatch.wet': ['wet', 'dried', 'low', 'high'],
  /** An accent that is too light for its band on purpose, by `by`. */
  'swatch.accent-lighter': ['band', 'lightness', 'by'],
  /** An accent that is too dark for its band on purpose, by `by`. */
  'swatch.accent-darker': ['band', 'lightness', 'by'],
  /** An accent whose value would fit its band. */
  'swatch.accent-inside': ['band', 'lightness', 'margin'],
  /** The bucket surely is wider than its band allows; `other` is the swatch at the other end. No fault of the swatch. */
  'swatch.bucket-wide': ['band', 'spread', 'allowed', 'other'],
} as const satisfies Record<string, readonly string[]>;

/** A code of {@link SWATCH_CODES}. */
export type SwatchCode = keyof typeof SWATCH_CODES;

const why = (code: SwatchCode, values: Record<string, string | number>): Reason =>
  reason(code, values);

/** A swatch as it is judged: dry, with its range. */
interface Judged {
  id: string;
  bucket: number;
  band: BoardBand;
  lightness: number;
  low: number;
  high: number;
  accent: boolean;
  wet?: Reason;
}

type Blame = 'no' | 'maybe' | 'yes';

/** A swatch of a darker bucket and one of a lighter bucket, and what their order says. */
interface Crossing {
  darker: Judged;
  lighter: Judged;
  /** The darker bucket's swatch surely is not darker. */
  proved: boolean;
  /** Whose fault it is, if they cross. */
  fault: Record<'darker' | 'lighter', Blame>;
  /** Whose fault it is by best estimates. */
  likely: Record<'darker' | 'lighter', boolean>;
}

const above = (band: BoardBand, lightness: number): number => Math.max(0, lightness - band.ceiling);
const below = (band: BoardBand, lightness: number): number => Math.max(0, band.floor - lightness);

/** Adding up errors of a few last digits must not decide. */
const ROUNDING = 1e-9;

/** A distance without the sign of a zero. */
const plain = (value: number): number => value + 0;

/** Whether `x` above its ceiling is at least as far out as `y` below its floor. */
const blamesDarker = (darker: Judged, x: number, lighter: Judged, y: number): boolean =>
  above(darker.band, x) >= below(lighter.band, y) - ROUNDING;

/** Whether `y` below its floor is at least as far out as `x` above its ceiling. */
const blamesLighter = (darker: Judged, x: number, lighter: Judged, y: number): boolean =>
  below(lighter.band, y) >= above(darker.band, x) - ROUNDING;

const blame = (proved: boolean, sure: boolean, possible: boolean): Blame =>
  proved && sure ? 'yes' : possible ? 'maybe' : 'no';

/**
 * Compares two swatches of different buckets over their whole ranges, which meet. With x in the darker bucket and y in the lighter one
 * they cross when x >= y, and x is at fault when it is at least as far above its ceiling as y is below its floor, y likewise.
 */
function crossingOf(darker: Judged, lighter: Judged): Crossing {
  const proved = darker.low >= lighter.high;
  const crossed = darker.lightness >= lighter.lightness;
  const lowest = Math.max(darker.low, lighter.low);
  const highest = Math.min(lighter.high, darker.high);
  return {
    darker,
    lighter,
    proved,
    fault: {
      darker: blame(
        proved,
        blamesDarker(darker, darker.low, lighter, lighter.low),
        blamesDarker(darker, darker.high, lighter, highest),
      ),
      lighter: blame(
        proved,
        blamesLighter(darker, darker.high, lighter, lighter.high),
        blamesLighter(darker, lowest, lighter, lighter.low),
      ),
    },
    likely: {
      darker: crossed && blamesDarker(darker, darker.lightness, lighter, lighter.lightness),
      lighter: crossed && blamesLighter(darker, darker.lightness, lighter, lighter.lightness),
    },
  };
}

/** After so many swatches judging may be paused. */
const AT_ONCE = 32;

/** Reads the board's arguments; each error names the field. */
function* judgedSwatches(board: Board, paper: number): Kernel<Judged[]> {
  expectObject('board', board);
  const { bands, swatches } = board;
  if (!Array.isArray(bands)) throw wrongType('board.bands', bands, 'a list of bands');
  if (!Array.isArray(swatches)) throw wrongType('board.swatches', swatches, 'a list of swatches');
  bands.forEach((band, i) => {
    const at = `board.bands[${i}]`;
    expectObject(at, band);
    if (typeof band.name !== 'string') throw wrongType(`${at}.name`, band.name, 'a string');
    expectNumber(`${at}.floor`, band.floor, i === 0 ? 0 : bands[i - 1].floor, 100);
    expectNumber(
      `${at}.ceiling`,
      band.ceiling,
      Math.max(band.floor, i === 0 ? 0 : bands[i - 1].ceiling),
      100,
    );
    if (band.spread !== undefined) expectNumber(`${at}.spread`, band.spread, 0, 100);
  });
  const seen = new Set<string>();
  const judged: Judged[] = [];
  for (const [i, swatch] of swatches.entries()) {
    const at = `board.swatches[${i}]`;
    expectObject(at, swatch);
    const { id, bucket, lightness, uncertainty = 0, wet = false, accent = false } = swatch;
    if (typeof id !== 'string') throw wrongType(`${at}.id`, id, 'a string');
    if (id === '' || seen.has(id))
      throw outOfRange(`${at}.id`, id, 'a name that no other swatch has');
    seen.add(id);
    if (bands.length === 0)
      throw outOfRange(`${at}.bucket`, bucket, 'no swatch on a board without bands');
    expectInteger(`${at}.bucket`, bucket, 0, bands.length - 1);
    expectNumber(`${at}.lightness`, lightness, 0, 100);
    expectNumber(`${at}.uncertainty`, uncertainty, 0, 100);
    if (typeof wet !== 'boolean') throw wrongType(`${at}.wet`, wet, 'true or false');
    if (typeof accent !== 'boolean') throw wrongType(`${at}.accent`, accent, 'true or false');
    const seenLow = Math.max(0, lightness - uncertainty);
    const seenHigh = Math.min(100, lightness + uncertainty);
    const same = { id, bucket, band: bands[bucket], accent };
    if (!wet) {
      judged.push({ ...same, lightness, low: seenLow, high: seenHigh });
      continue;
    }
    const dried = driedLightness(lightness, { paper }).lightness;
    const { low } = driedLightness(seenLow, { paper });
    const { high } = driedLightness(seenHigh, { paper });
    const seenAt = why('swatch.wet', { wet: lightness, dried, low, high });
    judged.push({ ...same, lightness: dried, low, high, wet: seenAt });
    if (judged.length % AT_ONCE === 0) yield 0;
  }
  return judged;
}

/** All pairs of swatches of different buckets that cross or may, in the board's order. */
function* crossingsOf(regular: readonly Judged[], buckets: number): Kernel<Crossing[]> {
  // Typed arrays, since of a large board nearly all pairs are looked at and let go.
  const bucket = Int32Array.from(regular, (swatch) => swatch.bucket);
  const low = Float64Array.from(regular, (swatch) => swatch.low);
  // How low the lighter buckets reach: most swatches of a board in order end below that.
  const lowest = new Array<number>(buckets).fill(Infinity);
  regular.forEach((lighter) => {
    for (let i = 0; i < lighter.bucket; i += 1) lowest[i] = Math.min(lowest[i], lighter.low);
  });
  const crossings: Crossing[] = [];
  const addCrossings = (darker: Judged): void => {
    for (let i = 0; i < regular.length; i += 1)
      if (bucket[i] > darker.bucket && darker.high >= low[i])
        crossings.push(crossingOf(darker, regular[i]));
  };
  for (const [i, darker] of regular.entries()) {
    if (darker.high >= lowest[darker.bucket]) addCrossings(darker);
    if (i % AT_ONCE === 0) yield (0.5 * i) / regular.length;
  }
  return crossings;
}

/** The first of so many places that is `past` a point; once one is, all further ones are. Their count when none is. */
function firstWhere(count: number, past: (at: number) => boolean): number {
  let [low, high] = [0, count];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (past(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}

function grouped<Key, Item>(items: readonly Item[], keyOf: (item: Item) => Key): Map<Key, Item[]> {
  const groups = new Map<Key, Item[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group === undefined) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return groups;
}

/** For each bucket the swatches that count: for the buckets darker than it, and for those lighter than it. */
interface Counted {
  forDarker: Judged[][];
  forLighter: Judged[][];
  /** Those that count either way. */
  sound: Judged[][];
}

/** The swatches that count: no accents, and none that surely is at fault. */
function countedSwatches(
  all: readonly Judged[],
  crossings: readonly Crossing[],
  bands: readonly BoardBand[],
): Counted {
  const wrong = new Set<Judged>();
  for (const { darker, lighter, fault } of crossings) {
    if (fault.darker === 'yes') wrong.add(darker);
    if (fault.lighter === 'yes') wrong.add(lighter);
  }
  const inOrder: Judged[][] = bands.map(() => []);
  for (const swatch of all)
    if (!swatch.accent && !wrong.has(swatch)) inOrder[swatch.bucket].push(swatch);
  // Past a limit with nothing beyond to show that it is right: such a swatch cannot show it for the next bucket either.
  const forDarker = [...inOrder];
  for (let i = bands.length - 1; i >= 0; i -= 1) {
    if (i + 1 === bands.length || forDarker[i + 1].length === 0)
      forDarker[i] = inOrder[i].filter(({ low }) => !isPastCeiling(low, bands, i));
  }
  const forLighter = [...inOrder];
  for (let i = 0; i < bands.length; i += 1) {
    if (i === 0 || forLighter[i - 1].length === 0)
      forLighter[i] = inOrder[i].filter(({ high }) => !isPastFloor(high, bands, i));
  }
  const sound = forDarker.map((bucket, i) => {
    const either = new Set(forLighter[i]);
    return bucket.filter((each) => either.has(each));
  });
  return { forDarker, forLighter, sound };
}

/** Where the next lighter band begins if its bucket is empty: at its floor, but not below the own ceiling. */
const upperLimit = (bands: readonly BoardBand[], i: number): number =>
  Math.max(bands[i].ceiling, bands[i + 1]?.floor ?? 0);

/** Where the next darker band ends if its bucket is empty: at its ceiling, but not above the own floor. */
const lowerLimit = (bands: readonly BoardBand[], i: number): number =>
  Math.min(bands[i].floor, bands[i - 1]?.ceiling ?? 100);

/** Above the own ceiling, and not in a space that the limits leave below the next band. */
const isPastCeiling = (lightness: number, bands: readonly BoardBand[], i: number): boolean =>
  lightness > bands[i].ceiling + ROUNDING && lightness >= upperLimit(bands, i) - ROUNDING;

/** Below the own floor, and not in a space that the limits leave above the next band. */
const isPastFloor = (lightness: number, bands: readonly BoardBand[], i: number): boolean =>
  lightness < bands[i].floor - ROUNDING && lightness <= lowerLimit(bands, i) + ROUNDING;

/** What stands on one side of a bucket. */
interface Side {
  /** The next band on that side; none at the end of the board. */
  band?: BoardBand;
  /** Whether its bucket holds a swatch that counts, so that order alone decides. */
  filled: boolean;
  /** The L* at which the next band begins (or ends) when its limits stand for it. */
  limit: number;
  /** The L* at which the next band begins (or ends) as it is. */
  next: number;
  /** L* of the swatches of all buckets on that side that count, the nearest band's end first. */
  ahead: readonly number[];
}

const lightnessesOf = (swatches: readonly Judged[] = []): number[] =>
  swatches.map(({ lightness }) => lightness);

function lighterSide(bucket: number, bands: readonly BoardBand[], counted: Counted): Side {
  const own = lightnessesOf(counted.forDarker[bucket + 1]);
  const filled = own.length > 0;
  const limit = upperLimit(bands, bucket);
  const ahead = lightnessesOf(counted.sound.slice(bucket + 1).flat()).sort((a, b) => a - b);
  const next = filled ? Math.min(...own) : limit;
  return { band: bands[bucket + 1], filled, limit, next, ahead };
}

function darkerSide(bucket: number, bands: readonly BoardBand[], counted: Counted): Side {
  const own = lightnessesOf(counted.forLighter[bucket - 1]);
  const filled = own.length > 0;
  const limit = lowerLimit(bands, bucket);
  const ahead = lightnessesOf(counted.sound.slice(0, bucket).flat()).sort((a, b) => b - a);
  const next = filled ? Math.max(...own) : limit;
  return { band: bands[bucket - 1], filled, limit, next, ahead };
}

/** The L* above which a swatch of this lightness would be at fault. */
function upperBound(lightness: number, { filled, limit, ahead }: Side): number {
  const nearest: number | undefined =
    ahead[firstWhere(ahead.length, (at) => ahead[at] > lightness)];
  if (!filled) return Math.min(limit, nearest ?? limit);
  return nearest ?? Math.max(limit, lightness);
}

/** The L* below which a swatch of this lightness would be at fault. */
function lowerBound(lightness: number, { filled, limit, ahead }: Side): number {
  const nearest: number | undefined =
    ahead[firstWhere(ahead.length, (at) => ahead[at] < lightness)];
  if (!filled) return Math.max(limit, nearest ?? limit);
  return nearest ?? Math.min(limit, lightness);
}

/** Everything the verdict on one swatch rests on. */
interface Surroundings {
  darker: Side;
  lighter: Side;
  /** Its crossings with swatches of lighter buckets. */
  withLighter: readonly Crossing[];
  /** Its crossings with swatches of darker buckets. */
  withDarker: readonly Crossing[];
}

const depthOf = ({ darker, lighter }: Crossing): number => darker.lightness - lighter.lightness;

/** The deepest of some crossings, told from the side of `swatch`. */
function crossingReason(
  code: 'swatch.not-darker' | 'swatch.not-lighter' | 'swatch.passed',
  swatch: Judged,
  crossings: readonly Crossing[],
): Reason {
  const worst = crossings.reduce((most, next) => (depthOf(next) > depthOf(most) ? next : most));
  const other = worst.darker === swatch ? worst.lighter : worst.darker;
  return why(code, {
    band: swatch.band.name,
    lightness: swatch.lightness,
    other: other.id,
    otherBand: other.band.name,
    otherLightness: other.lightness,
    by: plain(Math.max(0, depthOf(worst))),
    count: crossings.length,
  });
}

/** What the limits say of a lightness, order being kept. */
function limitVerdict(
  lightness: number,
  bands: readonly BoardBand[],
  bucket: number,
  { darker, lighter }: Surroundings,
): SwatchVerdictKind {
  const { floor, ceiling } = bands[bucket];
  if (lightness > ceiling + ROUNDING)
    return lighter.filled || !isPastCeiling(lightness, bands, bucket) ? 'between' : 'too-light';
  if (lightness < floor - ROUNDING)
    return darker.filled || !isPastFloor(lightness, bands, bucket) ? 'between' : 'too-dark';
  return 'fits';
}

function limitReason(
  verdict: SwatchVerdictKind,
  swatch: Judged,
  margin: number,
  { darker, lighter }: Surroundings,
): Reason {
  const { band, lightness } = swatch;
  if (verdict === 'fits') return why('swatch.fits', { band: band.name, margin });
  const by = above(band, lightness);
  if (verdict === 'too-light' || (verdict !== 'too-dark' && by > 0)) {
    const over = { band: band.name, lightness, ceiling: band.ceiling, by };
    if (verdict === 'too-light') return why('swatch.above-ceiling', over);
    const { band: other, next } = lighter;
    return why('swatch.between-lighter', { ...over, otherBand: other?.name ?? '', next });
  }
  const under = { band: band.name, lightness, floor: band.floor, by: below(band, lightness) };
  if (verdict === 'too-dark') return why('swatch.below-floor', under);
  const { band: other, next } = darker;
  return why('swatch.between-darker', { ...under, otherBand: other?.name ?? '', next });
}

/** The limit that a swatch's range straddles. */
function straddledLimit({ low, high, band }: Judged, { darker, lighter }: Surroundings): number {
  const limits = [band.ceiling, band.floor, lighter.next, darker.next];
  return (
    limits.find((limit) => low <= limit + ROUNDING && high >= limit - ROUNDING) ?? band.ceiling
  );
}

/** How far the best estimate is from being at fault. */
function marginOf(
  { lightness }: Judged,
  { darker, lighter, withLighter, withDarker }: Surroundings,
): number {
  const depths = [
    ...withLighter.filter(({ likely }) => likely.darker),
    ...withDarker.filter(({ likely }) => likely.lighter),
  ].map(depthOf);
  return plain(
    Math.min(
      upperBound(lightness, lighter) - lightness,
      lightness - lowerBound(lightness, darker),
      ...depths.map((depth) => -depth),
    ),
  );
}

function verdictOf(
  swatch: Judged,
  bands: readonly BoardBand[],
  around: Surroundings,
): Omit<SwatchVerdict, 'id'> {
  const { withLighter, withDarker } = around;
  const margin = marginOf(swatch, around);
  const { band, bucket, low, high } = swatch;
  const tooLight = withLighter.filter(({ fault }) => fault.darker === 'yes');
  const tooDark = withDarker.filter(({ fault }) => fault.lighter === 'yes');
  if (tooLight.length > 0 || tooDark.length > 0) {
    const worst = (crossings: readonly Crossing[]): number => Math.max(...crossings.map(depthOf));
    const reasons: Reason[] = [];
    if (tooLight.length > 0) reasons.push(crossingReason('swatch.not-darker', swatch, tooLight));
    if (tooDark.length > 0) reasons.push(crossingReason('swatch.not-lighter', swatch, tooDark));
    const verdict = worst(tooLight) >= worst(tooDark) ? 'too-light' : 'too-dark';
    return { verdict, margin, reasons: verdict === 'too-light' ? reasons : reasons.reverse() };
  }
  const passing = [...withLighter, ...withDarker].filter(({ proved }) => proved);
  const passed = passing.length > 0 ? [crossingReason('swatch.passed', swatch, passing)] : [];
  const atLow = limitVerdict(low, bands, bucket, around);
  const atHigh = limitVerdict(high, bands, bucket, around);
  if (atLow === atHigh && (atLow === 'too-light' || atLow === 'too-dark')) {
    return {
      verdict: atLow,
      margin,
      reasons: [limitReason(atLow, swatch, margin, around), ...passed],
    };
  }
  const open = [
    ...withLighter.filter(({ fault }) => fault.darker === 'maybe'),
    ...withDarker.filter(({ fault }) => fault.lighter === 'maybe'),
  ];
  if (open.length > 0) {
    const worst = open.reduce((most, next) => (depthOf(next) > depthOf(most) ? next : most));
    const other = worst.darker === swatch ? worst.lighter : worst.darker;
    const told = {
      band: band.name,
      low,
      high,
      other: other.id,
      otherBand: other.band.name,
      otherLow: other.low,
      otherHigh: other.high,
    };
    return { verdict: 'unsure', margin, reasons: [why('swatch.unsure-order', told), ...passed] };
  }
  if (atLow !== atHigh) {
    const told = { band: band.name, low, high, limit: straddledLimit(swatch, around) };
    return { verdict: 'unsure', margin, reasons: [why('swatch.unsure-limit', told), ...passed] };
  }
  return {
    verdict: atLow,
    margin,
    reasons: [limitReason(atLow, swatch, margin, around), ...passed],
  };
}

/** An accent never is at fault; the reason tells how far it sits out. */
function accentVerdict(
  { band, lightness }: Judged,
  around: Surroundings,
): Omit<SwatchVerdict, 'id'> {
  // Ahead of it the nearest band's end comes first: what lies farthest past it.
  const lighterBy = lightness - (around.lighter.ahead[0] ?? Infinity);
  const darkerBy = (around.darker.ahead[0] ?? -Infinity) - lightness;
  const over = Math.max(above(band, lightness), lighterBy);
  const under = Math.max(below(band, lightness), darkerBy);
  const margin = plain(
    Math.min(
      upperBound(lightness, around.lighter) - lightness,
      lightness - lowerBound(lightness, around.darker),
      -Math.max(lighterBy, darkerBy),
    ),
  );
  const told = { band: band.name, lightness };
  const isOver = lighterBy >= 0 || above(band, lightness) > 0;
  const isUnder = darkerBy >= 0 || below(band, lightness) > 0;
  if (isOver && (!isUnder || over >= under))
    return {
      verdict: 'fits',
      margin,
      reasons: [why('swatch.accent-lighter', { ...told, by: over })],
    };
  if (isUnder)
    return {
      verdict: 'fits',
      margin,
      reasons: [why('swatch.accent-darker', { ...told, by: under })],
    };
  return { verdict: 'fits', margin, reasons: [why('swatch.accent-inside', { ...told, margin })] };
}

/** For each swatch at an end of a bucket that is wider than its band allows, why. */
function wideReasons(all: readonly Judged[]): Map<Judged, Reason> {
  const reasons = new Map<Judged, Reason>();
  const regular = all.filter(({ accent }) => !accent);
  for (const [band, swatches] of grouped(regular, (swatch) => swatch.band)) {
    const lightest = swatches.reduce((most, next) => (next.low > most.low ? next : most));
    const darkest = swatches.reduce((most, next) => (next.high < most.high ? next : most));
    const spread = lightest.low - darkest.high;
    if (band.spread === undefined || spread <= band.spread + ROUNDING) continue;
    const told = { band: band.name, spread, allowed: band.spread };
    reasons.set(lightest, why('swatch.bucket-wide', { ...told, other: darkest.id }));
    reasons.set(darkest, why('swatch.bucket-wide', { ...told, other: lightest.id }));
  }
  return reasons;
}

/**
 * Judges every swatch of a board: does it belong to its bucket?
 *
 * **Order first.** Every swatch has to be darker than all swatches of all lighter buckets and lighter than all of all darker ones, as
 * they are: only lightness L* counts, dry against dry. Two swatches of different buckets that do not keep this order cross; equal
 * lightness crosses too. Of the two, the one farther past its band's limit is at fault (the darker bucket's swatch above its
 * `ceiling`, the lighter bucket's below its `floor`); when both are equally far, or both inside, both are. The swatch of the darker
 * bucket then is `too-light`, that of the lighter bucket `too-dark`.
 *
 * **Limits guide.** A swatch that keeps the order and lies in its band's `floor..ceiling` (both included) `fits`. One outside is
 *
 * - `between` when the next band's bucket on that side holds a swatch that counts (order shows it is right: the board simply is
 *   keyed lighter or darker than its limits), or when it lies in a space that the two bands' limits leave between them;
 * - `too-light` or `too-dark` when nothing in the next bucket counts, its limits standing for it, or there is no next band.
 *
 * A swatch that surely is at fault no longer counts for the others.
 * So `too-dark` and `too-light` are faults, `between` and `unsure` are not.
 *
 * **Unsure.** A swatch is known to lie within its lightness plus and minus its `uncertainty` (half the width of the range, not a standard
 * deviation). A wet swatch is taken as what it dries to, with the range of `driedLightness` (widened by its uncertainty). The verdict
 * is `unsure` unless it is the same wherever in their ranges the swatches lie.
 *
 * **Accents** (`accent: true`) always get `fits`, push no other swatch out, and are in no overlap, gap or spread; their reason says how
 * far they sit out. **Spread**: a bucket surely wider than its band's `spread` gives its two end swatches a reason, no fault.
 *
 * Taking a swatch away never makes another worse, unless it was the last that counted in its bucket: then limits decide there.
 * Source: the painter's rule that a band reads as one when it keeps apart from its neighbours (common practice, no source).
 *
 * @param board - Bands from dark to light (`floor`, `ceiling` and their order ascending, 0..100); swatches in any order. Not changed.
 * @param options - `paper`: L* (0..100) of the bare paper that wet swatches dry on, 95 when absent.
 * @returns Verdicts in the order of the swatches, overlaps and gaps; all figures finite. An empty board gives empty lists.
 * @throws {TypeError | RangeError} naming the field: a value of the wrong kind; a number that is not finite or out of range; a bucket
 * that is no band; an empty or repeated id.
 */
export function judgeBoard(board: Board, options: { paper?: number } = {}): BoardVerdict {
  return finish(judgeBoardKernel(board, options));
}

/** {@link judgeBoard} in slices. */
export function* judgeBoardKernel(
  board: Board,
  options: { paper?: number } = {},
): Kernel<BoardVerdict> {
  const { paper = 95 } = expectObject('options', options) as { paper?: number };
  expectNumber('options.paper', paper, 0, 100);
  const all = yield* judgedSwatches(board, paper);
  const { bands } = board;
  const regular = all.filter(({ accent }) => !accent);
  const crossings = yield* crossingsOf(regular, bands.length);
  const withLighter = grouped(crossings, ({ darker }) => darker);
  yield 0.5;
  const withDarker = grouped(crossings, ({ lighter }) => lighter);
  yield 0.5;
  const counted = countedSwatches(all, crossings, bands);
  const wide = wideReasons(all);
  const darkerSides = bands.map((_, bucket) => darkerSide(bucket, bands, counted));
  const lighterSides = bands.map((_, bucket) => lighterSide(bucket, bands, counted));
  yield 0.5;
  const swatches: SwatchVerdict[] = [];
  for (const swatch of all) {
    const around: Surroundings = {
      darker: darkerSides[swatch.bucket],
      lighter: lighterSides[swatch.bucket],
      withLighter: withLighter.get(swatch) ?? [],
      withDarker: withDarker.get(swatch) ?? [],
    };
    const { verdict, margin, reasons } = swatch.accent
      ? accentVerdict(swatch, around)
      : verdictOf(swatch, bands, around);
    const more = [swatch.wet, wide.get(swatch)].filter((item) => item !== undefined);
    swatches.push({ id: swatch.id, verdict, margin, reasons: [...reasons, ...more] });
    if (swatches.length % AT_ONCE === 0) yield 0.5 + (0.5 * swatches.length) / all.length;
  }
  return {
    swatches,
    overlaps: crossings
      .filter(({ proved }) => proved)
      .map(({ darker, lighter }) => [darker.id, lighter.id]),
    gaps: bands.slice(1).map((band, i) => {
      const inBucket = (bucket: number): number[] =>
        regular.filter((swatch) => swatch.bucket === bucket).map(({ lightness }) => lightness);
      const from = inBucket(i);
      const to = inBucket(i + 1);
      const end = from.length > 0 ? Math.max(...from) : bands[i].ceiling;
      const start = to.length > 0 ? Math.min(...to) : band.floor;
      return plain(start - end);
    }),
  };
}
