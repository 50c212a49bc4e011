import type { Lab } from '../base/types.js';
import { ciede2000 } from '../colour/index.js';
import { INNER_SURFACE, OUTER_SURFACE } from './layers.js';
import { groundOf, type Loads } from './mix.js';
import { BANDS, WEIGHTS, WEIGHTS_WHITE } from './spectra.js';
import type { Mix, Tube } from './types.js';

const EPSILON = 216 / 24389;
const KAPPA = 24389 / 27;
const PASSED = (1 - OUTER_SURFACE) * (1 - INNER_SURFACE);

// X, Y and Z over those of the white, of a band whose reflectance outside is 1.
const BY_X = Float64Array.from(WEIGHTS.x, (w) => w / WEIGHTS_WHITE[0]);
const BY_Y = Float64Array.from(WEIGHTS.y, (w) => w / WEIGHTS_WHITE[1]);
const BY_Z = Float64Array.from(WEIGHTS.z, (w) => w / WEIGHTS_WHITE[2]);
const AT_SURFACE_X = OUTER_SURFACE * BY_X.reduce((sum, w) => sum + w, 0);
const AT_SURFACE_Y = OUTER_SURFACE * BY_Y.reduce((sum, w) => sum + w, 0);
const AT_SURFACE_Z = OUTER_SURFACE * BY_Z.reduce((sum, w) => sum + w, 0);

/** exp(-x) at x = 0, 1/64, 2/64 ... */
const DECAY = Float64Array.from({ length: 64 * 40 + 1 }, (_, i) => Math.exp(-i / 64));

/**
 * exp(-x) for x >= 0: from the table, times five terms of its series for the rest below 1/64. The error is below 1e-13 of 1; a search
 * spends most of its time here, and the platform's own takes several times as long.
 */
function decay(x: number): number {
  if (!(x < 40)) return 0;
  const i = (64 * x) | 0;
  const f = x - i / 64;
  return DECAY[i] * (1 - f * (1 - f * (1 / 2 - f * (1 / 6 - f * (1 / 24 - f / 120)))));
}

const root = (t: number): number => (t > EPSILON ? Math.cbrt(t) : (KAPPA * t + 16) / 116);
const slope = (f: number, t: number): number => (t > EPSILON ? 1 / (3 * f * f) : KAPPA / 116);

/**
 * The colour of mixes as plain numbers, for searches: the same as `mixOnPaper`, without the objects. A mix is told by the thickness each
 * of its tubes would have alone, so that K and S of the layer are plain sums: `amounts[i]` of tube `tubes[i]`, together the layer's thickness.
 * The last answer stands in `L`, `a`, `b`, and after {@link differentiate} its slopes in `slopes`.
 */
export class FlatMixer {
  L = 0;
  a = 0;
  b = 0;
  /** dL, da, db for each amount: `slopes[3 i + 0..2]`. */
  readonly slopes: Float64Array;
  /** Full load of each tube. */
  readonly fullLoads: Float64Array;
  /** How many colours were computed. */
  evaluations = 0;
  readonly #K: Float64Array[];
  readonly #S: Float64Array[];
  readonly #ground: Float64Array;
  readonly #sums: Float64Array;
  // Slopes of each band's reflectance by K and S.
  readonly #byK = new Float64Array(BANDS);
  readonly #byS = new Float64Array(BANDS);

  /** @param most - The most tubes in one mix. */
  constructor(
    tubes: readonly Tube[],
    paper: Float64Array,
    over: readonly Mix[],
    most: number,
    loads: Loads = {},
  ) {
    const scaled = (numbers: readonly number[], { id }: Tube): Float64Array =>
      Float64Array.from(numbers, (value) => value * (loads[id] ?? 1));
    this.#K = tubes.map((tube) => scaled(tube.K, tube));
    this.#S = tubes.map((tube) => scaled(tube.S, tube));
    this.fullLoads = Float64Array.from(tubes, (tube) => tube.fullLoad);
    this.#ground = groundOf(paper, over, loads);
    this.slopes = new Float64Array(3 * most);
    this.#sums = new Float64Array(3 * most);
  }

