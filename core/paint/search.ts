import { expectInteger, expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import { finish, type Kernel } from '../base/kernel.js';
import type { Lab } from '../base/types.js';
import { deltaE2000, expectLab } from '../colour/index.js';
import { Distance, FlatMixer } from './flat.js';
import { expectGround, expectLoads, finishedMix, type Loads } from './mix.js';
import { tubeOf } from './tubes.js';
import type { FoundMix, Mix, Part, Tube } from './types.js';

/** What is looked for: a colour, or any colour of a lightness. */
export interface MixTarget {
  /** CIELAB, D65; L* 0..100. It counts when both are given. */
  lab?: Lab;
  /** L*, 0..100. */
  lightness?: number;
}

export interface MixOptions {
  /** Ids of the tubes on the shelf. Of tubes that share their data (stand-ins) one takes part. */
  tubes: string[];
  /** The most tubes in a mix, 1..12; 3 when absent. Above 3 only the best sets of three are added to. */
  maxTubes?: number;
  /** How many mixes, at most 100; 6 when absent. Each is of another set of tubes. */
  count?: number;
  /** Above 0, at most 20; 1 when absent. */
  maxStrength?: number;
  /** The largest total of whole parts, 1..100; 12 when absent. `false`: real parts that add up to 1. */
  wholeParts?: number | false;
  /** Reflectance of the paper, 36 bands; that of L* 95 when absent. */
  paper?: Float64Array;
  /** Dried layers, lowest first. */
  over?: Mix[];
  /** How strong the painter's own tubes are, by id (0.05..20, 1 when absent). */
  loads?: Loads;
}

/** Differences no further apart than this count as equally close when mixes are ranked, CIEDE2000. */
const EQUALLY_CLOSE = 0.05;
/** From this difference on CIEDE2000 is no longer like its own least squares, and the search looks at CIEDE2000 itself. */
const FAR = 4;
/** A set whose first real shares are this much further than need be is not followed from other starts, CIEDE2000. */
const HOPELESS = 8;
/** From how many starts a set is followed at most, the thick one aside. */
const MOST_STARTS = 6;
/** A mix this near needs no second look: none can be nearer by more, CIEDE2000. */
const SURE = 0.1;
/** So many of the best sets are swept first, whatever their real parts promise. */
const SWEPT = 3;
/** How many colours a search may compute before its sweeps end, so that small shelves are swept whole; and how many sweeps may in any case. */
const COLOURS = 50_000;
const COLOURS_OF_SWEEPS = 15_000;
/** How much nearer than the nearest of a sweep's strengths the best one may be, CIEDE2000. */
const BESIDE = 2;
/** The largest total of whole parts that is swept, what is swept of larger ones and of real parts, and of real parts once more, finely. */
const MOST_SWEPT = 16;
const SWEPT_OF_MORE = 12;
const SWEPT_FINELY = 24;
/** So many ratios are swept in a slice. */
const RATIOS_A_SLICE = 100;
/** Weights of three tubes in a coarse grid, against what each takes to its heaviest wash. */
const GRID = [1, 6, 36]
  .flatMap((p) => [1, 6, 36].flatMap((q) => [1, 6, 36].map((r) => [p, q, r])))
  .filter((weights) => Math.min(...weights) === 1);
/** Steps of a third in the ratio of two tubes, to both sides of equal loads: near complements turn their hue within a few. */
const PAIR_STEPS = 12;
/** How much nearer than the place in the coarse grid the best mix may lie, CIEDE2000. */
const COARSE = 8;
/** So many of the best places of coarse grids are followed. */
const FOLLOWED = 60;
/** How many parts whole ones may lie from the real ones when they are looked at. */
const NEARBY = 3;
/** The weakest wash that is looked at, as a share of the strongest. */
const WEAKEST = 1e-4;
/** The smallest share of a tube in a mix of real parts. */
const LEAST_SHARE = 1e-3;

/** A set of tubes with the best mix of it found so far. */
interface Found {
  tubes: Int32Array;
  /** Shares of the tubes, sum 1. */
  shares: Float64Array;
  thickness: number;
  deltaE: number;
  /** Whole parts, once there are any. */
  parts?: Int32Array;
  /** Other real shares of the same tubes that come near too. */
  others?: Found[];
}

/** Whether two starts are so different that they may lead to different places: shares sum up to 2 apart at most. */
const isApart = (p: Found, q: Found): boolean =>
  p.shares.reduce((sum, share, i) => sum + Math.abs(share - q.shares[i]), 0) > 0.4;

const isElsewhere = (p: Found, q: Found): boolean =>
  p.shares.some((share, i) => Math.abs(share - q.shares[i]) > 0.02) ||
  Math.abs(Math.log(p.thickness / q.thickness)) > 0.1;

const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));

/** Ratios of `n` whole parts without a common divisor, their total at most `most`. */
export function ratiosOf(n: number, most: number): number[][] {
  const list: number[][] = [];
  const add = (parts: number[], left: number): void => {
    if (parts.length === n) {
      if (parts.reduce(gcd) === 1) list.push(parts);
      return;
    }
    for (let amount = 1; amount <= left - (n - 1 - parts.length); amount++)
      add([...parts, amount], left - amount);
  };
  add([], most);
  return list;
}

/** The search of one target among the mixes of one shelf. */
class Search {
  readonly mixer: FlatMixer;
  readonly #coarseMixer: FlatMixer;
  readonly #distance: Distance;
  readonly #max: number;
  readonly #least: number;
  /** The thickness at which each tube alone comes nearest to the target's lightness. */
  readonly #alone: Float64Array;
  /** L* of each tube alone at the greatest strength. */
  readonly #fullLightness: Float64Array;
  readonly #amounts: Float64Array;
  readonly #one = new Float64Array(1);

  constructor(
    readonly tubes: readonly Tube[],
    distance: Distance,
    readonly settings: Settings,
  ) {
    const most = Math.max(3, settings.maxTubes);
    const { paper, over, loads } = settings;
    this.mixer = new FlatMixer(tubes, paper, over, most, loads);
    this.#coarseMixer = new FlatMixer(tubes, paper, over, most, loads, 3);
    this.#distance = distance;
    this.#max = settings.maxStrength;
    this.#least = settings.wholeParts === false ? LEAST_SHARE : 1 / settings.wholeParts;
    this.#amounts = new Float64Array(most);
    this.#fullLightness = new Float64Array(tubes.length);
    this.#alone = Float64Array.from(tubes, (_, i) => this.#lightest(i));
  }

