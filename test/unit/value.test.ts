import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Lightness } from '../../core/base/types.js';
import {
  bandsKernel,
  bandsOf,
  designThresholds,
  histogramOf,
  keyOf,
  medianOf,
  paperThreshold,
  proposeLimits,
  sharesOf,
  sharesOfHistogram,
  suggestThresholds,
} from '../../core/value/index.js';

interface Optimum {
  thresholds: number[];
  scikit_image?: number[];
  shares: number[];
}
interface Photographs {
  images: Record<
    string,
    { size: [number, number]; histogram: number[]; multiotsu: Record<string, Optimum> }
  >;
  colourPhotograph: { hist256: number[]; multiotsu: Record<string, number[]> };
}

const photographs = JSON.parse(
  readFileSync(new URL('../reference/photographs.json', import.meta.url), 'utf8'),
) as Photographs;

const planeOf = (codes: number[], width = codes.length): Lightness => ({
  width,
  height: codes.length / width,
  data: Uint8Array.from(codes),
});

/** A plane one row high with the pixels of a histogram. */
const planeFrom = (histogram: number[]): Lightness =>
  planeOf(histogram.flatMap((count, code) => new Array<number>(count).fill(code)));

const histogramFrom = (counts: Record<number, number>): Uint32Array => {
  const histogram = new Uint32Array(256);
  for (const [code, count] of Object.entries(counts)) histogram[Number(code)] = count;
  return histogram;
};

/** Every way to write `wanted` strictly rising codes out of `codes`. */
function* choices(codes: number[], wanted: number, from = 0): Generator<number[]> {
  if (wanted === 0) {
    yield [];
    return;
  }
  for (let i = from; i < codes.length; i++) {
    for (const rest of choices(codes, wanted - 1, i + 1)) yield [codes[i], ...rest];
  }
}

/**
 * The sum of squares inside the bands, from its definition: the textbook criterion of Otsu 1979,
 * not our formula.
 */
function squaresInside(histogram: Uint32Array, thresholds: number[]): number {
  let total = 0;
  for (let band = 0; band <= thresholds.length; band++) {
    const low = band === 0 ? 0 : thresholds[band - 1] + 1;
    const high = band === thresholds.length ? 255 : thresholds[band];
    let count = 0;
    let sum = 0;
    for (let c = low; c <= high; c++) {
      count += histogram[c];
      sum += c * histogram[c];
    }
    for (let c = low; c <= high; c++) total += histogram[c] * (c - sum / Math.max(1, count)) ** 2;
  }
  return total;
}

const sparse = fc
  .uniqueArray(fc.integer({ min: 0, max: 255 }), { minLength: 2, maxLength: 9 })
  .chain((codes) =>
    fc.tuple(
      fc.constant(codes),
      fc.array(fc.integer({ min: 1, max: 500 }), {
        minLength: codes.length,
        maxLength: codes.length,
      }),
    ),
  )
  .map(([codes, counts]) => histogramFrom(Object.fromEntries(codes.map((c, i) => [c, counts[i]]))));

describe('histogram', () => {
  it('counts every code of a plane, whatever its length and place in memory', () => {
    fc.assert(
      fc.property(
        fc.uint8Array({ minLength: 1, maxLength: 70 }),
        fc.integer({ min: 0, max: 3 }),
        (codes, shift) => {
          const memory = new Uint8Array(codes.length + shift);
          memory.set(codes, shift);
          const histogram = histogramOf({
            width: codes.length,
            height: 1,
            data: memory.subarray(shift),
          });
          const wanted = new Array<number>(256).fill(0);
          for (const code of codes) wanted[code]++;
          expect([...histogram]).toEqual(wanted);
        },
      ),
    );
  });

  it('counts inside a mask only', () => {
    const histogram = histogramOf(planeOf([5, 5, 7, 9]), Uint8Array.from([1, 0, 255, 0]));
    expect(histogram[5]).toBe(1);
    expect(histogram[7]).toBe(1);
    expect(histogram[9]).toBe(0);
  });

  it('refuses a mask or a plane of the wrong shape, naming it', () => {
    expect(() => histogramOf(planeOf([1, 2]), new Uint8Array(3))).toThrow(RangeError);
    expect(() => histogramOf(planeOf([1, 2]), [1, 1] as unknown as Uint8Array)).toThrow(/where/);
    expect(() => histogramOf({ width: 2, height: 2, data: new Uint8Array(3) })).toThrow(
      /plane.data/,
    );
    expect(() => histogramOf(null as unknown as Lightness)).toThrow(TypeError);
  });
});

