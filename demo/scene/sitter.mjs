/**
 * The sitter: an invented figure of a small dog in glazed clay. Its axes: y up, z the way the body
 * faces, x to its own left; it sits on y = 0 and is about two units high. The head has axes of its
 * own (centre of the skull, z along the muzzle), turned against the body.
 */
import {
  carve,
  clamp,
  clouds,
  ellipsoid,
  hash3,
  join,
  meet,
  mix,
  plate,
  ring,
  smoothstep,
  taper,
} from './sdf.mjs';

const HEAD = { x: 0.0, y: 1.63, z: 0.2, turn: 0.3, nod: 0.08, tilt: 0.12 };

/** Rows: the head's x, y and z axes in the body's axes. */
const HEAD_AXES = (() => {
  const [ct, st] = [Math.cos(HEAD.turn), Math.sin(HEAD.turn)];
  const [cn, sn] = [Math.cos(HEAD.nod), Math.sin(HEAD.nod)];
  const [cr, sr] = [Math.cos(HEAD.tilt), Math.sin(HEAD.tilt)];
  const x = [ct, 0, -st];
  const z = [st * cn, -sn, ct * cn];
  const y = [z[1] * x[2] - z[2] * x[1], z[2] * x[0] - z[0] * x[2], z[0] * x[1] - z[1] * x[0]];
  return [
    [cr * x[0] + sr * y[0], cr * x[1] + sr * y[1], cr * x[2] + sr * y[2]],
    [cr * y[0] - sr * x[0], cr * y[1] - sr * x[1], cr * y[2] - sr * x[2]],
    z,
  ];
})();
const [HX, HY, HZ] = HEAD_AXES;

const toHeadX = (x, y, z) => HX[0] * (x - HEAD.x) + HX[1] * (y - HEAD.y) + HX[2] * (z - HEAD.z);
const toHeadY = (x, y, z) => HY[0] * (x - HEAD.x) + HY[1] * (y - HEAD.y) + HY[2] * (z - HEAD.z);
const toHeadZ = (x, y, z) => HZ[0] * (x - HEAD.x) + HZ[1] * (y - HEAD.y) + HZ[2] * (z - HEAD.z);

/** A point of the head, in the body's axes. */
export const fromHead = (p) => [
  HEAD.x + HX[0] * p[0] + HY[0] * p[1] + HZ[0] * p[2],
  HEAD.y + HX[1] * p[0] + HY[1] * p[1] + HZ[1] * p[2],
  HEAD.z + HX[2] * p[0] + HY[2] * p[1] + HZ[2] * p[2],
];

const EYE = { x: 0.133, y: 0.042, z: 0.232, radius: 0.061 };
export const EYES = [1, -1].map((side) => ({
  centre: fromHead([EYE.x * side, EYE.y, EYE.z]),
  radius: EYE.radius,
}));

/** One ear, in the head's axes; u (along it, from the root) is left in `earRun`. */
function ear(x, y, z) {
  // Along the ear downwards (u), across (v), through (w); it wraps the cheek and swings out below.
  const px = Math.abs(x) - 0.25;
  const py = y - 0.13;
  const u = 0.18 * px - 0.984 * py;
  let w = 0.984 * px + 0.18 * py;
  const v = z + 0.03 - 0.1 * u;
  w += v * v * 0.9 - 0.1 * Math.sin(clamp(u, 0, 0.6) * 5.2) + 0.03;
  const width = 0.095 + 0.085 * smoothstep(0, 0.4, u);
  earRun = u;
  return ellipsoid(w, u - 0.26, v, 0.046, 0.315, width) * 0.8;
}
let earRun = 0;

