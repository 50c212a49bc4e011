import type { Kernel } from '../base/kernel.js';
import { stage } from '../value/stage.js';
import { MUTE } from './field.js';
import { CHANNELS, smoothCells, type Cells } from './tensor.js';
import type { DirectionField } from './types.js';

/** Neighbouring masses share a sense only where their directions differ by no more than 30 degrees (our own choice). */
const ALIKE = Math.cos(Math.PI / 6);

/** A stroke that crosses the form more steeply than 60 degrees does not tell which way the form runs (our own choice). */
export const ACROSS = 0.5;

/** How finely agreement is ranked. */
const RANKS = 64;

/** Weight of a place where the picture is mute, beside 1 for a wholly coherent one (our own choice). */
const MUTE_WEIGHT = 0.02;

/** Places on a grid over the picture: each stands for the square of pixels about it. */
export interface Nodes {
  step: number;
  columns: number;
  rows: number;
  /** Region under each. */
  labels: Int32Array;
  /** Unit vector of its calm direction, angle 0 <= a < 180 degrees. */
  cos: Float32Array;
  sin: Float32Array;
  /** 1 where the picture itself tells the direction. */
  speaks: Uint8Array;
}

/** Column and row of the pixel in the middle of a node's square. */
export const middleOf = (index: number, step: number, length: number): number =>
  Math.min(length - 1, index * step + (step >> 1));

/**
 * Nodes with calm directions: those of the field averaged within the masses over about a brush's
 * width, coherent places counting most, since no stroke bends in less.
 */
export function* nodesKernel(
  labels: Int32Array,
  field: DirectionField,
  step: number,
  brushPx: number,
): Kernel<Nodes> {
  const { width, height, angle, coherence } = field;
  const columns = Math.ceil(width / step);
  const rows = Math.ceil(height / step);
  const under = new Int32Array(columns * rows);
  const speaks = new Uint8Array(columns * rows);
  const sums = new Float32Array(CHANNELS * columns * rows);
  for (let j = 0, at = 0; j < rows; j++) {
    const row = middleOf(j, step, height) * width;
    for (let i = 0; i < columns; i++, at++) {
      const pixel = row + middleOf(i, step, width);
      const weight = coherence[pixel] ** 2 + MUTE_WEIGHT;
      const twice = (angle[pixel] * Math.PI) / 90;
      under[at] = labels[pixel];
      speaks[at] = coherence[pixel] >= MUTE ? 1 : 0;
      sums[CHANNELS * at] = weight * Math.cos(twice);
      sums[CHANNELS * at + 1] = weight * Math.sin(twice);
    }
  }
  yield 0.4;
  const cells: Cells = { step, columns, rows, sums, labels: under };
  yield* stage(smoothCells(cells, brushPx / step), 0.4, 0.9);
  const cos = new Float32Array(under.length);
  const sin = new Float32Array(under.length);
  for (let at = 0; at < under.length; at++) {
    const half = Math.atan2(sums[CHANNELS * at + 1], sums[CHANNELS * at]) / 2;
    const turn = half < 0 ? half + Math.PI : half;
    cos[at] = Math.cos(turn);
    sin[at] = Math.sin(turn);
  }
  return { step, columns, rows, labels: under, cos, sin, speaks };
}

/** A sense known at a node: +1 along (cos, sin) of its angle (which is below 180 degrees), -1 against it. */
export interface Known {
  node: number;
  sense: number;
}

/**
 * Spreads senses over the grid: from the nodes where they are known, over the best agreeing neighbours first (the
 * widest path), so that a sense goes round singular places instead of through them. Within a mass it goes
 * everywhere that a path leads; into a neighbouring mass only where the picture speaks on both sides
 * of the border and both run alike, and never into a mass that has a stroke of its own.
 * @returns for each node +1, -1 or 0 (not known)
 */
export function* senseKernel(
  nodes: Nodes,
  known: Known[],
  ruled: ReadonlySet<number>,
): Kernel<Int8Array> {
  const { columns, rows, labels, cos, sin, speaks } = nodes;
  const sense = new Int8Array(labels.length);
  if (known.length === 0) return sense;
  // One stack a rank of disagreement; an entry is a node and the sense it would get.
  const stacks: number[][] = Array.from({ length: 2 * RANKS }, () => []);
  let lowest = 0;
  let waiting = 0;
  const put = (rank: number, node: number, sign: number): void => {
    stacks[rank].push(2 * node + (sign > 0 ? 1 : 0));
    lowest = Math.min(lowest, rank);
    waiting++;
  };
  for (const { node, sense: sign } of known) put(0, node, sign);
  let settled = 0;
  while (waiting > 0) {
    while (stacks[lowest].length === 0) lowest++;
    const entry = stacks[lowest].pop()!;
    waiting--;
    const at = entry >> 1;
    if (sense[at] !== 0) continue;
    sense[at] = entry & 1 ? 1 : -1;
    if (++settled % 65536 === 0) yield settled / labels.length;
    const i = at % columns;
    const j = (at - i) / columns;
    for (let row = Math.max(0, j - 1); row <= Math.min(rows - 1, j + 1); row++) {
      for (let column = Math.max(0, i - 1); column <= Math.min(columns - 1, i + 1); column++) {
        const next = row * columns + column;
        if (sense[next] !== 0) continue;
        const along = cos[at] * cos[next] + sin[at] * sin[next];
        const alike = Math.abs(along);
        const own = labels[next] === labels[at];
        if (!own) {
          if (ruled.has(labels[next]) || alike < ALIKE) continue;
          if (speaks[at] === 0 || speaks[next] === 0) continue;
        }
        const rank = Math.max(0, Math.min(RANKS - 1, Math.floor((1 - alike) * RANKS)));
        put(own ? rank : RANKS + rank, next, along < 0 ? -sense[at] : sense[at]);
      }
    }
  }
  return sense;
}
