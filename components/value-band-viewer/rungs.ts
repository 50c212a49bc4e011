import { lightnessOfMunsell, munsellValue } from '../shared/core.js';

/** The ladder's measures, in CSS pixels. */
export const RUNG = 34;
export const LADDER_TOP = 18;
export const LADDER_HEIGHT = 10 * RUNG + 2 * LADDER_TOP;

/** The height on the ladder of a value 0..10 (0, the darkest, stands at the foot). */
export function heightOfValue(value: number): number {
  return LADDER_TOP + (10 - value) * RUNG;
}

/** The value at a height on the ladder, kept within 0..10. */
export function valueOfHeight(y: number): number {
  return Math.min(10, Math.max(0, 10 - (y - LADDER_TOP) / RUNG));
}

/** The height of a lightness L* 0..100. */
export function heightOf(lightness: number): number {
  return heightOfValue(munsellValue(lightness));
}

/** L* at a value, to two decimals. */
export function lightnessAt(value: number): number {
  return Math.round(100 * lightnessOfMunsell(Math.min(10, Math.max(0, value)))) / 100;
}

/** The next tenth of a value in a direction, by `steps` tenths. */
export function steppedValue(value: number, steps: number): number {
  return Math.min(10, Math.max(0, (Math.round(value * 10) + steps) / 10));
}

/**
 * Places things that stand above one another as near as can be (least squares) to where they belong, without overlap.
 * @param centres where they belong, ascending
 * @param sizes how much room each needs
 * @returns centres between `from` and `to`, as far as the sizes allow
 */
export function spread(
  centres: readonly number[],
  sizes: readonly number[],
  from: number,
  to: number,
): number[] {
  const offsets = [0];
  for (let i = 1; i < centres.length; i++)
    offsets.push(offsets[i - 1] + (sizes[i - 1] + sizes[i]) / 2);
  // Less their offsets the centres must not fall: pool those that do (isotonic regression).
  const pools: { sum: number; count: number }[] = [];
  centres.forEach((centre, i) => {
    pools.push({ sum: centre - offsets[i], count: 1 });
    for (let last = pools.length - 1; last > 0; last--) {
      const [a, b] = [pools[last - 1], pools[last]];
      if (a.sum / a.count <= b.sum / b.count) break;
      pools.splice(last - 1, 2, { sum: a.sum + b.sum, count: a.count + b.count });
    }
  });
  const low = from + (sizes[0] ?? 0) / 2;
  const high = to - (sizes.at(-1) ?? 0) / 2 - (offsets.at(-1) ?? 0);
  return pools
    .flatMap(({ sum, count }) => new Array<number>(count).fill(sum / count))
    .map((base, i) => Math.max(low, Math.min(high, base)) + offsets[i]);
}
