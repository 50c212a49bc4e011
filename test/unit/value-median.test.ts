import fc from 'fast-check';
import { expect, it } from 'vitest';
import { finish } from '../../core/base/kernel.js';
import { medianKernel } from '../../core/value/median.js';

/** The definition: sort what lies in the window, of two middle ones take the darker. */
function bySorting(bytes: Uint8Array, width: number, height: number, radius: number): Uint8Array {
  return bytes.map((_, i) => {
    const x = i % width;
    const y = Math.floor(i / width);
    const window: number[] = [];
    for (let row = Math.max(0, y - radius); row <= Math.min(height - 1, y + radius); row++) {
      for (
        let column = Math.max(0, x - radius);
        column <= Math.min(width - 1, x + radius);
        column++
      )
        window.push(bytes[row * width + column]);
    }
    return window.sort((a, b) => a - b)[(window.length - 1) >> 1];
  });
}

const side = fc.integer({ min: 1, max: 28 });

it('the median is that of the sorted window at any radius, at the borders too', () => {
  fc.assert(
    fc.property(
      side,
      side,
      fc.integer({ min: 1, max: 40 }),
      fc.constantFrom(1, 3, 40, 255),
      fc.infiniteStream(fc.integer({ min: 0, max: 255 })),
      (width, height, radius, most, stream) => {
        const bytes = Uint8Array.from(
          [...stream.take(width * height)],
          (code) => code % (most + 1),
        );
        expect(finish(medianKernel(bytes, width, height, radius))).toEqual(
          bySorting(bytes, width, height, radius),
        );
      },
    ),
    { numRuns: 200 },
  );
});

it('windows of more than 65535 pixels do not overflow', () => {
  const [width, height] = [520, 400];
  const flat = new Uint8Array(width * height).fill(203);
  expect(finish(medianKernel(flat, width, height, 300))).toEqual(flat);
  // Two thirds dark: the middle of any window that holds all is dark.
  const parted = flat.map((_, i) => (i % width < 350 ? 30 : 220));
  expect(finish(medianKernel(parted, width, height, 600)).every((code) => code === 30)).toBe(true);
});
