import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { outlinesOf, pathOf, type Masses, type Outline } from '../../core/index.js';
import { drawnRows, massesOfLabels, minimalStandard } from './masses-helper.js';

type Point = [x: number, y: number];

const pointsOf = (ring: Float32Array): Point[] =>
  Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], ring[2 * i + 1]]);

const sidesOf = (ring: Float32Array): [Point, Point][] => {
  const points = pointsOf(ring);
  return points.map((point, i) => [point, points[(i + 1) % points.length]]);
};

/** Shoelace formula; above 0 when clockwise with y down. */
const signedArea = (ring: Float32Array): number =>
  sidesOf(ring).reduce((sum, [[x0, y0], [x1, y1]]) => sum + x0 * y1 - x1 * y0, 0) / 2;

/** Winding number by the angle that the ring turns about the point: independent of any crossing rule. */
function winding(ring: Float32Array, x: number, y: number): number {
  let angle = 0;
  for (const [[x0, y0], [x1, y1]] of sidesOf(ring)) {
    const [ax, ay, bx, by] = [x0 - x, y0 - y, x1 - x, y1 - y];
    angle += Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
  }
  return Math.round(angle / (2 * Math.PI));
}

const ownersOf = (outlines: Outline[], x: number, y: number): number[] =>
  outlines
    .filter(({ rings }) => rings.reduce((sum, ring) => sum + winding(ring, x, y), 0) !== 0)
    .map(({ region }) => region);

const distanceTo = ([px, py]: Point, [[x0, y0], [x1, y1]]: [Point, Point]): number => {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const length2 = dx * dx + dy * dy;
  const t =
    length2 === 0 ? 0 : Math.max(0, Math.min(1, ((px - x0) * dx + (py - y0) * dy) / length2));
  return Math.hypot(px - x0 - t * dx, py - y0 - t * dy);
};

/** The sides of pixels of `region` that border on other pixels or the picture's frame. */
function exactSides({ labels, map: { width, height } }: Masses, region: number): [Point, Point][] {
  const sides: [Point, Point][] = [];
  const has = (x: number, y: number): boolean =>
    x >= 0 && y >= 0 && x < width && y < height && labels[y * width + x] === region;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      if (!has(x, y)) continue;
      if (!has(x, y - 1))
        sides.push([
          [x, y],
          [x + 1, y],
        ]);
      if (!has(x, y + 1))
        sides.push([
          [x, y + 1],
          [x + 1, y + 1],
        ]);
      if (!has(x - 1, y))
        sides.push([
          [x, y],
          [x, y + 1],
        ]);
      if (!has(x + 1, y))
        sides.push([
          [x + 1, y],
          [x + 1, y + 1],
        ]);
    }
  }
  return sides;
}

/** Points along sides, about 4 a pixel. */
const along = (sides: [Point, Point][]): Point[] =>
  sides.flatMap(([[x0, y0], [x1, y1]]) => {
    const count = Math.max(1, Math.ceil(4 * Math.hypot(x1 - x0, y1 - y0)));
    return Array.from({ length: count }, (_, i): Point => [
      x0 + ((x1 - x0) * i) / count,
      y0 + ((y1 - y0) * i) / count,
    ]);
  });

/** Hausdorff distance of an outline and the exact border, on samples 1/4 pixel apart (so at most 1/8 too small). */
function hausdorff(masses: Masses, outline: Outline): number {
  const drawn = outline.rings.flatMap(sidesOf);
  const exact = exactSides(masses, outline.region);
  // Sides farther than this along an axis are no nearest ones, or the distance is too large anyway.
  const near = 12;
  const farthest = (from: [Point, Point][], to: [Point, Point][]): number => {
    const boxes = to.map(([[x0, y0], [x1, y1]]) => [
      Math.min(x0, x1) - near,
      Math.min(y0, y1) - near,
      Math.max(x0, x1) + near,
      Math.max(y0, y1) + near,
    ]);
    let most = 0;
    for (const point of along(from)) {
      const [x, y] = point;
      let least = Infinity;
      for (let i = 0; i < to.length; i++) {
        const box = boxes[i];
        if (x < box[0] || y < box[1] || x > box[2] || y > box[3]) continue;
        least = Math.min(least, distanceTo(point, to[i]));
      }
      most = Math.max(most, least);
    }
    return most;
  };
  return Math.max(farthest(drawn, exact), farthest(exact, drawn));
}

