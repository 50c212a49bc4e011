import {
  BridgeError,
  LAYER_KINDS,
  TAKINGS,
  type Layer,
  type Limits,
  type OfferedPicture,
  type PanelProgress,
  type PictureAsked,
  type PixelBuffer,
  type Rect,
  type Selection,
  type SpotReading,
  type Swatches,
  type Taking,
} from './protocol.js';
import { isPlainSvg } from './svg.js';

/**
 * Reads a value of unknown form: gives a copy that has the form and nothing else, or throws a `BridgeError` that names the place.
 * Only own properties are looked at, so nothing that lies in a prototype counts.
 */
export type Reader<T> = (value: unknown, at: string, limits: Limits) => T;

type Shape = Record<string, Reader<unknown>>;
type Shaped<S extends Shape> = { [K in keyof S]: ReturnType<S[K]> };

const malformed = (at: string, expected: string): BridgeError =>
  new BridgeError('Malformed', `${at}: expected ${expected}`);

const tooLarge = (at: string, found: number, most: number, unit: string): BridgeError =>
  new BridgeError('TooLarge', `${at} has ${found} ${unit}, at most ${most} are taken`);

/** The own property of an object; `undefined` of anything else. */
export function own(of: unknown, name: string): unknown {
  return typeof of === 'object' && of !== null && Object.hasOwn(of, name)
    ? (of as Record<string, unknown>)[name]
    : undefined;
}

const figure =
  (least: number, most: number, whole = false): Reader<number> =>
  (value, at) => {
    const fits = typeof value === 'number' && value >= least && value <= most;
    if (!fits || (whole && !Number.isInteger(value)))
      throw malformed(at, `${whole ? 'a whole' : 'a'} number ${least} to ${most}`);
    return value;
  };

const text =
  (most: number, pattern?: RegExp): Reader<string> =>
  (value, at) => {
    if (typeof value !== 'string' || value.length > most || pattern?.test(value) === false)
      throw malformed(at, pattern ? `a text like ${pattern}` : `a text of at most ${most} letters`);
    return value;
  };

const oneOf =
  <T extends string>(...all: readonly T[]): Reader<T> =>
  (value, at) => {
    if (!all.includes(value as T)) throw malformed(at, all.join(' or '));
    return value as T;
  };

const list =
  <T>(read: Reader<T>, most: number, least = 0): Reader<T[]> =>
  (value, at, limits) => {
    if (!Array.isArray(value) || value.length > most || value.length < least)
      throw malformed(at, `a list of ${least} to ${most}`);
    return Array.from(value as unknown[], (each, i) => read(each, `${at}[${i}]`, limits));
  };

const optional =
  <T>(read: Reader<T>): Reader<T | undefined> =>
  (value, at, limits) =>
    value === undefined ? undefined : read(value, at, limits);

const record =
  <S extends Shape>(shape: S): Reader<Shaped<S>> =>
  (value, at, limits) => {
    if (typeof value !== 'object' || value === null) throw malformed(at, 'an object');
    const read = Object.entries(shape).map(([name, reader]) => [
      name,
      reader(own(value, name), `${at}.${name}`, limits),
    ]);
    return Object.fromEntries(read.filter(([, part]) => part !== undefined)) as Shaped<S>;
  };

const yes: Reader<boolean> = (value, at) => {
  if (typeof value !== 'boolean') throw malformed(at, 'true or false');
  return value;
};

/** The farthest that a place may lie from the host's origin, and the least size of anything. */
const FAR = 1e7;
const LEAST = 1e-6;
/** Numbers in the rings of a selection. */
const RING_NUMBERS = 20_000;
const SIDE = 65_535;

