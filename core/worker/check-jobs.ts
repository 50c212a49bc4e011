import { expectInteger, expectNumber, outOfRange, wrongType } from '../base/check.js';
import { CoreError, reason, type Reason } from '../base/reason.js';
import type { Corners, Lightness, Pixels, Spot, Step } from '../base/types.js';
import { adviceKernel, type Advice } from '../check/advice.js';
import { alignPlanesKernel, FINE } from '../check/align.js';
import { picturesBesideKernel } from '../check/beside.js';
import { comparePaintingKernel } from '../check/compare.js';
import { checkDrawing, type DrawingCheck, type Landmark } from '../check/drawing.js';
import { edgeFindings, type EdgeFinding } from '../check/edges.js';
import { passageFindingsKernel, type PassageFinding } from '../check/passages.js';
import { islandsKernel, type Island } from '../check/islands.js';
import { matchOf, type PaintingMatch } from '../check/match.js';
import { blurOf, cutOff, glareOn } from '../check/photo.js';
import { cornersOfBox, paintedPartOf } from '../check/place.js';
import { shrunkKernel, tonePlaneKernel } from '../check/planes.js';
import { cornersOf, rectifyKernel, warpKernel } from '../check/rectify.js';
import { depthsKernel, stillToCome } from '../check/regions.js';
import { summaryOf } from '../check/report.js';
import { castShadowKernel, shadowReason, sparedInShadow } from '../check/shadow.js';
import { readsFromAfarKernel, type FromAfar } from '../check/similarity.js';
import type { Comparison } from '../check/types.js';
import { whiteBalancedKernel, paperWhite, type PaperPlace } from '../check/white.js';
import {
  applyHomography,
  chainHomographies,
  expectCorners,
  homographyOf,
  type Homography,
} from '../geometry/index.js';
import { byteOfLinear, LINEAR_OF_SRGB, luminanceOfLightness } from '../colour/index.js';
import type { Edge, Masses } from '../mass/index.js';
import type { Loads, Recipe } from '../paint/index.js';
import { lightnessKernel } from '../picture/index.js';
import { assignSwatches } from '../plan/index.js';
import type { Board } from '../swatch/index.js';
import { findSheet } from '../swatch/sheet-find.js';
import type { Display } from './inputs.js';
import type { MassesInput } from './mass-inputs.js';
import { passagesFor } from './passages-kept.js';
import { bitmapOf, readable } from './raster.js';
import { sliced, type Watch } from './slices.js';
import type { Handlers, Workshop } from './workshop.js';

/** Where bare paper is seen, in fractions of the upright photo of the painting; `none` leaves its colours as they are. */
export type WhiteInput =
  | { from: 'margin'; margin?: number }
  | {
      from: 'spot';
      at: Spot;
      /** A fraction of the longer side (default 0.01). */
      radius?: number;
    }
  | { from: 'none' };

/** A photo of the painting, and where in it the painted part lies. */
export interface PaintingInput {
  /** The photo of the painting. */
  picture: string;
  /** Corners of the painted part, fractions of the upright photo; the whole photo when absent. */
  corners?: Corners;
  /** Margin when absent, if corners are given, else none (and the warning `check.no-white`). */
  white?: WhiteInput;
  /** L* of the bare paper (default 95). */
  paperLightness?: number;
}

export interface CheckInput extends PaintingInput {
  /** What gives the plan's masses. */
  plan: MassesInput;
  /** L* of each band as it should dry, darkest first. */
  targets: number[];
  /** Regions that are to stay bare paper; all of the lightest band when absent. */
  reserves?: number[];
  order?: Step[];
  upToStep?: number;
  /** Whether the plan is laid on the painting by its borders (true when absent). */
  align?: boolean;
  /** From the eye to the paper, metres (default 2). */
  distance?: number;
  acuity?: number;
  /** Height of the paper, mm; from the proportions of the plan when absent. */
  paperHeightMm?: number;
  landmarks?: Landmark[];
  tubes?: string[];
  laid?: (Recipe | null)[];
  loads?: Loads;
  /** The plan's board: with it the plan's passages are held against their swatches. */
  board?: Board;
}

