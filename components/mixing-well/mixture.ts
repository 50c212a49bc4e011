import {
  cssOfLab,
  isLasting,
  lastingFor,
  mixOnPaper,
  paperReflectance,
  provenMixes,
  spectrumToLab,
  TUBES,
  TUBES_WITHOUT_DATA,
  type BoardBand,
  type Dab,
  type Lab,
  type Lasting,
  type Loads,
  type Mix,
  type Part,
  type Plan,
  type Recipe,
  type ShelfTube,
  type Tube,
  type TubeWithoutData,
} from '../shared/core.js';

/** The strengths that the strip runs between: a breath of paint, and somewhat more than the heaviest wash. */
export const WEAKEST = 0.02;
export const STRONGEST = 1.2;
/** The most spoonfuls of one tube that the sliders give. */
export const MOST_SPOONS = 12;

/** A strength's place on the strip, 0..1: each doubling of the water takes the same length. */
export function placeOf(strength: number): number {
  const place = Math.log(strength / WEAKEST) / Math.log(STRONGEST / WEAKEST);
  return Math.min(1, Math.max(0, place));
}

/** The strength at a place of the strip; the inverse of {@link placeOf}. */
export function strengthAt(place: number): number {
  return WEAKEST * (STRONGEST / WEAKEST) ** Math.min(1, Math.max(0, place));
}

/** A tube of the list, one without data, or an id that this edition of the data does not know. */
export type Known =
  | { kind: 'tube'; tube: Tube }
  | { kind: 'no-data'; tube: TubeWithoutData }
  | { kind: 'unknown'; id: string };

const TUBES_BY_ID: ReadonlyMap<string, Known> = new Map<string, Known>([
  ...TUBES.map((tube): [string, Known] => [tube.id, { kind: 'tube', tube }]),
  ...TUBES_WITHOUT_DATA.map((tube): [string, Known] => [tube.id, { kind: 'no-data', tube }]),
]);

/** What is known of an id. */
export function known(id: string): Known {
  return TUBES_BY_ID.get(id) ?? { kind: 'unknown', id };
}

/** Whether a tube can be predicted. */
export const hasData = (id: string): boolean => known(id).kind === 'tube';

/** Whether a tube fades in light. */
export function isFugitive(id: string): boolean {
  const what = known(id);
  return what.kind !== 'unknown' && what.tube.lightfastness === 'fugitive';
}

/** Whether a tube lasts in light; of one that is not known that cannot be said. */
export function lasts(id: string): boolean {
  const what = known(id);
  return what.kind === 'unknown' || isLasting(what.tube as Tube);
}

/** Ids of a shelf's tubes that can be predicted. */
export function mixable(shelf: readonly ShelfTube[]): string[] {
  return shelf.map(({ tube }) => tube).filter(hasData);
}

/** Ids of the tubes that a search mixes from, and of those that it leaves out since they do not last and the work will be sold. */
export function searched({ shelf = [], sold }: Pick<Plan, 'shelf' | 'sold'>): {
  tubes: string[];
  left: string[];
} {
  const all = mixable(shelf);
  if (!sold) return { tubes: all, left: [] };
  return { tubes: all.filter(lasts), left: all.filter((id) => !lasts(id)) };
}

/** The tube whose data stand for those of one that has none of its own. */
export function standInOf(id: string): string | undefined {
  const what = known(id);
  return what.kind === 'tube' ? what.tube.standIn : undefined;
}

const nearest = new Map<string, Lasting | undefined>();

/** Of all tubes the one that lasts and comes nearest; each is looked up once. */
export function nearestLasting(id: string): Lasting | undefined {
  if (!nearest.has(id)) nearest.set(id, hasData(id) ? lastingFor(id) : undefined);
  return nearest.get(id);
}

/** The tube that a mix has most of. */
export function mostOf({ parts }: Pick<Recipe, 'parts'>): Part {
  return parts.reduce((most, part) => (part.parts > most.parts ? part : most));
}

/** How strong the painter's own tubes are, where that was fitted. */
export function loadsOf(shelf: readonly ShelfTube[]): Loads {
  return Object.fromEntries(
    shelf.flatMap(({ tube, load }) => (load === undefined || !hasData(tube) ? [] : [[tube, load]])),
  );
}

/** Whether every tube of a recipe can be predicted. */
export function canMix({ parts, over = [] }: Recipe): boolean {
  return [{ parts }, ...over].every((layer) => layer.parts.every(({ tube }) => hasData(tube)));
}

/** What a mix is laid on and mixed from. */
export interface Ground {
  /** Reflectance of the bare paper. */
  paper: Float64Array;
  paperLab: Lab;
  paperCss: string;
  loads: Loads;
}

/** The paper and the tubes of a plan. */
export function groundOf({ paper, shelf = [] }: Plan): Ground {
  const reflectance = paperReflectance({ lightness: paper.lightness });
  const paperLab = spectrumToLab(reflectance);
  return { paper: reflectance, paperLab, paperCss: cssOfLab(paperLab).css, loads: loadsOf(shelf) };
}

