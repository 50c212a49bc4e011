import { finish, type Kernel } from '../base/kernel.js';
import { reason, type Reason } from '../base/reason.js';
import { documentFaults, inKeyOrder } from '../base/schema.js';
import { deltaE2000, labOf } from '../colour/index.js';
import {
  alike,
  ColourFault,
  expectFewSwatches,
  readSwatches,
  SwatchesError,
  swatchOfColour,
  type ReadSwatch,
  type ReadSwatches,
  visibleColour,
} from './exchange.js';
import { readJson } from './json.js';
import { parseBoard } from './parse.js';
import { SWATCH_SCHEMA } from './schema.js';
import { colorValueOf, OWN_KEY, tokenName } from './tokens.js';
import { isEntry, TokenTree, type Entry, type Token } from './token-tree.js';
import type { BoardBand, BoardSwatch } from './types.js';

/**
 * The colours of a file of design tokens as swatches, with what this package noted in it.
 *
 * Aliases and JSON Pointers are followed, groups extended, types inherited. Colours may stand in any space of the format, and as a CSS
 * colour in a text, as earlier drafts had it. Alpha is laid over white. A colour that was changed since it was written by this package is
 * taken as it is now: notes about the paint that it no longer is are dropped.
 *
 * Source: Design Tokens Community Group, Format Module and Color Module 2025.10.
 *
 * @param file - JSON text of at most 4 000 000 characters, or what `JSON.parse` gave.
 * @returns At least one swatch; one colour that cannot be read does not keep the others back, `findings` names it.
 * @throws {SwatchesError}
 */
export function swatchesFromTokens(file: unknown): ReadSwatches {
  return finish(swatchesFromTokensKernel(file));
}

/** After so many tokens reading may be paused. */
const AT_ONCE = 16;

/** {@link swatchesFromTokens} in slices. */
export function* swatchesFromTokensKernel(file: unknown): Kernel<ReadSwatches> {
  const { parsed, fault } = readJson(file, 'swatches');
  if (fault) throw new SwatchesError([fault]);
  yield 0.1;
  const faults = documentFaults({ type: 'object' }, parsed, 'swatches');
  if (!faults.empty) throw new SwatchesError(faults.list());
  yield 0.2;
  const root = parsed as Entry;
  const tree = yield* TokenTree.of(root);
  const findings: Reason[] = [...tree.findings];
  const found: { swatch: ReadSwatch; place: number }[] = [];
  let count = 0;
  for (const token of tree.tokens) {
    if (count++ % AT_ONCE === 0) yield 0.3 + (0.7 * count) / tree.size;
    try {
      const one = readToken(tree, token, findings);
      if (one) found.push({ ...one, place: one.place ?? Infinity });
      expectFewSwatches(found.length);
    } catch (fault) {
      if (!(fault instanceof ColourFault)) throw fault;
      findings.push(reason(fault.code, { name: nameOf(token), ...fault.values }));
    }
  }
  // The items of a group are without order in this format: own files say the place of each.
  found.sort((a, b) => (a.place === b.place ? 0 : a.place - b.place));
  return readSwatches(
    found.map(({ swatch }) => swatch),
    findings,
    bandsOf(root, findings),
  );
}

const nameOf = ({ path }: Token): string => path.join('.');

/** A token as a swatch; nothing for tokens of other types. @throws {ColourFault} */
function readToken(
  tree: TokenTree,
  token: Token,
  findings: Reason[],
): { swatch: ReadSwatch; place?: number } | undefined {
  const type = tree.typeOf(token);
  if (type === undefined && looksLikeColour(token.entry.$value))
    throw new ColourFault('swatches.type-missing');
  if (type !== 'color') return undefined;
  const own = ownNotes(token.entry);
  const last = token.path.at(-1) as string;
  // As it was written, to the letter: what most tokens of an own file are, and quick to tell.
  const untouched = own && alike(token.entry.$value, colorValueOf(own.swatch));
  const css = untouched ? '' : cssOfValue(tree, tree.valueOf(token));
  if (own && (untouched || sameColour(own.swatch, css))) {
    const name = isNameOf(own.swatch, last) ? {} : { name: last.slice(0, 120) };
    return { swatch: { ...own.swatch, ...name }, place: own.place };
  }
  if (hasOwnNotes(token.entry))
    findings.push(reason('swatches.own-notes', { name: nameOf(token) }));
  const name = own ? last : token.path.filter((part) => part !== '$root').join(' ');
  const words = own ? own.swatch.note : token.entry.$description;
  const swatch = swatchOfColour(css, name, typeof words === 'string' ? words : undefined);
  return { swatch, place: own?.place };
}

const looksLikeColour = (value: unknown): boolean => isEntry(value) && 'colorSpace' in value;

/** Whether a token still bears the name it was given for a swatch, with or without a number behind it. */
function isNameOf({ name, id }: BoardSwatch, written: string): boolean {
  const given = tokenName(name ?? '') || tokenName(id) || 'swatch';
  return written.startsWith(given) && /^( \d+)?$/.test(written.slice(given.length));
}

/* What this package noted. */

const hasOwnNotes = ({ $extensions }: Entry): boolean =>
  isEntry($extensions) && Object.hasOwn($extensions, OWN_KEY);

