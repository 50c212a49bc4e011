import { describe, expect, it } from 'vitest';
import {
  edgesOf,
  edgesWithOverrules,
  LOST_BELOW,
  SOFT_ABOVE_MM,
  type Lightness,
  type Masses,
} from '../../core/index.js';
import { massesOfLabels, minimalStandard } from './masses-helper.js';

const [WIDTH, HEIGHT] = [160, 120];

/** Error function, Abramowitz & Stegun 7.1.26 (error below 1.5e-7). */
function erf(x: number): number {
  const t = 1 / (1 + 0.3275911 * Math.abs(x));
  const poly =
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  return Math.sign(x) * (1 - poly * Math.exp(-x * x));
}

/** A step across a line through (80, 60): codes 80 to 200, `shape` gives 0..1 by the distance from the line. */
function stepPicture(
  degrees: number,
  shape: (distance: number) => number,
  [dark, light] = [80, 200],
  noise = 0,
): { masses: Masses; plane: Lightness } {
  const next = minimalStandard(5);
  const angle = (degrees * Math.PI) / 180;
  const data = new Uint8Array(WIDTH * HEIGHT);
  const drawn = new Uint8Array(WIDTH * HEIGHT);
  for (let at = 0; at < data.length; at++) {
    const x = (at % WIDTH) + 0.5 - 80;
    const y = Math.floor(at / WIDTH) + 0.5 - 60;
    const distance = x * Math.cos(angle) + y * Math.sin(angle);
    data[at] = Math.round(dark + (light - dark) * shape(distance) + noise * (next() - 0.5));
    drawn[at] = distance > 0 ? 1 : 0;
  }
  return {
    masses: massesOfLabels(drawn, WIDTH, HEIGHT),
    plane: { width: WIDTH, height: HEIGHT, data },
  };
}

const linear =
  (width: number) =>
  (distance: number): number =>
    Math.max(0, Math.min(1, 0.5 + distance / width));
const normal =
  (sigma: number) =>
  (distance: number): number =>
    0.5 + 0.5 * erf(distance / (sigma * Math.SQRT2));

const ANGLES = [0, 12, 45, 90, 117, 200];

