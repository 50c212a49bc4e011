import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  checkedSteps,
  newPlan,
  orderOfWork,
  parsePlan,
  reconcileSteps,
  serialisePlan,
  stepWarnings,
  withStepDone,
  withStepMoved,
  type Plan,
  type WorkStep,
} from '../../core/plan/index.js';
import { anyWork, edge, massesFrom, pairsIn, planOf } from './order-masses.js';

/*
 * The order itself is common practice, no source. What is tested is what it promises, by checks written apart from it: who is laid
 * when, what dries in between, what is told.
 */

const codes = (reasons: readonly { code: string }[]): string[] => reasons.map(({ code }) => code);
const ids = (steps: readonly { id: string }[]): string[] => steps.map(({ id }) => id);
const stepOf = (steps: readonly WorkStep[], region: number): number =>
  steps.findIndex(({ regions }) => regions.includes(region));

/** How many times the paint dries before each step, counted from the waits alone. */
const dryings = (steps: readonly WorkStep[]): number[] => {
  let count = 0;
  return steps.map(({ waits }) => (count += waits.length > 0 ? 1 : 0));
};

describe('the order of work, of plan and masses alone', () => {
  // A dark, a middle about it, a light, and paper.
  const masses = massesFrom(['111222', '101223', '111222']);

  it('lays darks first in the direct way, each band after the other has dried', () => {
    const steps = orderOfWork(planOf(3, true), masses);
    expect(ids(steps)).toEqual(['keep', 'lay-0', 'lay-1', 'lay-2']);
    expect(steps.map(({ regions }) => regions)).toEqual([[], [1 + 1], [0], [1]]);
    expect(steps.map(({ role }) => role)).toEqual([undefined, 'darkest', 'middles', 'lights']);
    expect(steps[0].keeps).toEqual([3]);
    expect(steps.map(({ waits }) => codes(waits))).toEqual([
      [],
      [],
      ['order.wait-hard-edges'],
      ['order.wait-hard-edges'],
    ]);
    expect(steps.flatMap(({ warnings }) => warnings)).toEqual([]);
  });

  it('lays lights first the other way', () => {
    const steps = orderOfWork(planOf(3, true, { way: 'light-to-dark' }), masses);
    expect(ids(steps)).toEqual(['keep', 'lay-2', 'lay-1', 'lay-0']);
  });

  it('puts the second darks behind the middles where there are four bands and more', () => {
    const four = massesFrom(['0123', '0123']);
    expect(ids(orderOfWork(planOf(4, false), four))).toEqual(['lay-0', 'lay-2', 'lay-1', 'lay-3']);
    const five = massesFrom(['01234', '01234']);
    expect(ids(orderOfWork(planOf(5, false), five))).toEqual([
      'lay-0',
      'lay-2',
      'lay-1',
      'lay-3',
      'lay-4',
    ]);
  });

  it('takes one mass, one band, no marks', () => {
    const steps = orderOfWork(planOf(1, false), massesFrom(['0']));
    expect(steps).toHaveLength(1);
    expect(steps[0]).toMatchObject({ id: 'lay-0', regions: [0], at: [[0.5, 0.5]], waits: [] });
  });

  it('dries nothing between masses that do not meet', () => {
    const apart = massesFrom(['0211', '0211']);
    const steps = orderOfWork(planOf(3, false), apart);
    expect(steps.map(({ id, session }) => [id, session])).toEqual([
      ['lay-0', 0],
      ['lay-1', 0],
      ['lay-2', 1],
    ]);
  });

  it('says where each mass is, on the upright photo', () => {
    const crop = { x: 0.5, y: 0, width: 0.5, height: 1 };
    const steps = orderOfWork(planOf(3, true, { crop }), masses);
    // The dark is the pixel (1, 1) of 6 by 3 in the right half: its middle is at 0.5 + 0.5 * 1.5 / 6 and 1.5 / 3.
    expect(steps[1].at).toEqual([[0.625, 0.5]]);
  });

  it('names what it was given when that is no plan or no masses', () => {
    expect(() => orderOfWork(null as never, masses)).toThrow(/^plan is null/);
    expect(() => orderOfWork(newPlan(), {} as never)).toThrow(/^masses\.map is undefined/);
    expect(() => orderOfWork(newPlan(), { ...masses, labels: [] as never })).toThrow(/labels/);
  });

  it('changes nothing it is given, and can be kept in a plan', () => {
    const plan = planOf(3, true);
    const before = structuredClone({ plan, masses });
    const steps = orderOfWork(plan, masses);
    expect({ plan, masses }).toEqual(before);
    const kept = parsePlan(serialisePlan({ ...plan, steps }));
    expect(kept.steps).toEqual(steps);
    expect(reconcileSteps(kept.steps, orderOfWork(plan, masses))).toEqual(steps);
  });
});

