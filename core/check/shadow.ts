import { byRows, type Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lightness, Pixels } from '../base/types.js';
import { LINEAR_OF_SRGB, LUMINANCE_OF_RGB, luminanceOfLightness } from '../colour/index.js';
import { medianOf } from '../geometry/fit.js';
import type { Masses } from '../mass/types.js';
import { LEAVE_UNDER, type Advice } from './advice.js';
import type { Island } from './islands.js';

/** A shadow that lies on the painting in its photo. */
export interface CastShadow {
  /** Share of the painting under it, 0..1. */
  area: number;
  /** Share of the light that it takes, 0..1: in the middle one of its places, and in all but the darkest tenth of them. */
  dark: number;
  darkest: number;
  /** For each region the share of it that lies under the shadow, 0..1. */
  regions: Float64Array;
  /** Whether a pixel lies under it. */
  covers(x: number, y: number): boolean;
}

/** Cells along the longer side in which masses are compared. */
const CELLS = 32;
/** Places looked at along the longer side. */
const LOOKED = 640;
/** A cell's part of a mass must have so many of them. */
const LEAST_PLACES = 8;
/** A mass must lie in so many cells for its lit tone to be known, and that is the one which this share of them do not pass. */
const LEAST_CELLS = 4;
const LIT = 0.9;
/** A loss of light (natural logarithm) from which a cell counts as dark: 12 %, some 3 L* in a middle tone. */
const DARK = 0.13;
/** Both masses of a cell must lose about the same, and all channels must: this much apart at most (logarithm). */
const ALIKE = 0.15;
const NEUTRAL = 0.12;
/** In so many cells two masses must darken together, and in twice as many as in which only one does. */
const LEAST_SHARED = 4;

/** What one mass is in one cell: mean linear light of the painting, mean luminance of the plan's photo. */
interface Part {
  region: number;
  cell: number;
  places: number;
  rgb: [number, number, number];
  photo: number;
  /** What it loses of its mass's lit tone; undefined where that is not known. */
  loss?: number;
}

/**
 * A shadow cast on the painting: a darkening that goes on across the borders of masses, as light does and a wash does not. The tone of each
 * mass is taken in cells against its own lit tone, so that a mass which is too dark as a whole says nothing; where two masses in one
 * cell lose the same share of light, in all channels alike, something lies over both. What the plan's photo darkens in the same
 * place is taken off: the painter may have followed it. From such cells the shadow goes on over neighbours that are as dark.
 *
 * A grey glaze laid across several masses cannot be told from a shadow; one that lies within a single mass, or over all of the painting
 * alike, is not found. No source: the measures are our own.
 *
 * @param painting upright, in its paper's white, of the size of the masses
 * @param photo lightness of the plan's photo, of that size
 * @param depths as `depthsKernel` gives them
 * @param border places no deeper than this in their mass do not count, pixels
 */
export function* castShadowKernel(
  masses: Masses,
  painting: Pixels,
  photo: Lightness,
  depths: Uint8Array,
  border: number,
): Kernel<CastShadow | undefined> {
  const { width, height } = masses.map;
  const size = Math.max(width, height) / CELLS;
  const columns = Math.ceil(width / size);
  const rows = Math.ceil(height / size);
  const parts = yield* partsKernel(masses, painting, photo, depths, border, size, columns);
  takeLosses(parts);
  const cells: Part[][] = Array.from({ length: columns * rows }, () => []);
  for (const part of parts) if (part.loss !== undefined) cells[part.cell].push(part);
  const shared = cells.map(verdictOf);
  const both = shared.filter((verdict) => verdict === 'both').length;
  // At the rim of a shadow with a hard edge one mass of a cell lies in it and the other does not.
  const one = shared.filter(
    (verdict, cell) =>
      verdict === 'one' && !around(cell, columns).some((near) => shared[near] === 'both'),
  ).length;
  if (both < LEAST_SHARED || both < 2 * one) return undefined;
  const under = spread(shared, cells, columns);
  const losses = cells
    .flatMap((own, cell) => (under[cell] ? own.map(({ loss }) => loss!) : []))
    .sort((a, b) => a - b);
  const regions = new Float64Array(masses.regions.length);
  const all = new Float64Array(masses.regions.length);
  for (const { region, cell, places } of parts) {
    all[region] += places;
    if (under[cell]) regions[region] += places;
  }
  return {
    area: under.reduce((sum, on) => sum + on, 0) / under.length,
    dark: 1 - Math.exp(-medianOf(losses)),
    darkest: 1 - Math.exp(-losses[Math.floor(0.9 * losses.length)]),
    regions: regions.map((share, region) => (all[region] > 0 ? share / all[region] : 0)),
    covers: (x, y) => under[Math.floor(y / size) * columns + Math.floor(x / size)] === 1,
  };
}

/** `check.shadow-on-painting` { percent, dark }: of the painting and of the light. */
export const shadowReason = ({ area, dark }: CastShadow): Reason =>
  reason('check.shadow-on-painting', {
    percent: Math.max(1, Math.round(100 * area)),
    dark: Math.round(100 * dark),
  });

/** A mass of which more than this share lies under a shadow is read in it. */
const READ_IN_SHADOW = 0.3;

/**
 * What a shadow may have made is not held against the painting: a mass under it that is too dark by no more than the shadow takes is to be
 * left (its only reason is `check.in-shadow` { shift }: L* that the shadow accounts for), an island under it that is darker than its
 * mass is none.
 *
 * @param targets L* of each region as it should be
 */
