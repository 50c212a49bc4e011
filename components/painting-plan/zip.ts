/**
 * Just enough of the ZIP format to keep a plan with its photos in one file. Source: APPNOTE.TXT 6.3.10 (PKWARE), 4.3.7
 * local header, 4.3.12 central directory, 4.3.16 end record. Nothing is inflated before its place and size are known from
 * the central directory, and inflating ends where the given limit is passed, whatever the file says of itself.
 */

/** What is wrong with a file that should be a ZIP. */
export class ZipError extends Error {
  constructor(readonly fault: 'damaged' | 'locked' | 'too-many-parts' | 'too-large') {
    super(`ZIP: ${fault}`);
    this.name = 'ZipError';
  }
}

/** A part of a ZIP file. */
export interface ZipPart {
  name: string;
  /** Bytes once inflated, as the file says. */
  size: number;
  /** Bytes inside the file. */
  packed: number;
  /** 0: stored; 8: deflated. */
  method: number;
  crc: number;
  offset: number;
}

/** Bytes worked through before the page gets its turn. */
const SLICE = 256 * 1024;
/** The longest end record: 22 bytes and a comment. */
const END_MAX = 22 + 65_535;
/** Bytes of central directory that are looked at. */
const DIRECTORY_MAX = 256 * 1024;

/** Lets the page have its turn. */
export const breath = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

async function viewOf(blob: Blob): Promise<DataView> {
  return new DataView(await blob.arrayBuffer());
}

/** Whether a file begins as a ZIP does. */
export async function isZip(file: Blob): Promise<boolean> {
  if (file.size < 22) return false;
  const view = await viewOf(file.slice(0, 4));
  return [0x04034b50, 0x06054b50].includes(view.getUint32(0, true));
}

/**
 * The parts that a ZIP file lists; none is read yet.
 * @throws ZipError `damaged` (also split files and those beyond 4 GB), `too-many-parts`, `locked`.
 */
export async function partsOf(file: Blob, most: number): Promise<ZipPart[]> {
  const start = Math.max(0, file.size - END_MAX);
  const tail = await viewOf(file.slice(start));
  let end = tail.byteLength - 22;
  while (end >= 0 && tail.getUint32(end, true) !== 0x06054b50) end--;
  if (end < 0) throw new ZipError('damaged');
  const count = tail.getUint16(end + 10, true);
  const length = tail.getUint32(end + 12, true);
  const offset = tail.getUint32(end + 16, true);
  if (count > most || length > DIRECTORY_MAX) throw new ZipError('too-many-parts');
  if (offset + length > start + end) throw new ZipError('damaged');
  const view = await viewOf(file.slice(offset, offset + length));
  const parts: ZipPart[] = [];
  for (let at = 0; parts.length < count;) {
    if (at + 46 > length || view.getUint32(at, true) !== 0x02014b50) throw new ZipError('damaged');
    if (view.getUint16(at + 8, true) & 1) throw new ZipError('locked');
    const nameLength = view.getUint16(at + 28, true);
    const name = new Uint8Array(view.buffer, at + 46, Math.min(nameLength, length - at - 46));
    parts.push({
      name: new TextDecoder().decode(name),
      method: view.getUint16(at + 10, true),
      crc: view.getUint32(at + 16, true),
      packed: view.getUint32(at + 20, true),
      size: view.getUint32(at + 24, true),
      offset: view.getUint32(at + 42, true),
    });
    at += 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return parts;
}

/**
 * The bytes of a part; a stored one is not copied.
 * @throws ZipError `too-large` beyond `limit` bytes, `damaged` when the part is not what the file says.
 */
export async function readPart(file: Blob, part: ZipPart, limit: number): Promise<Blob> {
  if (part.size > limit) throw new ZipError('too-large');
  const head = await viewOf(file.slice(part.offset, part.offset + 30));
  if (head.byteLength < 30 || head.getUint32(0, true) !== 0x04034b50) throw new ZipError('damaged');
  const from = part.offset + 30 + head.getUint16(26, true) + head.getUint16(28, true);
  const packed = file.slice(from, from + part.packed);
  if (packed.size !== part.packed) throw new ZipError('damaged');
  const whole = part.method === 0 ? packed : await inflated(packed, part, limit);
  if (whole.size !== part.size || (await crcOf(whole)) !== part.crc) throw new ZipError('damaged');
  return whole;
}

async function inflated(packed: Blob, { method, size }: ZipPart, limit: number): Promise<Blob> {
  if (method !== 8) throw new ZipError('damaged');
  const { Inflate } = await import('./deflate.js');
  const out: Uint8Array<ArrayBuffer>[] = [];
  let bytes = 0;
  const inflate = new Inflate((chunk) => {
    bytes += chunk.length;
    if (bytes > Math.min(size, limit)) throw new ZipError('too-large');
    out.push(chunk);
  });
  // One byte of deflate makes at most about a thousand: small steps keep what is made between two checks small.
  const step = 16 * 1024;
  for (let at = 0; at < packed.size; at += step) {
    const slice = new Uint8Array(await packed.slice(at, at + step).arrayBuffer());
    try {
      inflate.push(slice, at + step >= packed.size);
    } catch (thrown) {
      throw thrown instanceof ZipError ? thrown : new ZipError('damaged');
    }
    if (at % SLICE === 0) await breath();
  }
  return new Blob(out);
}

/** A file for {@link zipped}; `squeeze` deflates it (photos are dense already and are stored). */
export interface ZipInput {
  name: string;
  blob: Blob;
  squeeze?: boolean;
}

/** A ZIP file of these parts, worked through in slices. */
export async function zipped(inputs: readonly ZipInput[]): Promise<Blob> {
  const { Zip, ZipDeflate, ZipPassThrough } = await import('./deflate.js');
  const out: Blob[] = [];
  let failed: Error | undefined;
  const zip = new Zip((error, chunk) => {
    if (error) failed = error;
    else out.push(new Blob([chunk]));
  });
  for (const { name, blob, squeeze } of inputs) {
    const part = squeeze ? new ZipDeflate(name, { level: 6 }) : new ZipPassThrough(name);
    zip.add(part);
    const slice = squeeze ? SLICE / 4 : SLICE;
    for (let at = 0; at === 0 || at < blob.size; at += slice) {
      const bytes = new Uint8Array(await blob.slice(at, at + slice).arrayBuffer());
      part.push(bytes, at + slice >= blob.size);
      await breath();
    }
  }
  zip.end();
  if (failed) throw failed;
  return new Blob(out, { type: 'application/zip' });
}

let table: Uint32Array | undefined;

/** CRC-32 of a file (ISO-HDLC: polynomial 0xEDB88320 reflected), as ZIP names it. */
export async function crcOf(blob: Blob): Promise<number> {
  table ??= Uint32Array.from({ length: 256 }, (_, n) => {
    let c = n;
    for (let k = 0; k < 8; k++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
    return c;
  });
  let crc = 0xffffffff;
  for (let at = 0; at < blob.size; at += SLICE) {
    const bytes = new Uint8Array(await blob.slice(at, at + SLICE).arrayBuffer());
    for (let i = 0; i < bytes.length; i++) crc = table[(crc ^ bytes[i]) & 0xff] ^ (crc >>> 8);
    await breath();
  }
  return (crc ^ 0xffffffff) >>> 0;
}
