import { expectNumber, outOfRange, wrongType } from '../base/check.js';

/**
 * The reflectance of a layer of paint over a ground, without any surface term: the finite solution of the two-flux equations (Kubelka and
 * Munk 1931; Kubelka 1948, Journal of the Optical Society of America 38, 448), written so that nothing is divided by S:
 *
 *     R = (S - Rg (S + K - q)) / (S + K - Rg S + q)        q = B coth(B x)        B = sqrt(K (K + 2 S))
 *
 * and for thick layers the same in powers of exp(-2 B x): the terms are so grouped that none cancels another.
 *
 * Limits: thickness 0 gives the ground; S = 0 gives Rg exp(-2 K x); K = 0 gives the layer that only scatters; thickness without end gives
 * 1 + K/S - sqrt((K/S)^2 + 2 K/S), or 0 where S = 0.
 *
 * @param K - Absorption of a layer of thickness 1, at least 0.
 * @param S - Scattering of the same, at least 0.
 * @param thickness - At least 0; `Infinity` is an opaque film.
 * @param ground - Reflectance (0..1) of what lies below.
 * @returns reflectance, 0..1.
 * @throws {TypeError | RangeError} naming the argument that is none of these.
 */
export function layerReflectance(K: number, S: number, thickness: number, ground: number): number {
  expectNumber('K', K, 0);
  expectNumber('S', S, 0);
  if (typeof thickness !== 'number') throw wrongType('thickness', thickness, 'a number');
  if (!(thickness >= 0)) throw outOfRange('thickness', thickness, 'a number of at least 0');
  expectNumber('ground', ground, 0, 1);
  return layer(K, S, thickness, ground);
}

/** {@link layerReflectance} without its checks. */
export function layer(K: number, S: number, thickness: number, ground: number): number {
  const B = Math.sqrt(K) * Math.sqrt(K + 2 * S);
  const t = B === 0 ? 0 : B * thickness;
  const bare = 1 - ground;
  if (t < 1) {
    if (thickness === Infinity) return S > 0 ? 1 : ground;
    const q = t < 1e-9 ? 1 : t / Math.tanh(t);
    const absorbed = K * thickness;
    const scattered = S * thickness * bare;
    return (scattered + ground * (q - absorbed)) / (scattered + absorbed + q);
  }
  const e = Math.exp(-2 * t);
  const film = S / (S + K + B);
  const scattered = S * (1 - e) * bare;
  return (scattered + ground * (K + B) * (film + e)) / (scattered + (K + B) * (1 + e * film));
}

// Saunderson 1942 (Journal of the Optical Society of America 32, 727): of light from outside the part k1 is thrown back at the surface, of
// light from inside the part k2. These values go with the K and S of Okumura 2005; they reproduce its measured masstones.
export const OUTER_SURFACE = 0.0307805;
export const INNER_SURFACE = 0.60602703;

const PASSED = (1 - OUTER_SURFACE) * (1 - INNER_SURFACE);

/** What is measured outside of a reflectance inside: k1 + (1 - k1)(1 - k2) R / (1 - k2 R). Both 0..1. */
export const outside = (inner: number): number =>
  OUTER_SURFACE + (PASSED * inner) / (1 - INNER_SURFACE * inner);

/** The reflectance inside of what is measured outside: the inverse of {@link outside}; 0 below the surface's own reflectance. */
export const inside = (outer: number): number => {
  const rest = outer - OUTER_SURFACE;
  return rest <= 0 ? 0 : rest / (PASSED + INNER_SURFACE * rest);
};
