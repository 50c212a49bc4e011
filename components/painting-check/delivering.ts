import type { DeliveryLayout } from '../shared/events/delivery.js';
import type { Display } from '../shared/core.js';
import { layerOf, type Layer } from './pictures.js';

/** Pictures of one height side by side, on white, the painting last. */
export interface Composed {
  painting: Layer;
  photo?: Layer;
  bands?: Layer;
}

/** Between and around pictures, as a share of their height, and the neutral ground: as the job `delivery` has them. */
const GAP = 1 / 40;
const GROUND = 'rgb(230, 230, 230)';

/** Draws what will be handed over, small: the painting is `width` pixels broad. */
export function compose(
  canvas: HTMLCanvasElement,
  { painting, photo, bands }: Composed,
  layout: DeliveryLayout,
  width: number,
): void {
  const beside = layout === 'alone' ? [] : layout === 'photo' ? [photo] : [photo, bands];
  const pictures = [...beside.filter((each) => each !== undefined), painting];
  const height = Math.round((width * painting.height) / painting.width);
  const gap = pictures.length > 1 ? Math.round(height * GAP) : 0;
  const widths = pictures.map((each) => Math.round((height * each.width) / each.height));
  canvas.width = widths.reduce((sum, each) => sum + each + gap, gap);
  canvas.height = height + 2 * gap;
  const context = canvas.getContext('2d')!;
  context.imageSmoothingQuality = 'high';
  context.fillStyle = GROUND;
  context.fillRect(0, 0, canvas.width, canvas.height);
  let x = gap;
  pictures.forEach((each, i) => {
    context.drawImage(each, x, gap, widths[i], height);
    x += widths[i] + gap;
  });
}

const QUALITY = 0.92;

/** A display as a file: pixels only. Its bitmap is handed on, not copied. */
export function fileOf(display: Display, type: string): Promise<Blob> {
  const { width, height } = display.plane;
  const canvas = new OffscreenCanvas(width, height);
  if (display.bitmap) canvas.getContext('bitmaprenderer')!.transferFromImageBitmap(display.bitmap);
  else canvas.getContext('2d')!.drawImage(layerOf(display), 0, 0);
  return canvas.convertToBlob({ type, quality: QUALITY });
}

/** A file name without signs that file systems refuse. */
export function nameOf(text: string, type: string): string {
  const base = text
    .replace(/\.(jpe?g|png)$/i, '')
    .replace(/[\\/:*?"<>|\p{Cc}\s]+/gu, ' ')
    .trim()
    .slice(0, 120);
  return `${base || 'painting'}.${type === 'image/png' ? 'png' : 'jpg'}`;
}
