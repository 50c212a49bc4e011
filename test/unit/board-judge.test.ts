/** Judging for the page: at once where a slice is enough, later where it is not, and never without an end. */
import { describe, expect, it, vi } from 'vitest';
import { Judge, keptVerdict } from '../../components/swatch-bucket-board/judge.js';
import { judgeBoard, type Board } from '../../core/index.js';

const BANDS = [
  { name: 'dark', floor: 0, ceiling: 36 },
  { name: 'light', floor: 36, ceiling: 95 },
];

/** By hand: b (50) lies 14 past its limit and is not darker than c (40), which keeps its own: b is too light, and they cross. */
const SMALL: Board = {
  bands: BANDS,
  swatches: [
    { id: 'a', bucket: 0, lightness: 20 },
    { id: 'b', bucket: 0, lightness: 50 },
    { id: 'c', bucket: 1, lightness: 40 },
    { id: 'd', bucket: 1, lightness: 80 },
  ],
};
const BY_HAND = { a: 'fits', b: 'too-light', c: 'fits', d: 'fits' };

/** Each of the one half crosses each of the other: 250 000 pairs. */
const CROSSED: Board = {
  bands: BANDS,
  swatches: Array.from({ length: 1000 }, (_, i) => ({
    id: `${i}`,
    bucket: i % 2,
    lightness: i % 2 === 0 ? 80 : 20,
  })),
};

const kinds = (verdict: ReturnType<Judge['of']>) =>
  Object.fromEntries(verdict!.swatches.map((each) => [each.id, each.verdict]));

describe('the judge of a board', () => {
  it('judges a small board at once, and once', () => {
    const told = vi.fn();
    const judge = new Judge(told);
    const verdict = judge.of(SMALL, 95);
    expect(kinds(verdict)).toEqual(BY_HAND);
    expect(verdict!.overlaps).toEqual([['b', 'c']]);
    expect(judge.of(SMALL, 95)).toBe(verdict);
    expect(judge.atOnce(SMALL, 95)).toBe(verdict);
    const heard: unknown[] = [];
    judge.when(SMALL, 95, (each) => heard.push(each));
    expect(heard).toEqual([verdict]);
    expect(told).not.toHaveBeenCalled();
  });

  it('goes on with a large one, tells when it is known, and hands it to all who wait', async () => {
    const told = vi.fn();
    const judge = new Judge(told);
    expect(judge.of(CROSSED, 95)).toBeUndefined();
    const heard = await Promise.all(
      [1, 2].map(() => new Promise((done) => judge.when(CROSSED, 95, done))),
    );
    expect(told).toHaveBeenCalledTimes(1);
    const verdict = judge.of(CROSSED, 95)!;
    expect(heard).toEqual([verdict, verdict]);
    expect(verdict.overlaps).toHaveLength(250_000);
    expect(new Set(verdict.swatches.map((each) => each.verdict))).toEqual(
      new Set(['too-light', 'too-dark']),
    );
  });

  it('ends at once when somebody asks meanwhile', async () => {
    const judge = new Judge(() => {});
    expect(judge.of(CROSSED, 95)).toBeUndefined();
    const waited = new Promise((done) => judge.when(CROSSED, 95, done));
    const verdict = judge.atOnce(CROSSED, 95);
    expect(verdict.overlaps).toHaveLength(250_000);
    expect(await waited).toBe(verdict);
  });

  it('refuses a board that is none as often as it is asked', () => {
    const judge = new Judge(() => {});
    const odd: Board = { bands: BANDS, swatches: [{ id: 'a', bucket: 0, lightness: NaN }] };
    for (let i = 0; i < 3; i++) {
      expect(() => judge.of(odd, 95)).toThrow(/swatches\[0\]\.lightness/);
      expect(() => judge.atOnce(odd, 95)).toThrow(/swatches\[0\]\.lightness/);
    }
  });

  it('judges anew on another paper', () => {
    const judge = new Judge(() => {});
    const wet: Board = {
      bands: BANDS,
      swatches: [{ id: 'a', bucket: 0, lightness: 30, wet: true }],
    };
    expect(judge.of(wet, 95)).toEqual(judgeBoard(wet, { paper: 95 }));
    expect(judge.of(wet, 30)).toEqual(judgeBoard(wet, { paper: 30 }));
    // Paint as light as its paper dries no lighter; on a lighter one it does.
    expect(judge.of(wet, 30)).not.toEqual(judge.of(wet, 95));
  });
});

describe('what an old verdict still says', () => {
  it('is that of swatches which are as they were', () => {
    const old = judgeBoard(SMALL);
    const [a, b, c, d] = SMALL.swatches;
    const moved = { bands: BANDS, swatches: [a, { ...b, bucket: 1 }, c, d] };
    const kept = keptVerdict(old, SMALL, moved);
    expect(kept.swatches.map(({ id }) => id)).toEqual(['a', 'c', 'd']);
    expect(kept.overlaps).toEqual([]);
    expect(kept.gaps).toEqual(old.gaps);
    const others = { bands: [...BANDS, BANDS[1]], swatches: [a, b, c] };
    expect(keptVerdict(old, SMALL, others).overlaps).toEqual([['b', 'c']]);
    expect(keptVerdict(old, SMALL, others).gaps).toEqual([]);
  });
});
