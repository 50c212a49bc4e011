import { expectNumber, expectObject, expectRaster, outOfRange, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import type { BandMap, Lightness } from '../base/types.js';
import { expectThresholds } from '../value/histogram.js';
import { stage } from '../value/stage.js';
import { gridKernel, type Focus, type MassTree } from './grid.js';
import { marksKernel, pinnedMarks } from './marks.js';
import { changesShapes, overruled } from './overrules.js';
import { segmentKernel } from './segment.js';
import type { MassOptions, Masses, Region } from './types.js';

export type { MassTree } from './grid.js';

/** Widest brush, in pixels. */
const WIDEST = 1e6;

function expectBrush(name: string, value: unknown): number {
  const brush = expectNumber(name, value, 0, WIDEST);
  if (brush === 0) throw outOfRange(name, value, `a width above 0, at most ${WIDEST}`);
  return brush;
}

function expectFocus(focus: unknown, plane: Lightness): Focus | undefined {
  if (focus === undefined) return undefined;
  const { mask, brushPx } = expectObject('options.focus', focus) as Partial<Focus>;
  if (!(mask instanceof Uint8Array)) throw wrongType('options.focus.mask', mask, 'a Uint8Array');
  if (mask.length !== plane.data.length)
    throw outOfRange('options.focus.mask', mask, `${plane.data.length} values, one a pixel`);
  const brush = expectBrush('options.focus.brushPx', brushPx);
  return mask.some((value) => value !== 0) ? { mask, brushPx: brush } : undefined;
}

/**
 * What {@link massesFromTree} needs of a picture and a brush, in slices. Kept, it lets limits and overrules change without
 * starting over. It refers to the plane and the focus' mask, which must not change while it is in use.
 * @param options brushPx above 0; focus as in {@link massesOf}
 * @throws TypeError, RangeError naming the argument
 */
export function* massTreeKernel(
  plane: Lightness,
  options: Pick<MassOptions, 'brushPx' | 'focus'>,
): Kernel<MassTree> {
  expectRaster('plane', plane, 1);
  expectObject('options', options);
  const brushPx = expectBrush('options.brushPx', options.brushPx);
  return yield* gridKernel(plane, brushPx, expectFocus(options.focus, plane));
}

/** The band of each pixel's region. */
function bandsOfLabels(labels: Int32Array, regions: Region[]): Uint8Array {
  const bandOf = Uint8Array.from(regions, ({ band }) => band);
  const bands = new Uint8Array(labels.length);
  for (let i = 0; i < bands.length; i++) bands[i] = bandOf[labels[i]];
  return bands;
}

/** {@link massesFromTree} in slices. */
export function* massesFromTreeKernel(
  tree: MassTree,
  thresholds: number[],
  overrules: { kind: string }[] = [],
): Kernel<Masses> {
  const limits = expectThresholds(thresholds);
  const { width, height } = tree.plane;
  if (!Array.isArray(overrules)) throw wrongType('options.overrules', overrules, 'an array');
  let segments = yield* stage(segmentKernel(tree, limits), 0, 0.8);
  let unmet: NonNullable<Masses['unmet']> = [];
  if (changesShapes(overrules)) {
    const changed = overruled(tree.plane, segments, overrules, limits, tree.brushPx);
    unmet = changed.unmet;
    segments = changed;
    yield 0.85;
  }
  const { labels, regions } = segments;
  const map: BandMap = {
    width,
    height,
    bands: limits.length + 1,
    data: bandsOfLabels(labels, regions),
  };
  yield 0.9;
  const pinned = pinnedMarks(tree.plane, segments, limits, overrules);
  const found = yield* stage(marksKernel(tree.plane, segments, limits, tree.brushPx), 0.9, 1);
  const marks = [...pinned.marks, ...found];
  unmet = [...unmet, ...pinned.unmet].sort((a, b) => a.overrule - b.overrule);
  const masses: Masses = { map, labels, regions, marks };
  return unmet.length > 0 ? { ...masses, unmet } : masses;
}

/** Masses of a picture whose tree is at hand; see {@link massesOf}. */
export function massesFromTree(
  tree: MassTree,
  thresholds: number[],
  overrules?: { kind: string }[],
): Masses {
  return finish(massesFromTreeKernel(tree, thresholds, overrules));
}

/** {@link massesOf} in slices. */
export function* massesKernel(plane: Lightness, options: MassOptions): Kernel<Masses> {
  expectObject('options', options);
  expectThresholds(options.thresholds);
  const tree = yield* stage(massTreeKernel(plane, options), 0, 0.4);
  return yield* stage(massesFromTreeKernel(tree, options.thresholds, options.overrules), 0.4, 1);
}

/**
 * The picture as shapes that a brush can state.
 *
 * The plane is averaged over cells of an eighth of the brush or less and smoothed with edges kept (guided filter). The
 * connected parts of the bands of that are merged as a graph, each time where `sum |L* - region mean| + lambda x border
 * length` rises least, until every part can be stated and no border costs more than it spares (after Koepfler, Lopez &
 * Morel 1994, "A multiscale algorithm for image segmentation by variational method"). Lambda is half the brush's width
 * in L* x pixels (a dab of the brush must differ by 2 L* to be worth its border), less along edges of the picture. Borders then
 * move to where they cost least, are carried to full size, and merging goes on there until the guarantee holds exactly:
 *
 * Every region has an area of at least `floor(pi/4 brushPx^2)`, somewhere holds all pixels of the picture whose centres lie
 * within `floor(brushPx/4)` of one of its pixels' centres, is 4-connected, and shares its band with no neighbour. Its band
 * is that of its mean. A picture too small for that is one region.
 *
 * With a focus, a region that lies in it by at least half is judged by the focus' brush, every other by `brushPx`. Overrules
 * are applied last, in their order (`overrules.ts` tells how), and are exempt from the guarantee; those that make no sense
 * are listed in `unmet`. Pinned marks come first in `marks`.
 * @throws TypeError, RangeError naming the argument: thresholds that do not rise, a brush of no width, a mask of another size
 */
export function massesOf(plane: Lightness, options: MassOptions): Masses {
  return finish(massesKernel(plane, options));
}
