import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  COMPRESSED_BELOW,
  compressedIn,
  DARKEST_PAINT,
  IDENTITY_MAP,
  lightnessPlane,
  photoRangeOf,
  rangeMap,
  rangeReasons,
  histogramOf,
  type LightnessSpan,
  type RangeMap,
} from '../../core/index.js';

const mapOf = (photo: [number, number], paint: [number, number], holding: number): RangeMap =>
  rangeMap({
    photo: { low: photo[0], high: photo[1] },
    paint: { low: paint[0], high: paint[1] },
    holding,
  });

const span = fc
  .tuple(fc.double({ min: 0, max: 99, noNaN: true }), fc.double({ min: 1, max: 100, noNaN: true }))
  .map(([low, width]): LightnessSpan => ({ low, high: Math.min(100, low + width) }))
  .filter(({ low, high }) => high - low >= 1);
const holding = fc.double({ min: -1, max: 1, noNaN: true });
const lightness = fc.double({ min: 0, max: 100, noNaN: true });
const anyMap = fc
  .record({ photo: span, paint: span, holding })
  .map((options) => ({ options, map: rangeMap(options) }));

/**
 * The monotone rational quadratic on one interval, in the form of Gregory and Delbourgo 1982 (IMA J. Numer. Anal. 2, 123-130), as quoted
 * by Durkan et al. 2019 (Neural Spline Flows, equation 4): value s of the unit interval for end slopes d0, d1 relative to the mean slope.
 */
const gregoryDelbourgo = (t: number, d0: number, d1: number): number =>
  (t * t + d0 * t * (1 - t)) / (1 + (d1 + d0 - 2) * t * (1 - t));

/** The cubic Hermite polynomial on the unit interval from 0 to 1 with end slopes a, b: derivative at t. */
const cubicSlope = (t: number, a: number, b: number): number =>
  6 * t * (1 - t) + a * (1 - 4 * t + 3 * t * t) + b * (3 * t * t - 2 * t);

/**
 * Whether the cubic with end slopes a and b, relative to the mean slope, is monotone: lemma 1 and 2 of Fritsch and Carlson 1980 (SIAM J.
 * Numer. Anal. 17, 238-246): a + b - 2 <= 0, or 2a + b - 3 <= 0, or a + 2b - 3 <= 0, or a - (2a + b - 3)^2 / (3 (a + b - 2)) >= 0.
 */
const fritschCarlson = (a: number, b: number): boolean =>
  a + b - 2 <= 0 ||
  2 * a + b - 3 <= 0 ||
  a + 2 * b - 3 <= 0 ||
  a - (2 * a + b - 3) ** 2 / (3 * (a + b - 2)) >= 0;

