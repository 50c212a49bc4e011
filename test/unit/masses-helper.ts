import type { Masses, Region } from '../../core/index.js';

/**
 * Masses of a hand-made label map. Labels are renumbered to 0, 1, 2 in order of first appearance; `bandOf` and `meanOf` get the label
 * as it was drawn.
 */
export function massesOfLabels(
  drawn: ArrayLike<number>,
  width: number,
  height: number,
  bandOf: (label: number) => number = (label) => label,
  meanOf: (label: number) => number = (label) => 10 * label,
): Masses {
  const ids = new Map<number, number>();
  const labels = Int32Array.from({ length: width * height }, (_, at) => {
    const label = drawn[at];
    if (!ids.has(label)) ids.set(label, ids.size);
    return ids.get(label)!;
  });
  const regions: Region[] = [...ids].map(([label, id]) => ({
    id,
    band: bandOf(label),
    area: 0,
    mean: meanOf(label),
    bounds: [width, height, 0, 0],
    neighbours: [],
  }));
  const neighbours = regions.map(() => new Set<number>());
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = y * width + x;
      const region = regions[labels[at]];
      region.area++;
      const b = region.bounds;
      b[0] = Math.min(b[0], x);
      b[1] = Math.min(b[1], y);
      // Right and bottom until all pixels are seen.
      b[2] = Math.max(b[2], x + 1);
      b[3] = Math.max(b[3], y + 1);
      for (const other of [x > 0 ? at - 1 : at, y > 0 ? at - width : at]) {
        if (labels[other] === labels[at]) continue;
        neighbours[labels[at]].add(labels[other]);
        neighbours[labels[other]].add(labels[at]);
      }
    }
  }
  for (const region of regions) {
    region.bounds[2] -= region.bounds[0];
    region.bounds[3] -= region.bounds[1];
    region.neighbours = [...neighbours[region.id]].sort((a, b) => a - b);
  }
  const bands = Math.max(...regions.map((region) => region.band)) + 1;
  const data = Uint8Array.from(labels, (id) => regions[id].band);
  return { map: { width, height, bands, data }, labels, regions, marks: [] };
}

/** Labels from rows of characters: each character is a label. */
export function drawnRows(rows: string[]): { drawn: number[]; width: number; height: number } {
  return {
    drawn: rows.flatMap((row) => [...row].map((c) => c.charCodeAt(0))),
    width: rows[0].length,
    height: rows.length,
  };
}

/** Repeatable numbers 0..1 (Park & Miller 1988, "minimal standard"). */
export function minimalStandard(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return (state - 1) / 2147483646;
  };
}
