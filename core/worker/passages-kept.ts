import { passagesKernel, type Passages } from '../mass/index.js';
import { passageBordersKernel, type BorderLines } from '../plan/index.js';
import type { MassesFound, MassesInput } from './mass-inputs.js';
import { sliced, type Watch } from './slices.js';
import type { Workshop } from './workshop.js';

/** All that the passages of a picture depend on; begins with the picture's id. */
export function passagesKey(input: MassesInput): string {
  const { picture, crop, maxPixels, distrusted, thresholds, brushMm, paperWidthMm } = input;
  const { focus, overrules, background, sitter } = input;
  const about = background === undefined ? [] : [background, sitter];
  const asked = [crop, maxPixels, distrusted, thresholds, brushMm, paperWidthMm, focus, overrules];
  return `${picture} passages ${JSON.stringify([...asked, ...about])}`;
}

/** The passages of masses that an input asks for: from the cache, or made and kept there. An answer must not hand them over. */
export async function passagesFor(
  input: MassesInput,
  { masses, overrules, pxPerMm }: MassesFound,
  workshop: Workshop,
  watch: Watch,
): Promise<Passages> {
  const key = passagesKey(input);
  const kept = workshop.cache.get<Passages>(key);
  if (kept) return kept;
  const { pixels } = await workshop.working(input, watch);
  const brushPx = input.brushMm * pxPerMm;
  const passages = await sliced(
    passagesKernel(pixels, masses, { brushPx, overrules }),
    watch,
    'passages',
  );
  workshop.cache.set(key, passages, 4 * passages.labels.length);
  return passages;
}

/** Their borders as they are drawn, kept with them. */
export async function passageBordersFor(
  input: MassesInput,
  found: MassesFound,
  workshop: Workshop,
  watch: Watch,
): Promise<{ passages: Passages; borders: BorderLines[] }> {
  const passages = await passagesFor(input, found, workshop, watch);
  const key = `${passagesKey(input)} borders`;
  let borders = workshop.cache.get<BorderLines[]>(key);
  if (!borders) {
    borders = await sliced(
      passageBordersKernel(found.masses, passages, input.brushMm * found.pxPerMm),
      watch,
      'passages',
    );
    const points = borders.reduce(
      (sum, { lines }) => sum + lines.reduce((all, line) => all + line.length, 0),
      0,
    );
    workshop.cache.set(key, borders, 8 * points);
  }
  return { passages, borders };
}
