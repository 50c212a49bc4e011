import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { finish } from '../../core/base/kernel.js';
import {
  massesFromTree,
  massesOf,
  massTreeKernel,
  type Lightness,
  type Masses,
} from '../../core/index.js';
import { photograph, planeOf } from './mass-helper.js';

type Options = Parameters<typeof massesOf>[1];

/** Whether all pixels of the picture within `radius` of a pixel have its label: the guarantee, written out. */
function holds(masses: Masses, x: number, y: number, radius: number): boolean {
  const { width, height } = masses.map;
  const label = masses.labels[y * width + x];
  for (let j = Math.max(0, y - radius); j <= Math.min(height - 1, y + radius); j++)
    for (let i = Math.max(0, x - radius); i <= Math.min(width - 1, x + radius); i++)
      if ((i - x) ** 2 + (j - y) ** 2 <= radius ** 2 && masses.labels[j * width + i] !== label)
        return false;
  return true;
}

/** Everything that masses promise, checked pixel by pixel. */
function expectGuarantee(plane: Lightness, options: Options, masses: Masses): void {
  const { width, height } = plane;
  const { map, labels, regions } = masses;
  const { thresholds, brushPx, focus } = options;
  expect([map.width, map.height, map.bands]).toEqual([width, height, thresholds.length + 1]);
  expect(labels.length).toBe(width * height);
  expect(map.data.length).toBe(width * height);
  expect(masses.unmet).toBeUndefined();

  const area = regions.map(() => 0);
  const sum = regions.map(() => 0);
  const fine = regions.map(() => 0);
  const near = regions.map(() => new Set<number>());
  const ends = regions.map(() => [width, height, -1, -1]);
  const meet = (a: number, b: number) => {
    near[a].add(b);
    near[b].add(a);
  };
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const label = labels[i];
      if (map.data[i] !== regions[label].band) throw new Error(`map and label differ at ${x},${y}`);
      area[label]++;
      sum[label] += plane.data[i];
      if (focus && focus.mask[i] !== 0) fine[label]++;
      const end = ends[label];
      if (x < end[0]) end[0] = x;
      if (y < end[1]) end[1] = y;
      if (x > end[2]) end[2] = x;
      if (y > end[3]) end[3] = y;
      const right = x + 1 < width ? labels[i + 1] : label;
      const below = y + 1 < height ? labels[i + width] : label;
      if (right !== label) meet(label, right);
      if (below !== label) meet(label, below);
    }
  }
  // 4-connected: flooding each region from its first pixel reaches all of it.
  const seen = new Uint8Array(labels.length);
  const flooded = regions.map(() => 0);
  for (let seed = 0; seed < labels.length; seed++) {
    const label = labels[seed];
    if (flooded[label] > 0) continue;
    const open = [seed];
    seen[seed] = 1;
    const reach = (to: number) => {
      if (seen[to] !== 0 || labels[to] !== label) return;
      seen[to] = 1;
      open.push(to);
    };
    while (open.length > 0) {
      const at = open.pop()!;
      flooded[label]++;
      const x = at % width;
      if (x > 0) reach(at - 1);
      if (x + 1 < width) reach(at + 1);
      if (at >= width) reach(at - width);
      if (at + width < labels.length) reach(at + width);
    }
  }
  regions.forEach((region, id) => {
    expect(region.id).toBe(id);
    expect(region.area).toBe(area[id]);
    expect(flooded[id]).toBe(area[id]);
    expect(region.mean).toBeCloseTo(sum[id] / area[id] / 2.55, 6);
    const mean = sum[id] / area[id];
    expect(region.band).toBe(thresholds.filter((t) => mean >= t + 0.5).length);
    const [left, top, right, bottom] = ends[id];
    expect(region.bounds).toEqual([left, top, right - left + 1, bottom - top + 1]);
    expect(region.neighbours).toEqual([...near[id]].sort((a, b) => a - b));
    for (const other of near[id]) expect(regions[other].band).not.toBe(region.band);
    if (regions.length === 1) return;
    const brush = focus && 2 * fine[id] >= area[id] ? focus.brushPx : brushPx;
    expect(area[id]).toBeGreaterThanOrEqual(Math.floor((Math.PI / 4) * brush * brush));
    const radius = Math.floor(brush / 4);
    let found = false;
    for (let y = top; y <= bottom && !found; y++)
      for (let x = left; x <= right && !found; x++)
        found = labels[y * width + x] === id && holds(masses, x, y, radius);
    expect(found, `region ${id} of ${area[id]} pixels holds no disc of ${radius}`).toBe(true);
  });
}

function check(plane: Lightness, options: Options): Masses {
  const before = plane.data.slice();
  const masses = massesOf(plane, options);
  expectGuarantee(plane, options, masses);
  expect(plane.data).toEqual(before);
  return masses;
}

const limits = fc
  .uniqueArray(fc.integer({ min: 0, max: 254 }), { minLength: 1, maxLength: 6 })
  .map((codes) => codes.sort((a, b) => a - b));

