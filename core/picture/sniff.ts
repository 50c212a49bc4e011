import { wrongType } from '../base/check.js';

/** What the first bytes of a file say about the picture in it. */
export interface PictureFacts {
  /** `heic` stands for any HEIF container that is not AVIF; `empty` is a file of 0 bytes. */
  format:
    | 'jpeg'
    | 'png'
    | 'gif'
    | 'webp'
    | 'avif'
    | 'heic'
    | 'tiff'
    | 'bmp'
    | 'svg'
    | 'empty'
    | 'unknown';
  /** Pixels as stored, before any turning; absent when the bytes at hand do not tell. */
  width?: number;
  height?: number;
  /** The EXIF orientation 1..8 (1 = upright); 1 when none is told. Turns of a HEIF container are not counted: decoders apply them. */
  orientation: number;
  /** More than one frame. */
  animated: boolean;
}

/**
 * Reads what a picture file is from its first bytes, by the published layouts: JPEG (ITU-T T.81), PNG 3rd edition, GIF89a,
 * WebP (RFC 9649), ISO base media files with the HEIF and AVIF brands (ISO/IEC 14496-12, 23008-12), TIFF 6.0, BMP, SVG;
 * orientation by Exif 2.3, in JPEG APP1, PNG eXIf, WebP EXIF and TIFF. Some 64 kB are enough for nearly all files; what lies beyond the
 * bytes given is simply not known. Broken bytes never throw: what can be read is told.
 *
 * @throws TypeError when `bytes` is no Uint8Array
 */
export function sniffPicture(bytes: Uint8Array): PictureFacts {
  if (!(bytes instanceof Uint8Array)) throw wrongType('bytes', bytes, 'a Uint8Array');
  const file = new Bytes(bytes);
  if (file.length === 0) return { format: 'empty', orientation: 1, animated: false };
  if (file.u16(0) === 0xffd8 && file.u8(2) === 0xff) return jpegFacts(file);
  if (file.u32(0) === 0x89504e47 && file.u32(4) === 0x0d0a1a0a) return pngFacts(file);
  if (file.text(0, 6) === 'GIF87a' || file.text(0, 6) === 'GIF89a') return gifFacts(file);
  if (file.text(0, 4) === 'RIFF' && file.text(8, 4) === 'WEBP') return webpFacts(file);
  if (file.text(4, 4) === 'ftyp') return heifFacts(file);
  const tiff = tiffFacts(file, 0);
  if (tiff) return { format: 'tiff', ...tiff, animated: false };
  if (file.text(0, 2) === 'BM' && file.length >= 18) return bmpFacts(file);
  return svgFacts(file) ?? { format: 'unknown', orientation: 1, animated: false };
}

/** Bytes read without ever running over: what lies outside reads as 0. */
class Bytes {
  readonly length: number;
  readonly #bytes: Uint8Array;

  constructor(bytes: Uint8Array) {
    this.#bytes = bytes;
    this.length = bytes.length;
  }

  u8(at: number): number {
    return this.#bytes[at] ?? 0;
  }

  u16(at: number, little = false): number {
    return little ? this.u8(at) + 256 * this.u8(at + 1) : 256 * this.u8(at) + this.u8(at + 1);
  }

  u32(at: number, little = false): number {
    return little
      ? this.u16(at, true) + 65536 * this.u16(at + 2, true)
      : 65536 * this.u16(at) + this.u16(at + 2);
  }

  u24little(at: number): number {
    return this.u16(at, true) + 65536 * this.u8(at + 2);
  }

  text(at: number, length: number): string {
    return String.fromCharCode(...this.#bytes.subarray(at, at + length));
  }
}

/** Width and height, only when both are more than 0. */
function sized(width: number, height: number): { width?: number; height?: number } {
  return width > 0 && height > 0 ? { width, height } : {};
}

function jpegFacts(file: Bytes): PictureFacts {
  let size: { width?: number; height?: number } = {};
  let orientation = 1;
  let at = 2;
  while (at + 4 <= file.length && file.u8(at) === 0xff) {
    const marker = file.u8(at + 1);
    if (marker === 0xff) {
      at++; // fill byte
      continue;
    }
    if (marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7)) {
      at += 2; // markers without a segment
      continue;
    }
    if (marker === 0xda || marker === 0xd9) break; // the scan begins, or the end
    const length = file.u16(at + 2);
    if (length < 2) break;
    const isFrame = marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
    if (isFrame && at + 9 <= file.length) size = sized(file.u16(at + 7), file.u16(at + 5));
    if (marker === 0xe1 && file.text(at + 4, 6) === 'Exif\0\0') {
      orientation = tiffFacts(file, at + 10)?.orientation ?? orientation;
    }
    at += 2 + length;
  }
  return { format: 'jpeg', ...size, orientation, animated: false };
}

