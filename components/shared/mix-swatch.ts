import {
  predictionReasons,
  type BoardSwatch,
  type Loads,
  type Mix,
  type Part,
  type Recipe,
} from './core.js';

const round = (value: number, digits: number): number => Number(value.toFixed(digits));

/** A recipe as it is written down. */
export function recipeOf(
  parts: readonly Part[],
  strength: number,
  over: readonly Pick<Recipe, 'parts' | 'strength'>[] = [],
): Recipe {
  const plain = (
    layer: Pick<Recipe, 'parts' | 'strength'>,
  ): Pick<Recipe, 'parts' | 'strength'> => ({
    parts: layer.parts.map(({ tube, parts: amount }) => ({ tube, parts: round(amount, 4) })),
    strength: Math.max(1e-4, round(layer.strength, 4)),
  });
  const own = plain({ parts: [...parts], strength });
  return over.length > 0 ? { ...own, over: over.map(plain) } : own;
}

/** A name that none of the others has: `mix-1`, `mix-2` … */
export function freeId(taken: readonly { id: string }[]): string {
  const ids = new Set(taken.map(({ id }) => id));
  let number = taken.length + 1;
  while (ids.has(`mix-${number}`)) number++;
  return `mix-${number}`;
}

/** A mix as a swatch of the board; its lightness is known as well as the prediction is. */
export function swatchOf(
  mix: Mix,
  over: Mix[],
  rest: { id: string; bucket: number; name: string },
  { paper, loads }: { paper?: Float64Array; loads?: Loads },
): BoardSwatch {
  const [L, a, b] = mix.lab;
  const lightness = round(Math.min(100, Math.max(0, L)), 2);
  const [films] = predictionReasons(mix.parts, { strength: mix.strength, paper, over, loads });
  const { low, high } = films.values as { low: number; high: number };
  return {
    id: rest.id,
    bucket: rest.bucket,
    lightness,
    uncertainty: round((high - low) / 2, 1),
    css: mix.css,
    name: rest.name.slice(0, 120),
    lab: [lightness, round(a, 2), round(b, 2)],
    from: 'mix',
    recipe: recipeOf(mix.parts, mix.strength, over),
  };
}
