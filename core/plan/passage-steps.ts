import { reason, type Reason } from '../base/reason.js';
import { wetGroups } from './decided.js';
import {
  numberRanges,
  type PassageToPaint,
  type PassageWork,
  type StepPassage,
} from './passage-types.js';

/** The passages of the masses that a step lays, in painting order, and what to see to between them. */
export interface PassagesOfStep {
  passages: StepPassage[];
  hints: Reason[];
  warnings: Reason[];
}

/** A finding about groups of passages; none where there are no groups. */
function told(
  code: string,
  groups: readonly number[][],
  written: (group: number[]) => string,
): Reason[] {
  if (groups.length === 0) return [];
  return [reason(code, { count: groups.length, passages: groups.map(written).join('; ') })];
}

const inPair = (pair: readonly number[]): string => pair.join('/');

/**
 * What a step makes of its passages. `keptWet` says whether a mass beside runs into the passage's own and must not dry before it: two passages
 * that are kept apart cannot dry one after the other where both wait for that, or where a wash joins them around.
 */
export function passagesOfStep(
  work: PassageWork,
  lays: ReadonlySet<number>,
  keptWet: (region: number, beside: number) => boolean,
): PassagesOfStep {
  const isHere = (number: number): boolean => lays.has(work.passages[number - 1].region);
  const here = work.passages.filter(({ region }) => lays.has(region));
  const run = work.run.filter(([first]) => isHere(first));
  const wash = wetGroups(work.passages.length + 1, run);
  const washes = new Map<number, number[]>();
  for (const { number } of here)
    washes.set(wash[number], [...(washes.get(wash[number]) ?? []), number]);
  const wet = new Set(
    here
      .filter(({ region, beside }) => beside.some((other) => keptWet(region, other)))
      .map(({ number }) => wash[number]),
  );
  const apart = work.apart.filter(([first]) => isHere(first));
  const stayWet = ([first, second]: [number, number]): boolean =>
    wash[first] === wash[second] || (wet.has(wash[first]) && wet.has(wash[second]));
  const drying = apart.filter((pair) => !stayWet(pair));
  const bleeding = apart.filter(stayWet);
  const joined = [...washes.values()].filter(({ length }) => length > 1);
  return {
    passages: here.map((passage) => partOf(passage, work)),
    hints: [
      ...told('order.hint-passages-run', joined, numberRanges),
      ...told('order.hint-passages-apart', drying, inPair),
    ],
    warnings: told('order.warn-passages-wet', bleeding, inPair),
  };
}

function partOf({ number, region, mix }: PassageToPaint, { mixes }: PassageWork): StepPassage {
  return {
    number,
    region,
    ...(mix === undefined ? {} : { mix, swatch: mixes[mix - 1].swatch }),
  };
}
