/**
 * Marking, worked by hand. Bands: dark to 36, middle to 66, light to 95 (L*). The verdicts follow the board's rule: who is farther
 * past its own limit is at fault, and a swatch past a limit with nothing in the next bucket is at fault by that limit.
 */
import { describe, expect, it } from 'vitest';
import {
  classReport,
  MARKING_CODES,
  markSubmission,
  parseSubmission,
  SubmissionError,
  type Board,
  type BoardSwatch,
  type Lesson,
  type Submission,
} from '../../core/entry.js';

const LESSON: Lesson = {
  schema: 1,
  title: 'Greys',
  task: 'Mix.',
  bands: [
    { name: 'dark', floor: 0, ceiling: 36 },
    { name: 'middle', floor: 36, ceiling: 66 },
    { name: 'light', floor: 66, ceiling: 95 },
  ],
  required: 1,
  leans: [[], ['blue'], []],
};
const swatch = (id: string, bucket: number, lightness: number, css?: string): BoardSwatch => ({
  id,
  bucket,
  lightness,
  ...(css === undefined ? {} : { css, from: 'mix' }), // a mix: its colour may lie outside what CSS shows
});
const boardOf = (...swatches: BoardSwatch[]): Board => ({ bands: LESSON.bands, swatches });
const handedIn = (board: Board, more: Partial<Submission> = {}): Submission => ({
  schema: 1,
  student: 'Student 1',
  lesson: 'Greys',
  board,
  ...more,
});
const fits = (...ids: string[]) => ({
  swatches: ids.map((id) => ({ id, verdict: 'fits', margin: 1, reasons: [] })),
  overlaps: [],
  gaps: [],
});

/** In order: 20 < 50 < 80, each inside its limits. */
const RIGHT = boardOf(swatch('a', 0, 20), swatch('b', 1, 50, 'blue'), swatch('c', 2, 80));
/** a (58, dark) is lighter than b (50, middle) by 8; 22 past its limit, where b keeps its own: a is too light. */
const WRONG = boardOf(swatch('a', 0, 58), swatch('b', 1, 50, 'blue'), swatch('c', 2, 80));

const codesOf = (value: unknown): string[] => {
  try {
    parseSubmission(value);
  } catch (error) {
    expect(error).toBeInstanceOf(SubmissionError);
    return (error as SubmissionError).faults.map(({ code, values }) => `${code} ${values.path}`);
  }
  return [];
};

describe('a submission', () => {
  it('is read with its known fields alone', () => {
    const whole = handedIn(RIGHT, {
      verdict: fits('a'),
      lacks: [],
      attempt: 2,
      made: '2026-03-02T09:00:00.000Z',
    });
    expect(parseSubmission(JSON.stringify({ ...whole, colour: 'x' }))).toEqual(whole);
    expect(parseSubmission({ schema: 1, board: RIGHT })).toEqual({ schema: 1, board: RIGHT });
  });

  it('every fault is listed with its place', () => {
    expect(codesOf('not json')).toEqual(['submission.not-json-text $']);
    expect(codesOf('[]')).toEqual(['submission.wrong-type $']);
    expect(codesOf({})).toEqual(['submission.missing $.schema', 'submission.missing $.board']);
    expect(
      codesOf({
        schema: 3,
        student: 7,
        attempt: 0,
        made: 'yesterday',
        board: { bands: LESSON.bands, swatches: [swatch('a', 5, 20), swatch('a', 0, 120)] },
      }).sort(),
    ).toEqual(
      [
        'submission.not-allowed $.schema',
        'submission.wrong-type $.student',
        'submission.out-of-range $.attempt',
        'submission.wrong-form $.made',
        'submission.out-of-range $.board.swatches[1].lightness',
        'submission.no-such-bucket $.board.swatches[0].bucket',
        'submission.duplicate-id $.board.swatches[1].id',
      ].sort(),
    );
    expect(codesOf({ schema: 1, board: { bands: [], swatches: [] } })).toEqual([
      'submission.no-bands $.board.bands',
    ]);
    expect(codesOf('{"schema":1,"board":{"bands":[],"swatches":[],"__proto__":1}}')[0]).toBe(
      'submission.forbidden-key $.board',
    );
    expect(codesOf(`"${'x'.repeat(4_000_001)}"`)).toEqual(['submission.too-large $']);
  });
});

