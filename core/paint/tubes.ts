import { outOfRange, wrongType } from '../base/check.js';
import { reason, type Reason } from '../base/reason.js';
import { lightnessOfLuminance } from '../colour/index.js';
import { inside, layer, outside } from './layers.js';
import { BANDS, paperReflectance, WEIGHTS } from './spectra.js';
import { BERNS_2016, OKUMURA_2005, type PackedSpectra } from './tube-data.js';
import type { Tube } from './types.js';

/** The edition of {@link TUBES}: it changes whenever a figure of a tube does. Ids never change their meaning. */
export const TUBES_EDITION = '2026.1';

/**
 * What the K and S of Berns 2016 are multiplied by to stand beside those of Okumura 2005: the median, over the eleven pigments that both
 * sets hold, of the ratio of their absorptions (Okumura over Berns). The ratios run from 0.791 (PV23) to 2.244 (PW6), so a mix across the
 * two sets may have the strength of one part wrong by two thirds: it is flagged.
 */
export const BERNS_SCALE = 1.349;

const OKUMURA = 'okumura2005';
const BERNS = 'berns2016';

function unpacked(text: string, scale: number): readonly number[] {
  const numbers: number[] = [];
  let places = 0;
  for (const [, letter, digits] of text.matchAll(/([a-l]?)(\d{4})/g)) {
    if (letter) places = letter.charCodeAt(0) - 97;
    numbers.push(scale * Number(`${digits}e-${places}`));
  }
  return Object.freeze(numbers);
}

const once = <T>(make: () => T): (() => T) => {
  let made: T | undefined;
  return () => (made ??= make());
};

/** L* outside of a film of the tube on paper of L* 95. */
function lightnessOfFilm(
  K: readonly number[],
  S: readonly number[],
  thickness: number,
  ground: number,
): number {
  let luminance = 0;
  for (let i = 0; i < BANDS; i++)
    luminance += WEIGHTS.y[i] * outside(layer(K[i], S[i], thickness, ground));
  return lightnessOfLuminance(luminance);
}

/** Of the way in L* from paper to opaque film that a full load has gone. */
const FULL = 0.9;

/** The thickness at which the film has gone {@link FULL} of the way, by bisection to the last digits. */
function fullLoadOf(K: readonly number[], S: readonly number[]): number {
  const paper = paperReflectance()[0];
  const ground = inside(paper);
  const from = lightnessOfLuminance(paper);
  const goal = from + FULL * (lightnessOfFilm(K, S, Infinity, ground) - from);
  const isShort = (thickness: number): boolean => {
    const here = lightnessOfFilm(K, S, thickness, ground);
    return goal < from ? here > goal : here < goal;
  };
  let high = 1;
  while (isShort(high)) high *= 2;
  let low = 0;
  for (let middle = high / 2; middle > low && middle < high; middle = (low + high) / 2) {
    if (isShort(middle)) low = middle;
    else high = middle;
  }
  return high;
}

interface Spectra {
  K: readonly number[];
  S: readonly number[];
  fullLoad: number;
}

const SPECTRA = new Map<string, { source: string; spectra: () => Spectra }>();

function take(source: string, set: PackedSpectra, scale: number): void {
  for (const [id, [k, s]] of Object.entries(set)) {
    const spectra = once(() => {
      const [K, S] = [unpacked(k, scale), unpacked(s, scale)];
      return { K, S, fullLoad: fullLoadOf(K, S) };
    });
    SPECTRA.set(id, { source, spectra });
  }
}

take(OKUMURA, OKUMURA_2005, 1);
take(BERNS, BERNS_2016, BERNS_SCALE);

type Traits = Pick<Tube, 'transparency' | 'staining' | 'granulation' | 'lightfastness'>;

/** A tube whose K, S and fullLoad are unpacked when first asked for. */
function tube(
  id: string,
  name: string,
  colourIndex: string,
  traits: Traits,
  cautions: readonly Reason[] = [],
  standIn?: string,
): Tube {
  const { source, spectra } = SPECTRA.get(standIn ?? id)!;
  const proxy = standIn === undefined ? [] : [reason('paint.stand-in', { tube: standIn })];
  return Object.freeze({
    id,
    name,
    colourIndex: colourIndex.split(' '),
    get K() {
      return spectra().K;
    },
    get S() {
      return spectra().S;
    },
    get fullLoad() {
      return spectra().fullLoad;
    },
    source,
    ...(standIn === undefined ? {} : { standIn }),
    ...traits,
    cautions: [...cautions, ...proxy],
  });
}

