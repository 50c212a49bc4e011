import { converter } from 'culori';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Lightness, Pixels } from '../../core/base/types.js';
import type { Kernel } from '../../core/base/kernel.js';
import { lightnessPlane } from '../../core/picture/index.js';
import {
  bandPalette,
  defaultTones,
  greyPalette,
  recolour,
  squint,
  squintKernel,
  squintPixels,
  squintPixelsKernel,
  stepBack,
  stepBackKernel,
  stepBackPixels,
  stepBackPixelsKernel,
  type Rgb,
} from '../../core/value/index.js';

const culoriLab = converter('lab65');
const bytesOf = (word: number): number[] => [
  word & 255,
  (word >>> 8) & 255,
  (word >>> 16) & 255,
  word >>> 24,
];
const lightness = (word: number): number => {
  const [r, g, b] = bytesOf(word);
  return culoriLab({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 }).l;
};

const made = (
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

const painted = (
  width: number,
  height: number,
  at: (x: number, y: number) => number[],
): Pixels => ({
  width,
  height,
  data: Uint8ClampedArray.from(
    Array.from({ length: width * height }, (_, i) => at(i % width, Math.floor(i / width))).flat(),
  ),
});

const anyPlane = fc
  .tuple(fc.integer({ min: 1, max: 24 }), fc.integer({ min: 1, max: 24 }))
  .chain(([width, height]) =>
    fc
      .uint8Array({ minLength: width * height, maxLength: width * height })
      .map((data): Lightness => ({ width, height, data })),
  );

const progressOf = (kernel: Kernel<unknown>): number[] => {
  const progress: number[] = [];
  for (let step = kernel.next(); !step.done; step = kernel.next()) progress.push(step.value);
  return progress;
};

describe('palettes', () => {
  it('a grey of each code is neutral, opaque and has its L* (culori) to half an 8-bit step', () => {
    const palette = greyPalette();
    expect(palette.length).toBe(256);
    for (let code = 0; code <= 255; code++) {
      const [r, g, b, a] = bytesOf(palette[code]);
      expect(a).toBe(255);
      expect(g).toBe(r);
      expect(b).toBe(r);
      // neighbouring 8-bit greys lie at most 0.46 L* apart
      expect(Math.abs(lightness(palette[code]) - code / 2.55)).toBeLessThan(0.25);
    }
    expect(bytesOf(palette[0])).toEqual([0, 0, 0, 255]);
    expect(bytesOf(palette[255])).toEqual([255, 255, 255, 255]);
  });

  it('the words are RGBA bytes of an ImageData', () => {
    const out = new Uint8ClampedArray(8);
    const palette = bandPalette(
      [127],
      [
        [1, 2, 3],
        [250, 251, 252],
      ],
    );
    recolour(Uint8Array.of(0, 200), palette, new Uint32Array(out.buffer));
    expect([...out]).toEqual([1, 2, 3, 255, 250, 251, 252, 255]);
  });

  it('each band has its tone, the code of a threshold belongs to the band below', () => {
    const palette = bandPalette([85, 170], [20, [120, 60, 30], 90]);
    expect(lightness(palette[85])).toBeCloseTo(20, 0);
    expect(bytesOf(palette[86])).toEqual([120, 60, 30, 255]);
    expect(palette[170]).toBe(palette[86]);
    expect(lightness(palette[171])).toBeCloseTo(90, 0);
    expect(new Set(palette).size).toBe(3);
  });

  it('bare paper lies above its own threshold', () => {
    const palette = bandPalette([85, 170], [20, 50, 80], {
      paperThreshold: 230,
      paper: [250, 249, 245],
    });
    expect(bytesOf(palette[230])).not.toEqual([250, 249, 245, 255]);
    expect(bytesOf(palette[231])).toEqual([250, 249, 245, 255]);
    expect(bytesOf(bandPalette([85], [20, 50], { paperThreshold: 230 })[255])).toEqual([
      255, 255, 255, 255,
    ]);
  });

  it('lays the rest aside: one band keeps its tone, the others turn pale and stay in order', () => {
    const tones: Rgb[] = [
      [20, 20, 20],
      [120, 120, 120],
      [220, 220, 220],
    ];
    const whole = bandPalette([85, 170], tones, { paperThreshold: 240 });
    for (let only = 0; only < 4; only++) {
      const palette = bandPalette([85, 170], tones, { paperThreshold: 240, only });
      [0, 100, 200, 255].forEach((code, band) => {
        if (band === only) expect(palette[code]).toBe(whole[code]);
        else expect(lightness(palette[code])).toBeGreaterThan(82);
      });
    }
    const aside = bandPalette([85, 170], tones, { only: 2 });
    expect(lightness(aside[0])).toBeLessThan(lightness(aside[100]));
  });

  it('the tone of a band is the middle of its interval, by hand', () => {
    // the limits are (50 + 0.5) / 2.55 = 19.804 and (152 + 0.5) / 2.55 = 59.804
    const tones = defaultTones([50, 152]);
    expect(tones[0]).toBeCloseTo(9.902, 3);
    expect(tones[1]).toBeCloseTo(39.804, 3);
    expect(tones[2]).toBeCloseTo(79.902, 3);
  });

  it('refuses tones, bands and buffers that do not fit', () => {
    expect(() => bandPalette([85], [1, 2, 3])).toThrow(/tones/);
    expect(() => bandPalette([85], [1, 101])).toThrow(/tones\[1\] is 101/);
    expect(() => bandPalette([85], [1, [0, 0, 256]])).toThrow(/tones\[1\]\[2\] is 256/);
    expect(() => bandPalette([85], [1, 'red' as unknown as number])).toThrow(TypeError);
    expect(() => bandPalette([85], [1, 2], { only: 2 })).toThrow(/only is 2/);
    expect(() => bandPalette([85], [1, 2], { paperThreshold: 255 })).toThrow(RangeError);
    expect(() => recolour(new Uint8Array(4), greyPalette(), new Uint32Array(3))).toThrow(/out/);
    expect(() => recolour(new Uint8Array(4), new Uint32Array(3), new Uint32Array(4))).toThrow(
      /palette/,
    );
  });
});

describe('the squint', () => {
  it('amount 0 gives the same picture, as a copy', () => {
    fc.assert(
      fc.property(anyPlane, (plane) => {
        const seen = squint(plane, { amount: 0, brushPx: 8 });
        expect(seen).toEqual(plane);
        expect(seen.data).not.toBe(plane.data);
      }),
    );
  });

  it('a flat plane stays flat, at any amount and brush', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 255 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 80, noNaN: true }),
        (code, amount, brushPx) => {
          const plane = made(17, 11, () => code);
          expect(squint(plane, { amount, brushPx })).toEqual(plane);
        },
      ),
    );
  });

  it('no new extremes arise, and the plane given is left alone', () => {
    fc.assert(
      fc.property(
        anyPlane,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.integer({ min: 0, max: 40 }),
        (plane, amount, brushPx) => {
          const before = plane.data.slice();
          const { data } = squint(plane, { amount, brushPx });
          expect(plane.data).toEqual(before);
          expect(Math.min(...data)).toBeGreaterThanOrEqual(Math.min(...before));
          expect(Math.max(...data)).toBeLessThanOrEqual(Math.max(...before));
        },
      ),
    );
  });

  it('equals a median and the guided filter, written out pixel by pixel', () => {
    // He, Sun & Tang 2010, equations 5, 6 and 8, on the median of 3 x 3; 32, 0.35 and the quarter of
    // the brush are our own choices, so here they only say which formula is meant
    const [width, height, amount, brushPx] = [13, 9, 0.5, 8];
    const plane = made(width, height, (x, y) => (x * 37 + y * 91 + x * y * 13) % 256);
    const input = [...plane.data];
    const mean = (values: number[]): number => values.reduce((a, b) => a + b) / values.length;
    const middle = (values: number[]): number =>
      [...values].sort((a, b) => a - b)[Math.ceil(values.length / 2) - 1];
    const around = (i: number, radius: number): number[] => {
      const [x, y] = [i % width, Math.floor(i / width)];
      return [...input.keys()].filter(
        (k) => Math.abs((k % width) - x) <= radius && Math.abs(Math.floor(k / width) - y) <= radius,
      );
    };
    const merged = input.map((_, i) => middle(around(i, 1).map((k) => input[k])));
    const lines = input.map((_, i) => {
      const near = around(i, 4).map((k) => merged[k]);
      const m = mean(near);
      const variance = mean(near.map((code) => (code - m) ** 2));
      const a = variance / (variance + (32 * amount) ** 2);
      return [a, m - a * m];
    });
    const { data } = squint(plane, { amount, brushPx });
    merged.forEach((code, i) => {
      const near = around(i, 4);
      const value = Math.round(
        mean(near.map((k) => lines[k][0])) * code + mean(near.map((k) => lines[k][1])),
      );
      // contrast drawn to the median by 0.35 of the amount
      const median = middle(input);
      expect(data[i]).toBe(Math.round(median + (1 - 0.35 * amount) * (value - median)));
    });
  });

  it('a wide window takes out specks and keeps an edge', () => {
    const plane = made(400, 120, (x, y) => {
      const speck = x % 50 < 6 && y % 50 < 6;
      return x < 200 ? (speck ? 20 : 80) : speck ? 255 : 200;
    });
    const { data } = squint(plane, { amount: 1, brushPx: 200 });
    const row = data.subarray(60 * 400, 61 * 400);
    for (let x = 1; x < 400; x++) {
      // Specks are 1.44 % of a window of 101 and the larger half of it is the pixel's own side, so
      // the median is 80 | 200. In windows of 201 with a share p of the light side the slope is
      // 14400 p (1 - p) / (14400 p (1 - p) + 1024); summed over those about the edge the step is
      // 78.84, and beside it at most 0.56 from pixel to pixel. A pixel is rounded to a code before and
      // after 0.65 of the contrast is left: 0.65 (78.84 +- 1) +- 1, and no more than one code beside.
      if (x === 200) expect(Math.abs(row[x] - row[x - 1] - 51.24)).toBeLessThanOrEqual(1.65);
      else expect(Math.abs(row[x] - row[x - 1])).toBeLessThanOrEqual(1);
    }
  });

  it('small strong detail merges while a large shape stays', () => {
    // a letter's stroke of 2 px and 200 codes, a square of 40 px
    const plane = made(120, 60, (x, y) => {
      if (x >= 70 && x < 110 && y >= 10 && y < 50) return 40;
      return x === 20 || x === 21 ? 40 : 220;
    });
    const { data } = squint(plane, { amount: 1, brushPx: 16 });
    const row = data.subarray(30 * 120, 31 * 120);
    // Two columns of the nine of a window never are its median, so the stroke is gone. The windows of
    // windows about the square's middle reach 16 px and stay inside it: 40 is drawn to the median, 220,
    // by 0.35: 220 - 0.65 x 180 = 103.
    expect([row[45], row[90], row[20]]).toEqual([220, 103, 220]);
  });

  it('detail under the brush merges, a strong edge keeps its place', () => {
    // darks and lights of 60 and 190 side by side, with grain of 1 pixel and +-12 codes
    const plane = made(80, 40, (x, y) => (x < 40 ? 60 : 190) + ((x + y) % 2 ? 12 : -12));
    for (const amount of [0.5, 1]) {
      const { data } = squint(plane, { amount, brushPx: 12 });
      const row = data.subarray(20 * 80, 21 * 80);
      const grain = (from: number, to: number): number => {
        let most = 0;
        for (let x = from + 1; x < to; x++) most = Math.max(most, Math.abs(row[x] - row[x - 1]));
        return most;
      };
      // The grain is 24 codes from pixel to pixel, its variance at most 144, so a slope is at most
      // 144 / (144 + (32 amount)^2): 0.123 or 0.36. The lines' mean changes from pixel to pixel by one
      // column of 13, each at most 12 codes off: 0.92. That is 3.88 or 9.56, rounded at each pixel no
      // more than 4 or 10 codes, of which 0.65 or 0.825 are left, rounded again: 3 or 9.
      expect(grain(0, 28)).toBeLessThanOrEqual(amount === 1 ? 3 : 9);
      expect(grain(52, 80)).toBeLessThanOrEqual(amount === 1 ? 3 : 9);
      // the steepest place is still between columns 39 and 40
      let steepest = 0;
      let at = -1;
      for (let x = 1; x < 80; x++) {
        const step =
          data[20 * 80 + x] + data[21 * 80 + x] - data[20 * 80 + x - 1] - data[21 * 80 + x - 1];
        if (step > steepest) [steepest, at] = [step, x];
      }
      expect(at).toBe(40);
      // More than half of what the contrast leaves of the 130 codes lies in that one step (half is our
      // own choice).
      expect(steepest / 2).toBeGreaterThan(0.5 * 130 * (1 - 0.35 * amount));
    }
  });

  it('the more it is shut, the less contrast is left', () => {
    const plane = made(64, 64, (x, y) => 128 + 100 * Math.sin(x / 9) * Math.cos(y / 7));
    let spread = Infinity;
    for (const amount of [0, 0.25, 0.5, 0.75, 1]) {
      const { data } = squint(plane, { amount, brushPx: 6 });
      const now = Math.max(...data) - Math.min(...data);
      expect(now).toBeLessThan(spread);
      spread = now;
    }
  });

  it('a brush wider than the picture and pictures of one pixel work', () => {
    expect(
      squint(
        made(1, 1, () => 77),
        { amount: 1, brushPx: 500 },
      ).data,
    ).toEqual(Uint8Array.of(77));
    expect(
      squint(
        made(3, 1, (x) => x * 100),
        { amount: 1, brushPx: 500 },
      ).data.length,
    ).toBe(3);
    expect(
      squint(
        made(1, 50, (_, y) => y),
        { amount: 0.5, brushPx: 4 },
      ).height,
    ).toBe(50);
  });

  it('in colour: greys stay grey and go with the plane', () => {
    const pixels = painted(40, 20, (x, y) => {
      const v = (x < 20 ? 70 : 180) + ((x + y) % 2 ? 10 : -10);
      return [v, v, v, 255];
    });
    const plane = lightnessPlane(pixels);
    const seen = squintPixels(pixels, plane, { amount: 0.8, brushPx: 8 });
    const again = lightnessPlane(seen.pixels);
    expect(seen.plane).toEqual(squint(plane, { amount: 0.8, brushPx: 8 }));
    for (let i = 0; i < again.data.length; i++) {
      const [r, g, b, a] = seen.pixels.data.subarray(4 * i, 4 * i + 4);
      expect([g, b, a]).toEqual([r, r, 255]);
      // 8-bit greys lie up to 0.46 L* = 1.17 codes apart, so the nearest is up to 0.59 off, and codes
      // are rounded by 0.5; where two greys share a code one may stand for the other, 1 more: 2.09.
      expect(Math.abs(again.data[i] - seen.plane.data[i])).toBeLessThanOrEqual(2);
    }
  });

  it('in colour: a flat colour stays, amount 0 gives a copy, alpha lies over white', () => {
    const flat = painted(9, 7, () => [180, 60, 30, 255]);
    expect([
      ...squintPixels(flat, lightnessPlane(flat), { amount: 1, brushPx: 5 }).pixels.data,
    ]).toEqual([...flat.data]);
    const same = squintPixels(flat, lightnessPlane(flat), { amount: 0, brushPx: 5 });
    expect(same.pixels.data).toEqual(flat.data);
    expect(same.pixels.data).not.toBe(flat.data);
    const clear = painted(4, 4, () => [10, 20, 30, 0]);
    const seen = squintPixels(clear, lightnessPlane(clear), { amount: 0.5, brushPx: 5 });
    expect(new Set(seen.pixels.data)).toEqual(new Set([255]));
  });

  it('progress rises within 0..1', () => {
    const plane = made(700, 800, (x) => x % 256);
    const pixels = painted(700, 800, (x) => [x % 256, 90, 40, 255]);
    for (const kernel of [
      squintKernel(plane, { amount: 0.5, brushPx: 9 }),
      squintPixelsKernel(pixels, plane, { amount: 0.5, brushPx: 9 }),
      stepBackKernel(plane, { pxPerMm: 5, distance: 6 }),
      stepBackPixelsKernel(pixels, { pxPerMm: 5, distance: 6 }),
    ]) {
      const progress = progressOf(kernel);
      expect(progress.length).toBeGreaterThan(3);
      expect([...progress].sort((a, b) => a - b)).toEqual(progress);
      expect(progress[0]).toBeGreaterThan(0);
      expect(progress.at(-1)).toBeCloseTo(1, 12);
    }
  });

  it('refuses what cannot be', () => {
    const plane = made(4, 4, () => 9);
    const pixels = painted(5, 4, () => [1, 2, 3, 255]);
    expect(() => squint(plane, { amount: 1.5, brushPx: 8 })).toThrow(/options.amount is 1.5/);
    expect(() => squint(plane, { amount: 0.5, brushPx: -1 })).toThrow(RangeError);
    expect(() => squint(plane, null as unknown as { amount: number; brushPx: number })).toThrow(
      TypeError,
    );
    expect(() => squintPixels(pixels, plane, { amount: 0.5, brushPx: 8 })).toThrow(
      /plane is "4 x 4"/,
    );
    expect(() =>
      squintPixels({ ...pixels, colorSpace: 'display-p3' }, plane, { amount: 1, brushPx: 8 }),
    ).toThrow(/colorSpace/);
  });
});

