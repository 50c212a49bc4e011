import fc from 'fast-check';
import { newPlan, type Plan } from '../../core/plan/index.js';
import type { Edge, Mark, Masses, Region } from '../../core/mass/types.js';

/** Masses from rows of band digits: parts that hang together by their sides, labelled in reading order. Made by hand, of any size. */
export function massesFrom(rows: readonly string[], marks: Mark[] = [], bands?: number): Masses {
  const width = rows[0].length;
  const height = rows.length;
  const data = Uint8Array.from(rows.join(''), Number);
  const labels = new Int32Array(width * height).fill(-1);
  const regions: Region[] = [];
  const besides = (i: number): number[] =>
    [
      i % width > 0 ? i - 1 : -1,
      i % width < width - 1 ? i + 1 : -1,
      i - width,
      i + width < data.length ? i + width : -1,
    ].filter((j) => j >= 0);
  for (let i = 0; i < data.length; i++) {
    if (labels[i] >= 0) continue;
    const id = regions.length;
    const pixels = [i];
    labels[i] = id;
    for (let k = 0; k < pixels.length; k++)
      for (const j of besides(pixels[k]))
        if (labels[j] < 0 && data[j] === data[i]) {
          labels[j] = id;
          pixels.push(j);
        }
    const xs = pixels.map((p) => p % width);
    const ys = pixels.map((p) => Math.floor(p / width));
    const [x, y] = [Math.min(...xs), Math.min(...ys)];
    regions.push({
      id,
      band: data[i],
      area: pixels.length,
      mean: 10 + 20 * data[i],
      bounds: [x, y, Math.max(...xs) - x + 1, Math.max(...ys) - y + 1],
      neighbours: [],
    });
  }
  for (let i = 0; i < data.length; i++)
    for (const j of besides(i))
      if (labels[j] !== labels[i] && !regions[labels[i]].neighbours.includes(labels[j]))
        regions[labels[i]].neighbours.push(labels[j]);
  for (const region of regions) region.neighbours.sort((a, b) => a - b);
  const map = { width, height, bands: bands ?? Math.max(...data) + 1, data };
  return { map, labels, regions, marks };
}

/** All pairs of neighbours, smaller id first. */
export const pairsIn = (masses: Masses): [number, number][] =>
  masses.regions.flatMap(({ id, neighbours }) =>
    neighbours.filter((other) => other > id).map((other): [number, number] => [id, other]),
  );

export const edge = (regions: [number, number], kind: Edge['kind']): Edge => ({
  regions,
  kind,
  widthPx: 1,
  contrast: 10,
  lengthPx: 1,
});

/** A plan in so many painted bands, with bare paper beyond them when wanted. */
export function planOf(bands: number, paper: boolean, part: Partial<Plan> = {}): Plan {
  const photoLimits = Array.from({ length: bands - 1 }, (_, i) => (90 * (i + 1)) / bands);
  return newPlan({ photoLimits, ...(paper ? { paperLimit: 92 } : {}), ...part });
}

/** Any small picture in masses, its edges of any kind, a plan that fits it. */
export const anyWork = fc
  .record({
    width: fc.integer({ min: 1, max: 8 }),
    height: fc.integer({ min: 1, max: 8 }),
    bands: fc.integer({ min: 1, max: 5 }),
    paper: fc.boolean(),
    way: fc.constantFrom('direct' as const, 'light-to-dark' as const),
    softness: fc.constantFrom(0, 1, 3, 10),
  })
  .chain(({ width, height, bands, paper, way, softness }) =>
    fc
      .record({
        data: fc.array(fc.integer({ min: 0, max: bands - (paper ? 0 : 1) }), {
          minLength: width * height,
          maxLength: width * height,
        }),
        kinds: fc.array(fc.integer({ min: 0, max: 10 }), { minLength: 200, maxLength: 200 }),
        narrow: fc.array(fc.boolean(), { minLength: 64, maxLength: 64 }),
      })
      .map(({ data, kinds, narrow }) => {
        const rows = Array.from({ length: height }, (_, y) =>
          data.slice(y * width, (y + 1) * width).join(''),
        );
        const masses = massesFrom(rows, [], bands + (paper ? 1 : 0));
        const edges = pairsIn(masses).map((pair, i) =>
          edge(pair, kinds[i % 200] < softness ? (i % 2 ? 'soft' : 'lost') : 'hard'),
        );
        const reserves = masses.regions
          .filter(({ band }) => band === masses.map.bands - 1)
          .map(({ id, area }, i) => ({ region: id, area, narrowestPx: 1, mask: narrow[i] }));
        return { plan: planOf(bands, paper, { way }), masses, edges, reserves };
      }),
  );
