/** What the tests of picture files share: a bare element that takes pictures, and files made by hand. */
import { html, type TemplateResult } from 'lit';
import { PictureIntake } from '../../components/shared/picture-intake.js';
import type { PictureState, PlanStore } from '../../components/shared/plan-store.js';
import { TonewellElement } from '../../components/shared/tonewell-element.js';
import { pictureWords } from '../../components/shared/words/picture.js';

export class PictureHost extends TonewellElement {
  static override readonly tag = 'picture-host';
  static override readonly words = pictureWords;
  readonly intake = new PictureIntake(this);

  override render(): TemplateResult {
    const say = (key: string, values?: Record<string, string | number>): string =>
      this.say(key, values);
    return html`${this.intake.renderButtons(say)}${this.intake.renderProgress(say)}
    ${this.intake.renderTrouble((reason) => this.tell(reason), say)}`;
  }

  /** The sentence about a fault that can be read in the element. */
  async trouble(): Promise<string> {
    await this.updateComplete;
    return this.renderRoot.querySelector('.trouble > span')?.textContent ?? '';
  }
}

const hosts: PictureHost[] = [];

/** An element on the page, with a plan of its own. */
export function host(): PictureHost {
  PictureHost.define();
  const element = document.createElement('picture-host') as PictureHost;
  document.body.append(element);
  hosts.push(element);
  return element;
}

/** Takes the elements of a test off the page. */
export function clear(): void {
  for (const element of hosts.splice(0)) {
    element.store.dispose();
    element.remove();
  }
}

/** The first state of the picture that holds, now or after one of its coming events. */
export function stateOf(
  store: PlanStore,
  holds: (state: PictureState) => boolean,
): Promise<PictureState> {
  return new Promise((resolve) => {
    const look = (): void => {
      if (!holds(store.picture)) return;
      store.removeEventListener('picture', look);
      resolve(store.picture);
    };
    store.addEventListener('picture', look);
    look();
  });
}

/** Whether an opening has come to its end. */
export const settled = ({ status }: PictureState): boolean => status !== 'opening';

/** Pixels whose colour a function of the place tells, as R, G, B and alpha. */
export function painted(
  width: number,
  height: number,
  colour: (x: number, y: number) => readonly number[],
): ImageData {
  const data = new Uint8ClampedArray(4 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) data.set([255, 255, 255, 255], 4 * (y * width + x));
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) data.set(colour(x, y), 4 * (y * width + x));
  return new ImageData(data, width, height);
}

export function canvasOf(pixels: ImageData): OffscreenCanvas {
  const canvas = new OffscreenCanvas(pixels.width, pixels.height);
  canvas.getContext('2d')!.putImageData(pixels, 0, 0);
  return canvas;
}

export const fileOf = (pixels: ImageData, type = 'image/png', quality = 1): Promise<Blob> =>
  canvasOf(pixels).convertToBlob({ type, quality });

export const bytesOf = async (blob: Blob): Promise<Uint8Array> =>
  new Uint8Array(await blob.arrayBuffer());

/** A pixel of a bitmap as R, G, B, alpha. */
export function pixelOf(bitmap: ImageBitmap, x: number, y: number): number[] {
  const context = new OffscreenCanvas(1, 1).getContext('2d')!;
  context.drawImage(bitmap, -x, -y);
  return [...context.getImageData(0, 0, 1, 1).data];
}

/** Bytes from numbers and text, one byte a character. */
export const bytes = (...parts: (number | ArrayLike<number> | string)[]): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(
    parts.flatMap((part) =>
      typeof part === 'number'
        ? [part]
        : typeof part === 'string'
          ? [...part].map((letter) => letter.charCodeAt(0))
          : Array.from(part),
    ),
  );
export const be16 = (value: number): number[] => [(value >> 8) & 255, value & 255];
export const be32 = (value: number): number[] => [...be16(value >>> 16), ...be16(value)];
export const le16 = (value: number): number[] => [value & 255, (value >> 8) & 255];
export const le24 = (value: number): number[] => [...le16(value), (value >> 16) & 255];
export const le32 = (value: number): number[] => [...le16(value), ...le16(value >>> 16)];

/** The check sum of PNG chunks (PNG 3rd edition, annex D). */
function crc32(data: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of data) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return ~crc >>> 0;
}

/** A PNG chunk: length, type, body, check sum. */
export function chunk(type: string, body: ArrayLike<number> = []): Uint8Array {
  const named = bytes(type, body);
  return bytes(be32(body.length), named, be32(crc32(named)));
}

/** The zlib stream of rows of RGBA, each with filter type 0 before it. */
export async function zipped(pixels: ImageData): Promise<Uint8Array> {
  const { width, height, data } = pixels;
  const rows = Array.from({ length: height }, (_, y) =>
    bytes(0, data.subarray(4 * y * width, 4 * (y + 1) * width)),
  );
  return deflated(...rows);
}

