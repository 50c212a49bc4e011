import { expectInteger, expectObject, outOfRange, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import type { Lab, Pixels, Step } from '../base/types.js';
import { byteOfLinear, deltaE2000, linearOfLab } from '../colour/index.js';
import type { Board, BoardSwatch } from '../swatch/types.js';

/** A part to be filled with one colour: a mass or a passage of one. */
export interface RehearsedPart {
  /** Its label. */
  id: number;
  /** The mass that it is a part of. */
  region: number;
  /** The colour it is filled with when its step is done, CIELAB D65. */
  lab: Lab;
}

/** Two neighbouring parts that run into each other. */
export interface SoftBorder {
  parts: [number, number];
  /** How broad the passage from one to the other is, 10 to 90 %, pixels. */
  widthPx: number;
}

/** A mark that is put on last, or kept out as paper. */
export interface RehearsedMark {
  x: number;
  y: number;
  /** Pixels; it is drawn as a disc of this area. */
  area: number;
  lab: Lab;
  /** Whether it is kept from the start (a light) or put on with the last step (a dark). */
  kept: boolean;
}

/** What {@link rehearse} fills. */
export interface Rehearsal {
  width: number;
  height: number;
  /** The part of each pixel, row-major; every label is the id of one of `parts`. */
  labels: Int32Array;
  parts: RehearsedPart[];
  soft?: SoftBorder[];
  marks?: RehearsedMark[];
  /** Colour of the bare paper; L* 95 when absent. */
  paper?: Lab;
  /** With it, only masses laid in steps up to `upToStep` (counted from 0, itself included) are filled. */
  steps?: readonly Step[];
  upToStep?: number;
}

/** A border broader than this is drawn as broad as this, pixels. */
const BROADEST = 48;
/** Places of a border that are looked at stand this much of its breadth apart. */
const COARSE = 16;

/**
 * The painting before it is painted: each part is flat paint of its colour, soft borders pass from one colour to the other in
 * linear light along the cumulative normal distribution (the edge of a wash seen as a step blurred by a Gaussian; 10 to 90 % is 2.563
 * standard deviations), what is still to come is bare paper.
 *
 * @returns opaque sRGB pixels of the size of `labels`
 * @throws {TypeError} {RangeError} naming the argument, also when a pixel's label is no part's id.
 */
export function rehearse(rehearsal: Rehearsal): Pixels {
  return finish(rehearseKernel(rehearsal));
}

/** {@link rehearse} in slices. */
export function* rehearseKernel(rehearsal: Rehearsal): Kernel<Pixels> {
  const { width, height, labels, parts, marks = [], soft = [] } = expectRehearsal(rehearsal);
  const paper = linearOfLab(rehearsal.paper ?? [95, 0, 0]);
  const laid = laidMasses(rehearsal);
  const colours = new Float64Array(3 * parts.length);
  const place = new Map<number, number>();
  parts.forEach(({ id, region, lab }, i) => {
    place.set(id, i);
    colours.set(laid === undefined || laid.has(region) ? linearOfLab(lab) : paper, 3 * i);
  });

  const count = width * height;
  const index = new Int32Array(count);
  let [label, at] = [NaN, 0];
  for (let i = 0; i < count; i++) {
    // Neighbours are mostly of one part.
    if (labels[i] !== label) {
      label = labels[i];
      const found = place.get(label);
      if (found === undefined)
        throw outOfRange(`labels[${i}]`, label, 'the id of a part in `parts`');
      at = found;
    }
    index[i] = at;
    if ((i & 0x3ffff) === 0x3ffff) yield (0.2 * i) / count;
  }
  yield 0.2;
  const { share, other } = yield* softShares(index, width, height, place, soft);

  const data = new Uint8ClampedArray(4 * count);
  const bytes = new Uint8Array(3 * parts.length);
  colours.forEach((value, i) => (bytes[i] = byteOfLinear(value)));
  for (let y = 0; y < height; y++) {
    for (let i = y * width; i < (y + 1) * width; i++) {
      const own = 3 * index[i];
      const t = share[i];
      for (let c = 0; c < 3; c++) {
        data[4 * i + c] =
          t === 0
            ? bytes[own + c]
            : byteOfLinear((1 - t) * colours[own + c] + t * colours[3 * other[i] + c]);
      }
      data[4 * i + 3] = 255;
    }
    if (y % 64 === 63) yield 0.6 + (0.4 * y) / height;
  }
  const last = rehearsal.steps?.length ? rehearsal.steps.length - 1 : 0;
  const ended = rehearsal.steps === undefined || (rehearsal.upToStep ?? last) >= last;
  for (const mark of marks) if (mark.kept || ended) drawMark(data, width, height, mark);
  return { width, height, data };
}

/** Masses that are laid by now; `undefined` when all are. */
function laidMasses({ steps, upToStep }: Rehearsal): Set<number> | undefined {
  if (steps === undefined) return undefined;
  return new Set(
    steps.slice(0, (upToStep ?? steps.length - 1) + 1).flatMap((s) => s.regions ?? []),
  );
}

/**
 * For pixels near a soft border: how much of the other side's colour they take, and which part that is. The nearest border counts
 * (distance from pixel centre to the middle of the pixel side between the parts).
 */
function* softShares(
  index: Int32Array,
  width: number,
  height: number,
  place: ReadonlyMap<number, number>,
  soft: readonly SoftBorder[],
): Kernel<{ share: Float32Array; other: Int32Array }> {
  const share = new Float32Array(index.length);
  const other = new Int32Array(index.length);
  if (soft.length === 0) return { share, other };
  const widths = new Map<number, number>();
  const parts = place.size;
  for (const { parts: pair, widthPx } of soft) {
    const [a, b] = pair.map((id) => place.get(id));
    if (a === undefined || b === undefined || !(widthPx > 0)) continue;
    widths.set(Math.min(a, b) * parts + Math.max(a, b), Math.min(widthPx, BROADEST));
  }
  // Squared distance to the nearest soft border, and its standard deviation.
  const nearest = new Float32Array(index.length).fill(Infinity);
  const sigmas = new Float32Array(index.length);
  const spread = (x: number, y: number, a: number, b: number, wide: number): void => {
    const sigma = wide / 2.563;
    const reach = Math.ceil(2.5 * sigma);
    const left = Math.max(0, Math.floor(x - reach));
    const right = Math.min(width - 1, Math.ceil(x + reach));
    const bottom = Math.min(height - 1, Math.ceil(y + reach));
    for (let py = Math.max(0, Math.floor(y - reach)); py <= bottom; py++) {
      const up = (py + 0.5 - y) * (py + 0.5 - y);
      for (let px = left, i = py * width + left; px <= right; px++, i++) {
        const far = up + (px + 0.5 - x) * (px + 0.5 - x);
        if (far >= nearest[i] || far > reach * reach) continue;
        const own = index[i];
        if (own !== a && own !== b) continue;
        nearest[i] = far;
        sigmas[i] = sigma;
        other[i] = own === a ? b : a;
      }
    }
  };
  const widthOf = (a: number, b: number): number =>
    widths.get(Math.min(a, b) * parts + Math.max(a, b)) ?? 0;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const a = index[y * width + x];
      const right = x + 1 < width ? index[y * width + x + 1] : a;
      const below = y + 1 < height ? index[(y + 1) * width + x] : a;
      if (a === right && a === below) continue;
      // Of a broad border not every place is needed to know how far it is.
      const across = a === right ? 0 : widthOf(a, right);
      if (across > 0 && y % Math.ceil(across / COARSE) === 0)
        spread(x + 1, y + 0.5, a, right, across);
      const down = a === below ? 0 : widthOf(a, below);
      if (down > 0 && x % Math.ceil(down / COARSE) === 0) spread(x + 0.5, y + 1, a, below, down);
    }
    if (y % 16 === 15) yield 0.2 + (0.3 * y) / height;
  }
  for (let i = 0; i < share.length; i++) {
    if (nearest[i] < Infinity) share[i] = upperTail(Math.sqrt(nearest[i]) / sigmas[i]);
    if ((i & 0x3ffff) === 0x3ffff) yield 0.5 + (0.1 * i) / share.length;
  }
  return { share, other };
}