function headDistance(x, y, z) {
  const hx = toHeadX(x, y, z);
  const hy = toHeadY(x, y, z);
  const hz = toHeadZ(x, y, z);
  const ax = Math.abs(hx);
  let d = ellipsoid(hx, hy - 0.02, hz + 0.02, 0.3, 0.275, 0.31);
  d = join(d, ellipsoid(ax - 0.14, hy + 0.09, hz - 0.12, 0.15, 0.14, 0.17), 0.1);
  let muzzle = taper(hx, hy, hz, 0, -0.075, 0.18, 0, -0.09, 0.42, 0.155, 0.108);
  muzzle = join(muzzle, ellipsoid(ax - 0.066, hy + 0.128, hz - 0.405, 0.085, 0.085, 0.125), 0.045);
  d = join(d, muzzle, 0.09);
  d = join(d, taper(hx, hy, hz, 0, -0.196, 0.41, 0, -0.165, 0.1, 0.046, 0.125), 0.012);
  d = join(d, ellipsoid(ax - 0.105, hy - 0.145, hz - 0.205, 0.075, 0.042, 0.06), 0.08);
  // Sockets, then lids round the eyeball.
  const ex = ax - EYE.x;
  const ey = hy - EYE.y;
  const ez = hz - EYE.z;
  const eye = Math.sqrt(ex * ex + ey * ey + ez * ez);
  d = carve(d, ellipsoid(ex - 0.008, ey, ez - 0.05, 0.074, 0.068, 0.066), 0.045);
  const upper = -(ey - 0.055 + 0.1 * ex + 0.03 * ez);
  const lower = ey + 0.054 - 0.03 * ex - 0.05 * ez;
  const shell = Math.abs(eye - EYE.radius - 0.002) - 0.008;
  d = join(d, meet(shell, upper, 0.012), 0.022);
  d = join(d, meet(shell, lower, 0.012), 0.022);
  // The cleft below the nose.
  d = carve(d, taper(hx, hy, hz, 0, -0.06, 0.548, 0, -0.15, 0.545, 0.009, 0.008), 0.022);
  d = join(d, noseDistance(hx, hy, hz), 0.014);
  const flap = ear(hx, hy, hz);
  d = join(d, flap, mix(0.07, 0.014, smoothstep(-0.05, 0.12, earRun)));
  return d;
}

function noseDistance(hx, hy, hz) {
  const ax = Math.abs(hx);
  let d = ellipsoid(hx, hy + 0.012, hz - 0.525, 0.075, 0.05, 0.055);
  d = join(d, ellipsoid(ax - 0.042, hy + 0.026, hz - 0.535, 0.036, 0.032, 0.042), 0.02);
  d = carve(d, ellipsoid(ax - 0.037, hy + 0.028, hz - 0.582, 0.017, 0.013, 0.03), 0.012);
  return carve(d, taper(hx, hy, hz, 0, -0.02, 0.585, 0, -0.07, 0.572, 0.004, 0.005), 0.012);
}

/** Trunk and neck: what the ribbon is tied round. */
function trunkDistance(x, y, z) {
  let d = taper(x, y, z, 0, 0.47, -0.34, 0, 0.98, 0.06, 0.44, 0.345);
  d = join(d, ellipsoid(x, y - 0.86, z - 0.16, 0.3, 0.36, 0.29), 0.14);
  return join(d, taper(x, y, z, 0, 1.05, 0.05, 0, 1.5, 0.15, 0.275, 0.225), 0.16);
}

const toes = (x, z, from) => {
  const reach = smoothstep(from, from + 0.06, z);
  return Math.min(Math.abs(x - 0.042), Math.abs(x + 0.042)) + (1 - reach) * 0.1;
};

function limbsDistance(x, y, z) {
  const ax = Math.abs(x);
  let d = ellipsoid(ax - 0.33, y - 0.43, z + 0.12, 0.2, 0.36, 0.36);
  d = join(d, taper(ax, y, z, 0.4, 0.4, 0.1, 0.42, 0.12, -0.02, 0.15, 0.1), 0.12);
  // Hind paw, foreleg, forepaw; grooves between the toes.
  let hind = ellipsoid(ax - 0.42, y - 0.085, z - 0.2, 0.125, 0.092, 0.27);
  hind = carve(hind, Math.max(toes(ax - 0.42, z, 0.32) - 0.006, 0.03 - y), 0.022);
  d = join(d, hind, 0.05);
  let fore = taper(ax, y, z, 0.2, 0.84, 0.16, 0.165, 0.42, 0.32, 0.18, 0.118);
  fore = join(fore, taper(ax, y, z, 0.165, 0.42, 0.32, 0.165, 0.1, 0.38, 0.118, 0.1), 0.06);
  let paw = ellipsoid(ax - 0.17, y - 0.085, z - 0.47, 0.125, 0.09, 0.175);
  paw = carve(paw, Math.max(toes(ax - 0.17, z, 0.5) - 0.006, 0.03 - y), 0.022);
  return { legs: d, fore: join(fore, paw, 0.05) };
}

