import { converter } from 'culori';
import { describe, expect, it } from 'vitest';
import { finish } from '../../core/base/kernel.js';
import { lightnessKernel, lightnessPlane } from '../../core/picture/index.js';
import type { Pixels } from '../../core/base/types.js';

/** IEC 61966-2-1, threshold 0.04045, as printed. */
const linear = (code: number): number => {
  const v = code / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
};
const LINEAR = Array.from({ length: 256 }, (_, code) => linear(code));

/** CIE 15: L* of Y; the code is floor(2.55 L* + 0.5). */
const codeOfY = (y: number): number => {
  const lightness = y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * y;
  return Math.floor(2.55 * lightness + 0.5);
};
const codeOf = (r: number, g: number, b: number): number =>
  codeOfY(
    0.2126390058715103 * LINEAR[r] +
      0.7151686787677559 * LINEAR[g] +
      0.07219231536073371 * LINEAR[b],
  );

const lab65 = converter('lab65');
const culoriCode = (r: number, g: number, b: number): number =>
  Math.floor(2.55 * lab65({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 }).l + 0.5);

/** Opaque pixels of 256 x 256: green across, blue down, at one red. */
function sheetOf(red: number): Pixels {
  const data = new Uint8ClampedArray(4 * 65536);
  for (let i = 0; i < 65536; i++) data.set([red, i & 255, i >> 8, 255], 4 * i);
  return { width: 256, height: 256, data };
}