const TRANSPARENCY = ['transparent', 'semi-transparent', 'semi-opaque', 'opaque'] as const;
const STAINING = { l: 'low', m: 'medium', h: 'high' } as const;
const GRANULATION = { n: 'none', s: 'slight', g: 'strong' } as const;
const LIGHTFASTNESS = { 1: 'I', 2: 'II', d: 'doubtful', f: 'fugitive' } as const;

/** Traits in four letters: transparency 0..3, staining l m h, granulation n s g, lightfastness 1 2 d f. */
function traits(letters: string): Traits {
  const [t, s, g, l] = letters;
  return {
    transparency: TRANSPARENCY[Number(t)],
    staining: STAINING[s as 'l'],
    granulation: GRANULATION[g as 'n'],
    lightfastness: LIGHTFASTNESS[l as '1'],
  };
}

/** What a tube's label (ASTM D4236) and local rules say comes before these. */
const hazard = (kind: string): Reason => reason(`paint.${kind}`, { label: 'ASTM D4236' });

const CADMIUM = hazard('cadmium');
const COBALT = hazard('cobalt');
const MANGANESE = hazard('manganese');
const CHROMIUM = hazard('chromium');
const NICKEL = hazard('nickel');
const LEAD = hazard('lead');
const CYANIDE = hazard('acid-and-heat');
const FADES = reason('paint.fades');
const RATED_APART = reason('paint.rated-apart');
const DARKENS = reason('paint.fades-or-darkens');
const BLEND = reason('paint.blend');

/**
 * The tubes that can be predicted: generic names, light to dark within yellows, earths, reds, violets, blues, greens, blacks, white.
 *
 * Spectra: see tube-data.ts; those of Berns 2016 are multiplied by {@link BERNS_SCALE}. A tube without data of its own takes those of
 * another, named in `standIn` and told by the caution `paint.stand-in`. Transparency, staining, granulation, lightfastness and cautions
 * are from memory and common practice, no source; makers' paints of one name differ, so the label and local rules come first.
 */
export const TUBES: readonly Tube[] = Object.freeze([
  tube('bismuth-yellow', 'Bismuth yellow', 'PY184', traits('3mn1')),
  tube('hansa-yellow-light', 'Hansa yellow light', 'PY3', traits('1mn2'), [], 'bismuth-yellow'),
  tube('hansa-yellow', 'Hansa yellow', 'PY74', traits('1mn2')),
  tube('hansa-yellow-medium', 'Hansa yellow medium', 'PY97', traits('0mn2'), [], 'hansa-yellow'),
  tube('cadmium-yellow', 'Cadmium yellow', 'PY35', traits('3ln1'), [CADMIUM], 'bismuth-yellow'),
  tube('diarylide-yellow', 'Indian yellow (diarylide)', 'PY83', traits('1mn1')),
  tube('green-gold', 'Green gold', 'PY150 PG36 PY3', traits('0mn1'), [NICKEL, BLEND]),
  tube('yellow-ochre', 'Yellow ochre', 'PY43', traits('2ls1')),
  tube('raw-sienna', 'Raw sienna', 'PBr7', traits('1ls1')),
  tube('burnt-sienna', 'Burnt sienna', 'PBr7', traits('1ms1')),
  tube('light-red', 'Light red', 'PR101', traits('3ms1')),
  tube('raw-umber', 'Raw umber', 'PBr7', traits('2ms1'), [MANGANESE]),
  tube('burnt-umber', 'Burnt umber', 'PBr7', traits('2ms1'), [MANGANESE]),
  tube('cadmium-orange', 'Cadmium orange', 'PO20', traits('3mn1'), [CADMIUM]),
  tube('pyrrole-orange', 'Pyrrole orange', 'PO73', traits('2mn1')),
  tube('cadmium-red', 'Cadmium red', 'PR108', traits('3ln1'), [CADMIUM]),
  tube('pyrrole-red', 'Pyrrole red', 'PR254', traits('2hn1')),
  tube('quinacridone-rose', 'Quinacridone rose', 'PV19', traits('0hn1')),
  tube('quinacridone-magenta', 'Quinacridone magenta', 'PR122', traits('0hnd'), [RATED_APART]),
  tube('quinacridone-crimson', 'Crimson (quinacridone)', 'PR206 PR202', traits('0hn1'), [BLEND]),
  tube(
    'alizarin-crimson',
    'Alizarin crimson',
    'PR83',
    traits('0hnf'),
    [FADES],
    'quinacridone-crimson',
  ),
  tube('dioxazine-violet', 'Dioxazine violet', 'PV23', traits('1hnd'), [RATED_APART]),
  tube('ultramarine', 'Ultramarine', 'PB29', traits('0lg1')),
  tube('cobalt-blue', 'Cobalt blue', 'PB28', traits('1ls1'), [COBALT]),
  tube('cerulean-blue', 'Cerulean blue', 'PB36:1', traits('2lg1'), [COBALT]),
  tube('phthalo-blue', 'Phthalo blue', 'PB15:4', traits('0hn1')),
  tube('phthalo-blue-red-shade', 'Phthalo blue, red shade', 'PB15:1', traits('0hn1')),
  tube('indanthrone-blue', 'Indanthrone blue', 'PB60', traits('0hs1')),
  tube('phthalo-green', 'Phthalo green', 'PG7', traits('0hn1')),
  tube('phthalo-green-yellow-shade', 'Phthalo green, yellow shade', 'PG36', traits('0hn1')),
  tube('chromium-oxide-green', 'Chromium oxide green', 'PG17', traits('3ms1'), [CHROMIUM]),
  tube('ivory-black', 'Ivory black', 'PBk9', traits('1ms1')),
  tube('carbon-black', 'Carbon black', 'PBk7', traits('3hn1')),
  tube('titanium-white', 'Titanium white', 'PW6', traits('3ln1')),
]);