describe('the exact optimum on photographs (dynamic programming in numpy; scikit-image 0.19.3)', () => {
  for (const [name, image] of Object.entries(photographs.images)) {
    const histogram = Uint32Array.from(image.histogram);
    for (const [bands, { thresholds, scikit_image: scikit, shares }] of Object.entries(
      image.multiotsu,
    )) {
      it(`${name}, ${bands} bands`, () => {
        const found = suggestThresholds(histogram, Number(bands));
        expect(found).toEqual(thresholds);
        if (scikit) expect(found).toEqual(scikit);
        sharesOfHistogram(histogram, found).forEach((share, i) =>
          expect(share).toBeCloseTo(shares[i], 12),
        );
      });
    }
    it(`${name}: the map has the same shares and the size of the picture`, () => {
      expect(image.histogram.reduce((a, b) => a + b)).toBe(image.size[0] * image.size[1]);
      const plane = planeFrom(image.histogram);
      expect([...histogramOf(plane)]).toEqual(image.histogram);
      const { thresholds, shares } = image.multiotsu['4'];
      sharesOf(bandsOf(plane, thresholds)).forEach((share, i) =>
        expect(share).toBeCloseTo(shares[i], 12),
      );
    });
  }

  it('a colour photograph', () => {
    const { hist256, multiotsu } = photographs.colourPhotograph;
    for (const [bands, thresholds] of Object.entries(multiotsu)) {
      expect(suggestThresholds(Uint32Array.from(hist256), Number(bands))).toEqual(thresholds);
    }
  });
});

describe('the exact optimum against trying every choice', () => {
  it('two and three bands of a photograph', () => {
    const histogram = Uint32Array.from(photographs.images['march-pastoral'].histogram);
    const all = Array.from({ length: 255 }, (_, code) => code);
    for (const bands of [2, 3]) {
      let least = Infinity;
      let best: number[] = [];
      for (const choice of choices(all, bands - 1)) {
        const inside = squaresInside(histogram, choice);
        if (inside < least) [least, best] = [inside, choice];
      }
      expect(suggestThresholds(histogram, bands)).toEqual(best);
    }
  });

  it('any sparse histogram, 2 to 9 bands', () => {
    fc.assert(
      fc.property(sparse, fc.integer({ min: 2, max: 9 }), (histogram, bands) => {
        const found = suggestThresholds(histogram, bands);
        expect(found.length).toBe(bands - 1);
        found.forEach((t, i) => {
          expect(Number.isInteger(t) && t >= 0 && t <= 254).toBe(true);
          if (i > 0) expect(t).toBeGreaterThan(found[i - 1]);
        });
        const codes = [...histogram.keys()].filter((c) => histogram[c] > 0);
        // an optimum exists among thresholds at the codes themselves; fewer thresholds than asked
        // is no better
        const wanted = Math.min(bands, codes.length) - 1;
        let least = Infinity;
        for (const choice of choices(codes.slice(0, -1), wanted)) {
          least = Math.min(least, squaresInside(histogram, choice));
        }
        expect(squaresInside(histogram, found)).toBeCloseTo(least, 6);
      }),
      { numRuns: 200 },
    );
  });

  it('does not change when every count is doubled, and is the same each time', () => {
    fc.assert(
      fc.property(sparse, fc.integer({ min: 2, max: 7 }), (histogram, bands) => {
        const once = suggestThresholds(histogram, bands);
        expect(suggestThresholds(histogram, bands)).toEqual(once);
        expect(
          suggestThresholds(
            histogram.map((n) => 2 * n),
            bands,
          ),
        ).toEqual(once);
      }),
    );
  });

  it('of equals the darkest: codes 0, 100, 200 in two bands part after 0', () => {
    expect(suggestThresholds(histogramFrom({ 0: 5, 100: 5, 200: 5 }), 2)).toEqual([0]);
  });

  it('fewer codes than bands: each code its band, the rest empty', () => {
    const found = suggestThresholds(histogramFrom({ 40: 3, 200: 9 }), 5);
    expect(found.length).toBe(4);
    expect(found).toContain(40);
    expect(squaresInside(histogramFrom({ 40: 3, 200: 9 }), found)).toBe(0);
    for (let i = 1; i < 4; i++) expect(found[i]).toBeGreaterThan(found[i - 1]);
    // nothing to cut: even widths, 256 codes in four of 64
    expect(suggestThresholds(histogramFrom({ 128: 10 }), 4)).toEqual([63, 127, 191]);
    expect(suggestThresholds(new Uint32Array(256), 2)).toEqual([127]);
    expect(suggestThresholds(histogramFrom({ 254: 1, 255: 1 }), 9).length).toBe(8);
  });

  it('refuses what is no histogram or no number of bands', () => {
    expect(() => suggestThresholds(new Uint32Array(255), 3)).toThrow(
      /histogram is Uint32Array\(255\)/,
    );
    expect(() => suggestThresholds(new Uint32Array(256), 1)).toThrow(/bands is 1/);
    expect(() => suggestThresholds(new Uint32Array(256), 10)).toThrow(RangeError);
    expect(() => suggestThresholds(new Uint32Array(256), 2.5)).toThrow(RangeError);
    expect(() => suggestThresholds('x' as unknown as Uint32Array, 3)).toThrow(TypeError);
  });
});

