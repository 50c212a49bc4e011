import type { Board, BoardSwatch } from '../shared/core.js';

/** Where a swatch lies: the number of its bucket and its place among that bucket's swatches, from 0. */
export interface Place {
  bucket: number;
  place: number;
}

/** One step of a keyboard move. `darker` and `lighter` change the bucket, the others the place in it. */
export type Step = 'earlier' | 'later' | 'first' | 'last' | 'darker' | 'lighter';

/** What may be changed in a swatch; an empty text or `false` takes the field away. */
export type SwatchPatch = Pick<Partial<BoardSwatch>, 'name' | 'note' | 'accent' | 'wet'>;

/** The swatches of one bucket, in the board's order. */
export function swatchesIn(board: Board, bucket: number): BoardSwatch[] {
  return board.swatches.filter((swatch) => swatch.bucket === bucket);
}

/** Where a swatch lies, or `undefined` when the board has none of that id. */
export function placeOf(board: Board, id: string): Place | undefined {
  const at = board.swatches.findIndex((each) => each.id === id);
  if (at < 0) return undefined;
  const { bucket } = board.swatches[at];
  let place = 0;
  for (let i = 0; i < at; i++) if (board.swatches[i].bucket === bucket) place++;
  return { bucket, place };
}

/** The first of `swatch-1`, `swatch-2` … that no swatch bears. */
export function freeId(swatches: readonly { id: string }[]): string {
  const taken = new Set(swatches.map(({ id }) => id));
  let number = swatches.length + 1;
  while (taken.has(`swatch-${number}`)) number++;
  return `swatch-${number}`;
}

/** The board with one more swatch, last in its bucket. */
export function withSwatchAdded(board: Board, swatch: BoardSwatch): Board {
  return { ...board, swatches: [...board.swatches, swatch] };
}

/**
 * The board with a swatch at another place. Buckets and places outside the board are taken as the nearest inside it. The same
 * board when the swatch lies there already or is not on it.
 */
export function withSwatchMoved(board: Board, id: string, to: Place): Board {
  const from = placeOf(board, id);
  if (!from || board.bands.length === 0) return board;
  const bucket = clamp(to.bucket, 0, board.bands.length - 1);
  const others = board.swatches.filter((swatch) => swatch.id !== id);
  const neighbours = others.filter((swatch) => swatch.bucket === bucket);
  const place = clamp(to.place, 0, neighbours.length);
  if (bucket === from.bucket && place === from.place) return board;
  const swatch = board.swatches.find((each) => each.id === id)!;
  const before: BoardSwatch | undefined = neighbours[place];
  const last = neighbours.at(-1);
  const at = before ? others.indexOf(before) : last ? others.indexOf(last) + 1 : others.length;
  return {
    ...board,
    swatches: [...others.slice(0, at), { ...swatch, bucket }, ...others.slice(at)],
  };
}

/** Where a step of the keyboard takes a swatch; its own place when it is at the end already. */
export function stepped(board: Board, { bucket, place }: Place, step: Step): Place {
  const last = swatchesIn(board, bucket).length - 1;
  switch (step) {
    case 'earlier':
      return { bucket, place: Math.max(0, place - 1) };
    case 'later':
      return { bucket, place: Math.min(last, place + 1) };
    case 'first':
      return { bucket, place: 0 };
    case 'last':
      return { bucket, place: last };
    case 'darker':
    case 'lighter': {
      const next = clamp(bucket + (step === 'darker' ? -1 : 1), 0, board.bands.length - 1);
      return next === bucket
        ? { bucket, place }
        : { bucket: next, place: Math.min(place, swatchesIn(board, next).length) };
    }
  }
}

/** The board with other words or marks on a swatch; the same board when nothing changes. */
export function withSwatchChanged(board: Board, id: string, patch: SwatchPatch): Board {
  const old = board.swatches.find((swatch) => swatch.id === id);
  if (!old) return board;
  const next: BoardSwatch = { ...old, ...patch };
  for (const key of ['name', 'note', 'accent', 'wet'] as const) if (!next[key]) delete next[key];
  const same = (['name', 'note', 'accent', 'wet'] as const).every(
    (key) => next[key] === (old[key] || undefined),
  );
  return same
    ? board
    : { ...board, swatches: board.swatches.map((swatch) => (swatch === old ? next : swatch)) };
}

/** The board without a swatch; the same board when it has none of that id. */
export function withSwatchRemoved(board: Board, id: string): Board {
  const swatches = board.swatches.filter((swatch) => swatch.id !== id);
  return swatches.length === board.swatches.length ? board : { ...board, swatches };
}

const clamp = (value: number, low: number, high: number): number =>
  Math.min(high, Math.max(low, value));
