/**
 * Homographies against OpenCV.js 4.12 (getPerspectiveTransform, findHomography with all points, that is least squares of
 * the transfer error) and against points projected by a pinhole camera written out here.
 */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  applyHomography,
  chainHomographies,
  homographyFit,
  homographyOf,
  invertHomography,
  mirroredCorners,
  type Homography,
} from '../../core/geometry/homography.js';
import type { Corners, Spot } from '../../core/base/types.js';
import { openCv, type OpenCv } from './open-cv.js';

const SQUARE: Corners = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
];

/** A convex quadrilateral: the corners of a rectangle, each moved by less than a third of its sides. */
const quads = fc
  .record({
    x: fc.double({ min: -2000, max: 2000, noNaN: true }),
    y: fc.double({ min: -2000, max: 2000, noNaN: true }),
    width: fc.double({ min: 10, max: 4000, noNaN: true }),
    height: fc.double({ min: 10, max: 4000, noNaN: true }),
    moves: fc.array(fc.double({ min: -0.3, max: 0.3, noNaN: true }), {
      minLength: 8,
      maxLength: 8,
    }),
  })
  .map(({ x, y, width, height, moves }) =>
    SQUARE.map(([u, v], i): Spot => [
      x + (u + moves[2 * i]) * width,
      y + (v + moves[2 * i + 1]) * height,
    ]),
  ) as fc.Arbitrary<Corners>;

/** A level camera looking at a sheet tilted about its upright axis, by the pinhole equation. */
function pinhole([x, y]: Spot, tilt: number, distance: number, focal: number): Spot {
  const depth = distance + x * Math.sin(tilt);
  return [1000 + (focal * x * Math.cos(tilt)) / depth, 800 + (focal * y) / depth];
}

let cv: OpenCv;
beforeAll(async () => {
  ({ cv } = await openCv());
}, 60_000);

function theirs(from: Spot[], to: Spot[], fit: boolean): number[] {
  const a = cv.matFromArray(from.length, 1, cv.CV_32FC2, from.flat());
  const b = cv.matFromArray(to.length, 1, cv.CV_32FC2, to.flat());
  const map = fit ? cv.findHomography(a, b, 0) : cv.getPerspectiveTransform(a, b);
  const values = [...map.data64F];
  for (const mat of [a, b, map]) mat.delete();
  return values;
}

describe('homographyOf', () => {
  it('takes each corner to its partner, to 1e-9 of the size', () => {
    fc.assert(
      fc.property(quads, quads, (from, to) => {
        const map = homographyOf(from, to);
        from.forEach((corner, i) => {
          const [x, y] = applyHomography(map, corner);
          const size = Math.max(...to.flat().map(Math.abs), 1);
          expect(Math.hypot(x - to[i][0], y - to[i][1])).toBeLessThan(1e-9 * size);
        });
      }),
    );
  });

  it('is the map of OpenCV getPerspectiveTransform', () => {
    // Corners that a 32-bit float holds exactly, as OpenCV takes them so.
    const cases: [Corners, Corners][] = [
      [
        SQUARE.map(([x, y]) => [x * 640, y * 480]) as Corners,
        [
          [105, 62],
          [512, 90],
          [598, 431],
          [40, 400],
        ],
      ],
      [
        [
          [40, 12],
          [3000, 220],
          [2890, 2210],
          [130, 1999],
        ],
        [
          [0, 0],
          [210, 0],
          [210, 297],
          [0, 297],
        ],
      ],
      [
        [
          [10, 10],
          [20, 10],
          [20, 20],
          [10, 20],
        ],
        [
          [20, 10],
          [10, 10],
          [10, 20],
          [20, 20],
        ],
      ],
    ];
    for (const [from, to] of cases) {
      const map = homographyOf(from, to);
      theirs(from, to, false).forEach((value, i) => expect(map[i]).toBeCloseTo(value, 9));
    }
  });

  it('finds any point of a tilted sheet where a pinhole camera sees it', () => {
    const sheet: Corners = [
      [-105, -148.5],
      [105, -148.5],
      [105, 148.5],
      [-105, 148.5],
    ];
    const seen = sheet.map((spot) => pinhole(spot, 0.5, 900, 2600)) as Corners;
    const map = homographyOf(sheet, seen);
    for (const spot of [
      [0, 0],
      [50, -20],
      [-104, 148],
      [33.3, 77.7],
    ] as Spot[]) {
      const [x, y] = applyHomography(map, spot);
      const [u, v] = pinhole(spot, 0.5, 900, 2600);
      expect(Math.hypot(x - u, y - v)).toBeLessThan(1e-9 * 1000);
    }
  });

  it('undoes and chains', () => {
    fc.assert(
      fc.property(quads, quads, (from, to) => {
        const map = homographyOf(from, to);
        const back = invertHomography(map);
        const there: Spot = [(from[0][0] + from[2][0]) / 2, (from[0][1] + from[2][1]) / 2];
        const size = Math.max(...from.flat().map(Math.abs), 1);
        for (const [x, y] of [
          applyHomography(back, applyHomography(map, there)),
          applyHomography(chainHomographies(map, back), there),
        ])
          expect(Math.hypot(x - there[0], y - there[1])).toBeLessThan(1e-6 * size);
      }),
    );
  });

  it('tells a mirrored sheet', () => {
    expect(mirroredCorners(SQUARE)).toBe(false);
    expect(
      mirroredCorners([
        [1, 0],
        [0, 0],
        [0, 1],
        [1, 1],
      ]),
    ).toBe(true);
  });

  it.each([
    [
      'crossed',
      [
        [0, 0],
        [10, 0],
        [0, 10],
        [10, 10],
      ],
      /^to is .*crossed/,
    ],
    [
      'three on one line',
      [
        [0, 0],
        [5, 0],
        [10, 0],
        [0, 10],
      ],
      /^to is .*one line/,
    ],
    [
      'all in one place',
      [
        [3, 3],
        [3, 3],
        [3, 3],
        [3, 3],
      ],
      /^to is .*one line/,
    ],
    [
      'dented',
      [
        [0, 0],
        [10, 0],
        [2, 2],
        [0, 10],
      ],
      /^to is .*dent/,
    ],
  ])('refuses corners that are %s', (_, corners, message) => {
    expect(() => homographyOf(SQUARE, corners as Corners)).toThrow(RangeError);
    expect(() => homographyOf(SQUARE, corners as Corners)).toThrow(message);
  });

  it('refuses wrong shapes, naming them', () => {
    expect(() => homographyOf([[0, 0]] as unknown as Corners, SQUARE)).toThrow(TypeError);
    expect(() =>
      homographyOf(SQUARE, [
        [0, 0],
        [1, 0],
        [1, NaN],
        [0, 1],
      ]),
    ).toThrow(/^to\[2\]\[1\] is NaN/);
    expect(() => invertHomography([1, 2, 3, 2, 4, 6, 0, 0, 1])).toThrow(RangeError);
  });
});

