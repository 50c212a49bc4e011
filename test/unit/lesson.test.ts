/** Lessons: their form as JSON (a second opinion by Ajv), every fault named, and what a board lacks, worked by hand. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import {
  lacksOf,
  LEAN_NAMES,
  LESSON_SCHEMA,
  lessonBands,
  LessonError,
  lessonNeeds,
  parseLesson,
  swatchLean,
  type Board,
  type Lesson,
} from '../../core/entry.js';
import { rulesOf, type RulesGiven } from '../../components/swatch-bucket-board/rules.js';

const LESSON: Lesson = {
  schema: 1,
  title: 'Three greys',
  task: 'Mix two greys for each band.',
  picture: 'pictures/clay-dog.jpg',
  bands: [
    { name: 'dark', floor: 0, ceiling: 36 },
    { name: 'middle', floor: 36, ceiling: 66 },
    { name: 'light', floor: 66, ceiling: 95 },
  ],
  required: [2, 3, 2],
  leans: [['blue', 'orange'], ['neutral'], []],
  tolerance: 12,
  reveal: 'submit',
};

const codesOf = (value: unknown): string[] => {
  try {
    parseLesson(value);
  } catch (error) {
    expect(error).toBeInstanceOf(LessonError);
    return (error as LessonError).faults.map(({ code, values }) => `${code} ${values.path}`);
  }
  return [];
};

describe('a lesson as JSON', () => {
  it('comes back as it was written, from text or value, sharing nothing', () => {
    const read = parseLesson(JSON.stringify(LESSON));
    expect(read).toEqual(LESSON);
    expect(Object.keys(read)).toEqual(Object.keys(LESSON_SCHEMA.properties!));
    const bare = {
      schema: 1,
      title: 'A',
      task: '',
      bands: [{ name: 'all', floor: 0, ceiling: 95 }],
    };
    const copy = parseLesson(bare);
    expect(copy).toEqual(bare);
    expect(copy.bands).not.toBe(bare.bands);
  });

  it('every fault is listed with its place', () => {
    expect(codesOf('{')).toEqual(['lesson.not-json-text $']);
    expect(codesOf([])).toEqual(['lesson.wrong-type $']);
    expect(
      codesOf({
        schema: 2,
        title: '',
        task: 5,
        picture: 'javascript:alert(1)',
        bands: [
          { name: 'a', floor: 40, ceiling: 30 },
          { name: 'b', floor: 20, ceiling: 200, locked: true },
        ],
        required: [1],
        leans: [['warm'], [], []],
        tolerance: -1,
        reveal: 'later',
        colour: 'x',
      }).sort(),
    ).toEqual(
      [
        'lesson.not-allowed $.schema',
        'lesson.too-short $.title',
        'lesson.wrong-type $.task',
        'lesson.wrong-form $.picture',
        'lesson.ceiling-below-floor $.bands[0]',
        'lesson.bands-disorder $.bands[1]',
        'lesson.out-of-range $.bands[1].ceiling',
        'lesson.unknown-key $.bands[1].locked',
        'lesson.other-count $.required',
        'lesson.not-allowed $.leans[0][0]',
        'lesson.other-count $.leans',
        'lesson.out-of-range $.tolerance',
        'lesson.not-allowed $.reveal',
        'lesson.unknown-key $.colour',
      ].sort(),
    );
    for (const required of ['2', 1.5, null, true, {}])
      expect(codesOf({ ...LESSON, required }), String(required)).toEqual([
        'lesson.wrong-type $.required',
      ]);
    expect(codesOf({ ...LESSON, required: 101 })).toEqual(['lesson.out-of-range $.required']);
    expect(codesOf(JSON.stringify(LESSON).replace('"title"', '"__proto__":{},"title"'))).toEqual([
      'lesson.forbidden-key $',
    ]);
    expect(codesOf({ ...LESSON, bands: [], required: 1, leans: [] })).toEqual([
      'lesson.too-few $.bands',
    ]);
  });

  it('a picture’s address: what a page may show, nothing that runs', () => {
    const at = (picture: string): boolean => codesOf({ ...LESSON, picture }).length === 0;
    for (const good of [
      'a.jpg',
      '../p/a.jpg',
      '/a',
      'https://a.example/b.png',
      'data:image/png;base64,AA',
      'blob:x',
    ])
      expect(at(good), good).toBe(true);
    for (const bad of [
      'javascript:x',
      ' javascript:x',
      'java\nscript:x',
      'data:text/html,x',
      'file:///a',
      '',
    ])
      expect(at(bad), bad).toBe(false);
  });

  it('Ajv takes the published schema and agrees on sound and unsound lessons', () => {
    const validate = new Ajv2020({ strict: false }).compile(LESSON_SCHEMA);
    expect(validate(LESSON)).toBe(true);
    for (const change of [
      { schema: 2 },
      { title: '' },
      { picture: 'javascript:x' },
      { bands: [] },
      { leans: [['warm'], [], []] },
      { required: -1 },
      { required: [0.5, 1, 1] },
      { tolerance: 101 },
      { reveal: 'later' },
      { other: 1 },
    ]) {
      const lesson = { ...LESSON, ...change };
      expect(validate(lesson), JSON.stringify(change)).toBe(false);
      expect(codesOf(lesson).length, JSON.stringify(change)).toBeGreaterThan(0);
    }
  });
});

describe('what a lesson asks for', () => {
  it('one number for all, one for each, or one each; the tolerance as spread, bands locked', () => {
    expect(lessonNeeds(LESSON)).toEqual({
      required: [2, 3, 2],
      leans: [['blue', 'orange'], ['neutral'], []],
    });
    const { required, leans, ...rest } = LESSON;
    expect([required, leans]).toBeTruthy();
    expect(lessonNeeds({ ...rest, required: 4 }).required).toEqual([4, 4, 4]);
    expect(lessonNeeds(rest)).toEqual({ required: [1, 1, 1], leans: [[], [], []] });
    expect(lessonBands(LESSON)[1]).toEqual({
      name: 'middle',
      floor: 36,
      ceiling: 66,
      spread: 12,
      locked: true,
    });
  });

  it('the lean of a swatch: CSS colour words fall in the lean of their name; Lab goes before', () => {
    // CSS Color 4 names; that blue is blue and orange is orange needs no arithmetic.
    expect(swatchLean({ css: 'blue' })).toBe('blue');
    expect(swatchLean({ css: 'orange' })).toBe('orange');
    expect(swatchLean({ css: 'grey' })).toBe('neutral');
    expect(swatchLean({ css: 'orange', lab: [50, 0, 0] })).toBe('neutral');
    expect(swatchLean({ css: 'no colour' })).toBeUndefined();
    expect(swatchLean({})).toBeUndefined();
    expect(new Set(LEAN_NAMES).size).toBe(10);
  });

  it('lacks by hand: numbers first, then leans; a lean asked for twice; accents count for the number alone', () => {
    const board: Board = {
      bands: LESSON.bands,
      swatches: [
        { id: 'a', bucket: 0, lightness: 20, css: 'blue' },
        { id: 'b', bucket: 0, lightness: 25, css: 'orange', accent: true },
        { id: 'c', bucket: 1, lightness: 50, css: 'blue' },
        { id: 'd', bucket: 1, lightness: 55 },
        { id: 'e', bucket: 2, lightness: 80 },
      ],
    };
    expect(
      lacksOf(board, {
        required: [2, 3],
        leans: [
          ['blue', 'orange'],
          ['blue', 'neutral', 'blue'],
        ],
      }),
    ).toEqual([
      { bucket: 0, lean: 'orange', found: 0, required: 1 },
      { bucket: 1, found: 2, required: 3 },
      { bucket: 1, lean: 'blue', found: 1, required: 2 },
      { bucket: 1, lean: 'neutral', found: 0, required: 1 },
    ]);
    expect(lacksOf(board, { required: [0, 0, 0], leans: [] })).toEqual([]);
    expect(lacksOf({ bands: [], swatches: [] }, { required: [1], leans: [['red']] })).toEqual([]);
  });
});

describe('rules of the element', () => {
  const none: RulesGiven = {
    lesson: '',
    required: null,
    leans: '',
    reveal: 'always',
    locked: false,
  };

  it('attributes alone; with a title', () => {
    const rules = rulesOf({ ...none, leans: 'blue', lesson: ' Greys ' });
    expect(rules).toMatchObject({
      title: 'Greys',
      task: '',
      counts: false,
      reveal: 'always',
      locked: false,
    });
    expect(rules.needs(2)).toEqual({ required: [1, 1], leans: [['blue']] });
    expect(rulesOf({ ...none, required: '3', leans: 'warm' })).toMatchObject({
      counts: true,
      unknownLeans: ['warm'],
    });
    expect('tolerance' in rulesOf({ ...none, tolerance: -3 })).toBe(false);
  });

  it('a lesson goes before attributes; a bad one leaves them', () => {
    const given: RulesGiven = { ...none, required: '9', leans: 'red', tolerance: 3 };
    const rules = rulesOf({ ...given, lesson: JSON.stringify(LESSON) });
    expect(rules).toMatchObject({
      title: 'Three greys',
      tolerance: 12,
      reveal: 'submit',
      locked: true,
    });
    expect(rules.needs(3)).toEqual(lessonNeeds(LESSON));
    const { reveal, ...hidden } = LESSON;
    expect(reveal).toBe('submit');
    expect(rulesOf({ ...given, lesson: hidden }).reveal).toBe('submit');
    const bad = rulesOf({ ...given, lesson: '{}' });
    expect(bad.trouble).toBeInstanceOf(LessonError);
    expect(bad).toMatchObject({ title: '', tolerance: 3, reveal: 'always' });
  });
});
