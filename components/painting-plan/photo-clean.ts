import { withoutLocation } from '../shared/core.js';
import { breath } from './zip.js';

/** Quality of a photo that has to be written anew as JPEG (0..1). */
const QUALITY = 0.95;

/**
 * A photo without the place where it was taken and what else the camera noted. Its pixels stay as they are where the parts
 * of the file can be told apart; else it is drawn anew.
 * @throws the browser's own error when it cannot decode such a photo.
 */
export async function withoutPlace(photo: Blob): Promise<Blob> {
  const bytes = new Uint8Array(await photo.arrayBuffer());
  await breath();
  const clean = withoutLocation(bytes);
  await breath();
  if (!clean) return redrawn(photo);
  return new Blob([clean.bytes as Uint8Array<ArrayBuffer>], { type: typeOf(bytes) });
}

/** A photo drawn anew as JPEG, upright, on white: nothing but its pixels. */
async function redrawn(photo: Blob): Promise<Blob> {
  const bitmap = await createImageBitmap(photo);
  const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
  const context = canvas.getContext('2d')!;
  context.fillStyle = '#fff';
  context.fillRect(0, 0, bitmap.width, bitmap.height);
  context.drawImage(bitmap, 0, 0);
  bitmap.close();
  return canvas.convertToBlob({ type: 'image/jpeg', quality: QUALITY });
}

/** The type of a file that {@link withoutLocation} knows, by its first bytes. */
function typeOf([first, second]: Uint8Array): string {
  if (first === 0xff && second === 0xd8) return 'image/jpeg';
  if (first === 0x89) return 'image/png';
  return first === 0x47 ? 'image/gif' : 'image/webp';
}
