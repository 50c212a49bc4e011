import { wrongType } from '../base/check.js';
import { pngChunk, pngChunks } from './png.js';
import { sniffPicture } from './sniff.js';

/**
 * What was taken out of a picture file: `exif` (camera data, location among them), `xmp`, `iptc` (captions, in JPEG's APP13), `comment`,
 * `text` (PNG), `time` (PNG), `other` (what no decoder needs: maker's data, further pictures, unknown parts) and `trailing` (bytes after
 * the picture's end, where some cameras put a film or further pictures).
 */
export type Removed = 'exif' | 'xmp' | 'iptc' | 'comment' | 'text' | 'time' | 'other' | 'trailing';

/** A picture file without data about its making. */
export interface Stripped {
  /** The file; shares nothing with the one given. */
  bytes: Uint8Array;
  /** What was taken out, each once, in the order met; empty when the file held nothing to take out. */
  removed: Removed[];
}

/**
 * A picture file without location and without the rest of what a camera or a program noted in it. What a decoder needs is kept byte for
 * byte: coded pixels, sizes, colour profiles and spaces, transparency, frames and their times. The orientation is kept by an Exif directory
 * of that one entry (none when upright).
 *
 * By the published layouts: JPEG (ITU-T T.81; kept of the application segments are APP0, ICC profiles in APP2 and APP14), PNG 3rd edition
 * (kept are critical chunks and those of colour, transparency, size and animation), WebP (RFC 9649), GIF89a (kept of the application
 * extensions are loops and ICC profiles; a plain text extension is part of the picture); Exif 2.3.
 *
 * @param bytes - The whole file, of any content.
 * @returns `null` for other formats and for a file whose parts cannot be told apart to its end: draw it and encode it anew instead.
 * @throws {TypeError} when `bytes` is no Uint8Array.
 */
export function withoutLocation(bytes: Uint8Array): Stripped | null {
  if (!(bytes instanceof Uint8Array)) throw wrongType('bytes', bytes, 'a Uint8Array');
  const { format, orientation } = sniffPicture(bytes);
  if (format === 'jpeg') return strippedJpeg(bytes, orientation);
  if (format === 'png') return strippedPng(bytes, orientation);
  if (format === 'webp') return strippedWebp(bytes, orientation);
  if (format === 'gif') return strippedGif(bytes);
  return null;
}

/** The parts of the file to be, and what is left out of it. */
class Parts {
  readonly kept: Uint8Array[] = [];
  readonly removed = new Set<Removed>();

  keep(part: Uint8Array): void {
    this.kept.push(part);
  }

  file(): Stripped {
    const bytes = new Uint8Array(this.kept.reduce((sum, { length }) => sum + length, 0));
    let at = 0;
    for (const part of this.kept) {
      bytes.set(part, at);
      at += part.length;
    }
    return { bytes, removed: [...this.removed] };
  }
}

/** A big-endian TIFF header and a directory of one SHORT, Orientation: what Exif calls for to tell an orientation. */
// prettier-ignore
const orientationTiff = (orientation: number): Uint8Array =>
  Uint8Array.of(0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0);

const textAt = (bytes: Uint8Array, at: number, length: number): string =>
  String.fromCharCode(...bytes.subarray(at, at + length));

const sameBytes = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((byte, i) => byte === b[i]);

function joined(...parts: Uint8Array[]): Uint8Array {
  const together = new Parts();
  parts.forEach((part) => together.keep(part));
  return together.file().bytes;
}

const bytesOf = (text: string): Uint8Array =>
  Uint8Array.from(text, (letter) => letter.charCodeAt(0));

const EXIF_HEAD = bytesOf('Exif\0\0');

function strippedJpeg(file: Uint8Array, orientation: number): Stripped | null {
  const parts = new Parts();
  parts.keep(file.subarray(0, 2));
  const tiff = orientationTiff(orientation);
  const exif = joined(Uint8Array.of(0xff, 0xe1, 0, 2 + 6 + tiff.length), EXIF_HEAD, tiff);
  // Behind the segments APP0 that open the file, as readers of JFIF expect.
  let told = orientation === 1;
  let at = 2;
  while (at + 1 < file.length) {
    if (file[at] !== 0xff) return null;
    const marker = file[at + 1];
    if (marker === 0xff) {
      at += 1; // a fill byte
      continue;
    }
    if (!told && marker !== 0xe0) {
      parts.keep(exif);
      told = true;
    }
    if (marker === 0xd9) {
      parts.keep(file.subarray(at, at + 2));
      if (at + 2 < file.length) parts.removed.add('trailing');
      return parts.file();
    }
    const alone = marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7);
    if (!alone && (marker < 0xc0 || marker === 0xd8)) return null;
    const length = alone ? 0 : at + 3 < file.length ? 256 * file[at + 2] + file[at + 3] : 0;
    if (!alone && (length < 2 || at + 2 + length > file.length)) return null;
    const end = marker === 0xda ? scanEnd(file, at + 2 + length) : at + 2 + length;
    const segment = file.subarray(at, end);
    const kind = jpegRemoved(marker, segment);
    if (kind === undefined) parts.keep(segment);
    else if (orientation === 1 || !sameBytes(segment, exif)) parts.removed.add(kind);
    at = end;
  }
  return null; // The file ends before the picture does.
}

