import {
  applyHomography,
  homographyOf,
  invertHomography,
  type Corners,
  type Lightness,
  type Masses,
  type Spot,
} from '../shared/core.js';

/** The whole of a picture, in fractions of it. */
export const WHOLE: Corners = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
];

/** Where the corners are put before anything is known. */
export const INSET: Corners = [
  [0.1, 0.1],
  [0.9, 0.1],
  [0.9, 0.9],
  [0.1, 0.9],
];

export const clamped = (value: number, low = 0, high = 1): number =>
  Math.min(high, Math.max(low, value));

/** A place of the painted part (fractions) on the photo (fractions); itself where the corners are those of no sheet. */
export function onPhoto(corners: Corners, spot: Spot): Spot {
  try {
    return applyHomography(homographyOf(WHOLE, corners), spot);
  } catch {
    return spot;
  }
}

/** A place on the photo (fractions) in the painted part (fractions). */
export function inPainting(corners: Corners, spot: Spot): Spot {
  try {
    return applyHomography(invertHomography(homographyOf(WHOLE, corners)), spot);
  } catch {
    return spot;
  }
}

/** Corners a quarter turn on: the painting is then read from its next side. */
export function turned([tl, tr, br, bl]: Corners): Corners {
  return [bl, tl, tr, br];
}

/** Corners read from the other side. */
export function mirrored([tl, tr, br, bl]: Corners): Corners {
  return [tr, tl, bl, br];
}

/** Four corners in their order around their middle, beginning with the upper left one. */
export function inOrder(corners: Corners): Corners {
  const x = corners.reduce((sum, each) => sum + each[0], 0) / 4;
  const y = corners.reduce((sum, each) => sum + each[1], 0) / 4;
  const around = [...corners].sort(
    (a, b) => Math.atan2(a[1] - y, a[0] - x) - Math.atan2(b[1] - y, b[0] - x),
  );
  const first = around.reduce(
    (best, each, i) => (each[0] + each[1] < around[best][0] + around[best][1] ? i : best),
    0,
  );
  return [0, 1, 2, 3].map((i) => around[(first + i) % 4]) as Corners;
}

/** How much darker than the rim beside it a pixel is when it is painted, codes. Our choice, no source. */
const PAINTED = 10;
/** Share of a row or column that has to be painted for it to belong to the painting. Our choice, no source. */
const ENOUGH = 0.2;
/** A painted part smaller than this share of the sheet's side is not believed. */
const LEAST = 0.5;
/** A margin so many times as broad as the narrowest one is bare paper inside the painting. Our choice, no source. */
const BARE = 1.35;

/**
 * The painted part of a sheet that was brought upright: the rows and columns that are painted, told from the rim at both ends of each
 * row, so that uneven light does not count. The margin is taken to be as broad on all sides, so where much is still bare the
 * narrowest one serves for that side. In fractions of the sheet; `undefined` where no rim is seen.
 *
 * @param size of the painted part, mm
 */
export function paintedPart(
  { width, height, data }: Lightness,
  size: { widthMm: number; heightMm: number },
): Corners | undefined {
  const rim = Math.max(1, Math.round(width * 0.03));
  const rows = new Float64Array(height);
  const columns = new Float64Array(width);
  for (let y = 0; y < height; y++) {
    const at = y * width;
    let left = 0;
    let right = 0;
    for (let i = 0; i < rim; i++) {
      left = Math.max(left, data[at + i]);
      right = Math.max(right, data[at + width - 1 - i]);
    }
    for (let x = 0; x < width; x++) {
      const paper = left + ((right - left) * x) / width;
      if (data[at + x] > paper - PAINTED) continue;
      rows[y]++;
      columns[x]++;
    }
  }
  const down = extentOf(rows, ENOUGH * width, rim);
  const across = extentOf(columns, ENOUGH * height, rim);
  if (!down || !across) return undefined;
  const sides = [
    { share: across[0] / width, mm: size.widthMm },
    { share: 1 - across[1] / width, mm: size.widthMm },
    { share: down[0] / height, mm: size.heightMm },
    { share: 1 - down[1] / height, mm: size.heightMm },
  ];
  const marginOf = ({ share, mm }: { share: number; mm: number }): number =>
    share < 0.5 ? (mm * share) / (1 - 2 * share) : Infinity;
  const margin = Math.min(...sides.map(marginOf));
  const [x0, x1, y0, y1] = sides.map((side) =>
    marginOf(side) <= BARE * margin + 1 ? side.share : margin / (side.mm + 2 * margin),
  );
  if (1 - x0 - x1 < LEAST || 1 - y0 - y1 < LEAST) return undefined;
  return [
    [x0, y0],
    [1 - x1, y0],
    [1 - x1, 1 - y1],
    [x0, 1 - y1],
  ];
}

/**
 * From the first to the end of the last place with so much in it. The outermost `rim` may show the table beside the sheet: it counts only with
 * what lies next to it.
 */
function extentOf(counts: Float64Array, least: number, rim: number): [number, number] | undefined {
  const inner = counts.subarray(rim, counts.length - rim);
  const first = inner.findIndex((count) => count >= least);
  const last = inner.findLastIndex((count) => count >= least);
  if (first < 0) return undefined;
  return [
    first === 0 ? 0 : first + rim,
    last === inner.length - 1 ? counts.length : last + 1 + rim,
  ];
}

/** Rows of a mass that are looked at for a place inside it. */
const LOOKS = 24;

/** A place well inside a mass, pixels: the middle of the longest run among some of its rows. */
export function placeIn({ labels, map, regions }: Masses, region: number): Spot {
  const [x, y, w, h] = regions[region].bounds;
  let best: Spot = [x + w / 2, y + h / 2];
  let longest = 0;
  const step = Math.max(1, Math.floor(h / LOOKS));
  for (let row = y + Math.floor(step / 2); row < y + h; row += step) {
    let start = -1;
    for (let column = x; column <= x + w; column++) {
      const inside = column < x + w && labels[row * map.width + column] === region;
      if (inside && start < 0) start = column;
      if (!inside && start >= 0) {
        if (column - start > longest) {
          longest = column - start;
          best = [(start + column) / 2, row + 0.5];
        }
        start = -1;
      }
    }
  }
  return best;
}

/** In which third of the painting a place lies, across and down. */
export function thirdOf(
  [x, y]: Spot,
  { width, height }: { width: number; height: number },
): string {
  const third = (value: number): number => Math.min(2, Math.max(0, Math.floor(3 * value)));
  return `${third(x / width)}-${third(y / height)}`;
}
