import {
  bandAt,
  cssOfLab,
  leanOf,
  munsellValue,
  reason,
  type Lab,
  type Lean,
  type Plan,
  type Reading,
  type Reason,
} from '../shared/core.js';

/**
 * How much lighter than its value a colour must seem before a reading says so: 5 L*, half a step of value, since guesses are
 * made in half steps. Fairchild & Pirrotta 1991 give the seeming lightness; the threshold is our own choice.
 */
export const SEEMS_LIGHTER_FROM = 5;

/** The part of the hole that must be clipped before a reading says so. Our own choice. */
export const CLIPPED_FROM = 0.05;

/** Spread (standard deviation of L* in the hole) up to which a spot counts as even, slightly varied, varied. Our own choice. */
const SPREADS = [
  [2, 'even'],
  [5, 'slight'],
  [10, 'varied'],
] as const;

/** Chroma C* up to which a lean is a trace, or plain; above, it is strong. Our own choice. */
const TRACE_TO = 12;
const PLAIN_TO = 35;

export type SpreadName = 'even' | 'slight' | 'varied' | 'mixed';

/** How much the lightness varies inside the hole. */
export function spreadName(spread: number): SpreadName {
  return SPREADS.find(([to]) => spread <= to)?.[1] ?? 'mixed';
}

/** How strongly a colour leans. */
export function leanStrength({ name, chroma }: Lean): 'neutral' | 'trace' | 'plain' | 'strong' {
  if (name === 'neutral') return 'neutral';
  if (chroma <= TRACE_TO) return 'trace';
  return chroma <= PLAIN_TO ? 'plain' : 'strong';
}

/** The colour that stands for a reading: as measured, or with the painter's own lightness on a spot that is not trusted. */
export function colourOf(reading: Reading): { lightness: number; lab: Lab; css: string } {
  const { lightness, lab, css, distrusted } = reading;
  if (!distrusted) return { lightness, lab, css };
  const own: Lab = [lightness, lab[1], lab[2]];
  return { lightness, lab: own, css: cssOfLab(own).css };
}

/** The name of the band that a lightness of the photo falls in; `paper` is the word for what is left bare. */
export function bandName(plan: Plan, lightness: number, paper: string): string {
  return plan.board.bands[bandAt(plan, lightness)]?.name ?? paper;
}

/** What the painter should know of a reading: codes `reading.*`, figures in steps of value and percents. */
export function remarksOn(reading: Reading): Reason[] {
  const { lab, lightness, apparent, clippedLight, clippedDark, spread, distrusted } = reading;
  const remarks: Reason[] = [];
  if (distrusted) {
    remarks.push(
      reason(distrusted.note ? 'reading.distrusted-note' : 'reading.distrusted', {
        value: munsellValue(lightness),
        measured: munsellValue(distrusted.measured),
        note: distrusted.note,
      }),
    );
  }
  if (clippedLight >= CLIPPED_FROM)
    remarks.push(reason('reading.clipped-light', { percent: Math.round(clippedLight * 100) }));
  if (clippedDark >= CLIPPED_FROM)
    remarks.push(reason('reading.clipped-dark', { percent: Math.round(clippedDark * 100) }));
  if (apparent - lab[0] >= SEEMS_LIGHTER_FROM) {
    const seeming = munsellValue(Math.min(100, apparent));
    remarks.push(
      reason('reading.seems-lighter', {
        lean: leanOf(lab).name,
        steps: seeming - munsellValue(Math.min(100, Math.max(0, lab[0]))),
      }),
    );
  }
  if (spreadName(spread) === 'mixed') remarks.push(reason('reading.mixed'));
  return remarks;
}