/** A paint of which no K and S are known. */
export interface TubeWithoutData extends Traits {
  /** Permanent. */
  id: string;
  name: string;
  colourIndex: string[];
  /** Ids of {@link TUBES} that come nearest in hue, nearest first (from memory); the strength is not told by them. */
  near: string[];
  /** Whether it is a mixture of paints that can be mixed from `near`. */
  mixture: boolean;
  cautions: Reason[];
}

function without(
  id: string,
  name: string,
  colourIndex: string,
  letters: string,
  near: string,
  cautions: Reason[] = [],
  mixture = false,
): TubeWithoutData {
  const ids = near.split(' ');
  return Object.freeze({
    id,
    name,
    colourIndex: colourIndex.split(' '),
    near: ids,
    mixture,
    ...traits(letters),
    cautions: [...cautions, reason('paint.no-data', { near: near })],
  });
}

/**
 * Paints that painters own and that cannot be predicted: no K and S are known. They never take part in a mix; the elements say 'no data'
 * and offer the `near` ones by name. (Payne's grey is a mixture, and the S measured of it is no more than noise: mix it.)
 */
export const TUBES_WITHOUT_DATA: readonly TubeWithoutData[] = Object.freeze([
  without('aureolin', 'Aureolin', 'PY40', '0lsd', 'hansa-yellow', [COBALT, DARKENS]),
  without('nickel-azo-yellow', 'Nickel azo yellow', 'PY150', '0mn1', 'green-gold', [NICKEL]),
  without(
    'naples-yellow',
    'Naples yellow, genuine',
    'PY41',
    '3ls1',
    'yellow-ochre titanium-white',
    [LEAD],
  ),
  without('prussian-blue', 'Prussian blue', 'PB27', '0hn1', 'phthalo-blue indanthrone-blue', [
    CYANIDE,
  ]),
  without('viridian', 'Viridian', 'PG18', '0lg1', 'phthalo-green', [CHROMIUM]),
  without('paynes-grey', "Payne's grey", 'PB29 PBk9', '1ms1', 'ultramarine ivory-black', [], true),
]);

const BY_ID = new Map(TUBES.map((each) => [each.id, each]));

/**
 * The tube of this id.
 * @throws {TypeError} when it is no text · {RangeError} when no tube has it: the message tells an unknown tube from one without data.
 */
export function tubeOf(id: string, name = 'tube'): Tube {
  if (typeof id !== 'string') throw wrongType(name, id, 'the id of a tube');
  const found = BY_ID.get(id);
  if (found) return found;
  const known = TUBES_WITHOUT_DATA.find((each) => each.id === id);
  throw outOfRange(
    name,
    id,
    known
      ? `a tube with data; of this one none are known, near it are ${known.near.join(', ')}`
      : 'the id of a tube, one of TUBES',
  );
}