describe('what holds for any masses', () => {
  it('each mass is laid once, or is a reserve that some step keeps', () => {
    fc.assert(
      fc.property(anyWork, fc.boolean(), ({ plan, masses, edges, reserves }, known) => {
        const steps = orderOfWork(plan, masses, known ? { edges, reserves } : {});
        const times = masses.regions.map(
          ({ id }) => steps.filter(({ regions }) => regions.includes(id)).length,
        );
        const kept = new Set(steps.flatMap(({ keeps }) => keeps));
        masses.regions.forEach(({ id, band }) => {
          if (band < plan.board.bands.length) expect(times[id]).toBe(1);
          else expect([times[id], kept.has(id)]).toEqual([0, true]);
        });
        expect(new Set(ids(steps)).size).toBe(steps.length);
      }),
    );
  });

  it('soft neighbours are wet together; hard ones only where a chain of soft ones joins them', () => {
    fc.assert(
      fc.property(anyWork, ({ plan, masses, edges, reserves }) => {
        const steps = orderOfWork(plan, masses, { edges, reserves });
        const dry = dryings(steps);
        const paper = (id: number): boolean => masses.regions[id].band >= plan.board.bands.length;
        // Which masses a chain of soft edges joins: walked from each mass anew.
        const soft = edges.filter(({ kind, regions }) => kind !== 'hard' && !regions.some(paper));
        const joined = (from: number): Set<number> => {
          const seen = new Set([from]);
          for (const id of seen)
            for (const { regions } of soft)
              if (regions.includes(id)) regions.forEach((other) => seen.add(other));
          return seen;
        };
        for (const { kind, regions } of edges) {
          if (regions.some(paper)) continue;
          const [a, b] = regions.map((id) => dry[stepOf(steps, id)]);
          if (kind !== 'hard') expect(a).toBe(b);
          else if (!joined(regions[0]).has(regions[1])) expect(a).not.toBe(b);
        }
        expect(steps.flatMap(({ warnings }) => warnings)).toEqual([]);
      }),
    );
  });

  it('without soft edges bands come in the order of the way', () => {
    fc.assert(
      fc.property(anyWork, ({ plan, masses }) => {
        const steps = orderOfWork(plan, masses);
        const bands = plan.board.bands.length;
        const rank = (band: number): number =>
          plan.way === 'light-to-dark' ? -band : bands >= 4 && band === 1 ? bands / 2 + 0.25 : band;
        for (const [a, b] of pairsIn(masses)) {
          const [p, q] = [a, b].map((id) => rank(masses.regions[id].band));
          const [i, j] = [stepOf(steps, a), stepOf(steps, b)];
          if (i >= 0 && j >= 0) expect(Math.sign(i - j)).toBe(Math.sign(p - q));
        }
      }),
    );
  });

  it('masking lies on dry paper before all paint and comes off when all beside it is dry', () => {
    fc.assert(
      fc.property(anyWork, ({ plan, masses, edges, reserves }) => {
        const steps = orderOfWork(plan, masses, { edges, reserves });
        const mask = steps.findIndex(({ kind }) => kind === 'mask');
        if (mask < 0) return;
        expect(steps.slice(0, mask).flatMap(({ regions }) => regions)).toEqual([]);
        expect(codes(steps[mask].hints)).toContain('order.hint-masking');
        const painted = steps.findIndex(({ regions }, i) => i > mask && regions.length > 0);
        if (painted >= 0) expect(codes(steps[painted].waits)).toEqual(['order.wait-masking-dry']);
        const under = new Set(steps[mask].keeps);
        steps.forEach((step, i) => {
          if (step.kind === 'unmask') {
            for (const id of step.keeps) expect(under.delete(id)).toBe(true);
            expect(codes(step.waits).length).toBe(1);
          }
          if (i > mask) expect(step.regions.filter((id) => under.has(id))).toEqual([]);
        });
        expect(under.size).toBe(0);
      }),
    );
  });
});

