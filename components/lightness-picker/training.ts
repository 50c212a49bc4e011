import {
  lightnessOfMunsell,
  munsellValue,
  type LeanName,
  type SavedReading,
  leanOf,
} from '../shared/core.js';

/** A value said before it was shown, and what it was. Values are Munsell values, 0..10. */
export interface Guess {
  guess: number;
  value: number;
  lean: LeanName;
  /** The kept reading that carries the same guess. */
  keptAs?: string;
}

/** How far off the guesses of one hue were. */
export interface HueError {
  lean: LeanName;
  count: number;
  /** Mean of guess - value, in steps of value: above 0 the hue was taken too light. */
  mean: number;
}

/** Guesses of one hue from which something may be concluded. Our own choice. */
export const ENOUGH = 3;

/** Half a step of value: guesses are made in half steps, so a smaller mean error says little. */
export const CLOSE = 0.5;

/** The mean error by hue, the farthest off first; hues with equal errors in the order of their names. */
export function errorsByHue(guesses: readonly Guess[]): HueError[] {
  const sums = new Map<LeanName, { count: number; sum: number }>();
  for (const { guess, value, lean } of guesses) {
    const at = sums.get(lean) ?? { count: 0, sum: 0 };
    sums.set(lean, { count: at.count + 1, sum: at.sum + guess - value });
  }
  return [...sums]
    .map(([lean, { count, sum }]) => ({ lean, count, mean: sum / count }))
    .sort((a, b) => Math.abs(b.mean) - Math.abs(a.mean) || (a.lean < b.lean ? -1 : 1));
}

/** The hue to work on: the farthest off of those with {@link ENOUGH} guesses, when it is off by {@link CLOSE} or more. */
export function hueToTrain(errors: readonly HueError[]): HueError | undefined {
  return errors.find(({ count, mean }) => count >= ENOUGH && Math.abs(mean) >= CLOSE);
}

/** The guesses of this visit, and those that were kept with the plan; a kept one counts once. */
export function allGuesses(made: readonly Guess[], kept: readonly SavedReading[] = []): Guess[] {
  const ids = new Set(kept.filter(({ guess }) => guess !== undefined).map(({ id }) => id));
  const fresh = made.filter(({ keptAs }) => keptAs === undefined || !ids.has(keptAs));
  return [...kept.flatMap(guessOf), ...fresh];
}

function guessOf({ id, guess, lightness, lab }: SavedReading): Guess[] {
  if (guess === undefined) return [];
  return [
    {
      guess: munsellValue(guess),
      value: munsellValue(lightness),
      lean: leanOf(lab).name,
      keptAs: id,
    },
  ];
}

/** Guesses are made in half steps, so a quarter of one off is as near as can be said. */
const RIGHT = 0.25;

/** What a guess was: right, or the spot taken too light or too dark. */
export function guessVerdict(guess: number, value: number): 'right' | 'light' | 'dark' {
  if (Math.abs(guess - value) <= RIGHT) return 'right';
  return guess > value ? 'light' : 'dark';
}

/** A guessed value as the lightness that a plan keeps. */
export function guessAsLightness(value: number): number {
  return lightnessOfMunsell(Math.min(10, Math.max(0, value)));
}
