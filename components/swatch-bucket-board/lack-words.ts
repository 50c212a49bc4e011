import type { Lack } from '../shared/core.js';

type Say = (key: string, values?: Readonly<Record<string, string | number>>) => string;

/** What a bucket lacks as a sentence: in the bucket itself (`bucket`), or about it from outside (`validity`, with the band's name). */
export function lackWords(
  say: Say,
  where: 'bucket' | 'validity',
  { lean, found, required }: Lack,
  band: string,
): string {
  const missing = required - found;
  if (lean === undefined) return say(`${where}.lack`, { band, missing });
  if (lean === 'neutral') return say(`${where}.lack-neutral`, { band, missing });
  return say(`${where}.lack-lean`, { band, missing, lean: say(`lean.${lean}`) });
}