describe('the step back', () => {
  // 1 minute of arc at 6 m is 1.745 mm (ISO 8596): at 5 px a mm the gap is 8.73 px
  const options = { pxPerMm: 5, distance: 6 };

  it('a gap under a pixel leaves the picture as it is, as a copy', () => {
    const plane = made(9, 9, (x, y) => x * 20 + y);
    const seen = stepBack(plane, { pxPerMm: 1, distance: 3 });
    expect(seen).toEqual(plane);
    expect(seen.data).not.toBe(plane.data);
    const pixels = painted(3, 3, (x) => [x, 2, 3, 255]);
    expect(stepBackPixels(pixels, { pxPerMm: 1, distance: 3 }).data).toEqual(pixels.data);
  });

  it('a flat plane and a flat colour stay flat at any distance', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 255 }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 0.1, max: 3, noNaN: true }),
        (code, distance, acuity) => {
          const plane = made(23, 12, () => code);
          expect(stepBack(plane, { pxPerMm: 5, distance, acuity })).toEqual(plane);
          const pixels = painted(6, 5, () => [code, 255 - code, 70, 255]);
          expect([...stepBackPixels(pixels, { pxPerMm: 5, distance, acuity }).data]).toEqual([
            ...pixels.data,
          ]);
        },
      ),
      { numRuns: 30 },
    );
  });

  it('a line of light spreads as a Gaussian whose width at half height is the gap', () => {
    // linear light along the row, from the L* codes by the CIE formula; sigma = 8.727 / 2.3548
    const width = 101;
    for (const turned of [false, true]) {
      const plane = made(turned ? 41 : width, turned ? width : 41, (x, y) =>
        (turned ? y : x) === 50 ? 255 : 0,
      );
      const { data } = stepBack(plane, options);
      const sigma = 8.7266 / 2.35482;
      for (let x = 0; x < width; x++) {
        const code = turned ? data[x * 41 + 20] : data[20 * width + x];
        const Y = Math.exp(-((x - 50) ** 2) / (2 * sigma ** 2)) / (sigma * Math.sqrt(2 * Math.PI));
        const L = Y > 216 / 24389 ? 116 * Math.cbrt(Y) - 16 : (24389 / 27) * Y;
        // three boxes in place of the bell are off by at most 1.385 L* at this sigma (convolved
        // outside the project, in Python); half a code is 0.2
        expect(Math.abs(code / 2.55 - L), `${x}`).toBeLessThan(1.6);
      }
    }
  });

  it('an edge of black and white is half as bright in linear light on the edge', () => {
    const plane = made(60, 5, (x) => (x < 30 ? 0 : 255));
    const { data } = stepBack(plane, options);
    // halfway between the pixels beside the edge Y is 0.5: their mean luminance
    const Y = (code: number): number => ((code / 2.55 + 16) / 116) ** 3;
    // (half a code is 0.0032 of light there)
    expect(Math.abs((Y(data[2 * 60 + 29]) + Y(data[2 * 60 + 30])) / 2 - 0.5)).toBeLessThan(0.0033);
    // Pixel 33 lies 3.5 px out: 82.01 % of the light under three boxes of a third of the variance
    // (convolved outside the project, in Python; 82.75 % under the Gaussian itself); half a code is
    // 0.0044 of light there.
    expect(Math.abs(Y(data[2 * 60 + 33]) - 0.8201)).toBeLessThan(0.0045);
  });

  it('half the acuity is twice the distance; more distance never adds detail', () => {
    const plane = made(60, 60, (x, y) => (((x >> 2) + (y >> 2)) % 2 ? 220 : 40));
    expect(stepBack(plane, { ...options, acuity: 0.5 })).toEqual(
      stepBack(plane, { pxPerMm: 5, distance: 12 }),
    );
    let spread = 256;
    for (const distance of [1, 2, 4, 8]) {
      const { data } = stepBack(plane, { pxPerMm: 5, distance });
      const now = Math.max(...data) - Math.min(...data);
      expect(now).toBeLessThan(spread);
      spread = now;
    }
  });

  it('no new extremes; a plane and its grey picture agree', () => {
    fc.assert(
      fc.property(anyPlane, fc.double({ min: 0, max: 30, noNaN: true }), (plane, distance) => {
        const { data } = stepBack(plane, { pxPerMm: 5, distance });
        expect(Math.min(...data)).toBeGreaterThanOrEqual(Math.min(...plane.data));
        expect(Math.max(...data)).toBeLessThanOrEqual(Math.max(...plane.data));
      }),
    );
    const pixels = painted(50, 30, (x) => {
      const v = x < 25 ? 40 : 220;
      return [v, v, v, 255];
    });
    const seen = lightnessPlane(stepBackPixels(pixels, options));
    const wanted = stepBack(lightnessPlane(pixels), options);
    // The plane's codes are rounded before and after, 0.5 each, the picture's greys by 0.59 of a code,
    // and the codes read from those by 0.5: 2.09.
    seen.data.forEach((code, i) => expect(Math.abs(code - wanted.data[i])).toBeLessThanOrEqual(2));
  });

  it('red and green stripes seen from afar mix as light does', () => {
    // half red, half green in linear light: each channel 0.5, encoded 187.5 (IEC 61966-2-1), which
    // rounds to either neighbour
    const pixels = painted(120, 12, (x) => (x % 2 ? [255, 0, 0, 255] : [0, 255, 0, 255]));
    const { data } = stepBackPixels(pixels, { pxPerMm: 5, distance: 12 });
    const [r, g, b, a] = data.subarray(4 * (6 * 120 + 60), 4 * (6 * 120 + 60) + 4);
    expect(Math.abs(r - 187.5)).toBe(0.5);
    expect(Math.abs(g - 187.5)).toBe(0.5);
    expect([b, a]).toEqual([0, 255]);
  });

  it('refuses what cannot be', () => {
    const plane = made(4, 4, () => 9);
    expect(() => stepBack(plane, { pxPerMm: 0, distance: 1 })).toThrow(/options.pxPerMm is 0/);
    expect(() => stepBack(plane, { pxPerMm: 5, distance: -1 })).toThrow(/distance/);
    expect(() => stepBack(plane, { pxPerMm: 5, distance: 1, acuity: 0 })).toThrow(/acuity/);
    expect(() => stepBackPixels(plane as unknown as Pixels, options)).toThrow(/pixels.data/);
  });
});
