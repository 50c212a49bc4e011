import { greyPalette, recolour, type Display } from '../../shared/core.js';

/** Room about pictures, as a share of their longer side. */
const GAP = 0.03;
/** Pictures of a strip stand at most so many in a row. */
const ROW = 4;

/** Shows a picture on a canvas at its own size; without one the canvas is cleared. */
export function pictureOf(canvas: HTMLCanvasElement | undefined, display?: Display): void {
  if (!canvas) return;
  const { width = 1, height = 1 } = display?.plane ?? {};
  if (canvas.width !== width || canvas.height !== height) {
    canvas.width = width;
    canvas.height = height;
  }
  const context = canvas.getContext('2d');
  if (!context) return;
  if (!display) context.clearRect(0, 0, 1, 1);
  else context.drawImage(imageOf(display), 0, 0);
}

/** A picture as a canvas can draw it. */
function imageOf({ plane, bitmap, rgba }: Display): ImageBitmap | HTMLCanvasElement {
  if (bitmap) return bitmap;
  const image = new ImageData(plane.width, plane.height);
  if (rgba) image.data.set(rgba);
  else recolour(plane.data, greyPalette(), new Uint32Array(image.data.buffer));
  const canvas = document.createElement('canvas');
  canvas.width = plane.width;
  canvas.height = plane.height;
  canvas.getContext('2d')!.putImageData(image, 0, 0);
  return canvas;
}

/** A copy of at most so many pixels, which needs nothing of the picture any more. */
export function smallCopy(display: Display, pixels: number): HTMLCanvasElement {
  const { width, height } = display.plane;
  const scale = Math.min(1, Math.sqrt(pixels / (width * height)));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(scale * width));
  canvas.height = Math.max(1, Math.round(scale * height));
  const context = canvas.getContext('2d');
  if (!context) throw unwritten();
  context.imageSmoothingQuality = 'high';
  context.drawImage(imageOf(display), 0, 0, canvas.width, canvas.height);
  return canvas;
}

const unwritten = (): DOMException =>
  new DOMException('The picture could not be written.', 'EncodingError');

/** Pictures of one size on a neutral ground as one file. */
async function written(
  pictures: { image: ImageBitmap | HTMLCanvasElement; text?: string }[],
  columns: number,
): Promise<Blob> {
  const { width, height } = pictures[0].image;
  const gap = Math.round(GAP * Math.max(width, height));
  const type = Math.round(0.045 * Math.min(width, height));
  const caption = pictures.some(({ text }) => text) ? 2 * type : 0;
  const rows = Math.ceil(pictures.length / columns);
  const canvas = document.createElement('canvas');
  canvas.width = columns * (width + gap) + gap;
  canvas.height = rows * (height + caption + gap) + gap;
  const context = canvas.getContext('2d');
  if (!context) throw unwritten();
  context.imageSmoothingQuality = 'high';
  context.fillStyle = '#c8c8c8';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.fillStyle = '#141414';
  context.font = `${type}px system-ui, sans-serif`;
  context.textBaseline = 'middle';
  pictures.forEach(({ image, text }, i) => {
    const x = gap + (i % columns) * (width + gap);
    const y = gap + Math.floor(i / columns) * (height + caption + gap);
    context.drawImage(image, x, y, width, height);
    if (text) context.fillText(text, x, y + height + caption / 2, width);
  });
  return new Promise((resolve, reject) =>
    canvas.toBlob((blob) => {
      canvas.width = canvas.height = 1;
      if (blob) resolve(blob);
      else reject(unwritten());
    }, 'image/png'),
  );
}

/** Photo and painting side by side as one picture. */
export function sideBySide(photo: Display, painting: Display): Promise<Blob> {
  return written([{ image: imageOf(photo) }, { image: imageOf(painting) }], 2);
}

/** The steps of a painting, each with its name, as one picture. */
export function stripOf(pictures: { image: HTMLCanvasElement; text: string }[]): Promise<Blob> {
  return written(pictures, Math.min(ROW, pictures.length));
}
