/**
 * Reading a photographed test sheet: bare paper in the frame is the white reference.
 *
 * The picture is reduced to at most 600 000 pixels (a sheet of A4 has three pixels to the millimetre then), the sheet's corners are found
 * or given, the light is fitted over bare paper in each channel of linear light, and what departs from the paper and is broad enough
 * is read as a dab. The paper is taken as neutral with an L* that the caller knows.
 */
import { expectNumber, expectObject, outOfRange } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import type { Corners, Lab, Lightness, Pixels, Spot } from '../base/types.js';
import {
  labOfLinear,
  lchOf,
  LINEAR_OF_SRGB,
  LUMINANCE_OF_RGB,
  luminanceOfLightness,
} from '../colour/index.js';
import {
  applyHomography,
  expectCorners,
  homographyOf,
  mirroredCorners,
  type Homography,
} from '../geometry/homography.js';
import { medianOf } from '../geometry/fit.js';
import { discRuns, loopArea, loopMask } from '../geometry/index.js';
import { fitWithin, reduceKernel, type JpegTables } from '../picture/index.js';
import { expectPixels } from '../picture/lightness.js';
import { sharpestEdge } from '../picture/sharpness.js';
import {
  boxMean,
  cutOffBySrgb,
  departuresOf,
  middleOf,
  overPaper,
  shapesOf,
  steepness,
  thresholdsOf,
  uncertaintyOf,
  type OverPaper,
  type Shape,
  type Shapes,
  type Thresholds,
} from './sheet-dabs.js';
import { findSheet, type LightPicture } from './sheet-find.js';
import { fitLight, lightAt, type FittedLight, type SheetLight } from './sheet-light.js';
import type { SheetReadingOptions, SheetReading, SheetSwatch } from './sheet-types.js';

/** Pixels that a sheet is read at. */
const READ_PIXELS = 600_000;
/** A dab is at least twice this broad, as a share of the sheet's shorter side; on A4 7 mm. Lines and letters are thinner. */
const DAB_RADIUS = 0.016;
/** Along the sheet's edge so much is left out: cut edges, blur. */
const MARGIN = 0.008;
/** Longer than so many widths is a strip of tape or a bar, not a dab. */
const LONGEST = 12;
/** A sheet's shorter side should have so many picture pixels: letters run together below. */
const LEAST_SIDE = 300;
/** A sharpest edge wider than this share of the sheet's shorter side (on A4 1.5 mm) is blur: letters run together into what looks like dabs. */
const BLUR = 0.007;
/** A passage from paper to colour broader than this share of the sheet's shorter side is a shadow's or uneven light's, when it has no colour. */
const SHADOW_PASSAGE = 0.04;
/** The same for shapes that hardly depart from paper: uneven light makes broad ones. */
const PALE_PASSAGE = 0.015;
/** Chroma up to which a shape can be a shadow. */
const SHADOW_CHROMA = 6;
/** Single pixels of writing are paper to this share at least. */
const POROUS = 0.12;

/** A reading with the light that it was read by, for reading more from the same picture. */
export interface SheetAndLight {
  reading: SheetReading;
  /** Absent when there was too little bare paper. */
  light?: SheetLight;
}

const UNIT: Corners = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
];

/**
 * Reads the dabs of a photographed test sheet, value first.
 *
 * The light is fitted over bare paper, per channel in linear light, by polynomials up to degree 4 whose outliers (paint, pencil, shadow,
 * reflections) Tukey's biweight forgets. Dabs are connected areas that depart from paper, of any shape, with hard or soft edges, at
 * least 3.2 % of the sheet's shorter side broad; lines, letters, tape and whatever hangs on the sheet's edge are left out. Each is read over its
 * inner part, without the dried rim, by a robust mean of linear light over that of the paper.
 *
 * A dab as light as the paper cannot be told from it: see `limits`.
 *
 * @param pixels straight-alpha RGBA, sRGB, any size from 1 x 1 on
 * @param options.paperLightness L* of the bare paper, 50..100, default 95
 * @param options.corners of the sheet, picture pixels, top left, top right, bottom right, bottom left; found when absent
 * @returns corners, quads in picture pixels; never throws for what a photo shows: see `warnings`
 * @throws TypeError, RangeError naming the argument: corners that are crossed, dented, on a line, or all outside the picture
 */