describe('marking one', () => {
  it('an honest right board has no findings', () => {
    const marked = markSubmission(
      JSON.stringify(handedIn(RIGHT, { verdict: fits('a', 'b', 'c'), lacks: [] })),
      {
        lesson: LESSON,
      },
    );
    expect(marked).toMatchObject({ student: 'Student 1', attempt: 1, lesson: 'Greys', faults: 0 });
    expect(marked.findings).toEqual([]);
    expect(marked.lacks).toEqual([]);
    expect(marked.verdict.swatches.map(({ verdict }) => verdict)).toEqual(['fits', 'fits', 'fits']);
  });

  it('a verdict that was painted over is told and does not count', () => {
    const marked = markSubmission(handedIn(WRONG, { verdict: fits('a', 'b', 'c') }));
    expect(marked.faults).toBe(1);
    expect(marked.verdict.swatches[0].verdict).toBe('too-light');
    expect(marked.findings).toEqual([
      {
        code: 'marking.verdict-differs',
        values: { swatch: 'a', said: 'fits', found: 'too-light' },
      },
    ]);
  });

  it('no verdict, half a verdict, one about other swatches, one that is no verdict', () => {
    const findings = (verdict: unknown) => markSubmission(handedIn(RIGHT, { verdict })).findings;
    expect(findings(undefined)).toEqual([
      { code: 'marking.verdict-missing', values: { count: 3 } },
    ]);
    expect(findings(fits('a', 'x', 'y'))).toEqual([
      { code: 'marking.verdict-missing', values: { count: 2 } },
      { code: 'marking.verdict-of-none', values: { count: 2 } },
    ]);
    expect(findings('fits')).toEqual([{ code: 'marking.verdict-missing', values: { count: 3 } }]);
    expect(findings({ swatches: [null, 3, { id: 'a', verdict: { x: 1 } }] })).toEqual([
      { code: 'marking.verdict-differs', values: { swatch: 'a', said: '?', found: 'fits' } },
      { code: 'marking.verdict-missing', values: { count: 2 } },
      { code: 'marking.verdict-of-none', values: { count: 1 } },
    ]);
  });

  it('lacks are counted anew: the blue lean of the middle is missing, whatever was said', () => {
    const board = boardOf(swatch('a', 0, 20), swatch('b', 1, 50, 'orange'), swatch('c', 2, 80));
    const marked = markSubmission(handedIn(board, { verdict: fits('a', 'b', 'c'), lacks: [] }), {
      lesson: LESSON,
    });
    expect(marked.lacks).toEqual([{ bucket: 1, lean: 'blue', found: 0, required: 1 }]);
    expect(marked.findings).toEqual([
      { code: 'marking.lacks-differ', values: { said: 0, found: 1 } },
    ]);
    const honest = markSubmission(
      handedIn(board, { verdict: fits('a', 'b', 'c'), lacks: marked.lacks }),
      {
        lesson: LESSON,
      },
    );
    expect(honest.findings).toEqual([]);
  });

  it('bands that were moved so that a wrong board fits: judged by the lesson’s', () => {
    // Under the moved bands 58 lies in "dark" (to 60) and 70 in "middle" (to 75): all would fit. By the lesson 58 is past 36, and
    // order (58 < 70 < 80) shows it right for the dark ("between"), as 70 is past 66 but under 80.
    const bands = [
      { name: 'dark', floor: 0, ceiling: 60 },
      { name: 'middle', floor: 60, ceiling: 75 },
      { name: 'light', floor: 75, ceiling: 95 },
    ];
    const board = {
      bands,
      swatches: [swatch('a', 0, 58), swatch('b', 1, 70, 'blue'), swatch('c', 2, 80)],
    };
    const marked = markSubmission(handedIn(board, { verdict: fits('a', 'b', 'c') }), {
      lesson: LESSON,
    });
    expect(marked.board.bands.map(({ ceiling }) => ceiling)).toEqual([36, 66, 95]);
    expect(marked.findings.map(({ code, values }) => `${code} ${values.swatch ?? ''}`)).toEqual([
      'marking.other-bands ',
      'marking.verdict-differs a',
      'marking.verdict-differs b',
    ]);
    const two = markSubmission(
      handedIn(
        { bands: bands.slice(0, 2), swatches: [swatch('a', 0, 58)] },
        { verdict: fits('a') },
      ),
      { lesson: { ...LESSON, title: 'Other' } },
    );
    expect(two.board.bands).toHaveLength(2);
    expect(two.findings.map(({ code }) => code)).toEqual([
      'marking.other-lesson',
      'marking.other-bands',
    ]);
  });

  it('a swatch whose figure is not that of its colour (white is L* 100 by definition)', () => {
    const board = boardOf({ id: 'a', bucket: 0, lightness: 20, css: 'white' });
    const { findings } = markSubmission(handedIn(board, { verdict: fits('a') }));
    expect(findings).toHaveLength(1);
    expect(findings[0].code).toBe('marking.colour-differs');
    expect(findings[0].values.shown).toBeCloseTo(100, 6);
    const sure = boardOf({ id: 'a', bucket: 2, lightness: 90, css: 'white', uncertainty: 10 });
    expect(
      markSubmission(handedIn(sure, { verdict: fits('a') })).findings.map(({ code }) => code),
    ).not.toContain('marking.colour-differs');
  });

  it('figures of each finding are those that are published', () => {
    const board = boardOf({ id: 'a', bucket: 0, lightness: 20, css: 'white' }, swatch('b', 0, 40));
    const { findings } = markSubmission(
      handedIn(
        { ...board, bands: [...LESSON.bands.slice(0, 2), { name: 'x', floor: 66, ceiling: 95 }] },
        {
          lesson: 'Other',
          verdict: fits('a', 'z'),
          lacks: [],
        },
      ),
      { lesson: LESSON },
    );
    for (const { code, values } of findings)
      expect(Object.keys(values), code).toEqual([
        ...MARKING_CODES[code as keyof typeof MARKING_CODES],
      ]);
    expect(findings.length).toBeGreaterThan(4);
    expect(() => markSubmission(handedIn(RIGHT), { paper: 120 })).toThrow(RangeError);
  });
});

