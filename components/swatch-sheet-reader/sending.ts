import {
  cssOfLab,
  dabOf,
  driedLightness,
  type BoardBand,
  type BoardSwatch,
  type Dab,
  type Lab,
  type Plan,
} from '../shared/core.js';
import { columnsOf, wetOf, type ReadDab, type SheetState } from './dabs-state.js';

/** As many as a board may hold, and as many dabs as a plan keeps. */
const MOST_SWATCHES = 1000;
const MOST_DABS = 5000;
/** Longest name of a swatch. */
const MOST_NAME = 120;

const round = (value: number, digits: number): number => Number(value.toFixed(digits)) + 0;
const roundLab = ([L, a, b]: Lab): Lab => [
  round(Math.min(100, Math.max(0, L)), 2),
  round(a, 2),
  round(b, 2),
];

/** The day of today where the painter is: `2026-01-31`. */
export function today(now = new Date()): string {
  const two = (figure: number): string => String(figure).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** The paper that a sheet is read with: the plan's, within what can be paper. */
export const paperOf = ({ paper }: Plan): number => Math.min(100, Math.max(50, paper.lightness));

/** The band that a lightness of dry paint falls in. */
export function bandOf(bands: readonly BoardBand[], lightness: number): number {
  return Math.max(0, bands.filter(({ floor }) => lightness >= floor).length - 1);
}

/** What becomes of the columns: a bucket's number, or nothing for those that are only remembered. */
export type Mapping = readonly (number | undefined)[];

/** The lightness that a dab dries to. */
function driedOf(dab: ReadDab, state: SheetState, { paper }: Plan): number {
  const wetness = wetOf(dab, state);
  const lightness = Math.min(100, Math.max(0, dab.lab[0]));
  if (wetness === 'dry') return lightness;
  return driedLightness(lightness, { wetness, paper: paper.lightness }).lightness;
}

/** Each column to the bucket that its middle dab's lightness falls in, once dry. */
export function usualMapping(state: SheetState, plan: Plan): number[] {
  return columnsOf(state.dabs).map((column) => {
    const sorted = column.map((dab) => driedOf(dab, state, plan)).sort((a, b) => a - b);
    return bandOf(plan.board.bands, sorted[Math.floor((sorted.length - 1) / 2)]);
  });
}

/** A dab as a swatch of the board. */
export function swatchOf(dab: ReadDab, state: SheetState, bucket: number): BoardSwatch {
  const { id, name, uncertainty, recipe } = dab;
  const lab = roundLab(dab.lab);
  const wet = wetOf(dab, state) !== 'dry';
  return {
    id,
    bucket,
    lightness: lab[0],
    uncertainty: round(uncertainty, 2),
    css: cssOfLab(lab).css,
    lab,
    from: 'sheet',
    ...(wet && { wet }),
    ...(name && { name: name.slice(0, MOST_NAME) }),
    ...(recipe && { recipe }),
  };
}

/** A dab as it is remembered. */
export function rememberedDab(
  dab: ReadDab,
  state: SheetState,
  about: { date: string; band?: number },
): Dab {
  const { id, name, recipe, same, spread, uncertainty } = dab;
  const wet = wetOf(dab, state);
  const { lab, ...rest } = dabOf(
    { lab: dab.lab, spread: round(spread, 2), uncertainty: round(uncertainty, 2) },
    {
      id,
      date: about.date,
      paperLightness: state.paper,
      ...(recipe && { recipe }),
      ...(wet !== 'dry' && { wet }),
      ...(same !== undefined && { same }),
      ...(about.band !== undefined && { band: about.band }),
      ...(name && { note: name }),
    },
  );
  return { ...rest, lab: roundLab(lab) };
}

/** What a sheet gives to a plan. */
export interface Sent {
  swatches: BoardSwatch[];
  dabs: Dab[];
}

/** Swatches and dabs of a sheet. */
export function sentOf(state: SheetState, plan: Plan, mapping: Mapping, date = today()): Sent {
  const swatches = state.dabs.flatMap((dab) => {
    const bucket = mapping[dab.column];
    return bucket === undefined ? [] : [swatchOf(dab, state, bucket)];
  });
  const dabs = state.dabs.map((dab) => {
    const kept = plan.dabs?.find(({ id }) => id === dab.id);
    return rememberedDab(dab, state, {
      date: kept?.date ?? date,
      band: mapping[dab.column],
    });
  });
  return { swatches, dabs };
}

/** Whether a board takes so many more. */
export function fits({ board }: Plan, { swatches }: Sent): boolean {
  const ids = new Set(swatches.map(({ id }) => id));
  return board.swatches.filter(({ id }) => !ids.has(id)).length + swatches.length <= MOST_SWATCHES;
}

/** The plan with a sheet's swatches on its board and its dabs remembered; what the same sheet gave before is replaced. */
export function withSent(plan: Plan, { swatches, dabs }: Sent): Plan {
  const ids = new Set(dabs.map(({ id }) => id));
  const others = plan.board.swatches.filter(({ id }) => !ids.has(id));
  const remembered = [...(plan.dabs ?? []).filter(({ id }) => !ids.has(id)), ...dabs];
  return {
    ...plan,
    board: { ...plan.board, swatches: [...others, ...swatches] },
    dabs: remembered.slice(-MOST_DABS),
  };
}
