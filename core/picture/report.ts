import { expectNumber, expectObject, expectRaster, outOfRange, wrongType } from '../base/check.js';
import { byRows, finish, type Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lab, Lightness, Pixels } from '../base/types.js';
import {
  labOfLinear,
  leanOf,
  LINEAR_OF_SRGB,
  LUMINANCE_OF_RGB,
  type LeanName,
} from '../colour/index.js';
import { lightnessOfCode } from '../units/index.js';
import { expectPixels } from './lightness.js';
import { clippedAt, percentile } from './reading.js';

/** Fraction of clipped pixels from which it is worth a word (common practice, no source). */
const MUCH_CLIPPED = 0.01;
/** L* between the 1 % and 99 % points below which a photo is called flat (common practice, no source). */
const NARROW_RANGE = 60;
/** Chroma of the estimated white from which it counts as a cast (our own choice: well above the just noticeable difference). */
const CAST_FROM = 8;
/** Contrast in codes that makes an edge a strong one: 15 L* (our own choice). */
const STRONG_EDGE = 38;
/** Strong edges needed for a verdict on sharpness. */
const ENOUGH_EDGES = 12;
/** Edge width in pixels of the working copy from which it is called soft (common practice, no source). */
const SOFT_FROM = 4;
/** Pixels across a brush below which the photo cannot tell what the brush could state (common practice, no source). */
const COARSE_BELOW = 3;
/** Lines looked at for edges, each way, at most. */
const EDGE_LINES = 1000;

export interface PhotoReportOptions {
  /** Only pixels where this is not 0 count: width x height bytes. At least one must be set. */
  where?: Uint8Array;
  /** The brush's pressed width in pixels of the plane, more than 0. */
  brushPx?: number;
  /** Pixels of the full photo for each pixel of the plane along a side, at least 1 (1 when missing). */
  fullScale?: number;
}

/** What a photo can tell, in figures; `tellings` says the same in codes, one for each topic. */
export interface PhotoReport {
  /** Pixels looked at. */
  count: number;
  clipped: {
    /** Fraction of pixels with all channels at 2 or less. */
    darks: number;
    /** Fraction of pixels with any channel at 254 or more. */
    lights: number;
  };
  /** L* that 1 %, 50 % and 99 % of the pixels do not exceed. */
  range: { low: number; middle: number; high: number };
  /** The light's colour, estimated twice; see {@link photoReport}. */
  cast: {
    verdict: 'none' | 'cast' | 'unsure';
    /** The lean of the mean of the two estimates. */
    lean: LeanName;
    /** Chroma of that mean: how far white paper would lean in this light. */
    strength: number;
    /** 1 when the two estimates agree, 0.5 when they are 8 units apart, toward 0 beyond; 0 when there was nothing to estimate from. */
    confidence: number;
    /** White (L* 100) in the light estimated from the mean of all unclipped pixels. */
    whole: Lab;
    /** White (L* 100) in the light estimated mostly from the lightest unclipped pixels. */
    lights: Lab;
  };
  sharpness: {
    verdict: 'sharp' | 'soft' | 'unsure';
    /** Strong edges found. */
    edges: number;
    /** Median width of the steepest quarter of them in pixels of the plane; 0 when there are too few. */
    widthPx: number;
    /** The same in pixels of the full photo. */
    fullWidthPx: number;
  };
  /** Present when a brush was given: pixels across it, in the plane and in the full photo. */
  brush?: { px: number; fullPx: number };
  /**
   * One for each topic, good news too:
   * `photo.darks-clipped` | `photo.darks-kept` {percent} · `photo.lights-clipped` | `photo.lights-kept` {percent} ·
   * `photo.range-narrow` | `photo.range-full` {low, middle, high, span} ·
   * `photo.cast` {lean, strength, confidence} | `photo.cast-none` {strength, confidence} | `photo.cast-unsure` {whole, lights: leans, confidence} ·
   * `photo.soft` | `photo.sharp` {widthPx, fullWidthPx, edges} | `photo.sharpness-unsure` {edges} ·
   * with a brush: `photo.brush-coarse` | `photo.brush-fine` {px, fullPx, edgesPerBrush: brush widths over edge width, 0 when not known}.
   */
  tellings: Reason[];
}

