/**
 * Light: one window high on the left, the dim room, and how both reach the lens by way of the
 * surfaces (one mirror-like bounce on glazes, two soft bounces elsewhere). Radiance is relative.
 */
import { KIND, surface } from './scene.mjs';

const normalise = (v) => {
  const k = 1 / Math.hypot(v[0], v[1], v[2]);
  return [v[0] * k, v[1] * k, v[2] * k];
};
const cross = (a, b) => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** The window: centre, half width along u, half height along v, facing n; four panes. */
const WINDOW = (() => {
  const c = [-4.1, 3.2, 1.05];
  const n = normalise([0.1 - c[0], 0.7 - c[1], 0.1 - c[2]]);
  const u = normalise(cross([0, 1, 0], n));
  const v = cross(n, u);
  return { c, n, u, v, hu: 0.72, hv: 0.95 };
})();
const GLOW = [84, 80.5, 74.5];
const AREA = 4 * WINDOW.hu * WINDOW.hv;

const BARS = { across: 0.1, upright: 0.06, lying: 0.05 };
/** The part of the window that is glass: its light is spread evenly when it falls on things. */
const SKY_SHARE = (1 - BARS.upright) * (1 - BARS.lying);
const sky = (b) => 0.85 + 0.15 * b;

/** Light of the panes at (a, b), each -1 to 1, as a mirror shows it: dark bars between. */
function pane(a, b) {
  if (Math.abs(a) < BARS.upright || Math.abs(b - BARS.across) < BARS.lying) return 0;
  return sky(b);
}

/** Coats rougher than this get the window by aiming at it, smoother ones by their mirror ray. */
const AIMED = 0.1;

/** The dim room seen along a direction: cool from the far side, dark below. */
function room(d, out) {
  const up = 0.5 + 0.5 * d[1];
  const right = 0.5 + 0.5 * (0.8 * d[0] + 0.6 * d[2]);
  const k = 0.03 + 0.06 * up + 0.075 * right;
  out[0] = k * 0.9;
  out[1] = k * 0.97;
  out[2] = k * 1.08;
}

/** A ray's meeting with the window: its light, or 0. */
function windowAlong(o, d, limit) {
  const { c, n, u, v, hu, hv } = WINDOW;
  const facing = -(d[0] * n[0] + d[1] * n[1] + d[2] * n[2]);
  if (facing <= 1e-5) return 0;
  const t = ((o[0] - c[0]) * n[0] + (o[1] - c[1]) * n[1] + (o[2] - c[2]) * n[2]) / facing;
  if (t <= 0 || t > limit) return 0;
  const x = o[0] + d[0] * t - c[0];
  const y = o[1] + d[1] * t - c[1];
  const z = o[2] + d[2] * t - c[2];
  const a = (x * u[0] + y * u[1] + z * u[2]) / hu;
  const b = (x * v[0] + y * v[1] + z * v[2]) / hv;
  return Math.abs(a) < 1 && Math.abs(b) < 1 ? pane(a, b) : 0;
}

const makeHit = () => ({
  t: 0,
  kind: 0,
  shape: null,
  p: new Float64Array(3),
  n: new Float64Array(3),
  q: new Float64Array(3),
});
const makeSurface = () => ({ r: 0, g: 0, b: 0, coat: 0, rough: 0, metal: 0 });

/** Follows rays through a scene. `draw(pair)` of the sampler fills its `a` and `b`, 0 to 1. */
export class Tracer {
  constructor(scene, sampler) {
    this.scene = scene;
    this.sampler = sampler;
    this.hits = [makeHit(), makeHit(), makeHit()];
    this.coats = [makeSurface(), makeSurface(), makeSurface()];
    this.origin = new Float64Array(3);
    this.toward = new Float64Array(3);
    this.ray = new Float64Array(3);
    this.dim = new Float64Array(3);
    this.seen = new Float64Array(3);
    this.open = 0;
  }

