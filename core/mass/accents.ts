import { expectNumber, expectObject, expectRaster, outOfRange } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import type { Lab, Pixels } from '../base/types.js';
import { ciede2000, labOfXyz, lchOf, xyzOfLab } from '../colour/index.js';
import { expectThresholds } from '../value/histogram.js';
import { stage } from '../value/stage.js';
import { lengthOf } from '../geometry/length.js';
import { cellsKernel, labAt } from './cells.js';
import { expectMasses } from './check.js';
import type { Masses } from './types.js';

/** A small spot of strong colour among neutrals. */
export interface Accent {
  /** Its place in the list. */
  id: number;
  /** A place inside it, pixel coordinates. */
  at: [x: number, y: number];
  /** Pixels. */
  area: number;
  /** Smallest upright rectangle, pixels. */
  bounds: [x: number, y: number, w: number, h: number];
  /** Its colour, the mean of the light of its more chromatic half, so that its rim does not pale it: CIELAB D65. */
  lab: Lab;
  /** The mass it mostly lies in. */
  region: number;
  /** The band of its own lightness, which need not be that of its mass. */
  band: number;
  /** How it stands out: its chroma C*ab, that of what surrounds it, and CIEDE2000 of the two. */
  vividness: { chroma: number; surround: number; deltaE: number };
  /** What it costs in value when the neutral there is swapped for the pure colour: its L* less that of its surround. */
  valueCost: number;
  /** Ids of the other accents of its hue: it is repeated there. */
  repeats: number[];
  /** Where its hue is already hinted at away from it and could be repeated, strongest first: at most three, pixel coordinates. */
  mightRepeat: { at: [x: number, y: number]; chroma: number; region: number }[];
}

/** A place that carries a hue: the strongest cell of it in a part of a mass. */
export interface HuePlace {
  /** Pixel coordinates. */
  at: [x: number, y: number];
  /** Its colour, CIELAB D65. */
  lab: Lab;
  /** The band of its own lightness. */
  band: number;
  /** The mass it lies in. */
  region: number;
}

/** Accents, and all places where a hue can be met again. */
export interface AccentsFound {
  accents: Accent[];
  /** Places whose chroma is 6 or more, strongest first: of each mass, tenth of the picture across and down, and 15 degrees of hue one. */
  places: HuePlace[];
}

export interface AccentOptions {
  /** Codes between the bands, ascending, as the masses have them. */
  thresholds: number[];
  /** Pressed width of the brush in pixels, above 0. */
  brushPx: number;
}

// Our own choices: what counts as strong, as neutral, as small, as the same hue.
/** The least chroma of an accent, and how much more chromatic than its surround it is at least. */
const STRONG = 20;
const MORE = 15;
/** How chromatic a surround may be and still be called neutral. */
const NEUTRAL_SURROUND = 18;
/** CIEDE2000 to the surround at equal lightness, at least: beyond it two colours are seen. */
const APART = 10;
/** The greatest part of the picture that is still a spot, and the least in dabs of the brush. */
const SHARE = 0.03;
const LEAST_DABS = 0.1;
/** The most accents that are told. */
const MOST = 24;
/** Degrees of hue within which cells are of one spot, and spots of one hue. */
const SAME_SPOT = 40;
const SAME_HUE = 25;
/** Chroma from which a hue is hinted at. */
const HINT = 6;
/** Cells across a brush, and the most cells. */
const CELLS_A_BRUSH = 6;
const CELLS = 120_000;

/** Places of hues: so many parts across and down, degrees of hue apart, and the most of them. */
const PARTS = 10;
const SECTOR = 15;
const MOST_PLACES = 2000;

/** Degrees between two hues, 0..180. */
export const hueApart = (p: number, q: number): number => {
  const turn = Math.abs(p - q) % 360;
  return Math.min(turn, 360 - turn);
};

/** Mean a* and b* about each place of a coarse raster, by sums over rectangles. */
class Surround {
  readonly #sums: Float64Array;
  readonly #stride: number;