  /** Of thicknesses in steps of a half, that at which the tube comes nearest to the target's lightness. */
  #lightest(tube: number): number {
    const index = Int32Array.of(tube);
    let best = Infinity;
    let found = 0;
    for (let strength = 1; strength > 0.001; strength /= 1.5) {
      this.#one[0] = strength * this.#max * this.mixer.fullLoads[tube];
      this.mixer.evaluate(index, this.#one, 1);
      if (strength === 1) this.#fullLightness[tube] = this.mixer.L;
      const off = Math.abs(this.mixer.L - this.#distance.lab[0]);
      if (off < best) [best, found] = [off, this.#one[0]];
    }
    return found;
  }

  #load(tubes: Int32Array, shares: Float64Array): number {
    let sum = 0;
    for (let i = 0; i < tubes.length; i++) sum += shares[i] * this.mixer.fullLoads[tubes[i]];
    return sum;
  }

  /** The difference from the target at these shares and this thickness. */
  #off(tubes: Int32Array, shares: Float64Array, thickness: number): number {
    const { mixer } = this;
    for (let i = 0; i < tubes.length; i++) this.#amounts[i] = thickness * shares[i];
    mixer.evaluate(tubes, this.#amounts, tubes.length);
    return this.#distance.of(mixer.L, mixer.a, mixer.b);
  }

  /** Shares not below the least one, sum 1. */
  #within(shares: Float64Array): Float64Array {
    const n = shares.length;
    const least = Math.min(this.#least * 1.05, 0.9 / n);
    let sum = 0;
    for (const share of shares) sum += share;
    let above = 0;
    for (let i = 0; i < n; i++) {
      shares[i] = Math.max(0, shares[i] / sum - least);
      above += shares[i];
    }
    for (let i = 0; i < n; i++)
      shares[i] = least + (above > 0 ? (shares[i] / above) * (1 - n * least) : (1 - n * least) / n);
    return shares;
  }

  /** The real shares and the thickness that bring these tubes nearest, followed from the best of a few starts. */
  first(tubes: Int32Array): Found {
    return tubes.length === 1 ? this.#single(tubes) : this.#descend(this.#starts(tubes)[0]);
  }

  /**
   * The same followed from other starts too, since three tubes often make one colour in two ways, thin and thick: `others`.
   *
   * @param best - What {@link first} found.
   * @param bar - What another way has to reach to be kept.
   */
  valleys(best: Found, bar: number): Found {
    const { tubes } = best;
    if (tubes.length === 1) return best;
    const starts = this.#starts(tubes);
    const followed = [starts[0]];
    for (const start of starts) {
      if (followed.length < MOST_STARTS && followed.every((other) => isApart(other, start)))
        followed.push(start);
    }
    const thick = this.#thickStart(tubes);
    if (thick) followed.push(thick);
    const valleys = [best];
    for (const start of followed.slice(1)) {
      const other = this.#descend(start);
      if (valleys.every((valley) => isElsewhere(valley, other))) valleys.push(other);
    }
    valleys.sort((p, q) => p.deltaE - q.deltaE);
    const others = valleys.slice(1).filter((valley) => valley.deltaE <= bar);
    return others.length > 0 ? { ...valleys[0], others } : valleys[0];
  }

  /** Shares and thicknesses to start from, the nearest first. */
  #starts(tubes: Int32Array): Found[] {
    const n = tubes.length;
    const starts: Found[] = [];
    const tryStart = (weights: (i: number) => number): void => {
      const shares = new Float64Array(n);
      for (let i = 0; i < n; i++) shares[i] = weights(i) * this.#alone[tubes[i]];
      let thickness = 0;
      let weight = 0;
      for (let i = 0; i < n; i++) {
        thickness += shares[i];
        weight += weights(i);
      }
      this.#within(shares);
      thickness = Math.min(thickness / weight, this.#max * this.#load(tubes, shares));
      starts.push({ tubes, shares, thickness, deltaE: this.#off(tubes, shares, thickness) });
    };
    tryStart(() => 1);
    for (let j = 0; j < n; j++) tryStart((i) => (i === j ? 5 : 1));
    if (n === 3) for (let j = 0; j < n; j++) tryStart((i) => (i === j ? 0.2 : 1));
    return starts.sort((p, q) => p.deltaE - q.deltaE);
  }

  /** The best strength of one tube, from strengths in steps of a twentieth. */
  #single(tubes: Int32Array): Found {
    const shares = Float64Array.of(1);
    const full = this.#max * this.mixer.fullLoads[tubes[0]];
    let best: Found = { tubes, shares, thickness: full, deltaE: Infinity };
    for (let part = 1; part > WEAKEST; part /= 1.05) {
      const deltaE = this.#off(tubes, shares, part * full);
      if (deltaE < best.deltaE) best = { tubes, shares, thickness: part * full, deltaE };
    }
    const { thickness, off } = this.polish(tubes, shares, best.thickness);
    return off < best.deltaE ? { tubes, shares, thickness, deltaE: off } : best;
  }

  /**
   * Looks again, by CIEDE2000 itself, where no set comes near: it then has edges (a hue difference of 180 degrees) and side valleys. Pairs are
   * looked at on a grid, the best of them followed and added to, since the nearest colours lie on the border of what a shelf reaches,
   * which few tubes make; sets of three on a coarse grid, the best of them followed, since a valley may be missed from the pairs. Betters
   * `sets`, and leaves them in order.
   *
   * @param follow - So many of the best places are followed.
   */
  *farther(sets: Found[], most: number, follow = FOLLOWED): Kernel<void> {
    const byTubes = new Map(sets.map((set) => [set.tubes.join(), set]));
    const better = (found: Found): void => {
      const set = byTubes.get(found.tubes.join())!;
      if (found.deltaE < set.deltaE) Object.assign(set, found);
    };
    const order = (): void => void sets.sort((p, q) => p.deltaE - q.deltaE);
    const best = (n: number, count: number): Found[] =>
      sets.filter((set) => set.tubes.length === n).slice(0, count);
    let looked = 0;
    if (most >= 2) {
      for (const set of sets.filter((each) => each.tubes.length === 2)) {
        const found = this.#grid(set.tubes);
        if (found) better(found);
        if (++looked % 8 === 0) yield 0.8;
      }
      order();
      for (const pair of best(2, 24)) {
        better(this.simplex(pair));
        yield 0.8;
      }
      order();
    }
    if (most >= 3) {
      const added: Found[] = [];
      for (const pair of best(2, 24)) {
        for (let tube = 0; tube < this.tubes.length; tube++)
          if (!pair.tubes.includes(tube)) added.push(this.#added(pair, tube));
        yield 0.8;
      }
      added.sort((p, q) => p.deltaE - q.deltaE);
      const starts: Found[] = [];
      for (const set of sets) {
        if (set.tubes.length !== 3) continue;
        const start = this.#coarseGrid(set.tubes, sets[0].deltaE + COARSE);
        if (start) starts.push(start);
        if (++looked % 64 === 0) yield 0.8;
      }
      starts.sort((p, q) => p.deltaE - q.deltaE);
      for (const start of [
        ...starts.slice(0, follow),
        ...added.slice(0, follow),
        ...best(3, follow / 2),
      ]) {
        better(this.simplex(start));
        yield 0.8;
      }
      order();
    }
  }

  /** The best of a grid of shares and strengths of two tubes. */
  #grid(tubes: Int32Array): Found | undefined {
    let best: Found | undefined;
    for (let step = -PAIR_STEPS; step <= PAIR_STEPS; step++) {
      const [p, q] = Array.from(tubes, (tube) => this.mixer.fullLoads[tube]);
      const shares = this.#within(Float64Array.of(p, q * 1.33 ** step));
      best = this.#along(this.mixer, tubes, shares, 1.8, best?.deltaE ?? Infinity) ?? best;
    }
    return best;
  }

  /**
   * The best of a coarse grid of three tubes, by coarse colours: shares by how strong the tubes are, strengths from full to weak.
   *
   * @param bar - What is no nearer is not told.
   */
  #coarseGrid(tubes: Int32Array, bar: number): Found | undefined {
    let best: Found | undefined;
    const shares = new Float64Array(3);
    for (const weights of GRID) {
      for (let i = 0; i < 3; i++) shares[i] = weights[i] * this.mixer.fullLoads[tubes[i]];
      this.#within(shares);
      best = this.#along(this.#coarseMixer, tubes, shares, 1.8, best?.deltaE ?? bar) ?? best;
    }
    return best;
  }

  /**
   * The nearest of the strengths from full to a 350th, each `step` times weaker than the one before, and of the one at which the hue lies
   * opposite the target's: there CIEDE2000 jumps, as the mean of the two hues does, and a narrow valley may lie beside the edge.
   *
   * @param bar - What is no nearer is not told; what is further by its lightness alone is not looked at.
   */
  #along(
    mixer: FlatMixer,
    tubes: Int32Array,
    shares: Float64Array,
    step: number,
    bar: number,
  ): Found | undefined {
    const distance = this.#distance;
    const n = tubes.length;
    const amounts = this.#amounts;
    let least = bar;
    let found = 0;
    const look = (thickness: number): number => {
      for (let i = 0; i < n; i++) amounts[i] = thickness * shares[i];
      mixer.evaluate(tubes, amounts, n);
      if (distance.byLightness(mixer.L) >= least) return Infinity;
      const off = distance.of(mixer.L, mixer.a, mixer.b);
      if (off < least) [least, found] = [off, thickness];
      return off;
    };
    const full = this.#max * this.#load(tubes, shares);
    let beforeL = 0;
    let beforeSide = 0;
    let beforeOpposite = false;
    for (let part = 1; part > 1 / 350; part /= step) {
      const off = look(part * full);
      const { L } = mixer;
      // Weaker washes get lighter still.
      if (off === Infinity && L > distance.lab[0] && L > beforeL) break;
      const side = distance.side(mixer.a, mixer.b);
      const isOpposite = distance.isOpposite(mixer.a, mixer.b);
      if (side * beforeSide < 0 && (isOpposite || beforeOpposite)) {
        let [weak, strong] = [part * full, part * full * step];
        for (let halving = 0; halving < 8; halving++) {
          const middle = Math.sqrt(weak * strong);
          look(middle);
          if (distance.side(mixer.a, mixer.b) === side) weak = middle;
          else strong = middle;
        }
      }
      [beforeL, beforeSide, beforeOpposite] = [L, side, isOpposite];
    }
    return found === 0
      ? undefined
      : { tubes, shares: shares.slice(), thickness: found, deltaE: least };
  }

