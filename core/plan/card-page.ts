import { expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import { drawing, tag } from '../base/svg.js';
import { text, wrapped } from './sheet-draw.js';
import { SHEET_SIZES, type SheetPaper } from './sheet.js';

/** One grey of the card. */
export interface CardField {
  /** L* of the limit it stands for, dry. */
  limit: number;
  /** What is written under it, in up to two lines. */
  label: string;
  note?: string;
}

/** What a card's page is made of. */
export interface CardPageOptions {
  /** A4 when absent. */
  paper?: SheetPaper;
  title: string;
  /** What to do: a paragraph each. */
  how: readonly string[];
  /** Beside the line that proves the size. */
  scale: string;
}

/** A field's side: a broad brush fills it in a stroke or two. Common practice, no source. */
export const CARD_FIELD_MM = 40;
/** What an office punch makes (ISO 838: 6 mm). */
export const CARD_HOLE_MM = 6;
/** The line that proves that a page was printed at its size. */
export const CARD_SCALE_MM = 100;
const MARGIN = 12;
const LABELS = 13;
const BETWEEN = 3;
const LINE = 4.6;
/** Faint, so that no line shows through a wash. */
const FAINT = { fill: 'none', stroke: '#a0a0a0', 'stroke-width': 0.2 };

/**
 * The painter's own value card as a page at true size, SVG in mm: a strip to cut out with a field for the grey of each limit, where to punch its
 * hole, and the figures. Fields stand from the darkest at the left, in rows where a page is too narrow. It is printed on the paper that
 * is painted on, or traced on it.
 *
 * @param fields one for each limit, 1..8
 * @throws TypeError, RangeError naming the argument
 */
export function valueCardPage(
  fields: readonly CardField[],
  { paper = 'A4', title, how, scale }: CardPageOptions,
): string {
  if (!Array.isArray(fields)) throw wrongType('fields', fields, 'a list of fields');
  if (fields.length < 1 || fields.length > 8)
    throw outOfRange('fields', `${fields.length} fields`, '1 to 8');
  fields.forEach((field: unknown, i) => {
    const { limit } = expectObject(`fields[${i}]`, field) as unknown as CardField;
    expectNumber(`fields[${i}].limit`, limit, 0, 100);
  });
  if (!(paper in SHEET_SIZES)) throw outOfRange('options.paper', paper, 'A4 or letter');
  const [width, height] = SHEET_SIZES[paper];
  const inner = width - 2 * MARGIN;
  const parts: string[] = [text(title, MARGIN, MARGIN + 5, 5.2, { 'font-weight': 700 })];
  let y = MARGIN + 13;
  for (const paragraph of how) {
    for (const line of wrapped(paragraph, inner, 3.4)) {
      parts.push(text(line, MARGIN, y, 3.4));
      y += LINE;
    }
    y += 1.6;
  }
  y += 3;
  const each = CARD_FIELD_MM + BETWEEN;
  const columns = Math.min(fields.length, Math.floor((inner - BETWEEN) / each));
  for (let first = 0; first < fields.length; first += columns) {
    const row = fields.slice(first, first + columns);
    parts.push(strip(row, MARGIN, y));
    y += CARD_FIELD_MM + LABELS + 2 * BETWEEN + 6;
  }
  parts.push(scaleLine(scale, height - MARGIN));
  const style = { 'font-family': 'sans-serif', fill: '#000' };
  return drawing([width, height], style, parts.join(''));
}

/** A strip with its fields, to be cut out along the dashed line. */
function strip(fields: readonly CardField[], x: number, y: number): string {
  const each = CARD_FIELD_MM + BETWEEN;
  const outline = tag('rect', {
    x,
    y,
    width: fields.length * each + BETWEEN,
    height: CARD_FIELD_MM + LABELS + 2 * BETWEEN,
    ...FAINT,
    stroke: '#606060',
    'stroke-dasharray': '2 1.5',
  });
  const inside = fields.map(({ limit, label, note }, i) => {
    const left = x + BETWEEN + i * each;
    const top = y + BETWEEN;
    const below = top + CARD_FIELD_MM + 4.6;
    const [first, second = ''] = wrapped(note ?? '', CARD_FIELD_MM, 2.6);
    return tag(
      'g',
      { 'data-limit': limit },
      tag('rect', { x: left, y: top, width: CARD_FIELD_MM, height: CARD_FIELD_MM, ...FAINT }) +
        tag('circle', {
          cx: left + CARD_FIELD_MM / 2,
          cy: top + CARD_FIELD_MM / 2,
          r: CARD_HOLE_MM / 2,
          ...FAINT,
          'stroke-dasharray': '0.8 0.6',
        }) +
        text(label, left, below, 3.4, { 'font-weight': 700 }) +
        (first ? text(first, left, below + 3.6, 2.6) : '') +
        (second ? text(second, left, below + 6.8, 2.6) : ''),
    );
  });
  return outline + inside.join('');
}

/** The line that proves the size, and what it proves. */
function scaleLine(words: string, y: number): string {
  const end = MARGIN + CARD_SCALE_MM;
  const d = `M${MARGIN} ${y - 3}V${y}H${end}V${y - 3}`;
  return (
    tag('path', { id: 'scale', d, fill: 'none', stroke: '#000', 'stroke-width': 0.25 }) +
    text(words, end + 4, y, 3)
  );
}
