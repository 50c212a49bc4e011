import { CoreError, reason, type Reason } from '../base/reason.js';
import { DOCUMENT_LIMITS, faultLine } from '../base/schema.js';
import { alphaOfCss } from '../colour/css.js';
import { labOf, lightnessOf } from '../colour/index.js';
import type { Board, BoardBand, BoardSwatch } from './types.js';
import { rounded } from './swatch-colour.js';

/** What a file is told when swatches are written to it. */
export interface SwatchFileOptions {
  /** What the board is called, plain text. */
  title?: string;
  /** A sentence about a swatch; by default its L*, how sure that is, and the painter's note. */
  describe?: (swatch: BoardSwatch) => string;
}

/** A swatch out of a file. Own files say all that the board knew; of another's file there are name, colour and lightness. */
export type ReadSwatch = Omit<BoardSwatch, 'id' | 'bucket'> &
  Partial<Pick<BoardSwatch, 'id' | 'bucket'>>;

/** What {@link swatchesFromTokens} and {@link swatchesFromCss} found in a file. */
export interface ReadSwatches {
  /** In the order of the board they came from, else of the file. Never empty. */
  swatches: ReadSwatch[];
  /** The bands of the board, when it was written by this package. */
  bands?: BoardBand[];
  /**
   * What was left out or read otherwise than it was meant, and why: codes of {@link SWATCH_FILE_CODES}, `name` being where in the file.
   */
  findings: Reason[];
}

/** Most swatches a board may hold, and most that a file may bring. */
const MOST_SWATCHES = 1000;

/** Most findings that are told one by one. */
const MOST_FINDINGS = 200;

/** Longest CSS colour a board keeps. */
const MOST_CSS = 200;

/** What may be found about one colour of a file; `values.name` is its place there. */
export const SWATCH_FILE_CODES = [
  /** The colour is of no form that is understood (`found`). */
  'swatches.colour-unreadable',
  /** A colour space that the format does not have (`found`), and no colour of sRGB in its stead. */
  'swatches.space-unknown',
  /** A component outside of its range (`found`, `expected`). */
  'swatches.component-range',
  /** It names another (`found`) that the file does not have. */
  'swatches.reference-missing',
  /** It names itself, by others or at once. */
  'swatches.reference-circle',
  /** It names another by more steps than are followed (`limit`). */
  'swatches.reference-far',
  /** A value without a type: the format forbids to guess it. */
  'swatches.type-missing',
  /** A value and a reference at once, or a value with further tokens beside it. */
  'swatches.token-unclear',
  /** Nothing to see: alpha 0. */
  'swatches.transparent',
  /** The same name with another value under another selector: the first one stands. */
  'swatches.again',
  /** What this package had noted of the swatch was changed or is damaged; its colour and name were taken alone. */
  'swatches.own-notes',
  /** So many further findings (`count`). */
  'swatches.more',
] as const;

export type SwatchFileCode = (typeof SWATCH_FILE_CODES)[number];

/**
 * The error of a file from which no swatches can be taken. `name` is `SwatchesError`; `faults` lists what is wrong: `swatches.empty` (no
 * colours in it, with what was found about those that could not be read), `swatches.too-many` (`found`, `limit`), `swatches.no-buckets` (a
 * board without bands), `swatches.wrong-type`, and the codes of any document under `swatches.…` (`not-json-text`, `too-large`, `too-deep`,
 * `forbidden-key` and so on).
 */
export class SwatchesError extends CoreError {
  readonly faults: Reason[];

  constructor(faults: Reason[]) {
    super('SwatchesError', `No swatches can be read: ${faults.map(faultLine).join('; ')}`, {
      count: faults.length,
    });
    this.faults = faults;
  }
}

/** Why one colour of a file cannot be read; told beside its name. */
export class ColourFault {
  constructor(
    readonly code: SwatchFileCode,
    readonly values: Reason['values'] = {},
  ) {}
}

/** A text that is a CSS colour, with something to see, and that a board can keep. @throws {ColourFault} */
export function visibleColour(text: string): string {
  const css = text.trim();
  const unreadable = new ColourFault('swatches.colour-unreadable', { found: css.slice(0, 120) });
  if (css.length > MOST_CSS) throw unreadable;
  let alpha: number;
  try {
    alpha = alphaOfCss(css);
  } catch {
    throw unreadable;
  }
  if (alpha === 0) throw new ColourFault('swatches.transparent');
  return css;
}

