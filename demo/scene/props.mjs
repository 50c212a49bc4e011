/** What stands round the sitter: the cloth, a pear, a jug and two cherries. Axes of each: y up. */
import { carve, clamp, clouds, ellipsoid, join, mix, noise, smoothstep, taper } from './sdf.mjs';

export function pearDistance(x, y, z) {
  const bend = 0.05 * smoothstep(0.3, 0.9, y);
  const px = x - bend;
  const lump = 0.03 * clouds(x * 2.2, y * 2.2, z * 2.2);
  let d = ellipsoid(px, y - 0.285, z, 0.295, 0.29, 0.29);
  d = join(d, ellipsoid(px - 0.01, y - 0.61, z, 0.132, 0.18, 0.135), 0.2);
  d = carve(d, ellipsoid(px - 0.02, y - 0.83, z, 0.05, 0.06, 0.05), 0.08);
  return d - lump;
}

/** A chain of round rods: rows of x, y, z and radius. */
function rods(x, y, z, rows) {
  let d = 9;
  for (let i = 0; i + 1 < rows.length; i++) {
    const a = rows[i];
    const b = rows[i + 1];
    d = Math.min(d, taper(x, y, z, a[0], a[1], a[2], b[0], b[1], b[2], a[3], b[3]));
  }
  return d;
}

const STEM = [
  [0.06, 0.72, 0, 0.012],
  [0.07, 0.8, 0, 0.01],
  [0.1, 0.87, 0.005, 0.01],
  [0.15, 0.92, 0.015, 0.012],
  [0.205, 0.945, 0.03, 0.018],
];
export const stemDistance = (x, y, z) => rods(x, y, z, STEM);

/** Two cherries on one stalk: centre and radius of each. */
const CHERRIES = [
  [0, 0.086, 0, 0.088],
  [0.2, 0.076, 0.12, 0.08],
];
const STALKS = CHERRIES.map(([x, y, z, r]) => {
  const a = [x + 0.03, y + r * 0.7, z - 0.02];
  const b = [x + 0.1, y + r * 2.3, z - 0.07];
  const c = [mix(x, 0.44, 0.66), 0.2, mix(z, -0.18, 0.66)];
  const d = [0.44, 0.05, -0.18];
  return Array.from({ length: 10 }, (_, i) => {
    const t = i / 9;
    const u = 1 - t;
    const at = (k) =>
      u * u * u * a[k] + 3 * u * u * t * b[k] + 3 * u * t * t * c[k] + t * t * t * d[k];
    return [at(0), at(1), at(2), 0.0062 + 0.003 * (2 * t - 1) ** 4];
  });
});

export function cherriesDistance(x, y, z) {
  let d = 9;
  for (const [cx, cy, cz, r] of CHERRIES) {
    let one = ellipsoid(x - cx, y - cy, z - cz, r, r * 0.97, r);
    one = carve(
      one,
      ellipsoid(x - cx - 0.034, y - cy - r * 1.02, z - cz + 0.022, 0.024, 0.034, 0.024),
      0.05,
    );
    d = Math.min(d, one);
  }
  return d;
}

export const stalksDistance = (x, y, z) =>
  Math.min(rods(x, y, z, STALKS[0]), rods(x, y, z, STALKS[1]));

export function jugDistance(x, y, z) {
  const r = Math.sqrt(x * x + z * z);
  let d = ellipsoid(x, y - 0.52, z, 0.5, 0.53, 0.5);
  d = join(d, taper(x, y, z, 0, 0.95, 0, 0, 1.28, 0, 0.235, 0.215), 0.22);
  d = join(d, Math.sqrt((r - 0.235) ** 2 + (y - 1.42) ** 2) - 0.036, 0.12);
  d = join(d, Math.max(Math.abs(y - 0.05) - 0.05, r - 0.3), 0.06);
  d = Math.max(d, y - 1.456);
  d = carve(d, taper(x, y, z, 0, 1.0, 0, 0, 1.7, 0, 0.185, 0.2), 0.03);
  const hx = x - 0.36;
  const handle = Math.max(
    Math.sqrt(
      (Math.sqrt((hx / 0.9) ** 2 + ((y - 0.98) / 1.25) ** 2) - 0.25) ** 2 + (z * 0.8) ** 2,
    ) - 0.042,
    -hx - 0.14,
  );
  d = join(d, handle * 0.85, 0.05);
  return Math.max(d - 0.0025 * Math.sin(y * 62 + Math.sin(Math.atan2(z, x)) * 0.6), -y);
}