describe('the spot in each mass', () => {
  it('lies in it, as deep as any of its pixels: distances to all other pixels, counted one by one', () => {
    fc.assert(
      fc.property(anyWork, ({ plan, masses }) => {
        const { labels, map } = masses;
        const { width, height } = map;
        const depth = (i: number): number => {
          const [x, y] = [i % width, Math.floor(i / width)];
          let least = Math.min(x + 1, y + 1, width - x, height - y);
          labels.forEach((label, j) => {
            if (label === labels[i]) return;
            const off = Math.abs((j % width) - x) + Math.abs(Math.floor(j / width) - y);
            least = Math.min(least, off);
          });
          return least;
        };
        for (const { regions, at } of orderOfWork(plan, masses))
          regions.forEach((id, k) => {
            const i = Math.floor(at[k][1] * height) * width + Math.floor(at[k][0] * width);
            expect(labels[i]).toBe(id);
            const depths = [...labels.keys()].filter((j) => labels[j] === id).map(depth);
            expect(depth(i)).toBe(Math.max(...depths));
          });
      }),
      { numRuns: 50 },
    );
  });
});

describe('reserves, marks and ground', () => {
  const masses = massesFrom(
    ['00000000', '02200000', '02200110', '00000110'],
    [
      { x: 6.5, y: 0.5, area: 1, band: 2, contrast: 60, region: 0 },
      { x: 6, y: 3, area: 1, band: 0, contrast: -30, region: 2 },
    ],
  );
  const plan = (part: Partial<Plan> = {}): Plan => planOf(3, false, part);
  const narrow = [{ region: 1, area: 4, narrowestPx: 0.2, mask: true }];

  it('kept light marks are masked, kept dark ones go last', () => {
    const steps = orderOfWork(plan(), masses);
    expect(ids(steps)).toEqual(
      ['mask', 'lay-0', 'lay-2', 'lay-1', 'unmask', 'marks'].sort(
        (a, b) => ids(steps).indexOf(a) - ids(steps).indexOf(b),
      ),
    );
    expect(steps[0]).toMatchObject({ kind: 'mask', marks: [1] });
    expect(steps.at(-1)).toMatchObject({ kind: 'marks', marks: [2] });
    expect(codes(steps.at(-1)!.waits).length + codes(steps.at(-2)!.waits).length).toBeGreaterThan(
      0,
    );
  });

  it('a light mark that is darker than the lightest band is kept as paper and toned at the end', () => {
    // Common practice, no source: what comes from under masking is white until its tone is laid.
    const [light, dark] = masses.marks;
    const grey = { ...masses, marks: [{ ...light, band: 1, contrast: 30 }, dark] };
    const steps = orderOfWork(plan(), grey);
    expect(steps[0]).toMatchObject({ kind: 'mask', marks: [1] });
    expect(steps.at(-2)).toMatchObject({ kind: 'unmask', marks: [1] });
    expect(steps.at(-1)).toMatchObject({ kind: 'marks', marks: [1, 2] });
    expect(steps.flatMap(({ warnings }) => codes(warnings))).toEqual([]);
  });

  it('a dropped mark is gone, a pinned one is numbered', () => {
    const overrules = [
      { kind: 'mark', at: [6.5 / 8, 0.5 / 4], keep: false },
      { kind: 'mark', at: [0.1, 0.9], keep: true, light: true, marking: 'm1' },
    ];
    const steps = orderOfWork(plan({ overrules }), masses);
    expect(steps[0]).toMatchObject({ kind: 'mask', marks: [2] });
    expect(steps.at(-1)).toMatchObject({ kind: 'marks', marks: [1] });
  });

  it('a narrow light is masked while the darks are laid, and laid after', () => {
    const steps = orderOfWork(plan(), masses, { reserves: narrow });
    expect(ids(steps)).toEqual([
      'mask',
      'lay-0',
      'lay-1',
      'unmask-lights',
      'lay-2',
      'unmask',
      'marks',
    ]);
    expect(steps[0].keeps).toEqual([1]);
    expect(steps[3].keeps).toEqual([1]);
    expect(steps[4].regions).toEqual([1]);
    const light = orderOfWork(plan({ way: 'light-to-dark' }), masses, { reserves: narrow });
    expect(ids(light)).not.toContain('unmask-lights');
  });

  it('the painter says how a light is kept', () => {
    const said = (method: string): WorkStep[] =>
      orderOfWork(plan({ overrules: [{ kind: 'reserve', at: [0.25, 0.5], method }] }), masses, {
        reserves: narrow,
      });
    expect(said('bare')[0]).toMatchObject({ kind: 'keep', keeps: [1] });
    // 8 pixels lie on 381 mm: 0.2 are 9.525 mm, and the brush makes 15.
    expect(said('bare').find(({ id }) => id === 'lay-0')?.warnings).toEqual([
      {
        code: 'order.warn-narrow-reserve',
        values: { masses: 1, widthMm: expect.closeTo(9.525, 9) as number, brushMm: 15 },
      },
    ]);
    expect(stepOf(said('bare'), 1)).toBe(-1);
    expect(said('mask')[0]).toMatchObject({ kind: 'mask', keeps: [1], marks: [1] });
    expect(said('mask').find(({ id }) => id === 'unmask')).toMatchObject({ keeps: [1] });
    const tinted = said('tint');
    expect(ids(tinted).slice(0, 3)).toEqual(['mask', 'tint', 'lay-0']);
    expect(tinted[1].regions).toEqual([1]);
    expect(codes(tinted[2].waits)).toEqual(['order.wait-tint-dry']);
    expect(stepOf(said('paint'), 1)).toBeGreaterThan(0);
  });

  it('a reserve given up is laid with the lightest band', () => {
    const four = massesFrom(['0123', '0123']);
    const overrules = [{ kind: 'reserve', at: [0.9, 0.5], method: 'paint' }];
    const steps = orderOfWork(planOf(3, true, { overrules }), four);
    expect(ids(steps)).toEqual(['lay-0', 'lay-1', 'lay-2', 'lay-2-2']);
    expect(steps[3].regions).toEqual([3]);
  });

  it('the ground is a wash of its own, stays paper, or is laid dark', () => {
    const sitter: [number, number][] = [
      [0, 0],
      [0.5, 0],
      [0.5, 1],
      [0, 1],
    ];
    const halves = massesFrom(['0112', '0112']);
    const order = (background: Plan['background']): [string, number[]][] =>
      orderOfWork(plan({ sitter, background }), halves).map(({ id, regions, keeps }) => [
        id,
        [...regions, ...keeps],
      ]);
    expect(order('as-photo')).toEqual([
      ['lay-0', [0]],
      ['lay-1', [1]],
      ['lay-2', [2]],
    ]);
    expect(order('wash')).toEqual([
      ['ground', [2]],
      ['lay-0', [0]],
      ['lay-1', [1]],
    ]);
    expect(order('dark')).toEqual([
      ['lay-0', [0]],
      ['ground', [2]],
      ['lay-1', [1]],
    ]);
    expect(order('paper')).toEqual([
      ['keep', [2]],
      ['lay-0', [0]],
      ['lay-1', [1]],
    ]);
    const ground = orderOfWork(plan({ background: 'wash' }), halves, { ground: [0] });
    expect(ground[0]).toMatchObject({ id: 'ground', regions: [0] });
  });

  it('facts of other masses are passed over', () => {
    const stale = { region: 99, area: 1, narrowestPx: 1, mask: true };
    const facts = { reserves: [stale], ground: [77], edges: [edge([50, 60], 'soft')] };
    expect(orderOfWork(plan({ background: 'wash' }), masses, facts)).toEqual(
      orderOfWork(plan({ background: 'wash' }), masses),
    );
  });

  it('overrules that lack their places are passed over', () => {
    const overrules = [
      { kind: 'mark' },
      { kind: 'edge', between: [[0, 0]] },
      { kind: 'reserve', at: 'here' },
      {
        kind: 'edge',
        between: [
          [5, 5],
          [0, 0],
        ],
      },
    ];
    expect(orderOfWork(plan({ overrules }), masses)).toEqual(orderOfWork(plan(), masses));
  });
});

