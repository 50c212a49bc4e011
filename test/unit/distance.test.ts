import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { NO_DISTANCE, squaredDistances } from '../../core/index.js';

/** By the definition: the least over all zeros. */
function bruteForce(mask: Uint8Array, width: number, height: number): Int32Array {
  return Int32Array.from(mask, (_, at) => {
    let least = NO_DISTANCE;
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        if (mask[y * width + x] !== 0) continue;
        least = Math.min(least, (x - (at % width)) ** 2 + (y - Math.floor(at / width)) ** 2);
      }
    }
    return least;
  });
}

describe('squaredDistances', () => {
  it('is the least squared distance to a zero, on random masks', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 24 }),
        fc.integer({ min: 1, max: 24 }),
        fc.integer({ min: 0, max: 100 }),
        fc.infiniteStream(fc.integer({ min: 0, max: 99 })),
        (width, height, share, numbers) => {
          const mask = new Uint8Array(width * height);
          for (let i = 0; i < mask.length; i++)
            mask[i] = (numbers.next().value as number) < share ? 7 : 0;
          expect(squaredDistances(mask, width, height)).toEqual(bruteForce(mask, width, height));
        },
      ),
      { numRuns: 300 },
    );
  });

  it('is that on larger sparse masks too', () => {
    for (const [width, height, zeros] of [
      [97, 61, 1],
      [61, 97, 3],
      [120, 5, 2],
      [5, 120, 2],
      [80, 80, 9],
    ]) {
      const mask = new Uint8Array(width * height).fill(1);
      for (let i = 0; i < zeros; i++) mask[(i * 7919 + 13) % mask.length] = 0;
      expect(squaredDistances(mask, width, height)).toEqual(bruteForce(mask, width, height));
    }
  });

  it('is a disc about a single zero, and nothing without one', () => {
    const mask = new Uint8Array(11 * 9).fill(1);
    mask[4 * 11 + 5] = 0;
    const distances = squaredDistances(mask, 11, 9);
    expect(distances[4 * 11 + 5]).toBe(0);
    expect(distances[0]).toBe(25 + 16);
    expect(distances[8 * 11 + 10]).toBe(25 + 16);
    expect([...squaredDistances(Uint8Array.of(1, 1), 2, 1)]).toEqual([NO_DISTANCE, NO_DISTANCE]);
  });

  it('names a wrong argument and leaves the mask alone', () => {
    const mask = Uint8Array.of(1, 0, 1, 1);
    squaredDistances(mask, 2, 2);
    expect([...mask]).toEqual([1, 0, 1, 1]);
    expect(() => squaredDistances(mask, 3, 2)).toThrow(/mask/);
    expect(() => squaredDistances(mask, 0, 2)).toThrow(RangeError);
    expect(() => squaredDistances([1] as never, 1, 1)).toThrow(TypeError);
  });
});
