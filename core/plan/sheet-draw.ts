import { escaped, mm, tag, type Attributes } from '../base/svg.js';
import type { Masses, Outline } from '../mass/types.js';

/** A line of text. `size` is the size of the type, mm. */
export function text(
  words: string,
  x: number,
  y: number,
  size: number,
  attributes: Attributes = {},
): string {
  return tag('text', { x, y, 'font-size': size, ...attributes }, escaped(words));
}

/**
 * Width of a text in mm, told from above: the sheet is drawn where no type can be measured. Widths are those of a broad sans serif; bold
 * type is an eighth wider.
 */
export function widthOf(words: string, size: number, bold = false): number {
  let ems = 0;
  for (const sign of words) {
    if (/[iljtfrI.,:;|!'’()[\]\s·]/.test(sign)) ems += 0.38;
    else if (/[mwMW@%–—]/.test(sign)) ems += 0.97;
    else if (/[A-ZÄÖÜ+×=<>]/.test(sign)) ems += 0.77;
    else if ((sign.codePointAt(0) as number) > 0x2e7f) ems += 1.02;
    else ems += 0.63;
  }
  return ems * size * (bold ? 1.125 : 1);
}

/** A text in lines no wider than `width` mm; a word that is wider by itself is cut. */
export function wrapped(words: string, width: number, size: number): string[] {
  const lines: string[] = [];
  let line = '';
  const put = (word: string): void => {
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthOf(longer, size) <= width) {
      line = longer;
      return;
    }
    if (line !== '') lines.push(line);
    line = '';
    if (widthOf(word, size) <= width) {
      line = word;
      return;
    }
    for (const sign of word) {
      if (line !== '' && widthOf(line + sign, size) > width) {
        lines.push(line);
        line = '';
      }
      line += sign;
    }
  };
  for (const word of words.split(/\s+/)) if (word !== '') put(word);
  if (line !== '') lines.push(line);
  return lines;
}

/** A text cut to one line. */
export function oneLine(words: string, width: number, size: number, bold = false): string {
  const flat = words.replace(/\s+/g, ' ').trim();
  if (widthOf(flat, size, bold) <= width) return flat;
  let cut = '';
  for (const sign of flat) {
    if (widthOf(`${cut}${sign}…`, size, bold) > width) break;
    cut += sign;
  }
  return `${cut}…`;
}

/** One border of two masses as lines, x, y pairs in pixels. */
export interface BorderLines {
  regions: [number, number];
  lines: number[][];
}

/**
 * The borders between masses, each once, from outlines that share them vertex for vertex. What has no other mass beside it (the frame
 * of the picture) is left out.
 */
export function bordersOf(outlines: readonly Outline[]): BorderLines[] {
  // Points are numbered, so that a side of a ring is one number: whose it is. The neighbour has the same side the other way round.
  const numbers = new Map<number, Map<number, number>>();
  let points = 0;
  for (const { rings } of outlines) for (const ring of rings) points += ring.length / 2;
  let known = 0;
  const numberOf = (x: number, y: number): number => {
    let row = numbers.get(y);
    if (!row) numbers.set(y, (row = new Map()));
    let number = row.get(x);
    if (number === undefined) row.set(x, (number = known++));
    return number;
  };
  const owner = new Map<number, number>();
  const sideOf = (ax: number, ay: number, bx: number, by: number): number =>
    numberOf(ax, ay) * points + numberOf(bx, by);
  const sides = (
    ring: Float32Array,
    use: (ax: number, ay: number, bx: number, by: number) => void,
  ): void => {
    for (let i = 0; i < ring.length; i += 2) {
      const next = (i + 2) % ring.length;
      if (ring[i] !== ring[next] || ring[i + 1] !== ring[next + 1])
        use(ring[i], ring[i + 1], ring[next], ring[next + 1]);
    }
  };
  for (const { region, rings } of outlines)
    for (const ring of rings)
      sides(ring, (ax, ay, bx, by) => owner.set(sideOf(ax, ay, bx, by), region));
  const borders = new Map<string, BorderLines>();
  for (const { region, rings } of outlines)
    for (const ring of rings) {
      let line: number[] | undefined;
      let beside = -1;
      let firstLine: number[] | undefined;
      let firstBeside = -1;
      sides(ring, (ax, ay, bx, by) => {
        const other = owner.get(sideOf(bx, by, ax, ay)) ?? -1;
        const goesOn =
          line !== undefined && other === beside && line.at(-2) === ax && line.at(-1) === ay;
        if (!goesOn) {
          line = other > region ? [ax, ay] : undefined;
          if (line) {
            const key = `${region} ${other}`;
            const border = borders.get(key) ?? { regions: [region, other], lines: [] };
            border.lines.push(line);
            borders.set(key, border);
            if (firstLine === undefined && firstBeside === -1) firstLine = line;
          }
          if (firstBeside === -1) firstBeside = other;
          beside = other;
        }
        line?.push(bx, by);
      });
      joinEnds(borders.get(`${region} ${beside}`), line, firstLine, firstBeside === beside);
    }
  return [...borders.values()];
}

/** A ring's last line goes on into its first where both are one border. */
function joinEnds(
  border: BorderLines | undefined,
  last: number[] | undefined,
  first: number[] | undefined,
  same: boolean,
): void {
  if (!border || !last || !first || last === first || !same) return;
  if (last.at(-2) !== first[0] || last.at(-1) !== first[1]) return;
  last.push(...first.slice(2));
  border.lines.splice(border.lines.indexOf(first), 1);
}

/** Where and how large the picture stands on a page. */
export interface Placed {
  /** Left and top of the picture on the page, mm. */
  x: number;
  y: number;
  /** mm of the page for a pixel of the masses. */
  scale: number;
  mirrored: boolean;
  masses: Masses;
}

/** Width and height on the page, mm. */
export function sizeOf({ masses, scale }: Placed): { width: number; height: number } {
  return { width: masses.map.width * scale, height: masses.map.height * scale };
}

/** A pixel on the page, mm. */
export function onPage(placed: Placed, x: number, y: number): [x: number, y: number] {
  const { width } = placed.masses.map;
  return [placed.x + placed.scale * (placed.mirrored ? width - x : x), placed.y + placed.scale * y];
}

/** Lines of x, y pairs in pixels as a path on the page. */
export function pathOn(
  placed: Placed,
  lines: readonly ArrayLike<number>[],
  closed = false,
): string {
  const written = (value: number): string => String(Math.round(value * 100) / 100);
  return lines
    .map((line) => {
      let path = '';
      const last = line.length - 2;
      const loop = last > 2 && line[0] === line[last] && line[1] === line[last + 1];
      const end = loop ? last : line.length;
      for (let i = 0; i < end; i += 2) {
        const [x, y] = onPage(placed, line[i], line[i + 1]);
        path += `${i === 0 ? 'M' : 'L'}${written(x)} ${written(y)}`;
      }
      return closed || loop ? `${path}Z` : path;
    })
    .join('');
}

/**
 * How dense a band is hatched: distance of the lines in mm and their directions in degrees. Darker is denser; the darkest of three and
 * more is crossed. Lines alone, so that it prints without colour.
 */
export function hatchOf(band: number, bands: number): { gap: number; angles: number[] } {
  const dark = bands === 1 ? 0.5 : 1 - band / bands;
  const gap = 0.9 * (4.2 / 0.9) ** (1 - dark);
  return { gap, angles: band === 0 && bands > 2 ? [45, 135] : [band % 2 === 0 ? 45 : 135] };
}

/** Parallel lines over a box, mm; they meet the lines of the box beside it. */
export function hatchPath(
  box: { x: number; y: number; width: number; height: number },
  { gap, angles }: { gap: number; angles: readonly number[] },
): string {
  let path = '';
  for (const angle of angles) {
    // x sin a - y cos a is constant along a line of the direction a, for both of 45 and 135 degrees.
    const slope = angle === 45 ? -1 : 1;
    const step = gap * Math.SQRT2;
    const { x, y, width, height } = box;
    // y = c + slope x; the lines that meet the box have c between these.
    const corners = [x, x + width].flatMap((u) => [y - slope * u, y + height - slope * u]);
    const from = Math.ceil(Math.min(...corners) / step);
    const to = Math.floor(Math.max(...corners) / step);
    for (let k = from; k <= to; k++) {
      const c = k * step;
      const ends: [number, number][] = [];
      const add = (u: number, v: number): void => {
        if (u >= x - 1e-9 && u <= x + width + 1e-9 && v >= y - 1e-9 && v <= y + height + 1e-9)
          ends.push([u, v]);
      };
      add(x, c + slope * x);
      add(x + width, c + slope * (x + width));
      add((y - c) / slope, y);
      add((y + height - c) / slope, y + height);
      if (ends.length < 2) continue;
      ends.sort(([a], [b]) => a - b);
      const [first, last] = [ends[0], ends[ends.length - 1]];
      if (last[0] - first[0] < 1e-6) continue;
      path += `M${mm(first[0])} ${mm(first[1])}L${mm(last[0])} ${mm(last[1])}`;
    }
  }
  return path;
}
