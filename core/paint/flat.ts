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
const AT_SURFACE_X = OUTER_SURFACE * total(BY_X);
const AT_SURFACE_Y = OUTER_SURFACE * total(BY_Y);
const AT_SURFACE_Z = OUTER_SURFACE * total(BY_Z);

function total(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0);
}

/** Sums of so many neighbours each. */
const summedBy = (values: ArrayLike<number>, block: number): Float64Array =>
  Float64Array.from({ length: values.length / block }, (_, i) => {
    let sum = 0;
    for (let j = 0; j < block; j++) sum += values[i * block + j];
    return sum;
  });

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
  // By bands: of each tube, of the ground, of the layer; how much each band counts in X, Y, Z.
  readonly #bands: number;
  readonly #K: Float64Array[];
  readonly #S: Float64Array[];
  readonly #ground: Float64Array;
  readonly #k: Float64Array;
  readonly #s: Float64Array;
  readonly #inX: Float64Array;
  readonly #inY: Float64Array;
  readonly #inZ: Float64Array;
  // Slopes of each band's reflectance by K and S.
  readonly #byK: Float64Array;
  readonly #byS: Float64Array;

  /**
   * @param most - The most tubes in one mix.
   * @param block - So many neighbouring bands are taken as one, a divisor of 36: with 3 a colour takes a third of the time and is off by some
   *   CIEDE2000, enough to see where to look closer.
   */
  constructor(
    tubes: readonly Tube[],
    paper: Float64Array,
    over: readonly Mix[],
    most: number,
    loads: Loads = {},
    block = 1,
  ) {
    const mean = (values: ArrayLike<number>, times = 1): Float64Array =>
      summedBy(values, block).map((sum) => (sum / block) * times);
    this.#bands = BANDS / block;
    this.#K = tubes.map(({ K, id }) => mean(K, loads[id]));
    this.#S = tubes.map(({ S, id }) => mean(S, loads[id]));
    this.fullLoads = Float64Array.from(tubes, (tube) => tube.fullLoad);
    this.#ground = mean(groundOf(paper, over, loads));
    this.slopes = new Float64Array(3 * most);
    [this.#inX, this.#inY, this.#inZ] = [BY_X, BY_Y, BY_Z].map((by) => summedBy(by, block));
    this.#k = new Float64Array(this.#bands);
    this.#s = new Float64Array(this.#bands);
    this.#byK = new Float64Array(this.#bands);
    this.#byS = new Float64Array(this.#bands);
  }

  /** Sets K and S of the layer. */
  #lay(tubes: Int32Array, amounts: Float64Array, n: number): void {
    const k = this.#k;
    const s = this.#s;
    const bands = this.#bands;
    for (let j = 0; j < n; j++) {
      const amount = amounts[j];
      const K = this.#K[tubes[j]];
      const S = this.#S[tubes[j]];
      if (j === 0) {
        for (let i = 0; i < bands; i++) {
          k[i] = amount * K[i];
          s[i] = amount * S[i];
        }
      } else {
        for (let i = 0; i < bands; i++) {
          k[i] += amount * K[i];
          s[i] += amount * S[i];
        }
      }
    }
  }

  /** Computes the colour of the first `n` of `tubes` and `amounts`. */
  evaluate(tubes: Int32Array, amounts: Float64Array, n: number): void {
    this.evaluations++;
    this.#lay(tubes, amounts, n);
    const k = this.#k;
    const s = this.#s;
    const ground = this.#ground;
    const inX = this.#inX;
    const inY = this.#inY;
    const inZ = this.#inZ;
    const bands = this.#bands;
    let x = 0;
    let y = 0;
    let z = 0;
    for (let i = 0; i < bands; i++) {
      // The finite layer of Kubelka and Munk, numerator and denominator times (1 - e^-2B).
      const scattered = s[i];
      const A = k[i] + scattered;
      const B = Math.sqrt(k[i] * (A + scattered));
      const e = decay(2 * B);
      const less = 1 - e;
      const more = B * (1 + e);
      const g = ground[i];
      const N = scattered * less - g * (A * less - more);
      const D = (A - g * scattered) * less + more;
      const r = N / (D - INNER_SURFACE * N);
      x += inX[i] * r;
      y += inY[i] * r;
      z += inZ[i] * r;
    }
    this.#lab(AT_SURFACE_X + PASSED * x, AT_SURFACE_Y + PASSED * y, AT_SURFACE_Z + PASSED * z);
  }

  /** {@link evaluate}, and the slopes of L*, a*, b* by each amount. */
  differentiate(tubes: Int32Array, amounts: Float64Array, n: number): void {
    this.evaluations++;
    this.#lay(tubes, amounts, n);
    const k = this.#k;
    const s = this.#s;
    const ground = this.#ground;
    const byK = this.#byK;
    const byS = this.#byS;
    const inX = this.#inX;
    const inY = this.#inY;
    const inZ = this.#inZ;
    const bands = this.#bands;
    let x = 0;
    let y = 0;
    let z = 0;
    for (let i = 0; i < bands; i++) {
      const absorbed = k[i];
      const scattered = s[i];
      const A = absorbed + scattered;
      const B = Math.sqrt(absorbed * (A + scattered));
      const e = decay(2 * B);
      const less = 1 - e;
      const sum = 1 + e;
      const g = ground[i];
      const N = scattered * less - g * (A * less - B * sum);
      const D = (A - g * scattered) * less + B * sum;
      // Slopes by k and s: B goes with (k + s) / B and k / B, e with -2 e.
      const part = 1 / B;
      const Bk = A * part;
      const Bs = absorbed * part;
      const ek = 2 * e * Bk;
      const es = 2 * e * Bs;
      const Nk = scattered * ek - g * (less + A * ek - Bk * sum + B * ek);
      const Ns = less + scattered * es - g * (less + A * es - Bs * sum + B * es);
      const Dk = less + (A - g * scattered) * ek + Bk * sum - B * ek;
      const Ds = (1 - g) * less + (A - g * scattered) * es + Bs * sum - B * es;
      const over = 1 / (D - INNER_SURFACE * N);
      const r = N * over;
      byK[i] = (Nk * D - N * Dk) * over * over;
      byS[i] = (Ns * D - N * Ds) * over * over;
      x += inX[i] * r;
      y += inY[i] * r;
      z += inZ[i] * r;
    }
    x = AT_SURFACE_X + PASSED * x;
    y = AT_SURFACE_Y + PASSED * y;
    z = AT_SURFACE_Z + PASSED * z;
    const [f, h, q] = this.#lab(x, y, z);
    const sx = PASSED * slope(f, x);
    const sy = PASSED * slope(h, y);
    const sz = PASSED * slope(q, z);
    const { slopes } = this;
    for (let j = 0; j < n; j++) {
      const K = this.#K[tubes[j]];
      const S = this.#S[tubes[j]];
      let dx = 0;
      let dy = 0;
      let dz = 0;
      for (let i = 0; i < bands; i++) {
        const d = byK[i] * K[i] + byS[i] * S[i];
        dx += inX[i] * d;
        dy += inY[i] * d;
        dz += inZ[i] * d;
      }
      slopes[3 * j] = 116 * sy * dy;
      slopes[3 * j + 1] = 500 * (sx * dx - sy * dy);
      slopes[3 * j + 2] = 200 * (sy * dy - sz * dz);
    }
  }

  /** Sets L*, a*, b*; gives their three roots. */
  #lab(x: number, y: number, z: number): [number, number, number] {
    const f = root(x);
    const h = root(y);
    const q = root(z);
    this.L = 116 * h - 16;
    this.a = 500 * (f - h);
    this.b = 200 * (h - q);
    return [f, h, q];
  }
}

const RADIANS = Math.PI / 180;
const POWER_25_7 = 25 ** 7;

/** 1 / S_L of CIEDE2000. */
function lightnessWeight(p: number, q: number): number {
  const middle = ((p + q) / 2 - 50) ** 2;
  return 1 / (1 + (0.015 * middle) / Math.sqrt(20 + middle));
}

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

  /** The least that a colour of this lightness is off: the part of the lightness alone. */
  byLightness(L: number): number {
    const off = Math.abs(L - this.lab[0]);
    return this.rows === 1 ? off : off * lightnessWeight(L, this.lab[0]);
  }

  /** On which side of the line through the target's hue and the opposite one a colour lies: 1, -1, 0 on it. */
  side(a: number, b: number): number {
    return Math.sign(this.lab[1] * b - this.lab[2] * a);
  }

  /** Whether a colour's hue is nearer to the one opposite the target's than to the target's. */
  isOpposite(a: number, b: number): boolean {
    return this.lab[1] * a + this.lab[2] * b < 0;
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
    const forL = lightnessWeight(L, L0);
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
