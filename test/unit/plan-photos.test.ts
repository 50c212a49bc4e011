import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  MOST_PHOTOS,
  newPlan,
  parsePlan,
  photosOf,
  planFaults,
  serialisePlan,
  withoutPhoto,
  withPhotoAdded,
  withPhotoInHand,
  withPhotoLeading,
  withPhotoRemoved,
  type Plan,
  type PlanPhoto,
} from '../../core/plan/index.js';

const digest = (letter: string): string => letter.repeat(64);
const photo = (letter: string): PlanPhoto => ({
  sha256: digest(letter),
  name: `${letter}.jpg`,
  width: 400,
  height: 300,
});
const [a, b, c] = ['a', 'b', 'c'].map(photo);
const three = (): Plan =>
  [a, b, c].reduce(withPhotoAdded, newPlan({ title: 'Three photos of a cat' }));

const crop = { x: 0, y: 0, width: 0.5, height: 1 };
const reading = {
  id: 'r',
  at: [0.5, 0.5] as [number, number],
  holeMm: 5,
  lightness: 40,
  lab: [40, 0, 0] as [number, number, number],
  css: '#5e5e5e',
  spread: 1,
};
const spot = { id: 'd', at: [0.1, 0.1] as [number, number], radius: 0.1, lightness: 30, note: '' };
const loop: [number, number][] = [
  [0, 0],
  [1, 0],
  [1, 1],
];
const focus = [{ id: 'f', loop, brush: 1 }];
const overrules = [{ kind: 'band', at: [0.5, 0.25], band: 0 }];
const landmarks = [{ id: 'l', at: [0.25, 0.5] as [number, number], name: 'eye' }];