describe('edgesOf', () => {
  it('measures the 10-90 % width of straight ramps: 0.8 of their length', () => {
    for (const degrees of ANGLES) {
      for (const length of [6, 10, 20, 30]) {
        const { masses, plane } = stepPicture(degrees, linear(length));
        const [edge] = edgesOf(masses, plane, { pxPerMm: 5 });
        expect(Math.abs(edge.widthPx - 0.8 * length)).toBeLessThanOrEqual(0.5);
        expect(Math.abs(edge.contrast - 120 / 2.55)).toBeLessThanOrEqual(0.8);
      }
    }
  });

  it('measures that of blurred steps: 2.563 sigma, within 6 %', () => {
    // The standard normal distribution reaches 90 % at 1.2816.
    for (const degrees of ANGLES) {
      for (const sigma of [2, 4, 8]) {
        const { masses, plane } = stepPicture(degrees, normal(sigma));
        const [edge] = edgesOf(masses, plane, { pxPerMm: 5 });
        expect(Math.abs(edge.widthPx / (2.5631 * sigma) - 1)).toBeLessThanOrEqual(0.06);
        expect(Math.abs(edge.contrast - 120 / 2.55)).toBeLessThanOrEqual(1.2);
      }
    }
  });

  it('measures them in grain as well, contrast within its standard deviation', () => {
    // Even from -12 to 12 codes: 24 / sqrt 12 / 2.55 = 2.7 L*.
    for (const degrees of ANGLES) {
      const { masses, plane } = stepPicture(degrees, normal(4), [80, 200], 24);
      const [edge] = edgesOf(masses, plane, { pxPerMm: 5 });
      expect(Math.abs(edge.widthPx / (2.5631 * 4) - 1)).toBeLessThanOrEqual(0.15);
      expect(Math.abs(edge.contrast - 120 / 2.55)).toBeLessThanOrEqual(24 / Math.sqrt(12) / 2.55);
    }
  });

  it('gives the exact contrast and 0.8 pixels for a step from pixel to pixel', () => {
    const { masses, plane } = stepPicture(0, (distance) => (distance > 0 ? 1 : 0));
    expect(edgesOf(masses, plane)).toEqual([
      {
        regions: [0, 1],
        kind: 'hard',
        widthPx: expect.closeTo(0.8, 6) as number,
        contrast: expect.closeTo(120 / 2.55, 6) as number,
        lengthPx: expect.closeTo(HEIGHT, 6) as number,
      },
    ]);
  });

  it('finds the step although the border lies beside it', () => {
    const { masses, plane } = stepPicture(0, (distance) => (distance > 3 ? 1 : 0));
    const [edge] = edgesOf(masses, plane, { pxPerMm: 5 });
    expect(edge.widthPx).toBeLessThanOrEqual(1);
    expect(edge.contrast).toBeCloseTo(120 / 2.55, 6);
  });

  it('does not take the shading beside a hard edge for a part of it', () => {
    const { masses, plane } = stepPicture(0, (distance) =>
      Math.max(0, Math.min(1, (distance > 0 ? 0.65 : 0.35) + distance / 260)),
    );
    const [edge] = edgesOf(masses, plane, { pxPerMm: 5 });
    expect(edge.widthPx).toBeLessThanOrEqual(2);
    expect(Math.abs(edge.contrast - (0.3 * 120) / 2.55)).toBeLessThanOrEqual(1.5);
  });

  it('is hard, soft or lost by millimetres on the paper and by contrast', () => {
    const pxPerMm = 4;
    const kindOf = (lengthMm: number, tones?: [number, number]): string => {
      const { masses, plane } = stepPicture(30, linear(lengthMm * pxPerMm), tones);
      return edgesOf(masses, plane, { pxPerMm })[0].kind;
    };
    expect(kindOf(0.9 * (SOFT_ABOVE_MM / 0.8))).toBe('hard');
    expect(kindOf(1.1 * (SOFT_ABOVE_MM / 0.8))).toBe('soft');
    const noticed = LOST_BELOW * 2.55;
    expect(kindOf(1, [100, 100 + Math.floor(noticed)])).toBe('lost');
    expect(kindOf(1, [100, 101 + Math.ceil(noticed)])).toBe('hard');
    expect(kindOf(5, [100, 100 + Math.floor(noticed)])).toBe('lost');
    expect(kindOf(1, [100, 100])).toBe('lost');
  });

  it('calls no edge soft that is as sharp as a picture can be', () => {
    // A step whose pixels hold the mean over a pixel and a little blur of the lens.
    for (const degrees of ANGLES) {
      for (const shape of [linear(1), linear(2), normal(0.8)]) {
        const { masses, plane } = stepPicture(degrees, shape);
        expect(edgesOf(masses, plane)[0].kind).toBe('hard');
        expect(edgesOf(masses, plane, { pxPerMm: 0.1 })[0].kind).toBe('hard');
      }
    }
  });

  it('judges without a size as on a sheet of A4', () => {
    const { masses, plane } = stepPicture(0, linear(20));
    expect(edgesOf(masses, plane)).toEqual(edgesOf(masses, plane, { pxPerMm: WIDTH / 297 }));
  });

  it('lists every pair of neighbours once, in order, with the length of its border', () => {
    const width = 90;
    const drawn = Array.from({ length: width * 90 }, (_, at) => {
      const x = (at % width) + 0.5;
      const y = Math.floor(at / width) + 0.5;
      return Math.hypot(x - 45, y - 40) < 20 ? 2 : x < 45 ? 0 : 1;
    });
    const masses = massesOfLabels(drawn, width, 90);
    const plane = { width, height: 90, data: Uint8Array.from(drawn, (label) => 60 * label + 30) };
    const edges = edgesOf(masses, plane);
    expect(edges.map(({ regions }) => regions)).toEqual([
      [0, 1],
      [0, 2],
      [1, 2],
    ]);
    expect(edges[0].lengthPx).toBeCloseTo(50, 0);
    for (const { lengthPx } of edges.slice(1))
      expect(Math.abs(lengthPx / (20 * Math.PI) - 1)).toBeLessThanOrEqual(0.03);
    expect(edges.map(({ contrast }) => Math.round(contrast * 2.55))).toEqual([60, 120, 60]);
    expect(edges.every(({ kind }) => kind === 'hard')).toBe(true);
  });

  it('stands single pixels and single masses', () => {
    const one = massesOfLabels([0], 1, 1);
    expect(edgesOf(one, { width: 1, height: 1, data: Uint8Array.of(9) })).toEqual([]);
    const two = massesOfLabels([0, 1], 2, 1);
    const [edge] = edgesOf(two, { width: 2, height: 1, data: Uint8Array.of(51, 102) });
    expect(edge).toMatchObject({ regions: [0, 1], kind: 'hard' });
    expect(edge.contrast).toBeCloseTo(20, 6);
    expect(Number.isFinite(edge.widthPx)).toBe(true);
  });

  it('names a wrong argument and leaves its input alone', () => {
    const { masses, plane } = stepPicture(0, linear(4));
    const copy = structuredClone({ masses, plane });
    edgesOf(masses, plane);
    expect({ masses, plane }).toEqual(copy);
    expect(() => edgesOf(masses, { width: 1, height: 1, data: new Uint8Array(1) })).toThrow(
      /plane/,
    );
    expect(() => edgesOf(masses, plane, { pxPerMm: 0 })).toThrow(/options.pxPerMm is 0/);
    expect(() => edgesOf(null as never, plane)).toThrow(TypeError);
  });
});