/**
 * The upper tail of the standard normal distribution for z >= 0: Abramowitz & Stegun 1964, 26.2.17 (error below 7.5e-8).
 */
export function upperTail(z: number): number {
  const t = 1 / (1 + 0.2316419 * z);
  const series =
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return (series * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
}

function drawMark(
  data: Uint8ClampedArray,
  width: number,
  height: number,
  { x, y, area, lab }: RehearsedMark,
): void {
  const radius = Math.max(0.5, Math.sqrt(Math.max(0, area) / Math.PI));
  const bytes = linearOfLab(lab).map(byteOfLinear);
  const bottom = Math.min(height - 1, Math.ceil(y + radius));
  const right = Math.min(width - 1, Math.ceil(x + radius));
  for (let py = Math.max(0, Math.floor(y - radius)); py <= bottom; py++)
    for (let px = Math.max(0, Math.floor(x - radius)); px <= right; px++)
      if (Math.hypot(px + 0.5 - x, py + 0.5 - y) <= radius) data.set(bytes, 4 * (py * width + px));
}

function expectRehearsal(value: Rehearsal): Rehearsal {
  expectObject('rehearsal', value);
  const width = expectInteger('width', value.width, 1, 2 ** 16);
  const height = expectInteger('height', value.height, 1, 2 ** 16);
  const { labels, parts, steps, upToStep } = value;
  if (!(labels instanceof Int32Array)) throw wrongType('labels', labels, 'an Int32Array');
  if (labels.length !== width * height)
    throw outOfRange('labels', labels, `${width * height} labels`);
  if (!Array.isArray(parts)) throw wrongType('parts', parts, 'a list of parts');
  if (steps !== undefined && !Array.isArray(steps)) throw wrongType('steps', steps, 'a list');
  if (upToStep !== undefined) expectInteger('upToStep', upToStep, -1, 1_000_000);
  return value;
}

/** What a part of the picture asks for. */
export interface WantedColour {
  id: number;
  /** The band of its mass, 0 the darkest. */
  band: number;
  /** The photo's mean colour in it. */
  lab: Lab;
}

/** The colour that a part gets. */
export interface AssignedColour {
  id: number;
  lab: Lab;
  /** The board's swatch that it comes from; none: the bucket is empty and a grey of the band's value stands in. */
  swatch?: string;
}

/**
 * The board's colour for each part: of its bucket's dry swatches with a colour (accents apart) the one whose lean is nearest to the
 * photo's (CIEDE2000 at equal L*, so that the value a swatch is proved for is never traded for hue). An empty bucket gives a neutral grey in
 * the middle of its band; a band beyond the board is bare paper.
 *
 * @param paper - colour of the bare paper
 */
export function assignSwatches(
  board: Board,
  wanted: readonly WantedColour[],
  paper: Lab = [95, 0, 0],
): AssignedColour[] {
  return wanted.map(({ id, band, lab }) => {
    const rules = board.bands[band];
    if (!rules) return { id, lab: paper };
    let best: (BoardSwatch & { lab: Lab }) | undefined;
    let least = Infinity;
    for (const swatch of board.swatches) {
      if (swatch.bucket !== band || swatch.wet || swatch.accent || !swatch.lab) continue;
      const [, a, b] = swatch.lab;
      const far = deltaE2000([50, a, b], [50, lab[1], lab[2]]);
      if (far < least) [least, best] = [far, swatch as BoardSwatch & { lab: Lab }];
    }
    if (best) return { id, lab: best.lab, swatch: best.id };
    return { id, lab: [(rules.floor + Math.min(rules.ceiling, paper[0])) / 2, 0, 0] };
  });
}
