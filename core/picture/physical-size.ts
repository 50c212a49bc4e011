import { expectNumber, outOfRange, wrongType } from '../base/check.js';
import { pngChunk, pngChunks } from './png.js';

/** The unit of pHYs that means the metre. */
const METRE = 1;
const MOST = 2 ** 31 - 1;

/**
 * A PNG file that says how large it is: a chunk pHYs with pixels per metre, in place of any that was there. The pixels and all other
 * chunks stay byte for byte. The format knows whole numbers only, so a width of 300 mm is told to within 0.02 mm.
 *
 * Source: PNG specification, 3rd edition, 11.3.4.3 (pHYs) and 5.6 (before IDAT).
 *
 * @param png - The whole file; neither changed nor kept.
 * @param across - Pixels per metre along x, above 0, rounded to a whole number of at least 1.
 * @param down - The same along y; as `across` when absent.
 * @throws {TypeError} when `png` is no Uint8Array · {RangeError} when it is no whole PNG file, or a number is out of range
 */
export function withPixelsPerMetre(png: Uint8Array, across: number, down = across): Uint8Array {
  if (!(png instanceof Uint8Array)) throw wrongType('png', png, 'a Uint8Array');
  const data = new DataView(new ArrayBuffer(9));
  data.setUint32(0, wholeOf('across', across));
  data.setUint32(4, wholeOf('down', down));
  data.setUint8(8, METRE);
  const chunks = pngChunks(png);
  if (!chunks) throw outOfRange('png', png, 'a whole PNG file');
  const kept = chunks.filter(({ type }) => type !== 'pHYs');
  const told = pngChunk('pHYs', new Uint8Array(data.buffer));
  const parts = [png.subarray(0, 8)];
  for (const { type, start, end } of kept) {
    parts.push(png.subarray(start, end));
    if (type === 'IHDR') parts.push(told);
  }
  return joined(parts);
}

function wholeOf(name: string, value: number): number {
  return Math.max(1, Math.round(expectNumber(name, value, Number.MIN_VALUE, MOST)));
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const file = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    file.set(part, at);
    at += part.length;
  }
  return file;
}
