import type { Lightness } from '../base/types.js';

/** Slope over two pixels, codes, from which a place counts as an edge: gentler ones are noise and washes. */
const LEAST_SLOPE = 6;
/** Of an edge's steepest slope, the share at which the edge ends. */
const ENDS_AT = 0.15;
/** Fewer edges tell nothing. */
const ENOUGH = 30;
/** Every so many rows and columns are looked at. */
const EVERY = 6;

/**
 * How wide the sharpest tenth of the clearest edges is, in pixels; undefined when there are too few edges. The width of an edge is its step
 * over its steepest slope: of a step that a Gaussian of standard deviation s has blurred, sqrt(2 pi) s = 2.507 s, near its 10-90 % rise of
 * 2.563 s (the edge response of ISO 12233). Since a photo is as sharp as its sharp edges, soft ones are not held against it.
 *
 * @param inside only where this is not 0 are edges looked at: width x height bytes
 */
export function sharpestEdge(
  { width, height, data }: Lightness,
  inside: Uint8Array,
): number | undefined {
  const edges: { size: number; width: number }[] = [];
  const scan = (start: number, step: number, count: number): void => {
    const slope = (i: number): number =>
      data[start + (i + 1) * step] - data[start + (i - 1) * step];
    for (let i = 2; i + 2 < count; i++) {
      const here = slope(i);
      const size = Math.abs(here);
      if (size < LEAST_SLOPE || !inside[start + i * step]) continue;
      if (Math.abs(slope(i - 1)) > size || Math.abs(slope(i + 1)) >= size) continue;
      const sign = Math.sign(here);
      let a = i;
      let b = i;
      while (a > 1 && sign * slope(a - 1) > ENDS_AT * size) a--;
      while (b + 2 < count && sign * slope(b + 1) > ENDS_AT * size) b++;
      const high = sign * (data[start + (b + 1) * step] - data[start + (a - 1) * step]);
      edges.push({ size, width: (2 * high) / size });
    }
  };
  for (let y = 0; y < height; y += EVERY) scan(y * width, 1, width);
  for (let x = 0; x < width; x += EVERY) scan(x, width, height);
  if (edges.length < ENOUGH) return undefined;
  // The steepest have a say; noise makes many gentle ones.
  edges.sort((a, b) => b.size - a.size);
  const widths = edges.slice(0, Math.max(ENOUGH, edges.length >> 3)).map((edge) => edge.width);
  return widths.sort((a, b) => a - b)[Math.floor(widths.length / 10)];
}