/** A zlib stream. */
async function deflated(...parts: Uint8Array[]): Promise<Uint8Array> {
  const stream = new Blob(parts as BlobPart[])
    .stream()
    .pipeThrough(new CompressionStream('deflate'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

export const PNG_SIGNATURE = bytes(0x89, 'PNG', 13, 10, 26, 10);
/** Width, height, 8 bits, RGBA, no interlace. */
export const ihdr = (width: number, height: number): Uint8Array =>
  chunk('IHDR', bytes(be32(width), be32(height), 8, 6, 0, 0, 0));

/**
 * An ICC profile of RGB (ICC.1:2010, 7 to 10) whose primaries have these XYZ under D50, with the transfer curve of sRGB
 * (IEC 61966-2-1) as a parametric curve of type 3.
 */
export function profileOf(primaries: readonly (readonly number[])[]): Uint8Array {
  const fixed = (...values: number[]): number[] =>
    values.flatMap((value) => be32(Math.round(value * 65536)));
  const text = bytes('mluc', be32(0), be32(1), be32(12), 'enUS', be32(2), be32(28), 0, 'P', 0, 0);
  const xyz = (values: readonly number[]): Uint8Array => bytes('XYZ ', be32(0), fixed(...values));
  const curve = bytes(
    ...['para', be32(0), be16(3), be16(0)],
    fixed(2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045),
  );
  const white = [0.9642, 1, 0.8249];
  const named: [string, Uint8Array][] = [
    ...['desc', 'cprt'].map((name): [string, Uint8Array] => [name, text]),
    ['wtpt', xyz(white)],
    ...primaries.map((each, i): [string, Uint8Array] => [`${'rgb'[i]}XYZ`, xyz(each)]),
    ...[...'rgb'].map((channel): [string, Uint8Array] => [`${channel}TRC`, curve]),
  ];
  let at = 128 + 4 + 12 * named.length;
  const table = named.map(([name, { length }]) => {
    at += length;
    return bytes(name, be32(at - length), be32(length));
  });
  const header = [
    ...[be32(at), be32(0), be32(0x04200000), 'mntrRGB XYZ ', be16(2026), be16(1), be16(1)],
    ...[be32(0), be16(0), 'acsp', be32(0), be32(0), be32(0), be32(0), be32(0), be32(0)],
    ...[be32(0), fixed(...white), new Uint8Array(48)],
  ];
  const tags = named.map(([, content]) => content);
  return bytes(...header, be32(named.length), ...table, ...tags);
}

/** The chunk of a PNG that holds an ICC profile. */
export const iccp = async (profile: Uint8Array): Promise<Uint8Array> =>
  chunk('iCCP', bytes('profile', 0, 0, await deflated(profile)));

/** A PNG file made by hand, with chunks between IHDR and IDAT. */
export async function pngOf(pixels: ImageData, ...chunks: Uint8Array[]): Promise<Blob> {
  const parts = [PNG_SIGNATURE, ihdr(pixels.width, pixels.height), ...chunks];
  const data = chunk('IDAT', await zipped(pixels));
  return new Blob([bytes(...parts, data, chunk('IEND'))], { type: 'image/png' });
}

/** A paste. Firefox gives an event that a script makes an empty clipboard of its own, so the one that is meant is laid over it. */
export function pasteOf(clipboardData: DataTransfer): ClipboardEvent {
  const event = new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true });
  if (event.clipboardData?.types.length !== clipboardData.types.length)
    Object.defineProperty(event, 'clipboardData', { value: clipboardData });
  return event;
}

/**
 * The part VP8L of a lossless WebP of one colour (RFC 9649, 3): no transform, no cache, and for green, red, blue, alpha and distance a code of one
 * symbol (3.7.2.1.1), so that no bit follows for any pixel. Written by hand, since WebKit encodes no WebP.
 */
export function webpOf(width: number, height: number, colour: number[]): Uint8Array {
  const bits: number[] = [];
  const add = (value: number, count: number): void => {
    for (let k = 0; k < count; k++) bits.push((value >> k) & 1);
  };
  add(width - 1, 14);
  add(height - 1, 14);
  add(1, 1); // alpha is used
  add(0, 3); // the version
  add(0, 3); // no transform, no cache, one group of codes
  const [red, green, blue, alpha] = colour;
  for (const symbol of [green, red, blue, alpha]) {
    add(0b101, 3); // a simple code, of one symbol, of eight bits
    add(symbol, 8);
  }
  add(0b0001, 4); // the same, of one bit: 0
  const packed = Array.from({ length: Math.ceil(bits.length / 8) }, (_, at) =>
    bits.slice(8 * at, 8 * at + 8).reduce((byte, bit, k) => byte | (bit << k), 0),
  );
  const body = bytes(0x2f, packed);
  return bytes('VP8L', le32(body.length), body, body.length % 2 ? [0] : []);
}