/** All that a check finds. Places and areas are pixels of the plan's masses. */
export interface CheckReport {
  /** In short, most telling first (`summaryOf`). */
  summary: Reason[];
  comparison: Comparison;
  advice: Advice[];
  islands: Island[];
  edges: EdgeFinding[];
  /** Passages whose lean is off or that vanished, by their ids in the job `passages`; absent without a board. Leans only where white is known. */
  passages?: PassageFinding[];
  afar: FromAfar;
  match: PaintingMatch;
  drawing?: DrawingCheck;
  /** Corners that were used, fractions of the photo: those given, refined by mass borders where these were found. */
  corners: Corners;
  /** Share of mass borders found, and how far the plan was moved and the drawing strays from it, mm on the paper. */
  alignment: { found: boolean; share: number; movedMm: number; slackMm: number };
  /** Spread of the paper about the fitted light and how much of the margin is paper; absent without white. */
  white?: { residual: number; share: number };
  /** About the photo: light, paper, the wrong painting. */
  warnings: Reason[];
  /** The painting upright, filled, in its paper's white. */
  rectified: Display;
}

/** Jobs about the painting against the plan. */
export interface CheckJobs {
  /** The painting held against the plan, or against what the plan should have come to after a step. */
  check: { in: CheckInput; out: CheckReport };
  /** How the painting of a check reads from another distance; the rest of the check is made only where it is no longer kept. */
  checkAfar: { in: CheckInput; out: FromAfar };
  /**
   * The painting upright and in its paper's white, `width` pixels broad at most, its proportions those of `aspect` (width by height): a
   * picture file without any data about place or camera (PNG; where no file can be written only the display).
   */
  rectified: {
    in: PaintingInput & { aspect: number; width?: number };
    out: Display & { file?: Blob; warnings: Reason[] };
  };
  /**
   * The painting, upright and in its paper's white, with its plan and the photo beside it, as one picture file without any data about place
   * or camera; `height` of each at most (default 1200). The plan is shown in its bands' targets as greys. JPEG unless `type` says PNG.
   */
  delivery: {
    in: PaintingInput & {
      plan: MassesInput;
      targets: number[];
      parts?: ('painting' | 'plan' | 'photo')[];
      height?: number;
      type?: 'image/jpeg' | 'image/png';
    };
    out: Display & { file?: Blob; warnings: Reason[] };
  };
  /**
   * Where the painted part lies in a photo of the painting: the sheet is found as that of a test sheet is, the painting on it by its
   * tones and the borders of its masses. `how` says what it was found by; with `sheet` or `nothing` the painter sets the corners.
   */
  paintingCorners: {
    in: {
      picture: string;
      plan: MassesInput;
      targets: number[];
      order?: Step[];
      upToStep?: number;
      paperLightness?: number;
    };
    out: {
      /** Fractions of the photo. */
      corners: Corners;
      sheet: Corners;
      how: 'borders' | 'tones' | 'sheet' | 'nothing';
      /** Of plan and painting there, percent. */
      correlation: number;
    };
  };
}

/** How far borders are looked for, as a share of the longer side: hands set corners to about a hundredth. */
const REACH = 0.03;
const DISTANCE = 2;
const WHOLE: Corners = cornersOf({ width: 1, height: 1 });

