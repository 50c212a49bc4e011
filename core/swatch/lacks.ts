import type { LeanName } from '../colour/index.js';
import type { Board, BoardSwatch } from './types.js';

/** What a lesson asks of the buckets of a board. */
export interface LessonNeeds {
  /** Swatches for each bucket, dark to light; none for a bucket beyond the list. */
  required: readonly number[];
  /** Leans for each bucket; none for a bucket beyond the list. */
  leans: readonly (readonly LeanName[])[];
}

/** Something that a bucket still lacks: swatches, or (with `lean`) swatches that lean so. */
export interface Lack {
  bucket: number;
  lean?: LeanName;
  /** How many there are. */
  found: number;
  /** How many are asked for. */
  required: number;
}

/** As `lacksOf`, by a reader of leans of the caller's own; it answers `undefined` where it knows of none. */
export function lacksBy(
  board: Board,
  { required, leans }: LessonNeeds,
  leanOf: (swatch: BoardSwatch) => LeanName | undefined,
): Lack[] {
  return board.bands.flatMap((_, bucket): Lack[] => {
    const swatches = board.swatches.filter((swatch) => swatch.bucket === bucket);
    const lacks: Lack[] = [];
    const count = required[bucket] ?? 0;
    if (swatches.length < count) lacks.push({ bucket, found: swatches.length, required: count });
    const wanted = leans[bucket] ?? [];
    if (wanted.length === 0) return lacks;
    const there = swatches.filter(({ accent }) => !accent).map(leanOf);
    for (const lean of new Set(wanted)) {
      const asked = wanted.filter((each) => each === lean).length;
      const found = there.filter((each) => each === lean).length;
      if (found < asked) lacks.push({ bucket, lean, found, required: asked });
    }
    return lacks;
  });
}
