import { describe, expect, it } from 'vitest';
import { lchOf, leanOf, type Lab } from '../../core/colour/index.js';
import {
  completeBucket,
  leastApart,
  mixFamily,
  mixOnPaper,
  paperReflectance,
  spectrumToLab,
  type Mix,
} from '../../core/paint/index.js';

const SHELF = ['yellow-ochre', 'burnt-sienna', 'ultramarine', 'pyrrole-red', 'phthalo-green'];

const hues = (mixes: readonly Mix[]): number[] => mixes.map(({ lab }) => lchOf(lab).h);

/** L* of a mix by strength, bisected: mixes over paper lighter than they are get darker with strength. */
function strengthAt(
  lightness: number,
  parts: Mix['parts'],
  paper = paperReflectance(),
): number | undefined {
  const L = (strength: number): number => mixOnPaper(parts, { strength, paper }).lab[0];
  if (L(1) > lightness || lightness > spectrumToLab(paper)[0] - 0.1) return undefined;
  let [low, high] = [0, 1];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (L(middle) > lightness) low = middle;
    else high = middle;
  }
  return high;
}

/** The hues of all mixes of three tubes at most (12 parts of two, 6 of three) that are seen as leans at a lightness on a paper. */
function leansOn(paper: Float64Array, tubes: string[], lightness: number): number[] {
  const found: number[] = [];
  const counts = tubes.reduce<number[][]>(
    (lists) => lists.flatMap((list) => Array.from({ length: 13 }, (_, n) => [...list, n])),
    [[]],
  );
  for (const list of counts) {
    const parts = tubes
      .map((tube, i) => ({ tube, parts: list[i] }))
      .filter((part) => part.parts > 0);
    const total = list.reduce((sum, n) => sum + n, 0);
    if (parts.length === 0 || total > (parts.length === 3 ? 6 : 12)) continue;
    const strength = strengthAt(lightness, parts, paper);
    if (strength === undefined) continue;
    const { C, h } = lchOf(mixOnPaper(parts, { strength, paper }).lab);
    if (C >= 3 && C <= 20) found.push(h);
  }
  return found;
}

/** The greatest least angle between so many of some hues, every choice tried. */
function furthestApart(hues: number[], count: number): number {
  const apart = (x: number, y: number): number => {
    const turn = Math.abs(x - y) % 360;
    return Math.min(turn, 360 - turn);
  };
  const most = (from: number, chosen: number[], least: number): number => {
    if (chosen.length === count) return least;
    let best = 0;
    for (let i = from; i < hues.length; i++) {
      const near = Math.min(least, ...chosen.map((other) => apart(other, hues[i])));
      if (near > best) best = Math.max(best, most(i + 1, [...chosen, hues[i]], near));
    }
    return best;
  };
  return most(0, [], 360);
}