const TAIL = [
  [0.05, 0.16, -0.72, 0.1],
  [0.36, 0.11, -0.8, 0.1],
  [0.62, 0.09, -0.6, 0.095],
  [0.72, 0.085, -0.3, 0.085],
  [0.72, 0.09, -0.04, 0.062],
  [0.69, 0.12, 0.1, 0.03],
];

function tailDistance(x, y, z) {
  let d = 9;
  for (let i = 0; i + 1 < TAIL.length; i++) {
    const a = TAIL[i];
    const b = TAIL[i + 1];
    d = join(d, taper(x, y, z, a[0], a[1], a[2], b[0], b[1], b[2], a[3], b[3]), 0.05);
  }
  return d;
}

export function sitterDistance(x, y, z) {
  let d = trunkDistance(x, y, z);
  const { legs, fore } = limbsDistance(x, y, z);
  d = join(d, legs, 0.07);
  d = join(d, fore, 0.06);
  d = join(d, headDistance(x, y, z), 0.09);
  d = join(d, tailDistance(x, y, z), 0.05);
  return Math.max(d, -y);
}

// The ribbon: a band round the neck, a bow on the side that faces the viewer.

const BAND = { y: 1.31, z: 0.11, ny: 0.93, nz: 0.36, half: 0.062 };
const BOW_TURN = 0.62;
const [BOW_C, BOW_S] = [Math.cos(BOW_TURN), Math.sin(BOW_TURN)];
const BOW = { out: 0.335, y: 1.225, z: 0.095 };

export function ribbonDistance(x, y, z) {
  const trunk = trunkDistance(x, y, z);
  const across = BAND.ny * (y - BAND.y) + BAND.nz * (z - BAND.z);
  const ripple = 0.006 * Math.sin(9 * Math.atan2(x, z - 0.1) + across * 30);
  let d = meet(Math.abs(trunk - 0.022 - ripple) - 0.014, Math.abs(across) - BAND.half, 0.02);

  // Axes of the bow: r to the viewer's right, u up, o outwards.
  const r = BOW_C * x - BOW_S * (z - BOW.z);
  const o = BOW_S * x + BOW_C * (z - BOW.z) - BOW.out;
  const u = y - BOW.y;
  const ar = Math.abs(r);
  const side = r > 0 ? 1 : -1;

  // Loops: a flat ring seen half from above, drawn together at the knot.
  const lift = u - ar * 0.18 + (r > 0 ? 0.01 : -0.005);
  const e2 = lift * 0.86 + (o - 0.035) * 0.5;
  const e3 = -lift * 0.5 + (o - 0.035) * 0.86;
  const reach = 0.125;
  const crease = 0.007 * Math.cos(e3 * 75 + side * 0.8) * (1 - smoothstep(0.08, 0.24, ar));
  const swell = 0.03 + 0.05 * smoothstep(0.02, 0.17, ar) + crease;
  const q = Math.sqrt(((ar - reach) / 0.125) ** 2 + (e2 / swell) ** 2);
  const loop = Math.abs(q - 1) * Math.min(0.125, swell) * 0.9 - 0.011;
  const width = 0.03 + 0.045 * smoothstep(0, 0.18, ar);
  d = Math.min(d, meet(loop, Math.abs(e3) - width, 0.014) * 0.8);

  // Tails: strips that lie on the chest, a little lifted in waves.
  for (const hand of [-1, 1]) {
    const lean = hand > 0 ? 0.42 : -0.3;
    const long = hand > 0 ? 0.36 : 0.31;
    const along = -u * Math.cos(lean) + r * Math.sin(lean);
    const aside = r * Math.cos(lean) + u * Math.sin(lean);
    const wave = 0.024 + 0.022 * Math.sin(along * 17 + hand) * smoothstep(0.02, 0.16, along);
    const notch = along - long + 0.05 - Math.abs(aside) * 0.9;
    const strip = Math.max(
      Math.abs(aside) - 0.03 - 0.032 * smoothstep(0, 0.3, along),
      Math.max(notch, -along),
    );
    const shell = Math.abs(trunk - wave - 0.01) - 0.01;
    d = Math.min(d, meet(Math.max(shell, -o - 0.3), strip, 0.012) * 0.8);
  }
  return join(d, ellipsoid(r, u, o - 0.03, 0.045, 0.052, 0.042), 0.012);
}

// The brass tag hangs below the band, in the middle of the chest.

