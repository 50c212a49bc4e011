import {
  spotOfPixel,
  type Mark,
  type Masses,
  type MassOverrule,
  type Outline,
  type Overrule,
  type Plan,
  type Spot,
} from '../../shared/core.js';
import { insideOf } from '../mass-facts.js';

/** Pixels that are looked at for the axes of a mass, about. */
const LOOKED_AT = 10_000;

/** A line through the middle of a mass, along its longer axis or across it (principal axes of its pixels): the longest stretch of it inside. */
export function axisOf(plan: Plan, masses: Masses, region: number, across: boolean): Spot[] {
  const { labels, map } = masses;
  const [left, top, w, h] = masses.regions[region].bounds;
  const step = Math.max(1, Math.floor(Math.sqrt((w * h) / LOOKED_AT)));
  let [n, sx, sy, sxx, syy, sxy] = [0, 0, 0, 0, 0, 0];
  for (let y = top; y < top + h; y += step)
    for (let x = left; x < left + w; x += step) {
      if (labels[y * map.width + x] !== region) continue;
      n++;
      sx += x;
      sy += y;
      sxx += x * x;
      syy += y * y;
      sxy += x * y;
    }
  const [mx, my] = n > 0 ? [sx / n + 0.5, sy / n + 0.5] : [left + w / 2, top + h / 2];
  const varied = (sum: number, p: number, q: number): number => sum - (p * q) / Math.max(1, n);
  const angle =
    0.5 * Math.atan2(2 * varied(sxy, sx, sy), varied(sxx, sx, sx) - varied(syy, sy, sy));
  const turned = angle + (across ? Math.PI / 2 : 0);
  const [dx, dy] = [Math.cos(turned), Math.sin(turned)];
  const [from, to] = longestRun(masses, region, [mx, my], [dx, dy]);
  const at = (way: number): Spot => spotOfPixel(plan, masses, mx + way * dx, my + way * dy);
  return [at(from), at(to)];
}

/** The longest stretch of a line that runs inside a mass, as ways from a point of the line, pixels. */
function longestRun(
  { labels, map, regions }: Masses,
  region: number,
  [x, y]: [number, number],
  [dx, dy]: [number, number],
): [from: number, to: number] {
  const [, , w, h] = regions[region].bounds;
  const reach = Math.ceil(Math.hypot(w, h));
  let best: [number, number] = [0, 0];
  let start: number | undefined;
  for (let way = -reach; way <= reach + 1; way += 0.5) {
    const [column, row] = [Math.floor(x + way * dx), Math.floor(y + way * dy)];
    const inside =
      way <= reach &&
      column >= 0 &&
      row >= 0 &&
      column < map.width &&
      row < map.height &&
      labels[row * map.width + column] === region;
    if (inside) start ??= way;
    else if (start !== undefined) {
      if (way - start > best[1] - best[0]) best = [start, way];
      start = undefined;
    }
  }
  return best;
}

/** The shape of a mass as it is now, to be kept whatever the limits become. */
export function lockOf(plan: Plan, masses: Masses, outline: Outline): MassOverrule {
  const { region, rings } = outline;
  return {
    kind: 'lock',
    at: insideOf(plan, masses, region),
    band: masses.regions[region].band,
    rings: rings.map((ring) => {
      const spots: Spot[] = [];
      for (let i = 0; i < ring.length; i += 2)
        spots.push(spotOfPixel(plan, masses, ring[i], ring[i + 1]));
      return spots;
    }),
  };
}

/** Whether two places are the same for a hand. */
export const near = ([ax, ay]: Spot, [bx, by]: Spot, within = 0.004): boolean =>
  Math.hypot(ax - bx, ay - by) <= within;

/** What is said about a mark by hand; the last word counts. */
export function wordOnMark(plan: Plan, masses: Masses, mark: Mark): Overrule | undefined {
  const at = spotOfPixel(plan, masses, mark.x, mark.y);
  return plan.overrules.findLast(
    ({ kind, at: spot }) => kind === 'mark' && Array.isArray(spot) && near(spot as Spot, at),
  );
}

/** The plan with one more change; earlier ones that it replaces are left out. */
export function withChange(
  plan: Plan,
  change: MassOverrule,
  replaces: (overrule: Overrule) => boolean = () => false,
): Plan {
  const kept = plan.overrules.filter((overrule) => !replaces(overrule));
  return { ...plan, overrules: [...kept, { ...change }] };
}

/** The plan without the change at a place in its list. */
export function withoutChange(plan: Plan, place: number): Plan {
  return { ...plan, overrules: plan.overrules.filter((_, i) => i !== place) };
}
