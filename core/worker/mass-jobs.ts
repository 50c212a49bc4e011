import type { BandMap, Crop, Lightness, Loop, Overrule, Spot } from '../base/types.js';
import { expectNumber } from '../base/check.js';
import { loopMask } from '../geometry/index.js';
import {
  backgroundKernel,
  edgesKernel,
  edgesWithOverrules,
  massesFromTreeKernel,
  massTreeKernel,
  outlinesKernel,
  reserveAdvice,
  reservesKernel,
  withBackground,
  type BackgroundContrast,
  type Edge,
  type Masses,
  type MassTree,
  type Outline,
  type Reserve,
  type ReserveAdvice,
} from '../mass/index.js';
import { keptMarks, pixelOfSpot, regionAt, type KeptMark } from '../plan/index.js';
import type { EdgesFound, MassesFound, MassesInput } from './mass-inputs.js';
import { massLinesKernel, type MassLines } from './mass-lines.js';
import { sliced, type Watch } from './slices.js';
import type { Handlers, Workshop } from './workshop.js';

/** Masses and what is known of them; pixels are of the working copy of the crop. */
export interface MassWork {
  masses: Masses;
  /** In the order of the regions. */
  outlines: Outline[];
  /** The painter's own word in place of the picture's. */
  edges: Edge[];
  /** The masses that stay paper or are kept pale: those of bare paper, and those that the painter keeps. */
  reserves: Reserve[];
  /** The marks that are kept, with their numbers in the order of work. */
  marks: KeptMark[];
  /** How each light is kept, with the painter's own word; `mark` is a place in {@link marks}. */
  advice: ReserveAdvice;
  lines: MassLines;
}

/** Jobs about masses, their outlines, edges and reserves. */
export interface MassJobs {
  /** Masses of the working copy; pixels and `Spot`s in the answer are of the crop. The tree is kept for the next limits. */
  masses: { in: MassesInput; out: MassWork };
  /** The bands of those masses alone, to be shown at once: what else is known of them takes longer. */
  massMap: { in: MassesInput; out: { map: BandMap } };
  /** How each choice of ground stands against the sitter, along the silhouette; empty without a loop about the sitter. */
  grounds: { in: MassesInput; out: { choices: BackgroundContrast[] } };
}

const WHOLE: Crop = { x: 0, y: 0, width: 1, height: 1 };

const isSpot = (value: unknown): value is Spot =>
  Array.isArray(value) && value.length === 2 && value.every((part) => typeof part === 'number');

/** Brings every spot of an overrule (alone, in lists, in lists of lists) from the photo to the crop. */
function brought(value: unknown, move: (spot: Spot) => Spot): unknown {
  if (isSpot(value)) return move(value);
  return Array.isArray(value) ? value.map((part) => brought(part, move)) : value;
}

/**
 * Overrules of a photo as overrules of a crop of it: spots in fractions of the crop, radii of its longer side.
 * @param photo size of the upright photo in pixels
 */
export function overrulesOnCrop(
  overrules: Overrule[],
  crop: Crop,
  photo: { width: number; height: number },
): Overrule[] {
  const move = ([x, y]: Spot): Spot => [(x - crop.x) / crop.width, (y - crop.y) / crop.height];
  const longer = Math.max(photo.width, photo.height);
  const longerOfCrop = Math.max(photo.width * crop.width, photo.height * crop.height);
  return overrules.map((overrule) => {
    const moved: Overrule = { ...overrule };
    for (const [field, value] of Object.entries(overrule)) {
      if (field === 'radius' && typeof value === 'number')
        moved[field] = Math.min(1, (value * longer) / longerOfCrop);
      else moved[field] = brought(value, move);
    }
    return moved;
  });
}

