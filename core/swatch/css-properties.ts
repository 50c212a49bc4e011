import { wrongType } from '../base/check.js';
import type { SwatchFileOptions } from './exchange.js';
import { colourOf, labFigures, plainDescription, swatchesByBucket } from './swatch-colour.js';
import type { Board, BoardSwatch } from './types.js';

/** What {@link customPropertiesOf} may be told. */
export interface CustomPropertiesOptions extends SwatchFileOptions {
  /** What every name begins with behind its two hyphens; nothing when absent. What a name may not hold is left out of it. */
  prefix?: string;
}

/**
 * A board as CSS custom properties of `:root`, darkest bucket first: `--dark-warm-shadow: #3a2f2b;`. Each is a colour of its own:
 * `#rrggbb`, or `lab()` where sRGB cannot show it. What was said of a swatch stands behind it as a comment.
 *
 * A name is made of the band's name and the swatch's: small letters, marks taken off, what a CSS identifier may not hold as a hyphen. A name
 * that is met again bears a number from 2 in the board's order, so a swatch that comes later renames none before it.
 *
 * Source: CSS Custom Properties for Cascading Variables 1; CSS Syntax 3 (identifiers); CSS Color 4.
 */
export function customPropertiesOf(board: Board, options: CustomPropertiesOptions = {}): string {
  const { title, describe = plainDescription, prefix = '' } = options;
  if (typeof prefix !== 'string') throw wrongType('options.prefix', prefix, 'a text');
  const names = propertyNames(board, prefix);
  const blocks = swatchesByBucket(board.swatches, board.bands.length).map((swatches, bucket) => {
    const { name, floor, ceiling } = board.bands[bucket];
    const lines = swatches.map(({ swatch, place }) => {
      const said = describe(swatch);
      return `  ${names[place]}: ${cssOf(swatch)};${said ? ` ${comment(said)}` : ''}`;
    });
    return [`  ${comment(`${name} L* ${floor}…${ceiling}`.trim())}`, ...lines].join('\n');
  });
  const head = title ? `${comment(title)}\n` : '';
  return `${head}:root {\n${blocks.join('\n\n')}\n}\n`;
}

/** A text as a comment; it cannot end it. */
const comment = (text: string): string =>
  `/* ${text.replace(/\s+/g, ' ').replaceAll('*/', '* /')} */`;

function cssOf(swatch: BoardSwatch): string {
  const { lab, hex, srgb } = colourOf(swatch);
  return srgb ? hex : `lab(${labFigures(lab).join(' ')})`;
}

/** The name of the custom property of each swatch, in the board's order. */
function propertyNames({ bands, swatches }: Board, prefix: string): string[] {
  const taken = new Set<string>();
  const start = identOf(prefix);
  return swatches.map(({ id, name, bucket }) => {
    const own = identOf(name ?? '') || identOf(id) || 'swatch';
    const parts = [start, identOf(bands[bucket].name), own].filter(Boolean);
    const wanted = `--${parts.join('-')}`;
    let free = wanted;
    for (let number = 2; taken.has(free); number++) free = `${wanted}-${number}`;
    taken.add(free);
    return free;
  });
}

/**
 * A text as a part of an identifier. Letters outside ASCII stay when the newest draft of CSS Syntax 3 takes them as they are, so no escapes
 * are needed.
 */
export function identOf(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{Mn}+/gu, '')
    .normalize('NFC')
    .toLowerCase()
    .replace(NOT_IDENT, '-')
    .replace(/-{2,}/g, '-')
    .replace(/^-|-$/g, '');
}

/** What is neither a letter nor a digit, and letters that CSS Syntax 3 ("non-ASCII ident code point") leaves out. */
const NOT_IDENT = new RegExp(
  '[^\\p{L}\\p{N}\\p{Mc}]|(?![\\x00-\\x7f\\xb7\\xc0-\\xd6\\xd8-\\xf6\\xf8-\\u037d\\u037f-\\u1fff\\u2070-\\u218f\\u2c00-\\u2fef' +
    '\\u3001-\\ud7ff\\uf900-\\ufdcf\\ufdf0-\\ufffd\\u{10000}-\\u{10ffff}]).',
  'gsu',
);
