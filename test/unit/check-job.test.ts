/**
 * The job `check`, through the service: a photo of the plan, and photographs of paintings with known faults by the tests' camera
 * (test/synthetic/camera.ts).
 */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Corners, Pixels } from '../../core/base/types.js';
import { Service } from '../../core/worker/service.js';
import type { CheckInput, CheckReport } from '../../core/worker/check-jobs.js';
import { onQuad } from '../synthetic/camera.js';
import {
  ACROSS,
  DOWN,
  fractions,
  HEIGHT,
  PAINTED,
  photoOfPlan,
  QUAD,
  shot,
  WIDTH,
} from './check-shot.js';
import { SHAPE_TARGETS } from './check-synthetic.js';

const service = new Service();
let jobs = 0;
const PLAN = [92, 58, 28, 58, 28];

async function checkOf(photo: Pixels, input: Partial<CheckInput> = {}) {
  const opened = await service.open(`${jobs++}`, 'painting', photo, {});
  if (!opened.ok) throw new Error(opened.error.message);
  return service.run(`${jobs++}`, 'check', {
    picture: 'painting',
    corners: fractions(PAINTED),
    plan: { picture: 'plan', thresholds: [110, 190], brushMm: 10, paperWidthMm: 300 },
    targets: SHAPE_TARGETS,
    ...input,
  });
}

async function found(photo: Pixels, input: Partial<CheckInput> = {}): Promise<CheckReport> {
  const report = await checkOf(photo, input);
  if (!report.ok) throw new Error(report.error.message);
  return report.value;
}

const codes = (reasons: { code: string }[]): string[] => reasons.map(({ code }) => code);

let plain: Pixels;
beforeAll(async () => {
  plain = shot(PLAN);
  const opened = await service.open('plan', 'plan', photoOfPlan, {});
  expect(opened.ok).toBe(true);
});

