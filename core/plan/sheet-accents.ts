import { tag } from '../base/svg.js';
import { munsellValue } from '../colour/index.js';
import type { AccentsFound } from '../mass/index.js';
import type { Masses } from '../mass/types.js';
import type { BoardSwatch } from '../swatch/index.js';
import { accentPlan, type PlannedAccent } from './planned-accents.js';
import { onPage, sizeOf, text, type Placed } from './sheet-draw.js';
import { recipeOnPage } from './sheet-mixes.js';
import type { SheetWords } from './sheet-strings.js';
import type { Plan } from './types.js';

/** The board's accents as they are marked and told: their numbers on the page are their places in the list, from 1. */
export interface SheetAccents {
  found: AccentsFound;
  planned: readonly PlannedAccent[];
}

/** What the plan makes of its accents, by the brush that the masses are of. */
export function accentsOnSheet(plan: Plan, { map }: Masses, found: AccentsFound): SheetAccents {
  const { board, brushes, brush = 0, paper } = plan;
  const { width, height } = map;
  const brushPx = ((brushes[brush]?.pressedMm ?? 0) * width) / paper.widthMm;
  return { found, planned: accentPlan(board, found, { width, height, brushPx }).planned };
}

/** Half the height of an accent's sign, mm. */
const SIGN_MM = 1.3;

/** The sign of an accent: a full lozenge where the photo has it, an open one where it might come again. */
export function accentSign(isThere: boolean, x: number, y: number): string {
  const [r, s] = [SIGN_MM, 0.8 * SIGN_MM];
  return tag('path', {
    d: `M${x.toFixed(2)} ${(y - r).toFixed(2)}l${s} ${r}l${-s} ${r}l${-s} ${-r}z`,
    fill: isThere ? '#000' : '#fff',
    stroke: isThere ? '#fff' : '#000',
    'stroke-width': 0.25,
  });
}

/** Where each accent of the board is, and where it might come again, pixels of the masses. */
function spotsOf({ found, planned }: SheetAccents): {
  number: string;
  isThere: boolean;
  at: readonly [x: number, y: number];
}[] {
  return planned.flatMap(({ uses, mightRepeat }, i) => {
    const number = String(i + 1);
    return [
      ...mightRepeat.map(({ at }) => ({ number, isThere: false, at })),
      ...uses.map((id) => ({ number, isThere: true, at: found.accents[id].at })),
    ];
  });
}

/** The signs with the numbers of their accents beside them. */
export function accentSigns(
  placed: Placed,
  accents: SheetAccents,
  halo: Readonly<Record<string, string | number>>,
): string {
  const right = placed.x + sizeOf(placed).width;
  return spotsOf(accents)
    .map(({ number, isThere, at }) => {
      const [x, y] = onPage(placed, ...at);
      const isLast = x + SIGN_MM + 4 > right;
      return (
        accentSign(isThere, x, y) +
        text(number, isLast ? x - SIGN_MM - 0.2 : x + SIGN_MM + 0.2, y + 0.8, 2.2, {
          'font-style': 'italic',
          'font-weight': 'bold',
          'text-anchor': isLast ? 'end' : undefined,
          ...halo,
        })
      );
    })
    .join('');
}

/** Where signs stand on the page, mm. */
export function accentsAt(
  placed: Placed,
  accents: SheetAccents,
): { x: number; y: number; r: number }[] {
  return spotsOf(accents).map(({ at }) => {
    const [x, y] = onPage(placed, ...at);
    return { x, y, r: SIGN_MM };
  });
}

/** An accent in words: what it is called, then its figures. */
export interface AccentLine {
  title: string;
  told: string;
}

/** Each accent of the board: its band, how vivid it is, what it costs in value, where it is, is repeated and might be. */
export function accentLines(
  plan: Plan,
  { planned }: SheetAccents,
  words: SheetWords,
): AccentLine[] {
  const { bands, swatches } = plan.board;
  const byId = new Map(swatches.map((swatch) => [swatch.id, swatch]));
  const nameOf = (id: string): string => swatchOnPage(byId.get(id)!, words);
  const bandOf = (band: number): string => bands[band]?.name ?? String(band + 1);
  return planned.map((accent, i) => {
    const { band, bucket, uses, echoes, mightRepeat } = accent;
    const inBand = mightRepeat.filter((place) => place.inBand).length;
    const phrases = [
      words.of(band === bucket ? 'page.accent-band' : 'page.accent-stray', {
        band: bandOf(band),
        bucket: bandOf(bucket),
      }),
      ...vividOnPage(accent, words),
      uses.length > 0
        ? words.of('page.accent-used', { times: uses.length })
        : words.of('page.accent-unused'),
      echoes.length > 0
        ? words.of('page.accent-echoes', { swatches: echoes.map(nameOf).join(', ') })
        : words.of('page.accent-single'),
      mightRepeat.length > 0
        ? words.of('page.accent-places', { places: mightRepeat.length, inBand })
        : words.of('page.accent-nowhere'),
    ];
    return {
      title: words.of('page.accent', { number: i + 1, name: nameOf(accent.swatch) }),
      told: phrases.join(' · '),
    };
  });
}

/** How vivid an accent is among its neutrals, and what it costs in value. */
function vividOnPage({ among, chroma, seemsLighter }: PlannedAccent, words: SheetWords): string[] {
  const whole = (value: number): string => words.number(Math.abs(value), 0);
  const seems =
    seemsLighter >= 1 ? [words.of('page.accent-seems', { by: whole(seemsLighter) })] : [];
  if (!among) return [words.of('page.accent-alone'), ...seems];
  const cost = among.valueCost;
  const way = Math.abs(cost) < 1 ? 'even' : cost > 0 ? 'lighter' : 'darker';
  return [
    words.of('page.accent-vivid', { chroma: whole(chroma), surround: whole(among.chroma) }),
    words.of(`page.accent-${way}`, { cost: whole(cost) }),
    ...seems,
  ];
}

/** What a swatch is called on the page: by its name, its recipe or its value. */
function swatchOnPage({ name, recipe, lightness }: BoardSwatch, words: SheetWords): string {
  if (name) return name;
  if (recipe) return recipeOnPage(recipe, words);
  const value = munsellValue(Math.min(100, Math.max(0, lightness)));
  return words.of('page.paper-value', { value: words.number(value, 1) });
}