export function readSheet(pixels: Pixels, options: SheetReadingOptions = {}): SheetReading {
  return finish(sheetKernel(pixels, options)).reading;
}

/** {@link readSheet} in slices, with the light. The pixels must not change until it is done. */
export function sheetKernel(
  pixels: Pixels,
  options: SheetReadingOptions = {},
): Kernel<SheetAndLight> {
  const told = expectOptions(pixels, options);
  const { width, height, data } = pixels;
  const rows = (y0: number, y1: number): Uint8Array | Uint8ClampedArray =>
    data.subarray(4 * width * y0, 4 * width * y1);
  const size = fitWithin(width, height, READ_PIXELS);
  return sheetSlices({ width, height }, reduceKernel({ width, height, rows }, size), told);
}

interface Told {
  paperLightness: number;
  corners?: Corners;
  jpeg?: JpegTables;
}

function expectOptions(pixels: Pixels, options: SheetReadingOptions): Told {
  expectPixels('pixels', pixels);
  expectObject('options', options);
  const paperLightness = expectNumber(
    'options.paperLightness',
    options.paperLightness ?? 95,
    50,
    100,
  );
  const { corners, jpeg } = options;
  if (jpeg !== undefined) {
    expectObject('options.jpeg', jpeg);
    expectNumber('options.jpeg.quality', jpeg.quality, 1, 100);
    expectNumber('options.jpeg.lumaStep', jpeg.lumaStep, 0, 8192);
  }
  if (corners === undefined) return { paperLightness, jpeg };
  expectCorners('options.corners', corners);
  const seen = loopMask(
    corners.map(([x, y]) => [(x / pixels.width) * 64, (y / pixels.height) * 64] as Spot),
    64,
    64,
  );
  if (!seen.includes(1))
    throw outOfRange('options.corners', corners, 'corners with some of the picture between them');
  return { paperLightness, corners: corners.map(([x, y]) => [x, y]) as Corners, jpeg };
}

/** Lets a kernel tell its progress within from..to. */
function* within<T>(kernel: Kernel<T>, from: number, to: number): Kernel<T> {
  for (;;) {
    const step = kernel.next();
    if (step.done) return step.value;
    yield from + (to - from) * step.value;
  }
}

/** A sheet while it is being read, at the size it is read at. */
interface Desk {
  /** Picture pixels for one pixel of the copy. */
  scale: [x: number, y: number];
  picture: LightPicture;
  corners: Corners;
  /** Copy pixels to the unit square of the sheet, and back. */
  toSheet: Homography;
  fromSheet: Homography;
  /** The sheet without its margin. */
  inside: Uint8Array;
  /** The sheet's shorter side, copy pixels. */
  side: number;
  paperLightness: number;
  jpeg?: JpegTables;
  warnings: Reason[];
}

function* sheetSlices(
  full: { width: number; height: number },
  reduction: ReturnType<typeof reduceKernel>,
  told: Told,
): Kernel<SheetAndLight> {
  const { pixels, plane } = yield* within(reduction, 0, 0.3);
  const { width, height } = pixels;
  const picture = lightOf(pixels);
  yield 0.33;
  const scale: [number, number] = [full.width / width, full.height / height];
  const warnings: Reason[] = [];
  const limits: Reason[] = [
    reason('sheet.paper-assumed', { lightness: told.paperLightness }),
    reason('sheet.brighteners'),
    reason('sheet.camera-tone'),
    reason('sheet.camera-colour'),
  ];
  const corners = yield* within(
    cornersOf(picture, plane, told, scale, warnings, limits),
    0.33,
    0.45,
  );
  const desk = deskOf(picture, corners, scale, told, warnings);
  const fitted = yield* within(fitLight(picture, desk.inside), 0.45, 0.65);
  const fullCorners = toFull(corners, scale);
  if (!fitted || !isPaper(fitted)) {
    warnings.push(reason('sheet.no-paper', { share: rounded(fitted?.share ?? 0, 3) }));
    const seen = middleColour(desk, fitted);
    const paper = { lab: [told.paperLightness, 0, 0] as Lab, residual: 0, seen, share: 0 };
    return { reading: { corners: fullCorners, paper, swatches: [], warnings, limits } };
  }
  tellLight(desk, fitted, pixels);
  const swatches = yield* within(dabsOf(desk, fitted, plane, limits), 0.65, 1);
  const paperY = luminanceOfLightness(told.paperLightness);
  const lab = labOfLinear(
    ...(fitted.paper.map((share) => paperY * share) as [number, number, number]),
  );
  const reading: SheetReading = {
    corners: fullCorners,
    paper: {
      lab,
      residual: steepness(told.paperLightness) * fitted.light.residual,
      seen: middleColour(desk, fitted),
      share: fitted.share,
    },
    swatches,
    warnings,
    limits,
  };
  return { reading, light: fitted.light };
}

