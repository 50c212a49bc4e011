/**
 * What a check finds beside values: the wrong picture, a drawing that is off, islands. The similarity of a drawing: scikit-image 0.26.0,
 * SimilarityTransform.estimate (Umeyama 1991). The rest is laid out by hand.
 */
import { describe, expect, it } from 'vitest';
import { checkDrawing, islandsOf, matchOf } from '../../core/check/index.js';
import { SAME_PLACE } from '../../core/geometry/index.js';
import type { Lightness } from '../../core/base/types.js';
import { codeOf, paintingOf, SHAPE_BANDS, SHAPE_TARGETS, shapeMasses } from './check-synthetic.js';

const masses = shapeMasses(240, 180);
const tones = SHAPE_BANDS.map((band) => SHAPE_TARGETS[band]);
const planned = paintingOf(masses, tones, SAME_PLACE);

function turned({ width, height, data }: Lightness, across: boolean, down: boolean): Lightness {
  return {
    width,
    height,
    data: data.map((_, k) => {
      const x = k % width;
      const y = Math.floor(k / width);
      return data[(down ? height - 1 - y : y) * width + (across ? width - 1 - x : x)];
    }),
  };
}

describe('matchOf', () => {
  const painting = paintingOf(masses, [90, 50, 35, 64, 30], SAME_PLACE, 4, 3);

  it('knows the painting, though its tones are off', () => {
    const match = matchOf(planned, painting);
    expect(match.best).toBe('straight');
    expect(match.reasons).toEqual([]);
    expect(match.correlation).toBeGreaterThan(0.85);
  });

  it.each([
    ['mirrored', true, false, 'check.mirrored'],
    ['upside-down', true, true, 'check.upside-down'],
    ['mirrored-upside-down', false, true, 'check.mirrored'],
  ])('finds it %s', (lie, across, down, code) => {
    const match = matchOf(planned, turned(painting, across, down));
    expect(match.best).toBe(lie);
    expect(match.reasons.map((reason) => reason.code)).toEqual([code]);
  });

  it('tells another painting, and when it is too early to tell', () => {
    const other: Lightness = {
      width: 240,
      height: 180,
      data: Uint8Array.from({ length: 240 * 180 }, (_, k) => {
        const u = (k % 240) / 240;
        const v = Math.floor(k / 240) / 180;
        return 128 + 90 * Math.sin(19 * u) * Math.sin(17 * v);
      }),
    };
    expect(matchOf(planned, other).reasons[0].code).toBe('check.other-painting');
    const even = { ...planned, data: planned.data.map(() => 242) };
    expect(matchOf(even, painting).reasons[0].code).toBe('check.too-early');
    expect(matchOf(planned, even).reasons[0].code).toBe('check.other-painting');
    const dot = { width: 1, height: 1, data: Uint8Array.of(9) };
    expect(matchOf(dot, dot).reasons[0].code).toBe('check.too-early');
  });
});

describe('checkDrawing', () => {
  // In mm on a paper of 300 x 300.
  const from = [
    [20, 30],
    [150, 40],
    [160, 210],
    [30, 190],
    [90, 110],
  ];
  const to = [
    [24, 28],
    [153, 44],
    [158, 218],
    [26, 193],
    [97, 112],
  ];
  const landmarks = from.map(([x, y], i) => ({
    name: `mark ${i}`,
    planned: [x / 300, y / 300] as [number, number],
    painted: [to[i][0] / 300, to[i][1] / 300] as [number, number],
  }));
  const paper = { widthMm: 300, heightMm: 300 };

  it('has the similarity of scikit-image, and what it leaves over', () => {
    const found = checkDrawing(landmarks, paper);
    expect(found.scale).toBeCloseTo(1.0194978748073462, 9);
    expect(found.turn).toBeCloseTo(2.346109244610312, 9);
    const left = [
      [-0.11590296495956665, 0.47529200359390344],
      [2.8903863432165338, 0.08715184186883818],
      [0.9820305480682805, -0.3261455525606607],
      [1.3930817610062824, -1.1244384546271249],
      [-5.149595687331555, 0.8881401617250759],
    ].map(([x, y]) => Math.hypot(x, y));
    for (const { name, within } of found.displacements)
      expect(within).toBeCloseTo(left[Number(name.slice(5))], 6);
    expect(found.displacements[0].name).toBe('mark 4');
    expect(found.displacements[0].x).toBeCloseTo(7, 9);
    expect(found.displacements[0].y).toBeCloseTo(2, 9);
    expect(found.displacements[0].distance).toBeCloseTo(Math.hypot(7, 2), 9);
    expect(found.spread).toBeCloseTo(Math.sqrt(left.reduce((s, d) => s + d * d, 0) / 5), 6);
  });

  it('takes one landmark as a shift, and two as the whole drawing', () => {
    const one = checkDrawing(landmarks.slice(0, 1), paper);
    expect(one).toMatchObject({ turn: 0, scale: 1, spread: 0 });
    expect(one.shift[0]).toBeCloseTo(4, 9);
    expect(one.shift[1]).toBeCloseTo(-2, 9);
    expect(checkDrawing(landmarks.slice(0, 2), paper).spread).toBeCloseTo(0, 9);
    const same = [landmarks[0], { ...landmarks[0], name: 'again' }];
    expect(checkDrawing(same, paper)).toMatchObject({ turn: 0, scale: 1 });
  });

  it('tells mm of a paper that is not square', () => {
    const [mark] = checkDrawing([{ name: 'nose', planned: [0.5, 0.5], painted: [0.51, 0.48] }], {
      widthMm: 380,
      heightMm: 560,
    }).displacements;
    expect(mark.x).toBeCloseTo(3.8, 9);
    expect(mark.y).toBeCloseTo(-11.2, 9);
  });

  it('refuses no landmarks and wrong ones', () => {
    expect(() => checkDrawing([], paper)).toThrow(/^landmarks/);
    expect(() => checkDrawing([{ ...landmarks[0], painted: [0.5, NaN] }], paper)).toThrow(
      /^landmarks\[0\]\.painted\[1\]/,
    );
  });
});

