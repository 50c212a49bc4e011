import { inSlices } from '../../core/worker/slices.js';
import {
  abortError,
  CoreError,
  outlinesSvgKernel,
  recolour,
  withPixelsPerMetre,
  type BandMap,
  type Lightness,
  type Masses,
  type Plan,
  type Progress,
} from '../shared/core.js';
import { arrowPaths } from '../shared/arrow-paths.js';
import { massesAsked, type MassWork } from '../shared/masses-in-hand.js';
import type { PlanStore } from '../shared/plan-store.js';
import { cutOf, palettePerBand, paletteOf } from '../value-band-viewer/cut.js';
import type { Layer, LayerKind, PhysicalSize } from './protocol.js';

/** A layer of a plan, as yet without a place in a host's picture. */
export type PlanLayer = Omit<Layer, 'place' | 'revision'>;

/** How layers of a plan are made. */
export interface PlanLayersOptions {
  /** What the layers are called; their kind where nothing is said. */
  names?: Partial<Record<LayerKind, string>>;
  /**
   * Closed rings of x, y, x, y, … in fractions of the painted part of the photo, even-odd; layers are empty outside them. A drawing
   * then comes as PNG, since its lines are cut.
   */
  within?: readonly (readonly number[])[];
  signal?: AbortSignal;
  onProgress?: (progress: Progress) => void;
}

/** Width of drawn lines on the paper, mm: a sharp pencil. Common practice, no source. */
const LINE_MM = 0.5;
/** A line of a drawing that is cut is at least this broad, pixels. */
const LEAST_LINE_PX = 1.25;
const MM_IN_METRE = 1000;

/** What layers are made from. */
interface Sight {
  plan: Plan;
  plane: Lightness;
  size: PhysicalSize;
  work?: MassWork;
  strokes?: { lines: string; heads: string };
  within?: PlanLayersOptions['within'];
  signal?: AbortSignal;
}

/**
 * Layers of a plan's photo, each as large as the painted part of it: flat bands and masses as PNG with their size on the paper; outlines,
 * lights that are kept and strokes as SVG in mm.
 *
 * @param store - a plan with its photo at its full working size
 * @throws {CoreError} by rejecting: `PictureMissing` without a photo that is ready, `AbortError` when given up, or an error of the core
 */
export async function planLayers(
  store: PlanStore,
  kinds: readonly LayerKind[],
  options: PlanLayersOptions = {},
): Promise<PlanLayer[]> {
  const { plan, picture } = store;
  const { plane, exact } = picture;
  if (!plane || !exact)
    throw new CoreError('PictureMissing', 'There is no picture that is ready; open one first.', {});
  const { widthMm } = plan.paper;
  const size = { widthMm, heightMm: (widthMm * plane.height) / plane.width };
  const sight: Sight = { plan, plane, size, within: options.within, signal: options.signal };
  const asked = massesAsked(plan);
  const { signal, onProgress } = options;
  if (kinds.some((kind) => kind !== 'bands' && kind !== 'strokes'))
    sight.work = await store.run('masses', asked, { signal, onProgress });
  if (kinds.includes('strokes')) {
    const { arrows } = await store.run('strokes', asked, { signal, onProgress });
    sight.strokes = arrowPaths(arrows);
  }
  const layers: PlanLayer[] = [];
  for (const kind of kinds) {
    if (signal?.aborted) throw abortError();
    const name = options.names?.[kind] ?? kind;
    layers.push({ kind, name, size, ...(await MADE[kind](sight, name)) });
  }
  return layers;
}

type Made = Pick<Layer, 'form' | 'data'>;

const MADE: Readonly<Record<LayerKind, (sight: Sight, name: string) => Promise<Made> | Made>> = {
  bands: (sight) => flat(sight, sight.plane, paletteOf(cutOf(sight.plan))),
  masses: (sight) => flat(sight, sight.work!.masses.map, palettePerBand(cutOf(sight.plan))),
  outlines: async (sight, name) => {
    const { masses, outlines, lines } = sight.work!;
    if (sight.within) return drawing(sight, name, [{ d: lines.outlines.join(''), ...LINE }]);
    const bands = bandNames(sight.plan, masses);
    const { widthMm } = sight.size;
    const svg = { widthMm, title: name, bands, strokeMm: LINE_MM };
    const data = await inSlices(outlinesSvgKernel(masses, outlines, svg), sight.signal);
    return { form: 'svg', data };
  },
  reserves: (sight, name) => {
    const { advice, lines, marks } = sight.work!;
    const kept = advice.lights.filter(({ method }) => method !== 'paint');
    const paths = kept.map(({ mark, region }) =>
      mark === undefined ? (lines.outlines[region] ?? '') : discOf(marks[mark]),
    );
    return drawing(
      sight,
      name,
      paths.map((d) => ({ d, fill: '#fff', ...LINE })),
    );
  },
  strokes: (sight, name) => {
    const { lines, heads } = sight.strokes!;
    return drawing(sight, name, [{ d: lines + heads, ...LINE }]);
  },
};

