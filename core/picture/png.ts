/** The frame of a PNG file (PNG specification, 3rd edition, 5.2 and 5.3). */

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** A chunk in its place: from its length to its CRC. */
export interface PngChunk {
  type: string;
  start: number;
  end: number;
}

/** The chunks of a file up to IEND, or `undefined` when it is no PNG or ends too soon. */
export function pngChunks(file: Uint8Array): PngChunk[] | undefined {
  if (SIGNATURE.some((byte, i) => file[i] !== byte)) return undefined;
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const chunks: PngChunk[] = [];
  for (let start = 8; start + 12 <= file.length;) {
    const type = String.fromCharCode(...file.subarray(start + 4, start + 8));
    const end = start + 12 + view.getUint32(start);
    if (end > file.length || !/^[A-Za-z]{4}$/.test(type)) return undefined;
    if (start === 8 && type !== 'IHDR') return undefined;
    chunks.push({ type, start, end });
    if (type === 'IEND') return chunks;
    start = end;
  }
  return undefined;
}

/** A chunk: length, type, data and the CRC-32 of the last two (PNG 3rd edition, annex D). */
export function pngChunk(type: string, data: Uint8Array): Uint8Array {
  const chunk = new Uint8Array(data.length + 12);
  const view = new DataView(chunk.buffer);
  view.setUint32(0, data.length);
  for (let i = 0; i < 4; i++) chunk[4 + i] = type.charCodeAt(i);
  chunk.set(data, 8);
  view.setUint32(data.length + 8, crcOf(chunk.subarray(4, data.length + 8)));
  return chunk;
}

function crcOf(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return ~crc >>> 0;
}