/**
 * What a photo can tell a painter.
 *
 * **Cast.** Two estimates of the light's colour from unclipped pixels: the mean (grey world; Buchsbaum 1980, "A spatial processor
 * model for object colour perception") and the Minkowski mean of power 6, ruled by the lightest (shades of grey; Finlayson & Trezzi 2004).
 * Each is told as the Lab of white in that light. Both near neutral: none. Both away from it in directions
 * within 45 degrees: a cast. Else they disagree and the verdict is unsure: a subject of one hue looks like a cast.
 *
 * **Sharpness.** Along rows and columns of the plane, stretches of L* that rise or fall by at least 15; width of each = its contrast /
 * its steepest step, across the edge (after Marziliano et al. 2002, who take the stretch's length). An edge blurred by a Gaussian of
 * sigma has this width at 2.507 sigma, near its 10-90 % width of 2.563 sigma; a perfectly sharp one has 1. The
 * median of the steepest quarter is told (in steps of 0.05 pixels): a photo is as sharp as its sharp edges, soft forms are not held against it.
 *
 * @param pixels straight-alpha RGBA, sRGB, of the working copy
 * @param plane its lightness (same size); may carry the painter's own values
 * @throws TypeError, RangeError naming the argument
 */
export function photoReport(
  pixels: Pixels,
  plane: Lightness,
  options: PhotoReportOptions = {},
): PhotoReport {
  return finish(photoReportKernel(pixels, plane, options));
}

/** {@link photoReport} in slices. */
export function photoReportKernel(
  pixels: Pixels,
  plane: Lightness,
  options: PhotoReportOptions = {},
): Kernel<PhotoReport> {
  expectPixels('pixels', pixels);
  expectRaster('plane', plane, 1);
  if (plane.width !== pixels.width || plane.height !== pixels.height) {
    throw outOfRange(
      'plane',
      `${plane.width} x ${plane.height}`,
      `the size of pixels, ${pixels.width} x ${pixels.height}`,
    );
  }
  expectObject('options', options);
  const { where, brushPx, fullScale = 1 } = options;
  if (where !== undefined) {
    if (!(where instanceof Uint8Array)) throw wrongType('options.where', where, 'a Uint8Array');
    if (where.length !== plane.data.length)
      throw outOfRange('options.where', where, `${plane.data.length} bytes`);
    if (!holdsAny(where)) throw outOfRange('options.where', 'all 0', 'at least one pixel set');
  }
  if (brushPx !== undefined) expectNumber('options.brushPx', brushPx, Number.MIN_VALUE);
  expectNumber('options.fullScale', fullScale, 1e-9);
  return report(pixels, plane, where, brushPx, fullScale);
}

/** A plain loop: some() takes longer than a frame on a mask of 4 megapixels. */
function holdsAny(mask: Uint8Array): boolean {
  for (let i = 0; i < mask.length; i++) if (mask[i] !== 0) return true;
  return false;
}

function* report(
  pixels: Pixels,
  plane: Lightness,
  where: Uint8Array | undefined,
  brushPx: number | undefined,
  fullScale: number,
): Kernel<PhotoReport> {
  const tally = yield* share(tallyOf(pixels, plane, where), 0, 0.5);
  const edges = yield* share(edgesOf(plane, where), 0.5, 1);
  const { count, histogram } = tally;
  const figures = {
    count,
    clipped: { darks: tally.darks / count, lights: tally.lights / count },
    range: {
      low: lightnessOfCode(percentile(histogram, count, 0.01)),
      middle: lightnessOfCode(percentile(histogram, count, 0.5)),
      high: lightnessOfCode(percentile(histogram, count, 0.99)),
    },
    cast: castOf(tally),
    sharpness: sharpnessOf(edges, fullScale),
    ...(brushPx === undefined ? {} : { brush: { px: brushPx, fullPx: brushPx * fullScale } }),
  };
  return { ...figures, tellings: tellingsOf(figures) };
}

/** A kernel whose progress counts as from..to of a longer one. */
function* share<T>(kernel: Kernel<T>, from: number, to: number): Kernel<T> {
  for (;;) {
    const step = kernel.next();
    if (step.done) return step.value;
    yield from + (to - from) * step.value;
  }
}

interface Tally {
  count: number;
  histogram: Uint32Array;
  lights: number;
  darks: number;
  /** Unclipped, opaque pixels: count, sums of linear light and of its sixth power. */
  kept: number;
  sums: Float64Array;
  sixths: Float64Array;
}

const SIXTH_POWER = LINEAR_OF_SRGB.map((light) => light ** 6);

