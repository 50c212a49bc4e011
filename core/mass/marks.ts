/** Small lights and darks of high contrast that masses leave out. */
import { expectNumber, expectObject, wrongType } from '../base/check.js';
import { reason } from '../base/reason.js';
import type { Kernel } from '../base/kernel.js';
import type { Lightness, Spot } from '../base/types.js';
import { runPartsOf } from '../geometry/components.js';
import { discRuns } from '../geometry/index.js';
import { pixelAt } from './overrules.js';
import type { Segments } from './segment.js';
import type { Mark, MarkOverrule, Masses } from './types.js';

/** The most marks that are proposed: a list longer than that is not read (our own choice). */
const MOST = 40;
/** The least difference of L* from the mass about it (our own choice). */
const CONTRAST = 12;
/** The smallest mark, in brush widths: with a brush of 15 mm about the half millimetre that an eye sees from 1.5 m. */
const SMALLEST = 1 / 32;
/** The share of a mark's pixels that may lie at a mass of its own band, else it is that mass's ragged border. */
const AT_BORDER = 0.2;

interface Found {
  mark: Mark;
  worth: number;
}

/** The kind of each pixel by its region's table, and how far codes stray from their region's mean, L*. */
function kindsOf(
  { width, height, data }: Lightness,
  { labels, regions }: Segments,
  tables: Uint8Array[],
): { kinds: Uint8Array; stray: number[] } {
  const kinds = new Uint8Array(data.length);
  const spread = new Float64Array(regions.length);
  const counted = new Float64Array(regions.length);
  const means = regions.map(({ mean }) => 2.55 * mean);
  for (let y = 0, i = 0; y < height; y++) {
    const end = i + width;
    while (i < end) {
      const label = labels[i];
      const table = tables[label];
      const from = i;
      do {
        kinds[i] = table[data[i]];
        i++;
      } while (i < end && labels[i] === label);
      // How much the codes of a region stray is told well enough by every fourth row.
      if (y % 4 !== 0) continue;
      let sum = 0;
      const mean = means[label];
      for (let at = from; at < i; at++) sum += data[at] > mean ? data[at] - mean : mean - data[at];
      spread[label] += sum;
      counted[label] += i - from;
    }
  }
  const stray = regions.map(({ id }) => spread[id] / Math.max(1, counted[id]) / 2.55);
  return { kinds, stray };
}

/**
 * Marks of a picture: connected parts of the unsmoothed plane (corners count, so whiskers hold together) whose band is not that
 * of their region. Ranked by `(|contrast| - 2 d) sqrt(area)`, where d is the mean of |L* - mean| in the region: what an
 * eye sees of a small thing grows with contrast and size (Ricco's and Piper's laws give area and its root; the root is
 * the more careful), less what the region is full of anyway. A long thin part counts by its area like any other.
 */