/** A TIFF header and its first directory, as in TIFF files and in Exif data; undefined when there is none at `start`. */
function tiffFacts(
  file: Bytes,
  start: number,
): { width?: number; height?: number; orientation: number } | undefined {
  const order = file.text(start, 2);
  const little = order === 'II';
  if ((!little && order !== 'MM') || file.u16(start + 2, little) !== 42) return undefined;
  const directory = start + file.u32(start + 4, little);
  const entries = file.u16(directory, little);
  let width = 0;
  let height = 0;
  let orientation = 1;
  for (let i = 0; i < entries; i++) {
    const at = directory + 2 + 12 * i;
    if (at + 12 > file.length) break;
    const type = file.u16(at + 2, little);
    if (type !== 3 && type !== 4) continue; // SHORT, LONG
    const value = type === 3 ? file.u16(at + 8, little) : file.u32(at + 8, little);
    const tag = file.u16(at, little);
    if (tag === 0x100) width = value;
    if (tag === 0x101) height = value;
    if (tag === 0x112 && value >= 1 && value <= 8) orientation = value;
  }
  return { ...sized(width, height), orientation };
}

function pngFacts(file: Bytes): PictureFacts {
  const size =
    file.text(12, 4) === 'IHDR' && file.length >= 24 ? sized(file.u32(16), file.u32(20)) : {};
  let orientation = 1;
  let animated = false;
  for (let at = 8; at + 8 <= file.length; at += 12 + file.u32(at)) {
    const chunk = file.text(at + 4, 4);
    if (chunk === 'acTL' && file.u32(at + 8) > 1) animated = true;
    if (chunk === 'eXIf') orientation = tiffFacts(file, at + 8)?.orientation ?? 1;
    if (chunk === 'IEND') break;
  }
  return { format: 'png', ...size, orientation, animated };
}

function gifFacts(file: Bytes): PictureFacts {
  const size = file.length >= 10 ? sized(file.u16(6, true), file.u16(8, true)) : {};
  /** Bytes of a colour table, from the byte that tells of it. */
  const table = (packed: number): number => (packed & 0x80 ? 3 * 2 ** ((packed & 7) + 1) : 0);
  const afterSubBlocks = (from: number): number => {
    let at = from;
    while (at < file.length && file.u8(at) !== 0) at += 1 + file.u8(at);
    return at + 1;
  };
  let frames = 0;
  let loops = false;
  let at = 13 + table(file.u8(10));
  while (at < file.length && frames < 2) {
    const block = file.u8(at);
    if (block === 0x2c) {
      frames++;
      at = afterSubBlocks(at + 11 + table(file.u8(at + 9)));
    } else if (block === 0x21) {
      if (['NETSCAPE2.0', 'ANIMEXTS1.0'].includes(file.text(at + 3, 11))) loops = true;
      at = afterSubBlocks(at + 2);
    } else {
      break;
    }
  }
  // Where the bytes end before the file does, an order to repeat tells that more frames follow.
  const cutShort = at >= file.length;
  return { format: 'gif', ...size, orientation: 1, animated: frames > 1 || (cutShort && loops) };
}

function webpFacts(file: Bytes): PictureFacts {
  let size: { width?: number; height?: number } = {};
  let orientation = 1;
  let animated = false;
  for (let at = 12; at + 8 <= file.length;) {
    const chunk = file.text(at, 4);
    const length = file.u32(at + 4, true);
    const body = at + 8;
    if (chunk === 'VP8X' && body + 10 <= file.length) {
      animated = (file.u8(body) & 0x02) !== 0;
      size = { width: file.u24little(body + 4) + 1, height: file.u24little(body + 7) + 1 };
    } else if (
      chunk === 'VP8 ' &&
      size.width === undefined &&
      file.u24little(body + 3) === 0x2a019d
    ) {
      size = sized(file.u16(body + 6, true) & 0x3fff, file.u16(body + 8, true) & 0x3fff);
    } else if (
      chunk === 'VP8L' &&
      size.width === undefined &&
      file.u8(body) === 0x2f &&
      body + 5 <= file.length
    ) {
      const bits = file.u32(body + 1, true);
      size = { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 };
    } else if (chunk === 'EXIF') {
      const tiff = file.text(body, 6) === 'Exif\0\0' ? body + 6 : body;
      orientation = tiffFacts(file, tiff)?.orientation ?? 1;
    }
    at = body + length + (length & 1);
  }
  return { format: 'webp', ...size, orientation, animated };
}

