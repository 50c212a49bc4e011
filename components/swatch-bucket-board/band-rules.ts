import { MOST_BANDS, type BoardBand, type Plan } from '../shared/core.js';
import { bandsMeet } from './board-data.js';

/** What may be done to a band. */
export interface BandMay {
  name: boolean;
  /** Its limit to the next lighter band. */
  limit: boolean;
  split: boolean;
  remove: boolean;
}

/** The least L* that a band to be split reaches over. */
const LEAST_SPLIT = 4;

/** What a person may do to a band; a locked one is left as it is, and so are its limits. */
export function bandMay(bands: readonly BoardBand[], bucket: number): BandMay {
  const free = (each: number): boolean => bands[each] !== undefined && !bands[each].locked;
  const neighbour = bucket === bands.length - 1 ? bucket - 1 : bucket + 1;
  const meet = bandsMeet(bands);
  const wide = bands[bucket].ceiling - bands[bucket].floor >= LEAST_SPLIT;
  return {
    name: free(bucket),
    limit: meet && free(bucket) && free(bucket + 1),
    split: meet && free(bucket) && wide && bands.length < MOST_BANDS,
    remove: meet && bands.length > 2 && free(bucket) && free(neighbour),
  };
}

/** The changed plan, or the old one when a locked band would not stay as it was. */
export function withLocksKept(old: Plan, next: Plan): Plan {
  const stays = ({ name, floor, ceiling, locked }: BoardBand): boolean =>
    !locked ||
    next.board.bands.some(
      (band) => band.name === name && band.floor === floor && band.ceiling === ceiling,
    );
  return old.board.bands.every(stays) ? next : old;
}