/** A recipe as it dries, with its own dried layers below it, and below those `over`. */
export function mixOf(recipe: Recipe, { paper, loads }: Ground, over: readonly Mix[] = []): Mix {
  const below = [...over, ...layersOf(recipe, { paper, loads })];
  return mixOnPaper(recipe.parts, { strength: recipe.strength, paper, over: below, loads });
}

/** The dried layers below a recipe's own wash, lowest first. */
export function layersOf(
  { over = [] }: Recipe,
  { paper, loads }: Pick<Ground, 'paper' | 'loads'>,
): Mix[] {
  const layers: Mix[] = [];
  for (const { parts, strength } of over)
    layers.push(mixOnPaper(parts, { strength, paper, over: layers.slice(), loads }));
  return layers;
}

/** A mix once more, with what lies under it: a dried layer to paint on. */
export function driedOf(recipe: Recipe, ground: Ground): Mix[] {
  return [...layersOf(recipe, ground), mixOf(recipe, ground)];
}

/** The strip from weak to strong. */
export interface Strip {
  /** Colours at even places from weakest to strongest. */
  css: string[];
  /** L* at the same places. */
  lightness: number[];
}

const SAMPLES = 33;

/** The same parts from weak to strong. */
export function stripOf(parts: Part[], { paper, loads }: Ground, over: readonly Mix[]): Strip {
  const mixes = Array.from({ length: SAMPLES }, (_, i) =>
    mixOnPaper(parts, {
      strength: strengthAt(i / (SAMPLES - 1)),
      paper,
      over: [...over],
      loads,
    }),
  );
  return { css: mixes.map(({ css }) => css), lightness: mixes.map(({ lab }) => lab[0]) };
}

/** A stretch of the strip that lies in one band. */
export interface Stretch {
  band: number;
  /** Places on the strip, 0..1. */
  from: number;
  to: number;
}

/** The band that a lightness of dry paint falls in. */
export function bandOf(bands: readonly BoardBand[], lightness: number): number {
  return Math.max(0, bands.filter(({ floor }) => lightness >= floor).length - 1);
}

/** Where along the strip the bands lie; between two samples a limit is placed in proportion. */
export function stretchesOf({ lightness }: Strip, bands: readonly BoardBand[]): Stretch[] {
  const last = lightness.length - 1;
  const stretches: Stretch[] = [];
  let from = 0;
  for (let i = 0; i < last; i++) {
    const [a, b] = [lightness[i], lightness[i + 1]];
    const [band, next] = [bandOf(bands, a), bandOf(bands, b)];
    if (band === next) continue;
    const step = next < band ? -1 : 1;
    for (let at = band; at !== next; at += step) {
      const limit = bands[step < 0 ? at : at + 1].floor;
      const to = (i + (limit - a) / (b - a)) / last;
      stretches.push({ band: at, from, to });
      from = to;
    }
  }
  stretches.push({ band: bandOf(bands, lightness[last]), from, to: 1 });
  return stretches;
}

/** Strengths that a pan shows from masstone to pale wash. */
const PAN_STRENGTHS = [2, 0.8, 0.35, 0.15, 0.06, 0.02, 0.006];
const washes = new Map<string, string>();

/** A pan's paint from its masstone to a pale wash, as a CSS gradient from top to bottom. */
export function washOf(id: string, { paper, paperLab, loads }: Ground): string {
  const key = `${id} ${loads[id] ?? 1} ${paperLab[0]}`;
  let wash = washes.get(key);
  if (wash === undefined) {
    const stops = PAN_STRENGTHS.map(
      (strength) => mixOnPaper([{ tube: id, parts: 1 }], { strength, paper, loads }).css,
    );
    wash = `linear-gradient(to bottom, ${stops[0]} 22%, ${stops.slice(1).join(', ')})`;
    washes.set(key, wash);
  }
  return wash;
}

/** The colour of a tube at the strength at which it is plainest, for a small dab. */
export function dabOf(id: string, { paper, loads }: Ground): string {
  return mixOnPaper([{ tube: id, parts: 1 }], { strength: 0.6, paper, loads }).css;
}

/** A colour with another lightness: wet paint looks darker. */
export function atLightness([, a, b]: Lab, lightness: number): string {
  return cssOfLab([Math.min(100, Math.max(0, lightness)), a, b]).css;
}

/**
 * How far the painter's own dried dabs of one recipe lie apart, CIEDE2000: the median, over recipes that were painted twice or more, of
 * twice the farthest dab's distance from their mean; nothing while no recipe was. Ours, no source.
 */
export function spreadOf(dabs: readonly Dab[]): number | undefined {
  const spreads = provenMixes(dabs, { lightness: 50 }, { within: 100, count: dabs.length })
    .filter(({ times }) => times > 1)
    .map(({ scatter }) => 2 * scatter)
    .sort((a, b) => a - b);
  return spreads[spreads.length >> 1];
}

/** How much the colour of a mix suffers from a careless spoon, by its worst change of CIEDE2000. Limits are ours. */
export function steadinessOf(change: number): 'steady' | 'careful' | 'touchy' {
  if (change <= 1) return 'steady';
  return change <= 2.5 ? 'careful' : 'touchy';
}
