import type { DeliveryLayout } from '../shared/events/delivery.js';
import type { Layer } from './pictures.js';

/** Pictures of one height side by side, on white, the painting last. */
export interface Composed {
  painting: Layer;
  photo?: Layer;
  bands?: Layer;
}

/** Distance of the pictures from one another and from the border, as a share of the painting's width. */
const GAP = 0.04;
/** The largest canvas that all engines make, pixels. */
const MOST = 16_000_000;

/** Draws what is handed over. The painting is `width` pixels broad, or less where the whole would grow too large. */
export function compose(
  canvas: HTMLCanvasElement,
  parts: Composed,
  layout: DeliveryLayout,
  width: number,
): void {
  const { painting, photo, bands } = parts;
  const beside =
    layout === 'alone'
      ? []
      : layout === 'photo'
        ? [photo]
        : layout === 'bands'
          ? [photo, bands]
          : [];
  const pictures = [...beside.filter((each) => each !== undefined), painting];
  const gap = pictures.length > 1 ? GAP : 0;
  const ratio = painting.height / painting.width;
  // Widths at the painting's own height; the gap is kept on all sides.
  const widths = pictures.map((each) => (each.width / each.height) * ratio);
  const across = widths.reduce((sum, each) => sum + each, 0) + gap * (pictures.length + 1);
  const down = ratio + 2 * gap;
  const unit = gap === 0 ? width : Math.min(width, Math.sqrt(MOST / (across * down)));
  canvas.width = Math.max(1, Math.round(across * unit));
  canvas.height = Math.max(1, Math.round(down * unit));
  const context = canvas.getContext('2d')!;
  context.imageSmoothingQuality = 'high';
  context.fillStyle = '#fff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  let x = gap;
  pictures.forEach((each, i) => {
    context.drawImage(each, x * unit, gap * unit, widths[i] * unit, ratio * unit);
    x += widths[i] + gap;
  });
}

const QUALITY = 0.92;

/** A canvas as a file: pixels only. */
export function fileOf(canvas: HTMLCanvasElement, type: string): Promise<Blob> {
  return new Promise((resolve, reject) => {
    canvas.toBlob(
      (blob) => {
        if (blob) resolve(blob);
        else reject(new DOMException('The picture could not be written.', 'EncodingError'));
      },
      type,
      QUALITY,
    );
  });
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

/** Hands a file to the reader's own downloads. */
export function handOver(blob: Blob, name: string): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 30_000);
}
