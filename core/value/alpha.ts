import { byteOfLinear, LINEAR_OF_SRGB } from '../colour/index.js';

/**
 * One channel (0 red, 1 green, 2 blue) of the pixels `from..to` of straight-alpha RGBA, laid over
 * white in linear light.
 */
export function overWhite(
  rgba: Uint8Array | Uint8ClampedArray,
  channel: number,
  out: Uint8Array,
  from: number,
  to: number,
): void {
  for (let i = from, k = 4 * from; i < to; i++, k += 4) {
    const alpha = rgba[k + 3];
    const byte = rgba[k + channel];
    out[i] = alpha === 255 ? byte : laidOver(byte, alpha);
  }
}

function laidOver(byte: number, alpha: number): number {
  return byteOfLinear(1 - (alpha / 255) * (1 - LINEAR_OF_SRGB[byte]));
}
