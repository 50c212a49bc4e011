import type { Crop, Spot } from '../shared/core.js';

/** What lies under the card: the upright photo, the part of it that is painted, and the width of the paper. */
export interface Sheet {
  /** The upright photo, pixels. */
  photo: { width: number; height: number };
  /** The painted part, in fractions of the photo. */
  crop: Crop;
  /** The width of the painted part on the paper, mm. */
  paperWidthMm: number;
}

/** A box on the screen, CSS pixels. */
export interface Box {
  width: number;
  height: number;
}

export const WHOLE: Crop = { x: 0, y: 0, width: 1, height: 1 };

/** The smallest and largest hole that can be set, mm on the paper. */
export const HOLE_MM = { least: 0.5, most: 200, usual: 12 };

/** Sizes that the keys step through, mm: about a quarter more each time. */
const HOLE_STEPS = [
  0.5, 1, 1.5, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 65, 80, 100, 125, 160, 200,
];

/** Width over height of the painted part. */
export function aspectOf({ photo, crop }: Sheet): number {
  return (photo.width * crop.width) / (photo.height * crop.height);
}

/** A hole's size as it can be used: a number within {@link HOLE_MM}; the usual size for anything else. */
export function holeSize(mm: number): number {
  if (!Number.isFinite(mm) || mm <= 0) return HOLE_MM.usual;
  return Math.min(HOLE_MM.most, Math.max(HOLE_MM.least, mm));
}

/** The next size of the hole, smaller (-1) or bigger (+1). */
export function nextHole(mm: number, direction: -1 | 1): number {
  const next =
    direction > 0
      ? HOLE_STEPS.find((size) => size > mm + 1e-9)
      : HOLE_STEPS.findLast((size) => size < mm - 1e-9);
  return next ?? mm;
}

/** The hole's radius as a fraction of the photo's longer side. */
export function radiusOf(holeMm: number, { photo, crop, paperWidthMm }: Sheet): number {
  const pxPerMm = (photo.width * crop.width) / paperWidthMm;
  return ((holeMm / 2) * pxPerMm) / Math.max(photo.width, photo.height);
}

/** The hole's diameter on a stage that shows the painted part, CSS pixels. */
export function holeOnStage(holeMm: number, paperWidthMm: number, stage: Box): number {
  return (holeMm / paperWidthMm) * stage.width;
}

/** A place on the photo from a place on the stage, CSS pixels from its upper left; kept on the painted part. */
export function spotAt(x: number, y: number, stage: Box, crop: Crop): Spot {
  return keptOn(
    [crop.x + (x / stage.width) * crop.width, crop.y + (y / stage.height) * crop.height],
    crop,
  );
}

/** A place on the stage, CSS pixels from its upper left, of a place on the photo. */
export function onStage([x, y]: Spot, stage: Box, crop: Crop): [x: number, y: number] {
  return [((x - crop.x) / crop.width) * stage.width, ((y - crop.y) / crop.height) * stage.height];
}

/** The nearest place on the painted part. */
export function keptOn([x, y]: Spot, crop: Crop): Spot {
  return [clamp(x, crop.x, crop.x + crop.width), clamp(y, crop.y, crop.y + crop.height)];
}

/** The middle of the painted part. */
export function middleOf(crop: Crop): Spot {
  return [crop.x + crop.width / 2, crop.y + crop.height / 2];
}

/** A step of the keys, as a fraction of the longer side of the painted part; with Shift ten times that. */
export const KEY_STEP = 1 / 200;

/** The place one step of the keys away: `right` and `down` are -1, 0 or 1. Steps are as long down as across. */
export function steppedFrom(
  spot: Spot,
  right: number,
  down: number,
  big: boolean,
  { photo, crop }: Sheet,
): Spot {
  const longer = Math.max(photo.width * crop.width, photo.height * crop.height);
  const px = longer * KEY_STEP * (big ? 10 : 1);
  return keptOn([spot[0] + (right * px) / photo.width, spot[1] + (down * px) / photo.height], crop);
}

/** The side of the square card, CSS pixels: about a third of the stage, and always more than the hole. */
export function cardSide(hole: number, stage: Box): number {
  const third = Math.min(stage.width, stage.height) * 0.36;
  return Math.round(Math.max(Math.min(224, Math.max(112, third)), hole * 2.2));
}

/** The upper corner that is far from a finger at `x`: where the enlarged hole is shown. */
export function loupeCorner(x: number, stage: Box): 'left' | 'right' {
  return x > stage.width / 2 ? 'left' : 'right';
}

/** Where a place lies on the painted part, in whole percents from the left and from the top. */
export function percentsOf([x, y]: Spot, crop: Crop): { across: number; down: number } {
  return {
    across: Math.round(((x - crop.x) / crop.width) * 100),
    down: Math.round(((y - crop.y) / crop.height) * 100),
  };
}

const clamp = (value: number, low: number, high: number): number =>
  Math.min(high, Math.max(low, value));
