import { describe, expect, it } from 'vitest';
import { finish } from '../../core/base/kernel.js';
import {
  cropPixels,
  fitWithin,
  lightnessPlane,
  reduceKernel,
  type Reduced,
  type RowSource,
} from '../../core/picture/index.js';
import type { Crop } from '../../core/base/types.js';

/** IEC 61966-2-1. */
const decode = (code: number): number => {
  const v = code / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
};
const encode = (light: number): number => {
  const v = light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;
  return Math.floor(255 * v + 0.5);
};
/** CIE 15. */
const codeOfY = (y: number): number => {
  const lightness = y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * y;
  return Math.floor(2.55 * lightness + 0.5);
};

type Rgba = [number, number, number, number];

/** A picture from a function of the pixel; keeps a list of the rows asked for. */
function pictureOf(
  width: number,
  height: number,
  pixel: (x: number, y: number) => Rgba,
): RowSource & { asked: [number, number][] } {
  const asked: [number, number][] = [];
  return {
    width,
    height,
    asked,
    rows(y0, y1) {
      asked.push([y0, y1]);
      const data = new Uint8ClampedArray(4 * width * (y1 - y0));
      for (let y = y0, i = 0; y < y1; y++)
        for (let x = 0; x < width; x++, i += 4) data.set(pixel(x, y), i);
      return data;
    },
  };
}

const reduce = (source: RowSource, width: number, height: number, crop?: Crop): Reduced =>
  finish(reduceKernel(source, { width, height }, crop));

const hashed = (x: number, y: number): Rgba => {
  const h = Math.imul(x * 374761393 + y * 668265263, 1274126177) >>> 0;
  return [h & 255, (h >> 8) & 255, (h >> 16) & 255, 255];
};

/** The definition itself: mean of linear light over the rectangle that a result pixel covers, by overlap of areas. */
function meanOver(
  source: RowSource,
  left: number,
  top: number,
  right: number,
  bottom: number,
): [number, number, number] {
  const sum: [number, number, number] = [0, 0, 0];
  for (let y = Math.floor(top); y < Math.min(source.height, Math.ceil(bottom)); y++) {
    const row = source.rows(y, y + 1);
    for (let x = Math.floor(left); x < Math.min(source.width, Math.ceil(right)); x++) {
      const part =
        Math.max(0, Math.min(right, x + 1) - Math.max(left, x)) *
        Math.max(0, Math.min(bottom, y + 1) - Math.max(top, y));
      const alpha = row[4 * x + 3] / 255;
      for (let c = 0; c < 3; c++) sum[c] += part * (alpha * decode(row[4 * x + c]) + 1 - alpha);
    }
  }
  const area = (right - left) * (bottom - top);
  return [sum[0] / area, sum[1] / area, sum[2] / area];
}

describe('fitWithin', () => {
  it('keeps what fits, and the proportion of what does not', () => {
    expect(fitWithin(2000, 1500, 4e6)).toEqual({ width: 2000, height: 1500 });
    expect(fitWithin(8000, 6000, 3e6)).toEqual({ width: 2000, height: 1500 });
    for (const [w, h, most] of [
      [6000, 4000, 4e6],
      [4032, 3024, 4e6],
      [7, 9, 10],
      [3, 3, 8],
      [8688, 5792, 1e6],
    ]) {
      const { width, height } = fitWithin(w, h, most);
      expect(width * height).toBeLessThanOrEqual(most);
      expect(width).toBeGreaterThan(0.98 * Math.sqrt((most * w) / h) - 1);
      expect(Math.abs(width - (height * w) / h)).toBeLessThanOrEqual(1 + w / h);
    }
  });

  it('leaves at least a pixel each way', () => {
    expect(fitWithin(1, 1, 1)).toEqual({ width: 1, height: 1 });
    expect(fitWithin(20000, 1, 100)).toEqual({ width: 100, height: 1 });
    expect(fitWithin(1, 20000, 100)).toEqual({ width: 1, height: 100 });
    expect(fitWithin(20000, 10, 1)).toEqual({ width: 1, height: 1 });
    expect(() => fitWithin(0, 4, 10)).toThrow(/^width is 0/);
    expect(() => fitWithin(4, 4, 0)).toThrow(/^maxPixels is 0/);
  });
});