const place = figure(-FAR, FAR);
const length = figure(LEAST, FAR);
const lightness = figure(0, 100);
const name = text(200);
const colour = text(7, /^#[\da-f]{6}$/i);
const rect: Reader<Rect> = record({ x: place, y: place, width: length, height: length });
const size = record({ widthMm: figure(LEAST, 1e5), heightMm: figure(LEAST, 1e5) });

const selection: Reader<Selection> = (value, at, limits) => {
  const rings = list(list(place, RING_NUMBERS, 6), 1000, 1);
  const read = record({ bounds: rect, rings: optional(rings) })(value, at, limits);
  const counts = (read.rings ?? []).map((ring) => ring.length);
  if (counts.some((count) => count % 2) || counts.reduce((a, b) => a + b, 0) > RING_NUMBERS)
    throw malformed(`${at}.rings`, `pairs, at most ${RING_NUMBERS} numbers`);
  return read;
};

function expectPixels(at: string, width: number, height: number, { pixels }: Limits): void {
  if (!(width > 0 && height > 0)) throw malformed(at, 'at least one pixel');
  if (width * height > pixels) throw tooLarge(at, width * height, pixels, 'pixels');
}

function expectBytes(at: string, found: number, { bytes }: Limits): void {
  if (found === 0) throw malformed(at, 'at least one byte');
  if (found > bytes) throw tooLarge(at, found, bytes, 'bytes');
}

const isBuffer = (value: unknown): value is ArrayBuffer => value instanceof ArrayBuffer;

const pixelBuffer: Reader<PixelBuffer> = (value, at, limits) => {
  const side = figure(1, SIDE, true);
  const { width, height } = record({ width: side, height: side })(value, at, limits);
  expectPixels(at, width, height, limits);
  const data = own(value, 'data');
  if (!isBuffer(data) || data.byteLength !== 4 * width * height)
    throw malformed(`${at}.data`, `a buffer of ${4 * width * height} bytes`);
  return { width, height, data };
};

const image: Reader<OfferedPicture['image']> = (value, at, limits) => {
  if (value instanceof Blob) {
    expectBytes(at, value.size, limits);
    return value;
  }
  if (typeof ImageBitmap !== 'undefined' && value instanceof ImageBitmap) {
    expectPixels(at, value.width, value.height, limits);
    return value;
  }
  return pixelBuffer(value, at, limits);
};

/** Width and height in the head of a PNG file (PNG, third edition, 5.2 and 11.2.1). */
function pngSize(data: ArrayBuffer): [width: number, height: number] | undefined {
  if (data.byteLength < 57) return undefined; // a head, one piece of pixels, an end
  const view = new DataView(data);
  const head = [0x89504e47, 0x0d0a1a0a, 13, 0x49484452]; // signature, length and name of IHDR
  return head.every((word, i) => view.getUint32(4 * i) === word)
    ? [view.getUint32(16), view.getUint32(20)]
    : undefined;
}

const layer: Reader<Layer> = (value, at, limits) => {
  const read = record({
    kind: oneOf(...LAYER_KINDS),
    name,
    form: oneOf('png', 'svg'),
    place: rect,
    size: optional(size),
    revision: optional(name),
  })(value, at, limits);
  const data = own(value, 'data');
  if (read.form === 'svg') {
    if (typeof data !== 'string') throw malformed(`${at}.data`, 'a text');
    expectBytes(at, data.length, limits);
    if (!isPlainSvg(data)) throw malformed(`${at}.data`, 'an SVG of shapes alone');
    return { ...read, data };
  }
  const found = isBuffer(data) ? pngSize(data) : undefined;
  if (!isBuffer(data) || !found) throw malformed(`${at}.data`, 'the bytes of a PNG file');
  expectBytes(at, data.byteLength, limits);
  expectPixels(at, ...found, limits);
  return { ...read, data };
};

const bytesOf = ({ data }: Layer): number =>
  typeof data === 'string' ? data.length : data.byteLength;

export const readLayers: Reader<Layer[]> = (value, at, limits) => {
  const read = list(layer, 32, 1)(value, at, limits);
  const sum = read.reduce((total, each) => total + bytesOf(each), 0);
  expectBytes(at, sum, limits);
  return read;
};

export const readAsked: Reader<PictureAsked> = record({ part: oneOf('all', 'selection') });

export const readPicture: Reader<OfferedPicture> = record({
  image,
  area: rect,
  selection: optional(selection),
  name: optional(name),
  revision: optional(name),
  size: optional(size),
});

const lab: Reader<SpotReading['lab']> = (value, at, limits) => {
  const part = figure(-200, 200);
  return list(part, 3, 3)(value, at, limits) as SpotReading['lab'];
};

const at: Reader<SpotReading['at']> = (value, where, limits) =>
  list(place, 2, 2)(value, where, limits) as SpotReading['at'];

export const readReadings: Reader<SpotReading[]> = list(
  record({
    at,
    diameter: length,
    lightness,
    value: figure(0, 10),
    band: name,
    lab,
    css: colour,
    lean: optional(name),
  }),
  1000,
  1,
);

export const readSwatches: Reader<Swatches> = (value, where, limits) => {
  const band = record({ name, floor: lightness, ceiling: lightness });
  const tokens = text(limits.bytes);
  const { bands, ...rest } = record({ bands: list(band, 16, 1), tokens: optional(tokens) })(
    value,
    where,
    limits,
  );
  const swatch = record({
    name,
    band: figure(0, bands.length - 1, true),
    lightness,
    css: colour,
    wet: optional(yes),
    accent: optional(yes),
  });
  return { bands, ...rest, ...record({ swatches: list(swatch, 1000) })(value, where, limits) };
};

export const readProgress: Reader<PanelProgress> = record({ stage: name, done: figure(0, 1) });

/** Nothing is expected; whatever stands there is left alone. */
export const readNothing: Reader<void> = () => undefined;

export const readId: Reader<number> = figure(0, Number.MAX_SAFE_INTEGER, true);

/** How a side introduces itself. */
export interface Hello {
  side: 'host' | 'panel';
  versions: readonly number[];
  name: string;
  limits: Limits;
  takes: readonly Taking[];
}

const most = figure(1, Number.MAX_SAFE_INTEGER, true);

export const readHello: Reader<Hello> = record({
  side: oneOf('host', 'panel'),
  versions: list(figure(1, 1e6, true), 100, 1),
  name,
  limits: record({ pixels: most, bytes: most }),
  takes: list(oneOf(...TAKINGS), 3),
});

const errorFacts = record({ name: text(40, /^[A-Z]\w*$/), message: text(2000) });

export const readError: Reader<BridgeError> = (value, where, limits) => {
  const { name: named, message } = errorFacts(value, where, limits);
  return new BridgeError(named, message);
};