  /** Two tubes and the share of a third that suits them best, of three. */
  #added(pair: Found, third: number): Found {
    const tubes = Int32Array.from([...pair.tubes, third]).sort();
    let best: Found | undefined;
    for (const share of [this.#least, 0.2, 0.5]) {
      const shares = this.#within(
        Float64Array.from(tubes, (tube) =>
          tube === third ? share : (1 - share) * pair.shares[pair.tubes.indexOf(tube)],
        ),
      );
      const thickness = Math.min(pair.thickness, this.#max * this.#load(tubes, shares));
      const deltaE = this.#off(tubes, shares, thickness);
      if (!best || deltaE < best.deltaE) best = { tubes, shares, thickness, deltaE };
    }
    return best!;
  }

  /**
   * A start at full strength, where a set holds tubes that stay lighter than the target and such that get darker: there the shares make the
   * lightness, not the water. Undefined for other sets.
   */
  #thickStart(tubes: Int32Array): Found | undefined {
    const light = Array.from(tubes, (tube) => this.#fullLightness[tube] > this.#distance.lab[0]);
    if (!light.includes(true) || !light.includes(false)) return undefined;
    let best: Found | undefined;
    for (const dark of [1, 0.2, 0.04]) {
      const shares = this.#within(
        Float64Array.from(tubes, (tube, i) => this.mixer.fullLoads[tube] * (light[i] ? 1 : dark)),
      );
      const thickness = this.#max * this.#load(tubes, shares);
      const deltaE = this.#off(tubes, shares, thickness);
      if (!best || deltaE < best.deltaE) best = { tubes, shares, thickness, deltaE };
    }
    return best;
  }

  // Working space of #descend: n variables are n - 1 logits of the shares above the least one, and the logarithm of the strength.
  readonly #x = new Float64Array(12);
  readonly #trial = new Float64Array(12);
  readonly #p = new Float64Array(12);
  readonly #w = new Float64Array(12);
  readonly #J = new Float64Array(36);
  readonly #kept = new Float64Array(36);
  readonly #H = new Float64Array(144);
  readonly #g = new Float64Array(12);
  readonly #r = new Float64Array(3);

  /** Sets shares and amounts from the variables; gives the thickness. */
  #place(tubes: Int32Array, x: Float64Array): number {
    const n = tubes.length;
    const p = this.#p;
    const w = this.#w;
    const free = 1 - n * this.#least;
    let sum = 0;
    for (let i = 0; i < n; i++) sum += p[i] = i < n - 1 ? Math.exp(x[i]) : 1;
    let load = 0;
    for (let i = 0; i < n; i++) {
      p[i] /= sum;
      w[i] = n === 1 ? 1 : this.#least + free * p[i];
      load += w[i] * this.mixer.fullLoads[tubes[i]];
    }
    const thickness = Math.exp(x[n - 1]) * this.#max * load;
    for (let i = 0; i < n; i++) this.#amounts[i] = thickness * w[i];
    return thickness;
  }

  /** Colour, residuals and their slopes by the variables; gives the sum of squares. */
  #linearise(tubes: Int32Array, x: Float64Array): number {
    const n = tubes.length;
    const { mixer } = this;
    const distance = this.#distance;
    const thickness = this.#place(tubes, x);
    mixer.differentiate(tubes, this.#amounts, n);
    distance.weigh(mixer.L, mixer.a, mixer.b);
    const { rows, map, residual } = distance;
    const free = 1 - n * this.#least;
    const strength = Math.exp(x[n - 1]) * this.#max;
    let cost = 0;
    for (let r = 0; r < rows; r++) cost += residual[r] * residual[r];
    for (let j = 0; j < n; j++) {
      let dL = 0;
      let da = 0;
      let db = 0;
      let loadSlope = 0;
      if (j < n - 1)
        for (let i = 0; i < n; i++)
          loadSlope +=
            this.mixer.fullLoads[tubes[i]] * free * this.#p[i] * ((i === j ? 1 : 0) - this.#p[j]);
      for (let i = 0; i < n; i++) {
        const du =
          j === n - 1
            ? this.#amounts[i]
            : thickness * free * this.#p[i] * ((i === j ? 1 : 0) - this.#p[j]) +
              this.#w[i] * strength * loadSlope;
        dL += mixer.slopes[3 * i] * du;
        da += mixer.slopes[3 * i + 1] * du;
        db += mixer.slopes[3 * i + 2] * du;
      }
      for (let r = 0; r < rows; r++)
        this.#J[r * n + j] = map[3 * r] * dL + map[3 * r + 1] * da + map[3 * r + 2] * db;
    }
    return cost;
  }

  /** The damped step in `#trial`, added to `x`; `held`: the strength stays. */
  #step(x: Float64Array, n: number, rows: number, damping: number, held: boolean): void {
    const H = this.#H;
    const g = this.#g;
    const J = this.#J;
    const m = held ? n - 1 : n;
    for (let i = 0; i < m; i++) {
      g[i] = 0;
      for (let r = 0; r < rows; r++) g[i] -= J[r * n + i] * this.#r[r];
      for (let j = 0; j <= i; j++) {
        let sum = 0;
        for (let r = 0; r < rows; r++) sum += J[r * n + i] * J[r * n + j];
        H[i * n + j] = H[j * n + i] = sum;
      }
    }
    for (let i = 0; i < m; i++) H[i * n + i] += damping * (H[i * n + i] + 1e-3);
    // Elimination; the matrix is positive definite.
    for (let i = 0; i < m; i++) {
      for (let j = i + 1; j < m; j++) {
        const factor = H[j * n + i] / H[i * n + i];
        for (let k = i; k < m; k++) H[j * n + k] -= factor * H[i * n + k];
        g[j] -= factor * g[i];
      }
    }
    for (let i = m - 1; i >= 0; i--) {
      for (let k = i + 1; k < m; k++) g[i] -= H[i * n + k] * g[k];
      g[i] /= H[i * n + i];
    }
    for (let i = 0; i < n; i++) {
      const step = i < m ? Math.max(-2, Math.min(2, g[i])) : 0;
      this.#trial[i] =
        i === n - 1
          ? Math.max(Math.log(WEAKEST), Math.min(0, x[i] + step))
          : Math.max(-9, Math.min(9, x[i] + step));
    }
  }

  #descend(start: Found): Found {
    const { tubes } = start;
    const n = tubes.length;
    const x = this.#x;
    const free = 1 - n * this.#least;
    const above = (i: number): number =>
      free > 0 ? Math.max(1e-6, (start.shares[i] - this.#least) / free) : 1;
    for (let i = 0; i < n - 1; i++) x[i] = Math.log(above(i) / above(n - 1));
    const full = this.#max * this.#load(tubes, start.shares);
    x[n - 1] = Math.log(Math.max(WEAKEST, Math.min(1, start.thickness / full)));
    const { rows, residual } = this.#distance;
    let cost = this.#linearise(tubes, x);
    this.#r.set(residual);
    const patient = this.settings.wholeParts === false ? 30 : 10;
    let damping = 0.01;
    for (let round = 0; round < patient && cost > 1e-6; round++) {
      let pull = 0;
      for (let r = 0; r < rows; r++) pull += this.#J[r * n + n - 1] * this.#r[r];
      const held = x[n - 1] >= 0 && pull < 0;
      if (held && n === 1) break;
      // A refused step leaves slopes of the trial behind: make those of the place again.
      this.#step(x, n, rows, damping, held);
      this.#kept.set(this.#J);
      const next = this.#linearise(tubes, this.#trial);
      if (next < cost) {
        const gain = cost - next;
        x.set(this.#trial);
        this.#r.set(residual);
        const slow = gain < 2e-3 * cost;
        cost = next;
        damping = Math.max(1e-6, damping / 6);
        if (slow && round > 2) break;
      } else {
        this.#J.set(this.#kept);
        damping *= 8;
        if (damping > 1e5) break;
      }
    }
    const thickness = this.#place(tubes, x);
    const shares = this.#w.slice(0, n);
    return { tubes, shares, thickness, deltaE: this.#off(tubes, shares, thickness) };
  }

  /** The thickness that suits given shares best, by the same least squares in one variable; a few rounds. */
  tune(tubes: Int32Array, shares: Float64Array, start: number): { thickness: number; off: number } {
    const n = tubes.length;
    const { mixer } = this;
    const distance = this.#distance;
    const { rows, map, residual } = distance;
    const full = this.#max * this.#load(tubes, shares);
    let thickness = Math.min(full, Math.max(WEAKEST * full, start));
    let best = { thickness, off: Infinity };
    for (let round = 0; round < 5; round++) {
      for (let i = 0; i < n; i++) this.#amounts[i] = thickness * shares[i];
      mixer.differentiate(tubes, this.#amounts, n);
      const off = distance.of(mixer.L, mixer.a, mixer.b);
      if (off < best.off) best = { thickness, off };
      distance.weigh(mixer.L, mixer.a, mixer.b);
      let dL = 0;
      let da = 0;
      let db = 0;
      for (let i = 0; i < n; i++) {
        dL += mixer.slopes[3 * i] * shares[i];
        da += mixer.slopes[3 * i + 1] * shares[i];
        db += mixer.slopes[3 * i + 2] * shares[i];
      }
      let pull = 0;
      let square = 1e-12;
      for (let r = 0; r < rows; r++) {
        const slope = map[3 * r] * dL + map[3 * r + 1] * da + map[3 * r + 2] * db;
        pull += slope * residual[r];
        square += slope * slope;
      }
      const step = Math.max(-0.6 * thickness, Math.min(1.5 * thickness, -pull / square));
      const next = Math.min(full, Math.max(WEAKEST * full, thickness + step));
      if (Math.abs(next - thickness) < 2e-3 * thickness) break;
      thickness = next;
    }
    return best;
  }

  /** The thickness of least difference between 1.3 times less and more, to `precision` of it, by golden section. */
  polish(
    tubes: Int32Array,
    shares: Float64Array,
    start: number,
    precision = 1e-5,
  ): { thickness: number; off: number } {
    const full = this.#max * this.#load(tubes, shares);
    const near = Math.min(full, Math.max(WEAKEST * full, start));
    const ratio = (Math.sqrt(5) - 1) / 2;
    let low = Math.log(Math.max(WEAKEST * full, near / 1.3));
    let high = Math.log(Math.min(full, near * 1.3));
    const at = (log: number): number => this.#off(tubes, shares, Math.exp(log));
    let p = high - ratio * (high - low);
    let q = low + ratio * (high - low);
    let fp = at(p);
    let fq = at(q);
    while (high - low > precision) {
      if (fp < fq) {
        high = q;
        q = p;
        fq = fp;
        p = high - ratio * (high - low);
        fp = at(p);
      } else {
        low = p;
        p = q;
        fp = fq;
        q = low + ratio * (high - low);
        fq = at(q);
      }
    }
    const middle = Math.exp((low + high) / 2);
    let best = { thickness: middle, off: this.#off(tubes, shares, middle) };
    for (const thickness of [near, Math.min(full, near * 1.3)]) {
      const off = this.#off(tubes, shares, thickness);
      if (off < best.off) best = { thickness, off };
    }
    return best;
  }

  /**
   * The best whole parts near the real ones: every ratio within three parts is foretold from the slopes there, the best of them
   * are computed.
   */
  whole(found: Found, most: number, far: boolean): Found {
    const { tubes } = found;
    const n = tubes.length;
    const { mixer } = this;
    const distance = this.#distance;
    for (let i = 0; i < n; i++) this.#amounts[i] = found.thickness * found.shares[i];
    mixer.differentiate(tubes, this.#amounts, n);
    distance.weigh(mixer.L, mixer.a, mixer.b);
    const { rows, map, residual } = distance;
    const G = new Float64Array(rows * n);
    const c = new Float64Array(rows);
    for (let r = 0; r < rows; r++) {
      c[r] = residual[r];
      for (let i = 0; i < n; i++) {
        const at = 3 * i;
        G[r * n + i] =
          map[3 * r] * mixer.slopes[at] +
          map[3 * r + 1] * mixer.slopes[at + 1] +
          map[3 * r + 2] * mixer.slopes[at + 2];
        c[r] -= G[r * n + i] * this.#amounts[i];
      }
    }
    const keep = 8;
    const list: { parts: Int32Array; thickness: number; cost: number }[] = [];
    const parts = new Int32Array(n);
    const weigh = (total: number): void => {
      let common = parts[0];
      for (let i = 1; i < n; i++) common = gcd(common, parts[i]);
      if (common !== 1) return;
      let pull = 0;
      let square = 1e-12;
      const v = [0, 0, 0];
      let load = 0;
      for (let i = 0; i < n; i++) load += (parts[i] / total) * mixer.fullLoads[tubes[i]];
      for (let r = 0; r < rows; r++) {
        for (let i = 0; i < n; i++) v[r] += (G[r * n + i] * parts[i]) / total;
        pull += v[r] * c[r];
        square += v[r] * v[r];
      }
      const thickness = Math.min(
        this.#max * load,
        Math.max(found.thickness / 3, Math.min(found.thickness * 3, -pull / square)),
      );
      let cost = 0;
      if (far)
        for (let i = 0; i < n; i++)
          cost += (parts[i] / total - found.shares[i]) ** 2 / (found.shares[i] + 0.01);
      else for (let r = 0; r < rows; r++) cost += (c[r] + thickness * v[r]) ** 2;
      if (list.length === keep && cost >= list[keep - 1].cost) return;
      if (list.length === keep) list.pop();
      list.push({ parts: parts.slice(), thickness: far ? found.thickness : thickness, cost });
      for (let i = list.length - 1; i > 0 && list[i].cost < list[i - 1].cost; i--)
        [list[i], list[i - 1]] = [list[i - 1], list[i]];
    };
    const place = (i: number, total: number, left: number): void => {
      if (i === n - 1) {
        parts[i] = left;
        if (n === 1 || Math.abs(left - total * found.shares[i]) <= NEARBY * (n - 1)) weigh(total);
        return;
      }
      const middle = total * found.shares[i];
      const last = Math.min(left - (n - 1 - i), Math.floor(middle + NEARBY));
      for (let amount = Math.max(1, Math.ceil(middle - NEARBY)); amount <= last; amount++) {
        parts[i] = amount;
        place(i + 1, total, left - amount);
      }
    };
    for (let total = n; total <= most; total++) place(0, total, total);
    return this.#best(tubes, list, far);
  }

  #best(
    tubes: Int32Array,
    list: { parts: Int32Array; thickness: number }[],
    far: boolean,
  ): Found & { parts: Int32Array } {
    let best: (Found & { parts: Int32Array }) | undefined;
    for (const { parts, thickness } of list) {
      const total = parts.reduce((sum, amount) => sum + amount, 0);
      const shares = Float64Array.from(parts, (amount) => amount / total);
      const tuned = far
        ? this.polish(tubes, shares, thickness, 5e-3)
        : this.tune(tubes, shares, thickness);
      if (!best || tuned.off < best.deltaE)
        best = { tubes, shares, parts, thickness: tuned.thickness, deltaE: tuned.off };
    }
    return best!;
  }

  /** Follows whole parts to where no part more or less, and no part moved, comes nearer. */
  climb(found: Found, most: number, far: boolean): Found {
    let best = found as Found & { parts: Int32Array };
    const n = best.tubes.length;
    const seen = new Set([best.parts.join()]);
    for (let round = 0; round < 12; round++) {
      const list: { parts: Int32Array; thickness: number }[] = [];
      const consider = (parts: Int32Array): void => {
        let total = 0;
        let common = 0;
        for (const amount of parts) {
          if (amount < 1) return;
          total += amount;
          common = gcd(common, amount);
        }
        const least = parts.map((amount) => amount / common);
        if (total / common > most || seen.has(least.join())) return;
        seen.add(least.join());
        list.push({ parts: least, thickness: best.thickness });
      };
      const total = best.parts.reduce((sum, amount) => sum + amount, 0);
      for (let times = 1; times * total <= most; times++) {
        for (let i = 0; i < n; i++) {
          for (const step of [-1, 1]) {
            const parts = best.parts.map((amount) => amount * times);
            parts[i] += step;
            consider(parts);
            for (let j = 0; j < n; j++) {
              if (j === i) continue;
              const moved = parts.slice();
              moved[j] -= step;
              consider(moved);
            }
          }
        }
      }
      if (list.length === 0) break;
      const next = this.#best(best.tubes, list, far);
      if (next.deltaE >= best.deltaE) break;
      best = next;
    }
    const { thickness, off } = this.polish(best.tubes, best.shares, best.thickness);
    return off < best.deltaE ? { ...best, thickness, deltaE: off } : best;
  }

  /**
   * The best of every ratio of parts to a total of `most`, at its best strength; where parts are real, what is followed from the best of them.
   *
   * @param bar - What is no nearer is not told.
   */
  *sweep(tubes: Int32Array, most: number, bar: number): Kernel<Found | undefined> {
    const places: Found[] = [];
    let least = bar;
    let looked = 0;
    for (const ratio of ratiosOf(tubes.length, most)) {
      if (++looked % RATIOS_A_SLICE === 0) yield 0.98;
      const total = ratio.reduce((sum, amount) => sum + amount, 0);
      const shares = Float64Array.from(ratio, (amount) => amount / total);
      const place = this.#along(this.mixer, tubes, shares, 1.25, least + BESIDE);
      if (!place) continue;
      least = Math.min(least, place.deltaE);
      places.push({ ...place, parts: Int32Array.from(ratio) });
    }
    places.sort((p, q) => p.deltaE - q.deltaE);
    return this.settings.wholeParts === false
      ? this.#followed(places, bar)
      : this.#polished(places, bar);
  }

  /**
   * Sweeps sets of up to three tubes: the best of `kept`, then in the order of their real parts as many as there is time for, all of them
   * where the shelf is small. Betters `kept`, and leaves it in order.
   */
  *sweeps(sets: readonly Found[], kept: Found[]): Kernel<void> {
    const { wholeParts } = this.settings;
    const end = Math.max(COLOURS, this.mixer.evaluations + COLOURS_OF_SWEEPS);
    const best = kept.slice(0, SWEPT).map(({ tubes }) => tubes.join());
    const order = [
      ...sets.filter(({ tubes }) => best.includes(tubes.join())),
      ...sets.filter(({ tubes }) => !best.includes(tubes.join())),
    ];
    const totals =
      wholeParts === false
        ? [SWEPT_OF_MORE, SWEPT_FINELY]
        : [wholeParts > MOST_SWEPT ? SWEPT_OF_MORE : wholeParts];
    for (const most of totals)
      for (const { tubes } of order) {
        if (this.mixer.evaluations > end) return;
        if (tubes.length > 3 || tubes.length > most) continue;
        const at = kept.findIndex((found) => found.tubes.join() === tubes.join());
        const found = yield* this.sweep(tubes, most, kept[Math.max(0, at)].deltaE);
        yield 0.98;
        if (!found) continue;
        if (at >= 0) kept[at] = found;
        else kept.push(found);
        kept.sort((p, q) => p.deltaE - q.deltaE);
      }
  }

  /** The best of places at the best strength about each. */
  #polished(places: Found[], bar: number): Found | undefined {
    let best: Found | undefined;
    for (const place of places) {
      const least = best?.deltaE ?? bar;
      if (place.deltaE > least + BESIDE) break;
      const { thickness, off } = this.polish(place.tubes, place.shares, place.thickness, 1e-3);
      if (off < least) best = { ...place, thickness, deltaE: off };
    }
    return best;
  }

  /** The best that is followed from places, three apart from each other. */
  #followed(places: Found[], bar: number): Found | undefined {
    const starts: Found[] = [];
    for (const place of places)
      if (starts.length < 3 && starts.every((start) => isElsewhere(start, place)))
        starts.push({ ...place, parts: undefined });
    let best: Found | undefined;
    for (const start of starts) {
      const found = this.simplex(this.simplex(start));
      if (found.deltaE < (best?.deltaE ?? bar)) best = found;
    }
    return best;
  }

  /** Follows real parts to the least CIEDE2000 itself, by the simplex of Nelder & Mead 1965. */
  simplex(found: Found): Found {
    const { tubes } = found;
    const n = tubes.length;
    if (n === 1) {
      const { thickness, off } = this.polish(tubes, found.shares, found.thickness);
      return off < found.deltaE ? { ...found, thickness, deltaE: off } : found;
    }
    const free = 1 - n * this.#least;
    const above = (i: number): number => Math.max(1e-6, (found.shares[i] - this.#least) / free);
    const full = this.#max * this.#load(tubes, found.shares);
    const first = new Float64Array(n);
    for (let i = 0; i < n - 1; i++) first[i] = Math.log(above(i) / above(n - 1));
    first[n - 1] = Math.log(found.thickness / full);
    const value = (x: Float64Array): number => {
      for (let i = 0; i < n - 1; i++) x[i] = Math.max(-9, Math.min(9, x[i]));
      x[n - 1] = Math.max(Math.log(WEAKEST), Math.min(0, x[n - 1]));
      this.#place(tubes, x);
      this.mixer.evaluate(tubes, this.#amounts, n);
      return this.#distance.of(this.mixer.L, this.mixer.a, this.mixer.b);
    };
    const corners: { x: Float64Array; off: number }[] = [{ x: first, off: value(first) }];
    for (let i = 0; i < n; i++) {
      const x = first.slice();
      x[i] += x[i] > -0.3 && i === n - 1 ? -0.3 : 0.3;
      corners.push({ x, off: value(x) });
    }
    for (let round = 0; round < 60 * n; round++) {
      corners.sort((p, q) => p.off - q.off);
      const worst = corners[n];
      if (worst.off - corners[0].off < 1e-5) break;
      const centre = new Float64Array(n);
      for (let c = 0; c < n; c++) for (let i = 0; i < n; i++) centre[i] += corners[c].x[i] / n;
      const along = (far: number): { x: Float64Array; off: number } => {
        const x = centre.map((at, i) => at + far * (worst.x[i] - at));
        return { x, off: value(x) };
      };
      const mirrored = along(-1);
      if (mirrored.off < corners[0].off) {
        const beyond = along(-2);
        corners[n] = beyond.off < mirrored.off ? beyond : mirrored;
      } else if (mirrored.off < corners[n - 1].off) corners[n] = mirrored;
      else {
        const nearer = along(mirrored.off < worst.off ? -0.5 : 0.5);
        if (nearer.off < Math.min(worst.off, mirrored.off)) corners[n] = nearer;
        else {
          for (let c = 1; c <= n; c++) {
            const x = corners[c].x.map((at, i) => (at + corners[0].x[i]) / 2);
            corners[c] = { x, off: value(x) };
          }
        }
      }
    }
    corners.sort((p, q) => p.off - q.off);
    if (corners[0].off >= found.deltaE) return found;
    const thickness = this.#place(tubes, corners[0].x);
    return { tubes, shares: this.#w.slice(0, n), thickness, deltaE: corners[0].off };
  }
}

export interface Settings {
  maxTubes: number;
  count: number;
  maxStrength: number;
  wholeParts: number | false;
  paper: Float64Array;
  over: Mix[];
  loads: Loads;
}

/** The tubes of a shelf, checked: at least one; of tubes that share their data the one that owns them, else the first. */
export function expectShelf(name: string, value: unknown, loads: Loads = {}): Tube[] {
  if (!Array.isArray(value)) throw wrongType(name, value, 'an array of tube ids');
  if (value.length === 0) throw outOfRange(name, value, 'at least one tube');
  const shelf: Tube[] = [];
  value.forEach((id: unknown, i) => {
    const tube = tubeOf(id as string, `${name}[${i}]`);
    const twin = shelf.findIndex(
      (other) => other.K === tube.K && (loads[other.id] ?? 1) === (loads[tube.id] ?? 1),
    );
    if (twin < 0) shelf.push(tube);
    else if (shelf[twin].standIn !== undefined && tube.standIn === undefined) shelf[twin] = tube;
  });
  return shelf;
}

/** A strength above 0 and at most 20. */
export function expectMaxStrength(name: string, value: unknown): number {
  const strength = expectNumber(name, value ?? 1, 0, 20);
  if (strength === 0) throw outOfRange(name, strength, 'a number above 0');
  return strength;
}

function expectTarget(value: unknown): MixTarget {
  const { lab, lightness } = expectObject('target', value);
  if (lab !== undefined) {
    const known = expectLab('target.lab', lab);
    expectNumber('target.lab[0]', known[0], 0, 100);
    return { lab: [...known] };
  }
  if (lightness === undefined) throw wrongType('target', value, 'an object with lab or lightness');
  return { lightness: expectNumber('target.lightness', lightness, 0, 100) };
}

function expectSettings(options: Record<string, unknown>): Settings {
  const { wholeParts = 12 } = options;
  return {
    maxTubes: expectInteger('options.maxTubes', options.maxTubes ?? 3, 1, 12),
    count: expectInteger('options.count', options.count ?? 6, 1, 100),
    maxStrength: expectMaxStrength('options.maxStrength', options.maxStrength),
    wholeParts:
      wholeParts === false ? false : expectInteger('options.wholeParts', wholeParts, 1, 100),
    ...expectGround(options),
    loads: expectLoads('options.loads', options.loads),
  };
}

/** The `room`-th least of the numbers added; without end while there are fewer. */
class Bar {
  readonly #least: number[] = [];

  constructor(readonly room: number) {}

  get value(): number {
    return this.#least.length < this.room ? Infinity : this.#least[this.room - 1];
  }

  add(number: number): void {
    if (number >= this.value) return;
    let at = this.#least.length;
    while (at > 0 && this.#least[at - 1] > number) at--;
    this.#least.splice(at, 0, number);
    if (this.#least.length > this.room) this.#least.pop();
  }
}

/** Sets of `n` of `count` things, in order. */
function* subsets(count: number, n: number): Generator<Int32Array, void, void> {
  const set = Int32Array.from({ length: n }, (_, i) => i);
  if (n > count) return;
  for (;;) {
    yield set.slice();
    let i = n - 1;
    while (i >= 0 && set[i] === count - n + i) i--;
    if (i < 0) return;
    set[i]++;
    for (let j = i + 1; j < n; j++) set[j] = set[j - 1] + 1;
  }
}

/** The best sets with one tube more. */
function* extended(found: Found[], count: number): Generator<Int32Array, void, void> {
  const seen = new Set<string>();
  const best = [...found].sort((p, q) => p.deltaE - q.deltaE).slice(0, 60);
  for (const { tubes } of best) {
    for (let tube = 0; tube < count; tube++) {
      if (tubes.includes(tube)) continue;
      const set = Int32Array.from([...tubes, tube]).sort();
      if (seen.has(set.join())) continue;
      seen.add(set.join());
      yield set;
    }
  }
}

/** The worst change of colour, CIEDE2000, when one part of the mix is a tenth more or less and its strength stays. */
export function steadinessOf(
  mix: Mix,
  { paper, over, loads }: Pick<Settings, 'paper' | 'over' | 'loads'>,
): number {
  let worst = 0;
  if (mix.parts.length === 1) return worst;
  for (let i = 0; i < mix.parts.length; i++) {
    for (const factor of [0.9, 1.1]) {
      const parts = mix.parts.map((part, j) =>
        j === i ? { ...part, parts: part.parts * factor } : part,
      );
      const { lab } = finishedMix(parts, mix.strength, paper, over, loads);
      worst = Math.max(worst, deltaE2000(mix.lab, lab));
    }
  }
  return worst;
}

const holds = (set: Int32Array, part: Int32Array): boolean =>
  part.every((tube) => set.includes(tube));

/** {@link findMixes} in slices. */
export function* findMixesKernel(target: MixTarget, options: MixOptions): Kernel<FoundMix[]> {
  const wanted = expectTarget(target);
  const given = expectObject('options', options);
  const settings = expectSettings(given);
  const { count, wholeParts, paper, over, loads, maxStrength } = settings;
  const shelf = expectShelf('options.tubes', given.tubes, loads);
  const search = new Search(shelf, new Distance(wanted), settings);

  const most = Math.min(settings.maxTubes, shelf.length, wholeParts === false ? 12 : wholeParts);
  const room = Math.max(24, 3 * count);
  const bar = new Bar(room);
  const sets: Found[] = [];
  let level: Found[] = [];
  for (let n = 1; n <= most; n++) {
    const next: Found[] = [];
    const candidates = n <= 3 ? subsets(shelf.length, n) : extended(level, shelf.length);
    for (const tubes of candidates) {
      const found = search.first(tubes);
      bar.add(found.deltaE);
      next.push(found);
      if (next.length % 24 === 0) yield ((n - 1) / most) * 0.6;
    }
    sets.push(...next);
    level = next;
  }
  sets.sort((p, q) => p.deltaE - q.deltaE);
  const far = wanted.lab !== undefined && sets[0].deltaE > FAR;
  if (far) yield* search.farther(sets, most);
  else {
    for (let i = 0; i < sets.length && sets[i].deltaE <= bar.value + HOPELESS; i++) {
      sets[i] = search.valleys(sets[i], bar.value);
      if (i % 24 === 0) yield 0.6 + 0.2 * (i / sets.length);
    }
    sets.sort((p, q) => p.deltaE - q.deltaE);
  }

  // Real parts bound what whole ones can reach, so sets beyond the worst of the kept ones need no look.
  const kept: Found[] = [];
  let looked = 0;
  for (const set of sets) {
    const last = kept.length < room ? Infinity : kept[room - 1].deltaE;
    if (set.deltaE > last + 0.1) break;
    let found = set;
    if (wholeParts !== false) {
      found = search.whole(set, wholeParts, far);
      for (const other of set.others ?? []) {
        if (other.deltaE > last) continue;
        const whole = search.whole(other, wholeParts, far);
        if (whole.deltaE < found.deltaE) found = whole;
      }
    }
    let at = kept.length;
    while (at > 0 && kept[at - 1].deltaE > found.deltaE) at--;
    kept.splice(at, 0, found);
    if (kept.length > room) kept.pop();
    if (++looked % 24 === 0) yield 0.8 + 0.15 * (looked / sets.length);
  }
  for (let i = 0; i < kept.length; i++) {
    kept[i] =
      wholeParts === false ? search.simplex(kept[i]) : search.climb(kept[i], wholeParts, far);
    yield 0.95 + 0.05 * (i / kept.length);
  }
  kept.sort((p, q) => p.deltaE - q.deltaE);
  if (kept[0].deltaE > SURE) {
    // Where many sets reach the target, only whole parts keep them off it.
    const isReached = sets.length >= room && sets[room - 1].deltaE <= SURE;
    if (!far && !isReached) yield* search.farther(sets, most, FOLLOWED / 6);
    yield* search.sweeps(sets, kept);
  }

  // A tube more that brings nothing makes no other mix.
  const told = (found: Found): boolean =>
    !kept.some(
      (other) =>
        other.tubes.length < found.tubes.length &&
        holds(found.tubes, other.tubes) &&
        other.deltaE <= found.deltaE + EQUALLY_CLOSE,
    );
  const chosen = [...kept.filter(told), ...kept.filter((found) => !told(found))].slice(0, count);
  const mixes = chosen.map(({ tubes, shares, parts, thickness }): FoundMix => {
    const amounts: Part[] = Array.from(tubes, (tube, i) => ({
      tube: shelf[tube].id,
      parts: parts?.[i] ?? shares[i],
    }));
    const load = amounts.reduce((sum, _, i) => sum + shares[i] * shelf[tubes[i]].fullLoad, 0);
    const strength = Math.min(maxStrength, thickness / load);
    const mix = finishedMix(amounts, strength, paper, over, loads);
    return {
      ...mix,
      deltaE: wanted.lab
        ? deltaE2000(wanted.lab, mix.lab)
        : Math.abs(wanted.lightness! - mix.lab[0]),
      steadiness: steadinessOf(mix, settings),
    };
  });
  return ranked(mixes);
}

/** Best first: closeness in steps of {@link EQUALLY_CLOSE}, then fewer tubes, then steadiness. */
function ranked(mixes: FoundMix[]): FoundMix[] {
  const left = [...mixes].sort((p, q) => p.deltaE - q.deltaE);
  const list: FoundMix[] = [];
  while (left.length > 0) {
    const from = left[0].deltaE;
    const end = left.findIndex((mix) => mix.deltaE > from + EQUALLY_CLOSE);
    const equal = left.splice(0, end < 0 ? left.length : end);
    equal.sort((p, q) => p.parts.length - q.parts.length || p.steadiness - q.steadiness);
    list.push(...equal);
  }
  return list;
}

/**
 * Mixes of a shelf's tubes that come nearest to a colour or a lightness, each of another set of tubes.
 *
 * Best first: by CIEDE2000 (by |L*| when only a lightness is asked for), differences within 0.05 counting as equal; then fewer tubes; then
 * steadiness, the worst change of colour when one part is off by a tenth. `deltaE` and `lab` are those of the returned parts. There is
 * always a mix: when the shelf cannot reach the target it is the nearest ({@link whyOutOfReach} tells why).
 *
 * Every set of up to three tubes is looked at: the real shares and strength of each by damped least squares, then the whole parts about
 * them, with the strength found again for each ratio. Where that comes no nearer than 0.1, sets are swept through all their parts and
 * strengths: all or nearly all sets of a small shelf, of larger ones those that come nearest.
 *
 * @throws {TypeError | RangeError} for a target without colour or lightness, L* outside 0..100, no tubes, unknown tubes, options out of range.
 */
export function findMixes(target: MixTarget, options: MixOptions): FoundMix[] {
  return finish(findMixesKernel(target, options));
}
