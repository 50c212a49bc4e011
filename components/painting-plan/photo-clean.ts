/** Quality of a photo that has to be written anew as JPEG (0..1). */
const QUALITY = 0.95;

/**
 * A photo as it may leave the machine: drawn anew, upright, without anything but its pixels.
 * @throws the browser's own error when it cannot decode the photo.
 */
export async function redrawn(photo: Blob, type: string): Promise<Blob> {
  const bitmap = await createImageBitmap(photo);
  const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
  canvas.getContext('2d')!.drawImage(bitmap, 0, 0);
  bitmap.close();
  return canvas.convertToBlob({ type, quality: QUALITY });
}

/** A photo without the place where it was taken. */
export async function withoutPlace(photo: Blob): Promise<Blob> {
  return redrawn(photo, photo.type === 'image/png' ? 'image/png' : 'image/jpeg');
}
