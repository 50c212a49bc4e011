/** The job `strokes` through the service: crops, the painter's own stroke, cancelling. */
import { beforeEach, describe, expect, it } from 'vitest';
import type { Pixels } from '../../core/index.js';
import type { MassesInput } from '../../core/worker/mass-inputs.js';
import { Service } from '../../core/worker/service.js';

const WIDTH = 400;
const HEIGHT = 300;
const HAIR = 60;
/** Dark hair to the left, light hair to the right, both running at 60 degrees clockwise from +x. */
const photo: Pixels = {
  width: WIDTH,
  height: HEIGHT,
  data: Uint8ClampedArray.from({ length: 4 * WIDTH * HEIGHT }, (_, i) => {
    const [x, y] = [(i >> 2) % WIDTH, Math.floor((i >> 2) / WIDTH)];
    if ((i & 3) === 3) return 255;
    const turn = (HAIR * Math.PI) / 180;
    const hair = 20 * Math.sin((2 * Math.PI * (y * Math.cos(turn) - x * Math.sin(turn))) / 8);
    return (x < 200 ? 60 : 190) + hair;
  }),
};

describe('the job strokes', () => {
  const service = new Service();
  const input: MassesInput = { picture: 'p', thresholds: [128], brushMm: 5, paperWidthMm: 100 };
  const strokes = async (more: Partial<MassesInput> = {}) => {
    const answer = await service.run('job', 'strokes', { ...input, ...more }, () => undefined);
    if (!answer.ok) throw new Error(answer.error.message);
    return answer.value;
  };
  const degrees = (line: Float32Array): number =>
    (Math.atan2(line.at(-1)! - line[1], line.at(-2)! - line[0]) * 180) / Math.PI;

  beforeEach(async () => {
    await service.open('open', 'p', photo, {});
  });

  it('gives a few arrows a mass along the hair, in pixels of the plane it names', async () => {
    const { arrows, unmet, width, height } = await strokes();
    expect([width, height, unmet]).toEqual([WIDTH, HEIGHT, []]);
    for (const region of [0, 1]) {
      const own = arrows.filter((arrow) => arrow.region === region);
      expect(own.length).toBeGreaterThanOrEqual(3);
      expect(own.length).toBeLessThanOrEqual(7);
    }
    for (const { line, sensed } of arrows) {
      expect(sensed).toBe(false);
      const off = Math.abs(degrees(line) - HAIR) % 180;
      expect(Math.min(off, 180 - off)).toBeLessThan(1);
    }
  });

  it('a stroke drawn on the photo gives the sense on a crop of it too', async () => {
    const crop = { x: 0.25, y: 0, width: 0.5, height: 1 };
    // Upward along the hair, in the left half of the photo: x 0.4, y 0.6 to 0.3.
    const up = { kind: 'stroke', from: [0.4, 0.6], to: [0.27, 0.3] };
    const across = { kind: 'stroke', from: [0.55, 0.6], to: [0.72, 0.4] };
    const { arrows, unmet, width, height } = await strokes({ crop, overrules: [up, across] });
    expect([width, height]).toEqual([200, 300]);
    expect(unmet.map(({ overrule, reason }) => [overrule, reason.code])).toEqual([
      [1, 'stroke-across-the-form'],
    ]);
    const first = arrows.find(({ sensed }) => sensed)!;
    // 0.4 of 400 pixels less the 100 that are cut off.
    expect(Math.abs(first.line[0] - 60)).toBeLessThan(1e-4);
    expect(Math.abs(first.line[1] - 180)).toBeLessThan(1e-4);
    const left = arrows.filter(({ region }) => region === first.region);
    expect(left.length).toBeGreaterThanOrEqual(3);
    for (const { line, sensed } of left) {
      expect(sensed).toBe(true);
      expect(line.at(-1)!).toBeLessThan(line[1]);
    }
  });

  it('can be given up', async () => {
    const running = service.run('given-up', 'strokes', input, () => undefined);
    service.cancel('given-up');
    const answer = await running;
    expect(answer.ok ? 'done' : answer.error.name).toBe('AbortError');
  });
});