  /**
   * Window light on a surface, as radiance of a white matt surface there; one shadow ray. What it
   * would be with nothing in the way is left in `open`.
   */
  windowOn(hit, pair) {
    const { sampler, origin, toward } = this;
    const { c, n, u, v, hu, hv } = WINDOW;
    this.open = 0;
    sampler.draw(pair);
    const a = sampler.a * 2 - 1;
    const b = sampler.b * 2 - 1;
    const glow = SKY_SHARE * sky(b);
    for (let i = 0; i < 3; i++) {
      origin[i] = hit.p[i] + hit.n[i] * 0.006;
      toward[i] = c[i] + u[i] * hu * a + v[i] * hv * b - origin[i];
    }
    const far = Math.sqrt(toward[0] ** 2 + toward[1] ** 2 + toward[2] ** 2);
    for (let i = 0; i < 3; i++) toward[i] /= far;
    const cosine = toward[0] * hit.n[0] + toward[1] * hit.n[1] + toward[2] * hit.n[2];
    if (cosine <= 0) return 0;
    const facing = -(toward[0] * n[0] + toward[1] * n[1] + toward[2] * n[2]);
    this.open = (glow * cosine * facing * AREA) / (far * far * Math.PI);
    return this.scene.blocked(origin, toward, far) ? 0 : this.open;
  }

  /** A direction about the normal, by the cosine. */
  scatter(n, pair, out) {
    const { sampler } = this;
    sampler.draw(pair);
    const z = 1 - 2 * sampler.a;
    const r = Math.sqrt(Math.max(0, 1 - z * z));
    const x = n[0] + r * Math.cos(2 * Math.PI * sampler.b);
    const y = n[1] + r * Math.sin(2 * Math.PI * sampler.b);
    const w = n[2] + z;
    const k = 1 / Math.sqrt(x * x + y * y + w * w + 1e-12);
    out[0] = x * k;
    out[1] = y * k;
    out[2] = w * k;
  }

  /** Light that comes to a surface from other surfaces and the room; `depth` more bounces. */
  bounce(hit, depth, pair, out) {
    const { scene, origin, ray, dim } = this;
    this.scatter(hit.n, pair, ray);
    for (let i = 0; i < 3; i++) origin[i] = hit.p[i] + hit.n[i] * 0.008;
    const next = this.hits[depth];
    if (!scene.trace(origin, ray, next, false)) {
      room(ray, out);
      return;
    }
    const m = this.coats[depth];
    surface(next, m, false);
    const lit = this.windowOn(next, pair + 1);
    let r = lit * GLOW[0];
    let g = lit * GLOW[1];
    let b = lit * GLOW[2];
    if (depth > 1) {
      this.bounce(next, depth - 1, pair + 2, out);
      r += out[0];
      g += out[1];
      b += out[2];
    } else {
      room(next.n, dim);
      r += dim[0] * 0.6;
      g += dim[1] * 0.6;
      b += dim[2] * 0.6;
    }
    out[0] = r * m.r;
    out[1] = g * m.g;
    out[2] = b * m.b;
  }

  /**
   * What a ray from the lens sees. Fills `pixel`: open (window light as if nothing threw a shadow),
   * reached and whole (its two brightnesses, with shadows and without), mirror (reflections), soft
   * (light from other surfaces, to be multiplied by `paint`), paint (reflectance), normal, depth.
   * @param {boolean} indirect whether to work out `soft`, the costly part
   */
  look(o, d, pixel, indirect) {
    const { scene, hits, coats, seen } = this;
    const hit = hits[0];
    pixel.open.fill(0);
    pixel.mirror.fill(0);
    pixel.reached = 0;
    pixel.whole = 0;
    pixel.soft.fill(0);
    pixel.paint.fill(0);
    pixel.normal.fill(0);
    pixel.depth = 20;
    pixel.kind = KIND.none;
    if (!scene.trace(o, d, hit, true)) return;
    pixel.depth = hit.t;
    pixel.kind = hit.kind;
    for (let i = 0; i < 3; i++) pixel.normal[i] = hit.n[i];
    const m = coats[0];
    surface(hit, m, true);
    const rgb = [m.r, m.g, m.b];
    pixel.reached = this.windowOn(hit, 2);
    pixel.whole = this.open;
    const lit = pixel.whole;
    if (lit > 0 && m.rough >= AIMED) this.glint(hit, d, m, rgb, lit, pixel);
    if (m.metal === 0) {
      if (indirect) this.bounce(hit, 2, 3, seen);
      else seen.fill(0);
      for (let i = 0; i < 3; i++) {
        pixel.open[i] += rgb[i] * lit * GLOW[i];
        pixel.soft[i] = Math.min(seen[i], 1.6);
        pixel.paint[i] = rgb[i];
      }
    }
    if (m.coat > 0 || m.metal > 0) this.reflect(hit, d, m, rgb, pixel);
  }

