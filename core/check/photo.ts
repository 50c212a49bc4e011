import { reason, type Reason } from '../base/reason.js';
import type { Corners, Lightness, Spot } from '../base/types.js';
import { applyHomography, homographyOf, loopMask } from '../geometry/index.js';
import { softAbovePx } from '../mass/edges.js';
import { sharpestEdge } from '../picture/sharpness.js';

/** What is wrong with a photo of a painting; none of it is the painting's. */

interface Size {
  width: number;
  height: number;
}

const UNIT: Corners = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
];

/** `check.cut-off` { percent }: so much of the painting lies outside the photo. */
export function cutOff(corners: Corners, { width, height }: Size): Reason[] {
  const map = homographyOf(UNIT, corners);
  const cells = 32;
  let outside = 0;
  for (let j = 0; j < cells; j++)
    for (let i = 0; i < cells; i++) {
      const [x, y] = applyHomography(map, [(i + 0.5) / cells, (j + 0.5) / cells]);
      if (x < 0 || y < 0 || x > width || y > height) outside++;
    }
  const percent = Math.round((100 * outside) / cells ** 2);
  return percent > 0 ? [reason('check.cut-off', { percent })] : [];
}

/** L* above bare paper that paint never has: a reflection. */
const ABOVE_PAPER = 2;
/** Masses planned at least this much darker than paper, L*, are looked at for it. */
const BELOW_PAPER = 10;

/** `check.glare` { percent }: so much of the darker masses shines brighter than the paper does. */
export function glareOn(expected: Lightness, painting: Lightness, paper: number): Reason[] {
  const dark = 2.55 * (paper - BELOW_PAPER);
  const bright = 2.55 * Math.min(100, paper + ABOVE_PAPER);
  let looked = 0;
  let shining = 0;
  for (let k = 0; k < expected.data.length; k++) {
    if (expected.data[k] > dark) continue;
    looked++;
    if (painting.data[k] >= bright) shining++;
  }
  const percent = looked === 0 ? 0 : Math.round((100 * shining) / looked);
  return percent > 0 ? [reason('check.glare', { percent })] : [];
}

/** So far about the painting, as a share of its sides, edges of paper and table say how sharp the photo is. */
const ABOUT = 0.1;

/** Blur adds to an edge's own width in squares: up to this share of the limit an edge of half the limit is still taken for hard. */
const LEAVES = Math.sqrt(1 - 0.5 ** 2);

/**
 * `check.blur` { width }: the sharpest edge in and about the painting is so broad, in pixels of the plan, that hard edges are taken for
 * soft ones. A painting without any hard edge, cut close, cannot be told from a blurred photo of one that has some.
 *
 * @param photo lightness of the photo as it is
 * @param corners of the painted part, its pixels
 * @param plan the size of the plan, and its pixels for each millimetre of the paper
 */
export function blurOf(photo: Lightness, corners: Corners, plan: Size, pxPerMm: number): Reason[] {
  const map = homographyOf(UNIT, corners);
  const about = [
    [-ABOUT, -ABOUT],
    [1 + ABOUT, -ABOUT],
    [1 + ABOUT, 1 + ABOUT],
    [-ABOUT, 1 + ABOUT],
  ].map(([x, y]) => applyHomography(map, [x, y]));
  const width = sharpestEdge(photo, loopMask(about, photo.width, photo.height));
  if (width === undefined) return [];
  const [tl, tr, br, bl] = corners;
  const across = (apart(tl, tr) + apart(bl, br)) / 2;
  const wide = (width * plan.width) / Math.max(1, across);
  return wide > LEAVES * softAbovePx(plan.width, plan.height, pxPerMm)
    ? [reason('check.blur', { width: wide })]
    : [];
}

const apart = (a: Spot, b: Spot): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