function* tallyOf(
  { width, height, data }: Pixels,
  plane: Lightness,
  where?: Uint8Array,
): Kernel<Tally> {
  const histogram = new Uint32Array(256);
  const sums = new Float64Array(3);
  const sixths = new Float64Array(3);
  const tally: Tally = { count: 0, histogram, lights: 0, darks: 0, kept: 0, sums, sixths };
  const codes = plane.data;
  yield* byRows(height, width, (from, to) => {
    let [lights, darks, kept, count] = [0, 0, 0, 0];
    let [red, green, blue, red6, green6, blue6] = [0, 0, 0, 0, 0, 0];
    for (let i = from * width, k = 4 * i; i < to * width; i++, k += 4) {
      if (where !== undefined && where[i] === 0) continue;
      count++;
      histogram[codes[i]]++;
      const clip = clippedAt(data, k);
      if (clip > 0) lights++;
      if (clip < 0) darks++;
      if (clip !== 0 || data[k + 3] !== 255) continue;
      kept++;
      red += LINEAR_OF_SRGB[data[k]];
      green += LINEAR_OF_SRGB[data[k + 1]];
      blue += LINEAR_OF_SRGB[data[k + 2]];
      red6 += SIXTH_POWER[data[k]];
      green6 += SIXTH_POWER[data[k + 1]];
      blue6 += SIXTH_POWER[data[k + 2]];
    }
    tally.count += count;
    tally.lights += lights;
    tally.darks += darks;
    tally.kept += kept;
    [red, green, blue].forEach((sum, c) => (sums[c] += sum));
    [red6, green6, blue6].forEach((sum, c) => (sixths[c] += sum));
  });
  return tally;
}

/** White in a light of this linear colour. */
function whiteIn(light: Float64Array): Lab {
  const luminance = light.reduce((sum, part, c) => sum + part * LUMINANCE_OF_RGB[c], 0);
  return luminance > 0
    ? labOfLinear(light[0] / luminance, light[1] / luminance, light[2] / luminance)
    : [100, 0, 0];
}

function castOf({ kept, sums, sixths }: Tally): PhotoReport['cast'] {
  const whole = whiteIn(sums);
  const lights = whiteIn(sixths.map((sum) => (sum / Math.max(1, kept)) ** (1 / 6)));
  const [a, b] = [(whole[1] + lights[1]) / 2, (whole[2] + lights[2]) / 2];
  const { name: lean, chroma: strength } = leanOf([100, a, b]);
  const apart = Math.hypot(whole[1] - lights[1], whole[2] - lights[2]);
  const [farWhole, farLights] = [Math.hypot(whole[1], whole[2]), Math.hypot(lights[1], lights[2])];
  const along = whole[1] * lights[1] + whole[2] * lights[2];
  const sameWay = along >= Math.SQRT1_2 * farWhole * farLights;
  let verdict: PhotoReport['cast']['verdict'] = 'unsure';
  if (kept > 0 && farWhole < CAST_FROM && farLights < CAST_FROM) verdict = 'none';
  if (kept > 0 && farWhole >= CAST_FROM && farLights >= CAST_FROM && sameWay) verdict = 'cast';
  const confidence = kept > 0 ? CAST_FROM / (CAST_FROM + apart) : 0;
  return { verdict, lean, strength, confidence, whole, lights };
}

/** Steps of the counts of edge widths, for each pixel; wider edges than the last count as that. */
const WIDTH_STEPS = 20;
const WIDTH_COUNTS = 64 * WIDTH_STEPS + 1;
/** Steepest step across an edge, in codes a pixel: 255 along a line and as much aside of it is 361. */
const STEEPNESS_COUNTS = 362;

/** Strong edges, counted by steepness across the edge (whole codes a pixel) and, in it, by width. */
interface Edges {
  count: number;
  counts: Uint32Array;
}

function* edgesOf({ width, height, data }: Lightness, where?: Uint8Array): Kernel<Edges> {
  const edges: Edges = {
    count: 0,
    counts: new Uint32Array(STEEPNESS_COUNTS * WIDTH_COUNTS),
  };
  const lines = function* (
    count: number,
    length: number,
    stride: number,
    step: number,
  ): Kernel<void> {
    const every = Math.max(1, Math.ceil(count / EDGE_LINES));
    yield* byRows(Math.ceil(count / every), length, (from, to) => {
      for (let i = from; i < to; i++) {
        const line = i * every;
        const inner = line > 0 && line < count - 1;
        edgesOfLine(data, where, line * stride, length, step, inner ? stride : 0, edges);
      }
    });
  };
  yield* share(lines(height, width, width, 1), 0, 0.5);
  yield* share(lines(width, height, 1, width), 0.5, 1);
  return edges;
}

/** Flat pixels after which a stretch has ended. */
const FLAT_ENDS = 8;

/**
 * The strong edges along one line of `length` pixels, `step` apart from `start` on; `aside` is the distance to the
 * neighbouring lines (0 when there are none).
 */
