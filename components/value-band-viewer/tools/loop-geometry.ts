/** Loops about the subject, in fractions of the upright photo (0..1); every loop that leaves this file lies inside it. */
import { loopBounds, simplifyLoop, type Loop, type Spot } from '../../shared/core.js';
import type { PhotoSize } from './crop-geometry.js';

/** Points that a drawn loop keeps at most. */
const MOST_POINTS = 400;
/** The least width and height of a loop, as fractions of the photo. */
export const LEAST_LOOP = 0.02;

const clamp = (value: number, low: number, high: number): number =>
  Math.min(high, Math.max(low, value));

/**
 * A drawn line as a closed loop with few points: no dropped point lies farther than `tolerance` pixels of the photo from the
 * loop (more where that would leave over 400 points).
 * @returns undefined when the line encloses too little to be meant: less than a fiftieth of the photo's width or height
 */
export function closedLoop(
  line: readonly Spot[],
  photo: PhotoSize,
  tolerance: number,
): Loop | undefined {
  const pixels = line.map(([x, y]): Spot => [
    clamp(x, 0, 1) * photo.width,
    clamp(y, 0, 1) * photo.height,
  ]);
  if (pixels.length < 3) return undefined;
  let loop = simplifyLoop(pixels, tolerance);
  for (let wide = 2 * tolerance; loop.length > MOST_POINTS; wide *= 2)
    loop = simplifyLoop(loop, wide);
  if (loop.length < 3) return undefined;
  const { width, height } = loopBounds(loop);
  if (width < LEAST_LOOP * photo.width || height < LEAST_LOOP * photo.height) return undefined;
  return loop.map(([x, y]) => [clamp(x / photo.width, 0, 1), clamp(y / photo.height, 0, 1)]);
}

/** An oval in a box of the photo (fractions), clockwise from its right-most point. */
export function ovalLoop(x: number, y: number, width: number, height: number, points = 48): Loop {
  return Array.from({ length: points }, (_, i): Spot => {
    const angle = (2 * Math.PI * i) / points;
    return [
      clamp(x + (width / 2) * (1 + Math.cos(angle)), 0, 1),
      clamp(y + (height / 2) * (1 + Math.sin(angle)), 0, 1),
    ];
  });
}

/** The loop moved, as far as the photo reaches. */
export function movedLoop(loop: Loop, dx: number, dy: number): Loop {
  const box = loopBounds(loop);
  return placedLoop(loop, box.x + dx, box.y + dy, box.width, box.height);
}

/** The loop made wider and higher about its middle, inside the photo and not below {@link LEAST_LOOP}. */
export function scaledLoop(loop: Loop, across: number, down: number): Loop {
  const box = loopBounds(loop);
  const width = clamp(box.width * across, LEAST_LOOP, 1);
  const height = clamp(box.height * down, LEAST_LOOP, 1);
  return placedLoop(
    loop,
    box.x + (box.width - width) / 2,
    box.y + (box.height - height) / 2,
    width,
    height,
  );
}

/** The loop stretched into a box, which is moved inside the photo. */
function placedLoop(loop: Loop, x: number, y: number, width: number, height: number): Loop {
  const box = loopBounds(loop);
  const left = clamp(x, 0, 1 - width);
  const top = clamp(y, 0, 1 - height);
  const across = box.width > 0 ? width / box.width : 0;
  const down = box.height > 0 ? height / box.height : 0;
  return loop.map(([px, py]) => [
    clamp(left + (px - box.x) * across, 0, 1),
    clamp(top + (py - box.y) * down, 0, 1),
  ]);
}