describe('edges', () => {
  const masses = massesFrom(['0112', '0112']);
  const soft = [edge([0, 1], 'soft'), edge([1, 2], 'hard')];

  it('a soft edge is laid wet in wet', () => {
    const steps = orderOfWork(planOf(3, false), masses, { edges: soft });
    expect(steps.map(({ id, session, soft: pairs }) => [id, session, pairs])).toEqual([
      ['lay-0', 0, []],
      ['lay-1', 0, [[0, 1]]],
      ['lay-2', 1, []],
    ]);
    expect(codes(steps[1].hints)).toContain('order.hint-wet-together');
  });

  it('the painter has the last word on an edge', () => {
    const between = [
      [0.1, 0.5],
      [0.4, 0.5],
    ];
    const overrules = [{ kind: 'edge', between, edge: 'hard' }];
    const steps = orderOfWork(planOf(3, false, { overrules }), masses, { edges: soft });
    expect(steps.map(({ session }) => session)).toEqual([0, 1, 2]);
  });

  it('darks and lights that run together share a session, and the rest keeps off', () => {
    // The middle lies between them with hard edges: it waits.
    const three = massesFrom(['0012', '0222']);
    const edges = [edge([0, 1], 'hard'), edge([0, 2], 'soft'), edge([1, 2], 'hard')];
    const steps = orderOfWork(planOf(3, false), three, { edges });
    expect(steps.map(({ id, session }) => [id, session])).toEqual([
      ['lay-0', 0],
      ['lay-2', 0],
      ['lay-1', 1],
    ]);
  });

  it('says where a hard edge lies inside one wet session', () => {
    const three = massesFrom(['0012', '0222']);
    const edges = [edge([0, 1], 'soft'), edge([0, 2], 'soft'), edge([1, 2], 'hard')];
    const steps = orderOfWork(planOf(3, false), three, { edges });
    expect(steps.every(({ session }) => session === 0)).toBe(true);
    expect(codes(steps[2].hints)).toContain('order.hint-hard-while-wet');
  });
});