function edgesOfLine(
  data: Uint8Array,
  where: Uint8Array | undefined,
  start: number,
  length: number,
  step: number,
  aside: number,
  edges: Edges,
): void {
  let direction = 0;
  let foot = data[start];
  let top = foot;
  let topAt = 0;
  let steepest = 0;
  let steepestAt = start;
  const end = (): void => {
    const contrast = Math.abs(top - foot);
    if (contrast < STRONG_EDGE || (where !== undefined && where[steepestAt] === 0)) return;
    const before = steepestAt - step;
    const across =
      aside === 0
        ? 0
        : (data[steepestAt + aside] +
            data[before + aside] -
            data[steepestAt - aside] -
            data[before - aside]) /
          4;
    // Edges nearer the line's own direction are found by the lines that cross them.
    if (Math.abs(across) > steepest) return;
    const steepness = Math.hypot(steepest, across);
    const width = Math.min(WIDTH_COUNTS - 1, Math.round((WIDTH_STEPS * contrast) / steepness));
    edges.counts[Math.floor(steepness) * WIDTH_COUNTS + width]++;
    edges.count++;
  };
  for (let i = 1, at = start + step; i < length; i++, at += step) {
    const value = data[at];
    const rise = value - data[at - step];
    const turned = direction !== 0 && (value - top) * direction < -1;
    if (turned || (direction !== 0 && i - topAt > FLAT_ENDS)) {
      end();
      direction = 0;
      foot = turned ? top : data[at - step];
      steepest = 0;
    }
    if (direction === 0) {
      if (value === foot) continue;
      direction = value > foot ? 1 : -1;
      top = value;
      topAt = i;
    } else if ((value - top) * direction > 0) {
      top = value;
      topAt = i;
    }
    if (rise * direction > steepest) {
      steepest = rise * direction;
      steepestAt = at;
    }
  }
  end();
}

function sharpnessOf({ count, counts }: Edges, fullScale: number): PhotoReport['sharpness'] {
  if (count < ENOUGH_EDGES) return { verdict: 'unsure', edges: count, widthPx: 0, fullWidthPx: 0 };
  const widths = new Uint32Array(WIDTH_COUNTS);
  let steep = 0;
  for (let s = STEEPNESS_COUNTS - 1; s >= 0 && steep < count / 4; s--) {
    for (let w = 0; w < WIDTH_COUNTS; w++) {
      widths[w] += counts[s * WIDTH_COUNTS + w];
      steep += counts[s * WIDTH_COUNTS + w];
    }
  }
  let seen = widths[0];
  let middle = 0;
  while (seen < steep / 2) seen += widths[++middle];
  const widthPx = middle / WIDTH_STEPS;
  return {
    verdict: widthPx >= SOFT_FROM ? 'soft' : 'sharp',
    edges: count,
    widthPx,
    fullWidthPx: widthPx * fullScale,
  };
}

function tellingsOf(report: Omit<PhotoReport, 'tellings'>): Reason[] {
  const { clipped, range, cast, sharpness, brush } = report;
  const clipping = (kind: 'darks' | 'lights'): Reason =>
    reason(`photo.${kind}-${clipped[kind] >= MUCH_CLIPPED ? 'clipped' : 'kept'}`, {
      percent: 100 * clipped[kind],
    });
  const span = range.high - range.low;
  const { strength, confidence } = cast;
  const { widthPx, fullWidthPx, edges } = sharpness;
  const tellings = [
    clipping('darks'),
    clipping('lights'),
    reason(span < NARROW_RANGE ? 'photo.range-narrow' : 'photo.range-full', { ...range, span }),
    cast.verdict === 'cast'
      ? reason('photo.cast', { lean: cast.lean, strength, confidence })
      : cast.verdict === 'none'
        ? reason('photo.cast-none', { strength, confidence })
        : reason('photo.cast-unsure', {
            whole: leanOf(cast.whole).name,
            lights: leanOf(cast.lights).name,
            confidence,
          }),
    sharpness.verdict === 'unsure'
      ? reason('photo.sharpness-unsure', { edges })
      : reason(`photo.${sharpness.verdict}`, { widthPx, fullWidthPx, edges }),
  ];
  if (brush) {
    const edgesPerBrush = widthPx > 0 ? brush.px / widthPx : 0;
    const code = brush.fullPx < COARSE_BELOW ? 'photo.brush-coarse' : 'photo.brush-fine';
    tellings.push(reason(code, { ...brush, edgesPerBrush }));
  }
  return tellings;
}
