import type { Kernel } from '../base/kernel.js';
import { MUTE } from './field.js';
import type { DirectionField } from './types.js';

/** Neighbouring masses share a sense only where their directions differ by no more than 30 degrees (our own choice). */
const ALIKE = Math.cos(Math.PI / 6);

/** A stroke that crosses the form more steeply than 60 degrees does not tell which way the form runs (our own choice). */
export const ACROSS = 0.5;

/** How finely agreement is ranked. */
const RANKS = 64;

/** Places on a grid over the picture: each stands for the pixel under it. */
export interface Nodes {
  step: number;
  columns: number;
  rows: number;
  /** Region under each. */
  labels: Int32Array;
}

export function nodesOf(labels: Int32Array, width: number, height: number, step: number): Nodes {
  const columns = Math.ceil(width / step);
  const rows = Math.ceil(height / step);
  const under = new Int32Array(columns * rows);
  for (let j = 0, at = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++, at++)
      under[at] = labels[pixelUnder(i, j, step, width, height)];
  }
  return { step, columns, rows, labels: under };
}

/** The pixel in the middle of a node's square. */
export function pixelUnder(
  i: number,
  j: number,
  step: number,
  width: number,
  height: number,
): number {
  const half = step >> 1;
  return Math.min(height - 1, j * step + half) * width + Math.min(width - 1, i * step + half);
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
  field: DirectionField,
  known: Known[],
  ruled: ReadonlySet<number>,
): Kernel<Int8Array> {
  const { step, columns, rows, labels } = nodes;
  const { width, height, angle, coherence } = field;
  const sense = new Int8Array(labels.length);
  if (known.length === 0) return sense;
  const cos = new Float32Array(labels.length);
  const sin = new Float32Array(labels.length);
  const speaks = new Uint8Array(labels.length);
  for (let j = 0, at = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++, at++) {
      const pixel = pixelUnder(i, j, step, width, height);
      const radians = (angle[pixel] * Math.PI) / 180;
      cos[at] = Math.cos(radians);
      sin[at] = Math.sin(radians);
      speaks[at] = coherence[pixel] >= MUTE ? 1 : 0;
    }
  }
  yield 0.2;
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
    if (++settled % 65536 === 0) yield 0.2 + (0.8 * settled) / labels.length;
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
