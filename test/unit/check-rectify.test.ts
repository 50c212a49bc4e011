/**
 * Sheets brought upright, against OpenCV.js 4.12 (warpPerspective on 32-bit linear light), against patterns given by
 * formula, and against plain means where a whole number of pixels falls into one.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { byteOfLinear, linearOfSrgb } from '../../core/colour/index.js';
import { applyHomography, homographyOf, type Homography } from '../../core/geometry/index.js';
import { rectify } from '../../core/check/index.js';
import type { Corners, Pixels } from '../../core/base/types.js';
import { openCv, type OpenCv } from './open-cv.js';

const whole = (width: number, height: number): Corners => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

function picture(
  width: number,
  height: number,
  at: (x: number, y: number) => readonly number[],
): Pixels {
  const data = new Uint8ClampedArray(4 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const [red, green, blue, alpha = 255] = at(x, y);
      data.set([red, green, blue, alpha], 4 * (y * width + x));
    }
  return { width, height, data };
}

/** Bytes without a rule that an average could hide. */
const noise = (width: number, height: number): Pixels => {
  let state = 20261125;
  const next = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state >>> 24;
  };
  return picture(width, height, () => [next(), next(), next()]);
};

let cv: OpenCv;
beforeAll(async () => {
  ({ cv } = await openCv());
}, 60_000);

