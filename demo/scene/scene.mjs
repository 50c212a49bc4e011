/**
 * The scene: where things stand, how a ray finds them, and what their surfaces are like.
 * World axes: x right, y up, z towards the viewer; the cloth lies about y = 0.
 */
import { Field } from './field.mjs';
import {
  cherriesDistance,
  clothDistance,
  jugDistance,
  pearDistance,
  stalksDistance,
  stemDistance,
} from './props.mjs';
import { clamp, clouds, mix, noise, smoothstep } from './sdf.mjs';
import {
  EYES,
  WHISKERS,
  fromHead,
  ribbonDistance,
  sitterDistance,
  sitterGlaze,
  strokes,
  tagDistance,
} from './sitter.mjs';

export const WALL_Z = -2.6;

/** Kinds of surface. */
export const KIND = {
  none: 0,
  sitter: 1,
  ribbon: 2,
  tag: 3,
  eye: 4,
  whisker: 5,
  pear: 6,
  stem: 7,
  jug: 8,
  cherry: 9,
  cloth: 10,
  wall: 11,
};

const SITTER_PLACE = { x: 0.13, y: 0, z: 0.05, turn: -0.62 };

const PEAR_PLACE = { x: -0.71, y: 0, z: 0.38, turn: 0.5 };
const CHERRY_PLACE = { x: -0.42, y: 0, z: 0.93, turn: -0.64 };

/** Shapes that are baked: box in their own axes, cell at full quality, place and turn (radians). */
const SHAPES = [
  {
    kind: KIND.sitter,
    distance: sitterDistance,
    box: [-0.62, 1.2, -0.32, 0.62, 2.02, 0.86],
    cell: 0.0068,
    place: SITTER_PLACE,
  },
  {
    kind: KIND.sitter,
    distance: sitterDistance,
    box: [-0.72, -0.03, -0.98, 0.86, 1.24, 0.72],
    cell: 0.0105,
    place: SITTER_PLACE,
  },
  {
    kind: KIND.ribbon,
    distance: ribbonDistance,
    box: [-0.42, 0.76, -0.34, 0.64, 1.56, 0.66],
    cell: 0.007,
    place: SITTER_PLACE,
  },
  {
    kind: KIND.tag,
    distance: tagDistance,
    box: [-0.1, 0.96, 0.4, 0.1, 1.2, 0.56],
    cell: 0.003,
    place: SITTER_PLACE,
  },
  {
    kind: KIND.pear,
    distance: pearDistance,
    box: [-0.36, -0.03, -0.34, 0.36, 0.84, 0.34],
    cell: 0.009,
    place: PEAR_PLACE,
  },
  {
    kind: KIND.stem,
    distance: stemDistance,
    box: [0.02, 0.68, -0.04, 0.26, 0.99, 0.08],
    cell: 0.005,
    place: PEAR_PLACE,
  },
  {
    kind: KIND.cherry,
    distance: cherriesDistance,
    box: [-0.13, -0.02, -0.13, 0.33, 0.2, 0.24],
    cell: 0.006,
    place: CHERRY_PLACE,
  },
  {
    kind: KIND.stem,
    distance: stalksDistance,
    box: [-0.04, 0.02, -0.26, 0.52, 0.28, 0.16],
    cell: 0.0045,
    place: CHERRY_PLACE,
  },
  {
    kind: KIND.jug,
    distance: jugDistance,
    box: [-0.55, -0.02, -0.55, 0.72, 1.5, 0.55],
    cell: 0.012,
    place: { x: 0.82, y: 0, z: -0.88, turn: -0.75 },
  },
  {
    kind: KIND.cloth,
    distance: clothDistance,
    box: [-2.4, -0.08, -2.6, 2.4, 0.56, 2.1],
    cell: 0.0165,
    place: { x: 0, y: 0, z: 0, turn: 0 },
  },
];

