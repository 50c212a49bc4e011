import jpeg from 'jpeg-js';
import { PNG } from 'pngjs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sniffPicture } from '../../core/picture/index.js';

/** Bytes from numbers and from text, one byte a character. */
const bytes = (...parts: (number | number[] | string | Uint8Array)[]): Uint8Array =>
  Uint8Array.from(
    parts.flatMap((part) =>
      typeof part === 'number'
        ? [part]
        : typeof part === 'string'
          ? [...part].map((c) => c.charCodeAt(0))
          : [...part],
    ),
  );
const be16 = (v: number): number[] => [v >> 8, v & 255];
const be32 = (v: number): number[] => [...be16(v >>> 16), ...be16(v & 65535)];
const le16 = (v: number): number[] => [v & 255, v >> 8];
const le24 = (v: number): number[] => [v & 255, (v >> 8) & 255, v >> 16];
const le32 = (v: number): number[] => [...le16(v & 65535), ...le16(v >>> 16)];

/** A TIFF header and a first directory of one SHORT entry, Orientation (0x0112), as in Exif 2.3, 4.6.2 and 4.6.4 A. */
const tiffOf = (orientation: number, little: boolean): Uint8Array => {
  const [u16, u32] = little ? [le16, le32] : [be16, be32];
  // prettier-ignore
  return bytes(little ? 'II' : 'MM', u16(42), u32(8), u16(1), u16(0x0112), u16(3), u32(1), u16(orientation), u16(0), u32(0));
};

const pixels = (width: number, height: number): Uint8Array =>
  new Uint8Array(4 * width * height).fill(200);
const jpegFile = (width: number, height: number): Uint8Array =>
  Uint8Array.from(jpeg.encode({ width, height, data: pixels(width, height) }, 80).data);
const pngFile = (width: number, height: number): Uint8Array => {
  const png = new PNG({ width, height });
  png.data.set(pixels(width, height));
  return Uint8Array.from(PNG.sync.write(png));
};

/** A JPEG with an APP1 segment put in after its SOI marker. */
const withExif = (file: Uint8Array, tiff: Uint8Array): Uint8Array =>
  bytes(
    file.subarray(0, 2),
    0xff,
    0xe1,
    be16(2 + 6 + tiff.length),
    'Exif',
    0,
    0,
    tiff,
    file.subarray(2),
  );

const chunk = (type: string, body: Uint8Array): Uint8Array =>
  bytes(be32(body.length), type, body, 0, 0, 0, 0);
/** A PNG with chunks put in after IHDR (8 bytes of signature, 25 of IHDR). */
const withChunk = (file: Uint8Array, ...chunks: Uint8Array[]): Uint8Array =>
  bytes(file.subarray(0, 33), ...chunks, file.subarray(33));

