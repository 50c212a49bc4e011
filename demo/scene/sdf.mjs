/**
 * Signed distances of simple solids and the ways to join them. Lengths are in scene units (the
 * sitter is about two units high); a distance is negative inside the solid. All functions take
 * plain numbers, because they are called some hundred million times while the fields are baked.
 * Formulas are the usual ones of implicit modelling; the ellipsoid is a first-order approximation.
 */

export const clamp = (x, low, high) => (x < low ? low : x > high ? high : x);
export const mix = (a, b, t) => a + (b - a) * t;

/** 0 below `low`, 1 above `high`, a smooth cubic between. */
export function smoothstep(low, high, x) {
  const t = clamp((x - low) / (high - low), 0, 1);
  return t * t * (3 - 2 * t);
}

/** Union with a fillet about `k` wide. */
export function join(a, b, k) {
  const h = k - Math.abs(a - b);
  return h > 0 ? Math.min(a, b) - (h * h) / (4 * k) : Math.min(a, b);
}

/** Intersection with a rounded edge about `k` wide. */
export const meet = (a, b, k) => -join(-a, -b, k);

/** `a` without `b`, the edge rounded about `k` wide. */
export const carve = (a, b, k) => meet(a, -b, k);

export function ellipsoid(x, y, z, rx, ry, rz) {
  const ax = x / rx;
  const ay = y / ry;
  const az = z / rz;
  const k0 = Math.sqrt(ax * ax + ay * ay + az * az);
  const bx = ax / rx;
  const by = ay / ry;
  const bz = az / rz;
  const k1 = Math.sqrt(bx * bx + by * by + bz * bz);
  return k1 > 1e-9 ? (k0 * (k0 - 1)) / k1 : -Math.min(rx, ry, rz);
}

/** Distance to the segment a-b less a radius that runs from `ra` to `rb` along it. */
export function taper(x, y, z, ax, ay, az, bx, by, bz, ra, rb) {
  const px = x - ax;
  const py = y - ay;
  const pz = z - az;
  const dx = bx - ax;
  const dy = by - ay;
  const dz = bz - az;
  const t = clamp((px * dx + py * dy + pz * dz) / (dx * dx + dy * dy + dz * dz), 0, 1);
  const qx = px - dx * t;
  const qy = py - dy * t;
  const qz = pz - dz * t;
  return Math.sqrt(qx * qx + qy * qy + qz * qz) - (ra + (rb - ra) * t);
}

/** A ring round the y axis. */
export function ring(x, y, z, major, minor) {
  const q = Math.sqrt(x * x + z * z) - major;
  return Math.sqrt(q * q + y * y) - minor;
}

/** A round plate whose axis is z. */
export function plate(x, y, z, radius, half, round) {
  const dr = Math.sqrt(x * x + y * y) - radius + round;
  const dz = Math.abs(z) - half + round;
  const ox = Math.max(dr, 0);
  const oz = Math.max(dz, 0);
  return Math.min(Math.max(dr, dz), 0) + Math.sqrt(ox * ox + oz * oz) - round;
}

/** A 32-bit integer hash of three integers. */
export function hash3(x, y, z) {
  let h = Math.imul(x, 0x8da6b343) ^ Math.imul(y, 0xd8163841) ^ Math.imul(z, 0xcb1ab31f);
  h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d);
  h = Math.imul(h ^ (h >>> 12), 0x297a2d39);
  return (h ^ (h >>> 15)) >>> 0;
}

const unit = (x, y, z) => hash3(x, y, z) / 4294967296;

/** Value noise, 0 to 1, one feature per unit of length. */
export function noise(x, y, z) {
  const ix = Math.floor(x);
  const iy = Math.floor(y);
  const iz = Math.floor(z);
  let fx = x - ix;
  let fy = y - iy;
  let fz = z - iz;
  fx = fx * fx * (3 - 2 * fx);
  fy = fy * fy * (3 - 2 * fy);
  fz = fz * fz * (3 - 2 * fz);
  const a = mix(unit(ix, iy, iz), unit(ix + 1, iy, iz), fx);
  const b = mix(unit(ix, iy + 1, iz), unit(ix + 1, iy + 1, iz), fx);
  const c = mix(unit(ix, iy, iz + 1), unit(ix + 1, iy, iz + 1), fx);
  const d = mix(unit(ix, iy + 1, iz + 1), unit(ix + 1, iy + 1, iz + 1), fx);
  return mix(mix(a, b, fy), mix(c, d, fy), fz);
}

/** Three octaves of `noise`, centred on 0, about -0.5 to 0.5. */
export function clouds(x, y, z) {
  return (
    (noise(x, y, z) * 4 +
      noise(x * 2.03 + 7.1, y * 2.03 + 3.7, z * 2.03 + 1.3) * 2 +
      noise(x * 4.1 + 2.9, y * 4.1 + 8.3, z * 4.1 + 5.9)) /
      7 -
    0.5
  );
}
