/** The studio's arrangement: what is expected is said by hand, from the rules a painter is told on the page. */
import { describe, expect, it } from 'vitest';
import {
  halves,
  moved,
  proposed,
  putAway,
  read,
  resized,
  takenOut,
  write,
  type Panel,
} from '../../demo/studio/arrangement.js';

const panels: Panel[] = [
  { id: 'photo', columns: 8, rows: 0 },
  { id: 'spots', columns: 4, rows: 12 },
  { id: 'second', columns: 6, rows: 0, away: true },
  { id: 'board', columns: 12, rows: 0 },
];
const ids = (arrangement: { id: string; away: boolean }[]): string[] =>
  arrangement.filter(({ away }) => !away).map(({ id }) => id);

describe('a remembered arrangement', () => {
  it('comes back as it was written', () => {
    const mine = resized(moved(proposed(panels), 'board', -1), 'photo', { columns: 5, rows: 20 });
    expect(read(write(mine), panels)).toEqual(mine);
  });

  it.each([
    null,
    '',
    'no JSON',
    'null',
    '[]',
    '{"edition":1}',
    '{"edition":2,"places":[]}',
    '{"edition":1,"places":[null]}',
    '{"edition":1,"places":[{"id":"photo","columns":"8","rows":0,"away":false}]}',
  ])('that is broken (%s) gives the proposed one', (text) => {
    expect(read(text, panels)).toEqual(proposed(panels));
  });

  it('leaves out panels that are gone and doubles, adds new ones at the end, keeps sizes within limits', () => {
    const text = JSON.stringify({
      edition: 1,
      places: [
        { id: 'gone', columns: 4, rows: 0, away: false },
        { id: 'board', columns: 99, rows: 1, away: false },
        { id: 'board', columns: 4, rows: 0, away: false },
        { id: 'photo', columns: -3, rows: -1, away: true },
      ],
    });
    expect(read(text, panels)).toEqual([
      { id: 'board', columns: 12, rows: 8, away: false },
      { id: 'photo', columns: 3, rows: 0, away: true },
      { id: 'spots', columns: 4, rows: 12, away: false },
      { id: 'second', columns: 6, rows: 0, away: true },
    ]);
  });
});

describe('arranging', () => {
  const start = proposed(panels);

  it('resizes in whole columns and rows within the limits, and as the content', () => {
    const size = (columns: number, rows: number): unknown =>
      resized(start, 'spots', { columns, rows }).find(({ id }) => id === 'spots');
    expect(size(4.6, 9.2)).toEqual({ id: 'spots', columns: 5, rows: 9, away: false });
    expect(size(13, 65)).toEqual({ id: 'spots', columns: 12, rows: 64, away: false });
    expect(size(2, 0)).toEqual({ id: 'spots', columns: 3, rows: 0, away: false });
  });

  it('moves past panels that are put away, and not off either end', () => {
    expect(ids(moved(start, 'board', -1))).toEqual(['photo', 'board', 'spots']);
    expect(ids(moved(start, 'spots', 1))).toEqual(['photo', 'board', 'spots']);
    expect(moved(start, 'photo', -1)).toBe(start);
    expect(moved(start, 'board', 1)).toBe(start);
    expect(moved(start, 'unknown', 1)).toBe(start);
  });

  it('puts away all but the last, and takes out again behind the others', () => {
    const one = putAway(putAway(start, 'photo'), 'board');
    expect(ids(one)).toEqual(['spots']);
    expect(putAway(one, 'spots')).toBe(one);
    expect(ids(takenOut(one, 'photo'))).toEqual(['spots', 'photo']);
  });

  it('lays narrow panels in pairs where there are two columns', () => {
    expect([...halves(start)]).toEqual([]);
    const both = resized(takenOut(start, 'second'), 'board', { columns: 6 });
    expect([...halves(both)]).toEqual(['spots', 'board']);
    expect([...halves(resized(both, 'photo', { columns: 6 }))]).toEqual([
      'photo',
      'spots',
      'board',
      'second',
    ]);
  });

  it('leaves what it was given as it was', () => {
    expect(start).toEqual(proposed(panels));
  });
});
