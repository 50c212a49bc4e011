/** Reading one dab more, or again, from a sheet whose light is known: what a painter draws, moves, joins or parts. */
import { expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import { reason } from '../base/reason.js';
import type { Corners, Loop, Pixels } from '../base/types.js';
import { LINEAR_OF_SRGB, luminanceOfLightness } from '../colour/index.js';
import { loopBounds, loopMask } from '../geometry/index.js';
import type { JpegTables } from '../picture/index.js';
import { expectPixels } from '../picture/lightness.js';
import { cutOffBySrgb, depthOf, middleOf, uncertaintyOf } from './sheet-dabs.js';
import { lightAt, type SheetLight } from './sheet-light.js';
import type { SheetSwatch } from './sheet-types.js';

/** Pixels of a dab that are looked at, at most; of a larger one every n-th of each row and column. */
const MOST = 40_000;

/**
 * Reads the paint inside one or several loops as one dab, by the light that was fitted on the same picture (any copy of it). Rim and
 * reflections have no say; if a loop holds some paper too, the colour of the greater part is read.
 *
 * @param pixels straight-alpha RGBA, sRGB
 * @param light of the sheet, as `sheetKernel` and the job `sheet` give it
 * @param loops closed, in picture pixels, together one dab; parts outside the picture are left out
 * @param options.paperLightness L* of the bare paper, 50..100, default 95
 * @param options.jpeg how coarsely the file keeps tones, when it is a JPEG file
 * @returns the dab; its quad is the one loop when that has four corners, else the upright rectangle about all loops; column 0
 * @throws TypeError, RangeError naming the argument; RangeError when no pixel of the picture lies inside
 */
export function readSwatch(
  pixels: Pixels,
  light: SheetLight,
  loops: Loop[],
  options: { paperLightness?: number; jpeg?: JpegTables } = {},
): SheetSwatch {
  expectPixels('pixels', pixels);
  expectObject('light', light);
  expectObject('options', options);
  if (!Array.isArray(loops)) throw wrongType('loops', loops, 'an array of loops');
  const paperLightness = expectNumber(
    'options.paperLightness',
    options.paperLightness ?? 95,
    50,
    100,
  );
  const { x, y, width, height } = boundsOn(pixels, loops);
  const step = Math.max(1, Math.ceil(Math.sqrt((width * height) / MOST)));
  const [w, h] = [Math.ceil(width / step), Math.ceil(height / step)];
  const mask = new Uint8Array(w * h);
  for (const loop of loops) {
    const own = loopMask(
      loop.map(([px, py]) => [(px - x) / step, (py - y) / step]),
      w,
      h,
    );
    own.forEach((on, i) => {
      if (on) mask[i] = 1;
    });
  }
  const inner = innerPart(mask, w, h);
  if (inner.length === 0)
    throw outOfRange('loops', loops, 'loops with some of the picture inside them');
  const relative = new Float32Array(3 * w * h);
  for (const i of inner) {
    const px = Math.min(pixels.width - 1, x + (i % w) * step);
    const py = Math.min(pixels.height - 1, y + Math.floor(i / w) * step);
    const lit = lightAt(light, (px + 0.5) / pixels.width, (py + 0.5) / pixels.height);
    const at = 4 * (py * pixels.width + px);
    for (let c = 0; c < 3; c++) relative[3 * i + c] = LINEAR_OF_SRGB[pixels.data[at + c]] / lit[c];
  }
  const middle = middleOf(relative, inner, luminanceOfLightness(paperLightness));
  const cut = cutOffBySrgb(relative, inner);
  const at: [number, number] = [(x + width / 2) / pixels.width, (y + height / 2) / pixels.height];
  return {
    quad: quadOf(loops, { x, y, width, height }),
    lab: middle.lab,
    spread: middle.spread,
    uncertainty: uncertaintyOf(
      middle,
      light,
      paperLightness,
      lightAt(light, ...at)[1],
      options.jpeg?.lumaStep,
      cut,
    ),
    column: 0,
    ...(cut > 0 ? { reasons: [reason('dab.gamut')] } : {}),
  };
}

/** The whole pixels about all loops, cut to the picture. */
function boundsOn(
  pixels: Pixels,
  loops: Loop[],
): { x: number; y: number; width: number; height: number } {
  const all = loopBounds(loops.flat());
  const x = Math.max(0, Math.floor(all.x));
  const y = Math.max(0, Math.floor(all.y));
  const width = Math.min(pixels.width, Math.ceil(all.x + all.width)) - x;
  const height = Math.min(pixels.height, Math.ceil(all.y + all.height)) - y;
  if (width < 1 || height < 1)
    throw outOfRange('loops', loops, 'loops with some of the picture inside them');
  return { x, y, width, height };
}

/** Pixels of a mask without its rim, as far as enough are left. */
function innerPart(mask: Uint8Array, width: number, height: number): number[] {
  const depth = depthOf(mask, width, height);
  const deepest = depth.reduce((a, b) => Math.max(a, b), 0);
  for (const share of [0.25, 0.1, 0]) {
    const kept: number[] = [];
    for (let i = 0; i < mask.length; i++)
      if (mask[i] && depth[i] > Math.min(share * deepest, deepest - 0.5)) kept.push(i);
    if (kept.length >= 30 || share === 0) return kept;
  }
  return [];
}

function quadOf(
  loops: Loop[],
  { x, y, width, height }: { x: number; y: number; width: number; height: number },
): Corners {
  if (loops.length === 1 && loops[0].length === 4)
    return loops[0].map(([px, py]) => [px, py]) as Corners;
  return [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ];
}