export function checkHandlers(workshop: Workshop): Handlers<CheckJobs> {
  return {
    check: (input, watch) => check(input, workshop, watch),

    checkAfar: async (input, watch) => {
      const near = workshop.cache.get<Near>(nearKey(input));
      return near ? readFrom(near, input, watch) : (await check(input, workshop, watch)).afar;
    },

    rectified: async (input, watch) => {
      const aspect = expectNumber('aspect', input.aspect, 0.02, 50);
      const most = expectNumber('width', input.width ?? 2400, 1, 8192);
      const { upright, warnings } = await uprightFor(input, aspect, most, workshop, watch);
      const file = await fileOf(upright, 'image/png');
      return { ...(await displayOf(upright, watch)), ...(file ? { file } : {}), warnings };
    },

    delivery: async (input, watch) => {
      const { masses } = await planFor(input.plan, workshop, watch);
      const { width, height } = masses.map;
      const tall = expectInteger('height', input.height ?? 1200, 1, 8192);
      const tones = masses.regions.map(({ band }) => input.targets[band]);
      const parts: Pixels[] = [];
      const warnings: Reason[] = [];
      for (const part of input.parts ?? ['painting', 'plan', 'photo']) {
        if (part === 'plan') {
          const plane = await sliced(tonePlaneKernel(masses, tones), watch, 'delivery');
          parts.push(greysOf(plane));
        } else if (part === 'photo') {
          parts.push((await workshop.working(input.plan, watch)).pixels);
        } else {
          const aspect = width / height;
          const most = Math.ceil(tall * aspect);
          const made = await uprightFor(input, aspect, most, workshop, watch);
          parts.push(made.upright);
          warnings.push(...made.warnings);
        }
      }
      const whole = await sliced(picturesBesideKernel(parts, { height: tall }), watch, 'delivery');
      const file = await fileOf(whole, input.type ?? 'image/jpeg');
      return { ...(await displayOf(whole, watch)), ...(file ? { file } : {}), warnings };
    },

    paintingCorners: (input, watch) => cornersFor(input, workshop, watch),
  };
}

/** A painting upright, no finer than its photo is and at most so broad. */
async function uprightFor(
  input: PaintingInput,
  aspect: number,
  most: number,
  workshop: Workshop,
  watch: Watch,
): Promise<{ upright: Pixels; warnings: Reason[] }> {
  const { pixels, corners, warnings } = await paintingFor(input, workshop, watch, FINEST);
  const [tl, tr, br, bl] = corners;
  const across = Math.max(apart(tl, tr), apart(bl, br));
  const down = Math.max(apart(tl, bl), apart(tr, br));
  const width = Math.max(1, Math.round(Math.min(most, Math.max(across, down * aspect))));
  const height = Math.max(1, Math.min(16384, Math.round(width / aspect)));
  const upright = await sliced(rectifyKernel(pixels, corners, { width, height }), watch, 'rectify');
  return { upright, warnings };
}

/** A plane as grey pixels: sRGB greys of its lightness. */
function greysOf({ width, height, data }: Lightness): Pixels {
  const grey = Uint8Array.from({ length: 256 }, (_, code) =>
    byteOfLinear(luminanceOfLightness((20 * code) / 51)),
  );
  const out = new Uint8ClampedArray(4 * data.length).fill(255);
  for (let i = 0, k = 0; i < data.length; i++, k += 4)
    out[k] = out[k + 1] = out[k + 2] = grey[data[i]];
  return { width, height, data: out };
}