  constructor(
    readonly columns: number,
    readonly rows: number,
    /** Four values a place: weight, and L*, a*, b* times it. */
    values: Float64Array,
  ) {
    this.#stride = 4 * (columns + 1);
    this.#sums = new Float64Array(this.#stride * (rows + 1));
    for (let row = 0; row < rows; row++) {
      const line = [0, 0, 0, 0];
      for (let column = 0; column < columns; column++) {
        for (let c = 0; c < 4; c++) {
          line[c] += values[4 * (row * columns + column) + c];
          this.#sums[(row + 1) * this.#stride + 4 * (column + 1) + c] =
            this.#sums[row * this.#stride + 4 * (column + 1) + c] + line[c];
        }
      }
    }
  }

  /** Sums over the rectangle of places, cut at the raster's border. */
  within(left: number, top: number, right: number, bottom: number): number[] {
    const [l, r] = [Math.max(0, left), Math.min(this.columns, right)];
    const [t, b] = [Math.max(0, top), Math.min(this.rows, bottom)];
    return [0, 1, 2, 3].map(
      (c) =>
        this.#sums[b * this.#stride + 4 * r + c] -
        this.#sums[t * this.#stride + 4 * r + c] -
        this.#sums[b * this.#stride + 4 * l + c] +
        this.#sums[t * this.#stride + 4 * l + c],
    );
  }
}

