import { converter } from 'culori';
import { describe, expect, it } from 'vitest';
import {
  lightnessPlane,
  photoReport,
  photoReportKernel,
  type PhotoReport,
} from '../../core/picture/index.js';
import type { Lightness, Pixels } from '../../core/base/types.js';

type Rgb = [number, number, number];

function pictureOf(width: number, height: number, pixel: (x: number, y: number) => Rgb): Pixels {
  const data = new Uint8ClampedArray(4 * width * height).fill(255);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i += 4) data.set(pixel(x, y), i);
  return { width, height, data };
}
const reportOf = (pixels: Pixels, options = {}): PhotoReport =>
  photoReport(pixels, lightnessPlane(pixels), options);
const codesOf = (report: PhotoReport): string[] => report.tellings.map(({ code }) => code);

/** Deterministic numbers 0..1 (Park & Miller 1988). */
function randoms(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48271) % 2147483647) / 2147483647;
}

const lab65 = converter('lab65');
const toRgb = converter('rgb');
const fromLinear = (r: number, g: number, b: number): Rgb => {
  const rgb = toRgb({ mode: 'lrgb', r, g, b });
  return [rgb.r, rgb.g, rgb.b].map((v) => Math.round(255 * v)) as Rgb;
};

/** The error function by the series of its Maclaurin expansion (Abramowitz & Stegun 7.1.5), good for |x| < 5. */
function erf(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; n < 120; n++) {
    term *= (-x * x) / n;
    sum += term / (2 * n + 1);
  }
  return (2 / Math.sqrt(Math.PI)) * sum;
}
/** A step of 60..210 codes blurred by a Gaussian of `sigma`, `distance` pixels from it. */
const blurredStep = (distance: number, sigma: number): number => {
  const z = Math.max(-4.5, Math.min(4.5, distance / (sigma * Math.SQRT2)));
  return Math.round(60 + 75 * (1 + erf(z)));
};

/** A plane and pixels that look like it (greys of the same order; the report takes edges from the plane). */
function planeOf(
  width: number,
  height: number,
  code: (x: number, y: number) => number,
): [Pixels, Lightness] {
  const data = Uint8Array.from({ length: width * height }, (_, i) =>
    code(i % width, Math.floor(i / width)),
  );
  const pixels = pictureOf(width, height, (x, y) => {
    const v = Math.min(250, Math.max(5, data[y * width + x]));
    return [v, v, v];
  });
  return [pixels, { width, height, data }];
}

describe('photoReport: clipping and range', () => {
  it('counts clipped darks and lights', () => {
    // 100 x 100: 300 pixels of black, 500 of a red whose red channel is full, the rest greys 30..229.
    const photo = pictureOf(100, 100, (x, y) => {
      const i = 100 * y + x;
      if (i < 300) return [1, 2, 0];
      if (i < 800) return [255, 60, 50];
      const v = 30 + (i % 200);
      return [v, v, v];
    });
    const report = reportOf(photo);
    expect(report.count).toBe(10000);
    expect(report.clipped).toEqual({ darks: 0.03, lights: 0.05 });
    expect(report.tellings[0]).toEqual({ code: 'photo.darks-clipped', values: { percent: 3 } });
    expect(report.tellings[1]).toEqual({ code: 'photo.lights-clipped', values: { percent: 5 } });
  });

  it('tells the 1, 50 and 99 % points of a ramp of greys, and good news as well as bad', () => {
    // Each grey 5..250 in 40 pixels: the points are greys 7, 127 and 248.
    const wide = reportOf(pictureOf(246, 40, (x) => [x + 5, x + 5, x + 5]));
    const lightness = (v: number): number =>
      lab65({ mode: 'rgb', r: v / 255, g: v / 255, b: v / 255 }).l;
    expect(Math.abs(wide.range.low - lightness(7))).toBeLessThan(0.25);
    expect(Math.abs(wide.range.middle - lightness(127))).toBeLessThan(0.25);
    expect(Math.abs(wide.range.high - lightness(248))).toBeLessThan(0.25);
    expect(codesOf(wide).slice(0, 3)).toEqual([
      'photo.darks-kept',
      'photo.lights-kept',
      'photo.range-full',
    ]);
    const narrow = reportOf(pictureOf(100, 40, (x) => [x + 80, x + 80, x + 80]));
    expect(codesOf(narrow)).toContain('photo.range-narrow');
    expect(narrow.tellings[2].values.span).toBeCloseTo(narrow.range.high - narrow.range.low, 9);
  });

  it('looks only where it is told', () => {
    const photo = pictureOf(20, 10, (x) => (x < 10 ? [0, 0, 0] : [128, 128, 128]));
    const where = Uint8Array.from({ length: 200 }, (_, i) => (i % 20 >= 10 ? 7 : 0));
    const report = reportOf(photo, { where });
    expect(report.count).toBe(100);
    expect(report.clipped.darks).toBe(0);
    expect(report.range.low).toBe(report.range.high);
  });
});