describe('a class', () => {
  /** Middle at 70 with nothing in light: 4 past its ceiling of 66, so too light by 4. */
  const past = (id: string, lightness: number, css?: string) =>
    boardOf(swatch(id, 1, lightness, css));
  const report = () =>
    classReport([
      handedIn(past('p', 70, 'blue'), { student: 'Student 2' }),
      handedIn(past('q', 76, 'blue'), { student: 'Student 10' }),
      handedIn(past('r', 71, 'orange'), { student: 'Student 1', attempt: 1 }),
      handedIn(past('s', 50, 'orange'), { student: 'Student 1', attempt: 2 }),
      handedIn(boardOf(swatch('t', 1, 30)), { student: 'Student 3', attempt: 1 }),
      handedIn(boardOf(swatch('t', 1, 30), swatch('u', 1, 32)), {
        student: 'Student 3',
        attempt: 2,
      }),
    ]);

  it('students by name, attempts in order', () => {
    const { perStudent, repeated } = report();
    expect(
      perStudent.map(({ student, attempts }) => [student, ...attempts.map(({ faults }) => faults)]),
    ).toEqual([
      ['Student 1', 1, 0],
      ['Student 2', 1],
      ['Student 3', 1, 2],
      ['Student 10', 1],
    ]);
    expect(perStudent.map(({ improvement }) => improvement)).toEqual([
      { before: 1, after: 0 },
      undefined,
      { before: 1, after: 2 },
      undefined,
    ]);
    expect(repeated).toEqual([]);
  });

  it('improvement over those with more than one attempt: 2 faults before, 2 after; one better, one worse', () => {
    expect(report().improvement).toEqual({
      students: 2,
      before: 2,
      after: 2,
      better: 1,
      same: 0,
      worse: 1,
    });
    expect(classReport([]).improvement).toEqual({
      students: 0,
      before: 0,
      after: 0,
      better: 0,
      same: 0,
      worse: 0,
    });
  });

  it('mistakes by band and lean: count, students, what is left, mean L* off', () => {
    const { commonMistakes } = report();
    expect(
      commonMistakes.map(({ band, lean, verdict, count, students, left }) =>
        [band, lean, verdict, count, students, left].join(' '),
      ),
    ).toEqual([
      'middle blue too-light 2 2 2', // both with one attempt: it still stands
      'middle unknown too-dark 1 1 2', // 30, then 30 and 32, under the floor of 36
      'middle orange too-light 1 1 0', // mended
    ]);
    // 70 and 76 past 66: 4 and 10, mean 7; 30 under 36: 6; 71 past 66: 5.
    expect(commonMistakes.map(({ meanOff }) => meanOff)).toEqual([7, 6, 5]);
    expect(commonMistakes[0].swatches).toEqual([
      { student: 'Student 10', id: 'q', css: 'blue', lightness: 76, off: 10 },
      { student: 'Student 2', id: 'p', css: 'blue', lightness: 70, off: 4 },
    ]);
  });

  it('a mistake that only later attempts make is listed, with no first count', () => {
    const { commonMistakes } = classReport([
      handedIn(RIGHT, { attempt: 1 }),
      handedIn(WRONG, { attempt: 3 }),
    ]);
    expect(commonMistakes).toHaveLength(1);
    // 58 has to come under 50: 8 off.
    expect(commonMistakes[0]).toMatchObject({
      band: 'dark',
      count: 0,
      students: 0,
      left: 1,
      meanOff: 8,
    });
  });

  it('the same attempt twice: the one made last counts, in whatever order they come', () => {
    const early = handedIn(WRONG, { made: '2026-03-02T09:00:00Z' });
    const late = handedIn(RIGHT, { made: '2026-03-02T10:00:00Z' });
    for (const list of [
      [early, late],
      [late, early],
    ]) {
      const { perStudent, repeated } = classReport(list);
      expect(perStudent[0].attempts.map(({ faults }) => faults)).toEqual([0]);
      expect(repeated.map(({ faults }) => faults)).toEqual([1]);
    }
    const untimed = classReport([handedIn(RIGHT), handedIn(WRONG)]);
    expect(untimed.perStudent[0].attempts[0].faults).toBe(1);
    const same = classReport([
      handedIn(RIGHT, { student: ' Zo\u0065\u0301 ' }),
      handedIn(RIGHT, { student: 'Zo\u00e9', attempt: 2 }),
    ]);
    expect(same.perStudent).toHaveLength(1);
  });

  it('nothing that comes in is changed', () => {
    const list = [handedIn(WRONG), handedIn(RIGHT, { attempt: 2 })];
    const before = JSON.stringify(list);
    classReport(list, { lesson: LESSON });
    expect(JSON.stringify(list)).toBe(before);
  });
});