/** {@link accentsOf} in slices, with the places where hues can be met again. */
export function* accentsKernel(
  pixels: Pixels,
  masses: Masses,
  options: AccentOptions,
): Kernel<AccentsFound> {
  expectRaster('pixels', pixels, 4);
  expectMasses('masses', masses);
  const { width, height } = pixels;
  if (masses.map.width !== width || masses.map.height !== height)
    throw outOfRange(
      'masses.map',
      `${masses.map.width} x ${masses.map.height}`,
      `${width} x ${height}`,
    );
  const given = expectObject('options', options) as Partial<AccentOptions>;
  const thresholds = expectThresholds(given.thresholds as number[]);
  const brushPx = expectNumber('options.brushPx', given.brushPx, 0, 1e6);
  if (brushPx === 0) throw outOfRange('options.brushPx', brushPx, 'a width above 0');

  const side = Math.max(
    1,
    Math.min(Math.floor(brushPx / CELLS_A_BRUSH), 64),
    Math.ceil(Math.sqrt((width * height) / CELLS)),
  );
  // Cells of the plain raster: masses may cut through a spot.
  const cells = yield* stage(cellsKernel(pixels, new Int32Array(width * height), side), 0, 0.4);
  const columns = Math.ceil(width / side);
  const rows = Math.ceil(height / side);
  // The pieces of a raster of one label are its cells, in the order of their first pixels: row by row.
  const { area, lab, count } = cells;
  const hue = new Float64Array(count);
  const chroma = new Float64Array(count);
  const values = new Float64Array(4 * count);
  for (let cell = 0; cell < count; cell++) {
    const { C, h } = lchOf(labAt(lab, cell));
    [chroma[cell], hue[cell]] = [C, h];
    values.set([area[cell], ...labAt(lab, cell).map((value) => value * area[cell])], 4 * cell);
  }
  const surround = new Surround(columns, rows, values);
  yield 0.5;

  const dab = (Math.PI / 4) * brushPx * brushPx;
  const most = SHARE * width * height;
  const least = Math.max(1, LEAST_DABS * dab);
  // Spots: connected strong cells of like hue, each compared with the cell it was reached from and with the spot's first.
  const spot = new Int32Array(count).fill(-1);
  const described: Accent[] = [];
  /** How telling each of them is: its difference of lean, less for what is smaller than a dab. */
  const telling: number[] = [];
  const ring = Math.max(2, Math.ceil(brushPx / side));
  for (let first = 0; first < count; first++) {
    if (first % 8192 === 0) yield 0.5 + (0.3 * first) / count;
    if (spot[first] >= 0 || chroma[first] < STRONG) continue;
    const members = [first];
    spot[first] = first;
    for (let next = 0; next < members.length; next++) {
      const cell = members[next];
      const column = cell % columns;
      const around = [
        column > 0 ? cell - 1 : -1,
        column + 1 < columns ? cell + 1 : -1,
        cell - columns,
        cell + columns,
      ];
      for (const other of around) {
        if (other < 0 || other >= count || spot[other] >= 0 || chroma[other] < STRONG) continue;
        if (hueApart(hue[other], hue[first]) > SAME_SPOT) continue;
        spot[other] = first;
        members.push(other);
      }
    }
    const accent = describe(members);
    if (accent) described.push(accent);
  }

  /** What a spot is, if it is small, and stands out from a neutral surround. */
  function describe(members: number[]): Accent | undefined {
    let size = 0;
    let [left, top, right, bottom] = [columns, rows, 0, 0];
    const light = [0, 0, 0];
    const own = [0, 0, 0, 0];
    for (const cell of members) {
      size += area[cell];
      const [column, row] = [cell % columns, Math.floor(cell / columns)];
      left = Math.min(left, column);
      right = Math.max(right, column + 1);
      top = Math.min(top, row);
      bottom = Math.max(bottom, row + 1);
      for (let c = 0; c < 4; c++) own[c] += values[4 * cell + c];
    }
    if (size > most || size < least) return undefined;
    const middling = members.map((cell) => chroma[cell]).sort((p, q) => p - q)[members.length >> 1];
    let pure = 0;
    for (const cell of members) {
      if (chroma[cell] < middling) continue;
      pure += area[cell];
      xyzOfLab(labAt(lab, cell)).forEach((value, c) => (light[c] += value * area[cell]));
    }
    const colour = labOfXyz([light[0] / pure, light[1] / pure, light[2] / pure]);
    const about = surround.within(left - ring, top - ring, right + ring, bottom + ring);
    const weight = about[0] - own[0];
    if (weight <= 0) return undefined;
    const ground: Lab = [1, 2, 3].map((c) => (about[c] - own[c]) / weight) as Lab;
    const vivid = {
      chroma: lchOf(colour).C,
      surround: lchOf(ground).C,
      deltaE: ciede2000(...colour, ...ground),
    };
    if (vivid.chroma < vivid.surround + MORE || vivid.surround > NEUTRAL_SURROUND) return undefined;
    const byLean = ciede2000(50, colour[1], colour[2], 50, ground[1], ground[2]);
    if (byLean < APART) return undefined;
    telling.push(byLean * Math.min(1, Math.sqrt(size / dab)));
    const [cx, cy] = [(left + right - 1) / 2, (top + bottom - 1) / 2];
    const away = (cell: number): number =>
      ((cell % columns) - cx) ** 2 + (Math.floor(cell / columns) - cy) ** 2;
    const middle = members.reduce((best, cell) => (away(cell) < away(best) ? cell : best));
    const at = placeOf(middle);
    return {
      id: -1,
      at,
      area: size,
      bounds: [
        left * side,
        top * side,
        Math.min(width, right * side) - left * side,
        Math.min(height, bottom * side) - top * side,
      ],
      lab: colour,
      region: mostly(members),
      band: bandAt(colour[0]),
      vividness: vivid,
      valueCost: colour[0] - ground[0],
      repeats: [],
      mightRepeat: [],
    };
  }

  function bandAt(lightness: number): number {
    const code = Math.floor(2.55 * lightness + 0.5);
    return thresholds.filter((limit) => code > limit).length;
  }

  function placeOf(cell: number): [number, number] {
    const [column, row] = [cell % columns, Math.floor(cell / columns)];
    return [
      Math.min(width - 1, column * side + (side >> 1)) + 0.5,
      Math.min(height - 1, row * side + (side >> 1)) + 0.5,
    ];
  }

  function regionAt([x, y]: [number, number]): number {
    return masses.labels[Math.floor(y) * width + Math.floor(x)];
  }

  /** The mass that most of the cells' middles lie in. */
  function mostly(members: number[]): number {
    const votes = new Map<number, number>();
    for (const cell of members) {
      const region = regionAt(placeOf(cell));
      votes.set(region, (votes.get(region) ?? 0) + area[cell]);
    }
    return [...votes].sort(([p, n], [q, m]) => m - n || p - q)[0][0];
  }

  const found = described
    .map((accent, i) => ({ accent, i }))
    .sort((p, q) => telling[q.i] - telling[p.i] || p.i - q.i)
    .slice(0, MOST)
    .map(({ accent }, id) => ({ ...accent, id }));
  for (const accent of found) {
    const own = lchOf(accent.lab).h;
    accent.repeats = found
      .filter((other) => other !== accent && hueApart(lchOf(other.lab).h, own) <= SAME_HUE)
      .map(({ id }) => id);
    const taken = [accent, ...accent.repeats.map((id) => found[id])].map(({ at }) => at);
    // The strongest cell of each mass that hints at the hue, away from where it is already.
    const best = new Map<number, { at: [number, number]; chroma: number; region: number }>();
    for (let cell = 0; cell < count; cell++) {
      if (chroma[cell] < HINT || hueApart(hue[cell], own) > SAME_HUE) continue;
      const at = placeOf(cell);
      if (taken.some(([x, y]) => lengthOf(x - at[0], y - at[1]) < 3 * brushPx)) continue;
      const region = regionAt(at);
      const other = best.get(region);
      if (!other || chroma[cell] > other.chroma)
        best.set(region, { at, chroma: chroma[cell], region });
    }
    accent.mightRepeat = [...best.values()]
      .sort((p, q) => q.chroma - p.chroma || p.region - q.region)
      .slice(0, 3);
    yield 0.8 + (0.15 * accent.id) / found.length;
  }
  /** The strongest cell of each hue in each part of each mass. */
  function placesOfHues(): HuePlace[] {
    const strongest = new Map<number, number>();
    for (let cell = 0; cell < count; cell++) {
      if (chroma[cell] < HINT) continue;
      const [x, y] = placeOf(cell);
      const part = PARTS * Math.floor((PARTS * y) / height) + Math.floor((PARTS * x) / width);
      const ofMass = regionAt([x, y]) * PARTS * PARTS + part;
      const key = ofMass * (360 / SECTOR) + Math.floor(hue[cell] / SECTOR);
      const before = strongest.get(key);
      if (before === undefined || chroma[cell] > chroma[before]) strongest.set(key, cell);
    }
    return [...strongest.values()]
      .sort((p, q) => chroma[q] - chroma[p] || p - q)
      .slice(0, MOST_PLACES)
      .map((cell) => {
        const at = placeOf(cell);
        const colour = labAt(lab, cell);
        return { at, lab: colour, band: bandAt(colour[0]), region: regionAt(at) };
      });
  }

  return { accents: found, places: placesOfHues() };
}

/**
 * Small spots of strong colour among neutrals, most telling first.
 *
 * A spot is made of connected cells (a sixth of the brush, or less) of chroma 20 or more whose hues lie within 40 degrees. It is an accent
 * when it is no larger than three hundredths of the picture and no smaller than a tenth of a dab, when its surround (a brush's width
 * about it) has a chroma of at most 18 and it has 15 more, and when the two differ by CIEDE2000 10 at equal lightness. At most 24 are told.
 * All of these are our own choices.
 *
 * Of each are told its own band, how it stands out, what a swap of neutral for pure colour costs in value, where its hue is repeated (25
 * degrees), and where the picture hints at that hue, so that it might be.
 *
 * @throws {TypeError | RangeError} naming the argument: masses of another size, limits that do not rise, a brush of no width.
 */
export function accentsOf(pixels: Pixels, masses: Masses, options: AccentOptions): Accent[] {
  return finish(accentsKernel(pixels, masses, options)).accents;
}
