import { expectNumber, expectObject, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import { drawing, escaped, mm, tag } from '../base/svg.js';
import { expectMasses } from './check.js';
import type { Masses, Outline } from './types.js';

/** What {@link outlinesSvg} may be told. */
export interface OutlinesSvgOptions {
  /** Width of the picture on the paper, mm, above 0; its height follows from the picture's form. */
  widthMm: number;
  /** What the drawing is called. */
  title?: string;
  /** What each band is called, the darkest first. */
  bands?: readonly string[];
  /** What each mass is called, by its number; a mass without a name is left without a title. */
  names?: readonly (string | undefined)[];
  /** CSS colours to fill the masses with, one a band; without them the masses are outlines alone. */
  fills?: readonly string[];
  /** Width of the lines, mm, 0..100; 0.2 when absent, none at 0. */
  strokeMm?: number;
}

/**
 * The outlines of masses as an SVG file at true size: width and height in mm, and one unit of the drawing is 1 mm. Each mass is one path
 * with the id `mass-N`, in a group `band-N` a band; names stand as `title`. Neighbours share their border point for point, whole
 * thousandths of a mm. Presentation attributes only: no scripts, no styles, nothing fetched.
 *
 * @param masses - The masses.
 * @param outlines - What `outlinesOf` gave for them.
 * @throws TypeError, RangeError naming the argument
 */
export function outlinesSvg(
  masses: Masses,
  outlines: readonly Outline[],
  options: OutlinesSvgOptions,
): string {
  return finish(outlinesSvgKernel(masses, outlines, options));
}

/** {@link outlinesSvg} in slices, a mass each; arguments are checked at once. */
export function outlinesSvgKernel(
  masses: Masses,
  outlines: readonly Outline[],
  options: OutlinesSvgOptions,
): Kernel<string> {
  expectMasses('masses', masses);
  if (!Array.isArray(outlines)) throw wrongType('outlines', outlines, 'an array of outlines');
  expectObject('options', options);
  const width = expectNumber('options.widthMm', options.widthMm, 0.001, 100_000);
  const stroke = expectNumber('options.strokeMm', options.strokeMm ?? 0.2, 0, 100);
  return written(masses, outlines, options, { width, stroke });
}

function* written(
  masses: Masses,
  outlines: readonly Outline[],
  options: OutlinesSvgOptions,
  { width, stroke }: { width: number; stroke: number },
): Kernel<string> {
  const scale = width / masses.map.width;
  const height = scale * masses.map.height;
  const paths = Array.from({ length: masses.map.bands }, () => '');
  for (const [i, outline] of outlines.entries()) {
    const region = masses.regions[outline.region];
    if (!region || outline.rings.length === 0) continue;
    paths[region.band] += massPath(outline, scale, options.names?.[outline.region]);
    yield (i + 1) / outlines.length;
  }
  const groups = paths.map((inside, band) => {
    const fill = options.fills?.[band] ?? 'none';
    return inside && tag('g', { id: `band-${band}`, fill }, titled(options.bands?.[band]) + inside);
  });
  const lines =
    stroke > 0
      ? { stroke: '#000', 'stroke-width': stroke, 'stroke-linejoin': 'round' }
      : { stroke: 'none' };
  return drawing(
    [width, height],
    {},
    titled(options.title) + tag('g', { ...lines, 'fill-rule': 'evenodd' }, groups.join('')),
  );
}

const titled = (name?: string): string => (name ? tag('title', {}, escaped(name)) : '');

function massPath({ region, rings }: Outline, scale: number, name?: string): string {
  const d = rings.map((ring) => ringPath(ring, scale)).join('');
  return tag('path', { id: `mass-${region}`, d }, titled(name));
}

/** A closed ring in mm. */
function ringPath(ring: Float32Array, scale: number): string {
  let path = '';
  for (let i = 0; i + 1 < ring.length; i += 2)
    path += `${i === 0 ? 'M' : 'L'}${mm(scale * ring[i])} ${mm(scale * ring[i + 1])}`;
  return path === '' ? '' : `${path}Z`;
}