/** What the bands are called, that of bare paper last where there is one. */
function bandNames({ board }: Plan, { map }: Masses): string[] {
  return board.bands.slice(0, map.bands).map(({ name }) => name);
}

/** A shape or line of a drawing, in pixels of the plane. */
interface Shape {
  d: string;
  fill?: string;
  stroke: string;
}

const LINE = { stroke: '#000' };

const discOf = ({ x, y, area }: { x: number; y: number; area: number }): string => {
  const r = Math.sqrt(area / Math.PI);
  return `M${x - r} ${y}A${r} ${r} 0 1 0 ${x + r} ${y}A${r} ${r} 0 1 0 ${x - r} ${y}Z`;
};

/** Shapes as an SVG in mm, or as a PNG where they are cut. */
async function drawing(sight: Sight, name: string, shapes: readonly Shape[]): Promise<Made> {
  const { plane, size } = sight;
  const line = (LINE_MM * plane.width) / size.widthMm;
  if (sight.within) {
    const { canvas, context } = canvasOf(plane);
    context.lineWidth = Math.max(LEAST_LINE_PX, line);
    context.lineJoin = context.lineCap = 'round';
    for (const { d, fill, stroke } of shapes) {
      const path = new Path2D(d);
      if (fill) fillWith(context, path, fill);
      context.strokeStyle = stroke;
      context.stroke(path);
    }
    return pngOf(canvas, context, sight);
  }
  const paths = shapes.map(
    ({ d, fill = 'none', stroke }) => `<path d="${d}" fill="${fill}" stroke="${stroke}"/>`,
  );
  const { widthMm, heightMm } = size;
  const data =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${widthMm}mm" height="${heightMm}mm" viewBox="0 0 ${plane.width} ${plane.height}">` +
    `<title>${plainText(name)}</title>` +
    `<g fill-rule="evenodd" stroke-width="${line}" stroke-linejoin="round" stroke-linecap="round">${paths.join('')}</g></svg>`;
  return { form: 'svg', data };
}

const plainText = (text: string): string =>
  text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);

/** Codes or band numbers through a palette, as a PNG. */
function flat(sight: Sight, { data }: Lightness | BandMap, palette: Uint32Array): Promise<Made> {
  const { canvas, context } = canvasOf(sight.plane);
  const image = context.createImageData(canvas.width, canvas.height);
  recolour(data, palette, new Uint32Array(image.data.buffer));
  context.putImageData(image, 0, 0);
  return pngOf(canvas, context, sight);
}

function canvasOf({ width, height }: Lightness): {
  canvas: OffscreenCanvas;
  context: OffscreenCanvasRenderingContext2D;
} {
  const canvas = new OffscreenCanvas(width, height);
  return { canvas, context: canvas.getContext('2d')! };
}

function fillWith(context: OffscreenCanvasRenderingContext2D, path: Path2D, fill: string): void {
  context.fillStyle = fill;
  context.fill(path, 'evenodd');
}

/** The file of a canvas, empty outside the rings, with its size on the paper. */
async function pngOf(
  canvas: OffscreenCanvas,
  context: OffscreenCanvasRenderingContext2D,
  { within, size }: Sight,
): Promise<Made> {
  if (within) {
    const { width, height } = canvas;
    const path = new Path2D();
    for (const [x, y, ...rest] of within) {
      path.moveTo(x * width, y * height);
      for (let i = 0; i < rest.length; i += 2) path.lineTo(rest[i] * width, rest[i + 1] * height);
      path.closePath();
    }
    context.globalCompositeOperation = 'destination-in';
    fillWith(context, path, '#000');
  }
  const blob = await canvas.convertToBlob({ type: 'image/png' });
  const file = new Uint8Array(await blob.arrayBuffer());
  const perMetre = (canvas.width / size.widthMm) * MM_IN_METRE;
  return { form: 'png', data: withPixelsPerMetre(file, perMetre).buffer as ArrayBuffer };
}