  /** Adds the window's sheen on a rough coat (Beckmann's distribution), from the last window ray. */
  glint(hit, d, m, rgb, lit, pixel) {
    const { toward } = this;
    const { n } = hit;
    const view = Math.max(0.08, -(d[0] * n[0] + d[1] * n[1] + d[2] * n[2]));
    const light = Math.max(0.02, toward[0] * n[0] + toward[1] * n[1] + toward[2] * n[2]);
    const h = normalise([toward[0] - d[0], toward[1] - d[1], toward[2] - d[2]]);
    const c2 = Math.max(0.05, h[0] * n[0] + h[1] * n[1] + h[2] * n[2]) ** 2;
    const a2 = m.rough * m.rough;
    const facets = Math.exp((c2 - 1) / (c2 * a2)) / (Math.PI * a2 * c2 * c2);
    const rise = (1 + (h[0] * d[0] + h[1] * d[1] + h[2] * d[2])) ** 5;
    const share = ((lit / light) * Math.PI * facets) / (4 * view);
    for (let i = 0; i < 3; i++) {
      const straight = m.metal ? rgb[i] : m.coat;
      pixel.open[i] += (straight + (1 - straight) * rise) * share * GLOW[i];
    }
  }

  /** Adds the mirror image in a glaze or in brass (Schlick's formula for the share reflected). */
  reflect(hit, d, m, rgb, pixel) {
    const { scene, origin, ray, seen, sampler } = this;
    const { n, p } = hit;
    const cosine = Math.min(1, Math.max(0, -(d[0] * n[0] + d[1] * n[1] + d[2] * n[2])));
    const rise = 0.65 * (1 - cosine) ** 5;
    sampler.draw(8);
    const turn = 2 * Math.PI * sampler.b;
    const spread = m.rough * Math.sqrt(-Math.log(1 - sampler.a * 0.98));
    // A facet of the rough surface: the normal, tipped by a Gaussian spread.
    const t1 = Math.abs(n[1]) < 0.9 ? normalise(cross([0, 1, 0], n)) : [1, 0, 0];
    const t2 = cross(n, t1);
    const fx = spread * Math.cos(turn);
    const fy = spread * Math.sin(turn);
    const f = normalise([
      n[0] + t1[0] * fx + t2[0] * fy,
      n[1] + t1[1] * fx + t2[1] * fy,
      n[2] + t1[2] * fx + t2[2] * fy,
    ]);
    const k = 2 * (d[0] * f[0] + d[1] * f[1] + d[2] * f[2]);
    for (let i = 0; i < 3; i++) {
      ray[i] = d[i] - k * f[i];
      origin[i] = p[i] + n[i] * 0.008;
    }
    if (ray[0] * n[0] + ray[1] * n[1] + ray[2] * n[2] <= 0) return;
    const next = this.hits[1];
    const met = scene.trace(origin, ray, next, false);
    const glow = m.rough >= AIMED ? 0 : windowAlong(origin, ray, met ? next.t : 1e9);
    if (glow > 0) {
      for (let i = 0; i < 3; i++) seen[i] = glow * GLOW[i];
    } else if (met) {
      const coat = this.coats[1];
      surface(next, coat, false);
      const lit = this.windowOn(next, 9);
      room(next.n, this.dim);
      seen[0] = coat.r * (lit * GLOW[0] + this.dim[0]);
      seen[1] = coat.g * (lit * GLOW[1] + this.dim[1]);
      seen[2] = coat.b * (lit * GLOW[2] + this.dim[2]);
    } else {
      room(ray, seen);
    }
    for (let i = 0; i < 3; i++) {
      const straight = m.metal ? rgb[i] : m.coat;
      pixel.mirror[i] += (straight + (1 - straight) * rise) * seen[i];
    }
  }
}
