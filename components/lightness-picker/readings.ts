import {
  bandAt,
  cssOfLab,
  labInPaint,
  paintLightness,
  type BoardSwatch,
  type Plan,
  type Reading,
  type SavedReading,
  type Spot,
} from '../shared/core.js';
import { colourOf } from './judgement.js';

/** A reading with where and how it was taken. */
export interface Taken {
  reading: Reading;
  at: Spot;
  holeMm: number;
  /** The lightness L* that the painter guessed before it was shown. */
  guess?: number;
}

/** A name that none of the others has: `stem-1`, `stem-2`, … */
export function freshId(stem: string, taken: readonly { id: string }[]): string {
  const ids = new Set(taken.map(({ id }) => id));
  let number = taken.length + 1;
  while (ids.has(`${stem}-${number}`)) number++;
  return `${stem}-${number}`;
}

/** A reading as a plan keeps it. */
export function savedReading({ reading, at, holeMm, guess }: Taken, id: string): SavedReading {
  const { lightness, lab, css } = colourOf(reading);
  return {
    id,
    at: [at[0], at[1]],
    holeMm,
    lightness,
    lab: [...lab],
    css,
    spread: Math.min(100, reading.spread),
    ...(guess === undefined ? {} : { guess }),
    ...(reading.distrusted?.note ? { note: reading.distrusted.note } : {}),
  };
}

/** The plan with one more reading, at the end. */
export function withReading(plan: Plan, reading: SavedReading): Plan {
  return { ...plan, readings: [...(plan.readings ?? []), reading] };
}

/** The plan without a reading; the same plan when there is none of that name. */
export function withoutReading(plan: Plan, id: string): Plan {
  const readings = plan.readings?.filter((reading) => reading.id !== id);
  if (!readings || readings.length === plan.readings?.length) return plan;
  if (readings.length > 0) return { ...plan, readings };
  const { readings: _none, ...rest } = plan;
  return rest;
}

/** The plan with another note on a reading (none when empty). */
export function withNote(plan: Plan, id: string, note: string): Plan {
  return withEach(plan, (reading) => {
    if (reading.id !== id || (reading.note ?? '') === note) return reading;
    const { note: _old, ...rest } = reading;
    return note ? { ...rest, note } : rest;
  });
}

/** The plan whose readings carry no guesses. */
export function withoutGuesses(plan: Plan): Plan {
  return withEach(plan, (reading) => {
    if (reading.guess === undefined) return reading;
    const { guess: _guess, ...rest } = reading;
    return rest;
  });
}

function withEach(plan: Plan, make: (reading: SavedReading) => SavedReading): Plan {
  const readings = plan.readings?.map(make);
  if (!readings || readings.every((reading, i) => reading === plan.readings?.[i])) return plan;
  return { ...plan, readings };
}

/**
 * A reading as a swatch of the board, in the bucket of its band, in paint: its lightness goes by the plan's range. Nothing
 * for a lightness that is left as bare paper.
 */
export function swatchOf(
  plan: Plan,
  { lightness, lab, css, note }: Pick<SavedReading, 'lightness' | 'lab' | 'css' | 'note'>,
): BoardSwatch | undefined {
  const bucket = bandAt(plan, lightness);
  if (bucket >= plan.board.bands.length) return undefined;
  const inPaint = labInPaint(plan, lab);
  return {
    id: freshId('reading', plan.board.swatches),
    bucket,
    lightness: paintLightness(plan, lightness),
    css: inPaint[0] === lab[0] ? css : cssOfLab(inPaint).css,
    ...(note ? { note } : {}),
    lab: inPaint,
    from: 'reading',
  };
}

/** The plan with one more swatch on its board. */
export function withSwatch(plan: Plan, swatch: BoardSwatch): Plan {
  return { ...plan, board: { ...plan.board, swatches: [...plan.board.swatches, swatch] } };
}