describe('rangeMap', () => {
  it('by hand: a photo of 0..100 in paint of 20..70, half of every difference in the mean', () => {
    // D = 1/2. Sharing: a straight line, 20 + L/2.
    const shared = mapOf([0, 100], [20, 70], 0);
    expect([0, 10, 50, 100].map(shared.toPaint)).toEqual([20, 25, 45, 70]);
    expect(shared.slopeAt(30)).toBe(0.5);
    // Holding the darks: k = 2, u = 2t / (1 + t). t = 1/2 gives 2/3, so 20 + 50 * 2/3; slopes 1 and 1/4 at the ends.
    const darks = mapOf([0, 100], [20, 70], -1);
    expect(darks.toPaint(50)).toBeCloseTo(20 + 100 / 3, 12);
    expect(darks.toPaint(25)).toBeCloseTo(40, 12); // 2 * 0.25 / 1.25 = 0.4
    expect(darks.slopeAt(0)).toBeCloseTo(1, 12);
    expect(darks.slopeAt(100)).toBeCloseTo(0.25, 12);
    // Holding the lights: k = 1/2, u = t / (2 - t). t = 1/2 gives 1/3.
    const lights = mapOf([0, 100], [20, 70], 1);
    expect(lights.toPaint(50)).toBeCloseTo(20 + 50 / 3, 12);
    expect(lights.slopeAt(0)).toBeCloseTo(0.25, 12);
    expect(lights.slopeAt(100)).toBeCloseTo(1, 12);
    expect(lights.toPhoto(20 + 50 / 3)).toBeCloseTo(50, 12);
  });

  it('the ends of the photo go to the ends of paint', () => {
    for (const held of [-1, -0.3, 0, 0.8, 1]) {
      const map = mapOf([4, 98], [25, 95], held);
      expect([map.toPaint(4), map.toPaint(98)]).toEqual([25, 95]);
      expect([map.toPhoto(25), map.toPhoto(95)]).toEqual([4, 98]);
      expect(map.paint).toEqual({ low: 25, high: 95 });
    }
  });

  it('an end within reach stays where it is, and a photo within reach stays as it is', () => {
    const dark = mapOf([5, 80], [25, 95], 0);
    expect(dark.paint).toEqual({ low: 25, high: 80 });
    const light = mapOf([40, 99], [25, 95], 0);
    expect(light.paint).toEqual({ low: 40, high: 95 });
    const within = mapOf([30, 90], [25, 95], -1);
    fc.assert(
      fc.property(lightness, (l) => {
        expect(within.toPaint(l)).toBe(l);
        expect(within.toPhoto(l)).toBe(l);
        expect(within.slopeAt(l)).toBe(1);
        expect(IDENTITY_MAP.toPaint(l)).toBe(l);
      }),
    );
  });

  it('a photo outside what paint reaches is moved inside', () => {
    // 18 wide: half of it is kept, at the darkest paint.
    expect(mapOf([2, 20], [25, 95], 0).paint).toEqual({ low: 25, high: 34 });
    expect(mapOf([92, 100], [25, 90], 0).paint).toEqual({ low: 86, high: 90 });
    expect(mapOf([2, 20], [25, 95], 0).toPaint(11)).toBe(29.5);
    // Paint of 4 L*: half of those.
    expect(mapOf([0, 20], [60, 64], 0).paint).toEqual({ low: 60, high: 62 });
  });

  it('is the rational quadratic of Gregory and Delbourgo with the held end at slope 1', () => {
    for (const held of [-1, -0.6, -0.1, 0, 0.4, 1]) {
      const map = mapOf([3, 97], [25, 94], held);
      const mean = (94 - 25) / (97 - 3);
      const [d0, d1] = [map.slopeAt(3) / mean, map.slopeAt(97) / mean];
      for (let i = 0; i <= 20; i++) {
        const paint = 25 + (94 - 25) * gregoryDelbourgo(i / 20, d0, d1);
        expect(map.toPaint(3 + ((97 - 3) * i) / 20)).toBeCloseTo(paint, 10);
      }
    }
    fc.assert(
      fc.property(anyMap, ({ map }) => {
        const { photo } = map;
        // Neither end is ever stretched.
        expect(map.slopeAt(photo.low)).toBeLessThanOrEqual(1 + 1e-12);
        expect(map.slopeAt(photo.high)).toBeLessThanOrEqual(1 + 1e-12);
      }),
    );
  });

  it('rises where a cubic with the same end slopes would not', () => {
    let monotone = 0;
    let not = 0;
    for (const mean of [0.9, 0.7, 0.5, 0.3, 0.2, 0.15, 0.1]) {
      const map = mapOf([0, 100], [0.5, 0.5 + 100 * mean], -1);
      const [a, b] = [map.slopeAt(0) / mean, map.slopeAt(100) / mean];
      const steps = Array.from({ length: 1001 }, (_, i) => i / 1000);
      const cubicRises = steps.every((t) => cubicSlope(t, a, b) >= -1e-9);
      expect(cubicRises).toBe(fritschCarlson(a, b));
      expect(steps.every((t) => map.slopeAt(100 * t) > 0)).toBe(true);
      if (cubicRises) monotone += 1;
      else not += 1;
    }
    expect(monotone).toBeGreaterThan(0);
    expect(not).toBeGreaterThan(0);
  });

  it('rises strictly, stays in 0..100 and is undone by its inverse', () => {
    fc.assert(
      fc.property(anyMap, lightness, lightness, ({ map }, a, b) => {
        const [low, high] = a < b ? [a, b] : [b, a];
        if (high - low > 1e-9) expect(map.toPaint(low)).toBeLessThan(map.toPaint(high));
        expect(map.toPaint(a)).toBeGreaterThanOrEqual(0);
        expect(map.toPaint(a)).toBeLessThanOrEqual(100);
        expect(Math.abs(map.toPhoto(map.toPaint(a)) - a)).toBeLessThan(1e-9);
      }),
      { numRuns: 3000 },
    );
  });

  it('has the slope it tells, also across the ends', () => {
    const map = mapOf([10, 96], [25, 93], -0.7);
    for (const l of [2, 9.9999, 10, 10.0001, 50, 95.9999, 96, 96.0001, 99]) {
      const step = 1e-5;
      const told = (map.toPaint(l + step) - map.toPaint(l - step)) / (2 * step);
      expect(map.slopeAt(l)).toBeCloseTo(told, 4);
    }
  });

  it('the more the lights are held, the darker what lies between the ends', () => {
    fc.assert(
      fc.property(span, span, holding, holding, lightness, (photo, paint, h1, h2, l) => {
        const [less, more] = h1 < h2 ? [h1, h2] : [h2, h1];
        const darks = rangeMap({ photo, paint, holding: less });
        const lights = rangeMap({ photo, paint, holding: more });
        const inside = photo.low + ((photo.high - photo.low) * l) / 100;
        expect(lights.toPaint(inside)).toBeLessThanOrEqual(darks.toPaint(inside) + 1e-9);
      }),
      { numRuns: 1000 },
    );
    expect(mapOf([0, 100], [25, 95], 1).toPaint(50)).toBeLessThan(
      mapOf([0, 100], [25, 95], 0.9).toPaint(50),
    );
  });

  it('the darkest paint lies among measured masstones', () => {
    // Okumura 2005, RIT MSc thesis, L* of measured masstones: PB15 23.2, PV23 23.9, PG7 25.6, PBk7 26.1, PR122 29.8.
    expect(DARKEST_PAINT).toBeGreaterThan(23.246);
    expect(DARKEST_PAINT).toBeLessThan(29.846);
  });

  it.each<[string, unknown, RegExp]>([
    ['nothing', undefined, /^options is undefined/],
    ['no photo', { paint: { low: 25, high: 95 }, holding: 0 }, /^photo is undefined/],
    ['text', { photo: { low: '1', high: 9 }, paint: {}, holding: 0 }, /^photo\.low is "1"/],
    [
      'a range that falls',
      { photo: { low: 60, high: 50 }, paint: {}, holding: 0 },
      /^photo is "60\.\.50"/,
    ],
    [
      'a paint range that is too narrow',
      { photo: { low: 0, high: 50 }, paint: { low: 40, high: 40.5 }, holding: 0 },
      /^paint is "40\.\.40\.5"/,
    ],
    [
      'a control beyond its ends',
      { photo: { low: 0, high: 50 }, paint: { low: 4, high: 40 }, holding: 1.5 },
      /^holding is 1\.5/,
    ],
    [
      'no number',
      { photo: { low: 0, high: Number.NaN }, paint: { low: 4, high: 40 }, holding: 0 },
      /^photo\.high is NaN/,
    ],
  ])('refuses %s', (_, options, message) => {
    expect(() => rangeMap(options as never)).toThrow(message);
  });

  it('refuses lightness that is none', () => {
    for (const map of [IDENTITY_MAP, mapOf([0, 100], [25, 95], 0)]) {
      expect(() => map.toPaint(101)).toThrow(RangeError);
      expect(() => map.toPhoto(-1)).toThrow(RangeError);
      expect(() => map.slopeAt('5' as never)).toThrow(TypeError);
    }
  });
});

