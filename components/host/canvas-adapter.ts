import type { Asking } from './host.js';
import {
  BridgeError,
  type Layer,
  type OfferedPicture,
  type PictureAsked,
  type Rect,
} from './protocol.js';

/** What a canvas cannot tell of itself. */
export type CanvasFacts = Pick<OfferedPicture, 'name' | 'revision' | 'selection' | 'size'> & {
  /** What the canvas shows of the host's picture, in the host's units; its own pixels when missing. */
  area?: Rect;
};

/**
 * A canvas as the picture that the panel asks for: all of it, or its selection, reduced where it has more pixels than the panel
 * takes. The canvas stays as it is.
 * @throws {BridgeError} by rejecting: `NoPicture` for a canvas without pixels, `PictureForbidden` where it holds pixels of another origin
 */
export async function pictureOfCanvas(
  canvas: HTMLCanvasElement | OffscreenCanvas,
  { part, panel }: PictureAsked & Pick<Asking, 'panel'>,
  facts: CanvasFacts = {},
): Promise<OfferedPicture> {
  const { width, height } = canvas;
  const { area = { x: 0, y: 0, width, height }, selection, ...rest } = facts;
  const scale = { x: width / area.width, y: height / area.height };
  const bounds = part === 'selection' ? selection?.bounds : undefined;
  const cut = wholePixels(bounds ?? area, area, scale, canvas);
  if (!(cut.width > 0 && cut.height > 0))
    throw new BridgeError('NoPicture', 'There are no pixels to give.');
  const less = Math.min(1, Math.sqrt(panel.limits.pixels / (cut.width * cut.height)));
  const image = await createImageBitmap(readable(canvas), cut.x, cut.y, cut.width, cut.height, {
    resizeWidth: Math.max(1, Math.floor(cut.width * less)),
    resizeHeight: Math.max(1, Math.floor(cut.height * less)),
    resizeQuality: 'high',
  });
  const shown = {
    x: area.x + cut.x / scale.x,
    y: area.y + cut.y / scale.y,
    width: cut.width / scale.x,
    height: cut.height / scale.y,
  };
  const { size, ...named } = rest;
  const sized = size && {
    size: {
      widthMm: (size.widthMm * shown.width) / area.width,
      heightMm: (size.heightMm * shown.height) / area.height,
    },
  };
  return { image, area: shown, selection, ...named, ...sized };
}

/** A part of the area in whole pixels of the canvas, no less than was asked for, and inside it. */
function wholePixels(
  part: Rect,
  area: Rect,
  scale: { x: number; y: number },
  { width, height }: { width: number; height: number },
): Rect {
  const x = Math.max(0, Math.floor((part.x - area.x) * scale.x));
  const y = Math.max(0, Math.floor((part.y - area.y) * scale.y));
  const right = Math.min(width, Math.ceil((part.x + part.width - area.x) * scale.x));
  const bottom = Math.min(height, Math.ceil((part.y + part.height - area.y) * scale.y));
  return { x, y, width: right - x, height: bottom - y };
}

/** The canvas, if its pixels may be read. */
function readable<C extends HTMLCanvasElement | OffscreenCanvas>(canvas: C): C {
  const probe = new OffscreenCanvas(1, 1).getContext('2d')!;
  try {
    probe.drawImage(canvas, 0, 0);
    probe.getImageData(0, 0, 1, 1);
    return canvas;
  } catch {
    throw new BridgeError('PictureForbidden', 'The canvas holds pixels of another origin.');
  }
}

/**
 * A layer as something that a canvas draws. An SVG needs `img-src blob:` where a page has a policy.
 * @throws {DOMException} by rejecting, where the file cannot be decoded
 */
export async function imageOfLayer({ form, data }: Layer): Promise<ImageBitmap | HTMLImageElement> {
  if (form === 'png') return createImageBitmap(new Blob([data], { type: 'image/png' }));
  const image = new Image();
  const url = URL.createObjectURL(new Blob([data], { type: 'image/svg+xml' }));
  try {
    image.src = url;
    await image.decode();
    return image;
  } finally {
    URL.revokeObjectURL(url);
  }
}
