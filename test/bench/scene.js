/**
 * Something like a photo, computed: large soft shapes with edges, texture of several sizes and grain, so that tables, caches
 * and the JPEG coder meet what they would meet in a photo. The same size gives the same picture.
 */

/** A repeatable hash of a lattice point to 0..1. */
function chance(x, y, seed) {
  let h = (Math.imul(x, 374761393) + Math.imul(y, 668265263) + Math.imul(seed, 2246822519)) | 0;
  h = Math.imul(h ^ (h >>> 13), 1274126177);
  return ((h ^ (h >>> 16)) >>> 0) / 4294967296;
}

/** Smooth noise, 0..1, `cells` lattice cells across `size` samples a side; wraps round. */
function noiseTile(size, cells, seed) {
  const tile = new Float32Array(size * size);
  const step = size / cells;
  for (let y = 0; y < size; y++) {
    const cy = Math.floor(y / step);
    const v = y / step - cy;
    const sv = v * v * (3 - 2 * v);
    for (let x = 0; x < size; x++) {
      const cx = Math.floor(x / step);
      const u = x / step - cx;
      const su = u * u * (3 - 2 * u);
      const at = (i, j) => chance((cx + i) % cells, (cy + j) % cells, seed);
      const top = at(0, 0) + su * (at(1, 0) - at(0, 0));
      const bottom = at(0, 1) + su * (at(1, 1) - at(0, 1));
      tile[y * size + x] = top + sv * (bottom - top);
    }
  }
  return tile;
}

/** Colours of the shapes, from dark to light. */
const GROUNDS = [
  [38, 44, 52],
  [86, 74, 58],
  [122, 128, 96],
  [168, 150, 128],
  [196, 206, 214],
  [240, 232, 212],
];

/**
 * @returns opaque RGBA, `width` x `height` x 4
 */
export function scene(width, height) {
  const data = new Uint8ClampedArray(4 * width * height);
  const words = new Uint32Array(data.buffer);
  const size = 512;
  const mask = size - 1;
  const coarse = noiseTile(size, 6, 1);
  const middle = noiseTile(size, 32, 2);
  const fine = noiseTile(size, 128, 3);
  const grain = new Float32Array(1 << 16).map((_, i) => chance(i, 7, 4) - 0.5);
  let g = 1;
  for (let y = 0; y < height; y++) {
    const sky = 1 - y / height;
    const cy = ((y / height) * size) & mask;
    for (let x = 0; x < width; x++) {
      const cx = ((x / width) * size) & mask;
      const shape = 0.72 * coarse[cy * size + cx] + 0.38 * sky - 0.05;
      const level = Math.max(0, Math.min(5, Math.floor(6 * shape)));
      const [r, gr, b] = GROUNDS[level];
      g = (Math.imul(g, 1664525) + 1013904223) | 0;
      const shade =
        46 * (middle[((y >> 1) & mask) * size + ((x >> 1) & mask)] - 0.5) +
        22 * (fine[(y & mask) * size + (x & mask)] - 0.5) +
        7 * grain[g >>> 16];
      const clamp = (v) => (v < 0 ? 0 : v > 255 ? 255 : v | 0);
      words[y * width + x] =
        (0xff000000 |
          (clamp(b + 0.8 * shade) << 16) |
          (clamp(gr + shade) << 8) |
          clamp(r + 1.1 * shade)) >>>
        0;
    }
  }
  return data;
}

/** The scene as a JPEG file of quality 0.9. */
export async function scenePhoto(width, height) {
  const canvas = new OffscreenCanvas(width, height);
  canvas.getContext('2d').putImageData(new ImageData(scene(width, height), width, height), 0, 0);
  return canvas.convertToBlob({ type: 'image/jpeg', quality: 0.9 });
}