/** See the job `paintingCorners`. */
async function cornersFor(
  input: CheckJobs['paintingCorners']['in'],
  workshop: Workshop,
  watch: Watch,
): Promise<CheckJobs['paintingCorners']['out']> {
  const { masses } = await planFor(input.plan, workshop, watch);
  const { pixels, plane } = await workshop.working(
    { picture: input.picture, maxPixels: 1_000_000 },
    watch,
  );
  const { width, height } = pixels;
  const light = new Float32Array(3 * width * height);
  for (let i = 0, k = 0; k < pixels.data.length; k += 4)
    for (let c = 0; c < 3; c++) light[i++] = LINEAR_OF_SRGB[pixels.data[k + c]];
  const sheet = await sliced(findSheet({ width, height, light }, plane), watch, 'find');

  const ahead = stillToCome(input, masses.regions.length);
  const paper = input.paperLightness ?? 95;
  const expected = masses.regions.map(({ band }, i) =>
    ahead[i] === 1 ? paper : input.targets[band],
  );
  const by = Math.max(1, Math.ceil(Math.max(masses.map.width, masses.map.height) / ROUGH));
  const whole = await sliced(tonePlaneKernel(masses, expected), watch, 'find');
  const planned = await sliced(shrunkKernel(whole, by), watch, 'find');

  const upright = await sliced(
    rectifyKernel(pixels, sheet.corners, { width: 400, height: 400 }),
    watch,
    'find',
  );
  const tones = await sliced(lightnessKernel(upright), watch, 'find');
  const [tl, tr, br, bl] = sheet.corners;
  const aspect = (apart(tl, tr) + apart(bl, br)) / (apart(tl, bl) + apart(tr, br));
  const part = paintedPartOf(planned, tones, aspect);
  const toFractions = (corners: Corners): Corners => scaled(corners, 1 / width, 1 / height);
  const answer = {
    sheet: toFractions(sheet.corners),
    correlation: Math.round(100 * part.correlation),
  };
  if (part.correlation < ALIKE)
    return { ...answer, corners: answer.sheet, how: sheet.found ? 'sheet' : 'nothing' };

  const onPhoto = chainHomographies(
    homographyOf(cornersOf(planned), cornersOfBox(part.box)),
    homographyOf(WHOLE, sheet.corners),
  );
  const painting = await sliced(warpKernel(pixels, onPhoto, planned), watch, 'find');
  const seen = await sliced(lightnessKernel(painting), watch, 'find');
  const aligned = await sliced(alignPlanesKernel(planned, seen, FAR_REACH), watch, 'find');
  const map = aligned.found ? chainHomographies(aligned.map, onPhoto) : onPhoto;
  const corners = cornersOf(planned).map((corner) => applyHomography(map, corner)) as Corners;
  return { ...answer, corners: toFractions(corners), how: aligned.found ? 'borders' : 'tones' };
}

/** Pixels of the photo that a picture for keeping is made from. */
const FINEST = 12_000_000;
/** Longer side on which the painting is found in its photo. */
const ROUGH = 600;
/** Correlation from which a box is taken for the painting. */
const ALIKE = 0.5;
/** How far borders are looked for when only the sheet is known, as a share of the longer side. */
const FAR_REACH = 0.05;

const apart = (a: Spot, b: Spot): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

const scaled = (corners: Corners, x: number, y: number): Corners =>
  corners.map(([px, py]) => [px * x, py * y]) as Corners;

/** Corners no sheet can have are the painter's to set again. */
function refuseUnusable(corners: Corners): void {
  try {
    expectCorners('corners', corners);
    corners.forEach(([x, y], i) => {
      expectNumber(`corners[${i}][0]`, x, -1, 2);
      expectNumber(`corners[${i}][1]`, y, -1, 2);
    });
  } catch (thrown) {
    if (!(thrown instanceof RangeError)) throw thrown;
    throw new CoreError(
      'CornersUnusable',
      `${thrown.message}. Set the corners in order around the painting.`,
    );
  }
}

/** The photo of the painting in its paper's white, the corners in its pixels. */
async function paintingFor(
  { picture, corners = WHOLE, white, paperLightness }: PaintingInput,
  workshop: Workshop,
  watch: Watch,
  maxPixels?: number,
): Promise<{
  pixels: Pixels;
  /** Lightness of the photo as it is. */
  seen: Lightness;
  corners: Corners;
  white?: { residual: number; share: number };
  warnings: Reason[];
}> {
  refuseUnusable(corners);
  const { pixels, plane: seen } = await workshop.working({ picture, maxPixels }, watch);
  const { width, height } = pixels;
  const place = scaled(corners, width, height);
  const from: WhiteInput = white ?? (corners === WHOLE ? { from: 'none' } : { from: 'margin' });
  if (from.from === 'none') {
    // Said only where nobody chose it.
    const warnings = white === undefined ? [reason('check.no-white')] : [];
    return { pixels, seen, corners: place, warnings };
  }
  const paperPlace: PaperPlace =
    from.from === 'margin'
      ? { painting: place, margin: from.margin }
      : {
          spot: [from.at[0] * width, from.at[1] * height],
          radius: (from.radius ?? 0.01) * Math.max(width, height),
        };
  const found = paperWhite(pixels, paperPlace);
  const { residual, share, warnings } = found;
  // Without paper to go by the colours stay as the camera had them.
  const usable = !warnings.some(({ code }) => code === 'check.no-margin');
  return {
    pixels: usable
      ? await sliced(whiteBalancedKernel(pixels, found, paperLightness), watch, 'white')
      : pixels,
    seen,
    corners: place,
    white: { residual, share },
    warnings,
  };
}

