import {
  paintLightness,
  type BoardSwatch,
  type Loads,
  type Masses,
  type Plan,
  type Recipe,
  type WorkStep,
} from '../shared/core.js';

/** Bands lie at least so far apart as targets, L*. */
const APART = 1;

/** The swatches that stand for a band: those of its bucket that are dry and no accents. */
function swatchesOf(plan: Plan, band: number): BoardSwatch[] {
  return plan.board.swatches.filter(
    ({ bucket, wet, accent }) => bucket === band && !wet && !accent,
  );
}

function middle(values: number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

/**
 * L* that each band of the masses is to dry to, darkest first: the middle one of its swatches on the board, else the mean of its masses
 * brought into paint; bare paper is the paper's own. Where the board's swatches do not rise from band to band they are passed over.
 */
export function targetsOf(plan: Plan, masses: Masses): number[] {
  const { bands } = masses.map;
  const bare = plan.paperLimit !== undefined;
  const sums = new Float64Array(bands);
  const areas = new Float64Array(bands);
  for (const { band, area, mean } of masses.regions) {
    sums[band] += area * mean;
    areas[band] += area;
  }
  const limits = [0, ...plan.photoLimits, ...(bare ? [plan.paperLimit!] : []), 100];
  const fromPhoto = Array.from({ length: bands }, (_, band) => {
    if (bare && band === bands - 1) return plan.paper.lightness;
    const photo =
      areas[band] > 0
        ? sums[band] / areas[band]
        : ((limits[band] ?? 0) + (limits[band + 1] ?? 100)) / 2;
    return paintLightness(plan, photo);
  });
  const fromBoard = fromPhoto.map((target, band) => {
    const swatches = swatchesOf(plan, band);
    return swatches.length > 0 ? middle(swatches.map(({ lightness }) => lightness)) : target;
  });
  const rises = (values: number[]): boolean =>
    values.every((value, i) => i === 0 || value >= values[i - 1] + APART);
  return apart(rises(fromBoard) ? fromBoard : fromPhoto, plan.paper.lightness);
}

/** The values within 0 and the paper, each above the one before. */
function apart(values: number[], paper: number): number[] {
  const room = APART * (values.length - 1);
  let least = 0;
  const up = values.map((value, i) => {
    const most = Math.max(paper, room) - room + APART * i;
    const kept = Math.min(most, Math.max(least, value));
    least = kept + APART;
    return kept;
  });
  return up;
}

/** What the board says was laid in each band, darkest first. */
export function laidOf(plan: Plan, bands: number): (Recipe | null)[] {
  return Array.from(
    { length: bands },
    (_, band) => swatchesOf(plan, band).find(({ recipe }) => recipe)?.recipe ?? null,
  );
}

/** The masses that are kept white: those that no step lays, and those that steps leave, mask or uncover. */
export function reservesIn(masses: Masses, steps: readonly WorkStep[]): number[] {
  const laid = new Set(steps.flatMap(({ regions }) => regions));
  const kept = new Set(steps.flatMap(({ keeps }) => keeps));
  return masses.regions.map(({ id }) => id).filter((id) => kept.has(id) || !laid.has(id));
}

/** How strong the painter's own tubes are. */
export function loadsOf(plan: Plan): Loads {
  return Object.fromEntries(
    (plan.shelf ?? []).flatMap(({ tube, load }) => (load === undefined ? [] : [[tube, load]])),
  );
}

/** The last step that is ticked off; the last of all where none is. */
export function lastDone(steps: readonly WorkStep[]): number {
  const last = steps.findLastIndex(({ done }) => done);
  return last >= 0 ? last : steps.length - 1;
}
