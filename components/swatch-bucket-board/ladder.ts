import type { BoardBand } from '../shared/core.js';

/** One grey of a ladder. */
export interface Rung {
  /** L* of its middle. */
  lightness: number;
  /** From the top of the ladder, as a fraction of its height. */
  top: number;
  height: number;
  /** Whether its middle lies in the band (else it only leads to a swatch outside). */
  inside: boolean;
}

/** The place of a swatch on a ladder. */
export interface Touch {
  id: string;
  /** From the top, as a fraction of the ladder's height. */
  at: number;
  /** 0 is the middle; others stand aside because a neighbour is too near. */
  lane: number;
}

/** A ladder of greys from the lightest (top) to the darkest. */
export interface Ladder {
  /** L* at the bottom and at the top. */
  low: number;
  high: number;
  rungs: Rung[];
  touches: Touch[];
  /** Where the band ends and begins, from the top; only where the ladder goes on past it. */
  edges: number[];
}

/** L* that a rung is meant to span. */
const RUNG = 5;
const FEWEST = 5;
const MOST = 9;
/** Touches nearer than this fraction of the ladder stand side by side. */
const CROWDED = 0.075;
const LANES = 3;

/**
 * The ladder beside a bucket: its band in even steps of L*, drawn out so far that every swatch has a place on it.
 *
 * @param swatches - Dry lightness L* of each swatch of the bucket.
 */
export function ladderOf(
  { floor, ceiling }: BoardBand,
  swatches: readonly { id: string; lightness: number }[],
): Ladder {
  const all = swatches.map(({ lightness }) => lightness);
  let low = Math.max(0, Math.min(floor, ...all.map((lightness) => lightness - 1)));
  let high = Math.min(100, Math.max(ceiling, ...all.map((lightness) => lightness + 1)));
  if (high - low < 2) [low, high] = [Math.max(0, low - 1), Math.min(100, high + 1)];
  const range = high - low;
  const count = Math.min(MOST, Math.max(FEWEST, Math.round(range / RUNG)));
  const from = (lightness: number): number => (high - lightness) / range;
  const rungs = Array.from({ length: count }, (_, i): Rung => {
    const lightness = high - (range * (i + 0.5)) / count;
    return {
      lightness,
      top: i / count,
      height: 1 / count,
      inside: lightness >= floor && lightness <= ceiling,
    };
  });
  const edges = [ceiling, floor].filter((edge) => edge > low && edge < high).map(from);
  return { low, high, rungs, touches: touchesOf(swatches, from), edges };
}

function touchesOf(
  swatches: readonly { id: string; lightness: number }[],
  from: (lightness: number) => number,
): Touch[] {
  const sorted = swatches
    .map(({ id, lightness }) => ({ id, at: from(lightness) }))
    .sort((a, b) => a.at - b.at);
  const last = new Array<number>(LANES).fill(-1);
  return sorted.map(({ id, at }) => {
    const free = last.findIndex((before) => at - before >= CROWDED);
    const lane = free >= 0 ? free : last.indexOf(Math.min(...last));
    last[lane] = at;
    return { id, at, lane };
  });
}
