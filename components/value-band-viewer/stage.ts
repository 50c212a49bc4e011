/**
 * Where the picture lies on the stage. All lengths are fractions of the stage's width and height, so that they hold at any size.
 */

/** A box in fractions of the stage. */
export interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** How near the picture is looked at: a point p of the stage at rest is shown at `p * zoom + (x, y)`. */
export interface Sight {
  /** 1 shows the whole picture. */
  zoom: number;
  x: number;
  y: number;
}

/** The whole picture. */
export const WHOLE_SIGHT: Sight = { zoom: 1, x: 0, y: 0 };

/** The nearest look. */
export const NEAREST = 16;

/**
 * The box of a picture that lies whole and centred on a stage.
 * @param picture width / height of the picture
 * @param stage width / height of the stage
 */
export function boxOf(picture: number, stage: number): Box {
  if (picture > stage) {
    const height = stage / picture;
    return { x: 0, y: (1 - height) / 2, width: 1, height };
  }
  const width = picture / stage;
  return { x: (1 - width) / 2, y: 0, width, height: 1 };
}

/** The proportion of the stage for a picture: its own, but never a strip. */
export function stageRatio(picture: number): number {
  return Math.min(3.2, Math.max(0.4, picture));
}

/** Along one axis: what is larger than the stage covers it, what is smaller is centred. */
function keptInside(offset: number, start: number, size: number): number {
  if (size <= 1) return (1 - size) / 2 - start;
  return Math.min(-start, Math.max(1 - size - start, offset));
}

/** The sight, kept so that no more ground than needed is seen. */
export function settled({ zoom, x, y }: Sight, box: Box): Sight {
  const z = Math.min(NEAREST, Math.max(1, zoom));
  if (z === 1) return WHOLE_SIGHT;
  return {
    zoom: z,
    x: keptInside(x, box.x * z, box.width * z),
    y: keptInside(y, box.y * z, box.height * z),
  };
}

/** Looks nearer (factor above 1) or from further off, the point (px, py) of the stage staying where it is. */
export function zoomedAt(sight: Sight, factor: number, px: number, py: number, box: Box): Sight {
  const zoom = Math.min(NEAREST, Math.max(1, sight.zoom * factor));
  const change = zoom / sight.zoom;
  return settled({ zoom, x: px - (px - sight.x) * change, y: py - (py - sight.y) * change }, box);
}

/** Moves the picture on the stage. */
export function panned(sight: Sight, dx: number, dy: number, box: Box): Sight {
  return settled({ ...sight, x: sight.x + dx, y: sight.y + dy }, box);
}

/** From a point of the stage to fractions of the picture shown; may lie outside 0..1. */
export function toPicture(sight: Sight, box: Box, px: number, py: number): [u: number, v: number] {
  const x = (px - sight.x) / sight.zoom;
  const y = (py - sight.y) / sight.zoom;
  return [(x - box.x) / box.width, (y - box.y) / box.height];
}

/** From fractions of the picture shown to a point of the stage. */
export function fromPicture(
  sight: Sight,
  box: Box,
  u: number,
  v: number,
): [px: number, py: number] {
  return [
    (box.x + u * box.width) * sight.zoom + sight.x,
    (box.y + v * box.height) * sight.zoom + sight.y,
  ];
}