describe('photoReport: cast', () => {
  /** Greys of many values, and hues that balance each other, in a light of the given linear gains. */
  const sceneIn = ([gr, gg, gb]: Rgb): Pixels => {
    const random = randoms(9);
    return pictureOf(120, 120, () => {
      const y = 0.02 + 0.6 * random();
      const [a, b] = [0.12 * (random() - 0.5), 0.12 * (random() - 0.5)];
      return fromLinear(gr * y * (1 + a), gg * y, gb * y * (1 + b));
    });
  };

  it('finds a known light: both estimates near the Lab of white in it', () => {
    for (const gains of [
      [1.1, 1, 0.6],
      [0.75, 1, 1.25],
      [0.9, 1.05, 0.85],
    ] as Rgb[]) {
      const { cast, tellings } = reportOf(sceneIn(gains));
      const y =
        0.2126390058715103 * gains[0] +
        0.7151686787677559 * gains[1] +
        0.07219231536073371 * gains[2];
      const [r, g, b] = gains.map((v) => v / y);
      const white = lab65({ mode: 'lrgb', r, g, b });
      for (const estimate of [cast.whole, cast.lights]) {
        expect(estimate[0]).toBeCloseTo(100, 6);
        expect(Math.hypot(estimate[1] - white.a, estimate[2] - white.b)).toBeLessThan(2.5);
      }
      expect(cast.verdict).toBe('cast');
      expect(Math.abs(cast.strength - Math.hypot(white.a, white.b))).toBeLessThan(2);
      expect(cast.confidence).toBeGreaterThan(0.7);
      expect(tellings[3]).toEqual({
        code: 'photo.cast',
        values: { lean: cast.lean, strength: cast.strength, confidence: cast.confidence },
      });
    }
    expect(['orange', 'yellow']).toContain(reportOf(sceneIn([1.1, 1, 0.6])).cast.lean);
    expect(reportOf(sceneIn([0.75, 1, 1.25])).cast.lean).toBe('blue');
  });

  it('finds none in neutral light', () => {
    const report = reportOf(sceneIn([1, 1, 1]));
    expect(report.cast.verdict).toBe('none');
    expect(report.cast.strength).toBeLessThan(3);
    expect(codesOf(report)).toContain('photo.cast-none');
  });

  it('is unsure of a subject of one hue with neutral lights', () => {
    // A meadow under a grey-white sky: the mean is green, the lightest part is neutral.
    const random = randoms(4);
    const meadow = pictureOf(100, 100, (_, y) => {
      const l = 0.5 + 0.5 * random();
      return y < 12
        ? fromLinear(0.9 * l, 0.9 * l, 0.9 * l)
        : fromLinear(0.06 * l, 0.2 * l, 0.03 * l);
    });
    const report = reportOf(meadow);
    expect(report.cast.verdict).toBe('unsure');
    expect(report.cast.confidence).toBeLessThan(0.5);
    expect(codesOf(report)).toContain('photo.cast-unsure');
    expect(report.tellings[3].values.lights).toBe('neutral');
  });

  it('is unsure where every pixel is clipped', () => {
    const { cast } = reportOf(pictureOf(10, 10, () => [255, 255, 255]));
    expect(cast).toMatchObject({ verdict: 'unsure', confidence: 0, strength: 0 });
  });
});

describe('photoReport: sharpness', () => {
  // A Gaussian's 10-90 % width is 2 x 1.2815516 sigma = 2.563 sigma; contrast over steepest slope is sqrt(2 pi) sigma = 2.507 sigma.
  it('finds the width of steps blurred by a known Gaussian, upright, level and slanted', () => {
    for (const sigma of [1.5, 2, 3, 5]) {
      for (const slant of [0, 0.35, -0.6]) {
        for (const upright of [true, false]) {
          const [pixels, plane] = planeOf(240, 240, (x, y) => {
            const [across, along] = upright ? [x, y] : [y, x];
            // Stripes 80 pixels apart, light and dark in turn, slanted; the distance is measured across the edge.
            const place = (((across + slant * along) % 160) + 160) % 160;
            const distance = (40 - Math.abs(place - 80)) / Math.hypot(1, slant);
            return blurredStep(distance, sigma);
          });
          const { sharpness } = photoReport(pixels, plane);
          expect(sharpness.edges).toBeGreaterThan(200);
          expect(sharpness.widthPx / (2.563 * sigma)).toBeGreaterThan(0.88);
          expect(sharpness.widthPx / (2.563 * sigma)).toBeLessThan(1.12);
        }
      }
    }
  });

  it('tells soft from sharp, in pixels of the plane and of the full photo', () => {
    const stripes = (sigma: number): PhotoReport => {
      const [pixels, plane] = planeOf(160, 60, (x) =>
        blurredStep(20.5 - Math.abs((x % 80) - 40), sigma),
      );
      return photoReport(pixels, plane, { fullScale: 2.5 });
    };
    const soft = stripes(3);
    expect(codesOf(soft)).toContain('photo.soft');
    expect(soft.sharpness.fullWidthPx).toBeCloseTo(2.5 * soft.sharpness.widthPx, 9);
    const sharp = stripes(0.01);
    expect(codesOf(sharp)).toContain('photo.sharp');
    expect(sharp.sharpness.widthPx).toBe(1);
  });

  it('does not hold soft forms against sharp edges, and is unsure without edges', () => {
    const [pixels, plane] = planeOf(400, 80, (x, y) =>
      y < 60 ? Math.round(60 + 75 * (1 + Math.sin(x / 20))) : x % 100 < 50 ? 60 : 210,
    );
    expect(photoReport(pixels, plane).sharpness).toMatchObject({ verdict: 'sharp', widthPx: 1 });
    const [flatPixels, flatPlane] = planeOf(100, 100, (x) => 100 + (x % 2));
    const flat = photoReport(flatPixels, flatPlane);
    expect(flat.sharpness).toEqual({ verdict: 'unsure', edges: 0, widthPx: 0, fullWidthPx: 0 });
    expect(codesOf(flat)).toContain('photo.sharpness-unsure');
  });

  it('takes only edges inside the sitter', () => {
    const [pixels, plane] = planeOf(200, 100, (x) =>
      x < 100 ? (x % 20 < 10 ? 40 : 200) : blurredStep(20 - Math.abs((x % 80) - 40), 3),
    );
    const where = Uint8Array.from({ length: 20000 }, (_, i) => (i % 200 >= 110 ? 1 : 0));
    expect(photoReport(pixels, plane).sharpness.verdict).toBe('sharp');
    expect(photoReport(pixels, plane, { where }).sharpness.verdict).toBe('soft');
  });
});