function lightOf({ width, height, data }: Pixels): LightPicture {
  const light = new Float32Array(3 * width * height);
  for (let i = 0, k = 0; k < light.length; i += 4, k += 3) {
    light[k] = LINEAR_OF_SRGB[data[i]];
    light[k + 1] = LINEAR_OF_SRGB[data[i + 1]];
    light[k + 2] = LINEAR_OF_SRGB[data[i + 2]];
  }
  return { width, height, light };
}

const toFull = (corners: Corners, [sx, sy]: [number, number]): Corners =>
  corners.map(([x, y]) => [x * sx, y * sy]) as Corners;

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));

/** The corners in copy pixels, and what is wrong with them. */
function* cornersOf(
  picture: LightPicture,
  plane: Lightness,
  told: Told,
  [sx, sy]: [number, number],
  warnings: Reason[],
  limits: Reason[],
): Kernel<Corners> {
  const { width, height } = picture;
  if (told.corners) {
    const corners = told.corners.map(([x, y]) => [x / sx, y / sy]) as Corners;
    if (mirroredCorners(corners)) warnings.push(reason('sheet.mirrored'));
    const outside = corners.filter(
      ([x, y]) => x < -0.01 * width || y < -0.01 * height || x > 1.01 * width || y > 1.01 * height,
    ).length;
    if (outside > 0) warnings.push(reason('sheet.cut-off', { sides: outside }));
    return corners;
  }
  const { corners, found, onBorder } = yield* findSheet(picture, plane);
  const cut = onBorder.filter((on) => on).length;
  if (!found) warnings.push(reason('sheet.not-found'));
  else if (cut === 4) limits.push(reason('sheet.no-rim'));
  else if (cut > 0) warnings.push(reason('sheet.cut-off', { sides: cut }));
  return corners;
}

function deskOf(
  picture: LightPicture,
  corners: Corners,
  scale: [number, number],
  { paperLightness, jpeg }: Told,
  warnings: Reason[],
): Desk {
  const { width, height } = picture;
  const sides = corners.map((a, i) => {
    const b = corners[(i + 1) % 4];
    return Math.hypot(b[0] - a[0], b[1] - a[1]);
  });
  const side = Math.min((sides[0] + sides[2]) / 2, (sides[1] + sides[3]) / 2);
  const fromSheet = homographyOf(UNIT, corners);
  const m = Math.max(MARGIN, 1.5 / side);
  const inset = [
    [m, m],
    [1 - m, m],
    [1 - m, 1 - m],
    [m, 1 - m],
  ].map((spot) => applyHomography(fromSheet, spot as Spot));
  const inside = m < 0.4 ? loopMask(inset, width, height) : new Uint8Array(width * height);
  if (side * Math.min(...scale) < LEAST_SIDE)
    warnings.push(reason('sheet.small', { pixels: Math.round(side * Math.min(...scale)) }));
  return {
    scale,
    picture,
    corners,
    toSheet: homographyOf(corners, UNIT),
    fromSheet,
    inside,
    side,
    paperLightness,
    jpeg,
    warnings,
  };
}