/** Masses and edges of the plan: kept, for one plan is checked against many times. */
async function planFor(
  input: MassesInput,
  workshop: Workshop,
  watch: Watch,
): Promise<{ masses: Masses; edges: Edge[]; pxPerMm: number }> {
  const key = `${input.picture} checked ${JSON.stringify(input)}`;
  const kept = workshop.cache.get<{ masses: Masses; edges: Edge[]; pxPerMm: number }>(key);
  if (kept) return kept;
  const planned = await workshop.masses(input, watch);
  const { edges } = await workshop.edges(planned, watch);
  const { masses, pxPerMm } = planned;
  const made = { masses, edges, pxPerMm };
  workshop.cache.set(key, made, masses.labels.byteLength + masses.map.data.byteLength);
  return made;
}

async function check(input: CheckInput, workshop: Workshop, watch: Watch): Promise<CheckReport> {
  if (!Array.isArray(input.targets)) throw wrongType('targets', input.targets, 'L* of each band');
  if (input.plan.picture === input.picture)
    throw outOfRange('picture', input.picture, 'a photo of the painting, not that of the plan');
  const { masses, pxPerMm, edges: plannedEdges } = await planFor(input.plan, workshop, watch);
  const { width, height } = masses.map;
  const { regions } = masses;
  if (input.targets.length !== masses.map.bands)
    throw outOfRange('targets', input.targets, `${masses.map.bands} L*, one a band`);

  const painting = await paintingFor(input, workshop, watch);
  const { pixels } = painting;
  const ahead = stillToCome(input, regions.length);
  const paper = input.paperLightness ?? 95;
  const expected = regions.map(({ band }, i) => (ahead[i] === 1 ? paper : input.targets[band]));
  const whole = await sliced(tonePlaneKernel(masses, expected), watch, 'align');

  // Aligned on a copy that is fine enough for borders; the painting itself is read from the photo once.
  const by = Math.max(1, Math.ceil(Math.max(width, height) / FINE));
  const small = await sliced(shrunkKernel(whole, by), watch, 'align');
  const onPhoto = homographyOf(cornersOf(masses.map), painting.corners);
  const first = await sliced(
    warpKernel(pixels, chainHomographies(enlarged(by), onPhoto), small),
    watch,
    'rectify',
  );
  const firstPlane = await sliced(lightnessKernel(first), watch, 'rectify');
  const match = matchOf(small, firstPlane);
  const blurred = blurOf(painting.seen, painting.corners, masses.map, pxPerMm);
  const warnings = [
    ...match.reasons,
    ...cutOff(painting.corners, pixels),
    ...glareOn(small, firstPlane, paper),
    ...painting.warnings,
    ...blurred,
  ];
  const alignment =
    input.align === false || match.best !== 'straight'
      ? undefined
      : await sliced(alignPlanesKernel(small, firstPlane, REACH), watch, 'align');
  const map = alignment?.found ? chainHomographies(inLarge(alignment.map, by), onPhoto) : onPhoto;
  const upright =
    by === 1 && !alignment?.found
      ? first
      : await sliced(warpKernel(pixels, map, { width, height }), watch, 'rectify');
  const plane = await sliced(lightnessKernel(upright), watch, 'rectify');

  const plan = { masses, targets: input.targets, reserves: input.reserves };
  const { order, upToStep } = input;
  // Borders as far off as hand-drawn ones are: two standard deviations, at most a quarter of the brush.
  const brushPx = input.plan.brushMm * pxPerMm;
  const slackPx = Math.round(Math.min(2 * by * (alignment?.slack ?? 0), brushPx / 4, 120));
  const depths = await sliced(depthsKernel(masses, 255), watch, 'compare');
  const comparison = await sliced(
    comparePaintingKernel(plan, plane, { order, upToStep, slackPx }, depths),
    watch,
    'compare',
  );
  const allIslands = await sliced(
    islandsKernel(plan, plane, { order, upToStep, brushPx }, depths),
    watch,
    'islands',
  );
  const edges = edgeFindings(
    plannedEdges,
    await workshop.edgesOn(plane, await workshop.masses(input.plan, watch), watch),
    comparison.toCome,
    // A blurred photo makes every edge soft.
  ).filter(({ action }) => blurred.length === 0 || action !== 'firm');
  const near = await nearFor(input, { planned: whole, painting: plane, pxPerMm }, workshop, watch);
  const afar = await readFrom(near, input, watch);
  const passages = input.board
    ? await passagesChecked(input, input.board, masses, upright, workshop, watch)
    : undefined;
  const { tubes, laid, loads, paperLightness } = input;
  const allAdvice = await sliced(
    adviceKernel(comparison, plan, {
      order,
      upToStep,
      brushPx,
      tubes,
      laid,
      loads,
      paperLightness,
    }),
    watch,
    'advice',
  );
  const photo = await workshop.tones(input.plan, watch);
  const shadow =
    match.best === 'straight'
      ? await sliced(
          castShadowKernel(masses, upright, photo.plane, depths, Math.max(2, slackPx)),
          watch,
          'shadow',
        )
      : undefined;
  const { advice, islands } = shadow
    ? sparedInShadow(shadow, allAdvice, allIslands, expected)
    : { advice: allAdvice, islands: allIslands };
  if (shadow) warnings.push(shadowReason(shadow));
  const widthMm = input.plan.paperWidthMm;
  const drawing = input.landmarks?.length
    ? checkDrawing(input.landmarks, {
        widthMm,
        heightMm: input.paperHeightMm ?? (widthMm * height) / width,
      })
    : undefined;
  const corners = cornersOf(masses.map).map((corner): Spot => {
    const [x, y] = applyHomography(map, corner);
    return [x / pixels.width, y / pixels.height];
  }) as Corners;
  return {
    summary: summaryOf(judged(comparison, advice), islands, afar),
    comparison,
    advice,
    islands,
    edges,
    ...(passages ? { passages } : {}),
    afar,
    match,
    ...(drawing ? { drawing } : {}),
    corners,
    alignment: {
      found: alignment?.found ?? false,
      share: alignment?.share ?? 0,
      movedMm: ((alignment?.moved ?? 0) * by) / pxPerMm,
      slackMm: ((alignment?.slack ?? 0) * by) / pxPerMm,
    },
    ...(painting.white ? { white: painting.white } : {}),
    warnings,
    rectified: await displayOf(upright, watch, plane),
  };
}

