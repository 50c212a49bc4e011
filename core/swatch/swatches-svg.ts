import { drawing, escaped, tag } from '../base/svg.js';
import type { SwatchFileOptions } from './exchange.js';
import { colourOf, plainDescription, swatchesByBucket } from './swatch-colour.js';
import type { Board, BoardSwatch } from './types.js';

/** Sizes, mm. */
const MARGIN = 8;
const COLUMN = 48;
const GAP = 6;
const SWATCH = { width: COLUMN, height: 14 };
const ROW = 21;
const HEAD = 10;
const TYPE = 3.2;
/** Signs of a name that find room under a swatch. */
const MOST_SIGNS = 26;

/**
 * A board as an SVG drawing at true size, mm: a column a bucket, the darkest first, a rectangle a swatch with its name under it. Each
 * column is a group with the id `band-N`, each rectangle bears the id of the swatch's place on the board, and what is said of a swatch is
 * its title. Colours are sRGB. Presentation attributes only: no scripts, no styles, nothing fetched.
 */
export function swatchesSvg(board: Board, options: SwatchFileOptions = {}): string {
  const { title, describe = plainDescription } = options;
  const columns = swatchesByBucket(board.swatches, board.bands.length);
  const rows = Math.max(1, ...columns.map(({ length }) => length));
  const width = 2 * MARGIN + Math.max(1, columns.length) * (COLUMN + GAP) - GAP;
  const height = 2 * MARGIN + HEAD + rows * ROW - (ROW - SWATCH.height - TYPE - 2);
  const groups = columns.map((column, bucket) => {
    const x = MARGIN + bucket * (COLUMN + GAP);
    const head = words(board.bands[bucket].name, x, MARGIN + TYPE + 1, { 'font-weight': 'bold' });
    const swatches = column.map(({ swatch, place }, row) =>
      drawn(swatch, place, x, MARGIN + HEAD + row * ROW, describe),
    );
    return tag('g', { id: `band-${bucket}` }, head + swatches.join(''));
  });
  return drawing(
    [width, height],
    {},
    (title ? tag('title', {}, escaped(title)) : '') +
      tag('rect', { width, height, fill: '#fff' }) +
      tag('g', { 'font-family': 'sans-serif', 'font-size': TYPE, fill: '#000' }, groups.join('')),
  );
}

function drawn(
  swatch: BoardSwatch,
  place: number,
  x: number,
  y: number,
  describe: (swatch: BoardSwatch) => string,
): string {
  const said = describe(swatch);
  const rect = tag(
    'rect',
    { id: `swatch-${place}`, x, y, ...SWATCH, fill: colourOf(swatch).hex },
    said ? tag('title', {}, escaped(said)) : '',
  );
  return rect + words(swatch.name ?? '', x, y + SWATCH.height + TYPE + 1);
}

function words(
  text: string,
  x: number,
  y: number,
  attributes: Readonly<Record<string, string>> = {},
): string {
  const signs = [...text.replace(/\s+/g, ' ').trim()];
  const shown = signs.length > MOST_SIGNS ? `${signs.slice(0, MOST_SIGNS - 1).join('')}…` : text;
  return shown ? tag('text', { x, y, ...attributes }, escaped(shown)) : '';
}
