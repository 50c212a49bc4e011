import { describe, expect, it } from 'vitest';
import {
  discMask,
  discRuns,
  loopArea,
  loopBounds,
  loopMask,
  simplifyLoop,
} from '../../core/geometry/index.js';
import type { Spot } from '../../core/base/types.js';

/** Deterministic numbers 0..1 (Park & Miller 1988, minimal standard generator). */
function randoms(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48271) % 2147483647) / 2147483647;
}

/** W. Randolph Franklin's pnpoly: even-odd rule by crossings of a ray to the right. */
function pnpoly(loop: Spot[], x: number, y: number): boolean {
  let inside = false;
  for (let i = 0, j = loop.length - 1; i < loop.length; j = i++) {
    const [xi, yi] = loop[i];
    const [xj, yj] = loop[j];
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside;
  }
  return inside;
}

/** Winding number by Sunday 2001: upward crossings left of, downward crossings right of the point. */
function winding(loop: Spot[], x: number, y: number): number {
  let turns = 0;
  for (let i = 0; i < loop.length; i++) {
    const [xa, ya] = loop[i];
    const [xb, yb] = loop[(i + 1) % loop.length];
    const left = (xb - xa) * (y - ya) - (x - xa) * (yb - ya);
    if (ya <= y && yb > y && left > 0) turns++;
    if (ya > y && yb <= y && left < 0) turns--;
  }
  return turns;
}

/** A star-shaped loop (each ray from the middle meets it once, so it does not cross itself). */
function starLoop(
  random: () => number,
  points: number,
  cx: number,
  cy: number,
  size: number,
): Spot[] {
  return Array.from({ length: points }, (_, i): Spot => {
    const angle = ((i + 0.8 * random()) / points) * 2 * Math.PI;
    const radius = size * (0.2 + 0.8 * random());
    return [cx + radius * Math.cos(angle), cy + radius * Math.sin(angle)];
  });
}

