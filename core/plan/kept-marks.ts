import type { Crop, Spot } from '../base/types.js';
import type { Mark, Masses, MassOverrule } from '../mass/types.js';
import type { Plan } from './types.js';

/** A mark that is painted or kept, with the number it has on the sheet and in the order of work. */
export interface KeptMark extends Mark {
  /** From 1, most telling first. */
  number: number;
  light: boolean;
  /** How a light is kept: masked, left bare, or touched on at the end; `paint` for a dark. */
  method: 'bare' | 'mask' | 'paint';
  /** A light that is kept yet is darker than the lightest band: once it is uncovered, its own tone goes on with the last accents. */
  toned?: boolean;
  /** The marking of the brief that it stands for. */
  marking?: string;
}

/** Proposed marks that count as kept while the painter has not dropped them. */
export const MOST_MARKS = 12;

const WHOLE: Crop = { x: 0, y: 0, width: 1, height: 1 };

/** What a place on the photo depends on. */
export type Cropped = Pick<Plan, 'crop'>;

/** A place in pixels of the masses as a spot of the upright photo. */
export function spotOfPixel(plan: Cropped, masses: Masses, x: number, y: number): Spot {
  const { crop = WHOLE } = plan;
  const { width, height } = masses.map;
  const within = (value: number): number => Math.min(1, Math.max(0, value));
  return [within(crop.x + (crop.width * x) / width), within(crop.y + (crop.height * y) / height)];
}

/** A spot of the upright photo in pixels of the masses; it may lie outside them. */
export function pixelOfSpot(plan: Cropped, masses: Masses, [x, y]: Spot): [x: number, y: number] {
  const { crop = WHOLE } = plan;
  const { width, height } = masses.map;
  return [((x - crop.x) / crop.width) * width, ((y - crop.y) / crop.height) * height];
}

/** The mass at a spot of the upright photo; `undefined` outside the picture. */
export function regionAt(plan: Cropped, masses: Masses, spot: Spot): number | undefined {
  const { width, height } = masses.map;
  const [x, y] = pixelOfSpot(plan, masses, spot);
  // A spot on the far border still belongs to the last pixel.
  const column = x === width ? width - 1 : Math.floor(x);
  const row = y === height ? height - 1 : Math.floor(y);
  if (column < 0 || row < 0 || column >= width || row >= height) return undefined;
  return masses.labels[row * width + column];
}

const isSpot = (value: unknown): value is Spot =>
  Array.isArray(value) && Number.isFinite(value[0]) && Number.isFinite(value[1]);

/** The overrules that have the places their kind needs; a plan keeps others as they are. */
export function overrulesOf<K extends MassOverrule['kind']>(
  plan: Pick<Plan, 'overrules'>,
  kind: K,
): Extract<MassOverrule, { kind: K }>[] {
  return (plan.overrules as unknown as readonly MassOverrule[]).filter(
    (overrule): overrule is Extract<MassOverrule, { kind: K }> => {
      if (overrule.kind !== kind) return false;
      const { at, between } = overrule as { at?: unknown; between?: unknown };
      return (
        isSpot(at) || (Array.isArray(between) && between.length === 2 && between.every(isSpot))
      );
    },
  );
}

/**
 * The marks that are painted or kept: those the painter keeps or pinned, and the first {@link MOST_MARKS} proposed ones that were
 * not dropped.
 */
export function keptMarks(plan: Cropped & Pick<Plan, 'overrules'>, masses: Masses): KeptMark[] {
  const { width, height } = masses.map;
  const longer = Math.max(width, height);
  const { crop = WHOLE } = plan;
  const photoLonger = Math.max(width / crop.width, height / crop.height);
  const chosen = new Map<number, { marking?: string }>();
  const dropped = new Set<number>();
  const pinned: (Mark & { marking?: string })[] = [];
  const reserves = overrulesOf(plan, 'reserve');
  for (const overrule of overrulesOf(plan, 'mark')) {
    const [x, y] = pixelOfSpot(plan, masses, overrule.at);
    const found = nearestMark(masses.marks, x, y, longer);
    if (found !== undefined) {
      if (overrule.keep) {
        chosen.set(found, { marking: overrule.marking });
        dropped.delete(found);
      } else {
        chosen.delete(found);
        dropped.add(found);
      }
      continue;
    }
    const region = regionAt(plan, masses, overrule.at);
    if (!overrule.keep || region === undefined) continue;
    const radius = (overrule.radius ?? 0.005) * photoLonger;
    const { mean } = masses.regions[region];
    const light = overrule.light ?? mean < 50;
    pinned.push({
      x,
      y,
      area: Math.PI * radius * radius,
      band: light ? masses.map.bands - 1 : 0,
      contrast: light ? 100 - mean : -mean,
      region,
      marking: overrule.marking,
    });
  }
  const proposed = masses.marks
    .map((mark, i) => ({ ...mark, marking: chosen.get(i)?.marking, i }))
    .filter(({ i }) => chosen.has(i) || (i < MOST_MARKS && !dropped.has(i)));
  return [...proposed, ...pinned].map((mark, i) => {
    const { x, y, area, band, contrast, region, marking } = mark;
    const light = contrast > 0;
    const reach = Math.max(Math.sqrt(area / Math.PI), 1);
    const said = reserves.find(({ at }) => {
      const [u, v] = pixelOfSpot(plan, masses, at);
      return Math.hypot(u - x, v - y) <= reach;
    });
    const method =
      !light || said?.method === 'paint' ? 'paint' : said?.method === 'bare' ? 'bare' : 'mask';
    const toned = method !== 'paint' && band < masses.map.bands - 1;
    return {
      x,
      y,
      area,
      band,
      contrast,
      region,
      number: i + 1,
      light,
      method,
      ...(toned ? { toned } : {}),
      ...(marking === undefined ? {} : { marking }),
    };
  });
}

/** The proposed mark that a spot means: the nearest within its own size and a hundredth of the picture. */
function nearestMark(
  marks: readonly Mark[],
  x: number,
  y: number,
  longer: number,
): number | undefined {
  let found: number | undefined;
  let least = Infinity;
  marks.forEach((mark, i) => {
    const distance = Math.hypot(mark.x - x, mark.y - y);
    const reach = Math.max(2 * Math.sqrt(mark.area / Math.PI), longer / 100);
    if (distance > reach || distance >= least) return;
    found = i;
    least = distance;
  });
  return found;
}