describe('limits by share', () => {
  const missed = (histogram: Uint32Array, thresholds: number[], shares: number[]): number => {
    const sum = shares.reduce((a, b) => a + b);
    return sharesOfHistogram(histogram, thresholds).reduce(
      (d, s, i) => d + Math.abs(s - shares[i] / sum),
      0,
    );
  };

  it('even codes, asked 30 : 50 : 20, by hand: 100 codes of one pixel', () => {
    const histogram = new Uint32Array(256).fill(1, 100, 200);
    // the first 30 pixels end at code 129, the next 50 at code 179
    expect(designThresholds(histogram, [0.3, 0.5, 0.2])).toEqual([129, 179]);
    expect(designThresholds(histogram, [3, 5, 2])).toEqual([129, 179]);
  });

  it('misses by no more than the best of every choice', () => {
    fc.assert(
      fc.property(
        sparse,
        fc.array(fc.double({ min: 0.05, max: 1, noNaN: true }), { minLength: 2, maxLength: 4 }),
        (histogram, shares) => {
          const found = designThresholds(histogram, shares);
          expect(found.length).toBe(shares.length - 1);
          found.forEach((t, i) => {
            expect(t >= 0 && t <= 254).toBe(true);
            if (i > 0) expect(t).toBeGreaterThan(found[i - 1]);
          });
          // shares change only at the codes that occur; two thresholds between the same codes stand
          // for an empty band
          const places = new Set<number>();
          for (let c = 0; c < 256; c++) {
            if (histogram[c] === 0) continue;
            for (const t of [c - 3, c - 2, c - 1, c, c + 1, c + 2])
              if (t >= 0 && t <= 254) places.add(t);
          }
          let least = Infinity;
          const codes = [...places].sort((a, b) => a - b);
          for (const choice of choices(codes, shares.length - 1)) {
            least = Math.min(least, missed(histogram, choice, shares));
          }
          expect(missed(histogram, found, shares)).toBeLessThanOrEqual(least + 1e-9);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('on a photograph two thresholds against all 32385 pairs', () => {
    const histogram = Uint32Array.from(photographs.images['nagasaki-boats'].histogram);
    const shares = [0.3, 0.55, 0.15];
    let least = Infinity;
    for (const pair of choices(
      Array.from({ length: 255 }, (_, c) => c),
      2,
    )) {
      least = Math.min(least, missed(histogram, pair, shares));
    }
    expect(missed(histogram, designThresholds(histogram, shares), shares)).toBeCloseTo(least, 12);
  });

  it('refuses shares that are none', () => {
    const histogram = new Uint32Array(256).fill(1);
    expect(() => designThresholds(histogram, [1])).toThrow(/shares/);
    expect(() => designThresholds(histogram, new Array<number>(10).fill(1))).toThrow(RangeError);
    expect(() => designThresholds(histogram, [0.5, 0])).toThrow(/shares\[1\] is 0/);
    expect(() => designThresholds(histogram, [0.5, -1])).toThrow(RangeError);
    expect(() => designThresholds(histogram, [0.5, NaN])).toThrow(RangeError);
    expect(() => designThresholds(histogram, 3 as unknown as number[])).toThrow(TypeError);
    expect(designThresholds(new Uint32Array(256), [1, 1])).toEqual([127]);
  });
});

describe('bands', () => {
  it('a code is above a threshold when it is greater', () => {
    const map = bandsOf(planeOf([0, 84, 85, 86, 170, 171, 255]), [85, 170]);
    expect(map).toEqual({
      width: 7,
      height: 1,
      bands: 3,
      data: Uint8Array.from([0, 0, 0, 1, 1, 2, 2]),
    });
    expect(bandsOf(planeOf([0, 1, 254, 255]), [0, 254]).data).toEqual(
      Uint8Array.from([0, 1, 1, 2]),
    );
  });

  it('is the number of thresholds below the code, for any plane', () => {
    fc.assert(
      fc.property(
        fc.uint8Array({ minLength: 1, maxLength: 40 }),
        fc.uniqueArray(fc.integer({ min: 0, max: 254 }), { minLength: 1, maxLength: 8 }),
        (codes, unordered) => {
          const thresholds = unordered.sort((a, b) => a - b);
          const before = codes.slice();
          const map = bandsOf({ width: codes.length, height: 1, data: codes }, thresholds);
          codes.forEach((code, i) =>
            expect(map.data[i]).toBe(thresholds.filter((t) => code > t).length),
          );
          expect(codes).toEqual(before);
          expect(sharesOf(map).reduce((a, b) => a + b)).toBeCloseTo(1, 12);
          const counted = sharesOfHistogram(
            histogramOf({ width: codes.length, height: 1, data: codes }),
            thresholds,
          );
          sharesOf(map).forEach((share, i) => expect(share).toBeCloseTo(counted[i], 12));
        },
      ),
    );
  });

  it('in slices the progress rises to 1', () => {
    const kernel = bandsKernel(
      { width: 2048, height: 2048, data: new Uint8Array(2048 * 2048) },
      [100],
    );
    const progress: number[] = [];
    for (let step = kernel.next(); !step.done; step = kernel.next()) progress.push(step.value);
    expect(progress.length).toBeGreaterThan(2);
    expect(progress.at(-1)).toBe(1);
    expect([...progress].sort((a, b) => a - b)).toEqual(progress);
  });

  it('in slices of odd rows every pixel is met', () => {
    const [width, height] = [1021, 2063];
    const data = Uint8Array.from({ length: width * height }, (_, i) => (i * 7919) >>> 3);
    const map = bandsOf({ width, height, data }, [60, 120, 200]);
    let wrong = 0;
    data.forEach((code, i) => {
      if (map.data[i] !== (code > 200 ? 3 : code > 120 ? 2 : code > 60 ? 1 : 0)) wrong++;
    });
    expect(wrong).toBe(0);
  });

  it('refuses thresholds that do not rise or are no codes', () => {
    const plane = planeOf([1]);
    for (const wrong of [[], [100, 100], [120, 100], [-1], [255], [1.5], [NaN]]) {
      expect(() => bandsOf(plane, wrong)).toThrow(RangeError);
      expect(() => sharesOfHistogram(new Uint32Array(256), wrong)).toThrow(RangeError);
    }
    expect(() => bandsOf(plane, '85' as unknown as number[])).toThrow(TypeError);
    expect(() => sharesOf({ width: 1, height: 1, bands: 2, data: Uint8Array.of(2) })).toThrow(
      /map.data/,
    );
    expect(sharesOfHistogram(new Uint32Array(256), [100])).toEqual([0, 0]);
  });
});

describe('proposals', () => {
  const histogram = Uint32Array.from(photographs.images['black-canyon'].histogram);

  it('the optimum first, then designs by share, each with its own thresholds, limits and shares', () => {
    for (const bands of [2, 3, 4, 5]) {
      const proposals = proposeLimits(histogram, bands);
      expect(proposals[0].kind).toBe('optimum');
      expect(proposals[0].thresholds).toEqual(
        photographs.images['black-canyon'].multiotsu[bands].thresholds,
      );
      expect(proposals.map((p) => p.kind)).toEqual(
        bands === 2
          ? ['optimum', 'mostly-darks', 'mostly-lights']
          : ['optimum', 'mostly-middles', 'mostly-darks', 'mostly-lights'],
      );
      expect(new Set(proposals.map((p) => p.thresholds.join())).size).toBe(proposals.length);
      for (const { thresholds, limits, shares } of proposals) {
        limits.forEach((limit, i) => expect(limit).toBeCloseTo((thresholds[i] + 0.5) / 2.55, 12));
        expect(shares.length).toBe(bands);
        expect(shares.reduce((a, b) => a + b)).toBeCloseTo(1, 12);
      }
    }
  });

  it('few lights, more darks, mostly middles (common practice, no source)', () => {
    const middles = proposeLimits(histogram, 3).find((p) => p.kind === 'mostly-middles')!;
    const [dark, middle, light] = middles.shares;
    expect(light).toBeLessThan(dark);
    expect(dark).toBeLessThan(middle);
    const shares = (kind: string) =>
      proposeLimits(histogram, 3).find((p) => p.kind === kind)!.shares;
    expect(shares('mostly-darks')[0]).toBeGreaterThan(0.5);
    expect(shares('mostly-lights')[2]).toBeGreaterThan(0.5);
  });

  it('drops what would be the same', () => {
    const two = histogramFrom({ 30: 100, 220: 100 });
    expect(proposeLimits(two, 2).map((p) => p.kind)).toEqual(['optimum']);
    expect(() => proposeLimits(two, 6)).toThrow(/bands is 6/);
  });
});

describe('bare paper', () => {
  it('the lightest twentieth, never darker than L* 85', () => {
    // 100 pixels: codes 250 and 240 hold 4 together; with the 6 of code 230 it would be more than 5
    const t = paperThreshold(histogramFrom({ 50: 90, 230: 6, 240: 3, 250: 1 }));
    expect(t).toBe(230);
    // few lights: the limit is L* 85, 2.55 x 85 = 216.75, so code 217 is the first above
    expect(paperThreshold(histogramFrom({ 50: 9900, 216: 10, 217: 10, 250: 10 }))).toBe(216);
  });

  it('a white ground is paper as a whole', () => {
    expect(paperThreshold(histogramFrom({ 50: 50, 255: 50 }))).toBe(254);
  });

  it('none where nothing is that light', () => {
    expect(paperThreshold(histogramFrom({ 216: 1000 }))).toBeNull();
    expect(paperThreshold(new Uint32Array(256))).toBeNull();
  });
});

describe('key and contrast', () => {
  it('percentiles by hand', () => {
    // 100 pixels: 10 at code 51 (L* 20), 70 at 102 (L* 40), 20 at 204 (L* 80)
    const key = keyOf(histogramFrom({ 51: 10, 102: 70, 204: 20 }));
    expect(key).toEqual({ key: 'middle', contrast: 'moderate', low: 20, middle: 40, high: 80 });
    expect(medianOf(histogramFrom({ 51: 10, 102: 70, 204: 20 }))).toBe(102);
  });

  it('dark, light, close and strong pictures', () => {
    expect(keyOf(histogramFrom({ 20: 50, 60: 50 }))).toMatchObject({
      key: 'low',
      contrast: 'close',
    });
    expect(keyOf(histogramFrom({ 200: 50, 240: 51 }))).toMatchObject({
      key: 'high',
      contrast: 'close',
    });
    expect(keyOf(histogramFrom({ 5: 30, 128: 40, 250: 30 }))).toMatchObject({
      key: 'middle',
      contrast: 'strong',
    });
    expect(() => keyOf(new Uint32Array(256))).toThrow(RangeError);
    expect(() => medianOf(new Uint32Array(256))).toThrow(RangeError);
  });
});
