import type { Reason } from '../base/reason.js';
import { cautionsOf, isLasting, lastingFor, tubeOf, TUBES } from '../paint/index.js';
import { tubeOnPage } from './sheet-mixes.js';
import type { SheetWords } from './sheet-strings.js';
import type { WorkStep } from './steps.js';
import type { Plan } from './types.js';

/** Ids of the tubes in the board's recipes, in dried layers below them too; those of the shelf while there is no recipe. */
function tubesUsed({ board, shelf = [] }: Plan): string[] {
  const recipes = board.swatches.flatMap(({ recipe }) => recipe ?? []);
  const named = recipes.flatMap(({ parts, over = [] }) =>
    [{ parts }, ...over].flatMap((mix) => mix.parts.map(({ tube }) => tube)),
  );
  const ids = named.length > 0 ? named : shelf.map(({ tube }) => tube);
  return [...new Set(ids)].filter((id) => TUBES.some((tube) => tube.id === id));
}

/** How a lasting tube differs from the one that it stands for. */
function differenceOnPage({ code, values: { wash } }: Reason, words: SheetWords): string {
  return words.of(code, wash === undefined ? {} : { wash: words.of(`paint.wash-${wash}`) });
}

/**
 * What has to be minded, ready to print: masking fluid, drying by heat, what tubes contain and how they last, each sentence once with
 * the tubes it is about; for work that will be sold the nearest lasting tube for each that does not last. The last line defers to labels and
 * local rules.
 */
export function cautionLines(
  plan: Plan,
  steps: readonly WorkStep[],
  words: SheetWords,
  more: readonly string[] = [],
): string[] {
  const tubes = tubesUsed(plan);
  const masks = steps.some(({ kind }) => kind === 'mask');
  const dries = steps.some(({ waits }) => waits.length > 0);
  const bySentence = new Map<string, string[]>();
  for (const id of tubes)
    for (const { code, values } of cautionsOf([{ tube: id, parts: 1 }])) {
      const named = Object.fromEntries(
        Object.entries(values).map(([key, value]) => [
          key,
          key === 'paint' || key === 'tube' ? tubeOnPage(String(value), words) : value,
        ]),
      );
      const sentence = words.find(code, named);
      if (sentence !== undefined)
        bySentence.set(sentence, [...(bySentence.get(sentence) ?? []), id]);
    }
  const names = (ids: readonly string[]): string =>
    ids.map((id) => tubeOnPage(id, words)).join(', ');
  const told = [...bySentence].map(([caution, ids]) =>
    ids.some((id) => caution.includes(tubeOnPage(id, words)))
      ? caution
      : words.of('page.caution-tubes', { tubes: names(ids), caution }),
  );
  const lasting = (plan.sold === true ? tubes : []).flatMap((id) => {
    const nearest = isLasting(tubeOf(id)) ? undefined : lastingFor(id);
    if (!nearest) return [];
    const sentence = words.of('page.caution-sold', {
      tube: tubeOnPage(id, words),
      lasting: tubeOnPage(nearest.tube, words),
    });
    return [`${sentence} ${differenceOnPage(nearest.differs, words)}`];
  });
  const paints = plan.board.swatches.length > 0 || (plan.shelf ?? []).length > 0;
  return [
    ...(masks ? [words.of('order.hint-masking')] : []),
    ...(dries ? [words.of('page.caution-heat')] : []),
    ...told,
    ...lasting,
    ...more,
    ...(masks || dries || paints ? [words.of('page.caution-label')] : []),
  ];
}
