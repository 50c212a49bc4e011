/** Longer side of a small picture, in pixels: 176 CSS pixels on a fine screen. */
const LONG_SIDE = 352;

/** Decodes a file; the bitmap is the caller's to close. */
type Decode = (blob: Blob) => Promise<ImageBitmap>;

/**
 * Draws files as small pictures into canvases. Drawn, not addressed: pages whose policy forbids blob addresses show them as
 * well.
 */
export class SmallPictures {
  #decode: Decode;
  #drawn = new WeakMap<Element, Blob>();

  constructor(decode: Decode = (blob) => createImageBitmap(blob)) {
    this.#decode = decode;
  }

  /** Draws a file into a canvas, unless it is there already; one that cannot be decoded leaves the canvas empty. */
  async draw(canvas: Element | undefined, blob: Blob): Promise<void> {
    if (!(canvas instanceof HTMLCanvasElement) || this.#drawn.get(canvas) === blob) return;
    this.#drawn.set(canvas, blob);
    try {
      const bitmap = await this.#decode(blob);
      const scale = Math.min(1, LONG_SIDE / Math.max(bitmap.width, bitmap.height));
      canvas.width = Math.max(1, Math.round(bitmap.width * scale));
      canvas.height = Math.max(1, Math.round(bitmap.height * scale));
      canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
      bitmap.close();
    } catch {
      this.#drawn.delete(canvas);
    }
  }
}