const TAG = { y: 1.06, z: 0.478, lean: -0.16 };
export function tagDistance(x, y, z) {
  const py = y - TAG.y;
  const pz = z - TAG.z;
  const c = Math.cos(TAG.lean);
  const s = Math.sin(TAG.lean);
  const ty = c * py + s * pz;
  const tz = -s * py + c * pz;
  let d = plate(x, ty, tz, 0.068, 0.011, 0.008);
  const r = Math.sqrt(x * x + ty * ty);
  d = join(d, Math.sqrt((r - 0.06) ** 2 + (tz - 0.009) ** 2) - 0.006, 0.006);
  d = Math.min(d, ring(tz, x, ty - 0.085, 0.022, 0.006));
  return d;
}

/** Whiskers: chains of points with radii, in the body's axes. */
export const WHISKERS = (() => {
  const chains = [];
  for (const side of [1, -1]) {
    for (let i = 0; i < 5; i++) {
      const root = [side * (0.118 + 0.008 * (i % 2)), -0.1 - 0.018 * i, 0.45 - 0.035 * (i % 3)];
      const away = [side * (0.8 + 0.05 * i), 0.28 - 0.2 * i, 0.28 - 0.14 * (i % 3)];
      const long = 0.17 + 0.045 * ((i * 2) % 3);
      const points = [];
      for (let k = 0; k <= 6; k++) {
        const t = k / 6;
        const p = fromHead([
          root[0] + away[0] * long * t,
          root[1] + away[1] * long * t - 0.13 * t * t,
          root[2] + away[2] * long * t - 0.05 * t * t,
        ]);
        points.push([p[0], p[1], p[2], 0.0026 * (1 - 0.7 * t)]);
      }
      chains.push(points);
    }
  }
  return chains;
})();

/** 1 on the dark nose, 0 beside it. */
function noseShare(hx, hy, hz) {
  return 1 - smoothstep(0.001, 0.007, noseDistance(hx, hy, hz));
}

/**
 * Glaze of the sitter at a point of its surface.
 * @param out receives `r, g, b` (linear reflectance, 0 to 1), `nose` and `muzzle` (0 to 1)
 */
export function sitterGlaze(x, y, z, out) {
  const hx = toHeadX(x, y, z);
  const hy = toHeadY(x, y, z);
  const hz = toHeadZ(x, y, z);
  const ax = Math.abs(hx);
  const wobble = clouds(x * 5, y * 5, z * 5) * 0.16 + clouds(x * 19, y * 19, z * 19) * 0.045;
  const nose = hz > 0.42 && hy > -0.12 ? noseShare(hx, hy, hz) : 0;

  // Pale where negative: muzzle, a blaze up the brow, chest and belly, feet, tip of the tail.
  const muzzle = ellipsoid(hx, hy + 0.16, hz - 0.45, 0.19, 0.17, 0.27);
  const blaze = Math.max(ax - 0.035 - 0.05 * smoothstep(0.1, 0.3, hy), 0.1 - hz) * 0.8;
  const bib = ellipsoid(x, y - 0.86, z - 0.5, 0.24, 0.5, 0.36);
  const sock = Math.max(y - 0.27 + 0.35 * Math.max(0, 0.2 - z), -0.05 - z);
  const tip = 0.02 - z + 4 * Math.max(0, 0.58 - Math.abs(x)) + 4 * Math.max(0, y - 0.2);
  let edge = join(join(muzzle, blaze, 0.08), join(bib, sock, 0.12), 0.05);
  edge = Math.min(edge, tip);
  const earSide = ear(hx, hy, hz);
  edge = Math.max(edge, 0.05 - Math.max(earSide, 0) * 3);
  edge = edge + wobble;
  const pale = 1 - smoothstep(-0.035, 0.035, edge);

  // The brown deepens on the ears and along the back, and breaks lighter here and there.
  const depth = clamp(
    0.85 * (1 - smoothstep(0.004, 0.03, earSide)) +
      0.4 * smoothstep(0.1, -0.5, z) * smoothstep(0.2, 0.9, y) +
      clouds(x * 3, y * 3, z * 3) * 0.7,
    0,
    1,
  );
  const speck = smoothstep(0.2, 0.3, clouds(x * 60, y * 60, z * 60));
  out.r = mix(mix(0.36, 0.15, depth), 0.78, pale);
  out.g = mix(mix(0.185, 0.07, depth), 0.7, pale);
  out.b = mix(mix(0.085, 0.036, depth), 0.57, pale);
  const dim = 1 - 0.3 * speck;
  out.r = mix(out.r * dim, 0.014, nose);
  out.g = mix(out.g * dim, 0.012, nose);
  out.b = mix(out.b * dim, 0.012, nose);
  out.nose = nose;
  out.muzzle = y > 1.3 ? smoothstep(0.2, 0.36, hz) : 0;
}

