import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Board } from '../../core/swatch/index.js';
import {
  freeId,
  placeOf,
  stepped,
  swatchesIn,
  withSwatchAdded,
  withSwatchChanged,
  withSwatchMoved,
  withSwatchRemoved,
} from '../../components/swatch-bucket-board/board-moves.js';
import { stepOfKey } from '../../components/swatch-bucket-board/keys.js';

const bands = ['dark', 'middle', 'light'].map((name, i) => ({
  name,
  floor: i * 30,
  ceiling: (i + 1) * 30,
}));

/** A board from words such as `a0 b1`: the swatch's id and its bucket. */
function boardOf(words: string): Board {
  const swatches = words
    .split(' ')
    .filter(Boolean)
    .map((word) => ({ id: word[0], bucket: Number(word[1]), lightness: 50 }));
  return { bands, swatches };
}

/** The same the other way, bucket by bucket. */
const told = (board: Board): string =>
  bands
    .map((_, i) =>
      swatchesIn(board, i)
        .map(({ id }) => id)
        .join(''),
    )
    .join('|');

describe('moves on a board', () => {
  it('a swatch goes to a place among others, worked by hand', () => {
    const board = boardOf('a0 b0 c1 d1 e1 f2');
    expect(told(board)).toBe('ab|cde|f');
    expect(told(withSwatchMoved(board, 'a', { bucket: 1, place: 1 }))).toBe('b|cade|f');
    expect(told(withSwatchMoved(board, 'a', { bucket: 1, place: 0 }))).toBe('b|acde|f');
    expect(told(withSwatchMoved(board, 'a', { bucket: 1, place: 3 }))).toBe('b|cdea|f');
    expect(told(withSwatchMoved(board, 'c', { bucket: 1, place: 2 }))).toBe('ab|dec|f');
    expect(told(withSwatchMoved(board, 'f', { bucket: 0, place: 9 }))).toBe('abf|cde|');
    expect(told(withSwatchMoved(board, 'e', { bucket: -4, place: -1 }))).toBe('eab|cd|f');
  });

  it('a move to where it lies, or of what is not there, is none', () => {
    const board = boardOf('a0 b0 c1');
    expect(withSwatchMoved(board, 'b', { bucket: 0, place: 1 })).toBe(board);
    expect(withSwatchMoved(board, 'b', { bucket: 0, place: 7 })).toBe(board);
    expect(withSwatchMoved(board, 'x', { bucket: 0, place: 0 })).toBe(board);
  });

  it('no move loses, doubles or alters a swatch, and it lands where it was sent', () => {
    const swatch = fc.record({ bucket: fc.nat(2) });
    fc.assert(
      fc.property(
        fc.array(swatch, { minLength: 1, maxLength: 12 }),
        fc.nat(11),
        fc.nat(2),
        fc.nat(12),
        (list, which, bucket, place) => {
          const board: Board = {
            bands,
            swatches: list.map(({ bucket: at }, i) => ({ id: `s${i}`, bucket: at, lightness: i })),
          };
          const { id } = board.swatches[which % list.length];
          const before = structuredClone(board);
          const after = withSwatchMoved(board, id, { bucket, place });
          expect(board).toEqual(before);
          expect(after.swatches.map((each) => each.id).sort()).toEqual(
            before.swatches.map((each) => each.id).sort(),
          );
          const others = after.swatches.filter((each) => each.id !== id);
          expect(others).toEqual(before.swatches.filter((each) => each.id !== id));
          const room = others.filter((each) => each.bucket === bucket).length;
          expect(placeOf(after, id)).toEqual({ bucket, place: Math.min(place, room) });
        },
      ),
    );
  });

  it('steps of the keyboard', () => {
    const board = boardOf('a0 b0 c1 d1 e1');
    expect(stepped(board, { bucket: 1, place: 2 }, 'later')).toEqual({ bucket: 1, place: 2 });
    expect(stepped(board, { bucket: 1, place: 2 }, 'earlier')).toEqual({ bucket: 1, place: 1 });
    expect(stepped(board, { bucket: 1, place: 1 }, 'first')).toEqual({ bucket: 1, place: 0 });
    expect(stepped(board, { bucket: 1, place: 1 }, 'last')).toEqual({ bucket: 1, place: 2 });
    expect(stepped(board, { bucket: 1, place: 2 }, 'darker')).toEqual({ bucket: 0, place: 2 });
    expect(stepped(board, { bucket: 1, place: 2 }, 'lighter')).toEqual({ bucket: 2, place: 0 });
    expect(stepped(board, { bucket: 0, place: 1 }, 'darker')).toEqual({ bucket: 0, place: 1 });
  });

  it('keys follow the direction of writing', () => {
    expect(stepOfKey('ArrowLeft', false)).toBe('darker');
    expect(stepOfKey('ArrowLeft', true)).toBe('lighter');
    expect(stepOfKey('ArrowRight', true)).toBe('darker');
    expect(stepOfKey('ArrowDown', true)).toBe('later');
    expect(stepOfKey('a', false)).toBeUndefined();
  });

  it('adds, changes and deletes without touching the board given', () => {
    const board = boardOf('a0 b1');
    const frozen = structuredClone(board);
    const more = withSwatchAdded(board, { id: freeId(board.swatches), bucket: 2, lightness: 80 });
    expect(more.swatches.map(({ id }) => id)).toEqual(['a', 'b', 'swatch-3']);
    const named = withSwatchChanged(more, 'b', { name: 'moss', accent: true });
    expect(named.swatches[1]).toEqual({
      id: 'b',
      bucket: 1,
      lightness: 50,
      name: 'moss',
      accent: true,
    });
    expect(withSwatchChanged(named, 'b', { name: '', accent: false }).swatches[1]).toEqual({
      id: 'b',
      bucket: 1,
      lightness: 50,
    });
    expect(withSwatchChanged(named, 'b', { name: 'moss' })).toBe(named);
    expect(withSwatchChanged(named, 'x', { name: 'moss' })).toBe(named);
    expect(told(withSwatchRemoved(named, 'a'))).toBe('|b|swatch-3');
    expect(withSwatchRemoved(named, 'x')).toBe(named);
    expect(board).toEqual(frozen);
  });

  it('an id is never given twice', () => {
    expect(freeId([])).toBe('swatch-1');
    expect(freeId([{ id: 'swatch-2' }])).toBe('swatch-3');
    expect(freeId([{ id: 'swatch-3' }, { id: 'x' }])).toBe('swatch-4');
  });
});
