import { expectInteger, expectNumber, outOfRange, wrongType } from '../base/check.js';
import { limitOfThreshold } from '../units/index.js';
import { countOf, expectHistogram, expectThresholds } from './histogram.js';

/** Thresholds that cut the codes into bands of nearly equal width. */
function evenThresholds(bands: number): number[] {
  return Array.from({ length: bands - 1 }, (_, i) => Math.round((256 * (i + 1)) / bands) - 1);
}

/**
 * Adds thresholds until there are `wanted`: each halves the widest band of codes, the darkest of
 * equals.
 */
function fillThresholds(thresholds: number[], wanted: number): number[] {
  const filled = thresholds.slice();
  while (filled.length < wanted) {
    let place = 0;
    let widest = -1;
    for (let i = 0; i <= filled.length; i++) {
      const low = i === 0 ? -1 : filled[i - 1];
      const width = (i === filled.length ? 255 : filled[i]) - low;
      if (width > widest) {
        widest = width;
        place = i;
      }
    }
    const low = place === 0 ? -1 : filled[place - 1];
    filled.splice(place, 0, low + (widest >> 1));
  }
  return filled;
}

/**
 * What the codes from `from` to `to` (places among the distinct codes, both inside) add to the
 * variance between the bands: (sum of codes)^2 / count, kept for every pair, row by row of `to`.
 * Codes are counted from 128, which changes every division by the same amount and keeps the sums
 * small.
 */
function bandWorth(counts: Float64Array, sums: Float64Array, n: number): Float64Array {
  const worth = new Float64Array(n * n);
  for (let to = 0; to < n; to++) {
    const count = counts[to + 1];
    const sum = sums[to + 1];
    const row = to * n;
    for (let from = 0; from <= to; from++) {
      const s = sum - sums[from];
      worth[row + from] = (s * s) / (count - counts[from]);
    }
  }
  return worth;
}

/**
 * One step of the dynamic programme: the best sum over `bands` bands that end at each place, from
 * the best over one band fewer. `from` receives where the last band begins; of equals the darkest.
 */
function addBand(
  before: Float64Array,
  worth: Float64Array,
  n: number,
  bands: number,
  last: boolean,
  best: Float64Array,
  from: Int16Array,
): void {
  best.fill(-1);
  for (let to = last ? n - 1 : bands - 1; to < n; to++) {
    const row = to * n;
    let most = -1;
    let at = 0;
    for (let start = bands - 1; start <= to; start++) {
      const value = before[start - 1] + worth[row + start];
      if (value > most) {
        most = value;
        at = start;
      }
    }
    best[to] = most;
    from[to] = at;
  }
}

/**
 * The limits that leave the least variance inside the bands: exact multi-level Otsu (Otsu 1979,
 * several classes) by dynamic programming over the distinct codes. Of several optima the one with
 * the darkest upper limits; a threshold is the lightest code of the band below it.
 *
 * A histogram with fewer distinct codes than bands has no such optimum: each code but the lightest
 * ends a band, and the missing thresholds halve the widest bands of codes (empty bands); with one
 * code or none the codes are cut evenly.
 * @param histogram 256 counts
 * @param bands 2..9
 * @returns `bands - 1` codes, strictly rising, 0..254; a pixel is above threshold t when its code >
 * t
 */
export function suggestThresholds(histogram: Uint32Array, bands: number): number[] {
  expectHistogram(histogram);
  expectInteger('bands', bands, 2, 9);
  const codes: number[] = [];
  for (let code = 0; code < 256; code++) if (histogram[code] > 0) codes.push(code);
  const n = codes.length;
  if (n < 2) return evenThresholds(bands);
  if (n <= bands) return fillThresholds(codes.slice(0, n - 1), bands - 1);

  const counts = new Float64Array(n + 1);
  const sums = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) {
    counts[i + 1] = counts[i] + histogram[codes[i]];
    sums[i + 1] = sums[i] + histogram[codes[i]] * (codes[i] - 128);
  }
  const worth = bandWorth(counts, sums, n);
  let before: Float64Array = Float64Array.from({ length: n }, (_, to) => worth[to * n]);
  let best: Float64Array = new Float64Array(n);
  const starts: Int16Array[] = [];
  for (let band = 2; band <= bands; band++) {
    const from = new Int16Array(n);
    addBand(before, worth, n, band, band === bands, best, from);
    starts.push(from);
    [before, best] = [best, before];
  }
  const thresholds = new Array<number>(bands - 1);
  let end = n - 1;
  for (let i = bands - 2; i >= 0; i--) {
    const start = starts[i][end];
    thresholds[i] = codes[start - 1];
    end = start - 1;
  }
  return thresholds;
}

/** Shares: 2..9 positive numbers, brought to the sum 1. */
function expectShares(shares: unknown): number[] {
  if (!Array.isArray(shares))
    throw wrongType('shares', shares, 'an array of 2 to 9 positive numbers');
  if (shares.length < 2 || shares.length > 9) throw outOfRange('shares', shares, '2 to 9 shares');
  let sum = 0;
  for (let i = 0; i < shares.length; i++) {
    const share = expectNumber(`shares[${i}]`, shares[i], 0);
    if (share <= 0) throw outOfRange(`shares[${i}]`, share, 'more than 0');
    sum += share;
  }
  if (!Number.isFinite(sum)) throw outOfRange('shares', shares, 'a finite sum');
  return (shares as number[]).map((share) => share / sum);
}

