import type { Masses, Plan, Region } from '../shared/core.js';
import type { MassWork } from '../shared/masses-in-hand.js';

/** What is told of one mass. */
export interface MassFacts {
  region: Region;
  /** Place in the order of size, from 1, and how many there are. */
  place: number;
  count: number;
  /** The band's number; the number of the board's bands means bare paper. */
  band: number;
  areaCm2: number;
  /** Share of the picture, 0..1. */
  share: number;
  /** Across, in widths of the brush's pressed stroke: the diameter of the disc of equal area. */
  brushWidths: number;
  /** How many of its borders are hard, soft and lost. */
  edges: { hard: number; soft: number; lost: number };
  /** How it is kept, for a reserve. */
  reserve?: { narrowestMm: number; mask: boolean };
}

/** Pixels of the masses for each millimetre of the paper. */
export const pxPerMmOf = (plan: Plan, { map }: Masses): number => map.width / plan.paper.widthMm;

/** The masses by size, largest first. */
export function bySize({ regions }: Masses): Region[] {
  return regions.slice().sort((a, b) => b.area - a.area || a.id - b.id);
}

/** The mass under a point of the picture (fractions of the crop); `undefined` outside. */
export function massAt({ map, labels }: Masses, x: number, y: number): number | undefined {
  if (!(x >= 0 && y >= 0 && x < 1 && y < 1)) return undefined;
  return labels[Math.floor(y * map.height) * map.width + Math.floor(x * map.width)];
}

/** What is told of a mass. */
export function factsOf(plan: Plan, work: MassWork, id: number): MassFacts | undefined {
  const { masses, edges, reserves } = work;
  const region = masses.regions[id];
  if (!region) return undefined;
  const scale = pxPerMmOf(plan, masses);
  const brushMm = (plan.brushes[plan.brush ?? 0] ?? plan.brushes[0])?.pressedMm ?? 1;
  const counted = { hard: 0, soft: 0, lost: 0 };
  for (const { regions, kind } of edges) if (regions.includes(id)) counted[kind]++;
  const reserve = reserves.find((each) => each.region === id);
  return {
    region,
    place: bySize(masses).findIndex((each) => each.id === id) + 1,
    count: masses.regions.length,
    band: region.band,
    areaCm2: region.area / (100 * scale * scale),
    share: region.area / masses.labels.length,
    brushWidths: (2 * Math.sqrt(region.area / Math.PI)) / (scale * brushMm),
    edges: counted,
    ...(reserve
      ? { reserve: { narrowestMm: reserve.narrowestPx / scale, mask: reserve.mask } }
      : {}),
  };
}