/** The way the coat lies at a point: away from the nose on the head, back and down on the body. */
function coatFlow(x, y, z, out) {
  const head = smoothstep(1.2, 1.42, y);
  let vx = x * 0.5;
  let vy = -1;
  let vz = -0.35 + z * 0.3;
  if (head > 0) {
    const hx = toHeadX(x, y, z);
    const hy = toHeadY(x, y, z);
    const hz = toHeadZ(x, y, z) - 0.5;
    const onEar = smoothstep(0.23, 0.3, Math.abs(hx));
    const lx = hx * 1.1;
    const ly = mix(hy * 1.2 + 0.05, -0.8, onEar);
    const lz = mix(hz, -0.12, onEar);
    vx = mix(vx, HX[0] * lx + HY[0] * ly + HZ[0] * lz, head);
    vy = mix(vy, HX[1] * lx + HY[1] * ly + HZ[1] * lz, head);
    vz = mix(vz, HX[2] * lx + HY[2] * ly + HZ[2] * lz, head);
  }
  const n = 1 / Math.sqrt(vx * vx + vy * vy + vz * vz + 1e-9);
  out[0] = vx * n;
  out[1] = vy * n;
  out[2] = vz * n;
}

const flow = [0, 0, 0];

/**
 * The strokes cut into the clay before glazing, where the surface has the normal (nx, ny, nz): two
 * sets of short grooves that follow the coat.
 * @param out receives the depth, 0 (none) to 1 (bottom of a stroke), and its slope along x, y, z
 */
export function strokes(x, y, z, nx, ny, nz, out) {
  out[0] = 0;
  out[1] = 0;
  out[2] = 0;
  out[3] = 0;
  coatFlow(x, y, z, flow);
  const off = flow[0] * nx + flow[1] * ny + flow[2] * nz;
  if (off * off > 0.8) return;
  const k = 1 / Math.sqrt(1 - off * off);
  flow[0] = (flow[0] - nx * off) * k;
  flow[1] = (flow[1] - ny * off) * k;
  flow[2] = (flow[2] - nz * off) * k;
  strokeSet(x / 0.05, y / 0.05, z / 0.05, 1 / 0.05, nx, ny, nz, out);
  strokeSet(x / 0.036 + 31.7, y / 0.036 + 11.3, z / 0.036 + 5.9, 1 / 0.036, nx, ny, nz, out);
}

/** One set of grooves, one groove to each cell of a unit grid, at about its own depth. */
function strokeSet(gx, gy, gz, scale, nx, ny, nz, out) {
  const ix = Math.floor(gx - 0.5);
  const iy = Math.floor(gy - 0.5);
  const iz = Math.floor(gz - 0.5);
  for (let corner = 0; corner < 8; corner++) {
    const jx = ix + (corner & 1);
    const jy = iy + ((corner >> 1) & 1);
    const jz = iz + (corner >> 2);
    const h = hash3(jx, jy, jz);
    const px = gx - jx - 0.3 - ((h & 255) / 255) * 0.4;
    const py = gy - jy - 0.3 - (((h >> 8) & 255) / 255) * 0.4;
    const pz = gz - jz - 0.3 - (((h >> 16) & 255) / 255) * 0.4;
    const above = px * nx + py * ny + pz * nz;
    const sunk = 1 - above * above * 2.6;
    if (sunk <= 0) continue;
    const t = clamp(px * flow[0] + py * flow[1] + pz * flow[2], -0.68, 0.68);
    const qx = px - flow[0] * t - nx * above;
    const qy = py - flow[1] * t - ny * above;
    const qz = pz - flow[2] * t - nz * above;
    const wide = 0.115 * (1 - 0.85 * Math.abs(t + 0.1));
    const d2 = (qx * qx + qy * qy + qz * qz) / (wide * wide);
    if (d2 >= 1) continue;
    const most = sunk * (0.3 + 0.7 * ((h >>> 24) / 255));
    const deep = (1 - d2) * most;
    if (deep <= out[0]) continue;
    const slope = (-2 * most * scale) / (wide * wide);
    out[0] = deep;
    out[1] = qx * slope;
    out[2] = qy * slope;
    out[3] = qz * slope;
  }
}
