/** What is said about a reading, and how readings enter plan and board. */
import { describe, expect, it } from 'vitest';
import {
  bandName,
  colourOf,
  leanStrength,
  remarksOn,
  spreadName,
} from '../../components/lightness-picker/judgement.js';
import {
  freshId,
  savedReading,
  swatchOf,
  withNote,
  withoutGuesses,
  withoutReading,
  withReading,
  withSwatch,
} from '../../components/lightness-picker/readings.js';
import { checkPlan, judgeBoard, lightnessOf, newPlan, type Reading } from '../../core/index.js';

const grey: Reading = {
  lab: [50, 0, 0],
  lightness: 50,
  apparent: 50,
  spread: 1,
  low: 49,
  high: 51,
  clippedLight: 0,
  clippedDark: 0,
  count: 900,
  css: '#777777',
};

const codes = (reading: Reading): string[] => remarksOn(reading).map(({ code }) => code);

describe('remarks on a reading', () => {
  it('are none for an even grey', () => {
    expect(remarksOn(grey)).toEqual([]);
  });

  it('tell of a strong colour that seems lighter, in steps of value', () => {
    // Fairchild & Pirrotta 1991 by hand for L* 50, C* 40, h 0: 50 + (2.5 - 1.25)(0.116 sin 45 + 0.085) 40 = 58.35
    const [remark] = remarksOn({ ...grey, lab: [50, 40, 0], apparent: 58.35 });
    expect(remark).toMatchObject({ code: 'reading.seems-lighter', values: { lean: 'red' } });
    // ASTM D1535: L* 50 is value 4.90, L* 58.35 is value 5.73 (between the table's rows, linearly)
    expect(remark.values.steps).toBeCloseTo(0.83, 1);
  });

  it('leave a weak colour alone: seeming less than half a step lighter', () => {
    // The same by hand for C* 20: 50 + 1.25 x 0.16702 x 20 = 54.18
    expect(codes({ ...grey, lab: [50, 20, 0], apparent: 54.18 })).toEqual([]);
  });

  it('tell of burnt lights, lost darks, and two things in one hole', () => {
    expect(codes({ ...grey, clippedLight: 0.3 })).toEqual(['reading.clipped-light']);
    expect(codes({ ...grey, clippedDark: 0.3 })).toEqual(['reading.clipped-dark']);
    expect(codes({ ...grey, spread: 18 })).toEqual(['reading.mixed']);
    expect(codes({ ...grey, clippedLight: 0.01, clippedDark: 0.01, spread: 9 })).toEqual([]);
  });

  it('put the painter’s own value of a distrusted spot first, with the note', () => {
    const [remark] = remarksOn({
      ...grey,
      lightness: 80,
      distrusted: { id: 'a', note: 'glare', measured: 50 },
    });
    expect(remark.code).toBe('reading.distrusted-note');
    expect(remark.values.note).toBe('glare');
    expect(remark.values.measured).toBeCloseTo(4.9, 1); // ASTM D1535
    expect(remark.values.value).toBeCloseTo(7.95, 1); // ASTM D1535
  });
});

describe('words for amounts', () => {
  it('name the spread in the hole', () => {
    expect([0, 2, 2.1, 5, 9, 11].map(spreadName)).toEqual([
      'even',
      'even',
      'slight',
      'slight',
      'varied',
      'mixed',
    ]);
  });

  it('name how strong a lean is', () => {
    const strength = (chroma: number, name: 'red' | 'neutral' = 'red') =>
      leanStrength({ hue: 20, chroma, name });
    expect([strength(1, 'neutral'), strength(6), strength(20), strength(60)]).toEqual([
      'neutral',
      'trace',
      'plain',
      'strong',
    ]);
  });

  it('name the band, and bare paper above its limit', () => {
    const plan = { ...newPlan({ photoLimits: [36, 66] }), paperLimit: 92 };
    expect(
      [20, 36, 65.9, 66, 95].map((lightness) => bandName(plan, lightness, 'bare paper')),
    ).toEqual(['dark', 'middle', 'middle', 'light', 'bare paper']);
  });
});

describe('readings in a plan', () => {
  const taken = { reading: grey, at: [0.25, 0.75] as [number, number], holeMm: 8 };

  it('make a sound plan, get notes, and go', () => {
    const one = withReading(newPlan(), savedReading({ ...taken, guess: 60 }, 'reading-1'));
    expect(checkPlan(one).readings).toEqual(one.readings);
    expect(one.readings![0]).toMatchObject({
      id: 'reading-1',
      at: [0.25, 0.75],
      holeMm: 8,
      lightness: 50,
      guess: 60,
    });
    const noted = withNote(one, 'reading-1', 'shaded cheek');
    expect(noted.readings![0].note).toBe('shaded cheek');
    expect('note' in withNote(noted, 'reading-1', '').readings![0]).toBe(false);
    expect(withNote(noted, 'reading-1', 'shaded cheek')).toBe(noted);
    expect('guess' in withoutGuesses(noted).readings![0]).toBe(false);
    expect('readings' in withoutReading(noted, 'reading-1')).toBe(false);
    expect(withoutReading(noted, 'reading-9')).toBe(noted);
  });

  it('keep a distrusted spot with the painter’s own lightness, in colour too', () => {
    const reading: Reading = {
      ...grey,
      lightness: 80,
      distrusted: { id: 'a', note: 'glare', measured: 50 },
    };
    const saved = savedReading({ ...taken, reading }, 'reading-1');
    expect(saved).toMatchObject({ lightness: 80, note: 'glare' });
    expect(saved.lab[0]).toBe(80);
    expect(lightnessOf(saved.css)).toBeCloseTo(80, 0);
    expect(colourOf(grey)).toEqual({ lightness: 50, lab: [50, 0, 0], css: '#777777' });
  });

  it('get names that none has', () => {
    expect(freshId('reading', [])).toBe('reading-1');
    expect(freshId('reading', [{ id: 'reading-2' }])).toBe('reading-3');
    expect(freshId('reading', [{ id: 'reading-1' }, { id: 'reading-3' }])).toBe('reading-4');
  });
});

describe('readings on the board', () => {
  const plan = { ...newPlan({ photoLimits: [36, 66] }), paperLimit: 92 };

  it('go to the bucket of their band and fit there', () => {
    const swatch = swatchOf(plan, {
      lightness: 50,
      lab: [50, 0, 0],
      css: '#777777',
      note: 'cheek',
    })!;
    expect(swatch).toMatchObject({
      bucket: 1,
      lightness: 50,
      css: '#777777',
      from: 'reading',
      note: 'cheek',
    });
    const next = withSwatch(plan, swatch);
    expect(checkPlan(next).board.swatches).toHaveLength(1);
    expect(judgeBoard(next.board).swatches[0].verdict).toBe('fits');
    expect(swatchOf(next, { lightness: 20, lab: [20, 0, 0], css: '#303030' })!.id).not.toBe(
      swatch.id,
    );
  });

  it('have no bucket when the light is left as bare paper', () => {
    expect(swatchOf(plan, { lightness: 95, lab: [95, 0, 0], css: '#f0f0f0' })).toBeUndefined();
  });
});
