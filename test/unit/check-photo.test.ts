/**
 * Faults of the photo that must not be held against the painting: a shadow cast on it, and blur. Photographs by the tests' camera
 * (test/synthetic/camera.ts) at fixed seeds, whose shadows and blurs are known from how they are drawn.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Corners, Pixels } from '../../core/base/types.js';
import { sharpestEdge } from '../../core/picture/sharpness.js';
import { Service } from '../../core/worker/service.js';
import type { CheckInput, CheckReport } from '../../core/worker/check-jobs.js';
import type { CameraOptions } from '../synthetic/camera.js';
import { fractions, PAINTED, photoOfPlan, shot } from './check-shot.js';
import { SHAPE_TARGETS } from './check-synthetic.js';

const service = new Service();
const PLAN = [92, 58, 28, 58, 28];
let jobs = 0;

async function reportOf(photo: Pixels, input: Partial<CheckInput> = {}): Promise<CheckReport> {
  await service.open(`${jobs++}`, 'painting', photo, {});
  const report = await service.run(`${jobs++}`, 'check', {
    picture: 'painting',
    corners: fractions(PAINTED) as Corners,
    plan: { picture: 'plan', thresholds: [110, 190], brushMm: 10, paperWidthMm: 300 },
    targets: SHAPE_TARGETS,
    ...input,
  });
  if (!report.ok) throw new Error(report.error.message);
  return report.value;
}

const codes = ({ warnings }: CheckReport): string[] => warnings.map(({ code }) => code);
/** A shadow over parts of ground, head and body that nowhere reaches the paper's rim. */
const shadow = (depth: number, softness = 0.6): Partial<CameraOptions> => ({
  shadows: [{ at: [0.42, 0.55], radius: [0.16, 0.2], softness, depth }],
});

beforeAll(async () => {
  const opened = await service.open('plan', 'plan', photoOfPlan, {});
  expect(opened.ok).toBe(true);
});

describe('a shadow cast on the painting that misses the rim', { timeout: 120_000 }, () => {
  it.each([
    [0.3, 0.2],
    [0.3, 0.5],
    [0.6, 0.2],
    [0.6, 0.3],
    [1, 0.3],
    [0, 0.5],
  ])(
    'of softness %f that takes %f of the light: told, and no mass is blamed',
    async (softness, depth) => {
      const report = await reportOf(shot(PLAN, shadow(depth, softness)));
      expect(codes(report)).toEqual(['check.shadow-on-painting']);
      const { dark, percent } = report.warnings[0].values as Record<string, number>;
      // Softly it takes less than in its middle; masses of which most lies under it tell less, never more.
      expect(dark).toBeGreaterThan(12);
      expect(dark).toBeLessThanOrEqual(100 * depth + 2);
      // An ellipse of 205 x 197 pixels about its middle, the painting some 460 x 340: 20 %; its soft rim is not dark.
      expect(percent).toBeGreaterThan(4);
      expect(percent).toBeLessThan(24);
      for (const { action } of report.advice) expect(action).toBe('leave');
      expect(report.summary[0].code).toBe('check.as-planned');
    },
  );

  // The break points: from 15 % on where the shadow is soft, from some 30 % on where its edge is hard. Below, it is less than shows.
  it.each([
    [0.6, 0.1],
    [1, 0.1],
    [0.3, 0.1],
  ])('of softness %f that takes %f: not told, and less than shows', async (softness, depth) => {
    const report = await reportOf(shot(PLAN, shadow(depth, softness)));
    expect(codes(report)).toEqual([]);
    for (const { action } of report.advice) expect(action).toBe('leave');
  });

  it('is not seen in what the painter did: masses too dark, one mass graded, other tones', async () => {
    const paintings: Parameters<typeof shot>[0][] = [
      [92, 70, 40, 50, 28],
      [80, 50, 20, 65, 15],
      (shape, u) => PLAN[shape] - (shape === 0 ? 14 * u : 0),
      (shape, _u, v) => PLAN[shape] - (shape === 1 && v > 0.33 ? 15 : 0),
    ];
    for (const tones of paintings) expect(codes(await reportOf(shot(tones)))).toEqual([]);
  });

  it('leaves a mass that is darker than the shadow accounts for among the faults', async () => {
    const report = await reportOf(shot([92, 35, 28, 58, 28], shadow(0.25)));
    expect(codes(report)).toContain('check.shadow-on-painting');
    expect(report.advice.some(({ action, shift }) => action !== 'leave' && shift > 15)).toBe(true);
  });
});

