import { tag } from '../base/svg.js';
import type { Kernel } from '../base/kernel.js';
import { outlinesKernel, type Passages } from '../mass/index.js';
import type { Masses } from '../mass/types.js';
import { passageSign, type PassageWork } from './passage-types.js';
import { bordersOf, onPage, pathOn, text, type BorderLines, type Placed } from './sheet-draw.js';

/** What is drawn of passages. */
export interface SheetPassages {
  found: Passages;
  work: PassageWork;
  /** A pixel well inside each passage of the work. */
  inside: readonly (readonly [x: number, y: number])[];
  /** As {@link passageBordersKernel} gives them. */
  borders: readonly BorderLines[];
}

/** Lines of borders that are kept apart and of those that run. */
export const APART_LINE = { 'stroke-width': 0.15 };
export const RUN_LINE = { 'stroke-width': 0.25, 'stroke-dasharray': '0.01 0.7' };

/** Least area in the picture for a number, mm². */
const NUMBERED_MM2 = 6;
/** Area from which a number is of the usual size, mm². */
const ROOMY_MM2 = 16;

/** How far the line of a passage may lie from its border, in widths of the brush: passages are found in cells of an eighth. */
const PASSAGE_TOLERANCE = 0.15;

/**
 * The borders of passages inside masses, smoothed as outlines are; `regions` are the ids of two passages.
 *
 * @param brushPx - Pressed width of the brush that passages were found for, pixels: the wider, the smoother the lines.
 */
export function* passageBordersKernel(
  { map }: Masses,
  { labels, passages, borders }: Passages,
  brushPx: number,
): Kernel<BorderLines[]> {
  const parts = passages.map(({ id, area, bounds, lab }) => ({
    id,
    area,
    bounds,
    band: 0,
    mean: lab[0],
    neighbours: [],
  }));
  const tolerancePx = Math.min(100, Math.max(1, PASSAGE_TOLERANCE * brushPx));
  const outlines = yield* outlinesKernel(
    { map, labels, regions: parts, marks: [] },
    { tolerancePx },
  );
  const inside = new Set(borders.map(({ passages: pair }) => pair.join(' ')));
  return bordersOf(outlines).filter(({ regions }) => inside.has(regions.join(' ')));
}

/** Thin lines where passages are kept apart, dotted ones where they run; nothing in masses that stay paper. */
export function passageBorders(placed: Placed, { found, work, borders }: SheetPassages): string {
  const painted = new Set(work.passages.map(({ passage }) => passage));
  const runs = new Map(found.borders.map(({ passages: pair, run }) => [pair.join(' '), run]));
  const paths = { 'keep-apart': '', 'let-run': '' };
  for (const { regions, lines } of borders) {
    const run = runs.get(regions.join(' '));
    if (run && painted.has(regions[0])) paths[run] += pathOn(placed, lines);
  }
  const line = { fill: 'none', stroke: '#000', 'stroke-linecap': 'round' };
  return (
    (paths['keep-apart'] && tag('path', { d: paths['keep-apart'], ...line, ...APART_LINE })) +
    (paths['let-run'] && tag('path', { d: paths['let-run'], ...line, ...RUN_LINE }))
  );
}

/** The number of each passage with the letter of its mix, where there is room; below a sign that stands in its place. */
export function passageNumbers(
  placed: Placed,
  { found, work, inside }: SheetPassages,
  signs: readonly { x: number; y: number; r: number }[],
  halo: Readonly<Record<string, string | number>>,
): string {
  return work.passages
    .map((passage, i) => {
      const { area } = found.passages[passage.passage];
      const mm2 = area * placed.scale ** 2;
      if (mm2 < NUMBERED_MM2) return '';
      const size = mm2 < ROOMY_MM2 ? 1.7 : 2.2;
      const [x, y] = onPage(placed, ...inside[i]);
      const sign = signs.find((each) => Math.hypot(each.x - x, each.y - y) < each.r + size);
      const line = sign ? sign.y + sign.r + size : y + 0.36 * size;
      return text(passageSign(passage), x, line, size, {
        'text-anchor': 'middle',
        ...halo,
      });
    })
    .join('');
}