const sizes = fc.tuple(
  fc.oneof(fc.integer({ min: 1, max: 70 }), fc.constant(1)),
  fc.oneof(fc.integer({ min: 1, max: 70 }), fc.constant(1)),
);

/** Noise, gratings, slopes, blots and plain tones. */
const planes = fc
  .record({
    size: sizes,
    kind: fc.constantFrom('noise', 'two tones', 'grating', 'slope', 'blots', 'plain'),
    seed: fc.integer({ min: 1, max: 2 ** 30 }),
    period: fc.integer({ min: 1, max: 25 }),
  })
  .map(({ size: [width, height], kind, seed, period }) => {
    let state = seed;
    const chance = () => {
      state = (Math.imul(state, 1664525) + 1013904223) | 0;
      return (state >>> 0) / 2 ** 32;
    };
    const blots = Array.from({ length: 6 }, () => [
      chance() * width,
      chance() * height,
      chance() * 20,
      chance() * 256,
    ]);
    return planeOf(width, height, (x, y) => {
      if (kind === 'noise') return Math.floor(chance() * 256);
      if (kind === 'two tones') return chance() < 0.5 ? 20 : 230;
      if (kind === 'grating') return (x + (seed % 2) * y) % (2 * period) < period ? 30 : 220;
      if (kind === 'slope') return Math.floor((255 * (x + y)) / (width + height));
      if (kind === 'plain') return seed % 256;
      const blot = blots.findLast(([i, j, r]) => Math.hypot(x - i, y - j) < r);
      return blot ? Math.floor(blot[3]) : 128;
    });
  });

const brushes = fc.oneof(
  fc.double({ min: 0.1, max: 30, noNaN: true }),
  fc.integer({ min: 1, max: 40 }),
  fc.constantFrom(500, 1e6),
);

describe('what masses promise', () => {
  it('holds for any plane, limits and brush', () => {
    fc.assert(
      fc.property(planes, limits, brushes, (plane, thresholds, brushPx) => {
        check(plane, { thresholds, brushPx });
      }),
      { numRuns: 400 },
    );
  });

  it('holds with a focus, judged by the brush of the place', () => {
    fc.assert(
      fc.property(
        planes,
        limits,
        fc.integer({ min: 4, max: 24 }),
        fc.double({ min: 0.2, max: 1.2, noNaN: true }),
        fc.tuple(
          fc.double({ min: 0, max: 1, noNaN: true }),
          fc.double({ min: 0, max: 1, noNaN: true }),
        ),
        (plane, thresholds, brushPx, part, [cx, cy]) => {
          const { width, height } = plane;
          const mask = planeOf(width, height, (x, y) =>
            Math.hypot(x - cx * width, y - cy * height) < width / 3 ? 1 : 0,
          ).data;
          check(plane, { thresholds, brushPx, focus: { mask, brushPx: part * brushPx } });
        },
      ),
      { numRuns: 150 },
    );
  });

  it('holds on photographs, at brushes from fine to broad', () => {
    const thresholds = [70, 117, 188];
    check(photograph('march-pastoral'), { thresholds, brushPx: 9 });
    check(photograph('clay-dog'), { thresholds, brushPx: 40 });
  }, 120_000);

  it('holds where cells are larger than pixels and the picture is no multiple of them', () => {
    let state = 5;
    const plane = planeOf(901, 607, (x, y) => {
      state = (Math.imul(state, 1664525) + 1013904223) | 0;
      const shape = Math.sin(x / 40) * Math.cos(y / 55) + Math.sin((x + 2 * y) / 170);
      return Math.max(0, Math.min(255, 128 + 60 * shape + 50 * ((state >>> 0) / 2 ** 32 - 0.5)));
    });
    for (const brushPx of [24, 61.5]) check(plane, { thresholds: [60, 110, 150, 200], brushPx });
  }, 120_000);
});

