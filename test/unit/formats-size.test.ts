/** Pictures and outlines at true size: pHYs of PNG, outlines as SVG in mm. */
import { crc32 } from 'node:zlib';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { outlinesOf, outlinesSvg, withoutLocation, withPixelsPerMetre } from '../../core/entry.js';
import { massesOfLabels } from './masses-helper.js';

/** A picture that pngjs has written. */
function picture(): Uint8Array {
  const png = new PNG({ width: 5, height: 3 });
  png.data.forEach((_, i) => (png.data[i] = (37 * i) % 256));
  return new Uint8Array(PNG.sync.write(png));
}

interface Chunk {
  type: string;
  data: Buffer;
}
/** Chunks as the PNG specification lays them out (3rd edition, 5.3), each with its CRC proved by zlib. */
function chunksOf(png: Uint8Array): Chunk[] {
  const file = Buffer.from(png);
  expect(file.subarray(0, 8).toString('latin1')).toBe('\x89PNG\r\n\x1a\n');
  const chunks: Chunk[] = [];
  for (let at = 8; at < file.length;) {
    const length = file.readUInt32BE(at);
    const body = file.subarray(at + 4, at + 8 + length);
    expect(file.readUInt32BE(at + 8 + length)).toBe(crc32(body));
    chunks.push({ type: body.toString('latin1', 0, 4), data: body.subarray(4) });
    at += 12 + length;
  }
  return chunks;
}
const typesOf = (png: Uint8Array): string[] => chunksOf(png).map(({ type }) => type);
const sizesOf = (png: Uint8Array): number[][] =>
  chunksOf(png)
    .filter(({ type }) => type === 'pHYs')
    .map(({ data }) => [
      data.readUInt32BE(0),
      data.readUInt32BE(4),
      data.readUInt8(8),
      data.length,
    ]);

describe('a PNG that tells its size', () => {
  it('bears one pHYs of nine bytes before its pixels, and is else the same', () => {
    const plain = picture();
    const before = plain.slice();
    const sized = withPixelsPerMetre(plain, 2835.4, 2834.6);
    expect(plain).toEqual(before);
    // PNG 3rd edition, 11.3.4.3: four bytes each way, then 1 for the metre.
    expect(sizesOf(sized)).toEqual([[2835, 2835, 1, 9]]);
    const types = typesOf(sized);
    expect(types.indexOf('pHYs')).toBeLessThan(types.indexOf('IDAT'));
    expect(types.filter((type) => type !== 'pHYs')).toEqual(typesOf(plain));
    expect(PNG.sync.read(Buffer.from(sized)).data).toEqual(PNG.sync.read(Buffer.from(plain)).data);
  });

  it('tells the last size it was given, both ways', () => {
    const twice = withPixelsPerMetre(withPixelsPerMetre(picture(), 1000), 4000, 3000);
    expect(sizesOf(twice)).toEqual([[4000, 3000, 1, 9]]);
  });

  it('keeps it when location is taken out', () => {
    const stripped = withoutLocation(withPixelsPerMetre(picture(), 5906))!;
    expect(sizesOf(stripped.bytes)).toEqual([[5906, 5906, 1, 9]]);
    expect(stripped.removed).toEqual([]);
  });

  it('is made of a whole PNG and of numbers alone', () => {
    const png = picture();
    expect(() => withPixelsPerMetre([] as never, 1)).toThrow(TypeError);
    expect(() => withPixelsPerMetre(png.subarray(1), 1)).toThrow(RangeError);
    expect(() => withPixelsPerMetre(png.subarray(0, png.length - 1), 1)).toThrow(RangeError);
    expect(() => withPixelsPerMetre(new Uint8Array(), 1)).toThrow(RangeError);
    for (const wrong of [0, -1, NaN, Infinity, 2 ** 31])
      expect(() => withPixelsPerMetre(png, wrong)).toThrow(RangeError);
    expect(() => withPixelsPerMetre(png, '7' as never)).toThrow(TypeError);
    expect(sizesOf(withPixelsPerMetre(png, 0.2))).toEqual([[1, 1, 1, 9]]);
  });
});

describe('outlines as SVG in mm', () => {
  // Two masses with an island, 12 x 8 pixels; on paper 240 mm wide a pixel is 20 mm.
  const rows = [
    '000000111111',
    '000000111111',
    '002200111111',
    '002200111111',
    '002200111111',
    '000000111111',
    '000000111111',
    '000000111111',
  ];
  const labels = rows.flatMap((row) => [...row].map(Number));
  const masses = massesOfLabels(labels, 12, 8, (label) => label);
  const outlines = outlinesOf(masses, { tolerancePx: 0 });
  const svg = outlinesSvg(masses, outlines, {
    widthMm: 240,
    title: 'Boats <1>',
    bands: ['dark', 'middle', 'light'],
    names: ['shore', undefined, 'sail'],
    fills: ['#222', '#888', 'none'],
  });
  const pathOf = (id: string): string => new RegExp(`id="${id}" d="([^"]*)"`).exec(svg)![1];
  const points = (d: string): string[] =>
    [...d.matchAll(/-?[\d.]+ -?[\d.]+/g)].map(([pair]) => pair);

  it('are as wide as the paper, one unit a mm', () => {
    expect(svg).toMatch(
      /^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" width="240mm" height="160mm" viewBox="0 0 240 160">/,
    );
  });

  it('are a path a mass in a group a band, with names as titles', () => {
    expect([...svg.matchAll(/<path id="([^"]+)"/g)].map(([, id]) => id)).toEqual([
      'mass-0',
      'mass-1',
      'mass-2',
    ]);
    expect(
      [...svg.matchAll(/<g id="([^"]+)" fill="([^"]+)"><title>(\w+)/g)].map((m) => m.slice(1)),
    ).toEqual([
      ['band-0', '#222', 'dark'],
      ['band-1', '#888', 'middle'],
      ['band-2', 'none', 'light'],
    ]);
    expect(svg).toContain('<title>Boats &#60;1&#62;</title>');
    expect(svg).toContain('<title>shore</title>');
    expect(svg.match(/<title>/g)).toHaveLength(1 + 3 + 2);
  });

  it('lie where the masses lie, and neighbours share the points of their border', () => {
    expect(new Set(points(pathOf('mass-1')))).toEqual(
      new Set(['120 0', '240 0', '240 160', '120 160']),
    );
    const shore = points(pathOf('mass-0'));
    const sail = points(pathOf('mass-2'));
    expect(new Set(sail)).toEqual(new Set(['40 40', '80 40', '80 100', '40 100']));
    for (const point of sail) expect(shore).toContain(point);
    expect(pathOf('mass-0').match(/Z/g)).toHaveLength(2);
  });

  it('have no lines where none are wanted, and need a width', () => {
    expect(outlinesSvg(masses, outlines, { widthMm: 100, strokeMm: 0 })).toContain('stroke="none"');
    expect(outlinesSvg(masses, outlines, { widthMm: 100, strokeMm: 0.35 })).toContain(
      'stroke-width="0.35"',
    );
    for (const widthMm of [0, -1, NaN, Infinity])
      expect(() => outlinesSvg(masses, outlines, { widthMm })).toThrow(/options\.widthMm/);
    expect(() => outlinesSvg(masses, outlines, {} as never)).toThrow(TypeError);
    expect(() => outlinesSvg(masses, 'x' as never, { widthMm: 1 })).toThrow(/outlines/);
  });
});
