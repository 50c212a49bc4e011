import { describe, expect, it } from 'vitest';
import {
  accentsOf,
  edgesOf,
  lightnessPlane,
  massesOf,
  orderOfWork,
  passagesOf,
  passageWork,
  planSheets,
  SHEET_STRINGS,
} from '../../core/index.js';
import { Service } from '../../core/worker/service.js';
import { planOf } from './order-masses.js';

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
    expect(accents).toMatchObject({ ok: true, value: { accents: expected } });
    expect(expected).toHaveLength(1);
  });

  it('fail by name when the picture is not open', async () => {
    const input = { picture: 'no', thresholds: [60], brushMm: 10, paperWidthMm: 120 };
    const answer = await new Service().run('1', 'passages', input);
    expect(answer).toMatchObject({ ok: false, error: { name: 'PictureLost' } });
  });
});

describe('the jobs order and pages with passages', () => {
  const plan = planOf(2, false, {
    paper: { widthMm: 120, heightMm: 80, lightness: 95 },
    photoLimits: [24],
    brushes: [{ name: 'flat', tipMm: 10, pressedMm: 10 }],
  });
  plan.board.swatches = [
    { id: 'blue', bucket: 1, lightness: 51, lab: [51, -4, -17] },
    { id: 'grey', bucket: 1, lightness: 54, lab: [54, 0, 0] },
  ];
  const input = {
    picture: 'p',
    thresholds: [60],
    brushMm: 10,
    paperWidthMm: 120,
    plan,
    options: { strings: SHEET_STRINGS },
    strokes: false,
  };

  it('give what the functions give, and the same once more from what was kept', async () => {
    const service = new Service();
    const opened = await service.open('1', 'p', scene(), {});
    if (!opened.ok) throw new Error(opened.error.message);
    const pixels = scene();
    const plane = lightnessPlane(pixels);
    const masses = massesOf(plane, { thresholds: [60], brushPx: 10 });
    const passages = passagesOf(pixels, masses, { brushPx: 10 });
    const edges = edgesOf(masses, plane);
    const work = passageWork(plan, masses, passages, { edges });
    const steps = orderOfWork(plan, masses, { edges, passages: work });
    const order = await service.run('2', 'order', { ...input, passages: true });
    if (!order.ok) throw new Error(order.error.message);
    expect(order.value.passages).toEqual(work);
    expect(order.value.steps).toEqual(steps);
    expect(steps.flatMap((step) => step.passages ?? [])).toHaveLength(passages.passages.length);
    const pages = await service.run('3', 'pages', { ...input, passages: true });
    if (!pages.ok) throw new Error(pages.error.message);
    expect(pages.value.steps).toEqual(steps);
    expect(pages.value.pages).toEqual(
      planSheets(plan, masses, { edges, passages, order: steps, reserves: [] }),
    );
    expect(await service.run('4', 'pages', { ...input, passages: true })).toEqual(pages);
    // The answer of the job `passages` is handed over: it must not be what was kept.
    const given = await service.run('5', 'passages', input);
    if (!given.ok) throw new Error(given.error.message);
    given.value.labels.fill(0);
    expect(await service.run('6', 'pages', { ...input, passages: true })).toEqual(pages);
    const plain = await service.run('7', 'order', input);
    if (!plain.ok) throw new Error(plain.error.message);
    expect(plain.value).not.toHaveProperty('passages');
    for (const step of plain.value.steps) expect(step).not.toHaveProperty('passages');
  });
});
