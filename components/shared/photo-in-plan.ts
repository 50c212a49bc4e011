/** What a photo that is opened does to the plan: the part of the store that comes with the first picture. */
import {
  lightnessOfCode,
  limitOfThreshold,
  paperThreshold,
  photoRangeOf,
  startedPlan,
  suggestThresholds,
  withLimits,
  withoutPhoto,
  withPhotoInHand,
  withRange,
  type Change,
  type History,
  type Lightness,
  type Plan,
  type PlanPhoto,
} from './core.js';

/** A difference of the photo's range, L*, below which the plan's stays as it is. Our choice, no source. */
const RANGE_STIRS = 0.5;

/** How often each lightness code is in a plane. */
export function countsOf({ data }: Lightness): Uint32Array {
  const counts = new Uint32Array(256);
  for (let i = 0; i < data.length; i++) counts[data[i]]++;
  return counts;
}

/** The plan with the limits that the photo proposes: as many as it has. */
export function withLimitsProposed(plan: Plan, histogram: Uint32Array): Plan {
  const limits = suggestThresholds(histogram, plan.photoLimits.length + 1).map(limitOfThreshold);
  const paper = paperThreshold(histogram);
  const paperLimit =
    paper === null
      ? undefined
      : Math.max(limitOfThreshold(paper), limits.at(-1)! + lightnessOfCode(2));
  return withLimits(plan, limits, paperLimit);
}

/** The plan with a range that begins and ends where the photo's tones do; what is held, and the darkest paint, stay. */
export function withRangeMatched(plan: Plan, histogram: Uint32Array): Plan {
  if (!histogram.some((count) => count > 0)) return plan;
  const { low, high } = photoRangeOf(histogram);
  const { range } = plan;
  const near = (a: number, b: number): boolean => Math.abs(a - b) < RANGE_STIRS;
  if (range && near(range.low, low) && near(range.high, high)) return plan;
  return withRange(plan, { holding: 0, ...range, low, high });
}

/** A plan without photo or crop, on the paper of a new plan, with that paper turned to the way of the picture. */
export function turnedAs(plan: Plan, { width, height }: { width: number; height: number }): Plan {
  const { paper, photo, crop } = plan;
  const { widthMm, heightMm } = paper;
  const usual = startedPlan().paper;
  const own =
    Math.max(widthMm, heightMm) !== Math.max(usual.widthMm, usual.heightMm) ||
    Math.min(widthMm, heightMm) !== Math.min(usual.widthMm, usual.heightMm);
  const turns = (width - height) * (widthMm - heightMm) < 0;
  if (photo || crop || own || !turns) return plan;
  return { ...plan, paper: { ...paper, widthMm: heightMm, heightMm: widthMm } };
}

/** A history whose plans name the photo in hand where they named none: that is no step to take back. */
export function withPhotoNoted(history: History, photo: PlanPhoto): History {
  const noted = (change: Change): Change =>
    change.plan.photo ? change : { ...change, plan: withPhotoInHand(change.plan, photo) };
  return {
    present: withPhotoInHand(history.present, photo),
    past: history.past.map(noted),
    future: history.future.map(noted),
  };
}

/** A history that knows nothing of the photo any more; steps that only drew on it are gone. */
export function withoutPhotoIn(history: History): History {
  const present = withoutPhoto(history.present);
  const steps = (changes: History['past']): History['past'] => {
    const kept: Change[] = [];
    let next = present;
    for (const change of [...changes].reverse()) {
      const plan = withoutPhoto(change.plan);
      if (samePlan(plan, next)) continue;
      kept.unshift({ ...change, plan });
      next = plan;
    }
    return kept;
  };
  return { present, past: steps(history.past), future: steps(history.future) };
}

/** Whether two plans hold the same parts (plans share what did not change). */
function samePlan(a: Plan, b: Plan): boolean {
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]) as Set<keyof Plan>;
  return [...keys].every((key) => a[key] === b[key]);
}