export function* marksKernel(
  plane: Lightness,
  { labels, regions }: Segments,
  limits: readonly number[],
  brushPx: number,
): Kernel<Mark[]> {
  const { width, height, data } = plane;
  const smallest = Math.max(1, (SMALLEST * brushPx) ** 2);
  const largest = (Math.PI / 4) * brushPx * brushPx;
  // Of each region: which codes are darks (1), its own (0), lights (2).
  const tables = regions.map(({ band, mean }) => {
    const low = band > 0 ? limits[band - 1] : -1;
    const high = band < limits.length ? limits[band] : 255;
    return Uint8Array.from({ length: 256 }, (_, code) => {
      const contrast = code / 2.55 - mean;
      if (code <= low && contrast <= -CONTRAST) return 1;
      return code > high && contrast >= CONTRAST ? 2 : 0;
    });
  });
  const { kinds, stray } = kindsOf(plane, { labels, regions }, tables);
  yield 0.4;
  const {
    begin,
    part: partOf,
    runs,
    count,
  } = runPartsOf(kinds, width, height, {
    connectivity: 8,
    background: 0,
  });
  yield 0.7;
  const area = new Float64Array(count);
  const sum = new Float64Array(count);
  const sx = new Float64Array(count);
  const sy = new Float64Array(count);
  const first = new Int32Array(count).fill(-1);
  const atBorder = new Float64Array(count);
  // Whether a neighbouring pixel's region is as dark (light) as the mark: lower or higher in band than the mark's own.
  const alike = (at: number, other: number, dark: boolean): boolean => {
    const label = labels[at];
    const near = labels[other];
    if (near === label) return false;
    return dark
      ? regions[near].band < regions[label].band
      : regions[near].band > regions[label].band;
  };
  for (let run = 0; run < runs; run++) {
    const part = partOf[run];
    if (part < 0) continue;
    const from = begin[run];
    const to = begin[run + 1];
    const y = Math.floor(from / width);
    const n = to - from;
    if (first[part] < 0) first[part] = from;
    area[part] += n;
    sx[part] += n * ((from + to) / 2 - y * width);
    sy[part] += n * (y + 0.5);
    const dark = kinds[from] === 1;
    for (let at = from; at < to; at++) {
      sum[part] += data[at];
      if (
        (at > y * width && alike(at, at - 1, dark)) ||
        (at + 1 < (y + 1) * width && alike(at, at + 1, dark)) ||
        (y > 0 && alike(at, at - width, dark)) ||
        (y + 1 < height && alike(at, at + width, dark))
      )
        atBorder[part]++;
    }
  }
  const found: Found[] = [];
  for (let part = 0; part < count; part++) {
    const n = area[part];
    if (n < smallest || n >= largest || atBorder[part] > AT_BORDER * n) continue;
    const region = regions[labels[first[part]]];
    const lightness = sum[part] / n;
    const contrast = lightness / 2.55 - region.mean;
    const worth = (Math.abs(contrast) - 2 * stray[region.id]) * Math.sqrt(n);
    if (worth <= 0) continue;
    let band = 0;
    while (band < limits.length && lightness >= limits[band] + 0.5) band++;
    if (band === region.band) continue;
    found.push({
      worth,
      mark: { x: sx[part] / n, y: sy[part] / n, area: n, band, contrast, region: region.id },
    });
  }
  found.sort((a, b) => b.worth - a.worth);
  return found.slice(0, MOST).map(({ mark }) => mark);
}

/**
 * Marks that the painter pinned (`light` and `radius` given, `keep` true), in the order of the list. Area is that of the disc;
 * band and contrast are those of the lighter (darker) half of its pixels, and at least one band and the smallest contrast
 * away from the region where the picture shows less.
 * Reason of what is not met: `mass.mark-outside`.
 */
export function pinnedMarks(
  plane: Lightness,
  { labels, regions }: Segments,
  limits: readonly number[],
  overrules: readonly { kind: string }[],
): { marks: Mark[]; unmet: NonNullable<Masses['unmet']> } {
  const { width, height, data } = plane;
  const marks: Mark[] = [];
  const unmet: NonNullable<Masses['unmet']> = [];
  overrules.forEach((overrule, i) => {
    const name = `options.overrules[${i}]`;
    if (expectObject(name, overrule).kind !== 'mark') return;
    const { at, keep, light, radius } = overrule as MarkOverrule;
    if (keep !== true || light === undefined || radius === undefined) return;
    if (!Array.isArray(at) || at.length !== 2) throw wrongType(`${name}.at`, at, 'a spot [x, y]');
    if (typeof light !== 'boolean') throw wrongType(`${name}.light`, light, 'a boolean');
    const r = expectNumber(`${name}.radius`, radius, 0, 1) * Math.max(width, height);
    const pixel = pixelAt(at as Spot, width, height);
    if (pixel < 0) {
      unmet.push({ overrule: i, reason: reason('mass.mark-outside') });
      return;
    }
    const x = at[0] * width;
    const y = at[1] * height;
    const codes: number[] = [];
    const runs = discRuns(x, y, r, width, height);
    for (let k = 0; k < runs.length; k += 3)
      for (let column = runs[k + 1]; column < runs[k + 2]; column++)
        codes.push(data[runs[k] * width + column]);
    codes.sort((a, b) => (light ? b - a : a - b));
    const half = codes.slice(0, Math.max(1, codes.length >> 1));
    const mean = half.reduce((all, code) => all + code, 0) / half.length;
    const region = regions[labels[pixel]];
    let band = 0;
    while (band < limits.length && mean >= limits[band] + 0.5) band++;
    band = light
      ? Math.min(limits.length, Math.max(band, region.band + 1))
      : Math.max(0, Math.min(band, region.band - 1));
    const contrast = mean / 2.55 - region.mean;
    marks.push({
      x,
      y,
      area: Math.max(1, Math.PI * r * r),
      band,
      contrast: light ? Math.max(CONTRAST, contrast) : Math.min(-CONTRAST, contrast),
      region: region.id,
    });
  });
  return { marks, unmet };
}
