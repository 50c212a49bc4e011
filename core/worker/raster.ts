import { CoreError } from '../base/reason.js';
import type { Pixels } from '../base/types.js';

/** Longest side and largest area that engines decode reliably. */
export const MAX_SIDE = 65_535;
export const MAX_PIXELS = 120_000_000;

/** A decoded picture whose pixels can be taken a few rows or a small part at a time. */
export interface Raster {
  readonly width: number;
  readonly height: number;
  /** Bytes that it keeps in memory. */
  readonly bytes: number;
  /** Straight-alpha RGBA of the rows y0..y1 (y1 excluded); valid until the next call. */
  rows(y0: number, y1: number): Uint8ClampedArray | Uint8Array;
  /** A part as pixels of its own. */
  part(x: number, y: number, width: number, height: number): Pixels;
  /** Keeps the pixels alive for a user; {@link release} lets go. The last one to let go frees them. */
  retain(): void;
  release(): void;
}

/** A raster over plain bytes. */
export class PixelRaster implements Raster {
  readonly width: number;
  readonly height: number;
  readonly bytes: number;
  #data: Uint8ClampedArray | Uint8Array;

  constructor(pixels: Pixels) {
    this.width = pixels.width;
    this.height = pixels.height;
    this.#data = pixels.data;
    this.bytes = pixels.data.length;
  }

  rows(y0: number, y1: number): Uint8ClampedArray | Uint8Array {
    return this.#data.subarray(y0 * this.width * 4, y1 * this.width * 4);
  }

  part(x: number, y: number, width: number, height: number): Pixels {
    const data = new Uint8ClampedArray(width * height * 4);
    for (let row = 0; row < height; row++) {
      const from = ((y + row) * this.width + x) * 4;
      data.set(this.#data.subarray(from, from + width * 4), row * width * 4);
    }
    return { width, height, data };
  }

  retain(): void {}
  release(): void {}
}

/** A raster over an ImageBitmap: the engine holds the pixels, only strips become bytes of ours. */
export class BitmapRaster implements Raster {
  readonly width: number;
  readonly height: number;
  readonly bytes: number;
  readonly bitmap: ImageBitmap;
  #users = 1;
  #strip?: { canvas: OffscreenCanvas; context: OffscreenCanvasRenderingContext2D };

  /** Takes the bitmap over: the last {@link release} closes it. */
  constructor(bitmap: ImageBitmap) {
    this.bitmap = bitmap;
    this.width = bitmap.width;
    this.height = bitmap.height;
    this.bytes = bitmap.width * bitmap.height * 4;
  }

  rows(y0: number, y1: number): Uint8ClampedArray {
    return this.part(0, y0, this.width, y1 - y0).data as Uint8ClampedArray;
  }

  part(x: number, y: number, width: number, height: number): Pixels {
    const strip = this.#strip;
    const fits = strip && strip.canvas.width === width && strip.canvas.height >= height;
    const { context } = fits ? strip : (this.#strip = readable(width, height));
    context.globalCompositeOperation = 'copy';
    context.drawImage(this.bitmap, x, y, width, height, 0, 0, width, height);
    return context.getImageData(0, 0, width, height, { colorSpace: 'srgb' }) as Pixels;
  }

  retain(): void {
    this.#users++;
  }

  release(): void {
    if (--this.#users === 0) {
      this.bitmap.close();
      this.#strip = undefined;
    }
  }
}

/** A canvas whose pixels will be read. */
export function readable(
  width: number,
  height: number,
): { canvas: OffscreenCanvas; context: OffscreenCanvasRenderingContext2D } {
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d', { willReadFrequently: true, colorSpace: 'srgb' });
  if (!context)
    throw new CoreError(
      'PictureTooLarge',
      'There is not enough memory for this picture; try a smaller copy of it.',
      { width, height },
    );
  return { canvas, context };
}

/** Opaque pixels as an ImageBitmap, where the platform has one. */
export function bitmapOf(pixels: Pixels): ImageBitmap | undefined {
  if (typeof OffscreenCanvas === 'undefined' || typeof ImageData === 'undefined') return undefined;
  const { canvas, context } = readable(pixels.width, pixels.height);
  const { data } = pixels;
  const bytes =
    data instanceof Uint8ClampedArray
      ? data
      : new Uint8ClampedArray(data.buffer, data.byteOffset, data.length);
  context.putImageData(
    new ImageData(bytes as Uint8ClampedArray<ArrayBuffer>, pixels.width, pixels.height),
    0,
    0,
  );
  return canvas.transferToImageBitmap();
}

/** Colours to look at: an ImageBitmap, or a copy of the bytes where there is none. */
export function coloursOf(pixels: Pixels): { bitmap?: ImageBitmap; rgba?: Uint8ClampedArray } {
  const bitmap = bitmapOf(pixels);
  return bitmap ? { bitmap } : { rgba: new Uint8ClampedArray(pixels.data) };
}
