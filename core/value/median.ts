import { byRows, type Kernel } from '../base/kernel.js';

/** Codes of one coarse bin; there are as many coarse bins. */
const BINS = 16;

/** Two counts lie in each 32-bit word, so that one addition adds two: words of the coarse and of one bin's fine counts. */
const WORDS = BINS / 2;

/** What a count holds at most. */
const MOST = 65535;

/** Both counts of a word. */
const both = (word: number): number => (word & MOST) + (word >>> 16);

/** Adds the words of one coarse bin to others; written out, since this is the inner loop. */
function add(to: Int32Array, at: number, from: Int32Array, k: number): void {
  to[at] += from[k];
  to[at + 1] += from[k + 1];
  to[at + 2] += from[k + 2];
  to[at + 3] += from[k + 3];
  to[at + 4] += from[k + 4];
  to[at + 5] += from[k + 5];
  to[at + 6] += from[k + 6];
  to[at + 7] += from[k + 7];
}

/** Words that enter and words that leave at once. */
function move(to: Int32Array, at: number, from: Int32Array, enter: number, leave: number): void {
  to[at] += from[enter] - from[leave];
  to[at + 1] += from[enter + 1] - from[leave + 1];
  to[at + 2] += from[enter + 2] - from[leave + 2];
  to[at + 3] += from[enter + 3] - from[leave + 3];
  to[at + 4] += from[enter + 4] - from[leave + 4];
  to[at + 5] += from[enter + 5] - from[leave + 5];
  to[at + 6] += from[enter + 6] - from[leave + 6];
  to[at + 7] += from[enter + 7] - from[leave + 7];
}

/**
 * Histograms of the columns of a window that goes down the picture, and of the window itself that
 * goes along a row, each in two tiers: counts of 16 coarse bins and of the 256 codes. Empty columns
 * on both sides stand for what is outside the picture.
 */
class Histograms {
  /** Columns with the empty ones. */
  readonly #all: number;
  readonly #columnCoarse: Int32Array;
  /** Coarse bin by coarse bin, so that those of neighbouring columns lie side by side. */
  readonly #columnFine: Int32Array;
  readonly #coarseCounts: Uint16Array;
  readonly #fineCounts: Uint16Array;
  readonly #fine = new Int32Array(WORDS * BINS);
  /** The column about which the window's fine counts of each coarse bin are right; below 0 for none. */
  readonly #about = new Int32Array(BINS);
  #rows = 0;

  constructor(
    readonly bytes: Uint8Array,
    readonly width: number,
    readonly radius: number,
  ) {
    this.#all = width + 2 * radius + 1;
    this.#columnCoarse = new Int32Array(WORDS * this.#all);
    this.#columnFine = new Int32Array(WORDS * BINS * this.#all);
    this.#coarseCounts = new Uint16Array(this.#columnCoarse.buffer);
    this.#fineCounts = new Uint16Array(this.#columnFine.buffer);
  }

  /** A row of the picture comes into the columns (`by` 1) or leaves them (-1). */
  count(y: number, by: number): void {
    const { bytes, width } = this;
    const all = this.#all;
    const coarse = this.#coarseCounts;
    const fine = this.#fineCounts;
    for (let x = 0, k = y * width, column = this.radius + 1; x < width; x++, k++, column++) {
      const code = bytes[k];
      coarse[BINS * column + (code >> 4)] += by;
      fine[BINS * ((code >> 4) * all + column) + (code & (BINS - 1))] += by;
    }
    this.#rows += by;
  }