describe('compressedIn', () => {
  it('by hand: where the slope is below a limit', () => {
    expect(COMPRESSED_BELOW).toBe(0.8);
    // D = 1/2, k = 2: slope 1 / (1 + t)^2 < 0.8 from t = sqrt(1.25) - 1 = 0.11803 on.
    const [darks] = compressedIn(mapOf([0, 100], [20, 70], -1));
    const from = 100 * (Math.sqrt(1.25) - 1);
    expect(darks.from).toBeCloseTo(from, 9);
    expect(darks.to).toBe(100);
    // u = 2t / (1 + t) = 0.21115 there: 20 + 10.557; 70 - 30.557 = 39.443 of 88.197 are left.
    expect(darks.loss).toBeCloseTo(88.1966 - 39.4427, 3);
    const [lights] = compressedIn(mapOf([0, 100], [20, 70], 1));
    expect(lights.from).toBe(0);
    expect(lights.to).toBeCloseTo(100 - from, 9);
    expect(lights.loss).toBeCloseTo(darks.loss, 9);
  });

  it('all of a photo whose loss is shared, none of one that paint reaches', () => {
    expect(compressedIn(mapOf([0, 100], [20, 70], 0))).toEqual([{ from: 0, to: 100, loss: 50 }]);
    expect(compressedIn(mapOf([30, 90], [25, 95], -1))).toEqual([]);
    expect(compressedIn(IDENTITY_MAP)).toEqual([]);
    // A tenth lost, shared: too little to tell.
    expect(compressedIn(mapOf([0, 100], [5, 95], 0))).toEqual([]);
  });

  it('as reasons, without words', () => {
    expect(rangeReasons(mapOf([0, 100], [20, 70], 0))).toEqual([
      { code: 'range.compressed', values: { from: 0, to: 100, loss: 50, left: 0.5 } },
    ]);
    expect(rangeReasons(IDENTITY_MAP)).toEqual([]);
  });
});