/** The focus of a job on its plane: one mask, one brush. */
function focusOn(
  loops: { loop: Loop; brushMm: number }[] | undefined,
  crop: Crop,
  plane: Lightness,
  pxPerMm: number,
): { mask: Uint8Array; brushPx: number } | undefined {
  if (!loops || loops.length === 0) return undefined;
  const { width, height } = plane;
  const mask = new Uint8Array(width * height);
  let brushPx = Infinity;
  for (const { loop, brushMm } of loops) {
    if (loop.length < 3) continue;
    brushPx = Math.min(brushPx, expectNumber('focus.brushMm', brushMm, 1e-3, 1e4) * pxPerMm);
    const inside = loopMask(
      loop.map(
        ([x, y]) =>
          [((x - crop.x) / crop.width) * width, ((y - crop.y) / crop.height) * height] as Spot,
      ),
      width,
      height,
    );
    for (let i = 0; i < mask.length; i++) mask[i] |= inside[i];
  }
  return brushPx === Infinity ? undefined : { mask, brushPx };
}

/** Bytes that a tree keeps. */
const bytesOf = ({ plane, columns, rows, focus }: MassTree): number =>
  plane.data.length * (focus ? 2 : 1) + columns * rows * (focus ? 14 : 13);

/** The tree of a picture, crop, brush and focus: from the cache, or made and kept there. */
async function treeOf(input: MassesInput, workshop: Workshop, watch: Watch): Promise<MassTree> {
  const { picture, maxPixels, distrusted, focus } = input;
  const crop = input.crop ?? WHOLE;
  const brushMm = expectNumber('brushMm', input.brushMm, 1e-3, 1e4);
  const paperWidthMm = expectNumber('paperWidthMm', input.paperWidthMm, 1, 1e5);
  const asked = [crop, maxPixels, distrusted, brushMm, paperWidthMm, focus];
  const key = `${picture} masses ${JSON.stringify(asked)}`;
  const kept = workshop.cache.get<MassTree>(key);
  if (kept) return kept;
  const { plane } = await workshop.tones({ ...input, sitter: undefined }, watch);
  const pxPerMm = plane.width / paperWidthMm;
  const tree = await sliced(
    massTreeKernel(plane, {
      brushPx: brushMm * pxPerMm,
      focus: focusOn(focus, crop, plane, pxPerMm),
    }),
    watch,
    'masses',
  );
  workshop.cache.set(key, tree, bytesOf(tree));
  return tree;
}

/** The sitter's loop as a mask of the plane; `undefined` without one. */
function sitterOn({ sitter, crop = WHOLE }: MassesInput, plane: Lightness): Uint8Array | undefined {
  if (!sitter || sitter.length < 3) return undefined;
  const { width, height } = plane;
  return loopMask(
    sitter.map(
      ([x, y]) =>
        [((x - crop.x) / crop.width) * width, ((y - crop.y) / crop.height) * height] as Spot,
    ),
    width,
    height,
  );
}

/**
 * The masses that an input asks for, with the tree they are of and the overrules that apply to its plane. They are kept: outlines,
 * order, pages and rehearsal ask for the same ones. Nobody may change them or hand them over.
 */
export async function massesOf(
  input: MassesInput,
  workshop: Workshop,
  watch: Watch,
): Promise<MassesFound> {
  const { picture, crop, maxPixels, distrusted, brushMm, paperWidthMm, focus } = input;
  const tone = [crop, maxPixels, distrusted, brushMm, paperWidthMm, focus, input.thresholds];
  const ground = [input.background, input.background && input.sitter];
  const key = `${picture} found ${JSON.stringify([...tone, ...ground, input.overrules])}`;
  const kept = workshop.cache.get<MassesFound>(key);
  if (kept) return kept;
  const made = await cutOf(input, workshop, watch);
  workshop.cache.set(key, made, 5 * made.masses.labels.length);
  return made;
}

async function cutOf(input: MassesInput, workshop: Workshop, watch: Watch): Promise<MassesFound> {
  const tree = await treeOf(input, workshop, watch);
  const overrules = overrulesOnCrop(
    input.overrules ?? [],
    input.crop ?? WHOLE,
    workshop.picture(input.picture),
  );
  const found = await sliced(
    massesFromTreeKernel(tree, input.thresholds, overrules),
    watch,
    'masses',
  );
  const { background = 'as-photo' } = input;
  const sitter = background === 'as-photo' ? undefined : sitterOn(input, tree.plane);
  const { masses, ground } = sitter
    ? withBackground(found, sitter, background)
    : { masses: found, ground: [] };
  return { tree, masses, overrules, pxPerMm: tree.plane.width / input.paperWidthMm, ground };
}

