import type { Lightness } from '../../shared/core.js';

/** Samples along each side of a small pixel at most: enough for a picture to choose by, and never long work. */
const SAMPLES = 4;

/**
 * A small copy of a plane whose longer side is at most `side`: each code the rounded mean of up to 4 x 4 evenly spread samples
 * of its cell. A plane that is small already is copied.
 */
export function smallPlane(plane: Lightness, side: number): Lightness {
  const scale = Math.min(1, side / Math.max(plane.width, plane.height));
  const width = Math.max(1, Math.round(plane.width * scale));
  const height = Math.max(1, Math.round(plane.height * scale));
  const columns = samplePlaces(plane.width, width);
  const rows = samplePlaces(plane.height, height);
  const data = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let sum = 0;
      for (const row of rows[y]) {
        for (const column of columns[x]) sum += plane.data[row * plane.width + column];
      }
      data[y * width + x] = Math.round(sum / (rows[y].length * columns[x].length));
    }
  }
  return { width, height, data };
}

/** For each of `to` cells over `from` pixels, the pixels that are looked at. */
function samplePlaces(from: number, to: number): number[][] {
  return Array.from({ length: to }, (_, cell) => {
    const low = (cell * from) / to;
    const size = from / to;
    const count = Math.min(SAMPLES, Math.max(1, Math.floor(size)));
    return Array.from({ length: count }, (_, i) => Math.floor(low + (size * (i + 0.5)) / count));
  });
}