describe('mixFamily', () => {
  it('gives mixes of one value with leans far apart', () => {
    for (const lightness of [30, 45, 65]) {
      const family = mixFamily({ tubes: SHELF, lightness });
      expect(family).toHaveLength(5);
      for (const mix of family) {
        expect(Math.abs(mix.lab[0] - lightness)).toBeLessThan(0.001);
        expect(lchOf(mix.lab).C).toBeGreaterThanOrEqual(3);
        expect(lchOf(mix.lab).C).toBeLessThanOrEqual(20);
        expect(mix.strength).toBeLessThanOrEqual(1);
        expect(mix.parts.every(({ parts }) => Number.isInteger(parts) && parts > 0)).toBe(true);
        expect(mix.lab).toEqual(mixOnPaper(mix.parts, { strength: mix.strength }).lab);
      }
      expect(hues(family)).toEqual([...hues(family)].sort((p, q) => p - q));
      // Five hues can lie 72 degrees apart at most.
      expect(leastApart(family)).toBeGreaterThan(60);
      expect(leastApart(family)).toBeLessThanOrEqual(72);
    }
  });

  // Outside truth: trying every pair of a small shelf, for the two leans that lie furthest apart.
  it('lies as far apart as any mixes of the shelf do', () => {
    const [p, q] = ['burnt-sienna', 'ultramarine'];
    const found: number[] = [];
    for (let a = 0; a <= 12; a++) {
      for (let b = 0; a + b <= 12; b++) {
        const parts = [
          { tube: p, parts: a },
          { tube: q, parts: b },
        ].filter((part) => part.parts > 0);
        const strength = parts.length > 0 ? strengthAt(40, parts) : undefined;
        if (strength === undefined) continue;
        const { C, h } = lchOf(mixOnPaper(parts, { strength }).lab);
        if (C >= 3 && C <= 20) found.push(h);
      }
    }
    const apart = (x: number, y: number): number => {
      const turn = Math.abs(x - y) % 360;
      return Math.min(turn, 360 - turn);
    };
    let furthest = 0;
    let ofThree = 0;
    found.forEach((x, i) =>
      found.slice(i + 1).forEach((y, j) => {
        furthest = Math.max(furthest, apart(x, y));
        for (const z of found.slice(i + j + 2))
          ofThree = Math.max(ofThree, Math.min(apart(x, y), apart(y, z), apart(x, z)));
      }),
    );
    const two = mixFamily({ tubes: [p, q], lightness: 40, count: 2 });
    expect(Math.abs(leastApart(two) - furthest)).toBeLessThan(1.1);
    const three = mixFamily({ tubes: [p, q], lightness: 40, count: 3 });
    expect(Math.abs(leastApart(three) - ofThree)).toBeLessThan(1.1);
  });

  it('keeps to chroma, strength and the painter’s own loads', () => {
    const family = mixFamily({ tubes: SHELF, lightness: 60, maxChroma: 8, maxStrength: 0.3 });
    for (const { lab, strength } of family) {
      expect(lchOf(lab).C).toBeLessThanOrEqual(8);
      expect(strength).toBeLessThanOrEqual(0.3);
    }
    const loads = { ultramarine: 2.5 };
    for (const mix of mixFamily({ tubes: SHELF, lightness: 50, loads, count: 3 })) {
      expect(Math.abs(mix.lab[0] - 50)).toBeLessThan(0.001);
      expect(mix.lab).toEqual(mixOnPaper(mix.parts, { strength: mix.strength, loads }).lab);
    }
  });

  // Outside truth: every mix of whole parts tried, its strength found by bisection on the paper itself.
  it.each([60, 80, 90])('lies as far apart on paper of L* %i as any mixes of the shelf do', (L) => {
    const paper = paperReflectance({ lightness: L });
    const tubes = ['burnt-sienna', 'ultramarine', 'phthalo-green'];
    const found = leansOn(paper, tubes, 35);
    for (const [count, furthest] of [
      [2, furthestApart(found, 2)],
      [3, furthestApart(found, 3)],
    ]) {
      const family = mixFamily({ tubes, lightness: 35, count, paper });
      expect(family).toHaveLength(count);
      expect(Math.abs(leastApart(family) - furthest)).toBeLessThan(1.1);
      for (const mix of family) {
        expect(Math.abs(mix.lab[0] - 35)).toBeLessThan(0.001);
        expect(mix.lab).toEqual(mixOnPaper(mix.parts, { strength: mix.strength, paper }).lab);
      }
    }
  });

  it('finds on white paper what is too light for a dark one, and not the other way round', () => {
    const dark = paperReflectance({ lightness: 50 });
    const tubes = ['burnt-sienna', 'ultramarine'];
    expect(mixFamily({ tubes, lightness: 60, count: 2 })).toHaveLength(2);
    // Both tubes only darken paper (no white among them): nothing of them is lighter than the paper they lie on.
    expect(leansOn(dark, tubes, 60)).toEqual([]);
    expect(mixFamily({ tubes, lightness: 60, count: 2, paper: dark })).toEqual([]);
  });

  it('is smaller, or empty, when the shelf has no more', () => {
    expect(mixFamily({ tubes: ['burnt-sienna'], lightness: 40 })).toEqual([]);
    expect(mixFamily({ tubes: ['burnt-sienna'], lightness: 40, maxChroma: 60 })).toHaveLength(1);
    expect(mixFamily({ tubes: SHELF, lightness: 2 })).toEqual([]);
    expect(mixFamily({ tubes: SHELF, lightness: 100 })).toEqual([]);
  });

  it('refuses what is no shelf or setting by name', () => {
    const run = (options: unknown) => () => mixFamily(options as { tubes: string[]; lightness: 1 });
    expect(run({ tubes: [], lightness: 40 })).toThrow(/options\.tubes/);
    expect(run({ tubes: ['mud'], lightness: 40 })).toThrow(/options\.tubes\[0\] is "mud"/);
    for (const [name, value] of [
      ['lightness', NaN],
      ['lightness', 101],
      ['tolerance', 0],
      ['count', 0],
      ['maxChroma', 2],
      ['maxStrength', 0],
      ['maxStrength', -1],
      ['paper', [1]],
    ] as const)
      expect(run({ tubes: SHELF, lightness: 40, [name]: value })).toThrow(`options.${name}`);
  });
});

