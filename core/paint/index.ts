/**
 * Paint: what watercolour does between brush and dry paper. Lightness is L* (0..100).
 *
 * Reason codes of tubes, layers, fits and puddles, with their figures:
 *
 * Hazards, as cautions of a tube; the label (`label`: the standard it follows, ASTM D4236) and local rules come first:
 * - `paint.cadmium`, `paint.cobalt`, `paint.manganese`, `paint.nickel`, `paint.chromium`, `paint.lead` { label }: contains compounds of it
 * - `paint.acid-and-heat` { label }: gives off hydrogen cyanide with strong acid or when heated (Prussian blue)
 *
 * Lastingness, as cautions of a tube (`lastingFor` names the nearest lasting one):
 * - `paint.fades`: fugitive · `paint.fades-or-darkens`: changes in light · `paint.rated-apart`: ratings differ between tests
 *
 * What a tube is, as cautions:
 * - `paint.blend`: sold as a mixture of pigments
 * - `paint.stand-in` { tube }: no data of its own, that tube's are used (`predictionReasons` adds { paint }: the tube it stands for)
 * - `paint.no-data` { near }: cannot be predicted; `near`: ids of tubes near in hue, separated by blanks
 * `cautionsOf` adds { paint }: the tube's id, to all of these.
 *
 * How far off a prediction may be (`predictionReasons`):
 * - `paint.acrylic-films` { low, high, deltaE }: the data are of acrylic films; L* and CIEDE2000 if strengths, of dried layers too, are off by the usual factor
 * - `paint.across-sets` { low, high }: tubes of two sets of data; the ratio of strength of one pigment in the two
 * - `paint.granulates` { paint }, `paint.opaque` { paint }, `paint.re-wets` { layers }
 *
 * A lasting tube in place of another (`lastingFor`):
 * - `paint.lasting-same-data`, `paint.lasting-alike` { deltaE }, `paint.lasting-lighter`, `-darker`, `-purer`, `-duller` { wash, deltaE },
 *   `paint.lasting-hue` { wash, deltaE, hue }: `wash` is weak, middle or strong
 *
 * A tube's own strength (`fitTube`):
 * - `paint.fit-as-data` { load, low, high }, `paint.fit-differs` { load, low, high }, `paint.fit-one-reading`,
 *   `paint.fit-open` { low, high }, `paint.fit-another-hue` { deltaE }
 *
 * How much to mix (`puddleFor`), ml:
 * - `paint.puddle-guess` { low, high }, `paint.puddle-more` { ml, needed }, `paint.puddle-touch` { spoonfuls }
 *
 * Why the nearest mix of a shelf does not come close (`whyOutOfReach`):
 * - `mix.too-dark` { lightness, reached }, `mix.too-light` { lightness, reached }, `mix.too-chromatic` { chroma, reached, hue },
 *   `mix.too-neutral` { chroma, reached, hue }, `mix.hue-missing` { hue, reached }
 */
export {
  cautionsOf,
  isLasting,
  lastingFor,
  predictionReasons,
  STRENGTH_APART,
  type Lasting,
} from './cautions.js';
export {
  driedLightness,
  DRYING_SHIFT,
  dryingFromDabs,
  dryingPairs,
  wetLightness,
  type DabRead,
  type DryingOptions,
  type DryingPair,
  type DryingRule,
  type LightnessRange,
  type OwnDrying,
  type Wetness,
} from './drying.js';
export {
  completeBucket,
  completeBucketKernel,
  type Bucket,
  type CompleteOptions,
  type Completion,
} from './buckets.js';
export { dosesOf, letDown, waterTo, type Doses, type LetDown } from './doses.js';
export { leastApart, mixFamily, mixFamilyKernel, type FamilyOptions } from './family.js';
export { fitTube, type TintReading, type TubeFit } from './fit.js';
export { layerReflectance } from './layers.js';
export { mixOnPaper, type Loads } from './mix.js';
export { puddleFor, SPARE, SPOONFUL_ML, type FirstPuddle, type Puddle } from './puddle.js';
export { whyOutOfReach } from './reach.js';
export { CLOSE, gradeOf, NEAR, type Grade } from './grade.js';
export { findMixes, findMixesKernel, type MixOptions, type MixTarget } from './search.js';
export {
  shelfRange,
  shelfRangeKernel,
  TELLS_FROM_PAPER,
  type ShelfOptions,
  type ShelfRange,
} from './shelf.js';
export { PAPER_LIGHTNESS, paperReflectance, spectrumToLab } from './spectra.js';
export {
  BERNS_SCALE,
  tubeOf,
  TUBES,
  TUBES_EDITION,
  TUBES_WITHOUT_DATA,
  type TubeWithoutData,
} from './tubes.js';
export type * from './types.js';