describe('loopMask', () => {
  it('agrees with the even-odd rule at every pixel centre of loops that do not cross themselves', () => {
    const random = randoms(7);
    let wrong = 0;
    let inside = 0;
    for (let round = 0; round < 40; round++) {
      const width = 20 + Math.floor(60 * random());
      const height = 20 + Math.floor(60 * random());
      // Some reach beyond the raster.
      const loop = starLoop(
        random,
        3 + Math.floor(20 * random()),
        width * random(),
        height * random(),
        50,
      );
      const mask = loopMask(loop, width, height);
      for (let y = 0; y < height; y++) {
        for (let x = 0; x < width; x++) {
          if (mask[y * width + x] !== (pnpoly(loop, x + 0.5, y + 0.5) ? 1 : 0)) wrong++;
          inside += mask[y * width + x];
        }
      }
    }
    expect(wrong).toBe(0);
    expect(inside).toBeGreaterThan(10000);
  });

  it('agrees with the winding number at every pixel centre of loops that cross themselves', () => {
    let wrong = 0;
    const random = randoms(11);
    for (let round = 0; round < 40; round++) {
      const loop = Array.from({ length: 4 + round }, (): Spot => [
        70 * random() - 5,
        60 * random() - 5,
      ]);
      const mask = loopMask(loop, 60, 50);
      for (let y = 0; y < 50; y++) {
        for (let x = 0; x < 60; x++) {
          if (mask[y * 60 + x] !== (winding(loop, x + 0.5, y + 0.5) !== 0 ? 1 : 0)) wrong++;
        }
      }
    }
    expect(wrong).toBe(0);
  });

  it('keeps what a loop that overruns its own start goes round twice', () => {
    const circle = (turns: number): Spot[] =>
      Array.from({ length: 200 }, (_, i): Spot => {
        const angle = (i / 200) * turns * 2 * Math.PI;
        return [50 + 40 * Math.cos(angle), 50 + 40 * Math.sin(angle)];
      });
    const once = loopMask(circle(1), 100, 100);
    const overrun = loopMask(circle(1.2), 100, 100);
    expect(once[50 * 100 + 50]).toBe(1);
    expect(overrun[50 * 100 + 50]).toBe(1);
    const sum = (mask: Uint8Array): number => mask.reduce((a, b) => a + b, 0);
    expect(Math.abs(sum(overrun) - sum(once))).toBeLessThan(0.05 * sum(once));
  });

  it('counts as many pixels as the area of a rectangle on pixel borders, and neighbours share none', () => {
    const left: Spot[] = [
      [2, 3],
      [10, 3],
      [10, 9],
      [2, 9],
    ];
    const right: Spot[] = [
      [10, 3],
      [17, 3],
      [17, 9],
      [10, 9],
    ];
    const a = loopMask(left, 20, 12);
    const b = loopMask(right, 20, 12);
    expect(a.reduce((s, v) => s + v, 0)).toBe(48);
    expect(b.reduce((s, v) => s + v, 0)).toBe(42);
    expect(a.some((v, i) => v + b[i] > 1)).toBe(false);
    // Borders that run through pixel centres.
    const c = loopMask(
      [
        [2.5, 3.5],
        [10.5, 3.5],
        [10.5, 9.5],
        [2.5, 9.5],
      ],
      20,
      12,
    );
    expect(c.reduce((s, v) => s + v, 0)).toBe(48);
  });

  it('approaches the area of a circle', () => {
    const loop = Array.from({ length: 720 }, (_, i): Spot => {
      const angle = (i * Math.PI) / 360;
      return [300 + 250.3 * Math.cos(angle), 300 + 250.3 * Math.sin(angle)];
    });
    const pixels = loopMask(loop, 600, 600).reduce((s, v) => s + v, 0);
    expect(Math.abs(pixels / (Math.PI * 250.3 ** 2) - 1)).toBeLessThan(0.001);
  });

  it('encloses nothing with fewer than three points, on a line, or outside the raster', () => {
    for (const loop of [
      [],
      [[1, 1]],
      [
        [1, 1],
        [5, 5],
      ],
      [
        [0, 0],
        [5, 5],
        [9, 9],
      ],
      [
        [20, 20],
        [30, 20],
        [30, 30],
      ],
    ] as Spot[][]) {
      expect(loopMask(loop, 10, 10).every((v) => v === 0)).toBe(true);
    }
  });

  it('names a wrong argument', () => {
    expect(() => loopMask('loop' as unknown as Spot[], 4, 4)).toThrow(/^loop is "loop"/);
    expect(() =>
      loopMask(
        [
          [0, 0],
          [NaN, 1],
          [1, 1],
        ],
        4,
        4,
      ),
    ).toThrow(/loop\[1\]\[0\] is NaN/);
    expect(() => loopMask([[0, 0], 3 as unknown as Spot, [1, 1]], 4, 4)).toThrow(TypeError);
    expect(() => loopMask([], 0, 4)).toThrow(/^width is 0/);
    expect(() => loopMask([], 4, 1.5)).toThrow(/^height is 1.5/);
    expect(() => loopMask([], 2 ** 20, 2 ** 20)).toThrow(RangeError);
  });
});

describe('discs', () => {
  it('hold the pixels whose centres are within the radius, and always the one under the middle', () => {
    let wrong = 0;
    const random = randoms(3);
    for (let round = 0; round < 60; round++) {
      const [width, height] = [1 + Math.floor(40 * random()), 1 + Math.floor(40 * random())];
      const [x, y] = [width * random(), height * random()];
      const radius = round % 3 === 0 ? random() * 0.4 : random() * 30;
      const mask = discMask(x, y, radius, width, height);
      for (let j = 0; j < height; j++) {
        for (let i = 0; i < width; i++) {
          const near = (i + 0.5 - x) ** 2 + (j + 0.5 - y) ** 2 <= radius ** 2;
          const under = i === Math.floor(x) && j === Math.floor(y);
          if (mask[j * width + i] !== (near || under ? 1 : 0)) wrong++;
        }
      }
    }
    expect(wrong).toBe(0);
  });

  it('takes the last pixel at the far corner, and nothing when it lies wholly outside', () => {
    expect([...discRuns(8, 5, 0, 8, 5)]).toEqual([4, 7, 8]);
    expect(discRuns(-20, 2, 5, 8, 5)).toHaveLength(0);
    expect(discRuns(4, 30, 5, 8, 5)).toHaveLength(0);
    // Centre (0.5, 0.5) is 1.5 away, (0.5, 1.5) is sqrt(3.25), (0.5, 2.5) is 2.5.
    expect([...discRuns(-1, 0.5, 2, 8, 5)]).toEqual([0, 0, 1, 1, 0, 1]);
  });

  it('names a wrong argument', () => {
    expect(() => discMask(0, 0, -1, 4, 4)).toThrow(/^radius is -1/);
    expect(() => discMask(Infinity, 0, 1, 4, 4)).toThrow(/^x is Infinity/);
  });
});

