import { greyPalette, recolour, type Lightness } from '../shared/core.js';
import type { PictureView } from '../shared/events/view-change.js';

/** What there is to show: lightness codes and colours of one size. */
export interface Sight {
  plane: Lightness;
  bitmap?: ImageBitmap;
}

/** What a canvas is to show. */
export interface Wanted extends Sight {
  view: PictureView;
  /** The palette of the bands' codes, or of the masses' band numbers. */
  palette: Uint32Array;
}

let greys: Uint32Array | undefined;

const paletted = (view: PictureView): boolean => view === 'bands' || view === 'masses';

/** Pixels from which on making room for them and showing them take a frame each. */
const LARGE = 1 << 20;

/**
 * Paints the states of a picture on canvases, at the size of its plane. Greys and bands are the plane's codes through a palette
 * of 256 words, so that a moved limit costs one pass over the plane. A canvas that shows what is wanted already is left alone.
 */
export class Layers {
  #image?: ImageData;
  /** What the image was made of. */
  #made?: { plane: Lightness; palette: Uint32Array };
  #shown = new WeakMap<HTMLCanvasElement, Wanted>();

  /**
   * Makes room for the pixels of a large picture that is seen first.
   * @returns whether it did: painting is then the next frame's work
   */
  prepare({ view, plane, bitmap, palette }: Wanted): boolean {
    if (view === 'photo' && bitmap !== undefined) return false;
    if (plane.data.length < LARGE || this.#fits(plane)) return false;
    this.#coloured(plane, palette);
    return true;
  }

  /** @returns whether the canvas was painted. */
  paint(canvas: HTMLCanvasElement, wanted: Wanted): boolean {
    const { view, plane, bitmap, palette } = wanted;
    const { width, height } = plane;
    const before = this.#shown.get(canvas);
    const sized = canvas.width === width && canvas.height === height;
    const coloured = view === 'photo' && bitmap !== undefined;
    if (before && sized && before.view === view) {
      const same = coloured
        ? before.bitmap === bitmap
        : before.plane === plane && (!paletted(view) || before.palette === palette);
      if (same) return false;
    }
    const context = canvas.getContext('2d', { alpha: false });
    if (!context) return false;
    if (!sized) {
      canvas.width = width;
      canvas.height = height;
    }
    if (coloured) {
      context.imageSmoothingQuality = 'high';
      context.drawImage(bitmap, 0, 0, width, height);
    } else {
      context.putImageData(
        this.#coloured(plane, paletted(view) ? palette : (greys ??= greyPalette())),
        0,
        0,
      );
    }
    this.#shown.set(canvas, wanted);
    return true;
  }

  /** Lets go of a canvas's pixels. */
  clear(canvas: HTMLCanvasElement): void {
    if (!this.#shown.delete(canvas)) return;
    canvas.width = canvas.height = 1;
  }

  /** Lets go of the pixels in between. */
  release(): void {
    this.#image = this.#made = undefined;
  }

  #fits({ width, height }: Lightness): boolean {
    return this.#image?.width === width && this.#image.height === height;
  }

  #coloured(plane: Lightness, palette: Uint32Array): ImageData {
    if (!this.#fits(plane)) this.#image = new ImageData(plane.width, plane.height);
    const image = this.#image!;
    if (this.#made?.plane === plane && this.#made.palette === palette) return image;
    recolour(plane.data, palette, new Uint32Array(image.data.buffer));
    this.#made = { plane, palette };
    return image;
  }
}
