import { inSlices } from '../../core/worker/slices.js';
import { outlinesSvgKernel, withPixelsPerMetre } from '../shared/core.js';
import { massesAsked } from '../shared/masses-in-hand.js';
import type { PlanStore } from '../shared/plan-store.js';
import { Layers, type Wanted } from './layers.js';

const MM_IN_METRE = 1000;

/** How a picture is written. */
interface Written {
  type?: string;
  quality?: number;
  /** Its width on the paper, which a PNG tells to whoever prints or lays it out. */
  widthMm: number;
}

/**
 * The picture as it is wanted, as a file at the size of its plane.
 * @throws DOMException `InvalidStateError` while there is none, `EncodingError` when it cannot be written
 */
export async function fileOf(
  wanted: Wanted | undefined,
  { type = 'image/png', quality, widthMm }: Written,
): Promise<Blob> {
  if (!wanted) throw noPicture();
  const blob = await canvasFile(wanted, type, quality);
  if (blob.type !== 'image/png') return blob;
  const perMetre = (wanted.plane.width / widthMm) * MM_IN_METRE;
  const file = withPixelsPerMetre(new Uint8Array(await blob.arrayBuffer()), perMetre);
  return new Blob([file as Uint8Array<ArrayBuffer>], { type: blob.type });
}

function canvasFile(wanted: Wanted, type: string, quality?: number): Promise<Blob> {
  const canvas = document.createElement('canvas');
  new Layers().paint(canvas, wanted);
  return new Promise((resolve, reject) => {
    const done = (blob: Blob | null): void => {
      canvas.width = canvas.height = 1;
      if (blob) resolve(blob);
      else reject(new DOMException('The picture could not be written.', 'EncodingError'));
    };
    canvas.toBlob(done, type, quality);
  });
}

/**
 * The outlines of a plan's masses as an SVG file in mm, as wide as the paper; a mass is called by its band and a number.
 *
 * @param paperName - what bare paper is called
 * @throws DOMException `InvalidStateError` by rejecting, when there is no picture; an error of the core
 */
export async function outlinesFile(store: PlanStore, paperName: string): Promise<Blob> {
  await exactPicture(store);
  const { plan } = store;
  const { masses, outlines } = await store.run('masses', massesAsked(plan));
  const bands = Array.from(
    { length: masses.map.bands },
    (_, band) => plan.board.bands[band]?.name || paperName,
  );
  const count = bands.map(() => 0);
  const names = masses.regions.map(({ band }) => `${bands[band]} ${++count[band]}`);
  const { widthMm } = plan.paper;
  const options = { widthMm, title: plan.title, bands, names };
  const svg = await inSlices(outlinesSvgKernel(masses, outlines, options));
  return new Blob([svg], { type: 'image/svg+xml' });
}

const noPicture = (): DOMException =>
  new DOMException('There is no picture yet.', 'InvalidStateError');

/** Settles once the exact working copy is there. */
async function exactPicture(store: PlanStore): Promise<void> {
  while (!store.picture.exact) {
    const { handle, status } = store.picture;
    if (!handle || status === 'failed') throw noPicture();
    await new Promise((resolve) => store.addEventListener('picture', resolve, { once: true }));
  }
}

/** A file name made of the picture's own and what is seen, without signs that file systems refuse. */
export function fileNameOf(picture: string, parts: readonly string[], ending = 'png'): string {
  const base = picture.replace(/\.[^.]{1,5}$/, '');
  const words = [base, ...parts].map((part) =>
    part.replace(/[\\/:*?"<>|\u0000-\u001f]+/g, ' ').trim(),
  );
  return `${words.filter(Boolean).join(' - ').slice(0, 120) || 'picture'}.${ending}`;
}