/** A comparison without what advice lays to a shadow. */
function judged(comparison: Comparison, advice: readonly Advice[]): Comparison {
  const spared = new Set(
    advice.flatMap(({ region, reasons: [{ code }] }) =>
      code === 'check.in-shadow' ? [region] : [],
    ),
  );
  return {
    ...comparison,
    corrections: comparison.corrections.filter(({ region }) => !spared.has(region)),
    lostReserves: comparison.lostReserves.filter((region) => !spared.has(region)),
  };
}

/** Plan and painting as they are read from afar. */
interface Near {
  planned: Lightness;
  painting: Lightness;
  pxPerMm: number;
}

const nearKey = ({ distance: _distance, acuity: _acuity, ...rest }: CheckInput): string =>
  `${rest.picture} near ${JSON.stringify(rest)}`;

/** Keeps small copies of plan and painting, so that another distance is no new check. What is kept is never part of an answer. */
async function nearFor(
  input: CheckInput,
  full: Near,
  workshop: Workshop,
  watch: Watch,
): Promise<Near> {
  const by = Math.max(1, Math.ceil(Math.max(full.painting.width, full.painting.height) / NEAR));
  const small = async (plane: Lightness): Promise<Lightness> => {
    const made = await sliced(shrunkKernel(plane, by), watch, 'step-back');
    return made === plane ? { ...plane, data: plane.data.slice() } : made;
  };
  const near = {
    planned: await small(full.planned),
    painting: await small(full.painting),
    pxPerMm: full.pxPerMm / by,
  };
  workshop.cache.set(nearKey(input), near, 2 * near.planned.data.byteLength);
  return near;
}