describe('islandsOf', () => {
  const plan = { masses, targets: SHAPE_TARGETS };
  const brushPx = 12;
  const disc = (x0: number, y0: number, radius: number, lightness: number): Lightness => {
    const painting = { ...planned, data: planned.data.slice() };
    for (let y = 0; y < 180; y++)
      for (let x = 0; x < 240; x++)
        if (Math.hypot(x + 0.5 - x0, y + 0.5 - y0) < radius)
          painting.data[y * 240 + x] = codeOf(lightness);
    return painting;
  };

  it('finds none in the plan itself', () => {
    expect(islandsOf(plan, planned, { brushPx })).toEqual([]);
  });

  it('counts a patch as big as the brush, not a smaller one', () => {
    // The body (region 2, darkest) around (85, 125); a light patch in it.
    const found = islandsOf(plan, disc(85, 125, 8, 60), { brushPx });
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ region: 2, band: 1, glaze: 'now' });
    expect(found[0].at[0]).toBeCloseTo(85, 0);
    expect(found[0].at[1]).toBeCloseTo(125, 0);
    expect(Math.abs(found[0].area / (Math.PI * 64) - 1)).toBeLessThan(0.1);
    expect(found[0].lightness).toBeCloseTo(60, 0);
    expect(found[0].reasons[0].code).toBe('check.island-lighter');
    expect(islandsOf(plan, disc(85, 125, 4, 60), { brushPx })).toEqual([]);
  });

  it('cannot glaze away what is darker', () => {
    const [island] = islandsOf(plan, disc(40, 40, 10, 50), { brushPx });
    expect(island).toMatchObject({ region: 0, band: 1, glaze: 'none' });
    expect(island.reasons[0]).toEqual({ code: 'check.island-darker', values: { shift: 42.2 } });
  });

  it('puts the glaze off while steps beside it are ahead, and leaves out what is to come', () => {
    const withNeighbours = {
      ...plan,
      masses: {
        ...masses,
        regions: masses.regions.map((region) => ({
          ...region,
          neighbours: region.id === 2 ? [0, 3] : [],
        })),
      },
    };
    const order = [{ id: 'darks', regions: [2] }, { id: 'table', regions: [3] }, { id: 'look' }];
    const painting = disc(85, 125, 8, 60);
    const after = (upToStep: number) =>
      islandsOf(withNeighbours, painting, { brushPx, order, upToStep });
    expect(after(0)).toMatchObject([{ region: 2, glaze: 'later' }]);
    expect(after(0)[0].reasons[1]).toEqual({ code: 'check.glaze-after', values: { steps: 1 } });
    expect(after(1)).toMatchObject([{ region: 2, glaze: 'now' }]);
    expect(after(-1)).toEqual([]);
  });

  it('makes none of granulation, of a border a little off, or of a mass that is wrong as a whole', () => {
    const grainy = paintingOf(masses, tones, SAME_PLACE, 9, 4);
    expect(islandsOf(plan, grainy, { brushPx })).toEqual([]);
    const shifted = paintingOf(masses, tones, [1, 0, 2, 0, 1, 2, 0, 0, 1]);
    expect(islandsOf(plan, shifted, { brushPx })).toEqual([]);
    const wrong = paintingOf(masses, [92, 58, 60, 58, 28], SAME_PLACE);
    expect(islandsOf(plan, wrong, { brushPx })).toEqual([]);
  });
});