describe('blur of the photo', { timeout: 120_000 }, () => {
  // 2 pixels of the plan are a millimetre here; an edge counts as soft from 2 mm on.
  it.each([0, 0.5])('of %f pixels: not told, edges are hard as planned', async (blurPx) => {
    const report = await reportOf(shot(PLAN, { blurPx }));
    expect(codes(report)).toEqual([]);
    expect(report.edges).toEqual([]);
  });

  it.each([1, 2, 3])(
    'of %f pixels: told with its width, and no edge is called too soft',
    async (blurPx) => {
      const report = await reportOf(shot(PLAN, { blurPx }));
      expect(codes(report)).toEqual(['check.blur']);
      expect(report.edges).toEqual([]);
      // Photo pixels are the plan's times 600 to about 459. sqrt(2 pi) s, and what camera, slope over two pixels and JPEG add.
      const scale = 600 / 459;
      const width = report.warnings[0].values.width as number;
      expect(width).toBeGreaterThan(0.95 * scale * Math.sqrt(2 * Math.PI) * blurPx);
      expect(width).toBeLessThan(scale * Math.hypot(Math.sqrt(2 * Math.PI) * blurPx, 2.5));
    },
  );

  it('does not take soft painted edges for blur: the rim of the paper is sharp', async () => {
    const soft = await reportOf(
      shot((shape, u, v) => {
        // The head's border runs over some 6 % of the painting.
        const out = Math.hypot((u - 0.55) / 0.2, (v - 0.33) / 0.22);
        const shade = Math.min(1, Math.max(0, (1.15 - out) / 0.3));
        return shape === 0 || shape === 1 ? 92 - 34 * shade : PLAN[shape];
      }),
    );
    expect(codes(soft)).toEqual([]);
    expect(soft.edges.some(({ action }) => action === 'firm')).toBe(true);
  });
});

describe('the sharpest edge', () => {
  /** A step between two tones that follows a logistic curve of slope 1.702 / sigma, near a Gaussian blur of sigma, as lightness codes. */
  const step = (sigma: number): { width: number; height: number; data: Uint8Array } => {
    const [width, height] = [240, 240];
    const data = new Uint8Array(width * height);
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) {
        // The mean over the pixel.
        let sum = 0;
        for (let s = -2; s <= 2; s++)
          sum += 1 / (1 + Math.exp((-1.702 * (x + s / 5 - 119.7)) / sigma)) / 5;
        data[y * width + x] = Math.round(40 + 160 * sum);
      }
    return { width, height, data };
  };

  // Of a logistic curve of slope k the step over the steepest slope is 4 / k: 4 s / 1.702 = 2.350 s.
  it.each([2, 3, 5, 8])(
    'of a step blurred by %i pixels is its step over its steepest slope',
    (sigma) => {
      const plane = step(sigma);
      const width = sharpestEdge(plane, new Uint8Array(plane.data.length).fill(1))!;
      expect(width / (2.35 * sigma)).toBeGreaterThan(0.93);
      expect(width / (2.35 * sigma)).toBeLessThan(1.07);
    },
  );

  it('is not told of a picture without edges', () => {
    const data = new Uint8Array(100 * 100).fill(120);
    expect(sharpestEdge({ width: 100, height: 100, data }, data)).toBeUndefined();
  });
});

describe('another distance', { timeout: 60_000 }, () => {
  it('is what a check from there would say, and no check', async () => {
    const photo = shot([92, 70, 40, 50, 28]);
    const near = await reportOf(photo, { distance: 2 });
    const input = {
      picture: 'painting',
      corners: fractions(PAINTED) as Corners,
      plan: { picture: 'plan', thresholds: [110, 190], brushMm: 10, paperWidthMm: 300 },
      targets: SHAPE_TARGETS,
    };
    const stages = new Set<string>();
    const afar = await service.run('afar', 'checkAfar', { ...input, distance: 8 }, (stage) =>
      stages.add(stage),
    );
    if (!afar.ok) throw new Error(afar.error.message);
    expect([...stages].filter((stage) => stage !== 'step-back')).toEqual([]);
    const again = await reportOf(photo, { distance: 8 });
    expect(afar.value).toEqual(again.afar);
    expect(again.comparison).toEqual(near.comparison);
  });
});
