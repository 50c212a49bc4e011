import { converter } from 'culori';
import { describe, expect, it } from 'vitest';
import { readingOf, trustedPlane, type TrustedSpot } from '../../core/picture/index.js';
import type { Lightness, Pixels } from '../../core/base/types.js';

const lab65 = converter('lab65');
type Rgba = [number, number, number, number?];

function pictureOf(width: number, height: number, pixel: (x: number, y: number) => Rgba): Pixels {
  const data = new Uint8ClampedArray(4 * width * height);
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i += 4) {
      const [r, g, b, a = 255] = pixel(x, y);
      data.set([r, g, b, a], i);
    }
  }
  return { width, height, data };
}

describe('readingOf', () => {
  it('reads a flat colour as lab65 of culori has it', () => {
    for (const [r, g, b] of [
      [200, 40, 30],
      [12, 90, 160],
      [255, 255, 255],
      [0, 0, 0],
      [119, 119, 119],
    ]) {
      const reading = readingOf(
        pictureOf(20, 20, () => [r, g, b]),
        { x: 10, y: 10, radius: 6 },
      );
      const expected = lab65({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 });
      expect(reading.lab[0]).toBeCloseTo(expected.l, 9);
      expect(reading.lab[1]).toBeCloseTo(expected.a, 9);
      expect(reading.lab[2]).toBeCloseTo(expected.b, 9);
      expect(reading.lightness).toBe(reading.lab[0]);
      expect(reading.spread).toBe(0);
      expect(reading.low).toBe(reading.high);
      expect(Math.abs(reading.low - expected.l)).toBeLessThanOrEqual(0.5 / 2.55 + 1e-9);
      expect(reading.css).toBe(
        '#' + [r, g, b].map((v) => v.toString(16).padStart(2, '0')).join(''),
      );
    }
  });

  it('averages light and counts the spread of lightness', () => {
    const board = pictureOf(40, 40, (x, y) => ((x + y) % 2 ? [255, 255, 255] : [0, 0, 0]));
    // The pixels within sqrt(2) of a corner where four meet: those four (and no others: the next centres are sqrt(2.5) away).
    const reading = readingOf(board, { x: 20, y: 20, radius: Math.SQRT2 });
    expect(reading.count).toBe(4);
    // Half the light: CIE 15 gives L* = 116 cbrt(0.5) - 16 = 76.07; sRGB 188.
    expect(reading.lightness).toBeCloseTo(116 * Math.cbrt(0.5) - 16, 9);
    expect(reading.css).toBe('#bcbcbc');
    // Two at 0 and two at 100: standard deviation 50.
    expect(reading.spread).toBeCloseTo(50, 9);
    expect(reading.low).toBe(0);
    expect(reading.high).toBe(100);
    expect(reading.clippedDark).toBe(0.5);
    expect(reading.clippedLight).toBe(0.5);
  });

  it('counts clipped pixels by any channel in the lights and all channels in the darks', () => {
    const rows: Rgba[] = [
      [254, 10, 10],
      [253, 253, 253],
      [2, 2, 2],
      [3, 0, 0],
      [0, 0, 255],
      [0, 0, 0, 0],
    ];
    const strip = pictureOf(6, 1, (x) => rows[x]);
    const at = (x: number): [number, number] => {
      const { clippedLight, clippedDark } = readingOf(strip, { x: x + 0.5, y: 0.5, radius: 0 });
      return [clippedLight, clippedDark];
    };
    expect([0, 1, 2, 3, 4, 5].map(at)).toEqual([
      [1, 0],
      [0, 0],
      [0, 1],
      [0, 0],
      [1, 0],
      [0, 0],
    ]);
  });

  it('takes the 5 and 95 % points', () => {
    // Greys 0..99 in a row of a hundred; the hole holds all. At least 5 of 100 pixels are at or below grey 4, 95 at or below grey 94.
    const ramp = pictureOf(100, 1, (x) => [x, x, x]);
    const { low, high, count } = readingOf(ramp, { x: 50, y: 0.5, radius: 60 });
    const lightness = (v: number): number =>
      lab65({ mode: 'rgb', r: v / 255, g: v / 255, b: v / 255 }).l;
    expect(count).toBe(100);
    expect(Math.abs(low - lightness(4))).toBeLessThanOrEqual(0.2);
    expect(Math.abs(high - lightness(94))).toBeLessThanOrEqual(0.2);
  });

  it('holds the pixel under its middle always, up to the far corner', () => {
    const picture = pictureOf(5, 4, (x, y) => [10 * x, 20 * y, 7]);
    expect(readingOf(picture, { x: 2.1, y: 1.9, radius: 0 })).toMatchObject({
      count: 1,
      css: '#141407',
    });
    expect(readingOf(picture, { x: 5, y: 4, radius: 0 })).toMatchObject({
      count: 1,
      css: '#283c07',
    });
    expect(readingOf(picture, { x: 0, y: 0, radius: 0.2 })).toMatchObject({
      count: 1,
      css: '#000007',
    });
    expect(readingOf(picture, { x: 2, y: 2, radius: 100 }).count).toBe(20);
  });

  it('lays alpha over white in linear light', () => {
    const half = readingOf(
      pictureOf(1, 1, () => [0, 0, 0, 128]),
      { x: 0.5, y: 0.5, radius: 0 },
    );
    expect(half.lightness).toBeCloseTo(116 * Math.cbrt(127 / 255) - 16, 9);
  });

  it('refuses a hole outside and names a wrong argument', () => {
    const picture = pictureOf(5, 4, () => [1, 2, 3]);
    expect(() => readingOf(picture, { x: -0.1, y: 1, radius: 1 })).toThrow(/^hole\.x is -0\.1/);
    expect(() => readingOf(picture, { x: 1, y: 4.5, radius: 1 })).toThrow(RangeError);
    expect(() => readingOf(picture, { x: 1, y: 1, radius: -1 })).toThrow(/^hole\.radius/);
    expect(() => readingOf(picture, { x: '1' as unknown as number, y: 1, radius: 1 })).toThrow(
      TypeError,
    );
    expect(() =>
      readingOf({ ...picture, colorSpace: 'display-p3' }, { x: 1, y: 1, radius: 1 }),
    ).toThrow(RangeError);
  });
});