describe('lightnessPlane', () => {
  it('gives the code of the formula in double precision for each of the 2^24 colours', () => {
    const { data } = sheetOf(0);
    let wrong = 0;
    for (let red = 0; red < 256; red++) {
      for (let i = 0; i < data.length; i += 4) data[i] = red;
      const codes = lightnessPlane({ width: 256, height: 256, data }).data;
      for (let i = 0; i < 65536; i++) if (codes[i] !== codeOf(red, i & 255, i >> 8)) wrong++;
    }
    expect(wrong).toBe(0);
  }, 60_000);

  it('agrees with lab65 of culori on all greys and on 2 097 152 colours, every 2nd code of each channel', () => {
    const greys = new Uint8ClampedArray(4 * 256);
    for (let v = 0; v < 256; v++) greys.set([v, v, v, 255], 4 * v);
    const greyCodes = lightnessPlane({ width: 256, height: 1, data: greys }).data;
    for (let v = 0; v < 256; v++) expect(greyCodes[v]).toBe(culoriCode(v, v, v));
    let wrong = 0;
    let seen = 0;
    for (let red = 0; red < 256; red += 2) {
      const codes = lightnessPlane(sheetOf(red)).data;
      for (let blue = 0; blue < 256; blue += 2) {
        for (let green = 0; green < 256; green += 2, seen++) {
          if (codes[256 * blue + green] !== culoriCode(red, green, blue)) wrong++;
        }
      }
    }
    expect(seen).toBe(2 ** 21);
    expect(wrong).toBe(0);
  }, 120_000);

  it('lays alpha over white in linear light', () => {
    // Half-covering black: each channel 1 - 128/255 of white's light, so Y = 127/255.
    const half = lightnessPlane({ width: 1, height: 1, data: Uint8ClampedArray.of(0, 0, 0, 128) });
    expect(half.data[0]).toBe(codeOfY(127 / 255));
    // L* of Y = 127/255 = 0.49804: 116 cbrt(Y) - 16 = 75.95, code 194 (a mix in sRGB bytes would give L* 53).
    expect(half.data[0]).toBe(194);
    // Fully clear pixels are white, whatever their colour.
    expect([
      ...lightnessPlane({
        width: 2,
        height: 1,
        data: Uint8ClampedArray.of(0, 0, 0, 0, 200, 10, 5, 0),
      }).data,
    ]).toEqual([255, 255]);
    const data = new Uint8ClampedArray(4 * 65536);
    for (let i = 0; i < 65536; i++)
      data.set([(i * 7) & 255, (i * 13) >> 3, i >> 8, i & 255], 4 * i);
    const codes = lightnessPlane({ width: 256, height: 256, data }).data;
    for (let i = 0; i < 65536; i++) {
      const [r, g, b, a255] = data.subarray(4 * i, 4 * i + 4);
      const over = (c: number): number => (a255 / 255) * LINEAR[c] + (1 - a255 / 255);
      const y =
        0.2126390058715103 * over(r) + 0.7151686787677559 * over(g) + 0.07219231536073371 * over(b);
      if (codes[i] !== codeOfY(y)) expect.fail(`pixel ${i}: ${codes[i]} is not ${codeOfY(y)}`);
    }
  });

  it('is the same whatever the width, the place in the buffer and the mix of clear and opaque pixels', () => {
    for (const width of [1, 2, 3, 5, 7, 31]) {
      for (const shift of [0, 1, 2, 3, 4]) {
        const buffer = new ArrayBuffer(shift + 4 * width * 3);
        const data = new Uint8Array(buffer, shift);
        for (let i = 0; i < 3 * width; i++)
          data.set([i * 11, i * 5, 255 - i, i % 4 === 2 ? 90 : 255], 4 * i);
        const { data: codes } = lightnessPlane({ width, height: 3, data });
        for (let i = 0; i < 3 * width; i++) {
          const [r, g, b, a] = data.subarray(4 * i, 4 * i + 4);
          const one = lightnessPlane({ width: 1, height: 1, data: Uint8Array.of(r, g, b, a) });
          expect(codes[i]).toBe(one.data[0]);
          if (a === 255) expect(codes[i]).toBe(codeOf(r, g, b));
        }
      }
    }
  });

  it('is the same in slices, tells its progress, and leaves the pixels alone', () => {
    const data = new Uint8ClampedArray(4 * 1200 * 900).map((_, i) => (i % 4 === 3 ? 255 : i % 251));
    const before = data.slice();
    const kernel = lightnessKernel({ width: 1200, height: 900, data });
    const told: number[] = [];
    let step = kernel.next();
    for (; !step.done; step = kernel.next()) told.push(step.value);
    expect(told.length).toBeGreaterThan(2);
    expect([...told].sort((a, b) => a - b)).toEqual(told);
    expect(told.at(-1)).toBe(1);
    const whole = lightnessPlane({ width: 1200, height: 900, data });
    if (!step.done) expect.fail('not done');
    expect(step.value).toMatchObject({ width: 1200, height: 900 });
    expect(Buffer.compare(step.value.data, whole.data)).toBe(0);
    expect(
      finish(lightnessKernel({ width: 1, height: 1, data: data.slice(0, 4) })).data,
    ).toHaveLength(1);
    expect(data.every((v, i) => v === before[i])).toBe(true);
  });

  it('names a wrong argument', () => {
    const data = new Uint8ClampedArray(16);
    const wrong =
      (pixels: unknown): (() => unknown) =>
      () =>
        lightnessPlane(pixels as Pixels);
    expect(wrong(null)).toThrow(/^pixels is null/);
    expect(wrong({ width: '2', height: 2, data })).toThrow(TypeError);
    expect(wrong({ width: 2, height: 2.5, data })).toThrow(/^pixels\.height is 2\.5/);
    expect(wrong({ width: 0, height: 2, data })).toThrow(RangeError);
    expect(wrong({ width: 3, height: 2, data })).toThrow(/^pixels\.data is .*24 bytes/);
    expect(wrong({ width: 2, height: 2, data: [...data] })).toThrow(TypeError);
    expect(wrong({ width: 2, height: 2, data, colorSpace: 'display-p3' })).toThrow(
      /^pixels\.colorSpace is "display-p3"/,
    );
    expect(wrong({ width: 2, height: 2, data, colorSpace: 3 })).toThrow(TypeError);
    expect(lightnessPlane({ width: 2, height: 2, data, colorSpace: 'srgb' }).data).toHaveLength(4);
  });
});
