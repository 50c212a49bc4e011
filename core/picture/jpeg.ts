import { wrongType } from '../base/check.js';

/** How coarsely a JPEG file keeps its picture. */
export interface JpegTables {
  /** The libjpeg quality (1..100) whose table of lightness is nearest to that of the file. */
  quality: number;
  /** Steps in which the file keeps the mean of 8 x 8 pixels: sRGB codes of luma, and of chroma (0 for a grey file). */
  lumaStep: number;
  chromaStep: number;
}

/**
 * ITU-T T.81 (JPEG), Annex K, table K.1: quantisation of luminance, row by row. The Independent JPEG Group's library scales it by 5000 / quality
 * percent below 50 and by 200 - 2 quality from there on, and keeps each entry within 1..255 (jcparam.c, `jpeg_quality_scaling`).
 */
const LUMINANCE = [
  16, 11, 10, 16, 24, 40, 51, 61, 12, 12, 14, 19, 26, 58, 60, 55, 14, 13, 16, 24, 40, 57, 69, 56,
  14, 17, 22, 29, 51, 87, 80, 62, 18, 22, 37, 56, 68, 109, 103, 77, 24, 35, 55, 64, 81, 104, 113,
  92, 49, 64, 78, 87, 103, 121, 120, 101, 72, 92, 95, 98, 112, 100, 103, 99,
];

/** Places of the 64 entries in the order in which a file has them (T.81, figure 5). */
const ZIGZAG = [
  0, 1, 8, 16, 9, 2, 3, 10, 17, 24, 32, 25, 18, 11, 4, 5, 12, 19, 26, 33, 40, 48, 41, 34, 27, 20,
  13, 6, 7, 14, 21, 28, 35, 42, 49, 56, 57, 50, 43, 36, 29, 22, 15, 23, 30, 37, 44, 51, 58, 59, 52,
  45, 38, 31, 39, 46, 53, 60, 61, 54, 47, 55, 62, 63,
];

/**
 * Reads the quantisation tables of a JPEG file from its first bytes (ITU-T T.81, B.2.4.1): those before its frame.
 *
 * @returns `undefined` when the bytes are no JPEG file or hold no table of lightness
 * @throws TypeError when `bytes` is no Uint8Array
 */
export function jpegTables(bytes: Uint8Array): JpegTables | undefined {
  if (!(bytes instanceof Uint8Array)) throw wrongType('bytes', bytes, 'a Uint8Array');
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8) return undefined;
  const tables: number[][] = [];
  for (let at = 2; at + 4 <= bytes.length && bytes[at] === 0xff;) {
    const marker = bytes[at + 1];
    // The scan, or the end.
    if (marker === 0xda || marker === 0xd9) break;
    if (marker === 0xff) {
      at++;
      continue;
    }
    const length = 256 * bytes[at + 2] + bytes[at + 3];
    if (length < 2) break;
    if (marker === 0xdb) readTables(bytes.subarray(at + 4, at + 2 + length), tables);
    at += 2 + length;
  }
  const [luma, chroma] = tables;
  if (!luma) return undefined;
  // The first entry quantises eight times the mean of a block (T.81, A.3.3).
  return {
    quality: nearestQuality(luma),
    lumaStep: luma[0] / 8,
    chromaStep: (chroma?.[0] ?? 0) / 8,
  };
}

/** The tables of one segment; each begins with its precision and its number. */
function readTables(segment: Uint8Array, tables: number[][]): void {
  for (let at = 0; at < segment.length;) {
    const wide = segment[at] >> 4 !== 0;
    const number = segment[at] & 15;
    const size = wide ? 128 : 64;
    if (number > 3 || at + 1 + size > segment.length) return;
    const table = new Array<number>(64).fill(0);
    ZIGZAG.forEach((place, i) => {
      const from = at + 1 + (wide ? 2 * i : i);
      table[place] = wide ? 256 * segment[from] + segment[from + 1] : segment[from];
    });
    tables[number] = table;
    at += 1 + size;
  }
}

function nearestQuality(table: readonly number[]): number {
  let best = 100;
  let least = Infinity;
  for (let quality = 100; quality >= 1; quality--) {
    const scale = quality < 50 ? Math.floor(5000 / quality) : 200 - 2 * quality;
    let apart = 0;
    LUMINANCE.forEach((entry, i) => {
      const scaled = Math.min(255, Math.max(1, Math.floor((entry * scale + 50) / 100)));
      apart += Math.abs(scaled - table[i]);
    });
    if (apart < least) [least, best] = [apart, quality];
  }
  return best;
}