/** Every check that holds for any masses. */
function expectSound(masses: Masses, outlines: Outline[], samples = 60): void {
  const { width, height } = masses.map;
  expect(outlines.map(({ region }) => region)).toEqual(masses.regions.map(({ id }) => id));

  // Inside the picture each side is walked once each way; on its frame once.
  const walked = new Map<string, number>();
  const key = ([x0, y0]: Point, [x1, y1]: Point): string => `${x0},${y0} ${x1},${y1}`;
  for (const { rings } of outlines) {
    expect(rings.length).toBeGreaterThan(0);
    for (const ring of rings) {
      expect(ring.length).toBeGreaterThanOrEqual(6);
      for (const [a, b] of sidesOf(ring)) walked.set(key(a, b), (walked.get(key(a, b)) ?? 0) + 1);
    }
    expect(signedArea(rings[0])).toBeGreaterThan(0);
    for (const hole of rings.slice(1)) expect(signedArea(hole)).toBeLessThan(0);
  }
  let frame = 0;
  for (const [side, times] of walked) {
    expect(times).toBe(1);
    const [a, b] = side.split(' ').map((end) => end.split(',').map(Number) as Point);
    const onFrame =
      (a[0] === b[0] && (a[0] === 0 || a[0] === width)) ||
      (a[1] === b[1] && (a[1] === 0 || a[1] === height));
    expect(walked.has(key(b, a))).toBe(!onFrame);
    if (onFrame) frame += Math.hypot(b[0] - a[0], b[1] - a[1]);
  }
  expect(frame).toBeCloseTo(2 * (width + height), 4);

  const area = outlines.reduce(
    (sum, { rings }) => sum + rings.reduce((part, ring) => part + signedArea(ring), 0),
    0,
  );
  expect(area).toBeCloseTo(width * height, 2);

  const next = minimalStandard(7);
  for (let i = 0; i < samples; i++)
    expect(ownersOf(outlines, next() * width, next() * height)).toHaveLength(1);
}

/** Round and wavy shapes with an island and one region that meets itself at a corner. */
function wavyMasses(width = 96, height = 72): Masses {
  const drawn = Array.from({ length: width * height }, (_, at) => {
    const x = (at % width) + 0.5;
    const y = Math.floor(at / width) + 0.5;
    if (Math.hypot(x - 30, y - 30) < 9) return 3;
    if (Math.hypot(x - 70, y - 25) < 14) return Math.hypot(x - 70, y - 25) < 6 ? 0 : 2;
    return y > 48 + 7 * Math.sin(x / 9) ? 1 : x > 50 + y / 5 ? 4 : 5;
  });
  return massesOfLabels(drawn, width, height);
}