/** Whether what was fitted can be paper at all. */
const isPaper = ({ share, light }: FittedLight): boolean => share >= 0.1 && light.residual < 0.12;

function middleColour({ picture, fromSheet }: Desk, fitted: FittedLight | undefined): Lab {
  const { width, height } = picture;
  const [x, y] = applyHomography(fromSheet, [0.5, 0.5]);
  if (fitted) return labOfLinear(...lightAt(fitted.light, x / width, y / height));
  const column = Math.min(width - 1, Math.max(0, Math.floor(x)));
  const row = Math.min(height - 1, Math.max(0, Math.floor(y)));
  const at = 3 * (row * width + column);
  return labOfLinear(picture.light[at], picture.light[at + 1], picture.light[at + 2]);
}

/** Findings about the light on the paper. */
function tellLight(desk: Desk, fitted: FittedLight, pixels: Pixels): void {
  const { warnings, picture, paperLightness } = desk;
  const { width, height } = picture;
  const { light, blocks } = fitted;
  const seen = middleColour(desk, fitted);
  if (seen[0] < 45) warnings.push(reason('sheet.dark', { lightness: rounded(seen[0], 1) }));
  const [x, y] = applyHomography(desk.fromSheet, [0.5, 0.5]);
  const rgb = lightAt(light, x / width, y / height);
  const [R, G, B] = LUMINANCE_OF_RGB;
  const share = luminanceOfLightness(paperLightness) / (R * rgb[0] + G * rgb[1] + B * rgb[2]);
  const { C, h } = lchOf(labOfLinear(share * rgb[0], share * rgb[1], share * rgb[2]));
  if (C > 18)
    warnings.push(
      reason('sheet.coloured-paper', { chroma: rounded(C, 1), hue: Math.round(h) % 360 }),
    );
  let least = Infinity;
  let most = 0;
  let clipped = 0;
  for (let k = 0; k < blocks.length; k += 2) {
    const at = lightAt(light, blocks[k] / width, blocks[k + 1] / height)[1];
    least = Math.min(least, at);
    most = Math.max(most, at);
    const i = 4 * (Math.floor(blocks[k + 1]) * width + Math.floor(blocks[k]));
    if (Math.max(pixels.data[i], pixels.data[i + 1], pixels.data[i + 2]) >= 254) clipped++;
  }
  if (least < 0.2 * most)
    warnings.push(reason('sheet.falls-off', { share: rounded(least / most, 2) }));
  if (clipped > 0.01 * (blocks.length / 2))
    warnings.push(reason('sheet.clipping', { share: rounded((2 * clipped) / blocks.length, 3) }));
  const residual = steepness(paperLightness) * light.residual;
  const grain = steepness(paperLightness) * fitted.grain;
  if (grain > 1.5) warnings.push(reason('sheet.noise', { spread: rounded(grain, 1) }));
  if (residual > 1) warnings.push(reason('sheet.uneven', { residual: rounded(residual, 2) }));
}