describe('steps that are moved', () => {
  const masses = massesFrom(['00000000', '02200000', '02200110', '00000110']);
  const plan = planOf(3, false, {
    overrules: [{ kind: 'reserve', at: [0.25, 0.5], method: 'mask' }],
  });
  const steps = orderOfWork(plan, masses);

  it('stand as told, and only they are marked', () => {
    expect(ids(steps)).toEqual(['mask', 'lay-0', 'lay-1', 'unmask']);
    const moved = withStepMoved(steps, 'mask', 1);
    expect(ids(moved)).toEqual(['lay-0', 'mask', 'lay-1', 'unmask']);
    expect(moved.map((step) => step.moved === true)).toEqual([false, true, false, false]);
    expect(withStepMoved(steps, 'lay-1', 2)).toEqual(steps);
    expect(() => withStepMoved(steps, 'none', 0)).toThrow(/^id is "none"/);
    expect(() => withStepMoved(steps, 'mask', 4)).toThrow(/^to is 4/);
  });

  it('paint before masking covers the reserve', () => {
    const moved = checkedSteps(withStepMoved(steps, 'mask', 1), plan, masses);
    expect(codes(moved[0].warnings)).toEqual(['order.warn-before-masking']);
    expect(codes(moved[1].waits)).toEqual(['order.wait-before-mask']);
  });

  it('paint after the masking is off must go around', () => {
    const moved = checkedSteps(withStepMoved(steps, 'unmask', 1), plan, masses);
    expect(codes(moved[2].warnings)).toEqual(['order.warn-after-unmasking']);
  });

  it('a light that is laid on its masking comes off with it', () => {
    const light = planOf(3, false);
    const facts = { reserves: [{ region: 1, area: 4, narrowestPx: 1, mask: true }] };
    const order = orderOfWork(light, masses, facts);
    const moved = checkedSteps(withStepMoved(order, 'lay-2', 1), light, masses, facts);
    expect(codes(moved[1].warnings)).toEqual(['order.warn-on-masking']);
  });

  it('masking that is never taken off is told', () => {
    const left = steps.filter(({ kind }) => kind !== 'unmask');
    expect(codes(checkedSteps(left, plan, masses)[0].warnings)).toEqual([
      'order.warn-still-masked',
    ]);
  });

  it("a step of another program or the painter's own that covers a reserve is told with its size", () => {
    const own = { id: 'glaze', regions: [0, 1], note: 'over all' };
    const found = stepWarnings([...steps, own], plan, masses).get('glaze');
    // 4 pixels of 8 on 381 mm: 4 x (381 / 8)^2 = 9072.6 mm2.
    expect(found).toContainEqual({
      code: 'order.warn-covers-reserve',
      values: { masses: 1, mm2: 9073 },
    });
  });

  it('a soft edge whose first side has dried is told', () => {
    const three = massesFrom(['0112', '0112']);
    const edges = [edge([0, 1], 'soft'), edge([1, 2], 'hard')];
    const order = orderOfWork(planOf(3, false), three, { edges });
    const moved = checkedSteps(withStepMoved(order, 'lay-0', 2), planOf(3, false), three, {
      edges,
    });
    expect(ids(moved)).toEqual(['lay-1', 'lay-2', 'lay-0']);
    expect(codes(moved[2].warnings)).toEqual(['order.warn-soft-dried']);
  });

  it('paint over marks that are done is told', () => {
    const mark = { x: 6, y: 3, area: 1, band: 0, contrast: -30, region: 2 };
    const marked = { ...masses, marks: [mark] };
    const order = orderOfWork(planOf(3, false), marked);
    expect(order.at(-1)).toMatchObject({ id: 'marks', marks: [1] });
    const moved = checkedSteps(withStepMoved(order, 'marks', 0), planOf(3, false), marked);
    expect(moved.flatMap(({ warnings }) => codes(warnings))).toEqual(['order.warn-covers-marks']);
  });

  it('ticks and the painter’s order outlast new masses', () => {
    const ticked = withStepDone(steps, 'lay-0', true);
    expect(reconcileSteps(ticked, steps).map(({ done }) => done === true)).toEqual([
      false,
      true,
      false,
      false,
    ]);
    expect(withStepDone(ticked, 'lay-0', false)).toEqual(steps);
    const moved = withStepMoved(ticked, 'lay-1', 1);
    expect(ids(moved)).toEqual(['mask', 'lay-1', 'lay-0', 'unmask']);
    // New masses without a middle, with a light that is laid: lay-1 goes, lay-2 comes behind what it follows there.
    const more = orderOfWork(plan, massesFrom(['00000022', '02200022', '02200000', '00000000']));
    expect(ids(more)).toEqual(['mask', 'lay-0', 'lay-2', 'unmask']);
    const again = reconcileSteps(moved, more);
    expect(ids(again)).toEqual(['mask', 'lay-0', 'lay-2', 'unmask']);
    expect(again[1]).toMatchObject({ done: true, regions: more[1].regions });
  });

  it('nothing is lost or doubled, whatever was arranged before', () => {
    const other = orderOfWork(
      planOf(3, true, { way: 'light-to-dark' }),
      massesFrom(['0123', '0123']),
    );
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(10), fc.nat(10)), { maxLength: 6 }),
        fc.constantFrom(steps, other),
        (moves, fresh) => {
          const own = { id: 'tea', text: 'a break' };
          let old: WorkStep[] = checkedSteps([...steps, own], plan, masses);
          for (const [from, to] of moves)
            old = withStepMoved(old, old[from % old.length].id, to % old.length);
          const again = reconcileSteps(old, fresh);
          expect(ids(again).slice().sort()).toEqual([...ids(fresh), 'tea'].sort());
          if (old.some(({ moved }) => moved) && fresh === steps)
            expect(ids(again)).toEqual(ids(old));
          expect(reconcileSteps(again, fresh)).toEqual(again);
        },
      ),
    );
  });
});
