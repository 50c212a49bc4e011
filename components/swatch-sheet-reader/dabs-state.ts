import type {
  Corners,
  Lab,
  Loop,
  PlacedSheet,
  PlacedSwatch,
  Reason,
  Recipe,
  SheetReading,
  Spot,
  Wetness,
} from '../shared/core.js';
import { boxOf, inLoops, middleOf } from './geometry.js';

/** How wet a sheet or a dab was when it was photographed. */
export type Wet = Wetness | 'dry';

/** A dab as the painter has it: found, or found and put right. */
export interface ReadDab {
  /** Stays with the dab through all that is done to it; the id of what is put on the board and kept. */
  id: string;
  /** Where it lies: fractions of the photo. */
  loops: readonly Loop[];
  column: number;
  lab: Lab;
  spread: number;
  uncertainty: number;
  /** What is doubtful about it. */
  reasons?: readonly Reason[];
  /** Whether the painter placed it: then it outlives another reading. */
  hand: boolean;
  name: string;
  recipe?: Recipe;
  /** Its own wetness, where it is not the sheet's. */
  wet?: Wet;
  /** The earlier dab that is the same in another state. */
  same?: string;
}

/** A sheet as it was read, with all that the painter put right: one state that undo goes back to. */
export interface SheetState {
  /** Fractions of the photo. */
  corners: Corners;
  reading: PlacedSheet;
  /** By columns, each from the top down. */
  dabs: readonly ReadDab[];
  /** How wet the sheet is. */
  wet: Wet;
  /** The L* of the bare paper that it was read with. */
  paper: number;
  /** Where the painter dropped a dab: it stays away when the sheet is read again. */
  gone: readonly Spot[];
}

/** What was read of a place. */
export type Read = Pick<ReadDab, 'lab' | 'spread' | 'uncertainty' | 'reasons'>;

export const wetOf = ({ wet }: ReadDab, state: Pick<SheetState, 'wet'>): Wet => wet ?? state.wet;

/** Dabs in their order, columns from 0 without a gap. */
export function inOrder(dabs: readonly ReadDab[]): ReadDab[] {
  const columns = [...new Set(dabs.map(({ column }) => column))].sort((a, b) => a - b);
  return dabs
    .map((dab) => {
      const column = columns.indexOf(dab.column);
      return column === dab.column ? dab : { ...dab, column };
    })
    .map((dab) => ({ dab, y: middleOf(dab.loops)[1] }))
    .sort((a, b) => a.dab.column - b.dab.column || a.y - b.y)
    .map(({ dab }) => dab);
}

/** Dabs by column. */
export function columnsOf(dabs: readonly ReadDab[]): ReadDab[][] {
  const columns: ReadDab[][] = [];
  for (const dab of dabs) (columns[dab.column] ??= []).push(dab);
  return columns;
}

/** The column that a spot belongs to: that whose dabs' middles are nearest from side to side. */
export function columnAt(dabs: readonly ReadDab[], [x]: Spot): number {
  const columns = columnsOf(dabs).map(
    (column) => column.reduce((sum, { loops }) => sum + middleOf(loops)[0], 0) / column.length,
  );
  if (columns.length === 0) return 0;
  const far = columns.map((middle) => Math.abs(middle - x));
  return far.indexOf(Math.min(...far));
}

/** The dab at a spot: of several the smallest. */
export function dabAt(dabs: readonly ReadDab[], spot: Spot): ReadDab | undefined {
  const area = ({ loops }: ReadDab): number => {
    const { width, height } = boxOf(loops);
    return width * height;
  };
  return dabs.filter(({ loops }) => inLoops(spot, loops)).sort((a, b) => area(a) - area(b))[0];
}

/** A new dab from what was found. */
export function foundDab(swatch: PlacedSwatch, id: string): ReadDab {
  const { at, lab, spread, uncertainty, reasons, column } = swatch;
  return { id, loops: [at], column, lab, spread, uncertainty, reasons, hand: false, name: '' };
}

/** Whether two dabs lie in one place. */
const together = (a: readonly Loop[], b: readonly Loop[]): boolean =>
  inLoops(middleOf(a), b) && inLoops(middleOf(b), a);

/**
 * What was found when the sheet was read anew, with what the painter had said of the dabs before: names, recipes and wetness stay with
 * dabs in the same place, dropped ones stay away. Dabs the painter placed are left to be read anew by whoever calls: see `hand`.
 */
export function foundAgain(
  found: readonly ReadDab[],
  before: Pick<SheetState, 'dabs' | 'gone'>,
): ReadDab[] {
  const byHand = before.dabs.filter(({ hand }) => hand);
  return found
    .filter(
      ({ loops }) =>
        !before.gone.some((spot) => inLoops(spot, loops)) &&
        !byHand.some(
          (dab) =>
            inLoops(middleOf(loops), dab.loops) ||
            dab.loops.some((own) => inLoops(middleOf([own]), loops)),
        ),
    )
    .map((dab) => {
      const old = before.dabs.find((each) => !each.hand && together(each.loops, dab.loops));
      if (!old) return dab;
      const { id, name, recipe, wet, same } = old;
      return {
        ...dab,
        id,
        name,
        ...(recipe && { recipe }),
        ...(wet && { wet }),
        ...(same !== undefined && { same }),
      };
    });
}

/** The state with some dabs put in the place of others. */
export function withDabs(state: SheetState, dabs: readonly ReadDab[]): SheetState {
  return { ...state, dabs: inOrder(dabs) };
}

/** The state with something changed about one dab. */
export function withDab(state: SheetState, id: string, change: Partial<ReadDab>): SheetState {
  return withDabs(
    state,
    state.dabs.map((dab) => (dab.id === id ? { ...dab, ...change } : dab)),
  );
}

/** The reading as others get it: with the dabs as the painter has them, in pixels of the photo. */
export function readingOf(
  { reading, dabs, corners }: SheetState,
  { width, height }: { width: number; height: number },
): SheetReading {
  const { paper, warnings, limits } = reading;
  const scaled = ([x, y]: Spot): Spot => [x * width, y * height];
  return structuredClone({
    corners: corners.map(scaled) as Corners,
    paper,
    warnings,
    limits,
    swatches: dabs.map(({ loops, lab, spread, uncertainty, reasons, column }) => {
      const { x, y, width: w, height: h } = boxOf(loops);
      const box: Corners = [
        [x, y],
        [x + w, y],
        [x + w, y + h],
        [x, y + h],
      ];
      const own = loops.length === 1 && loops[0].length === 4 ? (loops[0] as Corners) : box;
      return {
        quad: own.map(scaled) as Corners,
        lab,
        spread,
        uncertainty,
        column,
        ...(reasons ? { reasons: [...reasons] } : {}),
      };
    }),
  });
}