const place = (shape, p) => {
  const c = Math.cos(shape.turn);
  const s = Math.sin(shape.turn);
  return [shape.x + c * p[0] + s * p[2], shape.y + p[1], shape.z - s * p[0] + c * p[2]];
};

const BALLS = [
  ...EYES.map((e) => ({ kind: KIND.eye, p: place(SITTER_PLACE, e.centre), r: e.radius })),
];

/** Where the sitter looks, in the world: along the muzzle, a little towards the viewer. */
const GAZE = (() => {
  const from = place(SITTER_PLACE, fromHead([0, 0, 0]));
  const to = place(SITTER_PLACE, fromHead([0.22, 0.02, 1]));
  const d = to.map((v, i) => v - from[i]);
  return d.map((v) => v / Math.hypot(...d));
})();

const HAIRS = WHISKERS.flatMap((chain) => {
  const points = chain.map((p) => [...place(SITTER_PLACE, p), p[3]]);
  return points.slice(1).map((b, i) => ({ a: points[i], b }));
});
const HAIR_BOX = [0, 1, 2].map((i) => [
  Math.min(...HAIRS.map((h) => Math.min(h.a[i], h.b[i]))) - 0.01,
  Math.max(...HAIRS.map((h) => Math.max(h.a[i], h.b[i]))) + 0.01,
]);

export class Scene {
  /**
   * @param {number} coarse 1 for the full grids, 2 for cells twice as large
   * @param {SharedArrayBuffer[]} [grids] grids baked by another thread
   */
  constructor(coarse, grids) {
    this.shapes = SHAPES.map((shape, i) => ({
      ...shape,
      field: new Field(shape.box, shape.cell * coarse, grids?.[i]),
      c: Math.cos(shape.place.turn),
      s: Math.sin(shape.place.turn),
    }));
    if (!grids) for (const shape of this.shapes) shape.field.bake(shape.distance);
  }

  get grids() {
    return this.shapes.map((shape) => shape.field.shared);
  }

  /**
   * Nearest surface along a ray. Fills `hit`: t, kind, point p, normal n (world), and the point in
   * the shape's own axes, q.
   * @param {boolean} fine also looks for the whiskers
   */
  trace(o, d, hit, fine) {
    hit.kind = KIND.none;
    hit.t = 1e9;
    if (d[2] < -1e-6) {
      const t = (WALL_Z - o[2]) / d[2];
      if (t > 1e-4) {
        hit.t = t;
        hit.kind = KIND.wall;
        hit.shape = null;
      }
    }
    for (let i = 0; i < BALLS.length; i++) {
      const t = ballAt(BALLS[i], o, d);
      if (t > 0 && t < hit.t) {
        hit.t = t;
        hit.kind = BALLS[i].kind;
        hit.shape = BALLS[i];
      }
    }
    for (let i = 0; i < this.shapes.length; i++) {
      const shape = this.shapes[i];
      const t = marchShape(shape, o, d, hit.t);
      if (t >= 0 && t < hit.t) {
        hit.t = t;
        hit.kind = shape.kind;
        hit.shape = shape;
      }
    }
    if (fine) traceHairs(o, d, hit);
    if (hit.kind === KIND.none) return false;
    const { p, n, q } = hit;
    for (let i = 0; i < 3; i++) p[i] = o[i] + d[i] * hit.t;
    if (hit.kind === KIND.wall) {
      n[0] = 0;
      n[1] = 0;
      n[2] = 1;
    } else if (hit.kind === KIND.eye) {
      for (let i = 0; i < 3; i++) {
        n[i] = (p[i] - hit.shape.p[i]) / hit.shape.r;
        q[i] = n[i];
      }
    } else if (hit.kind !== KIND.whisker) {
      const { field, c, s, place: at } = hit.shape;
      const x = p[0] - at.x;
      const y = p[1] - at.y;
      const z = p[2] - at.z;
      q[0] = c * x - s * z;
      q[1] = y;
      q[2] = s * x + c * z;
      const e = field.cell * 0.7;
      const gx = field.at(q[0] + e, q[1], q[2]) - field.at(q[0] - e, q[1], q[2]);
      const gy = field.at(q[0], q[1] + e, q[2]) - field.at(q[0], q[1] - e, q[2]);
      const gz = field.at(q[0], q[1], q[2] + e) - field.at(q[0], q[1], q[2] - e);
      const k = 1 / Math.sqrt(gx * gx + gy * gy + gz * gz + 1e-20);
      n[0] = (c * gx + s * gz) * k;
      n[1] = gy * k;
      n[2] = (-s * gx + c * gz) * k;
    }
    return true;
  }