describe('photos of one sitter', () => {
  it('the first leads, further ones stand behind it', () => {
    const plan = three();
    expect(plan.photo).toEqual(a);
    expect(plan.photos).toEqual([b, c]);
    expect(photosOf(plan)).toEqual([a, b, c]);
    expect(planFaults(plan)).toEqual([]);
    expect(withPhotoAdded(plan, { ...b, name: 'the same under another name.jpg' })).toBe(plan);
    expect(withPhotoAdded(plan, a)).toBe(plan);
  });

  it('another one leads; what was drawn on each stays with it', () => {
    const marks = {
      crop,
      sitter: loop,
      distrusted: [spot],
      readings: [reading],
      focus,
      landmarks,
      overrules,
    };
    const drawn: Plan = { ...three(), ...marks };
    const led = withPhotoLeading(drawn, b.sha256);
    expect(led.photo).toEqual(b);
    expect(led.photos).toEqual([a, c]);
    for (const field of ['crop', 'sitter', 'distrusted', 'readings', 'focus', 'landmarks'])
      expect(led).not.toHaveProperty(field);
    expect(led.overrules).toEqual([]);
    expect(led.marks).toEqual({ [a.sha256]: marks });
    const both: Plan = { ...led, readings: [{ ...reading, lightness: 70 }] };
    const back = withPhotoLeading(both, a.sha256);
    expect(back).toMatchObject({ photo: a, photos: [b, c], ...marks });
    expect(back.marks).toEqual({ [b.sha256]: { readings: [{ ...reading, lightness: 70 }] } });
    expect(planFaults(back)).toEqual([]);
    expect(parsePlan(serialisePlan(back))).toEqual(back);
    expect(withPhotoLeading(back, a.sha256)).toBe(back);
  });

  it('nothing is lost on any way through the photos', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(a, b, c), { maxLength: 8 }), (way) => {
        const start: Plan = { ...three(), crop, readings: [reading], focus, overrules };
        const plans = way.reduce((plan, { sha256 }) => withPhotoLeading(plan, sha256), start);
        expect(planFaults(plans)).toEqual([]);
        expect(new Set(photosOf(plans))).toEqual(new Set([a, b, c]));
        const back = withPhotoLeading(plans, a.sha256);
        expect({ ...back, photos: undefined }).toEqual({ ...start, photos: undefined });
      }),
    );
    const there = withPhotoLeading(three(), c.sha256);
    expect(withPhotoLeading(there, a.sha256)).toEqual(three());
  });

  it('one goes, with what was drawn on it and borrowed from it', () => {
    const borrowed = [
      {
        id: '1',
        photo: b.sha256,
        at: [0.2, 0.3] as [number, number],
        radius: 0.1,
        note: 'left ear',
      },
      { id: '2', photo: c.sha256, at: [0.4, 0.3] as [number, number], radius: 0.1, note: 'paw' },
    ];
    const marks = { [b.sha256]: { crop } };
    const plan: Plan = { ...three(), borrowed, marks, readings: [reading] };
    const less = withPhotoRemoved(plan, b.sha256);
    expect(less.photos).toEqual([c]);
    expect(less.borrowed).toEqual([borrowed[1]]);
    expect(less).not.toHaveProperty('marks');
    expect(less.readings).toEqual([reading]);
    expect(withPhotoRemoved(less, b.sha256)).toBe(less);
    const one = withPhotoRemoved(less, c.sha256);
    expect(one).not.toHaveProperty('photos');
    expect(one).not.toHaveProperty('borrowed');
    const none = withPhotoRemoved(one, a.sha256);
    expect(none).toEqual(newPlan({ title: plan.title }));
  });

  it('the next one leads when the leading one goes', () => {
    const marks = { [b.sha256]: { crop } };
    const next = withPhotoRemoved({ ...three(), marks, readings: [reading] }, a.sha256);
    expect(next).toEqual({ ...newPlan({ title: next.title }), photo: b, photos: [c], crop });
  });

  it('opening another picture lets the leading one go and no other', () => {
    const marks = { [b.sha256]: { crop } };
    const borrowed = [
      { id: '1', photo: a.sha256, at: [0.2, 0.3] as [number, number], radius: 0.1, note: 'nose' },
    ];
    const rest = withoutPhoto({
      ...three(),
      marks,
      borrowed,
      crop,
      distrusted: [spot],
      focus,
      overrules,
    });
    expect(rest).toEqual({ ...newPlan({ title: rest.title }), photos: [b, c], marks });
    expect(withoutPhoto(rest)).toBe(rest);
    expect(withoutPhoto({ ...rest, crop })).toEqual(rest);
    expect(withoutPhoto({ ...rest, overrules })).toEqual(rest);
  });

  it('the picture in hand is named once, and its note is kept', () => {
    const plan: Plan = { ...three(), photos: [{ ...b, note: 'the ears' }, c], crop };
    expect(withPhotoInHand(plan, { ...a, name: 'renamed.jpg' })).toEqual({
      ...plan,
      photo: { ...a, name: 'renamed.jpg' },
    });
    const led = withPhotoInHand(withoutPhoto(plan), b);
    expect(led.photo).toEqual({ ...b, note: 'the ears' });
    expect(led.photos).toEqual([c]);
    expect(led).not.toHaveProperty('crop');
  });

  it('a leading photo that is listed among the others too counts once', () => {
    const twice: Plan = { ...three(), photos: [a, b] };
    expect(planFaults(twice)).toEqual([]);
    expect(photosOf(twice)).toEqual([a, b]);
    expect(withPhotoLeading(twice, b.sha256).photos).toEqual([a]);
    expect(photosOf(withPhotoRemoved(twice, a.sha256))).toEqual([b]);
  });

  it('refuses what is no photo of the plan, and more than can be kept', () => {
    expect(() => withPhotoLeading(three(), digest('d'))).toThrow(/^sha256 is "dddd/);
    expect(() => withPhotoLeading(three(), 'A')).toThrow(RangeError);
    expect(() => withPhotoRemoved(three(), 5 as never)).toThrow(TypeError);
    expect(() => withPhotoAdded(three(), undefined as never)).toThrow(
      /^photo\.sha256 is undefined/,
    );
    const many = Array.from({ length: MOST_PHOTOS }, (_, i): PlanPhoto => ({
      ...a,
      sha256: i.toString(16).padStart(64, '0'),
    }));
    const full = many.reduce(withPhotoAdded, newPlan());
    expect(photosOf(full)).toHaveLength(MOST_PHOTOS);
    expect(planFaults(full)).toEqual([]);
    expect(() => withPhotoAdded(full, b)).toThrow(/^photos is 51; expected at most 50 photos/);
  });

  it('changes nothing it is given', () => {
    const plan: Plan = { ...three(), crop, readings: [reading] };
    const before = structuredClone(plan);
    withPhotoLeading(withPhotoRemoved(plan, b.sha256), c.sha256);
    withPhotoRemoved(plan, a.sha256);
    withPhotoInHand(plan, b);
    expect(plan).toEqual(before);
  });
});