describe('outlinesOf', () => {
  it('cuts every border once, so that every point has one owner and areas add up', () => {
    const masses = wavyMasses();
    for (const tolerancePx of [0, 0.5, 0.6, 1, 1.5, 3, 8]) {
      expectSound(masses, outlinesOf(masses, { tolerancePx }), 200);
    }
    expectSound(masses, outlinesOf(masses), 400);
  });

  it('keeps within the tolerance of the exact border', () => {
    const masses = wavyMasses();
    for (const tolerancePx of [0.6, 1, 1.5, 3]) {
      for (const outline of outlinesOf(masses, { tolerancePx }))
        expect(hausdorff(masses, outline)).toBeLessThanOrEqual(tolerancePx);
    }
    for (const outline of outlinesOf(masses))
      expect(hausdorff(masses, outline)).toBeLessThanOrEqual(1.5);
  });

  it('tolerates a thousandth of the longer side where that is more', () => {
    const masses = massesOfLabels(
      Array.from({ length: 3000 * 12 }, (_, at) =>
        Math.floor(at / 3000) + 0.5 > 6 + 3 * Math.sin((at % 3000) / 25) ? 1 : 0,
      ),
      3000,
      12,
    );
    expect(outlinesOf(masses)).toEqual(outlinesOf(masses, { tolerancePx: 3 }));
    expect(outlinesOf(wavyMasses())).toEqual(outlinesOf(wavyMasses(), { tolerancePx: 1.5 }));
  });

  it('is the exact border when nothing is tolerated', () => {
    const masses = wavyMasses();
    for (const outline of outlinesOf(masses, { tolerancePx: 0 })) {
      expect(hausdorff(masses, outline)).toBeCloseTo(0, 9);
      const area = outline.rings.reduce((sum, ring) => sum + signedArea(ring), 0);
      expect(area).toBe(masses.regions[outline.region].area);
    }
  });

  it('gives pixels away from the border to their region', () => {
    const masses = wavyMasses();
    const outlines = outlinesOf(masses);
    const { width, height } = masses.map;
    const next = minimalStandard(11);
    for (let i = 0; i < 500; i++) {
      const x = Math.floor(next() * (width - 4)) + 2;
      const y = Math.floor(next() * (height - 4)) + 2;
      const region = masses.labels[y * width + x];
      let near = false;
      for (let dy = -2; dy <= 2; dy++) {
        for (let dx = -2; dx <= 2; dx++)
          near ||= masses.labels[(y + dy) * width + x + dx] !== region;
      }
      if (!near) expect(ownersOf(outlines, x + 0.5, y + 0.5)).toEqual([region]);
    }
  });

  it('goes round a single region as the frame does', () => {
    for (const [width, height] of [
      [1, 1],
      [7, 4],
    ]) {
      const [{ rings }] = outlinesOf(
        massesOfLabels(new Array(width * height).fill(0), width, height),
      );
      expect(rings.map((ring) => [...ring])).toEqual([[0, 0, width, 0, width, height, 0, height]]);
    }
  });

  it('holds regions that meet at a corner only apart', () => {
    const { drawn, width, height } = drawnRows(['aabb', 'aabb', 'bbaa', 'bbaa']);
    // Four regions: labels of the diagonal ones differ, as 4-adjacency has it.
    const masses = massesOfLabels(
      drawn.map((label, at) => label + (at >= 8 ? 2 : 0)),
      width,
      height,
    );
    for (const { rings } of outlinesOf(masses)) {
      expect(rings).toHaveLength(1);
      expect(signedArea(rings[0])).toBe(4);
    }
  });

  it('passes the corner where a region meets itself twice, without cutting across', () => {
    // The ring of a touches itself at two corners; b is within, c fills the corner that a leaves open.
    const { drawn, width, height } = drawnRows(['aaaaaa', 'aabaaa', 'aaabaa', 'aaaaaa']);
    const b = drawn.slice();
    b[2 * width + 3] = 'c'.charCodeAt(0);
    const masses = massesOfLabels(b, width, height);
    for (const tolerancePx of [0, 1.5]) {
      const outlines = outlinesOf(masses, { tolerancePx });
      expectSound(masses, outlines, 200);
      expect(outlines.map(({ rings }) => rings.length).sort()).toEqual([1, 1, 2]);
    }
  });

  it('is right on a checkerboard of single pixels', () => {
    const masses = massesOfLabels(
      Array.from({ length: 48 }, (_, i) => i),
      8,
      6,
    );
    const outlines = outlinesOf(masses);
    for (const { rings } of outlines) expect(signedArea(rings[0])).toBe(1);
    expectSound(masses, outlines);
  });

  it('is sound on random maps, with thin parts and islands of a pixel', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 18 }),
        fc.integer({ min: 1, max: 18 }),
        fc.integer({ min: 2, max: 4 }),
        fc.integer({ min: 1, max: 2147483646 }),
        fc.constantFrom(0, 0.6, 1, 1.5, 4),
        (width, height, colours, seed, tolerancePx) => {
          const masses = randomMasses(width, height, colours, seed);
          expectSound(masses, outlinesOf(masses, { tolerancePx }), 8);
        },
      ),
      { numRuns: 150 },
    );
  });

  it('keeps each island in the region that surrounds it, however thin', () => {
    for (let seed = 1; seed < 25; seed++) {
      const masses = randomMasses(24, 24, 3, seed * 7919);
      const outlines = outlinesOf(masses, { tolerancePx: 6 });
      expectSound(masses, outlines, 8);
      // The winding at a region's own vertices tells whose border they are: its own and its neighbours' only.
      for (const { region, rings } of outlines) {
        for (const ring of rings) {
          const [[x0, y0], [x1, y1]] = sidesOf(ring)[0];
          const [mx, my] = [(x0 + x1) / 2, (y0 + y1) / 2];
          const length = Math.hypot(x1 - x0, y1 - y0);
          // A hair to the left of the first side, as it is walked.
          const [lx, ly] = [mx + (1e-4 * (y1 - y0)) / length, my - (1e-4 * (x1 - x0)) / length];
          if (lx < 0 || ly < 0 || lx > 24 || ly > 24) continue;
          const [other] = ownersOf(outlines, lx, ly);
          expect(masses.regions[region].neighbours).toContain(other);
        }
      }
    }
  });

  it('draws a straight slanted border as one line, whatever the steps of its pixels', () => {
    const [width, height] = [120, 80];
    const masses = massesOfLabels(
      Array.from({ length: width * height }, (_, at) =>
        Math.floor(at / width) + 0.5 > 20 + 0.23 * ((at % width) + 0.5) ? 1 : 0,
      ),
      width,
      height,
    );
    const [{ rings }] = outlinesOf(masses);
    const inner = pointsOf(rings[0]).filter(([x, y]) => x > 0 && y > 0 && x < width && y < height);
    expect(inner.length).toBeLessThanOrEqual(2);
  });

  it('names a wrong argument and leaves the masses alone', () => {
    const masses = wavyMasses(20, 10);
    const copy = structuredClone(masses);
    outlinesOf(masses);
    expect(masses).toEqual(copy);
    expect(() => outlinesOf(masses, { tolerancePx: -1 })).toThrow(/tolerancePx is -1/);
    expect(() => outlinesOf(masses, { tolerancePx: NaN })).toThrow(RangeError);
    expect(() => outlinesOf({} as never)).toThrow(/masses.map/);
    expect(() => outlinesOf({ ...masses, labels: new Int32Array(3) })).toThrow(/masses.labels/);
  });
});

