import type { Reason } from '../base/reason.js';
import type { Lab, Spot } from '../base/types.js';
import type { Recipe } from '../paint/types.js';

/** A passage as it is painted. */
export interface PassageToPaint {
  /** Its number on the sheet and in the order of work, from 1: passages are painted in this order. */
  number: number;
  /** Its id among the masses' passages. */
  passage: number;
  /** The mass that it is part of, and that one's band. */
  region: number;
  band: number;
  /** A place well inside it, fractions of the upright photo. */
  at: Spot;
  /** On the paper. */
  cm2: number;
  /** The photo's mean colour in it, CIELAB D65. */
  lab: Lab;
  /** The number of its mix; absent while its bucket has no swatch with a colour. */
  mix?: number;
  /** How far its lean is from that of the mix: CIEDE2000 at equal L*. */
  deltaE?: number;
  /** Other masses that it shares a side with, ascending. */
  beside: number[];
}

/** A swatch of the board as passages use it. */
export interface MixToPaint {
  /** From 1, in the order in which it is first needed; {@link mixSign} writes it. */
  number: number;
  /** Id of the swatch. */
  swatch: string;
  band: number;
  /** CIELAB D65, dry. */
  lab: Lab;
  name?: string;
  recipe?: Recipe;
  /** Numbers of its passages. */
  passages: number[];
  /** All of them, on the paper. */
  cm2: number;
}

/** What swatches and passages of one band lack of each other. */
export interface BandOfPassages {
  band: number;
  /** Ids of swatches with a colour that no passage uses; accents and wet ones are not meant for passages. */
  unused: string[];
  /** Numbers of passages without a swatch near. */
  far: number[];
  reasons: Reason[];
}

/** Passages with their swatches. */
export interface PassageWork {
  /** `passages[i].number === i + 1`. What stays paper has none. */
  passages: PassageToPaint[];
  /** `mixes[i].number === i + 1`. */
  mixes: MixToPaint[];
  /** Neighbours in a mass whose washes may run into each other: numbers, the smaller first. */
  run: [number, number][];
  /** Neighbours in a mass that are kept apart: numbers, the smaller first. */
  apart: [number, number][];
  bands: BandOfPassages[];
}

/** A passage in a step of the order of work. */
export interface StepPassage {
  /** {@link PassageToPaint.number}. */
  number: number;
  region: number;
  /** {@link MixToPaint.number} and the id of its swatch. */
  mix?: number;
  swatch?: string;
}

/** The number of a mix in letters, so that it is not taken for that of a passage: a to z, then aa, ab and so on. */
export function mixSign(number: number): string {
  let sign = '';
  for (let left = number; left > 0; left = Math.floor((left - 1) / 26))
    sign = String.fromCharCode(97 + ((left - 1) % 26)) + sign;
  return sign;
}

/** Runs of numbers that follow each other and of one kind, as first and last. */
function runs<T>(
  list: readonly T[],
  number: (each: T) => number,
  kind: (each: T) => unknown,
): T[][] {
  const found: T[][] = [];
  for (const each of list) {
    const last = found.at(-1)?.at(-1);
    if (last !== undefined && number(each) === number(last) + 1 && kind(each) === kind(last))
      found[found.length - 1].push(each);
    else found.push([each]);
  }
  return found;
}

/** Numbers with those that follow each other drawn together: `1, 4–7`. */
export function numberRanges(numbers: readonly number[]): string {
  return runs(
    numbers,
    (each) => each,
    () => 0,
  )
    .map((run) => (run.length === 1 ? String(run[0]) : `${run[0]}–${run[run.length - 1]}`))
    .join(', ');
}

/** Passages in their order, those of one mix that follow each other drawn together: `1–3a, 4b`. */
export function passageList(passages: readonly StepPassage[]): string {
  return runs(
    passages,
    ({ number }) => number,
    ({ mix }) => mix,
  )
    .map((run) => {
      const last = passageSign(run[run.length - 1]);
      return run.length === 1 ? last : `${run[0].number}–${last}`;
    })
    .join(', ');
}

/** A passage as the sheet and the order of work write it: its number and the letter of its mix. */
export function passageSign({ number, mix }: Pick<StepPassage, 'number' | 'mix'>): string {
  return mix === undefined ? String(number) : `${number}${mixSign(mix)}`;
}