  /** Whether anything stands between `o` and the point `limit` along `d`. */
  blocked(o, d, limit) {
    for (let i = 0; i < BALLS.length; i++) {
      const t = ballAt(BALLS[i], o, d);
      if (t > 0 && t < limit) return true;
    }
    for (let i = 0; i < this.shapes.length; i++) {
      if (marchShape(this.shapes[i], o, d, limit) >= 0) return true;
    }
    return false;
  }
}

function ballAt(ball, o, d) {
  const x = o[0] - ball.p[0];
  const y = o[1] - ball.p[1];
  const z = o[2] - ball.p[2];
  const b = x * d[0] + y * d[1] + z * d[2];
  const disc = b * b - (x * x + y * y + z * z) + ball.r * ball.r;
  if (disc < 0) return -1;
  const t = -b - Math.sqrt(disc);
  return t > 1e-4 ? t : -1;
}

function marchShape(shape, o, d, limit) {
  const { c, s, place: at } = shape;
  const x = o[0] - at.x;
  const z = o[2] - at.z;
  return shape.field.march(
    c * x - s * z,
    o[1] - at.y,
    s * x + c * z,
    c * d[0] - s * d[2] || 1e-9,
    d[1] || 1e-9,
    s * d[0] + c * d[2] || 1e-9,
    limit,
  );
}

function traceHairs(o, d, hit) {
  let near = 0;
  let far = hit.t;
  for (let i = 0; i < 3; i++) {
    const a = (HAIR_BOX[i][0] - o[i]) / (d[i] || 1e-9);
    const b = (HAIR_BOX[i][1] - o[i]) / (d[i] || 1e-9);
    near = Math.max(near, Math.min(a, b));
    far = Math.min(far, Math.max(a, b));
  }
  if (near >= far) return;
  for (const { a, b } of HAIRS) {
    // Closest approach of the ray and the segment.
    const ux = b[0] - a[0];
    const uy = b[1] - a[1];
    const uz = b[2] - a[2];
    const wx = o[0] - a[0];
    const wy = o[1] - a[1];
    const wz = o[2] - a[2];
    const uu = ux * ux + uy * uy + uz * uz;
    const ud = ux * d[0] + uy * d[1] + uz * d[2];
    const uw = ux * wx + uy * wy + uz * wz;
    const dw = d[0] * wx + d[1] * wy + d[2] * wz;
    const s = clamp((uw - ud * dw) / (uu - ud * ud + 1e-12), 0, 1);
    const t = s * ud - dw;
    if (t <= 0 || t >= hit.t) continue;
    const x = wx + d[0] * t - ux * s;
    const y = wy + d[1] * t - uy * s;
    const z = wz + d[2] * t - uz * s;
    const r = mix(a[3], b[3], s);
    if (x * x + y * y + z * z > r * r) continue;
    hit.t = t;
    hit.kind = KIND.whisker;
    hit.shape = null;
    const k = 1 / Math.sqrt(x * x + y * y + z * z + 1e-20);
    hit.n[0] = x * k * 0.7 - d[0] * 0.7;
    hit.n[1] = y * k * 0.7 - d[1] * 0.7;
    hit.n[2] = z * k * 0.7 - d[2] * 0.7;
  }
}