/** Random blots, labelled so that every region is 4-connected. */
function randomMasses(width: number, height: number, colours: number, seed: number): Masses {
  const next = minimalStandard(seed);
  const blots = Array.from({ length: width * height }, () => Math.floor(next() * colours));
  for (let i = 0; i < width * height; i++)
    if (i % width > 0 && next() < 0.5) blots[i] = blots[i - 1];
    else if (i >= width && next() < 0.5) blots[i] = blots[i - width];
  const drawn = new Int32Array(width * height).fill(-1);
  let label = 0;
  for (let start = 0; start < drawn.length; start++) {
    if (drawn[start] >= 0) continue;
    const waiting = [start];
    drawn[start] = label;
    for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
      const x = at % width;
      for (const to of [x > 0 ? at - 1 : -1, x + 1 < width ? at + 1 : -1, at - width, at + width]) {
        if (to < 0 || to >= drawn.length || drawn[to] >= 0 || blots[to] !== blots[at]) continue;
        drawn[to] = label;
        waiting.push(to);
      }
    }
    label++;
  }
  return massesOfLabels(drawn, width, height);
}

describe('pathOf', () => {
  it('writes M, L, H, V and Z with short decimals', () => {
    const rings = [
      Float32Array.of(0, 0, 10, 0, 10, 5, 3.5, 2.25),
      Float32Array.of(1, 1, 1, 2, 2.1, 2),
    ];
    expect(pathOf({ region: 0, rings })).toBe('M0 0H10V5L3.5 2.25ZM1 1V2H2.1Z');
    expect(pathOf({ region: 3, rings: [] })).toBe('');
  });

  it('holds the same points as the rings', () => {
    for (const outline of outlinesOf(wavyMasses())) {
      const path = pathOf(outline);
      expect(path).toMatch(/^(M[-\d. ]+([LHV][-\d. ]+)+Z)+$/);
      const rings = path.split('Z').slice(0, -1);
      expect(rings).toHaveLength(outline.rings.length);
      rings.forEach((ring, i) => {
        let [x, y] = [0, 0];
        const points = (ring.match(/[MLHV][^MLHV]*/g) ?? []).flatMap((command) => {
          const numbers = command.slice(1).split(' ').map(Number);
          if (command[0] === 'H') x = numbers[0];
          else if (command[0] === 'V') y = numbers[0];
          else [x, y] = numbers;
          return [x, y];
        });
        expect([...Float32Array.from(points)]).toEqual([...outline.rings[i]]);
      });
    }
  });

  it('names a wrong argument', () => {
    expect(() => pathOf({ region: 0, rings: [[0, 0]] } as never)).toThrow(/rings\[0\]/);
    expect(() => pathOf(undefined as never)).toThrow(TypeError);
  });
});