describe('photoReport: brush, topics, slices, errors', () => {
  const photo = pictureOf(300, 200, (x, y) => [(x * 3) & 255, (y * 5) & 255, (x + y) & 255]);
  const plane = lightnessPlane(photo);

  it('compares the brush with the pixels of the full photo', () => {
    expect(reportOf(photo).brush).toBeUndefined();
    const fine = reportOf(photo, { brushPx: 2, fullScale: 4 });
    expect(fine.brush).toEqual({ px: 2, fullPx: 8 });
    expect(fine.tellings.at(-1)!.code).toBe('photo.brush-fine');
    const coarse = reportOf(photo, { brushPx: 2, fullScale: 1.2 });
    expect(coarse.tellings.at(-1)).toMatchObject({
      code: 'photo.brush-coarse',
      values: { px: 2, fullPx: 2.4 },
    });
  });

  it('says one thing on each topic, always', () => {
    const topics = [
      /^photo\.darks-/,
      /^photo\.lights-/,
      /^photo\.range-/,
      /^photo\.cast/,
      /^photo\.(soft|sharp)/,
      /^photo\.brush-/,
    ];
    for (const pixels of [
      photo,
      pictureOf(1, 1, () => [0, 0, 0]),
      pictureOf(2000, 1, (x) => [x & 255, 0, 9]),
    ]) {
      const codes = codesOf(reportOf(pixels, { brushPx: 3 }));
      expect(codes).toHaveLength(6);
      codes.forEach((code, i) => expect(code).toMatch(topics[i]));
    }
  });

  it('is the same in slices and leaves its input alone', () => {
    const large = pictureOf(1500, 1200, (x, y) => [(x * y) & 255, (y * 5) & 255, (x + y) & 255]);
    const codes = lightnessPlane(large);
    const before = [large.data.slice(), codes.data.slice()];
    const kernel = photoReportKernel(large, codes);
    const told: number[] = [];
    let step = kernel.next();
    for (; !step.done; step = kernel.next()) told.push(step.value);
    expect(told.length).toBeGreaterThan(8);
    expect([...told].sort((a, b) => a - b)).toEqual(told);
    expect(step.value).toEqual(photoReport(large, codes));
    expect(large.data.every((v, i) => v === before[0][i])).toBe(true);
    expect(codes.data.every((v, i) => v === before[1][i])).toBe(true);
  });

  it('names a wrong argument', () => {
    expect(() => photoReport(photo, { ...plane, width: 200, height: 300 })).toThrow(
      /^plane is "200 x 300"/,
    );
    expect(() => photoReport(photo, plane, { where: new Uint8Array(3) })).toThrow(
      /^options\.where is Uint8Array\(3\)/,
    );
    expect(() => photoReport(photo, plane, { where: new Uint8Array(60000) })).toThrow(
      /at least one pixel/,
    );
    expect(() => photoReport(photo, plane, { where: [1] as unknown as Uint8Array })).toThrow(
      TypeError,
    );
    expect(() => photoReport(photo, plane, { brushPx: 0 })).toThrow(/^options\.brushPx is 0/);
    expect(() => photoReport(photo, plane, { fullScale: NaN })).toThrow(
      /^options\.fullScale is NaN/,
    );
    expect(() => photoReport(photo, plane, null as never)).toThrow(TypeError);
  });
});
