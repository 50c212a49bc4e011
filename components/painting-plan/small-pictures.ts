/** Longer side of a small picture, in pixels. */
const LONG_SIDE = 176;

/**
 * Draws files as small pictures into canvases. Drawn, not addressed: pages whose policy forbids blob addresses show them as
 * well.
 */
export class SmallPictures {
  #drawn = new WeakMap<Element, Blob>();

  /** Draws a file into a canvas, unless it is there already; one that cannot be decoded leaves the canvas empty. */
  async draw(canvas: Element | undefined, blob: Blob): Promise<void> {
    if (!(canvas instanceof HTMLCanvasElement) || this.#drawn.get(canvas) === blob) return;
    this.#drawn.set(canvas, blob);
    try {
      const bitmap = await createImageBitmap(blob, {
        resizeWidth: LONG_SIDE,
        resizeQuality: 'medium',
      });
      canvas.width = bitmap.width;
      canvas.height = bitmap.height;
      canvas.getContext('2d')?.drawImage(bitmap, 0, 0);
      bitmap.close();
    } catch {
      this.#drawn.delete(canvas);
    }
  }
}