describe('cropPixels', () => {
  it('takes borders to the nearest pixel, at least one pixel, never over the border', () => {
    expect(cropPixels(100, 50)).toEqual({ x: 0, y: 0, width: 100, height: 50 });
    expect(cropPixels(30, 10, { x: 0.1, y: 0.2, width: 0.2, height: 0.3 })).toEqual({
      x: 3,
      y: 2,
      width: 6,
      height: 3,
    });
    expect(cropPixels(10, 10, { x: 1, y: 0.999, width: 0, height: 0 })).toEqual({
      x: 9,
      y: 9,
      width: 1,
      height: 1,
    });
    expect(cropPixels(10, 10, { x: 0.7, y: 0.1, width: 0.3, height: 0.9 })).toEqual({
      x: 7,
      y: 1,
      width: 3,
      height: 9,
    });
    expect(() => cropPixels(10, 10, { x: 0.5, y: 0, width: 0.6, height: 1 })).toThrow(
      /^crop\.width is 0\.6/,
    );
    expect(() => cropPixels(10, 10, { x: -0.1, y: 0, width: 0.6, height: 1 })).toThrow(/^crop\.x/);
    expect(() => cropPixels(10, 10, 4 as unknown as Crop)).toThrow(TypeError);
  });
});

describe('reduceKernel', () => {
  it('averages light, not sRGB bytes: a checkerboard of black and white becomes half the light', () => {
    const board = pictureOf(8, 8, (x, y) => ((x + y) % 2 ? [255, 255, 255, 255] : [0, 0, 0, 255]));
    const { pixels, plane } = reduce(board, 4, 4);
    // Half the light: sRGB 188 (0.5 -> 0.7354), L* 76.07, code 194. The mean of the bytes would be 128.
    expect([...new Set(pixels.data)].sort()).toEqual([188, 255]);
    expect([...new Set(plane.data)]).toEqual([194]);
  });

  it('counts pixels covered in part by their part', () => {
    // Three columns onto two: each result has one whole column and half of the middle one.
    const source = pictureOf(3, 1, (x) => (x === 1 ? [255, 0, 255, 255] : [0, 0, 0, 255]));
    const { pixels } = reduce(source, 2, 1);
    const third = encode(1 / 3);
    expect([...pixels.data]).toEqual([third, 0, third, 255, third, 0, third, 255]);
    expect(third).toBe(156);
  });

  it('is the area average by its definition, at any ratio, both bytes and lightness', () => {
    for (const [w, h, tw, th] of [
      [37, 23, 11, 7],
      [40, 30, 20, 15],
      [19, 17, 18, 16],
      [50, 3, 1, 1],
      [9, 40, 9, 13],
      [31, 8, 12, 8],
    ]) {
      const source = pictureOf(w, h, hashed);
      const { pixels, plane } = reduce(source, tw, th);
      for (let y = 0; y < th; y++) {
        for (let x = 0; x < tw; x++) {
          const light = meanOver(
            source,
            (x * w) / tw,
            (y * h) / th,
            ((x + 1) * w) / tw,
            ((y + 1) * h) / th,
          );
          const i = y * tw + x;
          expect([...pixels.data.slice(4 * i, 4 * i + 4)]).toEqual([...light.map(encode), 255]);
          expect(plane.data[i]).toBe(
            codeOfY(
              0.2126390058715103 * light[0] +
                0.7151686787677559 * light[1] +
                0.07219231536073371 * light[2],
            ),
          );
        }
      }
    }
  });

  it('lays alpha over white in linear light before it averages', () => {
    const source = pictureOf(30, 20, (x, y) => [
      hashed(x, y)[0],
      40,
      hashed(y, x)[2],
      (x * 9 + y * 31) & 255,
    ]);
    const { pixels } = reduce(source, 7, 9);
    for (let y = 0; y < 9; y++) {
      for (let x = 0; x < 7; x++) {
        const light = meanOver(
          source,
          (x * 30) / 7,
          (y * 20) / 9,
          ((x + 1) * 30) / 7,
          ((y + 1) * 20) / 9,
        );
        expect([...pixels.data.slice(4 * (7 * y + x), 4 * (7 * y + x) + 4)]).toEqual([
          ...light.map(encode),
          255,
        ]);
      }
    }
  });

  it('keeps the mean of the light', () => {
    const source = pictureOf(611, 407, (x, y) => [
      (x * y) & 255,
      hashed(x, y)[1],
      (x + y) & 255,
      255,
    ]);
    const mean = (data: ArrayLike<number>, c: number): number => {
      let sum = 0;
      for (let i = c; i < data.length; i += 4) sum += decode(data[i]);
      return sum / (data.length / 4);
    };
    const all = source.rows(0, 407);
    const { pixels } = reduce(source, 250, 166);
    // A byte's rounding moves a pixel's light by up to 0.0045 (half a code at the light end), at random: the mean of 41 500 by less than 1e-4.
    for (let c = 0; c < 3; c++)
      expect(Math.abs(mean(pixels.data, c) - mean(all, c))).toBeLessThan(1e-4);
  });

  it('gives the source back where nothing shrinks, and never enlarges', () => {
    const source = pictureOf(33, 21, hashed);
    const all = source.rows(0, 21);
    for (const [tw, th] of [
      [33, 21],
      [400, 300],
    ]) {
      const { pixels, plane } = reduce(source, tw, th);
      expect(pixels).toMatchObject({ width: 33, height: 21, colorSpace: 'srgb' });
      expect(Buffer.from(pixels.data).equals(Buffer.from(all))).toBe(true);
      expect(
        Buffer.from(plane.data).equals(lightnessPlane({ width: 33, height: 21, data: all }).data),
      ).toBe(true);
    }
    expect(reduce(source, 400, 7).pixels).toMatchObject({ width: 33, height: 7 });
    const clear = reduce(
      pictureOf(2, 1, (x) => [0, 0, 0, x ? 128 : 0]),
      2,
      1,
    );
    expect([...clear.pixels.data]).toEqual([
      255,
      255,
      255,
      255,
      ...[0, 1, 2].map(() => encode(127 / 255)),
      255,
    ]);
    expect([...clear.plane.data]).toEqual([255, codeOfY(127 / 255)]);
  });

  it('keeps a flat colour exactly, at awkward ratios', () => {
    for (const [r, g, b] of [
      [3, 2, 1],
      [133, 40, 49],
      [168, 69, 130],
      [255, 255, 255],
      [0, 0, 0],
      [200, 100, 50],
    ]) {
      const source = pictureOf(97, 61, () => [r, g, b, 255]);
      const { pixels, plane } = reduce(source, 41, 19);
      const code = lightnessPlane({ width: 1, height: 1, data: Uint8Array.of(r, g, b, 255) })
        .data[0];
      expect(plane.data.every((v) => v === code)).toBe(true);
      expect(pixels.data.every((v, i) => v === [r, g, b, 255][i % 4])).toBe(true);
    }
  });

  it('takes only the crop, and asks for each of its rows once, from top to bottom', () => {
    const inside = (x: number, y: number): boolean => x >= 200 && x < 600 && y >= 500 && y < 1100;
    const source = pictureOf(1000, 2000, (x, y) =>
      inside(x, y) ? [10, 200, 90, 255] : [255, 0, 0, 255],
    );
    const crop = { x: 0.2, y: 0.25, width: 0.4, height: 0.3 };
    const { pixels } = reduce(source, 130, 190, crop);
    expect(pixels.data.every((v, i) => v === [10, 200, 90, 255][i % 4])).toBe(true);
    const rows = source.asked.flatMap(([a, b]) => Array.from({ length: b - a }, (_, i) => a + i));
    expect(rows).toEqual(Array.from({ length: 600 }, (_, i) => 500 + i));
    expect(source.asked.length).toBeGreaterThan(1);
    const same = reduce(source, 400, 600, crop);
    expect(same.pixels).toMatchObject({ width: 400, height: 600 });
    expect(same.pixels.data.every((v, i) => v === [10, 200, 90, 255][i % 4])).toBe(true);
  });

  it('takes strips and single pixels', () => {
    const strip = pictureOf(20000, 10, (x) => (x % 2 ? [255, 255, 255, 255] : [0, 0, 0, 255]));
    const { pixels, plane } = reduce(strip, 2000, 1);
    expect(pixels.width).toBe(2000);
    expect(plane.data.every((v) => v === 194)).toBe(true);
    expect(reduce(pictureOf(10, 20000, hashed), 1, 2000).plane.data).toHaveLength(2000);
    expect([
      ...reduce(
        pictureOf(1, 1, () => [9, 8, 7, 255]),
        1,
        1,
      ).pixels.data,
    ]).toEqual([9, 8, 7, 255]);
  });

  it('reads rows at any place in a buffer', () => {
    const plain = pictureOf(10, 6, hashed);
    const shifted: RowSource = {
      width: 10,
      height: 6,
      rows(y0, y1) {
        const rows = plain.rows(y0, y1);
        const data = new Uint8Array(rows.length + 3).subarray(3);
        data.set(rows);
        return data;
      },
    };
    expect(reduce(shifted, 4, 4)).toEqual(reduce(plain, 4, 4));
  });

  it('tells its progress and names a wrong argument', () => {
    const source = pictureOf(1500, 900, hashed);
    const told = [...reduceKernel(source, { width: 500, height: 300 })];
    expect(told.length).toBeGreaterThan(3);
    expect([...told].sort((a, b) => a - b)).toEqual(told);
    expect(told.at(-1)).toBe(1);
    expect(() =>
      reduceKernel({ ...source, rows: 4 } as unknown as RowSource, { width: 1, height: 1 }),
    ).toThrow(/^source\.rows is 4/);
    expect(() => reduceKernel({ ...source, width: 0 }, { width: 1, height: 1 })).toThrow(
      /^source\.width is 0/,
    );
    expect(() => reduceKernel(source, { width: 0, height: 1 })).toThrow(/^target\.width is 0/);
    expect(() => reduce({ ...source, rows: () => new Uint8Array(5) }, 5, 5)).toThrow(
      /^source\.rows\(\) is .*bytes/,
    );
    expect(() => reduce({ ...source, rows: () => [] as unknown as Uint8Array }, 5, 5)).toThrow(
      TypeError,
    );
  });
});
