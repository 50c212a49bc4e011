import { expectNumber, expectObject } from '../base/check.js';
import type { Lab } from '../base/types.js';
import { deltaE2000, expectLab, helmholtzKohlrausch, lchOf } from '../colour/index.js';
import { hueApart } from '../mass/accents.js';
import type { Accent, AccentsFound, HuePlace } from '../mass/index.js';
import type { Board, BoardSwatch } from '../swatch/index.js';

/** A place where a planned accent might come again. */
export interface AccentPlace extends HuePlace {
  /** Whether what is there has the accent's own band, so that the accent does not break the values. */
  inBand: boolean;
  /** Whether it lies across the picture from where the accent is first used: further than half the picture's diagonal. */
  across: boolean;
}

/** A swatch of the board that is meant as an accent. */
export interface PlannedAccent {
  /** Id of the swatch. */
  swatch: string;
  lab: Lab;
  /** The band that its own lightness belongs to, which need not be that of its bucket. */
  band: number;
  bucket: number;
  /**
   * The bucket's other swatches with a colour, in the mean: its chroma, CIEDE2000 of the accent to it, and what a swap of that neutral for the
   * pure colour costs in value: L* of the accent less that of the mean. Missing while there are none.
   */
  among?: { chroma: number; deltaE: number; valueCost: number };
  /** C*ab of the accent. */
  chroma: number;
  /** How much lighter than its L* the eye takes it for, L* (Helmholtz-Kohlrausch, `helmholtzKohlrausch`). */
  seemsLighter: number;
  /** Ids of the photo's accents of its hue, most telling first: there it is used. */
  uses: number[];
  /** Ids of other swatches of strong colour with its hue, accents or not: they carry it on. */
  echoes: string[];
  /**
   * Where it might come again, best first, at most three: places that carry its hue already, a few brushes away from its uses and from each
   * other; of the accent's own band before others, across the picture before near, stronger before weaker. That an accent
   * is repeated is common practice, no source.
   */
  mightRepeat: AccentPlace[];
}

/** The plan's accents, and for each accent of the photo the swatch that is meant for it. */
export interface AccentPlan {
  planned: PlannedAccent[];
  /** By id of the photo's accent: the accent swatch of nearest hue; missing where none has its hue. */
  swatches: (string | undefined)[];
}

// As in the photo's own accents; our own choices.
const SAME_HUE = 25;
const STRONG = 20;
/** The most places that are proposed, and how many brushes they keep from each other and from the uses. */
const MOST_PLACES = 3;
const BRUSHES_AWAY = 3;

type Coloured = BoardSwatch & { lab: Lab };
const isColoured = (swatch: BoardSwatch): swatch is Coloured => swatch.lab !== undefined;
const hueOf = (lab: Lab): number => lchOf(lab).h;

/** The band whose interval holds the lightness, else the nearest. */
function bandOf({ bands }: Board, lightness: number): number {
  const off = bands.map(({ floor, ceiling }) =>
    Math.max(floor - lightness, lightness - ceiling, 0),
  );
  return off.indexOf(Math.min(...off));
}

function amongNeutrals(board: Board, accent: Coloured): PlannedAccent['among'] {
  const others = board.swatches
    .filter(isColoured)
    .filter((swatch) => swatch.bucket === accent.bucket && !swatch.accent);
  if (others.length === 0) return undefined;
  const mean = [0, 1, 2].map(
    (i) => others.reduce((sum, { lab }) => sum + lab[i], 0) / others.length,
  ) as Lab;
  return {
    chroma: lchOf(mean).C,
    deltaE: deltaE2000(accent.lab, mean),
    valueCost: accent.lab[0] - mean[0],
  };
}

/** How far two places are apart, pixels. */
const apart = ([x, y]: [number, number], [u, v]: [number, number]): number =>
  Math.hypot(x - u, y - v);

/**
 * What the plan makes of its accents: swatches of the board with `accent` and a colour, against the other swatches of their buckets, and
 * against the photo's own accents and the places that carry their hue. Without a photo (`found` absent) uses and places stay empty.
 *
 * Two colours are of one hue when their hues lie within 25 degrees; a swatch carries a hue from a chroma of 20 on. Both are our own choices.
 *
 * @param board - Of the plan.
 * @param found - What the photo has, in the pixels of its masses.
 * @param options - `width`, `height` of those pixels and `brushPx`, the pressed width of the brush; with `found` only.
 * @throws {TypeError | RangeError} naming the size or the brush that is none.
 */
export function accentPlan(
  board: Board,
  found: AccentsFound = { accents: [], places: [] },
  options: { width?: number; height?: number; brushPx?: number } = {},
): AccentPlan {
  const { width = 1, height = 1, brushPx = 1 } = expectObject('options', options);
  const diagonal = Math.hypot(
    expectNumber('options.width', width, 1),
    expectNumber('options.height', height, 1),
  );
  const away = BRUSHES_AWAY * expectNumber('options.brushPx', brushPx, 0, 1e6);
  const swatches = board.swatches.filter(isColoured);
  const accents = swatches.filter(({ accent }) => accent);
  const meant = found.accents.map(({ lab }) => nearestHue(accents, lab)?.id);
  const planned = accents.map((swatch): PlannedAccent => {
    const lab = expectLab('swatch.lab', swatch.lab);
    const band = bandOf(board, lab[0]);
    const among = amongNeutrals(board, swatch);
    const uses = found.accents.filter(({ id }) => meant[id] === swatch.id);
    return {
      swatch: swatch.id,
      lab,
      band,
      bucket: swatch.bucket,
      ...(among ? { among } : {}),
      chroma: lchOf(lab).C,
      seemsLighter: helmholtzKohlrausch(lab) - lab[0],
      uses: uses.map(({ id }) => id),
      echoes: swatches
        .filter((other) => other.id !== swatch.id && lchOf(other.lab).C >= STRONG)
        .filter((other) => hueApart(hueOf(other.lab), hueOf(lab)) <= SAME_HUE)
        .map(({ id }) => id),
      mightRepeat: placesFor(lab, band, uses, found.places, { away, diagonal }),
    };
  });
  return { planned, swatches: meant };
}

/** The swatch whose hue is nearest, within the same hue. */
function nearestHue(swatches: readonly Coloured[], lab: Lab): Coloured | undefined {
  let best: Coloured | undefined;
  let least: number = SAME_HUE;
  for (const swatch of swatches) {
    const off = hueApart(hueOf(swatch.lab), hueOf(lab));
    if (off <= least) [best, least] = [swatch, off];
  }
  return best;
}

function placesFor(
  lab: Lab,
  band: number,
  uses: readonly Accent[],
  places: readonly HuePlace[],
  { away, diagonal }: { away: number; diagonal: number },
): AccentPlace[] {
  const first = uses[0]?.at;
  const worth = (place: AccentPlace): number =>
    (place.inBand ? 2000 : 0) + (place.across ? 1000 : 0) + lchOf(place.lab).C;
  const ranked = places
    .filter((place) => hueApart(hueOf(place.lab), hueOf(lab)) <= SAME_HUE)
    .map((place): AccentPlace => ({
      ...place,
      inBand: place.band === band,
      across: first !== undefined && apart(first, place.at) > diagonal / 2,
    }))
    .sort((p, q) => worth(q) - worth(p));
  const taken = uses.map(({ at }) => at);
  const chosen: AccentPlace[] = [];
  for (const place of ranked) {
    if (chosen.length === MOST_PLACES) break;
    if (taken.some((at) => apart(at, place.at) < away)) continue;
    chosen.push(place);
    taken.push(place.at);
  }
  return chosen;
}
