import { tag } from '../base/svg.js';
import type { Edge, Masses, Outline } from '../mass/types.js';
import type { Arrow } from '../stroke/types.js';
import type { Decided } from './decided.js';
import { accentsAt, accentSigns, type SheetAccents } from './sheet-accents.js';
import { passageBorders, passageNumbers, type SheetPassages } from './sheet-passages.js';
import {
  bordersOf,
  hatchOf,
  hatchPath,
  onPage,
  pathOn,
  sizeOf,
  text,
  type BorderLines,
  type Placed,
} from './sheet-draw.js';

/** Which parts of the picture are drawn. */
export interface SheetParts {
  /** Bands by the density of their hatching. */
  hatching: boolean;
  outlines: boolean;
  reserves: boolean;
  arrows: boolean;
  marks: boolean;
  /** Accents of the board, and where they might come again. */
  accents: boolean;
  /** The number of its step in each mass. */
  numbers: boolean;
}

/** What is drawn, made ready once for all pages. */
export interface SheetPicture {
  masses: Masses;
  outlines: readonly Outline[];
  borders: readonly BorderLines[];
  arrows: readonly Arrow[];
  said: Decided;
  /** Kind of the edge of two neighbours, under `a b` with a < b. */
  kinds: ReadonlyMap<string, Edge['kind']>;
  /** A pixel well inside each mass. */
  inside: readonly (readonly [x: number, y: number])[];
  /** The number of the step that lays each mass; 0 for those that are not laid. */
  steps: readonly number[];
  /** Distance of the transfer squares on the paper, mm. */
  squaresMm?: number;
  /** Passages; their numbers stand in place of those of the steps. */
  passages?: SheetPassages;
  accents?: SheetAccents;
}

export function sheetPicture(
  part: Omit<SheetPicture, 'borders'> & { borders?: readonly BorderLines[] },
): SheetPicture {
  return { ...part, borders: part.borders ?? bordersOf(part.outlines) };
}

const LINE = {
  fill: 'none',
  stroke: '#000',
  'stroke-linecap': 'round',
  'stroke-linejoin': 'round',
};
/** White about letters, so that they can be read on hatching. */
const HALO = {
  stroke: '#fff',
  'stroke-width': 0.7,
  'paint-order': 'stroke',
  'stroke-linejoin': 'round',
};

/** The picture on a page. `id` goes before the ids inside, so that pages may stand in one document. */
export function drawn(
  placed: Placed,
  picture: SheetPicture,
  parts: SheetParts,
  id: string,
): string {
  const { width, height } = sizeOf(placed);
  return [
    parts.hatching ? hatching(placed, picture, id) : '',
    picture.squaresMm ? squares(placed, picture, picture.squaresMm) : '',
    picture.passages ? passageBorders(placed, picture.passages) : '',
    parts.outlines ? borders(placed, picture) : '',
    tag('rect', {
      id: `${id}-frame`,
      x: placed.x,
      y: placed.y,
      width,
      height,
      ...LINE,
      'stroke-width': 0.3,
    }),
    parts.arrows ? arrows(placed, picture) : '',
    parts.reserves ? reserves(placed, picture) : '',
    !parts.numbers
      ? ''
      : picture.passages
        ? passageNumbers(placed, picture.passages, signsOn(placed, picture, parts), HALO)
        : numbers(placed, picture),
    parts.marks ? marks(placed, picture) : '',
    parts.accents && picture.accents ? accentSigns(placed, picture.accents, HALO) : '',
  ].join('');
}