describe('sniffPicture', () => {
  it('reads JPEG files made by a library', () => {
    expect(sniffPicture(jpegFile(37, 21))).toEqual({
      format: 'jpeg',
      width: 37,
      height: 21,
      orientation: 1,
      animated: false,
    });
  });

  it('reads all eight EXIF orientations, in both byte orders', () => {
    for (const little of [true, false]) {
      for (let orientation = 1; orientation <= 8; orientation++) {
        const facts = sniffPicture(withExif(jpegFile(16, 9), tiffOf(orientation, little)));
        expect(facts).toEqual({
          format: 'jpeg',
          width: 16,
          height: 9,
          orientation,
          animated: false,
        });
      }
    }
    // Values that the standard does not have are no orientation.
    for (const value of [0, 9, 255]) {
      expect(sniffPicture(withExif(jpegFile(16, 9), tiffOf(value, true))).orientation).toBe(1);
    }
  });

  it('walks over other JPEG segments, fill bytes and a progressive frame', () => {
    // SOI, APP0 of 4 bytes, fill bytes, DHT (C4, not a frame), SOF2 with 8 bits, height 300, width 400.
    const file = bytes(
      0xff,
      0xd8,
      0xff,
      0xe0,
      be16(4),
      1,
      2,
      0xff,
      0xff,
      0xff,
      0xc4,
      be16(3),
      9,
      0xff,
      0xc2,
      be16(11),
      8,
      be16(300),
      be16(400),
      1,
      1,
      0x11,
      0,
    );
    expect(sniffPicture(file)).toMatchObject({ format: 'jpeg', width: 400, height: 300 });
    expect(sniffPicture(file.subarray(0, 12))).toEqual({
      format: 'jpeg',
      orientation: 1,
      animated: false,
    });
  });

  it('reads PNG files made by a library, with orientation and animation chunks', () => {
    const file = pngFile(31, 17);
    expect(sniffPicture(file)).toEqual({
      format: 'png',
      width: 31,
      height: 17,
      orientation: 1,
      animated: false,
    });
    expect(sniffPicture(withChunk(file, chunk('eXIf', tiffOf(6, false)))).orientation).toBe(6);
    const frames = (n: number): Uint8Array => chunk('acTL', bytes(be32(n), be32(0)));
    expect(sniffPicture(withChunk(file, frames(5)))).toMatchObject({ animated: true, width: 31 });
    expect(sniffPicture(withChunk(file, frames(1))).animated).toBe(false);
  });

  it('reads GIF files and counts their frames', () => {
    const table = [0, 0, 0, 255, 255, 255];
    const head = bytes('GIF89a', le16(300), le16(200), 0x80, 0, 0, table);
    // Image descriptor, minimum code size 2, one sub-block of 2 bytes, terminator.
    const frame = bytes(0x2c, le16(0), le16(0), le16(300), le16(200), 0, 2, 2, 0x4c, 0x01, 0);
    const ownTable = bytes(
      0x2c,
      le16(0),
      le16(0),
      le16(300),
      le16(200),
      0x80,
      table,
      2,
      2,
      0x4c,
      0x01,
      0,
    );
    const control = bytes(0x21, 0xf9, 4, 0, 10, 0, 0, 0);
    const loop = bytes(0x21, 0xff, 11, 'NETSCAPE2.0', 3, 1, 0, 0, 0);
    const gif = { format: 'gif', width: 300, height: 200, orientation: 1 };
    expect(sniffPicture(bytes(head, control, frame, 0x3b))).toEqual({ ...gif, animated: false });
    expect(sniffPicture(bytes(head, control, frame, control, ownTable, 0x3b))).toEqual({
      ...gif,
      animated: true,
    });
    expect(sniffPicture(bytes(head, ownTable, frame, 0x3b))).toEqual({ ...gif, animated: true });
    // One frame that is told to loop is still one frame; cut off within it, more frames must follow.
    expect(sniffPicture(bytes(head, loop, control, frame, 0x3b)).animated).toBe(false);
    expect(sniffPicture(bytes(head, loop, control, frame.subarray(0, 12))).animated).toBe(true);
  });

  it('reads the three kinds of WebP', () => {
    const riff = (...chunks: Uint8Array[]): Uint8Array =>
      bytes('RIFF', le32(4 + chunks.reduce((n, c) => n + c.length, 0)), 'WEBP', ...chunks);
    const part = (type: string, body: Uint8Array): Uint8Array =>
      bytes(type, le32(body.length), body, body.length % 2 ? [0] : []);
    // RFC 6386, 9.1: frame tag, start code 9d 01 2a, 14 bits of width and of height with 2 bits of scale above.
    const lossy = part(
      'VP8 ',
      bytes(0x30, 1, 0, 0x9d, 0x01, 0x2a, le16(640 | 0x4000), le16(480), 0, 0),
    );
    expect(sniffPicture(riff(lossy))).toEqual({
      format: 'webp',
      width: 640,
      height: 480,
      orientation: 1,
      animated: false,
    });
    // RFC 9649, 3.4: signature 2f, width - 1 and height - 1 in 14 bits each.
    const lossless = part('VP8L', bytes(0x2f, le32((799 | (599 << 14)) >>> 0), 0, 0));
    expect(sniffPicture(riff(lossless))).toMatchObject({ width: 800, height: 600 });
    const extended = (flags: number): Uint8Array =>
      part('VP8X', bytes(flags, 0, 0, 0, le24(4999), le24(3332)));
    expect(sniffPicture(riff(extended(0x02)))).toMatchObject({
      width: 5000,
      height: 3333,
      animated: true,
    });
    const odd = part('ICCP', bytes(1, 2, 3));
    for (const exif of [tiffOf(8, true), bytes('Exif', 0, 0, tiffOf(8, true))]) {
      expect(sniffPicture(riff(extended(0x08), odd, lossy, part('EXIF', exif)))).toEqual({
        format: 'webp',
        width: 5000,
        height: 3333,
        orientation: 8,
        animated: false,
      });
    }
  });

  it('tells AVIF from HEIC, finds the size, and knows sequences', () => {
    const box = (type: string, ...body: (Uint8Array | number[] | string)[]): Uint8Array => {
      const content = bytes(...body);
      return bytes(be32(8 + content.length), type, content);
    };
    const ispe = (w: number, h: number): Uint8Array => box('ispe', be32(0), be32(w), be32(h));
    const meta = box(
      'meta',
      be32(0),
      box('hdlr', be32(0)),
      box('iprp', box('ipco', ispe(320, 240), ispe(4032, 3024), ispe(512, 512))),
    );
    const file = (major: string, ...others: string[]): Uint8Array =>
      bytes(box('ftyp', major, be32(0), ...others), meta, box('mdat', [1, 2, 3]));
    expect(sniffPicture(file('avif', 'mif1', 'miaf'))).toEqual({
      format: 'avif',
      width: 4032,
      height: 3024,
      orientation: 1,
      animated: false,
    });
    expect(sniffPicture(file('mif1', 'avif'))).toMatchObject({ format: 'avif', animated: false });
    expect(sniffPicture(file('avis', 'avif', 'msf1'))).toMatchObject({
      format: 'avif',
      animated: true,
    });
    expect(sniffPicture(file('heic', 'mif1'))).toMatchObject({
      format: 'heic',
      width: 4032,
      height: 3024,
      animated: false,
    });
    expect(sniffPicture(file('hevc', 'msf1'))).toMatchObject({ format: 'heic', animated: true });
    expect(sniffPicture(file('isom', 'mp42'))).toEqual({
      format: 'unknown',
      orientation: 1,
      animated: false,
    });
    // Only the first bytes: the format, but no size.
    expect(sniffPicture(file('heic', 'mif1').subarray(0, 40))).toEqual({
      format: 'heic',
      orientation: 1,
      animated: false,
    });
  });

  it('reads TIFF, BMP and SVG', () => {
    for (const little of [true, false]) {
      const [u16, u32] = little ? [le16, le32] : [be16, be32];
      const entry = (tag: number, type: number, value: number[]): number[] => [
        ...u16(tag),
        ...u16(type),
        ...u32(1),
        ...value,
      ];
      const file = bytes(
        little ? 'II' : 'MM',
        u16(42),
        u32(10),
        0,
        0,
        u16(3),
        entry(0x100, 3, [...u16(640), 0, 0]),
        entry(0x101, 4, u32(480)),
        entry(0x112, 3, [...u16(3), 0, 0]),
        u32(0),
      );
      expect(sniffPicture(file)).toEqual({
        format: 'tiff',
        width: 640,
        height: 480,
        orientation: 3,
        animated: false,
      });
    }
    const bmp = (head: number, ...rest: number[][]): Uint8Array =>
      bytes('BM', le32(999), le32(0), le32(54), le32(head), ...rest, le16(1), le16(24));
    expect(sniffPicture(bmp(40, le32(20), le32(10)))).toEqual({
      format: 'bmp',
      width: 20,
      height: 10,
      orientation: 1,
      animated: false,
    });
    expect(sniffPicture(bmp(40, le32(20), le32(-10)))).toMatchObject({ width: 20, height: 10 });
    expect(sniffPicture(bmp(12, le16(7), le16(5)))).toMatchObject({ width: 7, height: 5 });
    const svg = { format: 'svg', orientation: 1, animated: false };
    expect(
      sniffPicture(
        bytes('<svg xmlns="http://www.w3.org/2000/svg" width="120" height=\'80px\'></svg>'),
      ),
    ).toEqual({ ...svg, width: 120, height: 80 });
    expect(
      sniffPicture(
        bytes(
          0xef,
          0xbb,
          0xbf,
          '<?xml version="1.0"?>\n<!-- a\nb -->\n<!DOCTYPE svg>\n<svg viewBox="0 0 4 4">',
        ),
      ),
    ).toEqual(svg);
    expect(sniffPicture(bytes('<svg width="100%" height="10"/>'))).toEqual(svg);
    expect(sniffPicture(bytes('<html><svg width="3" height="3"/></html>')).format).toBe('unknown');
  });

  it('never throws on short, cut, damaged or foreign bytes', () => {
    expect(sniffPicture(new Uint8Array(0))).toEqual({
      format: 'empty',
      orientation: 1,
      animated: false,
    });
    expect(sniffPicture(bytes('hello, this is a text file'))).toEqual({
      format: 'unknown',
      orientation: 1,
      animated: false,
    });
    const files = [
      withExif(jpegFile(16, 9), tiffOf(6, true)),
      withChunk(pngFile(4, 4), chunk('eXIf', tiffOf(6, false))),
    ];
    const formats = [
      'jpeg',
      'png',
      'gif',
      'webp',
      'avif',
      'heic',
      'tiff',
      'bmp',
      'svg',
      'empty',
      'unknown',
    ];
    for (const file of files) {
      for (let end = 0; end < Math.min(file.length, 160); end++)
        expect(formats).toContain(sniffPicture(file.subarray(0, end)).format);
    }
    const starts = [
      ...files.map((f) => f.subarray(0, 60)),
      bytes('GIF89a'),
      bytes('RIFF', le32(99), 'WEBP'),
      bytes(be32(24), 'ftypavif'),
      bytes('II', le16(42)),
      bytes('BM'),
      bytes('<svg '),
    ];
    fc.assert(
      fc.property(
        fc.constantFrom(...starts),
        fc.uint8Array({ maxLength: 300 }),
        fc.nat(60),
        fc.nat(255),
        (start, tail, at, value) => {
          const file = bytes(start, tail);
          if (at < file.length) file[at] = value;
          const facts = sniffPicture(file);
          expect(formats).toContain(facts.format);
          expect(facts.orientation).toBeGreaterThanOrEqual(1);
          expect(facts.orientation).toBeLessThanOrEqual(8);
          expect(facts.width === undefined || facts.width > 0).toBe(true);
        },
      ),
      { numRuns: 2000, seed: 5 },
    );
    expect(() => sniffPicture('GIF89a' as unknown as Uint8Array)).toThrow(/^bytes is "GIF89a"/);
    expect(() => sniffPicture([1] as unknown as Uint8Array)).toThrow(TypeError);
  });
});
