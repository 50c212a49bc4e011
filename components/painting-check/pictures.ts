import { lightnessOfCode, smallestSeenMm, type Display, type Lightness } from '../shared/core.js';
import { codeOfGrey } from './greys.js';

/** A picture that can be drawn. */
export type Layer = CanvasImageSource & { width: number; height: number };

/** The pixels of a display as something to draw. */
export function layerOf(display: Display): Layer {
  if (display.bitmap) return display.bitmap;
  const { width, height } = display.plane;
  const canvas = new OffscreenCanvas(width, height);
  const image = new ImageData(width, height);
  if (display.rgba) image.data.set(display.rgba);
  canvas.getContext('2d')!.putImageData(image, 0, 0);
  return canvas;
}

/** Bands are drawn with at most so many pixels a side: they hold no detail. */
const SIDE = 720;

/**
 * A plane as greys, on a small copy.
 * @param greys - L* for each number in the plane.
 */
export function greyLayer({ width, height, data }: Lightness, greys: readonly number[]): Layer {
  const by = Math.max(1, Math.ceil(Math.max(width, height) / SIDE));
  const columns = Math.max(1, Math.floor(width / by));
  const rows = Math.max(1, Math.floor(height / by));
  const image = new ImageData(columns, rows);
  const bytes = Uint8ClampedArray.from(greys, codeOfGrey);
  for (let y = 0, k = 0; y < rows; y++) {
    const at = Math.min(height - 1, Math.floor((y + 0.5) * by)) * width;
    for (let x = 0; x < columns; x++, k += 4) {
      const grey = bytes[data[at + Math.min(width - 1, Math.floor((x + 0.5) * by))]] ?? 255;
      image.data[k] = image.data[k + 1] = image.data[k + 2] = grey;
      image.data[k + 3] = 255;
    }
  }
  const canvas = new OffscreenCanvas(columns, rows);
  canvas.getContext('2d')!.putImageData(image, 0, 0);
  return canvas;
}

/** For each lightness code the target of the band it would be painted in. */
export function paintedGreys(targets: readonly number[]): number[] {
  let band = 0;
  return Array.from({ length: 256 }, (_, code) => {
    const lightness = lightnessOfCode(code);
    while (band + 1 < targets.length && lightness > (targets[band] + targets[band + 1]) / 2) band++;
    return targets[band];
  });
}

/** A picture as far as an eye resolves it from a distance. */
export function fromAfar(layer: Layer, widthMm: number, metres: number): Layer {
  const seen = Math.round(widthMm / smallestSeenMm(metres));
  const width = Math.min(layer.width, Math.max(8, seen));
  const height = Math.max(1, Math.round((width * layer.height) / layer.width));
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d')!;
  context.imageSmoothingQuality = 'high';
  context.drawImage(layer, 0, 0, width, height);
  return canvas;
}

/**
 * Draws a picture with its lower corner lifted off the one below.
 * @param lifted - 0 nothing, 1 all of it.
 */
export function drawLifted(
  canvas: HTMLCanvasElement,
  top: Layer,
  below: Layer | undefined,
  lifted: number,
): void {
  const { width, height } = canvas;
  const context = canvas.getContext('2d')!;
  context.imageSmoothingEnabled = true;
  context.imageSmoothingQuality = 'high';
  context.drawImage(top, 0, 0, width, height);
  if (!below || lifted <= 0) return;
  // The crease runs at 45 degrees: x + y = c; what lies beyond it is turned over.
  const c = (width + height) * (1 - lifted);
  const beyond = (): void => {
    context.beginPath();
    context.moveTo(c, 0);
    context.lineTo(c + width + height, 0);
    context.lineTo(c + width + height, width + height);
    context.lineTo(c - height - width, height + width);
    context.closePath();
  };
  context.save();
  beyond();
  context.clip();
  context.drawImage(below, 0, 0, width, height);
  context.restore();
  if (lifted >= 1) return;
  // The back of the sheet: the corner mirrored at the crease, (x, y) to (c - y, c - x), and no farther than a narrow strip.
  const strip = Math.min(c, width + height - c, 0.08 * width);
  context.save();
  context.beginPath();
  context.moveTo(c, 0);
  context.lineTo(c - strip, 0);
  context.lineTo(c - strip - height, height);
  context.lineTo(c - height, height);
  context.closePath();
  const shade = context.createLinearGradient(
    c - height / 2 - strip / 2,
    height / 2 - strip / 2,
    c - height / 2,
    height / 2,
  );
  shade.addColorStop(0, '#f4f4f4');
  shade.addColorStop(1, '#c4c4c4');
  context.fillStyle = shade;
  context.globalAlpha = 0.94;
  context.fill();
  context.restore();
}
