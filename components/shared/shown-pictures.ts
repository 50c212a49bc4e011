/** Pictures that a page may show but that are no file in hand: the browser draws them. */
import { CoreError } from './core.js';

/**
 * The picture of an image element.
 * @throws CoreError `PictureUnreadable` (it could not be loaded), `PictureEmpty`
 */
export async function shownPicture(image: HTMLImageElement): Promise<ImageBitmap> {
  try {
    await image.decode();
  } catch {
    throw new CoreError('PictureUnreadable', 'The picture could not be loaded.', {
      format: 'unknown',
    });
  }
  if (image.naturalWidth === 0 || image.naturalHeight === 0)
    throw new CoreError('PictureEmpty', 'The picture has no pixels.', {});
  return createImageBitmap(image);
}

/**
 * The picture at an address that a policy forbids to fetch.
 * @throws CoreError `PictureForbidden` (out of reach, or its server forbids reading)
 */
export async function drawnPicture({ href }: URL): Promise<ImageBitmap> {
  const image = new Image();
  image.crossOrigin = 'anonymous';
  image.src = href;
  try {
    await image.decode();
    return await createImageBitmap(image);
  } catch {
    throw new CoreError(
      'PictureForbidden',
      `The picture at ${href} cannot be reached, or its server forbids reading it.`,
      { address: href },
    );
  }
}