function ownNotes(entry: Entry): { swatch: BoardSwatch; place?: number } | undefined {
  const notes = hasOwnNotes(entry) ? (entry.$extensions as Entry)[OWN_KEY] : undefined;
  if (!isEntry(notes) || !documentFaults(SWATCH_SCHEMA, notes.swatch, 'swatches').empty)
    return undefined;
  const swatch = inKeyOrder(SWATCH_SCHEMA, notes.swatch) as BoardSwatch;
  return typeof notes.place === 'number' ? { swatch, place: notes.place } : { swatch };
}

function bandsOf(root: Entry, findings: Reason[]): BoardBand[] | undefined {
  if (!hasOwnNotes(root)) return undefined;
  try {
    const { bands } = (root.$extensions as Entry)[OWN_KEY] as { bands?: unknown };
    return parseBoard({ bands, swatches: [] }).bands;
  } catch {
    findings.push(reason('swatches.own-notes', { name: '$' }));
    return undefined;
  }
}

/** CIEDE2000 below which a colour counts as the one that was written: other programs round, and no eye sees it. */
const SAME_COLOUR = 0.5;

/** Whether a token shows what was written for a swatch. */
function sameColour(swatch: BoardSwatch, css: string): boolean {
  const { colorSpace, components, alpha } = colorValueOf(swatch);
  return deltaE2000(labOf(cssInSpace(colorSpace, components, alpha)), labOf(css)) < SAME_COLOUR;
}

/* Values of the type `color`. */

type Range = readonly [low: number, high: number];
const UNIT: Range = [0, 1];
const PERCENT: Range = [0, 100];
const ANY: Range = [-Infinity, Infinity];
const POSITIVE: Range = [0, Infinity];
/** Up to 360, which itself is not in it. */
const HUE: Range = [0, 360 - 1e-12];
const RGB = [UNIT, UNIT, UNIT] as const;

/** The spaces of the Color Module with the ranges of their components, and how CSS writes them (`#` stands for a component). */
const SPACES: Readonly<Record<string, { css: string; ranges: readonly Range[] }>> = {
  srgb: { css: 'color(srgb # # #', ranges: RGB },
  'srgb-linear': { css: 'color(srgb-linear # # #', ranges: RGB },
  'display-p3': { css: 'color(display-p3 # # #', ranges: RGB },
  'a98-rgb': { css: 'color(a98-rgb # # #', ranges: RGB },
  'prophoto-rgb': { css: 'color(prophoto-rgb # # #', ranges: RGB },
  rec2020: { css: 'color(rec2020 # # #', ranges: RGB },
  'xyz-d65': { css: 'color(xyz-d65 # # #', ranges: RGB },
  'xyz-d50': { css: 'color(xyz-d50 # # #', ranges: RGB },
  hsl: { css: 'hsl(# #% #%', ranges: [HUE, PERCENT, PERCENT] },
  hwb: { css: 'hwb(# #% #%', ranges: [HUE, PERCENT, PERCENT] },
  lab: { css: 'lab(# # #', ranges: [PERCENT, ANY, ANY] },
  lch: { css: 'lch(# # #', ranges: [PERCENT, POSITIVE, HUE] },
  oklab: { css: 'oklab(# # #', ranges: [UNIT, ANY, ANY] },
  oklch: { css: 'oklch(# # #', ranges: [UNIT, POSITIVE, HUE] },
};

const unreadable = (found: unknown): ColourFault =>
  new ColourFault('swatches.colour-unreadable', {
    found: (typeof found === 'string' ? found : (JSON.stringify(found) ?? 'nothing')).slice(0, 120),
  });

/** The value of a token as a CSS colour. @throws {ColourFault} */
function cssOfValue(tree: TokenTree, value: unknown): string {
  if (typeof value === 'string') return visibleColour(value);
  if (!isEntry(value)) throw unreadable(value);
  const [space, written, alpha = 1, hex] = ['colorSpace', 'components', 'alpha', 'hex'].map((key) =>
    tree.partOf(value, key),
  );
  const isHex = typeof hex === 'string' && /^#[0-9a-f]{6}$/i.test(hex);
  if (typeof space !== 'string' || !Array.isArray(written) || (hex !== undefined && !isHex))
    throw unreadable(value);
  inRange(alpha, UNIT);
  if (Object.hasOwn(SPACES, space)) return cssInSpace(space, tree.itemsOf(written), alpha);
  if (!isHex) throw new ColourFault('swatches.space-unknown', { found: space.slice(0, 120) });
  return hex;
}

function cssInSpace(space: string, components: unknown[], alpha: unknown): string {
  const { css, ranges } = SPACES[space];
  if (components.length !== 3) throw unreadable(components);
  const parts = components.map((part, i) => (part === 'none' ? part : inRange(part, ranges[i])));
  let next = 0;
  const text = css.replaceAll('#', () => String(parts[next++]));
  return visibleColour(alpha === 1 ? `${text})` : `${text} / ${String(alpha)})`);
}

/** @throws {ColourFault} when it is no number, or outside */
function inRange(value: unknown, [low, high]: Range): number {
  if (typeof value !== 'number') throw unreadable(value);
  if (value >= low && value <= high) return value;
  const expected = high === Infinity ? `${low}…` : `${low}…${Math.round(high)}`;
  throw new ColourFault('swatches.component-range', { found: value, expected });
}