/** Edges of masses as the picture has them, or as the painter says. */
export async function edgesOf(found: MassesFound, watch: Watch): Promise<EdgesFound> {
  const { tree, masses, overrules } = found;
  return edgesWithOverrules(await edgesOn(tree.plane, found, watch), masses, overrules);
}

/** Edges of masses as a plane of their size has them. */
export function edgesOn(
  plane: Lightness,
  { masses, pxPerMm }: MassesFound,
  watch: Watch,
): Promise<Edge[]> {
  return sliced(edgesKernel(masses, plane, { pxPerMm }), watch, 'edges');
}

/**
 * The lights: the masses of bare paper where the plan leaves some, the ground where it stays paper, and whatever mass the painter keeps
 * bare, tinted or masked.
 */
async function reservesFor(
  { masses, overrules, pxPerMm, ground }: MassesFound,
  { bare, brushMm, background }: MassesInput,
  watch: Watch,
): Promise<Reserve[]> {
  const { bands } = masses.map;
  const kept = new Set<number>(background === 'paper' ? ground : []);
  for (const { id, band } of masses.regions) if (bare && band === bands - 1) kept.add(id);
  const marks = keptMarks({ overrules }, masses).filter(({ light }) => light);
  for (const { kind, at, method } of overrules) {
    if (kind !== 'reserve' || method === 'paint' || !isSpot(at)) continue;
    const [x, y] = pixelOfSpot({}, masses, at);
    const region = regionAt({}, masses, at);
    const onMark = marks.some(
      (mark) => Math.hypot(mark.x - x, mark.y - y) <= Math.max(1, Math.sqrt(mark.area / Math.PI)),
    );
    if (region !== undefined && !onMark) kept.add(region);
  }
  // Lights are the masses of a band of their own.
  const lights: Masses = {
    ...masses,
    map: { ...masses.map, bands: bands + 1 },
    regions: masses.regions.map((each) => (kept.has(each.id) ? { ...each, band: bands } : each)),
  };
  return sliced(reservesKernel(lights, { brushPx: brushMm * pxPerMm }), watch, 'reserves');
}

/** How the lights are kept, those among the marks by their place in the list of marks. */
function adviceOf(
  masses: Masses,
  reserves: Reserve[],
  marks: KeptMark[],
  overrules: Overrule[],
): ReserveAdvice {
  const lights = marks.filter(({ light }) => light);
  const advice = reserveAdvice(masses, reserves, { overrules, marks: lights });
  return {
    ...advice,
    lights: advice.lights.map((each) =>
      each.mark === undefined ? each : { ...each, mark: marks.indexOf(lights[each.mark]) },
    ),
  };
}

/** A map to hand over: the one that is kept stays. */
const copyOf = (map: BandMap): BandMap => ({ ...map, data: map.data.slice() });

export function massHandlers(workshop: Workshop): Handlers<MassJobs> {
  return {
    masses: async (input, watch) => {
      const found = await workshop.masses(input, watch);
      const { masses, overrules } = found;
      const outlines = await sliced(outlinesKernel(masses), watch, 'outlines');
      const { edges, unmet } = await workshop.edges(found, watch);
      const reserves = await reservesFor(found, input, watch);
      const marks = keptMarks({ overrules }, masses);
      const advice = adviceOf(masses, reserves, marks, overrules);
      const lines = await sliced(massLinesKernel(outlines, edges), watch, 'outlines');
      const all = [...(masses.unmet ?? []), ...unmet, ...advice.unmet];
      return {
        masses: {
          ...masses,
          map: copyOf(masses.map),
          labels: masses.labels.slice(),
          ...(all.length > 0 ? { unmet: all } : {}),
        },
        outlines,
        edges,
        reserves,
        marks,
        advice,
        lines,
      };
    },

    massMap: async (input, watch) => {
      const { masses } = await workshop.masses(input, watch);
      return { map: copyOf(masses.map) };
    },

    grounds: async (input, watch) => {
      const { tree, masses } = await workshop.masses({ ...input, background: 'as-photo' }, watch);
      const sitter = sitterOn(input, tree.plane);
      if (!sitter) return { choices: [] };
      return {
        choices: await sliced(backgroundKernel(masses, tree.plane, sitter), watch, 'ground'),
      };
    },
  };
}
