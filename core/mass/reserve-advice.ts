import { expectObject, wrongType } from '../base/check.js';
import { reason, type Reason } from '../base/reason.js';
import type { Spot } from '../base/types.js';
import { expectMasses } from './check.js';
import { isSpot, regionAt, type Unmet } from './edges.js';
import type { Mark, Masses, Reserve, ReserveOverrule } from './types.js';

/** How a light is kept: bare paper painted around, tinted pale first, masked; `paint` gives it up. */
export type ReserveMethod = ReserveOverrule['method'];

/** One light and how it is kept. */
export interface KeptLight {
  /** The mass that it is, or in which the mark lies. */
  region: number;
  /** Place in the list of marks; absent for a mass. */
  mark?: number;
  /** Pixels. */
  area: number;
  /** Share of the picture (0..1). */
  share: number;
  method: ReserveMethod;
  /** Whether the painter said so; else it was proposed. */
  asked: boolean;
  reasons: Reason[];
}

/** What becomes of the lights of a picture. */
export interface ReserveAdvice {
  /** Masses in the order of the reserves, then marks in their order. */
  lights: KeptLight[];
  /** Share of the picture that is bare paper at the end: left bare or masked (0..1). */
  bareShare: number;
  /** Share that is a pale tint at the end. */
  tintedShare: number;
  /** What holds for the whole: each code once. */
  cautions: Reason[];
  /** Overrules that no longer make sense, by their place in the list. */
  unmet: Unmet[];
}

/** What {@link reserveAdvice} may be told. */
export interface ReserveAdviceOptions {
  /** Those of the kind `reserve` count, the last one about a light; others are left alone. Spots are fractions of the picture. */
  overrules?: { kind: string }[];
  /** The light marks that are kept: small reserves, masked unless the painter says otherwise. */
  marks?: Mark[];
}

const METHODS: readonly unknown[] = ['bare', 'tint', 'mask', 'paint'];

const isReserveOverrule = (overrule: { kind: string }): overrule is ReserveOverrule => {
  const { kind, at, method } = overrule as Partial<ReserveOverrule>;
  return kind === 'reserve' && isSpot(at) && METHODS.includes(method);
};

/**
 * How each light is kept, how much paper stays bare, and what to mind. Without a word of the painter's a reserve that is too narrow to
 * paint around is masked, others stay bare. A mark is meant by a spot inside the disc of its area; masses are meant by any other spot.
 *
 * Codes of a light: `reserve.narrow` (`widthPx`: too narrow to paint around; masking is proposed), `reserve.narrow-bare` (`widthPx`: the
 * painter paints around it all the same), `reserve.tint-lightest` (it ends no lighter than its tint), `reserve.tint-below` (layers laid
 * over the tint's border show it through and lean to its hue), `reserve.given-up` (`share`: no paint of watercolour brings the paper back).
 * Cautions, once each: `reserve.mask-dry-paper` (masking goes on bone dry paper and comes off dry paint only), `reserve.mask-air` (air the
 * room, follow the label of the bottle), `reserve.tint-dry-first` (a tint dries before anything is laid beside it), `reserve.none` (no paper
 * is left at all). All are common practice, no source.
 * Codes of what is not met: `reserve.outside`, `reserve.no-light` (`region`: that mass is not a reserve).
 *
 * @param reserves as {@link reservesOf} gives them
 * @throws TypeError naming the argument
 */
export function reserveAdvice(
  masses: Masses,
  reserves: Reserve[],
  options: ReserveAdviceOptions = {},
): ReserveAdvice {
  expectMasses('masses', masses);
  if (!Array.isArray(reserves)) throw wrongType('reserves', reserves, 'an array');
  expectObject('options', options);
  const { overrules = [], marks = [] } = options;
  if (!Array.isArray(overrules)) throw wrongType('options.overrules', overrules, 'an array');
  if (!Array.isArray(marks)) throw wrongType('options.marks', marks, 'an array');
  const { asked, askedMarks, unmet } = wordsOf(masses, reserves, overrules, marks);
  const pixels = masses.labels.length;
  const lights: KeptLight[] = [
    ...reserves.map((reserve): KeptLight => {
      const { region, area, mask } = reserve;
      const word = asked.get(region);
      const method = word ?? (mask ? 'mask' : 'bare');
      const share = area / pixels;
      const reasons = [...narrowReasons(reserve, method), ...methodReasons(method, share)];
      return { region, area, share, method, asked: word !== undefined, reasons };
    }),
    ...marks.map((mark, i): KeptLight => {
      const { region, area } = mark;
      const word = askedMarks.get(i);
      const method = word ?? 'mask';
      const share = area / pixels;
      const reasons = methodReasons(method, share);
      return { region, mark: i, area, share, method, asked: word !== undefined, reasons };
    }),
  ];
  return { lights, ...sharesOf(lights, pixels), cautions: cautionsOf(lights), unmet };
}

