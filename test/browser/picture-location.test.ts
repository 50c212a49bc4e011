/** Files without location, decoded by the browser: the same pixels, turned the same way. */
import { expect } from 'chai';
import { sniffPicture, withoutLocation } from '../../core/picture/index.js';
import { webpOf as plainWebp } from './picture-files-host.js';

const le32 = (v: number): number[] => [v & 255, (v >> 8) & 255, (v >> 16) & 255, v >>> 24];
const letters = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));
/** Exif data (Exif 2.3): Orientation 0x0112 and an empty GPS directory, 0x8825, in big-endian order. */
// prettier-ignore
const tiff = (orientation: number): number[] => [
  0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 2,
  0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0,
  0x88, 0x25, 0, 4, 0, 0, 0, 1, 0, 0, 0, 38,
  0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
];

const WIDTH = 40;
const HEIGHT = 24;

async function coded(type: string): Promise<Uint8Array> {
  const canvas = new OffscreenCanvas(WIDTH, HEIGHT);
  const pen = canvas.getContext('2d')!;
  for (let x = 0; x < WIDTH; x += 4) {
    pen.fillStyle = `rgb(${x * 6} ${255 - x * 5} ${(x * 37) % 255})`;
    pen.fillRect(x, x / 4, 4, HEIGHT);
  }
  return new Uint8Array(await (await canvas.convertToBlob({ type })).arrayBuffer());
}

/** A JPEG with Exif data in front of all else. */
async function jpegOf(orientation: number): Promise<Uint8Array> {
  const file = await coded('image/jpeg');
  const body = [...letters('Exif\0\0'), ...tiff(orientation)];
  return Uint8Array.from([
    ...[0xff, 0xd8, 0xff, 0xe1, 0, body.length + 2],
    ...body,
    ...file.subarray(2),
  ]);
}

/** The extended form of a WebP (RFC 9649, 2.7): VP8X, the coded picture, Exif data. */
async function webpOf(orientation: number): Promise<Uint8Array> {
  const file = await coded('image/webp');
  // WebKit encodes no WebP and gives a PNG instead: there a plain one has to do.
  const encoded = sniffPicture(file).format === 'webp';
  let picture = encoded ? file.subarray(12) : plainWebp(WIDTH, HEIGHT, [200, 90, 40, 255]);
  if (String.fromCharCode(...picture.subarray(0, 4)) === 'VP8X') picture = picture.subarray(18);
  const head = [0x08, 0, 0, 0, WIDTH - 1, 0, 0, HEIGHT - 1, 0, 0];
  const exif = tiff(orientation);
  const chunks = [
    ...letters('WEBPVP8X'),
    ...le32(10),
    ...head,
    ...picture,
    ...letters('EXIF'),
    ...le32(exif.length),
    ...exif,
  ];
  return Uint8Array.from([...letters('RIFF'), ...le32(chunks.length), ...chunks]);
}

async function shown(file: Uint8Array, type: string): Promise<ImageData> {
  const bitmap = await createImageBitmap(new Blob([Uint8Array.from(file)], { type }));
  const pen = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
  pen.drawImage(bitmap, 0, 0);
  return pen.getImageData(0, 0, bitmap.width, bitmap.height);
}

describe('a file without location', () => {
  for (const [type, make] of [
    ['image/jpeg', jpegOf],
    ['image/webp', webpOf],
  ] as const) {
    for (const orientation of [1, 3, 6, 8]) {
      it(`${type}, orientation ${orientation}`, async () => {
        const file = await make(orientation);
        const stripped = withoutLocation(file);
        expect(stripped?.removed).to.deep.equal(['exif']);
        const [before, after] = [await shown(file, type), await shown(stripped!.bytes, type)];
        expect([after.width, after.height]).to.deep.equal([before.width, before.height]);
        // Chromium turns JPEG, not WebP; what it does with the file must not change.
        if (type === 'image/jpeg') expect(before.width).to.equal(orientation >= 5 ? HEIGHT : WIDTH);
        expect(sniffPicture(stripped!.bytes).orientation).to.equal(orientation);
        expect(after.data.every((value, i) => value === before.data[i])).to.equal(true);
      });
    }
  }
});
