/** Whether a part holds all pixels within a radius of one of its own. */

/**
 * Whether all pixels of the raster whose centres lie within `radius` of that of (x, y) have its label.
 * @param radius whole pixels, at least 0
 */
export function holdsDisc(
  labels: Int32Array,
  width: number,
  height: number,
  x: number,
  y: number,
  radius: number,
): boolean {
  const label = labels[y * width + x];
  // The far ends first: they are the likeliest to lie outside.
  if (x >= radius && labels[y * width + x - radius] !== label) return false;
  if (x + radius < width && labels[y * width + x + radius] !== label) return false;
  if (y >= radius && labels[(y - radius) * width + x] !== label) return false;
  if (y + radius < height && labels[(y + radius) * width + x] !== label) return false;
  for (let dy = -radius; dy <= radius; dy++) {
    const row = y + dy;
    if (row < 0 || row >= height) continue;
    const half = Math.floor(Math.sqrt(radius * radius - dy * dy));
    const end = row * width + Math.min(width - 1, x + half);
    for (let at = row * width + Math.max(0, x - half); at <= end; at++)
      if (labels[at] !== label) return false;
  }
  return true;
}

/** A pixel of a label in a rectangle that holds the disc; -1 if there is none. */
export function discWithin(
  labels: Int32Array,
  width: number,
  height: number,
  label: number,
  bounds: readonly [x: number, y: number, w: number, h: number],
  radius: number,
): number {
  const [left, top, w, h] = bounds;
  for (let y = top; y < top + h; y++) {
    let run = 0;
    for (let x = left; x < left + w; x++) {
      const at = y * width + x;
      if (labels[at] !== label) {
        run = 0;
        continue;
      }
      run++;
      // A middle has `radius` pixels of its own before it, or the border of the picture.
      if (run <= radius && run <= x) continue;
      if (holdsDisc(labels, width, height, x, y, radius)) return at;
    }
  }
  return -1;
}

/**
 * The pixel of each label that lies farthest from other labels, up to a distance, and how far: squared distances between
 * centres, exact below `cap` (the column scan and row search of Saito & Toriwaki 1994, "New algorithms for Euclidean distance
 * transformation"). The world beyond the raster is nobody's.
 * @param cap whole pixels; what lies farther counts as (cap + 1)^2
 */
export function roomiest(
  labels: Int32Array,
  count: number,
  width: number,
  height: number,
  cap: number,
): { at: Int32Array; squared: Int32Array } {
  const size = width * height;
  const far = cap + 1;
  // The distance to the nearest other label in the column.
  const up = new Int32Array(size);
  for (let i = 0; i < width; i++) up[i] = far;
  for (let i = width; i < size; i++)
    up[i] = labels[i] === labels[i - width] ? Math.min(far, up[i - width] + 1) : 1;
  const below = new Int32Array(width).fill(far);
  const at = new Int32Array(count).fill(-1);
  const squared = new Int32Array(count);
  for (let y = height - 1; y >= 0; y--) {
    const row = y * width;
    for (let x = 0; x < width; x++) {
      const i = row + x;
      if (y + 1 < height)
        below[x] = labels[i] === labels[i + width] ? Math.min(far, below[x] + 1) : 1;
      up[i] = Math.min(up[i], below[x]);
    }
    for (let x = 0; x < width; x++) {
      const i = row + x;
      const label = labels[i];
      let best = up[i] * up[i];
      if (best <= squared[label]) continue;
      for (let d = 1; d < far && d * d < best; d++) {
        if (x >= d) {
          const v = labels[i - d] === label ? up[i - d] : 0;
          best = Math.min(best, d * d + v * v);
        }
        if (x + d < width) {
          const v = labels[i + d] === label ? up[i + d] : 0;
          best = Math.min(best, d * d + v * v);
        }
        if (best <= squared[label]) break;
      }
      if (best > squared[label]) {
        squared[label] = best;
        at[label] = i;
      }
    }
  }
  return { at, squared };
}
