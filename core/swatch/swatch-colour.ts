import { cssLabOf, cssOfLab, labOf, linearOfLab, srgbOfLinear } from '../colour/index.js';
import type { Lab } from '../base/types.js';
import type { BoardSwatch } from './types.js';

/** What a swatch looks like, in the ways that files write it. */
export interface SwatchColour {
  /** CIELAB, D65. */
  lab: Lab;
  /** The colour of sRGB that shows it: the same lightness, less chroma where sRGB has too little. */
  hex: string;
  /** sRGB components, 0..1, five decimals; absent when sRGB cannot show the colour. */
  srgb?: [r: number, g: number, b: number];
}

/** What a swatch looks like: as it was measured, else as its CSS colour says, else a grey of its lightness. */
export function colourOf(swatch: BoardSwatch): SwatchColour {
  const lab = swatch.lab ?? labOfText(swatch.css) ?? ([swatch.lightness, 0, 0] satisfies Lab);
  const { css, outOfGamut } = cssOfLab(lab);
  if (outOfGamut) return { lab, hex: css };
  const [r, g, b] = linearOfLab(lab).map((light) => rounded(clamped(srgbOfLinear(light)), 5));
  return { lab, hex: css, srgb: [r, g, b] };
}

function labOfText(css: string | undefined): Lab | undefined {
  if (css === undefined) return undefined;
  try {
    return labOf(css);
  } catch {
    return undefined; // no colour that has a value outside a page
  }
}

/** The figures of CSS `lab()`, whose white is D50; three decimals. */
export const labFigures = (lab: Lab): [L: number, a: number, b: number] => {
  const [L, a, b] = cssLabOf(lab).map((figure) => rounded(figure, 3));
  return [Math.min(100, Math.max(0, L)), a, b];
};

const clamped = (value: number): number => Math.min(1, Math.max(0, value));

/** Rounded to so many decimals; never -0. */
export const rounded = (value: number, decimals: number): number =>
  Math.round(value * 10 ** decimals) / 10 ** decimals || 0;

/**
 * What a file says of a swatch without words: `L* 42.3 ± 1`, then the painter's note. Elements that have words give their own.
 */
export function plainDescription({ lightness, uncertainty, note }: BoardSwatch): string {
  const about = uncertainty ? ` ± ${rounded(uncertainty, 1)}` : '';
  return `L* ${rounded(lightness, 1)}${about}${note ? ` · ${note}` : ''}`;
}

/** The swatches of each bucket, darkest bucket first, in the board's order; their places on the board beside them. */
export function swatchesByBucket(
  swatches: readonly BoardSwatch[],
  buckets: number,
): { swatch: BoardSwatch; place: number }[][] {
  const placed = swatches.map((swatch, place) => ({ swatch, place }));
  return Array.from({ length: buckets }, (_, bucket) =>
    placed.filter(({ swatch }) => swatch.bucket === bucket),
  );
}
