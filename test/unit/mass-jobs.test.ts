/** The job `masses` through the service: millimetres, crops, the kept tree, loops and overrules. */
import { beforeEach, describe, expect, it } from 'vitest';
import { lightnessPlane, massesOf, type Pixels } from '../../core/index.js';
import type { MassesInput } from '../../core/worker/mass-inputs.js';
import { overrulesOnCrop } from '../../core/worker/mass-jobs.js';
import { Service } from '../../core/worker/service.js';

const WIDTH = 400;
const HEIGHT = 300;
/** A dark square, a small light disc in it, on a light ground. */
const photo: Pixels = {
  width: WIDTH,
  height: HEIGHT,
  data: Uint8ClampedArray.from({ length: 4 * WIDTH * HEIGHT }, (_, i) => {
    const [x, y] = [(i >> 2) % WIDTH, Math.floor((i >> 2) / WIDTH)];
    if ((i & 3) === 3) return 255;
    if (Math.hypot(x - 250, y - 150) < 9) return 240;
    return x >= 150 && x < 330 && y >= 60 && y < 240 ? 30 : 220;
  }),
};
const thresholds = [128];

describe('the job masses', () => {
  const service = new Service();
  const input: MassesInput = { picture: 'p', thresholds, brushMm: 10, paperWidthMm: 100 };
  const masses = async (more: Partial<MassesInput> = {}, told: string[] = []) => {
    const answer = await service.run('job', 'masses', { ...input, ...more }, (stage) => {
      told.push(stage);
    });
    if (!answer.ok) throw new Error(answer.error.message);
    return answer.value;
  };

  beforeEach(async () => {
    await service.open('open', 'p', photo, {});
  });

  it('gives what the function gives for the brush in pixels, with outlines and edges', async () => {
    const made = await masses();
    const expected = massesOf(lightnessPlane(photo), { thresholds, brushPx: 40 });
    expect(made.masses).toEqual(expected);
    expect(made.masses.regions).toHaveLength(2);
    expect(made.outlines.map(({ region }) => region)).toEqual([0, 1]);
    expect(made.edges).toHaveLength(1);
    expect(made.edges[0].regions).toEqual([0, 1]);
  });

  it('gives masses of its own each time, which the asker may hand on', async () => {
    const [first, second] = [await masses(), await masses()];
    expect(first.masses.labels.buffer).not.toBe(second.masses.labels.buffer);
    structuredClone(first.masses.labels.buffer, { transfer: [first.masses.labels.buffer] });
    expect((await masses()).masses).toEqual(second.masses);
  });

  it('gives the bands alone, the same as with all the rest, before and after', async () => {
    const bands = async () => {
      const answer = await service.run('job', 'massMap', input);
      if (!answer.ok) throw new Error(answer.error.message);
      return answer.value.map;
    };
    const before = await bands();
    const { map } = (await masses()).masses;
    expect(before).toEqual(map);
    structuredClone(before.data.buffer, { transfer: [before.data.buffer] });
    expect(await bands()).toEqual(map);
  });

  it('measures the brush on the crop, which fills the paper', async () => {
    const crop = { x: 0.5, y: 0.25, width: 0.25, height: 0.5 };
    const made = await masses({ crop });
    expect([made.masses.map.width, made.masses.map.height]).toEqual([100, 150]);
    // 10 mm on 100 mm are 10 pixels now, so the disc of 18 pixels is a mass.
    expect(made.masses.regions.map(({ band }) => band)).toEqual([0, 1]);
  });

  it('keeps loops finer, by the smallest brush named', async () => {
    const loop = (x0: number, x1: number): [number, number][] => [
      [x0, 0.3],
      [x1, 0.3],
      [x1, 0.7],
      [x0, 0.7],
    ];
    const focus = [
      { loop: loop(0.55, 0.7), brushMm: 9 },
      { loop: loop(0.1, 0.2), brushMm: 3 },
    ];
    expect((await masses({ focus })).masses.regions).toHaveLength(3);
    expect((await masses({ focus: [focus[0]] })).masses.regions).toHaveLength(2);
  });

  it('brings overrules of the photo to the crop, and tells of those outside it', async () => {
    const overrules = [
      { kind: 'band', at: [0.6, 0.3], band: 1 },
      { kind: 'band', at: [0.1, 0.1], band: 0 },
    ];
    const made = await masses({ crop: { x: 0.25, y: 0, width: 0.75, height: 1 }, overrules });
    expect(made.masses.regions).toHaveLength(1);
    expect(made.masses.unmet).toEqual([
      { overrule: 1, reason: { code: 'mass.band-outside', values: {} } },
    ]);
  });

  it('answers with a named error for limits that do not rise', async () => {
    const answer = await service.run('job', 'masses', { ...input, thresholds: [128, 60] });
    expect(answer.ok ? '' : answer.error.name).toBe('RangeError');
  });
});

describe('overrulesOnCrop', () => {
  it('moves every spot and scales radii by the longer sides', () => {
    const crop = { x: 0.5, y: 0.2, width: 0.25, height: 0.5 };
    const [mark, lock] = overrulesOnCrop(
      [
        { kind: 'mark', at: [0.6, 0.4], keep: true, light: true, radius: 0.01 },
        {
          kind: 'lock',
          at: [0.5, 0.2],
          band: 1,
          rings: [
            [
              [0.5, 0.2],
              [0.75, 0.2],
              [0.75, 0.7],
            ],
          ],
        },
      ],
      crop,
      { width: 400, height: 300 },
    );
    // The crop is 100 x 150 pixels of 400 x 300: 0.01 x 400 pixels are 4 of 150.
    expect(mark).toMatchObject({ keep: true, light: true, radius: expect.closeTo(4 / 150, 12) });
    (mark.at as number[]).forEach((part, i) => expect(part).toBeCloseTo([0.4, 0.4][i], 12));
    expect(lock.band).toBe(1);
    const ring = (lock.rings as number[][][])[0];
    expect(ring).toEqual([
      [0, 0],
      [1, 0],
      [1, expect.closeTo(1, 12)],
    ]);
  });
});
