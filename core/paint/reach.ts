import { expectNumber, expectObject } from '../base/check.js';
import { reason, type Reason } from '../base/reason.js';
import type { Lab } from '../base/types.js';
import { deltaE2000, expectLab, lchOf } from '../colour/index.js';
import { gradeOf } from './grade.js';
import type { MixTarget } from './search.js';
import type { FoundMix } from './types.js';

/** Of the whole difference, the share that one cause must have alone to be named. */
const TELLING = 0.6;

/**
 * Why the nearest mix of a shelf does not reach its target. Empty when it comes close.
 *
 * Codes and figures: `mix.too-dark` and `mix.too-light` (`lightness` asked for, `reached`, L*): the target is darker, lighter than the
 * nearest mix; `mix.too-chromatic` and `mix.too-neutral` (`chroma`, `reached`, C*ab, and `hue` in degrees); `mix.hue-missing` (`hue`,
 * `reached`, degrees). A cause is named when it alone makes six tenths of the difference or more; of several the greatest comes first, and
 * when none does so the greatest is named.
 *
 * @param target - What was looked for.
 * @param nearest - The best mix found for it.
 * @param options - `spread`: how far the painter's own dabs of one recipe lie apart, CIEDE2000.
 */
export function whyOutOfReach(
  target: MixTarget,
  nearest: FoundMix,
  options: { spread?: number } = {},
): Reason[] {
  const { lab, lightness } = expectObject('target', target);
  const mix = expectObject('nearest', nearest) as unknown as FoundMix;
  const reached = expectLab('nearest.lab', mix.lab);
  if (gradeOf(mix.deltaE, options) === 'close') return [];
  const wanted: Lab =
    lab === undefined
      ? [expectNumber('target.lightness', lightness, 0, 100), reached[1], reached[2]]
      : expectLab('target.lab', lab);
  const from = lchOf(wanted);
  const to = lchOf(reached);
  const at = (chroma: number, hue: number): Lab => [
    reached[0],
    chroma * Math.cos((hue * Math.PI) / 180),
    chroma * Math.sin((hue * Math.PI) / 180),
  ];
  const causes: [number, Reason][] = [
    [
      deltaE2000([wanted[0], reached[1], reached[2]], reached),
      reason(wanted[0] < reached[0] ? 'mix.too-dark' : 'mix.too-light', {
        lightness: wanted[0],
        reached: reached[0],
      }),
    ],
    [
      deltaE2000(at(from.C, to.h), reached),
      reason(from.C > to.C ? 'mix.too-chromatic' : 'mix.too-neutral', {
        chroma: from.C,
        reached: to.C,
        hue: from.h,
      }),
    ],
    [
      deltaE2000(at(to.C, from.h), reached),
      reason('mix.hue-missing', { hue: from.h, reached: to.h }),
    ],
  ];
  causes.sort(([p], [q]) => q - p);
  const told = causes.filter(([part]) => part >= TELLING * mix.deltaE);
  return (told.length > 0 ? told : causes.slice(0, 1)).map(([, why]) => why);
}