  /** Computes the colour of the first `n` of `tubes` and `amounts`. */
  evaluate(tubes: Int32Array, amounts: Float64Array, n: number): void {
    this.evaluations++;
    const ground = this.#ground;
    const K0 = this.#K[tubes[0]];
    const S0 = this.#S[tubes[0]];
    const K1 = n > 1 ? this.#K[tubes[1]] : K0;
    const S1 = n > 1 ? this.#S[tubes[1]] : S0;
    const K2 = n > 2 ? this.#K[tubes[2]] : K0;
    const S2 = n > 2 ? this.#S[tubes[2]] : S0;
    const u0 = amounts[0];
    const u1 = n > 1 ? amounts[1] : 0;
    const u2 = n > 2 ? amounts[2] : 0;
    let x = 0;
    let y = 0;
    let z = 0;
    for (let i = 0; i < BANDS; i++) {
      let k = u0 * K0[i] + u1 * K1[i] + u2 * K2[i];
      let s = u0 * S0[i] + u1 * S1[i] + u2 * S2[i];
      if (n > 3) {
        for (let j = 3; j < n; j++) {
          k += amounts[j] * this.#K[tubes[j]][i];
          s += amounts[j] * this.#S[tubes[j]][i];
        }
      }
      // The finite layer of Kubelka and Munk, numerator and denominator times (1 - e^-2B).
      const B = Math.sqrt(k * (k + 2 * s));
      const e = decay(2 * B);
      const less = 1 - e;
      const more = B * (1 + e);
      const g = ground[i];
      const N = s * less - g * ((k + s) * less - more);
      const D = (k + s - g * s) * less + more;
      const r = N / (D - INNER_SURFACE * N);
      x += BY_X[i] * r;
      y += BY_Y[i] * r;
      z += BY_Z[i] * r;
    }
    this.#lab(AT_SURFACE_X + PASSED * x, AT_SURFACE_Y + PASSED * y, AT_SURFACE_Z + PASSED * z);
  }

  /** {@link evaluate}, and the slopes of L*, a*, b* by each amount. */
  differentiate(tubes: Int32Array, amounts: Float64Array, n: number): void {
    this.evaluations++;
    const ground = this.#ground;
    const byK = this.#byK;
    const byS = this.#byS;
    const K0 = this.#K[tubes[0]];
    const S0 = this.#S[tubes[0]];
    const K1 = n > 1 ? this.#K[tubes[1]] : K0;
    const S1 = n > 1 ? this.#S[tubes[1]] : S0;
    const K2 = n > 2 ? this.#K[tubes[2]] : K0;
    const S2 = n > 2 ? this.#S[tubes[2]] : S0;
    const u0 = amounts[0];
    const u1 = n > 1 ? amounts[1] : 0;
    const u2 = n > 2 ? amounts[2] : 0;
    let x = 0;
    let y = 0;
    let z = 0;
    for (let i = 0; i < BANDS; i++) {
      let k = u0 * K0[i] + u1 * K1[i] + u2 * K2[i];
      let s = u0 * S0[i] + u1 * S1[i] + u2 * S2[i];
      if (n > 3) {
        for (let j = 3; j < n; j++) {
          k += amounts[j] * this.#K[tubes[j]][i];
          s += amounts[j] * this.#S[tubes[j]][i];
        }
      }
      const B = Math.sqrt(k * (k + 2 * s));
      const e = decay(2 * B);
      const less = 1 - e;
      const sum = 1 + e;
      const g = ground[i];
      const A = k + s;
      const N = s * less - g * (A * less - B * sum);
      const D = (A - g * s) * less + B * sum;
      // Slopes by k and s: B goes with (k + s) / B and k / B, e with -2 e.
      const part = 1 / B;
      const Bk = A * part;
      const Bs = k * part;
      const ek = 2 * e * Bk;
      const es = 2 * e * Bs;
      const Nk = s * ek - g * (less + A * ek - Bk * sum + B * ek);
      const Ns = less + s * es - g * (less + A * es - Bs * sum + B * es);
      const Dk = less + (A - g * s) * ek + Bk * sum - B * ek;
      const Ds = (1 - g) * less + (A - g * s) * es + Bs * sum - B * es;
      const over = 1 / (D - INNER_SURFACE * N);
      const r = N * over;
      byK[i] = (Nk * D - N * Dk) * over * over;
      byS[i] = (Ns * D - N * Ds) * over * over;
      x += BY_X[i] * r;
      y += BY_Y[i] * r;
      z += BY_Z[i] * r;
    }
    const sums = this.#sums;
    for (let j = 0; j < n; j++) {
      const K = this.#K[tubes[j]];
      const S = this.#S[tubes[j]];
      let dx = 0;
      let dy = 0;
      let dz = 0;
      for (let i = 0; i < BANDS; i++) {
        const d = byK[i] * K[i] + byS[i] * S[i];
        dx += BY_X[i] * d;
        dy += BY_Y[i] * d;
        dz += BY_Z[i] * d;
      }
      sums[3 * j] = dx;
      sums[3 * j + 1] = dy;
      sums[3 * j + 2] = dz;
    }
    x = AT_SURFACE_X + PASSED * x;
    y = AT_SURFACE_Y + PASSED * y;
    z = AT_SURFACE_Z + PASSED * z;
    const f = root(x);
    const h = root(y);
    const q = root(z);
    this.L = 116 * h - 16;
    this.a = 500 * (f - h);
    this.b = 200 * (h - q);
    const sx = PASSED * slope(f, x);
    const sy = PASSED * slope(h, y);
    const sz = PASSED * slope(q, z);
    for (let j = 0; j < n; j++) {
      const dx = sx * sums[3 * j];
      const dy = sy * sums[3 * j + 1];
      const dz = sz * sums[3 * j + 2];
      this.slopes[3 * j] = 116 * dy;
      this.slopes[3 * j + 1] = 500 * (dx - dy);
      this.slopes[3 * j + 2] = 200 * (dy - dz);
    }
  }