function* dabsOf(
  desk: Desk,
  fitted: FittedLight,
  plane: Lightness,
  limits: Reason[],
): Kernel<SheetSwatch[]> {
  const { picture, inside, warnings } = desk;
  const { width, height } = picture;
  const paperY = luminanceOfLightness(desk.paperLightness);
  const relative = yield* within(overPaper(picture, fitted.light), 0, 0.1);
  const smooth = yield* within(boxMean(relative, width, height, 2), 0.1, 0.3);
  const departures = yield* within(departuresOf(smooth, width, height, paperY), 0.3, 0.5);
  const thresholds = thresholdsOf(departures, width, fitted.blocks);
  limits.push(reason('sheet.as-paper', { contrast: rounded(thresholds.lightness, 1) }));
  const radius = Math.max(2, DAB_RADIUS * desk.side);
  const shapes = yield* within(
    shapesOf(departures, relative, inside, width, height, thresholds, radius),
    0.5,
    0.9,
  );
  const dabs = sorted(shapes, desk, thresholds, radius);
  let wet = 0;
  let dark = 0;
  let coarse = 0;
  const read: SheetSwatch[] = [];
  for (const shape of dabs) {
    const { swatch, bright, underexposed, besides } = swatchOf(shape, relative, desk, fitted.light);
    read.push(swatch);
    if (bright > 0.01) wet++;
    if (underexposed) dark++;
    // What the file leaves open is more than all else does.
    if (swatch.uncertainty > Math.SQRT2 * besides) coarse++;
    yield 0.92;
  }
  const doubtful = doubtShadows(read, dabs, desk, fitted);
  if (doubtful > 0) warnings.push(reason('sheet.maybe-shadow', { count: doubtful }));
  if (desk.jpeg && 2 * coarse > read.length)
    warnings.push(reason('sheet.compressed', { quality: desk.jpeg.quality }));
  if (wet > 0) warnings.push(reason('sheet.wet-glare', { count: wet }));
  if (dark > 0) warnings.push(reason('sheet.dark-clipping', { count: dark }));
  const blur = sharpestEdge(plane, inside);
  if (blur !== undefined && blur > BLUR * desk.side)
    warnings.push(reason('sheet.blur', { width: rounded(blur / desk.side, 4) }));
  yield 0.98;
  if (read.length === 0) warnings.push(reason('sheet.no-dabs'));
  return inColumns(read, desk, limits);
}

/** Parts dabs from shadows, reflections, writing, tape and what hangs on the edge; tells of these. */
function sorted(shapes: Shapes, desk: Desk, thresholds: Thresholds, radius: number): Shape[] {
  const { warnings, inside, picture, side } = desk;
  const pale = 3 * thresholds.lightness;
  const passes = (shape: Shape): boolean =>
    shape.passage > (shape.departure < pale ? PALE_PASSAGE : SHADOW_PASSAGE) * side;
  const written = ({ porous, departure }: Shape): boolean => departure > pale && porous > POROUS;
  const long = ({ pixels, deepest }: Shape): boolean =>
    pixels.length / (4 * deepest * deepest) > LONGEST;
  let area = 0;
  for (let i = 0; i < inside.length; i++) area += inside[i];

  const white = shapes.lighter.filter(
    (shape) =>
      shape.passage <= PALE_PASSAGE * side &&
      !shape.atEdge &&
      !long(shape) &&
      clippedShare(picture, shape.pixels) < 0.2,
  );
  const reflections = shapes.lighter.filter((shape) => !white.includes(shape));
  const glare = reflections.reduce((sum, { pixels }) => sum + pixels.length, 0);
  const veiled = veilOf(reflections, desk, radius);
  const isVeiled = ({ pixels }: Shape): boolean =>
    veiled !== undefined && pixels.filter((i) => veiled[i]).length > 0.02 * pixels.length;

  const dabs: Shape[] = white.filter((shape) => !isVeiled(shape));
  const isShadow = (shape: Shape): boolean =>
    shape.chroma < SHADOW_CHROMA &&
    (passes(shape) || (shape.atEdge && shape.pixels.length > 0.04 * area));
  const shadows = shapes.painted.filter(isShadow);
  const shadow = shadows.reduce((sum, { pixels }) => sum + pixels.length, 0);
  const shaded = new Set(shadows.map(({ core }) => core));
  let atEdge = 0;
  let inGlare = 0;
  let inShadow = 0;
  for (const shape of shapes.painted) {
    if (isShadow(shape)) continue;
    if (shaded.has(shape.core)) inShadow++;
    else if (shape.atEdge) atEdge += shape.pixels.length > 4 * radius * radius ? 1 : 0;
    else if (long(shape) || written(shape) || (passes(shape) && shape.departure < pale)) continue;
    else if (isVeiled(shape)) inGlare++;
    else dabs.push(shape);
  }
  if (shadow > 0.003 * area)
    warnings.push(reason('sheet.shadow', { share: rounded(shadow / area, 3), dabs: inShadow }));
  if (glare > 0.001 * area)
    warnings.push(reason('sheet.glare', { share: rounded(glare / area, 3), dabs: inGlare }));
  if (atEdge > 0) warnings.push(reason('sheet.at-edge', { count: atEdge }));
  return dabs;
}

