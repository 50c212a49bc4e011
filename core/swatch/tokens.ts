import type { Board, BoardSwatch } from './types.js';
import type { SwatchFileOptions } from './exchange.js';
import { colourOf, labFigures, plainDescription, swatchesByBucket } from './swatch-colour.js';

/** The key under which this package notes what the format has no word for. */
export const OWN_KEY = 'tonewell';

/** Media type of a file of design tokens (Format module, "Media type"); its name ends in `.tokens.json`. */
export const DESIGN_TOKENS_TYPE = 'application/design-tokens+json';

/** A file of design tokens: JSON as it stands. */
export type DesignTokens = Record<string, unknown>;

/**
 * A board as design tokens: a group a bucket, a token of the type `color` a swatch.
 *
 * The colour is sRGB with `hex` beside it; where sRGB cannot show it, CIELAB (D50, as the format has it), and `hex` is the nearest sRGB of
 * the same lightness. `$extensions.tonewell` of a token holds the swatch as the board has it and its place among all swatches, that of the
 * file holds the bands; {@link swatchesFromTokens} reads both, so nothing is lost.
 *
 * Source: Design Tokens Community Group, Format Module and Color Module 2025.10.
 */
export function designTokensOf(board: Board, options: SwatchFileOptions = {}): DesignTokens {
  const { title, describe = plainDescription } = options;
  const names = new Names();
  const groups = board.bands.map(({ name }, bucket): [string, string] => [
    names.free(name, `band-${bucket}`),
    name,
  ]);
  const buckets = swatchesByBucket(board.swatches, board.bands.length);
  return {
    $type: 'color',
    ...(title ? { $description: title } : {}),
    $extensions: { [OWN_KEY]: { bands: structuredClone(board.bands) } },
    ...Object.fromEntries(groups.map(([key], bucket) => [key, groupOf(buckets[bucket], describe)])),
  };
}

function groupOf(
  swatches: readonly { swatch: BoardSwatch; place: number }[],
  describe: (swatch: BoardSwatch) => string,
): DesignTokens {
  const names = new Names();
  return Object.fromEntries(
    swatches.map(({ swatch, place }) => [
      names.free(swatch.name, swatch.id),
      {
        $type: 'color',
        $value: colorValueOf(swatch),
        $description: describe(swatch),
        $extensions: { [OWN_KEY]: { place, swatch: structuredClone(swatch) } },
      },
    ]),
  );
}

/** The value of a token of the type `color` (Color Module, "Format"). */
export interface ColorValue {
  colorSpace: string;
  components: (number | 'none')[];
  alpha: number;
  hex: string;
}

/** What a swatch looks like, as the value of a token. */
export function colorValueOf(swatch: BoardSwatch): ColorValue {
  const { lab, hex, srgb } = colourOf(swatch);
  return srgb
    ? { colorSpace: 'srgb', components: srgb, alpha: 1, hex }
    : { colorSpace: 'lab', components: labFigures(lab), alpha: 1, hex };
}

/** Keys that would reach the machinery of JavaScript objects in a program that is not careful. */
const UNSAFE = new Set(['__proto__', 'constructor', 'prototype']);

/**
 * A text as the name of a token or group: no `{`, `}` or `.`, no `$` in front (Format Module, "Character restrictions"), one line; empty
 * when nothing is left.
 */
export function tokenName(text: string): string {
  const name = text
    .replace(/[{}.\s]+/g, ' ')
    .replace(/^[$\s]+/, '')
    .trim();
  return UNSAFE.has(name) ? '' : name;
}

/** Names within one group, each once; names that differ in case alone count as the same, as the format advises. */
class Names {
  readonly #taken = new Set<string>();

  free(wanted: string | undefined, otherwise: string): string {
    const name = tokenName(wanted ?? '') || tokenName(otherwise) || 'swatch';
    let free = name;
    for (let number = 2; this.#taken.has(free.toLowerCase()); number++) free = `${name} ${number}`;
    this.#taken.add(free.toLowerCase());
    return free;
  }
}