describe('faults of photos, brief and range', () => {
  const faultsOf = (part: Partial<Record<keyof Plan, unknown>>): [string, unknown][] =>
    planFaults({ ...three(), ...part }).map(({ code, values }) => [code, values.path]);

  it('are listed all at once', () => {
    const borrowed = { id: '1', photo: b.sha256, at: [0.2, 0.3], radius: 0.1, note: 'left ear' };
    expect(
      faultsOf({
        photos: [b, c, { ...b, width: 0 }],
        marks: {
          [b.sha256]: {
            crop: { x: 0.6, y: 0, width: 0.5, height: 1 },
            readings: [reading, reading],
            focus: [focus[0], focus[0]],
          },
          [c.sha256]: { title: 'none' },
          cat: {},
        },
        borrowed: [borrowed, { ...borrowed, radius: 0 }],
        brief: {
          deadline: '2026-02-29',
          widthMm: 0,
          permission: 'perhaps',
          markings: [
            { id: 'm', text: 'white sock' },
            { id: 'm', text: 'other sock', done: 'yes' },
          ],
          address: 'none of ours',
        },
        range: { low: 50, high: 50.5, holding: 2 },
      }).sort(),
    ).toEqual(
      [
        ['plan.out-of-range', '$.photos[2].width'],
        ['plan.duplicate-photo', '$.photos[2]'],
        ['plan.crop-outside', `$.marks["${'b'.repeat(60)}…"].crop`],
        ['plan.duplicate-id', `$.marks["${'b'.repeat(60)}…"].readings[1].id`],
        ['plan.duplicate-id', `$.marks["${'b'.repeat(60)}…"].focus[1].id`],
        ['plan.unknown-key', `$.marks["${'c'.repeat(60)}…"].title`],
        ['plan.unknown-key', '$.marks.cat'],
        ['plan.duplicate-id', '$.borrowed[1].id'],
        ['plan.out-of-range', '$.borrowed[1].radius'],
        ['plan.no-such-day', '$.brief.deadline'],
        ['plan.out-of-range', '$.brief.widthMm'],
        ['plan.not-allowed', '$.brief.permission'],
        ['plan.duplicate-id', '$.brief.markings[1].id'],
        ['plan.wrong-type', '$.brief.markings[1].done'],
        ['plan.unknown-key', '$.brief.address'],
        ['plan.range-too-narrow', '$.range'],
        ['plan.out-of-range', '$.range.holding'],
      ].sort(),
    );
  });

  it('a deadline is a day of the calendar', () => {
    // Any other calendar will do for a witness: Date.UTC carries a day that is none over into the next month.
    fc.assert(
      fc.property(
        fc.integer({ min: 1600, max: 2400 }),
        fc.integer({ min: 1, max: 12 }),
        fc.integer({ min: 1, max: 31 }),
        (year, month, day) => {
          const pad = (n: number): string => String(n).padStart(2, '0');
          const is = new Date(Date.UTC(year, month - 1, day)).getUTCDate() === day;
          const faults = faultsOf({ brief: { deadline: `${year}-${pad(month)}-${pad(day)}` } });
          expect(faults).toEqual(is ? [] : [['plan.no-such-day', '$.brief.deadline']]);
        },
      ),
    );
    for (const year of [1900, 2000, 2024, 2026])
      expect(faultsOf({ brief: { deadline: `${year}-02-29` } }).length).toBe(
        year === 2000 || year === 2024 ? 0 : 1,
      );
    expect(faultsOf({ brief: { deadline: '31.01.2026' } })).toEqual([
      ['plan.wrong-form', '$.brief.deadline'],
    ]);
  });

  it('marks may not name the machinery of objects, nor be without end', () => {
    const marks = JSON.parse('{"__proto__":{"crop":{}}}') as unknown;
    expect(faultsOf({ marks })).toEqual([['plan.forbidden-key', '$.marks']]);
    const many = Object.fromEntries(
      Array.from({ length: 101 }, (_, i) => [i.toString(16).padStart(64, '0'), {}]),
    );
    expect(faultsOf({ marks: many })).toEqual([['plan.too-many', '$.marks']]);
    expect(faultsOf({ marks: [] })).toEqual([['plan.wrong-type', '$.marks']]);
  });
});