describe('completeBucket', () => {
  const swatch = (lab: Lab, accent = false) => ({ lightness: lab[0], lab, accent });

  it('fills the leans that are missing, at the value that is there', () => {
    const bucket = {
      floor: 40,
      ceiling: 52,
      swatches: [swatch([46, 9, 5]), swatch([47, 7, 9]), swatch([30, 60, 30], true)],
    };
    const { lightness, present, missing, beyond } = completeBucket(bucket, SHELF);
    expect(lightness).toBe(46.5);
    expect(present.map(({ lean }) => lean)).toEqual(['red', 'orange']);
    expect(missing).toHaveLength(3);
    for (const { hue, lean, gap, mix } of missing) {
      expect(Math.abs(mix.lab[0] - 46.5)).toBeLessThan(0.001);
      expect(lchOf(mix.lab).h).toBeCloseTo(hue, 6);
      expect(leanOf(mix.lab).name).toBe(lean);
      expect(gap).toBeGreaterThanOrEqual(40);
      expect(present.map((each) => each.lean)).not.toContain(lean);
    }
    expect(missing[0].gap).toBeGreaterThanOrEqual(missing[1].gap);
    expect(beyond).toEqual([]);
  });

  // Outside truth: the angle to what is there, of every mix of whole parts tried on that paper.
  it('looks for mixes on the paper that is given', () => {
    const paper = paperReflectance({ lightness: 78 });
    const tubes = ['burnt-sienna', 'ultramarine', 'phthalo-green'];
    const there = swatch([40, 9, 5]);
    const taken = lchOf(there.lab).h;
    const bucket = { floor: 30, ceiling: 50, swatches: [there] };
    const { lightness, missing } = completeBucket(bucket, tubes, { paper, count: 1 });
    expect(lightness).toBe(40);
    const furthest = Math.max(
      ...leansOn(paper, tubes, 40).map((h) => 180 - Math.abs(180 - Math.abs(h - taken))),
    );
    const [{ gap, mix }] = missing;
    expect(Math.abs(gap - furthest)).toBeLessThan(0.6); // leans within half a degree stand for each other
    expect(Math.abs(mix.lab[0] - 40)).toBeLessThan(0.001);
    expect(mix.lab).toEqual(mixOnPaper(mix.parts, { strength: mix.strength, paper }).lab);
  });

  it('says what the shelf cannot give', () => {
    const bucket = { floor: 40, ceiling: 50, swatches: [swatch([45, 12, 10])] };
    const { missing, beyond } = completeBucket(bucket, ['burnt-sienna', 'light-red'], {
      maxChroma: 60,
    });
    expect(missing).toEqual([]);
    expect(beyond).toHaveLength(1);
    expect(beyond[0].gap).toBeCloseTo(180, 6);
    expect(beyond[0].hue).toBeCloseTo(lchOf([45, 12, 10]).h + 180, 6);
  });

  it('begins an empty bucket in its middle and refuses what is none', () => {
    const empty = { floor: 40, ceiling: 50, swatches: [] };
    const { lightness, missing } = completeBucket(empty, SHELF, { count: 4 });
    expect(lightness).toBe(45);
    expect(missing).toHaveLength(4);
    expect(() => completeBucket({ ...empty, ceiling: 20 }, SHELF)).toThrow(/bucket\.ceiling/);
    expect(() => completeBucket(empty, [])).toThrow(/tubes/);
    const off = { ...empty, swatches: [{ lightness: NaN }] };
    expect(() => completeBucket(off, SHELF)).toThrow(/bucket\.swatches\[0\]\.lightness/);
  });
});
