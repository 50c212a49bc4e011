import { Layers, type Wanted } from './layers.js';

/** The picture as it is wanted, as a file at the size of its plane. */
export function fileOf(wanted: Wanted, type = 'image/png', quality?: number): Promise<Blob> {
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

/** A file name made of the picture's own and what is seen, without signs that file systems refuse. */
export function fileNameOf(picture: string, parts: readonly string[]): string {
  const base = picture.replace(/\.[^.]{1,5}$/, '');
  const words = [base, ...parts].map((part) =>
    part.replace(/[\\/:*?"<>|\u0000-\u001f]+/g, ' ').trim(),
  );
  return `${words.filter(Boolean).join(' - ').slice(0, 120) || 'picture'}.png`;
}

/** Hands a file to the reader's own downloads. */
export function handOver(blob: Blob, name: string): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 30_000);
}