function clippedShare({ light }: LightPicture, pixels: Int32Array): number {
  let clipped = 0;
  for (const i of pixels)
    if (Math.max(light[3 * i], light[3 * i + 1], light[3 * i + 2]) > 0.985) clipped++;
  return clipped / pixels.length;
}

/**
 * Where reflections lift what lies under them, the places about them too: a little light that hardly shows on paper is much on a dark dab.
 * Each reaches out by its own radius and two dabs' least.
 */
function veilOf(reflections: Shape[], { picture }: Desk, radius: number): Uint8Array | undefined {
  if (reflections.length === 0) return undefined;
  const { width, height } = picture;
  const veiled = new Uint8Array(width * height);
  for (const { pixels } of reflections) {
    const reach = Math.sqrt(pixels.length / Math.PI) + 4 * radius;
    let x = 0;
    let y = 0;
    for (const i of pixels) {
      x += i % width;
      y += Math.floor(i / width);
    }
    const runs = discRuns(
      x / pixels.length,
      y / pixels.length,
      Math.sqrt(pixels.length / Math.PI) + reach,
      width,
      height,
    );
    for (let r = 0; r < runs.length; r += 3)
      veiled.fill(1, runs[r] * width + runs[r + 1], runs[r] * width + runs[r + 2]);
    for (const i of pixels) veiled[i] = 1;
  }
  return veiled;
}

/** The inner part of a shape: without the rim, where paint gathers as it dries. */
function innerOf({ pixels, depth, deepest }: Shape): Int32Array {
  for (const share of [0.4, 0.25, 0.1]) {
    const rim = Math.max(share * deepest, Math.min(2.5, 0.5 * deepest));
    const kept = pixels.filter((_, k) => depth[k] > rim);
    if (kept.length >= 30) return kept;
  }
  return pixels;
}

function swatchOf(
  shape: Shape,
  relative: OverPaper,
  desk: Desk,
  light: SheetLight,
): { swatch: SheetSwatch; bright: number; underexposed: boolean; besides: number } {
  const { width, height } = desk.picture;
  const inner = innerOf(shape);
  const middle = middleOf(relative, inner, luminanceOfLightness(desk.paperLightness));
  const at = inner[inner.length >> 1];
  const x = ((at % width) + 0.5) / width;
  const y = (Math.floor(at / width) + 0.5) / height;
  const quad = boxOf(shape, desk);
  const cut = cutOffBySrgb(relative, inner);
  const uncertain = (coarse: number): number =>
    uncertaintyOf(middle, light, desk.paperLightness, lightAt(light, x, y)[1], coarse, cut);
  const { light: seen } = desk.picture;
  let black = 0;
  for (const i of inner)
    if (Math.max(seen[3 * i], seen[3 * i + 1], seen[3 * i + 2]) < 0.0007) black++;
  return {
    swatch: {
      quad: toFull(quad, desk.scale),
      lab: middle.lab,
      spread: middle.spread,
      uncertainty: uncertain(desk.jpeg?.lumaStep ?? 0),
      column: 0,
      ...(cut > 0 ? { reasons: [reason('dab.gamut')] } : {}),
    },
    bright: middle.bright,
    underexposed: black > 0.2 * inner.length,
    besides: uncertain(0),
  };
}

/** Chroma up to which a dab has the paper's own colour. */
const AS_PAPER = 3;
/** A shadow takes no more than this share of the light. */
const DEEPEST_SHADOW = 0.75;
/** So many times as even as the paper is what lies in a shadow; paint granulates. */
const AS_EVEN = 1.6;
/** So many times larger than the middle one, or so much of its box filled, is a dab unlike the others. */
const LARGER = 2.5;
const FILLED = 0.6;

/**
 * Says of dabs that they may be shadows with a hard edge, which nothing tells from grey paint for certain; the painter is asked. Only of
 * those unlike the others, so that a strip of greys is left alone.
 * @returns how many
 */
