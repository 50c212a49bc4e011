import { spotOfPixel, type Masses, type Plan, type Region, type Spot } from '../shared/core.js';
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
  /** How it is kept, for a light. */
  kept?: { how: 'bare' | 'tint' | 'mask'; narrowestMm: number; narrow: boolean };
}

/** Pixels of the masses for each millimetre of the paper. */
export const pxPerMmOf = (plan: Plan, { map }: Masses): number => map.width / plan.paper.widthMm;

/** The masses by size, largest first. */
export function bySize({ regions }: Masses): Region[] {
  return regions.slice().sort((a, b) => b.area - a.area || a.id - b.id);
}

/** The place of a mass in the order of size, from 1. */
export function placeOf({ regions }: Masses, id: number): number {
  const { area } = regions[id];
  return (
    1 + regions.filter((each) => each.area > area || (each.area === area && each.id < id)).length
  );
}

/** The mass that lies by `by` places further down the order of size; from the largest, or the smallest, without one in hand. */
export function massBeside(masses: Masses, id: number | undefined, by: 1 | -1): number | undefined {
  const order = bySize(masses);
  const at = order.findIndex((each) => each.id === id);
  const next = at < 0 ? (by > 0 ? 0 : order.length - 1) : (at + by + order.length) % order.length;
  return order[next]?.id;
}

/** A spot of the photo well inside a mass: the middle of the longest run of its pixels among some rows. */
export function insideOf(plan: Plan, masses: Masses, region: number): Spot {
  const { labels, map } = masses;
  const [left, top, w, h] = masses.regions[region].bounds;
  let best = { length: 0, x: left + w / 2, y: top + h / 2 };
  const rows = Math.min(h, 64);
  for (let n = 0; n < rows; n++) {
    const y = top + Math.floor(((n + 0.5) * h) / rows);
    let start = -1;
    for (let x = left; x <= left + w; x++) {
      const inside = x < left + w && labels[y * map.width + x] === region;
      if (inside && start < 0) start = x;
      if (inside || start < 0) continue;
      if (x - start > best.length) best = { length: x - start, x: (start + x) / 2, y: y + 0.5 };
      start = -1;
    }
  }
  return spotOfPixel(plan, masses, best.x, best.y);
}

/** What is told of a mass. */
export function factsOf(plan: Plan, work: MassWork, id: number): MassFacts | undefined {
  const { masses, edges, reserves, advice } = work;
  const region = masses.regions[id];
  if (!region) return undefined;
  const scale = pxPerMmOf(plan, masses);
  const brushMm = (plan.brushes[plan.brush ?? 0] ?? plan.brushes[0])?.pressedMm ?? 1;
  const counted = { hard: 0, soft: 0, lost: 0 };
  for (const { regions, kind } of edges) if (regions.includes(id)) counted[kind]++;
  const reserve = reserves.find((each) => each.region === id);
  const how = advice.lights.find((each) => each.region === id && each.mark === undefined)?.method;
  return {
    region,
    place: placeOf(masses, id),
    count: masses.regions.length,
    band: region.band,
    areaCm2: cm2Of(region.area, scale),
    share: region.area / masses.labels.length,
    brushWidths: (2 * Math.sqrt(region.area / Math.PI)) / (scale * brushMm),
    edges: counted,
    ...(reserve && how && how !== 'paint'
      ? { kept: { how, narrowestMm: reserve.narrowestPx / scale, narrow: reserve.mask } }
      : {}),
  };
}

/** Pixels as cm² of the paper. */
export const cm2Of = (pixels: number, pxPerMm: number): number =>
  pixels / (100 * pxPerMm * pxPerMm);