describe('photoRangeOf', () => {
  it('leaves out one pixel in a hundred at either end', () => {
    const counts = new Uint32Array(256);
    counts[0] = 9; // of 1000: less than 1 %
    counts[51] = 491;
    counts[204] = 491;
    counts[255] = 9;
    expect(photoRangeOf(counts)).toEqual({ low: 20, high: 80 }); // 51 / 2.55, 204 / 2.55
    counts[0] = 10;
    counts[51] = 490;
    expect(photoRangeOf(counts).low).toBe(0);
  });

  it('of one tone, of none', () => {
    const counts = new Uint32Array(256);
    expect(photoRangeOf(counts)).toEqual({ low: 0, high: 100 });
    counts[0] = 5;
    expect(photoRangeOf(counts)).toEqual({ low: 0, high: 1 });
    counts[0] = 0;
    counts[255] = 5;
    expect(photoRangeOf(counts)).toEqual({ low: 99, high: 100 });
    counts[255] = 0;
    counts[102] = 5;
    expect(photoRangeOf(counts)).toEqual({ low: 39.5, high: 40.5 });
    expect(() => photoRangeOf(new Uint32Array(3))).toThrow(RangeError);
  });

  it('of a plane, ready for a map', () => {
    const data = new Uint8ClampedArray(4 * 256);
    for (let i = 0; i < 256; i++) data.set([i, i, i, 255], 4 * i);
    const photo = photoRangeOf(histogramOf(lightnessPlane({ width: 256, height: 1, data })));
    // sRGB grey 2 of 255: Y = 2/255/12.92, L* = 903.3 Y = 0.548, code 1; grey 253: L* 99.3, code 253.
    expect(photo.low).toBeCloseTo(1 / 2.55, 9);
    expect(photo.high).toBeCloseTo(253 / 2.55, 9);
    const map = rangeMap({ photo, paint: { low: DARKEST_PAINT, high: 95 }, holding: 0 });
    expect(map.toPaint(photo.low)).toBe(25);
  });
});
