import { leanOf, letDown, munsellValue, type Lab, type Reason, type Recipe } from './core.js';
import type { Say } from './usual-bands.js';

/** The name of a tube inside a sentence. */
export function tubeName(id: string, say: Say): string {
  return breakableName(id, say).replaceAll('\u00ad', '');
}

/** The same for a narrow place, with soft hyphens where a language has long names. */
export function breakableName(id: string, say: Say): string {
  const name = say(`tube.${id}`);
  return name === `tube.${id}` ? say('tube.unknown', { id }) : name;
}

/** Figures that are L* and are told as values, by reason. */
const IN_VALUE: Readonly<Record<string, readonly string[]>> = {
  'paint.acrylic-films': ['low', 'high'],
  'mix.too-dark': ['lightness', 'reached'],
  'mix.too-light': ['lightness', 'reached'],
};

const leanAt = (hue: number, say: Say): string => {
  const angle = (hue * Math.PI) / 180;
  const lab: Lab = [50, 20 * Math.cos(angle), 20 * Math.sin(angle)];
  return say(`lean.${leanOf(lab).name}`);
};

/** A finding about paint in words: tubes by their names, lightness as values, hues as leans. */
export function paintSentence({ code, values }: Reason, say: Say): string {
  const told: Record<string, string | number> = { ...values };
  for (const key of ['paint', 'tube'])
    if (typeof told[key] === 'string') told[key] = tubeName(told[key], say);
  if (typeof told.near === 'string')
    told.near = told.near
      .split(' ')
      .map((id) => tubeName(id, say))
      .join(', ');
  for (const key of IN_VALUE[code] ?? [])
    if (typeof told[key] === 'number') told[key] = munsellValue(clamped(told[key]));
  if (typeof told.wash === 'string') told.wash = say(`paint.wash-${told.wash}`);
  if (typeof told.hue === 'number') told.lean = leanAt(told.hue, say);
  if (code === 'mix.hue-missing' && typeof told.reached === 'number')
    told.reached = leanAt(told.reached, say);
  return say(code, told);
}

const clamped = (lightness: number): number => Math.min(100, Math.max(0, lightness));

/** The parts of a mix in words, largest first: `3 ultramarine, 2 burnt sienna`. */
export function partsInWords(parts: Recipe['parts'], say: Say): string {
  return [...parts]
    .sort((p, q) => q.parts - p.parts)
    .map(({ tube, parts: spoons }) => say('recipe.part', { spoons, tube: tubeName(tube, say) }))
    .join(', ');
}

/** The water of so many spoonfuls of paint in words; of a weak wash in two puddles or more: `5 water; then 1 of it in 9 water`. */
export function waterInWords(spoonfuls: number, strength: number, say: Say): string {
  const [{ water }, ...more] = letDown(spoonfuls, strength);
  return [
    water > 0 ? say('recipe.water', { water }) : say('recipe.no-water'),
    ...more.map(({ spoons, water: into }) => say('recipe.then', { spoons, water: into })),
  ].join('; ');
}

/** A recipe in words: `3 ultramarine, 2 burnt sienna, 6 water`, with the dried layers below. */
export function recipeInWords(recipe: Recipe, say: Say): string {
  const mix = ({ parts, strength }: Pick<Recipe, 'parts' | 'strength'>): string => {
    const total = parts.reduce((sum, part) => sum + part.parts, 0);
    return `${partsInWords(parts, say)}, ${waterInWords(total, strength, say)}`;
  };
  const below = recipe.over?.map(({ parts }) => partsInWords(parts, say)).join('; ');
  return below ? `${mix(recipe)}; ${say('recipe.over', { below })}` : mix(recipe);
}
