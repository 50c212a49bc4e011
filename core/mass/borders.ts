/**
 * The borders of a label map as they run along the corners of pixels: each cut once, from junction to junction.
 *
 * A corner is where four pixels meet; corner (x, y) has the number `y * (width + 1) + x`. A junction is a corner at which three or four
 * borders meet, or a corner of the picture. Where two diagonals meet at a corner it is a junction too: regions are connected through
 * sides only.
 */
import { byRows, type Kernel } from '../base/kernel.js';

/** Directions of a step from a corner: right, down, left, up; one more is a turn to the right hand. */
export const STEP_X = [1, 0, -1, 0] as const;
export const STEP_Y = [0, 1, 0, -1] as const;

/** What lies outside the picture. */
export const OUTSIDE = -1;

/** One stretch of border between two junctions, or all of a border that meets none. */
export interface Arc {
  /** The corners it passes, ends included; a closed one ends on its first. */
  corners: Int32Array;
  /** Label at the left and at the right hand of who walks along it; {@link OUTSIDE} beyond the picture. */
  left: number;
  right: number;
  /** Whether it goes round without meeting a junction. */
  closed: boolean;
}

/** The direction of the step between two neighbouring corners. */
export function directionOf(from: number, to: number, cornersOfRow: number): number {
  const step = to - from;
  if (step === 1) return 0;
  if (step === -1) return 2;
  return step === cornersOfRow ? 1 : 3;
}

/** Which of the four directions are borders at each corner, one bit each. */
function* borderBits(labels: Int32Array, width: number, height: number): Kernel<Uint8Array> {
  const row = width + 1;
  // A few bytes more, so that four corners at a time can be looked at.
  const bits = new Uint8Array((row * (height + 1) + 3) & ~3);
  yield* byRows(height, width, (from, to) => {
    for (let y = from; y < to; y++) bitsOfRow(labels, bits, width, y);
  });
  for (let x = 0; x < width; x++) {
    for (const corner of [x, height * row + x]) {
      bits[corner] |= 1;
      bits[corner + 1] |= 4;
    }
  }
  for (let y = 0; y < height; y++) {
    for (const corner of [y * row, y * row + width]) {
      bits[corner] |= 2;
      bits[corner + row] |= 8;
    }
  }
  return bits;
}

/** Borders between the pixels of a row, and between them and the row above. */
function bitsOfRow(labels: Int32Array, bits: Uint8Array, width: number, y: number): void {
  const row = width + 1;
  const pixel = y * width;
  const corner = y * row;
  let before = labels[pixel];
  for (let x = 1; x < width; x++) {
    const label = labels[pixel + x];
    if (label === before) continue;
    before = label;
    bits[corner + x] |= 2;
    bits[corner + row + x] |= 8;
  }
  if (y === 0) return;
  const above = pixel - width;
  for (let x = 0; x < width; x++) {
    if (labels[pixel + x] === labels[above + x]) continue;
    bits[corner + x] |= 1;
    bits[corner + x + 1] |= 4;
  }
}

/** Adds the corners at which three or four borders meet. */
function addJunctions(bits: Uint8Array, ends: Set<number>): void {
  const words = new Int32Array(bits.buffer);
  for (let word = 0; word < words.length; word++) {
    if (words[word] === 0) continue;
    for (let corner = 4 * word; corner < 4 * word + 4; corner++)
      if (BIT_COUNT[bits[corner]] > 2) ends.add(corner);
  }
}

/** The first corner at or after `from` that has a border left; as many as there are bits when none has. */
function nextCorner(bits: Uint8Array, words: Int32Array, from: number): number {
  let corner = from;
  while (corner < bits.length && (corner & 3) !== 0) {
    if (bits[corner] !== 0) return corner;
    corner++;
  }
  let word = corner >> 2;
  while (word < words.length && words[word] === 0) word++;
  corner = 4 * word;
  while (corner < bits.length && bits[corner] === 0) corner++;
  return corner;
}

const BIT_COUNT = Uint8Array.from({ length: 16 }, (_, bits) =>
  [1, 2, 4, 8].reduce((count, bit) => count + (bits & bit ? 1 : 0), 0),
);

/** The direction of the lowest bit. */
const LOWEST = Uint8Array.from(
  { length: 16 },
  (_, bits) => [0, 1, 2, 3].find((d) => bits & (1 << d)) ?? 0,
);

/** Every border of a label map, each once. Progress between parts. */
export function* arcsKernel(labels: Int32Array, width: number, height: number): Kernel<Arc[]> {
  const row = width + 1;
  const bits = yield* scaledProgress(borderBits(labels, width, height), 0, 0.5);
  const ends = new Set([0, width, height * row, height * row + width]);
  addJunctions(bits, ends);
  yield 0.55;

  const arcs: Arc[] = [];
  let path = new Int32Array(1024);
  const walk = (start: number, first: number, closed: boolean): void => {
    let count = 0;
    let at = start;
    let direction = first;
    for (;;) {
      if (count + 1 >= path.length) {
        const longer = new Int32Array(2 * path.length);
        longer.set(path);
        path = longer;
      }
      path[count++] = at;
      bits[at] &= ~(1 << direction);
      at += STEP_X[direction] + STEP_Y[direction] * row;
      bits[at] &= ~(1 << ((direction + 2) & 3));
      if (at === start || (!closed && ends.has(at))) break;
      direction = LOWEST[bits[at]];
    }
    path[count++] = at;
    const [left, right] = sides(labels, width, height, start, first);
    arcs.push({ corners: path.slice(0, count), left, right, closed });
  };
  let since = 0;
  for (const corner of ends) {
    while (bits[corner] !== 0) walk(corner, LOWEST[bits[corner]], false);
    if ((++since & 255) === 0) yield 0.6;
  }
  const words = new Int32Array(bits.buffer);
  for (let corner = nextCorner(bits, words, 0); corner < bits.length;) {
    walk(corner, LOWEST[bits[corner]], true);
    corner = nextCorner(bits, words, corner);
    if ((++since & 255) === 0) yield 0.6 + (0.4 * corner) / bits.length;
  }
  return arcs;
}

/** The labels left and right of a step from a corner. */
function sides(
  labels: Int32Array,
  width: number,
  height: number,
  corner: number,
  direction: number,
): [left: number, right: number] {
  const x = corner % (width + 1);
  const y = (corner - x) / (width + 1);
  const label = (px: number, py: number): number =>
    px >= 0 && px < width && py >= 0 && py < height ? labels[py * width + px] : OUTSIDE;
  switch (direction) {
    case 0:
      return [label(x, y - 1), label(x, y)];
    case 1:
      return [label(x, y), label(x - 1, y)];
    case 2:
      return [label(x - 1, y), label(x - 1, y - 1)];
    default:
      return [label(x - 1, y - 1), label(x, y - 1)];
  }
}

/** A kernel whose progress is told as the part `from..to` of a larger whole. */
export function* scaledProgress<T>(kernel: Kernel<T>, from: number, to: number): Kernel<T> {
  for (;;) {
    const step = kernel.next();
    if (step.done) return step.value;
    yield from + (to - from) * step.value;
  }
}