const cut = [0, 0, 0, 0];
const glaze = { r: 0, g: 0, b: 0, nose: 0, muzzle: 0 };

/**
 * What the surface at `hit` is like. Fills `m`: reflectance r, g, b (linear), coat (reflectance of
 * a clear coat straight on, 0 for none), rough (spread of its reflection), metal (0 or 1).
 * @param {boolean} fine bends the normal by the strokes in the clay and the weave of the cloth
 */
export function surface(hit, m, fine) {
  const { p, q, n } = hit;
  m.coat = 0;
  m.rough = 0;
  m.metal = 0;
  switch (hit.kind) {
    case KIND.sitter: {
      sitterGlaze(q[0], q[1], q[2], glaze);
      let shade = 1;
      if (fine) {
        const { field, c, s } = hit.shape;
        const nx = c * n[0] - s * n[2];
        const nz = s * n[0] + c * n[2];
        // Glaze runs thin on edges and gathers in hollows.
        const far = 0.03;
        const hollow = (far - field.at(q[0] + nx * far, q[1] + n[1] * far, q[2] + nz * far)) / far;
        shade *= 1 - clamp(hollow * 1.1, -0.05, 0.6);
        if (glaze.nose < 0.5) {
          strokes(q[0], q[1], q[2], nx, n[1], nz, cut);
          const k = 1 - 0.85 * glaze.muzzle;
          bend(n, c * cut[1] + s * cut[3], cut[2], -s * cut[1] + c * cut[3], 0.0013 * k);
          shade *= 1 - 0.24 * cut[0] * k;
          const w = 0.05;
          const v = clouds(q[0] * 14, q[1] * 14, q[2] * 14);
          bend(
            n,
            clouds(q[0] * 14 + w, q[1] * 14, q[2] * 14) - v,
            clouds(q[0] * 14, q[1] * 14 + w, q[2] * 14) - v,
            clouds(q[0] * 14, q[1] * 14, q[2] * 14 + w) - v,
            0.5,
          );
        }
      }
      m.r = glaze.r * shade;
      m.g = glaze.g * (shade * 0.85 + 0.15 * shade * shade);
      m.b = glaze.b * (shade * 0.75 + 0.25 * shade * shade);
      m.coat = mix(0.045, 0.05, glaze.nose);
      m.rough = mix(0.075, 0.09, glaze.nose);
      return;
    }
    case KIND.ribbon: {
      const fibre = fine ? 1 + 0.12 * clouds(q[0] * 50, q[1] * 220, q[2] * 50) : 1;
      m.r = 0.66 * fibre;
      m.g = 0.012 * fibre;
      m.b = 0.018 * fibre;
      m.coat = 0.018;
      m.rough = 0.34;
      return;
    }
    case KIND.tag:
      m.r = 0.86;
      m.g = 0.62;
      m.b = 0.27;
      m.metal = 1;
      m.rough = 0.2;
      return;
    case KIND.eye: {
      // A black pupil in a brown iris that glows where the light, once inside, falls: low on the right.
      const ahead = q[0] * GAZE[0] + q[1] * GAZE[1] + q[2] * GAZE[2];
      const iris = smoothstep(0.62, 0.72, ahead) * (1 - smoothstep(0.78, 0.85, ahead));
      const glow =
        iris * (0.25 + smoothstep(-0.25, 0.35, (q[0] - GAZE[0]) * 0.7 - (q[1] - GAZE[1])));
      m.r = 0.004 + 0.06 * glow;
      m.g = 0.003 + 0.024 * glow;
      m.b = 0.0025 + 0.008 * glow;
      m.coat = 0.05;
      m.rough = 0.012;
      return;
    }
    case KIND.whisker:
      m.r = 0.75;
      m.g = 0.72;
      m.b = 0.66;
      return;
    case KIND.pear: {
      const round = Math.atan2(q[2], q[0]);
      const blush = smoothstep(
        -0.25,
        0.6,
        Math.cos(round + 0.6) * 0.6 +
          0.5 * (0.45 - q[1]) +
          clouds(q[0] * 5, q[1] * 2.5, q[2] * 5) * 0.7,
      );
      const fleck = fine ? smoothstep(0.24, 0.32, clouds(q[0] * 48, q[1] * 48, q[2] * 48)) : 0;
      const green = clouds(q[0] * 4 + 9, q[1] * 4, q[2] * 4) * 0.16;
      m.r = mix(0.56 - green, 0.56, blush * 0.75) * (1 - 0.3 * fleck);
      m.g = mix(0.5, 0.2, blush * 0.75) * (1 - 0.36 * fleck);
      m.b = mix(0.085, 0.05, blush * 0.75) * (1 - 0.2 * fleck);
      const russet =
        smoothstep(0.6, 0.79, q[1] + 0.12 * clouds(q[0] * 9, q[1] * 5, q[2] * 9)) * 0.8;
      m.r = mix(m.r, 0.3, russet);
      m.g = mix(m.g, 0.19, russet);
      m.b = mix(m.b, 0.07, russet);
      m.coat = 0.035;
      m.rough = 0.17;
      return;
    }
    case KIND.stem:
      m.r = 0.1;
      m.g = 0.062;
      m.b = 0.035;
      return;
    case KIND.jug: {
      const speck = fine ? smoothstep(0.2, 0.3, clouds(q[0] * 40, q[1] * 40, q[2] * 40)) : 0;
      const foot = 1 - smoothstep(0.1, 0.13, q[1] + 0.03 * clouds(q[0] * 6, 1, q[2] * 6));
      const tone = (1 + 0.3 * clouds(q[0] * 3, q[1] * 6, q[2] * 3)) * (1 - 0.35 * speck);
      m.r = mix(0.07, 0.3, foot) * tone;
      m.g = mix(0.1, 0.22, foot) * tone;
      m.b = mix(0.118, 0.15, foot) * tone;
      m.coat = foot > 0.5 ? 0 : 0.025;
      m.rough = 0.3;
      return;
    }
    case KIND.cherry:
      m.r = 0.42;
      m.g = 0.01;
      m.b = 0.018;
      m.coat = 0.045;
      m.rough = 0.06;
      return;
    case KIND.cloth: {
      const weave = fine ? 0.05 * clouds(p[0] * 130, p[1] * 60, p[2] * 130) : 0;
      const stain = 1 + 0.08 * clouds(p[0] * 1.7, 4.5, p[2] * 1.7) + weave;
      m.r = 0.74 * stain;
      m.g = 0.7 * stain;
      m.b = 0.62 * stain;
      if (fine) {
        bend(
          n,
          noise(p[0] * 120, 0.5, p[2] * 45) - 0.5,
          0,
          noise(p[0] * 45, 7.5, p[2] * 120) - 0.5,
          0.1,
        );
      }
      return;
    }
    default: {
      const blotch =
        1 + 0.5 * clouds(p[0] * 0.7, p[1] * 0.7, 3.5) + 0.12 * clouds(p[0] * 5, p[1] * 5, 8.5);
      const tone = blotch * mix(0.026, 0.15, smoothstep(-2.2, 2.8, p[0] - 0.8 * (p[1] - 1)));
      m.r = tone;
      m.g = tone * 0.95;
      m.b = tone * 0.82;
    }
  }
}

/** Tips the normal down a slope. */
function bend(n, gx, gy, gz, k) {
  const x = n[0] + gx * k;
  const y = n[1] + gy * k;
  const z = n[2] + gz * k;
  const s = 1 / Math.sqrt(x * x + y * y + z * z);
  n[0] = x * s;
  n[1] = y * s;
  n[2] = z * s;
}