function hatching(placed: Placed, { masses, outlines, said }: SheetPicture, id: string): string {
  const { regions, map } = masses;
  const { width, height } = sizeOf(placed);
  const box = { x: placed.x, y: placed.y, width, height };
  const bands = new Map<number, string>();
  for (const { region, rings } of outlines) {
    if (said.reserves.has(region) && said.reserves.get(region) !== 'tint') continue;
    const { band } = regions[region];
    bands.set(band, (bands.get(band) ?? '') + pathOn(placed, rings, true));
  }
  return [...bands]
    .map(([band, path]) => {
      const clip = `${id}-band-${band}`;
      return (
        tag('clipPath', { id: clip }, tag('path', { d: path, 'clip-rule': 'evenodd' })) +
        tag(
          'g',
          { 'clip-path': `url(#${clip})` },
          tag('path', {
            d: hatchPath(box, hatchOf(band, map.bands)),
            fill: 'none',
            stroke: '#555',
            'stroke-width': 0.13,
          }),
        )
      );
    })
    .join('');
}

function squares(placed: Placed, { said }: SheetPicture, everyMm: number): string {
  const { width, height } = sizeOf(placed);
  const step = everyMm * said.pxPerMm * placed.scale;
  let path = '';
  const labels: string[] = [];
  const style = { fill: '#000', ...HALO };
  for (let k = 1; k * step < width - 1e-6; k++) {
    const x = placed.mirrored ? placed.x + width - k * step : placed.x + k * step;
    path += `M${x.toFixed(2)} ${placed.y.toFixed(2)}v${height.toFixed(2)}`;
    labels.push(text(String(k), x, placed.y + 2.4, 2, { 'text-anchor': 'middle', ...style }));
  }
  for (let k = 1; k * step < height - 1e-6; k++) {
    const y = placed.y + k * step;
    path += `M${placed.x.toFixed(2)} ${y.toFixed(2)}h${width.toFixed(2)}`;
    labels.push(text(String(k), placed.x + 0.6, y + 0.7, 2, style));
  }
  return (
    tag('path', {
      d: path,
      fill: 'none',
      stroke: '#000',
      'stroke-width': 0.1,
      'stroke-dasharray': '0.3 0.9',
    }) + labels.join('')
  );
}

/** Solid for hard, broken for soft, none for lost edges. */
function borders(placed: Placed, { borders: all, kinds }: SheetPicture): string {
  const paths = { hard: '', soft: '' };
  for (const { regions, lines } of all) {
    const kind = kinds.get(regions.join(' ')) ?? 'hard';
    if (kind !== 'lost') paths[kind] += pathOn(placed, lines);
  }
  return (
    (paths.hard && tag('path', { d: paths.hard, ...LINE, 'stroke-width': 0.3 })) +
    (paths.soft &&
      tag('path', { d: paths.soft, ...LINE, 'stroke-width': 0.3, 'stroke-dasharray': '1.4 1.2' }))
  );
}

/** Lines along the form; a head where it is known which way the brush goes. */
function arrows(placed: Placed, { arrows: all }: SheetPicture): string {
  let lines = '';
  let heads = '';
  for (const { line, sensed } of all) {
    if (line.length < 4) continue;
    lines += pathOn(placed, [line]);
    if (!sensed) continue;
    const [x, y] = onPage(placed, line[line.length - 2], line[line.length - 1]);
    const before = Math.max(0, line.length - 6);
    const [u, v] = onPage(placed, line[before], line[before + 1]);
    const long = Math.hypot(x - u, y - v);
    if (long === 0) continue;
    const [dx, dy] = [(x - u) / long, (y - v) / long];
    const point = (along: number, across: number): string =>
      `${(x - along * dx - across * dy).toFixed(2)} ${(y - along * dy + across * dx).toFixed(2)}`;
    heads += `M${point(1.5, 0.6)}L${point(0, 0)}L${point(1.5, -0.6)}`;
  }
  return lines
    ? tag('path', { d: lines + heads, ...LINE, stroke: '#fff', 'stroke-width': 0.75 }) +
        tag('path', { d: lines + heads, ...LINE, 'stroke-width': 0.25 })
    : '';
}

