import { describe, expect, it } from 'vitest';
import { accentsOf, lightnessPlane, massesOf, passagesOf } from '../../core/index.js';
import { Service } from '../../core/worker/service.js';

/** A red spot and a blue field on grey, 120 x 80. */
function scene(): { width: number; height: number; data: Uint8ClampedArray } {
  const [width, height] = [120, 80];
  const data = new Uint8ClampedArray(4 * width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const spot = Math.hypot(x - 30, y - 40) < 4;
      const colour = spot ? [200, 58, 58] : x < 70 ? [128, 128, 128] : [96, 124, 150];
      data.set([...colour, 255], 4 * (y * width + x));
    }
  }
  return { width, height, data };
}

describe('the jobs passages and accents', () => {
  it('give what the functions give on the same masses', async () => {
    const service = new Service();
    const pixels = scene();
    const opened = await service.open('1', 'p', scene(), {});
    if (!opened.ok) throw new Error(opened.error.message);
    // A paper of 120 mm is a pixel a millimetre.
    const input = { picture: 'p', thresholds: [60], brushMm: 10, paperWidthMm: 120 };
    const masses = massesOf(lightnessPlane(pixels), { thresholds: [60], brushPx: 10 });
    const passages = await service.run('2', 'passages', input);
    if (!passages.ok) throw new Error(passages.error.message);
    const { lines, ...found } = passages.value;
    expect(found).toEqual(passagesOf(pixels, masses, { brushPx: 10 }));
    expect(found.passages.length).toBeGreaterThan(1);
    // The grey runs into the blue of the same mass at x = 70: the border is drawn there, and in one way only.
    expect([lines.run, lines.apart].filter((d) => d !== '')).toHaveLength(1);
    const [, x, y] = /^M([\d.]+) ([\d.]+)L/.exec(lines.run + lines.apart)!;
    expect(Math.abs(Number(x) - 70)).toBeLessThan(4);
    expect(Number(y) % 80).toBe(0);
    const accents = await service.run('3', 'accents', input);
    const expected = accentsOf(pixels, masses, { thresholds: [60], brushPx: 10 });
    expect(accents).toEqual({ ok: true, value: expected });
    expect(expected).toHaveLength(1);
  });

  it('fail by name when the picture is not open', async () => {
    const input = { picture: 'no', thresholds: [60], brushMm: 10, paperWidthMm: 120 };
    const answer = await new Service().run('1', 'passages', input);
    expect(answer).toMatchObject({ ok: false, error: { name: 'PictureLost' } });
  });
});
