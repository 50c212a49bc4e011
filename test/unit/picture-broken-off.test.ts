/** Files that break off. Whole ones are written by general-purpose libraries (jpeg-js, pngjs); the kit's own code only reads. */
import jpeg from 'jpeg-js';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { breaksOff, endsWhole } from '../../core/picture/broken-off.js';

const [width, height] = [64, 48];
const data = Buffer.from(
  Array.from({ length: 4 * width * height }, (_, i) => (i % 4 === 3 ? 255 : (i * i) % 251)),
);
const FILES = {
  JPEG: new Uint8Array(jpeg.encode({ width, height, data }, 90).data),
  PNG: new Uint8Array(PNG.sync.write(Object.assign(new PNG({ width, height }), { data }))),
};
const followedBy = (file: Uint8Array, ...more: number[]): Uint8Array =>
  Uint8Array.from([...file, ...more]);

describe.each(Object.entries(FILES))('a %s', (name, file) => {
  it('is whole when it ends, whatever follows the end', () => {
    expect(endsWhole(file)).toBe(true);
    expect(breaksOff(file)).toBe(false);
    const longer = followedBy(file, ...Array.from({ length: 300 }, (_, i) => i & 255));
    expect(endsWhole(longer)).toBe(false);
    expect(breaksOff(longer)).toBe(false);
  });

  it('is not when it is cut, wherever', () => {
    // A PNG lacks nothing but its last check sum when its last four bytes are gone.
    const lost = name === 'PNG' ? 5 : 1;
    for (let size = 12; size <= file.length - lost; size += 7) {
      const cut = file.subarray(0, size);
      expect(endsWhole(cut), `${size} bytes`).toBe(false);
      expect(breaksOff(cut), `${size} bytes`).toBe(true);
    }
    expect(breaksOff(file.subarray(0, file.length - lost))).toBe(true);
  });
});

it('the end of a thumbnail within Exif data is not the end of the JPEG', () => {
  const { JPEG: file } = FILES;
  const body = [...new TextEncoder().encode('Exif\0\0'), ...FILES.JPEG]; // with FF D9 of its own
  const segment = [0xff, 0xe1, (body.length + 2) >> 8, (body.length + 2) & 255, ...body];
  const tagged = Uint8Array.from([...file.subarray(0, 2), ...segment, ...file.subarray(2)]);
  expect(breaksOff(tagged)).toBe(false);
  expect(breaksOff(tagged.subarray(0, tagged.length - 200))).toBe(true);
});

it('other files are never said to break off', () => {
  for (const bytes of [[], [0xff], [0x89, 0x50], Array.from({ length: 40 }, () => 0xff)])
    expect(breaksOff(Uint8Array.from(bytes))).toBe(false);
});