/** What the painter said of masses and marks. */
function wordsOf(
  masses: Masses,
  reserves: Reserve[],
  overrules: { kind: string }[],
  marks: Mark[],
): { asked: Map<number, ReserveMethod>; askedMarks: Map<number, ReserveMethod>; unmet: Unmet[] } {
  const asked = new Map<number, ReserveMethod>();
  const askedMarks = new Map<number, ReserveMethod>();
  const unmet: Unmet[] = [];
  const lights = new Set(reserves.map(({ region }) => region));
  overrules.forEach((overrule, i) => {
    if (!isReserveOverrule(overrule)) return;
    const mark = markAt(masses, marks, overrule.at);
    const region = regionAt(masses, overrule.at);
    if (mark >= 0) askedMarks.set(mark, overrule.method);
    else if (lights.has(region)) asked.set(region, overrule.method);
    else {
      const why = region < 0 ? reason('reserve.outside') : reason('reserve.no-light', { region });
      unmet.push({ overrule: i, reason: why });
    }
  });
  return { asked, askedMarks, unmet };
}

/** The mark whose disc holds a spot, the nearest of several; -1 without one. */
function markAt({ map: { width, height } }: Masses, marks: Mark[], [x, y]: Spot): number {
  let best = -1;
  let least = Infinity;
  marks.forEach((mark, i) => {
    const distance2 = (x * width - mark.x) ** 2 + (y * height - mark.y) ** 2;
    if (distance2 > Math.max(1, mark.area / Math.PI) || distance2 >= least) return;
    best = i;
    least = distance2;
  });
  return best;
}

function narrowReasons({ mask, narrowestPx }: Reserve, method: ReserveMethod): Reason[] {
  if (!mask || method === 'paint' || method === 'tint') return [];
  const code = method === 'mask' ? 'reserve.narrow' : 'reserve.narrow-bare';
  return [reason(code, { widthPx: narrowestPx })];
}

function methodReasons(method: ReserveMethod, share: number): Reason[] {
  if (method === 'tint') return [reason('reserve.tint-lightest'), reason('reserve.tint-below')];
  return method === 'paint' ? [reason('reserve.given-up', { share })] : [];
}

/** Marks lie in masses: one in a mass that is kept the same way is not counted twice. */
function sharesOf(lights: KeptLight[], pixels: number): { bareShare: number; tintedShare: number } {
  const methods = new Map<number, ReserveMethod>();
  for (const { region, mark, method } of lights)
    if (mark === undefined) methods.set(region, method);
  let bare = 0;
  let tinted = 0;
  for (const { region, mark, area, method } of lights) {
    const about = mark === undefined ? undefined : methods.get(region);
    bare += area * (Number(staysBare(method)) - Number(staysBare(about)));
    tinted += area * (Number(method === 'tint') - Number(about === 'tint'));
  }
  return { bareShare: bare / pixels, tintedShare: tinted / pixels };
}

const staysBare = (method?: ReserveMethod): boolean => method === 'bare' || method === 'mask';

function cautionsOf(lights: KeptLight[]): Reason[] {
  const has = (method: ReserveMethod): boolean => lights.some((light) => light.method === method);
  const cautions: Reason[] = [];
  if (has('mask')) cautions.push(reason('reserve.mask-dry-paper'), reason('reserve.mask-air'));
  if (has('tint')) cautions.push(reason('reserve.tint-dry-first'));
  if (!has('mask') && !has('bare')) cautions.push(reason('reserve.none'));
  return cautions;
}