/** Where coded data end: at the next marker that is neither a restart nor a stuffed byte. */
function scanEnd(file: Uint8Array, from: number): number {
  for (let at = file.indexOf(0xff, from); at >= 0; at = file.indexOf(0xff, at + 1)) {
    const next = file[at + 1];
    if (next === undefined) break;
    if (next !== 0 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
  return file.length;
}

/** What a segment is called when it is to go. */
function jpegRemoved(marker: number, segment: Uint8Array): Removed | undefined {
  if (marker === 0xfe) return 'comment';
  if (marker < 0xe0 || marker > 0xef || marker === 0xe0 || marker === 0xee) return undefined;
  if (marker === 0xe1 && textAt(segment, 4, 6) === 'Exif\0\0') return 'exif';
  if (marker === 0xe1 && textAt(segment, 4, 20) === 'http://ns.adobe.com/') return 'xmp';
  if (marker === 0xe2 && textAt(segment, 4, 12) === 'ICC_PROFILE\0') return undefined;
  return marker === 0xed ? 'iptc' : 'other';
}

/** Ancillary chunks of PNG that say how the pixels are to be shown. */
const PNG_KEPT = new Set(
  'tRNS cHRM gAMA iCCP sBIT sRGB cICP mDCV cLLI bKGD hIST pHYs sPLT acTL fcTL fdAT'.split(' '),
);
const PNG_REMOVED: Readonly<Record<string, Removed>> = {
  eXIf: 'exif',
  tEXt: 'text',
  iTXt: 'text',
  zTXt: 'text',
  tIME: 'time',
};

function strippedPng(file: Uint8Array, orientation: number): Stripped | null {
  const chunks = pngChunks(file);
  if (!chunks) return null;
  const parts = new Parts();
  parts.keep(file.subarray(0, 8));
  const exif = pngChunk('eXIf', orientationTiff(orientation));
  for (const { type, start, end } of chunks) {
    const chunk = file.subarray(start, end);
    if (/^[A-Z]/.test(type) || PNG_KEPT.has(type)) parts.keep(chunk);
    else if (type !== 'eXIf' || orientation === 1 || !sameBytes(chunk, exif))
      parts.removed.add(Object.hasOwn(PNG_REMOVED, type) ? PNG_REMOVED[type] : 'other');
    if (type === 'IHDR' && orientation !== 1) parts.keep(exif);
  }
  if (chunks[chunks.length - 1].end < file.length) parts.removed.add('trailing');
  return parts.file();
}

const WEBP_KEPT = new Set(['VP8X', 'VP8 ', 'VP8L', 'ALPH', 'ANIM', 'ANMF', 'ICCP']);
const WEBP_REMOVED: Readonly<Record<string, Removed>> = { EXIF: 'exif', 'XMP ': 'xmp' };
const FRAME_KEPT = new Set(['VP8 ', 'VP8L', 'ALPH']);
/** Bytes of a frame's own head inside ANMF. */
const FRAME_HEAD = 16;

/** A chunk of a RIFF file; the byte that fills an odd length is part of it. */
interface RiffChunk {
  type: string;
  bytes: Uint8Array;
  data: Uint8Array;
}

/** The chunks of a stretch; undefined when they do not fill it. */
function riffChunks(file: Uint8Array): RiffChunk[] | undefined {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const chunks: RiffChunk[] = [];
  let at = 0;
  while (at + 8 <= file.length) {
    const length = view.getUint32(at + 4, true);
    const end = at + 8 + length;
    if (end > file.length) return undefined;
    const data = file.subarray(at + 8, end);
    const next = end + (length & 1);
    const type = textAt(file, at, 4);
    // Some writers leave out the last filling byte: it is put in.
    const bytes = next > file.length ? riffChunk(type, data) : file.subarray(at, next);
    chunks.push({ type, bytes, data });
    at = Math.min(next, file.length);
  }
  return at === file.length ? chunks : undefined;
}

function riffChunk(type: string, ...data: Uint8Array[]): Uint8Array {
  const body = joined(...data);
  const head = new DataView(new ArrayBuffer(4));
  head.setUint32(0, body.length, true);
  const fill = new Uint8Array(body.length & 1);
  return joined(bytesOf(type), new Uint8Array(head.buffer), body, fill);
}

function strippedWebp(file: Uint8Array, orientation: number): Stripped | null {
  if (file.length < 12) return null;
  const length = new DataView(file.buffer, file.byteOffset).getUint32(4, true);
  const end = 8 + length;
  if (length < 4 || end > file.length) return null;
  const chunks = riffChunks(file.subarray(12, end));
  if (!chunks?.some(({ type }) => type === 'VP8 ' || type === 'VP8L' || type === 'ANMF'))
    return null;
  const parts = new Parts();
  const exif = riffChunk('EXIF', orientationTiff(orientation));
  // Only the extended form has a place for an orientation.
  const turned = orientation !== 1 && chunks[0].type === 'VP8X';
  for (const { type, bytes, data } of chunks) {
    if (type === 'VP8X') {
      if (data.length < 10) return null;
      const head = bytes.slice();
      head[8] = (head[8] & ~0x0c) | (turned ? 0x08 : 0);
      parts.keep(head);
    } else if (type === 'ANMF') {
      const frame = strippedFrame(bytes, data, parts.removed);
      if (!frame) return null;
      parts.keep(frame);
    } else if (WEBP_KEPT.has(type)) parts.keep(bytes);
    else if (!turned || !sameBytes(bytes, exif))
      parts.removed.add(Object.hasOwn(WEBP_REMOVED, type) ? WEBP_REMOVED[type] : 'other');
  }
  if (turned) parts.keep(exif);
  if (end < file.length) parts.removed.add('trailing');
  const { bytes, removed } = parts.file();
  return { bytes: riffChunk('RIFF', bytesOf('WEBP'), bytes), removed };
}

/** A frame of an animation with nothing but its pixels. */
function strippedFrame(
  whole: Uint8Array,
  data: Uint8Array,
  removed: Set<Removed>,
): Uint8Array | undefined {
  if (data.length < FRAME_HEAD) return undefined;
  const chunks = riffChunks(data.subarray(FRAME_HEAD));
  if (!chunks) return undefined;
  if (chunks.every(({ type }) => FRAME_KEPT.has(type))) return whole;
  removed.add('other');
  const kept = chunks.filter(({ type }) => FRAME_KEPT.has(type)).map(({ bytes }) => bytes);
  return riffChunk('ANMF', data.subarray(0, FRAME_HEAD), ...kept);
}

const GIF_KEPT = new Set(['NETSCAPE2.0', 'ANIMEXTS1.0', 'ICCRGBG1012']);

function strippedGif(file: Uint8Array): Stripped | null {
  if (file.length < 13) return null;
  /** Bytes of a colour table, from the byte that tells of it. */
  const table = (packed: number): number => (packed & 0x80 ? 3 * 2 ** ((packed & 7) + 1) : 0);
  const afterSubBlocks = (from: number): number => {
    let at = from;
    while (at < file.length && file[at] !== 0) at += 1 + file[at];
    return at + 1;
  };
  const parts = new Parts();
  let at = 13 + table(file[10]);
  parts.keep(file.subarray(0, at));
  while (at < file.length) {
    const block = file[at];
    if (block === 0x3b) {
      parts.keep(file.subarray(at, at + 1));
      if (at + 1 < file.length) parts.removed.add('trailing');
      return parts.file();
    }
    if (block !== 0x2c && block !== 0x21) return null;
    const end = afterSubBlocks(block === 0x2c ? at + 11 + table(file[at + 9]) : at + 2);
    if (end > file.length) return null;
    const kind = block === 0x21 ? gifRemoved(file, at) : undefined;
    if (kind === undefined) parts.keep(file.subarray(at, end));
    else parts.removed.add(kind);
    at = end;
  }
  return parts.file(); // Decoders forgive a trailer that is left out.
}

/** What an extension is called when it is to go. */
function gifRemoved(file: Uint8Array, at: number): Removed | undefined {
  const label = file[at + 1];
  if (label === 0xf9 || label === 0x01) return undefined;
  if (label === 0xfe) return 'comment';
  const name = textAt(file, at + 3, 11);
  if (label === 0xff && file[at + 2] === 11 && GIF_KEPT.has(name)) return undefined;
  return name === 'XMP DataXMP' ? 'xmp' : 'other';
}