export function sparedInShadow(
  { regions, darkest, covers }: CastShadow,
  advice: readonly Advice[],
  islands: readonly Island[],
  targets: readonly number[],
): { advice: Advice[]; islands: Island[] } {
  return {
    advice: advice.map((each) => {
      const { region, shift } = each;
      // d L* / d ln Y = (L* + 16) / 3.
      const taken = (-Math.log(1 - darkest) * (targets[region] + 16)) / 3;
      if (shift <= 0 || regions[region] < READ_IN_SHADOW || shift > taken + LEAVE_UNDER)
        return each;
      const reasons = [reason('check.in-shadow', { shift: taken })];
      return { region, shift, action: 'leave', reasons };
    }),
    islands: islands.filter(
      ({ region, at: [x, y], lightness }) => lightness >= targets[region] || !covers(x, y),
    ),
  };
}

function* partsKernel(
  { map: { width, height }, labels }: Masses,
  painting: Pixels,
  photo: Lightness,
  depths: Uint8Array,
  border: number,
  size: number,
  columns: number,
): Kernel<Part[]> {
  const step = Math.max(1, Math.floor(Math.max(width, height) / LOOKED));
  const luminance = Float64Array.from({ length: 256 }, (_, code) =>
    luminanceOfLightness(code / 2.55),
  );
  const found = new Map<number, Part>();
  const looked = Math.floor(height / step);
  yield* byRows(looked, 4 * width, (from, to) => {
    for (let row = from; row < to; row++)
      for (let x = 0, k = row * step * width; x < width; x += step, k += step) {
        if (depths[k] <= border) continue;
        const cell = Math.floor((row * step) / size) * columns + Math.floor(x / size);
        const key = labels[k] * CELLS * CELLS + cell;
        let part = found.get(key);
        if (!part)
          found.set(key, (part = { region: labels[k], cell, places: 0, rgb: [0, 0, 0], photo: 0 }));
        part.places++;
        part.photo += luminance[photo.data[k]];
        for (let c = 0; c < 3; c++) part.rgb[c] += LINEAR_OF_SRGB[painting.data[4 * k + c]];
      }
  });
  const parts = [...found.values()].filter(({ places }) => places >= LEAST_PLACES);
  for (const part of parts) {
    part.photo /= part.places;
    for (let c = 0; c < 3; c++) part.rgb[c] = Math.max(1e-4, part.rgb[c] / part.places);
  }
  return parts;
}

const luminanceOf = ({ rgb }: Part): number =>
  rgb.reduce((sum, light, c) => sum + LUMINANCE_OF_RGB[c] * light, 0);

/** Holds each part against the lit tone of its mass. */
function takeLosses(parts: readonly Part[]): void {
  const byRegion = new Map<number, Part[]>();
  for (const part of parts) {
    const own = byRegion.get(part.region);
    if (own) own.push(part);
    else byRegion.set(part.region, [part]);
  }
  for (const own of byRegion.values()) {
    if (own.length < LEAST_CELLS) continue;
    const lit = (value: (part: Part) => number): number =>
      own.map(value).sort((a, b) => a - b)[Math.floor(LIT * (own.length - 1))];
    const bright = lit(luminanceOf);
    const channels = [0, 1, 2].map((c) => lit(({ rgb }) => rgb[c]));
    const planned = lit(({ photo }) => photo);
    for (const part of own) {
      const lost = part.rgb.map((light, c) => Math.log(channels[c] / light));
      const followed = Math.max(0, Math.log(planned / Math.max(1e-4, part.photo)));
      const isNeutral = Math.max(...lost) - Math.min(...lost) < NEUTRAL;
      const loss = Math.log(bright / luminanceOf(part)) - followed;
      part.loss = isNeutral || loss < DARK ? loss : 0;
    }
  }
}

type Verdict = 'both' | 'one' | 'none';

/** Whether the masses of a cell are dark together, or only one of them. */
function verdictOf(parts: readonly Part[]): Verdict {
  if (parts.length < 2) return 'none';
  const [first, second] = [...parts].sort((a, b) => b.places - a.places).map(({ loss }) => loss!);
  const [less, more] = first < second ? [first, second] : [second, first];
  if (more < DARK) return 'none';
  return less >= DARK && more - less < ALIKE + 0.3 * more ? 'both' : 'one';
}

/** The eight cells about one; some of them may lie beyond the first or the last row. */
function around(cell: number, columns: number): number[] {
  const x = cell % columns;
  return [-1, 0, 1].flatMap((dx) =>
    x + dx < 0 || x + dx >= columns
      ? []
      : [-columns, 0, columns].map((dy) => cell + dx + dy).filter((near) => near !== cell),
  );
}

/** The cells where masses are dark together and all dark ones that hang on to them. */
function spread(
  verdicts: readonly Verdict[],
  cells: readonly Part[][],
  columns: number,
): Uint8Array {
  const under = new Uint8Array(cells.length);
  const queue = verdicts.flatMap((verdict, cell) => (verdict === 'both' ? [cell] : []));
  for (const cell of queue) under[cell] = 1;
  for (let cell = queue.pop(); cell !== undefined; cell = queue.pop()) {
    for (const next of around(cell, columns)) {
      const own = cells[next];
      if (!own?.length || under[next] || own.some(({ loss }) => loss! < DARK)) continue;
      under[next] = 1;
      queue.push(next);
    }
  }
  return under;
}
