import type { Step } from '../base/types.js';
import type { Masses } from '../mass/types.js';

/** The plan, as far as a painting is held against it. */
export interface PlannedPainting {
  masses: Masses;
  /** L* of each band as it should dry, darkest first, each above the one before. */
  targets: number[];
  /** Regions that are to stay bare paper; all of the lightest band when absent. */
  reserves?: number[];
}

/** How much of the painting is meant to be done. */
export interface Progressed {
  /** The last step that is done: its place in `order`, from 0; -1 before the first. All are done when absent. */
  upToStep?: number;
  /** The order of work. A region is to come while any step that names it is; one that no step names is not to come. */
  order?: Step[];
}

/** How a painting is compared. */
export interface CompareOptions extends Progressed {
  /**
   * How far a drawn border may lie from the planned one, pixels (0..120, default 0): pixels no deeper in their region than that count
   * neither for agreement nor for kappa; of a region nowhere deeper than twice that, its deeper half counts.
   */
  slackPx?: number;
}

/** What one region of the painting is, against what was planned. */
export interface Correction {
  region: number;
  /** L* to lighten (+) or darken (-). */
  shift: number;
  /** Pixels. */
  area: number;
  /** |shift| x area. */
  effect: number;
}

/** How a painting stands against its plan. */
export interface Comparison {
  /** Share of the compared area whose band is the planned one (0..1). */
  agreement: number;
  /** Cohen's kappa of planned and painted bands. */
  kappa: number;
  /** Largest effect first. */
  corrections: Correction[];
  /** Regions whose step is still ahead, ascending. */
  toCome: number[];
  /** Regions planned as bare paper that were painted over, ascending. */
  lostReserves: number[];
  /** Pixels that were compared; with 0 of them agreement and kappa say 1 and mean nothing. */
  compared: number;
}