/** Refuses a text that is longer than any file of swatches. */
export function expectFileText(text: unknown): string {
  if (typeof text !== 'string')
    throw new SwatchesError([reason('swatches.wrong-type', { path: '$', expected: 'a text' })]);
  const limit = DOCUMENT_LIMITS.characters;
  if (text.length > limit) {
    const values = { path: '$', found: text.length, limit };
    throw new SwatchesError([reason('swatches.too-large', values)]);
  }
  return text;
}

/** @throws {SwatchesError} `swatches.too-many` */
export function expectFewSwatches(found: number): void {
  const values = { path: '$', found, limit: MOST_SWATCHES };
  if (found > MOST_SWATCHES) throw new SwatchesError([reason('swatches.too-many', values)]);
}

/** What was found, or the error of a file without swatches. */
export function readSwatches(
  swatches: ReadSwatch[],
  found: readonly Reason[],
  bands?: BoardBand[],
): ReadSwatches {
  const findings = found.slice(0, MOST_FINDINGS);
  if (found.length > MOST_FINDINGS)
    findings.push(reason('swatches.more', { count: found.length - MOST_FINDINGS }));
  if (swatches.length === 0)
    throw new SwatchesError([reason('swatches.empty', { path: '$' }), ...findings]);
  expectFewSwatches(swatches.length);
  return { swatches, findings, ...(bands ? { bands } : {}) };
}

/** A swatch of a colour out of a file. @throws RangeError when `css` is no CSS colour */
export function swatchOfColour(css: string, name: string, note?: string): ReadSwatch {
  const [L, a, b] = labOf(css);
  const label = shortened(name.replace(/\s+/g, ' ').trim(), 120);
  return {
    lightness: rounded(lightnessOf(css), 4),
    css,
    ...(label ? { name: label } : {}),
    ...(note ? { note: shortened(note, 2000) } : {}),
    lab: [Math.min(100, Math.max(0, rounded(L, 4))), rounded(a, 4), rounded(b, 4)],
    from: 'data',
  };
}

/** At most so many characters, none cut in half. */
const shortened = (text: string, most: number): string =>
  text.length <= most ? text : [...text].slice(0, most).join('');

/** A board with the swatches of a file on it. */
export interface JoinedBoard {
  board: Board;
  /** Those that came, as they are on the board now. */
  added: BoardSwatch[];
  /** How many lay there already, alike in everything. */
  present: number;
}

/**
 * A board with the swatches of a file behind those it has. A swatch that says its bucket keeps it when the file's board had as many
 * buckets; all others go where their lightness lies. Ids that are taken become new ones, and swatches that lie there already do not come
 * twice. A board without bands takes those of the file. What is given is not changed.
 *
 * @throws {SwatchesError} `swatches.too-many`, `swatches.no-buckets`
 */
export function boardWithSwatches(board: Board, read: ReadSwatches): JoinedBoard {
  const bands = board.bands.length > 0 ? board.bands : (read.bands ?? []);
  if (bands.length === 0) throw new SwatchesError([reason('swatches.no-buckets', { path: '$' })]);
  const keepsBuckets = read.bands?.length === bands.length;
  const lying = new Map(board.swatches.map((swatch) => [swatch.id, swatch]));
  const added: BoardSwatch[] = [];
  let present = 0;
  for (const swatch of read.swatches) {
    const bucket =
      keepsBuckets && swatch.bucket !== undefined && swatch.bucket < bands.length
        ? swatch.bucket
        : bucketOf(bands, swatch.lightness);
    const old = swatch.id === undefined ? undefined : lying.get(swatch.id);
    if (old && alike(old, { ...swatch, id: old.id, bucket })) {
      present += 1;
      continue;
    }
    const id = swatch.id !== undefined && !old ? swatch.id : freeId(lying);
    const placed = { ...structuredClone(swatch), id, bucket };
    lying.set(id, placed);
    added.push(placed);
  }
  expectFewSwatches(lying.size);
  return { board: { bands, swatches: [...board.swatches, ...added] }, added, present };
}

/** The bucket a lightness lies in, by the floors. */
const bucketOf = (bands: readonly BoardBand[], lightness: number): number =>
  bands.slice(1).filter(({ floor }) => lightness >= floor).length;

function freeId(taken: ReadonlyMap<string, unknown>): string {
  let number = taken.size + 1;
  while (taken.has(`swatch-${number}`)) number += 1;
  return `swatch-${number}`;
}

/** Whether two things say the same, whatever the order of their fields. */
export function alike(one: unknown, other: unknown): boolean {
  const text = (value: unknown): string =>
    JSON.stringify(
      value instanceof Object && !Array.isArray(value)
        ? Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1))
        : value,
    ) ?? '';
  return text(one) === text(other);
}