const HEIF_BRANDS = new Set([
  'heic',
  'heix',
  'heim',
  'heis',
  'hevc',
  'hevx',
  'hevm',
  'hevs',
  'mif1',
  'msf1',
  'mif2',
]);
const SEQUENCE_BRANDS = new Set(['avis', 'hevc', 'hevx', 'hevm', 'hevs']);

function heifFacts(file: Bytes): PictureFacts {
  const end = Math.min(file.length, Math.max(16, file.u32(0)));
  const brands = [file.text(8, 4)];
  for (let at = 16; at + 4 <= end; at += 4) brands.push(file.text(at, 4));
  const isAvif = brands.includes('avif') || brands.includes('avis');
  if (!isAvif && !brands.some((brand) => HEIF_BRANDS.has(brand))) {
    return { format: 'unknown', orientation: 1, animated: false };
  }
  return {
    format: isAvif ? 'avif' : 'heic',
    ...heifSize(file),
    orientation: 1,
    animated: brands.some((brand) => SEQUENCE_BRANDS.has(brand)),
  };
}

/** The largest of the spatial extents that meta / iprp / ipco lists: tiles and thumbnails are smaller than the picture. */
function heifSize(file: Bytes): { width?: number; height?: number } {
  const meta = boxesOf(file, 0, file.length).find((box) => box.type === 'meta');
  if (!meta) return {};
  const iprp = boxesOf(file, meta.from + 4, meta.to).find((box) => box.type === 'iprp');
  const ipco = iprp && boxesOf(file, iprp.from, iprp.to).find((box) => box.type === 'ipco');
  if (!ipco) return {};
  let size: { width?: number; height?: number } = {};
  let most = 0;
  for (const { type, from, to } of boxesOf(file, ipco.from, ipco.to)) {
    if (type !== 'ispe' || from + 12 > to) continue;
    const [width, height] = [file.u32(from + 4), file.u32(from + 8)];
    if (width * height <= most) continue;
    most = width * height;
    size = { width, height };
  }
  return size;
}

/** The boxes between two places, each with the stretch of its content. */
function boxesOf(
  file: Bytes,
  from: number,
  to: number,
): { type: string; from: number; to: number }[] {
  const boxes: { type: string; from: number; to: number }[] = [];
  for (let at = from; at + 8 <= to;) {
    const short = file.u32(at);
    const head = short === 1 ? 16 : 8;
    const length =
      short === 0 ? to - at : short === 1 ? file.u32(at + 8) * 2 ** 32 + file.u32(at + 12) : short;
    if (length < head) break;
    boxes.push({ type: file.text(at + 4, 4), from: at + head, to: Math.min(to, at + length) });
    at += length;
  }
  return boxes;
}

function bmpFacts(file: Bytes): PictureFacts {
  const signed = (value: number): number => (value >= 2 ** 31 ? value - 2 ** 32 : value);
  const head = file.u32(14, true);
  let size: { width?: number; height?: number } = {};
  if (head === 12 && file.length >= 22) size = sized(file.u16(18, true), file.u16(20, true));
  if (head >= 16 && file.length >= 26) {
    // A negative height: rows from top to bottom.
    size = sized(signed(file.u32(18, true)), Math.abs(signed(file.u32(22, true))));
  }
  return { format: 'bmp', ...size, orientation: 1, animated: false };
}

/** Characters looked at for the root element of an SVG. */
const SVG_SEARCHED = 1 << 14;

function svgFacts(file: Bytes): PictureFacts | undefined {
  let text = file.text(0, Math.min(file.length, SVG_SEARCHED)).replace(/^\u00ef\u00bb\u00bf/, '');
  for (;;) {
    text = text.trimStart();
    const end = text.startsWith('<!--')
      ? '-->'
      : text.startsWith('<?')
        ? '?>'
        : /^<!doctype/i.test(text)
          ? '>'
          : '';
    if (end === '') break;
    const at = text.indexOf(end);
    if (at < 0) return undefined;
    text = text.slice(at + end.length);
  }
  if (!/^<svg[\s/>]/.test(text)) return undefined;
  const close = text.indexOf('>');
  const root = close < 0 ? text : text.slice(0, close);
  const length = (name: string): number =>
    Number(
      new RegExp(`\\s${name}\\s*=\\s*["']\\s*([0-9.]{1,12})(?:px)?\\s*["']`).exec(root)?.[1] ?? 0,
    );
  return {
    format: 'svg',
    ...sized(length('width'), length('height')),
    orientation: 1,
    animated: false,
  };
}
