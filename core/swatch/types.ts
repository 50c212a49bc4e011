import type { Reason } from '../base/reason.js';
import type { Lab } from '../base/types.js';
import type { Recipe } from '../paint/types.js';

/** One bucket of a board: an interval of value with a name. The first band of a board is the darkest. */
export interface BoardBand {
  /** 0..120 characters, plain text. */
  name: string;
  /** The lightness L* from which the band is meant to reach (0..100); a guide. */
  floor: number;
  /** The lightness L* up to which the band is meant to reach (0..100, not below `floor`); a guide. */
  ceiling: number;
  /** The L* distance allowed between the darkest and the lightest swatch of the bucket (0..100); no rule when absent. */
  spread?: number;
  /** True when the band itself must not be renamed, moved or removed (a teacher's board). The verdict does not use it. */
  locked?: boolean;
}

/** One colour on a board. Fields after `accent` say where it came from; the verdict does not use them. */
export interface BoardSwatch {
  /** Unique on the board, 1..120 characters. */
  id: string;
  /** The number of its band: 0 is the darkest. */
  bucket: number;
  /** Lightness L* (0..100) as seen: wet when `wet` is true, else dry. */
  lightness: number;
  /** Half the width of the L* range in which the lightness is known to lie (0..100); 0 when absent. */
  uncertainty?: number;
  /** True while the paint is wet: it will dry lighter. */
  wet?: boolean;
  /** True when the swatch may sit out of its bucket's value on purpose. */
  accent?: boolean;
  /** The colour to show, as a CSS colour. */
  css?: string;
  /** The painter's name for it. */
  name?: string;
  /** The painter's note. */
  note?: string;
  /** CIELAB, D65, 2 degree observer. */
  lab?: Lab;
  /** Where it came from: typed in, read off a picture, given as data, measured on a test sheet, predicted from a mix. */
  from?: 'typed' | 'reading' | 'data' | 'sheet' | 'mix';
  /** What it is mixed from. */
  recipe?: Recipe;
}

/** Buckets from dark to light, and the swatches in them. */
export interface Board {
  bands: BoardBand[];
  swatches: BoardSwatch[];
}

/** What a swatch is in its bucket. Only `too-dark` and `too-light` are faults. */
export type SwatchVerdictKind = 'fits' | 'too-dark' | 'too-light' | 'between' | 'unsure';

/** The verdict on one swatch. */
export interface SwatchVerdict {
  id: string;
  verdict: SwatchVerdictKind;
  /**
   * The L* distance, by best estimates, to the nearest lightness at which the swatch would be at fault: positive inside,
   * negative (how far it has to move) outside, 0 on the line. An accent that sits out on purpose has a negative margin
   * too, though it is no fault.
   */
  margin: number;
  /** Why, with figures: codes of `SWATCH_CODES`. Never empty. */
  reasons: Reason[];
}

/** The verdict on a board. */
export interface BoardVerdict {
  /** One for each swatch, in the order of `board.swatches`. */
  swatches: SwatchVerdict[];
  /**
   * Pairs of swatch ids, the one in the darker bucket first, in which the swatch of the darker bucket is surely not darker
   * than that of the lighter bucket. Accents are left out. Ordered as the board lists them.
   */
  overlaps: [darker: string, lighter: string][];
  /**
   * For each pair of neighbouring bands, dark to light: the L* distance from the lightest swatch of the darker bucket to
   * the darkest of the lighter one, by best estimates and without accents; negative where the buckets overlap. The ceiling
   * stands for an empty darker bucket and the floor for an empty lighter one, so that every gap is a finite number.
   */
  gaps: number[];
}

/** A dab that was read from paper. */
export interface Dab {
  /** Unique among the dabs. */
  id: string;
  /** The day it was read: `2026-01-31`. */
  date: string;
  /** CIELAB on paper of L* 95, D65, 2 degree observer. */
  lab: Lab;
  /** Standard deviation of L* within the dab. */
  spread: number;
  /** Half the width of the L* range in which its lightness is known to lie. */
  uncertainty: number;
  /** What it was mixed from, if noted. */
  recipe?: Recipe;
  /** Its wetness when it was read; dry when absent. */
  wet?: 'shining' | 'satin' | 'damp';
  /** The id of the same dab read in another state. */
  same?: string;
  /** The band it was painted for. */
  band?: number;
  note?: string;
}