describe('rectify', () => {
  it('gives the same picture for its own corners', () => {
    const source = noise(61, 47);
    const copy = source.data.slice();
    const out = rectify(source, whole(61, 47), { width: 61, height: 47 });
    expect([out.width, out.height]).toEqual([61, 47]);
    expect(out.data).toEqual(source.data);
    expect(source.data).toEqual(copy);
  });

  it('gives a part for the corners of a part, and turns with its corners', () => {
    const source = noise(20, 12);
    const part = rectify(
      source,
      [
        [3, 2],
        [13, 2],
        [13, 10],
        [3, 10],
      ],
      { width: 10, height: 8 },
    );
    const turned = rectify(
      source,
      [
        [20, 0],
        [20, 12],
        [0, 12],
        [0, 0],
      ],
      { width: 12, height: 20 },
    );
    const mirrored = rectify(
      source,
      [
        [20, 0],
        [0, 0],
        [0, 12],
        [20, 12],
      ],
      { width: 20, height: 12 },
    );
    const of = (p: Pixels, x: number, y: number): number[] => [
      ...p.data.subarray(4 * (y * p.width + x), 4 * (y * p.width + x) + 4),
    ];
    for (let y = 0; y < 8; y++)
      for (let x = 0; x < 10; x++) {
        expect(of(part, x, y)).toEqual(of(source, x + 3, y + 2));
        expect(of(turned, y, x)).toEqual(of(source, 19 - x, y));
        expect(of(mirrored, x, y)).toEqual(of(source, 19 - x, y));
      }
  });

  it('is the mean of linear light where 2 x 3, and where all, pixels fall into one', () => {
    const source = noise(24, 18);
    const meanOf = (x0: number, y0: number, w: number, h: number): number[] =>
      [0, 1, 2].map((channel) => {
        let sum = 0;
        for (let y = y0; y < y0 + h; y++)
          for (let x = x0; x < x0 + w; x++)
            sum += linearOfSrgb(source.data[4 * (y * 24 + x) + channel] / 255);
        return byteOfLinear(sum / (w * h));
      });
    const out = rectify(source, whole(24, 18), { width: 12, height: 6 });
    for (let y = 0; y < 6; y++)
      for (let x = 0; x < 12; x++)
        expect([...out.data.subarray(4 * (y * 12 + x), 4 * (y * 12 + x) + 3)]).toEqual(
          meanOf(2 * x, 3 * y, 2, 3),
        );
    const one = rectify(source, whole(24, 18), { width: 1, height: 1 });
    expect([...one.data]).toEqual([...meanOf(0, 0, 24, 18), 255]);
  });

  it('takes a picture of one pixel to any size', () => {
    const dot = picture(1, 1, () => [12, 200, 99]);
    const out = rectify(dot, whole(1, 1), { width: 3, height: 2 });
    for (let k = 0; k < out.data.length; k += 4)
      expect([...out.data.subarray(k, k + 4)]).toEqual([12, 200, 99, 255]);
  });

  it('lays alpha over white in linear light', () => {
    const source = picture(4, 4, () => [0, 0, 0, 128]);
    const out = rectify(source, whole(4, 4), { width: 2, height: 2 });
    expect([...out.data.subarray(0, 4)]).toEqual([
      ...new Array<number>(3).fill(byteOfLinear(1 - 128 / 255)),
      255,
    ]);
  });

  it('brings a slanted checker pattern upright: squares where they belong', () => {
    // A sheet of 8 x 6 squares of 40, seen through a homography; each photo pixel is the mean of 8 x 8 places.
    const seen: Corners = [
      [62, 41],
      [588, 95],
      [540, 446],
      [25, 390],
    ];
    const onSheet = homographyOf(seen, whole(320, 240));
    const square = (x: number, y: number): number =>
      (Math.floor(x / 40) + Math.floor(y / 40)) % 2 === 0 ? 0.05 : 0.8;
    const photo = picture(640, 480, (x, y) => {
      let sum = 0;
      for (let j = 0; j < 8; j++)
        for (let i = 0; i < 8; i++) {
          const [u, v] = applyHomography(onSheet, [x + (i + 0.5) / 8, y + (j + 0.5) / 8]);
          sum += square(u, v);
        }
      return new Array<number>(3).fill(byteOfLinear(sum / 64));
    });
    const out = rectify(photo, seen, { width: 320, height: 240 });
    let worst = 0;
    for (let y = 0; y < 240; y++)
      for (let x = 0; x < 320; x++) {
        // A pixel of the sheet is about 1.6 of the photo: away from the borders it must be the square's own tone.
        if ([x, y].some((at) => at % 40 < 2 || at % 40 > 37)) continue;
        const wanted = byteOfLinear(square(x + 0.5, y + 0.5));
        worst = Math.max(worst, Math.abs(out.data[4 * (y * 320 + x)] - wanted));
      }
    expect(worst).toBe(0);
  });

  it('has the light of OpenCV warpPerspective where nothing shrinks', () => {
    const source = picture(160, 120, (x, y) => [
      Math.round(128 + 100 * Math.sin(x / 9) * Math.cos(y / 7)),
      Math.round(128 + 100 * Math.cos(x / 11 + y / 13)),
      Math.round(40 + x + y / 2),
    ]);
    const corners: Corners = [
      [20.5, 12.25],
      [139, 30],
      [131.5, 110],
      [9, 92.75],
    ];
    const size = { width: 180, height: 150 };
    const out = rectify(source, corners, size);
    // OpenCV counts from the middle of the first pixel.
    const map = homographyOf(
      whole(size.width, size.height).map(([x, y]) => [x - 0.5, y - 0.5]) as Corners,
      corners.map(([x, y]) => [x - 0.5, y - 0.5]) as Corners,
    ) as Homography;
    const WARP_INVERSE_MAP = 16;
    let worst = 0;
    for (let channel = 0; channel < 3; channel++) {
      const light = Float32Array.from({ length: 160 * 120 }, (_, i) =>
        linearOfSrgb(source.data[4 * i + channel] / 255),
      );
      const from = cv.matFromArray(120, 160, cv.CV_32FC1, light);
      const by = cv.matFromArray(3, 3, cv.CV_64FC1, map);
      const to = new cv.Mat();
      cv.warpPerspective(
        from,
        to,
        by,
        new cv.Size(size.width, size.height),
        cv.INTER_LINEAR | WARP_INVERSE_MAP,
        cv.BORDER_REPLICATE,
      );
      const theirs = to.data32F;
      for (let i = 0; i < size.width * size.height; i++) {
        const ours = linearOfSrgb(out.data[4 * i + channel] / 255);
        worst = Math.max(worst, Math.abs(ours - theirs[i]));
      }
      for (const mat of [from, by, to]) mat.delete();
    }
    // A byte is up to 0.0045 of light either way; OpenCV reads at 1/32 of a pixel.
    expect(worst).toBeLessThan(0.006);
  });

  it.each([
    [
      'crossed',
      [
        [0, 0],
        [9, 0],
        [0, 9],
        [9, 9],
      ],
    ],
    [
      'on one line',
      [
        [0, 0],
        [4, 4],
        [8, 8],
        [0, 9],
      ],
    ],
    [
      'without area',
      [
        [5, 5],
        [5, 5],
        [5, 5],
        [5, 5],
      ],
    ],
    [
      'far outside',
      [
        [0, 0],
        [40, 0],
        [40, 9],
        [0, 9],
      ],
    ],
  ])('refuses corners %s', (_, corners) => {
    const source = noise(10, 10);
    expect(() => rectify(source, corners as Corners, { width: 5, height: 5 })).toThrow(RangeError);
    expect(() => rectify(source, corners as Corners, { width: 5, height: 5 })).toThrow(/^corners/);
  });

  it('refuses wrong sizes and pixels, naming them', () => {
    const source = noise(10, 10);
    const corners = whole(10, 10);
    expect(() => rectify(source, corners, { width: 0, height: 5 })).toThrow(/^size\.width is 0/);
    expect(() => rectify(source, corners, { width: 5, height: 1.5 })).toThrow(RangeError);
    expect(() => rectify(source, corners, { width: 16384, height: 16384 })).toThrow(/^size is/);
    expect(() =>
      rectify({ ...source, data: source.data.subarray(4) }, corners, { width: 5, height: 5 }),
    ).toThrow(/^pixels\.data/);
    expect(() => rectify(source, null as unknown as Corners, { width: 5, height: 5 })).toThrow(
      TypeError,
    );
  });
});
