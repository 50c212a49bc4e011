import { CoreError } from '../base/reason.js';
import type { LateJobs } from './jobs.js';
import type { Handlers, Workshop } from './workshop.js';

/** Which part of the core holds which late job; the part comes with the first call of one of its jobs. */
export const PART_OF = {
  mixes: 'paint',
  family: 'paint',
  complete: 'paint',
  fit: 'paint',
  shelf: 'paint',
  sheet: 'paint',
  sheetDab: 'paint',
  passages: 'plan',
  accents: 'plan',
  strokes: 'plan',
  order: 'plan',
  rehearsal: 'plan',
  pages: 'plan',
  check: 'check',
  checkAfar: 'check',
  rectified: 'check',
  delivery: 'check',
  paintingCorners: 'check',
} as const satisfies Record<keyof LateJobs, string>;

export type PartName = (typeof PART_OF)[keyof LateJobs];

type JobsOf<P extends PartName> = {
  [K in keyof LateJobs]: (typeof PART_OF)[K] extends P ? K : never;
}[keyof LateJobs];

/** What a part's module gives: a handler for each of its jobs. */
export interface Part<P extends PartName> {
  handlers(workshop: Workshop): Handlers<Pick<LateJobs, JobsOf<P>>>;
}

/** Fetches a part; rejects with `PartUnavailable`. */
export type LoadPart = <P extends PartName>(name: P) => Promise<Part<P>>;

/** Where each part may lie, the likeliest address first. */
export type PartAddresses = Record<PartName, string[]>;

/** The error of a job whose part could not be fetched; `tried` tells where and why. */
export function partUnavailable(part: PartName, tried: string): CoreError {
  return new CoreError(
    'PartUnavailable',
    `A part of the core could not be loaded (${tried}). The file worker-${part}.js belongs beside worker.js; when it is there, try again.`,
    { part, tried },
  );
}

/**
 * Fetches parts from addresses. An engine may remember that an address failed, so each further try has a fragment of its own,
 * which no server sees.
 */
export function partsAt(addresses: PartAddresses): LoadPart {
  let tries = 0;
  return async <P extends PartName>(name: P): Promise<Part<P>> => {
    const tried: string[] = [];
    const mark = tries > 0 ? `#${tries}` : '';
    for (const address of addresses[name]) {
      try {
        const url = address + mark;
        return (await import(/* webpackIgnore: true */ /* @vite-ignore */ url)) as Part<P>;
      } catch (thrown) {
        tried.push(`${address}: ${(thrown as Error)?.message ?? String(thrown)}`);
      }
    }
    tries++;
    throw partUnavailable(name, tried.join('; ') || 'no address is known');
  };
}
