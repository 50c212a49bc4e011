import type { Kernel } from '../base/kernel.js';
import { pathOf, type Edge, type Masses, type Outline } from '../mass/index.js';
import type { Passages } from '../mass/index.js';
import { bordersOf, passageBordersKernel } from '../plan/index.js';

/** What is drawn of masses, as SVG path data in their pixels; made in the worker, since it takes longer than a frame. */
export interface MassLines {
  /** The outline of each region. */
  outlines: string[];
  /** Borders that are drawn, by the kind of their edge; lost ones are not drawn. */
  hard: string;
  soft: string;
}

/** What is drawn of passages, as SVG path data in the pixels of their masses. */
export interface PassageLines {
  /** Borders inside masses that may run into each other, and those that are kept apart. */
  run: string;
  apart: string;
}

/** The lines of masses, slice by slice. */
export function* massLinesKernel(
  outlines: readonly Outline[],
  edges: readonly Edge[],
): Kernel<MassLines> {
  const drawn: MassLines = { outlines: [], hard: '', soft: '' };
  for (const outline of outlines) {
    drawn.outlines[outline.region] = pathOf(outline);
    yield (0.5 * drawn.outlines.length) / outlines.length;
  }
  const kinds = new Map(edges.map(({ regions, kind }) => [regions.join(' '), kind]));
  for (const { regions, lines } of bordersOf(outlines)) {
    const kind = kinds.get(regions.join(' ')) ?? 'hard';
    if (kind !== 'lost') drawn[kind] += lines.map(lineOf).join('');
  }
  return drawn;
}

/** The lines of passages, slice by slice: the borders inside masses, smoothed as outlines are. */
export function* passageLinesKernel(
  masses: Masses,
  passages: Passages,
  brushPx: number,
): Kernel<PassageLines> {
  const runs = new Map(passages.borders.map(({ passages: pair, run }) => [pair.join(' '), run]));
  const drawn: PassageLines = { run: '', apart: '' };
  for (const { regions, lines } of yield* passageBordersKernel(masses, passages, brushPx))
    drawn[runs.get(regions.join(' ')) === 'keep-apart' ? 'apart' : 'run'] += lines
      .map(lineOf)
      .join('');
  return drawn;
}

const short = (value: number): number => Math.round(value * 10) / 10;

/** Points x, y, … as a path. */
function lineOf(points: ArrayLike<number>): string {
  let d = '';
  for (let i = 0; i < points.length; i += 2)
    d += `${i === 0 ? 'M' : 'L'}${short(points[i])} ${short(points[i + 1])}`;
  return d;
}