describe('edgesWithOverrules', () => {
  const masses = massesOfLabels([0, 1, 2, 2], 4, 1);
  const edges = edgesOf(masses, { width: 4, height: 1, data: Uint8Array.of(0, 100, 200, 200) });

  it('takes the last word on an edge and lists what makes no sense', () => {
    const overrules = [
      {
        kind: 'edge',
        between: [
          [0.1, 0.5],
          [0.3, 0.5],
        ],
        edge: 'soft',
      },
      {
        kind: 'edge',
        between: [
          [0.3, 0.5],
          [0.1, 0.5],
        ],
        edge: 'lost',
      },
      {
        kind: 'edge',
        between: [
          [0.6, 0.5],
          [0.9, 0.5],
        ],
        edge: 'soft',
      },
      {
        kind: 'edge',
        between: [
          [0.1, 0.5],
          [0.9, 0.5],
        ],
        edge: 'soft',
      },
      {
        kind: 'edge',
        between: [
          [0.1, 0.5],
          [1.9, 0.5],
        ],
        edge: 'soft',
      },
      { kind: 'join', from: [0.1, 0.5], to: [0.3, 0.5] },
      { kind: 'edge', between: [[0.1, 0.5]], edge: 'soft' },
    ];
    const { edges: wanted, unmet } = edgesWithOverrules(edges, masses, overrules);
    expect(wanted.map(({ kind }) => kind)).toEqual(['lost', 'hard']);
    expect(edges.map(({ kind }) => kind)).toEqual(['hard', 'hard']);
    expect(unmet).toEqual([
      { overrule: 2, reason: { code: 'edge.same-mass', values: { region: 2 } } },
      { overrule: 3, reason: { code: 'edge.no-neighbours', values: { from: 0, to: 2 } } },
      { overrule: 4, reason: { code: 'edge.outside', values: {} } },
    ]);
  });

  it('names a wrong argument', () => {
    expect(() => edgesWithOverrules(edges, masses, undefined as never)).toThrow(/overrules/);
  });
});
