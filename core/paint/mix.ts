import { expectNumber, expectObject, outOfRange, wrongType } from '../base/check.js';
import { cssOfLab } from '../colour/index.js';
import { inside, layer, outside } from './layers.js';
import { BANDS, expectSpectrum, labOfReflectance, paperReflectance } from './spectra.js';
import { tubeOf } from './tubes.js';
import type { Mix, Part } from './types.js';

/** A layer of a mix: absorption and scattering by band, and how thick it lies at strength 1. */
export interface Layer {
  K: Float64Array;
  S: Float64Array;
  /** The parts-weighted mean of the tubes' full loads. */
  fullLoad: number;
}

/** Parts as they should be: at least one, each a tube of the list and a finite number above 0. The same tube may come twice. */
export function expectParts(name: string, value: unknown): Part[] {
  if (!Array.isArray(value)) throw wrongType(name, value, 'an array of parts');
  if (value.length === 0) throw outOfRange(name, value, 'at least one part');
  value.forEach((entry: unknown, i) => {
    const part = expectObject(`${name}[${i}]`, entry);
    tubeOf(part.tube as string, `${name}[${i}].tube`);
    const amount = expectNumber(`${name}[${i}].parts`, part.parts);
    if (!(amount > 0)) throw outOfRange(`${name}[${i}].parts`, amount, 'a number above 0');
  });
  return value as Part[];
}

/** How strong the painter's own tubes are: by id, how many times the paint that a part of the tube in the data brings. 1 when absent. */
export type Loads = Readonly<Record<string, number>>;

export function expectLoads(name: string, value: unknown): Loads {
  if (value === undefined) return {};
  for (const [id, load] of Object.entries(expectObject(name, value)))
    expectNumber(`${name}[${JSON.stringify(id)}]`, load, LEAST_LOAD, MOST_LOAD);
  return value as Loads;
}

/** Bounds of a load. */
export const LEAST_LOAD = 0.05;
export const MOST_LOAD = 20;

/**
 * The layer of these parts: K, S and the full load are means of the tubes' weighted by the parts. A tube with a load brings that many
 * times its K and S; alone, this is the same as a full load that many times as thick.
 */
export function layerOf(parts: readonly Part[], loads: Loads = {}): Layer {
  const most = Math.max(...parts.map((part) => part.parts));
  const total = parts.reduce((sum, part) => sum + part.parts / most, 0);
  const K = new Float64Array(BANDS);
  const S = new Float64Array(BANDS);
  let fullLoad = 0;
  for (const part of parts) {
    const tube = tubeOf(part.tube);
    const share = part.parts / most / total;
    const load = share * (loads[part.tube] ?? 1);
    for (let i = 0; i < BANDS; i++) {
      K[i] += load * tube.K[i];
      S[i] += load * tube.S[i];
    }
    fullLoad += share * tube.fullLoad;
  }
  return { K, S, fullLoad };
}

/** Lays a layer over a ground in place. `ground`: reflectances under the surface, as {@link inside} gives them. */
export function layOver(ground: Float64Array, { K, S, fullLoad }: Layer, strength: number): void {
  const thickness = strength * fullLoad;
  for (let i = 0; i < BANDS; i++) ground[i] = layer(K[i], S[i], thickness, ground[i]);
}

/** The paper with the dried layers on it, under the surface: what a mix is laid on. */
export function groundOf(
  paper: Float64Array,
  over: readonly Mix[],
  loads: Loads = {},
): Float64Array {
  const ground = Float64Array.from(paper, inside);
  for (const dried of over) layOver(ground, layerOf(dried.parts, loads), dried.strength);
  return ground;
}

/** Paper and dried layers of an `options` object, checked: `paper` absent is that of L* 95, `over` absent is none. */
export function expectGround(options: Record<string, unknown>): {
  paper: Float64Array;
  over: Mix[];
} {
  const paper =
    options.paper === undefined
      ? paperReflectance()
      : expectSpectrum('options.paper', options.paper);
  const { over = [] } = options;
  if (!Array.isArray(over)) throw wrongType('options.over', over, 'an array of mixes');
  over.forEach((entry: unknown, i) => {
    const mix = expectObject(`options.over[${i}]`, entry);
    expectParts(`options.over[${i}].parts`, mix.parts);
    expectNumber(`options.over[${i}].strength`, mix.strength, 0);
  });
  return { paper, over: over as Mix[] };
}

/**
 * The colour of a mix, dry, on paper or on dried layers.
 *
 * K and S of the mix's layer are the parts-weighted means of its tubes' (two-constant theory of Kubelka and Munk), its thickness is
 * `strength` times the parts-weighted mean of their full loads. The paper's reflectance is corrected for the surface (Saunderson 1942),
 * the layers are laid below it lowest first, and the correction is taken back. Dried layers stay as they are: that a wash takes up some
 * of the paint below is not predicted.
 *
 * @param parts - Tubes and how much of each; only the ratios matter. At least one, each above 0.
 * @param options - `strength`: 0 bare paper, 1 (default) the heaviest wash a painter lays, above 1 tends to the opaque film.
 *   `paper`: its reflectance, 36 bands; that of L* 95 when absent. `over`: dried layers, lowest first; their parts and strengths count,
 *   and they are laid on this paper. `loads`: how strong the painter's own tubes are, by id (0.05..20, 1 when absent).
 * @returns the mix: reflectance (36 bands, as measured outside), Lab (D65), `css` as `#rrggbb`. A colour outside sRGB keeps lightness and
 *   hue and is drawn in to the gamut for `css` alone: `outOfGamut`.
 * @throws {TypeError | RangeError} for unknown tubes, no parts, parts that are not above 0, a wrong strength, paper or layer.
 */
export function mixOnPaper(
  parts: Part[],
  options: { strength?: number; paper?: Float64Array; over?: Mix[]; loads?: Loads } = {},
): Mix {
  expectParts('parts', parts);
  const given = expectObject('options', options);
  const strength =
    given.strength === undefined ? 1 : expectNumber('options.strength', given.strength, 0);
  const { paper, over } = expectGround(given);
  return finishedMix(parts, strength, paper, over, expectLoads('options.loads', given.loads));
}

/** {@link mixOnPaper} without its checks. */
export function finishedMix(
  parts: readonly Part[],
  strength: number,
  paper: Float64Array,
  over: readonly Mix[],
  loads: Loads = {},
): Mix {
  let reflectance: Float64Array;
  if (strength === 0 && over.length === 0) reflectance = Float64Array.from(paper);
  else {
    reflectance = groundOf(paper, over, loads);
    layOver(reflectance, layerOf(parts, loads), strength);
    for (let i = 0; i < BANDS; i++) reflectance[i] = outside(reflectance[i]);
  }
  const lab = labOfReflectance(reflectance);
  return {
    parts: parts.map(({ tube, parts: amount }) => ({ tube, parts: amount })),
    strength,
    reflectance,
    lab,
    ...cssOfLab(lab),
  };
}