function doubtShadows(
  read: SheetSwatch[],
  shapes: readonly Shape[],
  { paperLightness, scale: [sx, sy] }: Desk,
  { light, grain }: FittedLight,
): number {
  if (read.length < 3) return 0;
  const middle = medianOf(shapes.map(({ firm }) => firm.length));
  const paperY = luminanceOfLightness(paperLightness);
  let count = 0;
  read.forEach((swatch, i) => {
    const { lab, spread, quad } = swatch;
    const { firm } = shapes[i];
    const evenness = steepness(lab[0]) * Math.hypot(grain, light.residual);
    const isPaperShaded =
      lchOf(lab).C < AS_PAPER &&
      luminanceOfLightness(Math.max(0, lab[0])) > (1 - DEEPEST_SHADOW) * paperY &&
      spread < AS_EVEN * evenness + 0.1;
    const boxed = loopArea(quad) / (sx * sy);
    const isUnlike = firm.length > LARGER * middle || firm.length < FILLED * boxed;
    if (!isPaperShaded || !isUnlike) return;
    swatch.reasons = [...(swatch.reasons ?? []), reason('dab.maybe-shadow')];
    count++;
  });
  return count;
}

/** The smallest rectangle, upright on the sheet, that holds a shape; in copy pixels. */
function boxOf({ firm }: Shape, { toSheet, fromSheet, picture }: Desk): Corners {
  let left = Infinity;
  let right = -Infinity;
  let top = Infinity;
  let bottom = -Infinity;
  for (const i of firm) {
    const x = i % picture.width;
    const [u, v] = applyHomography(toSheet, [x + 0.5, (i - x) / picture.width + 0.5]);
    left = Math.min(left, u);
    right = Math.max(right, u);
    top = Math.min(top, v);
    bottom = Math.max(bottom, v);
  }
  const box: Corners = [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
  return box.map((spot) => applyHomography(fromSheet, spot)) as Corners;
}

/** Puts swatches into columns by their middles on the sheet, left to right, and each column from the top down. */
function inColumns(swatches: SheetSwatch[], desk: Desk, limits: Reason[]): SheetSwatch[] {
  if (swatches.length === 0) return swatches;
  const [sx, sy] = desk.scale;
  const placed = swatches.map((swatch) => {
    const corners = swatch.quad.map(([x, y]) => applyHomography(desk.toSheet, [x / sx, y / sy]));
    const us = corners.map(([u]) => u);
    const vs = corners.map(([, v]) => v);
    return {
      swatch,
      u: (Math.min(...us) + Math.max(...us)) / 2,
      v: (Math.min(...vs) + Math.max(...vs)) / 2,
      w: Math.max(...us) - Math.min(...us),
      h: Math.max(...vs) - Math.min(...vs),
    };
  });
  const columns = groups(placed, (p) => p.u, 0.6 * medianOf(placed.map(({ w }) => w)));
  const rows = groups(placed, (p) => p.v, 0.6 * medianOf(placed.map(({ h }) => h)));
  const rowOf = new Map(rows.flatMap((row, place) => row.map((p) => [p, place] as const)));
  if (
    columns.length > 1 &&
    rows.length > 1 &&
    placed.length < columns.length * rows.length &&
    placed.length >= 0.8 * columns.length * rows.length
  ) {
    columns.forEach((members, column) => {
      rows.forEach((_, place) => {
        if (!members.some((p) => rowOf.get(p) === place))
          limits.push(reason('sheet.empty-place', { column, place }));
      });
    });
  }
  return columns.flatMap((members, column) =>
    members.sort((a, b) => a.v - b.v).map(({ swatch }) => ({ ...swatch, column })),
  );
}

/** Groups things whose places lie within `gap` of the group's mean so far, in ascending order. */
function groups<T>(things: T[], placeOf: (thing: T) => number, gap: number): T[][] {
  const out: T[][] = [];
  let mean = 0;
  for (const thing of things.slice().sort((a, b) => placeOf(a) - placeOf(b))) {
    const last = out[out.length - 1];
    if (!last || placeOf(thing) - mean > gap) {
      out.push([thing]);
      mean = placeOf(thing);
    } else {
      last.push(thing);
      mean += (placeOf(thing) - mean) / last.length;
    }
  }
  return out;
}
