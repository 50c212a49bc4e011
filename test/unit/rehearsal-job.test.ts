import { describe, expect, it } from 'vitest';
import type { Lab } from '../../core/index.js';
import { Service } from '../../core/worker/service.js';

/** A grey spot, sRGB 128, on a dark field, sRGB 40; 120 x 80. */
function scene(): { width: number; height: number; data: Uint8ClampedArray } {
  const [width, height] = [120, 80];
  const data = new Uint8ClampedArray(4 * width * height);
  for (let i = 0; i < width * height; i++) {
    const spot = Math.hypot((i % width) + 0.5 - 30, Math.floor(i / width) + 0.5 - 40) < 4;
    const grey = spot ? 128 : 40;
    data.set([grey, grey, grey, 255], 4 * i);
  }
  return { width, height, data };
}

const board = {
  bands: [
    { name: 'dark', floor: 0, ceiling: 40 },
    { name: 'middle', floor: 40, ceiling: 70 },
    { name: 'light', floor: 70, ceiling: 95 },
  ],
  swatches: [{ id: 'ink', bucket: 0, lightness: 20, lab: [20, 0, 0] as Lab }],
};

/** L* at the middle of the spot after a step of two: the field is laid, then the last accents. */
async function spotAfter(upToStep: number, toned: boolean): Promise<number> {
  const service = new Service();
  const opened = await service.open('1', 'p', scene(), {});
  if (!opened.ok) throw new Error(opened.error.message);
  const done = await service.run('2', 'rehearsal', {
    ...{ picture: 'p', thresholds: [102, 178], brushMm: 12, paperWidthMm: 120, board },
    ...{ steps: [{ regions: [0] }, { regions: [] }], upToStep },
    marks: [{ x: 30, y: 40, area: 50, light: true, toned }],
  });
  if (!done.ok) throw new Error(done.error.message);
  const { plane } = done.value;
  return plane.data[40 * plane.width + 30] / 2.55;
}

describe('the job rehearsal', () => {
  it('leaves a kept light as paper, and tones one that is no white of the photo with the last accents', async () => {
    expect(await spotAfter(1, false)).toBeCloseTo(95, 0);
    expect(await spotAfter(0, true)).toBeCloseTo(95, 0);
    // sRGB 128 is L* 53.6 (culori 4.0.2).
    expect(Math.abs((await spotAfter(1, true)) - 53.6)).toBeLessThan(0.5);
  });
});
