import type { Reason } from '../base/reason.js';
import type { Lab } from '../base/types.js';

/** So much of a tube. */
export interface Part {
  /** Id of a tube. */
  tube: string;
  /** Above 0; only the ratios matter. */
  parts: number;
}

/** A paint and its spectra. */
export interface Tube {
  /** Permanent. */
  id: string;
  /** Generic name, English. */
  name: string;
  /** Colour Index names, as `PB29`. */
  colourIndex: string[];
  /** Absorption and scattering, 380..730 nm by 10, relative to the titanium white of the same data. */
  K: readonly number[];
  S: readonly number[];
  /** The layer thickness at which this tube alone on paper of L* 95 has gone 90 % of the way in L* to its opaque film. */
  fullLoad: number;
  /** `'okumura2005'` or `'berns2016'`. */
  source: string;
  /** The paint whose data stand in for it, when it has none of its own. */
  standIn?: string;
  transparency: 'transparent' | 'semi-transparent' | 'semi-opaque' | 'opaque';
  staining: 'low' | 'medium' | 'high';
  granulation: 'none' | 'slight' | 'strong';
  /** Lightfastness, ASTM D4303 classes as far as known; `fugitive` fades in light. */
  lightfastness: 'I' | 'II' | 'doubtful' | 'fugitive';
  /** Health and lastingness; the tube's label comes first. */
  cautions: Reason[];
}

/** A mix of tubes at a strength, as it looks when dry. */
export interface Mix {
  parts: Part[];
  /** 0 bare paper, 1 the heaviest wash a painter lays, above 1 tends to the opaque film. */
  strength: number;
  /** 380..730 nm by 10. */
  reflectance: Float64Array;
  lab: Lab;
  css: string;
  /** Whether the CSS colour was drawn in to sRGB. */
  outOfGamut: boolean;
}

/** A mix found for a target. */
export interface FoundMix extends Mix {
  /** CIEDE2000 to the target (or |L*| when only a lightness was asked for). */
  deltaE: number;
  /** The worst change of colour, CIEDE2000, when one part is off by a tenth. */
  steadiness: number;
}

/** A mix written down: on a swatch, in a dab. */
export interface Recipe {
  parts: Part[];
  strength: number;
  /** Dried layers below it, lowest first. */
  over?: { parts: Part[]; strength: number }[];
}
