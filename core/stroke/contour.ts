import type { Kernel } from '../base/kernel.js';
import { NO_DISTANCE, squaredDistancesKernel } from '../geometry/index.js';
import { CHANNELS, type Cells } from './tensor.js';

/**
 * Squared distance of each place of a label raster from the nearest place at a border of its label,
 * in places; 0 at the border itself. The picture's own frame is no border.
 * @returns undefined where there is one label only
 */
export function* borderDistanceKernel(
  labels: Int32Array,
  columns: number,
  rows: number,
): Kernel<Int32Array | undefined> {
  const inner = new Uint8Array(columns * rows).fill(1);
  for (let j = 0, at = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++, at++) {
      if (i + 1 < columns && labels[at] !== labels[at + 1]) inner[at] = inner[at + 1] = 0;
      if (j + 1 < rows && labels[at] !== labels[at + columns]) inner[at] = inner[at + columns] = 0;
    }
  }
  const squared = yield* squaredDistancesKernel(inner, columns, rows);
  return squared[0] === NO_DISTANCE ? undefined : squared;
}

/**
 * Adds the tensors of the distance to the mass's border: its lines of equal distance run along the
 * contour, and opposite sides of a strip agree. The fourth channel counts.
 */
export function* addContours(cells: Cells, labels: Int32Array): Kernel<void> {
  const { columns, rows, sums } = cells;
  const squared = yield* borderDistanceKernel(labels, columns, rows);
  if (squared === undefined) return;
  const distance = Float32Array.from(squared, Math.sqrt);
  yield 0.5;
  for (let j = 0, at = 0; j < rows; j++) {
    const up = j > 0 ? columns : 0;
    const down = j < rows - 1 ? columns : 0;
    for (let i = 0; i < columns; i++, at++) {
      const left = i > 0 ? 1 : 0;
      const right = i < columns - 1 ? 1 : 0;
      const gx = (distance[at + right] - distance[at - left]) / Math.max(1, left + right);
      const gy = (distance[at + down] - distance[at - up]) / Math.max(1, (up + down) / columns);
      const steep = gx * gx + gy * gy;
      if (steep < 1e-6) continue;
      // Right at the border the steps of the raster show most.
      const weight = Math.min(1, 0.05 + distance[at] / 3);
      const k = CHANNELS * at;
      sums[k] += (weight * gx * gx) / steep;
      sums[k + 1] += (weight * gx * gy) / steep;
      sums[k + 2] += (weight * gy * gy) / steep;
      sums[k + 3] += weight;
    }
  }
}
