import { munsellValue } from '../colour/index.js';
import { dosesOf, TUBES } from '../paint/index.js';
import type { Part, Recipe } from '../paint/types.js';
import { mixSign, numberRanges, type MixToPaint, type PassageWork } from './passage-types.js';
import type { SheetWords } from './sheet-strings.js';
import type { Plan } from './types.js';

/** A swatch of the board as it is printed. */
export interface MixLine {
  band: number;
  /** For the ladder: its letter, how much paper it covers, its recipe. */
  short: string;
  /** For a page of its own. */
  title: string;
  more: string[];
}

const isKnown = ({ tube }: Part): boolean => TUBES.some(({ id }) => id === tube);

/** What a tube is called on the page. */
export function tubeOnPage(id: string, words: SheetWords): string {
  return words.find(`tube.${id}`) ?? TUBES.find((tube) => tube.id === id)?.name ?? id;
}

/** A mix in spoonfuls with its water; parts as they are, without water, where a tube is not known. */
function spoonfuls(mix: Pick<Recipe, 'parts' | 'strength'>, words: SheetWords): string {
  const join = words.of('page.recipe-join');
  const part = (tube: string, parts: number): string =>
    words.of('page.recipe-part', { parts, tube: tubeOnPage(tube, words) });
  if (!mix.parts.every(isKnown) || !(mix.strength > 0))
    return mix.parts.map(({ tube, parts }) => part(tube, parts)).join(join);
  const { paint, puddles } = dosesOf(mix);
  const [{ water }, ...more] = puddles;
  const first = [
    ...paint.map(({ tube, spoons }) => part(tube, spoons)),
    water > 0
      ? words.of('page.recipe-water', { water: words.number(water, 1) })
      : words.of('page.recipe-no-water'),
  ].join(join);
  const then = more.map((puddle) =>
    words.of('page.recipe-then', { spoons: puddle.spoons, water: words.number(puddle.water, 1) }),
  );
  return [first, ...then].join('; ');
}

/** A recipe with the dried layers below it. */
export function recipeOnPage(recipe: Recipe, words: SheetWords): string {
  const mix = spoonfuls(recipe, words);
  if (!recipe.over || recipe.over.length === 0) return mix;
  const below = recipe.over.map((layer) => spoonfuls(layer, words)).join('; ');
  return words.of('page.recipe-over', { recipe: mix, below });
}

/**
 * The swatches of the board as they are printed, by band from the darkest: those that passages use under the letters they have in the
 * picture, then all others with a recipe, accents as such. Of swatches with one recipe the first is told.
 */
export function mixLines(plan: Plan, work: PassageWork | undefined, words: SheetWords): MixLine[] {
  const used = (work?.mixes ?? []).map((mix): MixLine => lineOfMix(mix, words));
  const taken = new Set((work?.mixes ?? []).map(({ swatch }) => swatch));
  const said = new Set<string>();
  const others = plan.board.swatches.flatMap(({ id, bucket, accent, name, recipe }): MixLine[] => {
    if (taken.has(id) || !recipe) return [];
    const told = recipeOnPage(recipe, words);
    // By what they are, not by what is printed: two weak washes may be counted out alike.
    const key = JSON.stringify([bucket, accent === true, recipe]);
    if (said.has(key)) return [];
    said.add(key);
    const pattern = accent ? 'page.mix-accent' : work ? 'page.mix-unused' : 'page.mix-plain';
    const short = words.of(pattern, { recipe: told });
    return [{ band: bucket, short, title: name ?? short, more: name === undefined ? [] : [short] }];
  });
  return [...used, ...others].sort((a, b) => a.band - b.band);
}

function lineOfMix(
  { number, band, name, recipe, lab, passages, cm2 }: MixToPaint,
  words: SheetWords,
): MixLine {
  const sign = mixSign(number);
  const lightness = Math.min(100, Math.max(0, lab[0]));
  const told = recipe
    ? recipeOnPage(recipe, words)
    : words.of('page.mix-no-recipe', { value: words.number(munsellValue(lightness), 1) });
  const area = words.of('page.mix-area', { cm2: words.number(cm2, cm2 < 10 ? 1 : 0) });
  return {
    band,
    short: [`${sign} = ${told}`, area].join(' · '),
    title: name === undefined ? `${sign} = ${told}` : `${sign} ${name}`,
    more: [
      ...(name === undefined ? [] : [told]),
      words.of('page.mix-passages', { passages: numberRanges(passages), area }),
    ],
  };
}