describe('check', { timeout: 60_000 }, () => {
  it('finds a painting that is its plan to be so, under warm uneven light', async () => {
    const report = await found(plain);
    expect(report.comparison.agreement).toBeGreaterThan(0.97);
    expect(report.comparison.kappa).toBeGreaterThan(0.95);
    expect(report.comparison.lostReserves).toEqual([]);
    for (const { shift } of report.comparison.corrections) expect(Math.abs(shift)).toBeLessThan(2);
    expect(report.summary[0].code).toBe('check.as-planned');
    expect(report.islands).toEqual([]);
    expect(report.afar.reads).toBe('well');
    expect(report.match.best).toBe('straight');
    expect(report.alignment.found).toBe(true);
    expect(report.warnings).toEqual([]);
    expect(report.rectified.plane).toMatchObject({ width: WIDTH, height: HEIGHT });
  });

  it('tells shifts within 2 L*, though corners were set 1 % off', async () => {
    const corners = PAINTED.map(([x, y], i) => [x + [6, -5, 5, -6][i], y + [-5, 5, 6, -4][i]]);
    const report = await found(shot([92, 70, 40, 50, 28]), {
      corners: fractions(corners as Corners),
      tubes: ['ultramarine', 'burnt-sienna', 'raw-sienna'],
    });
    expect(report.alignment.found).toBe(true);
    expect(report.alignment.movedMm).toBeGreaterThan(1);
    // Set about 8 pixels off; no border lies near the lower corners, so what the others tell is carried on to them.
    report.corners.forEach(([x, y], i) => {
      expect(Math.abs(ACROSS * x - PAINTED[i][0])).toBeLessThan(1.67);
      expect(Math.abs(DOWN * y - PAINTED[i][1])).toBeLessThan(1.67);
    });
    const shifts = report.comparison.corrections
      .filter(({ shift }) => Math.abs(shift) > 3)
      .map(({ shift }) => shift)
      .sort((a, b) => a - b);
    expect(shifts).toHaveLength(3);
    [-12, -12, 8].forEach((shift, i) => expect(Math.abs(shifts[i] - shift)).toBeLessThan(2));
    expect(report.advice.filter(({ action }) => action === 'glaze')).toHaveLength(2);
    expect(report.advice.find(({ action }) => action === 'lift')?.shift).toBeGreaterThan(6);
    expect(report.summary[0].code).toBe('check.differs');
  });

  it('holds a half-done painting against the plan after that step', async () => {
    // Regions by their place in the plan: the ones of the darkest band are done, the rest is paper.
    const whole = await service.run(`${jobs++}`, 'masses', {
      picture: 'plan',
      thresholds: [110, 190],
      brushMm: 10,
      paperWidthMm: 300,
    });
    if (!whole.ok) throw new Error(whole.error.message);
    const of = (band: number): number[] =>
      whole.value.masses.regions.filter((region) => region.band === band).map(({ id }) => id);
    const order = [
      { id: 'darks', regions: of(0) },
      { id: 'middle', regions: of(1) },
    ];
    const report = await found(shot([95, 95, 28, 95, 28]), { order, upToStep: 0 });
    expect(report.comparison.toCome).toEqual(of(1));
    expect(report.comparison.lostReserves).toEqual([]);
    expect(report.comparison.agreement).toBeGreaterThan(0.95);
  });

  it('knows a mirrored photo and another painting', async () => {
    const mirrored = await found(shot(PLAN, {}, true));
    expect(codes(mirrored.warnings)).toContain('check.mirrored');
    const reversed = await found(shot([28, 50, 92, 70, 92]));
    expect(codes(reversed.warnings)).toContain('check.other-painting');
  });

  it('says when the painting is cut off, when it shines, when paper is overexposed', async () => {
    const cut = await found(plain, {
      corners: [
        [-0.2, 0.1],
        [0.9, 0.1],
        [0.9, 0.9],
        [-0.2, 0.9],
      ],
      white: { from: 'none' },
    });
    expect(codes(cut.warnings)).toContain('check.cut-off');
    const wet = await found(
      shot(PLAN, {
        glares: [{ at: [0.3, 0.65], radius: [0.12, 0.08], softness: 0.4, light: 0.9 }],
      }),
    );
    expect(codes(wet.warnings)).toContain('check.glare');
    const bright = await found(shot(PLAN, { exposure: 1.7 }));
    expect(codes(bright.warnings)).toContain('check.white-clipped');
  });

  it('says that nothing told it what is white, unless that was chosen', async () => {
    const whole = await found(photoOfPlan, { corners: undefined });
    expect(codes(whole.warnings)).toEqual(['check.no-white']);
    expect(whole.comparison.agreement).toBeGreaterThan(0.99);
    const chosen = await found(photoOfPlan, { corners: undefined, white: { from: 'none' } });
    expect(chosen.warnings).toEqual([]);
  });

  it('takes white from a picked spot', async () => {
    const [x, y] = onQuad(QUAD, 0.5, 0.03);
    const report = await found(shot(PLAN, { falloff: [0, 0] }), {
      white: { from: 'spot', at: [x / ACROSS, y / DOWN] },
    });
    for (const { shift } of report.comparison.corrections) expect(Math.abs(shift)).toBeLessThan(2);
  });

  it('refuses crossed corners by name, and the plan’s own photo, and can be given up', async () => {
    const crossed = await checkOf(plain, {
      corners: [
        [0.1, 0.1],
        [0.9, 0.1],
        [0.1, 0.9],
        [0.9, 0.9],
      ],
    });
    expect(crossed).toMatchObject({ ok: false, error: { name: 'CornersUnusable' } });
    const own = await checkOf(plain, { picture: 'plan' });
    expect(own).toMatchObject({ ok: false, error: { name: 'RangeError' } });
    const running = service.run('given up', 'check', {
      picture: 'painting',
      corners: fractions(PAINTED),
      plan: { picture: 'plan', thresholds: [110, 190], brushMm: 10, paperWidthMm: 300 },
      targets: SHAPE_TARGETS,
    });
    service.cancel('given up');
    expect(await running).toMatchObject({ ok: false, error: { name: 'AbortError' } });
  });
});

describe('rectified', { timeout: 60_000 }, () => {
  it('gives the painting upright in its paper’s white, in the plan’s proportions', async () => {
    await service.open(`${jobs++}`, 'painting', plain, {});
    const given = await service.run(`${jobs++}`, 'rectified', {
      picture: 'painting',
      corners: fractions(PAINTED),
      aspect: 4 / 3,
      width: 400,
    });
    if (!given.ok) throw new Error(given.error.message);
    const { plane, rgba, warnings } = given.value;
    expect([plane.width, plane.height]).toEqual([400, 300]);
    expect(warnings).toEqual([]);
    // Ground, head, body: within 1.5 L* of what was painted.
    const at = (u: number, v: number): number =>
      plane.data[Math.floor(v * 300) * 400 + Math.floor(u * 400)] / 2.55;
    expect(Math.abs(at(0.1, 0.1) - 92)).toBeLessThan(2.5);
    expect(Math.abs(at(0.55, 0.45) - 58)).toBeLessThan(2.5);
    expect(Math.abs(at(0.35, 0.65) - 28)).toBeLessThan(2.5);
    // Greys come out grey though the light was warm.
    const k = 4 * (135 * 400 + 220);
    expect(Math.abs(rgba![k] - rgba![k + 2])).toBeLessThan(8);
  });
});
