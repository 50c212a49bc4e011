/** What guesses teach: means worked by hand; values and lightness from the table of ASTM D1535 in test/reference. */
import { describe, expect, it } from 'vitest';
import {
  allGuesses,
  errorsByHue,
  guessAsLightness,
  hueToTrain,
  type Guess,
} from '../../components/lightness-picker/training.js';
import type { Lab, SavedReading } from '../../core/index.js';
import munsell from '../reference/munsell-value.json' with { type: 'json' };

const lightnessOfValue = (value: number): number => munsell.rows.find(([v]) => v === value)![2];

const made: Guess[] = [
  { lean: 'red', guess: 6, value: 5.2 }, // +0.8
  { lean: 'blue', guess: 3, value: 3.5 }, // -0.5
  { lean: 'red', guess: 5, value: 4.4 }, // +0.6
  { lean: 'yellow', guess: 6.5, value: 8 }, // -1.5
  { lean: 'red', guess: 7, value: 6 }, // +1.0
  { lean: 'blue', guess: 4, value: 4.1 }, // -0.1
];

function kept(id: string, lab: Lab, guess?: number): SavedReading {
  return {
    id,
    at: [0.5, 0.5],
    holeMm: 12,
    lightness: lab[0],
    lab,
    css: '#777777',
    spread: 1,
    ...(guess === undefined ? {} : { guess }),
  };
}

describe('errors by hue', () => {
  it('are means of guess minus value, the farthest off first', () => {
    const errors = errorsByHue(made);
    expect(errors.map(({ lean, count }) => [lean, count])).toEqual([
      ['yellow', 1],
      ['red', 3],
      ['blue', 2],
    ]);
    expect(errors[0].mean).toBeCloseTo(-1.5, 12);
    expect(errors[1].mean).toBeCloseTo(0.8, 12); // (0.8 + 0.6 + 1.0) / 3
    expect(errors[2].mean).toBeCloseTo(-0.3, 12); // (-0.5 - 0.1) / 2
  });

  it('let errors to both sides cancel, as a mean does', () => {
    expect(errorsByHue([made[4], { lean: 'red', guess: 4, value: 5 }])).toEqual([
      { lean: 'red', count: 2, mean: 0 },
    ]);
  });

  it('are none without guesses', () => {
    expect(errorsByHue([])).toEqual([]);
    expect(hueToTrain([])).toBeUndefined();
  });

  it('name the hue to work on only from three guesses and half a step', () => {
    expect(hueToTrain(errorsByHue(made))?.lean).toBe('red'); // yellow is farther off, but from one guess
    expect(hueToTrain([{ lean: 'green', count: 9, mean: 0.49 }])).toBeUndefined();
    expect(hueToTrain([{ lean: 'green', count: 3, mean: -0.5 }])?.lean).toBe('green');
    expect(hueToTrain([{ lean: 'green', count: 2, mean: 3 }])).toBeUndefined();
  });
});

describe('guesses that were kept with the plan', () => {
  it('are kept as the lightness of the value', () => {
    for (const value of [0, 2.5, 5, 6.5])
      expect(guessAsLightness(value)).toBeCloseTo(lightnessOfValue(value), 4);
    expect(guessAsLightness(10)).toBe(100);
    expect(guessAsLightness(11)).toBe(100);
  });

  it('count with those of this visit, each once', () => {
    const visit: Guess[] = [
      { lean: 'red', guess: 6, value: 5, keptAs: 'reading-1' },
      { lean: 'red', guess: 6, value: 5 },
    ];
    const saved = [
      kept('reading-1', [lightnessOfValue(5), 40, 20], lightnessOfValue(6)),
      kept('reading-2', [30, 0, 0]),
    ];
    const all = allGuesses(visit, saved);
    expect(all).toHaveLength(2);
    const [error] = errorsByHue(all);
    expect(error).toMatchObject({ lean: 'red', count: 2 });
    expect(error.mean).toBeCloseTo(1, 4);
  });

  it('count still when their reading was deleted', () => {
    expect(allGuesses([{ lean: 'red', guess: 6, value: 5, keptAs: 'reading-1' }], [])).toHaveLength(
      1,
    );
    expect(allGuesses([], undefined)).toEqual([]);
  });
});