  /** One row of medians. */
  alongRow(out: Uint8Array, start: number): void {
    const { width, radius } = this;
    const columns = this.#columnCoarse;
    const fine = this.#fine;
    const rows = this.#rows;
    this.#about.fill(-1);
    // The window's coarse counts.
    const first = new Int32Array(WORDS);
    for (let column = radius + 1; column <= 2 * radius; column++)
      add(first, 0, columns, WORDS * column);
    let [c0, c1, c2, c3, c4, c5, c6, c7] = first;
    let enter = WORDS * (2 * radius + 1);
    let leave = 0;
    for (let x = 0; x < width; x++, enter += WORDS, leave += WORDS) {
      c0 += columns[enter] - columns[leave];
      c1 += columns[enter + 1] - columns[leave + 1];
      c2 += columns[enter + 2] - columns[leave + 2];
      c3 += columns[enter + 3] - columns[leave + 3];
      c4 += columns[enter + 4] - columns[leave + 4];
      c5 += columns[enter + 5] - columns[leave + 5];
      c6 += columns[enter + 6] - columns[leave + 6];
      c7 += columns[enter + 7] - columns[leave + 7];
      const left = x < radius ? x : radius;
      const right = x + radius < width ? radius : width - 1 - x;
      let rest = (rows * (left + right + 1) - 1) >> 1;
      // The quarter of the bins, the word, the bin that holds the median.
      let bin = 0;
      let one = c0;
      let two = c1;
      let some = both(c0 + c1);
      if (rest >= some) {
        rest -= some;
        some = both(c2 + c3);
        bin = 4;
        one = c2;
        two = c3;
        if (rest >= some) {
          rest -= some;
          some = both(c4 + c5);
          bin = 8;
          one = c4;
          two = c5;
          if (rest >= some) {
            rest -= some;
            bin = 12;
            one = c6;
            two = c7;
          }
        }
      }
      some = both(one);
      if (rest >= some) {
        rest -= some;
        bin += 2;
        one = two;
      }
      some = one & MOST;
      if (rest >= some) {
        rest -= some;
        bin++;
      }
      this.#bringTo(x, bin);
      let word = WORDS * bin;
      some = both(fine[word]);
      while (rest >= some) {
        rest -= some;
        some = both(fine[++word]);
      }
      out[start + x] = 2 * word + (rest >= (fine[word] & MOST) ? 1 : 0);
    }
  }

  /** Brings the fine counts of one coarse bin to the window about column `x`. */
  #bringTo(x: number, bin: number): void {
    const { radius } = this;
    const columns = this.#columnFine;
    const fine = this.#fine;
    const first = WORDS * bin;
    const start = first * this.#all;
    const about = this.#about[bin];
    this.#about[bin] = x;
    if (about < 0 || x - about > radius) {
      fine.fill(0, first, first + WORDS);
      for (let column = x + 1; column <= x + 2 * radius + 1; column++)
        add(fine, first, columns, start + WORDS * column);
      return;
    }
    for (let at = about + 1; at <= x; at++)
      move(fine, first, columns, start + WORDS * (at + 2 * radius + 1), start + WORDS * at);
  }
}

/**
 * The median (of two middle ones the darker) of the window of `2 radius + 1` pixels a side around
 * each pixel, cut at the picture's border, in a time that does not grow with the radius: a histogram
 * for each column goes down with the window, sums of them go along the row, fine counts only where
 * the median lies (Perreault & Hebert 2007, "Median filtering in constant time"). It takes out what
 * is smaller than half the window and leaves straight edges where they are. Windows of more than
 * 65535 pixels count evenly spaced rows of themselves.
 */
export function* medianKernel(
  bytes: Uint8Array,
  width: number,
  height: number,
  radius: number,
): Kernel<Uint8Array> {
  if (radius === 0) return bytes;
  const out = new Uint8Array(width * height);
  const side = 2 * radius + 1;
  const rows = Math.min(side, height);
  // Every step-th row is counted, so that no count of a window overflows.
  const step = Math.ceil(rows / Math.floor(MOST / Math.min(side, width)));
  const histograms = new Histograms(bytes, width, Math.min(radius, width));
  for (let y = 0; y < Math.min(radius, height); y += step) histograms.count(y, 1);
  yield* byRows(
    height,
    width,
    (from, to) => {
      for (let y = from; y < to; y++) {
        const enter = y + radius;
        const leave = y - radius - 1;
        if (enter < height && enter % step === 0) histograms.count(enter, 1);
        if (leave >= 0 && leave % step === 0) histograms.count(leave, -1);
        histograms.alongRow(out, y * width);
      }
    },
    1 << 15,
  );
  return out;
}
