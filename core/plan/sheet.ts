import { expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import type { Reason } from '../base/reason.js';
import { drawing, escaped, mm, tag } from '../base/svg.js';
import type { Step } from '../base/types.js';
import { munsellValue } from '../colour/index.js';
import { outlinesKernel, type AccentsFound, type Passages } from '../mass/index.js';
import type { Edge, Masses, Outline, Reserve } from '../mass/types.js';
import type { Arrow } from '../stroke/types.js';
import { decided, edgeKinds, expectWork, paintedBands, spotsKernel } from './decided.js';
import { pixelOfSpot } from './kept-marks.js';
import { checkedSteps } from './findings.js';
import { orderKernel } from './order.js';
import { passageList, passageSign, type PassageWork } from './passage-types.js';
import { passageWorkKernel } from './passage-work.js';
import { accentLines, accentSign, accentsOnSheet } from './sheet-accents.js';
import { cautionLines } from './sheet-cautions.js';
import {
  hatchOf,
  hatchPath,
  oneLine,
  sizeOf,
  text,
  widthOf,
  wrapped,
  type BorderLines,
  type Placed,
} from './sheet-draw.js';
import { mixLines } from './sheet-mixes.js';
import {
  APART_LINE,
  passageBordersKernel,
  RUN_LINE,
  type SheetPassages,
} from './sheet-passages.js';
import {
  drawn,
  markSign,
  reserveSign,
  sheetPicture,
  type SheetParts,
  type SheetPicture,
} from './sheet-picture.js';
import { SHEET_STRINGS, SheetWords } from './sheet-strings.js';
import type { WorkStep } from './steps.js';
import type { Plan } from './types.js';

/** Paper in the printer. */
export type SheetPaper = 'A4' | 'letter';

/** Width and height, mm. A4: ISO 216. Letter: 8.5 x 11 in, ANSI/ASME Y14.1 size A. */
export const SHEET_SIZES: Readonly<Record<SheetPaper, readonly [width: number, height: number]>> = {
  A4: [210, 297],
  letter: [215.9, 279.4],
};

/** What the printed plan is told. What is not given is worked out from plan and masses. */
export interface SheetOptions {
  paper?: SheetPaper;
  /** Words under the keys of `SHEET_STRINGS`; those that are missing stay English. `tube.` and an id names a tube. */
  strings?: Readonly<Record<string, string>>;
  /** Whose way of writing numbers: a language tag, `en` by default. */
  language?: string;
  outlines?: readonly Outline[];
  /** Without them every edge is hard. */
  edges?: readonly Edge[];
  arrows?: readonly Arrow[];
  reserves?: readonly Reserve[];
  /**
   * The passages of the masses: their borders and numbers are drawn, swatches are told under the letters that the passages use. Without
   * them all recipes are told, by band.
   */
  passages?: Passages;
  /** What was worked out of the passages before: their swatches (`passageWork`), their borders (`passageBordersKernel`). */
  passageWork?: PassageWork;
  passageBorders?: readonly BorderLines[];
  /**
   * The photo's accents and the places that carry hues, in the pixels of the masses: the board's accents are marked in the picture and told
   * with their figures. Without them they are told among the mixes alone.
   */
  accents?: AccentsFound;
  /** The steps in the painter's order; else those of the plan that fit, else the proposed ones. */
  order?: readonly Step[];
  /** For transfer from the back. */
  mirrored?: boolean;
  /** Transfer squares of so many mm on the paper, 5..500. */
  squaresMm?: number;
  /** What is drawn in the picture; all of it by default. */
  show?: Partial<SheetParts>;
  /** More cautions, ready to print. */
  cautions?: readonly string[];
}

const MARGIN = 10;
const SIDE = 62;
const GAP = 6;
/** Top of the picture, mm. */
const TOP = 28;
/** Parts of a larger picture overlap by so much, mm. */
export const TILE_OVERLAP_MM = 10;
const TYPE = 2.6;
const LEADING = 3.4;
/** Lines of a block that are kept together at most. */
const MOST_LINES = 12;
/** The values with their mixes take so much of a page's height below the picture at most, mm. */
const MOST_LADDER = 110;
/** More pages of parts than the largest paper of a plan needs are refused. */
const MOST_TILES = 800;

/**
 * The first page of the plan as SVG, at true size in mm: the picture (true size where it fits, else reduced with its scale told) with
 * outlines, bands by hatch density, reserves, strokes and marks; values with a frame for a strip of dabs, recipes; the order of work;
 * cautions; and a line of 100 mm to measure. Black on white: it prints without colour.
 *
 * Lines are solid for hard edges, broken for soft ones, none for lost ones. Texts are escaped. No scripts, no styles, nothing fetched.
 *
 * @returns One `<svg>` element, well-formed XML.
 * @throws {TypeError}, {RangeError} naming the argument.
 */
export function planSheet(plan: Plan, masses: Masses, options: SheetOptions = {}): string {
  return finish(planSheetsKernel(plan, masses, inEnglish(options), true))[0];
}

/**
 * All pages: the first as in {@link planSheet}, what its lists have no room for, and the outlines at true size for transfer, on as many
 * pages as they need, with an overlap of {@link TILE_OVERLAP_MM} and crosses to lay on each other.
 */
export function planSheets(plan: Plan, masses: Masses, options: SheetOptions = {}): string[] {
  return finish(planSheetsKernel(plan, masses, inEnglish(options)));
}

/** Options with all words, so that they can be told without a table of words at hand. */
export type SheetOptionsInWords = SheetOptions & Required<Pick<SheetOptions, 'strings'>>;

/** {@link planSheets} in slices; `firstOnly` makes the first page alone. Of words that are missing the keys are printed. */
export function planSheetsKernel(
  plan: Plan,
  masses: Masses,
  options: SheetOptionsInWords,
  firstOnly = false,
): Kernel<string[]> {
  expectWork(plan, masses);
  expectOptions(options);
  return sheetSlices(plan, masses, options, firstOnly);
}

/** Words that are missing are English. */
function inEnglish(options: SheetOptions): SheetOptionsInWords {
  const { strings = {} } = expectObject('options', options) as SheetOptions;
  expectObject('options.strings', strings);
  return { ...options, strings: { ...SHEET_STRINGS, ...strings } };
}

function expectOptions(options: SheetOptionsInWords): void {
  expectObject('options', options);
  const { paper, strings, squaresMm } = options;
  if (paper !== undefined && !Object.hasOwn(SHEET_SIZES, paper))
    throw outOfRange('options.paper', paper, "'A4' or 'letter'");
  if (squaresMm !== undefined) expectNumber('options.squaresMm', squaresMm, 5, 500);
  for (const [key, value] of Object.entries(expectObject('options.strings', strings)))
    if (typeof value !== 'string') throw wrongType(`options.strings.${key}`, value, 'a text');
}

/** Everything a page is made from. */
interface Making {
  plan: Plan;
  masses: Masses;
  options: SheetOptions;
  words: SheetWords;
  picture: SheetPicture;
  steps: readonly WorkStep[];
  size: readonly [width: number, height: number];
  title: string;
  parts: SheetParts;
  cautions: readonly string[];
}

/** The passages as they are drawn. */
function* passagesOnSheet(
  plan: Plan,
  masses: Masses,
  { passages, passageWork, passageBorders, edges, reserves }: SheetOptions,
): Kernel<SheetPassages | undefined> {
  if (!passages) return undefined;
  const { brushes, brush = 0, paper } = plan;
  const brushPx = ((brushes[brush]?.pressedMm ?? 0) * masses.map.width) / paper.widthMm;
  const work =
    passageWork ?? (yield* passageWorkKernel(plan, masses, passages, { edges, reserves }));
  return {
    found: passages,
    work,
    inside: work.passages.map(({ at }) => pixelOfSpot(plan, masses, at)),
    borders: passageBorders ?? (yield* passageBordersKernel(masses, passages, brushPx)),
  };
}

function* sheetSlices(
  plan: Plan,
  masses: Masses,
  options: SheetOptionsInWords,
  firstOnly: boolean,
): Kernel<string[]> {
  const { edges, reserves, paper = 'A4' } = options;
  const passages = yield* passagesOnSheet(plan, masses, options);
  const facts = { edges, reserves, passages: passages?.work };
  const words = new SheetWords(options.strings, options.language);
  const said = decided(plan, masses, facts);
  const steps = options.order
    ? checkedSteps(options.order, plan, masses, facts)
    : yield* orderKernel(plan, masses, facts);
  const spots = yield* spotsKernel(plan, masses);
  yield 0.1;
  let outlines = options.outlines;
  if (!outlines) {
    const kernel = outlinesKernel(masses);
    for (;;) {
      const step = kernel.next();
      if (step.done) {
        outlines = step.value;
        break;
      }
      yield 0.1 + 0.6 * step.value;
    }
  }
  const stepOfMass = masses.regions.map(() => 0);
  steps.forEach(({ regions }, i) => {
    for (const id of regions) if (id in stepOfMass) stepOfMass[id] = i + 1;
  });
  const picture = sheetPicture({
    masses,
    outlines,
    arrows: options.arrows ?? [],
    said,
    kinds: edgeKinds(plan, masses, facts),
    inside: spots.map((spot) => pixelOfSpot(plan, masses, spot)),
    steps: stepOfMass,
    squaresMm: options.squaresMm,
    passages,
    accents: options.accents && accentsOnSheet(plan, masses, options.accents),
  });
  yield 0.75;
  const making: Making = {
    plan,
    masses,
    options,
    words,
    picture,
    steps,
    size: SHEET_SIZES[paper],
    title: plan.title.trim() || words.of('page.untitled'),
    parts: {
      hatching: true,
      outlines: true,
      reserves: true,
      arrows: true,
      marks: true,
      accents: true,
      numbers: true,
      ...options.show,
    },
    cautions: cautionLines(plan, steps, words, options.cautions),
  };
  const { page, left, mixesCut } = firstPage(making);
  if (firstOnly) return [page];
  yield 0.85;
  const pages = [page];
  for (let rest = mixesCut ? mixBlocks(making) : []; rest.length > 0;) {
    const next = listPage(making, rest, pages.length + 1, 'page.mixes');
    pages.push(next.page);
    rest = next.left;
  }
  for (let rest = left; rest.length > 0;) {
    const steps = rest.some(({ box }) => box !== undefined);
    const next = listPage(making, rest, pages.length + 1, steps ? 'page.order-on' : 'page.on');
    pages.push(next.page);
    rest = next.left;
  }
  for (const [row, column, rows, columns] of tilesOf(making)) {
    pages.push(tilePage(making, row, column, rows, columns, pages.length + 1));
    yield 0.85 + (0.15 * (row * columns + column + 1)) / (rows * columns);
  }
  return pages;
}

/** A page of white with the rule to measure. */
function page(
  { size: [width, height], words, title }: Making,
  number: number,
  inside: string,
): string {
  const y = height - MARGIN - 3;
  let ticks = `M${MARGIN} ${mm(y)}h100`;
  for (let k = 0; k <= 10; k++)
    ticks += `M${MARGIN + 10 * k} ${mm(y)}v${k % 5 === 0 ? -2.4 : -1.4}`;
  const rule =
    tag('path', {
      id: `page-${number}-rule`,
      d: ticks,
      fill: 'none',
      stroke: '#000',
      'stroke-width': 0.2,
    }) +
    wrapped(words.of('page.rule'), width - 2 * MARGIN - 106, 2.2)
      .map((line, i) => text(line, MARGIN + 104, y - 1.2 + 2.8 * i, 2.2))
      .join('');
  return drawing(
    [width, height],
    {
      'font-family': 'system-ui, sans-serif',
      'font-weight': 'normal',
      'font-style': 'normal',
      'letter-spacing': '0',
      'text-anchor': 'start',
      direction: 'ltr',
      fill: '#000',
    },
    tag('title', {}, escaped(title)) + tag('rect', { width, height, fill: '#fff' }) + inside + rule,
  );
}

/** mm of the painting's paper for a pixel: the masses fill its width. */
const mmPerPixel = ({ picture }: Making): number => 1 / picture.said.pxPerMm;

function firstPage(making: Making): { page: string; left: Block[]; mixesCut: boolean } {
  const { size, masses, words, options, title, picture, parts, plan } = making;
  const [width, height] = size;
  const inner = width - 2 * MARGIN;
  const bottom = height - MARGIN - 8;
  const true1 = mmPerPixel(making);
  const room = (w: number, h: number): number =>
    Math.min(true1, w / masses.map.width, h / masses.map.height);
  const rows = ladderRows(making);
  const ladder = 14 + rows.reduce((sum, { needed }) => sum + needed, 0);
  // What the values need, within reason: beyond, the mixes get a page of their own.
  const below = Math.max(62, 13 + 12 * rows.length, Math.min(ladder, MOST_LADDER));
  const stacked = room(inner, bottom - TOP - below - 10);
  const beside = room(inner - SIDE - GAP, bottom - TOP - 66);
  const isBeside = beside > stacked;
  const scale = Math.max(stacked, beside);
  const placed: Placed = {
    x: MARGIN,
    y: TOP,
    scale,
    mirrored: options.mirrored === true,
    masses,
  };
  const key = keyLines(making, isBeside ? inner - SIDE - GAP : inner);
  const keyY = TOP + sizeOf(placed).height + 5;
  const listTop = keyY + 4.6 * key.length + 1.5;
  const table = valueTable(making, width - MARGIN - SIDE, isBeside ? TOP : listTop - 3, bottom);
  const flow = flowedOnFirst(making, listTop, table.end + 2, bottom - 3);
  const more = flow.left.length > 0 ? text(words.of('page.order-more'), MARGIN, bottom, 2.3) : '';
  const times = true1 / scale;
  const lines = [
    times > 1.0005
      ? words.of('page.scale', { times: words.number(times, 2) })
      : words.of('page.scale-true'),
    ...(options.mirrored ? [words.of('page.mirrored')] : []),
    ...(options.squaresMm ? [words.of('page.squares', { mm: options.squaresMm })] : []),
  ];
  const inside =
    text(oneLine(title, inner, 5.2, true), MARGIN, 15, 5.2, { 'font-weight': 'bold' }) +
    text(oneLine(factsLine(plan, words), inner, TYPE), MARGIN, 20, TYPE) +
    text(oneLine(lines.join(' · '), inner, TYPE), MARGIN, 24.2, TYPE) +
    tag('g', { id: 'page-1-picture' }, drawn(placed, picture, parts, 'page-1')) +
    key.map((items, i) => keyLine(items, keyY + 4.6 * i)).join('') +
    table.drawn +
    flow.drawn +
    more;
  return { page: page(making, 1, inside), left: flow.left, mixesCut: table.cut };
}

/** The lists in one column beside the values where they have room so, else in two and in what is left below the values. */
function flowedOnFirst(making: Making, y: number, belowTable: number, bottom: number): Flow {
  const width = making.size[0] - 2 * MARGIN - SIDE - GAP;
  const one = flowed(listBlocks(making, width), [{ x: MARGIN, y, width, bottom }]);
  if (one.left.length === 0) return one;
  const half = (width - 4) / 2;
  const third = { x: MARGIN + width + GAP, y: belowTable, width: SIDE, bottom };
  return flowed(listBlocks(making, Math.min(half, SIDE)), [
    { x: MARGIN, y, width: half, bottom },
    { x: MARGIN + half + 4, y, width: half, bottom },
    third,
  ]);
}

function factsLine(plan: Plan, words: SheetWords): string {
  const { widthMm, heightMm } = plan.paper;
  const brush = plan.brushes[plan.brush ?? 0];
  const figures = {
    width: widthMm,
    height: heightMm,
    way: words.of(`page.way-${plan.way ?? 'direct'}`),
  };
  if (!brush) return words.of('page.facts-plain', figures);
  const { name, tipMm, pressedMm } = brush;
  return words.of('page.facts', {
    ...figures,
    brush: words.of('page.brush', { name, tip: tipMm, pressed: pressedMm }),
  });
}

/* The key of signs. */

interface KeyItem {
  words: string;
  sign: (x: number, y: number) => string;
}

/** Only the signs that are on the page, in lines. */
function keyLines({ picture, parts, words, options }: Making, width: number): KeyItem[][] {
  const { said, kinds, borders } = picture;
  const line =
    (dash?: string, style: Readonly<Record<string, string | number>> = {}) =>
    (x: number, y: number): string =>
      tag('path', {
        d: `M${mm(x)} ${mm(y)}h6`,
        fill: 'none',
        stroke: '#000',
        'stroke-linecap': 'round',
        'stroke-width': 0.3,
        'stroke-dasharray': dash,
        ...style,
      });
  const has = (kind: string): boolean =>
    borders.some(({ regions }) => (kinds.get(regions.join(' ')) ?? 'hard') === kind);
  const items: KeyItem[] = [];
  const add = (when: boolean, key: string, sign: KeyItem['sign']): void => {
    if (when) items.push({ words: words.of(`page.key-${key}`), sign });
  };
  add(parts.outlines && has('hard'), 'hard', line());
  add(parts.outlines && has('soft'), 'soft', line('1.4 1.2'));
  add(parts.outlines && has('lost'), 'lost', () => '');
  const { passages } = picture;
  add(
    passages !== undefined && passages.work.apart.length > 0,
    'apart',
    line(undefined, APART_LINE),
  );
  add(passages !== undefined && passages.work.run.length > 0, 'run', line(undefined, RUN_LINE));
  for (const method of ['bare', 'mask', 'tint'])
    add(
      parts.reserves &&
        ([...said.reserves.values()].some((how) => how === method) ||
          (method === 'mask' && said.shielded.size > 0)),
      method,
      (x, y) => reserveSign(method, x + 3, y),
    );
  for (const light of [true, false])
    add(
      parts.marks && said.marks.some((mark) => mark.light === light),
      light ? 'light-mark' : 'dark-mark',
      (x, y) => markSign(light, x + 3, y, 1),
    );
  const { planned = [] } = (parts.accents && picture.accents) || {};
  for (const [key, list] of [
    ['accent', 'uses'],
    ['accent-again', 'mightRepeat'],
  ] as const)
    add(
      planned.some((accent) => accent[list].length > 0),
      key,
      (x, y) => accentSign(list === 'uses', x + 3, y),
    );
  const arrows = options.arrows ?? [];
  const head = arrows.some(({ sensed }) => sensed) ? 'm-1.5 -0.6l1.5 0.6l-1.5 0.6' : '';
  add(parts.arrows && arrows.length > 0, 'stroke', (x, y) =>
    tag('path', {
      d: `M${mm(x)} ${mm(y)}h5.5${head}`,
      fill: 'none',
      stroke: '#000',
      'stroke-width': 0.25,
    }),
  );
  const first = passages?.work.passages[0];
  if (first) add(parts.numbers, 'passage', (x, y) => text(passageSign(first), x + 3, y + 0.9, 2.4));
  else
    add(parts.numbers && picture.steps.some((step) => step > 0), 'step', (x, y) =>
      text('1', x + 4, y + 0.9, 2.4),
    );
  const lines: KeyItem[][] = [[]];
  let used = 0;
  for (const item of items) {
    const wide = 8 + widthOf(item.words, 2.3) + 3;
    if (used + wide > width && used > 0) {
      lines.push([]);
      used = 0;
    }
    lines[lines.length - 1].push(item);
    used += wide;
  }
  return lines;
}

function keyLine(items: readonly KeyItem[], y: number): string {
  let x = MARGIN;
  let out = '';
  for (const { words, sign } of items) {
    out += sign(x, y) + text(words, x + 7.2, y + 0.8, 2.3);
    x += 8 + widthOf(words, 2.3) + 3;
  }
  return out;
}

/* Values, dabs and recipes. */

interface BandRow {
  /** `undefined` for bare paper. */
  band?: number;
  name: string;
  lines: string[];
}

/** The rows of the ladder, lightest first. */
function bandRows({ plan, masses, words, picture }: Making): BandRow[] {
  const painted = paintedBands(plan, masses);
  const mixes = mixLines(plan, picture.passages?.work, words);
  const areas = new Float64Array(masses.map.bands);
  for (const { band, area } of masses.regions) areas[band] += area;
  const all = masses.map.width * masses.map.height;
  const value = (lightness: number): string => words.number(munsellValue(lightness), 1);
  const rows = Array.from({ length: painted }, (_, band): BandRow => {
    const of = plan.board.bands[band];
    const share = words.number((100 * areas[band]) / all, 0);
    if (!of) return { band, name: String(band + 1), lines: [`${share} %`] };
    return {
      band,
      name: of.name,
      lines: [
        words.of('page.band-values', { low: value(of.floor), high: value(of.ceiling) }),
        words.of('page.band-share', {
          from: words.number(of.floor, 0),
          to: words.number(of.ceiling, 0),
          share,
        }),
        ...mixes.filter((mix) => mix.band === band).map(({ short }) => short),
      ],
    };
  });
  const paper: BandRow = {
    name: words.of('page.paper-band'),
    lines: [words.of('page.paper-value', { value: value(plan.paper.lightness) })],
  };
  return [...rows, ...(plan.paperLimit === undefined ? [] : [paper])].reverse();
}

/** The rows with their lines broken and the height that takes, mm. */
function ladderRows(making: Making): (BandRow & { told: string[]; needed: number })[] {
  return bandRows(making).map((row) => {
    const told = row.lines.flatMap((line) => wrapped(line, SIDE - 33, 2.2));
    return { ...row, told, needed: 5 + 2.7 * told.length };
  });
}

function valueTable(
  making: Making,
  x: number,
  top: number,
  bottom: number,
): { drawn: string; end: number; cut: boolean } {
  const { words, masses } = making;
  const rows = ladderRows(making);
  const heading = text(words.of('page.values'), x, top + 3, 3.2, { 'font-weight': 'bold' });
  const strip = wrapped(words.of('page.dabs-strip'), SIDE, 2.2).slice(0, 2);
  const start = top + 5 + 2.8 * strip.length + 1;
  const needed = rows.map((row) => row.needed);
  const heights = shared(needed, Math.min(17, (bottom - start) / rows.length), bottom - start);
  const cut = needed.some((height, i) => height > heights[i] + 1e-6);
  const all = heights.reduce((sum, height) => sum + height, 0);
  let y = start;
  const frame = { x: x + 11, width: 20 };
  const parts = rows.map(({ band, name, told }, i) => {
    const tall = heights[i];
    if (i > 0) y += heights[i - 1];
    const patch = { x, y: y + 0.6, width: 10, height: tall - 1.2 };
    const hatch =
      band === undefined
        ? ''
        : tag('path', {
            d: hatchPath(patch, hatchOf(band, masses.map.bands)),
            fill: 'none',
            stroke: '#555',
            'stroke-width': 0.13,
          });
    const fits = Math.max(0, Math.floor((tall - 3.4) / 2.7));
    const lines =
      told.length > fits && needed[i] > tall + 1e-6
        ? [...told.slice(0, Math.max(0, fits - 1)), words.of('page.mixes-more')]
        : told;
    return (
      hatch +
      tag('rect', { ...patch, fill: 'none', stroke: '#000', 'stroke-width': 0.15 }) +
      (i > 0
        ? tag('path', {
            d: `M${mm(frame.x)} ${mm(y)}h${frame.width}`,
            stroke: '#000',
            'stroke-width': 0.1,
            fill: 'none',
          })
        : '') +
      text(oneLine(name, SIDE - 33, TYPE, true), x + 33, y + 3, TYPE, { 'font-weight': 'bold' }) +
      lines
        .slice(0, fits)
        .map((line, k) => text(line, x + 33, y + 5.8 + 2.7 * k, 2.2))
        .join('')
    );
  });
  const drawnTable =
    heading +
    strip.map((line, i) => text(line, x, top + 6.4 + 2.8 * i, 2.2)).join('') +
    tag('rect', {
      x: frame.x,
      y: start,
      width: frame.width,
      height: all,
      fill: 'none',
      stroke: '#000',
      'stroke-width': 0.2,
      'stroke-dasharray': '2 1',
    }) +
    parts.join('');
  return { drawn: drawnTable, end: start + all, cut };
}

/** Heights of rows: what each needs, `usual` at least; where there is no room for that, the rest of the room by what they lack. */
function shared(needed: readonly number[], usual: number, room: number): number[] {
  const lacks = needed.map((height) => Math.max(0, height - usual));
  const lack = lacks.reduce((sum, height) => sum + height, 0);
  const share = lack === 0 ? 0 : Math.min(1, (room - usual * needed.length) / lack);
  return lacks.map((height) => usual + share * height);
}

/** The mixes in blocks for a page of their own, under the names of their bands. */
function mixBlocks({ plan, words, picture, size }: Making): Block[] {
  const width = listWidth(size);
  const lines = mixLines(plan, picture.passages?.work, words);
  let band: number | undefined;
  return lines.flatMap(({ band: own, title, more }): Block[] => {
    const name = plan.board.bands[own]?.name ?? String(own + 1);
    const heading: Block[] = own === band ? [] : [headingOf(name)];
    band = own;
    return [...heading, ...parted(titledBlock(title, more, width))];
  });
}

/** A title with smaller lines below it. */
function titledBlock(title: string, more: readonly string[], width: number): Block {
  const small = more.flatMap((each) => wrapped(each, width - 4, 2.3));
  return {
    lines: [
      ...wrapped(title, width, TYPE).map((words) => ({ words, size: TYPE, indent: 0, bold: true })),
      ...small.map((words) => ({ words, size: 2.3, indent: 4 })),
    ],
    above: 1.1,
  };
}

const headingOf = (words: string): Block => ({
  lines: [{ words, size: 3.2, indent: 0, bold: true }],
  above: 2.5,
  heading: true,
});

/** Width of one of the two columns of a page of lists. */
const listWidth = ([width]: readonly [number, number]): number => (width - 2 * MARGIN - GAP) / 2;

/* Lists that flow over columns and pages. */

/** Lines that stay together. */
interface Block {
  lines: { words: string; size: number; indent: number; bold?: boolean; italic?: boolean }[];
  /** Space above, mm. */
  above: number;
  /** The line that has a box to tick before it. */
  box?: number;
  /** Ticked already. */
  done?: boolean;
  heading?: boolean;
}

/** The order of work, the widths of the marks and the cautions, for a column of a width. */
function listBlocks(making: Making, width: number): Block[] {
  const { steps, words, picture, cautions } = making;
  const heading = (key: string): Block => headingOf(words.of(key));
  const blocks: Block[] = [heading('page.order')];
  steps.forEach((step, i) => blocks.push(stepBlock(step, i, making, width)));
  const { marks, pxPerMm } = picture.said;
  if (marks.length > 0) {
    const sizes = marks.map(({ number, light, area }) =>
      words.of(light ? 'page.mark-light' : 'page.mark-dark', {
        number,
        mm: words.number((2 * Math.sqrt(area / Math.PI)) / pxPerMm, 1),
      }),
    );
    blocks.push(heading('page.mark-sizes'), {
      lines: wrapped(sizes.join(' · '), width, 2.3).map((line) => ({
        words: line,
        size: 2.3,
        indent: 0,
      })),
      above: 0.5,
    });
  }
  blocks.push(...accentBlocks(making, width));
  if (cautions.length > 0) {
    blocks.push(heading('page.cautions'));
    for (const caution of cautions)
      blocks.push({
        lines: wrapped(caution, width, TYPE).map((line) => ({
          words: line,
          size: TYPE,
          indent: 0,
        })),
        above: 0.5,
      });
  }
  return blocks.flatMap(parted);
}

/** The accents of the board, where the photo's are known. */
function accentBlocks({ plan, words, picture }: Making, width: number): Block[] {
  const lines = picture.accents ? accentLines(plan, picture.accents, words) : [];
  if (lines.length === 0) return [];
  const blocks = lines.map(({ title, told }) => titledBlock(title, [told], width));
  return [headingOf(words.of('page.accents')), ...blocks];
}

/** A block in parts that have room in any column. */
function parted(block: Block): Block[] {
  const parts: Block[] = [];
  for (let from = 0; from < block.lines.length; from += MOST_LINES) {
    const lines = block.lines.slice(from, from + MOST_LINES);
    const { box } = block;
    const own = box !== undefined && box >= from ? box - from : undefined;
    parts.push(from === 0 ? { ...block, lines } : { lines, above: 0, done: block.done, box: own });
  }
  return parts;
}

/** What a step is called: `work.lay-...` by its part in the direct way, `work.lay` the other way. */
function stepName(step: WorkStep, { plan, words }: Making): string {
  const { kind, role, band, text: own, id } = step;
  const bandName = band === undefined ? '' : (plan.board.bands[band]?.name ?? String(band + 1));
  const key =
    kind === 'lay' && role && plan.way !== 'light-to-dark' ? `work.lay-${role}` : `work.${kind}`;
  return words.of(key, { band: bandName, text: own ?? id });
}

function stepBlock(step: WorkStep, place: number, making: Making, width: number): Block {
  const { words } = making;
  const indent = 8;
  const told = (reasons: readonly Reason[]): string[] =>
    reasons.flatMap(({ code, values }) => words.find(code, values) ?? []);
  const small = (texts: readonly string[], italic = false): Block['lines'] =>
    texts
      .flatMap((each) => wrapped(each, width - indent, 2.3))
      .map((line) => ({ words: line, size: 2.3, indent, italic }));
  const counts = [
    ...(step.regions.length + step.keeps.length > 0
      ? [words.of('work.masses', { count: step.regions.length + step.keeps.length })]
      : []),
    ...(step.marks.length > 0
      ? [words.of('work.mark-numbers', { numbers: step.marks.join(', ') })]
      : []),
  ];
  const what = counts.join(' · ');
  const step1 = stepName(step, making);
  const name = `${place + 1} ${what === '' ? step1 : words.of('work.with', { step: step1, what })}`;
  const first = wrapped(name, width - 4, TYPE).map((line, i) => ({
    words: line,
    size: TYPE,
    indent: i === 0 ? 4 : indent,
  }));
  const waits = small(told(step.waits), true);
  const passages = step.passages
    ? [words.of('work.passages', { passages: passageList(step.passages) })]
    : [];
  return {
    lines: [
      ...waits,
      ...first,
      ...small(passages),
      ...small(told(step.kind === 'mask' ? [] : step.hints)),
      ...small(told(step.warnings), true),
    ],
    above: 1.1,
    box: waits.length,
    done: step.done,
  };
}

interface Column {
  x: number;
  y: number;
  width: number;
  bottom: number;
}

interface Flow {
  drawn: string;
  /** What had no room. */
  left: Block[];
}

const lineHeight = (size: number): number => (size * LEADING) / TYPE;

const heightOf = ({ lines, above }: Block): number =>
  above + lines.reduce((sum, { size }) => sum + lineHeight(size), 0);

/** Puts blocks into columns one after the other; a heading goes with what follows it. What has no room is left. */
function flowed(blocks: readonly Block[], columns: readonly Column[]): Flow {
  let out = '';
  let at = 0;
  for (const column of columns) {
    let { y } = column;
    for (; at < blocks.length; at++) {
      const block = blocks[at];
      const next = blocks[at + 1];
      const needs = heightOf(block) + (block.heading && next ? heightOf(next) : 0);
      if (y + needs > column.bottom) break;
      out += blockDrawn(block, column.x, y);
      y += heightOf(block);
    }
  }
  return { drawn: out, left: blocks.slice(at) };
}

function blockDrawn({ lines, above, box, done }: Block, x: number, top: number): string {
  let y = top + above;
  return lines
    .map(({ words, size, indent, bold, italic }, i) => {
      y += lineHeight(size);
      return (
        (i === box ? tickBox(x, y - 2.1, done === true) : '') +
        text(words, x + indent, y, size, {
          'font-weight': bold ? 'bold' : undefined,
          'font-style': italic ? 'italic' : undefined,
        })
      );
    })
    .join('');
}

function tickBox(x: number, y: number, done: boolean): string {
  const line = { fill: 'none', stroke: '#000' };
  return (
    tag('rect', { x, y, width: 2.3, height: 2.3, ...line, 'stroke-width': 0.2 }) +
    (done
      ? tag('path', {
          d: `M${mm(x + 0.4)} ${mm(y + 1.1)}l0.6 0.7l1 -1.4`,
          ...line,
          'stroke-width': 0.3,
        })
      : '')
  );
}

function listPage(
  making: Making,
  blocks: readonly Block[],
  number: number,
  about: string,
): { page: string; left: Block[] } {
  const { size, words, title } = making;
  const [width, height] = size;
  const wide = listWidth(size);
  const bottom = height - MARGIN - 8;
  const flow = flowed(blocks, [
    { x: MARGIN, y: 20, width: wide, bottom },
    { x: MARGIN + wide + GAP, y: 20, width: wide, bottom },
  ]);
  const head = `${title} · ${words.of(about)}`;
  return {
    page: page(
      making,
      number,
      text(oneLine(head, width - 2 * MARGIN, 3.4, true), MARGIN, 15, 3.4, {
        'font-weight': 'bold',
      }) + flow.drawn,
    ),
    left: flow.left,
  };
}

/* The outlines at true size. */

/** Where the picture may stand on a page of parts, mm. */
function tileRoom([width, height]: readonly [number, number]): {
  x: number;
  y: number;
  width: number;
  height: number;
} {
  const top = 17;
  return { x: MARGIN, y: top, width: width - 2 * MARGIN, height: height - MARGIN - 8 - top };
}

const partsNeeded = (length: number, room: number): number =>
  length <= room + 1e-6
    ? 1
    : Math.ceil((length - TILE_OVERLAP_MM - 1e-6) / (room - TILE_OVERLAP_MM));

function tilesOf(making: Making): [row: number, column: number, rows: number, columns: number][] {
  const { masses, size, plan, words } = making;
  const room = tileRoom(size);
  const scale = mmPerPixel(making);
  const columns = partsNeeded(masses.map.width * scale, room.width);
  const rows = partsNeeded(masses.map.height * scale, room.height);
  if (rows * columns > MOST_TILES)
    throw outOfRange(
      'masses.map',
      `${masses.map.width} x ${masses.map.height} on ${words.number(plan.paper.widthMm, 0)} mm`,
      `a picture that ${MOST_TILES} pages have room for`,
    );
  return Array.from({ length: rows * columns }, (_, i) => [
    Math.floor(i / columns),
    i % columns,
    rows,
    columns,
  ]);
}

function tilePage(
  making: Making,
  row: number,
  column: number,
  rows: number,
  columns: number,
  number: number,
): string {
  const { masses, size, words, title, picture, parts, options } = making;
  const room = tileRoom(size);
  const scale = mmPerPixel(making);
  const whole = { width: masses.map.width * scale, height: masses.map.height * scale };
  const stepX = room.width - TILE_OVERLAP_MM;
  const stepY = room.height - TILE_OVERLAP_MM;
  const placed: Placed = {
    x: room.x - column * stepX,
    y: room.y - row * stepY,
    scale,
    mirrored: options.mirrored === true,
    masses,
  };
  const id = `page-${number}`;
  const seen = {
    x: room.x,
    y: room.y,
    width: Math.min(room.width, whole.width - column * stepX),
    height: Math.min(room.height, whole.height - row * stepY),
  };
  const clip = tag(
    'clipPath',
    { id: `${id}-part` },
    tag('rect', {
      x: seen.x - 0.15,
      y: seen.y - 0.15,
      width: seen.width + 0.3,
      height: seen.height + 0.3,
    }),
  );
  const single = rows * columns === 1;
  const head = single
    ? words.of('page.tile-whole', { title })
    : words.of('page.tile', {
        title,
        part: row * columns + column + 1,
        parts: rows * columns,
        row: row + 1,
        column: column + 1,
      });
  const notes = [
    ...(options.mirrored ? [words.of('page.mirrored')] : []),
    ...(options.squaresMm ? [words.of('page.squares', { mm: options.squaresMm })] : []),
    ...(single ? [] : [words.of('page.tile-join', { mm: TILE_OVERLAP_MM })]),
  ].join(' · ');
  const wide = size[0] - 2 * MARGIN;
  return page(
    making,
    number,
    text(oneLine(head, wide, 3, true), MARGIN, 11.5, 3, { 'font-weight': 'bold' }) +
      text(oneLine(notes, wide, 2.3), MARGIN, 15, 2.3) +
      clip +
      tag(
        'g',
        { id: `${id}-picture`, 'clip-path': `url(#${id}-part)` },
        drawn(
          placed,
          picture,
          { ...parts, hatching: false, numbers: false, arrows: false, accents: false },
          id,
        ),
      ) +
      crosses(room, row, column, rows, columns, seen),
  );
}

/** Crosses in the middle of the overlaps: the same point of the picture on each page that shows it. */
function crosses(
  room: { x: number; y: number; width: number; height: number },
  row: number,
  column: number,
  rows: number,
  columns: number,
  seen: { x: number; y: number; width: number; height: number },
): string {
  const half = TILE_OVERLAP_MM / 2;
  const xs = [
    ...(column > 0 ? [room.x + half] : []),
    ...(column < columns - 1 ? [room.x + room.width - half] : []),
  ];
  const ys = [
    ...(row > 0 ? [room.y + half] : []),
    ...(row < rows - 1 ? [room.y + room.height - half] : []),
  ];
  // Two more on each joint, a quarter from its ends, so that it cannot turn.
  const along = (from: number, length: number): number[] => [
    from + length / 4,
    from + (3 * length) / 4,
  ];
  const spots = [
    ...xs.flatMap((x) => [...ys, ...along(seen.y, seen.height)].map((y) => [x, y])),
    ...ys.flatMap((y) => along(seen.x, seen.width).map((x) => [x, y])),
  ];
  return spots
    .map(([x, y]) =>
      tag('path', {
        d: `M${mm(x - 3)} ${mm(y)}h6M${mm(x)} ${mm(y - 3)}v6`,
        fill: 'none',
        stroke: '#000',
        'stroke-width': 0.2,
      }),
    )
    .join('');
}
