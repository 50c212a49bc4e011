/** Pictures by formula, in whole numbers only, so that every engine is given the same pixels. */
import type { Pixels } from '../../core/index.js';

/** Whole numbers 0..2^31 - 1 in an order without a pattern (Park and Miller 1988: 48271 s mod 2^31 - 1; products stay below 2^53). */
function* numbers(seed: number): Generator<number, never> {
  for (let s = seed; ;) yield (s = (s * 48271) % 2147483647);
}

/** `colour` gives red, green, blue and alpha of the pixel at x, y. */
function picture(
  width: number,
  height: number,
  colour: (x: number, y: number) => readonly number[],
): Pixels {
  const data = new Uint8ClampedArray(4 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) data.set(colour(x, y), 4 * (y * width + x));
  return { width, height, data };
}

/** 0..255 and back again every 512. */
const wave = (at: number): number => Math.abs(255 - (at % 511));

/** Hills of light with grain; nothing is flat. */
function hills(): Pixels {
  const grain = numbers(7);
  return picture(211, 157, (x, y) => {
    const noise = (grain.next().value >> 8) % 24;
    const light = (wave(5 * x + 2 * y) + wave(3 * x + 7 * y + 90) + wave(11 * y)) / 3;
    return [light + noise, light - noise, wave(2 * x + y), 255];
  });
}

/** Discs on one another, flat but for a soft slope: a still life. */
function discs(): Pixels {
  const at = numbers(41);
  const next = (below: number): number => at.next().value % below;
  const all = Array.from({ length: 26 }, () => ({
    x: next(240),
    y: next(180),
    r: 4 + next(38),
    colour: [next(256), next(256), next(256)],
  }));
  return picture(240, 180, (x, y) => {
    const top = all.findLast((d) => (x - d.x) * (x - d.x) + (y - d.y) * (y - d.y) <= d.r * d.r);
    return top ? [...top.colour, 255] : [200 - (y >> 2), 190 - (x >> 3), 160, 255];
  });
}

/** Each pixel of its own colour and alpha: the slow path of the plane. */
function veils(): Pixels {
  const value = numbers(1234567);
  return picture(130, 97, (x, y) => {
    const n = value.next().value;
    return [n & 255, (n >> 8) & 255, (n >> 16) & 255, (x * 3 + y * 5) & 255];
  });
}

/** Every grey, in steps and slopes that tie: equal areas, equal heights, equal distances. */
function ties(): Pixels {
  return picture(192, 192, (x, y) => {
    const code = ((x >> 4) + 12 * (y >> 4)) & 255;
    const within = ((x & 15) - 8) * ((x & 15) - 8) + ((y & 15) - 8) * ((y & 15) - 8) < 25;
    const grey = within ? 255 - code : code;
    return [grey, grey, grey, 255];
  });
}

export const PICTURES: Record<string, () => Pixels> = { hills, discs, veils, ties };
