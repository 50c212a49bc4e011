import {
  bandsFromLimits,
  lightnessOfMunsell,
  parseBoard,
  type Board,
  type BoardBand,
  type BoardSwatch,
  type Lab,
} from '../shared/core.js';
import { freeId } from './board-moves.js';

/** Names of the bands when the page gives none. */
const USUAL_NAMES = ['dark', 'middle', 'light'];

/** Reads a CSS colour; throws a `RangeError` where it is none. */
export type ReadColour = (css: string) => Lab;

/** One swatch as written in the page: `<data value="#8a6f5c" data-bucket="1">name</data>`. */
export interface WrittenSwatch {
  css: string;
  name: string;
  /** The number of its band, or the band's name; where it is missing the lightness decides. */
  bucket?: string;
  note?: string;
  accent?: boolean;
  wet?: boolean;
}

/**
 * The bands that attributes describe.
 *
 * @param bands - Names parted by spaces, or by commas where a name has spaces; or JSON: a list of names or of bands.
 * @param limits - L* between the bands, ascending. Where they are missing, the nine steps of a painter's scale (Munsell values
 * 0.5..9.5) are parted evenly and rounded to L*; for three bands that gives 36 and 66.
 * @param paper - L* of the bare paper.
 * @param usual - names of the bands when the page gives none.
 * @throws {BoardError | RangeError | SyntaxError} when the attributes do not make bands.
 */
export function bandsFromAttributes(
  bands: string,
  limits: string,
  paper: number,
  usual: readonly string[] = USUAL_NAMES,
): BoardBand[] {
  const written = bands.trim();
  let names = [...usual];
  if (written.startsWith('[')) {
    const list = JSON.parse(written) as unknown[];
    if (list.some((item) => typeof item !== 'string'))
      return parseBoard({ bands: list, swatches: [] }).bands;
    names = list as string[];
  } else if (written !== '') {
    names = written.split(written.includes(',') ? /\s*,\s*/ : /\s+/).filter((name) => name !== '');
  }
  const given = limits
    .split(/[\s,]+/)
    .filter((limit) => limit !== '')
    .map(Number);
  const between = given.length > 0 ? given : evenLimits(names.length);
  return parseBoard({
    bands: bandsFromLimits(names, between, Math.max(paper, between.at(-1) ?? 0)),
    swatches: [],
  }).bands;
}

function evenLimits(count: number): number[] {
  return Array.from({ length: Math.max(0, count - 1) }, (_, i) =>
    Math.round(lightnessOfMunsell(0.5 + (9 * (i + 1)) / count)),
  );
}

/** The band a lightness falls in, by floors. */
export function bucketAt(bands: readonly BoardBand[], lightness: number): number {
  return Math.max(0, bands.slice(1).filter(({ floor }) => lightness >= floor).length);
}

/**
 * A swatch of a CSS colour.
 *
 * @throws {RangeError} when `css` is no CSS colour.
 */
export function swatchOfCss(
  css: string,
  rest: Pick<BoardSwatch, 'id' | 'bucket' | 'name' | 'from'>,
  labOf: ReadColour,
): BoardSwatch {
  const { id, bucket, name, from } = rest;
  const [L, a, b] = labOf(css);
  const round = (value: number): number => Math.round(value * 1e4) / 1e4;
  const lightness = round(Math.min(100, Math.max(0, L)));
  return {
    id,
    bucket,
    lightness,
    css: css.trim(),
    ...(name ? { name } : {}),
    lab: [lightness, round(a), round(b)],
    ...(from ? { from } : {}),
  };
}

/** Swatches of what is written in the page; colours and buckets that cannot be understood are left out and named. */
export function swatchesFromContent(
  written: readonly WrittenSwatch[],
  bands: readonly BoardBand[],
  labOf: ReadColour,
): { swatches: BoardSwatch[]; unknown: string[] } {
  const swatches: BoardSwatch[] = [];
  const unknown: string[] = [];
  for (const { css, name, bucket, note, accent, wet } of written) {
    const at = bucketOf(bucket, css, bands, labOf);
    try {
      if (at === undefined) throw new RangeError(`no bucket ${bucket}`);
      const rest = { id: freeId(swatches), bucket: at, name: name.trim().slice(0, 120) };
      const swatch = swatchOfCss(css, { ...rest, from: 'data' }, labOf);
      swatches.push({
        ...swatch,
        ...(note ? { note } : {}),
        ...(accent ? { accent } : {}),
        ...(wet ? { wet } : {}),
      });
    } catch {
      unknown.push(name.trim() || css || '?');
    }
  }
  return { swatches, unknown };
}

function bucketOf(
  bucket: string | undefined,
  css: string,
  bands: readonly BoardBand[],
  labOf: ReadColour,
): number | undefined {
  const text = bucket?.trim() ?? '';
  if (text === '') {
    try {
      return bands.length > 0 ? bucketAt(bands, labOf(css)[0]) : undefined;
    } catch {
      return 0; // the colour itself is told as unknown
    }
  }
  const named = bands.findIndex(({ name }) => name === text);
  if (named >= 0) return named;
  const number = Number(text);
  return Number.isInteger(number) && number >= 0 && number < bands.length ? number : undefined;
}

/** The board with other bands; swatches stay in their buckets as far as there are any. */
export function withBands({ swatches }: Board, bands: readonly BoardBand[]): Board {
  const last = bands.length - 1;
  return {
    bands: bands.map((band) => ({ ...band })),
    swatches: swatches.map((each) => (each.bucket > last ? { ...each, bucket: last } : each)),
  };
}

/** Whether two boards are alike in everything. */
export function sameBoard(one: Board, other: Board): boolean {
  return (
    one.swatches.length === other.swatches.length && JSON.stringify(one) === JSON.stringify(other)
  );
}

/** The L* between neighbouring bands, as a plan keeps them. */
export function limitsOf(bands: readonly BoardBand[]): number[] {
  return bands.slice(1).map(({ floor }) => floor);
}

/** Whether every band begins where the one before it ends, so that one limit parts them. */
export function bandsMeet(bands: readonly BoardBand[]): boolean {
  return bands.every((band, i) => i === 0 || band.floor === bands[i - 1].ceiling);
}

/** The board under a teacher's rules: an allowed spread where a band has none of its own, and locked bands. */
export function ruledBoard(
  board: Board,
  { tolerance, locked }: { tolerance?: number; locked: boolean },
): Board {
  if (tolerance === undefined && !locked) return board;
  const bands = board.bands.map((band) => ({
    ...band,
    ...(tolerance !== undefined && band.spread === undefined ? { spread: tolerance } : {}),
    ...(locked ? { locked: true } : {}),
  }));
  return { ...board, bands };
}
