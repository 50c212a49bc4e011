/**
 * The part of a photo that is painted, in pixels of the upright photo (fractions allowed). `aspect` is width over height of
 * the paper. Every frame that leaves this file lies inside the photo; those made with an aspect keep it.
 */
import type { Crop } from '../../shared/core.js';

/** An upright rectangle in pixels of the upright photo. */
export interface Frame {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** Size of the upright photo in pixels. */
export interface PhotoSize {
  width: number;
  height: number;
}

/** Where a frame is held: compass points, north at the top. */
export type Grip = 'nw' | 'n' | 'ne' | 'e' | 'se' | 's' | 'sw' | 'w';

/** A grip's place on its frame, as fractions of the frame's width and height. */
export const GRIPS: Readonly<Record<Grip, readonly [x: number, y: number]>> = {
  nw: [0, 0],
  n: [0.5, 0],
  ne: [1, 0],
  e: [1, 0.5],
  se: [1, 1],
  s: [0.5, 1],
  sw: [0, 1],
  w: [0, 0.5],
};

/** Pixels that the shorter side keeps at least (less in a photo smaller than that). */
const LEAST_SIDE = 16;

const clamp = (value: number, low: number, high: number): number =>
  Math.min(high, Math.max(low, value));

/** The frame of a crop; the whole photo when there is none. */
export function frameOf(crop: Crop | undefined, photo: PhotoSize): Frame {
  if (!crop) return { x: 0, y: 0, ...photo };
  return {
    x: crop.x * photo.width,
    y: crop.y * photo.height,
    width: crop.width * photo.width,
    height: crop.height * photo.height,
  };
}

/** The crop of a frame, in fractions that never add up to more than 1. */
export function cropOf(frame: Frame, photo: PhotoSize): Crop {
  const x = clamp(frame.x / photo.width, 0, 1);
  const y = clamp(frame.y / photo.height, 0, 1);
  return {
    x,
    y,
    width: Math.min(frame.width / photo.width, 1 - x),
    height: Math.min(frame.height / photo.height, 1 - y),
  };
}

/** The largest frame of a proportion, in the middle of the photo. */
export function largestFrame(photo: PhotoSize, aspect: number): Frame {
  const width = widest(photo, aspect);
  const height = width / aspect;
  return { x: (photo.width - width) / 2, y: (photo.height - height) / 2, width, height };
}

/** Whether a frame has a proportion, to within a pixel of its sides. */
export function hasAspect(frame: Frame, aspect: number): boolean {
  return (
    Math.abs(frame.width - frame.height * aspect) <= 1 ||
    Math.abs(frame.height - frame.width / aspect) <= 1
  );
}

/** The frame in another proportion: same middle and same area as far as the photo allows; itself when it has that proportion. */
export function refitted(frame: Frame, photo: PhotoSize, aspect: number): Frame {
  if (hasAspect(frame, aspect)) return frame;
  const width = clamp(
    Math.sqrt(frame.width * frame.height * aspect),
    narrowest(photo, aspect),
    widest(photo, aspect),
  );
  const height = width / aspect;
  return inside(
    {
      x: frame.x + (frame.width - width) / 2,
      y: frame.y + (frame.height - height) / 2,
      width,
      height,
    },
    photo,
  );
}

/** The frame moved, as far as the photo reaches. */
export function moved(frame: Frame, dx: number, dy: number, photo: PhotoSize): Frame {
  return inside({ ...frame, x: frame.x + dx, y: frame.y + dy }, photo);
}

/**
 * The frame in another width and the proportion's height. Held at a corner, the opposite corner stays; held at a side, the
 * opposite side stays and the other axis grows to both sides (and slides where it meets the photo's border); without a grip
 * it grows to all sides.
 */
export function resized(
  frame: Frame,
  width: number,
  photo: PhotoSize,
  aspect: number,
  grip?: Grip,
): Frame {
  const [heldX, heldY] = grip ? GRIPS[grip] : [0.5, 0.5];
  const stayX = 1 - heldX;
  const stayY = 1 - heldY;
  const fixedX = frame.x + stayX * frame.width;
  const fixedY = frame.y + stayY * frame.height;
  const roomX = heldX === 0.5 ? photo.width : heldX === 1 ? photo.width - fixedX : fixedX;
  const roomY = heldY === 0.5 ? photo.height : heldY === 1 ? photo.height - fixedY : fixedY;
  const most = Math.min(roomX, roomY * aspect);
  const next = Math.max(Math.min(narrowest(photo, aspect), most), Math.min(width, most));
  const height = next / aspect;
  return inside(
    { x: fixedX - stayX * next, y: fixedY - stayY * height, width: next, height },
    photo,
  );
}

/**
 * The width that a drag asks for: at a side the distance to the opposite side, at a corner the mean of what the two axes ask
 * for, so that the frame follows the pointer smoothly.
 */
export function draggedWidth(
  frame: Frame,
  grip: Grip,
  dx: number,
  dy: number,
  aspect: number,
): number {
  const [heldX, heldY] = GRIPS[grip];
  const outX = (heldX - 0.5) * 2 * dx;
  const outY = (heldY - 0.5) * 2 * dy * aspect;
  const axes = Math.abs(heldX - 0.5) * 2 + Math.abs(heldY - 0.5) * 2;
  return frame.width + (outX + outY) / axes;
}

/** The grip within `reach` of a place (same unit as the frame), the nearest one; undefined when none is. */
export function gripAt(frame: Frame, x: number, y: number, reach: number): Grip | undefined {
  // The sides of a small frame leave room to take hold of its inside.
  const sides = Math.min(frame.width, frame.height) >= 4 * reach;
  let best: Grip | undefined;
  let least = reach;
  for (const [grip, [gx, gy]] of Object.entries(GRIPS) as [Grip, readonly [number, number]][]) {
    if (!sides && (gx === 0.5 || gy === 0.5)) continue;
    const away = Math.hypot(frame.x + gx * frame.width - x, frame.y + gy * frame.height - y);
    if (away <= least) {
      least = away;
      best = grip;
    }
  }
  return best;
}

function widest(photo: PhotoSize, aspect: number): number {
  return Math.min(photo.width, photo.height * aspect);
}

function narrowest(photo: PhotoSize, aspect: number): number {
  return Math.min(widest(photo, aspect), aspect >= 1 ? LEAST_SIDE * aspect : LEAST_SIDE);
}

function inside(frame: Frame, photo: PhotoSize): Frame {
  const width = Math.min(frame.width, photo.width);
  const height = Math.min(frame.height, photo.height);
  return {
    x: clamp(frame.x, 0, photo.width - width),
    y: clamp(frame.y, 0, photo.height - height),
    width,
    height,
  };
}