/** Longer side of those copies: four times what is compared in the end. */
const NEAR = 512;

const readFrom = (
  { planned, painting, pxPerMm }: Near,
  { distance = DISTANCE, acuity }: CheckInput,
  watch: Watch,
): Promise<FromAfar> =>
  sliced(readsFromAfarKernel(planned, painting, { pxPerMm, distance, acuity }), watch, 'step-back');

/** The plan's passages in the painting, each against its swatch of the board. */
async function passagesChecked(
  input: CheckInput,
  board: Board,
  masses: Masses,
  upright: Pixels,
  workshop: Workshop,
  watch: Watch,
): Promise<PassageFinding[]> {
  const planned = await workshop.masses(input.plan, watch);
  const passages = await passagesFor(input.plan, planned, workshop, watch);
  const wanted = passages.passages.map(({ id, region, lab }) => ({
    id,
    band: masses.regions[region].band,
    lab,
  }));
  const kept = new Set(input.reserves);
  const colours = assignSwatches(board, wanted).map(({ swatch, lab }, i) =>
    swatch === undefined || kept.has(passages.passages[i].region) ? undefined : lab,
  );
  const { order, upToStep, corners, white } = input;
  const isWhiteKnown = white !== undefined || corners !== undefined;
  return sliced(
    passageFindingsKernel({ masses, colours }, passages, upright, {
      order,
      upToStep,
      leans: isWhiteKnown,
    }),
    watch,
    'passages',
  );
}

/** From the pixels of a copy `by` times as small to those of the whole. */
function enlarged(by: number): Homography {
  return [by, 0, 0, 0, by, 0, 0, 0, 1];
}

/** A map between pixels of small copies as one between those of the whole. */
function inLarge(map: Homography, by: number): Homography {
  return chainHomographies(chainHomographies(enlarged(1 / by), map), enlarged(by));
}

/** What is shown: an ImageBitmap, or bytes where there is none. */
async function displayOf(pixels: Pixels, watch: Watch, plane?: Lightness): Promise<Display> {
  const bitmap = bitmapOf(pixels);
  return {
    plane: plane ?? (await sliced(lightnessKernel(pixels), watch, 'rectify')),
    ...(bitmap ? { bitmap } : { rgba: new Uint8ClampedArray(pixels.data) }),
  };
}

/** The pixels as a file, made anew: it holds nothing of the photo's own data. */
async function fileOf(pixels: Pixels, type: 'image/jpeg' | 'image/png'): Promise<Blob | undefined> {
  const bitmap = bitmapOf(pixels);
  if (!bitmap) return undefined;
  const { canvas, context } = readable(pixels.width, pixels.height);
  try {
    context.drawImage(bitmap, 0, 0);
    return await canvas.convertToBlob({ type, quality: 0.92 });
  } catch {
    throw new CoreError('PictureTooLarge', 'There is not enough memory for this picture file.', {
      width: pixels.width,
      height: pixels.height,
    });
  } finally {
    bitmap.close();
  }
}
