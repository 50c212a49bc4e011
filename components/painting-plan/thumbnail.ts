import type { PlanStore } from '../shared/plan-store.js';

/** The longer side of the small picture, in pixels: 88 CSS pixels on a fine screen. */
const LONG_SIDE = 176;

/** What a small picture of the plan would be made from: photo and crop. Empty while there is nothing to make it from. */
export function pictureMark({ picture, plan }: PlanStore): string {
  if (picture.status !== 'ready' || !picture.exact || !picture.bitmap || !plan.photo) return '';
  return `${plan.photo.sha256} ${JSON.stringify(plan.crop ?? null)}`;
}

/** A small JPEG of the painted part of the photo. */
export async function smallPicture({ picture, plan }: PlanStore): Promise<Blob | undefined> {
  // The quick copy is the smaller one, but of the whole photo.
  const quick = plan.crop ? undefined : picture.handle?.preview.bitmap;
  const bitmap = quick?.width ? quick : picture.bitmap;
  if (!bitmap?.width || typeof OffscreenCanvas === 'undefined') return undefined;
  const scale = Math.min(1, LONG_SIDE / Math.max(bitmap.width, bitmap.height));
  const width = Math.max(1, Math.round(bitmap.width * scale));
  const height = Math.max(1, Math.round(bitmap.height * scale));
  const small = await createImageBitmap(bitmap, {
    resizeWidth: width,
    resizeHeight: height,
    resizeQuality: 'medium',
  });
  const canvas = new OffscreenCanvas(width, height);
  canvas.getContext('2d')!.drawImage(small, 0, 0);
  small.close();
  return canvas.convertToBlob({ type: 'image/jpeg', quality: 0.8 });
}
