import {
  LINEAR_OF_SRGB,
  linearOfSrgb,
  LUMINANCE_OF_RGB,
  luminanceOfLightness,
} from '../colour/index.js';

/**
 * Tables of linear light for the kernels of this room, and exact rounding at table speed.
 *
 * Linear light is kept as whole numbers 0..`FULL`, the light of white. A rounding to 256 codes is one look-up in a
 * table of 4096 cells of 2^18: no cell holds more than one of the 255 borders between codes (the narrowest code of
 * either rounding is wider than a cell), so a cell's entry carries its code and how far above the cell's start the border lies,
 * and adding the low 18 bits carries into the next code exactly at the border.
 */

/**
 * The light of white. A colour's luminance is a sum of three rounded numbers, up to 1.5 units off. At 2^30 units two of the 2^24 colours lie
 * that near a border between lightness codes and fall on its wrong side; in units of this size (a
 * hundred and more fewer, in the middle of a run of sizes that do) none does.
 */
export const FULL = 2 ** 30 - 117;

const CELL_BITS = 18;
const CELL = 1 << CELL_BITS;

const [OF_RED, OF_GREEN, OF_BLUE] = LUMINANCE_OF_RGB;

/** Luminance, in units of 1 / FULL, that a red, green or blue code brings. */
export const LIGHT_OF_RED = weighted(OF_RED);
export const LIGHT_OF_GREEN = weighted(OF_GREEN);
export const LIGHT_OF_BLUE = weighted(OF_BLUE);

function weighted(share: number): Int32Array {
  return Int32Array.from(LINEAR_OF_SRGB, (light) => Math.round(light * share * FULL));
}

/** Lightness codes, floor(2.55 L* + 0.5), of luminance in units of 1 / FULL; read with {@link stepOf}. */
export const STEPS_OF_LIGHTNESS = steps((code) => luminanceOfLightness((code - 0.5) / 2.55));

/** sRGB codes (nearest) of linear light in units of 1 / FULL; read with {@link stepOf}. */
export const STEPS_OF_SRGB = steps((code) => linearOfSrgb((code - 0.5) / 255));

/** `lowest(code)` is the least light 0..1 that has the code, for 1..255. */
function steps(lowest: (code: number) => number): Int32Array {
  const cells = new Int32Array(Math.ceil(FULL / CELL));
  const borders = Array.from({ length: 255 }, (_, i) => Math.ceil(lowest(i + 1) * FULL));
  let code = 0;
  for (let cell = 0; cell < cells.length; cell++) {
    const border = borders[code];
    cells[cell] = code << CELL_BITS;
    if (border < (cell + 1) * CELL) {
      cells[cell] += CELL - (border - cell * CELL);
      code++;
    }
  }
  return cells;
}

/** The code of `light` (a whole number 0..FULL) in one of the tables of steps. */
export function stepOf(table: Int32Array, light: number): number {
  return (table[light >> CELL_BITS] + (light & (CELL - 1))) >> CELL_BITS;
}

/** Linear light 0..1 to units of 1 / FULL. */
export function unitsOf(light: number): number {
  return Math.min(FULL, Math.max(0, Math.floor(light * FULL)));
}
