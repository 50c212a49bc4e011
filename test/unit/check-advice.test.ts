/**
 * Advice in paint. The rules are common practice and stated in the module; what is checked here is that they hold, and that a glaze that
 * is named reaches its target by the paint model's own finite layer (Kubelka & Munk) when laid on what is there.
 */
import { describe, expect, it } from 'vitest';
import {
  adviceOn,
  comparePainting,
  edgeFindings,
  LEAVE_UNDER,
  type AdviceOptions,
  type PlannedPainting,
} from '../../core/check/index.js';
import { SAME_PLACE } from '../../core/geometry/index.js';
import type { Edge } from '../../core/mass/index.js';
import { mixOnPaper, paperReflectance } from '../../core/paint/index.js';
import { paintingOf, SHAPE_BANDS, SHAPE_TARGETS, shapeMasses } from './check-synthetic.js';

const masses = shapeMasses(240, 180);
const plan: PlannedPainting = { masses, targets: SHAPE_TARGETS };
const tones = SHAPE_BANDS.map((band) => SHAPE_TARGETS[band]);
const tubes = ['burnt-sienna', 'ultramarine', 'raw-sienna', 'quinacridone-rose'];

/** Advice on the plan's tones with some regions off: ground 0, head 1, body 2, table 3, eye 4 (small). */
function advise(off: Record<number, number>, options: Partial<AdviceOptions> = {}) {
  const painted = tones.map((tone, region) => tone + (off[region] ?? 0));
  const comparison = comparePainting(plan, paintingOf(masses, painted, SAME_PLACE), options);
  return adviceOn(comparison, plan, { brushPx: 12, tubes, ...options });
}
const codes = (advice: { reasons: { code: string }[] }): string[] =>
  advice.reasons.map(({ code }) => code);

