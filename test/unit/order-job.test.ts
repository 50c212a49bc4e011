import { describe, expect, it } from 'vitest';
import {
  checkedSteps,
  edgesOf,
  lightnessPlane,
  massesOf,
  orderOfWork,
  planSheets,
  reconcileSteps,
  reservesOf,
  SHEET_STRINGS,
  withStepMoved,
  type Plan,
} from '../../core/index.js';
import { Service } from '../../core/worker/service.js';
import { planOf } from './order-masses.js';

/** A dark disc and a light bar on middle grey, with a white corner; 120 x 80. */
function scene(): { width: number; height: number; data: Uint8ClampedArray } {
  const [width, height] = [120, 80];
  const data = new Uint8ClampedArray(4 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const disc = Math.hypot(x - 40, y - 40) < 22;
      const grey = disc ? 40 : x > 85 ? (y < 40 ? 255 : 190) : 120;
      data.set([grey, grey, grey, 255], 4 * (y * width + x));
    }
  return { width, height, data };
}

const thresholds = [80, 160, 230];
// A paper of 120 mm is a pixel a millimetre.
const plan = planOf(3, true, { paper: { widthMm: 120, heightMm: 80, lightness: 95 } });
const input = (given: Plan = plan): object => ({
  picture: 'p',
  thresholds,
  brushMm: 10,
  paperWidthMm: 120,
  bare: true,
  plan: given,
  options: { paper: 'letter', strings: SHEET_STRINGS },
  strokes: false,
});

async function opened(): Promise<Service> {
  const service = new Service();
  const answer = await service.open('1', 'p', scene(), {});
  if (!answer.ok) throw new Error(answer.error.message);
  return service;
}

describe('the job pages', () => {
  it('gives the pages and steps that the functions give on the same masses', async () => {
    const service = await opened();
    const plane = lightnessPlane(scene());
    const masses = massesOf(plane, { thresholds, brushPx: 10 });
    const edges = edgesOf(masses, plane);
    const reserves = reservesOf(masses, { brushPx: 10 });
    const answer = await service.run('2', 'pages', input() as never);
    if (!answer.ok) throw new Error(answer.error.message);
    const { pages, steps } = answer.value;
    expect(steps.map(({ id }) => id)).toEqual(
      orderOfWork(plan, masses, { edges, reserves }).map(({ id }) => id),
    );
    expect(steps.length).toBeGreaterThan(3);
    expect(pages).toHaveLength(2);
    expect(pages).toEqual(
      planSheets(plan, masses, { paper: 'letter', edges, reserves, order: steps }),
    );
    // Once more, from what was kept: the same.
    expect(await service.run('3', 'pages', input() as never)).toEqual(answer);
    const strokes = await service.run('4', 'pages', { ...input(), strokes: true } as never);
    expect(strokes.ok && strokes.value.steps).toEqual(steps);
  });

  it('keeps the order and the ticks of the plan, with warnings found anew', async () => {
    const service = await opened();
    const first = await service.run('2', 'pages', input() as never);
    if (!first.ok) throw new Error(first.error.message);
    const moved = withStepMoved(first.value.steps, 'lay-2', 1).map(
      ({ id, kind, regions, moved: m }) => ({
        id,
        kind,
        regions,
        ...(m ? { moved: m } : {}),
        ...(id === 'lay-2' ? { done: true } : {}),
      }),
    );
    const answer = await service.run('3', 'pages', input({ ...plan, steps: moved }) as never);
    if (!answer.ok) throw new Error(answer.error.message);
    expect(answer.value.steps.map(({ id }) => id)).toEqual(moved.map(({ id }) => id));
    expect(answer.value.steps[1]).toMatchObject({ id: 'lay-2', done: true, moved: true });
    const plane = lightnessPlane(scene());
    const masses = massesOf(plane, { thresholds, brushPx: 10 });
    const facts = { edges: edgesOf(masses, plane), reserves: reservesOf(masses, { brushPx: 10 }) };
    const fresh = orderOfWork(plan, masses, facts);
    expect(answer.value.steps).toEqual(
      checkedSteps(reconcileSteps(moved, fresh), plan, masses, facts),
    );
  });

  it('fails by name when the picture is not open', async () => {
    const answer = await new Service().run('1', 'pages', input() as never);
    expect(answer).toMatchObject({ ok: false, error: { name: 'PictureLost' } });
  });

  it('wants all words: a job has none of its own', async () => {
    const service = await opened();
    const answer = await service.run('2', 'pages', { ...input(), options: {} } as never);
    expect(answer.ok ? '' : answer.error.name).toBe('TypeError');
    expect(answer.ok ? '' : answer.error.message).toMatch(/options\.strings/);
  });
});