describe('trustedPlane', () => {
  const flat = (
    width: number,
    height: number,
    code: (x: number, y: number) => number,
  ): Lightness => ({
    width,
    height,
    data: Uint8Array.from({ length: width * height }, (_, i) =>
      code(i % width, Math.floor(i / width)),
    ),
  });

  it("shifts a disc so that its median is the painter's lightness, and keeps its modelling", () => {
    const plane = flat(20, 20, (x) => 40 + 3 * x);
    const before = plane.data.slice();
    const { data } = trustedPlane(plane, [{ x: 10.5, y: 10.5, radius: 4, lightness: 60 }]);
    // The disc is symmetric about column 10, whose code 70 is its median; L* 60 is code 153: everything moves by 83.
    for (let y = 0; y < 20; y++) {
      for (let x = 0; x < 20; x++) {
        const inside = (x - 10) ** 2 + (y - 10) ** 2 <= 16;
        expect(data[20 * y + x]).toBe(40 + 3 * x + (inside ? 83 : 0));
      }
    }
    expect(plane.data).toEqual(before);
  });

  it('keeps codes within 0..255', () => {
    const plane = flat(9, 1, (x) => [0, 0, 120, 120, 120, 120, 120, 250, 255][x]);
    const spot = (lightness: number): TrustedSpot[] => [{ x: 4.5, y: 0.5, radius: 9, lightness }];
    expect([...trustedPlane(plane, spot(100)).data]).toEqual([
      135, 135, 255, 255, 255, 255, 255, 255, 255,
    ]);
    expect([...trustedPlane(plane, spot(0)).data]).toEqual([0, 0, 0, 0, 0, 0, 0, 130, 135]);
  });

  it('lets the later of two spots stand where they overlap, and ignores spots outside', () => {
    const plane = flat(30, 30, () => 100);
    const first = { x: 10, y: 15, radius: 6, lightness: 20 };
    const later = { x: 16, y: 15, radius: 6, lightness: 80 };
    const { data } = trustedPlane(plane, [first, later, { x: -40, y: 3, radius: 5, lightness: 0 }]);
    expect(data[15 * 30 + 13]).toBe(204);
    expect(data[15 * 30 + 8]).toBe(51);
    expect(data[0]).toBe(100);
    expect(trustedPlane(plane, [later, first]).data[15 * 30 + 13]).toBe(51);
    expect([...trustedPlane(plane, []).data]).toEqual([...plane.data]);
    expect(trustedPlane(plane, []).data).not.toBe(plane.data);
  });

  it('names a wrong argument', () => {
    const plane = flat(3, 3, () => 0);
    expect(() => trustedPlane(plane, 3 as unknown as TrustedSpot[])).toThrow(/^spots is 3/);
    expect(() => trustedPlane(plane, [{ x: 1, y: 1, radius: 1, lightness: 101 }])).toThrow(
      /^spots\[0\]\.lightness is 101/,
    );
    expect(() => trustedPlane({ ...plane, width: 4 }, [])).toThrow(RangeError);
  });
});