describe('adviceOn', () => {
  it('leaves a small step', () => {
    const [advice] = advise({ 1: LEAVE_UNDER - 1 });
    expect(advice).toMatchObject({ region: 1, action: 'leave' });
    expect(codes(advice)).toEqual(['check.small-step']);
    expect(advise({})).toEqual([]);
  });

  it('glazes what is too light, with a mix that brings it to its target', () => {
    const [advice] = advise({ 1: 15 });
    expect(advice).toMatchObject({ region: 1, action: 'glaze' });
    expect(codes(advice)).toEqual(['check.too-light', 'check.glaze-unknown', 'check.glaze']);
    const mix = advice.mix!;
    const laid = mixOnPaper(mix.parts, {
      strength: mix.strength,
      paper: paperReflectance({ lightness: 73 }),
    });
    expect(Math.abs(laid.lab[0] - 58)).toBeLessThan(1);
    expect(mix.strength).toBeGreaterThan(0);
    expect(mix.strength).toBeLessThanOrEqual(1);
  });

  it('glazes over the paint that is noted, with the same paints', () => {
    const recipe = {
      parts: [
        { tube: 'burnt-sienna', parts: 2 },
        { tube: 'ultramarine', parts: 3 },
      ],
      strength: 0.4,
    };
    const [advice] = advise({ 1: 12 }, { laid: [null, recipe, null] });
    expect(codes(advice)).not.toContain('check.glaze-unknown');
    for (const { tube } of advice.mix!.parts)
      expect(recipe.parts.map((part) => part.tube)).toContain(tube);
    expect(Math.abs(advice.mix!.lab[0] - 58)).toBeLessThan(1);
  });

  it('says what the shelf does not reach, and when there is no shelf', () => {
    const pale = advise({ 2: 20 }, { tubes: ['raw-sienna'] })[0];
    expect(codes(pale)).toContain('check.glaze-short');
    expect(codes(advise({ 2: 20 }, { tubes: [] })[0])).toContain('check.no-shelf');
  });

  it('warns of paint that loosens, of covering paint, of many layers', () => {
    const laid = [null, { parts: [{ tube: 'cadmium-yellow', parts: 1 }], strength: 0.5 }, null];
    const order = [1, 2, 3, 4].map((n) => ({ id: `${n}`, regions: [1] }));
    const [advice] = advise({ 1: 12 }, { laid, order });
    expect(codes(advice)).toContain('check.re-wets');
    expect(codes(advice)).toContain('check.glaze-opaque');
    expect(advice.reasons).toContainEqual({ code: 'check.layers', values: { layers: 4 } });
  });

  it('lifts what is too dark as far as its paint lets go', () => {
    const laid = (tube: string) => [null, { parts: [{ tube, parts: 1 }], strength: 0.5 }, null];
    const soft = advise({ 1: -10 }, { laid: laid('raw-sienna') })[0];
    expect(soft.action).toBe('lift');
    expect(codes(soft)).toEqual(['check.too-dark', 'check.lift']);
    expect(soft.reasons[1].values).toEqual({ percent: 60, staining: 'low' });
    const unknown = advise({ 1: -10 })[0];
    expect(codes(unknown)).toContain('check.lift-unknown');
  });

  it('begins again only where a large mass cannot be lightened', () => {
    const stained = [null, null, { parts: [{ tube: 'pyrrole-red', parts: 1 }], strength: 0.6 }];
    const [ground] = advise({ 0: -45 }, { laid: stained });
    expect(ground).toMatchObject({ region: 0, action: 'restart' });
    expect(codes(ground)[0]).toBe('check.cannot-lift');
    expect(codes(ground)).toContain('check.reserve-lost');
  });

  it('sets small accents again instead of glazing or lifting', () => {
    const dark = advise({ 4: 20 }, { brushPx: 16 })[0];
    expect(dark).toMatchObject({ region: 4, action: 'reset-accent' });
    expect(codes(dark)[0]).toBe('check.accent');
    // A small light: the eye as a highlight.
    const lights = {
      ...masses,
      regions: masses.regions.map((r) => (r.id === 4 ? { ...r, band: 2 } : r)),
    };
    const lit = { masses: lights, targets: SHAPE_TARGETS };
    const comparison = comparePainting(lit, paintingOf(masses, tones, SAME_PLACE));
    const [advice] = adviceOn(comparison, lit, { brushPx: 16, tubes });
    expect(advice).toMatchObject({ region: 4, action: 'reset-accent' });
    expect(codes(advice)[0]).toBe('check.accent-opaque');
  });

  it('gives one piece of advice a correction, in its order', () => {
    const painted = [80, 70, 45, 40, 60];
    const comparison = comparePainting(plan, paintingOf(masses, painted, SAME_PLACE));
    const advice = adviceOn(comparison, plan, { brushPx: 12, tubes });
    expect(advice.map(({ region }) => region)).toEqual(
      comparison.corrections.map(({ region }) => region),
    );
    for (const { reasons } of advice) expect(reasons.length).toBeGreaterThan(0);
  });
});

describe('edgeFindings', () => {
  const edge = (a: number, b: number, kind: Edge['kind'], lengthPx = 10): Edge => ({
    regions: [a, b],
    kind,
    widthPx: kind === 'hard' ? 1.5 : 9,
    contrast: 20,
    lengthPx,
  });

  it('finds edges too hard and too soft, longest first, none beside what is to come', () => {
    const planned = [
      edge(0, 1, 'soft'),
      edge(0, 2, 'hard', 30),
      edge(1, 2, 'hard'),
      edge(2, 3, 'lost'),
    ];
    const painted = [
      edge(1, 0, 'hard'),
      edge(0, 2, 'lost', 30),
      edge(1, 2, 'hard'),
      edge(2, 3, 'hard'),
    ];
    const found = edgeFindings(planned, painted, [3]);
    expect(found.map(({ regions, action }) => [regions, action])).toEqual([
      [[0, 2], 'firm'],
      [[0, 1], 'soften'],
    ]);
    expect(found[1].reasons).toEqual([{ code: 'check.edge-too-hard', values: { width: 1.5 } }]);
  });
});