describe('homographyFit', () => {
  const sheet: Spot[] = Array.from({ length: 35 }, (_, i) => [
    (i % 7) * 40,
    Math.floor(i / 7) * 50,
  ]);
  const truth = homographyOf(
    [
      [0, 0],
      [240, 0],
      [240, 200],
      [0, 200],
    ],
    [
      [110, 80],
      [900, 130],
      [830, 720],
      [60, 640],
    ],
  );

  it('finds the exact map of exact pairs', () => {
    const map = homographyFit(sheet.map((from) => ({ from, to: applyHomography(truth, from) })));
    map.forEach((value, i) => expect(value).toBeCloseTo(truth[i], 8));
  });

  it('has the same points as OpenCV findHomography on uneven pairs', () => {
    // Moves of up to 3 pixels by a plain rule; to 32-bit floats, as OpenCV takes them.
    const pairs = sheet.map((from, i) => {
      const [x, y] = applyHomography(truth, from);
      return {
        from,
        to: [
          Math.fround(x + 3 * Math.sin(7 * i + 1)),
          Math.fround(y + 3 * Math.cos(11 * i + 2)),
        ] as Spot,
      };
    });
    const map = homographyFit(pairs);
    const other = theirs(
      pairs.map(({ from }) => from),
      pairs.map(({ to }) => to),
      true,
    ) as unknown as Homography;
    for (const { from } of pairs) {
      const [x, y] = applyHomography(map, from);
      const [u, v] = applyHomography(other, from);
      expect(Math.hypot(x - u, y - v)).toBeLessThan(1e-3);
    }
    const errorOf = (m: Homography): number =>
      pairs.reduce((sum, { from, to }) => {
        const [x, y] = applyHomography(m, from);
        return sum + (x - to[0]) ** 2 + (y - to[1]) ** 2;
      }, 0);
    expect(errorOf(map)).toBeLessThanOrEqual(errorOf(other) * (1 + 1e-9));
  });

  it('counts a pair of weight 2 as two pairs, and one of weight 0 not at all', () => {
    const pairs = sheet.map((from, i) => ({
      from,
      to: applyHomography(truth, from).map((v) => v + Math.sin(i)) as Spot,
    }));
    const doubled = homographyFit([...pairs, ...pairs.slice(0, 9)]);
    const weighed = homographyFit([
      ...pairs.map((pair, i) => ({ ...pair, weight: i < 9 ? 2 : 1 })),
      { from: [0, 0], to: [9999, -9999], weight: 0 },
    ]);
    weighed.forEach((value, i) => expect(value).toBeCloseTo(doubled[i], 7));
  });

  it('refuses too few pairs and pairs on one line', () => {
    const three = sheet.slice(0, 3).map((from) => ({ from, to: from }));
    expect(() => homographyFit(three)).toThrow(RangeError);
    const line = Array.from({ length: 9 }, (_, i) => ({
      from: [i, 2 * i] as Spot,
      to: [3 * i, i] as Spot,
    }));
    expect(() => homographyFit(line)).toThrow(/four points, no three on one line/);
  });
});
