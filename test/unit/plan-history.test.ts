import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  canRedo,
  canUndo,
  changed,
  HISTORY_LIMIT,
  newPlan,
  redoLabel,
  redone,
  startHistory,
  undoLabel,
  undone,
  type History,
  type Plan,
} from '../../core/plan/index.js';

const first = newPlan({ title: '0' });
const titled = (title: string): Plan => ({ ...first, title });
const titles = ({ past, present, future }: History): string[][] => [
  past.map((c) => c.plan.title),
  [present.title],
  future.map((c) => c.plan.title),
];

describe('history', () => {
  it('starts without anything to take back', () => {
    const history = startHistory(first);
    expect(history.present).toBe(first);
    expect([canUndo(history), canRedo(history), undoLabel(history), redoLabel(history)]).toEqual([
      false,
      false,
      undefined,
      undefined,
    ]);
    expect(undone(history)).toBe(history);
    expect(redone(history)).toBe(history);
  });

  it('takes back and makes again, the very same plans', () => {
    const one = titled('1');
    const two = titled('2');
    let history = changed(startHistory(first), one, { label: 'rename' });
    history = changed(history, two, { label: 'rename again' });
    expect([undoLabel(history), redoLabel(history)]).toEqual(['rename again', undefined]);
    const back = undone(history);
    expect(back.present).toBe(one);
    expect([undoLabel(back), redoLabel(back)]).toEqual(['rename', 'rename again']);
    expect(undone(back).present).toBe(first);
    expect(redone(redone(undone(back))).present).toBe(two);
    expect(redone(back)).toEqual(history);
  });

  it('a new change forgets what was taken back', () => {
    const history = changed(
      undone(changed(startHistory(first), titled('1'), { label: 'a' })),
      titled('2'),
      { label: 'b' },
    );
    expect(canRedo(history)).toBe(false);
    expect(titles(history)).toEqual([['0'], ['2'], []]);
  });

  it('the changes of one gesture are one step', () => {
    let history = startHistory(first);
    for (const title of ['1', '2', '3'])
      history = changed(history, titled(title), { label: 'move', gesture: 'drag-1' });
    expect(titles(history)).toEqual([['0'], ['3'], []]);
    history = changed(history, titled('4'), { label: 'move', gesture: 'drag-2' });
    history = changed(history, titled('5'), { label: 'move' });
    history = changed(history, titled('6'), { label: 'move' });
    history = changed(history, titled('7'), { label: 'move', gesture: 'drag-2' });
    expect(titles(history)).toEqual([['0', '3', '4', '5', '6'], ['7'], []]);
  });

  it('a gesture does not go on after something was taken back', () => {
    let history = changed(startHistory(first), titled('1'), { label: 'move', gesture: 'drag' });
    history = changed(history, titled('2'), { label: 'rename' });
    history = changed(undone(history), titled('3'), { label: 'move', gesture: 'drag' });
    expect(titles(history)).toEqual([['0', '1'], ['3'], []]);
  });

  it('the same plan is no change', () => {
    const history = undone(changed(startHistory(first), titled('1'), { label: 'a' }));
    expect(changed(history, first, { label: 'nothing' })).toBe(history);
  });

  it('forgets the oldest beyond the limit', () => {
    let history = startHistory(first);
    for (let i = 1; i <= HISTORY_LIMIT + 50; i += 1)
      history = changed(history, titled(`${i}`), { label: `${i}` });
    expect(history.past).toHaveLength(200);
    expect(history.past[0].plan.title).toBe('50');
  });

  it('leaves earlier histories as they were', () => {
    const history = Object.freeze(changed(startHistory(first), titled('1'), { label: 'a' }));
    Object.freeze(history.past);
    Object.freeze(history.future);
    const before = JSON.stringify(history);
    changed(history, titled('2'), { label: 'b', gesture: 'g' });
    redone(undone(history));
    expect(JSON.stringify(history)).toBe(before);
  });

  // Against a plain list of states with a cursor.
  it('behaves as a list with a cursor', () => {
    const acts = fc.array(
      fc.oneof(fc.constant('undo'), fc.constant('redo'), fc.constant('change')),
      { maxLength: 60 },
    );
    fc.assert(
      fc.property(acts, (list) => {
        let history = startHistory(first);
        let states = ['0'];
        let at = 0;
        list.forEach((act, i) => {
          if (act === 'undo') {
            history = undone(history);
            at = Math.max(0, at - 1);
          } else if (act === 'redo') {
            history = redone(history);
            at = Math.min(states.length - 1, at + 1);
          } else {
            history = changed(history, titled(`n${i}`), { label: act });
            states = [...states.slice(0, at + 1), `n${i}`];
            at += 1;
          }
          expect(history.present.title).toBe(states[at]);
          expect(canUndo(history)).toBe(at > 0);
          expect(canRedo(history)).toBe(at < states.length - 1);
        });
      }),
    );
  });
});
