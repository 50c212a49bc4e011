import type {
  Crop,
  Masses,
  MassOverrule,
  Mark,
  Outline,
  Overrule,
  Plan,
  Spot,
} from '../../shared/core.js';

const WHOLE: Crop = { x: 0, y: 0, width: 1, height: 1 };

/** From pixels of the masses to fractions of the upright photo. */
export function spotOf(plan: Plan, { map }: Masses, x: number, y: number): Spot {
  const { crop = WHOLE } = plan;
  return [crop.x + (crop.width * x) / map.width, crop.y + (crop.height * y) / map.height];
}

/** From a spot of the photo to pixels of the masses. */
export function pixelsOf(plan: Plan, { map }: Masses, [x, y]: Spot): [x: number, y: number] {
  const { crop = WHOLE } = plan;
  return [((x - crop.x) / crop.width) * map.width, ((y - crop.y) / crop.height) * map.height];
}

/** The mass under a spot of the photo; `undefined` outside the picture. */
export function regionUnder(plan: Plan, masses: Masses, spot: Spot): number | undefined {
  const { width, height } = masses.map;
  const [x, y] = pixelsOf(plan, masses, spot);
  if (!(x >= 0 && y >= 0 && x < width && y < height)) return undefined;
  return masses.labels[Math.floor(y) * width + Math.floor(x)];
}

/** A spot well inside a mass: the middle of the longest run of its pixels among some rows. */
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
  return spotOf(plan, masses, best.x, best.y);
}

/** A line through the middle of a mass, along its longer axis or across it (principal axes of its pixels). */
export function axisOf(plan: Plan, masses: Masses, region: number, across: boolean): Spot[] {
  const { labels, map } = masses;
  const [left, top, w, h] = masses.regions[region].bounds;
  const step = Math.max(1, Math.floor(Math.sqrt((w * h) / 10_000)));
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
  const [mx, my] = [sx / n, sy / n];
  const angle = 0.5 * Math.atan2(2 * (sxy / n - mx * my), sxx / n - mx * mx - (syy / n - my * my));
  const turned = angle + (across ? Math.PI / 2 : 0);
  const reach = Math.hypot(w, h);
  const end = (sign: number): Spot =>
    spotOf(
      plan,
      masses,
      mx + sign * reach * Math.cos(turned),
      my + sign * reach * Math.sin(turned),
    );
  return [end(-1), end(1)].map(([x, y]) => [clamped(x), clamped(y)]);
}

const clamped = (value: number): number => Math.min(1, Math.max(0, value));

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
        spots.push(spotOf(plan, masses, ring[i], ring[i + 1]));
      return spots;
    }),
  };
}

/** Whether two places are the same for a hand. */
export const near = ([ax, ay]: Spot, [bx, by]: Spot, within = 0.004): boolean =>
  Math.hypot(ax - bx, ay - by) <= within;

/** What is said about a mark by hand; the last word counts. */
export function wordOnMark(plan: Plan, masses: Masses, mark: Mark): Overrule | undefined {
  const at = spotOf(plan, masses, mark.x, mark.y);
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