describe('areas and bounds', () => {
  it('follow the shoelace formula on known shapes', () => {
    expect(
      loopArea([
        [0, 0],
        [4, 0],
        [4, 3],
        [0, 3],
      ]),
    ).toBe(12);
    expect(
      loopArea([
        [0, 3],
        [4, 3],
        [4, 0],
        [0, 0],
      ]),
    ).toBe(12);
    expect(
      loopArea([
        [0, 0],
        [4, 0],
        [0, 3],
      ]),
    ).toBe(6);
    // An L of 3 x 3 less 2 x 2.
    expect(
      loopArea([
        [0, 0],
        [3, 0],
        [3, 1],
        [1, 1],
        [1, 3],
        [0, 3],
      ]),
    ).toBe(5);
    // A regular hexagon of side 2: 6 sqrt(3); far from the origin it keeps its digits.
    const hexagon = Array.from({ length: 6 }, (_, i): Spot => [
      1e6 + 2 * Math.cos((i * Math.PI) / 3),
      1e6 + 2 * Math.sin((i * Math.PI) / 3),
    ]);
    expect(loopArea(hexagon)).toBeCloseTo(6 * Math.sqrt(3), 7);
    expect(
      loopArea([
        [0, 0],
        [4, 0],
      ]),
    ).toBe(0);
  });

  it('hold all points', () => {
    expect(
      loopBounds([
        [3, -1],
        [7, 4],
        [-2, 2],
      ]),
    ).toEqual({ x: -2, y: -1, width: 9, height: 5 });
    expect(() => loopBounds([])).toThrow(/at least one point/);
  });
});

describe('simplifyLoop', () => {
  it('keeps the corners of a square drawn with many points', () => {
    const corners: Spot[] = [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ];
    const drawn = corners.flatMap(([x, y], i) => {
      const [nx, ny] = corners[(i + 1) % 4];
      return Array.from({ length: 25 }, (_, k): Spot => [
        x + ((nx - x) * k) / 25,
        y + ((ny - y) * k) / 25,
      ]);
    });
    expect(simplifyLoop(drawn, 0.01)).toEqual(corners);
  });

  it('drops no point farther than the tolerance from what is left, and keeps points of the loop in order', () => {
    const random = randoms(5);
    const distance = (p: Spot, a: Spot, b: Spot): number => {
      let best = Infinity;
      for (let t = 0; t <= 1.0001; t += 0.002)
        best = Math.min(
          best,
          Math.hypot(a[0] + t * (b[0] - a[0]) - p[0], a[1] + t * (b[1] - a[1]) - p[1]),
        );
      return best;
    };
    for (let round = 0; round < 6; round++) {
      const loop = starLoop(random, 60, 0, 0, 20);
      const kept = simplifyLoop(loop, 1.5);
      expect(kept.length).toBeLessThan(loop.length);
      const places = kept.map((p) => loop.findIndex((q) => q[0] === p[0] && q[1] === p[1]));
      expect(places).toEqual([...places].sort((a, b) => a - b));
      for (const p of loop) {
        const nearest = Math.min(
          ...kept.map((a, i) => distance(p, a, kept[(i + 1) % kept.length])),
        );
        expect(nearest).toBeLessThanOrEqual(1.5 + 0.05);
      }
    }
  });

  it('copies short loops and refuses a wrong tolerance', () => {
    const loop: Spot[] = [
      [0, 0],
      [1, 0],
      [0, 1],
    ];
    const copy = simplifyLoop(loop, 5);
    expect(copy).toEqual(loop);
    expect(copy[0]).not.toBe(loop[0]);
    expect(() => simplifyLoop(loop, -1)).toThrow(/^tolerance is -1/);
  });
});