describe('pictures with one right answer', () => {
  it('one tone is one mass of its band', () => {
    const plane = planeOf(40, 30, () => 100);
    const { regions, marks } = check(plane, { thresholds: [99, 150], brushPx: 6 });
    expect(regions).toEqual([
      { id: 0, band: 1, area: 1200, mean: 100 / 2.55, bounds: [0, 0, 40, 30], neighbours: [] },
    ]);
    expect(marks).toEqual([]);
  });

  it('a picture smaller than the brush is one mass', () => {
    const plane = planeOf(9, 7, (x) => (x < 4 ? 10 : 240));
    for (const brushPx of [20, 1000, 1e6])
      expect(check(plane, { thresholds: [128], brushPx }).regions).toHaveLength(1);
  });

  it('a single pixel and a single row', () => {
    expect(
      check(
        planeOf(1, 1, () => 200),
        { thresholds: [128], brushPx: 1 },
      ).regions,
    ).toHaveLength(1);
    const row = planeOf(60, 1, (x) => (x < 20 ? 10 : 240));
    const { regions } = check(row, { thresholds: [128], brushPx: 3 });
    expect(regions.map(({ area, band }) => [area, band])).toEqual([
      [20, 0],
      [40, 1],
    ]);
  });

  it('two halves keep their border to the pixel', { timeout: 60_000 }, () => {
    for (const [width, brushPx] of [
      [200, 20],
      [900, 80],
    ]) {
      const plane = planeOf(width, width / 2, (x) => (x < width * 0.37 ? 40 : 200));
      const { regions } = check(plane, { thresholds: [128], brushPx });
      expect(regions.map(({ area }) => area)).toEqual([
        Math.ceil(width * 0.37) * (width / 2),
        (width - Math.ceil(width * 0.37)) * (width / 2),
      ]);
    }
  });

  it('the limits on a slope of light lie where they were set, not half way between the tones', () => {
    const plane = planeOf(510, 200, (x) => Math.floor(x / 2));
    const { labels, regions } = check(plane, { thresholds: [49, 199], brushPx: 30 });
    expect(regions.map(({ band }) => band)).toEqual([0, 1, 2]);
    for (let y = 0; y < 200; y++) {
      const row = labels.subarray(510 * y, 510 * (y + 1));
      expect(Math.abs(row.indexOf(1) - 100)).toBeLessThanOrEqual(3);
      expect(Math.abs(row.indexOf(2) - 400)).toBeLessThanOrEqual(3);
    }
  });

  it('a dab as large as the brush stays, a speck goes', () => {
    const plane = planeOf(240, 160, (x, y) => {
      if (Math.hypot(x - 70, y - 80) < 13) return 60;
      return Math.hypot(x - 170, y - 80) < 4 ? 60 : 180;
    });
    const { regions, marks } = check(plane, { thresholds: [120], brushPx: 20 });
    expect(regions).toHaveLength(2);
    expect(Math.abs(regions[1].area / (Math.PI * 13 * 13) - 1)).toBeLessThan(0.05);
    expect(marks).toHaveLength(1);
    expect(Math.hypot(marks[0].x - 170, marks[0].y - 80)).toBeLessThan(1);
  });

  it('a focus keeps what the brush alone would not', () => {
    const plane = planeOf(240, 160, (x, y) => (Math.hypot(x - 170, y - 80) < 7 ? 60 : 180));
    const thresholds = [120];
    expect(check(plane, { thresholds, brushPx: 24 }).regions).toHaveLength(1);
    const mask = planeOf(240, 160, (x) => (x > 130 ? 1 : 0)).data;
    const focus = { mask, brushPx: 8 };
    expect(check(plane, { thresholds, brushPx: 24, focus }).regions).toHaveLength(2);
    expect(
      check(plane, { thresholds, brushPx: 24, focus: { mask: mask.map((v) => 1 - v), brushPx: 8 } })
        .regions,
    ).toHaveLength(1);
  });
});

describe('a kept tree', () => {
  it('gives the same masses as starting over, and can be used again', () => {
    const plane = planeOf(300, 200, (x, y) => 128 + 100 * Math.sin(x / 30) * Math.cos(y / 25));
    const tree = finish(massTreeKernel(plane, { brushPx: 18 }));
    for (const thresholds of [[90, 160], [128], [90, 160]])
      expect(massesFromTree(tree, thresholds)).toEqual(
        massesOf(plane, { thresholds, brushPx: 18 }),
      );
  });
});

describe('wrong arguments', () => {
  const plane = planeOf(8, 8, () => 100);
  const wrong = (options: unknown) => () => massesOf(plane, options as Options);

  it('are named', () => {
    expect(wrong({ thresholds: [120, 60], brushPx: 3 })).toThrow(RangeError);
    expect(wrong({ thresholds: [120, 120], brushPx: 3 })).toThrow(/thresholds/);
    expect(wrong({ thresholds: [], brushPx: 3 })).toThrow(RangeError);
    expect(wrong({ thresholds: [300], brushPx: 3 })).toThrow(RangeError);
    expect(wrong({ thresholds: '120', brushPx: 3 })).toThrow(TypeError);
    expect(wrong({ thresholds: [120], brushPx: 0 })).toThrow(/options.brushPx is 0/);
    expect(wrong({ thresholds: [120], brushPx: -2 })).toThrow(RangeError);
    expect(wrong({ thresholds: [120], brushPx: NaN })).toThrow(RangeError);
    expect(wrong({ thresholds: [120] })).toThrow(TypeError);
    expect(wrong(undefined)).toThrow(TypeError);
    expect(
      wrong({ thresholds: [120], brushPx: 3, focus: { mask: new Uint8Array(3), brushPx: 1 } }),
    ).toThrow(/options.focus.mask/);
    expect(
      wrong({ thresholds: [120], brushPx: 3, focus: { mask: new Uint8Array(64), brushPx: 0 } }),
    ).toThrow(/options.focus.brushPx/);
    expect(wrong({ thresholds: [120], brushPx: 3, overrules: 7 })).toThrow(TypeError);
    expect(() =>
      massesOf({ width: 3, height: 3, data: new Uint8Array(8) }, { thresholds: [1], brushPx: 1 }),
    ).toThrow(RangeError);
  });
});