/**
 * The limits whose bands come nearest the asked shares: the sum of |share - asked| is the least
 * possible, found exactly by dynamic programming over all codes. Of several optima the one with the
 * darkest upper limits. An empty histogram gives bands of even width.
 * @param histogram 256 counts
 * @param shares 2..9 positive numbers, darkest band first; only their proportions count
 * @returns `shares.length - 1` codes, strictly rising, 0..254
 */
export function designThresholds(histogram: Uint32Array, shares: number[]): number[] {
  expectHistogram(histogram);
  const asked = expectShares(shares);
  const bands = asked.length;
  const count = countOf(histogram);
  if (count === 0) return evenThresholds(bands);
  const upTo = new Float64Array(256);
  let sum = 0;
  for (let code = 0; code < 256; code++) upTo[code] = sum += histogram[code];

  // cost[t]: the least sum for the bands so far when the last of them ends with code t
  let cost = new Float64Array(256);
  for (let t = 0; t < 256; t++) cost[t] = Math.abs(upTo[t] - asked[0] * count);
  const ends: Int16Array[] = [];
  for (let band = 1; band < bands; band++) {
    const want = asked[band] * count;
    const next = new Float64Array(256).fill(Infinity);
    const end = new Int16Array(256);
    for (let t = band; t < 256; t++) {
      let least = Infinity;
      let at = 0;
      for (let below = band - 1; below < t; below++) {
        const value = cost[below] + Math.abs(upTo[t] - upTo[below] - want);
        if (value < least) {
          least = value;
          at = below;
        }
      }
      next[t] = least;
      end[t] = at;
    }
    cost = next;
    ends.push(end);
  }
  const thresholds = new Array<number>(bands - 1);
  let t = 255;
  for (let i = bands - 2; i >= 0; i--) thresholds[i] = t = ends[i][t];
  return thresholds;
}

/**
 * The share of each band in a histogram.
 * @returns `thresholds.length + 1` fractions, darkest band first, sum 1 (all 0 for an empty
 * histogram)
 */
export function sharesOfHistogram(histogram: Uint32Array, thresholds: number[]): number[] {
  expectHistogram(histogram);
  expectThresholds(thresholds);
  const counts = new Array<number>(thresholds.length + 1).fill(0);
  let band = 0;
  for (let code = 0; code < 256; code++) {
    while (band < thresholds.length && code > thresholds[band]) band++;
    counts[band] += histogram[code];
  }
  const total = countOf(histogram);
  return counts.map((count) => (total > 0 ? count / total : 0));
}

export type ProposalKind = 'optimum' | 'mostly-middles' | 'mostly-darks' | 'mostly-lights';

/** Limits to choose from. */
export interface Proposal {
  kind: ProposalKind;
  /** Codes, strictly rising. */
  thresholds: number[];
  /** The same as lightness L*. */
  limits: number[];
  /** The share each band takes, darkest first. */
  shares: number[];
}

/**
 * Shares of the designs, darkest band first, by number of bands. Few lights, more darks, mostly
 * middles is the usual plan (common practice, no source); the figures are our own choice. Two bands
 * have no middle.
 */
const DESIGNS: Record<number, [ProposalKind, number[]][]> = {
  2: [
    ['mostly-darks', [0.65, 0.35]],
    ['mostly-lights', [0.35, 0.65]],
  ],
  3: [
    ['mostly-middles', [0.3, 0.55, 0.15]],
    ['mostly-darks', [0.55, 0.3, 0.15]],
    ['mostly-lights', [0.15, 0.3, 0.55]],
  ],
  4: [
    ['mostly-middles', [0.22, 0.35, 0.31, 0.12]],
    ['mostly-darks', [0.4, 0.3, 0.18, 0.12]],
    ['mostly-lights', [0.12, 0.18, 0.3, 0.4]],
  ],
  5: [
    ['mostly-middles', [0.15, 0.22, 0.3, 0.23, 0.1]],
    ['mostly-darks', [0.35, 0.27, 0.18, 0.12, 0.08]],
    ['mostly-lights', [0.08, 0.12, 0.18, 0.27, 0.35]],
  ],
};

/**
 * Limits to choose from: the exact optimum ({@link suggestThresholds}) and designs by share ({@link
 * designThresholds}). A design whose thresholds equal those of an earlier proposal is left out; two
 * bands have no 'mostly-middles'.
 * @param bands 2..5
 */
export function proposeLimits(histogram: Uint32Array, bands: number): Proposal[] {
  expectHistogram(histogram);
  expectInteger('bands', bands, 2, 5);
  const found: [ProposalKind, number[]][] = [['optimum', suggestThresholds(histogram, bands)]];
  for (const [kind, shares] of DESIGNS[bands])
    found.push([kind, designThresholds(histogram, shares)]);
  const seen = new Set<string>();
  const proposals: Proposal[] = [];
  for (const [kind, thresholds] of found) {
    const key = thresholds.join();
    if (seen.has(key)) continue;
    seen.add(key);
    proposals.push({
      kind,
      thresholds,
      limits: thresholds.map(limitOfThreshold),
      shares: sharesOfHistogram(histogram, thresholds),
    });
  }
  return proposals;
}