  #lab(x: number, y: number, z: number): void {
    const f = root(x);
    const h = root(y);
    const q = root(z);
    this.L = 116 * h - 16;
    this.a = 500 * (f - h);
    this.b = 200 * (h - q);
  }
}

const RADIANS = Math.PI / 180;
const POWER_25_7 = 25 ** 7;

/**
 * How far colours lie from a target, CIEDE2000, or |L*| when only a lightness is asked for; and, for least squares, the linear map whose
 * residuals have that length: CIEDE2000 (Sharma, Wu & Dalal 2005) with its weights held at the means of the two colours.
 */
export class Distance {
  /** How many residuals there are: 3, or 1 for a lightness alone. */
  readonly rows: number;
  /** Residuals after {@link weigh}. */
  readonly residual = new Float64Array(3);
  /** Slopes of the residuals by L*, a*, b*, row by row. */
  readonly map = new Float64Array(9);
  readonly lab: Lab;

  constructor(target: { lab?: Lab; lightness?: number }) {
    this.rows = target.lab ? 3 : 1;
    this.lab = target.lab ?? [target.lightness!, 0, 0];
  }

  of(L: number, a: number, b: number): number {
    const { lab } = this;
    return this.rows === 1 ? Math.abs(L - lab[0]) : ciede2000(lab[0], lab[1], lab[2], L, a, b);
  }

  /** Sets residuals and slopes at a colour. */
  weigh(L: number, a: number, b: number): void {
    const { residual, map, lab } = this;
    const L0 = lab[0];
    const a0 = lab[1];
    const b0 = lab[2];
    map.fill(0);
    if (this.rows === 1) {
      map[0] = 1;
      residual[0] = L - L0;
      return;
    }
    const meanC7 = ((Math.hypot(a, b) + Math.hypot(a0, b0)) / 2) ** 7;
    const stretch = 1 + 0.5 * (1 - Math.sqrt(meanC7 / (meanC7 + POWER_25_7)));
    const as = a * stretch;
    const a0s = a0 * stretch;
    const C = Math.hypot(as, b);
    const C0 = Math.hypot(a0s, b0);
    const meanC = (C + C0) / 2;
    // The mean hue is that of the sum of the two directions.
    let cos = 1;
    let sin = 0;
    if (meanC > 0) {
      const p = (C > 0 ? as / C : 0) + (C0 > 0 ? a0s / C0 : 0);
      const q = (C > 0 ? b / C : 0) + (C0 > 0 ? b0 / C0 : 0);
      const length = Math.hypot(p, q);
      if (length > 1e-9) {
        cos = p / length;
        sin = q / length;
      }
    }
    let h = Math.atan2(sin, cos) / RADIANS;
    if (h < 0) h += 360;
    const T =
      1 -
      0.17 * Math.cos((h - 30) * RADIANS) +
      0.24 * Math.cos(2 * h * RADIANS) +
      0.32 * Math.cos((3 * h + 6) * RADIANS) -
      0.2 * Math.cos((4 * h - 63) * RADIANS);
    const spread = (h - 275) / 25;
    const turn = 60 * Math.exp(-spread * spread) * RADIANS;
    const C7 = meanC ** 7;
    const RT = -2 * Math.sin(turn) * Math.sqrt(C7 / (C7 + POWER_25_7));
    const middle = ((L + L0) / 2 - 50) ** 2;
    const forL = 1 / (1 + (0.015 * middle) / Math.sqrt(20 + middle));
    const forC = 1 / (1 + 0.045 * meanC);
    const forH = 1 / (1 + 0.015 * meanC * T);
    // c^2 + h^2 + RT c h = (c + RT h / 2)^2 + (1 - RT^2 / 4) h^2
    const rest = Math.sqrt(Math.max(0, 1 - (RT * RT) / 4));
    const ha = -sin * stretch * forH;
    const hb = cos * forH;
    map[0] = forL;
    map[4] = cos * stretch * forC + (RT / 2) * ha;
    map[5] = sin * forC + (RT / 2) * hb;
    map[7] = rest * ha;
    map[8] = rest * hb;
    residual[0] = forL * (L - L0);
    residual[1] = map[4] * (a - a0) + map[5] * (b - b0);
    residual[2] = map[7] * (a - a0) + map[8] * (b - b0);
  }
}