/**
 * Folds of the cloth: a line on the table, the width of the fold, its height, how steep one flank
 * is against the other (0 even, 1 very uneven). Each dies out towards both ends.
 */
const FOLDS = [
  [-1.75, 0.95, -0.35, 1.32, 0.2, 0.13, 0.5],
  [-0.45, 1.56, 0.95, 1.2, 0.15, 0.14, 0.4],
  [0.3, 1.02, 1.9, 0.25, 0.13, 0.15, 0.6],
  [0.85, 0.75, 1.95, 0.75, 0.13, 0.1, 0.4],
  [-1.9, 0.35, -0.95, 0.02, 0.15, 0.12, 0.5],
  [-1.85, -0.35, -0.7, -0.42, 0.2, 0.17, 0.4],
  [-1.7, -0.95, -0.2, -0.85, 0.22, 0.2, 0.3],
  [-0.7, -1.3, 0.6, -1.25, 0.2, 0.2, 0.4],
  [-2.6, -1.5, -0.3, -1.85, 0.3, 0.3, 0.3],
  [-0.9, -1.95, 1.1, -1.6, 0.28, 0.26, 0.5],
  [0.6, -1.75, 2.6, -1.6, 0.3, 0.3, 0.3],
  [-1.05, 1.62, 0.2, 1.72, 0.2, 0.14, 0.5],
  [0.35, 1.62, 1.35, 1.25, 0.15, 0.1, 0.3],
  [1.3, -0.1, 2.1, -0.5, 0.2, 0.15, 0.5],
  [-0.95, 1.1, -0.55, 0.62, 0.09, 0.05, 0.5],
  [0.75, 1.45, 0.95, 0.6, 0.08, 0.05, 0.5],
];
/** Places where the cloth is pressed flat: x, z, radius. */
const PRESSED = [
  [0.12, 0.1, 0.85],
  [-0.71, 0.38, 0.34],
  [0.82, -0.88, 0.52],
  [-0.42, 0.93, 0.15],
  [-0.33, 1.15, 0.19],
  [0.0, 1.04, 0.12],
];

function clothHeight(x, z) {
  const wx = x + 0.16 * clouds(x * 1.1 + 4, 0.5, z * 1.1);
  const wz = z + 0.16 * clouds(x * 1.1 + 9, 2.5, z * 1.1);
  let h = 0;
  for (const [ax, az, bx, bz, width, height, uneven] of FOLDS) {
    const dx = bx - ax;
    const dz = bz - az;
    const long = Math.sqrt(dx * dx + dz * dz);
    const t = ((wx - ax) * dx + (wz - az) * dz) / (long * long);
    const fade = smoothstep(-0.12, 0.35, t) * smoothstep(1.12, 0.6, t);
    if (fade === 0) continue;
    let across = ((wx - ax) * dz - (wz - az) * dx) / long;
    across += 0.07 * Math.sin(t * 4.4 + ax * 3);
    const w = width * (across > 0 ? 1 + uneven : 1 - 0.6 * uneven) * mix(0.75, 1.2, t);
    const q = clamp(Math.abs(across) / w, 0, 3);
    const profile = 1 / (1 + q * q * 1.4 + q * q * q * q * 0.8);
    const fold = 1.5 * height * fade * profile;
    h = -join(-h, -fold, 0.6 * Math.min(h, fold) + 1e-6);
  }
  h += 0.02 * clouds(x * 2.3, 1.5, z * 2.3) + 0.006 * noise(x * 9, 3.5, z * 9);
  const crease = 1 - 5 * Math.abs(clouds(wx * 1.1 + wz * 0.7, 6.5, wz * 2.1 - wx * 0.8));
  if (crease > 0) h += 0.05 * crease * crease * (3 - 2 * crease);
  let flat = 1;
  for (const [px, pz, radius] of PRESSED) {
    const far = Math.sqrt((x - px) ** 2 + (z - pz) ** 2);
    flat *= smoothstep(radius * 0.8, radius * 1.45, far);
  }
  return h * flat;
}

export const clothDistance = (x, y, z) => (y - clothHeight(x, z)) * 0.62;