/** The sign of a reserve: an empty ring stays paper, a crossed one is masked, a half filled one is tinted. */
export function reserveSign(method: string, x: number, y: number, r = 1.3): string {
  const ring = tag('circle', {
    cx: x,
    cy: y,
    r,
    fill: '#fff',
    stroke: '#000',
    'stroke-width': 0.25,
  });
  const d = r * Math.SQRT1_2;
  if (method === 'mask')
    return (
      ring +
      tag('path', {
        d: `M${(x - d).toFixed(2)} ${(y - d).toFixed(2)}l${(2 * d).toFixed(2)} ${(2 * d).toFixed(2)}m0 ${(-2 * d).toFixed(2)}l${(-2 * d).toFixed(2)} ${(2 * d).toFixed(2)}`,
        ...LINE,
        'stroke-width': 0.25,
      })
    );
  if (method === 'tint')
    return (
      ring +
      tag('path', {
        d: `M${(x - r).toFixed(2)} ${y.toFixed(2)}a${r} ${r} 0 0 0 ${2 * r} 0z`,
        fill: '#000',
      })
    );
  return ring;
}

function reserves(placed: Placed, { masses, said, inside, outlines }: SheetPicture): string {
  let lines = '';
  let signs = '';
  const kept = new Map<number, string>(said.reserves);
  for (const id of said.shielded) kept.set(id, 'mask');
  for (const [id, method] of kept) {
    if (!masses.regions[id]) continue;
    lines += pathOn(placed, outlines[id]?.rings ?? [], true);
    const [x, y] = onPage(placed, ...inside[id]);
    signs += reserveSign(method, x, y);
  }
  return lines === ''
    ? ''
    : tag('path', {
        d: lines,
        fill: 'none',
        stroke: '#000',
        'stroke-width': 0.55,
        'stroke-linecap': 'round',
        'stroke-dasharray': '0.01 1.1',
      }) + signs;
}

/** Signs of marks and reserves on the page, mm. */
function signsOn(
  placed: Placed,
  { said, inside, accents }: SheetPicture,
  parts: SheetParts,
): { x: number; y: number; r: number }[] {
  const marked = (parts.marks ? said.marks : []).map((mark) => {
    const [x, y] = onPage(placed, mark.x, mark.y);
    return { x, y, r: Math.max(0.5, Math.sqrt(mark.area / Math.PI) * placed.scale) };
  });
  const kept = parts.reserves ? [...said.reserves.keys(), ...said.shielded] : [];
  return [
    ...marked,
    ...(parts.accents && accents ? accentsAt(placed, accents) : []),
    ...kept.map((id) => {
      const [x, y] = onPage(placed, ...inside[id]);
      return { x, y, r: 1.3 };
    }),
  ];
}

function numbers(placed: Placed, { masses, inside, steps, said }: SheetPicture): string {
  return masses.regions
    .map(({ id, area }) => {
      if (steps[id] === 0 || said.shielded.has(id) || area * placed.scale ** 2 < 14) return '';
      const [x, y] = onPage(placed, ...inside[id]);
      return text(String(steps[id]), x, y + 0.8, 2.2, { 'text-anchor': 'middle', ...HALO });
    })
    .join('');
}

function marks(placed: Placed, { said }: SheetPicture): string {
  const right = placed.x + sizeOf(placed).width;
  return said.marks
    .map(({ x, y, area, light, number }) => {
      const [u, v] = onPage(placed, x, y);
      const r = Math.max(0.5, Math.sqrt(area / Math.PI) * placed.scale);
      // The number stands on the left where the picture ends on the right.
      const isLast = u + r + 4 > right;
      return (
        markSign(light, u, v, r) +
        text(String(number), isLast ? u - r - 0.5 : u + r + 0.5, v + 0.8, 2.2, {
          'font-weight': 'bold',
          'text-anchor': isLast ? 'end' : undefined,
          ...HALO,
        })
      );
    })
    .join('');
}

/** The sign of a mark: an open circle for a light, a filled one for a dark. */
export function markSign(light: boolean, x: number, y: number, r: number): string {
  return tag('circle', {
    cx: x,
    cy: y,
    r,
    fill: light ? '#fff' : '#000',
    stroke: light ? '#000' : '#fff',
    'stroke-width': 0.25,
  });
}
